-- SPDX-License-Identifier: MIT
-- A sister for a lost end: it bears in a hanger where the joist's seat was and takes the
-- load over the lost length; two groups of fasteners hand the rest of the reaction to the
-- joist, which keeps its far bearing only. Statically determinate: fix/end_statics.lua.
local cautions = require "netsection.cautions"
local beside = require "netsection.fix.beside"
local checks = require "netsection.fix.end_checks"
local fasten = require "netsection.fix.fasten"
local lane = require "netsection.lane"
local model = require "netsection.model"
local ordered = require "netsection.point".pairs
local part = require "netsection.fix.part"
local plies = require "netsection.fix.plies"
local point = require "netsection.point"
local rows = require "netsection.fix.rows"
local sister = require "netsection.fix.sister"
local fastener = require "netsection.fastener"
local site = require "netsection.fix.site"
local statics = require "netsection.fix.end_statics"
local tostring = require "netsection.point".text

local ends = {fields = {"support", "to", "side", "size", "b", "d", "plies", "species",
  "grade", "edition", "material", "fastener", "rated", "slip", "groups",
  "edge_distance", "prebored", "G", "hanger", "note"}}

local read = model.readers

-------------------------------------------------------------------------------- reading

-- Two groups from the lost end's bearing, the inner one first.
local function read_groups(t, f, found, part_)
  f.at = {}
  if type(t.groups) ~= "table" or #t.groups ~= 2 then
    found:add(part_, "groups", "two groups {{at =, n =}, {at =, n =}}, the inner one "
      .. "first, expected")
    return
  end
  for i, g in ipairs(t.groups) do
    local name = ("groups[%d]"):format(i)
    if type(g) ~= "table" then
      found:add(part_, name, "{at =, n =} expected")
    else
      local x = g.at ~= nil and read.length(found, part_, name .. ".at", g.at)
      if g.at == nil then found:add(part_, name .. ".at", "missing") end
      local n = read.whole(found, part_, name .. ".n", g.n or 6, 1, 200)
      f.at[i] = x and n and {x = x, n = n}
    end
  end
  if f.at[1] and f.at[2] and f.at[2].x <= f.at[1].x then
    found:add(part_, "groups", "the inner group first, the outer one beyond it")
  end
end

local function read_hanger(t, f, found, part_)
  local h = t.hanger
  f.seat = 1.5
  if h == nil then
    found:add(part_, "hanger", "{capacity = the maker's value} expected: the old seat is "
      .. "lost and the sister hangs")
    return
  elseif type(h) ~= "table" then
    h = {capacity = h} -- as a spreadsheet has it
  end
  for name in ordered(h) do
    if name ~= "capacity" and name ~= "seat" then
      found:add(part_, "hanger", ("takes capacity, seat, not '%s'"):format(
        tostring(name)))
    end
  end
  f.capacity = h.capacity ~= nil and read.load(found, part_, "hanger.capacity",
    h.capacity, "point") or nil
  f.seat = h.seat ~= nil and read.between(found, part_, "hanger.seat", h.seat, 0.5, 12)
    or f.seat
end

--- Places are measured from the center of the lost bearing, along the joist.
function ends.read(t, case, found, part_)
  local notes = {}
  local f = fasten.read(t, found, part_, notes)
  f.notes = notes
  local lost = part.lost(case.model)
  local whose = lost and case.model.cuts[lost].lost or "left"
  f.support = read.choice(found, part_, "support", t.support or whose, {"left", "right"})
  f.side = read.choice(found, part_, "side", t.side or "right", {"left", "right"})
  if t.to == nil then
    found:add(part_, "to", "missing: where the sister ends, from the lost bearing")
  else
    f.reach = read.length(found, part_, "to", t.to)
  end
  read_groups(t, f, found, part_)
  read_hanger(t, f, found, part_)
  f.wood = sister.wood_of(t, case, found, part_)
  return f
end

function ends.title(f)
  if not f.wood then return "end sister" end
  return ("end sister %s, %s face, %s end to %s, in a hanger"):format(sister.name_of(f),
    f.side, f.support, f.show.place(f.reach))
end

-------------------------------------------------------------------------------- fitting

