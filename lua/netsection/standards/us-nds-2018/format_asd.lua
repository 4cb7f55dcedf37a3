-- SPDX-License-Identifier: MIT
-- Allowable stress design. Load duration from NDS Table 2.3.2 (read).
return {
  name = "us-nds-2018-asd",
  title = "NDS 2018, allowable stress design",
  format = "ASD",
  confidence = "read",
  scope = "United States, allowable stress design",
  duration = "CD",
  combinations = {
    {name = "D", D = 1, L = 0, CD = 0.9},
    {name = "D+L", D = 1, L = 1, CD = 1.0},
  },
}
