-- SPDX-License-Identifier: MIT
-- What the core's functions on columns, sweeps, programs and connections refuse, each by
-- the words that name the argument; and a disk that is full.
local core = require "netsection.core"
local ns = require "netsection"
local lu = require "luaunit"
local support = require "tests.support"
local system = require "tests.system"

local T = {}
local raises, refused = support.raises, support.refused
local with, NONE = support.with, ns.none

local function joist(changes)
  return ns.joist(with({mark = "J", size = "2x10", species = "hem-fir", grade = "No.2",
    span = 144, spacing = 16, bearing = 3.5, dead = 10, live = 40}, changes))
end

local ONE = joist()
local PACKS = ONE:review().packs

local function lanes(...)
  return core.lanes(core.numbers {...}, 0, select("#", ...), 1)
end

function T.test_reviews_of_several()
  local packed = core.packed(ONE.model)
  local other = core.packed(joist {cuts = {ns.hole {at = 48, diameter = 2}}}.model)
  local function reviews(list) return core.reviews(list, PACKS.rules, PACKS.standard) end
  raises("1 to 16 joists expected", reviews, {})
  local many = {}
  for i = 1, 17 do many[i] = packed end
  raises("1 to 16 joists expected", reviews, many)
  many[17] = nil
  lu.assertEquals(#reviews(many), 16)
  raises("joists of one topology expected", reviews, {packed, other})
end

-- A model may say true for 1 and false for 0.
function T.test_truths_as_numbers()
  local function ratio(sheathed)
    local m = with(ONE.model, {sheathed = sheathed})
    local reviewed = core.reviews({core.packed(m)}, PACKS.rules, PACKS.standard)
    return reviewed[1][2].uncut.ratio
  end
  lu.assertEquals({ratio(true), ratio(false)}, {ratio(1), ratio(0)})
  lu.assertTrue(ratio(0) > ratio(1)) -- no deck: C_L below 1 (NDS 3.3.3)
end

function T.test_curves_of_joists_that_have_none()
  local function curve(j, ...)
    return core.curve(j.model, PACKS.rules, PACKS.standard, ...)
  end
  raises("a model under one combination expected", curve, joist {snow = 20})
  raises("no repair", curve, ONE, "fixed")
  local strapped = joist {cuts = {ns.notch {from = 30, to = 35, depth = 1.5,
    face = "bottom"}}}:fix(ns.strap {cut = 1, width = 1.5, gauge = 12,
    fastener = ns.fastener {kind = "wood screw", size = "#10", length = 1.5}})
  local under = strapped:review().fixed.model
  raises("no member beside it", core.curve, under, PACKS.rules, PACKS.standard, "new")
  raises("1 to 64", curve, ONE, "cut", 65)
  lu.assertTrue(#curve(ONE, "cut", 2) > 2)
  local wrong = joist().model
  wrong.b = -1
  raises("a model that is wrong", core.curve, wrong, PACKS.rules, PACKS.standard)
  raises("a model that is wrong", core.stiffness, wrong, PACKS.rules, PACKS.standard)
end

function T.test_reviews_in_columns()
  local sound = {model = core.packed(ONE.model), columns = {{path = "live",
    values = lanes(20, 30)}}, count = 2, rules = PACKS.rules, standard = PACKS.standard}
  refused(core.kept, sound, {
    {"a count of lanes", {count = 0}},
    {"a count of lanes", {count = (1 << 20) + 1}},
    {"kept: columns[1]: other lanes", {count = 3}},
    {"kept: no field 'lives'", {columns = {{path = "lives", values = lanes(1, 2)}}}},
    {"kept: no field 'cuts.1.at'", {columns = {{path = "cuts.1.at",
      values = lanes(1, 2)}}}},
    {"kept: no field 'lines.1.w1'", {columns = {{path = "lines.1.w1",
      values = lanes(1, 2)}}}},
    {"kept: no field 'points.1.P'", {columns = {{path = "points.1.P",
      values = lanes(1, 2)}}}},
    {"kept: no field 'cuts.1.at.x'", {columns = {{path = "cuts.1.at.x",
      values = lanes(1, 2)}}}},
    {"kept: rules: ", {rules = NONE}},
    {"kept: model: ", {model = PACKS.standard}},
  })
  lu.assertNotNil((core.kept(sound)))
  raises("joint: Z: other lanes", core.joints, {mode = "fasteners", demand = lanes(90,
    100), Z = lanes(50, 60, 70), n_f = 4})
  raises("a column expected", core.joints, {mode = "fasteners", demand = 90, Z = 50,
    n_f = 4})
end

function T.test_sweeps()
  local sound = {models = {core.packed(ONE.model)}, sizes = {2}, columns = {{axis = 1,
    path = "live", values = core.numbers {20, 30}}}, count = 2, to = {core.numbers(2)},
    outputs = {{quantity = "ratio", state = "uncut"}}, fault = core.faults(2),
    rules = PACKS.rules, standard = PACKS.standard}
  refused(core.sweep, sound, {
    {"sweep: columns[1].axis: no such axis", {columns = {{axis = 2, path = "live",
      values = core.numbers {20, 30}}}}},
    {"sweep: columns[1].axis: no such axis", {columns = {{axis = -1, path = "live",
      values = core.numbers {20, 30}}}}},
    {"sweep: to[1]: too short", {to = {core.numbers(1)}}},
    {"sweep: to[1]: too short", {at = 1}},
    {"sweep: to[1]: too short", {at = 3}},
    {"sweep: fault: short", {fault = core.faults(1)}},
    {"sweep: first: a count expected", {first = -1}},
    {"sweep: first: a count expected", {first = 0.5}},
    {"sweep: count: past the last point", {first = 1}},
    {"sweep: count: past the last point", {first = 3, count = 0}},
  })
  lu.assertEquals(core.sweep(sound), 2)
  lu.assertEquals(sound.to[1][2], joist {live = 30}:review().uncut.ratio)
end

-- Steps that were noted are done again with as much as was noted, at places that there
-- are.
function T.test_notes_and_replays()
  local a, places = lanes(1, 2), lanes(0, 1)
  raises("note: 1: lanes expected", core.note, {5}, places, {}, {})
  local many = {}
  for i = 1, 4096 do many[i] = a end
  raises("too many", core.note, many, places, {}, {})
  local none, why = core.noted(true)
  lu.assertNil(none)
  lu.assertEquals(why, "nothing was noted")
  core.note({a}, places, {core.numbers(2)}, {}) -- given up for the next
  local to = core.numbers(2)
  core.note({a}, places, {to}, {})
  core.put(to, 0, places, a * 3)
  local trace = assert(core.noted(true))
  local sound = {trace, {lanes(5, 7)}, places, 0, {core.numbers(2)}, 1}
  local function replay(changes)
    return core.replay(table.unpack(with(sound, changes), 1, 6))
  end
  raises("as many columns as were noted", replay, {[2] = {}})
  raises("as many columns as were noted", replay, {[5] = {}})
  raises("as many lanes as places", replay, {[2] = {lanes(5, 7, 9)}})
  for _, place in ipairs {-1, 1e15, 0 / 0} do
    raises("no such place", replay, {[3] = lanes(0, place)})
  end
  raises("no such place", replay, {[4] = -1})
  raises("lanes expected", replay, {[2] = {core.numbers {5, 7}}})
  lu.assertNil(replay {})
  lu.assertEquals({sound[5][1][1], sound[5][1][2]}, {15, 21})
  lu.assertNil(replay {[3] = lanes(1, 0)}) -- the places change sides
  lu.assertEquals({sound[5][1][1], sound[5][1][2]}, {21, 15})
end

function T.test_numbers_spread_over_points()
  local to = core.numbers(6)
  raises("a step at least", core.spread, core.numbers {}, 1, 0, 1, to)
  raises("1 or more expected", core.spread, core.numbers {1}, 0, 0, 1, to)
  raises("1 or more expected", core.spread, core.numbers {1}, 1, -1, 1, to)
  raises("too many", core.spread, core.numbers {1}, 1, 0, 7, to)
  raises("too many", core.spread, core.numbers {1}, 1, 0, -1, to)
  core.spread(core.numbers {5, 7, 9}, 2, 3, 6, to) -- of 5 5 7 7 9 9 5 5 7 from the fourth
  for i, v in ipairs {7, 9, 9, 5, 5, 7} do lu.assertEquals(to[i], v) end
end

function T.test_lines_of_csv()
  local out <close> = assert(io.tmpfile())
  local function csv(changes)
    local a = with({out, {{texts = {"a", "b"}, stride = 1}}, core.faults(2), {}, 0, 2},
      changes)
    return core.csv(table.unpack(a, 1, 7))
  end
  raises("a list of fields expected", csv, {[2] = {5}})
  raises("too many fields, or none", csv, {[2] = {}})
  raises("0 or more expected", csv, {[5] = -1})
  raises("too many", csv, {[6] = 3})
  raises("too many", csv, {[6] = -1})
  raises("too short", csv, {[7] = core.numbers(1)})
  local closed = assert(io.tmpfile())
  closed:close()
  raises("an open file expected", csv, {closed})
  lu.assertTrue(csv {[7] = core.numbers {0, 1}})
  out:seek "set"
  lu.assertEquals(out:read "a", "b,\r\n") -- the second point alone
end

-- What does not fit on a disk is said as the system says it.
function T.test_a_disk_that_is_full()
  local full <close> = io.open("/dev/full", "w")
  if not full then lu.skip "no /dev/full" end
  full:setvbuf "no"
  local n = 100000
  local ok, why = core.csv(full, {{texts = {("long "):rep(20)}, stride = 1}},
    core.faults(n), {}, 0, n)
  lu.assertNil(ok)
  lu.assertStrContains(why, "No space left")
  ok, why = core.write_numbers(full, core.numbers(n), n, 0)
  lu.assertNil(ok)
  lu.assertStrContains(why, "No space left")
end

function T.test_programs()
  system.unix "programs by words"
  local run, talk, said = core.files.run, core.files.talk, os.tmpname()
  for _, seconds in ipairs {0, -1, 1e6, 0 / 0} do
    raises("seconds above 0 expected", run, {"true"}, said, seconds)
  end
  local many = {}
  for i = 1, 33 do many[i] = "true" end
  raises("1 to 32 words expected", run, {}, said, 1)
  raises("1 to 32 words expected", run, many, said, 1)
  raises("a list of texts expected", run, {"true", 5}, said, 1)
  raises("no NUL in a word", run, {"true", "a\0b"}, said, 1)
  raises("no NUL in a word", talk, {"true", "a\0b"}, said)
  lu.assertEquals(run({"true"}, said, 5), 0)
  os.remove(said)
end

function T.test_connections()
  raises("fastener.kind: missing", core.dowel.lateral, {})
  raises("fastener.kind: missing", core.dowel.johansen, {})
  local sound = {L = 168, l = 16, x_i = 30, x_o = 78, face = 166, d = 9.25,
    lines = {{a = 0, b = 168, w1 = 1, w2 = 1}}, points = {{at = 60, P = 100}},
    combinations = {{D = 1, L = 1, CD = 1}}}
  for _, sign in ipairs {-2, 2} do
    raises("1, -1 or 0 expected", core.end_force, sound, "R", 0, sign)
  end
  -- R = sum of P (L - s)/L; M at the inner group is R x_i less what lies on the sister,
  -- s < l, times its distance: statics.
  local R = (100 * (168 - 60) + 50 * (168 - 20) + 70 * (168 - 10)) / 168
  local M = core.end_force(with(sound, {lines = {}, points = {{at = 60, P = 100},
    {at = 20, P = 50}, {at = 10, P = 70}}}), "M_i", 0, 0).dead
  support.close(M, R * 30 - 70 * (30 - 10), 1e-12)
  raises("end: x_o: other lanes", core.end_force, with(sound, {x_i = lanes(30, 31),
    x_o = lanes(78, 79, 80)}), "R", 0, 0)
end

return T
