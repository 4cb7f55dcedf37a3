-- SPDX-License-Identifier: MIT
-- How a strap is held: places of its fasteners, strength of a group and of the steel,
-- tearing of the wood, and what carries shear over a gap.
local core = require "netsection.core"
local fasten = require "netsection.fix.fasten"
local fastener = require "netsection.fastener"

local joint = {}

-- Where fasteners stand: from the cut outward, in rows.
function joint.lay_out(f, case)
  local c = case.review.cuts[f.cut]
  local d = fastener.distances {fastener = f.fastener, load = "parallel",
    force = "tension", side = "steel", prebored = true, l = case.model.b}
  local ends = f.ends or d.end_distance.full
  local pitch = f.pitch or math.max(d.spacing.full, 1)
  local per_row = math.ceil(f.n / f.rows)
  f.layout, f.first = {}, ends
  local left = f.n
  for i = 1, per_row do
    for row = 1, math.min(f.rows, left) do
      for side = -1, 1, 2 do
        local off = ends + (i - 1) * pitch
        f.layout[#f.layout + 1] = {x = side < 0 and c.x1 - off or c.x2 + off, h = 0,
          y = (row - (f.rows + 1) / 2) * f.width / (f.rows + 1), D = f.fastener.D,
          piece = 1}
      end
    end
    left = left - f.rows
  end
  local past = math.max(2 * f.fastener.D, 0.5)
  f.from = c.x1 - ends - (per_row - 1) * pitch - past
  f.to = c.x2 + ends + (per_row - 1) * pitch + past
  f.past, f.used_pitch, f.used_rows = past, pitch, per_row
  return d, c
end

function joint.steel(f)
  if f.capacity then return f.capacity, {} end
  local r = fastener.steel {fastener = f.fastener, steel = f.steel,
    gauge = f.gauge, thickness = not f.gauge and f.t or nil, width = f.width,
    rows = f.rows, per_row = f.used_rows, spacing = f.used_pitch,
    row_spacing = f.rows > 1 and f.width / (f.rows + 1) or nil, end_distance = f.past}
  return r.T, r.steps
end

function joint.group(f, case, d)
  local m = case.model
  local G = fasten.gravity(f, case.joist.description, f.notes)
  local Cg = fastener.Cg {fastener = f.fastener, n = f.used_rows, spacing = f.used_pitch,
    main = {E = m.E, A = m.b * m.plies * m.d}, side = {steel = f.steel,
    A = f.width * f.t}}
  local C = fastener.C_delta {fastener = f.fastener, load = "parallel", force = "tension",
    side = "steel", end_distance = f.first, spacing = f.used_pitch}
  if C.refused then return nil, C.refused end
  f.Cg = Cg.Cg
  local strength = fasten.strength(f, {main = {G = G, thickness = m.d, angle = 0},
    side = {steel = f.steel, thickness = not f.gauge and f.t or nil, gauge = f.gauge},
    moisture = m.moisture, temperature = m.temperature, Cg = Cg.Cg, C_delta = C.C_delta})
  if strength.refused then return nil, strength.refused end
  if d.edge.minimum > f.width / 2 + 1e-9 then
    f.notes[#f.notes + 1] = ("edge distance %.4g in in the joist's bottom edge is less "
      .. "than the %.4g in recommended"):format(m.b * m.plies / 2, d.edge.minimum)
  end
  return strength
end

-- Row and group tear-out of the wood, as one more check of the group.
function joint.tear_out(f, case, T)
  local m = case.model
  if f.rated or f.fastener.D < 0.25 - 1e-9 or not (m.Ft and m.Ft > 0) then return end
  local Fv = core.adjust(m, case.standard.core, "Fv").value
  local Ft = core.adjust(m, case.standard.core, "Ft").value
  local deep = math.min((f.fastener.L or 3) - f.t, m.d)
  local r = fastener.tear_out {fastener = f.fastener, rows = f.rows,
    per_row = f.used_rows, spacing = f.used_pitch, end_distance = f.first,
    row_spacing = f.rows > 1 and f.width / (f.rows + 1) or nil,
    thickness = deep, width = m.b * m.plies, Fv = Fv, Ft = Ft}
  local k = case.joint {mode = "fasteners", branch = 2, demand = T, G = T, Z = r.least,
    n_f = 1, member = "host", name = r.governs .. " of the wood",
    at = (f.from + f.to) / 2}
  k.extra_steps, k.clause = r.steps, "NDS App. E (memory)"
  return k
end

-- Statics of the plates over a gap: V crosses it, and each side's fasteners, halved into
-- an inner and an outer group, also hold the plate from turning.
function joint.shear_path(f, case, a)
  local m, s, c = case.model, f.shear, case.review.cuts[f.cut]
  local V = math.max(math.abs(c.V_most), math.abs(c.V_least))
  local half = (c.x2 - c.x1) / 2
  local near, far = half + s.lap / 4, half + 3 * s.lap / 4
  local G = V * far / (far - near)
  local wood = fasten.gravity(f, case.joist.description, f.notes)
  local strength = fasten.strength(s.fasten, {main = {G = wood, thickness = m.b * m.plies,
    angle = 90}, side = {G = wood, thickness = s.thickness, angle = 90},
    moisture = m.moisture, temperature = m.temperature})
  if strength.refused then return strength.refused end
  local k = case.joint {mode = "fasteners", branch = strength.rated and 2 or 1,
    demand = G, G = G, Z = strength.Z, C_z = strength.C_z, CD = 1,
    n_f = math.floor(s.n / 2),
    member = "plates", name = "shear over the gap, inner half of a group",
    at = (c.x1 + c.x2) / 2}
  k.extra_steps = strength.steps
  a.checks[#a.checks + 1] = k
  a.forces[#a.forces + 1] = {name = "shear over the gap", at = k.at, value = V,
    unit = "lb"}
  a.fasteners[#a.fasteners + 1] = {fastener = tostring(s.fasten.fastener),
    count = 2 * s.n, where = "plates over the gap to joist, half on each side",
    D = s.fasten.fastener.D}
  local face = m.b * m.plies / 2
  for side = -1, 1, 2 do
    local y1, y2 = side * face, side * (face + s.thickness)
    a.pieces[#a.pieces + 1] = {name = "plate over the gap", kind = "panel",
      member = "plates", count = 1, length = c.x2 - c.x1 + 2 * s.lap, x1 = c.x1 - s.lap,
      x2 = c.x2 + s.lap, h1 = 0, h2 = m.d, y1 = math.min(y1, y2), y2 = math.max(y1, y2)}
  end
  a.pieces[#a.pieces + 1] = {name = "block", kind = "block", member = "host", count = 1,
    length = c.x2 - c.x1, x1 = c.x1, x2 = c.x2, h1 = m.d - f.block, h2 = m.d, y1 = -face,
    y2 = face}
end

return joint
