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

--------------------------------------------------------- functions of plain numbers

-- A copy of a table, and of those in it that are named, to be filled with the numbers of
-- one lane after another. @param slots list that takes {table, name, column} of each
local function open_copy(t, inside, slots)
  local out = {}
  for name, value in pairs(t) do
    if lane.is(value) then
      slots[#slots + 1] = {out, name, value}
    elseif inside[name] and type(value) == "table" then
      value = open_copy(value, {}, slots)
    end
    out[name] = value
  end
  return out
end

-- Puts the numbers of lane i into a copy. @return what they are known by
local function fill(slots, i)
  local key = {}
  for k, slot in ipairs(slots) do
    local value = core.lane(slot[3], i)
    slot[1][slot[2]], key[k] = value, string.pack("n", value)
  end
  return table.concat(key)
end

local merged

-- One value of many lanes: itself, a column, or, where it is no number, they are parted.
local function merge(values, n)
  local first, numbers, same = values[1], true, true
  for i = 1, n do
    local v = values[i]
    numbers = numbers and type(v) == "number"
    same = same and v == first
  end
  if same then return first end
  if numbers then return core.lanes(core.numbers(values), 0, n, 1) end
  local tables, like = true, {}
  for i = 1, n do
    tables = tables and type(values[i]) == "table"
    like[i] = (values[i] == first or type(values[i]) == type(first)
      and type(first) == "number") and 1 or 0
  end
  if tables then return merged(values, n) end
  lane.same(core.lanes(core.numbers(like), 0, n, 1))
end

-- Words that are one joist's alone.
local WORDS = {steps = true, notes = true, values = true}

--- Tables of so many lanes as one.
function merged(list, n)
  local names, out = {}, {}
  local before
  for i = 1, n do
    if list[i] ~= before then -- lanes often share one
      for name in pairs(list[i]) do names[name] = true end
      before = list[i]
    end
  end
  for name in pairs(names) do
    local values = {}
    for i = 1, n do values[i] = list[i][name] end
    if WORDS[name] then out[name] = {} else out[name] = merge(values, n) end
  end
  return out
end

--- What a function gives of a table of numbers, some of them columns: worked for each
-- number there is, its numbers as columns where they differ. Steps are not asked for.
-- @param inside names of tables in it that may hold columns too: {[name] = true}
function lane.each(f, t, inside)
  local slots, known, list = {}, {}, {}
  local plain = lane.working and open_copy(t, inside, slots)
  if #slots == 0 then return f(t) end
  local n = #slots[1][3]
  lane.working.alone = true -- until the work is done or has failed
  for i = 1, n do
    local key = fill(slots, i)
    known[key] = known[key] or f(plain)
    list[i] = known[key]
  end
  lane.working.alone = nil
  return merged(list, n)
end

--- Whether numbers alone are asked for, of one of many joists: no steps.
function lane.alone()
  return lane.working ~= nil and lane.working.alone == true
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
  if lane.is(value) then return core.first(value) end
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
    if lane.is(value) then value = core.first(value) end
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
