-- SPDX-License-Identifier: MIT
-- netsection: what is left of a cut wood joist, whether the code's limits cover it, and
-- what the engineer does next. See lua/README.md for the reference of names.
local compare = require "netsection.compare"
local core = require "netsection.core"
local document = require "netsection.document"
local fastener = require "netsection.fastener"
local file = require "netsection.file"
local field_sheet = require "netsection.survey.field_sheet"
local fix = require "netsection.fix"
local floor = require "netsection.floor"
local homework = require "netsection.homework"
local johansen = require "netsection.johansen"
local joist = require "netsection.joist"
local lumber = require "netsection.lumber"
local members = require "netsection.members"
local obstruction = require "netsection.obstruction"
local package = require "netsection.package"
local odds = require "netsection.odds"
local packs = require "netsection.packs"
local parts = require "netsection.parts"
local plot = require "netsection.plot"
local recheck = require "netsection.recheck"
local report = require "netsection.report"
local sensitivity = require "netsection.sensitivity"
local sweep = require "netsection.sweep"
local size = require "netsection.size"
local survey = require "netsection.survey"
local template = require "netsection.field_book"
local tables = require "netsection.table"
local units = require "netsection.units"
local workbook = require "netsection.workbook"
local error = require "netsection.raise".error

-- A function of the core by its public name; what it refuses is told where it is called.
local function of_fields(name, f)
  return function(t)
    if type(t) ~= "table" then
      error(("%s: a table of fields expected, got %s"):format(name, type(t)), 2)
    end
    local ok, made = pcall(f, t)
    if not ok then error((tostring(made):gsub("^[^:]+%.lua:%d+: ", "")), 2) end
    return made
  end
end

local ns = {
  version = core.version,
  joist = joist.new,
  problems = joist.problems,
  none = joist.none,
  floor = floor.new,
  packs = packs.list,
  rules = packs.own_rules,
  standard = packs.own_standard,
  homework = homework,
  obstruction = obstruction.new,
  prop = fix.prop,
  repair_kind = fix.add,
  sweep = sweep.new,
  merge_shards = sweep.merge,
  odds = odds.new,
  size_sister = size.sister,
  size_strap = size.strap,
  length = units.length,
  load = units.load,
  write = file.write,
  compare = compare.runs,
  recheck = recheck.of,
  read_survey = survey.read,
  survey_template = template.of,
  field_sheet = field_sheet.new,
  beam = of_fields("beam", core.beam),
  section = of_fields("section", core.section),
  fastener = fastener,
  lateral = fastener.lateral,
  johansen = johansen.of,
  withdrawal = fastener.withdrawal,
  lumber = lumber,
  units = units,
  report = report,
  plot = plot,
  package = package,
  document = document,
  table = tables,
  workbook = workbook,
}

report.sensitivity = sensitivity.text

for kind in pairs(parts.fields) do ns[kind] = parts[kind] end
for kind, new in pairs(fix.new) do ns[kind] = new end
for kind, new in pairs(members.new) do ns[kind] = new end

-- Numbers from first to last by a step, lengths in any form: ns.steps("12-0", "16-0", 6).
function ns.steps(first, last, step)
  local a, b, s = units.length(first), units.length(last), units.length(step)
  if not (a and b and s) or s <= 0 or b < a then
    error("steps: first, last and a step above 0 expected, as lengths", 2)
  end
  local last_step = math.floor((b - a) / s + 1e-9)
  if last_step >= 1e6 then
    error("steps: at most 1000000 values; is the unit of the step right?", 2)
  end
  local list = {}
  for i = 0, last_step do list[#list + 1] = a + i * s end
  return list
end

return ns
