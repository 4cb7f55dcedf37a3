-- SPDX-License-Identifier: MIT
-- Roof live load and snow beside the dead and the live load of a floor, and live loads of
-- a duration of their own (own_duration.lua). The combinations that hold them are rows of
-- a standard's format (with_roof_or_snow), numbered after its others; each stands where
-- the joist has all the loads that it pairs. What sums D and L by itself refuses such a
-- joist by name.
local lane = require "netsection.lane"
local own_duration = require "netsection.own_duration"
local point = require "netsection.point"

local roof_loads = {}

-- Symbol, field of the floor, case of a line or a point load, its name in a sentence.
local LOADS = {
  {"L", "live", "live", "live load"},
  {"Lr", "roof_live", "roof live", "roof live load"},
  {"S", "snow", "snow", "snow"},
}
local SYMBOL = {dead = "D"}
for _, load in ipairs(LOADS) do SYMBOL[load[3]] = load[1] end

--- The symbol of a load's factor in a combination: D, L, Lr, S; L1 and L2 of live loads
-- with a duration of their own.
function roof_loads.symbol(l)
  return l.own and "L" .. l.own or SYMBOL[l.case]
end
local symbol_of = roof_loads.symbol

--- The case of a load in print: "snow", "live, CD 1.25".
function roof_loads.case(l)
  return l.CD and point.format("%s, CD %g", l.case, l.CD) or l.case
end

local function some(x)
  return lane.is(x) or (x or 0) > 0
end

-- Which loads a joist has: {L = true, S = true}.
local function there(m)
  local set = {}
  for _, load in ipairs(LOADS) do set[load[1]] = some(m[load[2]]) or nil end
  for _, l in ipairs(m.lines or {}) do
    local symbol = symbol_of(l)
    if symbol and (some(l.w1) or some(l.w2)) then set[symbol] = true end
  end
  for _, p in ipairs(m.points or {}) do
    local symbol = symbol_of(p)
    if symbol and some(p.P) then set[symbol] = true end
  end
  return set
end

--- Whether a joist has a load of the roof, snow, or a live load of its own duration.
-- @param m model
function roof_loads.any(m)
  local set = there(m)
  return set.Lr or set.S or set.L1 or set.L2 or false
end

--- Whether a joist has a load of the roof or snow.
function roof_loads.roof(m)
  local set = there(m)
  return set.Lr or set.S or false
end

-- "roof live load", "snow", "roof live load and snow", "a load of its own CD".
local function names(m)
  local set, list = there(m), {}
  for _, load in ipairs(LOADS) do
    if load[1] ~= "L" and set[load[1]] then list[#list + 1] = load[4] end
  end
  if set.L1 or set.L2 then list[#list + 1] = "a load of its own CD" end
  return table.concat(list, " and ")
end

--- Why something is not worked out for a joist with a load of the roof or snow; nil for
-- one without.
-- @param what its name
function roof_loads.refusal(m, what)
  if not roof_loads.any(m) then return nil end
  return ("%s is not worked out for a joist with %s (LOAD-CASE): its sums hold dead and "
    .. "live load alone"):format(what, names(m))
end

--- Why a standard cannot take a joist: it has no combination with a load; or nil.
-- @param standard of packs.standard
function roof_loads.lacking(m, standard)
  local own = own_duration.lacking(m, standard)
  if own then return own end
  local set = there(m)
  for _, c in ipairs(standard.data.with_roof_or_snow or {}) do
    if c.checks ~= "deflection" then
      for _, load in ipairs(LOADS) do
        if (c[load[1]] or 0) > 0 then set[load[1]] = nil end
      end
    end
  end
  for _, load in ipairs(LOADS) do
    if load[1] ~= "L" and set[load[1]] then
      return ("%s has no combination with %s (LOAD-CASE)"):format(standard.data.name,
        load[4])
    end
  end
end

-- Whether a joist has all the variable loads of a combination.
local function stands(c, set)
  for _, symbol in ipairs {"L", "Lr", "S", "L1", "L2"} do
    local needed = symbol ~= "L" or not c.without_live
    if needed and (c[symbol] or 0) > 0 and not set[symbol] then return false end
  end
  return true
end

--- Combinations that a joist is checked under, in their order.
-- @param m model; @param standard of packs.standard
function roof_loads.combinations(m, standard)
  local list, set = {table.unpack(standard.data.combinations)}, there(m)
  if not roof_loads.any(m) then return list end
  local data = standard.durations and standard.data
    or own_duration.data(standard.data, m.durations or {})
  for _, c in ipairs(data.with_roof_or_snow or {}) do
    if stands(c, set) then list[#list + 1] = c end
  end
  return list
end

--- The combination of a number, as the core counts them.
function roof_loads.numbered(standard, number)
  local list = standard.data.combinations
  return list[number] or standard.data.with_roof_or_snow[number - #list]
end

--- What a combination says of a deflection: "S", "0.75L+0.75S".
function roof_loads.variable(c)
  local list = {}
  for _, load in ipairs(LOADS) do
    local g = c[load[1]] or 0
    if g > 0 then
      list[#list + 1] = (g == 1 and "" or point.format("%g", g)) .. load[1]
    end
  end
  return table.concat(list, "+")
end

local function weighed(list, c, fields)
  local out = {}
  for i, l in ipairs(list) do
    local own, symbol = {}, symbol_of(l)
    for name, value in pairs(l) do own[name] = value end
    if symbol ~= "D" then
      own.case, own.own, own.CD = "live", nil, nil
      for _, field in ipairs(fields) do own[field] = l[field] * (c[symbol] or 0) end
    end
    out[i] = own
  end
  return out
end

--- A model under one combination: its variable loads, each times its factor, are the live
-- load; the dead load stays as it is.
function roof_loads.under(m, c)
  local out = {}
  for name, value in pairs(m) do out[name] = value end
  out.texts, out.durations = nil, nil
  out.live, out.roof_live, out.snow = 0, 0, 0
  for _, load in ipairs(LOADS) do
    out.live = out.live + (c[load[1]] or 0) * (m[load[2]] or 0)
  end
  out.lines, out.points = weighed(m.lines, c, {"w1", "w2"}), weighed(m.points, c, {"P"})
  return out
end

--- The loads of the floor in print: {{"Snow load", "snow", psf}, ...}, those that are.
function roof_loads.of_floor(m)
  local out = {}
  if some(m.roof_live) then
    out[1] = {"Roof live load", "roof_live", m.roof_live, "Lr"}
  end
  if some(m.snow) then out[#out + 1] = {"Snow load", "snow", m.snow, "S"} end
  return out
end

return roof_loads
