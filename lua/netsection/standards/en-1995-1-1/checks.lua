-- SPDX-License-Identifier: MIT
-- What the standard says of each check of the core (see us-nds-2018/checks.lua).
-- "combination" is what is told where a check has loads of its own, and "absent" that the
-- standard has no such check here.
return {
  {mode = "bending", clause = "EN 1995-1-1 6.1.6"},
  {mode = "shear", clause = "EN 1995-1-1 6.1.7"},
  {mode = "bearing", clause = "EN 1995-1-1 6.1.5"},
  {mode = "deflection-live", clause = "EN 1995-1-1 7.2", printed = "w_inst",
    combination = "G + Q"},
  {mode = "deflection-total", clause = "EN 1995-1-1 7.2", printed = "w_fin",
    combination = "G (1 + k_def) + Q (1 + psi_2 k_def)"},
  {mode = "net-bending", clause = "net section, 6.1.6"},
  {mode = "net-shear", clause = "net section, 6.1.7"},
  {mode = "notch-shear", clause = "EN 1995-1-1 6.5.2"},
  {mode = "opening-frame", clause = "net section, statics"},
  {mode = "lip-tension", clause = "net section, 6.2.3"},
  {mode = "wood-compression", clause = "net section, 6.3.2"},
  {mode = "chord-alone", clause = "net section, 6.1.6"},
  {mode = "uplift", clause = "statics"},
  {mode = "stability", absent = true},
  {mode = "host-bending", absent = true},
  {mode = "host-shear", absent = true},
  {mode = "fasteners", absent = true},
  {mode = "connection-shear", absent = true},
  {mode = "steel", absent = true},
  {mode = "withdrawal", absent = true},
  {mode = "neighbour", absent = true},
  {mode = "column", absent = true},
  {mode = "soil-bearing", absent = true},
  {mode = "footing", absent = true},
}
