-- SPDX-License-Identifier: MIT
-- What each common mistake of the kinds by load and resistance factors comes to, in plain
-- Lua from its description, as plain_mistakes.lua has it for the others.
local nominal = math.ceil

local plain = {}

local function service(s) return (s.D + s.L_L) * s.s / 12 end

plain.adjusted_values = {
  ["the time effect factor of short loads"] = {lambda = function() return 1 end,
    F_b_ = function(s) return s.F_b_ / s.lambda end,
    F_v_ = function(s) return s.F_v_ / s.lambda end},
  ["format conversion left out"] = {
    F_b_ = function(s) return s.F_b_ / (2.54 * 0.85) end,
    F_v_ = function(s) return s.F_v_ / (2.88 * 0.75) end},
  ["0.85 for wet service whatever the value"] = {
    C_M = function(s) return s.C_Mv == 1 and 1 or 0.85 end,
    F_b_ = function(s) return s.F_b_ / s.C_M * (s.C_Mv == 1 and 1 or 0.85) end},
  ["the repetitive factor left out"] = {F_b_ = function(s) return s.F_b_ / s.C_r end},
  ["the size factor on shear"] = {F_v_ = function(s) return s.F_v_ * s.C_F end},
  ["the time effect factor on the modulus"] = {
    E_min_ = function(s) return s.E_min_ * s.lambda end},
}

plain.allowable_span = {
  ["loads without factors"] = {w_u = service,
    L_b = function(s) return s.L_b * (s.w_u / service(s)) ^ 0.5 end},
  ["the time effect factor left out"] = {
    F_b_ = function(s) return s.F_b_ / 0.8 end,
    L_b = function(s) return s.L_b / 0.8 ^ 0.5 end},
  ["the value of allowable stress design"] = {
    F_b_ = function(s) return s.F_b_ / (2.54 * 0.85 * 0.8) end,
    L_b = function(s) return s.L_b / (2.54 * 0.85 * 0.8) ^ 0.5 end},
  ["factored load in deflection"] = {
    L_v = function(s) return s.L_v / 1.6 ^ (1 / 3) end,
    L_t = function(s) return s.L_t * (service(s) / s.w_u) ^ (1 / 3) end},
  ["all load with L/360"] = {
    L_v = function(s) return s.L_v * (s.w_L / s.w) ^ (1 / 3) end},
  ["the largest of the three"] = {
    L_a = function(s) return math.floor(12 * math.max(s.L_b, s.L_v, s.L_t) + 1e-6) end},
}

plain.end_notch = {
  ["loads without factors"] = {w_u = service,
    R_u = function(s) return service(s) * s.L / 2 end,
    ratio = function(s) return s.ratio * service(s) / s.w_u end},
  ["the time effect factor left out"] = {F_v_ = function(s) return s.F_v_ / 0.8 end,
    V_ = function(s) return s.V_ / 0.8 end,
    ratio = function(s) return 0.8 * s.ratio end},
  ["the value of allowable stress design"] = {F_v_ = function(s) return s.F_v end,
    V_ = function(s) return s.V_ / (2.88 * 0.75 * 0.8) end},
  ["the whole depth, no notch factor"] = {
    V_ = function(s) return s.F_v_ * s.b * s.d / 1.5 end},
  ["the depth left, no notch factor"] = {
    V_ = function(s) return s.F_v_ * s.b * (s.d - s.n) / 1.5 end},
  ["the factor not squared"] = {
    V_ = function(s) return s.F_v_ * s.b * (s.d - s.n) ^ 2 / s.d / 1.5 end},
  ["a fourth of the nominal depth"] = {
    limit = function(s) return nominal(s.d) / 4 end,
    n_most = function(s) return math.min(s.n_v, nominal(s.d) / 4) end},
  ["the larger of the two"] = {n_most = function(s) return math.max(s.n_v, s.d / 4) end},
}

local function half_span(s) return s.w_u * s.L ^ 2 / 8 end

local function stress(M, b, d) return 12 * M * 6 / (b * d ^ 2) end

