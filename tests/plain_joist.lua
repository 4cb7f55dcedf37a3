-- SPDX-License-Identifier: MIT
-- The checks of a joist by plain means on any statics: whole sections, bearings, sag
-- and cuts, from forces at places that tests/plain_beams.lua works out. Clauses are
-- those of NDS 2018 (3.3, 3.4, 3.10, 4.3.1); the rules of cuts are stated in
-- tests/plain_review.lua. Nothing here is taken from the module.
--  A joist: {L = {162}, l_b = {3.5, 3.5}, b =, d =, s =, D =, Lpsf =, wood = {Fb =, CF
-- =, Fv =,
--   Fc_perp =, Ft =, Fc =, E =, Emin =}, Cr =, points = {{x =, P =, live =}}, lines =
--   {{a =, b
--   =, w1 =, w2 = plf, live =}}, cuts = {{kind =, from =, to =, y1 =, y2 =, ...}}}
local beams = require "tests.plain_beams"
local review = require "tests.plain_review"

local joists = {}
local max, min = math.max, math.min

joists.combos = {{D = 1, L = 0, CD = 0.9}, {D = 1, L = 1, CD = 1}}

-- Adjusted values, dry, at ordinary temperature (NDS 4.3.1); Cr apart.
function joists.values(wood, c)
  local CD, CF = joists.combos[c].CD, wood.CF or 1
  return {Fb = wood.Fb * CF * CD, Fv = wood.Fv * CD,
    Ft = wood.Ft * (wood.CF_t or CF) * CD, Fc = wood.Fc * (wood.CF_c or 1) * CD}
end

function joists.total(j)
  local sum = 0
  for _, L in ipairs(j.L) do sum = sum + L end
  return sum
end

