-- SPDX-License-Identifier: MIT
-- A severed joist and a member fastened beside it in plain Lua, by the force method: in
-- the gap the member alone carries V and M of the simple span, so each half stands by
-- itself. Joist and member are two cantilevers from the gap's face (deflections by the
-- handbook formula of a load on a cantilever), and the unknowns are the forces of the
-- rows and how the joist lies against the member there: a shift and a turn. Taken from
-- nowhere in the module; uniform load, EI of either even.
--
-- xi runs from the gap's face to the support, at a. A row at xi_i takes F_i, down on the
-- member, up on the joist. With f(p, q) = p^2 (3 q - p)/(6 EI), p the lesser:
--   F_i/k_i + sum_j (f_joist + f_member)(xi_i, xi_j) F_j - u - phi xi_i
--     = f_joist(xi_i, s)
--   sum F = 1,  sum F xi = s            for a load of 1 at s on the joist's piece
-- The near reaction R is such a load, upward, at a. So F_i = h_i(s) - R h_i(a), and for a
-- load past the gap's face -R h_i(a).
local halves = {}

local abs = math.abs

local function flexibility(p, q, EI)
  if p > q then p, q = q, p end
  return p * p * (3 * q - p) / (6 * EI)
end

-- The inverse of a matrix of n rows, by Gauss and Jordan with the largest pivot.
local function inverse(A, n)
  for r = 1, n do
    for c = 1, n do A[r][n + c] = r == c and 1 or 0 end
  end
  for c = 1, n do
    local p = c
    for r = c + 1, n do if abs(A[r][c]) > abs(A[p][c]) then p = r end end
    A[c], A[p] = A[p], A[c]
    local row = A[c]
    local by = 1 / row[c]
    for k = c, 2 * n do row[k] = row[k] * by end
    for r = 1, n do
      local other = A[r]
      local f = other[c]
      if r ~= c and f ~= 0 then
        for k = c, 2 * n do other[k] = other[k] - f * row[k] end
      end
    end
  end
end

local A, XI, NODE = {}, {}, {}
for r = 1, 34 do A[r] = {} end

-- The system of a half, inverted: columns n + 3 .. of A.
local function solve(xi, k, n, EI_joist, EI_member)
  for i = 1, n do
    local row = A[i]
    for j = 1, n do
      row[j] = flexibility(xi[i], xi[j], EI_joist)
        + flexibility(xi[i], xi[j], EI_member) + (i == j and 1 / k[i] or 0)
    end
    row[n + 1], row[n + 2] = -1, -xi[i]
    A[n + 1][i], A[n + 2][i] = 1, xi[i]
  end
  for r = n + 1, n + 2 do A[r][n + 1], A[r][n + 2] = 0, 0 end
  inverse(A, n + 2)
end

-- h_i(s) and its slope.
local function line(i, s, n, EI)
  local G, off = A[i], n + 2
  local v, t = G[off + n + 1] + G[off + n + 2] * s, G[off + n + 2]
  for j = 1, n do
    local x, g = XI[j], G[off + j]
    if x <= s then
      v, t = v + g * x * x * (3 * s - x) / (6 * EI), t + g * x * x / (2 * EI)
    else
      v, t = v + g * s * s * (3 * x - s) / (6 * EI), t + g * s * (2 * x - s) / (2 * EI)
    end
  end
  return v, t
end

-- Integrals of the cubic through both ends and slopes where it is above and below nil.
local function areas(h, a, p, b, q)
  local all = h * ((a + b) / 2 + h * (p - q) / 12)
  local rise = b - a
  local c2, c3 = (3 * rise / h - 2 * p - q) / h, (p + q - 2 * rise / h) / (h * h)
  local function integral(z)
    return z * (a + z * (p / 2 + z * (c2 / 3 + z * c3 / 4)))
  end
  local cuts, n = {0}, 1
  -- between the places where it turns it has one zero at most
  local turns = {0, h}
  local under = c2 * c2 - 3 * c3 * p
  if under > 0 and (a * b <= 0 or p * q < 0) then
    for way = -1, 1, 2 do
      local z = p / (-c2 + way * under ^ 0.5)
      if z > 0 and z < h then turns[#turns + 1] = z end
    end
    table.sort(turns)
  end
  for k = 2, #turns do
    local lo, hi = turns[k - 1], turns[k]
    local function at(z) return a + z * (p + z * (c2 + z * c3)) end
    local u, v = at(lo), at(hi)
    if u * v < 0 then
      for _ = 1, 64 do
        local z = (lo + hi) / 2
        if at(z) * u > 0 then lo = z else hi = z end
      end
      n = n + 1
      cuts[n] = lo
    end
  end
  if n == 1 then
    if all > 0 then return all, 0 end
    return 0, all
  end
  cuts[n + 1] = h
  local above, below = 0, 0
  for k = 1, n do
    local area = integral(cuts[k + 1]) - integral(cuts[k])
    if area > 0 then above = above + area else below = below + area end
  end
  return above, below
end

-- One half, from the gap's face to the support at a.
-- @param put function(i, most, least, all) for 1 lb/in of load
local function half(xi, k, n, a, L, EI_joist, EI_member, put)
  for i = 1, n do XI[i] = xi[i] end
  solve(xi, k, n, EI_joist, EI_member)
  NODE[1] = 0
  for i = 1, n do NODE[i + 1] = xi[i] end
  NODE[n + 2] = a
  for i = 1, n do
    local at_a = line(i, a, n, EI_joist)
    local most, least = 0, -at_a * (L - a) ^ 2 / (2 * L)
    if least > 0 then most, least = least, 0 end
    local v, t
    for j = 1, n + 2 do
      local s = NODE[j]
      local w, d = line(i, s, n, EI_joist)
      -- R = 1 - (a - s)/L of a load on this half
      w, d = w - (1 - (a - s) / L) * at_a, d - at_a / L
      if j > 1 and s > NODE[j - 1] then
        local above, below = areas(s - NODE[j - 1], v, t, w, d)
        most, least = most + above, least + below
      end
      v, t = w, d
    end
    put(i, most, least)
  end
end

--- Forces of all rows, down on the member, lb.
-- @param t {L =, gap = {x1, x2}, x = places of the rows from the left, k = stiffness of
--   each, EI_joist =, EI_member =, dead =, live = lb/in}
-- @return list of {full =, most =, least =}: dead with live everywhere, most, least
function halves.work(t)
  local out, D, w = {}, t.dead, t.live
  local list = {{}, {}}
  for i, x in ipairs(t.x) do table.insert(list[x <= t.gap[1] and 1 or 2], i) end
  for side = 1, 2 do
    local numbers, xi, k = list[side], {}, {}
    local face = side == 1 and t.gap[1] or t.gap[2]
    table.sort(numbers, function(p, q)
      return abs(t.x[p] - face) < abs(t.x[q] - face)
    end)
    for n, i in ipairs(numbers) do xi[n], k[n] = abs(t.x[i] - face), t.k[i] end
    half(xi, k, #xi, side == 1 and face or t.L - face, t.L, t.EI_joist, t.EI_member,
      function(n, most, least)
        local all = most + least
        out[numbers[n]] = {full = (D + w) * all, most = D * all + w * most,
          least = D * all + w * least}
      end)
  end
  return out
end

return halves
