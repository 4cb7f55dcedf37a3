-- SPDX-License-Identifier: MIT
-- What is printed and handed over: the plan on the first page, the letter on one page
-- with one sketch, the crew's layouts, headers as they stand. Read back from the texts,
-- the scripts of the drawings and, where a browser and poppler are, from the PDF.
local document = require "netsection.document"
local drawing = require "tests.drawing"
local floor12 = require "tests.data.floor12"
local lu = require "luaunit"
local ns = require "netsection"
local pdf = require "netsection.pdf"
local raster = require "tests.raster"
local render = require "netsection.render"
local support = require "tests.support"
local system = require "tests.system"

local T = {}

local made = {}

local function review()
  made.review = made.review or floor12():review()
  return made.review
end

local OPTIONS = {job = "RW-7", date = "29 November", visit = {date = "27 November"},
  concealed = {"both ends of R1"}}

local function file(name)
  if not made.files then
    made.files = {}
    for _, f in ipairs(ns.package.files(review(), OPTIONS)) do
      made.files[f.name] = f.text
    end
  end
  return made.files[name]
end

-- Whether a repair is one to build.
local function serves(r)
  local a = r.fixed
  return a ~= nil and a.status == "adequate" and a.kind ~= "neighbor"
end

local function there(...)
  for _, program in ipairs {...} do
    if not system.has(program) then return false end
  end
  return true
end

local function said_by(command)
  return system.said(".", command)
end

---------------------------------------------------------------------------
-- The plan of the first page
---------------------------------------------------------------------------

