-- SPDX-License-Identifier: MIT
-- What a grid is asked for, read and checked against its floor.
local deck = require "netsection.grid.deck"
local lines = require "netsection.grid.lines"
local parts = require "netsection.parts"
local point = require "netsection.point"
local units = require "netsection.units"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local options = {}

options.fields = {"deck", "blocking", "panel_ends", "points", "uniform", "edges", "state",
  "EI", "doubtful", "repetitive", "rules", "standard"}

local function fail(format, ...)
  error("floor:grid: " .. point.format(format, ...), 0)
end

local function length(what, v)
  local x, problem = units.length(v)
  if not x then fail("%s: %s", what, problem) end
  return x
end

local function entries(t, name, fields)
  local list = t[name]
  if list == nil then return {} end
  if type(list) ~= "table" or list[1] == nil and next(list) ~= nil then
    fail("%s: a list of {%s =, ...} expected", name, fields[1])
  end
  for i, e in ipairs(list) do
    local ok, problem = pcall(parts.only, ("%s[%d]"):format(name, i), e, fields, 0)
    if not ok then fail("%s", problem) end
  end
  return list
end

local function joist(list, what, mark)
  for i, line in ipairs(list) do
    if line.mark == mark then return line, i end
  end
  fail("%s: no joist '%s'", what, tostring(mark))
end

local function number_of(list, what, mark)
  local _, i = joist(list, what, mark)
  return i
end

local function on(line, what, x)
  if not (x >= line.first and x <= line.last) then
    fail("%s: %s is not on joist %s", what, units.feet_inches(x), line.mark)
  end
  return x
end

-- The whole extent along the joists.
local function extent(list)
  local a, b = math.huge, -math.huge
  for _, line in ipairs(list) do
    a, b = math.min(a, line.first), math.max(b, line.last)
  end
  return a, b
end

local function positive(what, v)
  if type(v) ~= "number" or v ~= v or v <= 0 or v == math.huge then
    fail("%s: a number above 0 expected, got %s", what, tostring(v))
  end
  return v
end

local function read_blocking(t, list)
  local rows = {}
  local a, b = extent(list)
  for i, e in ipairs(entries(t, "blocking", {"at", "k", "EI", "from", "to"})) do
    local what = ("blocking[%d]"):format(i)
    local row = {at = length(what .. ".at", e.at), EI = e.EI}
    if not (row.at > a and row.at < b) then fail("%s.at: not between bearings", what) end
    if e.k ~= nil and not (type(e.k) == "number" and e.k >= 0) then
      fail("%s.k: lb-in per radian of one block end, 0 or more, math.huge for one that "
        .. "does not turn, expected", what)
    end
    row.k = e.k
    if e.EI ~= nil then
      positive(what .. ".EI", e.EI)
    else
      -- Blocks of the joists' own size and wood.
      row.assumed = true
      for _, line in ipairs(list) do
        for _, s in ipairs(line.stretches) do
          row.EI = math.max(row.EI or 0, s.EI)
        end
      end
    end
    row.first, row.last = 1, #list
    if e.from ~= nil then row.first = number_of(list, what .. ".from", e.from) end
    if e.to ~= nil then row.last = number_of(list, what .. ".to", e.to) end
    if row.last - row.first < 2 then
      fail("%s: a row over three joists at least shares load", what)
    end
    rows[i] = row
  end
  return rows
end

local function read_panel_ends(t, list)
  local ends = {}
  local a, b = extent(list)
  for i, e in ipairs(entries(t, "panel_ends", {"joist", "from", "to"})) do
    local what = ("panel_ends[%d]"):format(i)
    local line, number = joist(list, what .. ".joist", e.joist)
    local from = e.from ~= nil and length(what .. ".from", e.from) or a
    local to = e.to ~= nil and length(what .. ".to", e.to) or b
    if to <= from then fail("%s: from is not before to", what) end
    ends[i] = {joist = line.mark, number = number, from = from, to = to}
  end
  return ends
end

local function read_points(t, list)
  local points = {}
  for i, e in ipairs(entries(t, "points", {"joist", "y", "at", "load"})) do
    local what = ("points[%d]"):format(i)
    local lb, problem = units.load(e.load, "point")
    if not lb then fail("%s.load: %s", what, problem) end
    if not (lb > 0 and lb < 1e6) then fail("%s.load: above 0 expected", what) end
    if e.at == nil then fail("%s.at: missing", what) end
    local p = {at = length(what .. ".at", e.at), load = lb}
    if (e.joist == nil) == (e.y == nil) then
      fail("%s: joist = its mark, or y across the floor from the first joist, expected",
        what)
    elseif e.joist ~= nil then
      p.on = {{joist(list, what .. ".joist", e.joist), 1}}
    else
      p.y = length(what .. ".y", e.y)
      p.on = lines.lever(list, p.y)
      if not p.on then
        fail("%s.y: %s lies beyond the edge joists", what, units.inches(p.y))
      end
    end
    for _, one in ipairs(p.on) do on(one[1], what .. ".at", p.at) end
    points[i] = p
  end
  return points
end

local STATES = {cut = true, uncut = true, repaired = true}

local function word(t, name, words, otherwise)
  local v = t[name]
  if v == nil then return otherwise end
  for _, w in ipairs(words) do
    if v == w then return v end
  end
  fail("%s: %s expected, got %s", name, table.concat(words, ", "), tostring(v))
end

-- What does not depend on the joists: the deck, the state.
function options.first(t)
  local ok, problem = pcall(parts.only, "floor:grid", t, options.fields, 0)
  if not ok then error(problem, 0) end
  -- The repetitive factor is there for some of the sharing.
  if t.repetitive ~= nil and t.repetitive ~= 1 then
    fail("repetitive: 1.0 in a grid: sharing is in it, the repetitive factor would count "
      .. "it twice")
  end
  local o = {deck = deck.read(t.deck, "floor:grid: deck"), state = t.state or "cut",
    edges = word(t, "edges", {"half", "full"}, "half"), rules = t.rules,
    standard = t.standard}
  if not STATES[o.state] then fail('state: "cut", "uncut" or "repaired" expected') end
  if t.EI ~= nil and type(t.EI) ~= "table" then
    fail("EI: {J4 = lb-in2} expected")
  end
  for mark, v in pairs(t.EI or {}) do positive("EI." .. tostring(mark), v) end
  o.EI = t.EI
  return o
end

-- Loads of the floor that are on: all, dead, live, or none of them.
local CASES = {[true] = {dead = true, live = true}, dead = {dead = true},
  live = {live = true}}

-- What is read against the lines.
function options.rest(o, t, list)
  o.blocking = read_blocking(t, list)
  o.panel_ends = read_panel_ends(t, list)
  o.points = read_points(t, list)
  local uniform = t.uniform
  if uniform == nil then uniform = #o.points == 0 end
  if uniform ~= false and not CASES[uniform] then
    fail('uniform: true, false, "dead" or "live" expected, got %s', tostring(uniform))
  end
  o.uniform, o.cases = uniform, CASES[uniform] or {}
  if not uniform and #o.points == 0 then
    fail("no load: give points, or uniform = true for the loads of the floor")
  end
  if t.doubtful ~= nil then
    joist(list, "doubtful", t.doubtful)
    o.doubtful = t.doubtful
  end
  for mark in pairs(o.EI or {}) do joist(list, "EI", mark) end
  return o
end

return options
