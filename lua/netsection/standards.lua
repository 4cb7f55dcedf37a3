-- SPDX-License-Identifier: MIT
-- Standards as folders. A folder holds the data of one standard and of its words; each
-- of its files format_<name>.lua makes one standard of it, <folder>-<name>, and
-- format.lua one of the folder's own name. Found by listing; no data of a folder is run.
--
--   standard.lua      family of formulas, limits on notches, texts of the gates; or
--                     base_folder, the folder that has what this one lacks: an annex
--   format_*.lua      name, title, combinations, factors (those of a base stay)
--   checks.lua        a row for each check: unit, clause, letter
--   steps_*.lua       lines of a calculation, by mode and branch
--   lines.lua         lines that they share
--   clauses.lua       where a rule stands that a message names
--   basis.lua         forms of formulas that are known otherwise than read: see basis.lua
--   lumber.lua        reference design values by species and grade
--   classes.lua       characteristic values by strength class
--   fasteners/        kinds, sizes, distances, factors of connections, steel
--   framing.lua       what is prescribed for openings in a floor
--   scatter.lua       how loads and strength scatter, for odds
--   members.lua       what is prescribed for members below the joists
local data = require "netsection.data_file"
local folder = require "netsection.folder"
local point = require "netsection.point"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local standards = {}

local DEFAULT = assert(package.searchpath("netsection.standards.default", package.path))
local HOME = DEFAULT:match "^(.*)/"

-- What the standards' own files hold: formats and annexes of a folder share most of them.
local kept = {}

