-- SPDX-License-Identifier: MIT
-- Question: how large a round hole, centered in the depth, may be by calculation at each
-- distance from the bearing, and what is left of it under the rules? Expected: chords as
-- ties and frames hold the hole back long before plain bending does (2x10: 4-1/8 in at
-- 7-0); near the bearing the 2 in of wood that must stay above and below do (r); d/3 is
-- less everywhere (r). M and V are the worst of any placing of the live load.
local ns = require "netsection"

local joists = {}                       -- Spruce-Pine-Fir No.2, values given
for size, case in pairs {["2x8"] = {7.25, "11-6", 1.2}, ["2x10"] = {9.25, "14-6", 1.1},
  ["2x12"] = {11.25, "17-0", 1.0}} do
  local d, span, CF = table.unpack(case)
  joists[size] = {d = d, span = ns.length(span), given = ns.joist {mark = size,
    size = size, span = span, spacing = 16, bearing = 3.5, dead = 10, live = 40,
    repetitive = 1.15, material = {Fb = 875, CF = CF, Ft = 450, CF_t = CF, Fc = 1150,
      CF_c = 1, Fv = 135, E = 1.4e6, Emin = 510e3,
      source = "given, SPF No.2 (Ft, Fc from memory)"}}}
end

local LETTER = {["net-shear"] = "v", ["chord-alone"] = "w", ["lip-tension"] = "w",
  ["wood-compression"] = "w"}

-- What governs a hole of that diameter; nil: adequate by calculation.
local function governs(j, x, D)
  local r = j.given:with {cuts = {ns.hole {at = x, diameter = D}}}:review()
  local worst
  for _, k in ipairs(r.cut.checks) do
    if k.cut and k.binding and k.ratio > (worst and worst.ratio or 1) then worst = k end
  end
  return worst and (LETTER[worst.mode] or "b")
end

local holes = ns.table {
  title = "Largest hole, centered in the depth, Spruce-Pine-Fir No.2, 16 in, 10/40 psf",
  rows = {name = "size", values = {"2x8", "2x10", "2x12"}},
  columns = {name = "from bearing", values = {6, 12, 18, 24, 36, 48, 60, 72, 84},
    unit = "ft-in"},
  blocks = {name = "limits", head = "Besides calculation:",
    values = {"2 in of wood", "2 in of wood, d/3", "nothing"}},
  cell = function(size, x, limit)
    local j = joists[size]
    if x > j.span / 2 then return nil end
    local cap = limit == "nothing" and j.d or limit == "2 in of wood" and j.d - 4
      or j.d / 3
    local D, by = 0, nil
    while not by and D + 1 / 8 <= cap do
      by = governs(j, x, D + 1 / 8)
      D = by and D or D + 1 / 8
    end
    return {value = by and D or cap, letter = by or cap < j.d - 4 and "r" or "w",
      note = D > 0.40 * j.d and "Deeper than 0.40 d: arithmetic only, never unaided."}
  end,
  unit = "in", round = {to = "1/8 in", way = "down"}, joist = joists["2x10"].given,
  dash = "past the middle of the span",
  notes = {"Distance from the nearer bearing's center to the hole's center.",
    "One hole; Cr 1.15; a hole outside d/3 also gives up Cr by default."},
}
print(holes:text())
return holes
