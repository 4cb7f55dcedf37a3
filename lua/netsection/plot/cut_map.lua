-- SPDX-License-Identifier: MIT
-- The map of where on a joist which hole or notch is still allowed: holes above, notches
-- below, and a table to measure by. Sizes in the table are rounded down to
-- a step of the tape.

local forces = require "netsection.plot.forces"
local frame = require "netsection.plot.frame"
local marks = require "netsection.plot.marks"
local point = require "netsection.point"
local recipes = require "netsection.plot.recipes"
local sheet = require "netsection.plot.sheet"
local units = require "netsection.units"
local words = require "netsection.plot.words"

local label, lines = sheet.label, words.lines

local map = {}

local HOLES, NOTCHES, BETWEEN = 1.7, 1.1, 0.42   -- in, of the two frames
local COLUMNS = 12                               -- of the table, at most
local KEY = {"both", "rules", "calculation", "top", "bottom"}

---------------------------------------------------------------------------
-- Words
---------------------------------------------------------------------------

-- Down to a step of the tape; nothing under two steps is worth a mark.
local function stepped(x, show)
  local n = math.floor(x / show.steps.length + 1e-6)
  if n < 2 then return "-" end
  return show.section_number(n * show.steps.length)
end

local function key_texts(given, show)
  return {
    both = "round hole in the middle of the depth: allowed by both",
    rules = "the same by the rules alone (" .. given.rules_title .. ")",
    calculation = "the same by calculation alone",
    top = ("notch in the top edge, %s long: allowed by both"):format(
      show.size(show.floor(given.notch_length))),
    bottom = "notch in the bottom edge, as long",
  }
end

-- What hinders any cut at all, in place of a map that shows nothing without a word.
local function overstressed(given)
  for _, size in ipairs(given.hole_calculation) do
    if size > 0 then return nil end
  end
  return "By calculation none: the joist is overstressed as it is."
end

local NOTES = {
  "Holes: center at mid-depth, nothing cut nearer than the rules ask. One new cut; what "
    .. "is there already counts.",
  "Measure from the center of the left bearing. Shore before cutting; keep clear of "
    .. "pipes and wires.",
}

---------------------------------------------------------------------------
-- Table
---------------------------------------------------------------------------

