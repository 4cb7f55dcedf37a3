-- SPDX-License-Identifier: MIT
-- A sister or plates beside a joist by plain means: both as beams tied at their fasteners
-- (tests/plain_beams.lua), or by stiffness where a sister stands on both bearings.
local beams = require "tests.plain_beams"
local dowels = require "tests.plain_dowels"
local joists = require "tests.plain_joist"
local places = require "tests.plain_places"

local ties = {}
local abs, max, min = math.abs, math.max, math.min
local most, values, combos = joists.most, joists.values, joists.combos

local function severed(j)
  for _, c in ipairs(j.cuts) do if c.kind == "sever" then return c end end
end

-- Load over a gap is on the new member; with "between groups" all between the inner
-- groups.
local function floor_on_new(f, gap, stations)
  if not gap then return nil end
  if f.gap_load ~= "between groups" then return {gap.from, gap.to} end
  local a, b = f.from, f.to
  for _, s in ipairs(stations) do
    if s.x <= gap.from then a = max(a, s.x) else b = min(b, s.x) end
  end
  return {a, b}
end

-- Loads that act while the joist is alone, and those after.
local function staged(j, f, lift)
  local all = joists.loads(j)
  if lift == "unloaded" then return {}, all end
  local before, after = joists.only(all, false), joists.only(all, true)
  if lift == "prop" then
    before[#before + 1] = {x = f.lift.at, P = -f.lift.force, live = false}
    after[#after + 1] = {x = f.lift.at, P = f.lift.force, live = false}
  end
  return before, after
end

--- What the case needs once: statics of both.
function ties.work(j, f, o, stations)
  local w = {j = j, f = f, o = o, gap = severed(j), stations = stations}
  local lift = type(f.lift) == "table" and "prop" or f.lift
    or w.gap and "unloaded" or "none"
  if o.share == "new" then lift = "unloaded" end
  local nodes, list = joists.steps(j), {}
  if lift == "prop" then nodes[#nodes + 1] = f.lift.at end
  for i, s in ipairs(stations) do
    list[i], nodes[#nodes + 1] = {x = s.x, k = o.slip * s.n * o.per_place}, s.x
  end
  nodes[#nodes + 1], nodes[#nodes + 2] = o.from, o.to
  w.nodes = nodes
  w.EI_new = o.E * o.b * o.d ^ 3 / 12
  w.on = floor_on_new(f, w.gap, stations)
  w.both = beams.new {L = j.L, EI = joists.EI(j), gap = w.gap and {w.gap.from, w.gap.to},
    new = {from = o.from, to = o.to, EI = w.EI_new, left = o.left, right = o.right},
    ties = list, on_new = w.on, nodes = nodes}
  w.before, w.after = staged(j, f, lift)
  if not w.both.stands then return nil end
  local parts = {{w.both, w.after}}
  if #w.before > 0 then
    w.alone = beams.new {L = j.L, EI = joists.EI(j), nodes = nodes}
    parts[2] = {w.alone, w.before}
  end
  w.host = setmetatable({j = j, beam = w.both, x = w.both.x, member = "host",
    parts = parts, loads = joists.loads(j)}, joists.state)
  w.new = setmetatable({j = j, beam = w.both, x = w.both.x, member = "new",
    parts = {{w.both, w.after}}}, joists.state)
  return w
end

-- Forces of the ties: dead, most and least of live load, all live load.
function ties.forces(w)
  local out = {}
  for i in ipairs(w.stations) do
    local D, up, down, all = w.both:range(w.both:tie(i), w.after)
    out[i] = {D, up, down, all = all}
  end
  return out
end

---------------------------------------------------------------------------- by stiffness

-- Both bend alike: the joist has EI/(EI + EI_new) of M beside whole wood and keeps that
-- share at a cut; the sister has what is left there (manual). "new" leaves the joist
-- nothing, "worst" gives the sister all as well.
function ties.pair(w)
  local j, o = w.j, w.o
  local EI = joists.EI(j)
  local new = w.EI_new
  local nodes = w.nodes
  local pair = beams.new {L = j.L, EI = function(x)
    return o.share == "new" and new or EI(x) + new
  end, nodes = nodes}
  local whole = j.wood.E * j.b * j.d ^ 3 / 12
  local q = o.share == "new" and 0 or whole / (whole + new)
  local parts = {{pair, w.after, q}}
  if w.alone then parts[2] = {w.alone, w.before} end
  w.pair = pair
  w.host = setmetatable({j = j, beam = pair, x = pair.x, member = "host", parts = parts,
    loads = joists.loads(j), q = {w.alone and 1 or q, q}}, joists.state)
  local function share(x, side)
    if o.share ~= "stiffness" then return 1 end
    return new / (EI(x + side * 1e-6) + new)
  end
  local full = setmetatable({j = j, beam = pair, x = pair.x, member = "host",
    parts = {{pair, w.after}, w.alone and o.share == "worst" and {w.alone, w.before}
      or nil}}, joists.state)
  w.new = setmetatable({j = j, beam = pair, x = pair.x, full = full,
    M = function(_, x, side)
      local m, v = full:M(x, side)
      local k = share(x, side)
      local a, b = {}, {}
      for n = 1, 3 do a[n], b[n] = k * m[n], k * v[n] end
      return a, b
    end}, joists.state)
end

--------------------------------------------------------------------------------- groups

-- One fastener: Z with C_delta and Cg, and what CD makes of it (NDS 11.3.1).
-- @return the ratio of the worst group
function ties.groups(w, forces, Z)
  local worst = 0
  for i, s in ipairs(w.stations) do
    for _, co in ipairs(combos) do
      local D = co.D * forces[i][1]
      local G = max(abs(D + co.L * forces[i][2]), abs(D + co.L * forces[i][3]))
      worst = max(worst, G / (s.n * w.o.faces * (w.f.rated or Z * co.CD)))
    end
  end
  return worst
end

-- Wood of the joist that holds a group: its edges there, what openings take between.
local function wood_at(j, list)
  local x1, x2, low, high = math.huge, -math.huge, math.huge, -math.huge
  for _, p in ipairs(list) do
    x1, x2, low, high = min(x1, p.x), max(x2, p.x), min(low, p.h), max(high, p.h)
  end
  local bottom, top, lost = 0, j.d, 0
  for _, b in ipairs(places.boxes(j)) do
    if b.x1 < x2 + 1e-9 and b.x2 > x1 - 1e-9 and not b.whole and not b.gone then
      if b.y2 <= low then bottom = max(bottom, b.y2)
      elseif b.y1 >= high then top = min(top, b.y1)
      else lost = lost + b.y2 - b.y1 end
    end
  end
  return low, high, bottom, top, lost
end

-- NDS 3.4.3.3: within 5d of an end 2/3 F_v' b d_e (d_e/d)^2, else without the square;
-- d_e is the depth less what lies between the unloaded edge and the nearest fastener.
-- Several columns near each other are one connection: the shear beside it counts where
-- it is more.
-- @param host true for the joist
-- @return the ratio of the worst group
function ties.across(w, forces, groups, host)
  local o, j, worst = w.o, w.j, 0
  local d, b = host and j.d or o.d, host and j.b or o.b
  local wood = host and j.wood or o.wood
  for i, s in ipairs(w.stations) do
    local low, high, bottom, top, lost = wood_at(j, groups[i])
    if not host then bottom, top, lost = o.rise, o.rise + o.d, 0 end
    local reach = host and min(s.x - w.ends[1], w.ends[2] - s.x)
      or min(s.x - o.from, o.to - s.x)
    if host and w.gap then
      reach = min(reach, abs(s.x - w.gap.from), abs(s.x - w.gap.to))
    end
    for c = 1, 2 do
      for _, way in ipairs {1, -1} do
        -- a force down on the new member pushes the joist up
        local up = (way == 1) == host
        local G = max(most(forces[i], c, way), 0)
        if G > 1e-3 and not w.pair then
          for _, side in ipairs {-1, 1} do
            local _, v = (host and w.host or w.new):M(s.x, side)
            G = max(G, most(v, c, 1), most(v, c, -1))
          end
        end
        local d_e = min(d, max(0, (up and top - low or high - bottom) - lost))
        local cap = 2 / 3 * values(wood, c).Fv * b * d_e
        if reach <= 5 * d then cap = cap * (d_e / d) ^ 2 end
        if G > 1e-3 then worst = max(worst, G / cap) end
      end
    end
  end
  return worst
end

---------------------------------------------------------------------------------- steel

-- A plate on edge, held by its rows: M against F_n S/1.67 (AISC 360 F11, F9.4), M falling
-- to nil at the outermost row (C_m 1.67) where no load lies between; V against 0.6 F_y
-- A/1.67.
function ties.plate(w)
  local o, st = w.o, w.stations
  local S, bend, shear = o.b * o.d ^ 2 / 6, 0, 0
  local function stress(a, b, first, last)
    local loaded = w.on and a < w.on[2] and b > w.on[1]
    local C = not loaded and first ~= last and 12.5 / 7.5 or 1
    return dowels.plate_stress(o.F_y, o.E, o.t, o.d, b - a, C)
  end
  local list = {}
  for k = 2, #st do
    local a, b = st[k - 1].x, st[k].x
    list[#list + 1] = {a, b, stress(a, b, k == 2, k == #st)}
  end
  for _, part in ipairs(list) do
    bend = max(bend, joists.peak(w.both.x, part[1], part[2], function(x)
      local worst = 0
      for _, side in ipairs {-1, 1} do
        local m = w.new:M(x, side)
        for c = 1, 2 do worst = max(worst, most(m, c, 1), most(m, c, -1)) end
      end
      return worst / (part[3] * S / 1.67)
    end))
  end
  for _, x in ipairs(w.both.x) do
    for _, side in ipairs {-1, 1} do
      local _, v = w.new:M(x, side)
      for c = 1, 2 do
        shear = max(shear, max(most(v, c, 1), most(v, c, -1)) / (0.6 * o.F_y * o.b * o.d
          / 1.67))
      end
    end
  end
  return bend, shear
end

------------------------------------------------------------------------------------ sag

--- Most sag, live and total.
function ties.sag(w)
  local live, total = 0, 0
  local beam = w.pair or w.both
  local L, D = beam:sag(w.after, true), beam:sag(w.after, false)
  local before = w.alone and w.alone:sag(w.before, false)
  for i, p in ipairs(L) do
    live = max(live, p.sag)
    total = max(total, p.sag + D[i].sag + (before and before[i].sag or 0))
  end
  return live, total
end

return ties
