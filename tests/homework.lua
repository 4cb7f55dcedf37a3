-- SPDX-License-Identifier: MIT
-- What the tests of homework share: rosters, the answers of a key as a student would
-- write them, and a text of all numbers of a set that is the same wherever it is made.
local ns = require "netsection"

local homework = {}

-- Standards by which kinds have keys.
homework.standards = {"us-nds-2018-asd", "us-nds-2018-lrfd", "en-1995-1-1"}

-- Each kind once for each key of its own: {{name =, standard =}, ...}.
function homework.kinds()
  local list = {}
  for i, standard in ipairs(homework.standards) do
    for _, name in ipairs(ns.homework.kinds(standard)) do
      local k = homework.version(name, 1, {standard = standard}).kind
      if i == 1 or k.standards[1] == standard then
        list[#list + 1] = {name = name, standard = standard}
      end
    end
  end
  return list
end

function homework.roster(n)
  local students = {}
  for i = 1, n do students[i] = ("s%03d"):format(i) end
  return students
end

-- A set of one problem.
function homework.of(problem, n, changes)
  local t = {course = "Course", seed = "1", students = homework.roster(n or 1),
    problems = {problem}}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.homework(t)
end

-- The first student's version of one problem.
function homework.version(problem, ...)
  return homework.of(problem, ...):of("s001")[1]
end

-- A value as a student writes it: full figures.
function homework.written(value)
  return type(value) == "number" and ("%.10g"):format(value) or value
end

-- Rows for set:mark with the right answers; `change` may put another in a row's place.
function homework.answers(set, change)
  local rows = {}
  for _, student in ipairs(set.students) do
    for i, v in ipairs(set:of(student.id)) do
      for _, step in ipairs(v.kind.steps) do
        if step.ask and not step.hand then
          local row = {student = student.id, problem = i, part = step.part,
            answer = homework.written(v.s[step.symbol])}
          if change then change(row, v, step) end
          rows[#rows + 1] = row
        end
      end
    end
  end
  return rows
end

-- Base values and answers of everybody, to twelve figures.
function homework.text(set)
  local out = {}
  local function put(name, value)
    out[#out + 1] = name .. "=" .. (type(value) == "number"
      and ns.units.significant(value, 12) or value)
  end
  for _, student in ipairs(set.students) do
    out[#out + 1] = student.id
    for _, v in ipairs(set:of(student.id)) do
      for _, name in ipairs(v.kind.names) do put(name, v.p[name]) end
      for _, step in ipairs(v.kind.steps) do
        if not step.hand then put(step.symbol, v.s[step.symbol]) end
      end
    end
  end
  return table.concat(out, "\n")
end

return homework
