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

return T
