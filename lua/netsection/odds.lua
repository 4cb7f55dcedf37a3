-- SPDX-License-Identifier: MIT
-- How sure a verdict is: what was measured or assumed is uncertain, and ratio and action
-- are worked out again for each of many draws. Counters give the draws, so the same
-- question gives the same bytes on any machine and any number of threads.
local called = require "netsection.odds.called"
local core = require "netsection.core"
local indices = require "netsection.odds.indices"
local inputs = require "netsection.odds.inputs"
local interval = require "netsection.odds.interval"
local parts = require "netsection.parts"
local review = require "netsection.review"
local said = require "netsection.odds.said"
local tornado = require "netsection.odds.tornado"

local odds = {}
local methods = {}

local FIELDS = {"model", "inputs", "draws", "seed", "replicates", "method", "threads",
  "indices"}
local METHODS = {plain = true, lhs = true, sobol = true}

local DRAWS, REPLICATES, INDEX_DRAWS = 65536, 16, 512
local MOST_DRAWS = 1 << 24

local function whole(value, low, high)
  return math.type(value) == "integer" and value >= low and value <= high
end

local function power_of_two(n)
  return n & (n - 1) == 0
end

-- Draws of one replicate; nil and what is wrong.
local function each_of(t, method)
  local draws, replicates = t.draws or DRAWS, t.replicates or REPLICATES
  if not whole(replicates, 1, interval.most) then
    return nil, ("replicates: 1 to %d expected"):format(interval.most)
  elseif method ~= "plain" and replicates < 2 then
    return nil, ("replicates: 2 or more expected: their spread is the interval of '%s'")
      :format(method)
  elseif not whole(draws, replicates, MOST_DRAWS) or draws % replicates ~= 0 then
    return nil, ("draws: a whole number to %d that %d replicates divide expected")
      :format(MOST_DRAWS, replicates)
  end
  local each = draws // replicates
  if method == "sobol" and not (power_of_two(each) and each <= 1 << 16) then
    return nil, ("draws: %d for each of %d replicates: a power of two to 65,536 expected")
      :format(each, replicates)
  end
  return each, replicates
end

local function index_draws(t)
  local n = t.indices
  if n == nil or n == true then return INDEX_DRAWS end
  if n == false then return false end
  if whole(n, 16, 1 << 16) and power_of_two(n) then return n end
  return nil, "indices: false, or a power of two from 16 to 65,536 expected"
end

-- @return what is asked, read; nil and what is wrong
local function read(t)
  local o = {method = t.method or "sobol", seed = t.seed == nil and 1 or t.seed,
    threads = t.threads or core.processors()}
  if not METHODS[o.method] then
    return nil, "method: 'plain', 'lhs' or 'sobol' expected"
  elseif math.type(o.seed) ~= "integer" then
    return nil, "seed: a whole number expected"
  elseif not whole(o.threads, 1, 64) then
    return nil, "threads: 1 to 64 expected"
  end
  local why
  o.each, o.replicates = each_of(t, o.method)
  if not o.each then return nil, o.replicates end
  o.index_draws, why = index_draws(t)
  if o.index_draws == nil then return nil, why end
  return o
end

local function drawn(o)
  local to, laws = {}, {}
  for k, input in ipairs(o.inputs) do
    to[k], laws[k] = core.numbers(o.each * o.replicates), input.law
  end
  core.draw {how = o.method, seed = o.seed, each = o.each, replicates = o.replicates,
    first = 0, variable = 0, laws = laws, to = to, threads = o.threads}
  return to
end

----------------------------------------------------------------------------- the answers

-- Hits of each replicate.
local function counted(o, is_hit)
  local hits = {}
  for r = 1, o.replicates do
    local n = 0
    for i = (r - 1) * o.each + 1, r * o.each do
      if is_hit(i) then n = n + 1 end
    end
    hits[r] = n
  end
  return interval.share(hits, o.each)
end

-- A quantile of one sample and its interval by order: the place of p in n numbers is
-- n p, to within 1.96 sqrt(n p (1 - p)).
local function quantile_of_one(ratios, n, p)
  local half = 1.96 * math.sqrt(p * (1 - p) / n)
  local low, value, high = core.quantiles(ratios, 0, n, {math.max(p - half, 0), p,
    math.min(p + half, 1)})
  return high and {value = value, low = low, high = high}
