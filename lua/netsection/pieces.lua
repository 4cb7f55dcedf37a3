-- SPDX-License-Identifier: MIT
-- The pieces a joist is in, what holds each of them, and what each puts on its supports
-- under loads that are in full. A joist cut through is two stubs; half of the gap's load
-- goes to each. Statics; a piece is taken at its whole section along its length.
local core = require "netsection.core"
local model = require "netsection.model"
local part = require "netsection.fix.part"

local pieces = {}

-- Two supports nearer than this are not told apart by hand or eye, in.
local APART = 1

-- A load on a..b of a beam that begins at `start`; plf come in, lb per in go out.
local function line(out, start, from, to, w1, w2)
  if to > from and w1 + w2 > 0 then
    out[#out + 1] = {from = from - start, to = to - start, w1 = w1 / 12, w2 = w2 / 12,
      case = "dead"}
  end
end

--- Loads of a model on a..b, as loads of a beam that begins at `start`. What stands at b
-- itself belongs to the next piece, where there is one.
-- @param case "dead" or "live"; @param psf more on the floor, or nil
function pieces.loads(m, a, b, start, case, psf)
  local out, last = {}, b >= model.total(m) - 1e-9
  local w = (m[case] + (psf or 0)) * m.spacing / 12
  line(out, start, a, b, w, w)
  for _, l in ipairs(m.lines) do
    if l.case == case then
      local w1, w2 = part.plf(l, m)
      local from, to = l.whole and a or l.from, l.whole and b or l.to
      local g = to > from and (w2 - w1) / (to - from) or 0
      local lo, hi = math.max(from, a), math.min(to, b)
      line(out, start, lo, hi, w1 + g * (lo - from), w1 + g * (hi - from))
    end
  end
  for _, p in ipairs(m.points) do
    if p.case == case and p.at >= a and (p.at < b or last and p.at <= b) then
      out[#out + 1] = {at = p.at - start, P = p.P, case = "dead"}
    end
  end
  return out
end

--- Sum of such loads, lb.
function pieces.sum(loads)
  local all = 0
  for _, q in ipairs(loads) do
    all = all + (q.P or (q.w1 + q.w2) / 2 * (q.to - q.from))
  end
  return all
end

--- The beam of a piece a..b on places {x, ...} inside it, under loads of it.
function pieces.beam(m, a, b, places, loads)
  local spans = {}
  for i = 2, #places do spans[i - 1] = places[i] - places[i - 1] end
  return core.beam {spans = spans, overhang_left = places[1] - a,
    overhang_right = b - places[#places], EI = m.E * m.b * m.plies * m.d ^ 3 / 12,
    loads = loads}
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
pieces.seatless = seatless

--- The supports of a piece a..b: its bearings and the places given, in order.
-- @param at {x, ...}; @param kind what stands there
-- @param held true: no bearing has lost its seat
function pieces.supports(r, at, a, b, kind, held)
  local list, gone = {}, held and {} or seatless(r)
  for i, x in ipairs(model.supports(r.joist.model)) do
    if x >= a and x <= b and not gone[i] then
      list[#list + 1] = {at = x, kind = "bearing", bearing = i}
    end
  end
  for k, x in ipairs(at) do
    if x > a and x < b then list[#list + 1] = {at = x, kind = kind, number = k} end
  end
  table.sort(list, function(p, q) return p.at < q.at end)
  return list
end

--- The pieces a joist is in: itself, or stubs to the middle of each place where nothing
-- is left. Where that is an end of the joist, its load is on the wood that remains.
function pieces.of(r)
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

--- Whether two supports of a list are not told apart.
function pieces.too_near(list)
  for i = 2, #list do
    if list[i].at - list[i - 1].at < APART then return true end
  end
end

return pieces
