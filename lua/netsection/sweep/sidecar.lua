-- SPDX-License-Identifier: MIT
-- What a file of points is: the joist as entered, loads, rules, standard, axes, columns
-- with their units and words, version. The codes of words in binary columns stand here.
local core = require "netsection.core"
local numbers = require "netsection.numbers"
local packs = require "netsection.packs"
local point = require "netsection.point"
local values = require "netsection.sweep.values"
local tostring = require "netsection.point".text

local sidecar = {}

local object = numbers.object
-- Steps of an axis that are listed; of longer ones the count stands alone.
local LISTED = 1000

local function axis_of(axis)
  local steps
  if #axis.values <= LISTED and not axis.linked then
    steps = {}
    for i, value in ipairs(axis.known) do
      steps[i] = type(value) == "number" and value or tostring(value)
    end
  end
  local fields
  for _, list in ipairs(axis.linked or {}) do
    fields = fields or {}
    fields[#fields + 1] = list.name
  end
  return object {{"name", axis.name}, {"steps", #axis.values}, {"fields", fields},
    {"values", steps}}
end

local function column_of(o)
  return object {{"name", o.name}, {"unit", values.unit(o.name)}, {"words", o.words}}
end

local function cuts_of(cuts)
  local list = {}
  for _, name in ipairs(numbers.keys(cuts or {})) do
    local cut = cuts[name]
    list[#list + 1] = object {{"name", name}, {"label", cut.label}, {"note", cut.note}}
  end
  return list
end

local function words_of(by_name)
  local names, list = {}, {}
  for name in pairs(by_name) do names[#names + 1] = name end
  table.sort(names, point.less)
  for i, name in ipairs(names) do list[i] = {name, by_name[name]} end
  return object(list)
end

local function each(list, make)
  local out = {}
  for i, item in ipairs(list) do out[i] = make(item) end
  return out
end

--- @param h what a sweep hides; @param s the sweep
-- @param more {words = of axes by name, reasons = list} where columns are numbers
-- @return the description as JSON
function sidecar.text(h, s, more)
  local plan = h.plan
  local joist = plan.joist
  local r = joist:review {rules = plan.rules, standard = plan.standard,
    by_depth = plan.by_depth}
  local tree = numbers.of(r)
  local own = tree.joists[numbers.keys(tree.joists)[1]]
  local functions = each(plan.functions, function(of) return of.name end)
  return numbers.json(object {{"netsection", tree.netsection}, {"units", tree.units},
    {"points", #s}, {"first", h.first}, {"of", plan.total},
    {"joist", object {{"mark", own.mark}, {"title", own.title}, {"inputs", own.inputs},
      {"cuts", cuts_of(own.cuts)}, {"repair", r.fixed and r.fixed.title}}},
    {"rules", r.rules.title}, {"standard", own.standard},
    {"axes", each(plan.axes, axis_of)},
    {"functions", #functions > 0 and functions or nil},
    {"columns", each(plan.values, column_of)},
    {"axis_words", more and words_of(more.words)},
    {"reasons", more and more.reasons}})
end

local function steps_of(axis)
  local out = {}
  for _, list in ipairs(axis.linked or {axis}) do
    local steps = {}
    for i = 1, #axis.values do steps[i] = (list.numbers or list.known)[i] end
    out[list.name] = steps
  end
  return out
end

-- What a floor adds to a sweep in it: its joists, their repairs, the grid.
local function floor_of(own)
  if not own then return nil end
  local list = {}
  for i, joist in ipairs(own.floor.joists) do
    list[i] = {joist.description, joist.repair and joist.repair.given}
  end
  return {joists = list, grid = own.grid}
end

--- A text that two sweeps share when they ask the same of the same joists, whichever
-- points of it they work. Functions of a point are known by their names alone.
function sidecar.identity(h)
  local plan = h.plan
  local functions, outputs, axes, of_packs = {}, {}, {}, {}
  for i, of in ipairs(plan.functions) do functions[i] = of.name end
  for i, o in ipairs(plan.values) do outputs[i] = o.name end
  for i, axis in ipairs(plan.axes) do
    axes[i] = {name = axis.name, of = steps_of(axis)}
  end
  for i, pack in ipairs(plan.packs.rules.list) do of_packs[i] = pack.fingerprint end
  of_packs[#of_packs + 1] = plan.packs.standard.spec.fingerprint
  local repair = plan.joist.repair
  return packs.fingerprint {version = core.version, joist = plan.joist.description,
    repair = repair and repair.given, kind = repair and repair.kind,
    packs = of_packs, by_depth = plan.by_depth, floor = floor_of(plan.in_floor),
    axes = axes,
    functions = functions, values = outputs}
end

return sidecar
