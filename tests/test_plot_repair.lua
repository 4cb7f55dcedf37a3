-- SPDX-License-Identifier: MIT
--- Diagrams of repaired joists. The subjects are stand-ins with exact statics: a simple
-- span, M = w x (L - x) / 2, whose moment goes over to a sister between two groups of
-- fasteners each side of a gap; and two equal spans with -w L^2 / 8 over the middle.

local drawing = require "tests.drawing"
local lu = require "luaunit"
local plot = require "netsection.plot"
local support = require "tests.support"

local tests = {}

---------------------------------------------------------------------------
-- Stand-ins
---------------------------------------------------------------------------

local DEAD, LIVE, SPAN = 1.333, 4.444, 162     -- lb/in, in
local SAG, HOG, SHEAR = 24353, 20000, 1665     -- lb-in, lb

-- Places with two at each of `steps`, the right-hand one marked.
local function places(from, to, steps)
  local list = {}
  for i = 0, 54 do list[#list + 1] = {from + (to - from) * i / 54, 0} end
  for _, x in ipairs(steps) do
    list[#list + 1] = {x, -1}
    list[#list + 1] = {x, 1}
  end
  table.sort(list, function(a, b)
    if a[1] ~= b[1] then return a[1] < b[1] end
    return a[2] < b[2]
  end)
  return list
end

local function share_at(cuts, x, side)
  local share = 1
  for _, c in ipairs(cuts) do
    if (x > c.x1 or x == c.x1 and side > 0) and (x < c.x2 or x == c.x2 and side < 0) then
      share = math.min(share, c.share)
    end
  end
  return share
end

-- Points of forces(w, x, side) -> M, V.
local function points(at, forces, cuts)
  local list = {}
  for i, place in ipairs(at) do
    local x, side = place[1], place[2]
    local M, V = forces(DEAD + LIVE, x, side)
    local Md, Vd = forces(DEAD, x, side)
    local share = share_at(cuts, x, side)
    list[i] = {
      x = x, M = M, V = V, M_max = math.max(M, Md), M_min = math.min(M, Md),
      V_max = math.max(V, Vd), V_min = math.min(V, Vd), M_cap = SAG * share,
      M_cap_neg = HOG * share, V_cap = SHEAR * share,
    }
  end
  return list
end

local function simple(w, x)
  return w * x * (SPAN - x) / 2, w * (SPAN / 2 - x)
end

local function two_spans(w, x, side)
  local L = SPAN / 2
  local R = w * L / 2 - w * L / 8
  if x < L or x == L and side <= 0 then return R * x - w * x * x / 2, R - w * x end
  local y = SPAN - x
  return R * y - w * y * y / 2, w * y - R
end

-- What a sister between groups at lo, li, ri, ro carries, all load between li and ri.
local function sister_of(lo, li, ri, ro)
  return function(w, x, side)
    if x < lo or x == lo and side < 0 or x > ro or x == ro and side > 0 then
      return 0, 0
    elseif x < li or x == li and side < 0 then
      local F = simple(w, li) / (li - lo)
      return F * (x - lo), F
    elseif x > ri or x == ri and side > 0 then
      local F = simple(w, ri) / (ro - ri)
      return F * (ro - x), -F
    end
    return simple(w, x)
  end
end

local function edges(cuts)
  local list = {}
  for _, c in ipairs(cuts) do
    list[#list + 1] = c.x1
    list[#list + 1] = c.x2
  end
  return list
end

local function diagram(cuts, governing)
  local at = places(0, SPAN, edges(cuts))
  return {
    mark = "J6", title = "2x10 at 16 in", start = 0, finish = SPAN,
    supports = {0, SPAN}, cuts = cuts, peaks = true, governing = governing,
    uncut = points(at, simple, {}), cut = points(at, simple, cuts),
  }
end

local function cut(name, kind, x1, x2, share)
  return {name = name, kind = kind, x1 = x1, x2 = x2, at = (x1 + x2) / 2, share = share,
    label = ("%s %g in"):format(kind, x2 - x1)}
end

-- A sister (or plates, each with its part) from x1 to x2, with groups at `groups`.
local function sistered(d, x1, x2, groups, names)
  local sister = sister_of(table.unpack(groups))
  local steps = edges(d.cuts)
  for _, x in ipairs(groups) do steps[#steps + 1] = x end
  local function host(w, x, side)
    local M, V = simple(w, x)
    local m, v = sister(w, x, side)
    return M - m, V - v
  end
  local members = {
    {name = "joist, as repaired", points = points(places(0, SPAN, steps), host, d.cuts)},
  }
  local function part(w, x, side)
    local m, v = sister(w, x, side)
    return m / #names, v / #names
  end
  for i, name in ipairs(names) do
    members[i + 1] = {name = name, points = points(places(x1, x2, groups), part, {})}
  end
  d.fixed = {title = "part-length sister 2x10, 3-0 to 9-5", x1 = x1, x2 = x2,
    stations = groups, members = members, peaks = true}
  return d
end

local CASES = {}

function CASES.sister()
  local d = sistered(diagram({
    cut("sever 1", "sever", 72, 77, 0), cut("hole 2", "hole", 107.625, 108.375, 0.97),
  }, {x = 74.5, ratio = math.huge, mode = "net-bending"}), 36, 113, {39, 69, 80, 110},
    {"sister"})
  d.fixed.governing = {x = 110, ratio = 0.68, mode = "host-bending", member = "host"}
  return d
end

function CASES.plates()
  local d = sistered(diagram({
    cut("hole 2", "hole", 30, 34, 0.8), cut("hole 3", "hole", 36, 38, 0.9),
    cut("notch 1", "notch", 70, 76, 0.45), cut("hole 4", "hole", 120, 124, 0.75),
  }, {x = 73, ratio = 1.6, mode = "net-bending"}), 60, 86, {62, 69, 77, 84},
    {"plate, left face", "plate, right face"})
  d.fixed.governing = {x = 69, ratio = 0.91, mode = "fasteners",
    member = "plate, left face"}
  return d
end

function CASES.post()
  local cuts = {cut("notch 1", "notch", 79, 83, 0.7)}
  local d = diagram(cuts, {x = 81, ratio = 1.1, mode = "net-bending"})
  d.fixed = {
    title = "mid-span support at 6-9", x1 = 79.25, x2 = 82.75, supports = {0, 81, 162},
    members = {{name = "joist over the new support",
      points = points(places(0, SPAN, {79, 81, 83}), two_spans, cuts)}},
    governing = {x = 81, ratio = 0.33, mode = "bending", member = "host"},
  }
  return d
end

local BOTH = {"moment", "shear"}

local function subject(d)
  return {diagram = function() return d end}
end

local function each(f)
  for _, name in ipairs {"plates", "post", "sister"} do
    for _, kind in ipairs(BOTH) do f(name .. " " .. kind, kind, CASES[name]) end
  end
end

---------------------------------------------------------------------------
-- Reading a script
---------------------------------------------------------------------------

-- The parts of a script that draw one frame each.
local function panels(script)
  local list = {}
  for part in script:gmatch("# One frame of repair%.gp.-\nunset object") do
    list[#list + 1] = part
  end
  return list
end

-- Rows of numbers of a data block.
local function rows(panel, name)
  local list = {}
  for row in panel:match("%$" .. name .. " << EOD\n(.-)EOD\n"):gmatch("[^\n]+") do
    local cells = {}
    for cell in row:gmatch("%S+") do cells[#cells + 1] = tonumber(cell) end
    list[#list + 1] = cells
  end
  return list
end

local function greatest(list, column)
  local most = list[1]
  for _, row in ipairs(list) do
    if row[column] > most[column] then most = row end
  end
  return most
end

---------------------------------------------------------------------------
-- Tests
---------------------------------------------------------------------------

function tests.test_gnuplot_draws_every_case_without_a_word()
  drawing.need_gnuplot()
  local dir <close> = drawing.folder()
  each(function(name, kind, case)
    local script = plot[kind](subject(case()), {output = "d.png"})
    drawing.assert_draws(dir, name, script, "d.png", "\x89PNG")
    script = plot[kind](subject(case()), {output = "d.svg", size = {8, 12}})
    drawing.assert_draws(dir, name, script, "d.svg", "<?xml")
  end)
end

function tests.test_a_frame_for_the_joist_as_it_is_and_for_each_member()
  local count = {sister = 3, plates = 4, post = 2}
  each(function(name, kind, case)
    local list = panels(plot[kind](subject(case())))
    lu.assertEquals(#list, count[name:match("^%a+")], name)
    for _, panel in ipairs(list) do
      local _, plots = panel:gsub("\nplot ", "")
      lu.assertEquals(plots, 1, name)
    end
  end)
end

-- M = w x (L - x) / 2 of a simple span: at 110 in, where the sister stops, and at 80 in,
-- its greatest. Places in ft, moments in ft-lb.
function tests.test_members_have_their_own_moment_and_capacity()
  local list = panels(plot.moment(subject(CASES.sister())))
  local host = greatest(rows(list[2], "cut"), 2)
  local sister = greatest(rows(list[3], "cut"), 2)
  local w = DEAD + LIVE
  support.close_abs(host[1], 110 / 12, 1e-5)
  support.close_abs(host[2], w * 110 * 52 / 2 / 12, 0.005)
  support.close_abs(sister[2], w * 80 * 82 / 2 / 12, 0.005)
  lu.assertEquals(rows(list[3], "cut")[1][5], 2029.42)        -- 24353 / 12
  for _, row in ipairs(rows(list[2], "cut")) do
    if row[1] > 72 / 12 and row[1] < 77 / 12 then lu.assertEquals(row[5], 0) end
  end
end

function tests.test_captions_read_the_points()
  local script = plot.moment(subject(CASES.sister()))
  -- 5.777 * 110 * 52 / 2 / 12 = 1376.9
  lu.assertStrContains(script, "'joist, as repaired (up to 1377 ft-lb at 9'")
  lu.assertStrContains(script, "'As it is (up to 1579 ft-lb at 6'")
  local d = CASES.sister()
  d.fixed.peaks = nil
  lu.assertStrContains(plot.moment(subject(d)), "'joist, as repaired'")
end

-- w L^2 / 8 over the middle of two spans of 81 in.
function tests.test_hogging_over_a_new_support()
  local list = panels(plot.moment(subject(CASES.post())))
  lu.assertStrContains(list[1], "hogging = 0")
  lu.assertStrContains(list[2], "hogging = 1")
  local least = 0
  for _, row in ipairs(rows(list[2], "cut")) do least = math.min(least, row[2]) end
  support.close_abs(least, -(DEAD + LIVE) * 81 ^ 2 / 8 / 12, 0.005)
end

-- Steel plates carry many times what they are asked for: 1e6 / 12 = 83333 ft-lb.
function tests.test_a_capacity_far_above_the_demand_is_stated_not_drawn()
  local d = CASES.plates()
  for _, p in ipairs(d.fixed.members[2].points) do p.M_cap, p.M_cap_neg = 1e6, 1e6 end
  local list = panels(plot.moment(subject(d)))
  lu.assertStrContains(list[3], "capacity 83333 ft-lb or more, beyond the frame")
  lu.assertTrue(tonumber(list[3]:match("set yrange %[%S+:(%S+)%]")) < 1000)
  lu.assertNotStrContains(list[4], "beyond the frame")
  lu.assertTrue(tonumber(list[4]:match("set yrange %[%S+:(%S+)%]")) > 2000)
end

function tests.test_supports_of_the_repaired_joist_are_its_own()
  local list = panels(plot.moment(subject(CASES.post())))
  local _, before = list[1]:gsub("set object polygon", "")
  local _, after = list[2]:gsub("set object polygon", "")
  lu.assertEquals(before, 2)
  lu.assertEquals(after, 3)
  lu.assertStrContains(list[2], "set object polygon from 6.75000,")
end

function tests.test_the_extent_has_end_marks_and_a_tick_at_each_station()
  local list = panels(plot.moment(subject(CASES.sister())))
  local bar = "from 3%.00000,screen %S+ to 9%.41667,screen %S+ nohead"
  local _, bars = list[2]:gsub(bar, "")
  lu.assertEquals(bars, 1)
  for _, x in ipairs {"3.25000", "5.75000", "6.66667", "9.16667"} do
    lu.assertStrContains(list[2], ("from %s,screen [%%d.]+ to %s,screen [%%d.]+ nohead "
      .. "lw 0.8"):format(x, x), true)
  end
  for i = 2, 3 do                      -- the ends run down through all repaired frames
    lu.assertStrContains(list[i], "to 9%.41667,screen %S+ nohead lw 1%.0", true)
  end
  lu.assertNotStrContains(list[1], "to 9%.41667,screen %S+ nohead lw 1%.0", true)
end

function tests.test_stations_may_be_records()
  local d = CASES.sister()
  local plain = plot.moment(subject(d))
  for i, x in ipairs(d.fixed.stations) do d.fixed.stations[i] = {x = x, n = 6} end
  lu.assertEquals(plot.moment(subject(d)), plain)
end

function tests.test_what_governs_is_ringed_on_its_member_or_named()
  local script = plot.moment(subject(CASES.sister()))
  lu.assertStrContains(script, "governs, as it is: net-bending, no capacity")
  lu.assertStrContains(script,
    "governs, repaired: bending of the existing joist, ratio 0.68")
  local list = panels(script)
  lu.assertStrContains(list[2], "ringed = 1")
  lu.assertStrContains(list[3], "ringed = 0")
  script = plot.moment(subject(CASES.plates()))
  lu.assertStrContains(script,
    "'Governs, repaired: fasteners of the plate, left face, ratio 0.91 at 5'")
end

-- The depth that counts at a row of fasteners is none of the capacities drawn.
function tests.test_connection_shear_is_not_ringed()
  local d = CASES.sister()
  d.fixed.governing = {x = 110, ratio = 0.9, mode = "connection-shear", member = "sister"}
  lu.assertStrContains(plot.shear(subject(d)),
    "'Governs, repaired: connection-shear of the sister")
end

function tests.test_without_members_the_diagram_is_that_of_the_joist_as_it_is()
  local d = CASES.sister()
  d.fixed.members = {}
  local refused = plot.moment(subject(d))
  d.fixed = nil
  lu.assertEquals(refused, plot.moment(subject(d)))
end

function tests.test_members_past_the_ends_are_shown()
  local d = CASES.sister()
  d.fixed.members[2].points[1].x = -6
  for _, panel in ipairs(panels(plot.moment(subject(d)))) do
    local low = tonumber(panel:match("set xrange %[(%S+):"))
    lu.assertTrue(low < -0.5)
  end
end

function tests.test_hostile_text_is_text()
  drawing.need_gnuplot()
  local dir <close> = drawing.folder()
  for _, text in ipairs(drawing.HOSTILE) do
    local d = CASES.plates()
    d.fixed.title, d.fixed.governing.mode, d.fixed.governing.member = text, text, text
    for _, member in ipairs(d.fixed.members) do member.name = text end
    local script = plot.moment(subject(d), {output = "d.svg"})
    drawing.assert_draws(dir, text:sub(1, 30), script, "d.svg", "<?xml")
    lu.assertNil(drawing.read_file(dir.path .. "/ran"), text)
  end
end

function tests.test_user_text_stands_in_single_quotes_only()
  for _, text in ipairs(drawing.HOSTILE) do
    local d = CASES.sister()
    d.fixed.title, d.fixed.members[2].name = text .. "Qz9", text .. "Qz9"
    for line in plot.moment(subject(d)):gmatch("[^\n]+") do
      local outside = line:gsub("'[^']*'", "")
      lu.assertNotStrContains(outside, "Qz9", false, line)
      lu.assertNotStrContains(outside, "'", false, line)
    end
  end
end

function tests.test_data_blocks_hold_numbers_only()
  each(function(name, kind, case)
    plot[kind](subject(case())):gsub("%$%w+ << EOD\n(.-)EOD\n", function(block)
      lu.assertNil(block:find("[^-0-9. \n]"), name)
    end)
  end)
end

function tests.test_the_same_joist_gives_the_same_bytes_and_stays_as_it_is()
  each(function(name, kind, case)
    local d = case()
    local before = lu.prettystr(d)
    local script = plot[kind](subject(d))
    lu.assertEquals(script, plot[kind](subject(case())), name)
    lu.assertEquals(lu.prettystr(d), before, name)
    lu.assertNil(script:find("@%u+@"), name)
  end)
end

function tests.test_a_low_page_is_refused()
  support.raises("the height must be at least", plot.moment, subject(CASES.plates()),
    {size = {6.5, 5}})
end

function tests.test_wording_claims_nothing()
  each(function(_, kind, case)
    local script = plot[kind](subject(case())):lower()
    lu.assertStrContains(script, "not a sealed design")
    for _, word in ipairs {"certif", "safe", "approv", "guarant"} do
      lu.assertNotStrContains(script, word)
    end
  end)
end

return tests
