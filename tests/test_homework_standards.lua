-- SPDX-License-Identifier: MIT
-- Kinds of problems by load and resistance factors: scenarios by hand, every key solved
-- again, every wrong answer by its description (plain_factored.lua); kinds that do not
-- serve a standard; spelling and decimal commas.
local lu = require "luaunit"
local ns = require "netsection"
local again = require "tests.kinds_again"
local homework = require "tests.homework"
local support = require "tests.support"

local close, raises = support.close, support.raises
local T = {}

local LRFD = "us-nds-2018-lrfd"
local OWN = {"adjusted_values", "allowable_span", "end_notch", "outer_third_notch",
  "patch_hole", "column"}

local of = again.of

---------------------------------------------------------------------------- scenarios

local function values(kind, given, expected, rel)
  local v = of(LRFD, {kind = kind, given = given}):of("s001")[1]
  for symbol, x in pairs(expected) do
    if type(x) == "number" then close(v.s[symbol], x, rel or 0.001, symbol)
    else lu.assertEquals(v.s[symbol], x) end
  end
end

local function joist(more)
  local t = {size = "2x10", span = 144, spacing = 16, live = 40,
    wood = "Douglas Fir-Larch No.2"}
  for name, value in pairs(more) do t[name] = value end
  return t
end

-- Hand computations: 1.2 D + 1.6 L; K_F phi lambda = 2.54 x 0.85 x 0.8 = 1.7272 in
-- bending, 2.88 x 0.75 x 0.8 = 1.728 in shear, 2.40 x 0.90 x 0.8 = 1.728 along the grain
-- (NDS Tables 2.3.5, 2.3.6, N3); 76 psf x 16/12 = 101.33 plf.
function T.test_scenarios_by_hand()
  values("end_notch", joist {dead = 10, depth = 2}, {w_u = 101.333, R_u = 608,
    ["F_v'"] = 311.04, ["V'"] = 1385.309, ratio = 0.43889, rule = "within"})
  values("patch_hole", joist {dead = 10, at = 36, diameter = 3}, {V_0 = 304, V_L = 288,
    V_u = 336, ["V'"] = 1944, ratio = 0.17284})
  values("outer_third_notch", joist {from = 24, length = 2, depth = 1.5},
    {M_u = 1079.5, S = 15.0156, f_b = 862.7, ["F_b'"] = 1709.9, ratio = 0.5045})
  values("allowable_span", {size = "2x10", spacing = 16, live = 40, dead = 10,
    wood = "Douglas Fir-Larch No.2"}, {["F_b'"] = 1966.42, L_b = 16.635, L_v = 16.383})
  values("column", {size = "4x4", length = 90, dead = 1100, live = 2900,
    wood = "Douglas Fir-Larch No.2"}, {P_u = 5960, F_cE = 1078.7, F_cs = 2682.7,
    C_P = 0.36125, ["P'"] = 11872, ratio = 0.502, verdict = "yes"})
  values("adjusted_values", {size = "2x10", wood = "Douglas Fir-Larch No.3",
    service = "wet, over 19 %", incised = "yes", row = "four at 16 in under a deck",
    loads = "dead load alone, 1.4D"}, {lambda = 0.6, C_M = 1,
    ["F_b'"] = 525 * 1.1 * 0.8 * 1.15 * 2.54 * 0.85 * 0.6,
    ["F_v'"] = 180 * 0.97 * 0.8 * 2.88 * 0.75 * 0.6,
    ["E_min'"] = 510000 * 0.9 * 0.95 * 1.76 * 0.85})
end

---------------------------------------------------------------------------- other paths

function T.test_solved_again() again.solved(LRFD, OWN) end

function T.test_wrong_answers_come_from_their_mistakes()
  local n = again.mistaken(LRFD, OWN, require "tests.plain_factored")
  lu.assertTrue(n >= 60 * again.versions, n)
end

function T.test_versions_are_fair() again.fair(LRFD, OWN, "us") end

---------------------------------------------------------------------------- who serves

