-- SPDX-License-Identifier: MIT
-- The life of a set: frozen numbers, codes, fairness, submissions and marks by hand, what
-- gaming earns, statistics, the exchange format, slips of a teacher's own kinds.
local answer = require "netsection.homework.answer"
local core = require "netsection.core"
local drawing = require "tests.drawing"
local homework = require "tests.homework"
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"
local version = require "netsection.homework.version"
local zip = require "netsection.zip"
local system = require "tests.system"

local raises = support.raises
local T = {}

local TEN = {"tributary_load", "reactions", "moment_shear", "adjusted_values",
  "end_notch",
  "rule_check", "off_centre_hole", "tub", "severed_couple", "fastener_count"}

local function set_of(n, problems, changes)
  local t = {course = "Timber floors", seed = "autumn", students = homework.roster(n),
    problems = problems or TEN}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.homework(t)
end

-- Numbers of one student, problem by problem, by label.
local function numbers_of(set, id)
  local by = {}
  for i, problem in ipairs(set.problems) do
    by[problem.label] = set:of(id)[i].answers
  end
  return by
end

---------------------------------------------------------------------------- frozen sets

-- One removed, one added, one problem inserted, the list turned round: no other byte
-- changes, and the marks are equal.
function T.test_a_frozen_set_changes_nobody_else()
  local dir <close> = drawing.folder()
  local path = dir.path .. "/set.json"
  local set = set_of(60)
  lu.assertTrue(set:save(path))
  local roster = homework.roster(60)
  table.remove(roster, 7)
  table.insert(roster, 1, "new")
  local problems = {"cut_deflection", table.unpack(TEN)}
  problems[3], problems[9] = problems[9], problems[3]
  local other = assert(ns.homework.load(path, {students = roster, problems = problems}))
  for _, id in ipairs(roster) do
    if id ~= "new" then
      local before, after = numbers_of(set, id), numbers_of(other, id)
      for label, said in pairs(before) do lu.assertEquals(after[label], said, id) end
    end
  end
  -- The new student shares no version with anybody, not with the one who left either.
  local mine = numbers_of(other, "new")
  for _, id in ipairs(homework.roster(60)) do
    for label, said in pairs(numbers_of(set, id)) do
      lu.assertNotEquals(mine[label], said)
    end
  end
  -- Saved again and the old student back: the same numbers as at first.
  lu.assertTrue(other:save(path))
  local again = assert(ns.homework.load(path, {students = {"s007", "new"},
    problems = TEN}))
  lu.assertEquals(numbers_of(again, "s007"), numbers_of(set, "s007"))
  local same = assert(ns.homework.load(path, {students = homework.roster(60),
    problems = TEN}))
  local form = homework.answers(set)
  lu.assertEquals(same:mark(form):csv(), set:mark(form):csv())
end

-- Forms of a sheet that was handed out before a problem came in stay good: by their code,
-- numbers of problems are those of that sheet.
function T.test_forms_handed_out_before_stay_good()
  local dir <close> = drawing.folder()
  local path = dir.path .. "/set.json"
  local set = set_of(3, {"tub", "reactions"})
  local rows = homework.answers(set)
  for _, row in ipairs(rows) do row.code = set.by_id[row.student].code end
  local before = set:mark(rows)
  lu.assertTrue(set:save(path))
  local later = assert(ns.homework.load(path, {problems = {"end_notch", "reactions",
    "tub"}}))
  lu.assertTrue(later:save(path))
  later = assert(ns.homework.load(path))
  local marks = later:mark(rows)
  lu.assertEquals(marks.problems, {})
  for _, id in ipairs(marks.order) do
    local now, old = marks.students[id].problems, before.students[id].problems
    lu.assertEquals({now[3].marks, now[2].marks}, {old[1].marks, old[2].marks})
    lu.assertEquals(now[1].marks, 0)
    lu.assertNotEquals(later.by_id[id].code, set.by_id[id].code)
  end
  lu.assertTrue(marks.students.s001.problems[3].marks > 5)
  -- A problem that was taken out is told by its name.
  local less = assert(ns.homework.load(path, {problems = {"reactions"}}))
  local said = less:mark(rows).problems[1].reason
  lu.assertStrContains(said, "tub, is no longer in the set")
end

