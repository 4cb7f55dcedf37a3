-- SPDX-License-Identifier: MIT
-- The verdict on each part of one problem: what was written beside what is right, beside
-- each common mistake, and beside what follows from the student's own earlier numbers.
--
-- An answer that is wrong but follows from an earlier wrong one of the same problem gets
-- a share of its marks: the steps are worked again with the student's number in place.
-- The earlier number has to be a plausible try: not nothing, of the right sign and size,
-- and not one number written everywhere. A mistake that is recognized gets no marks,
-- unless the problem says so, but a hint. A word counts with the numbers before it: by
-- itself it is guessed in one of two cases.
local answer = require "netsection.homework.answer"
local kind = require "netsection.homework.kind"
local text = require "netsection.text"
local version = require "netsection.homework.version"

local judge = {}

local FAR = 20         -- times the right number, either way: no plausible try
local EVERYWHERE = 3   -- parts with one number in them that nobody works out

-- Factors that units slip by: inches in a foot, square inches, cubic; kips.
local SLIPS = {
  {12, "inches and feet"}, {144, "square inches and square feet"},
  {1728, "cubic inches and cubic feet"}, {1000, "pounds and kips"},
}
local METRIC_SLIPS = {
  {1000, "mm and m, or N and kN"}, {1000000, "mm2 and m2, or N mm and kN m"},
  {10, "mm and cm"},
}

local near = version.near

---------------------------------------------------------------------------- one answer

-- What the step comes to with the student's earlier wrong answers in place, or nil.
local function followed(v, step, own)
  if next(own) == nil then return nil end
  local ok, s = pcall(kind.work, v.kind, v.given, v.p, nil, own)
  local x = ok and s[step.symbol]
  if type(x) == "number" and (x ~= x or x == math.huge or x == -math.huge) then
    return nil
  end
  return x or nil
end

-- The common mistake that comes nearest, or nil.
local function recognised(v, step, value)
  local best, found = step.tolerance, nil
  for i, values in ipairs(v.slips) do
    local x = values[step.symbol]
    if x and x ~= 0 and math.abs(value / x - 1) <= best then
      best, found = math.abs(value / x - 1), v.kind.mistakes[i]
    end
  end
  return found
end

local function slipped(step, value, correct, slips)
  if correct == 0 then return nil end
  if near(-value, correct, step.tolerance) then return "the sign is the other way" end
  for _, slip in ipairs(slips) do
    if near(value, correct * slip[1], step.tolerance) then
      return ("%d times too large: %s"):format(slip[1], slip[2])
    elseif near(value, correct / slip[1], step.tolerance) then
      return ("%d times too small: %s"):format(slip[1], slip[2])
    end
  end
end

local function wrong_hint(step, earlier)
  return step.hint or earlier and "no common mistake fits; put the first wrong part right"
    or "no common mistake fits; write the step out with its units"
end

-- A try that later parts may rest on.
local function plausible(value, correct)
  if type(value) ~= "number" or type(correct) ~= "number" then return false end
  if value == 0 or correct == 0 then return false end
  local q = value / correct
  return q > 1 / FAR and q < FAR
end

-- A step with the tolerance that the problem has, if any.
local function with_tolerance(step, problem)
  if not problem.tolerance then return step end
  return setmetatable({tolerance = problem.tolerance}, {__index = step})
end

-- Verdict, hint and the mistake of one answer that was read.
local function verdict_of(v, step, value, tried)
  local correct = v.s[step.symbol]
  if tried.everywhere[value] then return "wrong", "one number stands in many parts" end
  if version.right(step, value, correct) then return "right" end
  local follows = followed(v, step, tried.own)
  if follows ~= nil and value ~= 0 and version.right(step, value, follows) then
    return "follows", ("from your own (%s)"):format(table.concat(tried.earlier, "), ("))
  end
  if step.choice then return "wrong", wrong_hint(step, tried.earlier[1]) end
  local mistake = recognised(v, step, value)
  if mistake then
    return "mistake", ("looks like %s: %s"):format(mistake.name, mistake.reveals),
      mistake.name
  end
  local slip = slipped(step, value, correct,
    v.kind.units == "metric" and METRIC_SLIPS or SLIPS)
  if slip then return "unit slip", slip, slip end
  return "wrong", wrong_hint(step, tried.earlier[1])
end

---------------------------------------------------------------------------- one problem

