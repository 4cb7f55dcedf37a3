-- SPDX-License-Identifier: MIT
-- The order of a sweep's axes: points come in the order that was asked for, whatever the
-- order they are worked in, and a point is the same to the bit in any of them.
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local T = {}

local function joist(changes)
  local t = {size = "2x10", species = "douglas fir-larch", grade = "No.2", span = 162,
    spacing = 16, dead = 12, live = 40, bearing = 3.5,
    cuts = {ns.hole {at = 60, diameter = 2}}}
  for name, value in pairs(changes or {}) do t[name] = value or nil end
  return ns.joist(t)
end

local function severed()
  return joist {span = 168, cuts = {ns.sever {from = 80, to = 84}}}
end

-- Sweeps with axes of each kind: some make joists, some change geometry, some loads.
local CASES = {
  {joist = joist(), over = {size = {"2x8", "2x10", "2x99"}, span = {150, 162.5},
    live = {30, 40, 50}, dead = {10, 12}, ["cuts.1.diameter"] = {1, 2, 9}},
    values = {"ratio", "governing", "action", "moment", "cuts.1.within"}},
  {joist = joist {spans = {150, 130}, span = false}, over = {
    ["spans.2"] = {120, 130.5, 140},
    live = {30, 40}, spacing = {12, 16, 24}}, values = {"ratio", "reaction.2", "action"}},
  {joist = joist(), over = {live = {30, 40, 50}, grade = {"No.1", "No.2"}},
    points = {span = {150, 155, 160, 165}, ["cuts.1.at"] = {50, 52, 53, 55},
      dead = function(p) return 8 + p.point + p.live / 8 end},
    values = {"ratio", "deflection.total"}, point = true},
  {joist = joist(), over = {live = {30, 40}, ["limits.live"] = {360, 480}},
    points = {size = {"2x8", "2x10", "2x12"}, dead = {9, 10, 11}},
    values = {"ratio", "longest_span"}, point = true},
  {joist = severed():fix(ns.sister {from = 20, to = 150, groups = {
    {at = 26, n = 4}, {at = 50, n = 4}, {at = 110, n = 4}, {at = 144, n = 4}}}), over = {
    span = {160, 164, 168, 172}, live = {30, 40, 50}, ["fix.from"] = {18, 20},
    dead = {10, 12}}, values = {"ratio", "fasteners", "station.3", "fastener.count",
    "status"}},
  {joist = severed(), over = {fix = {false, ns.sister {}, ns.header {},
    ns.sister {pitch = 12}}, live = {30, 40, 50}, spacing = {14, 16}},
    values = {"ratio", "action", "cut.ratio", "piece.count"}},
}

local function sweep_of(case, order, more)
  local t = {order = order, progress = false}
  for _, name in ipairs {"joist", "over", "points", "values"} do t[name] = case[name] end
  for name, value in pairs(more or {}) do t[name] = value end
  return ns.sweep(t)
end

-- The names of all axes in a random order.
local function order_of(r, s)
  local names = {}
  for i, axis in ipairs(s.axes) do table.insert(names, r:int(1, i), axis.name) end
  return names
end

local function key_of(s, row)
  local sorted, texts = {}, {}
  for i, axis in ipairs(s.axes) do sorted[i] = axis.name end
  table.sort(sorted)
  for i, name in ipairs(sorted) do texts[i] = tostring(row[name]) end
  return table.concat(texts, "|")
end

