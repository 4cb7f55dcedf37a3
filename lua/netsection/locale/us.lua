-- SPDX-License-Identifier: MIT
-- How quantities are printed in US customary units: feet and inches with fractions for
-- what is taped off, decimals for what is computed. The fields are those of
-- locale/metric.lua; one of a unit is 'per' base units (in, lb, psi, lb-in, plf, psf).
return {
  name = "us", title = "US customary units", paper = "letter", tape = true,
  kinds = {
    length = {unit = "in", per = 1},
    area = {unit = "in2", per = 1},
    modulus = {unit = "in3", per = 1},
    inertia = {unit = "in4", per = 1},
    force = {unit = "lb", per = 1},
    moment = {unit = "ft-lb", per = 12},
    section_moment = {unit = "lb-in", per = 1},
    stress = {unit = "psi", per = 1},
    line_load = {unit = "plf", per = 1},
    inch_load = {unit = "lb/in", per = 1},
    area_load = {unit = "psf", per = 1},
    rigidity = {unit = "lb-in2", per = 1},
    slip = {unit = "lb/in", per = 1},
    rotation = {unit = "lb-in/rad", per = 1},
    deck_moment = {unit = "lb-in per ft", per = 1},
    deck_rigidity = {unit = "lb-in2 per ft", per = 1},
    speed = {unit = "in/s", per = 1},
    area_rate = {unit = "in/lb", per = 1},
    unit_weight = {unit = "pcf", per = 1},
  },
  -- Lengths of a line load to one of the length unit: D*s/12 is plf.
  run = "12",
  -- What sums over a joist are written in: ft, lb, plf; a moment is 12 times theirs.
  sums = {unit = "ft", length = 12, force = 1, line_load = 1, arm = 12,
    arm_unit = "ft-lb",
    force_unit = "lb", moment_unit = "lb-in"},
  -- Table cells are rounded down (what is allowed) or up (what is required) to whole
  -- steps, in base units, and charts are ticked in them.
  steps = {length = 1 / 8, spacing = 0.1, span = 1, force = 10},
  -- Scales of a drawing to be built from: an inch of paper is so many, and its name.
  scales = {{2, [[6" = 1'-0"]]}, {4, [[3" = 1'-0"]]}, {6, [[2" = 1'-0"]]},
    {8, [[1 1/2" = 1'-0"]]}, {12, [[1" = 1'-0"]]}, {16, [[3/4" = 1'-0"]]},
    {24, [[1/2" = 1'-0"]]}, {32, [[3/8" = 1'-0"]]}, {48, [[1/4" = 1'-0"]]},
    {64, [[3/16" = 1'-0"]]}, {96, [[1/8" = 1'-0"]]}},
  -- What a table's unit is called in a sentence.
  words = {["ft-in"] = "feet and inches", ["in"] = "inches"},
  -- Lengths that lumber is sold in, ft (common practice).
  stock = {lengths = {8, 10, 12, 14, 16, 18, 20, 22, 24}, per = 12, form = "%s x %d ft",
    longest = "24 ft", step = 1},
  temperature = {unit = "F", scale = 1, zero = 0},
}
