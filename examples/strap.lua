-- SPDX-License-Identifier: MIT
-- Question: an electrician bored low: 3/4 in of wood is left under a hole near mid-span.
-- Can a steel strap under the joist take the tension, and what arm is right? Expected: T
-- is M over an arm of about 0.83 d by the cracked section; the full depth would say a
-- fifth less and is never used; a strap that is nailed while the floor sags takes the
-- live load only; cut right through, a strap alone is refused.
local ns = require "netsection"

local joist = ns.joist {
  mark = "S1", size = "2x10", species = "douglas fir-larch", grade = "No.2",
  span = "13-0", spacing = 16, bearing = 3.5, dead = 12, live = 40,
  cuts = {ns.hole {at = "6-0", diameter = "1-3/4 in", below = "3/4 in"}},
}
local screw = ns.fastener {kind = "wood screw", number = 14, length = "3 in"}

for _, lift in ipairs {"none", "unloaded"} do
  local a = joist:fix(ns.strap {gauge = 10, n = 14, pitch = "2-1/2 in", fastener = screw,
    lift = lift}):review().fixed
  print(("lift %-9s T %5.0f lb, arm %.2f in, %s, %.2f by %s"):format(lift, a.T, a.arm,
    a.status, a.ratio, a.governing))
  if lift == "unloaded" then
    print "arms that are argued about:"
    for _, row in ipairs(a.arms) do
      print(("  %-42s %5.2f in  %5.0f lb"):format(row.name, row.arm, row.T))
    end
    print "tension that the strap has to hold along the joist:"
    for _, x in ipairs {24, 48, 72, 96} do
      for _, p in ipairs(a.along) do
        if p.x >= x then
          print(("  %8s %5.0f lb"):format(ns.units.feet_inches(p.x), p.T))
          break
        end
      end
    end
  end
end

local severed = joist:with {cuts = {ns.sever {from = "5-10", to = "6-2"}}}
print("\ncut through: " .. severed:fix(ns.strap {}):review().fixed.refused)
