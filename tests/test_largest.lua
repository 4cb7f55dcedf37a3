-- SPDX-License-Identifier: MIT
-- The largest cut at a place, the margin that is left, and the map of cuts: worked
-- examples, the rules by hand, the passing end, and what turns a verdict.
local lu = require "luaunit"
local maps = require "netsection.cut_map"
local drawing = require "tests.drawing"
local ns = require "netsection"
local support = require "tests.support"

local close_abs, joist, raises = support.close_abs, support.joist, support.raises

local T = {}

------------------------------------------------------------------------------- by hand

-- 2x12, 16-0, D 15, L 40, Fv 180: V' = (2/3) Fv b d_n (d_n/d)^2 = R = 586.7 lb leaves
-- d_n = 7.44 in, a notch of 3.81 in (NDS 3.4.3.2(a)); the rule is d/4 = 2.81 (IRC
-- R502.8.1).
function T.test_the_deepest_end_notch()
  local j = joist {size = "2x12", span = "16-0", dead = 15}
  local t = {cut = "end_notch", support = "left", face = "bottom", length = 3.5,
    by = "calculation", modes = {"notch-shear"}}
  local d_n = (586.666667 * 11.25 ^ 2 / (2 / 3 * 180 * 1.5)) ^ (1 / 3)
  close_abs(j:largest(t), 11.25 - d_n, 1e-6)
  close_abs(j:largest(t), 3.81, 0.005)
  t.by, t.modes = "rules", nil
  local size, why = j:largest(t)
  close_abs(size, 11.25 / 4, 2e-6)
  lu.assertEquals(why, "rules")
end

-- IRC R502.8.1: holes to d/3, 2 in of wood above and below; notches to d/6 and d/3 long,
-- none in the middle third; at the ends d/4.
function T.test_the_rules_by_hand()
  local j = joist()
  local function rules(t)
    t.by = "rules"
    return j:largest(t)
  end
  close_abs(rules {cut = "hole", at = "6-0"}, 9.25 / 3, 2e-6)
  close_abs(rules {cut = "hole", at = "6-0", below = 5}, 2.25, 2e-6)
  close_abs(rules {cut = "hole", at = "6-0", above = 2.5}, 9.25 / 3, 2e-6)
  lu.assertNil((rules {cut = "hole", at = "6-0", below = 1.5}))
  close_abs(rules {cut = "notch", face = "top", from = 20, to = 23}, 9.25 / 6, 2e-6)
  lu.assertNil((rules {cut = "notch", face = "top", from = 20, to = 24}))
  lu.assertNil((rules {cut = "notch", face = "top", from = 80, to = 83}))
  close_abs(rules {cut = "slot", from = 60, to = 62}, 9.25 / 3, 2e-6)
end

-- Net bending at mid-span of a 2x8: the section modulus of a centred hole is
-- b (d^3 - D^3) / 6d, which M = w L^2 / 8 sets (NDS 3.3.2 on the net section, 3.2.3.1).
function T.test_the_largest_hole_in_bending()
  local j = joist {size = "2x8", span = "11-6", dead = 10, live = 40, spacing = 16,
    material = {Fb = 875, CF = 1.2, Fv = 135, E = 1.4e6}, repetitive = 1.15}
  local M = 50 * 16 / 144 / 12 * 138 ^ 2 / 8 * 12
  local S = M / (875 * 1.2 * 1.15)
  local D = (7.25 ^ 3 - 6 * 7.25 * S / 1.5) ^ (1 / 3)
  local size, why = j:largest {cut = "hole", at = 69, by = "calculation",
    modes = {"net-bending"}}
  lu.assertEquals(why, "net-bending")
  if D <= 0.45 * 7.25 then close_abs(size, D, 1e-6) end
  lu.assertTrue(size <= D + 1e-6, "a long opening bears no more than a round one")
end

-------------------------------------------------------------------------- the passing end

local PLACES = {12, 24, 36, 60, 81, 110}

