-- SPDX-License-Identifier: MIT
-- Cuts in conventional light-frame construction, 2015 to 2021 International Building
-- Code, 2308.4.2.4; read in state texts. "In the middle third" is read as reaching past
-- L/3.
return {
  name = "us-ibc-2015-2021", confidence = "read",
  title = "2015 to 2021 International Building Code, 2308.4.2.4",
  scope = "United States, conventional light-frame construction, where adopted",
  notes = {
    "this clause has no limit on the length of a notch, nor on the distance between "
    .. "holes or from a hole to a notch"},
  covers = {"hole", "slot", "notch", "end_notch", "sever"},
  not_covered = "2308.4.2.4 does not address this cut",
  not_covered_hogging = "2308.4.2.4 has no rule for overhangs or where the top is "
    .. "in tension",
  limits = {
    {kinds = {"notch"}, measure = "depth", of_d = 1 / 6, clause = "2308.4.2.4",
      text = "notch depth", says = "d/6"},
    {kinds = {"sever"}, measure = "depth", of_d = 1 / 6, clause = "2308.4.2.4",
      text = "cut through, depth", says = "d/6"},
    {kinds = {"notch"}, measure = "reach", of_L = 1 / 3, clause = "2308.4.2.4",
      text = "reach of the notch from the nearer bearing", says = "L/3, outer thirds"},
    {kinds = {"end_notch"}, measure = "depth", of_d = 1 / 4, clause = "2308.4.2.4",
      text = "end notch depth", says = "d/4"},
    {kinds = {"end_notch"}, measure = "past face", of_d = 1 / 3, clause = "2308.4.2.4",
      text = "end notch past the face of the bearing",
      says = "d/3 (our reading of 'at the ends')"},
    {kinds = {"hole"}, measure = "size", of_d = 1 / 3, clause = "2308.4.2.4",
      text = "hole diameter", says = "d/3"},
    {kinds = {"slot"}, measure = "size", of_d = 1 / 3, clause = "2308.4.2.4",
      text = "longer side of the slot", says = "d/3"},
    {kinds = {"hole", "slot"}, measure = "edge below", at_least = true, plus = 2,
      clause = "2308.4.2.4", text = "wood left below", says = "2 in"},
    {kinds = {"hole", "slot"}, measure = "edge above", at_least = true, plus = 2,
      clause = "2308.4.2.4", text = "wood left above", says = "2 in"},
  },
}
