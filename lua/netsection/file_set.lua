-- SPDX-License-Identifier: MIT
-- Files that belong together: written beside their folder and put in place at the end,
-- so that a run which fails or is stopped leaves the set of before as it was. A list in
-- the folder (LIST) names the files of the set; only those of it that are no part of a
-- new one are deleted.
local core = require "netsection.core"
local file = require "netsection.file"
local folder = require "netsection.folder"
local error = require "netsection.raise".error

local file_set = {}

local files = core.files
local LIST = "files-of-netsection.txt"
file_set.list = LIST

-- A name of a file below the folder, never one outside.
local function is_below(name)
  return name ~= "" and not name:find "^/" and not name:find "[%c\\:]"
    and not ("/" .. name .. "/"):find("/%.%.?/")
end

-- Files of an earlier run: {name = true}, from the list in the folder.
local function listed(path)
  local names = {}
  for name in (file.read(path .. "/" .. LIST, 1 << 20) or ""):gmatch "[^\n]+" do
    if is_below(name) then names[name] = true end
  end
  return names
end

-- All files below a folder, by their names from there; nil where there is no folder.
local function all_below(path, into, prefix)
  local entries = folder.entries(path)
  if not entries then return nil end
  into, prefix = into or {}, prefix or ""
  for _, name in ipairs(entries) do
    if not all_below(path .. "/" .. name, into, prefix .. name .. "/") then
      into[#into + 1] = prefix .. name
    end
  end
  return into
end

-- Writes the set, and its list, into a folder of ours. @return true, or nil and a message
local function write_all(set, place, with_list)
  local names = {}
  for i, f in ipairs(set) do
    local below = f.name:match "^(.*)/[^/]+$"
    local ok, why = true, nil
    if below then ok, why = folder.make(place .. "/" .. below) end
    if ok then ok, why = file.write(place .. "/" .. f.name, f.text) end
    if not ok then return nil, why end
    names[i] = f.name
  end
  if not with_list then return true end
  names[#names + 1] = LIST
  table.sort(names)
  return file.write(place .. "/" .. LIST, table.concat(names, "\n") .. "\n")
end

-- The folder is new, empty, or holds nothing but the set of before: one step.
local function swap(place, path, there)
  local ok, why
  if not there then
    ok, why = files.move(place, path)
  else
    ok, why = files.exchange(place, path)
    if not ok then -- a system that cannot: two steps, undone where the second fails
      local old = place .. ".before"
      ok, why = files.move(path, old)
      if ok then
        ok, why = files.move(place, path)
        if not ok then files.move(old, path) else files.move(old, place) end
      end
    end
    if ok then folder.remove_own(place) end
  end
  return ok, why
end

-- The user keeps files of his own there: each file of the set is put beside them, and put
-- back where one of them cannot be.
local function mix(set, place, path, old, with_list)
  local back, done = place .. "/.before", {}
  local function undo(why)
    for i = #done, 1, -1 do
      local d = done[i]
      if d.new then files.remove(path .. "/" .. d.name) end
      if d.had then files.move(back .. "/" .. d.at, path .. "/" .. d.name) end
    end
    return nil, why
  end
  local names, is_new = {}, {}
  for _, f in ipairs(set) do names[#names + 1], is_new[f.name] = f.name, true end
  if with_list then names[#names + 1], is_new[LIST] = LIST, true end
  local stale = {}
  for name in pairs(old) do
    if not is_new[name] then stale[#stale + 1] = name end
  end
  table.sort(stale)
  table.move(stale, 1, #stale, #names + 1, names)
  local ok, why = folder.make(back)
  for i, name in ipairs(ok and names or {}) do
    local step = {name = name, at = tostring(i)}
    local target, below = path .. "/" .. name, name:match "^(.*)/[^/]+$"
    if below then ok, why = folder.make(path .. "/" .. below) end
    done[#done + 1] = step
    if ok and folder.kind(target) then
      ok, why = files.move(target, back .. "/" .. step.at)
      step.had = ok
    end
    if ok and is_new[name] then
      ok, why = files.move(place .. "/" .. name, target)
      step.new = ok
    end
    if not ok then break end
  end
  if not ok then return undo(why) end
  folder.remove_own(place)
  return true
end

--- Writes a set of files into a folder, whole or not at all.
-- @param set {{name =, text =}, ...}; @param path the folder; the one above it must be
--   there unless options.make
-- @param options {replace = true: also where the folder holds something; unlisted = true:
--   files for the user to work on, which no later run replaces}
-- @return how many, or nil and a message; the set of before then stands as it was
function file_set.write(set, path, options)
  options = options or {}
  path = #path > 1 and path:gsub("[/\\]+$", "") or path
  local seen = {[LIST] = true}
  for _, f in ipairs(set) do
    if not is_below(f.name) or seen[f.name] then
      error("not a name for a file of a set: " .. f.name)
    end
    seen[f.name] = true
  end
  local kind = folder.kind(path)
  if kind and kind ~= "folder" then
    return nil, ("cannot write into %s: it is no folder"):format(path)
  end
  local there = kind and all_below(path)
  if there and #there > 0 and not options.replace then
    return nil, ("the folder %s is not empty; --replace writes into it"):format(path)
  end
  local up = path:match "^(.*)[/\\][^/\\]+$"
  if up and up ~= "" and not folder.kind(up) then
    local ok, why = nil, ("cannot make the folder %s: the one above it must be there")
      :format(path)
    if options.make then ok, why = folder.make(up) end
    if not ok then return nil, why end
  end
  local old, own = there and listed(path) or {}, true
  for _, name in ipairs(there or {}) do own = own and old[name] ~= nil end
  local place, why = files.folder_beside(path)
  local ok
  if place then ok, why = write_all(set, place, not options.unlisted) end
  if ok and own then
    ok, why = swap(place, path, kind ~= nil)
  elseif ok then
    ok, why = mix(set, place, path, old, not options.unlisted)
  end
  if ok then return #set end
  if place and folder.kind(place) then folder.remove_own(place) end
  return nil, ("cannot write into %s: %s"):format(path, tostring(why))
end

return file_set
