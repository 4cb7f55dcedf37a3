-- SPDX-License-Identifier: MIT
-- How a floor feels underfoot: deflection of each joist under 1 kN (224.8 lb; 225 lb in
-- US texts) at mid-span, first frequency under dead load, by the grid and of the joist
-- alone, uncut, as cut and repaired. Criteria are published for different tests on
-- different floors; met or not, nothing of this enters a ratio or an order of repairs.
local criteria = require "netsection.data.feel.criteria"
local grid = require "netsection.grid"
local lines = require "netsection.grid.lines"
local mesh = require "netsection.grid.mesh"
local parts = require "netsection.parts"
local velocity = require "netsection.feel.velocity"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local feel = {criteria = criteria}
local methods = {}
local meta = {__index = methods, __name = "netsection.feel", __tostring = function(f)
  return ("feel of a floor, %d joists"):format(#f.order)
end}

local KN = 224.809        -- lb
local MM = 25.4
local STATES = {"uncut", "cut", "repaired"}
feel.states = STATES

-- Middle and length of the longest span.
local function middle(m)
  local x, best, at = 0, 0, 0
  for _, span in ipairs(m.span) do
    if span > best + 1e-9 then best, at = span, x + span / 2 end
    x = x + span
  end
  return at, best
end

local function largest(e)
  return math.max(e.w_max.value, -e.w_min.value)
end

-- f = pi/(2 L^2) sqrt(EI/m) for an even joist of one span; else by its own lumped masses.
local function isolated_response(line, at, edges)
  local one, x, g = mesh.isolated(line, {lines = {}, points = {{at, KN}}})
  if not one then return nil end
  -- By itself a joist carries the width that its own check gives it.
  local dead = mesh.total(lines.loads(line, {dead = true}, edges))
  local mass = dead / (line.last - line.first) / 386.0886
  local mode = mass > 0 and g:modes({mass}, 1)[1]
  return {d = one:at(1, x[mesh.nearest(x, at)]).w, f = mode and mode.hertz or nil}
end

-- Deflection of every joist under 1 kN on it, by one grid.
local function pressed(g)
  local list = {}
  for i, line in ipairs(g.lines) do
    local at = middle(line.m)
    local why = g:over_gap(i, at)
    if why then
      list[i] = {refused = why}
    else
      local answer = g:press(i, at, KN)
      list[i] = {d = answer:at(i, at).w}
    end
    local isolated = isolated_response(line, at, "full")
    if isolated then list[i].lone_d, list[i].lone_f = isolated.d, isolated.f end
  end
  return list
end

-- One state of the floor, with options of floor:grid but for loads and state: frequency,
-- and by joist d, live deflection, those of it alone.
local function state_of(floor, reviews, t, state)
  local o = {}
  for name, value in pairs(t) do o[name] = value end
  o.state, o.uniform, o.points = state, "live", nil
  local places = {}
  for i, r in ipairs(reviews) do places[i] = middle(r.joist.model) end
  local g, why = grid.of(floor, reviews, o, places)
  if not g then return {refused = why} end
  local found = {frequency = g:modes(1)[1].hertz, joists = {}}
  if state == "uncut" then
    found.plate = velocity.floor(g.lines, g.deck.across, g.options.edges)
  end
  local list = pressed(g)
  for i, mark in ipairs(g.order) do
    local row = list[i]
    row.live = largest(g.answer:extremes(i))
    row.f = found.frequency
    local isolated = mesh.isolated(g.lines[i],
      lines.loads(g.lines[i], {live = true}, "full"))
    row.lone_live = isolated and largest(isolated:extremes(1))
    found.joists[mark] = row
  end
  return found
end

feel.state = state_of

---------------------------------------------------------------------------- criteria

local IN_UNIT = {m = 1, mm = 1000}

-- A limit for a span of l meters.
local function limit_of(limit, l)
  if type(limit) == "number" then return limit end
  for _, step in ipairs(limit) do
    if not step.upto or l <= step.upto + 1e-9 then
      return step.value or step.a / (l * IN_UNIT[step.unit or "m"]) ^ step.p
    end
  end
end

-- What a test looks at, from d (in under 1 kN), f (Hz), live deflection (in), and what
-- the floor is as a whole.
local function measured(of, d, f, live, span, plate)
  if of == "v" then return plate and f and velocity.of(plate, f) end
  if of == "f" then return f end
  if of == "d" then return d and d * MM end
  if of == "fd" then return d and f and f / (d * MM) ^ 0.44 end
  return live and live > 0 and span / live or nil
end

-- @return {of =, value =, limit =, met =} of one test; nil where a number is missing
local function one_test(t, d, f, live, span, plate)
  local value = measured(t.of, d, f, live, span, plate)
  if not value then return nil end
  local limit
  if t.of == "v" then
    limit = d and velocity.limit(t.at_most.curve, d * MM, f, t.at_most.zeta)
    if not limit then return nil end
  else
    limit = limit_of(t.at_least or t.at_most or t.above, span * MM / 1000)
  end
  local met
  if t.at_least then met = value >= limit
  elseif t.above then met = value > limit
  else met = value <= limit end
  return {of = t.of, value = value, limit = limit, met = met}
end

local function judged(c, row, by, span, plate)
  local isolated = by == "lone"
  local out = {by = by, tests = {}, met = true}
  for i, t in ipairs(c.tests) do
    local found = one_test(t, isolated and row.lone_d or not isolated and row.d or nil,
      isolated and row.lone_f or not isolated and row.f or nil,
      isolated and row.lone_live or not isolated and row.live or nil, span, plate)
    if not found then return nil end
    out.tests[i] = found
    out.met = out.met and found.met
  end
  return out
end

local function wanted_criteria(names)
  local list = {}
  for _, c in ipairs(criteria) do
    local take = names == nil and c.default or names == "all"
    for _, name in ipairs(type(names) == "table" and names or {}) do
      take = take or name == c.name
    end
    if take then list[#list + 1] = c end
  end
  return list
end

local function check_names(names)
  if names == nil or names == "all" then return end
  if type(names) ~= "table" then
    error('floor:feel: criteria: "all" or a list of names expected', 0)
  end
  for _, name in ipairs(names) do
    local known = {}
    for _, c in ipairs(criteria) do
      if c.name == name then known = nil break end
      known[#known + 1] = c.name
    end
    if known then
      error(("floor:feel: criteria: unknown '%s' (available: %s)"):format(tostring(name),
        table.concat(known, ", ")), 0)
    end
  end
end

-------------------------------------------------------------------------------- public

-- The criteria for one joist in a state: {{name =, source =, status =, grid =, lone = {by
-- =, met =, tests = {{of =, value =, limit =, met =}}}}, ...}; values in Hz, mm, span
-- over deflection. nil where the state was refused.
function methods:judge(mark, state)
  local joist = self.joists[mark]
  if not joist then error(("feel:judge: no joist '%s'"):format(tostring(mark)), 2) end
  local row = joist[state or "cut"]
  if not row then return nil end
  local list, plate = {}, self.states.uncut.plate
  for i, c in ipairs(self.criteria) do
    list[i] = {name = c.name, source = c.source, status = c.status,
      grid = judged(c, row, "grid", joist.span, plate),
      lone = judged(c, row, "lone", joist.span, plate)}
  end
  return list
end

local function percent(new, old)
  return new and old and old ~= 0 and (new / old - 1) * 100 or nil
end

-- By joist: its states, and by how many percent d changes.
local function joists_of(self, reviews)
  for _, r in ipairs(reviews) do
    local _, span = middle(r.joist.model)
    local joist = {mark = r.mark, span = span, change = {}}
    for _, state in ipairs(STATES) do
      local found = self.states[state]
      joist[state] = found and not found.refused and found.joists[r.mark] or nil
    end
    local uncut = joist.uncut
    for _, state in ipairs {"cut", "repaired"} do
      joist.change[state] = joist[state] and percent(joist[state].d, uncut.d)
    end
    self.joists[r.mark], self.order[#self.order + 1] = joist, r.mark
  end
end

-- @param t options of floor:grid but for loads and state, and criteria
function feel.of(floor, reviews, t)
  check_names(t.criteria)
  local o = {}
  for name, value in pairs(t) do o[name] = value end
  o.criteria = nil
  for _, name in ipairs {"points", "uniform", "state"} do
    if o[name] ~= nil then error(("floor:feel: %s: not taken here"):format(name), 0) end
  end
  local self = setmetatable({states = {}, joists = {}, order = {}, frequency = {},
    change = {}, criteria = wanted_criteria(t.criteria)}, meta)
  local any = false
  for _, r in ipairs(reviews) do any = any or r.joist.repair ~= nil end
  for _, state in ipairs(STATES) do
    if state ~= "repaired" or any then
      self.states[state] = state_of(floor, reviews, o, state)
      self.frequency[state] = self.states[state].frequency
    end
  end
  if self.states.uncut.refused then return nil, self.states.uncut.refused end
  for _, state in ipairs {"cut", "repaired"} do
    self.change[state] = percent(self.frequency[state], self.frequency.uncut)
  end
  joists_of(self, reviews)
  return self
end

-- floor:feel{deck =, ...}: see lua/README.md. Raises at the caller's line.
function feel.new(floor, t)
  if type(t) ~= "table" then
    error("floor:feel: a table of options expected, got " .. type(t), 2)
  end
  local ok, made, why = pcall(function()
    local names = {"criteria", table.unpack(grid.fields)}
    parts.only("floor:feel", t, names, 0)
    local found = floor:review {rules = t.rules, standard = t.standard}
    local reviews = {}
    for i, mark in ipairs(found.order) do reviews[i] = found.joists[mark] end
    return feel.of(floor, reviews, t)
  end)
  if not ok then error((tostring(made):gsub("^[^:]+%.lua:%d+: ", "")), 2) end
  if not made then error("floor:feel: " .. why, 2) end
  return made
end

function feel.is(value)
  return getmetatable(value) == meta
end

return feel
