-- SPDX-License-Identifier: MIT
-- The letter beside a value that says which limit governs it.
local checks = require "netsection.checks"

local letters = {}

letters.meaning = {
  b = "bending", v = "shear", d = "deflection", r = "rule limit", s = "steel",
  w = "wood left", c = "bearing, compression across the grain", f = "fasteners",
  n = "neighboring joists", t = "stability", u = "uplift",
  g = "gate of the standard", m = "largest size tried",
}

-- A check of one's own may bring a letter of its own.
for _, row in ipairs(checks.list) do
  if row.letter and not letters.meaning[row.letter] then
    letters.meaning[row.letter] = row.mode
  end
end

-- What limits a table besides the checks: the rules on cuts, a gate of the standard, and
-- the largest size that was tried.
local OTHER = {rules = "r", standard = "g", size = "m"}

--- Letter of a mode of a check, of "rules", "standard" or "size"; nil for what is none,
-- such as "sever".
function letters.of(mode)
  local row = checks.row[mode]
  return OTHER[mode] or row and row.letter
end

return letters
