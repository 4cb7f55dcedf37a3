-- SPDX-License-Identifier: MIT
-- What a standard says of a check beside its numbers: unit, clause, lines of the
-- calculation. Made of the standard's data once.
local basis = require "netsection.basis"
local check_rows = require "netsection.check_rows"
local checks = require "netsection.checks"
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
function meta:loads(mode)
  return self.row[mode] and self.row[mode].combination
end

--- Where the capacity stands.
function meta:clause(mode)
  return self.row[mode] and self.row[mode].clause
end

--- Where a rule stands that is no check of its own, by what it is about; what a standard
-- has no rule for was worked by the one that stands where none is named.
function meta:rule(key)
  return self.data.clauses[key] or checks.clause[key]
end

--- How loads and strength scatter; of a standard that does not say, as by the one that
-- stands where none is named.
function meta:scatter()
  return self.data.scatter or checks.scatter
end

--- Lines of a check: a list of {symbol, formula, value, unit, clause, says, inputs}.
function meta:steps(raw, index, check)
  return steps.of(self.lines, raw, index, check)
end

--- Number of branches that a mode has lines for.
function meta:branches(mode)
  return self.lines[mode] and #self.lines[mode] or 0
end

-- What does not rest on the joist's design values.
local WITHOUT_WOOD = {uplift = true, stability = true, steel = true, fasteners = true,
  withdrawal = true, neighbors = true, below = true}
-- What is about deflection, statics or others takes no factored combination.
local UNFACTORED = {deflection = true, neighbors = true, stability = true, below = true}

--- What a check rests on: a list of {name =, text =, source =, confidence =}.
-- @param combination its name, or nil; @param m the model of the wood, or nil
function meta:basis(mode, branch, combination, m)
  local key = ("%s/%s"):format(mode, branch)
  local row = self.row[mode]
  if not row then return {} end
  self.facts[key] = self.facts[key] or basis.of(self.data, self.lines, mode, branch)
  local list = {}
  for _, one in ipairs(self.facts[key]) do
    if basis.counts(one, m) then list[#list + 1] = one end
  end
  local by = not UNFACTORED[row.by] and self.combination[combination]
  if by then table.insert(list, 1, by) end
  local wood = m and not WITHOUT_WOOD[row.by] and basis.of_wood(m)
  if wood then list[#list + 1] = wood end
  return list
end

--- What a gate rests on, by its number from 1.
function meta:gate_basis(gate)
  return basis.of_gate(self.data, gate)
end

-- Words that a check of their data has made, for whoever asks first.
local checked = setmetatable({}, {__mode = "k"})

--- Raises a text where the lines of a standard's table are wrong.
function words.check(data)
  checked[data] = words.of(data)
end

--- @param data a checked table of a standard; raises a text where its lines are wrong
function words.of(data)
  local made = checked[data]
  checked[data] = nil
  if made then return made end
  local row, lines = {}, {}
  for mode, list in pairs(data.steps) do lines[mode] = list end
  for _, one in ipairs(check_rows.with(data.checks)) do
    row[one.mode] = one
    lines[one.mode] = lines[one.mode] or one.steps
  end
  local constants, combination = {}, {}
  for _, list in ipairs {data.combinations, data.with_roof_or_snow or {}} do
    for _, one in ipairs(list) do combination[one.name] = basis.of_combination(one) end
  end
  for name, factor in pairs(data.factors or {}) do
    constants[name] = not steps.recorded(name) and factor.value or nil
  end
  return setmetatable({row = row, data = data, facts = {}, combination = combination,
    lines = steps.compile {steps = lines,
    lines = data.lines, rename = data.rename, says = data.says,
    stands_for = data.stands_for, constants = constants}}, meta)
end

return words
