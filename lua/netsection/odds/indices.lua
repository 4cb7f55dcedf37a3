-- SPDX-License-Identifier: MIT
-- Which input the spread comes from. First-order index: the part of the variance of the
-- ratio that goes when the input alone is known; total index: the part that stays while
-- it alone is not. Two samples A and B and, for each input, A with that input's column
-- from B (Saltelli and others 2010). Both indices take mean and variance from the two
-- lists they compare (Janon, Klein, Lagnoux, Nodet, Prieur 2014). A and B share nothing;
-- by how much they go together by chance is taken off, as far as it is in both, so an
-- input that matters much and one that matters little are both told well.
local core = require "netsection.core"
local interval = require "netsection.odds.interval"

local indices = {}

local REPLICATES = 16

local function drawn(o, variable, n, first)
  local to, laws = {}, {}
  for k, input in ipairs(o.inputs) do
    to[k], laws[k] = core.numbers(n * REPLICATES), input.law
  end
  core.draw {how = o.method, seed = o.seed, each = n, replicates = REPLICATES,
    first = first, variable = variable, laws = laws, to = to, threads = o.threads}
  return to
end

-- Plain list of a column; nil where a draw has no ratio.
local function listed(column, n)
  local list = {}
  for i = 1, n do
    list[i] = column[i]
    if not list[i] then return nil end
  end
  return list
end

-- Sums over a replicate of two lists from a to b, off a number near their mean.
local function sums_of(f, g, a, b, near)
  local sum, square, apart = 0, 0, 0
  for i = a, b do
    local x, y = f[i] - near, g[i] - near
    sum = sum + (x + y)
    square = square + (x * x + y * y)
    apart = apart + (x - y) * (x - y)
  end
  return {sum = sum, square = square, apart = apart}
end

-- The part of the variance of two lists together that what they do not share makes,
-- mean of (f - g)^2 / 2 over the variance, by the sums of all replicates but one (0: of
-- all); nil where nothing varies.
local function part_of(list, n, without)
  local sum, square, apart, count = 0, 0, 0, 0
  for r, s in ipairs(list) do
    if r ~= without then
      sum, square, apart = sum + s.sum, square + s.square, apart + s.apart
      count = count + 2 * n
    end
  end
  local V = square / count - (sum / count) ^ 2
  if V <= 0 then return nil end
  return apart / count / V
end

-- B and AB share the input alone; A and AB share all but the input. AB is B to the part S
-- and A to the rest, so chance is in S by (1 - S) c and in S_T by S_T c.
local function first_and_total(sums, n, without)
  local others = part_of(sums.B_AB, n, without)
  local own = part_of(sums.A_AB, n, without)
  local both = part_of(sums.A_B, n, without)
  if not (others and own and both) then return nil end
  local c = 1 - both
  return 1 - others - others * c, own + own * c
end

local function within(x)
  return math.max(0, math.min(1, x))
end

-- Value and interval by the jackknife: each replicate is left out in turn.
local function with_interval(all, without)
  local list = {}
  for r, x in ipairs(without) do list[r] = #without * all - (#without - 1) * x end
  local value, low, high = interval.mean(list)
  return {value = within(value), low = within(low), high = within(high)}
end

local function sums_by_replicate(f, g, n, near)
  local list = {}
  for r = 1, REPLICATES do
    list[r] = sums_of(f, g, (r - 1) * n + 1, r * n, near)
  end
  return list
end

-- First-order and total index of one input; nil where nothing varies.
local function over_replicates(fa, fb, fab, n, A_B)
  local near = fa[1]
  local sums = {A_B = A_B, B_AB = sums_by_replicate(fb, fab, n, near),
    A_AB = sums_by_replicate(fa, fab, n, near)}
  local first, total = first_and_total(sums, n, 0)
  if not first then return nil end
  local firsts, totals = {}, {}
  for r = 1, REPLICATES do
    firsts[r], totals[r] = first_and_total(sums, n, r)
    if not firsts[r] then return nil end
  end
  return with_interval(first, firsts), with_interval(total, totals)
end

-- 1 where the action is the printed one, else 0.
local function is_printed(actions, code)
  local list = {}
  for i, a in ipairs(actions) do list[i] = a == code and 1 or 0 end
  return list
end

-- Total index of the action; nil where it never changes.
local function of_action(ga, gab, n)
  return part_of(sums_by_replicate(ga, gab, n, 0), n, 0)
end

-- @param o {model =, inputs =, method =, seed =, threads =, replicates =}
-- @param n draws of a replicate
-- @return {first = {[name] = interval}, total =, turns = {{name =, total =}, ...} the
--   most first, reason = why there is none of the ratio}
function indices.of(o, n, printed)
  local size, k = n * REPLICATES, #o.inputs
  local A = drawn(o, 0, n, o.replicates)
  local B = drawn(o, k, n, o.replicates)
  local at_A, at_B = o.model:work(A, size), o.model:work(B, size)
  local out = {first = {}, total = {}, turns = {}, draws = size}
  local fa, fb = listed(at_A.ratio, size), listed(at_B.ratio, size)
  local ga = is_printed(at_A.action, printed)
  local A_B = fa and fb and sums_by_replicate(fa, fb, n, fa[1])
  for i, input in ipairs(o.inputs) do
    local mixed = table.move(A, 1, k, 1, {})
    mixed[i] = B[i]
    local at = o.model:work(mixed, size)
    local fab = fa and fb and listed(at.ratio, size)
    if fab then
      out.first[input.name], out.total[input.name] = over_replicates(fa, fb, fab, n,
        A_B)
    else
      fa = nil
    end
    local total = of_action(ga, is_printed(at.action, printed), n)
    if total and total > 0 then
      out.turns[#out.turns + 1] = {name = input.name, total = total, order = i}
    end
  end
  if not fa then
    out.first, out.total = {}, {}
    out.reason = "some draws have no ratio, so its variance is not defined"
  elseif next(out.first) == nil then
    out.reason = "the ratio does not vary"
  end
  table.sort(out.turns, function(a, b)
    if a.total ~= b.total then return a.total > b.total end
    return a.order < b.order
  end)
  for _, t in ipairs(out.turns) do t.order = nil end
  return out
end

return indices
