-- SPDX-License-Identifier: MIT
-- The enlarged parts of a repair: how its extent is divided into strips, and which
-- distances between fasteners each strip shows.

local dims = require "netsection.plot.dims"
local headed = require "netsection.plot.headed"
local picture = require "netsection.plot.picture"

local strips = {}

local MOST = 4             -- strips
local DEPTH = 0.8          -- in of paper that the joist's depth should have at least
local PAST = 7             -- in of the joist shown past the ends of a repair
local LAP = 1.5            -- in of the joist shown past a match line
local SHORTEST = 72        -- in of the joist, of a strip
local CHAINS = 3           -- of different distances under one strip

--- From the first to the last piece of this joist, inches; nil where there is none.
function strips.extent(layout)
  local a, b = math.huge, -math.huge
  for _, piece in ipairs(layout.fix.pieces) do
    if picture.here(piece) then a, b = math.min(a, piece.x1), math.max(b, piece.x2) end
  end
  for _, f in ipairs(layout.fix.layout) do a, b = math.min(a, f.x), math.max(b, f.x) end
  if a <= b then return a, b end
end

-- Places of the fasteners of piece `i`, or of those that name no piece.
local function columns(layout, i)
  local list = {}
  for _, f in ipairs(layout.fix.layout) do
    if f.piece == i then list[#list + 1] = f.x end
  end
  return dims.places(list)
end

local function in_a_cut(layout, x)
  for _, cut in ipairs(layout.cuts) do
    if x > cut.x1 - LAP and x < cut.x2 + LAP then return true end
  end
  return false
end

-- The column of fasteners nearest to x that no cut touches, else x.
local function near_column(layout, x, low, high)
  local best
  for _, f in ipairs(layout.fix.layout) do
    local fits = f.x > low and f.x < high and not in_a_cut(layout, f.x)
    if fits and (not best or math.abs(f.x - x) < math.abs(best - x)) then best = f.x end
  end
  return best or x
end

-- From edge to edge of the piece, as far as the strip goes.
local function chain_of(piece, xs, from, to)
  local list = {}
  local function add(x)
    if x >= from and x <= to then list[#list + 1] = x end
  end
  if piece then
    add(piece.x1)
    add(piece.x2)
  end
  for _, x in ipairs(xs) do add(x) end
  return dims.places(list)
end

local function same(a, b)
  if #a ~= #b then return false end
  for i, x in ipairs(a) do
    if math.abs(x - b[i]) > 1 / 32 then return false end
  end
  return true
end

-- Faces of headers: between them the tails end and the opening lies.
local function faces(layout, from, to)
  local list = {}
  for _, h in ipairs(headed.headers(layout)) do
    for _, x in ipairs {h.x1, h.x2} do
      if x >= from and x <= to then list[#list + 1] = x end
    end
  end
  return dims.places(list)
end

-- Different chains of a strip; pieces with the same places share one.
local function chains_of(layout, from, to)
  local list = {}
  local function add(piece, i)
    local xs = columns(layout, i)
    if #xs == 0 then return end
    local chain = chain_of(piece, xs, from, to)
    for _, other in ipairs(list) do
      if same(other.xs, chain) then return end
    end
    if #chain > 1 and #list < CHAINS then
      list[#list + 1] = {xs = chain, first = piece and piece.x1 == chain[1],
        last = piece and piece.x2 == chain[#chain]}
    end
  end
  for i, piece in ipairs(layout.fix.pieces) do
    if picture.here(piece) then add(piece, i) end
  end
  add(nil, nil)
  local xs = faces(layout, from, to)
  if #xs > 1 and #list < CHAINS then
    list[#list + 1] = {xs = xs, first = true, last = true}
  end
  return list
end

-- Places where the strips meet, ends of the repair included.
local function joints(layout, room, most)
  local a, b = strips.extent(layout)
  local count = math.ceil((b - a) / (room * layout.d / DEPTH))
  count = math.max(1, math.min(count, most or MOST))
  local list, part = {a}, (b - a) / count
  for i = 1, count - 1 do
    local x = a + i * part
    list[i + 1] = near_column(layout, x, x - part / 3, x + part / 3)
  end
  list[count + 1] = b
  return list
end

--- Strips of a repair on `room` inches of paper. @param most strips, 4 by default
-- @return {{a, b, matches = {x, ...}, chains = {{xs}, ...}}, ...}
function strips.of(layout, room, most)
  local at, list = joints(layout, room, most), {}
  for i = 1, #at - 1 do
    local first, last = i == 1, i == #at - 1
    local a = at[i] - (first and PAST or LAP)
    local b = at[i + 1] + (last and PAST or LAP)
    local short = math.max(0, SHORTEST - (b - a)) / 2
    local strip = {a = a - short, b = b + short, matches = {},
      chains = chains_of(layout, at[i], at[i + 1])}
    if not first then strip.matches[1] = at[i] end
    if not last then strip.matches[#strip.matches + 1] = at[i + 1] end
    list[i] = strip
  end
  return list
end

local CLOSEST = 0.75       -- in of the joist, between rows that one chain can show

-- Heights of one piece's rows, with its edges. Where columns are staggered so that their
-- rows lie too close for one chain, those of the first column.
local function heights(layout, piece, i)
  local list, first, column = {piece.h1, piece.h2}, nil, {piece.h1, piece.h2}
  for _, f in ipairs(layout.fix.layout) do
    if f.piece == i and (not first or f.x < first) then first = f.x end
  end
  for _, f in ipairs(layout.fix.layout) do
    if f.piece == i then list[#list + 1] = f.h end
    if f.piece == i and f.x - first < 1 / 32 then column[#column + 1] = f.h end
  end
  if #list == 2 then return nil end
  local all = dims.places(list)
  for k = 3, #all - 1 do
    if all[k] - all[k - 1] < CLOSEST then return dims.places(column) end
  end
  return all
end

--- Heights of rows at the left ends of the pieces between a and b; those that stand at
-- one place and are alike are given once.
-- @return {{x, hs}, ...}
function strips.uprights(layout, a, b)
  local list = {}
  for i, piece in ipairs(layout.fix.pieces) do
    local shown = picture.here(piece) and picture.style(piece) ~= "steel"
      and piece.x1 >= a and piece.x1 <= b
    local hs = shown and heights(layout, piece, i)
    for _, other in ipairs(list) do
      if hs and math.abs(other.x - piece.x1) < 6 then hs = nil end
    end
    if hs then list[#list + 1] = {x = piece.x1, hs = hs} end
  end
  return list
end

return strips
