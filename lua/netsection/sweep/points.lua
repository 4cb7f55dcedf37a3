-- SPDX-License-Identifier: MIT
-- Points of a sweep that are listed: values of several fields that go together, such as
-- random samples or a cut at a third of each span. All of them are one axis, "point". A
-- field may be a function of a point's own fields; it is read once for each point.
local core = require "netsection.core"
local csv = require "netsection.csv"
local file = require "netsection.file"
local point = require "netsection.point"
local tostring = require "netsection.point".text

local points = {}

points.name = "point"

local MOST_POINTS, MOST_COLUMNS = 1 << 24, 32

-- A table of a file: its first row names the fields; a cell that is a number is one.
local function from_file(path)
  local text, why = file.read(path)
  if not text then return nil, why end
  local rows, found = csv.read(text)
  if not rows then
    return nil, ("%s: row %d: %s"):format(path, found[1].row, found[1].message)
  end
  return rows
end

local function columns_of_file(path)
  local rows, why = from_file(path)
  if not rows then return nil, why end
  local head = rows[1]
  if not head or #rows < 2 then
    return nil, path .. ": names of fields and a row of values expected"
  end
  local out = {}
  for k, name in ipairs(head) do
    if name == "" or out[name] then
      return nil, ("%s: column %d: a name of its own expected"):format(path, k)
    end
    local list = {}
    for i = 2, #rows do
      local cell = rows[i][k]
      if cell == nil or not cell:find "%S" then
        return nil, ("%s: row %d: %s: a value expected"):format(path, rows[i].row, name)
      end
      list[i - 1] = tonumber(cell) or cell
    end
    out[name] = list
  end
  return out
end

local function checked(name, list, count)
  if type(list) ~= "table" or #list == 0 then
    return nil, ("points.%s: a list of values, or a function of a point, expected")
      :format(name)
  elseif count and #list ~= count then
    return nil, ("points.%s: %d values, but %d of the fields before it"):format(name,
      #list, count)
  end
  for i, v in ipairs(list) do
    if v ~= v or type(v) == "number" and math.abs(v) == math.huge then
      return nil, ("points.%s: value %d: a finite number expected, got %s"):format(name,
        i, tostring(v))
    end
  end
  return #list
end

-- Names in order.
local function names_of(t)
  local names = {}
  for name in pairs(t) do
    if type(name) ~= "string" then return nil end
    names[#names + 1] = name
  end
  table.sort(names, point.less)
  return names
end

-- @param t {name = list or function} or the path of a CSV file
-- @param over axes of the same sweep, whose names are taken
-- @return {count =, lists = {{name =, values =}, ...}, functions = {{name =, f =}, ...}},
--   or nil and what is wrong
function points.read(t, over)
  local why
  if type(t) == "string" then
    t, why = columns_of_file(t)
    if not t then return nil, "points: " .. why end
  end
  local names = type(t) == "table" and names_of(t)
  if not names or #names == 0 or #names > MOST_COLUMNS then
    return nil, ("points: a table of 1 to %d columns by field expected, e.g. {span = "
      .. "{144, 162}, [\"cuts.1.at\"] = {48, 54}}, or the path of a CSV file"):format(
      MOST_COLUMNS)
  end
  local out = {lists = {}, functions = {}}
  for _, name in ipairs(names) do
    if over[name] ~= nil or name == points.name then
      return nil, ("points.%s: an axis of over has that name"):format(name)
    elseif type(t[name]) == "function" then
      out.functions[#out.functions + 1] = {name = name, f = t[name]}
    else
      local count, wrong = checked(name, t[name], out.count)
      if not count then return nil, wrong end
      out.count = count
      out.lists[#out.lists + 1] = {name = name, values = t[name]}
    end
  end
  if out.count and out.count > MOST_POINTS then
    return nil, ("points: at most %d of them"):format(MOST_POINTS)
  end
  return out
end

-- Numbers of a column as the core takes them; false where one makes a joist of its own,
-- nil and what is wrong.
function points.numbers(list, read)
  local known = {}
  for i, value in ipairs(list.values) do
    if type(value) == "table" then return false end
    local v, why = read(value)
    if v == false then return false end
    if not v then return nil, ("points.%s: value %d: %s"):format(list.name, i, why) end
    known[i] = v
  end
  return core.numbers(known)
end

return points
