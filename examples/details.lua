-- SPDX-License-Identifier: MIT
-- Question: what does the carpenter get to build from? Ten repairs of ten kinds of damage
-- in an old net loft, each drawn to scale on one letter sheet: elevation, sections at the
-- fasteners and at mid-repair, parts, order of work. The sheets are gnuplot scripts in
-- the folder NETSECTION_OUT, or out, and draw PDF files. Expected: all ten serve and fit
-- their sheet; the strap under three times the live load fails, and is not drawn.
local ns = require "netsection"

local function joist(mark, cuts, more)
  local t = {mark = mark, size = "2x10", species = "douglas fir-larch", grade = "No.2",
    span = "13-0", spacing = 16, bearing = 3.5, dead = 12, live = 40, cuts = cuts}
  for name, value in pairs(more or {}) do t[name] = value end
  return ns.joist(t)
end

local bolt = ns.fastener {kind = "bolt", diameter = "1/2 in"}
local screw = ns.fastener {kind = "wood screw", number = 14, length = "3 in"}
local long_lag = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "8 in"}
local gap = {ns.sever {from = "6-0", to = "6-5"}}

local function groups(n)
  return {{at = "3-2", n = n}, {at = "5-6", n = n}, {at = "6-11", n = n},
    {at = "9-6", n = n}}
end

-- Cut through for a drain; a piece of full depth across the gap, bolted.
local part_sister = joist("D1", gap):fix(ns.sister {from = "2-8", to = "10-0",
  side = "right", fastener = bolt, groups = groups(6)})
-- A hole in the middle third; a new joist beside it on both bearings.
local full_sister = joist("D2", {ns.hole {at = "6-0", diameter = 3}}):fix(ns.sister {
  side = "left", fastener = bolt, pitch = 16})
local both_sides = joist("D3", gap):fix(ns.sister {from = "2-8", to = "10-0",
  side = "both", fastener = bolt, groups = groups(4)})
-- Notched at the bottom; plywood or steel on both faces.
local notch = {ns.notch {face = "bottom", from = "5-4", to = "5-7", depth = 1}}
local small = {size = "2x8", species = "spruce-pine-fir", span = "11-0", dead = 10,
  live = 30}
local plywood = joist("D4", notch, small):fix(ns.side_plates {from = "2-6", to = "8-6",
  thickness = "23/32 in", pitch = 3, per_row = 3, lift = "unloaded",
  material = {Fb = 1200, Fv = 250, E = 1.2e6},
  fastener = ns.fastener {kind = "nail", size = "10d"}})
-- A hole too near the bottom edge; a steel strap under it.
local strap = joist("D5", {ns.hole {at = "6-0", diameter = "1-3/4 in",
  below = "3/4 in"}}):fix(ns.strap {gauge = 10, n = 14, pitch = "2-1/2 in",
  fastener = screw, lift = "unloaded"})
-- Cut through for a hatch; headers between the joists beside it.
local floor = ns.floor {
  name = "Net loft", size = "2x10", species = "douglas fir-larch", grade = "No.2",
  span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
  joists = {{mark = "H1"}, {mark = "H2"}, {mark = "D6", cuts = {
    ns.sever {from = "6-0", to = "6-5"}}}, {mark = "H4"}, {mark = "H5"}},
}
local header = floor:joist("D6"):fix(ns.header {at = {"5-10", "6-7"}, hanger = "600 lb",
  tail_hanger = "600 lb"})
-- Notched at a bearing deeper than the standard allows; hung on its full depth.
local hanger = joist("D7", {ns.end_notch {support = "left", face = "bottom", depth = 3}},
  {size = "2x8", species = "hem-fir", span = "11-6"}):fix(ns.hanger {support = "left",
  capacity = "600 lb"})
-- Too weak over its whole length; a beam under the middle.
local support = joist("D8", {ns.hole {at = "4-0", diameter = 2}}, {size = "2x8",
  span = "14-8"}):fix(ns.midspan_support {at = "7-4"})
local added = joist("D9", {ns.hole {at = "6-0", diameter = 3}}, {span = "14-6",
  species = "spruce-pine-fir"}):fix(ns.added_joist {side = "right"})
-- A split that may run from an end notch; screws up through it.
local screws = joist("D10", {ns.end_notch {support = "right", face = "bottom",
  depth = "2-3/4 in"}}, {size = "2x12", span = "15-0"}):fix(ns.notch_screws {
  support = "right", n = 2, fastener = long_lag, full_thread = true})

local out = os.getenv "NETSECTION_OUT" or "out"
local all = {part_sister, full_sister, both_sides, plywood, strap, header, hanger,
  support, added, screws}
for i, one in ipairs(all) do
  local review = one:review()
  local mark, a = review.mark, review.fixed
  local script = assert(ns.plot.detail(review, {paper = "letter",
    output = ("%s/detail-%s.pdf"):format(out, mark)}))
  assert(ns.write(("%s/detail-%s.gp"):format(out, mark), script))
  local scales = {}
  for scale in script:gmatch "%((1:%d+)%)" do scales[#scales + 1] = scale end
  print(("%2d  %-4s %-68s %.2f  %s"):format(i, mark, a.title, a.ratio,
    table.concat(scales, ", ")))
end

-- Three times the load is no strap's work: it is not drawn as one to build.
local heavy = strap:with {live = 120}
print("\nnot drawn: " .. select(2, ns.plot.detail(heavy)))
