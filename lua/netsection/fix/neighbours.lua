-- SPDX-License-Identifier: MIT
-- The joists beside: what a repair or a cut puts on them, and whether they bear it.
local part = require "netsection.fix.part"
local review = require "netsection.review"

local neighbours = {}

-- The joist on a side; one like this without its cuts where the floor is not known.
function neighbours.of(case, side)
  local j = case[side]
  if j then return j, true end
  if case.row.left or case.row.right then return nil end
  return case.joist:bare():changed {mark = ("%s, %s"):format(case.model.mark, side)}
end

-- One check that stands for the whole review of a joist that takes load.
local function check_of(r, role)
  local worst = r.cut.governing_check
  local severed = r.cut.ratio == nil
  local k = {mode = "neighbour", member = role, name = r.mark, binding = true,
    demand = severed and 1e12 or r.cut.ratio, capacity = 1,
    ratio = severed and 1e12 or r.cut.ratio, unit = "", clause = "its own review",
    combination = worst and worst.combination, at = worst and worst.at,
    governing = worst, branch = 1}
  return setmetatable(k, {__index = function(_, field)
    if field == "steps" then return worst and worst.steps or {} end
  end})
end

-- A neighbour with more load, reviewed.
-- @param changes fields of the loaded joist; loads are added to its own
-- @return entry for fixed.neighbours and its check; or nil and a reason
function neighbours.load(case, joist, role, loads, changes)
  local all = {}
  for _, load in ipairs(joist.description.loads or {}) do all[#all + 1] = load end
  for _, load in ipairs(loads) do all[#all + 1] = load end
  local t = {loads = all}
  for name, value in pairs(changes or {}) do t[name] = value end
  local loaded, problems = joist:changed(t)
  if not loaded then return nil, problems[1].text end
  local r = review.of(loaded, case.options)
  if not r.computed then return nil, ("%s: %s"):format(r.mark, r.reasons[1]) end
  return {mark = joist.model.mark, role = role, review = r, ratio = r.cut.ratio,
    checks = r.cut.checks, joist = loaded}, check_of(r, role)
end

neighbours.part = part

return neighbours
