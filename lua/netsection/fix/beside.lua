-- SPDX-License-Identifier: MIT
-- What a sister and side plates have in common: a member beside the joist, tied to it by
-- fasteners, worked out by the core as two beams (csrc/beam/coupled.c).
local core = require "netsection.core"
local fasten = require "netsection.fix.fasten"
local lane = require "netsection.lane"
local model = require "netsection.model"
local plies = require "netsection.fix.plies"
local point = require "netsection.point"
local review = require "netsection.review"
local rows = require "netsection.fix.rows"
local seat = require "netsection.fix.seat"
local site = require "netsection.fix.site"
local units = require "netsection.units"
local tostring = require "netsection.point".text

local beside = {}
local read = model.readers

beside.fields = {"from", "to", "side", "bearing", "lift", "gap_load", "rise", "note"}

local total = model.total

-- Ends of the span that holds x1..x2, or nil.
local function span_of(m, x1, x2)
  local a = 0
  for _, span in ipairs(m.span) do
    if x1 >= a - 1e-6 and x2 <= a + span + 1e-6 then return a, a + span end
    a = a + span
  end
end

-- Length of the bearing whose center is at x; the first where there is none.
local function bearing_at(m, x)
  local at = 0
  for i, b in ipairs(m.bearing) do
    if lane.abs(at - x) < 1e-6 then return b end
    at = at + (m.span[i] or 0)
  end
  return m.bearing[1]
end

local function read_bearing(t, f, found, part)
  local given = t.bearing
  if given == nil then given = t.from == nil and t.to == nil end
  if type(given) == "table" then
    f.bears_left, f.bears_right = given.left == true, given.right == true
  elseif type(given) == "boolean" then
    f.bears_left, f.bears_right = given, given
  else
    found:add(part, "bearing", "true, false or {left =, right =} expected")
  end
end

-- Where it begins and ends. One that bears is cut to the center of its bearings for the
-- model; the piece itself runs over them.
local function read_extent(t, f, m, found, part)
  local L = total(m)
  f.from = t.from ~= nil and read.length(found, part, "from", t.from) or 0
  f.to = t.to ~= nil and read.length(found, part, "to", t.to) or L
  local a, b = span_of(m, lane.max(f.from, 0), lane.min(f.to, L))
  if f.from > f.to then
    found:add(part, "to", "'to' must be beyond 'from'")
  elseif f.bears_left and a and f.from - a > bearing_at(m, a) then
    found:add(part, "from", ("a member that bears on the left begins at its bearing, %s")
      :format(f.show.place(a)))
  elseif f.bears_right and b and b - f.to > bearing_at(m, b) then
    found:add(part, "to", ("a member that bears on the right ends at its bearing, %s")
      :format(f.show.place(b)))
  end
  if f.bears_left and a then f.from = a end
  if f.bears_right and b then f.to = b end
end

local LIFTS = {"none", "unloaded"}

-- Shared with the strap: lift = "none", "unloaded" or a prop.
function beside.read_lift(t, f, m, found, part)
  f.lift = "none"
  for _, c in ipairs(m.cuts) do
    if c.kind == "sever" then f.lift, f.severed = "unloaded", true end
  end
  f.assumed_lift = t.lift == nil and f.severed
  if type(t.lift) == "table" and t.lift.kind == "prop" then
    f.lift = "prop"
    f.prop_at = t.lift.at ~= nil and read.length(found, part, "lift.at", t.lift.at)
      or total(m) / 2
    if t.lift.from_right then f.prop_at = total(m) - f.prop_at end
    f.prop = t.lift.force ~= nil and read.load(found, part, "lift.force", t.lift.force,
      "point") or 0
    if t.lift.force == nil then found:add(part, "lift.force", "missing") end
  elseif t.lift ~= nil then
    f.lift = read.choice(found, part, "lift", t.lift, LIFTS) or f.lift
  end
end

