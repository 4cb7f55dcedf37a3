-- SPDX-License-Identifier: MIT
-- Live loads with a load duration of their own, and repairs under loads of a roof. By
-- hand: C_D of NDS Table 2.3.2 (read); the shortest load of a combination gives its C_D
-- (NDS 2.3.2, from memory), so every combination is worked with the loads that last as
-- long or longer; combinations of ASCE 7-16 (from memory); V and M by statics here.
local calculation = require "netsection.calculation"
local document = require "netsection.document"
local lu = require "luaunit"
local ns = require "netsection"
local numbers = require "netsection.numbers"
local support = require "tests.support"

local T = {}
local close = support.close
local LRFD = {standard = "us-nds-2018-lrfd"}

-- A 2x8 at 16 in over 12 ft, dead 10, live 40 psf, values given.
local function joist(loads, changes)
  local t = {mark = "C1", size = "2x8", span = 144, spacing = 16, dead = 10, live = 40,
    bearing = 3.5, limits = {live = 240, total = 180}, material = {Fb = 900, Fv = 180,
    Fc_perp = 625, Ft = 575, Fc = 1350, E = 1.6e6, Emin = 580000, CF = 1.2,
    G = 0.5, source = "given"}, loads = loads}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.joist(t)
end

local S, A, I = 1.5 * 7.25 ^ 2 / 6, 1.5 * 7.25, 1.5 * 7.25 ^ 3 / 12

-- M in lb-in of q psf at 16 in over 12 ft, and of P lb at the middle.
local function moment(q, P) return q * 16 / 12 * 12 ^ 2 / 8 * 12 + (P or 0) * 144 / 4 end
local function bending(CD) return 900 * CD * 1.2 * 1.15 * S end

local function middle(P, CD) return ns.point {at = 72, load = P, CD = CD} end

local function uncut(r, mode)
  local k = r:find("uncut", mode)
  return k.ratio, k.combination
end

local function governs(r, mode, ratio, combination)
  local got, under = uncut(r, mode)
  close(got, ratio, 1e-9)
  lu.assertEquals(under, combination)
end

-- 300 lb of seven days: D + L with it, 25,200/1.25, over D + L, 14,400.
function T.test_a_load_of_seven_days()
  local r = joist {middle(300, 1.25)}:review()
  governs(r, "bending", moment(50, 300) / bending(1.25), "D+L (CD 1.25)")
  -- V at d from the face of a 3.5 in bearing (NDS 3.4.3.1(a)); F_cp' has no C_D
  governs(r, "shear", (50 * 16 / 144 * (72 - 7.25 - 1.75) + 150)
    / (2 / 3 * 180 * 1.25 * A), "D+L (CD 1.25)")
  close(uncut(r, "bearing"), (50 * 16 / 12 * 6 + 150) / (625 * 1.5 * 3.5), 1e-9)
  -- 5 w L^4/(384 E I) + P L^3/(48 E I): deflection knows no duration
  local sag = 5 * 40 * 16 / 144 * 144 ^ 4 / (384 * 1.6e6 * I)
    + 300 * 144 ^ 3 / (48 * 1.6e6 * I)
  close(r.uncut.deflection.live, sag, 1e-9)
  lu.assertEquals(select(2, uncut(r, "deflection-live")), "L")
end

-- A small one of ten minutes leaves D + L to govern: 18,000/1.6 < 14,400.
function T.test_the_combination_without_it_may_govern()
  governs(joist {middle(100, 1.6)}:review(), "bending", moment(50) / bending(1),
    "D+L")
end

-- A live load that never leaves: D with it has 0.9, D + L with it 1.0.
function T.test_a_permanent_live_load()
  governs(joist {middle(300, 0.9)}:review(), "bending", moment(50, 300) / bending(1),
    "D+L")
  governs(joist({middle(300, 0.9)}, {live = 2}):review(), "bending",
    moment(10, 300) / bending(0.9), "D+L (CD 0.9)")
