-- SPDX-License-Identifier: MIT
-- Rows of answers, or of marks by hand, as they come back: from a spreadsheet or a course
-- system, with titles above the headings, headings in other words, ids that a spreadsheet
-- changed. What cannot be read costs its own row.
local csv = require "netsection.csv"
local escape = require "netsection.document.escape"
local text = require "netsection.text"

local rows = {}

-- Headings that are taken, in small letters without blanks and strokes.
local NAMES = {
  student = {"student", "studentid", "id", "studentno", "studentnumber", "login", "user"},
  problem = {"problem", "problemno", "question", "questionno", "exercise", "no"},
  part = {"part", "item"}, answer = {"answer", "response", "value"},
  code = {"code", "sheetcode", "checkcode"},
  submission = {"submission", "attempt", "try"}, late = {"late", "dayslate"},
  marks = {"marks", "mark", "points", "score"},
}
local FIELD = {}
for field, list in pairs(NAMES) do
  for _, name in ipairs(list) do FIELD[name] = field end
end

local ABOVE = 6 -- rows of titles that may stand above the headings

local function trimmed(value)
  local said = math.type(value) == "integer" and ("%d"):format(value)
    or math.type(value) == "float" and text.short(value) or value
  return type(said) == "string" and said:gsub("^%s+", ""):gsub("%s+$", "") or nil
end

local function field_of(heading)
  return FIELD[(heading:lower():gsub("\u{FEFF}", ""):gsub("[%s_%-%.#]", ""))]
end

-- Lines by themselves, where the text as a whole is no CSV: one bad quote costs its line.
local function line_by_line(source, problems)
  local list, n, separator = {}, 0, nil
  for line in (source .. "\n"):gmatch "(.-)\r?\n" do
    n = n + 1
    if line:find "%S" then
      local read, faults = csv.read(line .. "\n", {separator = separator})
      if read and read[1] then
        -- That of the headings holds for all rows: answers may have commas.
        separator = separator or #read[1] >= 3 and faults or nil
        read[1].row = n
        list[#list + 1] = read[1]
      else
        problems[#problems + 1] = {row = n, reason = faults and faults[1]
          and faults[1].message or "not a row"}
      end
    end
  end
  return list
end

-- True where a cell holds whole rows: a quote that was never closed met one further down.
-- Remarks of several lines stay remarks.
local function swallowed(list)
  local width = 0
  for _, cells in ipairs(list) do width = math.max(width, #cells) end
  for _, cells in ipairs(list) do
    for _, cell in ipairs(cells) do
      for line in (cell:match "\n(.*)" or ""):gmatch "[^\r\n]+" do
        local read = csv.read(line .. "\n")
        if read and read[1] and #read[1] >= math.max(3, width - 1) then return true end
      end
    end
  end
  return false
end

-- Cells of the text, row by row.
local function cells_of(source, problems)
  local read = csv.read(source)
  if read and not swallowed(read) then return read end
  return line_by_line(source, problems)
end

-- The row with the headings that are needed, and where each stands; nil and what lacks.
local function headings(list, needed)
  local best, best_at, most = nil, nil, 0
  for i = 1, math.min(ABOVE, #list) do
    local at, found = {}, 0
    for c, heading in ipairs(list[i]) do
      local field = type(heading) == "string" and field_of(heading)
      if field and not at[field] then at[field], found = c, found + 1 end
    end
    if found > most then best, best_at, most = i, at, found end
  end
  local missing = {}
  for _, field in ipairs(needed) do
    if not (best_at and best_at[field]) then
      missing[#missing + 1] = {row = best or 1, column = field,
        message = ("column '%s' expected"):format(field)}
    end
  end
  if missing[1] then return nil, missing end
  return best, best_at
end

--- Rows {field = text, row = number}. @param source CSV text or a list of rows
-- @param needed fields that have to be there; @param problems a list that is added to
-- @return rows; or nil and a list {row, column, message}
function rows.of(source, needed, problems)
  local out = {}
  if type(source) ~= "string" then
    for i, t in ipairs(source) do
      local row = {row = i}
      for field in pairs(NAMES) do
        row[field] = type(t) == "table" and trimmed(t[field]) or nil
      end
      for _, field in ipairs(needed) do row[field] = row[field] or "" end
      out[i] = row
    end
    return out
  end
  local list = cells_of(source, problems)
  local top, at = headings(list, needed)
  if not top then return nil, at end
  for i = top + 1, #list do
    local row = {row = list[i].row}
    for field, column in pairs(at) do row[field] = trimmed(list[i][column] or "") end
    out[#out + 1] = row
  end
  return out
end

-- An id as it comes back from a spreadsheet: without what a file never holds (characters
-- that turn its direction), blanks around it, the apostrophe in front that keeps it from
-- being a formula, and leading noughts (7 for 007).
local function normal(id)
  local shown = utf8.len(id) and escape.text(id) or id
  shown = shown:gsub("^%s*'", ""):gsub("^%s+", ""):gsub("%s+$", "")
  return (shown:gsub("^0+(%d)", "%1"):gsub("^(%d+)%.0+$", "%1"))
end

--- Finds a student of a set by an id as it came back; nil where two could be meant.
function rows.finder(set)
  local by = {}
  for _, student in ipairs(set.students) do
    local form = normal(student.id)
    by[form] = by[form] == nil and student or false
  end
  return function(said) return set.by_id[said] or by[normal(said)] end
end

return rows
