-- SPDX-License-Identifier: MIT
-- A joist of several plies: which of them the fasteners of a repair reach. Values by
-- hand in the form of a textbook; clauses are those of NDS 2018; 0.1 % unless a line
-- says else.
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local close = support.close
local T = {}

local REL = 1e-3

-- Douglas Fir-Larch No.2 as given (NDS Supplement Table 4A).
local DFL = {Fb = 900, CF = 1.1, Fv = 180, E = 1.6e6, Ft = 575, Fc = 1350,
  Fc_perp = 625, Emin = 580000, G = 0.5}

local function joist(changes)
  local t = {mark = "J6", size = "2x10", material = DFL, span = "13-6", spacing = 16,
    bearing = 3.5, dead = 12, live = 40}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.joist(t)
end

local function lag(length)
  return ns.fastener {kind = "lag screw", diameter = "1/4 in", length = length}
end

local BOLT = ns.fastener {kind = "bolt", diameter = "1/2 in"}
local SEVER = ns.sever {from = "6-0", to = "6-5"}
local GROUPS = {{at = "3-4", n = 4}, {at = "5-10", n = 4}, {at = "6-7", n = 4},
  {at = "9-1", n = 4}}

-- A sister over the gap, all load between its inner groups on it.
local function sistered(j, changes)
  local t = {from = "3-0", to = "9-5", bearing = false, groups = GROUPS,
    gap_load = "between groups", fastener = lag "3 in"}
  for name, value in pairs(changes or {}) do t[name] = value end
  return j:fix(ns.sister(t)):review().fixed
end

local function find(a, mode, member)
  for _, k in ipairs(a.checks) do
    if k.mode == mode and k.member == member then return k end
  end
  error("no " .. mode .. " of the " .. member)
end

local function says(list, piece)
  for _, text in ipairs(list) do
    if text:find(piece, 1, true) then return true end
  end
  return false
end

local function station_force(a, i)
  return math.max(math.abs(a.stations[i].most), math.abs(a.stations[i].least))
end

-- NDS 3.4.3.3 within 5d of an end, the face of the gap: 2/3 Fv b d_e (d_e/d)^2; d_e from
-- the places in the layout: up on the joist at an inner group, from its lower edge to
-- the highest one there, or from the upper edge to the lowest.
local function least_crossing(a, b)
  local low, high = math.huge, -math.huge
  for _, p in ipairs(a.layout) do low, high = math.min(low, p.h), math.max(high, p.h) end
  local d_e = math.min(high, 9.25 - low)
  return 2 / 3 * 180 * b * d_e * (d_e / 9.25) ^ 2
end

-- Three plies and a 3 in lag through a 1-1/2 in sister: it ends in the first ply. The
-- force of the right inner group is statics: F_i = M(x_i)/a + V = 643.0 lb at 16 in, by
-- 36/16 at 36 in.
function T.test_lags_that_end_in_the_first_ply_load_one_ply()
  local a = sistered(joist {plies = 3, spacing = 36, cuts = {SEVER}})
  local k = find(a, "connection-shear", "host")
  close(k.demand, 643.0 * 36 / 16, REL)
  close(k.capacity, least_crossing(a, 1.5), REL)
  close(k.ratio, 643.0 * 36 / 16 / least_crossing(a, 1.5), REL)
  lu.assertTrue(k.ratio > 1 and k.ratio / 3 < 0.5) -- 0.4 were all three counted
  lu.assertEquals(a.status, "overstressed")
  lu.assertTrue(says(a.cautions, "reach 1 of 3 plies"))
end

-- A lag of 6 in goes 4-1/2 in into the joist: all three plies.
function T.test_the_plies_counted_are_those_the_length_gives()
  for length, n in pairs {["3 in"] = 1, ["4 in"] = 1, ["4-1/2 in"] = 2, ["5-1/2 in"] = 2,
    ["6 in"] = 3} do
    local a = sistered(joist {plies = 3, cuts = {SEVER}}, {fastener = lag(length)})
    close(find(a, "connection-shear", "host").capacity, least_crossing(a, n * 1.5), REL,
      length)
    lu.assertEquals(says(a.cautions, ("reach %d of 3 plies"):format(n)), n < 3)
    lu.assertEquals(says(a.notes, "go through all 3 plies"), n == 3)
  end
end

function T.test_a_bolt_goes_through_all_plies()
  local a = sistered(joist {plies = 3, cuts = {SEVER}}, {fastener = BOLT})
  close(find(a, "connection-shear", "host").capacity, least_crossing(a, 4.5), REL)
end

