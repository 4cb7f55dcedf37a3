-- SPDX-License-Identifier: MIT
-- Arguments of the core's own functions at and past their bounds: each is refused by the
-- words of its field, and what stands at the bound is answered, by hand where there is a
-- number. A floor as a grid, beams, draws by chance, columns, lines of CSV, paths.
local core = require "netsection.core"
local lu = require "luaunit"
local ns = require "netsection"
local packs = require "netsection.packs"
local support = require "tests.support"

local T = {}
local raises, close = support.raises, support.close
local with, refused, NONE = support.with, support.refused, ns.none
local NAN, HUGE = 0 / 0, math.huge

-- -- a floor as a grid ----------------------------------------------------------------

-- Two joists of 100 in, 16 in apart, a strip of deck over them at the middle.
local function grid(changes)
  return with({y = {0, 16}, x = {0, 50, 100}, EI = {{1e6, 1e6}, {1e6, 1e6}},
    along = {1, 1}, wood = {{1, 3}, {1, 3}}, held = {{1, 3}, {1, 3}},
    strips = {{station = 2, EI = 1e5, width = 12}}}, changes or {})
end

local function strip(changes)
  return {strips = {with({station = 2, EI = 1e5, width = 12}, changes)}}
end

function T.test_what_a_grid_is_made_of()
  refused(core.grid, grid(), {
    {"grid.x: a list of 2 at least", {x = {0}}},
    {"grid.y: a list of 1 at least", {y = {}}},
    {"x[2]: number expected, got string", {x = {0, "50", 100}}},
    {"x[2]: a finite number", {x = {0, HUGE, 100}}},
    {"x[3]: a finite number", {x = {0, 50, NAN}}},
    {"grid.x: rising numbers", {x = {0, 50, 50}}},
    {"grid.along: a list of 2 at least", {along = {1}}},
    {"grid.along: 0 or more", {along = {1, -1}}},
    {"grid.EI[1]: a list expected", {EI = NONE}},
    {"grid.EI[1]: a list expected", {EI = 7}},
    {"grid.EI[2]: a list expected", {EI = {{1e6, 1e6}, 1e6}}},
    {"grid.EI[2]: 2 to 2 items", {EI = {{1e6, 1e6}, {1e6}}}},
    {"grid.EI[2]: 2 to 2 items", {EI = {{1e6, 1e6}, {1e6, 1e6, 1e6}}}},
    {"grid.EI: 0 to 1e18", {EI = {{1e6, -1}, {1e6, 1e6}}}},
    {"grid.EI: 0 to 1e18", {EI = {{1e6, 1e18}, {1e6, 1e6}}}},
    {"wood[1]: 1 to 3", {wood = {{0, 3}, {1, 3}}}},
    {"wood[2]: 1 to 3", {wood = {{1, 4}, {1, 3}}}},
    {"wood[1]: 1 to 3", {wood = {{1.5, 3}, {1, 3}}}},
    {"grid.held[1]: 0 to 3 items", {held = {{1, 2, 3, 1}, {1, 3}}}},
    {"strips.station: 1 to 3", strip {station = 0}},
    {"strips.station: 1 to 3", strip {station = 4}},
    {"strips.station: 1 to 3", strip {station = 1.5}},
    {"strips.first: 1 to 2", strip {first = 3}},
    {"strips.EI: 0 to 1e18", strip {EI = -1}},
    {"strips.EI: 0 to 1e18", strip {EI = 1e18}},
    {"strips.c: 0 or more", strip {c = {0, -1}}},
  })
  local none, why = core.grid(grid {held = {{}, {}}})
  lu.assertEquals({none, why}, {nil, "part of the floor is held by nothing"})
end