-- Where the joist begins to count, from the lost bearing; or nil and a reason.
local function start_of(f, case)
  local m, L = case.model, part.total(case.model)
  local i, cut = part.lost(m, f.support)
  if not i then
    return nil, ("no lost bearing at the %s end: an end sister takes the place of a seat "
      .. "that is gone (ns.lost_bearing)"):format(f.support)
  elseif #m.span > 1 or m.overhang_left > 0 or m.overhang_right > 0 then
    return nil, "only a joist of one span without overhangs gets an end sister here"
  elseif part.lost(m, f.support == "left" and "right" or "left")
    or case.review.seat[f.support == "left" and 2 or 1] == 0 then
    return nil, "the other end has no seat either"
  elseif f.reach >= L then
    return nil, "it would run to the far bearing: add a joist beside this one"
  end
  return cut.to
end

-- A cut that stays must lie beyond the outer group, where the joist carries all again.
local function cut_between(f, case, l, x_o)
  local m, L = case.model, part.total(case.model)
  for i, c in ipairs(case.review.cuts) do
    local a = f.support == "left" and c.own_x1 or L - c.own_x2
    local b = f.support == "left" and c.own_x2 or L - c.own_x1
    if not m.cuts[i].lost and m.cuts[i].kind == "sever" then
      return "the joist is cut through as well (" .. c.name .. ")"
    elseif not m.cuts[i].lost and b > l and a < x_o then
      return ("%s lies between the lost end and the outer group: set the groups beyond "
        .. "it or repair it first"):format(c.name)
    end
  end
end

local function unsuited(f, case, l)
  local x_i, x_o = f.at[1].x, f.at[2].x
  if x_i < l - 1e-9 then
    return ("the inner group at %s would stand in wood that counts as lost: sound wood "
      .. "begins %s from the bearing"):format(f.show.place(x_i), f.show.place(l))
  elseif x_o > f.reach then
    return ("the outer group at %s is beyond the sister's end, %s"):format(
      f.show.place(x_o),
      f.show.place(f.reach))
  end
  return cut_between(f, case, l, x_o)
end

-- Fasteners of both groups in place, and what one carries; or nil and a reason.
local function fastened(f, case)
  local m, o, L = case.model, f.wood.model, part.total(case.model)
  local thin = lane.min(o.b * o.plies, m.b * m.plies)
  local d = rows.distances(f, thin)
  f.rise, f.d = m.d - o.d, o.d
  local left = f.support == "left"
  f.from, f.to = left and 0 or L - f.reach, left and f.reach or L
  f.bears_left, f.bears_right = left, not left
  f.groups = {}
  for i, g in ipairs(f.at) do f.groups[i] = {x = left and g.x or L - g.x, n = g.n} end
  local low, high = rows.zone(f, d, {depth = m.d})
  if low > high + 1e-9 then
    return nil, ("joist and sister overlap too little in height: %s to each edge is "
      .. "needed"):format(f.show.exact(d.edge))
  end
  local inside = beside.end_in_a_cut(f, case)
  if inside then return nil, inside end
  local ok, why = rows.place_groups(f, case.review, d, low, high)
  if not ok then return nil, why end
  local C = fastener.C_delta {fastener = f.fastener, load = "perpendicular",
    end_distance = lane.min(f.least_end, d.ends), l = thin, spacing = d.up}
  if C.refused then return nil, C.refused end
  f.G_host = fasten.gravity(f, case.joist.description, f.notes)
  local G = fasten.gravity({G = f.G}, f.wood.description, {})
  f.reached = plies.reached(f, m, o.b * o.plies)
  f.Cg = f.rated and 1 or rows.group_action(f, {main = {E = m.E, b = f.reached.b},
    side = {E = o.E, b = o.b * o.plies}}).Cg
  local strength = fasten.strength(f, {main = {G = f.G_host, thickness = m.b * m.plies,
    angle = 90}, side = {G = G, thickness = o.b * o.plies, angle = 90},
    moisture = m.moisture, temperature = m.temperature, Cg = f.Cg,
    standard = case.standard,
    C_delta = C.C_delta})
  if strength.refused then return nil, strength.refused end
  return strength
end

------------------------------------------------------------------------------- the words

local SEQUENCE = {
  "Shore the joist beyond the lost end, and the floor over that end, on posts that reach "
    .. "something firm; raise nothing. The shores carry the load named.",
  "Trim the lost end back to sound wood; look at the sill, the deck and the joists "
    .. "beside it.",
  "Fasten the hanger to sound wood as its maker says, at the place of the old seat.",
  "Set the sister in the hanger, tight against the joist and up to the deck; fasten the "
    .. "deck over the lost end to it.",
  "Drill and drive both groups by the layout: type, length, count and places as listed.",
  "Have the repair seen before it is covered; take the shores out a little at a time.",
}

