-- SPDX-License-Identifier: MIT
-- Sheets of an OpenDocument spreadsheet (ISO/IEC 26300, part 1), as texts: typed values
-- of cells, else their paragraphs; formulas by the value that was stored with them. Rows
-- and cells that repeat are gone through only where they hold something.
local grid = require "netsection.workbook.grid"
local refuse = require "netsection.workbook.refuse"
local xml = require "netsection.workbook.xml"

local read_ods = {}

local NS = "urn:oasis:names:tc:opendocument:xmlns:"
local PREFIXES = {[NS .. "office:1.0"] = "office:", [NS .. "table:1.0"] = "table:",
  [NS .. "text:1.0"] = "text:", [NS .. "style:1.0"] = "style:"}

-- Names of attributes with their namespace, by the name with _ for -.
local function names(prefix, list)
  local out = {}
  for name in list:gmatch "%S+" do
    out[name:gsub("%-", "_")] = NS .. prefix .. ":1.0|" .. name
  end
  return out
end

-- Names of attributes as expat gives them.
local T = names("table", "name style-name number-rows-repeated number-columns-repeated "
  .. "number-columns-spanned number-rows-spanned visibility formula display")
local O = names("office", "value-type value date-value time-value boolean-value "
  .. "string-value")
local STYLE = names("style", "name")
local TEXT = names("text", "c")
local CALCEXT = "urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0|"
  .. "value-type"

local NO_VALUE = "the formula has no stored value: open the workbook in a spreadsheet, "
  .. "save it, and read it again"

-- More repeats than the largest sheet has rows are none.
local function count(text)
  return math.max(1, math.min(math.tointeger(tonumber(text or 1)) or 1, 1 << 20))
end

-- What a cell shows where its formula failed, or nil.
local function error_text(c)
  local text = table.concat(c.text)
  if c.attributes[CALCEXT] == "error" or c.attributes[T.formula]
    and (text:find "^#[%u/0-9]+[!?]?$" or text:find "^Err:%d+$" or text == "#N/A") then
    return text
  end
end

-- A number, percentage, date or time of a cell as the text of a field book.
local function number_text(c, kind)
  local raw = c.attributes[O.value] or ""
  local x = tonumber(raw)
  local text = x and grid.number(x)
  if not text then return "(?)", {wrong = ("no number: %s"):format(raw)} end
  if kind == "percentage" then return grid.number(x * 100) .. "%" end
  return text, {typed = true}
end

-- Text of a cell and what is known of it, or nil for a blank one.
local function cell_text(c)
  local a = c.attributes
  local kind, wrong = a[O.value_type], error_text(c)
  if wrong then
    return ("(%s)"):format(wrong), {wrong = ("%s, an error of the spreadsheet"):format(
      wrong)}
  elseif kind == "float" or kind == "currency" or kind == "percentage" then
    return number_text(c, kind)
  elseif kind == "date" then
    return ((a[O.date_value] or ""):gsub("T00:00:00$", ""):gsub("T", " "))
  elseif kind == "boolean" then
    return a[O.boolean_value] == "true" and "yes" or "no"
  elseif kind == nil and a[T.formula] and #c.text == 0 then
    return "(formula)", {wrong = NO_VALUE}
  end
  local text = a[O.string_value] or table.concat(c.text)
  return text ~= "" and text or nil
end

------------------------------------------------------------------------------ reading

local LONGEST = 40000

local Reader = {}
Reader.__index = Reader

