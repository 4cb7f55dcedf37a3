-- SPDX-License-Identifier: MIT
-- What each common mistake of the homework kinds comes to, written once more in plain Lua
-- from its description: from what is given and the right numbers of the steps before it.
-- Names of symbols have _ for a closing prime. Statics and formulas of NDS 2018 as in a
-- textbook.
local nominal = math.ceil

local plain = {}

local function half_span_moment(s) return s.w * s.L ^ 2 / 8 end

plain.tributary_load = {
  ["both bays taken whole"] = {
    t = function(s) return (s.s_1 + s.s_2) / 12 end,
    w_D = function(s) return 2 * s.w_D end,
    w_L = function(s) return 2 * s.w_L end, w = function(s) return 2 * s.w end,
    A_t = function(s) return 2 * s.A_t end, W = function(s) return 2 * s.W end,
    R = function(s) return 2 * s.R end},
  ["spacing of one side only"] = {
    t = function(s) return s.s_1 / 12 end,
    w_D = function(s) return (s.D_1 + s.D_2 + s.D_3) * s.s_1 / 12 end,
    w_L = function(s) return s.L_L * s.s_1 / 12 end,
    w = function(s) return (s.D_1 + s.D_2 + s.D_3 + s.L_L) * s.s_1 / 12 end},
  ["only the floor covering taken as dead load"] = {
    w_D = function(s) return s.D_1 * s.t end,
    w = function(s) return (s.D_1 + s.L_L) * s.t end,
    W = function(s) return (s.D_1 + s.L_L) * s.t * s.L end},
  ["the reaction not halved"] = {R = function(s) return s.w * s.L end},
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
  ["the whole floor load at each bearing"] = {
    R_A = function(s) return s.w * s.L + s.P * (s.L - s.a) / s.L end,
    R_B = function(s) return s.w * s.L + s.P * s.a / s.L end},
}

plain.moment_shear = {
  ["the post's two reactions exchanged"] = {
    R_A = function(s) return s.w * s.L / 2 + s.P * s.a / s.L end,
    R_B = function(s) return s.w * s.L / 2 + s.P * (s.L - s.a) / s.L end},
  ["the post added to the shear"] = {
    V_r = function(s) return s.R_A - s.w * s.a + s.P end},
  ["the floor load left of the post forgotten"] = {
    M_a = function(s) return s.R_A * s.a end},
  ["the post put at mid-span"] = {
    M = function(s) return s.L * (s.w * s.L / 8 + s.P / 4) end},
  ["the post left out"] = {M = half_span_moment},
}

plain.adjusted_values = {
  ["load duration left out"] = {F_b_ = function(s) return s.F_b_ / s.C_D end},
  ["0.85 for wet service whatever the value"] = {
    C_M = function(s) return s.C_Mv == 1 and 1 or 0.85 end,
    F_b_ = function(s) return s.F_b_ / s.C_M * (s.C_Mv == 1 and 1 or 0.85) end},
  ["the repetitive factor left out"] = {F_b_ = function(s) return s.F_b_ / s.C_r end},
  ["the size factor left out"] = {F_b_ = function(s) return s.F_b_ / s.C_F end},
  ["the repetitive factor on shear"] = {F_v_ = function(s) return s.F_v_ * s.C_r end},
  ["the size factor on shear"] = {F_v_ = function(s) return s.F_v_ * s.C_F end},
  ["load duration on the modulus"] = {E_ = function(s) return s.E_ * s.C_D end},
}

plain.allowable_span = {
  ["the repetitive factor left out"] = {
    F_b_ = function(s) return s.F_b * s.C_F end,
    L_b = function(s) return s.L_b / s.C_r ^ 0.5 end},
  ["all load with L/360"] = {
    L_v = function(s) return s.L_v * (s.w_L / s.w) ^ (1 / 3) end},
  ["the limit of live load on the total"] = {
    L_t = function(s) return s.L_t * (240 / 360) ^ (1 / 3) end},
  ["inches and feet mixed"] = {L_b = function(s) return s.L_b * 12 ^ 0.5 end},
  ["nominal sizes"] = {
    S = function(s) return nominal(s.d) ^ 2 / 3 end,
    L_b = function(s)
      return s.L_b * (2 * nominal(s.d) ^ 2 / (s.b * s.d ^ 2)) ^ 0.5
    end,
    I = function(s) return nominal(s.d) ^ 3 / 6 end,
    L_v = function(s)
      return s.L_v * (2 * nominal(s.d) ^ 3 / (s.b * s.d ^ 3)) ^ (1 / 3)
    end,
    L_t = function(s)
      return s.L_t * (2 * nominal(s.d) ^ 3 / (s.b * s.d ^ 3)) ^ (1 / 3)
    end},
  ["the largest of the three"] = {
    L_a = function(s) return math.floor(12 * math.max(s.L_b, s.L_v, s.L_t) + 1e-6) end},
}

