-- SPDX-License-Identifier: MIT
-- Folders: making one, listing one, what a path is. Nothing passes through a shell.
local core = require "netsection.core"
local point = require "netsection.point"
local error = require "netsection.raise".error

local folder = {}

local files = core.files

-- What a path is for the functions of the core, or nil and why it can be none.
local function usable(path)
  if type(path) ~= "string" or path == "" then return nil, "a path expected" end
  if path:find("\0", 1, true) then return nil, "a path has no NUL in it" end
  if #path >= 4096 then return nil, "a path has under 4096 bytes" end
  return path
end

--- "file", "folder" or "other"; what tells it from every other file; its size in bytes;
-- whether the path is a link that leads there.
-- nil and a message where there is nothing.
function folder.kind(path)
  local ok, why = usable(path)
  if not ok then return nil, why end
  return files.kind(path)
end

local function is_folder(path)
  return folder.kind(path) == "folder"
end

-- "a" of "a/b", "/" of "/a"; nil where there is none above.
local function above(path)
  local up = path:gsub("[/\\]+$", ""):match "^(.*[/\\])[^/\\]*$"
  if not up then return nil end
  local bare = up:gsub("[/\\]+$", "")
  return bare == "" and up or bare
end

local function one(path)
  local ok, why = usable(path)
  if ok then ok, why = files.make_folder(path) end
  if ok or is_folder(path) then return true end
  return nil, ("cannot make the folder %s: %s"):format(path, why)
end

--- Makes a folder and those above it. @return true, or nil and a message
function folder.make(path)
  if is_folder(path) then return true end
  local up = usable(path) and above(path)
  if up and up ~= path and not is_folder(up) then
    local ok, why = folder.make(up)
    if not ok then return nil, why end
  end
  return one(path)
end

--- Makes a folder in one that is there. @return true, or nil and a message
function folder.add(path)
  if is_folder(path) then return true end
  local up = usable(path) and above(path)
  if up and not is_folder(up) then
    return nil, ("cannot make the folder %s: the one above it must be there"):format(path)
  end
  return one(path)
end

--- Names in a folder, sorted; nil where there is no folder that can be read.
function folder.entries(path)
  local names = usable(path) and files.entries(path)
  if not names then return nil end
  table.sort(names, point.less)
  return names
end

--- Removes a folder with what is in it: those of this module's own making alone.
function folder.remove_own(path)
  if not path:match "%.netsection%-%x+%.part[^/\\]*$" then
    error("not a folder of ours: " .. path, 2)
  end
  local function empty(inner)
    for _, name in ipairs(folder.entries(inner) or {}) do
      local below = inner .. "/" .. name
      if not files.remove(below) then empty(below) end
    end
    return files.remove(inner)
  end
  return empty(path)
end

return folder
