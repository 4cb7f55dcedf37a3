-- SPDX-License-Identifier: MIT
-- The full calculation, redone from its printed text: forces from the loads, moments over
-- supports, deflections and the least modulus by arithmetic of this file's own, which
-- knows the words on the page and nothing of the program that wrote them. Formulas are
-- those of statics; each printed line is also worked again from its own numbers.
local calculation = require "netsection.calculation"
local document = require "netsection.document"
local lu = require "luaunit"
local ns = require "netsection"
local sheet = require "tests.sheet"
local support = require "tests.support"

local T = {}

local DFL = {Fb = 900, Ft = 575, Fv = 180, Fc = 1350, Fc_perp = 625, E = 1.6e6, CF = 1.1}

local function joist(t)
  local all = {mark = "J1", size = "2x10", material = DFL, spacing = 16, bearing = 3.5,
    dead = 12, live = 40}
  for name, value in pairs(t) do all[name] = value end
  return ns.joist(all)
end

local function page_of(t, steps)
  return document.text((calculation.of(joist(t):review(), {steps = steps or "all"})))
end

-- Lines under the first heading with these words, each worked again.
local function lines(page, title)
  local steps, above = sheet.steps(page, title), {}
  for _, step in ipairs(steps) do
    lu.assertNil(sheet.wrong(step, above))
    above[step.symbol] = step.value and step.printed:match "([-+%d.e]+)[^=]*$"
  end
  return steps
end

local function one(steps, symbol)
  for _, step in ipairs(steps) do
    if step.symbol == symbol then return step end
  end
  error("no line " .. symbol, 2)
end

local function value(steps, symbol) return one(steps, symbol).value end

-- The sum that stands in a line, by itself.
local function worked(step) return (sheet.worked(step)) end

local W, W_D, W_L = 52 * 16 / 12, 12 * 16 / 12, 40 * 16 / 12     -- plf

---------------------------------------------------------------------------
-- One span
---------------------------------------------------------------------------

-- A point 8 in from the bearing and a wall on part of the span; hole at 5-2. Moments
-- about the right bearing give R_1; M at the hole from what is left of it.
local LOADED = {span = "13-6", cuts = {ns.hole {at = "5-2", diameter = 4, below = 1.5}},
  loads = {ns.point {at = "0-8", load = "300 lb"},
    ns.line {load = "60 plf", case = "dead", from = "3-0", to = "7-0"}}}

function T.test_reaction_and_moment_of_a_span_with_a_point_and_a_wall()
  local steps = lines(page_of(LOADED), "net-bending, hole 1 at")
  local L, x = 13.5, 62 / 12
  local R = W * L / 2 + 60 * 4 * (L - 5) / L + 300 * (L - 8 / 12) / L
  local M = R * x - W * x ^ 2 / 2 - 60 * (x - 3) ^ 2 / 2 - 300 * (x - 8 / 12)
  support.close(value(steps, "R_1"), R, 5e-4)
  support.close(value(steps, "M"), 12 * M, 5e-4)
  support.close(worked(one(steps, "M")), 12 * M, 1e-3)
end

-- NDS 3.4.3.1(a): no line load within d of the face, the point 6-1/4 in from the face by
-- 6.25/9.25 of what it brings.
function T.test_shear_near_the_face_of_a_bearing()
  local steps = lines(page_of(LOADED), "shear at 0'-11\"")
  local L = 13.5
  local of_point = 300 * (L - 8 / 12) / L
  local V_0 = W * L / 2 + 60 * 4 * (L - 5) / L + of_point
  support.close(value(steps, "V_0"), V_0, 5e-4)
  support.close(value(steps, "V"), V_0 - W * 11 / 12 - of_point * (1 - 6.25 / 9.25),
    5e-4)
end

-- Live load right of the hole makes V there largest: a ramp of the influence line.
function T.test_shear_at_a_hole_by_its_influence_line()
  local steps = lines(page_of(LOADED), "net-shear, hole 1 at")
  local L, x = 13.5, 62 / 12
  local live = W_L * (L - x) ^ 2 / (2 * L) + 0
  local dead = W_D * (L / 2 - x) + 60 * 4 * (L - 5) / L - 60 * (x - 3)
  support.close(value(steps, "V"), live + dead, 5e-4)
  lu.assertStrContains(one(steps, "V").formula, "live load on 5.1667 to 13.5 ft")
