-- SPDX-License-Identifier: MIT
-- A sheet to print and fill in by hand on site: what to measure per joist so that the
-- survey's files can be typed from it, and what the letter has to say was not seen.
local cautions = require "netsection.cautions"
local document = require "netsection.document"
local parts = require "netsection.parts"
local point = require "netsection.point"
local spelling = require "netsection.locale.spelling"
local template = require "netsection.field_book"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local field_sheet = {}

local BOX = "[  ] "

local function boxes(label, ...)
  return label .. ":  " .. BOX .. table.concat({...}, "   " .. BOX)
end

-- What is written on where there are no cells: the forms of plain text.
local LINE = ("_"):rep(9)

-- Rows to write in: 0.3 in high and more, across the page.
local function empty_rows(n, width)
  local rows = {}
  for i = 1, n do
    rows[i] = {tostring(i)}
    for k = 2, width do rows[i][k] = LINE end
  end
  return rows
end

local function blank_table(d, caption, heads, n)
  local columns = {}
  for i, head in ipairs(heads) do columns[i] = {head = head} end
  d:table {caption = caption, columns = columns, rows = empty_rows(n, #heads),
    row_heads = 1, to_fill = true}
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

-- A blank elevation with feet or meters along it and a blank section with inches or
-- millimeters, to draw into.
local LONG, DEEP, ACROSS, HIGH = 500, 56, 60, 84

local function line(x1, y1, x2, y2, width)
  return point.format('<path fill="none" stroke="#000" stroke-width="%s" '
    .. 'd="M%.1f,%.1fL%.1f,%.1f"/>', width, x1, y1, x2, y2)
end

local function text(x, y, said)
  return point.format('<text x="%.1f" y="%.1f" font-family="sans-serif" font-size="10" '
    .. 'text-anchor="middle">%s</text>', x, y, said)
end

local function box(x, y, width, height)
  return point.format('<rect x="%.1f" y="%.1f" width="%.1f" height="%.1f" fill="none" '
    .. 'stroke="#000" stroke-width="1.2"/>', x, y, width, height)
end

-- Places of marks 0, step, 2 step ... in points of the drawing: f(place, part of all).
local function marks_along(scale, f)
  for i = 0, math.floor(scale.all / scale.step + 0.5) do
    f(i * scale.step, i * scale.step / scale.all)
  end
end

local function multiple(x, of)
  return math.abs(x / of - math.floor(x / of + 0.5)) < 1e-9
end

local function blank_drawing(blank)
  local along, up = blank.along, blank.up
  local out = {'<svg width="686" height="120" viewBox="0 0 686 120" '
    .. 'xmlns="http://www.w3.org/2000/svg">', box(10, 20, LONG, DEEP)}
  marks_along(along, function(place, part)
    local x = 10 + LONG * part
    out[#out + 1] = line(x, 20 + DEEP, x, 20 + DEEP + (multiple(place, along.long) and 9
      or 5), 0.8)
    if multiple(place, along.number) then
      out[#out + 1] = text(x, 20 + DEEP + 20, point.format("%g", place))
    end
  end)
  out[#out + 1] = text(10 + LONG / 2, 12, ("elevation from the right face, %s from the "
    .. "center of the left bearing; strike out what is past the end"):format(along.says))
  out[#out + 1] = box(560, 20, ACROSS, HIGH)
  marks_along(up, function(place, part)
    local y = 20 + HIGH - HIGH * part
    out[#out + 1] = line(560 - (multiple(place, up.long) and 8 or 4), y, 560, y, 0.8)
    if multiple(place, up.long) then
      out[#out + 1] = text(543, y + 3, point.format("%g", place))
    end
  end)
  out[#out + 1] = text(592, 12, ("section, %s up"):format(up.says))
  out[#out + 1] = "</svg>"
  return table.concat(out)
end

local function geometry(d)
  d:blanks {"Size, plies; depth at left, middle, right",
    "Span clear / center to center; bearings; spacing left, right",
    "Species, grade, how known; moisture; probe", "Sag, of it and its neighbors; photo"}
  d:list {boxes("Bears on", "plate", "ledger", "masonry pocket", "hanger")
    .. ";   " .. boxes("reached", "both faces", "left", "right", "neither")}
end

-- @param t {cuts =, obstructions = numbers of rows}
local function joist_page(d, mark, t)
  d:page_break(mark and "Joist " .. mark or "Joist ______")
  d:heading(1, mark and "Joist " .. mark or "Joist")
  d:blanks {mark and "Floor, date" or "Mark, floor, date"}
  geometry(d)
  d:figure {name = "blank.svg", svg = blank_drawing(t.blank), alt = ("Blank elevation "
    .. "with a scale of %s and blank section with a scale of %s, to draw into"):format(
    t.blank.along.says, t.blank.up.says)}
  blank_table(d, "Cuts: hole, slot, notch, end notch, cut through, rot, char, split; "
    .. "distances from the center of the left bearing unless said",
    {"No.", "kind", "at, from", "to, length", "size, depth", "wood below",
      "face, kerf, ply", "photo"}, t.cuts)
  blank_table(d, "In the way, in this bay or through it",
    {"No.", "what", "face, bay", "from", "to", "bottom, top", "slope", "moved by"},
    t.obstructions)
end

local FIELDS = {"name", "joists", "cuts", "obstructions", "units", "lang"}

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
--   cuts =, obstructions = rows for each joist, units = "us" | "metric" of its scales,
--   lang = "en-US" (default) | "en-GB" | "en-CA"}
function field_sheet.new(t)
  t = t or {}
  parts.only("field_sheet", t, FIELDS, 2)
  if t.name ~= nil and type(t.name) ~= "string" then
    error("field_sheet: name: text expected", 2)
  end
  local rows = {cuts = rows_of(t, "cuts", 8),
    obstructions = rows_of(t, "obstructions", 3)}
  local problem
  rows.blank, problem = template.blank(t.units)
  if not rows.blank then error("field_sheet: " .. problem, 2) end
  problem = spelling.problem(t.lang)
  if problem then error("field_sheet: lang: " .. problem, 2) end
  local marks = marks_of(t)
  local d = document.new {title = "Field sheet", job = t.name or "Field sheet",
    foot = "Date: ____________", lang = t.lang,
    own = spelling.own(t.lang, t.name, marks)}
  visit(d, t.name)
  for _, mark in ipairs(marks) do joist_page(d, mark, rows) end
  return d
end

return field_sheet
