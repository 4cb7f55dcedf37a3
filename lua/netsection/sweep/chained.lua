-- SPDX-License-Identifier: MIT
-- A repair that is made of joists of its own, for thousands of joists at once: the kind's
-- own lines work on columns (see lane.lua). Where the joists differ in a comparison they
-- are parted and each part is begun again, in the end a joist alone, which is a review.
local core = require "netsection.core"
local lane = require "netsection.lane"
local values = require "netsection.sweep.values"
local error = require "netsection.raise".error

local chained = {}

-- Joists that are worked at once: few calls of Lua for each, and little room.
chained.most = 4096

-- Parts that are still parted; what differs so often is reviewed one by one.
local DEEPEST = 40

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

-- @return nil where all was written; else a mask that parts the joists, or true: each is
-- to be worked alone
local function at_once(w, places)
  lane.working = {checks = w.checks, reviews = {}}
  local ok, r = pcall(function()
    local made, why = w.read(w.columns)
    if not made then return why end
    return made:review(w.packs)
  end)
  lane.working = nil
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

--- Works joists with a repair into columns.
-- @param w {count =, columns = {[field] = lanes}, read = function({[field] = lanes or
--   number}) -> repaired joist, or nil and why, packs = options of a review, outputs =
--   of the fixed state, to = {[output] = column}, fault = column, at = place before the
--   first, places = of the joists after it (one after another), code = function(text)
--   -> fault, alone = function(places) that works each of them by itself, where columns
--   are not all that it takes}
-- @return how many were worked alone, and what the last of them met among many
function chained.work(w)
  w.done, w.checks = {alone = 0}, false
  for _, o in ipairs(w.outputs) do
    w.checks = w.checks or (o.quantity or ""):find "^check" ~= nil
  end
  work(w, w.places or core.numbered(w.count), 0)
  return w.done.alone, w.done.problem
end

return chained
