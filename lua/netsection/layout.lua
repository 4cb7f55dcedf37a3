-- SPDX-License-Identifier: MIT
-- The layout of a joist: its wood, bearings and cuts as they were described, and the
-- pieces and fasteners of a repair, with places along the joist (x from the center of the
-- left bearing) and heights from its bottom edge, inches. Nothing is computed here that a
-- tape could not measure; what the core merges for its checks stays apart.
local model = require "netsection.model"
local units = require "netsection.units"
local verdict = require "netsection.verdict"

local layout = {}

local function sum(list)
  local total = 0
  for _, v in ipairs(list) do total = total + v end
  return total
end

-- An end that does not run on past its bearing is flush with the bearing's far face.
local function ends_of(m, L)
  return -math.max(m.overhang_left, m.bearing[1] / 2),
    L + math.max(m.overhang_right, m.bearing[#m.bearing] / 2)
end

------------------------------------------------------------------------------------ cuts

-- Bottom of an opening of `height` in a joist of depth d.
local function bottom_of(c, height, d)
  if c.place == "below" then return c.below end
  if c.place == "above" then return d - c.above - height end
  return (d - height) / 2
end

-- Band gone at an edge, saw cuts past the corner included.
local function edge_band(c, d)
  local depth = c.depth + (c.overcut or 0)
  if c.top_face then return d - depth, d end
  return 0, depth
end

-- Each gives x1, x2, h1, h2 of what is gone, from the end that the cut is measured from.
local PLACE = {
  hole = function(c, m)
    local half, h = c.diameter / 2 * (c.stretch or 1), bottom_of(c, c.diameter, m.d)
    return c.at - half, c.at + half, h, h + c.diameter
  end,
  slot = function(c, m)
    local h = bottom_of(c, c.height, m.d)
    return c.from, c.to, h, h + c.height
  end,
  notch = function(c, m)
    return c.from, c.to, edge_band(c, m.d)
  end,
  sever = function(c, m) return c.from, c.to, 0, m.d end,
  loss = function(c, m) return c.from, c.to, 0, m.d end,
  split = function(c, m)
    return c.from, c.to, m.d - c.at_depth, m.d - c.at_depth
  end,
}

-- Measured from the end of the wood, not from a bearing.
local function end_notch(c, m, start, finish)
  if c.right_end then return finish - c.length, finish, edge_band(c, m.d) end
  return start, start + c.length, edge_band(c, m.d)
end

local MORE = {"top", "bottom", "sides", "taper", "top_face", "split_length"}

local function cut_of(c, m, L, start, finish, label)
  local x1, x2, h1, h2
  if c.kind == "end_notch" then
    x1, x2, h1, h2 = end_notch(c, m, start, finish)
  else
    x1, x2, h1, h2 = PLACE[c.kind](c, m)
    if c.from_right then x1, x2 = L - x2, L - x1 end
  end
  local cut = {kind = c.kind, name = c.name, label = label, x1 = x1, x2 = x2, h1 = h1,
    h2 = h2, kerf = c.overcut, right_end = c.right_end}
  for _, name in ipairs(MORE) do cut[name] = c[name] end
  if c.ply then -- as it was measured on its ply
    cut.ply, cut.sides = c.ply, c.ply_sides or c.sides
    cut.label = ("%s of %d"):format(label, m.plies)
  end
  if c.lost and c.extend > 0 then -- from where it is gone to where it begins to count
    cut.seen = c.from_right and {x1, L - c.seen} or {c.seen, x2}
  end
  return cut
end

------------------------------------------------------------------------------------- fix

-- "2 of 2x10 x 6-5".
local function piece_label(p, show)
  local size, length = p.size or p.stock, p.length
  local long = length and show.dash(length)
  local text = size and long and size .. " x " .. long or size or long and long .. " long"
    or ""
  return (p.count or 1) > 1 and ("%d of %s"):format(p.count, text) or text
end

local function fastener_label(f)
  local count = f.count and ("%d of "):format(f.count) or ""
  return count .. (f.fastener or "") .. (f.where and ", " .. f.where or "")
end

-- New wood notched over a bearing that stands higher than its bottom edge.
local function notch_ends(pieces, seats, supports, bearing)
  for _, p in ipairs(pieces) do
    for _, e in ipairs(not p.of and p.x1 and p.kind == "wood" and seats or {}) do
      if e.notch then
        local i = e.right and #supports or 1
        local half = (bearing[i] or 0) / 2
        p.notches = p.notches or {}
        table.insert(p.notches, {right = e.right, h = p.h1 + e.notch,
          x1 = e.right and supports[i] - half or p.x1,
          x2 = e.right and p.x2 or supports[i] + half})
      end
    end
  end
end

local function fix_of(fixed, show, supports, bearing)
  if not fixed or fixed.refused then return nil end
  local pieces, fasteners = {}, {}
  for i, p in ipairs(fixed.pieces or {}) do
    pieces[i] = {name = p.name, kind = p.kind, x1 = p.x1, x2 = p.x2, h1 = p.h1, h2 = p.h2,
      y1 = p.y1, y2 = p.y2, of = p.of, label = p.label or piece_label(p, show)}
  end
  for i, f in ipairs(fixed.fasteners or {}) do
    fasteners[i] = {D = f.D, label = fastener_label(f)}
  end
  if fixed.kind == "neighbor" then return nil end
  notch_ends(pieces, fixed.seats, supports, bearing)
  local title = fixed.title
  local trial = fixed.status ~= nil and fixed.status ~= "adequate" or nil
  if trial then title = verdict.not_built .. ": " .. title end
  return {title = title, trial = trial, pieces = pieces, layout = fixed.layout or {},
    fasteners = fasteners}
end

--- What a drawing to scale needs of a review, with or without a repair.
-- @param review a review (its joist's model, and fixed if there is a repair)
-- @return {mark, title, b (of all plies), plies, d, start, finish, supports, bearing,
--   cuts = {{kind, name, label, x1, x2, h1, h2, ply, ...}}, fix = nil or {title, pieces,
--   layout, fasteners}}, inches
function layout.of(review)
  local m = review.joist.model
  local L = sum(m.span)
  local start, finish = ends_of(m, L)
  local cuts = {}
  for i, c in ipairs(m.cuts) do
    local found = review.cuts and review.cuts[i]
    cuts[i] = cut_of(c, m, L, start, finish, found and found.label or c.kind)
  end
  local supports = model.supports(m)
  return {mark = m.mark, title = review.title, b = m.b * m.plies, plies = m.plies,
    d = m.d, start = start, finish = finish, supports = supports,
    bearing = {table.unpack(m.bearing)}, cuts = cuts,
    fix = fix_of(review.fixed, m.show, supports, m.bearing), show = m.show}
end

-- Fasteners that stand at one place along the joist, columns from left to right.
-- @param fasteners the 'layout' of a fixed state
-- @return list of {x =, first = its first place in the list, places = {fasteners}}
function layout.columns(fasteners)
  local at, list = {}, {}
  for i, p in ipairs(fasteners) do
    local key = units.fixed(p.x, 3)
    if not at[key] then
      at[key] = {x = p.x, first = i, places = {}}
      list[#list + 1] = at[key]
    end
    table.insert(at[key].places, p)
  end
  table.sort(list, function(a, b) return a.x < b.x end)
  return list
end

return layout
