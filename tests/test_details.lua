-- SPDX-License-Identifier: MIT
--- Details of repairs: that each kind gets its sheet, true to scale on its paper, with no
-- text on another; that all fasteners stand where the layout has them; and that nothing
-- is drawn as one to build that does not serve. Scripts are read here without the code
-- that laid them out.

local drawing = require "tests.drawing"
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"
local words = require "netsection.plot.words"

local tests = {}

---------------------------------------------------------------------------
-- Repairs
---------------------------------------------------------------------------

local BOLT = ns.fastener {kind = "bolt", diameter = "1/2 in"}
local LAG = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "3 in"}
local LONG_LAG = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "8 in"}
local SCREW = ns.fastener {kind = "wood screw", number = 14, length = "3 in"}
local NAIL = ns.fastener {kind = "nail", size = "10d"}
local PANEL = {Fb = 1200, Fv = 250, E = 1.2e6}

local function joist(changes)
  local t = {mark = "D1", size = "2x10", species = "douglas fir-larch", grade = "No.2",
    span = "13-0", spacing = 16, bearing = 3.5, dead = 12, live = 40}
  for name, value in pairs(changes) do t[name] = value end
  return ns.joist(t)
end

local function gap() return {ns.sever {from = "6-0", to = "6-5"}} end

local function groups(n)
  return {{at = "3-2", n = n}, {at = "5-6", n = n}, {at = "6-11", n = n},
    {at = "9-6", n = n}}
end

local function part(side, fastener, n)
  return ns.sister {from = "2-8", to = "10-0", side = side, fastener = fastener,
    groups = groups(n)}
end

local CASES = {
  part_sister = function() return joist {cuts = gap()}:fix(part("right", LAG, 10)) end,
  full_sister = function()
    return joist {cuts = {ns.hole {at = "6-0", diameter = 3}}}:fix(ns.sister {
      fastener = BOLT, pitch = 16, side = "left"})
  end,
  both_sides = function() return joist {cuts = gap()}:fix(part("both", BOLT, 4)) end,
  side_plates = function()
    return joist {live = 30, cuts = {ns.notch {face = "bottom", from = "5-4", to = "5-7",
      depth = 1}}}:fix(ns.side_plates {from = "2-6", to = "8-6", thickness = "23/32 in",
      pitch = 3, per_row = 3, material = PANEL, fastener = NAIL, lift = "unloaded"})
  end,
  strap = function()
    return joist {cuts = {ns.hole {at = "6-0", diameter = "1-3/4 in", below = "3/4 in"}}}
      :fix(ns.strap {gauge = 10, n = 14, pitch = "2-1/2 in", fastener = SCREW,
        lift = "unloaded"})
  end,
  header = function()
    return ns.floor {name = "Net loft", size = "2x10", species = "douglas fir-larch",
      grade = "No.2", span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
      joists = {{mark = "H1"}, {mark = "H2"}, {mark = "H3", cuts = gap()}, {mark = "H4"},
        {mark = "H5"}}}:joist("H3"):fix(ns.header {at = {"5-10", "6-7"},
      hanger = "600 lb", tail_hanger = "600 lb"})
  end,
  hanger = function()
    return joist {size = "2x8", species = "hem-fir", span = "11-6", cuts = {
      ns.end_notch {support = "left", face = "bottom", depth = 3}}}:fix(ns.hanger {
      support = "left", capacity = "600 lb"})
  end,
  midspan_support = function()
    return joist {cuts = {ns.hole {at = "4-0", diameter = 2}}}:fix(ns.midspan_support {
      at = "6-6"})
  end,
  added_joist = function()
    return joist {cuts = {ns.hole {at = "6-0", diameter = 3}}}:fix(ns.added_joist {
      side = "right"})
  end,
  notch_screws = function()
    return joist {size = "2x12", cuts = {ns.end_notch {support = "right",
      face = "bottom", depth = "2-3/4 in"}}}:fix(ns.notch_screws {support = "right",
      n = 2, fastener = LONG_LAG, full_thread = true})
  end,
}

