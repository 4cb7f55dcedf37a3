-- SPDX-License-Identifier: MIT
-- How far the numbers behind a check are known: the weakest of those that it used, and
-- which of them are from memory. A standard names them in its rows of checks
-- (rests_on), its factors say where each was seen.
local core = require "netsection.core"

local confidence = {}

-- In the order of trust.
local TRUST = {read = 1, own = 1, ["own copy"] = 1, computed = 2, reading = 3, memory = 4}

local index_of = {}
for name, entry in pairs(core.fields().symbol) do index_of[name] = entry.index end

-- Factors behind a check: those it always uses, and those that its record shows.
local function used(row, check, raw)
  local names = {table.unpack(row.rests_on or {})}
  for symbol, more in pairs(row.rests_on_if or {}) do
    local value = core.record(raw, check.index, index_of[symbol])
    if value ~= 1 then table.move(more, 1, #more, #names + 1, names) end
  end
  table.sort(names)
  return names
end

--- The weakest confidence behind a check, and what of it is from memory.
-- @param standard of packs.standard; @param raw the core's review
-- @param wood confidence of the joist's own values, or nil
-- @return word or nil where nothing says; list of texts such as "k_cr (6.1.7(2))"
function confidence.of(standard, check, raw, wood)
  local data, row = standard.data, standard.words.row[check.mode]
  if not row or not row.rests_on then return nil, {} end
  local worst, memory = wood or "read", {}
  local function count(word, what)
    if not word then return end
    if TRUST[word] > TRUST[worst] then worst = word end
    if word == "memory" then memory[#memory + 1] = what end
  end
  for _, c in ipairs(data.combinations) do
    if c.name == check.combination then count(c.confidence, c.name) end
  end
  for _, name in ipairs(used(row, check, raw)) do
    local f = data.factors[name]
    count(f.confidence, ("%s (%s)"):format(name, f.clause))
  end
  return worst, memory
end

--- What the governing check of a state rests on, as a sentence; nil where nothing of it
-- is from memory.
function confidence.said(standard, state, raw, wood)
  local k = state.governing_check
  if not k then return nil end
  local worst, memory = confidence.of(standard, k, raw, wood)
  k.confidence = worst
  if worst ~= "memory" then return nil end
  if wood == "memory" then table.insert(memory, 1, "the design values") end
  return ("what governs rests on memory: %s"):format(table.concat(memory, ", "))
end

return confidence
