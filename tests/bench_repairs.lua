-- SPDX-License-Identifier: MIT
-- Speed of sweeps of repairs: every kind over dead and live load and spacing, one thread,
-- CPU time, beside the reviews that make the same points one by one. Points are compared
-- first. Run by `make bench`.
--   lua tests/bench_repairs.lua [SECONDS]    of CPU time for each measurement
local ns = require "netsection"

local SECONDS = tonumber(arg and arg[1]) or 0.5
local REPEATS = 3

local function joist(cuts)
  return ns.joist {size = "2x10", species = "douglas fir-larch", grade = "No.2",
    span = "14-0", spacing = 16, bearing = 3.5, dead = 10, live = 40, cuts = cuts}
end

local notched = joist {ns.notch {face = "bottom", from = 40, to = 43, depth = 1.25},
  ns.hole {at = 100, diameter = 2}}
local drilled = joist {ns.hole {at = 100, diameter = 3}}
local ended = joist {ns.end_notch {support = "left", face = "bottom", depth = 2,
  length = 4}}
local severed = joist {ns.sever {from = 80, to = 84}}

-- What is repaired, and points a second that are aimed at, where a figure was set.
local CASES = {{"strap", notched:fix(ns.strap {width = 1.5}), 3e5},
  {"header", severed:fix(ns.header {at = {70, 94}}), 2e5},
  {"mid-span support", drilled:fix(ns.midspan_support {}), 2e5},
  {"hanger", ended:fix(ns.hanger {})},
  {"added joist", notched:fix(ns.added_joist {})},
  {"screws at a notch", ended:fix(ns.notch_screws {})},
  {"full-length sister", notched:fix(ns.sister {})},
  {"side plates", notched:fix(ns.side_plates {steel = "A36", thickness = 0.25,
    from = 20, to = 66})}}

local function steps(from, to, n)
  local list = {}
  for i = 1, n do list[i] = from + (to - from) * (i - 1) / (n - 1) end
  return list
end

local function sweep(j, n)
  return ns.sweep {joist = j, over = {live = steps(20, 60, n), dead = steps(8, 20, n),
    spacing = steps(12, 24, n)}, values = {"fixed.ratio", "status"}, threads = 1,
    progress = false, memory = 1 << 32}
end

-- Axes that change the joist or the repair itself, each point another one.
local SEVERED = severed:fix(ns.sister {from = 20, to = 146})
local GROUPS = severed:fix(ns.sister {from = 20, to = 146, groups = {{at = 26, n = 4},
  {at = 72, n = 4}, {at = 92, n = 4}, {at = 140, n = 4}}})
local COUNTS = {2, 3, 4, 5, 6}
local OWN = {
  {"sister over span", GROUPS, {span = steps(160, 200, 16000)}, 1e5},
  {"over fastener count", GROUPS, {["fix.groups.1.n"] = COUNTS,
    ["fix.groups.3.n"] = COUNTS, span = steps(160, 200, 640)}, 1e5},
  {"over its length", SEVERED, {["fix.to"] = steps(120, 160, 16000)}, 1e5},
  {"over pitch", SEVERED, {["fix.pitch"] = steps(8, 16, 16000)}, 1e5},
  {"full length over span", notched:fix(ns.sister {}), {span = steps(120, 200, 16000)}},
  {"strap over span", notched:fix(ns.strap {width = 1.5}),
    {span = steps(120, 200, 16000)}},
  {"header over span", severed:fix(ns.header {at = {70, 94}}),
    {span = steps(150, 200, 16000)}},
  {"support over place", drilled:fix(ns.midspan_support {}), {["fix.at"] =
    steps(50, 86, 16000)}}}

-- Every thousandth point beside its review.
local function own_points(name, j, over)
  local s = ns.sweep {joist = j, over = over, values = {"fixed.ratio", "status"},
    threads = 1, progress = false}
  local from = os.clock()
  local ratio = s:column "fixed.ratio"
  local rate = #s / (os.clock() - from)
  local i = 0
  for row in s:rows() do
    i = i + 1
    if i % 997 == 1 then
      local changes = {}
      for field in pairs(over) do changes[field] = row[field] end
      local a = j:with(changes):review()
      if a.fixed.ratio ~= ratio[i] or a.fixed.status ~= row.status then
        print(("%s: point %d is not its review"):format(name, i))
        os.exit(1, true)
      end
    end
  end
  return rate
end

local function points_a_second(j)
  local n, best = 12, 0
  repeat
    local s, from = sweep(j, n), os.clock()
    local _ = s:column "fixed.ratio"
    local took = os.clock() - from
    n = n * 2
  until took > SECONDS / 4 or n > 100
  for _ = 1, REPEATS do
    local s, from = sweep(j, n // 2), os.clock()
    local _ = s:column "fixed.ratio"
    best = math.max(best, #s / (os.clock() - from))
  end
  return best
end

local function reviews_a_second(j)
  local n, from = 0, os.clock()
  repeat
    n = n + 1
    local _ = j:with {live = 20 + n % 40, dead = 8 + n % 12}:review().fixed.ratio
  until os.clock() - from > SECONDS
  return n / (os.clock() - from)
end

local function compare(name, j)
  for row in sweep(j, 4):rows() do
    local a = j:with {live = row.live, dead = row.dead, spacing = row.spacing}:review()
    if a.fixed.ratio ~= row["fixed.ratio"] or a.fixed.status ~= row.status then
      print(("%s: live %g, dead %g, spacing %g: a point is not its review"):format(name,
        row.live, row.dead, row.spacing))
      os.exit(1, true)
    end
  end
end

print "sweeps over a repaired joist's geometry and its repair's own fields, one thread;"
print "every thousandth point is its review to the bit"
print(("%-22s %12s %10s"):format("", "points/s", "aim"))
for _, case in ipairs(OWN) do
  local name, j, over, aim = table.unpack(case)
  local best = 0
  for _ = 1, REPEATS do best = math.max(best, own_points(name, j, over)) end
  print(("%-22s %12.0f %10s"):format(name, best, aim and ("%.0f"):format(aim) or "-"))
end
print()
print "sweeps of repairs over dead, live and spacing, one thread; 64 points of each are"
print "their reviews to the bit"
print(("%-22s %12s %12s %8s %10s"):format("", "points/s", "reviews/s", "times", "aim"))
for _, case in ipairs(CASES) do
  local name, j, aim = table.unpack(case)
  compare(name, j)
  local swept, alone = points_a_second(j), reviews_a_second(j)
  print(("%-22s %12.0f %12.0f %8.0f %10s"):format(name, swept, alone, swept / alone,
    aim and ("%.0f"):format(aim) or "-"))
end
