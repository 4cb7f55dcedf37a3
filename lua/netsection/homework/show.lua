-- SPDX-License-Identifier: MIT
-- Numbers of a problem as they are printed: what is given as a tape or a load note has
-- it, results to four figures.
local text = require "netsection.text"
local units = require "netsection.units"
local tostring = require "netsection.point".text

local show = {}

-- Exactly a sixteenth, to within what a double loses on the way from feet.
local function on_tape(inches)
  local steps = inches * 16
  return math.abs(steps - math.floor(steps + 0.5)) < 1e-9
end

-- 3-1/2 in; places off the sixteenths as decimals.
local function inches(x)
  if not on_tape(x) then return text.short(x) .. " in" end
  return (units.inches(x):gsub(" ", "-"):gsub('"', " in"))
end

local GIVEN = {
  ft = function(x) return on_tape(12 * x) and units.feet_inches(12 * x)
    or text.short(x) .. " ft" end,
  ["in"] = inches,
  [""] = text.short,
  count = text.short,
}

--- A given value with its unit.
function show.given(value, unit)
  if type(value) ~= "number" then return tostring(value) end
  local f = GIVEN[unit]
  return f and f(value) or text.short(value) .. " " .. unit
end

--- Number of a result, four figures.
function show.number(value)
  return type(value) == "number" and text.short(value) or tostring(value)
end

--- Result with its unit.
function show.result(value, unit)
  local bare = unit == "" or unit == "count" or type(value) ~= "number"
  return show.number(value) .. (bare and "" or " " .. unit)
end

--- How a unit is asked for.
function show.unit(unit)
  return unit == "count" and "whole number" or unit == "" and "no unit" or unit
end

return show
