-- SPDX-License-Identifier: MIT
-- What tests ask of the system without a command of one, so that they run on each:
-- folders of their own, names below a folder, whether a program is there, this
-- interpreter once more. What only a Unix has is skipped elsewhere, by name.
local core = require "netsection.core"
local folder = require "netsection.folder"
local lu = require "luaunit"

local system = {}

local files = core.files

system.windows = package.config:sub(1, 1) == "\\"

--- The folder of this build, in which tests may write: BUILD of the environment.
system.build = (os.getenv "BUILD" or "") ~= "" and os.getenv "BUILD" or "build"

--- Skips a test of what Windows has not.
function system.unix(what)
  if system.windows then lu.skip("of Unix alone: " .. what) end
end

--- Removes a file, a link, or a folder with all that is in it.
function system.remove(path)
  if files.remove(path) then return end
  for _, name in ipairs(folder.entries(path) or {}) do
    system.remove(path .. "/" .. name)
  end
  files.remove(path)
end

--- An empty folder under this path.
function system.fresh(path)
  system.remove(path)
  assert(folder.make(path))
end

--- A new folder, gone at the end of the block: {path =}.
function system.folder()
  local path = assert(files.private_folder()):gsub("\\", "/")
  return setmetatable({path = path}, {__close = function() system.remove(path) end})
end

--- Paths of all files below a folder whose names have the pattern, sorted.
function system.below(root, pattern, list)
  local all = list or {}
  for _, name in ipairs(folder.entries(root) or {}) do
    local path = root .. "/" .. name
    if folder.kind(path) == "folder" then
      system.below(path, pattern, all)
    elseif name:find(pattern) then
      all[#all + 1] = path
    end
  end
  if not list then table.sort(all) end
  return all
end

--- Paths of the files in a folder, not below it, whose names have the pattern, sorted.
function system.within(root, pattern)
  local all = {}
  for _, name in ipairs(folder.entries(root) or {}) do
    local path = root .. "/" .. name
    if name:find(pattern) and folder.kind(path) == "file" then all[#all + 1] = path end
  end
  return all
end

--- Whether a program is on PATH.
function system.has(name)
  local ending = system.windows and ".exe" or ""
  for place in (os.getenv "PATH" or ""):gmatch(system.windows and "[^;]+" or "[^:]+") do
    if folder.kind(place .. "/" .. name .. ending) == "file" then return true end
  end
  return false
end

--- The folder that this runs in.
function system.here()
  local pipe <close> = assert(io.popen(system.windows and "cd" or "pwd"))
  return (pipe:read "l":gsub("[\r\n]+$", ""):gsub("\\", "/"))
end

--- A path from the root.
function system.absolute(path)
  return path:find "^/" and path or system.here() .. "/" .. path
end

local own_launcher

--- The command's launcher. A module that was built into a folder of its own gets a copy
-- that looks for it there.
function system.launcher()
  local module = system.absolute(package.searchpath("netsection.core", package.cpath))
  local here = system.here() .. "/lua"
  if module == here .. "/netsection/core.so" then return here .. "/bin/netsection" end
  if own_launcher then return own_launcher end
  local file <close> = assert(io.open("lua/bin/netsection", "rb"))
  local text = file:read "a":gsub("share=\n", "share='" .. here .. "'\n", 1)
    :gsub("lib=\n", "lib='" .. module:match "^(.*)/netsection/[^/]*$" .. "'\n", 1)
  own_launcher = system.absolute(system.build .. "/launcher")
  local copy <close> = assert(io.open(own_launcher, "wb"))
  assert(copy:write(text))
  assert(os.execute("chmod +x " .. system.quoted(own_launcher)))
  return own_launcher
end

--- A word of a command line as the system's shell reads it.
function system.quoted(word)
  if not system.windows then return "'" .. word:gsub("'", "'\\''") .. "'" end
  assert(not word:find '["%%\r\n]', "no word for this shell")
  return '"' .. word .. '"'
end

--- Where a shell sends what nobody wants to read.
system.null = system.windows and "NUL" or "/dev/null"

--- The head of a line of the shell: it runs in a folder, with variables of its own.
function system.at(place, variables)
  local words = {(system.windows and "cd /d " or "cd ") .. system.quoted(place)}
  for name, value in pairs(variables or {}) do
    words[#words + 1] = system.windows and ('set "%s=%s"'):format(name, value)
      or ("export %s=%s"):format(name, system.quoted(value))
  end
  return table.concat(words, " && ") .. " && "
end

--- What a line of the shell, run in a folder, says on its standard output.
function system.said(place, line)
  local pipe <close> = assert(io.popen(system.at(place) .. line .. " 2>" .. system.null))
  return pipe:read "a"
end

local function line_of(words, rest)
  local list = {}
  for i, word in ipairs(words) do list[i] = system.quoted(word) end
  local line = table.concat(list, " ") .. (rest or "")
  return system.windows and '"' .. line .. '"' or line -- its outer quotes are taken off
end

--- Runs a program by the system's shell, what it says into files.
-- @return exit code
function system.shell(words, out, err)
  local _, _, code = os.execute(line_of(words, (" >%s 2>%s"):format(system.quoted(out),
    err and system.quoted(err) or "&1")))
  return code
end

--- What starts a script as this one was started: {"lua5.4"}, or the single program and
-- its --lua.
function system.interpreter()
  local lowest = -1
  while arg[lowest - 1] do lowest = lowest - 1 end
  return {table.unpack(arg, lowest, -1)}
end

--- Runs a script by this interpreter. @return all that it says, its exit code
function system.script(path, ...)
  local words = system.interpreter()
  for _, word in ipairs {path, ...} do words[#words + 1] = word end
  local pipe = assert(io.popen(line_of(words, " 2>&1")))
  local said = pipe:read "a"
  local _, _, code = pipe:close()
  return said, code
end

return system
