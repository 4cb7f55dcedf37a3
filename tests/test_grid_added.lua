-- SPDX-License-Identifier: MIT
-- An added joist as a line of the grid: widths of floor by hand, a deck that shares
-- nothing and one that shares all, the mirror image, a joist that is written off, feel.
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local T = {}

local close, raises = support.close, support.raises

local WOOD = {Fb = 900, Ft = 575, Fc = 1350, Fv = 180, E = 1.6e6, CF = 1.1,
  Fc_perp = 625, G = 0.5, source = "given"}
local NOTCH = {ns.hole {at = 60, diameter = 4}}
local GAP = {ns.sever {from = 78.5, to = 83.5}}

local function floor(cuts)
  local joists = {}
  for i = 1, 7 do joists[i] = {mark = "J" .. i, cuts = i == 4 and cuts or nil} end
  return ns.floor {name = "A", size = "2x10", spacing = 16, span = 162, bearing = 3.5,
    dead = 12, live = 40, material = WOOD, joists = joists}
end

local function added(cuts, t)
  t.size, t.material = t.size or "2x10", WOOD
  return floor(cuts):fix("J4", ns.added_joist(t))
end

local function grid(f, across)
  return f:grid {deck = {across = across, along = 0}, state = "repaired", uniform = true}
end

-- 52 psf on widths of 12, 8 and 12 in, 13-6 long, each joist by itself.
function T.test_a_deck_that_shares_nothing()
  local g = grid(added(NOTCH, {side = "right"}), 1e-6)
  lu.assertEquals(g.order[5], "J4, added right")
  local widths = {J3 = 16, J4 = 12, ["J4, added right"] = 8, J5 = 12, J6 = 16}
  for mark, width in pairs(widths) do
    close(g:of(mark).reaction, 52 / 144 * width * 162, 1e-6, mark)
  end
  local one = 52 / 144 * 8 * 162 ^ 2 / 8
  close(g:of("J4, added right").M_max, one, 1e-3)
end

-- Out of the middle of its bay: 4 in from J4, 12 in from J5; in both bays.
function T.test_widths_by_hand()
  local g = grid(added(NOTCH, {side = "right", at = 4}), 1e-6)
  local function width(mark) return g:of(mark).reaction / (52 / 144 * 162) end
  close(width "J4", 10, 1e-6)
  close(width "J4, added right", 8, 1e-6)
  close(width "J5", 14, 1e-6)
  g = grid(added(NOTCH, {side = "both"}), 1e-6)
  close(width "J4", 8, 1e-6)
  close(width "J4, added left", 8, 1e-6)
  close(width "J3", 12, 1e-6)
end

-- A deck that does not bend: lines turn as one body, by symmetry they go down alike, and
-- moments are as the stiffness.
function T.test_a_deck_that_shares_all()
  local g = grid(added(nil, {side = "both"}), 1e13)
  local all = 0
  for _, mark in ipairs(g.order) do all = all + g:of(mark).reaction end
  close(all, 52 / 144 * 96 * 162, 1e-6)
  local first = g:of "J1"
  for _, mark in ipairs(g.order) do close(g:of(mark).M_max, first.M_max, 2e-3, mark) end
  close(first.M_max, 52 / 144 * 96 * 162 ^ 2 / 8 / 9, 2e-3)
end

function T.test_the_mirror_image()
  local a = grid(added(NOTCH, {side = "left"}), 3e5)
  local b = grid(added(NOTCH, {side = "right"}), 3e5)
  for i = 1, 7 do
    close(a:of("J" .. i).M_max, b:of("J" .. 8 - i).M_max, 1e-9)
  end
  close(a:of("J4, added left").M_max, b:of("J4, added right").M_max, 1e-9)
end

-- A joist cut through and written off: all load of the floor still comes down, none of it
-- on the old joist, and the added one relieves its neighbors.
function T.test_a_joist_that_is_written_off()
  local f = added(GAP, {side = "both", write_off = true})
  local g = grid(f, 3e5)
  local all = 0
  for _, mark in ipairs(g.order) do all = all + g:of(mark).reaction end
  close(all, 52 / 144 * 96 * 162, 1e-6)
  lu.assertEquals(g:of("J4").reactions, {})
  local found = floor(GAP):grid {deck = {across = 3e5, along = 0}, uniform = true}
  for _, mark in ipairs {"J3", "J5"} do
    lu.assertTrue(g:of(mark).M_max < found:of(mark).M_max)
  end
end

-- In the feel of the floor the old joists have their rows; a stiffer floor moves less.
function T.test_feel()
  local found = added(NOTCH, {side = "both"}):feel {deck = {across = 3e5, along = 0}}
  lu.assertNil(found.joists["J4, added left"])
  lu.assertTrue(found.joists.J4.repaired.d < found.joists.J4.cut.d)
  lu.assertTrue(found.frequency.repaired > found.frequency.cut)
end

-- Beside a ranking: what it takes off the two joists of the floor that stand beside.
function T.test_relief_beside_a_ranking()
  local f = floor(GAP)
  local ranked = f:rank_fixes("J4", {ns.added_joist {side = "both", size = "2x10",
    material = WOOD, write_off = true}}, {grid = {deck = {across = 3e5, along = 0}}})
  local list = ranked.ranked[1].relief
  lu.assertEquals({list[1].mark, list[2].mark}, {"J3", "J5"})
  lu.assertTrue(list[1].after < list[1].before)
end

function T.test_marks_and_places()
  local g = grid(added(NOTCH, {side = "right"}), 3e5)
  raises("no joist 'J4, added left'", g.of, g, "J4, added left")
  lu.assertStrContains(ns.plot.grid_plan(g), "J4, added r")
end

return T
