-- Runs every tests/test_*.lua with LuaUnit, from the root of the repository:
--   lua5.4 tests/run.lua                     all of them
--   lua5.4 tests/run.lua test_units          one file; test_units.test_metres one test
--   lua5.4 tests/run.lua -v -p hole          those whose name has "hole"
-- A test file returns a table, whose functions test* are its tests. Where the environment
-- variable NETSECTION_COUNTS names a file, "PASSED FAILED" is written to it. Where
-- NETSECTION_SHARE is "2/4", every fourth file is run, from the second: shares may run
-- side by side. Where NETSECTION_FILES is "test_a,test_b", no other file is loaded.
package.path = "./?.lua;" .. package.path -- "tests.support", whatever LUA_PATH says

local folder = require "netsection.folder"
local lu = require "luaunit"

-- Which files are run: those whose number, divided by `of`, leaves `rest`.
local function share()
  local value = os.getenv "NETSECTION_SHARE"
  if not value then return 0, 1 end
  local part, of = value:match "^(%d+)/(%d+)$"
  part, of = tonumber(part), tonumber(of)
  assert(part and part >= 1 and part <= of, "NETSECTION_SHARE is not K/N: " .. value)
  return part % of, of
end

-- The names that NETSECTION_FILES holds, or nil.
local function asked_for()
  local list = os.getenv "NETSECTION_FILES"
  if not list then return nil end
  local asked = {}
  for name in list:gmatch "[^,]+" do asked[name] = true end
  return asked
end

local function test_names()
  local names, asked, rest, of = {}, asked_for(), share()
  for _, file in ipairs(assert(folder.entries "tests")) do
    local name = file:match "^(test_[%w_]+)%.lua$"
    if name and (not asked or asked[name]) then names[#names + 1] = name end
  end
  table.sort(names)
  local mine = {}
  for i, name in ipairs(names) do
    if i % of == rest then mine[#mine + 1] = name end
  end
  return mine
end

-- A file that cannot be loaded becomes a failing test, so that the others still run.
local function load_tests(name)
  local path = "tests/" .. name .. ".lua"
  local chunk, problem = loadfile(path)
  if chunk then
    local ok, result = xpcall(chunk, debug.traceback)
    if ok and type(result) == "table" then return result end
    problem = ok and path .. " did not return a table" or result
  end
  return { test_loads = function() error(problem, 0) end }
end

local function write_counts(passed, failed)
  local path = os.getenv "NETSECTION_COUNTS"
  if not path then return end
  local file <close> = assert(io.open(path, "w"))
  file:write(passed, " ", failed, "\n")
end

-- Stands until the end is reached: a test that leaves the process has not passed.
write_counts(0, 1)

-- LuaUnit collects its tests from the globals and reads the command line itself; being
-- given a list of instances, version 3.4 would take no arguments.
for _, name in ipairs(test_names()) do
  _G[name] = load_tests(name)
end
local runner = lu.LuaUnit.new()
local failed = runner:runSuite()
write_counts(runner.result.successCount, failed)
os.exit(failed == 0, true)
