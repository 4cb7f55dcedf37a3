-- SPDX-License-Identifier: MIT
-- What a repair is built of, to the piece: crew's sheet, order and calculation list the
-- same; hangers with the loads they are chosen for, nails between plies, blocks,
-- sections of measured joists, lead holes (NDS 12.1: nails, bolts read; lags, wood screws
-- memory). Loads and counts by hand.
local document = require "netsection.document"
local crew = require "netsection.short.crew"
local quantity = require "netsection.quantity"
local list = require "netsection.short.parts_list"
local lu = require "luaunit"
local numbers = require "netsection.numbers"
local ns = require "netsection"
local support = require "tests.support"

local close = support.close
local T = {}

local BOLT = ns.fastener {kind = "bolt", diameter = "1/2 in"}
local LAG = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "3 in"}
local SCREW = ns.fastener {kind = "wood screw", number = 14, length = "3 in"}
local GAP = {ns.sever {from = "6-0", to = "6-5"}}

local function groups(n)
  return {{at = "3-2", n = n}, {at = "5-6", n = n}, {at = "6-11", n = n},
    {at = "9-6", n = n}}
end

-- A floor of five, the middle one cut and repaired.
local function review(cuts, fix, changes)
  local t = {name = "Sail loft", size = "2x10", species = "douglas fir-larch",
    grade = "No.2", span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 30,
    joists = {{mark = "A"}, {mark = "B"}, {mark = "C", cuts = cuts}, {mark = "D"},
      {mark = "E"}}}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.floor(t):fix("C", fix):review().joists.C
end

-- Every kind of repair, as it is built.
local REPAIRS = {
  {"sister", GAP, ns.sister {from = "2-8", to = "10-0", fastener = BOLT,
    groups = groups(6)}},
  {"sister on both faces", GAP, ns.sister {from = "2-8", to = "10-0", side = "both",
    fastener = BOLT, groups = groups(4)}},
  {"lags from both faces", GAP, ns.sister {from = "2-8", to = "10-0", side = "both",
    fastener = LAG, groups = groups(6)}},
  {"sister that hangs", {ns.end_notch {support = "left", face = "bottom", depth = 2}},
    ns.sister {fastener = LAG, hanger = {capacity = 600}}},
  {"sister of two plies", {ns.hole {at = "6-0", diameter = 4}}, ns.sister {plies = 2,
    fastener = ns.fastener {kind = "bolt", diameter = "1/2 in"}}},
  {"plates", {ns.notch {face = "bottom", from = "5-4", to = "5-7", depth = 1}},
    ns.side_plates {from = "2-6", to = "8-6", thickness = "23/32 in", pitch = 3,
    per_row = 3, lift = "unloaded", material = {Fb = 1200, Fv = 250, E = 1.2e6},
    fastener = ns.fastener {kind = "nail", size = "10d"}}},
  {"strap", {ns.hole {at = "6-0", diameter = "1-3/4 in", below = "3/4 in"}},
    ns.strap {gauge = 10, n = 14, pitch = "2-1/2 in", fastener = SCREW,
    lift = "unloaded"}},
  {"header", GAP, ns.header {at = {"5-10", "6-7"}}},
  {"header with blocks", GAP, ns.header {at = {"4-6", "8-0"}}},
  {"one header", {ns.notch {face = "bottom", from = "3-0", to = "3-6", depth = 3}},
    ns.header {at = "4-0", plies = 3}},
  {"hanger", {ns.end_notch {support = "left", face = "bottom", depth = 3}},
    ns.hanger {support = "left", capacity = "600 lb"}},
  {"support", {ns.hole {at = "4-0", diameter = 2}}, ns.midspan_support {}},
  {"added joist", {ns.hole {at = "6-0", diameter = 3}}, ns.added_joist {side = "both",
    plies = 2}},
  {"added joist that hangs", {ns.hole {at = "6-0", diameter = 3}},
    ns.added_joist {hanger = true}},
  {"screws", {ns.end_notch {support = "right", face = "bottom", depth = 2}},
    ns.notch_screws {support = "right", n = 2}},
  {"end sister", {ns.lost_bearing {support = "left", to = "1-0"}}, ns.end_sister {
    to = "7-0", fastener = BOLT, groups = {{at = "2-6", n = 4}, {at = "6-0", n = 4}},
    hanger = {capacity = 900}}},
}

local done = {} -- each review once

