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
    "l_e [Table 7.4, memory] : effective length",
    "K_L [7.5.6.4, memory] : lateral stability",
  },
  f_r = {
    "f_r = phi*f_b*K_D*K_H*K_S*K_T*K_Zb*K_L [6.5.3, F_b = f_b K_D K_H K_Sb K_T] : M_r "
      .. "over the modulus",
  },
  f_rv = {
    "f_r = phi*f_v*K_D*K_H*K_S*K_T*K_Zv [6.5.4, F_v = f_v K_D K_H K_Sv K_T] : phi F_v "
      .. "K_Zv",
  },
  tie = {
    "M_f : moment there, live load placed for the most",
    "V_f : shear there, live load placed for the most",
    "z : between chord centroids",
    "N = M_f/z : force in the chord",
    "h_c : chord in tension",
    "y : centroid from its edge",
    "I : net section, the worst within this opening",
    "sigma_t = M_f*(y - h_c/2)/I : mean tension",
    "sigma_m = M_f*h_c/2/I",
    "sigma_2 : chord as a frame",
    "C : all factors on f_b but K_L, phi among them",
    "f_r0 = f_b*C : phi F_b K_Zb",
    "d",
    "L_o : length of the opening that counts (half of a diameter)",
    "tau = min(max(L_o/h_c - 1, 0), 1)*min(max(2 - 4*h_c/d, 0), 1) [a judgment of "
      .. "ours, supported by no test]",
  },
  strut = {
    "M_f : moment there, live load placed for the most",
    "V_f : shear there, live load placed for the most",
    "h_c : chord in compression",
    "y : centroid from its edge",
    "I : net section, the worst within this opening",
    "sigma_c = M_f*(y - h_c/2)/I : mean compression",
    "sigma_m = M_f*h_c/2/I",
    "sigma_2 : chord as a frame",
    "f_r0 = f_b*C : phi F_b K_Zb",
    "d",
    "L_o : length of the opening that counts (half of a diameter)",
    "tau = min(max(L_o/h_c - 1, 0), 1)*min(max(2 - 4*h_c/d, 0), 1) [a judgment of "
      .. "ours, supported by no test]",
  },
  ["compression side"] = {
    "V_f : shear there, live load placed for the most",
    "b",
    "d_l : depth left, the notch on the compression side",
    "f_r = phi*f_v*K_D*K_H*K_S*K_T*K_Zv [6.5.4, F_v = f_v K_D K_H K_Sv K_T] : phi F_v "
      .. "K_Zv",
    "V_r{unit=lb} = 2/3*f_r*b*d_l [6.5.4] : phi F_v 2/3 A_n K_Zv",
    "ratio = V_f/V_r",
  },
}
