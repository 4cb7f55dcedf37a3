-- SPDX-License-Identifier: MIT
-- Surveys: from the sheets of a field book to a floor, or to a list of every problem with
-- its cell. Lengths expected are by hand (1 in = 25.4 mm, 1 ft = 12 in); the reviews that
-- come out are those of the same joists described in Lua, and of a scenario worked by
-- hand.
local lu = require "luaunit"
local ns = require "netsection"
local columns = require "netsection.field_columns"
local document = require "netsection.document"
local fix = require "netsection.fix"
local model = require "netsection.model"
local obstruction = require "netsection.obstruction"
local parts = require "netsection.parts"
local support = require "tests.support"
local template = require "netsection.field_book"

local test_survey = {}

local HEAD = "mark,size,species,grade,span,spacing,bearing,dead,live"
local ALL = "all,2x10,douglas fir-larch,No.2,13-6,16,3.5,12,40"

local function joists(...)
  return table.concat({HEAD, ALL, ...}, "\n") .. "\n"
end

local function read(t)
  local floor, found = ns.read_survey(t)
  lu.assertNotNil(floor, found and found[1] and found[1].text)
  return floor
end

local function problems(t)
  local floor, found = ns.read_survey(t)
  lu.assertNil(floor)
  return found
end

-- The problem whose text has the piece; its file, row and letter are checked.
local function has(found, piece, file, row, letter)
  local texts = {}
  for i, p in ipairs(found) do
    texts[i] = p.text
    if p.text:find(piece, 1, true) and p.file == file and p.row == row
      and p.letter == letter then
      return p
    end
  end
  error(lu.FAILURE_PREFIX .. ("no problem %q at %s %s %s in\n%s"):format(piece, file,
    tostring(row), tostring(letter), table.concat(texts, "\n")), 2)
end

---------------------------------------------------------------------------- spreadsheets

local function check_old_house(floor, formula)
  local list = floor.joists
  lu.assertEquals({list[1].model.mark, list[2].model.mark, list[3].model.mark},
    {"A1", "A2", "\u{C4}3"})
  support.close(list[1].model.span[1], 162)
  support.close(list[2].model.span[1], 157.5)
  support.close(list[3].model.span[1], 4100 / 25.4)
  support.close(list[2].model.spacing, 19.2)
  support.close(list[1].model.bearing[1], 3.5)
  support.close(list[1].model.live, 40, 1e-6)
  support.close(list[3].model.live, 39.682, 1e-4) -- 1.9 kPa, 1 psf = 47.880 Pa
  lu.assertEquals(list[1].survey.note, 'first, by the "old" wall')
  lu.assertEquals(list[2].survey.note:gsub("\r\n", "\n"), "two\nlines; half \u{BD}")
  lu.assertEquals(list[3].survey.note, formula)
end

-- Bearings and spacings of either side, and a span between the faces of the bearings:
-- 12-0 clear with 3.5 in at one end and 1.5 in at the other is 144 + 1.75 + 0.75 in from
-- center to center; half of 16 and half of 24 in are 20 in of floor.
function test_survey.test_columns_of_either_side()
  local head, row = "mark,size,species,grade,dead,live,", "J1,2x10,hem-fir,No.2,12,40,"
  local function one(names, values)
    local m = read {joists = {text = head .. names .. "\n" .. row .. values .. "\n",
      name = "j.csv"}}.joists[1].model
    return {m.bearing[1], m.bearing[2], m.span[1], m.spacing}
  end
  lu.assertEquals(one("span,spacing,bearing left,bearing right", "12-0,16,3.5,1.5"),
    {3.5, 1.5, 144, 16})
  lu.assertEquals(one("span,spacing,bearing right,bearing", "12-0,16,1.5,3.5"),
    {3.5, 1.5, 144, 16})
  lu.assertEquals(one("clear span,spacing left,spacing right,bearing left,bearing right",
    "12-0,16,24,3.5,1.5"), {3.5, 1.5, 146.5, 20})
  lu.assertEquals(one("span,spacing left,spacing,bearing", "12-0,24,16,3.5"),
    {3.5, 3.5, 144, 20})
  local function faults(names, values)
    return problems {joists = {text = head .. names .. "\n" .. row .. values .. "\n",
      name = "j.csv"}}
  end
  has(faults("span,spacing,bearing left", "12-0,16,3.5"),
    "missing: both bearings, or one length for both", "j.csv", 2)
  has(faults("span,clear span,spacing,bearing", "12-0,12-0,16,3.5"),
    "give span or clear span, not both", "j.csv", 2, "H")
  has(faults("span,spacing,bearing,", "12-0,16,3.5,what"), "a cell without a heading",
    "j.csv", 2, "J")
