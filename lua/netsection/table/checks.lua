-- SPDX-License-Identifier: MIT
-- Looking a table over before it goes out: whether its values run in the order they
-- should, whether cells picked at random come out the same when worked out singly, and
-- what differs from the last issue.
local cells = require "netsection.table.cells"
local csv = require "netsection.csv"
local layout = require "netsection.table.layout"
local ordered = require "netsection.point".pairs
local point = require "netsection.point"
local tostring = require "netsection.point".text

local checks = {}

---------------------------------------------------------------------------
-- Order
---------------------------------------------------------------------------

local ORDER = {
  rising = function(before, after) return after >= before end,
  falling = function(before, after) return after <= before end,
}

--- Directions as given -> the same | nil, problem.
function checks.read_order(given)
  if type(given) ~= "table" or next(given) == nil then
    return nil, "{down = \"rising\" or \"falling\", across = ...} expected"
  end
  for key, order in ordered(given) do
    if key ~= "down" and key ~= "across" then
      return nil, ("unknown direction '%s' (takes down, across)"):format(tostring(key))
    elseif not ORDER[order] then
      return nil, ("%s: \"rising\" or \"falling\" expected"):format(key)
    end
  end
  return given
end

-- True where two values of an axis of several names differ in more than the last.
local function other_group(axis, i, k)
  for n = 1, #axis.names - 1 do
    if axis.values[i][n] ~= axis.values[k][n] then return true end
  end
  return false
end

-- Cells in a line, each against the last one before it that has a value; where an axis
-- has several names, the line ends when another than the last changes.
local function along(t, list, order, say, axis)
  local before
  for k, place in ipairs(list) do
    local cell = t.cells[place[1]][place[2]][place[3]]
    if k > 1 and other_group(axis, k - 1, k) then before = nil end
    if cell.value then
      if before and not ORDER[order](before.cell.value, cell.value) then
        say(before, place, cell)
      end
      before = {cell = cell}
    end
  end
end

local function lines_of(t, b, way)
  local rows, columns, lists = #t.rows.values, #t.columns.values, {}
  local outer, inner = columns, rows
  if way == "across" then outer, inner = rows, columns end
  for i = 1, outer do
    lists[i] = {}
    for k = 1, inner do
      lists[i][k] = way == "across" and {b, i, k} or {b, k, i}
    end
  end
  return lists
end

local WAYS = {"down", "across"}
local TEXT = {down = "down the column", across = "across the row"}

--- Where values do not run as they should: {text, block, row, column, way}.
function checks.order(t, order)
  local found = {}
  for b = 1, #t.cells do
    for _, way in ipairs(WAYS) do
      for _, list in ipairs(order[way] and lines_of(t, b, way) or {}) do
        along(t, list, order[way], function(before, place, cell)
          found[#found + 1] = {block = b, row = place[2], column = place[3], way = way,
            text = ("%s: %s after %s, not %s %s"):format(
              cells.where(t, table.unpack(place)), cell.text, before.cell.text,
              order[way], TEXT[way])}
        end, way == "down" and t.rows or t.columns)
      end
    end
  end
  return found
end

---------------------------------------------------------------------------
-- Spot check
---------------------------------------------------------------------------

-- A 64-bit linear congruential generator, of which the upper bits are used, so that a
-- seed picks the same cells everywhere.
local function generator(seed)
  local state = seed * 2862933555777941757 + 3037000493
  return function(n)
    state = state * 6364136223846793005 + 1442695040888963407
    return 1 + (state >> 33) % n
  end
end

