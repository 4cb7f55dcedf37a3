-- SPDX-License-Identifier: MIT
-- Base values that a teacher gives in place of a kind's own: numbers in the units of the
-- kind, or texts that are read as lengths and loads.
local ordered = require "netsection.point".pairs
local point = require "netsection.point"
local units = require "netsection.units"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local base = {}

local per = units.per
local METRIC = {area = per.kPa, line = per["kN/m"], point = per.kN}

local function fail(level, ...)
  error("homework: " .. point.format(...), level + 1)
end

-- A text as a number in the units of a kind: in, psf, plf and lb, or mm, kN/m2, kN/m and
-- kN; nil where it is none.
local function number_of(said, metric)
  local length = not (metric and tonumber(said)) and units.length(said)
  if length then return metric and length / per.mm or length end
  local load, what = units.load(said)
  if not metric then return load end
  return tonumber(said) or load and METRIC[what] and load / METRIC[what] or nil
end

-- A value for a base value: where the kind's own are numbers, text is read.
local function value_of(value, like, k, where, level)
  if type(like) == "number" and type(value) == "string" then
    local read = number_of(value, k.units == "metric")
    if not read then fail(level + 1, "%s: a number, length or load expected", where) end
    return read
  elseif type(value) ~= type(like) or value ~= value then
    fail(level + 1, "%s: a %s such as %s expected", where, type(like), tostring(like))
  end
  return value
end

local function single(value, like, k, where, level)
  return {(value_of(value, like, k, where, level + 1))}
end

local function several(values, like, k, where, level)
  if type(values) ~= "table" or #values == 0 then
    fail(level + 1, "%s: a list of values expected", where)
  end
  local list = {}
  for i, value in ipairs(values) do
    list[i] = value_of(value, like, k, where, level + 1)
  end
  return list
end

--- Base values of a problem: the kind's, with those of the teacher in their place.
-- @param t {given = {name = value}, vary = {name = values}}
function base.lists(k, t, where, level)
  local lists = {}
  for name, values in pairs(k.vary) do lists[name] = values end
  for field, read in pairs {given = single, vary = several} do
    for name, v in ordered(t[field] or {}) do
      if not k.vary[name] then
        fail(level + 1, "%s: %s has no base value '%s' (has %s)", where, k.name,
          tostring(name), table.concat(k.names, ", "))
      end
      lists[name] = read(v, k.vary[name][1], k, where .. ", " .. name, level + 1)
    end
  end
  return lists
end

return base
