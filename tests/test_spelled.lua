-- SPDX-License-Identifier: MIT
-- Papers in the spelling of a country: `lang` of a review, else of its standard, else of
-- its rules. Lists of words by hand, from dictionaries.
local lu = require "luaunit"
local ns = require "netsection"

local T = {}

local US = {"center", "centers", "centered", "neighbor", "neighbors", "neighboring",
  "gray", "color", "fiber", "fibers", "meter", "meters", "millimeters", "license"}
local BRITISH = {"centre", "centres", "centred", "neighbour", "neighbours",
  "neighbouring", "grey", "colour", "fibre", "fibres", "metre", "metres",
  "millimetres", "licence", "timber"}

-- What a reader sees of a file: text between tags, quoted texts of a drawing.
local function seen(file)
  if file.name:find "%.html$" then
    return (file.text:gsub("<style.-</style>", ""):gsub("<[^>]*>", "\n"))
  elseif file.name:find "%.gp$" then
    local out = {}
    for line in file.text:gmatch "[^\n]+" do
      if not line:find "^#" and not line:find "terminal" and not line:find "output" then
        for before, said in line:gmatch "([^']*)'([^']*)'" do
          if not before:find "rgb%s*$" then out[#out + 1] = said end
        end
      end
    end
    return table.concat(out, "\n")
  end
  return file.text
end

-- The first of the words in what a reader sees, with its line; and how many words of the
-- other list stand there.
local function search(files, wrong, right)
  local count, set, good = 0, {}, {}
  for _, word in ipairs(wrong) do set[word] = true end
  for _, word in ipairs(right) do good[word] = true end
  for _, file in ipairs(files) do
    if not file.name:find "^numbers" then
      for line in seen(file):gmatch "[^\n]+" do
        for word in line:gmatch "%a+" do
          if set[word:lower()] then return file.name .. ": " .. line end
          if good[word:lower()] then count = count + 1 end
        end
      end
    end
  end
  return nil, count
end

local function floor_of(t)
  return ns.floor {name = t.name, standard = t.standard, rules = t.rules, lang = t.lang,
    joists = {
      t.joist("J1", {ns.hole {at = t.at, diameter = t.large}}),
      t.joist("J2", {ns.end_notch {support = "left", face = "bottom", depth = t.deep,
        length = t.long}}),
      t.joist("J3", {ns.sever {from = t.at, to = t.past}}),
      t.joist("J4", {ns.notch {face = "top", from = t.at, to = t.past,
        depth = t.deep}}),
    }}
end

local function metric(more)
  local t = {at = "1500 mm", past = "1600 mm", large = "120 mm", deep = "70 mm",
    long = "100 mm"}
  for name, value in pairs(more) do t[name] = value end
  return floor_of(t)
end

local function uk(more)
  local t = {name = "Floor", standard = "en-1995-1-1-uk",
    rules = {"uk-labc-2018", "uk-nhbc-2020"}, joist = function(mark, cuts)
      return {mark = mark, size = "47x195", class = "C24", span = "3.9 m",
        spacing = "400 mm", bearing = "100 mm", dead = "0.6 kPa", live = "1.5 kPa",
        cuts = cuts}
    end}
  for name, value in pairs(more or {}) do t[name] = value end
  return metric(t)
end

local function canada()
  return metric {name = "Floor", standard = "csa-o86-2019", rules = "ca-nbc-9.23.5",
    joist = function(mark, cuts)
      return {mark = mark, size = "38x235", species = "Spruce-Pine-Fir",
        grade = "No.1/No.2", edition = "csa-o86-2019", span = "4.1 m",
        spacing = "400 mm", bearing = "90 mm", dead = "0.5 kPa", live = "1.9 kPa",
        cuts = cuts}
    end}
end

local function us(lang)
  return floor_of {name = "Floor", lang = lang, at = "5-0", past = "5-4",
    large = "5 in", deep = "3 in", long = "4 in", joist = function(mark, cuts)
      return {mark = mark, size = "2x10", species = "Hem-Fir", grade = "No.2",
        span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40, cuts = cuts}
    end}
end

local function package_of(floor)
  return (ns.package.files(floor:review(), {full = true}))
end

function T.test_a_package_of_the_uk_has_no_us_word()
  local files = package_of(uk())
  local where, count = search(files, US, BRITISH)
  lu.assertNil(where)
  lu.assertTrue(count > 40, tostring(count))
  lu.assertNil((search(files, {"lumber"}, {})))
  for _, file in ipairs(files) do
    if file.name:find "%.html$" then
      lu.assertStrContains(file.text, '<html lang="en-GB">')
    end
  end
end

function T.test_canada_keeps_lumber()
  local files = package_of(canada())
  local where, count = search(files, US, BRITISH)
  lu.assertNil(where)
  lu.assertTrue(count > 40, tostring(count))
  lu.assertNil((search(files, {"timber"}, {})))
end

function T.test_a_package_of_the_us_has_no_british_word()
  local files = package_of(us())
  local where, count = search(files, BRITISH, US)
  lu.assertNil(where)
  lu.assertTrue(count > 40, tostring(count))
  lu.assertStrContains(files[1].text, '<html lang="en">')
end

-- The option comes first, then the floor, then the standard, then the rules.
function T.test_who_says_how_it_is_spelled()
  local function lang(r) return r.joists.J1.show.lang end
  lu.assertEquals(lang(uk():review()), "en-GB")
  lu.assertEquals(lang(uk {lang = "en-CA"}:review()), "en-CA")
  lu.assertEquals(lang(uk {lang = "en-CA"}:review {lang = "en-US"}), "en-US")
  lu.assertEquals(lang(us():review {rules = {"uk-labc-2018"}}), "en-GB")
  lu.assertNil(lang(us():review()))
  lu.assertErrorMsgContains("en-GB", function() us "de" end)
  lu.assertErrorMsgContains("lang", function() us():review {lang = "de"} end)
end

-- Numbers, keys and names of JSON and CSV are those of every language.
function T.test_machines_read_the_same()
  local a, b = us():review(), us():review {lang = "en-GB"}
  lu.assertEquals(ns.report.csv(b), ns.report.csv(a))
  lu.assertEquals(ns.report.json(b), ns.report.json(a))
end

-- Every digit and clause stands as it stood.
function T.test_numbers_and_clauses_stay()
  local a, b = uk {lang = "en-US"}:review(), uk():review()
  for _, form in ipairs {"markdown", "text"} do
    local function numbers(r)
      local list = {}
      for n in ns.report[form](r):gmatch "[%d.]+" do list[#list + 1] = n end
      return table.concat(list, " ")
    end
    lu.assertEquals(numbers(b), numbers(a))
  end
end

-- Columns of the plain report stand under each other as before.
function T.test_columns_of_plain_text()
  local a = ns.report.text(uk {lang = "en-US"}:review())
  local b = ns.report.text(uk():review())
  local lines = {}
  for line in b:gmatch "([^\n]*)\n" do lines[#lines + 1] = line end
  local i = 0
  for line in a:gmatch "([^\n]*)\n" do
    i = i + 1
    local at = line:find "%d+%.%d%d +%d%.%d%d$"
    if at then lu.assertEquals(lines[i]:sub(at), line:sub(at)) end
  end
  lu.assertEquals(#lines, i)
end

-- What a user wrote is nobody's to spell: the job, a note, a mark.
function T.test_what_a_user_wrote_stays()
  local floor = ns.floor {name = "Center Street 12", lang = "en-GB", joists = {
    {mark = "Gray A", size = "2x10", species = "Hem-Fir", grade = "No.2", span = "13-6",
      spacing = 16, bearing = 3.5, dead = 12, live = 40, cuts = {
        ns.hole {at = "5-0", diameter = 5, note = "Gray pipe of the neighbor"}}},
    {mark = "J2", size = "2x10", species = "Hem-Fir", grade = "No.2", span = "13-6",
      spacing = 16, bearing = 3.5, dead = 12, live = 40}}}
  local r = floor:review()
  local files = ns.package.files(r, {full = true, visit = {present = "Ms Gray"}})
  local all = {}
  for _, file in ipairs(files) do
    if not file.name:find "^numbers" then all[#all + 1] = seen(file) end
  end
  local text = table.concat(all, "\n") .. ns.report.text(r)
    .. ns.plot.floor_plan(r) .. ns.report.line(r.joists["Gray A"])
  for _, kept in ipairs {"Center Street 12", "Gray A", "Gray pipe of the neighbor",
    "Ms Gray"} do
    lu.assertStrContains(text, kept)
  end
  lu.assertNil(text:find "Centre Street")
  lu.assertNil(text:find "Grey")
  lu.assertStrContains(text, "from the centre")
end

function T.test_tables_and_blank_sheets()
  local joist = ns.joist {mark = "J", size = "47x195", class = "C24", span = "3.9 m",
    spacing = "400 mm", bearing = "100 mm", dead = "0.6 kPa", live = "1.5 kPa"}
  local t = ns.table {title = "Spans", standard = "en-1995-1-1-uk", joist = joist,
    rows = {name = "spacing", values = {400, 600}},
    columns = {name = "size", values = {"47x195"}}, unit = "in",
    round = {to = 1, way = "down"}, cell = function() return {value = 100} end,
    notes = {"from center to center of bearings"}}
  lu.assertStrContains(t:text(), "from centre to centre of bearings")
  local sheet = ns.field_sheet {lang = "en-GB", name = "Center House"}
  local said = ns.document.text(sheet)
  lu.assertStrContains(said:gsub("%s+", " "), "centre of the left bearing")
  lu.assertStrContains(said, "Center House")
  lu.assertErrorMsgContains("lang", ns.field_sheet, {lang = "fr"})
  local book = ns.survey_template("cuts", {lang = "en-GB"})
  lu.assertNil(book:lower():find "%f[%a]center%f[%A]")
  lu.assertEquals(book:match "^[^\n]*", ns.survey_template("cuts"):match "^[^\n]*")
  lu.assertEquals(ns.workbook.template("ods", {lang = "en-GB"}):find "%f[%a]center%f[%A]",
    nil)
  lu.assertErrorMsgContains("lang", ns.survey_template, "cuts", {lang = "fr"})
end

-- Charts of a sweep follow its standard; a title of the user's is the user's.
function T.test_charts()
  local joist = ns.joist {mark = "J", size = "47x195", class = "C24", span = "3.9 m",
    spacing = "400 mm", bearing = "100 mm", dead = "0.6 kPa", live = "1.5 kPa"}
  local function script(lang)
    local sweep = ns.sweep {joist = joist:with {lang = lang or ns.none},
      over = {span = {"3.0 m", "4.0 m"}}, values = {"ratio"},
      standard = "en-1995-1-1-uk", rules = "uk-labc-2018"}
    lu.assertEquals(sweep.show.lang, lang or "en-GB")
    return ns.plot.curves(sweep, {value = "ratio", x = "span", title = "to the center"})
  end
  lu.assertStrContains(script "en-US", "to the center")
  lu.assertEquals((script():gsub("centre", "center")), (script "en-US"))
end

function T.test_a_survey_says_it()
  local joists = "mark,size,species,grade,span,spacing,bearing,dead,live\n"
    .. "J1,2x10,Hem-Fir,No.2,13-6,16,3.5 in,12 psf,40 psf\n"
  local settings = "name,value\nlang,en-CA\n"
  local floor = assert(ns.read_survey {joists = joists, settings = settings})
  lu.assertEquals(floor:review().joists.J1.show.lang, "en-CA")
  floor = assert(ns.read_survey {joists = joists, settings = settings, lang = "en-US"})
  lu.assertEquals(floor:review().joists.J1.show.lang, "en-US")
  local none, problems = ns.read_survey {joists = joists,
    settings = "name,value\nlang,Klingon\n"}
  lu.assertNil(none)
  lu.assertStrContains(problems[1].text, "en-US, en-GB, en-CA")
end

return T
