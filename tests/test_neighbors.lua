-- SPDX-License-Identifier: MIT
-- Joists beside one that is out, what must be done today, temporary shores, and the
-- engineer's judgment. Values by hand and by independent computation: lever rule and
-- w L^2/8, F'b 990 psi (Cr 1.0), S 21.390 in3, R = w c^2 / (2 x_s), slope deflection of
-- the joist on two shores.
local lu = require "luaunit"
local ns = require "netsection"

local T = {}

local WOOD = {Fb = 900, Ft = 575, Fc = 1350, Fv = 180, E = 1.6e6, CF = 1.1,
  Fc_perp = 625, source = "given"}
local GAP = {ns.sever {from = "6-0", to = "6-5"}}

local function floor(joists, more)
  local t = {name = "Loft", size = "2x10", spacing = 16, span = "13-6", bearing = 3.5,
    dead = 12, live = 40, material = WOOD, joists = joists}
  for name, value in pairs(more or {}) do t[name] = value end
  return ns.floor(t)
end

local function near(found, wanted)
  lu.assertAlmostEquals(found, wanted, 0.005 * math.abs(wanted))
end

local function three(more)
  return floor({{mark = "J1"}, {mark = "J2", cuts = GAP}, {mark = "J3"}}, more):review()
end

function T.test_one_out_gives_half_to_each()
  local r = three()
  for _, mark in ipairs {"J1", "J3"} do
    local u = r.joists[mark].until_repaired
    lu.assertEquals(u.because, {"J2"})
    near(u.width, 24)
    near(u.moment / 12, 2369.2)
    near(u.ratio, 1.343)
    near(u.reactions[1], 702)
    near(u.deflection.live, 0.378)
    near(u.deflection.total, 0.491)
    lu.assertEquals({u.status, u.governing}, {"overstressed", "bending"})
    lu.assertEquals(r.joists[mark].action, "leave")
    near(r.joists[mark].cut.ratio, 0.778)
  end
  lu.assertNil(r.joists.J2.until_repaired)
  lu.assertStrContains(table.concat(r.joists.J2.reasons, "\n"), "J1 1.34, J3 1.34 until")
end

function T.test_two_side_by_side()
  local r = floor({{mark = "J1"}, {mark = "J2", cuts = GAP}, {mark = "J3", cuts = GAP},
    {mark = "J4"}}):review()
  for _, mark in ipairs {"J1", "J4"} do
    local u = r.joists[mark].until_repaired
    lu.assertEquals(u.because, {"J2", "J3"})
    near(u.width, 32)
    near(u.moment / 12, 3159)
    near(u.ratio, 1.790)
    near(u.reactions[1], 936)
  end
end

-- Bays of 12 and 20 in: the left one gains half of the far bay, 10 in.
function T.test_unequal_bays_go_by_the_lever()
  local r = floor({{mark = "J1", spacing = 12}, {mark = "J2", spacing = {12, 20},
    cuts = GAP}, {mark = "J3", spacing = 20}}):review()
  near(r.joists.J1.until_repaired.width, 22)
  near(r.joists.J1.until_repaired.ratio, 1.231)
  near(r.joists.J3.until_repaired.width, 26)
  near(r.joists.J3.until_repaired.ratio, 1.454)
  near(r.joists.J3.until_repaired.reactions[1], 760.5)
end

-- A point load of the joist that is out: M at mid-span grows by P L/8 for half of it.
function T.test_line_and_point_loads_go_along()
  local loads = {ns.point {at = "6-9", load = 200}, ns.line {load = "10 plf"}}
  local r = floor {{mark = "J1"}, {mark = "J2", cuts = GAP, loads = loads}, {mark = "J3"}}
    :review()
  near(r.joists.J1.until_repaired.moment / 12,
    2369.2 + 100 * 13.5 / 4 + 5 * 13.5 ^ 2 / 8)
end

function T.test_out_at_the_edge_goes_to_one_side()
  local r = floor {{mark = "J1", cuts = GAP}, {mark = "J2"}, {mark = "J3"}}:review()
  local u = r.joists.J2.until_repaired
  near(u.width, 32)
  lu.assertStrContains(table.concat(u.cautions, "\n"), "runs out at the edge")
  lu.assertStrContains(table.concat(r.joists.J2.cautions, "\n"), "runs out at the edge")
