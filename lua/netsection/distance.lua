-- SPDX-License-Identifier: MIT
-- How far one word is from another, to tell what a misspelled one was meant for.

--- Letters to change, add or take away to make b of a (Levenshtein).
local function distance(a, b)
  local row = {}
  for j = 0, #b do row[j] = j end
  for i = 1, #a do
    local corner
    corner, row[0] = row[0], i
    for j = 1, #b do
      local same = a:byte(i) == b:byte(j) and 0 or 1
      corner, row[j] = row[j], math.min(row[j] + 1, row[j - 1] + 1, corner + same)
    end
  end
  return row[#b]
end

return distance
