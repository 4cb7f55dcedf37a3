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

local function covers(piece, cut)
  return (piece.y1 or 0) > 0 and picture.here(piece)
    and piece.x1 <= cut.x1 and piece.x2 >= cut.x2
    and piece.h1 <= cut.h1 and piece.h2 >= cut.h2
end

-- Behind a new piece on the near face.
local function hidden(layout, cut)
  for _, piece in ipairs(layout.fix and layout.fix.pieces or {}) do
    if covers(piece, cut) then return true end
  end
  return false
end

local draw = {}

function draw.hole(view, layout, cut)
  view:add(hidden(layout, cut) and "holehidden" or "hole", {{
    (cut.x1 + cut.x2) / 2, (cut.h1 + cut.h2) / 2, cut.x2 - cut.x1, cut.h2 - cut.h1,
  }})
end

function draw.slot(view, layout, cut)
  view:add(hidden(layout, cut) and "slothidden" or "slot",
    box(cut.x1, cut.x2, cut.h1, cut.h2))
end

-- Saw cuts past the corners, and splits that run from them.
function draw.notch(view, layout, cut)
  local top, kerf = cut.h2 >= layout.d, cut.kerf or 0
  local root = top and cut.h1 + kerf or cut.h2 - kerf
  for _, corner in ipairs(outline.corners(cut)) do
    local x, way = corner[1], corner[2]
    if kerf > 0 then
      view:segment("split", x, root, x, top and root - kerf or root + kerf)
    end
    if (cut.split_length or 0) > 0 then
      view:segment("split", x, root, x + way * cut.split_length, root)
    end
  end
end

draw.end_notch = draw.notch

-- A lost end: what still stands there and is not counted.
function draw.sever(view, _, cut)
  if cut.seen then view:add("loss", box(cut.seen[1], cut.seen[2], cut.h1, cut.h2)) end
end

function draw.loss(view, layout, cut)
  local d, top, bottom = layout.d, cut.top or 0, cut.bottom or 0
  if top > 0 then view:add("loss", box(cut.x1, cut.x2, d - top, d)) end
  if bottom > 0 then view:add("loss", box(cut.x1, cut.x2, 0, bottom)) end
  if (cut.sides or 0) > 0 then
    view:add("sides", box(cut.x1, cut.x2, bottom, d - top))
  end
  if top == 0 and bottom == 0 and not cut.sides then
    view:add("loss", box(cut.x1, cut.x2, cut.h1, cut.h2))
  end
end

function draw.split(view, _, cut)
  view:segment("split", cut.x1, cut.h1, cut.x2, cut.h1)
end

-- Dashed, since wood of the other plies stands there.
local function in_one_ply(view, layout, cut)
  if cut.kind == "loss" or cut.kind == "split" then
    draw[cut.kind](view, layout, cut)
  elseif cut.kind == "hole" then
    view:add("holehidden", {{(cut.x1 + cut.x2) / 2, (cut.h1 + cut.h2) / 2,
      cut.x2 - cut.x1, cut.h2 - cut.h1}})
  else
    view:add("slothidden", box(cut.x1, cut.x2, cut.h1, cut.h2))
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
  view:add(picture.style(piece), piece.notches and shape(piece, h1, h2)
    or box(piece.x1, piece.x2, h1, h2))
  inner_marks(view, piece, h1, h2)
  if h1 > piece.h1 then broken(view, piece, h1, 1) end
  if h2 < piece.h2 then broken(view, piece, h2, -1) end
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
  for _, line in ipairs(outline.of(layout)) do
    view:add("wood", line)
    view:add("edge", line)
  end
  local x1, x2 = headed.removed(layout)
  if x1 then view:add("slothidden", box(x1, x2, 0, layout.d)) end
  bearings(view, layout)
  for _, cut in ipairs(layout.cuts) do
    local of = cut.ply and in_one_ply or draw[cut.kind]
    of(view, layout, cut)
  end
  if layout.fix then repair(view, layout) end
end

return picture