-- From both faces each set reaches its own plies: 3 in lags the outer two of three.
function T.test_from_both_faces_each_set_reaches_its_own_plies()
  for plies, n in pairs {[2] = 2, [3] = 2, [4] = 2} do
    local a = sistered(joist {plies = plies, cuts = {SEVER}}, {side = "both"})
    close(find(a, "connection-shear", "host").capacity, least_crossing(a, n * 1.5), REL)
  end
end

-- One ply, and the sister's own two plies, count as before.
function T.test_one_ply_is_as_before_and_the_sister_counts_whole()
  local a = sistered(joist {cuts = {SEVER}})
  close(find(a, "connection-shear", "host").capacity, least_crossing(a, 1.5), REL)
  lu.assertFalse(says(a.cautions, "plies"))
  a = sistered(joist {plies = 2, cuts = {SEVER}}, {plies = 2, fastener = lag "4-1/2 in"})
  close(find(a, "connection-shear", "host").capacity, least_crossing(a, 1.5), REL)
  close(find(a, "connection-shear", "sister").capacity, least_crossing(a, 3), REL)
end

-- Steel plates: what is left of the length past the plate.
function T.test_plates_past_their_own_thickness()
  local a = joist({plies = 2, cuts = {ns.notch {face = "bottom", from = "6-0", to = "6-3",
    depth = 2}}}):fix(ns.side_plates {from = "3-0", to = "9-5", depth = 7.25,
    thickness = 0.25, steel = "A36", side = "right", groups = GROUPS,
    fastener = lag "3 in"}):review().fixed
  local k = find(a, "connection-shear", "host")
  lu.assertTrue(says(a.cautions, "reach 1 of 2 plies"))
  local wide = joist({plies = 2, cuts = {ns.notch {face = "bottom", from = "6-0",
    to = "6-3", depth = 2}}}):fix(ns.side_plates {from = "3-0", to = "9-5", depth = 7.25,
    thickness = 0.25, steel = "A36", side = "right", groups = GROUPS,
    fastener = lag "3-1/2 in"}):review().fixed
  close(find(wide, "connection-shear", "host").capacity, 2 * k.capacity, 1e-9)
end

-- The end sister of a lost bearing: as its groups, whose forces are statics (by hand
-- F_i 599.6, F_o 344.0 lb at 29 and 56 in, 2x10, 144 in, 66.67 plf).
function T.test_end_sister_loads_the_plies_it_reaches()
  local function of(plies, length)
    return ns.joist({mark = "J1", size = "2x10", plies = plies, material = DFL,
      span = 144, spacing = 16, bearing = 3.5, dead = 10, live = 40, cuts = {
        ns.lost_bearing {support = "left", to = "1-2", cause = "rot"}}})
      :fix(ns.end_sister {support = "left", to = 60, fastener = lag(length),
        groups = {{at = 29, n = 4}, {at = 56, n = 4}}, hanger = {capacity = "900 lb"}})
      :review().fixed
  end
  local one, two, through = of(1, "3 in"), of(2, "3 in"), of(2, "4-1/2 in")
  for i, k in ipairs(one.checks) do
    if k.mode == "connection-shear" then
      close(two.checks[i].capacity, k.capacity, 1e-9)
      close(through.checks[i].capacity, (k.member == "host" and 2 or 1) * k.capacity,
        1e-9)
    end
  end
  lu.assertTrue(says(two.cautions, "reach 1 of 2 plies"))
end

------------------------------------------------------------------------- cut in one ply

local NAILS = ns.fastener {kind = "nail", size = "16d"}

local function fastened(n, fastener, rows)
  return {n = n, fastener = fastener or NAILS, spacing = 16, rows = rows or 2}
end

local function of_mode(a, mode, name)
  for _, k in ipairs(a.checks) do
    if k.mode == mode and (name == nil or k.name == name) then return k end
  end
  error(("no %s, %s"):format(mode, tostring(name)))
end

-- Live load with which M at midspan of 13-6 is 3000 ft-lb, w L^2/8, at 16 in.
local LIVE_3000 = 3000 * 8 / 13.5 ^ 2 * 12 / 16 - 12

