-- SPDX-License-Identifier: MIT
-- A solid post under a beam by load and resistance factors: slenderness, column stability
-- factor, what it carries. NDS 3.7.1, 4.3.1, Appendix N.
local base = require "netsection.homework.kinds.column"
local factored = require "netsection.homework.factored"
local wood = require "netsection.homework.wood"

local K_c, phi_c = factored.factors "c"

return {
  name = "column", order = base.order, standards = {"us-nds-2018-lrfd"},
  title = "Post under a beam, factored",
  vary = {
    size = base.vary.size, length = base.vary.length, wood = base.vary.wood,
    dead = {800, 1100, 1500, 2100}, live = {1800, 2300, 2900, 3700, 4600, 5700, 6900},
  },
  modes = base.modes, figure = base.figure,
  given = function(p)
    local s, v = wood.size(p.size), wood.values(p.wood, p.size)
    return {
      {"", p.size .. " " .. p.wood, "", "Post"},
      {"d_1", s.b, "in", "thin side"}, {"d_2", s.d, "in", "other side"},
      {"l_e", p.length / 12, "ft", "height between what holds it sideways, both ways"},
      {"P_D", p.dead, "lb", "dead load from the beam"},
      {"P_L", p.live, "lb", "live load from the beam"},
      {"F_c", v.Fc, "psi", "reference value along the grain"},
      {"C_F", v.CF_c, "", "size factor for it"},
      {"K_F", K_c, "", "format conversion, along the grain"},
      {"phi", phi_c, "", "resistance factor, along the grain"},
      {"lambda", 0.8, "", "time effect factor of 1.2D + 1.6L"},
      {"E_min", v.Emin, "psi", "reference modulus for stability"},
      {"K_FE", 1.76, "", "format conversion, E_min"},
      {"phi_s", 0.85, "", "resistance factor, stability"},
    }
  end,
  question = "A prop is set under a new beam: a solid post that nothing holds between "
    .. "its ends. By load and resistance factors, 1.2D + 1.6L, find what it carries as a "
    .. "column, and whether it will do.",
  suits = function(_, s)
    if s.ratio < 0.25 or s.ratio > 1.6 then return nil end
    return s.ratio <= 1 and "the post will do" or "the post is too slender"
  end,
  steps = {
    {"P_u", "1.2*P_D + 1.6*P_L", "lb", ask = "Factored load", marks = 1,
      clause = "statics"},
    {"s_l", "12*l_e/d_1", "", ask = "Slenderness that governs", marks = 2,
      clause = "NDS 3.7.1.3", hint = "the thin side buckles first"},
    {"E_min'", "E_min*K_FE*phi_s", "psi", says = "adjusted modulus for stability"},
    {"F_cE", "0.822*E_min'/s_l^2", "psi", ask = "Critical buckling value", marks = 2,
      clause = "NDS 3.7.1.5"},
    {"F_cs", "F_c*C_F*K_F*phi*lambda", "psi",
      ask = "F_c*: the value with all factors but C_P", marks = 2, clause = "NDS 4.3.1"},
    {"r", "F_cE/F_cs", "", says = "ratio of the two"},
    {"q", "(1 + r)/1.6", "", says = "c = 0.8 for sawn lumber"},
    {"C_P", "q - sqrt(q^2 - r/0.8)", "", ask = "Column stability factor", marks = 3,
      clause = "NDS 3.7.1.5"},
    {"F_c'", "F_cs*C_P", "psi", ask = "Adjusted value along the grain", marks = 1,
      clause = "NDS 3.7.1.1"},
    {"P'", "F_c'*d_1*d_2", "lb", ask = "What the post carries", marks = 1},
    {"ratio", "P_u/P'", "", ask = "Ratio of demand to capacity", marks = 1},
    {"verdict", "P_u against P'", "", ask = "Will the post do?", marks = 1,
      choice = {"yes", "no"}, hint = "compare the load with what it carries",
      value = function(s) return s.ratio <= 1 + 1e-9 and "yes" or "no" end},
  },
  edge = {"ratio"},
  mistakes = {
    {of = {"P_u", "ratio"}, with = {P_u = "P_D + P_L"}, name = "loads without factors",
      reveals = "in this format the loads are raised, 1.2 and 1.6"},
    {of = {"F_cE", "C_P"}, with = {["E_min'"] = "E_min"},
      name = "the reference modulus", reveals = "E_min has K_F and phi here, no lambda"},
    {of = {"F_cs", "C_P"}, with = {F_cs = "F_c*C_F"},
      name = "the value of allowable stress design",
      reveals = "factored loads go with K_F, phi and lambda"},
    {of = {"C_P", "F_c'", "P'", "ratio"}, with = {C_P = "1"}, name = "no buckling",
      reveals = "a post of this height buckles before it crushes"},
    {of = {"F_cE", "C_P"}, with = {F_cE = "0.822*E_min'/(l_e/d_1)^2"},
      name = "height in feet", reveals = "l_e/d needs both in inches"},
    {of = {"P'", "ratio"}, with = {["P'"] = "F_cE*d_1*d_2"}, name = "Euler's load",
      reveals = "real wood fails below Euler's load: C_P stands between the two"},
  },
  source = "the interaction of crushing and buckling behind C_P, its root by halving",
  check = function(p)
    local s, v = wood.size(p.size), wood.values(p.wood, p.size)
    local crush = v.Fc * v.CF_c * K_c * phi_c * 0.8 * s.b * s.d
    local buckle = 0.822 * 1.76 * 0.85 * v.Emin * s.b * s.d * (s.b / p.length) ^ 2
    -- The lesser root of c P^2 - (P_c + P_b) P + P_c P_b, c = 0.8 (NDS 3.7.1.5, forces).
    local low, high = 0, math.min(crush, buckle)
    for _ = 1, 200 do
      local P = (low + high) / 2
      if 0.8 * P * P - (crush + buckle) * P + crush * buckle > 0 then low = P
      else high = P end
    end
    local P_u = 1.2 * p.dead + 1.6 * p.live
    return {["P'"] = low, ratio = P_u / low, verdict = P_u <= low and "yes" or "no"}
  end,
}
