-- SPDX-License-Identifier: MIT
-- What is on file for fasteners: sizes, steel, gauges, specific gravities, distances; and
-- how the functions of this group read their arguments. A fault found here becomes an
-- error at the line that called the public function.
local lane = require "netsection.lane"
local ordered = require "netsection.point".pairs
local point = require "netsection.point"
local standards = require "netsection.standards"
local units = require "netsection.units"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local data = {}

local DATA = ("netsection.standards.%s.fasteners."):format(standards.default.fasteners)

-- A data file is text, runs in an empty environment and is read once.
local function read(name)
  local path = assert(package.searchpath(DATA .. name, package.path))
  return assert(loadfile(path, "t", {}))()
end

for _, name in ipairs {"sizes", "wood", "steel", "rules"} do data[name] = read(name) end

------------------------------------------------------------------------------- faults

local FAULT = {}

-- Raises what `public` turns into an error at the caller's line.
function data.fail(message, ...)
  error(setmetatable({text = point.format(message, ...)}, FAULT), 0)
end

-- The function as users see it: faults name their line. Other errors pass as they are,
-- those of the core, which have no line, get the caller's.
function data.public(f)
  return function(...)
    local results = table.pack(pcall(f, ...))
    if results[1] then return table.unpack(results, 2, results.n) end
    local problem = results[2]
    if getmetatable(problem) == FAULT then error(problem.text, 2) end
    local bare = type(problem) == "string" and problem:find "^[%a_]+[%.:] "
    error(problem, bare and 2 or 0)
  end
end

local fail = data.fail

---------------------------------------------------------------------------- arguments

-- Refuses what is not a table of these fields.
function data.only(what, t, names)
  if type(t) ~= "table" then
    fail("%s: a table of fields expected, got %s", what, type(t))
  end
  local known = {}
  for _, name in ipairs(names) do known[name] = true end
  for name in ordered(t) do
    if not known[name] then
      fail("%s: unknown field '%s' (takes %s)", what, tostring(name),
        table.concat(names, ", "))
    end
  end
end

-- A length above 0 in any form of units.length; nil stays nil unless `needed`.
function data.length(what, v, needed)
  if v == nil then
    if needed then fail("%s: missing, a length is needed", what) end
    return nil
  end
  local x, problem = units.length(lane.same(v))
  if not x then fail("%s: %s", what, problem) end
  if x <= 0 then fail("%s: a length above 0 expected, got %s", what, tostring(v)) end
  return x
end

-- A number from low to high; nil gives `otherwise`, or a fault where that is nil too.
function data.number(what, v, low, high, otherwise)
  if v == nil and otherwise ~= nil then return otherwise end
  v = lane.same(v)
  if type(v) ~= "number" or not (v >= low and v <= high) then
    fail("%s: a number from %g to %g expected, got %s", what, low, high, tostring(v))
  end
  return v
end

-- One of the words; nil gives `otherwise`.
function data.word(what, v, words, otherwise)
  if v == nil then return otherwise end
  for _, word in ipairs(words) do
    if v == word then return v end
  end
  fail("%s: one of %s expected, got %s", what, table.concat(words, ", "), tostring(v))
end

-- A force in lb above 0, by units.load.
function data.force(what, v)
  local x, problem = units.load(v, "point")
  if not x then fail("%s: %s", what, problem) end
  if x <= 0 then fail("%s: a force above 0 expected, got %s", what, tostring(v)) end
  return x
end

-------------------------------------------------------------------------------- lookups

local function plain(text)
  return (text:lower():gsub("[^%w]", ""))
end

-- Specific gravity of a species. Raises where it is not on file.
-- @return G, the name as filed, the confidence
function data.G(species)
  if type(species) ~= "string" then
    fail("species: a name expected, got %s", tostring(species))
  end
  local names, wanted = {}, plain(species)
  for i, row in ipairs(data.wood.species) do
    names[i] = row[1]
    if plain(row[1]) == wanted then return row.G, row[1], data.wood.confidence end
    for _, alias in ipairs(row.aliases or {}) do
      if plain(alias) == wanted then return row.G, row[1], data.wood.confidence end
    end
  end
  fail('species "%s" is not on file; on file: %s; or give G', species,
    table.concat(names, ", "))
end

-- The record of a steel grade, by the name of the standard and the grade: "A653 33".
function data.grade(what, name)
  local names = {}
  for i, row in ipairs(data.steel.grades) do
    names[i] = row[1]
    if type(name) == "string" and plain(row[1]) == plain(name) then return row end
  end
  fail('%s: "%s" is not on file; on file: %s', what, tostring(name),
    table.concat(names, ", "))
end

-- The record of a gauge: {table =, design =, confidence =}.
function data.gauge(what, gauge)
  local names = {}
  for i, row in ipairs(data.steel.gauges) do
    names[i] = row[1]
    if row[1] == gauge then return row end
  end
  fail("%s: gauge %s is not on file; on file: %s; or give the thickness", what,
    tostring(gauge), table.concat(names, ", "))
end

-- The first row whose `to` the diameter does not pass, or nil.
function data.bending(kind, D)
  local rows = data.sizes.bending[kind]
  if D < rows.from - 1e-9 then return nil end
  for _, row in ipairs(rows) do
    if D <= row.to + 1e-9 then return row, rows.source end
  end
end

function data.listed(list, value)
  for _, item in ipairs(list or {}) do
    if item == value then return true end
  end
  return false
end

return data