local function block(script, name)
  local list = {}
  if script:match("has_" .. name .. " = (%d)") == "0" then return list end
  for part in (script:match("%$" .. name .. " << EOD\n(.-)EOD\n") .. "\n")
    :gmatch "(.-\n)\n" do
    local rows = {}
    for row in part:gmatch "[^\n]+" do
      local x, y = row:match "(%S+) (%S+)"
      rows[#rows + 1] = {tonumber(x), tonumber(y)}
    end
    list[#list + 1] = rows
  end
  return list
end

-- Twelve joists 16 in apart: one chain of eleven equal spacings, a word for each action,
-- a star where it waits for the joist beside.
function T.test_the_small_plan_has_one_chain_and_actions_in_words()
  local script = ns.plot.key_plan(review(), {output = "a.svg"})
  lu.assertStrContains(script, "'11 at 16\"'")
  local n = 0
  for mark, r in pairs(review().joists) do
    lu.assertStrContains(script, "set label '" .. mark .. "' at", false, mark)
    n = n + (r.until_repaired and 1 or 0)
  end
  local _, words = script:gsub("set label 'repair' at", "")
  lu.assertEquals(words, 5)
  local _, stars = script:gsub("set label 'leave %*' at", "")
  lu.assertEquals(stars, n)
  support.raises("the width must be", ns.plot.key_plan, review(), {size = {2}})
end

function T.test_the_plan_stands_before_the_table_of_joists()
  local page = file "report.md"
  local plan, all = page:find("key-plan.gp", 1, true), page:find("All joists", 1, true)
  lu.assertTrue(plan < all)
  lu.assertNil(page:find("(file plan.gp)", 1, true))
end

-- Headed off at 5-0 and 7-6 by two plies of 1-1/2 in: the joist is gone from face to
-- face, 58.5 to 91.5 in, the headers reach the trimmers' faces 16 - 0.75 in either way,
-- and the trimmers' added plies stand at the joists beside it.
function T.test_headers_and_trimmers_are_in_plan_and_elevation()
  local f = ns.floor {name = "Headed", size = "2x10", grade = "No.2",
    species = "douglas fir-larch", span = "13-6", spacing = 16, bearing = 3.5, dead = 12,
    live = 40, joists = {{mark = "H1"}, {mark = "H2"}, {mark = "H3",
      cuts = {ns.sever {from = "6-0", to = "6-5"}}}, {mark = "H4"}, {mark = "H5"}}}
  local r = f:fix("H3", ns.header {at = {"5-0", "7-6"}, size = "2x10",
    trimmer_plies = 2}):review()
  lu.assertEquals(r.joists.H3.fixed.status, "adequate")
  for _, script in ipairs {ns.plot.key_plan(r, {output = "a.svg"}),
    ns.plot.floor_plan(r, {output = "a.svg"})} do
    local across, beside = {}, 0
    for _, line in ipairs(block(script, "fix")) do
      if line[1][1] == line[2][1] then
        across[line[1][1]] = math.abs(line[2][2] - line[1][2])
      else
        beside = beside + 1
      end
    end
    lu.assertEquals(across, {[60] = 30.5, [90] = 30.5})
    lu.assertEquals(beside, 2)
    local gone = block(script, "thing")[1]
    lu.assertEquals({gone[1][1], gone[2][1]}, {58.5, 91.5})
    local edges = {}
    for _, line in ipairs(block(script, "repair")) do
      edges[#edges + 1] = line[1][1]
      edges[#edges + 1] = line[2][1]
    end
    lu.assertEquals(edges, {-1.75, 58.5, 91.5, 163.75})
  end
  local script = ns.plot.elevation(r.joists.H3, {output = "a.svg"})
  -- tails up to the headers, and what is taken out between them beside the gap
  local wood, stub = block(script, "wood"), block(script, "hidden")
  lu.assertEquals(#wood, 2)
  lu.assertEquals({stub[1][1][1], stub[1][2][1], stub[2][1][1], stub[2][2][1]},
    {61.5, 72, 77, 88.5})
  lu.assertStrContains(script, "'taken out'")
  lu.assertStrContains(script, [['5'."\047".'-0"']]) -- dimensioned
end

---------------------------------------------------------------------------
-- The letter
---------------------------------------------------------------------------

-- 'To be built as drawn' only where a repair passes; what was seen of each joist and why.
function T.test_the_letter_says_each_joist_in_a_sentence()
  local said = file "letter.md":gsub("\\", "")
  local result = said:match "\n### Result(.-)This draft speaks"
  for mark, r in pairs(review().joists) do
    local line
    for item in result:gmatch "\n%- ([^\n]*)" do
      if (item:match "^[^:]*" .. ","):find(mark .. ",", 1, true) then line = item end
    end
    lu.assertNotNil(line, mark)
    lu.assertEquals(line:find("to be built as drawn", 1, true) ~= nil, serves(r), mark)
  end
  for _, piece in ipairs {"R3: to be repaired: sister", "Seen: cut through, 5 in gap",
    "(old waste)", "R5: undersized before any cut: bending, 1.07; to be decided",
    "R11: to be repaired; the trial repair is inadequate and is not to be built",
    "R5: tub (cast iron)", "R9: line (partition along it)", "both ends of R1"} do
    lu.assertStrContains(said, piece)
  end
  local _, figures = said:gsub("key%-plan%.gp", "")
  lu.assertEquals(figures, 1)
end

-- A sag and a split of the survey are in it.
function T.test_the_letter_names_sags_and_splits()
  local floor = assert(ns.read_survey {joists = {name = "joists.csv", text =
    "mark,size,species,grade,span,spacing,bearing,dead,live,sag,note\n"
    .. "all,2x10,douglas fir-larch,No.2,13-6,16 in,3-1/2 in,12 psf,40 psf,,\n"
    .. "S1,,,,,,,,,5/8 in by string,wet below\nS2,,,,,,,,,,\n"},
    cuts = {name = "cuts.csv", text = "joist,kind,from,to,split depth\n"
    .. "S2,split,3-0,5-0,4 in\n"}})
  for _, f in ipairs(ns.package.files(floor:review())) do
    if f.name == "letter.md" then
      local said = f.text:gsub("\\", "")
      lu.assertStrContains(said, "S1: sag 5/8 in by string; wet below")
      lu.assertStrContains(said, "Seen: split")
    end
  end
end

---------------------------------------------------------------------------
-- The crew's sheet
---------------------------------------------------------------------------

-- A layout for each repair that is to be built and for no other; every shore's load.
function T.test_the_crew_has_a_layout_beside_each_repair()
  local said = file "crew.md"
  for mark, r in pairs(review().joists) do
    lu.assertEquals(file(mark .. "-layout.gp") ~= nil, serves(r), mark)
    lu.assertEquals(said:find(mark .. "-layout.gp", 1, true) ~= nil, serves(r), mark)
    if serves(r) then
      local at = said:find("Joist " .. mark .. ": ", 1, true)
      lu.assertTrue(said:find(mark .. "-layout.gp", 1, true) > at, mark)
    end
    for _, p in ipairs(r.shores and r.shores.supports or {}) do
      if p.kind == "shore" and p.dead > 0 then
        local shown = p.dead >= 1000 and "%.0f lb" or "%.3g lb"
        lu.assertStrContains(said, shown:format(p.dead), false, mark)
      end
    end
  end
  lu.assertStrContains(said, "lifts off")
  lu.assertNotStrContains(said, "-838")
end

---------------------------------------------------------------------------
-- Pages
---------------------------------------------------------------------------

-- Number of pages of a page of HTML, and the text of the first.
local function printed(html)
  local texts, program = pdf.texts {html}
  lu.assertNotNil(texts, program)
  local dir <close> = drawing.folder()
  local path = dir.path .. "/a.pdf"
  drawing.write_file(path, texts[1])
  local pages = tonumber(said_by("pdfinfo " .. path):match "Pages: +(%d+)")
  return pages, said_by("pdftotext -layout -f 1 -l 1 " .. path .. " -")
end

-- Share of each page's height that has ink, footer and head left out.
local function fullness(dir, path, pages)
  local out = {}
  for page = 1, pages do
    os.execute(("pdftoppm -gray -r 20 -f %d -l %d -singlefile %s %s/p"):format(page, page,
      path, dir.path))
    local image = raster.pgm(drawing.read_file(dir.path .. "/p.pgm"))
    local top, bottom, last = 12, image.height - 15, 12
    for y = top, bottom - 1 do
      local from = image.first + y * image.width
      if image.text:sub(from, from + image.width - 1):find "[\0-\170]" then last = y end
    end
    out[page] = (last - top) / (bottom - top)
  end
  return out
end

-- Words that lie on others.
local function words_apart(path)
  local said, list = said_by("pdftotext -bbox " .. path .. " -"), {}
  for page in said:gmatch "<page [^>]*>(.-)</page>" do
    local boxes = {}
    for a, b, c, d, word in page:gmatch('<word xMin="([%d.]+)" yMin="([%d.]+)" '
      .. 'xMax="([%d.]+)" yMax="([%d.]+)">(.-)</word>') do
      -- not the pale word behind a draft
      if d - b < 40 then
        boxes[#boxes + 1] = {tonumber(a), tonumber(b), tonumber(c), tonumber(d), word}
      end
    end
    for i, p in ipairs(boxes) do
      for k = i + 1, #boxes do
        local q = boxes[k]
        if math.min(p[3], q[3]) - math.max(p[1], q[1]) > 1.5
          and math.min(p[4], q[4]) - math.max(p[2], q[2]) > 4 then
          list[#list + 1] = p[5] .. " on " .. q[5]
        end
      end
    end
  end
  return list
end

-- With NETSECTION_PRINT: the report of a dozen joists on letter and A4, in at most a
-- dozen pages, none but the last under half full, no word on another.
function T.test_the_report_of_a_dozen_joists_on_paper()
  if not os.getenv "NETSECTION_PRINT" then lu.skip "longer: set NETSECTION_PRINT" end
  if not there("chromium", "gnuplot", "pdftotext", "pdfinfo", "pdftoppm") then
    lu.skip "no browser"
  end
  for _, paper in ipairs {"letter", "a4"} do
    local texts = {}
    for _, f in ipairs(ns.package.files(review(), {job = "RW-7", paper = paper,
      visit = {date = "27 November"}, pdf = true})) do texts[f.name] = f.text end
    lu.assertNotNil(texts["report.pdf"])
    local dir <close> = drawing.folder()
    for name, most in pairs {["report.pdf"] = 12, ["letter.pdf"] = 1} do
      local path = dir.path .. "/" .. name
      drawing.write_file(path, texts[name])
      local pages = tonumber(said_by("pdfinfo " .. path):match "Pages: +(%d+)")
      lu.assertTrue(pages <= most, name .. " " .. pages)
      lu.assertEquals(table.concat(words_apart(path), "; "), "", name)
      local full = fullness(dir, path, pages)
      for page = 1, pages - 1 do lu.assertTrue(full[page] >= 0.5, page) end
    end
  end
end

-- Rows of checks stand within 79 columns, whatever their names and members.
function T.test_tables_of_checks_are_79_columns()
  local drawn, n = require "tests.data.drawn", 0
  for _, name in ipairs {"every_kind", "header", "part_sister", "metric_sister"} do
    for row in ns.report.text(assert(drawn.joists[name]()):review()):gmatch "[^\n]+" do
      if row:find "^[> ] %S.* +[%d.-]+$" and row:sub(3):find "  " then
        n = n + 1
        lu.assertTrue(#row <= 79, row)
      end
    end
  end
  lu.assertTrue(n > 80, n)
end

-- The letter with its sketch takes one page; the head of it is not broken into a column.
function T.test_the_letter_is_one_page()
  if not there("chromium", "gnuplot", "pdftotext", "pdfinfo") then
    lu.skip "no browser"
  end
  local letter = require "netsection.package.letter"
  local figures = assert(render.svg {{"key-plan", function(output)
    return ns.plot.key_plan(review(), {output = output})
  end}})
  local d = letter.document(review(), OPTIONS, figures)
  local pages, text = printed(document.html(d))
  lu.assertEquals(pages, 1)
  lu.assertStrContains(text, "DRAFT not sealed not for construction")
  lu.assertStrContains(text, "11 at 16\"")
  lu.assertStrContains(text, "Seal, only by the one who takes")
end

return T
