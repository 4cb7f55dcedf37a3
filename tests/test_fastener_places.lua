-- SPDX-License-Identifier: MIT
-- Where the fasteners of a repair stand and what that makes of their value: each distance
-- by hand from NDS 12.5.1 (multiples of D from memory; edges read), group action from NDS
-- 11.3.6 worked out here once more.
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local close = support.close
local T = {}

local DFL = {Fb = 900, CF = 1.1, Fv = 180, E = 1.6e6, Ft = 575, Fc = 1350,
  Fc_perp = 625, Emin = 580000, G = 0.5}
local BOLT = ns.fastener {kind = "bolt", diameter = "1/2 in"}
local LAG = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "3 in"}

local function joist(cuts, changes)
  local t = {mark = "P", size = "2x10", material = DFL, span = "13-6", spacing = 16,
    bearing = 3.5, dead = 12, live = 40, cuts = cuts}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.joist(t)
end

local function fixed(cuts, fix)
  return joist(cuts):fix(fix):review().fixed
end

local function sister(groups, changes)
  local t = {fastener = BOLT, groups = groups, lift = "unloaded", share = "slip"}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.sister(t)
end

local function find(a, mode, member)
  for _, k in ipairs(a.checks) do
    if k.mode == mode and (not member or k.member == member) then return k end
  end
end

-- The value of a step, the last of that name.
local function value_of(k, symbol)
  local found
  for _, list in ipairs {k.extra_steps or {}, k.steps or {}} do
    for _, step in ipairs(list) do
      if step.symbol == symbol then found = step.value end
    end
  end
  return found
end

local function stands(cuts, fix, what)
  local a = fixed(cuts, fix)
  lu.assertNil(a.refused, what)
  return a
end

local function refused(cuts, fix, piece)
  local a = fixed(cuts, fix)
  lu.assertStrContains(a.refused or "not refused", piece)
end

-------------------------------------------------------------------------- group action

-- NDS 11.3-1 with gamma = 180000 D^1.5, wood to wood.
local function Cg(D, n, s, EA_m, EA_s)
  local gamma = 180000 * D ^ 1.5
  local R = math.min(EA_m, EA_s) / math.max(EA_m, EA_s)
  local u = 1 + gamma * s / 2 * (1 / EA_m + 1 / EA_s)
  local m = u - math.sqrt(u * u - 1)
  return m * (1 - m ^ (2 * n)) / (n * ((1 + R * m ^ n) * (1 + m) - 1 + m ^ (2 * n)))
    * (1 + R) / (1 - m)
end

-- The form above against a row of NDS Table 11.3.6A (from memory): D = 1 in, s = 4 in,
-- E = 1.4e6, A_s/A_m = 0.5, A_s = 5 in2.
function T.test_the_form_of_group_action()
  for n, value in pairs {[2] = 0.98, [3] = 0.92, [4] = 0.84, [5] = 0.75, [6] = 0.68} do
    support.close_abs(Cg(1, n, 4, 1.4e7, 7e6), value, 0.006)
  end
end

local GAP = {ns.sever {from = "6-0", to = "6-5"}}

local function over_the_gap(n, fastener)
  return sister({{at = "3-4", n = n}, {at = "5-6", n = n}, {at = "6-11", n = n},
    {at = "9-1", n = n}}, {from = "2-10", to = "9-8", fastener = fastener})
end

-- Nine 1/4 in lags across a 2x10: edges 4D, so 1 to 8.25 in; two columns of 5 and 4, each
-- place 7.25/8 in above the last, 1.8125 in within a column. Lines 5D = 1.25 in apart
-- (l/D = 6), which is the width that counts (11.3.6.3).
function T.test_nine_in_two_columns()
  local a = stands(GAP, over_the_gap(9, LAG))
  local k = find(a, "fasteners", "sister")
  local EA = 1.6e6 * 1.5 * 1.25
  local by_hand = Cg(0.25, 5, 2 * 7.25 / 8, EA, EA)
  lu.assertTrue(by_hand < 0.98)
  close(value_of(k, "Cg"), by_hand, 1e-9)
  close(k.capacity, 9 * value_of(k, "Z") * by_hand, 1e-9)
  local found = false
  for _, note in ipairs(a.notes) do
    found = found or note:find(("%.3f: 5 in a column"):format(by_hand), 1, true)
  end
  lu.assertTrue(found ~= false, "the factor is printed")
