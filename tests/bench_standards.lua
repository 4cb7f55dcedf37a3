-- SPDX-License-Identifier: MIT
-- Speed of a sweep by each standard: one joist of its own wood with a hole and a notch at
-- its end, over dead and live load and spacing, one thread, CPU time; by `make bench`.
--   lua tests/bench_standards.lua [SECONDS]    of CPU time for each measurement
local ns = require "netsection"

local SECONDS = tonumber(arg and arg[1]) or 0.5
local REPEATS = 3

local CUTS = {ns.hole {at = "1200 mm", diameter = "50 mm"},
  ns.end_notch {support = "left", face = "bottom", depth = "40 mm", length = "120 mm"}}

local function joist(wood)
  wood.size, wood.span, wood.spacing = "38x235", "4000 mm", "400 mm"
  wood.bearing, wood.dead, wood.live, wood.cuts = "90 mm", "0.5 kPa", "1.9 kPa", CUTS
  return ns.joist(wood)
end

local US = joist {species = "Spruce-Pine-Fir", grade = "No.2"}
local CASES = {{"us-nds-2018-asd", US}, {"us-nds-2018-lrfd", US},
  {"en-1995-1-1", joist {class = "C24", service_class = 1, duration = "medium"}},
  {"csa-o86-2019", joist {species = "SPF", grade = "No.2", edition = "csa-o86-2019"}}}

local function steps(from, to, n)
  local list = {}
  for i = 1, n do list[i] = from + (to - from) * (i - 1) / (n - 1) end
  return list
end

local function points_a_second(standard, base)
  local best, n = 0, 24
  for _ = 1, REPEATS do
    local points, from = 0, os.clock()
    repeat
      local s = ns.sweep {joist = base, over = {live = steps(20, 60, n),
        dead = steps(8, 20, n), spacing = steps(12, 24, n)}, threads = 1,
        values = {"cut.ratio", "action"}, standard = standard, progress = false}
      local _ = s:column "cut.ratio"
      points = points + #s
    until os.clock() - from > SECONDS / 2
    best = math.max(best, points / (os.clock() - from))
  end
  return best
end

print()
print(("%-24s %12s"):format("a sweep by standard", "joists/s"))
for _, case in ipairs(CASES) do
  print(("%-24s %12.0f"):format(case[1], points_a_second(case[1], case[2])))
end
