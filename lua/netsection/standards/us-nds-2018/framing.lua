-- SPDX-License-Identifier: MIT
-- Framing of openings, 2021 International Residential Code, R502.10. Read in copies of
-- its twin R802.9 and in a framing guide; R502.10 itself from memory. Inches.
return {
  clause = "R502.10 (memory)",
  single_header = 48,   -- longest header that may be single, of the joists' size
  near_bearing = 36,    -- single trimmers: farthest that a header may be from a bearing
  header_hangers = 72,  -- longest header without hangers
  tail_anchors = 144,   -- longest tail without anchors or a ledger of 2x2
}
