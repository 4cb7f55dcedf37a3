-- SPDX-License-Identifier: MIT
-- A drawn joist with three cuts, each to be put beside the limits of IRC R502.8.1.
local parts = require "netsection.parts"
local wood = require "netsection.homework.wood"

local function drawn(p)
  return {size = p.size, wood = wood.names[1], span = 168, spacing = 16, dead = 12,
    live = 40, cuts = {
      parts.end_notch {support = "left", face = "bottom", depth = p.at_end},
      parts.notch {face = "top", from = 36, to = 38, depth = p.notch},
      parts.hole {at = 96, diameter = p.hole, below = p.below},
    }}
end

local function answer(inside) return inside and "within" or "outside" end

return {
  name = "rule_check", order = 60,
  standards = {"us-nds-2018-asd", "us-nds-2018-lrfd"},
  title = "Three cuts beside the code's limits",
  vary = {
    size = {"2x8", "2x10", "2x12"}, at_end = {1.25, 1.5, 2, 2.5, 3},
    notch = {0.75, 1, 1.25, 1.5, 2}, hole = {1.5, 2, 2.25, 2.5, 3.25, 4},
    below = {1.25, 1.5, 1.75, 2.25, 2.5, 3},
  },
  given = function(p)
    local s = wood.size(p.size)
    return {
      {"", p.size, "", "Joist"},
      {"d", s.d, "in", "depth"}, {"L", 14, "ft", "design span"},
      {"n_e", p.at_end, "in", "depth of the end notch"},
      {"n", p.notch, "in", "depth of the top notch, 2 in long, 3 ft from the bearing"},
      {"D", p.hole, "in", "diameter of the hole"},
      {"y_1", p.below, "in", "wood left below the hole"},
    }
  end,
  question = "The figure shows a joist with three cuts. For each find the limits of IRC "
    .. "R502.8.1 and say whether it is within them. The wood above the hole follows from "
    .. "d, y_1 and D.",
  modes = {"one cut outside", "two cuts outside"},
  suits = function(p, s)
    local above = s.d - p.below - p.hole
    for _, r in ipairs {p.at_end / s.n_emax, p.notch / s.n_max, p.hole / s.D_max,
      p.below / 2, above / 2} do
      if math.abs(r - 1) < 0.02 then return nil end
    end
    if above < 1 then return nil end
    return s.count == 1 and "one cut outside" or s.count == 2 and "two cuts outside"
      or nil
  end,
  steps = {
    {"n_emax", "d/4", "in", ask = "Deepest end notch", marks = 1,
      clause = "IRC R502.8.1"},
    {"n_max", "d/6", "in", ask = "Deepest notch in the outer thirds", marks = 1},
    {"D_max", "d/3", "in", ask = "Largest hole", marks = 1},
    {"y_2", "d - y_1 - D", "in", ask = "Wood left above the hole", marks = 1},
    {"u_e", "n_e/n_emax", "", ask = "End notch, as a part of its limit", marks = 1},
    {"u_n", "n/n_max", "", ask = "Top notch, as a part of its limit", marks = 1},
    {"rule_e", "n_e against d/4", "", ask = "The end notch", marks = 1,
      choice = {"within", "outside"}, hint = "d/4 of the actual depth",
      value = function(s) return answer(s.n_e <= s.n_emax) end},
    {"rule_n", "n against d/6", "", ask = "The top notch", marks = 1,
      choice = {"within", "outside"}, hint = "d/6 deep, d/3 long, outer third",
      value = function(s) return answer(s.n <= s.n_max) end},
    {"rule_h", "D against d/3, 2 in of wood to each edge", "", ask = "The hole",
      marks = 2, choice = {"within", "outside"},
      hint = "two limits: size, and 2 in to both edges",
      value = function(s)
        return answer(s.D <= s.D_max and s.y_1 >= 2 and s.y_2 >= 2)
      end},
    {"count", "number outside", "count", ask = "How many cuts are outside?", marks = 1,
      clause = "IRC R502.8.1", value = function(s)
        local n = 0.0
        for _, rule in ipairs {"rule_e", "rule_n", "rule_h"} do
          if s[rule] == "outside" then n = n + 1 end
        end
        return n
      end},
  },
  mistakes = {
    {of = {"n_emax"}, with = {n_emax = "ceil(d)/4"},
      name = "a fourth of the nominal depth",
      reveals = "the limits speak of actual depth"},
    {of = {"n_max"}, with = {n_max = "ceil(d)/6"}, name = "a sixth of the nominal depth",
      reveals = "the limits speak of actual depth"},
    {of = {"D_max"}, with = {D_max = "ceil(d)/3"}, name = "a third of the nominal depth",
      reveals = "the limits speak of actual depth"},
    {of = "n_max", formula = "d/4", name = "the limit of end notches",
      reveals = "d/4 is for the ends, in the span it is d/6"},
  },
  figure = function(p, _, draw) return draw.elevation(drawn(p)) end,
  source = "review of the drawn joist: breaches by cut",
  check = function(p)
    local r = wood.joist(drawn(p)):review()
    local out = {}
    for _, breach in ipairs(r.rules.breaches) do
      if breach.cut then out[breach.cut] = true end
    end
    local n = 0
    for i = 1, 3 do n = n + (out[i] and 1 or 0) end
    return {rule_e = answer(not out[1]), rule_n = answer(not out[2]),
      rule_h = answer(not out[3]), count = n}
  end,
}
