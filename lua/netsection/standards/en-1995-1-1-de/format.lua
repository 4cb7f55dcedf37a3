-- SPDX-License-Identifier: MIT
-- Numbers of the German National Annex, all from memory.
return {
  name = "en-1995-1-1-de",
  title = "DIN EN 1995-1-1:2010 with its National Annex",
  scope = "Germany",
  factors = {
    k_cr = {over_f_vk = 2.0, clause = "6.1.7(2), DIN EN 1995-1-1/NA",
      confidence = "memory", source = "memory: 2.0/f_v,k"},
    w_inst = {value = 300, clause = "7.2, DIN EN 1995-1-1/NA", confidence = "memory",
      source = "memory"},
    w_fin = {value = 200, clause = "7.2, DIN EN 1995-1-1/NA", confidence = "memory",
      source = "memory"},
  },
}
