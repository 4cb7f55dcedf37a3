-- SPDX-License-Identifier: MIT
-- Question: where along a 2x8 does a 2-1/4 in hole hurt, and what does a longer span
-- change? Expected: at mid-depth next to nothing, as stiffness governs and the hole takes
-- little of it. With 1 in of wood below, outside the rules, the place decides: harmless
-- near a bearing, more than twice the strength at the middle of 12 ft.
local ns = require "netsection"

local joist = ns.joist {
  mark = "H", size = "2x8", species = "hem-fir", grade = "No.2", span = "10-0",
  spacing = "16 in", bearing = "3-1/2 in", dead = "10 psf", live = "40 psf",
  cuts = {ns.hole {at = "2-0", diameter = "2-1/4 in"}},
}

local spans = ns.steps("9-0", "12-0", "1-0")
local places = {0.1, 0.2, 0.3, 0.4, 0.5}            -- of the span

local function show(title, base)
  print(title)
  local head = {("%-6s"):format "span"}
  for _, part in ipairs(places) do head[#head + 1] = ("%14s"):format(part .. " L") end
  print(table.concat(head))
  for _, span in ipairs(spans) do
    local row = {("%-6s"):format(ns.units.feet_inches(span))}
    for _, part in ipairs(places) do
      local r = base:with {span = span, ["cuts.1.at"] = part * span}:review()
      row[#row + 1] = ("%6.3f %-7s"):format(r.cut.ratio, r.action)
    end
    print((table.concat(row):gsub("%s+$", "")))
  end
end

show("hole at mid-depth", joist)
print()
show("hole with 1 in of wood below it", joist:with {["cuts.1.below"] = "1 in"})
