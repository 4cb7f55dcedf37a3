-- SPDX-License-Identifier: MIT
-- A joist of three plies, cut through: lags of 3 in end in the first ply, bolts go
-- through all of them.
local ns = require "netsection"

local joist = ns.joist {mark = "B2", size = "2x10", plies = 3,
  species = "Douglas Fir-Larch", grade = "No.2", span = "13-6", spacing = 36,
  bearing = 3.5, dead = 12, live = 40, cuts = {ns.sever {from = "6-0", to = "6-5"}}}

print "What the fasteners of a sister reach, three plies"
for _, t in ipairs {{kind = "lag screw", diameter = "1/4 in", length = "3 in"},
  {kind = "lag screw", diameter = "1/4 in", length = "6 in"},
  {kind = "bolt", diameter = "1/2 in"}} do
  local fastener = ns.fastener(t)
  local a = joist:fix(ns.sister {from = "3-0", to = "9-5", bearing = false,
    fastener = fastener, groups = {{at = "3-4", n = 4}, {at = "5-10", n = 4},
      {at = "6-7", n = 4}, {at = "9-1", n = 4}}}):review().fixed
  for _, k in ipairs(a.checks) do
    if k.mode == "connection-shear" and k.member == "host" then
      print(("  %-26s across the grain of the joist %.0f of %.0f lb: %.2f"):format(
        tostring(fastener), k.demand, k.capacity, k.ratio))
    end
  end
  for _, note in ipairs(a.notes) do
    if note:find "plies" then print("    " .. note) end
  end
end
