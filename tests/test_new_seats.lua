-- Where a repair meets cut wood: a support under an opening, new wood at a notched end,
-- wood of another depth, a bearing that lifts. Numbers by hand (statics; NDS 3.3.2,
-- 3.4.3.2(a), 4.4.3).
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local close = support.close
local T = {}

local function joist(changes)
  local t = {mark = "J", size = "2x10", species = "Douglas Fir-Larch", grade = "No.2",
    span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40}
  for name, value in pairs(changes) do t[name] = value end
  return ns.joist(t)
end

local function fixed(j, fix)
  return j:fix(fix):review().fixed
end

-- Two spans of 6-9 under 69.33 plf: some 5/4 w L = 585 lb on the new support, 582 with
-- the hole there. A 4 in hole with 1.2 in below: 582*4/4/(1.5*1.2^2/6)/990 = 1.63.
function T.test_a_post_under_a_hole_is_refused()
  local a = fixed(joist {cuts = {ns.hole {at = 81, diameter = 4, below = 1.2}}},
    ns.midspan_support {at = 81})
  lu.assertStrContains(a.refused, "wood below hole 1 over the support")
  lu.assertStrContains(a.refused, "at 1.63 of its bending strength")
end

-- Within d of the bearing it counts, past d it does not: edge at 81 + 1.75 + 9.25 = 92.
function T.test_the_reach_of_a_support_is_d()
  for at, near in pairs {[92 + 2 - 0.01] = true, [92 + 2 + 0.01] = false} do
    local a = fixed(joist {cuts = {ns.hole {at = at, diameter = 4, below = 1.2}}},
      ns.midspan_support {at = 81})
    lu.assertEquals((a.refused or ""):find("short beam", 1, true) ~= nil, near)
  end
end

