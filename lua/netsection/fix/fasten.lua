-- SPDX-License-Identifier: MIT
-- The fasteners of a fix: what one carries, how stiff it is, where each one stands.
local fastener = require "netsection.fastener"
local fastener_data = require "netsection.fastener_data"
local model = require "netsection.model"
local units = require "netsection.units"

local fasten = {}
local read = model.readers

-- Fields that every fix with fasteners takes.
fasten.fields = {"fastener", "rated", "slip", "groups", "pitch", "per_row",
  "end_distance", "edge_distance", "G"}

-- Where a description has no specific gravity: that of the lightest common framing.
local ASSUMED_G = 0.42
local ASSUMED = {kind = "lag screw", diameter = "1/4 in", length = "3 in"}

-- What a lookup of the fasteners' data gives; nil where it is not on file.
function fasten.on_file(lookup, ...)
  local ok, value = pcall(lookup, ...)
  if ok then return value end
  if type(value) ~= "table" then error(value, 0) end -- no fault of the data
end

local function made(t, found, part)
  if t.fastener == nil then
    return fastener(ASSUMED), "fastener not given: 1/4 x 3 in lag screw assumed"
  elseif type(t.fastener) ~= "table" or not t.fastener.D then
    found:add(part, "fastener", "a fastener such as ns.fastener{...} expected")
    return fastener(ASSUMED)
  end
  return t.fastener
end

local function rated_value(t, found, part)
  if t.rated == nil then return nil end
  local value, problem = units.load(t.rated, "point")
  if not value or value <= 0 then
    found:add(part, "rated", not value and problem
      or "a load above 0 such as \"200 lb\" expected")
    return nil
  end
  return value
end

-- Reads fastener, rated value and slip modulus.
function fasten.read(t, found, part, notes)
  local f = {}
  local note
  f.fastener, note = made(t, found, part)
  notes[#notes + 1] = note
  f.rated = rated_value(t, found, part) or f.fastener.rated
  f.slip = t.slip and read.number(found, part, "slip", t.slip, 1, 1e8)
  f.edge = t.edge_distance and read.between(found, part, "edge_distance", t.edge_distance,
    0, 12)
  f.ends = t.end_distance and read.between(found, part, "end_distance", t.end_distance,
    0, 48)
  f.G = t.G and read.number(found, part, "G", t.G, 0.2, 1)
  f.per_row = read.whole(found, part, "per_row", t.per_row or 2, 1, 20)
  return f
end

-- Specific gravity of a joist's wood; what was assumed goes to the notes.
function fasten.gravity(f, description, notes)
  if f.G then return f.G end
  local material = description.material
  if type(material) == "table" and material.G then return material.G end
  local G = description.species and fasten.on_file(fastener_data.G, description.species)
  if G then return G end
  local said = ("specific gravity not known: %.2f assumed"):format(ASSUMED_G)
  for _, note in ipairs(notes) do
    if note == said then return ASSUMED_G end
  end
  notes[#notes + 1] = said
  return ASSUMED_G
end

-- Lateral value, factors and slip modulus of one fastener between two members.
-- @param t {main =, side =, angle, moisture, temperature, Cg, C_delta, double = through
--   a second side member like the first}
-- @return {Z =, C_z =, stiff =, rated =, refused =, steps =}
function fasten.strength(f, t)
  local planes = t.double and 2 or 1
  local slip = f.slip or planes * fastener.slip {fastener = f.fastener,
    main = {G = t.main.G}, side = t.side.steel and {steel = t.side.steel}
      or {G = t.side.G}}.K
  if f.rated then
    return {Z = f.rated, C_z = 1, stiff = slip, rated = true, steps = {}}
  end
  local r = fastener.lateral {fastener = f.fastener, main = t.main, side = t.side,
    moisture = t.moisture, temperature = t.temperature, Cg = t.Cg,
    C_delta = t.C_delta, double = t.double or nil}
  if r.refused or r.Z <= 0 then
    return {refused = r.refused or "no lateral value"}
  end
  return {Z = r.Z, C_z = (r.adjusted or r.Z) / r.Z, stiff = slip, rated = false,
    steps = r.steps, mode = r.mode}
end

-- Heights of a column of n fasteners between low and high.
local function column(n, low, high)
  local heights = {}
  for i = 1, n do
    heights[i] = n == 1 and (low + high) / 2 or low + (high - low) * (i - 1) / (n - 1)
  end
  return heights
end

-- Places of a group of n around x: columns of at most as many as the depth holds.
-- @param g {low =, high =, up = least pitch up, along = least pitch along}
-- @param faces 2: as many from the far face, their columns between those of the near one
-- @return list of {x =, h =, piece =}, half the length of the group
function fasten.group(x, n, g, faces)
  faces = faces or 1
  local room = math.max(1, math.floor((g.high - g.low) / g.up + 1e-9) + 1)
  local columns = math.ceil(n / room)
  local out = {}
  local left = n
  local all = columns * faces
  for c = 1, columns do
    local count = math.ceil(left / (columns - c + 1))
    left = left - count
    for face = 1, faces do
      local at = x + ((c - 1) * faces + face - (all + 1) / 2) * g.along
      for _, h in ipairs(column(count, g.low, g.high)) do
        out[#out + 1] = {x = at, h = h, piece = face}
      end
    end
  end
  return out, (all - 1) / 2 * g.along
end

return fasten
