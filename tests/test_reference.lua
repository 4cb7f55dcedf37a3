-- SPDX-License-Identifier: MIT
-- The reference is whole: every public name has an entry and every entry a name; each has
-- its text, units, errors and an example that runs. What is compared with is the module.
local entries = require "tests.entries"
local lu = require "luaunit"
local ns = require "netsection"
local reference = require "tests.reference"
local system = require "tests.system"

local T = {}

local classes, functions, report = entries.classes, entries.functions, entries.report
local fields_of, is_input, values = entries.fields_of, entries.is_input, entries.values

-- -- every name ----

-- Methods that modules call among themselves.
local INNER = {["joist:altered"] = true, ["joist:bare"] = true, ["joist:changed"] = true,
  ["joist:fixed"] = true, ["joist:placed"] = true, ["grid:over_gap"] = true,
  ["grid:press"] = true, ["shores:add"] = true, ["sweep:of_floor"] = true}

local function is_callable(v)
  local meta = type(v) == "table" and getmetatable(v)
  return type(v) == "function" or type(meta) == "table" and meta.__call ~= nil
end

-- Public functions of a table and its tables, by name.
local function walk(t, path, found)
  for name, value in pairs(t) do
    local full = path .. "." .. name
    if is_callable(value) then found[full] = true end
    if type(value) == "table" and full ~= "ns.none" and full ~= "ns.units.per" then
      walk(value, full, found)
    end
  end
  return found
end

-- Methods of a value: all of its index, or where that is a function those with entries.
local function methods_of(value, object)
  local index = getmetatable(value).__index
  if type(index) == "table" then return index end
  local found = {}
  for name in pairs(functions) do
    local of, method = name:match "^([%w_]+):([%w_]+)$"
    if of == object and type(value[method]) == "function" then
      found[method] = value[method]
    end
  end
  return found
end

