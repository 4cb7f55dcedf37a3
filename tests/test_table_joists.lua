-- SPDX-License-Identifier: MIT
-- What a table says of the joists of its cells, whatever its axes are called; units of
-- what a sweep gives; texts in cells; the version in every form.
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local T = {}

local base = ns.joist {mark = "T", size = "2x10", species = "spf", grade = "No.2",
  span = "12-0", spacing = 16, dead = 10, live = 40, bearing = 3.5}

-- A table over joists made by `make` of the value of an axis of any name.
local function over(values, make)
  return ns.table {title = "t", rows = {name = "case", values = values},
    columns = {name = "state", values = {"uncut"}}, unit = "",
    round = {to = 0.01, way = "up"}, joist = base, cell = function(case)
      local j = make(case)
      return {value = j:review().uncut.ratio, joist = j}
    end}
end

local function flat(t)
  return (t:text():gsub("%s+", " "))
end

function T.test_what_varies_is_said_whatever_the_axis_is_called()
  local cases = {
    {"Joists varies|The spacing of the joists varies", "spacing", {12, 24}},
    {"live as the table says, which varies", "live", {40, 60}},
    {"dead as the table says, which varies", "dead", {10, 20}},
    {"Size varies", "size", {"2x8", "2x12"}}, {"Span varies", "span", {"10-0", "12-0"}},
    {"Plies: vary", "plies", {1, 2}},
    {"live load as the table says, which varies", "limits.live", {360, 480}},
    {"Kcr varies", "creep", {1, 1.5}}, {"Moisture, temperature or incising varies",
      "moisture", {"dry", "wet"}}, {"repetitive factor varies", "members", {1, 5}},
    {"deck or notch factor vary", "notch_raiser", {1, 1.5}},
  }
  for _, case in ipairs(cases) do
    local values = {"first", "second"}
    local said = flat(over(values, function(name)
      return base:with {[case[2]] = case[3][name == "first" and 1 or 2],
        plies = case[2] == "plies" and case[3][name == "first" and 1 or 2] or nil}
    end))
    lu.assertStrContains(said, (case[1]:gsub("^.*|", "")))
    local same = flat(over({"first"}, function() return base end))
    lu.assertNotStrContains(same, (case[1]:gsub("^.*|", "")))
  end
end

function T.test_cuts_loads_and_repairs_of_the_cells_are_said()
  local drilled = base:with {cuts = {ns.hole {at = "6-0", diameter = 2}}}
  lu.assertStrContains(flat(over({"a"}, function() return drilled end)), "Cuts: hole (")
  lu.assertStrContains(flat(over({"a", "b"}, function(c)
    return c == "a" and base or drilled
  end)), "Cuts vary from cell to cell")
  local loaded = base:with {loads = {ns.point {at = "6-0", load = 100}}}
  lu.assertStrContains(flat(over({"a", "b"}, function(c)
    return c == "a" and base or loaded
  end)), "line or point loads of the joists vary")
end

-- The material of the cells, not of the joist beside them; memory is said.
function T.test_material_and_memory_come_from_the_cells()
  local given = base:with {species = ns.none, grade = ns.none, material = {Fb = 900,
    CF = 1, Fv = 135, E = 1.4e6, source = "a tag on the joist"}}
  lu.assertStrContains(flat(over({"a"}, function() return given end)),
    "Design values: a tag on the joist")
  local remembered
  for _, grade in ipairs {"No.1", "No.2", "No.3", "Stud", "Construction"} do
    for _, species in ipairs {"spf", "hem-fir", "southern pine", "spf-south",
      "douglas fir-larch"} do
      local ok, j = pcall(base.with, base, {species = species, grade = grade})
      if ok and j.model.confidence == "memory" then remembered = j end
    end
  end
  lu.assertNotNil(remembered)
  local said = flat(over({"a"}, function() return remembered end))
  lu.assertStrContains(said, "confidence 'memory'")
  lu.assertStrContains(said, remembered.model.wood)
end

