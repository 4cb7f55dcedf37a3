-- SPDX-License-Identifier: MIT
-- The calculation sheet: a person can follow it with a pocket calculator; every number on
-- the page is one of those in the JSON; the same input gives the same bytes.
local calculation = require "netsection.calculation"
local document = require "netsection.document"
local json = require "dkjson"
local lu = require "luaunit"
local markup = require "tests.markup"
local ns = require "netsection"
local numbers = require "netsection.numbers"
local random_joist = require "tests.random_joist"
local sheet = require "tests.sheet"
local support = require "tests.support"

local T = {}

local DFL = {Fb = 900, Ft = 575, Fv = 180, Fc = 1350, Fc_perp = 625, E = 1.6e6, CF = 1.1}

local function joist(mark, cuts, changes)
  local t = {mark = mark, size = "2x10", material = DFL, span = "13-6", spacing = 16,
    bearing = 3.5, dead = 12, live = 40, cuts = cuts}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.joist(t)
end

local function severed()
  local bolt = ns.fastener {kind = "bolt", diameter = "1/2 in"}
  return joist("J6", {ns.sever {from = "6-0", to = "6-5"}}):fix(ns.sister {from = "2-8",
    to = "10-0", fastener = bolt, groups = {{at = "3-2", n = 10}, {at = "5-6", n = 10},
      {at = "6-11", n = 10}, {at = "9-6", n = 10}}})
end

local function floor()
  return ns.floor {name = "Sheet floor", size = "2x10", material = DFL, span = "13-6",
    spacing = 16, bearing = 3.5, dead = 12, live = "1.9 kPa", joists = {
      {mark = "J1"}, {mark = "J2"},
      {mark = "J3", cuts = {ns.hole {at = "5-2", diameter = 4, below = 1.5}}},
      {mark = "J4", cuts = {ns.notch {face = "top", from = "2-0", to = "2-4", depth = 2,
        note = "supply"}}},
      {mark = "J5", cuts = {ns.end_notch {support = "left", face = "bottom",
        depth = 2.75}}, loads = {ns.point {at = "4-0", load = "200 lb"},
        ns.line {load = "30 plf", case = "dead", from = "1-0", to = "9-0"}}},
      {mark = "J.6 (west)", cuts = {ns.sever {from = "6-0", to = "6-5"}}},
      {mark = "J7", spans = {"8-0", "5-6"}, cuts = {ns.slot {from = "3-0", to = "3-8",
        height = 4, below = 2.5}}},
      {mark = "J8", cuts = {ns.loss {from = "4-0", to = "9-0", bottom = 0.25,
        sides = 0.25, cause = "char"}}},
      {mark = "J9", overhang_right = "2-0", cuts = {ns.split {from = "7-0", to = "8-0",
        at_depth = 4}}},
      {mark = "J10", member = "I-joist", cuts = {ns.hole {at = "5-0", diameter = 2}}},
    }}:fix("J.6 (west)", severed().repair.given):fix("J5", ns.hanger {support = "left",
      capacity = "900 lb"})
end

---------------------------------------------------------------------------
-- By hand from the page
---------------------------------------------------------------------------

local function page_of(j, steps)
  return document.text((calculation.of(j:review(), {steps = steps})))
end

-- The last value of a symbol among the printed steps.
local function value(steps, symbol)
  for i = #steps, 1, -1 do
    if steps[i].symbol == symbol then return steps[i].value end
  end
  error("no step " .. symbol, 2)
end

local function follow(steps)
  local above, formulas = {}, 0
  for _, step in ipairs(steps) do
    lu.assertNil(sheet.wrong(step, above))
    formulas = formulas + (step.formula and 1 or 0)
    above[step.symbol] = step.value and step.printed:match "([-+%d.e]+)[^=]*$"
  end
  return formulas
end

