-- SPDX-License-Identifier: MIT
-- Where the fasteners of a member beside the joist stand: groups as given or rows at a
-- pitch, clear of cuts, ends, edges and each other.
local fasten = require "netsection.fix.fasten"
local fastener = require "netsection.fastener"
local units = require "netsection.units"

local rows = {most = 32}
local feet = units.feet_inches

-- What stands where fasteners would go: no fastener in a gap, in rot, in an opening.
local function cut_in_the_way(r, x, half)
  for i, c in ipairs(r.cuts) do
    local cut = r.joist.model.cuts[i]
    local rotten = cut.cause == "rot" or cut.cause == "insects"
    if (cut.kind == "sever" or rotten) and x + half > c.x1 - 1e-9
      and x - half < c.x2 + 1e-9 then
      return c.name, cut.kind == "sever" and "the gap" or "rotten wood and 12 in each way"
    end
  end
end

-- The cut in whose void a fastener would stand, its own diameter clear of it.
local function in_void(r, x, h, D)
  for _, c in ipairs(r.cuts) do
    if x > c.x1 - D and x < c.x2 + D and h > c.y1 - D and h < c.y2 + D
      and c.y2 > c.y1 then
      return c.name
    end
  end
end

-- Whether a row meets a cut, and half the length that it needs. Staggered, a row is as
-- many columns as the layout makes of it.
local function row_in_the_way(f, r, d, x, low, high)
  local g = f.meet and {low = low, high = high, up = d.up, along = d.along}
    or {low = low, high = high, up = 0.1, along = 0}
  local places, half = fasten.group(x, f.per_row, g, f.meet and 2 or 1)
  for _, p in ipairs(places) do
    if in_void(r, p.x, p.h, f.fastener.D) then return true, half end
  end
  return cut_in_the_way(r, x, math.max(half, f.fastener.D)) ~= nil, half
end

