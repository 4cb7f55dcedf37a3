-- SPDX-License-Identifier: MIT
-- The ranking of fixes by what they disturb, against the scenario of the upstairs bath
-- (places worked out by hand) and its invariances. Reviews are stand-ins here: the
-- order must follow from the numbers, whoever worked them out.
local lu = require "luaunit"
local ns = require "netsection"
local rank = require "netsection.rank"
local support = require "tests.support"

local close_abs, raises = support.close_abs, support.raises
local floor_of = support.floor_among
local T = {}

local function bathroom()
  return {
    ns.obstruction {what = "two 3/4 supply lines", kind = "pipe", joist = "J3",
      side = "left", from = "3-0", to = "8-0", bottom = 2, top = 3, movable = "trade"},
    ns.obstruction {what = "cable", kind = "cable", joists = {"J3", "J4", "J5", "J6"},
      at = "9-0", height = 4.6, movable = "easy", through = true},
    ns.obstruction {what = "duct", bay = {"J5", "J6"}, from = 0, to = "7-0", bottom = 8,
      class = 5},
    ns.obstruction {what = "3 in drain", kind = "drain", joist = "J6", at = "6-2 1/2",
      y = 1.5, diameter = 3.5, movable = "no"},
  }
end

--------------------------------------------------------------------------- stand-ins

-- A floor whose joists take fixes that carry their own result.
local function standing(floor)
  return setmetatable({joist = function(_, mark)
    return floor:joist(mark) and {
      fix = function(_, fix)
        if fix.bad then error("sister: from: missing", 0) end
        return {review = function(_, packs)
          return {fixed = fix.fixed, packs = packs, reasons = {}}
        end}
      end}
  end}, {__index = floor})
end

local function ranked(floor, mark, fixes, options)
  return rank.fixes(standing(floor), mark, fixes, options)
end

local function box(x1, x2, h1, h2, y1, y2, name)
  return {name = name or "sister", kind = "wood", count = 1, x1 = x1, x2 = x2, h1 = h1,
    h2 = h2, y1 = y1, y2 = y2}
end

-- A 1-1/2 in sister on one face of a 1-1/2 in joist, its full depth of 9-1/4 in.
local function sister(side, from, to, changes)
  local y1, y2 = 0.75, 2.25
  if side == "left" then y1, y2 = -2.25, -0.75 end
  local fixed = {kind = "sister", title = "sister, " .. side .. " face",
    status = "adequate", ratio = 0.8, pieces = {box(from, to, 0, 9.25, y1, y2)},
    fasteners = {{fastener = "screw", count = 24}}}
  for name, value in pairs(changes or {}) do fixed[name] = value end
  return {side = side, fixed = fixed}
end

local function titles(list)
  local names = {}
  for i, entry in ipairs(list) do names[i] = entry.title end
  return names
end

local function moved(entry)
  local names = {}
  for i, thing in ipairs(entry.moved) do names[i] = thing.what end
  return names
end

------------------------------------------------------------------ A1, upstairs bathroom

