-- SPDX-License-Identifier: MIT
-- Run by test_failing_system with calls of the system that fail when they are told to
-- (tests/data/failing): what was there stands, the message says why, nothing is left.
-- Numbers of errors are those of Linux: 4 EINTR, 5 EIO, 11 EAGAIN, 12 ENOMEM, 17 EEXIST,
-- 18 EXDEV, 24 EMFILE, 28 ENOSPC, 38 ENOSYS.
local core = require "netsection.core"
local file = require "netsection.file"
local file_set = require "netsection.file_set"
local folder = require "netsection.folder"
local lu = require "luaunit"
local ns = require "netsection"

local DIR = arg[1]
local files = core.files

local function fail(text) assert(os.remove("fail:" .. text)) end

-- A new folder with one file of before, and its path.
local count = 0
local function place()
  count = count + 1
  local path = ("%s/%d"):format(DIR, count)
  assert(folder.make(path))
  assert(ns.write(path .. "/a.txt", "before"))
  return path
end

local function text_of(path)
  local f <close> = io.open(path, "rb")
  return f and f:read "a"
end

local function only(path, ...)
  lu.assertEquals(folder.entries(path), {...})
end

local cases = {}

-- Each call that putting one file in place rests on.
function cases.one_file()
  for _, case in ipairs {{"fsync 1 28", "No space"}, {"fflush 1 28", "No space"},
    {"fclose 1 5", "Input/output"}, {"rename 1 18", "cross%-device"},
    {"fchmod 1 1", "owner and mode"}, {"fstat 1 5", "owner and mode"},
    {"fdopen 1 24", "owner and mode"}, {"realpath 1 5", "Input/output"},
    {"open 1 28", "No space"}, {"open 1 17 64", "File exists"}} do
    local path = place()
    fail(case[1])
    local ok, why = ns.write(path .. "/a.txt", "after")
    fail "nothing"
    lu.assertNil(ok, case[1])
    lu.assertStrMatches(why, ".*cannot write.*" .. case[2] .. ".*")
    lu.assertEquals(text_of(path .. "/a.txt"), "before")
    only(path, "a.txt")
  end
  -- Names that are taken: another is tried.
  local path = place()
  fail "open 1 17 3"
  lu.assertTrue(ns.write(path .. "/a.txt", "after"))
  lu.assertEquals(text_of(path .. "/a.txt"), "after")
  only(path, "a.txt")
end

-- A file of another owner's that cannot be given to him again is not replaced.
function cases.another_owner()
  local path = place()
  if not os.execute(("chown 12345:12345 '%s/a.txt' 2>/dev/null"):format(path)) then
    return
  end
  assert(ns.write(path .. "/a.txt", "between"))
  lu.assertTrue(os.execute(("test \"$(stat -c %%u:%%g '%s/a.txt')\" = 12345:12345")
    :format(path)))
  assert(ns.write(path .. "/a.txt", "before"))
  fail "fchown 1 1"
  local ok, why = ns.write(path .. "/a.txt", "after")
  lu.assertNil(ok)
  lu.assertStrContains(why, "owner and mode")
  lu.assertEquals(text_of(path .. "/a.txt"), "before")
  only(path, "a.txt")
end

-- What was written is on the disk before it takes its place: of each file of a set, and
-- of one alone, fsync comes before the rename, and the folder is synced after it.
function cases.synced_before_in_place()
  local path = place()
  local trace = DIR .. "/trace"
  fail("trace " .. trace)
  assert(ns.write(path .. "/a.txt", "after"))
  assert(file_set.write({{name = "x.txt", text = "x"}, {name = "s/y.txt", text = "y"}},
    path .. "/set"))
  local out = assert(file.stream(path .. "/streamed.txt"))
  assert(out:write "piece" and out:close())
  fail "trace "
  local synced, placed, last = {}, 0, nil
  for what, from, to in text_of(trace):gmatch "(%a+)\t([^\t\n]*)\t([^\t\n]*)\n" do
    if last and what ~= "open" then -- the folder in which it now stands
      lu.assertEquals({what, from}, {"fsync", last:match "^(.*)/"})
      last = nil
    end
    if what == "fsync" then
      synced[from] = true
    elseif what == "rename" and to ~= path .. "/set" then
      lu.assertTrue(synced[from], to)
      placed, last = placed + 1, to
    end
  end
  lu.assertEquals(placed, 5) -- the two by themselves; two of the set and its list
end

local function set(text)
  return {{name = "f1.txt", text = text}, {name = "f2.txt", text = text},
    {name = "sub/f3.txt", text = text}}
end

local function assert_set(path, text)
  for _, name in ipairs {"f1.txt", "f2.txt", "sub/f3.txt"} do
    lu.assertEquals(text_of(path .. "/" .. name), text)
  end
end

-- A set with nothing but its own files, where the two folders cannot change places in one
-- step: in two; and where the second or first fails, the old one stands.
function cases.a_set_in_two_steps()
  local path = place() .. "/out"
  assert(file_set.write(set "old", path))
  fail "exchange 1 38"
  lu.assertEquals(file_set.write(set "new", path, {replace = true}), 3)
  assert_set(path, "new")
  for _, at in ipairs {"fsync 3 28", "open 3 28", "mkdir 1 28", "mkdir 1 17 64"} do
    fail(at)
    local ok, why = file_set.write(set "newer", path, {replace = true})
    fail "nothing"
    lu.assertNil(ok, at)
    lu.assertStrContains(why, "cannot write into")
    assert_set(path, "new")
  end
  local up = path:match "^(.*)/"
  only(up, "a.txt", "out")
  -- renames: one for each of four files, then old away, new in
  for _, at in ipairs {5, 6} do
    fail "exchange 1 38"
    fail(("rename %d 28"):format(at))
    local ok, why = file_set.write(set "newer", path, {replace = true})
    fail "nothing"
    lu.assertNil(ok, at)
    lu.assertStrContains(why, "No space")
    assert_set(path, "new")
    only(up, "a.txt", "out")
  end
