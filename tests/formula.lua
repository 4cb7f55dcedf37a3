-- SPDX-License-Identifier: MIT
-- Works out the text of a step's formula from its inputs: + - * / ^, numbers, symbols
-- (letters, digits, _, a closing prime) and parentheses.
local lpeg = require "lpeg"

local formula = {}

local OPERATION = {
  ["+"] = function(a, b) return a + b end,
  ["-"] = function(a, b) return a - b end,
  ["*"] = function(a, b) return a * b end,
  ["/"] = function(a, b) return a / b end,
  ["^"] = function(a, b) return a ^ b end,
}

-- a - b - c, given as a, "-", b, "-", c.
local function from_left(first, ...)
  local rest, tree = {...}, first
  for i = 1, #rest, 2 do
    tree = {operation = OPERATION[rest[i]], tree, rest[i + 1]}
  end
  return tree
end

local function power(base, exponent)
  return exponent and {operation = OPERATION["^"], base, exponent} or base
end

local function negative(operand)
  return {operation = OPERATION["-"], {value = 0}, operand}
end

local function called(name, a, b)
  return {operation = name == "min" and math.min or math.max, a, b}
end

local function root(a)
  return {operation = function(x) return math.sqrt(x) end, a, {value = 0}}
end

-- ^ binds tighter than the sign before it, and from the right: -a^b^c is -(a^(b^c)).
local function grammar()
  local C, P, R, S, V = lpeg.C, lpeg.P, lpeg.R, lpeg.S, lpeg.V
  local blank = S" "^0
  local digit = R"09"
  local number = C(digit^1 * (P"." * digit^1)^-1) * blank
    / function(text) return {value = tonumber(text)} end
  local letter = R("az", "AZ") + "_"
  local symbol = C(letter * (letter + digit)^0 * P"'"^-1) * blank
    / function(name) return {name = name} end
  local function operator(set) return C(S(set)) * blank end
  return blank * P {
    "sum",
    sum = V"product" * (operator "+-" * V"product")^0 / from_left,
    product = V"signed" * (operator "*/" * V"signed")^0 / from_left,
    signed = P"-" * blank * V"signed" / negative + V"power",
    power = V"atom" * (P"^" * blank * V"signed")^-1 / power,
    atom = number + V"call" + symbol + P"(" * blank * V"sum" * P")" * blank,
    call = C(P"min" + "max") * "(" * blank * V"sum" * "," * blank * V"sum" * ")" * blank
      / called + P"sqrt" * blank * "(" * blank * V"sum" * ")" * blank / root,
  } * -1
end

local reader, trees = grammar(), {}

-- Each text is read once.
local function parse(text)
  trees[text] = trees[text] or reader:match(text)
    or error(("not a formula: %q"):format(text), 0)
  return trees[text]
end

local function worked(tree, inputs)
  if tree.value then return tree.value end
  if tree.name then
    return inputs[tree.name] or error("no value of " .. tree.name, 0)
  end
  return tree.operation(worked(tree[1], inputs), worked(tree[2], inputs))
end

-- The value of the text; raises where it is no formula or a symbol has no value.
function formula.value(text, inputs)
  return worked(parse(text), inputs)
end

-- What is wrong with a list of steps, or nil: a formula that does not give its value, a
-- name that stands for two numbers, a given without a value.
function formula.wrong(steps, rel)
  local stated = {}
  for _, step in ipairs(steps) do
    local value = step.value
    if type(value) ~= "number" or value ~= value or math.abs(value) == math.huge then
      return ("%s has no value"):format(step.symbol)
    end
    for name, input in pairs(step.inputs or {}) do
      if stated[name] and stated[name] ~= input then
        return ("%s: input %s is %.17g, above it is %.17g"):format(step.symbol, name,
          input, stated[name])
      end
    end
    local got = step.formula and formula.value(step.formula, step.inputs) or value
    if got ~= got or math.abs(got - value) > rel * math.abs(value) then
      return ("%s = %s gives %.17g, the core %.17g"):format(step.symbol, step.formula,
        got, value)
    end
    stated[step.symbol] = value
  end
end

return formula