-- Rows at a pitch between the ends, none of them where a cut forbids it.
local function rows_at_pitch(f, r, d, low, high)
  local _, half = row_in_the_way(f, r, d, f.from, low, high)
  local ends = (f.ends or math.max(d.ends, 2)) + half
  local a, b = f.from + ends, f.to - ends
  local n = math.max(math.floor((b - a) / f.pitch + 1e-9) + 1, 1)
  local first = a + ((b - a) - (n - 1) * f.pitch) / 2
  local out = {}
  for i = 0, n - 1 do
    local x = first + i * f.pitch
    if not row_in_the_way(f, r, d, x, low, high) then
      out[#out + 1] = {x = x, n = f.per_row}
    end
  end
  return out
end

-- Distances for a force across the grain of both members. Those of D >= 1/4 in are
-- required; below they are recommended, and only what is hardly buildable is refused.
function rows.distances(f, thin)
  local d = fastener.distances {fastener = f.fastener, load = "perpendicular",
    side = "wood", prebored = true, l = thin}
  local D = f.fastener.D
  return {edge = f.edge or math.max(d.loaded_edge.full, d.edge.full),
    least_edge = d.required and d.loaded_edge.minimum or 1.5 * D, up = d.spacing.full,
    along = math.ceil(d.row.full * 4 - 1e-9) / 4, -- a rule is read in quarters
    ends = d.end_distance.full, least_ends = d.required and d.end_distance.minimum
      or 2 * D}
end

-- What is short of a recommendation, for the notes.
local function short_of(f, d)
  if f.least_end < d.ends - 1e-9 then
    f.notes[#f.notes + 1] = ("end distance %.4g in, less than the %.4g in for the full "
      .. "value"):format(f.least_end, d.ends)
  end
end

-- Heights between which fasteners stand in both members.
function rows.zone(f, d, member)
  local low = math.max(0, f.rise) + d.edge
  local high = math.min(member.depth, f.rise + f.d) - d.edge
  return low, high
end

-- Distance of a group to the nearest end that it could tear out of: a free end of the new
-- member, a face of the gap.
local function free_end(f, r, x, half)
  local least, whose = math.huge, ""
  local function consider(distance, name)
    if distance < least then least, whose = distance, name end
  end
  if not f.bears_left then consider(x - half - f.from, "the new member's end") end
  if not f.bears_right then consider(f.to - x - half, "the new member's end") end
  for i, c in ipairs(r.cuts) do
    if r.joist.model.cuts[i].kind == "sever" then
      consider(x < c.x1 and c.x1 - x - half or x - half - c.x2, "the face of the gap")
    end
  end
  return least, whose
end

-- Whether fasteners from both faces meet in the joist: what each reaches into it past its
-- own piece, the tip in it, is more than the joist is thick.
-- @param side thickness of a piece; @param main of the joist, all plies
function rows.meet(f, side, main)
  if f.side ~= "both" or f.fastener.kind == "bolt" then return false end
  return not f.fastener.L or 2 * (f.fastener.L - side) > main + 1e-9
end

-- The band that every group's fasteners reach: what the wood across the grain is held by.
local function heights(f, places)
  local low, high = math.huge, -math.huge
  for _, p in ipairs(places) do
    low, high = math.min(low, p.h), math.max(high, p.h)
  end
  f.low, f.high = math.max(f.low or low, low), math.min(f.high or high, high)
end

-- Two fasteners on one another, or nil.
local function crowded(f)
  local least = 2.5 * f.fastener.D
  for i, p in ipairs(f.layout) do
    for j = i + 1, #f.layout do
      local q = f.layout[j]
      local apart = p.piece ~= q.piece and not f.meet
      if not apart and (p.x - q.x) ^ 2 + (p.h - q.h) ^ 2 < least ^ 2 - 1e-9 then
        return ("fasteners at %s and %s stand within %.4g in of each other"):format(
          feet(p.x), feet(q.x), least)
      end
    end
  end
end

-- From the far face the same places once more, where they do not meet the near ones and
-- are not the same bolts.
local function both_faces(f, places)
  if f.side ~= "both" or f.fastener.kind == "bolt" then return end
  for _, p in ipairs(places) do
    f.layout[#f.layout + 1] = {x = p.x, h = p.h, D = f.fastener.D, piece = 2}
  end
end

function rows.place_groups(f, r, d, low, high)
  local given = #f.groups > 0 and f.groups
    or rows_at_pitch(f, r, d, low, high)
  if #given > rows.most then
    return nil, ("%d rows of fasteners; at most %d: widen the pitch"):format(#given,
      rows.most)
  end
  if #given == 0 then
    return nil, "no row of fasteners finds sound wood between the ends of the new member"
  end
  f.stations, f.layout = {}, {}
  f.staggered = f.meet and d.along or nil
  for i, g in ipairs(given) do
    if g.x < f.from - 1e-9 or g.x > f.to + 1e-9 then
      return nil, ("the group at %s is not on the new member"):format(feet(g.x))
    end
    local places, half = fasten.group(g.x, g.n, {low = low, high = high, up = d.up,
      along = d.along}, f.meet and 2 or 1)
    local name, why = cut_in_the_way(r, g.x, half)
    if name then
      return nil, ("the fasteners at %s would stand in %s (%s)"):format(feet(g.x), why,
        name)
    end
    local to_end, whose = free_end(f, r, g.x, half)
    if to_end < d.least_ends - 1e-9 then
      return nil, ("the fasteners at %s are %.4g in from %s; at least %.4g in is needed")
        :format(feet(g.x), math.max(to_end, 0), whose, d.least_ends)
    end
    f.least_end = math.min(f.least_end or math.huge, to_end)
    heights(f, places)
    f.stations[i] = {x = g.x, n = g.n}
    for _, p in ipairs(places) do
      local void = in_void(r, p.x, p.h, f.fastener.D)
      if void then
        return nil, ("a fastener of the group at %s would stand in %s"):format(feet(g.x),
          void)
      end
      f.layout[#f.layout + 1] = {x = p.x, h = p.h, D = f.fastener.D, piece = p.piece}
    end
    if not f.meet then both_faces(f, places) end
  end
  local reason = crowded(f)
  if reason then return nil, reason end
  short_of(f, d)
  return true
end

return rows
