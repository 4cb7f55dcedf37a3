-- SPDX-License-Identifier: MIT
-- How long a set for a large course takes: 500 students, six problems; then its marking.
local ns = require "netsection"

local SIX = {"tributary_load", "end_notch", "off_centre_hole", "sister_share",
  "cut_deflection", "allowable_span"}

-- Prints seconds of processor time, the versions used and how the modes are spread.
local function run()
  local students = {}
  for i = 1, 500 do students[i] = ("s%03d"):format(i) end
  local start = os.clock()
  local set = ns.homework {course = "Bench", seed = "1", students = students,
    problems = SIX}
  print(("homework: 500 students x %d problems in %.2f s"):format(#SIX,
    os.clock() - start))
  start = os.clock()
  set:mark(set:answer_form())
  print(("homework: an empty form of all of them marked in %.2f s"):format(
    os.clock() - start))
  print(set:difficulty())
end

run()
