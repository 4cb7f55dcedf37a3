-- SPDX-License-Identifier: MIT
-- The short report: what stands on its first page, what it leaves out, and that a person
-- with a pocket calculator and the printed text alone comes to its figures. PDF where a
-- browser and poppler are on the machine.
local document = require "netsection.document"
local drawing = require "tests.drawing"
local floor12 = require "tests.data.floor12"
local formula = require "tests.formula"
local hatch = require "netsection.hatch"
local lu = require "luaunit"
local markup = require "tests.markup"
local ns = require "netsection"
local reason = require "netsection.reason"
local render = require "netsection.render"
local support = require "tests.support"
local system = require "tests.system"

local T = {}

local made

local function review()
  made = made or floor12():review()
  return made
end

local OPTIONS = {job = "RW-7", date = "29 November", visit = {date = "27 November"},
  concealed = {"both ends of R1"}}

local files

local function file(name)
  files = files or ns.package.files(review(), OPTIONS)
  for _, f in ipairs(files) do
    if f.name == name then return f.text end
  end
end

---------------------------------------------------------------------------
-- Reasons and the first page
---------------------------------------------------------------------------

-- What the action table says of each by hand: R3 is in two pieces, R6 is 4 in of 9-1/4
-- (d/3 = 3.08), R7 2-3/4 of d/4 = 2.31, R8 and R11 deeper than d/6 = 1.54.
function T.test_the_reason_stands_beside_the_action()
  local expected = {R1 = "no cuts; adequate", R2 = "within the rules; adequate",
    R3 = "cut through: not permitted", R5 = "undersized before any cut: bending",
    R7 = "end notch 1 not permitted", R8 = "notch 1 not permitted",
    R9 = "undersized before any cut", R10 = "rules only: loss 1 not covered"}
  for mark, said in pairs(expected) do
    lu.assertStrContains(reason.of(review().joists[mark]), said, false, mark)
  end
  local page = file "report.md"
  for mark, r in pairs(review().joists) do
    local row = page:match("\n| %*%*" .. mark .. "%*%* | 2x10[^\n]*")
    lu.assertNotNil(row, mark)
    lu.assertStrContains(row, r.action, false, mark)
    lu.assertStrContains(row:gsub("\\", ""), reason.of(r):match "^[^:;,]+", false, mark)
  end
end

function T.test_the_first_page_says_what_is_dangerous_and_by_which_thresholds()
  local page = file "report.txt"
  local now, all = page:find("Act now", 1, true), page:find("\nAll joists", 1, true)
  local basis = page:find("dead load alone above 1; D + L above 2", 1, true)
  lu.assertTrue(now < basis and basis < all)
  lu.assertStrContains(page:sub(now, all), "R3: cut through at 6'-2 1/2\"")
  lu.assertStrContains(page:sub(1, now), "Visit: 27 November")
  local calm = ns.joist {mark = "J1", size = "2x10", species = "hem-fir", grade = "No.2",
    span = "10-0", spacing = 16, bearing = 3.5, dead = 12, live = 40}:review()
  local said = ns.package.files(calm)[3].text
  lu.assertStrContains(said, "Nothing to shore today by the thresholds below")
  lu.assertStrContains(said, "Date of the visit: ___")
end

function T.test_what_needs_nothing_has_no_sheet_and_what_does_has_one()
  local page = file "report.html"
  for mark, r in pairs(review().joists) do
    local has = page:find(('id="joist-%s"'):format(mark), 1, true) ~= nil
    lu.assertEquals(has, r.action ~= "leave", mark)
    local _, links = page:gsub(('href="#joist%%-%s"'):format(mark), "")
    lu.assertEquals(links, has and 1 or 0, mark)
  end
  lu.assertStrContains(page, 'id="all-joists"')
  lu.assertNil(markup.html_problem(page))
end

function T.test_a_failing_repair_has_one_line_and_its_reason()
  local page = file "report.txt"
  local under = page:match "Repairs that fail, not to be built\n%-+\n\n(.-)\n\n"
  lu.assertStrContains(under, "R11: ")
  lu.assertNotStrContains(under, "R3: ")
  lu.assertStrContains(page, "40 bolts, 1/2 in diameter")
end

