-- SPDX-License-Identifier: MIT
-- The cells of one sheet of a workbook, as rows like those of a CSV file: texts with what
-- else is known of them - a typed number, a value that is missing or an error.
local csv = require "netsection.csv"
local point = require "netsection.point"
local refuse = require "netsection.workbook.refuse"
local units = require "netsection.units"

local grid = {}

-- More than any floor needs, and few enough for any machine. A cell's length is that of
-- the spreadsheets themselves.
local ROWS, COLUMNS, CELLS, MERGES, LONGEST = 20000, 256, 400000, 10000, 32767

local Grid = {}
Grid.__index = Grid

function grid.new(name, hidden)
  return setmetatable({name = name, hidden = hidden or false, by_row = {}, numbers = {},
    merges = {}, cells = 0, formulas = 0, hidden_rows = {}, hidden_columns = {},
    links = 0}, Grid)
end

--- The text of a number, as a CSV file would hold it.
function grid.number(x)
  if x ~= x or x == math.huge or x == -math.huge then return nil end
  return point.format("%.15g", x)
end

--- Puts a cell. @param about nil, or {typed = true: a number, wrong = what is}
function Grid:put(row, column, text, about)
  if not text:find "%S" then return end
  if #text > LONGEST then
    refuse.with("sheet %s: cell %s%d has more than %d characters", self.name,
      csv.letter(column), row, LONGEST)
  elseif column > COLUMNS or row > 1048576 then
    refuse.with("sheet %s: cell %s%d lies beyond column %s", self.name,
      csv.letter(column), row, csv.letter(COLUMNS))
  end
  local cells = self.by_row[row]
  if not cells then
    cells = {typed = {}, wrong = {}, last = 0}
    self.by_row[row], self.numbers[#self.numbers + 1] = cells, row
    if #self.numbers > ROWS then
      refuse.with("sheet %s has more than %d rows that hold something", self.name, ROWS)
    end
  end
  self.cells = self.cells + math.max(column - cells.last, 1)
  if self.cells > CELLS then
    refuse.with("sheet %s has more than %d cells", self.name, CELLS)
  end
  cells[column], cells.last = text, math.max(cells.last, column)
  cells.typed[column] = about and about.typed
  cells.wrong[column] = about and about.wrong
end

function Grid:merge(top, left, bottom, right)
  if #self.merges >= MERGES then
    refuse.with("sheet %s has more than %d merged cells", self.name, MERGES)
  end
  self.merges[#self.merges + 1] = {top = top, left = left, bottom = bottom, right = right}
end

-- Rows that hold something and are no remarks, in order.
local function rows_of(self)
  local rows = {}
  table.sort(self.numbers)
  for _, number in ipairs(self.numbers) do
    local cells = self.by_row[number]
    for i = 1, cells.last do cells[i] = cells[i] or "" end
    if csv.counts(cells) then
      cells.row, cells.line = number, number
      rows[#rows + 1] = cells
    end
  end
  return rows
end

-- "5, 7 to 9" of a sorted list.
local function runs(list, shown)
  local out, i = {}, 1
  while i <= #list do
    local last = i
    while list[last + 1] == list[last] + 1 do last = last + 1 end
    out[#out + 1] = last > i and ("%s to %s"):format(shown(list[i]), shown(list[last]))
      or shown(list[i])
    i = last + 1
  end
  return table.concat(out, ", ")
end

local function notes_of(self, rows)
  local notes, rows_out, columns_out, widest = {}, {}, {}, 0
  if self.hidden then notes[1] = "the sheet is hidden; it is read" end
  for _, row in ipairs(rows) do
    if self.hidden_rows[row.row] then rows_out[#rows_out + 1] = row.row end
    widest = math.max(widest, #row)
  end
  for i = 1, widest do
    if self.hidden_columns[i] then columns_out[#columns_out + 1] = i end
  end
  if #rows_out > 0 then
    notes[#notes + 1] = ("hidden rows are read: %s"):format(runs(rows_out, tostring))
  end
  if #columns_out > 0 then
    notes[#notes + 1] = ("hidden columns are read: %s"):format(runs(columns_out,
      csv.letter))
  end
  if self.formulas > 0 then
    notes[#notes + 1] = ("%d formula%s read by the stored value"):format(self.formulas,
      self.formulas == 1 and "" or "s")
  end
  if self.links > 0 then
    notes[#notes + 1] = "links in cells are not followed; their text is read"
  end
  return notes
end

--- What a reader of rows takes.
-- @return {rows = {{text..., row =, line =, typed =, wrong =}...}, merges =, notes =,
--   sheet = its name}
function Grid:source()
  local rows = rows_of(self)
  return {rows = rows, merges = self.merges, notes = notes_of(self, rows),
    sheet = units.quoted(self.name):sub(2, -2)}
end

return grid
