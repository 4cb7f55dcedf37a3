-- SPDX-License-Identifier: MIT
-- Rows of CSV text as spreadsheets write it (RFC 4180), and such text from rows. The
-- reader takes what spreadsheets of several countries leave behind - byte-order mark,
-- any line end, commas, semicolons or tabs - and finds all faults before it gives up,
-- each with its row and column, since the person who filled the sheet in sees those.
local escape = require "netsection.document.escape"
local lpeg = require "lpeg"
local error = require "netsection.raise".error

local C, Cc, Cp, Cs, P, S = lpeg.C, lpeg.Cc, lpeg.Cp, lpeg.Cs, lpeg.P, lpeg.S

local csv = {}

-------------------------------------------------------------------------------- reading

local BOM = "\xEF\xBB\xBF"
local line_end = P"\r\n" + "\n" + "\r"

-- Pattern of one field: its text, what is wrong with it or false, and where it ends.
local function field_pattern(separator)
  local stop = separator + line_end
  local rest = (1 - stop)^0
  local gap = (S" \t" - P(separator))^0
  local quoted = '"' * Cs((P'""' / '"' + (1 - P'"'))^0)
  local closed = gap * quoted * '"' * gap
  return closed * #(stop + -1) * Cc(false) * Cp()
    + closed * rest * Cc "text after a closing quote" * Cp()
    + gap * quoted * -1 * Cc "a quote is not closed" * Cp()
    + C(rest) * Cc(false) * Cp()
end

local SEPARATORS = {",", ";", "\t"}
local NAMES = {[","] = "comma", [";"] = "semicolon", ["\t"] = "tab"}
local patterns = {}
for _, separator in ipairs(SEPARATORS) do
  patterns[separator] = field_pattern(separator)
end

-- Names of the separators by sign.
csv.separators = NAMES

-- The letters a spreadsheet heads its nth column with: 1 is A, 27 is AA.
function csv.letter(n)
  local letters = ""
  while n > 0 do
    letters = string.char(65 + (n - 1) % 26) .. letters
    n = (n - 1) // 26
  end
  return letters
end

