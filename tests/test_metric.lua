-- SPDX-License-Identifier: MIT
-- A floor measured and printed in metric units: every page of its package is read for US
-- units, and its numbers are compared with the file of numbers, which stays in in, lb,
-- psi.
local dkjson = require "dkjson"
local lu = require "luaunit"
local ns = require "netsection"
local command = require "netsection.command.arguments"

local T = {}

-- Exact by definition (NIST SP 811): mm in an inch, N in a pound.
local IN, LB = 25.4, 0.45359237 * 9.80665

local JOISTS = [[
mark,size,span,spacing,bearing,dead,live,species,grade
J1,38x235,4100,400,89,0.6 kPa,1.9 kPa,Douglas Fir-Larch,No.2
J2,38x235,4100,400,89,0.6 kPa,1.9 kPa,Douglas Fir-Larch,No.2
J3,47x220,3600,300,100,0.6 kPa,1.5 kPa,Douglas Fir-Larch,No.2
]]
local CUTS = [[
joist,kind,at,from,to,diameter,depth,face
J1,hole,1600,,,60,,
J2,notch,,600,700,,40,top
J3,sever,,1800,1850,,,
]]
local LOADS = [[
joist,kind,at,load,case
J1,point,2000,0.5 kN,live
]]

local function survey(printed)
  local floor, found = ns.read_survey {joists = JOISTS, cuts = CUTS, loads = LOADS,
    units = "mm", name = "Flat", rules = "ca-nbc-9.23.5", printed = printed}
  lu.assertNotNil(floor, found and found[1] and found[1].text)
  return floor:fix("J3", ns.sister {bearing = true, pitch = "150 mm", per_row = 5,
    fastener = ns.fastener {kind = "wood screw", diameter = "7 mm", root = "5 mm",
      length = "90 mm"}})
end

local made
local function package()
  if not made then
    local r = survey():review()
    made = {review = r, files = {}}
    for _, f in ipairs((ns.package.files(r, {full = true}))) do
      made.files[f.name] = f.text
    end
  end
  return made
end

-- US units as words on a page.
local UNITS = {"psi", "psf", "plf", "lb", "lbs", "ft", "inch", "inches", "feet"}

local function us_unit(line)
  for _, unit in ipairs(UNITS) do
    if line:find("%f[%a]" .. unit .. "%f[%A]") then return unit end
  end
  line = line:gsub("%d+ in a ", ""):gsub("%d in [a-z]+ row", "")    -- "3 in a column"
  return line:match '%d"' or line:match "%d'%-?%d" or line:match "%d in%f[%A]"
end

