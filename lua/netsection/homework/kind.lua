-- SPDX-License-Identifier: MIT
-- A kind of problem, as data and a few small functions: which base values vary, what is
-- given, the steps of the answer as formulas, and the common mistakes as formulas that
-- take a step's place. Everything else - drawing by lot, sheet, key, marking - is common
-- to all kinds and reads this.
local answer = require "netsection.homework.answer"
local file = require "netsection.file"
local formula = require "netsection.homework.formula"
local ordered = require "netsection.point".pairs
local parts = require "netsection.parts"
local point = require "netsection.point"
local error = require "netsection.raise".error
local plain = require "netsection.document.escape".text
local tostring = require "netsection.point".text

local kind = {}
local meta = {__name = "netsection.homework.kind", __tostring = function(k)
  return "kind of problem: " .. plain(k.name)
end}

local FIELDS = {"name", "title", "vary", "given", "question", "steps", "mistakes",
  "suits", "modes", "edge", "figure", "axes", "key_figure", "check", "source",
  "order", "standards", "units"}
local STEP = {1, 2, 3, "ask", "marks", "clause", "tolerance", "says", "choice", "value",
  "hand", "hint"}
local MISTAKE = {"of", "name", "reveals", "formula", "with"}

local TOLERANCE = 0.015     -- between the 1 and 2 % of common practice

local function fail(level, name, ...)
  error(("homework.kind %s: %s"):format(name, point.format(...)), level + 1)
end

local function need(t, field, types, level)
  local v = t[field]
  if not types:find(type(v), 1, true) then
    fail(level + 1, tostring(t.name), "%s (%s) expected, got %s", field, types, type(v))
  end
  return v
end

---------------------------------------------------------------------------- reading

