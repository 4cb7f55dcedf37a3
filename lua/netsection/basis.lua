-- SPDX-License-Identifier: MIT
-- What the numbers and formulas behind a check rest on: each number of a standard may
-- carry how far it was confirmed, and its file `basis` says so of forms of formulas. A
-- check that governs and rests on memory is named wherever its result stands.
--
--   read          read in a copy of the document
--   computed      worked back from published results
--   reading       the text was read, its meaning is our interpretation
--   memory        not seen
--   own, own copy given by the user; read by the user in the document itself
local point = require "netsection.point"

local basis = {}

--- Words for it, in the order of trust.
basis.words = {"own copy", "own", "read", "computed", "reading", "read second-hand",
  "memory"}
local RANK = {}
for i, word in ipairs(basis.words) do RANK[word] = i end

--- The weaker of two; either may be nil.
function basis.weaker(a, b)
  if not a or not b then return a or b end
  return RANK[b] > RANK[a] and b or a
end

--- The number of a field that is a number, or a table {value =, confidence =, ...}.
function basis.value(field)
  if type(field) == "table" then return field.value end
  return field
end

-- Keys that are texts, in one order.
local function names_of(t)
  local names = {}
  for name in pairs(t) do
    if type(name) == "string" then names[#names + 1] = name end
  end
  table.sort(names, point.less)
  return names
end

local function has(list, value)
  for _, entry in ipairs(list or {}) do
    if entry == value then return true end
  end
  return false
end

-- "no time effect factor on F_cp' (its clause)".
local function fact(name, entry)
  local where = entry.clause or entry.source
  local says = entry.says or entry.value
    and point.format("%s = %g", name, entry.value) or name
  return {name = name, confidence = entry.confidence, source = entry.source,
    where = entry.where, text = where and ("%s (%s)"):format(says, where) or says}
end

-- Entries of a standard that say how they are known: those of `basis`, then its numbers.
local function entries(data)
  local list = {}
  for _, entry in ipairs(data.basis or {}) do list[#list + 1] = {entry.name, entry} end
  for _, name in ipairs(names_of(data)) do
    local entry = data[name]
    if type(entry) == "table" and entry.confidence and entry.value ~= nil then
      list[#list + 1] = {name, entry}
    end
  end
  return list
end

local function applies(entry, mode, branch)
  return has(entry.checks, mode) and (not entry.branches or has(entry.branches, branch))
end

-- Factors that stand in the lines of a check, or say that it uses them.
local function factors(data, lines, mode, branch, list)
  local used = {}
  for _, line in ipairs(lines[mode] and lines[mode][branch] or {}) do
    used[line.name] = true
    for _, key in pairs(line.names or {}) do used[key] = true end
  end
  for _, name in ipairs(names_of(data.factors or {})) do
    local factor = data.factors[name]
    if used[name] or applies(factor, mode, branch) then
      list[#list + 1] = fact(name, factor)
    end
  end
end

--- What a check rests on, whatever its combination.
-- @param data of a standard; @param lines compiled, of steps.compile
-- @return a list of {name =, text =, source =, confidence =}
function basis.of(data, lines, mode, branch)
  local list = {}
  for _, pair in ipairs(entries(data)) do
    if applies(pair[2], mode, branch) then list[#list + 1] = fact(pair[1], pair[2]) end
  end
  factors(data, lines, mode, branch, list)
  return list
end

--- Whether a fact counts for a joist: `where` names values of its model for which it
-- does.
-- @param m the model, or nil
function basis.counts(one, m)
  for field, value in pairs(m and one.where or {}) do
    if m[field] ~= value then return false end
  end
  return true
end

--- What a gate rests on, by its number from 1.
function basis.of_gate(data, gate)
  local list = {}
  for _, pair in ipairs(entries(data)) do
    if has(pair[2].gates, gate) then list[#list + 1] = fact(pair[1], pair[2]) end
  end
  return list
end

--- What a load combination rests on; nil where the standard does not say it of the one.
function basis.of_combination(row)
  return row.confidence and fact("load combination " .. row.name, {
    says = "load combination " .. row.name, source = row.source,
    confidence = row.confidence}) or nil
end

--- What design values rest on; nil where they do not say it.
-- @param m a joist's model
function basis.of_wood(m)
  return m.confidence and fact("design values", {says = "design values of "
    .. (m.wood or m.source), confidence = m.confidence}) or nil
end

--- The weakest confidence among some facts; nil of none.
function basis.weakest(list)
  local word
  for _, one in ipairs(list) do word = basis.weaker(word, one.confidence) end
  return word
end

--- Texts of the facts that are from memory.
function basis.from_memory(list)
  local texts = {}
  for _, one in ipairs(list) do
    if one.confidence == "memory" then texts[#texts + 1] = one.text end
  end
  return texts
end

local SAID = " rests on memory, to be confirmed in the document before use: "

--- "lip-tension at hole 1 rests on memory, ...", or nil where it does not.
-- @param what the check's name in print; @param texts of basis.from_memory
function basis.said(what, texts)
  if #texts == 0 then return nil end
  return what .. SAID .. table.concat(texts, "; ")
end

--- Whether a reason of a review is one of basis.said.
function basis.is_said(text)
  return text:find(SAID, 1, true) ~= nil
end

return basis