-- 13-6, 16 in, 52 psf: w = 69.33 plf; at 5-2 M = w x (L - x) / 2 = 1492.6 ft-lb. Two
-- rectangles, 1.5 x 1.5 and 1.5 x 3.75, about their own centroid: S_b = 14.146 in3
-- (statics). F_b' = 900 x 1.1 (NDS 4.3.1), no repetitive factor.
function T.test_net_bending_by_hand()
  local page = page_of(joist("J3", {ns.hole {at = "5-2", diameter = 4, below = 1.5}}))
  local steps = sheet.steps(page, "net-bending, hole 1 at")
  lu.assertTrue(follow(steps) >= 3)
  local M = 52 * 16 / 12 * (62 / 12) * (162 - 62) / 12 / 2 * 12
  support.close(value(steps, "M"), M, 5e-4)
  local A1, A2, y1, y2 = 1.5 * 1.5, 1.5 * 3.75, 0.75, 5.5 + 3.75 / 2
  local y = (A1 * y1 + A2 * y2) / (A1 + A2)
  local I = 1.5 * (1.5 ^ 3 + 3.75 ^ 3) / 12 + A1 * (y - y1) ^ 2 + A2 * (y2 - y) ^ 2
  support.close(value(steps, "y_b"), y, 5e-4)
  support.close(value(steps, "I"), I, 5e-4)
  support.close(value(steps, "f_b"), M / (I / y), 5e-4)
  support.close(value(steps, "ratio"), M / (I / y) / 990, 1e-3)
end

-- V' = 2/3 F_v' b d_n (d_n/d)^2 (NDS 3.4.3.2(a)), R in full: 577.7 and 468 lb.
function T.test_notch_shear_by_hand()
  local page = page_of(joist("J5", {ns.end_notch {support = "left", face = "bottom",
    depth = 2.75}}))
  local steps = sheet.steps(page, "notch-shear, end notch 1 at")
  lu.assertTrue(follow(steps) >= 3)
  local V = 2 / 3 * 180 * 1.5 * 6.5 * (6.5 / 9.25) ^ 2
  support.close(value(steps, "V'"), V, 5e-4)
  support.close(value(steps, "V"), 52 * 16 / 12 * 13.5 / 2, 5e-4)
  support.close(value(steps, "ratio"), 52 * 16 / 12 * 13.5 / 2 / V, 1e-3)
end

-- The inner right group of a sister over a gap takes 655 lb (two-group statics with the
-- load of the gap on the sister); ten fasteners share it. Z of one by the printed lines.
function T.test_fasteners_by_hand()
  local page = page_of(severed())
  local title = page:match "\n(fasteners[^\n]*%(sister%)[^\n]*)\n"
  local steps = sheet.steps(page, title)
  follow(steps)
  local G, n, Z = value(steps, "G"), value(steps, "n_f"), value(steps, "Z_a")
  lu.assertEquals(n, 10)
  lu.assertTrue(G > 600 and G < 720, G)
  support.close(value(steps, "ratio"), G / (n * Z), 1e-3)
  support.close(value(steps, "Z'"), n * Z, 1e-3)
end

function T.test_loads_by_hand()
  local steps = sheet.steps(page_of(joist("J1")), "Floor load on the joist")
  lu.assertEquals(follow(steps), 3)
  support.close(value(steps, "w"), 52 * 16 / 12, 5e-4)
end

-- Every line of every check of a floor, whatever its kind.
function T.test_every_line_of_a_floor_can_be_followed()
  local page = document.text((calculation.of(floor():review())))
  local formulas = 0
  for title in page:gmatch "\n([%a-]+[^\n]* at [^\n]*, [DL+ %d.]+[^\n]*)\n\n  " do
    formulas = formulas + follow(sheet.steps(page, title))
  end
  lu.assertTrue(formulas > 150, formulas)
end

