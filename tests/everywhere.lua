-- Tries a single program beside the module that runs this script, from the root of the
-- repository:
--   lua5.4 tests/everywhere.lua NAME WORD...      WORD...: how the program is started
-- The list of rule sets and a package of 24 joists have to be the same byte for byte;
-- nothing is run from the folder that it is started in; the licenses are told; modules
-- that it has inside do what workbooks ask; a program that came damaged says so; Ctrl-C
-- leaves nothing behind.
package.path = "./?.lua;" .. package.path
local command = require "netsection.command"
local core = require "netsection.core"
local folder = require "netsection.folder"

local name = table.remove(arg, 1)
local program = table.concat(arg, " ")
local OUT = os.getenv "OUT" or "build/everywhere"
local SURVEY = "examples/survey"

local passed, failed = 0, 0
local function verdict(what, ok, why)
  if ok then passed = passed + 1 else failed = failed + 1 end
  print(("%s: %s: %s"):format(name, what, ok and "as it should be" or why or "not so"))
end

local function read(path)
  local file <close> = io.open(path, "rb")
  return file and file:read "a"
end

local function write(path, text)
  local file <close> = assert(io.open(path, "wb"))
  assert(file:write(text))
end

-- What a command line prints, and its exit code. A runner may have words of its own at
-- standard error.
local function said(line, with_errors)
  local pipe = assert(io.popen(line .. (with_errors and " 2>&1" or " 2>/dev/null")))
  local text = pipe:read "a"
  local _, _, code = pipe:close()
  return text, code
end

local function empty(path)
  for _, one in ipairs(folder.entries(path) or {}) do
    local below = path .. "/" .. one
    if not core.files.remove(below) then empty(below) end
  end
  core.files.remove(path)
end

