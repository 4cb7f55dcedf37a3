-- SPDX-License-Identifier: MIT
-- No code of the United States is named outside the folder of a standard (see
-- clauses.lua), and the reader that looks for it sees what it has to.
local clauses = require "tests.clauses"
local lu = require "luaunit"

local T = {}

function T.test_no_line_names_a_code_outside_its_folder()
  local _, wrong = clauses.check()
  lu.assertEquals(wrong, {})
end

function T.test_what_the_reader_sees()
  for text, count in pairs {
    ['x = "by NDS 3.3.2"'] = 1, ["-- M/S (NDS 3.3.2)"] = 1, ["KINDS = {}"] = 0,
    ['x = "a -- b NDS"'] = 1, ['x = "a" -- IRC'] = 1, ["y = F/1.67"] = 1,
    ["y = 1.675"] = 0, ['"R502.8"'] = 1, ["a = 'AISC 360'\nb = 'ASCE 7'"] = 2,
    ["x = '\\' -- NDS'"] = 1, ["FINDS = RNDS"] = 0} do
    lu.assertEquals(#clauses.lines(text), count, text)
  end
end

return T