end

function test_survey.test_ugly_files()
  local dir = "tests/data/survey/"
  check_old_house(read {joists = dir .. "bom_crlf.csv"}, "=1+1")
  check_old_house(read {joists = dir .. "semicolon_comma.csv", decimal = ","}, "=1+1")
  check_old_house(read {joists = dir .. "tabs.csv"}, "=1+1")
  check_old_house(read {joists = dir .. "latin1.csv", encoding = "latin-1"}, "=1+1")
  -- Written by a spreadsheet program, which worked the formula out.
  check_old_house(read {joists = dir .. "spreadsheet.csv"}, "2")
end

function test_survey.test_declared_by_settings()
  local floor = read {joists = "tests/data/survey/semicolon_comma.csv",
    settings = "name,value\nfloor,Old house\ndecimal,comma\nVisit date,May\nnot seen,"
      .. "ends in the wall\nnot seen,J9\nour file,7\n"}
  lu.assertEquals(floor.name, "Old house")
  local given = floor.survey.settings
  lu.assertEquals(given.visit, {date = "May"})
  lu.assertEquals(given.concealed, {"ends in the wall", "J9"})
  lu.assertEquals(given.others, {{name = "our file", value = "7"}})
  has(problems {joists = joists "J1", settings = {text = "units,parsec\n",
    name = "survey.csv"}}, "one of in, ft, mm, cm, m expected", "survey.csv", 1, "B")
end

--------------------------------------------------------------------------- what is read

-- Scenario of a 4 in hole, lower edge 1-1/2 in up, by hand: net stress 1266 psi at the
-- bottom edge; with the bore at an edge under 2 in the rules are broken.
function test_survey.test_scenario()
  local floor = read {joists = joists("J3,,,,,,,,", "J4,,,,,,,,"),
    cuts = "joist,kind,at,dia.,wood below\nJ3,bore,5-2,4 in,1-1/2 in\n"}
  local r = floor:review().joists.J3
  support.close(r:find("cut", "net-bending", 1).demand, 1266, 5e-3)
  lu.assertEquals(r.rules.status, "outside")
  support.close(r.cut.reactions[1], 468, 5e-3)
end

function test_survey.test_same_as_described()
  local floor = read {joists = joists("J1", "J2"),
    cuts = "joist,kind,from,to,depth,note\n" .. "J2,top notch,2-0,2-4,2 in,"
      .. "old line\n", loads = "joist,kind,load,at\nJ1,point,200 lb,5-0\n"}
  local described = ns.floor {size = "2x10", species = "douglas fir-larch",
    grade = "No.2", span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
    joists = {{mark = "J1", loads = {ns.point {load = "200 lb", at = "5-0"}}},
      {mark = "J2", cuts = {ns.notch {face = "top", from = "2-0", to = "2-4",
        depth = "2 in", note = "old line"}}}}}
  lu.assertEquals(ns.report.text(floor:review()), ns.report.text(described:review()))
end

-- Places along the wall 0, 17, 36, 54 in: spacings 17, (17+19)/2, (19+18)/2, 18.
function test_survey.test_spacing_from_places()
  local floor = read {joists = "mark,x,size,species,grade,span,dead,live\n"
    .. "*,,2x10,hem-fir,No.2,12-0,12,40\nA,0 in,,,,,,\nB,17,,,,,,\nC,3-0,,,,,,\n"
    .. "D,4'-6\",,,,,,\n"}
  local spacings = {}
  for i, j in ipairs(floor.joists) do spacings[i] = j.model.spacing end
  lu.assertEquals(spacings, {17.0, 18.0, 18.5, 18.0})
  has(problems {joists = "mark,x,size,species,grade,span,dead,live\n"
    .. "*,,2x10,hem-fir,No.2,12-0,12,40\nA,20 in,,,,,,\nB,17,,,,,,\n"},
    "must grow from row to row", "joists", 4, "B")