-- Same curvature, M_k = M EI_k / sum EI: 2x10, 4 in hole with 1-1/2 in below in one ply,
-- I 77.552 and 98.932 in4. By hand: two plies 0.4394, 1118.3 psi, sound ply 943.4, with
-- the ply off 1683.0 psi; three plies 716.6 and 604.5 psi.
function T.test_a_hole_in_one_ply_shares_by_stiffness()
  local hole = ns.hole {at = "6-9", diameter = 4, below = 1.5, ply = 1}
  local S = 1.5 * 9.25 ^ 2 / 6
  for n, by_hand in pairs {[2] = {1118.3, 943.4}, [3] = {716.6, 604.5}} do
    local r = joist {live = LIVE_3000, plies = fastened(n), cuts = {hole}}:review()
    close(r:find("cut", "net-bending", 1).demand, by_hand[1], REL)
    close(of_mode(r.cut, "bending", "hole 1, a sound ply").demand / S, by_hand[2], REL)
    local off = of_mode(r.cut, "bending", "ply 1 off")
    close(off.demand / (n - 1) / S, 3000 * 12 / (n - 1) / S, REL)
    if n == 2 then
      close(off.demand / S, 1683.0, REL)
      close(r.cut.ratio, 1683.0 / 990, REL) -- F_b' = 900 x 1.1, Cr 1.0: the worse decides
      lu.assertEquals(r.action, "repair")
    end
  end
end

-- Not fastened: the cut ply carries its part w/n on its own section.
function T.test_plies_that_are_not_fastened_do_not_share()
  local r = joist {live = LIVE_3000, plies = 2, cuts = {ns.hole {at = "6-9", diameter = 4,
    below = 1.5, ply = 2}}}:review()
  close(r:find("cut", "net-bending", 1).demand, 1500 * 12 * 5.482 / 77.552, REL)
  lu.assertTrue(says(r.cautions, "not said to be fastened to each other"))
  lu.assertEquals(r:find("cut", "net-bending", 1).name, "hole 1, ply 2")
end

-- A cut within the rules leaves the ply counted: 'off' is said, and does not decide.
function T.test_a_small_hole_within_the_rules_does_not_take_the_ply_off()
  local r = joist {plies = fastened(2), cuts = {ns.hole {at = "6-9", diameter = 1,
    ply = 1}}}:review()
  lu.assertEquals(r.action, "leave")
  lu.assertTrue(r.cut.ratio < 0.45) -- whole: 1579.5/4058.8 = 0.389
  lu.assertTrue(says(r.reasons, "with it off the others 0.90, shown"))
  local outside = joist {plies = fastened(2), cuts = {ns.hole {at = "6-9", diameter = 1,
    below = 1, ply = 1}}}:review()
  close(outside.cut.ratio, 1579.5 / 1764.7, REL)
end

-- Severed: off everywhere. By hand 69.333 plf on the pair, sound ply 1579.5/1764.7 =
-- 0.895; at 120 plf 1.549. It passes w/2 = 34.67 plf; fasteners of 118 lb: 40.8 in.
function T.test_a_severed_ply_leaves_its_load_to_the_other()
  local rated = ns.fastener {kind = "nail", size = "16d", rated = "118 lb"}
  for _, cut in ipairs {ns.sever {at = "6-0", ply = 1},
    ns.sever {from = "6-0", to = "6-5", ply = 2}} do
    local r = joist {plies = fastened(2, rated, 1), cuts = {cut}}:review()
    close(r.cut.ratio, 0.895, REL)
    lu.assertEquals(r.action, "repair")
    lu.assertNil(r.out)
    lu.assertEquals(r.cut.Cr, 1)
    local k = of_mode(r.cut, "fasteners")
    close(k.demand, 34.667 * 16 / 12, REL)
    close(k.ratio, 16 / 40.84, REL)
  end
  local heavy = joist {plies = fastened(2), spacing = 120 / 52 * 12, cuts = {ns.sever {
    at = "6-0", ply = 1}}}:review()
  close(heavy.cut.ratio, 1.549, REL)
  lu.assertEquals(heavy.cut.status, "not permitted")
end

-- An outer ply of three passes w/3 through the first plane; a middle one w/6 to each
-- side.
function T.test_what_crosses_between_plies()
  for k, part in pairs {1 / 3, 1 / 6, 1 / 3} do
    local cut = ns.sever {at = "6-0", ply = k}
    local r = joist {plies = fastened(3), cuts = {cut}}:review()
    close(of_mode(r.cut, "fasteners").demand, 69.3333 * part * 16 / 12, REL)
    close(of_mode(r.cut, "bending").ratio, 1579.5 / (2 * 1764.7), REL) -- two plies, Cr 1
  end
end

-- Four plies, one severed: three sound ones keep the repetitive factor.
function T.test_three_sound_plies_keep_the_repetitive_factor()
  local r = joist {plies = fastened(4), cuts = {ns.sever {at = "6-0", ply = 1}}}:review()
  close(of_mode(r.cut, "bending").ratio, 1579.5 / (3 * 1764.7 * 1.15), REL)
end