end

-- 1.25 without the second, 25,200/1.25; 1.6 with both, 36,000/1.6.
function T.test_two_durations()
  governs(joist {middle(300, 1.25), middle(300, 1.6)}:review(), "bending",
    moment(50, 600) / bending(1.6), "D+L (CD 1.6)")
  governs(joist {middle(300, 1.25), middle(60, 1.6)}:review(), "bending",
    moment(50, 300) / bending(1.25), "D+L (CD 1.25)")
end

function T.test_without_a_live_load_of_the_floor()
  governs(joist({middle(300, 1.25)}, {live = 0}):review(), "bending",
    moment(10, 300) / bending(1.25), "D+L (CD 1.25)")
end

-- 0.75 of 40 + 30 psf and of 300 lb: (18,000 + 8,100)/1.25 over 25,200/1.25.
function T.test_beside_snow()
  governs(joist({middle(300, 1.25)}, {snow = 30}):review(), "bending",
    moment(62.5, 225) / bending(1.25), "D+0.75L+0.75S (CD 1.25)")
  -- one that lasts longer than snow stands in the combination with snow as it is
  governs(joist({middle(300, 1.1)}, {snow = 60}):review(), "bending",
    moment(85, 225) / bending(1.15), "D+0.75L+0.75S")
end

function T.test_a_line_and_an_area_load()
  -- 100 plf over the whole joist: M = 100/12 144^2/8
  governs(joist({ns.line {load = "100 plf", CD = 1.25}}):review(), "bending",
    (moment(50) + 100 / 12 * 144 ^ 2 / 8) / bending(1.25), "D+L (CD 1.25)")
  governs(joist({ns.area {load = "40 psf", CD = 1.25}}, {live = 0}):review(), "bending",
    moment(50) / bending(1.25), "D+L (CD 1.25)")
end

function T.test_a_larger_load_never_asks_less()
  local before = 0
  for P = 0, 600, 20 do
    local ratio = uncut(joist({middle(P, 1.6), middle(P / 3, 1.25)}):review(), "bending")
    lu.assertTrue(ratio >= before)
    before = ratio
  end
end

function T.test_a_sweep_equals_the_reviews()
  local base, n = joist {middle(300, 1.25)}, 0
  local s = ns.sweep {joist = base, over = {live = {0, 10, 60}}, progress = false,
    values = {"ratio", "governing", "action"}}
  for row in s:rows() do
    local r = base:with {live = row.live}:review()
    lu.assertEquals({row.ratio, row.governing, row.action}, {r.uncut.ratio,
      r.uncut.governing, r.action})
    n = n + 1
  end
  lu.assertEquals(n, 3)
end

function T.test_steps_sums_and_words_follow()
  local r = joist {middle(300, 1.25)}:review()
  for _, step in ipairs(r:find("uncut", "bending").steps) do
    if step.symbol == "F_b'" then lu.assertEquals(step.inputs.CD, 1.25) end
  end
  local text = document.text((calculation.of(r)))
  for _, said in ipairs {"D+L (CD 1.25)", "live, CD 1.25"} do
    lu.assertStrContains(text, said)
  end
  -- the sum of the sheet: M of 50 psf and 300 lb
  lu.assertStrContains(text, "300*(6 -")
  lu.assertStrContains(text, "= 25200 lb-in")
  lu.assertStrContains(numbers.json(numbers.of(r)), '"CD":1.25')
  lu.assertStrContains(table.concat(r.assumptions, "\n"), "Loads of their own CD")
end

--------------------------------------------------------------------- refusals

