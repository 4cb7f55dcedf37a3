-- SPDX-License-Identifier: MIT
-- Question: the end of a joist rotted off its sill under a bath. What has to be carried
-- tonight, and does a short sister in a hanger carry the rest of the joist? Expected: no
-- ratio and "shore now"; a sister over the lost seat alone is refused; in a hanger the
-- two groups pass, although the joist's shear beside the inner one is more than R.
local ns = require "netsection"

local joist = ns.joist {
  mark = "B4", size = "2x10", species = "douglas fir-larch", grade = "No.2",
  span = "12-0", spacing = 16, bearing = "3-1/2 in", dead = 10, live = 40,
  cuts = {ns.lost_bearing {support = "left", to = "1-2", cause = "rot"}},
}
local review = joist:review()
for _, reason in ipairs(review.reasons) do print("- " .. reason) end
print(("cut: %s, counted lost to %.0f in, R %.0f lb"):format(review.cut.stopped,
  review.cuts[1].x2, review.cuts[1].carry))

local lag = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "3 in"}
local alone = joist:fix(ns.sister {to = "5-0", bearing = {left = true}}):review().fixed
print("without a hanger: " .. alone.refused)

local a = joist:fix(ns.end_sister {support = "left", to = "5-0", side = "right",
  size = "2x10", fastener = lag, groups = {{at = "2-5", n = 12}, {at = "4-8", n = 8}},
  hanger = {capacity = "600 lb"}}):review().fixed
print(("%s: %s, %.2f by %s"):format(a.title, a.status, a.ratio, a.governing))
for _, k in ipairs(a.checks) do
  print(("  %-17s %-7s %-46s %8.1f %9.1f %5.2f"):format(k.mode, k.member, k.name or "",
    k.demand, k.capacity, k.ratio))
end
for _, f in ipairs(a.forces) do print(("%s: %.1f lb"):format(f.name, f.value)) end
for i, step in ipairs(a.sequence) do print(i .. " " .. step) end

local post = joist:fix(ns.midspan_support {at = "3-0"}):review().fixed
print(("%s: %s, %.2f by %s, %.0f lb on it"):format(post.title, post.status, post.ratio,
  post.governing, post.reaction_range[1].most))