-- Under P at its middle a joist that shares nothing deflects P L^3 / 48 E I and has
-- P L / 4 there; strips without stiffness share nothing.
function T.test_what_a_grid_answers()
  local g = core.grid(grid(with(strip {EI = 0}, {along = {0, 0}})))
  local a = g:solve {P = {{1, 2, 300}}, q = {[2] = {0, 0}}}
  close(a:at(1, 50).w, 300 * 100 ^ 3 / (48 * 1e6), 1e-9)
  close(a:at(1, 50, "left").M, 300 * 100 / 4, 1e-9)
  close(a:at(1, 50, "left").V, 150, 1e-9)
  close(a:at(1, 50, "right").V, -150, 1e-9)
  lu.assertEquals(a:at(1, 100.05, "right").M, a:at(1, 100).M)
  lu.assertEquals(a:at(1, -0.05).w, a:at(1, 0).w)
  for _, i in ipairs {0, 3} do raises("no such joist", a.at, a, i, 50) end
  for _, x in ipairs {-0.2, 100.2} do raises("not on the joist", a.at, a, 1, x) end
  raises("no such joist", a.reactions, a, 3)
  refused(function(t) return g:solve(t) end, {}, {
    {"P[1]: 1 to 2", {P = {{3, 1, 5}}}}, {"P[2]: 1 to 3", {P = {{1, 0, 5}}}},
    {"P[3]: number expected", {P = {{1, 1}}}}, {"q[2]: number", {q = {{1}}}},
  })
  for _, n in ipairs {0, 7} do raises("1 to 6 modes", g.modes, g, {1, 1}, n) end
  raises("mass[2]: number expected", g.modes, g, {1})
  raises("masses above 0", g.modes, g, {1, 0})
end

-- A joist that stands from one station to another alone, and one of no length.
function T.test_a_joist_that_is_part_of_the_grid()
  local g = core.grid(grid {wood = {{1, 3}, {2, 3}}, held = {{1, 3}, {2, 3}}})
  local a = g:solve {P = {{1, 2, 300}}}
  raises("not on the joist", a.at, a, 2, 49)
  lu.assertEquals(a:at(2, 50).M, 0)
  local bare = core.grid(grid {wood = {{1, 3}, {2, 2}}, held = {{1, 3}, {2}}})
  if bare then
    raises("no wood", function() bare:solve({}):extremes(2) end)
  end
end

-- -- beams ----------------------------------------------------------------------------

local function beam(changes)
  return with({spans = {100}, EI = 1e6, loads = {{at = 50, P = 100}}}, changes)
end

local function beside(changes)
  return {beside = with({from = 10, to = 90, EI = 1e6, stations = {{at = 20, k = 1e4},
    {at = 80, k = 1e4}}}, changes)}
end

function T.test_what_a_beam_is_made_of()
  refused(core.beam, beam {}, {
    {"'from' up to 'to' expected", {EI = {{from = 60, to = 40, EI = 1e6}}}},
    {"EI: above 0 expected", {EI = {{from = 0, to = 40, EI = 1e6}}}},
    {"EI.to: on the beam", {EI = {{from = 0, to = 101, EI = 1e6}}}},
    {"hinges[1].at: between the end", {hinges = {{at = 0}}}},
    {"hinges[1].at: between the end", {hinges = {{at = 100}}}},
    {"beam.gap: a beam beside it", {gap = {40, 44}}},
    {"beside.EI: above 0", beside {EI = 0}},
    {"beside: 'from' to 'to' within one span", beside {from = 90, to = 90}},
    {"within one span", with(beside {}, {spans = {50, 50}})},
    {"beside.stations: one at least", beside {stations = {}}},
    {"stations[1].k: above 0", beside {stations = {{at = 20, k = 0}}}},
    {"gap: {from, to} on the beam", with(beside {}, {gap = {0, 44}})},
    {"gap: {from, to} on the beam", with(beside {}, {gap = {44, 44}})},
    {"gap: {from, to} on the beam", with(beside {}, {gap = {40, 100}})},
  })
end

function T.test_what_a_beam_answers()
  local lone, pair = core.beam(beam {}), core.beam(beam(beside {bears = {left = true}}))
  raises("no beam beside it", lone.beside_at, lone, 50)
  raises("no such station", lone.station, lone, 1)
  for _, x in ipairs {9, 91} do
    raises("not on the beam beside it", pair.beside_at, pair, x)
  end
  for _, n in ipairs {0, 3} do
    raises("no such station", pair.station, pair, n)
    raises("no such station", pair.station_envelope, pair, n)
  end
  for _, x in ipairs {-1, 101} do raises("not on the beam", lone.at, lone, x) end
  -- shear is what is on one side of a place: nothing past the ends of either beam
  local both = core.beam(beam(beside {from = 0, to = 100,
    bears = {left = true, right = true}}))
  for _, at in ipairs {both.at, both.beside_at} do
    lu.assertEquals({at(both, 0, "left").V, at(both, 100, "right").V}, {0, 0})
    lu.assertTrue(at(both, 0, "right").V > 1 and at(both, 100, "left").V < -1)
  end
