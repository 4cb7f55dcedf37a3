-- SPDX-License-Identifier: MIT
--- Elevations: what a layout says of a joist, and that the drawing is to scale. Places
-- and sizes are worked out from the descriptions; where the core states the place of a
-- cut, both must agree.

local drawing = require "tests.drawing"
local layout = require "netsection.layout"
local lu = require "luaunit"
local ns = require "netsection"
local outline = require "netsection.plot.outline"
local support = require "tests.support"

local tests = {}

---------------------------------------------------------------------------
-- Joists and repairs
---------------------------------------------------------------------------

local function joist(changes)
  local t = {
    mark = "J6", size = "2x10", species = "douglas fir-larch", grade = "No.2",
    spacing = 16, bearing = 3.5, dead = 12, live = 40,
  }
  for name, value in pairs(changes) do t[name] = value end
  if not t.spans then t.span = t.span or "13-6" end
  return ns.joist(t)
end

-- Subject of an elevation; `fixed` is what a review of a repaired joist holds.
local function subject(j, fixed)
  local review = j:review()
  review.fixed = fixed
  return {layout = function() return layout.of(review) end}
end

local function grid(xs, hs, D, piece)
  local list = {}
  for _, x in ipairs(xs) do
    for _, h in ipairs(hs) do
      list[#list + 1] = {x = x, h = h, D = D, piece = piece}
    end
  end
  return list
end

local CASES = {}

function CASES.cuts()
  return subject(joist {cuts = {
    ns.notch {face = "top", from = "2-0", to = "2-4", depth = "1-1/2 in"},
    ns.hole {at = "6-0", diameter = 4, below = "2-3/8 in"},
    ns.end_notch {support = "left", face = "bottom", depth = 2.25, length = 5},
    ns.slot {from = "8-0", to = "8-8", height = 3},
  }})
end

function CASES.every_kind()
  return subject(joist {overhang_right = 24, cuts = {
    ns.notch {face = "bottom", from = "2-0", to = "2-10", depth = "1-1/2 in",
      overcut = 0.75, taper = 2, split_length = 5},
    ns.hole {at = "4-0", diameter = 2, below = "1 in", angle = 30},
    ns.hole {at = "6-0", diameter = 4, above = "2-3/8 in"},
    ns.slot {from = "6-10", to = "7-6", height = 3},
    ns.end_notch {support = "left", face = "top", depth = 2, length = 5},
    ns.sever {from = "9-0", to = "9-5"},
    ns.loss {from = "10-6", to = "11-6", top = 0.5, bottom = 0.25, sides = 0.25,
      cause = "rot"},
    ns.split {from = "12-0", to = "14-0", at_depth = 3},
  }})
end

function CASES.uncut() return subject(joist {}) end

function CASES.crowded()
  local cuts = {}
  for i = 1, 8 do cuts[i] = ns.hole {at = 30 + 4 * i, diameter = i % 2 + 1} end
  return subject(joist {span = "20-0", cuts = cuts})
end

function CASES.two_spans()
  return subject(joist {spans = {"14-0", "16-0"}, size = "2x12", cuts = {
    ns.notch {face = "top", from = "13-8", to = "14-3", depth = 1.5},
    ns.hole {at = "4-0", from_right = true, diameter = 3},
  }})
end

local SISTER = {name = "sister", kind = "wood", size = "2x10", length = 77, x1 = 36,
  x2 = 113, h1 = 0, h2 = 9.25, y1 = 0.75, y2 = 2.25}

local function severed()
  return joist {cuts = {
    ns.sever {from = "6-0", to = "6-5"}, ns.hole {at = "9-0", diameter = "3/4 in"},
  }}
end

function CASES.sister()
  return subject(severed(), {
    title = "part-length sister 2x10, 3-0 to 9-5", pieces = {SISTER},
    fasteners = {{fastener = "1/4 x 3 in lag screws", count = 24, where = "to joist"}},
    layout = grid({39, 42, 66, 69, 80, 83, 107, 110}, {2, 4.625, 7.25}, 0.25, 1),
  })
end

function CASES.full_length_behind()
  local xs = {1, 5}
  for i = 0, 19 do xs[#xs + 1] = 5 + 8 * i end
  return subject(joist {cuts = {ns.hole {at = "9-0", diameter = 2}}}, {
    title = "full-length sister", layout = grid(xs, {2, 7.25}, 0.131, 1),
    pieces = {{name = "sister", kind = "wood", size = "2x10", length = 165.5,
      x1 = -1.75, x2 = 163.75, h1 = 0, h2 = 9.25, y1 = -2.25, y2 = -0.75}},
  })
end

function CASES.plates_and_strap()
  local list = grid({62, 64.5, 67, 79, 81.5, 84}, {2, 7}, 0.5, 1)
  for _, f in ipairs(grid({42, 44, 46, 98, 100, 102}, {0}, 0.19, 3)) do
    list[#list + 1] = f
  end
  local plate = {name = "plate", kind = "steel", x1 = 60, x2 = 86, h1 = 0.5, h2 = 8.5,
    size = "1/4 x 8", length = 26}
  local function on(y1, y2)
    local p = {y1 = y1, y2 = y2}
    for name, value in pairs(plate) do p[name] = value end
    return p
  end
  return subject(joist {cuts = {
    ns.notch {face = "bottom", from = "5-10", to = "6-4", depth = 2.5},
  }}, {title = "side plates, strap and block", layout = list, pieces = {
    on(0.75, 1), on(-1, -0.75),
    {name = "strap", kind = "steel", x1 = 40, x2 = 104, h1 = -0.125, h2 = 0, y1 = -0.75,
      y2 = 0.75, size = "1-1/2 x 1/8", length = 64},
    {name = "block", kind = "block", x1 = 70, x2 = 76, h1 = 0, h2 = 2.5, y1 = -0.75,
      y2 = 0.75, length = 6},
  }})
end

function CASES.header()
  local function at(x)
    return {name = "header", kind = "header", x1 = x, x2 = x + 3, h1 = 0, h2 = 9.25,
      size = "2x10", count = 2, length = 32}
  end
  return subject(joist {cuts = {ns.sever {from = "6-0", to = "6-10"}}}, {
    title = "headed off between J5 and J7", pieces = {at(69), at(82),
      {name = "trimmer", kind = "wood", x1 = -1.75, x2 = 163.75, h1 = 0, h2 = 9.25,
        y1 = 16, y2 = 17.5, of = "J5", size = "2x10", length = 165.5}}})
end

function CASES.post()
  return subject(joist {cuts = {
    ns.notch {face = "top", from = "6-7", to = "6-11", depth = 1.5},
  }}, {title = "mid-span support", pieces = {
    {name = "beam", kind = "header", x1 = 79.25, x2 = 82.75, h1 = -9.25, h2 = 0,
      size = "4x10"},
    {name = "post", kind = "post", x1 = 79.25, x2 = 82.75, h1 = -96, h2 = -9.25,
      size = "4x4", length = 86.75},
  }})
end

local function each(f)
  local names = {}
  for name in pairs(CASES) do names[#names + 1] = name end
  table.sort(names)
  for _, name in ipairs(names) do f(name, CASES[name]) end
end

---------------------------------------------------------------------------
-- Reading a script
---------------------------------------------------------------------------

local function views(script)
  local list = {}
  for part in script:gmatch("# One view of drawing%.gp.-\nunset object") do
    list[#list + 1] = part
  end
  return list
end

-- Lines of a data block, each a list of rows of numbers; none where it is not drawn.
local function block(view, name)
  local list = {}
  if view:match("has_" .. name .. " = (%d)") == "0" then return list end
  local text = view:match("%$" .. name .. " << EOD\n(.-)EOD\n")
  for part in (text .. "\n"):gmatch("(.-\n)\n") do
    local line = {}
    for row in part:gmatch("[^\n]+") do
      local cells = {}
      for cell in row:gmatch("%S+") do cells[#cells + 1] = tonumber(cell) end
      line[#line + 1] = cells
    end
    list[#list + 1] = line
  end
  return list
end

local function setting(view, name)
  return tonumber(view:match("set " .. name .. " at screen (%S+)"))
end

local function range(view, name)
  local low, high = view:match("set " .. name .. " %[(%S+):(%S+)%]")
  return tonumber(high) - tonumber(low)
end

-- Inches of the joist to an inch of paper, along and up; 96 dots of the SVG are an inch.
local function scales(script, view)
  local wide, high = script:match("set terminal svg size (%d+),(%d+)")
  return range(view, "xrange") / (setting(view, "rmargin") - setting(view, "lmargin"))
    / (wide / 96),
    range(view, "yrange") / (setting(view, "tmargin") - setting(view, "bmargin"))
    / (high / 96)
end

local function svg(case)
  return ns.plot.elevation(case(), {output = "d.svg"})
end

local function area(line)
  local sum = 0
  for i = 2, #line do
    sum = sum + line[i - 1][1] * line[i][2] - line[i][1] * line[i - 1][2]
  end
  return math.abs(sum) / 2
end

---------------------------------------------------------------------------
-- Layout
---------------------------------------------------------------------------

-- A notch of the description and its place in the core: nothing here is merged.
function tests.test_cuts_stand_where_the_core_has_them()
  local j = joist {cuts = {
    ns.notch {face = "top", from = "2-0", to = "2-4", depth = 1.5, overcut = 0.25},
    ns.hole {at = "5-0", diameter = 2, angle = 30, below = 3},
    ns.hole {at = "6-0", diameter = 3, above = 2, from_right = true},
    ns.slot {from = "3-0", to = "3-6", height = 3, from_right = true},
    ns.end_notch {support = "left", face = "bottom", depth = 2, length = 5},
    ns.end_notch {support = "right", face = "top", depth = 1, length = 6},
  }}
  local review = j:review()
  for i, cut in ipairs(layout.of(review).cuts) do
    local core = review.cuts[i]
    lu.assertNil(core.merged, cut.name)
    support.close_abs(cut.x1, core.x1, 1e-9, cut.name)
    support.close_abs(cut.x2, core.x2, 1e-9, cut.name)
    support.close_abs(cut.h1, core.y1, 1e-9, cut.name)
    support.close_abs(cut.h2, core.y2, 1e-9, cut.name)
  end
end

function tests.test_a_layout_gives_the_ends_of_the_wood()
  local l = CASES.every_kind().layout()
  lu.assertEquals({l.start, l.finish, l.d}, {-1.75, 186, 9.25})
  lu.assertEquals(l.supports, {0, 162})
  lu.assertEquals(l.bearing, {3.5, 3.5})
  lu.assertEquals(CASES.two_spans().layout().supports, {0, 168, 360})
end

-- The core takes rot 12 in further each way and merges what lies close; a tape does not.
function tests.test_a_layout_holds_what_a_tape_measures()
  local l = subject(joist {cuts = {
    ns.notch {face = "bottom", from = "2-0", to = "2-4", depth = 1.5},
    ns.hole {at = 30, diameter = 2, below = 0.25},
    ns.loss {from = "10-0", to = "11-0", bottom = 1, cause = "rot"},
  }}).layout()
  lu.assertEquals({l.cuts[1].x1, l.cuts[1].x2, l.cuts[1].h2}, {24, 28, 1.5})
  lu.assertEquals({l.cuts[2].x1, l.cuts[2].x2, l.cuts[2].h1}, {29, 31, 0.25})
  lu.assertEquals({l.cuts[3].x1, l.cuts[3].x2}, {120, 132})
end

function tests.test_a_refused_fix_has_no_layout()
  lu.assertNil(subject(severed(), {refused = "no path", checks = {}}).layout().fix)
  lu.assertNil(CASES.cuts().layout().fix)
  local fix = CASES.sister().layout().fix
  lu.assertEquals(fix.pieces[1].label, "2x10 x 6-5")
  lu.assertEquals(fix.fasteners[1].label, "24 of 1/4 x 3 in lag screws, to joist")
end

-- What is gone from the side of 165.5 x 9.25 in: 4 x 1.5 at the top, 5 x 2.25 at the end.
function tests.test_the_outline_leaves_out_what_is_cut_from_the_edges()
  local list = outline.of(CASES.cuts().layout())
  lu.assertEquals(#list, 1)
  support.close(area(list[1]), 165.5 * 9.25 - 4 * 1.5 - 5 * 2.25)
end

-- 187.75 in of wood with a gap of 5 in; a notch 10 in long and 1.5 deep whose ends slope
-- over 3 in each (saw cuts past it take no area); an end notch of 5 x 2 in.
function tests.test_the_outline_of_a_severed_joist_has_two_parts()
  local list = outline.of(CASES.every_kind().layout())
  lu.assertEquals(#list, 2)
  support.close(area(list[1]) + area(list[2]),
    (187.75 - 5) * 9.25 - 1.5 * (10 - 3) - 5 * 2)
end

function tests.test_an_end_notch_sits_on_its_root()
  local l = CASES.cuts().layout()
  lu.assertEquals(outline.underside(l, 0), 2.25)
  lu.assertEquals(outline.underside(l, 162), 0)
end

---------------------------------------------------------------------------
-- Scale
---------------------------------------------------------------------------

function tests.test_one_scale_along_and_up_and_it_is_stated()
  each(function(name, case)
    local script = svg(case)
    for _, view in ipairs(views(script)) do
      local along, up = scales(script, view)
      local stated = tonumber(view:match("scale 1:(%d+) along and up"))
      support.close(along, stated, 1e-3, name)
      support.close(up, stated, 5e-3, name)           -- heights are whole dots
    end
  end)
end

function tests.test_holes_are_drawn_at_their_diameter()
  local view = views(svg(CASES.every_kind))[1]
  local holes = block(view, "hole")
  -- 2 in drilled at 30 degrees to the grain: 4 in along it, 1 in of wood below
  lu.assertEquals(holes[1][1], {48, 2, 4, 2})
  -- 4 in, 2-3/8 in of wood above: centre at 9.25 - 2.375 - 2
  lu.assertEquals(holes[2][1], {72, 4.875, 4, 4})
end

function tests.test_slots_losses_splits_and_saw_cuts_stand_in_their_places()
  local view = views(svg(CASES.every_kind))[1]
  lu.assertEquals(block(view, "slot")[1],
    {{82, 3.125}, {90, 3.125}, {90, 6.125}, {82, 6.125}, {82, 3.125}})
  local losses = block(view, "loss")
  lu.assertEquals(losses[1][1], {126, 8.75})
  lu.assertEquals(losses[2][3], {138, 0.25})
  lu.assertEquals(block(view, "sides")[1][3], {138, 8.75})
  local splits = block(view, "split")
  lu.assertEquals(splits[1], {{27, 1.5}, {27, 2.25}})       -- past the corner
  lu.assertEquals(splits[2], {{27, 1.5}, {22, 1.5}})        -- 5 in from it
  lu.assertEquals(splits[#splits], {{144, 6.25}, {168, 6.25}})
end

function tests.test_bearings_have_their_length()
  local bearings = block(views(svg(CASES.cuts))[1], "bearing")
  lu.assertEquals(#bearings, 2)
  lu.assertEquals({bearings[1][1][1], bearings[1][2][1]}, {-1.75, 1.75})
  lu.assertEquals(bearings[1][3][2], 2.25)                  -- root of the end notch
end

function tests.test_every_fastener_is_drawn_at_half_its_diameter()
  local list = views(svg(CASES.sister))
  for _, view in ipairs(list) do
    local fasteners = block(view, "fastener")
    lu.assertEquals(#fasteners, 24)
    for i, f in ipairs(CASES.sister().layout().fix.layout) do
      lu.assertEquals(fasteners[i][1], {f.x, f.h, f.D / 2})
    end
  end
  lu.assertEquals(#block(list[1], "cross"), 0)
  lu.assertEquals(#block(list[2], "cross"), 24)
end

function tests.test_strips_show_every_fastener_of_a_long_repair()
  local list = views(svg(CASES.full_length_behind))
  lu.assertEquals(#list, 3)
  local seen = {}
  for i = 2, 3 do
    for _, f in ipairs(block(list[i], "fastener")) do
      seen[("%g %g"):format(f[1][1], f[1][2])] = true
    end
  end
  for _, f in ipairs(CASES.full_length_behind().layout().fix.layout) do
    lu.assertTrue(seen[("%g %g"):format(f.x, f.h)], f.x)
  end
end

---------------------------------------------------------------------------
-- Pieces
---------------------------------------------------------------------------

function tests.test_new_wood_is_solid_in_front_and_dashed_behind()
  local view = views(svg(CASES.sister))[1]
  lu.assertEquals(block(view, "near")[1][1], {36, 0})
  lu.assertEquals(block(view, "near")[1][3], {113, 9.25})
  lu.assertEquals(#block(view, "far"), 0)
  view = views(svg(CASES.full_length_behind))[1]
  lu.assertEquals(#block(view, "near"), 0)
  lu.assertEquals(#block(view, "far"), 1)
end

function tests.test_a_hole_behind_new_wood_is_a_hidden_line()
  local view = views(svg(CASES.sister))[1]
  lu.assertEquals({#block(view, "hole"), #block(view, "holehidden")}, {0, 1})
  view = views(svg(CASES.full_length_behind))[1]
  -- through it the wood on the far face is seen
  lu.assertEquals({#block(view, "hole"), #block(view, "holefar"),
    #block(view, "holehidden")}, {0, 1, 0})
end

function tests.test_a_label_that_begins_with_the_name_stands_alone()
  local l = CASES.plates_and_strap().layout()
  l.fix.pieces[3].label = "strap 1-1/2 x 1/8"
  local script = ns.plot.elevation({layout = function() return l end})
  lu.assertStrContains(script, "'(3) strap 1-1/2 x 1/8, ")
  lu.assertStrContains(script, "'(4) block, 0-6 long, ")
end

function tests.test_a_piece_without_a_place_is_listed_only()
  local l = CASES.plates_and_strap().layout()
  l.fix.pieces[4].x1, l.fix.pieces[4].x2 = nil, nil
  local script = ns.plot.elevation({layout = function() return l end})
  lu.assertStrContains(script, "'(4) block, 0-6 long'")
  lu.assertEquals(#block(views(script)[1], "mark"), 0)
end

function tests.test_a_strap_is_a_band_and_a_block_has_a_diagonal()
  local view = views(svg(CASES.plates_and_strap))[1]
  lu.assertEquals(block(view, "steel")[1][1], {40, -0.125})
  lu.assertEquals(block(view, "mark")[1], {{70, 0}, {76, 2.5}})
end

function tests.test_headers_are_crossed_and_other_joists_are_listed_only()
  local script = svg(CASES.header)
  local view = views(script)[1]
  lu.assertEquals(#block(view, "near"), 2)
  lu.assertEquals(#block(view, "mark"), 4)
  lu.assertStrContains(script, "(3) trimmer, 2x10 x 13-9 1/2, at joist J5")
end

function tests.test_a_post_is_broken_off()
  local view = views(svg(CASES.post))[2]
  local post = block(view, "near")[2]
  lu.assertEquals(post[3][2], -9.25)
  lu.assertEquals(post[1][2], -14)
end

---------------------------------------------------------------------------
-- Words and dimensions
---------------------------------------------------------------------------

function tests.test_places_sizes_and_wood_left_are_stated()
  local script = svg(CASES.cuts)
  for _, text in ipairs {
    [['center at 6'."\047".'-0"']], [['4 in hole']], [['2 3/8" below, 2 7/8" above']],
    [['2'."\047".'-0" to 2'."\047".'-4"']], [['7 3/4" of 9 1/4"']],
    [['3 1/8" below, 3 1/8" above']], [['7" of 9 1/4"']],
  } do
    lu.assertStrContains(script, text)
  end
  lu.assertStrContains(svg(CASES.every_kind), [['8 1/2" of 9 1/4", 1/4" off each side']])
end

-- A running dimension to each edge, to the centre of a hole, and to the bearings.
function tests.test_running_dimensions_start_at_the_left_bearing()
  local view, count = views(svg(CASES.cuts))[1], 0
  for _ in view:gmatch("right rotate by 90") do count = count + 1 end
  lu.assertEquals(count, 2 + 2 + 1 + 1 + 2)
  lu.assertStrContains(view, "set label '0' at 0.", false)
end

-- 36 to 39, then 3, 24, 3, 11 in between the columns; edges 2 in, rows 2-5/8 in apart.
function tests.test_rows_of_fasteners_are_dimensioned()
  local view = views(svg(CASES.sister))[2]
  for _, text in ipairs {[['3"']], [['2'."\047".'-0"']], [['11"']], [['2"']],
    [['2 at 2 5/8"']], [[length 6'."\047".'-5"']]} do
    lu.assertStrContains(view, "set label .*" .. text:gsub("%p", "%%%0"), true)
  end
  -- 20 columns from 5 in at 8 in reach past the match line
  lu.assertStrContains(views(svg(CASES.full_length_behind))[2], [[ at 8"']])
end

function tests.test_a_distance_to_an_edge_is_not_counted_as_pitch()
  local view = views(svg(CASES.sister))[2]
  lu.assertNotStrContains(view, [['2 at 3"']])
end

function tests.test_crowded_cuts_get_letters_that_the_list_explains()
  local script = svg(CASES.crowded)
  for i = 1, 8 do
    local letter = ("ABCDEFGH"):sub(i, i)
    local _, count = script:gsub("set label '" .. letter .. "' at", "")
    lu.assertEquals(count, 2, letter)
  end
end

function tests.test_without_cuts_and_repair_there_is_no_list()
  local script = svg(CASES.uncut)
  lu.assertNotStrContains(script, "Wood left")
  lu.assertEquals(#views(script), 1)
end

---------------------------------------------------------------------------
-- Scripts
---------------------------------------------------------------------------

function tests.test_gnuplot_draws_every_case_without_a_word()
  drawing.need_gnuplot()
  local dir <close> = drawing.folder()
  each(function(name, case)
    local script = ns.plot.elevation(case(), {output = "d.png"})
    drawing.assert_draws(dir, name, script, "d.png", "\x89PNG")
    drawing.assert_draws(dir, name, svg(case), "d.svg", "<?xml")
  end)
  local script = ns.plot.elevation(CASES.sister(), {output = "d.pdf", size = {"16 in", 8},
    title = "Sheet 2"})
  drawing.assert_draws(dir, "pdf", script, "d.pdf", "%PDF")
end

local function hostile(text)
  local l = CASES.plates_and_strap().layout()
  l.mark, l.title, l.fix.title = text, text, text
  l.cuts[1].name, l.cuts[1].label = text, text
  l.fix.fasteners = {{label = text}}
  for _, piece in ipairs(l.fix.pieces) do piece.name, piece.label = text, text end
  l.fix.pieces[2].of = text
  return {layout = function() return l end}
end

function tests.test_hostile_text_is_text()
  drawing.need_gnuplot()
  local dir <close> = drawing.folder()
  for _, text in ipairs(drawing.HOSTILE) do
    local script = ns.plot.elevation(hostile(text), {output = "d.svg", title = text})
    local image = drawing.assert_draws(dir, text:sub(1, 30), script, "d.svg", "<?xml")
    lu.assertStrContains(image, "</svg>")
    lu.assertNil(drawing.read_file(dir.path .. "/ran"), text)
  end
end

function tests.test_user_text_stands_in_single_quotes_only()
  for _, text in ipairs(drawing.HOSTILE) do
    local script = ns.plot.elevation(hostile(text .. "Qz9"))
    for line in script:gmatch("[^\n]+") do
      local outside = line:gsub("'[^']*'", "")
      lu.assertNotStrContains(outside, "Qz9", false, line)
      lu.assertNotStrContains(outside, "'", false, line)
    end
    lu.assertNotNil(utf8.len(script), text)
  end
end

function tests.test_data_blocks_hold_numbers_only()
  each(function(name, case)
    svg(case):gsub("%$%w+ << EOD\n(.-)EOD\n", function(text)
      lu.assertNil(text:find("[^-0-9. \n]"), name)
    end)
  end)
end

function tests.test_the_same_joist_gives_the_same_bytes_and_stays_as_it_is()
  each(function(name, case)
    local l = case().layout()
    local before = lu.prettystr(l)
    local script = ns.plot.elevation({layout = function() return l end})
    lu.assertEquals(script, ns.plot.elevation(case()), name)
    lu.assertEquals(lu.prettystr(l), before, name)
    lu.assertNil(script:find("@%u+@"), name)
  end)
end

function tests.test_options_and_subjects_are_checked()
  support.raises("the width must be at least 7 in", ns.plot.elevation, CASES.cuts(),
    {size = {6.5, 5}})
  support.raises("the height must be at least", ns.plot.elevation, CASES.sister(),
    {size = {10, 3}})
  local message = support.raises("plot.elevation: a review or a joist expected, got a "
    .. "number", function() ns.plot.elevation(5) end)
  lu.assertStrContains(message, "test_elevation.lua:")
end

function tests.test_wording_claims_nothing()
  each(function(_, case)
    local script = svg(case):lower()
    lu.assertStrContains(script, "not a sealed design")
    for _, word in ipairs {"certif", "safe", "approv", "guarant"} do
      lu.assertNotStrContains(script, word)
    end
  end)
end

return tests