function T.test_the_answer_passes_and_a_little_more_does_not()
  local j = joist {cuts = {ns.hole {at = "9-0", diameter = 1}}}
  for _, by in ipairs {"rules", "calculation", "both"} do
    local sizes, reasons = j:largest {cut = "hole", at = PLACES, by = by}
    for i, at in ipairs(PLACES) do
      local function passes(size)
        local r = j:with {["cuts.2"] = ns.hole {at = at, diameter = size}}:review()
        local c = r.cuts[2]
        local rules = by == "calculation" or c.rules == "within"
        local sum = by == "rules" or c.gate == 0 and r.cut.status == "adequate"
        return rules and sum
      end
      if sizes[i] then
        lu.assertTrue(passes(sizes[i]), ("%s at %g: %g"):format(by, at, sizes[i]))
        lu.assertFalse(passes(sizes[i] + 1e-5), ("%s at %g"):format(by, at))
      else
        lu.assertFalse(passes(1 / 64))
      end
      lu.assertIsString(reasons[i])
    end
  end
end

function T.test_a_list_of_places_is_each_place_by_itself()
  local j = joist()
  local sizes = j:largest {cut = "notch", face = "bottom", at = PLACES, length = 3}
  for i, at in ipairs(PLACES) do
    local one = j:largest {cut = "notch", face = "bottom", from = at - 1.5, to = at + 1.5}
    lu.assertEquals(sizes[i] or nil, one)
  end
end

function T.test_a_mirrored_place_takes_the_same()
  local j = joist()
  for _, x in ipairs {15, 37.5, 70} do
    local a = j:largest {cut = "hole", at = x, by = "calculation"}
    close_abs(j:largest {cut = "hole", at = 162 - x, by = "calculation"}, a, 1e-6)
  end
end

function T.test_where_nothing_passes()
  local j = joist {live = 200}
  local size, why = j:largest {cut = "hole", at = "6-0"}
  lu.assertNil(size)
  lu.assertEquals(why, "bending")
  size, why = j:largest {cut = "hole", at = "20-0"}
  lu.assertNil(size)
  lu.assertEquals(why, "size")
  size, why = ns.joist {size = "2x10", span = 150, spacing = 16, dead = 12, live = 40}
    :largest {cut = "hole", at = 60}
  lu.assertNil(size)
  lu.assertStrContains(why, "not given")
end

function T.test_misuse_of_largest_is_named()
  local j = joist()
  raises("{cut = \"hole\", at = ...} expected", j.largest, j, 3)
  raises("cut: hole, slot", j.largest, j, {cut = "sever"})
  raises("at: missing", j.largest, j, {cut = "hole"})
  raises("face: missing", j.largest, j, {cut = "notch", from = 1, to = 2})
  raises("by: rules", j.largest, j, {cut = "hole", at = 3, by = "halo"})
  raises("modes: a list", j.largest, j, {cut = "hole", at = 3, modes = {}})
  raises("within: inches", j.largest, j, {cut = "hole", at = 3, within = 0})
  raises("unknown field 'halo'", j.largest, j, {cut = "hole", at = 3, halo = 1})
  raises("at: ", j.largest, j, {cut = "hole", at = "13-14"})
  raises("face", j.largest, j, {cut = "notch", face = "left", from = 1, to = 2})
end

---------------------------------------------------------------------------- sensitivity

