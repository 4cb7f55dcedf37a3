-- SPDX-License-Identifier: MIT
-- Question: the floor joist span tables of a code, whole, in one command: how far may
-- each grade and size reach at each spacing under 30 and 40 psf live, 10 and 20 dead,
-- live deflection held to L/360? Expected: 960 spans, the printed ones but rounded down
-- (the code prints the nearest inch): Douglas Fir-Larch SS 2x6 at 12 in, 30/10, 12-5;
-- Hem-Fir No.2 2x10 at 16 in, 40/10, 15-1 (15-2). Of 960, 602 are held by bending.
local ns = require "netsection"

local GRADES = {"SS", "No.1", "No.2", "No.3"}
local species = {"Douglas Fir-Larch", "Hem-Fir", "Southern Pine", "Spruce-Pine-Fir"}
local MODES = {"bending", "deflection-live"}

local woods = {}
for _, name in ipairs(species) do
  for _, grade in ipairs(GRADES) do
    if name ~= "Spruce-Pine-Fir" then
      woods[#woods + 1] = {name, grade}
    elseif grade ~= "No.2" then
      woods[#woods + 1] = {name, grade == "No.1" and "No.1/No.2" or grade}
    end
  end
end
local keys = {}
for _, spacing in ipairs {12, 16, 19.2, 24} do
  for _, wood in ipairs(woods) do keys[#keys + 1] = {spacing, wood[1], wood[2]} end
end
local columns = {}
for _, dead in ipairs {10, 20} do
  for _, size in ipairs {"2x6", "2x8", "2x10", "2x12"} do
    columns[#columns + 1] = {dead, size}
  end
end

local base = ns.joist {mark = "table", size = "2x8", species = "hem-fir", grade = "No.2",
  span = "10-0", spacing = 16, bearing = 3.5, dead = 10, live = 40,
  limits = {live = 360, total = false}}

local spans = ns.table {
  title = "Floor joist spans, live load deflection L/360", joist = base,
  rows = {name = {"spacing", "species", "grade"}, values = keys,
    unit = {spacing = "in"}},
  columns = {name = {"dead", "size"}, values = columns,
    show = function(v) return type(v) == "number" and ("dead %d psf"):format(v) or v end},
  blocks = {name = "live", values = {30, 40}, unit = "psf", head = "live load"},
  cell = function(row, column, live)
    local j = base:with {species = row.species, grade = row.grade, spacing = row.spacing,
      size = column.size, dead = column.dead, live = live}
    local span = j:longest_span {modes = MODES}
    local bending = j:longest_span {modes = {"bending"}}
    return {value = span, letter = bending <= span and "b" or "d"}
  end,
  unit = "ft-in", round = {to = "1 in", way = "down"}, monotone = {across = "rising"},
  notes = {"Span tables of codes call this length the clear span.",
    "Bending and live load deflection alone; check bearing length apart."},
}
print(spans:text())
return spans
