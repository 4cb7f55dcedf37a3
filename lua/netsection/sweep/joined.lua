-- SPDX-License-Identifier: MIT
-- A repair that the core works with its joist, for thousands of joists at once: where
-- axes of the joist's geometry or of the repair's own fields differ, the lines of Lua
-- that place fasteners and find their strength work on columns (see lane.lua), and the
-- core takes what they give as columns too. Where the joists differ in a comparison they
-- are parted; what is left alone is read joist by joist.
local chained = require "netsection.sweep.chained"
local core = require "netsection.core"
local enums = require "netsection.enums"
local fix = require "netsection.fix"
local lane = require "netsection.lane"
local leaves = require "netsection.sweep.leaves"
local point = require "netsection.point"
local review = require "netsection.review"
local error = require "netsection.raise".error

local joined = {}

-- Joists that are read at once, points that are worked at once; so few are read faster
-- one by one, and so many points of a joist make up for its reading.
local MOST, POINTS, FEW = 1 << 13, 1 << 16, 3
joined.inner = 1 << 9

-- Parts that are still parted.
local DEEPEST = 60

local function each_list(axis)
  return axis.linked or {axis}
end

-- The numbers of a list's values, from 1, at each of its steps.
local function codes_of(list)
  if list.codes then return list.codes end
  local numbers = {}
  for k = 1, #list.values do numbers[k] = k end
  return core.numbers(numbers)
end

-- What the joists from outer index a on have: columns by field, and of a list whose
-- values make joists of other kinds which of them, as a column too, by list.
local function fields_of(plan, a, n)
  local columns, steps, every = {}, {}, 1
  for i = plan.outer, 1, -1 do
    local axis = plan.axes[i]
    for _, list in ipairs(each_list(axis)) do
      if list.column then columns[list.name] = core.lanes(list.column, a, n, every)
      else steps[list] = core.lanes(codes_of(list), a, n, every) end
      for k, column in ipairs(list.leaves or {}) do
        columns[leaves.name(list, k)] = core.lanes(column, a, n, every)
      end
    end
    every = every * #axis.values
  end
  return columns, steps
end

-- The changes of all joists of a part; raises where they have values of other kinds.
local function changes_of(part)
  local changes = {}
  for list, step in pairs(part.steps) do
    local at = math.tointeger(lane.same(step))
    changes[list.name] = (list.kinds or list.values)[at]
  end
  for name, column in pairs(part.columns) do changes[name] = column end
  return changes
end

-- The joist by changes, and its repair as it is described; or nil.
local function described(plan, changes)
  for i = 1, plan.outer do
    for _, list in ipairs(each_list(plan.axes[i])) do
      if list.leaves then leaves.fill(list, changes) end
    end
  end
  local description, repair = plan.kind.altered(plan.joist, changes, 1)
  local made = plan.kind.read(description)
  return made and made:placed(plan.joist.row), repair
end

-- @return model of the core with its columns, what of it; or nil: each is read alone
local function read(plan, part)
  local made, repair = described(plan, changes_of(part))
  if not made or not repair or review.lacking(made.model, plan.packs.standard)
    or plan.acts and #made.model.tubs > 0 then
    return nil
  end
  made = made:fixed(repair)
  if not made then return nil end
  if not fix.works_on_lanes(made.repair) then
    return made.model, {apart = "chained", chained = true}
  end
  local m, why, counts = fix.on_lanes(made, plan.packs)
  if why and why:find(lane.mark, 1, true) then why = lane.mark end
  return m or made.model, {apart = why and "refused" or nil, refused = why ~= nil,
    reason = why, counts = counts}
end

