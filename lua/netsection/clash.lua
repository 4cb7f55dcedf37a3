-- SPDX-License-Identifier: MIT
-- Whether a piece of a repair, a box, runs into a thing that stands in the floor: a box
-- too, or a round one that runs along, across or upright. Both in the frame of
-- obstruction.lua.
local clash = {}

-- How far the two may run into each other and still count as touching, in.
local SLIVER = 1 / 16

-- The shift that parts two stretches, below 0 where they are apart.
local function parting(a1, a2, b1, b2)
  return math.min(a2 - b1, b2 - a1)
end

-- Circle of radius r at p, q against a rectangle: depth of the overlap, and the shifts
-- along each of the two axes that would part them.
local function circle(r, p, q, p1, p2, q1, q2)
  local away_p, away_q = math.max(p1 - p, p - p2, 0), math.max(q1 - q, q - q2, 0)
  local depth = r - math.sqrt(away_p * away_p + away_q * away_q)
  if away_p == 0 and away_q == 0 then
    depth = r + math.min(p - p1, p2 - p, q - q1, q2 - q)
  end
  local half_p = math.sqrt(math.max(r * r - away_q * away_q, 0))
  local half_q = math.sqrt(math.max(r * r - away_p * away_p, 0))
  return depth, parting(p - half_p, p + half_p, p1, p2),
    parting(q - half_q, q + half_q, q1, q2)
end

local PLANE = {x = {"y", "h"}, y = {"x", "h"}, h = {"x", "y"}}
local WORDS = {{"y", "across"}, {"h", "in height"}, {"x", "along the joist"}}

-- The shifts along x, y and h that would each part the two; least is how deep they run
-- into each other.
local function shifts(s, box)
  local by, least = {}, math.huge
  for _, n in ipairs {"x", "y", "h"} do
    by[n] = parting(s[n .. 1], s[n .. 2], box[n .. 1], box[n .. 2])
    least = math.min(least, by[n])
  end
  if s.axis and least > 0 then
    local p, q = table.unpack(PLANE[s.axis])
    local depth
    depth, by[p], by[q] = circle((s[p .. 2] - s[p .. 1]) / 2,
      (s[p .. 1] + s[p .. 2]) / 2, (s[q .. 1] + s[q .. 2]) / 2,
      box[p .. 1], box[p .. 2], box[q .. 1], box[q .. 2])
    least = math.min(by[s.axis], depth)
  end
  return by, least
end

-- Whether a placed thing and a box {x1, x2, h1, h2, y1, y2} in the floor's frame run into
-- each other by more than a sliver (1/16 in).
-- @return nil, or {by = least shift of one of them that parts them, in; direction =;
--   at = x of the place}
function clash.meets(thing, box)
  local s = thing.shape
  local by, least = shifts(s, box)
  if least <= SLIVER then return nil end
  local met = {at = (math.max(s.x1, box.x1) + math.min(s.x2, box.x2)) / 2}
  for _, word in ipairs(WORDS) do
    if not met.by or by[word[1]] < met.by then
      met.by, met.direction = by[word[1]], word[2]
    end
  end
  return met
end

-- Whether the thing and the box lie over each other on the plan: who works at the box
-- from below or above has to open a finish that does.
function clash.covers(thing, box)
  local s = thing.shape
  return parting(s.x1, s.x2, box.x1, box.x2) > SLIVER
    and parting(s.y1, s.y2, box.y1, box.y2) > SLIVER
end

-- Whether a thing that runs across passes whole through one of the holes {x, h, D} that
-- a repair keeps open; h in the floor's frame.
function clash.passes(thing, holes)
  local s = thing.shape
  if not thing.across then return false end
  for _, hole in ipairs(holes) do
    local far_x = math.max(math.abs(s.x1 - hole.x), math.abs(s.x2 - hole.x))
    local far_h = math.max(math.abs(s.h1 - hole.h), math.abs(s.h2 - hole.h))
    local reach = math.sqrt(far_x * far_x + far_h * far_h)
    if s.axis == "y" then
      local x, h = (s.x1 + s.x2) / 2 - hole.x, (s.h1 + s.h2) / 2 - hole.h
      reach = math.sqrt(x * x + h * h) + (s.x2 - s.x1) / 2
    end
    if reach <= hole.D / 2 + 1e-6 then return true end
  end
  return false
end

return clash
