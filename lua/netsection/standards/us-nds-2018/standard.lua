-- SPDX-License-Identifier: MIT
-- National Design Specification for Wood Construction 2018: what does not depend on the
-- design format. Each file format_<name>.lua beside this one is a standard of its own,
-- us-nds-2018-<name>, with its combinations and factors.
-- Openings past 0.40 d never pass unaided: in tests of glulam with round holes net shear
-- area was 10 to 16 % too high there.
return {
  family = "nds",
  end_notch = {value = 1 / 4, says = "d/4 at an end notch", clause = "NDS 4.4.3",
    confidence = "read", gates = {1}},
  inner_notch = {value = 1 / 6, says = "d/6 at a notch away from the ends",
    clause = "NDS 4.4.3", confidence = "memory", gates = {2}},
  outer_part = {value = 1 / 3, says = "no notch in the middle third",
    clause = "NDS 4.4.3", confidence = "memory", gates = {3, 4}},
  thick = {value = 3.5, says = "3-1/2 in, notches in the tension face",
    clause = "NDS 4.4.3", confidence = "memory", gates = {5}},
  tested_hole = {value = 0.40, says = "0.40 d, openings", confidence = "computed",
    source = "published tests of beams with round holes", gates = {7}},
  gates = {
    "", -- none
    "end notch deeper than d/4 (NDS 4.4.3)",
    "notch deeper than d/6 (NDS 4.4.3)",
    "notch in the middle third of the span (NDS 4.4.3)",
    "notch away from the ends of a member that is not a single span (NDS 4.4.3)",
    "notch in the tension face of a member 3-1/2 in or thicker (NDS 4.4.3)",
    "cut through: nothing is left to carry moment or shear",
    "opening deeper than 0.40 d: never adequate unaided, by tests of beams with holes",
  },
}
