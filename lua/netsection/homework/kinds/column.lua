-- SPDX-License-Identifier: MIT
-- A solid post under a beam: slenderness, column stability factor, what it carries. NDS
-- 3.7.1.
local members = require "netsection.members"
local wood = require "netsection.homework.wood"

local function split(name)
  return name:match "^(.-) (%S+)$"
end

return {
  name = "column", order = 190, standards = {"us-nds-2018-asd"},
  title = "Post under a beam",
  vary = {
    size = {"4x4", "4x6"}, length = {72, 78, 81, 84, 87, 90, 93, 96, 99, 102, 108, 114},
    load = {2925, 3600, 4300, 5000, 5600, 6200, 6900, 7600, 8400, 9200, 10100, 11000,
      12000},
    wood = {wood.names[1], wood.names[2], wood.names[3], wood.names[4]},
  },
  given = function(p)
    local s, v = wood.size(p.size), wood.values(p.wood, p.size)
    return {
      {"", p.size .. " " .. p.wood, "", "Post"},
      {"d_1", s.b, "in", "thin side"}, {"d_2", s.d, "in", "other side"},
      {"l_e", p.length / 12, "ft", "height between what holds it sideways, both ways"},
      {"P", p.load, "lb", "load from the beam"},
      {"F_c", v.Fc, "psi", "reference value along the grain"},
      {"C_F", v.CF_c, "", "size factor for it"},
      {"E_min'", v.Emin, "psi", "adjusted modulus for stability"},
    }
  end,
  question = "A prop is set under a new beam: a solid post that nothing holds between "
    .. "its ends. Find what it carries as a column, C_D = 1.0, and whether it will do.",
  suits = function(_, s)
    if s.ratio < 0.25 or s.ratio > 1.6 then return nil end
    return s.ratio <= 1 and "the post will do" or "the post is too slender"
  end,
  modes = {"the post will do", "the post is too slender"},
  steps = {
    {"s_l", "12*l_e/d_1", "", ask = "Slenderness that governs", marks = 2,
      clause = "NDS 3.7.1.3", hint = "the thin side buckles first"},
    {"F_cE", "0.822*E_min'/s_l^2", "psi", ask = "Critical buckling value", marks = 2,
      clause = "NDS 3.7.1.5"},
    {"F_cs", "F_c*C_F", "psi", ask = "F_c*: the value with all factors but C_P",
      marks = 1, clause = "NDS 4.3.1"},
    {"r", "F_cE/F_cs", "", says = "ratio of the two"},
    {"q", "(1 + r)/1.6", "", says = "c = 0.8 for sawn lumber"},
    {"C_P", "q - sqrt(q^2 - r/0.8)", "", ask = "Column stability factor", marks = 3,
      clause = "NDS 3.7.1.5"},
    {"F_c'", "F_cs*C_P", "psi", ask = "Adjusted value along the grain", marks = 1,
      clause = "NDS 3.7.1.1"},
    {"P'", "F_c'*d_1*d_2", "lb", ask = "What the post carries", marks = 1},
    {"ratio", "P/P'", "", ask = "Ratio of demand to capacity", marks = 1},
    {"verdict", "P against P'", "", ask = "Will the post do?", marks = 1,
      choice = {"yes", "no"}, hint = "compare the load with what it carries",
      value = function(s) return s.ratio <= 1 + 1e-9 and "yes" or "no" end},
  },
  edge = {"ratio"},
  mistakes = {
    {of = {"C_P", "F_c'", "P'", "ratio"}, with = {C_P = "1"}, name = "no buckling",
      reveals = "a post of this height buckles before it crushes"},
    {of = {"F_cE", "C_P"}, with = {F_cE = "0.822*E_min'/(l_e/d_1)^2"},
      name = "height in feet", reveals = "l_e/d needs both in inches"},
    {of = "F_cs", formula = "F_c",
      name = "no size factor", reveals = "F_c* holds all factors but C_P"},
    {of = {"P'", "ratio"}, with = {["P'"] = "F_cE*d_1*d_2"}, name = "Euler's load",
      reveals = "real wood fails below Euler's load: C_P stands between the two"},
  },
  figure = function(p, _, draw)
    local s = wood.size(p.size)
    return draw.sections {{b = s.b, d = s.d, name = p.size}}
  end,
  source = "state of the post as a member (NDS 3.7.1 in the core)",
  check = function(p)
    local species, grade = split(p.wood)
    local a = members.new.post {size = p.size, species = species, grade = grade,
      length = p.length, load = p.load}:review()
    local k = a.checks[1]
    return {["P'"] = k.capacity, ratio = k.ratio, verdict = k.ratio <= 1 and "yes"
      or "no"}
  end,
}