end

function T.test_none_stands()
  local r = floor {{mark = "J1", cuts = GAP}, {mark = "J2", cuts = GAP}}:review()
  lu.assertStrContains(table.concat(r.joists.J1.reasons, "\n"), "no joist beside it")
end

function T.test_out_by_description_and_only_then()
  local r = floor {{mark = "J1"}, {mark = "J2", out = true}, {mark = "J3"}}:review()
  near(r.joists.J1.until_repaired.ratio, 1.343)
  r = floor {{mark = "J1"}, {mark = "J2", live = 200}, {mark = "J3"}}:review()
  lu.assertIsTrue(r.joists.J2.cut.ratio > 2)
  lu.assertNil(r.joists.J1.until_repaired)
  lu.assertErrorMsgContains("out: true or false expected", floor, {{mark = "J1",
    out = "yes"}})
end

function T.test_wide_deck_is_a_caution()
  lu.assertStrContains(table.concat(three().joists.J1.cautions, "\n"), 'spans 32"')
  lu.assertNotStrContains(table.concat(three {spacing = 12}.joists.J1.cautions, "\n"),
    "the deck spans")
end

local WORDS = "leave once J2 is repaired; 1.34 until then"

local function files(r)
  local list = {}
  for _, f in ipairs(ns.package.files(r, {full = true})) do list[f.name] = f.text end
  return list
end

function T.test_the_action_reads_so_in_every_form()
  local r = three()
  local list = files(r)
  list.text, list.line = ns.report.text(r), ns.report.line(r.joists.J1)
  for _, name in ipairs {"text", "line", "letter.md", "crew.md", "calculation.md",
    "calculation.html", "numbers.json", "numbers.csv"} do
    lu.assertStrContains(list[name], WORDS, false, name)
  end
end

function T.test_act_now_heads_every_paper()
  local list = files(three())
  list.text = ns.report.text(three())
  for _, name in ipairs {"text", "letter.md", "crew.md", "parts.md", "calculation.md"} do
    local said = list[name]
    local at = said:find("Act now", 1, true)
    lu.assertNotNil(at, name)
    lu.assertIsTrue(at < 900, name)
    lu.assertStrContains(said, "J2: cut through", false, name)
  end
end

function T.test_act_now_names_the_tub()
  local tub = ns.tub {from = "5-0", to = "10-0", width = 32, empty = 300, water = 400}
  local r = floor {{mark = "J1"}, {mark = "J2", cuts = GAP, loads = {tub}},
    {mark = "J3"}}:review()
  lu.assertStrContains(files(r)["letter.md"]:sub(1, 900), "a tub stands on it")
end

-- D + L over 2: 1579.5/2029.4 x 2.7 = 2.10; dead alone 12 -> 150 psf: above 1 at CD 0.9.
function T.test_act_now_thresholds()
  local function said(t)
    return ns.report.text(floor({t, {mark = "B"}, {mark = "C"}}):review())
  end
  lu.assertNotStrContains(said {mark = "A", live = 90}, "Act now")
  lu.assertStrContains(said {mark = "A", live = 130}, "D + L 2.")
  lu.assertStrContains(said {mark = "A", dead = 150, live = 0}, "dead load alone")
  lu.assertNotStrContains(said {mark = "A"}, "Act now")
end

-- A repair that fails has no parts, no place on the crew's sheet, and no word to build.
function T.test_a_repair_that_fails_is_not_one_to_build()
  local bolt = ns.fastener {kind = "bolt", diameter = "1/2 in"}
  local short = ns.sister {from = "3-0", to = "9-5", fastener = bolt, groups = {
    {at = "3-4", n = 1}, {at = "5-10", n = 1}, {at = "6-7", n = 1}, {at = "9-1", n = 1}}}
  local r = floor {{mark = "J1"}, {mark = "J2", cuts = GAP}, {mark = "J3"}}
    :fix("J2", short):review()
  lu.assertNotEquals(r.joists.J2.fixed.status, "adequate")
  local list = files(r)
  lu.assertStrContains(list["parts.md"], "There is no repair with parts")
  lu.assertStrContains(list["crew.md"], "There is no repair to build yet")
  lu.assertNotStrContains(list["letter.md"], "to be built as drawn")
  lu.assertStrContains(list["letter.md"], "not to be built")
