-- SPDX-License-Identifier: MIT
-- Shear at a hole near mid-span with live load where it hurts: on the longer part only.
-- Influence line of V of a simple span; NDS 3.4.3 on the net area.
local parts = require "netsection.parts"
local wood = require "netsection.homework.wood"

local function bored(p)
  return {size = p.size, wood = p.wood, span = p.span, spacing = p.spacing, dead = p.dead,
    live = p.live, cuts = {parts.hole {at = p.at, diameter = p.diameter}}}
end

return {
  name = "patch_hole", order = 100, standards = {"us-nds-2018-asd"},
  title = "Live load on one part, at a hole",
  vary = {
    size = {"2x8", "2x10", "2x12"}, span = {144, 156, 168, 180}, spacing = {12, 16, 24},
    dead = {10, 12, 15}, live = {30, 40}, at = {54, 60, 66, 72}, diameter = {2, 2.5, 3},
    wood = {wood.names[1], wood.names[2]},
  },
  given = function(p)
    return wood.given(p, {
      {"x", p.at / 12, "ft", "from the left bearing to the hole"},
      {"D_h", p.diameter, "in", "diameter, centered in the depth"},
      {"F_v'", wood.values(p.wood, p.size).Fv, "psi", "adjusted value in shear"},
    })
  end,
  question = "A hole stands left of mid-span. Find the shear there with all the live "
    .. "load, and with live load only where it makes that shear larger. Check the net "
    .. "area.",
  suits = function(p, s)
    return p.at < 0.46 * p.span and p.diameter <= p.at and s.d - p.diameter >= 4.5
      and s.V_0 > 20 and s.ratio > 0.07
  end,
  steps = {
    {"w_D", "D*s/12", "plf", ask = "Dead load per foot of joist", marks = 1,
      clause = "statics"},
    {"w_L", "L_L*s/12", "plf", ask = "Live load per foot of joist", marks = 1},
    {"V_0", "(w_D + w_L)*(L/2 - x)", "lb", ask = "Shear at the hole, all loads",
      marks = 2},
    {"V_L", "w_L*(L - x)^2/(2*L)", "lb",
      ask = "Shear there by live load on the longer part alone", marks = 3},
    {"V", "w_D*(L/2 - x) + V_L", "lb", ask = "Largest shear there, dead load with it",
      marks = 1},
    {"A", "b*(d - D_h)", "in2", ask = "Net area at the hole", marks = 1},
    {"V'", "2/3*F_v'*A", "lb", ask = "Shear that the net area carries", marks = 1,
      clause = "NDS 3.4.3"},
    {"ratio", "V/V'", "", ask = "Ratio of demand to capacity", marks = 1},
  },
  edge = {"ratio"},
  mistakes = {
    {of = {"V", "ratio"}, with = {V = "V_0"}, name = "the live load on the whole span",
      reveals = "live load left of the hole lowers the shear there; leave it off"},
    {of = {"V_L", "V", "ratio"}, with = {V_L = "w_L*x^2/(2*L)"},
      name = "the live load on the shorter part",
      reveals = "the larger shear comes from the longer part"},
    {of = {"V_L", "V"}, with = {V_L = "w_L*(L - x)"},
      name = "the whole load of the longer part",
      reveals = "only its left reaction passes through the hole: take moments about B"},
    {of = {"V_0", "V"}, with = {V_0 = "(w_D + w_L)*L/2", V = "(w_D + w_L)*L/2"},
      name = "the shear of the bearing", reveals = "the hole stands where the shear is "
        .. "less"},
    {of = {"A", "V'", "ratio"}, with = {A = "b*d"}, name = "the whole area",
      reveals = "the hole takes its diameter off"},
  },
  figure = function(p, _, draw) return draw.elevation(bored(p)) end,
  source = "review of the bored joist: V by influence line at the hole, net-shear",
  check = function(p)
    local r = wood.joist(bored(p)):review()
    local c, k = r.cuts[1], r:find("cut", "net-shear", 1)
    local A, F_v
    for _, step in ipairs(k.steps) do
      A = step.symbol == "A" and step.value or A
      F_v = step.symbol == "F_v'" and step.value or F_v
    end
    return {V_0 = c.V_full, V = c.V_mid_most, ["V'"] = 2 / 3 * F_v * A}
  end,
}
