-- SPDX-License-Identifier: MIT
-- The elevation of a detail: the repair from the joist's right face, with chains of the
-- distances between fasteners, ends and cuts, and a running dimension from the left
-- bearing.
local details = require "netsection.detail"
local dims = require "netsection.plot.dims"
local marks = require "netsection.plot.marks"
local picture = require "netsection.plot.picture"
local sheet = require "netsection.plot.sheet"
local words = require "netsection.plot.words"

local elevation = {}

-- Inches of paper: beside the view; marks over the joist, the length over them; a chain.
elevation.side = 0.3
local MARKS, LENGTH, CHAIN, GAP = 0.42, 0.3, 0.3, 0.16
local SAME = 1 / 32
local MOST_CHAINS, LONG = 2, 6

---------------------------------------------------------------------------
-- Distances
---------------------------------------------------------------------------

-- Faces of a gap that the piece bridges.
local function gaps(L, x1, x2)
  local list = {}
  for _, c in ipairs(L.cuts) do
    if c.kind == "sever" and c.x1 > x1 and c.x2 < x2 then
      list[#list + 1], list[#list + 2] = c.x1, c.x2
    end
  end
  return list
end

local function same(a, b)
  if #a ~= #b then return false end
  for i, x in ipairs(a) do
    if math.abs(x - b[i]) > SAME then return false end
  end
  return true
end

-- A chain for each piece with fasteners of its own; pieces alike share one.
local function piece_chains(given)
  local L, list = given.layout, {}
  for i, piece in ipairs(L.fix.pieces) do
    local xs = picture.here(piece) and details.chained(L, i) or {}
    if #xs > 0 then
      xs[#xs + 1], xs[#xs + 2] = piece.x1, piece.x2
      for _, x in ipairs(gaps(L, piece.x1, piece.x2)) do xs[#xs + 1] = x end
      local chain = {xs = dims.places(xs), first = true, last = true}
      local known = false
      for _, other in ipairs(list) do known = known or same(other.xs, chain.xs) end
      if not known and #list < MOST_CHAINS then list[#list + 1] = chain end
    end
  end
  return list
end

-- From the cut to the fasteners beside it, or to the ends of the repair.
local function cut_chain(given)
  local c = given.cut
  if not c or c.kind == "split" or c.kind == "sever" or given.kind == "midspan_support"
  then
    return nil
  end
  local xs = {c.x1, c.x2}
  local left, right
  for _, x in ipairs(details.columns(given.layout)) do
    if x <= c.x1 then left = x elseif x >= c.x2 and not right then right = x end
  end
  if not left and given.from < c.x1 then left = given.from end
  if not right and given.to > c.x2 then right = given.to end
  xs[#xs + 1] = left
  xs[#xs + 1] = right
  local inside = {}
  for _, x in ipairs(xs) do
    if x >= given.a and x <= given.b then inside[#inside + 1] = x end
  end
  if #inside < 2 then return nil end
  return {xs = dims.places(inside), first = true, last = true}
end

-- Tails and the opening between headers, bearings and a support between them.
local function place_chain(given)
  local L, xs = given.layout, {}
  for _, x in ipairs(L.supports) do xs[#xs + 1] = x end
  for _, p in ipairs(L.fix.pieces) do
    if picture.here(p) and (p.kind == "header" or p.kind == "post" or p.name == "hanger")
    then
      if p.kind == "header" then
        xs[#xs + 1], xs[#xs + 2] = p.x1, p.x2
      else
        xs[#xs + 1] = (p.x1 + p.x2) / 2
      end
    end
  end
  local inside = {}
  for _, x in ipairs(xs) do
    if x >= given.a and x <= given.b then inside[#inside + 1] = x end
  end
  return #inside > 1 and {xs = dims.places(inside), first = true, last = true} or nil
end

local function chains_of(given)
  local list = piece_chains(given)
  if #list == 0 then list[1] = place_chain(given) end
  list[#list + 1] = cut_chain(given)
  return list
end

-- Bearings, ends of pieces, edges of cuts, centers of holes.
local function running_places(given)
  local L, list = given.layout, {}
  local function add(x)
    if x >= math.max(given.a, 0) and x <= given.b then list[#list + 1] = x end
  end
  for _, x in ipairs(L.supports) do add(x) end
  for _, p in ipairs(L.fix.pieces) do
    if picture.here(p) then
      add(p.x1)
      add(p.x2)
    end
  end
  if #L.fix.pieces == 0 then
    for _, x in ipairs(details.columns(L)) do add(x) end
  end
  for _, c in ipairs(L.cuts) do
    if c.kind == "hole" then add((c.x1 + c.x2) / 2) else
      add(c.x1)
      add(c.x2)
    end
  end
  return dims.places(list)
end

---------------------------------------------------------------------------
-- Marks
---------------------------------------------------------------------------

local function add_pieces(v, given, items, top, low)
  local here = {}
  for i, p in ipairs(given.layout.fix.pieces) do
    if picture.here(p) then here[#here + 1] = {p, i} end
  end
  for k, item in ipairs(here) do
    local p, i = item[1], item[2]
    local a, b = math.max(p.x1, v.a), math.min(p.x2, v.b)
    if b > a then
      local at = a + (b - a) * (#here > 1 and (k - 0.5) / #here * 0.8 or 0.22)
      if b - a < 4 then at = (a + b) / 2 end
      items[#items + 1] = {at = at, mark = ("(%d)"):format(i),
        down = math.max(low + 0.03 * v.N, math.min(p.h2 - 0.3, top))}
    end
  end
end

local function draw_marks(v, given, top, low)
  local items = {}
  add_pieces(v, given, items, top, low)
  local cuts = marks.sorted {cuts = given.layout.cuts, start = v.a, finish = v.b}
  for _, c in ipairs(cuts) do
    if c.x2 > v.a and c.x1 < v.b then items[#items + 1] = {at = c.at, mark = c.name} end
  end
  for i, x in ipairs(given.sections) do
    items[#items + 1] = {at = x, section = true,
      mark = ("A-A B-B"):sub(4 * i - 3, 4 * i - 1)}
  end
  for i, item in ipairs(items) do item.order = i end
  table.sort(items, function(p, q)
    if p.at ~= q.at then return p.at < q.at end
    return p.order < q.order
  end)
  local centers, widths = {}, {}
  for i, item in ipairs(items) do
    centers[i] = item.at
    widths[i] = (words.width(item.mark) + 1) * sheet.cell * v.N
  end
  local head = top + (MARKS - 0.08) * v.N
  local placed = marks.apart(centers, widths, v.a - 0.3 * v.N, v.b + 0.3 * v.N)
  for i, item in ipairs(items) do
    local foot = item.down or top
    if item.section then foot = low - 0.03 * v.N end
    v:add(item.section and "axis" or "dim", {{item.at, foot}, {item.at, top + 0.06 * v.N},
      {placed[i], head - 0.09 * v.N}})
    if item.down then v:add("dot", {{item.at, foot}}) end
    v:label(item.mark, placed[i], head)
  end
end

-- Where the joist goes on beyond what is drawn.
local function broken(v, L)
  local t, m = 0.05 * v.N, L.d / 2
  for _, x in ipairs {v.a, v.b} do
    if x > L.start + SAME and x < L.finish - SAME then
      local way = x == v.a and 1 or -1
      v:add("mark", {{x, 0}, {x, m - t / 2}, {x + way * t, m - t / 4},
        {x, m + t / 4}, {x, m + t / 2}, {x, L.d}})
    end
  end
end

-- Fasteners driven up through the bottom edge, as deep as they go.
local function upward(v, given)
  for _, f in ipairs(given.layout.fix.layout) do
    if f.h <= 0 and given.shank and v:inside(f.x) then
      v:segment("mark", f.x, 0, f.x, math.min(given.shank, given.layout.d))
    end
  end
end

---------------------------------------------------------------------------
-- The view
---------------------------------------------------------------------------

--- A plan of the elevation at scale 1:N: heights of paper above and below h = 0, and
-- `draw`.
function elevation.plan(given, N)
  local L = given.layout
  local low, high = picture.range(L, N)
  local chains, running = chains_of(given), running_places(given)
  local long = given.to - given.from > LONG and given.kind ~= "header"
  local foot = low - (GAP + CHAIN * #chains) * N
  return {
    above = high / N + MARKS + (long and LENGTH or 0.06),
    below = -foot / N + (#running > 0 and dims.running_depth(running, L.show) + 0.05
      or 0),
    draw = function(v)
      picture.draw(v, L)
      broken(v, L)
      draw_marks(v, given, high, low)
      if long then
        dims.length(v, given.from, given.to, high + (MARKS + 0.09) * N,
          "repair, length " .. dims.text(given.to - given.from, L.show))
      end
      for i, chain in ipairs(chains) do
        local h = low - (GAP + CHAIN * (i - 1)) * N
        for _, x in ipairs(chain.xs) do
          -- past the texts of the chain above it a short one
          local top = i == 1 and low - 0.03 * N or h + 0.07 * N
          v:segment("dim", x, top, x, h - 0.03 * N)
        end
        dims.chain(v, chain.xs, h, chain)
      end
      if #running > 0 then dims.running(v, running, foot, foot + 0.06 * N) end
      upward(v, given)
      for _, point in ipairs(v.gathered.fastener) do v:add("cross", point) end
    end,
  }
end

return elevation
