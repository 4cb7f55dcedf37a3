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
  for _, f in ipairs(ns.package.files(r)) do list[f.name] = f.text end
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
