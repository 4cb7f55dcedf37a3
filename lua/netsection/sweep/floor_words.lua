-- SPDX-License-Identifier: MIT
-- Names of the values that a joist has only in its floor: what stands behind each, its
-- unit, and how a name is read. in_floor.lua works them.
local point = require "netsection.point"
local floor_words = {}

-- What stands behind each name: of the grid's answer for one joist, or of its feel.
local OF_GRID = {
  moment = function(r) return r.M_max end,
  ["moment.least"] = function(r) return r.M_min end,
  reaction = function(r) return r.reaction end,
  deflection = function(r) return r.deflection.value end,
  ["share.reactions"] = function(r) return r.share.reactions end,
  ["share.moment"] = function(r) return r.share.moment end,
  ["share.deflection"] = function(r) return r.share.deflection end,
  ["deck.moment"] = function(r) return math.max(r.deck.M_max, -r.deck.M_min) end,
}
local OF_FEEL = {
  deflection = function(row) return row.d end,
  lone_deflection = function(row) return row.lone_d end,
  frequency = function(row) return row.f end,
  lone_frequency = function(row) return row.lone_f end,
  live_deflection = function(row) return row.live end,
}
local UNITS = {moment = "in-lb", ["moment.least"] = "in-lb", reaction = "lb",
  deflection = "in", ["share.reactions"] = "", ["share.moment"] = "",
  ["share.deflection"] = "", ["deck.moment"] = "in-lb/ft", lone_deflection = "in",
  frequency = "Hz", lone_frequency = "Hz", live_deflection = "in", change = "%"}
floor_words.of_grid, floor_words.of_feel = OF_GRID, OF_FEEL

local function names(of)
  local list = {}
  for name in pairs(of) do list[#list + 1] = name end
  table.sort(list, point.less)
  return table.concat(list, ", ")
end

-- "J3.moment" -> "moment", "J3": a mark may have points in it.
local function parted(rest)
  for name in pairs(OF_GRID) do
    if rest == name then return name, nil end
  end
  local best, mark
  for name in pairs(OF_GRID) do
    local head = rest:sub(-#name - 1) == "." .. name and rest:sub(1, -#name - 2)
    if head and head ~= "" and (not best or #name > #best) then
      best, mark = name, head
    end
  end
  return best, mark
end

--- A name of this kind: "grid.share.moment", "grid.J3.moment", "feel.deflection".
-- @param bare the name without its state
-- @return nil where it is none; {grid = or feel = word, mark =}; or false and what is
--   wrong
function floor_words.read(bare)
  local kind, rest = bare:match "^(%l+)%.(.+)$"
  if kind == "grid" then
    local name, mark = parted(rest)
    if name then return {grid = name, mark = mark} end
    return false, ("no value '%s' (takes grid. and %s; grid.J3.moment of another joist)")
      :format(bare, names(OF_GRID))
  elseif kind == "feel" then
    if OF_FEEL[rest] or rest == "change" then return {feel = rest} end
    return false, ("no value '%s' (takes feel. and %s, change)"):format(bare,
      names(OF_FEEL))
  end
end

--- Unit by the name without its state; nil where it is no such name.
function floor_words.unit(bare)
  local o = floor_words.read(bare)
  return o and UNITS[o.grid or o.feel]
end

return floor_words
