-- SPDX-License-Identifier: MIT
-- Allowable stress design. Load duration from NDS Table 2.3.2: 0.9 and 1.0 read; 1.15 of
-- snow and 1.25 of roof live load from memory, as are the combinations with them, ASCE
-- 7-16 2.4.1 no. 3 and 4. The shortest load of a combination gives its load duration.
return {
  name = "us-nds-2018-asd",
  title = "NDS 2018, allowable stress design",
  format = "ASD",
  confidence = "read",
  scope = "United States, allowable stress design",
  duration = "CD",
  -- a single live load may have a duration of its own, permanent to impact
  own_duration = {least = 0.9, most = 2, source = "NDS 2.3.2", confidence = "memory"},
  combinations = {
    {name = "D", D = 1, L = 0, CD = 0.9},
    {name = "D+L", D = 1, L = 1, CD = 1.0},
  },
  with_roof_or_snow = {
    {name = "D+Lr", D = 1, Lr = 1, CD = 1.25, confidence = "memory",
      source = "ASCE 7-16 2.4.1 no. 3; NDS Table 2.3.2"},
    {name = "D+S", D = 1, S = 1, CD = 1.15, confidence = "memory",
      source = "ASCE 7-16 2.4.1 no. 3; NDS Table 2.3.2"},
    {name = "D+0.75L+0.75Lr", D = 1, L = 0.75, Lr = 0.75, CD = 1.25,
      confidence = "memory", source = "ASCE 7-16 2.4.1 no. 4; NDS Table 2.3.2"},
    {name = "D+0.75L+0.75S", D = 1, L = 0.75, S = 0.75, CD = 1.15,
      confidence = "memory", source = "ASCE 7-16 2.4.1 no. 4; NDS Table 2.3.2"},
  },
}
