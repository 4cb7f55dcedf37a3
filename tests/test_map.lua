-- SPDX-License-Identifier: MIT
-- The map of files in lua/README.md: every file of the core and of the module stands in
-- it, by name or by its folder, and what stands in it exists.
local folder = require "netsection.folder"
local lu = require "luaunit"

local T = {}

local function text_of(path)
  local file <close> = assert(io.open(path, "rb"))
  return file:read "a"
end

-- Paths of files below a folder that end so, from that folder.
local function files_in(root, ending)
  local list = {}
  local function go(path, head)
    for _, name in ipairs(folder.entries(path) or {}) do
      local full = path .. "/" .. name
      if folder.kind(full) == "folder" then
        go(full, head .. name .. "/")
      elseif name:find(ending) then
        list[#list + 1] = head .. name
      end
    end
  end
  go(root, "")
  return list
end

-- First cells of the table under a heading such as "`csrc/`".
local function cells(text, heading)
  local at = assert(text:find("\n" .. heading, 1, true), heading)
  local list, begun = {}, false
  for line in text:sub(at + 1):gmatch "[^\n]*" do
    local cell = line:match "^| (.-) | "
    if cell and not line:find "^| %a+" then list[#list + 1], begun = cell, true end
    if begun and not line:find "^|" then break end
  end
  return list
end

-- What a map names below a folder: paths, folders with a slash at their end, patterns. A
-- name without a folder stands in that of the bold row above it, or of the name before
-- it in its cell.
local function named(root, list)
  local out, room = {}, ""
  for _, cell in ipairs(list) do
    local head = cell:match "%*%*`([%w_]+/)`%*%*"
    if head then
      room = head
      out[#out + 1] = nil
    end
    local here = room
    for token in cell:gmatch "`([^`]+)`" do
      if token ~= head then
        local path = room .. token
        local exists = token:find "%*" or folder.kind(root .. "/" .. path)
        if not exists and not token:find "/" then path = here .. token end
        here = path:match "^(.*/)[^/]+$" or here
        out[#out + 1] = path
      end
    end
  end
  return out
end

local function covers(entry, file)
  if entry:find "%*" then
    return file:find("^" .. entry:gsub("[%.%-]", "%%%0"):gsub("%*", "[^/]*") .. "$")
  end
  return entry == file or entry:sub(-1) == "/" and file:sub(1, #entry) == entry
end

-- What is wrong between a map and a folder, as texts.
local function wrong(root, ending, list)
  local entries, out = named(root, list), {}
  local files = files_in(root, ending)
  for _, file in ipairs(files) do
    local found
    for _, entry in ipairs(entries) do found = found or covers(entry, file) end
    if not found then out[#out + 1] = file .. " is not in the map" end
  end
  for _, entry in ipairs(entries) do
    local found = folder.kind(root .. "/" .. entry:gsub("/$", ""))
    for _, file in ipairs(entry:find "%*" and files or {}) do
      found = found or covers(entry, file)
    end
    if not found then out[#out + 1] = entry .. ": there is no such file" end
  end
  return out
end

local README = text_of "lua/README.md"

function T.test_the_core_stands_in_the_map()
  lu.assertEquals(wrong("csrc", "%.[ch]$", cells(README, "`csrc/`")), {})
end

function T.test_the_module_stands_in_the_map()
  lu.assertEquals(wrong("lua/netsection", "%.lua$", cells(README, "`lua/netsection/`")),
    {})
end

-- The reader sees what it has to.
function T.test_the_reader()
  local found = wrong("csrc", "^joist%.h$", {"**`joist/`**", "`lanes.h`, `nowhere.h`"})
  lu.assertEquals(found, {"joist/joist.h is not in the map",
    "joist/nowhere.h: there is no such file"})
  lu.assertEquals(wrong("csrc", "^joist%.h$", {"**`joist/`** `*.h`"}), {})
end

return T
