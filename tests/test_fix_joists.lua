-- SPDX-License-Identifier: MIT
-- Repairs that are joists of their own: headers, hangers, supports under the span, added
-- joists, screws at a notch. Expected values are statics by hand (wL/2, wL^2/8 and the
-- three-moment equation), written out beside each check.
local dkjson = require "dkjson"
local lu = require "luaunit"
local ns = require "netsection"

local test_fix_joists = {}

local MATERIAL = {Fb = 900, CF = 1.1, Fv = 180, E = 1.6e6}

local function near(got, want, what)
  lu.assertAlmostEquals(got, want, 0.005 * math.abs(want), what)
end

-- Nine joists, one cut through, its neighbour notched at the left end.
local function bath(changes)
  local t = {name = "bath", size = "2x10", material = MATERIAL, span = "13-6",
    spacing = 16, dead = 12, live = 40, bearing = 3.5, joists = {}}
  for i = 1, 9 do t.joists[i] = {mark = "J" .. i} end
  t.joists[5].cuts = {ns.end_notch {support = "left", face = "bottom",
    depth = "2-3/4 in"}}
  t.joists[6].cuts = {ns.sever {from = "6-0", to = "6-5"}}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.floor(t)
end

local function force(a, name, at)
  for _, f in ipairs(a.forces) do
    if f.name == name and (not at or math.abs(f.at - at) < 1e-6) then return f.value end
  end
end

local function check(list, mode, member)
  for _, k in ipairs(list) do
    if k.mode == mode and (not member or k.member == member) then return k end
  end
end

local function headed(t, changes)
  t.at = t.at or {"5-10", "6-7"}
  return bath(changes):joist("J6"):fix(ns.header(t)):review()
end

------------------------------------------------------------------------------- header

-- w = 69.33 plf; tails of 70 and 83 in: w 70/24 = 202.2, w 83/24 = 239.8 lb. The strip
-- of 9 in between: 52 lb, half to each header.
function test_fix_joists.test_tails_and_headers()
  local a = headed({between = "none"}).fixed
  near(force(a, "tail on the header", 70), 202.22)
  near(force(a, "tail on the header", 79), 239.78)
  near(force(a, "load on the header", 70), 202.22)
  a = headed({}).fixed
  near(force(a, "load on the header", 70), 228.22)
  near(force(a, "load on the header", 79), 265.78)
end

-- A trimmer of 162 in with w = 69.33 plf and half of each header: M = 2285 ft-lb, with
-- the strip 2368; F_b' = 990 without the repetitive factor, 1138.5 with it.
function test_fix_joists.test_single_trimmers()
  for _, row in ipairs {{"none", 2285, 1.29, 586.8, 1.02}, {"half", 2368, 1.34, 600.9,
    1.04}} do
    local a = headed({between = row[1], trimmer_plies = 1}).fixed
    lu.assertEquals(a.status, "not permitted") -- J5's own notch; over 1 as well
    lu.assertTrue(a.ratio > 1)
    for _, n in ipairs(a.neighbours) do
      near(n.review.cut.moment / 12, row[2], n.mark)
      lu.assertAlmostEquals(n.ratio, row[3], 0.006, n.mark)
    end
    lu.assertEquals(a.neighbours[1].mark, "J5")
    local notch = a.neighbours[1].review:find("cut", "notch-shear", 1)
    near(notch.demand, row[4])
    lu.assertAlmostEquals(notch.ratio, row[5], 0.005)
  end
end

function test_fix_joists.test_repetitive_factor_can_be_pinned()
  for _, row in ipairs {{"none", 1.126}, {"half", 1.167}} do
    local a = headed({between = row[1], trimmer_plies = 1}, {repetitive = 1.15}).fixed
    lu.assertAlmostEquals(a.neighbours[2].ratio, row[2], 0.003)
  end
end

-- Two plies halve the stress of the trimmer.
function test_fix_joists.test_doubled_trimmers()
  local single = headed({trimmer_plies = 1}).fixed.neighbours[2].ratio
  local a = headed({}).fixed
  lu.assertAlmostEquals(a.neighbours[2].ratio, single / 2, 1e-9)
  lu.assertTrue(a.ratio < 1)
  lu.assertEquals(a.failing, {"J5 must be repaired first (end notch 1 is not permitted)"})
  lu.assertEquals(check(a.checks, "neighbour").member, "trimmer")
