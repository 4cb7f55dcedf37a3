-- SPDX-License-Identifier: MIT
-- Results of an earlier version looked at again: tests/data/mill is a survey of our own
-- and the numbers that version 0.1 wrote of it (leading blanks of its lines taken
-- away). Ratios of today that are expected here are worked by hand or in the tests
-- named beside them.
local drawing = require "tests.drawing"
local json = require "dkjson"
local lu = require "luaunit"
local ns = require "netsection"
local changes = require "netsection.data.changes"
local survey_folder = require "netsection.command.survey_folder"
local system = require "tests.system"

local T = {}

local MILL = "tests/data/mill"
local OLD = MILL .. "/numbers_of_0.1.json"

local function floor()
  return assert(ns.read_survey(survey_folder.options(survey_folder.files(MILL), {})))
end

local with_survey, without

function T.setUp()
  with_survey = with_survey or assert(ns.recheck(OLD, floor():review()))
  without = without or assert(ns.recheck(OLD))
end

local function joist(result, mark)
  for _, j in ipairs(result.joists) do
    if j.mark == mark then return j end
  end
end

local function state(j, name)
  for _, s in ipairs(j.states) do
    if s.state == name then return s end
  end
end

local function check(j, name, word)
  for _, k in ipairs(state(j, name).checks) do
    if k.name == word then return k end
  end
end

local function names(list)
  local out = {}
  for i, c in ipairs(list) do out[i] = c.name end
  return table.concat(out, ", ")
end

