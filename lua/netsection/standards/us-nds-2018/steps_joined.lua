-- SPDX-License-Identifier: MIT
-- The lines of a calculation for repairs and for what stands below: the joist beside new
-- wood, fasteners, steel, posts, footings. Written as in steps_joist.lua.
return {
  ["host-bending"] = {
    {
      stands_for = {F_b = "F", ["F_b'"] = "F_a"},
      "M : largest moment",
      "S = b*d^2/6",
      "f_b = M/S [NDS 3.3.2]",
      "F_b' = F_b*CD*CM*Ct*CL*CF*Ci*Cr*K [NDS 4.3.1]",
      "M'{key=capacity} = F_b'*S",
      "ratio = M/(F_b'*S)",
    },
    {
      stands_for = {F_b = "F", ["F_b'"] = "F_a"},
      "M : largest moment",
      "S = b*d^2/6",
      "f_b = M/S [NDS 3.3.2]",
      "@free edge",
      "F_b' = F_b*CD*CM*Ct*CL*CF*Ci*Cr*K [NDS 4.3.1]",
      "M'{key=capacity} = F_b'*S",
      "ratio = M/(F_b'*S)",
    },
  },
  ["host-shear"] = {
    {
      stands_for = {F_v = "F", ["F_v'"] = "F_a"},
      "@near the face",
      "F_v' = F_v*CD*CM*Ct*Ci*K [NDS 4.3.1]",
      "V'{key=capacity} = 2/3*F_v'*b*d [NDS 3.4.2]",
      "ratio = V/(2/3*F_v'*b*d)",
    },
    {
      stands_for = {F_v = "F", ["F_v'"] = "F_a"},
      "V : shear there, live load placed for the most",
      "b",
      "d",
      "F_v' = F_v*CD*CM*Ct*Ci*K [NDS 4.3.1]",
      "V'{key=capacity} = 2/3*F_v'*b*d [NDS 3.4.2]",
      "ratio = V/(2/3*F_v'*b*d)",
    },
  },
  fasteners = {
    {
      "G : largest force of the group",
      "n_f : fasteners in it",
      "Z [NDS 12.3] : lateral value of one fastener",
      "CD",
      "C_z : all other factors on Z",
      "Z_a = Z*CD*C_z [NDS 11.3.1]",
      "Z'{key=capacity, unit=lb} = n_f*Z_a",
      "ratio = G/(n_f*Z_a)",
    },
    {
      "G : largest force of the group",
      "n_f : fasteners in it",
      "Z : the maker's value, used as given",
      "Z'{key=capacity, unit=lb} = n_f*Z",
      "ratio = G/(n_f*Z)",
    },
  },
  ["connection-shear"] = {
    {
      stands_for = {F_v = "F", ["F_v'"] = "F_a"},
      "G : largest force of the group",
      "d",
      "d_e : d less the distance from the unloaded edge to the nearest fastener",
      "F_v' = F_v*CD*CM*Ct*Ci*K [NDS 4.3.1]",
      "V'{key=capacity} = 2/3*F_v'*b*d_e*(d_e/d)^2 [NDS 3.4.3.3 (memory)]",
      "ratio = G/(2/3*F_v'*b*d_e*(d_e/d)^2)",
    },
    {
      stands_for = {F_v = "F", ["F_v'"] = "F_a"},
      "G : largest force of the group",
      "d",
      "d_e : d less the distance from the unloaded edge to the nearest fastener",
      "F_v' = F_v*CD*CM*Ct*Ci*K [NDS 4.3.1]",
      "V'{key=capacity} = 2/3*F_v'*b*d_e [NDS 3.4.3.3 (memory)]",
      "ratio = G/(2/3*F_v'*b*d_e)",
    },
  },
  withdrawal = {
    {
      "T : tension across the grain",
      "@thread",
    },
    {
      "T : tension across the grain",
      "@maker's thread",
    },
    {
      "@at a notch",
      "@thread",
    },
    {
      "@at a notch",
      "@maker's thread",
    },
  },
  steel = {
    {
      "T : tension in the strap",
      "P_s : least of yield, rupture and the holes",
      "ratio = T/P_s",
    },
    {
      stands_for = {F_n = "F_a"},
      "M : moment in the plates",
      "S = b*d^2/6",
      "F_y",
      "t",
      "l_u : between rows of fasteners",
      "C_m : 1.67 where the moment falls to nothing at the outermost row, else 1",
      "F_n [AISC 360 F11, F9.4 (memory)] : least of yield, buckling sideways "
        .. "between the rows, buckling of the edge",
      "M'{key=capacity} = F_n*S/1.67 [AISC 360 F11 (memory)]",
      "ratio = M/(F_n*S/1.67)",
    },
    {
      "V : shear in the plate",
      "A = b*d",
      "F_y",
      "V'{key=capacity} = 0.6*F_y*A/1.67 [AISC 360 G (memory)]",
      "ratio = V/(0.6*F_y*A/1.67)",
    },
    {
      "M : moment",
      "M_a : allowable moment as given, used as it is",
      "ratio = M/M_a",
    },
    {
      "V : shear",
      "V_a : allowable shear as given, used as it is",
      "ratio = V/V_a",
    },
  },
  column = {
    {
      stands_for = {["E_min'"] = "E_m", F_c = "F", ["F_c'"] = "F_a", r = "r_1"},
      "@slender",
      "@column",
      "A = d_1*d_2",
      "P'{key=capacity, unit=lb} = F_c'*A",
      "ratio = P/(F_c'*A)",
    },
    {
      stands_for = {["E_min'"] = "E_m", ["F_b'"] = "F_a2", F_c = "F",
        ["F_c'"] = "F_a", r = "r_1"},
      "@slender",
      "@column",
      "A = d_1*d_2",
      "f_c = P/A",
      "e_1 : eccentricity of the load along d_1",
      "F_cE1 = 0.822*E_min'/(l_e1/d_1)^2 [NDS 3.7.1.5]",
      "F_b' : adjusted bending value",
      "ratio = (f_c/F_c')^2 + f_c*6*e_1/d_1*(1 + 0.234*f_c/F_cE1)/(F_b'*(1 - "
        .. "f_c/F_cE1)) [NDS 15.4.1 (memory)]",
    },
    {
      "@slender",
      "ratio : more slender than 50: not permitted, no capacity",
    },
    {
      stands_for = {["E_min'"] = "E_m", F_c = "F", ["F_c'"] = "F_a"},
      "@slender",
      "E_min' : adjusted modulus for stability",
      "F_cs = F_c*CD*CM*Ct*CF*Ci*K [NDS 4.3.1] : F_c*",
      "F_cE1 = 0.822*E_min'/(l_e1/d_1)^2 [NDS 3.7.1.5]",
      "r_1 = F_cE1/F_cs",
      "CP_1 = (1 + r_1)/1.6 - sqrt(((1 + r_1)/1.6)^2 - r_1/0.8) [NDS 3.7.1.5] : "
        .. "across the faces of the plies",
      "F_cE2 = 0.822*E_min'/(l_e2/d_2)^2 [NDS 3.7.1.5]",
      "r_2 = F_cE2/F_cs",
      "K_f : 0.6 nailed, 0.75 bolted, for the slip between plies",
      "CP_2 = K_f*((1 + r_2)/1.6 - sqrt(((1 + r_2)/1.6)^2 - r_2/0.8)) [NDS "
        .. "15.3.2.4 (memory)]",
      "CP = min(CP_1, CP_2)",
      "F_c' = F_cs*CP [NDS 3.7.1.1]",
      "A = d_1*d_2 : d_2 of all plies",
      "P'{key=capacity, unit=lb} = F_c'*A",
      "ratio = P/(F_c'*A)",
    },
  },
  ["soil-bearing"] = {
    {
      stands_for = {["P'"] = "capacity"},
      "P : load on the footing",
      "q_s : allowable pressure on the soil, as given",
      "gamma{own=yes} : weight of the footing",
      "t : its thickness",
      "q_n{own=yes} = q_s - gamma*t/12 [statics] : left for the load",
      "B : its side",
      "P'{key=capacity, unit=lb, own=yes} = q_n*(B/12)^2",
      "ratio = P/P'",
    },
  },
  footing = {
    {
      "B : side of the footing",
      "d_1 : side of what stands on it",
      "a_p = (B - d_1)/2 : how far it reaches past",
      "t : its thickness",
      "ratio = a_p/t [IRC R403.1.1]",
    },
  },
}
