-- SPDX-License-Identifier: MIT
-- Question: how far does one joist reach by each standard on file, side by side?
-- Expected: a 2x10 of Douglas fir-larch No.2 and a 38x235 of C24, 40 psf (1.9 kPa) live,
-- 10 dead. Deflection decides most spans, so the standards differ by their limits more
-- than by their strengths: L/360 of live load alone against l/250 with creep.
local ns = require "netsection"

local WOOD = {us = {size = "2x10", species = "Douglas Fir-Larch", grade = "No.2"},
  en = {size = "38x235", class = "C24", service_class = 1}}

local spans = ns.table {
  title = "Longest spans of one joist by several standards",
  rows = {name = "spacing", values = {12, 16, 24}, unit = "in"},
  columns = {name = "standard", values = {"us-nds-2018-asd", "us-nds-2018-lrfd",
    "en-1995-1-1", "en-1995-1-1-uk"}},
  unit = "ft-in", round = {to = "1 in", way = "down"}, metric = true,
  monotone = {down = "falling"},
  cell = function(spacing, standard)
    local t = {mark = "T", span = "10-0", spacing = spacing, bearing = 3.5, dead = 10,
      live = 40}
    for name, value in pairs(WOOD[standard:sub(1, 2)]) do t[name] = value end
    local j = ns.joist(t)
    local longest = assert(j:longest_span {standard = standard})
    j = j:with {span = longest}
    local governing = j:review({standard = standard}).uncut.governing
    return {value = longest, joist = j, letter = governing:find "^deflection" and "d"
      or "b"}
  end,
}
print(spans:text())
return spans
