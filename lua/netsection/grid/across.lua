-- SPDX-License-Identifier: MIT
-- What runs across the joists of a grid: strips of deck from station to station with
-- hinges where panels end, and rows of blocks.
local mesh = require "netsection.grid.mesh"

local across = {}

-- Half of the way to the next stations.
local function reach(x, k)
  local a = k > 1 and (x[k - 1] + x[k]) / 2 or x[1]
  local b = k < #x and (x[k] + x[k + 1]) / 2 or x[#x]
  return a, b
end

-- The joists over which panels end at a place, as a key and as a set.
local function ends_at(panel_ends, x)
  local set, key = {}, {}
  for _, e in ipairs(panel_ends) do
    if x > e.from and x < e.to and not set[e.number] then
      set[e.number] = true
      key[#key + 1] = e.number
    end
  end
  table.sort(key)
  return table.concat(key, " "), set
end

-- Flexibility over each joist: a hinge where a panel ends.
local function hinges(n, set)
  local c = {}
  for i = 1, n do c[i] = set[i] and math.huge or 0 end
  return c
end

-- Adds the strips of deck. @param D_y EI across, lb-in2 per in of deck
function across.deck(t, n, D_y, panel_ends)
  local known = {}
  for k = 1, #t.x do
    local a, b = reach(t.x, k)
    local places = {a, b}
    for _, e in ipairs(panel_ends) do
      for _, at in ipairs {e.from, e.to} do
        if at > a and at < b then places[#places + 1] = at end
      end
    end
    table.sort(places)
    for p = 2, #places do
      local h = places[p] - places[p - 1]
      if h > 1e-9 and D_y > 0 then
        local key, set = ends_at(panel_ends, (places[p] + places[p - 1]) / 2)
        known[key] = known[key] or hinges(n, set)
        t.strips[#t.strips + 1] = {station = k, EI = D_y * h, width = h,
          c = key ~= "" and known[key] or nil}
      end
    end
  end
end

-- Adds rows of blocks: EI, and over each joist the springs of the two block ends that
-- meet there, 1/k + 1/k; math.huge for ends that do not turn.
-- @param k of the ends of rows that have none
function across.blocks(t, n, rows, k)
  for _, row in ipairs(rows) do
    local stiff = row.k or k
    if stiff > 0 then
      local c = {}
      for i = 1, n do c[i] = 2 / stiff end
      t.strips[#t.strips + 1] = {station = mesh.nearest(t.x, row.at), EI = row.EI,
        first = row.first, last = row.last, c = c}
    end
  end
end

return across
