-- SPDX-License-Identifier: MIT
-- Words of a survey compared as people write them: without case, blanks, underscores,
-- hyphens and dots; and the nearest known word where none is equal.
local words = {}

-- "End-Notch", "end_notch" and "end notch" are one word.
function words.key(text)
  return (text:gsub("[A-Z]", string.lower):gsub("[%s%p]", ""))
end

-- Letters to change, add or drop to turn a into b (Levenshtein), bytes counted.
local function distance(a, b)
  local row = {}
  for j = 0, #b do row[j] = j end
  for i = 1, #a do
    local diagonal = row[0]
    row[0] = i
    for j = 1, #b do
      local change = diagonal + (a:byte(i) == b:byte(j) and 0 or 1)
      diagonal = row[j]
      row[j] = math.min(change, row[j] + 1, row[j - 1] + 1)
    end
  end
  return row[#b]
end

-- Longer text is no slip of a known word.
local LONGEST = 40

-- The known word that a slip of the pen may have meant, or nil.
-- @param known list of texts as they are shown
function words.nearest(text, known)
  local key, best, least = words.key(text), nil, math.huge
  if #key > LONGEST then return nil end
  local allowed = #key >= 8 and 2 or #key >= 4 and 1 or 0
  for _, name in ipairs(known) do
    local other = words.key(name)
    if math.abs(#other - #key) <= allowed then -- else so much is to be added or dropped
      local n = distance(key, other)
      if n < least then best, least = name, n end
    end
  end
  return least <= allowed and best or nil
end

return words
