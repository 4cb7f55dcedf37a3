-- SPDX-License-Identifier: MIT
-- Dowels by plain means, from the clauses of NDS 2018 alone: yield equations (12.3.1,
-- Tables 12.3.1A and B), bearing strengths (12.3.3), penetration (12.1), group action
-- (11.3.6), distances (Tables 12.5.1A to D), withdrawal (12.2), tear-out of wood
-- (Appendix E), slip; steel by AISC 360 and AISI S100. What of it is from memory is so
-- marked in the manual. Nothing here is taken from the module.
local dowels = {}

local max, min, sqrt = math.max, math.min, math.sqrt

--------------------------------------------------------------------------------- lateral

-- F_e along the grain 11200 G, across 6100 G^1.45/sqrt(D), under 1/4 in 16600 G^1.84;
-- between by Hankinson, degrees.
function dowels.Fe(G, D, theta)
  if D < 0.25 then return 16600 * G ^ 1.84 end
  local par, perp = 11200 * G, 6100 * G ^ 1.45 / sqrt(D)
  local s = math.sin(math.rad(theta)) ^ 2
  return par * perp / (par * s + perp * (1 - s))
end

-- Yield equations for the shear plane or planes of a fastener: the root diameter in them,
-- K_D of it; the nominal one across the grain and for penetration.
-- @param t {D =, D_r =, F_yb =, G =, l_m =, theta_m =, l_s =, theta_s =, and G_s = or
--   F_es = of steel; double =}
function dowels.yield(t)
  local D = t.D_r
  local F_em = dowels.Fe(t.G, t.D, t.theta_m)
  local F_es = t.F_es or dowels.Fe(t.G_s, t.D, t.theta_s)
  local R_e, R_t = F_em / F_es, t.l_m / t.l_s
  local K_t = 1 + 0.25 * max(t.theta_m, t.F_es and 0 or t.theta_s) / 90
  local K_D = D <= 0.17 and 2.2 or 10 * D + 0.5
  local R = D >= 0.25 and {4 * K_t, 3.6 * K_t, 3.2 * K_t} or t.D < 0.25
    and {K_D, K_D, K_D} or {K_D * K_t, K_D * K_t, K_D * K_t}
  local F_yb, l_m, l_s = t.F_yb, t.l_m, t.l_s
  local k1 = (sqrt(R_e + 2 * R_e ^ 2 * (1 + R_t + R_t ^ 2) + R_t ^ 2 * R_e ^ 3)
    - R_e * (1 + R_t)) / (1 + R_e)
  local k2 = -1 + sqrt(2 * (1 + R_e) + 2 * F_yb * (1 + 2 * R_e) * D ^ 2
    / (3 * F_em * l_m ^ 2))
  local k3 = -1 + sqrt(2 * (1 + R_e) / R_e + 2 * F_yb * (2 + R_e) * D ^ 2
    / (3 * F_em * l_s ^ 2))
  local Im, Is = D * l_m * F_em / R[1], D * l_s * F_es / R[1]
  local IIIs = k3 * D * l_s * F_em / ((2 + R_e) * R[3])
  local IV = D ^ 2 / R[3] * sqrt(2 * F_em * F_yb / (3 * (1 + R_e)))
  if t.double then return min(Im, 2 * Is, 2 * IIIs, 2 * IV) end
  return min(Im, Is, k1 * D * l_s * F_es / R[2], k2 * D * l_m * F_em
    / ((1 + 2 * R_e) * R[3]), IIIs, IV)
end