end

-- -- draws by chance ------------------------------------------------------------------

local NORMAL = {of = "normal", a = 0, b = 1}

local function draw(changes)
  return with({how = "plain", seed = 1, each = 4, replicates = 2, first = 0, variable = 0,
    threads = 1, laws = {NORMAL}, to = {core.numbers(8)}}, changes)
end

local function pair(changes, first)
  local second = with({of = "normal", a = 0, b = 1, with = 1, r = 0.5}, changes)
  return {laws = {first or NORMAL, second}, to = {core.numbers(8), core.numbers(8)}}
end

function T.test_what_is_drawn()
  core.draw(draw {})
  refused(core.draw, draw {}, {
    {"draw: how: missing", {how = NONE}},
    {"draw: seed: a whole number", {seed = 1.5}},
    {"draw: each: a whole number from 1", {each = 0}},
    {"draw: each: a whole number from 1", {each = 1.5}},
    {"draw: replicates: a whole number from 1 to 65536", {replicates = 65537}},
    {"draw: to: a column per law", {to = {}}},
    {"draw: to[1]: each x replicates", {to = {core.numbers(7)}}},
    {"law.of: missing", {laws = {{a = 1}}}},
    {"law.upto: one value at least", {laws = {{of = "choice"}}}},
    {"too many draws or inputs", {how = "sobol", each = 3, to = {core.numbers(6)}}},
  })
  local with_words = "law 2: 'with': an input before it"
  refused(core.draw, draw {}, {
    {with_words, pair {with = 2}},
    {with_words, pair {r = 1}}, {with_words, pair {r = -1}},
    {with_words, pair {of = "gumbel"}}, {with_words, pair {of = "fixed"}},
    {with_words, pair({}, {of = "gumbel", a = 0, b = 1})},
    {with_words, pair({}, {of = "fixed", a = 0})},
    {"law 1: 'with'", pair({with = 0}, with(NORMAL, {with = 1, r = 0.5}))},
  })
  core.draw(draw(pair {r = -0.999}))
end

function T.test_numbers_of_chance()
  for _, u in ipairs {0, 1, NAN} do
    raises("between 0 and 1", core.law_at, NORMAL, u)
    raises("between 0 and 1", core.normal_quantile, u)
  end
  for _, x in ipairs {0, -1} do raises("above 0", core.log, x) end
  local c = core.numbers {3, 1, NAN, 2}
  lu.assertEquals({core.quantiles(c, 0, 2, {0, 0.5, 1})}, {1, 2, 3})
  lu.assertEquals({core.quantiles(c, 3, 1, {1})}, {2})
  for _, at in ipairs {-1, 5} do raises("no such place", core.quantiles, c, at, 1, {}) end
  for _, n in ipairs {0, 2} do raises("1 or more", core.quantiles, c, 3, n, {}) end
  for _, p in ipairs {-0.1, 1.1} do raises("0 to 1", core.quantiles, c, 0, 2, {p}) end
  lu.assertEquals({core.count(c, 0, 4, 2), core.count(c, 0, 4)}, {1, 1})
  lu.assertEquals(core.over(c, 0, 4, 2), 2) -- 3, and none
  for _, places in ipairs {{-1, 1}, {5, 0}, {0, -1}, {2, 3}} do
    raises("no such places", core.count, c, places[1], places[2], 1)
  end
  local m, none = core.marked(c, 2), core.marked(c)
  lu.assertEquals({m[1], m[3], m[4], none[1], none[3]}, {0, 0, 1, 0, 1})
  for _, d in ipairs {-1, 1 << 20} do raises("no such dimension", core.sobol, d, 2) end
  for _, m2 in ipairs {-1, 40} do raises("too many bits", core.sobol, 0, m2) end
end

-- -- columns --------------------------------------------------------------------------

local function lanes(...)
  return core.lanes(core.numbers {...}, 0, select("#", ...), 1)
end

local function list(c)
  local t = {}
  for i = 1, #c do t[i] = core.lane(c, i) end
  return t
end