end

function test_survey.test_measured_depths()
  local floor = read {joists = "mark,size,species,grade,span,spacing,dead,live,d1,d2,"
    .. "Depth 3 (mm)\n" .. "J1,2x10,hem-fir,No.2,12-0,16,12,40,9-1/4 in,9\u{BC} in,231\n"
    .. "J2,2x10,hem-fir,No.2,12-0,16,12,40,,,\n"}
  support.close(floor.joists[1].model.d, 231 / 25.4)
  support.close(floor.joists[1].model.b, 1.5)
  support.close(floor.joists[2].model.d, 9.25)
  lu.assertStrContains(table.concat(floor.survey.notes, "\n"),
    "joist J1: depth measured at 3 places")
  lu.assertStrContains(table.concat(floor:review().joists.J1.assumptions, "\n"),
    "Survey: depth measured at 3 places, the least of them taken, 9 1/8\"")
end

function test_survey.test_words_of_the_trade()
  local floor = read {joists = "Mark,Size,Species,Grade,Depth (L),Depth (C),Depth (R),"
    .. "Span (ft-in),Spacing,D.L. (psf),L.L. (psf)\n"
    .. "J1,2x10,hem-fir,No.2,9\u{BD} in,9-3/8 in,9.5 in,13-6,\"16\"\" o.c.\",12,40\n"}
  local m = floor.joists[1].model
  lu.assertEquals({m.d, m.span[1], m.spacing, m.dead}, {9.375, 162.0, 16.0, 12.0})
end

-- Clear 11-8 1/2 and half of 3-1/2 in at each end are 12-0.
function test_survey.test_clear_span()
  local floor = read {joists = "mark,size,species,grade,clear span,spacing,bearing,dead,"
    .. "live\nJ1,2x10,hem-fir,No.2,11'-8 1/2\",16,3-1/2 in,12,40\n"}
  support.close(floor.joists[1].model.span[1], 144)
  has(problems {joists = "mark,size,species,grade,clear span,spacing,dead,live\n"
    .. "J1,2x10,hem-fir,No.2,11-8,16,12,40\n"}, "bearings' lengths are needed",
    "joists", 2, "E")
end

-- From the inner face of a 3-1/2 in bearing: half of it is added.
function test_survey.test_measured_from()
  local floor = read {joists = joists "J1", cuts = "joist,kind,measured from,at,dia\n"
    .. "J1,hole,left face,3-0,1 in\nJ1,hole,Face of right bearing,3-0,1 in\n"
    .. "J1,hole,right,5-0,1 in\nJ1,hole,,6-0,1 in\n"}
  local at = {}
  for i, c in ipairs(floor:review().joists.J1.cuts) do at[i] = (c.x1 + c.x2) / 2 end
  lu.assertEquals(at, {37.75, 162 - 37.75, 102.0, 72.0})
  has(problems {joists = "mark,size,species,grade,span,spacing,dead,live\nJ1,2x10,"
    .. "hem-fir,No.2,12-0,16,12,40\n", cuts = "joist,kind,measured from,at,dia\n"
    .. "J1,hole,left face,3-0,1 in\n"}, "is needed to measure from its face", "cuts", 2,
    "C")
end

function test_survey.test_middle_and_length()
  local floor = read {joists = joists "J1", cuts = "joist,kind,at,from,length,depth\n"
    .. "J1,top notch,3-0,,4 in,1 in\nJ1,bottom notch,,10-0,3 in,1 in\n"}
  local cuts = floor:review().joists.J1.cuts
  lu.assertEquals({cuts[1].x1, cuts[1].x2, cuts[2].x1, cuts[2].x2},
    {34.0, 38.0, 120.0, 123.0})
end

