-- SPDX-License-Identifier: MIT
-- The steps of a calculation are a second statement of what the core computes. Here the
-- text of every formula is read and worked out again from its inputs, as an official with
-- a pocket calculator would, until each branch of each mode has come up often enough.
local lpeg = require "lpeg"
local lu = require "luaunit"
local ns = require "netsection"
local random_joist = require "tests.random_joist"
local steps = require "netsection.steps"
local support = require "tests.support"

local close = support.close
local T = {}

local REL = 1e-12
local OFTEN = 20     -- times each branch has to come up
local JOISTS = 6000  -- worked at least

-- Modes with a capacity: their last line is the ratio.
local RATIO_MODES = {"bending", "shear", "bearing", "deflection-live", "deflection-total",
  "net-bending", "net-shear", "notch-shear", "opening-frame", "lip-tension",
  "wood-compression"}
local OTHER_MODES = {"uplift", "stability"}

-------------------------------------------------------------------------------- formulas

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
    atom = number + symbol + P"(" * blank * V"sum" * P")" * blank,
  } * -1
end

local formula = grammar()
local trees = {}

local function parse(text)
  trees[text] = trees[text] or formula:match(text)
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

local function evaluate(text, inputs)
  return worked(parse(text), inputs)
end

function T.test_the_reader_of_formulas()
  local x = {a = 2, b = 3, ["F_b'"] = 7, S = 5}
  for text, value in pairs {["a^b^a"] = 512, ["-a^2"] = -4, ["a - b - 1"] = -2,
    ["12/a/b"] = 2, ["2*-b"] = -6, ["a^-1"] = 0.5, ["(a + b)*S"] = 25,
    ["M"] = false, ["F_b'*S - 0.5"] = 34.5, ["a + "] = false, ["2 b"] = false,
    ["(a"] = false, [""] = false, ["a''"] = false} do
    local ok, got = pcall(evaluate, text, x)
    lu.assertEquals(ok and got, value, text)
  end
end

---------------------------------------------------------------------------- one check

-- The printed ratio stops at 999: there is no capacity, or next to none.
local FULL_SCALE = 999

local function close_to_formula(step, what)
  local got = evaluate(step.formula, step.inputs)
  if step.symbol == "ratio" and step.value == FULL_SCALE then
    lu.assertTrue(got >= FULL_SCALE * (1 - REL), what .. ": a ratio of 999 that is not")
  else
    close(got, step.value, REL, what)
  end
end

-- A name stands for one number all through the sheet.
local function same_name_same_number(step, stated, what)
  for name, value in pairs(step.inputs) do
    if stated[name] then lu.assertEquals(value, stated[name], what .. ", input " .. name) end
  end
end

local function check_steps(k, where)
  local stated, last = {}, nil
  for i, step in ipairs(k.steps) do
    local what = ("%s, %s branch, step %d: %s = %s"):format(where, k.mode, i, step.symbol,
      step.formula or "given")
    if step.formula then
      same_name_same_number(step, stated, what)
      if not (step.value == 0 and evaluate(step.formula, step.inputs) == 0) then
        close_to_formula(step, what)
      end
    end
    stated[step.symbol] = step.value
    last = step
  end
  return last
end

local function ends_in_ratio(k, last, where)
  for _, mode in ipairs(OTHER_MODES) do
    if k.mode == mode then return end
  end
  lu.assertEquals(last and last.symbol, "ratio", where .. ", " .. k.mode)
  lu.assertEquals(last.value, k.ratio, where .. ", " .. k.mode)
end

----------------------------------------------------------------------------- all of them

-- How often each branch of each mode came up.
local function new_tally()
  local tally = {}
  for _, list in ipairs {RATIO_MODES, OTHER_MODES} do
    for _, mode in ipairs(list) do
      tally[mode] = {}
      for branch = 1, steps.branches(mode) do tally[mode][branch] = 0 end
      lu.assertTrue(#tally[mode] > 0, "no steps for " .. mode)
    end
  end
  return tally
end

local function rare_branches(tally)
  local list = {}
  for mode, branches in pairs(tally) do
    for branch, count in ipairs(branches) do
      if count < OFTEN then
        list[#list + 1] = ("%s branch %d: %d times"):format(mode, branch, count)
      end
    end
  end
  table.sort(list)
  return list
end

local function work_joist(t, where, tally)
  local r = ns.joist(t):review()
  for _, state in ipairs {"uncut", "cut"} do
    for _, k in ipairs(r[state].checks) do
      local counts = tally[k.mode]
      lu.assertNotNil(counts and counts[k.branch],
        ("%s: %s has no branch %s"):format(where, k.mode, k.branch))
      counts[k.branch] = counts[k.branch] + 1
      ends_in_ratio(k, check_steps(k, where), where)
    end
  end
end

-- A joist that hogs: its overhangs carry more than its span.
local function hogging(r)
  local t = random_joist.of(r, {spans = 1, overhangs = false, cuts = 3,
    kinds = {"hole", "slot", "notch", "loss"}})
  t.spans = {r:real(48, 96)}
  t.bearing, t.blocking, t.loads = 3.5, nil, nil
  t.overhang_left, t.overhang_right = r:real(40, 80), r:real(40, 80)
  for _, cut in ipairs(t.cuts or {}) do
    local at = r:real(2, 30)
    cut.from_right, cut.from, cut.to = nil, cut.from and at, cut.to and at + r:real(4, 16)
    cut.at = cut.at and at + 8
  end
  t.cuts = {t.cuts and t.cuts[1]}
  return t
end

-- Notches at the ends and inside: short and long, in either face, sloped.
local function notched(r)
  local t = random_joist.of(r, {spans = 1, overhangs = false, cuts = 2,
    kinds = {"end_notch", "notch"}})
  for _, cut in ipairs(t.cuts or {}) do
    cut.taper = r:unit() < 0.4 and r:real(10, 20) or nil
    if cut.kind == "end_notch" and r:unit() < 0.5 then cut.face = "top" end
  end
  return t
end

local function without_deck(r)
  local t = random_joist.of(r)
  t.sheathed = false
  if r:unit() < 0.5 then t.blocking = nil end
  return t
end

local SOURCES = {random_joist.of, random_joist.of, random_joist.of, hogging, notched,
  without_deck}

function T.test_formulas_give_the_numbers()
  local r, tally = support.random(20260101), new_tally()
  for i = 1, 3 * JOISTS do
    work_joist(SOURCES[i % #SOURCES + 1](r), "joist " .. i, tally)
    if i >= JOISTS and #rare_branches(tally) == 0 then break end
  end
  lu.assertEquals(rare_branches(tally), {})
end

return T
