-- SPDX-License-Identifier: MIT
-- Notch in the bottom within the outer third of the span. IRC R502.8.1, NDS 4.4.3 and
-- 3.2.3.1.
local parts = require "netsection.parts"
local wood = require "netsection.homework.wood"

local function notched(p)
  return {size = p.size, wood = p.wood, span = p.span, spacing = p.spacing, dead = 10,
    live = p.live, repetitive = 1.0, cuts = {parts.notch {face = "bottom", from = p.from,
      to = p.from + p.length, depth = p.depth}}}
end

return {
  name = "outer_third_notch", order = 80, standards = {"us-nds-2018-asd"},
  title = "Notch in the outer third",
  vary = {
    size = {"2x8", "2x10", "2x12"}, span = {132, 144, 156, 168}, spacing = {12, 16},
    live = {30, 40}, from = {21, 24, 27, 30, 33}, length = {1.5, 2, 2.25, 3, 3.5},
    depth = {0.75, 1, 1.25, 1.5, 2}, wood = {wood.names[1], wood.names[2]},
  },
  given = function(p)
    local v = wood.values(p.wood, p.size)
    return wood.given(p, {
      {"x_1", p.from / 12, "ft", "from the left bearing to the notch"},
      {"c", p.length, "in", "length of the notch"},
      {"n", p.depth, "in", "depth of the notch, bottom"},
      {"F_b'", v.Fb * v.CF, "psi", "adjusted value in bending, repetitive factor 1.0"},
    })
  end,
  question = "A plumber notched the bottom of this joist. Check the notch against the "
    .. "code's limits, and the bending stress of what is left where the moment over the "
    .. "notch is largest.",
  modes = {"within the limits", "outside the limits"},
  suits = function(p, s)
    local a, b = p.depth / s.n_max, p.length / s.c_max
    local end_of = (p.from + p.length) / (p.span / 3)
    if math.abs(a - 1) < 0.02 or math.abs(b - 1) < 0.02 or end_of > 0.98
      or s.ratio < 0.35 or s.ratio > 1.5 then
      return nil
    end
    return s.rule == "within" and "within the limits" or "outside the limits"
  end,
  steps = {
    {"n_max", "d/6", "in", ask = "Deepest notch that the limits allow", marks = 1,
      clause = "IRC R502.8.1"},
    {"c_max", "d/3", "in", ask = "Longest notch that they allow", marks = 1,
      clause = "IRC R502.8.1"},
    {"z", "L/3", "ft", ask = "How far from the bearing notches are allowed", marks = 1,
      clause = "IRC R502.8.1"},
    {"rule", "depth, length and place against the limits", "",
      ask = "Is the notch within all three?", marks = 1, choice = {"within", "outside"},
      hint = "d/6 deep, d/3 long, outer third; actual depth",
      value = function(s)
        local inside = s.n <= s.n_max and s.c <= s.c_max and s.x_1 + s.c / 12 <= s.z
        return inside and "within" or "outside"
      end},
    {"w", "(D + L_L)*s/12", "plf", says = "load per foot"},
    {"x_2", "x_1 + c/12", "ft", says = "the notch's edge nearer mid-span"},
    {"M", "w*x_2*(L - x_2)/2", "ft-lb", ask = "Largest moment over the notch", marks = 2,
      clause = "statics"},
    {"S", "b*(d - n)^2/6", "in3", ask = "Section modulus of what is left", marks = 2},
    {"f_b", "12*M/S", "psi", ask = "Bending stress there", marks = 1,
      clause = "NDS 3.2.3.1"},
    {"ratio", "f_b/F_b'", "", ask = "Ratio of demand to capacity", marks = 1},
  },
  edge = {"ratio"},
  mistakes = {
    {of = "n_max", formula = "ceil(d)/6", name = "a sixth of the nominal depth",
      reveals = "the limits speak of actual depth"},
    {of = "n_max", formula = "d/4", name = "the limit of end notches",
      reveals = "d/4 is for the ends, in the span it is d/6"},
    {of = {"M", "f_b", "ratio"}, with = {M = "w*L^2/8"}, name = "the moment of mid-span",
      reveals = "the notch stands where the moment is smaller"},
    {of = {"S", "f_b", "ratio"}, with = {S = "b*d^2/6"}, name = "the whole section",
      reveals = "the notch leaves d - n"},
    {of = {"S", "f_b", "ratio"}, with = {S = "b*(d^3 - n^3)/(6*d)"},
      name = "the notch subtracted from I as if on the axis",
      reveals = "what is left is a lower rectangle with its own axis"},
  },
  figure = function(p, _, draw) return draw.elevation(notched(p)) end,
  source = "review of the notched joist: net-bending, rules",
  check = function(p)
    local r = wood.joist(notched(p)):review()
    local k = r:find("cut", "net-bending", 1)
    return {f_b = k.demand, ratio = k.ratio,
      rule = r.rules.status == "within" and "within" or "outside"}
  end,
}