-- Random joists, half of them with a sister: packages are whole and lines hold.
function T.test_random_joists_can_be_followed()
  local source, formulas = random_joist.source(77), 0
  local bolt = ns.fastener {kind = "bolt", diameter = "1/2 in"}
  for i = 1, 30 do
    local j = ns.joist(source())
    if i % 2 == 0 then j = j:fix(ns.sister {fastener = bolt}) end
    local review = j:review()
    lu.assertNotNil(json.decode(ns.report.json(review)))
    lu.assertTrue(#ns.package.files(review) >= 12)
    local page = document.text((calculation.of(review)))
    for title in page:gmatch "\n([%a-]+[^\n]*, D[^\n]*)\n\n  " do
      formulas = formulas + follow(sheet.steps(page, title))
    end
  end
  lu.assertTrue(formulas > 1000, formulas)
end

function T.test_reader_of_the_sheet_finds_what_is_wrong()
  local step = {symbol = "f_b", printed = "f_b", formula = "M/S", numbers = "18000/21.39",
    value = 841.5}
  lu.assertNil(sheet.wrong(step, {M = "18000", S = "21.39"}))
  lu.assertNotNil(sheet.wrong(step, {M = "18010"}))
  step.value = 844
  lu.assertStrContains(sheet.wrong(step, {}), "worked out")
end

---------------------------------------------------------------------------
-- The page and the numbers
---------------------------------------------------------------------------

-- Steps along a name: lists count from 1.
local function at(tree, name)
  for word in name:gmatch "[^.]+" do
    local found = tree[word]
    if found == nil and tonumber(word) then found = tree[tonumber(word)] end
    tree = found
    if tree == nil then return nil end
  end
  return tree
end

local ENTITY = {["&quot;"] = '"', ["&#39;"] = "'", ["&amp;"] = "&", ["&lt;"] = "<",
  ["&gt;"] = ">"}

local function plain(said)
  return (said:gsub("<[^>]*>", ""):gsub("&[#%w]+;", ENTITY))
end

-- A ratio just over 1 is printed as 1.01, so that it never shows as passing.
local function is_rounding(said, x, name)
  local shown, margin = sheet.shown(said)
  if not shown then return false end
  if name:find "ratio$" and x > 1 and x < 1.005 then return shown == 1.01 end
  return math.abs(shown - x) <= margin
end

function T.test_every_number_on_the_page_is_in_the_json()
  local review = floor():review()
  local page = ns.report.html(review)
  local tree = assert(json.decode(ns.report.json(review)))
  local count = 0
  for name, said in page:gmatch 'data%-name="([^"]*)">(.-)</[ts]' do
    name, said = plain(name), plain(said):gsub("%s*%(%d+%)$", "")
    local x = at(tree, name)
    lu.assertIsNumber(x, name)
    lu.assertTrue(is_rounding(said, x, name), ("%s: %s on the page, %.17g"):format(name,
      said, x))
    count = count + 1
  end
  lu.assertTrue(count > 1000, count)
end

function T.test_no_number_on_the_page_is_without_a_name()
  local page = ns.report.html(floor():review())
  for said in page:gmatch '<td class="right">(.-)</td>' do
    lu.assertNil(sheet.shown(plain(said)), said)
  end
  for said in page:gmatch "<li><var>.-</li>" do
    if not said:find "data%-name" then
      lu.assertStrContains(said, "no capacity")
    end
  end
end

function T.test_csv_holds_the_numbers_of_the_json()
  local review = floor():review()
  local tree = assert(json.decode(ns.report.json(review)))
  local rows = assert(markup.csv(ns.report.csv(review)))
  lu.assertEquals(rows[1], {"name", "value", "unit"})
  for i = 2, #rows do
    lu.assertEquals(#rows[i], 3)
    local wanted = at(tree, rows[i][1])
    if rows[i][3] == "text" then
      lu.assertStrContains(rows[i][1], ".action_text")
      lu.assertEquals(rows[i][2], wanted, rows[i][1])
    else
      lu.assertEquals(tonumber(rows[i][2]), wanted, rows[i][1])
    end
  end
  local seen = {}
  for i = 2, #rows do
    lu.assertNil(seen[rows[i][1]], rows[i][1])
    seen[rows[i][1]] = true
  end
end

-- To the last bit: nothing is lost on the way into the file.
function T.test_json_holds_the_review_itself()
  local review = floor():review()
  local tree = assert(json.decode(ns.report.json(review)))
  local k = review.joists.J3:find("cut", "net-bending", 1)
  local found = tree.joists.J3.cut.checks["net-bending_hole-1"]
  lu.assertEquals(found.demand, k.demand)
  lu.assertEquals(found.ratio, k.ratio)
  lu.assertEquals(tree.joists["J_6_west_"].mark, "J.6 (west)")
  lu.assertEquals(tree.joists["J_6_west_"].fixed.stations[2].most,
    review.joists["J.6 (west)"].fixed.stations[2].most)
  lu.assertEquals(tree.joists.J4.cuts["notch-1"].note, "supply")
  lu.assertNil(tree.joists.J10.cut.ratio)
end

function T.test_json_has_no_endless_numbers()
  local j = joist("J1", {ns.hole {at = "5-0", diameter = 9.2}})
  local text = ns.report.json(j:review())
  lu.assertNil(text:lower():find "%f[%a]nan%f[%A]")
  lu.assertNil(text:lower():find "%f[%a]inf%f[%A]")
  lu.assertNil(text:find "1e%+?12")
end

---------------------------------------------------------------------------
-- Order and sameness
---------------------------------------------------------------------------

function T.test_two_runs_give_equal_bytes()
  local one, other = floor():review(), floor():review()
  for _, form in ipairs {"json", "csv", "html", "markdown", "latex", "text"} do
    lu.assertEquals(ns.report[form](one), ns.report[form](other), form)
  end
end

-- Keys stand in one order in all objects of a kind, which hash tables would not give.
function T.test_order_of_the_json_is_fixed()
  local text = ns.report.json(floor():review())
  local count = 0
  for said in text:gmatch '"mark":.-"rules":' do
    local last = 0
    for _, key in ipairs {"mark", "title", "action", "standard", "reasons", "rules"} do
      local here = said:find('"' .. key .. '":', 1, true)
      lu.assertTrue(here ~= nil and here > last, key)
      last = here
    end
    count = count + 1
  end
  lu.assertEquals(count, 10)
end

-- Joists away from any repair: a neighbor of one has shores of its own to show.
function T.test_joists_that_are_alike_share_a_sheet()
  local joists = {}
  for i = 1, 10 do
    joists[i] = {mark = "J" .. i, live = i > 2 and 40 - i or 40}
  end
  local review = ns.floor {size = "2x10", species = "douglas fir-larch", grade = "No.2",
    span = "13-6", spacing = 16, dead = 12, live = 40, joists = joists}:review()
  local sheets = calculation.sheets(review, numbers.of(review))
  lu.assertEquals(sheets[1].review.mark, "J1")
  lu.assertEquals(#sheets[1].alike, 1)
  lu.assertEquals(sheets[1].alike[1].mark, "J2")
  lu.assertEquals(#sheets, 9)
  lu.assertStrContains(document.text((calculation.of(review))),
    "Identical, number for number: J2")
end

---------------------------------------------------------------------------
-- What stands on it
---------------------------------------------------------------------------

function T.test_sheet_says_what_an_official_looks_for()
  local j = joist("J3", {ns.hole {at = "5-2", diameter = 4, below = 1.5, note = "waste"}},
    {creep = 1.5, limits = {live = 480}, note = "under the bath"})
  local page = document.text((calculation.of(j:review(), {visit = {date = "3 May"},
    concealed = {"both ends in the wall"}})))
  for _, said in ipairs {"5-2", "1-1/2 in", "under the bath", "waste", "creep factor 1.5",
    "live deflection limit L/480", "R502.8.1", "governs", "both ends in the wall",
    "date: 3 May", "1 Design values", "netsection " .. ns.version, "Not a sealed design",
    "us-nds-2018-asd", "Keep the record", "NDS 3.2.3.1"} do
    lu.assertStrContains(page, said)
  end
end

function T.test_without_a_list_what_was_not_seen_is_left_blank()
  local page = document.text((calculation.of(joist("J1"):review())))
  lu.assertStrContains(page, "Concealed parts: ____")
end

function T.test_steps_can_be_left_out()
  local j = joist("J3", {ns.hole {at = "5-2", diameter = 4, below = 1.5}})
  local all, governing, none = page_of(j, "all"), page_of(j, "governing"),
    page_of(j, "none")
  lu.assertStrContains(all, "\nnet-shear, hole 1 at")
  lu.assertNotStrContains(governing, "\nnet-shear, hole 1 at")
  lu.assertStrContains(governing, "lip-tension, hole 1 at")
  lu.assertNotStrContains(none, "\nCalculation\n")
end

-- Nothing is to be done at a joist to be left: one check of each state is enough there.
function T.test_default_steps_follow_the_action()
  local left = joist("J1", {ns.hole {at = "6-9", diameter = 1}})
  lu.assertEquals(left:review().action, "leave")
  lu.assertEquals(page_of(left), page_of(left, "governing"))
  lu.assertNotEquals(page_of(left), page_of(left, "all"))
  local broken = joist("J3", {ns.hole {at = "5-2", diameter = 4, below = 1.5}})
  lu.assertEquals(page_of(broken), page_of(broken, "all"))
end

function T.test_what_joists_share_stands_at_the_head()
  local page = document.text((calculation.of(floor():review())))
  local head, sheets = page:match "^(.-)\nJoist J1\n(.*)$"
  lu.assertNotNil(head)
  local said = "A deck holds the top edge"
  lu.assertStrContains(head, said)
  lu.assertStrContains(head, "spacing 16")
  lu.assertNotStrContains(sheets, said)
  lu.assertNotStrContains(sheets:match "^(.-)\nJoist J4\n", "Reference Fb")
  lu.assertStrContains(sheets, "Span 1")
  local _, count = page:gsub("Fasteners are the repair", "")
  lu.assertEquals(count, 1)
end

-- Bearings of equal length under equal reactions: the second is not written again.
function T.test_equal_lines_are_referred_to()
  local page = page_of(joist("J1"), "all")
  lu.assertStrContains(page, "Line for line as bearing, support 1 at 0'-0\"")
end

-- A chord shorter than it is deep is no strut: its edge is checked, no buckling value.
function T.test_a_short_chord_is_no_strut()
  local page = page_of(joist("J3", {ns.hole {at = "5-2", diameter = 4, below = 1.5}}),
    "all")
  local steps = sheet.steps(page, "wood-compression, hole 1 at")
  lu.assertEquals(value(steps, "tau"), 0)
  lu.assertNotStrContains(page, "F_cE")
  lu.assertNotStrContains(page, "e12")
  lu.assertStrContains(page, "judgment of ours, supported by no test")
end

function T.test_options_of_a_repair_off_their_defaults_are_switches()
  local bolt = ns.fastener {kind = "bolt", diameter = "1/2 in"}
  local page = page_of(joist("J3", {ns.hole {at = "5-2", diameter = 4, below = 1.5}})
    :fix(ns.sister {fastener = bolt, share = "slip", lift = "unloaded"}))
  for _, said in ipairs {"repair: share: by slip",
    "repair: lift: dead load lifted off"} do
    lu.assertStrContains(page, said)
  end
  page = page_of(joist("J3", {ns.sever {from = "6-0", to = "6-5"}})
    :fix(ns.sister {fastener = bolt, gap_load = "between groups"}))
  lu.assertStrContains(page, "repair: gap load: all between the inner groups")
  page = page_of(joist("J3", {ns.hole {at = "5-2", diameter = 4, below = 1.5}})
    :fix(ns.sister {fastener = bolt}))
  lu.assertNotStrContains(page, "repair: ")
end

-- The core gives 1e6 in for the distance to a neighbour that is not there.
function T.test_nothing_near_is_no_number()
  local r = joist("J3", {ns.hole {at = "5-2", diameter = 2}}):review()
  lu.assertNotStrContains(document.text((calculation.of(r))), "1000000.000")
  lu.assertNil(ns.report.json(r):find('"measured":%s*1000000'))
end

function T.test_settings_of_a_survey_stand_at_the_head_as_entered()
  local f = assert(ns.read_survey {joists = "mark,size,species,grade,span,spacing,"
    .. "bearing,dead,live\nJ1,2x10,hem-fir,No.2,12-0,16,3.5,12,40\n",
    settings = "name,value\nclient,\"<b>, `touch ran`\"\nvisit date,May\n"})
  local r = f:review()
  lu.assertStrContains(document.text((calculation.of(r, {visit = {date = "May"}}))),
    "client: <b>, `touch ran`")
  lu.assertStrContains(ns.report.html(r), "client: &lt;b&gt;, `touch ran`")
end

function T.test_misuse_is_told_at_the_callers_line()
  local r = joist("J1"):review()
  local wrong = {
    {"a review of a joist or a floor expected", function() ns.report.json {} end},
    {"a review of a joist or a floor expected", function() ns.report.html(5) end},
    {"unknown field 'colour'", function() ns.report.html(r, {colour = 1}) end},
    {"unknown field 'render'", function() ns.report.markdown(r, {render = true}) end},
    {'steps is "all"', function() calculation.of(r, {steps = "some"}) end},
  }
  for _, case in ipairs(wrong) do
    lu.assertStrContains(support.raises(case[1], case[2]), "test_calculation.lua:")
  end
end

return T
