-- SPDX-License-Identifier: MIT
-- Kinds of problems that come with the module, found by listing their folder: a file for
-- each kind, and below it a folder for each standard with the kinds whose keys are worked
-- otherwise by it, under the same names. Each is read when it is first asked for.
local folder = require "netsection.folder"
local kind = require "netsection.homework.kind"
local point = require "netsection.point"

local catalog = {}

local MODULE = "netsection.homework.kinds"
local LAST = 1e9              -- place of a kind that has no order
local NAME = "^([%a][%w_]*)%.lua$"

local listed                  -- {[standard or ""] = {[name] = true}}
local known, ours = {}, setmetatable({}, {__mode = "k"})

local function entries(path)
  return folder.entries(path) or {}
end

local function listing()
  if listed then return listed end
  local top = package.searchpath(MODULE .. ".tub", package.path):match "^(.*)[/\\]"
  listed = {[""] = {}}
  for _, file in ipairs(entries(top)) do
    local name = file:match(NAME)
    if name then
      listed[""][name] = true
    elseif folder.kind(top .. "/" .. file) == "folder" then
      listed[file] = {}
      for _, inner in ipairs(entries(top .. "/" .. file)) do
        name = inner:match(NAME)
        if name then listed[file][name] = true end
      end
    end
  end
  return listed
end

local function read(room, name)
  local path = MODULE .. (room ~= "" and "." .. room or "") .. "." .. name
  if not known[path] then
    known[path] = kind.new(require(path), 1, true)
    ours[known[path]] = true
  end
  return known[path]
end

--- Whether a list of standards has one.
function catalog.serves(list, standard)
  for _, name in ipairs(list) do
    if name == standard then return true end
  end
  return false
end

--- The kind of a name for keys by a standard.
-- @return kind, or nil; the standards that a kind of the name serves, nil for none
function catalog.find(name, standard)
  local all = listing()
  if type(name) ~= "string" then return nil end
  if all[standard] and all[standard][name] then return read(standard, name) end
  local base = all[""][name] and read("", name)
  if base and (not base.standards or catalog.serves(base.standards, standard)) then
    return base
  end
  local serves = base and {table.unpack(base.standards)} or {}
  for room, names in pairs(all) do
    if room ~= "" and names[name] then serves[#serves + 1] = room end
  end
  table.sort(serves, point.less)
  return nil, serves[1] and serves
end

--- Names of the kinds whose keys are worked by a standard, in the order in which a course
-- would take them.
function catalog.names(standard)
  local list, order = {}, {}
  for room, names in pairs(listing()) do
    for name in pairs((room == "" or room == standard) and names or {}) do
      local k = catalog.find(name, standard)
      if k and not order[name] then
        list[#list + 1], order[name] = name, k.order or LAST
      end
    end
  end
  table.sort(list, function(a, b)
    if order[a] ~= order[b] then return order[a] < order[b] end
    return point.less(a, b)
  end)
  return list
end

--- Whether a kind is one that came with the module.
function catalog.holds(k)
  return ours[k] == true
end

return catalog