local function read(path)
  if kept[path] then return kept[path] end
  local t, why = data.read(path)
  if not t then error(why, 0) end
  if path:sub(1, #HOME) == HOME then kept[path] = t end
  return t
end

--- The folder that holds the standards' own.
standards.home = HOME
--- Names that stand where none is given: {standards =, rules =, lumber =,
-- fasteners =}.
standards.default = read(DEFAULT)

local PARTS = {"checks", "lines", "clauses", "framing", "members", "scatter",
  "basis"}

-- The words of a folder; what it lacks it has from the folder of its base.
local function parts_of(path, base)
  local out, steps = {}, {}
  local files = {}
  for _, file in ipairs(folder.entries(path) or {}) do files[file] = true end
  for _, part in ipairs(PARTS) do
    out[part] = files[part .. ".lua"] and read(path .. "/" .. part .. ".lua")
      or base and base[part]
  end
  for _, file in ipairs(folder.entries(path) or {}) do
    if file:find "^steps_[%w_]+%.lua$" then
      for mode, branches in pairs(read(path .. "/" .. file)) do
        if steps[mode] then
          error(("%s: steps of '%s' stand in another file"):format(file, mode), 0)
        end
        steps[mode] = branches
      end
    end
  end
  out.steps = next(steps) and steps or base and base.steps
  return out
end

-- The file of a format, whose name is "" where it has none.
local function format_file(format)
  return format == "" and "format.lua" or ("format_%s.lua"):format(format)
end

-- A number over that of a base: without a value it says anew how that one is known.
local function confirmed(base, over)
  if type(base) ~= "table" or type(over) ~= "table" or over.value ~= nil then
    return over
  end
  local new = {}
  for field, value in pairs(base) do new[field] = value end
  for field, value in pairs(over) do new[field] = value end
  return new
end

-- A map of factors over that of a base, entry by entry.
local function joined_map(base, over)
  local out = {}
  for name, entry in pairs(base) do out[name] = entry end
  for name, entry in pairs(over) do
    out[name] = confirmed(base[name], entry)
  end
  return out
end

-- A list of entries with names over that of a base.
local function joined_list(base, over)
  local out, place = {}, {}
  for i, entry in ipairs(base) do
    out[i], place[entry.name or ""] = entry, i
  end
  for _, entry in ipairs(over) do
    local i = type(entry) == "table" and place[entry.name] or #out + 1
    out[i] = confirmed(out[i], entry)
  end
  return out
end

local JOINED = {factors = joined_map, clauses = joined_map, framing = joined_map,
  members = joined_map, scatter = joined_map, basis = joined_list}

--- A field of a pack over that of its base. Factors, facts, clauses and what is
-- prescribed are put over those of the base one by one; a number without a value says
-- anew how that of the base is known; all else stands in the base's place.
function standards.over(field, base, over)
  if type(base) ~= "table" or type(over) ~= "table" then return over end
  if JOINED[field] then return JOINED[field](base, over) end
  return base.confidence and confirmed(base, over) or over
end

-- The table of a folder in one format; raises a text for what cannot be read.
local function whole(path, format)
  local common = read(path .. "/standard.lua")
  local base = common.base_folder and whole(HOME .. "/" .. common.base_folder, format)
  local out = {}
  for _, part in ipairs {base or {}, common, parts_of(path, base),
    read(path .. "/" .. format_file(format))} do
    for name, value in pairs(part) do
      out[name] = standards.over(name, out[name], value)
    end
  end
  out.base_folder = nil
  return out
end

--- Formats of a standard's folder, sorted: {"asd", "lrfd"}, {""} where it has but one
-- without a name; nil where it is no such folder.
function standards.formats(path)
  local list, is_one = {}, false
  for _, file in ipairs(folder.entries(path) or {}) do
    list[#list + 1] = file == "format.lua" and "" or file:match "^format_(%w+)%.lua$"
    is_one = is_one or file == "standard.lua"
  end
  return is_one and #list > 0 and list or nil
end

--- The table of a standard's folder anywhere. @param format a name, or nil where the
-- folder has one format alone
-- @return table; or nil and a message
function standards.read_folder(path, format)
  local formats = type(path) == "string" and standards.formats(path)
  if not formats then
    return nil, ("%s: a folder with standard.lua and format_<name>.lua expected"):format(
      tostring(path))
  end
  format = format or #formats == 1 and formats[1]
  for _, name in ipairs(formats) do
    if name == format then
      local ok, t = pcall(whole, path, name)
      if not ok then return nil, tostring(t) end
      return t
    end
  end
  return nil, ("%s: format: one of %s expected, got %s"):format(path,
    table.concat(formats, ", "), tostring(format))
end

-- Folder and format of a name, or nil: us-nds-2018-asd is us-nds-2018 and asd.
local function place(name)
  if name:find "^%w[%w%-%.]*$" and folder.kind(HOME .. "/" .. name .. "/format.lua")
    == "file" then
    return HOME .. "/" .. name, ""
  end
  local base, format = name:match "^(%w[%w%-%.]*)%-(%w+)$"
  local path = base and HOME .. "/" .. base
  for _, known in ipairs(path and standards.formats(path) or {}) do
    if known == format then return path, format end
  end
end

--- Whether a name is that of a standard on file.
function standards.known(name)
  return place(name) ~= nil
end

--- The table of a standard on file; nil where there is none of that name.
function standards.read(name)
  local path, format = place(name)
  if not path then return nil end
  return standards.read_folder(path, format)
end

--- Folders that hold a file of a name, such as "lumber"; the default one first.
function standards.with(part)
  local first, names = standards.default[part], {}
  for _, entry in ipairs(folder.entries(HOME) or {}) do
    local path = ("%s/%s/%s.lua"):format(HOME, entry, part)
    if entry ~= first and folder.kind(path) == "file" then names[#names + 1] = entry end
  end
  if first then table.insert(names, 1, first) end
  return names
end

--- Names of the standards on file, sorted.
function standards.names()
  local names = {}
  for _, entry in ipairs(folder.entries(HOME) or {}) do
    for _, format in ipairs(standards.formats(HOME .. "/" .. entry) or {}) do
      names[#names + 1] = format == "" and entry or entry .. "-" .. format
    end
  end
  table.sort(names, point.less)
  return names
end

return standards
