-- SPDX-License-Identifier: MIT
-- The package of a floor: its files, what the letter and the crew's sheet say and must
-- not say, and texts of a survey that must stay texts in every file.
local calculation = require "netsection.calculation"
local document = require "netsection.document"
local drawing = require "tests.drawing"
local lu = require "luaunit"
local markup = require "tests.markup"
local ns = require "netsection"
local support = require "tests.support"
local system = require "tests.system"

local T = {}

local BOLT = ns.fastener {kind = "bolt", diameter = "1/2 in"}

local function sister(from, to)
  return ns.sister {from = from, to = to, fastener = BOLT, groups = {{at = "3-2", n = 10},
    {at = "5-6", n = 10}, {at = "6-11", n = 10}, {at = "9-6", n = 10}}}
end

local function floor(changes)
  local t = {name = "Mill floor", size = "2x10", species = "douglas fir-larch",
    grade = "No.2", span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
    joists = {{mark = "A1"}, {mark = "A2", cuts = {ns.sever {from = "6-0", to = "6-5"}}},
      {mark = "A3", cuts = {ns.sever {from = "6-0", to = "6-5", note = "old trap"}}},
      {mark = "A4", cuts = {ns.hole {at = "5-2", diameter = 4, below = 1.5}}},
      {mark = "A5", cuts = {ns.notch {face = "bottom", from = "6-0", to = "6-5",
        depth = "1-3/4 in"}}}}}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.floor(t):fix("A2", sister("2-8", "10-0")):fix("A3", sister("2-8", "10-0"))
    :fix("A5", ns.strap {cut = 1, gauge = 14, width = 1.5, n = 10})
end

local function by_name(files)
  local list = {}
  for _, f in ipairs(files) do list[f.name] = f.text end
  return list
end

local function letter_of(subject, options)
  return by_name(ns.package.files(subject, options))["letter.md"]
end

---------------------------------------------------------------------------
-- Files
---------------------------------------------------------------------------

function T.test_files_have_fixed_names_and_order()
  local names = {}
  for i, f in ipairs(ns.package.files(floor():review())) do names[i] = f.name end
  lu.assertEquals(table.concat(names, " "), "report.html report.md "
    .. "report.txt numbers.json numbers.csv letter.html letter.md parts.html "
    .. "parts.md crew.html crew.md key-plan.gp plan.gp A2-sketch.gp A3-sketch.gp "
    .. "A4-sketch.gp A5-sketch.gp A2-layout.gp detail-A2.gp A3-layout.gp detail-A3.gp")
end

function T.test_two_packages_have_equal_bytes()
  local one = ns.package.files(floor():review())
  local other = ns.package.files(floor():review())
  for i, f in ipairs(one) do lu.assertEquals(other[i], f, f.name) end
end

function T.test_write_fills_a_folder_or_says_why_not()
  local dir <close> = drawing.folder()
  local names = assert(ns.package.write(floor():review(), dir.path))
  for _, name in ipairs(names) do
    lu.assertNotNil(drawing.read_file(dir.path .. "/" .. name), name)
  end
  local ok, problem = ns.package.write(floor():review(), dir.path .. "/missing/below")
  lu.assertNil(ok)
  lu.assertStrContains(problem, "the one above it must be there")
end

function T.test_write_makes_its_folder()
  local dir <close> = drawing.folder()
  local made = dir.path .. "/it's new"
  local names = assert(ns.package.write(floor():review(), made))
  lu.assertNotNil(drawing.read_file(made .. "/" .. names[1]))
end

function T.test_paper_is_the_one_asked_for()
  local files = by_name(ns.package.files(floor():review(), {paper = "a4"}))
  lu.assertStrContains(files["report.html"], "size: A4")
  lu.assertStrContains(by_name(ns.package.files(floor():review()))["letter.html"],
    "size: letter")
end

