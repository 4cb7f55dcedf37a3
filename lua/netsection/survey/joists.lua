-- SPDX-License-Identifier: MIT
-- The joists of a survey: what a row says itself, what it takes from the row for all, and
-- what follows from measures - least depth, spacing from places along the wall, span from
-- the clear distance.
local fields = require "netsection.fields"
local lumber = require "netsection.lumber"
local point = require "netsection.point"
local units = require "netsection.units"
local words = require "netsection.survey.words"

local joists = {}

local ALL = {all = true, [""] = true, default = true, defaults = true, every = true}

local function is_for_all(mark)
  return ALL[words.key(mark)] and (mark:find "%a" or mark:find "^%*+$") and true or false
end
joists.is_for_all = is_for_all

-- Columns of which a row that has one takes none of the others from the row for all.
local TOGETHER = {{"span", "clear span", "spans"},
  {"spacing", "spacing_left", "spacing_right"},
  {"bearing", "bearing_left", "bearing_right"}}
local group_of = {}
for _, group in ipairs(TOGETHER) do
  for _, name in ipairs(group) do group_of[name] = group end
end

local STRESSES = {"fb", "ft", "fv", "fc_perp", "fc", "e", "emin", "cf", "g"}

-- Where the columns of a field of the description are, for problems found later.
local COLUMNS = {d = {"d1", "d2", "d3", "size"}, b = {"b", "size"},
  span = {"span", "clear span"}, spacing = {"spacing", "spacing_left", "spacing_right",
  "x"}, bearing = {"bearing", "bearing_left", "bearing_right"},
  ["judgment.action"] = {"judgment"}, ["judgment.by"] = {"judgment_by"},
  ["judgment.reason"] = {"judgment_reason"}, ["shores.at"] = {"shores_at"},
  ["shores.construction_live"] = {"construction_live"},
  ["limits.live"] = {"limit_live"}, ["limits.total"] = {"limit_total"},
  species = {"species", "grade", "size"}}
for _, name in ipairs(STRESSES) do
  COLUMNS["material." .. name:gsub("^%l", string.upper)] = {name}
end
COLUMNS["material.Fc_perp"], COLUMNS["material.CF"] = {"fc_perp"}, {"cf"}
joists.columns_of = COLUMNS

local Joist = {}
Joist.__index = Joist

local function has_any(record, names)
  for _, name in ipairs(names) do
    if record.cells[name] then return true end
  end
  return false
end

-- The value of a column, and the record it stands in.
function Joist:get(name)
  if self.record.values[name] ~= nil then return self.record.values[name], self.record end
  if self.record.cells[name] then return nil, self.record end
  local group = group_of[name]
  if group and has_any(self.record, group) then return nil, self.record end
  local all = self.all[name]
  if all then return all.values[name], all end
  return nil, self.record
end

function Joist:inches(name)
  local value, record = self:get(name)
  if value == nil then return nil, record end
  return (units.length(value)), record
end

function Joist:fault(name, message)
  local _, record = self:get(name)
  record.sheet:fault(record, name, message, record.cells[name])
end

