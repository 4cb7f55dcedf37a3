-- SPDX-License-Identifier: MIT
-- What a repair takes off the joists beside, by the grid under all loads of the floor:
-- shown beside a ranking, whose order does not depend on it.
local grid = require "netsection.grid"
local error = require "netsection.raise".error

local relief = {}

local function reviews_of(floor, packs)
  local found, list = floor:review(packs), {}
  for i, mark in ipairs(found.order) do list[i] = found.joists[mark] end
  return list
end

local function grid_of(floor, t, state, packs)
  local o = {uniform = true, state = state}
  for name, value in pairs(t) do o[name] = value end
  return grid.of(floor, reviews_of(floor, packs), o)
end

-- The floor as it is. @param t options of floor:grid without loads and state
-- @return grid; raises a text for bad options and where there is none
function relief.before(floor, t, packs)
  for _, name in ipairs {"points", "uniform", "state"} do
    if t[name] ~= nil then error(("grid.%s: not taken here"):format(name), 0) end
  end
  local g, why = grid_of(floor, t, "cut", packs)
  if not g then error(why, 0) end
  return g
end

-- Largest moments of the joists beside, as found and with the repair: {{mark =, before =,
-- after = lb-in}, ...}, or {refused = why}.
function relief.of(floor, mark, fix, t, packs, before)
  local g, why = grid_of(floor:fix(mark, fix), t, "repaired", packs)
  if not g then return {refused = why} end
  local list, i = {}, before.index[mark]
  for _, k in ipairs {i - 1, i + 1} do
    local name = before.order[k]
    if name then
      list[#list + 1] = {mark = name, before = before:of(name).M_max,
        after = g:of(name).M_max}
    end
  end
  return list
end

-- In a line. @param show the system of units
function relief.said(list, show)
  if list.refused then return "sharing by the grid: not computed: " .. list.refused end
  local parts = {}
  for i, n in ipairs(list) do
    parts[i] = ("%s from %s to %s"):format(n.mark, show.number("moment", n.before, 0),
      show.number("moment", n.after, 0))
  end
  return "sharing by the grid, not in the order: M " .. table.concat(parts, ", ")
    .. " " .. show.unit.moment
end

return relief
