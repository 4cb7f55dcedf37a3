-- SPDX-License-Identifier: MIT
-- A sheet to print and fill in by hand on site: what to measure per joist so that the
-- survey's files can be typed from it, and what the letter has to say was not seen.
local cautions = require "netsection.cautions"
local document = require "netsection.document"
local parts = require "netsection.parts"

local field_sheet = {}

local BOX = "[  ] "

local function boxes(label, ...)
  return label .. ":  " .. BOX .. table.concat({...}, "   " .. BOX)
end

-- Room to write in: two lines for each number, as wide as the headings leave.
local LINE = ("_"):rep(9)

local function empty_rows(n, width)
  local rows = {}
  for i = 1, 2 * n do
    rows[i] = {i % 2 == 1 and tostring((i + 1) // 2) or ""}
    for k = 2, width do rows[i][k] = LINE end
  end
  return rows
end

local function blank_table(d, caption, heads, n)
  local columns = {}
  for i, head in ipairs(heads) do columns[i] = {head = head} end
  d:table {caption = caption, columns = columns, rows = empty_rows(n, #heads),
    row_heads = 1}
end

-- What matters while somebody stands under the floor: pipes and wires, what old
-- buildings hide.
local ON_SITE = {cautions.always[5], cautions.always[7]}

local function visit(d, name)
  d:heading(1, "The visit")
  if name then d:paragraph {"Floor: ", {mark = name}} end
  d:note(cautions.open, "caution")
  d:blanks {"Floor, address", "Date, from and to", "Who was there", "Who called, and why",
    "Room above, room below", "Signs: bounce, sag, cracks, doors that stick",
    "Agreed scope: which joists, which bays", "Code edition in force"}
  d:list {boxes("People and loads kept off tonight", "needed", "not needed"),
    boxes("Posts needed tonight", "yes", "no"),
    boxes("Finishes that may be opened", "ceiling", "floor", "none")}
  d:heading(1, "Loads")
  d:blanks {"Use of the room", "Floor, layer by layer", "Ceiling",
    "Partitions: where, which way, bearing or not", "Tubs, tanks, stone, safes: place, "
    .. "footprint, weight"}
  d:page_break()
  d:heading(1, "Not seen")
  d:paragraph "What stayed hidden, and why. The letter says so."
  d:blanks {"Joists", "Stretches of joists", "Ends in walls", "Finishes not opened"}
  for _, said in ipairs(ON_SITE) do d:note(said, "caution") end
  d:heading(1, "Sketch")
  d:paragraph("The floor from above: marks from left to right, bearings, walls and posts "
    .. "below, rooms, which way north is.")
end

local function geometry(d)
  d:blanks {"Stamp or nominal size", "Thickness, plies", "Depth at left, middle, right",
    "Clear span, or center to center", "Bearing length left, right",
    "Spacing to the left, to the right", "Place along the wall (x)"}
  d:list {boxes("Bears left on", "plate", "ledger", "masonry pocket", "hanger"),
    boxes("Bears right on", "plate", "ledger", "masonry pocket", "hanger"),
    boxes("Runs on over a bearing", "no", "left", "right"),
    boxes("Deck", "boards", "panels", "none"), boxes("Blocking", "none", "at:"),
    boxes("Reached with a hand on", "both faces", "left face", "right face",
      "neither")}
end

local function wood(d)
  d:blanks {"Species and grade, and how known", "Moisture, where measured",
    "Probe depth in soft wood, where", "Knots near edges, slope of grain, shakes",
    "Sag by string or laser, of this joist and its neighbors"}
end

-- @param t {cuts =, obstructions = numbers of rows}
local function joist_page(d, mark, t)
  d:page_break()
  if mark then
    d:heading(1, "Joist " .. mark)
  else
    d:heading(1, "Joist")
    d:blanks {"Mark"}
  end
  d:heading(2, "Sizes")
  geometry(d)
  d:heading(2, "Wood")
  wood(d)
  d:page_break()
  d:heading(2, mark and "Cuts of joist " .. mark or "Cuts")
  d:list {boxes("Distances from", "center of left bearing", "right", "left face",
    "right face")}
  blank_table(d, "Holes, slots, notches, end notches, cut through, rot, char, splits",
    {"No.", "kind", "at, from", "to, length", "size, depth", "wood below",
      "face, kerf", "photo"}, t.cuts)
  d:heading(2, "In the way")
  blank_table(d, "Pipes, ducts, cables, lights, blocking: in this bay or through it",
    {"No.", "what", "face, bay", "from", "to", "bottom, top", "slope", "moved by"},
    t.obstructions)
end

local FIELDS = {"name", "joists", "cuts", "obstructions"}

local function rows_of(t, name, otherwise)
  local n = t[name] or otherwise
  if math.type(n) ~= "integer" or n < 1 or n > 40 then
    error(("field_sheet: %s: a whole number from 1 to 40 expected"):format(name), 3)
  end
  return n
end

-- Marks to print, or false for each sheet that is left blank.
local function marks_of(t)
  local given = t.joists or 1
  if math.type(given) == "integer" and given >= 1 and given <= 200 then
    local list = {}
    for i = 1, given do list[i] = false end
    return list
  end
  local good = type(given) == "table" and #given > 0
  for _, mark in ipairs(good and given or {}) do
    good = good and type(mark) == "string"
  end
  if not good then
    error("field_sheet: joists: a number from 1 to 200, or a list of marks expected", 3)
  end
  return given
end

--- A sheet to fill in by hand, as a document (see document.lua).
-- @param t {name = of the floor, joists = how many blank ones or a list of marks,
--   cuts =, obstructions = rows for each joist}
function field_sheet.new(t)
  t = t or {}
  parts.only("field_sheet", t, FIELDS, 2)
  if t.name ~= nil and type(t.name) ~= "string" then
    error("field_sheet: name: text expected", 2)
  end
  local rows = {cuts = rows_of(t, "cuts", 6),
    obstructions = rows_of(t, "obstructions", 4)}
  local marks = marks_of(t)
  local d = document.new {title = "Field sheet"}
  visit(d, t.name)
  for _, mark in ipairs(marks) do joist_page(d, mark, rows) end
  return d
end

return field_sheet
