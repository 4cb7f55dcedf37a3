-- SPDX-License-Identifier: MIT
-- A joist seen from its right face, in a view to scale: wood, bearings, cuts, and the
-- pieces and fasteners of a repair.

local headed = require "netsection.plot.headed"
local outline = require "netsection.plot.outline"

local picture = {}

local BEARING = 0.07       -- in of paper, thickness of what the joist sits on
local BREAK = 0.05         -- in of paper, of a break line

-- How far below and above the joist pieces are drawn: a post is broken off. The larger of
-- inches of paper and inches of wood, which take in a beam.
local DEEPEST, BEAM = 0.55, 14

local box = outline.box

---------------------------------------------------------------------------
-- Wood and cuts
---------------------------------------------------------------------------

--- True where a piece stands at this joist, in a place that is given.
function picture.here(piece)
  return not piece.of and piece.x1 ~= nil and piece.x2 ~= nil and piece.h1 ~= nil
    and piece.h2 ~= nil
end

-- A piece that stands before the near face of the joist, or behind its far face. What has
-- no fill of its own, such as a hanger, hides nothing.
local SOLID = {wood = true, steel = true, panel = true}

local function beside(layout, piece, way)
  if not picture.here(piece) or piece.name == "hanger" then return false end
  if not (SOLID[piece.kind] or piece.kind == nil) then return false end
  local inner = way > 0 and piece.y1 or -(piece.y2 or 0)
  return inner ~= nil and inner >= layout.b / 2 - 1e-6
end

local function each_beside(layout, way, f)
  for _, piece in ipairs(layout.fix and layout.fix.pieces or {}) do
    if beside(layout, piece, way) then f(piece) end
  end
end

-- Whether a piece on that side covers the box from edge to edge.
local function covered(layout, cut, way)
  local found = false
  each_beside(layout, way, function(piece)
    found = found or piece.x1 <= cut.x1 and piece.x2 >= cut.x2
      and piece.h1 <= cut.h1 and piece.h2 >= cut.h2
  end)
  return found
end

-- Whether a piece on the near face hides some of the box.
local function touched(layout, cut)
  local found = false
  each_beside(layout, 1, function(piece)
    found = found or piece.x1 < cut.x2 and piece.x2 > cut.x1
      and piece.h1 < cut.h2 and piece.h2 > cut.h1
  end)
  return found
end

local draw = {}

function draw.hole(view, layout, cut)
  local round = {{(cut.x1 + cut.x2) / 2, (cut.h1 + cut.h2) / 2, cut.x2 - cut.x1,
    cut.h2 - cut.h1}}
  if touched(layout, cut) then view:add("holehidden", round) end
  if covered(layout, cut, 1) then return end
  view:add(covered(layout, cut, -1) and "holefar" or "hole", round)
end

function draw.slot(view, layout, cut)
  local line = box(cut.x1, cut.x2, cut.h1, cut.h2)
  if touched(layout, cut) then view:add("hidden", line) end
  if covered(layout, cut, 1) then return end
  view:add(covered(layout, cut, -1) and "slotfar" or "slot", line)
end

-- A line of the joist's own: a heavy one, and dashed where a piece stands before it.
local function own_line(view, layout, x1, h1, x2, h2)
  local span = {x1 = math.min(x1, x2), x2 = math.max(x1, x2) + 1e-9,
    h1 = math.min(h1, h2), h2 = math.max(h1, h2) + 1e-9}
  if touched(layout, span) then view:segment("hidden", x1, h1, x2, h2) end
  if not covered(layout, span, 1) then view:segment("split", x1, h1, x2, h2) end
end

-- Saw cuts past the corners, and splits that run from them.
function draw.notch(view, layout, cut)
  local top, kerf = cut.h2 >= layout.d, cut.kerf or 0
  local root = top and cut.h1 + kerf or cut.h2 - kerf
  for _, corner in ipairs(outline.corners(cut)) do
    local x, way = corner[1], corner[2]
    if kerf > 0 then
      own_line(view, layout, x, root, x, top and root - kerf or root + kerf)
    end
    if (cut.split_length or 0) > 0 then
      own_line(view, layout, x, root, x + way * cut.split_length, root)
    end
  end
end

draw.end_notch = draw.notch

local function lost_box(view, layout, x1, x2, h1, h2, kind)
  local line = box(x1, x2, h1, h2)
  if touched(layout, {x1 = x1, x2 = x2, h1 = h1, h2 = h2}) then
    view:add("hidden", line)
  end
  view:add(kind or "loss", line)
