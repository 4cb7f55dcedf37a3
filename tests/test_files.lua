-- Nothing is lost: files and sets of files are put in place whole, beside what is there.
local core = require "netsection.core"
local drawing = require "tests.drawing"
local file = require "netsection.file"
local file_set = require "netsection.file_set"
local folder = require "netsection.folder"
local lu = require "luaunit"
local ns = require "netsection"
local render = require "netsection.render"
local system = require "tests.system"

local T = {}

local function sh(command, ...)
  return os.execute((command:format(...)))
end

local function names(path)
  return folder.entries(path)
end

local function stray(path)
  for _, name in ipairs(names(path)) do
    if name:find "%.part" then return name end
  end
end

local function set(n, text)
  local list = {}
  for i = 1, n do list[i] = {name = ("f%d.txt"):format(i), text = text} end
  return list
end

function T.test_a_file_is_replaced_whole()
  local dir <close> = drawing.folder()
  local path = dir.path .. "/a.txt"
  lu.assertTrue(ns.write(path, "one"))
  lu.assertTrue(ns.write(path, "two"))
  lu.assertEquals(drawing.read_file(path), "two")
  lu.assertEquals(names(dir.path), {"a.txt"})
  local out = assert(file.stream(path))
  lu.assertTrue(out:write "three")
  lu.assertEquals(drawing.read_file(path), "two")
  out:abandon()
  lu.assertEquals(drawing.read_file(path), "two")
  lu.assertEquals(names(dir.path), {"a.txt"})
end

-- Two writers of one path: each has a file of its own, the last to close stays.
function T.test_two_writers_do_not_mix()
  local dir <close> = drawing.folder()
  local path = dir.path .. "/a.txt"
  local a, b = assert(file.stream(path)), assert(file.stream(path))
  a:write "aaaa"
  b:write "bb"
  a:write "aaaa"
  lu.assertTrue(a:close())
  lu.assertEquals(drawing.read_file(path), "aaaaaaaa")
  lu.assertTrue(b:close())
  lu.assertEquals(drawing.read_file(path), "bb")
end

-- POSIX: mode, links, and what is no regular file.
function T.test_what_is_there_keeps_its_mode_and_links()
  system.unix "modes, links and pipes"
  local dir <close> = drawing.folder()
  local d = dir.path
  sh("cd '%s' && printf x >real && chmod 640 real && ln -s real link "
    .. "&& ln -s no dangling && mkfifo pipe && mkdir sub", d)
  lu.assertTrue(ns.write(d .. "/link", "new"))
  lu.assertEquals(drawing.read_file(d .. "/real"), "new")
  lu.assertTrue(sh("test -L '%s/link'", d))
  lu.assertTrue(sh("test \"$(stat -c %%a '%s/real')\" = 640", d))
  for name, says in pairs {pipe = "no regular file", sub = "is a folder",
    dangling = "leads nowhere"} do
    local ok, why = ns.write(d .. "/" .. name, "x")
    lu.assertNil(ok)
    lu.assertStrContains(why, says)
  end
  lu.assertTrue(sh("test -p '%s/pipe' && test -L '%s/dangling'", d, d))
  local ok, why = ns.write("/dev/null", "x")
  lu.assertNil(ok)
  lu.assertStrContains(why, "no regular file")
  lu.assertTrue(sh "test -c /dev/null")
  lu.assertNil(stray(d))
end

function T.test_paths_that_no_file_can_have()
  for _, path in ipairs {"", "a\0b", ("x"):rep(5000)} do
    local ok, why = ns.write(path, "x")
    lu.assertNil(ok)
    lu.assertStrContains(why, "cannot write")
    lu.assertNil(folder.kind(path))
    lu.assertNil(folder.entries(path))
    lu.assertNil((folder.add(path)))
  end
  local dir <close> = drawing.folder()
  local long = dir.path .. "/" .. ("n"):rep(255)
  lu.assertTrue(ns.write(long, "x"))
  lu.assertEquals(drawing.read_file(long), "x")
  lu.assertErrorMsgContains("path (string) or an open file expected", ns.write, 7, "x")
  lu.assertErrorMsgContains("text (string) expected", ns.write, "x", 7)
