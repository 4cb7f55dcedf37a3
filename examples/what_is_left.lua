-- SPDX-License-Identifier: MIT
-- Question: a 2x10 carries 1500 ft-lb where a 3 in hole is bored. What does it matter how
-- high the hole sits? Expected: at mid-depth the edges reach 871 psi, hardly more than
-- the 841 psi of the whole section. Moved down or up by less than 2 in, the neutral axis
-- follows the wood that is left and the edge beside the hole reaches 1379 psi. About the
-- old axis, a common slip, the sum would give far less.
local ns = require "netsection"

local b, d, diameter, M = 1.5, 9.25, 3, 1500 * 12

local function line(name, s)
  print(("%-9s %6.2f %7.2f %8.0f %8.0f"):format(name, s.y_b, s.I, M / s.S_b, M / s.S_t))
end

print(("%-9s %6s %7s %8s %8s"):format("hole", "y, in", "I, in4", "bottom", "top, psi"))
line("none", ns.section {b = b, d = d})
for _, case in ipairs {{"low", 1.25}, {"centered", 3.125}, {"high", 5}} do
  local name, below = case[1], case[2]
  line(name, ns.section {b = b, d = d, y1 = below, y2 = below + diameter})
end

-- The slip: I less the hole's own about the old axis at d/2.
local off = d / 2 - (1.25 + diameter / 2)
local slip = b * (d ^ 3 - diameter ^ 3) / 12 - b * diameter * off ^ 2
print(("\nlow, about the old axis: %.0f psi, which is wrong"):format(M * d / 2 / slip))
