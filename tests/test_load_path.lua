-- SPDX-License-Identifier: MIT
-- The way of the load into the ground. Values by hand and by independent computation:
-- two spans 3/8, 10/8, 3/8 w l; tails w x1/2 and w (L - x2)/2 with half of the floor
-- between the headers on each; stubs w c^2/(2 x_s).
local json = require "dkjson"
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local T = {}

local WOOD = {Fb = 900, Ft = 575, Fc = 1350, Fv = 180, E = 1.6e6, CF = 1.1,
  Fc_perp = 625, Emin = 580000, source = "given"}
local STRONG = {Fb = 3000, Fv = 400, E = 2e6, Fc_perp = 2000, source = "given"}
local GAP = {ns.sever {from = "6-0", to = "6-5"}}

local function near(found, wanted, rel)
  lu.assertAlmostEquals(found, wanted, (rel or 0.002) * math.abs(wanted))
end

local function floor(n, t, joists)
  local list = {}
  for i = 1, n do
    list[i] = {mark = "J" .. i}
    for name, value in pairs(joists and joists[i] or {}) do list[i][name] = value end
  end
  local all = {name = "Loft", size = "2x10", spacing = 16, span = "13-6", bearing = 3.5,
    dead = 12, live = 40, material = WOOD, joists = list}
  for name, value in pairs(t or {}) do all[name] = value end
  return ns.floor(all)
end

local function line(t)
  local all = {mark = "B1", at = "6-9", size = "2x10", plies = 2, material = WOOD,
    posts = {"J1", "J6"}, bearing = 3.5}
  for name, value in pairs(t or {}) do all[name] = value end
  return ns.beam_line(all)
end

local function stand(path, i, k) return path.joists[i].stands[k] end

local function all(q) return q.D + q.L end

local function balanced(path)
  lu.assertAlmostEquals(all(path.floor), all(path.ends), 1e-9 * all(path.floor))
  lu.assertAlmostEquals(all(path.ends) + path.beam_weight, all(path.ground),
    1e-9 * all(path.floor))
  local sum = 0
  for _, l in ipairs(path.lines) do sum = sum + all(l) end
  lu.assertAlmostEquals(sum, all(path.ends), 1e-9 * sum)
end

--------------------------------------------------------------------- beam under joists

-- 69.333 plf on 81 + 81 in: 585.0 lb a joist (D 135.0, L 450.0) on the beam, which has
-- M 2340 ft-lb, 0.663; 130.0 psi under a joist with Cb 1.125, 0.185 (by hand).
function T.test_beam_under_joists()
  local path = floor(6):load_path {beams = {line()}}
  for i = 1, 6 do
    near(stand(path, i, 2).D, 135)
    near(stand(path, i, 2).L, 450)
    near(all(stand(path, i, 1)), 3 / 8 * 69.3333 * 6.75)
  end
  local a = path.beams[1].state
  near(a.ratio, 0.663)
  for _, k in ipairs(a.checks) do
    if k.name and k.name:find "on the beam" then
      near(k.demand / (1.5 * 3), 130.0)
      near(k.ratio, 0.185, 0.003)
    end
  end
  near(path.lines["beam B1"].D + path.lines["beam B1"].L, 3510)
  balanced(path)
end

-- Inner post of two beams that meet: 2925 lb, on a footing of 17.50 in for 1500 psf.
function T.test_down_to_a_footing()
  local path = floor(11):load_path {beams = {line {posts = {"J1", "J6", "J11"},
    post = ns.post {size = "4x4", species = "dfl", grade = "No.2", length = "7-6",
      footing = ns.footing {soil = 1500, thickness = 10}}}}}
  local s = path.beams[1].state.posts[2]
  near(s.D + s.L, 2925)
  near(s.state.ratio, 0.377)
  near(s.under.side_needed, 17.50)
  balanced(path)
  local said = path:text()
  for _, what in ipairs {"2925", "frost", "What below was not checked", "NDS 3.7.1"} do
    lu.assertStrContains(said, what)
  end
end

