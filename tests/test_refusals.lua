-- SPDX-License-Identifier: MIT
-- What is refused, and in which words: the joist or the function, the field, what was
-- expected. Texts are what a user reads, so they are compared whole.
local lu = require "luaunit"
local ns = require "netsection"
local with = require "tests.support".with

local T = {}

local function joist(changes)
  return ns.joist(with({mark = "J", size = "2x10", species = "hem-fir", grade = "No.2",
    span = "12-0", spacing = 16, bearing = 3.5, dead = 10, live = 40,
    cuts = {ns.hole {at = "4-0", diameter = 2}}}, changes))
end

-- Each case is refused with this text, a place in a file in front of it or not.
local function refused(cases, f)
  for _, case in ipairs(cases) do
    local ok, why = pcall(f, case[1])
    lu.assertFalse(ok, case[2])
    lu.assertEquals(tostring(why):gsub("^tests/test_refusals%.lua:%d+: ", ""), case[2])
  end
end

local BOLT = ns.fastener {kind = "bolt", diameter = "1/2 in"}
local LAG = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "3 in"}
local NAIL = ns.fastener {kind = "nail", size = "16d"}

function T.test_joists()
  refused({
    {{species = ns.none, grade = ns.none, material = {Fb = "x", Fv = 150, E = 1e6}},
      "joist J, material.Fb: a number of psi expected, got x"},
    {{cuts = {ns.hole {at = 48, diameter = 2, below = 3, above = 3}}},
      "joist J, cut 1 (hole), below: give below or above, not both"},
    {{cuts = {ns.notch {from = 10, to = 20, depth = 1, face = "top",
      accept_outside_standard = 5}}}, "joist J, cut 1 (notch), accept_outside_standard: "
      .. "the reason, in words, expected"},
    {{loads = {ns.area {load = "10 psf", from = 50, to = 40, width = 3}}},
      "joist J, load 1 (area), to: 'to' must be beyond 'from'"},
    {{cuts = ns.none, loads = {ns.tub {from = 50, to = 40, width = 30, empty = 100,
      water = 400, people = 300}}},
      "joist J, load 1 (tub), to: 'to' must be beyond 'from', and width above 0"},
    {{shores = {at = 5}},
      "joist J, shores.at: two places of shores, left and right, expected"},
    {{species = ns.none, grade = ns.none, historic = {set = "x", buildings = 3}},
      "joist J, historic: buildings: true or false expected"},
    {{species = ns.none, grade = ns.none, historic = {set = "x", Fv = -3}},
      "joist J, historic: Fv: a number of psi expected"},
  }, joist)
end

function T.test_sisters_and_plates()
  refused({
    {{bearing = 5},
      "joist J, sister, bearing: true, false or {left =, right =} expected"},
    {{from = 50, to = 40}, "joist J, sister, to: 'to' must be beyond 'from'"},
    {{from = 5, to = 100, bearing = {left = true}}, "joist J, sister, from: a member "
      .. "that bears on the left begins at its bearing, 0'-0\""},
    {{from = 5, to = 100, bearing = {right = true}}, "joist J, sister, to: a member that "
      .. "bears on the right ends at its bearing, 12'-0\""},
    {{from = 5, to = 100, groups = 4},
      "joist J, sister, groups: a list of 1 to 32 groups {at =, n =} expected"},
    {{from = 5, to = 100, groups = {}},
      "joist J, sister, groups: a list of 1 to 32 groups {at =, n =} expected"},
    {{fastener = 5},
      "joist J, sister, fastener: a fastener such as ns.fastener{...} expected"},
    {{rated = -3}, "joist J, sister, rated: a load above 0 such as \"200 lb\" expected"},
    {{from = 20, to = 100, hanger = {capacity = 1000}},
      "joist J, sister, hanger: only a sister that bears hangs at its ends"},
  }, function(t)
    return joist():fix(ns.sister(with({size = "2x10", fastener = BOLT}, t)))
  end)
  refused({
    {{steel = ns.none, thickness = 0.5}, "joist J, side plates, material: {Fb =, Fv =, "
      .. 'E =} of the panel in the plane of its load, or steel = "A36", expected: panels '
      .. "have no values on file"},
    {{steel = "xx", thickness = 0.5}, "joist J, side plates, steel: not on file: xx"},
    {{gauge = 99}, "joist J, side plates, gauge: not on file: 99"},
    {{}, "joist J, side plates, thickness: missing"},
  }, function(t)
    return joist():fix(ns.side_plates(with({fastener = BOLT, depth = 9, steel = "A36",
      from = 20, to = 100}, t)))
  end)
end

