-- SPDX-License-Identifier: MIT
-- A stud wall under joists: its plate across the grain, and a stud under all that stands
-- within one stud spacing, with what the user says stands on the wall from above.
local member = require "netsection.member"
local model = require "netsection.model"
local plate = require "netsection.member.plate"
local post = require "netsection.member.post"

local wall = {}

wall.fields = {"mark", "plate", "stud", "spacing", "above", "note"}

local read = model.readers

--- @param level of the caller, for what is raised; @param standard of packs.standard
function wall.read(t, level, standard)
  local found = member.problems(t, "wall")
  local f = {given = t}
  for name, kind in pairs {plate = plate, stud = post} do
    local word = name == "plate" and "plate" or "post"
    if type(t[name]) ~= "table" or t[name].kind ~= word then
      found:add(nil, name, ("ns.%s{...} expected"):format(word))
    else
      f[name] = kind.read(t[name], level + 1, standard)
      if f[name].load then
        found:add(nil, name, "its load follows from what stands on the wall")
      end
    end
  end
  if f.stud and f.stud.capacity then
    found:add(nil, "stud", "of wood expected")
  end
  if t.spacing == nil then
    found:add(nil, "spacing", "missing: of the studs")
  else
    f.spacing = read.between(found, nil, "spacing", t.spacing, 6, 48)
  end
  if t.above == nil then
    found:add(nil, "above", "missing: what the wall carries from above, live in full, "
      .. "such as \"400 plf\", or \"0 plf\"")
  else
    f.above = (read.load(found, nil, "above", t.above, "line") or 0) / 12
  end
  member.must(found, level + 1)
  return f
end

-- All that stands within one spacing, where it is most.
local function most_on_a_stud(points, spacing)
  local best = {D = 0, L = 0, from = nil}
  for i, p in ipairs(points) do
    local q = {D = 0, L = 0, marks = {}}
    for k = i, #points do
      if points[k].y < p.y + spacing - 1e-6 then
        q.D, q.L = q.D + points[k].D, q.L + points[k].L
        q.marks[#q.marks + 1] = points[k].mark
      end
    end
    if q.D + q.L > best.D + best.L then best = q end
  end
  return best
end

--- The state of a wall under the joists on it.
-- @param points {{y =, D =, L =, b =, l_b =, mark =}, ...} in order
-- @param pressing of load_path.below
function wall.assess(f, points, standard, pressing)
  local a = member.assessment("wall", f.given.mark, f.show)
  local show = a.show
  f.stud.show = show
  local m = f.plate.wood
  local on = most_on_a_stud(points, f.spacing)
  local load = {D = on.D, L = on.L + f.above * f.spacing}
  a.title = ("stud wall, studs at %s, most on one stud %s"):format(
    show.size(f.spacing), show.force(load.D + load.L))
  local why = plate.lacking(m)
  if why then return member.unassessed(a, "not assessed", why) end
  local stud = post.assess(f.stud, load, standard)
  a.stud = stud
  if stud.reason then return member.unassessed(a, stud.status, stud.reason) end
  a.checks = pressing(m, points, standard, "plate", f.plate.from_end,
    math.max(m.b * m.plies, m.d))
  for _, k in ipairs(stud.checks) do
    k.member = "stud"
    a.checks[#a.checks + 1] = k
  end
  if stud.status == "not permitted" then a.status = stud.status end
  a.load = load
  a.notes[1] = ("one stud under all within its spacing%s, and %s from above"):format(
    on.marks and " (" .. table.concat(on.marks, ", ") .. ")" or "",
    show.line_load(f.above * 12))
  for _, note in ipairs(stud.notes) do a.notes[#a.notes + 1] = note end
  a.assumptions[1] = ("Design values of the plate: %s."):format(m.source)
  table.move(stud.assumptions, 1, #stud.assumptions, 2, a.assumptions)
  a.not_checked = {"the plate in bending between studs where a joist stands off one",
    "openings in the wall, wind and soil against it, and what it stands on"}
  return member.settle(a)
end

return wall
