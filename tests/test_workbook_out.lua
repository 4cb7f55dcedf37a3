-- SPDX-License-Identifier: MIT
-- Workbooks that go out. The office program works every formula out again: an independent
-- reading of the same text. Inputs changed in a file and recalculated there have to give
-- the review of the changed joist.
local calculation = require "netsection.workbook.calculation"
local lu = require "luaunit"
local ns = require "netsection"
local ods = require "netsection.workbook.ods"
local office = require "tests.workbook"
local read = require "netsection.workbook.read"
local support = require "tests.support"
local system = require "tests.system"
local xlsx = require "netsection.workbook.xlsx"

local T = {}

local ROOT = system.build .. "/test_workbook_out"
local FORMS = {ods = ods, xlsx = xlsx}

local BOLT = ns.fastener {kind = "bolt", diameter = "1/2 in"}
local MATERIAL = {Fb = 900, CF = 1.1, Fv = 180, E = 1.6e6, Emin = 580e3, Ft = 575,
  Fc = 1350, Fc_perp = 625}

local JOISTS = {
  {cuts = {ns.hole {at = "5-2", diameter = 4, below = 1.5},
    ns.end_notch {support = "left", face = "bottom", depth = 1.75}}},
  {spans = {"12-0", "10-0"}, span = ns.none, overhang_right = "2-0",
    cuts = {ns.slot {from = "3-0", to = "3-8", height = 4, below = 2.5}}},
  {loads = {ns.point {at = "4-0", load = "300 lb", case = "dead"},
    ns.line {load = "60 plf", case = "dead", from = "2-0", to = "9-0"}},
    cuts = {ns.notch {face = "bottom", from = "6-0", to = "6-5", depth = 1.5}}},
  {cuts = {ns.sever {from = "6-0", to = "6-5"}}, fix = ns.sister {from = "2-8",
    to = "10-0",
    fastener = BOLT, groups = {{at = "3-2", n = 10}, {at = "5-6", n = 10},
      {at = "6-11", n = 10}, {at = "9-6", n = 10}}}},
}

local function joist(i, changes)
  local t, of_fix = {material = MATERIAL}, nil
  for name, value in pairs(JOISTS[i]) do
    if name == "fix" then of_fix = value else t[name] = value end
  end
  for name, value in pairs(changes or {}) do t[name] = value end
  local made = support.joist(t)
  return of_fix and made:fix(of_fix) or made
end

local function fresh()
  system.fresh(ROOT)
end

-- Numbers of a workbook that the office program saved, by sheet, row and column.
local function numbers_in(path)
  local file <close> = assert(io.open(path, "rb"))
  local made = assert(read.book(file:read "a", function() return true end))
  local out = {}
  for _, s in ipairs(made.sheets) do
    out[s.name] = {}
    for _, row in ipairs(s.source.rows) do out[s.name][row.row] = row end
  end
  return out
end

local function cell_in(numbers, name)
  local row = numbers[name.sheet.name][name.row]
  return tonumber(row and row[name.column])
end

local function skip_without_office()
  lu.skipIf(not office.office(), "no office program on this machine")
  lu.skipIf(office.missing() ~= nil, office.missing())
end

-------------------------------------------------------------------- recalculated there

function T.test_every_cell_is_recalculated_to_the_same_number()
  skip_without_office()
  fresh()
  local list = {}
  for i = 1, #JOISTS do list[i] = joist(i):with {mark = "J" .. i} end
  local b = calculation.of(ns.floor {name = "=1+1 & <co>", joists = list}:review())
  for form, writer in pairs(FORMS) do
    -- What was stored is made wrong first, so that only a recalculated number passes.
    for _, s in ipairs(b.sheets) do
      for _, cells in pairs(s.rows) do
        for _, c in pairs(cells) do
          if c.formula and type(c.value) == "number" then c.kept, c.value = c.value,
            -1 end
        end
      end
    end
    assert(ns.write(("%s/%s.%s"):format(ROOT, form, form), writer.of(b)))
    for _, s in ipairs(b.sheets) do
      for _, cells in pairs(s.rows) do
        for _, c in pairs(cells) do c.value = c.kept or c.value end
      end
    end
  end
  assert(office.convert(ROOT, "xlsx", ROOT .. "/ods.ods", ROOT .. "/xlsx.xlsx"))
  local formulas = 0
  for _, path in ipairs {"ods", "xlsx"} do
    local numbers = numbers_in(("%s/out/%s.xlsx"):format(ROOT, path))
    for _, name in ipairs(b.names) do
      local c = name.sheet.rows[name.row][name.column]
      local got = cell_in(numbers, name)
      lu.assertNotNil(got, path .. " " .. name.name)
      local margin = 1e-9 * math.max(math.abs(c.value), 1e-9)
      support.close_abs(got, c.value, margin, path .. " " .. name.name)
      formulas = formulas + (c.formula and 1 or 0)
    end
  end
  lu.assertTrue(formulas > 500)
  system.remove(ROOT)
