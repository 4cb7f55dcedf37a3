-- SPDX-License-Identifier: MIT
-- Which student gets which version of a problem. Each draws by lot from a seed of the
-- course's seed, the student's id and the problem, so the same comes out on any machine.
-- A version that somebody before in the list has is drawn again while there are others,
-- and where a kind has several modes each student gets one that is rare so far. So a
-- student who is added at the end of the list changes nobody else's numbers.
local random = require "netsection.homework.random"
local version = require "netsection.homework.version"

local draw = {}

local TRIES = 48      -- by lot, before the versions are gone through in turn

-- The pool of a problem: versions by number, made when first drawn.
function draw.pool(problem)
  local lists = problem.lists
  local names = problem.kind.names
  return {problem = problem, lists = lists, names = names,
    space = version.space(names, lists), made = {}, used = {}, counts = {}, spent = {},
    rounds = 1}
end

local function version_at(pool, n)
  local known = pool.made[n]
  if known == nil then
    local problem = pool.problem
    local v = version.new(problem.kind, version.values(pool.names, pool.lists, n))
    v.mode = version.mode(v, problem.near_edge)
    if not v.mode and pool.space == 1 and version.sound(v) then
      v.mode = version.keep(v)      -- every base value was given: the teacher's choice
    end
    v.number = n
    local wanted = problem.mode
    known = v.mode and (not wanted or wanted == v.mode) and v or false
    pool.made[n] = known
  end
  return known
end

-- Modes with the fewest students so far; all where the kind has one.
local function rare(pool)
  local modes = pool.problem.kind.modes
  if not modes or pool.problem.mode then return nil end
  local least, set = math.huge, {}
  for _, mode in ipairs(modes) do
    if not pool.spent[mode] then least = math.min(least, pool.counts[mode] or 0) end
  end
  for _, mode in ipairs(modes) do
    set[mode] = not pool.spent[mode] and (pool.counts[mode] or 0) == least or nil
  end
  return next(set) and set
end

local function free(pool, n, modes)
  if (pool.used[n] or 0) >= pool.rounds then return false end
  local v = version_at(pool, n)
  return v and (not modes or modes[v.mode]) and v
end

-- From a place drawn by lot onwards, so that no stretch of the list is favoured.
local function in_turn(pool, from, modes)
  for i = 0, pool.space - 1 do
    local v = free(pool, (from + i) % pool.space, modes)
    if v then return v end
  end
end

local function search(pool, generator, modes)
  local n
  for _ = 1, TRIES do
    n = generator:below(pool.space)
    local v = free(pool, n, modes)
    if v then return v end
  end
  return in_turn(pool, n, modes)
end

-- A mode whose versions are all taken is not waited for.
local function retire(pool, modes)
  for mode in pairs(modes) do pool.spent[mode] = true end
end

--- The version of one student. @return version; or nil where the problem has none
function draw.next(pool, seed)
  local generator = random.new(seed)
  local modes = rare(pool)
  local v = search(pool, generator, modes)
  if not v and modes then
    retire(pool, modes)
    v = search(pool, generator)
  end
  if not v and next(pool.used) then
    pool.rounds, pool.spent = pool.rounds + 1, {}
    v = search(pool, generator)
  end
  if not v then return nil end
  pool.used[v.number] = (pool.used[v.number] or 0) + 1
  pool.counts[v.mode] = (pool.counts[v.mode] or 0) + 1
  return v
end

--- True where two students have the same version.
function draw.repeated(pool)
  return pool.rounds > 1
end

return draw
