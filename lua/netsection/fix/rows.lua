-- SPDX-License-Identifier: MIT
-- Where the fasteners of a member beside the joist stand: groups as given or rows at a
-- pitch, clear of cuts, ends, edges and each other.
local core = require "netsection.core"
local fasten = require "netsection.fix.fasten"
local fastener = require "netsection.fastener"
local lane = require "netsection.lane"
local voids = require "netsection.fix.voids"

local rows = {most = 32}

-- The band that a group at x stands in: that of all, less what is lost of the faces.
local function band(f, d, x)
  return voids.band(f.voids, x - d.cut_ends, x + d.cut_ends, f.zone.low, f.zone.high,
    d.edge)
end

local function group_at(f, d, x, n)
  local low, high = band(f, d, x)
  if low > high + 1e-9 then return nil end
  return fasten.group(x, n, {low = low, high = high, up = d.up, along = d.along},
    f.meet and 2 or 1)
end

-- A row at a pitch is left out where a cut would lower the value of all of them.
local function stands_clear(f, d, x)
  local places = group_at(f, d, x, f.per_row)
  for _, p in ipairs(places or {}) do
    if voids.nearest(f.voids, p.x, p.h, d.edge) < d.cut_ends - 1e-9 then return false end
  end
  return places ~= nil
end