function test_survey.test_runs_of_joists()
  local floor = read {joists = joists("J1", "J2", "J3", "J4", "B-5"), cuts =
    "joist,kind,at,dia\nJ2 to J4,hole,6-0,1 in\n\"j1, b-5\",hole,5-0,1 in\nall,hole,4-0,"
    .. "1 in\nJ1-J2,hole,8-0,1 in\n"}
  local counts = {}
  for i, j in ipairs(floor.joists) do counts[i] = #j.model.cuts end
  lu.assertEquals(counts, {3, 3, 2, 2, 2})
end

function test_survey.test_material_and_limits()
  local floor = read {joists = "mark,b,d,span,spacing,dead,live,Fb (psi),Fv (MPa),"
    .. "E (ksi),limit live,limit total,sheathed,repetitive\n"
    .. "J1,1.5,9.25,12-0,16,12,40,900,1.2,1600,L/480,off,no,1.0\n"}
  local m = floor.joists[1].model
  support.close(m.E, 1.6e6)
  support.close(m.Fv, 1.2 * 145.0377, 1e-5) -- 1 MPa = 145.0377 psi
  lu.assertEquals({m.limit_live, m.limit_total, m.sheathed, m.repetitive},
    {480.0, 0, 0, 1.0})
end

-- From 6 to 9 in up at one end and 4-1/2 to 7-1/2 at the other: a box from 4-1/2 to 9.
function test_survey.test_sloping_duct()
  local floor = read {joists = joists("J1", "J2"), obstructions = "what,kind,bay,from,to,"
    .. "bottom,top,bottom at end,top at end\nduct,duct,\"J1, J2\",0 in,7-0,6 in,9 in,"
    .. "4-1/2 in,7-1/2 in\n"}
  local shape = floor.obstructions[1].shape
  lu.assertEquals({shape.h1, shape.h2}, {4.5 - 9.25, 9 - 9.25})
  lu.assertStrContains(floor.survey.notes[1], "sloping, taken as a box")
end

function test_survey.test_fixes()
  local floor = read {joists = joists("J1", "J2"), cuts = "joist,kind,at,dia,below\n"
    .. "J2,hole,5-2,4 in,1.5\n", fixes = "joist,repair,fastener,side,pitch,lift\n"
    .. "j2,Sister,1/2 in bolt,right,16 in,unloaded\n"}
  local r = floor:review().joists.J2
  lu.assertEquals(r.fixed.kind, "sister")
  lu.assertEquals(r.fixed.status, "adequate")
  lu.assertEquals(floor.joists[2].survey.cuts[1].row, 2)
end

function test_survey.test_out_judgment_and_shores()
  local more = ",out,judgment,judgment_by,judgment_reason,construction_live,shores_at\n"
  local t = {joists = HEAD .. more .. ALL .. ",,,,,25,5-0; 7-6\nJ1\nJ2,,,,,,,,,yes\n"
    .. "J3,,,,,,,,,,Decide,J. Writer,soft deck\n"}
  local r = read(t):review()
  lu.assertEquals(r.joists.J1.until_repaired.because, {"J2"})
  lu.assertEquals(r.joists.J3.judgment, {action = "decide", by = "J. Writer",
    reason = "soft deck"})
  support.close(r.joists.J1.joist.model.shores.at[2], 90)
  support.close(r.joists.J1.joist.model.shores.live, 25)
  has(problems {joists = HEAD .. more .. ALL .. "\nJ1,,,,,,,,,,ignore,a,b\n"},
    "leave, justify, decide, repair, refer", "joists", 3, "K")
end

function test_survey.test_photos_and_notes()
  local floor = read {joists = HEAD .. ",photo,note,sag\n" .. ALL .. "\nJ1,,,,,,,,,7,"
    .. "\"wet, soft\",1/4 in\n", cuts = "joist,kind,at,dia,photo,note\nJ1,hole,5-0,1 in,"
    .. "8,waste\n"}
  local survey = floor:review().joists.J1.joist.survey
  lu.assertEquals({survey.photo, survey.note, survey.sag, survey.row},
    {"7", "wet, soft", "1/4 in", 3})
  lu.assertEquals(survey.cuts[1], {row = 2, note = "waste", photo = "8"})
  lu.assertEquals(floor.joists[1].description.note, "wet, soft; sag 1/4 in; photo 7")
  lu.assertEquals(floor:review().joists.J1.cuts[1].note, "waste; photo 8")
  local changed = floor.joists[1]:with {span = "12-0"}
  lu.assertEquals(changed.survey.photo, "7")
