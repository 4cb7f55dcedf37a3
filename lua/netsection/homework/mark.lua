-- SPDX-License-Identifier: MIT
-- Marking: what came back beside what is right, beside each common mistake, and beside
-- what follows from the student's own earlier answers.
--
-- An answer that is wrong but follows from an earlier wrong one of the same problem gets
-- a share of its marks: the steps are worked again with the student's number in place.
-- The
-- earlier number has to be a plausible try: not nothing, of the right sign and size, and
-- not one number written everywhere. A mistake that is recognized gets no marks, unless
-- the problem says so, but a hint. Rows that cannot be read are listed with their reason
-- and count for nothing until somebody looks at them; answers to another version, by the
-- code on the sheet, are told and not marked.
local answer = require "netsection.homework.answer"
local csv = require "netsection.csv"
local kind = require "netsection.homework.kind"
local marks = require "netsection.homework.marks"
local parts = require "netsection.parts"
local rows_of = require "netsection.homework.rows"
local text = require "netsection.text"
local version = require "netsection.homework.version"
local error = require "netsection.raise".error

local mark = {}

local NEEDED = {"student", "problem", "part", "answer"}
local FORM = {"student", "problem", "part", "answer", "code"}
local HAND = {"student", "problem", "part", "marks"}
local FOLLOWS = 0.5    -- share of the marks
local FAR = 20         -- times the right number, either way: no plausible try

-- Factors that units slip by: inches in a foot, square inches, cubic; kips.
local SLIPS = {
  {12, "inches and feet"}, {144, "square inches and square feet"},
  {1728, "cubic inches and cubic feet"}, {1000, "pounds and kips"},
}

local near = version.near

---------------------------------------------------------------------------- options

--- @param level of the caller, for errors
function mark.options(options, level)
  options = options or {}
  parts.only("homework: mark", options, {"take", "late", "follows", "hand"}, level)
  local take = options.take or "last"
  if take ~= "last" and take ~= "first" and take ~= "best" then
    error('homework: mark: take: "last", "first" or "best" expected', level)
  end
  local late = options.late
  if late ~= nil and type(late) ~= "function"
    and not (type(late) == "number" and late >= 0 and late <= 1) then
    error("homework: mark: late: a factor from 0 to 1, or a function of days, expected",
      level)
  end
  local follows = options.follows == nil and FOLLOWS or options.follows
  if type(follows) ~= "number" or not (follows >= 0 and follows <= 1) then
    error("homework: mark: follows: a share from 0 to 1 expected", level)
  end
  if options.hand ~= nil and type(options.hand) ~= "string"
    and type(options.hand) ~= "table" then
    error("homework: mark: hand: CSV text or rows expected", level)
  end
  return {take = take, late = late, follows = follows, hand = options.hand}
end

---------------------------------------------------------------------------- verdicts

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

-- A try that later parts may rest on.
local function plausible(value, correct)
  if type(value) ~= "number" or type(correct) ~= "number" then return false end
  if value == 0 or correct == 0 then return false end
  local q = value / correct
  return q > 1 / FAR and q < FAR
end

-- A step with the tolerance that the problem has, if any.
local function with_tolerance(step, problem)
  if not problem.tolerance then return step end
  return setmetatable({tolerance = problem.tolerance}, {__index = step})
end

-- Verdict, hint and the mistake of one answer that was read.
local function judge(v, step, value, tried)
  local correct = v.s[step.symbol]
  if version.right(step, value, correct) then return "right" end
  local follows = followed(v, step, tried.own)
  if follows ~= nil and not tried.everywhere[value] and value ~= 0
    and version.right(step, value, follows) then
    return "follows", ("from your own (%s)"):format(table.concat(tried.earlier, "), ("))
  end
  if step.choice then return "wrong", wrong_hint(step, tried.earlier[1]) end
  local mistake = recognised(v, step, value)
  if mistake then
    return "mistake", ("looks like %s: %s"):format(mistake.name, mistake.reveals),
      mistake.name
  end
  local slip = slipped(step, value, correct)
  if slip then return "unit slip", slip, slip end
  return "wrong", wrong_hint(step, tried.earlier[1])
end

---------------------------------------------------------------------------- one problem

-- Value, or nil and why; third: it was read, but in another quantity's unit.
local function read_answer(step, said, decimal)
  if step.choice then return answer.choice(said, step.choice) end
  return answer.number(said, step.unit, decimal)
end

local function entry_of(step, row)
  return {part = step.part, symbol = step.symbol, row = row and row.row,
    given = row and row.answer, out_of = step.marks, marks = 0}
end

