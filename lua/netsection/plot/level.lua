-- SPDX-License-Identifier: MIT
-- Lines of equal value over a grid, by linear interpolation along its edges. A square of
-- the grid that lacks a corner has no lines. Where two lines cross a square, the mean of
-- its corners decides how they are paired.

local level = {}

-- Where the value is met between two corners, as a point; nil where it is not. A corner
-- that has the value exactly counts as above, so that each edge is met once or not.
local function crossing(a, b, value)
  if (a.v >= value) == (b.v >= value) then return nil end
  local t = (value - a.v) / (b.v - a.v)
  return {x = a.x + t * (b.x - a.x), y = a.y + t * (b.y - a.y)}
end

-- Pairs of edges (1 bottom, 2 right, 3 top, 4 left) that lines join in a square.
local function pairs_in(met, corners, value)
  local list = {}
  for e = 1, 4 do
    if met[e] then list[#list + 1] = e end
  end
  if #list < 4 then return #list == 2 and {{list[1], list[2]}} or {} end
  local mean = (corners[1].v + corners[2].v + corners[3].v + corners[4].v) / 4
  if (mean >= value) == (corners[1].v >= value) then return {{1, 2}, {3, 4}} end
  return {{1, 4}, {2, 3}}
end

-- Names of the edges of square i, j, shared with its neighbors.
local function edge_keys(i, j)
  return {("h%d,%d"):format(i, j), ("v%d,%d"):format(i + 1, j),
    ("h%d,%d"):format(i, j + 1), ("v%d,%d"):format(i, j)}
end

-- Calls say(key, point, key, point) for the pieces of a line in all squares.
local function pieces(grid, value, say)
  for i = 1, #grid - 1 do
    for j = 1, #grid[i] - 1 do
      local c = {grid[i][j], grid[i + 1][j], grid[i + 1][j + 1], grid[i][j + 1]}
      if c[1].v and c[2].v and c[3].v and c[4].v then
        local met, keys = {}, edge_keys(i, j)
        for e = 1, 4 do met[e] = crossing(c[e], c[e % 4 + 1], value) end
        for _, pair in ipairs(pairs_in(met, c, value)) do
          local a, b = pair[1], pair[2]
          say(keys[a], met[a], keys[b], met[b])
        end
      end
    end
  end
end

-- Follows pieces from one of its ends, taking them out of `at`.
local function follow(at, points, key)
  local line = {points[key]}
  while true do
    local next_key = at[key] and table.remove(at[key])
    if not next_key then return line end
    for i, back in ipairs(at[next_key]) do
      if back == key then
        table.remove(at[next_key], i)
        break
      end
    end
    line[#line + 1], key = points[next_key], next_key
  end
end

--- Lines along which a grid has a value: lists of {x, y}, longest way from end to end.
-- @param grid[i][j] = {x =, y =, v = number or nil}
function level.lines(grid, value)
  local at, points, order = {}, {}, {}
  local function add(key, other, point)
    if not at[key] then
      at[key], points[key], order[#order + 1] = {}, point, key
    end
    table.insert(at[key], other)
  end
  pieces(grid, value, function(a, point_a, b, point_b)
    add(a, b, point_a)
    add(b, a, point_b)
  end)
  local lines = {}
  for _, ends in ipairs {true, false} do     -- open lines first, then rings
    for _, key in ipairs(order) do
      if #at[key] == 1 or not ends and #at[key] > 0 then
        lines[#lines + 1] = follow(at, points, key)
      end
    end
  end
  return lines
end

return level