function T.test_columns_that_calculate()
  lu.assertEquals({core.size(-3), core.size(3)}, {3, 3})
  lu.assertEquals(list(core.size(lanes(-3, 2))), {3, 2})
  for _, i in ipairs {0, 3} do raises("no such lane", core.lane, lanes(1, 2), i) end
  raises("no such lane", core.lane, 7, 0)
  lu.assertEquals(core.lane(7, 9), 7)
  raises("checks of other lanes", core.worst,
    {{ratio = lanes(1, 2), binding = lanes(1, 1, 1)}})
  raises("an axis with steps", core.lanes, core.numbers {}, 0, 1, 1)
end

function T.test_values_to_their_places()
  local to = core.numbers {0, 0, 0}
  core.put(to, 1, lanes(1, 0), lanes(7, 8))
  lu.assertEquals({to[1], to[2], to[3]}, {0, 8, 7})
  core.put(to, 0, lanes(0), 9)
  lu.assertEquals(to[1], 9)
  raises("as many lanes", core.put, to, 0, lanes(0, 1), lanes(1, 2, 3))
  for _, at in ipairs {-1, 3} do
    raises("no such place", core.put, to, at, lanes(0), 1)
  end
end

function T.test_values_spread_over_points()
  local to, places = core.numbers {0, 0, 0, 0}, lanes(1, 0)
  core.scatter(to, places, 2, core.numbers {1, 2, 3, 4}, 0, 0, 4)
  lu.assertEquals({to[1], to[2], to[3], to[4]}, {3, 4, 1, 2})
  core.scatter(to, places, 2, 9, 1, 1, 2) -- places -1 and 0, 1 and 2: the first is not
  lu.assertEquals({to[1], to[2], to[3], to[4]}, {3, 9, 9, 2})
  local codes, more = core.faults(4), core.faults(4)
  core.set(codes, 1, 5)
  core.scatter(more, places, 2, codes, 0, 0, 4)
  lu.assertEquals({more[1], more[3]}, {0, 5})
  core.scatter(more, places, 2, 6, 0, 0, 4)
  lu.assertEquals({more[1], more[4]}, {6, 6})
  local function fails(words, ...) raises(words, core.scatter, ...) end
  fails("1 or more", to, places, 0, 9, 0, 0, 4)
  fails("too few", to, places, 2, core.numbers {1, 2, 3}, 0, 0, 4)
  fails("too few", more, places, 2, core.faults(3), 0, 0, 4)
  for _, bad in ipairs {{-1, 4}, {0, -1}, {5, 0}, {0, 5}, {3, 2}} do
    fails("too many", to, places, 2, 9, 0, bad[1], bad[2])
  end
end

function T.test_points_in_another_order()
  local from, to = core.numbers {1, 2, 3, 4, 5, 6}, core.numbers {0, 0, 0, 0, 0, 0}
  core.turned(from, {2, 3}, {1, 2}, to, 0) -- rows of three become columns
  lu.assertEquals({to[1], to[2], to[3], to[4], to[5], to[6]}, {1, 4, 2, 5, 3, 6})
  local sixteen = {}
  for k = 1, 17 do sixteen[k] = 1 end
  local function fails(words, ...) raises(words, core.turned, from, ...) end
  fails("1 to 16 axes", {}, {}, to, 0)
  fails("1 to 16 axes", sixteen, sixteen, to, 0)
  fails("1 or more", {2, 0}, {1, 2}, to, 0)
  fails("one for each axis", {2, 3}, {1}, to, 0)
  fails("too few", {2, 4}, {1, 2}, to, 0) -- more points than there are
  fails("too few", {2, 3}, {7, 2}, to, 0)
  fails("too few", {2, 3}, {1, 3}, to, 0)
  fails("too few", {2, 3}, {1, 2}, to, 1)
  fails("too few", {2, 3}, {1, 2}, to, -1)
  local f = core.faults(2)
  lu.assertEquals(core.faulty(f, 2), nil)
  core.set(f, 2, 3)
  lu.assertEquals(list(core.faulty(f, 1)), {0, 1})
  for _, each in ipairs {0, 3} do raises("a count of points", core.faulty, f, each) end
end

