-- SPDX-License-Identifier: MIT
-- Sheets of an Office Open XML workbook (ECMA-376 part 1, 18; part 2 for its packing), as
-- texts: strings shared or in place, numbers, dates and shares by their number format,
-- formulas by the value that was stored with them.
local grid = require "netsection.workbook.grid"
local refuse = require "netsection.workbook.refuse"
local xml = require "netsection.workbook.xml"

local read_xlsx = {}

-- Both forms of the standard: transitional, and strict.
local MAIN = {["http://schemas.openxmlformats.org/spreadsheetml/2006/main"] = "",
  ["http://purl.oclc.org/ooxml/spreadsheetml/main"] = ""}
local RELATIONS = {
  ["http://schemas.openxmlformats.org/package/2006/relationships"] = ""}
local IDS = {"http://schemas.openxmlformats.org/officeDocument/2006/relationships|id",
  "http://purl.oclc.org/ooxml/officeDocument/relationships|id"}

---------------------------------------------------------------------------- relations

-- A target as the name of a part: from the root, or from the folder of its owner.
local function resolved(folder, target)
  local path = target:sub(1, 1) == "/" and target:sub(2) or folder .. target
  local kept = {}
  for piece in path:gmatch "[^/]+" do
    if piece == ".." then
      if #kept == 0 then refuse.with "a relation inside leads out of the workbook" end
      kept[#kept] = nil
    elseif piece ~= "." then
      kept[#kept + 1] = piece
    end
  end
  return table.concat(kept, "/")
end

-- Relations of a part: by id and by the last word of their type.
local function relations(lxp, archive, part)
  local folder, name = part:match "^(.-)([^/]*)$"
  local by_id, by_type, outside = {}, {}, false
  xml.parse(lxp, archive, folder .. "_rels/" .. name .. ".rels", RELATIONS, {
    start = function(element, a)
      if element ~= "Relationship" then return end
      if a.TargetMode == "External" then
        outside = true
      elseif a.Id and a.Target and a.Type then
        local target = resolved(folder, a.Target)
        by_id[a.Id] = target
        by_type[a.Type:match "[^/]*$"] = target
      end
    end})
  return by_id, by_type, outside
end

------------------------------------------------------------------------------- parts

-- Names of the sheets with their files, and from which year dates count.
local function workbook_of(lxp, archive, part)
  local book = {sheets = {}, from_1904 = false, links = false}
  local found = xml.parse(lxp, archive, part, MAIN, {
    start = function(element, a)
      if element == "sheet" then
        book.sheets[#book.sheets + 1] = {name = a.name or "", id = a[IDS[1]] or a[IDS[2]],
          hidden = a.state == "hidden" or a.state == "veryHidden"}
      elseif element == "workbookPr" then
        book.from_1904 = a.date1904 == "1" or a.date1904 == "true"
      elseif element == "externalReference" then
        book.links = true
      end
    end})
  if not found then refuse.with "it has no workbook inside" end
  return book
end

-- Control characters are written _x000D_ (ECMA-376 part 1, 22.9.2.19).
local function decoded(text)
  if not text:find("_x", 1, true) then return text end
  return (text:gsub("_x(%x%x%x%x)_", function(hex)
    local code = tonumber(hex, 16)
    if code >= 0xD800 and code <= 0xDFFF then return nil end
    return code == 0 and "" or utf8.char(code)
  end))
end

-- The texts that cells refer to by number, without readings of Asian text.
local function shared_strings(lxp, archive, part)
  local list, out, inside, phonetic = {}, nil, false, 0
  if not part then return list end
  xml.parse(lxp, archive, part, MAIN, {
    start = function(element)
      if element == "si" then out = {} end
      if element == "rPh" then phonetic = phonetic + 1 end
      inside = element == "t" and phonetic == 0 and out ~= nil
    end,
    stop = function(element)
      if element == "rPh" then phonetic = phonetic - 1 end
      if element == "si" then
        list[#list + 1] = decoded(table.concat(out))
        out = nil
      end
      inside = false
    end,
    text = function(piece)
      if inside then out[#out + 1] = piece end
    end})
  return list
end

-- What a number format makes of a number: "date", "percent" or nil.
local function kind_of_format(code)
  local bare = code:gsub('"[^"]*"', ""):gsub("\\.", ""):gsub("[_*].", "")
    :gsub("%[[hHmMsS]+%]", "h"):gsub("%[[^%]]*%]", "")
  if bare:find "^[gG]eneral" then return nil end
  if bare:find "[dmyhsDMYHS]" then return "date" end
  return bare:find("%", 1, true) and "percent" or nil
end

-- Formats that have a number and no text (18.8.30).
local BUILT_IN = {[9] = "percent", [10] = "percent"}
for _, run in ipairs {{14, 22}, {27, 36}, {45, 47}, {50, 58}} do
  for i = run[1], run[2] do BUILT_IN[i] = "date" end
end

-- Kind of number by the number of a cell's style.
local function styles_of(lxp, archive, part)
  local own, kinds, inside = {}, {}, false
  if not part then return kinds end
  xml.parse(lxp, archive, part, MAIN, {
    start = function(element, a)
      if element == "numFmt" and a.numFmtId then
        own[a.numFmtId] = kind_of_format(a.formatCode or "") or "plain"
      elseif element == "cellXfs" then
        inside = true
      elseif element == "xf" and inside then
        kinds[#kinds + 1] = own[a.numFmtId] or BUILT_IN[tonumber(a.numFmtId) or 0]
          or "plain"
      end
    end,
    stop = function(element)
      if element == "cellXfs" then inside = false end
    end})
  return kinds
end

------------------------------------------------------------------------------- cells

-- Days from 1 January 1970 to a date of the Gregorian calendar.
local function civil(days)
  local z = days + 719468
  local era = z // 146097
  local doe = z - era * 146097
  local yoe = (doe - doe // 1460 + doe // 36524 - doe // 146096) // 365
  local doy = doe - (365 * yoe + yoe // 4 - yoe // 100)
  local mp = (5 * doy + 2) // 153
  local month = mp < 10 and mp + 3 or mp - 9
  return yoe + era * 400 + (month <= 2 and 1 or 0), month, doy - (153 * mp + 2) // 5 + 1
end

-- A date's number as text (18.17.4.1): days since the end of 1899, whose 29 February 1900
-- never was; or since 1904.
local function date_text(x, from_1904)
  if x < 0 or x >= 2958466 then return nil end
  local seconds = math.floor((x % 1) * 86400 + 0.5)
  local day = math.floor(x) + seconds // 86400
  seconds = seconds % 86400
  local clock = ("%02d:%02d"):format(seconds // 3600, seconds // 60 % 60)
  if seconds % 60 ~= 0 then clock = ("%s:%02d"):format(clock, seconds % 60) end
  if day == 0 and not from_1904 then return clock end
  local before = from_1904 and 24107 or day < 60 and 25568 or 25569
  local date = ("%04d-%02d-%02d"):format(civil(day - before))
  return seconds == 0 and date or date .. " " .. clock
end

-- Row and column of a reference such as "B7".
local function place(ref)
  local letters, row = (ref or ""):match "^%$?(%u%u?%u?)%$?(%d+)$"
  if not letters then return nil end
  local column = 0
  for letter in letters:gmatch "." do column = column * 26 + letter:byte() - 64 end
  return tonumber(row), column
end

local NO_VALUE = "the formula has no stored value: open the workbook in a spreadsheet, "
  .. "save it, and read it again"

-- A number as a field book has it: a date or time where its format says so.
local function number_cell(c, kinds, from_1904)
  local x = tonumber(c.value)
  local text = x and grid.number(x)
  if not text then return "(?)", {wrong = ("no number: %s"):format(c.value)} end
  local kind = c.style and kinds[c.style + 1]
  if kind == "date" then return date_text(x, from_1904) or text end
  if kind == "percent" then return grid.number(x * 100) .. "%" end
  return text, {typed = true}
end

-- Text of a cell and what is known of it, or nil for a blank one.
local function cell_text(c, shared, kinds, from_1904)
  if c.kind == "inlineStr" then return decoded(c.inline) end
  if c.value == "" then
    if c.formula and c.kind ~= "str" then return "(formula)", {wrong = NO_VALUE} end
    return nil
  elseif c.kind == "s" then
    local text = shared[(tonumber(c.value) or -1) + 1]
    if text then return text end
    return "(?)", {wrong = "its text is missing in the workbook"}
  elseif c.kind == "str" then
    return decoded(c.value)
  elseif c.kind == "b" then
    return c.value == "1" and "yes" or "no"
  elseif c.kind == "e" then
    return ("(%s)"):format(c.value), {wrong = ("%s, an error of the spreadsheet"):format(
      c.value)}
  elseif c.kind == "d" then
    return c.value
  end
  return number_cell(c, kinds, from_1904)
end

local LONGEST = 40000

-- Handlers of a worksheet's elements, which fill the grid.
local function sheet_handlers(g, cell_of)
  local row, column, c, into = 0, 0, nil, nil
  local on, start = {}, {}
  --- A row begins; a hidden one is said.
  function start.row(a)
    row, column = tonumber(a.r) or row + 1, 0
    if a.hidden == "1" or a.hidden == "true" then g.hidden_rows[row] = true end
  end
  --- A cell begins.
  function start.c(a)
    local r, k = place(a.r)
    row, column = r or row, k or column + 1
    c = {kind = a.t or "n", style = tonumber(a.s), value = "", inline = "", size = 0}
  end
  --- The cell has a formula; its stored value is read.
  function start.f()
    if c then c.formula = true end
  end
  --- The value of a cell.
  function start.v() into = c and "value" end
  --- Text in the cell itself.
  function start.t() into = c and c.kind == "inlineStr" and "inline" end
  --- Cells merged into one: the value is that of the first.
  function start.mergeCell(a)
    local first, last = (a.ref or ""):match "^(.-):(.*)$"
    local top, left = place(first)
    local bottom, right = place(last)
    if top and bottom then g:merge(top, left, bottom, right) end
  end
  --- A link, which is not followed.
  function start.hyperlink() g.links = g.links + 1 end
  --- Columns; hidden ones are said.
  function start.col(a)
    local min, max = tonumber(a.min), tonumber(a.max)
    if min and max and (a.hidden == "1" or a.hidden == "true") then
      for i = min, math.min(max, 256) do g.hidden_columns[i] = true end
    end
  end
  --- An element begins.
  function on.start(element, a)
    into = nil
    if start[element] then start[element](a) end
  end
  --- An element ends: a cell is put into the grid.
  function on.stop(element)
    into = nil
    if element ~= "c" or not c then return end
    local text, about = cell_of(c)
    if c.formula then g.formulas = g.formulas + 1 end
    if text then g:put(row, column, text, about) end
    c = nil
  end
  --- Text of a value, which has an end.
  function on.text(piece)
    if not into then return end
    c.size = c.size + #piece
    if c.size > LONGEST then refuse.with("sheet %s: a cell is too long", g.name) end
    c[into] = c[into] .. piece
  end
  return on
end

------------------------------------------------------------------------------- the whole

-- Notes on what a workbook has that is not read: macros, links, hidden sheets.
local function said_of(archive, book, outside)
  local notes = {}
  if archive:has "xl/vbaProject" or archive:has "xl/macrosheets/" then
    notes[#notes + 1] = "macros in it are neither run nor read"
  end
  if book.links or outside or archive:has "xl/externalLinks/" then
    notes[#notes + 1] = "links to other files are not followed"
  end
  return notes
end

--- Reads sheets.
-- @param want function(name) -> whether a sheet of that name is read
-- @return list of {name =, hidden =, source = rows where it is read}, list of notes
function read_xlsx.read(lxp, archive, want)
  local _, roots = relations(lxp, archive, "")
  local part = roots.officeDocument or "xl/workbook.xml"
  local book = workbook_of(lxp, archive, part)
  local by_id, by_type, outside = relations(lxp, archive, part)
  local shared = shared_strings(lxp, archive, by_type.sharedStrings)
  local kinds = styles_of(lxp, archive, by_type.styles)
  for _, sheet in ipairs(book.sheets) do
    if want(sheet.name) then
      local g = grid.new(sheet.name, sheet.hidden)
      local found = by_id[sheet.id] and xml.parse(lxp, archive, by_id[sheet.id], MAIN,
        sheet_handlers(g, function(c)
          return cell_text(c, shared, kinds, book.from_1904)
        end))
      if not found then refuse.with("sheet %s is missing inside", sheet.name) end
      sheet.source = g:source()
    end
  end
  return book.sheets, said_of(archive, book, outside)
end

return read_xlsx
