-- SPDX-License-Identifier: MIT
-- Speed of the core, measured in one run: reviews from Lua, the core alone and in
-- batches, and the same arithmetic in plain Lua, whose answers are compared first; then
-- beside numpy and C of fixed sizes (tests/bench_beside.lua).
--   lua tests/bench.lua [SECONDS]    of CPU time for each measurement; 0.5 by default
local bench_lua = require "tests.bench_lua"
local beams = require "tests.bench_beams"
local beside = require "tests.bench_beside"
local core = require "netsection.core"
local joists = require "netsection.model"
local ns = require "netsection"
local packs = require "netsection.packs"

local SECONDS = tonumber(arg[1]) or 0.5
local REPEATS, CASES, CLOSE = 3, 1000, 1e-12
local LANES, POINTS = 16, 200000

local rules = assert(packs.rules("us-irc-2021", "wood")).core
local standard = assert(packs.standard "us-nds-2018-asd").core

-------------------------------------------------------------------------- the machine

local function first_match(path, pattern)
  local file <close> = io.open(path)
  for line in file and file:lines() or function() end do
    local found = line:match(pattern)
    if found then return found end
  end
end

local function compiler()
  local pipe <close> = io.popen((os.getenv "CC" or "gcc") .. " --version 2>/dev/null")
  return pipe and pipe:read "l" or "unknown"
end

-- The build that the loader picks; only GCC makes more than one.
local function instruction_set(built_by)
  if built_by:find "clang" then return "what the compiler takes by default" end
  local flags = " " .. (first_match("/proc/cpuinfo", "^flags%s*:%s*(.*)") or "") .. " "
  for _, set in ipairs {"avx512f", "avx2", "sse2"} do
    if flags:find(" " .. set .. " ", 1, true) then return set end
  end
  return "what the compiler takes by default"
end

----------------------------------------------------------------------- random joists

local random = math.random

local function real(low, high)
  return low + (high - low) * random()
end

