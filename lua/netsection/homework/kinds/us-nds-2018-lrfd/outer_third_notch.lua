-- SPDX-License-Identifier: MIT
-- Notch in the bottom within the outer third of the span, by load and resistance factors.
-- IRC R502.8.1, NDS 4.4.3, 3.2.3.1, 4.3.1, Appendix N.
local base = require "netsection.homework.kinds.outer_third_notch"
local factored = require "netsection.homework.factored"
local parts = require "netsection.parts"
local wood = require "netsection.homework.wood"

local function notched(p)
  return {size = p.size, wood = p.wood, span = p.span, spacing = p.spacing, dead = 10,
    live = p.live, repetitive = 1.0, cuts = {parts.notch {face = "bottom", from = p.from,
      to = p.from + p.length, depth = p.depth}}}
end

return {
  name = "outer_third_notch", order = base.order, standards = {"us-nds-2018-lrfd"},
  title = "Notch in the outer third, factored",
  vary = base.vary, modes = base.modes, suits = base.suits, figure = base.figure,
  given = function(p)
    local v = wood.values(p.wood, p.size)
    return wood.given(p, {
      {"x_1", p.from / 12, "ft", "from the left bearing to the notch"},
      {"c", p.length, "in", "length of the notch"},
      {"n", p.depth, "in", "depth of the notch, bottom"},
      {"F_b", v.Fb * v.CF, "psi", "value in bending, size factor in it, repetitive 1.0"},
      factored.rows("b", "bending"),
    })
  end,
  question = "A plumber notched the bottom of this joist. Check the notch against the "
    .. "code's limits, and by load and resistance factors, combination 1.2D + 1.6L, the "
    .. "bending stress of what is left where the moment over the notch is largest.",
  steps = {
    {"n_max", "d/6", "in", ask = "Deepest notch that the limits allow", marks = 1,
      clause = "IRC R502.8.1"},
    {"c_max", "d/3", "in", ask = "Longest notch that they allow", marks = 1,
      clause = "IRC R502.8.1"},
    {"z", "L/3", "ft", says = "how far from the bearing notches are allowed"},
    {"rule", "depth, length and place against the limits", "",
      ask = "Is the notch within the limits of depth, length and place?", marks = 1,
      choice = {"within", "outside"},
      hint = "d/6 deep, d/3 long, outer third; actual depth",
      value = function(s)
        local inside = s.n <= s.n_max and s.c <= s.c_max and s.x_1 + s.c / 12 <= s.z
        return inside and "within" or "outside"
      end},
    {"w_u", "(1.2*D + 1.6*L_L)*s/12", "plf", ask = "Factored load per foot of joist",
      marks = 1, clause = "statics", hint = "each load with its own factor"},
    {"x_2", "x_1 + c/12", "ft", says = "the notch's edge nearer mid-span"},
    {"M_u", "w_u*x_2*(L - x_2)/2", "ft-lb", marks = 2, clause = "statics",
      ask = "Largest factored moment over the notch"},
    {"S", "b*(d - n)^2/6", "in3", ask = "Section modulus of what is left", marks = 2},
    {"f_b", "12*M_u/S", "psi", ask = "Bending stress there", marks = 1,
      clause = "NDS 3.2.3.1"},
    {"F_b'", "F_b*K_F*phi*lambda", "psi", ask = "Adjusted value in bending", marks = 2,
      clause = "NDS 4.3.1, Appendix N"},
    {"ratio", "f_b/F_b'", "", ask = "Ratio of demand to capacity", marks = 1},
  },
  edge = {"ratio"},
  mistakes = {
    {of = {"w_u", "M_u", "f_b", "ratio"}, with = {w_u = "(D + L_L)*s/12"},
      name = "loads without factors",
      reveals = "in this format the loads are raised, 1.2 and 1.6"},
    {of = {"F_b'", "ratio"}, with = {["F_b'"] = "F_b*K_F*phi"},
      name = "the time effect factor left out",
      reveals = "lambda stands in the place of the load duration factor"},
    {of = {"F_b'", "ratio"}, with = {["F_b'"] = "F_b"},
      name = "the value of allowable stress design",
      reveals = "factored loads go with K_F, phi and lambda"},
    {of = "n_max", formula = "ceil(d)/6", name = "a sixth of the nominal depth",
      reveals = "the limits speak of actual depth"},
    {of = {"M_u", "f_b", "ratio"}, with = {M_u = "w_u*L^2/8"},
      name = "the moment of mid-span",
      reveals = "the notch stands where the moment is smaller"},
    {of = {"S", "f_b", "ratio"}, with = {S = "b*d^2/6"}, name = "the whole section",
      reveals = "the notch leaves d - n"},
  },
  source = "review of the notched joist by load and resistance factors (net-bending)",
  check = function(p)
    local r = wood.joist(notched(p)):review(factored.options)
    local k = r:find("cut", "net-bending", 1)
    return {f_b = k.demand, ratio = k.ratio, ["F_b'"] = k.capacity,
      rule = r.rules.status == "within" and "within" or "outside"}
  end,
}