function T.test_all_plies_severed_is_a_joist_cut_through()
  local r = joist {plies = fastened(2), cuts = {ns.sever {at = "4-0", ply = 1},
    ns.sever {at = "9-0", ply = 2}}}:review()
  lu.assertNil(r.cut.ratio)
  lu.assertEquals(r.out, "cut through")
end

-- More load, never a lower ratio; a deeper cut neither; the ply's number changes nothing.
function T.test_more_load_and_deeper_cuts_are_never_better()
  local last = 0
  for live = 10, 100, 10 do
    local r = joist {live = live, plies = fastened(3), cuts = {ns.notch {face = "bottom",
      from = "2-0", to = "2-3", depth = 1.5, ply = 2}}}:review()
    lu.assertTrue(r.cut.ratio >= last)
    last = r.cut.ratio
  end
  for _, plies in ipairs {fastened(2), fastened(3), 2} do
    last = 0
    for depth = 0.25, 6, 0.25 do
      local r = joist {plies = plies, cuts = {ns.notch {face = "bottom", from = "3-0",
        to = "3-3", depth = depth, ply = 1}}}:review()
      lu.assertTrue(r.cut.ratio >= last - 1e-9, depth)
      last = r.cut.ratio
      local other = joist {plies = plies, cuts = {ns.notch {face = "bottom", from = "3-0",
        to = "3-3", depth = depth, ply = 2}}}:review()
      close(other.cut.ratio, r.cut.ratio, 1e-12)
    end
  end
end

-- An end notch: its ply stands on the seat by itself with R/n (NDS 3.4.3.2(a)): two
-- plies, R 234 lb each, 2/3 x 180 x 1.5 x 7 x (7/9.25)^2.
function T.test_an_end_notch_in_one_ply_has_its_part_of_the_reaction()
  local r = joist {plies = fastened(2), cuts = {ns.end_notch {support = "left",
    face = "bottom", depth = 2.25, ply = 1}}}:review()
  local k = r:find("cut", "notch-shear", 1)
  close(k.demand, 234, REL)
  close(k.capacity, 2 / 3 * 180 * 1.5 * 7 * (7 / 9.25) ^ 2, REL)
  lu.assertEquals(r.action, "leave")
end

-- A sweep is the review of each point.
function T.test_a_sweep_of_it_is_its_reviews()
  local j = joist {plies = fastened(2), cuts = {ns.sever {at = "6-0", ply = 1}}}
  local s = ns.sweep {joist = j, over = {spacing = {12, 16, 24}}, values = {"cut.ratio",
    "action"}}
  local seen = 0
  for row in s:rows() do
    close(row["cut.ratio"], j:with {spacing = row.spacing}:review().cut.ratio, 1e-12)
    lu.assertEquals(row.action, "repair")
    seen = seen + 1
  end
  lu.assertEquals(seen, 3)
end

function T.test_what_is_not_worked_is_refused_by_name()
  local j = joist {plies = 2, cuts = {ns.hole {at = "6-9", diameter = 1, ply = 1}}}
  for _, ask in ipairs {function() return j:longest_span() end,
    function() return j:largest {cut = "hole", at = "3-0"} end,
    function() return j:sensitivity {} end} do
    local found, why = ask()
    lu.assertNil(found)
    lu.assertStrContains(why, "a cut in one ply")
  end
  local a = j:fix(ns.sister {fastener = BOLT}):review().fixed
  lu.assertTrue(says(a.notes, "as if every ply were cut"))
end

function T.test_bad_plies_are_told_by_name()
  for _, row in ipairs {
    {{plies = {n = 2, spacing = 16}}, "plies.fastener"},
    {{plies = {n = 2, fastener = NAILS}}, "plies.spacing"},
    {{plies = {fastener = NAILS, spacing = 16}}, "plies.n"},
    {{plies = {n = 1, fastener = NAILS, spacing = 16}}, "plies.n"},
    {{plies = {n = 2, fastener = NAILS, spacing = 16, glue = 1}}, "plies.glue"},
    {{cuts = {ns.sever {at = "6-0", ply = 1}}}, "the joist has one ply"},
    {{plies = 2, cuts = {ns.sever {at = "6-0", ply = 3}}}, "ply"},
    {{plies = 2, cuts = {ns.sever {at = "6-0", from = "6-0", to = "6-1"}}},
      "not both"}} do
    support.raises(row[2], joist, row[1])
  end
  support.raises("ply", ns.lost_bearing, {support = "left", to = 20, ply = 1})
  support.raises("leaves no wood of ply 2", joist, {plies = 2, cuts = {ns.loss {from = 1,
    to = 2, sides = 0.75, ply = 2}}})