end

-- Names are UTF-8 on every system, in folders, files, moves and sets.
function T.test_names_of_other_alphabets()
  local dir <close> = drawing.folder()
  local path = dir.path .. "/Geb\u{E4}lk \u{6881} \u{5D0}"
  local name = "\u{440}\u{430}\u{437}\u{440}\u{435}\u{437} \u{1F4D0}.txt"
  assert(folder.make(path))
  lu.assertTrue(ns.write(path .. "/" .. name, "one"))
  lu.assertTrue(ns.write(path .. "/" .. name, "two"))
  lu.assertEquals(names(path), {name})
  lu.assertEquals(file.read(path .. "/" .. name), "two")
  lu.assertTrue(core.files.move(path .. "/" .. name, path .. "/\u{3B2}"))
  lu.assertEquals(names(path), {"\u{3B2}"})
  lu.assertEquals(drawing.read_file(path .. "/\u{3B2}"), "two") -- by Lua's own io.open
  lu.assertEquals(file_set.write(set(2, "x"), path .. "/\u{4E3B}"), 2)
  lu.assertEquals(names(path .. "/\u{4E3B}"), {"f1.txt", "f2.txt", file_set.list})
end

-- Windows replaces no file that another program has open: said, and the old one stands.
function T.test_a_file_that_is_open_elsewhere()
  if not system.windows then lu.skip "of Windows alone: files that are held" end
  local dir <close> = drawing.folder()
  local path = dir.path .. "/a.csv"
  lu.assertTrue(ns.write(path, "old"))
  local held = assert(io.open(path, "rb"))
  local ok, why = ns.write(path, "new")
  lu.assertNil(ok)
  lu.assertStrContains(why, "open in another program")
  lu.assertEquals(held:read "a", "old")
  held:close()
  lu.assertEquals(drawing.read_file(path), "old")
  lu.assertNil(stray(dir.path))
  lu.assertTrue(ns.write(path, "new"))
  lu.assertEquals(drawing.read_file(path), "new")
end

-- A file is held by one at a time, until it is closed.
function T.test_a_lock_is_held_by_one()
  local dir <close> = drawing.folder()
  local path = dir.path .. "/held"
  drawing.write_file(path, "x")
  local first = assert(core.files.lock(path))
  lu.assertNil((core.files.lock(path)))
  first:close()
  local second <close> = assert(core.files.lock(path))
  lu.assertNotNil(second)
end

function T.test_an_open_file_is_written_and_left_open()
  local out = io.tmpfile()
  lu.assertTrue(ns.write(out, "ab"))
  lu.assertTrue(ns.write(out, "cd"))
  out:seek("set", 0)
  lu.assertEquals(out:read "a", "abcd")
  out:close()
end

-- "-" is standard output: pieces as they come, and a full disk is said.
function T.test_standard_output_by_its_name()
  local dir <close> = drawing.folder()
  local script = dir.path .. "/out.lua"
  drawing.write_file(script, [[
    local file = require "netsection.file"
    local ok, why = file.write("-", ("ab"):rep(40000))
    local out = file.stream "-"
    if ok then ok, why = out:write "cd" end
    if ok then ok, why = out:close() end
    out:abandon()
    if not ok then io.stderr:write(why) os.exit(3) end]])
  lu.assertEquals((system.script(script)), ("ab"):rep(40000) .. "cd")
  if system.windows or not folder.kind "/dev/full" then return end
  local _, _, code = sh("'%s' '%s' >/dev/full 2>'%s/said'", arg[-1], script, dir.path)
  lu.assertEquals(code, 3)
  lu.assertStrContains(drawing.read_file(dir.path .. "/said"), "cannot write")
  lu.assertEquals(names(dir.path), {"out.lua", "said"})
