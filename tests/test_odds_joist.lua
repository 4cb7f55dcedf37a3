-- SPDX-License-Identifier: MIT
-- How sure the verdict of a joist is: draws are reviews, to the bit; floors against sums
-- worked out independently; what is uncertain by default, and what is said.
local inputs = require "netsection.odds.inputs"
local lu = require "luaunit"
local ns = require "netsection"
local odds = require "netsection.odds"
local support = require "tests.support"

local close, close_abs, raises = support.close, support.close_abs, support.raises
local holds = support.holds

local T = {}

local function normal(name, mean, sd) return {name = name, normal = {mean, sd}} end

local WOOD = {Fb = 900, CF = 1.1, Fv = 180, Fc_perp = 625, E = 1.9e6, Ft = 900,
  Fc = 1500}

local function joist(changes)
  local t = {mark = "J3", b = 1.5, d = 9.25, span = 162, spacing = 16, bearing = 3.5,
    members = 9, dead = 12.6, live = 40, material = WOOD}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.joist(t)
end

------------------------------------------------------------------ a draw is a review

local KINDS = {
  {ns.hole {at = 62, diameter = 3, below = 2.5}},
  {ns.hole {at = 50, diameter = 2.5, above = 3, from_right = true}},
  {ns.hole {at = 62, diameter = 2}, ns.slot {from = 80, to = 86, height = 3, below = 3}},
  {ns.notch {face = "top", from = 24, to = 27, depth = 1.5}},
  {ns.end_notch {support = "left", face = "bottom", depth = 2, length = 4}},
  {ns.loss {from = 48, to = 100, bottom = 0.25, sides = 0.25, cause = "char"}},
  {ns.split {from = 84, to = 96, at_depth = 4}},
  {ns.sever {from = 72, to = 77}}}

-- Ratio and action of drawn joists, each described anew and reviewed by itself.
function T.test_a_draw_equals_its_review()
  local rng = support.random(11)
  for _, cuts in ipairs(KINDS) do
    local j = joist {cuts = cuts, dead = 12}
    local asked = odds.meta_of(j:odds {draws = 256, indices = false, rough = true}).asked
    local places = {}
    for n = 1, 12 do
      places[n] = {}
      for k, input in ipairs(asked.inputs) do
        places[n][k] = inputs.at(input, rng:real(0.001, 0.999))
      end
    end
    for n, answer in ipairs(asked.model:each(places)) do
      local changes = {}
      for k, input in ipairs(asked.inputs) do changes[input.name] = places[n][k] end
      local r = j:with(changes):review()
      lu.assertEquals(answer.action, r.action)
      lu.assertTrue(answer.ratio == r.cut.ratio, cuts[1].kind)
    end
  end
end

-- Values of a choice make joists of their own; the mean of the wood follows E.
function T.test_a_choice_equals_its_review()
  local j = ns.joist {mark = "J", size = "2x10", species = "hem-fir", grade = "No.2",
    span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
    cuts = {ns.hole {at = "5-2", diameter = 2.5, below = 3}}}
  local grades = {"SS", "No.2", "No.3"}
  local list = {normal("spacing", 16, 0.5), {name = "grade", choice = grades,
    weights = {0.2, 0.5, 0.3}}, {name = "live", choice = {30, 40}, weights = {0.5, 0.5}}}
  local asked = odds.meta_of(j:odds {inputs = list, draws = 256, indices = false}).asked
  for g, grade in ipairs(grades) do
    for l, live in ipairs {30, 40} do
      local answer = asked.model:each {{17, g, l}}[1]
      local r = j:with {spacing = 17, grade = grade, live = live}:review()
      lu.assertTrue(answer.ratio == r.cut.ratio)
      lu.assertEquals(answer.action, r.action)
    end
  end
  local e = joist {limits = {live = 720}}
  asked = odds.meta_of(e:odds {inputs = {normal("material.E", 1.9e6, 1e5)},
    draws = 256, indices = false}).asked
  local wood = {}
  for name, value in pairs(WOOD) do wood[name] = value end
  wood.E = 1.7e6
  lu.assertTrue(asked.model:each {{1.7e6}}[1].ratio
    == e:with {material = wood}:review().uncut.ratio)
