-- SPDX-License-Identifier: MIT
-- What blank field books and sheets say of units, US customary. The fields are those of
-- metric_blank.lua; examples of the columns are written in these units.
return {
  units = "in", settings = {{"# units", "of bare lengths: in, ft, mm, cm, m"}},
  hints = {length = "ft-in, in, mm", area = "psf or kPa", line = "plf or kN/m",
    point = "lb or kN", fastener = "1/2 in bolt; lag screw 1/4 x 3 in; nail 16d",
    stress = "psi"},
  about = "Lengths: 13-6 is 13 ft 6 in; 3-1/2 in; 89 mm; a bare number is inches. Loads: "
    .. "psf, plf, lb, or kPa, kN/m, kN with their unit. The cells are text, so that 13-6 "
    .. "stays what it is; keep them so.",
  written = {}, sizes = {"2x4", "2x6", "2x8", "2x10", "2x12", "2x14"},
  -- The blank elevation: how long, marks, every how many a long one and a number; the
  -- section: how high, marks, every how many a long one with its number.
  along = {all = 20, step = 1, long = 5, number = 2, says = "feet"},
  up = {all = 12, step = 1, long = 3, says = "inches"},
}