-- Base values, names in order so that a version's number means the same everywhere.
local function read_vary(t, level)
  local names = {}
  for name, values in ordered(need(t, "vary", "table", level + 1)) do
    if type(name) ~= "string" or type(values) ~= "table" or #values == 0 then
      fail(level + 1, t.name, "vary.%s: a list of values expected", tostring(name))
    end
    names[#names + 1] = name
  end
  table.sort(names, point.less)
  return names
end

local function read_formula(name, text, where, level)
  if type(text) == "function" then return text end
  local made = type(text) == "string" and formula.of(text)
  if not made then fail(level + 1, name, "%s: not a formula", where) end
  return made
end

local function read_step(t, i, raw, level)
  local where = ("step %d (%s)"):format(i, tostring(raw[1]))
  parts.only(("homework.kind %s, %s"):format(t.name, where), raw, STEP, level + 1)
  if type(raw[1]) ~= "string" then
    fail(level + 1, t.name, "%s: symbol expected", where)
  end
  if raw.ask and (math.type(raw.marks) == nil or raw.marks <= 0) then
    fail(level + 1, t.name, "%s: marks above 0 expected", where)
  end
  if raw.ask and not raw.choice and not raw.hand and not answer.knows(raw[3] or "") then
    fail(level + 1, t.name, "%s: unknown unit '%s'", where, tostring(raw[3]))
  end
  if raw.choice and (type(raw.choice) ~= "table" or #raw.choice < 2) then
    fail(level + 1, t.name, "%s: choice: a list of two words or more expected", where)
  end
  local step = {symbol = raw[1], formula = raw[2], unit = raw[3] or "", ask = raw.ask,
    marks = raw.ask and raw.marks, clause = raw.clause, says = raw.says,
    choice = raw.choice, hand = raw.hand, hint = raw.hint,
    tolerance = raw.tolerance or TOLERANCE,
    whole = type(raw[2]) == "string" and formula.rounds(raw[2]) or raw[3] == "count"}
  if not raw.hand then
    step.of = raw.value or read_formula(t.name, raw[2], where, level + 1)
  end
  return step
end

local LETTERS = "abcdefghijklmnopqrstuvwxyz"

-- Asked steps are the parts of the problem, lettered.
local function read_steps(t, level)
  local steps, n = {}, 0
  for i, raw in ipairs(need(t, "steps", "table", level + 1)) do
    steps[i] = read_step(t, i, raw, level + 1)
    if steps[i].ask then
      n = n + 1
      steps[i].part = LETTERS:sub(n, n)
    end
  end
  if n == 0 or n > #LETTERS then
    fail(level + 1, t.name, "1 to %d steps with 'ask' expected", #LETTERS)
  end
  return steps
end

local function read_mistake(t, i, raw, known, level)
  local where = ("mistake %d"):format(i)
  parts.only(("homework.kind %s, %s"):format(t.name, where), raw, MISTAKE, level + 1)
  if type(raw.name) ~= "string" or type(raw.reveals) ~= "string" then
    fail(level + 1, t.name, "%s: name and reveals (text) expected", where)
  end
  local of = type(raw.of) == "table" and raw.of or {raw.of}
  for _, symbol in ipairs(of) do
    if not known[symbol] then
      fail(level + 1, t.name, "%s: no step asks for %s", where, tostring(symbol))
    end
  end
  local with = raw.with or {[of[1] or ""] = raw.formula}
  local read = {}
  for symbol, text in pairs(with) do
    read[symbol] = read_formula(t.name, text, where .. ", " .. symbol, level + 1)
  end
  if #of == 0 or next(read) == nil then
    fail(level + 1, t.name, "%s: of, and formula or with, expected", where)
  end
  return {of = of, name = raw.name, reveals = raw.reveals, with = read,
    formula = raw.formula}
end

local function read_mistakes(t, steps, level)
  local known, list = {}, {}
  for _, step in ipairs(steps) do
    known[step.symbol] = step.ask ~= nil and step.choice == nil or nil
  end
  for i, raw in ipairs(t.mistakes or {}) do
    list[i] = read_mistake(t, i, raw, known, level + 1)
  end
  return list
end

---------------------------------------------------------------------------- use

--- The base values with the number n, from 0: a mixed radix number over the lists.
function kind.values(names, lists, n)
  local p = {}
  for _, name in ipairs(names) do
    local list = lists[name]
    p[name] = list[n % #list + 1]
    n = n // #list
  end
  return p
end

--- How many versions lists of base values make.
function kind.space(names, lists)
  local n = 1
  for _, name in ipairs(names) do n = n * #lists[name] end
  return n
end

-- The first base values, and a table that notes which of them are read.
local function watched(t, names)
  local first, read = {}, {}
  for _, name in ipairs(names) do first[name] = t.vary[name][1] end
  return setmetatable({}, {__index = function(_, name)
    read[name] = true
    return first[name]
  end}), read
end

-- Symbols that are given, each once.
local function given_symbols(t, p, level)
  local ok, rows = pcall(t.given, p)
  if not ok or type(rows) ~= "table" then
    fail(level + 1, t.name, "given: a list of rows expected; it gave %s", tostring(rows))
  end
  local known = {}
  for i, row in ipairs(rows) do
    local symbol = type(row) == "table" and row[1]
    if type(symbol) ~= "string" then
      fail(level + 1, t.name, "given row %d: symbol expected", i)
    elseif symbol ~= "" and known[symbol] then
      fail(level + 1, t.name, "given row %d: the symbol %s is given twice", i, symbol)
    end
    if symbol ~= "" and type(row[2]) == "number"
      and not answer.knows(row[3] or "?") then
      fail(level + 1, t.name, "given row %d (%s): unknown unit '%s'", i, symbol,
        tostring(row[3]))
    end
    if symbol ~= "" and type(row[2]) == "number" then known[symbol] = row[2] + 0.0 end
  end
  return known
end

-- Where a formula of the kind stands in the file that makes it: ", line 12"; "" where
-- that cannot be seen.
local function line_of(text, level)
  local at = debug.getinfo(level + 2, "S")
  local lines = at and at.source:sub(1, 1) == "@" and file.read(at.source:sub(2))
  local n = 0
  for line in ((lines or "") .. "\n"):gmatch "(.-)\r?\n" do
    n = n + 1
    if line:find('"' .. text .. '"', 1, true) then return (", line %d"):format(n) end
  end
  return ""
end

-- A formula reads symbols that are there: given, or of an earlier step.
local function check_symbols(t, where, text, known, level)
  if type(text) ~= "string" then return end
  for _, symbol in ipairs(formula.symbols(text)) do
    if not known[symbol] then
      fail(level + 1, t.name, "%s%s: no symbol %s is given or worked out before", where,
        line_of(text, level), symbol)
    end
  end
end

-- Works the first version and looks at what is used: symbols, words of choices, base
-- values.
local function check_use(t, names, steps, mistakes, level)
  local p, read = watched(t, names)
  local known = given_symbols(t, p, level + 1)
  local s = {}
  for symbol, value in pairs(known) do s[symbol] = value end
  local given = {}
  for symbol in pairs(known) do given[symbol] = true end
  for i, step in ipairs(steps) do
    local where = ("step %d (%s)"):format(i, step.symbol)
    if given[step.symbol] and not step.hand then
      fail(level + 1, t.name, "%s: the symbol is given or worked out already", where)
    end
    if step.of then
      if formula.of(tostring(step.formula)) and t.steps[i].value == nil then
        check_symbols(t, where, step.formula, given, level + 1)
      end
      local ok, x = pcall(step.of, s, p)
      if not ok then fail(level + 1, t.name, "%s: %s", where, tostring(x)) end
      s[step.symbol], given[step.symbol] = x, true
    end
  end
  for i, mistake in ipairs(mistakes) do
    for symbol, text in pairs(t.mistakes[i].with
      or {[mistake.of[1]] = mistake.formula}) do
      if not given[symbol] then
        fail(level + 1, t.name, "mistake %d: no symbol %s to take the place of", i,
          symbol)
      end
      check_symbols(t, ("mistake %d"):format(i), text, given, level + 1)
    end
  end
  for _, field in ipairs {"question", "suits"} do
    if type(t[field]) == "function" then
      local ok, why = pcall(t[field], p, field == "suits" and s or known)
      if not ok then fail(level + 1, t.name, "%s: %s", field, tostring(why)) end
    end
  end
  for _, name in ipairs(names) do
    if not read[name] then
      fail(level + 1, t.name, "vary.%s: never read", name)
    end
  end
end

local MOST_LOOKED_AT = 4000

-- Words of choices in all versions, or in so many that are spread over them.
local function check_words(made, level)
  local asks = false
  for _, step in ipairs(made.steps) do asks = asks or step.choice ~= nil end
  local space = kind.space(made.names, made.vary)
  local stride = math.max(1, space // MOST_LOOKED_AT)
  for n = 0, asks and space - 1 or -1, stride do
    local p = kind.values(made.names, made.vary, n)
    local given = given_symbols(made, p, level + 1)
    local ok, s = pcall(kind.work, made, given, p)
    local fits = ok and (not made.suits or made.suits(p, s))
    local wrong = fits and kind.word_problem(made, s, p)
    if wrong then fail(level + 1, made.name, "%s", wrong) end
  end
end

local function check_lists(t, level)
  if t.standards ~= nil then
    for i, name in ipairs(need(t, "standards", "table", level + 1)) do
      if type(name) ~= "string" then
        fail(level + 1, t.name, "standards: entry %d: a name expected", i)
      end
    end
  end
  if t.units ~= nil and t.units ~= "us" and t.units ~= "metric" then
    fail(level + 1, t.name, 'units: "us" or "metric" expected')
  end
end

--- A kind from its description; raises at the caller's line with what is wrong.
-- @param own true for one that comes with the module: the words of its choices are looked
--   at by the tests
function kind.new(t, level, own)
  level = (level or 1) + 1
  parts.only("homework.kind", t, FIELDS, level)
  need(t, "name", "string", level)
  if not t.name:find "^[%a][%w_]*$" then
    fail(level, t.name, "name: letters, digits and _ expected")
  end
  need(t, "title", "string", level)
  need(t, "given", "function", level)
  need(t, "question", "string function", level)
  for _, field in ipairs {"suits", "figure", "axes", "key_figure", "check"} do
    if t[field] ~= nil then need(t, field, "function", level) end
  end
  check_lists(t, level)
  local steps = read_steps(t, level)
  local names, mistakes = read_vary(t, level), read_mistakes(t, steps, level)
  check_use(t, names, steps, mistakes, level)
  local made = {names = names, steps = steps, mistakes = mistakes, edge = t.edge or {},
    units = t.units or "us"}
  for _, field in ipairs {"name", "title", "vary", "given", "question", "suits", "modes",
    "figure", "axes", "key_figure", "check", "source", "order", "standards"} do
    made[field] = t[field]
  end
  if not own then check_words(made, level) end
  return setmetatable(made, meta)
end

--- What is wrong with the words of a version's choices; nil where nothing is.
function kind.word_problem(k, s, p)
  for i, step in ipairs(k.steps) do
    local listed = not step.choice
    for _, word in ipairs(step.choice or {}) do
      listed = listed or word == s[step.symbol]
    end
    if not listed then
      local said = {}
      for n, name in ipairs(k.names) do said[n] = name .. " = " .. tostring(p[name]) end
      return ("step %d (%s): '%s' is none of its words (%s)"):format(i, step.symbol,
        tostring(s[step.symbol]), table.concat(said, ", "))
    end
  end
end

function kind.is(value)
  return getmetatable(value) == meta
end

---------------------------------------------------------------------------- working

--- Works the steps out.
-- @param given {symbol = number}
-- @param p base values, for steps that are functions
-- @param with {symbol = function} in place of a given or of a step's own formula, or nil
-- @param own {symbol = value}: a student's values that stand for what is asked, or nil
-- @return {symbol = value}: the given and every step
function kind.work(k, given, p, with, own)
  local s = {}
  for symbol, value in pairs(given) do s[symbol] = value end
  for symbol, f in pairs(with or {}) do
    if given[symbol] then s[symbol] = f(given, p) end
  end
  for _, step in ipairs(k.steps) do
    local symbol = step.symbol
    local f = with and with[symbol] or step.of
    if own and own[symbol] ~= nil then
      s[symbol] = own[symbol]
    elseif f then
      s[symbol] = f(s, p)
    end
  end
  return s
end

-- The first step that a mistake changes, and the last that it is asked for; a mistake in
-- what is given changes the first already.
local function reach(k, mistake)
  local first, last = #k.steps, 1
  for i, step in ipairs(k.steps) do
    for _, symbol in ipairs(mistake.of) do
      if step.symbol == symbol then last = math.max(last, i) end
    end
  end
  for symbol in pairs(mistake.with) do
    local at = 1
    for i, step in ipairs(k.steps) do
      if step.symbol == symbol then at = i end
    end
    first = math.min(first, at)
  end
  return first, last
end

--- What the steps come to with a mistake in one version: {symbol = value}, right up to
-- the last step that the mistake is asked for.
function kind.rework(k, v, mistake)
  local s, with = {}, mistake.with
  for symbol, value in pairs(v.s) do s[symbol] = value end
  for symbol, f in pairs(with) do
    if v.given[symbol] then s[symbol] = f(v.given, v.p) end
  end
  if not mistake.first then mistake.first, mistake.last = reach(k, mistake) end
  for i = mistake.first, mistake.last do
    local step = k.steps[i]
    local f = with[step.symbol] or step.of
    if f then s[step.symbol] = f(s, v.p) end
  end
  return s
end

-- Marks of all its parts.
function kind.marks(k)
  local sum = 0
  for _, step in ipairs(k.steps) do sum = sum + (step.marks or 0) end
  return sum
end

return kind