end

------------------------------------------------------------------------------- problems

function test_survey.test_all_problems_at_once()
  local found = problems {joists = {name = "joists.csv", text = HEAD .. ",colour\n" .. ALL
    .. ",\nJ1,,,,13-14,,,,,red\nJ2,2x9,,,,,,-4,,\nJ2,,,,13.5,,,,,\nJ5,,,,,3,6/1/26,,,\n"},
    cuts = {name = "cuts.csv", text = "Joist,kind,at,Diametre (in),below,side\n"
    .. "j1,whole,5-2,4,1-1/2 in,\nJ2 to J7,hole,22-0,1,,\nJ5,hole,5-0,,,2 in\n"},
    obstructions = {name = "o.csv", text = "what,kind,joist,at,height\npipe,pip,J5,"
    .. "4-0,2 in\n"}, fixes = {name = "f.csv", text = "joist,kind,fastener,side\nJ5,"
    .. "sister,glue,middle\nJ9,strap,,\n"}, rules = "us-xyz"}
  has(found, "'us-xyz' is unknown", "options")
  has(found, "inches after feet must be less than 12", "joists.csv", 3, "E")
  has(found, 'size "2x9" is not on file', "joists.csv", 4, "B")
  has(found, "loads act downward", "joists.csv", 4, "H")
  has(found, "'J2' is taken", "joists.csv", 5, "A")
  has(found, 'if feet are meant write "13.5 ft"', "joists.csv", 5, "E")
  has(found, 'if feet are meant write "3 ft"', "joists.csv", 6, "F")
  has(found, "looks like a date", "joists.csv", 6, "G")
  has(found, "not a known heading; 'diameter' is meant?", "cuts.csv", 1, "D")
  has(found, "is hole meant?", "cuts.csv", 2, "B")
  has(found, 'the mark of a joist expected, got "J7"', "cuts.csv", 3, "A")
  has(found, "does not go with a hole, which takes at, diameter", "cuts.csv", 4, "F")
  has(found, "one of wire, cable, pipe", "o.csv", 2, "B")
  has(found, "a fastener such as 1/2 in bolt", "f.csv", 2, "C")
  has(found, "one of left, right, both expected", "f.csv", 2, "D")
  has(found, "the mark of a joist expected", "f.csv", 3, "A")
  lu.assertEquals(found[1].file, "options")
  local p = has(found, "13-14", "joists.csv", 3, "E")
  lu.assertEquals({p.heading, p.found, p.line, p.column}, {"span", "13-14", 3, 5})
end

function test_survey.test_faults_of_files()
  has(problems {joists = 'mark,span\nJ1,"12-0\n'}, "a quote is not closed", "joists", 2,
    "B")
  local found = problems {joists = "no/such/joists.csv", cuts = "joist,kind\nJ1,halo\n"}
  lu.assertTrue(has(found, "cannot be read", "joists.csv").unreadable)
  has(found, "one of hole, slot", "cuts", 2, "B")
  has(problems {joists = "\n\n"}, "the file is empty", "joists")
  has(problems {joists = "1,2,3\n4,5,6\n"}, "no heading is known", "joists", 1)
  has(problems {joists = "size,span\n2x10,12-0\n"}, "the column 'mark' is missing",
    "joists", 1)
  has(problems {joists = HEAD .. "\n"}, "no joist", "joists")
end

function test_survey.test_faults_of_columns()
  has(problems {joists = joists "J1" .. "J2,,,,,,,,,,stray\n"},
    "a cell without a heading", "joists", 4, "K")
  has(problems {joists = HEAD .. ",o.c.\n" .. ALL .. ",\nJ1\n"},
    "this is 'spacing' again", "joists", 1, "J")
  has(problems {joists = "mark,span (stone)\nJ1,12\n"}, "the unit (stone) does not go",
    "joists", 1, "B")
  has(problems {joists = joists "J1", cuts = "joist,kind,at,dia\n,hole,5-0,1 in\n"},
    "missing", "cuts", 2, "A")
  local floor = read {joists = HEAD .. ",colour\n" .. ALL .. ",\nJ1,,,,,,,,,red\n"}
  lu.assertEquals(floor.survey.notes[1], "joists: column J (colour) is not read")