end

function T.test_same_bytes_on_any_number_of_threads()
  local j = joist {cuts = KINDS[1]}
  local function asked(threads)
    return j:odds {draws = 4096, threads = threads, wood = true}:text()
  end
  lu.assertEquals(asked(1), asked(4))
end

-------------------------------------------------------------------------------- floors

local F1R = joist {mark = "F1R", cuts = {ns.hole {at = 62, diameter = 3, below = 3.125}}}
local F1R_INPUTS = {normal("d", 9.25, 1 / 32), normal("b", 1.5, 1 / 64),
  normal("cuts.1.diameter", 3, 1 / 32), normal("cuts.1.below", 3.125, 1 / 16),
  normal("cuts.1.at", 62, 0.25), normal("span", 162, 0.25), normal("spacing", 16, 0.125),
  normal("dead", 12.6, 1.26),
  {name = "material.Fb", choice = {1000, 900, 525}, weights = {0.15, 0.70, 0.15}}}

-- Independent computation of the whole review: 2,476 of 16,384 with the same counters;
-- quadrature for the rest.
function T.test_floor_F1R()
  local o = F1R:odds {inputs = F1R_INPUTS, seed = 2026, method = "plain", draws = 16384,
    replicates = 1, indices = false}
  lu.assertTrue(math.abs(o.over.hits - 2476) <= 2)
  close_abs(o.nominal.ratio, 0.78728, 5e-6)
  lu.assertEquals(o.nominal.action, "leave")
  o = ns.odds {model = F1R, inputs = F1R_INPUTS, seed = 2026}
  holds(o.over, 0.150009, "over")
  holds(o.outside, 0.005706, "outside")
  for name, exact in pairs {leave = 0.84516, decide = 0.14914, justify = 0.00484,
    repair = 0.00086} do
    holds(o.actions[name], exact, name)
  end
  close_abs(o.first["material.Fb"].value, 0.98, 0.005)
  close_abs(o.total.dead.value, 0.0095, 0.002)
  lu.assertEquals(o.turns_on[1].name, "material.Fb")
  -- The hole is worst low and high: at both ends of 'below', not in the middle.
  for _, row in ipairs(o:tornado()) do
    if row.name == "cuts.1.below" then
      lu.assertTrue(row.at[5].ratio > row.at[50].ratio)
      lu.assertTrue(row.at[95].ratio > row.at[50].ratio)
      lu.assertEquals(row.low, row.at[50].ratio)
    end
  end
end

local F2 = ns.joist {mark = "F2", b = 2, d = 8, span = 176, spacing = 18, bearing = 3.5,
  members = 9, dead = 18, live = 40, limits = {live = false, total = false},
  material = {Fb = 1500, CF = 1.2, Fv = 150, E = 1.9e6, Fc_perp = 625, Ft = 900,
    Fc = 1500},
  cuts = {ns.end_notch {support = "left", face = "bottom", depth = 2, length = 3.5}}}

-- A notch at d/4 (R502.8.1, NDS 4.4.3) is a toss of a coin, though the joist passes.
-- Independent computation: 24,181 of 65,536 with the same counters; quadrature.
function T.test_floor_F2()
  local list = {normal("d", 8, 1 / 16), normal("b", 2, 1 / 16),
    normal("cuts.1.depth", 2, 1 / 16), normal("span", 176, 0.5),
    normal("spacing", 18, 0.25), normal("dead", 18, 1.8),
    {name = "material.Fv", choice = {135, 150, 180}, weights = {0.4, 0.3, 0.3}}}
  local o = F2:odds {inputs = list, seed = 2026, method = "plain", replicates = 1,
    indices = false}
  lu.assertTrue(math.abs(o.over.hits - 24181) <= 2)
  close_abs(o.nominal.ratio, 0.94519, 5e-6)
  o = F2:odds {inputs = list, seed = 2026, indices = 128}
  holds(o.over, 0.370612, "over")
  holds(o.outside, 0.5, "outside")
  holds(o.actions.leave, 0.35857, "leave")
  holds(o.actions.decide, 0.14141, "decide")
  holds(o.changes, 0.6414, "changes")
  lu.assertEquals(o.at_limit,
    {"end notch 1: 2 in is the limit of R502.8.1 (end notch depth)"})
  lu.assertEquals(o.turns_on[1].name, "cuts.1.depth")
  lu.assertStrContains(o:text(), "At the limit: end notch 1: 2 in is the limit")
