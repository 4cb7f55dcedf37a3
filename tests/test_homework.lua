-- SPDX-License-Identifier: MIT
-- Homework sets: numbers by chance that are the same everywhere, nobody alike, sheets
-- without answers, keys, tables, and messages.
local lu = require "luaunit"
local ns = require "netsection"
local document = require "netsection.document"
local formula = require "netsection.homework.formula"
local homework = require "tests.homework"
local markup = require "tests.markup"
local random = require "netsection.random"
local support = require "tests.support"
local system = require "tests.system"
local short = require("netsection.text").short

local close, raises = support.close, support.raises
local T = {}

local SIX = {"tributary_load", "end_notch", "off_centre_hole", "moment_shear",
  "fastener_count", "allowable_span"}

local function set_of(changes)
  local t = {course = "Timber floors", seed = "autumn", students = homework.roster(3),
    problems = {"end_notch", "tub"}}
  for name, value in pairs(changes or {}) do t[name] = value end
  return (ns.homework(t))
end

---------------------------------------------------------------------------- numbers

-- Published values of SplitMix64 from the seed 1234567 (Rosetta Code, "Pseudo-random
-- numbers/Splitmix64", after the public domain code of S. Vigna), and of FNV-1a, 64 bits
-- (draft-eastlake-fnv, appendix).
function T.test_generator_and_hash()
  local g = random.new(1234567)
  for _, expected in ipairs {"6457827717110365317", "3203168211198807973",
    "9817491932198370423", "4593380528125082431", "16408922859458223821"} do
    lu.assertEquals(("%u"):gsub("%%u", function()
      local x = g:bits()
      local high = (x >> 1) // 5
      return ("%d%d"):format(high, x - high * 10)
    end), expected)
  end
  for text, expected in pairs {[""] = 0xCBF29CE484222325, a = 0xAF63DC4C8601EC8C,
    foobar = 0x85944171F73967E8} do
    lu.assertEquals(random.hash(text), expected)
  end
end

function T.test_seed_keeps_texts_apart()
  lu.assertNotEquals(random.seed("ab", "c"), random.seed("a", "bc"))
  lu.assertNotEquals(random.seed("a", "b"), random.seed("a\n1:b"))
  lu.assertEquals(random.seed("a", "b"), random.seed("a", "b"))
end

function T.test_below_reaches_all_alike()
  local g, counts = random.new(7), {}
  for _ = 1, 6000 do
    local n = g:below(6)
    counts[n] = (counts[n] or 0) + 1
  end
  for n = 0, 5 do lu.assertTrue(counts[n] > 850 and counts[n] < 1150) end
end

function T.test_formulas()
  local s = {a = 2, b = 3, ["F_v'"] = 180}
  for text, expected in pairs {["a + b*a^3"] = 26, ["-a^2"] = -4, ["2/3*F_v'*a"] = 240,
    ["(a + b)^-2"] = 0.04, ["a - b - 1"] = -2, ["min(a, b)*max(a, b)"] = 6,
    ["ceil(b/a)"] = 2, ["floor(b/a)"] = 1, ["sqrt(a*8)"] = 4, ["cbrt(27)"] = 3,
    ["abs(a - b)"] = 1, ["ceil(6.0000000001)"] = 6, ["8/a/2"] = 2} do
    close(formula.of(text)(s), expected, 1e-15, text)
  end
  for _, text in ipairs {"", "a +", "a b", "f(a)", "a^b", "min(a)", "os.exit()"} do
    lu.assertNil(formula.of(text), text)
  end
  raises("no value of c", formula.of "a + c", s)
  lu.assertEquals(formula.with_numbers("a*min(b, c)", s, function(_, x)
    return ("%d"):format(x)
  end), "2*min(3, c)")
end

-- x = cbrt(x)^3 to the last bits over the whole range.
function T.test_cube_roots()
  local g = support.random(11)
  for _ = 1, 500 do
    local x = 10 ^ g:real(-12, 12)
    close(formula.cbrt(x) ^ 3, x, 1e-15 * 4)
    close(formula.cbrt(-x), -formula.cbrt(x), 1e-16)
  end
  lu.assertEquals(formula.cbrt(0), 0)
end

---------------------------------------------------------------------------- drawing

function T.test_same_seed_same_set()
  lu.assertEquals(homework.text(set_of()), homework.text(set_of()))
  lu.assertNotEquals(homework.text(set_of()), homework.text(set_of {seed = "spring"}))
  lu.assertNotEquals(homework.text(set_of()), homework.text(set_of {course = "Other"}))
  lu.assertEquals(homework.text(set_of {seed = 7}), homework.text(set_of {seed = "7"}))
end

-- Changes only with the generator or with a kind's data: a course that runs would then
-- get other numbers, which the change has to say.
local GOLDEN = "cd06e1f15d8cd5d4"

function T.test_numbers_are_those_of_every_machine()
  local set = set_of {students = homework.roster(5), problems = ns.homework.kinds()}
  lu.assertEquals(("%016x"):format(random.hash(homework.text(set))), GOLDEN)
end

local SCRIPT = [[
  package.path = "./?.lua;" .. package.path
  local ns, document = require "netsection", require "netsection.document"
  local random = require "netsection.random"
  local set = ns.homework {course = "Timber", seed = "%s", students = {"a", "b"},
    problems = ns.homework.kinds()}
  for _, id in ipairs {"a", "b"} do
    for _, form in ipairs {"text", "html", "latex", "markdown"} do
      io.write(("%%016x\n"):format(random.hash(document[form](set:sheet(id)))))
      io.write(("%%016x\n"):format(random.hash(document[form](set:key(id)))))
    end
    for _, f in ipairs(set:figures(id)) do
      io.write(("%%016x\n"):format(random.hash(f.script)))
    end
  end
  io.write(("%%016x\n"):format(random.hash(document.html(set:master()))))
]]

local function output_of(lua, path)
  local pipe = assert(io.popen(("'%s' '%s' 2>/dev/null"):format(lua, path)))
  local said = pipe:read "a"
  return pipe:close() and said or nil
end

-- Other builds of Lua 5.4 on this machine that can run the module: one that was built
-- with an older core cannot.
local function other_builds(script)
  local list = {}
  for _, lua in ipairs {os.getenv "NETSECTION_OTHER_LUA" or "", "build/asan/host",
    "build/host", "build/tsan/host"} do
    local file <close> = lua ~= "" and io.open(lua) or nil
    if file and output_of(lua, script) then list[#list + 1] = lua end
  end
  return list
end

function T.test_two_builds_of_lua_give_the_same_bytes()
  system.unix "other builds of Lua that run its module"
  local path, differ = os.tmpname(), 0
  assert(ns.write(path, SCRIPT:format "autumn"))
  local others = other_builds(path)
  if #others == 0 then
    os.remove(path)
    lu.skip "no second build of Lua 5.4 (make build/host, or NETSECTION_OTHER_LUA)"
  end
  for _, seed in ipairs {"autumn", "spring"} do
    assert(ns.write(path, SCRIPT:format(seed)))
    local own = output_of(arg[-1], path)
    lu.assertTrue(own and #own > 300)
    for _, lua in ipairs(others) do
      differ = differ + (output_of(lua, path) == own and 0 or 1)
    end
  end
  os.remove(path)
  lu.assertEquals(differ, 0)
end

function T.test_nobody_is_alike()
  local set = set_of {students = homework.roster(500), problems = SIX}
  for i = 1, #SIX do
    local seen = {}
    for _, student in ipairs(set.students) do
      local v = student[i]
      lu.assertNil(seen[v.number], SIX[i])
      seen[v.number] = true
    end
  end
end

function T.test_late_student_changes_nobody()
  local before = set_of {students = homework.roster(200), problems = SIX}
  local after = set_of {students = homework.roster(203), problems = SIX}
  for _, student in ipairs(before.students) do
    for i = 1, #SIX do
      lu.assertEquals(after:of(student.id)[i].number, student[i].number)
    end
  end
end

-- Twelve versions for thirty students: each is used twice before one is used three times.
function T.test_more_students_than_versions()
  local set = homework.of({kind = "tributary_load", vary = {left = {16}, right = {18},
    span = {144}, cover = {3}}, given = {ceiling = 4}}, 6)
  local row = set:difficulty()[1]
  lu.assertEquals(row.versions, 2)
  lu.assertEquals(row.used, 2)
  lu.assertEquals(row.alike, 4)
  local counts = {}
  for _, student in ipairs(set.students) do
    local n = student[1].number
    counts[n] = (counts[n] or 0) + 1
  end
  for _, count in pairs(counts) do lu.assertEquals(count, 3) end
end

function T.test_options_of_a_problem()
  local v = homework.version {kind = "end_notch", mode = "deeper than d/4",
    vary = {span = {"14-0", 180}}, given = {live = "40 psf", size = "2x10"}}
  lu.assertEquals(v.mode, "deeper than d/4")
  lu.assertTrue(v.p.span == 168 or v.p.span == 180)
  lu.assertEquals(v.p.live, 40)
  lu.assertTrue(v.p.depth > 9.25 / 4)
end

-- One of two spans is at the edge where R comes to V'.
function T.test_edge_is_left_out_unless_wanted()
  local pinned = {size = "2x10", spacing = 16, dead = 10, live = 40, depth = 2.5,
    wood = "Douglas Fir-Larch No.2"}
  local V = 2 / 3 * 180 * 1.5 * 6.75 * (6.75 / 9.25) ^ 2
  local at_edge = V / (50 * 16 / 144 / 2)        -- span at which R = V', in
  local lists = {span = {at_edge * 1.01, at_edge * 0.8}}
  for _, student in ipairs(homework.of({kind = "end_notch", given = pinned, vary = lists},
    4).students) do
    close(student[1].s.ratio, 0.8, 1e-9)
  end
  local near = homework.of({kind = "end_notch", given = pinned, vary = lists,
    near_edge = true}, 2)
  local ratios = {near.students[1][1].s.ratio, near.students[2][1].s.ratio}
  close(math.max(table.unpack(ratios)), 1.01, 1e-9)
end

function T.test_difficulty()
  local list = set_of {students = homework.roster(40)}:difficulty()
  lu.assertEquals(list[1].kind, "end_notch")
  lu.assertEquals(list[1].marks, 13)
  lu.assertEquals(list[1].alike, 0)
  lu.assertEquals(list[1].range.symbol, "ratio")
  lu.assertTrue(list[1].range.least < list[1].range.most)
  local said = tostring(list)
  lu.assertStrContains(said, "deeper than d/4 20, within d/4 20; ratio 0.")
  lu.assertStrContains(said, "2 tub")
end

---------------------------------------------------------------------------- documents

local FORMS = {"text", "markdown", "html", "latex"}

local function count(text, piece)
  local n = 0
  for _ in text:gmatch(piece:gsub("%p", "%%%0")) do n = n + 1 end
  return n
end

-- Answers of four figures that are not among what is given.
local function secrets(v)
  local given, list = {}, {}
  for _, value in pairs(v.given) do
    given[ns.units.significant(value, 4):gsub("%.?0+$", "")] = true
  end
  for _, step in ipairs(v.kind.steps) do
    local x = v.s[step.symbol]
    if step.ask and type(x) == "number" then
      local said = ns.units.significant(x, 4)
      if not given[said:gsub("%.?0+$", "")] and #said:gsub("%p", "") >= 4
        and not said:find "0$" then
        list[#list + 1] = said
      end
    end
  end
  return list
end

-- A number is there if it stands by itself.
local function has_number(text, said)
  said = said:gsub("^-", "")
  return text:find("%f[%d.]" .. said:gsub("%p", "%%%0") .. "%f[^%d]") ~= nil
end

function T.test_sheet_has_no_answers()
  local looked_for = 0
  for _, name in ipairs(ns.homework.kinds()) do
    local set = homework.of(name, 6)
    for _, student in ipairs(set.students) do
      local v = student[1]
      local sheet = document.html(set:sheet(student.id)) .. document.text(
        set:sheet(student.id))
      for _, f in ipairs(set:figures(student.id)) do
        if not f.name:find "k%d*%.svg$" then sheet = sheet .. "\n" .. f.script:gsub(
          "[^\n]*screen[^\n]*", "") end
      end
      for _, said in ipairs(secrets(v)) do
        lu.assertFalse(has_number(sheet, said),
          name .. ": " .. said .. " is on the sheet")
        looked_for = looked_for + 1
      end
      for _, mistake in ipairs(v.kind.mistakes) do
        lu.assertNil(sheet:find(mistake.reveals, 1, true))
      end
      for _, step in ipairs(v.kind.steps) do
        if step.hand then lu.assertNil(sheet:find(step.hand, 1, true)) end
        if step.hint then lu.assertNil(sheet:find(step.hint, 1, true)) end
      end
    end
  end
  lu.assertTrue(looked_for > 200, "so many answers were looked for")
end

function T.test_key_has_every_answer()
  for _, name in ipairs(ns.homework.kinds()) do
    local set = homework.of(name, 2)
    local key = document.text(set:key "s002"):gsub("%s+", " ")
    local v = set:of "s002"[1]
    for _, said in ipairs(secrets(v)) do
      lu.assertTrue(has_number(key, said), name .. ": " .. said .. " is in the key")
    end
    for _, step in ipairs(v.kind.steps) do
      if step.ask then lu.assertStrContains(key, "(" .. step.part .. ")") end
      if step.clause then lu.assertStrContains(key, step.clause) end
    end
  end
end

function T.test_sheet_says_who_what_and_how()
  local set = set_of {students = {{id = "s01", name = "A. Reader"}}}
  for _, form in ipairs(FORMS) do
    local sheet = document[form](set:sheet "s01")
    for _, said in ipairs {"s01", "A. Reader", "Timber floors", "Problem 1", "Problem 2",
      "13 marks", "unit"} do
      lu.assertStrContains(sheet, said)
    end
    lu.assertStrContains((sheet:gsub("%s+", " ")), "An exercise")
  end
  local page = document.html(set:sheet "s01")
  lu.assertEquals(count(page, "<figure"), 2)
  lu.assertEquals(markup.html_problem(page), nil)
end

function T.test_master_has_everybody()
  local set = set_of {students = homework.roster(5)}
  local text = document.text(set:master())
  for _, student in ipairs(set.students) do
    lu.assertTrue(count(text, student.id) >= 2 * 2)
    lu.assertStrContains(text, short(student[1].s["V'"]))
  end
  lu.assertStrContains(text, "autumn")
end

function T.test_figures()
  local set = homework.of("moment_shear", 1)
  local list = set:figures "s001"
  local names = {}
  for i, f in ipairs(list) do names[i] = f.name end
  lu.assertEquals(names, {"figure-s001-moment_shear.svg",
    "figure-s001-moment_shear-a.svg",
    "figure-s001-moment_shear-a2.svg", "figure-s001-moment_shear-k.svg",
    "figure-s001-moment_shear-k2.svg"})
  for _, f in ipairs(list) do
    lu.assertStrContains(f.script, "set output '" .. f.name .. "'")
  end
  local seen = {}
  local page = document.html(set:key("s001", {draw = function(script, name)
    seen[#seen + 1] = name
    lu.assertStrContains(script, name)
    return "<svg><path d=\"M0 0\"/></svg>"
  end}))
  lu.assertEquals(seen, {"figure-s001-moment_shear.svg",
    "figure-s001-moment_shear-k.svg",
    "figure-s001-moment_shear-k2.svg"})
  lu.assertEquals(count(page, "<svg"), 3)
end

function T.test_figures_by_gnuplot()
  if not system.has "gnuplot" then lu.skip "no gnuplot" end
  local set = homework.of("moment_shear", 1)
  local sheet = document.html(set:sheet("s001", {figures = true}))
  lu.assertEquals(count(sheet, "<svg"), 3)        -- the joist and empty axes for V and M
  lu.assertStrContains(sheet, ("%d lb"):format(set:of "s001"[1].p.post))
  lu.assertNil(markup.html_problem(sheet))
  lu.assertEquals(count(document.html(set:key("s001", {figures = true})), "<svg"), 3)
end

-- Names, ids and the course's name are the user's.
function T.test_hostile_names()
  for _, said in ipairs(markup.HOSTILE) do
    if said:find "%S" and utf8.len(said) and not said:find "^%s*#"
      and not said:find "%c" then
      local set = ns.homework {course = said, seed = said, students = {{id = said,
        name = said}}, problems = {"reactions"}}
      for _, d in ipairs {set:sheet(said), set:key(said), set:master()} do
        lu.assertNil(markup.html_problem(document.html(d)), said)
        local source = document.latex(d)
        lu.assertNil(source:find "[^ -~\n]", said)
        lu.assertNil(source:find "\\input{/", said)
        lu.assertNil(source:find "\\write18{", said)
        lu.assertNil(document.markdown(d):find "<script", said)
      end
      local marks = set:mark(set:answer_form())
      lu.assertEquals(#marks.problems, 0, said)
      lu.assertEquals(marks.students[said].marks, 0)
    end
  end
end

---------------------------------------------------------------------------- own kinds

local OWN = {
  name = "landing", title = "A landing", vary = {span = {96, 120}},
  given = function(p) return {{"L", p.span / 12, "ft", "span"}} end,
  question = "Find it.",
  steps = {{"R", "50*L/2", "lb", ask = "Reaction", marks = 2}},
  mistakes = {{of = "R", formula = "50*L", name = "whole", reveals = "halve it"}},
}

local function own_with(changes)
  local t = {}
  for field, value in pairs(OWN) do t[field] = value end
  for field, value in pairs(changes or {}) do t[field] = value end
  return t
end

function T.test_kind_of_ones_own()
  local k = ns.homework.kind(OWN)
  local set = homework.of(k, 2)
  local v = set:of "s001"[1]
  lu.assertEquals(v.s.R, 25 * v.p.span / 12)
  lu.assertEquals(#set:figures "s001", 0)
  lu.assertStrContains(document.text(set:sheet "s001"), "Find it.")
end

local FAULTS = {
  {{name = "2"}, "letters, digits and _"}, {{title = 5}, "title (string) expected"},
  {{vary = {x = 3}}, "vary.x: a list of values"}, {{vary = 1}, "vary (table) expected"},
  {{given = 1}, "given (function) expected"},
  {{question = 1}, "question (string function)"},
  {{check = 1}, "check (function) expected"}, {{colour = 1}, "unknown field 'colour'"},
  {{steps = {}}, "steps with 'ask'"}, {{steps = {{"R", "2*", "lb"}}}, "not a formula"},
  {{steps = {{2}}}, "symbol expected"},
  {{steps = {{"R", "2", "lb", ask = "R"}}}, "marks above 0"},
  {{steps = {{"R", "2", "lb", say = "R"}}}, "unknown field 'say'"},
  {{mistakes = {{of = "R", formula = "1"}}}, "name and reveals"},
  {{mistakes = {{of = "Q", formula = "1", name = "a", reveals = "b"}}},
    "no step asks for Q"},
  {{mistakes = {{of = "R", formula = "1+", name = "a", reveals = "b"}}}, "not a formula"},
  {{mistakes = {{of = {}, with = {R = "1"}, name = "a", reveals = "b"}}},
    "formula or with"},
}

function T.test_faults_of_a_kind()
  for _, case in ipairs(FAULTS) do
    local said = raises(case[2], ns.homework.kind, own_with(case[1]))
    lu.assertStrContains(said, "homework.kind")
  end
end

---------------------------------------------------------------------------- messages

local WRONG = {
  {{course = false}, "course (text) expected"}, {{seed = 1.5}, "seed (text) expected"},
  {{students = {}}, "students: a list"}, {{students = {true}}, "student 1"},
  {{students = {"a", "a"}}, "the id a is there twice"},
  {{students = {{id = " "}}}, "student 1: id (text)"},
  {{students = {"# 5"}}, "begin with #"},
  {{students = {"\xC3"}}, "UTF-8 text"}, {{students = {"a\nb"}}, "one line"},
  {{students = {{id = "a", name = 1}}}, "name: text expected"},
  {{students = {{id = "a", mail = ""}}}, "unknown field 'mail'"},
  {{problems = {}}, "problems: a list"},
  {{problems = {"roof"}}, "problem 1: kind is one of"},
  {{problems = {{kind = "tub", hard = true}}}, "unknown field 'hard'"},
  {{problems = {{kind = "tub", given = {roof = 1}}}}, "no base value 'roof'"},
  {{problems = {{kind = "tub", given = {span = "wide"}}}}, "length or load expected"},
  {{problems = {{kind = "tub", given = {span = true}}}}, "a number such as"},
  {{problems = {{kind = "tub", vary = {span = 1}}}}, "a list of values expected"},
  {{problems = {{kind = "tub", mode = "hard"}}}, "mode: one of none"},
  {{problems = {{kind = "end_notch", mode = "hard"}}}, "mode: one of within d/4"},
  {{problems = {{kind = "end_notch", mode = "within d/4", vary = {depth = {3, 3.25}}}}},
    "makes a fair question"},
  {{standard = "eurocode"}, "eurocode"}, {{units = "metric"}, "us units"},
  {{units = "furlongs"}, 'units: "us" or "metric" expected'},
  {{colour = 1}, "unknown field 'colour'"},
}

function T.test_messages()
  for _, case in ipairs(WRONG) do
    local said = raises(case[2], set_of, case[1])
    lu.assertStrContains(said, "test_homework.lua")
  end
  local set = set_of()
  raises("no student with the id x", set.sheet, set, "x")
  raises("no student with the id x", set.key, set, "x")
  raises("no student with the id x", set.of, set, "x")
  raises("no student with the id x", set.figures, set, "x")
  raises("unknown field 'ink'", set.sheet, set, "s001", {ink = 1})
  raises("figures: true or false", set.sheet, set, "s001", {figures = 1})
  raises("draw: a function", set.sheet, set, "s001", {draw = 1})
  raises("CSV text or a list of rows", set.mark, set, 5)
end

return T