-- The standing cautions and the assumptions stand once each.
function T.test_nothing_is_said_twice()
  local page = file "report.txt":gsub("%s+", " ")
  for _, said in ipairs {"Shore first. Nobody cuts", "Design values: Douglas Fir%-Larch",
    "Patch live load", "Old buildings%."} do
    local _, n = page:gsub(said, "")
    lu.assertTrue(n <= 1, said)
  end
end

---------------------------------------------------------------------------
-- A pocket calculator
---------------------------------------------------------------------------

-- Lines of calculations on the page: {symbol =, numbers = expression, value =, unit =}.
local function sums(page)
  local list = {}
  local text = page:gsub("\n      ", " ")
  for line in text:gmatch "\n  (%S[^\n]*)" do
    local symbol, rest = line:match "^([%w: _']+) = (.+)$"
    if symbol then
      local members = {}
      for member in (rest .. " = "):gmatch "(.-) = " do
        members[#members + 1] = member
      end
      local value, after = members[#members]:match "^(-?[%d.]+)(.*)$"
      if value and #members >= 3 then
        list[#list + 1] = {symbol = symbol, numbers = members[#members - 1],
          value = tonumber(value), unit = after:match "^ ([%a-]+%d?)"}
      end
    end
  end
  return list
end

-- From the printed numbers alone, to 0.5 %: printed numbers have four figures. Statics of
-- a beam and the lines of NDS 3.3, 3.4 and 4.3; the sums are worked out here.
function T.test_six_figures_and_more_follow_from_the_page()
  local kinds, n = {}, 0
  for _, s in ipairs(sums(file "report.txt")) do
    local ok, value = pcall(formula.value, s.numbers, {})
    if ok then
      lu.assertAlmostEquals(value, s.value, 0.005 * math.abs(s.value) + 1e-9,
        s.symbol .. " = " .. s.numbers)
      kinds[s.symbol:match "[%a_]+'?$" or s.symbol], n = true, n + 1
    end
  end
  for _, symbol in ipairs {"R_1", "M", "V", "f_b", "F_b'", "ratio"} do
    lu.assertTrue(kinds[symbol], symbol)
  end
  lu.assertTrue(n >= 20, n)
end

-- Six figures from what the page says in words and tables, by hand: w = psf x 16/12;
-- R = w L/2; M = w L^2/8; S = b d^2/6; the tub's dead load 310 lb over 5 ft in a strip
-- of 30 in, of which the joist carries 16 in: 310/(5*2.5)*16/12 = 33.07 plf.
function T.test_loads_by_hand()
  local page = file "report.txt"
  local row = page:match "\nR1 to R11 +12 +40 +16 +([^\n]*)"
  lu.assertNotNil(row)
  local w_D, w_L = row:match "([%d.]+) +([%d.]+)"
  lu.assertAlmostEquals(tonumber(w_D), 12 * 16 / 12, 1e-9)
  lu.assertAlmostEquals(tonumber(w_L), 40 * 16 / 12, 0.005)
  lu.assertStrContains(page, "69.33*13.5/2 = 468 lb")
  lu.assertAlmostEquals(310 / (5 * 2.5) * 16 / 12,
    tonumber(page:match "cast iron +dead +%S+ +%S+ +([%d.]+)"), 0.005)
  lu.assertStrContains(page, "S = b*d^2/6 = 1.5*9.25^2/6 = 21.39 in3")
end

-- Each number of the page that carries a name is that number of the file.
function T.test_numbers_are_those_of_the_file()
  local tree, n = ns.package.data(review()), 0
  local numbers = require "netsection.numbers"
  local cell = '<td[^>]*data%-name="([^"]+)"[^>]*>(.-)</td>'
  for name, said in file "report.html":gmatch(cell) do
    local value = numbers.at(tree, name)
    lu.assertNotNil(value, name)
    local shown = markup.html_text(said)
    if math.type(value) and tonumber(shown) then
      lu.assertAlmostEquals(tonumber(shown), value,
        0.006 * math.max(1, math.abs(value)), name)
      n = n + 1
    end
  end
  lu.assertTrue(n > 100, n)
end

---------------------------------------------------------------------------
-- Furniture, drawings
---------------------------------------------------------------------------

function T.test_pages_carry_job_date_version_and_editions()
  for _, name in ipairs {"report.html", "letter.html", "crew.html", "parts.html"} do
    local page = file(name)
    lu.assertStrContains(page, 'content: "RW\\2d 7\\3a  Rope walk')
    lu.assertStrContains(page, "Run of 29 November")
    lu.assertStrContains(page, "NDS 2018")
    lu.assertStrContains(page, "International Residential Code")
    lu.assertStrContains(page, "counter(pages)")
  end
end

-- The full calculation names the joist on each of its printed pages.
function T.test_the_annex_names_its_joist_on_each_page()
  local page
  for _, f in ipairs(ns.package.files(review(), {full = true, steps = "none"})) do
    if f.name == "calculation.html" then page = f.text end
  end
  lu.assertStrContains(page, '@top-right { content: "Joist R3"')
  lu.assertStrContains(page, 'class="part part1"')
  lu.assertStrContains(page, 'href="#all-joists"')
  lu.assertNil(markup.html_problem(page))
end

-- A square of 40 by 40: lines 8 apart in x - y, that is 9 of them, none outside.
function T.test_hatching_becomes_lines()
  local svg = '<defs><pattern id="p1" width="8"><path style="stroke:rgb(0,0,0)" '
    .. 'd="M-4,0 L8,12 M0,-4 L12,8"/></pattern></defs>'
    .. "<polygon fill = 'url(#p1)' points = '10,10 50,10 50,50 10,50 10,10 '/>"
  local said = hatch.lines(svg)
  lu.assertNil(said:find "<polygon")
  local n = 0
  for x1, y1, x2, y2 in said:gmatch "M([%d.]+),([%d.]+)L([%d.]+),([%d.]+)" do
    n = n + 1
    for _, v in ipairs {x1, y1, x2, y2} do
      lu.assertTrue(tonumber(v) >= 10 and tonumber(v) <= 50)
    end
    lu.assertAlmostEquals(x1 - y1, x2 - y2, 0.011)
    lu.assertAlmostEquals((x1 - y1) % 8, 4, 0.011)
  end
  lu.assertEquals(n, 10)
end

function T.test_groups_and_links_are_checked()
  local d = document.new()
  support.raises("columns: 1 or 2", function() d:group({columns = 3}, print) end)
  support.raises("a function expected", function() d:group({}, "x") end)
  support.raises("id: letters", function() d:heading(1, "x", "a b") end)
  support.raises("piece 1", function() d:paragraph {{link = "x", to = "a b"}} end)
  support.raises("the id of a heading", function()
    d:table {columns = {"a"}, rows = {{{text = "x", to = "<b>"}}}}
  end)
  d:group({keep = true}, function(g) g:heading(1, "Inside"):paragraph "words" end)
  for _, form in ipairs {"text", "markdown", "html", "latex"} do
    lu.assertStrContains(document[form](d), "Inside")
  end
end

-- A page a joist: eight rows for cuts, high enough to write in (0.3 in and more), a blank
-- elevation of 20 ft and a section of 12 in with their marks.
function T.test_a_field_sheet_can_be_written_on()
  local sheet = require "netsection.survey.field_sheet"
  local page = document.html(sheet.new {joists = {"R1", "R2"}, name = "Rope walk"})
  local _, parts = page:gsub('<div class="part part%d">', "")
  lu.assertEquals(parts, 2)
  lu.assertTrue(tonumber(page:match "%.tofill tbody tr { height: ([%d.]+)in") >= 0.3)
  local first = page:match '<div class="part part1">(.-)<div class="part part2">'
  local cuts = first:match "<caption><span>Cuts.-</table>"
  local _, rows = cuts:gsub("<tr><th", "")
  lu.assertEquals(rows - 1, 8)
  lu.assertNotNil(first:find(">20</text>", 1, true))
  lu.assertNotNil(first:find(">12</text>", 1, true))
  lu.assertStrContains(page, '@top-right { content: "Joist R2"')
  lu.assertStrContains(page, "counter(pages)")
end

-- What stands on a joist and what was noted of it is in the letter.
function T.test_the_letter_names_loads_and_notes()
  local said = file "letter.md":gsub("\\", "")
  lu.assertStrContains(said, "R5: tub (cast iron): 4'-0\" to 9'-0\", 30 in wide, "
    .. "empty 310 lb")
  lu.assertStrContains(said, "R9: line (partition along it): 60 plf, dead")
end

---------------------------------------------------------------------------
-- PDF
---------------------------------------------------------------------------

local there = system.has

local function said_by(command)
  return system.said(".", command)
end

-- Words of a page with their boxes, in points: {x1, y1, x2, y2, text}.
local function boxes(quoted, page)
  local list = {}
  local said = said_by(("pdftotext -f %d -l %d -bbox %s -"):format(page, page, quoted))
  for x1, y1, x2, y2, word in said:gmatch('<word xMin="([%d.]+)" yMin="([%d.]+)" '
    .. 'xMax="([%d.]+)" yMax="([%d.]+)">(.-)</word>') do
    list[#list + 1] = {tonumber(x1), tonumber(y1), tonumber(x2), tonumber(y2), word}
  end
  return list
end

-- The drawing as it is printed: the foot marks 0 and 13 under the diagram stand 13 ft
-- apart at the scale 1:40 that the drawing names, to 1 %; no word lies on another; the
-- least type is 7 pt, whose box is higher than that.
local function check_drawing(quoted)
  local list = boxes(quoted, 2)
  local first, last
  for i, a in ipairs(list) do
    for k = i + 1, #list do
      local b = list[k]
      local across = math.min(a[3], b[3]) - math.max(a[1], b[1])
      local up = math.min(a[4], b[4]) - math.max(a[2], b[2])
      lu.assertFalse(across > 1 and up > 3, a[5] .. " on " .. b[5])
    end
    lu.assertTrue(math.max(a[4] - a[2], a[3] - a[1]) >= 7 or #a[5] < 2, a[5])
  end
  for _, a in ipairs(list) do
    if a[5] == "13" then last = a end
  end
  for _, a in ipairs(list) do
    if a[5] == "0" and math.abs(a[2] - last[2]) < 1 then first = a end
  end
  local inches = (last[1] + last[3] - first[1] - first[3]) / 2 / 72
  lu.assertAlmostEquals(inches, 13 * 12 / 40, 0.01 * 13 * 12 / 40)
end

-- Two printed pages of a small document: title, outline, page of pages, job, text; where
-- gnuplot is there, a drawing.
function T.test_pdf_is_read_back()
  if not (there "chromium" or there "weasyprint") then lu.skip "no browser" end
  if not (there "pdftotext" and there "pdfinfo") then lu.skip "no poppler" end
  local pdf = require "netsection.pdf"
  local d = document.new {title = "Report: one; two", job = "Rope walk", foot = "v"}
  d:heading(1, "Loads"):paragraph "A span of 13'-6 1/2\" and 3-1/2 in."
  d:page_break "Joist R6":paragraph "half"
  local drawn = there "gnuplot"
  if drawn then
    local pictures = assert(render.svg {{"R6", function(output)
      return (ns.plot.overview(review().joists.R6, {output = output}))
    end}})
    lu.assertStrContains(pictures.R6, "scale 1:40")
    d:figure {name = "R6.gp", alt = "R6", svg = pictures.R6}
  end
  local texts, program = pdf.texts {document.html(d)}
  lu.assertNotNil(texts, program)
  local dir <close> = drawing.folder()
  local path = dir.path .. "/it's; one.pdf"
  drawing.write_file(path, texts[1])
  local quoted = system.quoted(path)
  local text = said_by("pdftotext -layout " .. quoted .. " -")
  for _, said in ipairs {"Rope walk", "page 1 of 2", "page 2 of 2", "13'-6 1/2\"",
    "Joist R6"} do
    lu.assertStrContains(text, said)
  end
  lu.assertStrContains(said_by("pdfinfo " .. quoted), "Report: one; two")
  if drawn then check_drawing(quoted) end
  lu.assertNil(texts[1]:find("/CreationDate (D:", 1, true))
end

-- A path on which there is no such program: the package is there and says why not.
function T.test_without_a_browser_the_reason_is_said()
  system.unix "a PATH in its shell"
  local dir <close> = drawing.folder()
  local script = 'local pdf = require "netsection.pdf"; print(pdf.texts {"<p>x</p>"})'
  drawing.write_file(dir.path .. "/script.lua", script)
  local pipe <close> = assert(io.popen("command -v '" .. arg[-1] .. "'"))
  os.execute(("PATH='%s' '%s' '%s/script.lua' >'%s/said' 2>&1"):format(dir.path,
    pipe:read "l", dir.path, dir.path))
  lu.assertStrContains(drawing.read_file(dir.path .. "/said"),
    "nil\tno program that makes PDF was found")
end

return T
