-- SPDX-License-Identifier: MIT
-- Where live load raises an effect: the stretches on which its influence line, the effect
-- of a load of one that travels along the beam, is positive. In a span beside the place
-- and in the others it changes its sign once at most on either side of the place.
local beam = require "netsection.statics.beam"

local pattern = {}

-- Of a stretch without supports, in which signs are looked for; few where rows part it.
local SAMPLES, FEW = 24, 16
local NIL = 1e-9

-- Stretches between supports, ends, the place and others where a line may jump.
local function stretches(g, x, more)
  local list = {g.first}
  for _, s in ipairs(g.at) do
    if s > list[#list] then list[#list + 1] = s end
  end
  if g.last > list[#list] then list[#list + 1] = g.last end
  local places = {table.unpack(more or {})}
  places[#places + 1] = x
  for _, place in ipairs(places) do
    for i = 1, #list - 1 do
      if place > list[i] and place < list[i + 1] then
        table.insert(list, i + 1, place)
        break
      end
    end
  end
  return list
end

-- Where line changes its sign between lo and hi: false position, the end that stays
-- halved (Illinois), which needs a few steps on a smooth line.
local function zero(line, lo, hi)
  local low, high, mid = line(lo), line(hi), (lo + hi) / 2
  for _ = 1, 60 do
    local was = mid
    mid = high ~= low and lo - low * (hi - lo) / (high - low) or (lo + hi) / 2
    local v = line(mid)
    if v == 0 or math.abs(mid - was) < 1e-13 * math.max(1, math.abs(mid)) then break end
    if (v > 0) == (high > 0) then
      hi, high, low = mid, v, low / 2
    else
      lo, low, high = mid, v, high / 2
    end
  end
  return mid
end

-- Appends a..b to the list, or makes its last stretch longer.
local function put(out, a, b)
  local last = out[#out]
  if last and math.abs(last.b - a) < NIL then last.b = b else
    out[#out + 1] = {a = a, b = b}
  end
end

--- @param effect function(list of loads, moments over the supports)
-- @param x its place, or nil; @param sign 1, or -1 for where live load lowers it
-- @param more places at which its line may jump
-- @return {{a =, b =}, ...}
function pattern.of(g, effect, x, sign, more)
  local out, places = {}, stretches(g, x, more)
  local samples = more and FEW or SAMPLES
  local kept = g.kept or {}
  g.kept = kept
  local function line(p)
    local list = {{P = 1, a = p}}
    kept[p] = kept[p] or beam.moments(g, list)
    return sign * effect(list, kept[p])
  end
  for i = 1, #places - 1 do
    local a, b = places[i], places[i + 1]
    local from, was, last = a, nil, a
    for k = 0, samples - 1 do
      local p = a + (k + 0.5) / samples * (b - a)
      local v = line(p)
      local up = v > NIL
      if was ~= nil and up ~= was then
        local turn = zero(line, last, p)
        if was then put(out, from, turn) end
        from = turn
      end
      was, last = up, p
    end
    if was then put(out, from, b) end
  end
  return out
end

local SYMBOL = {dead = "D", live = "L", ["roof live"] = "Lr", snow = "S", L1 = "L1",
  L2 = "L2"}

--- Loads with their factors: dead everywhere, the others on the stretches.
-- @param on the stretches, or "all"; @param factors {D =, L =, Lr =, S =}
function pattern.loads(list, on, factors)
  local out = {}
  local function add(l, factor)
    if factor ~= 0 then
      out[#out + 1] = {w = l.w and l.w * factor, w2 = l.w2 and l.w2 * factor,
        P = l.P and l.P * factor, a = l.a, b = l.b, case = l.case}
    end
  end
  for _, l in ipairs(list) do
    local factor = factors[SYMBOL[l.case]] or 0
    if l.case == "dead" or on == "all" then
      add(l, factor)
    else
      for _, s in ipairs(on) do
        for _, part in ipairs(beam.within({l}, s.a, s.b)) do add(part, factor) end
      end
    end
  end
  return out
end

return pattern
