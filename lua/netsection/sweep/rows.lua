-- SPDX-License-Identifier: MIT
-- The points of a sweep as columns, rows and files. Columns are worked once, when they
-- are first asked for; rows and files are worked piece by piece and kept nowhere.
local core = require "netsection.core"
local file = require "netsection.file"
local npz = require "netsection.sweep.npz"
local ordered = require "netsection.point".pairs
local point = require "netsection.point"
local resume = require "netsection.sweep.resume"
local sidecar = require "netsection.sweep.sidecar"
local stream = require "netsection.sweep.stream"
local text = require "netsection.sweep.text"
local units = require "netsection.units"
local values = require "netsection.sweep.values"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local rows = {}

local NONE = 0 / 0
-- Points that a stream works and writes at a time.
local PIECE = 1 << 14
-- Seconds between two calls of the progress function, as in the core, which sees only one
-- piece and may be done with it sooner.
local BETWEEN = 0.1

-- Columns for the values of so many points.
local function fresh(h, count)
  local to = {}
  for i in ipairs(h.plan.values) do to[i] = core.numbers(count) end
  return to, core.faults(count)
end

-- The columns of the piece before, emptied, where they are as long: the room that a
-- stream takes does not hang on how long it is.
local function again(h, count, to, fault, size)
  if size ~= count then return fresh(h, count) end
  for _, column in ipairs(to) do core.fill(column, 0, count, NONE) end
  core.fill(fault, 0, count, 0)
  return to, fault
end

-- A line on standard error for long runs, where that is a terminal.
local function default_progress(total)
  local from = os.time()
  local shown = false
  return function(done)
    if os.time() - from < 2 then return true end
    shown = true
    io.stderr:write(point.format("\r%3.0f %% of %d points", 100 * done / total, total))
    return true
  end, function()
    if shown then io.stderr:write("\r" .. (" "):rep(40) .. "\r") end
  end
end

-- The function that is told how far a sweep has come.
local function progress_of(h)
  if type(h.progress) == "function" then
    return function(done) return h.progress(done, h.count) ~= false end, function() end
  elseif h.progress == false or not core.is_terminal() then
    return nil, function() end
  end
  return default_progress(h.count)
end

-- Works all points in pieces; piece(first, count, columns, faults) takes each.
-- @param into columns that take all, or nil for columns of one piece each
local function pieces(h, into, piece, level)
  local stride, done = h.plan:stride(), 0
  if not into then stride = math.min(stride, PIECE) end
  local progress, finish = progress_of(h)
  local to, fault, size
  local asked, refused = core.clock(), false
  -- Tells of progress; false where it asks to stop.
  local function ask(n)
    asked = core.clock()
    refused = refused or progress(n) == false
    return not refused
  end
  -- Ends a sweep that was asked to stop, with what was done.
  local function stop(why, n)
    finish()
    error(("sweep: %s after %d of %d points"):format(why, n, h.count), level + 2)
  end
  while done < h.count do
    local count = h.plan:piece(h.first + done, math.min(stride, h.count - done))
    if into then to, fault = into.to, into.fault
    else to, fault = again(h, count, to, fault, size) end
    size = count
    local base = done
    local stopped = h.plan:work(h.first + done, count, to, fault, into and done or 0,
      progress and function(n) return ask(base + n) end)
    if stopped then stop(stopped, done) end
    done = done + count
    -- A refusal may come when the last block of a piece is at work: the piece is whole.
    if piece and piece(h.first + base, count, to, fault) == false then break end
    if progress and core.clock() - asked >= BETWEEN then ask(done) end
    if refused and done < h.count then stop("stopped", done) end
  end
  finish()
end

rows.pieces = pieces

