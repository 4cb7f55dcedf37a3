-- SPDX-License-Identifier: MIT
-- One file of a survey: headings matched to columns, rows to values. A sheet keeps where
-- each value stands, so that whatever is found wrong later still gets its row and column.
local cell = require "netsection.survey.cell"
local csv = require "netsection.csv"
local file = require "netsection.file"
local merged = require "netsection.survey.merged"
local point = require "netsection.point"
local units = require "netsection.units"
local words = require "netsection.survey.words"
local plain = require "netsection.document.escape".text

local sheet = {}

------------------------------------------------------------------------------ problems

-- "joists.csv, row 7, column D (Span)". The line is told where it is not the row. In a
-- workbook "book.xlsx, sheet joists, cell D7 (Span)".
local function place_text(p)
  local parts = {p.file}
  if p.sheet then parts[2] = "sheet " .. p.sheet end
  if p.cell then
    parts[3] = ("cell %s%s"):format(p.cell, p.heading and (" (%s)"):format(p.heading)
      or "")
    return table.concat(parts, ", ")
  end
  if p.row then
    parts[#parts + 1] = p.line ~= p.row and ("row %d (line %d)"):format(p.row, p.line)
      or ("row %d"):format(p.row)
  end
  if p.letter then
    parts[#parts + 1] = ("column %s%s"):format(p.letter,
      p.heading and (" (%s)"):format(p.heading) or "")
  end
  return table.concat(parts, ", ")
end

local List = {}
List.__index = List

-- A list of problems; the same one is kept once.
function sheet.problems()
  return setmetatable({seen = {}}, List)
end

-- @param p {file =, sheet = of a workbook, row =, line =, column =, heading =, field =,
--   found =, message =}
function List:add(p)
  p.letter = p.column and csv.letter(p.column)
  p.cell = p.sheet and p.row and p.letter and p.letter .. p.row or nil
  p.message = plain(p.message)
  p.text = plain(("%s: %s"):format(place_text(p), p.message))
  if self.seen[p.text] then return end
  self.seen[p.text] = true
  self[#self + 1] = p
end

-- What a file or a sheet of a workbook is called in messages.
function sheet.title(name, of_workbook)
  return of_workbook and ("%s, sheet %s"):format(name, of_workbook) or name
end

-- Problems in the order of files, rows and columns, without what only the list needs.
-- @param files titles in their order
function List:sorted(files)
  local rank, out = {}, {}
  for i, name in ipairs(files) do rank[name] = i end
  for i, p in ipairs(self) do
    p.order = i
    out[i] = p
  end
  table.sort(out, function(a, b)
    local fa = rank[sheet.title(a.file, a.sheet)] or 0
    local fb = rank[sheet.title(b.file, b.sheet)] or 0
    if fa ~= fb then return fa < fb end
    if (a.row or 0) ~= (b.row or 0) then return (a.row or 0) < (b.row or 0) end
    local ca, cb = a.column or 0, b.column or 0
    if ca ~= cb then return ca < cb end
    return a.order < b.order
  end)
  for _, p in ipairs(out) do p.order = nil end
  return out
end

-- A heading or mark in a message: one line, short, nothing hidden.
local function shown(text)
  return (units.quoted(text):sub(2, -2))
end
sheet.shown = shown

---------------------------------------------------------------------------- headings

local function lookup_of(columns)
  local lookup, names = {}, {}
  for _, column in ipairs(columns) do
    lookup[words.key(column.name)] = column
    names[#names + 1] = column.name
    for _, other in ipairs(column.also) do
      lookup[words.key(other)] = lookup[words.key(other)] or column
      names[#names + 1] = other
    end
  end
  return lookup, names
end

local function unit_key(text)
  return (text:gsub("\u{B2}", "2"):gsub("\u{B0}", ""):gsub("[%s%.]", "")
    :gsub("[A-Z]", string.lower))
end

local function unit_names(kind)
  local seen, list = {}, {}
  for name in pairs(cell.units[kind]) do
    if not seen[name] then list[#list + 1] = name end
    seen[name] = true
  end
  table.sort(list, point.less)
  return table.concat(list, ", ")
end

-- Column, unit and fault of a heading; nothing where it is not known.
local function match(text, lookup)
  local column = lookup[words.key(text)]
  if column then return column end
  local base, unit = text:match "^(.-)%s*[%(%[](.-)[%)%]]%s*$"
  local bracketed = base and lookup[words.key(base)]
  if not bracketed then base, unit = text:match "^(.+)[%s_,%-]+(%S+)$" end
  column = bracketed or base and lookup[words.key(base)]
  local known = column and cell.units[column.kind]
  local found = known and known[unit_key(unit)]
  if found or bracketed and not known then return column, found end
  if bracketed then
    return column, nil, ("the unit (%s) does not go with this column, which takes %s")
      :format(shown(unit), unit_names(column.kind))
  end
end

local Sheet = {}
Sheet.__index = Sheet

-- Adds a problem at a row and, where given, a column.
-- @param where record, or {row =, line =}; @param column number or name of a column
function Sheet:fault(where, column, message, found)
  local index = type(column) == "number" and column or self.at[column]
  local heading = index and self.headings[index]
  where = where or {}
  self.found:add {file = self.name, sheet = self.of_workbook, row = where.row,
    line = where.line, column = index, heading = heading and shown(heading) or nil,
      found = found,
    field = type(column) == "string" and column or nil, message = message}
end

local function read_heading(self, i, text, lookup, names)
  local head = {row = self.header.row, line = self.header.line}
  local column, unit, fault = match(text, lookup)
  if fault then self:fault(head, i, fault, text) end
  if column and self.at[column.name] then
    self:fault(head, i, ("this is '%s' again, which is column %s"):format(column.name,
      csv.letter(self.at[column.name])), text)
  elseif column then
    self.at[column.name], self.by_index[i] = i, column
    self.unit[column.name] = unit
  else
    local base = text:match "^(.-)%s*[%(%[].-[%)%]]%s*$" or text
    self.unknown[#self.unknown + 1] = {index = i, text = text,
      near = words.nearest(base, names)}
  end
end

-- A heading that is a slip of one that is missing is a fault; any other extra column is
-- left aside and said so.
local function settle_unknown(self, lookup)
  for _, u in ipairs(self.unknown) do
    local column = u.near and lookup[words.key(u.near)]
    if column and not self.at[column.name] then
      self:fault(self.header, u.index, ("not a known heading; '%s' is meant?")
        :format(u.near), u.text)
    elseif u.text:find "%S" then
      self.notes[#self.notes + 1] = ("%s: column %s (%s) is not read"):format(self.title,
        csv.letter(u.index), shown(u.text))
    else
      self.nameless[u.index] = true
    end
  end
end

local function check_needed(self, columns)
  if next(self.by_index) == nil then
    local some = {}
    for i = 1, math.min(6, #columns) do some[i] = columns[i].name end
    self:fault(self.header, nil, ("no heading is known in this row: the first rows must "
      .. "hold headings such as %s"):format(table.concat(some, ", ")))
    return
  end
  for _, column in ipairs(columns) do
    if column.needed and not self.at[column.name] then
      self:fault(self.header, nil, ("the column '%s' is missing"):format(column.name))
    end
  end
end

-------------------------------------------------------------------------------- rows

local BLANK = {["-"] = true, ["--"] = true, ["\u{2013}"] = true, ["\u{2014}"] = true,
  ["n/a"] = true, ["N/A"] = true}

local function is_blank(text)
  local trimmed = cell.trim(text)
  return trimmed == "" or BLANK[trimmed] ~= nil
end

local function read_cell(self, record, i, text, row)
  local column = self.by_index[i]
  if is_blank(text) then return end
  local wrong = row.wrong and row.wrong[i]
  if not column then
    if not self.headings[i] or self.nameless[i] then
      self:fault(record, i, "a cell without a heading", text)
    end
    return
  end
  local value, problem = nil, wrong
  if not wrong then
    value, problem = cell.read(text, self:context(column, row.typed and row.typed[i]))
  end
  record.cells[column.name] = cell.trim(text)
  if value == nil then
    record.faulty[column.name] = true
    self:fault(record, i, problem, text)
  else
    record.values[column.name] = value
  end
end

-- What the reader of a cell has to know of its column. A number typed into a workbook has
-- a point, whatever sign of decimals was declared.
function Sheet:context(column, typed)
  return {column = column, unit = self.unit[column.name], default = self.options.units,
    decimal = not typed and self.options.decimal or nil}
end

local Record = {}
Record.__index = Record

-- The remark of a row with what stands in columns of its own, as one text; or nil.
function Record:note()
  local values, said = self.values, {}
  said[#said + 1] = values.note
  if values.sag ~= nil then said[#said + 1] = "sag " .. values.sag end
  if values.photo ~= nil then said[#said + 1] = "photo " .. values.photo end
  return #said > 0 and table.concat(said, "; ") or nil
end

-- What stays with the part that a row becomes.
function Record:kept()
  return {row = self.row, note = self.values.note, photo = self.values.photo,
    sag = self.values.sag, measured_from = self.cells["measured from"]}
end

local function read_record(self, row, columns)
  local record = setmetatable({row = row.row, line = row.line, sheet = self, values = {},
    cells = {}, faulty = {}}, Record)
  for i, text in ipairs(row) do read_cell(self, record, i, text, row) end
  for _, column in ipairs(columns) do
    if column.needed and self.at[column.name] and not record.cells[column.name] then
      record.faulty[column.name] = true
      self:fault(record, column.name, "missing")
    end
  end
  return record
end

-- Text of a source: a path, text with a line break in it, or {text =, name =}.
-- @return text, name to show; or nil, name, message
function sheet.open(source, name)
  if type(source) == "table" then return source.text, source.name or name end
  if source:find "[\r\n]" then return source, name end
  local base = source:match "([^/]+)/*$" or source
  local text, why = file.read(source)
  if text and text:sub(1, 4) == "PK\3\4" then
    return nil, base, "a workbook: it is read whole, as 'workbook', not as one sheet"
  end
  if text then return text, base end
  return nil, base, (why:gsub("^.*: cannot be read: ", "cannot be read: "))
end

-- Rows of the file, or nil and its faults among those found. The rows of a workbook's
-- sheet are there already.
local function rows_of(self, source)
  if type(source) == "table" and source.rows then
    self.name, self.of_workbook = source.name, source.sheet
    self.title = sheet.title(self.name, self.of_workbook)
    for _, said in ipairs(source.notes) do
      self.notes[#self.notes + 1] = ("%s: %s"):format(self.title, said)
    end
    return source.rows
  end
  local text, name, problem = sheet.open(source, self.kind)
  self.name = shown(name)
  self.title = self.name
  if not text then
    self.found:add {file = self.name, message = problem, unreadable = true}
    return nil
  end
  local rows, faults = csv.read(text, self.options)
  for _, fault in ipairs(rows and {} or faults) do
    self.found:add {file = self.name, row = fault.row, line = fault.line,
      column = fault.column, message = fault.message}
  end
  return rows
end

-- Headings stand in one of the first rows; titles may stand above them.
local ABOVE, ENOUGH = 6, 2

-- Number of the first row with known headings; the first row where there is none.
local function header_row(rows, lookup, source)
  for i = 1, math.min(ABOVE, #rows) do
    local known = 0
    for _, text in ipairs(merged.heading(source, rows[i])) do
      known = known + (match(text, lookup) and 1 or 0)
    end
    if known >= ENOUGH then return i end
  end
  return 1
end

local function settle_merged(self, source)
  for _, said in ipairs(merged.fill(source, self.header)) do
    self.notes[#self.notes + 1] = ("%s: %s"):format(self.title, said)
  end
  merged.across(source, self.header, function(i) return self.by_index[i] end,
    function(row, i, message) self:fault(row, i, message, row[i]) end)
end

--- Reads one file of a survey.
-- @param kind "joists", "cuts" ...; @param columns its list of columns.lua
-- @param options {units =, decimal =, separator =, encoding =}
-- @return sheet {name =, rows = {record...}, notes =, sound = false where the file as a
--   whole could not be read}; a record has values, cells and faulty by column's name
function sheet.read(source, kind, columns, options, found)
  local self = setmetatable({kind = kind, rows = {}, notes = {}, at = {}, by_index = {},
    unit = {}, unknown = {}, nameless = {}, headings = {}, options = options,
    found = found, sound = false}, Sheet)
  local rows = rows_of(self, source)
  local of_workbook = self.of_workbook and source or {rows = rows}
  local lookup, names = lookup_of(columns)
  local top = rows and header_row(rows, lookup, of_workbook)
  self.header = rows and rows[top] and merged.heading(of_workbook, rows[top])
  if rows and not self.header then
    found:add {file = self.name, sheet = self.of_workbook,
      message = "the file is empty: a row of headings expected"}
  end
  if not self.header then return self end
  self.sound = true
  table.move(self.header, 1, #self.header, 1, self.headings)
  if top > 1 then
    self.notes[#self.notes + 1] = ("%s: what stands above row %d is not read"):format(
      self.title, self.header.row)
  end
  for i, heading in ipairs(self.headings) do
    read_heading(self, i, heading, lookup, names)
  end
  settle_unknown(self, lookup)
  check_needed(self, columns)
  settle_merged(self, of_workbook)
  for i = top + 1, #rows do
    self.rows[#self.rows + 1] = read_record(self, rows[i], columns)
  end
  return self
end

return sheet
