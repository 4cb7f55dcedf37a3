-- SPDX-License-Identifier: MIT
-- Forces of a beam under point loads where joists stand on it, in pieces from post to
-- post or as one piece over them. Dead load in full; live load of each joist there or not
-- (the core's envelope), which on simple spans is all of it.
local core = require "netsection.core"

local beam = {}

local function near(a, b) return math.abs(a - b) < 1e-6 end

-- Loads of one case on a piece, from its first support.
local function loads_on(piece, case, start)
  local out = {}
  for _, q in ipairs(piece.loads) do
    if q[case] ~= 0 then
      out[#out + 1] = {at = q.y - start, P = q[case], case = "live"}
    end
  end
  if case == "D" and piece.weight > 0 then
    out[#out + 1] = {from = piece.y1 - start, to = piece.y2 - start, w1 = piece.weight,
      case = "live"}
  end
  return out
end

local function solved(piece, loads)
  return core.beam {spans = piece.spans, overhang_left = piece.left,
    overhang_right = piece.right, EI = piece.EI, loads = loads}
end

-- One piece between two or more posts.
local function piece_of(posts, loads, y1, y2, EI, weight)
  local p = {posts = posts, loads = loads, y1 = y1, y2 = y2, EI = EI, weight = weight,
    spans = {}, left = math.max(posts[1].y - y1, 0),
    right = math.max(y2 - posts[#posts].y, 0)}
  for i = 2, #posts do p.spans[i - 1] = posts[i].y - posts[i - 1].y end
  local start = posts[1].y
  p.dead = solved(p, loads_on(p, "D", start))
  p.live = solved(p, loads_on(p, "L", start))
  return p
end

--- Pieces of a beam. A joist over a post where two pieces meet puts half on each.
-- @param posts {{y =}, ...} in order, two at least; @param loads {{y =, D =, L =}, ...}
-- @param t {EI =, weight = lb/in, continuous =}
function beam.pieces(posts, loads, t)
  local first, last = posts[1].y, posts[#posts].y
  local y1, y2 = first, last
  for _, q in ipairs(loads) do y1, y2 = math.min(y1, q.y), math.max(y2, q.y) end
  if t.continuous or #posts == 2 then
    return {piece_of(posts, loads, y1, y2, t.EI, t.weight)}
  end
  local list = {}
  for i = 1, #posts - 1 do
    local a = i == 1 and y1 or posts[i].y
    local b = i == #posts - 1 and y2 or posts[i + 1].y
    local own = {}
    for _, q in ipairs(loads) do
      if q.y > a - 1e-6 and q.y < b + 1e-6 then
        local shared = i > 1 and near(q.y, posts[i].y)
          or i < #posts - 1 and near(q.y, posts[i + 1].y)
        local k = shared and 0.5 or 1
        own[#own + 1] = {y = q.y, D = q.D * k, L = q.L * k}
      end
    end
    list[i] = piece_of({posts[i], posts[i + 1]}, own, a, b, t.EI, t.weight)
  end
  return list
end

-- Places of a piece where M and V may be largest, from its first support.
local function places(p)
  local list, start = {}, p.posts[1].y
  for _, post in ipairs(p.posts) do list[#list + 1] = post.y - start end
  for _, q in ipairs(p.loads) do list[#list + 1] = q.y - start end
  table.sort(list)
  return list
end

-- D and the live load's most and least of M or V at a place, on one side of it.
local function at(p, what, x, side)
  local e = p.live:envelope(x, side)
  return {D = p.dead:at(x, side)[what], most = e[what .. "_max"],
    least = e[what .. "_min"], x = x}
end

--- Calls say{D =, L =, x =, y =, sign =} for M at every place a peak may stand, with
-- either sign; the beam's own weight has its peak between, and is looked for there.
function beam.each_moment(p, say)
  local list, start = places(p), p.posts[1].y
  local more = {table.unpack(list)}
  for i = 2, #list do
    for k = 1, p.weight > 0 and 7 or 0 do
      more[#more + 1] = list[i - 1] + (list[i] - list[i - 1]) * k / 8
    end
  end
  for _, x in ipairs(more) do
    local q = at(p, "M", x, "right")
    say {D = q.D, L = q.most, x = x, y = x + start, sign = 1}
    say {D = -q.D, L = -q.least, x = x, y = x + start, sign = -1}
  end
end

--- The same for the size of V on both sides of every place.
function beam.each_shear(p, say)
  local start = p.posts[1].y
  local first, last = p.y1 - start, p.y2 - start
  for _, x in ipairs(places(p)) do
    for _, side in ipairs {"left", "right"} do
      if not (near(x, first) and side == "left" or near(x, last) and side == "right") then
        local q = at(p, "V", x, side)
        say {D = q.D, L = q.most, x = x, y = x + start}
        say {D = -q.D, L = -q.least, x = x, y = x + start}
      end
    end
  end
end

--- Reactions of a piece: {y =, D =, L = all live, most =, least = live by its places}.
function beam.reactions(p)
  local D, L, out = p.dead:reactions(), p.live:reactions(), {}
  for i, post in ipairs(p.posts) do
    local most, least = p.live:reaction_range(i)
    out[i] = {y = post.y, D = D[i], L = L[i], most = most, least = least}
  end
  return out
end

-- Groups of live load that may be there or not: those of each span and each overhang.
local function groups(p)
  local list, x = {}, p.posts[1].y
  local function add(a, b)
    local own = {}
    for _, q in ipairs(p.loads) do
      if q.L ~= 0 and q.y > a + 1e-6 and q.y < b - 1e-6 then
        own[#own + 1] = {at = q.y - p.posts[1].y, P = q.L, case = "live"}
      end
    end
    if #own > 0 then list[#list + 1] = solved(p, own) end
  end
  add(-math.huge, x)
  for _, span in ipairs(p.spans) do
    add(x, x + span)
    x = x + span
  end
  add(x, math.huge)
  return list
end

local POINTS = 200 -- looked at on a span; the top of a sag is flat, so 3e-5 is missed

--- Sags of each span and overhang: {length = L of the limit, live =, dead =, y = of the
-- live sag}; live load by spans where it sags them most.
function beam.sags(p)
  local list, out, x, start = groups(p), {}, 0, p.posts[1].y
  local function look(a, b, length)
    local worst = {length = length, live = 0, dead = 0, y = start + (a + b) / 2}
    for k = 0, POINTS do
      local z = a + (b - a) * k / POINTS
      local live = 0
      for _, g in ipairs(list) do live = live + math.max(g:at(z).deflection, 0) end
      local dead = p.dead:at(z).deflection
      if live + math.max(dead, 0) > worst.live + math.max(worst.dead, 0) then
        worst.live, worst.dead, worst.y = live, dead, start + z
      end
    end
    out[#out + 1] = worst
  end
  if p.left > 0 then look(-p.left, 0, 2 * p.left) end
  for _, span in ipairs(p.spans) do
    look(x, x + span, span)
    x = x + span
  end
  if p.right > 0 then look(x, x + p.right, 2 * p.right) end
  return out
end

--- Deflection of a beam's pieces at y under all its loads, D and L apart.
function beam.deflection(list, y)
  for _, p in ipairs(list) do
    if y > p.y1 - 1e-6 and y < p.y2 + 1e-6 then
      local x = math.min(math.max(y, p.y1), p.y2) - p.posts[1].y
      return p.dead:at(x).deflection, p.live:at(x).deflection
    end
  end
  return 0, 0
end

return beam
