-- SPDX-License-Identifier: MIT
-- What each joist of a floor puts on what holds it, dead and live load in full and apart:
-- bearings, hangers, posts, beams under it, headers. What a joist hands on to another
-- (tails to a header, a header to its trimmers, the floor of one that is out) is in it.
local neighbors = require "netsection.neighbors"
local model = require "netsection.model"
local pieces = require "netsection.pieces"
local roof_loads = require "netsection.roof_loads"
local verdict = require "netsection.verdict"

local carried = {}

-- A support of a repair and a beam nearer than this are one, in.
local SAME = 1

local CASES = {D = "dead", L = "live"}

local function repair_of(r)
  return verdict.serves(r) and r.fixed or nil
end
carried.repair_of = repair_of

-- Repairs after which the joist stands on its own two ends as a whole.
local WHOLE = {sister = true, side_plates = true, strap = true, notch_screws = true,
  hanger = true, end_sister = true, midspan_support = true}

--- Why a joist's repair is not traced here, or nil.
function carried.untraced(r)
  local a = repair_of(r)
  if a and a.kind ~= "header" and not WHOLE[a.kind] then
    return ("its repair (%s) is not traced"):format((a.kind:gsub("_", " ")))
  end
end

----------------------------------------------------------------------------------- loads

-- All of a joist's own load, of one case.
local function own(m)
  local q = {}
  local a, b = -m.overhang_left, model.total(m) + m.overhang_right
  for k, case in pairs(CASES) do q[k] = pieces.sum(pieces.loads(m, a, b, 0, case)) end
  return q
end

-- Joists under what serving repairs beside them put on them, by mark.
local function burdened(reviews)
  local by_mark = {}
  for _, r in ipairs(reviews) do
    local a = repair_of(r)
    for _, n in ipairs(a and a.neighbours or {}) do
      if n.review and n.review.computed then
        by_mark[n.mark] = by_mark[n.mark] or n.review.joist
      end
    end
  end
  return by_mark
end

-- Whether a joist carries nothing as it will be: out, without a repair that serves, and
-- not held by beams on both sides of its cut.
local function is_out(r, held)
  if not r.computed or repair_of(r) then return false end
  return neighbors.out(r) ~= nil and not held
end

-- Every joist with all that it carries; those that are out by their marks.
-- @param held {[i] = true}: a joist whose pieces stand on beams
function carried.joists(reviews, held)
  local out, any = {}, false
  for i, r in ipairs(reviews) do
    out[i] = is_out(r, held[i]) and (neighbors.out(r)) or nil
    any = any or out[i] ~= nil
  end
  local with, shed = burdened(reviews), any and neighbors.share(reviews, out) or {}
  local list = {}
  for i, r in ipairs(reviews) do
    local j, why = with[r.mark] or r.joist, nil
    if shed[i] then j, why = neighbors.loaded(j, shed[i]) end
    list[i] = {joist = j, out = out[i], shed = shed[i], refused = why
      and why[1].text or nil}
  end
  return list
end

-------------------------------------------------------------------------------- supports

