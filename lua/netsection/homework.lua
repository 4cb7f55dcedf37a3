-- SPDX-License-Identifier: MIT
--- Homework: a set of problems for each student with numbers of their own, a key with
-- every step, and marks for what comes back.
--
--   local set = homework.new {course = "Timber 2", seed = "autumn", students = {"s01"},
--     problems = {"end_notch", {kind = "tub", given = {spacing = 16}}}}
--   set:sheet "s01"   set:key "s01"   set:master()      documents (see document.lua)
--   set:mark(csv)     marks and a hint per wrong answer (see homework/mark.lua)
--   set:difficulty()  how equal the versions are
--
-- A student's numbers follow from the course, its seed, the student's id and the problem.
local draw = require "netsection.homework.draw"
local figure = require "netsection.homework.figure"
local kind = require "netsection.homework.kind"
local mark = require "netsection.homework.mark"
local packs = require "netsection.packs"
local parts = require "netsection.parts"
local random = require "netsection.homework.random"
local sheets = require "netsection.homework.sheets"
local spread = require "netsection.homework.spread"
local units = require "netsection.units"

local homework = {}
local methods = {}
local meta = {__index = methods, __name = "netsection.homework"}

local FIELDS = {"course", "seed", "students", "problems", "standard", "units"}
local PROBLEM = {"kind", "given", "vary", "mode", "near_edge"}
local MOST_VERSIONS = 1000000
local STANDARD = packs.default.standards

-- Kinds that come with the module, in the order in which a course would take them.
local NAMES = {"tributary_load", "reactions", "moment_shear", "adjusted_values",
  "allowable_span", "rule_check", "end_notch", "outer_third_notch", "off_centre_hole",
  "patch_hole", "cut_deflection", "tub", "sister_share", "severed_couple", "part_sister",
  "fastener_count"}

local known = {}
for _, name in ipairs(NAMES) do known[name] = true end

local function fail(level, ...)
  error("homework: " .. string.format(...), level + 1)
end

---------------------------------------------------------------------------- reading

-- A kind by its name, or as homework.kind made it.
local function kind_of(value, where, level)
  if kind.is(value) then return value end
  if type(value) == "string" and known[value] then
    known[value] = kind.is(known[value]) and known[value]
      or kind.new(require("netsection.homework.kinds." .. value), level)
    return known[value]
  end
  fail(level + 1, "%s: kind is one of %s, or made by homework.kind; got %s", where,
    table.concat(NAMES, ", "), tostring(value))
end

-- A value for a base value: where the kind's own are numbers, text is read as a length or
-- a load.
local function base_value(value, like, where, level)
  if type(like) == "number" and type(value) == "string" then
    local read = units.length(value) or units.load(value)
    if not read then fail(level + 1, "%s: a number, length or load expected", where) end
    return read
  elseif type(value) ~= type(like) or value ~= value then
    fail(level + 1, "%s: a %s such as %s expected", where, type(like), tostring(like))
  end
  return value
end

local function base_single(value, like, where, level)
  return {(base_value(value, like, where, level + 1))}
end

local function base_list(values, like, where, level)
  if type(values) ~= "table" or #values == 0 then
    fail(level + 1, "%s: a list of values expected", where)
  end
  local list = {}
  for i, value in ipairs(values) do
    list[i] = base_value(value, like, where, level + 1)
  end
  return list
end

-- Base values of a problem: the kind's, with those of the teacher in their place.
local function lists_of(k, t, where, level)
  local lists = {}
  for name, values in pairs(k.vary) do lists[name] = values end
  for field, read in pairs {given = base_single, vary = base_list} do
    for name, v in pairs(t[field] or {}) do
      if not k.vary[name] then
        fail(level + 1, "%s: %s has no base value '%s' (has %s)", where, k.name,
          tostring(name), table.concat(k.names, ", "))
      end
      lists[name] = read(v, k.vary[name][1], where .. ", " .. name, level + 1)
    end
  end
  return lists
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

