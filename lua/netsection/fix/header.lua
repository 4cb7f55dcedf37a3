-- SPDX-License-Identifier: MIT
-- The joist headed off: tails from each bearing to a header, headers between the two
-- joists beside it, which take the load as trimmers. Every piece is a joist of its own
-- and is reviewed as such.
local cautions = require "netsection.cautions"
local limits = require "netsection.fix.limits"
local lane = require "netsection.lane"
local model = require "netsection.model"
local neighbours = require "netsection.fix.neighbours"
local members = require "netsection.fix.header_parts"
local part = require "netsection.fix.part"
local review = require "netsection.review"
local run = require "netsection.fix.run"
local site = require "netsection.fix.site"
local standing = require "netsection.standing"

local header = {fields = {"at", "size", "plies", "trimmer_plies", "hanger", "tail_hanger",
  "between", "note"}}

local read = model.readers

-- Places of the two headers, from the left.
local function read_places(t, f, found, part_)
  local given = type(t.at) == "table" and t.at or {t.at}
  f.at = {}
  if #given < 1 or #given > 2 then
    found:add(part_, "at", "one or two places of headers expected")
  end
  for i, x in ipairs(given) do
    f.at[i] = read.length(found, part_, #given > 1 and ("at[%d]"):format(i) or "at", x)
  end
  if f.at[2] and f.at[1] and f.at[2] <= f.at[1] then
    found:add(part_, "at", "the second header beyond the first expected")
  end
end

--- See fix.lua for what a kind of repair has.
function header.read(t, case, found, part_)
  local f = {}
  read_places(t, f, found, part_)
  f.plies = read.whole(found, part_, "plies", t.plies or 2, 1, 4)
  f.trimmer_plies = read.whole(found, part_, "trimmer_plies", t.trimmer_plies or 2, 1, 4)
  f.between = read.choice(found, part_, "between", t.between or "half", {"half", "none"})
  for _, name in ipairs {"hanger", "tail_hanger"} do
    f[name] = t[name] ~= nil and read.load(found, part_, name, t[name], "point") or nil
  end
  f.size = t.size
  f.wood, f.problems = case.joist:bare():changed {size = t.size, plies = f.plies,
    mark = case.model.mark .. ", header"}
  if not f.wood then found:add(part_, "size", f.problems[1].message) end
  return f
end

-- Shortest piece that is reviewed as a joist, in (the least span that a joist may have).
local SHORTEST = 24

-- Where the header's load would lie within d of a bearing of the trimmers, and no header
-- is nearer than a foot.
local function too_near(x, m, L)
  local d = lane.max(m.bearing[1], m.bearing[#m.bearing]) / 2 + m.d
  return lane.min(x, L - x) < lane.max(12, d)
end

-- Why a joist of the run is not headed off at these places.
local function unsuited(f, m, r)
  local L = part.total(m)
  if #m.span > 1 or m.overhang_left > 0 or m.overhang_right > 0 then
    return "only a joist of one span without overhangs is headed off"
  end
  for i, x in ipairs(f.at) do
    if x <= 0 or x >= L then
      return ("the header at %s is beyond the joist"):format(f.show.place(x))
    elseif too_near(x, m, L) then
      return ("the header at %s is at a bearing"):format(f.show.place(x))
    end
    for _, c in ipairs(r.cuts) do
      if x > c.x1 - 1e-9 and x < c.x2 + 1e-9 then
        return ("the header at %s would meet %s"):format(f.show.place(f.at[i]), c.name)
      end
    end
  end
end

-- Two joists of a run that are both said to be headed off share the same headers.
local function same_headers(f, other)
  local g = other.repair
  if not g or g.kind ~= "header" then return true end
  local same = #g.at == #f.at and g.plies == f.plies
    and g.trimmer_plies == f.trimmer_plies and g.wood.model.d == f.wood.model.d
  for i, x in ipairs(f.at) do same = same and lane.abs(x - (g.at[i] or -1)) < 1e-6 end
  return same
end

-- One header: the side that goes is that of the cut through, else that of all cuts.
local function side_gone(f, cuts, severed)
  local here
  for i, c in ipairs(cuts) do
    local side = (c.x1 + c.x2) / 2 < f.at[1] and "left" or "right"
    if severed == i then return side end
    if severed == nil then
      if here and here ~= side then return nil end
      here = side
    end
  end
  return here
end

local ONE_SIDE = "with one header the cuts must all lie on one side of it, the side that "
  .. "is taken out: give two places"

-- The side that one header takes out, of all joists of the run alike.
local function side_of_run(f, o, reviews)
  if #f.at == 2 then return "between" end
  local gone
  for i, j in ipairs(o.joists) do
    local side = side_gone(f, reviews[i].cuts, part.severed(j.model))
    if #reviews[i].cuts > 0 and (not side or gone and gone ~= side) then
      return nil, ONE_SIDE
    end
    gone = gone or side
  end
  if not gone then return nil, ONE_SIDE end
  return gone
end

-- What is left on each side: {x0, x1, support of the header, which header}.
local function tails_of(f, L, gone)
  if gone == "between" then return {{0, f.at[1], 2, 1}, {f.at[2], L, 1, 2}} end
  return gone == "left" and {{f.at[1], L, 1, 1}} or {{0, f.at[1], 2, 1}}
end

-- A tail joist by itself, on the bearing and in the header.
local function review_tail(case, joist, t)
  local m = joist.model
  local b = m.bearing
  if t[2] - t[1] < SHORTEST then
    return nil, ("a tail of %s would be left: %s at least"):format(
      m.show.size(t[2] - t[1]), m.show.about(SHORTEST))
  end
  local j, problems = part.of(joist, t[1], t[2], {repetitive = 1,
    bearing = t[3] == 2 and {b[1], members.seat}
      or {members.seat, b[#b]},
    mark = ("%s, tail"):format(m.mark)})
  if not j then return nil, problems[1].text end
  return part.review(j, case.options)
end

-- What the floor that a joist no longer carries puts on each header: dead, live. With
-- one header the other half of it goes to the wall.
local function strips(f, m, gone)
  local L = part.total(m)
  if f.between == "none" then return {{0, 0}, {0, 0}} end
  local left = gone == "left"
  local x0 = gone == "between" and f.at[1] or left and 0 or f.at[1]
  local x1 = gone == "between" and f.at[2] or left and f.at[1] or L
  local R = part.between(m, x0, x1)
  local first = left and 2 or 1
  return {{R.dead[first], R.live[first]}, {R.dead[2], R.live[2]}}
end

-- The header at a place: a point load where each joist of the run is.
local function header_at(f, case, o, loads, i)
  local points = {}
  local D, L = 0, 0
  for n, p in ipairs(loads) do
    local one, two = part.points(o.y[n], p.D, p.L)
    points[#points + 1], points[#points + 2] = one, two
    D, L = D + p.D, L + p.L
  end
  local j, problems = f.wood:changed {span = o.width, spacing = 12, dead = 0, live = 0,
    loads = points, members = 1, repetitive = 1, bearing = 1.5}
  if not j then return nil, problems[1].text end
  local r = review.of(j, case.options)
  if not r.computed then return nil, r.reasons[1] end
  -- across the floor; along the joist it stands at one place
  for _, k in ipairs(r.cut.checks) do k.across, k.at = k.at, k.at and f.at[i] end
  return {x = f.at[i], D = D, L = L, loads = loads, ends = run.ends(o, loads),
    review = r}
end

-- Every header with what the tails and the floor beyond them put on it.
local function headers_of(f, case, o, tails)
  local out = {}
  for i in ipairs(f.at) do
    local loads = {}
    for n, j in ipairs(o.joists) do
      local beyond = strips(f, j.model, o.gone)[i]
      local p = {D = beyond[1], L = beyond[2]}
      for _, t in ipairs(tails) do
        if t.joist == n and t.header == i then p.D, p.L = p.D + t.D, p.L + t.L end
      end
      loads[n] = p
    end
    local why
    out[i], why = header_at(f, case, o, loads, i)
    if not out[i] then return nil, why end
  end
  return out
end

-- Checks of a member of the repair.
local function add_checks(a, r, member)
  for _, k in ipairs(r.cut.checks) do
    k.member = member
    a.checks[#a.checks + 1] = k
  end
  if r.cut.status == "not permitted" then
    a.status = "not permitted"
    a.notes[#a.notes + 1] = r.mark .. ": a cut that is left in it is not permitted"
  end
end

-- The check of a hanger that has a capacity.
local function hanger_check(a, case, capacity, demand, member, name)
  if not capacity then return end
  a.checks[#a.checks + 1] = case.joint {mode = "fasteners", branch = 2, demand = demand,
    G = demand, Z = capacity, n_f = 1, member = member, name = name}
end

-- A trimmer as it stands, one half of its doubled self: said, not binding.
local function single_note(a, j, single)
  local state = single.repaired and single.review.fixed or single.review.cut
  local k = state.governing_check
  a.notes[#a.notes + 1] = ("trimmer %s as it is: M %s, ratio %s%s"):format(
    j.model.mark, j.model.show.moment(single.review.cut.moment, 0), single.ratio
    and review.ratio_text(single.ratio) or "-", k and " (" .. k.mode .. ")" or "")
end

-- The loads of the headers' ends on the trimmer of one side.
local function header_ends(headers, side)
  local loads = {}
  for _, h in ipairs(headers) do
    local e = h.ends[side]
    loads[#loads + 1], loads[#loads + 2] = part.points(h.x, e.D, e.L)
  end
  return loads
end

local layed -- below: the headers of another run of the floor

-- What stands on the other side of a trimmer: headers that hang on it as well, or a joist
-- that is out and not repaired, whose floor it may carry.
local function from_beyond(a, case, j, side, loads, hung)
  local other = (j.row or {})[side]
  if not other then return nil end
  if other.repair and other.repair.kind == "header" then
    local c, g = case:of_joist(other)
    local there, why = layed(c, g)
    if not there then
      return ("joist %s beside the trimmer %s: %s"):format(other.model.mark, j.model.mark,
        why)
    end
    local more = header_ends(there.headers, side == "left" and "right" or "left")
    table.move(more, 1, #more, #loads + 1, loads)
    for _, h in ipairs(there.headers) do
      local e = h.ends[side == "left" and "right" or "left"]
      table.insert(hung, {D = e.D, L = e.L, at = h.x})
    end
    a.notes[#a.notes + 1] = ("trimmer %s carries the headers beside %s as well"):format(
      j.model.mark, other.model.mark)
    return nil, true
  end
  if standing.gone(other) then
    a.notes[#a.notes + 1] = ("what joist %s sheds is added to the trimmer %s where the "
      .. "floor is reviewed"):format(other.model.mark, j.model.mark)
    return nil
  end
  local out = standing.not_after(other, case.options)
  if out then
    a.cautions[#a.cautions + 1] = ("joist %s beside the trimmer %s %s: what it sheds is "
      .. "not counted on the trimmer; it must be repaired first"):format(
      other.model.mark, j.model.mark, out)
  end
end

-- Trimmers: the joists beside the run with the headers' ends on them.
local function trimmers(a, f, case, o, headers)
  for _, side in ipairs {"left", "right"} do
    local j = o[side]
    local loads = header_ends(headers, side)
    local hung = {}
    for i, h in ipairs(headers) do
      hung[i] = {D = h.ends[side].D, L = h.ends[side].L, at = h.x}
    end
    local why, shared = from_beyond(a, case, j, side, loads, hung)
    if why then return why end
    o.shared, o.hung = o.shared or {}, o.hung or {}
    o.hung[side] = hung
    o.shared[side] = shared
    local Cr = j.description.repetitive or 1
    local single = not lane.working and neighbours.load(case, j, "trimmer", loads,
      {repetitive = Cr}) or nil -- said, of one joist
    local n, k = neighbours.load(case, j, "trimmer", loads, {plies = j.model.plies
      * f.trimmer_plies, repetitive = Cr})
    if not n then return k end
    n.single = single
    neighbours.add(a, n, k)
    if single and f.trimmer_plies > 1 then single_note(a, j, single) end
    if not o.known[side] then
      n.assumed = neighbours.supposed(case)
      a.notes[#a.notes + 1] = ("the joist on the %s is %s"):format(side, n.assumed)
    end
  end
end

-- What the standard prescribes for headers, with notes on what is not met.
local function read_rules(a, f, case, o, tails)
  local lengths = {}
  for i, t in ipairs(tails) do lengths[i] = t.x1 - t.x0 end
  a.rules = limits.header {framing = case.standard.data.framing, show = f.show,
    length = o.width, L = part.total(case.model), at = f.at,
    plies = f.plies, trimmer_plies = f.trimmer_plies, d = case.model.d,
    header_d = f.wood.model.d, hanger = f.hanger ~= nil,
    tail_hanger = f.tail_hanger ~= nil, tails = lengths}
  local said = {}
  for _, text in ipairs(limits.breaches(a.rules, f.show)) do
    if not said[text] then a.notes[#a.notes + 1], said[text] = text, true end
  end
end

local SEQUENCE = {
  "Shore the joist beyond both headers, and the joists beside it.",
  "Double the joists beside it over their whole length, tight, both on the bearings; "
    .. "nail the plies as listed.",
  "Cut the joist square at the headers; take the piece between them out.",
  "Hang the headers between the trimmers, then the tails in the headers.",
  "Have it seen before it is covered; take the shores out a little at a time.",
}

-- The order of work, with blocks where they are needed.
local function sequence_of(pieces)
  for _, p in ipairs(pieces) do
    if p.name == "block" then
      local list = {table.unpack(SEQUENCE)}
      list[4] = "Hang the headers between the trimmers, then the tails and the blocks in "
        .. "the headers."
      return list
    end
  end
  return SEQUENCE
end

--- The title of the repair.
function header.title(f, _, o)
  local at, with = {}, {}
  for i, x in ipairs(f.at) do at[i] = f.show.place(x) end
  for i, j in ipairs(o and o.joists or {}) do
    if i ~= o.own then with[#with + 1] = j.model.mark end
  end
  return ("headed off%s at %s, %d plies, trimmers %s"):format(#with > 0 and " with "
    .. table.concat(with, " and ") or "", table.concat(at, " and "), f.plies,
    f.trimmer_plies > 1 and "doubled" or "single")
end

-- The largest deflection of the tails.
local function worst_deflection(tails)
  local live, total = 0, 0
  for _, t in ipairs(tails) do
    if t.review.cut.deflection then
      live = lane.max(live, t.review.cut.deflection.live)
      total = lane.max(total, t.review.cut.deflection.total)
    end
  end
  return {live = live, total = total}
end

-- Every tail of the run reviewed, and what it puts on its header.
local function review_tails(f, case, o)
  local tails = {}
  for n, joist in ipairs(o.joists) do
    for _, t in ipairs(tails_of(f, part.total(joist.model), o.gone)) do
      local r, why = review_tail(case, joist, t)
      if not r then return nil, why end
      if not r.computed then return nil, r.reasons[1] end
      local out = standing.out(r.joist, r)
      if out and r.cut.ratio == nil then
        return nil, "a tail would still be cut through"
      elseif out then
        return nil, ("a tail of %s %s"):format(joist.model.mark, out)
      end
      local D, L = part.reaction(r, t[3])
      tails[#tails + 1] = {review = r, x0 = t[1], x1 = t[2], header = t[4], D = D, L = L,
        joist = n, own = n == o.own, mark = joist.model.mark}
    end
  end
  return tails
end

-- The tails of other joists of the run are alike in name: theirs carry their mark.
local function add_tails(a, f, case, tails)
  for _, t in ipairs(tails) do
    local member = t.own and "tail" or "tail of " .. t.mark
    add_checks(a, t.review, member)
    a.checks[#a.checks + 1] = part.full_shear(case, t.review.joist, {dead = t.D,
      live = t.L, member = member, name = "end at the header", at = f.at[t.header]})
    a.forces[#a.forces + 1] = {name = member .. " on the header", at = f.at[t.header],
      value = t.D + t.L, unit = "lb"}
  end
end

-- Checks and pieces of the headers.
local function add_headers(a, f, case, headers)
  for _, h in ipairs(headers) do
    add_checks(a, h.review, "header")
    local worst = {D = 0, L = 0}
    for _, e in pairs(h.ends) do
      if e.D + e.L > worst.D + worst.L then worst = e end
    end
    a.checks[#a.checks + 1] = part.full_shear(case, h.review.joist, {dead = worst.D,
      live = worst.L, member = "header", name = "end at the trimmer", at = h.x})
    local R = h.review.cut.reactions
    a.forces[#a.forces + 1] = {name = "load on the header", at = h.x, value = h.D + h.L,
      unit = "lb"}
    a.forces[#a.forces + 1] = {name = "header on the left trimmer", at = h.x,
      value = R[1], unit = "lb"}
    a.forces[#a.forces + 1] = {name = "header on the right trimmer", at = h.x,
      value = R[2], unit = "lb"}
    hanger_check(a, case, f.hanger, lane.max(R[1], R[2]), "header",
      "hanger of the header")
  end
end

-- Notes on what was assumed.
local function add_notes(a, f)
  local function add(text) a.notes[#a.notes + 1] = text end
  if f.between == "none" then
    add(#f.at == 2 and "the floor between the headers is not counted"
      or "the floor between the header and the wall is not counted")
  else
    add(#f.at == 2 and "the floor between the headers, and what stands on it, is put on "
      .. "them" or "of the floor between the header and the wall half is put on each")
  end
  add "repetitive factor 1.0 for tails, headers and trimmers"
  add "shear where tails and headers hang: the reaction in full"
  if f.trimmer_plies > 1 then
    add "a trimmer's cuts are taken to go through all its plies"
  end
  if not f.hanger then
    add "hangers of the header not checked: give hanger = the maker's value"
  end
  if not f.tail_hanger then
    add "hangers of the tails not checked: give tail_hanger = the maker's value"
  end
end

-- The run, its tails and its headers under their loads.
-- @return {run =, tails =, headers =}; or nil and a reason
function layed(case, f)
  local o, reason = run.of(case)
  if not o then return nil, reason end
  local reviews = {}
  for i, j in ipairs(o.joists) do
    local own = i == o.own
    reviews[i] = own and case.review or review.of(j, case.options)
    local why = not reviews[i].computed and reviews[i].reasons[1]
      or unsuited(f, j.model, reviews[i])
    if not why and not same_headers(f, j) then
      why = "it is headed off as well, with other headers"
    end
    if why then return nil, own and why or ("joist %s: %s"):format(j.model.mark, why) end
  end
  if o.width < SHORTEST then
    return nil, ("a header of %s: %s at least"):format(f.show.size(o.width),
      f.show.about(SHORTEST))
  end
  o.gone, reason = side_of_run(f, o, reviews)
  if not o.gone then return nil, reason end
  members.needs_blocks(f, o, case.model)
  local tails, headers
  tails, reason = review_tails(f, case, o)
  if not tails then return nil, reason end
  headers, reason = headers_of(f, case, o, tails)
  if not headers then return nil, reason end
  return {run = o, tails = tails, headers = headers}
end

-- Which joists one pair of headers takes off.
local function run_note(a, o)
  if #o.joists < 2 then return end
  a.heads = {}
  for i, j in ipairs(o.joists) do a.heads[i] = j.model.mark end
  a.notes[#a.notes + 1] = ("%s are out: one header takes them all, to %s and %s"):format(
    table.concat(a.heads, ", "), o.left.model.mark, o.right.model.mark)
end

-- The way of the load: what each tail puts on its wall and on its header, the floor
-- beyond the tails on the headers, their ends on the trimmers; D and L of all load.
local function path_of(f, case, all)
  local o = all.run
  local path = {tails = {}, strips = {}, headers = {}, between = f.between}
  for _, t in ipairs(all.tails) do
    local wall = t.x0 <= 1e-6 and 1 or 2
    local D, L = part.reaction(t.review, wall)
    path.tails[#path.tails + 1] = {mark = t.mark, header = t.header, x0 = t.x0, x1 = t.x1,
      D = t.D, L = t.L, wall = wall, wall_D = D, wall_L = L}
  end
  for _, j in ipairs(o.joists) do
    local list = strips(f, j.model, o.gone)
    for i in ipairs(f.at) do
      local s = list[i]
      path.strips[#path.strips + 1] = {mark = j.model.mark, header = i, D = s[1],
        L = s[2]}
    end
  end
  for i, h in ipairs(all.headers) do
    path.headers[i] = {x = h.x, D = h.D, L = h.L, of = case.model.mark}
    for _, side in ipairs {"left", "right"} do
      path.headers[i][side] = {mark = o[side].model.mark, D = h.ends[side].D,
        L = h.ends[side].L}
    end
  end
  return path
end

--- See fix.lua for what a kind of repair has.
function header.assess(case, f)
  local all, why = layed(case, f)
  if not all then return nil, why end
  local o, tails = all.run, all.tails
  local a = {checks = {}, notes = {}, neighbours = {}, pieces = {}, forces = {},
    fasteners = {}, cautions = site.cautions()}
  add_tails(a, f, case, tails)
  why = members.press_tails(a, f, case, o, tails)
  if why then return nil, why end
  add_headers(a, f, case, all.headers)
  for _, t in ipairs(tails) do
    hanger_check(a, case, f.tail_hanger, t.D + t.L, t.own and "tail" or "tail of "
      .. t.mark, "hanger of the tail")
  end
  why = trimmers(a, f, case, o, all.headers)
  if why then return nil, why end
  run_note(a, o)
  a.path = path_of(f, case, all)
  read_rules(a, f, case, o, tails)
  add_notes(a, f)
  why = members.add(a, f, case, all)
  if why then return nil, why end
  local own = {}
  for _, t in ipairs(tails) do own[#own + 1] = t.own and t or nil end
  a.deflection = worst_deflection(own)
  a.sequence = sequence_of(a.pieces)
  a.cautions[#a.cautions + 1] = cautions.always[9]
  a.title, a.access = header.title(f, case, o), {"below"}
  a.x1, a.x2 = f.at[1], f.at[#f.at]
  local stretches, supports = {name = "tails"}, {}
  for i, t in ipairs(own) do
    stretches[i] = {t.review, t.x0}
    supports[#supports + 1], supports[#supports + 2] = t.x0, t.x1
  end
  a.diagram = part.diagram({stretches}, case.model, supports)
  return a
end

-- One of the kinds of repairs (see fix.lua): its place among them, and why it is worked
-- out in allowable stress design alone.
header.order, header.one_format = 40, "rated"

return header
