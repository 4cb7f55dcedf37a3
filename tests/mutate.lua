-- SPDX-License-Identifier: MIT
-- How many slips the tests notice: seeded mutants of the C core and of the checks in Lua,
-- one at a time, each built in a copy of the checkout (one object and the link), given
-- to the tests that reach its line (tests/reach.lua; without its sets to all), those
-- first that noticed most for their time, until one fails; with SANITIZERS=1 what none
-- notices goes to the tests in C once more, under the sanitizers. A slip that does not
-- compile is none: another is drawn. What was found is kept in build/mutants_SEED.txt, a
-- row each, and a run goes on from there; survivors are tried again by RETRY=1, after
-- tests were written for them.
--
--   lua tests/mutate.lua N SEED      N mutants, two thirds of them in C
--   lua tests/mutate.lua N SEED --tell   tells what was found by now
--   MINUTES=60                       no new one is begun after that
--   EACH=60                          seconds of tests a mutant at most
--   PART=1/2                         every second one, in a copy of its own: two runs
--                                    side by side, then one without it for what is left
package.path = "./?.lua;" .. package.path
local reach = require "tests.reach"
local equivalents = require "tests.mutants_equivalent"

local N, SEED = tonumber(arg[1] or 20), tonumber(arg[2] or 1)
local MINUTES = tonumber(os.getenv "MINUTES" or "") or 1e6
local EACH = tonumber(os.getenv "EACH" or "") or 60
local PART, PARTS = (os.getenv "PART" or "1/1"):match "^(%d+)/(%d+)$"
local COPY = PARTS == "1" and "build/mutants" or "build/mutants_part" .. PART
local KEPT = ("build/mutants_%d.txt"):format(SEED)
local OPEN = COPY .. "/open.txt" -- names the file that has a slip now
local LIMIT = 60 -- seconds of processor time of a test; one that hangs is noticed
local RETRY = os.getenv "RETRY" == "1"
local SANITIZERS = os.getenv "SANITIZERS" == "1"
local LUA = arg[-1]
local MODULE = "lua/netsection/core.so" -- where the tests of the copy look for it
local OPT = "-O1 -DNS_CLONES= -DNS_NO_COPY"
local ASAN = "-O1 -g -fsanitize=address,undefined -fno-sanitize-recover=all -DNS_CLONES="

-- What is done to a line: a pattern and what takes its place. Remarks and texts are left.
local SLIPS = {
  {"([%w%)%]]) %+ ([%w%(])", "%1 - %2"}, {"([%w%)%]]) %- ([%w%(])", "%1 + %2"},
  {"([%w%)%]]) %* ([%w%(])", "%1 / %2"}, {"([%w%)%]]) / ([%w%(])", "%1 * %2"},
  {" < ", " <= "}, {" <= ", " < "}, {" > ", " >= "}, {" >= ", " > "},
  {" == ", " != ", c = true}, {" == ", " ~= ", lua = true},
  {" && ", " || ", c = true}, {" and ", " or ", lua = true},
  {"%f[%w.]2%f[^%w.]", "3"}, {"%f[%w.]1%f[^%w.]", "2"}, {"%f[%w.]0%f[^%w.]", "1"},
}

-- The checks that are worked in Lua: repairs, plies, neighbors, members, gates of packs.
local LUA_FILES = "ls lua/netsection/fix/*.lua lua/netsection/member/*.lua "
  .. "lua/netsection/load_path/*.lua lua/netsection/ply*.lua "
  .. "lua/netsection/neighbors.lua "
  .. "lua/netsection/verdict.lua lua/netsection/model.lua lua/netsection/checks.lua "
  .. "lua/netsection/lateral.lua lua/netsection/fastener_group.lua "
  .. "lua/netsection/spans.lua "
  .. "lua/netsection/largest.lua lua/netsection/profile.lua lua/netsection/shores.lua "
  .. "lua/netsection/packs/check.lua"

-- SplitMix64, so that a seed names the same mutants on every machine.
local state = SEED
local function draw(n)
  state = state + 0x9E3779B97F4A7C15
  local z = state
  z = (z ~ z >> 30) * 0xBF58476D1CE4E5B9
  z = (z ~ z >> 27) * 0x94D049BB133111EB
  z = z ~ z >> 31
  return (z >> 1) % n + 1
end