-- A joist without cuts turns from leave to decide where w L^2 / 8 reaches F'b S, or
-- 5 w_L L^4 / 384 EI reaches L/360: by hand for span, live load and Fb.
function T.test_what_turns_a_plain_joist()
  local j = joist()
  local s = j:sensitivity()
  lu.assertEquals(s.verdict, "leave")
  local at = {}
  for _, e in ipairs(s.inputs) do
    if not at[e.input] or math.abs(e.change) < math.abs(at[e.input].change) then
      at[e.input] = e
    end
  end
  local M, S = 52 * 16 / 144 * 162 ^ 2 / 8, 1.5 * 9.25 ^ 2 / 6
  local full = 900 * 1.1 * 1.15 * S
  close_abs(at.live.at, (full / M) * 52 - 12, 1e-4)
  close_abs(at.Fb.at, 900 * M / full, 1e-3)
  close_abs(at.span.at, 162 * math.sqrt(full / M), 1e-4)
  lu.assertEquals({at.live.becomes, at.Fb.becomes, at.span.becomes},
    {"decide", "decide", "decide"})
  for i = 2, #s.inputs do
    lu.assertTrue(math.abs(s.inputs[i].change) >= math.abs(s.inputs[i - 1].change))
  end
  lu.assertEquals(s.margins[1].mode, s.governing)
  lu.assertEquals(s.margins[1].margin, 1 - s.ratio)
end

-- Just past the place that it names the verdict is another, just before it is the same.
function T.test_the_turn_is_where_it_says()
  local j = joist {cuts = {ns.hole {at = "5-2", diameter = 3, below = 2.5}}}
  local s = j:sensitivity()
  local tried = 0
  for _, e in ipairs(s.inputs) do
    if e.input:find "^cuts" or e.input == "span" or e.input == "dead" then
      local way = e.change > 0 and 1 or -1
      local past = j:with {[e.input] = e.at + way * 1e-5 * e.value}:review()
      local before = j:with {[e.input] = e.at - way * 1e-5 * e.value}:review()
      lu.assertEquals(past.action, e.becomes, e.input)
      lu.assertEquals(before.action, s.verdict, e.input)
      tried = tried + 1
    end
  end
  lu.assertTrue(tried >= 3)
end