local function read_problem(t, i, level)
  local where = ("problem %d"):format(i)
  if type(t) == "string" or kind.is(t) then t = {kind = t} end
  parts.only("homework: " .. where, t, PROBLEM, level + 1)
  local k = kind_of(t.kind, where, level + 1)
  check_mode(k, t.mode, where, level + 1)
  return {kind = k, lists = lists_of(k, t, where, level + 1), near_edge = t.near_edge,
    mode = t.mode, number = i}
end

local function read_problems(list, level)
  if type(list) ~= "table" or #list == 0 then
    fail(level + 1, "problems: a list of kinds expected")
  end
  local problems = {}
  for i, t in ipairs(list) do
    problems[i] = read_problem(t, i, level + 1)
    local space = draw.pool(problems[i]).space
    if space > MOST_VERSIONS then
      fail(level + 1, "problem %d: %d versions, at most %d: vary less", i, space,
        MOST_VERSIONS)
    end
  end
  return problems
end

local function read_student(t, i, level)
  if type(t) == "string" or math.type(t) == "integer" then t = {id = t} end
  local where = ("homework: student %d"):format(i)
  parts.only(where, t, {"id", "name"}, level + 1)
  local id = math.type(t.id) == "integer" and ("%d"):format(t.id) or t.id
  if type(id) ~= "string" or not id:find "%S" then
    fail(level + 1, "student %d: id (text) expected", i)
  elseif not utf8.len(id) or id:find "%c" or id:find "^%s*#" then
    fail(level + 1, "student %d: id: one line of UTF-8 text expected that does not begin "
      .. "with # (such a row of CSV is a comment)", i)
  elseif t.name ~= nil and type(t.name) ~= "string" then
    fail(level + 1, "student %d: name: text expected", i)
  end
  return {id = id, name = t.name, number = i}
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

local function deal(set, level)
  for _, problem in ipairs(set.problems) do
    local pool = draw.pool(problem)
    problem.pool = pool
    for _, student in ipairs(set.students) do
      local v = draw.next(pool, random.seed(set.course, set.seed, student.id,
        ("%d"):format(problem.number), problem.kind.name))
      if not v then
        fail(level + 1, "problem %d (%s): none of %d versions makes a fair question "
          .. "(near an edge, or a mistake gives the right number)", problem.number,
          problem.kind.name, pool.space)
      end
      student[problem.number] = v
    end
  end
end

local function standard_of(t, level)
  local standard = t.standard or STANDARD
  local found, why = packs.standard(standard)
  if not found then fail(level + 1, "%s", why) end
  if standard ~= STANDARD then
    fail(level + 1, "standard: the keys are worked by %s only", STANDARD)
  elseif t.units ~= nil and t.units ~= "us" then
    fail(level + 1, 'units: "us" expected: problems are in inches, feet and pounds')
  end
  return standard
end

local function make(t, level)
  parts.only("homework", t, FIELDS, level)
  local set = setmetatable({standard = standard_of(t, level),
    course = text_of(t, "course", level), seed = text_of(t, "seed", level)}, meta)
  set.students, set.by_id = read_students(t.students, level)
  set.problems = read_problems(t.problems, level)
  deal(set, level)
  return set
end

--- A set for each student; raises at the caller's line where the description is wrong.
-- @param t {course =, seed = texts, students = {id or {id =, name =}, ...}, problems =
--   {name or {kind =, given = {name = value}, vary = {name = {values}}, mode =,
--   near_edge = true}, ...}, standard = "us-nds-2018-asd", units = "us"}
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
-- and answer; or rows {student =, problem =, part =, answer =}
-- @return marks (see homework/mark.lua); or nil and a list of problems where the text is
--   no CSV or a column is missing
function methods:mark(answers)
  if type(answers) ~= "string" and type(answers) ~= "table" then
    error("homework: mark: CSV text or a list of rows expected, got " .. type(answers), 2)
  end
  return mark.of(self, answers)
end

--- A kind of one's own (see homework/kind.lua), to be named in `problems`.
function homework.kind(t)
  return kind.new(t, 1)
end

--- Names of the kinds that come with the module.
function homework.kinds()
  return {table.unpack(NAMES)}
end

-- Sketches for the figures of a kind of one's own.
homework.figure = figure

return setmetatable(homework, {__call = function(_, t) return (make(t, 3)) end})
