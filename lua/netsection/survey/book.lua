-- SPDX-License-Identifier: MIT
-- A field book kept as one workbook: its sheets by the names that the CSV files have.
local columns = require "netsection.field_columns"
local file = require "netsection.file"
local read = require "netsection.workbook.read"
local units = require "netsection.units"
local words = require "netsection.survey.words"

local book = {}

local KINDS = {survey = "settings", settings = "settings"}
local NAMES = {"survey", "settings"}
for _, kind in ipairs(columns.files) do
  KINDS[kind], NAMES[#NAMES + 1] = kind, kind
end

-- Which sheet of a survey a name stands for: "Joists", "cuts.csv".
local function kind_of(name)
  return KINDS[words.key((name:gsub("%.[cC][sS][vV]$", "")))]
end

local function shown(text)
  return units.quoted(text):sub(2, -2)
end

-- Text and name of a workbook given as a path or {text =, name =}.
local function open(given)
  if type(given) == "table" then return given.text, shown(given.name or "workbook") end
  local name = shown(given:match "([^/]+)/*$" or given)
  local text, why = file.read(given)
  if text then return text, name end
  return nil, name, (why:gsub("^.*: cannot be read: ", "cannot be read: "))
end

-- Sheets of the blank field book that nobody fills in.
local OURS = {readme = true, lists = true}

-- A sheet that is none of a survey: left aside, or a slip of one that is missing.
local function stranger(s, sheets, name, found, notes)
  if OURS[words.key(s.name)] then return end
  local near = words.nearest(s.name, NAMES)
  if near and not sheets[KINDS[near]] then
    found:add {file = name, sheet = shown(s.name), message =
      ("no known sheet; '%s' is meant?"):format(near)}
  else
    notes[#notes + 1] = ("%s: sheet %s is not read"):format(name, shown(s.name))
  end
end

--- Reads a workbook.
-- @param given a path, or {text =, name =}; @param found list of problems
-- @return {name =, sheets = {joists =, cuts = ..., settings = sources as sheet.read
--   takes them}, notes =}; or nil where it cannot be read
function book.read(given, found)
  local text, name, problem = open(given)
  local made
  if text then
    made, problem = read.book(text, function(title) return kind_of(title) ~= nil end)
  end
  if not made then
    found:add {file = name, message = problem, unreadable = true}
    return nil, name
  end
  local sheets, notes = {}, {}
  for i, said in ipairs(made.notes) do notes[i] = ("%s: %s"):format(name, said) end
  for _, s in ipairs(made.sheets) do
    local kind = kind_of(s.name)
    if kind and sheets[kind] then
      found:add {file = name, sheet = shown(s.name),
        message = ("sheet %s holds the same"):format(sheets[kind].sheet)}
    elseif kind then
      s.source.name = name
      sheets[kind] = s.source
    end
  end
  for _, s in ipairs(made.sheets) do
    if not kind_of(s.name) then stranger(s, sheets, name, found, notes) end
  end
  return {name = name, sheets = sheets, notes = notes}, name
end

return book
