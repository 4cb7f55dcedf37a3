-- SPDX-License-Identifier: MIT
-- How a floor feels: deflection under 1 kN, first frequency, published criteria. Values
-- by independent computation (another grid program; f = pi/(2 L^2) sqrt(EI/m) and
-- w = P L^3/(48 EI) of a joist by itself), limits by their formulas as quoted there.
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local T = {}

local close, raises = support.close, support.raises

local WOOD = {Fb = 900, Ft = 575, Fc = 1350, Fv = 180, E = 1.6e6, CF = 1.1,
  Fc_perp = 625, G = 0.5, source = "given"}
local DECK = {across = 300000, along = 80500}
local GAP = {ns.sever {from = 78.5, to = 83.5}}

local function floor(cuts, more)
  local joists = {}
  for i = 1, 7 do
    joists[i] = {mark = "J" .. i, cuts = i == 4 and cuts or nil}
  end
  local t = {name = "V", size = "2x10", spacing = 16, span = 162, bearing = 3.5,
    dead = 12, live = 40, material = WOOD, joists = joists}
  for name, value in pairs(more or {}) do t[name] = value end
  return ns.floor(t)
end

-- One like it bolted on from bearing to bearing: EI is doubled.
local function sister(material)
  return ns.sister {size = "2x10", material = material or WOOD, pitch = 6,
    fastener = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "3 in"}}
end