end

-- Headed off for good: the trimmers' ratios (by hand 2368 ft-lb on two plies of
-- 1764.7: 0.67) stand in the fixed state of the joists beside, with their action.
function T.test_a_header_is_judged_on_the_neighbors()
  local r = floor {{mark = "J1"}, {mark = "J2", cuts = GAP}, {mark = "J3"}}
    :fix("J2", ns.header {at = {"5-10", "6-7"}}):review()
  for _, mark in ipairs {"J1", "J3"} do
    local f = r.joists[mark].fixed
    near(f.ratio, 2367.8 / 1764.7 / 2)
    lu.assertEquals({f.status, f.action}, {"adequate", "leave"})
    lu.assertEquals(r.joists[mark].action, "leave")
    near(r.joists[mark].until_repaired.ratio, 1.343)
  end
  lu.assertStrContains(ns.report.text(r), "trimmer beside joist J2 as repaired")
end

function T.test_added_joist_with_the_old_one_written_off()
  local r = floor {{mark = "J1"}, {mark = "J2", cuts = GAP}, {mark = "J3"}}
    :fix("J2", ns.added_joist {side = "right", write_off = true}):review()
  lu.assertEquals(r.joists.J1.fixed.kind, "neighbor")
  lu.assertNotNil(r.joists.J1.fixed.action)
  lu.assertStrContains(files(r)["letter.md"], "neighbor beside joist J2 as repaired")
end

-- A floor with headers at J2 and J4: J3 is trimmer to both. By hand, w 69.333 plf, header
-- ends 114.1 and 132.9 lb each at 70 and 79 in: RA 733.8, M at 79 in 733.8 x 6.583
-- - 69.333 x 6.583^2/2 - 228.2 x 0.75 = 3157 ft-lb.
local function two_headers(more, only)
  local f = floor({{mark = "J1"}, {mark = "J2", cuts = GAP}, {mark = "J3"},
    {mark = "J4", cuts = GAP}, {mark = "J5"}}, more)
  for _, mark in ipairs(only or {"J2", "J4"}) do
    f = f:fix(mark, ns.header {at = {"5-10", "6-7"}})
  end
  return f:review()
end

function T.test_two_headers_on_one_trimmer_are_added_up()
  local r = two_headers()
  local f = r.joists.J3.fixed
  near(f.moment / 12, 3157)
  near(f.ratio, 3157 / 1764.7 / 2)
  lu.assertEquals(f.of, "J2, J4")
  near(r.joists.J1.fixed.moment / 12, 2367.8)
  lu.assertStrContains(f.title, "trimmer beside joists J2, J4")
  for _, mark in ipairs {"J2", "J4"} do
    local a = r.joists[mark].fixed
    near(a.ratio, 3157 / 1764.7 / 2)
    lu.assertEquals(a.status, "adequate")
    lu.assertStrContains(table.concat(a.notes, "\n"), "trimmer J3 carries the headers")
  end
end

-- 96 plf: one header 0.671 x 96/69.333 = 0.93, both 0.894 x 96/69.333 = 1.24.
function T.test_a_repair_fails_where_the_sum_does()
  lu.assertEquals(two_headers({live = 60}, {"J2"}).joists.J2.fixed.status, "adequate")
  local r = two_headers {live = 60}
  for _, mark in ipairs {"J2", "J3", "J4"} do
    local a = r.joists[mark].fixed
    lu.assertEquals(a.status, "overstressed", mark)
    near(a.ratio, 3157 / 1764.7 / 2 * 96 / 69.333)
  end
  lu.assertEquals(r.joists.J1.fixed.status, "adequate")
  lu.assertStrContains(files(r)["parts.md"], "There is no repair with parts")
  lu.assertNotStrContains(files(r)["letter.md"], "to be built as drawn")
end

