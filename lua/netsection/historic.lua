-- SPDX-License-Identifier: MIT
-- Working stresses that were allowed when a house was built, as named, dated sets: "1911
-- Douglas fir". They say what was allowed then. They are never a default and no design
-- values of today, and wherever they are used that is said.
local distance = require "netsection.distance"
local folder = require "netsection.folder"
local data = require "netsection.data_file"
local ordered = require "netsection.point".pairs
local point = require "netsection.point"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local historic = {}

local HOME = assert(package.searchpath("netsection.packs", package.path))
  :gsub("packs%.lua$", "data/historic/")

--- What is said wherever a set is used.
historic.word = "not today's design values"

local loaded

-- Sets by name in small letters, and their names in order.
local function sets()
  if loaded then return loaded end
  local by_name, names = {}, {}
  for _, file in ipairs(folder.entries(HOME) or {}) do
    local t, problem = data.read(HOME .. file)
    if not t then error(problem, 0) end
    for _, row in ipairs(t.species) do
      local name = ("%d %s"):format(t.year, row.name)
      by_name[name:lower()] = {name = name, year = t.year, species = row.name, row = row,
        table = t}
      names[#names + 1] = name
    end
  end
  table.sort(names, point.less)
  loaded = {by_name = by_name, names = names}
  return loaded
end

--- Names of the sets on file, sorted.
function historic.names()
  return {table.unpack(sets().names)}
end

local function near(name)
  local best, least = nil, 4
  for _, known in ipairs(sets().names) do
    local far = distance(name:lower(), known:lower())
    if far < least then best, least = known, far end
  end
  return best and (" (is '%s' meant?)"):format(best) or ""
end

local FIELDS = {set = true, buildings = true, Fv = true}

-- The parts of what was given: a name, or {set =, buildings =, Fv =}.
local function parts_of(given)
  if type(given) == "string" then return {set = given} end
  if type(given) ~= "table" then
    return nil, 'a name such as "1911 Douglas fir" expected, got ' .. type(given)
  end
  for name in ordered(given) do
    if not FIELDS[name] then
      return nil, ("unknown field '%s' (takes set, buildings, Fv)"):format(tostring(name))
    end
  end
  if given.buildings ~= nil and type(given.buildings) ~= "boolean" then
    return nil, "buildings: true or false expected"
  end
  local Fv = given.Fv
  if Fv ~= nil and not (type(Fv) == "number" and Fv > 0 and Fv < math.huge) then
    return nil, "Fv: a number of psi expected"
  end
  return given
end

local function found_in(all, t)
  if type(t.set) ~= "string" then return nil, "set: a name expected" end
  local set = all.by_name[t.set:lower()]
  if set then return set end
  return nil, ("'%s' is not on file%s; on file: %s"):format(t.set:sub(1, 40), near(t.set),
    table.concat(all.names, ", "))
end

--- The values of a set, psi: {Fb, Fv, Fc_perp, Fc, E, wood, source, confidence, name,
-- notes}; nil and a message for what is not on file or is lacking in it.
-- @param given a name, or {set =, buildings = true, Fv = psi where the set has none}
function historic.values(given)
  local t, why = parts_of(given)
  local set
  if t then set, why = found_in(sets(), t) end
  if not set then return nil, why end
  local row, times = set.row, t.buildings and set.table.buildings or 1
  if t.Fv and row.Fv then
    return nil, point.format("Fv: the set has its own, %g psi", row.Fv)
  elseif not (t.Fv or row.Fv) then
    return nil, ("'%s' has no working stress for shear in beams: give one with its basis "
      .. "as Fv, or material"):format(set.name)
  end
  local values = {E = row.E, name = set.name, wood = set.name,
    confidence = set.table.confidence}
  for _, name in ipairs {"Fb", "Fc_perp", "Fc"} do values[name] = row[name] * times end
  values.Fv = t.Fv or row.Fv * times
  values.source = ("%s, %s: historic, %s"):format(set.table.title, set.species,
    historic.word)
  values.notes = {
    ("working stresses of %d are for green timber in bridges%s; no factors for size or "
      .. "repetitive use are taken with them"):format(set.year, t.buildings
      and point.format(", %g times that for buildings by the note of their table", times)
      or "; for buildings their table allowed half more"),
    ("E of %d is that of short loads: its table halves it for long ones"):format(
      set.year),
  }
  if t.Fv then
    values.notes[3] = point.format(
      "shear in beams, %g psi, as given: the set has none", t.Fv)
  end
  return values
end

return historic
