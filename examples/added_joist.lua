-- SPDX-License-Identifier: MIT
-- Question: a drilled joist is a little over; the bay beside it is empty. Is a new joist
-- in the bay enough? Expected: with one in the middle of the right bay the old joist
-- keeps three quarters of its floor, and every ratio falls by a quarter; the hole stays
-- outside the rules, so a calculation still goes to the official. Cut through later, the
-- old joist can only be written off: the joists beside it then take more than they did.
local ns = require "netsection"

local joist = ns.joist {
  mark = "A2", size = "2x10", species = "spruce-pine-fir", grade = "No.2", span = "14-6",
  spacing = 16, bearing = 3.5, dead = 12, live = 40,
  cuts = {ns.hole {at = "6-0", diameter = 4}},
}
for _, side in ipairs {"right", "both"} do
  local review = joist:fix(ns.added_joist {side = side}):review()
  print(("%s: as cut %.2f, fixed %.2f by %s of the %s, %s"):format(review.fixed.title,
    review.cut.ratio, review.fixed.ratio, review.fixed.governing,
    review.fixed.governing_check.member, review.fixed.status))
end

local severed = joist:with {cuts = {ns.sever {from = "6-0", to = "6-6"}}}
for _, off in ipairs {false, true} do
  local a = severed:fix(ns.added_joist {side = "right", at = 3, write_off = off}):review()
    .fixed
  print(("%s: %s"):format(a.title, a.refused or ("%.2f, %s"):format(a.ratio, a.status)))
  for _, n in ipairs(a.neighbours) do print(("  %s: %.2f"):format(n.mark, n.ratio)) end
end
