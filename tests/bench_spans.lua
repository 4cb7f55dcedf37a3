-- SPDX-License-Identifier: MIT
-- A joist of two spans in plain Lua, by the force method: the moment over the middle
-- support is the unknown, its influence line the shape that a unit moment there bends the
-- two simple spans into, over their rotation (Mueller-Breslau). Live load lies where a
-- line has the wanted sign. Textbook statics, taken from nowhere in the module; uniform
-- dead and live load, EI in steps. Arrays are filled anew, sums carried from the outer
-- supports, so that it is as fast as plain Lua gets; checks are not part of it.
local spans = {}

local abs, max, min = math.abs, math.max, math.min

-- One span, its nodes counted from its outer support.
local function new_span()
  return {x = {}, k = {}, y = {}, t = {}, eta = {}, slope = {}, sum = {}, n = 0,
    M = {most = {}, least = {}}, V = {most = {}, least = {}}}
end

local both = {new_span(), new_span()}

-- Nodes and 1/EI of both spans from ends of segments along the joist, EI of each.
local function lay_out(L, X, EI)
  local one, two, n = both[1], both[2], #EI
  one.L, two.L = L[1], L[2]
  local total = L[1] + L[2]
  one.n, two.n = 1, 1
  one.x[1], two.x[1] = 0, 0
  for k = 1, n do
    local b = min(X[k + 1], L[1])
    if b > one.x[one.n] then
      one.k[one.n] = 1 / EI[k]
      one.n = one.n + 1
      one.x[one.n] = b
    end
  end
  for k = n, 1, -1 do
    local b = min(total - X[k], L[2])
    if b > two.x[two.n] then
      two.k[two.n] = 1 / EI[k]
      two.n = two.n + 1
      two.x[two.n] = b
    end
  end
end

-- The shape of a simple span under a unit moment at its inner end; gives its rotation
-- there, toward the outer support.
local function unit_shape(s)
  local x, k, y, t, L = s.x, s.k, s.y, s.t, s.L
  local Y, T = 0, 0
  for i = 1, s.n do
    y[i], t[i] = Y, T
    if i < s.n then
      local h, m0, m1 = x[i + 1] - x[i], x[i] / L, 1 / L
      Y = Y + h * (T - h * k[i] * (m0 / 2 + h * m1 / 6))
      T = T - h * k[i] * (m0 + h * m1 / 2)
    end
  end
  local g = Y / L
  for i = 1, s.n do y[i], t[i] = y[i] - g * x[i], t[i] - g end
  return -t[s.n]
end

-- The influence line of the moment over the middle and its integral from the outer end.
local function influence(s, turn)
  local sum = 0
  for i = 1, s.n do
    s.eta[i], s.slope[i] = -s.y[i] / turn, -s.t[i] / turn
    if i > 1 then
      local h = s.x[i] - s.x[i - 1]
      sum = sum + h * ((s.eta[i - 1] + s.eta[i]) / 2 + h * (s.slope[i - 1] - s.slope[i])
        / 12)
    end
    s.sum[i] = sum
  end
end

-- Value and integral of the cubic from node i on, z beyond it.
local function cubic(s, i, z)
  local h = s.x[i + 1] - s.x[i]
  local a, p, q = s.eta[i], s.slope[i], s.slope[i + 1]
  local rise = s.eta[i + 1] - a
  local c2, c3 = (3 * rise / h - 2 * p - q) / h, (p + q - 2 * rise / h) / (h * h)
  return a + z * (p + z * (c2 + z * c3)), z * (a + z * (p / 2 + z * (c2 / 3
    + z * c3 / 4))), p + z * (2 * c2 + 3 * z * c3)
end

-- What a load between the outer support and the place where the line of M at x turns
-- positive brings, for 1 lb/in: s (1 - x/L) + eta x/L, up to its zero.
local function before_the_zero(s, x)
  local L = s.L
  local a, b = 1 - x / L, x / L
  if a + b * s.slope[1] >= 0 then return 0 end
  local i = 1
  while i < s.n - 1 and a * s.x[i + 1] + b * s.eta[i + 1] < 0 do i = i + 1 end
  local lo, hi = 0, s.x[i + 1] - s.x[i]
  local z = hi
  for _ = 1, 60 do
    local v, _, d = cubic(s, i, z)
    local g = a * (s.x[i] + z) + b * v
    if g > 0 then hi = z else lo = z end
    local to = z - g / (a + b * d)
    if not (to > lo and to < hi) then to = (lo + hi) / 2 end
    if abs(to - z) <= 1e-15 * L then break end
    z = to
  end
  local _, area = cubic(s, i, z)
  local at = s.x[i] + z
  return a * at * at / 2 + b * (s.sum[i] + area)
end

