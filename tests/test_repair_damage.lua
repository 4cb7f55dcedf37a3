-- SPDX-License-Identifier: MIT
-- Repairs of rotten, eaten and burnt joists: no fastener in such wood, the source of the
-- water before all work, what an inspector sees at its end (common practice; rot counts
-- 12 in further each way, the rules of lua/README.md on losses).
local lu = require "luaunit"
local ns = require "netsection"

local T = {}

local BOLT = ns.fastener {kind = "bolt", diameter = "1/2 in"}
local MATERIAL = {Fb = 1500, CF = 1.1, Fv = 180, E = 1.7e6, Ft = 800, Fc = 1500,
  Fc_perp = 625, Emin = 620000, G = 0.5}

local function joist(cuts, changes)
  local t = {mark = "R", size = "2x10", material = MATERIAL, span = "13-6", spacing = 16,
    bearing = 3.5, dead = 10, live = 20, cuts = cuts}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.joist(t)
end

local function rot(from, to, cause)
  return ns.loss {from = from, to = to, bottom = 0.5, cause = cause or "rot"}
end

local function fixed(cuts, fix)
  return joist(cuts):fix(fix):review().fixed
end

------------------------------------------------------------------- kept out by layout

-- No place between from and to inches, by 12 in further each way for rot and insects.
local function none_within(a, from, to, what)
  lu.assertNil(a.refused, what)
  lu.assertTrue(#a.layout > 0, what)
  for _, p in ipairs(a.layout) do
    lu.assertTrue(p.x <= from or p.x >= to, ("%s: one at %.4g"):format(what, p.x))
  end
end

function T.test_rows_leave_bad_wood_out()
  for _, cause in ipairs {"rot", "insects"} do
    for _, pitch in ipairs {4, 7.3, 12, 16} do
      local what = ("%s, pitch %g"):format(cause, pitch)
      none_within(fixed({rot(60, 72, cause)}, ns.sister {fastener = BOLT, pitch = pitch,
        per_row = 2}), 48, 84, what)
      none_within(fixed({rot(60, 72, cause)}, ns.side_plates {from = 12, to = 140,
        thickness = 0.719, material = {Fb = 1200, Fv = 200, E = 1.2e6, G = 0.5},
        fastener = BOLT, pitch = pitch, lift = "unloaded"}), 48, 84, what)
    end
  end
  -- burnt sides: the length itself; burnt bottom: its depth, 1/4 in of allowance, and 4D
  none_within(fixed({ns.loss {from = 60, to = 72, sides = 0.25, cause = "char"}},
    ns.sister {fastener = BOLT, pitch = 6}), 60, 72, "charred sides")
  local a = fixed({ns.loss {from = 0, to = "13-6", bottom = 0.5, cause = "char",
    allowance = 0.25}}, ns.sister {fastener = BOLT, pitch = 12})
  for _, p in ipairs(a.layout) do
    lu.assertTrue(p.h >= 0.75 + 4 * 0.5 - 1e-9, tostring(p.h))
  end
end

function T.test_given_groups_there_are_refused()
  local a = fixed({rot(60, 72)}, ns.sister {fastener = BOLT, groups = {{at = 30, n = 4},
    {at = 54, n = 4}, {at = 100, n = 4}}})
  lu.assertStrContains(a.refused, "rotten wood")
end

function T.test_a_strap_over_rot_is_refused()
  local cuts = {ns.hole {at = 81, diameter = 2, below = 1}, rot(112, 120)}
  local strap = ns.strap {cut = 1, n = 6, gauge = 10, pitch = 4, fastener = ns.fastener {
    kind = "wood screw", number = 14, length = "3 in"}}
  lu.assertStrContains(fixed(cuts, strap).refused, "would stand in loss")
end

-- Screws at the corner of a notch: 4D past it, up 6 in.
function T.test_screws_in_bad_wood_are_refused()
  local notch = ns.end_notch {support = "left", face = "bottom", depth = 2}
  local function try(cut)
    return fixed({notch, cut}, ns.notch_screws {support = "left"}).refused or ""
  end
  lu.assertStrContains(try(rot(8, 20)), "the screws would stand in loss")
  lu.assertStrContains(try(ns.loss {from = 0, to = 30, sides = 0.25, cause = "char"}),
    "the screws would stand in loss")
  lu.assertStrContains(try(ns.hole {at = 3, diameter = 2, below = 3}),
    "the screws would stand in hole 2")
  lu.assertNil(try(rot(60, 70)):match "screws would stand")
  lu.assertNil(try(ns.hole {at = 3, diameter = 0.5, above = 1}):match "would stand")
end

-- A header does not hang in rotten wood of a trimmer, nor are its plies nailed there:
-- 27 nails every 6 in from 1.25 in on; from 96 to 144 in less 12 on both sides, 84 to 156
-- in, stand those at 85.25 to 151.25 in: 12 of them.
function T.test_a_trimmer_that_is_rotten()
  local function headed(from, to)
    local floor = ns.floor {name = "Mill", size = "2x10", material = MATERIAL,
      span = "13-6", spacing = 16, bearing = 3.5, dead = 10, live = 20, joists = {
      {mark = "A"}, {mark = "B", cuts = {rot(from, to)}}, {mark = "C", cuts = {
        ns.sever {from = "6-0", to = "6-5"}}}, {mark = "D"}, {mark = "E"}}}
    return floor:joist("C"):fix(ns.header {at = {"5-10", "6-7"}}):review().fixed
  end
  lu.assertStrContains(headed(86, 100).refused, "would hang at loss 1 of the trimmer B")
  local a = headed(96, 144)
  lu.assertNil(a.refused)
  local found
  for _, f in ipairs(a.fasteners) do
    if f.where:find("the trimmer B", 1, true) then found = f end
  end
  lu.assertEquals(found.count, 27 - 12 + 2 * 3)
  lu.assertStrContains(found.where, "none from 7'-0\" to 13'-0\"")
end

--------------------------------------------------------------------- order of the work

local WATER, SEEN = "Find where the water comes from", "an inspector sees"

local NOTCH = ns.end_notch {support = "left", face = "bottom", depth = 2}
local LOST = ns.lost_bearing {support = "left", to = "0-6"}

-- Every kind of repair at a joist that has rotted.
local KINDS = {
  sister = {{rot(60, 72)}, ns.sister {fastener = BOLT}},
  side_plates = {{rot(60, 72)}, ns.side_plates {from = 12, to = 140, thickness = 0.719,
    material = {Fb = 1200, Fv = 200, E = 1.2e6, G = 0.5}, fastener = BOLT,
    lift = "unloaded"}},
  strap = {{ns.hole {at = 60, diameter = 2, below = 1}, rot(130, 140)}, ns.strap {
    cut = 1, n = 4, gauge = 10}},
  header = {{rot(66, 68)}, ns.header {at = {50, 84}}},
  hanger = {{ns.loss {from = -1, to = 2, bottom = 1, cause = "rot"}}, ns.hanger {
    support = "left", offset = 6, capacity = 900}},
  midspan_support = {{rot(20, 30)}, ns.midspan_support {}},
  added_joist = {{rot(60, 72)}, ns.added_joist {}},
  notch_screws = {{NOTCH, rot(100, 110)}, ns.notch_screws {support = "left"}},
  end_sister = {{LOST}, ns.end_sister {to = "7-0", fastener = BOLT,
    groups = {{at = "2-6", n = 4}, {at = "6-0", n = 4}}, hanger = {capacity = 900}}},
}

function T.test_the_water_comes_first_and_the_inspector_last()
  local kinds = 0
  for kind, row in pairs(KINDS) do
    local a = fixed(row[1], row[2])
    if not (kind == "hanger" and a.refused) then
      lu.assertNil(a.refused, kind)
      lu.assertStrContains(a.sequence[1], WATER, nil, kind)
      local last = a.sequence[#a.sequence]
      lu.assertStrContains(last, SEEN, nil, kind)
      lu.assertStrContains(last, "the source of the water closed", nil, kind)
      local count = 0
      for _, step in ipairs(a.sequence) do
        if step:find("water", 1, true) then count = count + 1 end
      end
      lu.assertEquals(count, 2, kind .. ": said once, and seen once")
    end
    kinds = kinds + 1
  end
  lu.assertEquals(kinds, 9)
end

-- A lost end hung or posted: as for any other rot.
function T.test_a_lost_end_on_a_hanger_or_a_post()
  for _, fix in ipairs {ns.hanger {support = "left", capacity = 900,
    offset = 8}, ns.midspan_support {at = 30}} do
    local a = fixed({ns.lost_bearing {support = "left", to = 4, extend = 0}}, fix)
    lu.assertNil(a.refused)
    lu.assertStrContains(a.sequence[1], WATER)
    lu.assertStrContains(a.sequence[#a.sequence], SEEN)
  end
end

function T.test_fire_and_insects()
  local a = fixed({rot(60, 72, "insects")}, ns.sister {fastener = BOLT})
  lu.assertStrContains(a.sequence[1], "insects named and treated")
  lu.assertStrContains(a.sequence[#a.sequence], "the treatment on record")
  a = fixed({ns.loss {from = 40, to = 90, bottom = 0.5, cause = "char"}},
    ns.sister {fastener = BOLT})
  lu.assertStrContains(a.sequence[1], "released the floor")
  lu.assertStrContains(a.sequence[#a.sequence], "char scraped off")
end

-- What is neither says nothing of it.
function T.test_a_drilled_joist_has_no_water_to_find()
  local a = fixed({ns.hole {at = 60, diameter = 3}}, ns.sister {fastener = BOLT})
  lu.assertNil(table.concat(a.sequence, " "):find("water", 1, true))
end

-- Rot at a bearing is a notch of the joist there under the joist's own part of the
-- reaction, not under that of both. R = 69.33 plf x 6.75 ft = 468 lb, dead 108, live 360;
-- a sister of the same wood on both bearings takes half of what comes after it is
-- fastened: 108 + 360/2 with the dead load in the joist, 468/2 with it lifted off.
function T.test_rot_by_a_bearing_beside_a_sister_carries_the_joists_part()
  local j = joist({ns.loss {from = 3, to = 6, bottom = 1, cause = "rot"}},
    {dead = 12, live = 40})
  local function demands(t)
    t.fastener, t.pitch = BOLT, 16
    local r, o = j:fix(ns.sister(t)):review(), {}
    for _, k in ipairs(r.fixed.checks) do
      if k.mode == "notch-shear" then o.notch = k.demand end
      if k.mode == "bearing" and k.member == "host" then
        o.bearing = math.max(o.bearing or 0, k.demand)
      end
    end
    o.before = r:find("cut", "notch-shear", 1).demand
    return o
  end
  for lift, R in pairs {none = 108 + 180, unloaded = 234} do
    local o = demands {lift = lift, share = "stiffness"}
    lu.assertAlmostEquals(o.before, 468, 1e-6)
    lu.assertAlmostEquals(o.notch, R, 1e-6, lift)
  end
  local o = demands {share = "slip"} -- at the rotten end the joist bears the more
  lu.assertAlmostEquals(o.notch, o.bearing, 1e-6)
  lu.assertTrue(o.notch < 468)
end

return T
