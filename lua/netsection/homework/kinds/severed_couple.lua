-- SPDX-License-Identifier: MIT
-- A joist cut through and a short sister: the moment becomes a couple of its groups of
-- fasteners. And beside it a notched joist with a strap, whose arm is stated. Statics:
-- two groups on each side, no load on the sister between them. A strap alone never
-- serves a joist that is cut through: there is no path for compression and shear.
local parts = require "netsection.parts"
local fix = require "netsection.fix"
local fastener = require "netsection.fastener"
local wood = require "netsection.homework.wood"

local function severed(p)
  return wood.joist {size = p.size, wood = wood.names[1], span = p.span,
    spacing = p.spacing, dead = p.dead, live = 40,
    cuts = {parts.sever {from = p.inner + 4, to = p.inner + 10}}}
end

-- Mirror groups right of the gap, so that the sister is whole.
local function repaired(p)
  local far = p.inner + 14
  return severed(p):fix(fix.new.sister {
    from = p.inner - p.arm - 6, to = far + p.arm + 6,
    fastener = fastener {kind = "bolt", diameter = "1/2 in"}, gap_load = "between groups",
    groups = {{at = p.inner - p.arm, n = 4}, {at = p.inner, n = 4}, {at = far, n = 4},
      {at = far + p.arm, n = 4}}})
end

return {
  name = "severed_couple", order = 140, standards = {"us-nds-2018-asd"},
  title = "A joist cut through, and a strap",
  vary = {
    size = {"2x10", "2x12"}, span = {156, 162, 168, 174, 180}, spacing = {12, 16},
    dead = {10, 12, 15}, inner = {56, 60, 64, 66}, arm = {20, 24, 26, 28, 30},
  },
  given = function(p)
    local s = wood.size(p.size)
    return {
      {"", p.size, "", "Joists"}, {"d", s.d, "in", "depth"},
      {"L", p.span / 12, "ft", "design span"}, {"s", p.spacing, "in", "spacing"},
      {"D", p.dead, "psf", "dead load"}, {"L_L", 40, "psf", "live load"},
      {"x_i", p.inner / 12, "ft", "from the left bearing to the inner group"},
      {"a", p.arm, "in", "from the outer to the inner group, left of the gap"},
      {"e", 6, "in", "from the end of the sister to the outer group"},
      {"g", 4, "in", "from the inner group to the gap"},
      {"Z'", 300, "lb", "what one fastener carries"},
      {"", "0.9 d", "", "arm of the strap under the notched joist"},
    }
  end,
  question = "This joist is cut through right of x_i; a sister with two groups of "
    .. "fasteners on each side bridges the gap. All load; no load enters the sister left "
    .. "of the inner group. The joist beside it is only notched in the bottom at the "
    .. "same place, and a strap below is to take the tension there, its arm as stated.",
  suits = function(p, s)
    return s.V > 20 and s.F_i > 150 and p.inner - p.arm > 20
      and p.span - (p.inner + 14 + p.arm) > 12
  end,
  steps = {
    {"w", "(D + L_L)*s/12", "plf", says = "load per foot"},
    {"M", "w*x_i*(L - x_i)/2", "ft-lb", ask = "Moment at the inner group", marks = 1,
      clause = "statics"},
    {"V", "w*(L/2 - x_i)", "lb", ask = "Shear at the inner group", marks = 1},
    {"F_o", "12*M/a", "lb", ask = "Force of the outer group", marks = 2},
    {"F_i", "F_o - V", "lb", ask = "Force of the inner group", marks = 2},
    {"n_o", "ceil(F_o/Z')", "count", ask = "Fasteners in the outer group", marks = 1},
    {"x_o", "x_i - a/12", "ft", says = "place of the outer group"},
    {"M_o", "w*x_o*(L - x_o)/2", "ft-lb",
      ask = "Moment that the old joist still carries at the outer group", marks = 2},
    {"T", "12*M/(0.9*d)", "lb", ask = "Tension of the strap under the notched joist",
      marks = 1},
    {"strap", "no path for compression and shear", "",
      ask = "Would the strap alone serve the joist that is cut through?", marks = 1,
      choice = {"yes", "no"}, clause = "statics",
      hint = "a strap pulls; who pushes across the gap, and who carries the shear?",
      value = function() return "no" end},
    {"why", ask = "Say why", marks = 1, hand = "A strap supplies tension alone. Over a "
      .. "gap nothing carries the compression of the couple, nor the shear; it would "
      .. "need a block that fills the gap tightly and side plates for the shear."},
  },
  mistakes = {
    {of = {"F_o", "F_i", "n_o"}, with = {F_o = "12*M/(a + e + g)"},
      name = "the arm taken over the whole lap, from the end of the sister to the gap",
      reveals = "the couple acts between the middles of the groups"},
    {of = {"F_o", "F_i"}, with = {F_o = "M/a"}, name = "foot-pounds over inches",
      reveals = "turn M into lb-in first"},
    {of = "F_i", formula = "F_o + V", name = "the shear with the wrong sign",
      reveals = "left of mid-span the old joist brings V up to the group"},
    {of = "F_i", formula = "F_o", name = "both groups alike",
      reveals = "the sister also passes the shear V on"},
    {of = "n_o", formula = "floor(F_o/Z')", name = "the count rounded down",
      reveals = "a part of a fastener is one more fastener"},
    {of = "M_o", formula = "M", name = "the moment of the inner group",
      reveals = "where the sister stops the old joist carries all again, there"},
    {of = "T", formula = "12*M/d", name = "the full depth as arm",
      reveals = "the pressure has its middle below the top edge"},
    {of = "T", formula = "12*M/(2/3*d)", name = "the arm of a whole elastic section",
      reveals = "the strap is at the bottom edge, not at the centroid of a triangle"},
  },
  figure = function(p, _, draw) return draw.elevation(severed(p)) end,
  key_figure = function(p, _, draw) return draw.elevation(repaired(p)) end,
  source = "two coupled beams (the core's solver), load between the groups on the sister",
  check = function(p)
    local fixed = repaired(p):review().fixed
    local c = fixed.stations
    return {F_o = -c[1].full, F_i = c[2].full}
  end,
}
