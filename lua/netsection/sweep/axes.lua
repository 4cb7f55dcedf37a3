-- SPDX-License-Identifier: MIT
-- Axes of a sweep. Those that the core takes as plain numbers, field by field, vary from
-- lane to lane; all others (sizes, species, faces, lists, fields of a repair) make joists
-- of their own, which are read once each. Those are worked outermost, then geometry,
-- loads inside; points come in the order that was asked for (see turned.lua).
local core = require "netsection.core"
local fields = require "netsection.fields"
local leaves = require "netsection.sweep.leaves"
local point = require "netsection.point"
local points = require "netsection.sweep.points"
local units = require "netsection.units"
local tostring = require "netsection.point".text

local axes = {}

axes.most = 16

local function length(value) return units.length(value) end
local function load(value) return units.load(value, "area") end

local function number(value)
  if type(value) == "number" and math.abs(value) < math.huge then return value end
  return nil, ("a finite number expected, got %s"):format(tostring(value))
end

-- What no lane can hold, such as half a ply or a limit that a description does not take,
-- makes a joist, whose reading says why.
local function whole(value)
  local v, why = number(value)
  if not v then return nil, why end
  return v == math.floor(v) and v
end

local function divisor(value)
  if value == false then return 0 end
  local v, why = number(value)
  if not v then return nil, why .. ", or false" end
  return v >= 50 and v <= 2000 and v
end

local READ = {length = length, area = load, number = number, count = whole, whole = whole,
  divisor = divisor}

-- Field of a description: the core's row, how a value is read, and whether it may change
-- under a repair that was worked out before.
local LANE, OF_CUT = {}, {}
for _, f in ipairs(fields.joist) do
  local sweep = f.sweep
  local read = sweep and READ[sweep.read or f.kind]
  if f.name == "limits" then
    for _, name in ipairs {"live", "total"} do
      LANE["limits." .. name] = {sweep[name], read, sweep.repaired}
    end
  elseif sweep then
    LANE[f.name] = {f.row or f.name, read, sweep.repaired}
  end
end
for _, f in ipairs(fields.cut) do
  if f.sweep then OF_CUT[f.name] = READ[f.kind] end
end

local function measured_from_right(description)
  for _, load_ in ipairs(description.loads or {}) do
    if load_.from_right then return true end
  end
end

-- Lengths of spans on lanes, unless a load's place was turned about by them.
local function span_rows(name, description, count)
  local n = name == "span" and 1 or tonumber(name:match "^spans%.(%d+)$")
  if not n or name == "span" and count > 1 or measured_from_right(description) then
    return nil
  end
  return {"span." .. n}, length
end

local function cut_rows(name, description)
  local n, field = name:match "^cuts%.(%d+)%.([%w_]+)$"
  local cut = n and (description.cuts or {})[tonumber(n)]
  if not cut or not OF_CUT[field] or cut[field] == nil then return nil end
  -- What is lost at an end is counted further when it is read.
  if cut.kind == "lost_bearing" then return nil end
  return {("cuts.%s.%s"):format(n, field)}, OF_CUT[field]
end

-- The length of an end notch that has none of its own is that of its bearing; a lost end
-- begins at the end of the bearing.
local function bearing_rows(name, description, count)
  if name ~= "bearing" or type(description.bearing) == "table" then return nil end
  for _, cut in ipairs(description.cuts or {}) do
    if cut.kind == "end_notch" and cut.length == nil then return nil end
    if cut.kind == "lost_bearing" then return nil end
  end
  local rows = {}
  for i = 1, count + 1 do rows[i] = "bearing." .. i end
  return rows, length
end

-- Whether a prop is tried, which must not lift the joist's dead load off a bearing.
local function propped(repair, over)
  for _, lift in ipairs {repair.lift or false, table.unpack(over["fix.lift"] or {})} do
    if type(lift) == "table" then return true end
  end
  for _, other in ipairs(over.fix or {}) do
    if other and type(other.lift) == "table" then return true end
  end
end

-- The live load under a tub rests on the floor's, so the joist is read again for each.
local function tub_over(name, description)
  for _, load_ in ipairs(name == "live" and description.loads or {}) do
    if load_.kind == "tub" and load_.under ~= "add" then return true end
  end
end

