-- SPDX-License-Identifier: MIT
-- The documents of a set: a student's sheet, its key, the instructor's tables.
local cautions = require "netsection.cautions"
local document = require "netsection.document"
local figure = require "netsection.homework.figure"
local formula = require "netsection.homework.formula"
local kind = require "netsection.homework.kind"
local parts = require "netsection.parts"
local point = require "netsection.point"
local random = require "netsection.random"
local render = require "netsection.render"
local show = require "netsection.homework.show"
local wording = require "netsection.homework.wording"
local words = require "netsection.plot.words"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local sheets = {}

--- Options of sheets, checked at the caller's line.
function sheets.options(options, level)
  options = options or {}
  parts.only("homework", options, {"figures", "draw"}, level + 1)
  if options.figures ~= nil and type(options.figures) ~= "boolean" then
    error("homework: figures: true or false expected", level + 1)
  elseif options.draw ~= nil and type(options.draw) ~= "function" then
    error("homework: draw: a function of script and name expected", level + 1)
  end
  return options
end

-- "1 mark", "2.5 marks".
local function marks_text(n)
  return n == 1 and "1 mark" or ("%s marks"):format(show.number(n))
end

-- Marks of a whole sheet.
local function total(set)
  local sum = 0
  for _, problem in ipairs(set.problems) do sum = sum + kind.marks(problem.kind) end
  return sum
end

-- What stands on every printed page: whose sheet it is, of which course, due when, out of
-- how many marks, and its code.
function sheets.foot(set, student)
  local list = {student.id, set.course, wording.of(set)(marks_text(total(set))),
    "code " .. student.code}
  if set.due then table.insert(list, 3, "due " .. set.due) end
  return table.concat(list, " \u{B7} ")
end

