-- SPDX-License-Identifier: MIT
-- Prescriptive limits on cuts in sawn joists, 2021 International Residential Code. d is
-- the depth as measured, L the span. A limit is of_d d + of_L L + plus. Read in
-- secondary copies of R502.8.1, R502.8.2 and R502.6 for 2012 to 2021: confidence
-- "read".
return {
  name = "us-irc-2021",
  title = "2021 International Residential Code, R502.6 and R502.8",
  confidence = "read",
  scope = "United States, one- and two-family dwellings, where adopted",
  covers = {"hole", "slot", "notch", "end_notch", "sever"},
  covers_hogging = false,
  not_covered = "R502.8.1 does not address this cut",
  not_covered_hogging =
    "R502.8.1 has no rule for overhangs or where the top is in tension",
  manufactured = {clause = "R502.8.2", text = "cuts in manufactured members only as "
    .. "their maker or a registered design professional allows"},
  limits = {
    {kinds = {"notch"}, measure = "depth", of_d = 1 / 6, clause = "R502.8.1",
      text = "notch depth", says = "d/6"},
    {kinds = {"sever"}, measure = "depth", of_d = 1 / 6, clause = "R502.8.1",
      text = "cut through, depth", says = "d/6"},
    {kinds = {"notch"}, measure = "length", of_d = 1 / 3, clause = "R502.8.1",
      text = "notch length", says = "d/3"},
    {kinds = {"notch"}, measure = "reach", of_L = 1 / 3, clause = "R502.8.1",
      text = "reach of the notch from the nearer bearing", says = "L/3, outer thirds"},
    {kinds = {"notch"}, measure = "thickness", plus = 3.4999, clause = "R502.8.1",
      text = "thickness of a member notched in its tension face away from the ends",
      says = "under 4 in nominal"},
    {kinds = {"end_notch"}, measure = "depth", of_d = 1 / 4, clause = "R502.8.1",
      text = "end notch depth", says = "d/4"},
    {kinds = {"end_notch"}, measure = "past face", of_d = 1 / 3, clause = "R502.8.1",
      text = "end notch past the face of the bearing",
      says = "d/3 (our reading of 'at the ends')"},
    {kinds = {"hole"}, measure = "size", of_d = 1 / 3, clause = "R502.8.1",
      text = "hole diameter", says = "d/3"},
    {kinds = {"slot"}, measure = "size", of_d = 1 / 3, clause = "R502.8.1",
      text = "longer side of the slot", says = "d/3"},
    {kinds = {"hole", "slot"}, measure = "edge below", at_least = true, plus = 2,
      clause = "R502.8.1", text = "wood left below", says = "2 in"},
    {kinds = {"hole", "slot"}, measure = "edge above", at_least = true, plus = 2,
      clause = "R502.8.1", text = "wood left above", says = "2 in"},
    {kinds = {"hole", "slot"}, measure = "clear hole", at_least = true, plus = 2,
      clause = "R502.8.1", text = "clear distance to another hole", says = "2 in"},
    {kinds = {"hole", "slot"}, measure = "clear notch", at_least = true, plus = 2,
      clause = "R502.8.1", text = "clear distance to a notch", says = "2 in"},
    {kinds = {}, measure = "bearing", on = "wood", at_least = true, plus = 1.5,
      clause = "R502.6", text = "bearing on wood or metal", says = "1-1/2 in"},
    {kinds = {}, measure = "bearing", on = "masonry", at_least = true, plus = 3,
      clause = "R502.6", text = "bearing on masonry or concrete", says = "3 in"},
  },
}
