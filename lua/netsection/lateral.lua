-- SPDX-License-Identifier: MIT
-- What one fastener carries: lateral value, withdrawal, slip modulus. The descriptions
-- are read here, the core works them: yield equations, withdrawal, load/slip.
local clause = require("netsection.checks").clause
local core = require "netsection.core"
local data = require "netsection.fastener_data"
local point = require "netsection.point"
local tostring = require "netsection.point".text
local steps = require "netsection.standards.us-nds-2018.fastener_steps"

local fail, dowel = data.fail, core.dowel
local lateral = {}

local MAIN = {"G", "species", "thickness", "angle", "density"}
local SIDE = {"G", "species", "thickness", "angle", "density", "steel", "gauge", "Fu"}

------------------------------------------------------------------------------- members

local function specific_gravity(what, m, notes)
  if m.G ~= nil then return data.number(what .. ".G", m.G, 0.2, 1.2) end
  if m.species == nil then fail("%s: G or species is missing", what) end
  local G, name, confidence = data.G(m.species)
  notes[#notes + 1] = point.format("G of %s: %.2f, %s (%s)", name, G, data.wood.source,
    confidence)
  return G
end

-- Thickness of steel, from a gauge that of the fastener tables.
local function steel_thickness(what, m)
  if m.gauge == nil then
    return data.length(what .. ".thickness (or gauge)", m.thickness, true)
  elseif m.thickness ~= nil then
    fail("%s: a thickness or a gauge, not both", what)
  end
  return data.gauge(what .. ".gauge", m.gauge).table
end