end

-- Header of 32 in, P in the middle: M = P L / 4, R = P / 2.
function test_fix_joists.test_header_is_a_beam()
  local a = headed({hanger = "140 lb", plies = 2}).fixed
  local P = 265.78
  local bend = check(a.checks, "bending", "header")
  lu.assertTrue(bend.demand <= P * 32 / 4 * 1.001)
  local most = 0
  for _, k in ipairs(a.checks) do
    if k.mode == "bending" and k.member == "header" then most = math.max(most,
      k.demand) end
  end
  near(most, P * 32 / 4)
  local hung = {}
  for _, k in ipairs(a.checks) do
    if k.mode == "fasteners" then hung[#hung + 1] = k.demand end
  end
  near(math.max(table.unpack(hung)), P / 2)
end

function test_fix_joists.test_code_limits_are_named()
  local a = headed({trimmer_plies = 1, plies = 1}).fixed
  local text = table.concat(a.notes, "\n")
  lu.assertStrContains(text, "more than 3 ft from the bearing: trimmers are doubled")
  lu.assertStrContains(text, "R502.10 (memory)")
end

function test_fix_joists.test_header_refusals()
  local floor = bath()
  local function refused(mark, t)
    local a = floor:joist(mark):fix(ns.header(t)):review().fixed
    lu.assertEquals(a.status, "not permitted")
    lu.assertEquals(a.checks, {})
    return a.refused
  end
  lu.assertStrContains(refused("J6", {at = {"6-2", "7-0"}}), "meet sever 1")
  lu.assertStrContains(refused("J6", {at = {"0-6", "7-0"}}), "at a bearing")
  lu.assertStrContains(refused("J1", {at = {"5-10", "6-7"}}), "no joist on the left")
  lu.assertStrContains(refused("J9", {at = {"5-10", "6-7"}}), "no joist on the right")
end

-- Without a floor the joists beside it are like this one.
function test_fix_joists.test_neighbours_by_assumption()
  local a = bath():joist("J6"):with {mark = "X"}:fix(ns.header {at = {"5-10", "6-7"}})
    :review().fixed
  lu.assertEquals(#a.neighbours, 2)
  local lone = ns.joist {mark = "L", size = "2x10", material = MATERIAL, span = "13-6",
    spacing = 16, dead = 12, live = 40, cuts = {ns.sever {from = "6-0", to = "6-5"}}}
  a = lone:fix(ns.header {at = {"5-10", "6-7"}}):review().fixed
  lu.assertStrContains(table.concat(a.notes, "\n"), "taken to be like this one")
end

-- Reactions of tails and headers balance the load: w over both tails, no strip.
function test_fix_joists.test_header_equilibrium()
  local a = headed({between = "none"}).fixed
  local tails = force(a, "tail on the header", 70) + force(a, "tail on the header", 79)
  near(tails, 69.3333 * (70 + 83) / 12 / 2)
  local added = 0
  for _, n in ipairs(a.neighbours) do
    for _, R in ipairs(n.review.cut.reactions) do added = added + R end
  end
  near(added, 2 * 69.3333 * 13.5 + tails)
end

-- What stands between the headers goes to them by the lever rule: 300 lb 4 in from the
-- first of 9 in, 50 plf over the whole joist.
function test_fix_joists.test_loads_between_the_headers()
  local j = bath():joist("J6"):with {loads = {ns.point {at = 74, load = 300,
    case = "live"}, ns.line {load = "50 plf", case = "dead"}}}
  local a = j:fix(ns.header {at = {"5-10", "6-7"}}):review().fixed
  local w = 69.3333 + 50
  near(force(a, "load on the header", 70), w * (70 + 9) / 24 + 300 * 5 / 9)
  near(force(a, "load on the header", 79), w * (83 + 9) / 24 + 300 * 4 / 9)
end

-- One header at 3-0, the joist cut through at 2-0: a tail of 126 in; the floor between
-- the header and the wall goes half to each.
function test_fix_joists.test_one_header()
  local j = bath():joist("J6"):with {cuts = {ns.sever {from = "2-0", to = "2-5"}}}
  local a = j:fix(ns.header {at = "3-0"}):review().fixed
  near(force(a, "tail on the header", 36), 69.3333 * 126 / 24)
  near(force(a, "load on the header", 36), 69.3333 * (126 + 36) / 24)
  local mirrored = bath():joist("J6"):with {cuts = {ns.sever {from = "2-0", to = "2-5",
    from_right = true}}}
  local b = mirrored:fix(ns.header {at = 162 - 36}):review().fixed
  near(force(b, "load on the header", 126), 69.3333 * (126 + 36) / 24)
  lu.assertAlmostEquals(a.neighbours[2].ratio, b.neighbours[2].ratio, 1e-9)
  j = bath():joist("J6"):with {cuts = {ns.hole {at = "2-0", diameter = 4},
    ns.hole {at = "9-0", diameter = 4}}}
  lu.assertStrContains(j:fix(ns.header {at = "5-0"}):review().fixed.refused, "one side")
end

-- Spacing 16 in to the left and 20 in to the right: the nearer trimmer takes 20/36.
function test_fix_joists.test_header_between_unequal_bays()
  local j = bath():joist("J6"):with {spacing = {16, 20}}
  local a = j:fix(ns.header {at = {"5-10", "6-7"}}):review().fixed
  local P = 52 * 18 / 12 * (70 + 9) / 24
  near(force(a, "load on the header", 70), P)
  near(force(a, "header on the left trimmer", 70), P * 20 / 36)
  near(force(a, "header on the right trimmer", 70), P * 16 / 36)
end

-- A tail hangs in the header: shear is its reaction, 239.8 lb, nothing left out.
function test_fix_joists.test_shear_where_a_tail_hangs()
  local most = 0
  for _, k in ipairs(headed({}).fixed.checks) do
    if k.name == "end at the header" then most = math.max(most, k.demand) end
  end
  near(most, 239.78)
end

-- A trimmer that is outside NDS 4.4.3 itself (J5, 2-3/4 in > d/4) is named.
function test_fix_joists.test_trimmer_that_needs_repair()
  local a = headed({}).fixed
  lu.assertEquals(a.neighbours[1].status, "not permitted")
  lu.assertStrContains(table.concat(a.cautions, "\n"), "J5 must be repaired first "
    .. "(end notch 1 is not permitted)")
  lu.assertEquals(a.status, "not permitted")
  lu.assertNil(table.concat(a.cautions, "\n"):find("joist J7", 1, true))
end

-- IRC R502.10: 4 ft, 3 ft, 6 ft, 12 ft (reference values; memory).
function test_fix_joists.test_code_items()
  local function rules(t, changes) return headed(t, changes).fixed.rules end
  lu.assertEquals(rules({}).status, "within")
  lu.assertEquals(rules({trimmer_plies = 1}).status, "outside")
  lu.assertEquals(rules({at = {"2-6", "6-7"}, trimmer_plies = 1, plies = 1}).status,
    "outside") -- the second is 6-11 from its bearing
  lu.assertEquals(rules({plies = 1}, {spacing = 24}).status, "within") -- 4 ft
  lu.assertEquals(rules({plies = 1}, {spacing = 24.5}).status, "outside")
  lu.assertEquals(rules({}, {spacing = 37}).status, "outside") -- over 6 ft, no hangers
  lu.assertEquals(rules({hanger = 900}, {spacing = 37}).status, "within")
end

----------------------------------------------------------------------- under the span

-- Full-sawn 2x8 at 18 in: w_D = 27, w_L = 60 plf, two spans of 7-4. Over the middle w
-- l^2/8
-- = 584.8 ft-lb; 10/8 w l = 797.5 lb; 3/8 w l = 239.3 lb. Live on one span: end reaction
-- 3/8 w_D l + 7/16 w_L l = 266.8, the other 3/8 w_D l - w_L l/16 = 46.8 lb; M+ = R^2/2w =
-- 408.9 ft-lb.
local function mill(cuts)
  return ns.joist {mark = "M", size = "full-sawn 2x8", span = "14-8", spacing = 18,
    material = {Fb = 900, Fv = 180, E = 1.2e6}, dead = 18, live = 40, bearing = 3.5,
    cuts = cuts or {
      ns.end_notch {support = "left", face = "bottom", depth = 2},
      ns.end_notch {support = "right", face = "bottom", depth = 2}}}
end

function test_fix_joists.test_support_at_mid_span()
  local a = mill():fix(ns.midspan_support {at = "7-4"}):review().fixed
  lu.assertEquals(a.status, "adequate")
  near(force(a, "load on the new beam"), 797.5)
  near(a.reaction_range[1].most, 266.8)
  lu.assertAlmostEquals(a.reaction_range[3].least, 46.8, 0.3)
  local M = {}
  for _, k in ipairs(a.checks) do
    if k.mode == "bending" then M[#M + 1] = k.demand / 12 end
  end
  near(M[1], 408.9)
  near(M[2], 584.8)
  lu.assertTrue(check(a.checks, "notch-shear").ratio < 1)
end

function test_fix_joists.test_support_capacity()
  local a = mill():fix(ns.midspan_support {at = "7-4",
    capacity = "700 lb"}):review().fixed
  lu.assertEquals(a.status, "overstressed")
  lu.assertEquals(a.governing_check.member, "post")
  near(a.governing_check.ratio, 797.5 / 700)
end

-- A notch away from the ends of a joist of two spans is outside NDS 4.4.3.
function test_fix_joists.test_cuts_are_read_again()
  local j = mill {ns.notch {face = "top", from = "3-0", to = "3-2", depth = 1}}
  lu.assertEquals(j:review().cut.status, "overstressed")
  local a = j:fix(ns.midspan_support {at = "7-4"}):review().fixed
  lu.assertEquals(a.status, "not permitted")
  lu.assertStrContains(table.concat(a.notes, "\n"), "not permitted in the joist as it "
    .. "runs")
end

-- A hole at 7-0 is in the zone that hogs under full load over the new beam at 7-4:
-- R502.8.1 does not speak of it.
function test_fix_joists.test_hogging_is_not_covered()
  local j = mill {ns.hole {at = "7-0", diameter = 1, below = 3.5}}
  lu.assertEquals(j:review().rules.status, "within")
  local a = j:fix(ns.midspan_support {at = "8-0"}):review().fixed
  lu.assertStrContains(table.concat(a.notes, "\n"), "not covered by us-irc-2021")
end

-- Bearings of both spans and the beam carry all of the load: 87 plf over 14-8.
function test_fix_joists.test_support_equilibrium()
  local a = mill():fix(ns.midspan_support {at = "5-0"}):review().fixed
  -- Three moments, spans 60 and 116 in: M = w (l1^3 + l2^3) / (8 (l1 + l2)).
  local w, p, q = 87 / 12, 60, 116
  local M = w * (p ^ 3 + q ^ 3) / (8 * (p + q))
  near(force(a, "load on the new beam", 60), w * (p + q) / 2 + M / p + M / q)
end

function test_fix_joists.test_support_under_a_notch()
  local j = mill {ns.notch {face = "bottom", from = "7-2", to = "7-5", depth = 1}}
  lu.assertStrContains(j:fix(ns.midspan_support {at = "7-4"}):review().fixed.refused,
    "under notch 1")
end

function test_fix_joists.test_support_refusals()
  local j = mill {ns.sever {from = "6-0", to = "6-4"}}
  lu.assertStrContains(j:fix(ns.midspan_support {}):review().fixed.refused, "cut through")
  j = mill()
  lu.assertStrContains(j:fix(ns.midspan_support {at = "0-6"}):review().fixed.refused,
    "under 24 in")
end

-------------------------------------------------------------------------------- hanger

-- The notch is as long as the bearing, 3.5 in from the joist's end, so its corner is 1.75
-- in past the bearing's centre; a seat of 1.5 in stands 2.5 in in. w = 87 plf; the floor
-- behind the hanger, 18.1 lb, stands on it too. Shear beside it is the reaction in full.
function test_fix_joists.test_hanger_takes_the_notch_out()
  local a = mill():fix(ns.hanger {support = "left", capacity = "700 lb"}):review().fixed
  local k = check(a.checks, "fasteners", "hanger")
  near(k.demand, 87 * (176 - 2.5) / 24 + 87 * 2.5 / 12)
  near(k.ratio, k.demand / 700)
  near(k.demand + a.reaction_range[2].most, 87 * 176 / 12)
  local shear
  for _, c in ipairs(a.checks) do
    if c.name == "end at the hanger" then shear = c end
  end
  near(shear.demand, 87 * (176 - 2.5) / 24)
  near(shear.capacity, 2 / 3 * 180 * 2 * 8)
  local notches = 0
  for _, c in ipairs(a.checks) do
    if c.mode == "notch-shear" then notches = notches + 1 end
  end
  lu.assertEquals(notches, 1) -- that of the other end
end

-- A hanger moves the bearing in, but places stay those measured, from the center of the
-- left bearing, and a hole keeps its number: in numbers and tables as in the text.
function test_fix_joists.test_places_behind_a_hanger_stay_as_measured()
  local j = ns.joist {mark = "J4", size = "2x10", species = "Douglas Fir-Larch",
    grade = "No.2", span = "13-6", spacing = 16, dead = 10, live = 40, bearing = 3.5,
    cuts = {ns.end_notch {support = "left", face = "bottom", depth = 3, length = 4},
      ns.hole {at = 65.25, diameter = 2}, ns.hole {at = 108, diameter = 1.5}}}
  local r = j:fix(ns.hanger {support = "left", capacity = "900 lb"}):review()
  local csv = ns.report.csv(r)
  for _, line in ipairs {"checks.net-bending_hole-2.at,65.25,in",
    "checks.net-bending_hole-3.at,108,in", "checks.bearing_support-2.at,162,in"} do
    lu.assertStrContains(csv, "joists.J4.fixed." .. line)
  end
  local fixed = dkjson.decode(ns.report.json(r)).joists.J4.fixed
  lu.assertEquals(
    fixed.checks["net-bending_hole-2"].at, 65.25)
  local bending = r:find("fixed", "bending")
  lu.assertAlmostEquals(bending.at, 3 + 159 / 2, 1e-6) -- the middle of hanger and bearing
  for _, form in ipairs {"text", "markdown", "html"} do
    local text = ns.report[form](r):gsub("<[^>]*>", "")
    lu.assertNotNil(text:find "5.?.?.?.?.?%-5 1/4", form)
    lu.assertNil(text:find "5.?.?.?.?.?%-2 1/4", form)
  end
end

function test_fix_joists.test_hanger_mirror()
  local left = mill():fix(ns.hanger {support = "left", capacity = 700}):review().fixed
  local right = mill():fix(ns.hanger {support = "right", capacity = 700}):review().fixed
  lu.assertAlmostEquals(left.ratio, right.ratio, 1e-9)
  lu.assertAlmostEquals(check(left.checks, "fasteners").ratio,
    check(right.checks, "fasteners").ratio, 1e-9)
end

function test_fix_joists.test_hanger_wants_sound_wood()
  local j = mill {ns.loss {from = 0, to = "4-0", bottom = 1, cause = "rot"}}
  lu.assertStrContains(j:fix(ns.hanger {}):review().fixed.refused, "too far for a hanger")
  j = mill {ns.hole {at = 6, diameter = 2}}
  lu.assertStrContains(j:fix(ns.hanger {offset = 6}):review().fixed.refused, "full depth")
end

---------------------------------------------------------------------------- added joist

-- In the middle of the right bay of 18 in: the joist keeps (18 + 9)/2 = 13.5 in, the new
-- one takes 9 in. M = 58 psf x width x L^2 / 8.
function test_fix_joists.test_added_joist_takes_its_width()
  local a = mill():fix(ns.added_joist {side = "right"}):review().fixed
  local M = 58 * (176 / 12) ^ 2 / 8
  near(check(a.checks, "bending", "host").demand / 12, M * 13.5 / 12)
  near(check(a.checks, "bending", "added joist").demand / 12, M * 9 / 12)
  near(check(a.checks, "notch-shear", "host").demand, 58 * 13.5 / 12 * 176 / 24)
end

-- Written off: the new joist 9 in to the right has the left neighbour 27 in away and the
-- right one 9 in: (27 + 9)/2 = 18 in of floor for it, 27/2 - 18/2 = 4.5 in more for the
-- left neighbour, 9/2 - 18/2 = -4.5 for the right one, which keeps what it had.
function test_fix_joists.test_written_off()
  local j = mill {ns.sever {from = "6-0", to = "6-4"}}
  local a = j:fix(ns.added_joist {side = "right", write_off = true}):review().fixed
  local M = 58 * (176 / 12) ^ 2 / 8 / 12
  near(check(a.checks, "bending", "added joist").demand / 12, M * 18)
  near(a.neighbours[1].review.cut.moment / 12, M * (18 + 4.5))
  near(a.neighbours[2].review.cut.moment / 12, M * 18)
  lu.assertEquals(a.neighbours[1].review.cut.Cr, 1)
  lu.assertNil(check(a.checks, "bending", "host"))
end

-- Its own loads go to those beside it: 300 lb at 9 in from the new joist and 18 in from
-- the left neighbour puts 200 lb on the new one, 100 lb on the other.
function test_fix_joists.test_written_off_loads()
  local j = mill({ns.sever {from = "6-0", to = "6-4"}}):with {loads = {ns.point {
    at = "3-8", load = 300}}}
  local a = j:fix(ns.added_joist {side = "right", write_off = true}):review().fixed
  local w = 58 / 12
  near(force(a, "added joist on bearing 1"), w * 18 / 12 * 176 / 2 + 200 * 3 / 4)
  near(a.neighbours[1].review.cut.reactions[1], w * 22.5 / 12 * 176 / 2 + 100 * 3 / 4)
end

-- A load by area lies on the added joist as well; a point load does not.
function test_fix_joists.test_added_joist_takes_area_loads()
  local j = mill():with {loads = {ns.area {load = "12 psf", case = "dead"},
    ns.point {at = "7-4", load = 100}}}
  local a = j:fix(ns.added_joist {side = "right"}):review().fixed
  near(check(a.checks, "bending", "added joist").demand / 12,
    70 * 9 / 12 * (176 / 12) ^ 2 / 8)
end

function test_fix_joists.test_added_joist_needs_a_bay()
  local a = bath():joist("J9"):fix(ns.added_joist {side = "right"}):review().fixed
  lu.assertStrContains(a.refused, "no bay on the right")
  local one = bath():joist("J1"):fix(ns.added_joist {side = "right",
    write_off = true}):review().fixed
  lu.assertStrContains(one.refused, "no joist on the left")
end

function test_fix_joists.test_added_joist_refusals()
  local j = mill {ns.sever {from = "6-0", to = "6-4"}}
  lu.assertStrContains(j:fix(ns.added_joist {}):review().fixed.refused, "carries nothing")
  lu.assertStrContains(mill():fix(ns.added_joist {at = 20}):review().fixed.refused,
    "does not lie in the bay")
end

-------------------------------------------------------------------------- notch screws

-- DIN EN 1995-1-1/NA NCI NA.6.8.3 (memory): 1.3 (3 (1-a)^2 - 2 (1-a)^3) at alpha.
function test_fix_joists.test_tension_across_the_grain()
  local core = require "netsection.core"
  for _, row in ipairs {{.5, .650}, {.6, .458}, {.7, .281}, {.75, .203}, {.8, .135},
    {.9, .036}} do
    local _, k = core.joint {mode = "withdrawal", branch = 4, demand = 0, V = 1, d = 10,
      d_n = 10 * row[1], Z = 1, n_f = 2, CD = 1}
    lu.assertAlmostEquals(k.demand, row[2], 6e-4)
    lu.assertAlmostEquals(k.ratio, k.demand / 2, 1e-12)
  end
end

function test_fix_joists.test_screws_at_a_notch()
  local a = mill():fix(ns.notch_screws {support = "left", n = 2,
    rated = "80 lb"}):review()
    .fixed
  local k = check(a.checks, "withdrawal")
  near(k.demand, 0.2031 * 638) -- V = 638 lb, alpha 0.75
  near(k.ratio, 0.2031 * 638 / 160)
  lu.assertFalse(check(a.checks, "notch-shear").binding)
  near(check(a.checks, "host-shear").capacity, 2 / 3 * 180 * 2 * 6)
  lu.assertEquals(#a.layout, 2)
  lu.assertStrContains(table.concat(a.notes, "\n"), "US codes have no such rule")
end

-- A 1/4 x 6 in lag screw, tip 5/32 in (as on file), threaded over its whole length: 2 in
-- hold under the crack, 3.84 in above it. Withdrawal 1800 G^1.5 D^0.75 (NDS 12.2-1).
function test_fix_joists.test_thread_on_the_lesser_side()
  local lag = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "6 in"}
  local function screws(t)
    t.fastener, t.G = lag, 0.5
    return mill():fix(ns.notch_screws(t)):review().fixed
  end
  local k = check(screws {full_thread = true}.checks, "withdrawal")
  near(k.capacity, 2 * 2 * 1800 * 0.5 ^ 1.5 * 0.25 ^ 0.75)
  -- Thread of 3-1/2 in at the point (NDS Table L2, memory): none is under the crack.
  lu.assertStrContains(screws {}.refused, "no thread")
  lu.assertStrContains(screws {n = 4, full_thread = true}.refused, "side by side")
end

function test_fix_joists.test_screws_mirror()
  local left = mill():fix(ns.notch_screws {support = "left"}):review().fixed
  local right = mill():fix(ns.notch_screws {support = "right"}):review().fixed
  lu.assertAlmostEquals(left.ratio, right.ratio, 1e-9)
  lu.assertAlmostEquals(left.layout[1].x, 176 - right.layout[1].x, 1e-9)
end

function test_fix_joists.test_screws_do_not_lift_the_limit()
  local j = mill {ns.end_notch {support = "left", face = "bottom", depth = 2.5}}
  lu.assertStrContains(j:fix(ns.notch_screws {}):review().fixed.refused, "outside NDS "
    .. "4.4.3")
  lu.assertStrContains(mill {}:fix(ns.notch_screws {}):review().fixed.refused,
    "no notch in the bottom")
end

----------------------------------------------------------------------------- all of them

function test_fix_joists.test_fields_are_checked()
  local j = mill()
  local function raises(text, kind, t)
    local ok, message = pcall(function() return j:fix(ns[kind](t)) end)
    lu.assertFalse(ok)
    lu.assertStrContains(message, text)
  end
  raises("joist M, header, at", "header", {})
  raises("header, plies: a number from 1 to 4", "header", {at = "7-0", plies = 9})
  raises("hanger, support: one of left, right", "hanger", {support = "middle"})
  raises("midspan support, at", "midspan_support", {at = "1/2"})
  raises("added joist, side", "added_joist", {side = "under"})
  raises("notch screws, n: a number from 1 to 8", "notch_screws", {n = 0})
  raises("unknown field 'colour'", "hanger", {colour = "red"})
end

function test_fix_joists.test_every_fix_says_how_to_build_it()
  local floor = bath()
  local list = {
    floor:joist("J6"):fix(ns.header {at = {"5-10", "6-7"}}),
    mill():fix(ns.hanger {}), mill():fix(ns.midspan_support {}),
    mill():fix(ns.added_joist {}), mill():fix(ns.notch_screws {}),
  }
  for _, j in ipairs(list) do
    local r = j:review()
    local a = r.fixed
    lu.assertNil(a.refused)
    lu.assertTrue(#a.sequence >= 3 and #a.cautions >= 1 and #a.notes >= 1, a.title)
    lu.assertTrue(#a.pieces + #a.fasteners >= 1, a.title)
    lu.assertStrContains(ns.report.text(r), a.title)
    for _, k in ipairs(a.checks) do
      lu.assertTrue(k.ratio == nil or k.ratio - k.ratio == 0, k.mode)
      lu.assertTrue(#k.steps > 0, k.mode)
    end
  end
end

return test_fix_joists
