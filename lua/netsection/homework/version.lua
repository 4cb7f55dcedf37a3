-- SPDX-License-Identifier: MIT
-- One version of a problem: base values, what is given, every step's value, and what each
-- common mistake comes to; and whether it makes a fair question.
local formula = require "netsection.homework.formula"
local kind = require "netsection.homework.kind"
local label = require "netsection.label"
local text = require "netsection.text"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local version = {}

-- A ratio nearer to 1 than this is a pass or a fail by rounding.
local EDGE = 0.02

local function finite(x)
  return x == x and x ~= math.huge and x ~= -math.huge
end

--- True where a and b would be taken for the same answer within a tolerance.
function version.near(a, b, tolerance)
  return math.abs(a - b) <= tolerance * math.abs(b) + 1e-12
end

--- True where a value is right for a step: within its tolerance; to the hundredth where a
-- whole number is asked.
function version.right(step, value, correct)
  if step.choice then return value == correct end
  if step.whole then return math.abs(value - correct) <= 0.01 end
  return version.near(value, correct, step.tolerance)
end

version.values, version.space = kind.values, kind.space

-- What is given: rows {symbol, value, unit, says} to print, their numbers by symbol, and
-- which of them are measures, not bare factors.
local function given_of(k, p)
  local rows, numbers, measures = k.given(p), {}, {}
  for i, row in ipairs(rows) do
    if type(row[1]) ~= "string" and row[1] ~= nil then
      error(("homework kind %s: given row %d: symbol expected"):format(k.name, i), 0)
    end
    if type(row[2]) == "number" then
      numbers[row[1]] = row[2] + 0.0
      measures[row[1]] = row[3] ~= "" or nil
    end
  end
  return rows, numbers, measures
end

-- Values of one mistake: {symbol = value}. One that makes no difference in this version,
-- such as a forgotten factor of 1, is none.
local function slip(v, mistake)
  local s, values = kind.rework(v.kind, v, mistake), {}
  for _, symbol in ipairs(mistake.of) do
    local x = s[symbol]
    if finite(x) and not version.near(x, v.s[symbol], 1e-9) then values[symbol] = x end
  end
  return values
end

-- What each mistake comes to, worked out when it is first asked for: most versions that
-- are looked at are not used.
local lazy = label.meta("version", label.version, function(v, field)
  if field == "shown" then
    rawset(v, "shown", {})
    return v.shown
  elseif field ~= "slips" then
    return nil
  end
  local slips = {}
  for i, mistake in ipairs(v.kind.mistakes) do
    slips[i] = slip(v, mistake)
  end
  rawset(v, "slips", slips)
  return slips
end)

--- The version with base values p.
function version.new(k, p)
  local rows, numbers, measures = given_of(k, p)
  return setmetatable({kind = k, p = p, rows = rows, given = numbers, measures = measures,
    s = kind.work(k, numbers, p)}, lazy)
end

--- A step's value as a sheet prints it, in four figures; a word as it is.
function version.printed(v, symbol)
  local said = v.shown[symbol]
  if not said then
    local x = v.s[symbol]
    said = type(x) == "number" and text.short(x) or tostring(x)
    v.shown[symbol] = said
  end
  return said
end

--- True where every number is one.
function version.sound(v)
  for _, step in ipairs(v.kind.steps) do
    local x = v.s[step.symbol]
    if type(x) == "number" and not finite(x) then return false end
  end
  return true
end

--- True where a value of `edge` lies within 2 % of 1.
function version.at_edge(v)
  for _, symbol in ipairs(v.kind.edge) do
    if math.abs(v.s[symbol] - 1) < EDGE then return true end
  end
  return false
end

-- Whether a step comes near its number although an earlier step, or a factor that is
-- given, is left out of it: then who forgets that one is marked as right. One that makes
-- no difference at all, such as a factor of 1, is none to forget.
local function idle(v, step)
  local right = v.s[step.symbol]
  if not (step.ask and step.formula and type(right) == "number")
    or not formula.of(step.formula) then
    return false
  end
  for _, left in ipairs(formula.without(step.formula)) do
    local x = not v.measures[left[1]] and left[2](v.s)
    if x and finite(x) and version.near(x, right, 2 * step.tolerance)
      and not version.near(x, right, 1e-9) then
      return true
    end
  end
  return false
end

-- A step redone from the numbers that the key prints: a whole number has to be the same,
-- another to half a percent.
local function redone(v, step)
  if not (step.formula and formula.of(step.formula)) then return true end
  local printed = {}
  for _, symbol in ipairs(formula.symbols(step.formula)) do
    local x = v.s[symbol]
    if type(x) ~= "number" then return true end
    printed[symbol] = v.given[symbol] or tonumber(version.printed(v, symbol)) + 0.0
  end
  local x, right = step.of(printed, v.p), v.s[step.symbol]
  if step.whole then return x == right end
  return version.near(x, right, 0.005)
end

-- A mistake that comes near the right number would be marked as right.
local function telling(v)
  for _, step in ipairs(v.kind.steps) do
    if idle(v, step) or not redone(v, step) then return false end
  end
  for _, step in ipairs(v.kind.steps) do
    for _, values in ipairs(v.slips) do
      local x = values[step.symbol]
      if x and version.near(x, v.s[step.symbol], 2 * step.tolerance) then return false end
    end
  end
  return true
end

--- Takes out mistakes that come to the right number, for a version that is used although
-- it makes no fair question, since there is no other.
function version.keep(v)
  for _, step in ipairs(v.kind.steps) do
    for _, values in ipairs(v.slips) do
      local x = values[step.symbol]
      if x and version.near(x, v.s[step.symbol], 2 * step.tolerance) then
        values[step.symbol] = nil
      end
    end
  end
  return "as given"
end

--- The mode of a version that makes a fair question, "" where its kind has only one; nil
-- where it makes none.
-- @param near_edge true takes versions near a pass or fail edge as well
function version.mode(v, near_edge)
  if not version.sound(v) then return nil end
  local mode = not v.kind.suits and "" or v.kind.suits(v.p, v.s)
  if not mode then return nil end
  if mode == true then mode = "" end
  if not near_edge and version.at_edge(v) then return nil end
  return telling(v) and mode or nil
end

return version
