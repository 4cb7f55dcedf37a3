-- Who takes load must stand: headers run to the next joists that are not out; joists that
-- fail themselves, or are not permitted, have to be repaired first; those that are not
-- described have the loads of the floor. Values by statics (wL/2, PL/4 and the lever
-- rule), table of headers over one to three joists worked independently.
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local close = support.close
local T = {}

-- 14-0, 2x10, 66.6667 plf at 16 in, n joists cut through between headers at 60 and 76 in.
local function floor(n, changes)
  local t = {name = "rows", size = "2x10", material = {Fb = 875, CF = 1.1, Fv = 180,
    E = 1.6e6}, span = 168, spacing = 16, dead = 10, live = 40, bearing = 3.5,
      joists = {}}
  for i = 1, n + 4 do t.joists[i] = {mark = "J" .. i} end
  for i = 3, n + 2 do t.joists[i].cuts = {ns.sever {from = 66, to = 70}} end
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.floor(t)
end

local function forces(a, name)
  local list = {}
  for _, f in ipairs(a.forces) do
    if f.name == name then list[#list + 1] = f.value end
  end
  return list
end

-- n, strip, header reactions left and right (lb), header moments (ft-lb), trimmer end
-- reactions (lb), trimmer M at 76 in (ft-lb).
local TABLE = {
  {1, "none", 83.3, 127.8, 111.1, 170.4, 590.2, 554.2, 2289.9},
  {2, "none", 166.7, 255.6, 222.2, 340.7, 713.8, 641.8, 2961.2},
  {3, "none", 250.0, 383.3, 444.4, 681.5, 837.3, 729.4, 3632.5},
  {1, "half", 105.6, 150.0, 140.7, 200.0, 616.7, 572.2, 2427.8},
  {2, "half", 211.1, 300.0, 281.5, 400.0, 766.7, 677.8, 3237.0},
  {3, "half", 316.7, 450.0, 563.0, 800.0, 916.7, 783.3, 4046.3},
}

function T.test_headers_over_one_to_three_joists()
  for _, row in ipairs(TABLE) do
    local n, strip = row[1], row[2]
    local where = ("n %d, strip %s"):format(n, strip)
    local a = floor(n):joist("J3"):fix(ns.header {at = {60, 76}, between = strip,
      trimmer_plies = 3}):review().fixed
    lu.assertNil(a.refused, where)
    local R = forces(a, "header on the left trimmer")
    close(R[1], row[3], 0.002, where)
    close(R[2], row[4], 0.002, where)
    local M = {}
    for _, k in ipairs(a.checks) do
      if k.mode == "bending" and k.member == "header" then M[#M + 1] = k.demand / 12 end
    end
    table.sort(M)
    close(M[1], row[5], 0.002, where)
    close(M[#M], row[6], 0.002, where)
    for _, side in ipairs(a.neighbours) do
      close(side.review.cut.reactions[1], row[7], 0.002, where)
      close(side.review.cut.reactions[2], row[8], 0.002, where)
    end
    lu.assertEquals(a.neighbours[1].mark, "J2")
    lu.assertEquals(a.neighbours[2].mark, "J" .. n + 3)
    -- Nothing of it is a ratio of nothing.
    for _, k in ipairs(a.checks) do lu.assertTrue((k.ratio or 0) < 1e6) end
  end
end

function T.test_the_moment_of_the_trimmer()
  for _, row in ipairs(TABLE) do
    local a = floor(row[1]):joist("J3"):fix(ns.header {at = {60, 76}, between = row[2],
      trimmer_plies = 1}):review().fixed
    close(a.neighbours[1].review.cut.moment / 12, row[9], 0.002)
  end
end

function T.test_more_than_three_or_the_edge_is_refused()
  local four = floor(4):joist("J3"):fix(ns.header {at = {60, 76}}):review().fixed
  lu.assertStrContains(four.refused, "more than 3 joists need a beam")
  local t = {name = "edge", size = "2x10", material = {Fb = 875, CF = 1.1, Fv = 180,
    E = 1.6e6}, span = 168, spacing = 16, dead = 10, live = 40, bearing = 3.5,
    joists = {{mark = "J1"}, {mark = "J2", cuts = {ns.sever {from = 66, to = 70}}},
      {mark = "J3", cuts = {ns.sever {from = 66, to = 70}}}}}
  local a = ns.floor(t):joist("J2"):fix(ns.header {at = {60, 76}}):review().fixed
  lu.assertStrContains(a.refused, "no joist there to carry a header")
end

-- A trimmer with a notch in its middle third is computed and named; with a repair that
-- serves it is one.
function T.test_a_trimmer_that_is_not_permitted_comes_first()
  local notch = {ns.notch {face = "top", from = 80, to = 82, depth = 1}}
  local function headed(second)
    local f = floor(1)
    local t = {name = "n", joists = {}}
    for i, j in ipairs(f.joists) do t.joists[i] = j end
    t.joists[2] = t.joists[2]:with {cuts = notch}
    if second then t.joists[2] = t.joists[2]:fix(second) end
    return ns.floor(t):joist("J3"):fix(ns.header {at = {60, 76}}):review().fixed
  end
  local a = headed()
  lu.assertEquals(a.status, "not permitted")
  lu.assertStrContains(table.concat(a.failing, "\n"), "J2 must be repaired first")
  lu.assertNil(a.refused)
end

-- An added joist whose old one is written off beside one that is out.
function T.test_one_that_is_out_takes_no_load()
  local a = floor(2):joist("J3"):fix(ns.added_joist {side = "left", write_off = true})
    :review().fixed
  lu.assertStrContains(a.refused, "joist J4 would take load and is cut through")
end

-- A joist by itself: those beside it, not described, have its loads by area and along
-- lines, and no cuts; that stands beside the result.
function T.test_neighbors_not_described_have_the_floors_loads()
  local function of(loads)
    return ns.joist {mark = "L", size = "2x10", material = {Fb = 900, CF = 1.1, Fv = 180,
      E = 1.6e6}, span = 162, spacing = 16, dead = 12, live = 40, bearing = 3.5,
      cuts = {ns.sever {from = 72, to = 77}}, loads = loads}:fix(ns.header {
      at = {"5-10", "6-7"}, trimmer_plies = 1}):review().fixed
  end
  local bare = of()
  local area = of {ns.area {load = "20 psf"}}
  local line = of {ns.line {load = "25 plf"}}
  -- The trimmer's own 20 psf and 25 plf count: M rises by more than the header's part.
  local w = 20 * 16 / 144
  local own = w * 162 ^ 2 / 8 / 12
  local M0 = bare.neighbours[1].review.cut.moment / 12
  lu.assertTrue(area.neighbours[1].review.cut.moment / 12 - M0 > own)
  local M = line.neighbours[1].review.cut.moment
  lu.assertTrue(M / 12 - M0 > 25 / 12 * 162 ^ 2 / 8 / 12)
  lu.assertStrContains(table.concat(area.notes, "\n"), "without cuts")
end

-- Places of a repaired state stand in the frame of the joist as measured, and cuts keep
-- their names: a hanger 5-1/4 in from the left bearing, a hole at 5'-5 1/4".
function T.test_places_of_a_hanger_are_the_joists_own()
  local j = ns.joist {mark = "F", size = "2x10", material = {Fb = 900, CF = 1.1, Fv = 180,
    E = 1.6e6}, span = 162, spacing = 16, dead = 12, live = 40, bearing = 3.5,
    cuts = {ns.end_notch {support = "left", face = "bottom", depth = 2.75},
      ns.hole {at = "5-5 1/4", diameter = 3}}}
  local r = j:fix(ns.hanger {support = "left", offset = 4}):review()
  local found
  for _, k in ipairs(r.fixed.checks) do
    if k.mode == "net-bending" and k.cut == 2 then found = k end
  end
  lu.assertEquals(found.name, "hole 2")
  lu.assertAlmostEquals(found.at, 65.25, 1e-6)
end

function T.test_places_of_tails_are_the_joists_own()
  local j = ns.joist {mark = "F", size = "2x10", material = {Fb = 900, CF = 1.1, Fv = 180,
    E = 1.6e6}, span = 162, spacing = 16, dead = 12, live = 40, bearing = 3.5,
    cuts = {ns.sever {from = 72, to = 77}, ns.hole {at = 120, diameter = 2}}}
  local a = j:fix(ns.header {at = {70, 79}}):review().fixed
  local found
  for _, k in ipairs(a.checks) do
    if k.mode == "net-bending" and k.member == "tail" and k.cut == 2 then found = k end
  end
  lu.assertEquals(found.name, "hole 2")
  lu.assertAlmostEquals(found.at, 120, 1e-6)
end

return T
