-- SPDX-License-Identifier: MIT
-- Blank field books: the headings that the reader knows, two rows as an example, and what
-- the columns hold. Rows that begin with # are remarks, which the reader leaves out.
local packs = require "netsection.packs"
local columns = require "netsection.survey.columns"
local csv = require "netsection.csv"
local error = require "netsection.raise".error

local template = {}

local MARK = "# example: "

local function heading(column)
  return (column.name:gsub("_", " "))
end

local function examples(list)
  local rows = {}
  for n = 1, 2 do
    local row = {}
    for i, column in ipairs(list) do row[i] = column.eg and column.eg[n] or "" end
    row[1] = MARK .. row[1]
    rows[n] = row
  end
  return rows
end

local function explained(column)
  local says = column.says or column.shown
  if column.says and column.shown then
    says = column.says .. " (" .. column.shown .. ")"
  end
  return says and ("# %s: %s"):format(heading(column), says)
end

-- The columns of a blank book, and the names of the others.
local function sorted(all)
  local list, rare = {}, {}
  for _, column in ipairs(all) do
    if column.rare then
      rare[#rare + 1] = heading(column)
    else
      list[#list + 1] = column
    end
  end
  return list, rare
end

local function book(all)
  local list, rare = sorted(all)
  local heads, out = {}, {}
  for i, column in ipairs(list) do heads[i] = heading(column) end
  out[1] = csv.line(heads)
  for _, row in ipairs(examples(list)) do out[#out + 1] = csv.line(row, #list) end
  for _, column in ipairs(list) do
    local said = explained(column)
    if said then out[#out + 1] = csv.line {said} end
  end
  if #rare > 0 then
    out[#out + 1] = csv.line {"# further headings: " .. table.concat(rare, ", ")}
  end
  return table.concat(out)
end

local SETTINGS = {{"name", "value"}, {"floor", ""}, {"rules", packs.default.rules},
  {"standard", packs.default.standards}, {"paper", "letter"}, {"visit date", ""},
  {"present", ""}, {"address", ""}, {"scope", ""}, {"not seen", ""},
  {"engineer's reference", ""}, {"# units", "of bare lengths: in, ft, mm, cm, m"},
  {"# decimal", "comma or point"}}

local function settings()
  local out = {}
  for i, row in ipairs(SETTINGS) do out[i] = csv.line(row) end
  return table.concat(out)
end

--- Blank field books as CSV text.
-- @param kind "joists", "cuts", "obstructions", "loads", "fixes", "survey" (settings of
--   the visit), or nil for all of them
-- @return text, or a table of them by kind
function template.of(kind)
  local all = {survey = settings()}
  for _, name in ipairs(columns.files) do all[name] = book(columns[name]) end
  if kind == nil then return all end
  if not all[kind] then
    error(("survey_template: one of %s, survey expected, got %s"):format(
      table.concat(columns.files, ", "), tostring(kind)), 2)
  end
  return all[kind]
end

template.mark = MARK
template.settings = SETTINGS
template.sorted, template.heading = sorted, heading

return template