end

-- The wood's scatter: quadrature by independent computation, net section and load as
-- entered (12 psf, which counts 1.05 times).
function T.test_floor_F3()
  local j = joist {dead = 12, cuts = {ns.hole {at = 62, diameter = 4, below = 1.5}}}
  local o = j:odds {wood = true, indices = false}
  local exact = {{0.0398804, 0.0038599}, {0.0392424, 0.0047954}, {0.0390062, 0.0057983}}
  for i, p in ipairs(exact) do
    holds(o.wood[i].cut, p[1], "cut")
    holds(o.wood[i].uncut, p[2], "uncut")
  end
  lu.assertNil(o.wood[1].fixed)
  lu.assertStrContains(o:text():gsub("%s+", " "), "Neither share means anything alone.")
  raises("asked of a joist with a cut", joist().odds, joist(), {wood = true})
end

------------------------------------------------------------------------------ defaults

local function says(o, label)
  for _, input in ipairs(o.inputs) do
    if input.label == label then return input.says end
  end
end

-- Spreads in words of the sheet; assumptions, and the dead load as published (Rosowsky).
function T.test_default_inputs()
  local small = {draws = 256, indices = false}
  local o = joist {dead = 12, cuts = {ns.hole {at = 62, diameter = 3, below = 2}}}:odds(
    small)
  lu.assertEquals(says(o, "depth of the joist"), "normal, mean 9.25, sd 0.03125")
  lu.assertEquals(says(o, "diameter of hole 1"), "normal, mean 3, sd 0.03125")
  lu.assertEquals(says(o, "wood below hole 1"), "normal, mean 2, sd 0.03125")
  lu.assertEquals(says(o, "place of hole 1"), "normal, mean 62, sd 0.25")
  lu.assertEquals(says(o, "span"), "normal, mean 162, sd 0.25")
  lu.assertEquals(says(o, "spacing"), "normal, mean 16, sd 0.125")
  lu.assertEquals(says(o, "dead load"), "normal, mean 12.6, sd 1.26")
  lu.assertNil(says(o, "live load"))

  local sized = ns.joist {mark = "J", size = "2x10", species = "hem-fir", grade = "No.2",
    span = "12-0", spacing = 16, dead = 12, live = 40}
  o = sized:odds(small)
  lu.assertEquals(says(o, "depth of the joist"), "normal, mean 9.25, sd 0.0625")
  o = sized:odds {draws = 256, indices = false, defaults = true, inputs = {
    {name = "span", normal = {"12-0", "1/8 in"}}, {name = "spacing", fixed = "16 in"},
    {name = "grade", choice = {"No.1", "No.2"}, weights = {0.5, 0.5}}}}
  lu.assertEquals(says(o, "span"), "normal, mean 144, sd 0.125")
  lu.assertEquals(says(o, "spacing"), "held at 16")
  lu.assertEquals(says(o, "grade"), "one of No.1 0.5, No.2 0.5")
  lu.assertEquals(says(o, "depth of the joist"), "normal, mean 9.25, sd 0.0625")
end

