-- SPDX-License-Identifier: MIT
-- The lists under an elevation: pieces and fasteners of the repair, each with a sample
-- of how it is drawn, and the cuts with their places and the wood left beside them.

local marks = require "netsection.plot.marks"
local picture = require "netsection.plot.picture"
local sheet = require "netsection.plot.sheet"
local words = require "netsection.plot.words"

local schedule = {}

local label, row = sheet.label, sheet.row
local SAMPLE, TEXT = 0.4, 0.72         -- in of paper: a sample, where its text starts
local WHERE, WHAT, LEFT = 1.5, 3.7, 7.1   -- of 10: columns of the cuts
local NOTE = 0.13

---------------------------------------------------------------------------
-- Words
---------------------------------------------------------------------------

local function range(x1, x2, show)
  return show.place(x1) .. " to " .. show.place(x2)
end

local function where(cut, show)
  if cut.kind == "hole" then
    return "center at " .. show.place((cut.x1 + cut.x2) / 2)
  end
  return range(cut.x1, cut.x2, show)
end

local function of_faces(cut, d, show)
  local depth = d - (cut.top or 0) - (cut.bottom or 0)
  local parts = {("%s of %s"):format(show.size(depth), show.size(d))}
  if (cut.sides or 0) > 0 then
    parts[#parts + 1] = show.size(cut.sides) .. " off each side"
  end
  return table.concat(parts, ", ")
end

-- Wood left, as a tape measures it; of the ply where the cut is in one.
function schedule.left(cut, d, show)
  if cut.ply then
    local one = setmetatable({ply = false}, {__index = cut})
    return ("ply %d: %s"):format(cut.ply, schedule.left(one, d, show))
  end
  local below, above = math.max(0, cut.h1), math.max(0, d - cut.h2)
  if cut.kind == "sever" then return "none" end
  if cut.kind == "loss" then return of_faces(cut, d, show) end
  if cut.kind == "notch" or cut.kind == "end_notch" then
    return ("%s of %s"):format(show.size(math.max(below, above)), show.size(d))
  end
  return ("%s below, %s above"):format(show.size(below), show.size(above))
end

local function face(piece)
  if piece.of then return "at joist " .. words.of(piece.of, 20) end
  if (piece.y1 or 0) > 0 then return "near face" end
  if (piece.y2 or 0) < 0 then return "far face (dashed)" end
end

local function piece_words(i, piece, show)
  local name, made = words.of(piece.name, 30), words.of(piece.label, 120)
  local parts = {}
  if made:sub(1, #name) ~= name then parts[1] = name end
  if made ~= "" then parts[#parts + 1] = made end
  parts[1] = ("(%d) %s"):format(i, parts[1] or name)
  parts[#parts + 1] = face(piece)
  if picture.here(piece) then parts[#parts + 1] = range(piece.x1, piece.x2, show) end
  return table.concat(parts, ", ")
end

-- What the repair names, else a count by diameter.
local function fastener_words(fix, show)
  if fix.fasteners and #fix.fasteners > 0 then
    local list = {}
    for i, f in ipairs(fix.fasteners) do list[i] = words.of(f.label, 240) end
    return list
  end
  local count, order = {}, {}
  for _, f in ipairs(fix.layout) do
    local D = f.D or 0
    if not count[D] then order[#order + 1] = D end
    count[D] = (count[D] or 0) + 1
  end
  table.sort(order)
  local list = {}
  for i, D in ipairs(order) do
    list[i] = ("%d fasteners, %s diameter"):format(count[D], show.diameter(D))
  end
  return list
end

---------------------------------------------------------------------------
-- Rows
---------------------------------------------------------------------------

-- Room for what a cut is, in cells.
local function what_cells(page)
  return (LEFT - WHAT) * page.width / 10 / sheet.cell - 1
end

-- A row, and rows below it for what its text has more than a line.
local function add_lines(list, row_, said, most)
  for i, line in ipairs(words.wrapped(said, most)) do
    list[#list + 1] = i > 1 and {kind = "line"} or row_
    list[#list].text = line
  end
end

-- Rows from the top: {kind, ...}; an empty one is a gap.
local function rows_of(layout, page)
  local list = {}
  local fix, most = layout.fix, (page.width - TEXT - sheet.margin) / sheet.cell
  if fix then
    list[1] = {kind = "heading", text = (fix.trial and "" or "Repair: ")
      .. words.of(fix.title, 90)}
    for i, piece in ipairs(fix.pieces) do
      add_lines(list, {kind = "piece", piece = piece}, piece_words(i, piece, page.show),
        most)
    end
    for _, text in ipairs(fastener_words(fix, page.show)) do
      add_lines(list, {kind = "fastener"}, text, most)
    end
    list[#list + 1] = {kind = "gap"}
  end
  if #layout.cuts > 0 then
    list[#list + 1] = {kind = "cuts"}
    local one = false
    for _, cut in ipairs(layout.cuts) do one = one or cut.ply ~= nil end
    for i, cut in ipairs(marks.sorted(layout)) do
      local what = words.wrapped(words.of(cut.label, 120), what_cells(page))
      list[#list + 1] = {kind = "cut", i = i, what = what[1]}
      for k = 2, #what do list[#list + 1] = {kind = "more", what = what[k]} end
    end
    if one then
      list[#list + 1] = {kind = "heading", text = "A cut with a ply named is in that one "
        .. "alone, dashed where wood stands behind it. Ply 1 is the left one, seen "
        .. "toward the right end."}
    end
    list[#list + 1] = {kind = "gap"}
  end
  return list
end

--- Paper that the lists take.
function schedule.height(layout, page)
  local y = NOTE + 0.14
  for _, r in ipairs(rows_of(layout, page)) do
    y = y + (r.kind == "gap" and 0.4 or 1) * row
  end
  return y
end

local SAMPLES = {near = "ls 4", far = "ls 5", steel = "lw 5"}

local draw = {}

function draw.gap() end

function draw.heading(r, page, y)
  return label(r.text, sheet.at(page, sheet.margin, y))
end

function draw.line(r, page, y)
  return label(r.text, sheet.at(page, TEXT, y))
end

function draw.piece(r, page, y)
  local text = label(r.text, sheet.at(page, TEXT, y))
  if not picture.here(r.piece) then return text end
  return words.lines {
    sheet.line(sheet.at(page, sheet.margin, y), sheet.at(page, sheet.margin + SAMPLE, y),
      SAMPLES[picture.style(r.piece)]), text,
  }
end

function draw.fastener(r, page, y)
  return words.lines {
    ("set label '' at %s point ls 9"):format(
      sheet.at(page, sheet.margin + SAMPLE / 2, y)),
    label(r.text, sheet.at(page, TEXT, y)),
  }
end

-- Without letters the names move to the margin.
local function cells(page, y, lettered, texts)
  local list, wide = {}, page.width / 10
  local columns = {sheet.margin, lettered and 0.4 or sheet.margin, WHERE * wide,
    WHAT * wide, LEFT * wide}
  for i, text in ipairs(texts) do
    if text ~= "" and (i > 1 or lettered) then
      list[#list + 1] = label(text, sheet.at(page, columns[i], y))
    end
  end
  return words.lines(list)
end

function draw.cuts(_, page, y, _, state)
  return cells(page, y, state.lettered, {"", "Cut", "From the left bearing",
    "What", "Wood left"})
end

function draw.cut(r, page, y, layout, state)
  local cut = state.cuts[r.i]
  local c = layout.cuts[cut.order]
  return cells(page, y, state.lettered, {cut.mark, cut.name, where(c, page.show), r.what,
    schedule.left(c, layout.d, page.show)})
end

function draw.more(r, page, y, _, state)
  return cells(page, y, state.lettered, {"", "", "", r.what, ""})
end

--- The lists from height `y` down, and the note at the foot.
-- @param state {cuts = marks.sorted ..., lettered}
function schedule.part(layout, state, page, y)
  local list = {label(sheet.note, sheet.at(page, sheet.margin, NOTE))}
  y = y - row / 2
  for _, r in ipairs(rows_of(layout, page)) do
    list[#list + 1] = draw[r.kind](r, page, y, layout, state)
    y = y - (r.kind == "gap" and 0.4 or 1) * row
  end
  return words.lines(list)
end

return schedule
