-- SPDX-License-Identifier: MIT
-- Fasteners in a group: group action, distances and the geometry factor, tearing of the
-- wood around them, the steel they hold. All worked by the core; each returns its numbers
-- and `steps`.
local clause = require("netsection.checks").clause
local core = require "netsection.core"
local data = require "netsection.fastener_data"
local point = require "netsection.point"
local steps = require "netsection.standards.us-nds-2018.fastener_steps"

local fail, dowel, rules = data.fail, core.dowel, data.rules
local group = {}

-- Below 1/4 in, where distances are recommendations and factors are 1.
local function small(f)
  return f.D < 0.25 - 1e-9
end

--------------------------------------------------------------------------- group action

local MEMBER = {"E", "A", "steel"}

-- Stiffness and area of a member of a row; steel has the E of its grade.
local function stiffness(what, m)
  data.only(what, m, MEMBER)
  local steel = m.steel and m.steel ~= true and data.grade(what .. ".steel", m.steel)
  local E = data.number(what .. ".E", m.E, 1e4, 1e8, steel and steel.E)
  return E, data.number(what .. ".A", m.A, 1e-6, 1e5)
end

-- Group action factor of one row (u and m of two bars on springs): n fasteners at a
-- pitch; main and side {E =, A =}, side {steel = "A36", A =} takes the grade's E. 1 for
-- D < 1/4 in.
-- @return {Cg =, gamma =, u =, m =, R_EA =, steps =}
group.Cg = {fields = {"fastener", "n", "spacing", "main", "side", "gamma"}}

--- See group.Cg.
function group.Cg.work(t)
  local d = {D = t.fastener.D, n = data.number("Cg.n", t.n, 1, 1000)}
  d.s = data.length("Cg.spacing", t.spacing, d.n > 1) or 1
  d.E_m, d.A_m = stiffness("Cg.main", t.main)
  d.E_s, d.A_s = stiffness("Cg.side", t.side)
  d.steel = not not t.side.steel
  d.slip = t.gamma ~= nil and data.number("Cg.gamma", t.gamma, 1, 1e8) or 0
  local r = dowel.Cg(d)
  r.steel = d.steel
  return {Cg = r.Cg, gamma = r.gamma, u = r.u, m = r.m, R_EA = r.R_EA,
    steps = steps.Cg(r)}
end

------------------------------------------------------------------------------ distances

local LAYOUT = {"fastener", "load", "force", "side", "prebored", "hardwood", "l",
  "row"}

-- Direction and sense of the load, and the piece that a nail's head is on.
local function layout_words(what, t)
  local load = data.word(what .. ".load", t.load, {"parallel", "perpendicular"})
  if not load then fail("%s.load: parallel or perpendicular to grain expected", what) end
  local force = data.word(what .. ".force", t.force, {"tension", "compression"},
    "tension")
  return load, force, data.word(what .. ".side", t.side, {"wood", "steel"}, "wood")
end

-- Distances of bolts and lag screws in multiples of D.
local function large_multiples(t, load, force)
  local set = rules.large
  local wood = t.hardwood and "hardwood" or "softwood"
  local key = load == "perpendicular" and load
    or force == "compression" and "parallel compression" or "parallel tension " .. wood
  local ends, pitch = set["end"][key], set.spacing[load]
  return {end_min = ends[1], end_full = ends[2], spacing_min = pitch[1],
    spacing_full = pitch[2], edge = set.edge, loaded_edge = set.loaded_edge[load],
    row = set.row[load]}, set
end

-- Distances of nails and small screws in multiples of D.
local function small_multiples(t, load, force, side)
  local set = rules.small[side][t.prebored and "prebored" or "driven"]
  return {end_min = set[force], end_full = set[force], spacing_min = set[load],
    spacing_full = set[load], edge = set.edge, loaded_edge = set.edge, row = set.row,
    row_staggered = set.row_staggered}, rules.small
end

-- The least distance, and that of full value.
local function pair(least, full)
  return {minimum = least, full = full}
end

-- Distances in inches for one fastener and load, and the rules they are of.
local function find_distances(what, t)
  local load, force, side = layout_words(what, t)
  local f = t.fastener
  local d, set
  if small(f) then
    d, set = small_multiples(t, load, force, side)
  else
    d, set = large_multiples(t, load, force)
  end
  d.D = f.D
  d.l = data.length(what .. ".l", t.l) or 0
  d.row_used = data.length(what .. ".row", t.row) or 0
  if d.row == 0 and d.l == 0 then
    -- not known how slender: the widest rows
    d.l = 6 * f.D
  end
  return dowel.distances(d), d, set