function T.test_rendered_pictures_stand_in_the_page()
  drawing.need_gnuplot()
  local page, problem = ns.report.html(floor():review(), {render = true})
  lu.assertNil(problem)
  local _, figures = page:gsub("<figure[ >]", "")
  local _, pictures = page:gsub("<svg", "")
  local _, captions = page:gsub("<figcaption>", "")
  lu.assertEquals(figures, 19)    -- cut joists have shear and moment apart
  lu.assertEquals(pictures, figures)
  lu.assertEquals(captions, figures)
  lu.assertNil(markup.html_problem(page))
end

-- A path on which there are the commands of folders and no gnuplot.
function T.test_without_gnuplot_the_package_is_written_and_says_why()
  system.unix "a PATH of links"
  local dir <close> = drawing.folder()
  os.execute(("cd '%s' && mkdir bin && for c in mkdir ls rm env; do ln -s \"$(command -v"
    .. " $c)\" bin/; done"):format(dir.path))
  local script = 'local ns = require "netsection"; local r = ns.joist {mark = "J1", '
    .. 'size = "2x10", species = "hem-fir", grade = "No.2", span = "12-0", spacing = 16, '
    .. 'bearing = 3.5, dead = 12, live = 40}:review(); local names, problem = '
    .. 'ns.package.write(r, arg[1], {render = true}); print(#names, problem)'
  drawing.write_file(dir.path .. "/script.lua", script)
  local pipe <close> = assert(io.popen("command -v '" .. arg[-1] .. "'"))
  os.execute(("PATH='%s/bin' '%s' '%s/script.lua' '%s/out' >'%s/said' 2>&1"):format(
    dir.path, pipe:read "l", dir.path, dir.path, dir.path))
  local said = drawing.read_file(dir.path .. "/said")
  lu.assertNotNil(said:find "^%d+\tno pictures: gnuplot did not draw: .*not found", said)
  local page = drawing.read_file(dir.path .. "/out/report.html")
  lu.assertStrContains(page, "J1-sketch.gp")
  lu.assertNil(page:find("<svg", 1, true))
end

function T.test_without_pictures_the_page_names_the_scripts()
  local page = ns.report.html(floor():review())
  lu.assertStrContains(page, "A2-elevation.gp")
  lu.assertNil(page:find("<svg", 1, true))
end

---------------------------------------------------------------------------
-- Letter, parts, crew
---------------------------------------------------------------------------

local SEALS = {"certif", "guarantee", "%f[%a]safe%f[%A]", "%f[%a]safely", "approv",
  "OK to cover", "hereby"}

function T.test_no_text_reads_as_a_seal()
  for _, f in ipairs(ns.package.files(floor():review())) do
    for _, word in ipairs(SEALS) do
      lu.assertNil(f.text:find(word), f.name .. ": " .. word)
    end
  end
end

function T.test_letter_is_a_draft_with_blanks()
  local said = letter_of(floor():review())
  lu.assertStrContains(said, "DRAFT not sealed not for construction")
  for _, blank in ipairs {"Name", "License number and place", "Signature and date",
    "Seal, only by the one who takes responsibility", "Concealed, not opened",
    "Date of the visit"} do
    lu.assertStrContains(said, blank)
  end
  local files = by_name(ns.package.files(floor():review()))
  lu.assertStrContains(files["letter.html"], '@top-center { content: "DRAFT')
  lu.assertStrContains(files["letter.html"], "position: fixed")
end

function T.test_letter_says_what_was_given()
  local said = letter_of(floor():review(), {visit = {date = "3 May",
    present = "the owner", address = "12 Mill Lane"}, concealed = {"under the tub"}})
  for _, piece in ipairs {"Date of the visit: 3 May", "present: the owner",
    "To: 12 Mill Lane", "under the tub", "old trap", "A1 to A5: 2x10"} do
    lu.assertStrContains(said, piece)
  end
  lu.assertNotStrContains(said, "Concealed, not opened")
