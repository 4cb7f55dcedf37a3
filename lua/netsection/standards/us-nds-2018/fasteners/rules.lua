-- SPDX-License-Identifier: MIT
-- Distances of fasteners and the factors of connections. Distances are multiples of the
-- nominal diameter D: least, and for the full value.
-- confidence: read = read in a copy of the document; memory = not seen, from memory.
return {
  -- D >= 1/4 in
  large = {
    source = "NDS Tables 12.5.1A to D", confidence = "memory", -- edge distances read
    ["end"] = {
      ["parallel tension softwood"] = {3.5, 7},
      ["parallel tension hardwood"] = {2.5, 5},
      ["parallel compression"] = {2, 4},
      perpendicular = {2, 4},
    },
    spacing = {
      parallel = {3, 4},
      -- what the attached member asks for; steel asks for no more than the least
      perpendicular = {3, 3},
    },
    edge = 1.5,
    loaded_edge = {parallel = 1.5, perpendicular = 4},
    row = {parallel = 1.5, perpendicular = 0}, -- 0: by l/D
    rows_apart = 5, -- in, of the outer rows on one splice plate (12.5.1.3)
  },

  -- D < 1/4 in: recommendations. End distance by tension and compression, pitch along
  -- and across the grain, rows in line and staggered.
  small = {
    source = "NDS Commentary Tables C12.1.5.7 and C12.1.6.6", confidence = "memory",
    wood = {
      driven = {tension = 15, compression = 10, edge = 2.5, parallel = 15,
        perpendicular = 10, row = 5, row_staggered = 2.5},
      prebored = {tension = 10, compression = 5, edge = 2.5, parallel = 10,
        perpendicular = 5, row = 3, row_staggered = 2.5},
    },
    steel = {
      driven = {tension = 10, compression = 5, edge = 2.5, parallel = 10,
        perpendicular = 5, row = 3, row_staggered = 2.5},
      prebored = {tension = 5, compression = 3, edge = 2.5, parallel = 5,
        perpendicular = 2.5, row = 2.5, row_staggered = 2.5},
    },
  },

  -- Lead hole of the thread as a part of D: for G up to 0.5, up to 0.6, above.
  lead_holes = {
    ["lag screw"] = {{0.5, 0.40, 0.70}, {0.6, 0.60, 0.75}, {1.5, 0.65, 0.85},
      source = "NDS 12.1.4.2", confidence = "memory"},
    nail = {{0.6, 0, 0.75}, {1.5, 0, 0.90}, source = "NDS 12.1.6", confidence = "read"},
    -- shank as a part of D, thread as a part of the root diameter
    ["wood screw"] = {{0.6, 7 / 8, 7 / 8}, {1.5, 1, 1}, of_root = true,
      source = "NDS 12.1.5", confidence = "memory"},
    bolt = {over = {1 / 32, 1 / 16}, source = "NDS 12.1.3.2", confidence = "read"},
  },

  factors = {
    moisture = {
      source = "NDS Table 11.3.3", confidence = "memory", -- 0.7 lateral wet read
      lateral = {
        dry = 1, wet = 0.7, drying = {large = 0.4, small = 0.7},
        -- one fastener, or one row along the grain
        ["drying, one row"] = {large = 1, small = 0.7},
      },
      withdrawal = {
        ["lag screw"] = {dry = 1, wet = 0.7, drying = 1},
        ["wood screw"] = {dry = 1, wet = 0.7, drying = 1},
        -- wood that stays wet from the start has more; it is not counted on
        nail = {dry = 1, wet = 0.25, drying = 0.25},
      },
    },
    -- degrees F, up to: dry, wet
    temperature = {
      source = "NDS Table 11.3.4", confidence = "memory",
      {100, dry = 1, wet = 1}, {125, dry = 0.8, wet = 0.7}, {150, dry = 0.7, wet = 0.5},
    },
    end_grain = {
      source = "NDS 12.5.2", confidence = "memory", -- lateral and nails read
      lateral = 0.67, ["lag screw"] = 0.75, nail = 0, ["wood screw"] = 0,
    },
    toe_nail = {source = "NDS 12.5.4", confidence = "memory", lateral = 0.83,
      withdrawal = 0.67},
  },
}
