-- SPDX-License-Identifier: MIT
-- A workbook to be written: sheets of texts, numbers and formulas, named cells, lists to
-- choose from, and how it prints. Writers for .xlsx and .ods take it; the same workbook
-- is always the same bytes.
local escape = require "netsection.document.escape"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local book = {}

local Book, Sheet = {}, {}
Book.__index, Sheet.__index = Book, Sheet

-- Cut to so many bytes, between characters.
local function cut(s, n)
  if #s <= n then return s end
  while n > 0 and not utf8.len(s:sub(1, n)) do n = n - 1 end
  return s:sub(1, n)
end

-- Longest title at the head of a page, title and text of a hint that both formats take.
local HEAD, HINT, PROMPT = 100, 30, 250

--- A new workbook. @param t {title =, paper = "letter" (default) | "a4"}
function book.new(t)
  return setmetatable({title = cut(escape.text(t.title or ""), HEAD),
    paper = t.paper or "letter", sheets = {}, names = {}, by_name = {}, styles = {},
    by_style = {}, taken = {}}, Book)
end

-- Names of sheets have up to 31 characters and none of []:*?/\ ; no two are alike but for
-- case. "History" is kept by one of the programs for itself.
local function sheet_name(self, wanted)
  local base = escape.text(wanted):gsub("[%[%]:*?/\\]", " "):gsub("^[%s']+", "")
    :gsub("[%s']+$", "")
  if base == "" or base:lower() == "history" then base = "Sheet " .. base end
  local name, n = cut(base, 31), 1
  while self.taken[name:lower()] do
    n = n + 1
    name = cut(base, 31 - #(" " .. n)) .. " " .. n
  end
  self.taken[name:lower()] = true
  return name
end

--- Adds a sheet.
-- @param t {name =, columns = widths in characters, landscape =, frozen = rows that stay
--   in sight, repeated = {first, last row printed on each page}, note = of the page's
--   head}
function Book:sheet(t)
  local s = setmetatable({book = self, name = sheet_name(self, t.name),
    columns = t.columns or {}, landscape = t.landscape, frozen = t.frozen,
    repeated = t.repeated, rows = {}, last_row = 0, last_column = 0, merges = {},
    choices = {}}, Sheet)
  self.sheets[#self.sheets + 1] = s
  return s
end

-- What a style is made of; equal ones are one.
local FIELDS = {"bold", "italic", "size", "fill", "border", "align", "wrap", "text",
  "format"}

--- Number of a style, from 1. @param t {bold =, italic =, size =, fill = "head" | "input"
--   | "pale", border = "all" | "under", align = "left" | "center" | "right", wrap =,
--   text = true: what is typed there stays text, format = of format.lua}
function Book:style(t)
  local key = {}
  for i, name in ipairs(FIELDS) do
    local v = t[name]
    key[i] = type(v) == "table" and v.key or tostring(v)
  end
  local text = table.concat(key, "|")
  if not self.by_style[text] then
    self.styles[#self.styles + 1] = t
    self.by_style[text] = #self.styles
  end
  return self.by_style[text]
end

local function at(self, row, column)
  self.rows[row] = self.rows[row] or {}
  self.last_row = math.max(self.last_row, row)
  self.last_column = math.max(self.last_column, column)
  return self.rows[row]
end

local function check_number(v)
  if type(v) == "number" and (v ~= v or v == math.huge or v == -math.huge) then
    error("workbook: a finite number expected", 3)
  end
end

--- Puts a text or a number; "" or nil for a cell that only has a style.
function Sheet:put(row, column, value, style)
  check_number(value)
  at(self, row, column)[column] = {value = value, style = style
    and self.book:style(style)}
end

--- Puts a formula over named cells, arguments parted by commas, with its value.
-- @param of {sheet =, row =, column =}: the one cell that "\1" in the formula stands for
function Sheet:formula(row, column, formula, value, style, of)
  check_number(value)
  at(self, row, column)[column] = {formula = formula, value = value, of = of,
    style = style and self.book:style(style)}
end

--- One cell out of several; what the others hold is nothing.
function Sheet:merge(top, left, bottom, right)
  self.merges[#self.merges + 1] = {top = top, left = left, bottom = bottom, right = right}
end

-- Lines that a text takes in a column of so many characters; bold ones are wider.
local function lines_of(text, width)
  local lines = 0
  for line in (text .. "\n"):gmatch "([^\n]*)\n" do
    local used, n = 0, 1
    for word in line:gmatch "%S+" do
      local long = utf8.len(word) or #word
      if used > 0 and used + 1 + long > width then
        n, used = n + 1, long
      else
        used = used + (used > 0 and 1 or 0) + long
      end
      while used > width do n, used = n + 1, used - width end
    end
    lines = lines + n
  end
  return lines
end

local function width_at(self, row, column)
  local last = column
  for _, m in ipairs(self.merges) do
    if m.top == row and m.left == column then last = m.right end
  end
  local width = 0
  for i = column, last do width = width + (self.columns[i] or 10) end
  return width
end

local function height_of(self, row)
  local most = 1
  for column, c in pairs(self.rows[row]) do
    local style = self.book.styles[c.style] or {}
    if type(c.value) == "string" and (style.wrap or c.value:find "\n") then
      local width = width_at(self, row, column) * 10 / (style.size or 10)
      most = math.max(most, lines_of(c.value, math.max(1, math.floor(
        style.bold and width * 0.9 or width))) * (style.size or 10) / 10)
    end
    most = math.max(most, (style.size or 10) / 10)
  end
  return most
end

--- Heights of the rows that are not of one line, by row, in lines.
function Sheet:heights()
  local out = {}
  for row in pairs(self.rows) do
    local height = height_of(self, row)
    if height > 1 then out[row] = height end
  end
  return out
end

--- A list to choose from in a range of cells; other entries are allowed where 'open'.
-- @param t {top =, left =, bottom =, right =, list = texts, title =, prompt =, open =}
function Sheet:choose(t)
  t.title, t.prompt = cut(t.title or "", HINT), cut(t.prompt or "", PROMPT)
  self.choices[#self.choices + 1] = t
end

--- Names a cell. Names are letters, digits and underscores, no two alike but for case.
function Book:name(name, sheet, row, column)
  if not name:find "^[%a_][%w_]*$" or name:find "^%a%a?%a?%d+$" or name:find "^[rRcC]%d*$"
    or self.by_name[name:lower()] then
    error("workbook: not usable as a cell's name, or taken: " .. name, 2)
  end
  self.by_name[name:lower()] = true
  self.names[#self.names + 1] = {name = name, sheet = sheet, row = row, column = column}
end

return book
