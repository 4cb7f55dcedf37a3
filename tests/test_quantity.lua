-- SPDX-License-Identifier: MIT
-- Quantities as they are printed: every factor against its definition, one system for a
-- whole review, and metric pages against the numbers they come from.
local lu = require "luaunit"
local ns = require "netsection"
local quantity = require "netsection.quantity"

local T = {}

local us, metric = quantity.system "us", quantity.system "metric"

-- SI units in one of the US unit. Exact by definition: 1 in = 25.4 mm, 1 lb =
-- 0.45359237 kg, g = 9.80665 m/s2 (NIST SP 811, appendix B); the rest follows.
local IN, LB = 25.4, 0.45359237 * 9.80665          -- mm, N
local FT = 12 * IN

-- By kind: what one base unit is in the metric unit.
local FACTOR = {
  length = IN, area = IN ^ 2, modulus = IN ^ 3, inertia = IN ^ 4,
  force = LB / 1000, moment = LB * IN / 1e6, section_moment = LB * IN,
  stress = LB / IN ^ 2, line_load = LB / FT, inch_load = LB / IN,
  area_load = LB / FT ^ 2 * 1000, rigidity = LB * IN ^ 2, slip = LB / IN,
  rotation = LB * IN, speed = IN, area_rate = IN / (LB / 1000),
  deck_moment = LB * IN / 1e6 / (FT / 1000),
  unit_weight = LB / 1000 / (FT / 1000) ^ 3,
  deck_rigidity = LB / 1000 * (IN / 1000) ^ 2 / (FT / 1000),
}

-- The same from the printed table of NIST SP 811 (B.8): lbf 4.448222 N,
-- lbf ft 1.355818 N m, lbf in 0.1129848 N m, psi 6.894757 kPa, lbf/ft2 47.88026 Pa,
-- lbf/ft 14.59390 N/m, lbf/in 175.1268 N/m.
local PRINTED = {force = 4.448222e-3, moment = 0.1129848e-3, stress = 6.894757e-3,
  area_load = 47.88026e-3, line_load = 14.59390e-3, inch_load = 0.1751268,
  section_moment = 112.9848, slip = 0.1751268}

function T.test_every_factor_is_its_definition()
  local seen = 0
  for kind in pairs(metric.unit) do
    lu.assertNotNil(FACTOR[kind], kind)
    local one = metric.scaled(kind, 1)
    lu.assertAlmostEquals(one / FACTOR[kind], 1, 1e-14, kind)
    if PRINTED[kind] then lu.assertAlmostEquals(one / PRINTED[kind], 1, 4e-7, kind) end
    lu.assertNotNil(us.unit[kind], kind .. " in us")
    seen = seen + 1
  end
  for kind in pairs(us.unit) do lu.assertNotNil(metric.unit[kind], kind) end
  lu.assertEquals(seen, 19)
  lu.assertEquals(us.scaled("moment", 12), 1)
end

function T.test_units_of_calculation_lines_cohere()
  -- M/S is a stress, b d^2/6 a modulus, w L a force, in N and mm as in lb and in.
  local function of(x, unit) return (metric.coherent(x, unit)) end
  lu.assertAlmostEquals(of(1000, "lb-in") / of(10, "in3"), of(100, "psi"), 1e-12)
  lu.assertAlmostEquals(of(1.5, "in") * of(9.25, "in") ^ 2, of(1.5 * 9.25 ^ 2, "in3"),
    1e-6)
  lu.assertAlmostEquals(of(3, "lb/in") * of(7, "in"), of(21, "lb"), 1e-10)
  lu.assertEquals({us.coherent(12.5, "lb-in")}, {12.5, "lb-in"})
end

-- 1 in is 25.4 mm, 1000 lb are 4.45 kN, 900 psi 6.21 N/mm2, 40 psf 1.92 kN/m2, 66.7 plf
-- 0.973 kN/m, 1000 ft-lb 1.36 kN m; by hand.
function T.test_numbers_as_they_are_printed()
  lu.assertEquals(us.place(162.5), "13'-6 1/2\"")
  lu.assertEquals(us.section(3.5), "3-1/2 in")
  lu.assertEquals(us.size(9.25), '9 1/4"')
  lu.assertEquals(us.moment(12000, 0), "1000 ft-lb")
  lu.assertEquals(us.length(0.2174, 3), "0.217 in")
  lu.assertEquals(metric.place(162.5), "4128 mm")          -- 4127.5
  lu.assertEquals(metric.section(1.5), "38.1 mm")
  lu.assertEquals(metric.section(235 / 25.4), "235 mm")
  lu.assertEquals(metric.force(1000), "4.45 kN")
  lu.assertEquals(metric.force(10), "44 N")                -- under 0.1 kN
  lu.assertEquals(metric.force(0), "0 kN")
  lu.assertEquals(metric.moment(12000, 0), "1.36 kN m")
  lu.assertEquals(metric.stress(900), "6.21 N/mm2")
  lu.assertEquals(metric.area_load(40), "1.92 kN/m2")
  lu.assertEquals(metric.line_load(66.7), "0.973 kN/m")
  lu.assertEquals(metric.length(0.2174, 3), "5.5 mm")
  lu.assertEquals(metric.temperature(100), "37.8 C")
  lu.assertEquals(metric.force(-10), "-44 N")
end

local function joist(units)
  return ns.joist {mark = "J3", b = "38 mm", d = "235 mm", units = units,
    material = {Fb = 900, Ft = 575, Fv = 180, Fc = 1350, Fc_perp = 625, E = 1.6e6,
      Emin = 580000}, span = "4.1 m", spacing = "400 mm", bearing = "89 mm",
    dead = "0.6 kPa", live = "1.9 kPa",
    cuts = {ns.hole {at = "1.6 m", diameter = "100 mm", below = "38 mm"},
      ns.notch {face = "top", from = "600 mm", to = "700 mm", depth = "50 mm"}}}
end

-- The review's option before the joist's field, that before the standard's.
function T.test_one_place_decides()
  lu.assertEquals(joist():review().show.name, "us")
  lu.assertEquals(joist("metric"):review().show.name, "metric")
  lu.assertEquals(joist("metric"):review {units = "us"}.show.name, "us")
  local floor = ns.floor {units = "metric", joists = {joist():with {mark = "A"},
    joist():with {mark = "B"}}}
  local r = floor:review()
  lu.assertEquals(r.joists.A.show.name, "metric")
  lu.assertEquals(quantity.of(r).name, "metric")
  lu.assertEquals(floor:review {units = "us"}.joists.B.show.name, "us")
  lu.assertErrorMsgContains('"us" or "metric" expected, got "imperial"', function()
    joist():review {units = "imperial"}
  end)
  lu.assertErrorMsgContains("units", joist, "SI")
end

-- What is printed has no influence on what is computed.
function T.test_units_change_no_number()
  local a, b = joist():review(), joist("metric"):review()
  lu.assertEquals(ns.report.csv(a), ns.report.csv(b))
  lu.assertEquals(a.cut.ratio, b.cut.ratio)
end

return T
