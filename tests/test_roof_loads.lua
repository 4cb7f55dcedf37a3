-- SPDX-License-Identifier: MIT
-- Roof live load and snow on joists. Expected values are hand computations from ASCE
-- 7-16 2.3.1 and 2.4.1 (combinations, from memory), NDS Table 2.3.2 (C_D 0.9 and 1.0
-- read, 1.15 and 1.25 from memory) and NDS Tables 2.3.5, 2.3.6, N3 (K_F, phi, lambda,
-- read), with V and M by statics in the test. What does not know these loads has to
-- refuse by name.
local calculation = require "netsection.calculation"
local document = require "netsection.document"
local lu = require "luaunit"
local ns = require "netsection"
local numbers = require "netsection.numbers"
local packs = require "netsection.packs"
local support = require "tests.support"

local T = {}
local close = support.close

local LRFD = {standard = "us-nds-2018-lrfd"}

-- A 2x8 at 16 in over 12 ft, its values given: S = 13.140625 in3, A = 10.875 in2.
local function described(changes)
  local t = {mark = "C1", size = "2x8", span = 144, spacing = 16, dead = 10, live = 0,
    bearing = 3.5, limits = {live = 240, total = 180}, material = {Fb = 900, Fv = 180,
    Fc_perp = 625, Ft = 575, Fc = 1350, E = 1.6e6, Emin = 580000, CF = 1.2,
    source = "given"}}
  for name, value in pairs(changes or {}) do t[name] = value end
  return t
end

local function joist(changes) return ns.joist(described(changes)) end

local S, A, I = 1.5 * 7.25 ^ 2 / 6, 1.5 * 7.25, 1.5 * 7.25 ^ 3 / 12

-- M in lb-in of q psf at 16 in over 12 ft.
local function moment(q) return q * 16 / 12 * 12 ^ 2 / 8 * 12 end

-- F_b' = F_b C_D C_F C_r (NDS Table 4.3.1).
local function bending(CD) return 900 * CD * 1.2 * 1.15 * S end

local function ratio(r, mode) return r:find("uncut", mode).ratio end
local function under(r, mode) return r:find("uncut", mode).combination end

------------------------------------------------------------------- allowable stress

-- A ceiling and roof joist: dead 10, snow 30 psf. D + S with C_D 1.15 governs over D with
-- 0.9: 40/1.15 > 10/0.9.
function T.test_snow_of_30_psf()
  local r = joist {snow = "30 psf"}:review()
  close(ratio(r, "bending"), moment(40) / bending(1.15), 1e-9)
  lu.assertEquals(under(r, "bending"), "D+S")
  -- V at d from the face of a 3.5 in bearing: w (L/2 - d - l_b/2) (NDS 3.4.3.1(a))
  local V = 40 * 16 / 144 * (72 - 7.25 - 1.75)
  close(ratio(r, "shear"), V / (2 / 3 * 180 * 1.15 * A), 1e-9)
  -- F_cp' has no C_D (NDS Table 4.3.1); C_b 1: the joist ends at the bearing's edge.
  close(ratio(r, "bearing"), 40 * 16 / 12 * 6 / (625 * 1.5 * 3.5), 1e-9)
  -- 5 w L^4/(384 E I): snow alone against L/240, D + S against L/180
  local function sag(q) return 5 * q * 16 / 144 * 144 ^ 4 / (384 * 1.6e6 * I) end
  close(r.uncut.deflection.live, sag(30), 1e-9)
  close(r.uncut.deflection.total, sag(40), 1e-9)
  lu.assertEquals({under(r, "deflection-live"), under(r, "deflection-total")},
    {"S", "D+S"})
  close(r.uncut.reactions[1], 320, 1e-9)
  close(r.uncut.reaction_range[1].dead, 80, 1e-9)
end

function T.test_roof_live_load_has_1_25()
  local r = joist {roof_live = 20}:review()
  close(ratio(r, "bending"), moment(30) / bending(1.25), 1e-9)
  lu.assertEquals(under(r, "bending"), "D+Lr")
end

