-- SPDX-License-Identifier: MIT
-- Numbers of the German National Annex, all from memory.
return {
  name = "en-1995-1-1-de",
  title = "DIN EN 1995-1-1:2010 with its National Annex",
  scope = "Germany",
  factors = {
    k_cr = {over_f_vk = 2.0, says = "k_cr = 2.0/f_v,k",
      clause = "6.1.7(2), DIN EN 1995-1-1/NA", confidence = "memory", source = "memory"},
    w_inst = {value = 300, says = "w_inst l/300", clause = "7.2, DIN EN 1995-1-1/NA",
      confidence = "memory", source = "memory", checks = {"deflection-live"},
      where = {limit_live = 1}},
    w_fin = {value = 200, says = "w_fin l/200", clause = "7.2, DIN EN 1995-1-1/NA",
      confidence = "memory", source = "memory", checks = {"deflection-total"},
      where = {limit_total = 1}},
  },
}
