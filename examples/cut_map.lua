-- Where may the plumber still drill or notch this joist? The map goes to the plumber;
-- here are its numbers every two feet: holes to 3 in (d/3) nearly everywhere, notches to
-- 1-1/2 in (d/6) in the outer thirds only.
local cut_map = require "netsection.cut_map"
local ns = require "netsection"

local joist = ns.joist {
  mark = "B7", size = "2x10", species = "douglas fir-larch", grade = "No.2",
  span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
  cuts = {ns.hole {at = "5-2", diameter = 3}},
}
local map = assert(cut_map.of(joist, {places = 81, notch_length = "3 in"}))
print(("%-8s %8s %8s %8s  %s"):format("at", "hole", "top", "bottom", "a larger hole"))
for i = 1, #map.x, 12 do
  print(("%-8s %8s %8s %8s  fails by %s"):format(ns.units.feet_inches(map.x[i]),
    ns.units.fixed(map.hole[i], 2), ns.units.fixed(map.top[i], 2),
    ns.units.fixed(map.bottom[i], 2), map.hole_by[i]))
end

local folder = os.getenv "NETSECTION_OUT"
if folder then
  assert(ns.write(folder .. "/cut_map.gp", ns.plot.cut_map(joist,
    {output = folder .. "/cut_map.png"})))
end

-- One place by itself, by the rules, by calculation, and the size that both allow.
for _, by in ipairs {"rules", "calculation", "both"} do
  local size, why = joist:largest {cut = "hole", at = "6-9", by = by}
  print(("mid-span, %s: %s in; more fails by %s"):format(by, ns.units.fixed(size, 3),
    why))
end