plain.rule_check = {
  ["a fourth of the nominal depth"] = {n_emax = function(s) return nominal(s.d) / 4 end},
  ["a sixth of the nominal depth"] = {n_max = function(s) return nominal(s.d) / 6 end},
  ["a third of the nominal depth"] = {D_max = function(s) return nominal(s.d) / 3 end},
  ["the limit of end notches"] = {n_max = function(s) return s.d / 4 end},
}

plain.end_notch = {
  ["the whole depth, no notch factor"] = {
    V_ = function(s) return s.F_v_ * s.b * s.d / 1.5 end},
  ["the depth left, no notch factor"] = {
    V_ = function(s) return s.F_v_ * s.b * (s.d - s.n) / 1.5 end},
  ["the factor not squared"] = {
    V_ = function(s) return s.F_v_ * s.b * (s.d - s.n) ^ 2 / s.d / 1.5 end},
  ["the reaction not halved"] = {
    R = function(s) return s.w * s.L end, ratio = function(s) return 2 * s.ratio end},
  ["a fourth of the nominal depth"] = {
    limit = function(s) return nominal(s.d) / 4 end,
    n_most = function(s) return math.min(s.n_v, nominal(s.d) / 4) end},
  ["the limit of notches in the span"] = {limit = function(s) return s.d / 6 end},
  ["the larger of the two"] = {n_most = function(s) return math.max(s.n_v, s.d / 4) end},
}

local function stress(M, b, d) return 12 * M * 6 / (b * d ^ 2) end

plain.outer_third_notch = {
  ["a sixth of the nominal depth"] = {n_max = function(s) return nominal(s.d) / 6 end},
  ["the limit of end notches"] = {n_max = function(s) return s.d / 4 end},
  ["the moment of mid-span"] = {M = half_span_moment,
    f_b = function(s) return stress(half_span_moment(s), s.b, s.d - s.n) end,
    ratio = function(s) return stress(half_span_moment(s), s.b, s.d - s.n) / s.F_b_ end},
  ["the whole section"] = {S = function(s) return s.b * s.d ^ 2 / 6 end,
    f_b = function(s) return stress(s.M, s.b, s.d) end,
    ratio = function(s) return stress(s.M, s.b, s.d) / s.F_b_ end},
  ["the notch subtracted from I as if on the axis"] = {
    S = function(s) return s.b * (s.d ^ 3 - s.n ^ 3) / 12 / (s.d / 2) end,
    f_b = function(s) return 12 * s.M * s.d / 2 * 12 / (s.b * (s.d ^ 3 - s.n ^ 3)) end,
    ratio = function(s)
      return 12 * s.M * s.d / 2 * 12 / (s.b * (s.d ^ 3 - s.n ^ 3)) / s.F_b_
    end},
}

-- I of the whole less that of the hole about the old axis.
local function old_axis(s)
  return s.b * s.d ^ 3 / 12 - s.b * s.D ^ 3 / 12
    - s.b * s.D * (s.d / 2 - s.y_1 - s.D / 2) ^ 2
end

plain.off_centre_hole = {
  ["the whole section"] = {f_b = function(s) return stress(s.M, s.b, s.d) end,
    f_t = function(s) return stress(s.M, s.b, s.d) end},
  ["about the old axis"] = {I = old_axis,
    f_b = function(s) return 12 * s.M * s.d / 2 / old_axis(s) end,
    f_t = function(s) return 12 * s.M * s.d / 2 / old_axis(s) end},
  ["the hole taken as if on the axis"] = {
    I = function(s) return s.b * (s.d ^ 3 - s.D ^ 3) / 12 end},
  ["the two parts each about its own axis"] = {
    I = function(s) return s.b * (s.y_1 ^ 3 + s.y_2 ^ 3) / 12 end},
  ["the two edges exchanged"] = {f_b = function(s) return s.f_t end,
    f_t = function(s) return s.f_b end},
}

