-- SPDX-License-Identifier: MIT
-- A new joist in the bay, on the same bearings: it takes its width of floor, the damaged
-- joist keeps less, or, written off, nothing: its load then goes to those beside it.
local cautions = require "netsection.cautions"
local lane = require "netsection.lane"
local model = require "netsection.model"
local neighbours = require "netsection.fix.neighbours"
local part = require "netsection.fix.part"
local nails = require "netsection.fix.ply_nails"
local review = require "netsection.review"
local seat = require "netsection.fix.seat"
local site = require "netsection.fix.site"
local units = require "netsection.units"

local added = {fields = {"side", "at", "size", "b", "d", "plies", "species", "grade",
  "material", "write_off", "hanger", "note"}}

local read = model.readers
local WOOD = {"size", "b", "d", "plies", "species", "grade", "material"}

function added.read(t, case, found, part_)
  local f = {side = read.choice(found, part_, "side", t.side or "right", {"left", "right",
    "both"})}
  f.at = t.at ~= nil and read.length(found, part_, "at", t.at) or nil
  f.write_off = t.write_off or false
  if type(f.write_off) ~= "boolean" then
    found:add(part_, "write_off", "true or false expected")
  end
  f.hanger = seat.read_hanger(t, found, part_)
  local changes = {mark = case.model.mark .. ", added"}
  for _, name in ipairs(WOOD) do changes[name] = t[name] end
  if t.size == nil and (t.b or t.d) then
    changes.b, changes.d = t.b or case.model.b, t.d or case.model.d
  end
  local wood, problems = case.joist:bare():changed(changes)
  if not wood then found:add(part_, problems[1].field, problems[1].message) end
  f.wood = wood
  return f
end

function added.title(f)
  local m = f.wood.model
  return ("added joist %s, %s%s"):format(site.section(m), f.side == "both"
    and "both bays" or f.side .. " bay", f.write_off and ", the old one written off"
    or "")
end

