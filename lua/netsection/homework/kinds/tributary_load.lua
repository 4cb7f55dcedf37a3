-- SPDX-License-Identifier: MIT
-- Load path: how much of the floor one joist carries. Statics.
local wood = require "netsection.homework.wood"

return {
  name = "tributary_load", order = 10,
  standards = {"us-nds-2018-asd", "us-nds-2018-lrfd"},
  title = "Tributary load of a joist",
  vary = {
    left = {12, 14, 16, 18, 20}, right = {13, 15.5, 17.25, 18.75, 20.5},
    span = {132, 144, 156, 168},
    cover = {3, 5, 8}, ceiling = {2.5, 4}, live = {30, 40},
  },
  given = function(p)
    return {
      {"L", p.span / 12, "ft", "design span"},
      {"s_1", p.left, "in", "to the next joist on the left"},
      {"s_2", p.right, "in", "to the next joist on the right"},
      {"D_1", p.cover, "psf", "floor covering and deck"},
      {"D_2", 4, "psf", "joists and blocking"},
      {"D_3", p.ceiling, "psf", "ceiling below"},
      {"L_L", p.live, "psf", "live load of the room"},
    }
  end,
  question = "An old floor with uneven spacing: the joists to both sides of the one in "
    .. "question stand at different distances. Find what it carries.",
  steps = {
    {"t", "(s_1 + s_2)/2/12", "ft", ask = "Width of floor that the joist carries",
      marks = 2, clause = "statics", hint = "half of each bay belongs to this joist"},
    {"w_D", "(D_1 + D_2 + D_3)*t", "plf", ask = "Dead load per foot of joist", marks = 2},
    {"w_L", "L_L*t", "plf", ask = "Live load per foot of joist", marks = 1},
    {"w", "w_D + w_L", "plf", ask = "Total load per foot of joist", marks = 1},
    {"A_t", "t*L", "ft2", ask = "Tributary area", marks = 1},
    {"W", "w*L", "lb", ask = "Whole load on the joist", marks = 1},
    {"R", "W/2", "lb", ask = "What each bearing gets of it", marks = 2},
  },
  mistakes = {
    {of = {"t", "w_D", "w_L", "w", "A_t", "W", "R"}, with = {t = "(s_1 + s_2)/12"},
      name = "both bays taken whole",
      reveals = "the joists beside it carry the other half of each bay"},
    {of = {"t", "w_D", "w_L", "w"}, with = {t = "s_1/12"},
      name = "spacing of one side only", reveals = "the two bays differ; take half of "
        .. "each"},
    {of = {"w_D", "w", "W"}, with = {w_D = "D_1*t"},
      name = "only the floor covering taken as dead load",
      reveals = "joists and ceiling hang on the joist too"},
    {of = "R", formula = "W", name = "the reaction not halved",
      reveals = "two bearings share the load of a simple span"},
  },
  figure = function(p, _, draw)
    return draw.plan {L = p.span / 12, left = p.left, right = p.right}
  end,
  source = "review of a joist with that spacing and load: both reactions together",
  check = function(p)
    local dead = p.cover + 4 + p.ceiling
    local r = wood.joist {size = "2x10", wood = wood.names[1], span = p.span,
      spacing = {p.left, p.right}, dead = dead, live = p.live}:review()
    local R = r.uncut.reactions
    return {R = R[1], W = R[1] + R[2], w = (R[1] + R[2]) / (p.span / 12)}
  end,
}
