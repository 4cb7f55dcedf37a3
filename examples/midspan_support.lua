-- SPDX-License-Identifier: MIT
-- Question: old full-sawn joists, notched at both sills, sag and fail by the notch. What
-- does a beam under the middle do to them, and what does it have to carry? Expected: each
-- end keeps about a third of its reaction, so the notches pass; the moment over the new
-- beam turns the top into the tension side; the beam takes five eighths of all load.
local ns = require "netsection"

for _, spacing in ipairs {16, 18, 21, 24} do
  local joist = ns.joist {
    mark = "O" .. spacing, size = "full-sawn 2x8", span = "14-8", spacing = spacing,
    material = {Fb = 875, Fv = 135, E = 1.3e6}, bearing = 3.5, dead = 18, live = 40,
    cuts = {ns.end_notch {support = "left", face = "bottom", depth = 2},
      ns.end_notch {support = "right", face = "bottom", depth = 2}},
  }
  local review = joist:fix(ns.midspan_support {at = "7-4"}):review()
  local a = review.fixed
  print(("%2d in  as cut %.2f by %-11s  supported %.2f by %-8s  on the beam %4.0f lb, "
    .. "least at an end %3.0f"):format(spacing, review.cut.ratio, review.cut.governing,
    a.ratio, a.governing, a.forces[2].value, a.reaction_range[1].least))
end
