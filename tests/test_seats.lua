-- SPDX-License-Identifier: MIT
-- Bearings: point loads near them (NDS 3.4.3.1(a)), end notches that run on, losses over
-- them, and ends that hang. Joist X: 2x10, 13-6, 16 in, dead 12, live 40 psf, R 468 lb,
-- Fb 900, CF 1.1, Fv 180, Fc_perp 625; numbers by independent computation.
local lu = require "luaunit"
local ns = require "netsection"

local T = {}

local function joist(changes)
  local t = {mark = "X", size = "2x10", span = "13-6", spacing = 16, bearing = 3.5,
    dead = 12, live = 40, material = {Fb = 900, Ft = 575, Fv = 180, Fc_perp = 625,
      Fc = 1350, E = 1.6e6, CF = 1.1}}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.joist(t)
end

local function rank(r)
  return r.cut.ratio or math.huge
end

local function near(got, want, what)
  lu.assertAlmostEquals(got, want, math.abs(want) * 5e-4 + 1e-9, what)
end

local function loss(t)
  t.cause = t.cause or "rot"
  return joist {cuts = {ns.loss(t)}}:review()
end

local function notch(t, changes)
  t.support, t.face = t.support or "left", t.face or "bottom"
  changes = changes or {}
  changes.cuts = {ns.end_notch(t)}
  return joist(changes):review()
end

---------------------------------------------------------------------------- point loads

-- Of a point load P at x from the face, P x/d counts, and of that what the span brings to
-- the bearing: V = 404.44 + P (x/d) (L - a)/L, a from the bearing's center.
function T.test_point_load_counts_by_its_distance()
  local function V(a, P)
    return joist {loads = {ns.point {at = a, load = P, case = "live"}}}:review()
      :find("cut", "shear").demand
  end
  for _, x in ipairs {0, 1, 4.25, 9, 9.25, 9.25 + 1e-9, 12} do
    local a = x + 1.75
    near(V(a, 3000), math.max(404.444 + 3000 * math.min(x / 9.25, 1) * (162 - a) / 162,
      404.444 + 3000 * a / 162), "x " .. x) -- or that at the other bearing
  end
  near(V(1, 3000), 404.444 + 3000 / 162, "over the bearing itself: the other end")
  near(V(9.25 + 1.75, 3000), V(9.25 + 1.75 + 1e-9, 3000), "no step at d")
end

-- 6000 lb at 6 in: dropped whole it was 0.24; by x/d it is (404.44 + 6000 0.4595
-- 0.9630)/1665.
function T.test_point_load_near_the_bearing_is_no_leave()
  local r = joist {bearing = 12, loads = {ns.point {at = 14, load = 3700}}}:review()
  local x = 14 - 6
  near(r:find("cut", "shear").ratio, (468 - 5.7778 * 15.25
    + 3700 * x / 9.25 * (162 - 14) / 162) / 1665, "ratio")
  lu.assertNotEquals(r.action, "leave")
end

function T.test_mirrored_point_loads()
  for _, at in ipairs {1, 4, 10.9, 11.1, 30} do
    local a = joist {loads = {ns.point {at = at, load = 900}}}:review()
    local b = joist {loads = {ns.point {at = 162 - at, load = 900}}}:review()
    lu.assertAlmostEquals(a:find("cut", "shear").demand, b:find("cut", "shear").demand,
      1e-6)
  end
end

-- A live point load anywhere never lowers the ratio of shear.
function T.test_live_point_load_never_lowers_shear()
  local plain = joist():review():find("cut", "shear").ratio
  for at = 0, 162, 1.5 do
    local r = joist {loads = {ns.point {at = at, load = 300}}}:review()
    lu.assertTrue(r:find("cut", "shear").ratio >= plain - 1e-12, "at " .. at)
  end
end

-- At a notch, a hole and a loss V is not reduced.
function T.test_full_shear_at_a_loss()
  local r = loss {from = -1.75, to = 1.75, sides = 0.25}
  near(r:find("cut", "net-shear").demand, 468, "V")
  near(r:find("cut", "net-shear").ratio, 468 / 1110, "ratio")
end

-- The existing joist of a repair counts the load as well.
function T.test_host_of_a_repair()
  local function host(P)
    local j = joist {loads = P and {ns.point {at = 8, load = P}} or nil,
      cuts = {ns.hole {at = 81, diameter = 2}}}
    return j:fix(ns.sister {size = "2x10", side = "left"}):review()
      :find("fixed", "host-shear").demand
  end
  lu.assertTrue(host(2000) > host(nil) + 200)
