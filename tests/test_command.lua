-- SPDX-License-Identifier: MIT
-- The command, run as its user runs it: by its launcher, in a folder of its own. What is
-- tested is what it says, what it writes and what it leaves alone, and its exit codes.
local lu = require "luaunit"
local command = require "netsection.command"
local folder = require "netsection.folder"
local document = require "netsection.document"
local ns = require "netsection"
local output = require "netsection.command.output"
local support = require "tests.support"
local system = require "tests.system"

local test_command = {}

local ROOT = system.build .. "/test_command"

local quoted = system.quoted

-- What starts the command: its launcher, or the single program that runs this.
local LAUNCHER = system.windows and system.interpreter()[1] or system.launcher()

function test_command.setUp()
  system.fresh(ROOT)
end

function test_command.tearDown()
  system.remove(ROOT)
end

local function read_file(path)
  local file <close> = assert(io.open(path, "rb"))
  return file:read "a"
end

-- Runs the launcher. @return exit code, standard output, standard error
local function run(...)
  local code = system.shell({LAUNCHER, ...}, ROOT .. "/out", ROOT .. "/err")
  return code, read_file(ROOT .. "/out"), read_file(ROOT .. "/err")
end

-- The same without a process of its own, for what does not depend on one.
local function inside(...)
  local out, err = {}, {}
  local code = command.run({...}, {
    out = function(line) out[#out + 1] = line .. "\n" end,
    err = function(line) err[#err + 1] = line .. "\n" end})
  return code, table.concat(out), table.concat(err)
end

local JOISTS = "mark,size,species,grade,span,spacing,bearing,dead,live\n"
  .. "J1,2x10,hem-fir,No.2,12-0,16,3.5,12,40\nJ2,2x10,hem-fir,No.2,12-0,16,3.5,12,40\n"

-- A survey folder. @param files {name = text}
local function survey(name, files)
  local path = ROOT .. "/" .. name
  assert(folder.make(path))
  for file, text in pairs(files) do assert(ns.write(path .. "/" .. file, text)) end
  return path
end

function test_command.test_steps_are_the_ones_asked_for()
  local path = survey("steps", {["joists.csv"] = JOISTS})
  for _, steps in ipairs {"all", "none"} do
    local code = inside("review", path, "--into", ROOT .. "/" .. steps, "--full",
      "--steps", steps)
    lu.assertEquals(code, 0)
  end
  lu.assertStrContains(read_file(ROOT .. "/all/calculation.txt"), "\nshear at ")
  lu.assertNotStrContains(read_file(ROOT .. "/none/calculation.txt"), "\nshear at ")
  local code, _, err = inside("review", path, "--steps", "some")
  lu.assertEquals(code, 64)
  lu.assertStrContains(err, "--steps: one of all, governing, none expected")
end

function test_command.test_about_itself()
  local code, out = run "--version"
  lu.assertEquals({code, out}, {0, "netsection " .. ns.version .. "\n"})
  code, out = run "--help"
  lu.assertEquals(code, 0)
  for _, piece in ipairs {"exit codes", "review FOLDER", "compare OLD NEW", " 64 "} do
    lu.assertStrContains(out, piece)
  end
  lu.assertEquals({inside "-V"}, {0, "netsection " .. ns.version .. "\n", ""})
  for _, verb in ipairs {"review", "template", "sheet", "compare", "rules"} do
    local _, one = inside("help", verb)
    local _, other = inside(verb, "--help")
    lu.assertEquals(one, other)
    lu.assertStrContains(one, "netsection " .. verb)
  end
  code, out = inside "rules"
  lu.assertEquals(code, 0)
  lu.assertStrContains(out, "us-irc-2021")
  lu.assertStrContains(out, "us-nds-2018-asd")
end

-- From another folder and through a link too.
function test_command.test_from_elsewhere()
  system.unix "the launcher"
  assert(os.execute(("ln -s %s %s/link"):format(quoted(LAUNCHER), ROOT)))
  local _, _, code = os.execute(("cd %s && ./link --version >out 2>&1"):format(ROOT))
  lu.assertEquals(code, 0)
  lu.assertStrContains(read_file(ROOT .. "/out"), "netsection")
end

function test_command.test_wrong_usage()
  for _, case in ipairs {{"review takes 1 path, got 0", "review"},
    {"compare takes 2 paths, got 1", "compare", "a"}, {"'revise' is none of", "revise"},
    {"does not take --rule; is --rules meant?", "review", "a", "--rule", "x"},
    {"--into: a value expected", "review", "a", "--into"},
    {"--into: a value expected", "review", "a", "--into", "--replace"},
    {"--paper: one of a4, letter expected", "review", "a", "--paper", "legal"},
    {"--ratio: a number from 0 to 1", "compare", "a", "b", "--ratio", "2"},
    {"--replace takes no value", "sheet", "--replace=yes"},
    {"ends in .html", "sheet", "--into", ROOT .. "/sheet.doc"}} do
    local code, _, err = inside(table.unpack(case, 2))
    lu.assertEquals(code, 64, case[1])
    lu.assertStrContains(err, case[1])
  end
  lu.assertEquals(run(), 64)
  local code, out, err = inside()
  lu.assertEquals({code, out}, {64, ""})
  lu.assertStrContains(err, "netsection review FOLDER")
  local path = survey("plain", {["joists.csv"] = JOISTS})
  code, out, err = inside("review", path, "--workbook", "ods")
  lu.assertEquals({code, out}, {64, ""})
  lu.assertStrContains(err, "--workbook goes with --into")
end

function test_command.test_outcomes()
  local good = survey("good", {["joists.csv"] = JOISTS})
  local code, out = run("review", good)
  lu.assertEquals(code, 0)
  lu.assertStrContains(out, "J2     leave")
  local cut = survey("cut", {["Joists.CSV"] = JOISTS, ["cuts.csv"] = "joist,kind,from,"
    .. "to\nJ2,cut through,5-0,5-3\n"})
  code, out = run("review", cut)
  lu.assertEquals(code, 1)
  lu.assertStrContains(out, "J2     repair")
  local bad = survey("bad", {["joists.csv"] = JOISTS:gsub("12%-0", "13-14"),
    ["cuts.csv"] = "joist,kind\nJ9,halo\n"})
  local code2, _, err = run("review", bad, "--into", ROOT .. "/p")
  lu.assertEquals(code2, 2)
  lu.assertStrContains(err, "joists.csv, row 2, column E (span): length expected")
  lu.assertStrContains(err, "cuts.csv, row 2, column A (joist)")
  lu.assertStrContains(err, "4 problems; nothing was written")
  lu.assertNil(folder.entries(ROOT .. "/p"))
  lu.assertEquals(run("review", ROOT .. "/none"), 3)
  lu.assertEquals(run("review", survey("empty", {})), 3)
end

function test_command.test_options_of_surveys()
  local metric = JOISTS:gsub("12%-0,16", "\"3657,6\",406"):gsub("3%.5", "89")
  local path = survey("metric", {["joists.csv"] = metric})
  lu.assertEquals(inside("review", path), 2)
  local code, out = inside("review", path, "--decimal-comma", "--units=mm", "--name",
    "Loft")
  lu.assertEquals(code, 0)
  lu.assertStrContains(out, "Loft")
  local _, _, err = inside("review", path, "--rules", "no-such")
  lu.assertStrContains(err, "'no-such' is unknown")
end

function test_command.test_package()
  local into = ROOT .. "/package"
  local code, _, err = inside("review", "examples/survey", "--into", into)
  lu.assertEquals(code, 1)
  lu.assertStrContains(err, "files written")
  local names = folder.entries(into)
  lu.assertTrue(#names > 3)
  for _, name in ipairs(names) do lu.assertNil(name:find "%.part$") end
  -- A folder that holds something is left alone, unless it may be written into.
  assert(ns.write(into .. "/mine.txt", "mine"))
  code, _, err = inside("review", "examples/survey", "--into", into)
  lu.assertEquals(code, 3)
  lu.assertStrContains(err, "is not empty")
  lu.assertEquals(inside("review", "examples/survey", "--into", into, "--replace"), 1)
  lu.assertEquals(read_file(into .. "/mine.txt"), "mine")
  lu.assertEquals(inside("review", "examples/survey", "--into", "examples/survey/"), 64)
end

-- The same survey gives the same bytes, also in another process.
function test_command.test_same_bytes()
  local a, b = ROOT .. "/a", ROOT .. "/b"
  inside("review", "examples/survey", "--into", a)
  run("review", "examples/survey", "--into", b)
  local ours = system.below(a, "")
  lu.assertTrue(#ours > 10)
  lu.assertEquals(#system.below(b, ""), #ours)
  for _, path in ipairs(ours) do
    lu.assertTrue(read_file(path) == read_file(b .. path:sub(#a + 1)), path)
  end
end

function test_command.test_templates_and_sheet()
  local books = ROOT .. "/books"
  lu.assertEquals(inside("template", books), 0)
  lu.assertEquals(folder.entries(books), {"cuts.csv", "fixes.csv", "joists.csv",
    "loads.csv", "obstructions.csv", "survey.csv"})
  lu.assertEquals(inside("template", books), 3) -- never over a field book
  local code, out = inside("sheet", "--marks", "J1, J2")
  lu.assertEquals(code, 0)
  lu.assertStrContains(out, "Joist J2")
  local sheet = ROOT .. "/sheet.html"
  lu.assertEquals(inside("sheet", "--joists", "3", "--into", sheet, "--paper", "a4"), 0)
  lu.assertStrContains(read_file(sheet), "<html")
  lu.assertEquals(inside("sheet", "--into", sheet), 3)
  lu.assertEquals(inside("sheet", "--into", sheet, "--replace"), 0)
end

function test_command.test_compare()
  local old = survey("old", {["joists.csv"] = JOISTS})
  local new = survey("new", {["joists.csv"] = JOISTS, ["cuts.csv"] = "joist,kind,at,dia\n"
    .. "J1,hole,4-0,4 in\n"})
  lu.assertEquals(inside("compare", old, old), 0)
  local code, out = inside("compare", old, new)
  lu.assertEquals(code, 1)
  lu.assertStrContains(out, "new: 4 in hole")
  lu.assertEquals(inside("compare", old, ROOT .. "/none.json"), 3)
  local into = ROOT .. "/changes.md"
  lu.assertEquals(inside("compare", old, new, "--into", into), 1)
  lu.assertStrContains(read_file(into), "What changed since the last visit")
end

-- Names of folders and text of surveys reach neither the shell nor the terminal raw.
function test_command.test_hostile_text()
  system.unix "names of folders with marks of a shell"
  local name = "it's $(touch " .. ROOT .. "/pwned) `x` \"q\" -rf"
  local path = survey(name, {["joists.csv"] = JOISTS:gsub("J1", "\"\27[31m$(id)\n<b>\""),
    ["survey.csv"] = "floor,\"\27]0;x\7=1+1\"\n"})
  local code, out = run("review", path, "--into", ROOT .. "/-n $(touch pwned)")
  lu.assertEquals(code, 0)
  lu.assertNil(out:find "\27")
  lu.assertNil(io.open(ROOT .. "/pwned"))
  lu.assertNil(io.open "pwned")
  local into = ROOT .. "/-n $(touch pwned)"
  for _, file in ipairs(folder.entries(into)) do
    local text = read_file(into .. "/" .. file)
    lu.assertNil(text:find "\27", file)
    lu.assertNil(file:find "%.html$" and text:find("$(id) <b>", 1, true), file)
  end
  local _, _, err = run("review", survey("bad", {["joists.csv"] = JOISTS:gsub("12%-0",
    "\27[31m\u{202E}")}))
  lu.assertNil(err:find "\27")
  lu.assertNotStrContains(err, "\u{202E}")
end

-- Files never land outside the folder that was named.
function test_command.test_names_of_files()
  for _, name in ipairs {"../x", "/x", "a/../../x", "", "a\nb"} do
    support.raises("not a name for a file", output.files, {{name = name, text = ""}},
      ROOT .. "/names", {})
  end
  lu.assertEquals(output.files({{name = "a/b/c.txt", text = "c"}}, ROOT .. "/names", {}),
    1)
  lu.assertEquals(read_file(ROOT .. "/names/a/b/c.txt"), "c")
end

function test_command.test_cannot_write()
  assert(ns.write(ROOT .. "/plain", "x"))
  lu.assertEquals(inside("review", "examples/survey", "--into", ROOT .. "/plain/sub"), 3)
  lu.assertEquals(inside("sheet", "--into", ROOT .. "/none/sheet.txt"), 3)
end

-- A fault of the program has its own code and no other.
function test_command.test_fault()
  local said = {}
  local code = command.run({"rules"}, {out = function() error "broken" end,
    err = function(line) said[#said + 1] = line end})
  lu.assertEquals(code, 70)
  lu.assertStrContains(said[1], "a fault of the program itself")
end

-- An installed command finds what was installed with it.
function test_command.test_installed()
  system.unix "the launcher"
  local prefix = system.absolute(ROOT .. "/a b")
  local module = package.searchpath("netsection.core", package.cpath)
  local script = read_file "lua/bin/netsection"
  local lib = prefix .. "/share"
  script = script:gsub("share=\n", "share='" .. lib .. "'\n", 1)
    :gsub("lib=\n", "lib='" .. lib .. "'\n", 1)
  assert(folder.make(prefix))
  assert(ns.write(prefix .. "/run", script))
  assert(os.execute(("cp -r lua %s && cp %s %s"):format(quoted(lib), quoted(module),
    quoted(lib .. "/netsection/core.so"))))
  local _, _, code = os.execute(("cd / && sh %s --version >%s"):format(
    quoted(prefix .. "/run"), quoted(prefix .. "/out")))
  lu.assertEquals(code, 0)
  lu.assertStrContains(read_file(prefix .. "/out"), ns.version)
end

-- A joist cut through heads what is printed; what holds for those beside it stands there.
function test_command.test_review_prints_what_must_be_done_now()
  local path = survey("now", {["joists.csv"] = JOISTS
    .. "J3,2x10,hem-fir,No.2,12-0,16,3.5,12,40\n",
    ["cuts.csv"] = "joist,kind,from,to\nJ2,sever,6-0,6-5\n"})
  local code, out = run("review", path)
  lu.assertEquals(code, 1)
  local now = out:find("Act now: shore, and keep clear", 1, true)
  local line = out:find("\nJ1 ", 1, true)
  lu.assertTrue(now ~= nil and line ~= nil and now < line)
  lu.assertStrContains(out, "J2: cut through at 6'-2 1/2\": shore it on both sides")
  -- a long reason goes on below itself, no line is longer than 79
  lu.assertStrContains(out:match "\nJ1 [^\n]*", "leave once J2 is ")
  lu.assertStrContains(out:match "\nJ3 [^\n]*\n[^\n]*", " until then")
  for said in out:gmatch "[^\n]+" do lu.assertTrue(#said <= 79, said) end
  lu.assertStrContains(out, "3 joists: leave 2, justify 0, decide 0, repair 1, refer 0")
  lu.assertStrContains(out, "joist  action   reason ")
  local _, plain = run("review", survey("calm", {["joists.csv"] = JOISTS}))
  lu.assertNotStrContains(plain, "Act now")
end

-- Marks of every length: the ratios stand under their headings.
function test_command.test_long_marks_shift_no_column()
  local joists = {}
  for i, mark in ipairs {"J1", "J2, by the east chimney", "stair 12", "J4"} do
    joists[i] = {mark = mark, live = 30 + i}
  end
  local r = ns.floor {name = "Marks", size = "2x10", species = "hem-fir", grade = "No.2",
    span = "12-0", spacing = 16, bearing = 3.5, dead = 10, joists = joists}:review()
  local lines, ends = {}, {}
  for line in ns.report.overview(r):gmatch "[^\n]+" do lines[#lines + 1] = line end
  lu.assertStrContains(lines[1], "as cut")
  for _, line in ipairs(lines) do
    lu.assertTrue(#line <= 79, line)
    local from = line:find "%d%.%d%d +%d%.%d%d$"
    if from then ends[#ends + 1] = from end
  end
  lu.assertEquals(#ends, 4)
  for _, at in ipairs(ends) do lu.assertEquals(at, ends[1]) end
end

-- The row of the check that governs is marked, others are not.
function test_command.test_the_governing_row_is_marked()
  local r = ns.joist {mark = "J1", size = "2x10", species = "hem-fir", grade = "No.2",
    span = "12-0", spacing = 16, bearing = 3.5, dead = 10, live = 40,
    cuts = {ns.hole {at = "6-0", diameter = 4, below = 1.5}}}:review()
  local text = ns.report.text(r, {steps = "none"})
  local _, n = text:gsub("\n> ", "")
  lu.assertEquals(n, 1)
  lu.assertStrContains(text:match "\n> ([^\n]*)", r.cut.governing_check.mode)
end

-- Wood below a hole is told as its diameter is: the new number and the old one.
function test_command.test_a_changed_height_is_told_as_a_diameter()
  local function runs(field, value)
    return ns.joist {mark = "J1", size = "2x10", species = "hem-fir", grade = "No.2",
      span = "12-0", spacing = 16, bearing = 3.5, dead = 10, live = 40,
      cuts = {ns.hole {at = "5-0", diameter = field == "diameter" and value or 2,
        below = field == "below" and value or 3}}}:review()
  end
  for _, field in ipairs {"below", "diameter"} do
    local said = document.text(ns.compare(runs(field, 3), runs(field, 2.5)):document())
    lu.assertStrContains(said:gsub("%s+", " "), field .. " 2.5, was 3", false, field)
  end
end

return test_command