function T.test_other_formats_refuse_by_reason()
  local j = joist {middle(300, 1.25)}
  local r = j:review(LRFD)
  lu.assertEquals(r.action, "refer")
  lu.assertStrContains(r.reasons[1], "the time effect factor lambda is that of")
  local function of(more)
    local t = {mark = "E", b = "45 mm", d = "220 mm", span = "3.6 m", spacing = "400 mm",
      dead = "0.5 kPa", live = "1.5 kPa", loads = {ns.point {at = "1.8 m",
        load = "1 kN", CD = 1.25}}}
    for name, value in pairs(more) do t[name] = value end
    return ns.joist(t)
  end
  r = of {class = "C24"}:review {standard = "en-1995-1-1"}
  lu.assertStrContains(r.reasons[1], "k_mod is that of the class of duration")
  r = of {species = "Spruce-Pine-Fir", grade = "No.2", edition = "csa-o86-2019"}
    :review {standard = "csa-o86-2019"}
  lu.assertStrContains(r.reasons[1], "K_D follows from dead and live load")
end

function T.test_slips_are_named()
  for _, case in ipairs {
    {ns.point {at = 72, load = 300, case = "dead", CD = 1.25}, 'goes with case = "live"'},
    {ns.point {at = 72, load = 300, case = "snow", CD = 1.15}, 'goes with case = "live"'},
    {ns.point {at = 72, load = 300, CD = 3}, "a number from 0.5 to 2 expected"},
    {ns.point {at = 72, load = 300, CD = "1.25"}, "a number from 0.5 to 2 expected"}} do
    local ok, why = pcall(joist, {case[1]})
    lu.assertFalse(ok)
    lu.assertStrContains(why, case[2])
  end
  local ok, why = pcall(joist, {middle(1, 1.15), middle(1, 1.25), middle(1, 1.6)})
  lu.assertFalse(ok)
  lu.assertStrContains(why, "at most 2 different ones expected, got 1.15, 1.25, 1.6")
  lu.assertStrContains(joist {middle(300, 0.6)}:review().reasons[1],
    "CD 0.6 of a load: 0.9 to 2 expected")
  -- 1.0 is what a live load has
  lu.assertEquals(select(2, uncut(joist {middle(300, 1)}:review(), "bending")), "D+L")
end

function T.test_what_does_not_know_them_refuses()
  local f = ns.floor {name = "F", joists = {joist {}, joist({middle(300, 1.25)},
    {mark = "B"})}}
  local ok, why = pcall(f.grid, f, {})
  lu.assertFalse(ok)
  lu.assertStrContains(why, "a load of its own CD")
end

------------------------------------------------------- repairs under loads of a roof

-- Sawn through from 72 to 77 of 162 in; two groups at 40 and 62, two at 87 and 118. The
-- left half by itself, with its bearing's reaction R: F_i - F_o = W - R, and about the
-- bearing F_i x_i - F_o x_o = W x_W, W what lies on it up to the gap.
local BOLT = ns.fastener {kind = "bolt", diameter = "1/2 in"}
local function severed(loads, changes)
  local t = {size = "2x10", span = 162, live = 0, cuts = {ns.sever {from = 72, to = 77}}}
  for name, value in pairs(changes or {}) do t[name] = value end
  return joist(loads, t)
end
local GROUPS = {{at = 40, n = 3}, {at = 62, n = 3}, {at = 87, n = 3}, {at = 118, n = 3}}
local SISTER = ns.sister {side = "right", size = "2x10", from = 30, to = 128,
  fastener = BOLT, groups = GROUPS}

local function inner(W, x_W, R)
  return (W * x_W - 40 * (W - R)) / (62 - 40)
end
local w = 10 * 16 / 144
-- dead load of 10 psf; 400 lb at 60 in
local DEAD, POINT = inner(w * 72, 36, w * 81), inner(400, 60, 400 * 102 / 162)

local function fasteners(a)
  for _, k in ipairs(a.checks) do
    if k.mode == "fasteners" then return k end
  end
end

local function fixed(j, fix, options)
  local a = j:fix(fix):review(options).fixed
  lu.assertNil(a.refused)
  return a
end