end

-- Others cannot look into a folder for temporary files.
function T.test_a_private_folder_is_private()
  local path = assert(core.files.private_folder())
  lu.assertTrue(system.windows or sh("test \"$(stat -c %%a '%s')\" = 700", path))
  local other = assert(core.files.private_folder())
  lu.assertNotEquals(other, path)
  lu.assertTrue(folder.remove_own(path) and folder.remove_own(other))
  lu.assertNil(folder.kind(path))
end

-- A full disk is a message, and what stood there stands.
function T.test_a_full_disk_is_noticed()
  if not folder.kind "/dev/full" then lu.skip "no /dev/full here" end
  local full = assert(io.open("/dev/full", "wb"))
  local ok, why = ns.write(full, ("x"):rep(1 << 16))
  lu.assertNil(ok)
  lu.assertStrContains(why, "cannot write")
  full:setvbuf "no"
  full:close()
end

function T.test_a_file_is_read_if_it_is_one()
  local dir <close> = drawing.folder()
  drawing.write_file(dir.path .. "/a", "text")
  lu.assertEquals(file.read(dir.path .. "/a"), "text")
  local device = system.windows and "NUL" or "/dev/zero"
  for _, path in ipairs {dir.path, device, dir.path .. "/none"} do
    local text, why = file.read(path)
    lu.assertNil(text)
    lu.assertStrContains(why, "cannot be read")
  end
  if not system.windows then
    sh("mkfifo '%s/pipe'", dir.path)
    lu.assertNil((file.read(dir.path .. "/pipe")))
  end
  local text, why = file.read(dir.path .. "/a", 3)
  lu.assertNil(text)
  lu.assertStrContains(why, "at most 3")
end

function T.test_a_set_replaces_its_own_files_alone()
  local dir <close> = drawing.folder()
  local path = dir.path .. "/out"
  lu.assertEquals(file_set.write(set(4, "old"), path), 4)
  local ok, why = file_set.write(set(2, "new"), path)
  lu.assertNil(ok)
  lu.assertStrContains(why, "not empty")
  lu.assertEquals(drawing.read_file(path .. "/f4.txt"), "old")
  -- Nothing of another's in it: f3 and f4 of before are gone.
  lu.assertEquals(file_set.write(set(2, "new"), path, {replace = true}), 2)
  lu.assertEquals(names(path), {"f1.txt", "f2.txt", file_set.list})
  -- With a file of the user's, which stays.
  drawing.write_file(path .. "/mine.txt", "mine")
  assert(folder.make(path .. "/keep"))
  drawing.write_file(path .. "/keep/k", "k")
  local sub = set(1, "third")
  sub[2] = {name = "sub/g.txt", text = "g"}
  lu.assertEquals(file_set.write(sub, path, {replace = true}), 2)
  lu.assertEquals(names(path), {"f1.txt", file_set.list, "keep", "mine.txt", "sub"})
  lu.assertEquals(drawing.read_file(path .. "/mine.txt"), "mine")
  lu.assertEquals(drawing.read_file(path .. "/keep/k"), "k")
  lu.assertEquals(drawing.read_file(path .. "/f1.txt"), "third")
  lu.assertNil(stray(dir.path))
  lu.assertNil(stray(path))
end