-- The columns of the lane axes behind the axis of the joists.
local function columns_of(plan, m)
  local list = {}
  for _, c in ipairs(plan.columns) do
    list[#list + 1] = {axis = c.axis + 1, path = c.path, values = c.values}
  end
  for _, c in ipairs(lane.columns(m)) do
    list[#list + 1] = {axis = 1, path = c.path, values = c.values}
  end
  return list
end

-- What all points of a part have: counts, the status of a repair that is refused.
local function put_same(plan, w, part, e)
  local function put(to, value)
    core.scatter(to, part.places, plan.inner, value, w.shift, w.at, w.count)
  end
  for i, o in ipairs(plan.values) do
    if o.count and e.counts then put(w.to[i], e.counts[o.count]) end
    if o.quantity == "status" and o.state == "fixed" and e.refused then
      put(w.to[i], enums.not_permitted)
    end
  end
  if e.reason then put(w.fault, plan:code(e.reason)) end
end

-- @return nil; the column of joists that the core finds wrong; or why it stopped
local function through_core(plan, w, part, m, e)
  local n = #part.places
  local count, outputs, columns = n * plan.inner, w.wanted(e, w.to)
  if #outputs == 0 then return nil end
  local fault, to = core.faults(count), {}
  for k in ipairs(outputs) do to[k] = core.numbers(count) end
  local done, interrupted = core.sweep {models = {core.packed(lane.first(m))},
    sizes = {n, table.unpack(plan.sizes)}, columns = columns_of(plan, m), count = count,
    threads = plan.threads, rules = plan.packs.rules.core, outputs = outputs, to = to,
    standard = plan.packs.standard.core, fault = fault,
    progress = w.progress and function(k)
      return w.progress(math.min(w.done + k, w.count))
    end}
  if interrupted then return "interrupted" end
  if done < count then return "stopped" end
  local wrong = not e.refused and core.faulty(fault, plan.inner)
  if wrong then return core.highest(1 - wrong) == 0 or wrong end
  for k, column in ipairs(columns) do
    core.scatter(column, part.places, plan.inner, to[k], w.shift, w.at, w.count)
  end
end

-- The points of a part one by one: columns by field, and their places in the piece.
local function points_of(plan, w, part)
  local n, inner, columns = #part.places, plan.inner, {}
  local count, every = n * inner, inner
  for name, column in pairs(part.columns) do
    columns[name] = core.lanes(column, 0, count, inner)
  end
  for i = plan.outer + 1, #plan.axes do
    local axis = plan.axes[i]
    every = every // #axis.values
    for _, list in ipairs(each_list(axis)) do
      columns[list.name] = core.lanes(list.numbers or core.numbers(list.known), 0, count,
        every)
    end
  end
  local start = core.lanes(core.numbered(n) * inner, 0, count, inner)
  local places = core.lanes(part.places * inner, 0, count, inner)
    + (core.numbered(count) - start) - w.shift
  local within = lane.both(lane.less(-0.5, places), lane.less(places, w.count - 0.5))
  if core.highest(1 - within) > 0 then
    for name, column in pairs(columns) do
      columns[name] = core.parted(column, within, true)
    end
    places = core.parted(places, within, true)
  end
  return columns, places
end

-- Which kinds a part has: what was noted of others with the same holds for it.
local function key_of(part)
  local list = {}
  for of, step in pairs(part.steps) do
    list[#list + 1] = ("%s %d"):format(of.name, math.tointeger(lane.same(step)))
  end
  table.sort(list, point.less)
  return table.concat(list, "\n")
end

-- A repair that is made of joists of its own: their lines work on columns too.
local function chain(plan, w, part, m)
  local outputs, to = {}, {}
  for i, o in ipairs(plan.values) do
    if o.state == "fixed" then outputs[#outputs + 1], to[o] = o, w.to[i] end
  end
  if #outputs == 0 then return nil end
  local columns, places = points_of(plan, w, part)
  -- the joist is worked for many too where the repair's own fields differ alone
  if #lane.columns(m) == 0 and not columns.dead then
    columns.dead = core.lanes(core.numbers {m.dead}, 0, #places, 1)
  end
  local steps = changes_of {steps = part.steps, columns = {}}
  local single = {}
  plan.traces = plan.traces or {}
  local key = key_of(part)
  plan.traces[key] = plan.traces[key] or {}
  local worked = chained.work {count = #places, columns = columns, places = places,
    outputs = outputs, to = to, fault = w.fault, at = w.at,
    packs = {rules = plan.rules, standard = plan.standard}, threads = plan.threads,
    traces = plan.traces[key],
    read = function(changes)
      for name, value in pairs(steps) do changes[name] = changes[name] or value end
      local made, repair = described(plan, changes)
      local fixed = made and made:fixed(repair)
      return fixed or nil, lane.mark
    end,
    code = function(text) return plan:code(text) end,
    alone = function(list)
      for i = 1, #list do
        local place = math.tointeger(core.lane(list, i)) + w.shift
        single[w.o1 + place // plan.inner] = true
      end
    end}
  worked.alone = 0 -- counted where they are worked
  plan:add(worked)
  local indices = {}
  for index in pairs(single) do indices[#indices + 1] = index end
  table.sort(indices)
  return #indices > 0 and w.alone(indices) or nil
end

-- @return nil where all was written; a column that parts the joists; true: each alone;
--   or why the work stopped
local function at_once(plan, w, part)
  lane.working = {checks = false, geometry = true}
  local ok, m, e = pcall(read, plan, part)
  lane.working = nil
  if not ok then
    if lane.is(m) then return m end
    if chained.interrupted(m) then error(m, 0) end
    plan.problem = m
    return true
  elseif not m then
    return true
  end
  -- the columns of a model are looked for where joists are many
  lane.working = {}
  local fine, why = pcall(through_core, plan, w, part, m, e)
  lane.working = nil
  if not fine then error(why, 0) end
  if why then return why end
  if e.chained then return chain(plan, w, part, m) end
  put_same(plan, w, part, e)
  w.done = math.min(w.done + #part.places * plan.inner, w.count)
end

local function parted(part, mask, wanted)
  local function all(list)
    local out = {}
    for name, column in pairs(list) do out[name] = core.parted(column, mask, wanted) end
    return out
  end
  return {columns = all(part.columns), steps = all(part.steps),
    places = core.parted(part.places, mask, wanted)}
end

local function each_alone(plan, w, part)
  local list = {}
  for i = 1, #part.places do
    list[i] = w.o1 + math.tointeger(core.lane(part.places, i))
  end
  plan.alone = (plan.alone or 0) + #list
  return w.alone(list)
end

local function work(plan, w, part, depth)
  if #part.places <= FEW or depth > DEEPEST then return each_alone(plan, w, part) end
  local mask = at_once(plan, w, part)
  if mask == true then return each_alone(plan, w, part) end
  if not lane.is(mask) then return mask end
  return work(plan, w, parted(part, mask, true), depth + 1)
    or work(plan, w, parted(part, mask, false), depth + 1)
end

--- Works the joists of outer indices o1 to o2 of a plan.
-- @param w the piece that is worked, with o1, o2, shift = points before o1's in the
--   piece's place, wanted = function(entry, to) -> outputs, columns, alone =
--   function(outer indices) that works each
-- @return nil, or why the work stopped
function joined.work(plan, w)
  local most = math.max(256, math.min(MOST, POINTS // plan.inner))
  for a = w.o1, w.o2, most do
    local n = math.min(most, w.o2 - a + 1)
    local columns, steps = fields_of(plan, a, n)
    local part = {columns = columns, steps = steps,
      places = core.numbered(n) + (a - w.o1)}
    local stopped = work(plan, w, part, 0)
    if stopped then return stopped end
    if w.progress and w.progress(w.done) == false then return "stopped" end
  end
end

return joined
