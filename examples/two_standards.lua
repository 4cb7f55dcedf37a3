-- One floor under two standards side by side: the same joists by EN 1995-1-1 with the UK
-- annex and the German one, and what differs. k_cr alone turns the notch of A2.
local ns = require "netsection"

local floor = ns.floor {
  name = "Mill house, first floor", class = "C24", service_class = 1,
  duration = "medium-term", size = "47x195", span = "3600 mm", spacing = "400 mm",
  bearing = "75 mm", dead = "0.6 kPa", live = "1.5 kPa",
  joists = {
    {mark = "A1"},
    {mark = "A2", cuts = {ns.end_notch {support = "left", face = "bottom",
      depth = "70 mm", length = "140 mm"}}},
    {mark = "A3", cuts = {ns.hole {at = "1200 mm", diameter = "42 mm"}}},
    {mark = "A4", cuts = {ns.notch {face = "top", from = "350 mm", to = "400 mm",
      depth = "22 mm"}}},
  },
}

local uk = floor:review {standard = "en-1995-1-1-uk", rules = "uk-labc-2018"}
local de = floor:review {standard = "en-1995-1-1-de", rules = "uk-labc-2018"}

print(ns.report.overview(uk))
print()
print(ns.report.overview(de))
print()
for _, mark in ipairs(uk.order) do
  local a, b = uk.joists[mark], de.joists[mark]
  local notch = a:find("cut", "notch-shear")
  if notch then
    print(("%s: at the notch %.3f and %.3f"):format(mark, notch.ratio,
      b:find("cut", "notch-shear").ratio))
  end
  print(("%s: shear %.3f and %.3f; w_fin %.1f mm, %.3f of l/%g and %.3f of l/%g")
    :format(mark, a:find("cut", "shear").ratio, b:find("cut", "shear").ratio,
    a.cut.deflection.total * 25.4, a:find("cut", "deflection-total").ratio,
    a.limits.total,
    b:find("cut", "deflection-total").ratio, b.limits.total))
end
print()
print(assert(ns.compare(uk, de, {units = "metric"})):text())
