-- SPDX-License-Identifier: MIT
-- Two spans, and a severed joist with a sister over part of its length: the core beside
-- plain Lua, which works their forces and sag by the force method (bench_spans.lua,
-- bench_halves.lua) and no checks. Answers first, then rates.
local bench_lua = require "tests.bench_lua"
local core = require "netsection.core"
local halves = require "tests.bench_halves"
local ns = require "netsection"
local packs = require "netsection.packs"
local spans = require "tests.bench_spans"

local beams = {}

local LANES = 16
local rules = assert(packs.rules("us-irc-2021", "wood"))
local standard = assert(packs.standard "us-nds-2018-asd")
-- Two spans have one unknown: each answer is the same to so much of itself. A half of a
-- severed joist is a system of as many unknowns as rows, and two: a row that takes little
-- beside others is the difference of large numbers, so its rows are compared in parts of
-- the largest one.
local CLOSE = 1e-12

local random = math.random

local function real(low, high)
  return low + (high - low) * random()
end

local function close(a, b, size, most)
  return math.abs(a - b) <= most * math.max(math.abs(a), math.abs(b), size)
end

local function differs(what, case, a, b)
  error(("%s: joist %d differs: core %.17g, plain Lua %.17g"):format(what, case, a, b), 0)
end

------------------------------------------------------------------------------- two spans

-- What the plain statement takes of a joist of two spans; EI by the plain review of one
-- span as long as both, whose cuts have the same wood.
local function plain_spans(joist)
  local m, one = joist.model, {}
  for name, value in pairs(m) do one[name] = value end
  one.span, one.bearing = {m.span[1] + m.span[2]}, {m.bearing[1], m.bearing[3]}
  local X, EI = bench_lua.segments(one)
  return X and {L = m.span, X = X, EI = EI, dead = m.dead * m.spacing / 144,
    live = m.live * m.spacing / 144, creep = m.Kcr}
end

--- Random joists of two spans. @param describe function(kinds of cuts) -> a description
-- @return the largest difference of forces and sags, in parts of each; raises past 1e-12
function beams.compare_spans(describe, count)
  local done, most = 0, 0
  while done < count do
    local t = describe {"hole", "notch", "slot", "hole"}
    t.spans, t.live = {t.span * real(0.4, 0.6)}, real(20, 60)
    t.span, t.blocking = nil, nil
    t.spans[2] = real(0.8, 1.2) * t.spans[1]
    for _, cut in ipairs(t.cuts) do cut.from_right = nil end
    local ok, joist = pcall(ns.joist, t)
    local review = ok and joist:review()
    local a = review and review.computed and review.cut
    local plain = a and a.moment and a.deflection and plain_spans(joist)
    if plain then
      done = done + 1
      local w = spans.work(plain)
      local function same(what, x, y, size)
        local of = math.max(math.abs(x), math.abs(y), size)
        most = math.max(most, math.abs(x - y) / of)
        if not close(x, y, size, CLOSE) then
          differs("two spans, " .. what, done, x, y)
        end
      end
      local size = w.R[2][1] + w.R[2][2]
      for i, R in ipairs(a.reaction_range) do
        same("reaction, dead", R.dead, w.R[i][1], size)
        same("reaction, most", R.most, w.R[i][1] + w.R[i][2], size)
        same("reaction, least", R.least, w.R[i][1] + w.R[i][3], size)
      end
      same("moment", math.abs(a.moment), w.M, 0)
      same("live deflection", a.deflection.live, w.live, 0)
      same("total deflection", a.deflection.total, w.total, 0)
    end
  end
  return most
end

------------------------------------------------------------------------- severed joists

-- What the plain statement takes of a severed joist with a sister.
local function plain_halves(fixed)
  local m = fixed.model
  local f, cut = m.fix, m.cuts[1]
  local k = {}
  for i, n in ipairs(f.count) do k[i] = n * f.stiff end
  return {L = m.span[1], gap = {cut.from, cut.to}, x = f.station, k = k,
    EI_joist = m.E * m.b * m.plies * m.d ^ 3 / 12, EI_member = f.E * f.b * f.d ^ 3 / 12,
    dead = m.dead * m.spacing / 144, live = m.live * m.spacing / 144}
end