-- Written off with a new joist 12 in away on the far side, a joist leaves 6 in of floor
-- more to its neighbor, 26 plf: by hand M at 79 in 26 x 6.583 x 6.917/2 = 592 ft-lb on
-- the trimmer's 2367.8; from both sides 28 in of floor, 121.33 x 13.5^2/8 ft-lb.
function T.test_header_and_joist_written_off_are_added_up()
  local function off(side)
    return ns.added_joist {side = side, at = 12, write_off = true}
  end
  local f = floor {{mark = "J1"}, {mark = "J2", cuts = GAP}, {mark = "J3"},
    {mark = "J4", cuts = GAP}, {mark = "J5"}}
  local r = f:fix("J2", ns.header {at = {"5-10", "6-7"}}):fix("J4", off "right"):review()
  near(r.joists.J3.fixed.moment / 12, 2367.8 + 592)
  near(r.joists.J3.fixed.ratio, 2959.8 / 1764.7 / 2)
  near(r.joists.J2.fixed.ratio, 2959.8 / 1764.7 / 2)
  r = f:fix("J2", off "left"):fix("J4", off "right"):review()
  near(r.joists.J3.fixed.moment / 12, 121.333 * 13.5 ^ 2 / 8)
  for _, mark in ipairs {"J2", "J3", "J4"} do
    near(r.joists[mark].fixed.ratio, 2764.1 / 1764.7)
    lu.assertEquals(r.joists[mark].fixed.status, "overstressed")
  end
end

-- The same floor reviewed twice: nothing is added up twice.
function T.test_the_sum_is_the_same_each_time()
  local f = two_headers().floor
  lu.assertEquals(ns.report.json(f:review()), ns.report.json(f:review()))
end

-- A trimmer with a repair of its own: a joist and its full sister, both on the bearings,
-- share 2367.8 ft-lb.
function T.test_own_repair_is_worked_with_what_others_put_on_it()
  local f = floor {{mark = "J1"}, {mark = "J2", cuts = GAP}, {mark = "J3"}}
    :fix("J2", ns.header {at = {"5-10", "6-7"}}):fix("J3", ns.sister {side = "right"})
  local a = f:review().joists.J3.fixed
  lu.assertStrContains(table.concat(a.notes, "\n"), "what the repair of J2 puts on this")
  local sum = 0
  for _, k in ipairs(a.checks) do
    if k.mode:find "bending" then sum = sum + k.demand / 12 end
  end
  near(sum, 2367.8)
end

---------------------------------------------------------------------------------- papers

local BOLT = ns.fastener {kind = "bolt", diameter = "1/2 in"}
local SHORT = ns.sister {from = "3-0", to = "9-5", fastener = BOLT, groups = {
  {at = "3-4", n = 1}, {at = "5-10", n = 1}, {at = "6-7", n = 1}, {at = "9-1", n = 1}}}

local HOLE = {ns.hole {at = "6-0", diameter = 4}}
local NOTCH = {ns.end_notch {support = "left", face = "bottom", depth = 2}}
local THROUGH = {ns.notch {from = "6-0", to = "6-5", depth = 4, face = "bottom"}}

-- Each kind of repair where it cannot serve: 300 psf on the floor, or the wrong damage.
local FAILING = {
  {GAP, SHORT}, {HOLE, ns.sister {side = "right"}},
  {HOLE, ns.side_plates {from = "4-0", to = "8-0", steel = "A36", thickness = "1/4 in",
    depth = 6, pitch = 12, fastener = BOLT}},
  {THROUGH, ns.strap {n = 4, fastener = ns.fastener {kind = "wood screw", number = 10,
    length = "1-1/2 in"}}},
  {GAP, ns.strap {}}, {GAP, ns.header {at = {"5-10", "6-7"}}},
  {NOTCH, ns.hanger {support = "left", capacity = "100 lb"}},
  {HOLE, ns.midspan_support {at = "9-0", capacity = "100 lb"}},
  {HOLE, ns.added_joist {side = "right"}},
  {NOTCH, ns.notch_screws {support = "left", n = 2, rated = "10 lb"}},
  {{ns.lost_bearing {support = "left", to = "1-2", cause = "rot"}}, ns.end_sister {
    support = "left", to = "5-0", side = "right", fastener = BOLT, groups = {
    {at = "2-6", n = 2}, {at = "4-6", n = 2}}, hanger = {capacity = "100 lb"}}},
}

