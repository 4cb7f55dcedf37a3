-- SPDX-License-Identifier: MIT
-- How hard a version is beside the others of its kind: how late its mode stands in the
-- kind's list, and how close its ratio is to the edge. Balanced over a student's whole
-- sheet, so that nobody has all the close calls.
local hardness = {}

-- Beyond this a ratio is far from a pass or fail.
local FAR = 0.6

--- From 0 (a clear case of the first mode) to 1 (a close one of the last).
function hardness.of(v)
  local k, rank, near = v.kind, 0.5, 0.5
  for i, mode in ipairs(k.modes or {}) do
    if mode == v.mode and #k.modes > 1 then rank = (i - 1) / (#k.modes - 1) end
  end
  local ratio = k.edge[1] and v.s[k.edge[1]]
  if type(ratio) == "number" then
    near = 1 - math.min(math.abs(ratio - 1), FAR) / FAR
  end
  return (rank + near) / 2
end

--- What a student's next version should come to, so that the sheet so far and it have the
-- set's hardness on the whole.
function hardness.wanted(set, student)
  local sum, n = student.hard or 0, student.drawn or 0
  return set.hardness * (n + 1) - sum
end

function hardness.add(student, v)
  student.hard = (student.hard or 0) + hardness.of(v)
  student.drawn = (student.drawn or 0) + 1
end

return hardness
