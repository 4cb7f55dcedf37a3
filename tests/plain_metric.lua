-- SPDX-License-Identifier: MIT
-- What each common mistake of the metric kinds comes to, in plain Lua from its
-- description, as plain_mistakes.lua has it for the others. Clauses of EN 1995-1-1.
local plain = {}

plain.tributary_load = {
  ["both bays taken whole"] = {t = function(s) return 2 * s.t end,
    g_k = function(s) return 2 * s.g_k end, q_k = function(s) return 2 * s.q_k end,
    p_d = function(s) return 2 * s.p_d end, A_t = function(s) return 2 * s.A_t end,
    R_d = function(s) return 2 * s.R_d end, M_d = function(s) return 2 * s.M_d end},
  ["spacing of one side only"] = {t = function(s) return s.s_1 / 1000 end,
    g_k = function(s) return s.g_k * s.s_1 / 1000 / s.t end,
    q_k = function(s) return s.Q * s.s_1 / 1000 end,
    p_d = function(s) return s.p_d * s.s_1 / 1000 / s.t end},
  ["only the floor covering taken as permanent load"] = {
    g_k = function(s) return s.G_1 * s.t end,
    p_d = function(s) return (1.35 * s.G_1 + 1.5 * s.Q) * s.t end},
  ["loads without factors"] = {
    p_d = function(s) return (s.G_1 + s.G_2 + s.G_3 + s.Q) * s.t end,
    R_d = function(s) return (s.G_1 + s.G_2 + s.G_3 + s.Q) * s.t * s.L / 2 end,
    M_d = function(s) return (s.G_1 + s.G_2 + s.G_3 + s.Q) * s.t * s.L ^ 2 / 8 end},
  ["the reaction not halved"] = {R_d = function(s) return s.p_d * s.L end},
}

plain.reactions = {
  ["the floor load not halved"] = {R_w = function(s) return s.w * s.L end},
  ["the post's two reactions exchanged"] = {
    R_PB = function(s) return s.P * (1 - s.a / s.L) end,
    R_PA = function(s) return s.P * s.a / s.L end,
    R_A = function(s) return s.w * s.L / 2 + s.P * s.a / s.L end,
    R_B = function(s) return s.w * s.L / 2 + s.P * (1 - s.a / s.L) end},
  ["the post shared half and half"] = {
    R_PB = function(s) return s.P / 2 end, R_PA = function(s) return s.P / 2 end,
    R_A = function(s) return (s.w * s.L + s.P) / 2 end,
    R_B = function(s) return (s.w * s.L + s.P) / 2 end},
  ["the floor load left of the post forgotten"] = {
    M_P = function(s) return s.R_A * s.a end},
}

local DURATIONS = {[0.6] = 0.5, [0.7] = 0.55, [0.8] = 0.65, [0.9] = 0.7, [1.1] = 0.9}

-- k_mod of class 3 for that of class 1 and 2, and the other way round; 0.7 and 0.9 stand
-- in both rows and are told apart by the duration.
local function other_class(s)
  if s.outdoors then
    for indoors, outdoors in pairs(DURATIONS) do
      if outdoors == s.k_mod then return indoors end
    end
  end
  return DURATIONS[s.k_mod]
end

plain.adjusted_values = {
  ["gamma_M left out"] = {f_md = function(s) return 1.3 * s.f_md end,
    f_vd = function(s) return 1.3 * s.f_vd end,
    f_c90d = function(s) return 1.3 * s.f_c90d end},
  ["k_mod of another service class"] = {k_mod = other_class,
    f_md = function(s) return s.f_md * other_class(s) / s.k_mod end,
    f_vd = function(s) return s.f_vd * other_class(s) / s.k_mod end},
  ["k_mod taken as 1"] = {k_mod = function() return 1 end,
    f_md = function(s) return s.f_md / s.k_mod end,
    f_vd = function(s) return s.f_vd / s.k_mod end},
  ["the depth factor left out"] = {f_md = function(s) return s.f_md / s.k_h end},
  ["the depth factor on shear"] = {f_vd = function(s) return s.f_vd * s.k_h end},
  ["the system factor left out"] = {f_md = function(s) return s.f_md / s.k_sys end,
    f_vd = function(s) return s.f_vd / s.k_sys end},
}

local function unfactored(s) return (s.G + s.Q) * s.s / 1000 end