local function steel_side(t, d, notes)
  local what = t.what .. ".side"
  if t.side.G or t.side.species then fail("%s: wood or steel, not both", what) end
  d.t_s, d.G_s = steel_thickness(what, t.side), 0
  if t.side.Fu ~= nil then
    d.F_u = data.number(what .. ".Fu", t.side.Fu, 20000, 200000)
  else
    local grade = data.grade(what .. ".steel", t.side.steel)
    d.F_u = grade.F_u
    notes[#notes + 1] = ("Fu of %s (%s)"):format(grade.source, grade.confidence)
  end
end

local function wood_side(t, d, notes)
  local what = t.what .. ".side"
  if t.side.gauge then fail("%s.gauge: only steel has one; name the steel", what) end
  d.G_s = specific_gravity(what, t.side, notes)
  d.t_s = data.length(what .. ".thickness", t.side.thickness, true)
end

local function read_members(t, d, notes)
  data.only(t.what .. ".main", t.main, MAIN)
  data.only(t.what .. ".side", t.side, SIDE)
  d.G_m = specific_gravity(t.what .. ".main", t.main, notes)
  d.t_m = data.length(t.what .. ".main.thickness", t.main.thickness) or 0
  d.theta_m = data.number(t.what .. ".main.angle", t.main.angle, 0, 90, 0)
  d.theta_s = data.number(t.what .. ".side.angle", t.side.angle, 0, 90, 0)
  local read = (t.side.steel or t.side.Fu) and steel_side or wood_side
  read(t, d, notes)
end

------------------------------------------------------------------------------- factors

local FACTOR_FIELDS = {"CD", "moisture", "temperature", "Cg", "C_delta", "end_grain",
  "toe_nail", "one_row"}

local function joined(...)
  local all = {}
  for _, list in ipairs {...} do table.move(list, 1, #list, #all + 1, all) end
  return all
end

local function wet_factor(t, how, D)
  local word = data.word(t.what .. ".moisture", t.moisture, {"dry", "wet", "drying"},
    "dry")
  local row = how == "lateral" and data.rules.factors.moisture.lateral
    or data.rules.factors.moisture.withdrawal[t.fastener.kind] or {}
  if word == "drying" and t.one_row and row["drying, one row"] then
    word = "drying, one row"
  end
  local value = row[word] or 1
  if type(value) == "table" then
    value = D < 0.25 - 1e-9 and value.small or value.large
  end
  return value
end

local function heat_factor(t)
  if t.temperature == nil then return 1 end
  local rows = data.rules.factors.temperature
  local T = data.number(t.what .. ".temperature", t.temperature, -100, 150)
  for _, row in ipairs(rows) do
    if T <= row[1] then return t.moisture == "wet" and row.wet or row.dry end
  end
end

-- Puts the factors into the core's table; true if any was asked for.
local function read_factors(t, d, how)
  local rules, f = data.rules.factors, t.fastener
  local end_grain = how == "lateral" and rules.end_grain.lateral
    or rules.end_grain[f.kind] or 1
  d.CD = data.number(t.what .. ".CD", t.CD, 0.1, 2, 1)
  d.CM, d.Ct = wet_factor(t, how, f.D), heat_factor(t)
  d.Cg = data.number(t.what .. ".Cg", t.Cg, 1e-6, 1, 1)
  d.C_delta = data.number(t.what .. ".C_delta", t.C_delta, 0, 1, 1)
  d.Ceg = t.end_grain and end_grain or 1
  d.Ctn = t.toe_nail and rules.toe_nail[how] or 1
  for _, name in ipairs(FACTOR_FIELDS) do
    if t[name] ~= nil and name ~= "one_row" then return true end
  end
  return false
end

-------------------------------------------------------------------------------- lateral

local REFUSED = {
  ["too short"] = function(r, f)
    return point.format("%s: %.4g in within the %s, at least %.4g in (%gD) is needed",
      tostring(f), math.max(r.p, 0), r.twin and "far side member" or "main member",
      r.p_min, r.p_min / r.D)
  end,
  ["not through"] = function(r, f)
    if r.t_m == 0 then return ("%s: the main member's thickness is needed"):format(f) end
    return ("%s: not long enough to pass through the parts"):format(tostring(f))
  end,
}

local SINGLE = {"Im", "Is", "II", "IIIm", "IIIs", "IV"}
local DOUBLE = {"Im", "Is", "IIIs", "IV"}

local function modes_of(r)
  local modes = {}
  if r.mode == "rated" or r.refused then return modes end
  for _, mode in ipairs(r.twin and DOUBLE or SINGLE) do modes[mode] = r[mode] end
  return modes
end

local function fastener_numbers(f, d)
  d.kind, d.D, d.D_r, d.E, d.rated = f.kind, f.D, f.D_r, f.E, f.rated or 0
  d.L, d.F_yb = f.L or 0, f.F_yb or 0
end

local function needs_reach(t, d)
  if d.L == 0 and d.pen == 0 and t.fastener.kind ~= "bolt" then
    fail "lateral.penetration: missing, and the fastener has no length"
  end
  if t.double and d.t_m == 0 then
    fail "lateral.main.thickness: missing, double shear needs it"
  elseif t.fastener.kind == "bolt" and d.t_m == 0 then
    fail "lateral.main.thickness: missing, a bolt needs it"
  end
end

-- Lateral value of one fastener, lb, unrounded, the value for both planes in double
-- shear. `adjusted` is Z' where a factor is asked for. A fastener that is too short has
-- Z = 0 and `refused`.
lateral.lateral = {fields = joined({"fastener", "main", "side", "penetration", "double",
  "penetration_rule", "KD", "Fe", "thread_bearing"}, FACTOR_FIELDS)}

function lateral.lateral.work(t)
  local f, notes, d = t.fastener, {}, {}
  t = setmetatable({what = "lateral"}, {__index = t})
  table.move(f.notes, 1, #f.notes, 1, notes)
  fastener_numbers(f, d)
  local asked = read_factors(t, d, "lateral")
  d.pen = data.length("lateral.penetration", t.penetration) or 0
  d.thread = t.thread_bearing == nil and -1
    or data.number("lateral.thread_bearing", t.thread_bearing, 0, 100)
  d.twin = not not t.double
  d.by_equations = data.word("lateral.penetration_rule", t.penetration_rule,
    {"ratio", "equations"}) == "equations"
  d.nominal_KD = data.word("lateral.KD", t.KD, {"root", "nominal"}) == "nominal"
  d.table_Fe = data.word("lateral.Fe", t.Fe, {"exact", "table"}) == "table"
  if not f.rated then
    read_members(t, d, notes)
    needs_reach(t, d)
  end
  local r = dowel.lateral(d)
  for name, value in pairs(d) do
    if type(value) == "boolean" then r[name] = value end
  end
  r.kind = f.kind
  if f.rated and d.CD > 1 then
    notes[#notes + 1] =
      "CD above 1 is not applied to a maker's value: steel may limit it"
  elseif d.CD > 1.6 then
    notes[#notes + 1] = ("CD is limited to 1.6 for connections (%s)"):format(
      clause.joint_duration)
  end
  return {Z = r.Z, mode = not r.refused and r.mode or nil, modes = modes_of(r),
    adjusted = asked and r.Z_adj or nil, rated = f.rated ~= nil,
    penetration = r.p > 0 and r.p or nil,
    refused = r.refused and REFUSED[r.refused](r, f), steps = steps.lateral(r, asked),
    notes = notes, values = r}
end

----------------------------------------------------------------------------- withdrawal

-- Withdrawal, lb per inch of thread in the main member (a nail: per inch of penetration),
-- and a second value {W =, adjusted =, thread =, total =, adjusted_total =, steps =}; the
-- totals are nil where neither length nor penetration is known.
lateral.withdrawal = {fields = joined({"fastener", "G", "species", "side_thickness",
  "penetration"}, FACTOR_FIELDS)}

function lateral.withdrawal.work(t)
  local f, notes = t.fastener, {}
  t = setmetatable({what = "withdrawal"}, {__index = t})
  if f.kind == "bolt" then
    fail "withdrawal: a bolt holds by its washers, not by thread"
  end
  table.move(f.notes, 1, #f.notes, 1, notes)
  local d = {kind = f.kind, D = f.D, E = f.E, L = f.L or 0,
    rated = f.rated_withdrawal or 0}
  local asked = read_factors(t, d, "withdrawal")
  d.G = specific_gravity("withdrawal", t, notes)
  d.t_s = data.length("withdrawal.side_thickness", t.side_thickness) or 0
  d.pen = data.length("withdrawal.penetration", t.penetration) or 0
  local r = dowel.withdrawal(d)
  r.kind = f.kind
  local known = d.pen > 0 or d.L > 0
  return r.W, {W = r.W, adjusted = asked and r.W_adj or nil,
    thread = known and r.p_t or nil, total = known and r.P or nil,
    adjusted_total = known and asked and r.P_adj or nil, rated = r.rated > 0,
    steps = steps.withdrawal(r, asked, known), notes = notes, values = r}
end

----------------------------------------------------------------------------------- slip

-- Slip modulus, lb/in per fastener and shear plane. basis: the name of the standard of
-- the fasteners (the default from 1/4 in up) or "EN" (1995-1-1 Table 7.1; the default
-- below). main and side as in lateral; density in kg/m3 stands for G.
lateral.slip = {fields = {"fastener", "main", "side", "basis", "prebored"}}

local function slip_density(what, m, notes)
  if m.density ~= nil then
    return 0, data.number(what .. ".density", m.density, 100, 1200)
  end
  return specific_gravity(what, m, notes), 0
end

function lateral.slip.work(t)
  local f, notes = t.fastener, {}
  local side, main = t.side or {}, t.main or {}
  data.only("slip.main", main, MAIN)
  data.only("slip.side", side, SIDE)
  local basis = data.word("slip.basis", t.basis, {clause.name, "EN"},
    f.D < 0.25 - 1e-9 and "EN" or clause.name)
  local d = {kind = f.kind, D = f.D, european = basis == "EN",
    steel = not not side.steel, prebored = not not t.prebored}
  if d.european then
    d.G_m, d.rho_m = slip_density("slip.main", main, notes)
    if not d.steel then d.G_s, d.rho_s = slip_density("slip.side", side, notes) end
  end
  local r = dowel.slip(d)
  for name, value in pairs(d) do r[name] = value end
  return {K = r.K, unit = "lb/in", basis = basis, steps = steps.slip(r), notes = notes}
end

return lateral
