-- SPDX-License-Identifier: MIT
-- The joist headed off: tails from each bearing to a header, headers between the two
-- joists beside it, which take the load as trimmers. Every piece is a joist of its own
-- and is reviewed as such.
local cautions = require "netsection.cautions"
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

-- IRC R502.10 (memory): a header may be single to 4 ft, trimmers single where it is
-- within 3 ft of their bearing; hangers over 6 ft; tails over 12 ft on anchors or a
-- ledger.
local RULES = {single = 48, near = 36, hangers = 72, tails = 144,
  clause = "R502.10 (memory)"}

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

local function unsuited(f, case)
  local m = case.model
  local L = part.total(m)
  if #m.span > 1 or m.overhang_left > 0 or m.overhang_right > 0 then
    return "only a joist of one span without overhangs is headed off"
  end
  for i, x in ipairs(f.at) do
    if x < 12 or x > L - 12 then
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
end

-- What is left on each side: {x0, x1, support of the header, which header}.
local function tails_of(f, L, severed)
  if #f.at == 2 then return {{0, f.at[1], 2, 1}, {f.at[2], L, 1, 2}} end
  if severed and (severed.x1 + severed.x2) / 2 < f.at[1] then
    return {{f.at[1], L, 1, 1}}
  end
  return {{0, f.at[1], 2, 1}}
end

local function review_tail(case, t)
  local m = case.model
  local seat = 1.5
  local b = m.bearing
  local j, problems = part.of(case.joist, t[1], t[2], {repetitive = 1,
    bearing = t[3] == 2 and {b[1], seat} or {seat, b[#b]},
    mark = ("%s, tail"):format(m.mark)})
  if not j then return nil, problems[1].text end
  return review.of(j, case.options)
end

-- Load of the floor between the headers, dead and live, lb.
local function strip(f, m)
  if f.between == "none" or #f.at < 2 then return 0, 0 end
  local area = (f.at[2] - f.at[1]) * m.spacing / 144
  return m.dead * area / 2, m.live * area / 2
end

-- Every header with what its tail and half the strip put on it.
local function headers_of(f, case, tails)
  local m = case.model
  local a, b = part.sides(case.joist)
  local strip_D, strip_L = strip(f, m)
  local out = {}
  for i, x in ipairs(f.at) do
    local D, L = strip_D, strip_L
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

-- Trimmers: the joists beside it with the headers' ends on them.
local function trimmers(a, f, case, headers)
  for _, side in ipairs {"left", "right"} do
    local j, known = neighbours.of(case, side)
    local loads = {}
    for _, h in ipairs(headers) do
      local share = side == "left" and h.left or 1 - h.left
      loads[#loads + 1], loads[#loads + 2] = part.points(h.x, h.D * share, h.L * share)
    end
    local plies = j.model.plies
    local single = neighbours.load(case, j, "trimmer", loads, {repetitive =
      j.description.repetitive or 1})
    local n, k = neighbours.load(case, j, "trimmer", loads, {plies = plies
      * f.trimmer_plies, repetitive = j.description.repetitive or 1})
    if not n then return k end
    n.single = single
    a.neighbours[#a.neighbours + 1], a.checks[#a.checks + 1] = n, k
    if single and f.trimmer_plies > 1 then
      a.notes[#a.notes + 1] = ("trimmer %s as it is: M %s ft-lb, ratio %s"):format(
        j.model.mark, units.fixed(single.review.cut.moment / 12, 0),
        single.ratio and review.ratio_text(single.ratio) or "-")
    end
    if not known then
      a.notes[#a.notes + 1] = ("the joist on the %s is taken to be like this one, "
        .. "without cuts"):format(side)
    end
  end
end

local function rule_notes(a, f, case, tails)
  local m = case.model
  local s1, s2 = part.sides(case.joist)
  local L = part.total(m)
  local function add(format, ...)
    a.notes[#a.notes + 1] = format:format(...) .. " (" .. RULES.clause .. ")"
  end
  if s1 + s2 > RULES.single and (f.plies < 2 or f.trimmer_plies < 2) then
    add("breach: a header over 4 ft is doubled, and so are its trimmers")
  end
  for _, x in ipairs(f.at) do
    if math.min(x, L - x) > RULES.near and f.trimmer_plies < 2 then
      add("breach: the header at %s is more than 3 ft from the bearing: trimmers are "
        .. "doubled", feet(x))
    end
  end
  if s1 + s2 > RULES.hangers then add "headers over 6 ft hang in hangers" end
  for _, t in ipairs(tails) do
    if t.x1 - t.x0 > RULES.tails then
      add "tails over 12 ft stand on anchors or a ledger"
    end
  end
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

function header.assess(case, f)
  local reason = unsuited(f, case)
  if reason then return nil, reason end
  local severed = part.severed(case.model)
  local a = {checks = {}, notes = {}, neighbours = {}, pieces = {}, forces = {}}
  local tails = {}
  for i, t in ipairs(tails_of(f, part.total(case.model), severed
    and case.review.cuts[severed])) do
    local r, why = review_tail(case, t)
    if not r then return nil, why end
    if not r.computed then return nil, r.reasons[1] end
    if r.cut.ratio == nil then return nil, "a tail would still be cut through" end
    local D, L = part.reaction(r, t[3])
    tails[i] = {review = r, x0 = t[1], x1 = t[2], header = t[4], D = D, L = L}
    add_checks(a, r, "tail")
    a.forces[#a.forces + 1] = {name = "tail on the header", at = f.at[t[4]],
      value = D + L,
      unit = "lb"}
  end
  local headers, why = headers_of(f, case, tails)
  if not headers then return nil, why end
  for _, h in ipairs(headers) do
    add_checks(a, h.review, "header")
    local R = h.review.cut.reactions
    a.forces[#a.forces + 1] = {name = "load on the header", at = h.x, value = h.D + h.L,
      unit = "lb"}
    hanger_check(a, case, f.hanger, math.max(R[1], R[2]), "header",
      "hanger of the header")
  end
  for _, t in ipairs(tails) do
    hanger_check(a, case, f.tail_hanger, t.D + t.L, "tail", "hanger of the tail")
  end
  local wrong = trimmers(a, f, case, headers)
  if wrong then return nil, wrong end
  rule_notes(a, f, case, tails)
  a.notes[#a.notes + 1] = f.between == "half" and "half of the floor between the "
    .. "headers is put on each" or "the floor between the headers is not counted"
  a.notes[#a.notes + 1] = "repetitive factor 1.0 for tails, headers and trimmers"
  if not f.hanger then
    a.notes[#a.notes + 1] = "hangers are not checked: give hanger = the maker's value"
  end
  pieces(a, f, case)
  a.deflection = worst_deflection(tails)
  a.sequence, a.cautions = SEQUENCE, site.cautions()
  a.cautions[#a.cautions + 1] = cautions.always[9]
  a.title, a.access = header.title(f), {"below"}
  a.x1, a.x2 = f.at[1], f.at[#f.at]
  local stretches = {name = "tails"}
  for i, t in ipairs(tails) do stretches[i] = {t.review, t.x0} end
  a.diagram = part.diagram({stretches}, case.model)
  return a
end

return header