end

-- 5 w L^4/(384 E I), I = 1.5 x 9.25^3/12 = 98.93 in4.
function T.test_deflection_of_an_even_span_in_closed_form()
  local page = page_of {span = "13-6"}
  local EI = 1.6e6 * 1.5 * 9.25 ^ 3 / 12
  for title, w in pairs {["deflection-live at"] = W_L, ["deflection-total at"] = W} do
    local step = one(lines(page, title), "D")
    lu.assertStrContains(step.formula, "5*w*L^4/(384*E*I)")
    support.close(step.value, 5 * w / 12 * 162 ^ 4 / (384 * EI), 5e-4)
    support.close(worked(step), step.value, 2e-3)
  end
end

-- With a hole: M m/(E I) added up in 20,000 slices, I of two rectangles over the 3 in of
-- it. The place is that of the title.
function T.test_deflection_with_a_hole_as_an_integral()
  local page = page_of {span = "13-6",
    cuts = {ns.hole {at = "5-2", diameter = 3, below = 3}}}
  local steps = lines(page, "deflection-live at")
  local x0 = one(steps, "D_1").formula:match "unit load at ([%d.]+) ft" * 12
  local I, y = 1.5 * 9.25 ^ 3 / 12, (3 ^ 2 / 2 + 3.25 * 7.625) / 6.25
  local net = 1.5 * ((3 ^ 3 + 3.25 ^ 3) / 12 + 3 * (y - 1.5) ^ 2 + 3.25 * (7.625 - y) ^ 2)
  local n, D, L, w = 20000, 0, 162, W_L / 12
  for i = 1, n do
    local x = (i - 0.5) * L / n
    local M, m = w * x * (L - x) / 2, x < x0 and x * (L - x0) / L or x0 * (L - x) / L
    D = D + M * m / (1.6e6 * (math.abs(x - 62) < 1.5 and net or I)) * L / n
  end
  support.close(value(steps, "D"), D, 5e-4)
  local sum, parts = 0, 0
  for _, step in ipairs(steps) do
    if step.symbol:find "^D_%d" then sum, parts = sum + worked(step), parts + 1 end
  end
  support.close(sum, D, 2e-3)
  lu.assertTrue(parts >= 3, parts)
end

-- The least modulus of all openings within the hole, looked for in steps of 1/100 in: an
-- opening low in the joist is worst before it is whole. The page names that one.
function T.test_the_least_modulus_names_its_opening()
  local page = page_of {span = "13-6",
    cuts = {ns.slot {from = "5-0", to = "5-8", height = 5, below = 1.25}}}
  local steps = lines(page, "opening-frame, slot 1 at")
  local function modulus(s, u)
    local y = (s ^ 2 / 2 + u * (9.25 - u / 2)) / (s + u)
    local I = 1.5 * ((s ^ 3 + u ^ 3) / 12 + s * (y - s / 2) ^ 2
      + u * (9.25 - u / 2 - y) ^ 2)
    return math.min(I / y, I / (9.25 - y)), I / y
  end
  local least = math.huge
  for i = 0, 500 do
    for k = 0, 500 - i do
      least = math.min(least, (modulus(1.25 + i / 100, 3 + k / 100)))
    end
  end
  local step = one(steps, "S_min")
  lu.assertAlmostEquals(step.value, least, 2e-3 * least)
  local low, high = step.formula:match "of the opening ([%d.]+) to ([%d.]+) in above"
  if not low then
    lu.assertStrContains(step.formula, "of the whole opening")
    low, high = 1.25, 6.25
  end
  support.close((modulus(tonumber(low), 9.25 - tonumber(high))), step.value, 2e-3)
end

---------------------------------------------------------------------------
-- Overhangs and several spans
---------------------------------------------------------------------------

-- 2 ft past the right bearing with 200 lb at 15-0: M over it by statics; R_2 from both
-- sides of it.
function T.test_an_overhang()
  local page = page_of {span = "13-6", overhang_right = "2-0",
    loads = {ns.point {at = "15-0", load = "200 lb", case = "dead"}}}
  local M_2, L = -(W * 2 ^ 2 / 2 + 200 * 1.5), 13.5
  local steps = lines(page, "bearing, support 2 at")
  support.close(value(steps, "M_2"), M_2, 5e-4)
  support.close(value(steps, "R"), W * L / 2 - M_2 / L + W * 2 + 200, 5e-4)
  steps = lines(page, "bending, top in tension at")
  support.close(value(steps, "M"), -12 * M_2, 5e-4)
