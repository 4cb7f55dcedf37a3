-- SPDX-License-Identifier: MIT
-- Which joists a row of a survey speaks of: a mark, a list, a run from one to another, or
-- all of them; and what its distances are measured from.
local joists = require "netsection.survey.joists"
local sheet = require "netsection.survey.sheet"
local units = require "netsection.units"
local words = require "netsection.survey.words"

local marks = {}

local Marks = {}
Marks.__index = Marks

-- @param list joists of the survey
function marks.of(list)
  local self = setmetatable({list = list, at = {}, by_key = {}, names = {}}, Marks)
  for i, j in ipairs(list) do
    self.at[j.mark] = self.at[j.mark] or i
    local key = j.mark:gsub("[A-Z]", string.lower):gsub("%s", "")
    self.by_key[key] = self.by_key[key] == nil and i or self.by_key[key] and false
    self.names[i] = j.mark
  end
  return self
end

-- Number of the joist with that mark; without case and blanks where only one fits.
function Marks:one(text)
  return self.at[text] or self.by_key[text:gsub("[A-Z]", string.lower):gsub("%s", "")]
    or nil
end

local RUNS = {"^(.-)%s+to%s+(.+)$", "^(.-)%s*%.%.+%s*(.+)$", "^(.-)%s*\u{2013}%s*(.+)$",
  "^(.-)%s*%-%s*(.+)$"}

-- Numbers from one mark to another; or nil and which of the two is not known.
local function run(self, text)
  for _, pattern in ipairs(RUNS) do
    local first, last = text:match(pattern)
    local a, b = first and self:one(first), last and self:one(last)
    if first and (a or b) and not (a and b) then return nil, a and last or first end
    if a and b then
      local all = {}
      for i = math.min(a, b), math.max(a, b) do all[#all + 1] = i end
      return all
    end
  end
end

local function unknown(self, text)
  local near = words.nearest(text, self.names)
  return nil, ("the mark of a joist expected, got %s%s"):format(units.quoted(text),
    near and ("; is %s meant?"):format(sheet.shown(near)) or "")
end

-- Numbers of the joists that a cell names, in the order of the floor where it is a run.
-- @return list, or nil and what was expected
function Marks:read(text)
  local one = self:one(text)
  if one then return {one} end
  if joists.is_for_all(text) then
    local all = {}
    for i = 1, #self.list do all[i] = i end
    return all
  end
  local list, seen = {}, {}
  for item in text:gsub("%s+and%s+", ","):gmatch "[^,;/&\n]+" do
    item = item:gsub("^%s+", ""):gsub("%s+$", "")
    local found, stranger = {self:one(item)}, nil
    if not found[1] then found, stranger = run(self, item) end
    if not found then return unknown(self, stranger or item) end
    for _, i in ipairs(found) do
      if not seen[i] then list[#list + 1] = i end
      seen[i] = true
    end
  end
  if #list == 0 then return unknown(self, text) end
  return list
end

------------------------------------------------------------------------------ distances

local ALONG = {"at", "from", "to"}

-- Turns distances of a row into those of the model: from the center of the left bearing,
-- or, with from_right, of the right one.
-- @param t the part, whose places are changed; @param joist the one measured
function marks.measure(record, t, joist)
  local datum = record.values["measured from"]
  if datum == nil or datum == "left" then return end
  if datum:find "^right" then t.from_right = true end
  if not datum:find "face$" then return end
  local left, right = joists.half_bearings(joist.t)
  local half = datum == "left face" and left or datum == "right face" and right
  if not half then
    record.sheet:fault(record, "measured from", ("the length of that bearing of joist %s "
      .. "is needed to measure from its face"):format(sheet.shown(joist.mark)),
      record.cells["measured from"])
    return
  end
  for _, name in ipairs(ALONG) do
    local x = t[name] ~= nil and units.length(t[name])
    if x then t[name] = x + half end
  end
end

return marks
