-- SPDX-License-Identifier: MIT
-- Statics of a joist whose end is lost and of the sister that carries it: the sister
-- bears at x = 0, the joist at x = L alone; two groups tie them. Statically determinate,
-- so every force has an influence line of straight pieces, and its envelope under live
-- load that may be absent anywhere is exact.
--
-- x runs from the lost end's bearing. l: where the joist begins to count; x_i, x_o: inner
-- and outer group; a = x_o - x_i. Load on 0..l is on the sister, beyond it on the joist.
-- For a unit load at s, with [s < l] 1 where it lies on the sister:
--   R = 1 - s/L;  M_i = R x_i - [s < l] (x_i - s)
--   F_o = M_i/a, the sister down on the joist;  F_i = F_o + R - [s < l], it lifts it
local model = require "netsection.model"
local part = require "netsection.fix.part"

local statics = {}
local methods = {}
local meta = {__index = methods}

------------------------------------------------------------------------ influence lines

-- Each: line(g, s, on, behind, x), 'on' 1 where s lies on the sister, 'behind' 1 where
-- it lies before the section x.
local line = {}

function line.R(g, s)
  return 1 - s / g.L
end

function line.far(g, s)
  return s / g.L
end

function line.M_i(g, s, on)
  return line.R(g, s) * g.x_i - on * (g.x_i - s)
end

function line.F_o(g, s, on)
  return line.M_i(g, s, on) / (g.x_o - g.x_i)
end

function line.F_i(g, s, on)
  return line.F_o(g, s, on) + line.R(g, s) - on
end

-- Sister: V = R less the load before x, then -F_o between the groups.
function line.V_sister(g, s, on, behind, x)
  if x > g.x_i then return -line.F_o(g, s, on) end
  return line.R(g, s) - on * behind
end

function line.M_sister(g, s, on, behind, x)
  if x > g.x_i then return line.F_o(g, s, on) * (g.x_o - x) end
  return line.R(g, s) * x - on * behind * (x - s)
end

-- Joist: its own load before x, lifted by F_i from x_i on, pressed by F_o from x_o on.
function line.V_host(g, s, on, behind, x)
  local own = (1 - on) * behind
  if x > g.x_o then return line.R(g, s) - behind end
  return (x > g.x_i and line.F_i(g, s, on) or 0) - own
end

function line.M_host(g, s, on, behind, x)
  if x > g.x_o then return line.R(g, s) * x - behind * (x - s) end
  local own = (1 - on) * behind * (x - s)
  return (x > g.x_i and line.F_i(g, s, on) * (x - g.x_i) or 0) - own
end

-- Shear d from the face of the far bearing: uniform load nearer is left out, a point load
-- there counts by its distance from the face over d.
-- At x = that place.
function line.V_far(g, s, _, behind, _, point)
  if behind == 1 then return s / g.L end
  return point and s / g.L * math.min(math.max(g.face - s, 0) / g.d, 1) or 0
end

------------------------------------------------------------------------------ integrals

-- Value of a line just after (side 1) or before (side -1) s.
local function value(g, name, x, s, side, point)
  local at = s + side * 1e-9
  return line[name](g, s, at < g.l and 1 or 0, at < x and 1 or 0, x, point)
end

-- Integral of (w1..w2) times (v1..v2), both straight over a length h.
local function product(h, w1, w2, v1, v2)
  return h / 6 * (w1 * v1 + (w1 + w2) * (v1 + v2) + w2 * v2)
end

-- Adds a stretch of load under a straight piece of a line, either sign apart.
local function add_stretch(sum, h, w1, w2, v1, v2)
  if v1 * v2 < 0 then
    local t = v1 / (v1 - v2)
    local w = w1 + (w2 - w1) * t
    add_stretch(sum, h * t, w1, w, v1, 0)
    add_stretch(sum, h * (1 - t), w, w2, 0, v2)
    return
  end
  local n = v1 + v2 >= 0 and 1 or 2
  sum[n] = sum[n] + product(h, w1, w2, v1, v2)
end