-- What was made of an entry: said with the survey, and among the joist's assumptions.
local function note(self, message, ...)
  local said = point.format(message, ...)
  self.notes[#self.notes + 1] = ("joist %s: %s"):format(self.shown, said)
  self.assumed[#self.assumed + 1] = said
end

------------------------------------------------------------------------- what is derived

local function least_depth(self, record)
  local least, value, count = math.huge, nil, 0
  for _, name in ipairs {"d1", "d2", "d3"} do
    local d = record.values[name]
    if d ~= nil then
      count = count + 1
      local inches = units.length(d)
      if inches < least then least, value = inches, d end
    end
  end
  if count > 1 then
    note(self, "depth measured at %d places, the least of them taken, %s", count,
      record.sheet.show.size(least))
  end
  return value
end

-- Measured sizes stand before the nominal one, which gives what was not measured.
local function section(self, t)
  local record = self.record
  local size = self:get "size"
  local own = has_any(record, {"b", "d1", "d2", "d3"})
  local all = self.all.d1 or self.all.d2 or self.all.d3 or self.all.b
  local d = own and least_depth(self, record) or nil
  local b = record.values.b
  if not own and not record.cells.size and all then
    d, b = least_depth(self, all), all.values.b
  elseif record.cells.size and not own then
    d, b = nil, nil
  end
  if d == nil and b == nil then
    t.size = size
    return
  end
  local nominal = size ~= nil and lumber.size(size)
  if size ~= nil and not nominal then
    t.size = size -- whose problem is told by the model
    return
  end
  t.b = b or nominal and nominal.b or self.all.b and self.all.b.values.b
  t.d = d or nominal and nominal.d
  if nominal then
    local show = self.record.sheet.show
    note(self, "measured %s x %s taken instead of %s", show.size(units.length(t.b)),
      show.size(units.length(t.d)), size)
  end
end

local function material(self, t)
  local record = self.record
  local own_values = has_any(record, STRESSES)
  local own_wood = record.cells.species or record.cells.grade
  if record.cells.historic then own_wood = true end
  t.historic = self:get "historic"
  local values = {}
  for _, name in ipairs(STRESSES) do
    local value = (own_values or not own_wood) and self:get(name) or nil
    if value ~= nil then
      local column = self.record.sheet.by_name[name]
      values[column.field] = value
    end
  end
  if next(values) ~= nil then
    values.source = self:get "values from"
    t.material = values
  elseif not record.cells.historic then
    t.species, t.grade = self:get "species", self:get "grade"
    if own_wood then t.historic = nil end
  end
end

local function bearings(self, t)
  local left, right = self:get "bearing_left", self:get "bearing_right"
  local both = self:get "bearing"
  if left == nil and right == nil then
    t.bearing = both
    return
  end
  left, right = left or both, right or both
  if left == nil or right == nil then
    local lacking = left == nil and "bearing_left" or "bearing_right"
    if not self.record.faulty[lacking] then
      self:fault(lacking, "missing: both bearings, or one length for both")
    end
    return
  end
  t.bearing = {left, right}
end

-- Half the lengths of both outer bearings, in; nil where they are not given.
local function half_bearings(t)
  local given = t.bearing
  if given == nil then return nil end
  local left = type(given) == "table" and given[1] or given
  local right = type(given) == "table" and given[#given] or given
  local l, r = units.length(left), units.length(right)
  return l and l / 2, r and r / 2
end
joists.half_bearings = half_bearings

local function span(self, t)
  t.span = self:get "span"
  local clear = self:inches "clear span"
  if clear == nil then return end
  if t.span ~= nil then
    self:fault("clear span", "give span or clear span, not both")
    return
  end
  local left, right = half_bearings(t)
  if not left or not right then
    self:fault("clear span", "the bearings' lengths are needed to get from face to "
      .. "face to center to center")
    return
  end
  t.span = clear + left + right
  local show = self.record.sheet.show
  note(self, "span %s: clear %s and half of each bearing", show.place(t.span),
    show.place(clear))
end

local function limits(self, t)
  local live, total = self:get "limit_live", self:get "limit_total"
  if live ~= nil or total ~= nil then t.limits = {live = live, total = total} end
end

local function judgment(self, t)
  local action, by = self:get "judgment", self:get "judgment_by"
  local reason = self:get "judgment_reason"
  if action ~= nil or by ~= nil or reason ~= nil then
    t.judgment = {action = action, by = by, reason = reason}
  end
end

local function shored(self, t)
  local live, at = self:get "construction_live", self:get "shores_at"
  if live ~= nil or at ~= nil then t.shores = {construction_live = live, at = at} end
end

local function spacing(self, t)
  local left, right = self:get "spacing_left", self:get "spacing_right"
  local one = self:get "spacing"
  if left ~= nil or right ~= nil then
    t.spacing = {left or one or right, right or one or left}
  elseif one ~= nil then
    t.spacing = one
  end
end

-------------------------------------------------------------------------- places in a row

-- Spacings from places along the wall: those of both neighbors; at the ends the one.
local function from_places(list)
  local at = {}
  for i, self in ipairs(list) do at[i] = self.record.cells.x and self:inches "x" end
  for i, self in ipairs(list) do
    local x, before, after = at[i], at[i - 1], at[i + 1]
    if x and before and x <= before then
      self:fault("x", "places along the wall must grow from row to row, as the joists "
        .. "stand from left to right")
    elseif x and not has_any(self.record, {"spacing", "spacing_left", "spacing_right"})
      and (before or after) then
      local left = before and x - before or after - x
      local right = after and after - x or left
      if left > 0 and right > 0 then self.t.spacing = {left, right} end
      if not (before and after) then
        note(self, "spacing from its one neighbor, %s", self.record.sheet.show.size(left))
      end
    end
  end
end

------------------------------------------------------------------------------- the whole

local function read_one(self)
  local t = {mark = self.mark, note = self.record:note()}
  for _, row in ipairs(fields.joist) do
    if fields.plain(row) then t[row.name] = self:get(row.name) end
  end
  section(self, t)
  material(self, t)
  bearings(self, t)
  span(self, t)
  limits(self, t)
  spacing(self, t)
  judgment(self, t)
  shored(self, t)
  t.cuts, t.loads, t.survey = {}, {}, self.record:kept()
  t.survey.cuts, t.survey.loads, t.survey.assumed = {}, {}, self.assumed
  self.t = t
end

-- Rows for all, as one: where each column's value stands. Two that differ are a fault.
local function shared_rows(records)
  local all = {}
  for _, record in ipairs(records) do
    for name, text in pairs(record.cells) do
      local before = all[name]
      if name == "mark" then
        before = nil
      elseif before and before.cells[name] ~= text then
        record.sheet:fault(record, name, ("row %d for all joists has another value")
          :format(before.row), text)
      end
      all[name] = before or record
    end
  end
  return all
end

--- Joists of the sheet, in the order of its rows.
-- @param columns the list of columns.lua
-- @return list of {mark =, t = description, record =, all =}, list of notes
function joists.read(sheet, columns)
  sheet.by_name = {}
  for _, column in ipairs(columns) do sheet.by_name[column.name] = column end
  local shared, own, notes, list = {}, {}, {}, {}
  for _, record in ipairs(sheet.rows) do
    local mark = record.values.mark
    if mark and is_for_all(mark) then
      shared[#shared + 1] = record
    elseif mark then
      own[#own + 1] = record
    end
  end
  local all = shared_rows(shared)
  for i, record in ipairs(own) do
    local self = setmetatable({record = record, all = all, mark = record.values.mark,
      notes = notes, assumed = {}}, Joist)
    self.shown = units.quoted(self.mark):sub(2, -2)
    read_one(self)
    list[i] = self
  end
  from_places(list)
  return list, notes
end

return joists