end

-- Each joist is in a sentence of its own or shares one.
function T.test_letter_concludes_for_each_joist()
  local said = letter_of(floor():review())
  lu.assertStrContains(said, "A1: without cuts, to be left as it is; leave once A2, A3 "
    .. "are repaired; 1.79 until then.")
  lu.assertStrContains(said, "A2, A3: to be repaired: sister 2x10, right face")
  lu.assertStrContains(said,
    "A4: to be repaired; no repair is described yet; 2.97 "
    .. "until A2, A3 are repaired.") -- twice the width, twice its 1.49
end

-- Two sisters of 7-4 from 8 ft stock, 80 bolts; 5 % to spare is 4.
function T.test_parts_of_the_floor_are_added_up()
  local said = by_name(ns.package.files(floor():review()))["parts.md"]
  lu.assertStrContains(said, "2x10 x 8 ft")
  local pieces = said:match "|[^\n]*sister[^\n]*|"
  lu.assertStrContains(pieces, "| 2 |")
  lu.assertStrContains(pieces, "7'-4\"")
  lu.assertStrContains(pieces, "A2, A3")
  local bolts = said:match "|[^\n]*1/2 in bolt[^\n]*|"
  lu.assertStrContains(bolts, "| 80 | 84 |")
  lu.assertStrContains(said, "No repair is described yet for: A4")
end

-- The places of the sister's bolts: the rows of a mark hold as many as are counted.
function T.test_crew_sheet_counts_its_fasteners()
  local said = by_name(ns.package.files(floor():review()))["crew.md"]
  local part = said:match "Joist A2(.-)Joist A3"
  lu.assertStrContains(part, "40 bolts, 1/2 in diameter, at least 4-1/2 in long")
  local count = 0
  for n in part:gmatch "\n|[^|\n]+| (%d+) | %d+ |[^\n]*" do
    count = count + tonumber(n)
  end
  lu.assertEquals(count, 40)
  lu.assertStrContains(said, "Shore first")
  lu.assertStrContains(said, "Do not swap fasteners")
  lu.assertStrContains(said, "Not to be touched until a repair is settled")
end

---------------------------------------------------------------------------
-- Texts that stay texts
---------------------------------------------------------------------------

-- A floor whose marks, notes and names are all hostile.
local function hostile_floor()
  local joists, seen = {}, {}
  for i, said in ipairs(markup.HOSTILE) do
    local mark = said ~= "" and not seen[said] and said or "M" .. i
    seen[mark] = true
    joists[i] = {mark = mark, note = said, cuts = {ns.hole {at = "5-2", diameter = 4,
      below = 1.5, note = said}}}
  end
  local f = ns.floor {name = markup.HOSTILE[11], size = "2x10", live = 40, dead = 12,
    species = "douglas fir-larch", grade = "No.2", span = "13-6", spacing = 16,
    bearing = 3.5, joists = joists, obstructions = {ns.obstruction {
      what = "'; !touch ran; ' `touch ran` $(touch ran)", kind = "pipe",
      joist = joists[1].mark, side = "left", from = "3-0", to = "8-0", bottom = 2,
      top = 3, movable = "trade"}}}
  return f:fix(joists[2].mark, ns.sister {fastener = BOLT})
end

local made

local function hostile_files()
  made = made or ns.package.files(hostile_floor():review(), {steps = "none", full = true,
    visit = {date = "$(touch ran)", present = "<script>x</script>", address = "=1+1"},
    concealed = {"`touch ran`", "<b>", "| a | b", "\\input{x}"}})
  return made
end