end

----------------------------------------------------------------------------- end notches

-- R502.8.1 "at the ends": d/3 = 3.083 past the face of the bearing is ours.
function T.test_end_notch_past_the_face()
  local third = 9.25 / 3
  local at_face = notch {depth = 1.5, length = 3.5}
  lu.assertEquals(at_face.rules.status, "within")
  lu.assertEquals(notch({depth = 1.5, length = 3.5 + third}).rules.status, "within")
  local past = notch {depth = 1.5, length = 3.5 + third + 0.001}
  lu.assertEquals(past.rules.status, "outside")
  lu.assertEquals(past.action, "justify")
  lu.assertEquals(past.cut.status, "adequate")
  -- net bending at its far end
  lu.assertAlmostEquals(past:find("cut", "net-bending").at, 1.75 + third + 0.001, 1e-6)
end

-- Past d it is a notch as well: d/6 = 1.54, and 50 x 2.3 is not permitted, as the same
-- wood described with ns.notch is.
function T.test_long_end_notch_is_a_notch()
  local r = notch {depth = 2.3, length = 50}
  lu.assertEquals(r.action, "repair")
  lu.assertEquals(r.cut.status, "not permitted")
  local shallow = notch {depth = 1.5, length = 3.5 + 9.25}
  lu.assertEquals(shallow.cut.status, "adequate")
  lu.assertEquals(notch({depth = 1.6, length = 3.5 + 9.25}).cut.status, "adequate")
  lu.assertEquals(notch({depth = 1.6, length = 3.5 + 9.26}).cut.status, "not permitted")
  local middle = notch {depth = 0.5, length = 1.75 + 54.1,
    accept_outside_standard = "tested"}
  lu.assertEquals(middle.cut.status, "not permitted")
  local right = notch {depth = 2.3, length = 50, support = "right"}
  lu.assertAlmostEquals(right.cut.ratio, r.cut.ratio, 1e-9)
  lu.assertEquals(right.action, r.action)
end

-- Of a bearing of 3-1/2 in with a notch 1 in long, 2-1/2 in are left beyond it.
function T.test_seat_of_a_short_end_notch()
  local function seat(t)
    return notch(t):find("cut", "bearing").capacity / (625 * 1.5)
  end
  lu.assertAlmostEquals(seat {depth = 1, length = 1}, 2.5, 1e-9)
  lu.assertAlmostEquals(seat {depth = 1, length = 1, seat = "notch"}, 1, 1e-9)
  lu.assertAlmostEquals(seat {depth = 1, length = 2.5, seat = "beyond"}, 1, 1e-9)
  lu.assertAlmostEquals(seat {depth = 1, length = 2.5}, 2.5, 1e-9)
  lu.assertAlmostEquals(seat {depth = 1, length = 3.5}, 3.5, 1e-9)
  lu.assertAlmostEquals(seat {depth = 1, length = 1, face = "top"}, 3.5, 1e-9)
  lu.assertErrorMsgContains("does not touch the seat", notch, {depth = 1, length = 1,
    face = "top", seat = "notch"})
end

function T.test_notches_opposite_and_in_a_row()
  local function said(cuts, words)
    for _, text in ipairs(joist {cuts = cuts}:review().cautions) do
      if text:find(words, 1, true) then return true end
    end
  end
  local low = ns.notch {face = "bottom", from = 20, to = 22, depth = 1}
  lu.assertTrue(said({low, ns.notch {face = "top", from = 21, to = 23, depth = 1.25}},
    "opposite each other: together they leave 7 in of 9-1/4 in"))
  lu.assertTrue(said({low, ns.notch {face = "bottom", from = 26, to = 28, depth = 1.25}},
    "in a row, 4 in apart: together they leave 8 in of 9-1/4 in over 8 in"))
  lu.assertNil(said({low, ns.notch {face = "bottom", from = 40, to = 42, depth = 1}},
    "in a row"))
end

-- Deeper or longer never lowers the ratio; the seat apart, which a longer notch may
-- lengthen, so it is kept out of the comparison by a bearing that never governs.
function T.test_growing_an_end_notch()
  local before = 0
  for step = 1, 60 do
    local now = rank(notch {depth = 2.2, length = step})
    lu.assertTrue(now >= before - 1e-9, "length " .. step)
    before = now
  end
  before = 0
  for step = 1, 36 do
    local now = rank(notch {depth = step / 4, length = 20})
    lu.assertTrue(now >= before - 1e-9, "depth " .. step / 4)
    before = now
  end
