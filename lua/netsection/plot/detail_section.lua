-- SPDX-License-Identifier: MIT
-- A repaired joist cut across, for a detail: the wood that is there, the pieces beside it
-- with their thicknesses, and the fasteners with their heads, points and edge distances.
local dims = require "netsection.plot.dims"
local details = require "netsection.detail"
local marks = require "netsection.plot.marks"
local outline = require "netsection.plot.outline"
local sheet = require "netsection.plot.sheet"
local words = require "netsection.plot.words"

local section = {}

local box = outline.box

-- Inches of paper: over the wood, under it, left of the dimensions, right of them.
section.above, section.below = 0.34, 0.5
local LEFT, RIGHT = 0.98, 1.16
-- Inches of the joist around it: pieces that go on are broken off.
local AROUND, UNDER = 9, 10
local HEAD, THIN = 0.025, 0.5       -- in of paper, half a head at least; in, of steel
local EDGE = 1e-6

---------------------------------------------------------------------------
-- What is there
---------------------------------------------------------------------------

local function at(c, x)
  if c.kind == "hole" then return x > c.x1 + 0.05 and x < c.x2 - 0.05 end
  return x >= c.x1 - EDGE and x <= c.x2 + EDGE
end

-- Half the height of a hole at x; one drilled at an angle is longer than high.
local function chord(c, x)
  local r = (c.x2 - c.x1) / 2
  local off = (x - (c.x1 + c.x2) / 2) / r
  return (c.h2 - c.h1) / 2 * math.sqrt(math.max(0, 1 - off * off))
end

