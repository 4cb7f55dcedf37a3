-- SPDX-License-Identifier: MIT
-- Values of a sweep that a joist has only in its floor: by the grid and of its feel. Each
-- point puts its joist into the floor in place of the one of that mark. They stand beside
-- the values of the joist's own review and change none of them.
local feel = require "netsection.feel"
local floor_words = require "netsection.sweep.floor_words"
local grid = require "netsection.grid"
local tostring = require "netsection.point".text

local in_floor = {}

local STATE = {uncut = "uncut", cut = "cut", fixed = "repaired"}

-- Loaded when it is asked for: a floor reads joists as a sweep does.
local function floors() return require "netsection.floor" end

------------------------------------------------------------------------------- reading

local function lacks(outputs)
  for _, o in ipairs(outputs) do
    if o.search then
      return ("values: '%s': no span is sought in a floor"):format(o.name)
    end
  end
end

local function reviews_of(floor)
  local found, list = floor:review(), {}
  for i, mark in ipairs(found.order) do list[i] = found.joists[mark] end
  return list
end

--- The floor of a sweep, tried once as it stands.
-- @param t {floor =, joist = mark, grid = options of floor:grid without a state}
-- @return {floor =, mark =, grid =, feel =} and the joist; or nil and what is wrong
function in_floor.of(t)
  if not floors().is(t.floor) then return nil, "floor: a floor of ns.floor expected" end
  local joist = type(t.joist) == "string" and t.floor:joist(t.joist)
  if not joist then
    return nil, ("joist: the mark of one of the floor's joists expected, got %s"):format(
      tostring(t.joist))
  elseif type(t.grid) ~= "table" then
    return nil, "grid: options of floor:grid expected, e.g. {deck = \"24oc OSB\"}"
  elseif t.grid.state ~= nil then
    return nil, "grid.state: a value names it: uncut., cut. or fixed."
  elseif t.rules ~= nil or t.standard ~= nil then
    return nil, "rules, standard: the floor's own are taken"
  end
  -- Wrong options raise; a grid that cannot be made is said at its point.
  local ok, why = pcall(grid.of, t.floor, reviews_of(t.floor), t.grid)
  if not ok then return nil, "grid: " .. tostring(why):gsub("^floor:grid: ", "") end
  local plain = {}
  for name, value in pairs(t.grid) do plain[name] = value end
  plain.points, plain.uniform = nil, nil
  return {floor = t.floor, mark = t.joist, grid = t.grid, feel = plain}, joist
end

--- What is wrong with values that are asked for beside such a floor, or nil.
-- @param own of in_floor.of, or nil
function in_floor.problem(own, outputs)
  local asked
  for _, o in ipairs(outputs) do
    if o.shared then
      if not own then
        return ("values: '%s': give floor =, joist = its mark, and grid = {deck =}")
          :format(o.name)
      elseif o.shared.mark and not own.floor:joist(o.shared.mark) then
        return ("values: '%s': the floor has no joist '%s'"):format(o.name,
          o.shared.mark)
      elseif o.shared.feel == "change" and o.state == "uncut" then
        return ("values: '%s': of cut. or fixed., from uncut"):format(o.name)
      end
      asked = true
    end
  end
  if own and not asked then
    return "floor, grid: no value of the grid is asked for (grid.share.moment, "
      .. "feel.deflection)"
  end
  return own and lacks(outputs)
end

------------------------------------------------------------------------------- working

-- The floor with a joist in place of the one of its mark; or nil and what is wrong.
local function with(own, joist)
  local description, list = {}, {}
  for name, value in pairs(own.floor.description) do description[name] = value end
  for i, j in ipairs(own.floor.joists) do
    list[i] = j.model.mark == own.mark and joist or j
  end
  description.joists = list
  local made, found = floors().read(description)
  if made then return made end
  return nil, found[1].text
end

-- Answers of one point, each worked when it is asked for.
local point = {}
point.__index = point

function point:of_grid(state)
  local known = self.grids[state]
  if not known then
    local t = {state = STATE[state]}
    for name, value in pairs(self.own.grid) do t[name] = value end
    local g, why = grid.of(self.floor, self.reviews, t)
    known = {g = g, why = why}
    self.grids[state] = known
  end
  return known.g, known.why
end

function point:of_feel(state)
  local known = self.feels[state]
  if not known then
    known = feel.state(self.floor, self.reviews, self.own.feel, STATE[state])
    self.feels[state] = known
  end
  if known.refused then return nil, known.refused end
  local row = known.joists[self.own.mark]
  return not row.refused and row or nil, row.refused
end

-- @return the value, or nil and why there is none
function point:value(o)
  local s = o.shared
  if s.grid then
    local g, why = self:of_grid(o.state)
    return g and floor_words.of_grid[s.grid](g:of(s.mark or self.own.mark)), why
  end
  local row, why = self:of_feel(o.state)
  if s.feel ~= "change" or not row then
    return row and floor_words.of_feel[s.feel](row), why
  end
  local before
  before, why = self:of_feel "uncut"
  return before and (row.d / before.d - 1) * 100, why
end

--- @param joist of the point, read
-- @return a point whose :value(output) answers; or nil and why there is none
function in_floor.point(own, joist)
  local floor, why = with(own, joist)
  if not floor then return nil, why end
  return setmetatable({own = own, floor = floor, reviews = reviews_of(floor), grids = {},
    feels = {}}, point)
end

return in_floor
