-- SPDX-License-Identifier: MIT
-- A full bathtub on a joist: its weight over its footprint, the joist's share of it as a
-- load on part of the span. The empty tub is dead load; under it the live load is the
-- larger of water and people and the floor's own (as in the review). Statics.
local parts = require "netsection.parts"
local wood = require "netsection.homework.wood"

return {
  name = "tub", order = 120,
  standards = {"us-nds-2018-asd", "us-nds-2018-lrfd"},
  title = "A tub on a joist",
  vary = {
    span = {120, 132, 144, 156}, spacing = {12, 16}, from = {24, 30, 36, 42},
    empty = {120, 260, 320}, water = {420, 480, 560, 620}, width = {30, 32},
    dead = {12, 15},
  },
  given = function(p)
    return {
      {"L", p.span / 12, "ft", "design span, A to B"},
      {"s", p.spacing, "in", "spacing"},
      {"D", p.dead, "psf", "dead load"}, {"L_L", 20, "psf", "live load on the floor"},
      {"W_e", p.empty, "lb", "empty tub"}, {"W_w", p.water, "lb", "water"},
      {"W_p", 180, "lb", "one person"},
      {"l", 5, "ft", "length of its footprint, along the joist"},
      {"c", p.width, "in", "its width, across"},
      {"x_1", p.from / 12, "ft", "from A to where it begins"},
    }
  end,
  question = "A tub stands along this joist, which is under its footprint with its full "
    .. "spacing. Spread its weight over the footprint. The empty tub adds to the dead "
    .. "load; water and person are live load and stand in place of the floor's live load "
    .. "there, which is smaller. Find the largest moment.",
  suits = function(p, s)
    return p.from + 60 <= p.span - 12 and s.x_0 > s.x_1 + 0.2 and s.x_0 < s.x_2 - 0.2
  end,
  steps = {
    {"W", "W_e + W_w + W_p", "lb", ask = "Weight of the full tub", marks = 1,
      clause = "statics"},
    {"q", "W/(l*c/12)", "psf", ask = "Its weight per area of the footprint", marks = 2},
    {"w_t", "(q - L_L)*s/12", "plf", marks = 2,
      ask = "What it adds to the floor load per foot of this joist"},
    {"w", "(D + L_L)*s/12", "plf", ask = "Floor load per foot of joist", marks = 1},
    {"x_2", "x_1 + l", "ft", says = "where the tub ends"},
    {"R_A", "w*L/2 + w_t*l*(L - (x_1 + x_2)/2)/L", "lb", ask = "Reaction at A",
      marks = 2},
    {"R_B", "w*L + w_t*l - R_A", "lb", ask = "Reaction at B", marks = 1},
    {"x_0", "(R_A + w_t*x_1)/(w + w_t)", "ft", ask = "Where the shear is zero, from A",
      marks = 2},
    {"M", "R_A*x_0 - w*x_0^2/2 - w_t*(x_0 - x_1)^2/2", "ft-lb", ask = "Largest moment",
      marks = 2},
  },
  mistakes = {
    {of = {"W", "q", "w_t"}, with = {W = "W_e"}, name = "the tub taken empty",
      reveals = "the water weighs more than the tub"},
    {of = {"w_t"}, with = {w_t = "(q - L_L)*c/12"}, name = "all of the tub on one joist",
      reveals = "the joist carries its spacing of the tub's width"},
    {of = {"w_t", "R_A", "M"}, with = {w_t = "q*s/12"},
      name = "the floor's live load under the tub as well",
      reveals = "nobody walks where the tub stands: the larger of the two live loads"},
    {of = {"R_A", "R_B"}, with = {R_A = "(w*L + w_t*l)/2"},
      name = "the tub shared half and half",
      reveals = "its middle is not at mid-span; take moments"},
    {of = "M", formula = "(w + w_t)*L^2/8", name = "the tub along the whole joist",
      reveals = "it covers part of the span only"},
    {of = "M", formula = "w*L^2/8", name = "the floor alone",
      reveals = "the tub is missing"},
    {of = "M", formula = "R_A*x_0 - (w + w_t)*x_0^2/2",
      name = "the tub counted from the bearing", reveals = "its load begins at x_1"},
  },
  figure = function(p, _, draw)
    return draw.loads {L = p.span / 12, w = "floor load",
      parts = {{p.from / 12, p.from / 12 + 5, "tub"}}}
  end,
  source = "review of a joist under that tub and floor load",
  check = function(p)
    local r = wood.joist {size = "2x12", wood = wood.names[1], span = p.span,
      spacing = p.spacing, dead = p.dead, live = 20, loads = {parts.tub {from = p.from,
        to = p.from + 60, width = p.width, empty = p.empty, water = p.water,
        people = 180}}}:review()
    local R = r.uncut.reactions
    return {R_A = R[1], R_B = R[2], M = r.uncut.moment / 12,
      x_0 = r.uncut.moment_at / 12}
  end,
}