-- 1 in hole, 4 in below: 585*1/4/(1.5*16/6) = 36.6 psi of 990.
function T.test_a_chord_that_bears_it_is_checked()
  local a = fixed(joist {cuts = {ns.hole {at = 81, diameter = 1, below = 4}}},
    ns.midspan_support {at = 81})
  lu.assertNil(a.refused)
  local found
  for _, k in ipairs(a.checks) do
    if k.name and k.name:find "over the support" and k.mode == "opening-frame" then
      found = k
    end
  end
  close(found.demand, 36.6, 0.005)
  close(found.capacity, 990, 1e-6)
  lu.assertEquals(found.steps[#found.steps].symbol, "ratio")
end

-- A deeper lip and a smaller hole never make it worse.
function T.test_less_wood_below_is_never_better()
  local last = 0
  for _, below in ipairs {4, 3, 2.5, 2.1} do
    local a = fixed(joist {cuts = {ns.hole {at = 81, diameter = 1.5, below = below}}},
      ns.midspan_support {at = 81})
    for _, k in ipairs(a.checks) do
      if k.mode == "opening-frame" and k.name:find "over the support" then
        lu.assertTrue(k.ratio > last)
        last = k.ratio
      end
    end
  end
  lu.assertTrue(last > 0)
end

-- A 3-1/2 in end notch: a sister on the same seat would hang 3-1/2 in under it, and a
-- notch of that depth is over d/4 = 2.31 in.
function T.test_new_wood_under_a_seat_is_refused()
  local j = joist {cuts = {ns.end_notch {support = "left", face = "bottom", depth = 3.5,
    length = 3.5}}}
  for _, fix in ipairs {ns.sister {}, ns.added_joist {side = "right"}} do
    lu.assertStrContains(fixed(j, fix).refused, "3-1/2 in under the seat")
  end
  lu.assertNil(fixed(j, ns.sister {hanger = {capacity = 900}}).refused)
  lu.assertNil(fixed(j, ns.added_joist {side = "right", hanger = true}).refused)
end

-- A 2 in notch, within d/4: the added joist gets it too. Half of 16 in each: R = 234 lb;
-- V' = 2/3*180*1.5*7.25*(7.25/9.25)^2 = 801.7 lb.
function T.test_the_same_notch_is_checked()
  local j = joist {cuts = {ns.end_notch {support = "left", face = "bottom", depth = 2,
    length = 3.5}}}
  local a = fixed(j, ns.added_joist {side = "right"})
  local found
  for _, k in ipairs(a.checks) do
    if k.mode == "notch-shear" and k.member == "added joist" then found = k end
  end
  close(found.capacity, 801.7, 0.001)
  close(found.demand, a.forces[3].value, 1e-6)
  lu.assertStrContains(table.concat(a.notes, "\n"), "2 in deep at the left end")
  local s = fixed(j, ns.sister {})
  lu.assertStrContains(table.concat(s.notes, "\n"), "notch the bottom of the sister 2 in")
end

-- A 2x12 beside a 2x10, tops level, hangs 2 in under both bearings: it is notched there.
-- A 2x8 is packed up by 2 in.
function T.test_another_depth_names_its_packing()
  local j = joist {}
  local deep = fixed(j, ns.added_joist {side = "right", size = "2x12"})
  lu.assertStrContains(table.concat(deep.notes, "\n"),
    "notch the bottom of the added joist 2 in deep at the right end")
  local low = fixed(j, ns.added_joist {side = "right", size = "2x8"})
  lu.assertStrContains(table.concat(low.notes, "\n"), "pack the added joist 2 in")
  -- 2x14 on a 2x10: 4 in of 13.25 is over d/4.
  lu.assertStrContains(fixed(j, ns.added_joist {side = "right", size = "2x14"}).refused,
    "over d/4")
end

-- Spans of 24 in and 138 in: the short one's bearing lifts under dead load and under
-- every load (three moments).
function T.test_a_bearing_that_lifts_wants_an_anchor()
  local j = joist {dead = 30, live = 10}
  local a = fixed(j, ns.midspan_support {at = 24})
  lu.assertEquals(a.status, "not permitted")
  lu.assertStrContains(table.concat(a.notes, "\n"), "hold it down for")
  local held = fixed(j, ns.midspan_support {at = 24, hold_down = "2000 lb"})
  lu.assertNotEquals(held.status, "not permitted")
  local anchor
  for _, k in ipairs(held.checks) do
    if k.name and k.name:find "hold%-down at bearing 1" then anchor = k end
  end
  -- Dead load on both spans, live load on the long one alone: M = -w L^3/(8*162) each.
  local D, live = 30 * 16 / 144, 10 * 16 / 144
  local M = -(D * (24 ^ 3 + 138 ^ 3) + live * 138 ^ 3) / (8 * 162)
  close(anchor.demand, -(D * 12 + M / 24), 1e-6)
  lu.assertEquals(anchor.capacity, 2000)
end

-- A header at 70 in, of two plies; a 4 in hole of the tail at 63 in, 1-1/2 in of wood
-- below, ends 3-1/2 in from the tail's end at 68-1/2: within d of the hanger's seat.
-- Tail of 70 in under 69.33 plf: 202 lb; 202 x 4/4/(1.5 x 1.5^2/6) = 359 psi of 990.
-- Under 162 psf, three times that, it is past its strength.
function T.test_a_tail_that_hangs_beside_an_opening()
  local function headed(live, at)
    return fixed(joist {live = live, cuts = {ns.hole {at = at, diameter = 4, below = 1.5},
      ns.sever {from = 72, to = 77}}}, ns.header {at = {70, 84}, plies = 2})
  end
  local a = headed(40, 63)
  lu.assertNil(a.refused)
  local found
  for _, k in ipairs(a.checks) do
    if k.name and k.name:find "over the support" and k.mode == "opening-frame" then
      found = k
    end
  end
  lu.assertEquals(found.member, "tail")
  close(found.demand, 202.2 * 4 / 4 / (1.5 * 1.5 ^ 2 / 6), 0.005)
  lu.assertStrContains(headed(150, 63).refused, "the hanger of the tail presses on")
  lu.assertNil(headed(150, 40).refused) -- farther than d
end

return T
