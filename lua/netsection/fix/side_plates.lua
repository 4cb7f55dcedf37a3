-- SPDX-License-Identifier: MIT
-- Plates on one face or both, of plywood, OSB or steel. They never bear: all they carry
-- comes and goes through their fasteners. Panels have no values on file: Fb, Fv and E
-- through the thickness are given with them.
local cautions = require "netsection.cautions"
local beside = require "netsection.fix.beside"
local fasten = require "netsection.fix.fasten"
local fastener_data = require "netsection.fastener_data"
local model = require "netsection.model"
local tostring = require "netsection.point".text

local plates = {fields = {"thickness", "depth", "gauge", "steel", "material"}}
for _, list in ipairs {beside.fields, fasten.fields} do
  table.move(list, 1, #list, #plates.fields + 1, plates.fields)
end

local read = model.readers

local function read_steel(t, f, found, part)
  local grade = fasten.on_file(fastener_data.grade, "steel", t.steel)
  if not grade then
    found:add(part, "steel", "not on file: " .. tostring(t.steel))
    return
  end
  f.E, f.Fy, f.steel = grade.E, grade.F_y, t.steel
end

local function read_panel(t, f, found, part)
  if type(t.material) ~= "table" then
    found:add(part, "material", "{Fb =, Fv =, E =} of the panel in the plane of its "
      .. "load, or steel = \"A36\", expected: panels have no values on file")
    return
  end
  f.other = {}
  for _, row in ipairs {{"Fb", 10000}, {"Fv", 2000}, {"E", 5e6}} do
    local name = row[1]
    f.other[name] = read.number(found, part, "material." .. name, t.material[name], 1,
      row[2])
  end
  f.E = f.other.E
  f.other.CF, f.other.Ft, f.other.Fc, f.other.Fc_perp = 1, 0, 0, 0
  f.G_panel = t.material.G and read.number(found, part, "material.G", t.material.G,
    0.2, 1)
end

function plates.read(t, case, found, part)
  local given = {}
  for name, value in pairs(t) do given[name] = value end
  for _, name in ipairs {"from", "to"} do
    if t[name] == nil then found:add(part, name, "missing: plates do not bear") end
  end
  if t.bearing then found:add(part, "bearing", "plates do not bear") end
  given.side, given.bearing = t.side or "both", false
  local f = beside.read(given, case, found, part)
  f.sides = f.side == "both" and 2 or 1
  f.d = t.depth ~= nil and read.between(found, part, "depth", t.depth,
    1, 24) or case.model.d
  if t.gauge ~= nil then
    local gauge = fasten.on_file(fastener_data.gauge, "gauge", t.gauge)
    if gauge then f.t, f.gauge = gauge.design, t.gauge else
      found:add(part, "gauge", "not on file: " .. tostring(t.gauge))
    end
  elseif t.thickness == nil then
    found:add(part, "thickness", "missing")
  else
    f.t = read.between(found, part, "thickness", t.thickness, 0.01, 4)
  end
  if t.gauge ~= nil and t.thickness ~= nil then
    found:add(part, "thickness", "not read with a gauge: give one of the two")
  end
  if t.steel and t.material ~= nil then
    found:add(part, "material", "not read for steel: give steel, or material of a panel")
  end
  if t.gap_load ~= nil and not f.severed then
    found:add(part, "gap_load", "not read: the joist has no gap")
  end
  if t.steel then read_steel(t, f, found, part) else read_panel(t, f, found, part) end
  return f
end

local function size_of(f)
  local thick = f.gauge and ("%d ga"):format(f.gauge) or f.show.thickness(f.t)
  return ("%s x %s %s"):format(f.show.size(f.d), thick, f.steel or "panel")
end

function plates.title(f)
  return ("side plates %s, %s, %s to %s"):format(size_of(f), f.side == "both"
    and "both faces" or f.side .. " face", f.show.place(f.from),
    f.show.place(f.to))
end

-- The plates' numbers into f; what beside.lua has to know of them.
local function words_of(case, f)
  f.member, f.b = "plates", f.t * f.sides
  if not f.steel then f.other.E = nil end
  f.G_host = fasten.gravity(f, case.joist.description, f.notes)
  local side = f.steel and {steel = f.steel, thickness = not f.gauge and f.t or nil,
    gauge = f.gauge} or {G = f.G_panel or f.G_host, thickness = f.t, angle = 90}
  return {thin = f.t, side = side, new = "side plates",
    piece = {name = "side plate", kind = f.steel and "steel" or "panel",
      member = "plates", size = size_of(f), stock = size_of(f),
      material = f.steel or "panel, values given"}}
end

function plates.lanes(case, f)
  return beside.lanes(case, f, words_of(case, f))
end

function plates.assess(case, f)
  local a, reason = beside.assess(case, f, words_of(case, f))
  if not a then return nil, reason end
  for _, p in ipairs(a.pieces) do
    p.label = ("%s x %s"):format(size_of(f), f.show.place(p.length))
  end
  if f.steel then
    a.notes[#a.notes + 1] = "plates on edge are held to buckling between their rows of "
      .. ("fasteners and of their edge (%s)"):format(
          case:rule "plates_on_edge")
    a.cautions[#a.cautions + 1] = cautions.steel
  end
  a.title = plates.title(f)
  return a
end

-- One of the kinds of repairs (see fix.lua): its place among them, and why it is worked
-- out in allowable stress design alone.
plates.order, plates.one_format, plates.roof = 20, "steel", true

return plates