end

-- The same among files of the user's own: whichever rename fails, the old set stands.
function cases.a_set_among_files_of_the_user()
  local path = place() .. "/out"
  assert(file_set.write(set "old", path))
  assert(ns.write(path .. "/mine.txt", "mine"))
  local failed = 0
  for at = 1, 40 do
    fail(("rename %d 28"):format(at))
    local ok, why = file_set.write(set "new", path, {replace = true})
    fail "nothing"
    if ok then break end
    failed = failed + 1
    lu.assertStrContains(why, "No space")
    assert_set(path, "old")
    lu.assertEquals(text_of(path .. "/mine.txt"), "mine")
    only(path:match "^(.*)/", "a.txt", "out")
  end
  lu.assertTrue(failed >= 12, failed)
  assert_set(path, "new")
end

function cases.folders_and_locks()
  local path = place()
  fail "opendir 1 24"
  lu.assertNil((folder.entries(path)))
  fail "stat 1 5"
  lu.assertNil((folder.kind(path)))
  fail "lstat 1 5"
  lu.assertNil((folder.kind(path)))
  fail "mkdir 1 17"
  local new = assert(files.folder_beside(path .. "/a.txt"))
  lu.assertEquals(folder.kind(new), "folder")
  assert(folder.remove_own(new))
  fail "mkdir 1 28"
  lu.assertNil((files.private_folder()))
  fail "open 1 24"
  lu.assertNil((files.lock(path .. "/a.txt")))
  fail "flock 1 11"
  lu.assertNil((files.lock(path .. "/a.txt")))
  fail "fdopen 1 24"
  lu.assertNil((files.lock(path .. "/a.txt")))
  fail "ferror 1 5"
  lu.assertNil((files.read(path .. "/a.txt", 100)))
  lu.assertEquals(files.read(path .. "/a.txt", 100), "before")
end

function cases.programs()
  local said = place() .. "/said"
  fail "posix_spawnp 1 11"
  local code, why = files.run({"true"}, said, 5)
  lu.assertNil(code)
  lu.assertStrContains(why, "temporarily unavailable")
  fail "waitpid 1 4 3"
  lu.assertEquals(files.run({"true"}, said, 5), 0)
  fail "waitpid 1 10"
  lu.assertNil((files.run({"true"}, said, 5)))
  code, why = files.run({"sh", "-c", "kill -9 $$"}, said, 5)
  lu.assertNil(code)
  lu.assertStrContains(why, "by a signal")
  fail "waitpid 2 4 3"
  code, why = files.run({"sleep", "30"}, said, 0.01)
  lu.assertNil(code)
  lu.assertStrContains(why, "too long")
end

function cases.programs_that_are_talked_to()
  local said = place() .. "/said"
  for _, at in ipairs {"socketpair 1 24", "fcntl 1 24", "fcntl 2 24",
    "posix_spawnp 1 11"} do
    fail(at)
    lu.assertNil((files.talk({"cat"}, said)), at)
    fail "nothing"
  end
  local function talk() return assert(files.talk({"sh", "-c", "cat <&3 >&4"}, said)) end
  local t = talk()
  fail "send 1 4 2"
  fail "poll 1 4 2"
  fail "recv 1 4 2"
  lu.assertTrue(t:send "hello")
  lu.assertEquals(t:receive(20), "hello")
  fail "poll 1 5"
  local text, why = t:receive(20)
  lu.assertNil(text)
  lu.assertStrContains(why, "Input/output")
  fail "recv 1 5"
  t:send "more"
  text, why = t:receive(20)
  lu.assertNil(text)
  lu.assertStrContains(why, "it ended")
  fail "send 1 5"
  lu.assertNil((t:send "x"))
  fail "waitpid 1 4 2"
  t:close()
  t = talk()
  fail "realloc 1 12"
  t:send "x"
  text, why = t:receive(20)
  lu.assertNil(text)
  lu.assertStrContains(why, "too long")
  lu.assertEquals(t:receive(20), "x")
  t = nil -- luacheck: ignore
  fail "waitpid 1 4 2"
  collectgarbage()
end

-- Threads that the system does not give: the same numbers by those that there are.
function cases.threads()
  local function sum()
    local s = ns.sweep {joist = ns.joist {mark = "J", size = "2x10", species = "spf",
      grade = "No.2", span = "12-0", spacing = 16, dead = 10, live = 40}, over = {
      span = {100, 110, 120, 130, 140, 150, 160, 170, 180}, spacing = {12, 16, 24, 19.2},
      live = {20, 30, 40, 50}}, values = {"ratio"}, threads = 4, progress = false}
    local list = {}
    for row in s:rows() do list[#list + 1] = ("%a"):format(row.ratio) end
    return table.concat(list, " ")
  end
  local before = sum()
  lu.assertEquals(select(2, before:gsub("%S+", "")), 144)
  for _, at in ipairs {"pthread_create 1 11 9", "pthread_create 2 11 9",
    "pthread_attr_init 1 12 9", "pthread_attr_setstacksize 1 22 9",
    "pthread_sigmask 1 22"} do
    fail(at)
    lu.assertEquals(sum(), before, at)
    fail "nothing"
  end
end

local n = 0
for name, case in pairs(cases) do
  local ok, why = xpcall(case, function(e)
    return debug.traceback(type(e) == "table" and tostring(e.msg) or tostring(e))
  end)
  os.remove "fail:nothing"
  n = n + (ok and 1 or 0)
  if not ok then print(name, why) end
end
print(("failing system: %d cases hold"):format(n))
