-- SPDX-License-Identifier: MIT
-- Shear at a hole near mid-span with live load on the longer part only, by load and
-- resistance factors. Influence line of V of a simple span; NDS 3.4.3 on the net area,
-- 4.3.1, Appendix N.
local base = require "netsection.homework.kinds.patch_hole"
local factored = require "netsection.homework.factored"
local parts = require "netsection.parts"
local wood = require "netsection.homework.wood"

local function bored(p)
  return {size = p.size, wood = p.wood, span = p.span, spacing = p.spacing, dead = p.dead,
    live = p.live, cuts = {parts.hole {at = p.at, diameter = p.diameter}}}
end

return {
  name = "patch_hole", order = base.order, standards = {"us-nds-2018-lrfd"},
  title = "Live load on one part, at a hole, factored",
  vary = base.vary, suits = base.suits, figure = base.figure,
  given = function(p)
    return wood.given(p, {
      {"x", p.at / 12, "ft", "from the left bearing to the hole"},
      {"D_h", p.diameter, "in", "diameter, centered in the depth"},
      {"F_v", wood.values(p.wood, p.size).Fv, "psi", "reference value in shear"},
      factored.rows("v", "shear"),
    })
  end,
  question = "A hole stands left of mid-span. By load and resistance factors, 1.2D + "
    .. "1.6L: find the shear there with all the live load, and with live load only where "
    .. "it makes that shear larger. Check the net area.",
  steps = {
    {"w_D", "1.2*D*s/12", "plf", ask = "Factored dead load per foot of joist", marks = 1,
      clause = "statics"},
    {"w_L", "1.6*L_L*s/12", "plf", ask = "Factored live load per foot of joist",
      marks = 1},
    {"V_0", "(w_D + w_L)*(L/2 - x)", "lb", ask = "Shear at the hole, all loads",
      marks = 2},
    {"V_L", "w_L*(L - x)^2/(2*L)", "lb",
      ask = "Shear there by live load on the longer part alone", marks = 3},
    {"V_u", "w_D*(L/2 - x) + V_L", "lb", ask = "Largest shear there, dead load with it",
      marks = 1},
    {"F_v'", "F_v*K_F*phi*lambda", "psi", ask = "Adjusted value in shear", marks = 2,
      clause = "NDS 4.3.1, Appendix N"},
    {"A", "b*(d - D_h)", "in2", ask = "Net area at the hole", marks = 1},
    {"V'", "2/3*F_v'*A", "lb", ask = "Shear that the net area carries", marks = 1,
      clause = "NDS 3.4.3"},
    {"ratio", "V_u/V'", "", ask = "Ratio of demand to capacity", marks = 1},
  },
  edge = {"ratio"},
  mistakes = {
    {of = {"w_D", "w_L", "V_0", "V_u", "ratio"}, with = {w_D = "D*s/12",
      w_L = "L_L*s/12"}, name = "loads without factors",
      reveals = "in this format the loads are raised, 1.2 and 1.6"},
    {of = {"F_v'", "V'"}, with = {["F_v'"] = "F_v*K_F*phi"},
      name = "the time effect factor left out",
      reveals = "lambda stands in the place of the load duration factor"},
    {of = {"F_v'", "V'"}, with = {["F_v'"] = "F_v"},
      name = "the value of allowable stress design",
      reveals = "factored loads go with K_F, phi and lambda"},
    {of = {"V_u", "ratio"}, with = {V_u = "V_0"},
      name = "the live load on the whole span",
      reveals = "live load left of the hole lowers the shear there; leave it off"},
    {of = {"V_L", "V_u", "ratio"}, with = {V_L = "w_L*x^2/(2*L)"},
      name = "the live load on the shorter part",
      reveals = "the larger shear comes from the longer part"},
    {of = {"V_L", "V_u"}, with = {V_L = "w_L*(L - x)"},
      name = "the whole load of the longer part",
      reveals = "only its left reaction passes through the hole: take moments about B"},
    {of = {"A", "V'", "ratio"}, with = {A = "b*d"}, name = "the whole area",
      reveals = "the hole takes its diameter off"},
  },
  source = "review of the bored joist by load and resistance factors: net-shear",
  check = function(p)
    local r = wood.joist(bored(p)):review(factored.options)
    local k = r:find("cut", "net-shear", 1)
    local found = {V_u = k.demand}
    for _, step in ipairs(k.steps) do
      if step.symbol == "A" or step.symbol == "F_v'" then
        found[step.symbol] = step.value
      end
    end
    found["V'"] = 2 / 3 * found["F_v'"] * found.A
    return found
  end,
}
