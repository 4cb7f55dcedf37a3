-- SPDX-License-Identifier: MIT A strap under a cut by plain means. The section above
-- the cut is cracked, no wood in tension: with n = E_s/E_w, steel A_s at d_s, width b,
-- the depth c of the pressed zone is the root of b c^2/2 = n A_s (d_s - c); where it
-- would be deeper than the wood h above the cut, b h (c - h/2) = n A_s (d_s - c). T =
-- M/z with z from the steel to the middle of the pressure (statics; the strap has what
-- comes after it is fastened).
local dowels = require "tests.plain_dowels"
local joists = require "tests.plain_joist"
local review = require "tests.plain_review"

local strap = {}
local max, min, huge = math.max, math.min, math.huge
local most, values, combos = joists.most, joists.values, joists.combos

local function cracked(j, f, o, h)
  local n, b = o.E / j.wood.E * f.width * o.t, j.b
  local d_s = j.d + o.t / 2
  local c = (-n + math.sqrt(n * n + 2 * b * n * d_s)) / b
  local depth = h
  if c <= h then depth = c else c = (n * d_s + b * h * h / 2) / (n + b * h) end
  -- pressure p(y) = c - y from the top to `depth`: its area and first moment
  local area = c * depth - depth ^ 2 / 2
  local first = c * depth ^ 2 / 2 - depth ^ 3 / 3
  return d_s - first / area, c / (b * area)
end