end

-- Two equal spans: w L^2/8 over the middle under all loads; with live load on one span
-- only, M_2 = -(w_D + w)L^2/16 and R_1 = w L/2 + M_2/L, M largest where V is nil.
function T.test_two_equal_spans()
  local page, L = page_of {spans = {"9-0", "9-0"}}, 9
  local steps = lines(page, "bending, top in tension at")
  support.close(value(steps, "M"), 12 * W * L ^ 2 / 8, 5e-4)
  support.close(worked(one(steps, "M_2")), -W * L ^ 2 / 8, 2e-3)
  steps = lines(page, "bending at")
  local M_2 = -(W + W_D) * L ^ 2 / 16
  local R = W * L / 2 + M_2 / L
  support.close(value(steps, "M"), 12 * R ^ 2 / (2 * W), 5e-4)
  support.close(worked(one(steps, "M")), 12 * R ^ 2 / (2 * W), 3e-3)
  steps = lines(page, "bearing, support 2 at")
  support.close(value(steps, "R"), 2 * (W * L / 2 + W * L / 8), 5e-4)
  steps = lines(page, "deflection-live at")
  local x = one(steps, "D_1").formula:match "unit load at ([%d.]+) ft" * 12
  x = math.min(x, 216 - x)    -- from the outer bearing
  local l, w, EI = 108, W_L / 12, 1.6e6 * 1.5 * 9.25 ^ 3 / 12
  local D = w * x * (l ^ 3 - 2 * l * x ^ 2 + x ^ 3) / (24 * EI)
    - w * l ^ 2 / 16 * x * (l ^ 2 - x ^ 2) / (6 * l * EI)
  support.close(value(steps, "D"), D, 1e-3)
end

-- Three unequal spans: both equations of three moments hold with the printed moments.
function T.test_three_spans_satisfy_their_equations()
  local page, L = page_of {spans = {"8-0", "9-0", "7-0"}}, {8, 9, 7}
  local steps = lines(page, "bending, top in tension at")
  local M_2, M_3 = value(steps, "M_2"), value(steps, "M_3")
  local w = {}
  for i, x in ipairs {4, 12.5, 20.5} do
    w[i] = W_D
    for a, b in one(steps, "M_2").formula:gmatch "([%d.]+) to ([%d.]+) ft" do
      if x > tonumber(a) and x < tonumber(b) then w[i] = W end
    end
  end
  local function load(i) return w[i] * L[i] ^ 3 / 4 end
  lu.assertAlmostEquals(2 * M_2 * (L[1] + L[2]) + M_3 * L[2] + load(1) + load(2), 0, 8)
  lu.assertAlmostEquals(2 * M_3 * (L[2] + L[3]) + M_2 * L[2] + load(2) + load(3), 0, 8)
end

-- Stiffness by stretches where a wide slot weakens one of two spans: the moment over the
-- middle is a given, what follows from it a sum.
function T.test_several_spans_with_a_cut()
  local page = page_of {spans = {"9-0", "9-0"}, cuts = {ns.slot {from = "3-0",
    to = "4-6", height = 4, below = 2.5}}}
  local steps = lines(page, "bearing, support 1 at")
  lu.assertStrContains(one(steps, "M_2").printed, "EI of each stretch")
  support.close(value(steps, "R"), W * 9 / 2 + value(steps, "M_2") / 9, 5e-4)
end

---------------------------------------------------------------------------
-- Said once
---------------------------------------------------------------------------

local function floor()
  local joists = {}
  for i = 1, 4 do joists[i] = {mark = "K" .. i, live = i < 3 and 40 or 30 + i} end
  joists[3].cuts = {ns.hole {at = "5-2", diameter = 4, below = 1.5}}
  return ns.floor {name = "Row", size = "2x10", material = DFL, span = "13-6",
    spacing = 16, bearing = 3.5, dead = 12, live = 40, joists = joists}:review()
end

