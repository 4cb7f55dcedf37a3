-- SPDX-License-Identifier: MIT
-- Answers that are those of another student's sheet: handed in under one's own name and
-- code, they are told and not marked. Evidence is counted over the whole sheet, so that a
-- number misread in one problem, from which other answers follow, is no copy.
local copied = {}

local CLOSE = 0.005       -- relative, since numbers are handed on as they were printed
local LEAST = 5           -- numbers that have to be there
local OTHERS = 0.8        -- share of them that fits the other sheet
local OWN = 0.65          -- largest share that fits one's own
local MORE = 3            -- more that fit the other than fit one's own

-- Numbers within CLOSE are in one drawer or in two that are neighbors.
local function drawer(x)
  return math.floor(math.log(math.abs(x)) / (2 * CLOSE))
end

-- Right answers of all students by part: {[problem][part][drawer] = {{id, value}, ...}}.
local function index_of(set)
  local index = {}
  for i = 1, #set.problems do
    index[i] = {}
    for _, student in ipairs(set.students) do
      local v = student[i]
      for _, step in ipairs(v.kind.steps) do
        local x = step.part and v.s[step.symbol]
        if type(x) == "number" and x ~= 0 then
          local by = index[i][step.part] or {}
          index[i][step.part] = by
          local n = drawer(x)
          by[n] = by[n] or {}
          table.insert(by[n], {student.id, x})
        end
      end
    end
  end
  return index
end

-- Adds one to everybody whose answer to a part is this number.
local function count(by, x, own, tally)
  local n = drawer(x)
  for k = n - 1, n + 1 do
    for _, one in ipairs(by[k] or {}) do
      if one[1] ~= own and math.abs(one[2] / x - 1) <= CLOSE then
        tally[one[1]] = (tally[one[1]] or 0) + 1
      end
    end
  end
end

-- Numbers that were read, and how many of them are right.
local function own_numbers(result)
  local n, right = 0, 0
  for _, problem in ipairs(result.problems) do
    for _, entry in ipairs(problem.parts) do
      if type(entry.value) == "number" and entry.value ~= 0 then
        n = n + 1
        right = right + (entry.verdict == "right" and 1 or 0)
      end
    end
  end
  return n, right
end

-- The other student whose answers most of these are. @return id, how many
local function nearest(index, order, result)
  local tally = {}
  for i, problem in ipairs(result.problems) do
    for _, entry in ipairs(problem.parts) do
      local by = index[i][entry.part]
      if by and type(entry.value) == "number" and entry.value ~= 0 then
        count(by, entry.value, result.id, tally)
      end
    end
  end
  local best, most = nil, 0
  for _, id in ipairs(order) do
    if (tally[id] or 0) > most then best, most = id, tally[id] end
  end
  return best, most
end

-- Takes the marks of a submission away. @return why
local function withdraw_marks(result, other, most, n)
  local first
  for _, problem in ipairs(result.problems) do
    problem.marks = 0
    for _, entry in ipairs(problem.parts) do
      if entry.given and entry.given ~= "" and entry.verdict ~= "by hand" then
        first = first or entry.row
        entry.verdict, entry.marks = "another version", 0
        entry.hint, entry.mistake = "the answers are to another student's numbers", nil
      end
    end
  end
  result.marks, result.copied_from = 0, other
  return {row = first or 1, reason = ("%s: %d of %d numbers are those of the sheet of "
    .. "%s: not marked"):format(result.id, most, n, other)}
end

--- A function that looks at one marked submission and, where it is another student's,
-- takes its marks away. @param own {id = true} of students who are taken at their word
-- @return function(result) -> {row =, reason =}, or nil where the answers are one's own
function copied.detector(set, own)
  local index, order
  return function(result)
    local n, right = own_numbers(result)
    if own[result.id] or n < LEAST or right > OWN * n then return nil end
    if not index then
      index, order = index_of(set), {}
      for i, student in ipairs(set.students) do order[i] = student.id end
    end
    local other, most = nearest(index, order, result)
    if most >= OTHERS * n and most - right >= MORE then
      return withdraw_marks(result, other, most, n)
    end
  end
end

return copied
