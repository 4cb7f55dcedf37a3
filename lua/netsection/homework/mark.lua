-- SPDX-License-Identifier: MIT
-- Marking of what came back: rows, submissions, marks by hand.
--
-- What a part earns is in homework/judge.lua. Rows that cannot be read are listed with
-- their reason and count for nothing until somebody looks at them; answers to another
-- version, by the code on the sheet or by their numbers, are told and not marked.
local copied = require "netsection.homework.copied"
local csv = require "netsection.csv"
local judge = require "netsection.homework.judge"
local marks = require "netsection.homework.marks"
local parts = require "netsection.parts"
local point = require "netsection.point"
local rows_of = require "netsection.homework.rows"
local text = require "netsection.text"
local error = require "netsection.raise".error

local mark = {}

local NEEDED = {"student", "problem", "part", "answer"}
local FORM = {"student", "problem", "part", "answer", "code"}
local HAND = {"student", "problem", "part", "marks"}
local FOLLOWS = 0.5    -- share of the marks

---------------------------------------------------------------------------- options

--- @param level of the caller, for errors
function mark.options(options, level)
  options = options or {}
  parts.only("homework: mark", options, {"take", "late", "follows", "hand", "own"}, level)
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
  if options.own ~= nil and type(options.own) ~= "table" then
    error("homework: mark: own: a list of ids expected", level)
  end
  local own = {}
  for _, id in ipairs(options.own or {}) do own[id] = true end
  return {take = take, late = late, follows = follows, hand = options.hand, own = own}
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

-- The problem of a row, by the sheet that its code is of: problems may stand in another
-- order on one that was handed out before. @return number | nil, reason
local function problem_of(set, student, row)
  local said, sheet = row.problem, nil
  local code = row.code and row.code:upper():gsub("%s", "")
  if code and code ~= "" and code ~= student.code then
    for e, known in ipairs(student.codes) do
      sheet = known == code and set.editions[e] or sheet
    end
  end
  local n = sheet and math.tointeger(tonumber(said))
  if n and sheet[n] then
    local i = set.index[sheet[n]]
    if i then return i end
    return nil, ("problem %d of the sheet %s, %s, is no longer in the set"):format(n,
      code, sheet[n])
  end
  local i = find_problem(set, said)
  if not i then return nil, ("no problem %q"):format(text.plain(said)) end
  return i
end

-- Where a row belongs: student, problem, step | nil, reason.
local function place(set, row, find)
  local student = find(row.student)
  if not student then return nil, ("no student %q"):format(text.plain(row.student)) end
  local i, why = problem_of(set, student, row)
  if not i then return nil, why end
  local step = find_step(student[i].kind, row.part)
  if not step then
    return nil, ("problem %d has no part %q"):format(i, text.plain(row.part))
  end
  return student, i, step
end

-- A code that was never the student's says that the answers are to other numbers.
local function check_code(student, row, context)
  local code = row.code and row.code:upper():gsub("%s", "")
  if not code or code == "" then return end
  for _, known in ipairs(student.codes) do
    if known == code then return end
  end
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
    local marked = judge.problem(student[i], one and one[i] or {}, problem, context)
    result.problems[i] = marked
    for _, field in ipairs {"marks", "out_of", "by_hand"} do
      result[field] = result[field] + marked[field]
    end
  end
  result.told = context.copied(result)
  local late, days = context.late, one and one.late or 0
  if late and days > 0 then
    result.late_factor = type(late) == "function" and late(days) or late
    result.marks = result.marks * result.late_factor
  end
  return result
end

-- The submission that counts.
local function chosen(student, submissions, context)
  local list = submissions or {}
  table.sort(list, function(a, b)
    if a.number and b.number and a.number ~= b.number then return a.number < b.number end
    return point.less(a.at, b.at)
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

local function mark_student(student, submissions, context)
  local result = chosen(student, submissions, context)
  if result.told then table.insert(context.problems, result.told) end
  result.told = nil
  return result
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
-- follows, mistake, unit slip, wrong, word alone, no answer, not read, another version,
-- by hand.
function mark.of(set, answers, options)
  local context = {set = set, problems = {}, told = {}, take = options.take,
    late = options.late, follows = options.follows, hand = options.hand,
    copied = copied.detector(set, options.own)}
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
