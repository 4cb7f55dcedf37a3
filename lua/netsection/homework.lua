-- SPDX-License-Identifier: MIT
--- Homework: a set of problems for each student with numbers of their own, a key with
-- every step, and marks for what comes back.
--
--   local set = homework.new {course = "Timber 2", seed = "autumn", students = {"s01"},
--     problems = {"end_notch", {kind = "tub", given = {spacing = 16}}}}
--   set:sheet "s01"   set:key "s01"   set:master()      documents (see document.lua)
--   set:mark(csv)     marks and a hint per wrong answer (see homework/mark.lua)
--   set:difficulty()  how equal the versions are
--   set:save(path)    freezes everybody's numbers; homework.load(path) goes on from there
--
-- A student's numbers follow from the course, its seed, the student's id and the problem.
local base = require "netsection.homework.base"
local catalog = require "netsection.homework.catalog"
local draw = require "netsection.homework.draw"
local figure = require "netsection.homework.figure"
local hardness = require "netsection.homework.hardness"
local kind = require "netsection.homework.kind"
local mark = require "netsection.homework.mark"
local packs = require "netsection.packs"
local parts = require "netsection.parts"
local point = require "netsection.point"
local qti = require "netsection.homework.qti"
local random = require "netsection.random"
local saved = require "netsection.homework.saved"
local sheets = require "netsection.homework.sheets"
local spread = require "netsection.homework.spread"
local wording = require "netsection.homework.wording"
local zip = require "netsection.zip"
local error = require "netsection.raise".error
local plain = require "netsection.document.escape".text
local tostring = require "netsection.point".text

local homework = {}
local methods = {}
local meta = {__index = methods, __name = "netsection.homework",
  __tostring = function(set)
    return ("homework set of '%s', seed '%s'"):format(plain(tostring(set.course)),
      plain(tostring(set.seed)))
  end}

local FIELDS = {"course", "seed", "students", "problems", "standard", "units", "hardness",
  "due", "decimal", "lang"}
local PROBLEM = {"kind", "given", "vary", "mode", "near_edge", "label", "tolerance",
  "partial"}
local PARTIAL = {"follows", "mistake", "unit slip"}
local MOST_VERSIONS = 1000000
local STANDARD = packs.default.standards

local function fail(level, ...)
  error("homework: " .. point.format(...), level + 1)
end

---------------------------------------------------------------------------- reading

-- A kind by its name, or as homework.kind made it, for keys by a standard.
local function kind_of(value, standard, where, level)
  local found, serves = value
  if kind.is(value) then
    serves = value.standards
  else
    found, serves = catalog.find(value, standard)
  end
  if serves and not catalog.serves(serves, standard) then
    fail(level + 1, "%s: the kind %s does not serve %s (it serves %s); kinds that do: %s",
      where, kind.is(value) and value.name or value, standard,
      table.concat(serves, ", "), table.concat(catalog.names(standard), ", "))
  elseif not found then
    fail(level + 1, "%s: kind is one of %s, or made by homework.kind; got %s", where,
      table.concat(catalog.names(standard), ", "), tostring(value))
  end
  return found
end

local function check_mode(k, mode, where, level)
  for _, name in ipairs(k.modes or {}) do
    if name == mode then return end
  end
  if mode ~= nil then
    fail(level + 1, "%s: mode: one of %s expected", where,
      k.modes and table.concat(k.modes, ", ") or "none: the kind has a single one")
  end
end

-- A share from 0 to 1.
local function check_share(x, where, level)
  if type(x) ~= "number" or not (x >= 0 and x <= 1) then
    fail(level + 1, "%s: a number from 0 to 1 expected", where)
  end
end

-- Tolerance and partial marks of a problem, in place of the kind's and the default.
local function check_marking(t, where, level)
  if t.tolerance ~= nil and not (type(t.tolerance) == "number" and t.tolerance > 0
    and t.tolerance <= 0.2) then
    fail(level + 1, "%s: tolerance: a number above 0 and up to 0.2 expected", where)
  end
  parts.only("homework: " .. where .. ", partial", t.partial or {}, PARTIAL, level + 1)
  for name, share in pairs(t.partial or {}) do
    check_share(share, ("%s: partial: %s"):format(where, name), level + 1)
  end
  if t.label ~= nil and (type(t.label) ~= "string" or not t.label:find "^[%w_%-]+$") then
    fail(level + 1, "%s: label: letters, digits, _ and - expected", where)
  end
end