function T.test_kinds_say_which_standards_they_serve()
  local names = ns.homework.kinds(LRFD)
  lu.assertTrue(#names >= 15)
  for _, name in ipairs(names) do
    local set = of(LRFD, name, 2)
    lu.assertStrContains(ns.document.text(set:sheet "s001"), "Standard: " .. LRFD)
    if set.problems[1].kind.standards[1] == LRFD then
      lu.assertNotNil(set:of("s001")[1].given.lambda or set:of("s001")[1].s.lambda)
    end
  end
  raises("problem 1: the kind severed_couple does not serve us-nds-2018-lrfd (it serves "
    .. "us-nds-2018-asd); kinds that do: tributary_load", of, LRFD, "severed_couple")
  raises("'no-such-standard' is unknown", ns.homework.kinds, "no-such-standard")
  local mine = ns.homework.kind {name = "mine", title = "M", vary = {w = {1, 2}},
    standards = {LRFD}, given = function(p) return {{"w", p.w, "plf", "load"}} end,
    question = "Find it.", steps = {{"R", "w*8", "lb", ask = "R", marks = 1}}}
  lu.assertNotNil(of(LRFD, mine))
  raises("the kind mine does not serve us-nds-2018-asd", homework.of, mine)
  raises('problem 1 (tub): it is in us units, metric asked for', homework.of, "tub", 1,
    {units = "metric"})
end

function T.test_a_frozen_set_keeps_its_standard()
  local path = os.tmpname()
  local set = of(LRFD, "column", 3)
  assert(set:save(path))
  local loaded = assert(ns.homework.load(path))
  os.remove(path)
  lu.assertEquals({loaded.standard, loaded.units}, {LRFD, "us"})
  lu.assertEquals(loaded:of("s002")[1].s, set:of("s002")[1].s)
end

---------------------------------------------------------------------------- wording

local function pages(changes, kinds)
  local t = {course = "Floors 2.5", seed = "1", students = {{id = "s_1.5"}},
    problems = kinds or ns.homework.kinds()}
  for name, value in pairs(changes) do t[name] = value end
  local set = ns.homework(t)
  local marks = set:mark {{student = "s_1.5", problem = 1, part = "a", answer = "4.25"}}
  return set, {set:sheet "s_1.5", set:key "s_1.5", marks:feedback "s_1.5"}
end

-- Numbers with a point by themselves, not of a clause, a name or an answer.
local function points_in(text)
  text = text:gsub("s_1%.5", ""):gsub("Floors 2%.5", ""):gsub("%[[^%]]*%]", "")
    :gsub("%f[%w]%u%u%u? [%d%.]+", ""):gsub("%f[%w]4%.25%f[%W]", "")
  local list = {}
  for number in text:gmatch "%f[%w%.](%d+%.%d+)%f[^%w%.]" do list[#list + 1] = number end
  return list
end

function T.test_decimal_commas_on_every_page()
  local set, list = pages {decimal = ","}
  local _, plain = pages {}
  for i, d in ipairs(list) do
    local text = ns.document.text(d)
    lu.assertEquals(points_in(text), {}, i)
    -- Nothing else has changed.
    local back = text:gsub("(%d),(%d)", "%1.%2"):gsub(";", ",")
    local as_it_was = ns.document.text(plain[i]):gsub(";", ",")
    lu.assertEquals(back:gsub("%s+", " "), as_it_was:gsub("(%d),(%d)", "%1.%2")
      :gsub("%s+", " "), i)
  end
  lu.assertStrContains(ns.document.text(list[3]), "4.25")
  lu.assertStrContains(ns.document.text(list[2]), "NDS 3.4.3.2(a)")
  for _, f in ipairs(set:figures "s_1.5") do
    for said in f.script:gmatch "set label '([^']*)'" do
      lu.assertEquals(points_in(said), {})
    end
    lu.assertNil(f.script:find "screen %d,%d+ ")
  end
  -- An answer with a comma is read, and the frozen set keeps it.
  local v = set:of("s_1.5")[1]
  local said = ("%.4f"):format(v.s.w_L):gsub("%.", ",")
  local marks = set:mark {{student = "s_1.5", problem = 1, part = "c", answer = said}}
  lu.assertEquals(marks.students["s_1.5"].problems[1].parts[3].verdict, "right")
end

function T.test_english_of_a_country()
  for lang, words in pairs {["en-US"] = {"center", "lumber"}, ["en-GB"] = {"centre",
    "timber"}, ["en-CA"] = {"centre", "lumber"}} do
    local _, list = pages({lang = lang}, {"column", "patch_hole"})
    local sheet, key = ns.document.html(list[1]), ns.document.text(list[2])
    lu.assertStrContains(sheet, ('<html lang="%s">'):format(lang))
    lu.assertStrContains(sheet, "from the " .. words[1] .. " of the")
    lu.assertStrContains(sheet, "diameter, " .. words[1]:gsub("er$", "ered")
      :gsub("re$", "red"))
    lu.assertStrContains(key, "sawn " .. words[2])
  end
  raises('lang: "en-US", "en-GB" or "en-CA" expected; got fr: no other language is there',
    pages, {lang = "fr"}, {"tub"})
  raises("lang: ", pages, {lang = 5}, {"tub"})
end

return T
