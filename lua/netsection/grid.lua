-- SPDX-License-Identifier: MIT
-- A floor as a grid: joists with their own EI along the length, the deck across them,
-- rows of blocks. A second opinion on who carries what: no ratio and no action comes from
-- it. Left out: torsion of joists, T-action and slip of the deck on them, membrane
-- action, twisting stiffness of the deck. Bearings hold both ways.
local across = require "netsection.grid.across"
local core = require "netsection.core"
local format = require "netsection.format"
local lines = require "netsection.grid.lines"
local mesh = require "netsection.grid.mesh"
local options = require "netsection.grid.options"
local packs = require "netsection.packs"
local point = require "netsection.point"
local roof_loads = require "netsection.roof_loads"
local until_repaired = require "netsection.grid.until_repaired"
local error = require "netsection.raise".error
local plain = require "netsection.document.escape".text
local tostring = require "netsection.point".text

local grid = {fields = options.fields}
local methods = {}
local meta = {__index = methods, __name = "netsection.grid",
  __tostring = function(g)
    return ("grid of floor '%s', %d joists, %s"):format(plain(g.floor.name), #g.order,
      g.state)
  end}

------------------------------------------------------------------------------- building

local function wanted_places(o, rows)
  local list = {table.unpack(o.places or {})}
  for _, row in ipairs(rows or {}) do list[#list + 1] = row.at end
  for _, p in ipairs(o.points) do list[#list + 1] = p.at end
  for _, row in ipairs(o.blocking) do list[#list + 1] = row.at end
  return list
end

-- The factored grid of a list of lines. @param by {deck = factor, joist = {[mark] =
-- factor}, k = of block ends that have none}
local function factored(list, o, by)
  local t = mesh.of(list, wanted_places(o, list.rows), by.joist)
  local deck = by.deck or 1
  for i, line in ipairs(list) do
    local tributary = #list > 1 and line.trib or line.m.spacing
    t.along[i] = o.deck.along / 12 * deck * tributary
  end
  across.deck(t, #list, o.deck.across / 12 * deck, o.panel_ends)
  across.blocks(t, #list, o.blocking, by.k or 0)
  across.blocks(t, #list, list.rows or {}, 0)
  local g, why = core.grid(t)
  return g, t, why
end

-- Loads of one line: the floor's, and the points on it.
local function loads_of(line, o)
  local loads = lines.loads(line, o.cases, o.edges)
  for _, p in ipairs(o.points) do
    for _, one in ipairs(p.on) do
      if one[1] == line then
        loads.points[#loads.points + 1] = {p.at, p.load * one[2]}
      end
    end
  end
  return loads
end

-- A point load over a gap stands on one strip alone unless the deck is stiff along the
-- joists: the answer would grow as the strip gets narrower.
local function over_gap(line, loads, o)
  if o.deck.along > 0 then return nil end
  for _, p in ipairs(loads.points) do
    for _, g in ipairs(line.gaps) do
      if p[1] > g[1] + 1e-9 and p[1] < g[2] - 1e-9 then
        return ("a point load stands over the gap of %s: give the deck's EI along the "
          .. "joists (along), or one strip alone would carry it"):format(line.mark)
      end
    end
  end
end

local function solved(g, t, loads)
  local into = {q = {}, P = {}}
  for i, one in ipairs(loads) do mesh.put(t.x, into, i, one) end
  return g:solve(into)
end

-------------------------------------------------------------------------------- results

local function largest(e)
  if -e.w_min.value > e.w_max.value then return e.w_min end
  return e.w_max
end

-- Moments and deflections of all joists at x; nil where a joist does not reach it.
local function section(self, x)
  local M, w = {}, {}
  for i, line in ipairs(self.lines) do
    local here = x >= line.first and x <= line.last
    local p = here and self.answer:at(i, x)
    M[i], w[i] = p and p.M or 0, p and p.w or 0
  end
  return M, w
end

local function sum(list)
  local total = 0
  for _, v in ipairs(list) do total = total + v end
  return total
end

local function part(v, total)
  return total ~= 0 and v / total or nil
end

-- Rounding of what is 0, beside the largest moment of any joist.
local function no_dust(self, e)
  if not self.dust then
    local most = 0
    for k = 1, #self.lines do
      local one = self.answer:extremes(k)
      most = math.max(most, one.M_max.value, -one.M_min.value)
    end
    self.dust = 1e-9 * most
  end
  for _, name in ipairs {"M_max", "M_min"} do
    if math.abs(e[name].value) < self.dust then e[name].value = 0.0 end
  end
  return e
end

-- One joist's numbers of an answer.
local function result(self, i)
  local line, e = self.lines[i], no_dust(self, self.answer:extremes(i))
  local w = largest(e)
  local R = self.answer:reactions(i)
  local r = {mark = line.mark, reactions = R, reaction = sum(R), M_max = e.M_max.value,
    M_max_at = e.M_max.x, M_min = e.M_min.value, M_min_at = e.M_min.x,
    V_max = e.V_max.value, V_max_at = e.V_max.x, deflection = {x = w.x, value = w.value},
    share = {reactions = part(sum(R), self.load),
      moment = part(self.section.M[i], self.section.M_all),
      deflection = part(self.section.w[i], self.section.w_all)}}
  local d = self.deck_moments[i]
  r.deck = {M_max = d.M_max.value * 12, M_max_at = d.M_max.x,
    M_min = d.M_min.value * 12 + 0.0,
    M_min_at = d.M_min.x}
  return r
end

-- What one joist carries: {reactions = {lb}, reaction = their sum, share = {reactions =
-- of all load, moment = and deflection = of the sums over all joists at the section of
-- the first point load, or at mid-span}, deflection = {x =, value = largest, down},
-- M_max =, M_min = (lb-in, sagging positive; M_max_at), V_max =, deck = {M_max =, M_min =
-- lb-in per ft of the deck over it}}. Raises for marks that are not in the floor.
function methods:of(mark)
  local i = self.index[mark]
  if not i then error(("grid:of: no joist '%s'"):format(tostring(mark)), 2) end
  self.results[i] = self.results[i] or result(self, i)
  return self.results[i]
end

-- Deflection (down), slope, M and V of a joist at x inches from the left bearing: {w =,
-- slope =, M =, V =, deflection = w}.
function methods:at(mark, x)
  local i = self.index[mark]
  if not i then error(("grid:at: no joist '%s'"):format(tostring(mark)), 2) end
  local line = self.lines[i]
  if type(x) ~= "number" or not (x >= line.first and x <= line.last) then
    error(point.format("grid:at: x: a place on joist %s, %g to %g in, expected", mark,
      line.first + 0.0, line.last), 2)
  end
  local p = self.answer:at(i, x)
  p.deflection = p.w
  return p
end

-- Lowest frequencies of the floor under its dead load, Hz: {{hertz =, moves = {[mark] =
-- movement of the joist, 1 where it is largest}}, ...}.
function methods:modes(n)
  local mass = {}
  for i, line in ipairs(self.lines) do
    mass[i] = mesh.total(lines.loads(line, {dead = true}, self.options.edges))
      / (line.last - line.first) / 386.0886
  end
  local list = {}
  for k, mode in ipairs(self.core:modes(mass, n or 3)) do
    list[k] = {hertz = mode.hertz, moves = {}}
    for i, line in ipairs(self.lines) do list[k].moves[line.mark] = mode.moves[i] end
  end
  return list
end

-- Difference of deflection between the joists of each bay, in, and by the bay.
local function bays_of(self)
  local list = {}
  for i = 2, #self.lines do
    local a, b = self.lines[i - 1], self.lines[i]
    local most, at = 0, self.stations[1]
    for _, x in ipairs(self.stations) do
      if x >= math.max(a.first, b.first) and x <= math.min(a.last, b.last) then
        local diff = math.abs(self.answer:at(i - 1, x).w - self.answer:at(i, x).w)
        if diff > most then most, at = diff, x end
      end
    end
    list[i - 1] = {from = a.mark, to = b.mark, differential = most, at = at,
      slope = most / (b.y - a.y)}
  end
  return list
end

-- Differential deflection of each bay: {{from =, to = marks, differential = in, at =,
-- slope = of the spacing}, ...}.
function methods:bays()
  self.known_bays = self.known_bays or bays_of(self)
  return self.known_bays
end

-- Bearings that would lift: the sum of this load and, where it is not in it, of the dead
-- load by the same grid is upward: {{mark =, bearing =, sum =}, ...}, lb.
local function uplift_of(self)
  local list, with_dead = {}, self.options.cases.dead
  local dead
  if not with_dead then
    local loads = {}
    for i, line in ipairs(self.lines) do
      loads[i] = lines.loads(line, {dead = true}, self.options.edges)
    end
    dead = solved(self.core, self.t, loads)
  end
  for i, line in ipairs(self.lines) do
    local R, D = self.answer:reactions(i), dead and dead:reactions(i)
    for n, v in ipairs(R) do
      local total = v + (D and D[n] or 0)
      if total < -1e-6 then
        list[#list + 1] = {mark = line.mark, bearing = n, sum = total}
      end
    end
  end
  return list
end

function methods:uplift()
  self.known_uplift = self.known_uplift or uplift_of(self)
  return self.known_uplift
end

---------------------------------------------------------------------------------- bands

local DECKS, JOISTS = {0.5, 1, 2}, {0.75, 1, 1.25}

local function widen(range, v)
  range[1], range[2] = math.min(range[1], v), math.max(range[2], v)
end

-- Ranges over the deck at half and twice its EI and the joists (or the doubtful one) at
-- 0.75 and 1.25 times theirs: {[mark] = {M_max = {low, high}, deflection =, reaction =}}.
local function band_of(self)
  local band = {}
  for _, mark in ipairs(self.order) do
    band[mark] = {M_max = {math.huge, -math.huge}, deflection = {math.huge, -math.huge},
      reaction = {math.huge, -math.huge}}
  end
  for _, deck in ipairs(DECKS) do
    for _, joist in ipairs(JOISTS) do
      local by = {deck = deck, joist = {}, k = self.k}
      for _, mark in ipairs(self.order) do
        local doubtful = self.options.doubtful
        by.joist[mark] = (doubtful == nil or doubtful == mark) and joist or nil
      end
      local g, t = factored(self.lines, self.options, by)
      local answer = g and solved(g, t, self.loads)
      for i, mark in ipairs(answer and self.order or {}) do
        local e = answer:extremes(i)
        widen(band[mark].M_max, e.M_max.value)
        widen(band[mark].deflection, largest(e).value)
        widen(band[mark].reaction, sum(answer:reactions(i)))
      end
    end
  end
  return band
end

function methods:band()
  self.known_band = self.known_band or band_of(self)
  return self.known_band
end

--------------------------------------------------------------------------------- making

-- The joist that a load is on and by itself: its deflection there, in; nil where it does
-- not stand alone.
local function isolated_sag(self, i)
  local one = mesh.isolated(self.lines[i], self.loads[i])
  return one and largest(one:extremes(1)).value
end

-- Why a load at x on joist i has no answer, or nil.
function methods:over_gap(i, x)
  return over_gap(self.lines[i], {points = {{x, 1}}}, self.options)
end

-- The floor under one load on joist i at a station, and nothing else.
function methods:press(i, x, lb)
  return self.core:solve {P = {{i, mesh.nearest(self.stations, x), lb}}}
end

-- Largest deflection of a joist under its own loads without the others, in; nil where it
-- cannot stand by itself.
function methods:lone(mark)
  local i = self.index[mark]
  if not i then error(("grid:lone: no joist '%s'"):format(tostring(mark)), 2) end
  return isolated_sag(self, i)
end

local function answered(floor, list, o, k)
  local self = setmetatable({floor = floor, state = o.state, deck = o.deck,
    options = o, lines = list, order = {}, index = {}, loads = {}, results = {}, k = k},
    meta)
  self.load = 0
  for i, line in ipairs(list) do
    self.order[i], self.index[line.mark] = line.mark, i
    self.loads[i] = loads_of(line, o)
    self.load = self.load + mesh.total(self.loads[i])
    local why = over_gap(line, self.loads[i], o)
    if why then return nil, why end
  end
  local g, t, why = factored(list, o, {k = k})
  if not g then return nil, why end
  self.core, self.t, self.stations = g, t, t.x
  self.answer = solved(g, t, self.loads)
  self.deck_moments = self.answer:deck()
  local x = o.points[1] and o.points[1].at
    or (t.x[1] + t.x[#t.x]) / 2
  local M, w = section(self, x)
  self.section = {x = x, M = M, w = w, M_all = sum(M), w_all = sum(w)}
  return self
end

-- Rows without a stiffness of their ends are counted twice: as nothing, and as ends that
-- do not turn, which no real row reaches.
local function open_rows(o)
  for _, row in ipairs(o.blocking) do
    if row.k == nil then return true end
  end
  return false
end

-- @param reviews of the floor's joists in order, as floor:review gives them
-- @param places further places along the joists that must be stations, or nil
-- @return grid; or nil and why it cannot be made. Raises a text for bad options.
function grid.of(floor, reviews, t, places)
  if reviews[1] and reviews[1].factored then
    return nil, format.refusal(packs.standard(reviews[1].options.standard), "a grid")
  end
  for _, r in ipairs(reviews) do
    local why = roof_loads.refusal(r.joist.model, "a grid")
    if why then return nil, ("joist %s: %s"):format(r.mark, why) end
  end
  local o = options.first(t)
  o.places = places
  local list, why = lines.of(floor, reviews, o.state, o.EI)
  if not list then return nil, why end
  options.rest(o, t, list)
  local self
  self, why = answered(floor, list, o, 0)
  if not self then return nil, why end
  if open_rows(o) then
    self.rigid = answered(floor, list, o, math.huge)
    self.rigid.bound = "block ends that do not turn: an upper bound"
    self.bound = "rows without k counted as nothing"
  end
  return self
end

-- floor:grid{deck =, blocking =, panel_ends =, points =, uniform =, edges =, state =,
-- EI =, doubtful =}: see lua/README.md. Raises at the caller's line.
function grid.new(floor, t)
  if type(t) ~= "table" then
    error("floor:grid: a table of options expected, got " .. type(t), 2)
  end
  local ok, made, why = pcall(function()
    local reviews = {}
    local found = floor:review {rules = t.rules, standard = t.standard}
    for i, mark in ipairs(found.order) do reviews[i] = found.joists[mark] end
    return grid.of(floor, reviews, t)
  end)
  if not ok then error((tostring(made):gsub("^[^:]+%.lua:%d+: ", "")), 2) end
  if not made then error("floor:grid: " .. why, 2) end
  return made
end

local NOT_HERE = {"points", "uniform", "state", "repetitive", "rules", "standard"}

-- The second opinion beside the reviews of a floor: the floor as found under all its
-- loads, with .sound the same with every joist sound where any has a cut; the joists
-- beside one that is out get until_repaired.grid. Ratios, status and actions stay.
-- @param t options of floor:grid without loads and state
-- @return grid, or {refused = why}
function grid.second(floor, reviews, t)
  if type(t) ~= "table" then
    error("floor:review: grid: a table of options expected, got " .. type(t), 0)
  end
  for _, name in ipairs(NOT_HERE) do
    if t[name] ~= nil and not (name == "repetitive" and t[name] == 1) then
      error(("floor:review: grid.%s: not taken here%s"):format(name, name == "repetitive"
        and ": the repetitive factor is 1.0 in a grid" or ""), 0)
    end
  end
  local whole = {uniform = true}
  for name, value in pairs(t) do whole[name] = value end
  local found, why = grid.of(floor, reviews, whole)
  if not found then return {refused = why} end
  local cut = false
  for _, r in ipairs(reviews) do
    cut = cut or r.out ~= nil or #r.joist.model.cuts > 0
  end
  if cut then
    whole.state = "uncut"
    found.sound, why = grid.of(floor, reviews, whole)
    if not found.sound then return {refused = why} end
    until_repaired.add(reviews, found, found.sound)
  end
  found.use = {}
  for _, r in ipairs(reviews) do found.use[r.mark] = until_repaired.use(r, found) end
  return found
end

function grid.is(value)
  return getmetatable(value) == meta
end

return grid