-- No byte of anybody's sheet changes when one leaves and one comes; when a problem comes
-- in, nothing of the others but their number.
function T.test_no_byte_of_a_sheet_changes()
  local dir <close> = drawing.folder()
  local path = dir.path .. "/set.json"
  local long = os.getenv "NETSECTION_CLASS"
  local n, problems = tonumber(long) or 25, long and TEN or {"tub", "end_notch"}
  local set = set_of(n, problems)
  lu.assertTrue(set:save(path))
  local roster = homework.roster(n)
  table.remove(roster, 4)
  table.insert(roster, 2, "new")
  local other = assert(ns.homework.load(path, {students = roster}))
  local wider = assert(ns.homework.load(path, {students = roster,
    problems = {"cut_deflection", table.unpack(problems)}}))
  local function blocks(of, id, from)
    local html, list = ns.document.html(of:sheet(id)), {}
    for block in (html:match "<h3.*":gsub("<h3", "\0<h3")):gmatch "%z([^%z]+)" do
      list[#list + 1] = (block:gsub("([pP]roblem) %d+", "%1"):gsub("Table %d+", "Table"))
    end
    return table.concat(list, "", from)
  end
  local same = 0
  for _, id in ipairs(roster) do
    if id ~= "new" then
      for _, what in ipairs {"sheet", "key"} do
        lu.assertTrue(ns.document.html(set[what](set, id))
          == ns.document.html(other[what](other, id)), id)
      end
      lu.assertEquals(set:answer_form(id), other:answer_form(id))
      lu.assertTrue(blocks(set, id, 1) == blocks(wider, id, 2), id)
      same = same + 1
    end
  end
  lu.assertEquals(same, n - 1)
end

-- Who keeps the sheet keeps the marks: a class of 500 with wrong answers among the right
-- ones, one gone, one come, a problem put in front, forms of before with their codes.
function T.test_marks_stay_equal_in_a_class_of_500()
  local dir <close> = drawing.folder()
  local path = dir.path .. "/set.json"
  local problems = os.getenv "NETSECTION_CLASS" and TEN
    or {"tributary_load", "end_notch", "rule_check"}
  local set, r = set_of(500, problems), support.random(3)
  local rows = homework.answers(set, function(row, v, step)
    row.code = set.by_id[row.student].code
    if not step.choice and r:real(0, 1) < 1 / 3 then
      row.answer = ("%.4g"):format(v.s[step.symbol] * r:real(0.5, 2))
    end
  end)
  lu.assertTrue(set:save(path))
  local roster = homework.roster(500)
  table.remove(roster, 250)
  table.insert(roster, 100, "new")
  local later = assert(ns.homework.load(path, {students = roster,
    problems = {"cut_deflection", table.unpack(problems)}}))
  local before, after, same = set:mark(rows), later:mark(rows), 0
  lu.assertEquals(before.problems, {})
  lu.assertEquals(#after.problems, #rows / 500)    -- those of the one who left
  for _, id in ipairs(roster) do
    for i = 1, id ~= "new" and #problems or 0 do
      local x, y = before.students[id].problems[i], after.students[id].problems[i + 1]
      for p, part in ipairs(x.parts) do
        local other = y.parts[p]
        lu.assertEquals({other.given, other.verdict, other.hint, other.marks},
          {part.given, part.verdict, part.hint, part.marks}, id)
        same = same + 1
      end
    end
  end
  lu.assertTrue(same > 499 * #problems * 5)
end

function T.test_bad_files_of_sets_are_told()
  local dir <close> = drawing.folder()
  local path = dir.path .. "/set.json"
  local function refused(text, says)
    drawing.write_file(path, text)
    local set, why = ns.homework.load(path)
    lu.assertNil(set)
    lu.assertStrContains(why, says)
  end
  refused("", "not a saved homework set")
  refused("{}", "not a saved homework set")
  refused('{"format": "netsection homework set", "version": 9}', "in form 9")
  set_of(3, {"tub"}):save(path)
  local text = drawing.read_file(path)
  refused(text:gsub('"fingerprint":"%x+"', '"fingerprint":"0"'), "has changed since")
  refused(text:gsub('"kind":"tub"', '"kind":"no_such"'), "kind is one of")
  refused(text:gsub('"tub":%d+', '"tub":1'), "not those that were saved")
  lu.assertNil((ns.homework.load(dir.path .. "/none.json")))
end

---------------------------------------------------------------------------- codes

function T.test_answers_to_another_version_are_told()
  local set = set_of(4, {"end_notch", "tub"})
  local form = set:answer_form "s002"
  lu.assertStrContains(form, "student,problem,part,answer,code")
  lu.assertStrContains(form, set.by_id.s002.code)
  lu.assertStrContains(ns.document.text(set:sheet "s002"), set.by_id.s002.code)
  -- A neighbor's sheet handed in as one's own.
  local rows = {}
  for _, row in ipairs(homework.answers(set)) do
    if row.student == "s001" then
      row.student, row.code = "s002", set.by_id.s001.code
      rows[#rows + 1] = row
    end
  end
  local marks = set:mark(rows)
  lu.assertEquals(marks.students.s002.marks, 0)
  lu.assertEquals(#marks.problems, 1)
  lu.assertStrContains(marks.problems[1].reason, "is not that of this student's sheet")
  lu.assertEquals(marks.students.s002.problems[1].parts[1].verdict, "another version")
end

---------------------------------------------------------------------------- fairness

function T.test_nobody_has_the_answers_of_another()
  for _, name in ipairs(ns.homework.kinds()) do
    local set, seen = set_of(500, {name}), {}
    for _, student in ipairs(set.students) do
      local said = student[1].answers
      lu.assertNil(seen[said], name)
      seen[said] = true
    end
    lu.assertEquals(set.warnings, {}, name)
  end
end

function T.test_what_runs_out_is_told()
  local set = set_of(30, {{kind = "end_notch", given = {size = "2x10", span = 144,
    spacing = 16, live = 40, dead = 15}}})
  lu.assertStrContains(set.warnings[1] or "", "more students than versions")
end

-- Sheets as wholes are as hard as each other, and the dial moves them.
function T.test_hardness_is_balanced_over_the_sheet()
  local function range(dial)
    local set, least, most, sum = set_of(100, TEN, {hardness = dial}), 9, 0, 0
    for _, student in ipairs(set.students) do
      local h = student.hard / student.drawn
      least, most, sum = math.min(least, h), math.max(most, h), sum + h / 100
    end
    return least, most, sum
  end
  local least, most, middle = range(0.5)
  lu.assertTrue(most - least < 0.25, ("%g %g"):format(least, most))
  local _, _, easy = range(0)
  local _, _, hard = range(1)
  lu.assertTrue(easy < middle - 0.005 and hard > middle + 0.005,
    ("%g %g %g"):format(easy, middle, hard))
  raises("hardness: a number from 0 to 1", set_of, 1, {"tub"}, {hardness = 2})
end

-- A factor of 1 is no step to work out: an incised member is harder than one that is not,
-- and one with another duration than ten years.
function T.test_steps_that_are_no_work_count_for_nothing()
  local hardness = require "netsection.homework.hardness"
  local function of(changes)
    local given = {size = "2x8", wood = "Douglas Fir-Larch No.1", service = "dry",
      incised = "no", CD = 1.15, row = "four at 16 in under a deck"}
    for name, value in pairs(changes) do given[name] = value end
    return hardness.of(homework.version {kind = "adjusted_values", given = given})
  end
  lu.assertTrue(of {incised = "yes"} > of {} + 0.05)
  lu.assertTrue(of {CD = 1} < of {} - 0.05)
end

-- No plausible slip, listed or by leaving an earlier step out, lies within the tolerance
-- of its part, in any version that is handed out.
function T.test_no_slip_passes_for_right()
  local reader = require "tests.formula"
  for _, name in ipairs(ns.homework.kinds()) do
    local set = set_of(60, {name})
    for _, student in ipairs(set.students) do
      local v = student[1]
      for i, values in ipairs(v.slips) do
        for symbol, x in pairs(values) do
          for _, step in ipairs(v.kind.steps) do
            if step.symbol == symbol then
              lu.assertFalse(version.right(step, x, v.s[symbol]),
                name .. ": " .. v.kind.mistakes[i].name)
            end
          end
        end
      end
      for _, step in ipairs(v.kind.steps) do
        local chooses = step.formula and step.formula:find "%a%("
        if step.ask and step.formula and not chooses and not step.choice and not step.hand
          and type(v.s[step.symbol]) == "number" then
          for symbol in step.formula:gmatch "[%a_][%w_]*'?" do
            if v.given[symbol] == nil and type(v.s[symbol]) == "number" then
              local s = setmetatable({[symbol] = 0}, {__index = v.s})
              local ok, x = pcall(function() return reader.value(step.formula, s) end)
              if ok and x == x and math.abs(x) < 1e300 then
                lu.assertFalse(version.right(step, x, v.s[step.symbol]),
                  ("%s: %s without %s"):format(name, step.symbol, symbol))
              end
            end
          end
        end
      end
    end
  end
end

---------------------------------------------------------------------------- gaming

-- What earns marks without work: nothing, zeros, ones, one number everywhere, a
-- neighbor's sheet with one's own name and code, random numbers of the right size with
-- the words guessed. A hundredth of all marks of a class each; no more than a tenth.
local function shares(set, seed)
  local r, ids = support.random(seed), {}
  for i, student in ipairs(set.students) do ids[i] = student.id end
  local function share(answers)
    local marks, got, of = set:mark(answers), 0, 0
    for _, id in ipairs(marks.order) do
      got, of = got + marks.students[id].marks, of + marks.students[id].out_of
    end
    return 100 * got / of
  end
  local function all(value)
    return homework.answers(set, function(row, _, step)
      row.answer = step.choice and step.choice[1] or value
    end)
  end
  local next_to = {}
  for i, id in ipairs(ids) do next_to[id] = ids[i % #ids + 1] end
  local by, copied = {}, {}
  for _, row in ipairs(homework.answers(set)) do
    by[row.student] = by[row.student] or {}
    table.insert(by[row.student], row)
  end
  for _, id in ipairs(ids) do
    for _, row in ipairs(by[next_to[id]]) do
      copied[#copied + 1] = {student = id, problem = row.problem, part = row.part,
        answer = row.answer, code = set.by_id[id].code}
    end
  end
  local guessed = homework.answers(set, function(row, v, step)
    row.answer = step.choice and r:pick(step.choice)
      or ("%.5g"):format(v.s[step.symbol] * r:real(0.5, 2))
  end)
  return {{"nothing", share {}}, {"zeros", share(all "0")}, {"ones", share(all "1")},
    {"1000", share(all "1000")}, {"a neighbor's", share(copied)},
    {"random", share(guessed)}}, share(homework.answers(set))
end

function T.test_gaming_earns_at_most_a_tenth()
  local list, right = shares(set_of(40), 5)
  lu.assertEquals(right, 100)
  for _, row in ipairs(list) do
    lu.assertTrue(row[2] <= 10, ("%s: %.1f %%"):format(row[1], row[2]))
  end
end

-- A set of one problem has the least to tell a copy by.
function T.test_gaming_of_each_kind_by_itself()
  local print_it, out = os.getenv "NETSECTION_GAMING", {}
  for _, one in ipairs(homework.kinds()) do
    local name, standard = one.name, one.standard
    local list = shares(set_of(print_it and 60 or 12, {name}, {standard = standard}), 7)
    local cells = {}
    for i, row in ipairs(list) do
      lu.assertTrue(row[2] <= 10, ("%s, %s, %s: %.1f %%"):format(name, standard, row[1],
        row[2]))
      cells[i] = ("%s %.1f"):format(row[1], row[2])
    end
    out[#out + 1] = ("%-17s %-18s%s"):format(name, standard, table.concat(cells, "  "))
  end
  if print_it then print("\n" .. table.concat(out, "\n")) end
end

-- Whose numbers are another's is told with the other's name, and can be marked all the
-- same.
function T.test_a_copied_sheet_is_told()
  local set, rows = set_of(5), {}
  for _, row in ipairs(homework.answers(set)) do
    if row.student == "s003" then
      rows[#rows + 1] = {student = "s001", problem = row.problem, part = row.part,
        answer = row.answer}
    end
  end
  local marks = set:mark(rows)
  lu.assertEquals(marks.students.s001.marks, 0)
  lu.assertEquals(#marks.problems, 1)
  lu.assertStrContains(marks.problems[1].reason, "are those of the sheet of s003")
  local own = set:mark(rows, {own = {"s001"}})
  lu.assertTrue(own.students.s001.marks > 0)
  lu.assertEquals(#own.problems, 0)
  raises("own: a list of ids", set.mark, set, rows, {own = "s001"})
end

-- One number misread in one problem, and all that follows from it, is no copy, though
-- another student may have just that number.
function T.test_a_misread_number_is_no_copy()
  local set = set_of(60)
  local mine, other = set:of "s001"[1], nil
  for _, student in ipairs(set.students) do
    if student[1].p.span ~= mine.p.span then other = student end
  end
  local marks = set:mark(homework.answers(set, function(row)
    if row.student == "s001" and row.problem == 1 then
      for _, step in ipairs(other[1].kind.steps) do
        if step.part == row.part then
          row.answer = homework.written(other[1].s[step.symbol])
        end
      end
    end
  end))
  lu.assertEquals(#marks.problems, 0)
  lu.assertTrue(marks.students.s001.marks > 85)
end

-- A word earns nothing where no number before it was worked out.
function T.test_a_word_alone_earns_nothing()
  local set = set_of(1, {"rule_check"})
  local function got(with_number)
    local marks = set:mark(homework.answers(set, function(row, _, step)
      if not step.choice and not (with_number and row.part == "a") then
        row.answer = ""
      end
    end))
    local said = {}
    for _, entry in ipairs(marks.students.s001.problems[1].parts) do
      if entry.symbol:find "^rule" then said[#said + 1] = entry.verdict end
    end
    return said
  end
  lu.assertEquals(got(false), {"word alone", "word alone", "word alone"})
  lu.assertEquals(got(true), {"right", "right", "right"})
end

---------------------------------------------------------------------------- submissions

local function tub_rows(set, change, more)
  local rows = {}
  for _, row in ipairs(homework.answers(set, change)) do
    for name, value in pairs(more or {}) do row[name] = value end
    rows[#rows + 1] = row
  end
  return rows
end

function T.test_last_first_and_best_submission()
  local set = set_of(1, {"tub"})
  local half = tub_rows(set, function(row) if row.part > "d" then row.answer = "" end end,
    {submission = "1"})
  local full = tub_rows(set, nil, {submission = "2", late = "yes"})
  local none = tub_rows(set, function(row) row.answer = "7" end, {submission = "10"})
  local rows = {}
  for _, list in ipairs {full, half, none} do table.move(list, 1, #list, #rows + 1,
    rows) end
  local function got(options) return set:mark(rows, options).students.s001 end
  local out_of = got().out_of
  lu.assertEquals(got {take = "first"}.submission, "1")
  lu.assertEquals(got().submission, "10")
  lu.assertEquals(got {take = "best"}.marks, out_of)
  lu.assertEquals(got {take = "best", late = 0.25}.submission, "1")
  support.close(got {take = "best", late = 0.9}.marks, 0.9 * out_of, 1e-12)
  local days = got {take = "best", late = function(n) return 1 - n / 10 end}
  support.close(days.marks, 0.9 * out_of, 1e-12)
  raises("take: ", set.mark, set, rows, {take = "worst"})
  raises("late: a factor", set.mark, set, rows, {late = 3})
  raises("unknown field", set.mark, set, rows, {lat = 1})
end

function T.test_marks_by_hand_are_added()
  local set = set_of(2, {"severed_couple"})
  local rows = homework.answers(set)
  local before = set:mark(rows).students.s001
  lu.assertEquals(before.by_hand, 1)
  local hand = "Student ID;Problem;Part;Marks\ns001;1;j;1\ns002;1;j;7\ns001;1;a;1\n"
    .. "s001;1;j;1\nnobody;1;j;1\n"
  local letter
  for _, step in ipairs(set:of "s001"[1].kind.steps) do
    if step.hand then letter = step.part end
  end
  local marks = set:mark(rows, {hand = hand:gsub(";j;", ";" .. letter .. ";")})
  local after = marks.students.s001
  lu.assertEquals({after.marks, after.out_of, after.by_hand},
    {before.marks + 1, before.out_of + 1, 0})
  local said = {}
  for i, p in ipairs(marks.problems) do said[i] = p.reason end
  lu.assertEquals(#said, 4)
  lu.assertStrContains(table.concat(said, "\n"), "marks from 0 to 1 expected")
  lu.assertStrContains(table.concat(said, "\n"), "not by hand")
  lu.assertStrContains(table.concat(said, "\n"), "entered before")
end

function T.test_tolerance_and_shares_of_a_problem()
  local rows
  local function got(problem, factor)
    local set = set_of(1, {problem})
    rows = homework.answers(set, function(row, v, step)
      if row.part == "a" then
        row.answer = ("%.10g"):format(v.s[step.symbol] * factor)
      else
        row.answer = ""
      end
    end)
    return set:mark(rows).students.s001.problems[1].parts[1]
  end
  lu.assertEquals(got("reactions", 1.05).verdict, "wrong")
  lu.assertEquals(got({kind = "reactions", tolerance = 0.06}, 1.05).verdict, "right")
  local slip = got({kind = "reactions", partial = {["unit slip"] = 0.5}}, 1000)
  lu.assertEquals(slip.verdict, "unit slip")
  lu.assertEquals(slip.marks, slip.out_of / 2)
  raises("tolerance: a number", set_of, 1, {{kind = "tub", tolerance = 3}})
  raises("unknown field", set_of, 1, {{kind = "tub", partial = {wrong = 1}}})
end

-- "Down to a whole inch" refuses one inch too many.
function T.test_whole_numbers_are_marked_whole()
  local set = set_of(1, {"allowable_span"})
  local v = set:of "s001"[1]
  for _, step in ipairs(v.kind.steps) do
    if step.symbol == "L_a" then
      lu.assertTrue(version.right(step, v.s.L_a, v.s.L_a))
      lu.assertFalse(version.right(step, v.s.L_a + 1, v.s.L_a))
      lu.assertFalse(version.right(step, v.s.L_a - 1, v.s.L_a))
    end
  end
end

---------------------------------------------------------------------------- rows

function T.test_files_of_answers_as_they_come()
  local set = ns.homework {course = "C", seed = "1", students = {"007", "b c"},
    problems = {"reactions"}}
  local v = set:of "007"[1]
  local text = "Week 3;;;\n;;;\nStudent ID;Question no.;Part;Response\n"
    .. ("7;1;a;%.6g\nb c;1;a;\"12\n7.0;1;b;%.6g\n"):format(v.s.R_w, v.s.R_P or 1)
  local marks = assert(set:mark(text))
  lu.assertEquals(marks.students["007"].problems[1].parts[1].verdict, "right")
  lu.assertEquals(#marks.problems, 1)
  lu.assertStrContains(marks.problems[1].reason, "quote")
end

-- A quote that is not closed and one more further down hold no rows between them.
function T.test_two_bad_quotes_cost_two_rows()
  local set = set_of(6, {"reactions"}, {decimal = ","})
  local lines = {"student;problem;part;answer;remark"}
  for _, row in ipairs(homework.answers(set)) do
    lines[#lines + 1] = ("%s;%d;%s;%s;"):format(row.student, row.problem, row.part,
      (row.answer:gsub("%.", ",")))
  end
  local whole = set:mark(table.concat(lines, "\n"))
  lines[4] = 's001;1;c;"12;'
  lines[20] = 's004;1;d;13";'
  local marks = set:mark(table.concat(lines, "\n"))
  for _, id in ipairs(marks.order) do
    lu.assertEquals(marks.students[id].marks,
      whole.students[id].marks - ((id == "s001" or id == "s004") and 1 or 0), id)
  end
  -- A remark of several lines stays one.
  lines[4] = 's001;1;c;12;"I was not sure,\nplease look"'
  lines[20] = "s004;1;d;13;"
  lu.assertEquals(#set:mark(table.concat(lines, "\n")).problems, 0)
end

-- Three hundred answers as people write them.
function T.test_three_hundred_written_answers()
  local n = 0
  local function reads(text, unit, expected, decimal)
    local value, why = answer.number(text, unit, decimal)
    n = n + 1
    lu.assertNotNil(value, ("%s (%s): %s"):format(text, unit, tostring(why)))
    support.close(value, expected, 1e-6, text)
  end
  local UNITS = {
    lb = {{"lb", 1}, {"lbs", 1}, {"pounds", 1}, {"#", 1}, {"kip", 1000}, {"k", 1000},
      {"kips", 1000}, {"lbf", 1}},
    plf = {{"plf", 1}, {"lb/ft", 1}, {"lb per ft", 1}, {"lbs per foot", 1}, {"#/ft", 1},
      {"klf", 1000}},
    ["ft-lb"] = {{"ft-lb", 1}, {"lb-ft", 1}, {"ft lb", 1}, {"ft*lbs", 1}, {"lb ft", 1},
      {"foot pounds", 1}, {"in-lb", 1 / 12}, {"kip-ft", 1000}},
    psi = {{"psi", 1}, {"ksi", 1000}, {"lb/in2", 1}, {"lb per in^2", 1}, {"lb/in\u{B2}",
      1}},
    in3 = {{"in3", 1}, {"in^3", 1}, {"in\u{B3}", 1}, {"in.3", 1}, {"cubic inches", 1}},
    in4 = {{"in4", 1}, {"in^4", 1}, {"in\u{2074}", 1}},
    ft2 = {{"sf", 1}, {"sq ft", 1}, {"ft^2", 1}, {"ft\u{B2}", 1}, {"square feet", 1}},
    ["in"] = {{"in", 1}, {"in.", 1}, {"inches", 1}, {"\"", 1}, {"ft", 12}},
  }
  for _, unit in ipairs {"lb", "plf", "ft-lb", "psi", "in3", "in4", "ft2", "in"} do
    for _, form in ipairs(UNITS[unit]) do
      for _, number in ipairs {{"57.94", 57.94}, {"0057.94", 57.94}, {"579.4e-1", 57.94},
        {"5.794 x 10^1", 57.94}, {"5.794\u{D7}10^1", 57.94}} do
        reads(number[1] .. " " .. form[1], unit, number[2] * form[2])
      end
      reads("x = 57.94 " .. form[1], unit, 57.94 * form[2])
      reads("57,94 " .. form[1], unit, 57.94 * form[2], ",")
    end
  end
  reads("57 15/16", "in", 57.9375)
  reads("1.234,5 lb", "lb", 1234.5, ",")
  reads("61.6 %", "", 0.616)
  reads("61,6 percent", "", 0.616, ",")
  lu.assertTrue(n >= 300, n)
  for said, word in pairs {["Within."] = "within", ["outside, by far"] = "outside",
    ["'within'"] = "within", ["OUT"] = "outside"} do
    lu.assertEquals(answer.choice(said, {"within", "outside"}), word)
  end
end

---------------------------------------------------------------------------- results

function T.test_gradebook_feedback_and_statistics()
  local set = ns.homework {course = "C", seed = "1", students = {{id = "a", name = "Ann"},
    "b", "c"}, problems = {"reactions", "end_notch"}}
  local marks = set:mark(homework.answers(set, function(row, v, step)
    if row.student == "b" and step.symbol == "R" and row.problem == 2 then
      row.answer = ("%.8g"):format(2 * v.s.R)
    elseif row.student == "c" then
      row.answer = "0"
    end
  end))
  local book = marks:gradebook {"student", {"percent", "Score"}, "problem 2"}
  lu.assertStrContains(book, "student,Score,problem 2\r\na,100,")
  lu.assertStrContains(marks:gradebook(), "student,name,problem 1,problem 2,marks,out of")
  raises("unknown column", marks.gradebook, marks, {"color"})
  local said = ns.document.text(marks:feedback "b")
  lu.assertStrContains(said, "Student b")
  lu.assertStrContains(said, "a common mistake")
  local page = ns.document.html(marks:feedback "b")
  lu.assertStrContains(page, "counter(pages)")
  lu.assertStrContains(page, "code " .. set.by_id.b.code)
  lu.assertNil(said:find(("%.6g"):format(set:of "b"[2].s.R), 1,
    true))
  raises("no student", marks.feedback, marks, "zz")
  local found
  for _, item in ipairs(marks:items()) do
    for _, slip in ipairs(item.slips) do
      found = found or slip.name:find "not halved" and item
    end
  end
  lu.assertNotNil(found)
  lu.assertEquals(found.slips[1].count, 1)
  lu.assertTrue(found.discrimination ~= nil)
  lu.assertStrContains(tostring(marks:items()), "share 0.")
end

---------------------------------------------------------------------------- exchange

-- Tags of XML in balance, attributes quoted, no stray mark.
local function balanced(xml)
  local open = {}
  local bare = xml:gsub("<%?.-%?>", "")
  for close, name, rest in bare:gmatch "<(/?)([%w]+)([^<>]*)>" do
    if close == "/" then
      lu.assertEquals(table.remove(open), name)
    elseif not rest:find "/$" then
      open[#open + 1] = name
    end
    lu.assertEquals((rest:gsub('%s[%w:]+="[^"<>]*"', ""):gsub("[%s/]", "")), "")
  end
  lu.assertEquals(open, {})
  lu.assertNil(bare:gsub("<[^<>]*>", ""):find "[<>]")
end

-- Whether xmllint finds files to be as a grammar says.
local function is_valid(dir, words)
  return core.files.run({"xmllint", "--noout", table.unpack(words)}, dir.path .. "/said",
    60) == 0
end

function T.test_a_content_package()
  local set = set_of(2, {"tub", "rule_check", "severed_couple"})
  local files = set:qti()
  lu.assertEquals(files[1].name, "imsmanifest.xml")
  local by, parts = {}, 0
  for _, f in ipairs(files) do
    balanced(f.text)
    lu.assertNil(by[f.name])
    by[f.name] = f.text
    lu.assertTrue(f == files[1] or files[1].text:find(f.name, 1, true) ~= nil)
  end
  for _, v in ipairs(set:of "s001") do
    for _, step in ipairs(v.kind.steps) do parts = parts + (step.part and 1 or 0) end
  end
  lu.assertEquals(#files, 1 + 2 * parts)
  -- The right answer and the mistakes are in the item of their part.
  local v = set:of "s001"[1]
  local item
  for _, step in ipairs(v.kind.steps) do
    if step.symbol == "M" then
      item = by[("Q-tub-%d-%s.xml"):format(v.number, step.part)]
    end
  end
  lu.assertStrContains(item, ("<value>%.10g</value>"):format(v.s.M))
  lu.assertStrContains(item, "the floor alone")
  lu.assertStrContains(item, 'tolerance="1.5 1.5"')
  -- Where the public schema is at hand, a general-purpose validator reads it.
  local schema = os.getenv "NETSECTION_QTI_XSD"
  if schema and system.has "xmllint" then
    local dir <close> = drawing.folder()
    local path = dir.path .. "/item.xml"
    for i, f in ipairs(files) do
      if i > 1 then
        drawing.write_file(path, f.text)
        lu.assertTrue(is_valid(dir, {"--schema", schema, path}), f.name)
      end
    end
  end
  local bytes = set:qti {zip = true}
  lu.assertEquals(bytes:sub(1, 4), "PK\3\4")
  lu.assertStrContains(set:bank(), "version,kind,part,question")
  lu.assertStrContains(set:bank "json", '"kind":"tub"')
  raises("no student", set.qti, set, {students = {"zz"}})
end

-- Items of all kinds by a general-purpose validator: order of elements, attributes and
-- their values by the information model of QTI 2.1, as far as items use it (a grammar of
-- our own; of the public schema the types of the item, of blocks and of cells of tables
-- were read beside it, the file itself was not to be had whole).
function T.test_items_have_the_form_of_the_standard()
  if not system.has "xmllint" then lu.skip "no xmllint" end
  local dir <close> = drawing.folder()
  local names = {}
  for _, standard in ipairs(homework.standards) do
    for i, f in ipairs(set_of(1, ns.homework.kinds(standard), {standard = standard})
      :qti()) do
      if i > 1 then
        names[#names + 1] = ("%s/%d.xml"):format(dir.path, #names)
        drawing.write_file(names[#names], f.text)
      end
    end
  end
  lu.assertTrue(#names > 150)
  local function valid(first, last)
    return is_valid(dir, {"--relaxng", "tests/data/qti_item.rng",
      table.unpack(names, first, last)})
  end
  for first = 1, #names, 25 do
    lu.assertTrue(valid(first, math.min(first + 24, #names)), names[first])
  end
  -- What is out of order, or lacks an attribute, is refused.
  local text = drawing.read_file(names[1])
  for _, pair in ipairs {{' adaptive="false"', ""}, {"relative", "about"},
    {"<itemBody>", "<itemBody/><itemBody>"}, {"<table><tbody>", "<table>"}} do
    local bad = text:gsub(pair[1], pair[2], 1)
    lu.assertNotEquals(bad, text)
    drawing.write_file(names[1], bad)
    lu.assertFalse(valid(1, 1), pair[1])
  end
end

-- Check value of CRC-32 (ITU-T V.42; the usual text of digits).
function T.test_zip()
  lu.assertEquals(zip.crc32 "123456789", 0xCBF43926)
  lu.assertEquals(zip.of {}:sub(1, 4), "PK\5\6")
end

---------------------------------------------------------------------------- own kinds

local function own(changes)
  local t = {name = "own_load", title = "A load", vary = {w = {10, 20, 30}, L = {8, 10}},
    given = function(p)
      return {{"w", p.w, "plf", "load"}, {"L", p.L, "ft", "span"}}
    end,
    question = "Find the reaction.",
    steps = {{"W", "w*L", "lb", ask = "All of it", marks = 1},
      {"R", "W/2", "lb", ask = "Half", marks = 1}},
    mistakes = {{of = "R", formula = "W", name = "not halved", reveals = "two bearings"}},
    check = function(p) return {R = p.w * p.L / 2} end}
  for name, value in pairs(changes or {}) do t[name] = value end
  return t
end

function T.test_slips_of_own_kinds_are_told_at_once()
  lu.assertNotNil(ns.homework.kind(own()))
  for says, changes in pairs {
    ["unknown unit 'stone'"] = {steps = {{"W", "w*L", "stone", ask = "x", marks = 1}}},
    ["no symbol q"] = {steps = {{"W", "w*q", "lb", ask = "x", marks = 1}}, mistakes = {}},
    ["is given twice"] = {given = function(p)
      return {{"w", p.w, "plf", "load"}, {"w", p.L, "ft", "span"}}
    end},
    ["vary.L: never read"] = {given = function(p) return {{"w", p.w, "plf", "load"}} end,
      steps = {{"W", "w*2", "lb", ask = "x", marks = 1}}, mistakes = {}},
    ["is none of its words"] = {steps = {{"W", "w*L", "lb"}, {"R", "a word", "",
      ask = "x", marks = 1, choice = {"a", "b"}, value = function() return "c" end}},
      mistakes = {}},
    ["given or worked out already"] = {steps = {{"w", "w*L", "lb", ask = "x", marks = 1}},
      mistakes = {}},
    ["unknown unit 'furlong'"] = {given = function(p)
      return {{"w", p.w, "plf", "load"}, {"L", p.L, "furlong", "span"}}
    end},
    ["suits: "] = {suits = function(p) return p.w.x end},
    ["question: "] = {question = function(p) return "a" .. p.none end},
    ["no symbol z"] = {mistakes = {{of = "R", formula = "z", name = "a", reveals = "b"}}},
  } do
    raises(says, ns.homework.kind, own(changes))
  end
end

-- A word that comes up in a version far from the first is told when the kind is made;
-- one that comes with a teacher's own base values, when the set is.
function T.test_words_of_choices_in_all_versions()
  local function word(last)
    return own {vary = {w = {10, 20, 30, 40, 50}, L = {8, 10, 12}},
      steps = {{"W", "w*L", "lb", ask = "x", marks = 1}, {"R", "a word", "", ask = "y",
        marks = 1, choice = {"low", "high"}, value = function(s)
          return s.W > last and "very high" or s.W > 200 and "high" or "low"
        end}}, mistakes = {}, check = function() return {} end}
  end
  local said = raises("step 2 (R): 'very high' is none of its words", ns.homework.kind,
    word(599))
  lu.assertStrContains(said, "L = 12, w = 50")
  local k = ns.homework.kind(word(600))
  lu.assertNotNil(set_of(3, {k}))
  lu.assertStrContains(raises("'very high' is none of its words", set_of, 1,
    {{kind = k, given = {w = 60, L = 12}}}), "problem 1")
  -- What makes no sense is never handed out, so its words do not matter.
  local t = word(599)
  t.suits = function(_, s) return s.W < 600 end
  lu.assertNotNil(ns.homework.kind(t))
end

-- The line of a formula that names a symbol which is nowhere.
function T.test_the_line_of_a_slip_is_told()
  local dir <close> = drawing.folder()
  local path = dir.path .. "/own.lua"
  drawing.write_file(path, 'local ns = require "netsection"\nlocal k = ns.homework.kind {'
    .. 'name = "mine", title = "M", vary = {w = {1, 2}},\ngiven = function(p) return '
    .. '{{"w", p.w, "plf", "load"}} end,\nquestion = "Find it.",\nsteps = {\n'
    .. '{"R", "w*8", "lb", ask = "R", marks = 1},\n'
    .. '{"M", "R*zz", "ft-lb", ask = "M", marks = 1}}}\nreturn k\n')
  local said = raises("homework.kind mine: step 2 (M), line 7: no symbol zz", dofile,
    path)
  lu.assertStrContains(said, "own.lua")
end

-- The teacher's check runs on every version that is handed out.
function T.test_the_teachers_check_is_run()
  local calls = 0
  local k = ns.homework.kind(own {check = function(p)
    calls = calls + 1
    return {R = p.w * p.L / 2}
  end})
  set_of(4, {k})
  lu.assertEquals(calls, 4)
  raises("its check gives R", set_of, 4, {ns.homework.kind(own {check = function()
    return {R = 1}
  end})})
end

function T.test_values_given_to_one_student()
  local set = set_of(1, {"tub"}, {students = {"a", {id = "b", given = {tub = {span = 120,
    from = 30}}}, {id = "c", given = {[1] = {span = "13-0"}}}}})
  lu.assertEquals({set:of "b"[1].p.span, set:of "b"[1].p.from}, {120, 30})
  lu.assertEquals(set:of "c"[1].p.span, 156)
  raises("has no base value", set_of, 1, {"tub"}, {students = {{id = "b",
    given = {tub = {color = 1}}}}})
end

---------------------------------------------------------------------------- print

-- Where a diagram is asked there are empty axes; the key has question and figure; symbols
-- have their index below the line, names that people gave have not.
function T.test_what_stands_on_the_pages()
  local set = set_of(1, {"moment_shear"}, {students = {{id = "s_01", name = "M_a"}}})
  local sheet = ns.document.html(set:sheet "s_01")
  local key = ns.document.html(set:key "s_01")
  lu.assertStrContains(sheet, "Empty axes to draw on")
  lu.assertNil(key:find("Empty axes", 1, true))
  lu.assertStrContains(key, "Draw the shear and the moment")
  lu.assertStrContains(key, "Figure to problem 1")
  lu.assertStrContains(key, "Solution of problem 1")
  lu.assertStrContains(sheet, "x<sub>0</sub>, ft")
  lu.assertStrContains(key, "R<sub>A</sub>")
  lu.assertStrContains(sheet, "<bdi>s_01</bdi>")
  lu.assertStrContains(sheet, "<bdi>M_a</bdi>")
  lu.assertStrContains(ns.document.text(set:sheet "s_01"), "x_0, ft")
  local units = ns.document.html(set_of(1, {"allowable_span"}):key "s001")
  lu.assertStrContains(units, "in<sup>3</sup>")
  lu.assertStrContains(units, "d<sup>2</sup>")
  lu.assertNil(units:find ">[^<]*in[234][^<%w]")
  lu.assertStrContains(units, " psi")
  local factored = ns.document.html(set_of(1, {"column"}, {
    standard = "us-nds-2018-lrfd"}):key "s001")
  lu.assertStrContains(factored, "\u{3C6}<sub>s</sub>")
  lu.assertStrContains(factored, "\u{3BB}")
  lu.assertStrContains(ns.document.text(set_of(1, {"allowable_span"}):key "s001"), " in3")
end

function T.test_pages_say_whose_they_are()
  local set = set_of(1, {"tub", "end_notch"}, {due = "9 May, noon"})
  local page = ns.document.html(set:sheet "s001")
  lu.assertStrContains(page, "counter(pages)")
  lu.assertStrContains(page, "due 9 May")
  lu.assertStrContains(page, "s001 ")
  lu.assertNil(page:find "Shore first")
  local key = ns.document.text(set:key "s001")
  lu.assertStrContains(key, "Find the largest moment")
  -- Names of values stand beside their values in text as well.
  local said = ns.document.text(set:sheet "s001")
  lu.assertStrContains(said, "empty tub")
  for line in said:gmatch "[^\n]+" do
    if line:find "^empty tub" then lu.assertStrContains(line, "W_e") end
  end
end

return T
