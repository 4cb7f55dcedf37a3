-- SPDX-License-Identifier: MIT
-- A stretch of a joist as a joist of its own: a tail between a bearing and a header, or
-- what is left of a span once an end stands on a hanger. Cuts and loads come along.
local core = require "netsection.core"
local diagram = require "netsection.diagram"
local lane = require "netsection.lane"
local model = require "netsection.model"
local point = require "netsection.point"
local review = require "netsection.review"
local units = require "netsection.units"

local part = {}

-- Places of a cut or load in the model, from the left bearing.
local function places(c, L)
  if c.from_right then return L - (c.to or c.at), L - (c.from or c.at) end
  return c.from or c.at, c.to or c.at
end

part.total = model.total
local total = model.total

-- The description of a cut, measured from `origin`; nil where it lies outside x0..x1, and
-- for a lost end, which does not come along.
local function moved_cut(given, c, L, x0, x1, origin)
  if c.lost then return nil end
  if c.kind == "end_notch" then
    local here = c.right_end and x1 >= L - 1e-6 or not c.right_end and x0 <= 1e-6
    return here and given or nil
  end
  local a, b = places(c, L)
  local half = (c.diameter or 0) / 2
  if b + half <= x0 + 1e-9 or a - half >= x1 - 1e-9 then return nil end
  local out = {}
  for name, value in pairs(given) do out[name] = value end
  out.from_right = nil
  if c.at then
    out.at = a - origin
  else
    out.at, out.from, out.to = nil, lane.max(a, x0) - origin, lane.min(b, x1) - origin
  end
  return out
end

--- A line load as a description has it.
function part.per_foot(w)
  return lane.is(w) and w or point.exact(w) .. " plf"
end

local function line_of(l, x0, x1, whole, origin)
  local a, b = whole and x0 or l.from, whole and x1 or l.to
  local lo, hi = lane.max(a, x0), lane.min(b, x1)
  if hi <= lo then return nil end
  local g = b > a and (l.w2 - l.w1) / (b - a) or 0
  local w1, w2 = l.w1 + g * (lo - a), l.w1 + g * (hi - a)
  local out = {from = lo - origin, to = hi - origin, case = l.case}
  if l.area then
    out.kind, out.load = "area", (w1 + w2) / 2
    out.width = l.width and l.width > 0 and l.width or nil
  else
    out.kind, out.load, out.to_load = "line", part.per_foot(w1), part.per_foot(w2)
  end
  return out
end

