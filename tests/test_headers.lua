-- SPDX-License-Identifier: MIT
-- Headers over several joists, who takes load, places in the joist's own frame. Values of
-- 14-0, 2x10, 66.6667 plf, 16 in, headers at 60 and 76 by hand: tails w x1/2 and
-- w (L - x2)/2, half of the strip of 16 in to each header, a point load per tail on a
-- header over n + 1 bays, its ends on a trimmer that carries w as well.
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local tests = {}
local close = support.close

-- F_b' = 875 x 1.1 = 962.5 psi without Cr: 1715.7 ft-lb a ply.
local MATERIAL = {Fb = 875, CF = 1.1, Ft = 450, Fc = 1150, Fv = 150, Fc_perp = 625,
  E = 1.4e6, Emin = 510000}

-- Nine joists; the fifth and n - 1 after it are cut through.
local function floor(n, changes)
  local t = {name = "loft", size = "2x10", material = MATERIAL, span = "14-0",
    spacing = 16, dead = 10, live = 40, bearing = 3.5, joists = {}}
  for i = 1, 9 do t.joists[i] = {mark = "K" .. i} end
  for i = 5, 4 + n do t.joists[i].cuts = {ns.sever {from = 62, to = 74}} end
  for name, value in pairs(changes or {}) do
    if type(name) == "number" then
      for field, v in pairs(value) do t.joists[name][field] = v end
    else
      t[name] = value
    end
  end
  return ns.floor(t)
end

local function force(a, name, at)
  for _, f in ipairs(a.forces) do
    if f.name == name and f.at == at then return f.value end
  end
end

local function bending(a, at)
  for _, k in ipairs(a.checks) do
    if k.mode == "bending" and k.member == "header" and k.at == at then
      return k.demand / 12
    end
  end
end

-- n, strip, tails, header R left and right header, header M, trimmer RA RB, M at 76, by
-- ply over 1715.7
local B4 = {
  {1, "none", 83.3, 127.8, 111.1, 170.4, 590.2, 554.2, 2289.9, 1.335},
  {2, "none", 166.7, 255.6, 222.2, 340.7, 713.8, 641.8, 2961.2, 1.726},
  {3, "none", 250.0, 383.3, 444.4, 681.5, 837.3, 729.4, 3632.5, 2.117},
  {1, "half", 105.6, 150.0, 140.7, 200.0, 616.7, 572.2, 2427.8, 1.415},
  {2, "half", 211.1, 300.0, 281.5, 400.0, 766.7, 677.8, 3237.0, 1.887},
  {3, "half", 316.7, 450.0, 563.0, 800.0, 916.7, 783.3, 4046.3, 2.358}}

