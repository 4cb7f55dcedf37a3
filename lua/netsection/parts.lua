-- SPDX-License-Identifier: MIT
-- The parts a joist is described with: cuts and loads. A constructor only checks that
-- its fields are known; their values are read with the joist, so that a message can name
-- the joist and the part.
local error = require "netsection.raise".error
local parts = {}

local ALONG = {"from", "to", "from_right"}
local OPENING = {"below", "above"}

local function list(...)
  local all = {}
  for _, names in ipairs {...} do
    for _, name in ipairs(names) do all[#all + 1] = name end
  end
  return all
end

-- Fields that each part takes; 'note' is free text carried to reports.
local FIELDS = {
  hole = list({"at", "diameter", "angle", "from_right", "ply", "note"}, OPENING),
  slot = list(ALONG, OPENING, {"height", "ply", "note"}),
  notch = list(ALONG, {"face", "depth", "overcut", "taper", "corner_radius",
    "split_length", "accept_outside_standard", "ply", "note"}),
  end_notch = {"support", "face", "depth", "length", "overcut", "taper",
    "corner_radius", "split_length", "accept_outside_standard", "seat", "ply",
    "note"},
  sever = list(ALONG, {"at", "ply", "note"}),
  lost_bearing = {"support", "to", "cause", "extend", "note"},
  loss = list(ALONG, {"top", "bottom", "sides", "cause", "allowance",
    "seat", "packed", "seat_tolerance", "ply", "note"}),
  split = list(ALONG, {"at_depth", "ply", "note"}),
  point = {"at", "load", "case", "from_right", "note"},
  line = list(ALONG, {"load", "to_load", "case", "note"}),
  area = list(ALONG, {"load", "case", "width", "note"}),
  tub = list(ALONG, {"width", "empty", "water", "people", "under", "note"}),
}

-- Refuses fields the list does not have, at the caller's line.
-- @param what name of the thing for the message; @param level error level
function parts.only(what, t, names, level)
  if type(t) ~= "table" then
    error(("%s: a table of fields expected, got %s"):format(what, type(t)), level + 1)
  end
  local known = {}
  for _, name in ipairs(names) do known[name] = true end
  for name in pairs(t) do
    if not known[name] then
      error(("%s: unknown field '%s' (takes %s)"):format(what, tostring(name),
        table.concat(names, ", ")), level + 1)
    end
  end
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

parts.cut_kinds = {hole = true, slot = true, notch = true, end_notch = true,
  sever = true, lost_bearing = true, loss = true, split = true}
parts.load_kinds = {point = true, line = true, area = true, tub = true}
parts.fields = FIELDS

return parts