-- D + S = 35/1.15 = 30.4; D + L = 50/1.0; D + 0.75 L + 0.75 S = 58.75/1.15 = 51.1 psf.
function T.test_three_quarters_of_both_govern()
  local r = joist {live = 40, snow = 25}:review()
  close(ratio(r, "bending"), moment(10 + 0.75 * 65) / bending(1.15), 1e-9)
  lu.assertEquals(under(r, "bending"), "D+0.75L+0.75S")
  -- and the floor's live load where that is more: 50/1.0 against 55/1.15
  r = joist {live = 40, snow = 20}:review()
  close(ratio(r, "bending"), moment(50) / bending(1.0), 1e-9)
  lu.assertEquals(under(r, "bending"), "D+L")
  -- bearing has no C_D: 55 psf are more than 50
  lu.assertEquals(under(r, "bearing"), "D+0.75L+0.75S")
end

-- 90 psf dead: 90/0.9 against (90 + 5)/1.15.
function T.test_dead_load_alone_may_govern()
  local r = joist {dead = 90, snow = 5}:review()
  close(ratio(r, "bending"), moment(90) / bending(0.9), 1e-9)
  lu.assertEquals(under(r, "bending"), "D")
end

-- 600 lb of snow at midspan (a drift by a wall): M = P L/4 beside the dead load's.
function T.test_a_point_load_of_snow()
  local r = joist {loads = {ns.point {at = 72, load = 600, case = "snow"}}}:review()
  close(ratio(r, "bending"), (moment(10) + 600 * 144 / 4) / bending(1.15), 1e-9)
  r = joist {loads = {ns.line {load = "40 plf", case = "roof live"}}}:review()
  close(ratio(r, "bending"), moment(40) / bending(1.25), 1e-9)
  r = joist {loads = {ns.area {load = "30 psf", case = "snow"}}}:review()
  close(ratio(r, "bending"), moment(40) / bending(1.15), 1e-9)
end

-- A 4x10 with an overhang, notched 1 in from the top. Under 10 psf dead M > 0 there:
-- 75 lb at the left bearing, 75 x - w x^2/2. 1500 lb of snow at 35 in past the bearing
-- make it M < 0, 1500 x 35 x/144 less: the top is in tension under that combination
-- alone, and a member 3.5 in thick is not notched there (IRC R502.8.1, NDS 4.4.3).
function T.test_a_face_that_only_snow_puts_in_tension()
  local function limit(loads)
    local r = ns.joist {mark = "J", size = "4x10", species = "hem-fir", grade = "No.2",
      span = 144, overhang_right = 36, spacing = 16, bearing = 3.5, dead = 10, live = 0,
      cuts = {ns.notch {from = 78, to = 90, depth = 1, face = "top"}}, loads = loads}
      :review()
    for _, item in ipairs(r.rules.items) do
      if item.measure == "thickness" then return item, r end
    end
  end
  local item, r = limit()
  lu.assertEquals({item.ok, item.measured}, {true, 0})
  local w = 10 * 16 / 144
  close(r.cuts[1].M_most, 75 * 78 - w * 78 ^ 2 / 2, 1e-9)
  item, r = limit {ns.point {at = 144 + 35, load = 1500, case = "snow"}}
  lu.assertEquals({item.ok, item.measured}, {false, 3.5})
  close(r.cuts[1].M_least, 75 * 90 - w * 90 ^ 2 / 2 - 1500 * 35 * 90 / 144, 1e-9)
end

------------------------------------------------------- load and resistance factors

local BEND = 2.54 * 0.85 * 0.8 * 900 * 1.2 * 1.15 * S

-- 1.2 D + 1.6 S + L = 12 + 40 + 40 = 92 psf;
-- 1.2 D + 1.6 L + 0.5 S = 12 + 64 + 12.5 = 88.5 psf.
function T.test_factored_snow_and_live_load()
  local r = joist {live = 40, snow = 25}:review(LRFD)
  close(ratio(r, "bending"), moment(92) / BEND, 1e-9)
  lu.assertEquals(under(r, "bending"), "1.2D+1.6S+L")
  -- K_F phi of bearing 1.67 x 0.90, no lambda
  close(ratio(r, "bearing"), 92 * 16 / 12 * 6 / (1.67 * 0.9 * 625 * 1.5 * 3.5), 1e-9)
  r = joist {live = 40, snow = 15}:review(LRFD)
  close(ratio(r, "bending"), moment(12 + 64 + 7.5) / BEND, 1e-9)
  lu.assertEquals(under(r, "bending"), "1.2D+1.6L+0.5S")
  -- deflections are those of loads without factors
  local plain = joist {live = 40, snow = 15}:review()
  lu.assertEquals(r.uncut.deflection, plain.uncut.deflection)
