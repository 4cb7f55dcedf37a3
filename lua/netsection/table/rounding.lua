-- SPDX-License-Identifier: MIT
-- Values of a table to the step they are printed in. What is allowed is rounded down,
-- what is required up; the dust of arithmetic does not take a step with it: a value that
-- lies within 1e-9 of itself below a step is that step.
local quantity = require "netsection.quantity"
local units = require "netsection.units"

local rounding = {}

local DUST = 1e-9
local LENGTHS = {["ft-in"] = true, ["in"] = true}

local WAYS = {down = true, up = true, nearest = true}

-- n steps, without the noise of n * 0.01.
local function steps(n, step)
  local per_one = math.floor(1 / step + 0.5)
  local even = step < 1 and math.abs(1 / step - per_one) <= 1e-9 * per_one
  return even and n / per_one or n * step
end

--- A value to a whole number of steps. @param way "down", "up" or "nearest"
function rounding.to(value, step, way)
  local n = value / step
  local low, dust = math.floor(n), DUST * math.abs(value)
  if way == "nearest" then
    n = n < 0 and -math.floor(0.5 - n) or math.floor(n + 0.5)
  elseif way == "down" then
    n = (low + 1) * step - value <= dust and low + 1 or low
  else
    n = value - low * step <= dust and low or low + 1
  end
  return steps(n, step)
end

-- A step as text or number -> in the unit of the table | nil.
local function read_step(to, unit)
  if type(to) == "number" then return to end
  if type(to) ~= "string" then return nil end
  if LENGTHS[unit] then return (units.length(to)) end
  local number, said = to:match "^%s*(%d*%.?%d+)%s*(.-)%s*$"
  return (said == "" or said == unit) and tonumber(number) or nil
end

local function good_step(step)
  return step and step > 0 and step < math.huge
end

-- Decimals that show a multiple of a step in full.
local function decimals(step)
  for n = 0, 9 do
    local scaled = step * 10 ^ n
    if math.abs(scaled - math.floor(scaled + 0.5)) <= 1e-9 * scaled then return n end
  end
  return 9
end

local function on_tape(step)
  return step * 16 % 1 == 0
end

-- How values of a unit are shown: in print, and in a file that a spreadsheet opens, which
-- would take 12-6 for a date.
local function shows(unit, step)
  if unit == "ft-in" then return units.feet_inches_dash, units.feet_inches end
  if unit == "in" and on_tape(step) then
    return function(x)
      return (units.inches(x):gsub('"', ""):gsub(" ", "-"))
    end, units.inches
  end
  local n = decimals(step)
  local function show(x) return units.fixed(x, n) end
  return show, show
end

local function step_text(step, unit)
  if not LENGTHS[unit] then
    return units.fixed(step, decimals(step)) .. (unit ~= "" and " " .. unit or "")
  end
  local inches = on_tape(step) and units.inches(step):gsub('"', ""):gsub(" ", "-")
  return (inches or units.fixed(step, decimals(step))) .. " in"
end

-- @param given the table's metric field
local function read_metric(given, unit, way)
  local twin = quantity.system "metric".twin(unit)
  if not twin then return nil, ("metric: '%s' has no twin unit"):format(unit) end
  local step = twin.step
  if type(given) == "table" then step = read_step(given.to, twin.unit) end
  if type(given) ~= "table" and given ~= true or not good_step(step) then
    return nil, ("metric: true or {to = a step in %s} expected"):format(twin.unit)
  end
  local n = decimals(step)
  return {unit = twin.unit, step = step, of = function(x)
    return rounding.to(x * twin.times, step, way)
  end, show = function(x) return units.fixed(x, n) end}
end

-- A table whose values are given in one unit and printed in another.
local function printed_in(other, given, round)
  local step = read_step(round.to, other.unit)
  if not good_step(step) then
    return nil, ("round: to: a step above 0 in %s expected, such as \"1 %s\""):format(
      other.unit, other.unit)
  end
  local n = decimals(step)
  local function show(x) return units.fixed(x, n) end
  return {unit = other.unit, given = given, step = step, way = round.way, show = show,
    show_csv = show, step_text = show(step) .. " " .. other.unit,
    of = function(x) return rounding.to(x * other.times, step, round.way) end}
end

--- What a table measures in: {unit, given = the unit of its values, step, way, step_text,
-- of(value), show(value), show_csv(value), metric = {unit, step, of, show} or nil}; or
-- nil
-- and what is wrong.
-- @param system the system of units it is printed in
function rounding.read(unit, round, metric, system)
  if type(unit) ~= "string" then return nil, "unit: text expected, \"\" for none" end
  if type(round) ~= "table" or not WAYS[round.way] then
    return nil, 'round: {to = step, way = "down" (allowed), "up" (required) or '
      .. '"nearest"} expected'
  end
  local other = system.in_table(unit)
  if other and metric then
    return nil, "metric: goes with a table that is printed in US units"
  elseif other then
    return printed_in(other, unit, round)
  end
  local step = read_step(round.to, unit)
  if not good_step(step) then
    return nil, ("round: to: a step above 0 in %s expected, such as \"1%s\""):format(
      LENGTHS[unit] and "in" or unit == "" and "the values' unit" or unit,
      LENGTHS[unit] and " in" or unit == "" and "" or " " .. unit)
  elseif unit == "ft-in" and not on_tape(step) then
    return nil, 'round: to: a multiple of 1/16 in expected for "ft-in"'
  end
  local measure = {unit = unit, given = unit, step = step, way = round.way}
  measure.show, measure.show_csv = shows(unit, step)
  measure.of = function(x) return rounding.to(x, step, round.way) end
  measure.step_text = step_text(step, unit)
  if metric then
    local problem
    measure.metric, problem = read_metric(metric, unit, round.way)
    if not measure.metric then return nil, problem end
  end
  return measure
end

return rounding
