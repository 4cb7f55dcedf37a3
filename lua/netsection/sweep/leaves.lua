-- SPDX-License-Identifier: MIT
-- Values of a list that are tables alike but for numbers in them: groups of a sister,
-- cuts, loads. The numbers are columns, and the tables few, so that thousands of joists
-- are read at once (see joined.lua).
local core = require "netsection.core"
local point = require "netsection.point"
local tostring = require "netsection.point".text

local leaves = {}

-- Numbers in a table, and tables in tables, at most; a value that has more is one kind.
local MOST, DEEPEST = 48, 4

-- Keys of a table in one order.
local function keys_of(t)
  local keys = {}
  for key in pairs(t) do keys[#keys + 1] = key end
  table.sort(keys, function(a, b)
    if type(a) == type(b) and type(a) == "number" then return a < b end
    return point.less(tostring(a), tostring(b))
  end)
  return keys
end

-- Puts what a value is, but for its numbers, behind 'words', and these behind 'numbers'.
-- @return false where it holds what cannot be told apart by words
local function take_apart(value, words, numbers, depth)
  if type(value) == "number" then
    numbers[#numbers + 1] = value
    words[#words + 1] = "#"
  elseif type(value) == "table" then
    if depth > DEEPEST or #numbers > MOST then return false end
    local meta = getmetatable(value)
    words[#words + 1] = ("{%s "):format(meta and tostring(meta) or "")
    for _, key in ipairs(keys_of(value)) do
      if type(key) ~= "string" and type(key) ~= "number" then return false end
      words[#words + 1] = ("%s %s="):format(type(key), tostring(key))
      if not take_apart(value[key], words, numbers, depth + 1) then return false end
    end
    words[#words + 1] = "}"
  elseif type(value) == "string" or type(value) == "boolean" then
    words[#words + 1] = ("%s %d:%s "):format(type(value), #tostring(value),
      tostring(value))
  else
    return false
  end
  return true
end

-- A table with the numbers of a list in place of its own.
local function put_together(value, numbers, at)
  if type(value) == "number" then return numbers[at], at + 1 end
  if type(value) ~= "table" then return value, at end
  local out = {}
  for _, key in ipairs(keys_of(value)) do
    out[key], at = put_together(value[key], numbers, at)
  end
  return setmetatable(out, getmetatable(value)), at
end

--- The name of the column of a list's n-th number.
function leaves.name(list, n)
  return ("%s\0%d"):format(list.name, n)
end

--- Kinds of the values of a list, and their numbers.
-- @return kinds = one value of each, codes = number of the kind of each value, columns of
--   numbers, or nil where a value is no such table
function leaves.of(list)
  local number_of, kinds, codes, columns = {}, {}, {}, {}
  for i, value in ipairs(list.values) do
    local words, numbers = {}, {}
    if type(value) ~= "table" or not take_apart(value, words, numbers, 1) then
      return nil
    end
    local key = table.concat(words)
    if not number_of[key] then
      kinds[#kinds + 1] = value
      number_of[key] = #kinds
    end
    codes[i] = number_of[key]
    for n, x in ipairs(numbers) do
      columns[n] = columns[n] or {}
      columns[n][i] = x
    end
  end
  for n, column in ipairs(columns) do
    for i in ipairs(list.values) do column[i] = column[i] or 0 end
    columns[n] = core.numbers(column)
  end
  return kinds, core.numbers(codes), columns
end

--- Takes the numbers of a list out of changes, where they stand by their names, and puts
-- them into the table that stands there for their kind.
function leaves.fill(list, changes)
  local numbers = {}
  for n in ipairs(list.leaves) do
    local name = leaves.name(list, n)
    numbers[n], changes[name] = changes[name], nil
  end
  changes[list.name] = put_together(changes[list.name], numbers, 1)
end

return leaves
