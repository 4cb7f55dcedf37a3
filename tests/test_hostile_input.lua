-- SPDX-License-Identifier: MIT
-- Input that never ends, is no file or is too much, a progress function that closes what
-- is written to, a gnuplot that fails, marks that make no name of a file: each is refused
-- or noted in plain words.
local core = require "netsection.core"
local drawing = require "tests.drawing"
local lu = require "luaunit"
local ns = require "netsection"
local survey_folder = require "netsection.command.survey_folder"
local system = require "tests.system"

local T = {}

local HEAD = "mark,size,species,grade,span,spacing,bearing,dead,live\n"
local ROW = ",2x10,hem-fir,No.2,13-0,16,3.5,12,40\n"

local function joist(changes)
  local t = {mark = "A", size = "2x10", species = "hem-fir", grade = "No.2",
    span = "13-0", spacing = 16, bearing = 3.5, dead = 12, live = 40}
  for name, value in pairs(changes or {}) do t[name] = value end
  return t
end

-- The joists of a survey as a pipe that nobody writes to, a device that gives bytes for
-- ever, one that gives none, a folder, a file over the limit: told, and at once.
function T.test_a_survey_that_is_no_file()
  system.unix "pipes and links"
  local dir <close> = drawing.folder()
  local function at(name) return dir.path .. "/" .. name end
  assert(os.execute(("cd '%s' && mkfifo pipe.csv && mkdir folder.csv "
    .. "&& ln -s /dev/zero zero.csv && ln -s loop.csv loop.csv"):format(dir.path)))
  assert(os.execute(("truncate -s 65M '%s'"):format(at "large.csv")))
  local from = os.time()
  for name, says in pairs {["pipe.csv"] = "no regular file", ["zero.csv"] = "no regular",
    ["folder.csv"] = "no regular file", ["loop.csv"] = "cannot be read",
    ["large.csv"] = "bytes", ["none.csv"] = "cannot be read"} do
    local made, problems = ns.read_survey {joists = at(name)}
    lu.assertNil(made, name)
    lu.assertStrContains(problems[1].text:lower(), says, name)
  end
  lu.assertTrue(os.time() - from < 5)
end

-- As the command finds them: a folder with a pipe in place of joists.csv.
function T.test_a_folder_with_a_pipe()
  system.unix "pipes and links"
  local dir <close> = drawing.folder()
  assert(os.execute(("mkfifo '%s/joists.csv'"):format(dir.path)))
  local ok, made, problems = pcall(function()
    return ns.read_survey(survey_folder.options(survey_folder.files(dir.path), {}))
  end)
  lu.assertTrue(not ok or made == nil)
  lu.assertNotNil(not ok or problems[1])
end

-- 100,000 joists are refused by the number that stands in the message, long before they
-- are read; the switch that raises it is named.
function T.test_a_survey_of_100000_joists()
  local rows = {}
  for i = 1, 100000 do rows[i] = i .. ROW end
  local text = HEAD .. table.concat(rows)
  collectgarbage()
  local from, held = os.clock(), collectgarbage "count"
  local made, problems = ns.read_survey {joists = text}
  lu.assertNil(made)
  lu.assertStrContains(problems[1].text, "rows are not read")
  lu.assertTrue(os.clock() - from < 5)
  lu.assertTrue(collectgarbage "count" - held < 200000)
  made, problems = ns.read_survey {joists = HEAD .. table.concat(rows, "", 1, 1001)}
  lu.assertNil(made)
  lu.assertStrContains(problems[1].text, "1001 joists: a survey has at most 1000")
  lu.assertStrContains(problems[1].text, "most_joists")
end

-- The file that a sweep writes to is closed by the function that is told how far it is.
function T.test_progress_that_closes_the_file()
  local dir <close> = drawing.folder()
  local file = assert(io.open(dir.path .. "/rows.csv", "w"))
  local told = 0
  local sweep = ns.sweep {joist = ns.joist(joist()), over = {spacing = ns.steps(10, 30,
    0.5), live = ns.steps(10, 60, 0.0005)}, values = {"ratio"}, progress = function()
      told = told + 1
      if io.type(file) == "file" then file:close() end
    end}
  local ok, done, why = pcall(sweep.csv, sweep, file)
  lu.assertTrue(told > 0)
  if io.type(file) == "file" then file:close() end
  lu.assertFalse(ok and done ~= nil and done ~= false, "written to a file that is closed")
  lu.assertStrContains(tostring(ok and why or done), "close")
end

-- A gnuplot that ends badly, draws nothing or never ends: the package is whole, without
-- pictures, and says so.
function T.test_a_package_whose_pictures_fail()
  local review = ns.joist(joist()):review()
  local run = core.files.run
  local whole = {}
  for name, fake in pairs {fails = function() return 1 end,
    nothing = function() return 0 end,
    ["is not there"] = function() return nil, "not found" end} do
    core.files.run = fake -- luacheck: ignore
    local ok, files, problem = pcall(ns.package.files, review, {render = true})
    core.files.run = run -- luacheck: ignore
    lu.assertTrue(ok, name .. ": " .. tostring(files))
    lu.assertTrue(#files > 5, name)
    lu.assertStrContains(tostring(problem), "gnuplot", name)
    whole[#whole + 1] = #files
  end
  lu.assertEquals({whole[2], whole[3]}, {whole[1], whole[1]})
end

-- Marks that are a switch of a command, a folder above, nothing but signs, or too long.
function T.test_marks_that_make_no_name_of_a_file()
  local marks, joists = {"", "-rf", "--", ".", "..", "/", "~", "\u{202E}x", "con",
    "A/../B", ("m"):rep(300), "-rf ", "*"}, {}
  for i, mark in ipairs(marks) do joists[i] = joist {mark = mark} end
  local files = ns.package.files(ns.floor {joists = joists}:review(), {render = false})
  local seen = {}
  for _, f in ipairs(files) do
    lu.assertNotNil(f.name:find "^[%w_][%w_.-]*$", f.name)
    lu.assertNil(f.name:find("..", 1, true), f.name)
    lu.assertTrue(#f.name < 100, f.name)
    lu.assertNil(seen[f.name:lower()], f.name)
    seen[f.name:lower()] = true
  end
end

return T