local function run(words)
  local lines = {}
  local function keep(line) lines[#lines + 1] = line .. "\n" end
  local code = command.run(words, {out = keep, err = function() end})
  return table.concat(lines), code
end

local function files_below(path, list, head)
  list, head = list or {}, head or ""
  for _, one in ipairs(folder.entries(path) or {}) do
    if folder.kind(path .. "/" .. one) == "folder" then
      files_below(path .. "/" .. one, list, head .. one .. "/")
    else
      list[#list + 1] = head .. one
    end
  end
  return list
end

-- Nil, or the first file in which two folders differ.
local function difference(a, b)
  local ours, theirs = files_below(a), files_below(b)
  if table.concat(ours, "\n") ~= table.concat(theirs, "\n") then
    return ("%d files, where %d are expected"):format(#theirs, #ours)
  end
  for _, file in ipairs(ours) do
    if read(a .. "/" .. file) ~= read(b .. "/" .. file) then return file .. " differs" end
  end
end

-- By the widest registers that the processor has, or by those of a narrower set.
local function a_package(set)
  local ours, theirs = OUT .. "/ours", OUT .. "/theirs" .. (set or "")
  if not set then run {"review", SURVEY, "--full", "--into", ours} end
  local _, code = said(("%s%s review %s --full --into %s"):format(
    set and "NETSECTION_SET=" .. set .. " " or "", program, SURVEY, theirs))
  local why = code ~= 1 and ("exit code %s"):format(code) or difference(ours, theirs)
  verdict("package of 24 joists, " .. #files_below(ours) .. " files"
    .. (set and ", by the set " .. set or ""), not why, why)
end

-- Files of every name that the program could run by mistake, in the folder in which it is
-- started.
local function nothing_of_the_folder()
  local place = OUT .. "/trap"
  assert(folder.make(place .. "/netsection"))
  for _, file in ipairs {"netsection.lua", "netsection/command.lua",
    "netsection/init.lua", "dkjson.lua", "lpeg.lua", "start.lua", "init.lua"} do
    write(place .. "/" .. file, 'print "taken in" os.exit(9)')
  end
  local from, here = {}, said("pwd"):match "^[^\n]+"
  for i, word in ipairs(arg) do
    from[i] = word:find "^/" and word or word:find "/" and here .. "/" .. word or word
  end
  local text, code = said(("cd %s && LUA_INIT='print(9)' LUA_PATH='./?.lua' %s rules")
    :format(place, table.concat(from, " ")), true)
  verdict("nothing run from its folder", code == 0 and text:find "^rules\n" ~= nil, text)
end

local function a_script()
  write(OUT .. "/script.lua", 'local ns = require "netsection"\n'
    .. 'print(ns.length "13-6", #arg, arg[1], ...)\nos.exit(3)\n')
  local text, code = said(("%s --lua %s/script.lua word"):format(program, OUT))
  verdict("--lua", text == "162.0\t1\tword\tword\n" and code == 3, text)
end

local function modules_inside()
  local text, code = said(program .. " --lua tests/inside.lua")
  verdict("zlib and lxp inside", code == 0 and text:find "%d right, 0 wrong" ~= nil, text)
end

-- A copy of the program with one byte of the files that it carries turned around, in the
-- first block, which the command stands in.
local function damaged()
  local own = arg[#arg]
  local all, carried = read(own), read(own:gsub("[^/]*$", "carried.bin"))
  local at = assert(all:find(carried, 1, true)) + 1000
  local copy = OUT .. "/damaged.exe"
  write(copy, all:sub(1, at - 1) .. string.char(~all:byte(at) & 255) .. all:sub(at + 1))
  said("chmod +x " .. copy)
  local words = {table.unpack(arg, 1, #arg - 1)}
  words[#words + 1] = copy
  local text, code = said(table.concat(words, " ") .. " --help", true)
  verdict("damaged files inside are refused", code ~= 0
    and text:find "files in the program are damaged" ~= nil
    and not text:find "Permission", text)
end

-- Ctrl-C in the middle of ten million points: told, and nothing is left of the file.
local function stopped()
  write(OUT .. "/long.lua", [[
local ns = require "netsection"
local live, dead = {}, {}
for i = 1, 3200 do live[i], dead[i] = 10 + i / 100, 5 + i / 200 end
local s = ns.sweep {joist = ns.joist {size = "2x10", species = "hem-fir", grade = "No.2",
  span = 150, spacing = 16, dead = 12, live = 40}, over = {live = live, dead = dead},
  values = {"ratio"}}
print "begun"
io.stdout:flush()
print(pcall(s.csv, s, arg[1]))
]])
  local place = OUT .. "/stopped"
  assert(folder.make(place))
  said(("%s --lua %s/long.lua %s/all.csv >%s/said 2>&1 & pid=$!; for k in $(seq 300); do "
    .. "grep -q begun %s/said && break; sleep 0.2; done; sleep 1; kill -INT $pid; "
    .. "wait $pid"):format(program, OUT, place, OUT, OUT))
  local told = read(OUT .. "/said")
  local left = files_below(place)
  verdict("stopped by Ctrl-C", told:find "interrupted" ~= nil and #left == 0,
    table.concat(left, " ") .. told)
end

-- Seconds from start to end of the quickest of five.
local function how_quick()
  local best = math.huge
  for _ = 1, 5 do
    local from = core.clock()
    said(program .. " --version")
    best = math.min(best, core.clock() - from)
  end
  print(("%s: started and ended in %.0f ms"):format(name, best * 1000))
end

empty(OUT)
assert(folder.make(OUT))
local listed = run {"rules"}
verdict("rules", said(program .. " rules") == listed)
local licenses = said(program .. " --licenses")
verdict("licenses", licenses:find "netsection contributors"
  and licenses:find "Lua%.org" and licenses:find "David Heiko Kolf"
  and licenses:find "Jean%-loup Gailly" and licenses:find "Expat maintainers"
  and select(2, licenses:gsub("Permission", "")) >= 6)
a_package()
if name == "one" then
  a_package "avx2"
  a_package "default"
end
nothing_of_the_folder()
a_script()
modules_inside()
damaged()
stopped()
how_quick()
print(("%s: %d as they should be, %d not"):format(name, passed, failed))
os.exit(failed == 0)
