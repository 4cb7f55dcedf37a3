-- SPDX-License-Identifier: MIT
-- Comparison of two runs: what is the same, what changed, and in which words. Figures of
-- the results are those of the reviews themselves; what is tested here is the comparing.
local lu = require "luaunit"
local ns = require "netsection"
local numbers = require "netsection.numbers"
local support = require "tests.support"

local test_compare = {}

local function review(joists, changes)
  local t = {name = "Old house", size = "2x10", species = "hem-fir", grade = "No.2",
    span = "13-6", spacing = 16, dead = 12, live = 40, members = 3, joists = joists}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.floor(t):review()
end

local function hole(at, diameter, note)
  return ns.hole {at = at, diameter = diameter, note = note}
end

local function first()
  return review {{mark = "J1", cuts = {hole("5-0", 2)}}, {mark = "J2"}}
end

function test_compare.test_same()
  local c = ns.compare(first(), first())
  lu.assertTrue(c.same)
  lu.assertEquals(#c.joists, 0)
  lu.assertStrContains(c:text(), "0 of 2 joists changed")
end

-- 13-6 is 162 in, 1-1/2 in is 38.1 mm: other words for the same lengths are no change.
function test_compare.test_same_in_other_words()
  local a = review({{mark = "J1", cuts = {hole("5-0", "1-1/2 in")}}}, {span = "13-6"})
  local b = review({{mark = "J1", cuts = {hole(60, "38.1 mm")}}}, {span = 162,
    dead = "12 psf"})
  lu.assertTrue(ns.compare(a, b).same)
end

function test_compare.test_changes()
  local a = review {{mark = "J1", cuts = {hole("5-0", 2), hole("9-0", 1, "cable"),
    ns.notch {face = "top", from = 10, to = 12, depth = 1}}}, {mark = "J2"},
    {mark = "J3"}}
  local b = review {{mark = "J1", span = "12-0", cuts = {hole("5-1", 4), hole("9-0", 1,
    "cable"), ns.sever {from = "7-0", to = "7-2"}}}, {mark = "J2"}, {mark = "J4"}}
  local c = ns.compare(a, b)
  lu.assertFalse(c.same)
  lu.assertEquals(c.added, {"J4"})
  lu.assertEquals(c.gone, {"J3"})
  -- J2 beside it: what is cut through puts its load there until it is repaired
  lu.assertEquals({#c.joists, c.joists[2].mark, c.joists[2].action}, {2, "J2", false})
  lu.assertTrue(c.joists[2].words)
  lu.assertStrContains(c:text(), "leave once J1 is repaired; ")
  local change = c.joists[1]
  lu.assertEquals(change.inputs, {{name = "spans.1", old = 162.0, new = 144.0}})
  lu.assertTrue(change.action)
  lu.assertEquals(#change.cuts, 3)
  lu.assertEquals({change.cuts[1].old.kind, change.cuts[1].new.x1}, {"hole", 59.0})
  lu.assertEquals(change.cuts[2].new.kind, "sever")
  lu.assertNil(change.cuts[2].old)
  lu.assertEquals(change.cuts[3].old.kind, "notch")
  lu.assertNil(change.cuts[3].new)
  for _, said in ipairs {"Joists that are new: J4", "Joists that are gone: J3",
    "changed: 4 in hole, 4'-11\" to 5'-3\"; was 2 in hole", "new: cut through",
    "no longer there: top notch", "action repair, was ", "span 1  13'-6\"  12'-0\"",
    "Not a sealed design"} do
    lu.assertStrContains(c:text(), said)
  end
end

function test_compare.test_threshold()
  local a, b = first(), review({{mark = "J1", cuts = {hole("5-0", 2)}}, {mark = "J2"}},
    {live = "40.2 psf"})
  local apart = b.joists.J2.uncut.ratio - a.joists.J2.uncut.ratio
  lu.assertNotNil(ns.compare(a, b, {ratio = apart * 0.9}).joists[2].states.uncut)
  lu.assertNil(ns.compare(a, b, {ratio = apart * 1.1}).joists[2].states.uncut)
end

function test_compare.test_fixed_state()
  local joist = ns.joist {mark = "J1", size = "2x10", species = "hem-fir", grade = "No.2",
    span = "13-6", spacing = 16, dead = 12, live = 40, cuts = {hole("5-2", 4)}}
  local bolt = ns.fastener {kind = "bolt", diameter = "1/2 in"}
  local c = ns.compare(joist:review(), joist:fix(ns.sister {fastener = bolt}):review())
  lu.assertNotNil(c.joists[1].states.fixed.new)
  lu.assertStrContains(c:text(), "was none")
end

function test_compare.test_rules_and_floor()
  local a = numbers.of(first())
  a.joists.J1.rules.pack = "us-irc-1999"
  lu.assertStrContains(ns.compare(a, first()):text(),
    "The rules changed: us-irc-2021, was us-irc-1999.")
end

-- An export is read from its text or its file, and equals the review it came from.
function test_compare.test_exports()
  local text = numbers.json(numbers.of(first()))
  lu.assertTrue(ns.compare(text, first()).same)
  local path = os.tmpname()
  assert(ns.write(path, text))
  lu.assertTrue(ns.compare(path, first()).same)
  os.remove(path)
end

local function refused(piece, old)
  local c, problem = ns.compare(old, first())
  lu.assertNil(c)
  lu.assertStrContains(problem, piece)
end

function test_compare.test_bad_exports()
  refused("the old run: cannot be read", "no/such/file.json")
  refused("no JSON", "{\"joists\": [")
  refused("'joists' expected", "{}")
  refused("'joists' expected", {joists = {}})
  refused("joist 1: a mark expected", "{\"joists\": [{\"action\": \"leave\"}]}")
  refused("joist x: a mark expected", "{\"joists\": {\"x\": 3}}")
  refused("no JSON", "{" .. ("[{\"a\":"):rep(5000))
  local _, problem = ns.compare(first(), "{}")
  lu.assertStrContains(problem, "the new run")
end

function test_compare.test_misuse()
  support.raises("a review, its numbers", ns.compare, 3, first())
  support.raises("unknown field 'ratios'", ns.compare, first(), first(), {ratios = 1})
  support.raises("ratio: a number from 0 to 1", ns.compare, first(), first(), {ratio = 2})
end

-- What an export holds is shown and never becomes markup.
function test_compare.test_hostile_text()
  local evil = '<script>alert(1)</script>`id`$(id)"=1+1\n\u{202E}x'
  local a = numbers.of(first())
  local function run(mark, note)
    return {floor = {name = evil}, joists = {{mark = mark, action = evil,
      rules = {pack = evil}, standard = evil, inputs = {[evil] = note},
      cut = {ratio = 1e999, status = evil, governing = evil},
      cuts = {{kind = evil, x1 = 1, x2 = 2, label = evil, note = note}}}}}
  end
  local c = ns.compare(run(evil, "a"), run(evil, evil))
  lu.assertEquals(#c.joists, 1)
  local other = ns.compare(a, run(evil))
  for _, text in ipairs {c:text(), c:html(), c:markdown(), other:html()} do
    lu.assertNotStrContains(text, "\u{202E}")
    lu.assertNil(text:find "inf%f[%A]")
  end
  lu.assertNotStrContains(c:html(), "<script>alert")
  lu.assertNotStrContains(c:markdown(), "<script>alert")
end

-- Any mixture of values in an export is compared or refused.
function test_compare.test_any_values()
  local random = support.random(5)
  local values = {1, 0.5, "x", "13-6", true, {}, {1}, {mark = "J1"}, -1e300, ""}
  local names = {"mark", "action", "inputs", "uncut", "cut", "fixed", "cuts", "kind",
    "x1", "x2", "label", "status", "ratio"}
  local function some(depth)
    if depth == 0 or random:unit() < 0.3 then return random:pick(values) end
    local t = {}
    for i = 1, random:int(1, 6) do
      t[random:unit() < 0.3 and i or random:pick(names)] = some(depth - 1)
    end
    return t
  end
  for _ = 1, 300 do
    local function run() return {joists = {{mark = "J1", inputs = some(2), cut = some(2),
      cuts = {some(2), some(1)}, fixed = some(1)}, some(3)}} end
    local c, problem = ns.compare(run(), run())
    lu.assertTrue(c and #c:text() > 0 or type(problem) == "string")
  end
end

-- The load of the joist that is out grows: its neighbor's action stays, its words change.
function test_compare.test_what_holds_until_a_neighbor_is_repaired()
  local function of(dead)
    return review {{mark = "J1"}, {mark = "J2", dead = dead, cuts = {ns.sever {
      from = "7-0", to = "7-2"}}}, {mark = "J3"}}
  end
  local c = ns.compare(of(10), of(30))
  lu.assertEquals(#c.joists, 3)
  local change = c.joists[1]
  lu.assertEquals({change.mark, change.action, change.words}, {"J1", false, true})
  lu.assertNotNil(change.states.until_repaired)
  lu.assertNil(change.states.cut)
  local said = c:text()
  lu.assertStrContains(said, "in words: leave once J2 is repaired; ")
  lu.assertStrContains(said, "until repaired: ")
  lu.assertTrue(ns.compare(of(10), of(10)).same)
end

return test_compare
