-- SPDX-License-Identifier: MIT
-- Blank field books: the headings that the reader knows, two rows as an example, and what
-- the columns hold. Rows that begin with # are remarks, which the reader leaves out.
local packs = require "netsection.packs"
local columns = require "netsection.field_columns"
local csv = require "netsection.csv"
local parts = require "netsection.parts"
local quantity = require "netsection.quantity"
local spelling = require "netsection.locale.spelling"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local template = {}

local BLANK = {}
for _, name in ipairs(quantity.names) do
  BLANK[name] = require(("netsection.locale.%s_blank"):format(name))
end

--- What blank books say in a system of units; nil and a message for another name.
function template.blank(name)
  local show, problem = quantity.system(name)
  if not show then return nil, "units: " .. problem end
  return BLANK[show.name]
end

--- A text of a column, an example or an explanation, in the units of a blank book.
function template.written(blank, said)
  return blank.written[said] or said
end

local MARK = "# example: "

local function heading(column)
  return (column.name:gsub("_", " "))
end

local function examples(list, blank)
  local rows = {}
  for n = 1, 2 do
    local row = {}
    for i, column in ipairs(list) do
      row[i] = template.written(blank, column.eg and column.eg[n] or "")
    end
    row[1] = MARK .. row[1]
    rows[n] = row
  end
  return rows
end

local function explained(column, blank)
  local own = column.says and template.written(blank, column.says)
  local says = own or column.shown
  if own and column.shown then says = own .. " (" .. column.shown .. ")" end
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

local function book(all, blank)
  local list, rare = sorted(all)
  local heads, out = {}, {}
  for i, column in ipairs(list) do heads[i] = heading(column) end
  out[1] = csv.line(heads)
  for _, row in ipairs(examples(list, blank)) do out[#out + 1] = csv.line(row, #list) end
  for _, column in ipairs(list) do
    local said = explained(column, blank)
    if said then out[#out + 1] = csv.line {said} end
  end
  if #rare > 0 then
    out[#out + 1] = csv.line {"# further headings: " .. table.concat(rare, ", ")}
  end
  return table.concat(out)
end

--- Rows of the settings of a visit in a blank book.
function template.settings(blank)
  local paper = quantity.system(blank.units == "mm" and "metric" or "us").paper_size
  local rows = {{"name", "value"}, {"floor", ""}, {"rules", packs.default.rules},
    {"standard", packs.default.standards}, {"paper", paper}, {"visit date", ""},
    {"present", ""}, {"address", ""}, {"scope", ""}, {"not seen", ""},
    {"engineer's reference", ""}}
  for _, row in ipairs(blank.settings) do rows[#rows + 1] = row end
  rows[#rows + 1] = {"# decimal", "comma or point"}
  return rows
end

local function settings(blank)
  local out = {}
  for i, row in ipairs(template.settings(blank)) do out[i] = csv.line(row) end
  return table.concat(out)
end

-- The lines that explain, as they are spelled in a language; headings are read back.
local function explained_in(lang, text)
  local say = spelling.of(lang)
  return say and text:gsub('%f[^\n\0]"?#[^\n]*', say) or text
end

--- Blank field books as CSV text.
-- @param kind "joists", "cuts", "obstructions", "loads", "fixes", "survey" (settings of
--   the visit), or nil for all of them
-- @param options {units = "us" | "metric": of examples, hints and settings, lang =
--   "en-US" | "en-GB" | "en-CA": how the lines that explain are spelled}
-- @return text, or a table of them by kind
function template.of(kind, options)
  options = options or {}
  parts.only("survey_template", options, {"units", "lang"}, 2)
  local blank, problem = template.blank(options.units)
  problem = problem or spelling.problem(options.lang)
  if problem then error("survey_template: " .. problem, 2) end
  local all = {survey = settings(blank)}
  for _, name in ipairs(columns.files) do
    all[name] = explained_in(options.lang, book(columns[name], blank))
  end
  if kind == nil then return all end
  if not all[kind] then
    error(("survey_template: one of %s, survey expected, got %s"):format(
      table.concat(columns.files, ", "), tostring(kind)), 2)
  end
  return all[kind]
end

template.mark = MARK
template.sorted, template.heading = sorted, heading

return template
