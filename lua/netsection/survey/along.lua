-- SPDX-License-Identifier: MIT
-- Rows for cuts and loads: each becomes a part of the joists that it names. A cell that
-- does not go with the row's kind is a fault, since a value in the wrong column is more
-- often a slip than a remark.
local cell = require "netsection.survey.cell"
local marks = require "netsection.survey.marks"
local parts = require "netsection.parts"
local sheet = require "netsection.survey.sheet"
local units = require "netsection.units"

local along = {}

-- Columns that any row may have.
local ALWAYS = {joist = true, kind = true, photo = true, note = true}

local function spoken(kind)
  return (kind:gsub("_", " "))
end
along.spoken = spoken

local function takes(kind)
  local fields = {}
  for _, name in ipairs(parts.fields[kind]) do fields[name] = true end
  return fields
end

local function listed(kind, extra)
  local names = {}
  for _, name in ipairs(parts.fields[kind]) do
    if name ~= "note" and name ~= "from_right" then names[#names + 1] = name end
  end
  table.move(extra, 1, #extra, #names + 1, names)
  return table.concat(names, ", ")
end

-- A cut with from and to may be given by its length too.
local function by_length(fields)
  return fields.from and not fields.length
end

local function middle_and_length(record, t, kind)
  local fields, values = takes(kind), record.values
  if not by_length(fields) or values.length == nil then return end
  local long = units.length(values.length)
  if values.at ~= nil and values.from == nil and values.to == nil then
    local at = units.length(values.at)
    t.at, t.from, t.to = nil, at - long / 2, at + long / 2
  elseif values.from ~= nil and values.to == nil then
    t.from, t.to = values.from, units.length(values.from) + long
  else
    record.sheet:fault(record, "length", "goes with at, or with from without to")
  end
end

-- Fields of a part from the row's cells.
local function fields_of(record, kind, extra)
  local fields, t = takes(kind), {kind = kind}
  for name, text in pairs(record.cells) do
    local value = record.values[name]
    local column = name == "measured from" and fields.from_right
      or by_length(fields) and (name == "length" or name == "at" and not fields.at)
    if fields[name] and name ~= "note" then
      t[name] = value
    elseif not ALWAYS[name] and not column then
      record.faulty[name] = true
      record.sheet:fault(record, name, ("does not go with a %s, which takes %s")
        :format(spoken(kind), listed(kind, extra)), text)
    end
  end
  return t
end

-- What the word for the kind says besides: a top notch, rot.
local function implied(record, t, word)
  for name, value in pairs(word) do
    if math.type(name) == nil then
      if t[name] ~= nil and t[name] ~= value then
        record.sheet:fault(record, name, ("the kind says %s"):format(value),
          record.cells[name])
      end
      t[name] = value
    end
  end
end

local function typed_load(record, t, kind)
  local text = record.values.load
  if text == nil or t.load == nil then return end
  local column = record.sheet.by_index[record.sheet.at.load]
  local value, problem = cell.of_kind(text, record.sheet:context(column), kind)
  if value == nil then
    record.faulty.load = true
    record.sheet:fault(record, "load", problem, text)
  end
  t.load = value
end

local function copy(t)
  local new = {}
  for name, value in pairs(t) do new[name] = value end
  return new
end

-- @param list "cuts" or "loads"; adds to the joists' descriptions and, in 'where', the
--   record of each part
local function read_one(record, list, all)
  local word = record.values.kind
  local numbers, problem
  if record.values.joist then numbers, problem = all:read(record.values.joist) end
  if problem and #all.list > 0 then
    record.sheet:fault(record, "joist", problem, record.cells.joist)
  end
  if not word then return end
  local kind = word[1]
  local t = fields_of(record, kind, list == "cuts" and by_length(takes(kind))
    and {"length"} or {})
  typed_load(record, t, kind)
  implied(record, t, word)
  middle_and_length(record, t, kind)
  t.note = record:note()
  for _, i in ipairs(numbers or {}) do
    local joist, part = all.list[i], copy(t)
    marks.measure(record, part, joist)
    local n = #joist.t[list] + 1
    joist.t[list][n], joist.t.survey[list][n] = part, record:kept()
    joist.where[list][n] = record
  end
end

-- @param s the sheet; @param list "cuts" or "loads"; @param all marks of the joists
function along.read(s, list, all)
  for _, record in ipairs(s.rows) do read_one(record, list, all) end
end

along.shown = sheet.shown

return along
