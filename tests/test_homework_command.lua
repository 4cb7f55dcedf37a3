-- SPDX-License-Identifier: MIT
-- The command's verb for courses: what it writes for a set, that a saved set keeps its
-- numbers, and the marks of answers that came back. Answers by statics.
local command = require "netsection.command"
local csv = require "netsection.csv"
local folder = require "netsection.folder"
local lu = require "luaunit"
local ns = require "netsection"
local drawing = require "tests.drawing"
local system = require "tests.system"
local with_browser = require "tests.browser".with

local T = {}

local ROOT = system.build .. "/test_homework_command"

function T.setUp()
  system.fresh(ROOT)
end

function T.tearDown()
  system.remove(ROOT)
end

local function at(name) return ROOT .. "/" .. name end

local function text_of(name)
  local file <close> = assert(io.open(at(name), "rb"))
  return file:read "a"
end

-- @return exit code, what it said
local function run(...)
  local said = {}
  local function say(line) said[#said + 1] = line end
  local code = command.run({"homework", ...}, {out = say, err = say})
  return code, table.concat(said, "\n")
end

-- Files below a folder, the list that the command keeps of its own left out.
local function files_in(name)
  local list = {}
  for _, path in ipairs(system.below(at(name), ".")) do
    path = path:sub(#at(name) + 2)
    if path ~= "files-of-netsection.txt" then list[#list + 1] = path end
  end
  return table.concat(list, " ")
end

-- A joist of 12 ft under 60 plf with a post of 300 lb at 4 ft: each end has 60 x 12/2 =
-- 360 lb of the floor, the far one 300 x 4/12 = 100 lb of the post, the near one 200 lb.
local SET = [[
return {course = "Timber floors", seed = "autumn", students = {"ann", "b.o", "b_o"},
  problems = {{kind = "reactions",
    given = {span = 144, place = 48, load = 60, post = 300}}}%s}
]]
local REACTIONS = {a = 360, b = 100, c = 200, d = 560, e = 460}

local function written(name, more)
  assert(ns.write(at(name), SET:format(more or "")))
  return at(name)
end

local function rows_of(name)
  return assert(csv.read(text_of(name)))
end

function T.test_a_set_and_its_files()
  local code, said = run(written "set.lua", "--into", at "out")
  lu.assertEquals(code, 0, said)
  lu.assertStrContains(said, "12 files written")
  lu.assertStrContains(said, "note: problem 1 (reactions): more students than versions")
  -- Two ids that one name of a file would serve.
  lu.assertEquals(files_in "out", "answers.csv bank.csv figures/figure-ann-reactions.gp "
    .. "figures/figure-b_o-3cba-reactions.gp figures/figure-b_o-reactions.gp "
    .. "keys/ann_key.html keys/b_o_2_key.html keys/b_o_key.html master.html set.json "
    .. "sheets/ann.html sheets/b_o.html sheets/b_o_2.html")
  lu.assertStrContains(text_of "out/sheets/b_o.html", "b.o")
  lu.assertStrContains(text_of "out/sheets/b_o_2.html", "b_o")
  lu.assertNotStrContains(text_of "out/sheets/ann.html", "560")
  lu.assertStrContains(text_of "out/keys/ann_key.html", "560")
  lu.assertStrContains(text_of "out/sheets/ann.html", "size: letter")
  local rows = rows_of "out/bank.csv"
  lu.assertEquals({rows[1][3], rows[1][8]}, {"part", "answer"})
  for i = 2, 6 do lu.assertEquals(tonumber(rows[i][8]), REACTIONS[rows[i][3]]) end
  -- Not again into a folder that holds something.
  code, said = run(at "set.lua", "--into", at "out")
  lu.assertEquals(code, 3)
  lu.assertStrContains(said, "is not empty; --replace writes into it")
  code = run(at "set.lua", "--into", at "out", "--replace")
  lu.assertEquals(code, 0)
end

-- By the set that was saved, everybody keeps the numbers they have.
function T.test_a_saved_set_keeps_its_numbers()
  assert(ns.write(at "set.lua", [[return {course = "C", seed = "1", students =
    {"ann", "ben"}, problems = {"reactions", "end_notch"}}]]))
  lu.assertEquals(run(at "set.lua", "--into", at "out"), 0)
  lu.assertEquals(run(at "out/set.json", "--into", at "again", "--paper", "a4"), 0)
  lu.assertEquals(files_in "again", files_in "out")
  for _, name in ipairs {"answers.csv", "bank.csv"} do
    lu.assertEquals(text_of("again/" .. name), text_of("out/" .. name))
  end
  lu.assertEquals(text_of "again/sheets/ann.html":gsub("size: %w+", ""),
    text_of "out/sheets/ann.html":gsub("size: %w+", ""))
  lu.assertStrContains(text_of "again/sheets/ann.html", "size: A4")
end

-- Sets in metric units are printed on A4.
function T.test_paper_of_a_metric_set()
  assert(ns.write(at "set.lua", [[return {course = "C", seed = "1", units = "metric",
    standard = "en-1995-1-1", students = {"ann"}, problems = {"reactions"}}]]))
  local code, said = run(at "set.lua", "--into", at "out")
  lu.assertEquals(code, 0, said)
  lu.assertStrContains(text_of "out/sheets/ann.html", "size: A4")
end

local ANSWERS = "student,problem,part,answer\nann,1,a,360\nann,1,b,100\nann,1,c,200\n"
  .. "ann,1,d,560 lb\nann,1,e,460\nb.o,1,a,720\nb.o,1,b,100\n"

function T.test_marks_of_answers()
  local set = written "set.lua"
  assert(ns.write(at "a.csv", ANSWERS))
  local code, said = run(set, "--into", at "out", "--answers", at "a.csv")
  lu.assertEquals(code, 0, said)
  lu.assertEquals(files_in "out", "feedback/ann.html feedback/b_o.html "
    .. "feedback/b_o_2.html gradebook.csv items.txt marks.csv not_read.csv")
  -- Six marks, two of them for part b: 720 is the floor load not halved.
  local rows = rows_of "out/gradebook.csv"
  lu.assertEquals(table.concat(rows[2], "|"), "ann||6|6|6|100")
  lu.assertEquals(table.concat(rows[3], "|"), "b.o||2|2|6|33.33")
  lu.assertEquals(table.concat(rows[4], "|"), "b_o||0|0|6|0")
  rows = rows_of "out/marks.csv"
  lu.assertEquals(rows[7][7], "mistake")
  lu.assertStrContains(rows[7][8], "not halved")
  lu.assertEquals(text_of "out/not_read.csv", "row,reason\r\n")
  -- (1, 0, 0) beside the rest of the sheets, (5, 2, 0): r = (24/9)/sqrt(6/9 x 114/9)
  lu.assertStrContains(text_of "out/items.txt",
    "1(a)  answered 2  share 0.33  discrimination 0.92  the floor load not halved 1")
  local sheet = text_of "out/feedback/b_o.html"
  lu.assertStrContains(sheet, "2 of 6 marks")
  lu.assertNotStrContains(sheet, "360")
end

-- Rows that are of nobody, or no answers at all: said, with the row of the file.
function T.test_rows_that_are_not_read()
  local set = written "set.lua"
  assert(ns.write(at "a.csv", ANSWERS .. "zoe,1,a,5\nann,7,a,5\n"))
  local code, said = run(set, "--into", at "out", "--answers", at "a.csv")
  lu.assertEquals(code, 1)
  lu.assertStrContains(said, 'row 9 not read: no student "zoe"')
  lu.assertStrContains(said, "row 10 not read: ")
  local rows = rows_of "out/not_read.csv"
  lu.assertEquals({rows[2][1], rows[2][2]}, {"9", 'no student "zoe"'})
  lu.assertEquals(rows[3][1], "10")
  assert(ns.write(at "b.csv", "student,proble,part,answer\nann,1,a,360\n"))
  code, said = run(set, "--into", at "other", "--answers", at "b.csv")
  lu.assertEquals(code, 3)
  lu.assertStrContains(said, "b.csv, row 1: column 'problem' expected")
  code, said = run(set, "--into", at "other", "--answers", at "none.csv")
  lu.assertEquals(code, 3)
  lu.assertStrContains(said, "none.csv")
  lu.assertNil(folder.kind(at "other"))
end

function T.test_what_is_no_set()
  for _, case in ipairs {
    {'return {course = "C", seed = "1"}', "homework: students: a list of ids expected"},
    {'return {course = "C", seed = "1", students = {"a"}, problems = {"reaction"}}',
      "problem 1: kind is one of "},
    {"return os.exit()", "not a table of data alone"}} do
    assert(ns.write(at "set.lua", case[1]))
    local code, said = run(at "set.lua", "--into", at "out")
    lu.assertEquals(code, 2, case[1])
    lu.assertStrContains(said, "netsection: " .. at "set.lua: ")
    lu.assertStrContains(said, case[2])
    lu.assertNil(said:find "%.lua:%d", said) -- no place in the source
  end
  assert(ns.write(at "set.json", "{}"))
  local code, said = run(at "set.json", "--into", at "out")
  lu.assertEquals(code, 2)
  lu.assertStrContains(said, "not a saved homework set")
  code, said = run(at "none.lua", "--into", at "out")
  lu.assertEquals(code, 2)
  lu.assertStrContains(said, "none.lua")
  code, said = run(written "good.lua")
  lu.assertEquals(code, 64)
  lu.assertStrContains(said, "homework: --into FOLDER expected")
  lu.assertNil(folder.kind(at "out"))
end

-- Figures that gnuplot draws stand in the sheets and in the package of questions; no
-- scripts then.
function T.test_figures_drawn_into_sheets()
  drawing.need_gnuplot()
  local code, said = run(written "set.lua", "--into", at "out", "--render", "--qti")
  lu.assertEquals(code, 0, said)
  lu.assertNotStrContains(files_in "out", "figures")
  lu.assertStrContains(text_of "out/sheets/ann.html", "<svg")
  lu.assertStrContains(text_of "out/keys/ann_key.html", "<svg")
  local zip = text_of "out/questions.zip"
  lu.assertEquals(zip:sub(1, 4), "PK\3\4")
  -- Stored, not packed: the manifest names the picture, the item shows it, and it is
  -- there, each once for the one version that all three students have.
  for pattern, n in pairs {['<file href="figures/Q%-reactions%-0%-1%.svg"/>'] = 5,
    ['<img src="figures/Q%-reactions%-0%-1%.svg" alt="[^"]+"/>'] = 5,
    ["<svg"] = 1, ["</svg>"] = 1} do
    lu.assertEquals(select(2, zip:gsub(pattern, "")), n, pattern)
  end
end

-- Each page beside its PDF; where no program makes one, that is said and the rest is
-- there.
function T.test_pages_as_pdf()
  system.unix "talks with a program"
  drawing.need_gnuplot()
  local started, code, said = with_browser("well", run, written "set.lua", "--into",
    at "out", "--pdf")
  lu.assertEquals(code, 0, said)
  lu.assertStrContains(said, "PDF by chromium")
  lu.assertEquals(started, {talk = 1, run = 0})
  for _, name in ipairs {"sheets/ann", "keys/b_o_2_key", "master"} do
    lu.assertStrContains(text_of("out/" .. name .. ".pdf"), text_of("out/" .. name
      .. ".html"), false, name)
  end
  started, code, said = with_browser(nil, run, written "set.lua", "--into", at "plain",
    "--pdf")
  lu.assertEquals(code, 0)
  lu.assertEquals(started, {talk = 0, run = 0})
  lu.assertStrContains(said, "no PDF: no program that makes PDF was found")
  lu.assertNotStrContains(files_in "plain", ".pdf")
  lu.assertStrContains(files_in "plain", "sheets/ann.html")
end

return T
