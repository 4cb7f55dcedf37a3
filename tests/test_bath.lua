-- SPDX-License-Identifier: MIT
-- A bathroom floor with pipes, a cable and a duct in it: repairs of two joists from the
-- description to the ranking. Clashes are by hand from the measures: the drain, 3-1/2 in
-- across at 1-1/2 in right of the joist, stands where a sister on the right face would.
local lu = require "luaunit"
local ns = require "netsection"

local test_bath = {}

local function cable()
  return ns.hole {at = "9-0", diameter = "3/4 in", below = 4.6 - 0.375}
end

local function floor()
  local joists = {}
  for i = 1, 9 do joists[i] = {mark = "J" .. i} end
  joists[3].cuts = {ns.hole {at = "5-2", diameter = 4, below = 1.5}, cable()}
  joists[4].cuts = {ns.notch {face = "top", from = "2-0", to = "2-4", depth = 2}, cable()}
  joists[5].cuts = {ns.end_notch {support = "left", face = "bottom", depth = "2-3/4 in"},
    cable()}
  joists[6].cuts = {ns.sever {from = "6-0", to = "6-5"}, cable()}
  return ns.floor {name = "upstairs bath", size = "2x10", span = "13-6", spacing = 16,
    material = {Fb = 900, CF = 1.1, Fv = 180, E = 1.6e6}, dead = 12, live = 40,
    bearing = 3.5, joists = joists, obstructions = {
      {what = "two 3/4 supply lines", kind = "pipe", joist = "J3", side = "left",
        from = "3-0", to = "8-0", bottom = 2, top = 3, movable = "trade"},
      {what = "cable", kind = "cable", joists = {"J3", "J4", "J5", "J6"}, at = "9-0",
        height = 4.6, movable = "easy", through = true},
      {what = "duct", bay = {"J5", "J6"}, from = 0, to = "7-0", bottom = 8, class = 5},
      {what = "3 in drain", kind = "drain", joist = "J6", at = "6-2 1/2", y = 1.5,
        diameter = 3.5, movable = "no"}}}
end

local BOLT = ns.fastener {kind = "bolt", diameter = "1/2 in"}

local function short(side)
  return ns.sister {side = side, from = "3-0", to = "9-8", fastener = BOLT,
    groups = {{at = "3-4", n = 4}, {at = 68.5, n = 4}, {at = 80.5, n = 4},
      {at = "9-4", n = 4}}} -- 7D from the gap and from the hole of the cable
end

local function moved(entry)
  local names = {}
  for i, item in ipairs(entry.moved) do names[i] = item.what end
  return names
end

function test_bath.test_severed_joist()
  local r = floor():rank_fixes("J6", {short "left", short "right", ns.strap {},
    ns.header {at = {"5-10", "6-7"}}})
  -- J5, the left trimmer, is notched deeper than NDS 4.4.3 allows
  lu.assertEquals(#r.failing, 1)
  lu.assertEquals(r.failing[1].index, 4)
  lu.assertStrContains(r.failing[1].reason, "J5 must be repaired first")
  lu.assertEquals(#r.refused, 2)
  lu.assertStrContains(r.refused[1].reason, "3 in drain cannot be moved")
  lu.assertStrContains(r.refused[2].reason, "a strap replaces tension alone")
  lu.assertEquals(r.ranked[1].index, 1)
  lu.assertEquals(r.ranked[1].class, 5) -- it meets the duct
  lu.assertEquals(moved(r.ranked[1]), {"duct", "cable"})
  lu.assertEquals(#r.ranked, 1)
end

function test_bath.test_drilled_joist()
  local r = floor():rank_fixes("J3", {ns.sister {side = "left", fastener = BOLT,
    pitch = 16}, ns.sister {side = "right", fastener = BOLT, pitch = 16}})
  lu.assertEquals({r.ranked[1].index, r.ranked[2].index}, {2, 1})
  lu.assertEquals(moved(r.ranked[1]), {"cable"})
  lu.assertEquals(moved(r.ranked[2]), {"two 3/4 supply lines", "cable"})
  lu.assertStrContains(ns.report.fixes(r), "two 3/4 supply lines (class 3, plumber)")
end

-- A floor with one joist repaired: its review has all three states, the others two.
function test_bath.test_repaired_floor()
  local review = floor():fix("J6", short "left"):review()
  lu.assertEquals(review.joists.J6.fixed.status, "adequate")
  lu.assertNil(review.joists.J5.fixed)
  lu.assertStrContains(ns.report.text(review), "left outer")
end

return test_bath