function T.test_rows_of_a_sister_under_snow()
  local k = fasteners(fixed(severed {ns.point {at = 60, load = 400, case = "snow"}},
    SISTER))
  local live = fasteners(fixed(severed {ns.point {at = 60, load = 400}}, SISTER))
  close(k.demand, DEAD + POINT, 1e-6)
  lu.assertEquals(k.combination, "D+S")
  close(k.capacity, 1.15 * live.capacity, 1e-9)
  -- by load and resistance factors: 1.2 D + 1.6 S; K_F phi lambda of a connection
  -- (NDS Tables N1 to N3 as 2.3.5, 2.3.6)
  k = fasteners(fixed(severed {ns.point {at = 60, load = 400, case = "snow"}}, SISTER,
    LRFD))
  close(k.demand, 1.2 * DEAD + 1.6 * POINT, 1e-6)
  lu.assertEquals(k.combination, "1.2D+1.6S")
  close(k.capacity, 3.32 * 0.65 * 0.8 * live.capacity, 1e-9)
  k = fasteners(fixed(severed {ns.point {at = 60, load = 400, case = "roof live"}},
    SISTER))
  lu.assertEquals(k.combination, "D+Lr")
  close(k.capacity, 1.25 * live.capacity, 1e-9)
end

-- The rows of plates have the same forces; a load of its own duration its own C_D.
function T.test_rows_of_side_plates_and_an_own_duration()
  local plates = ns.side_plates {steel = "A36", thickness = "1/4 in", depth = 8,
    from = 30, to = 128, side = "both", fastener = BOLT, groups = GROUPS}
  local k = fasteners(fixed(severed {ns.point {at = 60, load = 400, case = "snow"}},
    plates))
  close(k.demand, DEAD + POINT, 1e-6)
  k = fasteners(fixed(severed {ns.point {at = 60, load = 400, CD = 1.25}}, SISTER))
  close(k.demand, DEAD + POINT, 1e-6)
  lu.assertEquals(k.combination, "D+L (CD 1.25)")
end

-- A whole joist and a sister of the same wood on both bearings: half of D + S each, and
-- forces at rows, reactions and deflection with it. M = 40 psf; C_D 1.15, C_r 1.15.
function T.test_a_full_sister_under_snow()
  local a = fixed(joist({}, {live = 0, snow = 30}), ns.sister {side = "right",
    fastener = BOLT, lift = "unloaded"})
  for _, k in ipairs(a.checks) do
    if k.mode == "bending" and k.member == "sister" or k.mode == "host-bending" then
      close(k.ratio, moment(40) / 2 / bending(1.15), 1e-6)
      lu.assertEquals(k.combination, "D+S")
    end
  end
  local bare = joist({}, {live = 0, snow = 30}):review()
  close(a.deflection.total, bare.uncut.deflection.total / 2, 1e-6)
end

function T.test_more_snow_never_asks_less_of_a_sister()
  local before = 0
  for snow = 0, 60, 6 do
    local a = fixed(severed({}, {snow = snow, live = 20}), SISTER)
    lu.assertTrue(a.ratio >= before)
    before = a.ratio
  end
end

function T.test_what_sums_dead_and_live_load_still_refuses()
  local j = joist({}, {live = 0, snow = 30, cuts = {ns.end_notch {support = "left",
    face = "bottom", depth = 1.5, length = 3.5}}})
  local r = j:fix(ns.sister {side = "right", fastener = BOLT}):review()
  lu.assertStrContains(r.fixed.refused, "new wood on the seat of a notched end")
  r = joist({}, {live = 0, snow = 30}):fix(ns.sister {side = "right", fastener = BOLT,
    hanger = true}):review()
  lu.assertStrContains(r.fixed.refused, "a hanger of new wood is not worked out")
  r = severed({}, {snow = 30}):fix(ns.header {at = {60, 90}}):review()
  lu.assertStrContains(r.fixed.refused, "a repair (header) is not worked out")
end

return T
