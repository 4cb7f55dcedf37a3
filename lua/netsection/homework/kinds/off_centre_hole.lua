-- SPDX-License-Identifier: MIT
-- Net section at a hole that is off the axis: two rectangles about their own centroid.
-- Mechanics of materials; NDS 3.2.3.1.
local core = require "netsection.core"
local wood = require "netsection.homework.wood"

-- Wood left below: the lip, or what a lip above leaves.
local function below(p)
  return p.side == "low" and p.lip or wood.size(p.size).d - p.diameter - p.lip
end

return {
  name = "off_centre_hole", order = 90,
  standards = {"us-nds-2018-asd", "us-nds-2018-lrfd"},
  title = "Hole off the axis of a joist",
  vary = {
    size = {"2x8", "2x10", "2x12"}, diameter = {2, 2.25, 2.5, 2.75, 3},
    moment = {900, 1000, 1100, 1200, 1300, 1400, 1500, 1600, 1700},
    lip = {1.25, 1.5, 1.75, 2}, side = {"low", "high"},
  },
  given = function(p)
    local s = wood.size(p.size)
    return {
      {"", p.size, "", "Joist"},
      {"b", s.b, "in", "thickness"}, {"d", s.d, "in", "depth"},
      {"D", p.diameter, "in", "diameter of the hole"},
      {"y_1", below(p), "in", "wood left below the hole"},
      {"M", p.moment, "ft-lb", "moment there, bottom in tension"},
    }
  end,
  question = "A hole was bored through the joist off its axis. Find the stresses at both "
    .. "edges of what is left, about the net section's own axis, and compare them with "
    .. "the whole section.",
  modes = {"bottom edge critical", "top edge critical"},
  suits = function(_, s)
    local lip = math.min(s.y_1, s.y_2)
    if lip < math.max(1, s.d / 8) or s.D > 0.45 * s.d
      or math.abs(s.y_2 - s.y_1) < 1.5 then
      return nil       -- a thinner lip does not count, and the axis is to be missed
    end
    return s.edge == "bottom" and "bottom edge critical" or "top edge critical"
  end,
  steps = {
    {"y_2", "d - y_1 - D", "in", says = "wood left above"},
    {"A", "b*(y_1 + y_2)", "in2", ask = "Net area", marks = 1, clause = "statics"},
    {"y", "b*(y_1^2/2 + y_2*(d - y_2/2))/A", "in",
      ask = "Centroid of the net section above the bottom edge", marks = 2},
    {"I", "b*y_1^3/12 + b*y_1*(y - y_1/2)^2 + b*y_2^3/12 + b*y_2*(d - y_2/2 - y)^2",
      "in4", ask = "Second moment of the net section about its own axis", marks = 3},
    {"f_b", "12*M*y/I", "psi", ask = "Stress at the bottom edge", marks = 1,
      clause = "NDS 3.2.3.1"},
    {"f_t", "12*M*(d - y)/I", "psi", ask = "Stress at the top edge", marks = 1},
    {"f_0", "12*M*6/(b*d^2)", "psi", ask = "Stress of the whole section", marks = 1},
    {"edge", "the larger of the two", "", ask = "Which edge of the wood is critical?",
      marks = 1, choice = {"bottom", "top", "both alike"},
      hint = "the axis moves away from the hole; the edge beside the hole is the far one",
      value = function(s)
        if math.abs(s.f_b - s.f_t) < 1e-6 * s.f_b then return "both alike" end
        return s.f_b > s.f_t and "bottom" or "top"
      end},
    {"why", ask = "Say why, and what tests on bored members add to it", marks = 2,
      hand = "The axis moves into the larger part, so the edge beside the thin part is "
        .. "farther from it. Tests: a small hole near the tension edge cost about as "
        .. "much strength as one three quarters larger in diameter, both 1 in from the "
        .. "edge; grain that runs out at the hole and the thin lip count, not the net "
        .. "section alone."},
  },
  mistakes = {
    {of = {"f_b", "f_t"}, with = {f_b = "12*M*6/(b*d^2)", f_t = "12*M*6/(b*d^2)"},
      name = "the whole section", reveals = "the hole takes its part of S away"},
    {of = {"I", "f_b", "f_t"}, with = {
      I = "b*d^3/12 - b*D^3/12 - b*D*(y_1 + D/2 - d/2)^2", y = "d/2"},
      name = "about the old axis", reveals = "the axis moves away from the hole; "
        .. "the old one gives too little"},
    {of = {"I"}, with = {I = "b*d^3/12 - b*D^3/12"},
      name = "the hole taken as if on the axis",
      reveals = "parallel axis: b*D*e^2 of the hole and the shift of the axis are "
        .. "missing"},
    {of = {"I"}, with = {I = "b*y_1^3/12 + b*y_2^3/12"},
      name = "the two parts each about its own axis",
      reveals = "the parts work together: add A*e^2 of each"},
    {of = {"f_b", "f_t"}, with = {f_b = "12*M*(d - y)/I", f_t = "12*M*y/I"},
      name = "the two edges exchanged", reveals = "y is measured from the bottom"},
  },
  figure = function(p, s, draw)
    return draw.sections {{name = p.size, b = s.b, d = s.d,
      voids = {{s.y_1, s.y_1 + s.D}}, marks = {{0, s.y_1, "wood below", s.y_1},
        {s.y_1, s.y_1 + s.D, "hole", s.D}}}}
  end,
  source = "the core's net section of two bands",
  check = function(p)
    local s = wood.size(p.size)
    local n = core.section {b = s.b, d = s.d, y1 = below(p), y2 = below(p) + p.diameter}
    return {A = n.A, y = n.y_b, I = n.I, f_b = 12 * p.moment / n.S_b,
      f_t = 12 * p.moment / n.S_t}
  end,
}
