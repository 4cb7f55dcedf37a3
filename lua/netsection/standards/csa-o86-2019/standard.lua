-- SPDX-License-Identifier: MIT
-- CSA O86:19, members of visually graded lumber. The clauses were read in a public
-- transcription; numbers of format.lua say where each was seen. The standard has no rule
-- for openings, nor for notches in tension away from a support: the net section is worked
-- out and shown, and what it decides is referred unless the rules in force permit the
-- cut. A notch at a support may take 0.25 d: read for the tension side, and of an
-- abstract for either side. Openings past 0.40 d never pass unaided: in tests of glulam
-- with round holes net shear area was 10 to 16 % too high there.
return {
  family = "csa",
  units = "metric",
  lang = "en-CA",
  usual_rules = "ca-nbc-9.23.5",
  end_notch = {value = 1 / 4, says = "0.25 d at a support, on either side",
    clause = "6.5.4", confidence = "reading", gates = {1}},
  inner_notch = {value = 1 / 4, says = "0.25 d away from a support", clause = "6.5.4",
    confidence = "reading", gates = {2}},
  outer_part = 0.5,
  thick = 24,
  tested_hole = {value = 0.40, says = "0.40 d, openings", confidence = "computed",
    source = "published tests of beams with round holes", gates = {7}},
  any_span = true,
  no_rule = true,
  gates = {
    "", -- none
    "end notch deeper than 0.25 d (CSA O86 6.5.4)",
    "notch deeper than 0.25 d (CSA O86 6.5.4)",
    "notch in the middle of the span",
    "notch away from the ends of a member that is not a single span",
    "notch in the tension face",
    "cut through: nothing is left to carry moment or shear",
    "opening deeper than 0.40 d: never adequate unaided, by tests of beams with holes",
    "no rule in CSA O86:19 for openings, nor for notches in tension away from a support; "
      .. "the net section is shown",
  },
  refuses = "nothing of its connections (clause 12) was read, so no capacity of a repair "
    .. "can be given",
  labels = {
    Fb = "Bending strength f_b", Ft = "Tension strength f_t",
    Fv = "Shear strength f_v", Fc_perp = "Bearing strength f_cp",
    Fc = "Compression strength f_c", E = "Modulus E", Emin = "Modulus E_05",
    CF = "Size factor K_Zb", Cr = "System factor K_H", adjusted = "phi F_b",
    values = "Specified strengths",
  },
  -- Names of numbers of a check, in the standard's symbols.
  stands_for = {
    K_D = "CD", K_S = "CM", K_T = "Ci", K_H = "Cr", K_L = "CL", phi = "K",
    K_Zb = "CF", K_Zv = "CF", K_Zt = "CF", K_Zcp = "CF", K_B = "Cb", K_C = "CP",
    M_f = "M", V_f = "V", Q_f = "R", d_l = "d_n", d_mm = "h_mm",
    f_b = "F", f_v = "F", f_cp = "F", f_r = "F_a", f_m = "f_b",
    M_r = "capacity", V_r = "capacity", Q_r = "capacity", F_r = "capacity",
  },
}
