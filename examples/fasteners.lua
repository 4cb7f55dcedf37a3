-- SPDX-License-Identifier: MIT
-- Question: which fastener holds what, for a sister or a steel strap on a Douglas fir
-- joist, and how does one come to the number? Expected: a 16d nail gives 141 lb in 1-1/2
-- in of side wood (NDS Table 11N of 2005, 12N since). A 1/4 in lag of 3 in has 1.34 in
-- left for the joist, two thirds of the 8D that its full value needs; one of 2-1/2 in has
-- less than the least, 4D. In a thin strap the same lag has its full value, and no mode
-- but IIIs to think of. Small fasteners do not feel the grain, lags and bolts do. Half a
-- dozen lags in a row under a thin strap do not give six times one.
local ns = require "netsection"
local F = ns.fastener

local G = F.G "douglas fir-larch"
local lag = F {kind = "lag screw", diameter = "1/4 in", length = "3 in"}
local fasteners = {
  F {kind = "nail", size = "10d"},
  F {kind = "nail", size = "16d"},
  F {kind = "wood screw", number = 10, length = "3 in"},
  F {kind = "lag screw", diameter = "1/4 in", length = "2-1/2 in"},
  lag,
  F {kind = "lag screw", diameter = "3/8 in", length = "4-1/2 in"},
  F {kind = "bolt", diameter = "1/2 in"},
}

local function cell(fastener, side, angle)
  local r = ns.lateral {fastener = fastener, side = side,
    main = {G = G, angle = angle, thickness = fastener.kind == "bolt" and 1.5 or nil}}
  return r.refused and "too short" or ("%.0f %s"):format(r.Z, r.mode)
end

print(("%-28s %11s %11s %11s"):format("Z, lb, and mode", "2x side", "the same,",
  "14 ga steel"))
print(("%-28s %11s %11s %11s"):format("", "along grain", "across", "along"))
for _, fastener in ipairs(fasteners) do
  print(("%-28s %11s %11s %11s"):format(tostring(fastener),
    cell(fastener, {G = G, thickness = 1.5}, 0),
    cell(fastener, {G = G, thickness = 1.5}, 90),
    cell(fastener, {steel = "A653 33", gauge = 14}, 0)))
end

local function print_steps(list)
  for _, step in ipairs(list) do
    local line = ("  %-7s %10.5g %-5s  %s"):format(step.symbol, step.value, step.unit,
      step.formula and "= " .. step.formula or step.says or "")
    print(line .. (step.clause and ", " .. step.clause or ""))
  end
end

print(("\n%s, 14 gauge strap, along the grain, six in a row, wet"):format(lag))
local strap = {steel = "A653 33", gauge = 14}
local Cg = F.Cg {fastener = lag, n = 6, spacing = "3 in", main = {E = 1.6e6,
  A = 1.5 * 9.25}, side = {steel = "A653 33", A = 1.5 * 0.0713}}
local joint = ns.lateral {fastener = lag, main = {G = G}, side = strap, moisture = "wet",
  Cg = Cg.Cg}
print_steps(Cg.steps)
print_steps(joint.steps)
print(("  six of them: %.0f lb"):format(6 * joint.adjusted))

print "\nthe strap itself, 1-1/2 in wide"
local steel = F.steel {fastener = lag, steel = "A653 33", gauge = 14, width = "1-1/2 in",
  per_row = 6, spacing = "3 in", end_distance = "1 in"}
print(("  %.0f lb, %s"):format(steel.T, steel.governs))

print "\nwhat the numbers rest on"
for _, note in ipairs(joint.notes) do print("  " .. note) end
