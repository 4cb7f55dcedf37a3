-- SPDX-License-Identifier: MIT
-- Question: an end notch within a quarter of the depth fails by NDS 3.4.3.2. Do screws up
-- through its corner help, and by what rule? Expected: by a European form they take all
-- tension across the grain, a fifth of the reaction at 3/4 of the depth; the NDS figure
-- stays shown; a screw whose thread is all above the crack holds nothing there; a notch
-- deeper than a quarter is not helped.
local ns = require "netsection"

local joist = ns.joist {
  mark = "N1", size = "2x12", species = "spruce-pine-fir", grade = "No.2", span = "15-0",
  spacing = 19.2, bearing = 3.5, dead = 15, live = 50,
  cuts = {ns.end_notch {support = "right", face = "bottom", depth = "2-3/4 in"}},
}
local screw = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "8 in"}
local review = joist:fix(ns.notch_screws {support = "right", n = 2, fastener = screw,
  full_thread = true}):review()
for _, k in ipairs(review.fixed.checks) do
  if k.name then
    print(("%-14s %5.0f of %5.0f %-3s  %.2f%s"):format(k.mode, k.demand, k.capacity,
      k.unit, k.ratio, k.binding and "" or "  shown, does not decide"))
  end
end
for _, note in ipairs(review.fixed.notes) do print("- " .. note) end

print(joist:fix(ns.notch_screws {support = "right", fastener = screw}):review().fixed
  .refused)
local deeper = joist:with {["cuts.1.depth"] = 3}
print(deeper:fix(ns.notch_screws {support = "right"}):review().fixed.refused)