-- Loads of a model between x0 and x1, as descriptions from `origin` (x0 by default).
local function moved_loads(m, x0, x1, origin)
  local out = {}
  origin = origin or x0
  for _, l in ipairs(m.lines) do out[#out + 1] = line_of(l, x0, x1, l.whole, origin) end
  for _, p in ipairs(m.points) do
    if p.at > x0 and p.at < x1 then
      out[#out + 1] = {kind = "point", at = p.at - origin, load = p.P, case = p.case}
    end
  end
  return out
end

-- Loads by area of a joist, which another one in its bay carries as well.
function part.area_loads(m)
  local out = {}
  for _, load in ipairs(moved_loads(m, 0, total(m))) do
    if load.kind == "area" then out[#out + 1] = load end
  end
  return out
end

-- Intensity of a line or an area load at its ends, plf on this joist.
local function plf(l, m)
  local width = (l.width or 0) > 0 and lane.min(l.width, m.spacing) or m.spacing
  local k = l.area and width / 12 or 1
  return l.w1 * k, l.w2 * k
end
part.plf = plf

-- Adds a trapezoid of load to the reactions at x0 and x1 of a piece between them.
local function add_trapezoid(sum, a, b, w1, w2, x0, x1)
  local W = (w1 + w2) / 2 * (b - a) / 12
  if W <= 0 then return end
  local at = a + (b - a) * (w1 + 2 * w2) / (3 * (w1 + w2))
  sum[2] = sum[2] + W * (at - x0) / (x1 - x0)
  sum[1] = sum[1] + W * (x1 - at) / (x1 - x0)
end

-- What all load between x0 and x1, ends included, puts on x0 and on x1, as if a piece of
-- one span lay there: {dead = {R0, R1}, live = {R0, R1}}, lb.
function part.between(m, x0, x1)
  local sum = {dead = {0, 0}, live = {0, 0}}
  if x1 - x0 < 1e-9 then return sum end
  for case, R in pairs(sum) do
    local w = m[case] * m.spacing / 12
    add_trapezoid(R, x0, x1, w, w, x0, x1)
  end
  for _, l in ipairs(m.lines) do
    local from, to = l.whole and x0 or l.from, l.whole and x1 or l.to
    local a, b = lane.max(from, x0), lane.min(to, x1)
    if b > a then
      local w1, w2 = plf(l, m)
      local g = (w2 - w1) / (to - from)
      add_trapezoid(sum[l.case], a, b, w1 + g * (a - from), w1 + g * (b - from), x0, x1)
    end
  end
  for _, p in ipairs(m.points) do
    if p.at >= x0 and p.at <= x1 then
      local R, q = sum[p.case], (p.at - x0) / (x1 - x0)
      R[1], R[2] = R[1] + p.P * (1 - q), R[2] + p.P * q
    end
  end
  return sum
end

-- The piece keeps the frame of the joist it was cut from: x0 and the numbers of its cuts
-- stand in its model, and the cuts have the names that they had.
local function framed(made, m, x0, numbers)
  for i, number in ipairs(numbers) do
    made.model.cuts[i].name = m.cuts[number].name
  end
  made.model.frame = {x0 = x0, cuts = numbers}
  return made
end

-- @param changes further fields of the new joist; its loads are added
-- @param origin center of its left bearing, x0 where it has no overhang there
-- @return joist from x0 to x1 of a single span; or nil and problems
function part.of(joist, x0, x1, changes, origin)
  origin = origin or x0
  local m, L = joist.model, total(joist.model)
  local cuts, numbers = {}, {}
  for i, c in ipairs(m.cuts) do
    local moved = moved_cut(joist.description.cuts[i], c, L, x0, x1, origin)
    if moved then cuts[#cuts + 1], numbers[#numbers + 1] = moved, i end
  end
  local t = {span = x1 - x0, cuts = cuts}
  for name, value in pairs(changes) do t[name] = value end
  t.loads = moved_loads(m, x0, x1, origin)
  for _, load in ipairs(changes.loads or {}) do t.loads[#t.loads + 1] = load end
  local made, problems = joist:changed(t)
  if not made then return nil, problems end
  return framed(made, m, origin, numbers)
end

local function shift(t, x0, names)
  for _, name in ipairs(names) do
    if t[name] then t[name] = t[name] + x0 end
  end
end

-- Review of a piece that part.of made, every place of it in the frame of the joist as it
-- was measured, cuts by their old numbers.
function part.review(joist, options)
  local r = review.of(joist, options)
  local frame = joist.model.frame
  if not r.computed or not frame then return r end
  for _, state in ipairs {"cut", not r.many and "uncut" or nil} do
    local a = r[state]
    shift(a, frame.x0, {"moment_at", "shear_at"})
    for _, k in ipairs(a.checks) do
      shift(k, frame.x0, {"at"})
      k.cut = k.cut and frame.cuts[k.cut]
    end
  end
  for _, c in ipairs(r.cuts) do
    shift(c, frame.x0, {"x1", "x2"})
    c.merged = c.merged and frame.cuts[c.merged]
  end
  return r
end

-- Distances to the joists on both sides.
function part.sides(joist)
  local s = joist.description.spacing
  if type(s) == "table" then
    return (units.length(s[1])), (units.length(s[2]))
  end
  return joist.model.spacing, joist.model.spacing
end

function part.severed(m)
  for i, c in ipairs(m.cuts) do
    if c.kind == "sever" then return i end
  end
end

-- The cut that is a lost end (a support's name, if one is asked for), or nil.
function part.lost(m, support)
  for i, c in ipairs(m.cuts) do
    if c.lost and (support == nil or c.lost == support) then return i, c end
  end
end

-- Reaction at support n of a reviewed joist: dead, and the most live.
function part.reaction(r, n)
  local R = r.cut.reaction_range[n]
  return R.dead, lane.max(R.most - R.dead, 0)
end

function part.points(at, dead, live)
  return {kind = "point", at = at, load = dead, case = "dead"},
    {kind = "point", at = at, load = live, case = "live"}
end

-- The combination in which a force asks most of wood or thread: force, CD, its number
-- and its name.
function part.worst(standard, dead, live)
  local V, CD, index, name = 0, 1, 1, nil
  for i, c in ipairs(standard.data.combinations) do
    local here = c.D * dead + c.L * live
    if not name or here / c.CD > V / CD then
      V, CD, index, name = here, c.CD, i, c.name
    end
  end
  return V, CD, index, name
end

-- Shear where a joist hangs at its end or is borne on part of its depth: the reaction in
-- full, nothing left out within d of the bearing.
-- @param t {dead =, live =, d = (the whole depth), member =, at =, name =, mode =}
function part.full_shear(case, joist, t)
  local m = joist.model
  local V, _, index, combination = part.worst(case.standard, t.dead, t.live)
  local F = core.adjust(lane.first(m), case.standard.core, "Fv", index)
  return case.joint {mode = t.mode or "shear", branch = 2, demand = V, V = V, F = m.Fv,
    F_a = F.value, CD = F.CD, CM = F.CM, Ct = F.Ct, Ci = F.Ci, K = F.K,
    b = m.b * m.plies, d = t.d or m.d, member = t.member, at = t.at, name = t.name,
    combination = combination}
end

-- Points of V and M of a reviewed joist that stands x0 along the old one.
local function points_of(r, x0)
  local list = core.curve(r.joist.model, r.packs.rules, r.packs.standard, "cut", 48)
  for _, p in ipairs(list) do p.x = p.x + x0 end
  return list
end

-- The repaired state for a drawing (see diagram.lua), put together from joists.
-- @param members {{name =, {review, x0}, ...}, ...}: the first point of each stretch but
--   the first is marked, since no line runs to it; @param m model with the supports;
--   @param supports places of the supports where they are others
function part.diagram(members, m, supports)
  return function(a)
    local list = {}
    for i, member in ipairs(members) do
      local points = {}
      for k, stretch in ipairs(member) do
        local more = points_of(stretch[1], stretch[2])
        more[1].apart = k > 1 or nil
        table.move(more, 1, #more, #points + 1, points)
      end
      list[i] = {name = member.name, points = points,
        supports = supports or model.supports(m)}
    end
    return {title = a.title, x1 = a.x1, x2 = a.x2, stations = {}, members = list,
      peaks = true, supports = supports or model.supports(m),
      governing = diagram.governing(a.governing_check)}
  end
end

return part
