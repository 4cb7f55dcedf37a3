-- SPDX-License-Identifier: MIT
-- Reference design values of visually graded dimension lumber, 2018 edition, psi; G is
-- the specific gravity of the oven-dry wood. Table 4A values are multiplied by the size
-- factor CF; Table 4B (Southern Pine) has the size in its values.
-- Fb and E of Douglas Fir-Larch, Hem-Fir, Spruce-Pine-Fir and Southern Pine also follow
-- from the published floor and ceiling joist spans of the 2015 and 2018 IRC.
-- confidence: read = read in a copy of the document; memory = not seen, from memory.
return {
  edition = "us-nds-2018",
  title = "NDS Supplement 2018, Tables 4A and 4B",
  thickness_max = 4,   -- in; both tables hold for lumber 2 to 4 in thick

  sources = {
    ["4A"] = "NDS Supplement 2018 Table 4A",
    ["4A CF"] = "NDS Supplement 2018 Table 4A, size factors",
    ["4B"] = "NDS Supplement 2018 Table 4B",
    ["4B SI"] = "NDS Supplement 2018 Table 4B (psi restored from rounded MPa)",
  },

  species = {
    ["Douglas Fir-Larch"] = {
      table = "4A", aliases = {"DFL", "DF-L"},
      grades = {
        SS = {Fb = 1500, Ft = 1000, Fv = 180, Fc_perp = 625, Fc = 1700,
          E = 1900000, Emin = 690000, G = 0.5, source = "4A", confidence = "read"},
        ["No.1&Btr"] = {Fb = 1200, Ft = 800, Fv = 180, Fc_perp = 625, Fc = 1550,
          E = 1800000, Emin = 660000, G = 0.5, source = "4A", confidence = "read"},
        -- a copy that prints Fb 1200 here has the No.1&Btr row
        ["No.1"] = {Fb = 1000, Ft = 675, Fv = 180, Fc_perp = 625, Fc = 1500,
          E = 1700000, Emin = 620000, G = 0.5, source = "4A", confidence = "read"},
        ["No.2"] = {Fb = 900, Ft = 575, Fv = 180, Fc_perp = 625, Fc = 1350,
          E = 1600000, Emin = 580000, G = 0.5, source = "4A", confidence = "read"},
        ["No.3"] = {Fb = 525, Ft = 325, Fv = 180, Fc_perp = 625, Fc = 775,
          E = 1400000, Emin = 510000, G = 0.5, source = "4A", confidence = "read"},
        Stud = {Fb = 700, Ft = 450, Fv = 180, Fc_perp = 625, Fc = 850,
          E = 1400000, Emin = 510000, G = 0.5, source = "4A", confidence = "read"},
      },
    },
    ["Hem-Fir"] = {
      table = "4A", aliases = {"HF"},
      grades = {
        SS = {Fb = 1400, Ft = 925, Fv = 150, Fc_perp = 405, Fc = 1500,
          E = 1600000, Emin = 580000, G = 0.43, source = "4A", confidence = "read"},
        ["No.1&Btr"] = {Fb = 1100, Ft = 725, Fv = 150, Fc_perp = 405, Fc = 1350,
          E = 1500000, Emin = 550000, G = 0.43, source = "4A", confidence = "read"},
        ["No.1"] = {Fb = 975, Ft = 625, Fv = 150, Fc_perp = 405, Fc = 1350,
          E = 1500000, Emin = 550000, G = 0.43, source = "4A", confidence = "read"},
        ["No.2"] = {Fb = 850, Ft = 525, Fv = 150, Fc_perp = 405, Fc = 1300,
          E = 1300000, Emin = 470000, G = 0.43, source = "4A", confidence = "read"},
        -- one copy has Fc 750; 725 kept
        ["No.3"] = {Fb = 500, Ft = 300, Fv = 150, Fc_perp = 405, Fc = 725,
          E = 1200000, Emin = 440000, G = 0.43, source = "4A", confidence = "read"},
        Stud = {Fb = 675, Ft = 400, Fv = 150, Fc_perp = 405, Fc = 800,
          E = 1200000, Emin = 440000, G = 0.43, source = "4A", confidence = "read"},
      },
    },
    ["Spruce-Pine-Fir"] = {
      table = "4A", aliases = {"SPF"},
      grades = {
        -- copies differ: the published spans need Fb 1250, not 1150; Ft 700
        -- kept against an 825 of a secondary list
        SS = {Fb = 1250, Ft = 700, Fv = 135, Fc_perp = 425, Fc = 1400,
          E = 1500000, Emin = 550000, G = 0.42, source = "4A", confidence = "read"},
        ["No.1/No.2"] = {Fb = 875, Ft = 450, Fv = 135, Fc_perp = 425, Fc = 1150,
          E = 1400000, Emin = 510000, G = 0.42, source = "4A", confidence = "read"},
        ["No.3"] = {Fb = 500, Ft = 250, Fv = 135, Fc_perp = 425, Fc = 650,
          E = 1200000, Emin = 440000, G = 0.42, source = "4A", confidence = "read"},
        Stud = {Fb = 675, Ft = 350, Fv = 135, Fc_perp = 425, Fc = 725,
          E = 1200000, Emin = 440000, G = 0.42, source = "4A", confidence = "read"},
      },
    },
    ["Spruce-Pine-Fir (South)"] = {
      table = "4A", aliases = {"SPF-S", "SPF South"},
      grades = {
        SS = {Fb = 1300, Ft = 575, Fv = 135, Fc_perp = 335, Fc = 1200,
          E = 1300000, Emin = 470000, G = 0.36, source = "4A", confidence = "memory"},
        ["No.1"] = {Fb = 875, Ft = 400, Fv = 135, Fc_perp = 335, Fc = 1050,
          E = 1200000, Emin = 440000, G = 0.36, source = "4A", confidence = "memory"},
        -- Fb 775, E and G were read; the rest of the row is from memory
        ["No.2"] = {Fb = 775, Ft = 350, Fv = 135, Fc_perp = 335, Fc = 1000,
          E = 1100000, Emin = 400000, G = 0.36, source = "4A", confidence = "memory"},
        ["No.3"] = {Fb = 450, Ft = 200, Fv = 135, Fc_perp = 335, Fc = 575,
          E = 1000000, Emin = 370000, G = 0.36, source = "4A", confidence = "memory"},
        Stud = {Fb = 600, Ft = 275, Fv = 135, Fc_perp = 335, Fc = 625,
          E = 1000000, Emin = 370000, G = 0.36, source = "4A", confidence = "memory"},
      },
    },
    ["Douglas Fir-Larch (North)"] = {
      table = "4A", aliases = {"DFL-N", "DF-L (N)"},
      grades = {
        SS = {Fb = 1350, Ft = 825, Fv = 180, Fc_perp = 625, Fc = 1900,
          E = 1900000, Emin = 690000, G = 0.49, source = "4A", confidence = "memory"},
        ["No.1&Btr"] = {Fb = 1150, Ft = 750, Fv = 180, Fc_perp = 625, Fc = 1800,
          E = 1800000, Emin = 660000, G = 0.49, source = "4A", confidence = "memory"},
        ["No.1/No.2"] = {Fb = 850, Ft = 500, Fv = 180, Fc_perp = 625, Fc = 1400,
          E = 1600000, Emin = 580000, G = 0.49, source = "4A", confidence = "memory"},
        ["No.3"] = {Fb = 475, Ft = 300, Fv = 180, Fc_perp = 625, Fc = 825,
          E = 1400000, Emin = 510000, G = 0.49, source = "4A", confidence = "memory"},
      },
    },
    ["Hem-Fir (North)"] = {
      table = "4A", aliases = {"HF-N"},
      grades = {
        SS = {Fb = 1300, Ft = 775, Fv = 145, Fc_perp = 405, Fc = 1700,
          E = 1700000, Emin = 620000, G = 0.46, source = "4A", confidence = "memory"},
        ["No.1&Btr"] = {Fb = 1200, Ft = 725, Fv = 145, Fc_perp = 405, Fc = 1550,
          E = 1700000, Emin = 620000, G = 0.46, source = "4A", confidence = "memory"},
        ["No.1/No.2"] = {Fb = 1000, Ft = 575, Fv = 145, Fc_perp = 405, Fc = 1450,
          E = 1600000, Emin = 580000, G = 0.46, source = "4A", confidence = "memory"},
        ["No.3"] = {Fb = 575, Ft = 325, Fv = 145, Fc_perp = 405, Fc = 850,
          E = 1400000, Emin = 510000, G = 0.46, source = "4A", confidence = "memory"},
      },
    },
    ["Western Cedars"] = {
      table = "4A", aliases = {"WC"},
      grades = {
        SS = {Fb = 1000, Ft = 600, Fv = 155, Fc_perp = 425, Fc = 1000,
          E = 1100000, Emin = 400000, G = 0.36, source = "4A", confidence = "memory"},
        ["No.1"] = {Fb = 725, Ft = 425, Fv = 155, Fc_perp = 425, Fc = 825,
          E = 1000000, Emin = 370000, G = 0.36, source = "4A", confidence = "read"},
        ["No.2"] = {Fb = 700, Ft = 425, Fv = 155, Fc_perp = 425, Fc = 650,
          E = 1000000, Emin = 370000, G = 0.36, source = "4A", confidence = "read"},
        ["No.3"] = {Fb = 400, Ft = 250, Fv = 155, Fc_perp = 425, Fc = 375,
          E = 900000, Emin = 330000, G = 0.36, source = "4A", confidence = "memory"},
      },
    },
    ["Redwood"] = {
      table = "4A", aliases = {},
      grades = {
        SS = {Fb = 1350, Ft = 800, Fv = 160, Fc_perp = 650, Fc = 1500,
          E = 1400000, Emin = 510000, G = 0.44, source = "4A", confidence = "memory"},
        ["No.1"] = {Fb = 975, Ft = 575, Fv = 160, Fc_perp = 650, Fc = 1200,
          E = 1300000, Emin = 470000, G = 0.44, source = "4A", confidence = "memory"},
        ["No.2"] = {Fb = 925, Ft = 525, Fv = 160, Fc_perp = 650, Fc = 950,
          E = 1200000, Emin = 440000, G = 0.44, source = "4A", confidence = "memory"},
        ["No.3"] = {Fb = 525, Ft = 300, Fv = 160, Fc_perp = 650, Fc = 550,
          E = 1100000, Emin = 400000, G = 0.44, source = "4A", confidence = "memory"},
      },
    },
    ["Redwood (open grain)"] = {
      table = "4A", aliases = {},
      grades = {
        SS = {Fb = 1100, Ft = 625, Fv = 160, Fc_perp = 425, Fc = 1100,
          E = 1100000, Emin = 400000, G = 0.37, source = "4A", confidence = "memory"},
        ["No.1"] = {Fb = 775, Ft = 450, Fv = 160, Fc_perp = 425, Fc = 900,
          E = 1100000, Emin = 400000, G = 0.37, source = "4A", confidence = "memory"},
        ["No.2"] = {Fb = 725, Ft = 425, Fv = 160, Fc_perp = 425, Fc = 700,
          E = 1000000, Emin = 370000, G = 0.37, source = "4A", confidence = "memory"},
      },
    },
    ["Southern Pine"] = {
      table = "4B", aliases = {"SP", "SYP", "Southern Yellow Pine"},
      grades = {
        SS = {by_size = {
          ["2x4"] = {Fb = 2350, Ft = 1650, Fv = 175, Fc_perp = 565, Fc = 1900,
            E = 1800000, Emin = 660000, G = 0.55, source = "4B SI", confidence = "read"},
          ["2x6"] = {Fb = 2100, Ft = 1450, Fv = 175, Fc_perp = 565, Fc = 1800,
            E = 1800000, Emin = 660000, G = 0.55, source = "4B SI", confidence = "read"},
          ["2x8"] = {Fb = 1950, Ft = 1350, Fv = 175, Fc_perp = 565, Fc = 1700,
            E = 1800000, Emin = 660000, G = 0.55, source = "4B SI", confidence = "read"},
          ["2x10"] = {Fb = 1700, Ft = 1150, Fv = 175, Fc_perp = 565, Fc = 1650,
            E = 1800000, Emin = 660000, G = 0.55, source = "4B SI", confidence = "read"},
          ["2x12"] = {Fb = 1600, Ft = 1100, Fv = 175, Fc_perp = 565, Fc = 1650,
            E = 1800000, Emin = 660000, G = 0.55, source = "4B SI", confidence = "read"},
        }},
        ["No.1"] = {by_size = {
          ["2x4"] = {Fb = 1500, Ft = 1000, Fv = 175, Fc_perp = 565, Fc = 1650,
            E = 1600000, Emin = 580000, G = 0.55, source = "4B SI", confidence = "read"},
          ["2x6"] = {Fb = 1350, Ft = 875, Fv = 175, Fc_perp = 565, Fc = 1550,
            E = 1600000, Emin = 580000, G = 0.55, source = "4B SI", confidence = "read"},
          ["2x8"] = {Fb = 1250, Ft = 800, Fv = 175, Fc_perp = 565, Fc = 1500,
            E = 1600000, Emin = 580000, G = 0.55, source = "4B SI", confidence = "read"},
          ["2x10"] = {Fb = 1050, Ft = 700, Fv = 175, Fc_perp = 565, Fc = 1450,
            E = 1600000, Emin = 580000, G = 0.55, source = "4B SI", confidence = "read"},
          ["2x12"] = {Fb = 1000, Ft = 650, Fv = 175, Fc_perp = 565, Fc = 1400,
            E = 1600000, Emin = 580000, G = 0.55, source = "4B SI", confidence = "read"},
        }},
        ["No.2"] = {by_size = {
          ["2x4"] = {Fb = 1100, Ft = 675, Fv = 175, Fc_perp = 565, Fc = 1450,
            E = 1400000, Emin = 510000, G = 0.55, source = "4B", confidence = "read"},
          ["2x6"] = {Fb = 1000, Ft = 600, Fv = 175, Fc_perp = 565, Fc = 1400,
            E = 1400000, Emin = 510000, G = 0.55, source = "4B", confidence = "read"},
          ["2x8"] = {Fb = 925, Ft = 550, Fv = 175, Fc_perp = 565, Fc = 1350,
            E = 1400000, Emin = 510000, G = 0.55, source = "4B", confidence = "read"},
          ["2x10"] = {Fb = 800, Ft = 475, Fv = 175, Fc_perp = 565, Fc = 1300,
            E = 1400000, Emin = 510000, G = 0.55, source = "4B", confidence = "read"},
          ["2x12"] = {Fb = 750, Ft = 450, Fv = 175, Fc_perp = 565, Fc = 1250,
            E = 1400000, Emin = 510000, G = 0.55, source = "4B", confidence = "read"},
        }},
        ["No.3"] = {by_size = {
          ["2x4"] = {Fb = 650, Ft = 400, Fv = 175, Fc_perp = 565, Fc = 850,
            E = 1300000, Emin = 470000, G = 0.55, source = "4B SI", confidence = "read"},
          ["2x6"] = {Fb = 575, Ft = 350, Fv = 175, Fc_perp = 565, Fc = 800,
            E = 1300000, Emin = 470000, G = 0.55, source = "4B SI", confidence = "read"},
          ["2x8"] = {Fb = 525, Ft = 325, Fv = 175, Fc_perp = 565, Fc = 775,
            E = 1300000, Emin = 470000, G = 0.55, source = "4B SI", confidence = "read"},
          ["2x10"] = {Fb = 475, Ft = 275, Fv = 175, Fc_perp = 565, Fc = 750,
            E = 1300000, Emin = 470000, G = 0.55, source = "4B SI", confidence = "read"},
          ["2x12"] = {Fb = 450, Ft = 250, Fv = 175, Fc_perp = 565, Fc = 725,
            E = 1300000, Emin = 470000, G = 0.55, source = "4B SI", confidence = "read"},
        }},
      },
    },
  },

  -- Size factors by nominal width in inches, first row whose `to` is not exceeded. Fb_4x
  -- is the Fb factor of lumber 4 in thick. A row `as` takes values and CF of that grade.
  size_factors = {
    {table = "4A", grades = {"SS", "No.1&Btr", "No.1", "No.1/No.2", "No.2", "No.3"},
      rows = {
        {to = 4, Fb = 1.5, Fb_4x = 1.5, Ft = 1.5, Fc = 1.15,
          source = "4A CF", confidence = "read"},
        {to = 5, Fb = 1.4, Fb_4x = 1.4, Ft = 1.4, Fc = 1.1,
          source = "4A CF", confidence = "read"},
        {to = 6, Fb = 1.3, Fb_4x = 1.3, Ft = 1.3, Fc = 1.1,
          source = "4A CF", confidence = "read"},
        {to = 8, Fb = 1.2, Fb_4x = 1.3, Ft = 1.2, Fc = 1.05,
          source = "4A CF", confidence = "read"},
        {to = 10, Fb = 1.1, Fb_4x = 1.2, Ft = 1.1, Fc = 1,
          source = "4A CF", confidence = "read"},
        {to = 12, Fb = 1, Fb_4x = 1.1, Ft = 1, Fc = 1,
          source = "4A CF", confidence = "read"},
        {from = 14, Fb = 0.9, Fb_4x = 1, Ft = 0.9, Fc = 0.9,
          source = "4A CF", confidence = "read"},
      }},
    {table = "4A", grades = {"Stud"},
      rows = {
        {to = 4, Fb = 1.1, Fb_4x = 1.1, Ft = 1.1, Fc = 1.05,
          source = "4A CF", confidence = "read"},
        {to = 6, Fb = 1, Fb_4x = 1, Ft = 1, Fc = 1,
          source = "4A CF", confidence = "read"},
        {from = 8, as = "No.3", source = "4A", confidence = "memory"},
      }},
    {table = "4A", grades = {"Construction", "Standard"},
      rows = {
        {to = 4, Fb = 1, Fb_4x = 1, Ft = 1, Fc = 1,
          source = "4A CF", confidence = "memory"},
      }},
    {table = "4A", grades = {"Utility"},
      rows = {
        {to = 3, Fb = 0.4, Ft = 0.4, Fc = 0.6, source = "4A CF", confidence = "memory"},
        {to = 4, Fb = 1, Fb_4x = 1, Ft = 1, Fc = 1,
          source = "4A CF", confidence = "memory"},
      }},
    -- Southern Pine: every grade. The 4-in and the over-12-in rule are from memory; over
    -- 12 in the factor stands on the 12-in values.
    {table = "4B",
      rows = {
        {to = 6, Fb = 1, Fb_4x = 1, Ft = 1, Fc = 1, source = "4B", confidence = "read"},
        {to = 12, Fb = 1, Fb_4x = 1.1, Ft = 1, Fc = 1, source = "4B", confidence = "read",
          confidence_4x = "memory"},
        {from = 14, Fb = 0.9, Fb_4x = 0.99, Ft = 0.9, Fc = 0.9, source = "4B",
          confidence = "memory"},
      }},
  },
}
