-- SPDX-License-Identifier: MIT
-- Rule packs and standards: data files in netsection/data/rules and /standards, read as
-- text in an empty environment, checked, and handed to the core once.
local core = require "netsection.core"
local folder = require "netsection.folder"

local packs = {}

-- Packs that are always there.
local FIRST = {rules = "us-irc-2021", standards = "us-nds-2018-asd"}
local loaded = {}

local function file_of(kind, name)
  local module = "netsection.data." .. kind .. "." .. name:gsub("-", "_")
  return package.searchpath(module, package.path)
end

-- The pack as a table, or nil and what is wrong.
local function read(kind, name)
  if type(name) ~= "string" or not name:match "^[%w%-]+$" then
    return nil, ("%s: a name expected, got %s"):format(kind, tostring(name))
  end
  local key = kind .. "/" .. name
  if loaded[key] then return loaded[key] end
  local path = file_of(kind, name)
  if not path then
    return nil, ("%s: '%s' is not on file"):format(kind, name)
  end
  local chunk, problem = loadfile(path, "t", {})
  if not chunk then return nil, problem end
  local ok, pack = pcall(chunk)
  if not ok or type(pack) ~= "table" or pack.name ~= name then
    return nil, ("%s: '%s' is not a pack of that name"):format(kind, name)
  end
  loaded[key] = pack
  return pack
end

-- The pack's data, or nil and a message. @param kind "rules" or "standards"
packs.read = read

-- Names of the packs on file, sorted: those in the folder of the first one on the path.
function packs.names(kind)
  local known = file_of(kind, FIRST[kind])
  local names = {}
  for _, name in ipairs(known and folder.entries(known:match "^(.*)/") or {}) do
    local pack = name:match "^([%w_]+)%.lua$"
    if pack then names[#names + 1] = (pack:gsub("_", "-")) end
  end
  return names
end

-- A pack with the limits for one kind of support, and the core's copy of it.
-- @param name e.g. "us-irc-2021"; @param on "wood" or "masonry"
-- @return {data =, limits =, core =}, or nil and a message
function packs.rules(name, on)
  local pack, problem = read("rules", name)
  if not pack then return nil, problem end
  local key = "rules/" .. name .. "/" .. on
  if not loaded[key] then
    local limits = {}
    for _, limit in ipairs(pack.limits) do
      if limit.on == nil or limit.on == on then limits[#limits + 1] = limit end
    end
    loaded[key] = {data = pack, limits = limits, core = core.rules {
      covers = pack.covers, covers_hogging = pack.covers_hogging, limits = limits}}
  end
  return loaded[key]
end

-- @param name e.g. "us-nds-2018-asd"
-- @return {data =, core =}, or nil and a message
function packs.standard(name)
  local pack, problem = read("standards", name)
  if not pack then return nil, problem end
  local key = "standard/" .. name
  if not loaded[key] then
    loaded[key] = {data = pack, core = core.standard(pack)}
  end
  return loaded[key]
end

return packs
