-- SPDX-License-Identifier: MIT
-- National Design Specification for Wood Construction 2018: what does not depend on the
-- design format. Each file format_<name>.lua beside this one is a standard of its own,
-- us-nds-2018-<name>, with its combinations and factors.
-- Notch limits of 4.4.3: d/4 at an end (read); d/6, outer thirds and 3-1/2 in (memory).
-- Openings past 0.40 d never pass unaided: in tests of glulam with round holes net shear
-- area was 10 to 16 % too high there.
return {
  family = "nds",
  end_notch = 1 / 4,
  inner_notch = 1 / 6,
  outer_part = 1 / 3,
  thick = 3.5,
  tested_hole = 0.40,
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