function T.test_end_sisters()
  refused({
    {{groups = 5}, "joist J, end sister, groups: two groups {{at =, n =}, {at =, n =}}, "
      .. "the inner one first, expected"},
    {{groups = {5, {at = 60}}}, "joist J, end sister, groups[1]: {at =, n =} expected"},
    {{groups = {{at = 60, n = 4}, {at = 12, n = 4}}},
      "joist J, end sister, groups: the inner group first, the outer one beyond it"},
    {{hanger = {cap = 3}},
      "joist J, end sister, hanger: takes capacity, seat, not 'cap'"},
    {{to = ns.none},
      "joist J, end sister, to: missing: where the sister ends, from the lost bearing"},
  }, function(t)
    return joist {cuts = {ns.lost_bearing {support = "left", to = "2-0", cause = "rot"}}}
      :fix(ns.end_sister(with({support = "left", size = "2x10", fastener = BOLT,
        to = "6-0", groups = {{at = 30, n = 4}, {at = 60, n = 4}},
        hanger = {capacity = 1500}}, t)))
  end)
end

function T.test_other_repairs()
  refused({
    {{fastener = 5},
      "joist J, notch screws, fastener: a fastener such as ns.fastener{...} expected"},
    {{fastener = BOLT}, "joist J, notch screws, fastener: a lag screw or a wood screw "
      .. "expected, got a bolt"},
    {{fastener = ns.fastener {kind = "lag screw", diameter = "1/4 in"}},
      "joist J, notch screws, fastener: a length is needed"},
    {{fastener = LAG, full_thread = 5},
      "joist J, notch screws, full_thread: true or false expected"},
  }, function(t)
    return joist {cuts = {ns.end_notch {support = "left", length = 4, depth = 2,
      face = "bottom"}}}:fix(ns.notch_screws(t))
  end)
  refused({
    {{cut = 9}, "joist J, strap, cut: the number of a cut, 1 to 1, expected"},
    {{steel = "xx"}, "joist J, strap, steel: not on file: xx"},
    {{gauge = 99}, "joist J, strap, gauge: not on file: 99"},
  }, function(t)
    return joist():fix(ns.strap(with({cut = 1, width = 3, gauge = 12, fastener = NAIL},
      t)))
  end)
  refused({
    {ns.header {at = {100, 50}},
      "joist J, header, at: the second header beyond the first expected"},
    {ns.added_joist {write_off = 5},
      "joist J, added joist, write_off: true or false expected"},
    {5, "fix: a fix such as ns.sister{...} expected, got number"},
  }, function(fix) return joist():fix(fix) end)
end

function T.test_fasteners()
  refused({
    {{kind = "wood screw", size = "12d"},
      'fastener.size: "#10" and the like expected, got 12d'},
    {{kind = "bolt", size = "1/2"},
      "fastener.size: nails and wood screws have it; a bolt has a diameter"},
  }, ns.fastener)
  local wood = {thickness = "1.5 in", species = "hem-fir"}
  refused({
    {{fastener = NAIL, side = {gauge = 12, thickness = 1, steel = "A36"}, main = wood},
      "lateral.side: a thickness or a gauge, not both"},
    {{fastener = BOLT, side = {gauge = 12, steel = "A36"}, main = {species = "hem-fir"}},
      "lateral.main.thickness: missing, a bolt needs it"},
  }, ns.lateral)
  refused({
    {{predrilled = 3}, "johansen.predrilled: true or false expected, got 3"},
    {{service_class = 1.5}, "johansen.service_class: 1, 2 or 3 expected"},
  }, function(t)
    return ns.johansen(with({kind = "nail", diameter = "3 mm", length = "90 mm"}, t))
  end)
end

local function floor()
  return ns.floor {joists = {joist {mark = "A"}, joist {mark = "B"}, joist {mark = "C"}}}
end

function T.test_grids()
  refused({
    {{panel_ends = 5}, "floor:grid: panel_ends: a list of {joist =, ...} expected"},
    {{panel_ends = {{y = 8}}},
      "floor:grid: panel_ends[1]: unknown field 'y' (takes joist, from, to)"},
    {{deck = 5},
      "floor:grid: deck: a table or the name of a panel expected, got number"},
    {{deck = {across = -1, along = 3}},
      "floor:grid: deck.across: a number from 0 to 1e+13 expected, got -1"},
    {{EI = 5}, "floor:grid: EI: {J4 = lb-in2} expected"},
    {{EI = {A = -4}}, "floor:grid: EI.A: a number above 0 expected, got -4"},
    {{uniform = 4},
      'floor:grid: uniform: true, false, "dead" or "live" expected, got 4'},
    {{points = {{at = 4, load = 100}}}, "floor:grid: points[1]: joist = its mark, or y "
      .. "across the floor from the first joist, expected"},
    {{doubtful = "Z"}, "floor:grid: doubtful: no joist 'Z'"},
    {{blocking = {{at = 72, k = -1}}}, "floor:grid: blocking[1].k: lb-in per radian of "
      .. "one block end, 0 or more, math.huge for one that does not turn, expected"},
    {{edges = "whole"}, "floor:grid: edges: half, full expected, got whole"},
  }, function(t) return floor():grid(with({deck = "24oc OSB"}, t)) end)
  local g = floor():grid {deck = "24oc OSB", doubtful = "A"}
  refused({{999, "grid:at: x: a place on joist A, 0 to 144 in, expected"}},
    function(x) return g:at("A", x) end)
  refused({{5, "floor:feel: criteria: \"all\" or a list of names expected"}},
    function(v) return floor():feel {deck = "24oc OSB", criteria = v} end)
  refused({{5, "floor:review: grid: a table of options expected, got number"}},
    function(v) return floor():review {grid = v} end)