-- A document with what stands at the head of every sheet.
local function head(set, student, what)
  local d = document.new {title = ("%s: %s"):format(set.course, what),
    foot = sheets.foot(set, student), symbols = true}
  local line = {"Student ", {mark = student.id}}
  if student.name then
    line[#line + 1] = ", "
    line[#line + 1] = {mark = student.name}
  end
  if set.due then
    line[#line + 1] = "; due "
    line[#line + 1] = {mark = set.due}
  end
  line[#line + 1] = ("; %s; code "):format(marks_text(total(set)))
  line[#line + 1] = {strong = student.code}
  return d:paragraph(line)
end

-- Number, title and marks of a problem.
local function problem_heading(d, v, i)
  d:heading(2, ("Problem %d. %s (%s)"):format(i, v.kind.title,
    marks_text(kind.marks(v.kind))))
end

---------------------------------------------------------------------------- figures

-- A figure's file is named after the student and the problem, not after their places in
-- the lists, so that nobody's sheet changes with somebody else.
local function named(set, student, i, letter)
  local id = student.id:gsub("[^%w_%-]", "_"):sub(1, 40)
  if id ~= student.id then
    id = ("%s-%04x"):format(id, random.hash(student.id) & 0xFFFF)
  end
  return ("figure-%s-%s%s.svg"):format(id, set.problems[i].label,
    letter ~= "" and "-" .. letter or "")
end

local LETTER = {figure = "", axes = "a", key_figure = "k"}

-- Scripts of one problem by `field` of its kind, each with its name.
local function scripts(set, student, i, field)
  local v = student[i]
  if not v.kind[field] then return {} end
  local letter = LETTER[field]
  local first = named(set, student, i, letter)
  local draw, finish = figure.with {output = first, title = v.kind.title}
  local list, drawn = {}, table.pack(v.kind[field](v.p, v.s, draw))
  for n = 1, drawn.n do
    local name = n == 1 and first or named(set, student, i, letter .. n)
    local script = finish(drawn[n])
    if n > 1 then script = script:gsub(first:gsub("%p", "%%%0"), name) end
    script = wording.script(script, set)
    list[n] = {name = name, script = script}
  end
  return list
end

-- The script written for another output.
local function into(script)
  return function(output)
    return (script:gsub("(set output )%b''", function(set_output)
      return set_output .. words.quote(output)
    end, 1))
  end
end

-- How figures get into the document: by the caller's function, or all at once by gnuplot;
-- nil where they are only named. Second result: what is wrong with gnuplot.
local function drawer(set, student, fields, options)
  if options.draw or not options.figures then return options.draw end
  local draws = {}
  for i = 1, #set.problems do
    for _, field in ipairs(fields) do
      for _, f in ipairs(scripts(set, student, i, field)) do
        draws[#draws + 1] = {f.name, into(f.script)}
      end
    end
  end
  if #draws == 0 then return nil end
  local pictures, problem = render.svg(draws)
  return pictures and function(_, name) return pictures[name] end, problem
end

--- Pictures of a student's sheet by gnuplot: a list of SVG texts for each problem.
-- @return {[problem] = {text, ...}}; or nil and what is wrong with gnuplot
function sheets.pictures(set, student)
  local draws, names = {}, {}
  for i = 1, #set.problems do
    names[i] = {}
    for n, f in ipairs(scripts(set, student, i, "figure")) do
      names[i][n] = f.name
      draws[#draws + 1] = {f.name, into(f.script)}
    end
  end
  if #draws == 0 then return {} end
  local pictures, problem = render.svg(draws)
  if not pictures then return nil, problem end
  for _, list in ipairs(names) do
    for n, name in ipairs(list) do list[n] = pictures[name] end
  end
  return names
end

--- Pictures of the sheets and keys of students by gnuplot, each drawn once.
-- @return {name = SVG text}; or nil and what is wrong with gnuplot
function sheets.drawn(set, students)
  local draws = {}
  for _, student in ipairs(students) do
    for _, f in ipairs(sheets.figures(set, student)) do
      draws[#draws + 1] = {f.name, into(f.script)}
    end
  end
  if #draws == 0 then return {} end
  return render.svg(draws)
end

--- Figures of a student's sheet and key: {{name =, script =}, ...}.
function sheets.figures(set, student)
  local list = {}
  for i = 1, #set.problems do
    for _, field in ipairs {"figure", "axes", "key_figure"} do
      table.move(scripts(set, student, i, field), 1, 9, #list + 1, list)
    end
  end
  return list
end

-- Givens of a version in one text.
local function given_text(v)
  local list = {}
  for _, row in ipairs(v.rows) do
    list[#list + 1] = ("%s %s"):format(row[4], show.given(row[2], row[3]))
  end
  return table.concat(list, "; ")
end

local ALT = {
  figure = "Figure of problem %d, %s. Given: %s.",
  axes = "Empty axes to draw on, problem %d, %s. Given: %s.",
  key_figure = "Diagrams to problem %d, %s. Given: %s.",
}
local CAPTION = {figure = "Figure to problem %d", axes = "To draw on, problem %d",
  key_figure = "Solution of problem %d"}

-- Drawings of a problem, in its numbers.
local function add_figures(d, set, student, i, field, draw)
  local v = student[i]
  for _, f in ipairs(scripts(set, student, i, field)) do
    d:figure {name = f.name, plot = f.script,
      alt = ALT[field]:format(i, v.kind.title, given_text(v)),
      caption = CAPTION[field]:format(i),
      svg = draw and draw(f.script, f.name)}
  end
end

---------------------------------------------------------------------------- sheet

local HOW = "Answer every part with its unit. Work with full figures and give three or "
  .. "more; an answer within the tolerance of its part, 1 to 2 %, is right. Sizes are "
  .. "dressed sizes, places are from the center of the left bearing. A later part that "
  .. "follows from a wrong number of yours gets a share of its marks; a word counts with "
  .. "the numbers before it. Give the code of this sheet with your answers."
local EXERCISE = "An exercise: the building does not exist, and nothing here is a design "
  .. "for one."

local SHORT = 5      -- rows of a table that is not folded
local FOLDED = 64    -- characters that two of its columns side by side may take

-- What is given in words, and the rows that have a symbol.
local function parted(v)
  local said, rows = {}, {}
  for _, row in ipairs(v.rows) do
    if row[1] == "" then
      said[#said + 1] = ("%s: %s"):format(row[4], row[2])
    else
      rows[#rows + 1] = {row[4], row[1], show.given(row[2], row[3])}
    end
  end
  return said, rows
end

-- Whether a table stands twice side by side in any form, text on 79 columns too.
local function folds(list)
  local wide = {0, 0, 0}
  for _, row in ipairs(list) do
    for c = 1, 3 do wide[c] = math.max(wide[c], utf8.len(row[c]) or #row[c]) end
  end
  return 2 * (wide[1] + math.max(wide[2], 6) + math.max(wide[3], 5)) <= FOLDED
end

-- Words, and a table, folded in two where it is long so that a problem has room on its
-- page.
local function add_given(d, v)
  local said, list = parted(v)
  if said[1] then d:paragraph(table.concat(said, "; ") .. ".") end
  local rows, n = {}, #list
  local high = n > SHORT and folds(list) and (n + 1) // 2 or n
  local columns = {{head = "Given"}, {head = "Symbol"}, {head = "Value", align = "right"}}
  if n > high then table.move(columns, 1, 3, 4) end
  for i, row in ipairs(list) do
    local at = (i - 1) % high + 1
    rows[at] = rows[at] or {}
    table.move(row, 1, 3, #rows[at] + 1, rows[at])
  end
  if n > 0 then d:table {columns = columns, rows = rows, row_heads = 1} end
end

-- What is asked of a step: number with its unit, word, or words.
local function asked(step)
  local what = step.hand and "in words"
    or step.choice and table.concat(step.choice, " / ")
    or ("%s, %s"):format(step.symbol, show.unit(step.unit))
  local close = step.ask:find "%?$" and "" or "."
  return ("(%s) %s%s %s (%s)"):format(step.part, step.ask, close, what,
    marks_text(step.marks))
end

-- The question of a version.
local function question_of(v)
  local q = v.kind.question
  return type(q) == "function" and q(v.p, v.given) or q
end

-- A problem as the student reads it: nothing that is asked is shown.
local function add_problem(d, set, student, i, draw)
  local v = student[i]
  if i > 1 then d:page_break() end
  problem_heading(d, v, i)
  d:paragraph(question_of(v))
  add_given(d, v)
  add_figures(d, set, student, i, "figure", draw)
  add_figures(d, set, student, i, "axes", draw)
  local items = {}
  for _, step in ipairs(v.kind.steps) do
    if step.ask then items[#items + 1] = asked(step) end
  end
  d:blanks(items)
end

--- The sheet of a student; nil and a message where a drawing fails.
function sheets.sheet(set, student, options)
  local draw, problem = drawer(set, student, {"figure", "axes"}, options)
  if problem then return nil, problem end
  local d = head(set, student, "problems")
  d:paragraph(HOW)
  d:paragraph(("Standard: %s."):format(set.standard))
  d:note(EXERCISE .. " " .. cautions.always[1], "note")
  for i = 1, #set.problems do
    add_problem(d, set, student, i, draw)
  end
  return wording.document(d, set)
end

---------------------------------------------------------------------------- key

-- Numbers of a formula, taken from what is known at its step.
local function with_numbers(step, v)
  return formula.with_numbers(step.formula, v.s, function(_, x)
    return show.number(x)
  end)
end

-- Steps of a version with the numbers put in.
local function calculation(v)
  local list = {}
  for _, step in ipairs(v.kind.steps) do
    local value = v.s[step.symbol]
    if value ~= nil then
      local plain = step.formula and formula.of(step.formula)
      local label = step.part and ("(%s) "):format(step.part) or ""
      local unit = step.unit ~= "count" and step.unit ~= "" and step.unit or nil
      local says = step.says or not plain and step.formula
      if says then unit = (unit and unit .. " " or "") .. "(" .. says .. ")" end
      list[#list + 1] = {symbol = label .. step.symbol, value = show.number(value),
        unit = unit, formula = plain and step.formula or nil,
        numbers = plain and with_numbers(step, v) or nil,
        clause = step.clause}
    end
  end
  return list
end

-- How near an answer has to be.
local function tolerance(step)
  if step.hand or step.choice then return "" end
  return step.unit == "count" and "exact"
    or ("%s %%"):format(show.number(100 * step.tolerance))
end

-- Answers with marks and tolerances.
local function answers_table(v)
  local rows = {}
  for _, step in ipairs(v.kind.steps) do
    if step.ask then
      local answer = step.hand and "by hand, see below"
        or {text = show.result(v.s[step.symbol], step.unit), strong = true}
      rows[#rows + 1] = {"(" .. step.part .. ")", step.ask, answer, tolerance(step),
        show.number(step.marks)}
    end
  end
  return {caption = "Answers", columns = {{head = "Part"}, {head = "Asked"},
    {head = "Answer"}, {head = "Within"}, {head = "Marks", align = "right"}}, rows = rows,
    row_heads = 1}
end

-- What to look for in answers in words.
local function add_hand(d, v)
  for _, step in ipairs(v.kind.steps) do
    if step.hand then
      d:paragraph {{strong = ("(%s) by hand, %s. "):format(step.part,
        marks_text(step.marks))}, step.hand}
    end
  end
end

-- Common mistakes with the numbers that they give.
local function mistakes_table(v)
  local rows, steps = {}, {}
  for _, step in ipairs(v.kind.steps) do steps[step.symbol] = step end
  for i, mistake in ipairs(v.kind.mistakes) do
    for _, symbol in ipairs(mistake.of) do
      local x, step = v.slips[i][symbol], steps[symbol]
      if x then
        rows[#rows + 1] = {"(" .. step.part .. ")", show.result(x, step.unit),
          mistake.name, mistake.reveals}
      end
    end
  end
  table.sort(rows, function(a, b)
    if a[1] ~= b[1] then return point.less(a[1], b[1]) end
    if a[3] ~= b[3] then return point.less(a[3], b[3]) end
    return point.less(a[2], b[2])
  end)
  return rows
end

-- A problem in the key: steps, answers, mistakes.
local function key_problem(d, set, student, i, draw)
  local v = student[i]
  if i > 1 then d:page_break() end
  problem_heading(d, v, i)
  d:paragraph(question_of(v))
  add_given(d, v)
  add_figures(d, set, student, i, "figure", draw)
  d:calculation(calculation(v))
  d:table(answers_table(v))
  add_hand(d, v)
  local wrong = mistakes_table(v)
  if #wrong > 0 then
    d:table {caption = "Common wrong answers", columns = {{head = "Part"},
      {head = "Number"}, {head = "Mistake"}, {head = "What it reveals"}}, rows = wrong,
        row_heads = 1}
  end
  add_figures(d, set, student, i, "key_figure", draw)
end

--- The key of a student; nil and a message where a drawing fails.
function sheets.key(set, student, options)
  local draw, problem = drawer(set, student, {"figure", "key_figure"}, options)
  if problem then return nil, problem end
  local d = head(set, student, "key")
  d:note(EXERCISE .. " " .. cautions.always[1], "note")
  for i = 1, #set.problems do key_problem(d, set, student, i, draw) end
  return wording.document(d, set)
end

---------------------------------------------------------------------------- master

local WIDE = 7      -- columns of answers in one table

-- Base values of every student.
local function base_table(set, i, problem)
  local columns, rows = {{head = "Student"}}, {}
  for _, name in ipairs(problem.kind.names) do columns[#columns + 1] = {head = name} end
  columns[#columns + 1] = {head = "mode"}
  for n, student in ipairs(set.students) do
    local v = student[i]
    local row = {student.id}
    for _, name in ipairs(problem.kind.names) do
      row[#row + 1] = show.number(v.p[name])
    end
    row[#row + 1] = v.mode
    rows[n] = row
  end
  return {caption = "Base values, inches, psf and pounds", columns = columns, rows = rows,
    row_heads = 1}
end

-- Steps that are asked for.
local function asked_steps(k)
  local list = {}
  for _, step in ipairs(k.steps) do
    if step.ask and not step.hand then list[#list + 1] = step end
  end
  return list
end

-- Answers of every student.
local function answer_tables(d, set, i, problem)
  local steps = asked_steps(problem.kind)
  for first = 1, #steps, WIDE do
    local columns, rows = {{head = "Student"}}, {}
    local last = math.min(first + WIDE - 1, #steps)
    for n = first, last do
      local step = steps[n]
      local unit = step.choice and "" or ", " .. show.unit(step.unit)
      columns[#columns + 1] = {head = ("(%s) %s%s"):format(step.part, step.symbol, unit),
        align = "right"}
    end
    for m, student in ipairs(set.students) do
      local row = {student.id}
      for n = first, last do
        row[#row + 1] = show.number(student[i].s[steps[n].symbol])
      end
      rows[m] = row
    end
    d:table {caption = "Answers", columns = columns, rows = rows, row_heads = 1}
  end
end

--- The sheet of the instructor: all values and answers.
function sheets.master(set)
  local d = document.new {title = set.course .. ": instructor's table"}
  d:paragraph {"Seed ", {mark = set.seed}, (", %d students, %d problems, standard %s.")
    :format(#set.students, #set.problems, set.standard)}
  d:note(EXERCISE .. " " .. cautions.always[1], "note")
  d:heading(2, "Difficulty")
  local lines = {}
  for line in (tostring(set:difficulty()) .. "\n"):gmatch "(.-)\n" do
    lines[#lines + 1] = (line:gsub("%s+", " "))
  end
  d:list(lines)
  for i, problem in ipairs(set.problems) do
    d:heading(2, ("Problem %d. %s"):format(i, problem.kind.title))
    d:table(base_table(set, i, problem))
    answer_tables(d, set, i, problem)
  end
  return wording.document(d, set)
end

return sheets
