-- SPDX-License-Identifier: MIT
-- The rows of the list of checks, as the core has them (csrc/joist/checks.h), put
-- together with what a standard says of each.
local core = require "netsection.core"

local check_rows = {}

-- "psi, 2 lb" -> "psi", {[2] = "lb"}: unit, and those of single branches.
local function units_of(text)
  local unit, rest = text:match "^([^,]*)(.*)$"
  local units
  for branch, one in rest:gmatch ", (%d+) ([^,]*)" do
    units = units or {}
    units[math.tointeger(tonumber(branch))] = one
  end
  return unit, units
end

-- Lines of a calculation of its own: a list for branch 1, or nil.
local function lines_of(text)
  local list = {}
  for line in text:gmatch "[^;]+" do list[#list + 1] = line:match "^%s*(.-)%s*$" end
  return #list > 0 and {list} or nil
end

local function row_of(of)
  local unit, units = units_of(of.unit)
  return {mode = of.mode, unit = unit, units = units, by = of.by,
    letter = of.letter ~= "" and of.letter or nil,
    hogs = of.hogs > 0 and of.hogs or nil,
    strength = of.strength, decides = of.decides,
    unrepaired = of.decides and not of.repair or nil,
    clause = of.basis ~= "" and of.basis or nil, steps = lines_of(of.lines)}
end

--- Rows in the order of the core, where two ratios that are equal go by: mode, unit of
-- demand and capacity and units of single branches, letter in tables, what it is about
-- ("by"), branch from which it is about M < 0 (hogs), whether it is of strength and
-- decides, whether a joist without a repair can have it; clause and lines of a check
-- that has its own.
check_rows.list, check_rows.of = {}, {}
for i, of in ipairs(core.checks) do
  check_rows.list[i] = row_of(of)
  check_rows.of[of.mode] = check_rows.list[i]
end

--- The rows with what a standard says of them: clause, printed, combination, absent.
-- @param rows {{mode =, clause =, ...}, ...} of its folder
-- @return a list in the order of the core
function check_rows.with(rows)
  local said, list = {}, {}
  for _, row in ipairs(rows) do said[row.mode] = row end
  for i, row in ipairs(check_rows.list) do
    list[i] = {}
    for name, value in pairs(row) do list[i][name] = value end
    for name, value in pairs(said[row.mode] or {}) do list[i][name] = value end
  end
  return list
end

return check_rows
