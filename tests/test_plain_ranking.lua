-- SPDX-License-Identifier: MIT
-- Rankings of random floors worked again by plain means: what each repair runs into, from
-- the places of both alone; class and number of what moves, pieces, fasteners, the ratio
-- (tests/plain_repair.lua), which repairs are ranked, and their order.
--
-- NETSECTION_RANKINGS: floors (default 20); NETSECTION_SEED: another sequence.
local lu = require "luaunit"
local ns = require "netsection"
local random = require "tests.random_repair"
local repair = require "tests.plain_repair"
local support = require "tests.support"

local T = {}
local abs, max, min = math.abs, math.max, math.min
local SEED = tonumber(os.getenv "NETSECTION_SEED") or 20261129
local FLOORS = tonumber(os.getenv "NETSECTION_RANKINGS") or 20
local ENDLESS, SLIVER = 1e5, 1 / 16

------------------------------------------------------------------------- plain geometry

-- Solids are boxes x1..h2, or round ones that run along an axis.
local ACROSS = {x = {"y", "h"}, y = {"x", "h"}, h = {"x", "y"}}

local function stretch(s, box, n, move)
  return s[n .. 1] < box[n .. 2] + move and box[n .. 1] + move < s[n .. 2]
end

-- Whether a solid and a box that is moved by t along the axis n overlap; a round one with
-- its radius less by `less`.
local function overlap(s, box, n, t, less)
  local function move(m) return m == n and t or 0 end
  if not s.axis then
    return stretch(s, box, "x", move "x") and stretch(s, box, "y", move "y")
      and stretch(s, box, "h", move "h")
  end
  local away = 0
  for _, m in ipairs(ACROSS[s.axis]) do
    local c = (s[m .. 1] + s[m .. 2]) / 2
    away = away + max(0, box[m .. 1] + move(m) - c, c - box[m .. 2] - move(m)) ^ 2
  end
  local m = ACROSS[s.axis][1]
  local radius = (s[m .. 2] - s[m .. 1]) / 2 - (less or 0)
  return stretch(s, box, s.axis, move(s.axis)) and away < radius ^ 2
end

-- The least shift of the box along an axis that parts them, either way, by halving.
local function shift(s, box, n)
  local least = math.huge
  for way = -1, 1, 2 do
    local low, high = 0, 4 * ENDLESS
    for _ = 1, 60 do
      local t = (low + high) / 2
      if overlap(s, box, n, way * t) then low = t else high = t end
    end
    least = min(least, high)
  end
  return least
end

local WORDS = {{"y", "across"}, {"h", "in height"}, {"x", "along the joist"}}

-- How a solid and a box meet by more than a sliver, or nil.
local function meets(s, box)
  if not overlap(s, box, "x", 0, SLIVER) then return nil end
  local met = {by = math.huge,
    at = (max(s.x1, box.x1) + min(s.x2, box.x2)) / 2}
  for _, w in ipairs(WORDS) do
    local by = shift(s, box, w[1])
    if by <= SLIVER and (not s.axis or s.axis == w[1]) then return nil end
    if by < met.by - 1e-9 then met.by, met.direction = by, w[2] end
  end
  return met
end

-- By hand: a 4 in pipe across at x = 50, 2 in below the tops; boxes beside and into it.
function T.test_the_plain_geometry()
  local pipe = {axis = "y", x1 = 48, x2 = 52, h1 = -4, h2 = 0, y1 = -8, y2 = 8}
  local box = {x1 = 51, x2 = 90, h1 = -9, h2 = -2, y1 = 0.75, y2 = 2.25}
  local met = meets(pipe, box)
  support.close(met.by, 1, 1e-9) -- 52 - 51, the center's height is the box's top
  lu.assertEquals(met.direction, "along the joist")
  box.h2 = -3 -- 1 in under the center: half a chord is sqrt(4 - 1)
  support.close(meets(pipe, box).by, math.sqrt(3) - 1, 1e-9)
  box.x1, box.h2 = 51.5, -3.4 -- sqrt(1.5^2 + 1.4^2) = 2.05 in off
  lu.assertNil(meets(pipe, box))
end

