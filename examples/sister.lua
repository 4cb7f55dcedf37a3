-- SPDX-License-Identifier: MIT
-- Question: a closet bend was let through a joist in a lodge. How long a sister, how many
-- bolts, and would one on both bearings do better? Expected: the short sister turns the
-- moment into a couple of its groups, each force about M over their distance; the
-- smallest that passes is about twice as long as the joist is deep on each side; the
-- full-length one needs no couple but more wood and the whole bay empty.
local ns = require "netsection"

local joist = ns.joist {
  mark = "L4", size = "2x10", species = "douglas fir-larch", grade = "No.2",
  span = "13-0", spacing = 16, bearing = 3.5, dead = 12, live = 40,
  cuts = {ns.sever {from = "5-3", to = "5-9", note = "closet bend"}},
}
local bolt = ns.fastener {kind = "bolt", diameter = "1/2 in"}

local fix, review = ns.size_sister(joist, {fastener = bolt, side = "left"})
print(("smallest: %s to %s, %d bolts to a group"):format(ns.units.feet_inches(fix.from),
  ns.units.feet_inches(fix.to), fix.groups[1].n))
print(ns.report.text(review, {steps = "governing"}))

local full = joist:fix(ns.sister {fastener = bolt, pitch = 16}):review().fixed
print(("%s: %s, %.2f by %s of the %s"):format(full.title, full.status, full.ratio,
  full.governing, full.governing_check.member))
