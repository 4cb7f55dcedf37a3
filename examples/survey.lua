-- SPDX-License-Identifier: MIT
-- Question: a field book of 24 joists comes back from a flat, in a spreadsheet with the
-- usual mess. What was read, what comes next for each joist, and what does a copy with
-- slips in it say? Expected: notes tell what was made of doubtful entries; nine joists
-- need work, two are justified by calculation; in the bad copy every slip has its file,
-- row and column, and nothing is guessed.
local ns = require "netsection"

local function text_of(name)
  local file <close> = assert(io.open("examples/survey/" .. name, "rb"))
  return {name = name, text = file:read "a"}
end

local function read(joists, cuts)
  return ns.read_survey {joists = joists, cuts = cuts,
    obstructions = text_of "obstructions.csv", loads = text_of "loads.csv",
    fixes = text_of "fixes.csv", settings = text_of "survey.csv"}
end

local floor = assert(read(text_of "joists.csv", text_of "cuts.csv"))
print(floor.name, #floor.joists .. " joists")
for _, note in ipairs(floor.survey.notes) do print("  " .. note) end

local review = floor:review()
for _, action in ipairs {"leave", "justify", "decide", "repair", "refer"} do
  local marks = {}
  for _, mark in ipairs(review.order) do
    if review.joists[mark].action == action then marks[#marks + 1] = mark end
  end
  if #marks > 0 then print(("%-8s %s"):format(action, table.concat(marks, " "))) end
end
local survey = review.joists.J6.joist.survey
print(("J6, photo %s: %s"):format(survey.photo, survey.note))

-- The same with slips: feet as inches, a date, a word, a mark that is not there.
local bad, cuts = text_of "joists.csv", text_of "cuts.csv"
bad.text = bad.text:gsub("13%-6", "13.5", 1):gsub("12%-0", "12-Jan", 1)
cuts.text = cuts.text:gsub("TOP NOTCH", "top nothc", 1):gsub("J20", "J25", 1)
local _, problems = read(bad, cuts)
print(#problems .. " problems")
for _, problem in ipairs(problems) do print("  " .. problem.text) end
