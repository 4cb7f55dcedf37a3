-- SPDX-License-Identifier: MIT
-- A sweep, or a shard of one, in a few numbers that can be put together with those of
-- the other shards, on whatever machine they were worked: counts, mean and deviation,
-- the extremes and where they are, histograms, and quantiles between two bounds.
local core = require "netsection.core"
local file = require "netsection.file"
local parts = require "netsection.parts"
local less = require "netsection.point".less
local rows = require "netsection.sweep.rows"
local saved = require "netsection.sweep.saved"
local sidecar = require "netsection.sweep.sidecar"
local stream = require "netsection.sweep.stream"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local summary = {}
local methods = {}

-- A table with each value made anew.
local function map(t, make)
  local out = {}
  for k, v in pairs(t) do out[k] = make(v) end
  return out
end

----------------------------------------------------------------------- one sweep

-- What is kept of a column before any point was seen.
local function begin(o, bins)
  if o.words then return {words = {}} end
  local counts = core.numbers(1 << saved.bits)
  core.fill(counts, 0, 1 << saved.bits, 0)
  return {sums = stream.no_sums(), counts = counts,
    bins = bins and stream.no_counts(bins.from, bins.to, bins.bins)}
end

-- Adds a piece of a column: sums, ends, counts of leading bits.
local function add_numbers(c, first, count, column)
  stream.add_sums(c.sums, count, column)
  c.max = stream.further(c.max, 1, first, count, column)
  c.min = stream.further(c.min, -1, first, count, column)
  core.tally(column, count, 0, 0, saved.bits, c.counts)
  if c.bins then stream.add_counts(c.bins, count, column) end
end

-- What is kept of a column once all points have gone by.
local function finished(c, place)
  if c.words then return c end
  local out = {count = c.sums.count, keys = {}, mean = 0.0, squares = 0.0}
  if out.count > 0 then
    out.mean, out.squares = stream.mean_of(c.sums)
    for _, which in ipairs {"max", "min"} do
      out[which] = {value = c[which].value, row = place(c[which].point)}
    end
  end
  local counted = core.counted(c.counts)
  for i = 1, #counted, 2 do out.keys[tostring(counted[i])] = counted[i + 1] end
  local h = c.bins
  out.histogram = h and {from = h.low, to = h.high, under = h.under, over = h.over,
    counts = stream.list_of(h)}
  return out
end

local new

-- @param t {histogram = {[name] = {from =, to =, bins =}}}, or nil
function summary.of(h, t, level)
  t = t or {}
  parts.only("sweep: summary", t, {"histogram"}, level + 1)
  if t.histogram ~= nil and type(t.histogram) ~= "table" then
    error("sweep: summary: histogram: {[name] = {from =, to =, bins =}} expected",
      level + 1)
  end
  local columns, outputs = {}, h.plan.values
  for name, bins in pairs(t.histogram or {}) do
    rows.check_bins(h, name, bins, level + 1)
  end
  for i, o in ipairs(outputs) do
    columns[i] = begin(o, (t.histogram or {})[o.name])
  end
  rows.pieces(h, nil, function(first, count, to)
    for i, o in ipairs(outputs) do
      if o.words then stream.add_words(columns[i].words, o.words, count, to[i])
      else add_numbers(columns[i], first, count, to[i]) end
    end
  end, level + 1)
  local by_name = {}
  for i, o in ipairs(outputs) do
    by_name[o.name] = finished(columns[i], function(point) return h.plan:place(point) end)
  end
  return new {sweep = sidecar.identity(h), of = h.plan.total,
    parts = {{h.first, h.count}}, columns = by_name}
end

--------------------------------------------------------------------- putting together

-- Chan, Golub, LeVeque, "Updating formulae and a pairwise algorithm for computing sample
-- variances", 1979: n, mean and sum of squares of two sets as of one.
local function add_moments(a, b)
  local n = a.count + b.count
  if n == 0 then return end
  local step = b.mean - a.mean
  a.squares = a.squares + b.squares + step * step * a.count * b.count / n
  a.mean = a.mean + step * b.count / n
  a.count = n
end

-- The larger or the smaller of two ends with their points.
local function better(a, b, sign)
  if not a or b and sign * b.value > sign * a.value then return b end
  return a
