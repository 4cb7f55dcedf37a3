-- SPDX-License-Identifier: MIT
-- Question: a notch was sawn into the bottom of a joist at mid-span, and a drain leaves
-- no room for a sister. Do plywood plates on both faces do, and with how many nails; does
-- steel do better? Expected: plates stop short of the bearings and work by the slip of
-- their fasteners; the panel's strength is given, since none is on file; a pitch that is
-- too wide fails in the nails, not in the wood.
local ns = require "netsection"

local joist = ns.joist {
  mark = "P2", size = "2x8", species = "spruce-pine-fir", grade = "No.2",
  span = "11-0", spacing = 16, bearing = 3.5, dead = 10, live = 40,
  cuts = {ns.notch {face = "bottom", from = "5-4", to = "5-7", depth = "1-1/4 in"}},
}

local function try(t)
  local fixed = joist:fix(ns.side_plates(t)):review().fixed
  if fixed.refused then return print(fixed.title .. ": " .. fixed.refused) end
  print(("%s: %s, %.2f by %s of the %s"):format(fixed.title, fixed.status, fixed.ratio,
    fixed.governing, fixed.governing_check.member))
end

print(("as cut %.2f"):format(joist:review().cut.ratio))
local nail = ns.fastener {kind = "nail", size = "10d"}
for _, pitch in ipairs {6, 4, 3} do
  try {from = "2-6", to = "8-6", thickness = "23/32 in", pitch = pitch, per_row = 3,
    material = {Fb = 1200, Fv = 250, E = 1.2e6}, fastener = nail, lift = "unloaded"}
end
try {from = "2-6", to = "8-6", steel = "A36", thickness = "1/4 in", depth = 6, pitch = 6,
  per_row = 2, fastener = ns.fastener {kind = "bolt", diameter = "1/2 in"},
  lift = "unloaded"}
