-- SPDX-License-Identifier: MIT
-- Intervals of 95 %. A number that several independent samples gave is their mean, to
-- within t s / sqrt(R) (Student); a share that was met seldom, or in one sample only, has
-- the exact interval of Clopper and Pearson; one never met has 3 / N as its upper end,
-- one-sided.
local core = require "netsection.core"

local interval = {}

-- Student's t, 97.5 %, by degrees of freedom, as printed in tables of statistics.
local T = {12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201,
  2.179, 2.160, 2.145, 2.131, 2.120, 2.110, 2.101, 2.093, 2.086, 2.080, 2.074, 2.069,
  2.064, 2.060, 2.056, 2.052, 2.048, 2.045, 2.042, 2.040}

-- Most samples that a number may rest on.
interval.most = #T + 1

-- Hits, or misses, below which t is not trusted: the samples' spread is not normal then.
local FEW = 20

-- Mean of several numbers and its interval.
-- @param list two numbers or more @return mean, low, high
function interval.mean(list)
  local n, sum = #list, 0
  for _, x in ipairs(list) do sum = sum + x end
  local mean, square = sum / n, 0
  for _, x in ipairs(list) do square = square + (x - mean) ^ 2 end
  local half = T[n - 1] * math.sqrt(square / (n - 1) / n)
  return mean, mean - half, mean + half
end

-- ln of the gamma function by Stirling's series, from x = 16 on.
local function log_gamma(x)
  local shift = 0
  while x < 16 do
    shift = shift - core.log(x)
    x = x + 1
  end
  local y = 1 / (x * x)
  return shift + (x - 0.5) * core.log(x) - x + 0.91893853320467274
    + (1 / 12 - (1 / 360 - (1 / 1260 - y / 1680) * y) * y) / x
end

-- P(X = k) of a binomial.
local function binomial(k, n, p)
  return core.exp(log_gamma(n + 1) - log_gamma(k + 1) - log_gamma(n - k + 1)
    + k * core.log(p) + (n - k) * core.log(1 - p))
end

-- P(X <= k), summed from k down, and P(X >= k), summed up, until nothing more is added.
local function at_most(k, n, p)
  local term = binomial(k, n, p)
  local sum = 0
  for j = k, 0, -1 do
    if sum + term == sum then break end
    sum = sum + term
    term = term * (j / (n - j + 1)) * ((1 - p) / p)
  end
  return sum
end

local function at_least(k, n, p)
  return at_most(n - k, n, 1 - p)
end

-- p at which f, which rises with p, is 2.5 %.
local function halve(f, low, high)
  for _ = 1, 60 do
    local p = (low + high) / 2
    if p <= low or p >= high then break end
    if f(p) < 0.025 then low = p else high = p end
  end
  return (low + high) / 2
end

-- Clopper and Pearson's interval of k hits in n draws, 0 < k < n.
function interval.exact(k, n)
  local low = halve(function(p) return at_least(k, n, p) end, 0, k / n)
  local high = 1 - halve(function(q) return at_most(k, n, 1 - q) end, 0, 1 - k / n)
  return low, high
end

-- A share of draws. @param hits list: hits of each sample @param each draws of one
-- @return {value =, low =, high =, hits =, draws =}
function interval.share(hits, each)
  local all, n = 0, #hits * each
  for _, h in ipairs(hits) do all = all + h end
  local out = {value = all / n, hits = all, draws = n}
  if all == 0 then
    out.low, out.high = 0, math.min(3 / n, 1)
  elseif all == n then
    out.low, out.high = math.max(1 - 3 / n, 0), 1
  elseif #hits < 2 or all < FEW or n - all < FEW then
    out.low, out.high = interval.exact(all, n)
  else
    local parts = {}
    for i, h in ipairs(hits) do parts[i] = h / each end
    local _, low, high = interval.mean(parts)
    out.low, out.high = math.max(low, 0), math.min(high, 1)
  end
  return out
end

return interval
