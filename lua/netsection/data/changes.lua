-- SPDX-License-Identifier: MIT
-- Rules of ours and readings of clauses that changed from one version to the next, so
-- that results of an earlier one can be looked at again. A row:
--
--   {version = the first that has it, name =, title =, was =, is =,
--    result = "lower", "higher" or "either": how ratios may move,
--    states = {...}, modes = {...}: of the checks that it moves; any where there is none,
--    cuts = {...}: kinds of the cut that such a check is of,
--    moves = "demand" or "capacity": of such a check, either where there is none,
--    joist = {...}: kinds of cut of which the joist has one,
--    near = true: the joist has more than one cut,
--    loads = "tub" or "point": the joist carries one,
--    several = true: more than one span, or an overhang,
--    status = true: moves what a state is called, or which checks it has, not a ratio,
--    rules = true: moves what the rules say, and with it the repetitive factor,
--    action = {...}: words of the action it leads to}
return {
  {version = "0.2.0", name = "openings", title = "Openings by frame action",
    was = "The net section, and beside it the thinner lip of an opening as a tie under "
      .. "its mean stress (a slot's, or a lip under a quarter of the depth), so that a "
      .. "drill hole near an edge came out far over 1; the deeper chord's share of V by "
      .. "h^3.",
    is = "The net section counts for small and round openings; a chord counts as tie or "
      .. "strut (NDS 3.9) only as the opening grows longer than the chord is deep. The "
      .. "least modulus of all openings within one counts, each lip with its own size "
      .. "factor, and shear goes toward the deeper chord.",
    result = "either", states = {"cut", "fixed"}, modes = {"net-bending", "net-shear",
      "opening-frame", "lip-tension", "wood-compression"}, cuts = {"hole", "slot"}},
  {version = "0.2.0", name = "large holes", title = "Holes past 0.40 of the depth",
    was = "A hole past 0.45 of the depth was never left or justified unaided.",
    is = "Now past 0.40: tests of glued beams found net shear too high there.",
    result = "higher", joist = {"hole"}, action = {"repair", "decide"}},
  {version = "0.2.0", name = "merging", title = "Cuts near each other",
    was = "Cuts with a gap under the larger of 2 in and the larger one's size became one "
      .. "box.",
    is = "They are put together by weight, from a gap of the smaller one's size (not at "
      .. "all) to half of it (one box).",
    result = "either", states = {"cut", "fixed"}, modes = {"net-bending", "net-shear",
      "opening-frame", "lip-tension", "wood-compression", "notch-shear"},
    cuts = {"hole", "slot", "notch", "loss"}, near = true},
  {version = "0.2.0", name = "end notch", title = "End notches beyond the bearing",
    was = "The rules took an end notch of any length as one at the end.",
    is = "It may reach a third of the depth past the face of the bearing; beyond, it is "
      .. "outside the rules, and past the depth it is judged as an interior notch too. "
      .. "The seat is the larger of the notched length and what is left beyond it.",
    result = "higher", joist = {"end_notch"}, rules = true, states = {"cut", "fixed"},
    modes = {"net-bending", "notch-shear", "bearing"}, cuts = {"end_notch"}},
  {version = "0.2.0", name = "seat", title = "Wood lost over a bearing",
    was = "Bottom loss over a bearing took nothing from seat or shear.",
    is = "Deeper than the tolerance (1/4 in) it takes the seat away where it lies on it, "
      .. "and the section is an end notch with the whole reaction; past a quarter of the "
      .. "depth it is not permitted.",
    result = "higher", joist = {"loss", "lost_bearing"}, rules = true,
    states = {"cut", "fixed"},
    modes = {"bearing", "notch-shear", "net-shear", "net-bending", "shear"},
    action = {"repair", "justify", "decide"}},
  {version = "0.2.0", name = "point load", title = "Point loads near a bearing",
    was = "A point load within the depth of the bearing's face was left out of the "
      .. "shear.",
    is = "It counts by its distance from the face over the depth (NDS 3.4.3.1(a)).",
    result = "higher", moves = "demand", loads = "point",
    modes = {"shear", "net-shear", "host-shear"}},
  {version = "0.2.0", name = "hogging", title = "M < 0 by live pattern",
    was = "The worst moment was taken with the unbraced length of the envelope of all "
      .. "patterns under D+L, dead load's combination too.",
    is = "Each pattern has its own M and its own length to where M turns.",
    result = "either", several = true, modes = {"bending", "stability", "host-bending"}},
  {version = "0.2.0", name = "tub", title = "Live load under a tub",
    was = "Water and people were added to the floor's live load under a tub.",
    is = "The larger of the two counts; `under = \"add\"` adds them.",
    result = "lower", moves = "demand", loads = "tub"},
  {version = "0.2.0", name = "lifts", title = "A bearing that lifts under dead load",
    was = "A bearing that lifts under dead load alone could be left or justified.",
    is = "Then there is something to decide: hold it down or take it as an overhang.",
    result = "higher", several = true, modes = {"uplift"}, action = {"decide"}},
  {version = "0.2.0", name = "shed load", title = "Neighbors of a joist that is out",
    was = "A joist beside one that is cut through was shown with its own load alone.",
    is = "It shows what it carries until that one is repaired, beside its own verdict.",
    result = "higher", states = {"until_repaired"}},
  {version = "0.2.0", name = "groups", title = "Fasteners in groups",
    was = "The group action factor was left out of some groups; distances were those to "
      .. "the edges and ends of the member alone.",
    is = "The group action factor (NDS 11.3.6) counts in every group of sister, plates "
      .. "and strap; the edges of holes, notches, gaps and losses are edges too; wood "
      .. "across the grain is checked by 3.4.3.3 with what is there.",
    result = "higher", moves = "capacity", states = {"fixed"},
    modes = {"fasteners", "connection-shear",
      "withdrawal", "steel"}},
  {version = "0.2.0", name = "tied beams", title = "Envelopes of a joist with new wood",
    was = "Live load was put by the sign of influence lines at the ends of each piece.",
    is = "Zeros within a piece are found too, also two in one; a missed pair was up to "
      .. "23 % short.",
    result = "higher", moves = "demand", states = {"fixed"},
    modes = {"bending", "shear", "host-bending",
      "host-shear", "fasteners", "deflection-live", "deflection-total", "net-bending",
      "net-shear", "neighbour"}},
  {version = "0.2.0", name = "repairs", title = "What a repair must be",
    was = "Who takes load was not asked whether it stands; plates were not held to "
      .. "buckling, a seat under an opening was taken.",
    is = "A neighbor that fails makes the repair fail; steel beside a joist is held to "
      .. "lateral-torsional and local buckling; a post or hanger under an opening is "
      .. "checked or refused; new wood at a notched end gets the same notch; screws from "
      .. "both faces may not meet.",
    result = "higher", states = {"fixed"}, status = true},
}