end

-- Adds counts by word.
local function add_counts(a, b)
  for k, n in pairs(b) do a[k] = (a[k] or 0) + n end
end

-- A copy of a tree.
local function copy(v)
  return type(v) == "table" and map(v, copy) or v
end

-- Adds one column of a part to another; why not, where they differ.
local function add_column(name, a, b)
  if a.words then return add_counts(a.words, b.words) end
  local ha, hb = a.histogram, b.histogram
  if (ha ~= nil) ~= (hb ~= nil) or ha and (ha.from ~= hb.from or ha.to ~= hb.to
    or #ha.counts ~= #hb.counts) then
    return ("the histograms of '%s' have other bins"):format(name)
  end
  a.max, a.min = better(a.max, b.max, 1), better(a.min, b.min, -1)
  add_moments(a, b)
  add_counts(a.keys, b.keys)
  if ha then
    for k, n in ipairs(hb.counts) do ha.counts[k] = ha.counts[k] + n end
    ha.under, ha.over = ha.under + hb.under, ha.over + hb.over
  end
end

-- Adds the columns of a part; why not, where one is missing.
local function add_columns(a, b)
  for name, c in pairs(b) do
    if not a[name] or (a[name].words ~= nil) ~= (c.words ~= nil) then
      return ("'%s' is not in all of them"):format(name)
    end
    local why = add_column(name, a[name], c)
    if why then return why end
  end
  for name in pairs(a) do
    if not b[name] then return ("'%s' is not in all of them"):format(name) end
  end
end

-- The data behind a summary; raises for another value.
local function hidden_of(s, level)
  local meta = getmetatable(s)
  return type(meta) == "table" and meta.summary
    or error("a summary of s:summary() expected", level + 1)
end

-- Stretches of points that lie side by side, made one; nil and where two overlap.
local function joined(stretches)
  table.sort(stretches, function(a, b) return a[1] < b[1] end)
  local out = {}
  for _, p in ipairs(stretches) do
    local last = out[#out]
    if last and last[1] + last[2] > p[1] then
      return nil, ("point %d is in two of them"):format(p[1] + 1)
    elseif last and last[1] + last[2] == p[1] then
      last[2] = last[2] + p[2]
    elseif p[2] > 0 then
      out[#out + 1] = {p[1], p[2]}
    end
  end
  return out
end

-- Adds a part; why it does not belong, else.
local function add(all, t)
  if t.sweep ~= all.sweep or t.of ~= all.of then
    return "of another sweep: joist, axes, values, rules, standard or version differ"
  end
  for _, p in ipairs(t.parts) do all.parts[#all.parts + 1] = p end
  return add_columns(all.columns, t.columns)
end

-- The name of a part in a message.
local function name_of(given, i)
  return type(given) == "string" and given or ("part %d"):format(i)
end

--- The summaries of shards as one. Sums are taken in the order of the points, so the
-- answer does not hang on the order in which shards are given.
-- @param list of summaries and of paths of summaries
-- @return a summary, or nil and a message that names the part
function summary.merge(list)
  if type(list) ~= "table" or #list < 1 then
    error("merge_shards: a list of summaries or of their paths expected", 2)
  end
  local given = {}
  for i, one in ipairs(list) do
    local data, why
    if type(one) == "string" then data, why = saved.read(one)
    else data = hidden_of(one, 2) end
    if not data then return nil, why end
    given[i] = {name = name_of(one, i), data = data}
  end
  table.sort(given, function(a, b)
    local x, y = a.data.parts[1] or {0}, b.data.parts[1] or {0}
    return x[1] < y[1]
  end)
  local all = copy(given[1].data)
  for i = 2, #given do
    local why = add(all, given[i].data)
    if why then return nil, ("%s: %s"):format(given[i].name, why) end
  end
  local stretches, why = joined(all.parts)
  if not stretches then return nil, why end
  all.parts = stretches
  return new(all)
end

----------------------------------------------------------------------------- answers

-- A column by its name; raises where it is none, or has words.
local function column_of(data, name, level, of_words)
  local c = data.columns[name]
  if not c then error(("summary: no value '%s'"):format(tostring(name)), level + 1) end
  if c.words and not of_words then
    error(("summary: '%s' is a word, not a number"):format(name), level + 1)
  end
  return c
end

-- Largest value and the place of its point on the axes; nil where there is none.
function methods:max(name)
  local e = column_of(hidden_of(self, 2), name, 2).max
  if e then return e.value, copy(e.row) end
end

--- The least value and its row.
function methods:min(name)
  local e = column_of(hidden_of(self, 2), name, 2).min
  if e then return e.value, copy(e.row) end
end

-- How many points have a number of that name; of a word, {word = how many}.
function methods:count(name)
  local c = column_of(hidden_of(self, 2), name, 2, true)
  return c.words and copy(c.words) or c.count
end

-- @return mean, standard deviation, how many points have a number
function methods:mean(name)
  local c = column_of(hidden_of(self, 2), name, 2)
  if c.count == 0 then return nil, nil, 0 end
  return c.mean, c.count > 1 and math.sqrt(c.squares / (c.count - 1)) or nil, c.count
end

-- Counts of the bins that s:summary{histogram =} asked for; with low, high, under, over.
function methods:histogram(name)
  local h = column_of(hidden_of(self, 2), name, 2).histogram
  if not h then
    error(("summary: no histogram of '%s' was asked for"):format(name), 2)
  end
  local out = {low = h.from, high = h.to, under = h.under, over = h.over}
  for k, n in ipairs(h.counts) do out[k] = n end
  return out
end

-- The bounds of the numbers whose leading bits are a key.
local function bounds(key)
  local a = core.key_number(key << (64 - saved.bits))
  local b = core.key_number((key + 1 << 64 - saved.bits) - 1)
  return a, b
end

-- The number of a rank among counted ones.
local function at_rank(keys, c, rank)
  local n = 0
  for _, key in ipairs(keys) do
    n = n + c.keys[tostring(key)]
    if rank < n then return bounds(key) end
  end
end

-- Between which two numbers the parts p of all points lie: one part in 1024 of a number
-- apart at most, where two neighbors in rank lie no further apart.
-- @return list of {low =, high =}
function methods:quantiles(name, list)
  local c = column_of(hidden_of(self, 2), name, 2)
  if type(list) ~= "table" or #list < 1 or #list > 100 then
    error("summary: quantiles: a list of 1 to 100 numbers from 0 to 1 expected", 2)
  end
  local keys, out = {}, {}
  for k in pairs(c.keys) do keys[#keys + 1] = math.tointeger(tonumber(k)) end
  table.sort(keys, less)
  for i, p in ipairs(list) do
    if type(p) ~= "number" or not (p >= 0 and p <= 1) then
      error("summary: quantiles: numbers from 0 to 1 expected, got " .. tostring(p), 2)
    end
    if c.count > 0 then
      local rank = math.floor(p * (c.count - 1))
      local low = at_rank(keys, c, rank)
      local _, high = at_rank(keys, c, math.min(rank + 1, c.count - 1))
      if rank == p * (c.count - 1) then _, high = at_rank(keys, c, rank) end
      out[i] = {low = math.max(low, c.min.value), high = math.min(high, c.max.value)}
    end
  end
  return out
end

-- Stretches of points, from 1, that are in none of the shards: {{first, last}, ...}
function methods:missing()
  local data = hidden_of(self, 2)
  local out, at = {}, 0
  for _, p in ipairs(data.parts) do
    if p[1] > at then out[#out + 1] = {at + 1, p[1]} end
    at = p[1] + p[2]
  end
  if at < data.of then out[#out + 1] = {at + 1, data.of} end
  return out
end

-- Writes the summary for ns.merge_shards, whole or not at all.
-- @return true, or nil and a message that names the path
function methods:write(path)
  return file.write(path, saved.text(hidden_of(self, 2)))
end

--- A summary of data.
function new(data)
  local points = 0
  for _, p in ipairs(data.parts) do points = points + p[2] end
  local own = {points = points, of = data.of}
  return setmetatable({}, {summary = data, __name = "netsection.summary",
    __index = function(_, name) return own[name] or methods[name] end,
    __newindex = function() error("a summary does not change", 2) end,
    __len = function() return points end,
    __tostring = function()
      return ("summary of %d of %d points"):format(points, data.of)
    end})
end

return summary