--- All loads in lb and lb/in.
function joists.loads(j)
  local list, w, total = {}, j.s / 144, joists.total(j)
  list[1] = {a = 0, b = total, w1 = j.D * w, w2 = j.D * w, live = false}
  list[2] = {a = 0, b = total, w1 = j.Lpsf * w, w2 = j.Lpsf * w, live = true}
  for _, l in ipairs(j.lines or {}) do
    list[#list + 1] = {a = l.a, b = l.b, w1 = l.w1 / 12, w2 = l.w2 / 12,
      live = l.live or false}
  end
  for _, p in ipairs(j.points or {}) do
    list[#list + 1] = {x = p.x, P = p.P, live = p.live or false}
  end
  return list
end

function joists.only(loads, live)
  local list = {}
  for _, l in ipairs(loads) do if l.live == live then list[#list + 1] = l end end
  return list
end

--------------------------------------------------------------------------------- section

-- A lip too thin to count is off (max(1 in, d/8), and thinner than the opening is large).
function joists.kept(j, cut)
  local size = cut.kind == "hole" and cut.y2 - cut.y1
    or cut.kind == "slot" and max(cut.y2 - cut.y1, cut.to - cut.from) or 0
  local t = min(max(1, j.d / 8), size) - 1e-9
  return cut.y1 < t and 0 or cut.y1, j.d - cut.y2 < t and j.d or cut.y2, t
end

--- EI along a joist with its cuts; of a loss the length 12 in further.
function joists.EI(j)
  local I, list = j.b * j.d ^ 3 / 12, {}
  for _, c in ipairs(j.cuts or {}) do
    if c.kind ~= "sever" and c.kind ~= "lost" then
      local a, b = joists.kept(j, c)
      local _, _, I_n = review.section(j.d, a, b)
      local more = c.kind == "loss" and 12 or 0
      list[#list + 1] = {c.from - more, c.to + more, j.b * I_n}
    end
  end
  return function(x)
    for _, c in ipairs(list) do
      if x > c[1] and x < c[2] then return j.wood.E * c[3] end
    end
    return j.wood.E * I
  end, list
end

--- Places where stiffness steps.
function joists.steps(j)
  local _, list = joists.EI(j)
  local out = {}
  for _, c in ipairs(list) do
    for k = 1, 2 do
      if c[k] > 0 and c[k] < joists.total(j) then out[#out + 1] = c[k] end
    end
  end
  for _, c in ipairs(j.cuts or {}) do
    if c.kind ~= "sever" then
      for _, x in ipairs {c.from, c.to} do
        if x > 0 and x < joists.total(j) then out[#out + 1] = x end
      end
    end
  end
  for _, p in ipairs(j.points or {}) do out[#out + 1] = p.x end
  for _, l in ipairs(j.lines or {}) do out[#out + 1], out[#out + 2] = l.a, l.b end
  return out
end

---------------------------------------------------------------------------------- a state

-- What is under loads at a place: M(x, side), V(x, side) -> dead, most, least.
local state = {}
state.__index = state
joists.state = state

--- The joist by itself, whole or cut.
function joists.alone(j)
  local s = beams.new {L = j.L, EI = joists.EI(j), nodes = joists.steps(j)}
  local loads = joists.loads(j)
  return setmetatable({j = j, beam = s, member = "host", x = s.x, loads = loads,
    parts = {{s, loads}}}, state)
end

-- A state may be the sum of several: {beam, loads, factor} each.
function state:forces(x, side)
  local m, v = {0, 0, 0}, {0, 0, 0}
  for _, p in ipairs(self.parts) do
    local k = p[3] or 1
    local M, V = p[1]:forces(p.member or self.member, x, side)
    if M then
      for sum, line in pairs {[m] = M, [v] = V} do
        local r = {p[1]:range(line, p[2])}
        for n = 1, 3 do sum[n] = sum[n] + k * r[n] end
      end
    end
  end
  return m, v
end

function state:M(x, side)
  local cache = side < 0 and "left" or "right"
  self[cache] = self[cache] or {}
  local key = ("%.9f"):format(x)
  local hit = self[cache][key]
  if not hit then
    hit = {self:forces(x, side)}
    self[cache][key] = hit
  end
  return hit[1], hit[2]
end

-- Most of a force in a combination, one way (1) or the other (-1).
local function most(q, c, way)
  local co = joists.combos[c]
  return way * (co.D * q[1]) + co.L * (way > 0 and q[2] or -q[3])
end
joists.most = most

-- Largest value of f between lo and hi by golden section.
local function golden(f, lo, hi)
  local p, q = lo + (hi - lo) * 0.381966, lo + (hi - lo) * 0.618034
  local fp, fq = f(p), f(q)
  local best = max(fp, fq)
  for _ = 1, 11 do
    if fp > fq then
      hi, q, fq = q, p, fp
      p = lo + (hi - lo) * 0.381966
      fp = f(p)
    else
      lo, p, fp = p, q, fq
      q = lo + (hi - lo) * 0.618034
      fq = f(q)
    end
    best = max(best, fp, fq)
  end
  return best
end

-- The worst of f(x) over nodes from a to b; refined where the parabola through a
-- stretch's ends and middle rises over the worst so far.
function joists.peak(x, a, b, f)
  local list, v, best = {a}, {}, -math.huge
  for _, y in ipairs(x) do
    if y > a + 1e-9 and y < b - 1e-9 then list[#list + 1] = y end
  end
  list[#list + 1] = b
  for i, y in ipairs(list) do
    v[i] = f(y)
    best = max(best, v[i])
  end
  for i = 2, #list do
    local p, q, l = v[i - 1], v[i], list[i] - list[i - 1]
    if max(p, q) > 0.9 * best and l > 1e-6 then
      local m = f((list[i] + list[i - 1]) / 2)
      best = max(best, m)
      local curve, slope = p + q - 2 * m, q - p
      if curve < 0 and m - slope ^ 2 / (8 * curve) > best * (1 - 1e-5) then
        best = max(best, golden(f, list[i - 1], list[i]))
      end
    end
  end
  return best
end

----------------------------------------------------------------------------------- checks

--- Sagging M over the whole joist against S F_b' (NDS 3.3.2): the ratio.
function state:bending(a, b, wood, S, Cr, way)
  way = way or 1
  local cap = {}
  for c = 1, 2 do cap[c] = S * joists.values(wood, c).Fb * Cr end
  return joists.peak(self.x, a, b, function(x)
    local worst = 0
    for _, side in ipairs {-1, 1} do
      local m = self:M(x, side)
      for c = 1, 2 do worst = max(worst, most(m, c, way) / cap[c]) end
    end
    return worst
  end)
end

--- Largest V at the nodes from a to b, either side of each, against 2/3 F_v' A: the
-- ratio.
function state:shear(a, b, wood, A)
  local worst = 0
  for _, x in ipairs(self.x) do
    if x >= a - 1e-9 and x <= b + 1e-9 then
      for _, side in ipairs {-1, 1} do
        local inside = side < 0 and x > a + 1e-9 or side > 0 and x < b - 1e-9
        if inside then
          local _, v = self:M(x, side)
          for c = 1, 2 do
            local cap = 2 / 3 * joists.values(wood, c).Fv * A
            worst = max(worst, most(v, c, 1) / cap, most(v, c, -1) / cap)
          end
        end
      end
    end
  end
  return worst
end

--- V beside a bearing without the load within d of its face: uniform load left out, a
-- point by its distance over d (NDS 3.4.3.1(a)).
-- @param share {part of dead, part of live load} that the joist carries
-- @return the ratio
function state:end_shear(x0, l_b, side, share)
  local j, worst = self.j, 0
  local reach = l_b / 2 + j.d
  local _, v = self:M(x0, side)
  local _, line = self.beam:forces("host", x0, side)
  for c, co in ipairs(joists.combos) do
    local V = most(v, c, side)
    for _, p in ipairs(self.loads) do
      local k = p.live and co.L * share[2] or not p.live and co.D * share[1] or 0
      if p.a then
        local a, b = max(p.a, side > 0 and x0 or x0 - reach), min(p.b, side > 0
          and x0 + reach or x0)
        if b > a then
          local g = (p.w2 - p.w1) / (p.b - p.a)
          V = V - k * (b - a) * (p.w1 + g * ((a + b) / 2 - p.a))
        end
      else
        local from = side * (p.x - x0) - l_b / 2
        if side * (p.x - x0) > 1e-9 and from < j.d then
          local r = {self.beam:range(line, {{x = p.x, P = 1}})}
          V = V - k * p.P * max(side * r[1], 0) * (1 - max(from, 0) / j.d)
        end
      end
    end
    worst = max(worst, V / (2 / 3 * joists.values(j.wood, c).Fv * j.b * j.d))
  end
  return worst
end

--- Dead and most live reaction at a support.
function state:reaction(x)
  local D, up, down = 0, 0, 0
  for _, p in ipairs(self.parts) do
    local k = p[3] or 1
    local d, u, l = p[1]:range(p[1]:reaction(p.member or self.member, x), p[2])
    D, up, down = D + k * d, up + k * u, down + k * l
  end
  return D, up, down
end

-- NDS 3.10.2; Cb by 3.10.4 at an inner bearing under 6 in.
function joists.bearing(R, l_b, b, wood, inner)
  local Cb = inner and l_b < 6 and (l_b + 0.375) / l_b or 1
  return R / (wood.Fc_perp * Cb * b * l_b)
end

----------------------------------------------------------------------------------- cuts

-- Worst M (sagging) and V over a stretch, and the least M, in a combination.
local function over(self, from, to, c)
  local M, V, low = 0, 0, 0
  local x = {}
  for _, v in ipairs(self.x) do
    if v > from + 1e-9 and v < to - 1e-9 then x[#x + 1] = v end
  end
  x[#x + 1], x[#x + 2] = from, to
  for _, v in ipairs(x) do
    for _, side in ipairs {-1, 1} do
      local m, q = self:M(v, side)
      local inside = from == to or side < 0 and v > from or side > 0 and v < to
      if inside then
        M, low = max(M, most(m, c, 1)), min(low, -most(m, c, -1))
        V = max(V, most(q, c, 1), most(q, c, -1))
      end
    end
  end
  if to > from then
    M = max(M, joists.peak(self.x, from, to, function(v)
      return most((self:M(v, 1)), c, 1)
    end))
  end
  return M, V, low
end

-- Chords of an opening or what is left at a notch.
-- @return the ratio, whether M < 0 comes up (then it is a least one)
function state:cut(cut, Cr)
  local j, worst, hogs = self.j, 0, false
  local d = j.d
  for c = 1, 2 do
    local F = joists.values(j.wood, c)
    if cut.kind == "hole" or cut.kind == "slot" then
      local half = cut.kind == "hole" and review.frame_length(j, {D = cut.D}) / 2
      local from, to = cut.from, cut.to
      if half then
        local mid = (cut.from + cut.to) / 2
        from, to = mid - half, mid + half
      end
      local M, V, low = over(self, from, to, c)
      hogs = hogs or low < -1e-6
      local o = {kind = cut.kind, D = cut.D, h = cut.y2 - cut.y1, from = cut.from,
        to = cut.to, below = cut.y1}
      local u = d - cut.y2
      local _, _, t = joists.kept(j, cut)
      if cut.y1 >= t and u >= t then
        cut.S = cut.S or review.least_S(d, cut.y1, u)
        cut.lip_b = cut.lip_b or {review.lip(d, cut.y1, u)}
        cut.lip_t = cut.lip_t or {review.lip(d, u, cut.y1)}
      end
      o.S, o.lip_b, o.lip_t = cut.S, cut.lip_b, cut.lip_t
      worst = max(worst, review.opening(j, o, M, V, c, Cr, {}))
    else
      local d_n = d - (cut.y2 - cut.y1)
      local more = cut.kind == "loss" and 12 or 0
      local total = joists.total(j)
      local M, V, low = over(self, max(cut.from - more, 0), min(cut.to + more, total), c)
      hogs = hogs or low < -1e-6
      -- 3.4.3.2(a) where the notched face is in tension
      local torn = cut.kind == "notch" and (cut.y1 == 0 and M > 1e-6 or cut.y1 > 0
        and low < -1e-6)
      local square = torn and (d_n / d) ^ 2 or 1
      worst = max(worst, M / (j.b * d_n ^ 2 / 6) / (F.Fb * Cr),
        V / (2 / 3 * F.Fv * j.b * d_n * square))
      -- Lost wood within d of a bearing's face is a notch there: the reaction in full.
      for n, x in ipairs {0, total} do
        local gap = n == 1 and cut.from - more or total - cut.to - more
        if cut.kind == "loss" and gap < j.l_b[n] / 2 + d then
          local D, up = self:reaction(x)
          local co = joists.combos[c]
          worst = max(worst, (co.D * D + co.L * max(up, 0)) / (2 / 3 * F.Fv * j.b * d_n
            * (d_n / d) ^ 2))
          -- beside a sister by stiffness the module puts both members' reaction on it
          hogs = hogs or self.q ~= nil
        end
      end
    end
  end
  return worst, hogs
end

return joists
