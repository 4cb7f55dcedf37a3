-- SPDX-License-Identifier: MIT
-- Run with a core that has the check of tests/data/own_checks, by test_additions: what
-- the row and the C file alone bring. A seat of 1 in against 1-1/2 in is 1.5 by hand.
local core = require "netsection.core"
local lu = require "luaunit"
local ns = require "netsection"

local FIELDS = {mark = "A1", size = "2x10", species = "Douglas Fir-Larch", grade = "No.2",
  span = "12-0", spacing = 16, dead = 10, live = 40}

local function joist(bearing)
  local t = {bearing = bearing}
  for name, value in pairs(FIELDS) do t[name] = value end
  return ns.joist(t)
end

-- In order: behind the others, a row for each support in each state.
lu.assertEquals(core.modes[#core.modes], "seat-length")
local r = joist {1, 3.5}:review()
local found = {}
for i, k in ipairs(r.uncut.checks) do
  if k.mode == "seat-length" then found[#found + 1] = {i, k.support, k.demand, k.unit} end
end
lu.assertEquals(#found, 2)
lu.assertEquals({found[1][2], found[1][3], found[1][4]}, {1, 1.5, "in"})
lu.assertEquals({found[1][1], found[2][1]}, {#r.uncut.checks - 1, #r.uncut.checks})

-- It governs, decides and is explained by its own words.
local k = r:find("uncut", "seat-length")
lu.assertEquals(k.ratio, 1.5)
lu.assertEquals(r.uncut.checks[found[2][1]].ratio, 1.5 / 3.5)
lu.assertEquals(r.uncut.governing, "seat-length")
lu.assertEquals(r.uncut.ratio, 1.5)
lu.assertEquals(k.clause, "office rule")
local step = k.steps[#k.steps]
lu.assertEquals({step.formula, step.value}, {"demand/l_b", 1.5})
lu.assertEquals(step.inputs, {demand = 1.5, l_b = 1})
lu.assertEquals(joist {3.5, 3.5}:review().uncut.governing, "bending")
lu.assertStrContains(ns.report.text(r), "seat-length")

-- Sweep, sensitivity, numbers, letter of tables.
local t = ns.sweep {joist = joist {3.5, 3.5}, over = {bearing = {1, 2, 3}},
  values = {"uncut.seat-length", "uncut.governing"}}
local ratios, governing = {}, {}
for row in t:rows() do
  ratios[#ratios + 1] = row["uncut.seat-length"]
  governing[#governing + 1] = row["uncut.governing"]
end
lu.assertEquals(ratios, {1.5, 0.75, 0.5})
lu.assertEquals(governing[1], "seat-length")
lu.assertStrContains(ns.report.json(r), '"seat-length_support-1"')
lu.assertEquals(require "netsection.table.letters".of "seat-length", "l")
local function turned(bearing)
  return joist {bearing, 3.5}:sensitivity()
end
local NONE = "no input by itself turns it"
lu.assertStrContains(ns.report.sensitivity(turned(1)), NONE)
lu.assertNotStrContains(ns.report.sensitivity(turned(1.5)), NONE)

-- Another family of formulas has it too.
local metric = ns.joist {mark = "B1", b = "45 mm", d = "220 mm", class = "C24",
  span = "3.8 m", spacing = "400 mm", dead = "0.5 kPa", live = "1.5 kPa",
  bearing = {"25.4 mm", "100 mm"}}:review {standard = "en-1995-1-1-uk"}
lu.assertAlmostEquals(metric:find("uncut", "seat-length").ratio, 1.5, 1e-9)

print "own check: all found"
