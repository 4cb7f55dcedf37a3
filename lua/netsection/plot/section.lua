-- SPDX-License-Identifier: MIT
-- A joist cut across at one place, to scale: the wood that is left and what is gone, the
-- axis and the extreme fibers of what is left, the pieces of a repair and the fasteners
-- of the row nearest to the place.

local dims = require "netsection.plot.dims"
local marks = require "netsection.plot.marks"
local outline = require "netsection.plot.outline"
local recipes = require "netsection.plot.recipes"
local sheet = require "netsection.plot.sheet"
local units = require "netsection.units"
local view = require "netsection.plot.view"
local words = require "netsection.plot.words"

local section = {}

local box, row = outline.box, sheet.row

-- Inches of paper. LEFT, RIGHT: for dimensions and texts beside the wood.
local TITLES, CAPTION, ABOVE, BELOW, NOTE = 0.47, 0.3, 0.16, 0.55, 0.13
local LEFT, RIGHT, TALL, UPRIGHT = 1.0, 2.9, 3.4, 0.75
-- Inches of the joist that are shown around it: pieces that go on are broken off.
local AROUND, UNDER = 6, 10

---------------------------------------------------------------------------
-- What is shown
---------------------------------------------------------------------------

-- Offsets and heights that the pieces reach, as far as they are shown.
local function extent(p)
  local e = {y1 = -p.b / 2, y2 = p.b / 2, h1 = 0, h2 = p.d}
  for _, piece in ipairs(p.pieces) do
    e.y1, e.y2 = math.min(e.y1, piece.y1), math.max(e.y2, piece.y2)
    e.h1, e.h2 = math.min(e.h1, piece.h1), math.max(e.h2, piece.h2)
  end
  e.y1, e.y2 = math.max(e.y1, -p.b / 2 - AROUND), math.min(e.y2, p.b / 2 + AROUND)
  e.h1, e.h2 = math.max(e.h1, -UNDER), math.min(e.h2, p.d + UNDER)
  return e
end

-- What is left between the bands and inside what a loss takes.
local function wood(v, p)
  for _, c in ipairs(p.columns) do
    local y1, y2, from = c.y1 + c.left, c.y2 - c.right, c.low
    local function left(h1, h2)
      if h2 - h1 <= 1e-6 or y2 - y1 <= 1e-6 then return end
      v:add("wood", box(y1, y2, h1, h2))
      v:add("edge", box(y1, y2, h1, h2))
      for i = 1, c.plies - 1 do
        local y = c.y1 + (c.y2 - c.y1) * i / c.plies
        v:segment("edge", y, h1, y, h2)
      end
    end
    for _, band in ipairs(c.bands) do
      left(from, math.min(band.h1, c.high))
      from = math.max(from, band.h2)
    end
    left(from, c.high)
  end
end

-- A split runs through the width, of the joist or of its ply; a zigzag, as wood tears.
local function splits(v, p)
  for _, s in ipairs(p.split or {}) do
    local y1, y2 = -p.b / 2, p.b / 2
    if s.ply then
      y1, y2 = y1 + p.b * (s.ply - 1) / p.plies, y1 + p.b * s.ply / p.plies
    end
    local line, t = {}, 0.03 * v.N
    for i = 0, 8 do
      line[i + 1] = {y1 + (y2 - y1) * i / 8,
        s.h + (i % 2 == 0 and 0 or i % 4 == 1 and t or -t)}
    end
    v:add("split", line)
  end
end

local function removed(v, p)
  for _, c in ipairs(p.columns) do
    if c.low > 0 then v:add("loss", box(c.y1, c.y2, 0, c.low)) end
    if c.high < p.d then v:add("loss", box(c.y1, c.y2, c.high, p.d)) end
    if c.left > 0 then v:add("loss", box(c.y1, c.y1 + c.left, c.low, c.high)) end
    if c.right > 0 then v:add("loss", box(c.y2 - c.right, c.y2, c.low, c.high)) end
    for _, band in ipairs(c.bands) do
      v:add("slothidden", box(c.y1, c.y2, band.h1, band.h2))
    end
  end
end

