-- SPDX-License-Identifier: MIT
-- The letter beside a value that says which limit governs it.
local letters = {}

letters.meaning = {
  b = "bending", v = "shear", d = "deflection", r = "rule limit", s = "steel",
  w = "wood left", c = "bearing, compression across the grain", f = "fasteners",
  n = "neighboring joists", t = "stability", u = "uplift",
  g = "gate of the standard", m = "largest size tried",
}

local OF_MODE = {
  bending = "b", ["net-bending"] = "b", ["host-bending"] = "b", ["opening-frame"] = "b",
  shear = "v", ["net-shear"] = "v", ["notch-shear"] = "v", ["host-shear"] = "v",
  ["connection-shear"] = "v", ["deflection-live"] = "d", ["deflection-total"] = "d",
  steel = "s", ["lip-tension"] = "w", ["wood-compression"] = "w", ["chord-alone"] = "w",
  bearing = "c", fasteners = "f", withdrawal = "f", neighbour = "n",
  stability = "t", uplift = "u",
}

-- What limits a table besides the checks: the rules on cuts, a gate of the standard, and
-- the largest size that was tried.
OF_MODE.rules, OF_MODE.standard, OF_MODE.size = "r", "g", "m"

--- Letter of a mode of a check, of "rules", "standard" or "size"; nil for what is none,
-- such as "sever".
function letters.of(mode)
  return OF_MODE[mode]
end

return letters