-- A joist between two posts on a beam that sags: R = R_0/(1 + K f), f = l^3/(48 E I) of
-- the beam, K = 48 E I/L^3 of the joist on its bearings (statics).
function T.test_beam_that_sags()
  local path = floor(3, {spacing = 24}):load_path {beams = {line {size = "2x4",
    plies = 1, posts = {"J1", "J3"}}}}
  local a = path.beams[1].state
  local f = 48 ^ 3 / (48 * 1.6e6 * 1.5 * 3.5 ^ 3 / 12)
  local K = 48 * 1.6e6 * 1.5 * 9.25 ^ 3 / 12 / 162 ^ 3
  local R_0 = 10 / 8 * 52 * 2 * 6.75
  near(a.settled.reactions[2], R_0 / (1 + K * f), 1e-6)
  near(a.settled.sags[2], f * R_0 / (1 + K * f), 1e-6)
  local R, w = R_0 / (1 + K * f), 104 / 12
  local x = (w * 162 - R) / 2 / w
  near(a.settled.moment, (w * 162 - R) / 2 * x - w * x ^ 2 / 2, 1e-3)
  lu.assertStrContains(table.concat(a.notes), "over L/600 (ours)")
end

-- Cut through at 72 to 77 in: one beam leaves a stub on nothing, two hold both.
function T.test_stubs()
  local f = floor(6, nil, {[4] = {cuts = GAP}})
  local one = f:load_path {beams = {line()}}
  lu.assertStrContains(one:text(), "the left stub of J4 has nothing under its cut end")
  lu.assertEquals(one.refused[1].mark, "J4")
  balanced(one)
  local two = f:load_path {beams = {line {mark = "B1", at = 60}, line {mark = "B2",
    at = 90}}}
  lu.assertNil(two.refused)
  local w = 69.3333 / 12
  near(all(stand(two, 4, 2)), w * 74.5 ^ 2 / (2 * 60))
  near(all(stand(two, 4, 1)), w * 74.5 - w * 74.5 ^ 2 / (2 * 60))
  near(all(stand(two, 4, 3)), w * 87.5 ^ 2 / (2 * 72))
  balanced(two)
end

--------------------------------------------------------------------------------- headers

