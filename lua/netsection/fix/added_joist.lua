-- SPDX-License-Identifier: MIT
-- A new joist in the bay, on the same bearings: it takes its width of floor, the damaged
-- joist keeps less.
local cautions = require "netsection.cautions"
local model = require "netsection.model"
local part = require "netsection.fix.part"
local review = require "netsection.review"
local site = require "netsection.fix.site"
local units = require "netsection.units"

local added = {fields = {"side", "at", "size", "b", "d", "plies", "species", "grade",
  "material", "note"}}

local read = model.readers
local WOOD = {"size", "b", "d", "plies", "species", "grade", "material"}

function added.read(t, case, found, part_)
  local f = {side = read.choice(found, part_, "side", t.side or "right", {"left", "right",
    "both"})}
  f.at = t.at ~= nil and read.length(found, part_, "at", t.at) or nil
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
  return ("added joist %s, %s"):format(m.size or units.inches(m.d), f.side == "both"
    and "both bays" or f.side .. " bay")
end

local function piece(f, case, y)
  local m, n = case.model, f.wood.model
  local b = n.b * n.plies
  local x1, x2 = -m.bearing[1] / 2, part.total(m) + m.bearing[#m.bearing] / 2
  return {name = "added joist", kind = "wood", member = "added joist", count = n.plies,
    size = n.size, stock = ("%s x %d ft"):format(n.size or "", site.stock(x2 - x1) or 24),
    length = x2 - x1, material = n.wood or n.source, x1 = x1, x2 = x2, h1 = m.d - n.d,
    h2 = m.d, y1 = y - b / 2, y2 = y + b / 2}
end

function added.assess(case, f)
  local m = case.model
  if part.severed(m) then
    return nil, "the joist is cut through and still carries nothing: head it off or "
      .. "sister it, or reckon it out of the floor"
  end
  local s1, s2 = part.sides(case.joist)
  local left, right = s1, s2
  local members = {}
  local a = {checks = {}, notes = {}, pieces = {}, cautions = {cautions.always[2]},
    forces = {}, neighbours = {}}
  for _, side in ipairs(f.side == "both" and {"left", "right"} or {f.side}) do
    local bay = side == "left" and s1 or s2
    local off = f.at or bay / 2
    if off <= 0 or off >= bay then
      return nil, ("the added joist at %s does not lie in the "
        .. "bay"):format(units.inches(off))
    end
    if side == "left" then left = off else right = off end
    local j, problems = f.wood:changed {spacing = bay / 2 < 4 and 4 or bay / 2}
    if not j then return nil, problems[1].text end
    local r = review.of(j, case.options)
    for _, k in ipairs(r.cut.checks) do
      k.member = "added joist"
      a.checks[#a.checks + 1] = k
    end
    a.pieces[#a.pieces + 1] = piece(f, case, side == "left" and -off or off)
    members[2] = {name = "added joist", {r, 0}}
  end
  local j, problems = case.joist:changed {spacing = {math.max(left, 4), math.max(right,
    4)}}
  if not j then return nil, problems[1].text end
  local r = review.of(j, case.options)
  for i, k in ipairs(r.cut.checks) do table.insert(a.checks, i, k) end
  if r.cut.status == "not permitted" then
    a.status = "not permitted"
    a.notes[1] = "a cut stays outside the standard, whatever the load (NDS 4.4.3)"
  end
  a.reactions, a.deflection, a.moment = r.cut.reactions, r.cut.deflection, r.cut.moment
  a.reaction_range, a.shear, a.review = r.cut.reaction_range, r.cut.shear, r
  a.notes[#a.notes + 1] = ("the joist keeps %s of floor instead of %s; the joist "
    .. "beyond the added one has less as well"):format(units.inches((left + right) / 2),
    units.inches(m.spacing))
  a.sequence = {"Clear the bay from bearing to bearing.",
    "Set the new joist on both bearings, top against the floor, crown up.",
    "Block it to the joists beside it; fasten the floor to it.",
    "Have it seen before it is covered."}
  members[1] = {name = "joist, as repaired", {r, 0}}
  a.title, a.x1, a.x2 = added.title(f), 0, part.total(m)
  a.diagram = part.diagram(members, m)
  return a
end

return added
