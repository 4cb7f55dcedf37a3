-- SPDX-License-Identifier: MIT
-- The joist cut across at one place: what wood is gone there as it was measured, the
-- section that is left, the pieces and fasteners of a repair that stand there. Heights
-- from the bottom edge, offsets across from the center line (right positive), inches. The
-- properties are the core's; where a check counts less wood (a lip too thin, cuts taken
-- together, rot that reaches further), its own numbers stand beside the measured ones.
local core = require "netsection.core"
local layout = require "netsection.layout"

local profile = {}

-- Where a cut's edges coincide with the place, in.
local EDGE = 1e-6
-- A column of fasteners farther away is not shown, in.
local NEAR = 24

local function at_place(cut, x)
  return x >= cut.x1 - EDGE and x <= cut.x2 + EDGE
end

local function nothing() return {top = 0, bottom = 0, sides = 0} end

-- Bands gone at x, from the bottom, each with its ply where it is in one; what a loss
-- takes from all plies, and by ply from one.
-- @return bands, lost, names, own = {[ply] = lost} or nil where no ply has a cut there
local function gone(L, x)
  local bands, all, names, own = {}, nothing(), {}, nil
  for _, cut in ipairs(L.cuts) do
    if at_place(cut, x) and cut.kind ~= "split" then
      names[#names + 1] = cut.name
      local lost = all
      if cut.ply then
        own = own or {}
        own[cut.ply] = own[cut.ply] or nothing()
        lost = own[cut.ply]
      end
      if cut.kind == "loss" then
        for face in pairs(lost) do lost[face] = math.max(lost[face], cut[face] or 0) end
      else
        bands[#bands + 1] = {h1 = math.max(cut.h1, 0), h2 = math.min(cut.h2, L.d),
          name = cut.name, kind = cut.kind, ply = cut.ply}
      end
    end
  end
  table.sort(bands, function(p, q)
    if p.h1 ~= q.h1 then return p.h1 < q.h1 end
    return p.h2 < q.h2
  end)
  return bands, all, names, own
end

-- Wood beside wood, each with its own cuts: the joist, or its plies from the left where
-- one of them has a cut.
-- @return {{y1, y2, left, right = lost from its faces, low, high = heights of its edges,
--   bands, plies = how many lie in it, ply}, ...}
local function columns(L, bands, lost, own)
  if not own then
    return {{y1 = -L.b / 2, y2 = L.b / 2, left = lost.sides, right = lost.sides,
      low = lost.bottom, high = L.d - lost.top, bands = bands, plies = L.plies}}
  end
  local list, b, n = {}, L.b / L.plies, L.plies
  for k = 1, n do
    local o, of = own[k] or nothing(), {}
    for _, band in ipairs(bands) do
      if not band.ply or band.ply == k then of[#of + 1] = band end
    end
    list[k] = {y1 = -L.b / 2 + (k - 1) * b, y2 = -L.b / 2 + k * b, ply = own[k] and k,
      left = math.max(o.sides, k == 1 and lost.sides or 0),
      right = math.max(o.sides, k == n and lost.sides or 0),
      low = math.max(o.bottom, lost.bottom), high = L.d - math.max(o.top, lost.top),
      bands = of, plies = 1}
  end
  return list
end

local function joined(bands, low, high)
  local list = {}
  for _, band in ipairs(bands) do
    local h1, h2 = math.max(band.h1, low), math.min(band.h2, high)
    local last = list[#list]
    if last and h1 <= last[2] + EDGE then
      last[2] = math.max(last[2], h2)
    elseif h2 > h1 then
      list[#list + 1] = {h1, h2}
    end
  end
  return list
end

-- Properties of what is left, y_b from the joist's bottom edge; nil where nothing is left
-- or more is cut out than two bands.
local function properties(c)
  local low, high, b = c.low, c.high, c.y2 - c.y1 - c.left - c.right
  local list = joined(c.bands, low, high)
  local open = high - low
  for _, band in ipairs(list) do open = open - (band[2] - band[1]) end
  if #list > 2 or open <= EDGE or b <= EDGE then return nil end
  local first, second = list[1] or {}, list[2] or {}
  local function up(h) return h and h - low end
  local s = core.section {b = b, d = high - low, y1 = up(first[1]), y2 = up(first[2]),
    z1 = up(second[1]), z2 = up(second[2])}
  if not (s.S_b > 0 and s.S_t > 0) then return nil end     -- lips too thin to count
  return {A = s.A, I = s.I, S_b = s.S_b, S_t = s.S_t, y_b = s.y_b + low,
    bottom = s.y_b + low - s.I / s.S_b, top = s.y_b + low + s.I / s.S_t}
end

-- The same of the wood before any cut.
local function whole(c, d)
  return properties {y1 = c.y1, y2 = c.y2, left = 0, right = 0, low = 0, high = d,
    bands = {}}
end

-- The column that the numbers are of: the joist, or the ply with the least I left.
local function weakest(list)
  local worst, least
  for _, c in ipairs(list) do
    local s = properties(c)
    local I = s and s.I or 0
    if (c.ply or #list == 1) and (not least or I < least) then worst, least = c, I end
  end
  return worst
end

-- The numbers of the worst check of net bending at a cut there, by symbol.
local function checked(review, x)
  local worst
  for _, k in ipairs(review.cut and review.cut.checks or {}) do
    local cut = k.mode == "net-bending" and k.cut and review.cuts[k.cut]
    if cut and x >= cut.x1 - EDGE and x <= cut.x2 + EDGE
      and (not worst or k.ratio > worst.ratio) then
      worst = k
    end
  end
  if not worst then return nil end
  local found = {name = worst.name, ratio = worst.ratio, at = worst.at}
  for _, step in ipairs(worst.steps) do found[step.symbol] = step.value end
  -- the core's axis in what a loss leaves is above the edge left, not the joist's own
  if review.cuts[worst.cut].kind == "loss" then found.y_b = nil end
  return found
end

local function pieces_at(L, x)
  local list = {}
  for i, p in ipairs(L.fix and L.fix.pieces or {}) do
    if p.x1 and p.h1 and p.y1 and not p.of and x >= p.x1 - EDGE and x <= p.x2 + EDGE then
      list[#list + 1] = {number = i, name = p.name, kind = p.kind, h1 = p.h1, h2 = p.h2,
        y1 = p.y1, y2 = p.y2, label = p.label}
    end
  end
  return list
end

-- The column of fasteners nearest to x that goes through a piece there.
local function column(L, pieces, x)
  local here, best, list = {}, nil, {}
  for _, p in ipairs(pieces) do here[p.number] = p end
  for _, f in ipairs(L.fix and L.fix.layout or {}) do
    local far = math.abs(f.x - x)
    if here[f.piece or 1] and far <= NEAR and (not best or far < math.abs(best - x)) then
      best = f.x
    end
  end
  for _, f in ipairs(L.fix and L.fix.layout or {}) do
    if best and math.abs(f.x - best) < EDGE and here[f.piece or 1] then
      list[#list + 1] = {h = f.h, y = f.y, D = f.D, piece = here[f.piece or 1]}
    end
  end
  return list, best
end

-- Splits at the place: {{h, name}, ...}; nil where there is none.
local function splits_at(L, x)
  local list = {}
  for _, cut in ipairs(L.cuts) do
    if cut.kind == "split" and at_place(cut, x) then
      list[#list + 1] = {h = cut.h1, name = cut.name, ply = cut.ply}
    end
  end
  return list[1] and list or nil
end

-- The number of the cut that decides: where nothing is left, else what governs above 1,
-- else what the standard does not permit, else what governs or breaks a rule.
local function deciding(review, L)
  local k = review.cut and review.cut.governing_check
  local function first(test)
    for i in ipairs(L.cuts) do
      if test(review.cuts and review.cuts[i] or {}, L.cuts[i]) then return i end
    end
  end
  local governs = k and k.cut
  return first(function(_, cut) return cut.kind == "sever" end)
    or governs and k.ratio and k.ratio > 1 and governs
    or first(function(c) return c.status == "not permitted" end) or governs
    or first(function(c) return c.rules ~= nil and c.rules ~= "within" end)
    or L.cuts[1] and 1
end

-- Where nothing is asked for: the cut that decides, else the middle of the joist.
function profile.place(review)
  local L = layout.of(review)
  local cut = L.cuts[deciding(review, L)]
  if cut then return (math.max(cut.x1, L.start) + math.min(cut.x2, L.finish)) / 2 end
  return (L.supports[1] + L.supports[#L.supports]) / 2
end

--- @param x place, inches from the center of the left bearing
-- @return {x, mark, title, b, d, plies, bands, lost, names, section, whole (of ply
--   'ply' where one has a cut there), columns = the wood beside each other, check,
--   pieces, fasteners, row, shank, fix, split = {{h, name}, ...} or nil}; or nil and what
--   is wrong with the place. Where there is a split no section is one piece.
function profile.of(review, x)
  local L = layout.of(review)
  x = x or profile.place(review)
  if not (x >= L.start - EDGE and x <= L.finish + EDGE) then
    return nil, "at: the place is past the end of the joist"
  end
  local bands, lost, names, own = gone(L, x)
  local list = columns(L, bands, lost, own)
  local c = weakest(list)
  local split = splits_at(L, x)
  local pieces = pieces_at(L, x)
  local fasteners, row = column(L, pieces, x)
  local repair = review.joist.repair
  return {x = x, show = L.show, mark = L.mark, title = L.title, b = L.b, d = L.d,
    plies = L.plies,
    bands = bands, lost = lost, names = names,
    section = not split and properties(c) or nil, split = split,
    whole = whole(c, L.d), columns = list, ply = c.ply or nil,
    check = checked(review, x), pieces = pieces, fasteners = fasteners, row = row,
    shank = repair and repair.fastener and repair.fastener.length,
    fix = L.fix and L.fix.title}
end

return profile
