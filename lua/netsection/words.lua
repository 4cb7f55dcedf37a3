-- SPDX-License-Identifier: MIT
-- What a standard says of a check beside its numbers: unit, clause, lines of the
-- calculation. Made of the standard's data once.
local steps = require "netsection.steps"

local words = {}

local meta = {}
meta.__index = meta

--- Unit of demand and capacity.
function meta:unit(mode, branch)
  local row = self.row[mode]
  return row and (row.units and row.units[branch] or row.unit)
end

--- What a mode is called in print where that is not its word, or nil.
function meta:printed(mode)
  return self.row[mode] and self.row[mode].printed
end

--- The combination of a mode that has one of its own, as text, or nil.
function meta:combination(mode)
  return self.row[mode] and self.row[mode].combination
end

--- Where the capacity stands.
function meta:clause(mode)
  return self.row[mode] and self.row[mode].clause
end

--- Lines of a check: a list of {symbol, formula, value, unit, clause, says, inputs}.
function meta:steps(raw, index, check)
  return steps.of(self.lines, raw, index, check)
end

--- Number of branches that a mode has lines for.
function meta:branches(mode)
  return self.lines[mode] and #self.lines[mode] or 0
end

--- @param data a checked table of a standard; raises a text where its lines are wrong
function words.of(data)
  local row = {}
  for _, one in ipairs(data.checks) do row[one.mode] = one end
  local constants = {}
  for name, factor in pairs(data.factors or {}) do
    constants[name] = not steps.recorded(name) and factor.value or nil
  end
  return setmetatable({row = row, lines = steps.compile {steps = data.steps,
    lines = data.lines, rename = data.rename, says = data.says,
    stands_for = data.stands_for, constants = constants}}, meta)
end

return words
