-- SPDX-License-Identifier: MIT
-- Numbers of the UK National Annex. The list of contents of the annex was read, its
-- tables were not: they are from memory.
return {
  name = "en-1995-1-1-uk",
  title = "EN 1995-1-1:2004 with A1:2008, UK National Annex",
  scope = "United Kingdom",
  usual_rules = "uk-labc-2018",
  factors = {
    k_cr = {value = 0.67, clause = "6.1.7(2), NA Table NA.4", confidence = "read",
      source = "a public teaching sheet; the table itself was not read",
      checks = {"shear", "net-shear", "notch-shear"}},
    w_inst = {none = true, says = "no limit of w_inst", clause = "7.2, NA Table NA.5",
      confidence = "memory", source = "memory: no limit of w_inst"},
    w_fin = {value = 250, says = "w_fin l/250", clause = "7.2, NA Table NA.5",
      confidence = "memory", checks = {"deflection-total"}, where = {limit_total = 1},
      source = "memory, with a plastered ceiling; l/150 without"},
    zeta = {value = 0.02, says = "damping zeta", clause = "7.3.3(4), NA.2.7",
      confidence = "memory", source = "memory"},
    w_1kN = {value = 1.8, upto = 4000, over = 16500, power = 1.1, k_amp = 1.05,
      none = false, says = "a with k_dist, k_amp", confidence = "memory",
      clause = "7.3.3(2), NA.2.7.2, NA Table NA.6", source = "memory"},
  },
}