function T.test_adjusted_values_stand_once_and_are_referred_to()
  local page = document.text((calculation.of(floor(), {steps = "all"})))
  local list = page:match "\nAdjusted values that the calculations.-\n\n(.-)\n\n"
  local _, n = list:gsub("%d: F_", "")
  lu.assertTrue(n >= 4, n)
  local _, all = page:gsub("F_b' = F_b%*CD", "")
  local _, inside = list:gsub("F_b' = F_b%*CD", "")
  lu.assertEquals(all, inside)
  local number = page:match "F_b' = 1138 psi value (%d+)"
  lu.assertStrContains(list, number .. ": F_b' = F_b*CD*CM*Ct*CL*CF*Ci*Cr*K = ")
end

-- Joists that differ by loads alone have the same bearing chain but for R; those alike
-- share a sheet, which names each of them.
function T.test_chains_that_repeat_are_referred_to_and_sheets_name_their_joists()
  local joists = {}
  for i = 1, 4 do joists[i] = {mark = "K" .. i, live = i < 3 and 40 or 30 + i} end
  local alike = ns.floor {name = "Row", size = "2x10", material = DFL, span = "13-6",
    spacing = 16, bearing = 3.5, dead = 12, live = 40, joists = joists}:review()
  local page = document.text((calculation.of(alike, {steps = "all"})))
  lu.assertStrContains(page, "\nJoists K1, K2\n")
  lu.assertStrContains(page, "Identical, number for number: K2")
  page = document.text((calculation.of(floor(), {steps = "all"})))
  lu.assertStrContains(page, "Line for line as bearing, support 1 at 0'-0\", D+L (uncut)")
  local review = ns.floor {name = "Row", size = "2x10", material = DFL, span = "13-6",
    spacing = 16, bearing = 3.5, dead = 12, live = 40, joists = {{mark = "K1"},
      {mark = "K2", cuts = {ns.hole {at = "6-0", diameter = 1}}}}}:review()
  page = document.text((calculation.of(review, {steps = "all"})))
  lu.assertStrContains(page, "D+L (uncut) of joist K1.")
end

---------------------------------------------------------------------------
-- The repaired state
---------------------------------------------------------------------------

local BOLT = ns.fastener {kind = "bolt", diameter = "1/2 in"}

local function page_with(t, repair)
  return document.text((calculation.of(joist(t):fix(repair):review(), {steps = "all"})))
end

-- Cut through at 6-0 to 6-5, a sister from 2-8 to 10-0 on four groups, lifted: each stub
-- turns about its bearing and the sister hangs free, which are four equations of statics
-- for four groups. w = 69.33 plf stands on the stubs, over the gap on the sister.
--   left stub, about its bearing:   F_1 x_1 + F_2 x_2 = w 6^2/2
--   right stub, about its bearing:  F_3 (L - x_3) + F_4 (L - x_4) = w (L - 6.4167)^2/2
--   sister: F_1 + F_2 + F_3 + F_4 = -w/2.4, and their moments with that of the load
local X = {38 / 12, 5.5, 83 / 12, 9.5}

local function groups(w)
  local L, a, b = 13.5, 6, 77 / 12
  local A = {{X[1], X[2], 0, 0}, {0, 0, L - X[3], L - X[4]}, {1, 1, 1, 1}, X}
  local y = {w * a ^ 2 / 2, w * (L - b) ^ 2 / 2, -w * (b - a),
    -w * (b ^ 2 - a ^ 2) / 2}
  for k = 1, 4 do                        -- Gauss, the columns as they stand
    for p = k, 4 do
      if math.abs(A[p][k]) > math.abs(A[k][k]) then
        A[k], A[p], y[k], y[p] = A[p], A[k], y[p], y[k]
      end
    end
    for i = 1, 4 do
      if i ~= k then
        local row, q = {}, A[i][k] / A[k][k]
        for c = 1, 4 do row[c] = A[i][c] - q * A[k][c] end
        A[i], y[i] = row, y[i] - q * y[k]
      end
    end
  end
  return {y[1] / A[1][1], y[2] / A[2][2], y[3] / A[3][3], y[4] / A[4][4]}
end

local function severed_page()
  local g = {}
  for i, at in ipairs {"3-2", "5-6", "6-11", "9-6"} do g[i] = {at = at, n = 10} end
  return page_with({span = "13-6", cuts = {ns.sever {from = "6-0", to = "6-5"}}},
    ns.sister {from = "2-8", to = "10-0", fastener = BOLT, groups = g})
