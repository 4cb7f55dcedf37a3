-- SPDX-License-Identifier: MIT
-- Question: how far may uncut joists of one wood reach at 10 psf dead and 40 psf live,
-- live deflection held to L/360? Expected: 2x8 at 16 in 11-9, center to center of the
-- bearings; wide spacing and deep joists turn the limit from deflection (d) to bending
-- (b). Lengths are rounded down to the inch, never up.
local ns = require "netsection"

local LETTER = {["deflection-live"] = "d", ["deflection-total"] = "d", bending = "b",
  shear = "v", bearing = "r"}
local sizes = {"2x6", "2x8", "2x10", "2x12"}

local joist = ns.joist {
  mark = "table", size = "2x8", species = "southern pine", grade = "No.2",
  span = "10-0", spacing = 16, bearing = 1.5, dead = 10, live = 40,
}

local function cell(size, spacing)
  local j = joist:with {size = size, spacing = spacing}
  local span = assert(j:longest_span())
  local at_limit = j:with {span = span}:review().uncut
  return ("%6s %s"):format(ns.units.feet_inches(math.floor(span + 1e-6)),
    LETTER[at_limit.governing])
end

print("longest span, feet and inches, southern pine No.2")
print(("%-8s"):format "spacing" .. ("%10s"):rep(#sizes):format(table.unpack(sizes)))
for _, spacing in ipairs {12, 16, 19.2, 24} do
  local row = {}
  for i, size in ipairs(sizes) do row[i] = ("%10s"):format(cell(size, spacing)) end
  print(("%-8s"):format(("%g in"):format(spacing)) .. table.concat(row))
end
print("governs: b bending, d deflection, v shear, r reaction; rounded down to the inch")
