-- SPDX-License-Identifier: MIT
-- A joist: a description that has been read and never changes, and what can be asked
-- of it.
local core = require "netsection.core"
local fix = require "netsection.fix"
local lane = require "netsection.lane"
local model = require "netsection.model"
local parts = require "netsection.parts"
local point = require "netsection.point"
local review = require "netsection.review"
local shores = require "netsection.shores"
local spans = require "netsection.spans"
local error = require "netsection.raise".error
local escape = require "netsection.document.escape"
local tostring = require "netsection.point".text

local joist = {}
local methods = {}

local function refuse(_, name)
  error(("a joist does not change: make another with joist:with{%s = ...}")
    :format(tostring(name)), 2)
end

local meta = {
  __index = methods,
  __newindex = refuse,
  __name = "netsection.joist",
  __tostring = function(self)
    return "joist " .. escape.text(self.model.mark)
  end,
}

local function copy(t)
  local new = {}
  for name, value in pairs(t) do new[name] = value end
  return new
end

-- Names the part that the core found fault with.
local function report_fault(found, m, why)
  local part
  if why.cut > 0 then
    part = {cut = why.cut, name = ("cut %d (%s)"):format(why.cut, m.cuts[why.cut].kind)}
  elseif why.line > 0 then
    part = m.lines[why.line].part
  elseif why.point > 0 then
    part = m.points[why.point].part
  end
  local message = why.text
  if why.text == "out of range" then
    message = ("outside %s to %s %s"):format(m.show.bound(why.low, why.unit),
      m.show.bound(why.high, why.unit), m.show.unit_of(why.unit))
  elseif why.text:find "same place" then
    message = ("same place as cut %d: enter one cut once"):format(why.row + 1)
    why.field = nil
  elseif why.text:find "past the end" then
    local total = model.total(m)
    message = ("past the end of the joist, whose last bearing is at %s")
      :format(m.show.place(total))
  end
  found:add(part, why.field, message)
end

-- A manufactured member or one without design values has no numbers, but its geometry
-- is still checked, with values that any joist could have.
local STAND_IN = {Fb = 900, Fv = 180, E = 1.6e6, Emin = 580000, CF = 1, CF_t = 1,
  CF_c = 1}

local function checkable(m)
  if not m.manufactured and not m.missing then return m end
  local plain = copy(m)
  for name, value in pairs(STAND_IN) do plain[name] = plain[name] or value end
  return plain
end

