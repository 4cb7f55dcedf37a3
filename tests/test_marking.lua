-- SPDX-License-Identifier: MIT
-- Marking: answers as students write them, common mistakes, what follows from earlier
-- numbers, rows that cannot be read. Factors of units by definition (1 kip = 1000 lb, 1
-- ft = 12 in); everything else by the keys, which other tests solve again.
local lu = require "luaunit"
local ns = require "netsection"
local answer = require "netsection.homework.answer"
local homework = require "tests.homework"
local markup = require "tests.markup"
local support = require "tests.support"

local T = {}

---------------------------------------------------------------------------- answers

local READ = {
  {"840 plf", "plf", 840}, {"840", "plf", 840}, {"0.84 klf", "plf", 840},
  {"70 lb/in", "plf", 840}, {"586.7 lb", "lb", 586.7}, {"0.6 kip", "lb", 600},
  {"586.7lbs", "lb", 586.7}, {"13'-6\"", "ft", 13.5}, {"13-6", "ft", 13.5},
  {"13.5", "ft", 13.5}, {"13 ft 6 in", "ft", 13.5}, {"162 in", "ft", 13.5},
  {"2-3/4 in", "in", 2.75}, {"2-3/4", "in", 2.75}, {"2 3/4\"", "in", 2.75},
  {"3/4", "in", 0.75}, {"0.23 ft", "in", 2.76}, {"2346.7 ft-lb", "ft-lb", 2346.7},
  {"2,346.7 ft-lb", "ft-lb", 2346.7}, {"2,346", "ft-lb", 2346},
  {"28160.4 lb-in", "ft-lb", 2346.7}, {"28160.4 in-lb", "ft-lb", 2346.7},
  {"2.3467 kip-ft", "ft-lb", 2346.7}, {"2346.7 ft\u{B7}lb", "ft-lb", 2346.7},
  {"2346.7 lb ft", "ft-lb", 2346.7},
  {"2.3467 kip\u{B7}ft", "ft-lb", 2346.7}, {"2.3467 k ft", "ft-lb", 2346.7},
  {"2.3467 kips*ft", "ft-lb", 2346.7}, {"1379 psi", "psi", 1379},
  {"1.379 ksi", "psi", 1379},
  {"72.14 in4", "in4", 72.14}, {"72.14 in^4", "in4", 72.14}, {"14 in.3", "in3", 14},
  {"9.4 sq. in.", "in2", 9.4}, {"18 sq ft", "ft2", 18}, {"18 ft\u{B2}", "ft2", 18},
  {"0.616", "", 0.616}, {"61.6 %", "", 0.616}, {"1.6e6", "psi", 1.6e6},
  {"5", "count", 5}, {"5 nails", "count", 5}, {"-38.5", "lb", -38.5},
  {"\u{2212}38.5 lb", "lb", -38.5}, {"'-38.5", "lb", -38.5}, {"+12", "lb", 12},
  {"  12 lb ", "lb", 12}, {".5", "", 0.5}, {"3.", "lb", 3}, {"1 kN", "lb", 224.8089},
}

function T.test_answers_as_they_are_written()
  for _, case in ipairs(READ) do
    local value, why = answer.number(case[1], case[2])
    lu.assertEquals(math.type(value), "float", case[1] .. ": " .. tostring(why))
    support.close(value, case[3], 1e-6, case[1])
  end
end

local UNREAD = {
  {"about 40", "no number is written"}, {"", "no number"}, {"abc lb", "no number"},
  {"12 elephants", "its unit is not known"}, {"1/0", "zero denominator"},
  {"1e999", "too large"}, {"nan", "no number"}, {"inf", "no number"},
  {"--5", "no number"},
  {"5,67", "its unit is not known"}, {("9"):rep(70), "longer than 60"},
  {"12 = 12", "its unit is not known"}, {"0x10", "its unit is not known"},
}

function T.test_answers_that_cannot_be_read()
  for _, case in ipairs(UNREAD) do
    local value, why, other = answer.number(case[1], "lb")
    lu.assertNil(value, case[1])
    lu.assertStrContains(why, case[2])
    lu.assertNil(other, case[1])
  end
end

function T.test_unit_of_another_quantity()
  for _, case in ipairs {{"586.7 psi", "lb"}, {"12 lb", "plf"}, {"12 plf", "lb"},
    {"3 in", "lb"}, {"3 lb", "in"}, {"13-6", "lb"}, {"5 in3", "in4"}, {"5 lb", ""},
    {"5 psf", "count"}, {"12 ft-lb", "lb"}} do
    local value, why, other = answer.number(case[1], case[2])
    lu.assertNil(value)
    lu.assertTrue(other, case[1])
    lu.assertStrContains(why, "asked in")
  end
