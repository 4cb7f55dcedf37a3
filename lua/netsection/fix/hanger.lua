-- SPDX-License-Identifier: MIT
-- A new bearing at a bad end: a hanger or ledger that takes the joist at its bottom edge,
-- past the notch or the rot, on wood of full depth. The span is shorter by that much.
local cautions = require "netsection.cautions"
local lane = require "netsection.lane"
local model = require "netsection.model"
local part = require "netsection.fix.part"
local seat = require "netsection.fix.seat"
local site = require "netsection.fix.site"

local hanger = {fields = {"support", "capacity", "seat", "offset", "note"}}

-- A hanger hangs on what stands at the old bearing: it reaches no farther in, in.
local FARTHEST = 12

local read = model.readers

function hanger.read(t, _, found, part_)
  local f = {support = read.choice(found, part_, "support", t.support or "left",
    {"left", "right"})}
  f.seat = t.seat ~= nil and read.between(found, part_, "seat", t.seat, 0.5, 12) or 1.5
  f.offset = t.offset ~= nil and read.between(found, part_, "offset", t.offset,
    0, 240) or nil
  f.capacity = t.capacity ~= nil and read.load(found, part_, "capacity", t.capacity,
    "point")
    or nil
  return f
end

-- Depth along the joist, from the bearing's center, that the bad end takes up.
local function reach(f, case)
  local m, far = case.model, 0
  local L = part.total(m)
  for i, c in ipairs(case.review.cuts) do
    local cut = m.cuts[i]
    local a = f.support == "left" and c.x1 or L - c.x2
    local b = f.support == "left" and c.x2 or L - c.x1
    local bearing = f.support == "left" and m.bearing[1] or m.bearing[#m.bearing]
    if a < bearing and cut.kind ~= "hole" and b > far then far = b end
  end
  return far
end

local function in_the_seat(case, x1, x2)
  for _, c in ipairs(case.review.cuts) do
    if c.x1 < x2 - 1e-9 and c.x2 > x1 + 1e-9 then return c.name end
  end
end

function hanger.title(f)
  return ("hanger at the %s end"):format(f.support)
end

local SEQUENCE = {
  "Shore the joist a foot or so in from the bad end.",
  "Trim pipes and rotten wood; do not cut the joist further.",
  "Fit the hanger or ledger tight under the joist's bottom edge, on wood of full depth; "
    .. "fasten it as its maker says to a sound beam or wall.",
  "Let the joist down on it; pack if it does not touch.",
}

local function unsuited(f, case)
  local m = case.model
  if #m.span > 1 or m.overhang_left > 0 or m.overhang_right > 0 then
    return "only a joist of one span without overhangs is given a hanger here"
  elseif part.lost(m, f.support == "left" and "right" or "left") then
    return "the other end is lost: it needs an end sister there"
  elseif part.severed(m) and not part.lost(m, f.support) then
    return "a joist that is cut through stays cut through: head it off or sister it"
  end
end

-- The joist between the hanger and the other bearing; end notches there are behind it.
-- What lies on the floor behind the hanger stands on it, over the seat.
local function shortened(f, case)
  local m = case.model
  local L = part.total(m)
  local left = f.support == "left"
  local x0, x1 = left and f.offset or 0, left and L or L - f.offset
  local b = m.bearing
  local R = part.between(m, left and 0 or x1, left and x0 or L)
  local D, live = R.dead[1] + R.dead[2], R.live[1] + R.live[2]
  local p, q = part.points(left and 0 or x1 - x0, D, live)
  local j, problems = part.of(case.joist, x0, x1, {loads = {p, q},
    bearing = left and {f.seat, b[#b]} or {b[1], f.seat}})
  return j, problems, {dead = D, live = live}
end

-- The hanger itself, if it has a value, and the shear beside it.
local function add_checks(a, f, case, j, r, behind)
  local n = f.support == "left" and 1 or 2
  local D, L = part.reaction(r, n)
  local at = a.x1
  a.checks[#a.checks + 1] = part.full_shear(case, j, {dead = D - behind.dead,
    live = L - behind.live, member = "host", name = "end at the hanger", at = at})
  a.forces = {{name = "load on the hanger", at = at, value = D + L, unit = "lb"}}
  if f.capacity then
    a.checks[#a.checks + 1] = case.joint {mode = "fasteners", branch = 2, demand = D + L,
      G = D + L, Z = f.capacity, n_f = 1, member = "hanger", name = "hanger", at = at}
  else
    a.notes[1] = "hanger not checked: give capacity = the maker's value"
  end
  if r.cut.status == "not permitted" then
    a.status = "not permitted"
    a.notes[#a.notes + 1] = ("a cut that is left in the joist is not permitted "
      .. "(%s)"):format(case:rule "gates")
  end
end

local function piece(f, m, at, load)
  local half = m.b * m.plies / 2
  return {name = "hanger", kind = "steel", member = "hanger", count = 1,
    size = site.hanger({holds = site.plied(m), load = load, count = 1,
      show = f.show}).size,
    x1 = at - f.seat / 2, x2 = at + f.seat / 2, h1 = -0.25, h2 = m.d / 2, y1 = -half - 1,
    y2 = half + 1}
end

function hanger.assess(case, f)
  local reason = unsuited(f, case)
  if reason then return nil, reason end
  local m = case.model
  local L = part.total(m)
  f.offset = f.offset or lane.max(reach(f, case) + f.seat / 2, f.seat / 2)
  if f.offset > FARTHEST then
    return nil, ("sound wood begins %s from the bearing: too far for a hanger, use %s")
      :format(f.show.place(f.offset), part.lost(m, f.support) and "an end sister"
        or "a sister")
  end
  local at = f.support == "left" and f.offset or L - f.offset
  local bad = in_the_seat(case, at - f.seat / 2, at + f.seat / 2)
  if bad then
    return nil, ("the seat at %s would lie in %s: it needs wood of full depth"):format(
      f.show.place(at), bad)
  end
  local j, problems, behind = shortened(f, case)
  if not j then return nil, problems[1].text end
  local r = part.review(j, case.options)
  if not r.computed then return nil, r.reasons[1] end
  local D, live = part.reaction(r, f.support == "left" and 1 or 2)
  local a = {checks = r.cut.checks, reactions = r.cut.reactions, moment = r.cut.moment,
    moment_at = r.cut.moment_at, shear = r.cut.shear, shear_at = r.cut.shear_at,
    deflection = r.cut.deflection, notes = {}, review = r,
    reaction_range = r.cut.reaction_range, cautions = {cautions.always[2],
      cautions.always[9]}, pieces = {piece(f, m, at, D + live)}, sequence = SEQUENCE,
    title = hanger.title(f), x1 = at, x2 = at, access = {"below"}}
  add_checks(a, f, case, j, r, behind)
  local pressed = seat.under_openings(case, {x1 = at - f.seat / 2, x2 = at + f.seat / 2,
    dead = D, live = live, at = at})
  local refused = seat.refusal(pressed, "the hanger's seat")
  if refused then return nil, refused end
  table.move(pressed, 1, #pressed, #a.checks + 1, a.checks)
  a.notes[#a.notes + 1] = ("bearing moved in by %s; span %s"):format(
    f.show.place(f.offset),
    f.show.place(j.model.span[1]))
  a.notes[#a.notes + 1] = ("floor behind the hanger, %s, is counted on it; shear "
    .. "beside it by the reaction in full"):format(f.show.force(behind.dead + behind.live,
    0))
  a.notes[#a.notes + 1] = site.HANGERS
  a.notes[#a.notes + 1] = "what the hanger hangs from takes the load named; it is not "
    .. "checked here"
  local from = f.support == "left" and f.offset or 0
  a.diagram = part.diagram({{name = "joist, as repaired", {r, from}}}, m, f.support
    == "left" and {at, L} or {0, at})
  for _, said in ipairs(site.cautions()) do a.cautions[#a.cautions + 1] = said end
  return a
end

-- One of the kinds of repairs (see fix.lua): its place among them, and why it is worked
-- out in allowable stress design alone.
hanger.order, hanger.one_format = 50, "rated"

return hanger
