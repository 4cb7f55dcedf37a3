-- SPDX-License-Identifier: MIT
-- Screws driven up through the corner of an end notch take the tension across the grain
-- there, all of it (DIN EN 1995-1-1/NA NCI NA.6.8.3, memory). A standard without such a
-- rule keeps its figure for the notch, which is shown, and its limit on the depth.
local fasten = require "netsection.fix.fasten"
local fastener = require "netsection.fastener"
local lane = require "netsection.lane"
local model = require "netsection.model"
local part = require "netsection.fix.part"
local site = require "netsection.fix.site"
local voids = require "netsection.fix.voids"
local tostring = require "netsection.point".text

local screws = {fields = {"support", "n", "fastener", "thread", "full_thread", "rated",
  "G", "note"}}

local read = model.readers
local ASSUMED = {kind = "lag screw", diameter = "1/4 in", length = "6 in"}

local function read_fastener(t, f, found, part_)
  local given = t.fastener
  if given == nil then
    f.fastener = fastener(ASSUMED)
    if f.full == nil then f.full = true end
    f.notes[#f.notes + 1] = "fastener not given: 1/4 x 6 in lag screw, threaded over its "
      .. "whole length, assumed"
  elseif type(given) ~= "table" or not given.D then
    found:add(part_, "fastener", "a fastener such as ns.fastener{...} expected")
  elseif given.kind ~= "lag screw" and given.kind ~= "wood screw" then
    found:add(part_, "fastener", "a lag screw or a wood screw expected, got a "
      .. tostring(given.kind))
  elseif not given.L then
    found:add(part_, "fastener", "a length is needed")
  else
    f.fastener = given
  end
end

-- The maker's value says what thread and wood give; a thread that is given is all that
-- holds, whatever the rest of the screw has.
local function read_idle(t, found, part_)
  for _, name in ipairs {"thread", "full_thread"} do
    if t[name] ~= nil and t.rated ~= nil then
      found:add(part_, name, "not read with rated: the maker's value holds for the screw")
    elseif name == "full_thread" and t[name] ~= nil and t.thread ~= nil then
      found:add(part_, name, "not read with thread: give one of the two")
    end
  end
end

function screws.read(t, _, found, part_)
  local f = {support = read.choice(found, part_, "support", t.support or "left",
    {"left", "right"}), notes = {}}
  f.n = read.whole(found, part_, "n", t.n or 2, 1, 8)
  f.thread = t.thread ~= nil and read.between(found, part_, "thread", t.thread,
    0.1, 24) or nil
  f.rated = t.rated ~= nil and read.load(found, part_, "rated", t.rated, "point") or nil
  f.G = t.G and read.number(found, part_, "G", t.G, 0.2, 1) or nil
  f.full = t.full_thread
  if f.full ~= nil and type(f.full) ~= "boolean" then
    found:add(part_, "full_thread", "true or false expected")
  end
  read_idle(t, found, part_)
  read_fastener(t, f, found, part_)
  return f
end

-- The end notch at that bearing.
local function the_notch(f, case)
  for i, cut in ipairs(case.model.cuts) do
    if cut.kind == "end_notch" and (cut.right_end or false) == (f.support == "right")
      and not cut.top_face then
      return i
    end
  end
end

function screws.title(f)
  return ("%d %s at the %s notch"):format(f.n, tostring(f.fastener), f.support)
end

-- Withdrawal value of the screw, lb/in, its numbers, and the thread that holds on the
-- lesser side of the crack, which runs along the grain from the corner at that depth.
local function held(f, case, deep)
  local t = {fastener = f.fastener, moisture = case.model.moisture,
    temperature = case.model.temperature,
    G = fasten.gravity(f, case.joist.description, f.notes)}
  local W, more = fastener.withdrawal(t)
  local L, tip = f.fastener.L, f.fastener.kind == "lag screw" and f.fastener.E or 0
  local T = f.full and L or more.values.T
  local below = lane.max(deep - (L - T), 0)
  local above = lane.max(lane.min(T, L - deep) - tip, 0)
  return W, more, f.thread or lane.min(below, above)
end

-- Edge of 1-1/2 D and 2-1/2 D apart (memory), side by side.
local function fits(f, m)
  local D = f.fastener.D
  return 3 * D + (f.n - 1) * 2.5 * D <= m.b * m.plies + 1e-9
end

local function unsuited(f, case, i)
  local m = case.model
  if not i then
    return ("there is no notch in the bottom at the %s bearing"):format(f.support)
  elseif case.review.cuts[i].status == "not permitted" then
    return ("%s is outside %s; screws do not change that: give the joist a new "
      .. "bearing"):format(case.review.cuts[i].name, case:rule "gates")
  elseif not fits(f, m) then
    return ("%d screws of %s do not stand side by side in %s of wood; only one row along "
      .. "the grain counts"):format(f.n, f.show.size(f.fastener.D),
      f.show.size(m.b * m.plies))
  elseif f.fastener.L >= m.d then
    return "the screws are longer than the joist is deep"
  end
end

-- The pull on the screws against their thread, or the maker's value.
local function withdrawal(f, case, t)
  t.mode, t.demand, t.n_f, t.member = "withdrawal", 0, f.n, "host"
  if f.rated then
    t.branch, t.Z = 4, f.rated
    return case.joint(t)
  end
  local W, more, p = held(f, case, t.d - t.d_n)
  if p <= 0 then
    return nil, ("no thread of a %s holds on one side of the crack: take a screw "
      .. "threaded over its whole length (full_thread = true) and long enough"):format(
      tostring(f.fastener))
  end
  t.branch, t.W, t.p, t.C_z = 3, W, p, more.adjusted and more.adjusted / W or 1
  local k = case.joint(t)
  k.extra_steps = more.steps
  return k
end

local function add_checks(a, f, case, i, at)
  local m, r = case.model, case.review
  local cut, name = m.cuts[i], r.cuts[i].name
  for _, k in ipairs(r.cut.checks) do
    local own = setmetatable({}, {__index = k})
    if k.mode == "notch-shear" and k.cut == i then own.binding = false end
    a.checks[#a.checks + 1] = own
  end
  local D, L = part.reaction(r, f.support == "left" and 1 or #m.span + 1)
  local V, CD, _, combination = part.worst(case.standard, D, L)
  local d_n = m.d - cut.depth - (cut.overcut or 0)
  local k, why = withdrawal(f, case, {V = V, CD = CD, d_n = d_n, d = m.d, at = at,
    name = name, combination = combination})
  if not k then return why end
  a.checks[#a.checks + 1] = k
  a.checks[#a.checks + 1] = part.full_shear(case, case.joist, {dead = D, live = L,
    d = d_n, mode = "host-shear", member = "host", at = at, name = name})
  a.forces = {{name = "tension across the grain", at = at, value = k.demand,
    unit = "lb"}}
end

local TENSION = "tension across the grain by DIN EN 1995-1-1/NA NCI NA.6.8.3 (memory), "
  .. "all of it on the screws; US codes have no such rule, the %s figure for the notch "
  .. "is shown and does not decide"
local SAID = {
  "one row of screws counted along the grain, as near the corner as the distance of 4D "
    .. "allows",
  "edge 1-1/2 D and 2-1/2 D between screws held to; EN 1995-1-1 Table 8.6 asks 4D to the "
    .. "edge for screws in tension (memory): less only where the maker allows it",
}

-- Every screw, side by side across the thickness.
local function layout(f, m, x)
  local out, D = {}, f.fastener.D
  local apart = f.n > 1 and (m.b * m.plies - 3 * D) / (f.n - 1) or 0
  for i = 1, f.n do
    out[i] = {x = x, h = 0, D = D, y = (i - (f.n + 1) / 2) * apart}
  end
  return out
end

-- What else is cut, rotten or burnt where the screws run up: 1-1/2 D off it.
local function in_the_way(f, case, i, x)
  local off = 1.5 * f.fastener.D
  for _, v in ipairs(voids.of(case.review, i)) do
    local near = v.whole and 0 or off
    if x > v.x1 - near and x < v.x2 + near and v.h1 < f.fastener.L + off then
      return ("the screws would stand in %s (%s)"):format(v.name, v.what)
    end
  end
end

function screws.assess(case, f)
  local m, r = case.model, case.review
  local i = the_notch(f, case)
  local reason = unsuited(f, case, i)
  if reason then return nil, reason end
  local c, D = r.cuts[i], f.fastener.D
  local x = f.support == "left" and c.own_x2 + 4 * D or c.own_x1 - 4 * D
  reason = in_the_way(f, case, i, x)
  if reason then return nil, reason end
  local at = f.support == "left" and 0 or part.total(m)
  local a = {checks = {}, notes = f.notes, reactions = r.cut.reactions,
    deflection = r.cut.deflection, moment = r.cut.moment, shear = r.cut.shear,
    reaction_range = r.cut.reaction_range, cautions = site.cautions()}
  reason = add_checks(a, f, case, i, at)
  if reason then return nil, reason end
  a.notes[#a.notes + 1] = TENSION:format(case:rule "name")
  for _, said in ipairs(SAID) do a.notes[#a.notes + 1] = said end
  a.notes[#a.notes + 1] = fasten.lead_hole(f.fastener, fasten.gravity(f,
    case.joist.description, f.notes), nil, f.show)
  a.fasteners = {{fastener = tostring(f.fastener), count = f.n, where = "up through the "
    .. "bottom edge beside the notch", D = D}}
  a.layout = layout(f, m, x)
  a.sequence = {"Shore the end and close the crack before driving.",
    ("Drill and drive the screws %s from the notch's corner, up through the bottom "
      .. "edge."):format(f.show.length(4 * D, 2)), "Have it seen before it is covered."}
  a.title, a.x1, a.x2, a.access = screws.title(f), x, x, {"below"}
  a.diagram = part.diagram({{name = "joist, as repaired", {r, 0}}}, m)
  return a
end

-- One of the kinds of repairs (see fix.lua): its place among them, and why it is worked
-- out in allowable stress design alone.
screws.order, screws.one_format = 80, "only"

return screws
