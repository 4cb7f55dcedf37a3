-- SPDX-License-Identifier: MIT
-- Trade sizes of nails, wood screws and lag screws, and bending yield strengths; in, psi.
-- confidence: read = read in a copy of the document; memory = not seen, from memory;
-- "confirmed": published table values come out only with it.
return {
  -- name, diameter, length (nails)
  nails = {
    common = {
      source = "ASTM F1667, NDS Table L4", confidence = "memory", -- 8d, 10d, 16d read
      sizes = {
        ["6d"] = {0.113, 2}, ["8d"] = {0.131, 2.5}, ["10d"] = {0.148, 3},
        ["12d"] = {0.148, 3.25}, ["16d"] = {0.162, 3.5}, ["20d"] = {0.192, 4},
        ["30d"] = {0.207, 4.5}, ["40d"] = {0.225, 5}, ["60d"] = {0.263, 6},
      },
      read = {"8d", "10d", "16d"},
    },
    box = {
      source = "ASTM F1667, NDS Table L4", confidence = "memory",
      sizes = {
        ["6d"] = {0.099, 2}, ["8d"] = {0.113, 2.5}, ["10d"] = {0.128, 3},
        ["12d"] = {0.128, 3.25}, ["16d"] = {0.135, 3.5}, ["20d"] = {0.148, 4},
      },
    },
    sinker = {
      source = "ASTM F1667, NDS Table L4", confidence = "memory",
      sizes = {
        ["6d"] = {0.092, 1.875}, ["8d"] = {0.113, 2.375}, ["10d"] = {0.12, 2.875},
        ["12d"] = {0.135, 3.125}, ["16d"] = {0.148, 3.25}, ["20d"] = {0.177, 3.75},
      },
    },
  },

  -- number -> diameter, root diameter; of #10 both were read
  screws = {
    source = "NDS Table L3", confidence = "memory", read = {10},
    sizes = {
      [6] = {0.138, 0.113}, [7] = {0.151, 0.122}, [8] = {0.164, 0.131},
      [9] = {0.177, 0.142}, [10] = {0.19, 0.152}, [12] = {0.216, 0.171},
      [14] = {0.242, 0.196}, [16] = {0.268, 0.209}, [18] = {0.294, 0.232},
      [20] = {0.32, 0.255}, [24] = {0.372, 0.298},
    },
  },

  -- diameter, root diameter, tip. Roots of 1/4, 5/16, 3/8 are confirmed by Table 12K;
  -- the tip of 1/2 was read in a worked example.
  lags = {
    source = "NDS Table L2", confidence = "memory", confirmed = {0.25, 0.3125, 0.375},
    sizes = {
      {0.25, 0.173, 0.15625}, {0.3125, 0.227, 0.1875}, {0.375, 0.265, 0.21875},
      {0.4375, 0.328, 0.28125}, {0.5, 0.371, 0.3125}, {0.625, 0.471, 0.40625},
      {0.75, 0.579, 0.5}, {0.875, 0.683, 0.59375}, {1, 0.78, 0.6875},
    },
  },
  bolts = {least = 0.25, most = 1.5}, -- any diameter between, full body

  -- Bending yield strength: the first row with D <= to. Below 'from': not on file.
  bending = {
    nail = {
      from = 0.099, source = "NDS Table I1",
      {to = 0.142, F_yb = 100000, confidence = "memory"},
      {to = 0.177, F_yb = 90000, confidence = "read"},
      {to = 0.236, F_yb = 80000, confidence = "read"},
      {to = 0.273, F_yb = 70000, confidence = "memory"},
      {to = 0.344, F_yb = 60000, confidence = "memory"},
      {to = 0.375, F_yb = 45000, confidence = "memory"},
    },
    ["hardened nail"] = {
      from = 0.12, source = "NDS Table I1",
      {to = 0.142, F_yb = 130000, confidence = "memory"},
      {to = 0.192, F_yb = 115000, confidence = "memory"},
      {to = 0.207, F_yb = 100000, confidence = "memory"},
    },
    ["lag screw"] = {
      from = 0.25, source = "NDS Table I1",
      {to = 0.25, F_yb = 70000, confidence = "memory, confirmed by Table 12K"},
      {to = 0.3125, F_yb = 60000, confidence = "memory, confirmed by Table 12K"},
      {to = 1.25, F_yb = 45000, confidence = "memory, confirmed by Table 12K"},
    },
    bolt = {
      from = 0.25, source = "NDS Table I1, A307 and SAE J429 Grade 1",
      {to = 1.5, F_yb = 45000, confidence = "read"},
    },
  },

  -- Shear strength of the shank's steel. Nails and screws are taken as no weaker than
  -- low-carbon bolts; on the root area where there is thread.
  shank = {F_nv = 27000, source = "AISC 360 Table J3.2, A307", confidence = "memory"},
}
