-- SPDX-License-Identifier: MIT
-- The table of a document: cells as the caller gave them made alike, notes numbered, and
-- what the writers ask of a table.
local escape = require "netsection.document.escape"
local ordered = require "netsection.point".pairs
local text = require "netsection.text"
local tostring = require "netsection.point".text

local tables = {fields = {"caption", "columns", "rows", "row_heads", "notes",
  "to_fill"}}

local ALIGN = {left = true, right = true, center = true}

local function text_or_nil(v)
  return v == nil or type(v) == "string"
end

local function read_column(column, i)
  if type(column) == "string" then column = {head = column} end
  if type(column) ~= "table" then
    return nil, ("column %d: {head=, align=, group=} expected"):format(i)
  end
  if not text_or_nil(column.head) or not text_or_nil(column.group) then
    return nil, ("column %d: head and group are texts"):format(i)
  end
  local align = column.align or "left"
  if not ALIGN[align] then
    return nil, ('column %d: align is "left", "right" or "center"'):format(i)
  end
  return {head = column.head or "", align = align, group = column.group}
end

-- Number of the note with that text, which is added where it is new.
local function note_number(notes, said)
  for i, note in ipairs(notes) do
    if note == said then return i end
  end
  notes[#notes + 1] = said
  return #notes
end

local function shown(v)
  if type(v) == "string" then return v end
  if type(v) == "number" and v == v and v ~= math.huge and v ~= -math.huge then
    return text.short(v)
  end
end

local function read_cell(cell, notes)
  if cell == nil or cell == false then return {text = ""} end
  if type(cell) ~= "table" then cell = {text = cell} end
  local said, note = shown(cell.text), cell.note
  if not said then
    return nil, "text, a finite number, or {text=, strong=, note=} expected"
  end
  if type(note) == "string" then note = note_number(notes, note) end
  if note ~= nil and not notes[note] then
    return nil, "note: a text or the number of a note of the table expected"
  end
  if not text_or_nil(cell.data) then return nil, "data: text expected" end
  if cell.to ~= nil and not (type(cell.to) == "string" and cell.to:find "^[%w_-]+$") then
    return nil, "to: the id of a heading expected"
  end
  return {text = said, strong = cell.strong == true, note = note, data = cell.data,
    to = cell.to}
end

local function read_row(row, i, columns, notes)
  if type(row) ~= "table" then
    return nil, ("row %d: a list of cells expected"):format(i)
  end
  for key in ordered(row) do
    if math.type(key) ~= "integer" or key < 1 or key > columns then
      return nil, ("row %d: cells 1 to %d expected, got one at %s"):format(i, columns,
        tostring(key))
    end
  end
  local cells = {}
  for c = 1, columns do
    local cell, problem = read_cell(row[c], notes)
    if not cell then return nil, ("row %d, cell %d: %s"):format(i, c, problem) end
    cells[c] = cell
  end
  return cells
end

local function read_all(list, what, read, ...)
  if type(list) ~= "table" then return nil, what .. ": a list expected" end
  local all = {}
  for i = 1, #list do
    local one, problem = read(list[i], i, ...)
    if not one then return nil, problem end
    all[i] = one
  end
  return all
end

local function read_note(note, i)
  return type(note) == "string" and note or nil, ("note %d: text expected"):format(i)
end

--- The block of a table; or nil and what is wrong.
function tables.read(t)
  local columns, notes, rows, problem
  columns, problem = read_all(t.columns, "columns", read_column)
  if not columns then return nil, problem end
  if #columns == 0 then return nil, "columns: one at least expected" end
  notes, problem = read_all(t.notes or {}, "notes", read_note)
  if not notes then return nil, problem end
  rows, problem = read_all(t.rows, "rows", read_row, #columns, notes)
  if not rows then return nil, problem end
  local heads = t.row_heads or 0
  if math.type(heads) ~= "integer" or heads < 0 or heads > #columns then
    return nil, ("row_heads: 0 to %d expected"):format(#columns)
  end
  if not text_or_nil(t.caption) then return nil, "caption: text expected" end
  return {kind = "table", caption = t.caption, columns = columns, rows = rows,
    row_heads = heads, notes = notes, to_fill = t.to_fill == true or nil}
end

--- Runs of columns under one group: {text or nil, first, last}; nil where no column has
-- a group.
function tables.groups(block)
  local runs, any = {}, false
  for i, column in ipairs(block.columns) do
    local run = runs[#runs]
    if run and column.group and run.text == column.group then
      run.last = i
    else
      runs[#runs + 1] = {text = column.group, first = i, last = i}
    end
    any = any or column.group ~= nil
  end
  return any and runs or nil
end

--- A cell's words with the mark of its note.
function tables.words(cell)
  return cell.text .. (cell.note and (" (%d)"):format(cell.note) or "")
end

function tables.length(s)
  return utf8.len(s) or #s
end

--- Widest cell of each column, in characters as they are shown.
function tables.widths(block)
  local widths = {}
  for c, column in ipairs(block.columns) do
    widths[c] = tables.length(escape.text(column.head))
    for _, row in ipairs(block.rows) do
      widths[c] = math.max(widths[c], tables.length(escape.text(tables.words(row[c]))))
    end
  end
  return widths
end

return tables