-- Groups as {at =, n =} or plain places; or rows at a pitch from end to end.
local function read_groups(t, f, found, part)
  f.groups = {}
  if t.groups == nil then return end
  if type(t.groups) ~= "table" or #t.groups < 1 or #t.groups > rows.most then
    found:add(part, "groups", ("a list of 1 to %d groups {at =, n =} expected")
      :format(rows.most))
    return
  end
  for i, g in ipairs(t.groups) do
    local at, n = g, 6
    if type(g) == "table" then at, n = g.at, g.n or 6 end
    local name = ("groups[%d]"):format(i)
    local x = read.length(found, part, name .. ".at", at)
    n = read.whole(found, part, name .. ".n", n, 1, 200)
    if x and n then f.groups[#f.groups + 1] = {x = x, n = n} end
  end
end

-- Reads what is common. @return f with numbers
function beside.read(t, case, found, part)
  local m, notes = case.model, {}
  local f = fasten.read(t, found, part, notes)
  f.notes, f.show = notes, m.show
  read_bearing(t, f, found, part)
  read_extent(t, f, m, found, part)
  beside.read_lift(t, f, m, found, part)
  f.side = read.choice(found, part, "side", t.side or "right", {"left", "right", "both"})
  f.between = read.choice(found, part, "gap_load", t.gap_load or "gap",
    {"gap", "between groups"}) == "between groups"
  f.pitch = read.between(found, part, "pitch", t.pitch or 12, 0.5, 480)
  read_groups(t, f, found, part)
  for _, name in ipairs(t.groups ~= nil and {"pitch", "per_row", "end_distance"} or {}) do
    if t[name] ~= nil then
      found:add(part, name, "not read with groups: their places and counts are given")
    end
  end
  f.rise = t.rise ~= nil and read.length(found, part, "rise", t.rise)
  return f
end

------------------------------------------------------------------------------- fitting

-- What keeps a member beside the joist from serving at all.
local function unsuited(f, case)
  local m = case.model
  local L = total(m)
  if f.to - f.from < 1e-9 then return "it has no length: nothing is changed" end
  if f.from < -m.overhang_left - 1e-6 or f.to > L + m.overhang_right + 1e-6 then
    return "it would run past the joist's end"
  elseif f.from < -1e-6 or f.to > L + 1e-6 then
    return "on an overhang it is not covered: describe the repair by hand"
  elseif not span_of(m, f.from, f.to) then
    return "it crosses an inner bearing: one piece to a span"
  elseif f.severed and f.lift == "none" then
    return "a joist that is cut through carries no dead load of its own: shore it and "
      .. "lift until it carries nothing (lift = \"unloaded\")"
  elseif f.severed and f.lift == "prop" then
    return "one prop does not hold a joist that is cut through: shore both sides (lift = "
      .. "\"unloaded\")"
  end
  local severs = 0
  for i, c in ipairs(m.cuts) do
    local gap = c.kind == "sever" and case.review.cuts[i]
    if c.lost then
      return ("nothing is left to bear on at the %s end: an end sister in a hanger takes "
        .. "its place"):format(c.lost)
    end
    severs = severs + (gap and 1 or 0)
    if gap and (f.from >= gap.x1 or f.to <= gap.x2) then
      return ("it does not reach over the gap (%s)"):format(gap.name)
    end
  end
  if severs > 1 then return "the joist is cut through twice" end
  return beside.prop_reason(f, case)
end

-- Wood that is whole but thinner, as burnt off a face, has no place where it is better.
local function even(cut)
  return cut.kind == "loss" and cut.cause ~= "rot" and cut.cause ~= "insects"
end

--- A free end over a cut hands everything back to the joist just where it is cut.
function beside.end_in_a_cut(f, case)
  for i, c in ipairs(case.review.cuts) do
    local cut = case.model.cuts[i]
    for _, x in ipairs {not f.bears_left and f.from, not f.bears_right and f.to} do
      if x and not even(cut) and not cut.lost and x > c.x1 + 1e-6 and x < c.x2 - 1e-6 then
        return ("it ends at %s, inside %s, where the joist would carry all again: end it "
          .. "on whole wood, d or more past the cut"):format(f.show.place(x), c.name)
      end
    end
  end
end

-- A prop is worked out where its lift is simple, and must not lift the joist's ends.
function beside.prop_reason(f, case)
  if f.lift ~= "prop" then return nil end
  local m = case.model
  local L = total(m)
  if #m.span > 1 or m.overhang_left > 0 or m.overhang_right > 0 then
    return "a prop is worked out for one span without overhangs only"
  elseif f.prop_at <= 0 or f.prop_at >= L then
    return "the prop does not stand under the span"
  end
  local R = case.review.uncut.reaction_range
  local left, right = f.prop * (L - f.prop_at) / L, f.prop * f.prop_at / L
  if left > R[1].dead or right > R[#R].dead then
    return ("a prop of %s would lift the joist off a bearing (dead load there %s "
      .. "and %s)"):format(f.show.force(f.prop, 0),
      f.show.number("force", R[1].dead, 0), f.show.one("force", R[#R].dead, 0))
  end
end

-- What cannot be built beside the joist.
local function unbuildable(f, m, case)
  if f.rise + f.d > m.d + 1e-6 then
    return "its upper edge would stand in the floor above the joist"
  end
  local why
  f.seats, why = seat.fit(case, {rise = f.rise, d = f.d, bears = {left = f.bears_left,
    right = f.bears_right}, hanger = f.hanger ~= nil})
  if not f.seats then return why end
  if f.member == "plates" and (f.bears_left or f.bears_right)
    and lane.abs(f.rise) > 1e-6 then
    return "its lower edge is not level with the joist's: it does not meet the bearing"
  end
end

-- By stiffness only where both bear and the joist is whole; where moment runs on over a
-- bearing, which the new member's end cannot hold, by slip unless it is asked for.
local function share_of(f, m)
  local runs_on = #m.span > 1 or m.overhang_left > 0 or m.overhang_right > 0
  if f.severed or not (f.bears_left and f.bears_right) then return "slip" end
  f.runs_on = runs_on and f.share ~= nil and f.share ~= "slip"
  return f.share or runs_on and "slip" or "stiffness"
end

-- Fasteners at one place of a group: one bolt goes through both pieces, of anything else
-- each face has its own.
function beside.faces(f)
  return f.side == "both" and f.fastener.kind ~= "bolt" and 2 or 1
end

-- The core's fix for a lift.
local function core_fix(f, strength, lift)
  local station, count = {}, {}
  local held = {low = {}, high = {}, bottom = {}, top = {}, lost = {}}
  for i, g in ipairs(f.stations) do
    station[i], count[i] = g.x, g.n * beside.faces(f)
    for name, list in pairs(held) do list[i] = g.held[name] end
  end
  return {kind = "beside", member = f.member, share = f.shares,
    lift = f.shares == "new" and "unloaded" or lift,
      -- nothing is left in what is written off
    bears_left = f.bears_left, bears_right = f.bears_right, between = f.between,
    from = f.from, to = f.to, b = f.b, d = f.d, t = f.Fy and f.t or 0, rise = f.rise,
    E = f.E, Fy = f.Fy or 0,
    station = station, count = count, stiff = strength.stiff, Z = strength.Z,
    C_z = strength.C_z, rated = strength.rated and 1 or 0, low = held.low,
    high = held.high, bottom = held.bottom, top = held.top, lost = held.lost,
    reached = f.reached.b, prop_at = f.prop_at or 0, prop = f.prop or 0, other = f.other,
    cut = 1}
end

local function with_fix(m, fix)
  local out = {}
  for name, value in pairs(m) do out[name] = value end
  out.fix, out.texts = fix, nil
  return out
end

-- Group action: what crosses one plane between joist and new member is shared by the wood
-- on either side of it: of the joist by the plies reached, from both faces by half at
-- most.
local function group_action(f, m)
  local planes = beside.faces(f)
  local half = lane.min(f.reached.one, m.b * m.plies / planes)
  return rows.group_action(f, {main = {E = m.E, b = half},
    side = {E = f.E, b = f.b / planes, steel = f.steel}})
end

-- Joist and new member overlap enough for a column of fasteners; G of both, strength.
local function prepare(f, case, thin, side)
  local m, r = case.model, case.review
  local d = rows.distances(f, thin)
  f.rise = f.rise or ((f.bears_left or f.bears_right) and 0 or m.d - f.d)
  local reason = unbuildable(f, m, case)
  if reason then return nil, reason end
  local low, high = rows.zone(f, d, {depth = m.d})
  if f.edge and f.edge < d.least_edge - 1e-9 then
    return nil, ("edge distance %s, at least %s is needed"):format(
      f.show.exact(f.edge), f.show.exact(d.least_edge))
  elseif low > high + 1e-9 then
    return nil, ("joist and new member overlap too little in height: %s to each "
      .. "edge is needed"):format(f.show.exact(d.edge))
  end
  f.meet = rows.meet(f, thin, m.b * m.plies)
  local ok, why = rows.place_groups(f, r, d, low, high)
  why = why or beside.end_in_a_cut(f, case)
  if not ok or why then return nil, why end
  local C, near = rows.geometry(f, d, thin)
  if C.refused then return nil, C.refused end
  f.reached = plies.reached(f, m, f.b / (f.side == "both" and 2 or 1))
  f.action = not f.rated and group_action(f, m) or nil
  local strength = fasten.strength(f, {double = f.side == "both"
    and f.fastener.kind == "bolt", main = {G = f.G_host, thickness = m.b * m.plies,
    angle = 90}, side = side, moisture = m.moisture, temperature = m.temperature,
    C_delta = lane.min(C.C_delta, near), Cg = f.action and f.action.Cg,
    standard = case.standard})
  if f.action and f.action.Cg < 1 and strength.steps then
    strength.steps = table.move(strength.steps, 1, #strength.steps, #f.action.steps + 1,
      f.action.steps)
  end
  if strength.refused then return nil, strength.refused end
  return strength
end

local function station_name(f, i, r)
  if #f.stations > 8 then return ("row %d"):format(i) end
  local gap = f.gap
  for k, c in ipairs(r.cuts) do
    if r.joist.model.cuts[k].kind == "sever" then gap = c end
  end
  if not gap then return ("group %d"):format(i) end
  local left, right = 0, 0
  for _, g in ipairs(f.stations) do
    if g.x < gap.x1 then left = left + 1 else right = right + 1 end
  end
  if left == 2 and right == 2 then
    return ({"left outer", "left inner", "right inner", "right outer"})[i]
  end
  return ("group %d"):format(i)
end

-- Y range of a piece of thickness b on a side of the joist.
local function across(m, b, side)
  local half = m.b * m.plies / 2
  if side == "left" then return -half - b, -half end
  return half, half + b
end

function beside.pieces(f, case, piece)
  local m, out = case.model, {}
  local sides = f.side == "both" and {"left", "right"} or {f.side}
  local x1 = f.bears_left and f.from - bearing_at(m, f.from) / 2 or f.from
  local x2 = f.bears_right and f.to + bearing_at(m, f.to) / 2 or f.to
  for i, side in ipairs(sides) do
    local y1, y2 = across(m, f.b / #sides, side)
    local p = {x1 = x1, x2 = x2, h1 = f.rise, h2 = f.rise + f.d, y1 = y1, y2 = y2,
      length = x2 - x1, count = 1, side = side}
    for name, value in pairs(piece) do p[name] = value end
    out[i] = p
  end
  return out
end

-- A check of the joist that fails as it did before: the fix does not get there.
local function untouched(a, r)
  local out = {}
  for _, k in ipairs(a.checks) do
    if k.binding and k.ratio and k.ratio > review.full and k.cut then
      local before = r:find("cut", k.mode, k.cut)
      if before and math.abs(before.ratio - k.ratio) < 1e-3 * k.ratio then
        out[#out + 1] = ("the fix does not reach the failing section: %s at %s stays at "
          .. "%s"):format(k.mode, k.name, review.ratio_text(k.ratio))
      end
    end
  end
  return out
end

local function lifting(f, case, strength)
  local out = {}
  for _, lift in ipairs {"none", "unloaded", f.lift == "prop" and "prop" or nil} do
    if not (f.severed and lift ~= "unloaded") then
      local _, s = case:core(with_fix(f.base, core_fix(f, strength, lift)))
      local row = {lift = lift, ratio = s.fixed.ratio}
      for _, k in ipairs(s.fixed.checks) do
        local name = k.member == "host" and k.mode == "host-bending" and "host"
          or k.mode == "bending" and k.member ~= "host" and "new"
        if name and (not row[name] or k.demand > row[name]) then row[name] = k.demand end
      end
      out[#out + 1] = row
    end
  end
  return out
end

local function notes_of(f, a, case)
  local notes = {table.unpack(f.notes)}
  local function add(format, ...) notes[#notes + 1] = point.format(format, ...) end
  if f.assumed_lift then
    add("lift not given: the joist is shored and carries nothing while it is fastened")
  end
  if f.lift == "unloaded" then
    add("dead load is taken to be lifted off everywhere while it is fastened: an "
      .. "idealization")
  elseif f.lift == "none" then
    add("no lift: the dead load stays in the joist alone")
  end
  if f.rated then add("fasteners: the maker's value, used as given") end
  local g = f.action
  if g and g.Cg < 1 then
    add("group action factor %s: %d in a column, %s apart, over %s along the grain "
      .. "(%s)", units.fixed(g.Cg, 3), g.n, f.show.length(g.s, 2),
      f.show.length(g.width, 2), case:rule "group_pairs")
  end
  add("%s", fasten.lead_hole(f.fastener, f.G_host, not f.prebored, f.show))
  if f.held_apart then
    add("outer rows on steel %s apart at most (%s): wood that shrinks "
      .. "between them would split", f.show.diameter(f.held_apart),
      case:rule "outer_rows")
  end
  if f.side == "both" and f.fastener.kind == "bolt" then
    add(f.rated and "one bolt goes through both pieces: the maker's value is that of one "
      .. "bolt" or "one bolt goes through both pieces: double shear (%s)",
      case:rule "double_shear")
  elseif f.staggered then
    add("fasteners from both faces meet in the joist: their columns alternate, %s "
      .. "apart, and the list says from which face", f.show.length(f.staggered, 2))
  end
  if f.written_off then
    add("share = \"new\": from %s to %s the joist counts as cut through, whatever wood "
      .. "is left there; checks of its cuts are shown as written off",
        f.show.place(f.gap.x1),
      f.show.place(f.gap.x2))
  end
  if f.shares ~= "slip" then
    add("share by %s; the fasteners by their slip", f.shares == "new"
      and "writing the old joist off" or "stiffness, both bend alike")
  end
  if f.runs_on then
    add("the moment over a bearing stays in the joist: a new member's end holds none; by "
      .. "stiffness this is a little on the light side")
  end
  add(f.between and "load between the inner groups is put on the new member"
    or "load over a gap is on the new member, load over the stubs stays on the joist")
  if (f.bears_left or f.bears_right) and f.member == "sister"
    and (f.other.Fc_perp or 0) <= 0 then
    add("bearing of the new member not checked: Fc_perp not given")
  end
  add("glue is not counted")
  return notes, a
end

-- Lift past the elastic sag, or past 1/4 in, crushes what has set.
local function lift_cautions(f, s, list)
  if f.lift == "unloaded" and s.fixed.sag_D > 0.25 then
    list[#list + 1] = ("the lift would be about %s, the elastic dead-load sag: over "
      .. "%s, go slowly and look at what stands on it"):format(
      f.show.length(s.fixed.sag_D, 2), f.show.about(0.25))
  end
  return list
end

local function stations_of(f, s, r)
  local out = {}
  for i, g in ipairs(f.stations) do
    local F = s.fixed.stations[i]
    out[i] = {x = g.x, n = g.n, name = station_name(f, i, r), most = F.most,
      least = F.least, full = F.full}
  end
  return out
end

-- The joist with its cuts under the new member written off: cut through from the first to
-- the last, no row between. @return model, the old numbers of its cuts; or nil and why
local function written_off(f, case)
  local m, r = case.model, case.review
  local gap, first
  for i, c in ipairs(r.cuts) do
    if c.own_x2 > f.from and c.own_x1 < f.to then
      gap = gap or {x1 = c.own_x1, x2 = c.own_x2}
      first = first or i
      gap.x1, gap.x2 = math.min(gap.x1, c.own_x1), math.max(gap.x2, c.own_x2)
    end
  end
  if not gap then return nil, "no cut lies under the sister: nothing is written off" end
  if gap.x1 <= f.from or gap.x2 >= f.to then
    return nil, "a cut that is written off runs past the sister's end"
  end
  for _, g in ipairs(f.stations) do
    if g.x > gap.x1 and g.x < gap.x2 then
      return nil, ("the group at %s stands between cuts that are written off: what lies "
        .. "under the sister has to lie between its inner groups"):format(
        f.show.place(g.x))
    end
  end
  local out, numbers = {}, {}
  for name, value in pairs(m) do out[name] = value end
  out.texts, out.cuts = nil, {}
  for i, c in ipairs(m.cuts) do
    local under = r.cuts[i].own_x2 > f.from and r.cuts[i].own_x1 < f.to
    if not under or i == first then
      out.cuts[#out.cuts + 1], numbers[#numbers + 1] = under and {kind = "sever",
        name = c.name, from_right = false, from = gap.x1, to = gap.x2} or c, i
    end
  end
  f.gap, f.numbers = gap, numbers
  return out
end

-- Checks of the cuts that are written off, as the joist had them: shown, deciding
-- nothing.
local function add_written_off(f, case, a)
  for _, k in ipairs(a.checks) do k.cut = k.cut and f.numbers[k.cut] end
  for _, k in ipairs(case.review.cut.checks) do
    local c = k.cut and case.review.cuts[k.cut]
    if c and c.own_x2 > f.from and c.own_x1 < f.to and k.ratio then
      local shown = setmetatable({}, getmetatable(k))
      for name, value in pairs(k) do shown[name] = value end
      shown.binding, shown.name = false, k.name .. ", written off"
      shown.member = "host"
      a.checks[#a.checks + 1] = shown
    end
  end
end

-- The core's model of the joist with it, and the strength of a fastener.
-- @param words {thin =, side =, ...} of the new member
-- @return model, strength; or nil and a reason
function beside.ready(case, f, words)
  local reason = unsuited(f, case)
  if reason then return nil, reason end
  f.shares = share_of(f, case.model)
  local strength, why = prepare(f, case, words.thin, words.side)
  if not strength then return nil, why end
  local m = case.model
  if f.written_off then
    m, why = written_off(f, case)
    if not m then return nil, why end
  end
  f.base = m
  return with_fix(m, core_fix(f, strength, f.lift)), strength
end

-- Why the core cannot work the two together.
local function unworkable(f, s)
  if not s.text:find "mechanism" then
    return ("%s: %s"):format(s.field or "fix", s.text)
  elseif f.severed then
    return "the groups do not hold the two together: at least two on each side of the gap"
  end
  return "one group does not hold the new member: two at least, apart"
end

-- The same for a sweep, which varies loads alone.
function beside.lanes(case, f, words)
  local m, why = beside.ready(case, f, words)
  if not m then return nil, why end
  -- of many the core names those that it cannot work, when it works them
  if lane.of(m) then return m end
  local raw, s = case:core(m)
  if not raw then return nil, unworkable(f, s) end
  return m
end

-- @param words {thin =, side =, piece =, new =} of the new member
-- @return assessment, or nil and a reason
function beside.assess(case, f, words)
  local m, strength = beside.ready(case, f, words)
  if not m then return nil, strength end
  local raw, s = case:core(m)
  if not raw then return nil, unworkable(f, s) end
  local a = review.assessment(raw, m, case.standard, s.fixed, false)
  for _, k in ipairs(a.checks) do
    if k.mode == "fasteners" then k.extra_steps = strength.steps end
  end
  if f.written_off then add_written_off(f, case, a) end
  a.model, a.share = m, s.fixed.share
  a.stations = stations_of(f, s, case.review)
  a.own_reactions = s.fixed.own_reactions
  a.pieces = beside.pieces(f, case, words.piece)
  a.layout = f.layout
  a.fasteners = {{fastener = tostring(f.fastener), count = #f.layout,
    where = words.new .. " to joist", D = f.fastener.D}}
  a.notes = notes_of(f, a, case)
  for _, text in ipairs(untouched(a, case.review)) do a.notes[#a.notes + 1] = text end
  a.cautions = lift_cautions(f, s, site.cautions())
  a.cautions[#a.cautions + 1] = rows.splitting(f)
  plies.say(f.reached, case, a.notes, a.cautions)
  a.sequence = site.sequence(f, {new = words.new})
  a.lifting = lifting(f, case, strength)
  a.x1, a.x2 = f.from, f.to
  return a
end

-- Modulus and values of wood beside the joist.
function beside.values(o, standard)
  local other = {}
  for _, name in ipairs {"Fb", "Ft", "Fv", "Fc_perp", "Fc", "Emin", "CF", "CF_t", "CF_c",
    "wet", "temperature", "incised"} do
    other[name] = o[name]
  end
  return other, core.adjust(lane.first(o), standard.core, "E").value
end

return beside
