-- SPDX-License-Identifier: MIT
-- The unit in which a text was written: a message about a field quotes its limits in it.
local units = require "netsection.units"
local tostring = require "netsection.point".text

local written = {}

local per = units.per

-- Metric units as they are written, in small letters: how they are printed, size in the
-- base unit.
local NAMES = {
  mm = {"mm", per.mm}, cm = {"cm", per.cm}, m = {"m", per.m},
  kpa = {"kPa", per.kPa}, pa = {"Pa", per.kPa / 1000}, ["kn/m2"] = {"kN/m2", per.kPa},
  ["kn/m^2"] = {"kN/m2", per.kPa}, ["kn/m"] = {"kN/m", per["kN/m"]},
  kn = {"kN", per.kN}, n = {"N", per.N},
  ["n/mm2"] = {"N/mm2", per.MPa}, mpa = {"MPa", per.MPa},
  ["kn m"] = {"kN m", per.kN * per.m}, ["kn-m"] = {"kN m", per.kN * per.m},
  knm = {"kN m", per.kN * per.m}, ["n mm"] = {"N mm", per.N * per.mm},
}
-- As units.between names them.
local MEASURED = {["kN m"] = "kN-m", ["N mm"] = "N-mm", ["N/mm2"] = "MPa",
  ["kN/m2"] = "kPa"}

--- The metric unit that a field was written in and its size in the base unit: "mm" and
-- 5/127 for "89 mm"; nil where it was written otherwise.
function written.unit(given)
  local name = type(given) == "string" and given:lower():match "%d%s*(%a[%a%d/^%- ]*)$"
  local found = name and NAMES[(name:gsub("%s+$", ""))]
  if found then return found[1], found[2] end
end

--- The text of a quantity as a number of a base unit: written.amount("5 kN", "lb") is
-- 1124; nil where it is none or measures something else.
-- @param base "in", "lb", "lb-in", "psi", "psf" or "plf"
function written.amount(text, base)
  local number, name = tostring(text):match "^%s*([+-]?%d*%.?%d+)%s*(%S.-)%s*$"
  if not number then return nil end
  local metric = NAMES[name:lower()]
  name = metric and (MEASURED[metric[1]] or metric[1]) or name
  local times = units.between(name, base)
  return times and tonumber(number) * times or nil
end

return written
