-- SPDX-License-Identifier: MIT
-- The joists beside: what a repair or a cut puts on them, and whether they bear it.
local part = require "netsection.fix.part"
local review = require "netsection.review"
local standing = require "netsection.standing"

local neighbours = {}

-- A joist that is not described: like this one without its cuts, under the line and area
-- loads that this one has; what stands at a point is this one's alone.
local function supposed(case, side)
  local loads = {}
  for _, load in ipairs(case.joist.description.loads or {}) do
    if load.kind == "area" or load.kind == "line" then loads[#loads + 1] = load end
  end
  return case.joist:bare():changed {mark = ("%s, %s"):format(case.model.mark, side),
    loads = #loads > 0 and loads or nil}
end

-- The joist on a side, and whether it is described.
function neighbours.of(case, side)
  local j = case[side]
  if j then return j, true end
  if case.row.left or case.row.right then return nil end
  return supposed(case, side), false
end

-- What stands beside the result where the joist on a side is not described.
function neighbours.supposed(case)
  local loads = false
  for _, load in ipairs(case.joist.description.loads or {}) do
    loads = loads or load.kind == "area" or load.kind == "line"
  end
  return ("not described: taken to be like this one, without cuts%s"):format(loads
    and ", under the same line and area loads" or "")
end

-- One check that stands for the whole review of a joist that takes load.
local function check_of(state, role, mark)
  local worst = state.governing_check
  local k = {mode = "neighbour", member = role, name = mark, binding = true,
    demand = state.ratio, capacity = 1, ratio = state.ratio, unit = "",
    clause = "its own review", combination = worst and worst.combination,
    at = worst and worst.at or state.governing_at, governing = worst, branch = 1}
  return setmetatable(k, {__index = function(_, field)
    if field == "steps" then return worst and worst.steps or {} end
  end})
end

neighbours.check_of = check_of

-- The joist under more load, with its own repair where it has one.
local function loaded_joist(joist, loads, changes)
  local all = {}
  for _, load in ipairs(joist.description.loads or {}) do all[#all + 1] = load end
  for _, load in ipairs(loads) do all[#all + 1] = load end
  local t = {loads = all}
  for name, value in pairs(changes or {}) do t[name] = value end
  local loaded, problems = joist:changed(t)
  if loaded and joist.repair then loaded, problems = loaded:fixed(joist.repair.given) end
  if not loaded then return nil, problems[1].text end
  return loaded
end

-- A neighbor with more load, reviewed. Who takes load must stand: one that is out is no
-- neighbor; one that needs a repair which it does not have is told in 'first'.
-- @param changes fields of the loaded joist; loads are added to its own
-- @return entry for fixed.neighbours and its check; or nil and a reason
function neighbours.load(case, joist, role, loads, changes)
  local mark = joist.model.mark
  local out = standing.not_after(joist, case.options)
  if out then return nil, ("joist %s would take load and %s"):format(mark, out) end
  local loaded, why = loaded_joist(joist, loads, changes)
  if not loaded then return nil, why end
  local r = loaded.repair and loaded:review(case.options)
    or review.of(loaded, case.options)
  if not r.computed then return nil, ("%s: %s"):format(r.mark, r.reasons[1]) end
  local state = loaded.repair and r.fixed or r.cut
  if state.refused then
    return nil, ("joist %s would take load, and its own repair is inadequate under it "
      .. "(%s)"):format(mark, state.refused)
  end
  local cut = not joist.repair and #joist.model.cuts > 0
  local unfit = cut and (standing.unfit(standing.as_it_is(joist, case.options))
    or standing.unfit(r))
  return {mark = mark, role = role, review = r, ratio = state.ratio,
    status = state.status, checks = state.checks, joist = loaded, repaired = joist.repair
      and state.title or nil,
    first = unfit and ("%s must be repaired first (%s)"):format(mark, unfit) or nil},
    check_of(state, role, mark)
end

-- Puts a neighbor and its check with an assessment; what keeps it from taking load makes
-- the repair fail.
function neighbours.add(a, entry, check)
  a.neighbours[#a.neighbours + 1], a.checks[#a.checks + 1] = entry, check
  a.failing = a.failing or {}
  a.failing[#a.failing + 1] = entry.first
end

-- The loads of a joist that carries nothing any more, as they come to a joist beside it.
-- @param m its model; @param width inches of its floor that go there;
--   @param share part of its own line and point loads that go there
-- @return descriptions of loads, from its left bearing
function neighbours.shed_loads(m, width, share)
  local out = {}
  for _, of in ipairs {{"dead", "dead"}, {"live", "live"}, {"roof_live", "roof live"},
    {"snow", "snow"}} do
    local w = (m[of[1]] or 0) * width / 12
    if w > 0 then
      out[#out + 1] = {kind = "line", load = part.per_foot(w), case = of[2]}
    end
  end
  for _, l in ipairs(m.lines) do
    local w1, w2 = part.plf(l, m)
    local k = l.area and width / m.spacing or share
    if k > 0 then
      out[#out + 1] = {kind = "line", load = part.per_foot(w1 * k),
        to_load = part.per_foot(w2 * k), case = l.case,
        from = not l.whole and l.from or nil, to = not l.whole and l.to or nil}
    end
  end
  for _, p in ipairs(m.points) do
    if p.P * share > 0 then
      out[#out + 1] = {kind = "point", at = p.at, load = p.P * share, case = p.case}
    end
  end
  return out
end

-- Both neighbors with what a joist sheds.
-- @param shares {left = {width =, share =}, right = {width =, share =}}
-- @return entries, checks, notes; or nil and a reason
function neighbours.shed(case, shares)
  local entries, checks, notes = {}, {}, {}
  for _, side in ipairs {"left", "right"} do
    local j, known = neighbours.of(case, side)
    if not j then return nil, ("no joist on the %s to take its load"):format(side) end
    local s = shares[side]
    local n, k = neighbours.load(case, j, "neighbour", neighbours.shed_loads(case.model,
      s.width, s.share), {repetitive = j.description.repetitive or 1})
    if not n then return nil, k end
    entries[#entries + 1], checks[#checks + 1] = n, k
    if not known then
      n.assumed = neighbours.supposed(case)
      notes[#notes + 1] = ("the joist on the %s is %s"):format(side, n.assumed)
    end
  end
  return entries, checks, notes
end

return neighbours
