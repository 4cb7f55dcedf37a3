-- SPDX-License-Identifier: MIT
-- Every placed fastener of a repair against the distances of NDS Tables 12.5.1A to D
-- and the faces of all cuts, from the places alone; and what those places make of group
-- action and of C_delta. For D < 1/4 in the tables are recommendations: only what
-- cannot be driven (2D to an end, 1.5D to an edge, 2.5D to each other) counts.
local dowels = require "tests.plain_dowels"

local places = {}
local abs, max, min, huge = math.abs, math.max, math.min, math.huge

-- Boxes of the joist without wood. What has rotted is out 12 in further, over its whole
-- depth, with its distance already in it; so is the length charred on its sides.
function places.boxes(j)
  local list = {}
  for _, c in ipairs(j.cuts or {}) do
    local b = {x1 = c.from, x2 = c.to, y1 = c.y1, y2 = c.y2}
    if c.kind == "loss" then
      list[#list + 1] = {x1 = c.from - 12, x2 = c.to + 12, y1 = 0, y2 = j.d, whole = true}
      b.x1, b.x2 = c.from - 12, c.to + 12
    elseif c.kind == "lost" then
      b = {x1 = c.from, x2 = c.to, y1 = 0, y2 = j.d, gone = true}
    end
    list[#list + 1] = b
  end
  return list
end

local function columns(list)
  local at, order = {}, {}
  for _, p in ipairs(list) do
    local key = ("%.3f/%d"):format(p.x, p.piece or 1)
    if not at[key] then
      at[key] = {x = p.x}
      order[#order + 1] = at[key]
    end
    table.insert(at[key], p)
  end
  for _, c in ipairs(order) do table.sort(c, function(p, q) return p.h < q.h end) end
  table.sort(order, function(p, q) return p.x < q.x end)
  return order
end
places.columns = columns

-- Stations own the fasteners nearest to them.
function places.by_station(layout, stations)
  local groups = {}
  for i in ipairs(stations) do groups[i] = {} end
  for _, p in ipairs(layout) do
    local best
    for i, s in ipairs(stations) do
      if not best or abs(s.x - p.x) < abs(stations[best].x - p.x) then best = i end
    end
    table.insert(groups[best], p)
  end
  return groups
end

-- Each pair on one another's wood: in a column 3D apart, columns as Table 12.5.1D asks,
-- never nearer than 2.5D.
local function spacing(list, t, bad)
  local D, row = t.D, t.large and dowels.row_across(t.D, t.thin) or 0
  for i, p in ipairs(list) do
    for k = i + 1, #list do
      local q = list[k]
      local apart = (p.piece or 1) ~= (q.piece or 1) and not t.meet
      local along, up = abs(p.x - q.x), abs(p.h - q.h)
      local near = along ^ 2 + up ^ 2 < (2.5 * D) ^ 2 - 1e-6
      local pitch = t.large and along < 1e-6 and up < 3 * D - 1e-6
      local rows = along > 1e-6 and along < row - 1e-6
      if not apart and (near or pitch or rows) then
        bad(("fasteners at %.3f, %.3f and %.3f, %.3f stand too near"):format(p.x, p.h,
          q.x, q.h))
        return
      end
    end
  end
end

--- @param layout placed fasteners {x =, h =, piece =}
-- @param t {D =, large = D >= 1/4, thin = l of the thinner member, joist =, from =, to
--   = ends
--   of the new member, free = {left =, right = true where it does not bear}, low =,
--   high =
--   edges of the new member, wood = of wood, groups = fasteners by station, joist_ends
--   = {x1, x2}, meet = from both faces
--   they would meet}; force across the grain
-- @param bad called with each breach
-- @return least distance to a free end, least distance along the grain to a cut
function places.check(layout, t, bad)
  local D, d = t.D, t.joist.d
  local edge = t.large and 4 * D or 1.5 * D
  local end_least, cut_least = 2 * D, t.large and 3.5 * D or 2 * D
  local least_end, least_cut = huge, huge
  for _, p in ipairs(layout) do
    local what = ("fastener at %.3f, %.3f up: "):format(p.x, p.h)
    if min(p.h, d - p.h) < edge - 1e-6 then bad(what .. "edge of the joist") end
    local own = t.wood and edge or 1.5 * D
    if min(p.h - t.low, t.high - p.h) < own - 1e-6 then
      bad(what .. "edge of the piece")
    end
    local ends = {p.x - t.joist_ends[1], t.joist_ends[2] - p.x}
    if t.free.left then ends[3] = p.x - t.from end
    if t.free.right then ends[#ends + 1] = t.to - p.x end
    for _, e in ipairs(ends) do
      if e < end_least - 1e-6 then bad(what .. "end") end
      least_end = min(least_end, e)
    end
    if p.x < t.from - 1e-6 or p.x > t.to + 1e-6 then bad(what .. "not on the piece") end
    for _, b in ipairs(places.boxes(t.joist)) do
      local along, across = max(b.x1 - p.x, p.x - b.x2), max(b.y1 - p.h, p.h - b.y2)
      if b.whole then
        if along < -1e-6 then bad(what .. "in rotten wood") end
      elseif not b.gone or along < -1e-6 then
        if across < edge - 1e-6 then
          if along < cut_least - 1e-6 then bad(what .. "cut") end
          least_cut = min(least_cut, along)
        end
      end
    end
  end
  spacing(layout, t, bad)
  -- 12.5.1.3: rows along the grain on one steel plate, the outer ones 5 in apart at most.
  if t.large and not t.wood then
    for _, list in ipairs(t.groups) do
      local low, high = huge, -huge
      for _, p in ipairs(list) do low, high = min(low, p.h), max(high, p.h) end
      if high - low > 5 + 1e-6 then bad("outer rows on steel more than 5 in apart") end
    end
  end
  for _, c in ipairs(columns(layout)) do
    if #c > 5 then bad(("more than five in one line at %.3f"):format(c.x)) end
  end
  return least_end, least_cut
end

--- C_delta of all groups: ends across the grain 4D, cuts along it 7D for the full value
-- (12.5.1.2); 1 under 1/4 in.
function places.C_delta(D, least_end, least_cut)
  if D < 0.25 then return 1 end
  return min(1, least_end / (4 * D), least_cut / (7 * D))
end

-- Group action of the fasteners of one face: the fullest column at its pitch; across the
-- grain a member counts over its thickness times the width of the columns, of one column
-- 3D (11.3.6.3).
local function of_face(list, t)
  local cols = columns(list)
  local fullest = cols[1]
  for _, c in ipairs(cols) do if #c > #fullest then fullest = c end end
  local width = cols[#cols].x - cols[1].x
  if width < 1e-6 then width = 3 * t.D end
  local s = #fullest > 1 and (fullest[#fullest].h - fullest[1].h) / (#fullest - 1) or 1
  return dowels.Cg(t.D, #fullest, s, t.main.E * t.main.b * width, t.side.E * t.side.b
    * width, t.side.steel)
end

--- Least group action of the stations (11.3.6).
-- @param t {D =, main = {E =, b =}, side = {E =, b =, steel =}}, b of one plane
function places.Cg(groups, t)
  local least = 1
  for _, list in ipairs(groups) do
    local faces = {{}, {}}
    for _, p in ipairs(list) do table.insert(faces[p.piece or 1], p) end
    for _, face in ipairs(faces) do
      if #face > 0 then least = min(least, of_face(face, t)) end
    end
  end
  return least
end

return places