local function pick(list)
  return list[random(#list)]
end

local function maybe(share, value)
  return random() < share and value or nil
end

local function place(t, d, size)
  local dice = random()
  if dice < 0.3 then t.below = real(0, d - size) end
  if dice > 0.7 then t.above = real(0, d - size) end
  return t
end

local make = {}

function make.hole(span, d, tame)
  local size = real(0.5, d * (tame and 0.3 or 0.6))
  local at = tame and real(size, span - size) or real(size / 2, span - size / 2)
  local t = {at = at, diameter = size, from_right = maybe(0.3, true),
    angle = not tame and maybe(0.2, real(20, 90)) or nil}
  return ns.hole(tame and t or place(t, d, size))
end

function make.slot(span, d, tame)
  local size, long = real(0.5, d * (tame and 0.3 or 0.6)), real(1, tame and d / 3 or 12)
  local from = real(0, span - long)
  local t = {from = from, to = from + long, height = size, from_right = maybe(0.3, true)}
  return ns.slot(tame and t or place(t, d, size))
end

function make.notch(span, d, tame)
  local long = real(0.5, tame and d / 3 or 9)
  local from = tame and real(0, span / 3 - long) or real(0, span - long)
  local t = {face = pick {"top", "bottom"}, from = from, to = from + long,
    depth = real(0.25, d * (tame and 1 / 6 or 0.3)), from_right = maybe(0.3, true),
    accept_outside_standard = maybe(0.3, "as built")}
  if not tame then
    t.overcut, t.split_length = maybe(0.2, real(0, 0.5)), maybe(0.2, real(0, 12))
    t.taper = maybe(0.2, real(0, 20))
  end
  return ns.notch(t)
end

local function shuffled(list)
  for i = #list, 2, -1 do
    local k = random(i)
    list[i], list[k] = list[k], list[i]
  end
  return list
end

-- Tame ones may pass the rules, the others seldom do.
local function random_cuts(span, d, kinds)
  local list, tame = {}, random() < 0.6
  for i, kind in ipairs(kinds or shuffled {"hole", "hole", "notch", "slot"}) do
    list[i] = make[kind](span, d, tame)
  end
  return list
end

local function random_material()
  return {Fb = real(500, 1500), Fv = real(100, 200), E = real(1e6, 2e6),
    Ft = maybe(0.95, real(300, 900)), Fc = maybe(0.95, real(600, 1600)),
    Fc_perp = maybe(0.9, real(300, 700)), CF = maybe(0.5, real(0.9, 1.3))}
end

-- A description of the measured shape: one span, floor loads, four cuts, of kinds in any
-- order or in the one given.
local function random_description(kinds)
  local b, d, span = real(1.5, 4), real(5, 14), real(72, 240)
  return {b = b, d = d, span = span, material = random_material(),
    plies = random(1, 2), spacing = real(10, 26), dead = real(5, 20),
    live = real(0, 60), bearing = real(1.5, 6), members = random(1, 4),
    sheathed = random() < 0.8, moisture = pick {"dry", "dry", "wet"},
    temperature = pick {70, 70, 110, 140}, incised = random() < 0.1,
    creep = pick {1, 1.5}, notch_raiser = pick {1, 1, 2}, repetitive = maybe(0.2, 1),
    limits = maybe(0.2, {live = 480, total = false}),
    blocking = maybe(0.3, {span / 3, real(0, span)}), cuts = random_cuts(span, d, kinds)}
end

--------------------------------------------------------------------------- agreement

local function close(a, b)
  return a == b or math.abs(a - b) <= CLOSE * math.max(math.abs(a), math.abs(b))
end

local function answers_of_core(m)
  local records, summary = core.review(m, rules, standard)
  if not records then return {} end
  return {summary.uncut.ratio, summary.cut.ratio, summary.action}
end

local function fields_of(t, names)
  local list = {}
  for _, name in ipairs(names) do
    if t[name] ~= nil then list[#list + 1] = ("%s=%s"):format(name, tostring(t[name])) end
  end
  return table.concat(list, " ")
end

local function show_difference(case, what, expected, who, got, t)
  print(("joist %d differs in the %s: core %s, %s %s"):format(case, what,
    expected and ("%.17g"):format(expected) or "refuses", who,
    got and ("%.17g"):format(got) or "refuses"))
  print(fields_of(t, {"b", "d", "plies", "span", "spacing", "dead", "live", "bearing",
    "sheathed", "moisture", "temperature", "incised", "creep", "notch_raiser"}))
  for _, cut in ipairs(t.cuts) do
    print(fields_of(cut, {"kind", "face", "at", "diameter", "angle", "from", "to",
      "height", "depth", "overcut", "below", "above", "taper", "split_length",
      "from_right"}))
  end
end

-- Compares answers to one joist; nil where both refuse it.
local function agree(case, who, t, expected, got)
  for i, what in ipairs {"ratio uncut", "ratio cut", "action"} do
    local a, b = expected[i], got[i]
    if (a == nil) ~= (b == nil) or a and not close(a, b) then
      show_difference(case, what, a, who, b, t)
      os.exit(1, true)
    end
  end
  return expected[1] and expected
end

-- @return how many joists both refused, and how often each action came out
local function compare()
  math.randomseed(20210502)
  local done, refused, actions = 0, 0, {[0] = 0, 0, 0, 0, 0}
  while done < CASES do
    local t = random_description()
    local m, found = joists.of(t)
    local answers = #found == 0
      and agree(done + 1, "plain Lua", t, answers_of_core(m), {bench_lua.review(m)})
    if answers then
      done = done + 1
      actions[answers[3]] = actions[answers[3]] + 1
    elseif #found == 0 then
      refused = refused + 1
    end
  end
  return refused, actions
end

-------------------------------------------------------------------------- measurement

local function seconds_of(f, count)
  collectgarbage()
  local from = os.clock()
  f(count)
  return os.clock() - from
end

-- Best rate of f, a function that does its work `count` times, per second.
local function rate(f)
  local count, took = 1, seconds_of(f, 1)
  while took < SECONDS / 10 do
    count = count * 2
    took = seconds_of(f, count)
  end
  count = math.max(1, math.floor(count * SECONDS / took))
  local best = math.huge
  for _ = 1, REPEATS do best = math.min(best, seconds_of(f, count)) end
  return count / best
end

-- @param below wood left under the openings; nil: they are at half the depth
local function four_cuts(below)
  return {ns.hole {at = 40, diameter = 2, below = below},
    ns.hole {at = 100, diameter = 2.5, below = below},
    ns.notch {face = "top", from = 20, to = 23, depth = 1.25},
    ns.slot {from = 130, to = 134, height = 2, below = below}}
end

local function one_span(below)
  return ns.joist {size = "2x10", species = "DF-L", grade = "No.2", span = "14-0",
    spacing = 16, dead = 10, live = 40, cuts = four_cuts(below)}
end

local function two_spans()
  return ns.joist {size = "2x10", species = "DF-L", grade = "No.2",
    spans = {"14-0", "12-0"}, spacing = 16, dead = 10, live = 40, cuts = four_cuts()}
end

local function three_spans()
  return ns.joist {size = "2x10", species = "DF-L", grade = "No.2",
    spans = {"14-0", "12-0", "13-0"}, spacing = 16, dead = 10, live = 40,
    cuts = four_cuts()}
end

-- Spans with an overhang past the last.
local function overhanging(spans)
  return ns.joist {size = "2x10", species = "DF-L", grade = "No.2", spans = spans,
    overhang_right = "2-6", spacing = 16, dead = 10, live = 40, cuts = four_cuts()}
end

-- Cut through, with a sister over part of its length on so many rows of bolts.
local function sistered(rows)
  local joist = ns.joist {size = "2x10", species = "DF-L", grade = "No.2",
    span = "14-0", spacing = 16, dead = 10, live = 40,
    cuts = {ns.sever {from = 80, to = 84}}}
  local groups, each = {}, rows // 2
  for i = 1, each do
    local off = 38 * (i - 1) / (each - 1)
    groups[i], groups[each + i] = {at = 38 + off, n = 2}, {at = 88 + off, n = 2}
  end
  local fixed = joist:fix(ns.sister {from = 32, to = 132, groups = groups,
    fastener = ns.fastener {kind = "bolt", diameter = "1/2 in"}})
  return fixed:review().fixed, fixed
end

local function reviews(joist, with_steps)
  return function(count)
    for _ = 1, count do
      local review = joist:review()
      for _, state in ipairs(with_steps and {review.uncut, review.cut} or {}) do
        for _, check in ipairs(state.checks) do local _ = check.steps end
      end
    end
  end
end

local function spin(joist)
  return function(count) core.spin(joist.model, rules, standard, count) end
end

-- A sweep of four fields, a million points, as an engineer asks for it; points a second
-- of processor time on one thread, by the wall clock on more.
local function sweep_rate(joist, threads)
  local clock = threads == 1 and os.clock or core.clock
  local over = {live = {}, dead = {}, ["cuts.1.at"] = {}, ["cuts.2.at"] = {}}
  for i = 0, 31 do
    over.live[i + 1], over.dead[i + 1] = 20 + 1.25 * i, 8 + 0.375 * i
    over["cuts.1.at"][i + 1], over["cuts.2.at"][i + 1] = 35 + i, 80 + 1.25 * i
  end
  local best = 0
  for _ = 1, REPEATS do
    local s = ns.sweep {joist = joist, over = over, threads = threads, progress = false,
      values = {"uncut.ratio", "cut.ratio", "action"}}
    local from = clock()
    local _ = s:column "cut.ratio"
    best = math.max(best, #s / (clock() - from))
  end
  return best
end

-- Columns of random numbers for the fields of one span with four cuts, each a field that
-- the core takes from lane to lane.
local function random_columns(count)
  local range = {span = {150, 190}, spacing = {12, 24}, dead = {8, 20}, live = {20, 60},
    creep = {1, 1.5}, bearing = {1.5, 4}, temperature = {40, 95},
    ["limits.live"] = {300, 480}, ["limits.total"] = {180, 300},
    ["cuts.1.below"] = {2.5, 5}, ["cuts.2.below"] = {2.5, 5}, ["cuts.4.below"] = {2.5, 5},
    ["cuts.1.at"] = {30, 50},
    ["cuts.1.diameter"] = {1, 2.5}, ["cuts.2.at"] = {80, 110},
    ["cuts.2.diameter"] = {1, 3}, ["cuts.3.from"] = {10, 18}, ["cuts.3.to"] = {19, 22},
    ["cuts.3.depth"] = {0.5, 1.5}, ["cuts.4.from"] = {118, 126},
    ["cuts.4.to"] = {128, 134}, ["cuts.4.height"] = {1, 3}}
  local columns, fields = {}, 0
  for name, r in pairs(range) do
    local list = {}
    for i = 1, count do list[i] = real(r[1], r[2]) end
    columns[name], fields = list, fields + 1
  end
  return columns, fields
end

-- Joists a second of points that differ in all of those, once they are read, and with
-- the reading of the columns.
local function columns_rate(joist, points)
  local best, with_reading = 0, 0
  for _ = 1, REPEATS do
    local from = os.clock()
    local s = ns.sweep {joist = joist, points = points, threads = 1, progress = false,
      values = {"uncut.ratio", "cut.ratio", "action"}}
    local read = os.clock()
    local _ = s:column "cut.ratio"
    local now = os.clock()
    best = math.max(best, #s / (now - read))
    with_reading = math.max(with_reading, #s / (now - from))
  end
  return best, with_reading
end

-- The sixteen joists that core.spin goes round, one after another.
local function plain_lua(joist)
  local m = {}
  for name, value in pairs(joist.model) do m[name] = value end
  local live, dead = m.live, m.dead
  return function(count)
    for i = 0, count - 1 do
      local lane = i % LANES
      m.live = live + lane
      m.dead = lane == 0 and 10 + 1e-3 * (i // LANES % 100) or dead
      bench_lua.review(m)
    end
  end
end

------------------------------------------------------------------------------ the table

local function line(what, per_second, unit)
  print(("%-46s %12.0f %-11s %9.3f us"):format(what, per_second, unit, 1e6 / per_second))
end

local function heading()
  local built_by = compiler()
  print("machine          " .. (first_match("/proc/cpuinfo", "^model name%s*:%s*(.*)")
    or "unknown"))
  print("instruction set  " .. instruction_set(built_by))
  print("compiler         " .. built_by)
  print("Lua              " .. _VERSION)
  print()
end

local function agreement()
  local refused, n = compare()
  print(("core and plain Lua agree to %g on %d joists, and on refusing %d")
    :format(CLOSE, CASES, refused))
  print(("actions: leave %d, justify %d, decide %d, repair %d, refer %d")
    :format(n[0], n[1], n[2], n[3], n[4]))
  print()
end

local function table_of(simple)
  line("joist:review(), all steps read", rate(reviews(simple, true)), "reviews/s")
  line("joist:review()", rate(reviews(simple, false)), "reviews/s")
  local alone = rate(spin(simple)) * LANES
  line("core alone, 16 lanes a call", alone, "joists/s")
  for _, beam in ipairs {{"one span and an overhang", overhanging {"14-0"}},
    {"two spans and an overhang", overhanging {"14-0", "12-0"}},
    {"three spans", three_spans()}} do
    line("core alone, " .. beam[1], rate(spin(beam[2])) * LANES, "joists/s")
  end
  local swept, two = sweep_rate(simple, 1), sweep_rate(simple, 2)
  line("ns.sweep of four fields, one thread", swept, "joists/s")
  line("ns.sweep of four fields, two threads", two, "joists/s")
  local plain = rate(plain_lua(simple))
  line("the same arithmetic in plain Lua", plain, "joists/s")
  local points, fields = random_columns(POINTS)
  local columns, with_reading = columns_rate(one_span(3), points)
  line(("%d random columns, one thread"):format(fields), columns, "joists/s")
  line("the same, with the reading of the columns", with_reading, "joists/s")
  print()
  print(("core alone is %.1f times plain Lua, a sweep %.1f times; two threads %.2f times "
    .. "one"):format(alone / plain, swept / plain, two / swept))
  return alone, plain
end

heading()
agreement()
print "one span of 14 ft with four cuts: two holes, a notch, a slot"
local alone, plain = table_of(one_span())
beams.measure {describe = random_description, count = CASES // 5, rate = rate,
  spin = spin,
  two = two_spans(), sistered = sistered}
math.randomseed(20210502)
beside {seconds = SECONDS, alone = alone, plain = plain, model = one_span().model,
  measure_core = function() return rate(spin(one_span())) * LANES end,
  measure_plain = function() return rate(plain_lua(one_span())) end,
  description = random_description, joist_of = joists.of, answers = answers_of_core,
  agree = agree, count = CASES, fixed = "build/bench_fixed"}
