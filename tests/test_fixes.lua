-- SPDX-License-Identifier: MIT
-- Repairs: hand calculations, statics that every repair has to satisfy, and the order of
-- results that a repair must keep. Values are worked out apart from this module, in the
-- form a handbook shows them; 0.5 % unless a line says otherwise. "statics" beside a
-- check is equilibrium alone; clauses are those of NDS 2018.
local lu = require "luaunit"
local ns = require "netsection"
local random_joist = require "tests.random_joist"
local support = require "tests.support"

local close, close_abs = support.close, support.close_abs
local T = {}

local REL = 0.005

-- Values of Douglas Fir-Larch No.2 as the scenarios give them (NDS Supplement Table 4A).
local DFL = {Fb = 900, CF = 1.1, Fv = 180, E = 1.6e6, Ft = 575, Fc = 1350,
  Fc_perp = 625, Emin = 580000, G = 0.5}

local BOLT = ns.fastener {kind = "bolt", diameter = "1/2 in"}
local LAG = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "3 in"}
local SCREW = ns.fastener {kind = "wood screw", number = 14, length = "3 in"}

local function changed(t, changes)
  local new = {}
  for _, list in ipairs {t, changes or {}} do
    for name, value in pairs(list) do new[name] = value end
  end
  return new
end

local function larkspur(cuts, changes)
  return ns.joist(changed({mark = "J", size = "2x10", material = DFL, span = "13-6",
    spacing = 16, bearing = 3.5, dead = 12, live = 40, cuts = cuts}, changes))
end

local function fixed(joist, fix)
  local review = joist:fix(fix):review()
  return review.fixed, review
end

-- The check of a mode and a member, or nil.
local function find(a, mode, member, cut)
  for _, k in ipairs(a.checks) do
    if k.mode == mode and (not member or k.member == member)
      and (not cut or k.cut == cut) then
      return k
    end
  end
end

local function value_of(check, symbol)
  for _, step in ipairs(check.steps) do
    if step.symbol == symbol then return step.value end
  end
  error("no step " .. symbol)
end

local function says(list, piece)
  for _, text in ipairs(list) do
    if text:find(piece, 1, true) then return text end
  end
  error(("%q is said nowhere in: %s"):format(piece, table.concat(list, " | ")), 2)
end

-- What a member of the drawing has at x, to the left and to the right of it.
local function at(points, x)
  local left, right
  for _, p in ipairs(points) do
    if math.abs(p.x - x) < 1e-9 then left, right = left or p, p end
  end
  assert(left, "no point at " .. x)
  return left, right
end

local function station(a, name)
  for _, s in ipairs(a.stations) do
    if s.name == name then return s end
  end
  error("no station " .. name)
end

----------------------------------------------------------------- A1, upstairs bathroom

local SEVERED = {ns.sever {from = "6-0", to = "6-5"}}

local function part_sister(changes)
  return ns.sister(changed({from = "3-0", to = "9-5", fastener = BOLT,
    groups = {{at = "3-4", n = 4}, {at = "5-10", n = 4}, {at = "6-7", n = 4},
      {at = "9-1", n = 4}}}, changes))
end

