-- SPDX-License-Identifier: MIT
-- Words behind the codes of csrc/sweep/sweep.h, by what is taken from a review.
local core = require "netsection.core"
local review = require "netsection.review"

local codes = {}

local governing = table.move(core.modes, 1, #core.modes, 1, {})
governing[#governing + 1] = "sever"

-- Lists of words; the code of the first is 0.
codes.words = {action = review.actions, governing = governing,
  status = {"adequate", "overstressed", "not permitted"},
  rules = {"not covered", "outside", "within"}}

-- @param words one of the lists; nil for no code
function codes.word(words, code)
  return code and words[math.tointeger(code) + 1]
end

function codes.of(words, word)
  for i, w in ipairs(words) do
    if w == word then return i - 1 end
  end
  return nil
end

codes.adequate = codes.of(codes.words.status, "adequate")
codes.not_permitted = codes.of(codes.words.status, "not permitted")

return codes
