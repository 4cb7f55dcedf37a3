-- SPDX-License-Identifier: MIT
-- Net section at a hole that is off the axis: two rectangles about their own centroid.
-- Mechanics of materials; the standard has no rule for holes.
local core = require "netsection.core"

-- Wood left below: the lip, or what a lip above leaves.
local function below(p)
  return p.side == "low" and p.lip or p.d - p.diameter - p.lip
end

return {
  name = "off_centre_hole", order = 90, standards = {"en-1995-1-1"}, units = "metric",
  title = "Hole off the axis of a joist",
  vary = {
    d = {195, 220, 245, 270}, b = {45, 47, 63}, diameter = {50, 55, 60, 68, 75},
    moment = {1.2, 1.4, 1.6, 1.8, 2.0, 2.2}, lip = {32, 38, 45, 52},
    side = {"low", "high"},
  },
  given = function(p)
    return {
      {"b", p.b, "mm", "thickness"}, {"h", p.d, "mm", "depth"},
      {"D", p.diameter, "mm", "diameter of the hole"},
      {"y_1", below(p), "mm", "wood left below the hole"},
      {"M", p.moment, "kN m", "moment there, bottom in tension"},
    }
  end,
  question = "A hole was bored through the joist off its axis. Find the stresses at both "
    .. "edges of what is left, about the net section's own axis, and compare them with "
    .. "the whole section. The standard has no rule for such holes; this is mechanics.",
  modes = {"bottom edge critical", "top edge critical"},
  suits = function(_, s)
    local lip = math.min(s.y_1, s.y_2)
    if lip < math.max(25, s.h / 8) or s.D > 0.4 * s.h
      or math.abs(s.y_2 - s.y_1) < 38 then
      return nil
    end
    return s.edge == "bottom" and "bottom edge critical" or "top edge critical"
  end,
  steps = {
    {"y_2", "h - y_1 - D", "mm", says = "wood left above"},
    {"A", "b*(y_1 + y_2)", "mm2", ask = "Net area", marks = 1, clause = "statics"},
    {"y", "b*(y_1^2/2 + y_2*(h - y_2/2))/A", "mm",
      ask = "Centroid of the net section above the bottom edge", marks = 2},
    {"I", "b*y_1^3/12 + b*y_1*(y - y_1/2)^2 + b*y_2^3/12 + b*y_2*(h - y_2/2 - y)^2",
      "mm4", ask = "Second moment of the net section about its own axis", marks = 3},
    {"sigma_b", "1000000*M*y/I", "N/mm2", ask = "Stress at the bottom edge", marks = 1,
      clause = "statics"},
    {"sigma_t", "1000000*M*(h - y)/I", "N/mm2", ask = "Stress at the top edge",
      marks = 1},
    {"sigma_0", "1000000*M*6/(b*h^2)", "N/mm2", ask = "Stress of the whole section",
      marks = 1},
    {"edge", "the larger of the two", "", ask = "Which edge of the wood is critical?",
      marks = 1, choice = {"bottom", "top"},
      hint = "the axis moves away from the hole; the edge beside the hole is the far one",
      value = function(s) return s.sigma_b > s.sigma_t and "bottom" or "top" end},
  },
  mistakes = {
    {of = {"sigma_b", "sigma_t"}, with = {sigma_b = "1000000*M*6/(b*h^2)",
      sigma_t = "1000000*M*6/(b*h^2)"}, name = "the whole section",
      reveals = "the hole takes its part of W away"},
    {of = {"I", "sigma_b", "sigma_t"}, with = {
      I = "b*h^3/12 - b*D^3/12 - b*D*(y_1 + D/2 - h/2)^2", y = "h/2"},
      name = "about the old axis", reveals = "the axis moves away from the hole; "
        .. "the old one gives too little"},
    {of = {"I"}, with = {I = "b*h^3/12 - b*D^3/12"},
      name = "the hole taken as if on the axis",
      reveals = "parallel axis: b D e^2 of the hole and the shift of the axis are "
        .. "missing"},
    {of = {"I"}, with = {I = "b*y_1^3/12 + b*y_2^3/12"},
      name = "the two parts each about its own axis",
      reveals = "the parts work together: add A e^2 of each"},
    {of = {"sigma_b", "sigma_t"}, with = {sigma_b = "1000000*M*(h - y)/I",
      sigma_t = "1000000*M*y/I"}, name = "the two edges exchanged",
      reveals = "y is measured from the bottom"},
  },
  figure = function(_, s, draw)
    return draw.sections {unit = "mm", {name = "joist", b = s.b, d = s.h,
      voids = {{s.y_1, s.y_1 + s.D}}, marks = {{0, s.y_1, "wood below", s.y_1},
        {s.y_1, s.y_1 + s.D, "hole", s.D}}}}
  end,
  source = "the core's net section of two bands",
  check = function(p)
    local n = core.section {b = p.b, d = p.d, y1 = below(p), y2 = below(p) + p.diameter}
    return {A = n.A, y = n.y_b, I = n.I, sigma_b = 1e6 * p.moment / n.S_b,
      sigma_t = 1e6 * p.moment / n.S_t}
  end,
}