function T.test_joists_of_a_sweep_are_used_without_one_being_given()
  local s = ns.sweep {joist = base, over = {live = {40, 60}, spacing = {12, 16}},
    values = {"ratio"}}
  local said = flat(ns.table {title = "t", sweep = s, value = "ratio", rows = "live",
    columns = "spacing", unit = "", round = {to = 0.01, way = "up"}})
  lu.assertStrContains(said, "live as the table says, which varies")
  lu.assertStrContains(said, "dead 10 psf")
  lu.assertStrContains(said, "Size 2x10.")
end

function T.test_version_and_editions_in_every_form()
  local t = over({"a"}, function() return base end)
  local wanted = "netsection " .. ns.version
  for _, form in ipairs {"text", "markdown", "html", "latex"} do
    local said = t[form](t):gsub("%s+", " ")
    lu.assertStrContains(said, wanted)
    lu.assertStrContains(said, "2018")
  end
  for _, how in ipairs {"cells", "sheet"} do
    local said = t:csv {layout = how}
    lu.assertStrContains(said, wanted)
    lu.assertStrContains(said, "us-nds-2018")
  end
end

-- w = 50 psf x 16 in = 66.67 plf on 12 ft: w l^2 / 8 = 1200 ft-lb, w l / 2 = 400 lb.
function T.test_values_of_a_sweep_are_converted_or_refused()
  local s = ns.sweep {joist = base, over = {spacing = {16}, span = {"12-0"}},
    values = {"moment", "reaction.1", "deflection.live"}}
  local function of(value, unit, more)
    return ns.table {title = "t", sweep = s, value = value, rows = "span",
      columns = "spacing", unit = unit, round = {to = 0.01, way = "nearest"},
      metric = more}
  end
  lu.assertAlmostEquals(of("moment", "ft-lb"):cell(1, 1).exact, 1200, 1e-6)
  lu.assertAlmostEquals(of("moment", "in-lb"):cell(1, 1).exact, 14400, 1e-5)
  lu.assertAlmostEquals(of("reaction.1", "lb"):cell(1, 1).exact, 400, 1e-6)
  lu.assertAlmostEquals(of("reaction.1", "kN"):cell(1, 1).exact,
    400 * 4.4482216152605 / 1000, 1e-9)
  support.raises("'reaction.1' is in lb, which is not 'psi'", of, "reaction.1", "psi")
  support.raises("'deflection.live' is in in, which is not 'lb'", of, "deflection.live",
    "lb")
  lu.assertEquals(#of("moment", "ft-lb"):spot_check({n = 1, tolerance = 1e-12})
    .differing, 0)
end

-- A limit is in inches, as every number of a length: 144 is 12 ft on an axis of feet.
function T.test_a_limit_of_a_chart_is_in_the_units_of_the_numbers()
  local s = ns.sweep {joist = base, over = {spacing = {12, 16, 24}},
    values = {"longest_span"}}
  for _, limit in ipairs {144, "12-0"} do
    local script = ns.plot.curves(s, {value = "longest_span", x = "spacing",
      limit = limit})
    lu.assertStrContains(script, "limit 12")
    lu.assertNotStrContains(script, ",144 ")
  end
end

function T.test_letters_of_rules_standard_and_size()
  for _, word in ipairs {"rules", "standard", "size"} do
    local letter = ns.table.letter(word)
    lu.assertIsString(letter)
    local t = ns.table {title = "t", rows = {name = "a", values = {1}},
      columns = {name = "b", values = {1}}, unit = "", round = {to = 1, way = "up"},
      cell = function() return {value = 1, letter = letter} end}
    lu.assertStrContains(t:text(), "Letters name what governs: " .. letter)
  end
end

function T.test_texts_in_cells()
  local t = ns.table {title = "t", rows = {name = "a", values = {1, 2}},
    columns = {name = "b", values = {1}}, unit = "", round = {to = 1, way = "up"},
    cell = function(a) return a == 1 and "leave" or {value = "repair", note = "n"} end}
  lu.assertEquals({t:cell(1, 1).text, t:cell(2, 1).text}, {"leave", "repair"})
  lu.assertNil(t:cell(1, 1).exact)
  for _, form in ipairs {"text", "markdown", "html", "latex", "csv"} do
    lu.assertStrContains(t[form](t), "repair")
  end
end

return T
