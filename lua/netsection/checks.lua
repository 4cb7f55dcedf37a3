-- SPDX-License-Identifier: MIT
-- The list of checks: one row for each mode, from the core and from the folder of the
-- standard that stands where none is named. Letters of tables, names in print and what a
-- mode is about are all read here.
local check_rows = require "netsection.check_rows"
local standards = require "netsection.standards"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local checks = {}

local file = assert(standards.read(standards.default.standards))

--- Rows by mode, and in order as a list.
checks.row, checks.list = {}, check_rows.with(file.checks)
for _, row in ipairs(checks.list) do checks.row[row.mode] = row end

--- Where a rule stands that is no check of its own, by what it is about, in the standard
-- that stands where none is named; of the one in force `standard.words:rule(key)` tells.
checks.clause = setmetatable({}, {__index = function(_, key)
  return file.clauses[key] or error("no clause for " .. tostring(key), 2)
end})

--- How loads and strength scatter by the standard that stands where none is named.
checks.scatter = file.scatter

--- Modes with a field at a value, as a set: checks.having("by", "moment").
function checks.having(field, value)
  local set = {}
  for _, row in ipairs(checks.list) do
    if row[field] == value then set[row.mode] = true end
  end
  return set
end

return checks