-- Places of the table: whole feet or half meters, as many as fit.
local function stations(given, show)
  local a, b = given.x[1], given.x[#given.x]
  local one = show.tape and show.sums.length or show.sums.length / 2
  local step = one
  while (b - a) / step > COLUMNS do step = step + one end
  local list = {}
  for i = math.ceil(a / step - 1e-9), math.floor(b / step + 1e-9) do
    list[#list + 1] = i * step
  end
  return list
end

-- The less of the two values beside a place.
local function least_at(given, list, x)
  local least = math.huge
  for i = 1, #given.x - 1 do
    if x >= given.x[i] - 1e-6 and x <= given.x[i + 1] + 1e-6 then
      least = math.min(least, list[i], list[i + 1])
    end
  end
  return least < math.huge and least or 0
end

local ROWS = {{"at", nil}, {"hole, %s", "hole"}, {"top notch, %s", "top"},
  {"bottom notch, %s", "bottom"}}

local function table_part(given, page, rows)
  local list, show = {}, page.show
  local places = stations(given, show)
  local from = sheet.margin + 1.1
  local width = (page.width - frame.right - from) / #places
  for r, row in ipairs(ROWS) do
    local y = rows["table" .. r]
    list[#list + 1] = label(row[1]:format(show.unit.length), sheet.at(page, sheet.margin,
      y))
    for i, x in ipairs(places) do
      local shown = row[2] and stepped(least_at(given, given[row[2]], x), show)
        or show.place(x)
      list[#list + 1] = label(shown, sheet.at(page, from + width * (i - 0.3), y),
        "right")
    end
  end
  return lines(list)
end

---------------------------------------------------------------------------
-- Frames
---------------------------------------------------------------------------

local function most_of(...)
  local most = 0
  for _, list in ipairs {...} do
    for _, v in ipairs(list) do most = math.max(most, v) end
  end
  return most > 0 and most or 1
end

local function tics(most, show)
  if not show.tape then return point.format("%g", frame.tic_step(show.scaled("length",
    most))) end
  return most > 4 and "1" or most > 1.6 and "0.5" or "0.25"
end

local function axes(given, most, show)
  local a, b = given.diagram.start, given.diagram.finish
  local pad, long = 0.015 * (b - a), (b - a) / show.sums.length
  local far = show.tape and (long <= 18 and 1 or long <= 36 and 2 or 5)
    or frame.along_step(b - a, show)
  return lines {
    ("set xrange [%s:%s]"):format(forces.along(a - pad, show),
      forces.along(b + pad, show)),
    ("set yrange [0:%s]"):format(units.fixed(show.scaled("length", most * 1.08), 4)),
    point.format("set xtics %g nomirror out scale 0.5 offset 0,-0.3", far),
    ("set ytics %s nomirror out scale 0.5"):format(tics(most, show)),
    "set format y '%g'", "set format x '%g'",
    "set grid ytics lt 1 lw 0.5 lc rgb '#DADADA'", "set border 15 lw 0.8",
  }
end

-- From the foot up: note, notes, table, key, the two frames.
local function lay_out(given, cuts, page)
  local rows, y = {note = 0.13}, 0.13
  for i = #NOTES, 1, -1 do
    y = y + sheet.row
    rows["more" .. i] = y
  end
  y = y + 1.4 * sheet.row
  for r = #ROWS, 1, -1 do
    rows["table" .. r], y = y, y + sheet.row
  end
  y = y + 0.5 * sheet.row
  for i = #KEY, 1, -1 do
    rows[KEY[i]], y = y, y + sheet.row
  end
  rows.axis = y + 0.06
  local levels = marks.levels(cuts, 0.004 * forces.span(given.diagram))
  local above = frame.above(cuts, levels) + frame.titles
  local fixed = rows.axis + 0.42 + BETWEEN + above
  page.height = page.height or fixed + HOLES + NOTCHES
  local problem = frame.too_low(page, fixed + 0.6 * (HOLES + NOTCHES))
  if problem then return nil, problem end
  local room = page.height - fixed
  local at = {rows = rows, levels = levels, bottom = rows.axis + 0.42}
  at.top = at.bottom + room * NOTCHES / (HOLES + NOTCHES)
  marks.place(cuts, given.diagram, page.width - frame.left - frame.right)
  return at, {rows = rows, levels = levels, bottom = at.top + BETWEEN,
    top = page.height - above}
end

-- A staircase: between two places that were worked the less of both holds.
local function data_part(given, show)
  local list = {"$map << EOD"}
  local columns = {given.hole_rules, given.hole_calculation, given.hole, given.top,
    given.bottom}
  for i = 1, #given.x - 1 do
    local row = {}
    for k, column in ipairs(columns) do
      row[k] = units.fixed(show.scaled("length", math.min(column[i], column[i + 1])), 4)
    end
    local sizes = table.concat(row, " ")
    list[#list + 1] = forces.along(given.x[i], show) .. " " .. sizes
    list[#list + 1] = forces.along(given.x[i + 1], show) .. " " .. sizes
  end
  list[#list + 1] = "EOD"
  return lines(list)
end

local function titles(given, page)
  local mark = words.of(given.diagram.mark, 30)
  return sheet.titles(page, page.title or "Where a hole or notch is still allowed"
    .. (mark ~= "" and ", joist " .. mark or ""), given.diagram.title)
end

local function notes_part(given, page, rows)
  local list = {label(sheet.note, sheet.at(page, sheet.margin, rows.note))}
  for i, text in ipairs(NOTES) do
    text = i == 1 and overstressed(given) or text
    list[#list + 1] = label(text, sheet.at(page, sheet.margin, rows["more" .. i]))
  end
  return lines(list)
end

local function upper_part(given, cuts, page, low, high)
  local key = key_texts(given, page.show)
  return lines {
    axes(given, most_of(given.hole_rules, given.hole_calculation), page.show),
    frame.margins(page, high.bottom, high.top),
    frame.cuts(given.diagram, cuts, page, high),
    titles(given, page), frame.key(page, KEY, key, low.rows),
    table_part(given, page, low.rows), notes_part(given, page, low.rows),
  }
end

local function lower_part(given, cuts, page, low)
  return lines {
    axes(given, most_of(given.top, given.bottom), page.show),
    frame.margins(page, low.bottom, low.top),
    frame.edges(cuts, page, low.bottom, low.top),
    frame.axis_title(page, low.rows.axis),
    frame.supports(given.diagram, page, low.bottom),
  }
end

-- @param given a map (netsection.cut_map) with diagram and rules_title
-- @return a script, or nil and what is wrong with the options
function map.script(given, page)
  local cuts = marks.sorted(given.diagram)
  local low, high = lay_out(given, cuts, page)
  if not low then return nil, high end
  return recipes.fill(recipes.of "cut_map", {
    PAGE = sheet.setup(page), DATA = data_part(given, page.show),
    FACTS = frame.key_facts(page, KEY, low.rows),
    HOLES = upper_part(given, cuts, page, low, high),
    NOTCHES = lower_part(given, cuts, page, low),
    UNIT = page.show.unit.length, CLOSE = page.output and "unset output" or "",
  })
end

return map
