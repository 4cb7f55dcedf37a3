-- SPDX-License-Identifier: MIT
-- Words behind the numbers of the enumerations in csrc/sweep/sweep.h, by what is taken
-- from a review.
local core = require "netsection.core"
local review = require "netsection.review"

local enums = {}

local governing = table.move(core.modes, 1, #core.modes, 1, {})
governing[#governing + 1] = "sever"

-- Lists of words; the number of the first is 0.
enums.words = {action = review.actions, governing = governing,
  status = {"adequate", "overstressed", "not permitted"},
  -- the last is none of the core's: see by_depth.lua
  rules = {"not covered", "outside", "within", "within (by depth)"}}

-- @param words one of the lists; nil for no number
function enums.word(words, number)
  return number and words[math.tointeger(number) + 1]
end

function enums.of(words, word)
  for i, w in ipairs(words) do
    if w == word then return i - 1 end
  end
  return nil
end

enums.adequate = enums.of(enums.words.status, "adequate")
enums.not_permitted = enums.of(enums.words.status, "not permitted")

return enums
