-- SPDX-License-Identifier: MIT
-- Repairs at an end by plain means: screws up through the corner of a notch, and the end
-- sister of a joist whose bearing is lost. The latter is statically determinate, so its
-- forces come from the tied beams of tests/plain_beams.lua whatever the slip is.
local alone = require "tests.plain_alone"
local beams = require "tests.plain_beams"
local dowels = require "tests.plain_dowels"
local joists = require "tests.plain_joist"
local places = require "tests.plain_places"
local ties = require "tests.plain_ties"

local ends = {}
local abs, max, min = math.abs, math.max, math.min
local combos = joists.combos

---------------------------------------------------------------------------------- screws

-- Tension across the grain at the corner, 1.3 V (3 (1 - a)^2 - 2 (1 - a)^3), a = d_n/d
-- (DIN EN 1995-1-1/NA NCI NA.6.8.3, memory), against the thread on the lesser side of
-- the crack (NDS 12.2); the tip of a lag does not hold. V' = 2/3 F_v' b d_n under it.
function ends.notch_screws(q, j, f)
  local left = f.support == "left"
  local notch, at
  for _, c in ipairs(j.cuts) do if c.kind == "end_notch" then notch = c end end
  at = left and 0 or j.L[1]
  local s = joists.alone(j)
  local D, up = s:reaction(at)
  local d_n = j.d - notch.y2
  local g = 1 - d_n / j.d
  local screw = f.fastener
  local L, T = screw.L, screw.L
  if not f.full_thread then
    T = screw.kind == "lag screw" and min(L / 2 + 0.5, 6) or 2 * L / 3
  end
  local tip = screw.kind == "lag screw" and screw.E or 0
  local crack = notch.y2 -- the screw stands in the bottom edge; the crack is so far up
  local below = max(0, crack - (L - T))
  local above = max(0, min(T, L - crack) - tip)
  local p, pull = min(below, above), 0
  for _, co in ipairs(combos) do
    local V = co.D * D + co.L * up
    pull = max(pull, 1.3 * V * (3 * g ^ 2 - 2 * g ^ 3) / (f.n * dowels.W(screw, j.wood.G)
      * p * co.CD))
  end
  q:check("withdrawal", "host", pull)
  q:check("host-shear", "host", alone.full_shear(j, D, up, d_n))
  -- 1.5D to each edge, 2.5D apart, 4D in from the corner.
  local y = {}
  for i, place in ipairs(q.fixed.layout) do
    y[i] = place.y
    if j.b / 2 - abs(place.y) < 1.5 * screw.D - 1e-6 then q:breach "edge of a screw" end
    local corner = left and place.x - notch.to or notch.from - place.x
    if corner < 4 * screw.D - 1e-6 then q:breach "a screw at the corner" end
  end
  table.sort(y)
  for i = 2, #y do
    if y[i] - y[i - 1] < 2.5 * screw.D - 1e-6 then q:breach "screws too near" end
  end
  q:count("screws", f.n, #q.fixed.layout)
  q:count("screws in the parts", f.n, q.fixed.fasteners[1].count)
end

------------------------------------------------------------------------------- end sister

-- Seen from the lost end: a joist of the right end is turned about.
local function turned(j)
  local L, p = j.L[1], {}
  for name, value in pairs(j) do p[name] = value end
  p.l_b, p.points, p.lines = {j.l_b[2], j.l_b[1]}, {}, {}
  for i, l in ipairs(j.points) do p.points[i] = {x = L - l.x, P = l.P, live = l.live} end
  for i, l in ipairs(j.lines) do
    p.lines[i] = {a = L - l.b, b = L - l.a, w1 = l.w2, w2 = l.w1, live = l.live}
  end
  return p
end

-- The sister stands on the hanger at 0 and has the floor to l; the joist begins there and
-- stands on its far bearing.
function ends.statics(p, f, l, slip)
  local w = {j = p, o = {from = 0, to = f.to, E = f.wood.E, b = f.b, d = f.d, rise = p.d
    - f.d, wood = f.wood, faces = 1}, f = f, on = {0, l}, stations = {}, before = {}}
  for i, g in ipairs(f.groups) do w.stations[i] = {x = g.at, n = g.n} end
  p.cuts = {{kind = "lost", from = -p.l_b[1] / 2, to = l, y1 = 0, y2 = p.d}}
  local bare = {}
  for name, value in pairs(p) do bare[name] = value end
  bare.cuts = {}
  local nodes, list = joists.steps(bare), {}
  for i, s in ipairs(w.stations) do list[i] = {x = s.x, k = slip * s.n} end
  w.after = joists.loads(p)
  w.both = beams.new {L = p.L, EI = joists.EI(bare), gap = {0, l}, on_new = {0, l},
    new = {from = 0, to = f.to, EI = f.wood.E * f.b * f.d ^ 3 / 12, left = true},
    ties = list, nodes = nodes}
  w.host = setmetatable({j = p, beam = w.both, x = w.both.x, member = "host",
    parts = {{w.both, w.after}}, loads = w.after}, joists.state)
  w.new = setmetatable({j = p, beam = w.both, x = w.both.x, member = "new",
    parts = {{w.both, w.after}}}, joists.state)
  w.ends = {l, p.L[1] + p.l_b[2] / 2}
  return w
end

function ends.end_sister(q, j, f)
  local left, L = f.support == "left", j.L[1]
  local p = left and turned(turned(j)) or turned(j)
  local l = f.gone + 12 -- rot counts as lost so far
  local a, D = q.fixed, f.fastener.D
  local w = ends.statics(p, f, l, dowels.slip(f.fastener, j.wood.G, f.wood.G))
  local layout = {}
  for i, place in ipairs(a.layout) do
    layout[i] = {x = left and place.x or L - place.x, h = place.h, piece = 1}
  end
  local groups = places.by_station(layout, w.stations)
  local e, c = places.check(layout, {D = D, large = D >= 0.25, thin = min(f.b, j.b),
    joist = p, from = 0, to = f.to, free = {left = false, right = true}, low = p.d - f.d,
    high = p.d, wood = true, groups = groups, joist_ends = {l, L + p.l_b[2] / 2}},
    function(text) q:breach(text) end)
  q.placed = {d = p.d, low = p.d - f.d, high = p.d, near_end = e, near_cut = c}
  local Z = f.rated or dowels.Z(f.fastener, {G = j.wood.G, t_m = j.b, theta_m = 90,
    t_s = f.b, theta_s = 90, G_s = f.wood.G})
  if not f.rated then
    Z = Z * places.C_delta(D, e, c) * places.Cg(groups, {D = D, main = {E = j.wood.E,
      b = j.b}, side = {E = f.wood.E, b = f.b}})
  end
  local forces = ties.forces(w)
  for i, s in ipairs(a.stations) do
    local F = forces[i]
    q:count(("most of row %d"):format(i), F[1] + F[2], s.most)
    q:count(("least of row %d"):format(i), F[1] + F[3], s.least)
  end
  q:check("fasteners", "sister", ties.groups(w, forces, Z))
  q:check("connection-shear", "host", ties.across(w, forces, groups, true))
  q:check("connection-shear", "sister", ties.across(w, forces, groups, false))
  local S, A = f.b * f.d ^ 2 / 6, f.b * f.d
  q:check("bending", "sister", w.new:bending(0, f.to, f.wood, S, j.Cr))
  q:check("shear", "sister", w.new:shear(0, f.to, f.wood, A))
  local _, v = w.new:M(0, 1)
  local R = v[1] + max(v[2], 0)
  q:check("bearing", "sister", joists.bearing(R, f.seat, f.b, f.wood))
  q:check("fasteners", "hanger", R / f.hanger.capacity)
  q:check("bearing", "host", joists.bearing((w.host:reaction(L)) + select(2,
    w.host:reaction(L)), p.l_b[2], j.b, j.wood))
  q:check("host-bending", "host", w.host:bending(l, L, j.wood, j.b * j.d ^ 2 / 6, j.Cr),
    true, function(k) return k.name == "beyond the lost end" end)
  local far = w.host:end_shear(L, p.l_b[2], -1, {1, 1})
  if f.groups[2].at < L - p.l_b[2] / 2 - j.d then
    -- The module leaves the load near the bearing out of the reaction too: a little more.
    q:check("host-shear", "host", far, false, function(k) return k.name == "far end" end)
  end
  -- from the lost end to just past the outer group
  local worst = w.host:shear(l, f.groups[2].at, j.wood, j.b * j.d)
  local _, past = w.host:M(f.groups[2].at, 1)
  for n = 1, 2 do
    worst = max(worst, max(joists.most(past, n, 1), joists.most(past, n, -1)) / (2 / 3
      * joists.values(j.wood, n).Fv * j.b * j.d))
  end
  q:check("host-shear", "host", worst, true, function(k)
    return k.name == "lost end to outer group"
  end)
  local sum = 0
  for _, g in ipairs(f.groups) do sum = sum + g.n end
  q:count("fasteners", sum, #a.layout)
  q:count("fasteners in the parts", sum, a.fasteners[1].count)
end

return ends
