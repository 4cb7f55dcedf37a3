-- SPDX-License-Identifier: MIT
-- Question: a joist of a bath house was bored for a waste pipe and fails. Five repairs
-- come to mind; two supply lines run along its left face, a cable through it, a duct in
-- the bay beside it. Which disturbs the house least? Expected: the full sister on the
-- right, where only the cable is re-routed, before the one on the left, where a plumber
-- moves the lines; the strap and a beam under the span need the ceiling open, and the
-- beam stands on posts; a header moves everything and comes last.
local ns = require "netsection"

local floor = ns.floor {
  name = "Bath house", size = "2x10", species = "douglas fir-larch", grade = "No.2",
  span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
  joists = {{mark = "W1"}, {mark = "W2"}, {mark = "W3", cuts = {
    ns.hole {at = "5-2", diameter = 4, below = "1-1/2 in", note = "waste pipe"},
    ns.hole {at = "9-0", diameter = "3/4 in", below = "4-1/4 in", note = "cable"}}},
    {mark = "W4"}, {mark = "W5"}},
  obstructions = {
    {what = "two supply lines", kind = "pipe", joist = "W3", side = "left", from = "3-0",
      to = "8-0", bottom = 2, top = 3, movable = "trade"},
    {what = "cable", kind = "cable", joists = {"W2", "W3", "W4"}, at = "9-0",
      height = 4.6, diameter = "1/2 in", movable = "easy", through = true},
    {what = "duct", kind = "duct", bay = {"W4", "W5"}, from = 0, to = "7-0", bottom = 2},
    {what = "ceiling", kind = "finish", joists = {"W2", "W3", "W4"}, side = "below"},
  },
}
local bolt = ns.fastener {kind = "bolt", diameter = "1/2 in"}
local screw = ns.fastener {kind = "wood screw", number = 14, length = "3 in"}

local ranking = floor:rank_fixes("W3", {
  ns.sister {side = "left", fastener = bolt, pitch = 16, lift = "unloaded"},
  ns.sister {side = "right", fastener = bolt, pitch = 16, lift = "unloaded"},
  ns.strap {gauge = 10, n = 14, pitch = "2-1/2 in", fastener = screw, lift = "unloaded"},
  ns.midspan_support {at = "6-9"},
  ns.header {at = {"4-6", "5-10"}},
})
print(ns.report.fixes(ranking))
