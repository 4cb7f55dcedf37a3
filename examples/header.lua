-- SPDX-License-Identifier: MIT
-- Question: a stair hatch was cut through a joist of a boat house. Can it be headed off
-- between the joists beside it, and do they have to be doubled? Expected: the headers
-- carry the tails and half of the strip between them; the joists beside take half of each
-- header and are about a third over as they are, well below when doubled; the code asks
-- for doubling anyway, since the headers are more than 3 ft from the bearings.
local ns = require "netsection"

local floor = ns.floor {
  name = "Boat house, loft", size = "2x10", species = "douglas fir-larch", grade = "No.2",
  span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
  joists = {{mark = "H1"}, {mark = "H2"},
    {mark = "H3", cuts = {ns.sever {from = "6-0", to = "6-5"}}}, {mark = "H4"},
    {mark = "H5"}},
}

local review = floor:joist("H3"):fix(ns.header {at = {"5-10", "6-7"}, hanger = "400 lb",
  tail_hanger = "400 lb"}):review()
print(ns.report.text(review, {steps = "none"}))