local function pieces(f, case, load)
  local m, o, L = case.model, f.wood.model, part.total(case.model)
  local half, b = m.b * m.plies / 2, o.b * o.plies
  local y1, y2 = half, half + b
  if f.side == "left" then y1, y2 = -half - b, -half end
  local left = f.support == "left"
  local at = left and 0 or L
  local x1 = left and -f.seat / 2 or L - f.reach
  local x2 = left and f.reach or L + f.seat / 2
  local size = sister.name_of(f)
  local section = site.section(o)
  return {{name = "sister", kind = "wood", member = "sister", count = o.plies,
    size = section, side = f.side, material = o.wood or o.source, length = x2 - x1,
    x1 = x1, x2 = x2,
    h1 = f.rise, h2 = m.d, y1 = y1, y2 = y2, stock = site.cut_from(section, x2 - x1,
      f.show),
    label = ("%s x %s"):format(size, f.show.place(x2 - x1))},
    {name = "hanger", kind = "steel", member = "hanger", count = 1,
      size = site.hanger({holds = size, load = load, count = 1,
        show = f.show}).size,
      x1 = at - f.seat / 2,
      x2 = at + f.seat / 2, h1 = f.rise - 0.25, h2 = f.rise + f.d / 2, y1 = y1 - 1,
      y2 = y2 + 1}}
end

local function add_notes(a, f, l, case)
  local function add(format, ...) a.notes[#a.notes + 1] = point.format(format, ...) end
  for _, note in ipairs(f.notes) do a.notes[#a.notes + 1] = note end
  add("the joist counts from %s on; load over the lost end is on the sister, beyond it "
    .. "on the joist, which keeps its far bearing only", f.show.place(l))
  add("statically determinate: no share by stiffness; the joist's shear beside the inner "
    .. "group may be more than its reaction")
  add("%s", fasten.lead_hole(f.fastener, f.G_host, not f.prebored, f.show))
  if f.Cg < 1 then
    add("group action Cg %s (%s)", lane.text("%.2f", f.Cg), case:rule "group_action")
  end
  if f.rated then add("fasteners: the maker's value, used as given") end
  if not f.capacity then
    add("hanger not checked: give hanger = {capacity = the maker's value}")
  end
  add("%s", site.HANGERS)
  add("what the hanger hangs from takes the load named; it is not checked here")
  add("glue is not counted")
end

----------------------------------------------------------------------------------- whole

function ends.assess(case, f)
  local o = f.wood.model
  if o.missing or o.manufactured then return nil, "the sister's wood is not known" end
  local l, reason = start_of(f, case)
  if not l then return nil, reason end
  reason = unsuited(f, case, l)
  if reason then return nil, reason end
  local strength
  strength, reason = fastened(f, case)
  if not strength then return nil, reason end
  local m, L = case.model, part.total(case.model)
  local g = statics.of(m, {support = f.support, l = l, x_i = f.at[1].x,
    x_o = f.at[2].x}, case.standard.data.combinations)
  local a = {checks = {}, notes = {}, cautions = site.cautions(), forces = {},
    stations = {}, sequence = SEQUENCE, layout = f.layout,
    title = ends.title(f), access = {"below"}}
  a.cautions[#a.cautions + 1] = cautions.water
  reason = checks.add(a, case, f, g, strength)
  if reason then return nil, reason end
  a.fasteners = {{fastener = tostring(f.fastener), count = #f.layout,
    where = "sister to joist", D = f.fastener.D}}
  for _, force in ipairs(a.forces) do
    if force.name == "load on the hanger" then a.pieces = pieces(f, case, force.value) end
  end
  add_notes(a, f, l, case)
  plies.say(f.reached, case, a.notes, a.cautions)
  local x = f.support == "left" and {0, f.reach} or {L - f.reach, L}
  a.x1, a.x2 = x[1], x[2]
  return a
end

-- One of the kinds of repairs (see fix.lua): its place among them, and why it is worked
-- out in allowable stress design alone.
ends.order, ends.one_format = 90, "rated"

return ends