-- The places: from the cut outward in rows. @return first, pitch, number in a row
local function rows_of(q, f, cut, large)
  local D, at = f.fastener.D, {}
  local across = {}
  for _, p in ipairs(q.fixed.layout) do
    if p.x > cut.to then at[#at + 1] = p.x - cut.to end
    across[#across + 1] = p.y
  end
  table.sort(at)
  table.sort(across)
  local first, n = at[1], #at // f.rows
  local pitch = n > 1 and (at[#at] - at[1]) / (n - 1) or 1
  local edge = q.j.b / 2 - math.max(across[#across], -across[1])
  local row = f.rows > 1 and (across[#across] - across[1]) / (f.rows - 1) or huge
  local k = large and 1 or 0
  if first < 3.5 * D * k - 1e-6 then q:breach "a strap's fastener at the cut" end
  if n > 1 and pitch < 3 * D * k - 1e-6 then q:breach "a strap's pitch" end
  if edge < 1.5 * D * k - 1e-6 or f.width / 2 - across[#across] < 1.5 * D * k - 1e-6 then
    q:breach "the edge of a strap or of the wood"
  end
  if row < 1.5 * D - 1e-6 then q:breach "rows of a strap" end
  if k == 1 and across[#across] - across[1] > 5 + 1e-6 then q:breach "rows on steel" end
  for i = 2, #at do
    local step = at[i] - at[i - 1]
    if step > 1e-6 and math.abs(step - pitch) > 1e-6 then q:breach "an uneven pitch" end
  end
  return first, pitch, n
end

-- Other cuts along the grain from a fastener, unless they lie 1.5D over its point.
local function other_cuts(q, j, f, but)
  local least, D = huge, f.fastener.D
  for i, c in ipairs(j.cuts) do
    if i ~= but and c.y1 < f.fastener.L + 1.5 * D - 1e-9 then
      for _, p in ipairs(q.fixed.layout) do
        least = min(least, max(c.from - p.x, p.x - c.to))
      end
    end
  end
  if least < 3.5 * D - 1e-6 and D >= 0.25 then q:breach "a strap's fastener at a cut" end
  return least
end

-- M and V over the cut of a state in a combination.
local function over(state, a, b, c)
  local M, V = 0, 0
  local x = {a, b}
  for _, v in ipairs(state.x) do if v > a and v < b then x[#x + 1] = v end end
  for _, v in ipairs(x) do
    for _, side in ipairs {-1, 1} do
      local m, s = state:M(v, side)
      M = max(M, most(m, c, 1))
      local inside = a == b or side < 0 and v > a or side > 0 and v < b
      if inside then V = max(V, most(s, c, 1), most(s, c, -1)) end
    end
  end
  if b > a then
    M = max(M, joists.peak(state.x, a, b, function(v)
      return most((state:M(v, 1)), c, 1)
    end))
  end
  return M, V
end

-- Modulus of what is left, the least of all openings within this one (one edge of the
-- worst is an edge of the whole); a lip too thin to count is off. Per inch of width.
local function modulus(j, cut)
  local d, a, b = j.d, joists.kept(j, cut)
  local function S(y1, y2)
    local _, _, _, low, high = review.section(d, y1, y2)
    return min(low, high)
  end
  local least = S(a, b)
  if a == 0 or b == d then return least end
  for _, f in ipairs {function(u) return S(a, a + (b - a) * u) end, function(u)
    return S(b - (b - a) * u, b)
  end} do
    local at = 1
    for k = 1, 200 do
      local v = f(k / 200)
      if v < least then least, at = v, k / 200 end
    end
    for k = -100, 100 do
      local u = at + k / 20000
      if u > 0 and u <= 1 then least = min(least, f(u)) end
    end
  end
  return least
end

-- The same statics under some of the loads.
local function under(j, s, loads)
  return setmetatable({j = j, beam = s.beam, member = "host", x = s.x, loads = loads,
    parts = {{s.beam, loads}}}, joists.state)
end

-- @param o {E =, t =, t_Z =, steel =} of the strap
function strap.compare(q, j, f, o, split)
  q.j = j
  local i = f.cut
  local cut, D = j.cuts[i], f.fastener.D
  local large = D >= 0.25
  local s = joists.alone(j)
  local before, after = split(joists.loads(j))
  local locked, late = under(j, s, before), under(j, s, after)
  local a, b = cut.from, cut.to
  if cut.kind == "hole" then
    local half, mid = review.frame_length(j, {D = cut.D}) / 2, (a + b) / 2
    a, b = mid - half, mid + half
  end
  local h = j.d - cut.y2
  local z, f_c = cracked(j, f, o, h)
  local first, pitch, n = rows_of(q, f, cut, large)
  local near = other_cuts(q, j, f, i)
  local Z = dowels.Z(f.fastener, {G = j.wood.G, t_m = j.d, theta_m = 0, t_s = o.t_Z,
    F_es = dowels.steel_Fe(o.steel.F_u, o.t_Z)})
  local C = large and min(1, first / (7 * D), n > 1 and pitch / (4 * D) or 1,
    near / (7 * D)) or 1
  local Cg = dowels.Cg(D, n, pitch, j.wood.E * j.b * j.d, o.E * f.width * o.t, true)
  local hole = f.fastener.kind == "lag screw" and not o.steel.sheet and D + 1 / 16 or D
  local g = f.width / (f.rows + 1)
  local P = dowels.strap {F_y = o.steel.F_y, F_u = o.steel.F_u, sheet = o.steel.sheet,
    w = f.width, t = o.t, n = n, rows = f.rows, s = pitch, g = g, e = max(2 * D, 0.5),
    D = D, D_h = hole}
  local steel, group, pressed, shear, T_all = 0, 0, 0, 0, 0
  local own = 0
  local S = modulus(j, cut)
  for c, co in ipairs(combos) do
    local M = over(late, a, b, c)
    local M_own = over(locked, a, b, c)
    local _, V = over(s, a, b, c)
    local T, F = M / z, values(j.wood, c)
    if c == 2 then T_all = T end
    steel = max(steel, T / P)
    group = max(group, T / (f.n * Z * C * Cg * co.CD))
    pressed = max(pressed, (T * f_c + M_own / (j.b * S)) / min(F.Fb, F.Fc))
    shear = max(shear, V / (2 / 3 * F.Fv * j.b * h))
    if cut.kind == "notch" then
      local d_n = j.d - cut.y2
      own = max(own, M_own / (j.b * d_n ^ 2 / 6) / (F.Fb * j.Cr), V / (2 / 3 * F.Fv * j.b
        * d_n * (d_n / j.d) ^ 2))
    end
  end
  q:count("tension of the strap in row", T_all, q.fixed.T)
  q:check("steel", "strap", steel)
  q:check("fasteners", "strap", group)
  q:check("wood-compression", "host", pressed, true, function(k) return k.branch >= 6 end)
  q:check("host-shear", "host", shear, true, function(k) return k.cut == i end)
  if cut.kind == "notch" then
    local found = 0
    for _, k in ipairs(q.fixed.checks) do
      if k.cut == i and (k.mode == "net-bending" or k.mode == "notch-shear") then
        found = max(found, k.ratio)
      end
    end
    q:set("the strapped notch", own, found)
  end
  -- Wood between the cut and another that opens downward: F_v'/2 on one plane, after
  -- the torn-out row of NDS Appendix E.
  local apart = huge
  for k, c in ipairs(j.cuts) do
    local wood = max(c.from - cut.to, cut.from - c.to)
    if k ~= i and c.y1 <= 1e-9 then apart = min(apart, wood) end
  end
  local torn = apart < huge and T_all / (values(j.wood, 2).Fv / 2 * j.b * apart) or nil
  if torn and not large then q:check("fasteners", "host", torn) end
  if large then
    local F = values(j.wood, 2)
    local tear = dowels.tear_out {n = n, rows = f.rows, s = pitch, g = g, e = first,
      t = min(f.fastener.L - o.t, j.d), w = j.b, D_h = D, Fv = F.Fv, Ft = F.Ft}
    q:check("fasteners", "host", max(T_all / tear, torn or 0))
  end
  q:count("fasteners in the layout", 2 * f.n, #q.fixed.layout)
  q:count("fasteners in the parts", 2 * f.n, q.fixed.fasteners[1].count)
  q:count("straps in the parts", 1, #q.fixed.pieces)
  return s
end

return strap
