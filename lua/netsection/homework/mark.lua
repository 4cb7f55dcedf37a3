-- SPDX-License-Identifier: MIT
-- Marking: what came back beside what is right, beside each common mistake, and beside
-- what follows from the student's own earlier answers.
--
-- An answer that is wrong but follows from an earlier wrong one of the same problem gets
-- its marks: the steps are worked again with the student's number in place. A mistake
-- that is recognised gets no marks but a hint. Rows that cannot be read are listed with
-- their reason and count for nothing until somebody looks at them.
local answer = require "netsection.homework.answer"
local csv = require "netsection.csv"
local escape = require "netsection.document.escape"
local kind = require "netsection.homework.kind"
local show = require "netsection.homework.show"
local text = require "netsection.text"
local version = require "netsection.homework.version"

local mark = {}
local methods = {}
local meta = {__index = methods, __name = "netsection.homework.marks"}

local COLUMNS = {"student", "problem", "part", "answer"}

-- Factors that units slip by: inches in a foot, square inches, cubic; kips.
local SLIPS = {
  {12, "inches and feet"}, {144, "square inches and square feet"},
  {1728, "cubic inches and cubic feet"}, {1000, "pounds and kips"},
}

local near = version.near

---------------------------------------------------------------------------- verdicts

local function right(step, value, correct)
  if step.choice then return value == correct end
  local tolerance = step.unit == "count" and 1e-9 or step.tolerance
  return near(value, correct, tolerance)
end

-- What the step comes to with the student's earlier wrong answers in place, or nil.
local function followed(v, step, own)
  if next(own) == nil then return nil end
  local ok, s = pcall(kind.work, v.kind, v.given, v.p, nil, own)
  local x = ok and s[step.symbol]
  if type(x) == "number" and (x ~= x or x == math.huge or x == -math.huge) then
    return nil
  end
  return x or nil
end

-- The common mistake that comes nearest, or nil.
local function recognised(v, step, value)
  local best, found = step.tolerance, nil
  for i, values in ipairs(v.slips) do
    local x = values[step.symbol]
    if x and x ~= 0 and math.abs(value / x - 1) <= best then
      best, found = math.abs(value / x - 1), v.kind.mistakes[i]
    end
  end
  return found
end

local function slipped(step, value, correct)
  if correct == 0 then return nil end
  if near(-value, correct, step.tolerance) then return "the sign is the other way" end
  for _, slip in ipairs(SLIPS) do
    if near(value, correct * slip[1], step.tolerance) then
      return ("%d times too large: %s"):format(slip[1], slip[2])
    elseif near(value, correct / slip[1], step.tolerance) then
      return ("%d times too small: %s"):format(slip[1], slip[2])
    end
  end
end

local function wrong_hint(step, earlier)
  return step.hint or earlier and "no common mistake fits; put the first wrong part right"
    or "no common mistake fits; write the step out with its units"
end

-- Verdict and hint of one answer that was read.
local function judge(v, step, value, own, earlier)
  local correct = v.s[step.symbol]
  if right(step, value, correct) then return "right" end
  local follows = followed(v, step, own)
  if follows ~= nil and right(step, value, follows) then
    return "follows", ("from your own (%s)"):format(table.concat(earlier, "), ("))
  end
  if step.choice then return "wrong", wrong_hint(step, earlier[1]) end
  local mistake = recognised(v, step, value)
  if mistake then
    return "mistake", ("looks like %s: %s"):format(mistake.name, mistake.reveals)
  end
  local slip = slipped(step, value, correct)
  if slip then return "unit slip", slip end
  return "wrong", wrong_hint(step, earlier[1])
end

---------------------------------------------------------------------------- one problem

-- Value, or nil and why; third: it was read, but in another quantity's unit.
local function read_answer(step, said)
  if step.choice then return answer.choice(said, step.choice) end
  local value, why, other = answer.number(said, step.unit)
  return value, why, other
end

local function entry_of(step, row)
  return {part = step.part, symbol = step.symbol, row = row and row.row,
    given = row and row.answer, out_of = step.marks, marks = 0}
end

