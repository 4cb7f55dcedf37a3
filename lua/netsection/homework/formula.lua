-- SPDX-License-Identifier: MIT
-- Formulas as they are printed in a key, worked out: + - * / ^, numbers, symbols
-- (letters, digits, _, a closing prime), parentheses, and min, max, abs, sqrt, cbrt,
-- ceil, floor. The text that a student reads is the arithmetic that is done, so the two
-- cannot part.
--
-- A power is a whole number and is multiplied out, a cube root is sought by Newton's
-- rule: unlike a C library's pow, both give the same last bit on every machine.
local lpeg = require "lpeg"
local error = require "netsection.raise".error

local formula = {}

-- Not under the next whole number for the last bits of a quotient: 6.0000000001 screws
-- are 6.
local SLACK = 1e-9

local function power(x, n)
  local result = 1.0
  for _ = 1, math.abs(n) do result = result * x end
  return n < 0 and 1 / result or result
end

-- The start is 1 or above the root, from where the steps go down to it; at most some
-- hundred, for the largest double.
local function cbrt(x)
  if x < 0 then return -cbrt(-x) end
  local y = x > 1 and x or 1.0
  if x == 0 then return 0.0 end
  for _ = 1, 2000 do
    local better = (2 * y + x / (y * y)) / 3
    if better >= y then break end
    y = better
  end
  return y
end

formula.cbrt = cbrt

local FUNCTIONS = {
  min = function(a, b) return b < a and b or a end,
  max = function(a, b) return b > a and b or a end,
  abs = function(a) return a < 0 and -a or a end,
  sqrt = math.sqrt,
  cbrt = cbrt,
  ceil = function(a) return math.ceil(a - SLACK * math.max(1, math.abs(a))) + 0.0 end,
  floor = function(a) return math.floor(a + SLACK * math.max(1, math.abs(a))) + 0.0 end,
}

---------------------------------------------------------------------------- reading

-- Each part of the grammar becomes a function of the table of values.
local OPERATION = {
  ["+"] = function(a, b) return function(s) return a(s) + b(s) end end,
  ["-"] = function(a, b) return function(s) return a(s) - b(s) end end,
  ["*"] = function(a, b) return function(s) return a(s) * b(s) end end,
  ["/"] = function(a, b) return function(s) return a(s) / b(s) end end,
}

local function from_left(first, ...)
  local rest, made = {...}, first
  for i = 1, #rest, 2 do made = OPERATION[rest[i]](made, rest[i + 1]) end
  return made
end

local function constant(text)
  local value = tonumber(text) + 0.0
  return function() return value end
end

local function symbol(name)
  return function(s)
    return s[name] or error(("no value of %s"):format(name), 0)
  end
end

local function raised(base, exponent)
  if not exponent then return base end
  local n = math.tointeger(tonumber(exponent))
  return function(s) return power(base(s), n) end
end

local function negative(a)
  return function(s) return -a(s) end
end

local function call(name, a, b)
  local f = FUNCTIONS[name]
  if b then return function(s) return f(a(s), b(s)) end end
  return function(s) return f(a(s)) end
end

local C, P, R, S, V = lpeg.C, lpeg.P, lpeg.R, lpeg.S, lpeg.V
local blank = S" "^0
local digit = R"09"
local letter = R("az", "AZ") + "_"

local function operator(set) return C(S(set)) * blank end

local function named(list)
  local choice = P(false)
  for _, name in ipairs(list) do choice = choice + name end
  return C(choice) * P"(" * blank
end

local grammar = blank * P {
  "sum",
  sum = V"product" * (operator "+-" * V"product")^0 / from_left,
  product = V"signed" * (operator "*/" * V"signed")^0 / from_left,
  signed = P"-" * blank * V"signed" / negative + V"power",
  power = V"atom" * (P"^" * blank * C(P"-"^-1 * digit^1) * blank)^-1 / raised,
  atom = C(digit^1 * (P"." * digit^1)^-1) * blank / constant + V"call"
    + C(letter * (letter + digit)^0 * P"'"^-1) * blank / symbol
    + P"(" * blank * V"sum" * P")" * blank,
  call = named {"min", "max"} * V"sum" * P"," * blank * V"sum" * P")" * blank / call
    + named {"abs", "sqrt", "cbrt", "ceil", "floor"} * V"sum" * P")" * blank / call,
} * -1

local read = {}

--- The function of a table of values that a text stands for; each text is read once.
-- @return function; or nil where it is no formula
function formula.of(text)
  if not read[text] then read[text] = grammar:match(text) end
  return read[text]
end

--- Symbols of a formula, each once, in order.
function formula.symbols(text)
  local list, seen = {}, {}
  for name in text:gmatch "[%a_][%w_]*'?" do
    if not FUNCTIONS[name] and not seen[name] then
      list[#list + 1], seen[name] = name, true
    end
  end
  return list
end

--- Whether a formula chooses or rounds, so that what it comes to may not depend on all of
-- its symbols.
function formula.chooses(text)
  return text:find "%f[%a]m[ai][xn]%(" ~= nil or formula.rounds(text)
end

--- Whether a formula ends in rounding to a whole number.
function formula.rounds(text)
  return text:find "%f[%a]ceil%(" ~= nil or text:find "%f[%a]floor%(" ~= nil
end

--- The text with numbers in place of its symbols.
-- @param show function of symbol and value that gives the text of the number
function formula.with_numbers(text, values, show)
  return (text:gsub("[%a_][%w_]*'?", function(name)
    if FUNCTIONS[name] then return name end
    local v = values[name]
    return v and show(name, v) or name
  end))
end

return formula
