-- SPDX-License-Identifier: MIT
-- Checks of an end sister: hanger, sister, both groups, the joist between the lost end
-- and its far bearing, sag. Demands by fix/end_statics.lua, capacities by the core.
local core = require "netsection.core"
local diagrams = require "netsection.diagram"
local lane = require "netsection.lane"
local many = require "netsection.many"
local model = require "netsection.model"
local review = require "netsection.review"

local checks = {}

-- What the checks share: {a =, case =, f =, g =, m =, o =, strength =, right =}.
local work = {}
work.__index = work

-- A place from the lost bearing as it is measured on the joist.
function work:place(x)
  return self.right and self.g.L - x or x
end

-- An answer of the statics with the combination that asks most by name: one for all.
function work:named(d)
  d.index = math.tointeger(lane.same(d.index))
  d.name = self.g.combinations[d.index].name
  return d
end

-- A force at x and what of it asks most, either sign, or one alone (+1, -1).
function work:at(name, x, sign)
  return self:named(self.g:of(name, x, sign))
end

-- The worst of a force between a and b.
function work:peak(name, a, b, sign)
  return self:named(self.g:peak(name, a, b, sign))
end

-- Adjusted value with its factors, for a record.
local function adjusted(w, m, property, index)
  return core.adjust(lane.first(m), w.case.standard.core, property, index)
end