plain.patch_hole = {
  ["the live load on the whole span"] = {V = function(s) return s.V_0 end,
    ratio = function(s) return s.V_0 / s.V_ end},
  ["the live load on the shorter part"] = {
    V_L = function(s) return s.w_L * s.x / 2 * s.x / s.L end,
    V = function(s) return s.w_D * (s.L / 2 - s.x) + s.w_L * s.x ^ 2 / 2 / s.L end,
    ratio = function(s)
      return (s.w_D * (s.L / 2 - s.x) + s.w_L * s.x ^ 2 / 2 / s.L) / s.V_
    end},
  ["the whole load of the longer part"] = {
    V_L = function(s) return s.w_L * (s.L - s.x) end,
    V = function(s) return s.w_D * (s.L / 2 - s.x) + s.w_L * (s.L - s.x) end},
  ["the shear of the bearing"] = {
    V_0 = function(s) return (s.w_D + s.w_L) * s.L / 2 end,
    V = function(s) return (s.w_D + s.w_L) * s.L / 2 end},
  ["the whole area"] = {A = function(s) return s.b * s.d end,
    V_ = function(s) return s.F_v_ * s.b * s.d / 1.5 end,
    ratio = function(s) return s.V / (s.F_v_ * s.b * s.d / 1.5) end},
}

plain.cut_deflection = {
  ["the slot ignored"] = {D = function(s) return s.D_1 end,
    ratio = function(s) return s.D_1 / (s.L / 30) end},
  ["the slot's I along the whole joist"] = {
    D = function(s) return s.D_1 / (1 - (s.h / s.d) ^ 3) end},
  ["what is left as one rectangle"] = {
    I_n = function(s) return s.b * (s.d - s.h) ^ 3 / 12 end},
  ["the two parts each about its own axis"] = {
    I_n = function(s) return s.b * (s.d - s.h) ^ 3 / 48 end},
  ["the whole stretch counted again"] = {
    D_2 = function(s) return s.D_2 / (1 - s.I_n / s.I) end},
  ["m taken as x"] = {D_2 = function(s) return 2 * s.D_2 end},
}

plain.tub = {
  ["the tub taken empty"] = {W = function(s) return s.W_e end,
    q = function(s) return s.W_e / (s.l * s.c / 12) end,
    w_t = function(s) return (s.W_e / (s.l * s.c / 12) - s.L_L) * s.s / 12 end},
  ["all of the tub on one joist"] = {
    w_t = function(s) return (s.q - s.L_L) * s.c / 12 end},
  ["the floor's live load under the tub as well"] = {
    w_t = function(s) return s.q * s.s / 12 end,
    R_A = function(s)
      return s.w * s.L / 2 + s.q * s.s / 12 * s.l * (s.L - s.x_1 - s.l / 2) / s.L
    end,
    M = function(s)
      local q = s.q * s.s / 12
      local R = s.w * s.L / 2 + q * s.l * (s.L - s.x_1 - s.l / 2) / s.L
      local x = (R + q * s.x_1) / (s.w + q)
      return R * x - s.w * x ^ 2 / 2 - q * (x - s.x_1) ^ 2 / 2
    end},
  ["the tub shared half and half"] = {
    R_A = function(s) return (s.w * s.L + s.w_t * s.l) / 2 end,
    R_B = function(s) return (s.w * s.L + s.w_t * s.l) / 2 end},
  ["the tub along the whole joist"] = {
    M = function(s) return (s.w + s.w_t) * s.L ^ 2 / 8 end},
  ["the floor alone"] = {M = half_span_moment},
  ["the tub counted from the bearing"] = {
    M = function(s) return s.R_A * s.x_0 - (s.w + s.w_t) * s.x_0 ^ 2 / 2 end},
}

