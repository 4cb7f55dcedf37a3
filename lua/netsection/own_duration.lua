-- SPDX-License-Identifier: MIT
-- Live loads with a load duration of their own. The shortest load of a combination gives
-- its C_D, so a joist with such loads is checked under every combination once for each
-- duration: with all live loads that last that long or longer, and that C_D. The rows are
-- made here of those of the standard, which says whether it takes such loads at all.
local point = require "netsection.point"

local own_duration = {}

--- Rows that the core holds beside D and D + L.
own_duration.rows_most = 12
--- Different durations of one joist.
own_duration.most = 2

local function each(m, use)
  for _, list in ipairs {m.lines or {}, m.points or {}} do
    for _, l in ipairs(list) do
      if l.CD then use(l) end
    end
  end
end

--- Durations of a joist's own, in order, and numbers each load by its own (load.own).
-- @return list, empty where it has none
function own_duration.number(m)
  local list, seen = {}, {}
  each(m, function(l)
    if not seen[l.CD] then list[#list + 1], seen[l.CD] = l.CD, true end
  end)
  table.sort(list)
  for i, CD in ipairs(list) do seen[CD] = i end
  each(m, function(l) l.own = seen[l.CD] end)
  return list
end

--- The durations of a joist as text, "1.25, 1.6"; nil where it has none.
function own_duration.key(m)
  local list = m.durations
  return list and #list > 0 and table.concat(list, ", ") or nil
end

-- A combination with the loads of a joist's own durations up to CD; live load of the
-- floor is shorter than what is permanent.
local function row_with(c, CD, durations, last, data)
  local row = {}
  for field, value in pairs(c) do row[field] = value end
  for i, own in ipairs(durations) do
    if own <= CD then row["L" .. i] = c.L end
  end
  row.without_live, row.all = true, nil
  if CD < c.CD then row.L = 0 end
  if CD ~= c.CD then
    row.CD, row.named = CD, true
    row.name = point.format("%s (CD %g)", c.name, CD)
    row.source, row.confidence = data.own_duration.source, data.own_duration.confidence
  end
  row.checks = not last and "strength" or c.checks
  return row
end

-- Durations for which a combination of C_D has a row: its own where loads last as long
-- or longer, each longer one, and each shorter one of a floor's live load.
local function levels(c, durations, floor)
  local list, longer = {}, false
  for _, CD in ipairs(durations) do
    longer = longer or CD <= c.CD
    if CD > c.CD or floor and CD < c.CD then list[#list + 1] = CD end
  end
  if longer then list[#list + 1] = c.CD end
  table.sort(list)
  return list
end

--- Combinations with the loads of a joist's own durations, beside those of a standard.
-- @param data a checked table of a standard; @param durations list of C_D
-- @return list
function own_duration.rows(data, durations)
  local rows = {}
  local function add(c, floor)
    local all = levels(c, durations, floor)
    for i, CD in ipairs(all) do
      rows[#rows + 1] = row_with(c, CD, durations, i == #all, data)
    end
  end
  for _, c in ipairs(data.combinations) do
    if c.L > 0 then add(c, true) end
  end
  for _, c in ipairs(data.with_roof_or_snow or {}) do
    if (c.L or 0) > 0 and c.CD then add(c, false) end
  end
  return rows
end

--- A standard's table with those rows as well; itself where it takes no such loads.
function own_duration.data(data, durations)
  if not data.own_duration or #durations == 0 then return data end
  local out = {}
  for field, value in pairs(data) do out[field] = value end
  out.with_roof_or_snow = table.move(data.with_roof_or_snow or {}, 1,
    #(data.with_roof_or_snow or {}), 1, {})
  for _, row in ipairs(own_duration.rows(data, durations)) do
    table.insert(out.with_roof_or_snow, row)
  end
  return out
end

--- Why a standard cannot take the durations of a joist's loads; nil where it can.
-- @param m model; @param standard of packs.for_joist
function own_duration.lacking(m, standard)
  local key, data = own_duration.key(m), standard.data
  if key == nil then return nil end
  local takes = data.own_duration
  if not takes then
    return ("%s takes no load duration of a single load (LOAD-CASE): %s"):format(
      data.name, data.no_own_duration or "no rule for one is on file")
  end
  for _, CD in ipairs(m.durations) do
    if CD < takes.least or CD > takes.most then
      return point.format("CD %g of a load: %g to %g expected (%s)", CD, takes.least,
        takes.most, takes.source)
    end
  end
  if standard.durations ~= key then
    return ("load durations %s of single loads, others than those of the joist that this "
      .. "was begun with (LOAD-CASE)"):format(key)
  elseif #data.with_roof_or_snow > own_duration.rows_most then
    return ("%s has more combinations with these loads than are worked (%d of %d)")
      :format(data.name, #data.with_roof_or_snow, own_duration.rows_most)
  end
end

return own_duration
