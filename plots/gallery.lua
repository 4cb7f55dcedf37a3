-- SPDX-License-Identifier: MIT
-- The pictures of the README. Writes one gnuplot script each into the folder
-- NETSECTION_OUT, or out; run from the root, the scripts draw plots/*.png (make plots).
local ns = require "netsection"

-- A joist under a bath: notched for a supply, drilled for a drain.
local two_cuts = ns.joist {
  mark = "B4", size = "2x10", species = "douglas fir-larch", grade = "No.2",
  span = "13-6", spacing = 16, bearing = 3.5, dead = 16, live = 40,
  cuts = {
    ns.notch {face = "top", from = "2-0", to = "2-4", depth = "1-1/2 in"},
    ns.hole {at = "6-0", diameter = 4, below = "2-3/8 in"},
  },
}

-- One hole is there and a notch; where may the next be?
local mapped = ns.joist {
  mark = "B5", size = "2x10", species = "douglas fir-larch", grade = "No.2",
  span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
  cuts = {ns.hole {at = "5-2", diameter = 3},
    ns.notch {face = "top", from = "1-0", to = "1-3", depth = 1}},
}

-- Two spans over a wall, and a top notch where the top edge is in tension.
local two_spans = ns.joist {
  mark = "B7", size = "2x8", species = "hem-fir", grade = "No.2",
  spans = {"11-0", "8-6"}, spacing = 16, bearing = 3.5, dead = 12, live = 40,
  cuts = {ns.notch {face = "top", from = "11-3", to = "11-8", depth = "1-1/2 in"}},
}

-- Cut through for a drain, with a small hole beside it, and the repair.
local severed = ns.joist {
  mark = "B9", size = "2x10", species = "douglas fir-larch", grade = "No.2",
  span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
  cuts = {
    ns.sever {from = "6-0", to = "6-5"}, ns.hole {at = "9-0", diameter = "3/4 in"},
  },
}
local repaired = severed:fix(ns.sister {
  from = "2-8", to = "10-0", size = "2x10", side = "right",
  groups = {{at = "3-2", n = 10}, {at = "5-6", n = 10}, {at = "6-11", n = 10},
    {at = "9-6", n = 10}},
  fastener = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "3 in"},
})

-- What if: the drilled joist on other spans and spacings, and the hole elsewhere.
local bored = two_cuts:with {cuts = {ns.hole {at = "6-0", diameter = 4}}}
local what_if = ns.sweep {joist = bored, values = {"ratio"},
  over = {span = ns.steps("12-0", "16-0", "0-6"), spacing = {12, 16, 19.2, 24}}}
local elsewhere = ns.sweep {joist = bored, values = {"ratio"},
  over = {["cuts.1.at"] = ns.steps("1-0", "12-6", "0-3"),
    ["cuts.1.diameter"] = ns.steps("1 in", "6 in", "1/4 in")}}

-- A floor over a kitchen: what comes next for each joist, and what stands in the way.
local floor = ns.floor {
  name = "Bath over the kitchen", size = "2x10", species = "douglas fir-larch",
  grade = "No.2", span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
  joists = {
    {mark = "B1"}, {mark = "B2", cuts = {ns.hole {at = "4-0", diameter = 2}}},
    {mark = "B3", cuts = {ns.hole {at = "2-0", diameter = "3-1/2 in"}}},
    {mark = "B4", cuts = {ns.notch {face = "top", from = "2-0", to = "2-4", depth = 2}}},
    {mark = "B5", cuts = {ns.sever {from = "6-0", to = "6-5"}}},
    {mark = "B6", cuts = {ns.loss {from = "0-9", to = "3-0", from_right = true, top = 1,
      sides = "1/4 in", cause = "rot"}}},
    {mark = "B7", member = "I-joist"},
  },
  obstructions = {
    ns.obstruction {what = "3 in drain", kind = "drain", joist = "B5", at = "6-2",
      y = 1.5, diameter = 3.5, movable = "no"},
    ns.obstruction {what = "cable", kind = "cable", joists = {"B2", "B3", "B4"},
      at = "9-0", height = 4.6, diameter = "1/2 in", movable = "easy"},
  },
}
floor = floor:fix("B5", ns.sister {from = "2-8", to = "10-0", side = "left",
  fastener = ns.fastener {kind = "bolt", diameter = "1/2 in"}, groups = {
    {at = "3-2", n = 10}, {at = "5-6", n = 10}, {at = "6-11", n = 10},
    {at = "9-6", n = 10}}})

-- A bath floor with a joist cut through: as a grid, and a beam put under it.
local bath = {}
for i = 1, 7 do
  bath[i] = {mark = "J" .. i, cuts = i == 4 and {ns.sever {from = "6-0", to = "6-5"}}
    or nil}
end
local DFL = {species = "douglas fir-larch", grade = "No.2"}
bath = ns.floor {name = "Bath", size = "2x10", species = DFL.species, grade = DFL.grade,
  span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40, joists = bath}
local function shore_beam(mark, at)
  return ns.beam_line {mark = mark, at = at, size = "2x10", plies = 2,
    species = DFL.species, grade = DFL.grade, posts = {"J1", "J4", "J7"}}
end

local SMALL = {6, 5}
local pictures = {
  {"moment", ns.plot.moment, two_cuts, SMALL}, {"shear", ns.plot.shear, two_cuts, SMALL},
  {"two_spans", ns.plot.moment, two_spans, SMALL},
  {"elevation", ns.plot.elevation, two_cuts},
  {"elevation_repaired", ns.plot.elevation, repaired},
  {"moment_repaired", ns.plot.moment, repaired}, {"detail", ns.plot.detail, repaired},
  {"cut_map", ns.plot.cut_map, mapped},
  {"section", ns.plot.section, two_cuts, {6}}, {"sheet", ns.plot.sheet, two_cuts, {6}},
  {"plan", ns.plot.floor_plan, floor, {8}},
  {"summary", ns.plot.floor_summary, floor, {8}},
  {"grid_plan", ns.plot.grid_plan, bath:review {grid = {deck = "24oc OSB"}}.grid, {8}},
  {"load_path", ns.plot.load_path, bath:load_path {beams = {shore_beam("B1", "5-0"),
    shore_beam("B2", "7-6")}}},
}

local out = os.getenv "NETSECTION_OUT" or "out"
for _, picture in ipairs(pictures) do
  local name, draw, subject, size = table.unpack(picture)
  local script = assert(draw(subject, {output = ("plots/%s.png"):format(name),
    size = size}))
  assert(ns.write(("%s/%s.gp"):format(out, name), script))
end

local charts = {
  curves = ns.plot.curves(what_if, {value = "ratio", x = "span", lines = "spacing",
    output = "plots/curves.png", size = SMALL}),
  contour = ns.plot.contour(elsewhere, {value = "ratio", x = "cuts.1.at",
    y = "cuts.1.diameter", output = "plots/contour.png", size = SMALL}),
}
for name, script in pairs(charts) do
  assert(ns.write(("%s/%s.gp"):format(out, name), script))
end