-- Moments and stresses of both members with another share of the old joist.
local function shared(share)
  return {f = share, M_1 = function(s) return share(s) * s.M end,
    M_2 = function(s) return (1 - share(s)) * s.M end,
    f_1 = function(s) return stress(share(s) * s.M, s.b_1, s.d_1) end,
    f_2 = function(s) return stress((1 - share(s)) * s.M, s.b_2, s.d_2) end}
end

plain.sister_share = {
  ["shared by area"] = shared(function(s)
    return s.b_1 * s.d_1 / (s.b_1 * s.d_1 + s.b_2 * s.d_2)
  end),
  ["shared by I alone"] = shared(function(s) return s.I_1 / (s.I_1 + s.I_2) end),
  ["shared half and half"] = shared(function() return 0.5 end),
  ["the dead load shared although nothing was lifted"] = {
    u_1 = function(s) return s.f_1 end, u_2 = function(s) return s.f_2 end},
  ["the prop taken to leave no dead load"] = {
    p_1 = function(s) return stress(s.f * s.w_L * s.L ^ 2 / 8, s.b_1, s.d_1) end},
  ["the old joist alone"] = {
    D_L = function(s)
      return s.D_L * (s.E_1 * s.I_1 + s.E_2 * s.I_2) / (s.E_1 * s.I_1)
    end},
  ["plf with inches"] = {D_L = function(s) return 12 * s.D_L end},
}

plain.severed_couple = {
  ["the arm taken over the whole lap, from the end of the sister to the gap"] = {
    F_o = function(s) return 12 * s.M / (s.a + 6 + 4) end,
    F_i = function(s) return 12 * s.M / (s.a + 6 + 4) - s.V end,
    n_o = function(s) return math.ceil(12 * s.M / (s.a + 10) / 300 - 1e-9) end},
  ["foot-pounds over inches"] = {F_o = function(s) return s.M / s.a end,
    F_i = function(s) return s.M / s.a - s.V end},
  ["the shear with the wrong sign"] = {F_i = function(s) return s.F_o + s.V end},
  ["both groups alike"] = {F_i = function(s) return s.F_o end},
  ["the count rounded down"] = {
    n_o = function(s) return math.floor(s.F_o / 300 + 1e-9) end},
  ["the moment of the inner group"] = {M_o = function(s) return s.M end},
  ["the full depth as arm"] = {T = function(s) return 12 * s.M / s.d end},
  ["the arm of a whole elastic section"] = {
    T = function(s) return 12 * s.M / (2 * s.d / 3) end},
}

local function three_joists(change)
  return {
    R_2 = function(s) return change(s) * s.P end,
    R_1 = function(s) return (1 - change(s)) * s.P / 2 end,
    M_2 = function(s) return change(s) * s.P * s.L / 4 end,
    w_2 = function(s) return change(s) * s.P / s.k end, q_2 = change}
end

-- Share of the middle joist with the row's stiffness multiplied.
local function share_of(times)
  return function(s)
    local r = times * s.k_f / s.k
    return (2 + r) / (2 + 3 * r)
  end
end

plain.point_load_share = {
  ["nothing shared"] = three_joists(function() return 1 end),
  ["a third to each"] = three_joists(function() return 1 / 3 end),
  ["one bay taken as the span of the row"] = {
    k_f = function(s) return 8 * s.k_f end, q_2 = share_of(8)},
  ["one arm of the row alone"] = {k_f = function(s) return s.k_f / 2 end,
    q_2 = share_of(0.5)},
  ["the joists beside taken as rigid"] = {
    q_2 = function(s) return s.k / (s.k + s.k_f) end},
  ["all that is passed on given to each"] = {R_1 = function(s) return s.P - s.R_2 end},
  ["the form for an even load"] = {k = function(s) return s.k * 384 / 5 / 48 end},
  ["the moment of the whole load"] = {M_2 = function(s) return s.P * s.L / 4 end},
}

