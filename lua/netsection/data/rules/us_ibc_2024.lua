-- SPDX-License-Identifier: MIT
-- Cuts in conventional light-frame construction, 2024 International Building Code,
-- 2308.6.1; read in state texts. "In the middle third" is read as reaching past L/3.
return {
  name = "us-ibc-2024", confidence = "read",
  title = "2024 International Building Code, 2308.6.1",
  scope = "United States, conventional light-frame construction, where adopted",
  covers = {"hole", "slot", "notch", "end_notch", "sever"},
  not_covered = "2308.6.1 does not address this cut",
  not_covered_hogging = "2308.6.1 has no rule for overhangs or where the top is in "
    .. "tension",
  limits = {
    {kinds = {"notch"}, measure = "depth", of_d = 1 / 6, clause = "2308.6.1",
      text = "notch depth", says = "d/6"},
    {kinds = {"sever"}, measure = "depth", of_d = 1 / 6, clause = "2308.6.1",
      text = "cut through, depth", says = "d/6"},
    {kinds = {"notch"}, measure = "reach", of_L = 1 / 3, clause = "2308.6.1",
      text = "reach of the notch from the nearer bearing", says = "L/3, outer thirds"},
    {kinds = {"end_notch"}, measure = "depth", of_d = 1 / 4, clause = "2308.6.1",
      text = "end notch depth", says = "d/4"},
    {kinds = {"hole"}, measure = "size", of_d = 1 / 3, clause = "2308.6.1",
      text = "hole diameter", says = "d/3"},
    {kinds = {"slot"}, measure = "size", of_d = 1 / 3, clause = "2308.6.1",
      text = "longer side of the slot", says = "d/3"},
    {kinds = {"hole", "slot"}, measure = "edge below", at_least = true, plus = 2,
      clause = "2308.6.1", text = "wood left below", says = "2 in"},
    {kinds = {"hole", "slot"}, measure = "edge above", at_least = true, plus = 2,
      clause = "2308.6.1", text = "wood left above", says = "2 in"},
    {kinds = {"hole", "slot"}, measure = "clear notch", at_least = true, plus = 2,
      clause = "2308.6.1", text = "clear distance to a notch", says = "2 in"},
  },
}