-- n places of cells that have a value, picked without repeating one.
local function picked(t, n, seed)
  local all, random = {}, generator(seed)
  cells.each(t, function(b, r, c, cell)
    if cell.exact then all[#all + 1] = {b, r, c} end
  end)
  for i = 1, math.min(n, #all) do
    local k = i - 1 + random(#all - i + 1)
    all[i], all[k] = all[k], all[i]
  end
  return {table.unpack(all, 1, math.min(n, #all))}
end

local function value_of(given)
  if type(given) == "table" then return given.value end
  return given
end

local function same(a, b, tolerance)
  return type(b) == "number" and math.abs(a - b) <= tolerance * math.max(math.abs(a),
    math.abs(b))
end

--- @param o {n, seed, single, tolerance}, read
function checks.spot(t, o)
  local differing, places = {}, picked(t, o.n, o.seed)
  for _, place in ipairs(places) do
    local b, r, c = table.unpack(place)
    local cell = t.cells[b][r][c]
    local value = value_of(o.single(cells.keys(t, b, r, c)))
    if not same(cell.exact, value, o.tolerance) then
      differing[#differing + 1] = {block = b, row = r, column = c, value = cell.exact,
        single = value, text = point.format("%s: %.10g in the table, %s by itself",
          cells.where(t, b, r, c), cell.exact, type(value) == "number"
          and point.format("%.10g", value) or "no value")}
    end
  end
  return {checked = #places, differing = differing,
    text = ("%d of %d cells worked out by themselves differ"):format(#differing, #places)}
end

---------------------------------------------------------------------------
-- The last issue
---------------------------------------------------------------------------

-- Records of a file by their keys, in its order; or nil and what is wrong.
local function records(text, fields, keys)
  local rows, problems = csv.read(text, {separator = ","})
  if not rows then return nil, problems[1].message end
  local first = rows[1] or {}
  local head = table.concat(first, ",", 1, math.min(#first, keys))
  local wanted = table.concat(fields, ",", 1, keys)
  if head ~= wanted then
    return nil, ("its first columns are \"%s\", those of this table \"%s\"")
      :format(head, wanted)
  end
  local at, list = {}, {}
  for i = 2, #rows do
    local row, record = rows[i], {}
    for k, name in ipairs(rows[1]) do record[name] = row[k] or "" end
    local key = {}
    for k = 2, keys do key[k - 1] = row[k] or "" end
    record.key = table.concat(key, "\31")
    record.where = table.concat(key, ", ")
    at[record.key], list[#list + 1] = record, record
  end
  return list, at
end

local COMPARED = {"value", "shown", "letter", "reason", "unit"}

local function state_text(record)
  local said = record.shown
  if (record.letter or "") ~= "" then said = said .. " " .. record.letter end
  if (record.reason or "") ~= "" then said = said .. " (" .. record.reason .. ")" end
  return said
end

local function differs(old, new)
  for _, name in ipairs(COMPARED) do
    if (old[name] or "") ~= (new[name] or "") then return true end
  end
  return false
end

local function entry(old, new)
  local was, now = old and state_text(old), new and state_text(new)
  local where = (new or old).where
  return {where = where, was = was, now = now,
    text = was and now and ("changed  %s: %s, was %s"):format(where, now, was)
      or now and ("new      %s: %s"):format(where, now)
      or ("gone     %s: was %s"):format(where, was)}
end

local function summary(d, total)
  local out = {("%d cells: %d changed, %d new, %d gone"):format(total, #d.changed, #d.new,
    #d.gone)}
  for _, list in ipairs {d.changed, d.new, d.gone} do
    for _, one in ipairs(list) do out[#out + 1] = one.text end
  end
  return table.concat(out, "\n") .. "\n"
end

--- What differs from an earlier issue. @param old what `csv` wrote then
-- @return {changed, new, gone: lists of {where, was, now, text}, text}; or nil and what
--   is wrong with the file
function checks.diff(t, old)
  local fields, keys = layout.fields(t)
  local was, was_at = records(old, fields, keys)
  if not was then return nil, "diff: the earlier issue does not fit: " .. was_at end
  local now, now_at = records(layout.cells(t), fields, keys)
  local d = {changed = {}, new = {}, gone = {}}
  for _, record in ipairs(now) do
    local before = was_at[record.key]
    if not before then
      d.new[#d.new + 1] = entry(nil, record)
    elseif differs(before, record) then
      d.changed[#d.changed + 1] = entry(before, record)
    end
  end
  for _, record in ipairs(was) do
    if not now_at[record.key] then d.gone[#d.gone + 1] = entry(record) end
  end
  d.text = summary(d, #now)
  return d
end

return checks