local function each(work)
  for _, row in ipairs(REPAIRS) do
    local r = done[row[1]] or review(row[2], row[3])
    done[row[1]] = r
    lu.assertNil(r.fixed.refused, row[1])
    work(row[1], r, r.fixed)
  end
end

local function by(items, key, count)
  local sum = {}
  for _, item in ipairs(items) do
    local k = key(item)
    sum[k] = (sum[k] or 0) + (count(item) or 1)
  end
  return sum
end

local function squeezed(text)
  return (text:gsub("%s+", " "))
end

------------------------------------------------------------------------- to the piece

-- What is placed, what the calculation lists, what is ordered, what the crew reads.
function T.test_places_parts_and_order_agree()
  each(function(what, _, a)
    if #a.layout > 0 then
      lu.assertEquals(a.fasteners[1].count, #a.layout, what)
    end
    for i, f in ipairs(a.fasteners) do
      lu.assertTrue(f.count > 0, what)
      lu.assertEquals(i > 1 and f.fastener .. f.where == a.fasteners[i - 1].fastener
        .. a.fasteners[i - 1].where, false, what)
    end
  end)
end

function T.test_order_is_the_calculation()
  each(function(what, r, a)
    local pieces, fasteners = list.grouped({r})
    local function name(p) return p.name .. "|" .. (p.size or "") end
    lu.assertEquals(by(pieces, name, function(p) return p.count end),
      by(a.pieces, name, function(p) return p.count end), what)
    local function kind(f) return f.fastener end
    local function count(f) return f.count end
    lu.assertEquals(by(fasteners, kind, count), by(a.fasteners, kind, count), what)
    for i, f in ipairs(numbers.of(r).joists.C.fixed.fasteners or {}) do
      lu.assertEquals(f.count, a.fasteners[i].count, what)
      lu.assertTrue(f.order >= f.count)
    end
  end)
end

-- Every piece and fastener of the calculation stands in the crew's sheet with its count,
-- and the rows of the sheet sum up to the fasteners that are placed.
function T.test_the_crew_reads_the_calculation()
  each(function(what, r, a)
    if not list.serves(r) then return end
    local sheet = squeezed(document.text(crew.document(r)))
    for _, p in ipairs(a.pieces) do
      lu.assertStrContains(sheet, squeezed(("%d %s"):format(p.count or 1, p.name)))
      if p.size then lu.assertStrContains(sheet, squeezed(p.size)) end
    end
    for _, f in ipairs(a.fasteners) do
      local kind, where = f.fastener:match "%a+$", squeezed(f.where):gsub("%p", "%%%0")
      lu.assertNotNil(sheet:find(("%d [^;]*%s[^;]*; %s"):format(f.count, kind,
        where)), ("%s: %d x %s, %s"):format(what, f.count, f.fastener, f.where))
    end
    local placed = 0
    for _, run in ipairs(crew.runs(a,
      quantity.system())) do placed = placed + run.rows * run.each end
    lu.assertEquals(placed, #a.layout, what)
  end)
end

-- Most of them serve, so that the sheets above say something.
function T.test_most_of_them_serve()
  local serve = 0
  each(function(_, r) serve = serve + (list.serves(r) and 1 or 0) end)
  lu.assertTrue(serve >= #REPAIRS - 2, tostring(serve))
end

------------------------------------------------------------------------ sections named

local MEASURED = {size = false, b = "1-5/8 in", d = "9-1/2 in"}

function T.test_measured_sections_are_named()
  for _, row in ipairs(REPAIRS) do
    local changes = {b = MEASURED.b, d = MEASURED.d, material = {Fb = 900, Fv = 180,
      E = 1.6e6, Ft = 575, Fc = 1350, Fc_perp = 625, Emin = 580e3, CF = 1, G = 0.5},
      joists = {{mark = "A"}, {mark = "B"}, {mark = "C", cuts = row[2]}, {mark = "D"},
        {mark = "E"}}, name = "Loft", span = "13-6", spacing = 16, bearing = 3.5,
      dead = 12, live = 30}
    local r = ns.floor(changes):fix("C", row[3]):review().joists.C
    for _, p in ipairs(r.fixed.pieces) do
      if p.kind == "wood" or p.kind == "header" or p.kind == "block" then
        lu.assertEquals(p.size, '1 5/8" x 9 1/2"', row[1] .. ", " .. p.name)
        lu.assertStrContains(p.stock, '1 5/8" x 9 1/2" x ', nil, row[1])
      else
        lu.assertNotNil(p.size, row[1] .. ", " .. p.name)
      end
    end
  end
end

-- Lumber is sold up to 24 ft: a longer piece is not said to come out of it.
function T.test_no_stock_of_a_piece_that_is_too_long()
  local r = review({ns.hole {at = "6-0", diameter = 3}}, ns.added_joist {},
    {span = "25-0", live = 5, dead = 5})
  lu.assertEquals(r.fixed.pieces[1].stock, "2x10, over 24 ft")
end

function T.test_two_plies_are_two_pieces()
  local a = review({ns.hole {at = "6-0", diameter = 4}}, ns.sister {plies = 2,
    fastener = BOLT}).fixed
  lu.assertEquals(a.pieces[1].count, 2)
  lu.assertEquals(a.pieces[1].size, "2x10")
end

------------------------------------------------------------------------------- headers

-- 12 + 40 psf at 16 in, 69.333 plf: tails of 5-10 and 6-11 put 202.2 and 239.8 lb on the
-- headers, half of the 9 in strip 26 lb more each; a header passes half of 228.2 and
-- 265.8 on at either end.
local function headed(fix, changes)
  changes = changes or {}
  changes.live = 40
  return review(GAP, fix or ns.header {at = {"5-10", "6-7"}}, changes).fixed
end

local function named(items, name, words)
  for _, p in ipairs(items) do
    local text = p.size or p.where or ""
    if (p.name or p.fastener) == name and text:find(words, 1, true) then return p end
  end
  error(("no %s, %s"):format(name, words), 2)
end

function T.test_hangers_of_a_header_with_their_loads()
  local a = headed()
  local header = named(a.pieces, "hanger", "header, 2-ply 2x10")
  lu.assertEquals(header.count, 4)
  lu.assertStrContains(header.size, "load 133 lb")
  local tail = named(a.pieces, "hanger", "tail, 2x10")
  lu.assertEquals(tail.count, 2)
  lu.assertStrContains(tail.size, "load 240 lb")
end

-- Nails 10d, 117.4 lb by NDS 12.3 (table 12N: 118). Header of 30-1/2 in: (30.5 - 6)/6 = 4
-- spaces, 5 nails; 265.8/2 = 132.9 lb cross to the other ply, 1.5 x 132.9/118 = 1.7: the
-- least of three beside the tail. Trimmer of 165-1/2 in: 26 spaces, 27 nails; half of
-- 132.9 lb, three at each header.
function T.test_nails_between_plies()
  local a = headed()
  local header = named(a.fasteners, "10d common nail", "the header at 5'-10\" and")
  lu.assertEquals(header.count, 2 * (5 + 3))
  local trimmer = named(a.fasteners, "10d common nail", "trimmer B and the trimmer D")
  lu.assertEquals(trimmer.count, 2 * (27 + 3 * 2))
  local seen = 0
  for _, k in ipairs(a.checks) do
    if k.name and k.name:find "^nails between plies of the header at 6" then
      seen = seen + 1
      close(k.demand, 265.8 / 2, 0.002)
      close(k.capacity, 3 * 117.4, 0.005)
      lu.assertTrue(k.binding)
    end
  end
  lu.assertEquals(seen, 1)
end

-- A heavier floor asks for more: 40 + 200 psf, 320 plf: 1226.7/2 lb over 118 x 2/3.
function T.test_more_nails_under_more_load()
  local r = review(GAP, ns.header {at = {"5-10", "6-7"}}, {dead = 40, live = 200})
  local load = 320 / 12 * (83 + 9) / 2 -- half a tail of 83 in, half of 9 in
  local need = math.ceil(1.5 * load / 2 / 117.4)
  local found
  for _, k in ipairs(r.fixed.checks) do
    if k.name and k.name:find "^nails between plies of the header at 6" then
      found = k.capacity / 117.4
    end
  end
  close(found, need, 0.005)
  lu.assertTrue(need > 3)
end

-- Three plies: two joints; two thirds of the load cross the first.
function T.test_three_plies_have_two_joints()
  local a = headed(ns.header {at = {"5-10", "6-7"}, plies = 3})
  local header = named(a.fasteners, "10d common nail", "each to the next")
  lu.assertEquals(header.count % 4, 0)
  for _, k in ipairs(a.checks) do
    if k.name and k.name:find "^nails between plies of the header at 6" then
      close(k.demand, 265.8 * 2 / 3, 0.002)
    end
  end
end

function T.test_single_plies_need_no_nails()
  local a = headed(ns.header {at = {"5-10", "6-7"}, plies = 1, trimmer_plies = 1})
  lu.assertEquals(a.fasteners, {})
end

-- Full-sawn plies 2 in thick: a 20d (4 in) is the longest that stays inside two of them.
function T.test_the_nail_goes_by_the_plies()
  local a = headed(nil, {size = "full-sawn 2x10"})
  lu.assertStrContains(a.fasteners[1].fastener, "20d")
end

-- Headers 42 in apart leave 39 in clear, more than 16: blocks of 39 in, reviewed as
-- joists of 42 in: w L/2 = 69.333 x 3.5/2 = 121.3 lb on each hanger. At 9 in none.
function T.test_blocks_under_the_open_deck()
  local a = headed(ns.header {at = {"4-6", "8-0"}})
  local block = named(a.pieces, "block", "2x10")
  lu.assertEquals(block.count, 1)
  close(block.length, 39, 1e-9)
  local hanger = named(a.pieces, "hanger", "block, 2x10")
  lu.assertEquals(hanger.count, 2)
  lu.assertStrContains(hanger.size, "load 122 lb")
  local M
  for _, k in ipairs(a.checks) do
    if k.member == "block" and k.mode == "bending" then M = k.demand / 12 end
  end
  close(M, 69.3333 * 3.5 ^ 2 / 8, 0.001)
  lu.assertStrContains(table.concat(a.sequence, " "), "the tails and the blocks")
  for _, p in ipairs(headed().pieces) do lu.assertNotEquals(p.name, "block") end
  for _, p in ipairs(headed(ns.header {at = {"4-6", "8-0"}, between = "none"}).pieces) do
    lu.assertNotEquals(p.name, "block")
  end
end

------------------------------------------------------------------------------ and rank

-- The ranking counts hangers, nails and blocks: 4 headers of one ply, 2 trimmers, 4 and 2
-- hangers; 16 and 66 nails as above.
function T.test_the_ranking_counts_them()
  local floor = ns.floor {name = "Sail loft", size = "2x10",
    species = "douglas fir-larch", grade = "No.2", span = "13-6", spacing = 16,
    bearing = 3.5, dead = 12, live = 30,
    joists = {{mark = "A"}, {mark = "B"}, {mark = "C", cuts = GAP}, {mark = "D"},
      {mark = "E"}}}
  local entry = floor:rank_fixes("C", {ns.header {at = {"5-10", "6-7"}}}).ranked[1]
  lu.assertEquals(entry.pieces, 4 + 2 + 4 + 2)
  lu.assertEquals(entry.fasteners, 16 + 66)
  lu.assertEquals(entry.unplaced, {})
end

-- Blocks at both ends, between the new joist and what stands on either side: 8 - 1.5 in.
function T.test_blocks_of_an_added_joist()
  local a = review({ns.hole {at = "6-0", diameter = 3}}, ns.added_joist {}).fixed
  local block = named(a.pieces, "block", "2x10")
  lu.assertEquals(block.count, 4)
  close(block.length, 6.5, 1e-9)
  lu.assertEquals(named(a.fasteners, "8d common nail", "blocks").count, 4 * 2 * 3)
  lu.assertEquals(named(a.fasteners, "8d common nail", "deck").count, 14)
  lu.assertEquals(named(a.fasteners, "8d common nail", "each bearing").count, 6)
end

----------------------------------------------------------------------------- lead holes

-- Each repair says what is drilled, or whose the holes are.
function T.test_every_repair_says_what_is_drilled()
  each(function(what, _, a)
    local text = table.concat(a.notes, "\n")
    lu.assertTrue(text:find("lead holes", 1, true) ~= nil or text:find("holes of bolts",
      1, true) ~= nil or text:find("holes for them, as their maker", 1, true) ~= nil,
      what)
  end)
end

-- No.14, D 0.242, root 0.196: 7/8 of each for G <= 0.6.
function T.test_lead_holes_of_wood_screws()
  local hole = ns.fastener.lead_hole {fastener = SCREW, G = 0.5}
  close(hole[1], 0.196 * 7 / 8, 1e-9)
  close(ns.fastener.lead_hole({fastener = SCREW, G = 0.7})[2], 0.196, 1e-9)
  local a = review({ns.hole {at = "6-0", diameter = "1-3/4 in", below = "3/4 in"}},
    ns.strap {gauge = 10, n = 14, pitch = "2-1/2 in", fastener = SCREW}).fixed
  local found
  for _, note in ipairs(a.notes) do
    found = found or note:find("lead holes: shank 0.212, thread 0.17[12] in")
  end
  lu.assertNotNil(found)
end

return T
