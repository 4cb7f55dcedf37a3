-- SPDX-License-Identifier: MIT
-- Stations of a grid and the arrays that the core works on. An even grid of 108 pieces
-- or more of the longest joist, and a station at every place that must be one: ends,
-- bearings, edges of gaps, point loads on the floor, rows of blocks.
local core = require "netsection.core"

local mesh = {}

local PIECES = 108
-- Places nearer than this are one station, in: shorter pieces would cost digits.
local NEAR = 0.1

local function places_of(list, more)
  local hard = {}
  for _, line in ipairs(list) do
    hard[#hard + 1], hard[#hard + 2] = line.first, line.last
    for _, x in ipairs(line.bearings) do hard[#hard + 1] = x end
    for _, g in ipairs(line.gaps) do hard[#hard + 1], hard[#hard + 2] = g[1], g[2] end
  end
  table.move(more or {}, 1, #(more or {}), #hard + 1, hard)
  table.sort(hard)
  return hard
end

-- Stations, rising.
local function stations(list, more)
  local hard = places_of(list, more)
  local longest = 0
  for _, line in ipairs(list) do longest = math.max(longest, line.last - line.first) end
  local kept = {hard[1]}
  for _, x in ipairs(hard) do
    if x - kept[#kept] >= NEAR then kept[#kept + 1] = x end
  end
  local x = {kept[1]}
  for k = 2, #kept do
    local a, b = kept[k - 1], kept[k]
    local n = math.ceil((b - a) / (longest / PIECES) - 1e-9)
    for i = 1, n do x[#x + 1] = i == n and b or a + (b - a) * i / n end
  end
  return x
end

-- The stations before and behind a place.
local function around(x, at)
  local lo, hi = 1, #x
  while hi - lo > 1 do
    local mid = (lo + hi) // 2
    if x[mid] <= at then lo = mid else hi = mid end
  end
  return lo, hi
end

-- The station nearest to a place.
local function nearest(x, at)
  local lo, hi = around(x, at)
  return at - x[lo] <= x[hi] - at and lo or hi
end
mesh.nearest = nearest

-- EI of a stretch of a line by its mean flexibility; 0 where most of it is a gap.
local function EI_between(line, a, b)
  local soft, long = 0, 0
  for _, s in ipairs(line.stretches) do
    local l = math.min(s.to, b) - math.max(s.from, a)
    if l > 0 and s.EI > 0 then soft, long = soft + l / s.EI, long + l end
  end
  return long > (b - a) / 2 and long / soft or 0
end

-- What the core reads, with no strips in it yet.
-- @param more further places that must be stations
-- @param k factor on EI by mark, or nil
function mesh.of(list, more, k)
  local x = stations(list, more)
  local t = {x = x, y = {}, EI = {}, along = {}, wood = {}, held = {}, strips = {}}
  for i, line in ipairs(list) do
    local first, last = nearest(x, line.first), nearest(x, line.last)
    local EI, by = {}, k and k[line.mark] or 1
    for e = 1, #x - 1 do
      EI[e] = e >= first and e < last and by * EI_between(line, x[e], x[e + 1]) or 0
    end
    t.y[i], t.EI[i], t.along[i], t.wood[i] = line.y, EI, 0, {first, last}
    t.held[i] = {}
    for n, at in ipairs(line.bearings) do t.held[i][n] = nearest(x, at) end
  end
  return t
end

-- Mean load of a trapezoid on a piece a..b, lb/in.
local function mean(l, a, b)
  local lo, hi = math.max(l[1], a), math.min(l[2], b)
  if hi <= lo then return 0 end
  local g = (l[4] - l[3]) / (l[2] - l[1])
  return (l[3] + g * ((lo + hi) / 2 - l[1])) * (hi - lo) / (b - a)
end

-- Loads of line i into what core.grid's solve takes.
-- @param loads {lines = {{from, to, w1, w2}}, points = {{at, lb}}}
function mesh.put(x, into, i, loads)
  if #loads.lines > 0 then
    local q = {}
    for e = 1, #x - 1 do
      q[e] = 0
      for _, l in ipairs(loads.lines) do q[e] = q[e] + mean(l, x[e], x[e + 1]) end
    end
    into.q[i] = q
  elseif into.q[i] == nil then
    into.q[i] = false
  end
  -- Loads of the joists' own stand between stations, on both by the lever rule.
  for _, p in ipairs(loads.points) do
    local lo, hi = around(x, p[1])
    local part = (p[1] - x[lo]) / (x[hi] - x[lo])
    if part > 1e-9 then into.P[#into.P + 1] = {i, hi, p[2] * part} end
    if part < 1 - 1e-9 then into.P[#into.P + 1] = {i, lo, p[2] * (1 - part)} end
  end
end

-- All of it, lb.
function mesh.total(loads)
  local sum = 0
  for _, l in ipairs(loads.lines) do sum = sum + (l[3] + l[4]) / 2 * (l[2] - l[1]) end
  for _, p in ipairs(loads.points) do sum = sum + p[2] end
  return sum
end

-- One joist by itself under loads; nil where it does not stand alone.
-- @return answer (joist 1), stations
function mesh.isolated(line, loads)
  local places = {}
  for i, p in ipairs(loads.points) do places[i] = p[1] end
  local one = {mark = line.mark, y = 0, first = line.first, last = line.last,
    bearings = line.bearings, gaps = line.gaps, stretches = line.stretches}
  local t = mesh.of({one}, places)
  local g = core.grid(t)
  if not g then return nil end
  local into = {q = {}, P = {}}
  mesh.put(t.x, into, 1, loads)
  return g:solve(into), t.x, g
end

return mesh
