-- SPDX-License-Identifier: MIT
-- Diagrams of V and M under the floor and a post left of mid-span. Statics. Where the
-- shear passes through zero the moment peaks: under the post or beside it.
local point = require "netsection.point"
local post = require "netsection.homework.post"

-- V and M along the joist by the free body left of the cut.
local function shear(s)
  return {{0, s.R_A}, {s.a, s.V_l}, {s.a, s.V_r}, {s.L, -s.R_B}}
end

local function moment(s)
  local points, n = {}, 48
  for i = 0, n do
    local x = s.L * i / n
    if x > s.a and points[#points][1] < s.a then points[#points + 1] = {s.a, s.M_a} end
    points[#points + 1] = {x, s.R_A * x - s.w * x * x / 2 - s.P * math.max(0, x - s.a)}
  end
  return points
end

local function text(value, unit) return point.format("%.0f %s", value, unit) end

return {
  name = "moment_shear", order = 30,
  standards = {"us-nds-2018-asd", "us-nds-2018-lrfd"},
  title = "Diagrams of shear and moment",
  vary = {
    span = {120, 132, 144, 156, 168, 180}, place = {36, 42, 48, 54, 60, 66},
    load = {40, 50, 60, 70, 80, 90}, post = {100, 125, 150, 200, 400, 450, 500, 600},
  },
  given = post.given,
  question = "Draw the shear and the moment of this joist, A on the left. Mark the "
    .. "values asked for. Shear is positive where the part left of the cut is pushed up.",
  modes = {"peak under the post", "peak beside the post"},
  suits = function(p, s)
    if p.place > 0.44 * p.span or math.abs(s.V_r) < 15 then return nil end
    return s.V_r > 0 and "peak beside the post" or "peak under the post"
  end,
  steps = {
    {"R_A", "w*L/2 + P*(L - a)/L", "lb", ask = "Reaction at A", marks = 1,
      clause = "statics"},
    {"R_B", "w*L + P - R_A", "lb", ask = "Reaction at B", marks = 1},
    {"V_l", "R_A - w*a", "lb", ask = "Shear just left of the post", marks = 1},
    {"V_r", "V_l - P", "lb", ask = "Shear just right of the post, with its sign",
      marks = 1, hint = "the shear drops by the load as the cut passes it"},
    {"x_0", "a + max(0, V_r)/w", "ft", marks = 2,
      ask = "Where the shear passes through zero, from A"},
    {"M_a", "R_A*a - w*a^2/2", "ft-lb", ask = "Moment under the post", marks = 1},
    {"M", "R_A*x_0 - w*x_0^2/2 - P*(x_0 - a)", "ft-lb", ask = "Largest moment",
      marks = 2},
  },
  mistakes = {
    {of = {"R_A", "R_B"}, with = {R_A = "w*L/2 + P*a/L"},
      name = "the post's two reactions exchanged",
      reveals = "the nearer bearing gets more of a load"},
    {of = "V_r", formula = "V_l + P", name = "the post added to the shear",
      reveals = "a load downward lowers the shear"},
    {of = "M_a", formula = "R_A*a", name = "the floor load left of the post forgotten",
      reveals = "everything on the part that was cut off turns it"},
    {of = "M", formula = "w*L^2/8 + P*L/4", name = "the post put at mid-span",
      reveals = "P*L/4 holds for a load in the middle only"},
    {of = "M", formula = "w*L^2/8", name = "the post left out",
      reveals = "the post bends the joist too"},
  },
  figure = post.figure,
  axes = function(_, s, draw)
    return draw.axes {L = s.L, name = "Shear V, lb"},
      draw.axes {L = s.L, name = "Moment M, ft-lb"}
  end,
  key_figure = function(_, s, draw)
    local V = {L = s.L, name = "Shear V", points = shear(s), marks = {
      {0, s.R_A, text(s.R_A, "lb")}, {s.a, s.V_l, text(s.V_l, "lb"), "left"},
      {s.a + 0.02 * s.L, s.V_r, text(s.V_r, "lb"), "left"},
      {s.L, -s.R_B, text(-s.R_B, "lb")}}}
    local M = {L = s.L, name = "Moment M", points = moment(s),
      marks = {{s.x_0, s.M, text(s.M, "ft-lb")}}}
    return draw.diagram(V), draw.diagram(M)
  end,
  source = "the beam solver (force method): shears, moment there, extreme moment",
  check = function(p)
    local b = post.beam(p)
    local R, most = b:reactions(), b:extremes().M_max
    return {R_A = R[1], R_B = R[2], V_l = b:at(p.place, "left").V,
      V_r = b:at(p.place, "right").V, M_a = b:at(p.place).M / 12, x_0 = most.x / 12,
      M = most.value / 12}
  end,
}