end

function T.test_choices()
  local list = {"within", "outside"}
  lu.assertEquals(answer.choice("Within", list), "within")
  lu.assertEquals(answer.choice(" out ", list), "outside")
  lu.assertNil(answer.choice("", list))
  lu.assertNil(answer.choice("yes", list))
  lu.assertNil(answer.choice("b", {"bottom", "both alike"}))
  lu.assertEquals(answer.choice("bottom", {"bottom", "bottom edge"}), "bottom")
end

---------------------------------------------------------------------------- verdicts

local C1 = {kind = "end_notch", given = {size = "2x12", span = "16-0", spacing = 16,
  dead = 15, live = 40, depth = "2-1/2 in", wood = "Douglas Fir-Larch No.2"}}

-- Marks of one set of answers {part = text} to C1.
local function mark_of(answers)
  local set, rows = homework.of(C1), {}
  for part, said in pairs(answers) do
    rows[#rows + 1] = {student = "s001", problem = 1, part = part, answer = said}
  end
  local marks = set:mark(rows)
  local by = {}
  for _, entry in ipairs(marks.students.s001.problems[1].parts) do
    by[entry.part] = entry
  end
  return by, marks
end

-- Parts of C1: a w, b R, c M, d f_v, e V', f ratio, g limit, h rule, i n_v, j n_most.
function T.test_right_answers_of_C1()
  local by, marks = mark_of {a = "73.3 plf", b = "0.587 kip", c = "2346.7 ft-lb",
    d = "52.1 psi", e = "952.8 lb", f = "0.616", g = "2-13/16 in", h = "within",
    i = "3.81\"", j = "2.81"}
  for _, entry in pairs(by) do lu.assertEquals(entry.verdict, "right", entry.part) end
  lu.assertEquals(marks.students.s001.marks, 13)
  lu.assertEquals(marks.students.s001.out_of, 13)
  lu.assertEquals(#marks.problems, 0)
end

-- The wrong answers that a scenario lists: 2025, 1575, 1225 lb; both bearings' load.
function T.test_common_mistakes_of_C1()
  for said, name in pairs {["2025"] = "the whole depth, no notch factor",
    ["1575 lb"] = "the depth left, no notch factor", ["1.225 kip"] = "not squared"} do
    local by = mark_of {e = said}
    lu.assertEquals(by.e.verdict, "mistake")
    lu.assertEquals(by.e.marks, 0)
    lu.assertStrContains(by.e.hint, name)
  end
  lu.assertStrContains(mark_of {b = "1173.3"}.b.hint, "not halved")
  lu.assertStrContains(mark_of {g = "3 in"}.g.hint, "nominal depth")
end

function T.test_slips_of_units()
  lu.assertStrContains(mark_of {c = "28160"}.c.hint,
    "12 times too large: inches and feet")
  lu.assertStrContains(mark_of {b = "0.5867"}.b.hint, "1000 times too small: pounds and")
  lu.assertEquals(mark_of {d = "7509"}.d.verdict, "unit slip")
  lu.assertStrContains(mark_of {d = "7509"}.d.hint, "144 times too large")
  lu.assertStrContains(mark_of {b = "-586.7"}.b.hint, "the sign")
  lu.assertStrContains(mark_of {b = "586.7 psi"}.b.hint, "asked in lb")
  lu.assertEquals(mark_of {b = "586.7 psi"}.b.verdict, "wrong")
end

-- w wrong by 10 %: R, M, f_v and the ratio follow and get half; V' does not depend on it.
function T.test_what_follows_is_marked()
  local by, marks = mark_of {a = "80.67", b = "645.3", c = "2581.3", d = "57.4",
    e = "952.8", f = "0.677", g = "2.81", h = "within"}
  lu.assertEquals(by.a.verdict, "wrong")
  for _, part in ipairs {"b", "c", "d", "f"} do
    lu.assertEquals(by[part].verdict, "follows", part)
    lu.assertEquals(by[part].marks, by[part].out_of / 2)
    lu.assertStrContains(by[part].hint, "from your own (a)")
  end
  lu.assertEquals(by.e.verdict, "right")
  lu.assertEquals(by.i.verdict, "no answer")
  -- Wrong (a) 1; half of (b), (c), (d), (f), 1 each; no answer to (i) 2 and (j) 1.
  lu.assertEquals(marks.students.s001.marks, 13 - 1 - 4 / 2 - 2 - 1)
end

-- A wrong limit makes "outside" follow: 2.5 in against a limit taken as d/6 = 1.875 in.
function T.test_choice_follows_too()
  local by = mark_of {g = "1.875", h = "outside"}
  lu.assertEquals(by.g.verdict, "mistake")
  lu.assertEquals(by.h.verdict, "follows")
  lu.assertEquals(mark_of {h = "outside"}.h.verdict, "wrong")
  lu.assertStrContains(mark_of {h = "outside"}.h.hint, "actual depth")
end

-- An own zero must not stop the marking.
function T.test_own_zero()
  local by = mark_of {e = "0", f = "5"}
  lu.assertEquals(by.e.verdict, "wrong")
  lu.assertEquals(by.f.verdict, "wrong")
end

function T.test_tolerance()
  local R = 586.6666666667
  lu.assertEquals(mark_of {b = ("%.4f"):format(R * 1.0149)}.b.verdict, "right")
  lu.assertEquals(mark_of {b = ("%.4f"):format(R * 1.0151)}.b.verdict, "wrong")
end

---------------------------------------------------------------------------- all kinds

function T.test_right_answers_get_all_marks()
  local set = ns.homework {course = "C", seed = "2", students = homework.roster(4),
    problems = ns.homework.kinds()}
  local marks = set:mark(homework.answers(set))
  lu.assertEquals(#marks.problems, 0)
  for _, id in ipairs(marks.order) do
    local one = marks.students[id]
    lu.assertEquals(one.marks, one.out_of)
    lu.assertTrue(one.out_of > 150)
    lu.assertEquals(one.by_hand, 3)
  end
end

-- Each common mistake by itself, all else right: it is recognised, and by its name unless
-- another comes to the same number.
function T.test_every_mistake_is_recognised()
  for _, name in ipairs(ns.homework.kinds()) do
    local set = homework.of(name, 3)
    local k = set.problems[1].kind
    for m, mistake in ipairs(k.mistakes) do
      for _, symbol in ipairs(mistake.of) do
        local put = {}
        local marks = set:mark(homework.answers(set, function(row, v, step)
          if step.symbol == symbol and v.slips[m][symbol] then
            row.answer = homework.written(v.slips[m][symbol])
            put[row.student] = step.part
          end
        end))
        for id, part in pairs(put) do
          for _, entry in ipairs(marks.students[id].problems[1].parts) do
            if entry.part == part then
              lu.assertEquals(entry.verdict, "mistake", name .. ": " .. mistake.name)
              lu.assertEquals(entry.marks, 0)
              lu.assertStrContains(entry.hint, "looks like")
            end
          end
        end
      end
    end
  end
end

---------------------------------------------------------------------------- CSV

function T.test_csv_as_spreadsheets_write_it()
  local set = homework.of(C1)
  local csv = "\xEF\xBB\xBFStudent;Problem;Part;Answer;Remark\r\n"
    .. "s001;1;(A);73.3 plf;\r\ns001;end_notch;R;\"586.7 lb\";fine\r\n\r\n"
    .. "s001;1;e;\"2,025\";\r\ns001;1;i;\"3'-0\"\"\";\r\n"
  local marks = assert(set:mark(csv))
  local parts = marks.students.s001.problems[1].parts
  lu.assertEquals({parts[1].verdict, parts[2].verdict, parts[5].verdict,
    parts[9].verdict}, {"right", "right", "mistake", "wrong"})
  lu.assertEquals(#marks.problems, 0)
end

function T.test_form_comes_back()
  local set = ns.homework {course = "C", seed = "2", students = {"=1+1", "b,c"},
    problems = {"reactions", "off_centre_hole"}}
  local form = set:answer_form()
  lu.assertStrContains(form, ("student,problem,part,answer,code\r\n'=1+1,1,a,,%s\r\n")
    :format(set.by_id["=1+1"].code))
  lu.assertNil(set:answer_form("b,c"):find("=1", 1, true))
  local v = set:of "=1+1"[1]
  local filled = form:gsub("('=1%+1,1,a,)", "%1" .. homework.written(v.s.R_w))
  local marks = set:mark(filled)
  lu.assertEquals(marks.students["=1+1"].problems[1].parts[1].verdict, "right")
  lu.assertEquals(marks.students["=1+1"].problems[1].parts[2].verdict, "no answer")
  lu.assertEquals(#marks.problems, 0)
end

function T.test_rows_that_cannot_be_read()
  local set = homework.of(C1)
  local marks = set:mark("student,problem,part,answer\n" .. table.concat({
    "s009,1,a,5", "s001,2,a,5", "s001,x,a,5", "s001,1,z,5", "s001,1,a,about 70",
    "s001,1,b,586.7", "s001,1,b,600", "s001,1,h,maybe", "s001", "s001,1,c,",
  }, "\n"))
  local said = {}
  for i, problem in ipairs(marks.problems) do
    said[i] = ("%d %s"):format(problem.row, problem.reason)
  end
  lu.assertEquals(said, {'2 no student "s009"', '3 no problem "2"', '4 no problem "x"',
    '5 problem 1 has no part "z"', '6 answer "about 70": no number is written',
    "8 the part is answered in row 7 too; that one counts",
    '9 answer "maybe": one of within, outside expected', '10 no problem ""'})
  local parts = marks.students.s001.problems[1].parts
  lu.assertEquals({parts[1].verdict, parts[2].verdict, parts[3].verdict,
    parts[8].verdict}, {"not read", "right", "no answer", "not read"})
  lu.assertStrContains(marks:text(), "row 2 not read: no student")
end

function T.test_text_that_is_no_csv()
  local set = homework.of(C1)
  -- One bad quote costs its row, not the class.
  local marks = set:mark "student,problem,part,answer\ns001,1,a,\"5"
  lu.assertStrContains(marks.problems[1].reason, "quote is not closed")
  lu.assertEquals(marks.problems[1].row, 2)
  local problems
  marks, problems = set:mark "student,part\ns001,a"
  lu.assertNil(marks)
  lu.assertStrContains(problems[1].message, "column 'problem' expected")
  lu.assertEquals(problems[2].column, "answer")
  marks, problems = set:mark ""
  lu.assertNil(marks)
  lu.assertTrue(#problems > 0)
end

-- Rows as a program gives them; what is no row is a problem, never a crash.
function T.test_rows_of_a_program()
  local set = homework.of(C1)
  local marks = set:mark {{student = "s001", problem = 1, part = "b", answer = 586.7},
    {student = "s001", problem = 1, part = "g", answer = 3}, 5, {}, {student = true}}
  local parts = marks.students.s001.problems[1].parts
  lu.assertEquals(parts[2].verdict, "right")
  lu.assertEquals(parts[7].verdict, "mistake")
  lu.assertEquals(#marks.problems, 3)
end

-- Nonsense of every kind, and hostile texts, in every column.
function T.test_nothing_stops_the_marking()
  local set, g = homework.of("off_centre_hole", 2), support.random(5)
  local rows = {}
  for _, said in ipairs(markup.HOSTILE) do
    rows[#rows + 1] = {student = said, problem = 1, part = "a", answer = "1"}
    rows[#rows + 1] = {student = "s001", problem = said, part = "a", answer = "1"}
    rows[#rows + 1] = {student = "s001", problem = 1, part = said, answer = "1"}
    rows[#rows + 1] = {student = "s002", problem = 1, part = g:pick {"a", "b", "c", "g"},
      answer = said}
  end
  local marks = set:mark(rows)
  lu.assertTrue(#marks.problems > 3 * #markup.HOSTILE)
  lu.assertEquals(marks.students.s002.marks, 0)
  lu.assertNotNil(markup.csv(marks:csv()))
  lu.assertNil(marks:text():find "[\0-\9\11-\31]")
end

function T.test_results_as_csv_and_text()
  local _, marks = mark_of {b = "1173.3", e = "=HYPERLINK(1)"}
  local rows = markup.csv(marks:csv())
  lu.assertEquals(rows[1], {"student", "problem", "part", "answer", "marks", "out of",
    "verdict", "hint"})
  lu.assertEquals(#rows, 1 + 10)
  lu.assertEquals({rows[3][4], rows[3][5], rows[3][6], rows[3][7]},
    {"1173.3", "0", "1", "mistake"})
  lu.assertEquals(rows[6][4]:sub(1, 2), "'=")
  local said = marks:text()
  lu.assertStrContains(said, "s001            0 of 13")
  lu.assertStrContains(said, "1(b) 1173.3: mistake, looks like the reaction not halved")
  lu.assertStrContains(said, "not read: answer \"=HYPERLINK(1)\"")
end

return T
