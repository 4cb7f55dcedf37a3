-- SPDX-License-Identifier: MIT
-- Every kind of repair worked again by plain means and set beside what the module says:
-- the forces, each check, every placed fastener, and that parts, layout and calculation
-- have one count. NDS 2018 by clause; nothing here is taken from the module.
--
--   repair.compare(j, f, fixed) -> list of {what =, plain =, found =, same = false
--   where it
--     is a least one}, list of breaches in words
local alone = require "tests.plain_alone"
local dowels = require "tests.plain_dowels"
local ends = require "tests.plain_ends"
local joists = require "tests.plain_joist"
local places = require "tests.plain_places"
local strap = require "tests.plain_strap"
local ties = require "tests.plain_ties"

local repair = {}
local max, min = math.max, math.min

-- Steel by its standard (psi): A36; A653 SS grade 33, F_u read, F_y from memory. Gauges:
-- that of the NDS tables for Z, the bare sheet for the plate (memory).
local STEEL = {A36 = {F_y = 36000, F_u = 58000, E = 29e6}, ["A653 33"] = {F_y = 33000,
  F_u = 45000, E = 29.5e6, sheet = true}}
local GAUGE = {[10] = {0.134, 0.1242}, [12] = {0.105, 0.1017}, [14] = {0.075, 0.0713}}

--------------------------------------------------------------------------------- results

local result = {}
result.__index = result

function result:set(what, plain, found, same)
  self.list[#self.list + 1] = {what = what, plain = plain, found = found,
    same = same ~= false}
end

