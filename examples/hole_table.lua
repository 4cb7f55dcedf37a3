-- SPDX-License-Identifier: MIT
-- Question: how large a round hole, centred in the depth, do bending and shear allow at
-- each distance from the bearing, and what is left of it under the rules? Expected:
-- bending holds the hole back near the middle only (2x10: 4-3/8 in at 7-0); elsewhere the
-- 2 in of wood that must stay above and below do (w); d/3 is less everywhere (r). M and V
-- are the worst of any placing of the live load.
local ns = require "netsection"

local joists = {}                       -- Spruce-Pine-Fir No.2, values given
for size, case in pairs {["2x8"] = {7.25, "11-6", 1.2}, ["2x10"] = {9.25, "14-6", 1.1},
  ["2x12"] = {11.25, "17-0", 1.0}} do
  local d, span, CF = table.unpack(case)
  joists[size] = {d = d, span = ns.length(span), given = ns.joist {mark = size,
    size = size, span = span, spacing = 16, bearing = 3.5, dead = 10, live = 40,
    material = {Fb = 875, CF = CF, Fv = 135, E = 1.4e6, source = "given, SPF No.2"}}}
end

local function beam_of(j)
  local D, L = 10 * 16 / 144, 40 * 16 / 144
  return ns.beam {spans = {j.span}, EI = 1.4e6, loads = {
    {from = 0, to = j.span, w1 = D, w2 = D, case = "dead"},
    {from = 0, to = j.span, w1 = L, w2 = L, case = "live"}}}
end

-- What governs a hole of that diameter; nil: allowed.
local function governs(j, forces, D)
  local net = ns.section {b = 1.5, d = j.d, y1 = (j.d - D) / 2, y2 = (j.d + D) / 2}
  local Fb, Fv = 1.15 * j.given:adjusted("Fb").value, j.given:adjusted("Fv").value
  if forces.M_max > Fb * net.S_b then return "b" end
  return math.max(forces.V_max, -forces.V_min) > 2 / 3 * Fv * net.A and "v" or nil
end

local holes = ns.table {
  title = "Largest hole, centred in the depth, Spruce-Pine-Fir No.2, 16 in, 10/40 psf",
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
    local forces, D, by = beam_of(j):envelope(x), 0, nil
    while not by and D + 1 / 64 <= cap do
      by = governs(j, forces, D + 1 / 64)
      D = by and D or D + 1 / 64
    end
    return {value = by and D or cap, letter = by or cap < j.d - 4 and "r" or "w",
      note = D > 0.45 * j.d and "Deeper than 0.45 d: arithmetic only, past the tests."}
  end,
  unit = "in", round = {to = "1/8 in", way = "down"}, joist = joists["2x10"].given,
  dash = "past the middle of the span",
  notes = {"Distance from the nearer bearing's centre to the hole's centre.",
    "One hole; net section, Cr 1.15; a hole outside d/3 also gives up Cr by default."},
}
print(holes:text())
return holes