function T.test_no_failing_repair_of_any_kind_is_one_to_build()
  local trials, said = 0, {}
  for i, case in ipairs(FAILING) do
    local r = floor({{mark = "J1"}, {mark = "J2", cuts = case[1]}, {mark = "J3"}},
      {live = 300}):fix("J2", case[2]):review()
    local a, name = r.joists.J2.fixed, case[2].kind .. " " .. i
    said[case[2].kind] = true
    lu.assertNotEquals(a.status, "adequate", name)
    local list = files(r)
    lu.assertStrContains(list["parts.md"], "There is no repair with parts", false, name)
    lu.assertStrContains(list["crew.md"], "There is no repair to build yet", false, name)
    lu.assertStrContains(list["crew.md"], "Not to be touched until a repair is settled",
      false, name)
    lu.assertNotStrContains(list["letter.md"], "to be built as drawn", false, name)
    lu.assertStrContains(list["letter.md"], "not to be built", false, name)
    if not a.refused then
      trials = trials + 1
      lu.assertStrContains(list["calculation.md"], "Trial only: inadequate, not to be "
        .. "built", false, name)
      lu.assertNotStrContains(list["calculation.md"], "and its repair", false, name)
      lu.assertStrContains(ns.report.text(r), "trial only: inadequate, not to be built",
        false, name)
      local drawn = ns.plot.elevation(r.joists.J2, {output = "a.svg"})
      lu.assertStrContains(drawn, "TRIAL, NOT TO BE BUILT", false, name)
      lu.assertNotStrContains(drawn, "set label 'Repair", false, name)
    else
      lu.assertNil(r.joists.J2:layout().fix, name)
    end
  end
  lu.assertTrue(trials >= 7)
  for _, kind in ipairs(require("netsection.fix").kinds) do
    -- Kinds that another test adds are not on file.
    local on_file = package.searchpath("netsection.fix." .. kind, package.path)
    lu.assertTrue(said[kind] or not on_file, kind)
  end
end

local function trial()
  return floor {{mark = "J1"}, {mark = "J2", cuts = GAP}, {mark = "J3"}}
    :fix("J2", SHORT):review()
end

function T.test_no_drawing_shows_a_trial_as_a_repair()
  local r = trial()
  local drawn = {elevation = ns.plot.elevation(r.joists.J2, {output = "a.svg"}),
    sheet = ns.plot.sheet(r.joists.J2, {output = "a.svg"}),
    moment = ns.plot.moment(r.joists.J2, {output = "a.svg"}),
    summary = ns.plot.floor_summary(r, {output = "a.svg"})}
  for name, script in pairs(drawn) do
    lu.assertStrContains(script, "TRIAL, NOT TO BE BUILT", false, name)
    lu.assertNotStrContains(script, "'Repaired", false, name)
    lu.assertNotStrContains(script, "as repaired", false, name)
  end
  local plan = ns.plot.floor_plan(r, {output = "a.svg"})
  lu.assertStrContains(plan, "trial fails ")
  lu.assertNotStrContains(plan, "thick line: new piece")
  local good = floor {{mark = "J1"}, {mark = "J2", cuts = GAP}, {mark = "J3"}}
    :fix("J2", ns.header {at = {"5-10", "6-7"}}):review()
  lu.assertEquals(good.joists.J2.fixed.status, "adequate")
  for _, script in ipairs {ns.plot.elevation(good.joists.J2, {output = "a.svg"}),
    ns.plot.floor_plan(good, {output = "a.svg"})} do
    lu.assertNotStrContains(script, "TRIAL")
    lu.assertNotStrContains(script, "trial")
  end
end

function T.test_plan_and_summary_show_the_whole_of_it()
  local r = three()
  lu.assertStrContains(ns.plot.floor_plan(r, {output = "a.svg"}), WORDS)
  lu.assertStrContains(ns.plot.floor_summary(r, {output = "a.svg"}), WORDS)
end

