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

neighbours.check_of = check_of

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
    status = r.cut.status, checks = r.cut.checks, joist = loaded}, check_of(r, role)
end

-- What a neighbour says of itself that its ratio does not: cuts that no ratio mends.
function neighbours.caution(entry)
  if entry.status ~= "not permitted" then return nil end
  for _, c in ipairs(entry.review.cuts) do
    if c.status == "not permitted" then
      return ("joist %s takes load and is itself not permitted as it is (%s): it needs a "
        .. "repair of its own first"):format(entry.mark, c.name)
    end
  end
end

-- The loads of a joist that carries nothing any more, as they come to a joist beside it.
-- @param m its model; @param width inches of its floor that go there;
--   @param share part of its own line and point loads that go there
-- @return descriptions of loads, from its left bearing
function neighbours.shed_loads(m, width, share)
  local out = {}
  for _, case in ipairs {"dead", "live"} do
    local w = m[case] * width / 12
    if w > 0 then
      out[#out + 1] = {kind = "line", load = ("%.17g plf"):format(w), case = case}
    end
  end
  for _, l in ipairs(m.lines) do
    local w1, w2 = part.plf(l, m)
    local k = l.area and width / m.spacing or share
    if k > 0 then
      out[#out + 1] = {kind = "line", load = ("%.17g plf"):format(w1 * k),
        to_load = ("%.17g plf"):format(w2 * k), case = l.case,
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

-- Both neighbours with what a joist sheds.
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
      notes[#notes + 1] = ("the joist on the %s is taken to be like this one, without "
        .. "cuts"):format(side)
    end
  end
  return entries, checks, notes
end

return neighbours
