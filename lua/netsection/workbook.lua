-- SPDX-License-Identifier: MIT
-- Workbooks, .xlsx and .ods: a calculation whose cells recompute, tables of a product
-- line, a field book to fill in. Reading field books is read_survey's.
local calculation = require "netsection.workbook.calculation"
local csv = require "netsection.csv"
local file = require "netsection.file"
local ods = require "netsection.workbook.ods"
local parts = require "netsection.parts"
local sheets = require "netsection.workbook.tables"
local template = require "netsection.workbook.template"
local xlsx = require "netsection.workbook.xlsx"
local error = require "netsection.raise".error

local workbook = {}

local WRITERS = {ods = ods, xlsx = xlsx}

-- The form that a path ends with; raises where it is none.
local function form_of(what, path, level)
  if type(path) ~= "string" then
    error(("%s: path (string) expected, got %s"):format(what, type(path)), level + 1)
  end
  local form = (path:match "%.(%a+)$" or ""):lower()
  if not WRITERS[form] then
    error(("%s: a name that ends in .xlsx or .ods expected, got %s"):format(what, path),
      level + 1)
  end
  return form
end

local function read_options(what, options, level, ...)
  options = options or {}
  parts.only(what, options, {"paper", ...}, level + 1)
  if options.paper ~= nil and options.paper ~= "letter" and options.paper ~= "a4" then
    error(what .. ': paper "letter" or "a4" expected', level + 1)
  end
  return options
end

local REVIEWS = {["netsection.review"] = true, ["netsection.floor_review"] = true}

local function is_review(subject)
  local meta = type(subject) == "table" and getmetatable(subject)
  return type(meta) == "table" and REVIEWS[meta.__name] or false
end

local function check_review(what, subject, level)
  if not is_review(subject) then
    error(("%s: the review of a joist or a floor expected, got %s"):format(what,
      type(subject)), level + 1)
  end
end

--- The calculation of a joist's or a floor's review as the bytes of a workbook.
-- @param form "xlsx" or "ods"
-- @param options {paper = "letter" | "a4"; default that of the units}
function workbook.bytes(subject, form, options)
  check_review("workbook.bytes", subject, 2)
  if not WRITERS[form] then error('workbook.bytes: "xlsx" or "ods" expected', 2) end
  return WRITERS[form].of((calculation.of(subject,
    read_options("workbook.bytes", options, 2))))
end

--- Writes the calculation of a joist's or a floor's review as a workbook that recomputes.
-- @param path where; its end says the form, .xlsx or .ods
-- @param options {paper = "letter" | "a4"; default that of the units}
-- @return true, or nil and what went wrong
function workbook.write(subject, path, options)
  check_review("workbook.write", subject, 2)
  local form = form_of("workbook.write", path, 2)
  local b = calculation.of(subject, read_options("workbook.write", options, 2))
  return file.write(path, WRITERS[form].of(b))
end

--- A blank field book as the bytes of a workbook: sheets that read_survey knows, with
-- lists to choose from, hints and examples.
-- @param form "xlsx" or "ods"; @param options {paper = "letter" | "a4", units = "us" |
--   "metric": of examples and hints, and so of the paper where it is not given, lang =
--   "en-US" | "en-GB" | "en-CA": how hints are spelled}
function workbook.template(form, options)
  if not WRITERS[form] then error('workbook.template: "xlsx" or "ods" expected', 2) end
  local b, problem = template.of(read_options("workbook.template", options, 2, "units",
    "lang"))
  if not b then error("workbook.template: " .. problem, 2) end
  return WRITERS[form].of(b)
end

-- What is wrong with one of the tables for a workbook, or nil.
local function item_problem(item)
  if sheets.is_table(item) then return nil end
  if type(item) ~= "table" or getmetatable(item) ~= nil then
    return "a table of ns.table, {name =, table =} or {name =, csv =} expected"
  elseif type(item.name) ~= "string" then
    return "name: text expected"
  elseif item.table ~= nil and not sheets.is_table(item.table) then
    return "table: a table of ns.table expected"
  elseif item.table == nil and (type(item.csv) ~= "string"
    or not csv.read(item.csv, {separator = ","})) then
    return "csv: CSV text expected"
  end
end

--- Writes several tables into one workbook, with a sheet of contents.
-- @param items list of tables of ns.table; {name =, table =} to name its sheet; or
--   {name =, csv = text}, such as a gradebook or an answer form
-- @param path where; its end says the form, .xlsx or .ods
-- @param options {title =, paper =}
-- @return true, or nil and what went wrong
function workbook.tables(items, path, options)
  local what = "workbook.tables"
  if type(items) ~= "table" or #items == 0 then
    error(what .. ": a list of tables expected", 2)
  end
  for i, item in ipairs(items) do
    local problem = item_problem(item)
    if problem then error(("%s: item %d: %s"):format(what, i, problem), 2) end
  end
  local form = form_of(what, path, 2)
  options = read_options(what, options, 2, "title")
  if options.title ~= nil and type(options.title) ~= "string" then
    error(what .. ": title: text expected", 2)
  end
  return file.write(path, WRITERS[form].of(sheets.of(items, options)))
end

return workbook