plain.part_sister = {
  ["foot-pounds over pounds, called inches"] = {
    a_1 = function(s) return s.M_1 / s.F end, a_2 = function(s) return s.M_2 / s.F end},
  ["the shear with the wrong sign"] = {
    a_2 = function(s) return 12 * s.M_2 / (s.F + s.V_2) end},
  ["the shear left out"] = {a_2 = function(s) return 12 * s.M_2 / s.F end},
  ["both groups put together"] = {a_1 = function(s) return 6 * s.M_1 / s.F end,
    a_2 = function(s) return 6 * s.M_2 / s.F end},
  ["the moment of mid-span"] = {
    a_1 = function(s) return 12 * half_span_moment(s) / s.F end,
    a_2 = function(s) return 12 * half_span_moment(s) / s.F end},
  ["the moment of the inner group"] = {M_o = function(s) return s.M_1 end,
    ratio = function(s) return stress(s.M_1, s.b, s.d) / s.F_b_ end},
  ["the left outer group alone"] = {M_o = function(s) return s.M_l end,
    ratio = function(s) return stress(s.M_l, s.b, s.d) / s.F_b_ end},
}

plain.fastener_count = {
  ["wet service left out"] = {Z_ = function(s) return s.Z * s.C_D end,
    n = function(s) return math.ceil(s.F / (s.Z * s.C_D) - 1e-9) end,
    n_2 = function(s)
      return 2 * math.ceil(math.ceil(s.F / (s.Z * s.C_D) - 1e-9) / 2)
    end},
  ["load duration left out"] = {Z_ = function(s) return s.Z * s.C_M end},
  ["the count rounded down"] = {n = function(s) return math.floor(s.F / s.Z_ + 1e-9) end},
  ["the whole depth"] = {V_ = function(s) return s.F_v_ * s.b * s.d / 1.5 end},
  ["the factor (d_e/d)^2 left out"] = {
    V_ = function(s) return s.F_v_ * s.b * (s.d - s.e) / 1.5 end},
  ["the factor not squared"] = {
    V_ = function(s) return s.F_v_ * s.b * (s.d - s.e) ^ 2 / s.d / 1.5 end},
  ["the wrong part of the depth"] = {d_e = function(s) return s.e end,
    V_ = function(s) return s.F_v_ * s.b * s.e ^ 3 / s.d ^ 2 / 1.5 end,
    ratio = function(s) return s.F * 1.5 * s.d ^ 2 / (s.F_v_ * s.b * s.e ^ 3) end},
}

-- Moment of a simple piece with a load R at each joist but those over the posts.
local function points_moment(s, V, R)
  local M, m = 0, s.n // 2
  for i = 1, m do M = M - R * (m - i) * s.s / 12 end
  return M + V * m * s.s / 12
end

plain.beam_under_joists = {
  ["joists as simple spans"] = {R = function(s) return s.w * s.L_j end,
    V = function(s) return 0.8 * s.V end, M = function(s) return 0.8 * s.M end,
    P = function(s) return 0.8 * s.P end},
  ["joists over posts counted"] = {V = function(s) return s.n * s.R / 2 end,
    M = function(s) return points_moment(s, s.n * s.R / 2, s.R) end,
    f_v = function(s) return 1.5 * s.n * s.R / 2 / (s.b * s.d) end},
  ["one piece of beam only"] = {P = function(s) return s.V + s.R end},
  ["load taken as uniform"] = {
    M = function(s) return (s.n - 1) * s.R * s.n * s.s / 12 / 8 end,
    f_b = function(s)
      return stress((s.n - 1) * s.R * s.n * s.s / 12 / 8, s.b, s.d)
    end},
}

-- C_P for a critical value, NDS 3.7.1.5 with c = 0.8.
local function stability(critical, F)
  local r = critical / F
  return (1 + r) / 1.6 - (((1 + r) / 1.6) ^ 2 - r / 0.8) ^ 0.5
end

plain.column = {
  ["no buckling"] = {C_P = function() return 1 end, F_c_ = function(s) return s.F_cs end,
    P_ = function(s) return s.F_cs * s.d_1 * s.d_2 end,
    ratio = function(s) return s.P / (s.F_cs * s.d_1 * s.d_2) end},
  ["height in feet"] = {F_cE = function(s) return 144 * s.F_cE end,
    C_P = function(s) return stability(144 * s.F_cE, s.F_cs) end},
  ["no size factor"] = {F_cs = function(s) return s.F_c end},
  ["Euler's load"] = {P_ = function(s) return s.F_cE * s.d_1 * s.d_2 end,
    ratio = function(s) return s.P / (s.F_cE * s.d_1 * s.d_2) end},
}

return plain