-- Bytes that the columns of all points take.
local function bytes_of(h)
  return h.count * (8 * #h.plan.values + 4)
end

-- Bytes in GB, in words.
local function gigabytes(n)
  return units.fixed(n / 2 ^ 30, n < 2 ^ 30 and 3 or 1)
end

-- All columns, worked once; raises where they take more than the memory given.
local function columns(h, level)
  if h.columns then return h.columns end
  if bytes_of(h) > h.memory then
    error(("sweep: %d points and %d values need %s GB in columns, %s GB at most: write "
      .. "them with s:csv(path), take fewer, or raise memory"):format(h.count,
      #h.plan.values, gigabytes(bytes_of(h)), gigabytes(h.memory)), level + 1)
  end
  local into = {}
  into.to, into.fault = fresh(h, h.count)
  pieces(h, into, nil, level + 1)
  h.columns = into
  return into
end

-- The place of a value by its name.
local function number_of(h, name, level)
  for i, o in ipairs(h.plan.values) do
    if o.name == name then return i end
  end
  error(("sweep: no value '%s'"):format(tostring(name)), level + 1)
end

-- A column by name: column[i] is the number or word of point i, nil where it has none;
-- "reason" is why.
function rows.column(h, name, level)
  if name == "reason" then
    local fault = columns(h, level + 1).fault
    return setmetatable({}, {__len = function() return h.count end,
      __index = function(_, i)
        return h.plan:reason_at(fault[i] or 0, h.first + i - 1)
      end})
  end
  local i = number_of(h, name, level + 1)
  local column, o = columns(h, level + 1).to[i], h.plan.values[i]
  if not o.words then return column end
  return setmetatable({}, {__len = function() return h.count end,
    __index = function(_, k) return values.word(o, column[k]) end})
end

-- Equal, or equal to the last digits.
local function same(a, b)
  return a == b or type(a) == "number" and type(b) == "number"
    and math.abs(a - b) <= 1e-9 * math.max(1, math.abs(a))
end

-- The number of a value on an axis, from 0.
local function step_of(axis, value, level)
  if axis.linked then
    return axis.known[value] or error(("sweep: %s: a number from 1 to %d expected")
      :format(axis.name, #axis.values), level + 1)
  end
  local inches = type(value) == "string" and units.length(value) or nil
  local psf = type(value) == "string" and units.load(value, "area") or nil
  for i, v in ipairs(axis.known) do
    if same(v, value) or axis.values[i] == value or inches and same(v, inches)
      or psf and same(v, psf) then
      return i
    end
  end
  error(("sweep: %s has no step %s"):format(axis.name, tostring(value)), level + 1)
end

-- Steps of a place {axis = value}; raises for what is no axis.
local function known_axes(h, place, level)
  if type(place) ~= "table" then
    error("sweep: a place {axis = value} expected", level + 1)
  end
  local known = {}
  for _, axis in ipairs(h.plan.axes) do known[axis.name] = axis end
  for name in ordered(place) do
    if not known[name] then
      error(("sweep: no axis '%s'"):format(tostring(name)), level + 1)
    end
  end
end

-- Index of a point, from 0 over all shards. An axis with one step may be left out.
function rows.find(h, place, level)
  known_axes(h, place, level + 1)
  local index = 0
  for _, axis in ipairs(h.plan.axes) do
    local value, step = place[axis.name], 1
    if value ~= nil then
      step = step_of(axis, value, level + 1)
    elseif #axis.values > 1 then
      error(("sweep: the place on axis %s is missing"):format(axis.name), level + 1)
    end
    index = index * #axis.values + step - 1
  end
  return index
end

-- @param first index of the point at place 1
local function values_of(h, to, fault, i, first)
  local out = {reason = h.plan:reason_at(fault[i], first + i - 1)}
  for k, o in ipairs(h.plan.values) do out[o.name] = values.word(o, to[k][i]) end
  return out
end

-- Up to so many points are worked whole for the sake of one.
local FEW = 1 << 16

--- The values of a point by its number.
function rows.values_at(h, index, level)
  local i = index - h.first
  if i < 0 or i >= h.count then
    error("sweep: that point is in another shard", level + 1)
  end
  if not h.columns and (h.count > FEW or bytes_of(h) > h.memory) then
    local to, fault = fresh(h, 1)
    h.plan:work(index, 1, to, fault, 0)
    return values_of(h, to, fault, 1, index)
  end
  local c = columns(h, level + 1)
  return values_of(h, c.to, c.fault, i + 1, h.first)
end

-- Adds the values of the axes to a row.
local function add_place(h, row, index)
  for name, value in pairs(h.plan:place(index)) do row[name] = value end
  return row
end

-- Iterates over rows, piece by piece where there are no columns.
function rows.each(h, level)
  local c = h.columns
  if not c and bytes_of(h) <= h.memory then c = columns(h, level + 1) end
  if c then
    local i = 0
    return function()
      i = i + 1
      if i > h.count then return nil end
      return add_place(h, values_of(h, c.to, c.fault, i, h.first), h.first + i - 1)
    end
  end
  return coroutine.wrap(function()
    pieces(h, nil, function(first, count, to, fault)
      for i = 1, count do
        coroutine.yield(add_place(h, values_of(h, to, fault, i, first), first + i - 1))
      end
    end, level + 1)
  end)
end

-- Columns that are kept rather than worked again for each question.
local SMALL = 32 << 20

-- A function that goes through all points of one value, piece by piece (see stream.lua).
local function each_of(h, name, level, of_words)
  local i = number_of(h, name, level + 1)
  if not of_words and h.plan.values[i].words then
    error(("sweep: '%s' is a word, not a number"):format(name), level + 1)
  end
  if not h.columns and bytes_of(h) <= math.min(SMALL, h.memory) then
    columns(h, level + 1)
  end
  return function(take)
    if h.columns then return take(h.first, h.count, h.columns.to[i]) end
    pieces(h, nil, function(first, count, to) take(first, count, to[i]) end, level + 1)
  end, h.plan.values[i]
end

--- The largest or least of a value, and where it is.
function rows.extreme(h, name, sign, level)
  local best, index = stream.extreme(each_of(h, name, level + 1), sign)
  if not best then return nil end
  local row = add_place(h, rows.values_at(h, index, level + 1), index)
  return row[name], row
end

-- How many points have a number, or which word how often.
function rows.count(h, name, level)
  local each, o = each_of(h, name, level + 1, true)
  if not o.words then return (stream.moments(each)) end
  local out = {}
  each(function(_, count, column) stream.add_words(out, o.words, count, column) end)
  return out
end

-- @return mean, standard deviation, how many points have a number
function rows.mean(h, name, level)
  local n, mean, deviation = stream.moments(each_of(h, name, level + 1))
  return mean, deviation, n
end

local MOST_PARTS, MOST_BINS = 100, 1 << 20

-- Whether x is a number.
local function finite(x)
  return type(x) == "number" and x == x and math.abs(x) < math.huge
end

--- Values below which the given parts of all points lie.
function rows.quantiles(h, name, parts, level)
  if type(parts) ~= "table" or #parts < 1 or #parts > MOST_PARTS then
    error(("sweep: quantiles: a list of 1 to %d numbers from 0 to 1 expected"):format(
      MOST_PARTS), level + 1)
  end
  for _, p in ipairs(parts) do
    if not finite(p) or p < 0 or p > 1 then
      error("sweep: quantiles: numbers from 0 to 1 expected, got " .. tostring(p),
        level + 1)
    end
  end
  return (stream.quantiles(each_of(h, name, level + 1), parts))
end

-- Raises where bins are none, or of a value that is no number.
function rows.check_bins(h, name, t, level)
  if h.plan.values[number_of(h, name, level + 1)].words then
    error(("sweep: '%s' is a word, not a number"):format(name), level + 1)
  end
  local low, high, bins
  if type(t) == "table" then low, high, bins = t.from, t.to, t.bins end
  if not (finite(low) and finite(high) and low < high and math.type(bins) == "integer"
    and bins >= 1 and bins <= MOST_BINS) then
    error(("sweep: histogram: {from =, to =, bins =} expected, bins a whole number to %d")
      :format(MOST_BINS), level + 1)
  end
end

--- How many points fall into each of even steps of a value.
function rows.histogram(h, name, t, level)
  rows.check_bins(h, name, t, level + 1)
  return stream.histogram(each_of(h, name, level + 1), t.from, t.to, t.bins)
end

-- A function of a row, of one or of {axis = value}.
local function chooser(h, test, level)
  local chosen = test
  if type(test) == "table" then
    known_axes(h, test, level + 1)
    local want = {}
    for _, axis in ipairs(h.plan.axes) do
      local value = test[axis.name]
      if value ~= nil then
        want[axis.name] = axis.known[step_of(axis, value, level + 1)]
      end
    end
    chosen = function(row)
      for name, value in pairs(want) do
        if row[name] ~= value then return false end
      end
      return true
    end
  elseif type(test) ~= "function" then
    error("sweep: where takes a function of a row, or {axis = value}", level + 1)
  end
  return chosen
end

--- Rows for which a test holds; a table is {axis or value = what it has to be}.
function rows.where(h, test, level)
  local chosen = chooser(h, test, level + 1)
  local out = {}
  for row in rows.each(h, level + 1) do
    if chosen(row) then out[#out + 1] = row end
  end
  return out
end

-- A column of 1 for the points that are chosen.
local function kept(h, chosen, first, count, to, fault)
  local keep = core.numbers(count)
  for i = 1, count do
    local row = add_place(h, values_of(h, to, fault, i, first), first + i - 1)
    core.set(keep, i, chosen(row) and 1 or 0)
  end
  return keep
end

-- The points that a file which is gone on with does not hold yet.
local function rest_of(h, done)
  return setmetatable({first = h.first + done, count = h.count - done, columns = false},
    {__index = h})
end

-- Where points are written, and those that are to be.
local function open_csv(h, path, resumed)
  if not resumed then
    local out, why = file.stream(path)
    return out, out and h or why
  end
  local out, why = resume.stream(path, {sweep = sidecar.identity(h), first = h.first,
    count = h.count})
  if not out then return nil, why end
  return out, rest_of(h, out.done)
end

-- @param t {where = a function of a row or {axis = value}: which points, or nil for all;
--   resume = true: goes on with what an interrupted run left}
function rows.csv(h, path, t, level)
  local chosen = t.where ~= nil and chooser(h, t.where, level + 1)
  local out, rest = open_csv(h, path, t.resume)
  if not out then return nil, rest end
  local writer, problem = text.writer(h.plan), nil
  -- Writes a piece of the points, the chosen ones alone where a choice was made.
  local function put(first, count, to, fault)
    local keep = chosen and kept(h, chosen, first, count, to, fault)
    local ok, why = out:put(writer.rows, first, count, to, fault, keep or nil)
    if ok and t.resume then ok, why = out:passed(count) end
    if not ok then problem = why end
    return ok ~= nil
  end
  local ok, raised = pcall(function()
    local head = true
    if rest.first == h.first then head, problem = out:write(writer.head) end
    if head and rest.columns then
      put(h.first, h.count, h.columns.to, h.columns.fault)
    elseif head then
      pieces(rest, nil, put, level + 1)
    end
  end)
  if not ok or problem then out:abandon() end
  if not ok then error(raised, 0) end
  if problem then return nil, problem end
  return out:close()
end

-- All points as columns of numbers in one archive (see npz.lua).
function rows.npz(h, s, path, level)
  if type(path) ~= "string" or path == "-" then
    error("sweep: npz: a path expected: columns are not written in one go", level + 1)
  end
  local writer = npz.writer(h, s)
  local out, problem = file.stream(path)
  if not out then return nil, problem end
  -- Calls a method of the file; keeps the first problem.
  local function try(f, ...)
    local ok, why = out:put(f, ...)
    if not ok then problem = problem or why end
    return ok ~= nil
  end
  local ok, raised = pcall(function()
    if not try(writer.begin) then return end
    if h.columns and h.count <= PIECE then
      try(writer.put, h.first, h.count, h.columns.to, h.columns.fault)
    else
      pieces(h, nil, function(first, count, to, fault)
        return try(writer.put, first, count, to, fault)
      end, level + 1)
    end
    if not problem then try(writer.finish) end
  end)
  if not ok or problem then out:abandon() end
  if not ok then error(raised, 0) end
  if problem then return nil, problem end
  return out:close()
end

return rows
