-- SPDX-License-Identifier: MIT
-- Holes and notches of Part 9 of the National Building Code of Canada, as adopted in
-- Ontario, O. Reg. 332/12, 9.23.5.1 and 9.23.5.2 and 9.23.9.1 (read there; no notch on
-- the bottom: a federal guide's text). A hole may be larger, a notch in the top deeper or
-- farther from the bearing, in a member that is deeper by the cut than its span asks for
-- (`relieved`): by the regulation's own Tables A-1 and A-2, where a review is told which
-- of their conditions the floor has.
return {
  name = "ca-nbc-9.23.5", unit = "mm", lang = "en-CA", confidence = "read",
  title = "Ontario Building Code, O. Reg. 332/12, 9.23.5 (as National Building "
    .. "Code, Part 9)",
  scope = "Canada, Part 9 houses, as in the Ontario regulation",
  notes = {"a joist deeper than its span needs by the size of the cut may exceed these "
    .. "limits: judged where by_depth names a condition of the span tables"},
  span_table = "on_332_12",
  covers = {"hole", "slot", "notch", "end_notch", "sever"},
  not_covered = "9.23.5 does not address this cut",
  not_covered_hogging = "9.23.5 has no rule for overhangs or where the top is in tension",
  limits = {
    {kinds = {"hole", "slot"}, measure = "size", of_d = 1 / 4, relieved = true,
      clause = "OBC 9.23.5.1", text = "hole diameter or longer side", says = "d/4"},
    {kinds = {"hole", "slot"}, measure = "edge below", at_least = true, plus = 50,
      clause = "OBC 9.23.5.1", text = "wood left below", says = "50 mm"},
    {kinds = {"hole", "slot"}, measure = "edge above", at_least = true, plus = 50,
      clause = "OBC 9.23.5.1", text = "wood left above", says = "50 mm"},
    {kinds = {"notch", "end_notch"}, measure = "depth", face = "bottom", forbidden = true,
      clause = "OBC 9.23.5.2", text = "notch in the bottom edge", says = "top edge only"},
    {kinds = {"notch", "end_notch"}, measure = "from bearing edge", of_d = 1 / 2,
      relieved = true,
      clause = "OBC 9.23.5.2", text = "reach of the notch from the bearing's edge",
      says = "d/2"},
    {kinds = {"notch", "end_notch"}, measure = "depth", of_d = 1 / 3, relieved = true,
      clause = "OBC 9.23.5.2", text = "notch depth", says = "d/3"},
    {kinds = {"sever"}, measure = "depth", of_d = 1 / 3, clause = "OBC 9.23.5.2",
      text = "cut through, depth", says = "d/3"},
    {kinds = {}, measure = "bearing", at_least = true, plus = 38, clause = "OBC 9.23.9.1",
      text = "bearing length", says = "38 mm"},
  },
}
