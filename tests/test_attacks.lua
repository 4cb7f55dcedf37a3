-- SPDX-License-Identifier: MIT
-- The list of attacks (attacks.lua) names tests that there are.
local attacks = require "tests.attacks"
local drawing = require "tests.drawing"
local lu = require "luaunit"

local T = {}

function T.test_each_attack_has_its_tests()
  lu.assertTrue(#attacks >= 20)
  for _, attack in ipairs(attacks) do
    lu.assertTrue(#attack[2] > 0, attack[1])
    for _, name in ipairs(attack[2]) do
      local file, test = name:match "^(test_[%w_]+)%.(test_[%w_]+)$"
      local text = file and drawing.read_file(("tests/%s.lua"):format(file))
      lu.assertNotNil(text, name)
      lu.assertNotNil(text:find("function [%a_]+%." .. test .. "%("), name)
    end
  end
end

return T
