-- SPDX-License-Identifier: MIT
-- A joist and a member beside it, tied by rows of fasteners that slip: the force of each
-- row, from F = k (sag of the joist - sag of the new member) at all rows at once, and the
-- ends of what is free to turn. With these forces both are beams by themselves, whose
-- sums a page can print. Flexibilities are those of unit forces: M m/(E I) integrated
-- exactly between changes of section. A second statement of csrc/beam/coupled.c.
local beam = require "netsection.statics.beam"
local linear = require "netsection.linear"

local tied = {}

---------------------------------------------------------------------------
-- Deflected lines
---------------------------------------------------------------------------

-- The last place of a sorted list that is not beyond x; the first at least.
local function before(places, x)
  local lo, hi = 1, #places
  while hi - lo > 1 do
    local mid = (lo + hi) // 2
    if places[mid] <= x then lo = mid else hi = mid end
  end
  return lo
end

-- Deflection, down, of a stretch a..b under a moment M that is straight between the
-- places; `held`: "left" or "right" clamped there, "both" ends on supports.
-- @return function(place) -> deflection; slopes at the ends
local function line_of(places, M, EI, held)
  local v, t, K = {0}, {0}, {}
  for i = 1, #places - 1 do
    local h, mid = places[i + 1] - places[i], (places[i] + places[i + 1]) / 2
    local e = EI(mid)
    local k0, k1 = M(places[i], mid) / e, M(places[i + 1], mid) / e
    K[i] = {k0, (k1 - k0) / h}
    t[i + 1] = t[i] - (k0 + k1) / 2 * h
    v[i + 1] = v[i] + t[i] * h - (2 * k0 + k1) / 6 * h * h
  end
  local a, b = places[1], places[#places]
  local up, turn = 0, 0
  if held == "both" then
    turn = -v[#v] / (b - a)
  elseif held == "right" then
    turn = -t[#t]
    up = -v[#v] - turn * (b - a)
  end
  local function at(x)
    local i = before(places, x)
    local h = x - places[i]
    return up + turn * (x - a) + v[i] + t[i] * h - K[i][1] * h ^ 2 / 2
      - K[i][2] * h ^ 3 / 6
  end
  return at, turn, turn + t[#t]
end

local function with(list, ...)
  local out = {table.unpack(list)}
  for _, x in ipairs {...} do out[#out + 1] = x end
  table.sort(out)
  return out
end

-- A piece held at one end (the other free) or at both: the line under a unit load at y.
local function piece_line(p, y)
  local function M(x)
    if p.held == "both" then
      return x <= y and (x - p.a) * (p.b - y) / (p.b - p.a)
        or (y - p.a) * (p.b - x) / (p.b - p.a)
    elseif p.held == "left" then
      return x < y and -(y - x) or 0
    end
    return x > y and -(x - y) or 0
  end
  return (line_of(with(p.places, y), M, p.EI, p.held))
end

-- A joist that is whole: the line under a unit load at y on all spans and overhangs.
local function joist_line(g, y)
  local list = {{P = 1, a = y}}
  local Mo, lines, ends = beam.moments(g, list), {}, {}
  for j = 1, g.spans do
    local a, b = g.at[j], g.at[j + 1]
    local places = beam.breaks(g, list, a, b)
    local at, left, right = line_of(places, function(x)
      local M = Mo[j] + (Mo[j + 1] - Mo[j]) * (x - a) / (b - a)
      if y >= a and y <= b then
        M = M + (x <= y and (x - a) * (b - y) or (y - a) * (b - x)) / (b - a)
      end
      return M
    end, function(x) return beam.EI_at(g, x) end, "both")
    lines[j], ends[j] = at, {left, right}
  end
  return function(x)
    if x < g.at[1] then return ends[1][1] * (x - g.at[1]) end
    for j = 1, g.spans do
      if x <= g.at[j + 1] then return lines[j](x) end
    end
    return ends[g.spans][2] * (x - g.at[g.spans + 1])
  end
end

---------------------------------------------------------------------------
-- The rows' forces
---------------------------------------------------------------------------

-- Pieces of the joist (stubs of one that is cut through) and of the new member, each
-- with the ways it may move as a whole.
local function piece(a, b, held, EI, places)
  local p = {a = a, b = b, held = held, EI = EI, places = with(places or {}, a, b)}
  if held == "left" then
    p.ways = {function(x) return x - a end}
  elseif held == "right" then
    p.ways = {function(x) return b - x end}
  else
    p.ways = {}
  end
  return p
end

local function stubs_of(t)
  local g = t.s.g
  if not t.gap then return nil end
  local function EI(x) return beam.EI_at(g, x) end
  local function between(a, b)
    local out = {}
    for _, s in ipairs(g.EI) do
      if s.a > a and s.a < b then out[#out + 1] = s.a end
    end
    return out
  end
  local a, b, x = g.at[1], g.at[2], t.slide
  return {piece(a, x, "left", EI, between(a, x)), piece(x, b, "right", EI,
    between(x, b))}
end

local function new_of(t)
  local held = t.bears_left and t.bears_right and "both" or t.bears_right and "right"
    or "left"
  local p = piece(t.from, t.to, held, function() return t.EI_new end)
  if not (t.bears_left or t.bears_right) then
    p.ways = {function() return 1 end, function(x) return x - t.from end}
  end
  return p
end

local function on_piece(p, x) return x >= p.a - 1e-12 and x <= p.b + 1e-12 end

-- Lines of the joist and of the new member under a unit force at each row.
local function lines_of(t)
  t.old, t.new_line = {}, {}
  for i, x in ipairs(t.rows) do
    if t.stubs then
      local own = x < t.slide and t.stubs[1] or t.stubs[2]
      local at = piece_line(own, x)
      t.old[i] = function(y) return on_piece(own, y) and at(y) or 0 end
    else
      t.old[i] = joist_line(t.s.g, x)
    end
    t.new_line[i] = piece_line(t.new, x)
  end
end

-- {whose, way}: motions as a whole, of the stubs first.
local function ways_of(t)
  local out = {}
  for _, p in ipairs(t.stubs or {}) do
    for _, way in ipairs(p.ways) do
      out[#out + 1] = {old = true, at = function(x)
        return on_piece(p, x) and way(x) or 0
      end}
    end
  end
  for _, way in ipairs(t.new.ways) do out[#out + 1] = {at = way} end
  return out
end

-- Columns of the inverse for the rows' forces: F = sum of inverse * right side.
local function inverse(A)
  local n, out = #A, {}
  for k = 1, n do
    local copy, y = {}, {}
    for i = 1, n do
      copy[i], y[i] = {table.unpack(A[i])}, i == k and 1 or 0
    end
    out[k] = linear.solve(copy, y)
    if not out[k] then return nil end
  end
  return out
end

--- What ties them. @param s state of the joist by itself (statics.found)
-- @param t {rows = places, k = stiffness of each, EI_new =, from =, to =, bears_left =,
--   bears_right =, gap = {a, b} or nil, slide =, on_new = {a, b} or nil}, in the units of
--   s: ft, lb or m, N
-- @return t, or nil where they do not hold together
function tied.of(s, t)
  t.s = s
  t.stubs, t.new, t.kept = stubs_of(t), new_of(t), {}
  lines_of(t)
  local ways, n, A = ways_of(t), #t.rows, {}
  t.ways = ways
  for i = 1, n + #ways do
    A[i] = {}
    for k = 1, n + #ways do A[i][k] = 0 end
  end
  for i, x in ipairs(t.rows) do
    for k = 1, n do A[i][k] = t.old[k](x) + t.new_line[k](x) end
    A[i][i] = A[i][i] + 1 / t.k[i]
    for q, way in ipairs(ways) do
      local v = way.at(x)
      A[i][n + q], A[n + q][i] = way.old and -v or v, way.old and -v or v
    end
  end
  t.inverse = inverse(A)
  return t.inverse and t or nil
end

-- Whether load at x stands on the new member.
function tied.on_new(t, x)
  return t.on_new ~= nil and x > t.on_new[1] and x < t.on_new[2]
end

--- Loads apart: those on the joist, those on the new member.
function tied.apart(t, list)
  local old, new = {}, {}
  local a, b = t.on_new and t.on_new[1], t.on_new and t.on_new[2]
  for _, l in ipairs(list) do
    if not a then
      old[#old + 1] = l
    elseif l.P then
      local to = tied.on_new(t, l.a) and new or old
      to[#to + 1] = l
    else
      for _, part in ipairs(beam.within({l}, -math.huge, a)) do old[#old + 1] = part end
      for _, part in ipairs(beam.within({l}, a, b)) do new[#new + 1] = part end
      for _, part in ipairs(beam.within({l}, b, math.huge)) do old[#old + 1] = part end
    end
  end
  return old, new
end

-- Integrals of a line, and of it times the place, from the first break: each piece is a
-- cubic, which Simpson's rule takes exactly, and Boole's takes it times the place.
local function integrals_of(places, line)
  local function part_of(lo, hi)
    local q = (hi - lo) / 4
    local a, b, c, d, e = line(lo), line(lo + q), line(lo + 2 * q), line(lo + 3 * q),
      line(hi)
    return (hi - lo) / 6 * (a + 4 * c + e), (hi - lo) / 90 * (7 * a * lo + 32 * b
      * (lo + q) + 12 * c * (lo + 2 * q) + 32 * d * (lo + 3 * q) + 7 * e * hi)
  end
  local S, T = {0}, {0}
  for k = 1, #places - 1 do
    local s, t = part_of(places[k], places[k + 1])
    S[k + 1], T[k + 1] = S[k] + s, T[k] + t
  end
  return function(x)
    local k = before(places, x)
    local s, t = part_of(places[k], x)
    return S[k] + s, T[k] + t
  end
end

-- Work of loads on a line. @param of its integrals
local function work(list, line, of)
  local sum = 0
  for _, l in ipairs(list) do
    if l.P then
      sum = sum + l.P * line(l.a)
    else
      local S1, T1 = of(l.a)
      local S2, T2 = of(l.b)
      sum = sum + l.w * (S2 - S1)
      if l.w2 then
        sum = sum + (l.w2 - l.w) / (l.b - l.a) * (T2 - T1 - l.a * (S2 - S1))
      end
    end
  end
  return sum
end

-- Places between which every line is one cubic.
local function breaks_of(t)
  local out = with(t.rows, t.from, t.to, t.slide or t.from)
  for _, s in ipairs(t.s.g.EI) do out = with(out, s.a, s.b) end
  for _, x in ipairs(t.s.g.at) do out = with(out, x) end
  return with(out, t.s.g.first, t.s.g.last, table.unpack(t.on_new or {}))
end

-- The integrals of every line: {of the joist's, of the new member's, of the motions}.
local function all_integrals(t)
  local places, out = breaks_of(t), {old = {}, new = {}, ways = {}}
  for i in ipairs(t.rows) do
    out.old[i] = integrals_of(places, t.old[i])
    out.new[i] = t.on_new and integrals_of(places, t.new_line[i])
  end
  for q, way in ipairs(t.ways) do out.ways[q] = integrals_of(places, way.at) end
  return out
end

local function solved(t, list)
  t.integrals = t.integrals or all_integrals(t)
  local of = t.integrals
  local old, new = tied.apart(t, list)
  local n, F = #t.rows, {}
  local y = {}
  for i = 1, n do
    y[i] = work(old, t.old[i], of.old[i]) - work(new, t.new_line[i], of.new[i])
  end
  for q, way in ipairs(t.ways) do
    y[n + q] = -work(way.old and old or new, way.at, of.ways[q])
  end
  for i = 1, n do
    F[i] = 0
    for k, v in ipairs(y) do F[i] = F[i] + t.inverse[k][i] * v end
  end
  return F
end

--- Forces of the rows, from joist to new member, down positive; those under a unit load
-- are kept, since influence lines ask for them again. @param list loads that act on both
-- together
function tied.forces(t, list)
  local first = list[1]
  local x = #list == 1 and first.P == 1 and first.a
  if not x then return solved(t, list) end
  t.kept[x] = t.kept[x] or solved(t, list)
  return t.kept[x]
end

return tied