-- One fastener through a side member into a main member: what it reaches, its tip (a
-- lag's does not count), least penetration 6D (lags 4D), full value from 10D (8D).
-- @param f {kind =, D =, D_r =, F_yb =, L =, E =}
-- @param t {G =, t_m =, theta_m =, t_s =, theta_s =, G_s = or F_es =, double =}
-- @return Z, or nil where it is too short
function dowels.Z(f, t)
  local y = {D = f.D, D_r = f.D_r, F_yb = f.F_yb, G = t.G, theta_m = t.theta_m,
    theta_s = t.theta_s or 0, G_s = t.G_s, F_es = t.F_es, l_s = t.t_s, double = t.double}
  if f.kind == "bolt" then
    y.l_m = t.t_m
    return dowels.yield(y)
  end
  local lag = f.kind == "lag screw"
  local p = min(f.L - t.t_s - (lag and f.E or 0), t.t_m or 1e9)
  local least, full = (lag and 4 or 6) * f.D, (lag and 8 or 10) * f.D
  if p < least - 1e-9 then return nil end
  y.l_m = max(p, full)
  return dowels.yield(y) * min(1, p / full)
end

-- F_es of steel: 1.375 F_u under 1/4 in, 1.5 F_u from there (Appendix I).
function dowels.steel_Fe(F_u, t) return (t < 0.25 and 1.375 or 1.5) * F_u end

----------------------------------------------------------------------------------- group

-- 11.3-1; 1 for one fastener and for D < 1/4 in.
function dowels.Cg(D, n, s, EA_m, EA_s, steel)
  if n < 2 or D < 0.25 then return 1 end
  local gamma = (steel and 270000 or 180000) * D ^ 1.5
  local R = min(EA_m, EA_s) / max(EA_m, EA_s)
  local u = 1 + gamma * s / 2 * (1 / EA_m + 1 / EA_s)
  local m = u - sqrt(u * u - 1)
  if m > 1 - 1e-7 then return 1 end
  return min(1, m * (1 - m ^ (2 * n)) / (n * ((1 + R * m ^ n) * (1 + m) - 1
    + m ^ (2 * n))) * (1 + R) / (1 - m))
end

-- Load-slip modulus of one fastener in one plane, lb/in: 11.3.6's from 1/4 in up; below
-- EN 1995-1-1 Table 7.1, density at 12 % moisture from G (Supplement 3.1.3), twice that
-- beside steel.
function dowels.slip(f, G_m, G_s, steel)
  if f.D >= 0.25 then return (steel and 270000 or 180000) * f.D ^ 1.5 end
  local function rho(G) return 1000 * G / (1 + 0.009 * G * 12) * 1.12 end
  local r = sqrt(rho(G_m) * rho(steel and G_m or G_s))
  local d = 25.4 * f.D
  local K = f.kind == "nail" and r ^ 1.5 * d ^ 0.8 / 30 or r ^ 1.5 * d / 23
  return (steel and 2 or 1) * K * 25.4 / 4.4482216152605
end

------------------------------------------------------------------------------- distances

-- Least and full distances for D >= 1/4 in as multiples of D (Tables 12.5.1A to D).
dowels.large = {across_end = {2, 4}, tension_end = {3.5, 7}, loaded_edge = 4, edge = 1.5,
  pitch = 3, full_pitch = 4, row_along = 1.5}

-- Rows of fasteners that load a member across its grain (Table 12.5.1D), l of the
-- thinner.
function dowels.row_across(D, l)
  local r = l / D
  return r <= 2 and 2.5 * D or r >= 6 and 5 * D or (5 * l + 10 * D) / 8
end

----------------------------------------------------------------------------- withdrawal

-- 12.2, lb per inch.
function dowels.W(f, G)
  if f.kind == "lag screw" then return 1800 * G ^ 1.5 * f.D ^ 0.75 end
  return f.kind == "wood screw" and 2850 * G ^ 2 * f.D or 1380 * G ^ 2.5 * f.D
end

-------------------------------------------------------------------------------- tear-out

-- Appendix E: rows, the group, net tension of the wood.
-- @param t {n = in a row, rows =, s =, g = between rows, e =, t = of the wood, w = its
--   width, D_h = of the hole, Fv =, Ft =}
function dowels.tear_out(t)
  local crit = t.n > 1 and min(t.e, t.s) or t.e
  local row = t.n * t.Fv * t.t * crit
  local between = max(0, (t.rows - 1) * (t.g - t.D_h)) * t.t
  local net = max(0, t.w - t.rows * t.D_h) * t.t
  return min(t.rows * row, row + t.Ft * between, t.Ft * net)
end

----------------------------------------------------------------------------------- steel

-- A strap at its fasteners, ASD: plate by AISC 360 D2, J3.10, J4.3, sheet by AISI S100
-- with the factor 3.0 of screws.
-- @param t {F_y =, F_u =, sheet =, w =, t =, n =, rows =, s =, g =, e =, D =, D_h =}
function dowels.strap(t)
  local hole = t.sheet and t.D_h or t.D_h + 1 / 16
  local omega = t.sheet and 3 or 2
  local gross = t.w * t.t
  local net = (t.w - t.rows * hole) * t.t
  if not t.sheet then net = min(net, 0.85 * gross) end
  local clear_e, clear_s = max(0, t.e - t.D_h / 2), max(0, t.s - t.D_h)
  local function held(clear)
    if t.sheet then return 2.7 * t.t * t.D * t.F_u end
    return min(1.2 * clear * t.t * t.F_u, 2.4 * t.D * t.t * t.F_u)
  end
  local bearing = t.rows * (held(clear_e) + (t.n - 1) * held(clear_s)) / omega
  local run = t.e + (t.n - 1) * t.s
  local block = (min(0.6 * t.F_u * max(0, 2 * (run - (t.n - 0.5) * hole)) * t.t,
    0.6 * t.F_y * 2 * run * t.t) + t.F_u * max(0, (t.rows - 1) * ((t.g or 0) - hole))
    * t.t) / omega
  local least = min(t.F_y * gross / 1.67, t.F_u * max(0, net) / omega, bearing, block)
  if t.sheet then
    least = min(least, 0.6 * t.F_u * 2 * t.t * t.rows * (clear_e + (t.n - 1) * clear_s)
      / omega)
  end
  return least
end

-- A plate on its edge: lateral buckling between what holds it (AISC 360 F11) and of its
-- free edge (F9.4), as a stress on S (both from memory).
function dowels.plate_stress(F_y, E, t, d, l_b, C_m)
  local q, F = l_b * d / t ^ 2, F_y
  if q > 1.9 * E / F_y then
    F = min(F_y, 1.9 * E * C_m / q)
  elseif q > 0.08 * E / F_y then
    F = min(F_y, C_m * (1.52 - 0.274 * q * F_y / E) * F_y)
  end
  local r, root = d / t, sqrt(E / F_y)
  if r > 1.52 * root then
    F = min(F, 1.52 * E / r ^ 2)
  elseif r > 0.84 * root then
    F = min(F, (1.43 - 0.515 * r / root) * F_y)
  end
  return F
end

return dowels
