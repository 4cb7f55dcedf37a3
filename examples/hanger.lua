-- SPDX-License-Identifier: MIT
-- Question: a joist was notched too deep over its sill, and splits. Which hanger, and
-- does moving the bearing in cost anything? Expected: the notch no longer carries, so
-- what was far over is gone; the span is a little shorter; where rot reaches further in,
-- a hanger has no sound wood to take and is refused.
local ns = require "netsection"

local joist = ns.joist {
  mark = "E1", size = "2x8", species = "hem-fir", grade = "No.2", span = "11-6",
  spacing = 16, bearing = 3.5, dead = 12, live = 40,
  cuts = {ns.end_notch {support = "left", face = "bottom", depth = 3}},
}
local review = joist:fix(ns.hanger {support = "left", capacity = "600 lb"}):review()
local a = review.fixed
print(("as cut %.2f by %s, %s"):format(review.cut.ratio, review.cut.governing,
  review.cut.status))
print(("%s: %s, %.2f by %s"):format(a.title, a.status, a.ratio, a.governing))
for _, f in ipairs(a.forces) do print(("%s: %.0f lb"):format(f.name, f.value)) end
for _, note in ipairs(a.notes) do print("- " .. note) end

local rotten = joist:with {cuts = {ns.loss {from = 0, to = "2-6", bottom = "1-1/2 in",
  cause = "rot"}}}
print("rot to 2-6: " .. rotten:fix(ns.hanger {support = "left"}):review().fixed.refused)
