-- A drilled 2x10 calculates as adequate, and its grade was never seen. What was measured
-- with a tape and what was assumed are drawn by chance, and the review is worked again
-- for each draw: which doubt would change what is done?
local ns = require "netsection"

local floor = ns.floor {
  name = "Bath over the hall", size = "2x10", species = "douglas fir-larch",
  grade = "No.2", span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
  joists = {
    {mark = "J1"},
    {mark = "J2", cuts = {ns.hole {at = "5-2", diameter = 3, below = 2.25}}},
    {mark = "J3", cuts = {ns.end_notch {support = "left", face = "bottom",
      depth = 2.3125, length = 3.5}}},
    {mark = "J4", cuts = {ns.hole {at = "5-2", diameter = 4, below = 1.5}}},
  },
}
-- Weights of grades are the engineer's; other spreads stand by default and are listed.
local grades = {name = "grade", choice = {"No.1", "No.2", "No.3"},
  weights = {0.15, 0.70, 0.15}, source = "a guess from six boards in the attic"}

local all = floor:odds {inputs = {grades}}
print(all:text())
print()

-- One joist at length, its depth measured; and the wood, with the hole and without.
local joist = floor:joist "J2":with {b = 1.5, d = 9.25}
local o = joist:odds {defaults = true, inputs = {grades}, wood = true}
print(o:text())
print()

-- Half a page for a report, and a picture.
print(ns.document.markdown(o:half_page()))
local script = assert(ns.plot.tornado(o))
print(("picture: %s"):format(script:match "How sure is the verdict: joist %w+"))
