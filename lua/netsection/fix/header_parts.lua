-- SPDX-License-Identifier: MIT
-- What a joist that is headed off is built of: headers and trimmers with the nails
-- between their plies, hangers with their loads, blocks under the deck that is left open.
local part = require "netsection.fix.part"
local nails = require "netsection.fix.ply_nails"
local lane = require "netsection.lane"
local review = require "netsection.review"
local seat = require "netsection.fix.seat"
local site = require "netsection.fix.site"
local standing = require "netsection.standing"
local voids = require "netsection.fix.voids"

-- Shortest piece that is reviewed as a joist; the seat of a hanger, in.
local SHORTEST, HANGS = 24, 1.5

local members = {seat = HANGS}


--- The wood below an opening near a tail's end is what its hanger presses on.
-- @return a reason where that fails, or nil
function members.press_tails(a, f, case, o, tails)
  local half = f.wood.model.b * f.wood.model.plies / 2
  for _, t in ipairs(tails) do
    local joist = o.joists[t.joist]
    local x = f.at[t.header] + (t.x0 < f.at[t.header] - 1e-6 and -half or half)
    local way = x < f.at[t.header] and -1 or 1
    local own = setmetatable({joist = joist, model = joist.model, review = t.own
      and case.review or review.of(joist, case.options)}, {__index = case})
    local pressed = seat.under_openings(own, {x1 = lane.min(x, x + way * HANGS),
      x2 = lane.max(x, x + way * HANGS), dead = t.D, live = t.L, at = f.at[t.header],
      from = t.x0, to = t.x1})
    local refused = seat.refusal(pressed, ("the hanger of %s"):format(t.own and "the tail"
      or "the tail of " .. t.mark))
    if refused then return refused end
    for _, k in ipairs(pressed) do
      k.member = t.own and "tail" or "tail of " .. t.mark
      a.checks[#a.checks + 1] = k
    end
  end
end

local function header_pieces(a, f, case, o, headers)
  local m, h = case.model, f.wood.model
  local size = site.section(h)
  local from = -o.y[o.own]
  local half = {left = o.left.model.b * o.left.model.plies / 2,
    right = o.right.model.b * o.right.model.plies / 2}
  local y1, y2 = from + half.left, from + o.width - half.right
  for i, x in ipairs(f.at) do
    local b = h.b * h.plies
    local name = "the header at " .. f.show.place(x)
    nails.join(a, case, {joist = f.wood, n = h.plies, loaded = 1, length = y2 - y1,
      loads = headers[i].loads, name = name, member = "header", at = x,
      where = "beside each tail"})
    a.pieces[#a.pieces + 1] = {name = "header", kind = "header", member = "header",
      size = size, stock = site.cut_from(size, y2 - y1, f.show),
      count = h.plies, length = y2 - y1, material = h.wood or m.wood, x1 = x - b / 2,
      x2 = x + b / 2, h1 = m.d - h.d, h2 = m.d, y1 = y1, y2 = y2,
      label = h.plies > 1 and ("%d-ply %s"):format(h.plies, size) or size}
  end
end

-- Cuts of a trimmer, between which its plies are nailed.
local function cuts_of(case, joist)
  return #joist.model.cuts > 0 and voids.of(review.of(joist, case.options)) or {}
end

-- A header does not hang in wood that is rotten or burnt.
local function hangs_in_lost_wood(f, case, joist)
  local half = f.wood.model.b * f.wood.model.plies / 2
  for _, v in ipairs(cuts_of(case, joist)) do
    for _, x in ipairs(f.at) do
      if (v.whole or v.face) and x + half > v.x1 and x - half < v.x2 then
        return ("the header at %s would hang at %s of the trimmer %s"):format(
          f.show.place(x),
          v.name, joist.model.mark)
      end
    end
  end
end

local function trimmer_piece(a, f, case, o, side)
  local n, known = o[side].model, o.known[side]
  local extra = n.plies * f.trimmer_plies - n.plies
  -- one that carries headers on both sides is doubled once, from its left
  if extra <= 0 or o.shared[side] and side == "left" then return end
  local length = part.total(n) + n.bearing[1] / 2 + n.bearing[#n.bearing] / 2
  local face = n.b * n.plies / 2
  local out = side == "left" and -1 or 1
  local y1, y2 = out * face, out * (face + n.b * extra)
  local size = site.section(n)
  nails.join(a, case, {joist = o[side], n = n.plies + extra, loaded = n.plies,
    length = length, loads = o.hung[side], name = "the trimmer " .. n.mark,
    member = "trimmer", where = "beside each header", x0 = -n.bearing[1] / 2,
    out = voids.stretches(cuts_of(case, o[side]))})
  a.pieces[#a.pieces + 1] = {name = "trimmer", kind = "wood", member = "trimmer",
    size = size, stock = site.cut_from(size, length, f.show), count = extra,
    length = length, material = n.wood, of = known and n.mark
    or nil, x1 = -n.bearing[1] / 2, x2 = part.total(n) + n.bearing[#n.bearing] / 2,
    h1 = 0, h2 = n.d, y1 = lane.min(y1, y2), y2 = lane.max(y1, y2)}
  if not known then a.pieces[#a.pieces].y1 = nil end
end

-- The open stretch that one or two headers leave: its ends, center to center, and how
-- much of that is clear.
local function open_stretch(f, o, m)
  local b = f.wood.model.b * f.wood.model.plies
  if #f.at == 2 then return f.at[1], f.at[2], f.at[2] - f.at[1] - b end
  local left, L = o.gone == "left", part.total(m)
  local bearing = m.bearing[left and 1 or #m.bearing]
  local x1, x2 = left and 0 or f.at[1], left and f.at[1] or L
  return x1, x2, x2 - x1 - b / 2 - bearing / 2
end

-- A block between headers, or a header and the wall, as a joist of its own; one that is
-- shorter than a joist may be is no worse off than the tails.
local function review_block(a, case, f, o, x1, x2)
  if x2 - x1 < SHORTEST then return nil end
  local m, left = case.model, o.gone == "left"
  local whole, problems = case.joist:changed {cuts = {}}
  local j = whole
  if whole then
    j, problems = part.of(whole, x1, x2, {repetitive = 1, mark = m.mark .. ", block",
      bearing = {left and m.bearing[1] or HANGS, (left or #f.at == 2) and HANGS
      or m.bearing[#m.bearing]}})
  end
  if not j then return problems[1].text end
  local r = part.review(j, case.options)
  if not r.computed then return r.reasons[1] end
  for _, k in ipairs(r.cut.checks) do
    k.member = "block"
    a.checks[#a.checks + 1] = k
  end
end

--- Whether the deck over the open stretch, which spans the way of the joists there, needs
-- wood under it: it spans farther than they stand apart. Asked before the pieces are
-- reviewed, so that joists of which many are worked are parted by it first.
function members.needs_blocks(f, o, m)
  if f.between == "none" then return false end
  local _, _, clear = open_stretch(f, o, m)
  return clear > m.spacing + 1e-6
end

-- What such wood puts on the headers is counted there.
local function blocks(a, f, case, o)
  if f.between == "none" then return nil end
  local m = case.model
  local x1, x2, clear = open_stretch(f, o, m)
  if not members.needs_blocks(f, o, m) then
    a.notes[#a.notes + 1] = ("the deck spans %s %s, no more than the joists' spacing: "
      .. "no block under it"):format(f.show.size(clear), #f.at == 2
      and "between the headers" or "between header and bearing")
    return nil
  end
  local why = review_block(a, case, f, o, x1, x2)
  if why then return why end
  local R, most = part.between(m, x1, x2), 0
  for i = 1, 2 do
    local hangs = #f.at == 2 or (i == 1) ~= (o.gone == "left")
    most = hangs and lane.max(most, R.dead[i] + R.live[i]) or most
  end
  local one = #f.at == 1
  local length = clear + (one and m.bearing[o.gone == "left" and 1 or #m.bearing] or 0)
  local size = site.section(m)
  a.pieces[#a.pieces + 1] = {name = "block", kind = "block", member = "block",
    count = #o.joists * m.plies, size = size, stock = site.cut_from(size, length, f.show),
    length = length, material = m.wood}
  a.pieces[#a.pieces + 1] = site.hanger {show = f.show, holds = "the block, " .. size,
    load = most,
    count = #o.joists * #f.at}
  a.notes[#a.notes + 1] = ("blocks under the deck, %s, on the line of each joist that is "
    .. "taken out or beside what passes there"):format(one
    and "from the header to the bearing" or "from header to header")
end

-- One kind of hanger for all headers and one for all tails, each chosen for the most that
-- any of them holds.
local function hangers(a, f, o, headers, tails)
  local h, m = f.wood.model, o.joists[o.own].model
  local header, tail = 0, 0
  for _, one in ipairs(headers) do
    local R = one.review.cut.reactions
    header = lane.max(header, R[1], R[2])
  end
  for _, t in ipairs(tails) do tail = lane.max(tail, t.D + t.L) end
  a.pieces[#a.pieces + 1] = site.hanger {show = f.show, holds = "the header, "
    .. site.plied(h),
    load = header, count = 2 * #headers}
  a.pieces[#a.pieces + 1] = site.hanger {show = f.show, holds = "the tail, "
    .. site.plied(m),
    load = tail, count = #tails}
end

-- Headers that several joists share are listed with the first that is given them.
-- @param all {run =, tails =, headers =} under their loads
-- @return a reason why a piece does not serve, or nil
function members.add(a, f, case, all)
  local o = all.run
  local bad = hangs_in_lost_wood(f, case, o.left) or hangs_in_lost_wood(f, case, o.right)
  if bad then return bad end
  for i = 1, o.own - 1 do
    if standing.gone(o.joists[i]) then
      a.notes[#a.notes + 1] = ("the headers are those of %s and are listed there"):format(
        o.joists[i].model.mark)
      return
    end
  end
  header_pieces(a, f, case, o, all.headers)
  trimmer_piece(a, f, case, o, "left")
  trimmer_piece(a, f, case, o, "right")
  hangers(a, f, o, all.headers, all.tails)
  a.notes[#a.notes + 1] = site.HANGERS
  return blocks(a, f, case, o)
end

return members
