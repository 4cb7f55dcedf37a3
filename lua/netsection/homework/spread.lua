-- SPDX-License-Identifier: MIT
-- How equal the versions of a set are: how many students got which mode of a problem, how
-- many versions there are, and between what ratios they lie.
local kind = require "netsection.homework.kind"
local point = require "netsection.point"
local text = require "netsection.text"

local spread = {}
local meta = {__name = "netsection.homework.difficulty"}

local function range_of(set, problem)
  local symbol = problem.kind.edge[1]
  if not symbol then return nil end
  local list = {}
  for i, student in ipairs(set.students) do
    list[i] = student[problem.number].s[symbol]
  end
  table.sort(list)
  return {symbol = symbol, least = list[1], middle = list[(#list + 1) // 2],
    most = list[#list]}
end

local function of_problem(set, problem)
  local used = 0
  for _ in pairs(problem.pool.used) do used = used + 1 end
  local modes = {}
  for mode, count in pairs(problem.pool.counts) do
    modes[#modes + 1] = {mode = mode == "" and "one mode" or mode, count = count}
  end
  table.sort(modes, function(a, b) return point.less(a.mode, b.mode) end)
  return {number = problem.number, kind = problem.kind.name,
    marks = kind.marks(problem.kind),
    versions = problem.pool.space, used = used, alike = #set.students - used,
    modes = modes, range = range_of(set, problem)}
end

local function line_of(row)
  local modes = {}
  for i, m in ipairs(row.modes) do modes[i] = ("%s %d"):format(m.mode, m.count) end
  local range = row.range and ("%s %s to %s, middle %s"):format(row.range.symbol,
    text.ratio(row.range.least), text.ratio(row.range.most), text.ratio(row.range.middle))
    or ""
  return ("%d %s %2d marks  %s  %s; %s"):format(row.number, text.pad(row.kind, 17),
    row.marks, text.pad(("%d of %d"):format(row.used, row.versions), 14),
    table.concat(modes, ", "), range):gsub("; $", "")
end

--- @return a list {number, kind, marks, versions, used, alike = students without a
--   version of their own, modes = {{mode, count}}, range}; tostring gives it as lines
function spread.of(set)
  local list = setmetatable({}, meta)
  for i, problem in ipairs(set.problems) do list[i] = of_problem(set, problem) end
  return list
end

function meta.__tostring(list)
  local out = {}
  for i, row in ipairs(list) do out[i] = line_of(row) end
  return table.concat(out, "\n")
end

return spread
