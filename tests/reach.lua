-- SPDX-License-Identifier: MIT
-- Which lines and branches the tests reach: each test file is run by itself in a host
-- that is built with counters (gcov) and notes lines of Lua; what it reached stands in
-- build/reach/sets/NAME.txt, the lines that none reaches in build/reach/missed.txt.
-- `make reach` runs it (half an hour and more); tests/mutate.lua reads the sets.
--
--   lua tests/reach.lua          runs all, then tells
--   lua tests/reach.lua --tell   tells what an earlier run found
--   ONLY=pattern                 these test files alone, without the telling; sets of
--                                the others stay
--   HOST=build/host              a host without counters of C: lines of Lua, quicker
-- Two long random runs are left out: with counters they take an hour.
local FOLDER = "build/reach"
local SETS = FOLDER .. "/sets"
local LUAC = os.getenv "LUAC" or "luac5.4"
local HOST = os.getenv "HOST" or FOLDER .. "/host"
local LIMIT = tonumber(os.getenv "LIMIT" or "") or 1500 -- seconds a test file

local LEFT = {test_properties = true, test_steps = true}

local reach = {} -- also a module, for mutate.lua

local function lines_of(command)
  local list = {}
  local pipe <close> = assert(io.popen(command))
  for line in pipe:lines() do list[#list + 1] = line end
  return list
end

--- Names of what is run: the test files, the tests in C, the examples.
function reach.tests()
  local names = {"core_test", "growth_test", "examples", "oom"}
  for _, name in ipairs(lines_of "ls tests | LC_ALL=C sort") do
    local test = name:match "^(test_[%w_]+)%.lua$"
    if test and not LEFT[test] then names[#names + 1] = test end
  end
  return names
end

local function here()
  return lines_of "pwd"[1]
end

local function command_of(name)
  if name == "core_test" then return FOLDER .. "/core_test" end
  if name == "growth_test" then return FOLDER .. "/growth_test 500" end
  if name == "oom" then return HOST .. " --oom tests/oom.lua" end
  return ("%s %s"):format(HOST, name == "examples" and "tests/examples.lua"
    or "tests/run.lua -q")
end

-- Counters of a run, as text by source: lines with how often, branches with theirs. The
-- notes of the build stand beside the counters that the run wrote under a folder of ours.
local function counted(folder, say)
  for _, path in ipairs(lines_of(("find '%s' -name '*.gcda'"):format(folder))) do
    local at = path:sub(#folder + 1):gsub("%.gcda$", ".gcno")
    os.execute(("ln -sf '%s' '%s'"):format(at, (path:gsub("%.gcda$", ".gcno"))))
  end
  local pipe <close> = assert(io.popen(("find '%s' -name '*.gcda' | "
    .. "xargs -r gcov -b -t 2>/dev/null"):format(folder)))
  local source, line, branch = nil, 0, 0
  for row in pipe:lines() do
    local count, n, text = row:match "^%s*([%d#=%-*]+):%s*(%d+):(.*)$"
    if n == "0" then
      source = text:match "^Source:(.*)" or source
    elseif count then
      line, branch = tonumber(n), 0
      if count ~= "-" then say(source, line, nil, count:find "%d" ~= nil) end
    elseif row:find "^branch" then
      branch = branch + 1
      local taken = row:match "taken (%d+)"
      say(source, line, branch, taken ~= nil and taken ~= "0")
    end
  end
end

local function sorted(t)
  local list = {}
  for key in pairs(t) do list[#list + 1] = key end
  table.sort(list)
  return list
end

-- Sets of a test are written as rows "C source line reached" (1 or 0), "B source line
-- branch reached", "L source line line ...", after a first row: seconds and whether it
-- passed.
local function run_one(name)
  local folder, lines = here() .. "/" .. FOLDER .. "/run", here() .. "/" .. FOLDER
    .. "/lines.txt"
  os.execute(("rm -rf '%s' '%s' && mkdir -p '%s'"):format(folder, lines, folder))
  local from = os.time()
  local ok = os.execute(("GCOV_PREFIX='%s' NETSECTION_LINES='%s' NETSECTION_FILES='%s' "
    .. "ONLY= timeout %d %s >'%s/said/%s.txt' 2>&1"):format(folder, lines, name, LIMIT,
    command_of(name), FOLDER, name))
  local seconds = os.time() - from
  local seen = {}
  counted(folder, function(source, line, branch, reached)
    if not source or not source:find "^csrc/" then return end
    local key = branch and ("B %s %d %d"):format(source, line, branch)
      or ("C %s %d"):format(source, line)
    seen[key] = seen[key] or reached
  end)
  local out <close> = assert(io.open(SETS .. "/" .. name .. ".txt", "w"))
  out:write(seconds, " ", ok and "passed" or "failed", "\n")
  for _, key in ipairs(sorted(seen)) do out:write(key, seen[key] and " 1\n" or " 0\n") end
  local file <close> = io.open(lines)
  for row in file and file:lines() or function() end do
    out:write("L ", (row:gsub(":", "", 1)), "\n")
  end
  print(("%-28s %5d s  %s"):format(name, seconds, ok and "passed" or "FAILED"))
  io.stdout:flush()
end

--- Sets that an earlier run wrote.
-- @return {name = {seconds =, passed =, c = {["source line"] = true}, lua = same,
--   lines = {["source line"] = reached}, branches = same}}
function reach.read()
  local all = {}
  for _, name in ipairs(reach.tests()) do
    local file <close> = io.open(SETS .. "/" .. name .. ".txt")
    if file then
      local seconds, passed = file:read "l":match "^(%d+) (%a+)"
      local t = {seconds = tonumber(seconds), passed = passed == "passed", reached = {},
        lines = {}, branches = {}, counted = false}
      for row in file:lines() do
        local kind, rest = row:match "^(%u) (.*)$"
        t.counted = true
        if kind == "L" then
          local path = rest:match "^%S+"
          for n in rest:gmatch " (%d+)" do t.reached[path .. " " .. n] = true end
        else
          local key, yes = rest:match "^(.*) ([01])$"
          local set = kind == "C" and t.lines or t.branches
          set[key] = yes == "1"
          if kind == "C" and yes == "1" then t.reached[key] = true end
        end
      end
      all[name] = t
    end
  end
  return all
end

-- A file that only lists data: it is read in a Lua of its own, which notes no lines.
local function is_data(path)
  local file <close> = assert(io.open(path))
  return not file:read "a":find "%f[%w]function%f[%W]"
end

-- Lines with code of a Lua file, by the listing of the compiler.
local function code_lines(path)
  local lines = {}
  for _, row in ipairs(lines_of(("%s -l -p '%s'"):format(LUAC, path))) do
    local line, op = row:match "^\t%d+\t%[(%d+)%]\t(%u%w*)"
    if line and not op:find "^RETURN" and op ~= "VARARGPREP" then
      lines[tonumber(line)] = true
    end
  end
  return lines
end

local function share(reached, all)
  return ("%d of %d (%.1f %%)"):format(reached, all, all > 0 and 100 * reached / all or 0)
end

local function tell()
  local lines, branches, lua = {}, {}, {}
  local count, failed = 0, {}
  for name, t in pairs(reach.read()) do
    count = count + 1
    if not t.passed then failed[#failed + 1] = name end
    for key, yes in pairs(t.lines) do lines[key] = lines[key] or yes end
    for key, yes in pairs(t.branches) do branches[key] = branches[key] or yes end
    for key in pairs(t.reached) do lua[key] = true end
  end
  local missed <close> = assert(io.open(FOLDER .. "/missed.txt", "w"))
  local function sum(what, set)
    local n, all = 0, 0
    for _, key in ipairs(sorted(set)) do
      all = all + 1
      if set[key] then n = n + 1 else missed:write(what, " ", key, "\n") end
    end
    return share(n, all)
  end
  local code = {}
  for _, path in ipairs(lines_of "find lua/netsection -name '*.lua' | LC_ALL=C sort") do
    if not (path:find "/data/" or path:find "/standards/" and is_data(path)) then
      for n in pairs(code_lines(path)) do
        local key = path .. " " .. n
        code[key] = lua[key] or false
      end
    end
  end
  table.sort(failed)
  print(("reach: C lines %s, C branches taken %s, Lua lines %s; %d test files%s"):format(
    sum("C", lines), sum("branch", branches), sum("Lua", code), count, #failed > 0
      and ", failed with counters: " .. table.concat(failed, ", ") or ""))
end

-- What a run needs beside the compiler, or nil.
local function lacking()
  for _, name in ipairs {"gcov", LUAC} do
    if not os.execute(("command -v '%s' >/dev/null"):format(name)) then return name end
  end
end

if arg[0]:find "reach%.lua$" then
  local missing = lacking()
  if missing then
    print("reach: not run: the program " .. missing .. " is not here")
    os.exit(false)
  end
  if arg[1] ~= "--tell" then
    assert(os.execute(("mkdir -p %s %s/said"):format(SETS, FOLDER)))
    local only = os.getenv "ONLY" or ""
    for _, name in ipairs(reach.tests()) do
      if name:find(only) then run_one(name) end
    end
    if only ~= "" then return end
  end
  tell()
end

return reach