-- w = 52 psf x 16 in = 5.7778 lb/in. The stubs keep their load: M(40) - M of the stub
-- from there on its groups; sums of forces and moments of each half (statics).
function T.test_A1_J6_part_sister()
  local a, review = fixed(larkspur(SEVERED), part_sister())
  close(-station(a, "left outer").full, 620.5, REL)
  close(-station(a, "right outer").full, 631.8, REL)
  close(station(a, "left inner").full, 568.5, REL)
  close(station(a, "right inner").full, 654.9, REL)
  close(value_of(find(a, "bending", "sister"), "f_b"), 886, REL)
  local host = review:diagram().fixed.members[1].points
  close(at(host, 40).M / 12, 1175, REL, "moment of the joist at the left outer group")
  close(at(host, 109).M / 12, 1391, REL, "and at the right one")
  close(find(a, "host-bending").demand / 12, 1391, REL)
  close(find(a, "fasteners").demand, 654.9, REL)
  lu.assertTrue(#a.notes > 0)
end

-- F_i = F_o - V(x_i): all load between the inner groups on the sister (statics).
function T.test_A1_J6_by_the_hand_form()
  local a = fixed(larkspur(SEVERED), part_sister {gap_load = "between groups"})
  close(station(a, "left inner").full, 557, REL)
  close(station(a, "right inner").full, 643, REL)
  -- M(x_i) / a with w: M(70) = w/2 70 (162 - 70), M(79) = w/2 79 (162 - 79).
  local w = 52 * 16 / 144
  close(-station(a, "left outer").full, w / 2 * 70 * 92 / 30, 1e-9)
  close(-station(a, "right outer").full, w / 2 * 79 * 83 / 30, 1e-9)
end

-- NDS 3.4.3.3: 2/3 Fv' b de (de/d)^2 = 654.9 lb at de = 6.78 in.
function T.test_A1_J6_connection_shear()
  local a = fixed(larkspur(SEVERED), part_sister())
  for _, member in ipairs {"host", "sister"} do
    local k = find(a, "connection-shear", member)
    close(k.demand, 654.9, REL)
    local d_e, d = value_of(k, "d_e"), value_of(k, "d")
    close(k.capacity, 2 / 3 * 180 * 1.5 * d_e * (d_e / d) ^ 2, 1e-9)
    close(d_e * (k.ratio) ^ (1 / 3), 6.78, REL, "the de that just does")
    lu.assertEquals(k.branch, 1)
  end
end

function T.test_A1_J6_strap_alone_is_refused()
  local a = fixed(larkspur(SEVERED), ns.strap {})
  lu.assertEquals(a.status, "not permitted")
  lu.assertEquals(a.checks, {})
  lu.assertStrContains(a.refused, "compression")
  lu.assertStrContains(a.refused, "shear")
end

-- A joist and its twin halve the moment, lifted off before they are joined.
function T.test_A1_J3_full_sister()
  local joist = larkspur {ns.hole {at = "5-2", diameter = 4, below = 1.5}}
  local a, review = fixed(joist, ns.sister {fastener = LAG, lift = "unloaded"})
  lu.assertEquals(review.cut.status, "overstressed")
  lu.assertEquals(a.status, "adequate")
  -- Over 4 in between rows the joist sheds nothing: it keeps half of the 1492.6 ft-lb,
  -- its share beside whole wood (statics).
  local k = find(a, "net-bending", "host", 1)
  close(value_of(k, "M") / 12, 1492.6 / 2, REL)
  lu.assertTrue(k.ratio < 1)
end

------------------------------------------------------------------------------ A3, C3

-- R 638 lb against 2/3 135 2 6 (6/8)^2 = 607.5 lb (NDS 3.4.3.2): a sister that stops 9 in
-- short of the bearings has no part in that.
function T.test_A3_sister_that_stops_short()
  local wood = changed(DFL, {Fv = 135})
  local cuts = {}
  for i, side in ipairs {"left", "right"} do
    cuts[i] = ns.end_notch {support = side, face = "bottom", depth = 2, length = 3.5}
  end
  local joist = ns.joist {mark = "A3", size = "full-sawn 2x8", material = wood,
    span = "14-8", spacing = 18, bearing = 3.5, dead = 18, live = 40, cuts = cuts}
  local a, review = fixed(joist, ns.sister {from = "0-9", to = "13-11", size = "2x8",
    fastener = LAG, pitch = 8})
  close(review:find("cut", "notch-shear", 1).demand, 638, REL)
  for cut = 1, 2 do
    local before, after = review:find("cut", "notch-shear", cut),
      find(a, "notch-shear", "host", cut)
    close(after.capacity, 2 / 3 * 135 * 2 * 6 * (6 / 8) ^ 2, 1e-9)
    close(after.ratio, before.ratio, 1e-9, "the end notch stays as it was")
    lu.assertTrue(after.ratio > 1)
  end
  -- M = 2339 ft-lb at 18 in before.
  close(review:find("cut", "bending").demand / 12, 2339, REL)
  lu.assertTrue(find(a, "host-bending").demand < 0.8 * 2339 * 12, "bending improves")
  says(a.notes, "does not reach the failing section")
end

local OLD = {Fb = 900, CF = 1, Fv = 180, E = 1.2e6, Ft = 500, Fc = 1000, Fc_perp = 500,
  G = 0.5}

local function old_and_new(changes, sister)
  local joist = ns.joist(changed({mark = "C3", b = 2, d = 8, material = OLD,
    span = "13-0", spacing = 12, bearing = 3.5, dead = 25, live = 65}, changes))
  return fixed(joist, ns.sister(changed({b = 1.5, d = 7.25,
    material = changed(OLD, {E = 1.6e6}), fastener = LAG, pitch = 6}, sister)))
end

-- Stresses of both at mid-span, psi.
local function at_midspan(review)
  local members = review:diagram().fixed.members
  return at(members[1].points, 78).M / (2 * 8 ^ 2 / 6),
    at(members[2].points, 78).M / (1.5 * 7.25 ^ 2 / 6)
end

-- Shares by E I (statics; both bend alike): 102.4 of 178.6 million lb-in2.
function T.test_C3_sharing()
  local a, review = old_and_new(nil, {lift = "unloaded"})
  close(1 - a.share, 0.573, REL)
  close(find(a, "host-bending").demand / 12, 1090, REL)
  close(find(a, "bending", "sister").demand / 12, 811, REL)
  local old, new = at_midspan(review)
  close(old, 613, REL)
  close(new, 741, REL)
  close(a.deflection.live, 0.234, REL)
end

function T.test_C3_not_lifted()
  local a, review = old_and_new(nil, {lift = "none"})
  local old, new = at_midspan(review)
  close(old, 740, REL)
  close(new, 535, REL)
  close(a.deflection.live, 0.234, REL)
end

-- 5/8 w_D L at mid-span: the old one two spans over the prop, then 203.125 lb let go on
-- both (statics). The largest of the joist is beside mid-span.
function T.test_C3_with_a_prop()
  local a, review = old_and_new(nil, {lift = ns.prop {at = "6-6", force = "203.125 lb"}})
  local old, new = at_midspan(review)
  close(old, 581, REL)
  close(new, 792, REL)
  local most = find(a, "host-bending")
  close(most.demand / (2 * 8 ^ 2 / 6), 590, REL)
  lu.assertTrue(math.abs(most.at - 78) > 4)
end

-- 0.427 of 90 lb/ft enters the old joist and has to pass: 38.4 lb/ft; near mid-span each
-- of many stiff rows passes that times its pitch.
function T.test_C3_load_that_passes_over()
  local a = old_and_new(nil, {lift = "unloaded", pitch = 6, slip = 1e6})
  lu.assertTrue(#a.stations > 20)
  for i = 11, 16 do
    close(a.stations[i].full, 38.4 / 12 * 6, REL, a.stations[i].name)
  end
  local b = old_and_new(nil, {lift = "unloaded", pitch = 6, slip = 1e6, from = 0,
    to = "13-0", bearing = true, share = "slip"})
  local sum = 0
  for _, s in ipairs(b.stations) do sum = sum + s.full end
  close(sum, 38.4 * 13, 0.05, "all of it but what is near the bearings")
end

-------------------------------------------------------------- straps: arms, B3, a gap

-- 2x10, hole 1-3/4 in that leaves 3/4 in under it, M = 2187.5 ft-lb at 14 ft, a strap
-- 1.5 x 1/8 in: E_s / E = 20.7.
local function strapped(changes, strap, E)
  local w = 2187.5 * 8 / 14 ^ 2
  local joist = ns.joist(changed({mark = "S", size = "2x10",
    material = changed(DFL, {E = E or 29e6 / 20.7}), span = "14-0", spacing = 12,
    bearing = 3.5, dead = w - 60, live = 60,
    cuts = {ns.hole {at = "7-0", diameter = "1-3/4 in", below = "3/4 in"}}}, changes))
  return fixed(joist, ns.strap(changed({width = 1.5, thickness = 0.125, steel = "A36",
    n = 14, pitch = 2, fastener = SCREW, lift = "unloaded"}, strap)))
end

local function arm(a, piece)
  for _, row in ipairs(a.arms) do
    if row.name:find(piece, 1, true) then return row end
  end
  error("no arm " .. piece)
end

-- A section with no tension in its wood (statics): b c^2 / 2 = n A (d_s - c).
function T.test_lever_arms()
  local a = strapped()
  close(a.T, 3407, REL)
  close(a.arm, 7.71, REL)
  for name, T_of in pairs {["full depth"] = 2838, ["0.9 d"] = 3153, ["cracked"] = 3407,
    ["triangular block"] = 3717, ["2 d / 3"] = 4257} do
    close(arm(a, name).T, T_of, REL, name)
    close(arm(a, name).T * arm(a, name).arm, 2187.5 * 12, 1e-9, "M = T z: " .. name)
  end
  lu.assertStrContains(arm(a, "full depth").name, "never used")
  local k = find(a, "wood-compression", "host", 1)
  close(value_of(k, "c"), 4.82, REL)
  close(k.demand, 942, REL)
  close(find(a, "steel", "strap").demand, 3407, REL)
end

-- The table a shop has: n Z' z of a 2x10 at z = 0.9 d = 8.325 in and 2 d / 3, capped by
-- the steel, 3618 lb (arithmetic).
function T.test_B3_table()
  local M = {[6] = {832, 617}, [10] = {1388, 1028}, [14] = {1942, 1439},
    [18] = {2498, 1850}}
  for n, row in pairs(M) do
    local a = strapped(nil, {n = n, rated = "200 lb", capacity = "3618 lb"})
    local k = find(a, "fasteners", "strap")
    close(k.capacity, n * 200, 1e-12)
    close(find(a, "steel").capacity, 3618, 1e-12)
    close(math.min(k.capacity, 3618) * arm(a, "0.9 d").arm / 12, row[1], REL)
    close(math.min(k.capacity, 3618) * arm(a, "2 d / 3").arm / 12, row[2], REL)
  end
  local a = strapped(nil, {n = 22, rated = "200 lb", capacity = "3618 lb"})
  close(find(a, "fasteners", "strap").capacity * arm(a, "0.9 d").arm / 12, 3052, REL)
  close(find(a, "steel").capacity * arm(a, "0.9 d").arm / 12, 2510, REL)
  lu.assertTrue(find(a, "steel").ratio > find(a, "fasteners", "strap").ratio, "s governs")
end

-- What was locked in stays in the wood: T has the later load alone (statics).
function T.test_a_strap_that_is_not_shored()
  local none, lifted = strapped(nil, {lift = "none"}), strapped()
  local w = 2187.5 * 8 / 14 ^ 2
  close(none.T / lifted.T, 60 / w, 1e-9)
  local dead = (w - 60) / 12 * 168 ^ 2 / 8
  close(value_of(find(none, "wood-compression", "host"), "f_b"),
    dead / (1.5 * 6.75 ^ 2 / 6), 1e-9)
  says(none.notes, "not shored")
  says(lifted.notes, "shored")
end

-- A strap holds tension alone: over a gap nothing is left for compression and shear.
function T.test_a_strap_at_a_gap()
  local joist = larkspur({ns.sever {from = "6-11", to = "7-1"}}, {span = "14-0",
    spacing = 12, dead = 10, live = 50})
  local a = fixed(joist, ns.strap {n = 14, fastener = SCREW})
  lu.assertEquals(a.status, "not permitted")
  lu.assertStrContains(a.refused, "side_plates or a sister")
  lu.assertEquals(#a.checks, 0)
  lu.assertErrorMsgContains("unknown field 'shear'", ns.strap, {n = 50,
    shear = {n = 50, lap = 4, thickness = 0.05}})
end

-- T falls toward the bearings as the moment does (statics: the parabola).
function T.test_a_strap_along_the_joist()
  local a = strapped(nil, {n = 20})
  local w, seen = 2187.5 * 8 / 14 ^ 2 / 12, 0
  for _, p in ipairs(a.along) do
    close(p.T * a.arm, w / 2 * p.x * (168 - p.x), 1e-9)
    seen = seen + 1
  end
  lu.assertTrue(seen > 10)
  lu.assertTrue(a.along[1].x >= a.x1 and a.along[#a.along].x <= a.x2)
end

---------------------------------------------------------------------------- refusals

local LOSS = ns.loss {from = "6-0", to = "7-0", bottom = 1, cause = "rot"}

-- Name, joist, repair, and a piece of the reason.
local REFUSED = {
  {"no length", larkspur(SEVERED), ns.sister {from = "3-0", to = "3-0"}, "no length"},
  {"two spans", larkspur():with {spans = {120, 120}},
    ns.sister {from = "5-0", to = "15-0"}, "inner bearing"},
  {"severed twice", larkspur {ns.sever {from = "3-0", to = "3-2"},
    ns.sever {from = "8-0", to = "8-2"}}, ns.sister {from = "1-0", to = "12-0"}, "twice"},
  {"dead load left in a gap", larkspur(SEVERED), part_sister {lift = "none"}, "shore"},
  {"one prop at a gap", larkspur(SEVERED), part_sister {lift = ns.prop {at = "5-0",
    force = "100 lb"}}, "prop"},
  {"a group in the gap", larkspur(SEVERED), part_sister {groups = {{at = "6-2", n = 4}}},
    "gap"},
  {"one group on a side", larkspur(SEVERED), part_sister {groups = {{at = "3-4", n = 4},
    {at = "9-1", n = 4}}}, "two on each side"},
  {"short of the gap", larkspur(SEVERED), ns.sister {from = "1-0", to = "5-6",
    groups = {"1-6", "3-0", "5-0"}}, "reach over the gap"},
  {"plates beside the gap", larkspur(SEVERED), ns.side_plates {from = "7-0", to = "10-0",
    thickness = "1/4 in", steel = "A36"}, "reach over the gap"},
  {"in rotten wood", larkspur {LOSS}, ns.sister {from = "3-0", to = "10-0",
    groups = {"4-0", "6-6", "9-0"}}, "rotten"},
  {"too near the end", larkspur(SEVERED), part_sister {from = 39.5}, "new member's end"},
  {"no overlap", larkspur(), ns.sister {size = "2x4", from = "2-0", to = "10-0",
    rise = 5, fastener = BOLT}, "overlap"},
  {"rows in an opening", larkspur {ns.slot {from = "2-0", to = "11-0", height = 7.5}},
    ns.sister {from = "3-0", to = "10-0", fastener = LAG}, "sound wood"},
  {"strap, end notch", larkspur {ns.end_notch {support = "left", face = "bottom",
    depth = 2, length = 4}}, ns.strap {cut = 1}, "bearing"},
  {"strap, rot", larkspur {LOSS}, ns.strap {}, "sister"},
  {"strap, split", larkspur {ns.split {from = "6-0", to = "7-0", at_depth = 4}},
    ns.strap {}, "split"},
  {"strap, top notch", larkspur {ns.notch {face = "top", from = "6-0", to = "6-4",
    depth = 2}}, ns.strap {cut = 1}, "compression"},
  {"strap, no cut", larkspur(), ns.strap {}, "no cut"},
  {"strap, long opening", larkspur {ns.slot {from = "6-0", to = "7-0", height = 2,
    below = 1}}, ns.strap {}, "longer than"},
  {"strap, hogging", larkspur({ns.notch {face = "bottom", from = "0-10", to = "1-0",
    depth = 1}}, {overhang_left = 60}), ns.strap {n = 2}, "upward"},
  {"strap past the bearing", larkspur {ns.notch {face = "bottom", from = "0-8",
    to = "0-10", depth = 1}}, ns.strap {n = 20}, "past a bearing"},
  {"strap, severed elsewhere", larkspur {ns.hole {at = "4-0", diameter = 2, below = 1},
    ns.sever {from = "8-0", to = "8-3"}}, ns.strap {cut = 1, n = 2}, "elsewhere"},
  {"strap into another notch", larkspur {ns.notch {face = "bottom", from = "6-0",
    to = "6-3", depth = 2}, ns.notch {face = "bottom", from = "7-0", to = "7-4",
    depth = 2}}, ns.strap {cut = 1, n = 8, fastener = SCREW, pitch = 2}, "notch 2"},
  {"strap wider than the joist", larkspur {ns.notch {face = "bottom", from = "6-0",
    to = "6-4", depth = 2}}, ns.strap {width = 3}, "wider"},
}

local function refused_well(a, what, piece)
  lu.assertEquals(a.status, "not permitted", what)
  lu.assertIsString(a.refused, what)
  lu.assertTrue(#a.refused > 10, what)
  lu.assertStrContains(a.refused, piece, false, false, what .. ": " .. a.refused)
  lu.assertEquals(a.checks, {}, what)
  lu.assertNil(a.ratio, what)
end

function T.test_refusals_have_a_reason()
  for _, case in ipairs(REFUSED) do
    local a, review = fixed(case[2], case[3])
    refused_well(a, case[1], case[4])
    lu.assertIsString(a.title, case[1])
    lu.assertNil(review:diagram().fixed, case[1])
  end
end

function T.test_a_joist_without_numbers()
  local a = fixed(larkspur():with {material = ns.none, member = "I-joist"}, part_sister())
  lu.assertEquals(a.status, "not permitted")
  lu.assertEquals(a.checks, {})
end

------------------------------------------------------------------ equilibrium, always

-- Statically determinate: joist and member together have the uncut joist's moment,
-- whoever carries it (statics). By stiffness alone the shares step at a cut and where an
-- overhang begins; there each member is looked at with the larger of its two.
local function together(review, what)
  local d = review:diagram()
  local stepped = (review.fixed.share or 0) > 0
  local members, uncut = d.fixed.members, d.uncut
  local by_x, most = {}, 1
  for _, p in ipairs(uncut) do
    by_x[p.x], most = p.M, math.max(most, math.abs(p.M))
  end
  local beside, seen = {}, 0
  for _, p in ipairs(members[2] and members[2].points or {}) do beside[p.x] = p.M end
  for _, p in ipairs(members[1].points) do
    local M = by_x[p.x]
    local at_step = p.x == d.fixed.x1 or p.x == d.fixed.x2
    for _, c in ipairs(review.cuts) do
      at_step = at_step or p.x > c.x1 - 1e-6 and p.x < c.x2 + 1e-6
    end
    if M and not (stepped and at_step) then
      close_abs(p.M + (beside[p.x] or 0), M, 1e-6 * most, what .. ", x = " .. p.x)
      seen = seen + 1
    end
  end
  return seen
end

-- By slip: the member beside the joist is held by its rows and its bearings, under what
-- lies on it over a gap. Its shear steps by each row's force; it ends with no moment.
local function member_in_balance(a, review, what)
  local points = review:diagram().fixed.members[2].points
  local first, last = points[1], points[#points]
  local scale = 1
  for _, s in ipairs(a.stations) do scale = math.max(scale, math.abs(s.full)) end
  close_abs(first.M, 0, 1e-6 * scale * 100, what)
  close_abs(last.M, 0, 1e-6 * scale * 100, what)
  local forces, moment = 0, 0
  for _, s in ipairs(a.stations) do
    local left, right = at(points, s.x)
    close_abs(left.V - right.V, s.full, 1e-6 * scale, what .. ", step at " .. s.name)
    forces, moment = forces + s.full, moment + s.full * (s.x - a.x1)
  end
  return forces, moment, first.V, -last.V, scale
end

local DRAWN = 220

-- Calls f(t, repair, review, a, what) for random repairs that serve.
local function each_repair(seed, count, want, f)
  local r, seen = support.random(seed), {}
  for i = 1, count do
    local t = random_joist.of(r, want)
    local repair = random_joist.fix(r, t, want.repair)
    local a, review = fixed(ns.joist(t), repair)
    if not a.refused then
      f(t, repair, review, a, ("repair %d, %s"):format(i, repair.kind))
      seen[repair.kind] = (seen[repair.kind] or 0) + 1
    else
      refused_well(a, "repair " .. i, "")
    end
  end
  return seen
end

local SIMPLE = {spans = 1, cuts = 1, kinds = {"hole", "notch", "sever", "slot"}}

function T.test_joist_and_repair_carry_what_the_joist_did()
  local points = 0
  local seen = each_repair(31, DRAWN, SIMPLE, function(_, repair, review, _, what)
    if repair.share ~= "worst" and repair.share ~= "new" then
      points = points + together(review, what)
    end
  end)
  lu.assertTrue(points > 2000)
  for _, kind in ipairs {"sister", "side_plates", "strap"} do
    lu.assertTrue((seen[kind] or 0) > 5, kind)
  end
end

-- Sums of forces and of moments about the new member's left end (statics). Where cuts
-- are written off the floor over them lies on it as well: by hand in test_plies.lua.
function T.test_a_member_is_in_balance()
  local tried = 0
  local want = changed(SIMPLE, {kinds = {"hole", "notch"}})
  each_repair(32, DRAWN, want, function(_, repair, review, a, what)
    local slips = repair.kind == "side_plates" or repair.share == "slip"
      or repair.kind == "sister" and repair.bearing ~= true
    if not slips or not a.stations[1] or repair.kind == "strap"
      or repair.share == "new" then
      return
    end
    local forces, moment, R1, R2, scale = member_in_balance(a, review, what)
    local L = a.x2 - a.x1
    close_abs(forces, R1 + R2, 1e-6 * scale, what .. ", forces")
    close_abs(moment, R2 * L, 1e-6 * scale * L, what .. ", moments")
    tried = tried + 1
  end)
  lu.assertTrue(tried > 40)
end

-- The load over a gap is on the sister, and two groups on a side carry it off.
function T.test_a_member_over_a_gap_is_in_balance()
  local r, tried = support.random(33), 0
  for i = 1, 60 do
    local L, w_D, w_L = r:real(120, 200), r:real(5, 20), r:real(20, 60)
    local g1 = L * r:real(0.35, 0.6)
    local g2 = g1 + r:real(0.5, 9)
    local groups = {g1 - r:real(25, 35), g1 - 4, g2 + 4, g2 + r:real(25, 35)}
    local between = r:unit() < 0.5
    local joist = larkspur({ns.sever {from = g1, to = g2}}, {span = L, dead = w_D,
      live = w_L})
    local a, review = fixed(joist, ns.sister {from = groups[1] - 4,
      to = groups[4] + 4, groups = groups, fastener = BOLT,
      gap_load = between and "between groups" or nil})
    lu.assertNil(a.refused)
    local what = "gap " .. i
    local w = (w_D + w_L) * 16 / 144
    local a1, a2 = between and groups[2] or g1, between and groups[3] or g2
    local forces, moment, R1, R2, scale = member_in_balance(a, review, what)
    close_abs(R1, 0, 1e-6 * scale, what)
    close_abs(R2, 0, 1e-6 * scale, what)
    close_abs(forces + w * (a2 - a1), 0, 1e-6 * scale, what)
    close_abs(moment + w * (a2 - a1) * ((a1 + a2) / 2 - a.x1), 0, 1e-4 * scale, what)
    -- Left half of the joist: no moment and no shear at the face of the gap.
    local M_face = w / 2 * L * a1 - w * a1 * a1 / 2
    close_abs(-a.stations[1].full * (a1 - groups[1]) - a.stations[2].full
      * (a1 - groups[2]), M_face, 1e-4 * scale, what .. ", left half")
    tried = tried + 1
  end
  lu.assertEquals(tried, 60)
end

-- Bearings together carry the floor (statics).
function T.test_reactions_are_the_loads()
  for _, lift in ipairs {"none", "unloaded"} do
    for _, share in ipairs {"stiffness", "slip"} do
      local a, review = fixed(larkspur(), ns.sister {fastener = BOLT, share = share,
        lift = lift})
      local members = review:diagram().fixed.members
      local sum = 0
      for _, m in ipairs(members) do
        sum = sum + m.points[1].V - m.points[#m.points].V
      end
      close(sum, 936, 1e-9, share .. ", " .. lift)
      lu.assertNil(a.refused)
    end
  end
end

-------------------------------------------------------------------------- mirror image

-- Two numbers of the same repair from both sides. A tie between two places may be broken
-- either way, so that places are not compared.
local function same_check(k, m, what)
  lu.assertEquals(m.mode, k.mode, what)
  lu.assertEquals(m.member, k.member, what)
  if k.ratio and k.ratio < 1e9 then
    close_abs(m.ratio, k.ratio, 1e-6 * math.max(1, k.ratio), what .. ", " .. k.mode)
  end
end

local function sorted(checks)
  local list = {}
  for i, k in ipairs(checks) do
    list[i] = {k = k, key = ("%s %s %s %.9e"):format(k.mode, k.member, k.cut or 0,
      k.ratio or 0)}
  end
  table.sort(list, function(a, b) return a.key < b.key end)
  for i, entry in ipairs(list) do list[i] = entry.k end
  return list
end

function T.test_mirror_images()
  local tried = 0
  local want = changed(SIMPLE, {overhangs = false})
  each_repair(34, DRAWN, want, function(t, repair, review, a, what)
    for _, c in ipairs(review.cuts) do
      -- A cut wholly past the middle of a bearing belongs to no span.
      if c.x2 <= 0 or c.x1 >= t.spans[1] then return end
    end
    local m = fixed(ns.joist(random_joist.mirrored(t)),
      random_joist.mirrored_fix(t, repair))
    lu.assertNil(m.refused, what)
    close_abs(m.ratio, a.ratio, 1e-6 * math.max(1, a.ratio), what)
    lu.assertEquals(#m.checks, #a.checks, what)
    local mine, other = sorted(a.checks), sorted(m.checks)
    for i, k in ipairs(mine) do same_check(k, other[i], what) end
    for i, s in ipairs(a.stations) do
      local o = m.stations[#m.stations + 1 - i]
      close_abs(o.full, s.full, 1e-5 * math.max(1, math.abs(s.full)), what)
      close_abs(o.most, s.most, 1e-5 * math.max(1, math.abs(s.most)), what)
    end
    tried = tried + 1
  end)
  lu.assertTrue(tried > 50)
end

------------------------------------------------------------------- more, longer, stiffer

-- At a fixed pitch or place, more fasteners: no less capacity, no higher ratio.
function T.test_more_fasteners_never_hurt()
  local capacity, ratio = 0, math.huge
  for n = 1, 12 do
    local groups = {}
    for i, at_x in ipairs {"3-4", "5-10", "6-7", "9-1"} do
      groups[i] = {at = at_x, n = n}
    end
    local a = fixed(larkspur(SEVERED), part_sister {groups = groups, from = "2-8",
      to = "9-9", fastener = SCREW, rated = "150 lb"})
    if not a.refused then
      local k = find(a, "fasteners")
      lu.assertTrue(k.capacity >= capacity and k.ratio <= ratio, "group of " .. n)
      capacity, ratio = k.capacity, k.ratio
    end
  end
  lu.assertTrue(capacity > 1000)
  for _, fastener in ipairs {SCREW, LAG} do
    capacity, ratio = 0, math.huge
    for n = 2, 16, 2 do
      local a = strapped(nil, {n = n, fastener = fastener})
      local k = find(a, "fasteners", "strap")
      lu.assertTrue(k.capacity >= capacity * (1 - 1e-12), "strap, " .. n)
      lu.assertTrue(k.ratio <= ratio * (1 + 1e-12), "strap, " .. n)
      capacity, ratio = k.capacity, k.ratio
    end
  end
end

-- Rows in which each has one more: every row is stiffer, and no fastener does more.
function T.test_more_to_a_row_never_hurt()
  local ratio = math.huge
  for per_row = 1, 5 do
    local a = old_and_new(nil, {lift = "unloaded", pitch = 12, per_row = per_row,
      rated = "100 lb"})
    local k = find(a, "fasteners")
    lu.assertTrue(k.ratio <= ratio + 1e-12, per_row .. " to a row")
    ratio = k.ratio
  end
end

-- The same wood twice on an uncut joist, both on the bearings: each has half (statics).
function T.test_a_twin_halves_the_moment()
  local joist = larkspur()
  local a = fixed(joist, ns.sister {fastener = BOLT, lift = "unloaded"})
  local uncut = joist:review().uncut
  lu.assertEquals(a.share, 0.5)
  close(find(a, "host-bending").demand, uncut.moment / 2, 1e-12)
  close(find(a, "bending", "sister").demand, uncut.moment / 2, 1e-12)
  close(a.deflection.live, uncut.deflection.live / 2, 1e-9)
  close(a.deflection.total, uncut.deflection.total / 2, 1e-9)
end

-- A longer lap lowers the outer forces in proportion; a lap of stiffer groups or wood
-- cannot (two groups on a side are statically determinate).
function T.test_a_longer_lap_lowers_the_forces()
  local before = math.huge
  for lap = 20, 50, 5 do
    local a = fixed(larkspur(SEVERED), part_sister {from = 65 - lap, to = 84 + lap,
      groups = {{at = 70 - lap, n = 4}, {at = 70, n = 4}, {at = 79, n = 4},
        {at = 79 + lap, n = 4}}})
    local F = -station(a, "left outer").full
    lu.assertTrue(F < before, "lap " .. lap)
    before = F
  end
  local soft = fixed(larkspur(SEVERED), part_sister {slip = 5000})
  local stiff = fixed(larkspur(SEVERED), part_sister {slip = 500000})
  for i, s in ipairs(soft.stations) do close(stiff.stations[i].full, s.full, 1e-6) end
end

-- Beside a joist that is whole, a sister on rows of springs: the stiffer the springs, the
-- less the joist keeps.
function T.test_stiffer_rows_share_more()
  local before = math.huge
  for _, slip in ipairs {100, 1000, 10000, 100000, 1e6} do
    local a = old_and_new(nil, {lift = "unloaded", slip = slip, share = "slip"})
    local old = find(a, "host-bending").demand / (2 * 8 ^ 2 / 6)
    -- Between stiff rows the joist keeps what lies on it there: a little up and down.
    lu.assertTrue(old < before * 1.001, "slip " .. slip)
    before = old
  end
  -- In the limit both bend alike: 0.573 of M (statics), rows 6 in apart.
  close(before, 613, 0.01)
end

-- The old joist written off: the sister has all of the moment; by the worst of both, the
-- old one has its part as well.
function T.test_the_old_joist_written_off()
  local a = old_and_new(nil, {lift = "unloaded", share = "new"})
  close(find(a, "bending", "sister").demand / 12, 1901, REL)
  close_abs(find(a, "host-bending").demand, 0, 1e-6)
  local b = old_and_new(nil, {lift = "unloaded", share = "worst"})
  close(find(b, "bending", "sister").demand / 12, 1901, REL)
  close(find(b, "host-bending").demand / 12, 1090, REL)
end

-- All three states of C3 stand side by side, whichever is built.
function T.test_states_of_lifting()
  local a = old_and_new(nil, {lift = ns.prop {at = "6-6", force = "203.125 lb"}})
  local seen = {}
  for _, row in ipairs(a.lifting) do seen[row.lift] = row end
  local S_old, S_new = 2 * 8 ^ 2 / 6, 1.5 * 7.25 ^ 2 / 6
  for lift, psi in pairs {none = {740, 535}, unloaded = {613, 741}, prop = {590, 792}} do
    close(seen[lift].host / S_old, psi[1], REL, lift)
    close(seen[lift].new / S_new, psi[2], REL, lift)
  end
end

-- A plate on edge, by hand from AISC 360-16 (from memory), on S and with C_b = 1:
-- F11, l = L_b d/t^2: up to 0.08 E/F_y yield (the code's Z > S is not used); up to
-- 1.9 E/F_y F_y (1.52 - 0.274 l F_y/E) <= F_y; beyond 1.9 E/l. Its edge by F9.4.
local function plate_stress(t, d, L_b, Cb)
  local Fy, E = 36000, 29e6
  local l, q = L_b * d / t ^ 2, d / t * math.sqrt(Fy / E)
  local side = l <= 0.08 * E / Fy and Fy
    or l <= 1.9 * E / Fy and math.min(Fy, Cb * (1.52 - 0.274 * l * Fy / E) * Fy)
    or math.min(Fy, Cb * 1.9 * E / l)
  local edge = q <= 0.84 and Fy or q <= 1.52 and (1.43 - 0.515 * q) * Fy
    or 1.52 * E / (d / t) ^ 2
  return math.min(side, edge)
end

-- Plates of 1/4 in A36 on both faces, rows 6 in apart, the two within 7D of the notch
-- left out: L_b = 18, l = 2304 and 1.9 E/l. Shear 0.6 F_y A / 1.67 (G from memory).
function T.test_steel_plates()
  local a = fixed(larkspur {ns.notch {face = "bottom", from = "6-6", to = "6-9",
    depth = 2}}, ns.side_plates {from = "4-0", to = "9-6", steel = "A36",
    thickness = "1/4 in", depth = 8, pitch = 6, fastener = BOLT, lift = "unloaded"})
  lu.assertNil(a.refused)
  local capacity = {}
  for _, k in ipairs(a.checks) do
    if k.mode == "steel" then capacity[k.unit] = k.capacity end
  end
  close(capacity["lb-in"], plate_stress(0.25, 8, 18, 1) * 0.5 * 8 ^ 2 / 6 / 1.67, 1e-9)
  close(capacity.lb, 0.6 * 36000 * 0.5 * 8 / 1.67, 1e-9)
end

local function plates_over_sever(thickness, depth, apart)
  local half = apart / 2
  return fixed(larkspur {ns.sever {from = "6-5", to = "6-7"}}, ns.side_plates {
    from = 78 - half - 12, to = 78 + half + 12, steel = "A36", thickness = thickness,
    depth = depth, fastener = BOLT, groups = {{at = 78 - half - 8, n = 3},
      {at = 78 - half, n = 3}, {at = 78 + half, n = 3}, {at = 78 + half + 8, n = 3}}})
end

-- The stress of the steel check is that of its own stretch between rows; thin plates over
-- a gap fail, a thick one stands; thinner or farther apart is never better.
function T.test_plates_buckle_between_rows()
  local function steel(t, d, apart)
    local a = plates_over_sever(t, d, apart)
    lu.assertNil(a.refused)
    local k
    for _, c in ipairs(a.checks) do
      if c.mode == "steel" and c.unit == "lb-in" then k = c end
    end
    close(k.capacity, plate_stress(t, d, value_of(k, "l_u"), value_of(k, "C_m"))
      * 2 * t * d ^ 2 / 6 / 1.67, 1e-6, ("%g x %g at %g"):format(t, d, apart))
    return k.demand / k.capacity, value_of(k, "l_u")
  end
  local thin, l_b = steel(0.0747, 9.25, 30)
  close(l_b, 30, 1e-9)
  lu.assertTrue(thin > 9 and thin < 15, "14 gauge: " .. thin)
  lu.assertTrue(steel(0.1875, 7.25, 30) > 1)
  lu.assertTrue(steel(0.5, 7.25, 30) < 1)
  local last = 0
  for _, t in ipairs {0.5, 0.375, 0.25, 0.1875, 0.125, 0.0747} do
    local ratio = steel(t, 7.25, 30)
    lu.assertTrue(ratio > last, "thinner: " .. t)
    last = ratio
  end
  last = 0
  for _, apart in ipairs {12, 18, 24, 30, 36} do
    local ratio = steel(0.1875, 7.25, apart)
    lu.assertTrue(ratio >= last, "farther: " .. apart)
    last = ratio
  end
end

-- Bolts through plates on both faces are ordered once; lags from both faces are ordered
-- as often as they are placed, none on another.
function T.test_both_faces_are_counted_as_placed()
  local a = plates_over_sever(0.25, 7.25, 12)
  lu.assertEquals(#a.layout, 12)
  lu.assertEquals(a.fasteners[1].count, 12)
  says(a.notes, "double shear")
  local b = fixed(larkspur {ns.notch {face = "bottom", from = "6-6", to = "6-9",
    depth = 2}}, ns.sister {from = "3-0", to = "10-0", side = "both", fastener = LAG,
    groups = {{at = "4-0", n = 4}, {at = "9-0", n = 4}}})
  lu.assertNil(b.refused)
  lu.assertEquals(#b.layout, 16)
  lu.assertEquals(b.fasteners[1].count, 16)
  says(b.notes, "lead holes")
  for i, p in ipairs(b.layout) do
    for j = i + 1, #b.layout do
      local q = b.layout[j]
      lu.assertTrue((p.x - q.x) ^ 2 + (p.h - q.h) ^ 2 > (2.5 * 0.25) ^ 2 - 1e-9)
    end
  end
end

-- 3/8 bolts across the grain of a 1-1/2 in joist between 1/4 in A36 plates, by hand: NDS
-- Table 12.3.1A, double shear, F_em = 6100 G^1.45/sqrt(D), F_es = 87000, F_yb = 45000,
-- K_theta = 1.25. I_m governs with all of the joist's 1.5 in: 410 lb, not twice a shear.
function T.test_one_bolt_through_two_plates()
  local a = fixed(larkspur {ns.sever {from = "6-5", to = "6-7"}}, ns.side_plates {
    from = "4-6", to = "8-6", steel = "A36", thickness = 0.25, depth = 7.25,
    fastener = ns.fastener {kind = "bolt", diameter = "3/8 in"},
    groups = {{at = "5-0", n = 3}, {at = "6-0", n = 3}, {at = "7-0", n = 3},
      {at = "8-0", n = 3}}})
  local D, l_m, l_s, F_es, F_yb, K = 0.375, 1.5, 0.25, 87000, 45000, 1.25
  local F_em = 6100 * 0.5 ^ 1.45 / math.sqrt(D)
  local R_e = F_em / F_es
  local k_3 = -1 + math.sqrt(2 * (1 + R_e) / R_e
    + 2 * F_yb * (2 + R_e) * D ^ 2 / (3 * F_em * l_s ^ 2))
  local Z = math.min(D * l_m * F_em / (4 * K), 2 * D * l_s * F_es / (4 * K),
    2 * k_3 * D * l_s * F_em / ((2 + R_e) * 3.2 * K),
    2 * D ^ 2 / (3.2 * K) * math.sqrt(2 * F_em * F_yb / (3 * (1 + R_e))))
  close(value_of(find(a, "fasteners"), "Z"), Z, 1e-3)
  -- C_z is C_g here, by hand in test_fastener_places.
  close(find(a, "fasteners").capacity, 3 * Z * value_of(find(a, "fasteners"), "C_z"),
    1e-3)
  lu.assertEquals(a.fasteners[1].count, 12)
end

-- Dead load lifted off first acts on both with the live load: the sum of the two alone.
function T.test_unloaded_is_the_sum_of_both()
  local sister = {share = "slip", lift = "unloaded"}
  local both = select(2, old_and_new(nil, sister))
  local dead = select(2, old_and_new({live = 0}, sister))
  local live = select(2, old_and_new({dead = 0}, sister))
  for member = 1, 2 do
    local function points(review) return review:diagram().fixed.members[member].points end
    local D, L = points(dead), points(live)
    for i, p in ipairs(points(both)) do
      close_abs(p.M, D[i].M + L[i].M, 1e-3, "x = " .. p.x)
      close_abs(p.V, D[i].V + L[i].V, 1e-5, "x = " .. p.x)
    end
  end
end

-- A gap closes: forces go to those of a cut of no width, in even steps.
function T.test_a_gap_that_shrinks()
  local function forces(width)
    local a = fixed(larkspur {ns.sever {from = 74 - width / 2, to = 74 + width / 2}},
      part_sister {})
    local list = {a.ratio, a.deflection.live}
    for _, s in ipairs(a.stations) do list[#list + 1] = s.full end
    return list
  end
  local closed = forces(0.001)
  for _, width in ipairs {0.01, 0.1, 1} do
    for i, x in ipairs(forces(width)) do
      close_abs(x, closed[i], 0.02 * width * math.max(1, math.abs(closed[i])),
        ("width %g, value %d"):format(width, i))
    end
  end
end

-- A member and its rows a hair longer or further along: a hair's change.
function T.test_results_are_continuous()
  local function ratio(to)
    local a = fixed(larkspur {ns.notch {face = "bottom", from = "6-0", to = "6-4",
      depth = 2}}, ns.sister {from = "3-0", to = to, fastener = BOLT,
      groups = {"3-4", "4-6", "8-6", to - 5}})
    return a.ratio, a.deflection.live
  end
  for to = 112, 130, 3 do
    local r1, y1 = ratio(to)
    local r2, y2 = ratio(to + 1e-4)
    close_abs(r2, r1, 1e-4)
    close_abs(y2, y1, 1e-5)
  end
end

--------------------------------------------------------------------------- vocabulary

local MODES = {}
for mode in ([[bending shear bearing deflection-live deflection-total net-bending
  net-shear notch-shear opening-frame fasteners steel wood-compression host-bending
  host-shear
  neighbour connection-shear lip-tension chord-alone uplift stability withdrawal]])
  :gmatch "%S+" do
  MODES[mode] = true
end
local MEMBERS = {host = true, sister = true, plates = true, strap = true}

local function speaks_the_trade(k, what)
  lu.assertTrue(MODES[k.mode], what .. ": mode " .. tostring(k.mode))
  lu.assertTrue(MEMBERS[k.member], what .. ": member " .. tostring(k.member))
  for _, field in ipairs {"unit", "clause", "combination"} do
    lu.assertIsString(k[field], what .. ", " .. k.mode .. ": " .. field)
  end
  if k.mode ~= "uplift" then
    lu.assertTrue(k.ratio >= 0 and k.ratio == k.ratio, what .. ", " .. k.mode)
  end
  lu.assertTrue(#k.steps > 0, what .. ", " .. k.mode)
end

-- Every assessment has the lists that a report reads; its worst binding check governs.
local function is_whole(a, what)
  for _, name in ipairs {"checks", "reactions", "pieces", "fasteners", "layout",
    "stations", "forces", "neighbours", "sequence", "cautions", "notes"} do
    lu.assertIsTable(a[name], what .. ": " .. name)
  end
  lu.assertTrue(#a.pieces > 0 and #a.fasteners > 0 and #a.sequence > 3, what)
  local most = 0
  for _, k in ipairs(a.checks) do
    speaks_the_trade(k, what)
    if k.binding and k.ratio then most = math.max(most, k.ratio) end
  end
  lu.assertEquals(a.ratio, most, what)
  lu.assertEquals(a.governing, a.governing_check.mode, what)
  if a.status ~= "not permitted" then
    lu.assertEquals(a.status, most > 1 + 1e-9 and "overstressed" or "adequate", what)
  end
end

-- Every fastener stands in the joist and in its piece, outside of what was cut away.
local function stands_well(a, review, what)
  local d = review.joist.model.d
  local count = 0
  for _, p in ipairs(a.layout) do
    local piece = a.pieces[p.piece]
    lu.assertTrue(p.x >= piece.x1 - 1e-9 and p.x <= piece.x2 + 1e-9, what)
    lu.assertTrue(p.h >= -1e-9 and p.h <= d + 1e-9, what)
    for i, c in ipairs(review.cuts) do
      local gap = review.joist.model.cuts[i].kind == "sever"
      lu.assertFalse(gap and p.x > c.x1 and p.x < c.x2, what .. ": in the gap")
    end
    count = count + 1
  end
  lu.assertTrue(count > 0, what)
end

function T.test_every_repair_is_whole()
  local want = {spans = 1, cuts = 2}
  local seen = each_repair(35, DRAWN, want, function(_, _, review, a, what)
    is_whole(a, what)
    stands_well(a, review, what)
    local text = ns.report.text(review):gsub("%s+", " ")
    lu.assertNotNil(text:find(a.title, 1, true), what)
  end)
  lu.assertTrue((seen.sister or 0) > 10 and (seen.side_plates or 0) > 10)
end

-- The first two states do not know of the repair; the action is theirs alone.
function T.test_the_other_states_stay()
  each_repair(36, 60, {cuts = 2}, function(t, _, review, _, what)
    local plain = ns.joist(t):review()
    lu.assertEquals(review.action, plain.action, what)
    for _, state in ipairs {"uncut", "cut"} do
      lu.assertEquals(review[state].ratio, plain[state].ratio, what)
      lu.assertEquals(#review[state].checks, #plain[state].checks, what)
    end
  end)
end

return T