-- Most and least of M at x of a span under 1 lb/in that may lie anywhere; 'other' is the
-- integral of the middle moment's line over the other span.
local function moment(s, x, other)
  local all = x * (s.L - x) / 2 + x / s.L * (s.sum[s.n] + other)
  local least = x / s.L * other + before_the_zero(s, x)
  return all - least, least
end

-- Envelopes at the nodes of a span.
local function tabulate(s, other)
  local L, whole = s.L, s.sum[s.n]
  for i = 1, s.n do
    local x = s.x[i]
    s.M.most[i], s.M.least[i] = moment(s, x, other)
    s.V.most[i] = (L - x) ^ 2 / (2 * L) + (whole - s.sum[i]) / L
    s.V.least[i] = -x * x / (2 * L) + (s.sum[i] + other) / L
  end
end

-- The largest moment of both kinds of load between the nodes beside the largest one.
local function largest(s, other, dead, live)
  local function at(x)
    local most = moment(s, x, other)
    return dead * (x * (s.L - x) / 2 + x / s.L * (s.sum[s.n] + other)) + live * most
  end
  local best, where = 0, 1
  for i = 1, s.n do
    local x = s.x[i]
    local M = dead * (x * (s.L - x) / 2 + x / s.L * (s.sum[s.n] + other))
      + live * s.M.most[i]
    if M > best then best, where = M, i end
  end
  local lo, hi = s.x[max(where - 1, 1)], s.x[min(where + 1, s.n)]
  for _ = 1, 42 do
    local p, q = lo + (hi - lo) * 0.382, lo + (hi - lo) * 0.618
    local a, b = at(p), at(q)
    if a > b then hi = q else lo = p end
    best = max(best, a, b)
  end
  return best
end

-- The largest sag of a span with w on it and the moment M_B over the middle.
local function sag(s, w, M_B)
  local x, k, L = s.x, s.k, s.L
  local R = w * L / 2 + M_B / L
  local Y, T = 0, 0
  for i = 1, s.n - 1 do
    local h, M, V = x[i + 1] - x[i], x[i] * (R - w * x[i] / 2), R - w * x[i]
    Y = Y + h * (T - h * k[i] * (M / 2 + h * (V / 6 - h * w / 24)))
    T = T - h * k[i] * (M + h * (V / 2 - h * w / 6))
  end
  local best
  Y, T = 0, -Y / L
  for i = 1, s.n - 1 do
    local h, M, V = x[i + 1] - x[i], x[i] * (R - w * x[i] / 2), R - w * x[i]
    local function slope(z) return T - z * k[i] * (M + z * (V / 2 - z * w / 6)) end
    if T > 0 and slope(h) <= 0 then
      local lo, hi = 0, h
      for _ = 1, 60 do
        local z = (lo + hi) / 2
        if slope(z) > 0 then lo = z else hi = z end
      end
      local y = Y + lo * (T - lo * k[i] * (M / 2 + lo * (V / 6 - lo * w / 24)))
      best = max(best or 0, y)
    end
    Y = Y + h * (T - h * k[i] * (M / 2 + h * (V / 6 - h * w / 24)))
    T = slope(h)
  end
  return best or 0
end

-- Of the sags of both spans the one nearer to its limit, a part of the span.
local function nearer(a, b)
  return a / both[1].L >= b / both[2].L and a or b
end

--- Forces and sag of two spans without overhangs.
-- @param t {L = {L1, L2}, X = ends of segments, EI = of each, dead =, live = lb/in,
--   creep =}
-- @return {R = {{dead, most, least}, ...}, M = largest moment of dead and live load,
--   M_B = over the middle, live =, total = sags, the largest in parts of their span}
function spans.work(t)
  local one, two = both[1], both[2]
  lay_out(t.L, t.X, t.EI)
  local turn = unit_shape(one) + unit_shape(two)
  influence(one, turn)
  influence(two, turn)
  local a, b = one.sum[one.n], two.sum[two.n]
  tabulate(one, b)
  tabulate(two, a)
  local D, w = t.dead, t.live
  local L1, L2 = one.L, two.L
  local R1, R3 = L1 / 2 + a / L1, L2 / 2 + b / L2
  local R2 = L1 / 2 + L2 / 2 - (a + b) * (1 / L1 + 1 / L2)
  local M_B = (D + w) * (a + b)
  local C = t.creep * D
  return {R = {{D * (R1 + b / L1), w * R1, w * b / L1}, {D * R2, w * R2, 0},
    {D * (R3 + a / L2), w * R3, w * a / L2}},
    M = max(largest(one, b, D, w), largest(two, a, D, w), -M_B), M_B = M_B,
    live = nearer(sag(one, w, w * a), sag(two, w, w * b)),
    total = nearer(sag(one, C + w, C * (a + b) + w * a),
      sag(two, C + w, C * (a + b) + w * b))}
end

return spans
