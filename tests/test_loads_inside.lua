-- SPDX-License-Identifier: MIT
-- Sweeps whose loads are inside: the core keeps what the geometry of the block before
-- gave. Each point is the review of that joist to the bit, also where geometries take
-- turns, where a lane cannot be worked and where a repair is swept with its joist.
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local T = {}

local VALUES = {"uncut.ratio", "cut.ratio", "action", "cut.moment", "cut.shear",
  "cut.deflection.total", "cut.deflection.live"}

local function cuts(rng)
  return {ns.hole {at = rng:real(15, 60), diameter = rng:real(0.5, 3)},
    ns.notch {face = "top", from = 70, to = 72, depth = rng:real(0.25, 1.2)},
    ns.slot {from = 80, to = 80 + rng:real(1, 4), height = 2}}
end

local function joist(rng, t)
  t.size, t.species, t.grade, t.bearing = "2x10", "douglas fir-larch", "No.2", 3.5
  t.spacing, t.dead, t.live, t.cuts = 16, 12, 40, t.cuts or cuts(rng)
  return ns.joist(t)
end

local function two_spans(rng, more)
  local t = more or {}
  t.spans = {rng:real(130, 190), rng:real(110, 180)}
  return joist(rng, t)
end

local function sistered(rng)
  local gap, groups = rng:real(60, 90), {}
  for i = 1, rng:int(2, 4) do
    groups[#groups + 1] = {at = gap - 4 - 9 * i, n = 2}
    groups[#groups + 1] = {at = gap + 10 + 9 * i, n = 2}
  end
  table.sort(groups, function(a, b) return a.at < b.at end)
  return joist(rng, {span = 168, cuts = {ns.sever {from = gap, to = gap + 4}}})
    :fix(ns.sister {from = gap - 46, to = gap + 52, groups = groups,
      fastener = ns.fastener {kind = "bolt", diameter = "1/2 in"}}), gap
end

local function levels(rng, low, high)
  local list = {}
  for i = 1, 5 do list[i] = low + (high - low) * (i - 1) / 4 + rng:real(0, 1) end
  return list
end

local function number_of(r, name)
  local v = r
  for part in name:gmatch "[^.]+" do v = v and v[part] end
  return v
end

-- Whether a row is the review of its joist by a standard; both may refuse it.
local function same(j, row, fields, values, standard)
  local changes = {}
  for _, name in ipairs(fields) do changes[name] = row[name] end
  local ok, r = pcall(function()
    return j:with(changes):review {standard = standard}
  end)
  if not ok then
    lu.assertNotNil(row.reason)
    return false
  end
  for _, name in ipairs(values) do
    local want = number_of(r, name)
    lu.assertTrue(row[name] == want, ("%s: %s, not %s"):format(name, row[name], want))
  end
  return true
end

local function compare(j, fields, t, values, standard)
  t.joist, t.values, t.threads, t.progress = j, values, 1, false
  t.standard = standard
  local n = 0
  for row in ns.sweep(t):rows() do
    if same(j, row, fields, values, standard) then n = n + 1 end
  end
  return n
end

-- Loads of each kind; live load past what is taken at one step.
function T.test_a_sweep_over_loads_is_its_reviews()
  local rng, worked = support.random(15), 0
  local of = {two_spans(rng), two_spans(rng), two_spans(rng, {overhang_right = 30}),
    two_spans(rng, {loads = {ns.line {load = "40 plf", case = "live", from = 20,
      to = 70}}}),
    joist(rng, {span = 170})}
  for i, j in ipairs(of) do
    local over = {live = levels(rng, 20, 60), dead = levels(rng, 6, 20),
      spacing = {12, 16, 19.2, 24}}
    over.live[3] = 600
    worked = worked + compare(j, {"live", "dead", "spacing"}, {over = over}, VALUES,
      i == 2 and "us-nds-2018-lrfd" or nil)
  end
  lu.assertTrue(worked > 300)
end

-- Two geometries in turn, some blocks of one, some of both.
function T.test_geometries_in_turn_are_their_reviews()
  local rng = support.random(16)
  for _, j in ipairs {two_spans(rng), joist(rng, {span = 160})} do
    local points = {["cuts.1.at"] = {}, live = {}, dead = {}}
    for i = 1, 240 do
      points["cuts.1.at"][i] = (i // 24 % 2 == 0 or i % 7 == 0) and 30 or 45
      points.live[i], points.dead[i] = rng:real(20, 60), rng:real(6, 20)
    end
    lu.assertTrue(compare(j, {"cuts.1.at", "live", "dead"}, {points = points},
      VALUES) == 240)
  end
end

-- A severed joist with its sister, over loads and over the place of its cut with them.
function T.test_a_repair_over_loads_is_its_reviews()
  local rng = support.random(17)
  local values = {"fixed.ratio", "fixed.moment", "uncut.ratio", "action"}
  for _ = 1, 3 do
    local j, gap = sistered(rng)
    local n = compare(j, {"live", "dead", "spacing"}, {over = {live = levels(rng, 20, 60),
      dead = levels(rng, 6, 20), spacing = {12, 16, 24}}}, values)
    lu.assertTrue(n == 75)
    local points = {live = {}, dead = {}, ["cuts.1.to"] = {}}
    for i = 1, 96 do
      points["cuts.1.to"][i] = gap + ((i // 20 % 2 == 0) and 3 or 4)
      points.live[i], points.dead[i] = rng:real(20, 60), rng:real(6, 20)
    end
    lu.assertTrue(compare(j, {"live", "dead", "cuts.1.to"}, {points = points}, values)
      == 96)
  end
end

-- Order and threads change no bit.
function T.test_order_and_threads()
  local rng = support.random(18)
  local j = two_spans(rng)
  local over = {live = levels(rng, 20, 60), ["cuts.1.at"] = levels(rng, 20, 50),
    dead = levels(rng, 6, 20), spacing = {12, 16, 24}}
  local function column(order, threads)
    local s = ns.sweep {joist = j, over = over, order = order, threads = threads,
      progress = false, values = {"cut.ratio"}}
    local sum = {}
    for row in s:rows() do
      sum[("%g %g %g %g"):format(row.live, row.dead, row.spacing, row["cuts.1.at"])] =
        row["cut.ratio"]
    end
    return sum
  end
  local first = column({"live", "dead", "spacing", "cuts.1.at"}, 1)
  lu.assertEquals(column({"cuts.1.at", "live", "spacing", "dead"}, 2), first)
  lu.assertEquals(column({"spacing", "cuts.1.at", "dead", "live"}, 3), first)
end

return T