--- Adds a check of the core; it binds.
function work:add(t)
  self.a.checks[#self.a.checks + 1] = self.case.joint(t)
  local k = self.a.checks[#self.a.checks]
  k.binding = true
  return k
end

-- Bending of a whole section: f_b = M/S <= F_b' with CL.
-- @param t {mode =, m =, d = demand, member =, name =, Cr =, CL =, l_u =, l_e =}
function work:bending(t)
  local m, d = t.m, t.d
  local F = adjusted(self, m, "Fb", d.index)
  local CL = t.CL and t.CL(F.value * t.Cr) or 1
  return self:add {mode = t.mode, branch = t.CL and 2 or 1, demand = d.V, F = m.Fb,
    F_a = F.value * t.Cr * CL, CD = F.CD, CM = F.CM, Ct = F.Ct, CL = CL, CF = F.CF,
    Ci = F.Ci, Cr = t.Cr, K = F.K, b = m.b * m.plies, d = m.d, l_u = t.l_u, l_e = t.l_e,
    member = t.member, name = t.name, at = self:place(d.x), combination = d.name}
end

-- Shear of a whole section: V <= 2/3 F_v' b d.
function work:shear(t)
  local m, d = t.m, t.d
  local F = adjusted(self, m, "Fv", d.index)
  return self:add {mode = t.mode, branch = 2, demand = d.V, V = d.V, F = m.Fv,
    F_a = F.value, CD = F.CD, CM = F.CM, Ct = F.Ct, Ci = F.Ci, K = F.K,
    b = m.b * m.plies, d = m.d, member = t.member, name = t.name,
    at = self:place(d.x), combination = d.name}
end

------------------------------------------------------------------------------- hanger

-- The hanger under the sister's end: its load, its seat.
local function hanger(w)
  local R = w.g:of "R"
  local a, f, o = w.a, w.f, w.o
  local all = R.dead + R.most
  a.forces[#a.forces + 1] = {name = "load on the hanger", at = w:place(0), value = all,
    unit = "lb"}
  if f.capacity then
    w:add {mode = "fasteners", branch = 2, demand = all, G = all, Z = f.capacity, n_f = 1,
      member = "hanger", name = "hanger", at = w:place(0)}
  end
  if (o.Fc_perp or 0) > 0 then
    local F = adjusted(w, o, "Fc_perp", 1)
    w:add {mode = "bearing", branch = 1, demand = all, R = all, F = o.Fc_perp,
      F_a = F.value, CD = 1, CM = F.CM, Ct = F.Ct, Ci = F.Ci, K = F.K, Cb = 1,
      l_b = f.seat, b = o.b * o.plies, member = "sister", name = "seat in the hanger",
      at = w:place(0)}
  else
    a.notes[#a.notes + 1] = "bearing of the sister not checked: Fc_perp not given"
  end
end

------------------------------------------------------------------------------- groups

-- Force of a group against its fasteners: F <= n Z'.
local function group_strength(w, i, d, name)
  local s, f = w.strength, w.f
  local k = w:add {mode = "fasteners", branch = s.rated and 2 or 1, demand = d.V, G = d.V,
    Z = s.Z, C_z = s.C_z, CD = d.CD, n_f = f.at[i].n, member = "sister", name = name,
    at = w:place(f.at[i].x), combination = d.name}
  k.extra_steps = s.steps
end

-- Greatest force the group passes to a member: its own, or the shear beside it.
local function crossing_demand(w, i, d, force)
  local best, x = d, w.f.at[i].x
  for _, side in ipairs {-1e-6, 1e-6} do
    local V = w:at(force, x + side)
    if V.V / V.CD > best.V / best.CD then best = V end
  end
  return best
end

-- Shear across the grain at a group: V' = 2/3 F_v' b d_e, within 5d of an end times
-- (d_e/d)^2. d_e is d less the distance from the unloaded edge to the nearest fastener,
-- and less what cuts took of the joist there.
local function across_grain(w, i, d, t)
  local m, x = t.m, w.f.at[i].x
  local F = adjusted(w, m, "Fv", d.index)
  local h = w.f.stations[i].held
  local wood = t.member == "host" and h or {bottom = t.rise, top = t.rise + m.d, lost = 0}
  local d_e = (t.up and wood.top - h.low or h.high - wood.bottom) - wood.lost
  local near = lane.min(x - t.from, t.to - x) <= 5 * m.d
  w:add {mode = "connection-shear", branch = near and 1 or 2, demand = d.V, G = d.V,
    F = m.Fv, F_a = F.value, CD = F.CD, CM = F.CM, Ct = F.Ct, Ci = F.Ci, K = F.K,
    b = t.member == "host" and w.f.reached.b or m.b * m.plies, d = m.d,
    d_e = lane.max(lane.min(d_e, m.d), 0), member = t.member,
    name = t.name, at = w:place(x), combination = d.name}
end

-- Its force, downward on the sister.
local function station(q, way)
  local a, b = way * (q.dead + q.most), way * (q.dead + q.least)
  return {most = lane.max(a, b), least = lane.min(a, b), full = way * (q.dead + q.live)}
end

-- The inner group lifts the joist and presses the sister down; the outer one the reverse.
local function groups(w)
  local a, g, f = w.a, w.g, w.f
  for i, name in ipairs {"inner group", "outer group"} do
    local q = w:at(i == 1 and "F_i" or "F_o")
    group_strength(w, i, q, name)
    across_grain(w, i, crossing_demand(w, i, q, "V_host"), {m = w.m, rise = 0,
      up = i == 1, from = g.l, to = g.L, member = "host", name = name})
    across_grain(w, i, crossing_demand(w, i, q, "V_sister"), {m = w.o, rise = f.rise,
      up = i == 2, from = 0, to = f.reach, member = "sister", name = name})
    a.stations[i] = station(q, i == 1 and 1 or -1)
    a.stations[i].x, a.stations[i].n = w:place(f.at[i].x), f.at[i].n
    a.stations[i].name = name
    a.forces[#a.forces + 1] = {name = i == 1 and "inner group, lifts the joist"
      or "outer group, presses the joist down", at = w:place(f.at[i].x),
      value = q.dead + q.most, unit = "lb"}
  end
end

------------------------------------------------------------------------------ members

-- Bending and shear of the sister.
local function sister_checks(w)
  local g, Cr = w.g, w.Cr
  w:bending {mode = "bending", m = w.o, member = "sister", name = "sister", Cr = Cr,
    d = w:peak("M_sister", 0, g.x_o, 1)}
  w:shear {mode = "shear", m = w.o, member = "sister", name = "sister",
    d = w:peak("V_sister", 0, g.x_o - 1e-6)}
end

-- The core's functions with their numbers by name.
local function length(t) return {l_e = core.l_e(t.case, t.l_u, t.d)} end
local function factor(t) return {CL = core.CL(t.F, t.E_min, t.l_e, t.b, t.d)} end

-- Beam stability of the joist over an unbraced length: CL of R_B = sqrt(l_e d/b^2).
local function stability(w, case, l_u)
  local m = w.m
  local l_e = lane.each(length, {case = case, l_u = l_u, d = m.d}, {}).l_e
  local E_min = adjusted(w, m, "Emin", 1).value
  return l_e, function(F_star)
    return lane.each(factor, {F = F_star, E_min = E_min, l_e = l_e, b = m.b * m.plies,
      d = m.d}, {}).CL
  end
end

-- Longest distance between the places that hold the joist's edges, where no deck does.
local function unbraced(w)
  local at = {w.g.l, w.g.L}
  for _, x in ipairs(w.m.blocking) do at[#at + 1] = w.right and w.g.L - x or x end
  table.sort(at)
  local most = 0
  for i = 2, #at do
    if at[i - 1] >= w.g.l - 1e-9 then most = lane.max(most, at[i] - at[i - 1]) end
  end
  return most
end

-- Bending of the joist that is left, with its sign and what holds its edge.
local function host_bending(w)
  local g, m = w.g, w.m
  local t = {mode = "host-bending", m = m, member = "host", Cr = w.Cr}
  if m.sheathed == 0 then
    t.l_u = unbraced(w)
    t.l_e, t.CL = stability(w, "any", t.l_u)
  end
  t.name, t.d = "at the outer group", w:at("M_host", g.x_o, 1)
  w:bending(t)
  t.name, t.d = "beyond the lost end", w:peak("M_host", g.l, g.L, 1)
  w:bending(t)
  local d = w:peak("M_host", g.l, g.x_o, -1)
  if d.V > 1e-6 then -- the bottom edge is free from the end to the outer group
    local l_u = g.x_o - g.l
    local l_e, CL = stability(w, "any", l_u)
    w:bending {mode = "host-bending", m = m, member = "host", Cr = w.Cr, d = d,
      name = "top in tension, lost end to outer group", l_u = l_u, l_e = l_e, CL = CL}
  end
end

-- Shear of the joist that is left, in full beside the inner group.
local function host_shear(w)
  local g, m = w.g, w.m
  w:shear {mode = "host-shear", m = m, member = "host", name = "lost end to outer group",
    d = w:peak("V_host", g.l, g.x_o + 1e-5)}
  local far = w:at("V_far", g.face - m.d)
  w:shear {mode = "host-shear", m = m, member = "host", name = "far end", d = far}
end

---------------------------------------------------------------------------- deflection

-- How much a cut that stays lets the whole joist sag more than none.
local function softer(w, base)
  local cut = base.cut.deflection
  local uncut = base.many and many.total_uncut(base, w.case.rules, w.case.standard)
    or base.uncut.deflection.total
  if not cut or uncut <= 0 then return 1 end
  return lane.max(cut.total / uncut, 1)
end

-- Deflection by M m/(E I), both members, under live and total load.
local function deflection(w, base)
  local m, o, L = w.m, w.o, w.g.L
  local E_m, E_o = adjusted(w, m, "E", 1).value, adjusted(w, o, "E", 1).value
  local stiff, at = w.strength.stiff, w.f.at
  local s = w.g:sag {EI_host = E_m * m.b * m.plies * m.d * m.d * m.d / 12,
    EI_sister = E_o * o.b * o.plies * o.d * o.d * o.d / 12, K_i = at[1].n * stiff,
    K_o = at[2].n * stiff, creep = m.Kcr, more = softer(w, base)}
  w.a.deflection = {live = s.live, total = s.total}
  -- A deflection against its limit.
  local function against(mode, sag, n, x, name)
    if n > 0 then
      w:add {mode = mode, branch = 1, demand = sag, L = L, n = n, member = "host",
        at = w:place(x), combination = name}
    end
  end
  against("deflection-live", s.live, m.limit_live, s.live_at, "L")
  against("deflection-total", s.total, m.limit_total, s.total_at, m.Kcr == 1 and "D+L"
    or lane.text("%g D + L", m.Kcr))
end

------------------------------------------------------------------------------- the rest

-- The joist without its lost end, for what stays as it was: the far bearing and the cuts
-- beyond the outer group, where V and M are those of the whole joist.
local function whole(w)
  local cuts, number = {}, {}
  local L = w.g.L
  for i, c in ipairs(w.case.review.cuts) do
    local b = w.right and L - c.own_x1 or c.own_x2
    if not w.m.cuts[i].lost and b > w.g.l then
      cuts[#cuts + 1] = w.case.joist.description.cuts[i]
      number[#cuts] = i
    end
  end
  local j, problems = w.case.joist:changed {cuts = cuts,
    repetitive = w.case.joist.description.repetitive or 1}
  if not j then return nil, problems[1].text end
  local r = review.of(j, w.case.options)
  return r, number
end

-- Checks of cuts that stay in the joist, under its new forces.
local function kept(w, base, number)
  local a, far = w.a, w.right and 1 or 2
  for _, k in ipairs(base.cut.checks) do
    if k.cut or k.mode == "bearing" and k.support == far then
      if k.cut then
        k.cut = number[k.cut]
        k.name = w.case.review.cuts[k.cut].name
      end
      a.checks[#a.checks + 1] = k
    end
  end
  if base.cut.status == "not permitted" then
    a.status = "not permitted"
    a.notes[#a.notes + 1] = ("a cut that stays in the joist is not permitted (%s)")
      :format(w.case:rule "gates")
  end
end

-- Reactions at the hanger and at the far bearing.
local function reactions(w)
  local a, R, far = w.a, w.g:of("R"), w.g:of("far")
  local list = w.right and {far, R} or {R, far}
  a.reactions, a.reaction_range = {}, {}
  for i, q in ipairs(list) do
    a.reactions[i] = q.dead + q.most
    a.reaction_range[i] = {most = q.dead + q.most, least = q.dead + q.least,
      dead = q.dead}
  end
  a.forces[#a.forces + 1] = {name = "far bearing", at = w:place(w.g.L),
    value = far.dead + far.most, unit = "lb"}
  a.notes[#a.notes + 1] = ("joist beside the inner group: V %s, R %s"):format(
    w.f.show.force(w:at("V_host", w.g.x_i + 1e-6).V, 0),
    w.f.show.force(R.dead + R.most, 0))
end

------------------------------------------------------------------------------- drawing

-- Points of a diagram of the new forces.
local function points_of(w, moment, shear, a, b, cap)
  local list = {}
  for _, x in ipairs(w.g:places(a, b)) do
    local M, V = w.g:of(moment, x), w.g:of(shear, x)
    local way = w.right and -1 or 1
    local v1, v2 = way * (V.dead + V.least), way * (V.dead + V.most)
    list[#list + 1] = {x = w:place(x), M = M.dead + M.live, V = way * (V.dead + V.live),
      M_max = M.dead + M.most, M_min = M.dead + M.least, V_min = math.min(v1, v2),
      V_max = math.max(v1, v2), M_cap = cap.M, M_cap_neg = cap.M_neg, V_cap = cap.V}
  end
  table.sort(list, function(p, q) return p.x < q.x end)
  return list
end

-- Capacities of the joist that is left, for a diagram.
local function capacities(w, m, CL)
  local n = #w.case.standard.data.combinations
  local Fb = adjusted(w, m, "Fb", n).value * w.Cr
  local S, A = m.b * m.plies * m.d ^ 2 / 6, m.b * m.plies * m.d
  return {M = Fb * S, M_neg = Fb * S * (CL and CL(Fb) or 1),
    V = 2 / 3 * adjusted(w, m, "Fv", n).value * A}
end

-- Points of V and M for drawings.
local function diagram(w)
  local g = w.g
  local _, CL = stability(w, "any", g.x_o - g.l)
  local members = {
    {name = "joist, as repaired", points = points_of(w, "M_host", "V_host", g.l, g.L,
      capacities(w, w.m, CL))},
    {name = "sister", points = points_of(w, "M_sister", "V_sister", 0, g.x_o,
      capacities(w, w.o))}}
  -- the joist keeps its other bearings, the sister stands in the hanger
  local supports = model.supports(w.m)
  members[2].supports = {table.remove(supports, w.right and #supports or 1)}
  members[1].supports = supports
  return function(a)
    return {title = a.title, x1 = a.x1, x2 = a.x2, stations = {a.stations[1].x,
      a.stations[2].x}, members = members, peaks = true,
      governing = diagrams.governing(a.governing_check)}
  end
end

--- Adds all checks, forces and what a drawing needs to an assessment.
-- @param g fix/end_statics.lua; @param strength of one fastener
-- @return nil, or why they cannot be made
function checks.add(a, case, f, g, strength)
  local w = setmetatable({a = a, case = case, f = f, g = g, m = case.model,
    o = f.wood.model, strength = strength, right = f.support == "right",
    Cr = case.joist.description.repetitive or 1}, work)
  local base, number = whole(w)
  if not base then return number end
  if not base.computed then return base.reasons[1] end
  hanger(w)
  sister_checks(w)
  groups(w)
  host_shear(w)
  host_bending(w)
  kept(w, base, number)
  deflection(w, base)
  reactions(w)
  local M, V = w:peak("M_host", g.l, g.L), w:peak("V_host", g.l, g.L)
  a.moment, a.moment_at, a.shear, a.shear_at = M.V, w:place(M.x), V.V, w:place(V.x)
  a.diagram = not lane.working and diagram(w) or nil
  a.notes[#a.notes + 1] = "sag by virtual work: both members and the slip of both groups"
end

return checks