-- @return rows of the core and reader of a value, or nil where it is no lane axis
local function lane_of(name, over, description, repair, spans)
  if over.fix then repair = repair or {} end
  local plain = LANE[name]
  if plain and tub_over(name, description) then return nil end
  if plain then
    if repair and (not plain[3] or propped(repair, over)) then return nil end
    return {plain[1]}, plain[2]
  elseif repair then
    return nil
  end
  local rows, read = span_rows(name, description, spans)
  if not rows then rows, read = cut_rows(name, description) end
  if not rows then rows, read = bearing_rows(name, description, spans) end
  return rows, read
end

--- Rows of the core that a field's number goes into and how it is read, where it may be
-- any number in a range; nil otherwise.
function axes.lane_rows(name, joist)
  local rows, read = lane_of(name, {}, joist.description, joist.repair
    and joist.repair.given, #joist.model.span)
  if read == whole then return nil end
  return rows, read
end

axes.length = length

local function read_all(axis, read)
  axis.known = {}
  for i, value in ipairs(axis.values) do
    if type(value) == "table" then return false end
    local v, why = read(value)
    if v == false then return false end
    if not v then
      return nil, ("over.%s: value %d: %s"):format(axis.name, i, why)
    end
    axis.known[i] = v
  end
  return true
end

local function label_of(value)
  if type(value) ~= "table" then return value end
  local plain = #value > 0
  for _, item in ipairs(value) do plain = plain and type(item) ~= "table" end
  if not plain then return value.name or value.source or value.kind end
  local texts = {}
  for i, item in ipairs(value) do texts[i] = tostring(item) end
  return table.concat(texts, ", ")
end

-- An axis that makes joists: its values as they are known afterwards. Lengths given as
-- text are numbers then, as on a lane; sizes stay names.
local function name_values(axis)
  local seen = {}
  axis.known = {}
  for i, value in ipairs(axis.values) do
    local text = type(value) == "string" and axis.name:match "[%w_]+$" ~= "size"
      and value:find "%d" and units.length(value)
    local shown = text or label_of(value)
    if shown == nil or seen[shown] then
      shown = ("%s #%d"):format(shown or axis.name, i)
    end
    axis.known[i], seen[shown] = shown, true
  end
end

-- @param listed points that are listed, or nil: then an axis at least is expected
local function list_of(over, order, listed)
  if type(over) ~= "table" or next(over) == nil and not listed then
    return nil, "over: a table of axes expected, e.g. {span = {\"12-0\", \"14-0\"}}"
  end
  local names, seen = {}, {}
  for _, name in ipairs(order or {}) do
    local known = over[name] ~= nil or listed and name == points.name
    if not known or seen[name] then
      return nil, ("order: no axis '%s', or twice"):format(tostring(name))
    end
    names[#names + 1], seen[name] = name, true
  end
  local ordered, rest = #names, {}
  for name in pairs(over) do
    if type(name) ~= "string" then
      return nil, "over: axes by the name of their field expected"
    end
    if not seen[name] then rest[#rest + 1] = name end
  end
  table.sort(rest, point.less)
  table.move(rest, 1, #rest, #names + 1, names)
  if #names > axes.most then return nil, ("over: at most %d axes"):format(axes.most) end
  return names, ordered
end

local function axis_of(name, list)
  if type(list) ~= "table" or #list == 0 then
    return nil, ("over.%s: a list of values expected"):format(name)
  end
  for i, value in ipairs(list) do
    if value ~= value or type(value) == "number" and math.abs(value) == math.huge then
      return nil, ("over.%s: value %d: a finite number expected, got %s"):format(name, i,
        tostring(value))
    end
  end
  return {name = name, values = list}
end

-- A field of a repair as a number: lengths may be text.
local function of_fix(value)
  if type(value) == "number" then return value end
  return type(value) == "string" and units.length(value) or nil
end

local GEOMETRY = {"^spans?$", "^spans%.%d+$", "^cuts%.", "^bearing$"}
-- Lengths that make joists without a repair too.
local LENGTHS = {overhang_left = true, overhang_right = true, b = true, d = true}

-- Numbers of a field that makes joists of a repaired one, where thousands of them are
-- read at once (see joined.lua): the joist's geometry, the repair's own fields; or nil.
local function column_of(name, values, description, spans)
  local read = (name:find "^fix%.[%w_.]+$" or LENGTHS[name]) and of_fix
  for _, pattern in ipairs(GEOMETRY) do
    if name:find(pattern) then
      read = select(2, lane_of(name, {}, description, nil, spans))
    end
  end
  local numbers = {}
  for i, value in ipairs(read and values or {}) do
    local v = type(value) ~= "table" and read(value)
    if not v then return nil end
    numbers[i] = v
  end
  return read and core.numbers(numbers) or nil
end

-- The listed points as one axis, whose steps are their numbers.
local function listed_axis(listed)
  local n = listed.count or 1
  local steps = setmetatable({}, {__len = function() return n end,
    __index = function(_, i)
      return math.type(i) == "integer" and i >= 1 and i <= n and i or nil
    end})
  return {name = points.name, values = steps, known = steps, linked = listed.lists}
end

-- Lists that make joists: their values as they are known afterwards.
local function name_lists(listed)
  for _, list in ipairs(listed.lists) do
    if not list.known then
      list.known = {}
      for i, value in ipairs(list.values) do
        list.known[i] = type(value) == "table" and label_of(value) or value
        if list.known[i] == nil then list.known[i] = ("%s #%d"):format(list.name, i) end
      end
    end
  end
end

-- Rows of the core and numbers of each list. @return whether all of them have, or nil and
-- what is wrong
local function list_rows(listed, over, joist, spans)
  local all = true
  for _, list in ipairs(listed.lists) do
    local rows, read = lane_of(list.name, over, joist.description, joist.repair
      and joist.repair.given, spans)
    local numbers, why = false, nil
    if rows then numbers, why = points.numbers(list, read) end
    if numbers == nil then return nil, why end
    if numbers then list.rows, list.known, list.numbers = rows, numbers, numbers end
    all = all and numbers ~= false
  end
  return all
end

-- Rows of the core and reader of each function; nil and what is wrong where one is of no
-- number of the core.
local function function_rows(listed, over, joist, spans)
  for _, of in ipairs(listed.functions) do
    of.rows, of.read = lane_of(of.name, over, joist.description, joist.repair
      and joist.repair.given, spans)
    if not of.rows then
      return nil, ("points.%s: a function gives numbers, and this field makes joists of "
        .. "their own: list its values"):format(of.name)
    end
  end
  return true
end

-- Points for each value of a kind, at least, that make up for being parted by it.
local MANY = 8

local leaves_of -- below

-- Tables that are of few kinds but for the numbers in them: those are columns.
function leaves_of(list)
  local kinds, codes, columns = leaves.of(list)
  if not kinds or #kinds * MANY > #list.values then return false end
  list.codes, list.kinds, list.leaves = codes, kinds, columns
  return true
end

-- Which of its own values a list has at each point: 'kinds' and their numbers, 'codes',
-- where they are few; else tables of few kinds and their numbers.
local function kinds_of(list)
  local codes, number_of, kinds = {}, {}, {}
  for i, value in ipairs(list.values) do
    if not number_of[value] then
      kinds[#kinds + 1] = value
      number_of[value] = #kinds
    end
    codes[i] = number_of[value]
  end
  if #kinds * MANY <= #codes then
    list.codes, list.kinds = core.numbers(codes), kinds
    return true
  end
  return leaves_of(list)
end

-- Whether all lists are columns of numbers, or of few kinds, which they keep.
local function linked_columns(listed, over, joist, spans)
  local repair, any = joist.repair and joist.repair.given, false
  for _, l in ipairs(listed.lists) do
    local rows, read = lane_of(l.name, over, joist.description, repair, spans)
    l.column = rows and points.numbers(l, read)
      or column_of(l.name, l.values, joist.description, spans)
    if not l.column and not kinds_of(l) then return false end
    any = any or l.column ~= nil or l.leaves ~= nil
  end
  return any
end

-- The axis of listed points; whether it makes joists.
local function read_listed(listed, over, joist, spans)
  local lanes, why = list_rows(listed, over, joist, spans)
  if lanes == nil then return nil, why end
  local ok, wrong = function_rows(listed, over, joist, spans)
  if not ok then return nil, wrong end
  if not lanes then
    for _, l in ipairs(listed.lists) do l.rows, l.numbers, l.known = nil, nil, nil end
    name_lists(listed)
  end
  local axis = listed_axis(listed)
  if not lanes and (joist.repair or over.fix) then
    axis.columns = linked_columns(listed, over, joist, spans)
  end
  return axis, not lanes
end

-- The same where every axis makes joists.
function axes.read_slow(over, order, listed)
  local names, why = list_of(over, order, listed)
  if not names then return nil, why end
  local list, points_axis = {}, nil
  if listed then
    name_lists(listed)
    points_axis = listed_axis(listed)
  end
  for i, name in ipairs(names) do
    local axis, problem = points_axis, nil
    if over[name] ~= nil then axis, problem = axis_of(name, over[name]) end
    if not axis then return nil, problem end
    if axis == points_axis then points_axis = nil else name_values(axis) end
    list[i] = axis
  end
  list[#list + 1] = points_axis
  return list, #list
end

local OF_GEOMETRY = {"^spans?$", "^spans%.", "^cuts%.", "^bearing$", "^plies$"}

-- Whether an axis on lanes changes what the beam is, not what it carries alone.
local function of_geometry(axis)
  for _, list in ipairs(axis.linked or {axis}) do
    for _, pattern in ipairs(OF_GEOMETRY) do
      if list.name:find(pattern) then return true end
    end
  end
  return false
end

-- One axis of values. @return the axis; whether it makes joists; or nil and what is wrong
local function read_axis(name, over, named, joist, spans)
  local axis, wrong = axis_of(name, over[name])
  if not axis then return nil, wrong end
  local repair = joist.repair and joist.repair.given
  local rows, read = lane_of(name, named, joist.description, repair, spans)
  local ok, problem = false, nil
  if rows then ok, problem = read_all(axis, read) end
  if ok == nil then return nil, problem end
  if ok then axis.rows = rows else name_values(axis) end
  if not ok and (repair or named.fix) then
    axis.column = column_of(name, axis.values, joist.description, spans)
    axis.columns = axis.column ~= nil or leaves_of(axis)
  end
  return axis, not ok
end

-- Axes as they are worked: those that make joists, of geometry, the rest.
local function by_kind(list, makes)
  local worked, outer = {}, 0
  for want = 1, 3 do
    for _, axis in ipairs(list) do
      local kind = makes[axis] and 1 or of_geometry(axis) and 2 or 3
      if kind == want then worked[#worked + 1] = axis end
      if kind == want and want == 1 then outer = outer + 1 end
    end
  end
  return worked, outer
end

-- The order of the points: as asked, then the axes that make joists, then the others; in
-- it the listed points come behind those of their kind.
local function in_order(list, ordered, makes, listed)
  local out = table.move(list, 1, ordered, 1, {})
  for _, first in ipairs {true, false} do
    for i = ordered + 1, #list do
      if makes[list[i]] == first and list[i] ~= listed then out[#out + 1] = list[i] end
    end
    if listed and makes[listed] == first then out[#out + 1] = listed end
  end
  return out
end

-- @param over {name = list of values}; @param order names, outermost first
-- @param listed points that are listed (see sweep/points.lua), or nil
-- @param named over and the lists of 'listed' in one table
-- @return list of {name =, values =, known = values as they stand in rows, rows = of the
--   core, for an axis on lanes, linked = its lists, of listed points} as they are worked;
--   how many make joists, the first of them; the list in the order of the points; or nil
--   and what is wrong
function axes.read(over, order, joist, spans, listed, named)
  local names, ordered = list_of(over, order, listed)
  if not names then return nil, ordered end
  local list, makes, points_axis = {}, {}, nil
  if listed then
    local axis, problem = read_listed(listed, named, joist, spans)
    if not axis then return nil, problem end
    points_axis, makes[axis] = axis, problem
  end
  local loose = points_axis
  for i, name in ipairs(names) do
    list[i] = points_axis
    if over[name] == nil then
      loose = nil
    else
      local axis, problem = read_axis(name, over, named, joist, spans)
      if not axis then return nil, problem end
      list[i], makes[axis] = axis, problem
    end
  end
  local asked = in_order(list, ordered, makes, loose)
  local worked, outer = by_kind(asked, makes)
  return worked, outer, asked
end

return axes