local function fill(entry, v, step, row, own, earlier, problems)
  local value, why, other = read_answer(step, row.answer)
  if other then
    entry.verdict, entry.hint = "wrong", why
  elseif value == nil then
    entry.verdict, entry.hint = "not read", why
    problems[#problems + 1] = {row = row.row, reason = ("answer %q: %s"):format(
      text.plain(row.answer), why)}
  else
    entry.value = value
    entry.verdict, entry.hint = judge(v, step, value, own, earlier)
    if entry.verdict == "right" or entry.verdict == "follows" then
      entry.marks = step.marks
    end
    if entry.verdict ~= "right" then
      own[step.symbol] = value
      earlier[#earlier + 1] = step.part
    end
  end
end

-- Parts of one problem in their order. @param rows {part = row}
local function mark_problem(v, rows, problems)
  local result = {marks = 0, out_of = 0, by_hand = 0, parts = {}}
  local own, earlier = {}, {}
  for _, step in ipairs(v.kind.steps) do
    local row = rows[step.part]
    if step.hand then
      local entry = entry_of(step, row)
      entry.verdict = "by hand"
      result.by_hand = result.by_hand + step.marks
      result.parts[#result.parts + 1] = entry
    elseif step.ask then
      local entry = entry_of(step, row)
      if not row then
        entry.verdict = "no answer"
      else
        fill(entry, v, step, row, own, earlier, problems)
      end
      result.marks = result.marks + entry.marks
      result.out_of = result.out_of + step.marks
      result.parts[#result.parts + 1] = entry
    end
  end
  return result
end

---------------------------------------------------------------------------- rows

local function trimmed(value)
  local said = math.type(value) == "integer" and ("%d"):format(value)
    or math.type(value) == "float" and text.short(value) or value
  return type(said) == "string" and said:gsub("^%s+", ""):gsub("%s+$", "") or nil
end

-- CSV text -> rows {student, problem, part, answer, row} | nil, problems.
local function rows_of_csv(source)
  local read, problems = csv.read(source)
  if not read then return nil, problems end
  local head = table.remove(read, 1) or {}
  local at, rows, missing = {}, {}, {}
  for i, name in ipairs(head) do at[trimmed(name):lower()] = i end
  for _, name in ipairs(COLUMNS) do
    if not at[name] then missing[#missing + 1] = {row = 1, column = name,
      message = ("column '%s' expected"):format(name)} end
  end
  if missing[1] then return nil, missing end
  for i, cells in ipairs(read) do
    local row = {row = cells.row}
    for _, name in ipairs(COLUMNS) do row[name] = trimmed(cells[at[name]] or "") end
    rows[i] = row
  end
  return rows
end

local function rows_of_list(list)
  local rows = {}
  for i, t in ipairs(list) do
    local row = {row = i}
    for _, name in ipairs(COLUMNS) do
      row[name] = type(t) == "table" and trimmed(t[name]) or ""
    end
    rows[i] = row
  end
  return rows
end

-- An id as it comes back from a spreadsheet: without what a file never holds (characters
-- that turn its direction), blanks around it, and the apostrophe in front that keeps it
-- from being a formula.
local function normal(id)
  local shown = utf8.len(id) and escape.text(id) or id
  return (shown:gsub("^%s*'", ""):gsub("^%s+", ""):gsub("%s+$", ""))
end

-- Students by the normal form of their ids; false where two have the same.
local function by_normal(set)
  local by = {}
  for _, student in ipairs(set.students) do
    local form = normal(student.id)
    by[form] = by[form] == nil and student or false
  end
  return by
end

-- A problem by its number or by its kind's name, which must be that of one problem.
local function find_problem(set, said)
  local n = math.tointeger(tonumber(said))
  if n then return n >= 1 and n <= #set.problems and n or nil end
  local found
  for i, problem in ipairs(set.problems) do
    if problem.kind.name == said:lower() then
      if found then return nil end
      found = i
    end
  end
  return found
end

-- A part by its letter, or by its symbol.
local function find_step(k, said)
  local letter = said:lower():gsub("[()%s.]", "")
  for _, step in ipairs(k.steps) do
    if step.part and step.part == letter then return step end
  end
  for _, step in ipairs(k.steps) do
    if step.part and step.symbol == said then return step end
  end
end

-- Where a row belongs: student, problem, step | nil, reason.
local function place(set, row, by)
  local student = set.by_id[row.student] or by[normal(row.student)]
  if not student then return nil, ("no student %q"):format(text.plain(row.student)) end
  local i = find_problem(set, row.problem)
  if not i then return nil, ("no problem %q"):format(text.plain(row.problem)) end
  local step = find_step(student[i].kind, row.part)
  if not step then
    return nil, ("problem %d has no part %q"):format(i, text.plain(row.part))
  end
  return student, i, step
end

-- Rows by student, problem and part; what has no place is a problem.
local function sort_rows(set, rows, problems)
  local by, forms = {}, by_normal(set)
  for _, row in ipairs(rows) do
    local student, i, step = place(set, row, forms)
    if not student then
      problems[#problems + 1] = {row = row.row, reason = i}
    elseif row.answer ~= "" then
      local key = student.id
      by[key] = by[key] or {}
      by[key][i] = by[key][i] or {}
      local first = by[key][i][step.part]
      if first then
        problems[#problems + 1] = {row = row.row,
          reason = ("the part is answered in row %d too; that one counts")
            :format(first.row)}
      else
        by[key][i][step.part] = row
      end
    end
  end
  return by
end

local function mark_student(set, student, rows, problems)
  local result = {id = student.id, name = student.name, marks = 0, out_of = 0,
    by_hand = 0,
    problems = {}}
  for i = 1, #set.problems do
    local one = mark_problem(student[i], rows and rows[i] or {}, problems)
    result.problems[i] = one
    for _, field in ipairs {"marks", "out_of", "by_hand"} do
      result[field] = result[field] + one[field]
    end
  end
  return result
end

--- Marks of a set: {order = ids, students[id] = {marks =, out_of =, by_hand =, problems =
-- {{marks =, out_of =, parts = {{part, symbol, given, value, verdict, hint, marks,
-- out_of, row}}}}}, problems = {{row =, reason =}}}. Verdicts: right, follows, mistake,
-- unit slip, wrong, no answer, not read, by hand.
function mark.of(set, answers)
  local rows, why
  if type(answers) == "string" then
    rows, why = rows_of_csv(answers)
    if not rows then return nil, why end
  else
    rows = rows_of_list(answers)
  end
  local result = setmetatable({order = {}, students = {}, problems = {}}, meta)
  local by = sort_rows(set, rows, result.problems)
  for i, student in ipairs(set.students) do
    result.order[i] = student.id
    result.students[student.id] = mark_student(set, student, by[student.id],
      result.problems)
  end
  table.sort(result.problems, function(a, b) return a.row < b.row end)
  return result
end

---------------------------------------------------------------------------- writing

-- The form that students fill in.
function mark.form(set, only)
  local out = {csv.line(COLUMNS)}
  for _, student in ipairs(only and {only} or set.students) do
    for i = 1, #set.problems do
      for _, step in ipairs(student[i].kind.steps) do
        if step.part then
          out[#out + 1] = csv.line {student.id, i, step.part, ""}
        end
      end
    end
  end
  return table.concat(out)
end

local function each_part(result, visit)
  for _, id in ipairs(result.order) do
    for i, problem in ipairs(result.students[id].problems) do
      for _, entry in ipairs(problem.parts) do visit(id, i, entry) end
    end
  end
end

--- A line per part: student, problem, part, answer, marks, out of, verdict, hint.
function methods:csv()
  local out = {csv.line {"student", "problem", "part", "answer", "marks", "out of",
    "verdict", "hint"}}
  each_part(self, function(id, i, entry)
    out[#out + 1] = csv.line {id, i, entry.part, entry.given or "",
      show.number(entry.marks), show.number(entry.out_of), entry.verdict,
        entry.hint or ""}
  end)
  return table.concat(out)
end

local function student_line(one)
  local hand = one.by_hand > 0 and (", %s by hand"):format(show.number(one.by_hand)) or ""
  return ("%s  %s of %s%s"):format(text.pad(text.plain(one.id), 12),
    text.pad(show.number(one.marks), 3, true), show.number(one.out_of), hand)
end

--- Marks of each student, what went wrong with its hint, and rows that were not read.
function methods:text()
  local out = {}
  for _, id in ipairs(self.order) do
    local one = self.students[id]
    out[#out + 1] = student_line(one)
    for i, problem in ipairs(one.problems) do
      for _, entry in ipairs(problem.parts) do
        if entry.hint then
          out[#out + 1] = text.wrap(("%d(%s) %s: %s, %s"):format(i, entry.part,
            text.plain(entry.given), entry.verdict, entry.hint), "    ", "      ")
        end
      end
    end
  end
  for _, problem in ipairs(self.problems) do
    out[#out + 1] = text.wrap(("row %d not read: %s"):format(problem.row, problem.reason),
      "", "  ")
  end
  return table.concat(out, "\n") .. "\n"
end

return mark