local function pieces(v, p, e)
  for _, piece in ipairs(p.pieces) do
    local y1, y2 = math.max(piece.y1, e.y1), math.min(piece.y2, e.y2)
    local h1, h2 = math.max(piece.h1, e.h1), math.min(piece.h2, e.h2)
    if y2 > y1 and h2 > h1 then
      local thin = piece.kind == "steel" and math.min(y2 - y1, h2 - h1) <= 0.5
      v:add(thin and "steel" or "near", box(y1, y2, h1, h2))
      v:add("dot", {{(y1 + y2) / 2, h2 - math.min(0.4 * (h2 - h1), 0.5)}})
      v:label(("(%d)"):format(piece.number), (y1 + y2) / 2, e.h2 + 0.1 * v.N)
    end
  end
end

-- From the head's face to the point: a bolt goes through everything.
local function shank(p, f, e)
  local half, piece = p.b / 2, f.piece
  local from = piece.y1 >= 0 and piece.y2 or piece.y1
  local way = piece.y1 >= 0 and -1 or 1
  local far = way < 0 and e.y1 or e.y2
  if p.shank then return from, from + way * p.shank, way end
  return from, piece.y1 < -half and piece.y2 > half and far or way < 0
    and math.max(far, -half) or math.min(far, half), way
end

local HEAD = 0.05          -- in of paper, half a head

local PLANE = 0.5          -- in, of the joist: a row nearer than this is cut through

-- Those before or behind the place are thin.
local function fasteners(v, p, e)
  local kind = p.row and math.abs(p.row - p.x) <= PLANE and "shank" or "mark"
  for _, f in ipairs(p.fasteners) do
    if f.y and f.y ~= 0 or f.piece.h2 <= 0 then         -- driven up through the bottom
      local y, up = f.y or 0, p.shank or p.d / 3
      v:segment(kind, y, f.piece.h1, y, math.min(f.piece.h1 + up, p.d))
      v:segment(kind, y - HEAD * v.N, f.piece.h1, y + HEAD * v.N, f.piece.h1)
    else
      local from, to = shank(p, f, e)
      v:segment(kind, from, f.h, to, f.h)
      v:segment(kind, from, f.h - HEAD * v.N, from, f.h + HEAD * v.N)
    end
  end
end

---------------------------------------------------------------------------
-- Axis and dimensions
---------------------------------------------------------------------------

local function number(show, x, kind)
  return units.significant(show.scaled(kind, x), 4)
end

local function modulus(show, x)
  return ("S %s %s"):format(number(show, x, "modulus"), show.unit.modulus)
end

-- Texts at the right, pushed apart, each with a leader from its height.
local function notes(v, list, x)
  table.sort(list, function(p, q) return p.h < q.h end)
  local centres, tall = {}, {}
  for i, item in ipairs(list) do centres[i], tall[i] = item.h, 0.17 * v.N end
  for i, h in ipairs(marks.apart(centres, tall, -1e6, 1e6)) do
    v:add("dim", {{list[i].from, list[i].h}, {x - 0.25 * v.N, list[i].h},
      {x - 0.05 * v.N, h}})
    v:label(list[i].text, x, h, "left")
  end
end

local function middle_of(p, ply)
  return p.b * ((ply - 0.5) / p.plies - 0.5)
end

-- @param x where the texts begin
local function fibres(v, p, e, x)
  local s, half, list = p.section, p.b / 2, {}
  if s then
    v:segment("axis", e.y1 - 0.25 * v.N, s.y_b, x - 0.3 * v.N, s.y_b)
    v:add("dot", {{0, s.y_b}})
    list = {
      {h = s.top, from = half, text = "top fiber, " .. modulus(v.show, s.S_t)},
      {h = s.bottom, from = half,
        text = "bottom fiber, " .. modulus(v.show, s.S_b)},
      {h = s.y_b, from = x - 0.3 * v.N,
        text = ("axis, %s up"):format(v.show.length(s.y_b, 2))},
    }
  end
  for _, band in ipairs(p.bands) do
    local through = band.kind == "sever"
    list[#list + 1] = {h = through and 0.93 * p.d or (band.h1 + band.h2) / 2,
      from = band.ply and middle_of(p, band.ply) or half * 0.6,
      text = band.name .. (band.ply and (", ply %d"):format(band.ply) or "")
        .. (through and ": cut through" or ": gone")}
  end
  for _, split in ipairs(p.split or {}) do
    list[#list + 1] = {h = split.h, from = half, text = ("%s: no shear across it, each "
      .. "leaf bends by itself"):format(words.of(split.name, 20))}
  end
  notes(v, list, x)
end