end

function T.test_factored_snow_alone()
  local r = joist {snow = 30}:review(LRFD)
  close(ratio(r, "bending"), moment(1.2 * 10 + 1.6 * 30) / BEND, 1e-9)
  lu.assertEquals(under(r, "bending"), "1.2D+1.6S")
  local plain = joist {snow = 30}:review()
  close(r.uncut.deflection.total, plain.uncut.deflection.total, 1e-12)
end

--------------------------------------------------------------- where each load hurts

-- What only sags too far under snow is a decision, in either format: at the limit that
-- 5 w L^4/(384 E I) of the snow meets (without a cut to a millionth) nothing is to be
-- done.
function T.test_a_limit_of_deflection_under_snow()
  local sag = 5 * 30 * 16 / 144 * 144 ^ 4 / (384 * 1.6e6 * I)
  for _, format in ipairs {{}, LRFD} do
    for _, cuts in ipairs {{}, {ns.hole {at = 72, diameter = 2}}} do
      local function action(part)
        local limits = {live = 144 / sag * part, total = 180}
        return joist {snow = "30 psf", limits = limits, cuts = cuts}:review(format).action
      end
      local near = #cuts > 0 and 1e-2 or 1e-6 -- a hole adds a little to the sag
      lu.assertEquals({action(1 - near), action(1 + near)}, {"leave", "decide"})
    end
  end
end

-- Two spans with an overhang, cuts, live load beside snow: each combination is a joist
-- whose live load is the sum of its variable loads. Ratios of D + S by a joist of live
-- load 30 psf alone are those with C_D 1.0, divided by 1.15.
function T.test_several_spans()
  local cuts = {ns.hole {at = 70, diameter = 2}, ns.notch {from = 20, to = 24,
    depth = 1, face = "top"}}
  local more = {spans = {144, 120}, overhang_right = 24, span = false, cuts = cuts,
    sheathed = true}
  local function of(t)
    local d = described(more)
    d.span = nil
    for name, value in pairs(t) do d[name] = value end
    return ns.joist(d):review()
  end
  local r, live = of {snow = 30}, of {live = 30}
  for _, k in ipairs(r.cut.checks) do
    if k.combination == "D+S" and k.mode ~= "bearing" and k.mode ~= "uplift" then
      local twin
      for _, q in ipairs(live.cut.checks) do
        local same = q.mode == k.mode and q.cut == k.cut and q.support == k.support
        if same and not twin and math.abs(q.at - k.at) < 1e-6 then twin = q end
      end
      if k.mode == "shear" or k.mode == "net-shear" then
        close(k.ratio, twin.ratio / 1.15, 1e-9)
      end
      if k.unit ~= "" then close(k.demand, twin.demand, 1e-9) end
    end
  end
  for i = 1, 3 do
    close(r.cut.reaction_range[i].most, live.cut.reaction_range[i].most, 1e-9)
    close(r.cut.reaction_range[i].least, live.cut.reaction_range[i].least, 1e-9)
  end
  lu.assertEquals(r.rules.status, live.rules.status)
end

-- More snow is never less.
function T.test_more_snow_asks_more()
  local cuts = {ns.end_notch {support = "left", face = "bottom", depth = 1.5, length = 4},
    ns.hole {at = 50, diameter = 2.5}}
  for _, standard in ipairs {"us-nds-2018-asd", "us-nds-2018-lrfd"} do
    local last = 0
    for snow = 0, 60, 5 do
      local r = joist {live = 20, snow = snow, cuts = cuts}:review {standard = standard}
      lu.assertTrue(r.cut.ratio >= last - 1e-12, standard .. " at " .. snow)
      last = r.cut.ratio
    end
  end
end

-------------------------------------------------------------------- beside the others

