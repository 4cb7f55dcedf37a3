-- SPDX-License-Identifier: MIT
-- Files that belong together: written beside their folder and put in place at the end,
-- so that a run which fails or is stopped leaves the set of before as it was. A list in
-- the folder (LIST) names the files of the set; only those of it that are no part of a
-- new one are deleted.
local core = require "netsection.core"
local escape = require "netsection.document.escape"
local file = require "netsection.file"
local folder = require "netsection.folder"
local point = require "netsection.point"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

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
  table.sort(names, point.less)
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

-- What a run is about to do among files of the user's, so that a later one can take it
-- back: the folder by what tells it from others, then for each file its number, whether
-- something stood there, and its name.
local JOURNAL = ".journal"

local function journal_of(path, steps)
  local _, id = folder.kind(path)
  local lines = {id}
  for i, step in ipairs(steps) do
    lines[i + 1] = ("%d %s %s"):format(i, step.had and "had" or "none", step.name)
  end
  return table.concat(lines, "\n") .. "\n"
end

local function read_journal(place)
  local said = file.read(place .. "/" .. JOURNAL, 1 << 20)
  local id, rest = (said or ""):match "^([^\n]+)\n(.*)$"
  if not id then return nil end
  local steps = {}
  for n, had, name in rest:gmatch "(%d+) (%a+) ([^\n]+)\n" do
    if not is_below(name) then return nil end
    steps[tonumber(n)] = {name = name, had = had == "had"}
  end
  return id, steps
end

-- Takes back what was put among the user's files: what stood there returns, what is new
-- goes. May itself be stopped and begun again.
local function undo(steps, place, path)
  for i = #steps, 1, -1 do
    local target, kept = path .. "/" .. steps[i].name, place .. "/.before/" .. i
    if folder.kind(kept) then
      files.remove(target)
      files.move(kept, target)
    elseif not steps[i].had and not folder.kind(place .. "/" .. steps[i].name) then
      files.remove(target)
    end
  end
end

-- Takes back what a run that was stopped has left half done in this folder.
-- @return true, or nil and what to do by hand
local function recover(path)
  local _, id = folder.kind(path)
  local up = path:match "^(.*[/\\])[^/\\]+$" or "./"
  for _, name in ipairs(folder.entries(up) or {}) do
    local place = up .. name
    local of, steps = nil, nil
    if name:find "^%.netsection%-%x+%.part$" then of, steps = read_journal(place) end
    if of and of == id then
      local held <close>, why = files.lock(place .. "/" .. JOURNAL)
      if not held then
        return nil, escape.text(("cannot write into %s: another run is writing there, or "
          .. "one was stopped and what stood there is in %s/.before: put it back and "
          .. "delete that folder (%s)"):format(path, place, tostring(why)))
      end
      undo(steps, place, path)
      folder.remove_own(place)
    end
  end
  return true
end

-- The user keeps files of his own there: each file of the set is put beside them, and put
-- back where one of them cannot be.
local function mix(set, place, path, old, with_list)
  local back = place .. "/.before"
  local names, is_new = {}, {}
  for _, f in ipairs(set) do names[#names + 1], is_new[f.name] = f.name, true end
  if with_list then names[#names + 1], is_new[LIST] = LIST, true end
  local stale = {}
  for name in pairs(old) do
    if not is_new[name] then stale[#stale + 1] = name end
  end
  table.sort(stale, point.less)
  table.move(stale, 1, #stale, #names + 1, names)
  local steps = {}
  for i, name in ipairs(names) do
    steps[i] = {name = name, had = folder.kind(path .. "/" .. name) ~= nil}
  end
  local ok, why = folder.make(back)
  if ok then ok, why = file.write(place .. "/" .. JOURNAL, journal_of(path, steps)) end
  -- luacheck: push ignore
  local held <close> = ok and files.lock(place .. "/" .. JOURNAL) or nil
  -- luacheck: pop
  for i, step in ipairs(ok and steps or {}) do
    local target, below = path .. "/" .. step.name, step.name:match "^(.*)/[^/]+$"
    if below then ok, why = folder.make(path .. "/" .. below) end
    if ok and step.had then ok, why = files.move(target, back .. "/" .. i) end
    if ok and is_new[step.name] then
      ok, why = files.move(place .. "/" .. step.name, target)
    end
    if not ok then break end
  end
  if not ok then
    undo(steps, place, path)
    return nil, why
  end
  -- From here on the new set stands: nothing may take it back.
  files.remove(place .. "/" .. JOURNAL)
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
  if kind then
    local ok, why = recover(path)
    if not ok then return nil, why end
    there = all_below(path)
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
