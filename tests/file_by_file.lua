-- SPDX-License-Identifier: MIT
-- Runs each test file by itself by another interpreter, for a limited time, and tells
-- what passed, failed and was skipped, and why: a file that ends its process or never
-- ends fails alone, and the rest is run. `make suite-windows` runs it.
--
--   lua tests/file_by_file.lua NAME FOLDER wine64 netsection.exe --lua
--
-- What each said stands in FOLDER/test_NAME.txt. LIMIT: seconds a file may take.
local LIMIT = tonumber(os.getenv "LIMIT" or "") or 1200

local name, folder = arg[1], arg[2]

local function quoted(word)
  return "'" .. word:gsub("'", "'\\''") .. "'"
end

local command = {}
for i = 3, #arg do command[#command + 1] = quoted(arg[i]) end
command = table.concat(command, " ")
assert(name and folder and command ~= "", "NAME FOLDER INTERPRETER ... expected")
assert(os.execute("mkdir -p " .. quoted(folder)))

local function names()
  local list = {}
  local pipe <close> = assert(io.popen "ls tests | LC_ALL=C sort")
  for file in pipe:lines() do list[#list + 1] = file:match "^(test_[%w_]+)%.lua$" end
  return list
end

local function text_of(path)
  local file <close> = io.open(path, "rb")
  return file and file:read "a" or ""
end

-- Runs one file. @return {passed =, failed =, seconds =, skipped = {why, ...}}
local function run(test)
  local counts, said = folder .. "/counts", folder .. "/" .. test .. ".txt"
  os.remove(counts)
  local from = os.time()
  local ok = os.execute(("NETSECTION_FILES=%s NETSECTION_COUNTS=%s timeout -k 5 %d %s "
    .. "tests/run.lua -v >%s 2>&1 </dev/null"):format(test, quoted(counts), LIMIT,
    command, quoted(said)))
  local passed, failed = text_of(counts):match "^(%d+) (%d+)"
  local t = {passed = tonumber(passed) or 0, failed = tonumber(failed) or 1,
    seconds = os.time() - from, skipped = {}}
  if not ok and t.failed == 0 then t.failed = 1 end -- it ended badly after its tests
  for why in text_of(said):gmatch "%.%.%. SKIP\r?\n([^\r\n]*)" do
    t.skipped[#t.skipped + 1] = why
  end
  return t
end

local files, seconds, passed, failed, skipped, reasons = 0, 0, 0, 0, 0, {}
for _, test in ipairs(names()) do
  local t = run(test)
  print(("%-28s %5d s %5d passed %3d failed %3d skipped"):format(test, t.seconds,
    t.passed, t.failed, #t.skipped))
  io.stdout:flush()
  files, seconds = files + 1, seconds + t.seconds
  passed, failed, skipped = passed + t.passed, failed + t.failed, skipped + #t.skipped
  for _, why in ipairs(t.skipped) do
    if not reasons[why] then reasons[#reasons + 1] = why end
    reasons[why] = (reasons[why] or 0) + 1
  end
end
table.sort(reasons)
for _, why in ipairs(reasons) do print(("skipped %3d  %s"):format(reasons[why], why)) end
print(("%s: %d test files in %.0f min: %d passed, %d failed, %d skipped"):format(name,
  files, seconds / 60, passed, failed, skipped))
os.exit(files > 0 and failed == 0)
