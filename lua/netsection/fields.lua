-- SPDX-License-Identifier: MIT
-- The fields of a joist and of its cuts, each one row of fields/joist.lua or
-- fields/cut.lua; the model, sweeps, sensitivity, tables and field books read them here.
-- A number that a check uses is a row of the core's list (fields.h) too, which gives its
-- base unit and range and packs it; a row of the same name here needs no other line.
--
-- A row: {name, kind, ...}. Kinds: "length", "area" (load on an area), "number", "count",
-- "flag" and "word" are read as they stand; what is "special" the model reads by itself.
--   of        kinds of cut that take it, by name; with ! they must have it
--   row       its row of the core where that has another name
--   free      true: the core has no row, any length
--   low, high range of what the core has no row for
--   words     of a word; default of a joist's field; into {word = number, row =}: what is
--             put down for a word, and as which row
--   needed    a joist must have it: a value for the message
--   place     true: a distance along the joist, printed in feet and inches
--   sweep     a lane axis of a sweep; of a joist {read =, repaired = true where it may
--             change under a repair that was worked out before}, or by the names in it
--   still     true: a sweep axis that sensitivity leaves alone
--   moved     rows that sensitivity moves with a joist's field {row ..., repaired =}
--   scatter   how far a measured length of a cut may be off, {"tape", "rough" or "place",
--             its turn among those that are drawn, kinds of cut where not all}: see
--             odds/defaults.lua
--   survey    its columns in a field book (field_columns.lua): one, or a list
--   label     what it is called in print
local core = require "netsection.core"

local fields = {}

local function by_name(rows)
  for _, row in ipairs(rows) do row.name, row.kind = row[1], row[2] end
  for _, row in ipairs(rows) do rows[row.name] = row end
  return rows
end

fields.joist = by_name(require "netsection.fields.joist")
fields.cut = by_name(require "netsection.fields.cut")

local CORE = core.fields()
local ranges = {joist = {}, cut = {}}
for list, rows in pairs(ranges) do
  for _, row in ipairs(CORE[list]) do rows[row.name] = row end
end

--- The core's row behind a field: {name, unit, low, high, rows}; nil where it has none.
-- @param list "joist" or "cut"
function fields.range(list, name)
  local row = fields[list][name]
  return ranges[list][row and row.row or name] or row and row.low and row or nil
end

-- Kind of cut -> its rows in order, each with the kinds that must have it.
local of = {}
for _, row in ipairs(fields.cut) do
  row.needed = {}
  for kind, must in row.of:gmatch "([%a_]+)(!?)" do
    of[kind] = of[kind] or {}
    table.insert(of[kind], row)
    row.needed[kind] = must == "!" or nil
  end
end
fields.of = of

local function names_of(rows)
  local names = {}
  for i, row in ipairs(rows) do names[i] = row.name end
  return names
end

--- Names of the fields that a kind of cut takes.
function fields.names(kind) return names_of(of[kind]) end

--- Names of a joist's fields.
fields.joist_names = names_of(fields.joist)

--- Columns of a field book for a list of rows, in their order.
-- @param column function(name, kind, spec) -> a column
function fields.columns(rows, column)
  local out = {}
  for _, row in ipairs(rows) do
    local list = row.survey and (row.survey[1] and row.survey or {row.survey}) or {}
    for _, spec in ipairs(list) do
      spec.words = spec.words or row.words and fields.same(row.words)
      spec.shown = spec.shown or row.words and table.concat(row.words, ", ")
      out[#out + 1] = column(spec.name or row.name, spec.kind or row.kind, spec)
    end
  end
  return out
end

--- {word = word} of a list.
function fields.same(words)
  local t = {}
  for _, word in ipairs(words) do t[word] = word end
  return t
end

--- Whether a joist's field is taken from its column as it stands.
function fields.plain(row)
  return row.survey and not row.survey[1] and not row.survey.derived
end

--- What a number of a field is printed in on an axis: "ft-in" of a place, else its base
-- unit; nil where it has none.
function fields.unit(name)
  local list = fields.joist[name] and "joist" or "cut"
  local row = fields[list][name]
  if not row then return nil end
  if row.place then return "ft-in" end
  local range = fields.range(list, name)
  local unit = range and range.unit or row.kind == "length" and "in" or nil
  return unit ~= "" and unit or nil
end

return fields
