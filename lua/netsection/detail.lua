-- SPDX-License-Identifier: MIT
-- What a detail of a repair is drawn from: the layout, where it is cut across, the parts
-- and the notes in the carpenter's words. A repair that fails, or is refused, gives none.
local fasten = require "netsection.fix.fasten"
local fastener = require "netsection.fastener"
local layout = require "netsection.layout"
local point = require "netsection.point"
local units = require "netsection.units"
local tostring = require "netsection.point".text

local detail = {}


-- Repairs that are seen with the whole joist, and those at one of its ends.
local WHOLE = {header = true, midspan_support = true, added_joist = true}
-- Shown past the ends of a repair; the least of a joist that is shown, in.
local PAST, SHORTEST = 6, 40
-- Columns nearer than this, at other heights, are one staggered row, in.
local STAGGER = 2.5

---------------------------------------------------------------------------
-- Whether there is something to build
---------------------------------------------------------------------------

-- Why a repair is not drawn as one to build, or nil.
local function not_to_build(review)
  local a = review.fixed
  if not a then return "no repair is described" end
  if a.kind == "neighbor" then
    return "its repair is that of a joist beside it: draw that one"
  elseif a.refused then
    return "the repair is inadequate: " .. a.refused
  elseif a.status ~= "adequate" then
    return ("the repair is inadequate: %s, largest ratio %s%s"):format(a.status,
      units.fixed(a.ratio, 2), a.governing and " by " .. a.governing or "")
  end
end

---------------------------------------------------------------------------
-- Places
---------------------------------------------------------------------------

local function placed(piece)
  return not piece.of and piece.x1 and piece.x2 and piece.h1 and piece.h2 and piece.y1
end

-- From the first to the last piece or fastener at this joist.
local function extent(L, a)
  local x1, x2 = math.huge, -math.huge
  for _, p in ipairs(L.fix.pieces) do
    if placed(p) then x1, x2 = math.min(x1, p.x1), math.max(x2, p.x2) end
  end
  for _, f in ipairs(L.fix.layout) do x1, x2 = math.min(x1, f.x), math.max(x2, f.x) end
  if x1 > x2 then return a.x1, a.x2 end
  return x1, x2
end

local function ends(L)
  local a, b = L.start, L.finish
  for i, x in ipairs(L.supports) do
    local half = (L.bearing[i] or 0) / 2
    a, b = math.min(a, x - half), math.max(b, x + half)
  end
  return a, b
end

-- The part of the joist that is drawn: nearly all of it is all of it.
local function shown(L, kind, x1, x2)
  local a, b = ends(L)
  a, b = math.min(a, x1), math.max(b, x2)
  if WHOLE[kind] or x2 - x1 + 2 * PAST > 0.75 * (b - a) then return a, b end
  local short = math.max(0, SHORTEST - (x2 - x1) - 2 * PAST) / 2
  local from, to = x1 - PAST - short, x2 + PAST + short
  if from < a + 6 then from, to = a, math.max(to, a + SHORTEST) end
  if to > b - 6 then from, to = math.min(from, b - SHORTEST), b end
  return math.max(from, a), math.min(to, b)
end

local function middle(cut)
  return (cut.x1 + cut.x2) / 2
end

-- The cut that the repair is about: the nearest to its middle, a cut through before all.
local function main_cut(L, x1, x2)
  local best, least
  for _, c in ipairs(L.cuts) do
    local far = math.abs(middle(c) - (x1 + x2) / 2) - (c.kind == "sever" and 1e6 or 0)
    if not best or far < least then best, least = c, far end
  end
  return best
end

-- The column of fasteners nearest to a place: where the shanks show.
local function column_near(L, x)
  local best
  for _, f in ipairs(L.fix.layout) do
    if not best or math.abs(f.x - x) < math.abs(best - x) then best = f.x end
  end
  return best
end

