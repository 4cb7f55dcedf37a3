-- SPDX-License-Identifier: MIT
-- Rows for what stands in the way. A thing that slopes is taken as the box around it.
local marks = require "netsection.survey.marks"
local units = require "netsection.units"

local obstructions = {}

local PLAIN = {"what", "kind", "side", "at", "from", "to", "bottom", "top", "height", "y",
  "y1", "y2", "diameter", "movable", "class", "trade", "through"}

local function numbers_of(record, name, all)
  local text = record.values[name]
  if text == nil then return nil end
  local numbers, problem = all:read(text)
  if problem and #all.list > 0 then
    record.faulty[name] = true
    record.sheet:fault(record, name, problem, record.cells[name])
  end
  return numbers
end

local function marks_of(numbers, all)
  local list = {}
  for i, n in ipairs(numbers) do list[i] = all.list[n].mark end
  return list
end

local function where(record, t, all)
  local one = numbers_of(record, "joist", all)
  local many = numbers_of(record, "joists", all)
  local bay = numbers_of(record, "bay", all)
  if one and #one == 1 then
    t.joist = all.list[one[1]].mark
  elseif one and not many then
    t.joists = marks_of(one, all)
  end
  if many then t.joists = marks_of(many, all) end
  if bay then t.bay = marks_of(bay, all) end
  return (one or many or bay or {})[1]
end

-- Between its two ends: the least of what is below, the most of what is above.
local function slope(record, t, notes)
  local values = record.values
  local bottom, top = values.bottom_end, values.top_end
  local height = values.height_end
  if bottom == nil and top == nil and height == nil then return end
  local r = values.diameter ~= nil and units.length(values.diameter) / 2 or 0
  local low, high = math.huge, -math.huge
  local function include(name, down, up)
    local h = values[name] ~= nil and units.length(values[name])
    if h then low, high = math.min(low, h - down), math.max(high, h + up) end
  end
  include("bottom", 0, 0)
  include("bottom_end", 0, 0)
  include("top", 0, 0)
  include("top_end", 0, 0)
  include("height", r, r)
  include("height_end", r, r)
  if high > low then
    t.bottom, t.top, t.height = low, high, nil
    if t.diameter ~= nil and t.y ~= nil then
      local y = units.length(t.y)
      t.y, t.y1, t.y2 = nil, y - r, y + r
    end
    t.diameter = nil
    notes[#notes + 1] = ("%s, row %d: sloping, taken as a box from %s to %s above the "
      .. "bottom edge"):format(record.sheet.title, record.row,
      record.sheet.show.size(low), record.sheet.show.size(high))
  end
end

-- @return descriptions, and the record of each
function obstructions.read(s, all, notes)
  local list, records, kept = {}, {}, {}
  for _, record in ipairs(s.rows) do
    local t = {}
    for _, name in ipairs(PLAIN) do t[name] = record.values[name] end
    local first = where(record, t, all)
    slope(record, t, notes)
    if first then marks.measure(record, t, all.list[first]) end
    t.note = record:note()
    list[#list + 1], records[#records + 1], kept[#kept + 1] = t, record,
      record:kept()
  end
  return list, records, kept
end

return obstructions
