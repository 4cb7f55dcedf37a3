-- SPDX-License-Identifier: MIT
-- Sections, plans, summaries and sheets of forces: what they show is where the
-- description says, to the scale that they name, and gnuplot draws them without a word.
local drawing = require "tests.drawing"
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local T = {}

local DFL = {Fb = 900, Ft = 575, Fv = 180, Fc = 1350, Fc_perp = 625, E = 1.6e6, CF = 1.1}
local BOLT = ns.fastener {kind = "bolt", diameter = "1/2 in"}

local function joist(cuts, changes)
  local t = {mark = "J3", size = "2x10", material = DFL, span = "13-6", spacing = 16,
    bearing = 3.5, dead = 12, live = 40, cuts = cuts}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.joist(t)
end

local function severed(side)
  return joist {ns.sever {from = "6-0", to = "6-5"}}:fix(ns.sister {from = "2-8",
    to = "10-0", side = side or "right", fastener = BOLT, groups = {{at = "3-2", n = 8},
      {at = "5-6", n = 8}, {at = "6-11", n = 8}, {at = "9-6", n = 8}}})
end

local function floor(changes)
  local t = {name = "Mill floor", size = "2x10", material = DFL, span = "13-6",
    spacing = 16, bearing = 3.5, dead = 12, live = 40, joists = {
      {mark = "A1"}, {mark = "A2", cuts = {ns.hole {at = "5-2", diameter = 4,
        below = 1.5}}},
      {mark = "A3", spacing = {16, 20}, cuts = {ns.notch {face = "top", from = "2-0",
        to = "2-4", depth = 2}, ns.end_notch {support = "left", face = "bottom",
        depth = 2.75}}},
      {mark = "A4", spacing = {20, 16}, cuts = {ns.sever {from = "6-0", to = "6-5"}}},
      {mark = "A5", cuts = {ns.loss {from = "4-0", to = "9-0", bottom = 0.25,
        cause = "char"}, ns.split {from = "10-0", to = "11-0", at_depth = 4}}},
      {mark = "A6", member = "I-joist"}, {mark = "A7", overhang_right = "2-0", cuts = {
        ns.slot {from = "3-0", to = "3-8", height = 4, below = 2.5}}},
    }, obstructions = {ns.obstruction {what = "drain", kind = "drain", joist = "A4",
      at = "6-2", y = 1.5, diameter = 3.5, movable = "no"}}}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.floor(t)
end

---------------------------------------------------------------------------
-- Reading a script
---------------------------------------------------------------------------

