-- SPDX-License-Identifier: MIT
-- What stands under a metric floor is printed in its units: members by themselves, the
-- load path, lines of shores. Pages are read for US units; some numbers are converted
-- here.
local lu = require "luaunit"
local ns = require "netsection"

local T = {}

-- Exact by definition (NIST SP 811): mm in an inch, kN in a pound.
local IN, LB = 25.4, 0.45359237 * 9.80665 / 1000

local WOOD = {Fb = 900, CF = 1.1, Fv = 180, Ft = 575, Fc = 1350, Fc_perp = 625, E = 1.6e6,
  Emin = 580000, G = 0.5, source = "given"}
local UNITS = {"psi", "psf", "pcf", "plf", "lb", "lbs", "ft", "inch", "inches", "feet"}

-- What a formula that holds in its own units alone gives stands in both: "= 1375 psf = ".
local function metric_alone(page)
  for line in page:gsub('"[bd]/6"', ""):gmatch "[^\n]+" do
    line = line:gsub("%d [%a]+ = (%d)", "%1")
    for _, unit in ipairs(UNITS) do
      lu.assertNil(line:find("%f[%a]" .. unit .. "%f[%A]"), line)
    end
    lu.assertNil(line:match '%d"' or line:match "%d'%-?%d" or line:match "%d in%f[%A]",
      line)
  end
end

local POST = ns.post {size = "4x4", length = "2.4 m", material = WOOD,
  footing = ns.footing {soil = "72 kPa", thickness = "200 mm"},
  sole = ns.plate {size = "2x6", material = WOOD}}

local function floor(units)
  local joists = {}
  for i = 1, 5 do joists[i] = {mark = "J" .. i} end
  joists[3].cuts = {ns.sever {from = "1.8 m", to = "1.95 m"}}
  return ns.floor {name = "Loft", units = units, b = "38 mm", d = "235 mm",
    material = WOOD, span = "4.1 m", spacing = "400 mm", bearing = "89 mm",
    dead = "0.6 kPa", live = "1.9 kPa", joists = joists}
end

local function path(units)
  return floor(units):load_path {beams = {ns.beam_line {at = "1.9 m", size = "4x10",
    material = WOOD, posts = {"J1", "J5"}, post = POST}}, below = {
    left = ns.plate {size = "2x4", material = WOOD},
    right = ns.wall {plate = ns.plate {size = "2x4", material = WOOD},
      stud = ns.post {size = "2x4", length = "2.4 m", material = WOOD},
      spacing = "400 mm", above = "5 kN/m"}}}
end

-- 5000 lb are 22.2 kN, 96 in 2438 mm; US pages keep their own.
function T.test_members_by_themselves()
  local post = ns.post {size = "4x4", length = "8-0", load = 5000, material = WOOD}
  local us, other = post:review(), post:review {units = "metric"}
  metric_alone(other:text {steps = "all"})
  lu.assertStrContains(other.title, ("load %.1f kN"):format(5000 * LB))
  lu.assertStrContains(other.title, ("%.0f mm high"):format(96 * IN))
  lu.assertStrContains(us.title, "8'-0\" high, load 5000 lb")
  for i, k in ipairs(us.checks) do
    lu.assertEquals(other.checks[i].ratio, k.ratio)
  end
  local footing = ns.footing {soil = "1500 psf", thickness = 10, post = 3.5, load = 3000}
  metric_alone(footing:review {units = "metric"}:text())
  lu.assertStrContains(footing:review():text(), "1500 psf")
  lu.assertErrorMsgContains('units: "us" or "metric" expected', function()
    post:review {units = "SI"}
  end)
end

function T.test_a_load_path_in_the_units_of_its_floor()
  local us, other = path(nil), path "metric"
  local page = other:text {steps = "all"}
  metric_alone(page)
  metric_alone((other:plot():gsub("#[^\n]*", ""):gsub("\nset [^\n]*", "")))
  -- All that the joists put down, in kN with two decimals.
  lu.assertStrContains(page, ("%.2f"):format((other.floor.D + other.floor.L) * LB))
  lu.assertStrContains(us:text(), ("%.0f"):format(us.floor.D + us.floor.L))
  lu.assertEquals(us.floor, other.floor)
  lu.assertStrContains(us:text(), "psi")
end

function T.test_lines_of_shores_in_the_units_of_the_floor()
  local function shores(units)
    return floor(units):shores {mark = "J3", at = {"1.5 m", "2.3 m"},
      construction_live = "1.2 kPa", beside = 1, beam = ns.beam_line {size = "4x6",
      material = WOOD, post = ns.post {size = "4x4", length = "2.4 m", material = WOOD}}}
  end
  local s = shores "metric"
  metric_alone(s:text())
  lu.assertStrContains(s:text(), "3 mm or less")          -- 1/8 in
  lu.assertStrContains(s:text(), "at 1500 mm")
  lu.assertStrContains(shores(nil):text(), "1/8 in or less")
end

return T