-- Value, or nil and why; third: it was read, but in another quantity's unit.
local function read_answer(step, said, decimal)
  if step.choice then return answer.choice(said, step.choice) end
  return answer.number(said, step.unit, decimal)
end

-- What was written in each part: {part = {value, why, other}}.
local function read_all(v, rows, decimal)
  local read = {}
  for _, step in ipairs(v.kind.steps) do
    local row = step.part and not step.hand and rows[step.part]
    if row and row.answer ~= "" and not row.other_version then
      read[step.part] = {read_answer(step, row.answer, decimal)}
    end
  end
  return read
end

-- Numbers that stand in three parts or more and are right in fewer than half of them:
-- nobody works them out, so they earn nothing and nothing follows from them.
local function written_everywhere(v, read)
  local count, right, everywhere = {}, {}, {}
  for _, step in ipairs(v.kind.steps) do
    local value = not step.choice and read[step.part] and read[step.part][1]
    if value then
      count[value] = (count[value] or 0) + 1
      if version.right(step, value, v.s[step.symbol]) then
        right[value] = (right[value] or 0) + 1
      end
    end
  end
  for value, n in pairs(count) do
    everywhere[value] = n >= EVERYWHERE and (right[value] or 0) < n / 2 or nil
  end
  return everywhere
end

local function entry_of(step, row)
  return {part = step.part, symbol = step.symbol, row = row and row.row,
    given = row and row.answer, out_of = step.marks, marks = 0}
end

-- Numbers that somebody worked out, if not all of them rightly.
local WORKED = {right = true, follows = true, mistake = true, ["unit slip"] = true}

-- A word that nothing before it bears out: no number of the problem that is right,
-- follows or is a known mistake, though numbers are asked for before it.
local function word_alone(step, tried)
  return step.choice ~= nil and tried.numbers and not tried.worked
end

local function fill(entry, v, step, reading, tried, problem, context)
  local value, why, other = reading[1], reading[2], reading[3]
  if other then
    entry.verdict, entry.hint = "wrong", why
  elseif value == nil then
    entry.verdict, entry.hint = "not read", why
    table.insert(context.problems, {row = entry.row, reason = ("answer %q: %s"):format(
      text.plain(entry.given), why)})
  else
    entry.value = value
    entry.verdict, entry.hint, entry.mistake = verdict_of(v, with_tolerance(step,
      problem), value, tried)
    local good = entry.verdict == "right" or entry.verdict == "follows"
    if good and word_alone(step, tried) then
      entry.verdict, entry.hint = "word alone",
        "a word counts with the numbers before it, and none of them bears it out"
    end
    local share = entry.verdict == "right" and 1
      or problem.partial[entry.verdict] or entry.verdict == "follows" and context.follows
      or 0
    entry.marks = step.marks * share
    if not step.choice and WORKED[entry.verdict] then tried.worked = true end
    if entry.verdict ~= "right" and not tried.everywhere[value]
      and (step.choice or plausible(value, v.s[step.symbol])) then
      tried.own[step.symbol] = value
      table.insert(tried.earlier, step.part)
    end
  end
end

--- Parts of one problem in their order.
-- @param rows {part = row}; @param problem of the set, with its tolerance and shares
-- @param context {set =, follows = share, problems = a list that is added to}
function judge.problem(v, rows, problem, context)
  local result = {marks = 0, out_of = 0, by_hand = 0, parts = {}, kind = v.kind.name}
  local read = read_all(v, rows, context.set.decimal)
  local tried = {own = {}, earlier = {}, everywhere = written_everywhere(v, read)}
  for _, step in ipairs(v.kind.steps) do
    local row = rows[step.part]
    if step.hand then
      local entry = entry_of(step, row)
      entry.verdict = "by hand"
      result.by_hand = result.by_hand + step.marks
      result.parts[#result.parts + 1] = entry
    elseif step.ask then
      local entry = entry_of(step, row)
      if not row or row.answer == "" then
        entry.verdict = "no answer"
      elseif row.other_version then
        entry.verdict, entry.hint = "another version", row.other_version
      else
        fill(entry, v, step, read[step.part], tried, problem, context)
      end
      tried.numbers = tried.numbers or not step.choice
      result.marks = result.marks + entry.marks
      result.out_of = result.out_of + step.marks
      result.parts[#result.parts + 1] = entry
    end
  end
  return result
end

return judge