-- Where a joist stands besides its bearings: {x =, kind =, beam =}.
local function more_supports(r, beams, i)
  local list, a = {}, repair_of(r)
  for _, b in ipairs(beams) do
    if i >= b.first and i <= b.last then
      list[#list + 1] = {x = b.f.at, kind = "beam", beam = b}
    end
  end
  if a and a.kind == "midspan_support" then
    local f = r.joist.repair
    for _, s in ipairs(list) do
      if math.abs(s.x - f.at) < SAME then return list end
    end
    list[#list + 1] = {x = f.at, kind = "post"}
  end
  table.sort(list, function(p, q) return p.x < q.x end)
  return list
end

-- What a bearing's support is called where the repair hangs the joist there.
local function hung(r)
  local a = repair_of(r)
  if a and (a.kind == "hanger" or a.kind == "end_sister") then
    return r.joist.repair.support == "left" and 1 or #r.joist.model.span + 1
  end
end

local function places_of(list)
  local at = {}
  for i, s in ipairs(list) do at[i] = s.x end
  return at
end

-- Supports of each piece; or nil and why one would fall.
local function held_pieces(r, extra, whole)
  local out = {}
  for k, piece in ipairs(whole and {{-r.joist.model.overhang_left,
    model.total(r.joist.model) + r.joist.model.overhang_right}} or pieces.of(r)) do
    local list = pieces.supports(r, places_of(extra), piece[1], piece[2], "more",
      hung(r) ~= nil)
    if #list < 2 then
      return nil, ("the %s stub of %s has nothing under its cut end"):format(k == 1
        and "left" or "right", r.mark)
    elseif pieces.too_near(list) then
      return nil, ("a beam stands at a bearing of %s"):format(r.mark)
    end
    out[k] = {a = piece[1], b = piece[2], supports = list}
  end
  return out
end

--- Whether every piece of a joist that is cut through has two supports.
-- @return true; or false and why not
function carried.held(r, beams, i)
  local ok, why = held_pieces(r, more_supports(r, beams, i), false)
  return ok ~= nil, why
end

-------------------------------------------------------------------------------- statics

-- A hanger stands in from the bearing; what lies behind it is on it.
local function behind(r, piece)
  local a = repair_of(r)
  if not (a and a.kind == "hanger") then return nil end
  local left = r.joist.repair.support == "left"
  local old = piece.supports[left and 1 or #piece.supports]
  old.at, old.kind = a.x1, "hanger"
  return left and {piece.a, a.x1} or {a.x1, piece.b}, old
end

-- Reactions of one piece on its supports, D and L.
local function react(m, r, piece)
  local back, hanger = behind(r, piece)
  local a, b = piece.a, piece.b
  if back and hanger == piece.supports[1] then
    a = back[2]
  elseif back then
    b = back[1]
  end
  local places = {}
  for i, s in ipairs(piece.supports) do places[i] = s.at end
  piece.a, piece.b, piece.places = a, b, places
  for k, case in pairs(CASES) do
    local R = pieces.beam(m, a, b, places, pieces.loads(m, a, b, places[1], case))
      :reactions()
    for i, s in ipairs(piece.supports) do s[k] = R[i] end
    if back then
      hanger[k] = hanger[k] + pieces.sum(pieces.loads(m, back[1], back[2], 0, case))
    end
  end
end

-- What the joist put on a bearing by its own load before any work.
local function before(r)
  local m, out = r.joist.model, {}
  local a, b = -m.overhang_left, model.total(m) + m.overhang_right
  local places = model.supports(m)
  local D = pieces.beam(m, a, b, places, pieces.loads(m, a, b, 0, "dead")):reactions()
  local L = pieces.beam(m, a, b, places, pieces.loads(m, a, b, 0, "live")):reactions()
  for i in ipairs(places) do out[i] = D[i] + L[i] end
  return out
end

-- Width and length of the wood that presses on a bearing: with a sister that bears.
local function seat_of(r, m, n)
  local a = repair_of(r)
  local b = m.b * m.plies
  local f = a and a.kind == "sister" and r.joist.repair or nil
  local bears = f and (n == 1 and f.bears_left or n == #m.bearing and f.bears_right)
  if bears and f.wood and not f.hanger then
    local o = f.wood.model
    b = b + o.b * o.plies * (f.side == "both" and 2 or 1)
  end
  local l_b = (r.seat or {})[n] or m.bearing[n]
  return b, repair_of(r) and m.bearing[n] or l_b
end

local function stand(r, m, s, extra, was)
  local q = {at = s.at, D = s.D, L = s.L, kind = s.kind, bearing = s.bearing}
  if s.kind == "more" then
    q.kind, q.beam = extra[s.number].kind, extra[s.number].beam
  elseif s.bearing then
    q.was = was[s.bearing]
    if s.bearing == hung(r) then
      q.kind = "hanger"
    else
      q.b, q.l_b = seat_of(r, m, s.bearing)
    end
  end
  return q
end

-- The tails of a joist that is headed off, on the wall and on the headers. What is left
-- of its floor lies between the headers and is not counted, or on the wall itself.
local function headed_off(r, path, t)
  local m, on = r.joist.model, {D = 0, L = 0}
  local was = before(r)
  t.stretches = {}
  for _, tail in ipairs(path.tails) do
    if tail.mark == r.mark then
      t.stretches[#t.stretches + 1] = {tail.x0, tail.x1}
      t.stands[#t.stands + 1] = {at = tail.wall == 1 and 0 or model.total(m),
        kind = "bearing", bearing = tail.wall, D = tail.wall_D, L = tail.wall_L,
        b = m.b * m.plies, l_b = m.bearing[tail.wall], was = was[tail.wall]}
      on.D, on.L = on.D + tail.wall_D + tail.D, on.L + tail.wall_L + tail.L
    end
  end
  for _, q in ipairs(path.strips) do
    if q.mark == r.mark then on.D, on.L = on.D + q.D, on.L + q.L end
  end
  local left = {D = t.own.D - on.D, L = t.own.L - on.L}
  if math.abs(left.D) + math.abs(left.L) > 1e-6 then
    t.stands[#t.stands + 1] = {kind = path.between == "none" and "not counted"
      or "floor on the wall", D = left.D, L = left.L}
  end
end

-- @param path of the header that takes the joist off, or nil
-- @return {mark =, own = {D =, L =}, stands = {...}, pieces =, out =, refused =}
function carried.of(r, with, beams, i, path)
  local t = {mark = r.mark, stands = {}, number = i}
  if not r.computed then
    t.refused = r.reasons[1]
    return t
  end
  t.refused = roof_loads.refusal(r.joist.model, "the load path")
  if t.refused then return t end
  t.own = own(r.joist.model)
  local why = with.refused or carried.untraced(r)
  if path then
    headed_off(r, path, t)
    return t
  elseif with.out then
    t.out, t.was = with.out, before(r)
    return t
  elseif why then
    t.refused = why
    return t
  end
  local m, extra = with.joist.model, more_supports(r, beams, i)
  local whole = repair_of(r) ~= nil or neighbors.out(r) == nil
  local list, stub = held_pieces(r, extra, whole)
  t.refused = stub
  if not list then return t end
  local was = before(r)
  t.stretches = {}
  for k, piece in ipairs(list) do t.stretches[k] = {piece.a, piece.b} end
  t.pieces, t.model, t.joist = list, m, with.joist
  for _, piece in ipairs(list) do
    react(m, r, piece)
    for _, s in ipairs(piece.supports) do
      t.stands[#t.stands + 1] = stand(r, m, s, extra, was)
    end
  end
  return t
end


return carried
