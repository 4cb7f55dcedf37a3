-- SPDX-License-Identifier: MIT
-- What the single program does. Modules are the files inside it; a command reads no
-- others. A script given by --lua finds its own as with the interpreter of Lua.
local words = ...
local core = require "netsection.core"
local files = core.files

local INSIDE = "inside:/"
local LARGEST = 1 << 24

local function inside(name)
  local path = INSIDE .. name:gsub("%.", "/")
  for _, ending in ipairs {".lua", "/init.lua"} do
    if files.kind(path .. ending) == "file" then return path .. ending end
  end
end

local searchpath = package.searchpath

function package.searchpath(name, ...)
  return inside(name) or searchpath(name, ...)
end

table.insert(package.searchers, 2, function(name)
  local path = inside(name)
  if not path then return "no file of the program" end
  return assert(load(assert(files.read(path, LARGEST)), "@" .. path)), path
end)

-- As the interpreter runs a script: its words in `arg`, 1 where it fails.
local function run_script(path)
  if not path then
    io.stderr:write("netsection: --lua FILE expected\n")
    return 64
  end
  arg = {}
  for i = 0, #words do arg[i - 2] = words[i] end
  local chunk, problem = loadfile(path)
  local ok = chunk ~= nil
  if ok then ok, problem = xpcall(chunk, debug.traceback, table.unpack(arg)) end
  if ok then return 0 end
  io.stderr:write("netsection: ", tostring(problem), "\n")
  return 1
end

if words[1] == "--lua" then
  return run_script(words[2])
elseif words[1] == "--version" and not words[2] then
  io.stdout:write("netsection ", core.version, "\n") -- before all is loaded
  return 0
elseif words[1] == "--licenses" then
  io.stdout:write(assert(files.read(INSIDE .. "licenses.txt", LARGEST)))
  return 0
end
package.path, package.cpath = "", ""
return require "netsection.command".main {table.unpack(words)}
