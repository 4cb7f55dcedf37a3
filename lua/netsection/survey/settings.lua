-- SPDX-License-Identifier: MIT
-- The optional file survey.csv of two columns, name and value: what holds for the whole
-- visit. Names that are not known are kept as text, for the
-- calculation sheet.
local cell = require "netsection.survey.cell"
local csv = require "netsection.csv"
local sheet = require "netsection.survey.sheet"
local words = require "netsection.survey.words"

local settings = {}

local KNOWN = {floor = "name", name = "name", floorname = "name", title = "name",
  rules = "rules", ruleset = "rules", standard = "standard", units = "units",
  unit = "units", decimal = "decimal", decimalsign = "decimal", paper = "paper",
    printed = "printed",
  printedin = "printed", printunits = "printed",
  bydepth = "by_depth", lang = "lang", spelling = "lang",
  separator = "separator", encoding = "encoding"}

-- What the letter tells of the visit.
local VISIT = {visitdate = "date", date = "date", visited = "date",
  lengthofvisit = "length", present = "present", whowasthere = "present",
  address = "address", documents = "documents", photos = "photos", weather = "weather",
  trades = "trades", inspections = "inspections", seen = "seen", scope = "scope",
  exclusions = "exclusions", use = "use", useoftheroom = "use"}

-- Rows of this name may be many: each is a part that stayed hidden.
local NOT_SEEN = {notseen = true, concealed = true, hidden = true}

local VALUES = {
  units = {["in"] = "in", inches = "in", inch = "in", ft = "ft", feet = "ft", mm = "mm",
    cm = "cm", m = "m"},
  decimal = {comma = ",", [","] = ",", point = ".", ["."] = "."},
  paper = {letter = "letter", a4 = "a4"},
  printed = {us = "us", metric = "metric"},
  lang = {["en-us"] = "en-US", ["en-gb"] = "en-GB", ["en-ca"] = "en-CA"},
  separator = {comma = ",", semicolon = ";", tab = "\t"},
  encoding = {["utf-8"] = "utf-8", utf8 = "utf-8", ["latin-1"] = "latin-1",
    latin1 = "latin-1"},
}
settings.values = VALUES

local TAKEN = {units = "in, ft, mm, cm, m", decimal = "comma, point",
  paper = "letter, a4", printed = "us, metric", lang = "en-US, en-GB, en-CA",
  separator = "comma, semicolon, tab",
    encoding = "utf-8, latin-1"}

local function keep(out, row, name, value, found, where)
  local key = words.key(name)
  local known = KNOWN[key]
  if VISIT[key] then
    out.visit[VISIT[key]] = value
    return
  elseif NOT_SEEN[key] then
    out.concealed[#out.concealed + 1] = value
    return
  elseif not known then
    out.others[#out.others + 1] = {name = name, value = value}
    return
  end
  local allowed = VALUES[known]
  local read = allowed and allowed[value:gsub("[A-Z]", string.lower)] or value
  if allowed and not allowed[value:gsub("[A-Z]", string.lower)] then
    found:add {file = where.file, sheet = where.sheet, row = row.row, line = row.line,
      column = 2, found = value, field = known, message =
        ("one of %s expected, got %s"):format(TAKEN[known], sheet.shown(value))}
    return
  end
  out[known] = read
end

-- Settings of a survey that has no file of them.
function settings.none()
  return {visit = {}, concealed = {}, others = {}}
end

-- The rows of the sheet of a workbook, or of a file of CSV text; nil where there are none
-- to read. The name it goes by in messages comes first.
local function rows_of(source, found)
  if type(source) == "table" and source.rows then
    return source.name, source.rows, source.sheet
  end
  local text, name, problem = sheet.open(source, "survey")
  name = sheet.shown(name)
  if not text then
    found:add {file = name, message = problem, unreadable = true}
    return name
  end
  local rows, faults = csv.read(text)
  for _, fault in ipairs(rows and {} or faults) do
    found:add {file = name, row = fault.row, line = fault.line, column = fault.column,
      message = fault.message}
  end
  return name, rows
end

-- @return {name =, rules =, standard =, units =, decimal =, paper =,
--   visit = {date = ...}, concealed = {...}, others = {{name =, value =}...}}; faults go
--   to 'found'; second, the title of the file or sheet
function settings.read(source, found)
  local out = settings.none()
  local name, rows, of_workbook = rows_of(source, found)
  for i, row in ipairs(rows or {}) do
    local key, value = cell.trim(row[1] or ""), cell.trim(row[2] or "")
    local head = i == 1 and words.key(key) == "name" and words.key(value) == "value"
    local wrong = row.wrong and (row.wrong[1] or row.wrong[2])
    if wrong then
      found:add {file = name, sheet = of_workbook, row = row.row, line = row.line,
        column = row.wrong[1] and 1 or 2, message = wrong}
    elseif key ~= "" and value ~= "" and not head then
      keep(out, row, key, value, found, {file = name, sheet = of_workbook})
    end
  end
  return out, sheet.title(name, of_workbook)
end

return settings
