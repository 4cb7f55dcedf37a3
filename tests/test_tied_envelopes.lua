-- SPDX-License-Identifier: MIT
-- Live load where it hurts, on two beams tied together, by brute force: a unit load is
-- put at some four hundred places one after another, and what the positive and the
-- negative responses sum to is what the envelope has to give. A line may cross nil twice
-- between two stations, so nothing is said about signs beforehand.
--
-- Random pairs: 25 full-length, 25 part-length with and without a gap; as many as
-- NETSECTION_TIED says of each instead.
local core = require "netsection.core"
local lu = require "luaunit"
local support = require "tests.support"

local T = {}

local COUNT = tonumber(os.getenv "NETSECTION_TIED") or 25
local PLACES = 400

-- Places of two to sixteen rows between from and to, none within the gap.
local function stations_of(r, from, to, gap)
  local list, n = {}, r:int(2, 16)
  for k = 1, n do
    local x = from + (to - from) * (k - r:real(0.2, 0.8)) / n
    if not gap or x < gap[1] - 1 or x > gap[2] + 1 then
      list[#list + 1] = {at = x, k = 10 ^ r:real(3, 6)}
    end
  end
  return list
end

local function full_length(r)
  local L = r:real(96, 200)
  return {L = L, EI = r:real(5e7, 3e8), beside = {from = 0, to = L, EI = r:real(2e7, 4e8),
    bears = {left = r:unit() < 0.8, right = r:unit() < 0.8},
    stations = stations_of(r, 0, L)}}
end

-- Two rows on either side of a gap at the least, so that each part is held.
local function part_length(r)
  local L = r:real(96, 200)
  local mid = r:real(0.35, 0.65) * L
  local from, to = mid - r:real(18, 0.34 * L), mid + r:real(18, 0.34 * L)
  local gap = r:unit() < 0.6 and {mid - r:real(0.1, 6), mid + r:real(0.1, 6)} or nil
  local list = stations_of(r, from, to, gap)
  for _, x in ipairs {from + 1, mid - 9, mid + 9, to - 1} do
    list[#list + 1] = {at = x, k = 10 ^ r:real(3.5, 6)}
  end
  return {L = L, EI = r:real(5e7, 3e8), gap = gap,
    beside = {from = from, to = to, EI = r:real(2e7, 4e8), stations = list,
      bears = {left = false, right = false}}}
end

local function beam_of(t, loads)
  return core.beam {spans = {t.L}, EI = t.EI, gap = t.gap, beside = t.beside,
    loads = loads}
end

-- Unit loads stand in the middle of even pieces between all places where a line may turn
-- or jump.
local function pieces_of(t, more)
  local edges = {0, t.L}
  for _, s in ipairs(t.beside.stations) do edges[#edges + 1] = s.at end
  for _, x in ipairs(t.gap or {}) do edges[#edges + 1] = x end
  for _, x in ipairs(more) do edges[#edges + 1] = x end
  table.sort(edges)
  local list = {}
  for i = 1, #edges - 1 do
    local a, b = edges[i], edges[i + 1]
    local n = math.ceil((b - a) / t.L * PLACES)
    for k = 1, n do
      list[#list + 1] = {x = a + (b - a) * (k - 0.5) / n, h = (b - a) / n}
    end
  end
  return list
end

-- What is looked at: M and V of the joist and of the beam beside it, station forces.
local function effects_of(r, t)
  local places, list = {}, {}
  for k = 1, 4 do
    local x = r:real(0.02, 0.98) * t.L
    local out = not t.gap or x < t.gap[1] or x > t.gap[2]
    if out then
      places[#places + 1] = x
      list[#list + 1] = {"joist M " .. k, function(b) return b:at(x).M end,
        function(b) local e = b:envelope(x) return e.M_max, e.M_min end}
      list[#list + 1] = {"joist V " .. k, function(b) return b:at(x).V end,
        function(b) local e = b:envelope(x) return e.V_max, e.V_min end}
    end
    local y = r:real(t.beside.from + 0.1, t.beside.to - 0.1)
    places[#places + 1] = y
    list[#list + 1] = {"second M " .. k, function(b) return b:beside_at(y).M end,
      function(b) local e = b:beside_envelope(y) return e.M_max, e.M_min end}
  end
  for j = 1, #t.beside.stations do
    list[#list + 1] = {"station " .. j, function(b) return b:station(j) end,
      function(b)
        local x, y = b:station_envelope(j)
        return math.max(x, y), math.min(x, y)
      end}
  end
  return list, places
end

-- The sums of the positive and of the negative responses of each effect; and how often
-- the signs of a response change.
local function summed(t, list, pieces)
  local most, least = {}, {}
  for i = 1, #list do most[i], least[i] = 0, 0 end
  for _, p in ipairs(pieces) do
    local b = beam_of(t, {{at = p.x, P = 1}})
    for i, e in ipairs(list) do
      local v = e[2](b) * p.h
      if v > 0 then most[i] = most[i] + v else least[i] = least[i] + v end
    end
  end
  return most, least
end

local function compare(r, kind, make)
  for n = 1, COUNT do
    local t = make(r)
    local list, places = effects_of(r, t)
    local most, least = summed(t, list, pieces_of(t, places))
    local live = beam_of(t, {{from = 0, to = t.L, w1 = 1, case = "live"}})
    for i, e in ipairs(list) do
      local up, down = e[3](live)
      local margin = 2e-3 * (most[i] - least[i]) + 1e-6
      lu.assertAlmostEquals(up, most[i], margin, ("%s %d, most %s"):format(kind, n, e[1]))
      lu.assertAlmostEquals(down, least[i], margin,
        ("%s %d, least %s"):format(kind, n, e[1]))
    end
  end
end

function T.test_full_length_pairs()
  compare(support.random(3003), "full", full_length)
end

function T.test_part_length_pairs()
  compare(support.random(3002), "part", part_length)
end

return T
