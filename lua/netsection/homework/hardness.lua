-- SPDX-License-Identifier: MIT
-- How hard a version is beside the others of its kind: how late its mode stands in the
-- kind's list, how close a ratio is to the edge, and how many of its steps are work: a
-- factor of 1 and a term of 0 are none. Balanced over a student's whole sheet, so that
-- nobody has all the close calls.
local kind = require "netsection.homework.kind"
local version = require "netsection.homework.version"

local hardness = {}

-- Beyond this a ratio is far from a pass or fail.
local FAR = 0.6
local SAMPLE, STRIDE = 24, 7919 -- versions that tell how the steps of a kind spread

local function is_edge(k, symbol)
  for _, name in ipairs(k.edge) do
    if name == symbol then return true end
  end
  return false
end

-- Steps of a version that are work, and factors given that have to be put in.
local function steps_of(v)
  local k, n = v.kind, 0
  for _, step in ipairs(k.steps) do
    local x = v.s[step.symbol]
    if type(x) == "number" and not is_edge(k, step.symbol) then
      n = n + ((x == 0 or x == 1 and step.unit == "") and 0 or 1)
    end
  end
  for symbol, x in pairs(v.given) do
    if not v.measures[symbol] then n = n + (x == 1 and 0 or 1) end
  end
  return n
end

local spreads = setmetatable({}, {__mode = "k"})

-- The fewest and the most of them in some versions of a kind.
local function spread_of(k)
  local found = spreads[k]
  if found then return found end
  local space, least, most = kind.space(k.names, k.vary), math.huge, 0
  for i = 0, math.min(SAMPLE, space) - 1 do
    local v = version.new(k, kind.values(k.names, k.vary, i * STRIDE % space))
    local n = steps_of(v)
    least, most = math.min(least, n), math.max(most, n)
  end
  found = {least = least, most = most}
  spreads[k] = found
  return found
end

-- From 0 (as few as the kind has) to 1; half where all versions have the same.
local function effort(v)
  local spread = spread_of(v.kind)
  if spread.most <= spread.least then return 0.5 end
  local share = (steps_of(v) - spread.least) / (spread.most - spread.least)
  return math.max(0, math.min(1, share))
end

--- From 0 (a clear case of the first mode, with few steps) to 1 (a close one of the last,
-- with all of them).
function hardness.of(v)
  local k, rank, near = v.kind, 0.5, nil
  for i, mode in ipairs(k.modes or {}) do
    if mode == v.mode and #k.modes > 1 then rank = (i - 1) / (#k.modes - 1) end
  end
  for _, symbol in ipairs(k.edge) do
    local ratio = v.s[symbol]
    if type(ratio) == "number" then
      near = math.max(near or 0, 1 - math.min(math.abs(ratio - 1), FAR) / FAR)
    end
  end
  return (rank + (near or 0.5) + effort(v)) / 3
end

--- What a student's next version should come to, so that the sheet so far and it have the
-- set's hardness on the whole.
function hardness.wanted(set, student)
  local sum, n = student.hard or 0, student.drawn or 0
  return set.hardness * (n + 1) - sum
end

function hardness.add(student, v)
  student.hard = (student.hard or 0) + hardness.of(v)
  student.drawn = (student.drawn or 0) + 1
end

return hardness