plain.outer_third_notch = {
  ["loads without factors"] = {w_u = service,
    M_u = function(s) return s.M_u * service(s) / s.w_u end,
    f_b = function(s) return s.f_b * service(s) / s.w_u end,
    ratio = function(s) return s.ratio * service(s) / s.w_u end},
  ["the time effect factor left out"] = {F_b_ = function(s) return s.F_b_ / 0.8 end,
    ratio = function(s) return 0.8 * s.ratio end},
  ["the value of allowable stress design"] = {F_b_ = function(s) return s.F_b end,
    ratio = function(s) return s.f_b / s.F_b end},
  ["a sixth of the nominal depth"] = {n_max = function(s) return nominal(s.d) / 6 end},
  ["the moment of mid-span"] = {M_u = half_span,
    f_b = function(s) return stress(half_span(s), s.b, s.d - s.n) end,
    ratio = function(s) return stress(half_span(s), s.b, s.d - s.n) / s.F_b_ end},
  ["the whole section"] = {S = function(s) return s.b * s.d ^ 2 / 6 end,
    f_b = function(s) return stress(s.M_u, s.b, s.d) end,
    ratio = function(s) return stress(s.M_u, s.b, s.d) / s.F_b_ end},
}

local function live_part(s, w) return w * (s.L - s.x) ^ 2 / 2 / s.L end

local function unfactored(s)
  return s.D * s.s / 12 * (s.L / 2 - s.x) + live_part(s, s.L_L * s.s / 12)
end

local function shorter(s) return 1.6 * s.L_L * s.s / 12 * s.x ^ 2 / 2 / s.L end

plain.patch_hole = {
  ["loads without factors"] = {w_D = function(s) return s.D * s.s / 12 end,
    w_L = function(s) return s.L_L * s.s / 12 end,
    V_0 = function(s) return service(s) * (s.L / 2 - s.x) end, V_u = unfactored,
    ratio = function(s) return unfactored(s) / s.V_ end},
  ["the time effect factor left out"] = {F_v_ = function(s) return s.F_v_ / 0.8 end,
    V_ = function(s) return s.V_ / 0.8 end},
  ["the value of allowable stress design"] = {F_v_ = function(s) return s.F_v end,
    V_ = function(s) return s.F_v * s.A / 1.5 end},
  ["the live load on the whole span"] = {V_u = function(s) return s.V_0 end,
    ratio = function(s) return s.V_0 / s.V_ end},
  ["the live load on the shorter part"] = {V_L = shorter,
    V_u = function(s) return s.V_u - s.V_L + shorter(s) end,
    ratio = function(s) return (s.V_u - s.V_L + shorter(s)) / s.V_ end},
  ["the whole load of the longer part"] = {
    V_L = function(s) return s.w_L * (s.L - s.x) end,
    V_u = function(s) return s.V_u - s.V_L + s.w_L * (s.L - s.x) end},
  ["the whole area"] = {A = function(s) return s.b * s.d end,
    V_ = function(s) return s.F_v_ * s.b * s.d / 1.5 end,
    ratio = function(s) return 1.5 * s.V_u / (s.F_v_ * s.b * s.d) end},
}

-- C_P for a critical value, NDS 3.7.1.5 with c = 0.8.
local function stability(critical, F)
  local r = critical / F
  return (1 + r) / 1.6 - (((1 + r) / 1.6) ^ 2 - r / 0.8) ^ 0.5
end

plain.column = {
  ["loads without factors"] = {P_u = function(s) return s.P_D + s.P_L end,
    ratio = function(s) return (s.P_D + s.P_L) / s.P_ end},
  ["the reference modulus"] = {
    F_cE = function(s) return s.F_cE / (1.76 * 0.85) end,
    C_P = function(s) return stability(s.F_cE / (1.76 * 0.85), s.F_cs) end},
  ["the value of allowable stress design"] = {
    F_cs = function(s) return s.F_c * s.C_F end,
    C_P = function(s) return stability(s.F_cE, s.F_c * s.C_F) end},
  ["no buckling"] = {C_P = function() return 1 end, F_c_ = function(s) return s.F_cs end,
    P_ = function(s) return s.F_cs * s.d_1 * s.d_2 end,
    ratio = function(s) return s.P_u / (s.F_cs * s.d_1 * s.d_2) end},
  ["height in feet"] = {F_cE = function(s) return 144 * s.F_cE end,
    C_P = function(s) return stability(144 * s.F_cE, s.F_cs) end},
  ["Euler's load"] = {P_ = function(s) return s.F_cE * s.d_1 * s.d_2 end,
    ratio = function(s) return s.P_u / (s.F_cE * s.d_1 * s.d_2) end},
}

return plain
