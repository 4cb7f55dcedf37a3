-- SPDX-License-Identifier: MIT
-- The joists that one pair of headers takes off: the one that is repaired and those
-- beside it that carry nothing either, up to the next joists that stand, the trimmers.
local neighbours = require "netsection.fix.neighbours"
local part = require "netsection.fix.part"
local standing = require "netsection.standing"

local run = {most = 3}

-- The distance between two joists in a row, by what both say of it.
local function bay(a, b)
  local _, after = part.sides(a)
  local before = part.sides(b)
  return (after + before) / 2
end

-- Joists beyond this one on a side that are out as well, nearest first, and the first
-- that stands; nil and a reason where the floor ends before.
local function beyond(case, side)
  local taken, joist = {}, case.joist
  local names = {case.model.mark}
  while true do
    local next_ = (joist.row or {})[side]
    if not next_ then
      if #taken == 0 then
        local stands = neighbours.of(case, side)
        if stands then return taken, stands end
        return nil, ("no joist on the %s to carry a header"):format(side)
      end
      return nil, ("%s are out and reach the edge of the floor on the %s: no joist there "
        .. "to carry a header"):format(table.concat(names, ", "), side)
    end
    if not standing.not_after(next_, case.options) then return taken, next_ end
    taken[#taken + 1], joist = next_, next_
    names[#names + 1] = next_.model.mark
  end
end

-- @return {joists = from left to right, y = their places from the left trimmer, z = from
--   the right one, width = between the trimmers, own = number of the joist repaired,
--   left =, right = trimmers, known = {left =, right = whether they are described}}; or
--   nil and a reason
function run.of(case)
  local before, left = beyond(case, "left")
  if not before then return nil, left end
  local after, right = beyond(case, "right")
  if not after then return nil, right end
  local joists = {}
  for i = #before, 1, -1 do joists[#joists + 1] = before[i] end
  joists[#joists + 1] = case.joist
  table.move(after, 1, #after, #joists + 1, joists)
  if #joists > run.most then
    local marks = {}
    for i, j in ipairs(joists) do marks[i] = j.model.mark end
    return nil, ("%s would hang on one header: more than %d joists need a beam"):format(
      table.concat(marks, ", "), run.most)
  end
  local o = {joists = joists, own = #before + 1, left = left, right = right, y = {},
    z = {},
    known = {left = #before > 0 or case.left ~= nil, right = #after > 0
      or case.right ~= nil}}
  o.y[1] = part.sides(joists[1])
  for i = 2, #joists do o.y[i] = o.y[i - 1] + bay(joists[i - 1], joists[i]) end
  local _, last = part.sides(joists[#joists])
  o.z[#joists] = last
  for i = #joists - 1, 1, -1 do o.z[i] = o.z[i + 1] + bay(joists[i], joists[i + 1]) end
  o.width = o.y[#joists] + last
  return o
end

-- What two lists of dead and live loads on the headers, {D =, L =} by joist, put on each
-- trimmer: the lever rule, from either side, so that equal sides have equal bits.
-- @return {left = {D =, L =}, right = {D =, L =}}
function run.ends(o, loads)
  local ends = {left = {D = 0, L = 0}, right = {D = 0, L = 0}}
  for i, p in ipairs(loads) do
    local left, right = o.z[i] / o.width, o.y[i] / o.width
    for _, case in ipairs {"D", "L"} do
      ends.left[case] = ends.left[case] + p[case] * left
      ends.right[case] = ends.right[case] + p[case] * right
    end
  end
  return ends
end

return run
