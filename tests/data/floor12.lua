-- SPDX-License-Identifier: MIT
-- A floor of twelve joists of our own, for the short report: a tub, a wall, rot at a
-- bearing, one cut through, a notch too deep, a large hole, an undersized one; repairs
-- that serve and one that fails.
local ns = require "netsection"

local BOLT = ns.fastener {kind = "bolt", diameter = "1/2 in"}

return function()
  local f = ns.floor {name = "Rope walk, upper floor", size = "2x10", grade = "No.2",
    species = "douglas fir-larch", span = "13-6", spacing = 16, bearing = 3.5, dead = 12,
    live = 40, joists = {
      {mark = "R1"},
      {mark = "R2", cuts = {ns.hole {at = "4-0", diameter = "2 in"}}},
      {mark = "R3", cuts = {ns.sever {from = "6-0", to = "6-5", note = "old waste"}}},
      {mark = "R4", cuts = {ns.hole {at = "9-0", diameter = "1 in"}}},
      {mark = "R5", loads = {ns.tub {from = "4-0", to = "9-0", width = 30,
        empty = "310 lb", water = "420 lb", people = "170 lb", note = "cast iron"}}},
      {mark = "R6", cuts = {ns.hole {at = "5-2", diameter = 4, below = 1.5}}},
      {mark = "R7", cuts = {ns.end_notch {support = "left", face = "bottom",
        depth = "2-3/4 in"}}},
      {mark = "R8", cuts = {ns.notch {face = "top", from = "2-0", to = "2-4",
        depth = "2 in"}}},
      {mark = "R9", loads = {ns.line {load = "60 plf", case = "dead",
        note = "partition along it"}}},
      {mark = "R10", cuts = {ns.loss {from = 0, to = "1-6", bottom = "1/4 in",
        sides = "1/4 in", cause = "rot"}}},
      {mark = "R11", cuts = {ns.notch {face = "bottom", from = "6-0", to = "6-5",
        depth = "1-3/4 in"}}},
      {mark = "R12", dead = 10},
    }}
  f = f:fix("R3", ns.sister {from = "2-8", to = "10-10", side = "left", fastener = BOLT,
    groups = {{at = "3-2", n = 10}, {at = "5-6", n = 10}, {at = "6-11", n = 10},
      {at = "10-4", n = 10}}})
  f = f:fix("R6", ns.sister {fastener = BOLT, pitch = "12 in"})
  f = f:fix("R7", ns.hanger {support = "left", capacity = "1200 lb"})
  return f:fix("R11", ns.strap {cut = 1, gauge = 14, width = 1.5, n = 10})
end