------------------------------------------------------------------------------- the floor

-- Class where it is easily moved, and where a trade is needed.
local CLASS = {wire = {1, 2}, pipe = {3, 3}, drain = {4, 4}, duct = {5, 5}, blocking = {1,
  2}, finish = {6, 6}}

-- Off the grid of the repairs, so that nothing ends on a limit by chance.
local function off(x) return math.floor(x * 4) / 4 + 0.0371 end

local things = {}

-- A round thing that runs along, so far from the center line of a joist.
function things.along(r, j, floor, t)
  local a, D, y, h = off(r:real(0, j.L[1] / 2)), r:real(0.75, 4), off(r:real(-6, 6)),
    off(r:real(1, j.d))
  local k = r:int(1, floor.n)
  t.joist, t.from, t.to, t.y, t.height, t.diameter = "J" .. k, a, a + off(r:real(10, 60)),
    y, h, D
  local c = (k - 1) * j.s + y
  return {axis = "x", x1 = a, x2 = t.to, y1 = c - D / 2, y2 = c + D / 2,
    h1 = h - j.d - D / 2, h2 = h - j.d + D / 2}
end

-- One that runs across through joists, taken to go on to the middle of the next bays.
function things.across(r, j, floor, t)
  local k = r:int(1, floor.n - 1)
  local last = r:int(k, floor.n)
  t.joists = {}
  for i = k, last do t.joists[#t.joists + 1] = "J" .. i end
  local x, h, D = off(r:real(10, j.L[1] - 10)), off(r:real(1, j.d)), r:real(0.5, 4)
  t.at, t.height, t.diameter, t.through = x, h, D, true
  return {axis = "y", x1 = x - D / 2, x2 = x + D / 2, h1 = h - j.d - D / 2,
    h2 = h - j.d + D / 2, y1 = (k - 1.5) * j.s, y2 = (last - 0.5) * j.s}
end

-- A box that fills a bay.
function things.bay(r, j, floor, t)
  local k = r:int(1, floor.n - 1)
  local a, low = off(r:real(0, j.L[1] * 0.7)), off(r:real(-3, j.d - 2))
  t.bay, t.from, t.to, t.bottom, t.top = {"J" .. k, "J" .. k + 1}, a, a
    + off(r:real(3, 70)), low, low + r:real(1, 5)
  return {x1 = a, x2 = t.to, h1 = low - j.d, h2 = t.top - j.d, y1 = (k - 1) * j.s
    + j.b / 2, y2 = k * j.s - j.b / 2}
end

-- A box against a face, as far out as it is tall, to the middle of the bay at most.
function things.face(r, j, floor, t)
  local k, right = r:int(1, floor.n), r:unit() < 0.5
  local a, low, tall = off(r:real(0, j.L[1] * 0.8)), off(r:real(0, j.d - 1)),
    r:real(0.5, 3)
  t.joist, t.side, t.from, t.to, t.bottom, t.top = "J" .. k, right and "right" or "left",
    a, a + off(r:real(2, 40)), low, low + tall
  local out, y = min(tall, j.s / 2 - j.b / 2), (k - 1) * j.s
  return {x1 = a, x2 = t.to, h1 = low - j.d, h2 = low + tall - j.d,
    y1 = right and y + j.b / 2 or y - j.b / 2 - out, y2 = right and y + j.b / 2 + out
      or y - j.b / 2}
end

-- A ceiling under all joists, or under a length of them.
function things.ceiling(r, j, _, t)
  t.kind, t.side = "finish", "below"
  if r:unit() < 0.5 then
    t.from = off(r:real(0, j.L[1] / 2))
    t.to = t.from + off(r:real(20, 60))
  end
  return {x1 = t.from or -ENDLESS, x2 = t.to or ENDLESS, y1 = -ENDLESS, y2 = ENDLESS,
    h1 = -ENDLESS, h2 = -j.d}
end

local SORTS = {"along", "along", "across", "across", "bay", "face", "face", "ceiling"}

-- What stands there: as it is described, and as a solid with its class.
local function thing(r, j, floor, i)
  local t = {what = "thing " .. i, kind = r:pick {"wire", "pipe", "drain", "duct",
    "blocking"}, movable = r:pick {"easy", "trade", "trade", "no"}}
  local s = things[r:pick(SORTS)](r, j, floor, t)
  s.what, s.number, s.finish = t.what, i, t.kind == "finish"
  s.fast = t.movable == "no"
  s.class = CLASS[t.kind][t.movable == "easy" and 1 or 2]
  if r:unit() < 0.15 then t.class = r:int(0, 7) end
  s.class = t.class or s.class
  return ns.obstruction(t), s
end

local KINDS = {"sister", "sister", "sister", "side_plates", "side_plates", "strap",
  "midspan_support"}

-- A repair like another to the piece, of other wood or steel, or the very same.
local function twin(r, f)
  local new = {}
  for name, value in pairs(f) do new[name] = value end
  if r:unit() < 0.25 then return new end
  if f.wood then new.wood = random.wood(r) end
  if f.steel then
    new.steel, new.gauge, new.thickness = "A36", nil, r:pick {0.125, 0.1875, 0.25, 0.375}
  end
  return new
end

-- A floor of like joists, of which one is cut, and repairs of that one.
local function case(r)
  local j = random.joist(r, {"hole", "slot", "notch", "sever"}, 1)
  j.D, j.Lpsf, j.points, j.lines = r:real(3, 8), r:pick {10, 20, 30}, {}, {}
  local floor = {n = r:int(3, 6), solids = {}, fixes = {}, j = j}
  floor.cut = r:int(1, floor.n)
  local t = {name = "R", joists = {}, obstructions = {}}
  for i = 1, r:int(0, 9) do
    t.obstructions[i], floor.solids[i] = thing(r, j, floor, i)
  end
  for i = 1, r:int(3, 7) do
    local _, f
    repeat
      local kind = r:pick(KINDS)
      local cut = j.cuts[1]
      local under = kind == "strap" and cut.kind == "notch" and cut.y1 > 0
      if not under then _, f = random.of(r, kind, j) end
    until f
    if f.kind == "sister" or f.kind == "side_plates" then
      for _, g in ipairs(f.groups or {}) do g.n = r:int(6, 12) end
      f.per_row = f.per_row and 3
    end
    floor.fixes[i] = i > 1 and r:unit() < 0.4 and twin(r, floor.fixes[i - 1]) or f
  end
  for i = 1, floor.n do
    local one = setmetatable({cuts = i == floor.cut and j.cuts or {}}, {__index = j})
    t.joists[i] = random.described(one, "J" .. i)
  end
  floor.module = ns.floor(t)
  return floor
end

---------------------------------------------------------------------- what is worked out

-- Boxes of a repair's pieces in the floor's frame: beside the joist with their tops at
-- its top, over the bearings where a sister stands on them; a strap under it as far as
-- its fasteners and 2D (1/2 in at least) past them; what holds it up from below, across
-- the bay, as deep as the joist.
local function boxes(floor, f, fixed)
  local j, y, list = floor.j, (floor.cut - 1) * floor.j.s, {}
  if f.kind == "midspan_support" then
    return {{x1 = f.at - f.bearing / 2, x2 = f.at + f.bearing / 2, h1 = -2 * j.d,
      h2 = -j.d, y1 = y - j.s / 2, y2 = y + j.s / 2}}
  end
  local t = f.gauge and ({[10] = 0.1242, [12] = 0.1017, [14] = 0.0713})[f.gauge]
    or f.thickness
  if f.kind == "strap" then
    local a, b, past = math.huge, -math.huge, max(2 * f.fastener.D, 0.5)
    for _, p in ipairs(fixed.layout) do a, b = min(a, p.x), max(b, p.x) end
    return {{x1 = a - past, x2 = b + past, h1 = -j.d - t, h2 = -j.d, y1 = y - f.width / 2,
      y2 = y + f.width / 2}}
  end
  local out, deep = f.kind == "sister" and f.b or t, f.d or f.depth
  local top = f.bearing and deep - j.d or 0 -- on the bearings its bottom is the joist's
  for _, side in ipairs(f.side == "both" and {"left", "right"} or {f.side}) do
    local right = side == "right"
    list[#list + 1] = {x1 = f.from - (f.bearing and j.l_b[1] / 2 or 0), x2 = f.to
      + (f.bearing and j.l_b[2] / 2 or 0), h1 = top - deep, h2 = top, y1 = right and y
      + j.b / 2 or y - j.b / 2 - out, y2 = right and y + j.b / 2 + out or y - j.b / 2}
  end
  return list
end

-- Ceilings are opened where the work is done from below.
local function from_below(f) return f.kind == "strap" or f.kind == "midspan_support" end

local function covers(s, box)
  for _, n in ipairs {"x", "y"} do
    local parts = min(s[n .. 2] - box[n .. 1], box[n .. 2] - s[n .. 1])
    if parts <= SLIVER then return false end
  end
  return true
end

-- What has to move, the worst class first, and what cannot.
local function disturbed(floor, f, fixed)
  local moved, stuck = {}, {}
  local list = boxes(floor, f, fixed)
  for _, s in ipairs(floor.solids) do
    local worst
    for _, box in ipairs(list) do
      local met = meets(s, box)
      if met and (not worst or met.by > worst.by + 1e-9) then worst = met end
    end
    for _, box in ipairs(not worst and s.finish and from_below(f) and list or {}) do
      worst = worst or covers(s, box) and {at = (max(s.x1, box.x1) + min(s.x2, box.x2))
        / 2}
    end
    if worst then
      worst.what, worst.class, worst.number = s.what, s.class, s.number
      if s.fast then stuck[#stuck + 1] = worst elseif s.class > 0 then
        moved[#moved + 1] = worst
      end
    end
  end
  for _, l in ipairs {moved, stuck} do
    table.sort(l, function(a, b)
      if a.class ~= b.class then return a.class > b.class end
      return a.at < b.at - 1e-9 or abs(a.at - b.at) <= 1e-9 and a.number < b.number
    end)
  end
  return moved, stuck
end

local function fasteners(j, f, fixed)
  if f.kind == "midspan_support" then return 2 end -- a toe-nail on either side
  if f.kind == "strap" then return 2 * f.n end
  local n = 0
  for _, g in ipairs(f.groups or fixed.stations) do n = n + g.n end
  local faces = f.side == "both" and f.fastener.kind ~= "bolt" and 2 or 1
  return n * faces, j
end

-- The ratio by plain means: of the check that governs where that is one of those compared
-- to the digit, else what it is at least.
local function ratio(j, f, fixed)
  local list, exact, least = repair.compare(j, f, fixed), nil, 0
  for _, c in ipairs(list) do
    if not c.count and c.plain == c.plain then
      if c.same and c.found and abs(c.found - fixed.ratio) < 1e-9 then exact = true end
      least = max(least, c.plain)
    end
  end
  return least, exact
end

---------------------------------------------------------------------------- comparison

local function same_list(plain, found, say, what)
  if #plain ~= #found then
    return say(("%s: plain %d, module %d"):format(what, #plain, #found))
  end
  for i, p in ipairs(plain) do
    local m = found[i]
    if p.what ~= m.what or p.class ~= m.class or abs(p.at - m.at) > 1e-6
      or p.by and abs(p.by - (m.by or 0)) > 1e-6 or p.direction ~= m.direction then
      say(("%s %d: plain %s class %d at %.4f by %s %s, module %s %d %.4f %s %s"):format(
        what, i, p.what, p.class, p.at, p.by, p.direction, m.what, m.class, m.at, m.by,
        m.direction))
    end
  end
end

-- One repair of a ranking; its key, by plain means.
local function entry(floor, e, list, seen, say)
  local f, fixed = floor.fixes[e.index], e.review.fixed
  if fixed.refused then
    if list ~= "refused" then say "refused by itself, and listed" end
    return nil
  end
  local moved, stuck = disturbed(floor, f, fixed)
  same_list(moved, e.moved, say, "moved")
  same_list(stuck, e.stuck, say, "stuck")
  local key = {class = moved[1] and moved[1].class or 0, count = #moved, pieces = #boxes(
    floor, f, fixed), fasteners = (fasteners(floor.j, f, fixed))}
  for _, name in ipairs {"class", "count", "pieces", "fasteners"} do
    if key[name] ~= e[name] then
      say(("%s: plain %s, module %s"):format(name, key[name], e[name]))
    end
  end
  local least, exact = ratio(floor.j, f, fixed)
  if e.ratio < least - 1e-4 * max(least, 0.1) or exact and abs(e.ratio - least) > 1e-4
    * max(least, 0.1) then
    say(("ratio: plain %.6f, module %.6f"):format(least, e.ratio))
  end
  seen.exact = seen.exact + (exact and 1 or 0)
  seen.moved, seen.stuck = seen.moved + #moved, seen.stuck + #stuck
  if e.added_post ~= (f.kind == "midspan_support") then say "post" end
  local due = #stuck > 0 and "refused" or (e.ratio > 1 + 1e-4 or fixed.status
    == "not permitted") and "failing" or "ranked"
  if due ~= list and abs(e.ratio - 1) > 1e-4 then
    say(("%s by plain means, listed as %s"):format(due, list))
  end
  key.ratio, key.index = exact and least or e.ratio, e.index
  return key
end

-- Whether a comes before b: class, number, pieces, fasteners, ratio, place in the list.
-- Ratios are those of the plain means to their digits.
local function before(a, b)
  for _, name in ipairs {"class", "count", "pieces", "fasteners"} do
    if a[name] ~= b[name] then return a[name] < b[name] end
  end
  if abs(a.ratio - b.ratio) > 1e-12 then return a.ratio < b.ratio + 2e-4 end
  return a.index < b.index
end

-- The table as it is printed.
local function printed(ranking, say)
  local rows, text = {}, ns.report.fixes(ranking)
  for line in text:gmatch "[^\n]+" do
    local row = {line:match "^ +(%d+) +(%S+) +(%d+) +(%d+) +(%d+) +(%d+)  %S"}
    if row[1] then rows[#rows + 1] = row end
  end
  if #rows ~= #ranking.ranked then say("rows: " .. text) end
  for i, row in ipairs(rows) do
    local e = ranking.ranked[i]
    local shown = e and {i, e.ratio, e.class, e.count, e.pieces, e.fasteners} or {}
    for k = 1, 6 do
      if abs(tonumber(row[k]) - (shown[k] or 1e9)) > (k == 2 and 0.00501 or 0) then
        say(("row %d: %s"):format(i, table.concat(row, " ")))
      end
    end
  end
end

local function compare(floor, seen, say)
  local fixes = {}
  for i, f in ipairs(floor.fixes) do fixes[i] = random.fix(f) end
  local ranking = floor.module:rank_fixes("J" .. floor.cut, fixes)
  local n = 0
  for _, list in ipairs {"ranked", "failing", "refused"} do
    local last
    for i, e in ipairs(ranking[list]) do
      n = n + 1
      local function said(text)
        say(("%s %d, %s: %s"):format(list, i, e.title, text))
      end
      local key = entry(floor, e, list, seen, said)
      seen[list] = seen[list] + 1
      if list == "ranked" and key then
        if last and not before(last, key) then said "stands behind a worse one" end
        if e.rank ~= i then said "rank" end
        last = key
      elseif list ~= "ranked" and not (e.reason and #e.reason > 0) then
        said "no reason"
      end
    end
  end
  if n ~= #fixes then say(("%d of %d listed"):format(n, #fixes)) end
  printed(ranking, say)
end

function T.test_random_rankings()
  local r, bad = support.random(SEED), {}
  local seen = {ranked = 0, failing = 0, refused = 0, exact = 0, moved = 0, stuck = 0}
  for i = 1, FLOORS do
    compare(case(r), seen, function(text)
      bad[#bad + 1] = ("floor %d: %s"):format(i, text)
    end)
  end
  lu.assertEquals(#bad, 0, table.concat(bad, "\n", 1, min(#bad, 30)))
  for name, n in pairs(seen) do
    lu.assertTrue(FLOORS < 20 or n >= FLOORS / 4, ("%s: %d"):format(name, n))
  end
end

return T
