-- SPDX-License-Identifier: MIT
-- What a sweep is summed up in, in a room that does not grow with it: points are worked
-- piece by piece, and only sums, counts and the best so far are kept. Quantiles are
-- exact: numbers are counted by their leading bits, and the points are worked again until
-- those in question are few enough to be sorted.
local core = require "netsection.core"

local stream = {}

-- Leading bits that are counted at first, and those added by each further pass.
local FIRST_BITS, MORE_BITS, ALL_BITS = 18, 16, 64
-- Numbers that are sorted at a time: 4 MB.
local FEW = 1 << 19

-------------------------------------------- what is kept as pieces of a column go by

--- The further of the best so far and of a piece: {value =, point = from 0}, or nil.
-- @param sign 1: the largest; -1: the least
function stream.further(best, sign, first, count, column)
  local at = core.extreme(column, sign)
  -- A column may be longer than its points.
  if at and at <= count and (not best or sign * column[at] > sign * best.value) then
    return {value = column[at], point = first + at - 1}
  end
  return best
end

-- The first number of a column.
local function first_of(column, count)
  for i = 1, count do
    if column[i] then return column[i] end
  end
end

--- Sums of no numbers yet; they are taken off the first number.
function stream.no_sums()
  return {count = 0, sum = 0.0, square = 0.0}
end

function stream.add_sums(m, count, column)
  m.near = m.near or first_of(column, count)
  if m.near then
    m.count, m.sum, m.square = core.moments(column, count, m.near, m.count, m.sum,
      m.square)
  end
end

--- Mean of one number or more, and the sum of the squares of what lies off it.
function stream.mean_of(m)
  return m.near + m.sum / m.count, math.max(m.square - m.sum * m.sum / m.count, 0)
end

--- Bins of one width from low to high, with nothing in them.
function stream.no_counts(low, high, bins)
  local counts = core.numbers(bins)
  core.fill(counts, 0, bins, 0)
  return {low = low, high = high, under = 0, over = 0, counts = counts}
end

function stream.add_counts(h, count, column)
  local under, over = core.bins(column, count, h.low, h.high, h.counts)
  h.under, h.over = h.under + under, h.over + over
end

--- The counts of bins as a list of whole numbers.
function stream.list_of(h)
  local list = {}
  for k = 1, #h.counts do list[k] = math.tointeger(h.counts[k]) end
  return list
end

--- Adds to {word = how many} those of a column of codes.
function stream.add_words(by_word, words, count, column)
  for code, word in ipairs(words) do
    local n = core.count(column, 0, count, code - 1)
    if n > 0 then by_word[word] = (by_word[word] or 0) + n end
  end
end

------------------------------------------------------------- of all points at once

--- Largest (sign 1) or least number and its place, from 0; nil where there is none.
-- @param each function that calls its argument with (first, count, column) for all points
function stream.extreme(each, sign)
  local best
  each(function(first, count, column)
    best = stream.further(best, sign, first, count, column)
  end)
  if best then return best.value, best.point end
end

--- Number of values, mean, standard deviation.
function stream.moments(each)
  local m = stream.no_sums()
  each(function(_, count, column) stream.add_sums(m, count, column) end)
  if m.count == 0 then return 0 end
  local mean, spread = stream.mean_of(m)
  return m.count, mean, m.count > 1 and math.sqrt(spread / (m.count - 1)) or nil
end

--- Counts in bins of one width from low to high, and those below and above.
function stream.histogram(each, low, high, bins)
  local h = stream.no_counts(low, high, bins)
  each(function(_, count, column) stream.add_counts(h, count, column) end)
  local out = stream.list_of(h)
  out.low, out.high, out.under, out.over = low, high, h.under, h.over
  return out
end

local function zeros(n)
  local column = core.numbers(n)
  core.fill(column, 0, n, 0)
  return column
end

-- Groups of the targets that are not known yet, each once.
local function groups_of(targets)
  local list, by_prefix, all = {}, {}, 0
  for _, t in ipairs(targets) do
    if not by_prefix[t.prefix] then
      by_prefix[t.prefix] = {prefix = t.prefix, bits = t.bits, count = t.count}
      list[#list + 1] = by_prefix[t.prefix]
      all = all + t.count
    end
    t.group = by_prefix[t.prefix]
  end
  return list, all
end

local function sort_out(each, targets, groups)
  for _, g in ipairs(groups) do g.column, g.filled = core.numbers(g.count), 0 end
  each(function(_, count, column)
    for _, g in ipairs(groups) do
      g.filled = core.picked(column, count, g.prefix, g.bits, g.column, g.filled)
    end
  end)
  for _, g in ipairs(groups) do core.sort(g.column) end
  for _, t in ipairs(targets) do t.value = t.group.column[t.rank + 1] end
end

local function refine(each, targets, groups)
  for _, g in ipairs(groups) do
    g.more = math.min(MORE_BITS, ALL_BITS - g.bits)
    g.counts = zeros(1 << g.more)
  end
  each(function(_, count, column)
    for _, g in ipairs(groups) do
      core.tally(column, count, g.prefix, g.bits, g.more, g.counts)
    end
  end)
  for _, t in ipairs(targets) do
    local g = t.group
    local k, n, rank = core.group(g.counts, t.rank)
    t.prefix, t.bits, t.count, t.rank = g.prefix << g.more | k, g.bits + g.more, n, rank
  end
end

-- Numbers of certain ranks, from 0: exact, in as many passes as it takes.
local function ranked(each, counts, ranks, few)
  local targets = {}
  for i, rank in ipairs(ranks) do
    local k, n, within = core.group(counts, rank)
    targets[i] = {prefix = k, bits = FIRST_BITS, count = n, rank = within}
  end
  local values = {}
  while true do
    local groups, all = groups_of(targets)
    if all <= few then
      sort_out(each, targets, groups)
      for i, t in ipairs(targets) do values[i] = t.value end
      return values
    elseif targets[1].bits == ALL_BITS then
      for i, t in ipairs(targets) do values[i] = core.key_number(t.prefix) end
      return values
    end
    refine(each, targets, groups)
  end
end

--- Quantiles of a list of parts p, from 0 to 1: between the two numbers that p falls
-- between, in proportion. @return list, and how many numbers there are
function stream.quantiles(each, parts, few)
  local counts, n = zeros(1 << FIRST_BITS), 0
  each(function(_, count, column)
    core.tally(column, count, 0, 0, FIRST_BITS, counts)
    n = n + count - core.count(column, 0, count)
  end)
  if n == 0 then return {}, 0 end
  local ranks = {}
  for i, p in ipairs(parts) do
    local place = math.floor(p * (n - 1))
    ranks[2 * i - 1], ranks[2 * i] = place, math.min(place + 1, n - 1)
  end
  local values, out = ranked(each, counts, ranks, few or FEW), {}
  for i, p in ipairs(parts) do
    local low, high = values[2 * i - 1], values[2 * i]
    out[i] = low + (p * (n - 1) - ranks[2 * i - 1]) * (high - low)
  end
  return out, n
end

return stream