function T.test_every_name_has_an_entry_and_every_entry_a_name()
  local found = walk(ns, "ns", {})
  for name, value in pairs(entries.objects()) do
    for method, f in pairs(methods_of(value, name)) do
      local full = name .. ":" .. method
      if type(f) == "function" and not INNER[full] then found[full] = true end
    end
  end
  local wrong = {}
  for name in pairs(found) do
    if not functions[name] then wrong[#wrong + 1] = name .. ": no entry" end
  end
  for name, entry in pairs(functions) do
    if not found[name] then
      wrong[#wrong + 1] = ("%s: %s is not there"):format(entry.where, name)
    end
  end
  report(wrong)
end

function T.test_public_values_that_are_no_functions_are_fields()
  local wrong, fields = {}, fields_of "netsection"
  for name, value in pairs(ns) do
    if type(value) ~= "function" and type(value) ~= "table" and not fields[name] then
      wrong[#wrong + 1] = name
    end
  end
  report(wrong)
end

-- -- each entry is whole ----

local UNITS = {"N", "N/mm", "N/mm2", "kg/m2", "N m2/m", "mm", "m", "in2", "in3", "in4",
  "lb", "psi", "psf", "plf", "pcf", "ft", "lb-in", "lb-in2", "lb/in", "Hz", "F",
  "degrees", "percent", "count", "counts", "days", "bytes",
  "no unit", "in its unit", "relative", "kg/m3", "unit of", "any unit", "units"}

-- The word for inches where it is the unit, not the preposition.
local function has_inches(text)
  return text:find "^in%f[^%w]" or text:find "[%d,%(] ?in%f[^%w]"
    or text:find "^in$" or text:find " in$"
end

local function has_unit(text)
  local padded = " " .. text:gsub("[%s,;:%.%(%)#]+", " ") .. " "
  for _, unit in ipairs(UNITS) do
    if padded:find(" " .. unit .. " ", 1, true) then return true end
  end
  return has_inches(text) ~= nil or text:find("unit", 1, true) ~= nil
end

local function is_number(of)
  return of:find "%f[%w]number%f[%W]" ~= nil or of:find "%f[%w]integer%f[%W]" ~= nil
end

local function check_function(name, f, wrong)
  local function lacks(what)
    wrong[#wrong + 1] = ("%s: %s: %s"):format(f.where, name, what)
  end
  if not f.doc.text then lacks "no text" end
  if not f.doc.errors then lacks "nothing on errors" end
  if not f.doc.example then lacks "no example" end
  if #f.returns == 0 then lacks "no return" end
  for _, list in ipairs {f.params, f.returns} do
    for _, p in ipairs(list) do
      -- an overload of a callable table has none: its text is that of the table
      if p.text == "" and f.returns[1].name ~= "made" then
        lacks(p.name .. ": no text")
      end
      if is_number(p.type) and not p.type:find "fun%(" and not has_unit(p.text) then
        lacks(p.name .. ": no unit")
      end
    end
  end
end

function T.test_each_function_is_whole()
  local wrong = {}
  for name, f in pairs(functions) do check_function(name, f, wrong) end
  report(wrong)
end

local function check_field(class, field, wrong)
  local function lacks(what)
    wrong[#wrong + 1] = ("%s: %s.%s: %s"):format(class.where, class.name, field.name,
      what)
  end
  if field.private then return end
  if field.text == "" then lacks "no text" end
  if is_number(field.type) and not field.type:find "fun%("
    and not has_unit(field.text) then
    lacks "no unit"
  end
  if is_input(class.name) and field.optional
    and not (field.text:find "[Dd]efault" or field.text:find "without it"
      ) then
    lacks "no default"
  end
end

function T.test_each_field_is_whole()
  local wrong = {}
  for _, class in pairs(classes) do
    for _, field in ipairs(class.fields) do check_field(class, field, wrong) end
  end
  report(wrong)
end

-- Names of types in a type text.
local function types_in(of)
  local list = {}
  for name in of:gmatch "netsection%.[%w_%.]+" do list[#list + 1] = name end
  return list
end

function T.test_types_that_are_named_are_there()
  local wrong = {}
  local function look(where, of)
    for _, name in ipairs(types_in(of)) do
      if not classes[name] and not entries.aliases[name] then
        wrong[#wrong + 1] = where .. ": " .. name
      end
    end
  end
  for _, f in pairs(functions) do
    for _, p in ipairs(f.params) do look(f.where, p.type) end
    for _, r in ipairs(f.returns) do look(f.where, r.type) end
  end
  for _, class in pairs(classes) do
    for _, parent in ipairs(class.parents) do look(class.where, parent) end
    for _, field in ipairs(class.fields) do look(class.where, field.type) end
  end
  report(wrong)
end

-- -- examples ----

-- What an example says that it prints, and what it does print.
local function run(f)
  local env = values()
  local said, printed = {}, {}
  for line in (f.doc.example .. "\n"):gmatch "(.-)\n" do
    local text = line:match "%-%->%s*(.*)$"
    if text then said[#said + 1] = text end
  end
  local own = setmetatable({print = function(...)
    local words = table.pack(...)
    for i = 1, words.n do words[i] = tostring(words[i]) end
    printed[#printed + 1] = table.concat(words, " ")
  end}, {__index = env})
  local chunk = assert(load(f.doc.example, "=" .. f.name, "t", own))
  chunk()
  return said, printed
end

function T.test_examples_run()
  local wrong = {}
  system.fresh(entries.folder)
  for name, f in pairs(functions) do
    if f.doc.example then
      local ok, said, printed = pcall(run, f)
      if not ok then
        wrong[#wrong + 1] = ("%s: %s"):format(f.where, said)
      elseif #said > 0 and table.concat(said, "\n") ~= table.concat(printed, "\n") then
        wrong[#wrong + 1] = ("%s: %s: printed %s"):format(f.where, name,
          table.concat(printed, " / "))
      end
    end
  end
  system.remove(entries.folder)
  report(wrong)
end

-- -- the file ----

function T.test_the_reference_is_of_today()
  local file <close> = assert(io.open(reference.path))
  lu.assertTrue(file:read "a" == reference.text(entries.all), "stale: run make reference")
end

return T