local function breaks_of(g, a, b, x)
  local list = {a, b}
  for _, s in ipairs {g.l, x} do
    if s > a + 1e-12 and s < b - 1e-12 then list[#list + 1] = s end
  end
  table.sort(list)
  return list
end

local function add_line(sum, g, name, x, load)
  local a, b = load.a, load.b
  local at = breaks_of(g, a, b, x)
  local slope = (load.w2 - load.w1) / (b - a)
  for i = 2, #at do
    local p, q = at[i - 1], at[i]
    if q > p then
      add_stretch(sum, q - p, load.w1 + slope * (p - a), load.w1 + slope * (q - a),
        value(g, name, x, p, 1), value(g, name, x, q, -1))
    end
  end
end

-- A point load on a jump of the line counts on the side that asks for more.
local function add_point(sum, g, name, x, load)
  local v1 = value(g, name, x, load.at, -1, true)
  local v2 = value(g, name, x, load.at, 1, true)
  sum[1] = sum[1] + load.P * math.max(v1, v2, 0)
  sum[2] = sum[2] + load.P * math.min(v1, v2, 0)
end

--- A force of the two at x: dead, most and least of the live load, live load everywhere.
-- @param name "R", "far", "M_i", "F_i", "F_o", "V_sister", "M_sister", "V_host",
-- "M_host", "V_far"
function methods:of(name, x)
  local sums = {dead = {0, 0}, live = {0, 0}}
  for _, load in ipairs(self.lines) do
    add_line(sums[load.case], self, name, x or 0, load)
  end
  for _, load in ipairs(self.points) do
    add_point(sums[load.case], self, name, x or 0, load)
  end
  local D, L = sums.dead, sums.live
  return {dead = D[1] + D[2], most = L[1], least = L[2], live = L[1] + L[2]}
end

--- Its answer to a unit load at s.
function methods:unit(name, x, s)
  return value(self, name, x or 0, s, -1)
end

--- Where a force may have its peak between a and b: ends, loads, groups, and between.
function methods:places(a, b)
  local list, step = {}, (b - a) / 64
  for i = 0, 64 do list[#list + 1] = a + i * step end
  local function edge(x)
    for _, at in ipairs {x - 1e-6, x + 1e-6} do
      if at >= a and at <= b then list[#list + 1] = at end
    end
  end
  for _, x in ipairs {self.l, self.x_i, self.x_o} do edge(x) end
  for _, load in ipairs(self.lines) do
    edge(load.a)
    edge(load.b)
  end
  for _, load in ipairs(self.points) do edge(load.at) end
  table.sort(list)
  return list
end

---------------------------------------------------------------------------------- loads

local function add(g, a, b, w1, w2, case)
  local lo, hi = math.max(a, 0), math.min(b, g.L)
  if hi <= lo or w1 + w2 <= 0 then return end
  local slope = (w2 - w1) / (b - a)
  w1, w2 = w1 + slope * (lo - a), w1 + slope * (hi - a)
  if g.mirrored then lo, hi, w1, w2 = g.L - hi, g.L - lo, w2, w1 end
  g.lines[#g.lines + 1] = {a = lo, b = hi, w1 = w1, w2 = w2, case = case}
end

local function read_loads(g, m)
  for _, case in ipairs {"dead", "live"} do
    local w = m[case] * m.spacing / 144
    add(g, 0, g.L, w, w, case)
  end
  for _, l in ipairs(m.lines) do
    local w1, w2 = part.plf(l, m)
    local a, b = l.whole and 0 or l.from, l.whole and g.L or l.to
    add(g, a, b, w1 / 12, w2 / 12, l.case)
  end
  for _, p in ipairs(m.points) do
    local at = math.min(math.max(p.at, 0), g.L)
    g.points[#g.points + 1] = {at = g.mirrored and g.L - at or at, P = p.P, case = p.case}
  end
end

--- @param m a joist's model, of one span; @param t {support =, l =, x_i =, x_o =} from
-- the lost end's bearing
function statics.of(m, t)
  local L = model.total(m)
  local right = t.support == "right"
  local far = m.bearing[right and 1 or #m.bearing]
  local g = {L = L, l = t.l, x_i = t.x_i, x_o = t.x_o, d = m.d, face = L - far / 2,
    mirrored = right, lines = {}, points = {}}
  read_loads(g, m)
  return setmetatable(g, meta)
end

return statics
