-- SPDX-License-Identifier: MIT
-- Numbers of many joists that calculate like one. A repair is worked out by the same
-- lines of Lua for one joist, with plain numbers, and for thousands, with columns (see
-- csrc/lua/columns.c), so both have the same bits. A comparison in which the joists
-- differ raises the column of their answers; whoever began the work parts them by it
-- (sweep/chained.lua) and begins again with each part.
local core = require "netsection.core"
local point = require "netsection.point"

local lane = {}

--- What stands in a text for a number that differs from joist to joist.
lane.mark = core.mark

local COLUMN = getmetatable(core.numbered(1))

--- Whether a value is a column.
function lane.is(value)
  return type(value) == "userdata" and getmetatable(value) == COLUMN
end

-- Folds two or more by one function of two numbers and one of two columns.
local function fold(plain, columns)
  local function folded(a, b, ...)
    local f = type(a) == "number" and type(b) == "number" and plain or columns
    if ... then return folded(f(a, b), ...) end
    return f(a, b)
  end
  return folded
end

--- The largest and the least of two or more, as math.max and math.min.
lane.max, lane.min = fold(math.max, core.most), fold(math.min, core.least)

--- The next whole number up.
function lane.ceil(a)
  return lane.is(a) and core.rounded_up(a) or math.ceil(a)
end

--- The next whole number down.
function lane.floor(a)
  return lane.is(a) and core.rounded_down(a) or math.floor(a)
end

--- How large a number is without its sign.
function lane.abs(a)
  return lane.is(a) and core.size(a) or math.abs(a)
end

--- Whether a < b: a truth, or a column of 1 and 0.
function lane.less(a, b)
  if lane.is(a) or lane.is(b) then return core.larger(b, a) end
  return a < b
end

--- 'a' where a truth or a column of 1 and 0 holds, else 'b'.
function lane.pick(which, a, b)
  if lane.is(which) then return core.chosen(which, a, b) end
  return which and a or b
end

--- Whether both of two truths hold, columns of 1 and 0 or not.
function lane.both(a, b)
  if lane.is(a) and lane.is(b) then return core.chosen(b, a, 0) end
  if lane.is(a) then a, b = b, a end
  return a and b
end

--- The number that all joists have; where they differ they are parted.
function lane.same(a)
  return lane.is(a) and core.same(a) or a
end

--- A truth that may be a column of 1 and 0: what all joists have, or they are parted.
function lane.yes(a)
  return lane.is(a) and core.same(a) ~= 0 or a == true
end

--- 'a' as text in a format for one number.
function lane.text(format, a)
  return lane.is(a) and lane.mark or point.format(format, a)
end

local function any(first, ...)
  if lane.is(first) then return true end
  return select("#", ...) > 0 and any(...)
end

--- A system of units for texts in which a number may be a column: there the mark stands.
function lane.showing(show)
  return setmetatable({}, {__index = function(t, name)
    local f = show[name]
    if type(f) == "function" then
      local real = f
      f = function(...) return any(...) and lane.mark or real(...) end
    end
    rawset(t, name, f)
    return f
  end})
end

---------------------------------------------------------------------------- a model

local fields = core.fields()

local function collect(list, path, value)
  if lane.is(value) then list[#list + 1] = {path = path, values = value} end
end

local function collect_all(list, head, items, names)
  for i, item in ipairs(items or {}) do
    for _, f in ipairs(names) do
      collect(list, ("%s.%d.%s"):format(head, i, f.name), item[f.name])
    end
  end
end

--- Fields of a model that are columns, as the core names them: {{path =, values =}}.
function lane.columns(m)
  local list = {}
  for _, f in ipairs(fields.joist) do
    local value = m[f.name]
    if f.rows == 1 then
      collect(list, f.name, value)
    else
      for i, item in ipairs(type(value) == "table" and value or {}) do
        collect(list, ("%s.%d"):format(f.name, i), item)
      end
    end
  end
  collect_all(list, "cuts", m.cuts, fields.cut)
  collect_all(list, "lines", m.lines, fields.line)
  collect_all(list, "points", m.points, fields.point)
  for _, f in ipairs(m.fix and fields.fix or {}) do
    local value = m.fix[f.name]
    if f.rows == 1 then
      collect(list, "fix." .. f.name, value)
    else
      for i, item in ipairs(value or {}) do
        collect(list, ("fix.%s.%d"):format(f.name, i), item)
      end
    end
  end
  return list
end

local function first_of(value)
  if lane.is(value) then return core.lane(value, 1) end
  if type(value) ~= "table" then return value end
  local changed
  for name, item in pairs(value) do
    local plain = first_of(item)
    if plain ~= item then
      if not changed then
        changed = {}
        for key, old in pairs(value) do changed[key] = old end
      end
      changed[name] = plain
    end
  end
  return changed or value
end

local NUMBERS = {"cuts", "lines", "points", "span", "bearing", "blocking", "fix"}

--- The model of the first joist, in plain numbers.
function lane.first(m)
  local out = {}
  for name, value in pairs(m) do
    if lane.is(value) then value = core.lane(value, 1) end
    out[name] = value
  end
  for _, name in ipairs(NUMBERS) do out[name] = first_of(m[name]) end
  return out
end

--- Whether any number of a model is a column.
function lane.of(m)
  if not lane.working then return false end
  return #lane.columns(m) > 0
end

return lane