-- What a drawing shows of a script: its texts between quotes.
local function shown(script)
  local out = {}
  for line in script:gmatch "[^\n]+" do
    if not line:find "^#" and not line:find "^set output" then
      for text in line:gmatch "'([^']*)'" do out[#out + 1] = text end
    end
  end
  return table.concat(out, "\n")
end

local function each_page(files, read)
  local names = {}
  for name in pairs(files) do names[#names + 1] = name end
  table.sort(names)
  for _, name in ipairs(names) do
    local text = files[name]
    if name:find "%.gp$" then text = shown(text) end
    if name:find "%.html$" then
      text = text:gsub("<style.-</style>", ""):gsub("<head.-</head>", "")
        :gsub("<[^>]*>", "\n"):gsub("&quot;", '"'):gsub("&#39;", "'")
    end
    if not name:find "^numbers" then
      for line in text:gmatch "[^\n]+" do read(name, line) end
    end
  end
end

-- Quoted: formulas of the US standard that hold in its units only print them, with what
-- they give in N/mm2 behind; all are of dowel bearing (NDS 12.3.3), withdrawal, slip.
local function quoted(line)
  return line:find "%d psi = [%d.]+" or line:find "%d lb/in = [%d.]+"
    or line:find "%(D in in%)"
end

function T.test_no_us_unit_on_any_page()
  local seen, pages = 0, {}
  each_page(package().files, function(name, line)
    pages[name], seen = true, seen + 1
    local unit = us_unit(line)
    if unit and not quoted(line) then
      lu.fail(("%s: '%s' in: %s"):format(name, unit, line))
    end
  end)
  for _, name in ipairs {"report.txt", "report.html", "calculation.html", "letter.html",
    "parts.html", "crew.html", "plan.gp", "summary.gp", "J3-elevation.gp",
    "J3-moment.gp", "detail-J3.gp", "J1-section.gp"} do
    lu.assertTrue(pages[name], name)
  end
  lu.assertTrue(seen > 2000)
end

-- The reader itself can tell: the same floor in US units has them everywhere.
function T.test_the_reader_finds_us_units()
  local found = 0
  local r = survey("us"):review()
  for _, line in ipairs {ns.report.text(r)} do
    for piece in line:gmatch "[^\n]+" do found = found + (us_unit(piece) and 1 or 0) end
  end
  lu.assertTrue(found > 40, tostring(found))
end

local FACTOR = {lb = LB / 1000, ["lb-in"] = LB * IN / 1e6, psi = LB / IN ^ 2, ["in"] = IN}

-- Half of the last digit that is shown.
local function half_digit(text)
  local decimals = #(text:match "%.(%d+)$" or "")
  local figures = text:gsub("[^%d]", ""):gsub("^0+", "")
  return 0.5 * 10 ^ -decimals + (#figures > 3 and decimals == 0 and 0 or 0)
end

local function find(tree, path)
  for part in path:gmatch "[^.]+" do
    if type(tree) ~= "table" then return nil end
    tree = tree[part] or tree[tonumber(part)]
  end
  return tree
end

-- Demands and capacities of the pages by the names they carry.
function T.test_pages_agree_with_the_numbers()
  local files, compared = package().files, 0
  local tree = dkjson.decode(files["numbers.json"])
  for path, what, text in files["calculation.html"]:gmatch
    'data%-name="([%w_.%-]+%.checks%.[%w_%-]+)%.(%a+)_?f?t?_?l?b?"><bdi>([%-%d.]+)<' do
    local check = find(tree, path)
    local factor = check and FACTOR[check.unit]
    local value = check and check[what]
    if factor and value and what ~= "ratio" and what ~= "at" then
      compared = compared + 1
      lu.assertAlmostEquals(tonumber(text), value * factor, half_digit(text) * 1.0001,
        path .. "." .. what)
    end
  end
  lu.assertTrue(compared > 60, tostring(compared))
end

-- A line of a calculation holds with the numbers that stand in it: b d^2/6 of 38 x 235.
function T.test_lines_hold_in_metric()
  local text = package().files["calculation.txt"]
  -- 38 * 235^2 / 6 = 349,758 mm3, by hand
  lu.assertStrContains(text, "S = b*d^2/6 = 38*235^2/6 = 349800 mm3")
  -- w_L = 1.9 * 400/1000 = 0.76 kN/m
  lu.assertStrContains(text, "w_L = L*s/1000 = 1.9*400/1000 = 0.76 kN/m")
end

function T.test_sizes_in_mm()
  local lumber = require "netsection.lumber"
  local a, b = lumber.size "38x235", lumber.size "47x220"
  lu.assertAlmostEquals(a.b * 25.4, 38, 1e-12)
  lu.assertAlmostEquals(a.d * 25.4, 235, 1e-12)
  lu.assertEquals({a.nominal_b, a.nominal_d}, {2, 10})    -- 38.1 x 234.95
  lu.assertAlmostEquals(b.d * 25.4, 220, 1e-12)
  lu.assertNil(b.nominal_d)
  lu.assertNil((lumber.size "12x20"))                     -- no size on file, not 12 mm
  local joist = ns.joist {mark = "A", size = "47x220", span = "3.6 m", spacing = "300 mm",
    bearing = "100 mm", dead = "0.5 kPa", live = "1.5 kPa", units = "metric",
    species = "Douglas Fir-Larch", grade = "No.2"}
  lu.assertStrContains(joist:review().title, "47x220 Douglas Fir-Larch No.2 at 300 mm")
  for _, spacing in ipairs {300, 400, 600} do
    local r = joist:with {spacing = spacing .. " mm"}:review()
    lu.assertStrContains(r.title, ("at %d mm"):format(spacing))
  end
end

function T.test_fasteners_in_mm_are_called_so()
  local screw = ns.fastener {kind = "wood screw", diameter = "6 mm", root = "4 mm",
    length = "80 mm"}
  lu.assertEquals(tostring(screw), "6 x 80 mm wood screw")
  lu.assertEquals(tostring(ns.fastener {kind = "bolt", diameter = "1/2 in",
    length = "4 in"}), "1/2 x 4 in bolt")
end

-- Paper and words of the command follow the survey.
function T.test_paper_and_switches()
  lu.assertStrContains(package().files["report.html"], "size: A4")
  lu.assertEquals(survey("us"):review().joists.J1.show.name, "us")
  local given = command.read("review", {"folder", "--printed", "metric"})
  lu.assertEquals(given.printed, "metric")
end

-- A table printed in metric rounds in mm and says what its steps are.
function T.test_a_table_in_metric()
  local joist = ns.joist {mark = "A", size = "38x235", span = "4 m", spacing = "400 mm",
    bearing = "89 mm", dead = "0.5 kPa", live = "1.9 kPa", units = "metric",
    species = "Douglas Fir-Larch", grade = "No.2"}
  local t = ns.table {title = "Spans", joist = joist, unit = "ft-in",
    rows = {name = "spacing", values = {300 / 25.4, 400 / 25.4, 600 / 25.4},
      unit = "in"}, columns = {name = "live", values = {40}, unit = "psf"},
    cell = function(spacing, live)
      return joist:with {spacing = spacing, live = live}:longest_span()
    end, round = {to = "10 mm", way = "down"}}
  local text = t:text()
  for line in text:gmatch "[^\n]+" do lu.assertNil(us_unit(line), line) end
  lu.assertStrContains(text, "Values in mm, rounded down to 10 mm")
  local span = joist:with {spacing = "400 mm", live = 40}:longest_span()
  lu.assertEquals(t:cell(2, 1).value, span * 25.4 // 10 * 10)
  lu.assertStrContains(text, "spacing, mm")
  lu.assertStrContains(text, "1.915")                     -- 40 psf in kN/m2
end

return T
