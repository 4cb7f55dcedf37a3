-- SPDX-License-Identifier: MIT
-- Lines of a calculation that stand in several checks; "@name" puts them in a list.
return {
  net = {
    "A : net area",
    "y_b : own centroid above the bottom edge",
    "I : second moment about it",
  },
  ["free edge"] = {
    "l_u : free length of the bottom edge",
    "l_e [NDS Table 3.3.3] : effective length",
    "CL [NDS 3.3.3.8] : beam stability factor",
  },
  tie = {
    "M : moment there, live load placed for the most",
    "V : shear there, live load placed for the most",
    "z : between chord centroids",
    "N = M/z : force in the chord",
    "h : chord in tension",
    "y : centroid from its edge",
    "I : net section, the worst within this opening",
    "f_t = M*(y - h/2)/I : mean tension",
    "f_b = M*h/2/I",
    "f_2 : chord as a frame",
    "C : all factors on F_b but CL",
    "F_bs = F_b*C : F_b*",
    "d",
    "L_o : length of the opening that counts (half of a diameter)",
    "tau = min(max(L_o/h - 1, 0), 1)*min(max(2 - 4*h/d, 0), 1) [a judgment of "
      .. "ours, supported by no test]",
  },
  strut = {
    "M : moment there, live load placed for the most",
    "V : shear there, live load placed for the most",
    "h : chord in compression",
    "y : centroid from its edge",
    "I : net section, the worst within this opening",
    "f_c = M*(y - h/2)/I : mean compression",
    "f_b = M*h/2/I",
    "f_2 : chord as a frame",
    "F_b' = F_b*C",
    "d",
    "L_o : length of the opening that counts (half of a diameter)",
    "tau = min(max(L_o/h - 1, 0), 1)*min(max(2 - 4*h/d, 0), 1) [a judgment of "
      .. "ours, supported by no test]",
  },
  ["near the face"] = {
    "V_0 : shear at the bearing, all loads",
    "V [NDS 3.4.3.1(a)] : the same, of the load within d of its face uniform "
      .. "load left out, point loads counted by x/d",
  },
  slender = {
    "P : load on the post",
    "l_e1 : effective length for buckling along d_1",
    "d_1",
    "l_e2 : effective length for buckling along d_2",
    "d_2",
    "s_l = max(l_e1/d_1, l_e2/d_2) [NDS 3.7.1.3, 3.7.1.4] : slenderness, at most 50",
  },
  column = {
    "E_min' : adjusted modulus for stability",
    "F_cE = 0.822*E_min'/s_l^2 [NDS 3.7.1.5]",
    "F_cs = F_c*CD*CM*Ct*CF*Ci*K [NDS 4.3.1] : F_c*",
    "r = F_cE/F_cs",
    "CP = (1 + r)/1.6 - sqrt(((1 + r)/1.6)^2 - r/0.8) [NDS 3.7.1.5] : c = 0.8, "
      .. "sawn lumber",
    "F_c' = F_cs*CP [NDS 3.7.1.1]",
  },
  thread = {
    "n_f : fasteners in it",
    "W : withdrawal value per inch of thread",
    "p : thread in the wood that holds it",
    "CD",
    "C_z : all other factors on W",
    "Z_a = W*p*CD*C_z [NDS 12.2]",
    "T'{key=capacity, unit=lb} = n_f*Z_a",
    "ratio = T/(n_f*Z_a)",
  },
  ["maker's thread"] = {
    "n_f : fasteners in it",
    "Z : the maker's value, used as given",
    "T'{key=capacity, unit=lb} = n_f*Z",
    "ratio = T/(n_f*Z)",
  },
  ["at a notch"] = {
    "V : reaction, in full",
    "d_n : depth left",
    "d",
    "T = 1.3*V*(3*(1 - d_n/d)^2 - 2*(1 - d_n/d)^3) [DIN EN 1995-1-1/NA "
      .. "NA.6.8.3 (memory)]",
  },
  cracked = {
    "M : moment there, live load placed for the most",
    "z : from the steel to the middle of the pressure, cracked section",
    "T = M/z",
    "c : depth of the zone in compression",
    "d_r : wood above the cut",
    "b",
    "f_b : stress locked in the wood before",
  },
}
