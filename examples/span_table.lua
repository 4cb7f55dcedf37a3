-- SPDX-License-Identifier: MIT
-- Question: the floor joist span tables of a code, whole, in one command: how far may
-- each grade and size reach at each spacing under 30 and 40 psf live, 10 and 20 dead,
-- live deflection held to L/360? Expected: 960 spans, the printed ones but rounded down
-- (the code prints the nearest inch): Douglas Fir-Larch SS 2x6 at 12 in, 30/10, 12-5;
-- Hem-Fir No.2 2x10 at 16 in, 40/10, 15-1 (15-2). Of 960, 602 are held by bending.
local ns = require "netsection"

local SPACINGS, SIZES = {12, 16, 19.2, 24}, {"2x6", "2x8", "2x10", "2x12"}
local GRADES = {"SS", "No.1", "No.2", "No.3"}
local WOODS = {{"Douglas Fir-Larch", GRADES}, {"Hem-Fir", GRADES},
  {"Southern Pine", GRADES}, {"Spruce-Pine-Fir", {"SS", "No.1/No.2", "No.3"}}}

local base = ns.joist {mark = "table", size = "2x8", species = "hem-fir", grade = "No.2",
  span = "10-0", spacing = 16, bearing = 3.5, dead = 10, live = 40,
  limits = {live = 360, total = false}}
local sweep = ns.sweep {joist = base, values = {"longest_span", "longest_span.governing"},
  over = {species = {"Douglas Fir-Larch", "Hem-Fir", "Southern Pine", "Spruce-Pine-Fir"},
    grade = {"SS", "No.1", "No.1/No.2", "No.2", "No.3"}, spacing = SPACINGS,
    size = SIZES, dead = {10, 20}, live = {30, 40}}}

local keys, columns = {}, {}
for _, spacing in ipairs(SPACINGS) do
  for _, wood in ipairs(WOODS) do
    for _, grade in ipairs(wood[2]) do keys[#keys + 1] = {spacing, wood[1], grade} end
  end
end
for _, dead in ipairs {10, 20} do
  for _, size in ipairs(SIZES) do columns[#columns + 1] = {dead, size} end
end

local spans = ns.table {
  title = "Floor joist spans, live load deflection L/360", joist = base,
  rows = {name = {"spacing", "species", "grade"}, values = keys,
    unit = {spacing = "in"}},
  columns = {name = {"dead", "size"}, values = columns,
    show = function(v) return type(v) == "number" and ("dead %d psf"):format(v) or v end},
  blocks = {name = "live", values = {30, 40}, unit = "psf", head = "live load"},
  sweep = sweep, value = "longest_span",
  unit = "ft-in", round = {to = "1 in", way = "down"}, monotone = {across = "rising"},
  notes = {"Span tables of codes call this length the clear span."},
}
print(spans:text())
return spans