end

-- Distances in inches for one direction of load ("parallel" or "perpendicular" to the
-- grain of this member): {minimum =, full =} each for end_distance, edge, loaded_edge,
-- spacing (in a row) and row (between rows), row_staggered for D < 1/4 in.
-- D >= 1/4 in: required; smaller: recommendations of the commentary, where `side` is
-- the member under the head and holes may be prebored. force: what the end sees.
-- l: bearing length of the thinner member; row: rows as laid out, which count where
-- l > 6D. Not known: the widest rows.
group.distances = {fields = LAYOUT}

--- See group.distances.
function group.distances.work(t)
  local r, times, set = find_distances("distances", t)
  local tied = not small(t.fastener)
  return {end_distance = pair(r.end_min, r.end_full), edge = pair(r.edge, r.edge),
    loaded_edge = pair(r.loaded_edge, r.loaded_edge),
    spacing = pair(r.spacing_min, r.spacing_full), row = pair(r.row, r.row),
    row_staggered = r.row_staggered > 0 and pair(r.row_staggered, r.row_staggered) or nil,
    rows_apart = tied and set.rows_apart or nil, required = tied, source = set.source,
    confidence = set.confidence, steps = steps.distances(r, times, set)}
end

-- Geometry factor of a group: the smallest ratio of a distance to that of
-- the full value, 1 for D < 1/4 in; 0 and `refused` below the least distance.
group.C_delta = {fields = table.move(LAYOUT, 1, #LAYOUT, 3, {"end_distance", "spacing"})}

--- See group.C_delta.
function group.C_delta.work(t)
  local full = find_distances("C_delta", t)
  if small(t.fastener) then
    return {C_delta = 1, steps = steps.C_delta({C_delta = 1}, true)}
  end
  local r = dowel.C_delta {e = data.length("C_delta.end_distance", t.end_distance) or 0,
    s = data.length("C_delta.spacing", t.spacing) or 0, e_min = full.end_min,
    e_full = full.end_full, s_min = full.spacing_min, s_full = full.spacing_full}
  local refused
  if r.refused then
    local ends = r.e > 0 and r.e < r.e_min - 1e-9
    refused = point.format("%s %.4g in, at least %.4g in is needed",
      ends and "end distance" or "spacing", ends and r.e or r.s,
      ends and r.e_min or r.s_min)
  end
  return {C_delta = r.C_delta, refused = refused, steps = steps.C_delta(r, false)}
end

-------------------------------------------------------------------------- wood tear-out

-- Row tear-out, group tear-out and net tension of the wood (from memory; clause tear_out)
-- for load along the grain: Fv and Ft are adjusted values. width: of the member, across
-- the rows. hole: bolts D + 1/16 in, others D.
-- @return {row =, group =, net =, least =, governs =, steps =} in lb
group.tear_out = {fields = {"fastener", "rows", "per_row", "spacing", "row_spacing",
  "end_distance", "thickness", "width", "Fv", "Ft", "hole"}}

-- Fasteners in a row, rows, their spacings in inches.
local function rows_of(what, t)
  local n = data.number(what .. ".per_row", t.per_row, 1, 1000, 1)
  local rows = data.number(what .. ".rows", t.rows, 1, 100, 1)
  return n, rows, data.length(what .. ".spacing", t.spacing, n > 1) or 0,
    data.length(what .. ".row_spacing", t.row_spacing, rows > 1) or 0
end

-- The hole in wood or steel, in.
local function hole_of(what, t, in_steel)
  local f = t.fastener
  local hole = data.length(what .. ".hole", t.hole)
  if hole then
    if hole < f.D then
      fail("%s.hole: at least the diameter, %.4g in, expected", what, f.D)
    end
    return hole
  end
  local slack = f.kind == "bolt" and (f.D < 1 and 1 / 16 or 1 / 8)
    or f.kind == "lag screw" and in_steel and 1 / 16 or 0
  return f.D + slack
end

--- See group.tear_out.
function group.tear_out.work(t)
  local what = "tear_out"
  local d = {D_h = hole_of(what, t, false)}
  d.n, d.rows, d.s, d.g = rows_of(what, t)
  d.e = data.length("tear_out.end_distance", t.end_distance, true)
  d.t = data.length("tear_out.thickness", t.thickness, true)
  d.d = data.length("tear_out.width", t.width, true)
  d.F_v = data.number("tear_out.Fv", t.Fv, 1, 1e4)
  d.F_t = data.number("tear_out.Ft", t.Ft, 1, 1e5)
  local r = dowel.tear_out(d)
  local governs = r.least == r.Z_NT and "net tension" or r.least == r.Z_RT
    and "row tear-out" or "group tear-out"
  return {row = r.Z_RT, group = r.Z_GT, net = r.Z_NT, least = r.least, governs = governs,
    steps = steps.tear_out(r)}
end

---------------------------------------------------------------------------------- steel

-- Thickness of bare steel, by its gauge or as given, in.
local function thickness_of(what, t)
  if t.gauge == nil then
    return data.length(what .. ".thickness (or gauge)", t.thickness, true)
  elseif t.thickness ~= nil then
    fail("%s: a thickness or a gauge, not both", what)
  end
  return data.gauge(what .. ".gauge", t.gauge).design
end

-- Allowable tension of a steel strap or plate at a joint, ASD, lb: yield of the gross
-- section, rupture of the net one, bearing and tear-out of all fasteners, block shear.
-- The grade says whether plate or sheet rules hold; at screws sheet has its own factor of
-- safety. A gauge is taken at the
-- thickness of the bare steel. rows are across the strap, per_row along it.
-- @return {T =, governs =, checks = {yield =, ...}, A_g =, A_n =, thickness =, steps =}
group.steel = {fields = {"fastener", "steel", "thickness", "gauge", "width", "rows",
  "per_row", "spacing", "row_spacing", "end_distance", "hole"}}

--- See group.steel.
function group.steel.work(t)
  local grade = data.grade("steel.steel", t.steel)
  local d = {F_y = grade.F_y, F_u = grade.F_u, D = t.fastener.D,
    sheet = grade.rules == clause.sheet_steel, t = thickness_of("steel", t)}
  d.w = data.length("steel.width", t.width, true)
  d.n, d.rows, d.s, d.g = rows_of("steel", t)
  d.e = data.length("steel.end_distance", t.end_distance, true)
  d.D_h = hole_of("steel", t, not d.sheet)
  local r = dowel.steel(d)
  r.sheet = d.sheet
  local checks = {yield = r.T_y, rupture = r.T_u, bearing = r.T_b,
    ["block shear"] = r.T_bs, ["tear-out"] = r.sheet and r.T_t or nil}
  local notes = {("%s: Fy, Fu (%s)"):format(grade.source, grade.confidence)}
  if d.sheet and t.fastener.kind ~= "wood screw" and t.fastener.kind ~= "nail" then
    notes[2] = "held to the safety factors of screws in sheet, the harder ones"
  end
  return {T = r.T, governs = r.governs, checks = checks, A_g = r.A_g, A_n = r.A_n,
    thickness = d.t, steps = steps.steel(r), notes = notes}
end

local SHEET = {"steel", "thickness", "gauge"}

-- Thickness and tensile strength of a sheet.
local function sheet_of(what, t)
  data.only(what, t, SHEET)
  return thickness_of(what, t), data.grade(what .. ".steel", t.steel).F_u
end

-- A screw through sheet steel, nominal over 3.0, lb: shear (bearing, tilting
-- where there is a second sheet), pull-over of the head, pull-out of the second sheet.
-- @return {shear =, pull_over =, pull_out =, steps =}
group.screw_in_sheet = {fields = {"fastener", "sheet", "second", "head"}}

--- See group.screw_in_sheet.
function group.screw_in_sheet.work(t)
  local d = {D = t.fastener.D}
  d.t_1, d.F_u1 = sheet_of("screw_in_sheet.sheet", t.sheet)
  if t.second ~= nil then d.t_2, d.F_u2 = sheet_of("screw_in_sheet.second", t.second) end
  d.d_w = data.length("screw_in_sheet.head", t.head) or 0
  local r = dowel.sheet_screw(d)
  return {shear = r.P_as, pull_over = d.d_w > 0 and r.P_aov or nil,
    pull_out = t.second and r.P_aot or nil, steps = steps.sheet_screw(r)}
end

return group
