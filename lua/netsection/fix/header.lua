-- SPDX-License-Identifier: MIT
-- The joist headed off: tails from each bearing to a header, headers between the two
-- joists beside it, which take the load as trimmers. Every piece is a joist of its own
-- and is reviewed as such.
local cautions = require "netsection.cautions"
local limits = require "netsection.fix.limits"
local model = require "netsection.model"
local neighbours = require "netsection.fix.neighbours"
local part = require "netsection.fix.part"
local review = require "netsection.review"
local site = require "netsection.fix.site"
local units = require "netsection.units"

local header = {fields = {"at", "size", "plies", "trimmer_plies", "hanger", "tail_hanger",
  "between", "note"}}

local read = model.readers
local feet = units.feet_inches

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
  local d = math.max(m.bearing[1], m.bearing[#m.bearing]) / 2 + m.d
  return math.min(x, L - x) < math.max(12, d)
end

local function unsuited(f, case)
  local m = case.model
  local L = part.total(m)
  if #m.span > 1 or m.overhang_left > 0 or m.overhang_right > 0 then
    return "only a joist of one span without overhangs is headed off"
  end
  for i, x in ipairs(f.at) do
    if x <= 0 or x >= L then
      return ("the header at %s is beyond the joist"):format(feet(x))
    elseif too_near(x, m, L) then
      return ("the header at %s is at a bearing"):format(feet(x))
    end
    for _, c in ipairs(case.review.cuts) do
      if x > c.x1 - 1e-9 and x < c.x2 + 1e-9 then
        return ("the header at %s would meet %s"):format(feet(f.at[i]), c.name)
      end
    end
  end
  for _, side in ipairs {"left", "right"} do
    if not neighbours.of(case, side) then
      return ("no joist on the %s to carry a header"):format(side)
    end
  end
  local s1, s2 = part.sides(case.joist)
  if s1 + s2 < SHORTEST then
    return ("a header of %s: %d in at least"):format(units.inches(s1 + s2), SHORTEST)
  end
end

-- One header: the side that goes is that of the cut through, else that of all cuts.
local function side_gone(f, case, severed)
  local here
  for i, c in ipairs(case.review.cuts) do
    local side = (c.x1 + c.x2) / 2 < f.at[1] and "left" or "right"
    if severed == i then return side end
    if severed == nil then
      if here and here ~= side then return nil end
      here = side
    end
  end
  return here
end

-- What is left on each side: {x0, x1, support of the header, which header}; nil where
-- one header does not say which side goes.
local function tails_of(f, case, L, severed)
  if #f.at == 2 then return {{0, f.at[1], 2, 1}, {f.at[2], L, 1, 2}} end
  local gone = side_gone(f, case, severed)
  if not gone then return nil end
  return gone == "left" and {{f.at[1], L, 1, 1}} or {{0, f.at[1], 2, 1}}
end

local function review_tail(case, t)
  local m = case.model
  local seat = 1.5
  local b = m.bearing
  if t[2] - t[1] < SHORTEST then
    return nil, ("a tail of %s would be left: %d in at least"):format(units.inches(t[2]
      - t[1]), SHORTEST)
  end
  local j, problems = part.of(case.joist, t[1], t[2], {repetitive = 1,
    bearing = t[3] == 2 and {b[1], seat} or {seat, b[#b]},
    mark = ("%s, tail"):format(m.mark)})
  if not j then return nil, problems[1].text end
  return review.of(j, case.options)
end

-- What the floor that the joist no longer carries puts on each header: dead, live. With
-- one header the other half of it goes to the wall.
local function strips(f, case, tails)
  local m, L = case.model, part.total(case.model)
  if f.between == "none" then return {{0, 0}, {0, 0}} end
  local one = #f.at == 1
  local left = one and tails[1].x0 > 0
  local x0 = one and (left and 0 or f.at[1]) or f.at[1]
  local x1 = one and (left and f.at[1] or L) or f.at[2]
  local R = part.between(m, x0, x1)
  local first = left and 2 or 1
  return {{R.dead[first], R.live[first]}, {R.dead[2], R.live[2]}}
end

-- Every header with what its tail and the floor beyond it put on it.
local function headers_of(f, case, tails)
  local a, b = part.sides(case.joist)
  local beyond = strips(f, case, tails)
  local out = {}
  for i, x in ipairs(f.at) do
    local D, L = beyond[i][1], beyond[i][2]
    for _, t in ipairs(tails) do
      if t.header == i then D, L = D + t.D, L + t.L end
    end
    local p, q = part.points(a, D, L)
    local j, problems = f.wood:changed {span = a + b, spacing = 12, dead = 0, live = 0,
      loads = {p, q}, members = 1, repetitive = 1, bearing = 1.5}
    if not j then return nil, problems[1].text end
    out[i] = {x = x, D = D, L = L, left = b / (a + b), review = review.of(j,
      case.options)}
  end
  return out
end

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

local function hanger_check(a, case, capacity, demand, member, name)
  if not capacity then return end
  a.checks[#a.checks + 1] = case.joint {mode = "fasteners", branch = 2, demand = demand,
    G = demand, Z = capacity, n_f = 1, member = member, name = name}
end

-- A trimmer as it stands, one half of its doubled self: said, not binding.
local function single_note(a, j, single)
  local k = single.review.cut.governing_check
  a.notes[#a.notes + 1] = ("trimmer %s as it is: M %s ft-lb, ratio %s%s"):format(
    j.model.mark, units.fixed(single.review.cut.moment / 12, 0), single.ratio
    and review.ratio_text(single.ratio) or "-", k and " (" .. k.mode .. ")" or "")
end

-- The loads of the headers' ends on the trimmer of one side.
local function header_ends(headers, side)
  local loads = {}
  for _, h in ipairs(headers) do
    local share = side == "left" and h.left or 1 - h.left
    loads[#loads + 1], loads[#loads + 2] = part.points(h.x, h.D * share, h.L * share)
  end
  return loads
end

-- Trimmers: the joists beside it with the headers' ends on them.
local function trimmers(a, f, case, headers)
  for _, side in ipairs {"left", "right"} do
    local j, known = neighbours.of(case, side)
    local loads = header_ends(headers, side)
    local Cr = j.description.repetitive or 1
    local single = neighbours.load(case, j, "trimmer", loads, {repetitive = Cr})
    local n, k = neighbours.load(case, j, "trimmer", loads, {plies = j.model.plies
      * f.trimmer_plies, repetitive = Cr})
    if not n then return k end
    n.single = single
    a.neighbours[#a.neighbours + 1], a.checks[#a.checks + 1] = n, k
    if single and f.trimmer_plies > 1 then single_note(a, j, single) end
    if not known then
      a.notes[#a.notes + 1] = ("the joist on the %s is taken to be like this one, "
        .. "without cuts"):format(side)
    end
    a.cautions[#a.cautions + 1] = neighbours.caution(n)
  end
end

local function read_rules(a, f, case, tails)
  local s1, s2 = part.sides(case.joist)
  local lengths = {}
  for i, t in ipairs(tails) do lengths[i] = t.x1 - t.x0 end
  a.rules = limits.header {length = s1 + s2, L = part.total(case.model), at = f.at,
    plies = f.plies, trimmer_plies = f.trimmer_plies, d = case.model.d,
    header_d = f.wood.model.d, hanger = f.hanger ~= nil,
    tail_hanger = f.tail_hanger ~= nil, tails = lengths}
  for _, text in ipairs(limits.breaches(a.rules)) do a.notes[#a.notes + 1] = text end
end

local function pieces(a, f, case)
  local m = case.model
  local s1, s2 = part.sides(case.joist)
  local h = f.wood.model
  local size = h.size or units.inches(h.d)
  for _, x in ipairs(f.at) do
    local b = h.b * h.plies
    local length = s1 + s2 - m.b
    a.pieces[#a.pieces + 1] = {name = "header", kind = "header", member = "header",
      size = size, stock = ("%s x %d ft"):format(size, site.stock(length) or 24),
      count = h.plies, length = length, material = m.wood, x1 = x - b / 2, x2 = x + b / 2,
      h1 = m.d - h.d, h2 = m.d, y1 = -s1 + m.b / 2, y2 = s2 - m.b / 2,
      label = ("%d %s"):format(h.plies, size)}
  end
  for _, side in ipairs {"left", "right"} do
    local j, known = neighbours.of(case, side)
    local n = j.model
    local extra = n.plies * f.trimmer_plies - n.plies
    local length = part.total(n) + n.bearing[1] / 2 + n.bearing[#n.bearing] / 2
    if extra > 0 then
      local face = n.b * n.plies / 2
      local out = side == "left" and -1 or 1
      local y1, y2 = out * face, out * (face + n.b * extra)
      a.pieces[#a.pieces + 1] = {name = "trimmer", kind = "wood", member = "trimmer",
        size = n.size, stock = ("%s x %d ft"):format(n.size or "", site.stock(length)
        or 24), count = extra, length = length, material = n.wood, of = known and n.mark
        or nil, x1 = -n.bearing[1] / 2, x2 = part.total(n) + n.bearing[#n.bearing] / 2,
        h1 = 0, h2 = n.d, y1 = math.min(y1, y2), y2 = math.max(y1, y2)}
      if not known then a.pieces[#a.pieces].y1 = nil end
    end
  end
end

local SEQUENCE = {
  "Shore the joist beyond both headers, and the joists beside it.",
  "Double the joists beside it over their whole length, tight, both on the bearings.",
  "Cut the joist square at the headers; take the piece between them out.",
  "Hang the headers between the trimmers, then the tails in the headers.",
  "Have it seen before it is covered; take the shores out a little at a time.",
}

function header.title(f)
  local at = {}
  for i, x in ipairs(f.at) do at[i] = feet(x) end
  return ("headed off at %s, %d plies, trimmers %s"):format(table.concat(at, " and "),
    f.plies, f.trimmer_plies > 1 and "doubled" or "single")
end

local function worst_deflection(tails)
  local live, total = 0, 0
  for _, t in ipairs(tails) do
    if t.review.cut.deflection then
      live = math.max(live, t.review.cut.deflection.live)
      total = math.max(total, t.review.cut.deflection.total)
    end
  end
  return {live = live, total = total}
end

-- Every tail reviewed, with its checks and what it puts on its header.
local function add_tails(a, f, case, list)
  local tails = {}
  for i, t in ipairs(list) do
    local r, why = review_tail(case, t)
    if not r then return nil, why end
    if not r.computed then return nil, r.reasons[1] end
    if r.cut.ratio == nil then return nil, "a tail would still be cut through" end
    local D, L = part.reaction(r, t[3])
    tails[i] = {review = r, x0 = t[1], x1 = t[2], header = t[4], D = D, L = L}
    add_checks(a, r, "tail")
    a.checks[#a.checks + 1] = part.full_shear(case, r.joist, {dead = D, live = L,
      member = "tail", name = "end at the header", at = f.at[t[4]]})
    a.forces[#a.forces + 1] = {name = "tail on the header", at = f.at[t[4]],
      value = D + L, unit = "lb"}
  end
  return tails
end

local function add_headers(a, f, case, headers)
  for _, h in ipairs(headers) do
    add_checks(a, h.review, "header")
    local most = math.max(h.left, 1 - h.left)
    a.checks[#a.checks + 1] = part.full_shear(case, h.review.joist, {dead = h.D * most,
      live = h.L * most, member = "header", name = "end at the trimmer"})
    local R = h.review.cut.reactions
    a.forces[#a.forces + 1] = {name = "load on the header", at = h.x, value = h.D + h.L,
      unit = "lb"}
    a.forces[#a.forces + 1] = {name = "header on the left trimmer", at = h.x,
      value = R[1], unit = "lb"}
    a.forces[#a.forces + 1] = {name = "header on the right trimmer", at = h.x,
      value = R[2], unit = "lb"}
    hanger_check(a, case, f.hanger, math.max(R[1], R[2]), "header",
      "hanger of the header")
  end
end

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

function header.assess(case, f)
  local reason = unsuited(f, case)
  if reason then return nil, reason end
  local list = tails_of(f, case, part.total(case.model), part.severed(case.model))
  if not list then
    return nil, "with one header the cuts must all lie on one side of it, the side that "
      .. "is taken out: give two places"
  end
  local a = {checks = {}, notes = {}, neighbours = {}, pieces = {}, forces = {},
    cautions = site.cautions()}
  local tails, why = add_tails(a, f, case, list)
  if not tails then return nil, why end
  local headers
  headers, why = headers_of(f, case, tails)
  if not headers then return nil, why end
  add_headers(a, f, case, headers)
  for _, t in ipairs(tails) do
    hanger_check(a, case, f.tail_hanger, t.D + t.L, "tail", "hanger of the tail")
  end
  why = trimmers(a, f, case, headers)
  if why then return nil, why end
  read_rules(a, f, case, tails)
  add_notes(a, f)
  pieces(a, f, case)
  a.deflection = worst_deflection(tails)
  a.sequence = SEQUENCE
  a.cautions[#a.cautions + 1] = cautions.always[9]
  a.title, a.access = header.title(f), {"below"}
  a.x1, a.x2 = f.at[1], f.at[#f.at]
  local stretches = {name = "tails"}
  for i, t in ipairs(tails) do stretches[i] = {t.review, t.x0} end
  a.diagram = part.diagram({stretches}, case.model)
  return a
end

return header