-- Rows of numbers of a data block in parts, none where nothing is drawn of it.
local function block(script, name)
  local list = {}
  if script:match("has_" .. name .. " = (%d)") == "0" then return list end
  local text = script:match("%$" .. name .. " << EOD\n(.-)EOD\n")
  for part in (text .. "\n"):gmatch "(.-\n)\n" do
    local rows = {}
    for row in part:gmatch "[^\n]+" do
      local cells = {}
      for cell in row:gmatch "%S+" do cells[#cells + 1] = tonumber(cell) end
      rows[#rows + 1] = cells
    end
    list[#list + 1] = rows
  end
  return list
end

local function extent(rows)
  local e = {math.huge, -math.huge, math.huge, -math.huge}
  for _, p in ipairs(rows) do
    e[1], e[2] = math.min(e[1], p[1]), math.max(e[2], p[1])
    e[3], e[4] = math.min(e[3], p[2]), math.max(e[4], p[2])
  end
  return e
end

-- Inches of the joist to an inch of paper, along and up, by the frame of the view.
local function scales(script, width, height)
  local function side(name) return tonumber(script:match("set " .. name
    .. " at screen (%S+)")) end
  local function range(name)
    local low, high = script:match("set " .. name .. " %[(%S+):(%S+)%]")
    return tonumber(high) - tonumber(low)
  end
  return range "xrange" / ((side "rmargin" - side "lmargin") * width),
    range "yrange" / ((side "tmargin" - side "bmargin") * height)
end

-- Width and height of the sheet of a script for an SVG, in in.
local function sheet_size(script)
  local w, h = script:match "set terminal svg size (%d+),(%d+)"
  return tonumber(w) / 96, tonumber(h) / 96
end

local function assert_to_scale(script)
  local N = tonumber(script:match "scale 1:(%d+)")
  local along, up = scales(script, sheet_size(script))
  support.close(along, N, 2e-3, "along")
  support.close(up, N, 4e-3, "up")
end

---------------------------------------------------------------------------
-- Sections
---------------------------------------------------------------------------

-- Two rectangles of 1.5 and 3.75 in about their own centroid: 5.482 in up (statics).
function T.test_section_shows_what_is_left_and_its_axis()
  local script = ns.plot.section(joist {ns.hole {at = "5-2", diameter = 4,
    below = 1.5}}, {output = "a.svg"})
  assert_to_scale(script)
  local wood = block(script, "wood")
  lu.assertEquals(extent(wood[1]), {-0.75, 0.75, 0, 1.5})
  lu.assertEquals(extent(wood[2]), {-0.75, 0.75, 5.5, 9.25})
  lu.assertEquals(extent(block(script, "slothidden")[1]), {-0.75, 0.75, 1.5, 5.5})
  local y = (1.5 * 0.75 + 3.75 * (5.5 + 3.75 / 2)) / (1.5 + 3.75)
  support.close(block(script, "axis")[1][1][2], y, 1e-4)
  lu.assertStrContains(script, "5.48 in up")
  lu.assertStrContains(script, "bottom fiber, S 14.15 in3")
  lu.assertStrContains(script, "top fiber, S 20.58 in3")
end

function T.test_section_is_at_the_place_asked_for()
  local j = joist {ns.hole {at = "5-2", diameter = 4, below = 1.5},
    ns.notch {face = "bottom", from = "9-0", to = "9-4", depth = 1}}
  local function script(at) return ns.plot.section(j, {at = at, output = "a.svg"}) end
  lu.assertEquals(extent(block(script "9-2", "wood")[1]), {-0.75, 0.75, 1, 9.25})
  lu.assertEquals(extent(block(script "2-0", "wood")[1]), {-0.75, 0.75, 0, 9.25})
  lu.assertStrContains(script "9-2", "Section, joist J3 at 9")
end

-- Wood lost on all faces: 1 by 8.5 in are left of 1.5 by 9.25.
function T.test_section_of_a_loss()
  local script = ns.plot.section(joist({ns.loss {from = "4-0", to = "9-0", bottom = 0.5,
    top = 0.25, sides = 0.25, cause = "char"}}), {output = "a.svg"})
  lu.assertEquals(extent(block(script, "wood")[1]), {-0.5, 0.5, 0.5, 9})
  lu.assertEquals(#block(script, "loss"), 4)
  support.close(block(script, "axis")[1][1][2], 0.5 + 8.5 / 2, 1e-6)
  lu.assertStrContains(script, "4.75 in up")
  lu.assertStrContains(script, ("S %.2f in3"):format(1 * 8.5 ^ 2 / 6))
end

function T.test_section_shows_the_repair_on_its_side()
  for side, y in pairs {right = {0.75, 2.25}, left = {-2.25, -0.75}} do
    local script = ns.plot.section(severed(side), {output = "a.svg"})
    lu.assertEquals(extent(block(script, "near")[1]), {y[1], y[2], 0, 9.25}, side)
    lu.assertEquals(#block(script, "wood"), 0)
    lu.assertStrContains(script, "cut through")
  end
end

-- At a row the shanks are heavy; four bolts or three go through both.
function T.test_section_shows_the_fasteners_of_the_row()
  local r = severed():review()
  local x = r.fixed.layout[1].x
  local count = 0
  for _, f in ipairs(r.fixed.layout) do
    if math.abs(f.x - x) < 1e-6 then count = count + 1 end
  end
  local script = ns.plot.section(r, {at = x, output = "a.svg"})
  local shanks = block(script, "shank")
  lu.assertEquals(#shanks, 2 * count)
  lu.assertEquals(extent(shanks[1]), {-0.75, 2.25, r.fixed.layout[1].h,
    r.fixed.layout[1].h})
end

function T.test_section_refuses_what_it_cannot_show()
  local r = joist({}):review()
  local script, problem = ns.plot.section(r, {at = "20-0"})
  lu.assertNil(script)
  lu.assertStrContains(problem, "past the end of the joist")
  script, problem = ns.plot.section(joist({}, {member = "I-joist"}))
  lu.assertNil(script)
  lu.assertStrContains(problem, "manufactured member")
  support.raises("at: ", ns.plot.section, r, {at = "x"})
  support.raises("a review or a joist expected", ns.plot.section, 5)
  support.raises("options are output, size and title", ns.plot.shear, r, {at = 5})
end

---------------------------------------------------------------------------
-- Plans
---------------------------------------------------------------------------

-- Centre lines at 0, 16, 32, 52 ... across: the second gap is the one measured as 20.
function T.test_plan_has_each_joist_in_its_place()
  local script = ns.plot.floor_plan(floor(), {output = "a.svg"})
  assert_to_scale(script)
  local edges, ys = block(script, "edge"), {}
  for _, e in ipairs(edges) do
    local at = extent(e)
    ys[#ys + 1] = -(at[3] + at[4]) / 2
  end
  -- the joist that is cut through is in two parts
  lu.assertEquals(ys, {0, 16, 32, 52, 52, 68, 84, 100})
  lu.assertEquals(extent(edges[8])[2], 162 + 24)
  lu.assertEquals({extent(edges[4])[2], extent(edges[5])[1]}, {72, 77})
end

function T.test_plan_marks_cuts_by_kind_and_place()
  local script = ns.plot.floor_plan(floor(), {output = "a.svg"})
  local where = {hole = {62, -16}, top = {26, -32}, sever = {74.5, -52},
    slot = {40, -100}}
  for kind, p in pairs(where) do
    lu.assertEquals(block(script, kind)[1][1], p, kind)
  end
  local loss = extent(block(script, "loss")[1])
  lu.assertEquals({loss[1], loss[2]}, {48, 108})
  lu.assertEquals(#block(script, "endbottom"), 1)
  lu.assertEquals(#block(script, "split"), 1)
end

-- By shape, by words and by shade.
function T.test_plan_says_what_comes_next_in_three_ways()
  local f = floor()
  local review = f:review()
  local script = ns.plot.floor_plan(review, {output = "a.svg"})
  local shown = 0
  local letters = {leave = "L", justify = "J", decide = "D", ["repair"] = "R",
    refer = "X"}
  for action, letter in pairs(letters) do
    local _, count = script:gsub("label '" .. letter
      .. "' at [-%d.]+,[-%d.]+ noenhanced center font title_font", "")
    lu.assertEquals(count, review.actions[action], action)
    lu.assertStrContains(script, "label '" .. letter .. "' at screen")  -- in the key
    shown = shown + #block(script, action)
  end
  lu.assertEquals(shown, 8)
  lu.assertStrContains(script, "'repair: cut through'")
  lu.assertStrContains(script, "'refer'")
  lu.assertStrContains(script, "'leave: 0.78'")
end

function T.test_plan_shows_what_stands_in_the_way()
  local script = ns.plot.floor_plan(floor(), {output = "a.svg"})
  lu.assertStrContains(script, "(1) drain; moving it: move a drain or vent, plumber; "
    .. "not to be moved")
  local at = extent(block(script, "thing")[1])
  support.close((at[1] + at[2]) / 2, 74, 1e-6)
  support.close((at[3] + at[4]) / 2, -52 - 1.5, 1e-6)
end

function T.test_marks_of_close_joists_do_not_overlap()
  local list = {}
  for i = 1, 30 do list[i] = {mark = "M" .. i, spacing = 6} end
  local script = ns.plot.floor_plan(floor {joists = list, obstructions = {}},
    {output = "a.svg"})
  local N, last = tonumber(script:match "scale 1:(%d+)"), nil
  for i = 1, 30 do
    local h = tonumber(script:match("set label 'M" .. i .. "' at %S-,(%S+)"))
    if last then lu.assertTrue(last - h >= 0.15 * N, i) end
    last = h
  end
end

---------------------------------------------------------------------------
-- Summaries and sheets of forces
---------------------------------------------------------------------------

function T.test_summary_shows_the_ratios_beside_one()
  local review = floor():fix("A4", severed().repair.given):review()
  local script = ns.plot.floor_summary(review, {output = "a.svg"})
  lu.assertEquals(block(script, "cut")[1][2],
    {tonumber(("%.4f"):format(review.joists.A2.cut.ratio)), 2})
  lu.assertEquals(block(script, "fixed")[1][1],
    {tonumber(("%.4f"):format(review.joists.A4.fixed.ratio)), 4})
  lu.assertEquals(block(script, "through")[1][1][2], 4)
  lu.assertStrContains(script, "$one << EOD\n1 0.5\n1 7.5\nEOD")
  lu.assertStrContains(script, "repair: cut through; TRIAL, NOT TO BE BUILT")
end

function T.test_sheet_has_shear_over_moment()
  local script = ns.plot.sheet(severed(), {output = "a.svg"})
  local names = {}
  for name in script:gmatch "# One frame of repair%.gp: ([^\n]*)%." do
    names[#names + 1] = name
  end
  lu.assertEquals(names, {"shear, as it is", "shear, member 1 of the repaired joist",
    "shear, member 2 of the repaired joist", "moment, as it is",
    "moment, member 1 of the repaired joist", "moment, member 2 of the repaired joist"})
  local plain = ns.plot.sheet(joist {ns.hole {at = "5-2", diameter = 4}},
    {output = "a.svg"})
  lu.assertStrContains(plain, "any_repaired = 0")
  lu.assertStrContains(plain, "Least V, lb")
  lu.assertStrContains(plain, "Least M, ft-lb")
end

---------------------------------------------------------------------------
-- Scripts
---------------------------------------------------------------------------

local function cases()
  local cut = joist {ns.notch {face = "top", from = "2-0", to = "2-4", depth = 2}}
  local strap = joist {ns.notch {face = "bottom", from = "6-0", to = "6-5",
    depth = 1.75}}:fix(ns.strap {cut = 1, gauge = 14, width = 1.5})
  return {
    section = {ns.plot.section, cut}, strap = {ns.plot.section, strap},
    sister = {ns.plot.section, severed "left"}, plan = {ns.plot.floor_plan, floor()},
    plies = {ns.plot.section, joist({}, {plies = 3})},
    one = {ns.plot.floor_plan, floor {joists = {{mark = "A4"}}}},
    summary = {ns.plot.floor_summary, floor()}, sheet = {ns.plot.sheet, severed()},
    plain = {ns.plot.sheet, cut},
  }
end

function T.test_gnuplot_draws_every_case_without_a_word()
  drawing.need_gnuplot()
  local dir <close> = drawing.folder()
  for name, case in pairs(cases()) do
    for ending, signature in pairs {svg = "<?xml", png = "\137PNG"} do
      local output = name .. "." .. ending
      drawing.assert_draws(dir, output, case[1](case[2], {output = output}), output,
        signature)
    end
  end
end

function T.test_same_input_same_bytes()
  local one, other = cases(), cases()
  for name, case in pairs(one) do
    lu.assertEquals(case[1](case[2], {output = "a.svg"}),
      other[name][1](other[name][2], {output = "a.svg"}), name)
  end
end

function T.test_a_floor_is_expected()
  local j = joist {}
  local message = support.raises("a floor or its review expected", ns.plot.floor_plan, 5)
  lu.assertStrContains(message, "plot.floor_plan")
  support.raises("a floor or its review expected", ns.plot.floor_summary, j:review())
  support.raises("the height must be at least", ns.plot.floor_plan, floor(),
    {size = {8, 2}})
  support.raises("the height must be at least", ns.plot.floor_summary, floor(),
    {size = {8, 1}})
end

return T
