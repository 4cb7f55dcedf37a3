-- SPDX-License-Identifier: MIT
-- Specified strengths and moduli of structural joists and planks, MPa: CSA O86:19 Table
-- 6.4 as a public database transcribes it, K_Z of Table 6.13 for lumber 38 mm thick. They
-- are not allowable stresses: only the formulas of CSA O86 take them. Thicker lumber has
-- larger K_Z, which were not read; those of 38 mm stand for it and allow less.
-- f_b and E also follow from the spans of Ontario's Table A-1.
-- confidence: read = read in that database.
return {
  edition = "csa-o86-2019", family = "csa", unit = "MPa",
  title = "CSA O86:19 Table 6.4, structural joists and planks",
  thickness_max = 89 / 25.4,   -- in
  absent = {"G"},              -- relative density was not read

  sources = {
    ["6.4"] = "CSA O86:19 Table 6.4, as a public database transcribes it",
    ["6.13"] = "CSA O86:19 Table 6.13, as a public database transcribes it",
  },

  species = {
    ["Douglas Fir-Larch"] = {
      table = "6.4", aliases = {"DFL", "DF-L", "D.Fir-L", "Douglas Fir"},
      grades = {
        SS = {Fb = 16.5, Ft = 10.6, Fv = 1.9, Fc_perp = 7.0, Fc = 19.0,
          E = 12500, Emin = 8500, source = "6.4", confidence = "read"},
        ["No.1/No.2"] = {Fb = 10.0, Ft = 5.8, Fv = 1.9, Fc_perp = 7.0, Fc = 14.0,
          E = 11000, Emin = 7000, source = "6.4", confidence = "read"},
        ["No.3"] = {Fb = 4.6, Ft = 2.1, Fv = 1.9, Fc_perp = 7.0, Fc = 7.3,
          E = 10000, Emin = 5500, source = "6.4", confidence = "read"},
        Stud = {Fb = 4.6, Ft = 2.1, Fv = 1.9, Fc_perp = 7.0, Fc = 7.3,
          E = 10000, Emin = 5500, source = "6.4", confidence = "read"},
      },
    },
    ["Hem-Fir"] = {
      table = "6.4", aliases = {"HF", "Hem-Fir (N)"},
      grades = {
        SS = {Fb = 16.0, Ft = 9.7, Fv = 1.6, Fc_perp = 4.6, Fc = 17.6,
          E = 12000, Emin = 8500, source = "6.4", confidence = "read"},
        ["No.1/No.2"] = {Fb = 11.0, Ft = 6.2, Fv = 1.6, Fc_perp = 4.6, Fc = 14.8,
          E = 11000, Emin = 7500, source = "6.4", confidence = "read"},
        ["No.3"] = {Fb = 7.0, Ft = 3.2, Fv = 1.6, Fc_perp = 4.6, Fc = 9.2,
          E = 10000, Emin = 6000, source = "6.4", confidence = "read"},
        Stud = {Fb = 7.0, Ft = 3.2, Fv = 1.6, Fc_perp = 4.6, Fc = 9.2,
          E = 10000, Emin = 6000, source = "6.4", confidence = "read"},
      },
    },
    ["Spruce-Pine-Fir"] = {
      table = "6.4", aliases = {"SPF", "S-P-F"},
      grades = {
        SS = {Fb = 16.5, Ft = 8.6, Fv = 1.5, Fc_perp = 5.3, Fc = 14.5,
          E = 10500, Emin = 7500, source = "6.4", confidence = "read"},
        ["No.1/No.2"] = {Fb = 11.8, Ft = 5.5, Fv = 1.5, Fc_perp = 5.3, Fc = 11.5,
          E = 9500, Emin = 6500, source = "6.4", confidence = "read"},
        ["No.3"] = {Fb = 7.0, Ft = 3.2, Fv = 1.5, Fc_perp = 5.3, Fc = 9.0,
          E = 9000, Emin = 5500, source = "6.4", confidence = "read"},
        Stud = {Fb = 7.0, Ft = 3.2, Fv = 1.5, Fc_perp = 5.3, Fc = 9.0,
          E = 9000, Emin = 5500, source = "6.4", confidence = "read"},
      },
    },
    ["Northern Species"] = {
      table = "6.4", aliases = {"Northern", "North"},
      grades = {
        SS = {Fb = 10.6, Ft = 6.2, Fv = 1.3, Fc_perp = 3.5, Fc = 13.0,
          E = 7500, Emin = 5500, source = "6.4", confidence = "read"},
        ["No.1/No.2"] = {Fb = 7.6, Ft = 4.0, Fv = 1.3, Fc_perp = 3.5, Fc = 10.4,
          E = 7000, Emin = 5000, source = "6.4", confidence = "read"},
        ["No.3"] = {Fb = 4.5, Ft = 2.0, Fv = 1.3, Fc_perp = 3.5, Fc = 5.2,
          E = 6500, Emin = 4000, source = "6.4", confidence = "read"},
        Stud = {Fb = 4.5, Ft = 2.0, Fv = 1.3, Fc_perp = 3.5, Fc = 5.2,
          E = 6500, Emin = 4000, source = "6.4", confidence = "read"},
      },
    },
  },

  -- K_Zb and K_Zv (Fb), K_Zt (Ft) by nominal width in inches, first row whose `to` is not
  -- exceeded: 89, 140, 184, 235, 286 and 337 mm. K_Zc is taken as 1.
  size_factors = {
    {table = "6.4",
      rows = {
        {to = 4, Fb = 1.7, Fb_4x = 1.7, Ft = 1.5, Fc = 1, source = "6.13",
          confidence = "read"},
        {to = 6, Fb = 1.4, Fb_4x = 1.4, Ft = 1.3, Fc = 1, source = "6.13",
          confidence = "read"},
        {to = 8, Fb = 1.2, Fb_4x = 1.2, Ft = 1.2, Fc = 1, source = "6.13",
          confidence = "read"},
        {to = 10, Fb = 1.1, Fb_4x = 1.1, Ft = 1.1, Fc = 1, source = "6.13",
          confidence = "read"},
        {to = 12, Fb = 1, Fb_4x = 1, Ft = 1, Fc = 1, source = "6.13",
          confidence = "read"},
        {to = 14, Fb = 0.9, Fb_4x = 0.9, Ft = 0.9, Fc = 1, source = "6.13",
          confidence = "read"},
      }},
  },
}
