-- SPDX-License-Identifier: MIT
-- How a strap is held: places of its fasteners, strength of a group and of the steel,
-- tearing of the wood.
local core = require "netsection.core"
local fasten = require "netsection.fix.fasten"
local fastener = require "netsection.fastener"
local lane = require "netsection.lane"
local fastener_steps = require "netsection.standards.us-nds-2018.fastener_steps"
local voids = require "netsection.fix.voids"

local joint = {}

-- Rows stand evenly across the strap. For D >= 1/4 in their spacing and edges are
-- required, below recommended.
-- @return true, or nil and why not
local function across(f, case, d)
  local wide, D = case.model.b * case.model.plies, f.fastener.D
  local exact = f.show.exact
  f.row = f.width / (f.rows + 1)
  local outer = (f.rows - 1) * f.row
  local edge = (wide - outer) / 2
  local least_row = d.required and d.row.minimum or 1.5 * D
  if f.n % f.rows ~= 0 then
    return nil, ("%d fasteners do not make %d even rows: %d or %d"):format(f.n, f.rows,
      f.n - f.n % f.rows, f.n - f.n % f.rows + f.rows)
  elseif f.rows > 1 and f.row < least_row - 1e-9 then
    return nil, ("%d rows in a strap of %s stand %s apart; at least %s is "
      .. "needed"):format(f.rows, exact(f.width), exact(f.row), exact(least_row))
  elseif d.required and edge < d.edge.minimum - 1e-9 then
    return nil, ("the outer row is %s from the edge of the joist; at least %s "
      .. "is needed"):format(exact(edge), exact(d.edge.minimum))
  elseif d.required and f.row < 1.5 * D - 1e-9 then
    return nil, ("the outer row is %s from the edge of the strap; at least %s "
      .. "is needed"):format(exact(f.row), exact(1.5 * D))
  elseif d.rows_apart and outer > d.rows_apart + 1e-9 then
    return nil, ("the outer rows are %s apart, more than the %s that wood on "
      .. "one steel plate may be held over (%s)"):format(exact(outer),
      exact(d.rows_apart), case:rule "outer_rows")
  end
  if edge < d.edge.minimum - 1e-9 then
    f.notes[#f.notes + 1] = ("edge distance %s in the joist's bottom edge is less "
      .. "than the %s recommended"):format(exact(edge), exact(d.edge.minimum))
  end
  if f.rows > 1 and f.row < d.row.full - 1e-9 then
    f.notes[#f.notes + 1] = ("rows %s apart, less than the %s recommended")
      :format(exact(f.row), exact(d.row.full))
  end
  return true
end

-- Where fasteners stand: from the cut outward, in rows.
-- @return distances, the cut; or nil and a reason
function joint.lay_out(f, case)
  local c = case.review.cuts[f.cut]
  local d = fastener.distances {fastener = f.fastener, load = "parallel",
    force = "tension", side = "steel", prebored = f.prebored, l = f.t}
  local ok, why = across(f, case, d)
  if not ok then return nil, why end
  local ends = f.ends or d.end_distance.full
  local pitch = f.pitch or lane.max(d.spacing.full, 1)
  local per_row = f.n // f.rows
  f.layout, f.first = {}, ends
  for i = 1, per_row do
    for row = 1, f.rows do
      for side = -1, 1, 2 do
        local off = ends + (i - 1) * pitch
        f.layout[#f.layout + 1] = {x = side < 0 and c.x1 - off or c.x2 + off, h = 0,
          y = (row - (f.rows + 1) / 2) * f.row, D = f.fastener.D, piece = 1}
      end
    end
  end
  local past = lane.max(2 * f.fastener.D, 0.5)
  f.from = c.x1 - ends - (per_row - 1) * pitch - past
  f.to = c.x2 + ends + (per_row - 1) * pitch + past
  f.past, f.used_pitch, f.used_rows = past, pitch, per_row
  return d, c
end

-- Other cuts that a fastener driven from below comes near: their edges are edges, 1.5D,
-- and ends in tension, 7D for the full value, at least 3.5D. @return a reason, or nil
function joint.in_the_way(f, case, d)
  local list = voids.of(case.review, f.cut)
  local D = f.fastener.D
  local reach = f.fastener.L or case.model.d
  local least = d.required and d.end_distance.minimum or 2 * D
  f.least_cut = math.huge
  for _, p in ipairs(f.layout) do
    for _, v in ipairs(list) do
      local along = lane.max(v.x1 - p.x, p.x - v.x2)
      local over = v.h1 >= reach + 1.5 * D - 1e-9
      if v.whole and along > 1e-9 or over then along = math.huge end
      if along <= 1e-9 then
        return ("a fastener of the strap would stand in %s"):format(v.name)
      elseif along < least - 1e-9 then
        return ("a fastener of the strap is %s from %s; at least %s is needed")
          :format(f.show.exact(along), v.name, f.show.exact(least))
      end
      f.least_cut = lane.min(f.least_cut, along)
    end
  end
end

-- Other cuts that the plate lies over. The joist carries there by itself (its own checks
-- of that cut stand beside the strap's, under all of M), so its plate may end over one or
-- pass under an opening. Where the bottom edge is cut away, nothing that is fastened on
-- the far side counts: its pull would reach the cut only through the plate in the air.
-- Sets f.between: the least wood from the cut to another one that opens downward, and
-- that one's name (nil where there is none). @return a reason, or nil
function joint.over(f, case, c)
  local show = f.show
  for _, v in ipairs(voids.of(case.review, f.cut)) do
    local merged = v.x1 >= c.x1 - 1e-9 and v.x2 <= c.x2 + 1e-9
    local open = v.h1 <= 1e-9 and not merged
    local wood = lane.max(v.x1 - c.x2, c.x1 - v.x2)
    local last = (f.used_rows - 1) * f.used_pitch + f.first
    if open and wood < last then
      return ("fasteners of the strap would stand beyond %s, where the joist's bottom "
        .. "edge is cut away: %s of wood lies between the two cuts, and the last "
        .. "fastener stands %s from the cut"):format(v.name, show.exact(wood),
        show.exact(last))
    end
    if open and wood < (f.between or math.huge) then
      f.between, f.between_name = wood, v.name
    end
    local lap = lane.min(f.to, v.x2) - lane.max(f.from, v.x1)
    if lap > 1e-9 then
      f.notes[#f.notes + 1] = ("the plate lies over %s for %s; the joist is checked "
        .. "there by itself"):format(v.name, show.exact(lap))
    end
  end
end

function joint.steel(f)
  if f.capacity then return f.capacity, {} end
  local r = fastener.steel {fastener = f.fastener, steel = f.steel,
    gauge = f.gauge, thickness = not f.gauge and f.t or nil, width = f.width,
    rows = f.rows, per_row = f.used_rows, spacing = f.used_pitch,
    row_spacing = f.rows > 1 and f.row or nil, end_distance = f.past}
  return r.T, r.steps
end

function joint.group(f, case)
  local m = case.model
  local G = fasten.gravity(f, case.joist.description, f.notes)
  local Cg = fastener.Cg {fastener = f.fastener, n = f.used_rows, spacing = f.used_pitch,
    main = {E = m.E, A = m.b * m.plies * m.d}, side = {steel = f.steel,
    A = f.width * f.t}}
  local C = fastener.C_delta {fastener = f.fastener, load = "parallel", force = "tension",
    side = "steel", end_distance = lane.min(f.first, f.least_cut), spacing = f.used_pitch}
  if C.refused then return nil, C.refused end
  f.Cg = Cg.Cg
  local strength = fasten.strength(f, {main = {G = G, thickness = m.d, angle = 0},
    side = {steel = f.steel, thickness = not f.gauge and f.t or nil, gauge = f.gauge},
    moisture = m.moisture, temperature = m.temperature, Cg = Cg.Cg, C_delta = C.C_delta,
    standard = case.standard})
  if strength.refused then return nil, strength.refused end
  strength.G = G
  return strength
end

-- Row and group tear-out of the wood, as one more check of the group.
function joint.tear_out(f, case, T)
  local m = case.model
  if f.rated or f.fastener.D < 0.25 - 1e-9 or not (m.Ft and m.Ft > 0) then return end
  local Fv = core.adjust(lane.first(m), case.standard.core, "Fv").value
  local Ft = core.adjust(lane.first(m), case.standard.core, "Ft").value
  local deep = lane.min((f.fastener.L or 3) - f.t, m.d)
  local r = fastener.tear_out {fastener = f.fastener, rows = f.rows,
    per_row = f.used_rows, spacing = f.used_pitch, end_distance = f.first,
    row_spacing = f.rows > 1 and f.row or nil,
    thickness = deep, width = m.b * m.plies, Fv = Fv, Ft = Ft}
  local k = case.joint {mode = "fasteners", branch = 2, demand = T, G = T, Z = r.least,
    n_f = 1, member = "host", name = r.governs .. " of the wood",
    at = (f.from + f.to) / 2}
  k.extra_steps, k.clause = r.steps, case:rule "tear_out"
  return k
end

-- Between the cut and another one that opens downward the wood that the fasteners pull
-- on ends at both: it holds along the plane over it alone, with half of F_v' on average
-- as in a row torn out.
function joint.between_cuts(f, case, T)
  if not f.between then return end
  local m, l = case.model, f.between
  local r = {l = l, b = m.b * m.plies,
    ["F_v'"] = core.adjust(lane.first(m), case.standard.core, "Fv").value}
  -- T <= (F_v'/2) b l: row tear-out with one plane instead of two
  r.Z_s = r["F_v'"] / 2 * r.b * l
  local k = case.joint {mode = "fasteners", branch = 2, demand = T, G = T, Z = r.Z_s,
    n_f = 1, member = "host", name = "wood between the cut and " .. f.between_name,
    at = (f.from + f.to) / 2}
  k.extra_steps = fastener_steps.between_cuts(r)
  k.clause = case:rule "tear_out"
  return k
end

return joint