function T.test_column_until_it_is_repaired()
  local list = files(three())
  lu.assertStrContains(list["calculation.md"], "until J2 is repaired |")
  lu.assertStrContains(ns.report.text(three()), "* until J2 is repaired")
  lu.assertEquals(select(2, ns.report.text(three())
    :gsub("leave    [^\n]* 0.78   0.78    1.34", "")), 2)
  -- J3 has twice what J1 has: 32 in of floor and its own 16 in, 0.67 x 2 + 0.67
  local r = floor {{mark = "J1"}, {mark = "J2", cuts = GAP}, {mark = "J3"},
    {mark = "J4", cuts = GAP}, {mark = "J5"}}:review()
  lu.assertStrContains(files(r)["calculation.md"], "until repaired |")
  lu.assertStrContains(files(r)["calculation.md"], "1.79 (J2, J4)")
  r = floor {{mark = "J1"}, {mark = "J2"}}:review()
  lu.assertNotStrContains(ns.report.text(r), "until*")
  lu.assertNotStrContains(files(r)["calculation.md"], "until repaired")
  lu.assertNotStrContains(files(r)["calculation.md"], "until J")
end

-- A joist to be repaired beside one that is out: its own word stands once in a row.
function T.test_rows_to_be_repaired_say_it_once()
  local hole = {ns.hole {at = "6-0", diameter = 6}}
  local r = floor {{mark = "J1", cuts = hole}, {mark = "J2", cuts = GAP}, {mark = "J3"}}
    :review()
  lu.assertEquals(r.joists.J1.action, "repair")
  lu.assertStrContains(files(r)["crew.md"], "J1: repair; ")
  for _, said in ipairs {ns.report.line(r.joists.J1),
    files(r)["letter.md"]:match "\n%- J1: to be[^\n]*",
    ns.plot.floor_plan(r, {output = "a.svg"})} do
    lu.assertStrContains(said, "until J2 is repaired")
    lu.assertNotStrContains(said, "; repair;")
    lu.assertNotStrContains(said, "'repair; ")
  end
end

-- R at the left of 6-0 and an overhang a: w (L^2 - a^2)/(2 L), 16 plf; 0 at a = 6-0.
function T.test_act_now_names_a_bearing_that_lifts()
  local function said(a)
    return ns.report.text(floor {{mark = "A", span = "6-0", overhang_right = a},
      {mark = "B"}, {mark = "C"}}:review())
  end
  lu.assertStrContains(said "8-0", "bearing 1 lifts under dead load, 37 lb: hold it down")
  lu.assertNotStrContains(said "6-0", "lifts under dead load")
  lu.assertStrContains(said "6-2", "bearing 1 lifts under dead load")
end

-- Page 1 of every paper, whatever stands in the cautions.
function T.test_act_now_names_the_tub_in_every_paper()
  local tub = ns.tub {from = "5-0", to = "10-0", width = 32, empty = 300, water = 400}
  local list = files(floor {{mark = "J1"}, {mark = "J2", cuts = GAP, loads = {tub}},
    {mark = "J3"}}:review())
  for _, name in ipairs {"letter.md", "crew.md", "parts.md", "calculation.md"} do
    lu.assertStrContains(list[name]:sub(1, 900), "a tub stands on it", false, name)
  end
end

-------------------------------------------------------------------------------- shores

