-- SPDX-License-Identifier: MIT
-- Rows for repairs, one to a joist.
local along = require "netsection.survey.along"
local fix = require "netsection.fix"
local point = require "netsection.point"

local fixes = {}

local ALWAYS = {joist = true, kind = true, photo = true, note = true}

local function takes(kind)
  local fields, names = {}, {}
  for _, name in ipairs(fix.fields(kind)) do
    fields[name] = true
    if name ~= "note" then names[#names + 1] = name end
  end
  table.sort(names, point.less)
  return fields, table.concat(names, ", ")
end

local function description(record, kind)
  local fields, names = takes(kind)
  local t = {kind = kind, note = record:note()}
  for name, text in pairs(record.cells) do
    if fields[name] and name ~= "note" then
      t[name] = record.values[name]
    elseif not ALWAYS[name] then
      record.sheet:fault(record, name, ("does not go with a %s, which takes %s"):format(
        along.spoken(kind), names), text)
    end
  end
  -- A column of places holds a list; most repairs have one place.
  if kind ~= "header" and type(t.at) == "table" and #t.at == 1 then t.at = t.at[1] end
  return t
end

local function read_one(record, all, taken)
  local numbers, problem
  if record.values.joist then numbers, problem = all:read(record.values.joist) end
  if problem and #all.list > 0 then
    record.sheet:fault(record, "joist", problem, record.cells.joist)
  end
  local t = record.values.kind and description(record, record.values.kind[1])
  local list = {}
  for _, i in ipairs(t and numbers or {}) do
    if taken[i] then
      record.sheet:fault(record, "joist", ("joist %s has a repair in row %d already")
        :format(along.shown(all.list[i].mark), taken[i].row), record.cells.joist)
    else
      taken[i] = record
      list[#list + 1] = {number = i, fix = t, record = record}
    end
  end
  return list
end

-- @return list of {number = of the joist, fix = description, record =}
function fixes.read(s, all)
  local out, taken = {}, {}
  for _, record in ipairs(s.rows) do
    for _, item in ipairs(read_one(record, all, taken)) do out[#out + 1] = item end
  end
  return out
end

return fixes
