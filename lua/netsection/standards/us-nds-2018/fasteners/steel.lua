-- SPDX-License-Identifier: MIT
-- Steel of straps and plates: grades (psi) and sheet gauges (in).
-- confidence: read = read in a copy of the document; memory = not seen, from memory.
return {
  grades = {
    {"A36", rules = "AISC 360", F_y = 36000, F_u = 58000, E = 29000000,
      source = "ASTM A36", confidence = "read"},
    {"A572 50", rules = "AISC 360", F_y = 50000, F_u = 65000, E = 29000000,
      source = "ASTM A572", confidence = "read"},
    -- of grade 33 F_u was read, F_y is from memory
    {"A653 33", rules = "AISI S100", F_y = 33000, F_u = 45000, E = 29500000,
      source = "ASTM A653 SS", confidence = "memory"},
    {"A653 37", rules = "AISI S100", F_y = 37000, F_u = 52000, E = 29500000,
      source = "ASTM A653 SS", confidence = "memory"},
    {"A653 40", rules = "AISI S100", F_y = 40000, F_u = 55000, E = 29500000,
      source = "ASTM A653 SS", confidence = "memory"},
    {"A653 50", rules = "AISI S100", F_y = 50000, F_u = 65000, E = 29500000,
      source = "ASTM A653 SS, class 1", confidence = "memory"},
    {"A1011 33", rules = "AISI S100", F_y = 33000, F_u = 52000, E = 29500000,
      source = "ASTM A1011 SS", confidence = "memory"},
    {"A1008 33", rules = "AISI S100", F_y = 33000, F_u = 48000, E = 29500000,
      source = "ASTM A1008 SS", confidence = "memory"},
  },

  -- 'table' is the thickness that the NDS tables use, for Z; 'design' the bare steel, for
  -- the strap itself. Where no bare thickness is on file, the least coated one stands
  -- less 0.002 in of zinc (our choice). Table and coated values read, bare from memory.
  gauges = {
    {10, table = 0.134, design = 0.1242, confidence = "memory"},
    {11, table = 0.120, design = 0.1123, confidence = "memory"},
    {12, table = 0.105, design = 0.1017, confidence = "memory"},
    {14, table = 0.075, design = 0.0713, confidence = "memory"},
    {16, table = 0.060, design = 0.0566, confidence = "memory"},
    {18, table = 0.048, design = 0.0451, confidence = "memory"},
    {20, table = 0.036, design = 0.0346, confidence = "memory"},
  },
  gauge_source = "NDS Tables 12K and 12M; ASTM A924, AISI S200",
}
