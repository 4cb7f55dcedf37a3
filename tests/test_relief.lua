-- SPDX-License-Identifier: MIT
-- Dead load and live load on continuous joists and overhangs: more of it never helps but
-- where statics says so, and then that is told. Moments by hand are those of a simple
-- span with an end moment (handbook beam formulas).
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local T = {}

local function joist(t)
  local all = {mark = "A", size = "2x10", species = "Douglas Fir-Larch", grade = "No.2",
    spacing = 16, dead = 10, live = 40, bearing = 3.5, limits = {live = false,
    total = false}}
  for k, v in pairs(t) do all[k] = v end
  return ns.joist(all)
end

local function caution_of(r)
  for _, text in ipairs(r.cautions) do
    if text:find("relieves", 1, true) then return text end
  end
end

-- w L^2/8 over the span without the overhang's dead load w_D a^2/2; with it the left
-- reaction is w L/2 - w_D a^2/(2 L), and M = R^2/(2 w).
function T.test_an_overhang_that_relieves_its_span()
  local L, a, w_D, w = 144, 84, 30 * 16 / 144, 70 * 16 / 144
  local S = 1.5 * 9.25 ^ 2 / 6
  local Fb = 900 * 1.1 * 1.15
  local r = joist {span = L, overhang_right = a, dead = 30}:review()
  local R = w * L / 2 - w_D * a ^ 2 / (2 * L)
  local k = r:find("uncut", "bending")
  lu.assertAlmostEquals(k.demand, R ^ 2 / (2 * w), 1e-6)
  -- A short arm: the span governs, and what is on the arm relieves it.
  local short = joist {span = 192, overhang_right = 48, dead = 30}
  local s = short:review()
  local M = w * 192 ^ 2 / 8
  lu.assertEquals(s.uncut.governing, "bending")
  lu.assertEquals(s.relief[1].part, "the right overhang")
  lu.assertAlmostEquals(s.relief[1].ratio, M / (S * Fb), 1e-9)
  lu.assertTrue(s.relief[1].ratio > 1.02 * s.uncut.ratio)
  lu.assertStrContains(caution_of(s), "dead load on the right overhang relieves the rest")
  lu.assertStrContains(caution_of(s), ("%.2f"):format(M / (S * Fb)))
  lu.assertStrContains(ns.report.json(s), '"ratio_without_its_dead_load"')
end

function T.test_one_span_has_nothing_that_relieves()
  lu.assertEquals(joist {span = "12-0"}:review().relief, {})
end

-- The largest ratio over dead loads of 0 to `to` psf, and where it falls, how far.
local function largest_fall(t, to)
  local most, fall, at = 0, 0, nil
  for dead = 0, to, 0.25 do
    t.dead = dead
    local ratio = joist(t):review().uncut.ratio
    most = math.max(most, ratio)
    if 1 - ratio / most > fall then fall, at = 1 - ratio / most, dead end
  end
  return fall, at
end

-- Two spans of 12-0, 2x10, live 40: one true dip of 1.5 % (independent computation), as
-- dead load shortens the hogging of the span without live load.
function T.test_dead_load_on_two_equal_spans()
  local fall = largest_fall({spans = {144, 144}}, 40)
  lu.assertTrue(fall > 0.005 and fall < 0.02, fall)
end

-- Elsewhere it falls farther: CL over a span that hogs from end to end is that of an even
-- moment, and heavier dead load ends that at once. The span whose dead load does it is
-- named, with the ratio that is so without.
function T.test_where_dead_load_relieves_more_it_is_told()
  for _, t in ipairs {{spans = {192, 192}},
    {spans = {192, 192}, size = "2x12", live = 20},
    {spans = {192, 192, 192}, live = 20}, {spans = {144, 144, 144}, live = 60}} do
    local fall, at = largest_fall(t, 60)
    lu.assertTrue(fall > 0.02)
    t.dead = at
    local r = joist(t):review()
    lu.assertTrue(r.relief[1].ratio > 1.02 * r.uncut.ratio)
    lu.assertStrContains(caution_of(r), "dead load on span ")
  end
end

-- A joist of one to three stretches: spans, and perhaps an overhang.
local function random_description(r, stretches)
  local over = r:unit() < 0.5 and stretches > 1 and r:real(12, 60) or 0
  local spans, total = {}, over
  for k = 1, stretches - (over > 0 and 1 or 0) do
    spans[k] = r:real(84, 180)
    total = total + spans[k]
  end
  local t = {spans = spans, overhang_right = over, dead = r:real(5, 25),
    live = r:real(10, 50)}
  if r:unit() < 0.5 then
    t.cuts = {ns.hole {at = r:real(20, spans[1] - 20), diameter = r:real(0.5, 4)}}
  end
  return t, total
end

-- The same with more live load: on the whole floor, over a stretch, or at a place.
local function loaded(r, t, total)
  local more = {}
  for k, v in pairs(t) do more[k] = v end
  local a, how = r:real(0, total - 1), r:int(1, 3)
  if how == 1 then
    more.live = t.live * r:real(1, 1.5)
  elseif how == 2 then
    more.loads = {ns.point {at = a, load = r:real(1, 300) .. " lb"}}
  else
    more.loads = {ns.line {from = a, to = r:real(a + 0.5, total),
      load = r:real(1, 60) .. " plf"}}
  end
  return more
end

-- Live load anywhere, with cuts or without. Of three stretches and more a pattern has the
-- live load of a stretch whole or not at all; part of it can free a longer edge of
-- another, which is left out (see the manual): no more than 15 % in trials.
function T.test_live_load_never_lowers_a_ratio()
  local r = support.random(906)
  for n = 1, 400 do
    local stretches = r:int(1, 3)
    local t, total = random_description(r, stretches)
    local before, after = joist(t):review(), joist(loaded(r, t, total)):review()
    local kept = stretches < 3 and 1 - 1e-9 or 0.85
    for _, state in ipairs {"uncut", "cut"} do
      local x, y = before[state].ratio, after[state].ratio
      lu.assertTrue(not (x and y) or y >= kept * x,
        ("%d, %d stretches, %s: %s, less than %s"):format(n, stretches, state, y, x))
    end
  end
end

return T
