-- SPDX-License-Identifier: MIT
-- Nails that make several plies one member: in a staggered line along them, and more
-- where a load comes on one ply that the others help to carry.
local core = require "netsection.core"
local fasten = require "netsection.fix.fasten"
local fastener = require "netsection.fastener"
local part = require "netsection.fix.part"
local lane = require "netsection.lane"
local tostring = require "netsection.point".text

local nails = {}

-- One nail every so many inches, in turn near either edge, from 3 in off the ends on:
-- closer than codes nail built-up beams (memory).
local EVERY, OFF_END = 6, 3
-- Beside a load half as many again as its force needs (common practice), never fewer.
local MORE, FEWEST = 1.5, 3
-- They stand across the grain over each other: driven ones 10D apart (commentary of
-- the standard, memory), at least 1-1/2 in; a rule is read in quarters.
local APART = 1.5
local SIZES = {"60d", "40d", "30d", "20d", "16d", "12d", "10d", "8d"}

local function apart(nail)
  local d = fastener.distances {fastener = nail, load = "perpendicular", side = "wood"}
  return lane.max(APART, math.ceil(4 * d.spacing.full - 1e-9) / 4)
end

-- Nails of a line along a length, none in the stretches that are no sound wood of the
-- member, which begins at x0; what is said of those.
local function along(length, x0, out, show)
  local n, said = 0, {}
  local last = lane.max(lane.floor((length - 2 * OFF_END) / EVERY + 1e-9), 1)
  -- of many joists a round number of steps, in which few differ; the last ones add none
  local steps = lane.is(last) and math.ceil(core.highest(lane.ceil(last / 16))) * 16
    or last
  for i = 0, steps do
    local x, sound = x0 + OFF_END + i * EVERY, true
    for _, v in ipairs(out) do sound = sound and (x < v.x1 or x > v.x2) end
    if sound then n = n + core.larger(last, i - 1) end
  end
  for i, v in ipairs(out) do
    said[i] = ("%s to %s"):format(show.place(v.x1), show.place(v.x2))
  end
  return lane.is(n) and n or math.tointeger(n), #said > 0 and ", none from "
    .. table.concat(said, " and ") or ""
end

-- The longest common nail that does not come out of two plies of thickness b, and holds.
local function nail_for(case, m)
  local f = {}
  local G = fasten.gravity(f, m.description, {})
  local b, moisture = m.model.b, m.model.moisture
  for _, size in ipairs(SIZES) do
    local nail = fastener {kind = "nail", size = size}
    if nail.L <= 2 * b + 1e-9 then
      local s = fasten.strength({fastener = nail}, {main = {G = G, thickness = b,
        angle = 90}, side = {G = G, thickness = b, angle = 90}, moisture = moisture,
        temperature = case.model.temperature, standard = case.standard})
      if not s.refused then return nail, s, G end
    end
  end
end

-- Of n plies, `loaded` take a load: the most that crosses one joint between plies, by
-- their stiffness.
local function crossing(load, n, loaded)
  local part_ = (n - loaded) / n
  return load.D * part_, load.L * part_
end

-- The check of the nails beside the load that needs most, and how many those are.
local function beside_loads(case, t, s)
  local worst, most
  for _, load in ipairs(t.loads) do
    local D, L = crossing(load, t.n, t.loaded)
    local V, CD, _, combination = part.worst(case.standard, D, L)
    local need = V / (s.Z * lane.min(CD, 1.6) * s.C_z)
    if not most or need > most then
      most, worst = need, {V = V, CD = CD, combination = combination,
        at = load.at or t.at}
    end
  end
  if not worst then return 0 end
  local n = lane.max(lane.ceil(MORE * most - 1e-9), FEWEST)
  local k = case.joint {mode = "fasteners", branch = 1, demand = worst.V, G = worst.V,
    Z = s.Z, C_z = s.C_z, CD = worst.CD, n_f = n, member = t.member,
    name = "nails between plies of " .. t.name, at = worst.at,
    combination = worst.combination}
  k.extra_steps = s.steps
  return n, k
end

-- Members that are nailed alike stand on one line.
local function list(a, name, nail, count, how, G)
  a.fasteners = a.fasteners or {}
  for _, f in ipairs(a.fasteners) do
    if f.how == how and f.fastener == tostring(nail) then
      f.count = f.count + count
      if f.names ~= name then f.names = f.names .. " and " .. name end
      f.where = f.names .. ": " .. how
      return
    end
  end
  a.fasteners[#a.fasteners + 1] = {fastener = tostring(nail), D = nail.D, count = count,
    names = name, how = how, where = name .. ": " .. how,
    hole = {fastener = nail, G_host = G}}
end

--- Adds the nails of a member of several plies, their check and how they are driven.
-- @param t {joist = of the member, n = plies in all, loaded = how many of them a load
--   comes on, loads = {{D =, L =, at =}}, length =, name = "the header at 5'-10\"",
--   member =, at = its place, where = "beside each tail", x0 = where it begins, out =
-- stretches without nails (of voids.stretches)}
function nails.join(a, case, t)
  local joints = t.n - t.loaded
  if joints < 1 then return end
  local nail, s, G = nail_for(case, t.joist)
  if not nail then
    a.notes[#a.notes + 1] = ("the plies of %s are %s thick: no common nail joins two of "
      .. "them; bolt them, which is not designed here"):format(t.name,
        case.model.show.size(
      t.joist.model.b))
    return
  end
  local n, k = beside_loads(case, t, s)
  a.checks[#a.checks + 1] = k
  local show = case.model.show
  local line, none = along(t.length, t.x0 or 0, t.out or {}, show)
  local more = n > 0 and ("; %s more %s, %s apart"):format(lane.text("%d", n), t.where,
    show.about(apart(nail))) or ""
  list(a, t.name, nail, joints * (line + n * #t.loads), ("plies, %sone every %s, in "
    .. "turn %s from top and bottom edge, from %s off the end%s: %s%s"):format(
    joints > 1 and "each to the next, " or "", show.about(EVERY), show.about(1.5),
    show.about(OFF_END), none, lane.text("%d", line), more), G)
  nails.holes(a, nail, G, case.model.show)
end

--- What is said of lead holes, once for each size.
function nails.holes(a, nail, G, show)
  local text = ("%s: %s"):format(tostring(nail), fasten.lead_hole(nail, G, true, show))
  for _, note in ipairs(a.notes) do
    if note == text then return end
  end
  a.notes[#a.notes + 1] = text
end

--- Nails that only hold pieces in place: said, driven, of no strength that is counted.
function nails.hold(a, case, t)
  local nail = fastener {kind = "nail", size = t.size}
  local G = fasten.gravity({}, case.joist.description, {})
  a.fasteners = a.fasteners or {}
  a.fasteners[#a.fasteners + 1] = {fastener = tostring(nail), D = nail.D,
    count = t.count, where = t.where, hole = {fastener = nail, G_host = G}}
  nails.holes(a, nail, G, case.model.show)
end

return nails
