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

-- Two spans over a wall, and a top notch where the top edge is in tension.
local two_spans = ns.joist {
  mark = "B7", size = "2x8", species = "hem-fir", grade = "No.2",
  spans = {"11-0", "8-6"}, spacing = 16, bearing = 3.5, dead = 12, live = 40,
  cuts = {ns.notch {face = "top", from = "11-3", to = "11-8", depth = "1-1/2 in"}},
}

local pictures = {
  {"moment", ns.plot.moment, two_cuts}, {"shear", ns.plot.shear, two_cuts},
  {"two_spans", ns.plot.moment, two_spans},
}

local out = os.getenv "NETSECTION_OUT" or "out"
for _, picture in ipairs(pictures) do
  local name, draw, joist = table.unpack(picture)
  local script = assert(draw(joist, {output = ("plots/%s.png"):format(name),
    size = {6, 5}}))
  assert(ns.write(("%s/%s.gp"):format(out, name), script))
end
