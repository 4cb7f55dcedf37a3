-- SPDX-License-Identifier: MIT
-- Two beams tied at stations: against an independent solution in exact rationals (see
-- tests/reference/two_beams.py, direct stiffness), against statics where it decides, and
-- against beam formulas.
local lu = require "luaunit"
local core = require "netsection.core"

local cases = dofile "tests/reference/two_beams.lua"
local T = {}
local TOLERANCE = 1e-9

---------------------------------------------------------------------------------------
-- What the interface looks like, in one place.

local function stations_of(case)
  local stations = {}
  for j, s in ipairs(case.stations) do
    stations[j] = {at = s.at, k = s.rigid and math.huge or s.k}
  end
  return stations
end

local function pair_of(case, loads)
  local beside = case.beside
  return core.beam {spans = case.spans, EI = case.EI, gap = case.gap,
    overhang_left = case.overhang_left, overhang_right = case.overhang_right,
    loads = loads or case.loads,
    beside = {from = beside.from, to = beside.to, EI = beside.EI, bears = beside.bears,
      stations = stations_of(case)}}
end

local function under_live(case)
  local length = case.overhang_right
  for _, span in ipairs(case.spans) do length = length + span end
  return pair_of(case, {{from = -case.overhang_left, to = length, w1 = case.live,
    case = "live"}})
end

-- Reactions of the second beam are its shear at its ends.
local function bearing(beam, case, side)
  if side == "left" then return beam:beside_at(case.beside.from, "right").V end
  return -beam:beside_at(case.beside.to, "left").V
end

-- Most and least of an effect of the file, in the order it has them there.
local range = {
  station = function(beam, effect) return beam:station_envelope(effect.number) end,
  reaction = function(beam, effect) return beam:reaction_range(effect.number) end,
  bearing = function(beam, effect, case)
    if effect.side == "left" then
      local e = beam:beside_envelope(case.beside.from, "right")
      return e.V_max, e.V_min
    end
    local e = beam:beside_envelope(case.beside.to, "left")
    return -e.V_min, -e.V_max
  end,
}
for _, key in ipairs {"V", "M"} do
  local function of(e) return e[key .. "_max"], e[key .. "_min"] end
  range[key .. " host"] = function(beam, effect)
    return of(beam:envelope(effect.x, effect.side))
  end
  range[key .. " beside"] = function(beam, effect)
    return of(beam:beside_envelope(effect.x, effect.side))
  end
end

---------------------------------------------------------------------------------------
-- Relative to the largest value of its kind in the case, so that a zero that comes out
-- as 1e-16 passes and a wrong small value does not.

local KIND = {V_left = "V", V_right = "V", force = "V"}

local function scales_of(case)
  local scale = {V = 1e-9, M = 1e-9, deflection = 1e-9, slope = 1e-9}
  for _, list in ipairs {case.host, case.second, case.stations} do
    for _, sample in ipairs(list) do
      for key, v in pairs(sample) do
        local kind = KIND[key] or key
        if scale[kind] then scale[kind] = math.max(scale[kind], math.abs(v)) end
      end
    end
  end
  return scale
end

local function checker(case)
  local scale = scales_of(case)
  return function(kind, got, want, what, ...)
    local off = math.abs(got - want) / scale[kind]
    lu.assertTrue(off <= TOLERANCE, ("%s: %s: %.17g, expected %.17g")
      :format(case.name, what:format(...), got, want))
  end
end

local function near(got, want, what, tolerance)
  lu.assertTrue(math.abs(got - want) <= (tolerance or 1e-9 * math.abs(want)),
    ("%s: %.17g, expected %.17g"):format(what, got, want))
end

local function named(name)
  for _, case in ipairs(cases) do if case.name == name then return case end end
  error("no case " .. name)
end

---------------------------------------------------------------------------------------

