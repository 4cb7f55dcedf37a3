-- SPDX-License-Identifier: MIT
-- The parts a joist is described with: cuts and loads. A constructor only checks that
-- its fields are known; their values are read with the joist, so that a message can name
-- the joist and the part.
local fields = require "netsection.fields"

local error = require "netsection.raise".error
local less = require "netsection.point".less
local tostring = require "netsection.point".text
local parts = {}

local ALONG = {"from", "to", "from_right"}

local function list(...)
  local all = {}
  for _, names in ipairs {...} do
    for _, name in ipairs(names) do all[#all + 1] = name end
  end
  return all
end

-- Fields that each part takes; those of cuts stand in fields/cut.lua. 'note' is free text
-- carried to reports.
local FIELDS = {
  point = {"at", "load", "case", "CD", "from_right", "note"},
  line = list(ALONG, {"load", "to_load", "case", "CD", "note"}),
  area = list(ALONG, {"load", "case", "CD", "width", "note"}),
  tub = list(ALONG, {"width", "empty", "water", "people", "under", "note"}),
}
parts.load_kinds, parts.cut_kinds = {}, {}
for kind in pairs(FIELDS) do parts.load_kinds[kind] = true end
for kind in pairs(fields.of) do
  parts.cut_kinds[kind], FIELDS[kind] = true, fields.names(kind)
end

-- Refuses fields the list does not have, at the caller's line.
-- @param what name of the thing for the message; @param level error level, 0: a message
-- without a place in the source
function parts.only(what, t, names, level)
  level = level > 0 and level + 1 or 0
  if type(t) ~= "table" then
    error(("%s: a table of fields expected, got %s"):format(what, type(t)), level)
  end
  local known = {}
  for _, name in ipairs(names) do known[name] = true end
  local unknown = nil
  for name in pairs(t) do
    if not known[name]
      and (unknown == nil or less(tostring(name), tostring(unknown))) then
      unknown = name
    end
  end
  if unknown == nil then return end
  error(("%s: unknown field '%s' (takes %s)"):format(what, tostring(unknown),
    table.concat(names, ", ")), level)
end

local meta = {__name = "netsection.part", __tostring = function(part)
  return (tostring(rawget(part, "kind")):gsub("_", " "))
end}

-- A part of a kind with the fields of a table, which says what it is.
function parts.made(kind, t)
  local part = setmetatable({kind = kind}, meta)
  for name, value in pairs(t) do part[name] = value end
  return part
end

for kind, names in pairs(FIELDS) do
  parts[kind] = function(t)
    parts.only(kind, t, names, 2)
    return parts.made(kind, t)
  end
end

parts.fields = FIELDS

--- A table of data once more, with all tables in it.
function parts.copied(value)
  if type(value) ~= "table" then return value end
  local new = {}
  for key, entry in pairs(value) do new[key] = parts.copied(entry) end
  return new
end

return parts