local function read_problem(t, i, standard, level)
  local where = ("problem %d"):format(i)
  if type(t) == "string" or kind.is(t) then t = {kind = t} end
  parts.only("homework: " .. where, t, PROBLEM, level + 1)
  local k = kind_of(t.kind, standard, where, level + 1)
  check_mode(k, t.mode, where, level + 1)
  check_marking(t, where, level + 1)
  return {kind = k, lists = base.lists(k, t, where, level + 1), near_edge = t.near_edge,
    mode = t.mode, number = i, label = t.label, tolerance = t.tolerance,
    partial = t.partial or {}}
end

local function read_problems(list, standard, level)
  if type(list) ~= "table" or #list == 0 then
    fail(level + 1, "problems: a list of kinds expected")
  end
  local problems, labels = {}, {}
  for i, t in ipairs(list) do
    problems[i] = read_problem(t, i, standard, level + 1)
    local p, n = problems[i], 2
    local label = p.label or p.kind.name
    if labels[label] and p.label then
      fail(level + 1, "problem %d: the label %s is there twice", i, label)
    end
    while labels[label] do label, n = ("%s-%d"):format(p.kind.name, n), n + 1 end
    p.label, labels[label] = label, i
    local space = draw.pool(problems[i]).space
    if space > MOST_VERSIONS then
      fail(level + 1, "problem %d: %d versions, at most %d: vary less", i, space,
        MOST_VERSIONS)
    end
  end
  return problems, labels
end

local function read_student(t, i, level)
  if type(t) == "string" or math.type(t) == "integer" then t = {id = t} end
  local where = ("homework: student %d"):format(i)
  parts.only(where, t, {"id", "name", "given"}, level + 1)
  local id = math.type(t.id) == "integer" and ("%d"):format(t.id) or t.id
  if type(id) ~= "string" or not id:find "%S" then
    fail(level + 1, "student %d: id (text) expected", i)
  elseif not utf8.len(id) or id:find "%c" or id:find "^%s*#" then
    fail(level + 1, "student %d: id: one line of UTF-8 text expected that does not begin "
      .. "with # (such a row of CSV is a comment)", i)
  elseif t.name ~= nil and type(t.name) ~= "string" then
    fail(level + 1, "student %d: name: text expected", i)
  end
  if t.given ~= nil and type(t.given) ~= "table" then
    fail(level + 1, "student %d: given: {[problem] = {name = value}} expected", i)
  end
  return {id = id, name = t.name, number = i, own = t.given or {}}
end

local function read_students(list, level)
  if type(list) ~= "table" or #list == 0 then
    fail(level + 1, "students: a list of ids expected")
  end
  local students, by_id = {}, {}
  for i, t in ipairs(list) do
    local student = read_student(t, i, level + 1)
    if by_id[student.id] then
      fail(level + 1, "student %d: the id %s is there twice", i, student.id)
    end
    students[i], by_id[student.id] = student, student
  end
  return students, by_id
end

local function text_of(t, field, level)
  local v = t[field]
  if math.type(v) == "integer" then v = ("%d"):format(v) end
  if type(v) ~= "string" or v == "" then
    fail(level + 1, "%s (text) expected, got %s", field, type(t[field]))
  end
  return v
end

---------------------------------------------------------------------------- the set

-- The pool a student draws from: the problem's, or one of their own where the teacher
-- gave them base values.
local function pool_of(student, problem, level)
  local given = student.own[problem.number] or student.own[problem.label]
  if not given then return problem.pool end
  local where = ("student %s, problem %d"):format(student.id, problem.number)
  local own = {}
  for name, value in pairs(problem) do own[name] = value end
  own.lists = base.lists({name = problem.kind.name, vary = problem.lists,
    names = problem.kind.names, units = problem.kind.units}, {given = given}, where,
    level + 1)
  return draw.pool(own)
end