-- D 12 + 25 psf: w 49.333 plf, shores at 60 and 90 in, gap 72 to 77.
function T.test_shores_of_stubs_and_neighbors()
  local r = three {shores = {construction_live = "25 psf", at = {60, 90}}}
  local function total(mark, wanted)
    local s = r.joists[mark].shores.supports
    lu.assertEquals(#s, 4)
    for i, R in ipairs(wanted) do
      near(s[i].total, R)
      near(s[i].dead, R * 12 / 37)
    end
  end
  total("J2", {116.1, 190.1, 218.6, 141.1})
  total("J1", {105.4, 177.0, 261.5, 122.2})
  total("J3", {105.4, 177.0, 261.5, 122.2})
end

-- Nothing vanishes: the supports carry all load, the gap's too.
function T.test_shores_carry_all_load()
  local s = three({shores = {construction_live = 20}}).joists.J2.shores
  local sum = 0
  for _, p in ipairs(s.supports) do sum = sum + p.total end
  lu.assertAlmostEquals(sum, 32 * 16 / 12 * 13.5, 1e-6)
  lu.assertIsTrue(s.assumed)
  lu.assertEquals({s.supports[2].at, s.supports[3].at}, {60, 89})
end

function T.test_shores_are_in_report_crew_sheet_and_json()
  local r = three {shores = {construction_live = "25 psf", at = {60, 90}}}
  local list = files(r)
  lu.assertStrContains(ns.report.text(r), "construction live 190 lb")
  lu.assertStrContains(list["crew.md"], "construction live 190 lb")
  lu.assertStrContains(list["numbers.json"], '"total_lb":190.1')
end

function T.test_shores_that_tip_and_slips()
  local r = three {shores = {at = {30, 90}}}
  lu.assertStrContains(table.concat(r.joists.J2.shores.notes, "\n"), "tips over")
  lu.assertErrorMsgContains("shores.at", three, {shores = {at = {90, 60}}})
  lu.assertErrorMsgContains("shores.load: unknown", three, {shores = {load = 1}})
  lu.assertErrorMsgContains("two supports", function()
    local s = three({shores = {at = {100, 120}}}).joists.J2.shores
    error(s.refused)
  end)
end

-- J4 to J8 on one line of shores, by hand: 4 x 177.0 + 190.1 and 4 x 261.5 + 218.6 lb;
-- heads of 600 lb: 898/600 and 1264.6/600 up, two at least.
local function five(more)
  return floor {{mark = "J4"}, {mark = "J5"}, {mark = "J6", cuts = GAP, shores = more},
    {mark = "J7"}, {mark = "J8"}}:review()
end

function T.test_lines_of_shores_and_heads()
  local r = five {construction_live = "25 psf", at = {60, 90}, beside = 2,
    capacity = "600 lb"}
  local a, b = table.unpack(r.joists.J6.shores.lines)
  near(a.total, 898.0)
  near(b.total, 1264.5)
  near(a.dead, 898.0 * 12 / 37)
  lu.assertEquals({a.heads, b.heads}, {2, 3})
  lu.assertEquals(a.joists, {"J4", "J5", "J6", "J7", "J8"})
  lu.assertNotNil(r.joists.J4.shores)
  for _, said in ipairs {ns.report.text(r), files(r)["crew.md"]} do
    lu.assertStrContains((said:gsub("%s+", " ")), "3 heads of 600 lb at least")
  end
  lu.assertStrContains(files(r)["numbers.json"], '"heads":3')
end

-- One beside on each side unless said: 2 x 177.0 + 190.1; at the limit of heads.
function T.test_heads_at_the_edge()
  local t = five({construction_live = 25, at = {60, 90}}).joists.J6.shores.lines[1]
  near(t.total, 2 * 177.0 + 190.1)
  lu.assertNil(t.heads)
  local function heads(capacity)
    return five({construction_live = 25, at = {60, 90}, capacity = capacity}).joists.J6
      .shores.lines[1].heads
  end
  lu.assertEquals({heads(t.total), heads(t.total / 2), heads(t.total / 2 - 1),
    heads(t.total / 3)}, {2, 2, 3, 3})
  lu.assertErrorMsgContains("shores.capacity", five, {capacity = "0 lb"})
  lu.assertErrorMsgContains("shores.beside", five, {beside = 1.5})
end

-- Two to be repaired with lines of their own: who stands between is on both.
function T.test_a_neighbor_counts_on_each_line()
  local at = {construction_live = 25, at = {60, 90}}
  local other = {construction_live = 25, at = {58, 92}}
  local r = floor {{mark = "J1"}, {mark = "J2", cuts = GAP, shores = at}, {mark = "J3"},
    {mark = "J4", cuts = GAP, shores = other}, {mark = "J5"}}:review()
  lu.assertEquals(r.joists.J2.shores.lines[1].joists, {"J1", "J2", "J3"})
  lu.assertEquals(r.joists.J4.shores.lines[1].joists, {"J3", "J4", "J5"})
end

-- In one piece and said to be out: on the shores alone W (90 - 81)/30 and the rest,
-- W 666 lb, are more than 177.0 and 261.5 on bearings as well.
function T.test_out_in_one_piece_is_on_its_shores_alone()
  local r = floor {{mark = "J1"}, {mark = "J2", out = true, shores = {at = {60, 90},
    construction_live = 25}}, {mark = "J3"}}:review()
  local s = r.joists.J2.shores
  near(s.supports[2].total, 666 * 9 / 30)
  near(s.supports[3].total, 666 * 21 / 30)
  near(s.supports[2].dead, 666 * 9 / 30 * 12 / 37)
  near(s.supports[1].total, 105.4)
  lu.assertStrContains(table.concat(s.notes, "\n"), "said to be out: each shore is given")
  local tips = floor {{mark = "J1"}, {mark = "J2", out = true, shores = {at = {20, 60}}},
    {mark = "J3"}}:review().joists.J2.shores
  lu.assertStrContains(table.concat(tips.notes, "\n"), "tips over its shores")
end

-- A dead point load over the gap is on the stub whose half it stands on: 100 x 74/60
-- on the left shore, 100 x 87/72 on the right one.
function T.test_point_load_over_the_gap()
  local function supports(at)
    local shore = {construction_live = 25, at = {60, 90}}
    return floor {{mark = "J1"}, {mark = "J2", cuts = GAP, shores = shore, loads = {
      ns.point {at = at, load = 100, case = "dead"}}}, {mark = "J3"}}:review().joists.J2
      .shores.supports
  end
  near(supports(74)[2].total, 190.1 + 100 * 74 / 60)
  near(supports(74)[3].total, 218.6)
  near(supports(75)[2].total, 190.1)
  near(supports(75)[3].total, 218.6 + 100 * 87 / 72)
end

-- An end that hangs has no bearing to count on; all its load is on the rest.
function T.test_no_seat_is_no_support()
  local r = floor {{mark = "J1"}, {mark = "J2", bearing = {0, 3.5}, shores = {
    construction_live = 25, at = {24, 100}}}, {mark = "J3"}}:review()
  local sum, bearings = 0, {}
  for _, p in ipairs(r.joists.J2.shores.supports) do
    sum = sum + p.total
    bearings[#bearings + 1] = p.bearing
  end
  lu.assertEquals(bearings, {2})
  lu.assertAlmostEquals(sum, 666, 1e-6)
end

-- A lost end: all 666 lb are on the shores beyond it and the far bearing.
function T.test_lost_end_is_no_support()
  local lost = {ns.lost_bearing {support = "left", to = "1-2", cause = "rot"}}
  local r = floor {{mark = "J1"}, {mark = "J2", cuts = lost, shores = {
    construction_live = 25, at = {30, 100}}}, {mark = "J3"}}:review()
  local sum, kinds = 0, {}
  for _, p in ipairs(r.joists.J2.shores.supports) do
    sum = sum + p.total
    kinds[#kinds + 1] = p.kind
  end
  lu.assertEquals(kinds, {"shore", "shore", "bearing"})
  lu.assertAlmostEquals(sum, 666, 1e-6)
end

function T.test_live_loads_entered_are_said_not_to_be_on_the_shores()
  local r = floor {{mark = "J1"}, {mark = "J2", cuts = GAP, loads = {ns.point {at = 30,
    load = 200}}}, {mark = "J3"}}:review()
  lu.assertStrContains(table.concat(r.joists.J2.shores.notes, "\n"), "take them off")
end

------------------------------------------------------------------------------- judgment

function T.test_judgment_stands_beside_the_action()
  local judged = {action = "decide", by = "J. Writer", reason = "soft deck"}
  local r = floor {{mark = "J1", judgment = judged}, {mark = "J2"}}:review()
  lu.assertEquals(r.joists.J1.action, "leave")
  lu.assertEquals(r.actions.leave, 2)
  local list = files(r)
  list.text, list.line = ns.report.text(r), ns.report.line(r.joists.J1)
  for _, name in ipairs {"text", "line", "letter.md", "crew.md", "calculation.html",
    "numbers.json", "numbers.csv"} do
    lu.assertStrContains(list[name], "judgment: decide", false, name)
    lu.assertStrContains(list[name], "soft deck", false, name)
  end
end

function T.test_judgment_is_validated()
  local function of(j)
    return function() floor {{mark = "J1", judgment = j}} end
  end
  lu.assertErrorMsgContains("one of leave, justify, decide, repair, refer expected",
    of {action = "ignore", by = "a", reason = "b"})
  lu.assertErrorMsgContains("judgment.by", of {action = "leave", reason = "b"})
  lu.assertErrorMsgContains("judgment.reason", of {action = "leave", by = "a"})
  lu.assertErrorMsgContains("judgment.who", of {action = "leave", by = "a", reason = "b",
    who = "c"})
  lu.assertErrorMsgContains("judgment", of "leave")
end

return T
