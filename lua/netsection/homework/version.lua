-- SPDX-License-Identifier: MIT
-- One version of a problem: base values, what is given, every step's value, and what each
-- common mistake comes to; and whether it makes a fair question.
local kind = require "netsection.homework.kind"

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

-- The base values with the number n, from 0: a mixed radix number over the lists.
function version.values(names, lists, n)
  local p = {}
  for _, name in ipairs(names) do
    local list = lists[name]
    p[name] = list[n % #list + 1]
    n = n // #list
  end
  return p
end

function version.space(names, lists)
  local n = 1
  for _, name in ipairs(names) do n = n * #lists[name] end
  return n
end

-- What is given: rows {symbol, value, unit, says} to print, and their numbers by symbol.
local function given_of(k, p)
  local rows, numbers = k.given(p), {}
  for i, row in ipairs(rows) do
    if type(row[1]) ~= "string" and row[1] ~= nil then
      error(("homework kind %s: given row %d: symbol expected"):format(k.name, i), 0)
    end
    if type(row[2]) == "number" then numbers[row[1]] = row[2] + 0.0 end
  end
  return rows, numbers
end

-- Values of one mistake: {symbol = value}. One that makes no difference in this version,
-- such as a forgotten factor of 1, is none.
local function slip(k, mistake, numbers, p, right)
  local s, values = kind.work(k, numbers, p, mistake.with), {}
  for _, symbol in ipairs(mistake.of) do
    local x = s[symbol]
    if finite(x) and not version.near(x, right[symbol], 1e-9) then values[symbol] = x end
  end
  return values
end

--- The version with base values p.
function version.new(k, p)
  local rows, numbers = given_of(k, p)
  local s = kind.work(k, numbers, p)
  local slips = {}
  for i, mistake in ipairs(k.mistakes) do
    slips[i] = slip(k, mistake, numbers, p, s)
  end
  return {kind = k, p = p, rows = rows, given = numbers, s = s, slips = slips}
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

-- A mistake that comes near the right number would be marked as right.
local function telling(v)
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
