-- Runs examples/*.lua from the root of the repository and compares what each prints with
-- examples/expected/NAME.txt. An example writes its files to the folder NETSECTION_OUT,
-- which is build/examples/NAME here (BUILD names another folder than build) and shows as
-- "out" in the text that is compared. An example that says "Needs: a b" on its second
-- line is left out, and said so, where a module of these is missing.
--   ONLY=NAME             runs one
--   MOST=N                the first N of them
--   INTERPRETER="WORDS"   how a script is run; this interpreter otherwise
--   ONLY=NAME UPDATE=1    rewrites what is expected of it; one at a time, to be looked at
package.path = "./?.lua;" .. package.path
local folder = require "netsection.folder"
local schema = require "tests.schema"
local system = require "tests.system"
local numbers_schema = schema.read(schema.numbers)

local function setting(name)
  local value = os.getenv(name)
  return value ~= "" and value or nil
end

local interpreter, most = setting "INTERPRETER", tonumber(setting "MOST")
local only, update, counts = setting "ONLY", setting "UPDATE", setting "NETSECTION_COUNTS"

local function read_file(path)
  local file <close> = io.open(path)
  return file and file:read "a"
end

local function write_file(path, text)
  local file <close> = assert(io.open(path, "w"))
  assert(file:write(text))
end

local function example_names()
  local names = {}
  for _, file in ipairs(folder.entries "examples" or {}) do
    local name = file:match "^([%w_-]+)%.lua$"
    if name and (not only or name == only) then names[#names + 1] = name end
  end
  table.sort(names)
  return {table.unpack(names, 1, most)}
end

-- Whether what runs the examples has a module.
local function there(module)
  if not interpreter then return (pcall(require, module)) end
  local script = system.build .. "/needs.lua"
  write_file(script, ("print((pcall(require, %q)))"):format(module))
  local pipe <close> = assert(io.popen(interpreter .. " " .. system.quoted(script)))
  return pipe:read "a":find "true" ~= nil
end

-- Modules that an example needs and this machine lacks.
local function lacking(name)
  local text, list = read_file("examples/" .. name .. ".lua") or "", {}
  for module in (text:match "^[^\n]*\n%-%- Needs: ([^\n]*)" or ""):gmatch "%S+" do
    if not there(module) then list[#list + 1] = module end
  end
  return #list > 0 and table.concat(list, ", ") or nil
end

-- What runs this script, as words of a shell.
local function this_one()
  local words = system.interpreter()
  for i, word in ipairs(words) do words[i] = system.quoted(word) end
  return table.concat(words, " ")
end

-- Runs one example with the interpreter that runs this script: what it printed, and
-- whether it ended well.
local function run(name)
  local out = system.build .. "/examples/" .. name
  system.fresh(out)
  local pipe = assert(io.popen((system.windows and 'set "NETSECTION_OUT=%s"&& %s %s'
    or "NETSECTION_OUT='%s' %s %s"):format(out, interpreter or this_one(),
    system.quoted("examples/" .. name .. ".lua"))))
  local text = pipe:read "a"
  local ok = pipe:close()
  return text:gsub(out:gsub("%p", "%%%0"), "out"), ok
end

-- The first line in which two texts differ.
local function first_difference(expected, actual)
  local next_expected, next_actual = expected:gmatch "[^\n]*", actual:gmatch "[^\n]*"
  local number = 0
  repeat
    local want, got = next_expected(), next_actual()
    number = number + 1
    if want ~= got then
      return ("line %d\n    expected: %s\n    got:      %s")
        :format(number, want or "(end)", got or "(end)")
    end
  until not want
end

-- Files of numbers that an example wrote are as their schema says: nil, or what is wrong.
local function fault_of_numbers(name)
  for _, path in ipairs(system.below(system.build .. "/examples/" .. name, "%.json$")) do
    local said = read_file(path)
    if said:find '^%s*{%s*"netsection"' then
      local faults = schema.faults(numbers_schema, said)
      if faults[1] then return ("%s: %s"):format(path, faults[1]) end
    end
  end
end

-- Nil if the example does what is expected of it, else what is wrong.
local function problem_with(name)
  local path = "examples/expected/" .. name .. ".txt"
  local actual, ok = run(name)
  if not ok then return "it failed" end
  if update then
    assert(folder.make "examples/expected")
    write_file(path, actual)
    print("rewrote " .. path)
    return nil
  end
  local expected = read_file(path)
  if not expected then
    return path .. " is missing; make examples UPDATE=1 ONLY=" .. name .. " writes it"
  end
  return first_difference(expected, actual) or fault_of_numbers(name)
end

if update and not only then
  io.stderr:write "UPDATE takes ONLY=NAME: what is expected changes one by one\n"
  os.exit(false)
end

local passed, failed, left_out = 0, 0, 0
for _, name in ipairs(example_names()) do
  local missing = lacking(name)
  local problem = not missing and problem_with(name)
  if missing then
    left_out = left_out + 1
    print(("example %s: left out, no module %s"):format(name, missing))
  elseif problem then
    failed = failed + 1
    print(("example %s: %s"):format(name, problem))
  else
    passed = passed + 1
  end
end
if only and passed + failed + left_out == 0 then
  failed = 1
  print("there is no example " .. only)
end
print(("examples: %d as expected, %d not"):format(passed, failed))
if counts then write_file(counts, ("%d %d\n"):format(passed, failed)) end
os.exit(failed == 0)