-- One of the files cannot be put in place: all of before stand.
function T.test_a_set_that_fails_leaves_the_one_before()
  local dir <close> = drawing.folder()
  local path = dir.path .. "/out"
  file_set.write(set(3, "old"), path)
  assert(folder.make(path .. "/g.txt/deep"))
  drawing.write_file(path .. "/g.txt/deep/u", "u")
  local move, calls = core.files.move, 0
  core.files.move = function(from, to) -- luacheck: ignore
    calls = calls + 1
    if to:find "/f3%.txt$" and not from:find "before" then return nil, "planted" end
    return move(from, to)
  end
  local ok, why = file_set.write(set(3, "new"), path, {replace = true})
  core.files.move = move -- luacheck: ignore
  lu.assertNil(ok)
  lu.assertStrContains(why, "planted")
  lu.assertTrue(calls > 3)
  for i = 1, 3 do
    lu.assertEquals(drawing.read_file(("%s/f%d.txt"):format(path, i)), "old")
  end
  lu.assertNil(stray(dir.path))
end

function T.test_names_outside_the_folder_are_refused()
  local dir <close> = drawing.folder()
  for _, name in ipairs {"../x", "/x", "", "a/../../x", "a\nb", "./x", "c:\\x",
    file_set.list} do
    lu.assertError(file_set.write, {{name = name, text = ""}}, dir.path .. "/o")
  end
  lu.assertNil(folder.kind(dir.path .. "/o"))
end

-- Runs that are killed at any moment leave the old set or the new one, and nothing whose
-- name is not ours.
local KILLED = [[
local file_set = require "netsection.file_set"
local set = {}
for i = 1, 30 do set[i] = {name = "f" .. i .. ".txt", text = (arg[2]
  .. "\n"):rep(2000)} end
for _ = 1, 1000 do file_set.write(set, arg[1], {replace = true}) end
]]

function T.test_killed_runs_leave_a_whole_set()
  system.unix "a kill by its shell"
  local dir <close> = drawing.folder()
  local path = dir.path .. "/out"
  drawing.write_file(dir.path .. "/run.lua", KILLED)
  local old = set(0)
  for i = 1, 30 do
    old[i] = {name = ("f%d.txt"):format(i), text = ("old\n"):rep(2000)}
  end
  file_set.write(old, path)
  -- A busy machine needs longer before the first set is changed.
  local changed, seconds = 0, 0.02
  for i = 1, 40 do
    sh("timeout -s KILL %.3f '%s' '%s/run.lua' '%s' run%d >/dev/null 2>&1",
      seconds + i / 1000, arg[-1], dir.path, path, i)
    local first = drawing.read_file(path .. "/f1.txt")
    if first:find("^run" .. i) then changed = changed + 1 else seconds = seconds * 1.2 end
    for k = 2, 30 do
      lu.assertEquals(drawing.read_file(("%s/f%d.txt"):format(path, k)), first)
    end
  end
  lu.assertTrue(changed > 5, changed)
  for _, name in ipairs(names(dir.path)) do
    lu.assertTrue(name == "out" or name == "run.lua"
      or name:find "^%.netsection%-%x+%.part" ~= nil, name)
  end
end

-- A run that is stopped in the middle of putting its files among the user's own, after
-- any number of steps: the next one takes it back, so that nothing of it stays, and
-- what the user keeps there does.
function T.test_a_run_stopped_among_files_of_the_user_is_taken_back()
  local move = core.files.move
  local stopped = 0
  for k = 1, 20 do
    local dir <close> = drawing.folder()
    local path = dir.path .. "/out"
    file_set.write(set(3, "old"), path)
    drawing.write_file(path .. "/mine.txt", "mine")
    local killed = set(4, "killed")
    killed[5] = {name = "sub/only.txt", text = "killed"}
    local calls = 0
    core.files.move = function(from, to) -- luacheck: ignore
      calls = calls + 1
      if calls == k then error "stopped" end
      return move(from, to)
    end
    local ended = pcall(file_set.write, killed, path, {replace = true})
    core.files.move = move -- luacheck: ignore
    if ended then break end
    stopped = stopped + 1
    -- A run that fails leaves what recovery gave: the set of before, whole.
    core.files.move = function(from, to) -- luacheck: ignore
      if from:find "%.part/f1%.txt$" then return nil, "planted" end
      return move(from, to)
    end
    lu.assertNil((file_set.write(set(1, "new"), path, {replace = true})))
    core.files.move = move -- luacheck: ignore
    for i = 1, 3 do
      lu.assertEquals(drawing.read_file(("%s/f%d.txt"):format(path, i)), "old", k)
    end
    lu.assertNil(folder.kind(path .. "/f4.txt"))
    lu.assertNil(folder.kind(path .. "/sub/only.txt"))
    lu.assertEquals(file_set.write(set(2, "new"), path, {replace = true}), 2)
    lu.assertEquals(drawing.read_file(path .. "/f2.txt"), "new")
    lu.assertNil(folder.kind(path .. "/f3.txt"))
    lu.assertEquals(drawing.read_file(path .. "/mine.txt"), "mine")
    lu.assertNil(stray(dir.path))
  end
  lu.assertTrue(stopped >= 8, stopped)