function T.test_each_difference_names_its_change()
  lu.assertEquals({with_survey.since, with_survey.looked, #with_survey.not_looked},
    {"0.1", 8, 0})
  for _, case in ipairs {{"J1", "cut", "lip-tension_hole-1", "openings"},
    {"J3", "cut", "bending", "end notch"}, {"J4", "fixed", "fasteners_sister", "groups"},
    {"J6", "uncut", "bending-hogging", "hogging"},
    {"J7", "uncut", "shear", "point load"}, {"J8", "cut", "bearing_support-1", "seat"},
    {"J8", "cut", "notch-shear_loss-1", "seat"}, {"J9", "uncut", "bending", "tub"},
    {"J9", "cut", "net-bending_hole-1", "openings, tub"}} do
    local mark, name, word, expected = table.unpack(case)
    local k = check(joist(with_survey, mark), name, word)
    lu.assertNotNil(k, mark .. " " .. word)
    lu.assertEquals(names(k.changes), expected, mark .. " " .. word)
  end
  lu.assertNil(joist(with_survey, "J12")) -- nothing moved there
  lu.assertNotStrContains(with_survey:text(), "no change on file")
end

-- By hand: 1500 lb live 8 in from the left center of a span of 162 in, its near face
-- 1-3/4 in: R = 1500 (162 - 8)/162 = 1425.9; the load counts by (8 - 1.75)/9.25 =
-- 0.6757, so V = 468 + 478.5... of the uniform load beyond d of the face, 69.33/12 (81
-- - 11) = 404.4, and 1425.9 x 0.6757 = 963.4: 1367.9 lb of 2/3 x 180 x 1.5 x 9.25 =
-- 1665. It was the uniform load's and what the point load puts on the other bearing:
-- 404.4 + 74.1.
function T.test_point_load_by_hand()
  local k = check(joist(with_survey, "J7"), "uncut", "shear")
  local w = 52 * 16 / 144
  local uniform = w * (81 - 1.75 - 9.25)
  local P = 1500 * (162 - 8) / 162
  lu.assertAlmostEquals(k.is, (uniform + P * (8 - 1.75) / 9.25) / 1665, 1e-9)
  lu.assertAlmostEquals(k.was, (uniform + 1500 * 8 / 162) / 1665, 1e-9)
end

-- By hand: the end notch reaches 8 - 3.5 = 4.5 in past the bearing, over d/3 = 3.08:
-- outside the rules, so the repetitive factor goes from 1.15 to 1.
function T.test_action_rules_and_factor()
  local j = joist(with_survey, "J3")
  lu.assertEquals({j.was, j.is, j.rules.was, j.rules.is, names(j.rules.changes)},
    {"leave", "justify", "within", "outside", "end notch"})
  local k = check(j, "cut", "bending")
  lu.assertEquals(k.Cr, {was = 1.15, is = 1})
  lu.assertAlmostEquals(k.is / k.was, 1.15, 1e-9)
  lu.assertNotNil(state(j, "until_repaired")) -- beside J4, which is cut through
  lu.assertStrContains(with_survey:text(), "J3     justify, was leave")
end

function T.test_without_the_survey()
  lu.assertEquals(without.looked, 5)
  local asked = {}
  for i, one in ipairs(without.not_looked) do asked[i] = one.mark .. " " .. one.reason end
  lu.assertEquals(asked, {"J4 its repair is not in the file in full",
    "J8 its loss-1 is not in the file in full", "J9 its tub is not in the file in full"})
  for _, mark in ipairs {"J1", "J6", "J7"} do -- the same numbers as from the survey
    local a, b = joist(without, mark), joist(with_survey, mark)
    lu.assertEquals(#a.entries, 0)
    for _, s in ipairs(b.states) do
      for _, k in ipairs(s.checks) do
        lu.assertEquals(check(a, s.state, k.name).is, k.is, mark .. " " .. k.name)
      end
    end
  end
  lu.assertStrContains(without:text(), "looked at alone")
end

-- A number that no change of rules moves is said to be unexplained, not dressed up.
function T.test_unexplained_and_entries()
  local tree = json.decode(drawing.read_file(OLD))
  local j = tree.joists.J12
  tree.joists = {J12 = j}
  lu.assertEquals({ns.recheck(tree).looked, ns.recheck(tree).changed}, {1, 0})
  local k = j.uncut.checks.bending
  k.ratio, k.demand = k.ratio * 0.9, k.demand * 0.9
  j.uncut.ratio = j.uncut.ratio * 0.9
  local result = ns.recheck(tree)
  lu.assertEquals({result.changed, #check(result.joists[1], "uncut", "bending").changes},
    {1, 0})
  lu.assertStrContains(result:text(), "no change on file explains it")
  j.switches = {"Creep 1.5"}
  lu.assertStrContains(ns.recheck(tree).not_looked[1].reason, "switches")
  j.switches = nil
  j.inputs.spans[1] = 150 -- another joist than the survey's
  lu.assertEquals(joist(ns.recheck(tree, floor():review()), "J12").entries, {"spans 1"})
end

function T.test_today_beside_today()
  local review = floor():review()
  local same = ns.recheck(ns.package.data(review), review)
  lu.assertEquals({same.changed, #same.joists, #same.not_looked}, {0, 0, 0})
end

function T.test_refusals()
  for said, given in pairs {["'joists' expected"] = "{}", ["no JSON"] = "{",
    ["cannot be read"] = MILL .. "/none.json",
    ["the version"] = '{"joists": {"J1": {"mark": "J1", "action": "leave"}}}',
    ["a mark and an action"] = '{"netsection": "0.1", "joists": {"J1": {"mark": 1}}}'} do
    local result, why = ns.recheck(given)
    lu.assertNil(result)
    lu.assertStrContains(why, said)
  end
  lu.assertErrorMsgContains("got number", ns.recheck, 1)
  lu.assertErrorMsgContains("a review of a joist or a floor expected", ns.recheck, OLD,
    {})
  local odd = '{"netsection": "0.1", "joists": {"J1": {"mark": "J1", "action": "leave",'
    .. '"inputs": %s, "cuts": %s, "assumptions": ["(dry)"]}}}'
  for _, case in ipairs {{"1", "[]"}, {"{}", "3"}, {"[1]", "{}"},
    {'{"spans": ["x"], "b": 1e999}', '{"hole-1": {"kind": "hole"}}'},
    {'{"loads": [{"kind": 3}]}', '{"hole-1": 5}'}} do
    local result = assert(ns.recheck(odd:format(case[1], case[2])))
    lu.assertEquals({result.looked, #result.not_looked}, {0, 1})
    lu.assertEquals(type(result:html()), "string")
  end
end

local function run(...)
  local command = require "netsection.command"
  local out, err = {}, {}
  local code = command.run({...}, {out = function(line) out[#out + 1] = line end,
    err = function(line) err[#err + 1] = line end})
  return code, table.concat(out, "\n"), table.concat(err, "\n")
end

function T.test_command()
  local code, out = run("recheck", OLD, "--survey", MILL)
  lu.assertEquals(code, 1)
  lu.assertStrContains(out, "Results looked at again")
  local _, _, err = run("recheck", OLD)
  lu.assertStrContains(err, "J8: not looked at: its loss-1")
  code, _, err = run("recheck", MILL .. "/none.json")
  lu.assertEquals(code, 3)
  lu.assertStrContains(err, "none.json")
  local folder = os.tmpname()
  os.remove(folder)
  system.fresh(folder)
  assert(ns.write(folder .. "/joists.csv", "joist\n"))
  code, _, err = run("recheck", folder)
  lu.assertEquals(code, 64)
  lu.assertStrContains(err, "goes with --survey")
  local path = folder .. "/numbers.json"
  assert(ns.write(path, drawing.read_file(OLD)))
  lu.assertEquals(run("recheck", folder, "--survey", MILL, "--into",
    folder .. "/a.html"), 1)
  lu.assertStrContains(drawing.read_file(folder .. "/a.html"), "Results looked at again")
  system.remove(folder)
end

-- What the changes name is there to be named.
function T.test_changes_are_well_formed()
  local modes, kinds = {}, {hole = 1, slot = 1, notch = 1, end_notch = 1, loss = 1,
    lost_bearing = 1, sever = 1, split = 1}
  for _, word in ipairs(require "netsection.core".modes) do modes[word] = true end
  local seen = {}
  for _, c in ipairs(changes) do
    lu.assertNil(seen[c.name])
    seen[c.name] = true
    lu.assertNotNil(c.version:find "^%d+%.%d+%.%d+$")
    for _, field in ipairs {"title", "was", "is"} do lu.assertIsString(c[field]) end
    for _, mode in ipairs(c.modes or {}) do lu.assertNotNil(modes[mode], mode) end
    for _, kind in ipairs(c.cuts or c.joist or {}) do lu.assertNotNil(kinds[kind]) end
  end
end

return T