plain.joist_strength = {
  ["loads without factors"] = {p_d = unfactored,
    M_d = function(s) return unfactored(s) * s.L ^ 2 / 8 end,
    V_d = function(s) return unfactored(s) * s.L / 2 end,
    u_m = function(s) return s.u_m * unfactored(s) / s.p_d end},
  ["the moment w L^2/2"] = {M_d = function(s) return 4 * s.M_d end,
    sigma_md = function(s) return 4 * s.sigma_md end},
  ["the second moment for W"] = {W = function(s) return s.b * s.h ^ 3 / 12 end,
    sigma_md = function(s) return 12e6 * s.M_d / (s.b * s.h ^ 3) end},
  ["k_mod left out"] = {f_md = function(s) return s.f_md / 0.8 end,
    u_m = function(s) return 0.8 * s.u_m end},
  ["gamma_M left out"] = {f_md = function(s) return 1.3 * s.f_md end,
    u_m = function(s) return s.u_m / 1.3 end},
  ["cracks left out"] = {tau_d = function(s) return 0.67 * s.tau_d end,
    u_v = function(s) return 0.67 * s.u_v end},
  ["the mean shear stress"] = {tau_d = function(s) return s.tau_d / 1.5 end,
    u_v = function(s) return s.u_v / 1.5 end},
}

-- Eq. 6.62 without the term of the distance.
local function no_distance(s)
  local k = 5 / s.h ^ 0.5 / (s.alpha * (1 - s.alpha)) ^ 0.5
  return k < 1 and k or 1
end

plain.end_notch = {
  ["loads without factors"] = {p_d = unfactored,
    V_d = function(s) return unfactored(s) * s.L / 2 end,
    ratio = function(s) return s.ratio * unfactored(s) / s.p_d end},
  ["the reaction not halved"] = {V_d = function(s) return s.p_d * s.L end,
    ratio = function(s) return 2 * s.ratio end},
  ["the part that was cut"] = {alpha = function(s) return 1 - s.alpha end},
  ["no notch factor"] = {k_v = function() return 1 end,
    ratio = function(s) return s.ratio * s.k_v end},
  ["the distance to the corner left out"] = {k_v = no_distance,
    ratio = function(s) return s.ratio * s.k_v / no_distance(s) end},
  ["the whole depth"] = {tau_d = function(s) return s.tau_d * s.alpha end,
    ratio = function(s) return s.ratio * s.alpha end},
  ["cracks left out"] = {tau_d = function(s) return 0.67 * s.tau_d end,
    ratio = function(s) return 0.67 * s.ratio end},
}

local function stress(M, b, h) return 6e6 * M / (b * h ^ 2) end

-- I of the whole less that of the hole about the old axis.
local function old_axis(s)
  return s.b * s.h ^ 3 / 12 - s.b * s.D ^ 3 / 12
    - s.b * s.D * (s.h / 2 - s.y_1 - s.D / 2) ^ 2
end

plain.off_centre_hole = {
  ["the whole section"] = {sigma_b = function(s) return stress(s.M, s.b, s.h) end,
    sigma_t = function(s) return stress(s.M, s.b, s.h) end},
  ["about the old axis"] = {I = old_axis,
    sigma_b = function(s) return 1e6 * s.M * s.h / 2 / old_axis(s) end,
    sigma_t = function(s) return 1e6 * s.M * s.h / 2 / old_axis(s) end},
  ["the hole taken as if on the axis"] = {
    I = function(s) return s.b * (s.h ^ 3 - s.D ^ 3) / 12 end},
  ["the two parts each about its own axis"] = {
    I = function(s) return s.b * (s.y_1 ^ 3 + s.y_2 ^ 3) / 12 end},
  ["the two edges exchanged"] = {sigma_b = function(s) return s.sigma_t end,
    sigma_t = function(s) return s.sigma_b end},
}

local CREEP = {[0.6] = 0.8, [0.8] = 2.0, [2.0] = 0.6}

plain.final_deflection = {
  ["creep of all imposed load"] = {
    w_fin = function(s) return s.w_inst * (1 + s.k_def) end,
    ratio = function(s) return s.w_inst * (1 + s.k_def) / (4 * s.L) end},
  ["no creep"] = {w_fin = function(s) return s.w_inst end,
    ratio = function(s) return s.w_inst / (4 * s.L) end},
  ["no creep of imposed load"] = {
    w_fin = function(s) return s.w_inst + s.k_def * s.w_G end,
    ratio = function(s) return (s.w_inst + s.k_def * s.w_G) / (4 * s.L) end},
  ["factored load"] = {w_G = function(s) return 1.35 * s.w_G end,
    w_inst = function(s) return 1.35 * s.w_G + s.w_Q end},
  ["the section modulus for I"] = {I = function(s) return s.b * s.h ^ 2 / 6 end,
    w_G = function(s) return s.w_G * s.h / 2 end},
  ["k_def of another service class"] = {k_def = function(s) return CREEP[s.k_def] end},
}

return plain