local function each(f)
  local names = {}
  for name in pairs(CASES) do names[#names + 1] = name end
  table.sort(names)
  for _, name in ipairs(names) do f(name, CASES[name]():review()) end
end

---------------------------------------------------------------------------
-- Reading a script
---------------------------------------------------------------------------

-- An apostrophe is put into a text by its code.
local function unquoted(text)
  return (text:gsub([['%."\047"%.']], "'"))
end

-- Paper of a script for PDF, inches.
local function paper_of(script)
  local w, h = script:match "set terminal pdfcairo size ([%d.]+)in,([%d.]+)in"
  return {width = tonumber(w), height = tonumber(h)}
end

-- Views in order: where they stand on the paper, inches, and what range they show.
local function views_of(script, page)
  local list = {}
  for text in script:gmatch "# One view of drawing%.gp.-\nunset object" do
    local function edge(name) return tonumber(text:match("set " .. name
      .. " at screen (%S+)")) end
    local a, b = text:match "set xrange %[(%S+):(%S+)%]"
    local low, high = text:match "set yrange %[(%S+):(%S+)%]"
    local v = {text = text, left = edge "lmargin" * page.width,
      right = edge "rmargin" * page.width, bottom = edge "bmargin" * page.height,
      top = edge "tmargin" * page.height, a = tonumber(a), b = tonumber(b),
      low = tonumber(low), high = tonumber(high)}
    v.N = (v.b - v.a) / (v.right - v.left)
    v.N_up = (v.high - v.low) / (v.top - v.bottom)
    list[#list + 1] = v
  end
  return list
end

local CELL, HIGH = 0.075, 0.13      -- in: a digit of 8.5 points, a line of it

local function box_of(text, x, y, how)
  local w = words.width(text) * CELL * (how:find "title_font" and 1.14 or 1)
  local from = how:find "^center" and -w / 2 or how:find "^right" and -w or 0
  if how:find "rotate by 90" then
    return {text = text, x1 = x - HIGH / 2, x2 = x + HIGH / 2, y1 = y + from,
      y2 = y + from + w}
  end
  return {text = text, x1 = x + from, x2 = x + from + w, y1 = y - HIGH / 2,
    y2 = y + HIGH / 2}
end

local LABEL = "set label ('[^\n]-') at ([%w.,%s-]-) noenhanced ([^\n]*)"

-- Every text of a script as a box on the paper.
local function boxes_of(script)
  local page, list = paper_of(script), {}
  local function read(lines, place)
    for text, at, how in lines:gmatch(LABEL) do
      local x, y = at:match "^screen ([%d.-]+),screen ([%d.-]+)$"
      if x then
        x, y = x * page.width, y * page.height
      else
        x, y = at:match "^([%d.-]+),([%d.-]+)$"
        x, y = place(tonumber(x), tonumber(y))
      end
      list[#list + 1] = box_of(unquoted(text):sub(2, -2), x, y, how)
    end
  end
  local views = views_of(script, page)
  for _, v in ipairs(views) do
    read(v.text, function(x, y)
      return v.left + (x - v.a) / v.N, v.bottom + (y - v.low) / v.N_up
    end)
  end
  read((script:gsub("# One view of drawing%.gp.-\nunset object", "")), nil)
  return list, page, views
end

local function touching(list)
  for i, p in ipairs(list) do
    for j = i + 1, #list do
      local q = list[j]
      if p.x1 < q.x2 - 1e-3 and q.x1 < p.x2 - 1e-3 and p.y1 < q.y2 - 1e-3
        and q.y1 < p.y2 - 1e-3 then
        return ('"%s" on "%s"'):format(p.text, q.text)
      end
    end
  end
end

local function detail(review, options)
  options = options or {}
  options.output = options.output or "d.pdf"
  return assert(ns.plot.detail(review, options))
end

local function says(script, text)
  lu.assertStrContains(unquoted(script), text)
end

---------------------------------------------------------------------------
-- Scale, paper, texts
---------------------------------------------------------------------------

-- An architect's rule: so many inches of paper to a foot, 1:N = 12 over them.
local function named(text)
  local list = {}
  for words_, N in text:gmatch [[scale ([%d/ ]+)" = 1'%-0" %(1:(%d+)%)]] do
    local whole, over, under = words_:match "^(%d+) (%d+)/(%d+)$"
    if not whole then over, under = words_:match "^(%d+)/(%d+)$" end
    local inches = under and (whole or 0) + over / under or tonumber(words_)
    list[#list + 1] = {N = tonumber(N), by_words = 12 / inches}
  end
  return list
end

function tests.test_the_scale_that_is_printed_holds_on_the_paper()
  each(function(name, review)
    local script = detail(review, {paper = "letter"})
    local page = paper_of(script)
    support.close_abs(page.width, 8.5, 1e-9, name)
    support.close_abs(page.height, 11, 1e-9, name)
    local scales, views = named(unquoted(script)), views_of(script, page)
    lu.assertEquals(#scales, 2, name)
    lu.assertTrue(#views >= 2, name)
    for i, v in ipairs(views) do
      local said = scales[math.min(i, 2)]
      support.close(said.by_words, said.N, 0.01, name)
      support.close(v.N, said.N, 0.01, name .. ", along")
      support.close(v.N_up, said.N, 0.01, name .. ", up")
    end
  end)
end

-- The bars are 2 ft at 1:16 and 4 in at 1:4.
function tests.test_a_bar_to_scale_is_as_long_as_it_says()
  local script, found = detail(CASES.both_sides():review()), {}
  for from, to in script:gmatch
    "set arrow from ([%d.-]+),[%d.-]+ to ([%d.-]+),[%d.-]+ nohead lw 1.6" do
    found[#found + 1] = to - from
  end
  lu.assertEquals(#found, 2)
  support.close_abs(found[1], 24, 1e-3)
  support.close_abs(found[2], 4, 1e-3)
  says(script, "'2'-0\"'")
  says(script, "'4\"'")
end

-- No text smaller than 7 points: none has a size of its own, all have the sheet's.
function tests.test_texts_are_large_enough_to_read()
  each(function(name, review)
    local svg = detail(review, {output = "d.svg"})
    local points = tonumber(svg:match "font 'sans%-serif,([%d.]+)'") * 72 / 96
    lu.assertTrue(points >= 7, name)
    for how in svg:gmatch "noenhanced ([^\n]*)" do
      lu.assertNil(how:match "font '[^']*,", name)
    end
  end)
end

function tests.test_no_text_touches_another_or_leaves_the_paper()
  each(function(name, review)
    for _, paper in ipairs {"letter", "a4", "tabloid", "a3"} do
      local list, page = boxes_of(detail(review, {paper = paper}))
      lu.assertTrue(#list > 25, name)
      lu.assertNil(touching(list), name .. ", " .. paper)
      for _, b in ipairs(list) do
        lu.assertTrue(b.x1 > 0.2 and b.y1 > 0.2 and b.x2 < page.width - 0.2
          and b.y2 < page.height - 0.2, name .. ": " .. b.text)
      end
    end
  end)
end

-- The check can fail: a text that is put on another is found.
function tests.test_texts_on_one_another_are_found()
  local script = detail(CASES.hanger():review())
  local text, at = script:match "set label ('Parts') at (screen %S+ %S+)"
  lu.assertNotNil(touching(boxes_of(script .. ("\nset label %s at %s noenhanced left\n")
    :format(text, at))))
end

---------------------------------------------------------------------------
-- What is drawn
---------------------------------------------------------------------------

local function points(text, block)
  local list = {}
  for row in (text:match("%$" .. block .. " << EOD\n(.-)EOD") or ""):gmatch "[^\n]+" do
    local x, h = row:match "(%S+) (%S+)"
    list[#list + 1] = {tonumber(x), tonumber(h)}
  end
  return list
end

-- Every fastener of the layout stands in the elevation, at its place.
function tests.test_fasteners_stand_where_the_layout_has_them()
  each(function(name, review)
    local layout = review.fixed.layout
    local script = detail(review)
    local drawn = points(views_of(script, paper_of(script))[1].text, "fastener")
    if #layout == 0 then
      lu.assertStrContains(script, "has_fastener = 0")
      return
    end
    lu.assertEquals(#drawn, #layout, name)
    for i, f in ipairs(layout) do
      support.close_abs(drawn[i][1], f.x, 1e-3, name)
      support.close_abs(drawn[i][2], f.h, 1e-3, name)
    end
  end)
end

-- By hand: a sister from 2-8 to 10-0 is 7'-4"; its groups at 38, 66, 83 and 114 in, the
-- gap at 72 to 77: 6, 28, 6, 5, 6, 31 and 6 in add up to 88 in.
function tests.test_the_chain_of_a_sister_over_a_gap()
  local review = joist {cuts = gap()}:fix(part("both", BOLT, 4)):review()
  local script = detail(review)
  local elevation = views_of(script, paper_of(script))[1].text
  for _, text in ipairs {[['6"']], [['2'-4"']], [['5"']], [['2'-7"']],
    [['repair, length 7'-4"']]} do
    lu.assertStrContains(unquoted(elevation), text)
  end
  for _, place in ipairs {"2'-8\"", "6'-0\"", "6'-5\"", "10'-0\""} do
    lu.assertStrContains(unquoted(elevation), "'" .. place .. "'")
  end
end

-- Heights of four bolts 2 in from the edges of 9-1/4: 3 at 1-3/4 in.
function tests.test_the_section_gives_thicknesses_and_edges()
  local script = detail(joist {cuts = gap()}:fix(part("both", BOLT, 4)):review())
  local section = unquoted(views_of(script, paper_of(script))[2].text)
  for _, text in ipairs {[['1 1/2"']], [['2"']], [['3 at 1 3/4"']], [['9 1/4"']],
    "'(1)'", "'(2)'"} do
    lu.assertStrContains(section, text)
  end
end

-- A bolt's hole is 1/32 to 1/16 in larger than the bolt (NDS 12.1.3.2).
function tests.test_parts_and_notes_say_what_to_buy_and_not_to_change()
  local review = CASES.both_sides():review()
  local script = detail(review)
  says(script, ("%d pieces, 1/2 in bolt"):format(review.fixed.fasteners[1].count))
  says(script, "drill 9/16 in through")
  says(script, "(1) sister, 2x10")
  says(script, "Shore the joist on both sides of the cut")
  says(script, "Do not change type, size, length, count, places or side")
  says(script, "stop and call the engineer")
  each(function(name, one)
    local text = detail(one)
    lu.assertTrue(unquoted(text):lower():find("\nset label 'shore", 1, true) ~= nil, name)
    for _, word in ipairs {"certif", "guarant", "approv", "centre"} do
      lu.assertNil(text:lower():find("label '[^\n]*" .. word), name .. ": " .. word)
    end
  end)
end

-- A line that ended in "1" before "3/4" would be read as 1 in.
function tests.test_a_mixed_number_is_not_broken_over_two_lines()
  each(function(name, review)
    for text in unquoted(detail(review)):gmatch "set label '([^\n]-)' at" do
      lu.assertNil(text:match "^%d+/%d+\" ", name .. ": " .. text)
    end
  end)
end

-- New wood beside a 2 in end notch sits on a seat 2 in up: drawn with its notch over the
-- 3-1/2 in of the bearing, and said before the step that sets it.
function tests.test_new_wood_is_notched_over_a_higher_seat()
  local review = joist {live = 30, span = "11-0", cuts = {ns.end_notch {
    support = "left", face = "bottom", depth = 2}}}:fix(ns.sister {fastener = BOLT,
    pitch = 16, side = "right"}):review()
  local script = detail(review)
  local v = views_of(script, paper_of(script))[1]
  lu.assertStrContains(v.text, "-1.7500 2.0000\n1.7500 2.0000\n1.7500 0.0000")
  local notch = script:find("Notch the bottom of the sister 2 in deep", 1, true)
  lu.assertTrue(notch and notch < script:find("Cut the sister to length", 1, true))
end

-- What is chosen by others is drawn with the load that it is chosen for.
function tests.test_hardware_is_named_with_its_load()
  local review = CASES.hanger():review()
  says(detail(review), ("load on the hanger at 0'-2 1/2\": %d lb"):format(
    math.ceil(review.fixed.forces[1].value)))
end

---------------------------------------------------------------------------
-- What is not drawn
---------------------------------------------------------------------------

function tests.test_what_does_not_serve_is_not_drawn()
  local heavy = CASES.strap():with {live = 120}
  local script, why = ns.plot.detail(heavy)
  lu.assertNil(script)
  lu.assertStrContains(why, "is inadequate: overstressed")
  local severed = joist {cuts = gap()}:fix(ns.hanger {support = "left"})
  script, why = ns.plot.detail(severed)
  lu.assertNil(script)
  lu.assertStrContains(why, "cut through stays cut through")
  script, why = ns.plot.detail(joist {cuts = gap()})
  lu.assertNil(script)
  lu.assertStrContains(why, "no repair is described")
end

function tests.test_misuse_says_what_was_expected()
  local review = CASES.hanger():review()
  support.raises("a repaired joist or its review expected", ns.plot.detail, 5)
  support.raises("a table expected", ns.plot.detail, review, 5)
  support.raises("paper", ns.plot.detail, review, {paper = "napkin"})
  support.raises("takes the place of size", ns.plot.detail, review, {size = {8}})
  support.raises("unknown option", ns.plot.detail, review, {scale = 4})
end

function tests.test_a_package_holds_details_of_repairs_that_serve()
  local floor = ns.floor {name = "Net loft", size = "2x10",
    species = "douglas fir-larch", grade = "No.2", span = "13-0", spacing = 16,
    bearing = 3.5, dead = 12, live = 40, joists = {{mark = "A1"},
      {mark = "A2", cuts = gap()}, {mark = "A3"}, {mark = "A4", cuts = {ns.hole {
        at = "6-0", diameter = "1-3/4 in", below = "3/4 in"}}}}}
  floor = floor:fix("A2", part("right", BOLT, 6))
  floor = floor:fix("A4", ns.strap {gauge = 14, n = 2, fastener = SCREW})
  local review, found = floor:review(), {}
  for _, f in ipairs(ns.package.files(review, {paper = "a4"})) do
    if f.name:find "^detail" then found[#found + 1] = f end
  end
  lu.assertNotEquals(review.joists.A4.fixed.status, "adequate")
  lu.assertEquals(#found, 1)
  lu.assertEquals(found[1].name, "detail-A2.gp")
  -- 210 x 297 mm at 96 dots an inch: 793.7 x 1122.5
  lu.assertStrContains(found[1].text, "set terminal svg size 794,1123")
  lu.assertStrContains(found[1].text, "detail-A2.svg")
end

---------------------------------------------------------------------------
-- Many, and by gnuplot
---------------------------------------------------------------------------

local random = {}

function random.fastener(r)
  return r:pick {BOLT, LAG, NAIL, SCREW, ns.fastener {kind = "lag screw",
    diameter = "3/8 in", length = "3 in"}}
end

local CUTS = {
  function(r, x, d) return ns.hole {at = x, diameter = r:real(0.1, 0.4) * d} end,
  function(r, x) return ns.sever {from = x, to = x + r:real(2, 8)} end,
  function(r, x, d)
    return ns.notch {face = r:pick {"top", "bottom"}, from = x, to = x + r:real(2, 6),
      depth = r:real(0.1, 0.25) * d}
  end,
  function(r, _, d)
    return ns.end_notch {support = r:pick {"left", "right"}, face = "bottom",
      depth = r:real(0.1, 0.24) * d}
  end,
  function(r, x) return ns.slot {from = x, to = x + r:real(3, 7), height = r:real(1, 3)}
  end,
}

local FIXES = {
  function(r, a, b)
    return ns.sister {from = a, to = b, side = r:pick {"left", "right", "both"},
      pitch = r:int(4, 16), per_row = r:int(1, 3), fastener = random.fastener(r)}
  end,
  function(r) return ns.sister {pitch = r:int(6, 16), fastener = random.fastener(r)} end,
  function(r, a, b)
    return ns.side_plates {from = a, to = b, thickness = r:pick {"23/32 in", "19/32 in"},
      pitch = r:int(3, 8), per_row = r:int(2, 3), material = PANEL,
      fastener = random.fastener(r), lift = "unloaded"}
  end,
  function(r, a, b)
    return ns.side_plates {from = a, to = b, steel = "A36", thickness = "1/4 in",
      pitch = r:int(6, 12), fastener = BOLT, lift = "unloaded"}
  end,
  function(r)
    return ns.strap {gauge = r:pick {10, 12}, n = r:int(6, 14), rows = r:int(1, 2),
      pitch = r:real(2, 4), fastener = SCREW, lift = "unloaded"}
  end,
  function(r, a, b)
    return ns.header {at = r:unit() < 0.5 and {a, b} or a, hanger = "900 lb",
      tail_hanger = "900 lb"}
  end,
  function(r)
    return ns.hanger {support = r:pick {"left", "right"}, capacity = "900 lb"}
  end,
  function(_, a, b) return ns.midspan_support {at = (a + b) / 2} end,
  function(r) return ns.added_joist {side = r:pick {"left", "right", "both"}} end,
  function(r)
    return ns.notch_screws {support = r:pick {"left", "right"}, n = 2,
      fastener = LONG_LAG, full_thread = true}
  end,
}

-- A repaired joist, or nil where the two do not go together.
local function random_repair(r)
  local size = r:pick {{"2x6", 5.5}, {"2x8", 7.25}, {"2x10", 9.25}, {"2x12", 11.25}}
  local L, d, cuts = r:int(84, 210), size[2], {}
  for i = 1, r:int(1, 2) do cuts[i] = r:pick(CUTS)(r, r:real(0.2, 0.8) * L, d) end
  local given = {size = size[1], span = L, dead = 8, live = 15, cuts = cuts}
  local make = r:pick(FIXES)
  local fix = make(r, r:real(0.05, 0.3) * L, r:real(0.7, 0.95) * L)
  local ok, review = pcall(function() return joist(given):fix(fix):review() end)
  local a = ok and review.fixed
  if a and not a.refused and a.status == "adequate" then return review end
end

function tests.test_two_hundred_random_repairs()
  local r, drawn, tried, kinds = support.random(20), 0, 0, {}
  while drawn < 200 and tried < 2000 do
    tried = tried + 1
    local review = random_repair(r)
    if review then
      drawn = drawn + 1
      kinds[review.fixed.kind] = true
      local script = detail(review)
      local list, page, views = boxes_of(script)
      lu.assertNil(touching(list), review.fixed.title)
      local scales = named(unquoted(script))
      for i, v in ipairs(views) do
        support.close(v.N, scales[math.min(i, 2)].N, 0.01, review.fixed.title)
      end
      for _, b in ipairs(list) do
        lu.assertTrue(b.x1 > 0 and b.y1 > 0 and b.x2 < page.width
          and b.y2 < page.height, b.text)
      end
    end
  end
  lu.assertEquals(drawn, 200)
  for _, kind in ipairs {"sister", "side_plates", "strap", "header", "hanger",
    "midspan_support", "added_joist", "notch_screws"} do
    lu.assertTrue(kinds[kind] == true, kind)
  end
end

function tests.test_the_same_repair_gives_the_same_bytes()
  lu.assertEquals(detail(CASES.strap():review()), detail(CASES.strap():review()))
end

function tests.test_gnuplot_draws_every_kind()
  drawing.need_gnuplot()
  local dir <close> = drawing.folder()
  each(function(name, review)
    drawing.assert_draws(dir, name, detail(review, {output = "d.svg"}), "d.svg", "<?xml")
  end)
end

function tests.test_a_hostile_mark_is_only_text()
  drawing.need_gnuplot()
  local dir <close> = drawing.folder()
  for _, text in ipairs(drawing.HOSTILE) do
    local one = joist {cuts = {ns.hole {at = "6-0", diameter = 3}}}:fix(ns.added_joist {})
    local ok, named_ = pcall(one.with, one, {mark = text})
    local script = detail(ok and named_ or one, {output = "d.svg", title = text})
    lu.assertEquals(drawing.run(dir, script), "", text)
    lu.assertNil(drawing.read_file(dir.path .. "/ran"), text)
  end
end

return tests