end

local function under_repair(page) return page:match "\nCalculation of the repair\n.*$" end

function T.test_a_sister_over_a_gap_by_statics()
  local page = under_repair(severed_page())
  local F = groups(W)
  local steps = lines(page, "bending (sister) at")
  local x = one(steps, "M").formula:match "x = ([%d.]+) ft"
  local M = 0
  for i, at in ipairs(X) do
    if at < tonumber(x) then
      support.close(value(steps, "F_" .. i), F[i], 5e-4)
      M = M - F[i] * (x - at)
    end
  end
  if tonumber(x) > 6 then
    local on = math.min(tonumber(x), 77 / 12) - 6
    M = M - W * on * (x - 6 - on / 2)
  end
  support.close(value(steps, "M"), 12 * math.abs(M), 1e-3)
  steps = lines(page, "bearing, support 1 at")
  support.close(value(steps, "R"), W * 6 - F[1] - F[2], 5e-4)
  steps = lines(page, "fasteners (sister) at")
  lu.assertStrContains(one(steps, "G").printed, "k times (sag of joist less sag of")
  local most = 0
  for _, f in ipairs(F) do most = math.max(most, math.abs(f)) end
  support.close(value(steps, "G"), most, 5e-4)
end

-- Its sag at 6-5: M m/(E I) in 20,000 slices of the stubs and of the sister, F f/k of the
-- groups with k = 10 x 180,000 x 0.5^1.5 (NDS 11.3.6, wood to wood).
function T.test_the_sag_over_a_gap_by_virtual_work()
  local page = under_repair(severed_page())
  local steps = lines(page, "deflection-live at")
  local x = tonumber(one(steps, "f_1").printed:match "unit load at ([%d.]+) ft")
  support.close(x, 77 / 12, 1e-3)
  local F, L, a, b = groups(W_L), 13.5, 6, 77 / 12
  -- the unit load stands at the end of the right stub, the load of its bearing's moment
  local f
  do
    local w0 = groups(0)
    lu.assertEquals(w0[1], 0)
    local d1, d2, e3, e4 = X[1], X[2], L - X[3], L - X[4]
    -- f_1 d1 + f_2 d2 = 0; f_3 e3 + f_4 e4 = L - b; sums of forces and moments nil
    local r = -d1 / d2
    local p, q = 1 + r, X[1] + r * X[2]
    local s = -e3 / e4
    local c = (L - b) / e4
    -- f_1 p + f_3 (1 + s) + c = 0; f_1 q + f_3 (X3 + s X4) + c X4 = 0
    local m11, m12, m21, m22 = p, 1 + s, q, X[3] + s * X[4]
    local det = m11 * m22 - m12 * m21
    local f1 = (-c * m22 + c * X[4] * m12) / det
    local f3 = (-c * X[4] * m11 + c * m21) / det
    f = {f1, r * f1, f3, c + s * f3}
  end
  local function M_of(p, forces, w, unit)
    local left, right, new = 0, 0, 0
    for i, at in ipairs(X) do
      if i < 3 and at > p and p < a then left = left + forces[i] * (at - p) end
      if i > 2 and at < p and p > b then right = right + forces[i] * (p - at) end
      if at < p then new = new - forces[i] * (p - at) end
    end
    if p < a then left = left - w * (a - p) ^ 2 / 2 end
    if p > b then right = right - w * (p - b) ^ 2 / 2 - unit * (p - b) end
    local on = math.max(0, math.min(p, b) - a)
    return left + right, new - w * on * (p - a - on / 2)
  end
  local D, n, EI = 0, 20000, 1.6e6 * 1.5 * 9.25 ^ 3 / 12 / 144
  for i = 1, n do
    local p = (i - 0.5) * L / n
    local M, N = M_of(p, F, W_L, 0)
    local m, o = M_of(p, f, 0, 1)
    D = D + (M * m + (p > 2.6667 and p < 10 and N * o or 0)) / EI * L / n
  end
  local k = 10 * 180000 * 0.5 ^ 1.5 * 12
  for i = 1, 4 do D = D + F[i] * f[i] / k end
  support.close(value(steps, "D"), 12 * D, 1e-3)
end

