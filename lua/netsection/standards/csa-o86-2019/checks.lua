-- SPDX-License-Identifier: MIT
-- What the standard says of each check of the core (see us-nds-2018/checks.lua and
-- en-1995-1-1/checks.lua). A notch in tension at a support has two: notch-shear is the
-- fracture at its corner, net-shear the shear of what is left.
return {
  {mode = "bending", clause = "CSA O86 6.5.3"},
  {mode = "shear", clause = "CSA O86 6.5.4"},
  {mode = "bearing", clause = "CSA O86 6.5.6"},
  {mode = "deflection-live", clause = "NBC 9.4.3.1"},
  {mode = "deflection-total", clause = "a limit of the user"},
  {mode = "net-bending", clause = "net section, 6.5.3"},
  {mode = "net-shear", clause = "net section, 6.5.4"},
  {mode = "notch-shear", clause = "CSA O86 6.5.4", printed = "notch fracture"},
  {mode = "opening-frame", clause = "net section, statics"},
  {mode = "lip-tension", clause = "net section, 6.5.10"},
  {mode = "wood-compression", clause = "net section, 6.5.10"},
  {mode = "chord-alone", clause = "net section, 6.5.3"},
  {mode = "uplift", clause = "statics"},
  {mode = "stability", clause = "CSA O86 6.5.3"},
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
