-- SPDX-License-Identifier: MIT
-- Plies of a joist that the fasteners of a repair reach. A ply that none goes through,
-- tip included, takes nothing across the grain at the group; what it
-- carries passes through the plies beside it, where they are fastened to each other.
local lane = require "netsection.lane"

local plies = {}

-- A rounding of lengths must not lose a ply.
local SLACK = 1e-6

-- How many plies one fastener goes through past a piece of thickness 'piece'. A bolt goes
-- through all; what has no length stated is known to be in the first alone.
local function through(fastener, m, piece)
  if fastener.kind == "bolt" then return m.plies end
  local n = fastener.L and lane.same(lane.floor((fastener.L - piece) / m.b + SLACK)) or 1
  return math.max(1, math.min(n, m.plies))
end

-- @param f repair as read, its side and fastener; @param m model of the joist
-- @param piece thickness of the new member on one face, in
-- @return {n = plies reached, from both faces together, b = their thickness,
--   one = thickness reached from one face}
function plies.reached(f, m, piece)
  local one = through(f.fastener, m, piece)
  local both = f.side == "both" and math.min(2 * one, m.plies) or one
  return {n = both, b = both * m.b, one = one * m.b}
end

--- Notes and cautions of a joist of several plies.
-- @param reach of plies.reached; @param case with the joist and the standard in force
function plies.say(reach, case, notes, list)
  local m = case.model
  if m.plies < 2 then return end
  if reach.n >= m.plies then
    notes[#notes + 1] = ("the fasteners go through all %d plies"):format(m.plies)
    return
  end
  notes[#notes + 1] = ("the fasteners reach %d of %d plies: across the grain %s of "
    .. "the joist counts at them (%s)"):format(reach.n, m.plies,
    m.show.length(reach.b, 2), case:rule "across_grain")
  if m.fastened then
    list[#list + 1] = ("the fasteners reach %d of %d plies: what the others carry passes "
      .. "through the fasteners of the plies, which are not checked for it near the "
      .. "groups"):format(reach.n, m.plies)
    return
  end
  list[#list + 1] = ("the fasteners reach %d of %d plies, and the plies are not said to "
    .. "be fastened to each other: what the others carry does not get to the repair by "
    .. "itself; bolt through all of them or fasten the plies together"):format(reach.n,
    m.plies)
end

return plies
