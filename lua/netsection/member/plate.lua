-- SPDX-License-Identifier: MIT
-- A plate of wood laid flat under or over what presses on it: the sole and the head of a
-- post, a wall plate under joists. Across the grain, f_cp = P/(b l_b) <= F_cp' Cb.
local core = require "netsection.core"
local member = require "netsection.member"
local model = require "netsection.model"

local plate = {}

plate.fields = member.fields({"mark"}, member.wood_fields, {"from_end", "post", "load",
  "dead", "live", "note"})

local read = model.readers

-- Two sides of what stands on it, in, as {3.5, 3.5}; or nil.
local function read_sides(found, name, given)
  if given == nil then return nil end
  if type(given) ~= "table" or #given ~= 2 then
    found:add(nil, name, "two sides expected, as {3.5, 3.5}")
    return nil
  end
  local a = read.between(found, nil, name, given[1], 0.5, 48)
  local b = read.between(found, nil, name, given[2], 0.5, 48)
  return a and b and {a, b} or nil
end
plate.read_sides = read_sides

-- @param level of the caller, for what is raised
function plate.read(t, level)
  local found = member.problems(t, "plate")
  local f = {given = t, wood = member.wood(t, found)}
  f.from_end = t.from_end ~= nil and read.between(found, nil, "from_end", t.from_end, 0,
    600) or 0
  f.sides = read_sides(found, "post", t.post)
  f.load = member.load(t, found)
  member.must(found, level + 1)
  return f
end

-- Width of the plate as it lies, in: its larger side, plies beside each other.
local function width_of(m)
  return math.max(m.b * m.plies, m.d)
end

-- What is pressed: along the grain of the plate and across it, whichever way the thing
-- stands presses less wood.
local function pressed(m, sides)
  local w = width_of(m)
  local one = {l_b = sides[1], b = math.min(sides[2], w)}
  local two = {l_b = sides[2], b = math.min(sides[1], w)}
  return one.l_b * one.b <= two.l_b * two.b and one or two
end

--- Why a plate has no numbers, or nil.
function plate.lacking(m)
  if m.manufactured or m.missing or not (m.Fc_perp and m.Fc_perp > 0) then
    return "Fc_perp of the plate not given, and no reference value"
  end
end

--- The check of one load on the wood of a plate.
-- @param m wood; @param t {R =, l_b = along its grain, b = across, from_end = from what
--   presses to the end of the plate, name =, at =}
function plate.check(m, t, standard)
  local c = member.combinations(standard)
  c = c[#c]
  local F = member.adjusted(m, standard, "Fc_perp", c)
  return member.check {standard = standard, mode = "bearing", branch = 1,
    demand = t.R, R = t.R, F = m.Fc_perp, F_a = F.value, CD = 1, CM = F.CM, Ct = F.Ct,
    Ci = F.Ci, K = F.K, Cb = core.Cb(t.l_b, t.from_end or 0), l_b = t.l_b, b = t.b,
    member = "plate", name = t.name, at = t.at, combination = c.name}
end

local function title(f, what, P, show)
  local m = f.wood
  return ("%s %s%s laid flat, load %s"):format(what, m.plies > 1 and m.plies
    .. " plies " or "", m.size or ("%s x %s"):format(show.size(m.b),
    show.size(m.d)), show.force(P))
end

--- The state of a plate under one load.
-- @param load {D =, L =}; @param sides of what presses, or nil
-- @param what "sole plate", "head plate" or "plate"
function plate.assess(f, load, standard, sides, what)
  local a = member.assessment("plate", f.given.mark, f.show)
  local show = a.show
  local P, m = load.D + load.L, f.wood
  a.load, sides = load, sides or f.sides
  a.title = title(f, what or "plate", P, show)
  local why = plate.lacking(m) or not sides
    and "the sides of what stands on it are not known: post = {3.5, 3.5}"
  if why then return member.unassessed(a, "not assessed", why) end
  local on = pressed(m, sides)
  a.checks[1] = plate.check(m, {R = P, l_b = on.l_b, b = on.b, from_end = f.from_end,
    name = what}, standard)
  a.notes[1] = ("pressed over %s x %s, %s"):format(show.size(on.l_b),
    show.size(on.b), f.from_end > 0 and show.size(f.from_end)
    .. " from the end of the plate" or "taken at the end of the plate")
  a.assumptions[1] = ("Design values: %s."):format(m.source)
  a.pieces[1] = {name = what or "plate", kind = "plate", member = "plate",
    count = m.plies, size = m.size or ("%s x %s"):format(show.size(m.b),
    show.size(m.d)), material = m.wood}
  return member.settle(a)
end

return plate