end

-- Ratios that 5, 50 and 95 % of the draws stay under; none where draws without a ratio
-- reach so far down.
local function quantiles_of(o, ratios)
  local out = {}
  for _, p in ipairs {5, 50, 95} do
    local list = {}
    for r = 1, o.replicates do
      list[r] = core.quantiles(ratios, (r - 1) * o.each, o.each, {p / 100})
    end
    if o.replicates == 1 then
      out[p] = quantile_of_one(ratios, o.each, p / 100)
    elseif #list == o.replicates then
      local value, low, high = interval.mean(list)
      out[p] = {value = value, low = low, high = high}
    end
  end
  return out
end

local function answers(o, worked)
  local ratios, actions = worked.ratio, worked.action
  local out = {actions = {}, quantiles = quantiles_of(o, ratios)}
  out.over = counted(o, function(i)
    local ratio = ratios[i]
    return not ratio or ratio > review.full
  end)
  local printed
  for code, word in ipairs(o.model.words) do
    if word == o.nominal.action then printed = code end
    local share = counted(o, function(i) return actions[i] == code end)
    if share.hits > 0 or code == printed then out.actions[word] = share end
  end
  out.changes = counted(o, function(i) return actions[i] ~= printed end)
  if worked.outside then
    out.outside = counted(o, function(i) return worked.outside[i] end)
  end
  return out, printed
end

local function refuse()
  error("an answer of ns.odds does not change: ask again", 2)
end

-- The answer: what was found over what was asked, which stays hidden.
local function answered(o)
  local found, printed = answers(o, o.model:work(drawn(o), o.each * o.replicates))
  for _, name in ipairs {"method", "seed", "each", "replicates", "nominal", "title"} do
    found[name] = o[name]
  end
  found.draws = o.each * o.replicates
  found.inputs = {}
  for k, input in ipairs(o.inputs) do
    found.inputs[k] = {name = input.name, says = inputs.says(input),
      source = input.source, label = input.label or input.name}
  end
  found.first, found.total, found.turns_on = {}, {}, {}
  if o.index_draws then
    local of = indices.of(o, o.index_draws, printed)
    found.first, found.total, found.turns_on = of.first, of.total, of.turns
    found.no_index = of.reason
  end
  for name, value in pairs(o.more or {}) do found[name] = value end
  return setmetatable({}, {__index = function(_, name)
    return methods[name] or found[name]
  end, __newindex = refuse, __name = "netsection.odds", asked = o, found = found,
    __pairs = function() return pairs(found) end,
    __tostring = function() return ("odds, %d draws"):format(found.draws) end})
end

local function meta_of(self, level)
  local meta = getmetatable(self)
  if type(meta) ~= "table" or not meta.asked then
    error("an answer of ns.odds expected: use o:method()", level + 1)
  end
  return meta
end

-- Each input's reach on the ratio, the widest first (see odds/tornado.lua).
function methods:tornado()
  return tornado.of(meta_of(self, 2).asked)
end

-- The answer in lines for people.
function methods:text()
  meta_of(self, 2)
  return said.text(self)
end

-- @param t {model = function(x) return ratio, action end or a joist, inputs = {{name =,
--   normal = {mean, sd}}, ...}, draws = 65536, seed = 1, replicates = 16, method =
--   "sobol" ("lhs", "plain"), threads =, indices = draws of a replicate for first and
--   total (512), or false}
-- @return {over =, changes =, actions = {[name] =}, each {value, low, high, hits,
--   draws}; quantiles = {[5], [50], [95]}, first = {[name] = {value, low, high}},
--   total =, turns_on = {{name, total}}, nominal = {ratio, action}}
function odds.new(t)
  parts.only("odds", t, FIELDS, 2)
  local o, why = read(t)
  if not o then error("odds: " .. why, 2) end
  if type(t.model) ~= "function" then
    error("odds: model: a function of a table of values expected, got " .. type(t.model),
      2)
  end
  o.inputs, why = inputs.read(t.inputs)
  if not o.inputs then error("odds: " .. why, 2) end
  o.model = called.new(t.model, o.inputs, review.full)
  o.nominal = o.model:nominal()
  return answered(o)
end

odds.meta_of = meta_of

return odds
