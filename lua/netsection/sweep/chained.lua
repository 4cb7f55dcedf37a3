-- SPDX-License-Identifier: MIT
-- A repair that is made of joists of its own, for thousands of joists at once: the kind's
-- own lines work on columns (see lane.lua). Where the joists differ in a comparison they
-- are parted and each part is begun again, in the end a joist alone, which is a review.
local core = require "netsection.core"
local lane = require "netsection.lane"
local point = require "netsection.point"
local values = require "netsection.sweep.values"
local error = require "netsection.raise".error

local chained = {}

-- Joists that are worked at once: few calls of Lua for each, and little room.
chained.most = 4096

-- Parts that are still parted; what differs so often is reviewed one by one.
local DEEPEST = 40

-- Joists by which it is noted what the lines do, where there are so many in all at
-- least; and how often that is done for joists that differ.
chained.noting = {sample = 512, least = 2048, traces = 12}

--- Whether a failure is the user's, who stops the work.
function chained.interrupted(problem)
  return type(problem) == "string" and problem:find("interrupted!", 1, true) ~= nil
end

local function write(w, o, places, value)
  if type(value) == "string" then value = values.code(o, value) end
  core.put(w.to[o], w.at, places, value or 0 / 0)
end

-- What a review has, of one joist or of many.
local function keep(w, places, r)
  for _, o in ipairs(w.outputs) do
    write(w, o, places, values.of(r, o))
  end
end

-- A reason with numbers that differ is looked for where it is read (plan:reason_at).
local function refuse(w, places, reason)
  local marked = reason:find(lane.mark, 1, true)
  core.put(w.fault, w.at, places, w.code(marked and lane.mark or reason))
end

-- One joist, worked as anyone would ask for it.
local function alone(w, i, places)
  local changes = {}
  for name, column in pairs(w.columns) do changes[name] = core.lane(column, i) end
  w.done.alone = w.done.alone + 1
  local made, why = w.read(changes)
  if not made then return refuse(w, places, why) end
  local r = made:review(w.packs)
  local reason = not r.computed and r.reasons[1] or r.fixed and r.fixed.refused
  keep(w, places, r)
  if reason then refuse(w, places, reason) end
end

local function each_alone(w, places)
  if w.alone then
    w.done.alone = w.done.alone + #places
    return w.alone(places)
  end
  for i = 1, #places do
    alone(w, i, core.numbered(1) + core.lane(places, i))
  end
end

-- What the lines make of all joists, written.
-- @return nil where all was written; else a mask that parts the joists, or true: each is
-- to be worked alone
local function by_lines(w, places)
  local ok, r = pcall(function()
    local made, why = w.read(w.columns)
    if not made then return why end
    return made:review(w.packs)
  end)
  if not ok then
    if lane.is(r) then return r end
    if chained.interrupted(r) then error(r, 0) end
    w.done.problem = r
    return true
  elseif type(r) == "string" or not r.many then
    return true
  elseif r.fault then
    core.put(w.fault, w.at, places, r.fault)
    return nil
  end
  keep(w, places, r)
  if r.fixed.refused then refuse(w, places, r.fixed.refused) end
  return nil
end

-- The columns that vary, and those that are written, in one order.
local function inputs_of(w)
  local names, list = {}, {}
  for name in pairs(w.columns) do names[#names + 1] = name end
  table.sort(names, point.less)
  for i, name in ipairs(names) do list[i] = w.columns[name] end
  return list
end

local function targets_of(w)
  local list = {w.fault}
  for i, o in ipairs(w.outputs) do list[i + 1] = w.to[o] end
  return list
end

-- Joists at once by the lines, what these do noted where 'traces' are kept: then others
-- are worked by the same steps without Lua.
local function at_once(w, places)
  local noted = w.noting and #w.traces < chained.noting.traces
  if noted then core.note(inputs_of(w), places, targets_of(w), w.traces) end
  lane.working = {checks = w.checks, reviews = {}}
  local ok, mask = pcall(by_lines, w, places)
  lane.working = nil
  local trace, lost
  if noted then trace, lost = core.noted(ok and mask == nil) end
  if not ok then error(mask, 0) end
  w.traces[#w.traces + 1] = trace
  -- what these lines do cannot be noted, whatever the joists
  w.traces.lost = w.traces.lost or mask == nil and lost or nil
  return mask
end

local function parted(w, mask, wanted)
  local out = {}
  for name, column in pairs(w.columns) do
    out[name] = core.parted(column, mask, wanted)
  end
  return setmetatable({columns = out}, {__index = w})
end

local function work(w, places, depth)
  if #places == 1 then return each_alone(w, places) end
  local mask = depth > DEEPEST or at_once(w, places)
  if mask == true then return each_alone(w, places) end
  if not mask then return end
  for _, wanted in ipairs {true, false} do
    work(parted(w, mask, wanted), core.parted(places, mask, wanted), depth + 1)
  end
end

-- Works by traces from number 'from' on. @return what is left: columns in w, places; nil
-- where nothing is
local function replayed(w, places, from)
  local targets = targets_of(w)
  for k = from, #w.traces do
    local left = core.replay(w.traces[k], inputs_of(w), places, w.at, targets,
      w.threads or 1)
    w.done.noted = w.done.noted + #places
    if not left then return nil end
    w, places = parted(w, left, true), core.parted(places, left, true)
    w.done.noted = w.done.noted - #places
  end
  return w, places
end

-- Some 'wanted' of n lanes as 1, with steps between them that no axis has.
local function spread(n, wanted)
  local turns = core.numbered(n) * 0.61803398874989485
  return core.larger(wanted / n, turns - core.rounded_down(turns))
end

-- A sample of the joists, spread over all of them, is worked by the lines; the rest by
-- what was noted of it, until too few are left.
local function work_most(w, places)
  local from = 1
  while true do
    w, places = replayed(w, places, from)
    if not w then return end
    from = #w.traces + 1
    local noting = chained.noting
    if #places < noting.least or #w.traces >= noting.traces or w.traces.lost then
      break
    end
    local sample = spread(#places, noting.sample)
    local some = parted(w, sample, true)
    some.noting = true
    work(some, core.parted(places, sample, true), 0)
    w, places = parted(w, sample, false), core.parted(places, sample, false)
    if #w.traces < from then break end
  end
  local n = #places
  if n <= chained.most then return work(w, places, 0) end
  for first = 0, n - 1, chained.most do
    local here = core.larger(core.numbered(n), first - 0.5)
      * core.larger(first + chained.most - 0.5, core.numbered(n))
    work(parted(w, here, true), core.parted(places, here, true), 0)
  end
end

--- Works joists with a repair into columns.
-- @param w {count =, columns = {[field] = lanes}, read = function({[field] = lanes or
--   number}) -> repaired joist, or nil and why, packs = options of a review, outputs =
--   of the fixed state, to = {[output] = column}, fault = column, at = place before the
--   first, places = of the joists after it (one after another), code = function(text)
--   -> fault, alone = function(places) that works each of them by itself, where columns
--   are not all that it takes, traces = list that keeps what was noted for further calls
--   whose 'read' differs in nothing but columns, threads =}
-- @return {alone = how many were worked alone, noted = how many by what was noted,
--   problem = what the last that was worked alone met among many}
function chained.work(w)
  w.done, w.checks = {alone = 0, noted = 0}, false
  w.traces = w.traces or {}
  for _, o in ipairs(w.outputs) do
    w.checks = w.checks or (o.quantity or ""):find "^check" ~= nil
  end
  work_most(w, w.places or core.numbered(w.count))
  return w.done
end

return chained