local function heights(p)
  local list = {0, p.d}
  for _, band in ipairs(p.bands) do
    list[#list + 1] = band.h1
    list[#list + 1] = band.h2
  end
  for _, split in ipairs(p.split or {}) do list[#list + 1] = split.h end
  for _, c in ipairs(p.columns) do
    list[#list + 1], list[#list + 2] = c.low, c.high
  end
  return dims.places(list)
end

-- Heights of the fasteners between the edges of the piece that they go through.
local function rows_up(v, p, e)
  local piece = p.fasteners[1] and p.fasteners[1].piece
  if not piece or piece.h2 <= 0 then return e.y2 end
  local list = {piece.h1, piece.h2}
  for _, f in ipairs(p.fasteners) do
    if f.piece == piece and not (f.y and f.y ~= 0) then list[#list + 1] = f.h end
  end
  local x = e.y2 + (UPRIGHT + 0.1) * v.N
  dims.upright(v, dims.places(list), x)
  return x
end

local function widths(p, e)
  local list = {-p.b / 2, p.b / 2}
  for _, piece in ipairs(p.pieces) do
    for _, y in ipairs {piece.y1, piece.y2} do
      if y >= e.y1 and y <= e.y2 then list[#list + 1] = y end
    end
  end
  for _, c in ipairs(p.columns) do
    for _, y in ipairs {c.y1, c.y1 + c.left, c.y2 - c.right, c.y2} do
      list[#list + 1] = y
    end
  end
  return dims.places(list)
end

local function draw(v, p, e)
  wood(v, p)
  removed(v, p)
  splits(v, p)
  pieces(v, p, e)
  fasteners(v, p, e)
  dims.upright(v, heights(p), e.y1 - 0.3 * v.N)
  local right = rows_up(v, p, e)
  dims.chain(v, widths(p, e), e.h1 - 0.18 * v.N, {first = true, last = true})
  fibres(v, p, e, right + 0.5 * v.N)
end

--- The section alone as a view beside others, without its words.
-- @param x left of it and its dimensions; top of its caption; tall: room for it, in of
--   paper. @return its script, and the paper it takes down from the top of the page
function section.beside(p, page, x, top, tall)
  local e = extent(p)
  local N = math.max(view.scale_for(e.h2 - e.h1, tall, 1),
    view.scale_for(e.y2 - e.y1, 0.85, 1))
  local left = x + 0.56
  local base = top - 0.14 - ABOVE - e.h2 / N
  local v = view.new(N, e.y1 - 0.6 * N, e.y1 + (page.width - left - 0.02) * N,
    {left = left - 0.6, show = page.show, base = base, top = top - 0.1,
      bottom = base + e.h1 / N - 0.42})
  wood(v, p)
  removed(v, p)
  splits(v, p)
  pieces(v, p, e)
  fasteners(v, p, e)
  dims.upright(v, heights(p), e.y1 - 0.12 * N)
  dims.chain(v, widths(p, e), e.h1 - 0.12 * N, {first = true, last = true})
  local list = {}
  for _, band in ipairs(p.bands) do
    list[#list + 1] = {h = band.kind == "sever" and 0.5 * p.d or (band.h1 + band.h2) / 2,
      from = e.y2 + 0.02 * N, text = words.of(band.name, 12)
        .. (band.ply and (", ply %d"):format(band.ply) or "")}
  end
  for _, split in ipairs(p.split or {}) do
    list[#list + 1] = {h = split.h, from = e.y2 + 0.02 * N,
      text = words.of(split.name, 12)}
  end
  if #list > 0 then notes(v, list, e.y2 + 0.22 * N) end
  v.labels[#v.labels + 1] = sheet.label(("section at %s, scale 1:%d"):format(
    p.show.place(p.x), N), sheet.at(page, x, top))
  return v:script(page, "section"), page.height - (base + e.h1 / N) + 0.4 - 0.02
end

---------------------------------------------------------------------------
-- Words under it
---------------------------------------------------------------------------

local COLUMNS = {sheet.margin, 2.6, 3.7, 4.8}

-- The modulus that bending is checked with.
local function least(s)
  return s and (s.S_min or s.S_b and s.S_t and math.min(s.S_b, s.S_t) or s.S_b or s.S_t)
end

-- {text, ...} for each line; "" where there is nothing to say.
local function table_rows(p)
  local check = p.check and p.check.A and p.check
  local what_of = p.ply and ("Section of ply %d of %d"):format(p.ply, p.plies)
  local list = {{what_of or "Section", "whole", "remaining",
    check and "counted at " .. words.of(check.name, 20) or ""}}
  local what = {{"A", "area A", "area"}, {"y_b", "axis above the bottom edge", "length"},
    {"I", "second moment I", "inertia"}, {"S_b", "modulus, bottom fiber", "modulus"},
    {"S_t", "modulus, top fiber", "modulus"}, {"S_min", "least modulus", "modulus"}}
  for _, w in ipairs(what) do
    local key = w[1]
    local function cell(s)
      local x
      if s then
        if key == "S_min" then x = least(s) else x = s[key] end
      end
      return x and number(p.show, x, w[3]) or "-"
    end
    list[#list + 1] = {w[2] .. ", " .. p.show.unit[w[3]], cell(p.whole), cell(p.section),
      check and cell(check) or ""}
  end
  return list
end

local function piece_rows(p, list)
  for _, piece in ipairs(p.pieces) do
    list[#list + 1] = {words.of(("(%d) %s, %s"):format(piece.number, piece.name,
      piece.label or ""), 80)}
  end
  if p.row then
    local off = math.abs(p.row - p.x) > PLANE and " (thin: not at this place)" or ""
    local D = p.show.diameter(p.fasteners[1].D or 0)
    list[#list + 1] = {("fasteners of the row at %s%s: %d, %s diameter%s"):format(
      p.show.place(p.row), off, #p.fasteners, D,
      p.shank and ", " .. p.show.size(p.shank) .. " long" or "")}
  end
end

-- Lines under the drawing, each a list of cells.
local function text_rows(p)
  local list = table_rows(p)
  if #p.bands > 0 then
    list[#list + 1] = {"dashed: wood that is gone, at its largest; long dashes: the axis "
      .. "of what remains"}
  end
  if p.section then
    list[#list + 1] = {"remaining: the wood that is there at this place, as measured"}
  end
  if p.check then
    list[#list + 1] = {"counted: what the check takes, without lips too thin to count "
      .. "and with near cuts combined"}
    list[#list + 1] = {p.split and "least modulus: of the leaves, which share M by their "
      .. "second moments, I = sum b h^3/12" or "least modulus: what bending is checked "
      .. "with; of an opening, the least of all openings that fit in it"}
  end
  piece_rows(p, list)
  return list
end

local function words_part(page, list, y)
  local out = {sheet.label(sheet.note, sheet.at(page, sheet.margin, NOTE))}
  for i, texts in ipairs(list) do
    for k, text in ipairs(texts) do
      out[#out + 1] = sheet.label(text, sheet.at(page, COLUMNS[k], y - (i - 0.5) * row))
    end
  end
  return words.lines(out)
end

-- The scale at which wood and pieces leave room for what stands beside them.
local function scale(e, page)
  local N = view.scale_for(e.h2 - e.h1, TALL, 1)
  return math.max(N, view.scale_for(e.y2 - e.y1, page.width - LEFT - RIGHT, 1))
end

-- Script, or nil and what is wrong with the options.
function section.script(p, page)
  local e, list = extent(p), text_rows(p)
  local N = scale(e, page)
  local high = (e.h2 - e.h1) / N
  local needed = TITLES + CAPTION + ABOVE + high + BELOW + #list * row + NOTE + 0.2
  page.height = page.height or needed
  local low = sheet.too_low(page, needed)
  if low then return nil, low end
  local top = page.height - TITLES - CAPTION
  local foot = top - ABOVE - high - BELOW
  local v = view.new(N, e.y1 - (LEFT - 0.1) * N, e.y1 + (page.width - LEFT - 0.1) * N,
    {left = 0.1, show = p.show, base = top - ABOVE - e.h2 / N, top = top,
    bottom = foot})
  draw(v, p, e)
  v:caption("Seen toward the right end", page, page.height - TITLES - 0.1, "")
  local mark = words.of(p.mark, 30)
  local title = page.title or ("Section%s at %s"):format(
    mark ~= "" and ", joist " .. mark or "", p.show.place(p.x))
  return recipes.fill(recipes.of "drawing", {
    WHAT = "A joist cut across, to scale, with what is gone and its repair.",
    PAGE = sheet.setup(page), VIEWS = v:script(page, "section"),
    WORDS = words.lines {
      sheet.titles(page, title, p.title .. (p.fix and "; " .. p.fix or "")),
      words_part(page, list, foot - 0.08),
    },
    CLOSE = page.output and "unset output" or "",
  })
end

return section
