-- SPDX-License-Identifier: MIT
-- Cuts in one ply of a joist of several. The core knows cuts through all plies; a joist
-- with a cut in one is put together of runs of it:
--   severed plies are off everywhere, the others carry all;
--   a ply that is cut and not through bends with the others, M_k = M EI_k/sum EI at the
--   cut, each with its own section modulus, where they are fastened; else it carries
--   w/n;
--   'cut ply off': the others carry all. It decides where the cut is not within the
--   rules, since a ply may break at such a cut; one within them leaves the ply counted.
-- Rules and gates are those of the cut ply, which has the depth of all.
local checks = require "netsection.checks"
local core = require "netsection.core"
local fasten = require "netsection.fix.fasten"
local fastener = require "netsection.fastener"
local model = require "netsection.model"
local ply_section = require "netsection.ply_section"
local units = require "netsection.units"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local ply = {}

-- Cr counts on three members side by side: fewer sound plies have none.
local TEAM = 3
local DEFLECTION = checks.having("by", "deflection")

function ply.cut(m)
  for _, c in ipairs(m.cuts or {}) do
    if c.ply then return true end
  end
  return false
end

-- Why searches that run straight through the core do not take such a joist, or nil.
function ply.unsearched(m)
  return ply.cut(m) and "not sought for a joist with a cut in one ply: review it with "
    .. "the values asked about, or sweep them" or nil
end

-- Losses and splits thin and part a ply along it; no rule of cuts knows them.
local function worn(c)
  return c.kind == "loss" or c.kind == "split"
end

-- Plies with a cut, and those that carry nothing, severed or with no seat left ("seat"):
-- sets, and how many carry nothing.
local function plies_of(m, no_seat)
  local cut, severed, off = {}, {}, 0
  for _, c in ipairs(m.cuts) do
    if c.ply and c.kind == "sever" and severed[c.ply] ~= true then
      off = off + (severed[c.ply] and 0 or 1)
      severed[c.ply] = true
    elseif c.ply and c.kind == "loss" and not severed[c.ply] and no_seat(c.ply) then
      severed[c.ply], off = "seat", off + 1
    end
  end
  for _, c in ipairs(m.cuts) do
    if c.ply and not severed[c.ply] then cut[c.ply] = true end
  end
  return cut, severed, off
end

