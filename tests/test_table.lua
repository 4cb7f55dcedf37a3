-- SPDX-License-Identifier: MIT
-- Design tables: rounding, letters, dashes, notes, forms, order, spot checks, comparison
-- with an earlier issue, and messages. The values of whole tables are checked in
-- test_design_tables.lua.
local lu = require "luaunit"
local markup = require "tests.markup"
local ns = require "netsection"
local rounding = require "netsection.table.rounding"
local support = require "tests.support"

local T = {}

-- A table of products; `changes` are fields of its own.
local function products(changes)
  local t = {title = "Products", rows = {name = "a", values = {1, 2, 3}},
    columns = {name = "b", values = {10, 20}},
    cell = function(a, b) return a * b end, unit = "lb", round = {to = 1, way = "down"}}
  for name, value in pairs(changes or {}) do t[name] = value end
  local made = ns.table(t)      -- no tail call: messages name this line
  return made
end

---------------------------------------------------------------------------
-- Rounding
---------------------------------------------------------------------------

-- 16 ft that arithmetic left a hair short is 16 ft; more than 1e-9 short is not.
function T.test_dust_takes_no_step()
  lu.assertEquals(rounding.to(15.9999999996 * 12, 12, "down"), 192)
  lu.assertEquals(rounding.to(15.99999997 * 12, 12, "down"), 180)
  lu.assertEquals(rounding.to(16.0000000004 * 12, 12, "up"), 192)
  lu.assertEquals(rounding.to(16.00000003 * 12, 12, "up"), 204)
  lu.assertEquals(rounding.to(189.6, 1, "down"), 189)
  lu.assertEquals(rounding.to(5.374, 0.125, "down"), 5.25)
  lu.assertEquals(rounding.to(5.376, 0.125, "up"), 5.5)
  lu.assertEquals(rounding.to(-0.4, 1, "down"), -1)
  lu.assertEquals(rounding.to(-0.4, 1, "up"), 0)
  lu.assertEquals(rounding.to(0, 1, "down"), 0)
  lu.assertEquals(rounding.to(0.3, 0.1, "down"), 0.3)
  lu.assertEquals(rounding.to(0.7, 0.01, "up"), 0.7)
  lu.assertEquals(rounding.to(2.5, 1, "nearest"), 3)
end

-- By the definition of rounding, for values on and around steps.
function T.test_rounding_never_passes_the_value_by_more_than_dust()
  local random = support.random(7)
  for _ = 1, 20000 do
    local step = random:pick {1, 0.125, 0.0625, 0.01, 0.1, 5, 12}
    local value = random:int(-4000, 4000) * step
      + random:pick {0, 0, random:real(-step, step), random:real(-1e-9, 1e-9),
        random:real(-1e-12, 1e-12)}
    local dust = 1e-9 * math.abs(value) + 1e-15
    local down, up = rounding.to(value, step, "down"), rounding.to(value, step, "up")
    lu.assertTrue(down - value <= dust and value - down < step * (1 + 1e-9), value)
    lu.assertTrue(value - up <= dust and up - value < step * (1 + 1e-9), value)
    local n = down / step
    lu.assertTrue(math.abs(n - math.floor(n + 0.5)) < 1e-6, value)
  end
end

local function one(value, changes)
  local t = products(changes)
  t = products {rows = {name = "a", values = {1}}, columns = {name = "b", values = {1}},
    cell = function() return value end, unit = t.given.unit, round = t.given.round,
    metric = t.given.metric}
  return t:cell(1, 1)
end