function T.test_hostile_texts_run_nothing_in_gnuplot()
  drawing.need_gnuplot()
  local dir <close> = drawing.folder()
  local review = hostile_floor():review()
  -- the plan and the summary hold all marks; of the joists' drawings a share is enough
  local scripts, n = {ns.plot.floor_plan(review, {title = "'; !touch ran; '",
    output = "plan.svg"})}, 0
  for _, f in ipairs(hostile_files()) do
    if f.name:find "%.gp$" then
      n = n + 1
      if n <= 2 or n % 13 == 0 then scripts[#scripts + 1] = f.text end
    end
  end
  lu.assertTrue(#scripts > 20)
  -- a canary: this is what running something would look like
  drawing.run(dir, "!touch canary\n")
  lu.assertNotNil(drawing.read_file(dir.path .. "/canary"))
  local said = drawing.run(dir, table.concat(scripts, "\n"))
  lu.assertEquals(said, "")
  lu.assertNil(drawing.read_file(dir.path .. "/ran"))
end

function T.test_hostile_texts_are_no_markup_in_html()
  for _, f in ipairs(hostile_files()) do
    if f.name:find "%.html$" then
      lu.assertNil(markup.html_problem(f.text), f.name)
      lu.assertNil(f.text:find "<script", f.name)
    end
  end
end

function T.test_hostile_texts_are_words_in_markdown()
  for _, f in ipairs(hostile_files()) do
    if f.name:find "%.md$" then
      local rest = f.text:gsub("\\%p", "")
      lu.assertNil(rest:match "[<`~]", f.name)
      lu.assertNil(rest:find("](", 1, true), f.name)
      local width
      for line in f.text:gmatch "[^\n]+" do
        if line:find "^|" then
          local cells = #markup.markdown_cells(line)
          width = width or cells
          lu.assertEquals(cells, width, f.name .. ": " .. line)
        else
          width = nil
        end
      end
    end
  end
end

function T.test_hostile_texts_are_words_in_latex()
  local d = calculation.of(hostile_floor():review(), {steps = "none"})
  local said = document.latex(d)
  lu.assertNil(said:find("\\input{", 1, true))
  lu.assertNil(said:find("\\write18", 1, true))
  lu.assertNil(said:find "[\x80-\xFF]")
  local _, ends = said:gsub("\\end{document}", "")
  lu.assertEquals(ends, 1)
end

function T.test_hostile_texts_are_no_formulas_in_csv()
  local rows = assert(markup.csv(by_name(hostile_files())["numbers.csv"]))
  for i = 2, #rows do
    lu.assertEquals(#rows[i], 3)
    lu.assertNotNil(rows[i][1]:find "^[%w_]", rows[i][1])
    if rows[i][3] == "text" then
      lu.assertNotNil(rows[i][2]:find "^%a", rows[i][1])
    else
      lu.assertIsNumber(tonumber(rows[i][2]), rows[i][1])
    end
    lu.assertNil(rows[i][3]:find "^[=+@-]")
  end
end

function T.test_hostile_marks_become_plain_names_of_files()
  local seen = {}
  for _, f in ipairs(hostile_files()) do
    lu.assertNotNil(f.name:find "^[%w_][%w_-]*%.%l+$" or f.name:find "^%-", f.name)
    lu.assertNil(f.name:find "[^%w_.-]", f.name)
    lu.assertNil(seen[f.name:lower()], f.name)
    seen[f.name:lower()] = true
    lu.assertTrue(#f.name < 80)
  end
end

---------------------------------------------------------------------------

function T.test_misuse_is_told_at_the_callers_line()
  local r = floor():review()
  local wrong = {
    {"a review of a joist or a floor expected", function() ns.package.data {} end},
    {"unknown field 'colour'", function() ns.package.files(r, {colour = 1}) end},
    {"unknown field 'weekday'", function()
      ns.package.files(r, {visit = {weekday = "Monday"}})
    end},
    {"concealed: a list of texts", function() ns.package.files(r, {concealed = "x"}) end},
    {"folder (string) expected", function() ns.package.write(r, 5) end},
  }
  for _, case in ipairs(wrong) do support.raises(case[1], case[2]) end
end

return T
