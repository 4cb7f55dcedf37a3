-- SPDX-License-Identifier: MIT
-- Where the rules stand that messages and notes name, by what they are about.
return {
  across_grain = "NDS 3.4.3.3",
  bracing = "NDS 4.4.1.2",
  built_up_post = "NDS 15.3",
  double_shear = "NDS 12.3.1",
  eccentric_post = "NDS 15.4.1 (memory)",
  emin = "NDS Appendix D.4 with COV 0.25 (memory)",
  end_grain = "NDS 3.10.1",
  end_insert = "NDS 3.10.1.3, memory",
  gates = "NDS 4.4.3",
  group_action = "NDS 11.3.6",
  group_pairs = "NDS 11.3.6.3",
  joint_duration = "NDS 11.3.2",
  name = "NDS",
  outer_rows = "NDS 12.5.1.3",
  plain_footing = "IRC R403.1.1",
  plates_on_edge = "AISC 360 F11, F9.4, from memory",
  sharing = "NDS commentary C15.1.1",
  sheet_steel = "AISI S100",
  slender_post = "NDS 3.7.1.4",
  tear_out = "NDS App. E (memory)",
}
