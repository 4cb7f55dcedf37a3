-- SPDX-License-Identifier: MIT
-- Question: an office checks the floor of a music room by load and resistance factors,
-- its neighbor by allowable stresses. Does one of them ask for a repair that the other
-- does not? Expected: under uniform load every ratio of bending is 1.52/1.727 = 0.88 of
-- the other (10 + 40 psf), of shear 1.52/1.728, of bolts 1.52/1.726, and of bearing
-- 1.52/1.503 = 1.01, which has no time effect factor; deflection is the same; shear at
-- midspan is of live load alone, 1.6/1.728. The hole that is just over by one is just
-- under by the other.
local ns = require "netsection"

local function joist(t)
  t.size, t.species, t.grade, t.spacing = "2x10", "douglas fir-larch", "No.2", 16
  t.dead, t.live, t.bearing = 10, 40, 3.5
  t.span = t.span or "12-0"
  return ns.joist(t)
end

local floor = ns.floor {name = "Music room", joists = {
  joist {mark = "S1", cuts = {ns.end_notch {support = "left", face = "bottom", depth = 2,
    length = 4.5, note = "sill"}}},
  joist {mark = "S2", span = "13-2", cuts = {ns.hole {diameter = 3.5, at = "6-7",
    below = 2, note = "duct"}}},
  joist {mark = "S3", cuts = {ns.sever {from = "5-9", to = "6-3", note = "drain"}}}
    :fix(ns.sister {from = "2-6", to = "9-6", side = "left",
      fastener = ns.fastener {kind = "bolt", diameter = "1/2 in"},
      groups = {{at = "2-10", n = 4}, {at = "5-4", n = 4}, {at = "6-8", n = 4},
        {at = "9-2", n = 4}}}),
}}

local asd = floor:review {standard = "us-nds-2018-asd"}
local lrfd = floor:review {standard = "us-nds-2018-lrfd"}

print(("%-6s %-32s %8s %8s %8s"):format("joist", "check", "ASD", "LRFD", "of it"))
for _, mark in ipairs(asd.order) do
  local a, b = asd.joists[mark], lrfd.joists[mark]
  local state = a.fixed and "fixed" or "cut"
  for i, k in ipairs(a[state].checks) do
    local other = b[state].checks[i]
    if k.ratio and k.binding then
      print(("%-6s %-32s %8.3f %8.3f %8.3f"):format(mark,
        k.mode .. (k.member == "host" and "" or ", " .. k.member), k.ratio, other.ratio,
        other.ratio / k.ratio))
    end
  end
  print(("%-6s %-32s %8s %8s"):format(mark, "action", a.action, b.action))
end

-- What has steel or a maker's value in it is not worked out by factors.
local strapped = joist {mark = "S4", cuts = {ns.notch {face = "bottom", from = "5-10",
  to = "6-2", depth = 3}}}:fix(ns.strap {cut = 1, width = 1.5, gauge = 14,
  fastener = ns.fastener {kind = "wood screw", number = 10, length = "1-1/2 in"}})
print("a strap: " .. strapped:review {standard = "us-nds-2018-lrfd"}.fixed.refused)

print(ns.report.text(lrfd.joists.S3, {steps = "governing"}))