end

-- A lost end: what still stands there and is not counted.
function draw.sever(view, layout, cut)
  if cut.seen then lost_box(view, layout, cut.seen[1], cut.seen[2], cut.h1, cut.h2) end
end

function draw.loss(view, layout, cut)
  local d, top, bottom = layout.d, cut.top or 0, cut.bottom or 0
  if top > 0 then lost_box(view, layout, cut.x1, cut.x2, d - top, d) end
  if bottom > 0 then lost_box(view, layout, cut.x1, cut.x2, 0, bottom) end
  if (cut.sides or 0) > 0 then
    lost_box(view, layout, cut.x1, cut.x2, bottom, d - top, "sides")
  end
  if top == 0 and bottom == 0 and not cut.sides then
    lost_box(view, layout, cut.x1, cut.x2, cut.h1, cut.h2)
  end
end

function draw.split(view, layout, cut)
  own_line(view, layout, cut.x1, cut.h1, cut.x2, cut.h1)
end

-- Dashed, since wood of the other plies stands there.
local function in_one_ply(view, layout, cut)
  if cut.kind == "loss" or cut.kind == "split" then
    draw[cut.kind](view, layout, cut)
  elseif cut.kind == "hole" then
    view:add("holehidden", {{(cut.x1 + cut.x2) / 2, (cut.h1 + cut.h2) / 2,
      cut.x2 - cut.x1, cut.h2 - cut.h1}})
  else
    view:add("hidden", box(cut.x1, cut.x2, cut.h1, cut.h2))
  end
end

local function bearings(view, layout)
  for i, x in ipairs(layout.supports) do
    local half, seat = (layout.bearing[i] or 0) / 2, outline.underside(layout, x)
    view:add("bearing", box(x - half, x + half, seat - BEARING * view.N, seat))
    view:segment("axis", x, seat - 0.14 * view.N, x, layout.d + 0.05 * view.N)
  end
end

---------------------------------------------------------------------------
-- Repair
---------------------------------------------------------------------------

--- How a piece is drawn: "near" or "far" outline, or "steel" where it is thin.
function picture.style(piece)
  if piece.kind == "steel" and piece.h2 - piece.h1 <= 1 then return "steel" end
  return (piece.y2 or 0) < 0 and "far" or "near"
end

--- Lowest and highest height that a view at scale 1:N shows.
function picture.range(layout, N)
  local low, high = -BEARING * N, layout.d
  for _, piece in ipairs(layout.fix and layout.fix.pieces or {}) do
    if picture.here(piece) then
      low, high = math.min(low, piece.h1), math.max(high, piece.h2)
    end
  end
  local most = math.max(DEEPEST * N, BEAM)
  return math.max(low, -most), math.min(high, layout.d + most)
end

-- A zigzag in place of the edge of what is broken off.
local function broken(view, piece, h, way)
  local x, t = (piece.x1 + piece.x2) / 2, BREAK * view.N
  view:add("mark", {{piece.x1 - t, h}, {x - t / 2, h}, {x - t / 4, h + way * t},
    {x + t / 4, h - way * t}, {x + t / 2, h}, {piece.x2 + t, h}})
end

-- Wood seen end on has both diagonals, a block between joists one.
local function inner_marks(view, piece, h1, h2)
  if piece.kind == "header" or piece.kind == "block" then
    view:segment("mark", piece.x1, h1, piece.x2, h2)
  end
  if piece.kind == "header" then view:segment("mark", piece.x1, h2, piece.x2, h1) end
end

