-- SPDX-License-Identifier: MIT
-- Random descriptions of joists over the whole range that is taken, all of them valid,
-- and their mirror images. Lengths are plain inches, loads texts or plain psf and lb, so
-- that a test can work out sums of its own. Same seed, same joists, on every machine.
local fastener = require "netsection.fastener"
local lumber = require "netsection.lumber"
local support = require "tests.support"

-- Of allowable stresses; the values of other families have joists of their own.
local EDITIONS = {}
for _, name in ipairs(lumber.editions()) do
  if lumber.family(name) == "nds" then EDITIONS[#EDITIONS + 1] = name end
end

local random_joist = {}

local KINDS = {"hole", "hole", "hole", "slot", "slot", "notch", "notch", "end_notch",
  "end_notch", "loss", "split", "sever"}

------------------------------------------------------------------------ section and wood

local function section(r, t)
  local dice = r:unit()
  if dice < 0.5 then
    t.size = r:pick(lumber.sizes())
  elseif dice < 0.6 then
    t.size = ("full-sawn %dx%d"):format(r:int(2, 4), r:int(4, 14))
  else
    t.b, t.d = r:real(1, 4), r:real(4, 14)
    if dice > 0.9 then t.b, t.d = r:real(0.5, 12), r:real(2, 24) end
  end
  local known = t.size and lumber.size(t.size)
  t.plies = r:unit() < 0.6 and nil or r:int(1, r:unit() < 0.1 and 8 or 3)
  return known and known.b or t.b, known and known.d or t.d, known and known.nominal_d
end

local function maybe(r, share, value)
  return r:unit() < share and value or nil
end

-- Optional values: not given, nil as the range allows, or usual.
local function optional(r, share, value)
  local dice = r:unit()
  if dice < 0.03 then return 0 end
  return dice < share and value or nil
end

-- Wood is weaker in tension than in bending, by any table.
local function material(r)
  local E, Fb = r:real(0.8e6, 2e6), r:real(300, 2400)
  local CF = maybe(r, 0.7, r:real(0.8, 1.5))
  return {Fb = Fb, Fv = r:real(80, 300), E = E, CF = CF,
    CF_t = CF and maybe(r, 0.3, CF * r:real(0.8, 1)),
    CF_c = maybe(r, 0.3, r:real(0.8, 1.2)), Emin = maybe(r, 0.7, E * 0.37),
    Ft = optional(r, 0.8, Fb * r:real(0.3, 0.8)),
    Fc = optional(r, 0.8, r:real(300, 2000)),
    Fc_perp = optional(r, 0.8, r:real(200, 900)), G = maybe(r, 0.2, 0.5)}
end

-- A species and grade that are on file for the section, or values of its own.
local function wood(r, t, b, d, nominal_d)
  if r:unit() < 0.5 then
    local edition = r:pick(EDITIONS)
    local species = r:pick(lumber.species(edition))
    local grade = r:pick(lumber.grades(species, edition))
    if lumber.design_values {species = species, grade = grade, edition = edition, b = b,
      d = d, nominal_d = nominal_d} then
      t.species, t.grade, t.edition = species, grade, edition
      return
    end
  end
  t.material = material(r)
end

------------------------------------------------------------------------------- geometry

local function span(r)
  return r:unit() < 0.8 and r:real(72, 240) or r:real(24, 480)
end

local function bearings(r, t, shortest)
  local wild = r:unit() < 0.05
  local function one()
    return wild and r:real(0.5, 48) or math.min(r:real(0.5, 6), shortest / 4)
  end
  if r:unit() < 0.5 then
    t.bearing = {}
    for i = 1, #t.spans + 1 do t.bearing[i] = one() end
  else
    t.bearing = one()
  end
end

local function overhang(r, beside)
  if r:unit() < 0.7 then return nil end
  return r:unit() < 0.1 and r:real(0.01, 240) or math.min(beside * r:real(0.05, 0.5), 240)
end

local function spans(r, t, want)
  local count = want.spans or r:pick {1, 1, 1, 1, 1, 2, 2, 3}
  local shortest = 480
  t.spans = {}
  for i = 1, count do
    t.spans[i] = span(r)
    shortest = math.min(shortest, t.spans[i])
  end
  if want.overhangs ~= false then
    t.overhang_left = overhang(r, t.spans[1])
    t.overhang_right = overhang(r, t.spans[count])
  end
  bearings(r, t, shortest)
end

-- Sum of the spans, and the ends of the wood, from the first support.
function random_joist.extent(t)
  local total = 0
  for _, length in ipairs(t.spans) do total = total + length end
  local b = t.bearing
  local first, last = b, b
  if type(b) == "table" then first, last = b[1], b[#b] end
  local start = -(t.overhang_left or first / 2)
  return total, start, total + (t.overhang_right or last / 2)
end

-- The same, but ends that do not overhang are at the centres of their bearings.
local function loaded_extent(t)
  local total = random_joist.extent(t)
  return -(t.overhang_left or 0), total + (t.overhang_right or 0)
end

----------------------------------------------------------------------------------- cuts

-- Two places in order, 'least' to 'most' apart, on the wood.
local function stretch(r, g, least, most)
  local room = g.finish - g.start
  local length = math.min(r:real(least, most), room * 0.9)
  local from = r:real(g.start, g.finish - length)
  return from, from + length
end

local function opening(r, t, size, d)
  local dice, room = r:unit(), d - size
  if dice < 0.4 then
    t.below = r:unit() < 0.1 and 0 or r:real(0, room)
  elseif dice < 0.7 then
    t.above = r:unit() < 0.1 and 0 or r:real(0, room)
  end
end

local function corner(r, t, d)
  t.depth = d * (r:unit() < 0.7 and r:real(0.02, 0.3) or r:real(0.02, 0.95))
  local left = d - t.depth
  t.overcut = maybe(r, 0.2, left * r:real(0, 0.5))
  t.taper = maybe(r, 0.3, r:unit() < 0.5 and r:real(10, 20) or r:real(0, 10))
  t.corner_radius = maybe(r, 0.1, r:real(0.1, 1))
  t.split_length = maybe(r, 0.1, r:real(0, 12))
  t.accept_outside_standard = maybe(r, 0.3, "looked at on site")
end

local cut = {}

function cut.hole(r, t, g)
  t.diameter = g.d * (r:unit() < 0.7 and r:real(0.05, 0.45) or r:real(0.05, 0.95))
  t.angle = maybe(r, 0.2, r:real(20, 90))
  local half = t.diameter / (t.angle and math.sin(math.rad(t.angle)) or 1) / 2
  if 2 * half >= g.finish - g.start then
    t.diameter, t.angle, half = g.d / 20, nil, g.d / 40
  end
  t.at = r:real(g.start + half, g.finish - half)
  opening(r, t, t.diameter, g.d)
  return t.at - half, t.at + half
end

function cut.slot(r, t, g)
  t.from, t.to = stretch(r, g, 1, 24)
  t.height = g.d * r:real(0.05, r:unit() < 0.7 and 0.4 or 0.9)
  opening(r, t, t.height, g.d)
  return t.from, t.to
end

function cut.notch(r, t, g)
  t.face = r:pick {"top", "bottom"}
  t.from, t.to = stretch(r, g, 0.25, 12)
  corner(r, t, g.d)
  local more = t.split_length or 0
  return t.from - more, t.to + more
end

-- nil where the joist runs on past both of its end bearings.
function cut.end_notch(r, t, g)
  local free = {}
  for _, side in ipairs {"left", "right"} do
    if not g.joist["overhang_" .. side] then free[#free + 1] = side end
  end
  if #free == 0 then return nil end
  t.support, t.face = r:pick(free), r:pick {"top", "bottom"}
  corner(r, t, g.d)
  local length = r:real(0.25, r:unit() < 0.5 and 8 or 30)
  t.length = math.min(length, 0.49 * (g.finish - g.start))
  local reach = t.length + (t.split_length or 0)
  if t.support == "left" then return g.start, g.start + reach end
  return g.finish - reach, g.finish
end

function cut.sever(r, t, g)
  t.from, t.to = stretch(r, g, 0.1, 8)
  return t.from, t.to
end

function cut.loss(r, t, g)
  t.from, t.to = stretch(r, g, 1, 60)
  t.top = maybe(r, 0.4, g.d * r:real(0.01, 0.4))
  t.sides = maybe(r, 0.4, math.min(g.b * r:real(0.01, 0.4), 12))
  t.bottom = (maybe(r, 0.5, true) or not (t.top or t.sides))
    and g.d * r:real(0.01, 0.4) or nil
  t.cause = r:pick {"other", "rot", "insects", "char"}
  t.allowance = maybe(r, 0.2, math.min(g.b, g.d) * r:real(0, 0.05))
  return t.from, t.to
end

function cut.split(r, t, g)
  t.from, t.to = stretch(r, g, 1, 60)
  t.at_depth = g.d * r:real(0.02, 0.98)
  return t.from, t.to
end

-- Cuts of one kind keep clear of each other: one entered twice is refused.
local function clear(taken, kind, a, b)
  for _, other in ipairs(taken) do
    if other.kind == kind and a <= other.b and b >= other.a then return false end
  end
  return true
end

local function cuts(r, t, b, d, want)
  local _, start, finish = random_joist.extent(t)
  local g = {joist = t, b = b * (t.plies or 1), d = d, start = start, finish = finish}
  local taken, list = {}, {}
  for _ = 1, want.cuts or r:pick {0, 1, 1, 1, 2, 2, 3, 4, 5} do
    local kind = r:pick(want.kinds or KINDS)
    local one = {kind = kind}
    local from, to = cut[kind](r, one, g)
    if from and clear(taken, kind, from, to) then
      taken[#taken + 1] = {kind = kind, a = from, b = to}
      list[#list + 1] = one
      -- Angled holes have their length along the joist on the angle alone.
      if kind ~= "end_notch" and r:unit() < 0.2 then random_joist.turn(t, one) end
    end
  end
  if #list > 0 then t.cuts = list end
end

---------------------------------------------------------------------------------- loads

local load = {}

local function somewhere(r, t)
  local first, last = loaded_extent(t)
  local a, b = r:real(first, last), r:real(first, last)
  return math.min(a, b), math.max(a, b)
end

local function plf(x)
  return ("%.25f plf"):format(x)
end

function load.point(r, t)
  local first, last = loaded_extent(t)
  local one = {kind = "point", load = r:real(0, 800)}
  one.at = r:unit() < 0.1 and r:pick {first, 0} or r:real(first, last)
  return one
end

function load.line(r, t)
  local one = {kind = "line", load = plf(r:real(0, 200))}
  one.to_load = maybe(r, 0.4, plf(r:real(0, 200)))
  if r:unit() < 0.6 then one.from, one.to = somewhere(r, t) end
  return one
end

function load.area(r, t)
  local one = {kind = "area", load = r:real(0, 60)}
  one.width = maybe(r, 0.3, r:real(1, 60))
  if r:unit() < 0.6 then one.from, one.to = somewhere(r, t) end
  return one
end

function load.tub(r, t)
  local one = {kind = "tub", empty = r:real(50, 400),
    water = maybe(r, 0.8, r:real(0, 500)), people = maybe(r, 0.5, r:real(0, 400)),
    width = r:real(12, 40)}
  local first, last = loaded_extent(t)
  local length = math.min(r:real(12, 72), last - first)
  one.from = r:real(first, last - length)
  one.to = one.from + length
  return one
end

local function loads(r, t)
  local list = {}
  for i = 1, r:pick {0, 0, 0, 1, 2, 3} do
    local kind = r:pick {"point", "point", "line", "area", "tub"}
    list[i] = load[kind](r, t)
    if kind ~= "tub" then list[i].case = r:pick {"dead", "live"} end
    if list[i].from and not list[i].to_load and r:unit() < 0.2 then
      random_joist.turn(t, list[i])
    end
  end
  if #list > 0 then t.loads = list end
end

------------------------------------------------------------------------------- the whole

local function conditions(r, t)
  t.spacing = r:unit() < 0.8 and r:pick {12, 16, 19.2, 24} or r:real(4, 96)
  if r:unit() < 0.1 then t.spacing = {r:real(8, 30), r:real(8, 30)} end
  t.bearing_on = r:pick {"wood", "wood", "masonry"}
  t.repetitive = maybe(r, 0.2, r:pick {1, 1.15})
  t.members = maybe(r, 0.3, r:int(1, 6))
  if r:unit() < 0.2 then t.sheathed = false end
  t.moisture = maybe(r, 0.2, "wet")
  t.temperature = maybe(r, 0.2, r:real(-60, 150))
  t.incised = maybe(r, 0.1, true)
  t.creep = maybe(r, 0.2, r:real(1, 3))
  t.notch_raiser = maybe(r, 0.2, r:real(1, 3))
  t.limits = maybe(r, 0.2, {live = r:pick {false, 240, 480}, total = r:pick {false, 180}})
end

local function floor_load(r, usual)
  if r:unit() < 0.03 then return 0 end
  return r:unit() < 0.9 and r:real(usual * 0.3, usual * 1.7) or r:real(0, 500)
end

local function blocking(r, t)
  if r:unit() < 0.7 then return end
  local _, start, finish = random_joist.extent(t)
  t.blocking = {}
  for i = 1, r:int(1, 4) do t.blocking[i] = r:real(start, finish) end
end

-- A description. `want` narrows it: spans, overhangs = false, cuts (how many are tried),
-- kinds (of the cuts).
-- @param r a generator of tests/support.lua
function random_joist.of(r, want)
  want = want or {}
  local t = {mark = "R" .. r:int(1, 999)}
  local b, d, nominal_d = section(r, t)
  wood(r, t, b, d, nominal_d)
  spans(r, t, want)
  conditions(r, t)
  t.dead, t.live = floor_load(r, 12), floor_load(r, 40)
  blocking(r, t)
  cuts(r, t, b, d, want)
  loads(r, t)
  return t
end

-- @param seed any integer
-- @return a function that gives the next description
function random_joist.source(seed, want)
  local r = support.random(seed)
  return function() return random_joist.of(r, want) end
end

---------------------------------------------------------------------------------- fixes

local FASTENERS = {
  fastener {kind = "lag screw", diameter = "1/4 in", length = "3 in"},
  fastener {kind = "lag screw", diameter = "3/8 in", length = "4 in"},
  fastener {kind = "bolt", diameter = "1/2 in"},
  fastener {kind = "wood screw", number = 14, length = "3 in"},
  fastener {kind = "nail", size = "10d"},
}

-- A stretch of one span; 'least' of it at least.
local function within_a_span(r, t, least)
  local first = 0
  local n = r:int(1, #t.spans)
  for i = 1, n - 1 do first = first + t.spans[i] end
  local L = t.spans[n]
  local length = L * r:real(least, 0.95)
  local from = first + r:real(0, L - length)
  return from, from + length, first, first + L
end

local function severed_at(t)
  for _, one in ipairs(t.cuts or {}) do
    if one.kind == "sever" then
      local total = random_joist.extent(t)
      if one.from_right then return total - one.to, total - one.from end
      return one.from, one.to
    end
  end
end

-- Two groups on each side of a gap, or rows at a pitch, or groups anywhere.
local function rows(r, t, one)
  one.per_row = maybe(r, 0.7, r:int(1, 4))
  local gap, past = severed_at(t)
  if gap and gap > one.from and past < one.to and r:unit() < 0.8 then
    local n = r:int(2, 12)
    local a, b = gap - one.from, one.to - past
    one.groups = {}
    for i, at in ipairs {one.from + a * 0.2, gap - a * 0.2, past + b * 0.2,
      one.to - b * 0.2} do
      one.groups[i] = {at = at, n = n}
    end
  elseif r:unit() < 0.2 then
    one.groups = {}
    for i = 1, r:int(2, 9) do
      one.groups[i] = {at = r:real(one.from, one.to), n = r:int(1, 9)}
    end
    table.sort(one.groups, function(a, b) return a.at < b.at end)
  else
    one.pitch = math.max(r:real(4, 24), (one.to - one.from) / 30)
  end
end

local function lift(r, t)
  local total = random_joist.extent(t)
  return r:pick {"none", "unloaded", "unloaded", {kind = "prop", at = total
    * r:real(0.2, 0.8), force = r:real(0, 500)}}
end

-- What a member beside the joist has in common, whatever it is made of.
local function beside(r, t, one, full)
  local a, b
  one.from, one.to, a, b = within_a_span(r, t, 0.3)
  if full then one.from, one.to, one.bearing = a, b, true end
  rows(r, t, one)
  one.fastener, one.lift = r:pick(FASTENERS), lift(r, t)
  if severed_at(t) then one.lift = nil end
  one.rated = maybe(r, 0.25, ("%d lb"):format(r:int(80, 900)))
  one.gap_load = maybe(r, 0.3, "between groups")
  one.side = maybe(r, 0.6, r:pick {"left", "right", "both"})
  return one
end

local repair = {}

function repair.sister(r, t)
  local one = beside(r, t, {kind = "sister"}, r:unit() < 0.4)
  one.share = maybe(r, 0.7, r:pick {"stiffness", "new", "worst", "slip"})
  one.plies = maybe(r, 0.1, 2)
  if not one.bearing and r:unit() < 0.2 then
    one.bearing, one.from = {left = true}, one.from > 0 and one.from or 0
    one.bearing.left = one.from == 0
  end
  if t.b and t.material and r:unit() < 0.7 then
    one.b, one.d = r:real(1, 3), math.max(2, math.min(24, t.d * r:real(0.7, 1.1)))
    one.material = material(r)
  end
  return one
end

function repair.side_plates(r, t)
  local one = beside(r, t, {kind = "side_plates"}, false)
  if r:unit() < 0.6 then
    one.steel = r:pick {"A36", "A653 33"}
    if r:unit() < 0.5 then one.gauge = r:pick {10, 12, 14} else
      one.thickness = r:real(0.125, 0.5)
    end
  else
    one.thickness = r:real(0.4, 1.2)
    one.material = {Fb = r:real(300, 1500), Fv = r:real(60, 300), E = r:real(3e5, 1.5e6)}
  end
  one.depth = maybe(r, 0.6, r:real(3, 9))
  return one
end

-- From a tie of tin to a bar that is stronger than the joist.
function repair.strap(r, t)
  local one = {kind = "strap", fastener = r:pick(FASTENERS), lift = lift(r, t),
    n = r:int(2, 20), rows = maybe(r, 0.3, 2), pitch = maybe(r, 0.7, r:real(1, 4))}
  one.steel = maybe(r, 0.6, r:pick {"A36", "A653 33"})
  if r:unit() < 0.4 then one.gauge = r:pick {10, 12, 14} else
    one.thickness = r:real(0.05, 0.75)
  end
  one.capacity = maybe(r, 0.2, ("%d lb"):format(r:int(500, 9000)))
  one.rated = maybe(r, 0.25, ("%d lb"):format(r:int(80, 900)))
  if severed_at(t) then
    one.lift, one.block = nil, maybe(r, 0.9, r:real(1, 9))
    one.shear = maybe(r, 0.9, {fastener = r:pick(FASTENERS), n = r:int(2, 20),
      lap = r:real(6, 30)})
  end
  return one
end

-- Switches that a repair of this joist does not read are refused by name: left out.
local function only_read(t, one)
  local full = one.bearing == true
  local severed = severed_at(t) ~= nil and severed_at(t) ~= false
  if one.share ~= "new" and one.share ~= "slip" and (not full or severed) then
    one.share = nil
  end
  if one.share == "new" then one.lift = nil end
  if not severed and not (one.share == "new" and not full) then one.gap_load = nil end
  if one.groups then one.pitch, one.per_row, one.end_distance = nil, nil, nil end
  return one
end

-- A repair for a description: well described, though it need not serve.
-- @param kind "sister", "side_plates", "strap", or nil for any of them
function random_joist.fix(r, t, kind)
  return only_read(t, repair[kind or r:pick {"sister", "sister", "side_plates",
    "strap"}](r, t))
end

-------------------------------------------------------------------------- mirror images

local function copy(t)
  local new = {}
  for name, value in pairs(t) do new[name] = value end
  return new
end

local function reversed(list)
  local new = {}
  for i = #list, 1, -1 do new[#new + 1] = list[i] end
  return new
end

-- Measures a part from the other end, and leaves it where it is.
function random_joist.turn(t, part)
  local total = random_joist.extent(t)
  part.from_right = not part.from_right or nil
  if part.at then part.at = total - part.at end
  if part.from then part.from, part.to = total - part.to, total - part.from end
end

local OTHER = {left = "right", right = "left"}

-- The same numbers from the other end are the mirror image, to the last bit.
local function mirrored_cut(part)
  part = copy(part)
  if part.kind == "end_notch" then
    part.support = OTHER[part.support]
  else
    part.from_right = not part.from_right or nil
  end
  return part
end

-- A load that tapers has its ends exchanged; others are measured from the other end.
local function mirrored_load(part, total)
  part = copy(part)
  if part.to_load then
    part.load, part.to_load = part.to_load, part.load
    if part.from then part.from, part.to = total - part.to, total - part.from end
  elseif part.at or part.from then
    part.from_right = not part.from_right or nil
  end
  return part
end

local function mirrored_lift(value, total)
  if type(value) ~= "table" then return value end
  value = copy(value)
  value.at = total - value.at
  return value
end

-- A repair seen from the other side; groups keep their order along the span.
function random_joist.mirrored_fix(t, fix)
  local total, m = random_joist.extent(t), copy(fix)
  if fix.from then m.from, m.to = total - fix.to, total - fix.from end
  if type(fix.bearing) == "table" then
    m.bearing = {left = fix.bearing.right, right = fix.bearing.left}
  end
  m.lift = mirrored_lift(fix.lift, total)
  if fix.groups then
    m.groups = reversed(fix.groups)
    for i, g in ipairs(m.groups) do m.groups[i] = {at = total - g.at, n = g.n} end
  end
  return m
end

-- The description of the joist seen from the other side of the floor.
function random_joist.mirrored(t)
  local total, m = random_joist.extent(t), copy(t)
  m.spans = reversed(t.spans)
  m.overhang_left, m.overhang_right = t.overhang_right, t.overhang_left
  if type(t.bearing) == "table" then m.bearing = reversed(t.bearing) end
  for _, name in ipairs {"cuts", "loads", "blocking"} do
    m[name] = t[name] and {}
    for i, part in ipairs(t[name] or {}) do
      m[name][i] = name == "cuts" and mirrored_cut(part)
        or name == "loads" and mirrored_load(part, total) or name == "blocking"
        and total - part
    end
  end
  return m
end

return random_joist