end

-- 2x10 of two, 69.333 plf, M(81) 18,954 lb-in. Fastened plies bend alike: f = M c/sum I
-- with each ply's own c. Char of 1 in of the bottom: I 1.5 x 8.25^3/12 = 70.19, sum
-- 169.12; by hand 462.3 and 518.3 psi. 1/4 in off each side: I 65.95, sum 164.89;
-- 531.7 psi in both. Split 4 in down from 24 to 60: 1.5 (4^3 + 5.25^3)/12 = 26.09,
-- M(60) 17,680; 371.2 psi; a sound ply 654.1.
function T.test_losses_and_splits_in_one_ply_share_by_stiffness()
  local S = 1.5 * 9.25 ^ 2 / 6
  for _, row in ipairs {
    {ns.loss {from = "5-0", to = "8-0", bottom = 1, cause = "char", ply = 1}, "loss 1",
      462.3, 518.3},
    {ns.loss {from = "5-0", to = "8-0", sides = 0.25, cause = "char", ply = 1}, "loss 1",
      531.7, 531.7},
    {ns.split {from = "2-0", to = "5-0", at_depth = 4, ply = 1}, "split 1", 371.2,
      654.1}} do
    local r = joist {plies = fastened(2), cuts = {row[1]}}:review()
    close(r:find("cut", "net-bending", 1).demand, row[3], REL)
    close(of_mode(r.cut, "bending", row[2] .. ", a sound ply").demand / S, row[4], REL)
    close(r.cut.ratio, 1579.5 / 1764.7, REL) -- with the ply off: the worse decides
    lu.assertEquals(r.action, "justify")
  end
end

-- Not fastened: half of M on 1.5 x 8.25^2/6.
function T.test_a_loss_in_a_ply_that_is_not_fastened()
  local r = joist {plies = 2, cuts = {ns.loss {from = "5-0", to = "8-0", bottom = 1,
    cause = "char", ply = 2}}}:review()
  close(r:find("cut", "net-bending", 1).demand, 18954 / 2 / (1.5 * 8.25 ^ 2 / 6), REL)
end

-- Three plies that have lost 1 in off both sides of the whole: a ply by itself would have
-- nothing left, but one with no seat is off as before, and the other two bend at the loss
-- with 3 - 2 x 1 = 1 in of width: M = w L^2/8 = 18954 in-lb over 990 x 1 x 9.25^2/6.
function T.test_a_ply_with_no_seat_beside_wood_lost_off_all()
  local r = joist {plies = fastened(3), cuts = {ns.loss {from = "6-6", to = "7-0",
    sides = 1, cause = "insects", allowance = 0}, ns.loss {from = -1.75, to = 2,
    bottom = 1, cause = "rot", ply = 1}}}:review()
  lu.assertTrue(says(r.reasons, "ply 1 of 3 has no sound seat at a bearing"))
  close(of_mode(r.cut, "net-bending").ratio, 18954 / (990 * 9.25 ^ 2 / 6), REL)
end

