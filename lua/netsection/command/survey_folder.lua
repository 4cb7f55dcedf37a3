-- SPDX-License-Identifier: MIT
-- The files of a survey in a folder, and of a package that was written into one.
local columns = require "netsection.field_columns"
local folder = require "netsection.folder"

local survey_folder = {}

local function joined(path, name)
  return path:find "/$" and path .. name or path .. "/" .. name
end
survey_folder.joined = joined

--- Whether two paths lead to one folder, by what the system says of both.
function survey_folder.same(a, b)
  local _, one = folder.kind(a)
  local kind, other = folder.kind(b)
  return kind ~= nil and one == other
end

local function is_workbook(path)
  return folder.kind(path) == "file" and path:lower():find "%.%a+$" ~= nil
    and ({ods = true, xlsx = true, xlsm = true})[path:lower():match "%.(%a+)$"] or false
end

--- Paths of a survey's files by kind, whatever the case of their names; or the one
-- workbook that holds it.
-- @return table, or nil and what is missing
function survey_folder.files(path)
  if is_workbook(path) then return {workbook = path} end
  local names = folder.entries(path)
  if not names then return nil, ("the folder %s cannot be read"):format(path) end
  local files, by_name = {}, {}
  for _, name in ipairs(names) do
    local lower = name:lower()
    by_name[lower] = by_name[lower] or name
  end
  for _, kind in ipairs(columns.files) do
    local name = by_name[kind .. ".csv"]
    files[kind] = name and joined(path, name)
  end
  files.settings = by_name["survey.csv"] and joined(path, by_name["survey.csv"])
  if not files.joists then
    return nil, ("no joists.csv in %s; a workbook is given by its own path"):format(path)
  end
  return files
end

--- What read_survey takes: the files and the options of the command line.
function survey_folder.options(files, given)
  local t = {rules = given.rules, standard = given.standard, name = given.name,
    units = given.units, printed = given.printed, lang = given.lang,
    by_depth = given.by_depth,
    separator = given.separator, encoding = given.encoding,
    decimal = given.decimal_comma and "," or nil, most_joists = given.most_joists}
  for kind, path in pairs(files) do t[kind] = path end
  return t
end

--- The one JSON file of a folder, or nil.
function survey_folder.export(path)
  local found
  for _, name in ipairs(folder.entries(path) or {}) do
    if name:lower():find "%.json$" then
      if found then return nil end
      found = joined(path, name)
    end
  end
  return found
end

return survey_folder