local function text_of(row)
  local names, texts = {}, {}
  for name in pairs(row) do names[#names + 1] = name end
  table.sort(names)
  for i, name in ipairs(names) do
    local v = row[name]
    if math.type(v) == "float" then v = ("%a"):format(v) end
    texts[i] = name .. "=" .. tostring(v)
  end
  return table.concat(texts, " ")
end

-- Rows by place as texts, and whether they come with the last axis the fastest.
local function rows_of(s)
  local out, n = {}, 0
  for row in s:rows() do
    local index = n
    for i = #s.axes, 1, -1 do
      local axis = s.axes[i]
      local step = index % #axis.values + 1
      index = index // #axis.values
      lu.assertEquals(row[axis.name], axis.values[step])
    end
    n = n + 1
    out[key_of(s, row)] = text_of(row)
  end
  lu.assertEquals(n, #s)
  return out
end

function T.test_any_order_of_axes_gives_the_same_points_in_that_order()
  local r = support.random(3)
  for _, case in ipairs(CASES) do
    local plain = sweep_of(case)
    local want = rows_of(plain)
    for _ = 1, 3 do
      local order = order_of(r, plain)
      local s = sweep_of(case, order, {threads = r:int(1, 3)})
      for i, name in ipairs(order) do lu.assertEquals(s.axes[i].name, name) end
      lu.assertEquals(rows_of(s), want)
      -- as a stream too, whose pieces are boxes of the points
      lu.assertEquals(rows_of(sweep_of(case, order, {memory = 1})), want)
    end
  end
end

-- A point is the review of its joist, which knows nothing of axes.
function T.test_a_point_of_a_mixed_order_is_its_review()
  local case = CASES[1]
  local s = sweep_of(case, {"live", "size", "dead", "span", "cuts.1.diameter"})
  for row in s:rows() do
    local changes = {}
    for _, axis in ipairs(s.axes) do changes[axis.name] = row[axis.name] end
    local ok, j = pcall(case.joist.with, case.joist, changes)
    lu.assertEquals(ok, row.reason == nil)
    if ok then
      local review = j:review()
      lu.assertEquals(row.ratio, review.cut.ratio)
      lu.assertEquals(row.moment, review.cut.moment)
      lu.assertEquals(row.action, review.action)
    end
  end
end

local function read(path)
  local f = assert(io.open(path, "rb"))
  local text = f:read "a"
  f:close()
  return text
end

-- Part by part, one after another, the same lines come as all at once.
function T.test_shards_of_a_mixed_order()
  local path = os.tmpname()
  for k, case in ipairs {CASES[1], CASES[5]} do
    local order = {{"dead", "size", "live", "span"}, {"live", "fix.from", "dead"}}
    local function csv(more)
      assert(sweep_of(case, order[k], more):csv(path))
      return read(path)
    end
    local all, parts = csv(), {}
    for i = 1, 5 do
      parts[i] = csv {shard = {i, 5}, threads = i}
      if i > 1 then parts[i] = parts[i]:gsub("^.-\r\n", "", 1) end
    end
    lu.assertEquals(table.concat(parts), all)
  end
  local case, list = CASES[5], {}
  local function part(shard)
    return ns.sweep {joist = case.joist, over = case.over, values = {"ratio"},
      order = {"live", "fix.from", "dead"}, shard = shard, progress = false}
  end
  for i = 1, 2 do list[i] = part {i, 2}:summary() end
  local most, row = part():max "ratio"
  local value, place = ns.merge_shards(list):max "ratio"
  lu.assertEquals(value, most)
  for name, v in pairs(place) do lu.assertEquals(v, row[name]) end
  os.remove(path)
end

-- More points than a box: 70 x 3 x 2 x 5 x 31 in an order that mixes, beside the rows of
-- plain nesting (the last axis the fastest), at random places.
function T.test_many_points_in_boxes()
  local function list(a, step, n)
    local t = {}
    for i = 1, n do t[i] = a + step * (i - 1) end
    return t
  end
  local over = {live = list(20, 0.5, 70), size = {"2x8", "2x10", "2x12"},
    dead = list(8, 1, 2), span = list(140, 1.5, 5), spacing = list(12, 0.25, 31)}
  local j = joist()
  local s = ns.sweep {joist = j, over = over, values = {"ratio"}, progress = false,
    order = {"live", "size", "dead", "span", "spacing"}}
  local ratio, r = s:column "ratio", support.random(5)
  for _ = 1, 60 do
    local at, index, changes = {}, 0, {}
    for _, axis in ipairs(s.axes) do
      at[axis.name] = r:int(1, #axis.values)
      index = index * #axis.values + at[axis.name] - 1
      changes[axis.name] = axis.values[at[axis.name]]
    end
    lu.assertEquals(ratio[index + 1], j:with(changes):review().cut.ratio)
  end
end

function T.test_an_order_may_name_the_listed_points()
  local s = sweep_of(CASES[3], {"point", "live"})
  lu.assertEquals({s.axes[1].name, s.axes[2].name, s.axes[3].name}, {"point", "live",
    "grade"})
  lu.assertEquals(pcall(sweep_of, CASES[1], {"point"}), false)
end

return T
