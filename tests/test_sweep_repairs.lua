-- SPDX-License-Identifier: MIT
-- Repairs of every kind in a sweep: random joists, random loads, each point beside the
-- review of its joist, bit for bit. Columns of numbers calculate as plain Lua does.
local chained = require "netsection.sweep.chained"
local core = require "netsection.core"
local lane = require "netsection.lane"
local lanes = require "netsection.lanes"
local lu = require "luaunit"
local ns = require "netsection"
local random = require "tests.random_repair"
local support = require "tests.support"
local values = require "netsection.sweep.values"

local T = {}

-- Points that are compared; NETSECTION_POINTS sets another number.
local POINTS = tonumber(os.getenv "NETSECTION_POINTS" or "") or 400

local NAMES = {"ratio", "governing", "status", "action", "rules", "cut.ratio",
  "moment", "moment.at", "shear", "deflection.live", "deflection.total",
  "reaction.1", "reaction.2.least", "reaction.1.dead", "bending", "bending.demand",
  "bearing.2.capacity", "net-shear.1", "net-bending.at", "fasteners",
  "fasteners.capacity", "neighbour", "neighbour.at", "uplift.demand", "host-bending",
  "host-shear.demand", "steel", "withdrawal.capacity", "opening-frame",
  "fastener.count", "piece.count", "tension"}

-- Random loads and switches of so many joists, as columns by field.
local function columns(r, n, names)
  local list = {}
  local make = {dead = function() return r:real(5, 25) end,
    live = function() return r:pick {r:real(10, 80), 40, 0} end,
    spacing = function() return r:pick {r:real(10, 26), 16} end,
    creep = function() return r:pick {1, 1.5} end,
    ["limits.live"] = function() return r:pick {360, 480, 180} end,
    members = function() return r:int(1, 4) end}
  for _, name in ipairs(names) do
    list[name] = {}
    for i = 1, n do list[name][i] = make[name]() end
  end
  return list
end

local function plan_of(s)
  return getmetatable(s).hidden.plan
end

-- @return points with a fixed state, points that were refused
local function compare(joist, points, names)
  local s = ns.sweep {joist = joist, points = points, values = names, progress = false}
  local worked, refused, i = 0, 0, 0
  for row in s:rows() do
    i = i + 1
    local changes = {}
    for name, list in pairs(points) do changes[name] = list[i] end
    local ok, j = pcall(joist.with, joist, changes)
    if ok then
      local review = j:review()
      local why = review.fixed.refused
      worked, refused = worked + (why and 0 or 1), refused + (why and 1 or 0)
      lu.assertEquals(row.reason, why)
      for _, name in ipairs(names) do
        local want = values.of(review, assert(values.read(name, "fixed")))
        if want ~= row[name] then
          lu.fail(("%s %s: %s: %s, in the review %s"):format(joist.repair.kind,
            lu.prettystr(changes), name, lu.prettystr(row[name]), lu.prettystr(want)))
        end
      end
    else
      lu.assertIsString(row.reason)
    end
  end
  return worked, refused, plan_of(s)
end

local KINDS = {"midspan_support", "strap", "header", "hanger", "added_joist",
  "notch_screws", "end_sister", "sister", "side_plates"}

