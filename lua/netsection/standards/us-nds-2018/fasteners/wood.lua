-- SPDX-License-Identifier: MIT
-- Specific gravity of species, oven-dry, for fasteners. All from memory; the ten values
-- are those of the columns of NDS Table 12K, which come out with them. Which species
-- stands at which value is memory throughout.
return {
  source = "NDS Table 12.3.3A",
  confidence = "memory",
  species = {
    {"Red Oak", G = 0.67},
    {"Southern Pine", G = 0.55, aliases = {"SP", "SYP"}},
    {"Douglas Fir-Larch", G = 0.50, aliases = {"DFL", "DF-L"}},
    {"Douglas Fir-Larch (North)", G = 0.49, aliases = {"DFL(N)", "DF-L(N)"}},
    {"Douglas Fir (South)", G = 0.46, aliases = {"DF(S)"}},
    {"Hem-Fir (North)", G = 0.46, aliases = {"HF(N)"}},
    {"Hem-Fir", G = 0.43, aliases = {"HF"}},
    {"Spruce-Pine-Fir", G = 0.42, aliases = {"SPF"}},
    {"Redwood (open grain)", G = 0.37},
    {"Spruce-Pine-Fir (South)", G = 0.36, aliases = {"SPF(S)", "SPFs"}},
    {"Western Cedars", G = 0.36, aliases = {"WC"}},
    {"Eastern Softwoods", G = 0.36},
    {"Northern Species", G = 0.35},
  },
}
