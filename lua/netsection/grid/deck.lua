-- SPDX-License-Identifier: MIT
-- The deck of a grid: bending stiffness across the joists and along them, lb-in2 per ft
-- of width, and its strength across, F_b S in lb-in per ft, where it is known. Given by
-- the name of a panel, as numbers, or as boards by size.
local data = require "netsection.data.decks.panels"
local parts = require "netsection.parts"
local point = require "netsection.point"
local units = require "netsection.units"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local deck = {panels = data.panels, source = data.source}

local function number(what, v, low, high)
  if type(v) ~= "number" or not (v >= low and v <= high) then
    error(point.format("%s: a number from %g to %g expected, got %s", what, low, high,
      tostring(v)), 0)
  end
  return v
end

local function panel(t, what)
  local names = {}
  for i, p in ipairs(data.panels) do
    if p.name == t.panel then
      local a, b = 1, 2
      if t.turned == true then a, b = 2, 1 end
      return {name = p.name .. (t.turned and ", turned: strength axis along the joists"
        or ""), across = p.EI[a], along = p.EI[b], FbS = p.FbS and p.FbS[a],
        source = data.source, turned = t.turned == true}
    end
    names[i] = '"' .. p.name .. '"'
  end
  error(("%s.panel: unknown (available: %s)"):format(what, table.concat(names, ", ")), 0)
end

-- Boards lie across the joists, each by itself: E t^3 per 12 in of width that is wood
-- (I = 12 t^3 / 12). They give nothing along.
local function boards(t, what)
  local thick, problem = units.length(t.thickness)
  if not thick then error(("%s.thickness: %s"):format(what, problem), 0) end
  number(what .. ".thickness", thick, 0.25, 4)
  local E = number(what .. ".E", t.E, 1e5, 5e6)
  local part = number(what .. ".part", t.part or 1, 0.1, 1)
  local Fb = t.Fb and number(what .. ".Fb", t.Fb, 100, 1e4)
  return {name = ("boards %s across, E %s psi%s"):format(units.inches(thick),
    units.fixed(E, 0), part < 1 and point.format(", %g of the width", part) or ""),
    across = E * thick ^ 3 * part, along = 0, FbS = Fb and Fb * 2 * thick ^ 2 * part,
    source = "boards by size"}
end

local GIVEN = {"across", "along", "FbS", "name", "source"}

-- @param t {across =, along =, FbS =} | {panel = "24oc OSB", turned = true} | {boards =
--   {thickness =, E =, Fb =, part = of the width}} | "24oc OSB"
-- @return {name =, across =, along =, FbS = or nil, source =}; raises a text
function deck.read(t, what)
  if t == nil then
    error(what .. ": missing: a panel such as \"24oc OSB\", or {across = EI, along = EI} "
      .. "in lb-in2 per ft", 0)
  end
  if type(t) == "string" then t = {panel = t} end
  if type(t) ~= "table" then
    error(what .. ": a table or the name of a panel expected, got " .. type(t), 0)
  end
  local ok, problem = pcall(function()
    if t.panel ~= nil then
      parts.only(what, t, {"panel", "turned"}, 0)
    elseif t.boards ~= nil then
      parts.only(what, t, {"boards"}, 0)
      parts.only(what .. ".boards", t.boards, {"thickness", "E", "Fb", "part"}, 0)
    else
      parts.only(what, t, GIVEN, 0)
    end
  end)
  if not ok then error((problem:gsub("^[^:]+:%d+: ", "")), 0) end
  if t.panel ~= nil then return panel(t, what) end
  if t.boards ~= nil then return boards(t.boards, what .. ".boards") end
  return {name = type(t.name) == "string" and t.name or "as given",
    across = number(what .. ".across", t.across, 0, 1e13),
    along = number(what .. ".along", t.along or 0, 0, 1e13),
    FbS = t.FbS and number(what .. ".FbS", t.FbS, 1, 1e6), source = t.source or "given"}
end

return deck
