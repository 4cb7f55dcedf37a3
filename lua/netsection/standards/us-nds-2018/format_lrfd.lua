-- SPDX-License-Identifier: MIT
-- Load and resistance factor design: F' = F CM Ct CL CF Ci Cr K_F phi lambda, CD is not
-- used; F_cp' and E_min' have K_F phi and no lambda, E has neither. Numbers of K_F since
-- 2012; the constants behind them are 2.16/phi, 1.503/phi for bearing, 1.5/phi for E_min.
-- lambda by NDS Table N3 (read); the combinations are those of ASCE 7-16 2.3.1 with dead
-- and live load of an occupied floor, and with roof live load or snow where a joist
-- carries them. L in no. 3 is taken in full, not by half. Deflections are those of loads
-- without factors, in the combinations of 2.4.1.
return {
  name = "us-nds-2018-lrfd",
  title = "NDS 2018, load and resistance factor design",
  format = "LRFD",
  confidence = "memory",
  scope = "United States, load and resistance factor design",
  notes = {
    "load combinations of ASCE 7-16 2.3.1, and that F_cp' and E_min' have no lambda, are "
      .. "from memory; K_F, phi and lambda were read in copies",
    "forces, moments and reactions are those of factored loads, deflections of loads "
      .. "without factors",
    "live load is that of occupancy: lambda 0.8 (storage has 0.7: not covered)",
  },
  duration = "lambda",
  no_own_duration = "the time effect factor lambda is that of a combination",
  combinations = {
    {name = "1.4D", D = 1.4, L = 0, CD = 0.6, confidence = "memory",
      source = "ASCE 7-16 2.3.1 no. 1; NDS Table N3"},
    {name = "1.2D+1.6L", D = 1.2, L = 1.6, CD = 0.8, confidence = "memory",
      source = "ASCE 7-16 2.3.1 no. 2; NDS Table N3"},
  },
  with_roof_or_snow = {
    {name = "1.2D+1.6L+0.5Lr", D = 1.2, L = 1.6, Lr = 0.5, CD = 0.8, checks = "strength",
      confidence = "memory", source = "ASCE 7-16 2.3.1 no. 2; NDS Table N3"},
    {name = "1.2D+1.6L+0.5S", D = 1.2, L = 1.6, S = 0.5, CD = 0.8, checks = "strength",
      confidence = "memory", source = "ASCE 7-16 2.3.1 no. 2; NDS Table N3"},
    {name = "1.2D+1.6Lr", D = 1.2, Lr = 1.6, CD = 0.8, checks = "strength",
      confidence = "memory", source = "ASCE 7-16 2.3.1 no. 3; NDS Table N3"},
    {name = "1.2D+1.6S", D = 1.2, S = 1.6, CD = 0.8, checks = "strength",
      confidence = "memory", source = "ASCE 7-16 2.3.1 no. 3; NDS Table N3"},
    {name = "1.2D+1.6Lr+L", D = 1.2, L = 1, Lr = 1.6, CD = 0.8, checks = "strength",
      confidence = "memory", source = "ASCE 7-16 2.3.1 no. 3; NDS Table N3"},
    {name = "1.2D+1.6S+L", D = 1.2, L = 1, S = 1.6, CD = 0.8, checks = "strength",
      confidence = "memory", source = "ASCE 7-16 2.3.1 no. 3; NDS Table N3"},
    {name = "D+Lr", D = 1, Lr = 1, checks = "deflection"},
    {name = "D+S", D = 1, S = 1, checks = "deflection"},
    {name = "D+0.75L+0.75Lr", D = 1, L = 0.75, Lr = 0.75, checks = "deflection"},
    {name = "D+0.75L+0.75S", D = 1, L = 0.75, S = 0.75, checks = "deflection"},
  },
  basis = {
    {name = "untimed_bearing", says = "no time effect factor on F_cp'",
      clause = "NDS Table 4.3.1", confidence = "memory", checks = {"bearing"},
      branches = {1}},
    {name = "untimed_bending", says = "no time effect factor on E_min'",
      clause = "NDS Table 4.3.1", confidence = "memory",
      checks = {"bending", "host-bending"}, branches = {2}},
    {name = "untimed_net_bending", says = "no time effect factor on E_min'",
      clause = "NDS Table 4.3.1", confidence = "memory", checks = {"net-bending"},
      branches = {4, 5, 6}},
    {name = "untimed_chord", says = "no time effect factor on E_min'",
      clause = "NDS Table 4.3.1", confidence = "memory", checks = {"wood-compression"},
      branches = {1, 2, 3, 4}},
  },
  factors = {
    K_Fb = {value = 2.54, source = "NDS Table 2.3.5", confidence = "read"},
    K_Ft = {value = 2.70, source = "NDS Table 2.3.5", confidence = "read"},
    K_Fv = {value = 2.88, source = "NDS Table 2.3.5", confidence = "read"},
    K_Fc = {value = 2.40, source = "NDS Table 2.3.5", confidence = "read"},
    K_Fcp = {value = 1.67, source = "NDS Table 2.3.5", confidence = "read"},
    K_FE = {value = 1.76, source = "NDS Table 2.3.5", confidence = "read"},
    K_Fz = {value = 3.32, source = "NDS Table 2.3.5", confidence = "read"},
    phi_b = {value = 0.85, source = "NDS Table 2.3.6", confidence = "read"},
    phi_t = {value = 0.80, source = "NDS Table 2.3.6", confidence = "read"},
    phi_v = {value = 0.75, source = "NDS Table 2.3.6", confidence = "read"},
    phi_c = {value = 0.90, source = "NDS Table 2.3.6", confidence = "read"},
    phi_s = {value = 0.85, source = "NDS Table 2.3.6", confidence = "read"},
    phi_z = {value = 0.65, source = "NDS Table 2.3.6", confidence = "read"},
  },
  -- Symbols of the calculations that are others here.
  rename = {
    CD = "lambda", lambda = "lambda_o",
    K = {["F_b'"] = "K_Fb*phi_b", ["F_v'"] = "K_Fv*phi_v", ["F_cp'"] = "K_Fcp*phi_c",
      ["F_t'"] = "K_Ft*phi_t", ["F_c'"] = "K_Fc*phi_c", F_cs = "K_Fc*phi_c"},
  },
  stands_for = {lambda = "CD", lambda_o = "lambda"},
  says = {
    C_z = "all other factors on Z, K_F phi = 3.32 x 0.65 among them",
    C = "all factors on F_b but CL, K_F phi lambda among them",
  },
}
