-- A review of a simple joist worked again from the clauses, by plain means: influence
-- lines laid out on a fine grid, live load put where its line has the wanted sign,
-- openings sought by trying all smaller ones. Nothing here is taken from the module; the
-- clauses are those of NDS 2018 (3.3.3, 3.4.3, 3.9, 3.10, 4.3.1, 4.4.3) and R502.8.1,
-- what is ours of the manual.
--
--   plain.review {L = {144}, l_b = {3.5, 3.5}, b =, d =, s = spacing, D =, L_psf =,
--     wood = {Fb =, CF =, Fv =, Fc_perp =, Ft =, Fc =, E =, Emin =},
--     points = {{x =, P =, live =}}, cut = {...}}
--   -> {uncut = {mode = {demand, capacity, ratio}}, cut = {...}, leave = true|false}
local plain = {}

local abs, max, min, sqrt = math.abs, math.max, math.min, math.sqrt
local COMBOS = {{D = 1, L = 0, CD = 0.9}, {D = 1, L = 1, CD = 1}}
local GRID = 160 -- pieces of a span

local function clamp(x) return max(0, min(1, x)) end

------------------------------------------------------------------------------- statics

-- Nodes along the joist: an even grid, every load, edge and support.
local function nodes(j, more)
  local x, at, total = {}, {}, 0
  local function add(v)
    if v >= 0 and v <= total then at[#at + 1] = v end
  end
  for _, L in ipairs(j.L) do
    for k = 0, GRID do x[#x + 1] = total + L * k / GRID end
    total = total + L
  end
  for _, p in ipairs(j.points) do add(p.x) end
  for _, v in ipairs(more) do add(v) end
  table.move(at, 1, #at, #x + 1, x)
  table.sort(x)
  local new = {x[1]}
  for i = 2, #x do
    if x[i] - new[#new] > 1e-9 then new[#new + 1] = x[i] end
  end
  return new, total
end

-- The moment over the inner support under a unit load at each node: by reciprocity the
-- shape that a unit moment there bends the two simple spans into, over its own
-- rotation. EI(x) is constant between nodes, so the shape is a cubic there, whose area
-- (of each piece, the second result) is that of a load spread over it.
local function support_moment(j, x, EI)
  if #j.L == 1 then return nil end
  local S = j.L[1]
  local total = S + j.L[2]
  local function m(v) return v <= S and v / S or (total - v) / j.L[2] end
  local turn = 0
  local slope, sag, under = {0}, {0}, {}
  for i = 1, #x - 1 do
    local h, k = x[i + 1] - x[i], 1 / EI((x[i] + x[i + 1]) / 2)
    local a, b = m(x[i]), m(x[i + 1])
    turn = turn + h * k * (a * a + a * b + b * b) / 3
    local t, y = slope[i], sag[i]
    if abs(x[i] - S) < 1e-9 then t = 0 end
    slope[i + 1] = t - h * k * (a + b) / 2
    sag[i + 1] = y + h * t - h * h * k * (a / 3 + b / 6)
    under[i] = h * y + h * h * t / 2 - h ^ 3 * k * (a / 8 + b / 24)
    slope[i], sag[i] = t, y
  end
  -- Each span turned so that both its ends are at rest.
  local mid
  for i = 1, #x do if abs(x[i] - S) < 1e-9 then mid = i end end
  local X, area, first, last = {}, {}, sag[mid], sag[#x]
  local function chord(v)
    return v <= S and first * v / S or first + (last - first) * (v - S) / j.L[2]
  end
  for i = 1, #x do
    X[i] = -(sag[i] - chord(x[i])) / turn
    if x[i + 1] then
      local h = x[i + 1] - x[i]
      area[i] = -(under[i] - h * chord((x[i] + x[i + 1]) / 2)) / turn
    end
  end
  X[mid] = 0
  return X, area
end

-- The state of a joist: nodes and the moment over the inner support.
function plain.state(j, more, EI)
  local s = {j = j}
  s.x, s.total = nodes(j, more)
  s.X, s.area = support_moment(j, s.x, EI)
  return s
end

-- Influence lines of M, and of V just left (side 1) or right (2) of place x0: at each
-- node the value just left and just right of it, which differ at x0 alone.
local function lines(s, x0, side)
  local j, x = s.j, s.x
  local S, L, from = j.L[1], j.L[1], 0
  if #j.L == 2 and (x0 > S + 1e-9 or abs(x0 - S) < 1e-9 and side == 2) then
    L, from = j.L[2], S
  end
  local z = x0 - from
  local M, V0, V1 = {}, {}, {}
  for i = 1, #x do
    local u = x[i] - from
    local M0, v0, v1 = 0, 0, 0
    if u >= -1e-9 and u <= L + 1e-9 then
      M0 = u <= z and u * (L - z) / L or z * (L - u) / L
      v0 = u <= z + 1e-9 and -u / L or 1 - u / L
      v1 = u < z - 1e-9 and -u / L or 1 - u / L
      if abs(u) < 1e-9 and from > 0 then v0 = 0 end
      if abs(u - L) < 1e-9 and #j.L == 2 and from == 0 then v1 = 0 end
    end
    local at = s.X and s.X[i] or 0
    local part = from == 0 and z / L or 1 - z / L
    local slope = from == 0 and 1 / L or -1 / L
    M[i] = M0 + at * (s.X and part or 0)
    V0[i] = v0 + at * (s.X and slope or 0)
    V1[i] = v1 + at * (s.X and slope or 0)
  end
  return M, V0, V1
end

-- The area of a straight piece from a to b over h that is above nil.
local function positive(a, b, h)
  if a >= 0 and b >= 0 then return (a + b) / 2 * h end
  if a <= 0 and b <= 0 then return 0 end
  local up = max(a, b)
  return up * up / (abs(a) + abs(b)) / 2 * h
end

-- Dead load's, and most and least of live load's, effect by an influence line: left and
-- right values at nodes. Floor load on the whole joist, points where they are.
local function effect(s, left, right, side, x0)
  local j, x = s.j, s.x
  local wD, wL = j.D * j.s / 144, j.L_psf * j.s / 144
  local all, up = 0, 0
  for i = 1, #x - 1 do
    local h = x[i + 1] - x[i]
    all = all + (right[i] + left[i + 1]) / 2 * h
    up = up + positive(right[i], left[i + 1], h)
  end
  local D, most, least = wD * all, wL * up, wL * (all - up)
  for _, p in ipairs(j.points) do
    for i = 1, #x do
      if abs(x[i] - p.x) < 1e-9 then
        -- A load at the place itself is beyond it, seen from the side asked for.
        local v = left[i] == right[i] and left[i] or abs(p.x - x0) < 1e-9
          and (side == 1 and right[i] or left[i]) or left[i]
        if p.live then
          most, least = most + max(v, 0) * p.P, least + min(v, 0) * p.P
        else
          D = D + v * p.P
        end
      end
    end
  end
  return D, most, least
end

-- M and V at a place: {D, most, least} each.
function plain.forces(s, x0, side)
  local M, V0, V1 = lines(s, x0, side)
  local m = {effect(s, M, M, side, x0)}
  local v = {effect(s, V0, V1, side, x0)}
  return m, v
end

-------------------------------------------------------------------------------- values

-- Adjusted values, dry, at ordinary temperature (NDS 4.3.1); Cr apart.
local function values(j, c)
  local w, CD = j.wood, COMBOS[c].CD
  return {Fb = w.Fb * (w.CF or 1) * CD, Fv = w.Fv * CD, Ft = w.Ft * (w.CF_t or w.CF
    or 1) * CD,
    Fc = w.Fc * (w.CF_c or 1) * CD}
end

-- Keeps the worst of a check.
local function offer(list, mode, demand, capacity)
  local ratio = demand / capacity
  local k = list[mode]
  if not k or ratio > k.ratio then
    list[mode] = {demand = demand, capacity = capacity, ratio = ratio}
  end
end

-- NDS 3.3.3: CL of a bottom edge held at its ends only, over l_u, load anyhow placed.
local function stability(j, star, l_u)
  if l_u <= 0 then return 1 end
  local d, b = j.d, j.b
  local r = l_u / d
  local l_e = r < 7 and 2.06 * l_u or r <= 14.3 and 1.63 * l_u + 3 * d or 1.84 * l_u
  local F = 1.2 * j.wood.Emin / (l_e * d / (b * b))
  local q = F / star
  local p = (1 + q) / 1.9
  return p - sqrt(p * p - q / 0.95)
end

-- M along the joist under one pattern of live load, floor load and points by span.
local function pattern_moments(s, live, c)
  local j, x = s.j, s.x
  local S = j.L[1]
  local co = COMBOS[c]
  local function on(v) return live[v < S - 1e-9 and 1 or 2] and 1 or 0 end
  local w = j.s / 144
  local X = 0
  for i = 1, #x - 1 do
    local mid = (x[i] + x[i + 1]) / 2
    X = X + s.area[i] * w * (co.D * j.D + co.L * j.L_psf * on(mid))
  end
  for _, p in ipairs(j.points) do
    for i = 1, #x do
      if abs(x[i] - p.x) < 1e-9 then
        X = X + s.X[i] * p.P * (p.live and co.L * on(p.x) or co.D)
      end
    end
  end
  local M = {}
  for i = 1, #x do
    local first = x[i] <= S
    local L, from = first and S or j.L[2], first and 0 or S
    local z = x[i] - from
    local q = w * (co.D * j.D + co.L * j.L_psf * on(first and 0 or S + 1))
    local m = q * z * (L - z) / 2 + X * (first and z / L or 1 - z / L)
    for _, p in ipairs(j.points) do
      local a = p.x - from
      if a > 0 and a < L then
        local P = p.P * (p.live and co.L * on(p.x) or co.D)
        m = m + P * (a >= z and z * (L - a) / L or a * (L - z) / L)
      end
    end
    M[i] = m
  end
  return M, X
end

-- Where M turns on a piece of length h from a < 0 to b >= 0 under q, whose M is a
-- parabola: M(u) = a + t u - q u^2 / 2.
local function first_zero(a, b, h, q)
  local t = (b - a) / h + q * h / 2
  return -2 * a / (t + sqrt(max(t * t + 2 * q * a, 0)))
end

-- Hogging (M < 0) under every pattern with its own unbraced length: from the support to
-- where its moment turns, or over the whole span.
local function hogging(s, list, S_x, Cr)
  local j, x = s.j, s.x
  for c = 1, 2 do
    local star = values(j, c).Fb * Cr
    for bits = 0, 3 do
      local live = {bits & 1 ~= 0, bits & 2 ~= 0}
      local M, X = pattern_moments(s, live, c)
      if X < -1e-6 then
        local S, l_u = j.L[1], 0
        local mid
        for i = 1, #x do if abs(x[i] - S) < 1e-9 then mid = i end end
        for _, way in ipairs {-1, 1} do
          local i = mid + way
          while x[i] and M[i] < -1e-9 and i > 1 and i < #x do i = i + way end
          local on = live[way < 0 and 1 or 2] and 1 or 0
          local q = j.s / 144 * (COMBOS[c].D * j.D + COMBOS[c].L * j.L_psf * on)
          local reach = abs(x[i - way] - S) + first_zero(M[i - way], max(M[i], 0),
            abs(x[i] - x[i - way]), q)
          l_u = max(l_u, reach)
        end
        offer(list, "bending", -X, S_x * star * stability(j, star, l_u))
      end
    end
  end
end

----------------------------------------------------------------------- checks of a state

-- NDS 3.3.2: gross section.
local function bending(s, list, Cr)
  local j = s.j
  local S_x = j.b * j.d ^ 2 / 6
  for i = 1, #s.x do
    local m = plain.forces(s, s.x[i], 1)
    for c, co in ipairs(COMBOS) do
      local M = co.D * m[1] + co.L * m[2]
      if M > 0 then offer(list, "bending", M, S_x * values(j, c).Fb * Cr) end
    end
  end
  if #j.L == 2 then hogging(s, list, S_x, Cr) end
end

-- NDS 3.4.3.1(a): uniform load within d of the face of the bearing is left out, a point
-- load there counts by its distance from the face over d.
local function shear_at(s, list, x0, l_b, side)
  local j = s.j
  local way = side == 2 and 1 or -1
  local _, v = plain.forces(s, x0, side)
  local reach = l_b / 2 + j.d
  for c, co in ipairs(COMBOS) do
    local V = way * (co.D * v[1] + co.L * (side == 2 and v[2] or v[3]))
    local w = (co.D * j.D + co.L * j.L_psf) * j.s / 144
    V = V - w * min(reach, side == 2 and s.total - x0 or x0)
    for _, p in ipairs(j.points) do
      local from = way * (p.x - x0) - l_b / 2
      local beside = way * (p.x - x0) > 1e-9 or abs(p.x - x0) < 1e-9
      if beside and from < j.d then
        local M, V0, V1 = lines(s, x0, side)
        local line = 0
        for i = 1, #s.x do
          if abs(s.x[i] - p.x) < 1e-9 then
            line = way * (abs(p.x - x0) < 1e-9 and (side == 1 and V1[i] or V0[i])
              or V0[i])
          end
        end
        local _ = M
        local share = p.live and co.L or co.D
        if line > 0 then V = V - share * p.P * line * (1 - max(from, 0) / j.d) end
      end
    end
    if V > 0 then offer(list, "shear", V, 2 / 3 * values(j, c).Fv * j.b * j.d) end
  end
end

-- NDS 3.10.2; Cb by 3.10.4 where the bearing is under 6 in and 3 in or more from the end.
local function bearing(s, list, n, seat)
  local j = s.j
  local x0 = n == 1 and 0 or n == 2 and j.L[1] or s.total
  local D, most = 0, 0
  if n > 1 then
    local _, v = plain.forces(s, x0, 1)
    D, most = D - v[1], most - v[3]
  end
  if n <= #j.L then
    local _, v = plain.forces(s, x0, 2)
    D, most = D + v[1], most + v[2]
  end
  for _, p in ipairs(j.points) do
    if abs(p.x - x0) < 1e-9 then
      if p.live then most = most + p.P else D = D + p.P end
    end
  end
  local l_b = seat or j.l_b[n]
  local inner = n > 1 and n <= #j.L
  local Cb = inner and l_b < 6 and (l_b + 0.375) / l_b or 1
  offer(list, "bearing " .. n, D + most, j.wood.Fc_perp * Cb * j.b * l_b)
  return D, most
end

-- Live and total deflection of a single span, EI between nodes, no shear term.
local function deflection(s, list, EI)
  local j, x = s.j, s.x
  if #j.L > 1 then return end
  for _, kind in ipairs {"live", "total"} do
    local function M(v)
      local w = ((kind == "total" and j.D or 0) + j.L_psf) * j.s / 144
      local m = w * v * (s.total - v) / 2
      for _, p in ipairs(j.points) do
        if p.live or kind == "total" then
          m = m + p.P * (p.x >= v and v * (s.total - p.x) / s.total
            or p.x * (s.total - v) / s.total)
        end
      end
      return m
    end
    local t, y, Y = 0, 0, {0}
    for i = 1, #x - 1 do
      local h, k = x[i + 1] - x[i], 1 / EI((x[i] + x[i + 1]) / 2)
      local a, m, b = M(x[i]), M((x[i] + x[i + 1]) / 2), M(x[i + 1])
      -- exact to the cubic: M is quadratic between nodes
      y = y + h * t - k * h * h * (a + 2 * m) / 6
      t = t - k * h * (a + 4 * m + b) / 6
      Y[i + 1] = y
    end
    local most = 0
    for i = 1, #x do most = max(most, Y[i] - Y[#x] * x[i] / s.total) end
    offer(list, "deflection-" .. kind, most, s.total / (kind == "live" and 360 or 240))
  end
end

-------------------------------------------------------------------------------- cuts

-- Area, centroid from the bottom, I, S at both edges of a section, per inch of width,
-- with the band y1..y2 gone.
local function section(d, y1, y2)
  local a, b = y1, d - y2
  local A = a + b
  local y = (a * a / 2 + b * (d - b / 2)) / A
  local I = a ^ 3 / 12 + a * (y - a / 2) ^ 2 + b ^ 3 / 12 + b * (d - b / 2 - y) ^ 2
  local low, high = a > 0 and 0 or y2, b > 0 and d or y1
  return A, y, I, I / (y - low), I / (high - y)
end

-- Least S of any opening within one whose both lips are kept.
local function least_S(d, s, u)
  local top, N = d - u, 90
  local best, bi, bk = d * d / 6, 0, 0
  local function try(y1, y2)
    if y2 - y1 < 1e-12 then return end
    local _, _, _, Sb, St = section(d, y1, y2)
    local S = min(Sb, St)
    if S < best then best, bi, bk = S, y1, y2 end
  end
  for i = 0, N do
    for k = i + 1, N do try(s + (top - s) * i / N, s + (top - s) * k / N) end
  end
  local step = (top - s) / N
  for _ = 1, 5 do
    local i0, k0 = bi, bk
    for a = -5, 5 do
      for b = -5, 5 do
        local y1, y2 = i0 + a * step / 5, k0 + b * step / 5
        if y1 >= s and y2 <= top then try(y1, y2) end
      end
    end
    step = step / 5
  end
  return best
end

-- The lip h deep beside an opening that leaves u on the other side: y and I per inch of
-- width where its mean stress is the most, of all openings that keep the lip.
local function lip(d, h, u)
  local best, y_b, I_b = -1, 0, 0
  local function try(v)
    local _, y, I = section(d, h, d - v)
    local q = (y - h / 2) / I
    if q > best then best, y_b, I_b = q, y, I end
    return q
  end
  local room = d - h - u
  local at, N = u, 200
  for k = 0, N - 1 do
    local v = u + room * k / N
    if try(v) >= best then at = v end
  end
  local step = room / N
  for _ = 1, 4 do
    local from = at
    for k = -10, 10 do
      local v = from + k * step / 10
      if v >= u and v <= d - h - 1e-9 and try(v) >= best then at = v end
    end
    step = step / 10
  end
  return y_b, I_b
end

-- The length over which a round hole is worked as a frame: nothing up to 0.45 d, the
-- middle half of its diameter from 0.60 d.
local function frame_length(j, cut)
  return cut.D / 2 * clamp((cut.D / j.d - 0.45) / 0.15)
end

-- Chords of an opening in M > 0: the manual's rule between plain net section and NDS 3.9.
local function opening(j, cut, M, V, c, Cr, list)
  local F, b, d = values(j, c), j.b, j.d
  local size = cut.kind == "hole" and cut.D or cut.h
  local s, u = cut.below, d - cut.below - size
  local L = cut.kind == "hole" and size / 2 or cut.to - cut.from
  local a = cut.kind == "hole" and frame_length(j, cut) or L
  local thin = min(max(1, d / 8), cut.kind == "hole" and size or max(size, L)) - 1e-9
  local Fb = F.Fb * Cr
  local off_low = max(6 * M / (b * u * u) / Fb, 1.5 * V / (b * u * (u / d) ^ 2) / F.Fv)
  local off_up = max(6 * M / (b * s * s) / Fb, 1.5 * V / (b * s) / F.Fv)
  if s < thin and u < thin then return 1e9 end
  if s < thin then return off_low end
  if u < thin then return off_up end
  local S = b * cut.S
  local f_2 = 3 * a * V * max(s, u) / (b * (s ^ 3 + u ^ 3))
  offer(list, "net-bending", M / S + f_2, Fb)
  local two = (M / S + f_2) / Fb
  local function chord(h, y, I, tension)
    local f_m, f_b = M * (y - h / 2) / (I * b), M * h / 2 / (I * b) + f_2
    local tau = clamp(L / h - 1) * clamp(2 - 4 * h / d)
    local all
    if tension then
      all = f_m / F.Ft + f_b / Fb
    else
      local FcE = L > 0 and 0.822 * j.wood.Emin / (L / min(h, b)) ^ 2 or 1e30
      local q = FcE / F.Fc
      local p = (1 + q) / 1.6
      local CP = q > 1e12 and 1 or (q / 0.8) / (p + sqrt(p * p - q / 0.8))
      local rest = 1 - f_m / FcE
      all = rest > 1e-3 and (f_m / (F.Fc * CP)) ^ 2 + f_b / (Fb * rest) or 1e9
    end
    local simple = (f_m + f_b) / Fb
    return simple + tau * max(0, all - simple)
  end
  two = max(two, chord(s, cut.lip_b[1], cut.lip_b[2], true),
    chord(u, cut.lip_t[1], cut.lip_t[2], false))
  -- Shear: net area, toward the deeper chord's share by h^3 as the opening grows longer.
  local m, B, k3 = min(s, u), max(s, u), 2 ^ (1 / 3)
  local Bs = B >= k3 * m and B or min(k3 * m, d - m)
  local r_a = 1.5 * V / (b * (s + u)) / F.Fv
  local r_h = max(r_a, 1.5 * V / (b * (Bs + m ^ 3 / Bs ^ 2)) / F.Fv)
  two = max(two, r_a + clamp(L / (2 * m)) * (r_h - r_a))
  return min(two, off_low, off_up)
end

-- Where M and V of a cut are read.
local function places(s, cut)
  local from, to = cut.from, cut.to
  if cut.kind == "hole" then
    local a = frame_length(s.j, cut)
    if a == 0 then return {cut.x} end
    from, to = cut.x - a / 2, cut.x + a / 2
  end
  local list = {}
  for _, x in ipairs(s.x) do
    if x >= from - 1e-9 and x <= to + 1e-9 and x >= 0 and x <= s.total then
      list[#list + 1] = x
    end
  end
  return list
end

-- Worst M (sagging) and V over a cut in a combination.
local function worst(s, cut, co)
  local M, V = 0, 0
  local list = places(s, cut)
  for i, x in ipairs(list) do
    for side = 1, 2 do
      local m, v = plain.forces(s, x, side)
      M = max(M, co.D * m[1] + co.L * m[2])
      local inside = #list == 1 or side == 2 and i < #list or side == 1 and i > 1
      if inside then
        V = max(V, abs(co.D * v[1] + co.L * v[2]), abs(co.D * v[1] + co.L * v[3]))
      end
    end
  end
  return M, V
end

-- An interior notch: net section; in the tension face its shear by NDS 3.4.3.2(a).
local function notch(s, cut, list, Cr)
  local j = s.j
  local d_n = j.d - cut.depth
  for c, co in ipairs(COMBOS) do
    local M, V = worst(s, cut, co)
    local F = values(j, c)
    offer(list, "net-bending", M / (j.b * d_n ^ 2 / 6), F.Fb * Cr)
    local square = cut.face == "bottom" and (d_n / j.d) ^ 2 or 1
    offer(list, "notch-shear", V, 2 / 3 * F.Fv * j.b * d_n * square)
  end
end

-- An end notch: the whole reaction on what is left; net bending at its inner corner.
local function end_notch(s, cut, list, Cr, R)
  local j = s.j
  local d_n = j.d - cut.depth
  local e = max(0, cut.length - j.l_b[1])
  for c, co in ipairs(COMBOS) do
    local F = values(j, c)
    local left = cut.face == "bottom" and d_n * (d_n / j.d) ^ 2
      or j.d - cut.depth / d_n * min(e, d_n)
    offer(list, "notch-shear", co.D * R[1] + co.L * R[2], 2 / 3 * F.Fv * j.b * left)
    local x = cut.length - j.l_b[1] / 2
    if x > 0 then
      local m = plain.forces(s, x, 1)
      offer(list, "net-bending", max(0, co.D * m[1] + co.L * m[2]) / (j.b * d_n ^ 2 / 6),
        F.Fb * Cr)
    end
  end
end

-- Wood lost by rot from the bottom: the section 12 in further each way; where that comes
-- to a bearing or within d of its face it is a notch there, with the whole reaction.
local function loss(s, cut, list, Cr, R)
  local j = s.j
  local d_n, from, to = j.d - cut.depth, cut.from - 12, cut.to + 12
  local near = from < j.l_b[1] / 2 + j.d
  local far = to > s.total - j.l_b[2] / 2 - j.d
  local wide = {from = max(from, 0), to = min(to, s.total)}
  for c, co in ipairs(COMBOS) do
    local F = values(j, c)
    local M, V = worst(s, wide, co)
    offer(list, "net-bending", M / (j.b * d_n ^ 2 / 6), F.Fb * Cr)
    for n, on in ipairs {near, far} do
      if on then
        offer(list, "notch-shear", co.D * R[n][1] + co.L * R[n][2],
          2 / 3 * F.Fv * j.b * d_n * (d_n / j.d) ^ 2)
      end
    end
    list.V = max(list.V or 0, V / (2 / 3 * F.Fv * j.b * d_n))
  end
end

plain.section, plain.least_S, plain.lip, plain.opening = section, least_S, lip, opening
plain.frame_length = frame_length
plain.worst, plain.values, plain.combos = worst, values, COMBOS

----------------------------------------------------------------------------- the whole

-- R502.8.1, for a cut that is not on an overhang: true, false, or nil where it says
-- nothing.
local function within(j, cut)
  local d, L = j.d, j.L[1]
  if #j.L > 1 then L = cut.span == 2 and j.L[2] or j.L[1] end
  local from = #j.L > 1 and cut.span == 2 and j.L[1] or 0
  if cut.kind == "hole" or cut.kind == "slot" then
    local size = cut.kind == "hole" and cut.D or max(cut.h, cut.to - cut.from)
    local high = cut.kind == "hole" and cut.D or cut.h
    return size <= d / 3 + 1e-6 and cut.below >= 2 - 1e-6
      and d - cut.below - high >= 2 - 1e-6
  elseif cut.kind == "notch" then
    local reach = min(cut.to - from, from + L - cut.from)
    return cut.depth <= d / 6 + 1e-6 and cut.to - cut.from <= d / 3 + 1e-6
      and reach <= L / 3 + 1e-6
  elseif cut.kind == "end_notch" then
    return cut.depth <= d / 4 + 1e-6 and cut.length - j.l_b[1] <= d / 3 + 1e-6
  end
end

--- The review: checks of both states by mode, and whether the joist may be left.
function plain.review(j)
  local out = {uncut = {}, cut = {}}
  local cut = j.cut
  local I = j.b * j.d ^ 3 / 12
  local function gross() return j.wood.E * I end
  local edges = {}
  for n = 1, #j.l_b do
    local x = n == 1 and 0 or n == 2 and j.L[1] or 0
    edges[#edges + 1] = x
  end
  if cut then
    edges[#edges + 1] = cut.x
    edges[#edges + 1] = cut.from
    edges[#edges + 1] = cut.to
    if cut.kind == "hole" then
      edges[#edges + 1] = cut.x - cut.D / 2
      edges[#edges + 1] = cut.x + cut.D / 2
      edges[#edges + 1] = cut.x - frame_length(j, cut) / 2
      edges[#edges + 1] = cut.x + frame_length(j, cut) / 2
    end
    if cut.kind == "loss" then
      edges[#edges + 1] = cut.from - 12
      edges[#edges + 1] = cut.to + 12
    end
    if cut.kind == "end_notch" then edges[#edges + 1] = cut.length - j.l_b[1] / 2 end
  end
  local function state(list, EI, Cr, seat)
    local s = plain.state(j, edges, EI)
    bending(s, list, Cr)
    local R, R_far
    for n = 1, #j.L + 1 do
      local D, most = bearing(s, list, n, n == 1 and seat or nil)
      if n == 1 then R = {D, most} end
      if n == #j.L + 1 then R_far = {D, most} end
      local x0 = n == 1 and 0 or n == 2 and j.L[1] or s.total
      if n > 1 then shear_at(s, list, n == #j.L + 1 and s.total or x0, j.l_b[n], 1) end
      if n <= #j.L then shear_at(s, list, x0, j.l_b[n], 2) end
    end
    deflection(s, list, EI)
    return s, R, R_far
  end
  state(out.uncut, gross, 1.15)
  if not cut then
    out.leave = true
    for _, k in pairs(out.uncut) do out.leave = out.leave and k.ratio <= 1 + 1e-9 end
    return out
  end
  local inside = within(j, cut)
  local Cr = inside and 1.15 or 1
  local y1, y2, x1, x2
  if cut.kind == "hole" then
    y1, y2, x1, x2 = cut.below, cut.below + cut.D, cut.x - cut.D / 2, cut.x + cut.D / 2
  elseif cut.kind == "slot" then
    y1, y2, x1, x2 = cut.below, cut.below + cut.h, cut.from, cut.to
  elseif cut.kind == "notch" then
    y1 = cut.face == "bottom" and 0 or j.d - cut.depth
    y2, x1, x2 = y1 + cut.depth, cut.from, cut.to
  elseif cut.kind == "loss" then
    y1, y2, x1, x2 = 0, cut.depth, cut.from - 12, cut.to + 12
  else
    y1 = cut.face == "bottom" and 0 or j.d - cut.depth
    y2, x1, x2 = y1 + cut.depth, -j.l_b[1] / 2, cut.length - j.l_b[1] / 2
  end
  local lip_limit = max(1, j.d / 8)
  local size = cut.kind == "hole" and cut.D or cut.kind == "slot"
    and max(cut.h, cut.to - cut.from) or 0
  local t = min(lip_limit, size) - 1e-9
  local a, b = y1 < t and 0 or y1, j.d - y2 < t and j.d or y2
  local _, _, I_n = section(j.d, a, b)
  local function EI(x)
    return j.wood.E * (x > x1 and x < x2 and j.b * I_n or I)
  end
  local seat
  if cut.kind == "end_notch" and cut.face == "bottom" then
    seat = cut.length >= j.l_b[1] and j.l_b[1] or max(cut.length, j.l_b[1] - cut.length)
  end
  if cut.kind == "loss" and cut.depth > 0.25 then
    local lost = min(cut.to, j.l_b[1] / 2) - max(cut.from, -j.l_b[1] / 2)
    seat = j.l_b[1] - max(lost, 0)
    out.no_seat = seat <= 1e-9
    if out.no_seat then seat = nil end
  end
  local s, R, R_far = state(out.cut, EI, Cr, seat)
  local fits
  if cut.kind == "notch" then
    notch(s, cut, out.cut, Cr)
    local L = j.L[cut.span or 1]
    local reach = min(cut.to, L - cut.from)
    fits = cut.depth <= j.d / 6 + 1e-6 and reach <= L / 3 + 1e-6 and #j.L == 1
  elseif cut.kind == "loss" then
    fits = false -- never left
    loss(s, cut, out.cut, Cr, {R, R_far})
  elseif cut.kind == "end_notch" then
    end_notch(s, cut, out.cut, Cr, R)
    fits = cut.depth <= j.d / 4 + 1e-6
  else
    local u = j.d - y2
    cut.S = cut.below >= t and u >= t and least_S(j.d, y1, u) or nil
    if cut.S then
      cut.lip_b, cut.lip_t = {lip(j.d, y1, u)}, {lip(j.d, u, y1)}
    end
    local R_o = 0
    for c, co in ipairs(COMBOS) do
      local M, V = worst(s, cut, co)
      R_o = max(R_o, opening(j, cut, M, V, c, Cr, out.cut))
    end
    out.opening = R_o
    fits = y2 - y1 <= 0.40 * j.d + 1e-6
  end
  out.inside = inside
  out.leave = inside and fits
  for name, k in pairs(out.cut) do
    if name ~= "net-bending" or not out.opening then
      out.leave = out.leave and k.ratio <= 1 + 1e-9
    end
  end
  if out.opening then out.leave = out.leave and out.opening <= 1 + 1e-9 end
  return out
end

return plain
