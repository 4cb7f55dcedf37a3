-- SPDX-License-Identifier: MIT
-- Question: a joist runs 2 ft past a wall and ends in a hinge, from which the next one
-- hangs; that one overhangs the far bearing by 2 ft, 150 lb at its tip. What are V, M
-- and the reactions? Expected, by hand: moments about the far bearing give the force in
-- the hinge, (80 x 8 x 4 - 150 x 2) / 8 = 282.5 lb; over the wall M = -(282.5 x 2 +
-- 80 x 2 x 1) = -725 ft-lb; so the left reaction is 80 x 12 / 2 - 725 / 12 = 419.6 lb.
-- Stiffness does not matter to any of it.
local ns = require "netsection"

local function ft(x) return x * 12 end

local w = ns.load("80 plf", "line") / 12            -- lb per in
local beam = ns.beam {
  spans = {ft(12), ft(10)}, overhang_right = ft(2), EI = 1.4e6 * 98.9,
  hinges = {{at = ft(14)}},
  loads = {{from = 0, to = ft(22), w1 = w}, {at = ft(24), P = 150}},
}

print("place           V, lb   M, ft-lb")
for _, place in ipairs {{"left bearing", 0, "right"}, {"mid-span", 6, "left"},
  {"left of wall", 12, "left"}, {"right of wall", 12, "right"}, {"hinge", 14, "left"},
  {"span 2, 18 ft", 18, "left"}, {"right bearing", 22, "right"}} do
  local at = beam:at(ft(place[2]), place[3])
  print(("%-14s %6.0f %10.0f"):format(place[1], at.V, at.M / 12))
end

local ends = beam:extremes()
print(("most %.0f ft-lb at %s, least %.0f ft-lb at %s"):format(ends.M_max.value / 12,
  ns.units.feet_inches(ends.M_max.x), ends.M_min.value / 12,
  ns.units.feet_inches(ends.M_min.x)))
local total = 0
for i, R in ipairs(beam:reactions()) do
  total = total + R
  print(("reaction %d: %.0f lb"):format(i, R))
end
print(("sum %.0f lb, the load is %.0f lb"):format(total, w * ft(22) + 150))