-- The kind's own check of a version that a teacher's kind gave: on every one of them.
local function recheck(v, problem, level)
  local k = v.kind
  if not k.check or catalog.holds(k) then return end
  local ok, found = pcall(k.check, v.p, v.s)
  if not ok or type(found) ~= "table" then
    fail(level + 1, "problem %d (%s): its check gave %s", problem.number, k.name,
      tostring(found))
  end
  for symbol, x in pairs(found) do
    local y = v.s[symbol]
    local same = type(x) == "number" and type(y) == "number" and math.abs(x - y)
      <= 0.005 * math.max(math.abs(x), math.abs(y)) or x == y
    if not same then
      local said = {}
      for _, name in ipairs(k.names) do said[#said + 1] = name .. " = "
        .. tostring(v.p[name]) end
      fail(level + 1,
        "problem %d (%s): its check gives %s = %s where the key has %s (%s)",
        problem.number, k.name, symbol, tostring(x), tostring(y), table.concat(said,
          ", "))
    end
  end
end

-- Versions that were frozen come first, so that a new student takes none of them.
local function restore(set, frozen, level)
  for _, problem in ipairs(set.problems) do
    problem.pool = draw.pool(problem)
    for _, one in ipairs(frozen or {}) do
      local n = one.versions[problem.label]
      local v = n and draw.version_at(problem.pool, n)
      if n and not v then
        fail(level + 1, "problem %d (%s): the saved version %d of %s is no fair question "
          .. "any more", problem.number, problem.kind.name, n, one.id)
      end
      if v then
        draw.count(problem.pool, v)
        local student = set.by_id[one.id]
        if student then student[problem.number] = v end
      end
    end
  end
end

local function deal(set, frozen, level)
  restore(set, frozen, level + 1)
  for _, problem in ipairs(set.problems) do
    for _, student in ipairs(set.students) do
      local pool = pool_of(student, problem, level + 1)
      local v = student[problem.number] or draw.next(pool, random.seed(set.course,
        set.seed,
        student.id, problem.label, problem.kind.name), hardness.wanted(set, student))
      if pool.fault then fail(level + 1, "problem %d: %s", problem.number, pool.fault) end
      if not v then
        fail(level + 1, "problem %d (%s): none of %d versions makes a fair question "
          .. "(near an edge, or a mistake gives the right number)", problem.number,
          problem.kind.name, pool.space)
      end
      student[problem.number] = v
      recheck(v, problem, level + 1)
      hardness.add(student, v)
    end
  end
end

local function standard_of(t, level)
  local standard = t.standard or STANDARD
  local found, why = packs.standard(standard)
  if not found then fail(level + 1, "%s", why) end
  return standard
end

-- All problems are in the units asked for, by default those of the first.
local function units_of(t, problems, level)
  if t.units ~= nil and t.units ~= "us" and t.units ~= "metric" then
    fail(level + 1, 'units: "us" or "metric" expected')
  end
  local asked = t.units or problems[1].kind.units
  for i, problem in ipairs(problems) do
    if problem.kind.units ~= asked then
      fail(level + 1, "problem %d (%s): it is in %s units, %s asked for", i,
        problem.kind.name, problem.kind.units, asked)
    end
  end
  return asked
end

local function make(t, level, kept)
  parts.only("homework", t, FIELDS, level)
  local set = setmetatable({standard = standard_of(t, level),
    course = text_of(t, "course", level), seed = text_of(t, "seed", level),
    due = t.due ~= nil and text_of(t, "due", level) or nil, decimal = t.decimal,
    lang = t.lang,
    hardness = t.hardness == nil and 0.5 or t.hardness}, meta)
  check_share(set.hardness, "hardness", level)
  if t.decimal ~= nil and t.decimal ~= "," and t.decimal ~= "." then
    fail(level, 'decimal: "," or "." expected')
  end
  local wrong = wording.problem(t.lang)
  if wrong then fail(level, "%s", wrong) end
  set.students, set.by_id = read_students(t.students, level)
  set.problems, set.index = read_problems(t.problems, set.standard, level)
  set.units = units_of(t, set.problems, level)
  set.frozen = kept and kept.students
  deal(set, set.frozen, level)
  local changed = saved.number(set, kept and kept.editions or {},
    kept and kept.codes or {})
  if changed then return nil, changed end
  set.warnings = draw.warnings(set)
  return set
end

--- A set for each student; raises at the caller's line where the description is wrong.
-- @param t {course =, seed = texts, students = {id or {id =, name =}, ...}, problems =
--   {name or {kind =, given = {name = value}, vary = {name = {values}}, mode =,
--   near_edge = true, label = what it is called in a saved set, tolerance =, partial =
--   {follows =, mistake =, ["unit slip"] = shares of the marks}}, ...}, standard =
--   "us-nds-2018-asd" and others that kinds serve, units = "us" or "metric", hardness = 0
--   (easy versions) to 1, due = text on the sheets, decimal = "," where sheets and
--   answers have decimal commas, lang = "en-US" or another of wording.lua}. A student may
--   have given =
--   {[problem's number or label] = {name = value}}.
function homework.new(t)
  return (make(t, 3))
end

local function student_of(set, id, name)
  if math.type(id) == "integer" then id = ("%d"):format(id) end
  local student = set.by_id[id]
  if not student then
    error(("homework: %s: no student with the id %s"):format(name, tostring(id)), 3)
  end
  return student
end

--- The versions of one student, one per problem: {p = base values, s = {symbol = value},
-- mode =, kind =, ...}.
function methods:of(id)
  return {table.unpack(student_of(self, id, "of"), 1, #self.problems)}
end

--- The student's sheet, without answers. @param options {figures = true: drawn by
-- gnuplot, into the HTML; or draw = function(script, name) that gives a figure as SVG
-- text}; without either the figures' files are named
-- @return a document; or nil and what is wrong with gnuplot
function methods:sheet(id, options)
  return sheets.sheet(self, student_of(self, id, "sheet"), sheets.options(options, 2))
end

--- The key to a student's sheet; as set:sheet.
function methods:key(id, options)
  return sheets.key(self, student_of(self, id, "key"), sheets.options(options, 2))
end

--- The instructor's tables: every student's base values and answers, as a document.
function methods:master()
  return sheets.master(self)
end

--- gnuplot scripts of a student's figures: {{name =, script =}, ...}; each writes the
-- file it is named after.
function methods:figures(id)
  local student = student_of(self, id, "figures")
  return sheets.figures(self, student)
end

--- How equal the versions are: per problem counts of modes and the range of ratios.
function methods:difficulty()
  return spread.of(self)
end

--- CSV text with a row for every part that is asked, to be filled in: of all students, or
-- of one.
function methods:answer_form(id)
  return mark.form(self, id and student_of(self, id, "answer_form"))
end

--- Marks what came back. @param answers CSV text with the columns student, problem, part
-- and answer, and as needed code, submission, late; or rows of these fields
-- @param options {take = "last" (default) | "first" | "best" of several submissions,
--   late = factor on the marks of a late one (or function of its days), follows = share
--   of the marks for what follows from an own wrong number (default 1/2), hand = CSV
--   text or
--   rows {student, problem, part, marks} of parts marked by hand, own = ids of students
--   who are marked though their numbers are those of another's sheet}
-- @return marks (see homework/mark.lua); or nil and a list of problems where the text is
--   no CSV or a column is missing
function methods:mark(answers, options)
  if type(answers) ~= "string" and type(answers) ~= "table" then
    error("homework: mark: CSV text or a list of rows expected, got " .. type(answers), 2)
  end
  return mark.of(self, answers, mark.options(options, 3))
end

--- Freezes the set: who has which version, so that students and problems can be added,
-- removed and reordered without changing anybody else's numbers.
-- @return true, or nil and a message
function methods:save(path)
  return saved.write(self, path)
end

--- Questions for a course system: files of a QTI 2.1 content package, one item for each
-- version and part.
-- @param options {students = ids, figures = true: drawn by gnuplot, zip = true}
-- @return list of {name =, text =}, or the bytes of a ZIP archive; or nil and what is
-- wrong   with gnuplot
function methods:qti(options)
  parts.only("homework: qti", options or {}, {"students", "figures", "zip"}, 2)
  local given = {}
  for name, value in pairs(options or {}) do given[name] = value end
  local archive = given.zip
  given.zip = nil
  local files, problem = qti.files(self, given)
  if not files then return nil, problem end
  return archive and zip.of(files) or files
end

--- The bank of questions as plain text, a row for each version and part.
-- @param form "csv" (default) or "json"
function methods:bank(form)
  if form ~= nil and form ~= "csv" and form ~= "json" then
    error('homework: bank: "csv" or "json" expected', 2)
  end
  return qti.bank(self, form or "csv")
end

--- A kind of one's own (see homework/kind.lua), to be named in `problems`.
function homework.kind(t)
  return kind.new(t, 1)
end

--- Names of the kinds that come with the module.
-- @param standard those whose keys are worked by it, by default us-nds-2018-asd
function homework.kinds(standard)
  local found, why = packs.standard(standard or STANDARD)
  if not found then fail(2, "kinds: %s", why) end
  return catalog.names(standard or STANDARD)
end

--- A set that was saved. @param changes {students =, problems = in place of the saved,
--   kinds = a teacher's own kinds among the problems, due =}
-- @return a set; or nil and what is wrong with the file. A saved student keeps the
--   versions of every problem that is still there
function homework.load(path, changes)
  if type(path) ~= "string" then
    error("homework.load: a path expected, got " .. type(path), 2)
  elseif changes ~= nil and type(changes) ~= "table" then
    error("homework.load: a table of changes expected, got " .. type(changes), 2)
  end
  local t, kept = saved.read(path, changes or {}, kind_of, STANDARD)
  if not t then return nil, kept end
  return make(t, 3, kept)
end

-- Sketches for the figures of a kind of one's own.
homework.figure = figure

return setmetatable(homework, {__call = function(_, t) return (make(t, 3)) end})