function tests.test_headers_over_one_two_and_three_joists()
  for _, row in ipairs(B4) do
    local n, strip = row[1], row[2]
    for own = 5, 4 + n do -- whichever of them the repair is given to
      local a = floor(n):joist("K" .. own):fix(ns.header {at = {60, 76}, between = strip,
        trimmer_plies = 1}):review().fixed
      lu.assertNil(a.refused)
      close(force(a, "tail on the header", 60), 166.7, 0.005)
      close(force(a, "tail on the header", 76), 255.6, 0.005)
      close(force(a, "header on the left trimmer", 60), row[3], 0.005)
      close(force(a, "header on the right trimmer", 76), row[4], 0.005)
      close(bending(a, 60), row[5], 0.005)
      close(bending(a, 76), row[6], 0.005)
      lu.assertEquals(#a.neighbours, 2)
      for i, mark in ipairs {"K4", "K" .. 5 + n} do
        local t = a.neighbours[i]
        lu.assertEquals(t.mark, mark)
        close(t.review.cut.reactions[1], row[7], 0.005)
        close(t.review.cut.reactions[2], row[8], 0.005)
        close(t.review.cut.moment / 12, row[9], 0.005)
        close(t.ratio, row[10], 0.005)
      end
      for _, k in ipairs(a.checks) do lu.assertTrue((k.ratio or 0) < 10) end
    end
  end
end

-- What hangs and bears is what the floor of the run weighs: bearings of tails, trimmers.
function tests.test_equilibrium_over_three()
  local w, a = 200 / 3, floor(3):joist("K6"):fix(ns.header {at = {60, 76}}):review().fixed
  local sum = 0
  for _, n in ipairs(a.neighbours) do
    sum = sum + n.review.cut.reactions[1] + n.review.cut.reactions[2]
  end
  local tails = 3 * w * (60 + 92) / 24 -- at their own bearings
  close(sum + tails, 5 * w * 14, 1e-9)
end

function tests.test_more_than_three_and_the_edge()
  local a = floor(4):joist("K5"):fix(ns.header {at = {60, 76}}):review().fixed
  lu.assertStrContains(a.refused, "more than 3 joists need a beam")
  a = floor(5):joist("K8"):fix(ns.header {at = {60, 76}}):review().fixed
  lu.assertStrContains(a.refused, "edge of the floor")
end

-- A joist of the run that is marked out and is none that is computed: why, by its mark.
function tests.test_a_joist_of_the_run_that_is_not_computed()
  local a = floor(2, {[6] = {member = "I-joist", out = true, cuts = {}}}):joist("K5")
    :fix(ns.header {at = {60, 76}}):review().fixed
  lu.assertStrContains(a.refused, "joist K6: manufactured member")
end

-- Uneven bays 12, 20, 16: the header spans 48; 1st load 12, 2nd 32 from the left trimmer.
function tests.test_uneven_bays()
  local f = floor(2, {[4] = {spacing = {16, 12}}, [5] = {spacing = {12, 20}},
    [6] = {spacing = {20, 16}}})
  local a = f:joist("K5"):fix(ns.header {at = {60, 76}, between = "none"}):review().fixed
  local p5, p6 = 50 * 16 / 12 * 60 / 24, 50 * 18 / 12 * 60 / 24
  close(force(a, "header on the left trimmer", 60), (p5 * 36 + p6 * 16) / 48, 1e-9)
  close(force(a, "header on the right trimmer", 60), (p5 * 12 + p6 * 32) / 48, 1e-9)
end

-- Two openings share a trimmer: it carries both headers' ends, 2 x 105.6 and 2 x 150.
function tests.test_two_openings_share_a_trimmer()
  local head = ns.header {at = {60, 76}, trimmer_plies = 1}
  local f = floor(1, {[7] = {cuts = {ns.sever {from = 62, to = 74}}}})
  f = f:fix("K5", head):fix("K7", head)
  local r = f:review()
  local K6 = r.joists.K5.fixed.neighbours[2]
  lu.assertEquals(K6.mark, "K6")
  close(K6.review.cut.reactions[1] + K6.review.cut.reactions[2],
    200 / 3 * 14 + 2 * 105.556 + 2 * 150, 1e-4)
  close(r.joists.K7.fixed.neighbours[1].ratio, K6.ratio, 1e-12)
end

-- A trimmer that needs a repair makes the header fail, unless it carries one.
function tests.test_trimmer_must_be_repaired_first()
  local notch = {ns.notch {face = "bottom", from = 80, to = 84, depth = 2}}
  local f = floor(1, {[6] = {cuts = notch}})
  local head = ns.header {at = {60, 76}}
  local a = f:joist("K5"):fix(head):review().fixed
  lu.assertEquals(a.status, "not permitted")
  lu.assertStrContains(a.failing[1], "K6 must be repaired first")
  local ranked = f:rank_fixes("K5", {head})
  lu.assertEquals(#ranked.ranked, 0)
  lu.assertStrContains(ranked.failing[1].reason, "K6 must be repaired first")
  f = f:fix("K6", ns.sister {size = "2x10", pitch = 6})
  a = f:joist("K5"):fix(head):review().fixed
  lu.assertNil(a.failing)
  lu.assertStrContains(a.neighbours[2].repaired, "sister")
end

-- A neighbor that is out takes nothing of a joist that is written off.
function tests.test_who_takes_load_stands()
  local new = ns.added_joist {side = "left", write_off = true}
  local a = floor(2):joist("K5"):fix(new):review().fixed
  lu.assertStrContains(a.refused, "joist K6 would take load and is cut through")
  local f = floor(1, {[6] = {cuts = {ns.notch {face = "bottom", from = 80, to = 84,
    depth = 2}}}})
  local ranked = f:rank_fixes("K5", {new})
  lu.assertEquals(#ranked.ranked, 0)
  lu.assertStrContains(ranked.failing[1].reason, "K6 must be repaired first")
end

-- A neighbor that is not described carries the line and area loads of this joist too:
-- 60 plf dead beside w = 66.67 plf, its reaction is 14/2 (66.67 + 60) and the header's.
function tests.test_neighbor_not_described()
  local joist = ns.joist {mark = "X", size = "2x10", material = MATERIAL, span = "14-0",
    spacing = 16, dead = 10, live = 40, bearing = 3.5,
    cuts = {ns.sever {from = 62, to = 74}},
    loads = {ns.line {load = "60 plf", case = "dead"},
      ns.point {at = 20, load = 300, case = "live"}}}
  local a = joist:fix(ns.header {at = {60, 76}}):review().fixed
  for i, side in ipairs {"left", "right"} do
    local n = a.neighbours[i]
    local ends = force(a, ("header on the %s trimmer"):format(side), 60)
      + force(a, ("header on the %s trimmer"):format(side), 76)
    close(n.review.cut.reactions[1] + n.review.cut.reactions[2],
      14 * (200 / 3 + 60) + ends, 1e-9)
    lu.assertStrContains(n.assumed, "line and area loads")
  end
end

-- Places of repaired states: right tail, hanger at the left, cuts by their names.
function tests.test_places_in_the_frame_of_the_joist()
  local hole = ns.hole {at = 120, diameter = 1}
  local j = floor(1, {[5] = {cuts = {ns.sever {from = 62, to = 74}, hole}}}):joist("K5")
  local a = j:fix(ns.header {at = {60, 76}}):review().fixed
  local seen
  for _, k in ipairs(a.checks) do
    if k.member == "tail" and k.cut then
      seen = true
      lu.assertEquals({k.cut, k.name}, {2, "hole 2"})
      lu.assertTrue(k.at >= 119 and k.at <= 121)
    end
  end
  lu.assertTrue(seen)
  local end_ = ns.end_notch {support = "left", face = "bottom", depth = 2, length = 4}
  local r = floor(0, {[5] = {cuts = {end_, ns.hole {at = 65.25, diameter = 2}}}})
    :joist("K5"):fix(ns.hanger {support = "left"}):review()
  local check = r:find("fixed", "net-bending", 2)
  lu.assertEquals(check.name, "hole 2")
  close(check.at, 65.25, 0.02)
  local given = r:diagram()
  close(given.fixed.members[1].points[1].x, r.fixed.x1, 1e-9)
  close(given.fixed.supports[1], r.fixed.x1, 1e-12)
  close(r.fixed.moment_at, (r.fixed.x1 + 168) / 2, 0.01)
end

-- Two repairs of one title and two results: the title says what differs.
function tests.test_titles_say_what_differs()
  local function sister(pitch)
    return ns.sister {size = "2x10", pitch = pitch, share = "slip"}
  end
  local f = floor(0, {[5] = {cuts = {ns.notch {face = "bottom", from = 80, to = 84,
    depth = 2}}}})
  local head = ns.header {at = {60, 76}}
  local r = f:rank_fixes("K5", {sister(8), sister(16), head})
  local titles = {}
  for _, list in ipairs {r.ranked, r.failing, r.refused} do
    for _, entry in ipairs(list) do titles[entry.index] = entry.title end
  end
  lu.assertStrContains(titles[1], "(pitch 8)")
  lu.assertStrContains(titles[2], "(pitch 16)")
  lu.assertNil(titles[3]:find("(", 1, true))
end

return tests