function T.test_columns_that_are_filled()
  local c, f = core.numbers {1, 2}, core.faults(2)
  for _, i in ipairs {0, 3} do
    raises("no such place", core.set, c, i, 1)
    raises("no such place", core.set, f, i, 1)
  end
  for _, code in ipairs {-1, 1 << 32} do raises("a code", core.set, f, 1, code) end
  lu.assertEquals({f[0], f[3], f[1.5], f.x}, {})
  core.fill(c, 1, 1, 5)
  lu.assertEquals({c[1], c[2]}, {1, 5})
  for _, at in ipairs {-1, 3} do raises("no such place", core.fill, c, at, 0, 1) end
  for _, n in ipairs {-1, 2} do raises("too many", core.fill, c, 1, n, 1) end
  for _, code in ipairs {-1, 1 << 32} do raises("a code", core.fill, f, 0, 1, code) end
  raises("", core.numbers, -1)
  raises("", core.faults, math.maxinteger)
end

-- -- other families of formulas -------------------------------------------------------

local function standard(name) return assert(packs.standard(name)).core end

-- C24 of 45 x 220, medium-term, service class 1: k_mod 0.8, gamma_M 1.3 (EN 1995-1-1
-- Tables 3.1 and 2.3); k_h 1.0, since 220 mm is over 150 (3.2(3)).
function T.test_adjusted_values_by_the_eurocode()
  local m = ns.joist {class = "C24", service_class = 1, duration = "medium-term",
    b = "45 mm", d = "220 mm", span = "4000 mm", spacing = "400 mm", bearing = "50 mm",
    dead = "0.5 kPa", live = "1.5 kPa"}.model
  local EN = standard "en-1995-1-1"
  lu.assertNil(core.check(m, EN))
  close(core.adjust(m, EN, "Fb").value / 145.0377377, 24 * 0.8 / 1.3, 1e-6)
  -- in shear k_cr 0.67 and k_sys 1.1 too (6.1.7(2), 6.6)
  close(core.adjust(m, EN, "Fv").value / 145.0377377, 4 * 0.8 / 1.3 * 0.67 * 1.1, 1e-6)
  raises("no such combination", core.adjust, m, EN, "Fb", 9)
end

-- S-P-F No.1/No.2 of 38 x 235: f_b 11.8, f_v 1.5, E 9500 MPa, phi 0.9, K_D 1.0, K_H 1.4
-- (Case 2), K_Zb and K_Zv 1.1 (CSA O86:19, clause 6 and its tables, from memory).
function T.test_adjusted_values_by_csa()
  local m = ns.joist {species = "SPF", grade = "No.1/No.2", edition = "csa-o86-2019",
    size = "38x235", span = "4000 mm", spacing = "400 mm", bearing = "38 mm",
    dead = "0.5 kPa", live = "1.9 kPa"}.model
  local CSA = standard "csa-o86-2019"
  lu.assertNil(core.check(m, CSA))
  local function MPa(name) return core.adjust(m, CSA, name).value / 145.0377377 end
  close(MPa "Fb", 0.9 * 11.8 * 1.1, 1e-6) -- phi f_b K_Zb; K_H goes with the joist
  close(MPa "Fv", 0.9 * 1.5 * 1.4 * 1.1, 1e-6)
  close(MPa "E", 9500, 1e-6)
  raises("no such combination", core.adjust, m, CSA, "Fv", 9)
end

-- -- powers and logarithms ------------------------------------------------------------

-- What C's own functions give past their ranges (ISO C, annex F.10).
function T.test_ends_of_elementary_functions()
  lu.assertEquals({core.exp(710), core.exp(HUGE), core.exp(-746), core.exp(-HUGE)},
    {HUGE, HUGE, 0, 0})
  lu.assertEquals({core.power(0, 2), core.power(0, -2), core.power(HUGE, 2),
    core.power(HUGE, -2), core.power(10, 400), core.power(10, -400)},
    {0, HUGE, HUGE, 0, HUGE, 0})
  lu.assertEquals(core.log(HUGE), HUGE)
  for _, x in ipairs {core.exp(NAN), core.power(2, NAN), core.power(NAN, 2),
    core.sin(1e5), core.sin(-1e5), core.cos(1e5), core.cos(-1e5), core.sin(NAN)} do
    lu.assertTrue(x ~= x)
  end
end

-- -- files and programs ---------------------------------------------------------------

function T.test_paths()
  local files = core.files
  raises("a path", files.kind, "")
  raises("a path of under 4096 bytes", files.kind, ("x"):rep(4096))
  raises("path", files.kind, "a\0b")
  raises("0 or more", files.read, "README.md", -1)
end

return T
