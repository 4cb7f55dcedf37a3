-- SPDX-License-Identifier: MIT
-- The fasteners of a fix: what one carries, how stiff it is, where each one stands.
local fastener = require "netsection.fastener"
local fastener_data = require "netsection.fastener_data"
local format = require "netsection.format"
local lane = require "netsection.lane"
local model = require "netsection.model"
local point = require "netsection.point"
local units = require "netsection.units"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local fasten = {}
local read = model.readers

-- Fields that every fix with fasteners takes.
fasten.fields = {"fastener", "rated", "slip", "groups", "pitch", "per_row",
  "end_distance", "edge_distance", "prebored", "G"}

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

-- Nails are driven unless lead holes are asked for, and stand farther apart then;
-- everything else goes into drilled holes.
local function prebored(f, t, found, part)
  local nail = f.fastener.kind == "nail"
  local given = t.prebored
  if given == nil then return not nail end
  if type(given) ~= "boolean" then
    found:add(part, "prebored", "true or false expected")
  elseif not given and not nail then
    found:add(part, "prebored", ("only nails are driven without lead holes, not a %s")
      :format(f.fastener.kind))
  end
  return given == true or not nail
end

-- Reads fastener, rated value and slip modulus.
function fasten.read(t, found, part, notes)
  local f = {}
  local note
  f.fastener, note = made(t, found, part)
  notes[#notes + 1] = note
  f.rated = rated_value(t, found, part) or f.fastener.rated
  f.prebored = prebored(f, t, found, part)
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
  local said = point.format("specific gravity not known: %.2f assumed", ASSUMED_G)
  for _, note in ipairs(notes) do
    if note == said then return ASSUMED_G end
  end
  notes[#notes + 1] = said
  return ASSUMED_G
end

local function strength_of(t)
  local f = t.f
  local planes = t.double and 2 or 1
  local slip = f.slip or planes * fastener.slip {fastener = f.fastener,
    main = {G = t.main.G}, side = t.side.steel and {steel = t.side.steel}
      or {G = t.side.G}}.K
  if f.rated then
    local refused = format.refusal(t.standard, "a maker's value", "rated")
    if refused then return {refused = refused} end
    return {Z = f.rated, C_z = 1, stiff = slip, rated = true, steps = {}}
  end
  local r = fastener.lateral {fastener = f.fastener, main = t.main, side = t.side,
    moisture = t.moisture, temperature = t.temperature, Cg = t.Cg,
    C_delta = t.C_delta, double = t.double or nil}
  if r.refused or r.Z <= 0 then
    return {refused = r.refused or "no lateral value"}
  end
  local C_z = (r.adjusted or r.Z) / r.Z * format.connection(t.standard)
  return {Z = r.Z, C_z = C_z, stiff = slip, rated = false,
    steps = r.steps, mode = r.mode}
end

-- What a strength hangs on, as a text.
local function key_of(value, list, name)
  if type(value) ~= "table" then
    list[#list + 1] = ("%s=%s"):format(name, type(value) == "number"
      and point.exact(value) or tostring(value))
    return
  end
  local names = {}
  for key in pairs(value) do names[#names + 1] = key end
  table.sort(names, point.less)
  list[#list + 1] = name .. "{"
  for _, key in ipairs(names) do key_of(value[key], list, key) end
  list[#list + 1] = "}"
end

-- Strengths that were worked out before, under each standard; forgotten past so many.
local known, kept, MOST = setmetatable({}, {__mode = "k"}), 0, 2000

-- That strength as it was worked out before, or now.
local function strength(t)
  if kept > MOST then known, kept = setmetatable({}, {__mode = "k"}), 0 end
  local list, standard = {lane.alone() and "numbers" or "steps"}, t.standard
  key_of({t.f.fastener, t.f.rated or false, t.f.slip or false}, list, "f")
  for _, name in ipairs {"main", "side", "moisture", "temperature", "Cg", "C_delta",
    "double"} do
    key_of(t[name], list, name)
  end
  local key = table.concat(list, ";")
  known[standard] = known[standard] or {}
  if not known[standard][key] then
    known[standard][key], kept = strength_of(t), kept + 1
  end
  local out = {}
  for name, value in pairs(known[standard][key]) do out[name] = value end
  return out
end

-- Tables of what follows in which a number may be a column.
local OF_PARTS = {f = true, main = true, side = true}

-- Lateral value, factors and slip modulus of one fastener between two members.
-- @param t {main =, side =, moisture, temperature, Cg, C_delta, double = through
--   a second side member like the first, standard = of packs.standard}: its factor on
--   connections is part of C_z
-- @return {Z =, C_z =, stiff =, rated =, refused =, steps =}
function fasten.strength(f, t)
  local all = {f = {fastener = f.fastener, rated = f.rated, slip = f.slip}}
  for name, value in pairs(t) do all[name] = value end
  return lane.each(strength, all, OF_PARTS)
end

-- More than so many in one line across the depth split the wood as it dries. Past it they
-- stand in staggered columns (common practice).
local IN_LINE = 5

-- Columns that n fasteners need: no line of more than five, none nearer than 'up'.
local function columns_of(n, g)
  for columns = math.ceil(n / IN_LINE), n - 1 do
    local pitch = columns * (g.high - g.low) / (n - 1)
    if pitch >= g.up - 1e-9 then return columns, pitch end
  end
  return n, 0
end

-- Places of a group of n around x: evenly from low to high, in turn in as many columns as
-- they need, so that neighbors in height stand in different lines.
-- @param g {low =, high =, up = least pitch up, along = least pitch along}
-- @param faces 2: as many from the far face, their columns between those of the near one
-- @return list of {x =, h =, piece =}, half the length of the group, {n = in the fullest
--   column, s = its pitch, width = of the columns of one face}
function fasten.group(x, n, g, faces)
  faces = faces or 1
  local columns, pitch = columns_of(n, g)
  local out = {}
  local all = columns * faces
  for c = 1, columns do
    for face = 1, faces do
      local at = x + ((c - 1) * faces + face - (all + 1) / 2) * g.along
      for i = c, n, columns do
        local h = n == 1 and (g.low + g.high) / 2
          or g.low + (g.high - g.low) * (i - 1) / (n - 1)
        out[#out + 1] = {x = at, h = h, piece = face}
      end
    end
  end
  return out, (all - 1) / 2 * g.along, {n = math.ceil(n / columns), s = pitch,
    width = (columns - 1) * faces * g.along}
end

-- Holes to be drilled for a fastener in wood of specific gravity G, in words; the parts
-- of D are those of the rules on file.
-- @param driven nails that stand as far apart as driven ones do; @param show the units
function fasten.lead_hole(f, G, driven, show)
  local rule = fastener_data.rules.lead_holes[f.kind]
  local function of(x) return show.number("length", x, 3) end
  local function size(part) return of(part * f.D) end
  local unit = show.unit.length
  if f.kind == "bolt" then
    return ("holes of bolts %s to %s %s (%s)"):format(of(f.D + rule.over[1]),
      of(f.D + rule.over[2]), unit, rule.source)
  end
  for _, row in ipairs(rule or {}) do
    if G <= row[1] + 1e-9 and rule.of_root then
      return ("lead holes: shank %s, thread %s %s (%s, %s)"):format(size(row[2]),
        of(row[3] * f.D_r), unit, rule.source, rule.confidence)
    elseif G <= row[1] + 1e-9 then
      local thread = row[2] > 0 and size(row[2]) .. " to " .. size(row[3])
        or "at most " .. size(row[3])
      local first = driven and "nails driven without lead holes; where the wood would "
        .. "split, lead holes: " or "lead holes: "
      return first .. ("%s%s %s (%s, %s)"):format(f.kind == "lag screw" and "shank "
        .. size(1) .. ", thread " or "", thread, unit, rule.source, rule.confidence)
    end
  end
  return "lead holes as the maker of the fastener gives them"
end

return fasten
