-- SPDX-License-Identifier: MIT
-- Question: a flue took two joists of a mill loft out, side by side. Can one pair of
-- headers take both, and what does the notch in the joist beside them change? Expected:
-- the header runs over three bays to the next joists that stand, a point load of each
-- tail on it; by statics the left header has 2 x 211 lb on it. With a deep notch in the
-- joist on the right the repair fails until that joist is repaired itself.
local ns = require "netsection"

local gone = {ns.sever {from = "5-2", to = "6-2", note = "flue"}}
local function loft(right)
  return ns.floor {name = "Mill loft", size = "2x10", species = "douglas fir-larch",
    grade = "No.2", span = "14-0", spacing = 16, bearing = 3.5, dead = 10, live = 40,
    joists = {{mark = "M1"}, {mark = "M2"}, {mark = "M3", cuts = gone},
      {mark = "M4", cuts = gone}, {mark = "M5", cuts = right}, {mark = "M6"}}}
end

local header = ns.header {at = {"5-0", "6-4"}}
local fixed = loft():joist("M3"):fix(header):review().fixed
print(("%s: %s, %.2f"):format(fixed.title, fixed.status, fixed.ratio))
for _, force in ipairs(fixed.forces) do
  print(("  %s at %s: %.0f lb"):format(force.name, ns.units.feet_inches(force.at),
    force.value))
end
for _, n in ipairs(fixed.neighbours) do
  print(("  %s as %s: %.2f"):format(n.mark, n.role, n.ratio))
end
for _, p in ipairs(fixed.pieces) do
  print(("  %d x %s %s%s"):format(p.count, p.name, p.size, p.length and ", "
    .. ns.units.feet_inches(p.length) or ""))
end
for _, f in ipairs(fixed.fasteners) do
  print(("  %d x %s, %s"):format(f.count, f.fastener, f.where))
end

local notch = {ns.notch {face = "bottom", from = "6-8", to = "7-0", depth = 2}}
local ranked = loft(notch):rank_fixes("M3", {header})
print(("with a notch in M5: %s"):format(ranked.failing[1].reason))
