-- SPDX-License-Identifier: MIT
-- A steel strap under a cut: it replaces tension and nothing else. Its lever arm is that
-- of the cracked section; it slips before it works; its fasteners carry all of T on each
-- side of the cut.
local beside = require "netsection.fix.beside"
local cautions = require "netsection.cautions"
local core = require "netsection.core"
local fasten = require "netsection.fix.fasten"
local fastener_data = require "netsection.fastener_data"
local joint = require "netsection.fix.strap_joint"
local lane = require "netsection.lane"
local model = require "netsection.model"
local point = require "netsection.point"
local review = require "netsection.review"
local site = require "netsection.fix.site"
local units = require "netsection.units"
local tostring = require "netsection.point".text

local strap = {fields = {"cut", "width", "thickness", "gauge", "steel", "n", "rows",
  "lift", "capacity", "fastener", "rated", "slip", "pitch", "end_distance", "prebored",
  "G", "note"}}

local read = model.readers

-- Whole-depth opening and notch, what a strap can serve; the rest has its reason.
local REASON = {
  end_notch = "a strap does nothing for a notch over the bearing: give it a new bearing",
  loss = "the wood above is not known to be whole: use a sister",
  split = "a strap does not hold the two parts of a split together",
}

local function the_cut(t, case, found, part)
  local m, given = case.model, t.cut
  if given == nil then
    for i, c in ipairs(m.cuts) do
      local top = c.kind == "notch" and c.top_face
      if c.kind ~= "end_notch" and not top then return i end
    end
    return 1
  end
  if math.type(given) ~= "integer" or not m.cuts[given] then
    found:add(part, "cut", ("the number of a cut, 1 to %d, expected"):format(#m.cuts))
  end
  return given
end

local function read_lift(t, f, case, found, part)
  beside.read_lift(t, f, case.model, found, part)
end

local function read_steel(t, f, case, found, part)
  f.steel = t.steel or "A653 33"
  local grade = fasten.on_file(fastener_data.grade, "steel", f.steel)
  if not grade then
    found:add(part, "steel", "not on file: " .. tostring(f.steel))
  else
    f.E = grade.E
  end
  f.width = t.width ~= nil and read.between(found, part, "width", t.width, 0.25,
    12) or case.model.b * case.model.plies
  if t.gauge ~= nil and t.thickness ~= nil then
    found:add(part, "gauge", "not read with a thickness: give one of the two")
  end
  if t.gauge ~= nil and t.thickness == nil then
    local gauge = fasten.on_file(fastener_data.gauge, "gauge", t.gauge)
    if gauge then f.t = gauge.design else
      found:add(part, "gauge", "not on file: " .. tostring(t.gauge))
    end
    f.gauge = t.gauge
  else
    f.t = t.thickness ~= nil and read.between(found, part, "thickness",
      t.thickness, 0.01, 2) or 0.125
    f.thickness_assumed = t.thickness == nil
  end
  f.capacity = t.capacity ~= nil and read.load(found, part, "capacity", t.capacity,
    "point")
end

function strap.read(t, case, found, part)
  local notes = {}
  local f = fasten.read(t, found, part, notes)
  f.notes, f.cut = notes, the_cut(t, case, found, part)
  read_lift(t, f, case, found, part)
  read_steel(t, f, case, found, part)
  f.n = read.whole(found, part, "n", t.n or 8, 1, 100)
  f.rows = read.whole(found, part, "rows", t.rows or 1, 1, 4)
  f.pitch = t.pitch and read.between(found, part, "pitch", t.pitch, 0.25, 48)
  return f
end

-- Another cut through the joist.
local function severed_elsewhere(f, case)
  for i, cut in ipairs(case.model.cuts) do
    if cut.kind == "sever" and i ~= f.cut then
      return ("the joist is cut through elsewhere (%s)"):format(case.review.cuts[i].name)
    end
  end
end

local function unsuited(f, case)
  local m, c = case.model, case.review.cuts[f.cut]
  if not c then return "the joist has no cut to bridge" end
  local cut = m.cuts[f.cut]
  if REASON[cut.kind] then return REASON[cut.kind] end
  if cut.kind == "notch" and cut.top_face then
    return "a strap below does little for a notch in the top: what is missing there is "
      .. "compression and depth for shear; fit a tight block or a sister"
  elseif cut.kind == "sever" then
    return "a strap replaces tension alone; over a gap nothing carries compression and "
      .. "shear, and it needs side plates that do: use side_plates or a sister"
  elseif c.M_least < -1e-6 then
    return ("some loads bend the joist upward at %s: the strap would buckle")
      :format(c.name)
  elseif c.x2 - c.x1 > m.d then
    return ("%s is longer than the joist is deep: the wood above would bend as a frame")
      :format(c.name)
  elseif m.d - c.y2 < lane.max(1, m.d / 8) then
    return ("%s leaves too little wood above for compression"):format(c.name)
  elseif f.width > m.b * m.plies + 1e-9 then
    return "the strap is wider than the joist"
  end
  return beside.prop_reason(f, case) or severed_elsewhere(f, case)
end

local function pieces(f, case)
  local m = case.model
  local thick = f.gauge and ("%d ga"):format(f.gauge) or f.show.thickness(f.t)
  local size = ("%s x %s %s"):format(f.show.size(f.width), thick, f.steel)
  return {{name = "strap", kind = "steel", member = "strap", count = 1, size = size,
    stock = size, length = f.to - f.from, x1 = f.from, x2 = f.to, h1 = -f.t, h2 = 0,
    y1 = -f.width / 2, y2 = f.width / 2, material = f.steel,
    label = ("strap %s x %s"):format(size, f.show.place(f.to - f.from))}}, m
end

-- The arms that are argued about, for comparison; none but the first is used.
function strap.arms(case, f, z, M)
  local c, d = case.review.cuts[f.cut], case.model.d
  local left = d - c.y2
  local list = {{"cracked section (used)", z}, {"0.9 d", 0.9 * d},
    {"triangular block in the wood left", d + f.t / 2 - left / 3}, {"2 d / 3", 2 * d / 3},
    {"full depth d: a shop estimate, never used", d}}
  local out = {}
  for i, row in ipairs(list) do
    out[i] = {name = row[1], arm = row[2], T = row[2] > 0 and M / row[2] or nil}
  end
  return out
end

-- T along the strap where the joist's moment falls toward the bearings.
local function along(f, curve, z)
  local out = {}
  for _, p in ipairs(curve) do
    if p.x >= f.from and p.x <= f.to then out[#out + 1] = {x = p.x, T = p.M_max / z} end
  end
  return out
end

-- What the core is told.
local function core_model(f, case, c, P, strength)
  local m = {}
  for name, value in pairs(case.model) do m[name] = value end
  m.texts = nil
  m.fix = {kind = "under", member = "strap", lift = f.lift, cut = f.cut, from = f.from,
    to = f.to, E = f.E, A_s = f.width * f.t, below = f.t / 2, P_s = P,
    station = {c.x1 - f.first}, count = {f.n}, stiff = strength.stiff, Z = strength.Z,
    C_z = strength.C_z, rated = strength.rated and 1 or 0,
    free = c.x2 - c.x1 + 2 * f.first, prop_at = f.prop_at or 0,
    prop = f.prop or 0}
  return m
end

local function past_a_bearing(f, m)
  local a = 0
  for _, span in ipairs(m.span) do
    if f.from >= a and f.to <= a + span then return false end
    a = a + span
  end
  return true
end

local function add_notes(f, case, a, strength)
  local d, T, show = case.model.d, a.T * a.arm, f.show
  local function add(format, ...) f.notes[#f.notes + 1] = point.format(format, ...) end
  add("lever arm %s from the cracked section with no tension in the wood; a full "
    .. "depth of %s would give T %s and is a shop estimate only",
    show.length(a.arm, 2), show.length(d, 2), show.force(T / d, 0))
  add(f.lift == "none" and "not shored: the dead load stays in the wood alone, the strap "
    .. "takes what comes later" or "shored and lifted while it is fastened")
  add("the fasteners slip: %s each, %s at the cut",
    show.slip(strength.stiff, 0), show.turning(a.turn_k))
  add("group action factor %s: the fasteners next to the cut do most",
    lane.is(f.Cg) and lane.mark or units.fixed(f.Cg, 2))
  add("%s", fasten.lead_hole(f.fastener, strength.G, not f.prebored, f.show))
  add "the wood is taken to be cracked: the strap does not keep a corner from splitting"
  add("the sag rests on the slip modulus, which tests of nailed straps put at a tenth of "
    .. "what is published (slip = 1100 reproduces one)")
  if f.thickness_assumed then
    add("thickness not given: %s assumed", show.section(1 / 8))
  end
  return f.notes
end

local function steps_behind(a, steel_steps, strength)
  for _, k in ipairs(a.checks) do
    if k.mode == "steel" then k.extra_steps = steel_steps end
    if k.mode == "fasteners" then k.extra_steps = strength.steps end
  end
end

-- Moment and capacity of the joist alone where the strap stops.
local function stops(f, points)
  local parts = {}
  for _, x in ipairs {f.from, f.to} do
    local best
    for _, p in ipairs(points) do
      if not best or math.abs(p.x - x) < math.abs(best.x - x) then best = p end
    end
    parts[#parts + 1] = ("%s of %s at %s"):format(f.show.number("moment", best.M_max, 0),
      f.show.moment(best.M_cap, 0), f.show.place(x))
  end
  return "where the strap stops the joist carries alone " .. table.concat(parts, ", ")
end

-- The repaired joist with what the strap adds; nil and a reason where it does not serve.
local function worked(case, f, c, P, strength)
  local m = core_model(f, case, c, P, strength)
  local raw, s = case:core(m)
  if not raw then return nil, s.text end
  local a = review.assessment(raw, m, case.standard, s.fixed, false)
  a.model, a.T, a.arm, a.turn_k = m, s.fixed.T, s.fixed.z, s.fixed.turn_k
  a.forces = {{name = "strap tension", at = (c.x1 + c.x2) / 2, value = a.T,
    unit = "lb"}}
  a.arms = strap.arms(case, f, a.arm, a.T * a.arm)
  if lane.working then return a end
  local points = core.curve(m, case.rules.core, case.standard.core, "fixed", 24)
  a.along = along(f, points, a.arm)
  f.notes[#f.notes + 1] = stops(f, points)
  return a
end

function strap.assess(case, f)
  local reason = unsuited(f, case)
  if reason then return nil, reason end
  local d, c = joint.lay_out(f, case)
  if not d then return nil, c end
  if past_a_bearing(f, case.model) then
    return nil, "the strap would run past a bearing: fewer fasteners, or two rows"
  end
  local met = joint.in_the_way(f, case, d) or joint.over(f, case, c)
  if met then return nil, met end
  local P, steel_steps = joint.steel(f)
  local strength, why = joint.group(f, case)
  if not strength then return nil, why end
  local a, wrong = worked(case, f, c, P, strength)
  if not a then return nil, wrong end
  steps_behind(a, steel_steps, strength)
  a.pieces, a.layout = pieces(f, case), f.layout
  a.fasteners = {{fastener = tostring(f.fastener), count = 2 * f.n,
    where = ("strap to the joist's bottom edge, %d on each side of the cut"):format(f.n),
    D = f.fastener.D}}
  a.checks[#a.checks + 1] = joint.tear_out(f, case, a.T)
  a.checks[#a.checks + 1] = joint.between_cuts(f, case, a.T)
  a.notes = add_notes(f, case, a, strength)
  a.cautions = site.cautions()
  a.cautions[#a.cautions + 1] = cautions.steel
  a.sequence = site.sequence(f, {new = "strap"})
  a.x1, a.x2, a.access = f.from, f.to, {"below"}
  a.title = ("strap %s under %s, %d fasteners on each side"):format(a.pieces[1].size,
    c.name, f.n)
  return a
end

function strap.title()
  return "strap"
end

-- One of the kinds of repairs (see fix.lua): its place among them, and why it is worked
-- out in allowable stress design alone.
strap.order, strap.one_format = 30, "steel"

return strap
