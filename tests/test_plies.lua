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

return T