-- A model with other plies, the cuts that are kept, and all loads times a share.
-- @return model, the old numbers of its cuts
local function altered(m, plies, keep, share, Cr)
  local out, numbers = {}, {}
  for name, value in pairs(m) do out[name] = value end
  out.texts, out.plies, out.cuts = nil, plies, {}
  for i, c in ipairs(m.cuts) do
    if keep(c) then
      out.cuts[#out.cuts + 1], numbers[#numbers + 1] = model.through(c, plies), i
    end
  end
  if Cr then out.repetitive = Cr end
  if not share then return out, numbers end
  out.dead, out.live, out.lines, out.points = m.dead * share, m.live * share, {}, {}
  for i, l in ipairs(m.lines) do
    local own = {}
    for name, value in pairs(l) do own[name] = value end
    own.w1, own.w2 = l.w1 * share, l.w2 * share
    out.lines[i] = own
  end
  for i, p in ipairs(m.points) do
    local own = {}
    for name, value in pairs(p) do own[name] = value end
    own.P = p.P * share
    out.points[i] = own
  end
  return out, numbers
end

-- Stiffness of the cut ply, of all plies that stand and of a whole one, at cut i. The
-- ply's own is that of cut i by itself and the others' the least there, so that the
-- part of M it gets is the most.
local function stiffness(w, i)
  local m, c = w.m, w.s.cuts[i]
  local whole = m.b * m.d ^ 3 / 12
  local of, sum = {}, (w.n - w.off) * whole
  for k, other in ipairs(m.cuts) do
    local o = w.s.cuts[k]
    local here = o.own_x1 <= c.own_x2 + 1e-9 and o.own_x2 >= c.own_x1 - 1e-9
    local own = other.ply == m.cuts[i].ply
    local counts = own and k == i or not own and here
    if other.ply and not w.severed[other.ply] and counts then
      local list = of[other.ply] or {}
      list[#list + 1] = {cut = other, y1 = o.own_y1, y2 = o.own_y2}
      of[other.ply] = list
    end
  end
  local I = {}
  for k, list in pairs(of) do I[k] = ply_section.I(m.b, m.d, list) end
  for k = 1, w.n do sum = sum - (I[k] and whole - I[k] or 0) end
  return I[m.cuts[i].ply], sum, whole
end

-------------------------------------------------------------------------- fastened plies

-- Load that crosses a plane between two plies, as a part of the joist's: every ply gets
-- w/n from the floor, those that stand carry w/n_s.
local function crossing(w)
  local most, sum = 0, 0
  for k = 1, w.n - 1 do
    sum = sum + 1 / w.n - (w.severed[k] and 0 or 1 / (w.n - w.off))
    most = math.max(most, math.abs(sum))
  end
  return most
end

-- Uniform and line loads at their most, plf of joist.
local function intensity(m)
  local q = (m.dead + m.live) * m.spacing / 12
  for _, l in ipairs(m.lines) do
    local width = (l.width or 0) > 0 and math.min(l.width, m.spacing) or m.spacing
    q = q + math.max(l.w1, l.w2) * (l.area and width / 12 or 1)
  end
  return q
end

-- What one fastener between two plies carries across the grain; nil and why not.
local function one_fastener(w, notes)
  local m = w.m
  local G = fasten.gravity({}, w.joist.description, notes)
  local r = fastener.lateral {fastener = m.fastened.fastener, main = {G = G,
    thickness = m.b, angle = 90}, side = {G = G, thickness = m.b, angle = 90},
    moisture = m.moisture, temperature = m.temperature, CD = 1}
  if r.refused then return nil, r.refused end
  return r
end

-- A check of so many fasteners between two plies, G the load that crosses.
local function passing(w, r, t)
  local k = w.joint {mode = "fasteners", branch = r.rated and 2 or 1, demand = t.G,
    G = t.G, Z = r.Z, C_z = (r.adjusted or r.Z) / r.Z, CD = 1, n_f = t.n_f,
    member = "host", name = "between plies" .. (t.name or ""), at = t.at}
  k.binding, k.extra_steps = true, r.steps
  return k
end

-- Point loads that share fasteners with the one at x: within the length over which either
-- gets to them.
local function loads_by(m, x)
  local P = 0
  for _, p in ipairs(m.points) do
    if math.abs(p.at - x) <= 2 * m.d + 1e-9 then P = P + math.max(p.P, 0) end
  end
  return P
end

-- A point load stands on all plies, P/n on each, and gets to the fasteners within d of it
-- each way (45 degrees, our choice), a column of them at least, with the line load there.
local function of_points(w, r, q, list)
  local m, part = w.m, crossing(w)
  local columns = math.max(math.floor(2 * m.d / m.fastened.spacing + 1e-9), 1)
  local Z, worst = (r.adjusted or r.Z) * m.fastened.rows * columns, nil
  for i, p in ipairs(m.points) do
    local P, along = loads_by(m, p.at), q * m.fastened.spacing * columns / 12
    list[#list + 1] = passing(w, r, {G = P * part + along, at = p.at,
      n_f = m.fastened.rows * columns, name = ", point load " .. i})
    local alone = (P + along) / Z
    if not worst or alone > worst.ratio then worst = {ratio = alone, P = P, i = i} end
  end
  if not worst then return end
  w.notes[#w.notes + 1] = ("point loads are taken to stand on all plies alike; were "
    .. "point load %d to stand on a ply that is off alone, %s would pass: fasteners %s")
    :format(worst.i, m.show.force(worst.P, 0), w.text(worst.ratio))
end

-- Fasteners of the plies over one spacing: rows Z' against the load that crosses there;
-- and those about each point load.
local function fasteners(w, list)
  local m, q = w.m, intensity(w.m) * crossing(w)
  local r, why = one_fastener(w, w.notes)
  if not r then return nil, why end
  local at
  for i, c in ipairs(m.cuts) do
    at = at or c.ply and w.severed[c.ply] and (w.s.cuts[i].x1 + w.s.cuts[i].x2) / 2
  end
  local Z, show = r.adjusted or r.Z, m.show
  list[#list + 1] = passing(w, r, {G = q * m.fastened.spacing / 12, at = at,
    n_f = m.fastened.rows})
  w.notes[#w.notes + 1] = ("%s passes between the plies; fasteners of %s need one "
    .. "per %s (%d in %s given)"):format(show.line_load(q, 2), show.force(Z, 0),
    show.length(12 * Z / math.max(q, 1e-9), 1), m.fastened.rows,
    show.size(m.fastened.spacing))
  of_points(w, r, q, list)
  return true
