-- SPDX-License-Identifier: MIT
-- A beam on any number of supports by the three-moment equation, in ft, plf and lb (or m,
-- N/m and N): overhangs by statics, each span by what it brings to its two ends. EI is
-- given by stretches; products of a moment that is a parabola at most and a straight line
-- are integrated by Simpson's rule, which is exact for them. It is a second statement of
-- what the core works out by the force method, for pages that print the sums.
local linear = require "netsection.linear"

local beam = {}

-- Loads are {w =, a =, b =}, {w =, w2 = at its end, a =, b =} or {P =, a =}; places along
-- the joist from its left bearing.

--- The beam of a model. @param unit inches in the unit of length
-- @param stretches {{from =, to =, EI =}, ...} in inches, or nil where EI is one
function beam.of(m, unit, stretches)
  local at = {0}
  for i, span in ipairs(m.span) do at[i + 1] = at[i] + span / unit end
  local g = {at = at, spans = #m.span, first = -m.overhang_left / unit,
    last = at[#at] + m.overhang_right / unit, EI = {}}
  local least, most = math.huge, 0
  for i, s in ipairs(stretches or {}) do
    g.EI[i] = {a = s.from / unit, b = s.to / unit, EI = s.EI}
    least, most = math.min(least, s.EI), math.max(most, s.EI)
  end
  g.even = most <= least * (1 + 1e-12) or most == 0
  return g
end

--- Parts of the loads that stand on a..b. @param open true: a point at b does not
function beam.within(list, a, b, open)
  local out = {}
  for _, l in ipairs(list) do
    if l.P then
      if l.a >= a and (l.a < b or l.a == b and not open) then out[#out + 1] = l end
    else
      local lo, hi = math.max(l.a, a), math.min(l.b, b)
      if hi > lo then
        local part = {w = l.w, a = lo, b = hi, case = l.case, name = l.name}
        if l.w2 then
          local slope = (l.w2 - l.w) / (l.b - l.a)
          part.w, part.w2 = l.w + slope * (lo - l.a), l.w + slope * (hi - l.a)
        end
        out[#out + 1] = part
      end
    end
  end
  return out
end

--- Loads of span j, or of an overhang (0, spans + 1). A point over a support is taken to
-- stand on what is right of it.
function beam.on(g, list, j)
  local a, b = g.at[j] or g.first, g.at[j + 1] or g.last
  return beam.within(list, a, b, b < g.last)
end

--- Amount of a load and the place of its resultant.
function beam.resultant(l)
  if l.P then return l.P, l.a end
  local long = l.b - l.a
  if not l.w2 then return l.w * long, (l.a + l.b) / 2 end
  return (l.w + l.w2) / 2 * long, l.a + long * (l.w + 2 * l.w2) / (3 * (l.w + l.w2))
end

-- Moment at x of a span from a to b by its loads alone, as a simple beam.
local function simple(list, a, b, x)
  local M = 0
  for _, l in ipairs(list) do
    local P, c = beam.resultant(l)
    M = M + P * (b - c) / (b - a) * (x - a)
    if l.P then
      if c < x then M = M - P * (x - c) end
    elseif l.a < x then
      local Q, at = beam.resultant(beam.within({l}, l.a, math.min(l.b, x))[1])
      M = M - Q * (x - at)
    end
  end
  return M
end

-- Places between a and b at which a load or EI changes, those two as well.
local function breaks(g, list, a, b)
  local out = {a, b}
  local function put(x) if x > a and x < b then out[#out + 1] = x end end
  for _, l in ipairs(list) do
    put(l.a)
    if l.b then put(l.b) end
  end
  for _, s in ipairs(g.EI) do
    put(s.a)
    put(s.b)
  end
  table.sort(out)
  return out
end
beam.breaks = breaks

local function EI_at(g, x)
  for _, s in ipairs(g.EI) do
    if x >= s.a and x <= s.b then return s.EI end
  end
  return 1
end
beam.EI_at = EI_at

-- Integral over lo..hi of a polynomial: a cubic by Simpson's rule, one of the fifth
-- degree by Boole's.
local function rule(lo, hi, f, high)
  local mid = (lo + hi) / 2
  if not high then return (hi - lo) / 6 * (f(lo) + 4 * f(mid) + f(hi)) end
  return (hi - lo) / 90 * (7 * f(lo) + 32 * f((lo + mid) / 2) + 12 * f(mid)
    + 32 * f((mid + hi) / 2) + 7 * f(hi))
end

--- Whether a load varies somewhere between.
function beam.varies(list, lo, hi)
  for _, l in ipairs(list) do
    if l.w2 and l.a < hi - 1e-12 and l.b > lo + 1e-12 then return true end
  end
  return false
end

-- Integral of f/EI over a..b, f the product of M and a straight line.
local function integral(g, list, a, b, f)
  local sum, x = 0, breaks(g, list, a, b)
  for i = 1, #x - 1 do
    local lo, hi = x[i], x[i + 1]
    if hi > lo then
      local mid = (lo + hi) / 2
      sum = sum + rule(lo, hi, f, beam.varies(list, lo, hi)) / EI_at(g, mid)
    end
  end
  return sum
end

-- Moment of loads on one side of a place about it.
local function about(list, support)
  local M = 0
  for _, l in ipairs(list) do
    local P, c = beam.resultant(l)
    M = M - P * math.abs(c - support)
  end
  return M
end

-- What bends a span's ends: f11, f12, f22 of unit moments at its left and right end.
local function flexibility(g)
  if g.f then return g.f end
  g.f = {}
  for j = 1, g.spans do
    local a, b = g.at[j], g.at[j + 1]
    local function left(x) return (b - x) / (b - a) end
    local function right(x) return (x - a) / (b - a) end
    g.f[j] = {integral(g, {}, a, b, function(x) return left(x) ^ 2 end),
      integral(g, {}, a, b, function(x) return left(x) * right(x) end),
      integral(g, {}, a, b, function(x) return right(x) ^ 2 end)}
  end
  return g.f
end

--- Moments over the supports. An end without an overhang has none.
function beam.moments(g, list)
  local n, M = g.spans, {}
  for j = 1, n + 1 do M[j] = 0 end
  M[1] = g.first < 0 and about(beam.on(g, list, 0), 0) or 0
  M[n + 1] = g.last > g.at[n + 1] and about(beam.on(g, list, n + 1), g.at[n + 1]) or 0
  if n == 1 then return M end
  local f, turn = flexibility(g), {}
  for j = 1, n do
    local a, b = g.at[j], g.at[j + 1]
    local on = beam.on(g, list, j)
    turn[j] = {0, 0}
    if #on > 0 then
      turn[j][1] = integral(g, on, a, b, function(x)
        return simple(on, a, b, x) * (b - x) / (b - a)
      end)
      turn[j][2] = integral(g, on, a, b, function(x)
        return simple(on, a, b, x) * (x - a) / (b - a)
      end)
    end
  end
  local A, y = {}, {}
  for i = 1, n - 1 do
    A[i] = {}
    for k = 1, n - 1 do A[i][k] = 0 end
    A[i][i] = f[i][3] + f[i + 1][1]
    if i > 1 then A[i][i - 1] = f[i][2] end
    if i < n - 1 then A[i][i + 1] = f[i + 1][2] end
    y[i] = -(turn[i][2] + turn[i + 1][1])
    if i == 1 then y[i] = y[i] - f[1][2] * M[1] end
    if i == n - 1 then y[i] = y[i] - f[n][2] * M[n + 1] end
  end
  for i, v in ipairs(linear.solve(A, y)) do M[i + 1] = v end
  return M
end

--- The span or overhang that x is in: 0, 1 ... n, n + 1. At a support the side decides.
function beam.region(g, x, side)
  for j = 1, g.spans + 1 do
    if x < g.at[j] or x == g.at[j] and side == "left" then return j - 1 end
  end
  return g.spans + 1
end

--- Shear at the left end of span j and at its right end, as a force on the support.
function beam.ends(g, list, M, j)
  local a, b = g.at[j], g.at[j + 1]
  local left, right = (M[j + 1] - M[j]) / (b - a), (M[j] - M[j + 1]) / (b - a)
  for _, l in ipairs(beam.on(g, list, j)) do
    local P, c = beam.resultant(l)
    left, right = left + P * (b - c) / (b - a), right + P * (c - a) / (b - a)
  end
  return left, right
end

local function sum_of(list)
  local sum = 0
  for _, l in ipairs(list) do sum = sum + (beam.resultant(l)) end
  return sum
end

--- M at x. @param M over the supports
function beam.moment(g, list, M, x)
  local j = beam.region(g, x, "right")
  if j > g.spans and x >= g.last then
    return g.last > g.at[#g.at] and 0 or M[g.spans + 1]
  end
  if j == 0 then return about(beam.within(list, g.first, x), x) end
  if j > g.spans then return about(beam.within(list, x, g.last), x) end
  local a, b = g.at[j], g.at[j + 1]
  return simple(beam.on(g, list, j), a, b, x) + M[j] + (M[j + 1] - M[j]) * (x - a)
    / (b - a)
end

--- Loads left of x and right of it within region j; a point at x stands right of it
-- where the side is "left".
function beam.beside(g, list, j, x, side)
  local a, b = g.at[j] or g.first, g.at[j + 1] or g.last
  local on = beam.on(g, list, j)
  local left, right = beam.within(on, a, x, side == "left"), {}
  for _, l in ipairs(beam.within(on, x, b)) do
    if not (l.P and l.a == x and side == "right") then right[#right + 1] = l end
  end
  return left, right
end

--- Shear at x, up on its left.
function beam.shear(g, list, M, x, side)
  local j = beam.region(g, x, side)
  local left, right = beam.beside(g, list, j, x, side)
  if j == 0 then return -sum_of(left) end
  if j > g.spans then return sum_of(right) end
  return (beam.ends(g, list, M, j)) - sum_of(left)
end

--- Reaction of support j.
function beam.reaction(g, list, M, j)
  local R = 0
  if j > 1 then
    R = select(2, beam.ends(g, list, M, j - 1))
  elseif g.first < 0 then
    R = sum_of(beam.on(g, list, 0))
  end
  if j == g.spans + 1 then
    return g.last > g.at[j] and R + sum_of(beam.on(g, list, j)) or R
  end
  return R + (beam.ends(g, list, M, j))
end

return beam
