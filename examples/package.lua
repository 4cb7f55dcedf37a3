-- SPDX-License-Identifier: MIT
-- What goes to the official, the carpenter and the file for a small floor? A short
-- report, all numbers, drawings, parts and order of work, the draft of a letter, the
-- crew's sheet, a detail of each repair: 20 files in the folder NETSECTION_OUT, or out.
-- P3, cut through for a drain, gets a sister that passes at 0.90; P5, notched at its
-- bearing, a hanger. Expected: leave 2, justify 1, repair 2.
local ns = require "netsection"

local floor = ns.floor {
  name = "Orchard house, landing and bath", size = "2x10", species = "douglas fir-larch",
  grade = "No.2", span = "13-6", spacing = 16, bearing = "3-1/2 in", dead = "12 psf",
  live = "40 psf",
  joists = {
    {mark = "P1"},
    {mark = "P2", cuts = {ns.hole {at = "4-0", diameter = "2 in"}}},
    {mark = "P3", cuts = {ns.sever {from = "6-0", to = "6-5", note = "bath waste"}}},
    {mark = "P4", cuts = {ns.hole {at = "2-0", diameter = "3-1/2 in"}}},
    {mark = "P5", cuts = {ns.end_notch {support = "left", face = "bottom",
      depth = "2-3/4 in"}}},
  },
  obstructions = {ns.obstruction {what = "3 in drain", kind = "drain", joist = "P3",
    at = "6-2", y = "1.5 in", diameter = "3-1/2 in", movable = "no"}},
}

local bolt = ns.fastener {kind = "bolt", diameter = "1/2 in"}
floor = floor:fix("P3", ns.sister {from = "2-8", to = "10-0", side = "left",
  fastener = bolt, groups = {{at = "3-2", n = 10}, {at = "5-6", n = 10},
    {at = "6-11", n = 10}, {at = "9-6", n = 10}}})
floor = floor:fix("P5", ns.hanger {support = "left", capacity = "1200 lb"})

local out = os.getenv "NETSECTION_OUT" or "out"
local review = floor:review()
local names = assert(ns.package.write(review, out, {
  visit = {date = "second of May", present = "the owner"},
  concealed = {"both bearings of P1", "the ceiling below P4"},
}))

print(review.name)
for _, action in ipairs {"leave", "justify", "repair"} do
  print(("%-8s %d"):format(action, review.actions[action]))
end
local numbers = ns.package.data(review)
print(("P3 fixed %.2f by %s"):format(numbers.joists.P3.fixed.ratio,
  numbers.joists.P3.fixed.governing))
print(#names .. " files:")
for _, name in ipairs(names) do print("  " .. name) end