-- Places of A-A, at a group of fasteners or a piece, and B-B, at mid-repair.
local function cuts_across(L, x1, x2)
  local cut = main_cut(L, x1, x2)
  local mid = (x1 + x2) / 2
  local b = cut and middle(cut) or mid
  if cut and cut.kind == "end_notch" then
    b = math.max(L.start, math.min(L.finish, cut.right_end and cut.x1 + 1 or cut.x2 - 1))
  end
  local a = column_near(L, b)
  for _, p in ipairs(L.fix.pieces) do
    if not a and placed(p) then a = math.max(L.start, (p.x1 + p.x2) / 2) end
  end
  a = a or mid
  if math.abs(a - b) < 0.5 then b = mid end
  return a, math.abs(a - b) >= 0.5 and b or nil
end

-- Fasteners seen in a section: those of the column there, and of the columns beside it
-- that are staggered with it (`off` the place).
function detail.fasteners_at(L, x)
  local list, heights = {}, {}
  local function key(f)
    return point.format("%.3f %.3f %s", f.h, f.y or 0, f.piece or 1)
  end
  for _, f in ipairs(L.fix.layout) do
    if math.abs(f.x - x) < 0.05 then
      list[#list + 1] = {h = f.h, y = f.y, D = f.D, piece = f.piece or 1}
      heights[key(f)] = true
    end
  end
  if #list == 0 then return list end
  for _, f in ipairs(L.fix.layout) do
    if math.abs(f.x - x) <= STAGGER and not heights[key(f)] then
      list[#list + 1] = {h = f.h, y = f.y, D = f.D, piece = f.piece or 1, off = true}
      heights[key(f)] = true
    end
  end
  return list
end

-- Columns from here on are too many distances for one chain, unless they repeat.
local MANY = 16
local SAME = 1 / 32

--- Places of the columns of a piece's fasteners, of all where i is nil.
function detail.columns(L, i)
  local xs, all = {}, {}
  for _, f in ipairs(L.fix.layout) do
    if i == nil or (f.piece or 1) == i then all[#all + 1] = f.x end
  end
  table.sort(all)
  for _, x in ipairs(all) do
    if #xs == 0 or x - xs[#xs] > SAME then xs[#xs + 1] = x end
  end
  return xs
end

--- The same; where they come in many pairs alike, the first of each pair, and how far
-- apart the two are.
function detail.chained(L, i)
  local xs = detail.columns(L, i)
  if #xs < MANY or #xs % 2 == 1 then return xs end
  local apart, pitch, first = xs[2] - xs[1], xs[3] - xs[2], {}
  for k = 1, #xs, 2 do
    if math.abs(xs[k + 1] - xs[k] - apart) > SAME then return xs end
    first[#first + 1] = xs[k]
  end
  if apart >= pitch - SAME then return xs end
  return first, apart
end

---------------------------------------------------------------------------
-- Parts
---------------------------------------------------------------------------

local FACE = {left = "left face", right = "right face"}

local function face_of(p, show)
  if FACE[p.side] then return FACE[p.side] end
  if p.kind == "wood" and p.y1 and not p.of then
    local off = (p.y1 + p.y2) / 2
    return ("center %s %s of the joist's center"):format(show.size(math.abs(off)),
      off < 0 and "left" or "right")
  end
  if p.h2 and p.h2 <= 0 and p.name == "strap" then return "under the bottom edge" end
end

-- A place along the joist; before the bearing's center there is no minus to overlook.
local function place(x, show)
  return x < -1 / 32 and show.size(-x) .. " left of the left bearing's center"
    or show.place(x)
end

local function piece_text(i, p, show)
  if p.kind == "hardware" then return ("(%d) %s"):format(i, p.label) end
  local out = {("(%d) %s"):format(i, p.name)}
  out[2] = (p.count or 1) > 1 and ("%d of %s"):format(p.count, p.size or p.name) or p.size
  if p.kind == "wood" or p.kind == "header" then out[#out + 1] = p.material end
  out[#out + 1] = p.length and "length " .. show.place(p.length) or nil
  out[#out + 1] = face_of(p, show)
  if p.of then
    out[#out + 1] = "beside joist " .. p.of
  elseif p.kind == "header" then
    out[#out + 1] = "center at " .. show.place((p.x1 + p.x2) / 2)
  elseif p.x1 then
    out[#out + 1] = ("from %s to %s"):format(place(p.x1, show), place(p.x2, show))
  end
  return table.concat(out, ", ")
end

-- Holes to drill; the denser wood decides.
local function hole_text(review, f)
  local G = math.max(f.G_host or 0, f.G_new or 0)
  if G == 0 then G = fasten.gravity(f, review.joist.description, {}) end
  local hole = fastener.lead_hole {fastener = f.fastener, G = G}
  if not hole then return nil end
  local kind, drill = f.fastener.kind, review.show.drill
  if kind == "nail" and not f.prebored then
    return ("driven; where the wood would split, lead hole %s"):format(drill(hole[1],
      hole[2]))
  elseif kind == "bolt" then
    return ("drill %s through, washers under head and nut on wood"):format(drill(hole[1],
      hole[2]))
  elseif kind == "lag screw" then
    return ("lead hole %s for the thread, %s for the shank; washers on wood"):format(
      drill(hole[1], hole[2]), drill(f.fastener.D, f.fastener.D))
  elseif kind == "wood screw" then
    local shank = f.fastener.D * (G > 0.6 and 1 or 7 / 8)
    return ("lead hole %s for the thread, %s for the shank"):format(drill(hole[1],
      hole[2]),
      drill(shank, shank))
  end
  return "lead hole " .. drill(hole[1], hole[2])
end

local function fastener_texts(review)
  local list, hole = {}, nil
  local repair = review.joist.repair
  if repair.fastener and repair.fastener.kind then hole = hole_text(review, repair) end
  for _, f in ipairs(review.fixed.fasteners) do
    local own = not repair.fastener or f.fastener == tostring(repair.fastener)
    local said = f.hole and hole_text(review, f.hole) or own and hole
    list[#list + 1] = ("%s%s%s%s"):format(
      f.count and ("%d pieces, "):format(f.count) or "", f.fastener or "fasteners",
      f.where and ", " .. f.where or "",
      type(said) == "string" and "; " .. said or "")
  end
  return list
end

local function parts_of(review)
  local list = {}
  for i, p in ipairs(review.fixed.pieces) do list[i] = piece_text(i, p, review.show) end
  for _, text in ipairs(fastener_texts(review)) do list[#list + 1] = text end
  return list
end

---------------------------------------------------------------------------
-- Notes
---------------------------------------------------------------------------

local SHORE = "Shore first, on posts that reach something firm."
local ALWAYS = {
  "Places along the joist (upright figures) are from the center of the left bearing, "
    .. "heights from the joist's bottom edge; left and right face as seen from the left "
    .. "bearing toward the right one.",
  "Do not change type, size, length, count, places or side of the fasteners; do not cut, "
    .. "notch or drill the joist or a new piece beyond this drawing.",
  "If the site differs from this drawing, stop and call the engineer.",
}

-- Loads that a hanger, a header or a post is chosen for.
local function load_text(a, show)
  local said, list = {}, {}
  for _, f in ipairs(a.forces) do
    local text = f.unit == "lb" and f.name:find "^load on" and ("%s%s: %s"):format(
      f.name, f.at and " at " .. show.place(f.at) or "", show.load_up(f.value))
    if text and not said[text] then
      said[text] = true
      list[#list + 1] = text
    end
  end
  if #list > 0 then return "Choose hardware and posts for: " .. table.concat(list, "; ")
    .. "." end
end

local function pair_text(L)
  for i = 1, math.max(1, #L.fix.pieces) do
    local _, apart = detail.chained(L, i)
    if apart then
      return ("Fasteners stand in pairs of columns %s apart; the chain of distances "
        .. "gives the first of each pair."):format(L.show.size(apart))
    end
  end
end

local function sentence(note)
  return note:sub(1, 1):upper() .. note:sub(2) .. "."
end

-- What is done at the ends of new wood before it is set.
local function end_work(review)
  local list = {}
  for _, note in ipairs(review.fixed.notes) do
    if note:find "^notch the bottom" or note:find "^pack the" then
      list[#list + 1] = sentence(note)
    end
  end
  if review.fixed.kind == "sister" and review.joist.repair.hanger then
    list[#list + 1] = "Hang the sister at its ends; it does not stand on the seats."
  end
  return list
end

local function notes_of(review, L)
  local a, list = review.fixed, {}
  local first = a.sequence[1] or ""
  if not first:lower():find "^shore" then list[1] = SHORE end
  local first_work = end_work(review)
  for _, step in ipairs(a.sequence) do
    if step:find "^Cut the" or step:find "^Set the" then
      table.move(first_work, 1, #first_work, #list + 1, list)
      first_work = {}
    end
    list[#list + 1] = step
  end
  table.move(first_work, 1, #first_work, #list + 1, list)
  list[#list + 1] = pair_text(L)
  list[#list + 1] = load_text(a, L.show)
  for _, note in ipairs(a.notes) do
    if note:find "not designed here" or note:find "not checked" then
      list[#list + 1] = sentence(note)
    end
  end
  for _, text in ipairs(ALWAYS) do list[#list + 1] = text end
  return list
end

---------------------------------------------------------------------------
-- The whole
---------------------------------------------------------------------------

-- The joist as it is when it is headed off: tails end square at the headers' outer faces,
-- and what was between them, or beyond the only one on the cut's side, is gone.
local function open_between_headers(L)
  local x1, x2, n = math.huge, -math.huge, 0
  for _, p in ipairs(L.fix.pieces) do
    if p.kind == "header" then
      x1, x2, n = math.min(x1, p.x1), math.max(x2, p.x2), n + 1
    end
  end
  if n == 0 then return end
  local cut = main_cut(L, x1, x2)
  if n == 1 and cut then
    if middle(cut) < (x1 + x2) / 2 then x1 = L.start else x2 = L.finish end
  end
  local cuts = {{kind = "sever", name = "opening", label = "taken out", x1 = x1, x2 = x2,
    h1 = 0, h2 = L.d}}
  for _, c in ipairs(L.cuts) do
    if c.x2 <= x1 or c.x1 >= x2 then cuts[#cuts + 1] = c end
  end
  L.cuts = cuts
end

-- A count before a fraction would read as a mixed number.
local function title_of(L)
  return (L.fix.title:gsub("^(%d+) (%d+/%d)", "%1 pieces, %2"))
end

local function span_of(m)
  local list = {}
  for i, span in ipairs(m.span) do list[i] = m.show.place(span) end
  return table.concat(list, " + ")
end

--- @param review a review of a repaired joist
-- @return {layout, kind, bolted, shank (length of a fastener, in), both (fasteners from
--   both faces), from, to (the repair), a, b (what is drawn), cut, sections = {A, B},
--   title, span, parts = {text}, notes = {text}}; or nil and why it is not to be built
function detail.of(review)
  local why = not_to_build(review)
  if why then return nil, why end
  local L, a = layout.of(review), review.fixed
  local repair = review.joist.repair
  if a.kind == "header" then open_between_headers(L) end
  local from, to = extent(L, a)
  local x1, x2 = shown(L, a.kind, from, to)
  local A, B = cuts_across(L, from, to)
  local kind = repair.fastener and repair.fastener.kind
  local two, count = false, 0
  for _, f in ipairs(L.fix.layout) do two = two or (f.piece or 1) > 1 end
  for _, f in ipairs(a.fasteners) do count = count + (f.count or 0) end
  return {layout = L, kind = a.kind, bolted = kind == "bolt",
    shank = repair.fastener and repair.fastener.length or repair.fastener
      and repair.fastener.L, both = not two and count == 2 * #L.fix.layout,
    from = from, to = to, a = x1, b = x2, cut = main_cut(L, from, to),
    title = title_of(L), span = span_of(review.joist.model), sections = {A, B},
    parts = parts_of(review), notes = notes_of(review, L)}
end

return detail