local function piece(f, case, y)
  local m, n = case.model, f.wood.model
  local b = n.b * n.plies
  local x1, x2 = -m.bearing[1] / 2, part.total(m) + m.bearing[#m.bearing] / 2
  local size = site.section(n)
  return {name = "added joist", kind = "wood", member = "added joist", count = n.plies,
    size = size, stock = site.cut_from(size, x2 - x1, f.show), length = x2 - x1,
    material = n.wood or n.source, x1 = x1, x2 = x2, h1 = m.d - n.d,
    h2 = m.d, y1 = y - b / 2, y2 = y + b / 2}
end

-- Joists across the floor from this one's left neighbor to the right, by place.
-- @return {{y =, side =, what = "neighbor"|"joist"|"added"}, ...}; or nil and a reason
local function row_of(f, case)
  local s1, s2 = part.sides(case.joist)
  local row = {{y = -s1, side = "left", what = "neighbour"}}
  for _, side in ipairs {"left", "joist", "right"} do
    local bay = side == "left" and s1 or s2
    local off = f.at or bay / 2
    if side == "joist" then
      row[#row + 1] = {y = 0, what = "joist"}
    elseif f.side == side or f.side == "both" then
      if not neighbours.of(case, side) then
        return nil, ("there is no bay on the %s"):format(side)
      end
      if off <= 0 or off >= bay then
        return nil, ("the added joist at %s does not lie in the bay"):format(
          f.show.size(off))
      end
      row[#row + 1] = {y = side == "left" and -off or off, side = side, what = "added"}
    end
  end
  row[#row + 1] = {y = s2, side = "right", what = "neighbour"}
  return row
end

-- Width of floor of each, half the way to both beside it; a neighbor's is what it gains.
local function widths(row)
  for i = 2, #row - 1 do row[i].width = (row[i + 1].y - row[i - 1].y) / 2 end
  local first, last = row[1], row[#row]
  first.width = (row[2].y - first.y) / 2 + first.y / 2
  last.width = (last.y - row[#row - 1].y) / 2 - last.y / 2
end

-- The old joist goes out of the row; its own line and point loads go to those beside it,
-- by the distances.
local function write_off(row)
  for i, p in ipairs(row) do
    if p.what == "joist" then
      table.remove(row, i)
      local a, b = row[i - 1], row[i]
      a.share, b.share = b.y / (b.y - a.y), -a.y / (b.y - a.y)
      break
    end
  end
  return row
end

-- Loads of an added joist: what lies on the floor by area, and the old joist's own that
-- come to it.
local function loads_on(p, m)
  local out = part.area_loads(m)
  if (p.share or 0) > 0 then
    local shed = neighbours.shed_loads(m, 0, p.share)
    table.move(shed, 1, #shed, #out + 1, out)
  end
  return out
end

local function add_checks(a, r, member)
  for _, k in ipairs(r.cut.checks) do
    if member then k.member = member end
    a.checks[#a.checks + 1] = k
  end
end

local function add_forces(a, r, name)
  for i, R in ipairs(r.cut.reaction_range) do
    a.forces[#a.forces + 1] = {name = ("%s on bearing %d"):format(name, i), at = nil,
      value = R.most, unit = "lb"}
  end
end

-- The old joist on what is left to it.
local function keep_old(a, _, case, p)
  local m, width = case.model, p.width
  local j, problems = case.joist:changed {spacing = lane.max(width, 4)}
  if not j then return nil, problems[1].text end
  local r = review.of(j, case.options)
  add_checks(a, r)
  if r.cut.status == "not permitted" then
    a.status = "not permitted"
    a.notes[#a.notes + 1] = ("a cut stays outside the standard, whatever the "
      .. "load (%s)"):format(case:rule "gates")
  end
  a.reactions, a.deflection, a.moment = r.cut.reactions, r.cut.deflection, r.cut.moment
  a.reaction_range, a.shear, a.review = r.cut.reaction_range, r.cut.shear, r
  add_forces(a, r, "joist")
  a.members[#a.members + 1] = {name = "joist, as repaired", {r, 0}}
  a.notes[#a.notes + 1] = ("the joist keeps %s of floor instead of %s; the joist "
    .. "beyond the added one has less as well"):format(case.model.show.size(width),
    case.model.show.size(m.spacing))
  if #m.points + #m.lines > 0 then
    a.notes[#a.notes + 1] = "its line and point loads stay on it; loads by area are on "
      .. "the added joist as well"
  end
  return r
end

local function add_new(a, f, case, p)
  local j, problems = f.wood:changed {spacing = lane.max(p.width, 4),
    loads = loads_on(p, case.model), repetitive = case.joist.description.repetitive
      or p.share and 1 or nil}
  if not j then return nil, problems[1].text end
  local r = review.of(j, case.options)
  if not r.computed then return nil, r.reasons[1] end
  add_checks(a, r, "added joist")
  local ends, reason = seat.fit(case, {rise = case.model.d - f.wood.model.d,
    d = f.wood.model.d, bears = {left = true, right = true}, hanger = f.hanger ~= nil})
  if not ends then return nil, "the added joist: " .. reason end
  seat.add(a, case, j.model, {ends = ends, hanger = f.hanger, name = "added joist",
    R = seat.reactions(r)})
  add_forces(a, r, "added joist")
  a.pieces[#a.pieces + 1] = piece(f, case, p.y)
  a.members[#a.members + 1] = {name = f.side == "both" and "added joist, " .. p.side
    or "added joist", {r, 0}}
  a.deflection = a.deflection or r.cut.deflection
  a.reactions, a.moment = a.reactions or r.cut.reactions, a.moment or r.cut.moment
  return r
end

-- Blocks of full depth hold the new joist upright at both ends (from memory),
-- between it and what stands on either side of it.
local BLOCK_NAILS, END_NAILS, DECK = 3, 3, 12

local function blocks(a, f, case, row)
  local m, n = case.model, f.wood.model
  local size, half = site.section(n), n.b * n.plies / 2
  local count, new, by_length = 0, 0, {}
  for i, p in ipairs(row) do
    local last = row[i - 1]
    new = new + (p.what == "added" and 1 or 0)
    if last and (p.what == "added" or last.what == "added") then
      local beside = m.b * m.plies / 2
      local length = p.y - last.y - (p.what == "added" and half or beside)
        - (last.what == "added" and half or beside)
      local key = lane.is(length) and lane.mark or units.fixed(length, 2)
      if not by_length[key] then
        by_length[key] = {name = "block", kind = "block", member = "block", count = 0,
          size = size, stock = site.cut_from(size, length, f.show), length = length,
          material = n.wood or n.source}
        a.pieces[#a.pieces + 1] = by_length[key]
      end
      by_length[key].count = by_length[key].count + 2
      count = count + 2
    end
  end
  if n.plies > 1 then
    for _ = 1, new do
      nails.join(a, case, {joist = f.wood, n = n.plies, loaded = 1, loads = {},
        length = part.total(m), name = "each added joist", member = "added joist"})
    end
  end
  local L = part.total(m)
  local function hold(nail, n_, where)
    nails.hold(a, case, {size = nail, count = n_, where = where})
  end
  hold("8d", 2 * BLOCK_NAILS * count, ("blocks, %d toe-nails at each end"):format(
    BLOCK_NAILS))
  if not f.hanger then
    hold("8d", 2 * END_NAILS * new, ("added joist, %d toe-nails at each bearing")
      :format(END_NAILS))
  end
  local line = lane.floor(L / DECK + 1e-9) + 1
  hold("8d", line * new,
    ("deck to the added joist, one every %s: %s"):format(case.model.show.about(DECK),
    lane.text("%d", line)))
  a.notes[#a.notes + 1] = "toe-nails and nails of the deck hold the pieces in place: "
    .. "common practice, no strength of theirs is counted"
end

local work = {joist = keep_old, added = add_new}

-- The neighbors' part of a joist that is written off.
local function shed(a, case, row)
  local first, last = row[1], row[#row]
  local entries, checks, notes = neighbours.shed(case, {
    left = {width = first.width, share = first.share or 0},
    right = {width = last.width, share = last.share or 0}})
  if not entries then return checks end
  for i, n in ipairs(entries) do neighbours.add(a, n, checks[i]) end
  table.move(notes, 1, #notes, #a.notes + 1, a.notes)
  a.notes[#a.notes + 1] = "the old joist is written off: its floor and loads go to those "
    .. "beside it, with a repetitive factor of 1.0"
end

local SEQUENCE = {
  "Shore the floor beside the joist where it leans on it.",
  "Clear the bay from bearing to bearing.",
  "Set the new joist on both bearings, top against the floor, crown up.",
  "Block it to the joists beside it at both ends, as listed; nail the deck to it.",
  "Have it seen before it is covered; take the shores out a little at a time.",
}

-- Where it hangs it does not stand on the bearings.
local function sequence_of(f)
  if not f.hanger then return SEQUENCE end
  local list = {table.unpack(SEQUENCE)}
  list[3] = "Hang the new joist at both ends beside the bearings, top against the floor, "
    .. "crown up."
  return list
end

function added.assess(case, f)
  local m = case.model
  if part.severed(m) and not f.write_off then
    return nil, "the joist is cut through and still carries nothing: head it off or "
      .. "sister it, or reckon it out of the floor with write_off = true"
  elseif f.write_off and (#m.span > 1 or m.overhang_left > 0 or m.overhang_right > 0) then
    return nil, "only a joist of one span without overhangs is written off here"
  end
  local row, reason = row_of(f, case)
  if not row then return nil, reason end
  local all = {table.unpack(row)}
  widths(f.write_off and write_off(row) or row)
  local a = {checks = {}, notes = {}, pieces = {}, forces = {}, neighbours = {},
    members = {}, cautions = {cautions.always[2]}, sequence = sequence_of(f),
    title = added.title(f), x1 = 0, x2 = part.total(m), access = {"below"}}
  for _, what in ipairs {"joist", "added"} do
    for _, p in ipairs(row) do
      if p.what == what then
        local r, why = work[what](a, f, case, p)
        if not r then return nil, why end
      end
    end
  end
  blocks(a, f, case, all)
  reason = f.write_off and shed(a, case, row) or nil
  if reason then return nil, reason end
  a.notes[#a.notes + 1] = f.hanger
    and "the added joist hangs beside the bearings of this one"
    or "the added joist stands on the same bearings as this one"
  a.diagram, a.members = part.diagram(a.members, m), nil
  return a
end

-- One of the kinds of repairs (see fix.lua): its place among them, and why it is worked
-- out in allowable stress design alone.
added.order, added.one_format = 70, "only"

return added