-- 14-0, 66.667 plf, headers at 60 and 76: n joists out between two trimmers. Tails with
-- half of the floor between 211.1 and 300.0 lb, trimmer R_A, R_B; two out: 300.0 lb more
-- at the left bearing, 73.0 psi on 3 x 3.5 in (by hand).
function T.test_headers_down_to_the_bearings()
  local wanted = {{105.6, 150.0, 616.7, 572.2}, {211.1, 300.0, 766.7, 677.8},
    {316.7, 450.0, 916.7, 783.3}}
  for n, w in ipairs(wanted) do
    local joists = {}
    for i = 2, n + 1 do joists[i] = {cuts = {ns.sever {from = 65, to = 71}}} end
    local f = floor(n + 2, {span = "14-0", dead = 10, live = 40, material = STRONG},
      joists)
    for i = 2, n + 1 do f = f:fix("J" .. i, ns.header {at = {60, 76}}) end
    local path = f:load_path()
    lu.assertEquals(#path.headers, 2)
    near(all(path.headers[1].left), w[1])
    near(all(path.headers[2].right), w[2])
    near(all(path.headers[1].left) + all(path.headers[1].right), n * 211.1)
    for _, i in ipairs {1, n + 2} do
      near(all(stand(path, i, 1)), w[3])
      near(all(stand(path, i, 2)), w[4])
    end
    near(stand(path, 1, 1).added, w[3] - 466.667)
    if n == 2 then
      near(stand(path, 1, 1).added, 300.0)
      near(all(stand(path, 1, 1)) / (stand(path, 1, 1).b * stand(path, 1, 1).l_b), 73.0)
    end
    lu.assertAlmostEquals(path.lines["left bearings"].added, 0, 1e-6)
    balanced(path)
  end
end

-- Tails of two plies stand on both of them: the joist before stood on 2 x 1-1/2 in.
function T.test_tails_of_two_plies_on_the_wall()
  local path = floor(3, {span = "14-0", plies = 2, material = STRONG}, {[2] = {cuts = {
    ns.sever {from = 65, to = 71}}}}):fix("J2", ns.header {at = {60, 76}}):load_path()
  for k = 1, 2 do
    lu.assertEquals({stand(path, 2, k).b, stand(path, 2, k).l_b}, {3, 3.5})
  end
end

-- The floor between the headers left out by a switch is shown as not counted.
function T.test_what_is_not_counted_is_shown()
  local f = floor(3, {material = STRONG}, {[2] = {cuts = GAP}}):fix("J2",
    ns.header {at = {60, 90}, between = "none"})
  local path = f:load_path()
  near(all(path.lines["not counted"]), 69.3333 * 2.5)
  balanced(path)
end

-- A joist that is out and not repaired: half of its load to each side, none under it.
function T.test_out_without_repair()
  local path = floor(3, nil, {[2] = {cuts = GAP}}):load_path()
  lu.assertEquals(#path.joists[2].stands, 0)
  near(all(stand(path, 1, 1)), 702)
  near(all(stand(path, 3, 2)), 702)
  lu.assertStrContains(path:text(), "carries nothing")
  balanced(path)
end

-- A repair that fails is not traced as if it stood.
function T.test_trial_is_not_traced()
  local path = floor(3, {live = 200}, {[2] = {cuts = GAP}}):fix("J2",
    ns.header {at = {60, 90}}):load_path()
  lu.assertStrContains(path:text(), "the repair of J2 is inadequate")
  lu.assertEquals(#path.headers, 0)
  balanced(path)
end

function T.test_support_of_a_repair()
  local path = floor(3):fix("J2", ns.midspan_support {at = 81}):load_path()
  near(all(stand(path, 2, 2)), 585)
  lu.assertStrContains(path:text(), "beam and posts under J2 at 6'-9\", 585 lb")
  balanced(path)
  -- a beam there takes its place, and is not a second support
  local beam = floor(3):fix("J2", ns.midspan_support {at = 81}):load_path {
    beams = {line {posts = {"J1", "J3"}}}}
  lu.assertEquals(#beam.joists[2].stands, 3)
  balanced(beam)
end

------------------------------------------------------------------------------ equilibrium

-- Whatever stands on the floor, what leaves the joists is what lies on them.
function T.test_sums_agree()
  local r = support.random(20261129)
  for _ = 1, 25 do
    local joists, n = {}, r:int(3, 9)
    for i = 1, n do
      joists[i] = {spacing = {r:real(10, 24), r:real(10, 24)}, loads = {
        ns.point {at = r:real(1, 160), load = r:real(10, 500)},
        ns.line {from = r:real(0, 40), to = r:real(50, 160), load = "55 plf",
          to_load = "9 plf", case = r:pick {"dead", "live"}}}}
    end
    if r:unit() < 0.5 then joists[r:int(2, n - 1)].cuts = GAP end
    local beams = {}
    for k = 1, r:int(0, 2) do
      beams[k] = line {mark = "B" .. k, at = k == 1 and r:real(20, 70) or r:real(80, 140),
        posts = {"J1", "J" .. n}, weight = r:unit() < 0.5 and "8 plf" or nil}
    end
    balanced(floor(n, {overhang_left = r:unit() < 0.3 and 20 or nil}, joists)
      :load_path {beams = beams})
  end
end

------------------------------------------------------------------------ the printed page

-- Rows of a table of the page under a caption: {{cell, ...}, ...}.
local function rows_under(page, caption)
  local from = page:find(caption, 1, true)
  lu.assertNotNil(from, caption)
  local text = page:sub(from):match "%-%-%-+\n(.-)\n\n"
  local rows = {}
  for l in text:gmatch "[^\n]+" do
    local cells = {}
    for cell in (l .. "  "):gmatch "(.-)  +" do
      if cell ~= "" then cells[#cells + 1] = cell end
    end
    rows[#rows + 1] = cells
  end
  return rows
end

local function lb(cell) return tonumber((cell:gsub(",", ""))) end

-- Every figure of the load path, read off the page and worked out again from the floor:
-- six joists, one bay of 20 in, over a beam at mid-span.
function T.test_the_page_by_hand()
  local page = floor(6, nil, {[3] = {spacing = {16, 20}}, [4] = {spacing = {20, 16}}})
    :load_path {beams = {line()}}:text {steps = "none"}
  local width = {16, 16, 18, 18, 16, 16}
  local n = 0
  local sums = {left = 0, beam = 0, right = 0, own = 0}
  for _, c in ipairs(rows_under(page, "Joists: own load")) do
    if c[1]:find "^J%d" then
      n = n + 1
      lu.assertEquals(table.remove(c, 1), "J" .. n)
      local own = 52 * width[n] / 12 * 13.5
      lu.assertAlmostEquals(lb(table.remove(c, 1)), own, 0.51)
      sums.own = sums.own + own
    end
    local q = width[n] / 12 * 6.75
    local k = c[1]:find "beam" and 10 / 8 or 3 / 8
    lu.assertAlmostEquals(lb(c[3]), 12 * q * k, 0.51)
    lu.assertAlmostEquals(lb(c[4]), 40 * q * k, 0.51)
    lu.assertAlmostEquals(lb(c[5]), 52 * q * k, 0.51)
    if k < 1 then
      lu.assertAlmostEquals(lb(c[6]), 52 * q * (3 / 8 - 1), 0.51)
      lu.assertAlmostEquals(lb(c[7]), 52 * q * k / (1.5 * 3.5), 0.51)
    end
    local where = c[1]:find "beam" and "beam" or c[2] == "0'-0\"" and "left" or "right"
    sums[where] = sums[where] + 52 * q * k
  end
  lu.assertEquals(n, 6)
  -- on the beam, 84 in from post to post; the posts by moments about the first
  local y, M, on = {0, 16, 32, 52, 68, 84}, 0, 0
  local rows = rows_under(page, "Beam B1 at 6'-9\"")
  for i = 1, 6 do
    local R = 10 / 8 * 52 * width[i] / 12 * 6.75
    lu.assertAlmostEquals(lb(rows[i][3]), R, 0.51)
    M, on = M + R * y[i], on + R
  end
  lu.assertAlmostEquals(lb(rows[7][2]), on, 0.51)
  lu.assertAlmostEquals(lb(rows[8][3]), on - M / 84, 0.51)
  lu.assertAlmostEquals(lb(rows[9][3]), M / 84, 0.51)
  lu.assertAlmostEquals(lb(rows[10][2]), on, 0.51)
  local list = {}
  for _, c in ipairs(rows_under(page, "Sums, lb")) do list[#list + 1] = lb(c[2]) end
  lu.assertEquals(#list, 6)
  for i, wanted in ipairs {sums.own, sums.left, sums.beam, sums.right,
    sums.left + sums.beam + sums.right, sums.own} do
    lu.assertAlmostEquals(list[i], wanted, 0.51)
  end
end

-- The diagram prints the figures of the page, and its sums.
function T.test_the_diagram_has_the_figures()
  local path = floor(6):load_path {beams = {line()}}
  local script = path:plot()
  for _, said in ipairs {"'176'", "'585'", "'J1  936'", "B1-P1: 1755", "'3510 lb'",
    "all joists 5616 lb = left bearings 1053 + beam B1 3510 + right bearings 1053"} do
    lu.assertStrContains(script, said)
  end
end

-- HTML names its numbers, and the JSON holds them.
function T.test_numbers_by_name()
  local path = floor(6):load_path {beams = {line {post = ns.post {size = "4x4",
    species = "dfl", grade = "No.2", length = 90, footing = ns.footing {soil = 1500,
    thickness = 10}}}}}
  local tree = json.decode(path:json())
  near(tree.beams[1].posts[1].total_lb, 1755)
  local count = 0
  for name, shown in path:html {steps = "all"}:gmatch 'data%-name="([^"]+)">([^<]+)<' do
    local v = tree
    for part in name:gsub("&#39;", "'"):gmatch "[^.]+" do
      v = v and (v[part] or v[tonumber(part)])
    end
    lu.assertEquals(type(v), "number", name)
    local n = tonumber((shown:gsub("[^%d.-]", "")))
    if n and not shown:find "'" then
      lu.assertTrue(math.abs(n - v) <= 0.01 * math.abs(v) + 0.51, name)
      count = count + 1
    end
  end
  lu.assertTrue(count > 80)
end

-- Spans of 48 and 114 in: the short one lifts. M over the beam w (a^3 + b^3)/(8 (a + b)),
-- R = w a/2 - M/a (statics).
function T.test_a_bearing_that_lifts_is_said()
  local path = floor(3):load_path {beams = {line {at = 48, posts = {"J1", "J3"}}}}
  local w, a, b = 69.3333 / 12, 48, 114
  local R = w * a / 2 - w * (a ^ 3 + b ^ 3) / (8 * (a + b)) / a
  lu.assertTrue(R < 0)
  near(all(stand(path, 1, 1)), R)
  lu.assertStrContains(path:text():gsub("%s+", " "),
    "lifts off left bearings: J1, J2, J3, up to 9 lb each")
  balanced(path)
end

---------------------------------------------------------------------- never a way to pass

-- The review of the floor stays as it is, and no line of the load path says that a joist
-- passes by what was put under it.
function T.test_the_review_stays()
  local f = floor(6, {live = 80}, {[3] = {cuts = GAP}})
  local before = ns.report.text(f:review())
  local path = f:load_path {beams = {line {at = 60}, line {mark = "B2", at = 100}}}
  lu.assertEquals(ns.report.text(path.review), before)
  lu.assertEquals(path.review.joists.J2.action, f:review().joists.J2.action)
  local page = path:text {steps = "all"}
  lu.assertStrContains(page:gsub("%s+", " "), "the review of the floor stays as it is")
  for l in page:gmatch "[^\n]+" do
    for _, word in ipairs {"leave", "justify", "passes"} do
      lu.assertNil(l:find("%f[%w]" .. word .. "%f[%W]"), l)
    end
  end
end

-- A package holds the load path where it is given.
function T.test_in_a_package()
  local path = floor(3):load_path {beams = {line {posts = {"J1", "J3"}}}}
  local found = {}
  for _, f in ipairs(ns.package.files(path.review, {load_path = path})) do
    found[f.name] = f.text
  end
  for _, name in ipairs {"load-path.html", "load-path.md", "load-path.json",
    "load-path.gp"} do
    lu.assertNotNil(found[name], name)
  end
  lu.assertEquals(found["load-path.gp"], ns.plot.load_path(path,
    {output = "load-path.svg"}))
  lu.assertErrorMsgContains("load_path", function()
    ns.package.files(path.review, {load_path = {}})
  end)
end

function T.test_wrong_entries()
  local function says(what, f)
    lu.assertErrorMsgContains(what, f)
  end
  says("unknown field 'beam'", function() floor(3):load_path {beam = {}} end)
  says("ns.beam_line", function() floor(3):load_path {beams = {{}}} end)
  says("at: missing", function()
    floor(3):load_path {beams = {ns.beam_line {size = "2x10", material = WOOD,
      posts = {0, 32}}}}
  end)
  says("no joist 'J9'", function()
    floor(3):load_path {beams = {line {from = "J9"}}}
  end)
  says("posts", function() floor(3):load_path {beams = {line {posts = {"J1", "J7"}}}} end)
end

-- The diagram stands on a printed page at its own size: a wider one would make a browser
-- print all of the page smaller. 8-1/2 in less margins of 0.675 in.
function T.test_the_diagram_is_as_wide_as_a_page()
  local script = floor(9, nil, {[6] = {cuts = GAP}}):load_path():plot {
    output = "a.svg"}
  local wide = tonumber(script:match "set terminal svg size (%d+)")
  lu.assertTrue(wide / 96 <= 7.15, wide)
end

return T
