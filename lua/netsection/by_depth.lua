-- SPDX-License-Identifier: MIT
-- Relief by depth: a rule pack may let a cut exceed its limits where the joist is deeper
-- than its span asks for by the size of the cut, so that the depth that is left would do
-- by the span table that the pack names. A pack says so in `span_table`, its limits in
-- `relieved`. What the table does not speak of is not relieved, with the reason.
local data = require "netsection.data_file"
local packs = require "netsection.packs"
local point = require "netsection.point"
local units = require "netsection.units"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local by_depth = {}

local files = {}

-- A table of spans of netsection/data/spans, read once.
local function spans(name)
  if not files[name] then
    local path = assert(package.searchpath("netsection.data.spans." .. name,
      package.path))
    local t, why = data.read(path)
    if not t then error(why, 0) end
    files[name] = t
  end
  return files[name]
end

--- The table of spans that a stack of rule packs names, or nil.
function by_depth.table(rules)
  for _, pack in ipairs(rules.list) do
    if pack.data.span_table then return spans(pack.data.span_table) end
  end
end

--- What is wrong with a condition for a stack of rule packs, or nil.
function by_depth.problem(rules, condition)
  local t = by_depth.table(rules)
  if not t then return "by_depth: the rules have no span table" end
  for _, word in ipairs(t.conditions) do
    if word == condition then return nil end
  end
  return ("by_depth: one of %s expected, got %s"):format(
    table.concat(t.conditions, ", "), tostring(condition))
end

local MM = 1 / 25.4          -- in
local NEAR = 1e-6            -- in
local AS_ONE = {["No.1"] = "No.1/No.2", ["No.2"] = "No.1/No.2", Stud = "No.3"}

-- The column of a condition and a spacing; nil where the table ends before it.
local function column_of(t, condition, spacing)
  for c, word in ipairs(t.conditions) do
    for s, mm in ipairs(word == condition and t.spacings or {}) do
      if spacing <= mm * MM + NEAR then return (c - 1) * #t.spacings + s end
    end
  end
end

-- Spans of the joist's wood by size, or nil and why the table does not speak of it.
local function rows_of(t, m)
  if not m.lumber then return nil, "the wood is not on file by species and grade" end
  local grades = t.species[m.lumber.species]
  local grade = m.lumber.grade
  local rows = grades and (grades[grade] or grades[AS_ONE[grade]])
  if not rows then return nil, ("%s has not %s"):format(t.title, m.wood) end
  if m.b < 38 * MM - 0.02 then return nil, "the joist is thinner than 38 mm" end
  if m.live > t.live * units.per.kPa * 1.01 then
    return nil, point.format("live load over the %g kPa of %s", t.live, t.title)
  end
  if #m.lines > 0 or #m.points > 0 then
    return nil, t.title .. " is for floor load alone"
  end
  if m.overhang_left > 0 or m.overhang_right > 0 then
    return nil, t.title .. " has no overhangs"
  end
  return rows
end

-- Largest size of the table not deeper than `depth`, its span in inches; nil for none.
local function row_under(rows, depth, column)
  local best, deepest
  for size in pairs(rows) do
    local d = tonumber(size:match "x(%d+)$") * MM
    if d <= depth + NEAR and (not deepest or d > deepest) then best, deepest = size, d end
  end
  return best, best and rows[best][column] * 1000 * MM
end

local function longest(m)
  local most = 0
  for _, span in ipairs(m.span) do most = math.max(most, span) end
  return most
end

--- What the depth of a joist makes good of the breaches of its rules.
-- @param m model; @param rules of packs.rules; @param breaches of the review, each with
-- cut, text and `limit_row`; @param cuts of the core's summary
-- @param condition one of the table's, such as "bridging"
-- @return {pack = the stack without the limits that are relieved, where all breaches
--   are, else nil; said = list of texts}; or nil and a message for a wrong condition
function by_depth.of(m, rules, breaches, cuts, condition)
  local problem = by_depth.problem(rules, condition)
  if problem then return nil, problem end
  local t = by_depth.table(rules)
  if #breaches == 0 then return {said = {}} end
  local said, all = {}, true
  local rows, why = rows_of(t, m)
  local column = column_of(t, condition, m.spacing)
  if rows and not column then
    rows, why = nil, ("spacing over the %d mm of %s"):format(t.spacings[#t.spacings],
      t.title)
  end
  for _, breach in ipairs(breaches) do
    local cut = breach.cut and cuts[breach.cut]
    if not (breach.relieved and cut) then
      all = false
    elseif not rows or cut.merged ~= 0 then
      all = false
      said[#said + 1] = ("%s: no relief by depth: %s"):format(breach.name,
        why or "it is one with another cut")
    else
      local left = m.d - (cut.own_y2 - cut.own_y1)
      local size, span = row_under(rows, left, column)
      local needed = longest(m)
      local enough = size ~= nil and needed <= span + NEAR
      all = all and enough
      local show = m.show
      said[#said + 1] = size
        and ("%s: depth less the cut %s; %s (%s) spans %s of %s needed: %s"):format(
        breach.name, show.section(left), size, t.title, show.place(span),
        show.place(needed), enough and "within (by depth)" or "no relief")
        or ("%s: depth less the cut %s: no size of %s"):format(breach.name,
        show.section(left), t.title)
    end
  end
  return {pack = all and packs.relieved(rules, m.bearing_on) or nil, said = said}
end

return by_depth