-- A repair was worked out for the joist as entered: loads alone vary.
function T.test_a_sister()
  local j = joist {cuts = {ns.sever {from = 72, to = 77}}}:fix(ns.sister {
    from = 36, to = 113, fastener = ns.fastener {kind = "bolt", diameter = 0.5,
      length = 4},
    groups = {{at = 40, n = 4}, {at = 70, n = 4}, {at = 79, n = 4}, {at = 109, n = 4}}})
  local r = j:review()
  local o = j:odds {draws = 1024, indices = 64}
  lu.assertEquals(o.nominal.action, r.fixed.status)
  lu.assertEquals(#o.inputs, 2)
  raises("no number of this joist with its repair", j.odds, j,
    {inputs = {normal("span", 162, 1)}})
  local asked = odds.meta_of(o).asked
  local at = asked.model:each {{17, 14}}[1]
  local same = j:with {spacing = 17, dead = 14}:review().fixed
  lu.assertTrue(at.ratio == same.ratio)
  lu.assertEquals(at.action, same.status)
end

-- Repairs that are made of joists: ratio and status of a draw are those of the review.
function T.test_repairs_made_of_joists()
  local severed, notch = ns.sever {from = 72, to = 77}, ns.notch {face = "bottom",
    from = 72, to = 77, depth = 2}
  for _, one in ipairs {{severed, ns.header {at = {70, 79}}}, {notch, ns.strap {}},
    {notch, ns.midspan_support {}}, {notch, ns.added_joist {}}} do
    local j = joist {cuts = {one[1]}}:fix(one[2])
    local loads = {{name = "live", gumbel = {35, 0.25}}, {name = "dead",
      normal = {12, 1.5}}, {name = "grade", choice = {"No.1", "No.2"},
      weights = {0.5, 0.5}}}
    j = j:with {material = ns.none, species = "douglas fir-larch", grade = "No.2"}
    local o = j:odds {draws = 1024, indices = 64, inputs = loads}
    lu.assertEquals(o.nominal.action, j:review().fixed.status)
    local asked = odds.meta_of(o).asked
    local places = {{38, 14, 1}, {22, 11, 2}, {61, 12, 2}, {30, 13, 1}}
    for i, at in ipairs(asked.model:each(places)) do
      local same = j:with {live = places[i][1], dead = places[i][2],
        grade = ({"No.1", "No.2"})[places[i][3]]}:review().fixed
      lu.assertTrue(at.ratio == same.ratio, j.repair.kind)
      lu.assertEquals(at.action, same.status)
    end
    raises("made of joists of its own", j.odds, j, {draws = 1024, wood = true})
  end
end

--------------------------------------------------------------------- floor and pictures

local function bath(changes)
  local t = {name = "Bath", b = 1.5, d = 9.25, span = 162, spacing = 16, bearing = 3.5,
    dead = 12, live = 40, material = WOOD, joists = {{mark = "J1"},
      {mark = "J2", cuts = {ns.hole {at = 62, diameter = 3, below = 2.5}}},
      {mark = "J3", member = "I-joist"}}}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.floor(t)
end

-- Each joist by itself, under the floor's rules; what has no numbers says why.
function T.test_a_floor()
  local f = bath()
  local list = {{name = "spacing", normal = {16, 0.5}}}
  local all = f:odds {draws = 1024, indices = 64, inputs = list, wood = true,
    own = {J2 = {normal("cuts.1.diameter", 3, 0.25)}}}
  lu.assertEquals(all.order, {"J1", "J2", "J3"})
  lu.assertStrContains(all.reasons.J3, "manufactured member")
  local one = f:joist "J2":odds {draws = 1024, indices = 64, defaults = true, inputs = {
    list[1], normal("cuts.1.diameter", 3, 0.25)}}
  lu.assertEquals(all.joists.J2.over, one.over)
  lu.assertEquals(says(all.joists.J2, "diameter of hole 1"), "normal, mean 3, sd 0.25")
  lu.assertNil(all.joists.J1.wood)
  lu.assertEquals(#all.joists.J2.wood, 3)
  lu.assertStrContains(all:text(), "J3     not drawn: manufactured member")
  local page = ns.document.text(all:half_page()):gsub("%s+", " ")
  lu.assertStrContains(page, "How sure is the verdict: Bath (not used for the verdict)")
  raises("own: no joist 'J9'", f.odds, f, {own = {J9 = {}}})
  raises("use floor:odds", f.odds)
end

-- Half a page: what it is not stands on it, and every share has its interval.
function T.test_half_a_page()
  local o = F1R:odds {inputs = F1R_INPUTS}
  local page = ns.document.text(o:half_page()):gsub("%s+", " ")
  lu.assertStrContains(page, "joist F1R (not used for the verdict)")
  lu.assertStrContains(page, "is not the chance that the floor fails and not a")
  lu.assertStrContains(page, "leave (as printed) 84.51 % (84.4")
  lu.assertStrContains(page, "outside the rules 0.57 % (0.5")
  lu.assertStrContains(page, "Fb: 0.71, 0.79, 1.35 (decide at its 95 %)")
  local d = ns.document.new {title = "Report"}
  lu.assertEquals(o:half_page(d), d)
  raises("a document of ns.document.new", o.half_page, o, {})
end

-- The picture shows the numbers of the tornado, in its order.
function T.test_picture()
  local o = F1R:odds {inputs = F1R_INPUTS, draws = 256, indices = false}
  local script = assert(ns.plot.tornado(o, {output = "t.svg"}))
  local last = 0
  for _, row in ipairs(o:tornado()) do
    local at = script:find(ns.units.fixed(row.at[95].ratio, 3), 1, true)
    lu.assertNotNil(at, row.name)
  end
  for _, label in ipairs {"Fb", "dead load", "thickness of the joist"} do
    local at = script:find("'" .. label .. "'", 1, true)
    lu.assertTrue(at > last)
    last = at
  end
  lu.assertStrContains(script, "'decide at 95 %'")
  raises("an answer of ns.odds expected", ns.plot.tornado, F1R)
  local none, why = ns.plot.tornado(joist {cuts = {ns.sever {from = 72, to = 77}}}:odds {
    draws = 256})
  lu.assertNil(none)
  lu.assertStrContains(why, "no ratio")
end

-------------------------------------------------------------------------- at the edges

-- A hole that some draws put past the edge: no such joist, said and counted against it.
function T.test_draws_that_are_no_joist()
  local j = joist {cuts = {ns.hole {at = 62, diameter = 3, below = 0.0625}}}
  local o = j:odds {draws = 1024, inputs = {normal("cuts.1.below", 0.0625, 0.0625)}}
  holds(o.actions["not reviewed"], 0.158655, "below 0")
  lu.assertTrue(o.over.value >= o.actions["not reviewed"].value)
  lu.assertTrue(o.changes.value >= o.actions["not reviewed"].value)
  lu.assertStrContains(o.notes[1], "no such joist")
end

-- A joist cut through has no ratio: over 1 in all draws, repair in all.
function T.test_a_joist_cut_through()
  local o = joist {cuts = {ns.sever {from = 72, to = 77}}}:odds {draws = 256}
  lu.assertEquals(o.over.hits, 256)
  lu.assertEquals(o.changes.hits, 0)
  lu.assertNil(o.quantiles[50])
  lu.assertStrContains(o:text(), "Ratio over 1: all draws")
end

-- A tub is read both ways by a review, and the action follows both: no lane does.
function T.test_a_tub_is_not_drawn()
  local tub = {from = 60, to = 90, width = 30, empty = "300 lb", water = "400 lb",
    people = "200 lb"}
  local j = joist {loads = {ns.tub(tub)}}
  raises("a tub on the floor's live load", j.odds, j, {draws = 256})
  tub.under = "add"
  lu.assertNotNil(joist {loads = {ns.tub(tub)}}:odds {draws = 256, indices = false})
end

-- Without its grade a joist has no numbers; with one to choose from it has.
function T.test_a_joist_without_a_grade()
  local j = ns.joist {mark = "J", size = "2x10", species = "hem-fir", span = "12-0",
    spacing = 16, dead = 12, live = 40}
  raises("grade not given", j.odds, j, {draws = 256})
  local o = j:odds {draws = 256, indices = false, defaults = true, inputs = {
    {name = "grade", choice = {"No.1", "No.2"}, weights = {0.5, 0.5}}}}
  lu.assertEquals(o.nominal.action, "refer")
  lu.assertEquals(o.changes.hits, 256)
end

-- A larger spread of the same mean makes the verdict no surer.
function T.test_more_doubt_is_less_sure()
  local last = 0
  for _, sd in ipairs {1 / 64, 1 / 32, 1 / 16, 1 / 8} do
    local o = F1R:odds {draws = 4096, indices = false,
      inputs = {normal("cuts.1.diameter", 3, sd)}}
    lu.assertTrue(o.changes.value >= last)
    last = o.changes.value
  end
  lu.assertTrue(last > 0.1)
end

-- What is lost at an end is counted further when it is read: as an axis it makes joists,
-- and a point is still its review.
function T.test_a_lost_end_is_no_number_of_the_core()
  local j = joist {cuts = {ns.lost_bearing {support = "left", to = 12}}}
  raises("no number of this joist", j.odds, j, {inputs = {normal("cuts.1.to", 12, 1)}})
  local s = ns.sweep {joist = j, over = {["cuts.1.to"] = {12, 20}},
    values = {"uncut.ratio", "cuts.1.moment"}}
  for _, to in ipairs {12, 20} do
    local r = j:with {["cuts.1.to"] = to}:review()
    close(s:at {["cuts.1.to"] = to}["cuts.1.moment"], r.cuts[1].M_most)
  end
end

function T.test_misuse_is_named()
  local j = joist {cuts = KINDS[1]}
  local function wrong(piece, t) raises(piece, j.odds, j, t) end
  wrong("inputs: plies: no number of this joist", {inputs = {normal("plies", 1, 1)}})
  wrong("inputs: cuts.2.at: no number", {inputs = {normal("cuts.2.at", 1, 1)}})
  wrong("inputs: halo: no number", {inputs = {normal("halo", 1, 1)}})
  wrong("inputs: span: normal:", {inputs = {{name = "span", normal = {"13-14", 1}}}})
  wrong("unknown field 'model'", {model = j})
  local sized = ns.joist {mark = "J", size = "2x10", species = "hem-fir", grade = "No.2",
    span = "12-0", spacing = 16, dead = 12, live = 40}
  raises("inputs: species = oak: ", sized.odds, sized, {inputs = {{name = "species",
    choice = {"hem-fir", "oak"}, weights = {0.5, 0.5}}}})
  wrong("one at a time", {inputs = {{name = "cuts", choice = {KINDS[1], {}},
    weights = {0.5, 0.5}}}})
  local many = {}
  for k, name in ipairs {"live", "dead", "spacing"} do
    many[k] = {name = name, choice = {}, weights = {}}
    for i = 1, 20 do many[k].choice[i], many[k].weights[i] = 10 + i, i == 1 and 1 or 0 end
  end
  wrong("the choices make 8000 joists", {inputs = many})
  wrong("rules", {rules = "no such"})
  raises("asked of a joist only", ns.odds, {model = function() return 1 end, wood = true,
    inputs = {normal("d", 1, 1)}})
  raises("use joist:odds", j.odds)
end

-- In the short report, after all that the verdict rests on; and nowhere else.
function T.test_half_a_page_in_the_short_report()
  local floor = ns.floor {name = "Hall", size = "2x10", species = "hem-fir",
    grade = "No.2", span = "13-6", spacing = 16, bearing = 3.5, dead = 10, live = 40,
    joists = {{mark = "H1", cuts = {ns.hole {at = "5-0", diameter = 3.5}}},
      {mark = "H2"}}}
  local reviewed = floor:review()
  local told = floor:odds {draws = 1024, indices = false}
  local function files(options)
    local by_name = {}
    for _, f in ipairs(ns.package.files(reviewed, options)) do
      by_name[f.name] = f.text
    end
    return by_name
  end
  local with, without = files {odds = told}, files {}
  local text = with["report.txt"]
  local at = text:find("How sure is the verdict", 1, true)
  lu.assertNotNil(at)
  lu.assertStrContains(text:sub(at, at + 120), "not used for the verdict")
  lu.assertTrue(at > text:find("Joists that need something", 1, true))
  lu.assertNil(without["report.txt"]:find("How sure", 1, true))
  for name, bytes in pairs(without) do
    if not name:find "^report" then lu.assertEquals(with[name], bytes) end
  end
  local one = floor:joist "H1"
  local own = {}
  for _, f in ipairs(ns.package.files(one:review(), {odds = one:odds {draws = 1024,
    indices = false}})) do own[f.name] = f.text end
  lu.assertStrContains(own["report.txt"], "Share of draws")
  local wrong = "odds: an answer of joist:odds or floor:odds about this joist or floor"
  raises(wrong, ns.package.files, reviewed, {odds = one:odds {draws = 64,
    indices = false}})
  raises(wrong, ns.package.files, one:review(), {odds = told})
  raises(wrong, ns.package.files, reviewed, {odds = true})
end

return T