-- A force or a count: no ratio.
function result:count(what, plain, found)
  self:set(what, plain, found)
  self.list[#self.list].count = true
end

function result:breach(text) self.breaches[#self.breaches + 1] = text end

-- Largest ratio among checks of a mode, member, cut.
function result:worst(mode, member, test)
  local worst
  for _, k in ipairs(self.fixed.checks) do
    if k.mode == mode and (not member or k.member == member) and k.ratio
      and (not test or test(k)) and (not worst or k.ratio > worst) then
      worst = k.ratio
    end
  end
  return worst
end

function result:check(mode, member, plain, same, test)
  self:set(mode .. " " .. member, plain, self:worst(mode, member, test), same)
end

-------------------------------------------------------------------------------- the joist

-- Whether a tie or an end of the new member stands within d of a bearing's face: there
-- the shear without the load near it is not that of the place at d.
local function near_bearing(w, x0, reach)
  for _, s in ipairs(w.stations or {}) do
    if math.abs(s.x - x0) < reach + 1e-6 then return true end
  end
  return w.on and math.min(math.abs(w.on[1] - x0), math.abs(w.on[2] - x0)) < reach
end

-- Whole section, bearings, cuts and sag of a joist in a state.
function repair.joist(q, state, w, member, bend)
  local j, total = state.j, joists.total(state.j)
  local S = j.b * j.d ^ 2 / 6
  local function sagging(k) return k.branch == 1 end
  local plain = state:bending(0, total, j.wood, S, j.Cr)
  q:check(bend[1], member, plain, true, sagging)
  local hogs = state:bending(0, total, j.wood, S, j.Cr, -1)
  if hogs > 1e-6 then q:check(bend[1], member, hogs, false) end
  local x0, shear, loose = 0, 0, false
  for n = 1, #j.l_b do
    local reach = j.l_b[n] / 2 + j.d
    for _, side in ipairs {1, -1} do
      if n <= #j.L and side > 0 or n > 1 and side < 0 then
        loose = loose or near_bearing(w, x0, reach)
        shear = max(shear, state:end_shear(x0, j.l_b[n], side, state.q or {1, 1}))
      end
    end
    local D, up = state:reaction(x0)
    local R = (D + up)
    q:check("bearing", member, joists.bearing(R, j.l_b[n], j.b, j.wood, n > 1
      and n <= #j.L), true, function(k) return k.support == n end)
    x0 = x0 + (j.L[n] or 0)
  end
  if not loose then
    q:check(bend[2], member, shear, true, function(k)
      return k.branch == 1 and not k.cut
    end)
  end
end

-- Cuts that stay in the joist.
function repair.cuts(q, state, but)
  local j = state.j
  for i, c in ipairs(j.cuts) do
    if c.kind ~= "sever" and i ~= but then
      local plain, hogs = state:cut(c, j.Cr)
      local found = 0
      for _, k in ipairs(q.fixed.checks) do
        if k.cut == i and k.member == "host" and k.binding ~= false then
          found = max(found, k.ratio or 1e9)
        end
      end
      q:set(("%s %d"):format(c.kind, i), plain, found, not hogs)
    end
  end
end

---------------------------------------------------------------------------------- counts

-- Parts, layout and calculation have one count.
local function counts(q, faces)
  local a, sum = q.fixed, 0
  for _, s in ipairs(a.stations) do sum = sum + s.n * faces end
  q:count("fasteners in the parts", #a.layout, a.fasteners[1].count)
  q:count("fasteners of the stations", #a.layout, sum)
end

--------------------------------------------------------------------------------- beside

-- What a sister or plates bring, in numbers.
local function brought(j, f)
  local bolt = f.fastener.kind == "bolt"
  local sides = f.side == "both" and 2 or 1
  local o = {sides = sides, from = f.from, to = f.to, double = sides == 2 and bolt,
    left = f.bearing or false, right = f.bearing or false}
  o.faces = sides == 2 and not bolt and 2 or 1
  if f.kind == "sister" then
    o.wood, o.E, o.d, o.b_one, o.G = f.wood, f.wood.E, f.d, f.b, f.wood.G
    o.t, o.t_Z = f.b, f.b
    o.thin = min(f.b, j.b)
    o.share = f.bearing and f.share or "slip"
  else
    local steel, gauge = STEEL[f.steel], f.gauge and GAUGE[f.gauge]
    o.E, o.F_y, o.d, o.steel = steel.E, steel.F_y, f.depth, steel
    o.t, o.t_Z = gauge and gauge[2] or f.thickness, gauge and gauge[1] or f.thickness
    o.b_one, o.thin, o.share = o.t, o.t, "slip"
  end
  o.b = o.b_one * sides
  o.rise = f.bearing and 0 or j.d - o.d
  o.slip = dowels.slip(f.fastener, j.wood.G, o.G, o.steel)
  o.per_place = o.double and 2 or o.faces
  return o
end

-- One fastener's value with all that its place makes of it.
local function strength(q, j, f, o, groups)
  local a, D = q.fixed, f.fastener.D
  local meet = o.faces == 2 and 2 * (f.fastener.L - o.t) > j.b + 1e-9
  local e, c = places.check(a.layout, {D = D, large = D >= 0.25, thin = o.thin, joist = j,
    from = f.from, to = f.to, free = {left = not f.bearing, right = not f.bearing},
    low = o.rise, high = o.rise + o.d, wood = f.kind == "sister", meet = meet,
    groups = groups, joist_ends = {-j.l_b[1] / 2, j.L[1] + j.l_b[2] / 2}},
    function(text) q:breach(text) end)
  q.placed = {d = j.d, low = o.rise, high = o.rise + o.d, meet = meet, near_end = e,
    near_cut = c}
  if f.rated then return f.rated end
  local Z = dowels.Z(f.fastener, {G = j.wood.G, t_m = j.b, theta_m = 90, t_s = o.t_Z,
    theta_s = 90, G_s = o.G, F_es = o.steel and dowels.steel_Fe(o.steel.F_u, o.t_Z),
    double = o.double})
  if not Z then
    q:breach("a fastener too short is counted")
    return 1e-9
  end
  local planes = o.faces
  local Cg = places.Cg(groups, {D = D, main = {E = j.wood.E, b = j.b / planes},
    side = {E = o.E, b = o.b / planes, steel = o.steel}})
  return Z * places.C_delta(D, e, c) * Cg
end

local function station_forces(q, w)
  local forces = ties.forces(w)
  for i, s in ipairs(q.fixed.stations) do
    local F = forces[i]
    q:count(("most of row %d"):format(i), F[1] + F[2], s.most)
    q:count(("least of row %d"):format(i), F[1] + F[3], s.least)
    q:count(("row %d under all loads"):format(i), F[1] + F.all, s.full)
  end
  return forces
end

local function new_wood(q, w, f)
  local o = w.o
  local S, A = o.b * o.d ^ 2 / 6, o.b * o.d
  local worst = max(w.new:bending(o.from, o.to, o.wood, S, w.j.Cr),
    w.new:bending(o.from, o.to, o.wood, S, w.j.Cr, -1))
  q:check("bending", "sister", worst)
  q:check("shear", "sister", w.new:shear(o.from, o.to, o.wood, A))
  if f.bearing then
    for n, x in ipairs {o.from, o.to} do
      local side = n == 1 and 1 or -1
      local _, v = w.new:M(x, side)
      local R = joists.most(v, 2, side)
      q:check("bearing", "sister", joists.bearing(max(R, 0), w.j.l_b[n], o.b, o.wood),
        true, function(k) return math.abs(k.at - x) < 1e-6 end)
    end
  end
end

local function beside(q, j, f)
  local a, o = q.fixed, brought(j, f)
  local w = ties.work(j, f, o, a.stations)
  if not w then return q:breach "a mechanism was counted" end
  w.ends = {-j.l_b[1] / 2, j.L[1] + j.l_b[2] / 2}
  local groups = places.by_station(a.layout, a.stations)
  local forces = station_forces(q, w)
  if f.bearing and o.share ~= "slip" then ties.pair(w) end
  local Z = strength(q, j, f, o, groups)
  counts(q, o.faces)
  q:check("fasteners", f.kind == "sister" and "sister" or "plates",
    ties.groups(w, forces, Z))
  q:check("connection-shear", "host", ties.across(w, forces, groups, true))
  if f.kind == "sister" then
    q:check("connection-shear", "sister", ties.across(w, forces, groups, false))
    new_wood(q, w, f)
  else
    local bend, shear = ties.plate(w)
    q:check("steel", "plates", bend, true, function(k) return k.branch == 2 end)
    q:check("steel", "plates", shear, true, function(k) return k.branch == 3 end)
  end
  if o.share == "slip" then
    local x, worst = w.host, 0
    for _, s in ipairs(a.stations) do
      for _, side in ipairs {-1, 1} do
        local _, v = x:M(s.x, side)
        for c = 1, 2 do
          worst = max(worst, max(joists.most(v, c, 1), joists.most(v, c, -1)) / (2 / 3
            * joists.values(j.wood, c).Fv * j.b * j.d))
        end
      end
    end
    q:check("host-shear", "host", worst, true, function(k) return k.branch == 2
      and not k.cut end)
  end
  if o.share ~= "new" then
    repair.joist(q, w.host, w, "host", {"host-bending", "host-shear"})
    repair.cuts(q, w.host)
  end
  local live, total = ties.sag(w)
  q:check("deflection-live", "host", live / (j.L[1] / 360))
  q:check("deflection-total", "host", total / (j.L[1] / 240))
end

-- Loads by when they come: dead load stays in the joist unless it was lifted off.
local function strapped(q, j, f)
  local steel, gauge = STEEL[f.steel], f.gauge and GAUGE[f.gauge]
  local state = strap.compare(q, j, f, {steel = steel, E = steel.E, t = gauge and gauge[2]
    or f.thickness, t_Z = gauge and gauge[1] or f.thickness}, function(all)
    if f.lift == "unloaded" then return {}, all end
    return joists.only(all, false), joists.only(all, true)
  end)
  repair.joist(q, state, {}, "host", {"host-bending", "host-shear"})
  repair.cuts(q, state, f.cut)
end

local work = {strap = strapped, sister = beside, side_plates = beside,
  hanger = alone.hanger, midspan_support = alone.midspan_support,
  added_joist = alone.added_joist, header = alone.header,
  notch_screws = ends.notch_screws, end_sister = ends.end_sister}
repair.work = work

-- @param fixed the module's fixed state, not refused
-- @return what was compared, breaches, where its fasteners stand (for plain_nails.placed)
function repair.compare(j, f, fixed)
  local q = setmetatable({list = {}, breaches = {}, fixed = fixed}, result)
  work[f.kind](q, j, f)
  return q.list, q.breaches, q.placed
end

return repair
