-- SPDX-License-Identifier: MIT
-- Lines of a calculation that stand in several checks; "@name" puts them in a list.
-- Symbols are those of the standard: standard.lua says what they stand for.
return {
  net = {
    "A : net area",
    "y_b : own centroid above the bottom edge",
    "I : second moment about it",
  },
  ["free edge"] = {
    "l_u : free length of the bottom edge",
    "l_ef [Table 6.1] : effective length",
    "k_crit [6.3.3, eq. 6.34] : factor of lateral stability",
  },
  f_md = {
    "f_md = f_mk*k_mod*k_h*k_sys*k_crit/gamma_M [2.4.1, 3.2(3), 6.6, 6.3.3]",
  },
  f_vd = {
    "k_cr [6.1.7(2)] : of the width, for cracks",
    "f_vd = f_vk*k_mod*k_sys/gamma_M [2.4.1, 6.6]",
  },
  notch = {
    "V_d : shear there, imposed load placed for the most",
    "b",
    "h",
    "h_ef : depth left",
    "alpha = h_ef/h",
    "x : from the line of the reaction to the corner of the notch",
    "i_s : slope of its end, length to height",
    "h_mm : h as a number of mm",
    "k_v = min(1, 5*(1 + 1.1*i_s^1.5/sqrt(h_mm))/(sqrt(h_mm)*(sqrt(alpha*(1 - alpha)) "
      .. "+ 0.8*x/h*sqrt(1/alpha - alpha^2)))) [6.5.2, eq. 6.62, k_n = 5]",
    "k_cr [6.1.7(2)] : of the width, for cracks",
    "f_vd = f_vk*k_mod*k_sys/gamma_M [2.4.1, 6.6]",
    "tau_d = 1.5*V_d/(k_cr*b*h_ef) [6.5.2, eq. 6.60]",
    "V_Rd{key=capacity, unit=lb} = k_v*f_vd*k_cr*b*h_ef/1.5",
    "ratio = tau_d/(k_v*f_vd)",
  },
  ["notch above"] = {
    "V_d : shear there, imposed load placed for the most",
    "b",
    "h_ef : depth left",
    "k_v [6.5.2(2)] : notch on the side away from the support",
    "k_cr [6.1.7(2)] : of the width, for cracks",
    "f_vd = f_vk*k_mod*k_sys/gamma_M [2.4.1, 6.6]",
    "tau_d = 1.5*V_d/(k_cr*b*h_ef) [6.5.2, eq. 6.60]",
    "V_Rd{key=capacity, unit=lb} = k_v*f_vd*k_cr*b*h_ef/1.5",
    "ratio = tau_d/(k_v*f_vd)",
  },
  tie = {
    "M_d : moment there, imposed load placed for the most",
    "V_d : shear there, imposed load placed for the most",
    "z : between chord centroids",
    "N = M_d/z : force in the chord",
    "h_c : chord in tension",
    "y : centroid from its edge",
    "I : net section, the worst within this opening",
    "sigma_t = M_d*(y - h_c/2)/I : mean tension",
    "sigma_m = M_d*h_c/2/I",
    "sigma_2 : chord as a frame",
    "C : all factors on f_m,k but k_crit, over gamma_M",
    "f_m0 = f_m2*C : f_m,d, k_crit left out",
    "h",
    "L_o : length of the opening that counts (half of a diameter)",
    "tau = min(max(L_o/h_c - 1, 0), 1)*min(max(2 - 4*h_c/h, 0), 1) [a judgment of "
      .. "ours, supported by no test]",
  },
  strut = {
    "M_d : moment there, imposed load placed for the most",
    "V_d : shear there, imposed load placed for the most",
    "h_c : chord in compression",
    "y : centroid from its edge",
    "I : net section, the worst within this opening",
    "sigma_c = M_d*(y - h_c/2)/I : mean compression",
    "sigma_m = M_d*h_c/2/I",
    "sigma_2 : chord as a frame",
    "f_m0 = f_m2*C : f_m,d",
    "h",
    "L_o : length of the opening that counts (half of a diameter)",
    "tau = min(max(L_o/h_c - 1, 0), 1)*min(max(2 - 4*h_c/h, 0), 1) [a judgment of "
      .. "ours, supported by no test]",
  },
}
