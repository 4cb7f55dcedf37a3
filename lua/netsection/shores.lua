-- SPDX-License-Identifier: MIT
-- Load on temporary shores. A line of shores stands on each side of what is to be
-- repaired and runs under the joists beside it. A joist cut through is two stubs, each on
-- its bearing and its shore, and half the gap's load goes to each:
-- R = w c^2 / (2 x_s), c from the bearing to the middle of the gap. A joist that holds
-- runs on over its bearings and the shores. Statics; the live load during the work is
-- the user's.
local core = require "netsection.core"
local part = require "netsection.fix.part"
local model = require "netsection.model"
local text = require "netsection.text"
local units = require "netsection.units"

local shores = {}

-- A shore is assumed so far beyond the cut, in (ours; give shores = {at = ...}).
local CLEAR = 12
-- Two supports nearer than this are not told apart by hand or eye, in.
local APART = 1

-- All load that is dead, and with_live what is put on the floor during the work, on
-- a..b, as loads of a beam that begins at `start`; lb and lb per in.
local function loads_of(m, a, b, start, live)
  local out = {}
  local function line(from, to, w1, w2, case)
    if to > from and w1 + w2 > 0 then
      out[#out + 1] = {from = from - start, to = to - start, w1 = w1 / 12, w2 = w2 / 12,
        case = case}
    end
  end
  line(a, b, m.dead * m.spacing / 12, m.dead * m.spacing / 12, "dead")
  if live then line(a, b, live * m.spacing / 12, live * m.spacing / 12, "dead") end
  for _, l in ipairs(m.lines) do
    if l.case == "dead" then
      local w1, w2 = part.plf(l, m)
      local from, to = l.whole and a or l.from, l.whole and b or l.to
      local g = to > from and (w2 - w1) / (to - from) or 0
      local lo, hi = math.max(from, a), math.min(to, b)
      line(lo, hi, w1 + g * (lo - from), w1 + g * (hi - from), "dead")
    end
  end
  for _, p in ipairs(m.points) do
    if p.case == "dead" and p.at >= a and p.at < b then
      out[#out + 1] = {at = p.at - start, P = p.P, case = "dead"}
    end
  end
  return out
end

-- Reactions of one piece a..b on places {x, ...} inside it.
local function reactions(m, a, b, places, live)
  local spans = {}
  for i = 2, #places do spans[i - 1] = places[i] - places[i - 1] end
  local beam = core.beam {spans = spans, overhang_left = places[1] - a,
    overhang_right = b - places[#places], EI = m.E * m.b * m.d ^ 3 / 12,
    loads = loads_of(m, a, b, places[1], live)}
  return beam:reactions()
end

-- Whether nothing is left of the joist at bearing i.
local function is_lost(m, i)
  for _, c in ipairs(m.cuts) do
    if c.lost and i == (c.lost == "left" and 1 or #m.span + 1) then return true end
  end
end

-- The supports of a piece a..b: its bearings and the shores, in order. A lost end has
-- none; the floor over it is put on the piece as if it ran on.
local function supports_of(m, at, a, b)
  local list = {}
  for i, x in ipairs(model.supports(m)) do
    if x >= a and x <= b and not is_lost(m, i) then
      list[#list + 1] = {at = x, kind = "bearing", bearing = i}
    end
  end
  for _, x in ipairs(at) do
    if x > a and x < b then list[#list + 1] = {at = x, kind = "shore"} end
  end
  table.sort(list, function(p, q) return p.at < q.at end)
  return list
end

-- The pieces a joist is in: itself, or stubs to the middle of each gap.
local function pieces(m)
  local ends = {}
  for _, c in ipairs(m.cuts) do
    if c.kind == "sever" and not c.lost then
      local x = (c.from + c.to) / 2
      ends[#ends + 1] = c.from_right and model.total(m) - x or x
    end
  end
  table.sort(ends)
  local list, from = {}, -m.overhang_left
  for _, x in ipairs(ends) do
    list[#list + 1] = {from, x}
    from = x
  end
  list[#list + 1] = {from, model.total(m) + m.overhang_right}
  return list
end

local function too_near(list)
  for i = 2, #list do
    if list[i].at - list[i - 1].at < APART then return true end
  end
end

-- Shores of one joist at given places. @return {supports =, notes =, live =} or refused
local function of(r, at, live, assumed)
  local m = r.joist.model
  local s = {supports = {}, notes = {}, live = live, assumed = assumed or nil}
  for _, piece in ipairs(pieces(m)) do
    local list = supports_of(m, at, piece[1], piece[2])
    if #list < 2 then
      return {supports = {}, notes = {}, refused = ("the piece from %s to %s has fewer "
        .. "than two supports: give shores = {at = {left, right}}"):format(
        units.feet_inches(math.max(piece[1], 0)), units.feet_inches(piece[2]))}
    elseif too_near(list) then
      return {supports = {}, notes = {}, refused = "a shore stands at a bearing: give "
        .. "shores = {at = {left, right}}"}
    end
    local places = {}
    for i, p in ipairs(list) do places[i] = p.at end
    local dead = reactions(m, piece[1], piece[2], places)
    local total = live and reactions(m, piece[1], piece[2], places, live)
    for i, p in ipairs(list) do
      p.dead, p.total = dead[i], total and total[i]
      s.supports[#s.supports + 1] = p
      if p.kind == "bearing" and math.min(p.dead, p.total or p.dead) < 0 then
        s.notes[#s.notes + 1] = ("bearing %d lifts: the piece tips over its shore; set "
          .. "the shore nearer the cut"):format(p.bearing)
      end
    end
  end
  if r.joist.description.out and not part.severed(m) then
    s.notes[1 + #s.notes] = "the joist is said to be out and is taken here to hold at "
      .. "its bearings"
  end
  return s
end

-- Places of the shores for a joist to be repaired: given, or 12 in beyond its cuts.
local function places_for(r)
  local m = r.joist.model
  local given = m.shores and m.shores.at
  if given then return given, false end
  local x1, x2
  for _, c in ipairs(r.cuts or {}) do
    x1, x2 = math.min(x1 or c.x1, c.x1), math.max(x2 or c.x2, c.x2)
  end
  if not x1 then return nil end
  local at, total = {}, model.total(m)
  for _, x in ipairs {x1 - CLEAR, x2 + CLEAR} do
    if x > CLEAR / 2 and x < total - CLEAR / 2 then at[#at + 1] = x end
  end
  return #at > 0 and at or nil, true
end

local function wanted(r)
  return r.computed and (r.action == "repair" or r.out ~= nil)
end

-- Gives reviews in their order their shores: those to be repaired and the ones beside.
-- A joist by itself only where the description speaks of shores.
function shores.add(reviews)
  if #reviews == 1 and not reviews[1].joist.model.shores then return end
  local function put(i, at, live, assumed)
    local r = reviews[i]
    if r and r.computed and not r.shores then r.shores = of(r, at, live, assumed) end
  end
  local lines = {}
  for i, r in ipairs(reviews) do
    if wanted(r) then
      local at, assumed = places_for(r)
      local live = r.joist.model.shores and r.joist.model.shores.live
      r.shores = nil
      if at then
        put(i, at, live, assumed)
        lines[i] = {at = at, live = live, assumed = assumed}
      else
        r.shores = {supports = {}, notes = {}, refused = "no place for a shore follows "
          .. "from its cuts: give shores = {at = {left, right}}"}
      end
    end
  end
  for i = 1, #reviews do
    local t = lines[i]
    if t then
      put(i - 1, t.at, t.live, t.assumed)
      put(i + 1, t.at, t.live, t.assumed)
    end
  end
end

-- The shores of a joist in words.
function shores.lines(r)
  local s, list = r.shores, {}
  if s.refused then return {"not computed: " .. s.refused} end
  for _, p in ipairs(s.supports) do
    list[#list + 1] = ("%s at %s: dead %s lb%s"):format(p.kind, units.feet_inches(p.at),
      text.number(p.dead), p.total and (", dead + construction live %s lb"):format(
        text.number(p.total)) or "")
  end
  list[#list + 1] = s.live and ("construction live %s psf as given"):format(
    text.short(s.live)) or "construction live not given: dead load alone"
  if s.assumed then
    list[#list + 1] = "shores assumed 12 in beyond the cuts (ours); the floor below and "
      .. "the shore itself are not checked"
  else
    list[#list + 1] = "the floor below and the shore itself are not checked"
  end
  for _, said in ipairs(s.notes) do list[#list + 1] = said end
  return list
end

-- Adds them to a document.
function shores.document(d, reviews)
  local any = false
  for _, r in ipairs(reviews) do any = any or r.shores ~= nil end
  if not any then return end
  d:heading(3, "Temporary shores")
  for _, r in ipairs(reviews) do
    if r.shores then
      d:paragraph {{mark = r.mark}, ": load per shore"}
      d:list(shores.lines(r))
    end
  end
end

return shores