-- Numbers that stand in three parts or more whose right answers differ: nobody works them
-- out, so nothing follows from them.
local function written_everywhere(v, rows, decimal)
  local count, everywhere = {}, {}
  for _, step in ipairs(v.kind.steps) do
    local row = step.part and not step.choice and not step.hand and rows[step.part]
    local value = row and row.answer and answer.number(row.answer, step.unit, decimal)
    if value then
      count[value] = (count[value] or 0) + 1
      everywhere[value] = count[value] >= 3 or nil
    end
  end
  return everywhere
end

local function fill(entry, v, step, row, tried, problem, context)
  local value, why, other = read_answer(step, row.answer, context.set.decimal)
  if other then
    entry.verdict, entry.hint = "wrong", why
  elseif value == nil then
    entry.verdict, entry.hint = "not read", why
    table.insert(context.problems, {row = row.row, reason = ("answer %q: %s"):format(
      text.plain(row.answer), why)})
  else
    entry.value = value
    entry.verdict, entry.hint, entry.mistake = judge(v, with_tolerance(step, problem),
      value, tried)
    local share = entry.verdict == "right" and 1
      or problem.partial[entry.verdict] or entry.verdict == "follows" and context.follows
      or 0
    entry.marks = step.marks * share
    if entry.verdict ~= "right" and not tried.everywhere[value]
      and (step.choice or plausible(value, v.s[step.symbol])) then
      tried.own[step.symbol] = value
      table.insert(tried.earlier, step.part)
    end
  end
end