-- Drain of 3.5 in OD, centre 1.5 in right: from -0.25 to 3.25 in. The sister stands from
-- 0.75 to 2.25. To pass left of it the drain would shift 3.25 - 0.75 = 2.5 in.
function T.test_A1_J6_right_face_is_refused()
  local r = ranked(floor_of(bathroom()), "J6", {sister("right", 36, 113)})
  lu.assertEquals(#r.ranked, 0)
  lu.assertEquals(#r.refused, 1)
  lu.assertEquals(r.refused[1].reason, "3 in drain cannot be moved and stands in the way "
    .. [[of the sister at 6'-2 1/2": one of them would have to shift 2 1/2" across]])
  local stuck = r.refused[1].stuck[1]
  close_abs(stuck.by, 2.5, 1e-9)
  close_abs(stuck.at, 74.5, 1e-9)
  lu.assertEquals(stuck.piece, "sister")
end

-- The duct's underside is 8 in up, the sister's top 9.25: 1.25 in to lower the one.
-- Along x they share 3-0 to 7-0, of which the middle is 5-0.
function T.test_A1_J6_left_face_meets_the_duct()
  local r = ranked(floor_of(bathroom()), "J6", {sister("left", 36, 113)})
  local entry = r.ranked[1]
  lu.assertEquals(entry.class, 5)
  lu.assertEquals(entry.count, 2)
  lu.assertEquals(moved(entry), {"duct", "cable"})
  close_abs(entry.moved[1].by, 1.25, 1e-9)
  lu.assertEquals(entry.moved[1].direction, "in height")
  close_abs(entry.moved[1].at, 60, 1e-9)
  lu.assertEquals(entry.moved[2].class, 1)
  close_abs(entry.moved[2].at, 108, 1e-9)
end

-- A sister ripped to 8 in, or one that starts past 7-0, meets the cable only.
function T.test_A1_J6_a_lower_sister_clears_the_duct()
  local fix = sister("left", 36, 113)
  fix.fixed.pieces[1].h2 = 8
  local r = ranked(floor_of(bathroom()), "J6", {fix, sister("left", 84, 113)})
  lu.assertEquals(moved(r.ranked[1]), {"cable"})
  lu.assertEquals(moved(r.ranked[2]), {"cable"})
end

function T.test_A1_J3_right_face_outranks_left()
  local floor = floor_of(bathroom())
  local r = ranked(floor, "J3", {sister("left", 0, 162, {ratio = 0.5}),
    sister("right", 0, 162, {ratio = 0.9})})
  lu.assertEquals(titles(r.ranked), {"sister, right face", "sister, left face"})
  lu.assertEquals(r.ranked[1].class, 1)
  lu.assertEquals(moved(r.ranked[1]), {"cable"})
  lu.assertEquals(r.ranked[2].class, 3)
  lu.assertEquals(moved(r.ranked[2]), {"two 3/4 supply lines", "cable"})
  lu.assertEquals(r.ranked[2].moved[1].trade, "plumber")
  lu.assertEquals(r.ranked[1].rank, 1)
end

-- The bay of J5 and J6 is J5's right and J6's left; J6's right and J4 are not in it.
function T.test_A1_the_duct_is_in_one_bay()
  local floor = floor_of(bathroom())
  local function class(mark, side)
    local entry = ranked(floor, mark, {sister(side, 0, 60)}).ranked[1]
    return entry.class
  end
  lu.assertEquals(class("J5", "right"), 5)
  lu.assertEquals(class("J5", "left"), 0)
  lu.assertEquals(class("J4", "right"), 0)
  lu.assertEquals(class("J6", "right"), 0)
  lu.assertEquals(class("J6", "left"), 5)
end

-- A piece of a neighbour, such as the second ply of a trimmer, stands by that one.
function T.test_A1_pieces_of_a_neighbour()
  local floor = floor_of(bathroom())
  local fix = sister("right", 0, 60)
  fix.fixed.pieces[1].of = "J5"
  local entry = ranked(floor, "J7", {fix}).ranked[1]
  lu.assertEquals(moved(entry), {"duct"})
  lu.assertEquals(entry.moved[1].piece, "sister of J5")
  fix.fixed.pieces[1].of = "J10"
  local r = ranked(floor, "J7", {fix})
  lu.assertStrContains(r.refused[1].reason, "no such joist")
end

-- A header from face to face of J5 and J7 crosses both bays at 5-10: 69.25 to 70.75 in,
-- short of the drain's 72.75, and meets the duct.
function T.test_A1_header()
  local fix = {fixed = {kind = "header", title = "header", status = "adequate",
    ratio = 1, pieces = {box(69.25, 70.75, 0, 9.25, -15.25, 15.25, "header")}}}
  local entry = ranked(floor_of(bathroom()), "J6", {fix}).ranked[1]
  lu.assertEquals(moved(entry), {"duct"})
  fix.fixed.pieces[1].x2 = 73.75
  local r = ranked(floor_of(bathroom()), "J6", {fix})
  lu.assertStrContains(r.refused[1].reason, [[shift 1" along the joist]])
end

-- A 1-1/2 in hole kept in the sister around the cable leaves nothing to move; one 3 in
-- higher does not help, nor a hole smaller than the cable.
function T.test_A1_a_hole_is_kept_for_the_cable()
  local list = bathroom()
  list[2].diameter = 0.5
  local function count(hole)
    return ranked(floor_of(list), "J4", {sister("right", 0, 162, {keeps = {hole}})})
      .ranked[1].count
  end
  lu.assertEquals(count {x = 108, h = 4.6, D = 1.5}, 0)
  lu.assertEquals(count {x = 108.5, h = 4.6, D = 1.5}, 0)
  lu.assertEquals(count {x = 108.6, h = 4.6, D = 1.5}, 1)
  lu.assertEquals(count {x = 108, h = 7.6, D = 1.5}, 1)
  lu.assertEquals(count {x = 108, h = 4.6, D = 0.4}, 1)
end

----------------------------------------------------------------------------- finishes

function T.test_access_opens_a_finish()
  local floor = floor_of {{what = "plaster ceiling", kind = "finish", side = "below"},
    {what = "tile", kind = "finish", side = "above", joists = {"J1", "J2"}, from = 0,
      to = 60}}
  local function entry(mark, from, access)
    return ranked(floor, mark, {sister("right", from, 162, {access = access})}).ranked[1]
  end
  lu.assertEquals(entry("J2", 0).count, 0)
  lu.assertEquals(moved(entry("J2", 0, {"below"})), {"plaster ceiling"})
  lu.assertEquals(entry("J2", 0, {"below"}).class, 6)
  lu.assertEquals(entry("J2", 0, {"below"}).moved[1].access, "below")
  lu.assertEquals(moved(entry("J2", 0, {"above"})), {"tile"})
  lu.assertEquals(entry("J2", 70, {"above"}).count, 0)
  lu.assertEquals(entry("J4", 0, {"above"}).count, 0)
  lu.assertEquals(entry("J2", 0, {"above", "below"}).count, 2)
end

-- A strap under the joist takes the ceiling's place whatever the access.
function T.test_a_strap_meets_the_ceiling()
  local floor = floor_of {{what = "ceiling", kind = "finish", side = "below"}}
  local fix = sister("right", 36, 113)
  fix.fixed.pieces[1] = box(36, 113, -0.125, 0, -0.75, 0.75, "strap")
  lu.assertEquals(moved(ranked(floor, "J4", {fix}).ranked[1]), {"ceiling"})
end

function T.test_a_ceiling_that_must_stay()
  local floor = floor_of {{what = "painted ceiling", kind = "finish", side = "below",
    movable = "no"}}
  local r = ranked(floor, "J4", {sister("right", 36, 113, {access = {"below"}})})
  lu.assertStrContains(r.refused[1].reason, "painted ceiling cannot be opened")
end

------------------------------------------------------------------------------ the order

local function plain_fix(title, class_side, pieces, fasteners, ratio)
  local fix = sister(class_side, 0, 60, {title = title, ratio = ratio,
    fasteners = {{count = fasteners}}})
  fix.fixed.pieces[1].count = pieces
  return fix
end

-- Worst class, then count, pieces, fasteners, ratio, then as given.
function T.test_order()
  local floor = floor_of {{what = "duct", kind = "duct", bay = {"J5", "J6"}, from = 0,
    to = 80, bottom = 0}}
  local r = ranked(floor, "J6", {
    plain_fix("duct", "left", 1, 1, 0.1), plain_fix("last", "right", 2, 20, 0.5),
    plain_fix("ratio", "right", 2, 20, 0.4), plain_fix("as given", "right", 2, 20, 0.5),
    plain_fix("fasteners", "right", 2, 10, 0.9),
    plain_fix("pieces", "right", 1, 99, 0.9)})
  lu.assertEquals(titles(r.ranked),
    {"pieces", "fasteners", "ratio", "last", "as given", "duct"})
end

function T.test_count_comes_before_pieces()
  local list = {}
  for i, at in ipairs {10, 20} do
    list[i] = {what = "cable " .. i, kind = "cable", movable = "easy", at = at,
      joist = "J4", side = "left", height = 4}
  end
  list[3] = {what = "cable 3", kind = "cable", movable = "easy", at = 30, joist = "J4",
    side = "right", height = 4}
  local r = ranked(floor_of(list), "J4", {plain_fix("two", "left", 1, 1, 0.1),
    plain_fix("one", "right", 5, 50, 0.9)})
  lu.assertEquals(titles(r.ranked), {"one", "two"})
end

-- One duct is worse than two cables; a thing of class 0 is no disturbance.
function T.test_class_comes_before_count()
  local list = {{what = "duct", kind = "duct", joist = "J4", side = "left", at = 30}}
  for i, at in ipairs {10, 20} do
    list[i + 1] = {what = "cable " .. i, kind = "cable", movable = "easy", at = at,
      joist = "J4", side = "right", height = 4}
  end
  list[4] = {what = "loose fill", class = 0, bay = {"J4", "J5"}, from = 0, to = 162}
  local r = ranked(floor_of(list), "J4", {plain_fix("duct", "left", 1, 1, 0.1),
    plain_fix("cables", "right", 5, 50, 0.9)})
  lu.assertEquals(titles(r.ranked), {"cables", "duct"})
  lu.assertEquals(r.ranked[1].count, 2)
end

-- A thing that two pieces meet moves once, and is told by the piece it is deeper in.
function T.test_two_pieces_meet_one_thing()
  local list = {{what = "duct", kind = "duct", bay = {"J4", "J5"}, from = 0, to = 60,
    bottom = 6}}
  local fix = sister("right", 0, 60)
  fix.fixed.pieces = {box(0, 60, 0, 7, 0.75, 2.25, "low"),
    box(0, 60, 0, 9, 2.25, 3.75, "high"), box(0, 60, 0, 8, 3.75, 5.25, "middle")}
  local entry = ranked(floor_of(list), "J4", {fix}).ranked[1]
  lu.assertEquals(entry.count, 1)
  lu.assertEquals(entry.moved[1].piece, "high")
  close_abs(entry.moved[1].by, 3, 1e-9)
end

function T.test_failing_and_refused_are_never_ranked()
  local floor = floor_of(bathroom())
  local check = {mode = "fasteners", member = "sister", at = 40, ratio = 1.294}
  local r = ranked(floor, "J6", {
    sister("left", 36, 113, {title = "few", status = "overstressed", ratio = 1.294,
      governing = "fasteners", governing_check = check}),
    {fixed = {title = "strap", kind = "strap", status = "not permitted", checks = {},
      refused = "a strap does not bridge a joist that is cut through"}},
    {fixed = {title = "notched", status = "not permitted", ratio = 0.9,
      governing = "net-bending"}},
    sister("right", 36, 113, {title = "few, right", status = "overstressed",
      governing_check = check}),
    {fixed = nil}})
  lu.assertEquals(#r.ranked, 0)
  lu.assertEquals(titles(r.failing), {"few", "notched"})
  lu.assertEquals(r.failing[1].reason, [[sister fasteners at 3'-4": ratio 1.29]])
  lu.assertEquals(r.failing[2].reason, "not permitted; net-bending")
  lu.assertEquals(titles(r.refused), {"strap", "few, right", "fix 5"})
  lu.assertEquals(r.refused[1].reason,
    "a strap does not bridge a joist that is cut through")
  lu.assertStrContains(r.refused[2].reason, "3 in drain")
  lu.assertStrContains(r.refused[2].reason, "fails as well: sister fasteners")
end

function T.test_posts_and_totals()
  local fix = {fixed = {title = "mid-span beam", kind = "midspan_support",
    status = "adequate", ratio = 0.7, pieces = {box(80, 83.5, -9.25, 0, -60, 60, "beam"),
    {name = "post", kind = "post", count = 3}}, fasteners = {{count = 8}, {count = 6}}}}
  local entry = ranked(floor_of(), "J4", {fix}).ranked[1]
  lu.assertTrue(entry.added_post)
  lu.assertEquals({entry.pieces, entry.fasteners}, {4, 14})
  lu.assertEquals(entry.unplaced, {"post"})
  lu.assertFalse(ranked(floor_of(), "J4", {sister("left", 0, 9)}).ranked[1].added_post)
end

function T.test_packs_are_passed()
  local r = ranked(floor_of(nil, {rules = "us-irc-2021"}), "J4", {sister("left", 0, 9)},
    {standard = "us-nds-2018-asd"})
  lu.assertEquals(r.ranked[1].review.packs,
    {rules = "us-irc-2021", standard = "us-nds-2018-asd"})
end

---------------------------------------------------------------------------- invariances

-- Random things by joists and bays of nine, as told from the left.
local function random_things(random)
  local list = {}
  for i = 1, random:int(2, 8) do
    local n = random:int(2, 7)
    local from = random:real(0, 140)
    local t = {what = "thing " .. i, kind = random:pick {"wire", "pipe", "drain", "duct"},
      movable = random:pick {"easy", "trade", "trade", "no"}}
    local place = random:int(1, 4)
    if place == 1 then
      t.bay, t.from, t.to = {"J" .. n, "J" .. n + 1}, from, from + random:real(1, 60)
      t.bottom, t.top = 1, random:real(2, 9)
    elseif place == 2 then
      t.joist, t.side = "J" .. n, random:pick {"left", "right"}
      t.from, t.to, t.height, t.diameter = from, from + 30, random:real(1, 8), 1.5
    elseif place == 3 then
      t.joist, t.at, t.y, t.diameter = "J" .. n, from, random:real(-5, 5), 3.5
    else
      t.joists, t.at, t.height, t.diameter = {"J" .. n, "J" .. n + 1}, from,
        random:real(1, 8), 0.75
      t.through = true
    end
    list[i] = t
  end
  return list
end

local function candidates(random)
  local fixes = {}
  for i = 1, 6 do
    local side, from = random:pick {"left", "right"}, random:real(0, 80)
    fixes[i] = sister(side, from, from + random:real(10, 80), {title = "fix " .. i,
      ratio = random:int(1, 99) / 100})
  end
  return fixes
end

local OTHER = {left = "right", right = "left"}

local function other_mark(mark)
  return mark and "J" .. 10 - tonumber(mark:sub(2))
end

local function other_marks(list)
  if not list then return nil end
  local out = {}
  for i, mark in ipairs(list) do out[i] = other_mark(mark) end
  return out
end

-- The same house seen from the other end: left and right change places.
local function mirrored(list)
  local out = {}
  for i, t in ipairs(list) do
    local m = {}
    for name, value in pairs(t) do m[name] = value end
    m.joist, m.joists, m.bay = other_mark(t.joist), other_marks(t.joists),
      other_marks(t.bay)
    m.side, m.y = t.side and OTHER[t.side], t.y and -t.y
    out[i] = m
  end
  return out
end

local function mirrored_fixes(fixes)
  local out = {}
  for i, fix in ipairs(fixes) do
    local fixed = {}
    for name, value in pairs(fix.fixed) do fixed[name] = value end
    local p = fix.fixed.pieces[1]
    fixed.pieces = {box(p.x1, p.x2, p.h1, p.h2, -p.y2, -p.y1)}
    out[i] = {fixed = fixed}
  end
  return out
end

local function essence(r)
  local out = {}
  for _, name in ipairs {"ranked", "refused"} do
    for _, entry in ipairs(r[name]) do
      out[#out + 1] = ("%s %s %d %d %s"):format(name, entry.title, entry.class,
        entry.count, table.concat(moved(entry), ","))
    end
  end
  return out
end

function T.test_mirror_image()
  local random, disturbed = support.random(21), 0
  for _ = 1, 80 do
    local list, fixes = random_things(random), candidates(random)
    local mark = "J" .. random:int(3, 6)
    local a = ranked(floor_of(list), mark, fixes)
    local b = ranked(floor_of(mirrored(list)), other_mark(mark), mirrored_fixes(fixes))
    lu.assertEquals(essence(b), essence(a))
    if #a.refused > 0 or a.ranked[1] and a.ranked[#a.ranked].class > 0 then
      disturbed = disturbed + 1
    end
  end
  lu.assertTrue(disturbed > 40, "the cases are not empty: " .. disturbed)
end

function T.test_order_of_obstructions_does_not_matter()
  local random = support.random(22)
  for _ = 1, 40 do
    local list, fixes = random_things(random), candidates(random)
    local turned = {}
    for i, t in ipairs(list) do turned[#list + 1 - i] = t end
    lu.assertEquals(rank.text(ranked(floor_of(turned), "J4", fixes)),
      rank.text(ranked(floor_of(list), "J4", fixes)))
  end
end

local function by_title(list)
  local out = {}
  for _, entry in ipairs(list) do out[entry.title] = entry end
  return out
end

-- Entries that a thing is in the way of.
local function met_by(r, number)
  local out = {}
  for _, name in ipairs {"ranked", "refused"} do
    for _, entry in ipairs(r[name]) do
      for _, things in ipairs {entry.moved, entry.stuck} do
        for _, thing in ipairs(things) do
          if thing.obstruction == number then out[#out + 1] = entry end
        end
      end
    end
  end
  return out
end

-- One thing less in the house: no fix is kept out that was not before, and none has a
-- worse class or more to move. The rank of a fix that alone met the thing gets no worse.
function T.test_taking_a_thing_away_never_worsens()
  local random, bettered, risen = support.random(23), 0, 0
  for _ = 1, 120 do
    local list, fixes = random_things(random), candidates(random)
    local number = random:int(1, #list)
    local r = ranked(floor_of(list), "J4", fixes)
    local met = met_by(r, number)
    table.remove(list, number)
    local after = by_title(ranked(floor_of(list), "J4", fixes).ranked)
    for _, entry in ipairs(r.ranked) do
      local now = after[entry.title]
      lu.assertTrue(now.class <= entry.class and now.count <= entry.count)
      if now.count < entry.count then bettered = bettered + 1 end
    end
    if #met == 1 and met[1].rank then
      lu.assertTrue(after[met[1].title].rank <= met[1].rank)
      if after[met[1].title].rank < met[1].rank then risen = risen + 1 end
    end
  end
  lu.assertTrue(bettered > 20 and risen > 3, bettered .. " " .. risen)
end

-- The supply lines of J3 hung below the joists: the left face is as good as the right.
function T.test_moving_a_thing_away()
  local list = bathroom()
  local fixes = {sister("left", 0, 162), sister("right", 0, 162)}
  lu.assertEquals(ranked(floor_of(list), "J3", fixes).ranked[2].title,
    "sister, left face")
  list[1].bottom, list[1].top = -3, -2
  local entry = ranked(floor_of(list), "J3", fixes).ranked[1]
  lu.assertEquals({entry.title, entry.class}, {"sister, left face", 1})
end

-------------------------------------------------------------------------------- as text

function T.test_text()
  local r = ranked(floor_of(bathroom()), "J6", {sister("left", 36, 113),
    sister("right", 36, 113), sister("left", 84, 113, {status = "overstressed",
      title = "short sister", governing = "fasteners"})})
  local text = rank.text(r)
  lu.assertStrContains(text, "Fixes of joist J6, least disturbance first")
  lu.assertStrContains(text, "duct (class 5) at 5'-0\"")
  lu.assertStrContains(text, "cable (class 1, electrician) at 9'-0\"")
  lu.assertStrContains(text, "Class: 1 unclip a wire, 5 move a duct")
  lu.assertStrContains(text, "Refused:\n  - sister, right face: 3 in drain cannot")
  lu.assertStrContains(text, "Fails by calculation:\n  - short sister: fasteners")
  for line in text:gmatch "[^\n]+" do lu.assertTrue(#line <= 88, line) end
  lu.assertStrContains(rank.text(ranked(floor_of(bathroom()), "J6",
    {sister("right", 36, 113)})), "None of the fixes tried serves.")
end

-------------------------------------------------------------------------- hostile input

function T.test_misuse_raises_at_the_callers_line()
  local floor = floor_of()
  local function here(piece, ...)
    local text = raises(piece, ...)
    lu.assertStrContains(text, "test_rank.lua")
  end
  here("the floor has no joist 'J99' (it has J1, J2", function()
    floor:rank_fixes("J99", {{}})
  end)
  for _, bad in ipairs {false, "x", {}, {1}, {side = "left"}, {{}, 3}} do
    here("a list of fixes expected", function() floor:rank_fixes("J1", bad) end)
  end
  here("unknown field 'threads'", function()
    floor:rank_fixes("J1", {{}}, {threads = 2})
  end)
  here("fix 2: sister: from: missing", function()
    rank.fixes(standing(floor), "J1", {sister("left", 0, 9), {bad = true}})
  end)
  here("unknown field 'colour'", function() ns.obstruction {what = "x", colour = 1} end)
  here("rank.text", function() rank.text(nil) end)
end

-- A piece whose place is not a number is told, not compared.
function T.test_pieces_without_numbers()
  for _, bad in ipairs {0 / 0, math.huge, "x"} do
    local fix = sister("left", 36, 113)
    fix.fixed.pieces[1].x1 = bad
    local entry = ranked(floor_of(bathroom()), "J6", {fix}).ranked[1]
    lu.assertEquals(entry.unplaced, {"sister"})
    lu.assertStrContains(rank.text {mark = "J6", ranked = {entry}, failing = {},
      refused = {}}, "not compared with the obstructions:")
  end
end

function T.test_a_description_is_not_changed()
  local list = bathroom()
  local before = lu.prettystr(list)
  ranked(floor_of(list), "J6", {sister("left", 36, 113)})
  lu.assertEquals(lu.prettystr(list), before)
end

return T
