-- SPDX-License-Identifier: MIT
-- What the standard says of each check of the core (csrc/joist/checks.h): the clause
-- where its capacity stands, "printed" its name where that is another.
return {
  {mode = "bending", clause = "NDS 3.3.2"},
  {mode = "shear", clause = "NDS 3.4.3.1"},
  {mode = "bearing", clause = "NDS 3.10.2"},
  {mode = "deflection-live", clause = "IRC Table R301.7"},
  {mode = "deflection-total", clause = "IRC Table R301.7"},
  {mode = "net-bending", clause = "NDS 3.2.3.1"},
  {mode = "net-shear", clause = "NDS 3.4.3"},
  {mode = "notch-shear", clause = "NDS 3.4.3.2"},
  {mode = "opening-frame", clause = "NDS 3.2.3.1"},
  {mode = "lip-tension", clause = "NDS 3.9.1"},
  {mode = "wood-compression", clause = "NDS 3.9.2"},
  {mode = "chord-alone", clause = "NDS 3.2.3.1"},
  {mode = "uplift", clause = "statics"},
  {mode = "stability", clause = "NDS 4.4.1.2"},
  {mode = "host-bending", clause = "NDS 3.3.2", printed = "bending, existing joist"},
  {mode = "host-shear", clause = "NDS 3.4.3.1", printed = "shear, existing joist"},
  {mode = "fasteners", clause = "NDS 11.3.1"},
  {mode = "connection-shear", clause = "NDS 3.4.3.3"},
  {mode = "steel", clause = "AISC 360"},
  {mode = "withdrawal", clause = "NDS 12.2"},
  {mode = "neighbour", clause = "statics", printed = "neighbor"},
  {mode = "column", clause = "NDS 3.7.1"},
  {mode = "soil-bearing", clause = "statics"},
  {mode = "footing", clause = "IRC R403.1.1"},
}