-- The value that a criterion was judged by, of its limit.
local function of_limit(f, name, state, by)
  for _, c in ipairs(f:judge("J4", state)) do
    if c.name == name then
      local t = c[by or "grid"].tests
      return t[#t].value / t[#t].limit, c[by or "grid"].met, t[#t].limit
    end
  end
  error("no criterion " .. name)
end

-- @param wanted {f1, lone f, d mm, lone d, Ohlsson met, UK, Canada}, nil: not told
local function holds(f, state, wanted)
  local row = f.joists.J4[state]
  close(f.frequency[state], wanted[1], 0.01, "f")
  if wanted[2] then close(row.lone_f, wanted[2], 0.01, "lone f") end
  close(row.d * 25.4, wanted[3], 0.01, "d")
  if wanted[4] then close(row.lone_d * 25.4, wanted[4], 0.01, "lone d") end
  local _, met = of_limit(f, "Ohlsson 1988", state)
  lu.assertEquals(met, wanted[5])
  close((of_limit(f, "UK", state)), wanted[6], 0.01, "UK")
  close((of_limit(f, "Canada", state)), wanted[7], 0.01, "Canada")
end

function T.test_short_floor()
  local f = floor(GAP):feel {deck = DECK}
  holds(f, "uncut", {12.938, 12.814, 1.579, 3.195, false, 0.905, 1.242})
  holds(f, "cut", {10.150, nil, 4.273, nil, false, 2.449, 3.360})
  lu.assertNil(f.joists.J4.cut.lone_d)    -- in two pieces it does not stand alone
  local _, _, limit = of_limit(f, "UK", "cut")
  close(limit, 16500 / 4114.8 ^ 1.1, 1e-9)
  close(limit, 1.745, 0.001)
  _, _, limit = of_limit(f, "Canada", "cut")
  close(limit, 1.272, 0.001)
  close(f.change.cut, (10.150 / 12.938 - 1) * 100, 0.02)
  close(f.joists.J4.change.cut, (4.273 / 1.579 - 1) * 100, 0.02)
end

function T.test_short_floor_with_a_sister()
  local f = floor():fix("J4", sister()):feel {deck = DECK}
  holds(f, "repaired", {14.201, nil, 1.054, 1.598, true, 0.604, 0.829})
  close(f.joists.J4.change.repaired, (1.054 / 1.579 - 1) * 100, 0.02)
end

local LONG = {}
for name, value in pairs(WOOD) do LONG[name] = value end
LONG.E, LONG.Emin = 1.4e6, 510000

-- I 69.12 of 98.93 in4 over 1.75 in.
function T.test_long_floor()
  local depth = 9.25 - (69.12 * 12 / 1.5) ^ (1 / 3)
  local cut = {ns.notch {from = 89.125, to = 90.875, depth = depth, face = "top"}}
  local more = {material = LONG, span = 195, dead = 10}
  local f = floor(cut, more):feel {deck = DECK}
  holds(f, "uncut", {9.244, 9.063, 2.623, 6.369, false, 1.843, 2.624})
  holds(f, "cut", {9.233, 9.027, 2.637, 6.434, false, 1.853, 2.638})
  local _, _, limit = of_limit(f, "UK", "cut")
  close(limit, 1.423, 0.001)
  _, _, limit = of_limit(f, "Canada", "cut")
  close(limit, 0.999, 0.001)
  -- A local net section hardly moves either.
  close(f.joists.J4.change.cut, 0.5, 0.2)
end

function T.test_long_floor_with_a_sister()
  local f = floor(nil, {material = LONG, span = 195, dead = 10}):fix("J4", sister(LONG))
    :feel {deck = DECK}
  holds(f, "repaired", {10.270, nil, 1.851, 3.184, false, 1.301, 1.852})
end

function T.test_225_lb_on_a_joist_by_itself()
  local f = floor():feel {deck = DECK}
  close(f.joists.J4.uncut.lone_d * 225 / 224.809, 0.12590, 1e-3)
  local long = floor(nil, {material = LONG, span = 195, dead = 10}):feel {deck = DECK}
  close(long.joists.J4.uncut.lone_d * 225 / 224.809, 0.25095, 1e-3)
end

-- Limits by span, both sides of each step: 2.0; 8.0/l^1.3; 2.55/l^0.63; 0.6 (m, mm).
function T.test_limits_by_span()
  for l, wanted in pairs {[2.5] = 2.0, [4] = 1.32, [5] = 0.99, [6] = 0.82, [8] = 0.69} do
    local f = floor(nil, {span = l .. " m"}):feel {deck = DECK}
    local _, _, limit = of_limit(f, "Canada", "uncut")
    support.close_abs(limit, wanted, 0.006)
    _, _, limit = of_limit(f, "UK", "uncut")
    close(limit, l <= 4 and 1.8 or 16500 / (1000 * l) ^ 1.1, 1e-9)
  end
end

-- 5 wL^4/(384 EI) of the live load, alone; the live deflection of the code check.
function T.test_live_load_criteria()
  local f = floor():feel {deck = DECK}
  local row = f.joists.J4.uncut
  close(row.lone_live, 5 * 40 * 16 / 144 * 162 ^ 4 / (384 * 1.6e6 * 98.93164), 1e-3)
  close(row.lone_live, floor():review().joists.J4.uncut.deflection.live, 1e-3)
  local _, met = of_limit(f, "live L/480", "uncut", "lone")
  lu.assertTrue(met)
end

-- EN 1995-1-1, 7.3.3, by hand in SI: seven joists of EI 1.6e6 psi x 98.93 in4 over
-- 162 in, 96 in wide, D 12 psf = 58.59 kg/m2, deck 300,000 lb-in2 per ft across.
function T.test_velocity_after_an_impulse()
  local f = floor(GAP):feel {deck = DECK, criteria = {"EN 1995-1-1, velocity"}}
  local b, l, m = 96 * 0.0254, 162 * 0.0254, 12 * 4.88243
  local Nm2 = 4.4482216 * 0.0254 ^ 2    -- of a lb-in2
  local along = 1.6e6 * 1.5 * 9.25 ^ 3 / 12 * Nm2 / (16 * 0.0254)
  local across = 300000 * Nm2 / 0.3048
  for state, wanted in pairs {uncut = {12.938, 1.579, 96.84}, cut = {10.150, 4.273}} do
    local c = f:judge("J4", state)[1]
    lu.assertEquals(c.status, "memory")
    lu.assertStrContains(c.source, "not binding")
    if state == "cut" then
      lu.assertNil(c.grid)    -- 4.273 mm lies beyond the end of the curve, 4 mm
    else
      local hertz, a, b_v = wanted[1], wanted[2], wanted[3]
      local n40 = (((40 / hertz) ^ 2 - 1) * (b / l) ^ 4 * along / across) ^ 0.25
      close(b_v, 120 - 40 * (a - 1), 1e-3)    -- between 1 mm, 120 and 2 mm, 80
      close(c.grid.tests[2].value, 4 * (0.4 + 0.6 * n40) / (m * b * l + 200), 0.01)
      close(c.grid.tests[2].limit, b_v ^ (hertz * 0.01 - 1), 0.01)
      lu.assertEquals(c.grid.tests[2].met, c.grid.tests[2].value
        <= c.grid.tests[2].limit)
    end
  end
  -- Two spans are no floor of that formula; its frequency alone makes no verdict.
  local two = ns.floor {name = "two", size = "2x10", spacing = 16, spans = {120, 120},
    bearing = 3.5, dead = 12, live = 40, material = WOOD, joists = {{mark = "J1"},
      {mark = "J2"}, {mark = "J3"}}}
  local c = two:feel {deck = DECK, criteria = {"EN 1995-1-1, velocity"}}:judge("J2",
    "uncut")[1]
  lu.assertNil(c.grid)
end

function T.test_every_criterion_has_its_source()
  local f = floor():feel {deck = DECK, criteria = "all"}
  local status = {read = true, memory = true, ["common practice"] = true}
  lu.assertEquals(#f.criteria, 14)
  for _, c in ipairs(f.criteria) do
    lu.assertTrue(status[c.status] and #c.source > 0, c.name)
  end
  lu.assertEquals(#floor():feel {deck = DECK}.criteria, 5)
  lu.assertEquals(#floor():feel {deck = DECK, criteria = {"Johnson"}}.criteria, 1)
end

function T.test_refusals()
  local f = floor()
  raises("deck: missing", function() f:feel {} end)
  raises("unknown 'Ohlson'", function()
    f:feel {deck = DECK, criteria = {"Ohlson"}}
  end)
  raises("points: not taken here", function()
    f:feel {deck = DECK, points = {}}
  end)
  raises("feel: options of floor:feel", function() f:review {feel = true} end)
  raises("unknown field 'dack'", function() f:feel {dack = DECK} end)
end

-- An end sister is no line of the grid: said, and no number is made up.
function T.test_a_repair_that_the_grid_does_not_know()
  local f = floor({ns.lost_bearing {support = "left", to = "0-6", cause = "rot"}})
    :fix("J4", ns.end_sister {support = "left", to = "6-0", size = "2x10", side = "left",
      hanger = {capacity = 1500},
      fastener = ns.fastener {kind = "bolt", diameter = "1/2 in"},
      groups = {{at = "2-0", n = 4}, {at = "5-0", n = 4}}})
  local found = f:feel {deck = DECK}
  lu.assertStrContains(found.states.repaired.refused, "J4")
  lu.assertNil(found.joists.J4.repaired)
  lu.assertNil(found.frequency.repaired)
end

-- Nothing of it is in a ratio, an action or another block of the paper.
function T.test_it_changes_no_verdict()
  local f = floor(GAP)
  local grid = {deck = "24oc OSB"}
  local without, with = f:review {grid = grid}, f:review {grid = grid, feel = true}
  local plain, said = ns.report.text(without), ns.report.text(with)
  local a = assert(said:find("Second opinion: how the floor feels", 1, true))
  local b = assert(said:find("\nAssumptions\n", a, true))
  lu.assertEquals(said:sub(1, a - 1) .. said:sub(b + 1), plain)
  for _, word in ipairs {"leave", "justify", "adequate", "pass"} do
    lu.assertNil(said:sub(a, b):find(word, 1, true), word)
  end
  lu.assertEquals(with.summary, without.summary)
  lu.assertStrContains(ns.report.html(with), "how the floor feels")
  lu.assertStrContains(ns.report.csv(with), "feel.frequency.f_cut,10.1497")
  lu.assertStrContains(said:sub(a, b), "Different tests, different floors")
end

return T
