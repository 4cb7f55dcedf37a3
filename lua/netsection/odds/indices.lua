-- SPDX-License-Identifier: MIT
-- Which input the spread comes from. First-order index: the part of the variance of the
-- ratio that goes when the input alone is known; total index: the part that stays while
-- it alone is not. Two samples A and B and, for each input, A with that input's column
-- from B (Saltelli and others 2010). Both indices take mean and variance from the two
-- lists they compare (Janon, Klein, Lagnoux, Nodet, Prieur 2014). A and B share nothing;
-- by how much they go together by chance is taken off, as far as it is in both, so an
-- input that matters much and one that matters little are both told well.
local core = require "netsection.core"
local inputs = require "netsection.odds.inputs"
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

-- Sums of two columns by replicate, off a number near their mean; nil where a draw has no
-- number.
local function sums_by_replicate(f, g, n, near)
  local list = {}
  for r = 1, REPLICATES do
    local sum, square, apart = core.pair_sums(f, g, (r - 1) * n, n, near)
    if not sum then return nil end
    list[r] = {sum = sum, square = square, apart = apart}
  end
  return list
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

-- First-order and total index of one input; nil where nothing varies.
local function over_replicates(sums, n)
  local first, total = first_and_total(sums, n, 0)
  if not first then return nil end
  local firsts, totals = {}, {}
  for r = 1, REPLICATES do
    firsts[r], totals[r] = first_and_total(sums, n, r)
    if not firsts[r] then return nil end
  end
  return with_interval(first, firsts), with_interval(total, totals)
end

local function by_total(a, b)
  if a.total ~= b.total then return a.total > b.total end
  return a.order < b.order
end

-- @param o {model =, inputs =, method =, seed =, threads =, replicates =}
-- @param n draws of a replicate; printed code of the printed action, nil: none
-- @return {first = {[name] = interval}, total =, turns = {{name =, total =}, ...} the
--   most first, reason = why there is none of the ratio}
function indices.of(o, n, printed)
  local size, k = n * REPLICATES, #o.inputs
  local A = drawn(o, 0, n, o.replicates)
  local B = drawn(o, k, n, o.replicates)
  local at_A, at_B = o.model:work(A, size), o.model:work(B, size)
  local fa, fb, near = at_A.ratio, at_B.ratio, at_A.ratio[1]
  local out = {first = {}, total = {}, turns = {}, draws = size}
  local A_B = near and sums_by_replicate(fa, fb, n, near)
  local ga = core.marked(at_A.action, printed)
  for i, group in ipairs(inputs.groups(o.inputs)) do -- inputs that go together: as one
    local mixed = table.move(A, 1, k, 1, {})
    for _, member in ipairs(group.members) do mixed[member] = B[member] end
    local at = o.model:work(mixed, size)
    local A_AB = A_B and sums_by_replicate(fa, at.ratio, n, near)
    if A_AB then
      out.first[group.name], out.total[group.name] = over_replicates({A_B = A_B,
        A_AB = A_AB, B_AB = sums_by_replicate(fb, at.ratio, n, near)}, n)
    else
      A_B = nil
    end
    local changed = sums_by_replicate(ga, core.marked(at.action, printed), n, 0)
    local total = part_of(changed, n, 0)
    if total and total > 0 then
      out.turns[#out.turns + 1] = {name = group.name, total = total, order = i}
    end
  end
  if not A_B then
    out.first, out.total = {}, {}
    out.reason = "some draws have no ratio, so its variance is not defined"
  elseif next(out.first) == nil then
    out.reason = "the ratio does not vary"
  end
  table.sort(out.turns, by_total)
  for _, t in ipairs(out.turns) do t.order = nil end
  return out
end

return indices
