-- SPDX-License-Identifier: MIT
-- A sister: a second joist beside the damaged one. Full length on both bearings it shares
-- by stiffness; shorter, or not on the bearings, its fasteners carry a couple.
local beside = require "netsection.fix.beside"
local fasten = require "netsection.fix.fasten"
local lane = require "netsection.lane"
local model = require "netsection.model"
local seat = require "netsection.fix.seat"
local site = require "netsection.fix.site"

local sister = {fields = {"size", "b", "d", "plies", "species", "grade", "edition",
  "material", "share", "hanger"}}
for _, list in ipairs {beside.fields, fasten.fields} do
  table.move(list, 1, #list, #sister.fields + 1, sister.fields)
end

local WOOD = {"size", "b", "d", "plies", "species", "grade", "edition", "material"}

-- The sister as a joist of its own, like the old one where nothing else is said.
local function wood_of(t, case, found, part)
  local changes = {mark = case.model.mark .. ", sister", plies = t.plies or 1}
  for _, name in ipairs(WOOD) do
    if t[name] ~= nil then changes[name] = t[name] end
  end
  if t.size == nil and (t.b or t.d) then
    changes.b, changes.d = t.b or case.model.b, t.d or case.model.d
  end
  local bare = case.joist:bare()
  local made, problems = bare:changed(changes)
  for _, problem in ipairs(problems or {}) do
    if not made then found:add(part, problem.field, problem.message) end
  end
  return made
end

sister.wood_of = wood_of

-- What a share means where the sister is not on both bearings, or the joist is cut
-- through: its fasteners carry by their slip; with "new" the cuts count as cut through.
local function read_share(t, f, found, part)
  local full = f.bears_left and f.bears_right
  if f.share == "new" and not full then
    f.written_off, f.severed = true, true
    f.between = t.gap_load == nil or f.between
    if t.lift ~= nil and t.lift ~= "unloaded" then
      found:add(part, "lift", "not read with share = \"new\": the joist counts as cut "
        .. "through and carries nothing while it is fastened")
    end
    f.lift = "unloaded"
  elseif f.share == "new" and t.lift ~= nil and t.lift ~= "unloaded" then
    found:add(part, "lift", "not read with share = \"new\": what is written off carries "
      .. "nothing")
  elseif f.share and f.share ~= "slip" and f.share ~= "new" and (not full
    or f.severed) then
    found:add(part, "share", ("'%s' is not read %s: the two share by the slip of their "
      .. "fasteners"):format(f.share, full and "for a joist that is cut through"
      or "for a sister that is not on both bearings"))
  end
  if t.gap_load ~= nil and not f.severed then
    found:add(part, "gap_load", "not read: the joist has no gap")
  end
end

function sister.read(t, case, found, part)
  local f = beside.read(t, case, found, part)
  f.wood = wood_of(t, case, found, part)
  f.hanger = seat.read_hanger(t, found, part)
  if f.hanger and not (f.bears_left or f.bears_right) then
    found:add(part, "hanger", "only a sister that bears hangs at its ends")
  end
  f.share = t.share ~= nil and model.readers.choice(found, part, "share", t.share,
    {"stiffness", "new", "worst", "slip"}) or nil
  read_share(t, f, found, part)
  return f
end

local function name_of(f)
  local o = f.wood.model
  local size = site.section(o)
  return o.plies > 1 and ("%d plies %s"):format(o.plies, size) or size
end

sister.name_of = name_of

function sister.title(f)
  if not f.wood then return "sister" end
  local full = f.bears_left and f.bears_right
  return ("%s %s, %s, %s to %s"):format(full and "full-length sister" or "sister",
    name_of(f), f.side == "both" and "both faces" or f.side .. " face",
    f.show.place(f.from), f.show.place(f.to))
end

-- Advice where the statics do not say: groups at least 2d apart on each side.
local function advice(f, case, a)
  local d = case.model.d
  for _, c in ipairs(case.review.cuts) do
    if c.x1 > f.to and c.x1 - f.to < d or c.x2 < f.from and f.from - c.x2 < d then
      a.cautions[#a.cautions + 1] = ("%s lies within d of the sister's end, where the "
        .. "joist carries all again"):format(c.name)
    end
  end
  if f.severed and not f.bears_left and not f.bears_right and #f.stations == 4 then
    local x = f.stations
    if lane.min(x[2].x - x[1].x, x[4].x - x[3].x) < 2 * d then
      a.notes[#a.notes + 1] = "groups nearer than 2d to each other: a longer lap lowers "
        .. "their forces in proportion"
    end
  end
end

-- Most that the sister puts on its own bearings, on one piece where there are two. The
-- dead part is not known apart: all of it counts as live, without the factor that the
-- last combination has put on it.
local function own_reactions(a, f, standard)
  local sides, R = f.side == "both" and 2 or 1, a.own_reactions or {}
  local list = standard.data.combinations
  local function at(n)
    return {dead = 0, live = lane.max(R[n] and R[n].most or 0, 0) / sides
      / list[#list].L}
  end
  return {left = at(1), right = at(2)}
end

-- The sister's numbers into f; what beside.lua has to know of it, or nil and a reason.
local function words_of(case, f)
  local o, host = f.wood.model, case.model
  if o.missing or o.manufactured then return nil, "the sister's wood is not known" end
  local sides = f.side == "both" and 2 or 1
  f.member, f.b, f.d = "sister", o.b * o.plies * sides, o.d
  f.other, f.E = beside.values(o, case.standard)
  f.G_host = fasten.gravity(f, case.joist.description, f.notes)
  local G = fasten.gravity({G = f.G}, f.wood.description, {})
  return {thin = lane.min(o.b * o.plies, host.b),
    side = {G = G, thickness = o.b * o.plies, angle = 90}, new = "sister",
    piece = {name = "sister", kind = "wood", member = "sister", size = name_of(f),
      material = o.wood or o.source}}
end

function sister.lanes(case, f)
  local words, reason = words_of(case, f)
  if not words then return nil, reason end
  return beside.lanes(case, f, words)
end

local function hangers_of(f)
  return ((f.bears_left and 1 or 0) + (f.bears_right and 1 or 0))
    * (f.side == "both" and 2 or 1)
end

-- Pieces as they are listed, hangers included.
function sister.count(f)
  return f.wood.model.plies * (f.side == "both" and 2 or 1)
    + (f.hanger and hangers_of(f) or 0)
end

function sister.assess(case, f)
  local words, unknown = words_of(case, f)
  if not words then return nil, unknown end
  local a, reason = beside.assess(case, f, words)
  if not a then return nil, reason end
  for _, p in ipairs(a.pieces) do
    p.size, p.count = site.section(f.wood.model), f.wood.model.plies
    p.stock = site.cut_from(p.size, p.length, f.show)
    p.label = ("%s x %s"):format(name_of(f), f.show.place(p.length))
  end
  a.title = sister.title(f)
  if f.bears_left or f.bears_right then
    seat.add(a, case, f.wood.model, {ends = f.seats, hanger = f.hanger, name = "sister",
      R = own_reactions(a, f, case.standard), count = hangers_of(f)})
  end
  advice(f, case, a)
  return a
end

-- One of the kinds of repairs (see fix.lua): its place among them, and that it is
-- worked out under factored loads and with those of a roof.
sister.order, sister.factored, sister.roof = 10, true, true

return sister