-- Parts of one problem in their order. @param rows {part = row}
local function mark_problem(v, rows, problem, context)
  local result = {marks = 0, out_of = 0, by_hand = 0, parts = {}, kind = v.kind.name}
  local tried = {own = {}, earlier = {},
    everywhere = written_everywhere(v, rows, context.set.decimal)}
  for _, step in ipairs(v.kind.steps) do
    local row = rows[step.part]
    if step.hand then
      local entry = entry_of(step, row)
      entry.verdict = "by hand"
      result.by_hand = result.by_hand + step.marks
      result.parts[#result.parts + 1] = entry
    elseif step.ask then
      local entry = entry_of(step, row)
      if not row or row.answer == "" then
        entry.verdict = "no answer"
      elseif row.other_version then
        entry.verdict, entry.hint = "another version", row.other_version
      else
        fill(entry, v, step, row, tried, problem, context)
      end
      result.marks = result.marks + entry.marks
      result.out_of = result.out_of + step.marks
      result.parts[#result.parts + 1] = entry
    end
  end
  return result
end

---------------------------------------------------------------------------- rows

-- A problem by its number, its label, or its kind's name, which must be that of one.
local function find_problem(set, said)
  local n = math.tointeger(tonumber(said))
  if n then return n >= 1 and n <= #set.problems and n or nil end
  local found
  for i, problem in ipairs(set.problems) do
    if problem.label == said then return i end
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
local function place(set, row, find)
  local student = find(row.student)
  if not student then return nil, ("no student %q"):format(text.plain(row.student)) end
  local i = find_problem(set, row.problem)
  if not i then return nil, ("no problem %q"):format(text.plain(row.problem)) end
  local step = find_step(student[i].kind, row.part)
  if not step then
    return nil, ("problem %d has no part %q"):format(i, text.plain(row.part))
  end
  return student, i, step
end

-- A code that is not the sheet's says that the answers are to other numbers.
local function check_code(student, row, context)
  local code = row.code and row.code:upper():gsub("%s", "")
  if not code or code == "" or code == student.code then return end
  row.other_version = ("the code %s is not that of this student's sheet, %s")
    :format(text.plain(code), student.code)
  local key = student.id .. "/" .. code
  if not context.told[key] then
    context.told[key] = true
    table.insert(context.problems, {row = row.row, reason = ("%s: %s: not marked")
      :format(text.plain(student.id), row.other_version)})
  end
end

-- The submission that a row belongs to, in the order in which they come.
local function submission_of(student_rows, row)
  local name = row.submission or ""
  local one = student_rows.by[name]
  if not one then
    one = {name = name, number = tonumber(name), at = #student_rows + 1, late = 0}
    student_rows.by[name] = one
    student_rows[#student_rows + 1] = one
  end
  local late = (row.late or ""):lower()
  local days = tonumber(late) or (late == "yes" or late == "y" or late == "late")
    and 1 or 0
  one.late = math.max(one.late, days)
  return one
end

-- Rows by student, submission, problem and part; what has no place is a problem.
local function sort_rows(set, rows, context)
  local by, find = {}, rows_of.finder(set)
  for _, row in ipairs(rows) do
    local student, i, step = place(set, row, find)
    if not student then
      table.insert(context.problems, {row = row.row, reason = i})
    elseif row.answer ~= "" then
      by[student.id] = by[student.id] or {by = {}}
      local one = submission_of(by[student.id], row)
      one[i] = one[i] or {}
      local first = one[i][step.part]
      if first then
        table.insert(context.problems, {row = row.row,
          reason = ("the part is answered in "
          .. "row %d too; that one counts"):format(first.row)})
      else
        check_code(student, row, context)
        one[i][step.part] = row
      end
    end
  end
  return by
end

-- One submission of one student.
local function mark_submission(student, one, context)
  local result = {id = student.id, name = student.name, marks = 0, out_of = 0,
    by_hand = 0, problems = {}, late = one and one.late > 0 and one.late or nil,
    submission = one and one.name ~= "" and one.name or nil}
  for i, problem in ipairs(context.set.problems) do
    local marked = mark_problem(student[i], one and one[i] or {}, problem, context)
    result.problems[i] = marked
    for _, field in ipairs {"marks", "out_of", "by_hand"} do
      result[field] = result[field] + marked[field]
    end
  end
  local late, days = context.late, one and one.late or 0
  if late and days > 0 then
    result.late_factor = type(late) == "function" and late(days) or late
    result.marks = result.marks * result.late_factor
  end
  return result
end

-- The submission that counts.
local function mark_student(student, submissions, context)
  local list = submissions or {}
  table.sort(list, function(a, b)
    if a.number and b.number and a.number ~= b.number then return a.number < b.number end
    return a.at < b.at
  end)
  if #list == 0 then return mark_submission(student, nil, context) end
  if context.take ~= "best" then
    return mark_submission(student, list[context.take == "first" and 1 or #list], context)
  end
  local best
  for _, one in ipairs(list) do
    local result = mark_submission(student, one, context)
    if not best or result.marks > best.marks then best = result end
  end
  return best
end

-- Adds a mark given by hand to its part.
local function add_hand(one, i, step, row, context)
  local given = tonumber(row.marks)
  for _, entry in ipairs(one.problems[i].parts) do
    if entry.part == step.part then
      if not step.hand then
        return "it is marked by the key, not by hand"
      elseif not given or not (given >= 0 and given <= entry.out_of) then
        return ("marks from 0 to %s expected, got %q"):format(text.short(entry.out_of),
          text.plain(row.marks))
      elseif entry.entered then
        return "its marks were entered before"
      end
      entry.entered, entry.marks, entry.verdict = true, given, "by hand"
      one.marks = one.marks + given * (one.late_factor or 1)
      one.out_of, one.by_hand = one.out_of + entry.out_of, one.by_hand - entry.out_of
      local p = one.problems[i]
      p.marks, p.out_of = p.marks + given, p.out_of + entry.out_of
      p.by_hand = p.by_hand - entry.out_of
    end
  end
  return nil, context
end

-- Marks by hand. @return nil, or a list of problems where their text is no CSV
local function enter_hand(result, context)
  if not context.hand then return nil end
  local rows, why = rows_of.of(context.hand, HAND, context.problems)
  if not rows then return why end
  local find = rows_of.finder(context.set)
  for _, row in ipairs(rows) do
    if row.marks ~= "" then
      local student, i, step = place(context.set, row, find)
      local reason = not student and i
        or add_hand(result.students[student.id], i, step, row, context)
      if reason then
        table.insert(context.problems, {row = row.row, reason = "by hand: " .. reason})
      end
    end
  end
end

--- Marks of a set: {order = ids, students[id] = {marks =, out_of =, by_hand =, late =,
-- problems = {{marks =, out_of =, parts = {{part, symbol, given, value, verdict, hint,
-- marks, out_of, row, mistake}}}}}, problems = {{row =, reason =}}}. Verdicts: right,
-- follows, mistake, unit slip, wrong, no answer, not read, another version, by hand.
function mark.of(set, answers, options)
  local context = {set = set, problems = {}, told = {}, take = options.take,
    late = options.late, follows = options.follows, hand = options.hand}
  local rows, why = rows_of.of(answers, NEEDED, context.problems)
  if not rows then return nil, why end
  local result = marks.new(set, context.problems)
  local by = sort_rows(set, rows, context)
  for i, student in ipairs(set.students) do
    result.order[i] = student.id
    result.students[student.id] = mark_student(student, by[student.id], context)
  end
  why = enter_hand(result, context)
  if why then return nil, why end
  table.sort(result.problems, function(a, b) return a.row < b.row end)
  return result
end

---------------------------------------------------------------------------- the form

--- The form that students fill in: a row for each part, with the code of the sheet.
function mark.form(set, only)
  local out = {csv.line(FORM)}
  for _, student in ipairs(only and {only} or set.students) do
    for i = 1, #set.problems do
      for _, step in ipairs(student[i].kind.steps) do
        if step.part then
          out[#out + 1] = csv.line {student.id, i, step.part, "", student.code}
        end
      end
    end
  end
  return table.concat(out)
end

return mark
