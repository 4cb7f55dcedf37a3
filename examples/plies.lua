-- SPDX-License-Identifier: MIT
-- A joist of three plies, cut through: lags of 3 in end in the first ply, bolts go
-- through all of them. Then a cut in one of two plies, and a cut written off.
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

print "One of two plies is cut, 24 in apart, fastened by two rows of 16d at 16 in"
local nails = {n = 2, fastener = ns.fastener {kind = "nail", size = "16d"}, spacing = 16,
  rows = 2}
for _, cut in ipairs {ns.hole {at = "6-9", diameter = 2, ply = 1},
  ns.hole {at = "6-9", diameter = 4, below = 1.5, ply = 1},
  ns.sever {at = "6-0", ply = 1}} do
  local review = joist:with {plies = nails, spacing = 24, cuts = {cut}}:review()
  print(("  %s: %s, %.2f"):format(review.cuts[1].label, review.action, review.cut.ratio))
  for _, reason in ipairs(review.reasons) do
    if reason:find "ply 1 of 2" or reason:find "in ply" then print("    " .. reason) end
  end
end

print "A notch of 3 in counted as it is, and as cut through (share = \"new\")"
local bolt = ns.fastener {kind = "bolt", diameter = "1/2 in"}
local notched = joist:with {plies = 1, spacing = 16, cuts = {ns.notch {face = "bottom",
  from = "6-0", to = "6-5", depth = 3}}}
for _, share in ipairs {"slip", "new"} do
  local a = notched:fix(ns.sister {from = "3-0", to = "9-5", bearing = false,
    fastener = bolt, share = share, groups = {{at = "3-4", n = 6}, {at = "5-9", n = 6},
      {at = "6-8", n = 6}, {at = "9-1", n = 6}}}):review().fixed
  print(("  share = %s: %s, %.2f by %s"):format(share, a.status, a.ratio, a.governing))
  for _, s in ipairs(a.stations) do
    print(("    %-12s %7.1f lb"):format(s.name, s.full))
  end
end