end

-- One column: over the least spacing along the grain, 3D.
function T.test_one_column()
  local a = stands(GAP, over_the_gap(4, BOLT))
  local EA = 1.6e6 * 1.5 * 3 * 0.5
  local k = find(a, "fasteners", "sister")
  close(value_of(k, "Cg"), Cg(0.5, 4, 5.25 / 3, EA, EA), 1e-9)
end

-- Small fasteners have none (11.3.6.1).
function T.test_none_below_a_quarter()
  local a = stands(GAP, over_the_gap(9, ns.fastener {kind = "wood screw", number = 10,
    length = "3 in"}))
  lu.assertEquals(value_of(find(a, "fasteners", "sister"), "Cg") or 1, 1)
end

-- More in a group never carry less, though each carries less.
function T.test_more_in_a_group_never_hurts()
  local before = 0
  for n = 2, 14 do
    local k = find(stands(GAP, over_the_gap(n, LAG), n), "fasteners", "sister")
    lu.assertTrue(k.capacity > before, n)
    before = k.capacity
  end
end

-- Not more than five to a line, and parts, layout, forces and calculation agree.
function T.test_counts_agree()
  for n = 1, 14 do
    local a = stands(GAP, over_the_gap(n, LAG), n)
    local lines, most = {}, 0
    for _, p in ipairs(a.layout) do
      local key = ("%.4f"):format(p.x)
      lines[key] = (lines[key] or 0) + 1
      most = math.max(most, lines[key])
    end
    lu.assertTrue(most <= 5, n)
    lu.assertEquals(#a.layout, 4 * n)
    lu.assertEquals(a.fasteners[1].count, 4 * n)
    for _, s in ipairs(a.stations) do lu.assertEquals(s.n, n) end
    lu.assertEquals(value_of(find(a, "fasteners", "sister"), "n_f"), n)
  end
end

-- Neighbors in height stand in different lines, 5D apart.
function T.test_staggered()
  local a = stands(GAP, over_the_gap(10, LAG))
  local first = {}
  for _, p in ipairs(a.layout) do
    if p.x < 50 then first[#first + 1] = p end
  end
  table.sort(first, function(p, q) return p.h < q.h end)
  lu.assertEquals(#first, 10)
  for i = 2, 10 do
    close(math.abs(first[i].x - first[i - 1].x), 1.25, 1e-9)
    close(first[i].h - first[i - 1].h, 7.25 / 9, 1e-9)
  end
end

-- Lines nearer than 12.5.1D: l/D = 3, (5*1.5 + 10*0.5)/8 = 1.5625 in.
function T.test_lines_too_near()
  local function two(apart)
    return sister {{at = 40, n = 2}, {at = 40 + apart, n = 2}, {at = 120, n = 2}}
  end
  stands({}, two(1.5625))
  refused({}, two(1.55), "1.562")
end

------------------------------------------------------------------------------- distances

-- One bolt in the middle of each group: 4.625 in up.
local function singles(changes)
  return sister({{at = 30, n = 1}, {at = 60, n = 1}, {at = 110, n = 1}}, changes)
end

local function bottom_notch(depth)
  return {ns.notch {face = "bottom", from = 58, to = 62, depth = depth}}
end

-- A loaded edge: 4D = 2 in from the edge of a notch, of a hole above or below.
function T.test_edges_of_cuts_are_edges()
  stands(bottom_notch(2.625), singles())
  refused(bottom_notch(2.65), singles(), "notch 1")
  refused(bottom_notch(4.025), singles(), "0.6 in across")
  stands({ns.hole {at = 60, diameter = 1, below = 6.625}}, singles())
  refused({ns.hole {at = 60, diameter = 1, below = 6.6}}, singles(), "hole 1")
  stands({ns.hole {at = 60, diameter = 1, below = 1.625}}, singles())
  refused({ns.hole {at = 60, diameter = 1, below = 1.65}}, singles(), "hole 1")
  refused({ns.split {from = 55, to = 65, at_depth = 5}}, singles(), "split 1")
  stands({ns.split {from = 55, to = 65, at_depth = 2.5}}, singles())
end

-- An end in tension: 7D = 3.5 in for the full value, at least half of it.
function T.test_faces_of_cuts_are_ends()
  local function slot(off)
    return {ns.slot {from = 60 + off, to = 70 + off, height = 2}}
  end
  local full = find(stands(slot(3.5), singles()), "fasteners")
  lu.assertEquals(value_of(full, "C_delta") or 1, 1)
  for _, off in ipairs {3, 2, 1.75} do
    local k = find(stands(slot(off), singles(), off), "fasteners")
    close(value_of(k, "C_delta"), off / 3.5, 1e-9)
  end
  refused(slot(1.74), singles(), "slot 1")
  refused(slot(-1), singles(), "would stand in a cut")
end

-- Force across the grain, the joist's own end 2D off at least: it runs 1.75 in past the
-- middle of its bearing.
function T.test_the_joists_own_end()
  local function at(x)
    return sister {{at = x, n = 1}, {at = 60, n = 1}, {at = 150, n = 1}}
  end
  close(value_of(find(stands({}, at(0)), "fasteners"), "C_delta"), 1.75 / 2, 1e-9)
  lu.assertNil(fixed({}, at(0.25)).refused)
end

local function charred(face, amount)
  return {ns.loss {from = 55, to = 65, [face] = amount, allowance = 0.25, cause = "char"}}
end

-- Burnt wood holds no fastener: on the sides nothing is driven in that length, below none
-- is nearer than 4D to what is left.
function T.test_burnt_wood_keeps_fasteners_out()
  refused(charred("sides", 0.25), singles(), "charred")
  local a = stands(charred("sides", 0.25), sister(nil, {pitch = 6}))
  for _, p in ipairs(a.layout) do lu.assertTrue(p.x < 55 or p.x > 65) end
  local b = stands(charred("bottom", 0.5), sister(nil, {pitch = 6}))
  local inside = 0
  for _, p in ipairs(b.layout) do
    if p.x > 55 and p.x < 65 then
      inside = inside + 1
      lu.assertTrue(p.h >= 0.75 + 2 - 1e-9)
    end
  end
  lu.assertTrue(inside > 0)
end

-- Rot reaches 12 in further: of a group whose middle is outside, its inner column is not.
function T.test_rot_by_each_fastener()
  local rot = {ns.loss {from = 72, to = 84, bottom = 1, cause = "rot"}}
  local function group(n)
    return sister {{at = 30, n = n}, {at = 59.5, n = n}, {at = 130, n = n}}
  end
  stands(rot, group(2))
  refused(rot, group(6), "rotten")
end

-------------------------------------------------------------------- wood across the grain

-- d_e is of the wood that is there: over a notch 1 in deep in the top, pushed up, from
-- the new top edge at 8.25 to the lower fastener at 3; an opening 1 in high between two
-- is out.
function T.test_depth_that_is_there()
  local two = {{at = 50, n = 2}, {at = 110, n = 2}}
  local function top(depth)
    local cuts = {}
    for i, x in ipairs {50, 110} do
      cuts[i] = ns.notch {face = "top", from = x - 2, to = x + 2, depth = depth}
    end
    return cuts
  end
  local function d_e(cuts, edge, fastener)
    local a = stands(cuts, sister(two, {edge_distance = edge, fastener = fastener}))
    return value_of(find(a, "connection-shear", "host"), "d_e")
  end
  close(d_e({}, 3), 6.25, 1e-9)
  close(d_e(top(1), 3), 5.25, 1e-9)
  local slots = {}
  for i, x in ipairs {50, 110} do
    slots[i] = ns.slot {from = x - 2, to = x + 2, height = 1}
  end
  close(d_e(slots, 2, LAG), 9.25 - 2 - 1, 1e-9)
end

---------------------------------------------------------------------------------- straps

local NOTCH = {ns.notch {face = "bottom", from = 80, to = 82, depth = 1}}
local HALF = ns.fastener {kind = "lag screw", diameter = "1/2 in", length = "4 in"}

local function strap(changes, cuts)
  local t = {fastener = LAG, thickness = 0.125, n = 8, rows = 2, width = 1.5,
    lift = "unloaded"}
  for name, value in pairs(changes or {}) do t[name] = value end
  return fixed(cuts or NOTCH, ns.strap(t))
end

-- Two rows in 1-1/2 in stand 1/2 in apart and from the edges: 1.5D is 3/8 in for 1/4 in
-- lags, 3/4 in for 1/2 in ones, whose shanks would touch. Three rows of 1/4: 3/8 in each.
function T.test_rows_of_a_strap()
  lu.assertNil(strap().refused)
  lu.assertStrContains(strap({fastener = HALF}).refused, "0.5 in apart")
  lu.assertNil(strap({fastener = HALF, rows = 1}).refused)
  lu.assertNil(strap({n = 9, rows = 3}).refused)
  lu.assertStrContains(strap({n = 8, rows = 4}).refused, "0.3 in apart")
  lu.assertStrContains(strap({rows = 2, width = 1}).refused, "0.3333 in apart")
  lu.assertStrContains(strap({fastener = HALF, rows = 1, width = 1}).refused,
    "edge of the strap")
end

-- One count: layout, parts, checks of fasteners and steel.
function T.test_count_of_a_strap()
  lu.assertStrContains(strap({n = 9}).refused, "8 or 10")
  for n = 2, 12, 2 do
    local a = strap {n = n}
    lu.assertEquals(#a.layout, 2 * n)
    lu.assertEquals(a.fasteners[1].count, 2 * n)
    lu.assertEquals(value_of(find(a, "fasteners", "strap"), "n_f"), n)
    -- A_gv = 2*(e + (n - 1)*s)*t of the steel: e 1/2 in, s 1 in, t 1/8 in.
    close(2 * (value_of(find(a, "steel"), "A_gv") / 0.25 - 0.5 + 1), n, 1e-9)
  end
end

-- Another cut: 7D along the grain from it for the full value, 3.5D at least; above the
-- points of the fasteners by 1.5D it does not count. First fasteners 7D = 1.75 in from
-- the notch, 1 in apart: four in two rows of two reach to 82 + 2.75 = 84.75.
function T.test_strap_near_another_cut()
  local function near(x, below)
    return {NOTCH[1], ns.hole {at = x + 0.5, diameter = 1, below = below or 1}}
  end
  local function with(x, below) return strap({n = 4}, near(x, below)) end
  lu.assertEquals(value_of(find(with(86.5), "fasteners", "strap"), "C_delta") or 1, 1)
  close(value_of(find(with(85.75), "fasteners", "strap"), "C_delta"), 1 / 1.75, 1e-9)
  lu.assertStrContains(with(85.6).refused, "hole 2")
  lu.assertStrContains(with(83.5).refused, "would stand in hole 2")
  lu.assertNil(with(84.5, 3.5).refused)
end

-- A plate that ends over another cut. No. 8 screws (D 0.164 in) in one row, 2-1/2 in from
-- the notch at 80 to 82, 2 in apart: four stand to 90-1/2, the plate ends 1/2 in further
-- (91). 2D = 0.328 in from the last to a cut, so its edge may stand from 90.828 on.
-- There the plate lies over it as far as 91; the wood between the cuts, l = x - 82,
-- holds on one plane: Z = F_v'/2 b l = 180/2 1.5 l = 135 l (NDS Appendix E, memory, one
-- plane).
local SMALL = ns.fastener {kind = "wood screw", number = 8, length = "2 in"}

local function ends_near(x, part)
  return strap({fastener = SMALL, n = 4, rows = 1, pitch = 2, end_distance = 2.5},
    {NOTCH[1], part or ns.notch {face = "bottom", from = x, to = x + 2, depth = 1}})
end

local function named(a, name)
  for _, k in ipairs(a.checks) do if k.name == name then return k end end
end

local function note_of(a, words)
  for _, text in ipairs(a.notes) do if text:find(words, 1, true) then return text end end
end

function T.test_plate_that_ends_over_another_cut()
  for _, x in ipairs {90.83, 90.99, 91, 91.01, 95} do
    local a = ends_near(x)
    lu.assertNil(a.refused, x)
    close(a.x2, 91, 1e-9)
    local k = named(a, "wood between the cut and notch 2")
    close(k.ratio, a.T / (135 * (x - 82)), 1e-6, x)
    close(value_of(k, "Z_s"), 135 * (x - 82), 1e-6, x)
    lu.assertEquals(note_of(a, "the plate lies over notch 2") ~= nil, x < 91, x)
    -- The joist alone carries all of M over the second notch: no strap is counted there.
    local alone = joist {ns.notch {face = "bottom", from = x, to = x + 2, depth = 1}}
      :review()
    local own = alone:find("cut", "net-bending", 1)
    local beside = 0
    for _, c in ipairs(a.checks) do
      if c.mode == "net-bending" and c.name == "notch 2" then beside = c.ratio end
    end
    lu.assertTrue(beside >= own.ratio * (1 - 1e-6), x)
  end
  lu.assertStrContains(ends_near(90.8).refused, "from notch 2; at least")
  lu.assertStrContains(ends_near(90).refused, "would stand in notch 2")
end

-- Fasteners beyond a cut in the bottom edge pull through a plate in the air; a hole
-- higher up than their points by 1.5D has wood under it that runs on.
function T.test_plate_over_a_cut_between_its_fasteners()
  local a = ends_near(85.1, ns.notch {face = "bottom", from = 85.1, to = 85.9,
    depth = 1})
  lu.assertStrContains(a.refused, "beyond notch 2, where the joist's bottom edge is cut")
  lu.assertStrContains(a.refused, "3.1 in of wood")
  a = ends_near(85.1, ns.loss {from = 85.1, to = 85.9, bottom = 0.5, cause = "char"})
  lu.assertStrContains(a.refused, "beyond loss 2")
  a = ends_near(85.1, ns.hole {at = 86, diameter = 1, below = 4})
  lu.assertNil(a.refused)
  lu.assertStrContains(note_of(a, "the plate lies over hole 2"), "1 in")
  lu.assertNil(named(a, "wood between the cut and hole 2"))
end

-- Less wood between the cuts never holds more.
function T.test_less_wood_between_cuts_is_never_better()
  local last = math.huge
  for x = 90.83, 130, 3 do
    local k = named(ends_near(x), "wood between the cut and notch 2")
    lu.assertTrue(k.ratio <= last, x)
    last = k.ratio
  end
end

------------------------------------------------------------------------- order of work

-- Rotted wood begins with the water, burnt wood with its release (common practice); both
-- end with what is seen before it is covered; the rest of the order stays as it is.
function T.test_order_of_work()
  local plain = stands({}, sister(nil, {pitch = 6})).sequence
  local function order(cause)
    return stands({ns.loss {from = 55, to = 65, bottom = 0.5, cause = cause}},
      sister(nil, {pitch = 6})).sequence
  end
  for cause, first in pairs {rot = "water", insects = "insects", char = "fire"} do
    local list = order(cause)
    lu.assertEquals(#list, #plain + 3)
    lu.assertStrContains(list[1], first)
    lu.assertEquals(list[2], plain[1])
    for i = 2, #plain do lu.assertEquals(list[i + 2], plain[i]) end
    lu.assertStrContains(list[#list], "Before anything is covered")
  end
end

---------------------------------------------------------------------------- random cases

local FASTENERS = {BOLT, LAG, HALF, ns.fastener {kind = "bolt", diameter = "3/8 in"}}

local function random_cut(random)
  local x = random(20, 120)
  local kind = random(1, 5)
  if kind == 1 then
    return ns.hole {at = x, diameter = random(4, 14) / 4, below = random(8, 20) / 4}
  elseif kind == 2 then
    return ns.slot {from = x, to = x + random(2, 12), height = random(4, 12) / 4}
  elseif kind == 3 then
    return ns.notch {face = random(0, 1) == 0 and "top" or "bottom", from = x,
      to = x + random(1, 8), depth = random(1, 12) / 4}
  elseif kind == 4 then
    return ns.split {from = x, to = x + random(2, 20), at_depth = random(4, 32) / 4}
  end
  return ns.loss {from = x, to = x + random(2, 12), bottom = random(1, 4) / 4,
    cause = ({"char", "rot", "other"})[random(1, 3)]}
end

-- Boxes without wood, from the description alone; rot 12 in further, its whole depth.
local function boxes(cuts)
  local list = {}
  for i, c in ipairs(cuts) do
    local b = {x1 = c.from, x2 = c.to, h1 = 0, h2 = 9.25}
    if c.kind == "hole" then
      b = {x1 = c.at - c.diameter / 2, x2 = c.at + c.diameter / 2, h1 = c.below,
        h2 = c.below + c.diameter}
    elseif c.kind == "slot" then
      b.h1, b.h2 = (9.25 - c.height) / 2, (9.25 + c.height) / 2
    elseif c.kind == "notch" then
      if c.face == "top" then b.h1 = 9.25 - c.depth else b.h2 = c.depth end
    elseif c.kind == "split" then
      b.h1, b.h2 = 9.25 - c.at_depth, 9.25 - c.at_depth
    elseif c.cause == "rot" then
      b.x1, b.x2, b.rot = c.from - 12, c.to + 12, true
    else
      b.h2 = c.bottom
    end
    list[i] = b
  end
  return list
end

-- One fastener: 4D across from every edge it stands over or under, else 3.5D along.
local function keeps_clear(p, list, what)
  for _, b in ipairs(list) do
    local along = math.max(b.x1 - p.x, p.x - b.x2)
    local across = math.max(b.h1 - p.h, p.h - b.h2)
    if b.rot then
      lu.assertTrue(along > 0, what .. ": in rot")
    else
      lu.assertTrue(across >= 4 * p.D - 1e-6 or along >= 3.5 * p.D - 1e-6, what)
    end
  end
  lu.assertTrue(p.h >= 4 * p.D - 1e-6 and p.h <= 9.25 - 4 * p.D + 1e-6, what .. ": edge")
  lu.assertTrue(p.x >= -1.75 + 2 * p.D - 1e-6 and p.x <= 163.75 - 2 * p.D + 1e-6, what)
end

-- In one line 3D apart, lines (5l + 10D)/8 or 5D apart (l = 1-1/2 in), none over five.
local function keeps_apart(layout, what)
  local in_line = {}
  for i, p in ipairs(layout) do
    local rule = 1.5 >= 6 * p.D and 5 * p.D or (5 * 1.5 + 10 * p.D) / 8
    local key = ("%.4f"):format(p.x)
    in_line[key] = (in_line[key] or 0) + 1
    lu.assertTrue(in_line[key] <= 5, what .. ": more than five in a line")
    for j = i + 1, #layout do
      local q = layout[j]
      local along, up = math.abs(p.x - q.x), math.abs(p.h - q.h)
      if along < 1e-6 then lu.assertTrue(up >= 3 * p.D - 1e-6, what .. ": pitch")
      else lu.assertTrue(along >= rule - 1e-6, what .. ": lines") end
    end
  end
end

-- What is placed keeps every distance, worked out from the description by the code above.
function T.test_random_places()
  math.randomseed(20, 38)
  local random, stood, turned_down = math.random, 0, 0
  for n = 1, 400 do
    local cuts = {random_cut(random), random(1, 2) == 1 and random_cut(random) or nil}
    local f = {fastener = FASTENERS[random(1, #FASTENERS)], lift = "unloaded",
      share = "slip", pitch = random(6, 16), per_row = random(1, 9)}
    if random(1, 2) == 1 then
      f.groups = {{at = random(0, 30), n = random(1, 12)}, {at = random(40, 80),
        n = random(1, 12)}, {at = random(110, 162), n = random(1, 12)}}
      f.pitch, f.per_row = nil, nil
    end
    local ok, a = pcall(fixed, cuts, ns.sister(f))
    if ok and not a.refused then
      stood = stood + 1
      local list = boxes(cuts)
      for _, p in ipairs(a.layout) do keeps_clear(p, list, "case " .. n) end
      keeps_apart(a.layout, "case " .. n)
      local count = 0
      for _, s in ipairs(a.stations) do count = count + s.n end
      lu.assertEquals(count, #a.layout)
      lu.assertEquals(a.fasteners[1].count, #a.layout)
    else
      if not ok then lu.assertStrContains(tostring(a), "joist P") end -- the cuts, said so
      turned_down = turned_down + 1
    end
  end
  lu.assertTrue(stood > 150, stood)
  lu.assertTrue(turned_down > 40, turned_down)
end

-- A deeper notch never frees a place that a shallower one forbids.
function T.test_a_deeper_notch_frees_nothing()
  local before = math.huge
  for depth = 0.5, 5, 0.25 do
    local a = fixed(bottom_notch(depth), sister(nil, {pitch = 4, per_row = 3}))
    local count = a.refused and 0 or #a.layout
    lu.assertTrue(count <= before, depth)
    before = count
  end
end

return T