end

function T.test_packages_and_reports()
  local r = floor():review()
  refused({
    {{paper = 3}, 'package.files: paper: "letter" or "a4" expected'},
    {{workbook = 4}, 'package.files: workbook: "xlsx" or "ods" expected'},
    {{progress = 3}, "package.files: progress: a function expected"},
    {{job = 3}, "package.files: job: text expected"},
    {{steps = "all"},
      "package.files: steps is of the full calculation: give full = true"},
    {{shores = 4}, "package.files: shores: a list of what floor:shores gave expected"},
  }, function(t) return ns.package.files(r, t) end)
  local one = joist()
  refused({{"x", "find: cut: the number of a cut expected, got string"}},
    function(v) return one:review():find("cut", "bending", v) end)
  refused({{"x", 'report.text: steps is "governing", "all" or "none"'}},
    function(v) return ns.report.text(one:review(), {steps = v}) end)
  refused({{{}, "longest_span: modes is a list such as {\"bending\"}"}},
    function(v) return one:longest_span {modes = v} end)
  refused({{5, "size_sister: a table of fields expected, got number"}},
    function(v) return ns.size_sister(one, v) end)
  refused({{5, "merge_shards: a list of summaries or of their paths expected"}},
    ns.merge_shards)
  refused({{5, "a floor does not change: describe another"}},
    function(v) floor().x = v end)
  refused({
    {{}, 'vibration: a joist of a strength class expected, such as class = "C24"'},
    {{strutting = 5}, "vibration.strutting: true or false expected, got 5"},
  }, function(t) return one:vibration(t) end)
  refused({
    {{printed = "xx"}, 'read_survey: printed is "us" or "metric"'},
    {{lang = "xx"}, 'read_survey: lang: "en-US", "en-GB" or "en-CA" expected; got xx: no '
      .. "other language is there"},
  }, function(t) return ns.read_survey(with({joists = {text = "mark\n"}}, t)) end)
end

function T.test_odds()
  local live = {name = "live", normal = {40, 4}}
  refused({
    {{inputs = {{name = "live", choice = {}}}},
      "odds: inputs: live: choice: a list of 1 to 64 values expected"},
    {{inputs = {{name = "live", choice = {30, 40}, weights = {2, -1}}}},
      "odds: inputs: live: weights: number 2: 0 or more expected, got -1"},
    {{inputs = {{name = "live", normal = {30, 4}, weights = {1, 1}}}},
      "odds: inputs: live: weights: only a choice has them"},
    {{inputs = {{normal = {30, 40}}}}, "odds: inputs: number 1: a name expected"},
    {{inputs = {live, {name = "dead", normal = {5, 1}, with = {"live", 0.5}},
      {name = "d", normal = {9.25, 0.01}, with = {"dead", 0.5}}}},
      "odds: inputs: d: with: 'dead' goes with another input itself"},
    {{inputs = {live}, replicates = 1e9}, "odds: replicates: 1 to 32 expected"},
    {{inputs = {live}, draws = 1001, replicates = 10},
      "odds: draws: a whole number to 16777216 that 10 replicates divide expected"},
  }, function(t) return joist():odds(t) end)
end

function T.test_homework()
  refused({
    {{problems = {{kind = "reactions", label = "a b"}}},
      "homework: problem 1: label: letters, digits, _ and - expected"},
    {{problems = {{kind = "reactions", label = "q"}, {kind = "end_notch", label = "q"}}},
      "homework: problem 2: the label q is there twice"},
    {{students = {{id = "a", given = 5}}},
      "homework: student 1: given: {[problem] = {name = value}} expected"},
    {{decimal = "x"}, 'homework: decimal: "," or "." expected'},
  }, function(t)
    return ns.homework(with({course = "C", seed = "1", students = {"a"},
      problems = {"reactions"}}, t))
  end)
  local set = ns.homework {course = "C", seed = "1", students = {"a"},
    problems = {"reactions"}}
  refused({{"xml", 'homework: bank: "csv" or "json" expected'}},
    function(v) return set:bank(v) end)
  refused({{5, "homework.load: a table of changes expected, got number"}},
    function(v) return ns.homework.load("x.json", v) end)
  refused({
    {{follows = 3}, "homework: mark: follows: a share from 0 to 1 expected"},
    {{hand = 3}, "homework: mark: hand: CSV text or rows expected"},
  }, function(t) return set:mark("student,problem,part,answer\n", t) end)
end

return T
