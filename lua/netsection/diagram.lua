-- SPDX-License-Identifier: MIT
-- What a drawing of moment and shear needs of a review: places with V, M and capacities
-- (in, lb), supports, cuts, the repaired state, and what governs.
local core = require "netsection.core"
local model = require "netsection.model"
local roof_loads = require "netsection.roof_loads"

local diagram = {}

local POINTS = 48       -- of a curve, in a segment at most

-- A standard's own name of a deflection, such as w_fin.
local function own_name(check)
  return check.mode:find "^deflection" and check.printed or nil
end

--- What governs in a state, by its check; nil where there is none or it has no place.
function diagram.governing(check)
  if not check or not check.at then return nil end
  return {x = check.at, ratio = check.ratio, mode = check.mode, member = check.member,
    name = check.name, demand = check.demand, capacity = check.capacity,
    printed = own_name(check)}
end

-- The same with what governs at no place.
local function governing_any(check)
  return check and (diagram.governing(check) or {ratio = check.ratio, mode = check.mode,
    member = check.member, name = check.name, printed = own_name(check)}) or nil
end
diagram.governing_any = governing_any

local function curve(r, cut)
  local m = cut and r.plies and r.plies.drawn or r.joist.model
  local standard = r.packs.standard
  if r.drawn_under then
    m, standard = roof_loads.under(m, r.drawn_under), r.packs.under
  end
  return core.curve(m, r.packs.rules, standard, cut and "cut" or "uncut", POINTS)
end

local MEMBER = {sister = "sister", plates = "side plates"}

-- The repaired state: the joist and what works beside it.
local function repaired(r, supports)
  local a = r.fixed
  if not a or a.refused then return nil end
  if a.diagram then return a:diagram(r) end
  if not a.model then return nil end
  local function points(what)
    return core.curve(a.model, r.packs.rules, r.packs.standard, what, POINTS)
  end
  local places = {}
  for i, g in ipairs(a.stations) do places[i] = g.x end
  local members = {{name = a.status == "adequate" and "joist, as repaired"
    or "joist, with the trial repair", points = points "fixed"}}
  local new = MEMBER[a.model.fix.member]
  if new then members[2] = {name = new, points = points "new"} end
  return {title = a.title, x1 = a.x1, x2 = a.x2, stations = places, members = members,
    peaks = true, supports = supports, governing = governing_any(a.governing_check)}
end

local function cuts_of(r, m, last)
  local list = {}
  for i, c in ipairs(r.cuts) do
    local x1 = math.max(c.x1, -m.overhang_left)
    local x2 = math.min(c.x2, last + m.overhang_right)
    list[i] = {name = c.name, kind = m.cuts[i].kind, x1 = x1, x2 = x2, at = (x1 + x2) / 2,
      label = c.label}
  end
  return list
end

--- @param r a review with numbers
-- @return see methods:diagram of review.lua
function diagram.of(r)
  local m = r.joist.model
  local supports, spans = model.supports(m), {}
  local last = supports[#supports]
  for i, span in ipairs(m.span) do spans[i] = m.show.place(span) end
  local fixed = repaired(r, supports)
  if fixed then
    fixed.trial = r.fixed.status ~= "adequate" or nil
    fixed.Cr = r.fixed.Cr
  end
  return {mark = r.mark, show = m.show, supports = supports,
    title = ("%s, span %s%s"):format(r.title, table.concat(spans, " + "),
      r.drawn_under and ", under " .. r.drawn_under.name or ""),
    cuts = cuts_of(r, m, last), start = -m.overhang_left,
    finish = last + m.overhang_right, uncut = curve(r, false), cut = curve(r, true),
    peaks = true, severed = r.cut.ratio == nil, stopped = r.cut.stopped, unit = "in, lb",
    fixed = fixed, Cr = {uncut = r.uncut.Cr, cut = r.cut.Cr},
    governing = governing_any(r.cut.governing_check)}
end

return diagram
