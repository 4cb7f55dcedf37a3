-- SPDX-License-Identifier: MIT
-- Points that come in another order than they are worked in. Work goes joist by joist,
-- those that are read outermost, then geometry, loads inside: sixteen lanes have one
-- geometry then. Points come in the order of axes that was asked for, so they are taken
-- in boxes, a stretch of each axis; a box is worked in its own order and what it gives is
-- turned into the order of the points.
local core = require "netsection.core"

local turned = {}

-- Joists of a box, whose models are kept while it is worked; points of one, where their
-- columns stay near the processor, and where thousands of joists are read at once.
local JOISTS, POINTS, JOINED = 256, 1 << 14, 1 << 17

-- Steps 'from' + 1 to 'from' + 'count' of a list of values.
local function part_of(list, from, count)
  if not list then return list end
  local out = {}
  for i = 1, count do out[i] = list[from + i] end
  return out
end

local function numbers_of(list, from, count)
  return list and core.numbers(part_of(list, from, count))
end

local function leaves_of(list, from, count)
  local out = list.leaves and {}
  for n, column in ipairs(list.leaves or {}) do
    out[n] = numbers_of(column, from, count)
  end
  return out
end

-- A list of values, of an axis or of points that are listed, with some of its steps.
local function stretch(list, from, count)
  return setmetatable({values = part_of(list.values, from, count),
    known = part_of(list.known, from, count),
    numbers = numbers_of(list.numbers, from, count),
    column = numbers_of(list.column, from, count),
    codes = numbers_of(list.codes, from, count),
    leaves = leaves_of(list, from, count)}, {__index = list})
end

-- An axis with some of its steps.
local function cut_out(axis, from, count)
  if count == #axis.values then return axis end
  local own = stretch(axis, from, count)
  if axis.linked then
    own.linked = {}
    for k, list in ipairs(axis.linked) do own.linked[k] = stretch(list, from, count) end
  end
  return own
end

-- The largest box that begins at a point: by axis its first step (from 0) and how many.
-- @return list of {from =, count =} along the axes of the points, and its points
local function box_of(plan, index, most)
  local box, points, joists, whole = {}, 1, 1, true
  for i = #plan.axes, 1, -1 do
    local n = #plan.axes[i].values
    local from = index % n
    index = index // n
    local makes = plan.turn[i].makes and not plan.joined
    local fits = most // points
    if makes then fits = math.min(fits, math.max(1, JOISTS // joists)) end
    local count = whole and math.min(n - from, fits) or 1
    whole = whole and count == n
    box[i] = {from = from, count = count}
    points = points * count
    if makes then joists = joists * count end
  end
  return box, points
end

-- Axes of a box as they are worked; and how the places of its points follow from steps
-- along them.
local function worked_axes(plan, box)
  local axes, sizes, strides, stride = {}, {}, {}, 1
  for i = #plan.axes, 1, -1 do
    local at = plan.turn[i].at
    axes[at] = cut_out(plan.axes[i], box[i].from, box[i].count)
    sizes[at], strides[at] = box[i].count, stride
    stride = stride * box[i].count
  end
  return axes, sizes, strides
end

-- Which joist of all an index of a box is: those that are read are kept by it.
local function number_of(plan, box)
  local of = {}
  for i, t in ipairs(plan.turn) do
    if t.makes then of[t.at] = {from = box[i].from, n = box[i].count,
      all = #plan.axes[i].values} end
  end
  return function(index)
    local number, every = 0, 1
    for at = plan.outer, 1, -1 do
      local o = of[at]
      number = number + (index % o.n + o.from) * every
      index, every = index // o.n, every * o.all
    end
    return number
  end
end

-- Columns of a box, emptied; they are made anew where one is larger.
local function room_for(plan, count)
  local room = plan.room
  if not room or room.size < count then
    room = {to = {}, size = count, fault = core.faults(count)}
    for i = 1, #plan.values do room.to[i] = core.numbers(count) end
    plan.room = room
    return room
  end
  for _, column in ipairs(room.to) do core.fill(column, 0, count, 0 / 0) end
  core.fill(room.fault, 0, count, 0)
  return room
end

-- The plan of a box.
local function plan_of(plan, box, axes)
  local own = {}
  for name, value in pairs(plan) do own[name] = value end
  own.axes, own.turn, own.last, own.joined = axes, nil, nil, nil
  own.number = number_of(plan, box)
  return plan.new(own)
end

-- Works one box and puts its points from the place after 'at'.
local function work_box(plan, w, box, points)
  local axes, sizes, strides = worked_axes(plan, box)
  local own = plan_of(plan, box, axes)
  local room = room_for(plan, points)
  local stopped = own:work(0, points, room.to, room.fault, 0, w.progress and function(n)
    return w.progress(w.done + n)
  end)
  plan.alone, plan.noted, plan.problem = own.alone, own.noted, own.problem
  if stopped then return stopped end
  for i, column in ipairs(room.to) do
    core.turned(column, sizes, strides, w.to[i], w.at + w.done)
  end
  core.turned(room.fault, sizes, strides, w.fault, w.at + w.done)
  w.done = w.done + points
end

--- How many points from an index on make one box.
function turned.points(plan, index, most)
  local _, points = box_of(plan, index, most)
  return points
end

--- Works points as plan:work does.
function turned.work(plan, first, count, to, fault, at, progress)
  local w = {to = to, fault = fault, at = at, progress = progress, done = 0}
  while w.done < count do
    local most = plan.joined and JOINED or POINTS
    local box, points = box_of(plan, first + w.done, math.min(most, count - w.done))
    local stopped = work_box(plan, w, box, points)
    if stopped then return stopped end
  end
end

--- Where each axis of the points stands among the axes as they are worked, if that is
-- another order.
-- @param axes in the order of the points; @param worked those that make joists first
-- @param outer how many make joists
-- @return list of {at =, makes = whether it makes joists}, or nil where both are one
function turned.of(axes, worked, outer)
  local turn, other = {}, false
  for at, axis in ipairs(worked) do
    for i, asked in ipairs(axes) do
      if asked == axis then turn[i] = {at = at, makes = at <= outer} end
    end
    other = other or axes[at] ~= axis
  end
  return other and turn or nil
end

return turned