function T.test_units_and_their_twins()
  local inch = {to = "1 in", way = "down"}
  lu.assertEquals(one(162.9, {unit = "ft-in", round = inch}).text, "13-6")
  lu.assertEquals(one(3.8, {unit = "in", round = {to = "1/8 in", way = "down"}}).text,
    "3-3/4")
  lu.assertEquals(one(0.6, {unit = "in", round = {to = "1/8 in", way = "down"}}).text,
    "1/2")
  lu.assertEquals(one(3.87, {unit = "in", round = {to = "0.1 in", way = "up"}}).text,
    "3.9")
  lu.assertEquals(one(0.834, {unit = "", round = {to = 0.01, way = "up"}}).text, "0.84")
  -- 1 in = 25.4 mm, 1 lbf = 4.4482216152605 N exactly
  local cell = one(162.9, {unit = "ft-in", round = inch, metric = true})
  lu.assertEquals(cell.metric, 4114)             -- 162 in = 4114.8 mm
  cell = one(162.9, {unit = "ft-in", round = inch, metric = {to = "5 mm"}})
  lu.assertEquals(cell.metric_text, "4110")
  cell = one(999.2, {unit = "lb", round = {to = "1 lb", way = "up"}, metric = true})
  lu.assertEquals(cell.metric_text, "4.45")      -- 1000 lb = 4.4482 kN
  cell = one(1000, {unit = "ft-lb", round = {to = "1 ft-lb", way = "down"},
    metric = true})
  lu.assertEquals(cell.metric_text, "1.35")      -- 1.35582 kN-m
  cell = one(1000, {unit = "psi", round = {to = 1, way = "down"}, metric = true})
  lu.assertEquals(cell.metric_text, "6.89")      -- 6.89476 MPa
  cell = one(40, {unit = "psf", round = {to = 1, way = "down"}, metric = true})
  lu.assertEquals(cell.metric_text, "1.91")      -- 1.91521 kPa
  cell = one(100, {unit = "plf", round = {to = 1, way = "down"}, metric = true})
  lu.assertEquals(cell.metric_text, "1.45")      -- 1.45939 kN/m
end

---------------------------------------------------------------------------
-- What is printed
---------------------------------------------------------------------------

local function mixed()
  return products {
    rows = {name = {"wood", "grade"}, values = {{"SPF", "SS"}, {"SPF", "No.2"},
      {"=HF", "No.2"}}},
    columns = {name = "size", values = {"2x6", "2x8"}},
    blocks = {name = "spacing", values = {12, 19.2}, unit = "in"},
    cell = function(row, size, spacing)
      if row.grade == "SS" and size == "2x8" then return false end
      if row.wood == "=HF" and spacing > 12 then return {reason = "not on file"} end
      if row.wood == "=HF" and size == "2x6" then return nil end
      return {value = 10 * spacing + #row.grade, letter = row[2] == "SS" and "d" or "b",
        note = size == "2x8" and "as built" or nil}
    end,
    notes = {"Distances to the centre."}, assumptions = {"Dry."}, revision = "B, spring",
  }
end

function T.test_table_in_text()
  local said = mixed():text()
  lu.assertStrContains(said, [[
Issue B, spring

Spacing 12 in, by wood, grade (rows) and size (columns)

                   size
             ----------------
wood  grade    2x6        2x8
-----------------------------
SPF   SS     122 d
SPF   No.2   124 b  124 b (1)
]])
  said = said:gsub("%s+", " ")
  for _, piece in ipairs {"Spacing 19.2 in", "n/a (2)", "(2) not on file", "\u{2014}",
    "\u{2014}: not permitted.", "Letters name what governs: b bending, d deflection.",
    "rounded down to 1 lb, as for what is allowed", "Distances to the centre.",
    "1 Dry.", "Nothing is interpolated", "licensed where the building stands",
    "Not a sealed design"} do
    lu.assertStrContains(said, piece)
  end
end

