-- SPDX-License-Identifier: MIT
-- A table laid out: as a document, one table per block with the notes below, and as CSV,
-- a line per cell for reading back or rows and columns as printed.
local axes = require "netsection.table.axes"
local cautions = require "netsection.cautions"
local cells = require "netsection.table.cells"
local document = require "netsection.document"
local notes = require "netsection.table.notes"

local layout = {}

local csv = document.escape.csv

---------------------------------------------------------------------------
-- Document
---------------------------------------------------------------------------

-- Columns of the values: a group is what a column has in common with its neighbors.
local function value_columns(t, list)
  local axis, twin = t.columns, t.measure.metric
  for c = 1, #axis.values do
    local texts = axis.texts[c]
    if twin then
      local group = table.concat(texts, ", ")
      list[#list + 1] = {head = t.measure.unit, align = "right", group = group}
      list[#list + 1] = {head = twin.unit, align = "right", group = group}
    else
      local group = #texts > 1 and table.concat(texts, ", ", 1, #texts - 1) or axis.head
      list[#list + 1] = {head = texts[#texts], align = "right", group = group}
    end
  end
end

local function all_columns(t)
  local list = {}
  for k, head in ipairs(t.rows.heads) do list[k] = {head = head} end
  value_columns(t, list)
  return list
end

local function shown(cell)
  local said = cell.text .. (cell.exact and cell.letter and " " .. cell.letter or "")
  local note = cell.reason or cell.note
  return note and {text = said, note = note} or said
end

local function body_row(t, row, r)
  local list = {table.unpack(t.rows.texts[r])}
  for _, cell in ipairs(row) do
    list[#list + 1] = shown(cell)
    if t.measure.metric then list[#list + 1] = cell.metric_text or cell.text end
  end
  return list
end

-- What the title and the heads of the columns leave out.
local function caption(t, b)
  local by = ("by %s (rows) and %s (columns)"):format(axes.heading(t.rows),
    axes.heading(t.columns))
  local said = t.blocks and axes.said(t.blocks, b) .. ", " .. by or by
  return (said:gsub("^%l", string.upper))
end

local function add_table(d, t, b)
  local rows = {}
  for r, row in ipairs(t.cells[b]) do rows[r] = body_row(t, row, r) end
  d:table {caption = caption(t, b), columns = all_columns(t), rows = rows,
    row_heads = #t.rows.names}
end

--- The table as a document.
function layout.document(t, broken)
  local d = document.new {title = t.title, lang = t.lang}
  if t.given.revision then d:paragraph("Issue " .. t.given.revision) end
  for b = 1, #t.cells do add_table(d, t, b) end
  if #broken > 0 then
    local said = {}
    for i, found in ipairs(broken) do said[i] = found.text end
    d:note(("The values are out of order at %d places: %s."):format(#broken,
      table.concat(said, "; ")), "caution")
  end
  d:heading(1, "Notes"):list(notes.foot(t), {ordered = true})
  local assumptions = notes.assumptions(t)
  if #assumptions > 0 then
    d:heading(1, "Assumptions"):list(assumptions, {ordered = true})
  end
  return d:heading(1, "Cautions"):list(cautions.always, {ordered = true})
end

---------------------------------------------------------------------------
-- CSV
---------------------------------------------------------------------------

local function line(fields)
  local list = {}
  for i, field in ipairs(fields) do list[i] = csv(field) end
  return table.concat(list, ",") .. "\r\n"
end

local function each_axis(t, f)
  if t.blocks then f(t.blocks, "b") end
  f(t.rows, "r")
  f(t.columns, "c")
end

--- Names of the fields of a line per cell: keys first, after the unit.
function layout.fields(t)
  local list = {"unit"}
  each_axis(t, function(axis)
    for _, name in ipairs(axis.names) do list[#list + 1] = name end
  end)
  local keys = #list
  for _, name in ipairs {"value", "shown", "letter", "reason", "revision"} do
    list[#list + 1] = name
  end
  if t.measure.metric then list[#list + 1] = t.measure.metric.unit end
  list[#list + 1] = "version"
  return list, keys
end

local function cell_line(t, at, cell)
  local list = {t.measure.unit}
  each_axis(t, function(axis, which)
    for _, key in ipairs(axes.keys(axis, at[which])) do list[#list + 1] = key end
  end)
  local more = {cell.value or "", cell.csv, cell.letter or "",
    cell.reason or cell.note or "", t.given.revision or ""}
  table.move(more, 1, #more, #list + 1, list)
  if t.measure.metric then list[#list + 1] = cell.metric or "" end
  list[#list + 1] = notes.version(t)
  return line(list)
end

--- A line per cell.
function layout.cells(t)
  local out = {line((layout.fields(t)))}
  cells.each(t, function(b, r, c, cell)
    if not cell.outside then
      out[#out + 1] = cell_line(t, {b = b, r = r, c = c}, cell)
    end
  end)
  return table.concat(out)
end

local function sheet_cell(cell)
  return cell.csv .. (cell.exact and cell.letter and " " .. cell.letter or "")
    .. (cell.reason and ": " .. cell.reason or "")
end

-- A number where nothing stands beside it, so that a spreadsheet can work with it.
local function sheet_value(t, cell)
  local bare = cell.exact and not cell.letter and t.measure.show == t.measure.show_csv
  return bare and cell.value or sheet_cell(cell)
end

local function sheet_block(t, b, out)
  if t.blocks then out[#out + 1] = line {axes.said(t.blocks, b)} end
  local heads = {table.unpack(t.rows.heads)}
  for c = 1, #t.columns.values do
    heads[#heads + 1] = axes.label(t.columns, c)
    if t.measure.metric then
      heads[#heads + 1] = axes.label(t.columns, c) .. ", " .. t.measure.metric.unit
    end
  end
  out[#out + 1] = line(heads)
  for r, row in ipairs(t.cells[b]) do
    local list = axes.keys(t.rows, r)
    for _, cell in ipairs(row) do
      list[#list + 1] = sheet_value(t, cell)
      if t.measure.metric then list[#list + 1] = cell.metric or cell.csv end
    end
    out[#out + 1] = line(list)
  end
end

-- Beside the columns of the values, where long texts widen no column of them.
local function sheet_notes(t, out)
  local columns = #t.rows.names + #t.columns.values * (t.measure.metric and 2 or 1)
  local before = (","):rep(columns + 1)
  for _, list in ipairs {notes.foot(t), notes.assumptions(t), cautions.always} do
    for _, said in ipairs(list) do out[#out + 1] = before .. line {said} end
  end
end

--- Rows and columns as printed, with the notes below to the right.
function layout.sheet(t)
  local out = {line {t.title}}
  if t.given.revision then out[2] = line {"Issue " .. t.given.revision} end
  for b = 1, #t.cells do sheet_block(t, b, out) end
  sheet_notes(t, out)
  return table.concat(out)
end

return layout