-- A piece with what is notched off its ends to sit on a seat: `notches`, {{right =,
-- x1 =, x2 =, h = the seat's height}, ...}.
local function shape(piece, h1, h2)
  local line = {{piece.x1, h2}}
  local function add(x, h) line[#line + 1] = {x, h} end
  local left, right
  for _, n in ipairs(piece.notches or {}) do
    if n.right then right = n else left = n end
  end
  add(piece.x1, left and left.h or h1)
  if left then
    add(left.x2, left.h)
    add(left.x2, h1)
  end
  if right then
    add(right.x1, h1)
    add(right.x1, right.h)
  end
  add(piece.x2, right and right.h or h1)
  add(piece.x2, h2)
  add(piece.x1, h2)
  return line
end

local function draw_piece(view, layout, piece)
  local low, high = picture.range(layout, view.N)
  local h1, h2 = math.max(piece.h1, low), math.min(piece.h2, high)
  if h1 >= h2 then return end
  local line = piece.notches and shape(piece, h1, h2) or box(piece.x1, piece.x2, h1, h2)
  if beside(layout, piece, -1) then view:add("farfill", line) end
  if beside(layout, piece, 1) or piece.kind == "header" then
    view:add("nearfill", line)
  end
  view:add(picture.style(piece), line)
  inner_marks(view, piece, h1, h2)
  if h1 > piece.h1 then broken(view, piece, h1, 1) end
  if h2 < piece.h2 then broken(view, piece, h2, -1) end
end

-- The part of a line within the box of a piece; nil where it is none, or an edge of it.
local function clipped(p, q, piece)
  local t1, t2 = 0, 1
  local dx, dh = q[1] - p[1], q[2] - p[2]
  for _, side in ipairs {{-dx, p[1] - piece.x1}, {dx, piece.x2 - p[1]},
    {-dh, p[2] - piece.h1}, {dh, piece.h2 - p[2]}} do
    local along, off = side[1], side[2]
    if along == 0 then
      if off <= 1e-6 then return nil end
    elseif along < 0 then
      t1 = math.max(t1, off / along)
    else
      t2 = math.min(t2, off / along)
    end
  end
  if t2 - t1 <= 1e-9 then return nil end
  return p[1] + t1 * dx, p[2] + t1 * dh, p[1] + t2 * dx, p[2] + t2 * dh
end

-- Edges of the joist behind pieces on its near face.
local function behind(view, layout, lines)
  each_beside(layout, 1, function(piece)
    for _, line in ipairs(lines) do
      for i = 2, #line do
        local x1, h1, x2, h2 = clipped(line[i - 1], line[i], piece)
        if x1 then view:segment("hidden", x1, h1, x2, h2) end
      end
    end
  end)
end

-- Wood that is taken out between headers, beside what is cut away already.
local function taken_out(view, layout)
  local x1, x2 = headed.removed(layout)
  if not x1 then return end
  for _, h in ipairs(headed.headers(layout)) do
    if math.abs(h.x1 - x1) < 1e-6 then x1 = h.x2 end
    if math.abs(h.x2 - x2) < 1e-6 then x2 = h.x1 end
  end
  local gaps, from = {}, x1
  for _, cut in ipairs(layout.cuts) do
    if outline.parts(cut) then gaps[#gaps + 1] = cut end
  end
  table.sort(gaps, function(p, q) return p.x1 < q.x1 end)
  gaps[#gaps + 1] = {x1 = x2, x2 = x2}
  for _, gap in ipairs(gaps) do
    local to = math.min(gap.x1, x2)
    if to - from > 1e-6 then
      view:add("hidden", box(from, to, 0, layout.d))
      if to - from > 0.75 * view.N then
        view:label("taken out", (from + to) / 2, layout.d / 2)
      end
    end
    from = math.max(from, gap.x2)
  end
end

--- A break line where the joist runs on past what the view shows.
function picture.breaks(view, layout)
  local t = BREAK * view.N
  for way, x in pairs {[1] = view.a, [-1] = view.b} do
    local on = way > 0 and x > layout.start + 1e-6 or way < 0 and x < layout.finish - 1e-6
    if on then
      local m = layout.d / 2
      view:add("mark", {{x, -t}, {x, m - t / 2}, {x + way * t, m - t / 4},
        {x + way * t / 4, m + t / 4}, {x, m + t / 2}, {x, layout.d + t}})
    end
  end
end

local function repair(view, layout)
  for _, piece in ipairs(layout.fix.pieces) do
    if picture.here(piece) then draw_piece(view, layout, piece) end
  end
  for _, f in ipairs(layout.fix.layout) do
    if view:inside(f.x) then view:add("fastener", {{f.x, f.h, (f.D or 0) / 2}}) end
  end
end

--- Everything that is to scale.
function picture.draw(view, layout)
  local lines = outline.of(layout)
  for _, line in ipairs(lines) do
    view:add("wood", line)
    view:add("edge", line)
  end
  behind(view, layout, lines)
  taken_out(view, layout)
  bearings(view, layout)
  for _, cut in ipairs(layout.cuts) do
    local of = cut.ply and in_one_ply or draw[cut.kind]
    of(view, layout, cut)
  end
  if layout.fix then repair(view, layout) end
end

return picture
