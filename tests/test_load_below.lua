-- SPDX-License-Identifier: MIT
-- What carries the bearings of a floor, sole and head plates, stubs and repaired joists
-- over a beam. Values by hand: statics, NDS 3.10.2 (f_cp = R/(b l_b) <= F_cp' Cb), 3.3,
-- 3.7; the trimmers by an independent computation.
local lu = require "luaunit"
local ns = require "netsection"
local drawing = require "tests.drawing"

local T = {}

local WOOD = {Fb = 900, CF = 1.1, Fv = 180, Ft = 575, Fc = 1350, Fc_perp = 625, E = 1.6e6,
  Emin = 580000, G = 0.5, source = "given"}
local STRONG = {Fb = 2400, CF = 1, Fv = 265, Ft = 1500, Fc = 2000, Fc_perp = 850,
  E = 2e6, Emin = 1e6, G = 0.5, source = "given"}

local function near(found, wanted, rel)
  lu.assertAlmostEquals(found, wanted, (rel or 0.002) * math.abs(wanted))
end

local function floor(n, more, each)
  local joists = {}
  for i = 1, n do
    joists[i] = {mark = "J" .. i}
    for name, value in pairs(each and each[i] or {}) do joists[i][name] = value end
  end
  local t = {name = "Workroom", size = "2x10", material = WOOD, span = "13-6",
    spacing = 16, bearing = 3.5, dead = 12, live = 40, joists = joists}
  for name, value in pairs(more or {}) do t[name] = value end
  return ns.floor(t)
end

-- Two joists out between trimmers of two plies: 14-0, 66.667 plf, headers at 60 and 76:
-- 766.7 lb at the left bearing of a trimmer, 300.0 lb more than before.
local function headed()
  local f = floor(6, {span = "14-0", dead = 10, live = 40, material = STRONG}, {
    [3] = {cuts = {ns.sever {from = 65, to = 71}}},
    [4] = {cuts = {ns.sever {from = 65, to = 71}}}})
  for _, mark in ipairs {"J3", "J4"} do f = f:fix(mark, ns.header {at = {60, 76}}) end
  return f
end

local function check(a, mode, name)
  for _, k in ipairs(a.checks) do
    if k.mode == mode and (not name or (k.name or ""):find(name, 1, true)) then
      return k
    end
  end
end

-- Rows of a table of the page under a caption.
local function rows_under(page, caption)
  local from = page:find(caption, 1, true)
  lu.assertNotNil(from, caption)
  local rows = {}
  for l in page:sub(from):match("%-%-%-+\n(.-)\n\n"):gmatch "[^\n]+" do
    local cells = {}
    for cell in (l .. "  "):gmatch "(.-)  +" do
      if cell ~= "" then cells[#cells + 1] = cell end
    end
    rows[#rows + 1] = cells
  end
  return rows
end

--------------------------------------------------------------------- plate, girder, wall

function T.test_plate_under_trimmers()
  local path = headed():load_path {below = {left = ns.plate {size = "2x4",
    material = WOOD}}}
  local a = path.below[1].state
  local k = check(a, "bearing", "J2")    -- two plies
  near(k.demand, 766.7)
  near(k.demand / (3.0 * 3.5), 73.0)
  near(k.ratio, 73.0 / 625)
  k = check(a, "bearing", "J1")          -- one ply, pressed more: 466.7/(1.5 x 3.5)
  near(k.ratio, 88.9 / 625)
  lu.assertEquals(a.governing_check, k)
  near(path.below[1].most, 300.0)
  lu.assertAlmostEquals(path.below[1].added, 0, 1e-6)    -- taken off J3 and J4
  local page = path:text {steps = "none"}
  lu.assertStrContains((page:gsub("%s+", " ")), "most more at J2: 300 lb")
  lu.assertStrContains((page:gsub("%s+", " ")), "what is under it")
  -- a weaker plate fails and says so
  local weak = {Fb = 900, Fv = 180, E = 1.6e6, Fc_perp = 70, source = "given"}
  local over = headed():load_path {below = {left = ns.plate {size = "2x4",
    material = weak}}}
  lu.assertEquals(over.below[1].state.status, "overstressed")
  -- 3 in and more from the end of the plate: Cb = (l_b + 0.375)/l_b along its grain
  local inner = headed():load_path {below = {left = ns.plate {size = "2x4",
    material = WOOD, from_end = 3}}}
  near(inner.below[1].state.ratio, 88.9 / 625 / ((1.5 + 0.375) / 1.5))
end

-- Every figure of the girder's table read off the page: joists by statics, posts by
-- moments, two pieces that meet on the middle post.
function T.test_girder_on_posts_read_off_the_page()
  local girder = ns.beam_line {mark = "G1", size = "2x10", plies = 3, material = WOOD,
    posts = {"J1", "J6"}, post = ns.post {size = "4x4", material = WOOD, length = "7-6",
      footing = ns.footing {soil = "2000 psf", thickness = 10}}}
  local path = headed():load_path {below = {right = girder}}
  local page = path:text {steps = "none"}
  local w = 66.6667 * 14 / 2
  local on = {J1 = w, J2 = 677.8, J3 = 300.0, J4 = 300.0, J5 = 677.8, J6 = w}
  local y = {J1 = 0, J2 = 16, J3 = 32, J4 = 48, J5 = 64, J6 = 80}
  -- tails of J3 and J4 on the right wall: 66.667 plf over 92 in, less half on the header
  on.J3 = 66.6667 / 12 * 92 / 2
  on.J4 = on.J3
  local sum, M, seen = 0, 0, 0
  local rows = rows_under(page, "G1 under the right bearings")
  for _, c in ipairs(rows) do
    local mark = c[1]:match "^joist (J%d)$"
    if mark then
      seen = seen + 1
      lu.assertAlmostEquals(tonumber(c[3]), on[mark], 0.6, mark)
      sum, M = sum + on[mark], M + on[mark] * y[mark]
    end
  end
  lu.assertEquals(seen, 6)
  lu.assertAlmostEquals(tonumber(rows[7][2]), sum, 0.6)
  lu.assertAlmostEquals(tonumber(rows[8][3]), sum - M / 80, 0.6)
  lu.assertAlmostEquals(tonumber(rows[9][3]), M / 80, 0.6)
  lu.assertAlmostEquals(tonumber(rows[10][2]), sum, 0.6)
  -- its moment at the middle bay, by hand; all that leaves goes into the ground
  local a = path.below[1].state
  local at = sum / 2 * 32 - on.J1 * 32 - on.J2 * 16
  near(check(a, "bending").demand, at)
  lu.assertAlmostEquals(path.ground.D + path.ground.L, path.ends.D + path.ends.L,
    1e-9 * (path.ends.D + path.ends.L))
  lu.assertNotNil(a.posts[1].under)
  near(check(a, "bearing", "J2 on the girder").demand, 677.8)
  lu.assertStrContains(path:plot(), ("G1-P1: %.0f"):format(sum - M / 80))
  lu.assertStrContains(path:json(), '"under":"right bearings"')
end

-- A stud takes all within its spacing: joists at 16 in on studs at 24 in, two of them,
-- 468 lb each (52 psf, 13-6), and 400 plf x 2 ft from above.
function T.test_stud_wall()
  local wall = ns.wall {plate = ns.plate {size = "2x4", material = WOOD}, spacing = 24,
    stud = ns.post {size = "2x4", material = WOOD, length = "7-6", braced = {b = 24}},
    above = "400 plf"}
  local path = floor(6):load_path {below = {left = wall}}
  local a = path.below[1].state
  near(a.load.D + a.load.L, 2 * 468 + 800)
  local k = check(a, "column")
  near(k.demand, 1736)
  -- F_c* 1350, l_e/d = 90/3.5: as the post of that height, by hand
  local r = 0.822 * 580000 / (90 / 3.5) ^ 2 / 1350
  local CP = (1 + r) / 1.6 - math.sqrt(((1 + r) / 1.6) ^ 2 - r / 0.8)
  near(k.capacity, 1350 * CP * 1.5 * 3.5)
  near(check(a, "bearing", "plate").demand, 468)
  local wide = floor(6):load_path {below = {left = ns.wall {plate = ns.plate {
    size = "2x4", material = WOOD}, spacing = 16, stud = ns.post {size = "2x4",
    material = WOOD, length = "7-6"}, above = "0 plf"}}}
  near(wide.below[1].state.load.D + wide.below[1].state.load.L, 468)
  lu.assertStrContains(path:text(), "what it stands on")
end

function T.test_wrong_entries_below()
  local f = floor(4)
  local function says(piece, t)
    lu.assertErrorMsgContains(piece, function() f:load_path {below = t} end)
  end
  local plate = ns.plate {size = "2x4", material = WOOD}
  says("left, right, or the number", {top = plate})
  says("ns.plate{...}, ns.wall{...} or", {left = ns.post {size = "4x4", length = 90}})
  says("the floor has no bearings 2", {[2] = plate})
  says("follows from the joists", {left = ns.plate {size = "2x4", load = 300}})
  says("follows from the bearings", {left = ns.beam_line {size = "2x10", at = 20,
    posts = {0, 48}}})
  says("above: missing", {left = ns.wall {plate = plate, spacing = 16,
    stud = ns.post {size = "2x4", length = 90}}})
  lu.assertErrorMsgContains("under a floor", function()
    ns.wall {plate = plate}:review()
  end)
end

------------------------------------------------------------------------- sole and head

-- 2925 lb of a 4x4 on a flat plate: 238.8 psi on 405 psi of Hem-Fir, and with Cb (3.5 +
-- 0.375)/3.5 away from its end; a plate narrower than the post is pressed on its width.
function T.test_sole_and_head_plates()
  local soft = {Fb = 850, Fv = 150, E = 1.3e6, Fc_perp = 405, source = "given"}
  local function post(sole)
    return ns.post {size = "4x4", material = WOOD, length = "7-6", load = 2925,
      sole = sole}:review()
  end
  local a = post(ns.plate {size = "2x6", material = soft})
  near(a.sole.ratio, 2925 / (3.5 * 3.5) / 405)
  near(post(ns.plate {size = "2x6", material = soft, from_end = 6}).sole.ratio,
    238.8 / 405 / (3.875 / 3.5))
  near(post(ns.plate {b = 1.5, d = 2.5, material = soft}).sole.ratio,
    2925 / (2.5 * 3.5) / 405)
  lu.assertStrContains(a:text(), "sole plate 2x6 laid flat")
  lu.assertStrContains(a:json(), '"plate')
  local rated = ns.post {capacity = "5000 lb", load = 2925, end_plate = {4, 6},
    head = ns.plate {size = "2x6", material = soft}}:review()
  near(rated.head.ratio, 2925 / (4 * 5.5) / 405)
  local unknown = ns.post {capacity = "5000 lb", load = 2925,
    head = ns.plate {size = "2x6", material = soft}}:review()
  lu.assertEquals(unknown.head.status, "not assessed")
  near(ns.plate {size = "2x6", material = soft, post = {3.5, 3.5}, load = 2925}:review()
    .ratio, 238.8 / 405)
end

function T.test_shores_on_sole_plates()
  local soft = {Fb = 850, Fv = 150, E = 1.3e6, Fc_perp = 60, source = "given"}
  local f = floor(8, nil, {[4] = {cuts = {ns.sever {from = 72, to = 77}}}})
  local function shores(sole)
    return f:shores {mark = "J4", at = {60, 90}, construction_live = "25 psf", beside = 2,
      capacity = "1500 lb", sole = sole, end_plate = sole and {2.5, 2.5} or nil,
      beam = ns.beam_line {size = "4x8", material = WOOD}}
  end
  local s = shores(ns.plate {size = "2x8", material = WOOD})
  local p = s.lines[1].state.posts[1]
  near(p.state.sole.checks[1].demand, p.D + p.most)
  near(p.state.sole.ratio, (p.D + p.most) / 6.25 / 625)
  lu.assertStrContains(s:text(), "what the sole plates lie on")
  lu.assertStrContains(s:text(), "sole adequate")
  lu.assertStrContains(shores():text(), "sole plates (sole = ns.plate{...})")
  -- 449 lb on 6.25 in2 of 60 psi is too much for two posts, 300 lb each of three is not
  local more = shores(ns.plate {size = "2x8", material = soft})
  lu.assertTrue(#more.lines[1].state.posts > #s.lines[1].state.posts)
end

------------------------------------------------------------- over a beam: stubs, repairs

-- The stubs of a joist cut through at 72 to 77 in, on beams at 60 and 90. The left one:
-- 60 in and 14.5 in beyond; M between with live load on the span alone, over the beam
-- with all of it; Cr 1.0 (statics, NDS 3.3).
function T.test_stubs_over_two_beams()
  local f = floor(6, nil, {[4] = {cuts = {ns.sever {from = 72, to = 77}}}})
  local function line(mark, at)
    return ns.beam_line {mark = mark, at = at, size = "2x10", plies = 2, material = WOOD,
      posts = {"J1", "J6"}}
  end
  local path = f:load_path {beams = {line("B1", 60), line("B2", 90)}}
  local D, L = 12 * 16 / 144, 40 * 16 / 144
  local by = {}
  for _, q in ipairs(path.over) do by[q.mark] = q end
  for mark, s in pairs {["J4, left stub"] = {60, 14.5},
    ["J4, right stub"] = {72, 15.5}} do
    local q = by[mark]
    lu.assertNotNil(q, mark)
    local w, l, c = D + L, s[1], s[2]
    local R = w * l / 2 - D * c ^ 2 / (2 * l)
    local hog = w * c ^ 2 / 2
    local S, found = 1.5 * 9.25 ^ 2 / 6, {}
    for _, k in ipairs(q.checks) do
      if k.mode == "bending" then found[#found + 1] = k end
    end
    near(found[1].demand, R ^ 2 / (2 * w), 0.005)
    near(found[1].capacity, 990 * S, 0.005)
    near(found[2].demand, hog, 0.005)
    lu.assertEquals(q.status, "adequate")
  end
  lu.assertStrContains(path:text(), "J4, left stub")
end

-- A repaired joist is reviewed over the beam as if its repair were not there.
function T.test_a_repaired_joist_over_a_beam()
  local f = floor(5, nil, {[3] = {cuts = {ns.hole {at = 40, diameter = 3}}}})
  local sister = ns.sister {size = "2x10", material = WOOD, pitch = 6,
    fastener = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "3 in"}}
  local beam = ns.beam_line {mark = "B1", at = 81, size = "2x10", plies = 2,
    material = WOOD, posts = {"J1", "J5"}}
  local with = f:fix("J3", sister):load_path {beams = {beam}}
  local plain = f:load_path {beams = {beam}}
  local function of(path, mark)
    for _, q in ipairs(path.over) do
      if q.mark == mark then return q end
    end
  end
  local a, b = of(with, "J3, without its repair"), of(plain, "J3")
  lu.assertEquals({a.status, a.ratio, a.governing}, {b.status, b.ratio, b.governing})
end

------------------------------------------------------------------- header, off the page

-- Figures of the page of a headed floor by hand: two out, tails 60 and 92 in, the floor
-- between on top (tails 211.1 and 300.0 lb a joist); trimmers 766.7 and 677.8 lb.
function T.test_headers_read_off_the_page()
  local page = headed():load_path():text {steps = "none"}
  local rows = rows_under(page, "Headers: tails")
  lu.assertEquals(#rows, 2)
  for i, tail in ipairs {211.1, 300.0} do
    lu.assertAlmostEquals(tonumber(rows[i][2]), 2 * tail, 0.6)
    lu.assertEquals({rows[i][3], rows[i][5]}, {"J2", "J5"})
    lu.assertAlmostEquals(tonumber(rows[i][4]), tail, 0.6)
    lu.assertAlmostEquals(tonumber(rows[i][6]), tail, 0.6)
  end
  local whole, tails = 66.6667 * 14, {66.6667 / 12 * 60 / 2, 66.6667 / 12 * 92 / 2}
  local wanted = {J1 = {whole / 2, whole / 2}, J2 = {766.7, 677.8}, J3 = tails,
    J4 = tails, J5 = {766.7, 677.8}, J6 = {whole / 2, whole / 2}}
  local mark, n, sum = nil, 0, 0
  for _, c in ipairs(rows_under(page, "Joists: own load")) do
    if c[1]:find "^J%d" then
      mark, n = table.remove(c, 1), 0
      lu.assertAlmostEquals(tonumber(table.remove(c, 1)), whole, 0.6)
    end
    if c[1] == "bearing" then
      n = n + 1
      lu.assertAlmostEquals(tonumber(c[5]), wanted[mark][n], 0.6, mark)
      lu.assertAlmostEquals(tonumber(c[3]) + tonumber(c[4]), tonumber(c[5]), 1.1)
      lu.assertAlmostEquals(tonumber(c[6]), wanted[mark][n] - whole / 2, 0.6, mark)
      sum = sum + wanted[mark][n]
    end
  end
  near(sum, 6 * whole, 1e-3)
  local sums = rows_under(page, "Sums, lb")
  lu.assertAlmostEquals(tonumber(sums[1][2]), 6 * whole, 0.6)
  lu.assertAlmostEquals(tonumber(sums[#sums][2]), 6 * whole, 0.6)
end

-- With --pdf the load path is among the pages that become PDF.
function T.test_load_path_is_a_page_of_the_package()
  local dir <close> = drawing.folder()
  local f = floor(4)
  local names = assert(ns.package.write(f:review(), dir.path, {load_path = f:load_path(),
    render = false}))
  local set = {}
  for _, name in ipairs(names) do set[name] = true end
  lu.assertTrue(set["load-path.html"])
  local pdf = require "netsection.pdf"
  local texts = pdf.texts
  local given
  pdf.texts = function(list)
    given = list
    return nil, "not now"
  end
  local ok = pcall(ns.package.files, f:review(), {load_path = f:load_path(), pdf = true})
  pdf.texts = texts
  lu.assertTrue(ok)
  lu.assertStrContains(given[#given], "Load path: Workroom")
end

return T
