-- SPDX-License-Identifier: MIT
-- Screws driven up through the corner of an end notch take the tension across the grain
-- there, all of it (DIN EN 1995-1-1/NA NCI NA.6.8.3, memory). US codes have no such rule:
-- the NDS figure for the notch stays shown, and the depth limit of NDS 4.4.3 stands.
local cautions = require "netsection.cautions"
local core = require "netsection.core"
local fasten = require "netsection.fix.fasten"
local fastener = require "netsection.fastener"
local model = require "netsection.model"
local part = require "netsection.fix.part"
local units = require "netsection.units"

local screws = {fields = {"support", "n", "fastener", "thread", "rated", "G", "note"}}

local read = model.readers

function screws.read(t, _, found, part_)
  local f = {support = read.choice(found, part_, "support", t.support or "left",
    {"left", "right"}), notes = {}}
  f.n = read.whole(found, part_, "n", t.n or 2, 1, 8)
  f.thread = t.thread ~= nil and read.between(found, part_, "thread", t.thread,
    0.1, 24) or nil
  f.rated = t.rated ~= nil and read.load(found, part_, "rated", t.rated, "point") or nil
  f.G = t.G and read.number(found, part_, "G", t.G, 0.2, 1) or nil
  if t.fastener == nil then
    f.fastener = fastener {kind = "lag screw", diameter = "1/4 in", length = "6 in"}
    f.notes[1] = "fastener not given: 1/4 x 6 in lag screw assumed"
  elseif type(t.fastener) ~= "table" or not t.fastener.D then
    found:add(part_, "fastener", "a fastener such as ns.fastener{...} expected")
  else
    f.fastener = t.fastener
  end
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

-- Thread on the lesser side of the crack, which runs along the grain from the corner.
local function held(f, cut)
  local deep = cut.depth + (cut.overcut or 0)
  local above = (f.fastener.L or 6) - (f.fastener.E or 0) - deep
  return f.thread or math.max(math.min(deep, above), 0)
end

local function withdrawal(f, case, T_of)
  local m = case.model
  if f.rated then return T_of(4, {Z = f.rated}) end
  local G = fasten.gravity(f, case.joist.description, f.notes)
  local W, more = fastener.withdrawal {fastener = f.fastener, G = G,
    moisture = m.moisture,
    temperature = m.temperature}
  local k = T_of(3, {W = W, C_z = more.adjusted and more.adjusted / W or 1})
  k.extra_steps = more.steps
  return k
end

function screws.assess(case, f)
  local m, r = case.model, case.review
  local i = the_notch(f, case)
  if not i then
    return nil, ("there is no notch in the bottom at the %s bearing"):format(f.support)
  end
  local c, cut = r.cuts[i], m.cuts[i]
  if c.status == "not permitted" then
    return nil, ("%s is outside NDS 4.4.3; screws do not change that: give the joist a "
      .. "new bearing"):format(c.name)
  end
  local V = math.max(math.abs(c.V_most), math.abs(c.V_least))
  local d_n = m.d - cut.depth - (cut.overcut or 0)
  local at = f.support == "left" and 0 or part.total(m)
  local a = {checks = {}, notes = f.notes, reactions = r.cut.reactions,
    deflection = r.cut.deflection, moment = r.cut.moment, shear = r.cut.shear,
    reaction_range = r.cut.reaction_range, cautions = {cautions.always[2]}}
  for _, k in ipairs(r.cut.checks) do
    local own = setmetatable({}, {__index = k})
    if k.mode == "notch-shear" and k.cut == i then own.binding = false end
    a.checks[#a.checks + 1] = own
  end
  a.checks[#a.checks + 1] = withdrawal(f, case, function(branch, t)
    t.mode, t.branch, t.demand, t.n_f = "withdrawal", branch, 0, f.n
    t.V, t.d_n, t.d, t.p, t.CD = V, d_n, m.d, held(f, cut), 1
    t.member, t.at, t.name = "host", at, c.name
    return case.joint(t)
  end)
  local Fv = core.adjust(m, case.standard.core, "Fv")
  a.checks[#a.checks + 1] = case.joint {mode = "host-shear", branch = 2, demand = V,
    V = V,
    F = m.Fv, F_a = Fv.value, CD = Fv.CD, CM = Fv.CM, Ct = Fv.Ct, Ci = Fv.Ci, K = Fv.K,
    b = m.b * m.plies, d = d_n, member = "host", at = at, name = c.name}
  local T = a.checks[#a.checks - 1].demand
  a.forces = {{name = "tension across the grain", at = at, value = T, unit = "lb"}}
  a.notes[#a.notes + 1] = "tension across the grain by DIN EN 1995-1-1/NA NCI NA.6.8.3 "
    .. "(memory), all of it on the screws; US codes have no such rule, the NDS figure "
      .. "for the "
    .. "notch is shown and does not decide"
  a.notes[#a.notes + 1] = "one row of screws along the grain, as near the corner as the "
    .. "edge distance allows; lead holes as for withdrawal"
  a.fasteners = {{fastener = tostring(f.fastener), count = f.n, where = "up through the "
    .. "bottom edge beside the notch", D = f.fastener.D}}
  local x = f.support == "left" and c.x2 + 4 * f.fastener.D or c.x1 - 4 * f.fastener.D
  a.layout = {{x = x, h = 0, D = f.fastener.D, piece = 1}}
  a.sequence = {"Shore the end and close the crack before driving.",
    ("Drill and drive the screws %s in from the notch's corner, up through the bottom "
      .. "edge.")
      :format(units.fixed(4 * f.fastener.D, 2)), "Have it seen before it is covered."}
  a.title, a.x1, a.x2 = screws.title(f), x, x
  a.diagram = part.diagram({{name = "joist, as repaired", {r, 0}}}, m)
  return a
end

return screws
