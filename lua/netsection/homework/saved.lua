-- SPDX-License-Identifier: MIT
-- A frozen set: who has which version of which problem, as JSON. Numbers of a student
-- hang on nothing else any more: not on the others in the list, nor on other problems.
-- What a
-- kind asks is kept as a fingerprint, so that a set is never continued with a kind that
-- has changed without a word.
local file = require "netsection.file"
local json = require "dkjson"
local point = require "netsection.point"
local random = require "netsection.random"
local tostring = require "netsection.point".text

local saved = {}

local FORMAT, VERSION = "netsection homework set", 2
local LETTERS = "23456789ABCDEFGHJKMNPQRSTUVWXYZ" -- none that is taken for another

--- Five letters that stand for a student's numbers: on the sheet, in the form, checked
-- when answers come back. @param labels of the problems, in their order on the sheet
-- @return text; nil where one of them is no longer in the set
function saved.code(set, student, labels)
  local list = {set.course}
  for _, label in ipairs(labels) do
    local i = set.index[label]
    if not i then return nil end
    list[#list + 1] = label
    list[#list + 1] = student[i].answers
  end
  local h, letters = random.seed(table.unpack(list)) >> 1, {}
  for i = 1, 5 do
    local n = h % #LETTERS + 1
    letters[i] = LETTERS:sub(n, n)
    h = h // #LETTERS
  end
  return table.concat(letters)
end

local function labels_of(set)
  local list = {}
  for i, problem in ipairs(set.problems) do list[i] = problem.label end
  return list
end

--- Gives the students their codes: of the sheet as it is now, and of those that were
-- handed out before, with their problems in the order of then.
-- @param editions lists of labels, the latest last; @param codes {id = {code or ""}}
-- @return nil, or what is not as it was saved
function saved.number(set, editions, codes)
  set.editions = {table.unpack(editions)}
  local now, last = labels_of(set), set.editions[#set.editions]
  if not last or table.concat(last, " ") ~= table.concat(now, " ") then
    set.editions[#set.editions + 1] = now
  end
  for _, student in ipairs(set.students) do
    local before = codes[student.id] or {}
    student.codes = {}
    for e, labels in ipairs(set.editions) do
      local code = saved.code(set, student, labels)
      local old = before[e] ~= "" and before[e] or nil
      if old and code and code ~= old then
        return ("the numbers of %s are not those that were saved"):format(student.id)
      end
      student.codes[e] = old or e == #set.editions and code or ""
    end
    student.code = student.codes[#set.editions]
  end
end

-- What a kind asks and how it is worked out.
local function fingerprint(k)
  local list = {k.name, k.title, type(k.question) == "string" and k.question or ""}
  for _, name in ipairs(k.names) do list[#list + 1] = name end
  for _, step in ipairs(k.steps) do
    for _, field in ipairs {"symbol", "formula", "unit", "ask", "marks", "tolerance"} do
      list[#list + 1] = tostring(step[field])
    end
  end
  for _, mistake in ipairs(k.mistakes) do list[#list + 1] = mistake.name end
  return ("%016x"):format(random.seed(table.unpack(list)))
end

-- Numbers keep all their figures as texts that begin with "=".
local function kept(value)
  if type(value) == "number" then return point.format("=%.17g", value) end
  return value:find "^[=']" and "'" .. value or value
end

local function unkept(value)
  if type(value) ~= "string" then return nil end
  if value:find "^=" then return tonumber(value:sub(2)) end
  return (value:gsub("^'", ""))
end

local function problem_of(p)
  local lists = {}
  for name, values in pairs(p.lists) do
    lists[name] = {}
    for i, value in ipairs(values) do lists[name][i] = kept(value) end
  end
  return {label = p.label, kind = p.kind.name, fingerprint = fingerprint(p.kind),
    lists = lists, mode = p.mode, near_edge = p.near_edge or nil, tolerance = p.tolerance,
    partial = next(p.partial) and p.partial or nil}
end

local STUDENT = {__jsonorder = {"id", "name", "codes", "versions"}}

-- Everybody who has versions: those of the set, and those who were in it before.
local function students_of(set)
  local list, seen = {}, {}
  for _, student in ipairs(set.students) do
    local one = setmetatable({id = student.id, name = student.name,
      codes = student.codes, versions = {}}, STUDENT)
    for i, problem in ipairs(set.problems) do
      if not (student.own[i] or student.own[problem.label]) then
        one.versions[problem.label] = student[i].number
      else
        one.given = true
      end
    end
    list[#list + 1], seen[student.id] = one, one
  end
  for _, one in ipairs(set.frozen or {}) do
    local now = seen[one.id]
    for label, n in pairs(one.versions) do
      if now and now.versions[label] == nil then now.versions[label] = n end
    end
    if not now then
      list[#list + 1] = setmetatable({id = one.id, name = one.name, gone = true,
        codes = one.codes, versions = one.versions}, STUDENT)
    end
  end
  return list
end

--- Writes a set. @return true, or nil and a message
function saved.write(set, path)
  local problems = {}
  for i, p in ipairs(set.problems) do problems[i] = problem_of(p) end
  local text = json.encode({format = FORMAT, version = VERSION, course = set.course,
    seed = set.seed, standard = set.standard, hardness = set.hardness, due = set.due,
    decimal = set.decimal, lang = set.lang, problems = problems, editions = set.editions,
    students = students_of(set)}, {indent = true, keyorder = {"format", "version",
    "course", "seed", "standard",
    "hardness", "due", "decimal", "lang", "problems", "label", "kind", "fingerprint",
    "mode", "near_edge", "tolerance", "partial", "lists", "editions", "students", "id",
    "name", "given", "gone", "codes", "versions"}})
  return file.write(path, text .. "\n")
end

local function wrong(path, ...)
  return nil, path .. ": " .. point.format(...)
end

-- The lists of a saved problem as `vary`.
local function lists_of(raw)
  local lists = {}
  for name, values in pairs(type(raw.lists) == "table" and raw.lists or {}) do
    if type(name) ~= "string" or type(values) ~= "table" then return nil end
    lists[name] = {}
    for i, value in ipairs(values) do
      local x = unkept(value)
      if x == nil then return nil end
      lists[name][i] = x
    end
  end
  return lists
end

-- Saved problems as homework.new takes them; or nil and what is wrong.
local function problems_of(path, list, kinds, kind_of, standard)
  local own, problems = {}, {}
  for _, k in ipairs(kinds or {}) do own[k.name] = k end
  for i, raw in ipairs(type(list) == "table" and list or {}) do
    local lists = type(raw) == "table" and lists_of(raw)
    if not lists or type(raw.kind) ~= "string" then
      return wrong(path, "problem %d: not one of a saved set", i)
    end
    local ok, k = pcall(kind_of, own[raw.kind] or raw.kind, standard, "problem " .. i, 0)
    if not ok then return wrong(path, "%s", (k:gsub("^.-homework: ", ""))) end
    if fingerprint(k) ~= raw.fingerprint then
      return wrong(path,
        "the kind %s has changed since the set was saved: go on with the "
        .. "version of the module, or of the kind, that saved it", raw.kind)
    end
    problems[i] = {kind = k, vary = lists, label = raw.label, mode = raw.mode,
      near_edge = raw.near_edge, tolerance = raw.tolerance, partial = raw.partial}
  end
  return problems
end

-- Lists of labels; or nil.
local function editions_of(list)
  if type(list) ~= "table" then return nil end
  for _, labels in ipairs(list) do
    if type(labels) ~= "table" then return nil end
    for _, label in ipairs(labels) do
      if type(label) ~= "string" then return nil end
    end
  end
  return list
end

--- Reads a set. @param changes as homework.load; @param kind_of finds a kind by its name
-- @param standard where a file names none
-- @return what homework.new takes, and {students =, editions =, codes =} that were
--   frozen; or nil and a message
function saved.read(path, changes, kind_of, standard)
  local text, why = file.read(path)
  if not text then return nil, why end
  local ok, t = pcall(json.decode, text, 1, nil, nil, nil)
  if not ok or type(t) ~= "table" or t.format ~= FORMAT then
    return wrong(path, "not a saved homework set")
  elseif t.version ~= VERSION then
    return wrong(path, "saved in form %s, read is %d", tostring(t.version), VERSION)
  end
  local problems, problem = problems_of(path, t.problems, changes.kinds, kind_of,
    type(t.standard) == "string" and t.standard or standard)
  if not problems then return nil, problem end
  local editions = editions_of(t.editions)
  if not editions then return wrong(path, "editions: not those of a saved set") end
  local frozen, students, codes = {}, {}, {}
  for i, one in ipairs(type(t.students) == "table" and t.students or {}) do
    if type(one) ~= "table" or type(one.id) ~= "string"
      or type(one.versions) ~= "table" or type(one.codes) ~= "table" then
      return wrong(path, "student %d: not one of a saved set", i)
    end
    frozen[i] = {id = one.id, name = one.name, versions = one.versions, codes = one.codes}
    if not one.gone then students[#students + 1] = {id = one.id, name = one.name} end
    codes[one.id] = not one.given and one.codes or nil
  end
  return {course = t.course, seed = t.seed, standard = t.standard, hardness = t.hardness,
    due = changes.due or t.due, decimal = t.decimal, lang = t.lang,
    problems = changes.problems or problems, students = changes.students or students},
    {students = frozen, editions = editions, codes = codes}
end

return saved