end

-- One that still runs is left alone, and said.
function T.test_a_run_that_goes_on_is_not_taken_back()
  local dir <close> = drawing.folder()
  local path = dir.path .. "/out"
  file_set.write(set(2, "old"), path)
  drawing.write_file(path .. "/mine.txt", "mine")
  local move, inner, why = core.files.move, nil, nil
  core.files.move = function(from, to) -- luacheck: ignore
    if not inner and to:find "/f2%.txt$" then
      inner, why = "none", nil
      local ok, said = file_set.write(set(2, "other"), path, {replace = true})
      inner, why = tostring(ok), said
    end
    return move(from, to)
  end
  lu.assertEquals(file_set.write(set(2, "new"), path, {replace = true}), 2)
  core.files.move = move -- luacheck: ignore
  lu.assertEquals(inner, "nil")
  lu.assertStrContains(why, "another run is writing there")
  lu.assertEquals(drawing.read_file(path .. "/f1.txt"), "new")
  lu.assertEquals(drawing.read_file(path .. "/f2.txt"), "new")
end

-- The guard that keeps a package out of its survey goes by what the folder is.
function T.test_folders_are_told_apart_by_what_they_are()
  system.unix "links"
  local dir <close> = drawing.folder()
  local same = require "netsection.command.survey_folder".same
  sh("cd '%s' && mkdir a b && ln -s a link", dir.path)
  lu.assertTrue(same(dir.path .. "/a", dir.path .. "/link"))
  lu.assertTrue(same(dir.path .. "/a", dir.path .. "/b/../a/"))
  lu.assertFalse(same(dir.path .. "/a", dir.path .. "/b"))
  lu.assertFalse(same(dir.path .. "/a", dir.path .. "/none"))
end

-- A program that does not end, or draws something else than a picture, is a note.
function T.test_gnuplot_is_held_to_time_and_pictures()
  system.unix "its commands"
  local dir <close> = drawing.folder()
  local draws = {{"one", function(output) return "set output '" .. output .. "'\n" end}}
  local run = core.files.run
  core.files.run = function(_, said) -- luacheck: ignore
    return run({"sleep", "30"}, said, 0.05)
  end
  local pictures, why = render.svg(draws)
  lu.assertNil(pictures)
  lu.assertStrContains(why, "took too long")
  core.files.run = function() return 0 end -- luacheck: ignore
  pictures, why = render.svg(draws)
  core.files.run = run -- luacheck: ignore
  lu.assertNil(pictures)
  lu.assertStrContains(why, "made no picture of one")
  -- Words reach a program as they are; no shell looks at them.
  local code = run({"printf", "%s", "$(id) `id` ; 'x'"}, dir.path .. "/said", 5)
  lu.assertEquals(code, 0)
  lu.assertEquals(drawing.read_file(dir.path .. "/said"), "$(id) `id` ; 'x'")
  lu.assertEquals(run({"false"}, dir.path .. "/said", 5), 1)
  lu.assertNil((run({"no-such-program-here"}, dir.path .. "/said", 5)))
end

return T
