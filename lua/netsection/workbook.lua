-- SPDX-License-Identifier: MIT
-- Workbooks, .xlsx and .ods: a calculation whose cells recompute, tables of a product
-- line, a field book to fill in. Reading field books is read_survey's.
local calculation = require "netsection.workbook.calculation"
local file = require "netsection.file"
local ods = require "netsection.workbook.ods"
local parts = require "netsection.parts"
local xlsx = require "netsection.workbook.xlsx"

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

local function read_options(what, options, level)
  options = options or {}
  parts.only(what, options, {"paper"}, level + 1)
  if options.paper ~= nil and options.paper ~= "letter" and options.paper ~= "a4" then
    error(what .. ': paper "letter" or "a4" expected', level + 1)
  end
  return options
end

local function is_review(subject)
  return type(subject) == "table" and (subject.joist ~= nil and subject.reasons ~= nil
    or type(subject.joists) == "table" and type(subject.order) == "table")
end

local function check_review(what, subject, level)
  if not is_review(subject) then
    error(("%s: the review of a joist or a floor expected, got %s"):format(what,
      type(subject)), level + 1)
  end
end

--- The calculation of a joist's or a floor's review as the bytes of a workbook.
-- @param form "xlsx" or "ods"; @param options {paper = "letter" (default) | "a4"}
function workbook.bytes(subject, form, options)
  check_review("workbook.bytes", subject, 2)
  if not WRITERS[form] then error('workbook.bytes: "xlsx" or "ods" expected', 2) end
  return WRITERS[form].of((calculation.of(subject,
    read_options("workbook.bytes", options, 2))))
end

--- Writes the calculation of a joist's or a floor's review as a workbook that recomputes.
-- @param path where; its end says the form, .xlsx or .ods
-- @param options {paper = "letter" (default) | "a4"}
-- @return true, or nil and what went wrong
function workbook.write(subject, path, options)
  check_review("workbook.write", subject, 2)
  local form = form_of("workbook.write", path, 2)
  local b = calculation.of(subject, read_options("workbook.write", options, 2))
  return file.write(path, WRITERS[form].of(b))
end

return workbook