-- Rows at a pitch between the ends, half a row's own length in from them, none of them
-- where a cut forbids it.
local function rows_at_pitch(f, d)
  local _, half = group_at(f, d, f.from, f.per_row)
  local ends = (f.ends or math.max(d.ends, 2)) + (half or 0)
  local a, b = f.from + ends, f.to - ends
  local n = lane.same(lane.max(lane.floor((b - a) / f.pitch + 1e-9) + 1, 1))
  local first = a + ((b - a) - (n - 1) * f.pitch) / 2
  local out = {}
  for i = 0, n - 1 do
    local x = first + i * f.pitch
    if stands_clear(f, d, x) then out[#out + 1] = {x = x, n = f.per_row} end
  end
  return out
end

-- Distances for a force across the grain of both members. Those of D >= 1/4 in are
-- required; below they are recommended, and only what is hardly buildable is refused.
function rows.distances(f, thin)
  local d = fastener.distances {fastener = f.fastener, load = "perpendicular",
    side = "wood", prebored = f.prebored, l = thin}
  local along = fastener.distances {fastener = f.fastener, load = "parallel",
    force = "tension", side = "wood", prebored = f.prebored}.end_distance
  local D = f.fastener.D
  return {edge = f.edge or lane.max(d.loaded_edge.full, d.edge.full),
    least_edge = d.required and d.loaded_edge.minimum or 1.5 * D, up = d.spacing.full,
    along = lane.ceil(d.row.full * 4 - 1e-9) / 4, -- a rule is read in quarters
    ends = d.end_distance.full, least_ends = d.required and d.end_distance.minimum
      or 2 * D,
    -- to the face of a cut, along the grain: an end in tension
    cut_ends = along.full, least_cut = d.required and along.minimum or 2 * D,
    required = d.required, row = d.row.full, pitch = d.spacing.minimum,
    rows_apart = d.rows_apart}
end

-- What is short of a recommendation, for the notes.
local function short_of(f, d)
  if lane.working then return end -- notes are one joist's
  if f.least_end < d.ends - 1e-9 then
    f.notes[#f.notes + 1] = ("end distance %s, less than the %s for the full "
      .. "value"):format(f.show.exact(f.least_end), f.show.exact(d.ends))
  end
  if f.least_cut < d.cut_ends - 1e-9 then
    f.notes[#f.notes + 1] = ("%s along the grain to %s, less than the %s for "
      .. "the full value"):format(f.show.exact(f.least_cut), f.cut_near,
      f.show.exact(d.cut_ends))
  end
end

-- Heights between which fasteners stand in both members.
function rows.zone(f, d, member)
  local low = lane.max(0, f.rise) + d.edge
  local high = lane.min(member.depth, f.rise + f.d) - d.edge
  return low, high
end

-- Distance of a group to the nearest end that it could tear out of: the joist's own, a
-- free one of the new member.
local function free_end(f, r, x, half)
  local m, L = r.joist.model, 0
  for _, span in ipairs(m.span) do L = L + span end
  local least, whose = math.huge, ""
  local function consider(distance, name)
    if lane.is(distance) or lane.is(least) then
      least, whose = lane.min(least, distance), lane.mark
    elseif distance < least then
      least, whose = distance, name
    end
  end
  consider(x - half + lane.max(m.overhang_left, m.bearing[1] / 2), "the joist's end")
  consider(L + lane.max(m.overhang_right, m.bearing[#m.bearing] / 2) - x - half,
    "the joist's end")
  if not f.bears_left then consider(x - half - f.from, "the new member's end") end
  if not f.bears_right then consider(f.to - x - half, "the new member's end") end
  return least, whose
end

-- Whether a fastener keeps its distance from every cut, or the reason why not.
local function clear_of_cuts(f, d, at, p)
  local along, void = voids.nearest(f.voids, p.x, p.h, d.least_edge)
  if lane.is(along) or lane.is(f.least_cut) then
    f.least_cut = lane.min(f.least_cut, along)
  elseif along < f.least_cut then
    f.least_cut, f.cut_near = along, void.name
  end
  if along >= d.least_cut - 1e-9 then return true end
  if not void then return nil, lane.mark end -- each of many has its own
  local across = lane.max(void.h1 - p.h, p.h - void.h2)
  if void.whole or along <= 1e-9 and across <= 1e-9 then
    return nil, ("the fasteners at %s would stand in %s (%s)"):format(f.show.place(at),
      void.what,
      void.name)
  elseif void.h1 <= 0 and void.h2 >= f.depth - 1e-9 then
    return nil, ("the fasteners at %s are %s from the face of the gap (%s); at "
      .. "least %s is needed"):format(f.show.place(at), f.show.exact(along), void.name,
      f.show.exact(d.least_cut))
  end
  return nil, ("a fastener of the group at %s is %s along the grain and %s "
    .. "across it from %s; %s along or %s across is needed"):format(f.show.place(at),
    f.show.exact(lane.max(along, 0)), f.show.exact(lane.max(across, 0)), void.name,
    f.show.exact(d.least_cut), f.show.exact(d.least_edge))
end

-- Whether fasteners from both faces meet in the joist: what each reaches into it past its
-- own piece, the tip in it, is more than the joist is thick.
-- @param side thickness of a piece; @param main of the joist, all plies
function rows.meet(f, side, main)
  if f.side ~= "both" or f.fastener.kind == "bolt" then return false end
  return not f.fastener.L or 2 * (f.fastener.L - side) > main + 1e-9
end

-- What holds a group across the grain: its lowest and highest fastener, the wood there.
local function held(f, x, half, places)
  local low, high = math.huge, -math.huge
  for _, p in ipairs(places) do
    low, high = lane.min(low, p.h), lane.max(high, p.h)
  end
  local bottom, top, lost = voids.wood(f.voids, x - half, x + half, low, high, f.depth)
  return {low = low, high = high, bottom = bottom, top = top, lost = lost}
end

-- Two fasteners of a group on one another or of two groups, or two lines of them nearer
-- than rows may stand across the grain, 2.5D, or nil.
local function crowd(f, d, p, q)
  local least = 2.5 * f.fastener.D
  local along, up = lane.abs(p.x - q.x), lane.abs(p.h - q.h)
  if along * along + up * up < least * least - 1e-9 then
    return ("fasteners at %s and %s stand within %s of each other"):format(
      f.show.place(p.x), f.show.place(q.x), f.show.exact(least))
  elseif d.required and along > 1e-6 and along < d.row - 1e-9 then
    return ("fasteners at %s and %s: their lines are %s apart; at least %s "
      .. "is needed"):format(f.show.place(p.x), f.show.place(q.x),
      f.show.exact(along), f.show.exact(d.row))
  end
end

-- Groups that stand so far apart that no two of their fasteners do are passed over.
local function crowded(f, d)
  local far = lane.max(2.5 * f.fastener.D, d.row)
  local near, of = {}, f.of_group
  for i, a in ipairs(f.stations) do
    near[i] = {[i] = true}
    for j = i + 1, #f.stations do
      local b = f.stations[j]
      near[i][j] = lane.abs(a.x - b.x) - a.half - b.half <= far
    end
  end
  for i, p in ipairs(f.layout) do
    for j = i + 1, #f.layout do
      local q = f.layout[j]
      local meet = p.piece == q.piece or f.meet
      local why = meet and near[of[i]][of[j]] and crowd(f, d, p, q)
      if why then return why end
    end
  end
end

-- From the far face the same places once more, where they do not meet the near ones and
-- are not the same bolts.
local function both_faces(f, places)
  if f.side ~= "both" or f.fastener.kind == "bolt" then return end
  for _, p in ipairs(places) do
    f.layout[#f.layout + 1] = {x = p.x, h = p.h, D = f.fastener.D, piece = 2}
    f.of_group[#f.layout] = #f.stations
  end
end

-- Places one group. @return true, or nil and a reason
local function place(f, r, d, g)
  if g.x < f.from - 1e-9 or g.x > f.to + 1e-9 then
    return nil, ("the group at %s is not on the new member"):format(f.show.place(g.x))
  end
  local places, half, fullest = group_at(f, d, g.x, g.n)
  if not places then
    return nil, ("the wood left at %s is too shallow for fasteners: %s to each edge "
      .. "is needed"):format(f.show.place(g.x), f.show.exact(d.edge))
  end
  local to_end, whose = free_end(f, r, g.x, half)
  if to_end < d.least_ends - 1e-9 then
    return nil, ("the fasteners at %s are %s from %s; at least %s is needed")
      :format(f.show.place(g.x), f.show.exact(lane.max(to_end, 0)), whose,
      f.show.exact(d.least_ends))
  end
  f.least_end = lane.min(f.least_end, to_end)
  for _, p in ipairs(places) do
    local ok, why = clear_of_cuts(f, d, g.x, p)
    if not ok then return nil, why end
    f.layout[#f.layout + 1] = {x = p.x, h = p.h, D = f.fastener.D, piece = p.piece}
    f.of_group[#f.layout] = #f.stations + 1
  end
  f.stations[#f.stations + 1] = {x = g.x, n = g.n, half = half,
    held = held(f, g.x, half, places), fullest = fullest}
  if not f.meet then both_faces(f, places) end
  return true
end

-- Wood that shrinks between outer rows which one steel plate holds apart splits: on steel
-- they stand no more than 5 in apart, about the middle of the wood there.
local function on_steel(f, d, low, high)
  if not (f.steel and d.rows_apart) then return low, high end
  local a, b = voids.band(f.voids, f.from, f.to, low, high, d.edge)
  if b - a > d.rows_apart then
    f.held_apart = d.rows_apart
    return (a + b - d.rows_apart) / 2, (a + b + d.rows_apart) / 2
  end
  return low, high
end

-- Stations and layout of f, each fastener looked at.
-- @return true, or nil and a reason
function rows.place_groups(f, r, d, low, high)
  f.voids, f.depth = voids.of(r), r.joist.model.d
  low, high = on_steel(f, d, low, high)
  f.zone = {low = low, high = high}
  local given = #f.groups > 0 and f.groups
    or rows_at_pitch(f, d)
  if #given > rows.most then
    return nil, ("%d rows of fasteners; at most %d: widen the pitch"):format(#given,
      rows.most)
  end
  if #given == 0 then
    return nil, "no row of fasteners finds sound wood between the ends of the new member"
  end
  f.stations, f.layout, f.of_group = {}, {}, {}
  f.least_end, f.least_cut = math.huge, math.huge
  f.staggered = f.meet and d.along or nil
  for _, g in ipairs(given) do
    local ok, why = place(f, r, d, g)
    if not ok then return nil, why end
  end
  local reason = crowded(f, d)
  if reason then return nil, reason end
  short_of(f, d)
  return true
end

local function first(a)
  return lane.is(a) and core.lane(a, 1) or a
end

-- Geometry factor of the groups: by ends as for a force across the grain, by cuts as for
-- an end in tension.
function rows.geometry(f, d, thin)
  -- below 1/4 in it is 1 at any distance; above, joists that differ in it are parted
  local same = d.required and lane.same or first
  local C = fastener.C_delta {fastener = f.fastener, load = "perpendicular",
    end_distance = same(lane.min(f.least_end, d.ends)), l = thin, spacing = d.up}
  if f.least_cut >= d.cut_ends then return C, 1 end
  return C, fastener.C_delta {fastener = f.fastener, load = "parallel",
    force = "tension", end_distance = same(f.least_cut)}.C_delta
end

-- Many fasteners across the depth hold the wood while it shrinks, and split it.
function rows.splitting(f)
  for _, g in ipairs(f.stations) do
    if g.n > 5 then
      return "many fasteners across the depth split wood that still dries: staggered "
        .. "columns as listed, lead holes, dry wood on both sides"
    end
  end
end

-- Group action of the group that has the least: the fullest column at its
-- pitch. Loaded across the grain, a member counts over its thickness times the width of
-- the group; of one column, the least spacing along the grain, 3D.
-- @param t {main = {E =, b =}, side = {E =, b =, steel = grade or nil}}, b of one plane
-- @return result of fastener.Cg
function rows.group_action(f, t)
  local worst
  for _, g in ipairs(f.stations) do
    local width = g.fullest.width > 0 and g.fullest.width or 3 * f.fastener.D
    local r = fastener.Cg {fastener = f.fastener, n = g.fullest.n,
      spacing = g.fullest.n > 1 and g.fullest.s or nil,
      main = {E = t.main.E, A = t.main.b * width},
      side = {E = t.side.E, steel = t.side.steel, A = t.side.b * width}}
    r.Cg = lane.min(r.Cg, 1) -- above by the last digit where the members are stiff
    r.n, r.s, r.width = g.fullest.n, g.fullest.s, width
    if worst and (lane.is(r.Cg) or lane.is(worst.Cg)) then
      worst.Cg = lane.min(worst.Cg, r.Cg)
    elseif not worst or r.Cg < worst.Cg then
      worst = r
    end
  end
  return worst
end

return rows
