-- SPDX-License-Identifier: MIT
-- A message about a field quotes its limits in the metric unit the field was written in;
-- limits of charts are read with their unit. Exact by definition: 25.4 mm, 4.4482 N.
local lu = require "luaunit"
local ns = require "netsection"
local written = require "netsection.written"

local T = {}

local function joist(more)
  local t = {mark = "J1", size = "38x235", species = "Hem-Fir", grade = "No.2",
    span = "4100 mm", spacing = "400 mm", bearing = "90 mm", dead = "0.6 kPa",
    live = "1.9 kPa", units = "metric"}
  for name, value in pairs(more) do t[name] = value end
  return ns.problems(t)[1].text
end

-- 24 to 480 in of span are 609.6 to 12192 mm; 0 to 500 psf are 0 to 23.94 kPa.
function T.test_limits_in_the_unit_written()
  lu.assertStrContains(joist {span = "400 mm"}, "400 mm is outside 609.6 to 12190 mm")
  lu.assertStrContains(joist {span = "41 m"}, "41 m is outside 0.6096 to 12.19 m")
  lu.assertStrContains(joist {live = "30 kPa"}, "30 kPa is outside 0 to 23.94 kPa")
  lu.assertStrContains(joist {live = "30 kN/m2"}, "kN/m2 is outside 0 to 23.94 kN/m2")
  lu.assertStrContains(joist {bearing = "5 mm"}, "5 mm is under 12.7 mm")
  lu.assertStrContains(joist {span = 4100}, "4100 in is outside 24 to 480 in; if "
    .. "millimeters are meant")
  lu.assertStrContains(joist {span = "1-0"}, "12 in is outside 24 to 480 in")
  local ok, why = pcall(ns.floor, {name = "F", joists = {{mark = "J1", size = "2x10",
    span = "4 m", spacing = "400 mm", dead = 10, live = 40}}, obstructions = {
    ns.obstruction {kind = "pipe", joist = "J1", side = "left", from = "0 mm",
      to = "900 mm", bottom = "9000 mm", top = "9100 mm"}}})
  lu.assertFalse(ok)
  lu.assertStrContains(why, " mm is outside -6096 to 6096 mm")
  ok, why = pcall(function()
    ns.footing {mark = "F1", soil = "1 kPa", thickness = "300 mm",
      load = "20 kN"}:review()
  end)
  lu.assertFalse(ok)
  lu.assertStrContains(why, "1 kPa is outside 4.788 to 957.6 kPa")
end

-- What a survey says of a cell: bare lengths of a survey in mm.
function T.test_a_survey_in_mm()
  local _, found = ns.read_survey {units = "mm", joists = "mark,size,span,spacing,dead,"
    .. "live,species,grade\nJ1,38x235,410,400,0.6 kPa,1.9 kPa,Hem-Fir,No.2\n"}
  lu.assertStrContains(found[1].text, "410 mm is outside 609.6 to 12190 mm")
end

function T.test_amounts()
  local function close(text, base, wanted)
    lu.assertAlmostEquals(written.amount(text, base), wanted, 1e-9 * wanted)
  end
  close("10 mm", "in", 10 / 25.4)
  close("5 kN", "lb", 5000 / 4.4482216152605)
  close("5 kN m", "lb-in", 5e6 / 4.4482216152605 / 25.4)
  close("5 kNm", "lb-in", 5e6 / 4.4482216152605 / 25.4)
  close("3000 ft-lb", "lb-in", 36000)
  close("8 N/mm2", "psi", 8 * 25.4 ^ 2 / 4.4482216152605)
  close("1.9 kN/m2", "psf", 1900 / (4.4482216152605 / 0.3048 ^ 2))
  lu.assertNil(written.amount("5 kN", "in"))
  lu.assertNil(written.amount("kN", "lb"))
  lu.assertNil(written.amount("5 bananas", "lb"))
end

-- A line at 5 kN m stands at 5 on a metric axis, at 3688 on one of ft-lb.
function T.test_limits_of_charts()
  local j = ns.joist {mark = "J1", size = "38x235", species = "Hem-Fir", grade = "No.2",
    span = "4100 mm", spacing = "400 mm", dead = "0.6 kPa", live = "1.9 kPa"}
  local function script(units_, limit)
    return ns.plot.curves(ns.sweep {joist = j:with {units = units_},
      over = {spacing = {12, 16, 24}, span = {120, 144}}, values = {"cut.moment"}},
      {value = "cut.moment", x = "spacing", at = {span = 144}, limit = limit})
  end
  lu.assertStrContains(script("metric", "5 kN m"), "'limit 5'")
  lu.assertStrContains(script("us", "5 kN m"), "'limit 3688'")
  lu.assertErrorMsgContains("limit: a number", script, "metric", "5 mm")
end

return T
