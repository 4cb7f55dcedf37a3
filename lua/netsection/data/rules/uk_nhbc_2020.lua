-- SPDX-License-Identifier: MIT
-- Notches and holes in floor joists, a UK standard of new-home warranties, 2020 (read).
-- The narrower zone allows the deeper notch. 100 mm to a notch is along the joist;
-- between holes it is taken clear. Close to heavy loads the standard asks for an
-- engineer.
return {
  name = "uk-nhbc-2020", unit = "mm", lang = "en-GB", confidence = "read",
  title = "NHBC Standards 2020, 6.4.18 Table 6",
  scope = "United Kingdom, new homes under that warranty standard",
  notes = {"close to heavy loads: an engineer; not judged here",
    "zones from the center of the bearing: our reading"},
  covers = {"hole", "slot", "notch", "end_notch", "sever"},
  covers_depth = 250, covers_depth_says = "joists deeper than 250 mm: an engineer",
  not_covered = "the guidance does not address this cut",
  not_covered_hogging = "the guidance is for simply supported joists",
  limits = {
    {kinds = {"notch", "end_notch"}, measure = "depth", face = "bottom", forbidden = true,
      clause = "NHBC 6.4.18", text = "notch in the bottom edge", says = "top edge only"},
    {kinds = {"notch", "end_notch"}, measure = "depth", of_d = 0.15,
      clause = "NHBC 6.4.18", text = "notch depth", says = "0.15 d"},
    {kinds = {"sever"}, measure = "depth", of_d = 0.15, clause = "NHBC 6.4.18",
      text = "cut through, depth", says = "0.15 d"},
    {kinds = {"notch", "end_notch"}, measure = "first", at_least = true, of_L = 0.1,
      clause = "NHBC 6.4.18", text = "nearest edge of the notch from the support",
      says = "0.1 L"},
    {kinds = {"notch", "end_notch"}, measure = "last", of_L = 0.2, clause = "NHBC 6.4.18",
      text = "farthest edge of the notch from the nearer support", says = "0.2 L"},
    {kinds = {"hole", "slot"}, measure = "first", at_least = true, of_L = 0.25,
      clause = "NHBC 6.4.18", text = "nearest edge of the hole from the support",
      says = "0.25 L"},
    {kinds = {"hole", "slot"}, measure = "last", of_L = 0.4, clause = "NHBC 6.4.18",
      text = "farthest edge of the hole from the nearer support", says = "0.4 L"},
    {kinds = {"hole", "slot"}, measure = "size", of_d = 0.25,
      clause = "NHBC 6.4.18", text = "hole diameter or longer side", says = "0.25 d"},
    {kinds = {"hole", "slot"}, measure = "off axis", plus = 0.5, clause = "NHBC 6.4.18",
      text = "center of the hole from mid-depth",
      says = "on the center line (0.5 mm, ours)"},
    {kinds = {"hole", "slot"}, measure = "clear hole", at_least = true, plus = 100,
      clause = "NHBC 6.4.18", text = "clear distance to another hole", says = "100 mm"},
    {kinds = {"hole", "slot"}, measure = "clear notch along", at_least = true, plus = 100,
      clause = "NHBC 6.4.18", text = "distance along the joist to a notch",
      says = "100 mm"},
  },
}
