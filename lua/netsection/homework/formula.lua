-- SPDX-License-Identifier: MIT
-- Formulas as they are printed in a key, worked out: + - * / ^, numbers, symbols
-- (letters, digits, _, a closing prime), parentheses, and min, max, abs, sqrt, cbrt,
-- ceil, floor. The text that a student reads is the arithmetic that is done, so the two
-- cannot part.
--
-- A power is a whole number and is multiplied out, a cube root is sought by Newton's
-- rule: unlike a C library's pow, both give the same last bit on every machine.
local lpeg = require "lpeg"
local point = require "netsection.point"
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

-- Each part of the grammar becomes Lua of the same meaning, which is compiled: a set for
-- a large course works some million formulas out. Symbols are read once, at its head.
local function from_left(first, ...)
  local rest, made = {...}, first
  for i = 1, #rest, 2 do made = ("(%s %s %s)"):format(made, rest[i], rest[i + 1]) end
  return made
end

local function constant(text)
  return point.format("%a", tonumber(text))
end

-- As a name of Lua: a closing prime as a word that no symbol has in it.
local function local_name(name)
  return "v_" .. name:gsub("'", "__prime")
end

local function raised(base, exponent)
  if not exponent then return base end
  return ("power(%s, %d)"):format(base, math.tointeger(tonumber(exponent)))
end

local function negative(a) return ("(-%s)"):format(a) end

local function call(name, a, b)
  return b and ("%s(%s, %s)"):format(name, a, b) or ("%s(%s)"):format(name, a)
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
    + C(letter * (letter + digit)^0 * P"'"^-1) * blank / local_name
    + P"(" * blank * V"sum" * P")" * blank,
  call = named {"min", "max"} * V"sum" * P"," * blank * V"sum" * P")" * blank / call
    + named {"abs", "sqrt", "cbrt", "ceil", "floor"} * V"sum" * P")" * blank / call,
} * -1

local read, symbols_of = {}, {}

--- Symbols of a formula, each once, in order.
function formula.symbols(text)
  local known = symbols_of[text]
  if known then return known end
  local list, seen = {}, {}
  for name in text:gmatch "[%a_][%w_]*'?" do
    if not FUNCTIONS[name] and not seen[name] then
      list[#list + 1], seen[name] = name, true
    end
  end
  symbols_of[text] = list
  return list
end

local function missing(name) error(("no value of %s"):format(name), 0) end

local function compiled(text, expression)
  local out = {"local f, power, missing = ...",
    "local min, max, abs, sqrt, cbrt, ceil, floor = f.min, f.max, f.abs, f.sqrt, f.cbrt, "
      .. "f.ceil, f.floor", "return function(s)"}
  for _, name in ipairs(formula.symbols(text)) do
    out[#out + 1] = ("local %s = s[%q] or missing %q"):format(local_name(name), name,
      name)
  end
  out[#out + 1] = ("return %s end"):format(expression)
  return assert(load(table.concat(out, "\n"), "=formula", "t", {}))(FUNCTIONS, power,
    missing)
end

--- The function of a table of values that a text stands for; each text is read once.
-- @return function; or nil where it is no formula
function formula.of(text)
  if read[text] == nil then
    local expression = grammar:match(text)
    read[text] = expression and compiled(text, expression) or false
  end
  return read[text] or nil
end

-- What leaves a symbol out where it stands: 1 as a factor, 0 as a term.
local function neutral(before, after)
  after = after:gsub("^%s*%^%s*%-?%d+", "")
  return (before:find "[*/]%s*$" or after:find "^%s*[*/]") and "1" or "0"
end

local leaving = {}

--- The formula with one of its symbols left out, for each: {{symbol, function}, ...};
-- once as a factor or term that is not written, once as nothing. None where it chooses or
-- rounds: what it comes to may not depend on all of them.
function formula.without(text)
  if leaving[text] then return leaving[text] end
  local list = {}
  for _, name in ipairs(formula.chooses(text) and {} or formula.symbols(text)) do
    local left = text:gsub("()([%a_][%w_]*'?)()", function(from, found, to)
      if found ~= name then return nil end
      return neutral(text:sub(1, from - 1), text:sub(to))
    end)
    list[#list + 1] = {name, formula.of(left)}
    list[#list + 1] = {name, formula.of((text:gsub("[%a_][%w_]*'?", {[name] = "0"})))}
  end
  leaving[text] = list
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