-- A sister as deep from bearing to bearing, not lifted, has half of the live load; the
-- dead load stays in the joist. M at the middle, V and R by that; D of both in closed
-- form, and of the joist alone.
function T.test_a_full_sister_by_stiffness()
  local page = under_repair(page_with({span = "13-6"}, ns.sister {fastener = BOLT,
    pitch = "12 in"}))
  local L, EI = 13.5, 1.6e6 * 1.5 * 9.25 ^ 3 / 12
  local steps = lines(page, "bending, existing joist at")
  support.close(value(steps, "q"), 0.5, 1e-3)
  support.close(value(steps, "M"), 12 * (W_D + W_L / 2) * L ^ 2 / 8, 5e-4)
  steps = lines(page, "bearing, support 1 at")
  support.close(value(steps, "R"), (W_D + W_L / 2) * L / 2, 5e-4)
  steps = lines(page, "deflection-total at")
  support.close(value(steps, "D"), 5 / 384 * 162 ^ 4 / 12 * (W_D / EI + W_L / (2 * EI)),
    1e-3)
  support.close(worked(one(steps, "D_a")), 5 / 384 * 162 ^ 4 / 12 * W_L / (2 * EI), 2e-3)
end

-- A hanger at the face of an end notch moves the bearing; places of its sums are from
-- there and the page says so. What lies behind it stands over the seat.
function T.test_a_hanger_has_a_span_of_its_own()
  local page = under_repair(page_with({span = "13-6", cuts = {ns.end_notch {
    support = "left", face = "bottom", depth = "2-3/4 in"}}}, ns.hanger {
    support = "left", capacity = "1200 lb"}))
  local steps = lines(page, "bending at")
  local x_0 = value(steps, "x_0")
  lu.assertTrue(x_0 > 0.1 and x_0 < 0.5, x_0)
  support.close(value(steps, "M"), 12 * W * (13.5 - x_0) ^ 2 / 8, 1e-3)
  steps = lines(page, "fasteners, hanger (hanger) at")
  support.close(value(steps, "G"), W * (13.5 - x_0) / 2 + W * x_0, 1e-3)
end

-- Headed off at 5-0: R of the tail hangs on a header of two bays, in its middle.
function T.test_a_header_and_its_tails_have_their_sums()
  local joists = {}
  for i = 1, 5 do joists[i] = {mark = "H" .. i} end
  joists[3].cuts = {ns.sever {from = "6-0", to = "6-5"}}
  local f = ns.floor {name = "Headed", size = "2x10", material = DFL, span = "13-6",
    spacing = 16, bearing = 3.5, dead = 12, live = 40, joists = joists}
  local r = f:fix("H3", ns.header {at = {"5-0", "7-6"}, size = "2x10",
    trimmer_plies = 2}):review()
  local page = under_repair(document.text((calculation.of(r.joists.H3,
    {steps = "all"}))))
  local steps = lines(page, "bearing, support 2 (tail) at")
  support.close(value(steps, "R"), W * 5 / 2, 5e-4)
  steps = lines(page, "bending (header) at")
  lu.assertStrContains(one(steps, "x_0").printed, "left end of the header")
  local P = value(steps, "M") * 4 / 12 / (32 / 12)        -- M = P (2 x 16 in)/4
  lu.assertTrue(P >= W * 2.5 - 0.5, P)
end

---------------------------------------------------------------------------
-- Loads that vary, plies, splits, cuts together
---------------------------------------------------------------------------

-- From nothing at 3-0 to 60 plf at 9-0: W = 180 lb at 3 + 2/3 x 6 = 7 ft.
function T.test_a_load_that_varies()
  local page = page_of {span = "13-6", loads = {ns.line {load = "0 plf",
    to_load = "60 plf", case = "dead", from = "3-0", to = "9-0"}}}
  local L = 13.5
  local R = W * L / 2 + 180 * (L - 7) / L
  local steps = lines(page, "bearing, support 1 at")
  support.close(value(steps, "R"), R, 5e-4)
  steps = lines(page, "bending at")
  local x = tonumber(one(steps, "M").formula:match "x = ([%d.]+) ft")
  local on = x - 3
  support.close(value(steps, "M"), 12 * (R * x - W * x ^ 2 / 2 - 10 * on ^ 3 / 6), 5e-4)
  steps = lines(page, "deflection-total at")
  local at = tonumber(one(steps, "D_1").formula:match "unit load at ([%d.]+) ft")
  local D, n, EI = 0, 20000, 1.6e6 * 1.5 * 9.25 ^ 3 / 12 / 144
  for i = 1, n do
    local p = (i - 0.5) * L / n
    local u = math.max(0, math.min(p, 9) - 3)
    local M = R * p - W * p ^ 2 / 2 - 10 * u ^ 2 / 2 * (p - 3 - u * 2 / 3)
    D = D + M * (p < at and p * (L - at) / L or at * (L - p) / L) / EI * L / n
  end
  support.close(value(steps, "D"), 12 * D, 1e-3)