function T.test_every_form_is_sound()
  local t = mixed()
  lu.assertNil(markup.html_problem(t:html {paper = "a4"}))
  for line in t:markdown():gmatch "[^\n]+" do
    if line:find "^|" then lu.assertEquals(#markup.markdown_cells(line), 4, line) end
  end
  lu.assertStrContains(t:latex(), "124 b\\textsuperscript{(1)}")
  for _, layout in ipairs {"cells", "sheet"} do
    local rows = assert(markup.csv(t:csv {layout = layout}))
    lu.assertTrue(#rows > 10)
  end
  lu.assertEquals(t:csv(), mixed():csv())
  lu.assertEquals(t:html(), mixed():html())
end

function T.test_hostile_texts_in_a_table()
  for _, s in ipairs(markup.HOSTILE) do
    local t = products {title = s, rows = {name = "a", values = {1, 2}, show = {s, s}},
      columns = {name = "b", values = {s}}, revision = s, notes = {s},
      cell = function(a) return a == 1 and {reason = s} or {value = 1, note = s} end}
    lu.assertNil(markup.html_problem(t:html()), s)
    local rows = assert(markup.csv(t:csv()))
    lu.assertEquals(#rows, 3, s)
    lu.assertEquals(#rows[2], 9, s)
    for _, field in ipairs(rows[2]) do lu.assertNil(field:match "^[=+@-].", s) end
    lu.assertNotNil(t:text())
    lu.assertNotNil(t:markdown())
    lu.assertFalse(t:latex():find "[^ -~\n]" ~= nil, s)
    lu.assertEquals(#t:diff(t:csv()).changed, 0, s)
  end
end

local VERSION = ("netsection %s; rules us-irc-2021, standard us-nds-2018-asd"):format(
  ns.version)

function T.test_cells_in_csv()
  local rows = assert(markup.csv(mixed():csv()))
  lu.assertEquals(rows[1], {"unit", "spacing", "wood", "grade", "size", "value", "shown",
    "letter", "reason", "revision", "version"})
  lu.assertEquals(rows[2], {"lb", "12", "SPF", "SS", "2x6", "122", "122", "d", "",
    "B, spring", VERSION})
  lu.assertEquals(rows[5], {"lb", "12", "'=HF", "No.2", "2x6", "", "\u{2014}", "", "",
    "B, spring", VERSION})
  lu.assertEquals(rows[10][9], "not on file")
  lu.assertEquals(#rows, 11)      -- 12 cells, of which two are outside the table
end

-- 12-6 would open as a date.
function T.test_lengths_in_csv_are_no_dates()
  local t = products {unit = "ft-in", round = {to = "1/4 in", way = "down"},
    cell = function() return 150.3 end}
  local rows = assert(markup.csv(t:csv()))
  lu.assertEquals(rows[2][4], "150.25")
  lu.assertEquals(rows[2][5], "12'-6 1/4\"")
  lu.assertStrContains(t:text(), "12-6 1/4")
end

function T.test_twin_columns()
  local t = products {unit = "in", round = {to = "1/8 in", way = "down"}, metric = true}
  local said = t:text()
  for _, piece in ipairs {"     10        20", "a  in   mm  in    mm",
    "3  30  762  60  1524",
    "converted, rounded down to 1 mm"} do
    lu.assertStrContains(said, piece)
  end
  lu.assertStrContains(t:html(), '<th scope="colgroup" colspan="2"><span>10</span></th>')
  lu.assertEquals(markup.csv(t:csv())[1][9], "mm")
end

local base = ns.joist {mark = "T", size = "2x10", species = "spf", grade = "No.2",
  span = "12-0", spacing = 16, dead = 10, live = 40, bearing = 3.5}

function T.test_notes_come_from_the_joist()
  local said = products {joist = base}:text():gsub("%s+", " ")
  for _, piece in ipairs {"dead 10 psf", "live 40 psf", "Joists 16 in apart",
    "Simple span on two bearings", "live load L/360, total load L/240",
    "Spruce-Pine-Fir No.1/No.2, NDS Supplement 2018", "19 % or less (dry)",
    "One of three or more joists", "NDS 2018, allowable stress design",
    "2021 International Residential Code", "D+L with CD 1.0"} do
    lu.assertStrContains(said, piece)
  end
  local by_spacing = products {joist = base, blocks = {name = "spacing", values = {16}}}
  lu.assertFalse(by_spacing:text():find "Joists 16 in apart" ~= nil)
  local by_wood = products {joist = base,
    rows = {name = {"species", "grade"}, values = {{"spf", "No.2"}}}, cell = function()
      return 1
    end}
  lu.assertStrContains(by_wood:text(), "by the species and grades named")
end

function T.test_words_to_avoid()
  local said = mixed():html():lower() .. products {joist = base}:text():lower()
  for _, word in ipairs {"certif", "guarante", "safe ", "approve", "ok to cover"} do
    lu.assertFalse(said:find(word, 1, true) ~= nil, word)
  end
end

---------------------------------------------------------------------------
-- Looking over
---------------------------------------------------------------------------

function T.test_order_of_the_values()
  local t = products {monotone = {down = "rising", across = "rising"}}
  lu.assertEquals(t:not_monotone(), {})
  t = products {monotone = {down = "rising", across = "falling"},
    cell = function(a, b) return a == 2 and b == 20 and 15 or a * b end}
  local found = t:not_monotone()
  -- down: 20, 15 then 60; across: 10 20, 30 60
  lu.assertEquals(#found, 3)
  lu.assertEquals(found[1].text,
    "row 2, column 20: 15 after 20, not rising down the column")
  lu.assertEquals({found[1].row, found[1].column, found[1].block}, {2, 2, 1})
  lu.assertStrContains(t:text(),
    "Caution: The values are out of order at 3 places: row 2, column 20")
  lu.assertEquals(#t:not_monotone {across = "rising"}, 1)
  support.raises("the table has none", function() products():not_monotone() end)
  support.raises("unknown direction 'up'", function()
    products():not_monotone {up = "rising"}
  end)
end

-- Where an axis has several names, each run of the last one is a line of its own.
function T.test_order_within_groups()
  local t = products {columns = {name = {"dead", "size"}, values = {{10, 1}, {10, 2},
    {20, 1}, {20, 2}, {20, 3}}}, cell = function(_, column)
      return column.size == 3 and 1 or 100 - column.dead + column.size
    end}
  local found = t:not_monotone {across = "rising"}
  lu.assertEquals(#found, 3)
  lu.assertStrContains(found[1].text, "column 20, 3: 1 after 82")
end

-- A dash between two values does not hide that they run the wrong way.
function T.test_order_looks_past_dashes()
  local t = products {cell = function(a, b)
    if a == 2 then return nil end
    return b - a
  end}
  lu.assertEquals(#t:not_monotone {down = "rising"}, 2)
end

function T.test_spot_check()
  local t = products {cell = function(a, b) return a == 2 and b == 20 and 41 or a * b end}
  local function single(a, b) return a * b end
  local all = t:spot_check {n = 100, single = single}
  lu.assertEquals(all.checked, 6)
  lu.assertEquals(#all.differing, 1)
  lu.assertEquals(all.differing[1].text,
    "row 2, column 20: 41 in the table, 40 by itself")
  local a = t:spot_check {n = 3, seed = 5, single = single}
  lu.assertEquals(a.checked, 3)
  lu.assertEquals(a, t:spot_check {n = 3, seed = 5, single = single})
  local none = t:spot_check {n = 1, single = function() end}
  lu.assertStrContains(none.differing[1].text, "no value by itself")
end

-- Over many seeds every cell is picked.
function T.test_spot_check_reaches_every_cell()
  local seen, count = {}, 0
  local t = products()
  for seed = 1, 60 do
    t:spot_check {n = 1, seed = seed, single = function(a, b)
      local key = a .. "/" .. b
      count = count + (seen[key] and 0 or 1)
      seen[key] = true
      return a * b
    end}
  end
  lu.assertEquals(count, 6)
end

function T.test_difference_from_the_last_issue()
  local old = products {revision = "A"}:csv()
  local t = products {rows = {name = "a", values = {1, 3, 4}}, revision = "B",
    cell = function(a, b)
      if a == 3 and b == 20 then return {value = 61, letter = "b"} end
      if a == 1 and b == 10 then return {reason = "withdrawn"} end
      return a * b
    end}
  local d = assert(t:diff(old))
  lu.assertEquals(d.text, [[
6 cells: 2 changed, 2 new, 2 gone
changed  1, 10: n/a (withdrawn), was 10
changed  3, 20: 61 b, was 60
new      4, 10: 40
new      4, 20: 80
gone     2, 10: was 20
gone     2, 20: was 40
]])
  lu.assertEquals({#d.changed, #d.new, #d.gone}, {2, 2, 2})
  lu.assertEquals(products():diff(old).text, "6 cells: 0 changed, 0 new, 0 gone\n")
  local other, problem = products {columns = {name = "c", values = {1}}}:diff(old)
  lu.assertNil(other)
  lu.assertStrContains(problem, 'its first columns are "unit,a,b"')
  other, problem = products():diff 'unit,a,b\n"x'
  lu.assertNil(other)
  lu.assertStrContains(problem, "a quote is not closed")
  lu.assertNil(products():diff "")
end

---------------------------------------------------------------------------
-- From a sweep
---------------------------------------------------------------------------

local function small_sweep(over)
  return ns.sweep {joist = base, over = over,
    values = {"ratio", "governing", "deflection.live", "status"}}
end

function T.test_cells_of_a_sweep()
  local s = small_sweep {span = {"10-0", "11-0", "12-0"}, spacing = {12, 24},
    grade = {"No.2"}}
  local t = ns.table {title = "Ratios", sweep = s, value = "ratio",
    rows = {name = "span", unit = "ft-in"}, columns = "spacing", unit = "",
    round = {to = 0.01, way = "up"}, joist = base, monotone = {across = "rising"}}
  local u = base:with {span = 144, spacing = 24, grade = "No.2"}:review().uncut
  local cell = t:cell(3, 2)
  lu.assertEquals(cell.exact, u.ratio)
  lu.assertTrue(cell.value >= u.ratio and cell.value - u.ratio < 0.01)
  lu.assertEquals(cell.letter, ns.table.letter(u.governing))
  lu.assertStrContains(t:text(), "12-0")
  local found = t:spot_check {n = 9, seed = 3, tolerance = 0}
  lu.assertEquals({found.checked, found.differing}, {6, {}})
  t.cells[1][2][1].exact = t.cells[1][2][1].exact * 1.001
  lu.assertEquals(#t:spot_check({n = 9}).differing, 1)
  t = ns.table {title = "Ratios", sweep = s, value = "ratio", rows = "span",
    columns = "spacing", unit = "", round = {to = 0.01, way = "up"}, letter = false}
  lu.assertNil(t:cell(1, 1).letter)
end

-- A hole past the end of a short joist is no cell with a value.
function T.test_points_of_a_sweep_that_make_no_sense()
  local drilled = base:with {cuts = {ns.hole {at = "9-0", diameter = 2}}}
  local s = ns.sweep {joist = drilled, over = {span = {"8-0", "10-0"}, spacing = {16}},
    values = {"ratio", "governing"}}
  local t = ns.table {title = "Ratios", sweep = s, value = "ratio", rows = "span",
    columns = "spacing", unit = "", round = {to = 0.01, way = "up"}}
  lu.assertNil(t:cell(1, 1).value)
  lu.assertStrContains(t:cell(1, 1).reason, "past the end")
  lu.assertEquals(t:cell(2, 1).exact, drilled:with {span = "10-0"}:review().cut.ratio)
  lu.assertEquals(t:spot_check({n = 5}).differing, {})
end

function T.test_axes_of_a_sweep_that_a_table_does_not_show()
  local s = small_sweep {span = {120, 144}, spacing = {12, 24}, grade = {"No.1", "No.2"}}
  local function of(at)
    return ns.table {title = "t", sweep = s, value = "deflection.live", rows = "span",
      columns = "grade", at = at, unit = "in", round = {to = "0.001 in", way = "up"},
      joist = base, scale = 1}
  end
  support.raises("at: a value of the sweep's axis 'spacing' is needed", of)
  support.raises("the sweep has no axis 'dead'", of, {spacing = 12, dead = 1})
  lu.assertEquals(of({spacing = 24}):spot_check({n = 4}).differing, {})
end

-- What stands still is said as it stands in the cells, not as in the joist.
function T.test_assumptions_of_a_sweep_are_those_of_its_cells()
  local s = ns.sweep {joist = base, over = {span = {"10-0", "3 m"}, spacing = {12, 24},
    live = {40, 60}, ["limits.live"] = {360, 480}}, values = {"ratio", "governing",
    "reaction.1"}}
  local function of(t)
    t.title, t.sweep, t.joist, t.rows, t.columns = "t", s, base, "span", "spacing"
    t.value, t.unit = t.value or "ratio", t.value and "lb" or ""
    t.round = {to = 0.01, way = "up"}
    return ns.table(t)
  end
  local t = of {at = {live = 60, ["limits.live"] = 480}}
  local said = t:text():gsub("%s+", " ")
  lu.assertStrContains(said, "live 60 psf")
  lu.assertStrContains(said, "live load L/480")
  lu.assertStrContains(said, "Size 2x10.")
  lu.assertStrContains(said, "spacing, in")
  lu.assertStrContains(said, "10-0")
  said = of({blocks = "live", at = {["limits.live"] = 360}}):text():gsub("%s+", " ")
  lu.assertStrContains(said, "live as the table says")
  -- What governs the joist does not govern a reaction.
  lu.assertNil(of({value = "reaction.1", at = {live = 40,
    ["limits.live"] = 360}}):cell(1, 1).letter)
  lu.assertNotNil(t:cell(1, 1).letter)
end

---------------------------------------------------------------------------
-- Messages
---------------------------------------------------------------------------

local sweep = small_sweep {span = {120}, spacing = {12}}

-- Piece of the message, and the fields that bring it about.
local MESSAGES = {
  {"table: unknown field 'row'", {row = 1}},
  {"table: rows: unknown field 'label'", {rows = {label = "x"}}},
  {"title: text expected", {title = 1}}, {"dash: text expected", {dash = 1}},
  {"revision: text expected", {revision = 1}}, {"rules: text expected", {rules = 1}},
  {"standard: text expected", {standard = 1}},
  {"lang: a language tag", {lang = "<b>"}},
  {"rules: ", {rules = "nowhere"}}, {"standard: ", {standard = "nowhere"}},
  {"notes: a list of texts", {notes = {1}}},
  {"assumptions: a list of texts", {assumptions = "x"}},
  {"joist: a joist expected", {joist = {}}},
  {"sweep: a sweep expected", {sweep = 1}},
  {"unit: text expected", {unit = false}},
  {"round: {to = step, way", {round = {to = 1}}},
  {"round: {to = step, way", {round = 1}},
  {"round: to: a step above 0 in lb", {round = {to = "1 kg", way = "down"}}},
  {"round: to: a step above 0", {round = {to = 0, way = "down"}}},
  {'such as "1 in"', {unit = "in", round = {to = "1 lb", way = "up"}}},
  {"a multiple of 1/16 in", {unit = "ft-in", round = {to = "0.1 in", way = "up"}}},
  {"metric: '' has no twin unit", {unit = "", metric = true}},
  {"metric: true or {to = a step in kN}", {metric = {to = "1 lb"}}},
  {"metric: true or {to", {metric = "mm"}},
  {"letters: {letter = meaning}", {letters = {x = 1}}},
  {"letters: {letter = meaning}", {letters = "x"}},
  {"rows: {name=, values=} expected, got number", {rows = 1}},
  {"rows: name: text or a list", {rows = {values = {1}}}},
  {"rows: name: text or a list", {rows = {name = {1}, values = {1}}}},
  {"rows: values: a list with one value", {rows = {name = "a", values = {}}}},
  {"rows: values: a list with one value", {rows = {name = "a"}}},
  {"columns: values: value 2: text or a finite", {columns = {name = "b",
    values = {1, 0 / 0}}}},
  {"blocks: values: value 1: a list of 2 expected, for c, d",
    {blocks = {name = {"c", "d"}, values = {{1}}}}},
  {"rows: unit: text", {rows = {name = "a", values = {1}, unit = 1}}},
  {"of several names {name = text}", {rows = {name = {"a", "c"}, values = {{1, 2}},
    unit = "in"}}},
  {"rows: head: text", {rows = {name = "a", values = {1}, head = 1}}},
  {"rows: show: a function or", {rows = {name = "a", values = {1}, show = 1}}},
  {"rows: show: text expected for value 2",
    {rows = {name = "a", values = {1, 2}, show = {"x"}}}},
  {"the name 'a' is taken twice", {columns = {name = "a", values = {1}}}},
  {"the name 'value' is taken twice", {columns = {name = "value", values = {1}}}},
  {"monotone: {down", {monotone = {}}},
  {"monotone: unknown direction 'left'", {monotone = {left = "rising"}}},
  {'monotone: down: "rising" or "falling"', {monotone = {down = "up"}}},
  {"cell: a function of row", {cell = 1}},
  {"value goes with a sweep", {value = "x"}}, {"at goes with a sweep", {at = {}}},
  {"letter goes with a sweep", {letter = false}},
  {"scale goes with a sweep", {scale = 1}},
  {"cell or sweep expected", {sweep = sweep}},
  {"cell at row 1, column 10: a number, text, a table", {cell = function()
    return true
  end}},
  {"joist: the joist of the cell", {cell = function() return {joist = 1} end}},
  {"unknown field 'val' (takes value", {cell = function() return {val = 1} end}},
  {"value: a finite number", {cell = function() return 0 / 0 end}},
  {"letter: text expected", {cell = function() return {value = 1, letter = 1} end}},
  {"reason: text expected", {cell = function() return {reason = 1} end}},
  {"note: text expected", {cell = function() return {value = 1, note = 1} end}},
  {"not both", {cell = function() return {value = 1, reason = "x"} end}},
  {"letter 'q' has no meaning", {cell = function() return {value = 1, letter = "q"} end}},
  {"block 7, row 1, column 10: letter 'q'", {blocks = {name = "c", values = {7}},
    cell = function() return {value = 1, letter = "q"} end}},
}

function T.test_every_message()
  for _, case in ipairs(MESSAGES) do
    local said = support.raises(case[1], products, case[2])
    lu.assertStrContains(said, "test_table.lua")
    lu.assertStrContains(said, "table")
  end
end

function T.test_messages_about_sweeps()
  local function of(changes)
    local t = {title = "t", sweep = sweep, value = "ratio", rows = "span",
      columns = "spacing", unit = "", round = {to = 0.01, way = "up"}}
    for name, value in pairs(changes) do t[name] = value end
    return ns.table(t)
  end
  support.raises("value: one of the sweep's expected: ratio, governing", of,
    {value = "x"})
  support.raises("rows: the sweep has no axis 'x'", of, {rows = "x"})
  support.raises("the sweep has no axis 'x'", of, {rows = {name = "x", values = {1}}})
  support.raises("scale: a finite number", of, {scale = "x"})
  support.raises("letter: the sweep has no value 'mode'", of, {letter = "mode"})
  support.raises("unit: 'ratio' is in no unit", of, {unit = "lb",
    round = {to = 1, way = "up"}})
end

function T.test_messages_of_methods()
  local t = products()
  for piece, call in pairs {
    ["unknown field 'pages'"] = function() t:html {pages = 1} end,
    ['paper "letter" or "a4"'] = function() t:latex {paper = "b5"} end,
    ['layout "cells" or "sheet"'] = function() t:csv {layout = "x"} end,
    ["table:csv: unknown field"] = function() t:csv {paper = "a4"} end,
    ["spot_check: n: a count"] = function() t:spot_check {n = 0} end,
    ["spot_check: seed"] = function() t:spot_check {seed = 0.5} end,
    ["spot_check: tolerance"] = function() t:spot_check {tolerance = -1} end,
    ["spot_check: single: a function"] = function() t:spot_check {} end,
    ["diff: the text of an earlier"] = function() t:diff(nil) end,
  } do
    lu.assertStrContains(support.raises(piece, call), "test_table.lua")
  end
  lu.assertNil(t:cell(9, 9, 9))
end

return T
