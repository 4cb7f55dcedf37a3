-- SPDX-License-Identifier: MIT
-- Question: a 2x10 was drilled for a 4 in drain, 1-1/2 in above its bottom edge. May it
-- stay so? Expected: no, repair. The hole breaks two limits of the code; the net section
-- reaches 1.28 of its bending strength and the strip of wood below it 1.90 in tension.
local ns = require "netsection"

local joist = ns.joist {
  mark = "J3", size = "2x10", species = "douglas fir-larch", grade = "No.2",
  span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
  cuts = {ns.hole {at = "5-2", diameter = 4, below = 1.5}},
}
local r = joist:review()
print(("%s: %s, ratio uncut %.2f, cut %.2f"):format(r.mark, r.action, r.uncut.ratio,
  r.cut.ratio))
for _, reason in ipairs(r.reasons) do print("  " .. reason) end