-- A joist of random size, cut through, its sister on so many rows a side.
local function random_severed()
  local d, span, each = real(7, 12), real(140, 200), random(3, 8)
  local gap = span * real(0.35, 0.6)
  local to = gap + real(2, 10)
  local reach, groups = math.min(gap - 12, span - to - 12, real(38, 60)), {}
  for i = 1, each do
    local off = 6 + (reach - 10) * (i - 1) / (each - 1)
    groups[#groups + 1] = {at = gap - off, n = 2}
    groups[#groups + 1] = {at = to + off, n = 2}
  end
  table.sort(groups, function(p, q) return p.at < q.at end)
  return pcall(function()
    return ns.joist {b = 1.5, d = d, span = span, spacing = real(12, 24), bearing = 3.5,
      dead = real(5, 20), live = real(20, 60), material = {Fb = 900, Fv = 180,
      E = real(1e6, 2e6), Emin = 580000, Ft = 500, Fc = 1300, Fc_perp = 600, G = 0.5},
      cuts = {ns.sever {from = gap, to = to}}}:fix(ns.sister {from = gap - reach,
      to = to + reach, groups = groups, fastener = ns.fastener {kind = "bolt",
      diameter = "1/2 in"}})
  end)
end

--- Random severed joists. @return the largest difference of the rows' forces in parts of
-- the largest row; raises past 1e-12
function beams.compare_halves(count)
  local done, most = 0, 0
  while done < count do
    local ok, joist = random_severed()
    local fixed = ok and joist:review().fixed
    if fixed and not fixed.refused then
      done = done + 1
      local rows, size = halves.work(plain_halves(fixed)), 0
      for _, row in ipairs(rows) do
        size = math.max(size, math.abs(row.most), math.abs(row.least))
      end
      for i, s in ipairs(fixed.stations) do
        for _, name in ipairs {"full", "most", "least"} do
          local a, b = s[name], rows[i][name]
          most = math.max(most, math.abs(a - b) / size)
          if not close(a, b, size, CLOSE) then
            differs(("row %d, %s"):format(i, name), done, a, b)
          end
        end
      end
    end
  end
  return most
end

----------------------------------------------------------------------------------- rates

-- A statement worked again and again under other live load.
local function again(work, t)
  local live = t.live
  return function(count)
    for i = 0, count - 1 do
      t.live = live * (1 + i % LANES / 40)
      work(t)
    end
  end
end

local function line(what, rate, plain)
  print(("%-46s %10.0f %10.0f %8.0f"):format(what, rate, plain, rate / plain))
end

-- Points a second of a sweep on one thread, the best of three.
local function swept(t)
  t.threads, t.progress = 1, false
  t.values = {t.joist.repair and "fixed.ratio" or "ratio"}
  local best = 0
  for _ = 1, 3 do
    local s, from = ns.sweep(t), os.clock()
    local _ = s:column(t.values[1])
    best = math.max(best, #s / (os.clock() - from))
  end
  return best
end

local function steps(from, to, n)
  local list = {}
  for i = 1, n do list[i] = from + (to - from) * (i - 1) / (n - 1) end
  return list
end

local LOADS = {live = steps(20, 60, 32), dead = steps(8, 20, 32),
  spacing = steps(12, 24, 16)}

local function random_spans(count)
  local points = {["spans.1"] = {}, ["spans.2"] = {}, ["cuts.1.at"] = {}, live = {}}
  for i = 1, count do
    points["spans.1"][i], points["spans.2"][i] = real(150, 180), real(130, 160)
    points["cuts.1.at"][i], points.live[i] = real(30, 50), real(20, 60)
  end
  return points
end

-- The same of a repaired joist's model, each joist with a sister of another stiffness.
local function others(model, count)
  local E, to, best = core.numbers(count), core.numbers(count), 0
  for i = 1, count do core.set(E, i, model.fix.E * real(0.8, 1.2)) end
  local t = {models = {core.packed(model)}, sizes = {count}, count = count,
    columns = {{axis = 1, path = "fix.E", values = E}}, rules = rules.core,
    outputs = {{quantity = "ratio", state = "fixed"}}, to = {to},
    fault = core.faults(count), standard = standard.core}
  for _ = 1, 3 do
    local from = os.clock()
    core.sweep(t)
    best = math.max(best, count / (os.clock() - from))
  end
  return best
end

--- Compares and measures.
-- @param t {describe = a random description, count =, rate =, spin =, two = joist of two
--   spans, sistered = function(rows) -> repaired state, the repaired joist}
function beams.measure(t)
  math.randomseed(20210502)
  print(("two spans: core and plain Lua agree to %.1e on %d joists (%g allowed)"):format(
    beams.compare_spans(t.describe, t.count), t.count, CLOSE))
  print(("severed, sister over part: rows agree to %.1e of the largest on %d joists (%g)")
    :format(beams.compare_halves(t.count), t.count, CLOSE))
  print()
  print "joists a second, one thread; plain Lua works forces and sag alone, no checks"
  print(("%-46s %10s %10s %8s"):format("", "core", "plain Lua", "times"))
  local plain = t.rate(again(spans.work, plain_spans(t.two)))
  line("two spans, core alone", t.rate(t.spin(t.two)) * LANES, plain)
  line("two spans, sweep, other geometry at each point", swept {joist = t.two,
    points = random_spans(50000)}, plain)
  line("two spans, sweep over loads", swept {joist = t.two, over = LOADS}, plain)
  for _, rows in ipairs {12, 16} do
    local fixed, joist = t.sistered(rows)
    local p = t.rate(again(halves.work, plain_halves(fixed)))
    line(("severed, %d rows, core alone"):format(rows), t.rate(t.spin(fixed)) * LANES, p)
    line(("severed, %d rows, other geometry at each point"):format(rows),
      others(fixed.model, t.count * 100), p)
    line(("severed, %d rows, sweep over loads"):format(rows), swept {joist = joist,
      over = LOADS}, p)
  end
  print()
end

return beams