end

-------------------------------------------------------------------------------- the runs

-- One run of the core; checks of a set of cuts, or all, named and with old numbers.
local function run(w, m, numbers, only, name)
  local raw, s = w.core(m)
  if not raw then
    error(("joist %s, a ply by itself: %s"):format(w.m.mark, s.text), 0)
  end
  local out_ = s.no_seat == 1
  for _, c in ipairs(s.cuts) do out_ = out_ or c.gate == 6 end
  local a = w.assessment(raw, m, s.cut, out_)
  local list = {}
  for _, k in ipairs(a.checks) do
    k.cut = k.cut and numbers[k.cut]
    if only == nil or only(k) then
      if name then k.name = k.name and k.name .. ", " .. name or name end
      if name and k.support then k.name = k.name .. ", support" end
      list[#list + 1] = k
    end
  end
  return a, s, list
end

-- Cr of so many sound plies by themselves: nil leaves it to the rule or to who pinned it.
local function Cr_of(w, plies)
  return w.m.repetitive == 0 and plies < TEAM and 1 or nil
end

-- Of a worn ply by a bearing these come from its reaction.
local SHEAR = {shear = true, ["notch-shear"] = true, ["net-shear"] = true}

-- Supports by which a worn stretch of a ply lies, within d of the bearing's face, as the
-- core counts a loss there: sets by support; nil where there is none.
local function bearings_by(w, i)
  local m, c, by = w.m, w.s.cuts[i], nil
  for j, x in ipairs(model.supports(m)) do
    local reach = m.bearing[j] / 2 + m.d
    if c.own_x1 < x + reach and c.own_x2 > x - reach then
      by = by or {}
      by[j] = true
    end
  end
  return by
end

-- The cut ply at cut i with its part of all load.
local function own_checks(w, i, list)
  local m, c = w.m, w.m.cuts[i]
  local n = w.n - w.off
  local I, sum = stiffness(w, i)
  local share = w.fastened and I / sum or 1 / n
  local by = worn(c) and bearings_by(w, i)
  -- each ply stands on its seat by itself
  if c.kind == "end_notch" then share = math.max(share, 1 / n) end
  local function of(part, only)
    local one, numbers = altered(m, 1, function(o) return not o.ply or o.ply == c.ply end,
      part, w.Cr)
    local _, _, own = run(w, one, numbers, only, ("ply %d"):format(c.ply))
    return own
  end
  local own = of(share, function(k)
    return k.cut == i and not (by and SHEAR[k.mode])
  end)
  for _, k in ipairs(by and of(math.max(share, 1 / n), function(k)
    return k.cut == i and SHEAR[k.mode]
      or c.kind == "loss" and k.mode == "bearing" and by[k.support]
  end) or {}) do own[#own + 1] = k end
  table.move(own, 1, #own, #list + 1, list)
  return share, own, I
end

-- f_b of a sound ply at cut i, M_k = M I/sum I over its own S, under all
-- loads.
local function sound_check(w, i, list)
  local m, c = w.m, w.s.cuts[i]
  local _, sum, whole = stiffness(w, i)
  local share = w.fastened and whole / sum or 1 / (w.n - w.off)
  local index = w.combinations
  local F = core.adjust(m, w.standard, "Fb", index)
  local M = math.max(c.M_most, -c.M_least, 0) * share
  local k = w.joint {mode = "bending", branch = 1, demand = M, F = m.Fb,
    F_a = F.value * w.Cr, CD = F.CD, CM = F.CM, Ct = F.Ct, CL = 1, CF = F.CF, Ci = F.Ci,
    Cr = w.Cr, K = F.K, b = m.b, d = m.d, member = "host",
    name = m.cuts[i].name .. ", a sound ply", at = (c.x1 + c.x2) / 2}
  k.cut, k.binding = i, true
  list[#list + 1] = k
  return k
end

-- All on the others.
local function off_checks(w, i, list, decides)
  local m, c = w.m, w.m.cuts[i]
  local n = w.n - w.off - 1
  local rest, numbers = altered(m, n, function(o)
    return not (o.ply and (o.ply == c.ply or w.severed[o.ply]))
  end, nil, Cr_of(w, n))
  local a, _, all = run(w, rest, numbers, function(k)
    return k.binding -- what is only shown is shown once, with all plies
  end, ("ply %d off"):format(c.ply))
  for _, k in ipairs(decides and all or {}) do list[#list + 1] = k end
  return a
end

local function worst(list)
  local k_
  for _, k in ipairs(list) do
    if k.binding and k.ratio and (not k_ or k.ratio > k_.ratio) then k_ = k end
  end
  return k_
end

local function ratio_of(w, list)
  local k = worst(list)
  return k and w.text(k.ratio) or "no check"
end

-- A ply that is cut and not through; words for the reasons.
local function cut_ply(w, i, list)
  local c, info = w.m.cuts[i], w.s.cuts[i]
  local share, own, I = own_checks(w, i, list)
  info.lip_force = info.lip_force * share
  local upright = info.M_least >= -1e-6 and w.m.sheathed == 1
  local sound = upright and sound_check(w, i, list) or nil
  -- Rot, char and splits are in no rule of cuts: one that takes wood is outside them.
  local outside = info.within == 0 or info.covered == 0
  if worn(c) then outside = I < w.m.b * w.m.d ^ 3 / 12 * (1 - 1e-9) end
  local decides = outside or info.gate ~= 0 or not upright
  if w.n - w.off < 2 then return end
  local a = off_checks(w, i, list, decides)
  local beside = sound and (", a sound ply %s"):format(w.text(sound.ratio)) or ""
  local off = a.ratio and w.text(a.ratio) or "carry nothing"
  w.reasons[#w.reasons + 1] = ("%s is in ply %d of %d: that ply %s with %s %% of the "
    .. "load%s, with it off the others %s%s"):format(c.name, c.ply, w.n,
    ratio_of(w, own), units.fixed(100 * share, 1), beside, off, decides
    and ": the worse decides" or worn(c) and ", shown: no wood is lost"
    or ", shown: the cut is within the rules")
end

-- Severed plies: what passes to the others, and how.
local function severed_plies(w, list)
  for _, why in ipairs {true, "seat"} do
    local names = {}
    for k = 1, w.n do
      if w.severed[k] == why then names[#names + 1] = tostring(k) end
    end
    if #names > 0 then
      w.reasons[#w.reasons + 1] = ("ply %s of %d %s and counts as off everywhere: the "
        .. "other%s carr%s all"):format(table.concat(names, ", "), w.n, why == "seat"
        and "has no sound seat at a bearing" or "is cut through",
        w.n - w.off > 1 and "s" or "", w.n - w.off > 1 and "y" or "ies")
    end
  end
  if not w.fastened then
    w.reasons[#w.reasons + 1] = "the plies are not said to be fastened to each other: "
      .. "what the floor puts on a ply that is off gets to the others by the "
      .. "deck alone"
    return
  end
  local done, why = fasteners(w, list)
  if not done then w.failed = "the fasteners of the plies carry nothing: " .. why end
end

-- Ratio, governing check and status of a state with a new list of checks.
local function settle(a, w)
  a.governing_check = worst(a.checks)
  a.ratio = a.governing_check and a.governing_check.ratio or 0
  a.governing = a.governing_check and a.governing_check.mode
  local strength = 0
  for _, k in ipairs(a.checks) do
    if k.binding and k.ratio and not DEFLECTION[k.mode] then
      strength = math.max(strength, k.ratio)
    end
  end
  a.status = (w.s.cut.not_permitted == 1 or w.failed) and "not permitted"
    or a.ratio > w.full and "overstressed" or "adequate"
  return strength
end

-- The action table with these ratios; what is barred or lacks a value is what the core
-- finds under hardly any load.
local function action(w, a, strength)
  local light = altered(w.m, w.n, function() return true end, 1e-6)
  local _, s = w.core(light)
  local base = w.actions[s.action + 1]
  local weak, over = strength > w.full, a.ratio > w.full
  if base == "repair" or w.failed or base == "refer" and not weak then
    return base == "refer" and "refer" or "repair"
  elseif base == "leave" then
    return over and "decide" or "leave"
  end
  return weak and "repair" or over and "decide" or "justify"
end

-- The plies that stand, every cut in one as if through all of them: what is about a cut
-- through all, and sag. Bending, shear and bearing of whole wood are those of plies
-- without the losses and splits of one, which bear on all of their seat.
local function standing(w, plies)
  local m, Cr = w.m, w.off > 0 and Cr_of(w, plies) or nil
  local function stands(c) return not (c.ply and w.severed[c.ply]) end
  local base, numbers = altered(m, plies, stands, nil, Cr)
  local without, others = altered(m, plies, function(c)
    return stands(c) and not (c.ply and worn(c))
  end, nil, Cr)
  local one = #without.cuts < #base.cuts and plies > 1
  local a, s, list = run(w, base, numbers, function(k)
    if plies == 1 then return true end
    return not (k.cut and m.cuts[k.cut].ply) and (not one or k.cut or DEFLECTION[k.mode])
  end)
  if not one or a.stopped then return a, s, list, base, base end
  local deflection = a.deflection
  local whole_a, whole_s, whole = run(w, without, others, function(k)
    return not k.cut and not DEFLECTION[k.mode]
  end)
  whole_a.deflection = deflection
  table.move(whole, 1, #whole, #list + 1, list)
  w.notes[#w.notes + 1] = "sag is that of a joist with what one ply lost gone from all "
    .. "of them"
  return whole_a, whole_s, list, without, base
end

-- Whether a ply has a bearing with no seat left, under hardly any load. A seat is a
-- length, of so many plies as of one; wood lost off the sides of all might leave none of
-- one by itself.
local function seatless(t)
  local n = t.model.plies
  return function(k)
    local one = altered(t.model, n, function(c) return not c.ply or c.ply == k end, 1e-6)
    local _, s = t.core(one)
    return s.no_seat == 1
  end
end

-- @param t {joist =, model =, s = the core's summary with every cut through all plies,
--   core(model) -> raw, summary, assessment(raw, model, state, out), joint(t), standard
--   (the core's), combinations (how many), actions, full, text(ratio)}
-- @return {cut = the state, s = summary it was built on, action =, reasons =, notes =,
--   model = of the plies that stand, drawn = the same with what one ply lost off all,
--   seat = what is left of each bearing with every cut through all plies}; or nil
--   where no ply is whole, which is a joist cut through
function ply.state(t)
  local m = t.model
  local cut, severed, off = plies_of(m, seatless(t))
  if off >= m.plies then return nil end
  local w = setmetatable({m = m, n = m.plies, severed = severed, off = off, reasons = {},
    notes = {}, fastened = m.fastened ~= nil}, {__index = t})
  local plies = m.plies - off
  local a, s, list, base, drawn = standing(w, plies)
  w.Cr = a.Cr
  if off > 0 then severed_plies(w, list) end
  for i, c in ipairs(m.cuts) do
    if c.ply and cut[c.ply] and plies > 1 then cut_ply(w, i, list) end
  end
  a.checks = list
  if a.stopped then
    return {cut = a, s = s, action = "repair", reasons = w.reasons, notes = w.notes,
      model = base, drawn = drawn, seat = t.s.seat}
  end
  local strength = settle(a, w)
  if w.failed then w.reasons[#w.reasons + 1] = w.failed end
  return {cut = a, s = s, action = action(w, a, strength), reasons = w.reasons,
    notes = w.notes, model = base, drawn = drawn, seat = t.s.seat}
end

-- What is said of a joist of several plies.
function ply.said(m)
  if m.plies < 2 then return nil end
  local f = m.fastened
  if not f then
    return ("%d plies, not said to be fastened to each other: each is taken to carry its "
      .. "part of the load"):format(m.plies)
  end
  return ("%d plies fastened by %s, %d in a row across at %s along the joist"):format(
    m.plies, tostring(f.fastener), f.rows, m.show.size(f.spacing))
end

return ply
