-- SPDX-License-Identifier: MIT
-- The joists of a floor as the lines of a grid: places, bearings, EI from place to place
-- in a state, and the loads that stand on them by tributary width.
local added = require "netsection.grid.added"
local core = require "netsection.core"
local headed = require "netsection.grid.headed"
local model = require "netsection.model"
local obstruction = require "netsection.obstruction"
local part = require "netsection.fix.part"
local repaired = require "netsection.grid.repaired"
local units = require "netsection.units"

local lines = {}

-- EI as cut or as it was, one entry a stretch; nothing where nothing is left.
local function stretches(r, state)
  local list = {}
  for _, s in ipairs(core.stiffness(r.joist.model, r.packs.rules, r.packs.standard)) do
    list[#list + 1] = {from = s.from, to = s.to, EI = state == "uncut" and s.uncut
      or s.cut}
  end
  return list
end

-- Takes the wood of x1..x2 out of a list of stretches.
local function without(list, x1, x2)
  local out = {}
  for _, s in ipairs(list) do
    if s.from < x1 then
      out[#out + 1] = {from = s.from, to = math.min(s.to, x1), EI = s.EI}
    end
    if s.to > x2 then
      out[#out + 1] = {from = math.max(s.from, x2), to = s.to, EI = s.EI}
    end
  end
  return out
end

-- Places where a joist is parted: {{x1, x2}, ...}; the whole where it is said to be out.
local function gaps(r, line)
  local list = {}
  if r.joist.description.out then return {{line.first, line.last}} end
  for _, c in ipairs(r.cuts or {}) do
    if c.gate == 6 then
      list[#list + 1] = {math.max(c.x1, line.first), math.min(c.x2, line.last)}
    end
  end
  return list
end

-- Bearings that hold: all, or those that have a seat.
local function bearings(r, state)
  local m, list = r.joist.model, {}
  for i, x in ipairs(model.supports(m)) do
    local lost = m.bearing[i] == 0 or r.seat and r.seat[i] == 0
    for _, c in ipairs(m.cuts) do
      lost = lost or c.lost == "left" and i == 1 or c.lost == "right"
        and i == #m.span + 1
    end
    if state == "uncut" or not lost then list[#list + 1] = x end
  end
  return list
end

-- One joist without what a state does to it.
local function bare(r, place, lines_of)
  local m = r.joist.model
  local n = #lines_of
  -- The deck ends over the edge joists: half of their one bay is theirs.
  local left = place.number > 1 and place.left or 0
  local right = place.number < n and place.right or 0
  return {mark = r.mark, y = place.y, review = r, m = m,
    trib = n > 1 and left + right or m.spacing, first = -m.overhang_left,
    last = model.total(m) + m.overhang_right}
end

-- @param state "cut" as found | "uncut" | "repaired"
-- @param EI {[mark] = lb-in2} of joists that have none
-- @return list of lines, .rows = headers across them; or nil and why the grid cannot be
--   made
function lines.of(floor, reviews, state, EI)
  local places = obstruction.lines(floor.joists)
  local list = {}
  for i, r in ipairs(reviews) do
    local line = bare(r, places[i], places)
    local given = EI and EI[r.mark]
    if not r.computed and not given then
      return nil, ("%s: no stiffness (%s): give EI = {%s = lb-in2}"):format(r.mark,
        r.reasons[1], r.mark)
    end
    line.stretches = r.computed and stretches(r, state == "repaired" and "cut" or state)
      or {{from = line.first, to = line.last, EI = given}}
    if given and r.computed then
      local whole = stretches(r, "uncut")[1].EI
      for _, s in ipairs(line.stretches) do s.EI = s.EI * given / whole end
    end
    line.bearings, line.gaps = bearings(r, state), {}
    if state ~= "uncut" then
      line.gaps = gaps(r, line)
      for _, g in ipairs(line.gaps) do
        line.stretches = without(line.stretches, g[1], g[2])
      end
    end
    if state == "repaired" and r.joist.repair then
      local why = repaired.put(line, r)
      if why then return nil, ("%s: %s"):format(r.mark, why) end
      for _, g in ipairs(line.headed and line.gaps or {}) do
        line.stretches = without(line.stretches, g[1], g[2])
      end
    end
    list[i] = line
  end
  list = added.into(list)
  local why
  list.rows, why = headed.rows(list)
  if not list.rows then return nil, why end
  return list
end

------------------------------------------------------------------------------- loads

-- A line load's intensity that comes to this line, lb/in at both its ends: area loads go
-- by the width of deck that is this joist's, as far as the load reaches.
local function intensity(l, line)
  if not l.area then return l.w1 / 12, l.w2 / 12 end
  local m = line.m
  local w1, w2 = part.plf(l, m)
  local k = (l.width or 0) > 0 and 1 or line.trib / m.spacing
  return w1 * k / 12, w2 * k / 12
end

-- Loads of the joist's own description by tributary width: {lines = {{from, to, w1, w2}},
-- points = {{at, lb}}}, lb/in.
-- @param cases {dead = true, live = true}
-- @param edges "half": an edge line carries half of its bay; "full": as its own check
function lines.loads(line, cases, edges)
  local m, out = line.m, {lines = {}, points = {}}
  local trib = edges == "full" and m.spacing or line.trib
  local place = {m = m, trib = trib}
  for _, case in ipairs {"dead", "live"} do
    if cases[case] then
      local w = m[case] * trib / 144
      if w > 0 then
        out.lines[#out.lines + 1] = {line.first, line.last, w, w}
      end
    end
  end
  for _, l in ipairs(m.lines) do
    if cases[l.case] then
      local w1, w2 = intensity(l, place)
      local from = l.whole and line.first or math.max(l.from, line.first)
      local to = l.whole and line.last or math.min(l.to, line.last)
      if to > from then out.lines[#out.lines + 1] = {from, to, w1, w2} end
    end
  end
  for _, p in ipairs(m.points) do
    if cases[p.case] then out.points[#out.points + 1] = {p.at, p.P} end
  end
  return out
end

-- Which line, or which two by the lever rule, a load at y stands on:
-- {{line, share}, ...}; or nil where there is no joist on one side.
function lines.lever(list, y)
  for i = 1, #list do
    if math.abs(list[i].y - y) < 1e-6 then return {{list[i], 1}} end
    local b = list[i + 1]
    if b and y > list[i].y and y < b.y then
      local k = (y - list[i].y) / (b.y - list[i].y)
      return {{list[i], 1 - k}, {b, k}}
    end
  end
end

-- "J4 at 6'-9\"".
function lines.place(mark, x)
  return ("%s at %s"):format(mark, units.feet_inches(x))
end

return lines
