-- SPDX-License-Identifier: MIT
-- EN 1995-1-1:2004 with A1:2008, members of solid softwood. Recommended values stand in
-- format.lua; an annex is a folder of its own that names this one and what differs.
-- The standard has no rule for openings, nor for notches in tension away from a support:
-- the net section is worked out and shown, and what it decides is referred unless the
-- rules in force permit the cut. Openings past 0.40 d never pass unaided: in tests of
-- glulam with round holes net shear area was 10 to 16 % too high there.
return {
  family = "ec5",
  units = "metric",
  lang = "en-GB",
  usual_rules = "none",
  end_notch = 1,
  inner_notch = 1,
  outer_part = 0.5,
  thick = 24,
  tested_hole = 0.40,
  any_span = true,
  no_rule = true,
  gates = {
    "", -- none
    "nothing is left of the end",
    "nothing is left of the depth",
    "notch in the middle of the span",
    "notch away from the ends of a member that is not a single span",
    "notch in the tension face",
    "cut through: nothing is left to carry moment or shear",
    "opening deeper than 0.40 h: never adequate unaided, by tests of beams with holes",
    "no rule in EN 1995-1-1:2004 for openings, nor for notches in tension away from a "
      .. "support; the net section is shown",
  },
  refuses = "the capacity of its connections (8.2, 8.3) is from memory until a published "
    .. "example of each fastener is reproduced; ns.lateral shows it",
  labels = {
    Fb = "Bending strength f_m,k", Ft = "Tension strength f_t,0,k",
    Fv = "Shear strength f_v,k", Fc_perp = "Compression strength f_c,90,k",
    Fc = "Compression strength f_c,0,k", E = "Modulus E_0,mean", Emin = "Modulus E_0,05",
    G_mean = "Shear modulus G_mean", CF = "Depth factor k_h",
    Cr = "System factor k_sys", live = "w_inst", total = "w_fin",
    adjusted = "f_m,d", values = "Characteristic values",
  },
  -- Names of numbers of a check, in the standard's symbols.
  stands_for = {
    k_mod = "CD", k_h = "CF", k_cr = "CM", k_sys = "Cr", k_crit = "CL", h = "d",
    h_ef = "d_n", W = "S", l_ef = "l_e", M_d = "M", V_d = "V", F_d = "R",
    f_mk = "F", f_vk = "F", f_md = "F_a", f_c90k = "F", f_c90d = "F_a",
    sigma_md = "f_b",
  },
}
