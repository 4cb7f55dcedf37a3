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
-- a..b, as loads of a beam that begins at `start`; lb and lb per in. What stands at b
-- itself belongs to the next piece, where there is one.
local function loads_of(m, a, b, start, live)
  local out, last = {}, b >= model.total(m) - 1e-9
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
    if p.case == "dead" and p.at >= a and (p.at < b or last and p.at <= b) then
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

-- Bearings that hold nothing: no seat is left.
local function seatless(r)
  local set = {}
  for i, left in ipairs(r.seat or {}) do set[i] = left == 0 or nil end
  for i, b in ipairs(r.joist.model.bearing) do set[i] = set[i] or b == 0 or nil end
  for _, c in ipairs(r.joist.model.cuts) do
    if c.lost then set[c.lost == "left" and 1 or #r.joist.model.span + 1] = true end
  end
  return set
end

-- The supports of a piece a..b: its bearings and the shores, in order.
local function supports_of(r, at, a, b)
  local list, gone = {}, seatless(r)
  for i, x in ipairs(model.supports(r.joist.model)) do
    if x >= a and x <= b and not gone[i] then
      list[#list + 1] = {at = x, kind = "bearing", bearing = i}
    end
  end
  for _, x in ipairs(at) do
    if x > a and x < b then list[#list + 1] = {at = x, kind = "shore"} end
  end
  table.sort(list, function(p, q) return p.at < q.at end)
  return list
end

-- The pieces a joist is in: itself, or stubs to the middle of each place where nothing
-- is left. Where that is an end of the joist, its load is on the wood that remains.
local function pieces(r)
  local m, ends = r.joist.model, {}
  local first, last = -m.overhang_left, model.total(m) + m.overhang_right
  for i, c in ipairs(r.cuts or {}) do
    if c.gate == 6 and not (c.ply and r.plies) then
      local at_end = m.cuts[i].lost or m.cuts[i].kind ~= "sever"
        and (c.x1 <= first + m.bearing[1] / 2
        or c.x2 >= last - m.bearing[#m.bearing] / 2)
      if not at_end then ends[#ends + 1] = (c.x1 + c.x2) / 2 end
    end
  end
  table.sort(ends)
  local list, from = {}, first
  for _, x in ipairs(ends) do
    list[#list + 1] = {from, x}
    from = x
  end
  list[#list + 1] = {from, last}
  return list
end

local function too_near(list)
  for i = 2, #list do
    if list[i].at - list[i - 1].at < APART then return true end
  end
end

local function refused(why)
  return {supports = {}, notes = {}, refused = why}
end

-- Whether a joist that is out is in one piece: what holds at its bearings is not known.
local function may_hang(r)
  if not r.joist.description.out then return false end
  for _, c in ipairs(r.cuts or {}) do
    if c.gate == 6 then return false end
  end
  return true
end

-- A joist that is said to be out may stand on its shores alone: each shore is given the
-- larger of what it carries with the bearings and without them. A shore that lifts
-- without them says that the joist tips.
local function without_bearings(m, list, piece, live, s)
  local places, shores_only = {}, {}
  for _, p in ipairs(list) do
    if p.kind == "shore" then
      places[#places + 1], shores_only[#shores_only + 1] = p.at, p
    end
  end
  if #places < 2 then
    s.notes[#s.notes + 1] = "the joist is said to be out: a single shore does not hold "
      .. "it if a bearing gives"
    return
  end
  local dead = reactions(m, piece[1], piece[2], places)
  local total = live and reactions(m, piece[1], piece[2], places, live)
  for i, p in ipairs(shores_only) do
    if math.min(dead[i], total and total[i] or dead[i]) < 0 then
      s.notes[#s.notes + 1] = "without its bearings the joist tips over its shores: set "
        .. "them further apart"
    end
    p.dead = math.max(p.dead, dead[i])
    p.total = total and math.max(p.total, total[i])
  end
  s.notes[#s.notes + 1] = "the joist is said to be out: each shore is given the larger "
    .. "of its load with the bearings and on the shores alone"
end

-- Live loads that were entered are not on the shores; says so where there are any.
local function live_note(m, s)
  for _, list in ipairs {m.points, m.lines} do
    for _, load in ipairs(list) do
      if load.case == "live" then
        s.notes[#s.notes + 1] = "the live loads entered on it are not on the shores: "
          .. "take them off first"
        return
      end
    end
  end
end

-- Shores of one joist at given places. @param line {at =, live =, assumed =}
-- @return {supports =, notes =, live =} or one with refused
local function of(r, line)
  local m, live = r.joist.model, line.live
  local s = {supports = {}, notes = {}, live = live, assumed = line.assumed or nil}
  for _, piece in ipairs(pieces(r)) do
    local list = supports_of(r, line.at, piece[1], piece[2])
    if #list < 2 then
      return refused(("the piece from %s to %s has fewer than two supports: give "
        .. "shores = {at = {left, right}}"):format(units.feet_inches(math.max(piece[1],
        0)), units.feet_inches(piece[2])))
    elseif too_near(list) then
      return refused "a shore stands at a bearing: give shores = {at = {left, right}}"
    end
    local places = {}
    for i, p in ipairs(list) do places[i] = p.at end
    local dead = reactions(m, piece[1], piece[2], places)
    local total = live and reactions(m, piece[1], piece[2], places, live)
    for i, p in ipairs(list) do
      p.dead, p.total = dead[i], total and total[i]
      s.supports[#s.supports + 1] = p
      if math.min(p.dead, p.total or p.dead) < 0 then
        s.notes[#s.notes + 1] = p.kind == "bearing" and ("bearing %d lifts: the piece "
          .. "tips over its shore; set the shore nearer the cut"):format(p.bearing)
          or ("the piece lifts off the shore at %s: set it elsewhere"):format(
          units.feet_inches(p.at))
      end
    end
    if may_hang(r) then without_bearings(m, list, piece, live, s) end
  end
  live_note(m, s)
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

-- What stands on the line of shores at x: the joists of a run in order, each with its
-- load there. A joist that could not be worked ends the sum, which is then not given.
local function on_line(run, x)
  local t = {at = x, dead = 0, joists = {}}
  for _, one in ipairs(run) do
    if one.shores.refused then return nil end
    for _, p in ipairs(one.shores.supports) do
      if p.kind == "shore" and math.abs(p.at - x) < 1e-6 then
        t.joists[#t.joists + 1] = one.mark
        t.dead = t.dead + p.dead
        t.total = p.total and (t.total or 0) + p.total
      end
    end
  end
  return t
end

-- Heads under a line of shores: two at least, and as many as the capacity of one asks
-- for. The beam on them may ask for more.
local function heads(t, capacity)
  t.capacity = capacity
  t.heads = math.max(2, math.ceil((t.total or t.dead) / capacity - 1e-9))
end

-- Gives reviews in their order their shores: those to be repaired and the ones beside
-- (`beside` on each side, one if not given), and to those to be repaired the sums of
-- their lines. A joist by itself only where the description speaks of shores.
function shores.add(reviews)
  if #reviews == 1 and not reviews[1].joist.model.shores then return end
  local own = {}
  for i, r in ipairs(reviews) do
    if wanted(r) then
      local at, assumed = places_for(r)
      local given = r.joist.model.shores or {}
      own[i] = at and {at = at, live = given.live, assumed = assumed,
        beside = given.beside or 1, capacity = given.capacity}
      r.shores = at and of(r, own[i]) or refused("no place for a shore follows from its "
        .. "cuts: give shores = {at = {left, right}}")
    end
  end
  for i, r in ipairs(reviews) do
    local line = own[i]
    if line then
      local run = {}
      for k = math.max(1, i - line.beside), math.min(#reviews, i + line.beside) do
        local n = reviews[k]
        if n.computed then
          local here = k == i and r.shores or of(n, line)
          run[#run + 1] = {mark = n.mark, shores = here}
          n.shores = n.shores or here
        end
      end
      for _, x in ipairs(line.at) do
        local t = on_line(run, x)
        if t and #t.joists > 0 then
          if line.capacity then heads(t, line.capacity) end
          r.shores.lines = r.shores.lines or {}
          table.insert(r.shores.lines, t)
        end
      end
    end
  end
end

local function line_words(t)
  return ("line of shores at %s under %s: dead %s lb%s%s"):format(
    units.feet_inches(t.at), table.concat(t.joists, ", "), text.number(t.dead),
    t.total and (", dead + construction live %s lb"):format(text.number(t.total)) or "",
    t.heads and ("; %d heads of %s lb at least, the shore beam may ask for more"):format(
      t.heads, text.number(t.capacity)) or "")
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
  for _, t in ipairs(s.lines or {}) do list[#list + 1] = line_words(t) end
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
