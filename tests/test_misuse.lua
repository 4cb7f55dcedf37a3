-- SPDX-License-Identifier: MIT
-- What is given wrongly is told at the line that gave it, by the name of the function or
-- field; nothing raises from inside the module. Seeded and bounded.
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local T = {}

local fields = {mark = "J", size = "2x10", species = "spf", grade = "No.2",
  span = "12-0", spacing = 16, dead = 10, live = 40, bearing = 3.5}

local function with(changes)
  local t = {}
  for name, value in pairs(fields) do t[name] = value end
  for name, value in pairs(changes or {}) do t[name] = value end
  return t
end

local joist = ns.joist(with())

local cyclic = {}
cyclic[1], cyclic.self, cyclic.joists = cyclic, cyclic, cyclic

local WRONG = {false, true, 0, -1, 0 / 0, 1 / 0, 1e300, math.mininteger, "", "x",
  "12-0", {}, {1}, {{}}, cyclic, function() end, io.stdout}

-- Raised from inside, or for a slip of the module's own.
local function is_inside(message)
  return type(message) ~= "string" or message:find "lua/netsection/" ~= nil
    or message:find "attempt to" ~= nil or message:find "stack overflow" ~= nil
    or message:find "assertion failed" ~= nil
end

local function tried(found, name, f, ...)
  local ok, message = pcall(f, ...)
  if not ok and is_inside(message) then
    found[#found + 1] = name .. ": " .. tostring(message)
  end
end

local SUBJECT = {"floor", "table", "sweep", "odds", "lateral", "withdrawal", "compare",
  "read_survey", "section", "beam", "size_sister", "size_strap", "length", "load",
  "post", "footing", "beam_line"}

-- Functions that take one table or value, given one that is wrong, or nothing.
function T.test_whole_arguments()
  local found = {}
  local calls = {joist = ns.joist, problems = ns.problems, homework = ns.homework.new,
    fastener = ns.fastener}
  for _, name in ipairs(SUBJECT) do calls[name] = ns[name] end
  for name, f in pairs(ns.report) do
    if type(f) == "function" then calls["report." .. name] = f end
  end
  for name, f in pairs(ns.plot) do
    if type(f) == "function" then calls["plot." .. name] = f end
  end
  for _, name in ipairs {"hole", "slot", "notch", "end_notch", "sever", "loss", "split",
    "point", "line", "area", "tub", "sister", "strap", "hanger"} do
    calls[name] = ns[name]
  end
  for name, f in pairs(calls) do
    tried(found, name .. "(nil)", f)
    for i, value in ipairs(WRONG) do
      tried(found, ("%s(wrong %d)"):format(name, i), f, value)
      tried(found, ("%s(wrong %d, wrong)"):format(name, i), f, value, value)
    end
  end
  table.sort(found)
  lu.assertEquals(found, {})
end

-- Every field of a joist, one at a time.
function T.test_fields_of_a_joist()
  local found = {}
  for _, name in ipairs(require "netsection.model".fields) do
    for i, value in ipairs(WRONG) do
      tried(found, ("joist.%s = wrong %d"):format(name, i), function(t)
        local j = ns.joist(t)
        if name ~= "survey" then j:review() end
      end, with {[name] = value})
    end
  end
  table.sort(found)
  lu.assertEquals(found, {})
end

-- Methods of a joist and of what it gives, with wrong arguments picked by a seed.
function T.test_methods()
  local random, found = support.random(20181), {}
  local r = joist:review()
  local floor = ns.floor {joists = {with {mark = "A"}, with {mark = "B"}}}
  local sweep = ns.sweep {joist = joist, over = {live = {40, 50}}, values = {"ratio"},
    progress = false}
  local on = {{joist, {"with", "review", "longest_span", "largest", "sensitivity", "fix",
    "adjusted"}}, {r, {"find", "profile"}}, {floor, {"joist", "fix", "review",
    "rank_fixes"}}, {sweep, {"column", "at", "max", "min", "where", "joist"}}}
  for _, pair in ipairs(on) do
    for _, name in ipairs(pair[2]) do
      tried(found, name .. "()", pair[1][name], pair[1])
      for _ = 1, 24 do
        local a, b = random:int(1, #WRONG), random:int(1, #WRONG)
        tried(found, ("%s(%d, %d)"):format(name, a, b), pair[1][name], pair[1], WRONG[a],
          WRONG[b])
      end
    end
  end
  table.sort(found)
  lu.assertEquals(found, {})
end

function T.test_a_mode_or_state_that_is_no_word()
  local r = joist:review()
  support.raises("find: state", r.find, r, "cutt", "bending")
  support.raises("find: a mode", r.find, r, "cut", "bendng")
  support.raises("find: a mode", r.find, r, "cut")
  lu.assertNil(r:find("fixed", "bending"))
  lu.assertNil(r:find("cut", "net-bending", 1))
  lu.assertNotNil(r:find("uncut", "bending"))
end

function T.test_too_many_points_are_refused()
  local many = ns.steps(1, 20000, 1)
  support.raises("at most 2^53", ns.sweep, {joist = joist, over = {dead = many,
    live = many, spacing = many, creep = many}})
end

function T.test_one_kind_of_span_takes_the_place_of_the_other()
  local two = joist:with {spans = {"7-0", "7-0"}, span = ns.none}
  lu.assertEquals(two.model.span, {84, 84})
  local one = two:with {span = "12-0", spans = ns.none}
  lu.assertEquals(one.model.span, {144})
end

function T.test_all_bad_cuts_are_told()
  local cuts = {ns.hole {at = "50-0", diameter = 2}, ns.hole {at = "5-0", diameter = 1},
    ns.hole {at = "60-0", diameter = 2}}
  local said = support.raises("cut 1 (hole)", ns.joist, with {cuts = cuts})
  lu.assertStrContains(said, "cut 3 (hole)")
  lu.assertNotStrContains(said, "cut 2 (hole)")
end

-- A bad length, two bad severs and two bad fasteners, each at its cell.
function T.test_a_survey_tells_all_slips_at_once()
  local made, problems = ns.read_survey {
    joists = "mark,size,species,grade,span,spacing,dead,live,bearing\n"
      .. "A,2x10,spf,No.2,12-0,16,10,40,3.5\nB,2x10,spf,No.2,x,16,10,40,3.5\n",
    cuts = "joist,kind,from,to\nA,sever,50-0,51-0\nA,sever,5-0,4-0\n",
    fixes = "joist,kind,size,fastener\nA,sister,2x10,1/2 in boltt\n"
      .. "B,sister,2x10,17/99 in bolt\n"}
  lu.assertNil(made)
  local at = {}
  for _, p in ipairs(problems) do at[p.file:match "%a+" .. p.row] = true end
  for _, place in ipairs {"joists3", "cuts2", "cuts3", "fixes2", "fixes3"} do
    lu.assertTrue(at[place], place)
  end
end

function T.test_a_changed_place_of_a_hole_is_a_change()
  local function floor(below)
    return ns.floor {joists = {with {mark = "A", cuts = {ns.hole {at = "6-0",
      diameter = 1, below = below}}}}}:review()
  end
  local c = ns.compare(floor(3), floor(3.25), {ratio = 1})
  lu.assertFalse(c.same)
  lu.assertStrContains(c:text(), "below")
  lu.assertTrue(ns.compare(floor(3), floor(3)).joists[1] == nil)
end

function T.test_values_say_what_they_are()
  local floor = ns.floor {name = "F", joists = {with {mark = "A"}}}
  local t = ns.table {title = "Spans", rows = {name = "a", values = {1}},
    columns = {name = "b", values = {1}}, unit = "", round = {to = 1, way = "up"},
    cell = function() return 1 end}
  lu.assertEquals(tostring(joist), "joist J")
  lu.assertEquals(tostring(joist:review()), "review of joist J: leave")
  lu.assertEquals(tostring(floor), "floor 'F', 1 joists")
  lu.assertEquals(tostring(floor:review()), "review of floor 'F', 1 joists")
  lu.assertEquals(tostring(ns.end_notch {support = "left", depth = 1}), "end notch")
  lu.assertEquals(tostring(t), "table 'Spans', 1 rows by 1 columns")
  lu.assertEquals(tostring(ns.sweep {joist = joist, over = {live = {40, 50}}}),
    "sweep of joist J, 2 points")
end

return T
