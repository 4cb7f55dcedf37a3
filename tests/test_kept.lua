-- SPDX-License-Identifier: MIT
-- Reviews of many joists of one topology at once (core.kept): each is its own review to
-- the bit, whatever the others are, and what differs from joist to joist is a column.
local core = require "netsection.core"
local lane = require "netsection.lane"
local lu = require "luaunit"
local ns = require "netsection"
local packs = require "netsection.packs"
local support = require "tests.support"

local T = {}

local HEIGHT, DEPTH = 2, 9.25

local function joist(below)
  return ns.joist {mark = "J", size = "2x10", species = "hem-fir", grade = "No.2",
    span = 144, spacing = 16, bearing = 3.5, dead = 10, live = 40,
    cuts = {ns.slot {from = 36, to = 48, height = HEIGHT, below = below}}}
end

local function lanes(list)
  return core.lanes(core.numbers(list), 0, #list, 1)
end

-- Wood below and above the slot, as columns.
local function columns_of(list)
  local above = {}
  for i, below in ipairs(list) do above[i] = DEPTH - HEIGHT - below end
  return lanes(list), lanes(above)
end

local FIRST = joist(4)
local PACKS = FIRST:review().packs

local function kept_of(below, above, n)
  return core.kept {model = core.packed(FIRST.model), columns = {{path = "cuts.1.below",
    values = below}, {path = "cuts.1.above", values = above}}, count = n,
    rules = PACKS.rules, standard = PACKS.standard, checks = true}
end

-- The tables of joists whose slot has so much wood below it.
local function kept(list)
  local below, above = columns_of(list)
  return kept_of(below, above, #list)
end

-- What a number or a column is of one joist.
local function of(v, i)
  if v == nil or not lane.is(v) then return v end
  return core.lane(v, i)
end

-- The checks of one joist, a line each; the numbers to the bit.
local function checks_of(s, i)
  local list = {}
  for _, k in ipairs(s.cut.checks) do
    if k.on == nil or of(k.on, i) ~= 0 then
      local binding = of(k.binding, i)
      list[#list + 1] = ("%s %s %s %a %a %a %s"):format(k.mode, k.cut, k.support,
        of(k.demand, i), of(k.capacity, i), of(k.ratio, i),
        binding == true or binding == 1)
    end
  end
  return list
end

local function checks_alone(below)
  local list = {}
  for i, k in ipairs(joist(below):review().cut.checks) do
    list[i] = ("%s %s %s %a %a %a %s"):format(k.mode, k.cut, k.support, k.demand,
      k.capacity, k.ratio, k.binding)
  end
  return list
end

-- Sixteen are worked at a time. A slot by an edge is a notch (no frame, no lips), one in
-- the middle an opening; where a chord alone is stronger than both it decides in their
-- place. Blocks of one kind after another, and all kinds mixed.
function T.test_each_is_its_own_review()
  local r = support.random(5)
  for _, kinds in ipairs {{"middle", "edge", "any"}, {"edge", "middle", "edge"},
    {"any", "edge", "middle"}} do
    local list = {}
    for i = 1, 3 * 16 - 5 do
      local kind = kinds[(i - 1) // 16 + 1]
      list[i] = kind == "middle" and 3 + r:real(0, 1) or kind == "edge"
        and r:real(0.05, 0.3) or i % 3 == 0 and r:real(1.25, 1.65) or r:real(0.05, 7.2)
    end
    local s, fault = kept(list)
    lu.assertNotNil(s)
    lu.assertEquals(lane.same(core.larger(fault, 0)), 0)
    local seen = {}
    for _, k in ipairs(s.cut.checks) do seen[k.mode] = k.on ~= nil end
    lu.assertTrue(seen["notch-shear"] and seen["opening-frame"])
    for i, below in ipairs(list) do
      lu.assertEquals(checks_of(s, i), checks_alone(below), ("below %a"):format(below))
    end
  end
end

-- What was noted of reviews is done again with other numbers. Where joists have other
-- checks than those that were noted, they are left; a second note, which is told of that,
-- takes a check that all had for one that may differ. What is not left is a review's.
function T.test_reviews_that_were_noted()
  local n = 20
  local middle, mixed = {}, {}
  for i = 1, n do
    middle[i] = 3 + i / 40
    mixed[i] = i % 3 == 0 and 0.1 + i / 200 or middle[i]
  end
  local places = core.numbered(n)
  local function noted(list, before)
    local below, above = columns_of(list)
    local to = core.numbers(n)
    core.note({below, above}, places, {to}, before)
    core.put(to, 0, places, kept_of(below, above, n).cut.ratio)
    return assert(core.noted(true))
  end
  local function again(trace, list)
    local to = core.numbers(n)
    local left = core.replay(trace, {columns_of(list)}, places, 0, {to}, 1)
    local some = 0
    for i, below in ipairs(list) do
      if left and core.lane(left, i) ~= 0 then
        some = some + 1
      else
        lu.assertEquals(to[i], joist(below):review().cut.ratio)
      end
    end
    return some
  end
  local first = noted(middle, {})
  lu.assertEquals(again(first, middle), 0)
  local left = again(first, mixed)
  lu.assertEquals(left, 6) -- those that are notches
  local second = noted(middle, {first})
  lu.assertTrue(again(second, mixed) <= left)
  lu.assertEquals(again(second, middle), 0)
  lu.assertEquals(again(noted(mixed, {first}), mixed), 0)
  -- Joists that were all alike: each number was one of all, and is not any more.
  local alike = {}
  for i = 1, n do alike[i] = 3 end
  local narrow = noted(alike, {})
  lu.assertEquals(again(narrow, alike), 0)
  lu.assertEquals(again(narrow, middle), n)
  lu.assertEquals(again(noted(alike, {narrow}), middle), 0)
end

-- The same review noted twice is one; so is a connection. Another standard, other rules,
-- columns or numbers taken make it another, and nothing is mixed up: the trace gives what
-- the lines give, or says that it cannot.
function T.test_reviews_that_are_noted_twice()
  local n = 5
  local places, below, above = core.numbered(n), columns_of {3, 3.1, 3.2, 3.3, 3.4}
  local other_rules = assert(packs.rules("us-irc-2018", "wood")).core
  local lrfd = assert(packs.standard "us-nds-2018-lrfd").core
  local function reviewed(changes)
    local t = {model = core.packed(FIRST.model), columns = {{path = "cuts.1.below",
      values = below}, {path = "cuts.1.above", values = above}}, count = n,
      rules = PACKS.rules, standard = PACKS.standard, checks = true}
    for name, value in pairs(changes or {}) do t[name] = value end
    return core.kept(t).cut.ratio
  end
  local function joint(Z)
    return core.joints {mode = "fasteners", demand = below * 100, Z = above * Z,
      n_f = 4}.ratio
  end
  for _, second in ipairs {function() return reviewed() end,
    function() return reviewed {rules = other_rules} end,
    function() return reviewed {standard = lrfd} end,
    function() return reviewed {columns = {{path = "cuts.1.below", values = below},
      {path = "cuts.1.above", values = above}, {path = "live", values = above * 5}}} end,
    function() return reviewed {columns = {{path = "cuts.1.below", values = below},
      {path = "cuts.1.above", values = below}}} end,
    function() return joint(50) end, function() return joint(60) end} do
    local to = {core.numbers(n), core.numbers(n)}
    core.note({below, above}, places, to, {})
    local want = {reviewed() + joint(50), second()}
    for k = 1, 2 do core.put(to[k], 0, places, want[k]) end
    local again = {core.numbers(n), core.numbers(n)}
    local trace = assert(core.noted(true))
    local left = core.replay(trace, {below, above}, places, 0, again, 1)
    lu.assertNil(left)
    for k = 1, 2 do
      for i = 1, n do lu.assertEquals(again[k][i], core.lane(want[k], i)) end
    end
  end
  -- Once with the numbers of each check, once without: not the review that was noted.
  local to = core.numbers(n)
  core.note({below, above}, places, {to}, {})
  core.put(to, 0, places, reviewed() + reviewed {checks = false})
  local trace, why = core.noted(true)
  lu.assertNil(trace)
  lu.assertEquals(why, "a review that was another")
end

-- A note has an end: past it, it is given up, and that is said.
function T.test_notes_that_are_too_long()
  local places, a = core.numbered(4), lanes {1, 2, 3, 4}
  core.note({a}, places, {core.numbers(4)}, {})
  for i = 1, 1 << 17 do a = a + i end
  local trace, why = core.noted(true)
  lu.assertNil(trace)
  lu.assertEquals(why, "too many numbers")
end

-- No numbers where a joist is wrong; which, and why, as alone.
function T.test_joists_that_are_wrong()
  local list = {}
  for i = 1, 20 do list[i] = 3 end
  list[2], list[18] = -1, 25
  local s, fault = kept(list)
  lu.assertNil(s)
  for i = 1, 20 do
    local code = core.lane(fault, i)
    lu.assertEquals(code ~= 0, i == 2 or i == 18, i)
    if code ~= 0 then
      lu.assertEquals(core.fault_text(code).text, "out of range")
    end
  end
end

return T
