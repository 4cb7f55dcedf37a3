-- SPDX-License-Identifier: MIT
-- How quantities are printed in metric units as timber engineers write them: mm, kN,
-- kN m, N/mm2, kN/m, kN/m2.
--
-- One of a unit is 'per' base units (in, lb, psi, lb-in, plf, psf); each factor is put
-- together from the exact inch and pound of units.per. 'shift' is how many decimals more
-- a number has here than where it is printed in its US unit; 'small' is the unit of
-- amounts below 'from' of the unit.
local units = require "netsection.units"

local per = units.per
local NEWTON, MM = per.N, per.mm

return {
  name = "metric", title = "metric units", paper = "a4", tape = false,
  kinds = {
    length = {unit = "mm", per = MM, shift = -2},
    area = {unit = "mm2", per = MM ^ 2, shift = -2},
    modulus = {unit = "mm3", per = MM ^ 3, shift = -3},
    inertia = {unit = "mm4", per = MM ^ 4, shift = -4},
    force = {unit = "kN", per = per.kN, shift = 2,
      small = {unit = "N", per = NEWTON, from = 0.1}},
    moment = {unit = "kN m", per = per.kN * per.m, shift = 2},
    section_moment = {unit = "N mm", per = NEWTON * MM, shift = -2},
    stress = {unit = "N/mm2", per = per.MPa, shift = 2},
    line_load = {unit = "kN/m", per = per["kN/m"], shift = 2},
    inch_load = {unit = "N/mm", per = NEWTON / MM, shift = 1},
    area_load = {unit = "kN/m2", per = per.kPa, shift = 2},
    rigidity = {unit = "N mm2", per = NEWTON * MM ^ 2, shift = -3},
    slip = {unit = "N/mm", per = NEWTON / MM, shift = 0},
    rotation = {unit = "N mm/rad", per = NEWTON * MM, shift = -2},
    deck_moment = {unit = "kN m per m", per = per.kN * per.m / (per.m / 12), shift = 3},
    deck_rigidity = {unit = "kN m2 per m", per = per.kN * per.m ^ 2 / (per.m / 12),
      shift = 2},
    speed = {unit = "mm/s", per = MM, shift = -1},
    area_rate = {unit = "mm/kN", per = MM / per.kN, shift = -1},
    unit_weight = {unit = "kN/m3", per = per.kPa / (per.m / 12), shift = 1},
  },
  run = "1000",
  -- m, N, N/m, of which one is so many plf; a moment in N mm is 1000 times theirs.
  sums = {unit = "m", length = per.m, force = NEWTON, line_load = 1000 / per["kN/m"],
    arm = 1000, arm_unit = "N m", force_unit = "N", moment_unit = "N mm"},
  steps = {length = 5 * MM, spacing = 5 * MM, span = 10 * MM, force = 0.05 * per.kN},
  -- Scales of a drawing to be built from (ISO 5455 and those between in use).
  scales = {{2}, {5}, {10}, {15}, {20}, {25}, {50}, {100}},
  -- What a table prints for a unit of its values, the step of the twin column where none
  -- is given, and how that column is headed.
  twins = {["ft-in"] = {kind = "length", step = 1}, ["in"] = {kind = "length", step = 1},
    lb = {kind = "force", step = 0.01},
    ["ft-lb"] = {kind = "moment", step = 0.01, head = "kN-m"},
    psi = {kind = "stress", step = 0.01, head = "MPa"},
    psf = {kind = "area_load", step = 0.01, head = "kPa"},
    plf = {kind = "line_load", step = 0.01}},
  -- Lengths that lumber is sold in, mm: steps of 300 (common practice, from memory).
  stock = {lengths = {1800, 2100, 2400, 2700, 3000, 3300, 3600, 3900, 4200, 4500, 4800,
    5100, 5400, 5700, 6000, 6300, 6600, 7200}, per = MM, form = "%s x %d mm",
    longest = "7200 mm", step = 300},
  temperature = {unit = "C", scale = 5 / 9, zero = 32},
}