-- An old joist of unknown wood, notched at its ends: Fv decides. 142 psi is needed at the
-- notch at 18 in (V = 638 lb on (2/3) Fv b d_n (d_n/d)^2, b 2.0, d 8.0, notch 2), so
-- spruce (135) fails there and Douglas fir (180) passes; the bending of No.1 passes.
function T.test_an_unknown_species_that_turns_the_verdict()
  local old = ns.joist {mark = "A1", b = 2, d = 8, span = "14-8", spacing = 18, dead = 18,
    live = 40, bearing = 3.5, cuts = {ns.end_notch {support = "left", face = "bottom",
      depth = 2, length = 3.5}}}
  local s = old:sensitivity {species = {"douglas fir-larch", "spruce-pine-fir"},
    grade = {"SS"}}
  lu.assertEquals(s.verdict, "refer")
  lu.assertEquals(s.assumptions.flips, {"species"})
  lu.assertEquals(s.assumptions[1].action, "leave")
  close_abs(s.assumptions[2].ratio, 638 / (2 / 3 * 135 * 2 * 6 * (6 / 8) ^ 2), 0.002)
  lu.assertEquals(s.assumptions[2].governing, "notch-shear")
  local all = old:sensitivity()
  lu.assertTrue(#all.assumptions > 40)
  lu.assertStrContains(ns.report.sensitivity(all), "(values from memory)")
  lu.assertStrContains(ns.report.sensitivity(s), "turned by the assumed species")
end

function T.test_a_sister_is_asked_for_its_loads()
  local bolt = ns.fastener {kind = "bolt", diameter = "1/2 in"}
  local severed = joist {cuts = {ns.sever {from = "6-0", to = "6-5"}}}
  local fixed = severed:fix(ns.sister {from = "2-8", to = "10-0", fastener = bolt,
    groups = {{at = "3-2", n = 8}, {at = "5-6", n = 8}, {at = "6-11", n = 8},
      {at = "9-6", n = 8}}})
  local s = fixed:sensitivity()
  lu.assertEquals(s.verdict, "adequate")
  for _, e in ipairs(s.inputs) do
    local r = fixed:with {[e.input] = e.at * (1 + 1e-6)}:review()
    lu.assertEquals(r.fixed.status, e.becomes, e.input)
  end
  lu.assertTrue(#s.inputs > 0)
  local none, why = severed:fix(ns.midspan_support {}):sensitivity()
  lu.assertNil(none)
  lu.assertStrContains(why, "side plates only")
end

function T.test_misuse_of_sensitivity_is_named()
  local j = joist()
  raises("most: a number", j.sensitivity, j, {most = 0})
  raises("unknown field 'halo'", j.sensitivity, j, {halo = 1})
  raises("of a joist with a material", j.sensitivity, j, {species = true})
  local k = ns.joist {size = "2x10", species = "hem-fir", grade = "No.2", span = 150,
    spacing = 16, dead = 12, live = 40}
  raises("species: a list of names", k.sensitivity, k, {species = "hem-fir"})
end

---------------------------------------------------------------------------------- the map

-- The map is largest, place by place; the drawing never shows more than it allows.
function T.test_the_map_is_what_largest_says()
  local j = joist {cuts = {ns.hole {at = "5-2", diameter = 3}}}
  local map = assert(maps.of(j, {places = 12, notch_length = 3}))
  lu.assertEquals(#map.x, 13)
  for _, i in ipairs {1, 4, 6, 9} do
    local size = j:largest {cut = "hole", at = map.x[i], within = 1 / 256}
    lu.assertEquals(map.hole[i], size or 0)
    local notch = j:largest {cut = "notch", face = "top", at = map.x[i], length = 3,
      within = 1 / 256}
    lu.assertEquals(map.top[i], notch or 0)
    lu.assertTrue(map.hole[i] <= math.min(map.hole_rules[i], map.hole_calculation[i])
      + 1e-9)
  end
end

function T.test_the_map_is_drawn()
  local j = joist {mark = "it's `J3` $(x)", cuts = {ns.hole {at = "5-2", diameter = 3}}}
  local options = {places = 12, notch_length = "3 in", output = "map.png"}
  local script = assert(ns.plot.cut_map(j, options))
  lu.assertEquals(script, ns.plot.cut_map(j:review(), options))
  lu.assertStrContains(script, "Where a hole or notch is still allowed")
  lu.assertStrContains(script, "not a sealed design")
  local over = assert(ns.plot.cut_map(joist {live = 200}, {places = 6}))
  lu.assertStrContains(over, "the joist is overstressed as it is")
  drawing.need_gnuplot()
  local dir <close> = drawing.folder()
  drawing.assert_draws(dir, "map", script, "map.png", "\x89PNG")
  for i, text in ipairs(drawing.HOSTILE) do
    local named = joist {mark = text ~= "" and text or nil}
    drawing.assert_draws(dir, "hostile text " .. i, assert(ns.plot.cut_map(named,
      {places = 4, output = "map.png"})), "map.png", "\x89PNG")
  end
  lu.assertNil(drawing.read_file(dir.path .. "/ran"))
end

function T.test_misuse_of_the_map_is_named()
  raises("a joist or a review expected", ns.plot.cut_map, 3)
  raises("unknown option", ns.plot.cut_map, joist(), {halo = 1})
  raises("places: 4 to 2000", maps.of, joist(), {places = 1})
  raises("notch_length", maps.of, joist(), {notch_length = "13-14"})
  local none, why = ns.plot.cut_map(ns.joist {size = "2x10", span = 150, spacing = 16,
    dead = 12, live = 40})
  lu.assertNil(none)
  lu.assertStrContains(why, "not given")
end

function T.test_a_species_that_is_not_on_file_is_named()
  local bare = ns.joist {size = "2x10", species = "hem-fir", grade = "No.2", span = 150,
    spacing = 16, dead = 12, live = 40}
  local said = ns.report.sensitivity(bare:sensitivity {species = {"oak"}})
  lu.assertStrContains(said, "oak: not on file")
  lu.assertNil(said:find("the same under every assumption", 1, true))
  said = ns.report.sensitivity(bare:sensitivity {species = {"hem-fir", "oak"}})
  lu.assertStrContains(said, "hem-fir No.2:")
  lu.assertStrContains(said, "oak: not on file")
end

return T