-- One record from pos: cells {text...}, line breaks in it, where the next one starts.
-- Faults are reported by fault(column, message).
local function read_record(text, pos, separator, fault)
  local pattern, cells = patterns[separator], {}
  while true do
    local cell, wrong, after = pattern:match(text, pos)
    cells[#cells + 1] = cell
    if wrong then fault(#cells, wrong) end
    if text:sub(after, after) ~= separator then
      return cells, line_end:match(text, after) or after
    end
    pos = after + 1
  end
end

local next_line = (1 - line_end)^0 * line_end * Cp()

-- Line ends in text from pos up to stop.
local function lines_in(text, pos, stop)
  local count, after = 0, next_line:match(text, pos)
  while after and after <= stop do
    count, after = count + 1, next_line:match(text, after)
  end
  return count
end

local function is_blank(cells)
  for _, cell in ipairs(cells) do
    if cell:find "%S" then return false end
  end
  return true
end

local function is_comment(cells)
  return cells[1]:find "^%s*#" ~= nil
end

-- How well a separator fits: columns, fewer where it leaves a quote inside a cell.
local function fit(cells)
  local marks = 0
  for _, cell in ipairs(cells) do
    if cell:find('"', 1, true) then marks = marks + 1 end
  end
  return #cells - marks
end

-- A row of headings has at least so many columns; what stands above it may be a title,
-- and is looked at for so many rows.
local HEADINGS, ABOVE = 3, 5

-- The separator that cuts a row into most columns, how many, and where the next starts.
local function best_for(text, pos)
  local best, most, cells, after = nil, -math.huge, nil, nil
  for _, separator in ipairs(SEPARATORS) do
    local found, stop = read_record(text, pos, separator, function() end)
    if fit(found) > most then
      best, most, cells, after = separator, fit(found), found, stop
    end
  end
  return best, most, after, is_blank(cells) or is_comment(cells)
end

-- The separator of the first row that may be one of headings, else of the first row.
local function separator_of(text, pos)
  local first, rows = nil, 0
  while pos <= #text and rows < ABOVE do
    local best, most, after, empty = best_for(text, pos)
    if not empty then
      if most >= HEADINGS then return best end
      first, rows = first or best, rows + 1
    end
    pos = after
  end
  return first or ","
end

-- What spreadsheets call Latin-1 has letters and quotes where Latin-1 has controls: code
-- page 1252, as the WHATWG Encoding Standard reads that name too. From 0x80 on; 0 where
-- the page has nothing.
local PAGE_1252 = {0x20AC, 0, 0x201A, 0x192, 0x201E, 0x2026, 0x2020, 0x2021, 0x2C6,
  0x2030, 0x160, 0x2039, 0x152, 0, 0x17D, 0, 0, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
  0x2013, 0x2014, 0x2DC, 0x2122, 0x161, 0x203A, 0x153, 0, 0x17E, 0x178}

local function from_latin1(text)
  return (text:gsub("[\x80-\xFF]", function(byte)
    local code = byte:byte()
    local other = PAGE_1252[code - 0x7F] or 0
    return utf8.char(other > 0 and other or code)
  end))
end

local UTF16 = {["\xFF\xFE"] = true, ["\xFE\xFF"] = true}
local ENCODINGS = {["utf-8"] = true, ["latin-1"] = true}

local function check_cell(cell, column, fault)
  if cell:find("\0", 1, true) then
    fault(column, "a NUL byte: this is no text")
  elseif not utf8.len(cell) then
    fault(column, 'not UTF-8: save the file as UTF-8, or declare encoding = "latin-1" '
      .. "if it was written so")
  end
end

-- Trailing cells that hold nothing are a spreadsheet's habit, no columns.
local function without_tail(cells)
  local n = #cells
  while n > 1 and not cells[n]:find "%S" do
    cells[n] = nil
    n = n - 1
  end
end

--- Whether a row holds something and is no remark; its empty tail is cut off.
-- @param cells list of texts, which is changed
function csv.counts(cells)
  if is_blank(cells) or is_comment(cells) then return false end
  without_tail(cells)
  return true
end

local function check_options(options)
  local separator, encoding = options.separator, options.encoding or "utf-8"
  if separator ~= nil and not patterns[separator] then
    error('csv: separator is ",", ";" or a tab', 3)
  elseif not ENCODINGS[encoding] then
    error('csv: encoding is "utf-8" or "latin-1"', 3)
  end
  return separator, encoding
end

local function unreadable(message)
  return nil, {{row = 1, line = 1, column = 1, message = message}}
end

local function read_all(text, separator, most)
  local rows, found = {}, {}
  local pos, row, line = 1, 0, 1
  while pos <= #text do
    row = row + 1
    if row > most then
      return rows, {{row = row, line = line, column = 1,
        message = ("more than %d rows are not read"):format(most)}}
    end
    local function fault(column, message)
      found[#found + 1] = {row = row, line = line, column = column, message = message}
    end
    local cells, after = read_record(text, pos, separator, fault)
    for column, cell in ipairs(cells) do check_cell(cell, column, fault) end
    if csv.counts(cells) then
      cells.row, cells.line = row, line
      rows[#rows + 1] = cells
    end
    line = line + lines_in(text, pos, after)
    pos = after
  end
  return rows, found
end

--- Reads CSV text.
-- @param text the whole file
-- @param options {separator = "," | ";" | "\t" (found from the first row where nil),
--   encoding = "utf-8" (default) | "latin-1", rows = most that are read (all)}
-- @return rows {cell..., row =, line =} without blank ones and comments, whose first
--   cell begins with #; 'row' counts as a spreadsheet does, 'line' lines of the file.
--   Or nil and a list {row =, line =, column =, message =} of all that is wrong. Second
--   result of a good read: the separator.
function csv.read(text, options)
  local separator, encoding = check_options(options or {})
  if UTF16[text:sub(1, 2)] then
    return unreadable "this is UTF-16: save the file as UTF-8"
  end
  if text:sub(1, 3) == BOM then text = text:sub(4) end
  if encoding == "latin-1" then text = from_latin1(text) end
  separator = separator or separator_of(text, 1)
  local rows, found = read_all(text, separator, options and options.rows or math.huge)
  if #found > 0 then return nil, found end
  return rows, separator
end

-------------------------------------------------------------------------------- writing

--- A line of CSV text with its line end; a text cell never starts a formula.
-- @param cells texts and numbers, nil or false for a blank one
-- @param n columns, else as many as 'cells' has
function csv.line(cells, n)
  local fields = {}
  for i = 1, n or #cells do fields[i] = cells[i] and escape.csv(cells[i]) or "" end
  return table.concat(fields, ",") .. "\r\n"
end

return csv