-- Case n: its kind of repair, and a random joist with one, or nil where that is refused.
local function repaired(r, n)
  local kind = KINDS[(n - 1) % #KINDS + 1]
  local j, f = random.of(r, kind)
  local ok, joist = pcall(function()
    return ns.joist(random.described(j, "J")):fix(random.fix(f))
  end)
  return kind, ok and joist or nil
end

function T.test_a_point_of_any_repair_is_its_review()
  local r, worked, alone, problem = support.random(15), {}, {}, {}
  local each = 8
  for n = 1, math.max(POINTS // each, #KINDS) do
    local kind, joist = repaired(r, n)
    if joist then
      local points = columns(r, each, r:pick {{"live"}, {"dead", "live", "creep"},
        {"spacing", "live", "limits.live"}, {"live", "dead", "spacing", "members"}})
      local a, _, plan = compare(joist, points, NAMES)
      worked[kind] = (worked[kind] or 0) + a
      alone[kind] = (alone[kind] or 0) + (plan.alone or 0)
      problem[kind] = plan.problem or problem[kind]
    end
  end
  if os.getenv "NETSECTION_SAY" then
    for _, k in ipairs(KINDS) do print(k, worked[k], alone[k], problem[k]) end
  end
  for _, kind in ipairs(KINDS) do
    lu.assertTrue((worked[kind] or 0) > 0, kind)
    lu.assertNil(problem[kind], kind)
  end
end

-- Numbers of a repaired joist that may vary: its span, places and sizes of its cuts, the
-- repair's own fields; each with what it is varied by.
local function numbers_of(joist)
  local list = {}
  local function add(name, value, by)
    if type(value) == "number" then list[#list + 1] = {name = name, value = value,
      by = by} end
  end
  add("span", joist.description.span, 6)
  add("b", joist.description.b, 0.05)
  add("d", joist.description.d, 0.3)
  if joist.repair.kind ~= "header" then -- no overhang is headed off
    add("overhang_left", joist.description.overhang_left or 12, 8)
    add("overhang_right", joist.description.overhang_right or 12, 8)
  end
  for i, c in ipairs(joist.description.cuts) do
    for _, field in ipairs {"at", "from", "to", "diameter", "depth", "length"} do
      add(("cuts.%d.%s"):format(i, field), c.kind ~= "lost_bearing" and c[field],
        c.kind == "sever" and 1 or 0.5)
    end
  end
  local f = joist.repair.given
  for field, by in pairs {from = 2, to = 2, pitch = 2, end_distance = 0.5, at = 4,
    width = 0.25, offset = 1, thickness = 0.03, depth = 0.5, bearing = 1, seat = 0.5,
    capacity = 200, hold_down = 200, rated = 30, slip = 2000} do
    add("fix." .. field, f[field], by)
  end
  for field in pairs {n = 1, per_row = 1} do add("fix." .. field, f[field], "count") end
  for i, g in ipairs(f.groups or {}) do
    add(("fix.groups.%d.at"):format(i), g.at, 3)
    add(("fix.groups.%d.n"):format(i), g.n, "count")
  end
  table.sort(list, function(p, q) return p.name < q.name end)
  return list
end

local function varied(r, joist, n)
  local from, points = numbers_of(joist), {}
  for _ = 1, r:int(1, 3) do
    local x = r:pick(from)
    points[x.name] = {}
    for i = 1, n do
      points[x.name][i] = x.by == "count" and math.max(1, x.value + r:int(-1, 2))
        or r:unit() < 0.2 and x.value or x.value + r:real(-x.by, x.by)
    end
  end
  if r:unit() < 0.3 then points.live = columns(r, n, {"live"}).live end
  return points
end

-- Axes of a joist's geometry and of its repair's own fields: thousands are read at once,
-- and each is what it would be alone.
function T.test_a_point_of_a_repair_s_own_fields_is_its_review()
  local r, worked, alone, all = support.random(17), {}, {}, {}
  local each = 20
  for n = 1, math.max(POINTS // each, 2 * #KINDS) do
    local kind, joist = repaired(r, n)
    if joist then
      local a, b, plan = compare(joist, varied(r, joist, each), NAMES)
      worked[kind] = (worked[kind] or 0) + a
      all[kind] = (all[kind] or 0) + a + b
      alone[kind] = (alone[kind] or 0) + (plan.alone or 0)
    end
  end
  if os.getenv "NETSECTION_SAY" then
    for _, k in ipairs(KINDS) do print(k, worked[k], all[k], alone[k]) end
  end
  for _, kind in ipairs(KINDS) do lu.assertTrue((worked[kind] or 0) > 0, kind) end
end

-- Tables that are alike but for their numbers: groups, loads, cuts, places, repairs, in
-- listed points and as an axis. Thousands are read at once, and each is its review.
function T.test_numbers_in_tables_are_columns()
  local function joist(cuts)
    return ns.joist {size = "2x10", species = "douglas fir-larch", grade = "No.2",
      span = 168, spacing = 16, bearing = 3.5, dead = 10, live = 40, cuts = cuts}
  end
  local severed = joist {ns.sever {from = 80, to = 84}}
  local notched = joist {ns.notch {face = "bottom", from = 40, to = 43, depth = 1.25},
    ns.hole {at = 100, diameter = 2}}
  local sister = severed:fix(ns.sister {from = 20, to = 146, groups = {{at = 26, n = 4},
    {at = 72, n = 4}, {at = 92, n = 4}, {at = 140, n = 4}}})
  local header = severed:fix(ns.header {at = {70, 94}})
  local strap = notched:fix(ns.strap {width = 1.5})
  for _, case in ipairs {
    {sister, "fix.groups", function(t, i)
      return {{at = 25 + 3 * t, n = 3 + i % 3}, {at = 72, n = 4}, {at = 92 + t, n = 4},
        {at = 140, n = 4}}
    end},
    {header, "fix.at", function(t) return {68 + t, 94 + t} end},
    {header, "cuts", function(t) return {ns.sever {from = 78 + t, to = 84 + t}} end},
    {header, "bearing", function(t) return {3 + t, 3.5} end},
    {strap, "loads", function(t)
      return {ns.load {kind = "point", load = "200 lb", at = 50 + 20 * t, case = "live"}}
    end},
    {strap, "cuts", function(t)
      return {ns.notch {face = "bottom", from = 40 + t, to = 43 + t,
        depth = 1.25 + t / 4}, ns.hole {at = 100 + t, diameter = 2}}
    end}} do
    local j, name, make = table.unpack(case)
    local points = {[name] = {}, live = {}}
    for i = 1, 24 do
      points[name][i], points.live[i] = make((i - 1) / 23, i), 20 + 2 * i
    end
    local worked, _, plan = compare(j, points, NAMES)
    lu.assertEquals(worked, 24)
    lu.assertTrue((plan.alone or 0) < 8, name)
    lu.assertNil(plan.problem, name)
    local s = ns.sweep {joist = j, over = {[name] = points[name]}, values = {"ratio"},
      progress = false}
    local ratio = s:column "ratio"
    lu.assertTrue((plan_of(s).alone or 0) < 8, name)
    for i = 1, 24, 5 do
      lu.assertEquals(ratio[i], j:with({[name] = points[name][i]}):review().fixed.ratio)
    end
  end
end

-- All values of a sweep as columns, and the texts of its faults.
local function texts_of(joist, points, threads)
  local s = ns.sweep {joist = joist, points = points, values = NAMES, progress = false,
    threads = threads}
  local rows = {}
  for row in s:rows() do
    local list = {}
    for k, name in ipairs(NAMES) do
      list[k] = ("%s"):format(type(row[name]) == "number" and ("%a"):format(row[name])
        or tostring(row[name]))
    end
    list[#list + 1] = tostring(row.reason)
    rows[#rows + 1] = table.concat(list, " ")
  end
  return rows, plan_of(s)
end

-- What the lines did for some joists is done again for the others without them: the
-- same bits as by the lines and by reviews, on any number of threads.
function T.test_steps_that_were_noted_give_what_the_lines_give()
  local r, kinds, noted = support.random(19), {}, {}
  local each, usual = 160, chained.noting
  for n = 1, math.max(POINTS // 25, 2 * #KINDS) do
    local kind, joist = repaired(r, n)
    if joist then
      local points = n % 3 == 0 and varied(r, joist, each) or columns(r, each,
        r:pick {{"live"}, {"dead", "live", "creep"}, {"spacing", "live", "limits.live"},
        {"live", "dead", "spacing", "members"}})
      chained.noting = {sample = 1, least = math.huge, traces = 0}
      local want = texts_of(joist, points, 1)
      chained.noting = {sample = 20, least = 24, traces = 6}
      local got, plan = texts_of(joist, points, 1)
      local others = texts_of(joist, points, 3)
      chained.noting = usual
      for i = 1, each do
        lu.assertEquals(got[i], want[i], kind)
        lu.assertEquals(others[i], want[i], kind)
      end
      kinds[kind] = (kinds[kind] or 0) + 1
      noted[kind] = (noted[kind] or 0) + (plan.noted or 0)
    end
  end
  if os.getenv "NETSECTION_SAY" then
    for _, k in ipairs(KINDS) do print(k, kinds[k], noted[k]) end
  end
  for _, kind in ipairs {"midspan_support", "strap", "header", "hanger", "added_joist"} do
    lu.assertTrue((noted[kind] or 0) > 0, kind)
  end
end

-- Arithmetic of columns as some lines may do it, every kind of step in it; 'limit' parts
-- the joists.
local function lines_with(a, b)
  local c = lane.max(a + b * 2, 3 - a) / lane.min(b, 4) - lane.abs(-a)
  local d = lane.pick(lane.less(c, 2), lane.ceil(c), lane.floor(c * 1.5)) + a * 0
  local checks = {{ratio = a / 3, binding = true, of = a}, {ratio = c, binding =
    lane.less(a, 4), of = 7}, {of = b}, {ratio = 0.5, binding = true, of = d},
    {ratio = 9, binding = false, of = a}}
  local worst, number = core.worst(checks)
  return worst, core.by_number(checks, number, "of"), c + d
end

local function noted_with(columns_, places, to, compared)
  core.note(columns_, places, to, {})
  local list = {lines_with(columns_[1], columns_[2])}
  compared(columns_[1], list[1])
  for k, column in ipairs(list) do core.put(to[k], 0, places, column) end
  return core.noted(true)
end

-- Steps that were noted of some numbers give those of Lua's lines for others; where a
-- comparison comes out otherwise nothing is written.
function T.test_every_step_is_done_again()
  local r = support.random(23)
  local function column(n)
    local list = {}
    for i = 1, n do list[i] = r:real(0.5, 6) end
    return core.lanes(core.numbers(list), 0, n, 1)
  end
  for round = 1, 20 do
    local n = r:int(1, 70)
    local places, to = core.numbered(n), {core.numbers(n), core.numbers(n),
      core.numbers(n)}
    local a, b = column(n), column(n)
    -- of the numbers that were noted all are below 7; of others some are not
    local trace = assert(noted_with({a, b}, places, to, function(x)
      assert(x < 7 and x <= 7 and lane.same(x * 0 + 2) == 2)
      assert(x ~= x * 0 + 7.5)
    end))
    local other, more = a + core.numbered(n) * (6 / n), column(n)
    local want = {lines_with(other, more)}
    local again = {core.numbers(n), core.numbers(n), core.numbers(n)}
    local left = core.replay(trace, {other, more}, places, 0, again, round % 3 + 1)
    for i = 1, n do
      local stays = core.lane(other, i) >= 7
      lu.assertEquals(left and core.lane(left, i) or 0, stays and 1 or 0)
      for k = 1, 3 do
        local x = core.lane(want[k], i)
        lu.assertEquals(again[k][i], not stays and x == x and x or nil)
      end
    end
  end
end

-- A number that leaves a column by itself cannot be noted.
function T.test_what_cannot_be_noted_is_told()
  local function noted(work)
    local a, places = core.numbered(4), core.numbered(4)
    core.note({a}, places, {core.numbers(4)}, {})
    work(a, places)
    return core.noted(true)
  end
  lu.assertNotNil(noted(function(a) return a + 1 end))
  for _, work in ipairs {function(a) core.lane(a, 2) end,
    function() return core.numbered(4) * 2 end,
    function(a, places) core.put(core.numbers(9), 0, places, a) end,
    function(a) core.put(core.numbers(4), 0, core.numbered(4), a) end} do
    local trace, why = noted(work)
    lu.assertNil(trace)
    lu.assertIsString(why)
  end
  lu.assertErrorMsgContains("as many columns", core.replay, noted(function() end), {},
    core.numbered(4), 0, {core.numbers(4)}, 1)
  lu.assertErrorMsgContains("no such place", core.replay, noted(function() end),
    {core.numbered(4)}, core.numbered(4), 2, {core.numbers(4)}, 1)
end

-- A case of each kind with a number of its own that differs at every point.
function T.test_no_number_of_a_repair_is_reviewed_point_by_point()
  local function joist(cuts)
    return ns.joist {size = "2x10", species = "douglas fir-larch", grade = "No.2",
      span = 168, spacing = 16, dead = 10, live = 40, bearing = 3.5, cuts = cuts}
  end
  local notched = joist {ns.notch {face = "bottom", from = 40, to = 43, depth = 1.25},
    ns.hole {at = 100, diameter = 2}}
  local ended = joist {ns.end_notch {support = "left", face = "bottom", depth = 2,
    length = 4}}
  local strap = notched:fix(ns.strap {width = 1.25, fastener = ns.fastener {
    kind = "lag screw", diameter = "1/4 in", length = "3 in"}})
  local steel = notched:fix(ns.side_plates {steel = "A36", thickness = 0.25, from = 20,
    to = 66})
  local panel = notched:fix(ns.side_plates {material = {Fb = 1000, Fv = 200, E = 1.2e6},
    thickness = 0.5, from = 20, to = 66})
  local under = notched:fix(ns.midspan_support {capacity = 2000})
  local lost = joist {ns.lost_bearing {support = "left", to = 14},
    ns.hole {at = 110, diameter = 2}}:fix(ns.end_sister {to = 90,
      groups = {{at = 30, n = 8}, {at = 78, n = 6}}, hanger = {capacity = 1500},
      fastener = ns.fastener {kind = "bolt", diameter = "1/2 in"}})
  local function steps(from, to)
    local list = {}
    for i = 1, 16 do list[i] = from + (to - from) * (i - 1) / 15 end
    return list
  end
  for _, case in ipairs {{strap, "fix.width", 1, 1.5},
    {strap, "fix.thickness", 0.06, 0.2},
    {strap, "fix.pitch", 1, 3}, {steel, "fix.thickness", 0.06, 0.2},
    {steel, "fix.depth", 5, 9}, {panel, "fix.thickness", 0.4, 0.8},
    {under, "fix.at", 50, 90}, {under, "fix.bearing", 2, 6},
    {under, "fix.capacity", 400, 4000},
    {ended:fix(ns.hanger {capacity = 1000}), "fix.capacity", 200, 2000},
    {ended:fix(ns.hanger {}), "fix.seat", 1, 4}, {lost, "fix.to", 85, 95},
    {lost, "live", 20, 60}, {lost, "span", 165, 180},
    {lost, "fix.groups.1.at", 29, 33}, {lost, "fix.slip", 20000, 90000}} do
    local j, name, from, to = table.unpack(case)
    local worked, _, plan = compare(j, {[name] = steps(from, to)}, NAMES)
    lu.assertTrue(worked > 8, name)
    lu.assertNil(plan.problem, name)
    lu.assertTrue((plan.alone or 0) < 8, name .. (": %d alone"):format(plan.alone or 0))
  end
  -- words of few kinds among listed points are read kind by kind
  local points = {["fix.thickness"] = {}, ["fix.steel"] = {}, live = steps(20, 60)}
  for i = 1, 16 do
    points["fix.thickness"][i] = 0.1 + i / 100
    points["fix.steel"][i] = i % 3 == 0 and "A36" or "A653 33"
  end
  local worked, _, plan = compare(steel, points, NAMES)
  lu.assertEquals(worked, 16)
  lu.assertTrue((plan.alone or 0) < 8)
end

-- Where the repair alone fails, the joist as it is keeps its numbers: with three of four
-- groups on one side of a gap the member turns about the one on the other (statics).
function T.test_a_repair_that_fails_leaves_the_joist_its_numbers()
  local joist = ns.joist {size = "2x10", species = "douglas fir-larch", grade = "No.2",
    span = 168, spacing = 16, dead = 10, live = 40, bearing = 3.5,
    cuts = {ns.sever {from = 80, to = 84}}}
  local fixed = joist:fix(ns.sister {from = 20, to = 150, groups = {{at = 26, n = 4},
    {at = 50, n = 4}, {at = 96, n = 4}, {at = 140, n = 4}}})
  local names = {"uncut.ratio", "ratio", "status"}
  local s = ns.sweep {joist = fixed,
    over = {["fix.groups.3.at"] = {70, 96, 98, 100, 102}},
    values = names, progress = false}
  for row in s:rows() do
    local at = row["fix.groups.3.at"]
    local r = fixed:with({["fix.groups.3.at"] = at}):review()
    lu.assertEquals(row["uncut.ratio"], r.uncut.ratio)
    lu.assertEquals(row.ratio, r.fixed.ratio)
    lu.assertEquals(row.status, r.fixed.status)
    lu.assertEquals(row.reason == nil, at > 84)
    lu.assertEquals(row.ratio ~= nil, at > 84)
  end
  -- and so the core, whose lanes are good and bad
  local packs_of = require "netsection.packs"
  local packs = {rules = packs_of.rules("us-irc-2021", "wood"),
    standard = packs_of.standard "us-nds-2018-asd"}
  local m = fixed:review().fixed.model
  local to, fault = lanes.work(m, packs, 2, {["fix.station.3"] = {70, 96}},
    {{quantity = "ratio", state = "uncut"}, {quantity = "ratio", state = "fixed"}})
  lu.assertTrue(fault[1] > 0 and fault[2] == 0)
  lu.assertEquals(to[1][1], joist:review().uncut.ratio)
  lu.assertEquals(to[1][1], to[1][2])
  lu.assertNil(to[2][1])
  lu.assertEquals(to[2][2], fixed:review().fixed.ratio)
end

-- + - * / and comparisons of columns beside the same of Lua's own numbers, to the bit.
function T.test_columns_calculate_as_lua_does()
  local r, n = support.random(7), 37
  local a, b = {}, {}
  for i = 1, n do a[i], b[i] = r:real(-9, 9), r:pick {r:real(-9, 9), 3} end
  local p, q = core.lanes(core.numbers(a), 0, n, 1), core.lanes(core.numbers(b), 0, n, 1)
  local function each(column, f)
    for i = 1, n do lu.assertTrue(core.lane(column, i) == f(a[i], b[i])) end
  end
  each(p + q, function(x, y) return x + y end)
  each(p - q, function(x, y) return x - y end)
  each(p * q, function(x, y) return x * y end)
  each(p / q, function(x, y) return x / y end)
  each(-p, function(x) return -x end)
  each(2 - p / 3, function(x) return 2 - x / 3 end)
  each(lane.max(p, q, 0), function(x, y) return math.max(x, y, 0) end)
  each(lane.min(1, p, q), function(x, y) return math.min(1, x, y) end)
  each(lane.ceil(p), function(x) return math.ceil(x) end)
  each(lane.floor(p), function(x) return math.floor(x) end)
  each(core.chosen(core.larger(p, q), p, 5), function(x, y) return x > y and x or 5 end)
  each(lane.abs(p), math.abs)
  local both = lane.both(lane.less(p, 3), lane.less(q, 4))
  each(lane.pick(both, p, q), function(x, y) return x < 3 and y < 4 and x or y end)
  for _, truth in ipairs {true, false} do -- a truth of all lanes beside a column
    for _, which in ipairs {lane.both(truth, lane.less(p, 3)),
      lane.both(lane.less(p, 3), truth)} do
      each(lane.pick(which, p, q) + 0, function(x, y)
        return truth and x < 3 and x or y
      end)
    end
  end
  lu.assertTrue(p < 10 and 10 > p and p <= 9 and p >= -9)
  lu.assertFalse(p < -10)
end

-- Where the joists differ in a comparison it has no answer: they are parted by it.
function T.test_a_comparison_parts_joists_that_differ()
  local p = core.lanes(core.numbers {1, 5, 2, 7}, 0, 4, 1)
  local ok, mask = pcall(function() return p > 3 end)
  lu.assertFalse(ok)
  local yes, no = core.parted(p, mask, true), core.parted(p, mask, false)
  lu.assertEquals({#yes, core.lane(yes, 1), core.lane(yes, 2)}, {2, 5, 7})
  lu.assertEquals({#no, core.lane(no, 1), core.lane(no, 2)}, {2, 1, 2})
  lu.assertEquals(lane.same(core.lanes(core.numbers {4}, 0, 3, 1)), 4)
  ok = pcall(lane.same, p)
  lu.assertFalse(ok)
end

return T
