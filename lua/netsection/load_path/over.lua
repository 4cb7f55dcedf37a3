-- SPDX-License-Identifier: MIT
-- Joists as they stand over a beam, reviewed with that support apart from the review of
-- the floor: whole ones as they run on over it, repaired ones as if their repair were
-- not there, the stubs of those cut through each on its own supports.
local carried = require "netsection.load_path.carried"
local joist = require "netsection.joist"
local neighbors = require "netsection.neighbors"
local pieces = require "netsection.pieces"
local point = require "netsection.point"

local over = {}

local function width(b)
  local f = b.f
  return f.steel and f.steel.width or f.wood and f.wood.b * f.wood.plies
end

local function entry(mark, b, a)
  return {mark = mark, beam = b.mark, status = a.status, ratio = a.ratio,
    refused = a.refused, governing = a.governing, checks = a.checks,
    governing_check = a.governing_check}
end

-- By the review of a support under the span.
local function runs_on(mark, j, b, packs)
  local w = width(b)
  local fixed, wrong = j:fixed {kind = "midspan_support", at = b.f.at, bearing = w
    and math.max(w, 0.5) or nil}
  if not fixed then return {refused = wrong[1].text, mark = mark, beam = b.mark} end
  return entry(mark, b, fixed:review(packs).fixed)
end

-- Line and point loads of a stub, from its first support.
local function own_loads(m, piece, start)
  local bare, list = setmetatable({dead = 0, live = 0}, {__index = m}), {}
  for _, case in ipairs {"dead", "live"} do
    for _, q in ipairs(pieces.loads(bare, piece.a, piece.b, start, case)) do
      if q.P then
        list[#list + 1] = {kind = "point", at = q.at, load = q.P, case = case}
      else
        list[#list + 1] = {kind = "line", from = q.from, to = q.to, case = case,
          load = point.exact(q.w1 * 12) .. " plf", to_load = point.exact(
          q.w2 * 12) .. " plf"}
      end
    end
  end
  return list
end

-- Other cuts in a stub would need their places read again.
local function other_cuts(r, piece)
  for _, c in ipairs(r.cuts or {}) do
    if c.gate ~= 6 and c.x1 < piece.b and c.x2 > piece.a then return c.name end
  end
end

-- A stub as a joist of its own: its supports, what lies on it, its free end.
local function stub(mark, t, r, b, k, packs)
  local piece, m = t.pieces[k], t.model
  local cut = other_cuts(r, piece)
  if cut then
    return {mark = mark, beam = b.mark, unread = true,
      refused = ("%s is in the stub: have it reviewed "
      .. "as a joist of its own"):format(cut)}
  end
  local d, x = {}, piece.places
  for name, value in pairs(t.joist.description) do d[name] = value end
  d.cuts, d.span, d.spans, d.bearing, d.out, d.survey = nil, nil, {}, {}, nil, nil
  d.loads = own_loads(m, piece, x[1])
  for i, s in ipairs(piece.supports) do
    if i > 1 then d.spans[i - 1] = x[i] - x[i - 1] end
    d.bearing[i] = s.bearing and m.bearing[s.bearing] or width(b) or m.bearing[1]
  end
  d.overhang_left = x[1] - piece.a > 1e-9 and x[1] - piece.a or nil
  d.overhang_right = piece.b - x[#x] > 1e-9 and piece.b - x[#x] or nil
  d.repetitive, d.blocking, d.judgment = d.repetitive or 1, nil, nil
  local made, wrong = joist.read(d)
  if not made then return {mark = mark, beam = b.mark, refused = wrong[1].text} end
  local review = made:review(packs)
  if not review.computed then
    return {mark = mark, beam = b.mark, refused = review.reasons[1]}
  end
  return entry(mark, b, review.cut)
end

local function side(k, n)
  return n == 2 and (k == 1 and "left stub" or "right stub") or "stub " .. k
end

-- The piece of a joist that lies over the beam.
local function piece_over(t, at)
  for k, piece in ipairs(t.pieces) do
    if at > piece.a and at < piece.b then return k end
  end
end

--- One joist over a beam. @return an entry {mark =, beam =, status =, ratio =, ...}
function over.of(t, r, b, packs)
  if #t.pieces > 1 then
    local k = piece_over(t, b.f.at)
    return stub(("%s, %s"):format(t.mark, side(k, #t.pieces)), t, r, b, k, packs)
  elseif not carried.repair_of(r) then
    return runs_on(t.mark, t.joist, b, packs)
  elseif neighbors.out(r) then
    return {mark = t.mark, beam = b.mark, unread = true,
      refused = "with its repair it is not reviewed "
      .. "over the beam, and without it it is in two"}
  end
  return runs_on(t.mark .. ", without its repair", assert(t.joist:changed {}), b, packs)
end

return over
