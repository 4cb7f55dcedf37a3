-- SPDX-License-Identifier: MIT
-- What blank field books and sheets say of units, metric: settings of the survey, hints,
-- and the examples and explanations of the columns by how they are written in US units.
return {
  units = "mm", settings = {{"units", "mm"}},
  hints = {length = "mm, or m with its unit", area = "kPa or kN/m2", line = "kN/m",
    point = "kN or N", fastener = "bolt 12 mm; nail 3.1 x 90 mm", stress = "N/mm2"},
  about = "Lengths: a bare number is mm; 4.1 m and 4100 mm are the same. Loads: kPa, "
    .. "kN/m, kN with their unit. Numbers have a decimal point, or a comma where the "
    .. "sheet survey says so under 'decimal'. The cells are text; keep them so.",
  sizes = {"38x89", "38x140", "38x184", "38x235", "38x286", "47x170", "47x195", "47x220"},
  written = {
    ["0-8"] = "200", ["2x10"] = "38x235", ["2x10, full-sawn 2x8"] = "38x235, 47x220",
    ["9-1/4 in"] = "235", ["9-1/8 in"] = "232", ["13-6"] = "4100", ["16 in"] = "400",
    ["3-1/2 in"] = "90", ["12 psf"] = "0.6 kPa", ["40 psf"] = "1.9 kPa",
    ["several spans, 9-0 + 8-6"] = "several spans, 2700 + 2600",
    ["places of blocking, 4-6; 9-0"] = "places of blocking, 1400; 2700",
    ["two places of shores, 5-0; 7-6"] = "two places of shores, 1500; 2300",
    ["probe went in 1/4 in"] = "probe went in 6 mm", ["5-2"] = "1580", ["2-0"] = "600",
    ["2-4"] = "700", ["4 in"] = "100", ["1-1/2 in"] = "40", ["2 in"] = "50",
    ["3/4 supply line"] = "22 mm supply line", ["3-0"] = "900", ["0 in"] = "0",
    ["8-0"] = "2400", ["7-0"] = "2100", ["5 in"] = "125", ["3 in"] = "75",
    ["8 in"] = "200", ["7 in"] = "175", ["80 plf"] = "1.2 kN/m", ["4-0"] = "1200",
    ["9-0"] = "2700", ["32 in"] = "800", ["300 lb"] = "1.3 kN", ["420 lb"] = "1.9 kN",
    ["170 lb"] = "0.75 kN", ["900 lb"] = "4 kN", ["1/2 in bolt"] = "bolt 12 mm",
    ["with its unit: lb, plf, psf, kN, kN/m, kPa"] = "with its unit: kN, kN/m, kPa",
    ["one place, or two: 5-10; 6-7"] = "one place, or two: 1780; 2010",
    ["1/2 in bolt; lag screw 1/4 x 3 in; wood screw 14 x 3 in; nail 16d"]
      = "bolt 12 mm; nail 3.1 x 90 mm",
    ["places, or number @ place: 4 @ 3-4; 4 @ 5-10"]
      = "places, or number @ place: 4 @ 1020; 4 @ 1780",
  },
  along = {all = 6, step = 0.5, long = 1, number = 1, says = "meters"},
  up = {all = 300, step = 25, long = 100, says = "mm"},
}