-- Without them no number changes by a bit, in the same sweep as joists with them.
function T.test_a_sweep_equals_the_reviews()
  local base = joist {live = 20, cuts = {ns.hole {at = 60, diameter = 2}}}
  local s = ns.sweep {joist = base, over = {snow = {0, 10, 30}, roof_live = {0, 20}},
    progress = false, values = {"ratio", "governing", "deflection.total", "reaction.1",
    "action"}}
  local n = 0
  for row in s:rows() do
    local r = base:with {snow = row.snow, roof_live = row.roof_live}:review()
    lu.assertEquals(row.ratio, r.cut.ratio)
    lu.assertEquals(row.governing, r.cut.governing)
    lu.assertEquals(row["deflection.total"], r.cut.deflection.total)
    lu.assertEquals(row["reaction.1"], r.cut.reactions[1])
    lu.assertEquals(row.action, r.action)
    n = n + 1
  end
  lu.assertEquals(n, 6)
end

function T.test_steps_and_sums_follow()
  local cuts = {ns.hole {at = 60, diameter = 2}}
  local r = joist {live = 20, snow = 30, cuts = cuts}:review()
  for _, step in ipairs(r:find("uncut", "bending").steps) do
    if step.symbol == "F_b'" then lu.assertEquals(step.inputs.CD, 1.15) end
  end
  local text = document.text((calculation.of(r)))
  for _, said in ipairs {"Snow load", "w_S", "D+0.75L+0.75S", "1.15",
    "are from memory: ASCE 7-16 2.4.1"} do
    lu.assertStrContains(text, said)
  end
  -- M by the sums of the sheet: w = 10 + 0.75 x 50 psf
  lu.assertStrContains(text, "0.75L+0.75S")
  lu.assertStrContains(r:diagram().title, "under D+0.75L+0.75S")
  local most = 0
  for _, p in ipairs(r:diagram().uncut) do most = math.max(most, p.M_max) end
  close(most, moment(10 + 37.5), 1e-9)
  local json = numbers.json(numbers.of(r))
  for _, said in ipairs {'"snow":30', '"w_S":40'} do lu.assertStrContains(json, said) end
end

function T.test_the_description_is_held_to_ranges()
  for _, case in ipairs {{{snow = 600}, "snow"}, {{snow = -1}, "snow"},
    {{roof_live = "20 plf"}, "roof_live"},
    {{loads = {ns.point {at = 10, load = 5, case = "wind"}}}, "roof live, snow"}} do
    local ok, why = pcall(joist, case[1])
    lu.assertFalse(ok)
    lu.assertStrContains(why, case[2])
  end
end

function T.test_what_does_not_know_them_refuses()
  local j = joist {snow = 30, cuts = {ns.sever {from = 70, to = 74}}}
  local r = j:fix(ns.header {at = {68, 76}}):review()
  lu.assertStrContains(r.fixed.refused, "LOAD-CASE")
  lu.assertStrContains(r.fixed.refused, "snow")
  lu.assertEquals(r.action, "repair")
  local f = ns.floor {name = "roof", joists = {described {mark = "A"},
    described {mark = "B", snow = 30}}}
  local ok, why = pcall(f.grid, f, {})
  lu.assertFalse(ok)
  lu.assertStrContains(why, "joist B: a grid is not worked out for a joist with snow")
end

-- A standard whose combinations do not hold them.
function T.test_a_standard_without_them()
  local own = ns.standard {base = "us-nds-2018-asd", name = "own", title = "own",
    with_roof_or_snow = {}}
  local r = joist {snow = 30}:review {standard = own}
  lu.assertEquals(r.action, "refer")
  lu.assertStrContains(r.reasons[1], "own has no combination with snow")
  lu.assertTrue(joist():review {standard = own}.computed)
end

function T.test_slips_in_rows_are_named()
  for _, case in ipairs {
    {{name = "D+W", D = 1, CD = 1}, "Lr or S expected"},
    {{name = "D+S", D = 1, S = 1}, "CD: missing"},
    {{name = "D+S", D = 1, S = 1.6, CD = 1.15}, "a load factor over 1 with format ASD"},
    {{name = "D+S", D = 1, S = "1", CD = 1.15}, "number"},
    {{name = "D+S", D = 1, Snow = 1, CD = 1.15}, "Snow"}} do
    local found = packs.own_standard.problems {base = "us-nds-2018-asd", name = "own",
      title = "own", with_roof_or_snow = {case[1]}}
    lu.assertTrue(#found > 0)
    lu.assertStrContains(found[1].text, case[2])
    lu.assertStrContains(found[1].path, "with_roof_or_snow[1]")
  end
end

return T
