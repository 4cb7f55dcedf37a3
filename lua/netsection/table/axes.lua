-- SPDX-License-Identifier: MIT
-- Rows, columns and blocks of a table: their names, their values, and how these are
-- shown. An axis may have several names, whose values then come together (species and
-- grade), so that a table need not hold every combination.
local fields = require "netsection.fields"
local parts = require "netsection.parts"
local text = require "netsection.text"
local units = require "netsection.units"

local axes = {}

local FIELDS = {"name", "values", "show", "unit", "head"}

local function names_of(name)
  if type(name) == "string" then return {name} end
  if type(name) ~= "table" or #name == 0 then return nil end
  for i = 1, #name do
    if type(name[i]) ~= "string" then return nil end
  end
  return table.move(name, 1, #name, 1, {})
end

-- Units per name: a text where there is one name, {name = text} where there are several.
local function units_of(given, names)
  local list = {}
  if given == nil then return list end
  if #names == 1 and type(given) == "string" then return {given} end
  if #names == 1 or type(given) ~= "table" then return nil end
  for k, name in ipairs(names) do
    if given[name] ~= nil and type(given[name]) ~= "string" then return nil end
    list[k] = given[name]
  end
  return list
end

local function with_unit(head, unit)
  return unit and unit ~= "ft-in" and head .. ", " .. unit or head
end

local function plain_value(v)
  return type(v) == "string" or type(v) == "number" and v == v
    and v ~= math.huge and v ~= -math.huge
end

-- A value of several names as a list with fields by name.
local function joined(value, names)
  if type(value) ~= "table" or #value ~= #names then return nil end
  local key = {}
  for i, name in ipairs(names) do
    if not plain_value(value[i]) then return nil end
    key[i], key[name] = value[i], value[i]
  end
  return key
end

local function show_one(axis, value, i, unit)
  if type(axis.show) == "function" then return axis.show(value) end
  if type(axis.show) == "table" then return axis.show[i] end
  if type(value) == "string" then return value end
  local other = axis.system.in_table(unit)
  if other then return text.short(value * other.times) end
  return unit == "ft-in" and units.feet_inches_dash(value) or text.short(value)
end

-- Texts of a value, one per name.
local function shown(axis, value, i)
  if #axis.names == 1 then return {show_one(axis, value, i, axis.units[1])} end
  local list = {}
  for k in ipairs(axis.names) do
    list[k] = show_one(axis, value[k], i, axis.units[k])
  end
  return list
end

local function read_values(axis, values)
  if type(values) ~= "table" or #values == 0 then
    return "values: a list with one value at least expected"
  end
  for i = 1, #values do
    local value = values[i]
    if #axis.names > 1 then
      value = joined(value, axis.names)
      if not value then
        return ("values: value %d: a list of %d expected, for %s"):format(i, #axis.names,
          table.concat(axis.names, ", "))
      end
    elseif not plain_value(value) then
      return ("values: value %d: text or a finite number expected"):format(i)
    end
    axis.values[i], axis.texts[i] = value, shown(axis, value, i)
    for k in ipairs(axis.names) do
      if type(axis.texts[i][k]) ~= "string" then
        return ("show: text expected for value %d"):format(i)
      end
    end
  end
end

local function unit_of(name, values)
  for _, value in ipairs(values) do
    if type(value) ~= "number" then return nil end
  end
  return not name:find "^limits" and fields.unit(name:match "([%a_]+)[%d.]*$") or nil
end

local function of_sweep(name, sweep)
  for _, axis in ipairs(sweep.axes) do
    if axis.name == name then
      return {name = name, values = axis.values, unit = unit_of(name, axis.values)}
    end
  end
end

-- What is wrong with how an axis is to be shown, or nil.
local function words_problem(t, names)
  if not units_of(t.unit, names) then
    return "unit: text expected, of several names {name = text}"
  end
  if t.head ~= nil and type(t.head) ~= "string" then return "head: text expected" end
  local show = type(t.show)
  if show ~= "nil" and show ~= "function" and show ~= "table" then
    return "show: a function or a list of texts expected"
  end
end

-- The unit in which values are shown: the axis's own where it shows them itself.
local function printed(axis, k)
  local other = axis.show == nil and axis.system.in_table(axis.units[k])
  return other and other.unit or axis.units[k]
end

local function empty_axis(t, names, system)
  local axis = {names = names, units = units_of(t.unit, names), show = t.show,
    system = system,
    values = {}, texts = {}, heads = {}, title = t.head or table.concat(names, ", ")}
  for k, name in ipairs(names) do
    axis.heads[k] = with_unit(#names == 1 and t.head or name, printed(axis, k))
  end
  axis.head = t.head and #names > 1 and t.head or table.concat(axis.heads, ", ")
  return axis
end

--- An axis; or nil and what is wrong. @param system of units it is printed in
-- @param t {name =, values =, show =, unit =, head =}, or the name of an axis of a sweep
function axes.read(t, sweep, system)
  if type(t) == "string" and sweep then
    local name = t
    t = of_sweep(name, sweep)
    if not t then return nil, ("the sweep has no axis '%s'"):format(name) end
  end
  if type(t) ~= "table" then
    return nil, "{name=, values=} expected, got " .. type(t)
  end
  local names = names_of(t.name)
  if not names then return nil, "name: text or a list of texts expected" end
  local problem = words_problem(t, names)
  if problem then return nil, problem end
  local axis, values = empty_axis(t, names, system), t.values
  if values == nil and sweep and #names == 1 then
    local found = of_sweep(names[1], sweep) or t
    values = found.values
    if t.unit == nil and t.show == nil and t.head == nil then
      axis = empty_axis({name = t.name, unit = found.unit}, names, system)
    end
  end
  problem = read_values(axis, values)
  if problem then return nil, problem end
  return axis
end

--- Raises for fields an axis does not have.
function axes.check_fields(what, t, level)
  if type(t) == "table" then parts.only(what, t, FIELDS, level + 1) end
end

--- The texts of a value in one line.
function axes.label(axis, i)
  return table.concat(axis.texts[i], ", ")
end

--- What the axis is; its unit only where it has one name.
function axes.heading(axis)
  return #axis.names == 1 and axis.head or axis.title
end

--- A value in one line, with the name and the unit of the axis.
function axes.said(axis, i)
  local unit = printed(axis, 1)
  unit = unit ~= "ft-in" and unit
  return axis.title .. " " .. axes.label(axis, i) .. (unit and " " .. unit or "")
end

--- Raw texts or numbers of a value, for a file.
function axes.keys(axis, i)
  local value = axis.values[i]
  return #axis.names == 1 and {value} or table.move(value, 1, #axis.names, 1, {})
end

return axes