-- Text of a cell, which has an end.
local function add(self, piece)
  local c = self.cell
  c.size = c.size + #piece
  if c.size > LONGEST then
    refuse.with("sheet %s: a cell is too long", self.grid and self.grid.name or "")
  end
  c.text[#c.text + 1] = piece
end

-- Puts a cell where it stands, repeated ones too, and notes what was odd about it.
local function end_cell(self)
  local c = self.cell
  self.cell = nil
  local repeated = count(c.attributes[T.number_columns_repeated])
  local first = self.column + 1
  self.column = self.column + repeated
  local g = self.grid
  if not g or c.covered then return end
  local text, about = cell_text(c)
  if text then
    if c.attributes[T.formula] then g.formulas = g.formulas + repeated * self.repeated end
    self.held[#self.held + 1] = {first = first, n = repeated, text = text, about = about}
  end
  local across = count(c.attributes[T.number_columns_spanned])
  local down = count(c.attributes[T.number_rows_spanned])
  if text and (across > 1 or down > 1) then
    g:merge(self.row, first, self.row + down - 1, first + across - 1)
  end
end

-- A repeated row that holds something is put once for each.
local function end_row(self)
  local g = self.grid
  for _, held in ipairs(self.held) do
    for row = self.row, self.row + self.repeated - 1 do
      for i = held.first, held.first + held.n - 1 do g:put(row, i, held.text,
        held.about) end
    end
  end
  if g and self.collapsed and #self.held > 0 then
    for row = self.row, self.row + self.repeated - 1 do g.hidden_rows[row] = true end
  end
  self.row = self.row + self.repeated - 1
end

local start = {}

start["style:style"] = function(self, a)
  self.style = a[STYLE.name]
end

start["style:table-properties"] = function(self, a)
  if a[T.display] == "false" and self.style then self.not_shown[self.style] = true end
end

start["table:table"] = function(self, a)
  local name = a[T.name] or ""
  local sheet = {name = name, hidden = self.not_shown[a[T.style_name]] or false}
  self.sheets[#self.sheets + 1] = sheet
  self.sheet, self.row, self.columns = sheet, 0, 0
  self.grid = self.want(name) and grid.new(name, sheet.hidden) or nil
end

start["table:table-source"] = function(self)
  self.links = true
end

start["table:table-column"] = function(self, a)
  local n = count(a[T.number_columns_repeated])
  if self.grid and (a[T.visibility] or "visible") ~= "visible" then
    for i = self.columns + 1, math.min(self.columns + n, 256) do
      self.grid.hidden_columns[i] = true
    end
  end
  self.columns = self.columns + n
end

start["table:table-row"] = function(self, a)
  self.row, self.column, self.held = self.row + 1, 0, {}
  self.repeated = count(a[T.number_rows_repeated])
  self.collapsed = (a[T.visibility] or "visible") ~= "visible"
end

-- A cell begins; a covered one lies under a merged cell and is empty.
local function start_cell(self, a, covered)
  self.cell = {attributes = a, text = {}, size = 0, paragraphs = 0, covered = covered}
end

start["table:table-cell"] = function(self, a) start_cell(self, a, false) end
start["table:covered-table-cell"] = function(self, a) start_cell(self, a, true) end

-- What stands in a cell beside its paragraphs (remarks, drawings) is passed over.
local inside = {}

inside["text:p"] = function(self)
  local c = self.cell
  c.paragraphs = c.paragraphs + 1
  if c.paragraphs > 1 then add(self, "\n") end
  self.paragraph, self.at_start = true, true
end

inside["text:s"] = function(self, a)
  add(self, (" "):rep(math.min(count(a[TEXT.c]), 1000)))
end
inside["text:tab"] = function(self) add(self, "\t") end
inside["text:line-break"] = function(self) add(self, "\n") end
inside["text:span"] = function() end
inside["text:a"] = function(self)
  if self.grid then self.grid.links = self.grid.links + 1 end
end

local SKIPPED = {["table:tracked-changes"] = true, ["table:shapes"] = true,
  ["office:forms"] = true, ["table:named-expressions"] = true}

-- Blanks in a row count as one, at the beginning of a paragraph as none (6.1.2).
local function collapsed(self, piece)
  piece = piece:gsub("[ \t\r\n]+", " ")
  if self.at_start then piece = piece:gsub("^ ", "") end
  if piece ~= "" then self.at_start = piece:find " $" ~= nil end
  return piece
end

-- Handlers of the parser: what is skipped stays skipped to its end.
local function handlers(self)
  local on = {}
  --- An element begins.
  function on.start(name, a)
    if self.skip > 0 then
      self.skip = self.skip + 1
    elseif self.cell then
      if inside[name] then
        if name ~= "text:p" then self.at_start = false end
        inside[name](self, a)
      else
        self.skip = 1
      end
    elseif SKIPPED[name] then
      self.skip = 1
    elseif start[name] then
      start[name](self, a)
    end
  end
  --- An element ends.
  function on.stop(name)
    if self.skip > 0 then
      self.skip = self.skip - 1
    elseif name == "text:p" then
      self.paragraph = false
    elseif name == "table:table-cell" or name == "table:covered-table-cell" then
      end_cell(self)
    elseif name == "table:table-row" then
      end_row(self)
    elseif name == "table:table" then
      if self.grid then self.sheet.source = self.grid:source() end
      self.grid = nil
    elseif name == "style:style" then
      self.style = nil
    end
  end
  --- Text of a paragraph, blanks as the format reads them.
  function on.text(piece)
    if self.skip == 0 and self.paragraph and self.cell then
      add(self, collapsed(self, piece))
    end
  end
  return on
end

-- Notes on what a workbook has that is not read: macros, links.
local function said_of(archive, reader)
  local notes = {}
  if archive:has "Basic/" or archive:has "Scripts/" then
    notes[#notes + 1] = "macros in it are neither run nor read"
  end
  if reader.links then notes[#notes + 1] = "links to other files are not followed" end
  return notes
end

--- Reads sheets.
-- @param want function(name) -> whether a sheet of that name is read
-- @return list of {name =, hidden =, source = rows where it is read}, list of notes
function read_ods.read(lxp, archive, want)
  if archive:part "META-INF/manifest.xml":find("encryption-data", 1, true) then
    refuse.with "the workbook is protected by a password"
  end
  local reader = setmetatable({want = want, sheets = {}, not_shown = {}, skip = 0,
    held = {}, row = 0, column = 0, repeated = 1, links = false}, Reader)
  if not xml.parse(lxp, archive, "content.xml", PREFIXES, handlers(reader)) then
    refuse.with "it has no content inside"
  end
  return reader.sheets, said_of(archive, reader)
end

return read_ods
