-- SPDX-License-Identifier: MIT
-- How long a short sister has to be: the groups' forces fall as the arm grows. Statics,
-- two groups on each side; NDS 3.3.2 for the old joist where the sister stops.
local fastener = require "netsection.fastener"
local fix = require "netsection.fix"
local parts = require "netsection.parts"
local wood = require "netsection.homework.wood"

local function severed(p)
  return wood.joist {size = p.size, wood = p.wood, span = p.span, spacing = p.spacing,
    dead = p.dead, live = 40, cuts = {parts.sever {from = p.gap, to = p.gap + p.width}}}
end

-- With groups where the answer puts them.
local function repaired(p, a_l, a_r)
  local far = p.gap + p.width + 4
  return severed(p):fix(fix.new.sister {from = p.gap - 4 - a_l - 6, to = far + a_r + 6,
    fastener = fastener {kind = "bolt", diameter = "1/2 in"}, gap_load = "between groups",
    groups = {{at = p.gap - 4 - a_l, n = p.n}, {at = p.gap - 4, n = p.n},
      {at = far, n = p.n}, {at = far + a_r, n = p.n}}})
end

return {
  name = "part_sister", order = 150, standards = {"us-nds-2018-asd"},
  title = "Length of a short sister",
  vary = {
    size = {"2x10", "2x12"}, span = {156, 162, 168, 174, 180}, spacing = {12, 16},
    dead = {10, 12, 15}, gap = {56, 58, 60, 62, 64}, width = {4, 5, 6}, n = {4, 5, 6},
    wood = {wood.names[1]},
  },
  given = function(p)
    local s, v = wood.size(p.size), wood.values(p.wood, p.size)
    return {
      {"", p.size .. " " .. p.wood, "", "Joist and sister"},
      {"b", s.b, "in", "thickness"}, {"d", s.d, "in", "depth"},
      {"L", p.span / 12, "ft", "design span"}, {"s", p.spacing, "in", "spacing"},
      {"D", p.dead, "psf", "dead load"}, {"L_L", 40, "psf", "live load"},
      {"x_1", (p.gap - 4) / 12, "ft", "to the left inner group"},
      {"x_2", (p.gap + p.width + 4) / 12, "ft", "to the right inner group"},
      {"n", p.n, "count", "fasteners in each group"},
      {"Z'", 150, "lb", "what one of them carries"},
      {"F_b'", v.Fb * v.CF, "psi", "adjusted value in bending, repetitive factor 1.0"},
    }
  end,
  question = "A joist is cut through between the two inner groups; a sister bridges it. "
    .. "How far out must the outer groups stand so that no group is over what its "
    .. "fasteners carry? All load, none enters the sister outside the inner groups. Take "
    .. "one arm for both sides and round it up to a whole inch.",
  suits = function(p, s)
    local left, right = p.gap - 4 - s.a, p.span - (p.gap + p.width + 4) - s.a
    -- With the right outer group at mid-span or past it, the larger moment at the two is
    -- the largest that the existing joist has.
    return left > 12 and right > 12 and s.x_r >= s.L / 2 and s.a >= 2 * s.d
      and s.a_2 > 1.02 * s.a_1
      and s.V_2 > 0.03 * s.F and s.V_2 < 0.3 * s.F
  end,
  steps = {
    {"w", "(D + L_L)*s/12", "plf", says = "load per foot"},
    {"M_1", "w*x_1*(L - x_1)/2", "ft-lb", ask = "Moment at the left inner group",
      marks = 1, clause = "statics"},
    {"M_2", "w*x_2*(L - x_2)/2", "ft-lb", ask = "Moment at the right inner group",
      marks = 1},
    {"V_2", "w*(L/2 - x_2)", "lb", ask = "Shear at the right inner group", marks = 1},
    {"F", "n*Z'", "lb", ask = "What one group carries", marks = 1},
    {"a_1", "12*M_1/F", "in", marks = 2,
      ask = "Least arm on the left, where the outer group decides"},
    {"a_2", "12*M_2/(F - V_2)", "in",
      ask = "Least arm on the right, where the inner group decides", marks = 2,
      says = "left of mid-span the inner group right of the gap has M/a + V"},
    {"a", "ceil(max(a_1, a_2))", "in", ask = "Arm for both, whole inches", marks = 1},
    {"x_l", "x_1 - a/12", "ft", says = "left outer group"},
    {"M_l", "w*x_l*(L - x_l)/2", "ft-lb", says = "moment there"},
    {"x_r", "x_2 + a/12", "ft", says = "right outer group"},
    {"M_r", "w*x_r*(L - x_r)/2", "ft-lb", says = "moment there"},
    {"M_o", "max(M_l, M_r)", "ft-lb", marks = 1, clause = "statics",
      ask = "Larger of the moments that the existing joist carries at the outer groups"},
    {"ratio", "12*M_o/(F_b'*b*d^2/6)", "", ask = "Its ratio to what the joist can bear",
      marks = 2, clause = "NDS 3.3.2"},
  },
  edge = {"ratio"},
  mistakes = {
    {of = {"a_1", "a_2"}, with = {a_1 = "M_1/F", a_2 = "M_2/F"},
      name = "foot-pounds over pounds, called inches", reveals = "M/F is in feet here"},
    {of = "a_2", formula = "12*M_2/(F + V_2)", name = "the shear with the wrong sign",
      reveals = "the inner group right of the gap has M/a and V"},
    {of = "a_2", formula = "12*M_2/F", name = "the shear left out",
      reveals = "the inner group also passes V on"},
    {of = {"a_1", "a_2"}, with = {a_1 = "12*M_1/(2*F)", a_2 = "12*M_2/(2*F)"},
      name = "both groups put together",
      reveals = "each group has to bear one force of the couple by itself"},
    {of = {"a_1", "a_2"}, with = {a_1 = "12*w*L^2/8/F", a_2 = "12*w*L^2/8/F"},
      name = "the moment of mid-span", reveals = "the couple starts at the inner group"},
    {of = {"M_o", "ratio"}, with = {M_o = "M_1"}, name = "the moment of the inner group",
      reveals = "where the sister stops the existing joist carries all again"},
    {of = {"M_o", "ratio"}, with = {M_o = "M_l"}, name = "the left outer group alone",
      reveals = "the gap is left of mid-span: the right outer group is nearer to it"},
  },
  figure = function(p, _, draw) return draw.elevation(severed(p)) end,
  source = "two coupled beams (the core's solver) with the groups at the arms found: the "
    .. "deciding groups carry F; review of the repaired joist: host-bending",
  check = function(p, s)
    local at = repaired(p, s.a_1, s.a_2):review().fixed.stations
    local _, k = nil, repaired(p, s.a, s.a):review():find("fixed", "host-bending")
    return {M_o = k.demand / 12, ratio = k.ratio, M_1 = -at[1].full * s.a_1 / 12,
      M_2 = -at[4].full * s.a_2 / 12,
      V_2 = at[3].full + at[4].full, F = at[3].full}
  end,
}
