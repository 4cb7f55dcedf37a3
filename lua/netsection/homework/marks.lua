-- SPDX-License-Identifier: MIT
-- Marks as they leave the module: a row for each part, a row for each student, a sheet of
-- feedback, and what the parts tell about the problems.
local csv = require "netsection.csv"
local document = require "netsection.document"
local point = require "netsection.point"
local sheets = require "netsection.homework.sheets"
local show = require "netsection.homework.show"
local text = require "netsection.text"
local wording = require "netsection.homework.wording"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local marks = {}
local methods = {}
local meta = {__index = methods, __name = "netsection.homework.marks"}

function meta.__tostring(self)
  return ("marks of %d students, %d problems with rows"):format(#self.order,
    #self.problems)
end

function marks.new(set, problems)
  return setmetatable({order = {}, students = {}, problems = problems, set = set}, meta)
end

local function each_part(result, visit)
  for _, id in ipairs(result.order) do
    for i, problem in ipairs(result.students[id].problems) do
      for _, entry in ipairs(problem.parts) do visit(id, i, entry) end
    end
  end
end

-- Marks to the hundredth.
local function points(x)
  return show.number(math.floor(100 * x + 0.5) / 100)
end

--- A line per part: student, problem, part, answer, marks, out of, verdict, hint.
function methods:csv()
  local out = {csv.line {"student", "problem", "part", "answer", "marks", "out of",
    "verdict", "hint"}}
  each_part(self, function(id, i, entry)
    out[#out + 1] = csv.line {id, i, entry.part, entry.given or "",
      points(entry.marks), points(entry.out_of), entry.verdict, entry.hint or ""}
  end)
  return table.concat(out)
end

-- Columns of the gradebook: what each says of a student.
local COLUMNS = {
  student = function(one) return one.id end,
  name = function(one) return one.name or "" end,
  marks = function(one) return points(one.marks) end,
  ["out of"] = function(one) return points(one.out_of) end,
  percent = function(one)
    return points(one.out_of > 0 and 100 * one.marks / one.out_of or 0)
  end,
  ["by hand"] = function(one) return points(one.by_hand) end,
  late = function(one) return one.late and points(one.late) or "" end,
  submission = function(one) return one.submission or "" end,
}

local COLUMN_NAMES = {"student", "name", "marks", "out of", "percent", "by hand", "late",
  "submission"}

local function column_of(name, set)
  if COLUMNS[name] then return COLUMNS[name] end
  local n = type(name) == "string"
    and math.tointeger(tonumber(name:match "^problem (%d+)$"))
  if n and n >= 1 and n <= #set.problems then
    return function(one) return points(one.problems[n].marks) end
  end
end

--- A line per student with the columns asked for, in their order: student, name, marks,
-- out of, percent, by hand, late, submission, "problem 1" ...
-- @param columns list of names; by default student, name, each problem, marks, out of,
--   percent. An entry may be {name, heading}
function methods:gradebook(columns)
  if columns == nil then
    columns = {"student", "name"}
    for i = 1, #self.set.problems do columns[#columns + 1] = "problem " .. i end
    table.move({"marks", "out of", "percent"}, 1, 3, #columns + 1, columns)
  end
  local heads, reads = {}, {}
  for i, c in ipairs(columns) do
    local name = type(c) == "table" and c[1] or c
    reads[i], heads[i] = column_of(name, self.set), type(c) == "table" and c[2] or name
    if not reads[i] then
      error(("gradebook: unknown column '%s' (takes %s, problem 1 to %d)"):format(
        tostring(name), table.concat(COLUMN_NAMES, ", "), #self.set.problems), 2)
    end
  end
  local out = {csv.line(heads)}
  for _, id in ipairs(self.order) do
    local cells = {}
    for i, read in ipairs(reads) do cells[i] = read(self.students[id]) end
    out[#out + 1] = csv.line(cells)
  end
  return table.concat(out)
end

---------------------------------------------------------------------------- feedback

local VERDICT = {right = "right", follows = "follows from an earlier number of yours",
  mistake = "a common mistake", ["unit slip"] = "a slip of units", wrong = "wrong",
  ["word alone"] = "a word alone",
  ["no answer"] = "no answer", ["not read"] = "could not be read",
  ["another version"] = "answer to another version", ["by hand"] = "marked by hand"}

local function feedback_rows(problem)
  local rows = {}
  for i, entry in ipairs(problem.parts) do
    local open = entry.verdict == "by hand" and not entry.entered
    rows[i] = {"(" .. entry.part .. ")", entry.given or "",
      open and "to be marked by hand" or VERDICT[entry.verdict],
      open and "" or ("%s of %s"):format(points(entry.marks), points(entry.out_of)),
      entry.hint or ""}
  end
  return rows
end

--- A student's sheet of feedback as a document: each answer, its verdict, marks and hint;
-- no right answers.
function methods:feedback(id)
  local one = self.students[id]
  if not one then
    error(("feedback: no student with the id %s"):format(tostring(id)), 2)
  end
  local d = document.new {title = self.set.course .. ": feedback",
    foot = sheets.foot(self.set, self.set.by_id[id])}
  local line = {"Student ", {mark = one.id}}
  if one.name then
    line[#line + 1] = ", "
    line[#line + 1] = {mark = one.name}
  end
  line[#line + 1] = (": %s of %s marks"):format(points(one.marks), points(one.out_of))
  if one.by_hand > 0 then
    line[#line + 1] = (", %s more to be marked by hand"):format(points(one.by_hand))
  end
  if one.late_factor then
    line[#line + 1] = (", late, times %s"):format(points(one.late_factor))
  end
  d:paragraph(line)
  for i, problem in ipairs(one.problems) do
    d:heading(2, ("Problem %d. %s (%s of %s)"):format(i, self.set.problems[i].kind.title,
      points(problem.marks), points(problem.out_of)))
    d:table {columns = {{head = "Part"}, {head = "Your answer"}, {head = "Verdict"},
      {head = "Marks", align = "right"}, {head = "Hint"}}, rows = feedback_rows(problem),
      row_heads = 1}
  end
  return wording.document(d, self.set)
end

---------------------------------------------------------------------------- statistics

-- Correlation of two lists; nil where one does not vary.
local function correlation(a, b)
  local n, ma, mb = #a, 0, 0
  for i = 1, n do ma, mb = ma + a[i] / n, mb + b[i] / n end
  local va, vb, c = 0, 0, 0
  for i = 1, n do
    va, vb = va + (a[i] - ma) ^ 2, vb + (b[i] - mb) ^ 2
    c = c + (a[i] - ma) * (b[i] - mb)
  end
  if va < 1e-12 or vb < 1e-12 then return nil end
  return c / math.sqrt(va * vb)
end

-- Slips by how often they came, the most first.
local function ranked(counts)
  local list = {}
  for name, count in pairs(counts) do list[#list + 1] = {name = name, count = count} end
  table.sort(list, function(a, b)
    if a.count ~= b.count then return a.count > b.count end
    return point.less(a.name, b.name)
  end)
  return list
end

--- What the parts tell: a list {problem, part, answered = how many, share = mean of marks
-- over those possible (difficulty), discrimination = correlation of the part with the
-- rest of the sheet, slips = {{name, count}, ...}}; tostring gives it as lines.
function methods:items()
  local list = {}
  local first = self.students[self.order[1]]
  for i, problem in ipairs(first.problems) do
    for p, part in ipairs(problem.parts) do
      local shares, rest, slips, answered = {}, {}, {}, 0
      for n, id in ipairs(self.order) do
        local one = self.students[id]
        local entry = one.problems[i].parts[p]
        shares[n] = entry.out_of > 0 and entry.marks / entry.out_of or 0
        rest[n] = one.marks - entry.marks
        answered = answered + (entry.value ~= nil and 1 or 0)
        if entry.mistake then slips[entry.mistake] = (slips[entry.mistake] or 0) + 1 end
      end
      local sum = 0
      for _, x in ipairs(shares) do sum = sum + x end
      list[#list + 1] = {problem = i, part = part.part, answered = answered,
        share = sum / #shares, discrimination = correlation(shares, rest),
        slips = ranked(slips)}
    end
  end
  return setmetatable(list, {__tostring = function(items)
    local out = {}
    for n, item in ipairs(items) do
      local slips = {}
      for k, slip in ipairs(item.slips) do
        slips[k] = ("%s %d"):format(slip.name, slip.count)
      end
      out[n] = point.format("%d(%s)  answered %d  share %.2f  discrimination %s  %s",
        item.problem, item.part, item.answered, item.share, item.discrimination
        and point.format("%.2f", item.discrimination) or "-", table.concat(slips, "; "))
        :gsub("%s+$", "")
    end
    return table.concat(out, "\n")
  end})
end

---------------------------------------------------------------------------- text

local function student_line(one)
  local hand = one.by_hand > 0 and (", %s by hand"):format(points(one.by_hand)) or ""
  local late = one.late_factor
    and (", late, times %s"):format(points(one.late_factor)) or ""
  return ("%s  %s of %s%s%s"):format(text.pad(text.plain(one.id), 12),
    text.pad(points(one.marks), 3, true), points(one.out_of), hand, late)
end

--- Marks of each student, what went wrong with its hint, and rows that were not read.
function methods:text()
  local out = {}
  for _, id in ipairs(self.order) do
    local one = self.students[id]
    out[#out + 1] = student_line(one)
    for i, problem in ipairs(one.problems) do
      for _, entry in ipairs(problem.parts) do
        if entry.hint then
          out[#out + 1] = text.wrap(("%d(%s) %s: %s, %s"):format(i, entry.part,
            text.plain(entry.given), entry.verdict, entry.hint), "    ", "      ")
        end
      end
    end
  end
  for _, problem in ipairs(self.problems) do
    out[#out + 1] = text.wrap(("row %d not read: %s"):format(problem.row, problem.reason),
      "", "  ")
  end
  return table.concat(out, "\n") .. "\n"
end

return marks