-- Heights of wood that is gone there, from the bottom: {{h1, h2}, ...}.
-- @param ply that of all plies, or of one beside them
local function gone(L, x, ply)
  local bands, sides, names = {}, 0, {}
  for _, c in ipairs(L.cuts) do
    if at(c, x) and c.kind ~= "split" then
      names[#names + 1] = c.kind == "sever" and c.name ~= "opening"
        and "gap of " .. c.name or c.name
      if c.ply and c.ply ~= ply then
        names[#names] = ("%s, ply %d"):format(names[#names], c.ply)
      elseif c.kind == "loss" then
        sides = math.max(sides, c.sides or 0)
        if (c.bottom or 0) > 0 then bands[#bands + 1] = {0, c.bottom} end
        if (c.top or 0) > 0 then bands[#bands + 1] = {L.d - c.top, L.d} end
      elseif c.kind == "hole" then
        local half = chord(c, x)
        bands[#bands + 1] = {(c.h1 + c.h2) / 2 - half, (c.h1 + c.h2) / 2 + half}
      else
        bands[#bands + 1] = {math.max(c.h1, 0), math.min(c.h2, L.d)}
      end
    end
  end
  table.sort(bands, function(p, q) return p[1] < q[1] end)
  return bands, sides, names
end

-- A header seen along the joist hangs between the joists beside it, its trimmers.
local function trimmers(L, list)
  local span
  for _, p in ipairs(L.fix.pieces) do
    if p.kind == "header" then span = p end
  end
  if not span then return end
  local b, sides = L.b, {left = span.y1 - L.b / 2, right = span.y2 + L.b / 2}
  for _, side in ipairs {"left", "right"} do
    local c = sides[side]
    list[#list + 1] = {h1 = 0, h2 = L.d, y1 = c - b / 2, y2 = c + b / 2, old = true}
  end
  local turn = {"left", "right"}
  for i, p in ipairs(L.fix.pieces) do
    if p.name == "trimmer" then
      local side = table.remove(turn, 1)
      local way = side == "left" and -1 or 1
      local thick = p.y1 and p.y2 - p.y1 or b
      local y = (sides[side] or 0) + way * b / 2
      list[#list + 1] = {h1 = p.h1 or 0, h2 = p.h2 or L.d, number = i, kind = "wood",
        y1 = math.min(y, y + way * thick), y2 = math.max(y, y + way * thick)}
    end
  end
end

local function pieces_at(L, x)
  local list = {}
  for i, p in ipairs(L.fix.pieces) do
    if not p.of and p.x1 and p.h1 and p.y1 and p.name ~= "trimmer" and at(p, x) then
      local h1 = p.h1
      for _, n in ipairs(p.notches or {}) do
        if at(n, x) then h1 = n.h end
      end
      list[#list + 1] = {number = i, kind = p.kind, name = p.name, h1 = h1, h2 = p.h2,
        y1 = p.y1, y2 = p.y2}
    end
  end
  trimmers(L, list)
  return list
end

-- Plies beside each other from the left, each with what is gone of it.
local function plies_of(L, x)
  local list, b = {}, L.b / L.plies
  for k = 1, L.plies do
    local bands, sides = gone(L, x, k)
    local y = -L.b / 2 + (k - 1) * b
    list[k] = {y1 = y, y2 = y + b, bands = bands, sides = sides, plies = 1}
  end
  return list
end

--- @param given what netsection.detail gives; @param x inches
function section.of(given, x, letter)
  local L = given.layout
  local bands, sides, names = gone(L, x)
  local one
  for _, c in ipairs(L.cuts) do one = one or c.ply and at(c, x) end
  local p = {x = x, show = L.show, letter = letter, b = L.b, d = L.d,
    plies = L.plies, bands = bands, columns = one and plies_of(L, x),
    sides = sides, names = names, pieces = pieces_at(L, x), bolted = given.bolted,
    shank = given.shank, both = given.both, header = given.kind == "header",
    fasteners = details.fasteners_at(L, x)}
  for _, f in ipairs(p.fasteners) do
    for _, q in ipairs(p.pieces) do
      if q.number == f.piece then f.on = q end
    end
  end
  local e = {y1 = -p.b / 2, y2 = p.b / 2, h1 = 0, h2 = p.d}
  for _, q in ipairs(p.pieces) do
    e.y1, e.y2 = math.min(e.y1, q.y1), math.max(e.y2, q.y2)
    e.h1, e.h2 = math.min(e.h1, q.h1), math.max(e.h2, q.h2)
  end
  if not p.header then
    e.y1, e.y2 = math.max(e.y1, -p.b / 2 - AROUND), math.min(e.y2, p.b / 2 + AROUND)
  end
  e.h1, e.h2 = math.max(e.h1, -UNDER), math.min(e.h2, p.d + UNDER)
  p.extent = e
  return p
end

--- Paper that a section takes at scale 1:N.
function section.size(p, N)
  local e = p.extent
  return LEFT + (e.y2 - e.y1) / N + RIGHT,
    section.above + (e.h2 - e.h1) / N + section.below
end

---------------------------------------------------------------------------
-- Wood and pieces
---------------------------------------------------------------------------

local function column(v, p, c)
  local y1, y2, from = c.y1 + c.sides, c.y2 - c.sides, 0
  local function left(h1, h2)
    if h2 - h1 <= EDGE or y2 - y1 <= 2 * EDGE then return end
    v:add("wood", box(y1, y2, h1, h2))
    v:add("edge", box(y1, y2, h1, h2))
    for i = 1, c.plies - 1 do
      local y = c.y1 + (c.y2 - c.y1) * i / c.plies
      v:segment("edge", y, h1, y, h2)
    end
  end
  for _, band in ipairs(c.bands) do
    left(from, band[1])
    from = math.max(from, band[2])
  end
  left(from, p.d)
  for _, band in ipairs(c.bands) do
    v:add("slothidden", box(c.y1, c.y2, band[1], band[2]))
  end
  if c.sides > 0 then
    v:add("loss", box(c.y1, y1, 0, p.d))
    v:add("loss", box(y2, c.y2, 0, p.d))
  end
end

local function wood(v, p)
  for _, c in ipairs(p.columns or {{y1 = -p.b / 2, y2 = p.b / 2, bands = p.bands,
    sides = p.sides, plies = p.plies}}) do
    column(v, p, c)
  end
end

-- A hanger: sides up both faces and a seat under the bottom edge.
local function stirrup(v, p, q)
  local t = 0.035 * v.N
  local half = p.b / 2
  v:add("steel", box(-half - t, -half, -t, q.h2))
  v:add("steel", box(half, half + t, -t, q.h2))
  v:add("steel", box(-half, half, -t, 0))
end

-- A zigzag up an edge where a piece is broken off.
local function broken(v, y, h1, h2)
  local t, m = 0.05 * v.N, (h1 + h2) / 2
  v:add("mark", {{y, h1 - t}, {y, m - t / 2}, {y + t, m - t / 4}, {y - t, m + t / 4},
    {y, m + t / 2}, {y, h2 + t}})
end

local function draw_piece(v, p, q)
  local e = p.extent
  local y1, y2 = math.max(q.y1, e.y1), math.min(q.y2, e.y2)
  local h1, h2 = math.max(q.h1, e.h1), math.min(q.h2, e.h2)
  if y2 <= y1 or h2 <= h1 then return nil end
  if q.name == "hanger" then
    stirrup(v, p, q)
  elseif q.kind == "steel" and math.min(y2 - y1, h2 - h1) <= THIN then
    v:add("steel", box(y1, y2, h1, h2))
  elseif q.old then
    v:add("wood", box(y1, y2, h1, h2))
    v:add("edge", box(y1, y2, h1, h2))
  else
    v:add("near", box(y1, y2, h1, h2))
  end
  if q.y1 < y1 - EDGE or q.kind == "post" then broken(v, y1, h1, h2) end
  if q.y2 > y2 + EDGE or q.kind == "post" then broken(v, y2, h1, h2) end
  if q.number and q.h2 <= EDGE then
    v:segment("dim", y2, (h1 + h2) / 2, e.y2 + 0.2 * v.N, (h1 + h2) / 2)
    v:label(("(%d)"):format(q.number), e.y2 + 0.24 * v.N, (h1 + h2) / 2, "left")
    return nil
  end
  return q.number and {at = q.name == "hanger" and p.b / 2 or (y1 + y2) / 2,
    down = h2 - math.min(0.3 * (h2 - h1), 0.5), mark = ("(%d)"):format(q.number)}
end

-- Numbers over the pieces, each with a leader to its piece.
local function numbers(v, list)
  table.sort(list, function(a, b) return a.at < b.at end)
  local centers, widths = {}, {}
  for i, item in ipairs(list) do
    centers[i] = item.at
    widths[i] = (words.width(item.mark) + 0.7) * sheet.cell * v.N
  end
  for i, y in ipairs(marks.apart(centers, widths, -1e6, 1e6)) do
    local item = list[i]
    v:add("dim", {{item.at, item.down}, {item.at, v.high + 0.04 * v.N},
      {y, v.high + 0.12 * v.N}})
    v:add("dot", {{item.at, item.down}})
    v:label(item.mark, y, v.high + 0.2 * v.N)
  end
end

---------------------------------------------------------------------------
-- Fasteners
---------------------------------------------------------------------------

local function reach(p, f)
  local y1, y2 = -p.b / 2, p.b / 2
  for _, q in ipairs(p.pieces) do
    if f.h >= q.h1 - EDGE and f.h <= q.h2 + EDGE and not q.old and q.kind ~= "header" then
      y1, y2 = math.min(y1, q.y1), math.max(y2, q.y2)
    end
  end
  return y1, y2
end

-- A head or nut stands out of its face; `way` is away from the wood.
local function head(v, f, y, way)
  local h, out = f.h, 0.04 * v.N * way
  local half = math.max(HEAD * v.N, f.D or 0)
  v:add("steel", box(math.min(y, y + out), math.max(y, y + out), h - half, h + half))
end

-- Through everything, with head and nut; the others from a face as long as they are.
local function across(v, p, f, kind)
  local y1, y2 = reach(p, f)
  if p.bolted then
    local out = 0.09 * v.N
    v:segment(kind, y1 - out, f.h, y2 + out, f.h)
    head(v, f, y1, -1)
    head(v, f, y2, 1)
    return
  end
  local q = f.on
  local right = not q or (q.y1 + q.y2) / 2 >= 0
  local long = p.shank or y2 - y1
  local function from(face, way)
    v:segment(kind, face, f.h, face + way * long, f.h)
    head(v, f, face, -way)
  end
  if right or p.both then from(y2, -1) end
  if not right or p.both then from(y1, 1) end
end

local function fasteners(v, p)
  for _, f in ipairs(p.fasteners) do
    local kind = f.off and "mark" or "shank"
    if f.h <= EDGE then                                 -- up through the bottom edge
      local y, foot = f.y or 0, f.on and f.on.h1 or 0
      v:segment(kind, y, foot, y, math.min(foot + (p.shank or p.d / 3), p.d))
      local half = math.max(HEAD * v.N, f.D or 0)
      v:add("steel", box(y - half, y + half, foot - 0.04 * v.N, foot))
    else
      across(v, p, f, kind)
    end
  end
end

---------------------------------------------------------------------------
-- Dimensions
---------------------------------------------------------------------------

local function left_heights(p)
  local list = {0, p.d}
  for _, band in ipairs(p.bands) do
    list[#list + 1], list[#list + 2] = band[1], band[2]
  end
  return dims.places(list)
end

-- Rows between the edges of their piece; without rows the piece that is not the joist's
-- height.
local function right_heights(p)
  local f = p.fasteners[1]
  if f and f.h > EDGE then
    local list = {0, p.d}
    if f.on then list[3], list[4] = f.on.h1, f.on.h2 end
    for _, g in ipairs(p.fasteners) do
      if g.piece == f.piece then list[#list + 1] = g.h end
    end
    return dims.places(list)
  end
  for _, q in ipairs(p.pieces) do
    if q.h2 - q.h1 > 1 and q.h1 >= p.extent.h1 and q.kind == "wood" then
      return dims.places {q.h1, q.h2}
    end
  end
end

local function widths(p)
  local list = {}
  if not p.header then list = {-p.b / 2, p.b / 2} end
  for _, q in ipairs(p.pieces) do
    for _, y in ipairs {q.y1, q.y2} do
      if y >= p.extent.y1 and y <= p.extent.y2 and q.name ~= "hanger"
        and q.kind ~= "post" then
        list[#list + 1] = y
      end
    end
  end
  for _, f in ipairs(p.fasteners) do
    if f.h <= EDGE then list[#list + 1] = f.y or 0 end
  end
  return dims.places(list)
end

--- Draws a section into a view whose h = 0 and y = 0 are the joist's.
function section.draw(v, p)
  local e, tags = p.extent, {}
  v.high = e.h2
  wood(v, p)
  for _, q in ipairs(p.pieces) do tags[#tags + 1] = draw_piece(v, p, q) end
  fasteners(v, p)
  if #tags > 0 then numbers(v, tags) end
  dims.upright(v, left_heights(p), e.y1 - 0.22 * v.N)
  local rows = right_heights(p)
  if rows then dims.upright(v, rows, e.y2 + 0.22 * v.N, "right") end
  dims.chain(v, widths(p), e.h1 - 0.16 * v.N, {first = true, last = true})
end

--- Its heading: place, and what is gone there.
function section.heading(p)
  local text = ("%s-%s at %s"):format(p.letter, p.letter, p.show.place(p.x))
  local names = p.header and p.letter == "A" and ""
    or words.of(table.concat(p.names, ", "), 24)
  return names ~= "" and text .. ", " .. names or text
end

--- Where y = 0 stands right of a section's left edge, and h = 0 above its foot.
function section.origin(p, N)
  return LEFT - p.extent.y1 / N, section.below - p.extent.h1 / N
end

return section
