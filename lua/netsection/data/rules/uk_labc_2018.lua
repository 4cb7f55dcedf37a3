-- SPDX-License-Identifier: MIT
-- Notches and holes in floor joists, guidance of UK local building control of 2018 to
-- span tables by EN 1995-1-1 (read). Where the zones begin, at the bearing's center or
-- its face, is our reading: the center of the bearing.
return {
  name = "uk-labc-2018", unit = "mm", lang = "en-GB", confidence = "read",
  title = "LABC guidance on span tables 2018, 3.22 (practice of BS 5268-2)",
  scope = "England, Wales: simply supported domestic joists",
  notes = {"notches in the top or the bottom edge, not in both",
    "zones from the center of the bearing: our reading"},
  covers = {"hole", "slot", "notch", "end_notch", "sever"},
  covers_depth = 300, covers_depth_says = "joists deeper than 300 mm: an engineer",
  not_covered = "the guidance does not address this cut",
  not_covered_hogging = "the guidance is for simply supported joists",
  limits = {
    {kinds = {"notch", "end_notch"}, measure = "depth", of_d = 0.125, cap = 35,
      clause = "LABC 3.22", text = "notch depth", says = "0.125 d, at most 35 mm"},
    {kinds = {"sever"}, measure = "depth", of_d = 0.125, clause = "LABC 3.22",
      text = "cut through, depth", says = "0.125 d"},
    {kinds = {"notch", "end_notch"}, measure = "first", at_least = true, of_L = 0.07,
      clause = "LABC 3.22", text = "nearest edge of the notch from the support",
      says = "0.07 L"},
    {kinds = {"notch", "end_notch"}, measure = "last", of_L = 0.25, clause = "LABC 3.22",
      text = "farthest edge of the notch from the nearer support", says = "0.25 L"},
    {kinds = {"hole", "slot"}, measure = "first", at_least = true, of_L = 0.25,
      clause = "LABC 3.22", text = "nearest edge of the hole from the support",
      says = "0.25 L"},
    {kinds = {"hole", "slot"}, measure = "last", of_L = 0.4, clause = "LABC 3.22",
      text = "farthest edge of the hole from the nearer support", says = "0.4 L"},
    {kinds = {"hole", "slot"}, measure = "size", of_d = 0.25, cap = 65,
      clause = "LABC 3.22", text = "hole diameter or longer side",
      says = "0.25 d, at most 65 mm"},
    {kinds = {"hole", "slot"}, measure = "off axis", plus = 0.5, clause = "LABC 3.22",
      text = "center of the hole from mid-depth",
      says = "on the center line (0.5 mm, ours)"},
    {kinds = {"hole", "slot"}, measure = "centers", at_least = true, of_size = 3,
      clause = "LABC 3.22", text = "holes center to center", says = "3 diameters"},
  },
}