-- All that the core finds fault with: it names the first, so a cut with a fault is taken
-- out and the rest is looked at once more.
local function report_faults(found, m)
  local rest, number = checkable(m), {}
  for i = 1, #m.cuts do number[i] = i end
  while true do
    local why = review.fault(rest)
    if not why then return end
    local k = why.cut
    if k > 0 then
      why.cut = number[k]
      if why.text:find "same place" then why.row = number[why.row + 1] - 1 end
    end
    report_fault(found, m, why)
    if k == 0 then return end
    rest = copy(rest)
    rest.cuts = table.move(rest.cuts, 1, #rest.cuts, 1, {})
    table.remove(rest.cuts, k)
    table.remove(number, k)
  end
end

-- @param t description (see model.fields)
-- @return joist, or nil and the list of problems
function joist.read(t)
  local m, found = model.of(t)
  -- Of many joists the core names those that are wrong when they are reviewed.
  if #found == 0 and not lane.of(m) then report_faults(found, m) end
  if #found > 0 then return nil, found end
  return setmetatable({description = copy(t), model = m, survey = t.survey}, meta)
end

-- A joist from its description; raises at the caller's line with everything wrong.
function joist.new(t)
  if joist.is(t) then return t end
  parts.only("joist", t, model.fields, 2)
  local made, found = joist.read(t)
  if not made then error(found:text(), 2) end
  return made
end

function joist.is(value)
  return getmetatable(value) == meta
end

-- The list of problems of a description, empty where all is well; raises nothing.
function joist.problems(t)
  parts.only("joist", t, model.fields, 2)
  local made, found = joist.read(t)
  return made and {} or found
end

-- Fields that hold named numbers, and may be changed one by one.
local NAMED = {limits = true, material = true}

-- Raises where a cut or load of that kind has no such field.
local function known_field(kind, path, field)
  local names = parts.fields[kind]
  for _, name in ipairs(names or {field}) do
    if name == field then return end
  end
  error(("with: no field '%s' (a %s takes %s)"):format(path, kind,
    table.concat(names, ", ")), 0)
end

-- Sets the field that a path such as "cuts.1.depth" or "limits.live" names in a copied
-- description.
local function set_path(t, path, value)
  local list, n, field = path:match "^(%a+)%.(%d+)%.([%w_]+)$"
  n = tonumber(n)
  local group, name = path:match "^(%a+)%.([%w_]+)$"
  if list and type(t[list]) == "table" and type(t[list][n]) == "table" then
    t[list] = copy(t[list])
    t[list][n] = copy(t[list][n])
    t[list][n][field] = value
    known_field(t[list][n].kind, path, field)
  elseif group and tonumber(name) and type(t[group]) == "table" then
    t[group] = copy(t[group])
    t[group][tonumber(name)] = value
  elseif NAMED[group] then
    t[group] = type(t[group]) == "table" and copy(t[group]) or {}
    t[group][name] = value
  else
    error(("with: no field '%s'"):format(path), 0)
  end
end

local REMOVE = setmetatable({}, {__tostring = function() return "none" end})
joist.none = REMOVE

local function changed(description, changes, level)
  local t = copy(description)
  local names = {}
  for name in pairs(changes) do names[#names + 1] = tostring(name) end
  table.sort(names, point.less)
  for _, name in ipairs(names) do
    local value = changes[name]
    if value == REMOVE then value = nil end
    if name:find(".", 1, true) then
      local ok, problem = pcall(set_path, t, name, value)
      if not ok then error(problem, level + 1) end
    else
      t[name] = value
    end
  end
  -- One given takes the other away; taking one away gives none.
  if changes.span ~= nil and changes.span ~= REMOVE then t.spans = changes.spans end
  if changes.spans ~= nil and changes.spans ~= REMOVE then t.span = changes.span end
  if t.spans == REMOVE then t.spans = nil end
  if t.span == REMOVE then t.span = nil end
  if changes.size ~= nil then t.b, t.d = changes.b, changes.d end
  if changes.size == nil and (changes.b or changes.d) then t.size = nil end
  if changes.material ~= nil then t.species, t.grade = changes.species, changes.grade end
  if (changes.species or changes.grade) and not changes.material then t.material = nil end
  if changes.class then
    t.material, t.species, t.grade = changes.material, changes.species, changes.grade
  elseif changes.species or changes.grade or changes.material or changes.historic then
    t.class, t.service_class, t.duration = nil, changes.service_class, changes.duration
  end
  if changes.historic == nil then
    local other = changes.material or changes.species or changes.grade
      or changes.class
    t.historic = not other and t.historic or nil
  elseif changes.historic ~= nil and changes.historic ~= REMOVE then
    t.material, t.species, t.grade = changes.material, changes.species, changes.grade
  end
  parts.only("joist", t, model.fields, level + 1)
  return t
end

-- The same joist with its place in a floor and its repair.
local function keep(made, row, repair)
  return setmetatable({description = made.description, model = made.model,
    survey = made.survey, row = row, repair = repair}, meta)
end

-- The same joist with no cuts and no loads of its own, as a new one beside it.
function methods:bare()
  local t = copy(self.description)
  t.cuts, t.loads = nil, nil
  return keep(assert(joist.read(t)), self.row)
end

-- As with, but without its repair, and nil and the list of problems instead of an error.
function methods:changed(changes)
  local made, found = joist.read(changed(self.description, changes, 2))
  return made and keep(made, self.row) or nil, found
end

-- Changes of the joist, and those of its repair, which are named "fix.<field>"; "fix" is
-- another repair, or false for none.
local function parted(changes)
  local own, of_fix
  for name, value in pairs(changes) do
    local field = type(name) == "string" and name:match "^fix%.(.+)$"
    if field then
      of_fix = of_fix or {}
      of_fix[field] = value
    elseif name ~= "fix" then
      own = own or {}
      own[name] = value
    end
  end
  return own or {}, of_fix
end

-- The description of a repair with fields changed, lists within it too:
-- ["fix.groups.1.n"].
local function changed_fix(given, changes, level)
  local t = copy(given)
  for name, value in pairs(changes) do
    if value == REMOVE then value = nil end
    if name:find("^groups%.") then
      local ok, problem = pcall(set_path, t, name, value)
      if not ok then error((problem:gsub("'(.*)'", "'fix.%1'")), level + 1) end
    else
      t[name] = value
    end
  end
  local fields = copy(t)
  fields.kind = nil
  parts.only(t.kind, fields, fix.fields(t.kind), level + 1)
  return t
end

-- Description and repair with changes, not read yet: what a sweep begins with.
function joist.altered(self, changes, level)
  level = level or 1
  local own, of_fix = parted(changes)
  local given = self.repair and self.repair.given
  if changes.fix ~= nil then
    given = changes.fix
    if given == REMOVE or given == false then given = nil
    elseif not fix.is(given) then
      error("with: fix: a fix such as ns.sister{...} expected", level + 1)
    end
  end
  if of_fix and not given then
    error("with: the joist has no repair, whose fields fix.<name> are", level + 1)
  end
  return changed(self.description, own, level + 1),
    of_fix and changed_fix(given, of_fix, level + 1) or given
end

-- A changed copy. Names are fields, or paths such as ["cuts.1.depth"], ["limits.live"]
-- and, of its repair, ["fix.to"]; the value ns.none takes a field away. A repair is kept.
function methods:with(changes)
  if type(changes) ~= "table" then
    error("with: a table of changes expected, got " .. type(changes), 2)
  end
  local description, repair = joist.altered(self, changes, 2)
  local made, found = joist.read(description)
  if not made then error(found:text(), 2) end
  made = keep(made, self.row)
  return repair and made:fix(repair) or made
end

-- The same joist in a row of them. @param row {left =, right = the joists beside it}
function methods:placed(row)
  return keep(self, row, self.repair)
end

-- A repaired copy, whose review fills 'fixed'. Raises for bad fields only; a repair that
-- does not serve is refused by the review.
-- @param t ns.sister{...} or another fix
function methods:fix(t)
  if not fix.is(t) then
    error("fix: a fix such as ns.sister{...} expected, got " .. tostring(type(t)
      == "table" and t.kind or type(t)), 2)
  end
  local made, found = self:fixed(t)
  if not made then error(found:text(), 2) end
  return made
end

-- The same, and nil and the list of problems instead of an error.
function methods:fixed(t)
  local f, found = fix.read(self, t)
  if #found > 0 then return nil, found end
  return keep(self, self.row, f)
end

local TAKES = {review = {"rules", "standard", "units", "lang", "by_depth"},
  span_intervals = {"modes", "rules", "standard"},
  longest_span = {"modes", "continuous", "rules", "standard"}}
local CODES = {"rules", "standard"}

-- Options as a table; raises at the line of the method's caller.
local function options_of(what, options)
  if options == nil then return {} end
  if type(options) ~= "table" then
    error(("%s: options: a table such as {rules =, standard =} expected, got %s"):format(
      what, type(options)), 3)
  end
  parts.only(what, options, TAKES[what] or CODES, 3)
  return options
end

-- Uncut, cut and fixed states, rules and action (see review.lua).
-- @param options {rules = "us-irc-2021", standard = "us-nds-2018-asd", units = "us" |
--   "metric": what it is printed in (default: the joist's, else the standard's), lang =
--   "en-US" | "en-GB" | "en-CA": how it is spelled (the same, else the rules')}
function methods:review(options)
  options = options_of("review", options)
  local printed = review.printed(self.description, options)
  if not review.is_printed(self, printed) then self = self:with(printed) end
  local r, rules, standard = review.of(self, options)
  if self.repair and r.computed then
    r.fixed = fix.assess(self, r, options or {}, rules, standard)
    for _, said in ipairs(r.fixed.switches or {}) do
      r.switches[#r.switches + 1] = said
    end
    review.fixed_said(r)
  elseif self.repair then
    r.fixed = fix.refused(self, r.reasons[1])
  end
  if not r.many then shores.add {r} end
  return r
end

-- All spans that pass: a list of {from =, to =, starts =, ends =} (see spans.lua).
-- @param options {modes = {...}, rules =, standard =}
function methods:span_intervals(options)
  options = options_of("span_intervals", options)
  review.packs_of(self, options)
  return spans.intervals(self, options)
end

-- Longest span that passes, inches, unrounded, and the intervals (see spans.lua).
-- @param options {modes = {...}, continuous = end of the first interval, rules =,
--   standard =}
function methods:longest_span(options)
  options = options_of("longest_span", options)
  review.packs_of(self, options) -- a pack that is none is told where this was called
  return spans.longest(self, options)
end

-- Description and repair with changes, not read.
methods.altered = joist.altered

-- What a joist is seldom asked for is read when it is.

-- The largest cut of a kind at a place (see largest.lua).
function methods.largest(...)
  return require "netsection.largest".of(...)
end

-- Vibration of the floor it stands in, for information (see vibration.lua).
function methods.vibration(...)
  return require "netsection.vibration".of(...)
end

-- What margin is left, and which input turns the verdict (see sensitivity.lua).
function methods.sensitivity(...)
  return require "netsection.sensitivity".of(...)
end

-- How sure the verdict is (see odds.lua).
function methods.odds(...)
  return require "netsection.odds".of_joist(...)
end

local ADJUSTED = {Fb = true, Ft = true, Fv = true, Fc_perp = true, Fc = true, E = true,
  Emin = true}

-- One number behind the joist's adjusted values: value and factors of "Fb" and others.
function methods:adjusted(property, options)
  if not ADJUSTED[property] then
    error(("adjusted: Fb, Ft, Fv, Fc_perp, Fc, E or Emin expected, got %s"):format(
      type(property) == "string" and "'" .. property .. "'" or type(property)), 2)
  end
  options = options_of("adjusted", options)
  local _, standard = review.packs_of(self, options)
  return core.adjust(self.model, standard.core, property)
end

return joist