end

--------------------------------------------------------------------------------- losses

-- {loss, seat left, R/R', V/V_n, net bending, its place}; nil: none
local LOSSES = {
  {{bottom = 3, from = -1.75, to = 1.75}, 0, nil, 0.911, 0.609, 13.75},
  {{bottom = 4, from = -1.75, to = 1.75}, 0, nil, 1.537, 0.863, 13.75},
  {{bottom = 3, from = -1.75, to = 1.75, packed = true}, 3.5, 0.143, 0.911, 0.609, 13.75},
  {{bottom = 1, from = -1.75, to = 0}, 1.75, 0.285, 0.396, nil, 12},
  {{bottom = 2, from = -1.75, to = 1}, 0.75, 0.666, 0.584, nil, 13},
  {{sides = 0.25, from = -1.75, to = 1.75}, 3.5, 0.214, nil, 0.417, 13.75},
  {{bottom = 3, from = 2, to = 10}, 3.5, 0.143, 0.911, nil, 22},
}

local function about(got, want, what)
  if want then lu.assertAlmostEquals(got, want, 0.005 * want, what) end
end

function T.test_losses_over_a_bearing()
  for i, row in ipairs(LOSSES) do
    for _, turned in ipairs {false, true} do
      local t = {cause = "rot", from_right = turned or nil}
      for name, value in pairs(row[1]) do t[name] = value end
      local r, n = loss(t), turned and 2 or 1
      lu.assertAlmostEquals(r.seat[n], row[2], 1e-9, "seat " .. i)
      local seat
      for _, k in ipairs(r.cut.checks) do
        if k.mode == "bearing" and k.support == n then seat = k end
      end
      if row[3] then about(seat.ratio, row[3], "bearing " .. i) else
        lu.assertNil(seat.ratio)
        lu.assertNil(r.cut.ratio)
        lu.assertEquals(r.cut.status, "not permitted")
        lu.assertEquals(r.action, "repair")
        lu.assertStrContains(table.concat(r.reasons, "; "), "shore now")
        lu.assertStrContains(r.out, "no sound seat at the "
          .. (turned and "right" or "left"))
      end
      local k = r:find("cut", "notch-shear")
      about(k and k.ratio, row[4], "notch shear " .. i)
      local b = r:find("cut", "net-bending")
      about(b.ratio, row[5], "net bending " .. i)
      lu.assertAlmostEquals(b.at, turned and 162 - row[6] or row[6], 1e-6)
      lu.assertNotEquals(r.action, "leave")
    end
  end
end

function T.test_seat_tolerance_and_gates()
  local shallow = loss {bottom = 0.25, from = -1.75, to = 1.75}
  lu.assertEquals(shallow.seat[1], 3.5)
  lu.assertStrContains(table.concat(shallow.cautions, "; "),
    "clean to sound wood and pack the seat")
  lu.assertEquals(loss({bottom = 0.26, from = -1.75, to = 1.75}).seat[1], 0)
  lu.assertEquals(loss({bottom = 0.5, from = -1.75, to = 1.75,
    seat_tolerance = 0.5}).seat[1], 3.5)
  -- deeper than d/4 = 2.3125: not permitted, packed too
  local packed = loss {bottom = 2.4, from = -1.75, to = 1.75, packed = true}
  lu.assertEquals(packed.cut.status, "not permitted")
  lu.assertEquals(loss({bottom = 2.3, from = -1.75, to = 1.75, packed = true})
    .cut.status, "adequate")
  lu.assertEquals(loss({bottom = 2.4, from = 60, to = 70}).cut.status, "overstressed")
  -- R502.6 reads what is left
  local some = loss {bottom = 2, from = -1.75, to = 1}
  lu.assertStrContains(table.concat(some.reasons, "; "), "3/4 in < 1-1/2 in (R502.6)")
end

function T.test_char_over_a_covered_bearing()
  local t = {bottom = 1, from = -1.75, to = 20, cause = "char", allowance = 0.25}
  lu.assertEquals(loss(t).seat[1], 3.5)
  t.seat = true
  lu.assertEquals(loss(t).seat[1], 0)
  lu.assertErrorMsgContains("read for cause", loss, {bottom = 1, from = 0, to = 2,
    cause = "rot", seat = true})
end

-- Two losses that lap count once: 1.75 + 1 - 0.5 of 3.5 is gone.
function T.test_losses_that_lap()
  local r = joist {cuts = {
    ns.loss {from = -1.75, to = 0, bottom = 1, cause = "rot"},
    ns.loss {from = -0.5, to = 0.5, bottom = 2, cause = "rot"}}}:review()
  lu.assertAlmostEquals(r.seat[1], 1.25, 1e-9)
end

-- A loss of the top by a bearing: 3.4.3.2(e), e 14 - 1.75 over d_n 8.25, so b d_n.
function T.test_loss_of_the_top()
  local r = loss {top = 1, from = -1.75, to = 2}
  lu.assertEquals(r.seat[1], 3.5)
  near(r:find("cut", "notch-shear").capacity, 2 / 3 * 180 * 1.5 * 8.25, "V_n")
  local short = loss {top = 1, from = -1.75, to = 4.75, cause = "insects"}
  near(short:find("cut", "notch-shear").capacity, 2 / 3 * 180 * 1.5 * 8.25, "e over d_n")
  local char = loss {top = 1, from = -1.75, to = 4.75, cause = "char"}
  near(char:find("cut", "notch-shear").capacity,
    2 / 3 * 180 * 1.5 * (9.25 - 1 / 8.25 * 3), "e 3 in")
end

function T.test_growing_a_loss()
  for _, face in ipairs {"bottom", "top", "sides"} do
    local before = 0
    for step = 1, 28 do
      local most = face == "sides" and 0.025 or 0.25
      local now = rank(loss {[face] = step * most, from = -1.75, to = 6})
      lu.assertTrue(now >= before - 1e-9, face .. " " .. step)
      before = now
    end
    before = 0
    for to = -1.5, 60, 0.75 do
      local now = rank(loss {[face] = 0.3, from = -1.75, to = to})
      lu.assertTrue(now >= before - 1e-9, face .. " to " .. to)
      before = now
    end
  end
end

------------------------------------------------------------------------- ends that hang

function T.test_an_end_that_hangs()
  local r = joist {bearing = {0, 3.5}}:review()
  lu.assertEquals(r.action, "repair")
  lu.assertEquals(r.cut.status, "not permitted")
  lu.assertNil(r.cut.ratio)
  lu.assertStrContains(r.reasons[1], "hangs at the left bearing")
  lu.assertStrContains(r.out, "left")
  near(r:find("cut", "bearing").demand, 468, "R to be carried")
  lu.assertNil(joist():review().out)
  lu.assertErrorMsgContains("0 says that the end hangs", joist, {bearing = {0.3, 3.5}})
  local sever = joist {cuts = {ns.sever {from = 60, to = 61}}}:review()
  lu.assertStrContains(sever.out, "cut through")
end

-- Nothing beside a joist helps where it stands on nothing; a hanger does, and so does a
-- sister on both bearings that takes all the load.
function T.test_repairs_of_a_lost_seat()
  local j = joist {cuts = {ns.loss {from = -1.75, to = 1.75, bottom = 2, cause = "rot"}}}
  local short = j:fix(ns.sister {size = "2x10", side = "left", from = 0, to = "5-0",
    bearing = {left = true}, groups = {{at = 10, n = 8}, {at = 50, n = 8}}}):review()
  lu.assertEquals(short.fixed.status, "not permitted")
  lu.assertStrContains(short.fixed.refused, "no sound seat at the left bearing")
  lu.assertEquals(short.action, "repair")
  local post = j:fix(ns.midspan_support {at = 80}):review()
  lu.assertEquals(post.fixed.status, "not permitted")
  local hung = joist {bearing = {0, 3.5}}:fix(ns.hanger {support = "left",
    capacity = 900}):review()
  lu.assertEquals(hung.fixed.status, "adequate")
  local new = j:fix(ns.sister {size = "2x10", side = "left", share = "new"}):review()
  lu.assertNil(new.fixed.refused)
  -- a new seat
  local seat = j:with {["cuts.1.packed"] = true}
  lu.assertEquals(seat:review().cut.status, "adequate")
end

function T.test_sweep_agrees_with_the_review()
  local j = joist {cuts = {ns.loss {from = -1.75, to = 1.75, bottom = 0.2,
    cause = "rot"}}}
  local s = ns.sweep {joist = j, over = {["cuts.1.bottom"] = {0.2, 0.3, 1}},
    values = {"ratio", "action", "governing"}}
  local rows = 0
  for row in s:rows() do
    local r = j:with {["cuts.1.bottom"] = row["cuts.1.bottom"]}:review()
    lu.assertEquals({row.action, row.ratio, row.governing}, {r.action, r.cut.ratio,
      r.cut.governing})
    rows = rows + 1
  end
  lu.assertEquals(rows, 3)
end

return T
