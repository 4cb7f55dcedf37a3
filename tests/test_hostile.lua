-- SPDX-License-Identifier: MIT
-- Nothing is let in, nothing of another's is lost: code in the folder where the command
-- is started, texts that would steer a terminal, lists that change while they are read,
-- finalizers, a full disk, an installation over another.
local core = require "netsection.core"
local drawing = require "tests.drawing"
local folder = require "netsection.folder"
local lu = require "luaunit"
local model = require "netsection.model"
local ns = require "netsection"
local parts = require "netsection.parts"
local support = require "tests.support"
local system = require "tests.system"

local T = {}


local function sh(command, ...)
  return os.execute((command:format(...)))
end

local quoted = system.quoted

local function joist(changes)
  local t = {mark = "J", size = "2x10", species = "spf", grade = "No.2", span = "12-0",
    spacing = 16, dead = 10, live = 40, bearing = 3.5}
  for name, value in pairs(changes or {}) do t[name] = value end
  return t
end

--------------------------------------------------------------------------- the command

-- Every module that the command may ask for stands in the folder it is started in, as
-- Lua, and as a library where Lua looks for one.
function T.test_no_code_of_the_folder_it_is_started_in()
  system.unix "the launcher"
  local dir <close> = drawing.folder()
  local planted = "local f = io.open('ran', 'a') f:write((...) or '?', '\\n') f:close()"
  local names = {"lpeg", "re", "dkjson", "zlib", "lxp", "lfs", "netsection"}
  for name in pairs(package.loaded) do
    if name:find "^netsection" then names[#names + 1] = name end
  end
  for _, name in ipairs(names) do
    local path = dir.path .. "/" .. name:gsub("%.", "/")
    assert(folder.make(path))
    drawing.write_file(path .. ".lua", planted)
    drawing.write_file(path .. "/init.lua", planted)
    drawing.write_file(path .. ".so", "no library")
  end
  drawing.write_file(dir.path .. "/planted.lua", planted)
  local code = ("cd %s && export LUA_PATH='./?.lua;./?/init.lua;;' LUA_CPATH='./?.so;;' "
    .. "LUA_INIT=@planted.lua LUA_INIT_5_4=@planted.lua LUA_PATH_5_4='./?.lua;;' && ")
    :format(quoted(dir.path))
  local command = quoted(system.launcher())
  lu.assertTrue(sh("%s %s rules >out 2>&1 && %s template book >>out 2>&1", code, command,
    command), drawing.read_file(dir.path .. "/out"))
  lu.assertNotNil(folder.kind(dir.path .. "/book/joists.csv"))
  lu.assertNil(drawing.read_file(dir.path .. "/ran"))
  -- a canary: this is what running something would look like
  sh("%s lua5.4 -e 'x = 1' >/dev/null 2>&1 || %s '%s' -e 'x = 1' >/dev/null 2>&1", code,
    code, arg[-1])
  lu.assertNotNil(drawing.read_file(dir.path .. "/ran"))
end

function T.test_a_full_disk_on_standard_output()
  system.unix "the launcher"
  if not folder.kind "/dev/full" then lu.skip "no /dev/full here" end
  local dir <close> = drawing.folder()
  local _, _, code = sh("%s rules >/dev/full 2>%s", quoted(system.launcher()),
    quoted(dir.path .. "/err"))
  lu.assertEquals(code, 74)
  lu.assertStrContains(drawing.read_file(dir.path .. "/err"), "standard output")
end

--------------------------------------------------------------------------- installation

local function installed(prefix, verb)
  return sh("LUADIR=%s LIBDIR=%s BINDIR=%s LUA=%s MODULE=lua/netsection/core.so "
    .. "sh .ci/install %s >/dev/null 2>&1", quoted(prefix .. "/share/lua/5.4"),
    quoted(prefix .. "/lib/lua/5.4"), quoted(prefix .. "/bin"), quoted(arg[-1]), verb)
end

function T.test_an_installation_touches_its_own_files_alone()
  system.unix "its installation"
  if not folder.kind "lua/netsection/core.so" then lu.skip "another build" end
  local dir <close> = drawing.folder()
  local prefix = dir.path .. "/a 'b' \"c\" & d|e"
  local share = prefix .. "/share/lua/5.4/netsection"
  lu.assertTrue(installed(prefix, "put"))
  drawing.write_file(share .. "/data/rules/own.lua", "return {}")
  -- a module of an earlier version, which is in its list
  drawing.write_file(share .. "/gone.lua", "")
  local list = drawing.read_file(share .. "/files-installed.txt")
  drawing.write_file(share .. "/files-installed.txt", list
    .. "netsection/gone.lua\nnetsection/../kept.lua\nother/x\n")
  drawing.write_file(prefix .. "/share/lua/5.4/kept.lua", "")
  lu.assertTrue(installed(prefix, "put"))
  lu.assertNil(folder.kind(share .. "/gone.lua"))
  lu.assertNotNil(folder.kind(prefix .. "/share/lua/5.4/kept.lua"))
  lu.assertEquals(drawing.read_file(share .. "/data/rules/own.lua"), "return {}")
  lu.assertTrue(sh("cd / && %s --version >%s", quoted(prefix .. "/bin/netsection"),
    quoted(dir.path .. "/out")))
  lu.assertStrContains(drawing.read_file(dir.path .. "/out"), ns.version)
  lu.assertTrue(installed(prefix, "remove"))
  lu.assertNotNil(folder.kind(share .. "/data/rules/own.lua"))
  lu.assertNil(folder.kind(share .. "/init.lua"))
  lu.assertNil(folder.kind(prefix .. "/bin/netsection"))
end

function T.test_a_prefix_that_no_search_path_can_hold_is_refused()
  system.unix "its installation"
  local dir <close> = drawing.folder()
  for i, name in ipairs {"a;b", "a?b", "a\nb"} do
    lu.assertNil((installed(dir.path .. "/" .. i .. name, "put")))
  end
  lu.assertEquals(folder.entries(dir.path), {})
end

-------------------------------------------------------------------------- what is printed

-- Begins a color and a title on a terminal, turns the direction, is no UTF-8.
local X = "x\27[31m\27]0;t\7\u{202E}\u{9B}\u{2066}\xFF\r"

-- Lines apart, nothing but printable text.
local function is_raw(said)
  for line in said:gsub("\r\n", "\n"):gmatch "[^\n]+" do
    if line:find "[%z\1-\31\127]" or not utf8.len(line) then return true end
    for _, code in utf8.codes(line) do
      if code >= 0x80 and code <= 0x9F or code >= 0x202A and code <= 0x202E
        or code >= 0x2066 and code <= 0x2069 or code == 0x200E or code == 0x200F then
        return true
      end
    end
  end
end

local found

local function said_of(name, f, ...)
  local all = table.pack(pcall(f, ...))
  for i = 2, all.n do
    local v = all[i]
    if type(v) == "table" and not getmetatable(v) and type(v[1]) == "table" then
      v = v[1].text
    end
    local ok, said = pcall(tostring, v)
    if ok and is_raw(said) then
      found[#found + 1] = ("%s: %q"):format(name, said:sub(1, 80))
    end
  end
  return all[1] and all[2] or nil
end

function T.test_messages_about_joists_and_their_parts()
  found = {}
  for _, name in ipairs(model.fields) do
    for _, value in ipairs {X, {X}, {[X] = X}} do
      local j = said_of(name, ns.joist, joist {mark = name == "mark" and value or X,
        [name] = value})
      if j then said_of(name, j.review, j) end
      said_of("problems " .. name, ns.problems, joist {mark = X, [name] = value})
    end
  end
  for kind, fields in pairs(parts.fields) do
    for _, name in ipairs(fields) do
      local p = said_of(kind, ns[kind], {[name] = X})
      if p then
        local list = parts.cut_kinds[kind] and "cuts" or "loads"
        said_of(kind, ns.joist, joist {mark = X, [list] = {p}})
      end
    end
    said_of(kind, ns[kind], {[X] = X})
  end
  lu.assertEquals(found, {})
end

function T.test_messages_of_functions()
  found = {}
  for _, name in ipairs {"floor", "table", "sweep", "odds", "lateral", "withdrawal",
    "compare", "read_survey", "section", "beam", "size_sister", "size_strap", "length",
    "load", "post", "footing", "beam_line", "rules", "standard", "obstruction",
    "sister", "strap", "hanger", "header"} do
    for _, value in ipairs {X, {X}, {[X] = X}, {name = X}, {title = X}} do
      said_of(name, ns[name], value)
      said_of(name, ns[name], value, value)
    end
  end
  said_of("write", ns.write, "no such folder/" .. X, "text")
  for _, name in ipairs {"joists", "cuts", "obstructions", "loads", "fixes",
    "settings"} do
    said_of(name, ns.read_survey, {joists = "mark," .. X .. "\n1," .. X,
      [name] = "joist,kind," .. X .. "\n" .. X .. "," .. X})
    said_of(name, ns.read_survey, {joists = "mark\n1", [name] = X .. " none.csv"})
  end
  lu.assertEquals(found, {})
end

function T.test_what_a_floor_of_such_names_prints()
  found = {}
  local floor = ns.floor {name = X, joists = {joist {mark = X, note = X,
    cuts = {ns.hole {at = "5-0", diameter = 3, note = X}}}, joist {mark = "B"}}}
  local r = floor:review()
  for _, value in ipairs {floor, r, r.joists[X], floor:joist(X)} do
    said_of("tostring", tostring, value)
  end
  said_of("joist", floor.joist, floor, X .. X)
  for name, f in pairs(ns.report) do
    if type(f) == "function" and name ~= "json" then
      said_of("report." .. name, f, r)
      said_of("report." .. name, f, r.joists[X])
      said_of("report." .. name, f, r, {[X] = X})
    end
  end
  lu.assertEquals(found, {})
end

-- Whatever a module raises goes through raise.lua.
function T.test_modules_raise_plain_text()
  local without = {["lua/netsection/raise.lua"] = true,
    ["lua/netsection/units.lua"] = true,
    ["lua/netsection/document/escape.lua"] = true,
    ["lua/netsection/document/latex_characters.lua"] = true}
  for _, path in ipairs(system.below("lua/netsection", "%.lua$")) do
    local text = drawing.read_file(path):gsub("%-%-[^\n]*", "")
    local raises = text:find "%serror%s*[({\"]"
    if raises and not without[path] then
      lu.assertStrContains(text, 'require "netsection.raise".error', path)
    end
  end
end

-------------------------------------------------------------------- lists and callbacks

-- A beam whose 'spans' is one span when it is looked at first and six then.
function T.test_no_code_of_a_caller_runs_while_a_table_is_read()
  local asked = 0
  local changing = setmetatable({EI = 1e6}, {__index = function(_, name)
    asked = asked + 1
    if name ~= "spans" then return nil end
    local spans = {}
    for i = 1, asked > 1 and 6 or 1 do spans[i] = 100 end
    return spans
  end})
  support.raises("one span at least", ns.beam, changing)
  lu.assertEquals(asked, 0)
end

-- A finalizer that reviews another joist in the middle of a review would leave that one's
-- numbers: it did in 5 of 3,000.
function T.test_a_finalizer_disturbs_no_review()
  local mine, other = ns.joist(joist()), ns.joist(joist {span = "18-0", dead = 30})
  local ratio, ran, said = mine:review().cut.ratio, 0, nil
  local before = collectgarbage "generational"
  for _ = 1, 400 do
    setmetatable({}, {__gc = function()
      ran = ran + 1
      local ok, why = pcall(other.review, other)
      if not ok then said = why end
    end})
    lu.assertEquals(mine:review().cut.ratio, ratio)
  end
  collectgarbage(before)
  collectgarbage()
  lu.assertTrue(ran > 0)
  lu.assertTrue(said == nil or said:find "a finalizer may review no joist" ~= nil, said)
end

-- A progress function that takes away what the sweep writes to.
function T.test_progress_that_drops_the_columns()
  local m = ns.joist(joist()).model
  local rules = require "netsection.packs"
  local standard = require "netsection.standards.default"
  local n = 60000
  local values = {}
  for i = 1, n do values[i] = 30 + i / n end
  local t = {models = {core.packed(m)}, sizes = {n}, columns = {{axis = 1, path = "live",
    values = core.numbers(values)}}, outputs = {{quantity = "ratio", state = "cut"}},
    to = {core.numbers(values)}, fault = core.faults(n), count = n, threads = 2,
    rules = rules.rules(standard.rules, "wood").core,
    standard = rules.standard(standard.standards).core}
  local to = t.to[1]
  t.progress = function()
    for _, name in ipairs {"columns", "to", "fault", "models", "rules", "standard"} do
      t[name] = nil
    end
    collectgarbage()
    collectgarbage()
  end
  lu.assertEquals((core.sweep(t)), n)
  lu.assertTrue(to[1] < to[n])
end

----------------------------------------------------------------------------------- sizes

local function book(n)
  local rows = {"mark,size,species,grade,span,spacing,bearing,dead,live"}
  for i = 1, n do rows[#rows + 1] = i .. ",2x10,hem-fir,No.2,13-0,16,3.5,12,40" end
  return table.concat(rows, "\n")
end

function T.test_a_survey_of_more_joists_than_are_read()
  local made, problems = ns.read_survey {joists = book(60), most_joists = 50}
  lu.assertNil(made)
  lu.assertEquals(#problems, 1)
  lu.assertStrContains(problems[1].text, "60 joists: a survey has at most 50")
  lu.assertNotNil((ns.read_survey {joists = book(60), most_joists = 60}))
  made, problems = ns.read_survey {joists = book(1200), most_joists = 50}
  lu.assertNil(made)
  lu.assertStrContains(problems[1].text, "more than 1000 rows are not read")
  support.raises("most_joists: a whole number", ns.read_survey, {joists = book(1),
    most_joists = 0})
end

-- Four times the joists take four times as long, not sixteen.
function T.test_a_large_floor_takes_linear_time()
  local function seconds(n)
    local text = book(n)
    collectgarbage()
    local from = os.clock()
    local floor = assert(ns.read_survey {joists = text, most_joists = n})
    lu.assertEquals(#floor:review().order, n)
    return os.clock() - from
  end
  seconds(50)
  local small, large = seconds(250), seconds(1000)
  lu.assertTrue(large < 8 * small, ("250: %.2f s, 1000: %.2f s"):format(small, large))
end

function T.test_numbers_out_of_all_range_are_named()
  for _, x in ipairs {1e100, 1e308} do
    support.raises("span", ns.joist, joist {span = x})
    support.raises("fastener.diameter", ns.fastener, {kind = "bolt", diameter = x})
    support.raises("fastener", ns.fastener, {kind = "nail", diameter = x, length = x})
  end
end

return T
