-- SPDX-License-Identifier: MIT
-- How long a set for a large course takes: 500 students, ten problems; then its marking,
-- of right answers and of answers a third of which are wrong. 3 s are allowed for each.
local homework = require "tests.homework"
local ns = require "netsection"
local support = require "tests.support"

local TEN = {"tributary_load", "reactions", "moment_shear", "adjusted_values",
  "end_notch", "rule_check", "off_centre_hole", "tub", "severed_couple",
  "fastener_count"}

-- Seconds of processor time for f; its result.
local function timed(what, f)
  local start = os.clock()
  local result = f()
  print(("homework: %s in %.2f s"):format(what, os.clock() - start))
  return result
end

local set = timed("500 students x 10 problems made", function()
  return ns.homework {course = "Bench", seed = "1", students = homework.roster(500),
    problems = TEN}
end)
local right, r = homework.answers(set), support.random(1)
local wrong = homework.answers(set, function(row, v, step)
  if not step.choice and r:real(0, 1) < 1 / 3 then
    row.answer = ("%.4g"):format(v.s[step.symbol] * r:real(0.5, 2))
  end
end)
timed("right answers marked", function() return set:mark(right) end)
timed("answers a third wrong marked", function() return set:mark(wrong) end)
print(set:difficulty())
