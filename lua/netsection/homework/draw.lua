-- SPDX-License-Identifier: MIT
-- Which student gets which version of a problem. Each draws by lot from a seed of the
-- course's seed, the student's id and the problem, so the same comes out on any machine.
-- A version that somebody before in the list has, or whose answers are the same, is drawn
-- again while there are others, and where a kind has several modes each student gets one
-- that is rare so far. So a student who is added at the end of the list changes nobody
-- else's numbers; a set that was saved keeps everybody's (homework/saved.lua).
local hardness = require "netsection.homework.hardness"
local kind = require "netsection.homework.kind"
local random = require "netsection.random"
local version = require "netsection.homework.version"

local draw = {}

local TRIES = 48      -- by lot, before the versions are gone through in turn
local CHOICES = 3     -- of which the one whose hardness the sheet needs most is taken

-- The pool of a problem: versions by number, made when first drawn.
function draw.pool(problem)
  local lists = problem.lists
  local names = problem.kind.names
  return {problem = problem, lists = lists, names = names,
    space = version.space(names, lists), made = {}, used = {}, answers = {}, counts = {},
    spent = {}, rounds = 1}
end

-- What a version answers, as it is printed: two versions alike in it are one to a
-- neighbor.
local function answers_of(v)
  local list = {}
  for _, step in ipairs(v.kind.steps) do
    if step.ask and not step.hand then
      list[#list + 1] = version.printed(v, step.symbol)
    end
  end
  return table.concat(list, "|")
end

--- The version with a number; false where it makes no fair question.
function draw.version_at(pool, n)
  local known = pool.made[n]
  if known == nil then
    local problem = pool.problem
    local v = version.new(problem.kind, version.values(pool.names, pool.lists, n))
    v.mode = version.mode(v, problem.near_edge)
    pool.fault = pool.fault or v.mode and kind.word_problem(v.kind, v.s, v.p)
    if not v.mode and pool.space == 1 and version.sound(v) then
      v.mode = version.keep(v)      -- every base value was given: the teacher's choice
    end
    local wanted = problem.mode
    known = v.mode and (not wanted or wanted == v.mode) and v or false
    if known then v.number, v.answers = n, answers_of(v) end
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
  local v = draw.version_at(pool, n)
  return v and (not modes or modes[v.mode])
    and (pool.answers[v.answers] or 0) < pool.rounds and v
end

-- From a place drawn by lot onwards, so that no stretch of the list is favoured.
local function in_turn(pool, from, modes)
  for i = 0, pool.space - 1 do
    local v = free(pool, (from + i) % pool.space, modes)
    if v then return v end
  end
end

-- A few by lot; of them the one that comes nearest to the hardness wanted.
local function search(pool, generator, modes, wanted)
  local n, best, least, found = nil, nil, math.huge, 0
  for _ = 1, TRIES do
    n = generator:below(pool.space)
    local v = free(pool, n, modes)
    local far = v and math.abs(hardness.of(v) - wanted)
    if v and far < least then best, least = v, far end
    found = found + (v and 1 or 0)
    if found == CHOICES then break end
  end
  return best or in_turn(pool, n, modes)
end

-- A mode whose versions are all taken is not waited for.
local function retire(pool, modes)
  for mode in pairs(modes) do pool.spent[mode] = true end
end

--- The version of one student. @param wanted the hardness that its sheet needs
-- @return version; or nil where the problem has none
function draw.next(pool, seed, wanted)
  local generator = random.new(seed)
  local modes = rare(pool)
  local v = search(pool, generator, modes, wanted)
  if not v and modes then
    retire(pool, modes)
    v = search(pool, generator, nil, wanted)
  end
  if not v and next(pool.used) then
    pool.rounds, pool.spent = pool.rounds + 1, {}
    v = search(pool, generator, nil, wanted)
  end
  if not v then return nil end
  draw.count(pool, v)
  return v
end

--- Counts a version as somebody's.
function draw.count(pool, v)
  pool.used[v.number] = (pool.used[v.number] or 0) + 1
  pool.answers[v.answers] = (pool.answers[v.answers] or 0) + 1
  pool.counts[v.mode] = (pool.counts[v.mode] or 0) + 1
end

-- Whether a base value changes an answer: versions that differ in it alone, a few times.
local function matters(pool, at)
  local before = 1
  for i = 1, at - 1 do before = before * #pool.lists[pool.names[i]] end
  local size, tried = #pool.lists[pool.names[at]], 0
  for n = 0, pool.space - 1 do
    if n // before % size == 0 then
      local first = version.new(pool.problem.kind, version.values(pool.names, pool.lists,
        n))
      local other = version.new(pool.problem.kind,
        version.values(pool.names, pool.lists, n + before))
      if answers_of(first) ~= answers_of(other) then return true end
      tried = tried + 1
      if tried == 12 then return false end
    end
  end
  return false
end

--- What a teacher should know of a set: versions that ran out, base values that change no
-- answer.
function draw.warnings(set)
  local list = {}
  for i, problem in ipairs(set.problems) do
    local pool = problem.pool
    if draw.repeated(pool) then
      list[#list + 1] = ("problem %d (%s): more students than versions with answers of "
        .. "their own"):format(i, problem.kind.name)
    end
    for at, name in ipairs(pool.names) do
      if #pool.lists[name] > 1 and not matters(pool, at) then
        list[#list + 1] = ("problem %d (%s): %s varies and changes no answer"):format(i,
          problem.kind.name, name)
      end
    end
  end
  return list
end

--- True where two students have the same version.
function draw.repeated(pool)
  return pool.rounds > 1
end

return draw
