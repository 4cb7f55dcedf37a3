-- SPDX-License-Identifier: MIT
-- Dressed sizes of dry lumber, in. Thickness is the nominal less 1/2; width the nominal
-- less 1/2 up to 6 and less 3/4 above. `width` leads from a dressed to a nominal width.
return {
  title = "dressed dry sizes",
  sources = {["1A"] = "PS 20; NDS Supplement 2018 Table 1A"},
  source = "1A",
  confidence = "read",

  sizes = {
    {nominal = "2x4", b = 1.5, d = 3.5, nominal_b = 2, nominal_d = 4},
    {nominal = "2x6", b = 1.5, d = 5.5, nominal_b = 2, nominal_d = 6},
    {nominal = "2x8", b = 1.5, d = 7.25, nominal_b = 2, nominal_d = 8},
    {nominal = "2x10", b = 1.5, d = 9.25, nominal_b = 2, nominal_d = 10},
    {nominal = "2x12", b = 1.5, d = 11.25, nominal_b = 2, nominal_d = 12},
    {nominal = "2x14", b = 1.5, d = 13.25, nominal_b = 2, nominal_d = 14},
    {nominal = "3x4", b = 2.5, d = 3.5, nominal_b = 3, nominal_d = 4},
    {nominal = "3x6", b = 2.5, d = 5.5, nominal_b = 3, nominal_d = 6},
    {nominal = "3x8", b = 2.5, d = 7.25, nominal_b = 3, nominal_d = 8},
    {nominal = "3x10", b = 2.5, d = 9.25, nominal_b = 3, nominal_d = 10},
    {nominal = "3x12", b = 2.5, d = 11.25, nominal_b = 3, nominal_d = 12},
    {nominal = "3x14", b = 2.5, d = 13.25, nominal_b = 3, nominal_d = 14},
    {nominal = "3x16", b = 2.5, d = 15.25, nominal_b = 3, nominal_d = 16},
    {nominal = "4x4", b = 3.5, d = 3.5, nominal_b = 4, nominal_d = 4},
    {nominal = "4x6", b = 3.5, d = 5.5, nominal_b = 4, nominal_d = 6},
    {nominal = "4x8", b = 3.5, d = 7.25, nominal_b = 4, nominal_d = 8},
    {nominal = "4x10", b = 3.5, d = 9.25, nominal_b = 4, nominal_d = 10},
    {nominal = "4x12", b = 3.5, d = 11.25, nominal_b = 4, nominal_d = 12},
    {nominal = "4x14", b = 3.5, d = 13.25, nominal_b = 4, nominal_d = 14},
    {nominal = "4x16", b = 3.5, d = 15.25, nominal_b = 4, nominal_d = 16},
  },

  -- Sizes as lumber was sawn and dried, mm by nominal inches (CSA O86 Table A.3, read);
  -- dry rough is full-sawn but for parts of a millimeter.
  sets = {
    ["dry dressed"] = {[2] = 38, [4] = 89, [6] = 140, [8] = 184, [10] = 235, [12] = 286},
    ["green dressed"] = {[2] = 40, [4] = 91, [6] = 143, [8] = 190, [10] = 241,
      [12] = 292},
    ["dry rough"] = {[2] = 51, [4] = 102, [6] = 152, [8] = 203, [10] = 254, [12] = 305},
    ["green rough"] = {[2] = 53, [4] = 104, [6] = 155, [8] = 209, [10] = 260,
      [12] = 311},
  },

  width = {
    [3.5] = 4, [5.5] = 6, [7.25] = 8, [9.25] = 10,
    [11.25] = 12, [13.25] = 14, [15.25] = 16,
  },
}
