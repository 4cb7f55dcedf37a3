-- SPDX-License-Identifier: MIT
--- Design tables: rows x columns x blocks of values that a function or a sweep gives.
--
--   local t = ns.table {title = "...", rows = {...}, columns = {...}, cell = f,
--     unit = "ft-in", round = {to = "1 in", way = "down"}}
--   t:text()  t:markdown()  t:csv()  t:html()  t:latex()
--
-- A value is rounded the cautious way and keeps beside it, unrounded, what it was; the
-- limit that governs it is a letter; where there is none a dash or a reason stands. What
-- the table rests on is printed with it (table/notes.lua). the manual lists the fields.
local cells = require "netsection.table.cells"
local axes = require "netsection.table.axes"
local checks = require "netsection.table.checks"
local document = require "netsection.document"
local joist = require "netsection.joist"
local layout = require "netsection.table.layout"
local letters = require "netsection.table.letters"
local packs = require "netsection.packs"
local parts = require "netsection.parts"
local ods = require "netsection.workbook.ods"
local point = require "netsection.point"
local quantity = require "netsection.quantity"
local review = require "netsection.review"
local rounding = require "netsection.table.rounding"
local workbook_tables = require "netsection.workbook.tables"
local xlsx = require "netsection.workbook.xlsx"
local error = require "netsection.raise".error
local plain = require "netsection.document.escape".text

local design = {letter = letters.of}

local FIELDS = {"title", "rows", "columns", "blocks", "cell", "sweep", "value", "letter",
  "at", "scale", "unit", "round", "metric", "notes", "assumptions", "letters", "dash",
  "revision", "monotone", "interpolate", "joist", "rules", "standard", "units", "lang"}

local methods = {}
local meta = {__index = methods, __name = "netsection.table"}

-- Raises at the line that called the public function which called this one.
local function expect(condition, ...)
  if not condition then error("table: " .. point.format(...), 3) end
end

local function texts(list)
  if type(list) ~= "table" then return false end
  for i = 1, #list do
    if type(list[i]) ~= "string" then return false end
  end
  return true
end

local function text_or_nil(v)
  return v == nil or type(v) == "string"
end

-- What is wrong with the fields that are texts or lists of them, or nil.
local function words_problem(t)
  if type(t.title) ~= "string" then return "title: text expected" end
  for _, field in ipairs {"dash", "revision", "rules", "standard"} do
    if not text_or_nil(t[field]) then return field .. ": text expected" end
  end
  for _, field in ipairs {"notes", "assumptions"} do
    if t[field] ~= nil and not texts(t[field]) then
      return field .. ": a list of texts expected"
    end
  end
  if t.lang ~= nil and not (type(t.lang) == "string" and t.lang:find "^%a[%w-]*$") then
    return 'lang: a language tag such as "en" expected'
  end
  if t.joist ~= nil and not joist.is(t.joist) then return "joist: a joist expected" end
end

local function read_letters(given)
  local all = {}
  for letter, meaning in pairs(letters.meaning) do all[letter] = meaning end
  if given ~= nil and type(given) ~= "table" then return nil end
  for letter, meaning in pairs(given or {}) do
    if type(letter) ~= "string" or type(meaning) ~= "string" then return nil end
    all[letter] = meaning
  end
  return all
end

-- Columns of a file need names that differ.
local function name_twice(t)
  local seen = {unit = true, value = true, shown = true, letter = true, reason = true,
    revision = true, version = true}
  if t.measure.metric then seen[t.measure.metric.unit] = true end
  for _, axis in ipairs {t.rows, t.columns, t.blocks} do
    for _, name in ipairs(axis.names) do
      if seen[name] then return name end
      seen[name] = true
    end
  end
end

-- Reads rows, columns and blocks into t; what is wrong, or nil.
local function read_axes(t, spec)
  for _, field in ipairs {"rows", "columns", "blocks"} do
    if field ~= "blocks" or spec.blocks ~= nil then
      local axis, problem = axes.read(spec[field], spec.sweep, t.show)
      if not axis then return field .. ": " .. problem end
      t[field] = axis
    end
  end
  local twice = name_twice(t)
  return twice and ("the name '%s' is taken twice"):format(twice) or nil
end

local function is_sweep(s)
  return type(s) == "table" and type(s.axes) == "table" and type(s.names) == "table"
end

-- The function of the cells; or nil and what is wrong.
local function cell_function(t, spec)
  if spec.sweep ~= nil then
    if spec.cell ~= nil then return nil, "cell or sweep expected, not both" end
    return cells.of_sweep(t, spec)
  end
  if type(spec.cell) ~= "function" then
    return nil, "cell: a function of row, column and block expected (or a sweep)"
  end
  for _, field in ipairs {"value", "letter", "at", "scale"} do
    if spec[field] ~= nil then return nil, field .. " goes with a sweep" end
  end
  return spec.cell
end

local function check_fields(spec)
  parts.only("table", spec, FIELDS, 3)
  for _, field in ipairs {"rows", "columns", "blocks"} do
    axes.check_fields("table: " .. field, spec[field], 3)
  end
end

-- What is wrong with the names of the rule set and the standard, or nil.
local function packs_problem(t)
  local rules, problem = packs.rules(t.rules, "wood")
  if not rules then return "rules: " .. problem end
  local standard, why = packs.standard(t.standard)
  return not standard and "standard: " .. why or nil
end