local function lines_of(command)
  local list = {}
  local pipe <close> = assert(io.popen(command))
  for line in pipe:lines() do list[#list + 1] = line end
  table.sort(list)
  return list
end

local function read(path)
  local file <close> = assert(io.open(path, "rb"))
  return file:read "a"
end

local function write(path, text)
  local file <close> = assert(io.open(path, "wb"))
  assert(file:write(text))
end

local function trimmed(line)
  return line:match "^%s*(.-)%s*$"
end

-- The code of a line without its remark; nil where there is none to change.
local function code_of(line, is_c)
  if line:find "^%s*[/*#]" or line:find "^%s*%-%-" or line:find "[\"']" then
    return nil
  end
  return is_c and line:gsub("/%*.*", "") or line:gsub("%-%-.*", "")
end

-- All places where a slip could be made: {path =, line =, slip =}.
local function places_of(paths)
  local places = {}
  for _, path in ipairs(paths) do
    local is_c, in_remark, n = path:find "%.[ch]$" ~= nil, false, 0
    for line in (read(path) .. "\n"):gmatch "(.-)\n" do
      n = n + 1
      if is_c and line:find "/%*" and not line:find "%*/" then in_remark = true end
      local code = not in_remark and code_of(line, is_c)
      for s, slip in ipairs(code and SLIPS or {}) do
        local fits = not (slip.c and not is_c) and not (slip.lua and is_c)
        local from = fits and code:find(slip[1])
        if from then places[#places + 1] = {path = path, line = n, slip = s} end
      end
      if is_c and line:find "%*/" then in_remark = false end
    end
  end
  return places
end

-- The file with one slip, the line as it was and as it is.
local function mutated(place)
  local out, n, was, is = {}, 0, nil, nil
  for line in (read(place.path) .. "\n"):gmatch "(.-)\n" do
    n = n + 1
    if n == place.line then
      was = line
      line = line:gsub(SLIPS[place.slip][1], SLIPS[place.slip][2], 1)
      is = line
    end
    out[#out + 1] = line
  end
  return (table.concat(out, "\n"):gsub("\n$", "")), trimmed(was), trimmed(is)
end

-- Seconds that tests took in this run, by name.
local took = {}

-- Time is processor time: on a busy machine a clock on the wall would call a slow test
-- one that noticed. @return true, false, or nil where it did not end; seconds it took
local function quiet(command, seconds)
  local pipe = assert(io.popen(("cd '%s' && (ulimit -t %d && timeout 1800 %s) "
    .. ">/dev/null 2>&1; echo $?; times"):format(COPY, seconds, command)))
  local said = pipe:read "a"
  pipe:close()
  local code, m1, s1, m2, s2 = said:match
    "^(%d+)\n.*\n(%d+)m([%d.]+)s (%d+)m([%d.]+)s"
  if code == "124" then return nil end
  return code == "0", 60 * (m1 + m2) + s1 + s2
end

local function make(target)
  return quiet(("make BUILD=build/m MODULE=%s OPT='%s' WERROR= %s"):format(MODULE, OPT,
    target), 600)
end

-- The line by which a place is known to the counters: data and lines that go on have none
-- of their own, so the one before that has, within its function or table; else the file.
local function counted_line(sets, place)
  for line = place.line, math.max(1, place.line - 40), -1 do
    local key = ("%s %d"):format(place.path, line)
    for _, t in pairs(sets) do
      if t.reached[key] or t.lines[key] ~= nil then return key end
    end
  end
  return place.path
end

-- Left out: files that look at the source itself, or build it, so that any slip would be
-- noticed by them; and those that take minutes.
local LEFT = {test_additions = true, test_map = true, test_spelling = true,
  test_lua_rooms = true, test_rooms = true, test_kills = true,
  test_unit_literals = true, test_reference = true, oom = true,
  test_bindings = true, growth_test = true, test_release = true}

local function seconds_of(sets, name)
  return took[name] or sets[name] and sets[name].seconds or 5
end

local function all_names(sets)
  local list = {}
  for _, name in ipairs(reach.tests()) do
    local t = sets[name]
    if not LEFT[name] and not (t and t.passed == false) then list[#list + 1] = name end
  end
  return list
end

-- Test files that reach a line (all where that is not known), those first that noticed
-- most for their time.
local function tests_for(sets, place, score)
  local list, key = {}, counted_line(sets, place)
  local whole_file = key == place.path
  for _, name in ipairs(all_names(sets)) do
    local t = sets[name]
    local reached = not t or not t.counted or t.reached[key]
    for other in pairs(t and whole_file and t.reached or {}) do
      reached = reached or other:sub(1, #key + 1) == key .. " "
    end
    if name == "core_test" then reached = place.path:find "%.c$" end
    if reached then list[#list + 1] = name end
  end
  local function worth(name)
    return ((score[name] or 0) + 0.3) / (seconds_of(sets, name) + 1)
  end
  table.sort(list, function(a, b)
    if worth(a) ~= worth(b) then return worth(a) > worth(b) end
    return a < b
  end)
  return list
end

local function run_test(name, seconds)
  local ok, spent
  if name == "core_test" then
    if not make "build/m/core_test" then return false end
    ok, spent = quiet("build/m/core_test --first", seconds)
  else
    local what = name == "examples" and "tests/examples.lua" or "tests/run.lua -q -f"
    ok, spent = quiet(("env NETSECTION_FILES='%s' '%s' %s"):format(name, LUA, what),
      seconds)
  end
  if ok then took[name] = spent end
  return ok
end

-- The tests in C under the address and undefined-behavior sanitizers.
local function sanitizers_notice()
  return quiet(("make BUILD=build/ma OPT='%s' WERROR= build/ma/core_test"):format(ASAN),
    900) and quiet("build/ma/core_test --first", 300) == false
end

-- Who noticed: a test file, "sanitizers", or nil with a reason; "compiler": no program.
local function noticed_by(place, sets, score)
  local is_c = place.path:find "%.c$"
  -- The copy has no single program: a slip in it is drawn again.
  if place.path:find "^csrc/program/" then return "compiler" end
  if is_c and not make "all" then return "compiler" end
  local left, tests, why = EACH, tests_for(sets, place, score), nil
  for i, name in ipairs(tests) do
    if run_test(name, LIMIT) == false then return name end
    left = left - seconds_of(sets, name)
    if left <= 0 then
      why = ("%d of %d tests that may reach it"):format(i, #tests)
      break
    end
  end
  if is_c and SANITIZERS and sanitizers_notice() then return "sanitizers" end
  return nil, why or ("all %d tests that may reach it"):format(#tests)
end

-- The mutants in the order in which they are tried: two of C, one of Lua.
local function drawn()
  local c = places_of(lines_of "find csrc -name '*.c' -not -path 'csrc/lua/*'")
  local lua = places_of(lines_of(LUA_FILES))
  print(("%d places in C, %d in Lua; seed %d"):format(#c, #lua, SEED))
  local list = {}
  for i = 1, 2 * N do -- some do not compile
    local room = i % 3 == 0 and lua or c
    if #room > 0 then list[i] = table.remove(room, draw(#room)) end
  end
  return list
end

-- Rows "by, place with its slip, why" of the runs before, by place.
local function kept()
  local all = {}
  local file <close> = io.open(KEPT)
  for row in file and file:lines() or function() end do
    local by, name, why = row:match "^(.-)\t(.-)\t(.*)$"
    all[name] = {by = by ~= "SURVIVED" and by or nil, why = why}
  end
  return all
end

local function keep(name, by, why)
  local file <close> = assert(io.open(KEPT, "a"))
  file:write(by or "SURVIVED", "\t", name, "\t", why or "", "\n")
end

-- The first two thirds of N in C and one third in Lua that compile, or are not known yet.
local function asked(found, list)
  local left, out = {c = N - N // 3, lua = N // 3}, {}
  for _, place in ipairs(list) do
    local room = place.path:find "%.c$" and "c" or "lua"
    local f = found[place.name]
    if left[room] > 0 and not (f and f.by == "compiler") then
      left[room] = left[room] - 1
      out[#out + 1] = place
    end
  end
  return out
end

local function say(found, list)
  local by_room, same, survived = {c = {0, 0}, lua = {0, 0}}, 0, {}
  for _, place in ipairs(asked(found, list)) do
    local name = place.name
    local f = found[name]
    if equivalents[name] then
      same = same + 1
    elseif f then
      local room = by_room[place.path:find "%.c$" and "c" or "lua"]
      room[1], room[2] = room[1] + (f.by and 1 or 0), room[2] + 1
      if not f.by then survived[#survived + 1] = name .. "  [" .. f.why .. "]" end
    end
  end
  table.sort(survived)
  for _, line in ipairs(survived) do print("survived  " .. line) end
  local c, lua = by_room.c, by_room.lua
  local n, tried = c[1] + lua[1], c[2] + lua[2]
  print(("mutants: %d of %d noticed (%.1f %%; C %d of %d, Lua %d of %d), %d equivalent, "
    .. "%d asked for, seed %d"):format(n, tried, tried > 0 and 100 * n / tried or 0, c[1],
    c[2], lua[1], lua[2], same, N, SEED))
end

-- A copy that was there is used again; what a run that was stopped left changed in it is
-- made new.
local function copied()
  local changed = {}
  for _, row in ipairs(lines_of(("diff -rq csrc '%s/csrc' 2>/dev/null"):format(COPY))) do
    changed[#changed + 1] = row:match "^Files (%S+) and"
  end
  for _, path in ipairs(lines_of(("cat '%s' 2>/dev/null"):format(OPEN))) do
    changed[#changed + 1] = path -- its object may still be that of the slip
  end
  assert(os.execute(("mkdir -p '%s' && rm -rf '%s/lua' '%s/tests' && cp -rp Makefile .ci "
    .. ".luacheckrc csrc lua tests plots examples *.md *.rockspec LICENSE '%s'"):format(
    COPY, COPY, COPY, COPY)))
  for _, path in ipairs(changed) do
    assert(os.execute(("touch '%s/%s'"):format(COPY, path)))
  end
  assert(os.execute(("rm -f '%s/%s'"):format(COPY, MODULE)))
  assert(make "all build/m/core_test", "the copy does not build")
  assert(os.execute(("cp -p '%s/%s' '%s/sound.so'"):format(COPY, MODULE, COPY)))
end

-- A test notices a slip only if it passes without it, which is looked at once for each.
local sound = {core_test = true, sanitizers = true, compiler = true}

local function is_sound(name, place, text)
  if sound[name] ~= nil then return sound[name] end
  write(COPY .. "/" .. place.path, read(place.path))
  local swap = "cd '" .. COPY .. "' && cp -p %s %s"
  assert(os.execute(swap:format(MODULE, "slip.so")))
  assert(os.execute(swap:format("sound.so", MODULE)))
  sound[name] = run_test(name, LIMIT) == true
  assert(os.execute(swap:format("slip.so", MODULE)))
  write(COPY .. "/" .. place.path, text)
  return sound[name]
end

local function try(place, sets, score)
  local original, text = read(place.path), (mutated(place))
  write(OPEN, place.path .. "\n")
  local by, why
  repeat
    write(COPY .. "/" .. place.path, text)
    by, why = noticed_by(place, sets, score)
    local trusted = not by or is_sound(by, place, text)
    if not trusted then
      print("fails without any slip: " .. by)
      sets[by] = sets[by] or {reached = {}, lines = {}, seconds = 0}
      sets[by].passed = false
    end
  until trusted
  write(COPY .. "/" .. place.path, original)
  if place.path:find "%.c$" then make "all" end
  os.remove(OPEN)
  print(("%s  %s"):format(by or "SURVIVED", place.name))
  io.stdout:flush()
  return by, why
end

-- Tries what is asked for and not known: at first, then for those that did not compile.
local function try_all(list, found, sets, stop)
  local unknown
  local score = {core_test = 1, test_lrfd = 3, test_plain_review = 1}
  for _, f in pairs(found) do if f.by then score[f.by] = (score[f.by] or 0) + 1 end end
  repeat
    for i, place in ipairs(asked(found, list)) do
      local f = found[place.name]
      if os.time() > stop then return end
      local again = RETRY and f and not f.by and not f.again
      local ours = i % PARTS == PART % PARTS
      if ours and not equivalents[place.name] and (not f or again) then
        local by, why = try(place, sets, score)
        keep(place.name, by, why)
        if by then score[by] = (score[by] or 0) + 1 end
        found[place.name] = {by = by, why = why or "", again = true}
      end
    end
    unknown = 0
    for _, place in ipairs(asked(found, list)) do
      unknown = unknown + ((found[place.name] or equivalents[place.name]) and 0 or 1)
    end
  until unknown == 0 or PARTS ~= "1"
end

local function main()
  local list, found = drawn(), kept()
  for _, place in ipairs(list) do
    local _, was, is = mutated(place)
    place.name = ("%s: %s -> %s"):format(place.path, was, is)
  end
  if arg[3] == "--tell" then return say(found, list) end
  copied()
  try_all(list, found, reach.read(), os.time() + 60 * MINUTES)
  say(found, list)
end

main()
