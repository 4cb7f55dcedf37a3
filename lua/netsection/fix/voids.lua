-- SPDX-License-Identifier: MIT
-- Where a fastener finds no wood in the joist: gaps, rot, openings, notches, splits, wood
-- that is burnt away. Their edges count as edges and ends of the member.
local lane = require "netsection.lane"

local voids = {}

local function box(list, c, h1, h2, more)
  local b = {name = c.name, x1 = c.own_x1, x2 = c.own_x2, h1 = h1, h2 = h2}
  for name, value in pairs(more or {}) do b[name] = value end
  list[#list + 1] = b
end

-- Rot and insects: nothing is driven in the whole of the length, 12 in further each way
-- included. Burnt or lost otherwise: what is gone of each face, its allowance included;
-- burnt on the sides, the length.
local function loss(list, c, cut, d, show)
  local more = cut.allowance or 0
  if cut.cause == "rot" or cut.cause == "insects" then
    box(list, c, 0, d, {whole = true, what = ("rotten wood and %s each way")
      :format(show.about(cut.extend))})
  elseif cut.cause == "char" and (cut.sides or 0) > 0 then
    box(list, c, 0, d, {whole = true, what = "wood charred on its sides"})
  end
  if (cut.bottom or 0) > 0 then
    box(list, c, 0, cut.bottom + more, {what = "lost wood", face = "bottom"})
  end
  if (cut.top or 0) > 0 then
    box(list, c, d - cut.top - more, d, {what = "lost wood", face = "top"})
  end
end

-- Boxes x1..x2, h1..h2 (up from the joist's bottom edge) without wood.
-- @param r the review of the joist as it is
-- @param but number of a cut that is left out, or nil
-- @return list of {name =, x1 =, x2 =, h1 =, h2 =, what =, whole = true: the boundary
--   has its distance already, face = of a loss}
function voids.of(r, but)
  local list, d = {}, r.joist.model.d
  for i, c in ipairs(r.cuts) do
    local cut = r.joist.model.cuts[i]
    if i == but then goto next end
    if cut.kind == "loss" then
      loss(list, c, cut, d, r.joist.model.show)
    elseif cut.kind == "sever" then
      box(list, c, 0, d, {what = "the gap"})
    else
      box(list, c, c.own_y1, c.own_y2, {what = "a cut"})
    end
    ::next::
  end
  return list
end

-- Where along the joist the nearest void stands whose edges are nearer than `edge` to the
-- height h: distance from x, below 0 inside; the void, of one joist alone.
function voids.nearest(list, x, h, edge)
  local least, which = math.huge, nil
  for _, v in ipairs(list) do
    if lane.max(v.h1 - h, h - v.h2) < edge - 1e-9 then
      local along = lane.max(v.x1 - x, x - v.x2)
      if v.whole then along = lane.pick(lane.less(1e-9, along), math.huge, along) end
      if lane.is(along) or lane.is(least) then
        least = lane.min(least, along)
      elseif along < least then
        least, which = along, v
      end
    end
  end
  return least, which
end

-- Stretches x1..x2 where nothing is driven through a joist, whatever its height: rot,
-- insects, charred sides, and what is lost or cut there.
-- @return list of {x1 =, x2 =, name =} from left to right, none of them touching
function voids.stretches(list)
  local sorted, out = {table.unpack(list)}, {}
  table.sort(sorted, function(p, q) return p.x1 < q.x1 end)
  for _, v in ipairs(sorted) do
    local last = out[#out]
    if last and v.x1 <= last.x2 then
      last.x2 = math.max(last.x2, v.x2)
    else
      out[#out + 1] = {x1 = v.x1, x2 = v.x2, name = v.name}
    end
  end
  return out
end

-- The band low..high without what is lost of the faces from x1 to x2, an edge distance
-- off.
function voids.band(list, x1, x2, low, high, edge)
  for _, v in ipairs(list) do
    if v.face and v.x1 < x2 and v.x2 > x1 then
      if v.face == "bottom" then low = lane.max(low, v.h2 + edge) end
      if v.face == "top" then high = lane.min(high, v.h1 - edge) end
    end
  end
  return low, high
end

-- The wood that holds fasteners from low to high over x1..x2: its lower and upper edge,
-- and the height of what is cut out between them.
function voids.wood(list, x1, x2, low, high, d)
  local bottom, top, lost = 0, d, 0
  for _, v in ipairs(list) do
    local here = lane.both(lane.less(v.x1, x2 + 1e-9), lane.less(x1 - 1e-9, v.x2))
    if here and not v.whole then
      if v.h2 <= low then bottom = lane.pick(here, lane.max(bottom, v.h2), bottom)
      elseif v.h1 >= high then top = lane.pick(here, lane.min(top, v.h1), top)
      else lost = lane.pick(here, lost + v.h2 - v.h1, lost) end
    end
  end
  return bottom, top, lost
end

return voids