end

-- Of two plies, not fastened, each carries half: at a hole in one M is w L^2/16.
function T.test_a_cut_in_one_ply_has_its_sums()
  local page = page_of {span = "13-6", plies = 2, cuts = {ns.hole {at = "6-9",
    diameter = 4, ply = 1}}}
  local title = page:match "\n(net%-bending, hole 1, ply 1 at[^\n]*)\n"
  local steps = lines(page, title)
  support.close(value(steps, "M"), 12 * W / 2 * 13.5 ^ 2 / 8, 5e-4)
  support.close(value(steps, "A"), 1.5 * (9.25 - 4), 5e-4)
end

-- A split 4 in below the top of 9-1/4 in: both parts bend each by itself, I is the sum of
-- their own, the deeper one's edge is at 5.25/2.
function T.test_a_split_has_its_parts()
  local page = page_of {span = "13-6", cuts = {ns.split {from = "3-0", to = "5-0",
    at_depth = 4}}}
  local steps = lines(page, "net-bending, split 1 at")
  local I = 1.5 * (4 ^ 3 + 5.25 ^ 3) / 12
  support.close(value(steps, "I"), I, 5e-4)
  support.close(value(steps, "S_b"), I / (5.25 / 2), 5e-4)
end

-- A hole over a notch counts with it: what is left of 9-1/4 in is 3.25 to 4.75 (1-1/2 in
-- notched off at the bottom, 1-3/4 in of wood, a hole of 3 in) and the rest above.
function T.test_cuts_that_count_together_are_written_as_rectangles()
  local page = page_of {span = "13-6", cuts = {ns.notch {face = "bottom", from = "5-0",
    to = "5-4", depth = 1.5}, ns.hole {at = "5-2", diameter = 3, below = 3.25}}}
  local steps = lines(page, "net-bending, hole 2 at")
  local A1, A2, y1, y2 = 1.75, 3, 1.5 + 0.875, 6.25 + 1.5
  local y = (A1 * y1 + A2 * y2) / (A1 + A2)
  local I = 1.5 * ((1.75 ^ 3 + 27) / 12 + A1 * (y - y1) ^ 2 + A2 * (y2 - y) ^ 2)
  support.close(value(steps, "A"), 1.5 * 4.75, 5e-4)
  support.close(value(steps, "I"), I, 5e-4)
end

-- Factored loads: 1.2 D + 1.6 L.
function T.test_factored_loads()
  local r = joist {span = "13-6"}:review {standard = "us-nds-2018-lrfd"}
  local steps = lines(document.text((calculation.of(r, {steps = "all"}))), "bending at")
  support.close(value(steps, "M"), 12 * (1.2 * W_D + 1.6 * W_L) * 13.5 ^ 2 / 8, 5e-4)
  lu.assertStrContains(one(steps, "R_1").formula, "1.2D + 1.6L")
end

-- In m, N/m and N: the same sums.
function T.test_metric()
  local r = joist {span = "4 m", units = "metric"}:review()
  local steps = lines(document.text((calculation.of(r, {steps = "all"}))), "bending at")
  local w = 52 * 47.88026 * 16 * 0.0254
  support.close(value(steps, "R_1"), w * 2, 1e-3)
  support.close(value(steps, "M"), 1000 * w * 16 / 8, 1e-3)
  steps = lines(document.text((calculation.of(r, {steps = "all"}))),
    "deflection-total at")
  local EI = 1.6e6 * 0.006894757 * 38.1 * 234.95 ^ 3 / 12   -- MPa, mm
  support.close(value(steps, "D"), 5 * w / 1000 * 4000 ^ 4 / (384 * EI), 1e-3)
  lu.assertStrContains(one(steps, "D").formula, "5*w*L^4")
end

return T
