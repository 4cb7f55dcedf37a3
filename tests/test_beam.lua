-- SPDX-License-Identifier: MIT
-- The beam engine against an independent solution in exact rationals (see
-- tests/reference/beams_sympy.py) and against handbook formulas.
local lu = require "luaunit"
local core = require "netsection.core"

local cases = dofile "tests/reference/beams.lua"
local T = {}

local function beam_of(case)
  local loads = {}
  for i, load in ipairs(case.loads) do
    loads[i] = {from = load.from, to = load.to, w1 = load.w1, w2 = load.w2,
      at = load.at, P = load.P}
  end
  return core.beam {spans = case.spans, EI = case.EI, hinges = case.hinges,
    overhang_left = case.overhang_left, overhang_right = case.overhang_right,
    loads = loads}
end

-- Relative to the largest value of its kind in the case, so that a zero that
-- comes out as 1e-16 passes and a wrong small value does not.
local function scale_of(case, key)
  local scale = 0
  for _, s in ipairs(case.samples) do
    scale = math.max(scale, math.abs(s[key] or 0))
  end
  return scale
end

local function check(case, key, got, want, what)
  local error_ = math.abs(got - want) / math.max(scale_of(case, key), 1e-9)
  lu.assertTrue(error_ <= 1e-9, ("%s: %s at %s: %.17g, expected %.17g")
    :format(case.name, key, what, got, want))
end

function T.test_matches_exact_rational_solutions()
  lu.assertTrue(#cases >= 30)
  for _, case in ipairs(cases) do
    local beam = beam_of(case)
    for j, R in ipairs(beam:reactions()) do
      check(case, "V_left", R, case.reactions[j], "support " .. j)
    end
    for _, s in ipairs(case.samples) do
      local left, right = beam:at(s.x, "left"), beam:at(s.x, "right")
      check(case, "V_left", left.V, s.V_left, s.x)
      check(case, "V_left", right.V, s.V_right, s.x)
      check(case, "M", right.M, s.M, s.x)
      if s.slope then check(case, "slope", right.slope, s.slope, s.x) end
      check(case, "deflection", right.deflection, s.deflection, s.x)
    end
  end
end

function T.test_extremes_match_exact_solutions()
  for _, case in ipairs(cases) do
    local got = beam_of(case):extremes()
    for name, key in pairs {M_max = "M", M_min = "M",
      deflection_max = "deflection", deflection_min = "deflection"} do
      local want = case.extremes and case.extremes[name]
      if want then check(case, key, got[name].value, want.value, name) end
    end
  end
end

-- Beam formulas as in AWC Design Aid No. 6 (Beam Formulas with Shear and Moment Diagrams)
-- and every steel manual's table of the same: figures by their titles.
local EI, L, w, P = 1.5e8, 160, 5, 900

local function near(got, want, what)
  lu.assertTrue(math.abs(got - want) <= 1e-9 * math.max(math.abs(want), 1e-6),
    ("%s: %.17g, expected %.17g"):format(what, got, want))
end

function T.test_simple_beam_formulas()
  local uniform = core.beam {spans = {L}, EI = EI, loads = {{from = 0, to = L, w1 = w}}}
  near(uniform:at(L / 2).M, w * L ^ 2 / 8, "uniform, M")
  near(uniform:at(L / 2).deflection, 5 * w * L ^ 4 / (384 * EI), "uniform, deflection")
  near(uniform:at(0).slope, w * L ^ 3 / (24 * EI), "uniform, end slope")
  local a, b = 60, 100
  local point = core.beam {spans = {L}, EI = EI, loads = {{at = a, P = P}}}
  near(point:at(a).M, P * a * b / L, "point load at any place, M")
  near(point:at(a).deflection, P * a ^ 2 * b ^ 2 / (3 * EI * L), "deflection at it")
  near(point:extremes().deflection_max.value,
    P * a * (L ^ 2 - a ^ 2) ^ 1.5 / (9 * 3 ^ 0.5 * EI * L), "its largest deflection")
  local rising = core.beam {spans = {L}, EI = EI, loads = {{from = 0, to = L, w1 = 0,
    w2 = w}}}
  local W = w * L / 2
  near(rising:extremes().M_max.value, 2 * W * L / (9 * 3 ^ 0.5), "rising to one end, M")
  near(rising:reactions()[2], 2 * W / 3, "rising to one end, R2")
end

function T.test_overhang_and_continuous_formulas()
  local c = 40
  local over = core.beam {spans = {L}, overhang_right = c, EI = EI,
    loads = {{at = L + c, P = P}}}
  near(over:at(L).M, -P * c, "overhang, load at its end, M")
  near(over:at(L + c).deflection, P * c ^ 2 * (L + c) / (3 * EI), "its tip")
  local two = core.beam {spans = {L, L}, EI = EI,
    loads = {{from = 0, to = 2 * L, w1 = w}}}
  near(two:at(L).M, -w * L ^ 2 / 8, "two equal spans, uniform, M over the support")
  near(two:reactions()[1], 3 * w * L / 8, "R1")
  local one = core.beam {spans = {L, L}, EI = EI, loads = {{from = 0, to = L, w1 = w}}}
  near(one:at(L).M, -w * L ^ 2 / 16, "two spans, one loaded")
  near(one:reactions()[3], -w * L / 16, "far end lifts")
  local three = core.beam {spans = {L, L, L}, EI = EI,
    loads = {{from = 0, to = 3 * L, w1 = w}}}
  near(three:at(L).M, -0.1 * w * L ^ 2, "three equal spans, uniform")
  near(three:at(1.5 * L).M, 0.025 * w * L ^ 2, "its middle span")
end

-- Patch load: V at x of a simple span is largest with live load on one side only,
-- w (L - x)^2 / (2 L) (influence lines, any text on statics).
function T.test_patch_live_load()
  local beam = core.beam {spans = {L}, EI = EI,
    loads = {{from = 0, to = L, w1 = w, case = "live"}}}
  for _, x in ipairs {10, 60, 80, 131} do
    local e = beam:envelope(x)
    near(e.V_max, w * (L - x) ^ 2 / (2 * L), "V max")
    near(e.V_min, -w * x ^ 2 / (2 * L), "V min")
    near(e.M_max, w * x * (L - x) / 2, "M max")
    near(e.M_min + 1, 1, "M min")
  end
end

function T.test_mechanism_is_refused()
  lu.assertErrorMsgContains("mechanism", core.beam, {spans = {L}, EI = EI,
    hinges = {{at = 50}}})
  lu.assertErrorMsgContains("mechanism", core.beam, {spans = {L, L}, EI = EI,
    hinges = {{at = 50}, {at = 100}}})
end

return T