function T.test_forces_of_stations_and_supports()
  lu.assertTrue(#cases >= 30)
  for _, case in ipairs(cases) do
    local beam, check = pair_of(case), checker(case)
    for j, s in ipairs(case.stations) do
      check("V", beam:station(j), s.force, "station %d", j)
    end
    local R = beam:reactions()
    lu.assertEquals(#R, #case.reactions)
    for j, want in ipairs(case.reactions) do check("V", R[j], want, "support %d", j) end
    for side, want in pairs(case.bearings) do
      check("V", bearing(beam, case, side), want, "second beam's %s bearing", side)
    end
  end
end

-- At an edge of the gap only the side with wood deflects; within it V and M are nil.
local function check_host(beam, check, s)
  local left, right = beam:at(s.x, "left"), beam:at(s.x, "right")
  check("V", left.V, s.V_left, "host, V left of %g", s.x)
  check("V", right.V, s.V_right, "host, V right of %g", s.x)
  for side, got in pairs {left = left, right = right} do
    check("M", got.M, s.M, "host, M %s of %g", side, s.x)
    if s.deflection and (s.side or side) == side then
      check("deflection", got.deflection, s.deflection, "host, deflection at %g", s.x)
      check("slope", got.slope, s.slope, "host, slope at %g", s.x)
    end
  end
end

function T.test_host_beam()
  for _, case in ipairs(cases) do
    local beam, check = pair_of(case), checker(case)
    for _, s in ipairs(case.host) do check_host(beam, check, s) end
  end
end

function T.test_second_beam()
  for _, case in ipairs(cases) do
    local beam, check = pair_of(case), checker(case)
    for _, s in ipairs(case.second) do
      local left, right = beam:beside_at(s.x, "left"), beam:beside_at(s.x, "right")
      check("V", left.V, s.V_left, "second beam, V left of %g", s.x)
      check("V", right.V, s.V_right, "second beam, V right of %g", s.x)
      check("M", left.M, s.M, "second beam, M left of %g", s.x)
      check("M", right.M, s.M, "second beam, M at %g", s.x)
      check("deflection", right.deflection, s.deflection, "second beam, sag at %g", s.x)
    end
  end
end

-- Live load lies only where it hurts.
function T.test_envelopes()
  local seen = 0
  for _, case in ipairs(cases) do
    local beam, check = case.live and under_live(case), checker(case)
    for _, effect in ipairs(case.envelope or {}) do
      local most, least = range[effect.kind](beam, effect, case)
      local kind = effect.kind:match "^M " and "M" or "V"
      local place = effect.x or effect.number or effect.side
      check(kind, most, effect.most, "most %s, %s", effect.kind, place)
      check(kind, least, effect.least, "least %s, %s", effect.kind, place)
      seen = seen + 1
    end
  end
  lu.assertTrue(seen >= 80)
end

---------------------------------------------------------------------------------------
-- A 2x10 joist of 162 in under 69.333 lb/ft, cut through from 72 to 77 in, a second 2x10
-- from 36 to 113 in with stations at 40 and 70, 79 and 109. Load over the gap goes on
-- the second beam. Forces a, b, c, d on the second beam, down; statics alone:
--   left part about its bearing:   40 a + 70 b = w 72^2/2 = A
--   right part about its bearing:  83 c + 53 d = w 85^2/2 = B
--   second beam, force:            a + b + c + d + 5 w = 0
--   second beam about x = 74.5:    34.5 a + 4.5 b = 4.5 c + 34.5 d
-- b and c from the first two into the others leave two equations in a and d.
local W = 69.3333333333333333 / 12

local function severed_forces(w)
  local A, B = w * 72 ^ 2 / 2, w * 85 ^ 2 / 2
  local p, q, f = 1 - 40 / 70, 1 - 53 / 83, -(5 * w + A / 70 + B / 83)
  local r, s = 34.5 - 4.5 * 40 / 70, -(34.5 - 4.5 * 53 / 83)
  local m = 4.5 * (B / 83 - A / 70)
  local a, d = (f * s - q * m) / (p * s - q * r), (p * m - r * f) / (p * s - q * r)
  return {a, (A - 40 * a) / 70, (B - 53 * d) / 83, d}
end

function T.test_severed_joist_by_statics()
  local printed = {-620.5, 568.5, 654.9, -631.8}
  local want = severed_forces(W)
  for _, name in ipairs {"severed, four stations", "severed, four rigid stations",
    "severed, four stations, two at the second beam's very ends"} do
    local beam = pair_of(named(name), {{from = 0, to = 162, w1 = W}})
    for j = 1, 4 do
      near(beam:station(j), want[j], "station " .. j)
      near(beam:station(j), printed[j], "station " .. j, 0.1)
    end
    -- at the outer stations the host carries all of the moment
    for _, x in ipairs {40, 109} do
      near(beam:at(x).M, W * x * (162 - x) / 2, "host at an outer station")
    end
    near(beam:beside_at(74.5).M, W * 74.5 * 87.5 / 2, "second beam over the gap")
    near(beam:beside_at(74.5).V, W * (81 - 74.5), "its V there")
  end
end

-- Where one beam alone carries everything (the host up to the outer station, the second
-- beam over the gap), V and M have the influence lines of the simple span: most V is
-- w (L - x)^2/(2 L), least -w x^2/(2 L), most M w x (L - x)/2, least nil.
function T.test_severed_joist_under_patches()
  local L, D, w = 162, 12 * 16 / 144, 40 * 16 / 144
  local beam = pair_of(named "severed, four stations", {{from = 0, to = L, w1 = D},
    {from = 0, to = L, w1 = w, case = "live"}})
  local function simple(e, x)
    local V, M = D * (L / 2 - x), D * x * (L - x) / 2
    near(e.V_max, V + w * (L - x) ^ 2 / (2 * L), "V max at " .. x)
    near(e.V_min, V - w * x ^ 2 / (2 * L), "V min at " .. x)
    near(e.M_max, M + w * x * (L - x) / 2, "M max at " .. x)
    near(e.M_min, M, "M min at " .. x)
  end
  simple(beam:envelope(20), 20)
  simple(beam:envelope(40, "left"), 40)
  simple(beam:envelope(130), 130)
  simple(beam:beside_envelope(74.5), 74.5)
end

-- Two equal beams side by side over the whole span, both bearing at both ends and tied
-- rigidly at equal distances s: as the ties follow both alike, each takes half, and the
-- load between ties adds moments of order w s^2/24 to the host. So the moment halves.
function T.test_a_twin_halves_the_moment()
  local L, w, s = 153, 6, 9
  for _, name in ipairs {"twins, sixteen rigid stations",
    "twins, sixteen very stiff stations"} do
    local beam = pair_of(named(name))
    for _, x in ipairs {36, 72, 81, 117} do
      local M = w * x * (L - x) / 2
      near(beam:at(x).M, M / 2, "host's half", w * s ^ 2 / 12)
      near(beam:beside_at(x).M, M / 2, "second beam's half", w * s ^ 2 / 12)
      near(beam:at(x).M + beam:beside_at(x).M, M, "both")
    end
  end
end

-- One tie at midspan, both beams bearing at both ends: 5 w L^4/(384 EI) - F L^3/(48 EI)
-- = F L^3/(48 EI2) + F/k, from the formulas of a simple beam (AWC Design Aid No. 6).
function T.test_one_station_at_midspan()
  local L, w, EI, EI2 = 160, 6, 1.58e8, 9e7
  for _, k in ipairs {1, 500, 2e4, 1e9, math.huge} do
    local beam = core.beam {spans = {L}, EI = EI, loads = {{from = 0, to = L, w1 = w}},
      beside = {from = 0, to = L, EI = EI2, bears = {left = true, right = true},
        stations = {{at = L / 2, k = k}}}}
    local F = 5 * w * L ^ 4 / (384 * EI) / (L ^ 3 / 48 * (1 / EI + 1 / EI2) + 1 / k)
    near(beam:station(1), F, "force")
    near(beam:beside_at(L / 2).M, F * L / 4, "second beam's M")
    near(beam:at(L / 2).M, w * L ^ 2 / 8 - F * L / 4, "host's M")
    near(beam:beside_at(L / 2).deflection, F * L ^ 3 / (48 * EI2), "second beam's sag")
    near(beam:at(L / 2).deflection, F * L ^ 3 / (48 * EI2) + F / k, "host's sag")
  end
end

-- Unknown forces must be as many as equations: each severed part turns about its one
-- bearing, the second beam shifts and turns, so three stations do not hold them.
function T.test_mechanism_is_refused()
  for _, places in ipairs {{40, 70, 79}, {40, 109}} do
    local stations = {}
    for j, x in ipairs(places) do stations[j] = {at = x, k = 1e5} end
    lu.assertErrorMsgContains("mechanism", core.beam, {spans = {162}, EI = 1.58e8,
      gap = {72, 77}, loads = {{from = 0, to = 162, w1 = W}},
      beside = {from = 36, to = 113, EI = 1.58e8, bears = {left = false, right = false},
        stations = stations}})
  end
end

return T