-- The spelling that the standard, else the rules of a table ask for.
local function lang_of(t)
  return review.printed({}, {rules = t.rules, standard = t.standard}).lang
end

-- @return t without cells, and the function that gives them; or nil and what is wrong
local function read(spec)
  local problem = words_problem(spec)
  if problem then return nil, problem end
  if spec.sweep ~= nil and not is_sweep(spec.sweep) then
    return nil, "sweep: a sweep expected"
  end
  local t = setmetatable({title = spec.title, given = spec, cells = {},
    joist = spec.joist, dash = spec.dash or "not permitted",
    rules = spec.rules or packs.usual_rules(spec.standard),
    standard = spec.standard or packs.default.standards}, meta)
  problem = packs_problem(t)
  if problem then return nil, problem end
  t.show, problem = quantity.system(spec.units)
  if not t.show then return nil, "units: " .. problem end
  if spec.units == nil and spec.joist then t.show = spec.joist.model.show end
  t.lang = spec.lang or t.show.lang or lang_of(t)
  t.measure, problem = rounding.read(spec.unit, spec.round, spec.metric, t.show)
  if not t.measure then return nil, problem end
  t.letters = read_letters(spec.letters)
  if not t.letters then return nil, "letters: {letter = meaning} as texts expected" end
  problem = read_axes(t, spec)
  if problem then return nil, problem end
  if spec.monotone ~= nil then
    t.order, problem = checks.read_order(spec.monotone)
    if not t.order then return nil, "monotone: " .. problem end
  end
  local ask
  ask, problem = cell_function(t, spec)
  return ask and t, ask or problem
end

--- A table with its cells filled. Raises at the caller's line for what is wrong in the
-- description or in what a cell's function returned.
function design.new(spec)
  check_fields(spec)
  local t, ask = read(spec)
  expect(t, "%s", ask)
  local problem = cells.fill(t, ask)
  expect(not problem, "%s", problem)
  return t
end

function meta.__tostring(t)
  return ("table '%s', %d rows by %d columns"):format(plain(t.title), #t.rows.values,
    #t.columns.values)
end

function design.is(value)
  return getmetatable(value) == meta
end

--- The cell of row i, column j, block k: {value, exact, letter, reason, note, text}.
function methods:cell(i, j, k)
  local row = (self.cells[k or 1] or {})[i]
  return row and row[j]
end

--- Where the values do not run as they should.
-- @param order {down = "rising" | "falling", across = ...}; the table's own without
function methods:not_monotone(order)
  local problem
  if order ~= nil then
    order, problem = checks.read_order(order)
    expect(order, "not_monotone: %s", problem)
  end
  order = order or self.order
  expect(order, "not_monotone: a direction expected, as the table has none")
  return checks.order(self, order)
end

local function broken(t)
  return t.order and checks.order(t, t.order) or {}
end

--- The table as a document, to which more can be added.
function methods:document()
  return layout.document(self, broken(self))
end

for _, form in ipairs {"text", "markdown", "html", "latex"} do
  --- The table in that form. @param options {paper = "letter" | "a4"}
  methods[form] = function(self, options)
    options = options or {}
    parts.only("table:" .. form, options, {"paper"}, 2)
    expect(options.paper == nil or options.paper == "letter" or options.paper == "a4",
      'paper "letter" or "a4" expected')
    return document[form](self:document(), options)
  end
end

for form, writer in pairs {xlsx = xlsx, ods = ods} do
  --- The table as the bytes of a workbook. @param options {paper = "letter" | "a4"}
  methods[form] = function(self, options)
    options = options or {}
    parts.only("table:" .. form, options, {"paper"}, 2)
    expect(options.paper == nil or options.paper == "letter" or options.paper == "a4",
      'paper "letter" or "a4" expected')
    return writer.of(workbook_tables.of({self}, options))
  end
end

local LAYOUTS = {cells = layout.cells, sheet = layout.sheet}

--- The table as CSV. @param options {layout = "cells" | "sheet"}
function methods:csv(options)
  options = options or {}
  parts.only("table:csv", options, {"layout"}, 2)
  local write = LAYOUTS[options.layout or "cells"]
  expect(write, 'csv: layout "cells" or "sheet" expected')
  return write(self)
end

--- Works cells out once more, each by itself, and compares them with the table's.
-- @param o {n = how many, seed = integer, single = function as `cell`, tolerance = 1e-9}
function methods:spot_check(o)
  parts.only("table:spot_check", o, {"n", "seed", "single", "tolerance"}, 2)
  local n, seed, tolerance = o.n or 10, o.seed or 1, o.tolerance or 1e-9
  expect(math.type(n) == "integer" and n > 0, "spot_check: n: a count expected")
  expect(math.type(seed) == "integer", "spot_check: seed: an integer expected")
  expect(type(tolerance) == "number" and tolerance >= 0 and tolerance < 1,
    "spot_check: tolerance: 0 to below 1 expected")
  local single = o.single or self.given.sweep and cells.single_of_sweep(self)
  expect(type(single) == "function",
    "spot_check: single: a function of row, column and block expected")
  return checks.spot(self, {n = n, seed = seed, single = single, tolerance = tolerance})
end

--- What differs from an earlier issue. @param old text that `csv()` wrote then
function methods:diff(old)
  expect(type(old) == "string", "diff: the text of an earlier csv() expected, got %s",
    type(old))
  return checks.diff(self, old)
end

local function call(_, spec)
  return design.new(spec)
end

return setmetatable(design, {__call = call})