end

function test_survey.test_faults_of_cells()
  local function cell(heading, text, options)
    local t = {joists = HEAD .. "," .. heading .. "\n" .. ALL .. ",\nJ1,,,,,,,,,\""
      .. text .. "\"\n"}
    for name, value in pairs(options or {}) do t[name] = value end
    return problems(t)
  end
  has(cell("d1 (in)", "9-1"), "is feet and inches", "joists", 3, "J")
  has(cell("d1", "9-1/4"), "the unit is missing", "joists", 3, "J")
  has(cell("plies", "some"), "a whole number expected", "joists", 3, "J")
  has(cell("sheathed", "perhaps"), "yes or no expected", "joists", 3, "J")
  has(cell("limit live", "tight"), "L/360 or the like", "joists", 3, "J")
  has(cell("creep", "1e400"), "a number expected", "joists", 3, "J")
  has(cell("Fb", "weak"), "a number of psi expected", "joists", 3, "J")
  has(cell("bearing left", "3.5 furlong"), "not known", "joists", 3, "J")
  has(cell("d1", "1.234 mm", {decimal = ","}), "may be thousands or decimals", "joists",
    3, "J")
  has(problems {joists = joists "J1", loads = "joist,kind,load\nJ1,line,80\n"},
    'write "80 plf"', "loads", 2, "C")
  has(problems {joists = joists "J1", loads = "joist,kind,load (psf)\nJ1,line,80\n"},
    "wanted is a line load", "loads", 2, "C")
  has(problems {joists = joists "J1", cuts = "joist,kind,face,from,to,depth\nJ1,"
    .. "top notch,bottom,2-0,2-4,1 in\n"}, "the kind says top", "cuts", 2, "C")
end

-- What the floor objects to is led back to the cell; defaults to the row for all.
function test_survey.test_faults_found_later()
  has(problems {joists = HEAD .. "\n" .. ALL:gsub("13%-6", "50-0") .. "\nJ1\nJ2\n"},
    "outside 24 to 480 in", "joists", 2, "E")
  has(problems {joists = joists "J1", cuts = "joist,kind,at,dia\nJ1,hole,20-0,1 in\n"},
    "past the end of the joist", "cuts", 2, "C")
  has(problems {joists = joists "J1", cuts = "joist,kind,at,dia\nJ1,hole,5-0,\n"},
    "missing", "cuts", 2, "D")
  has(problems {joists = joists("J1", "all,,,,14-0,,,,")}, "row 2 for all joists has "
    .. "another value", "joists", 4, "E")
  has(problems {joists = joists "J1", obstructions = "what,kind,joist,side,at,height,"
    .. "diameter\npipe,pipe,J1,left,40-0,2 in,1 in\n"}, "past the end of joist J1",
    "obstructions", 2, "E")
  has(problems {joists = joists "J1", fixes = "joist,kind,support,at\nJ1,hanger,middle,\n"
    .. "J1,sister,,5-0\n"}, "one of left, right expected", "fixes", 2, "C")
  has(problems {joists = joists "J1", fixes = "joist,kind\nJ1,strap\nJ1,sister\n"},
    "has a repair in row 2 already", "fixes", 3, "A")
end

-- Spreadsheets often have a title above the headings.
function test_survey.test_titles_above()
  local floor = read {joists = "Survey, second visit;;\n\nby hand\n" .. joists("J1")
    :gsub(",", ";")}
  lu.assertEquals(floor.joists[1].model.mark, "J1")
  lu.assertEquals(floor.survey.notes[1], "joists: what stands above row 4 is not read")
end