end

------------------------------------------------------------------------------ metric

-- Cells of a book by name, formulas worked out again by Lua, whose + - * / ^ are those of
-- a spreadsheet where no minus stands before a power.
local function worked_out(b)
  local cells, value = {}, {}
  for _, name in ipairs(b.names) do
    cells[name.name] = name.sheet.rows[name.row][name.column]
  end
  local known = setmetatable({MAX = math.max, MIN = math.min, SQRT = math.sqrt}, {
    __index = function(self, name)
      local c = assert(cells[name], name)
      local found = c.formula and assert(load("return " .. c.formula, name, "t", self))()
        or c.value
      rawset(self, name, found)
      return found
    end})
  for name, c in pairs(cells) do
    if type(c.value) == "number" then value[name] = known[name] end
  end
  return value, cells
end

-- Every cell of a metric calculation is what its formula gives, in N and mm; the numbers
-- of a formula are those of the US one, converted (25.4 mm, 4.4482216152605 N).
function T.test_a_metric_calculation_recomputes()
  for i = 1, #JOISTS do
    local us, metric = joist(i):review(), joist(i, {units = "metric"}):review()
    local b, groups = calculation.of(metric)
    local value, cells = worked_out(b)
    local count = 0
    for name, x in pairs(value) do
      support.close_abs(x, cells[name].value, 1e-9 * math.max(math.abs(x), 1e-9), name)
      count = count + (cells[name].formula and 1 or 0)
    end
    lu.assertTrue(count > 20)
    support.close(value.j1_ratio_cut or value.j1_ratio_fixed, us.cut.ratio
      or us.fixed.ratio, 1e-9)
    lu.assertEquals(groups[1].live.inputs[1].unit, "kN/m2")
    local bending = groups[1].live.states.uncut[1]
    local twin = calculation.of(us)
    support.close(bending.by.S.value, us:find("uncut", "bending").steps[2].value
      * 25.4 ^ 3, 1e-9)
    lu.assertEquals(bending.by.S.unit, "mm3")
    lu.assertEquals(#twin.names, #b.names)
  end
end

-- 2.4 kN/m2 entered in the cell of the live load gives the review of that joist.
function T.test_a_changed_metric_input()
  local b, groups = calculation.of(joist(1, {units = "metric"}):review())
  local place = groups[1].places.live
  place.sheet.rows[place.row][place.column].value = 2.4
  local got = worked_out(b).j1_ratio_cut
  local r = joist(1, {units = "metric", live = "2.4 kN/m2"}):review()
  support.close(got, r.cut.ratio, 1e-9)
  -- and so of a joist of a strength class, whose design values are not its inputs
  local function of(live)
    return ns.joist {mark = "E", class = "C24", b = "45 mm", d = "220 mm",
      span = "3.6 m", spacing = "400 mm", dead = "0.5 kPa", live = live,
      cuts = {ns.hole {at = "1.8 m", diameter = "40 mm"}}}
      :review {standard = "en-1995-1-1"}
  end
  b, groups = calculation.of(of "1.5 kPa")
  place = groups[1].places.live
  place.sheet.rows[place.row][place.column].value = 1.7
  support.close(worked_out(b).j1_ratio_cut, of("1.7 kPa").cut.ratio, 1e-9)
end

-- Random numbers that are the same everywhere (SplitMix64).
local function generator(seed)
  local state = seed
  return function()
    state = state + 0x9E3779B97F4A7C15
    local z = (state ~ (state >> 30)) * 0xBF58476D1CE4E5B9
    z = (z ~ (z >> 27)) * 0x94D049BB133111EB
    return ((z ~ (z >> 31)) >> 11) * 2.0^-53
  end
end

local function changed(i, keys, values)
  local changes, material = {}, {}
  for name, value in pairs(MATERIAL) do material[name] = value end
  for k, key in ipairs(keys) do
    if key == "dead" or key == "live" then
      changes[key] = values[k]
    else
      material[key] = values[k]
    end
  end
  changes.material = material
  return joist(i, changes):review()
end

local STATES = {"uncut", "cut", "fixed"}

-- Compares the checks of a recalculated file that follow the inputs that changed.
local function compare(case, numbers)
  local compared, left = 0, 0
  local r = changed(case.joist, case.keys, case.values)
  local by_name = {}
  for _, name in ipairs(case.book.names) do by_name[name.name] = name end
  local number = 0
  for _, state in ipairs(STATES) do
    for n, item in ipairs(case.group.live.states[state] or {}) do
      number = number + 1
      local follows, k = true, r[state].checks[n]
      for _, key in ipairs(case.keys) do follows = follows and item.follows[key] end
      local same = k and k.mode == item.check.mode and k.branch == item.check.branch
        and k.combination == item.check.combination
        and math.abs(k.at - item.check.at) < 1e-6
      local name = by_name[("j1_k%d_ratio"):format(number)]
      if follows and same and k.ratio and name then
        support.close(cell_in(numbers, name), k.ratio, 1e-9, ("%s %s of joist %d, "
          .. "%s"):format(
          state, k.mode, case.joist, table.concat(case.keys, " ")))
        compared = compared + 1
      else
        left = left + 1
      end
    end
  end
  return compared, left
end

function T.test_twenty_changed_inputs_give_the_review_of_the_changed_joist()
  skip_without_office()
  fresh()
  local random, cases, paths = generator(20), {}, {}
  for n = 1, 20 do
    local i = (n - 1) % #JOISTS + 1
    local b, groups = calculation.of(joist(i):review())
    local inputs, case = groups[1].live.inputs, {joist = i, book = b, group = groups[1],
      keys = {}, values = {}}
    lu.assertTrue(#inputs >= 2)
    local first = inputs[math.floor(random() * #inputs) + 1]
    local second = n % 3 == 0 and inputs[math.floor(random() * #inputs) + 1] or first
    for _, input in ipairs(second == first and {first} or {first, second}) do
      local place = groups[1].places[input.key]
      local value = input.value * (0.8 + 0.4 * random())
      place.sheet.rows[place.row][place.column].value = value
      case.keys[#case.keys + 1], case.values[#case.values + 1] = input.key, value
    end
    cases[n], paths[n] = case, ("%s/change-%d.%s"):format(ROOT, n, "ods")
    assert(ns.write(paths[n], ods.of(b)))
  end
  assert(office.convert(ROOT, "xlsx", table.unpack(paths)))
  local compared, left = 0, 0
  for n, case in ipairs(cases) do
    local a, b = compare(case, numbers_in(("%s/out/change-%d.xlsx"):format(ROOT, n)))
    compared, left = compared + a, left + b
  end
  lu.assertTrue(compared > 150 and compared > 4 * left, ("%d compared, %d left"):format(
    compared, left))
  system.remove(ROOT)
end

--------------------------------------------------------------------------------- tables

local function spans()
  return ns.table {title = "=Spans @ "
    .. "mill", rows = {name = "size", values = {"2x8", "2x10"}},
    columns = {name = "spacing", values = {12, 16, 19.2}, unit = "in"},
    blocks = {name = "live", values = {30, 40}, unit = "psf"},
    cell = function(size, spacing, live)
      if size == "2x8" and spacing > 16 then return {reason = "not stocked"} end
      return {value = (size == "2x8" and 150 or 190) - spacing - live / 2 + 0.7,
        letter = spacing < 16 and "d" or "b",
        note = spacing == 16 and "=look twice" or nil}
    end, unit = "ft-in", round = {to = "1/2 in", way = "down"}, notes = {"+a note"}}
end

local function ratios()
  return ns.table {title = "Ratios", rows = {name = "at", values = {1, 2}},
    columns = {name = "n", values = {1, 2}}, cell = function(a, b) return a / b / 3 end,
    unit = "lb", round = {to = 0.01, way = "down"}, metric = true}
end

local function holes()
  return ns.table {title = "Holes", rows = {name = "at", values = {1}},
    columns = {name = "n", values = {1, 2, 3}},
    cell = function(_, b) return {value = b + b / 8, letter = "r"} end, unit = "in",
    round = {to = "1/8 in", way = "down"}}
end

-- Inches of the cells by hand: 150 - 12 - 15 + 0.7 = 123.7, down to 123-1/2 = 10-3 1/2.
local SHOWN = {["Table 1.1"] = {{"10-3 1/2 d", "9-11 1/2 b (1)", "n/a (2)"},
  {"13-7 1/2 d", "13-3 1/2 b (1)", "13-0 1/2 b"}},
  ["Table 1.2"] = {{"9-10 1/2 d", "9-6 1/2 b (1)", "n/a (2)"},
    {"13-2 1/2 d", "12-10 1/2 b (1)", "12-7 1/2 b"}}}

function T.test_tables_show_feet_and_store_inches()
  skip_without_office()
  fresh()
  for form in pairs(FORMS) do
    assert(ns.workbook.tables({spans(), ratios(), holes(), {name = "Marks", csv =
      "student,mark\r\n'=Ann,07\r\n"}}, ("%s/t-%s.%s"):format(ROOT, form, form)))
  end
  assert(office.convert(ROOT, "xlsx", ROOT .. "/t-ods.ods", ROOT .. "/t-xlsx.xlsx"))
  for form in pairs(FORMS) do
    local numbers = numbers_in(("%s/out/t-%s.xlsx"):format(ROOT, form))
    for name, rows in pairs(SHOWN) do
      for i, row in ipairs(rows) do
        for k, said in ipairs(row) do
          lu.assertEquals(numbers[name][4 + i][1 + k], said)
        end
      end
    end
    lu.assertEquals(numbers["Table 1.1 in"][5][2], "123.5")
    lu.assertEquals(numbers["Table 1.1 in"][1][1], "=Spans @ mill, in inches")
    -- 1/3 lb down to 0.33; 0.33 lb is 0.0014679 kN, down to 0.
    lu.assertEquals({table.unpack(numbers["Table 2"][5], 1, 3)}, {"1", "0.33", "0"})
    lu.assertEquals({table.unpack(numbers["Table 3"][5], 1, 4)}, {"1", "1.125", "2.25",
      "3.375"})
    lu.assertEquals({table.unpack(numbers.Marks[2])}, {"=Ann", "07"})
    lu.assertEquals(numbers.Contents[4][2], "=Spans @ mill")
  end
  system.remove(ROOT)
end

function T.test_tables_say_their_notes_and_repeat_their_headings()
  local t = spans()
  local bytes = t:xlsx()
  lu.assertTrue(bytes == spans():xlsx() and t:ods() == spans():ods())
  for _, piece in ipairs {"(1) =look twice", "(2) not stocked", "+a note", "Cautions",
    "Not a sealed design.", "_xlnm.Print_Titles", "_xlnm.Print_Area",
    'orientation="landscape"', "Page &amp;P of &amp;N"} do
    lu.assertStrContains(bytes, piece)
  end
  lu.assertStrContains(t:ods(), "<table:table-header-rows>")
  lu.assertNil(bytes:find "<f>[^<]*look")
end

function T.test_a_gradebook_and_an_answer_form()
  lu.skipIf(office.missing() ~= nil, office.missing())
  local set = ns.homework {course = "=Floors", seed = "s", students = {"=k1", "k2"},
    problems = {"reactions"}}
  local rows = {{student = "k2", problem = 1, part = "a", answer = "1"}}
  local marks = assert(set:mark(rows))
  fresh()
  for form in pairs(FORMS) do
    local path = ("%s/m.%s"):format(ROOT, form)
    assert(ns.workbook.tables({{name = "Gradebook", csv = marks:gradebook {"student",
      "marks"}}, {name = "Answers", csv = set:answer_form()}}, path))
    local numbers = numbers_in(path)
    lu.assertEquals({table.unpack(numbers.Gradebook[1])}, {"student", "marks"})
    lu.assertEquals(numbers.Gradebook[2][1], "=k1")
    lu.assertEquals(tonumber(numbers.Gradebook[2][2]), 0)
    lu.assertEquals(numbers.Answers[1][1], "student")
  end
  system.remove(ROOT)
end

function T.test_misuse_of_tables()
  local function wrong(piece, ...)
    lu.assertErrorMsgContains(piece, ns.workbook.tables, ...)
  end
  wrong("a list of tables expected", {}, "a.ods")
  wrong("item 1: a table of ns.table", {3}, "a.ods")
  wrong("item 1: name: text expected", {{csv = "a"}}, "a.ods")
  wrong("item 1: csv: CSV text expected", {{name = "a", csv = '"'}}, "a.ods")
  wrong("ends in .xlsx or .ods", {spans()}, "a.pdf")
  wrong("unknown field 'colour'", {spans()}, "a.ods", {colour = 1})
  local t = spans()
  lu.assertErrorMsgContains('paper "letter" or "a4"', t.xlsx, t, {paper = 3})
end

-------------------------------------------------------------------------- a field book

local template = require "netsection.workbook.template"

local function field_book()
  local b = template.of {}
  local by_name = {}
  for _, s in ipairs(b.sheets) do by_name[s.name] = s end
  local function fill(name, row, values)
    local s = by_name[name]
    for column, v in pairs(values) do
      local at
      for i, head in pairs(s.rows[1]) do at = head.value == column and i or at end
      s:put(row, assert(at, column), v, {text = true})
    end
  end
  fill("joists", 5, {mark = "all", size = "2x10", species = "Hem-Fir", grade = "No.2",
    span = "13-6", spacing = "16", bearing = "3-1/2 in", dead = "12", live = "40 psf"})
  fill("joists", 6, {mark = "J1"})
  fill("cuts", 5, {joist = "J1", kind = "hole", at = "5-2", diameter = "4 in",
    below = "1-1/2 in"})
  return b
end

local function check_field_book(bytes)
  local floor, found = ns.read_survey {workbook = {text = bytes}}
  lu.assertNotNil(floor, found and found[1].text)
  support.close(floor.joists[1].model.span[1], 162)
  lu.assertEquals(floor.joists[1].description.cuts[1].at, "5-2")
  lu.assertEquals(floor.survey.notes, {})
end

function T.test_a_field_book_is_filled_in_and_read()
  lu.skipIf(office.missing() ~= nil, office.missing())
  for form, writer in pairs(FORMS) do
    check_field_book(writer.of(field_book()))
    local blank = ns.workbook.template(form)
    lu.assertTrue(blank == ns.workbook.template(form))
    local floor, found = ns.read_survey {workbook = {text = blank, name = "b"}}
    lu.assertNil(floor)
    lu.assertEquals(#found, 1)
    lu.assertEquals(found[1].text, "b, sheet joists: no joist: a row with a mark "
      .. "expected")
  end
  lu.assertErrorMsgContains('"xlsx" or "ods" expected', ns.workbook.template, "csv")
end

function T.test_a_field_book_has_its_lists_after_the_office_program()
  skip_without_office()
  fresh()
  for form, writer in pairs(FORMS) do
    assert(ns.write(("%s/b-%s.%s"):format(ROOT, form, form), writer.of(field_book())))
  end
  assert(office.convert(ROOT, "xlsx", ROOT .. "/b-ods.ods", ROOT .. "/b-xlsx.xlsx"))
  local unzip = require "netsection.workbook.unzip"
  for form in pairs(FORMS) do
    local file <close> = assert(io.open(("%s/out/b-%s.xlsx"):format(ROOT, form), "rb"))
    local bytes = file:read "a"
    check_field_book(bytes)
    local archive, lists, hints = unzip.open(bytes, require "zlib"), 0, 0
    for i = 1, 8 do
      local part = archive:part(("xl/worksheets/sheet%d.xml"):format(i))
      for _ in part:gmatch "<dataValidation [^>]*type=\"list\"" do lists = lists + 1 end
      for _ in part:gmatch "prompt=" do hints = hints + 1 end
    end
    lu.assertTrue(lists >= 20 and hints >= 60, ("%d lists, %d "
      .. "hints"):format(lists, hints))
  end
  system.remove(ROOT)
end

function T.test_the_command_writes_a_field_book_once()
  fresh()
  local command = require "netsection.command"
  local function run(...)
    local lines = {}
    local function say(line) lines[#lines + 1] = line end
    return command.run({...}, {out = say, err = say}), table.concat(lines, "\n")
  end
  for _, form in ipairs {"ods", "xlsx"} do
    local path = ("%s/book.%s"):format(ROOT, form)
    lu.assertEquals(run("template", path), 0)
    local file <close> = assert(io.open(path, "rb"))
    lu.assertTrue(file:read "a" == ns.workbook.template(form))
    local code, said = run("template", path)
    lu.assertEquals(code, 3)
    lu.assertStrContains(said, "never written over")
  end
  system.remove(ROOT)
end

--------------------------------------------------------------------------- what it says

function T.test_same_review_same_bytes()
  for _, writer in pairs(FORMS) do
    local one = writer.of((calculation.of(joist(1):review())))
    lu.assertTrue(one == writer.of((calculation.of(joist(1):review()))))
    lu.assertEquals(one:sub(1, 4), "PK\3\4")
  end
end

function T.test_texts_of_users_are_texts()
  local made = joist(1):with {mark = "=HYPERLINK(1)"}
  local b = calculation.of(ns.floor {name = "@SUM(A1)", joists = {made}}:review())
  for form, writer in pairs(FORMS) do
    local bytes = writer.of(b)
    lu.assertStrContains(bytes, "=HYPERLINK(1)")
    lu.assertNotStrContains(bytes, form == "ods" and 'formula="of:==' or "<f>=")
    lu.assertNil(bytes:find "<f>[^<]*HYPERLINK" or bytes:find 'formula="[^"]*HYPERLINK')
    lu.assertNil(bytes:find "https?://[%w.]+/[^<\"]*\" TargetMode")
  end
end

function T.test_alike_joists_share_a_sheet()
  local list = {}
  for i = 1, 5 do list[i] = joist(1):with {mark = "J" .. i} end
  list[6] = joist(3):with {mark = "J6"}
  local b, groups = calculation.of(ns.floor {name = "f", joists = list}:review())
  lu.assertEquals(#groups, 2)
  lu.assertEquals(b.sheets[3].name, "J1 and 4 more")
  lu.assertEquals(b.sheets[4].name, "J6")
  local said = b.sheets[3].rows[1][1].value
  lu.assertStrContains(said, "J1, J2, J3, J4, J5: ")
end

-- What cannot be a formula is a number, and says so.
function T.test_numbers_say_that_they_are_numbers()
  local b = calculation.of(joist(1):review())
  local formulas, numbers = 0, 0
  for _, name in ipairs(b.names) do
    local cells = name.sheet.rows[name.row]
    if name.sheet.name == "J3" and cells[6] and name.name:find "_k%d" then
      local c = cells[name.column]
      local said = cells[6].value or ""
      if c.formula then
        formulas = formulas + 1
        lu.assertNil(said:find "number%)$" or said:find "^number$")
      else
        numbers = numbers + 1
        lu.assertTrue(said:find "%(number%)$" ~= nil or said == "number", said)
      end
    end
  end
  lu.assertTrue(formulas > 60 and numbers > 60)
end

function T.test_a_joist_that_is_not_computed_has_a_sheet_with_reasons()
  local r = support.joist {member = "I-joist", size = "2x10",
    cuts = {ns.hole {at = "5-0", diameter = 1}}}:review()
  lu.assertFalse(r.computed or false)
  local b = calculation.of(r)
  lu.assertEquals(b.sheets[3].rows[3][1].value, "Recommended action: refer")
end

function T.test_misuse()
  local r = joist(1):review()
  lu.assertErrorMsgContains("a name that ends in .xlsx or "
    .. ".ods", ns.workbook.write, r, "a.csv")
  lu.assertErrorMsgContains("path (string) expected", ns.workbook.write, r)
  lu.assertErrorMsgContains("the review of a joist or a floor", ns.workbook.write, {},
    "a.ods")
  lu.assertErrorMsgContains('paper "letter" or "a4"', ns.workbook.write, r, "a.ods",
    {paper = "A0"})
  for _, wrong in ipairs {3, "x", {}, {joists = {}, order = {}}, joist(1)} do
    lu.assertErrorMsgContains("workbook.bytes: the review", ns.workbook.bytes, wrong,
      "ods")
  end
  local ok, why = ns.workbook.write(r, "build/no such/a.ods")
  lu.assertNil(ok)
  lu.assertStrContains(why, "cannot write")
end

return T