-- By a bearing a ply stands on its own seat with R/n = 234 lb: 3/4 in of seat left, 208
-- psi of 625; shear 1.5 x 234/(1.5 x 8.25) = 28.4 psi of 180, and NDS 3.4.3.2(a) 2/3 x
-- 180 x 1.5 x 8.25 x (8.25/9.25)^2; the other's seat is whole.
function T.test_a_loss_over_a_bearing_is_that_of_its_ply()
  for _, right in ipairs {false, true} do
    local r = joist {plies = fastened(2), cuts = {ns.loss {from = -1.75, to = 1,
      bottom = 1, cause = "rot", ply = 1, from_right = right}}}:review()
    close(of_mode(r.cut, "bearing", "ply 1, support").ratio, 234 / (1.5 * 0.75) / 625,
      REL)
    close(of_mode(r.cut, "bearing").ratio, 468 / (3 * 3.5) / 625, REL)
    close(r:find("cut", "net-shear", 1).ratio, 1.5 * 234 / (1.5 * 8.25) / 180, REL)
    close(r:find("cut", "notch-shear", 1).ratio,
      234 / (2 / 3 * 180 * 1.5 * 8.25 * (8.25 / 9.25) ^ 2), REL)
    lu.assertNil(r.out)
    lu.assertEquals(r.seat[right and 2 or 1], 3.5)
    lu.assertEquals(#r.rules.breaches, 1) -- 3/4 in of 1-1/2 (R502.6)
  end
end

-- No seat left: the ply counts as one cut through.
function T.test_a_ply_with_no_seat_is_off()
  local rated = ns.fastener {kind = "nail", size = "16d", rated = "118 lb"}
  local r = joist {plies = fastened(2, rated, 1), cuts = {ns.loss {from = -1.75, to = 2,
    bottom = 1, cause = "rot", ply = 1}}}:review()
  close(r.cut.ratio, 1579.5 / 1764.7, REL)
  close(of_mode(r.cut, "fasteners").ratio, 16 / 40.84, REL)
  lu.assertEquals(r.action, "repair")
  lu.assertEquals(r.cut.status, "not permitted")
  lu.assertTrue(says(r.reasons, "ply 1 of 2 has no sound seat at a bearing"))
  -- a repair takes every ply to have no seat there, so a sister leaves it on nothing
  local why = r.joist:fix(ns.sister {fastener = BOLT}):review().fixed.refused
  lu.assertStrContains(why, "no sound seat at the left bearing")
  local both = joist {plies = fastened(2), cuts = {ns.loss {from = -1.75, to = 2,
    bottom = 1, cause = "rot", ply = 1}, ns.sever {at = "9-0", ply = 2}}}:review()
  lu.assertNil(both.cut.ratio)
end

-- Sag with 1/4 in off each side of one of two plies all along, taken off both: EI of 3 -
-- 2 x 0.5 in, cautious, and said.
function T.test_sag_with_a_thinned_ply()
  local r = joist {plies = fastened(2), cuts = {ns.loss {from = -1.75, to = 163.75,
    sides = 0.25, cause = "char", ply = 1}}}:review()
  local I = 2 * 9.25 ^ 3 / 12
  close(of_mode(r.cut, "deflection-live").demand,
    5 * (40 * 16 / 144) * 162 ^ 4 / (384 * 1.6e6 * I), REL)
  lu.assertTrue(says(r.assumptions, "what one ply lost gone from all of them"))
end

-- P/n of a point load on each ply: 300 lb on two, 150 passes, with 34.667 plf over the
-- fasteners within 9-1/4 in each way. One column of 118 lb at 16 in; four at 4 in.
-- Two loads that share them are one of their sum; an outer ply of three passes P/3.
function T.test_point_loads_between_plies()
  local rated = ns.fastener {kind = "nail", size = "16d", rated = "118 lb"}
  local cut = {ns.sever {at = "6-0", ply = 1}}
  local function of(plies, ...)
    local r = joist {plies = plies, cuts = cut, loads = {...}}:review()
    return of_mode(r.cut, "fasteners", "between plies, point load 1"), r
  end
  local function P(load, at) return ns.point {at = at or "5-0", load = load} end
  local wide = fastened(2, rated, 1)
  local k, r = of(wide, P(300))
  close(k.demand, 150 + 34.667 * 16 / 12, REL)
  close(k.ratio, (150 + 34.667 * 16 / 12) / 118, REL)
  close(r.cut.ratio, k.ratio, REL)
  -- 300 + 46.2 lb on one fastener of 118 lb
  lu.assertTrue(says(r.assumptions, "300 lb would pass: fasteners 2.93"))
  local tight = {n = 2, fastener = rated, spacing = 4, rows = 2}
  close(of(tight, P(300)).ratio, (150 + 34.667 * 16 / 12) / (8 * 118), REL)
  close(of(wide, P(100), P(200, "6-0")).demand, k.demand, 1e-9)
  close(of(wide, P(300), P(200, "9-0")).demand, k.demand, 1e-9)
  close(of(fastened(3, rated, 1), P(300)).demand, 100 + 69.3333 / 3 * 16 / 12, REL)
  local last = 0
  for load = 0, 1000, 100 do
    local _, one = of(wide, P(load))
    lu.assertTrue(one.cut.ratio >= last)
    last = one.cut.ratio
  end
end

-- A larger loss is never better; one of nothing is none; which ply does not matter.
function T.test_larger_losses_in_one_ply_are_never_better()
  local bare = {[2] = joist({plies = fastened(2)}):review().uncut.ratio,
    [3] = joist({plies = fastened(3)}):review().uncut.ratio}
  for n = 2, 3 do
    for _, face in ipairs {"bottom", "top", "sides"} do
      local last = bare[n]
      for depth = 0, face == "sides" and 0.7 or 8, face == "sides" and 0.05 or 0.5 do
        local function of(k)
          return joist {plies = fastened(n), cuts = {ns.loss {from = "1-0", to = "8-0",
            [face] = depth, cause = "char", ply = k}}}:review()
        end
        local r = of(1)
        lu.assertTrue(r.cut.ratio >= last - 1e-9, face .. depth)
        last = r.cut.ratio
        close(of(2).cut.ratio, last, 1e-12)
        if depth == 0 then close(last, bare[n], 1e-9) end
      end
    end
  end
end

-- A hole where the same ply is charred: at least what each gives by itself.
function T.test_a_hole_in_a_charred_ply()
  local hole = ns.hole {at = "6-0", diameter = 2, below = 3, ply = 1}
  local char = ns.loss {from = "5-0", to = "8-0", bottom = 1, cause = "char", ply = 1}
  local function of(...)
    return joist {plies = fastened(3), cuts = {...}}:review()
  end
  local both, alone = of(hole, char), of(hole)
  lu.assertTrue(both:find("cut", "net-bending", 1).ratio
    > alone:find("cut", "net-bending", 1).ratio)
  lu.assertTrue(both.cut.ratio >= of(char).cut.ratio - 1e-12)
end

-- A kerf is a gap of no length: M and V of the place, and a repair as over any gap.
function T.test_a_kerf_is_a_cut_through_of_no_length()
  for _, kerf in ipairs {ns.sever {at = "6-0"}, ns.sever {from = "6-0", to = "6-0"},
    ns.sever {at = "7-6", from_right = true}} do
    local r = joist {cuts = {kerf}}:review()
    lu.assertEquals(r.action, "repair")
    lu.assertNil(r.cut.ratio)
    lu.assertEquals(r.out, "cut through")
    close(r.cuts[1].M_most, 69.3333 * 6 * 7.5 / 2 * 12, REL) -- w x (L - x)/2
    lu.assertEquals(r.cuts[1].label, "cut through by a saw kerf")
    local a = sistered(joist {cuts = {kerf}}, {groups = {{at = "3-4", n = 4},
      {at = "5-9", n = 4}, {at = "6-3", n = 4}, {at = "9-1", n = 4}}})
    -- F_i = M(x_i)/a + V at 6-3, a = 34 in: 69.333 x 6.25 x 7.25/2 x 12/34 + 34.67
    close(station_force(a, 3), 69.3333 * 6.25 * 7.25 / 2 * 12 / 34 + 69.3333 * 0.5, REL)
  end
end

--------------------------------------------------------------------- cuts written off

local NOTCH = ns.notch {face = "bottom", from = "6-0", to = "6-5", depth = 3}

-- share = "new" on a part-length sister: the notch counts as cut through. By hand, a 30
-- in, F_o = M(x_i)/a, left F_i = F_o - V, right F_i = F_o + V: 620.1/556.6, 631.4/643.0
-- lb; joist at the outer groups 1174.8/1390.8 ft-lb, sister 18942/21177 lb-in.
function T.test_a_notch_written_off_is_a_gap()
  local a = joist {cuts = {NOTCH}}:fix(ns.sister {from = "3-0", to = "9-5",
    bearing = false, groups = GROUPS, fastener = BOLT, share = "new"}):review().fixed
  local by_hand = {620.1, 556.6, 643.0, 631.4}
  for i, F in ipairs(by_hand) do close(station_force(a, i), F, REL) end
  lu.assertEquals(a.stations[3].name, "right inner")
  close(find(a, "host-bending", "host").demand, 1390.8 * 12, REL)
  close(find(a, "bending", "sister").ratio, 0.894, 2e-3)
  close(find(a, "connection-shear", "host").ratio, 0.802, REL)
  -- a gap there gives the same, to the digit, where its load is placed so
  local gap = sistered(joist {cuts = {SEVER}}, {fastener = BOLT})
  close(gap.ratio, a.ratio, 1e-9)
  local off = of_mode(a, "net-bending", "notch 1, written off")
  lu.assertFalse(off.binding)
  lu.assertEquals(off.cut, 1)
  -- and the switch is read: without it the notch is there and governs (0.930 by hand)
  local without = joist {cuts = {NOTCH}}:fix(ns.sister {from = "3-0", to = "9-5",
    bearing = false, groups = GROUPS, fastener = BOLT}):review().fixed
  close(find(without, "net-bending", "host").ratio, 0.930, REL)
end

function T.test_load_over_the_gap_alone_when_it_is_said()
  local a = joist {cuts = {NOTCH}}:fix(ns.sister {from = "3-0", to = "9-5",
    bearing = false, groups = GROUPS, fastener = BOLT, share = "new",
    gap_load = "gap"}):review().fixed
  for i, F in ipairs {620.5, 568.5, 654.9, 631.8} do
    close(station_force(a, i), F, REL)
  end
end

-- What lies under the sister has to lie between its inner groups; else it is refused.
function T.test_cuts_outside_the_inner_groups_are_refused()
  local function refused(cuts, changes)
    local t = {from = "3-0", to = "9-5", bearing = false, groups = GROUPS,
      fastener = BOLT, share = "new"}
    for name, value in pairs(changes or {}) do t[name] = value end
    return joist {cuts = cuts}:fix(ns.sister(t)):review().fixed.refused
  end
  lu.assertStrContains(refused {NOTCH, ns.hole {at = "4-6", diameter = 2}},
    "between its inner groups")
  lu.assertStrContains(refused {ns.hole {at = "1-6", diameter = 2}}, "no cut lies under")
  lu.assertNil(refused {NOTCH, ns.hole {at = "1-6", diameter = 2}})
  lu.assertNil(refused {ns.notch {face = "top", from = "6-0", to = "6-1", depth = 2},
    ns.hole {at = "6-4", diameter = 1.5}})
end

-- More load, a longer cut: never better.
function T.test_what_is_written_off_is_never_better_for_more()
  local last = 0
  for live = 20, 100, 20 do
    local a = joist {live = live, cuts = {NOTCH}}:fix(ns.sister {from = "3-0",
      to = "9-5", bearing = false, groups = GROUPS, fastener = BOLT,
      share = "new"}):review().fixed
    lu.assertTrue(a.ratio > last)
    last = a.ratio
  end
end

-- A switch that a repair does not read is refused by its name.
function T.test_switches_that_are_not_read_are_refused()
  local part = {from = "3-0", to = "9-5", bearing = false}
  local function with(base, changes)
    local t = {}
    for _, list in ipairs {base, changes} do
      for name, value in pairs(list) do t[name] = value end
    end
    return t
  end
  for _, row in ipairs {
    {"sister", with(part, {share = "stiffness"}), "share"},
    {"sister", with(part, {share = "worst"}), "share"},
    {"sister", with(part, {share = "new", lift = "none"}), "lift"},
    {"sister", {share = "new", lift = "none"}, "lift"},
    {"sister", {gap_load = "gap"}, "gap_load"},
    {"sister", with(part, {groups = GROUPS, pitch = 12}), "pitch"},
    {"sister", with(part, {groups = GROUPS, per_row = 3}), "per_row"},
    {"sister", with(part, {groups = GROUPS, end_distance = 3}), "end_distance"},
    {"side_plates", {from = "3-0", to = "9-5", steel = "A36", gauge = 12,
      thickness = 0.25}, "thickness"},
    {"side_plates", {from = "3-0", to = "9-5", steel = "A36", thickness = 0.25,
      material = {Fb = 1, Fv = 1, E = 1}}, "material"},
    {"side_plates", {from = "3-0", to = "9-5", steel = "A36", thickness = 0.25,
      gap_load = "gap"}, "gap_load"},
    {"strap", {gauge = 12, thickness = 0.25}, "gauge"}} do
    local made, found = joist({cuts = {NOTCH}}):fixed(ns[row[1]](row[2]))
    lu.assertNil(made, row[3])
    lu.assertStrContains(found:text(), row[3] .. ": ")
    lu.assertStrContains(found:text(), "not read")
  end
  local made, found = joist({cuts = {SEVER}}):fixed(ns.sister {share = "stiffness"})
  lu.assertNil(made)
  lu.assertStrContains(found:text(), "cut through")
  support.raises("end_distance", ns.end_sister, {to = "5-0", end_distance = 3})
end

-- Two repairs of one kind and place in a ranking: each title says what differs.
function T.test_titles_of_a_ranking_say_what_differs()
  local floor = ns.floor {span = "13-6", joists = {
    {mark = "A", size = "2x10", material = DFL, spacing = 16, dead = 12, live = 40},
    {mark = "B", size = "2x10", material = DFL, spacing = 16, dead = 12, live = 40,
      cuts = {NOTCH}},
    {mark = "C", size = "2x10", material = DFL, spacing = 16, dead = 12, live = 40}}}
  local part = {from = "3-0", to = "9-5", bearing = false, groups = GROUPS,
    fastener = BOLT}
  local new = {share = "new"}
  for name, value in pairs(part) do new[name] = value end
  local ranked = floor:rank_fixes("B", {ns.sister(part), ns.sister(new)})
  local titles, n = {}, 0
  for _, list in ipairs {ranked.ranked, ranked.failing, ranked.refused} do
    for _, entry in ipairs(list) do
      lu.assertNil(titles[entry.title], entry.title)
      titles[entry.title], n = true, n + 1
      lu.assertStrContains(entry.title, "share")
    end
  end
  lu.assertEquals(n, 2)
end

return T