function test_survey.test_misuse()
  support.raises("unknown field 'joist'", ns.read_survey, {joist = "x\n"})
  support.raises("joists: a path or text expected", ns.read_survey, {})
  support.raises("cuts: a path, text", ns.read_survey, {joists = "x\n", cuts = 3})
  support.raises("decimal is", ns.read_survey, {joists = "x\n", decimal = "'"})
  support.raises("units is", ns.read_survey, {joists = "x\n", units = "ell"})
end

-------------------------------------------------------------------------------- columns

local function fields_of(list)
  local fields = {}
  for _, column in ipairs(list) do fields[column.field or column.name] = true end
  return fields
end

local function covered(fields, names, apart)
  local lacking = {}
  for _, name in ipairs(names) do
    if not fields[name] and not apart[name] then lacking[#lacking + 1] = name end
  end
  lu.assertEquals(lacking, {})
end

-- Every field of a description has its column; those with none are named here.
function test_survey.test_columns_cover_all_fields()
  covered(fields_of(columns.joists), model.fields, {d = true, material = true,
    loads = true, cuts = true, limits = true, survey = true, units = true, lang = true})
  for kind in pairs(parts.cut_kinds) do
    covered(fields_of(columns.cuts), parts.fields[kind], {from_right = true})
  end
  for kind in pairs(parts.load_kinds) do
    covered(fields_of(columns.loads), parts.fields[kind], {from_right = true})
  end
  covered(fields_of(columns.obstructions), obstruction.fields, {from_right = true})
  for _, kind in ipairs(fix.kinds) do
    covered(fields_of(columns.fixes), fix.fields(kind), {edition = true, material = true,
      slip = true, G = true, hold_down = true, thread = true, full_thread = true,
      capacity = true, shear = true})
  end
end

-- The examples of the blank books, without their mark, are a survey that reads.
function test_survey.test_templates()
  local books = ns.survey_template()
  local t = {}
  for _, kind in ipairs(columns.files) do
    local text = books[kind]
    lu.assertEquals(ns.survey_template(kind), text)
    local _, count = text:gsub("# example: ", "")
    lu.assertEquals(count, 2)
    t[kind] = text:gsub(template.mark:gsub("%p", "%%%0"), "")
  end
  t.joists = t.joists .. "J2,2-0,,,,,,,,12-0\r\n"
  t.settings = books.survey
  lu.assertEquals(#read(t).joists, 2)
  has(problems {joists = books.joists}, "no joist", "joists")
  support.raises("survey expected, got halls", ns.survey_template, "halls")
end

function test_survey.test_field_sheet()
  local d = ns.field_sheet {joists = {"J1", "J2"}, name = "Old house"}
  local text = document.text(d):gsub("%s+", " ")
  for _, piece in ipairs {"Joist J1", "Joist J2", "Old house", "[ ] ledger", "Not seen",
    "people and heavy things off it", "Assume hidden cuts", "moisture",
    "depth at left, middle, right"} do
    lu.assertStrContains(text, piece)
  end
  lu.assertStrContains(document.html(d), "<table")
  support.raises("joists: a number from 1 to 200", ns.field_sheet, {joists = 0})
  support.raises("cuts: a whole number from 1 to 40", ns.field_sheet, {cuts = 99})
  support.raises("name: text expected", ns.field_sheet, {name = 3})
end

----------------------------------------------------------------------------- the example

function test_survey.test_example_of_24_joists()
  local dir = "examples/survey/"
  local floor = read {joists = dir .. "joists.csv", cuts = dir .. "cuts.csv",
    obstructions = dir .. "obstructions.csv", loads = dir .. "loads.csv",
    fixes = dir .. "fixes.csv", settings = dir .. "survey.csv"}
  lu.assertEquals(#floor.joists, 24)
  lu.assertEquals(floor.name, "Tannery Row, flat 3")
  local review = floor:review()
  lu.assertEquals(review.joists.J3.fixed.status, "adequate")
  lu.assertStrContains(floor:joist("J3").survey.note, 'says "plumber was here"')
end

---------------------------------------------------------------------- hostile and random

local HOSTILE = {'"quoted"', "`id`", "$(id)", "<script>alert(1)</script>", "=1+1", "a\nb",
  "\u{202E}gnp.exe", "%s%n", "'; rm -rf x; '", "\\input{x}", "{{x}}"}

local function in_quotes(text)
  return '"' .. text:gsub('"', '""') .. '"'
end

-- Marks and notes of any text are carried as they are, and come out inert.
function test_survey.test_hostile_text()
  for _, text in ipairs(HOSTILE) do
    local floor = read {joists = HEAD .. ",note\n" .. ALL .. ",\n" .. in_quotes(text)
      .. ",,,,,,,," .. "," .. in_quotes(text) .. "\n"}
    lu.assertEquals(floor.joists[1].model.mark, text)
    lu.assertEquals(floor.joists[1].survey.note, text)
    local d = ns.field_sheet {joists = {text}, name = text}
    for _, form in ipairs {"text", "html", "markdown", "latex"} do
      local said = document[form](d)
      lu.assertNotStrContains(said, "\u{202E}")
      lu.assertNotStrContains(said, "a\nb")
      if form ~= "text" then lu.assertNotStrContains(said, "<script>alert") end
      if form == "latex" then lu.assertNotStrContains(said, "\\input{x}") end
      if form == "markdown" then lu.assertNotStrContains(said, "Joist `id`") end
    end
  end
end

-- Problems are one line each, without control and direction characters.
function test_survey.test_hostile_problems()
  for _, text in ipairs(HOSTILE) do
    local found = problems {joists = HEAD .. "," .. in_quotes(text) .. "\n" .. ALL
      .. "\nJ1,,,," .. in_quotes(text) .. "\n", cuts = "joist,kind\n" .. in_quotes(text)
      .. "," .. in_quotes(text) .. "\n"}
    lu.assertTrue(#found >= 3)
    for _, p in ipairs(found) do
      lu.assertNil(p.text:find "%c")
      lu.assertNotStrContains(p.text, "\u{202E}")
    end
  end
end

local WORDS = {"mark", "joist", "kind", "span", "size", "2x10", "hole", "notch", "all",
  "J1", "J2", "13-6", "16", "1/2", "3-1/2 in", "-", "\"", "\n", ",", ";", "\t", "\xFF",
  "(mm)",  "1e9", "no", "left face", "at", "from", "to", "depth", "=", "4 @ 3-4"}

function test_survey.test_any_bytes()
  local random = support.random(11)
  local function noise()
    local out = {"mark,kind,joist,at,from,to,span,size,dead,live,spacing\n"}
    for i = 2, random:int(2, 60) do
      out[i] = random:unit() < 0.5 and random:pick(WORDS) or random:pick {",", ",", "\n"}
    end
    return table.concat(out) .. "\n"
  end
  for _ = 1, 400 do
    local floor, found = ns.read_survey {joists = noise(), cuts = noise(),
      loads = noise(), obstructions = noise(), fixes = noise(), settings = noise()}
    lu.assertTrue(floor ~= nil or #found > 0)
  end
end

-- A good survey with one cell changed never ends otherwise than in a floor or a list.
function test_survey.test_one_cell_changed()
  local random = support.random(23)
  local values = {"", "J1", "J99", "1e9", "-3", "13-6", "0", "2x12", "off", "1/0 in",
    "9999999 ft", "\u{BD}", "nan", "inf", "top", "5 @ 2-0", "1;2", "all", "#"}
  local kinds = {"joists", "cuts", "obstructions", "loads", "fixes"}
  local texts = {}
  for _, kind in ipairs(kinds) do
    local file <close> = assert(io.open("examples/survey/" .. kind .. ".csv", "rb"))
    texts[kind] = file:read "a"
  end
  for _ = 1, 80 do
    local t, kind = {}, random:pick(kinds)
    for name, text in pairs(texts) do t[name] = text end
    local n, at = 0, random:int(1, 250)
    t[kind] = t[kind]:gsub("[^,\r\n]+", function(cell)
      n = n + 1
      return n == at and random:pick(values) or cell
    end)
    local floor, found = ns.read_survey(t)
    if floor then
      lu.assertEquals(#floor:review().order, #floor.joists)
    else
      lu.assertTrue(#found > 0)
    end
  end
end

return test_survey
