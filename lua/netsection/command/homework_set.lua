-- SPDX-License-Identifier: MIT
-- A homework set by the command: a description as data, or a set that was saved, into
-- sheets, keys, tables, the form, the frozen set; and marks of what came back.
local csv = require "netsection.csv"
local data = require "netsection.data_file"
local document = require "netsection.document"
local file = require "netsection.file"
local homework = require "netsection.homework"
local pdf = require "netsection.pdf"
local sheets = require "netsection.homework.sheets"
local tostring = require "netsection.point".text

local homework_set = {}

--- A set from a file: .json that set:save wrote, else a table of data as ns.homework
-- takes it. @return set, or nil and a message
function homework_set.read(path)
  if path:lower():find "%.json$" then return homework.load(path) end
  local t, problem = data.read(path)
  if not t then return nil, problem end
  local ok, set = pcall(homework.new, t)
  if ok then return set end
  return nil, path .. ": " .. tostring(set):gsub("^.-:%d+: ", "")
end

-- An id as a name of a file that no system refuses; two that come to one are told apart.
local function file_names(set)
  local names, taken = {}, {}
  for _, student in ipairs(set.students) do
    local name = student.id:gsub("[^%w_%-]", "_"):gsub("^%-", "_"):sub(1, 60)
    local n, made = 2, name
    while taken[made:lower()] do made, n = name .. "_" .. n, n + 1 end
    names[student.id], taken[made:lower()] = made, true
  end
  return names
end

local function page(files, pages, name, d, paper, with_pdf)
  local html = document.html(d, {paper = paper})
  files[#files + 1] = {name = name .. ".html", text = html}
  if with_pdf then pages[#pages + 1] = {html = html, name = name .. ".pdf"} end
end

-- Paper of the country of the units, where none was asked for.
local function paper_of(set, given)
  return given.paper or set.units == "metric" and "a4" or "letter"
end

--- Files of a set. @param given {paper =, pdf =, figures =, qti =}
-- @return list of {name =, text =}, pages for PDF; or nil and a message
function homework_set.files(set, given)
  local files, pages, names = {}, {}, file_names(set)
  local drawn = given.render or given.pdf or nil
  local paper, options = paper_of(set, given), {}
  if drawn then
    local pictures, problem = sheets.drawn(set, set.students)
    if not pictures then return nil, problem end
    options.draw = function(_, name) return pictures[name] end
  end
  for _, student in ipairs(set.students) do
    local name = names[student.id]
    local sheet = set:sheet(student.id, options)
    local key = set:key(student.id, options)
    page(files, pages, "sheets/" .. name, sheet, paper, given.pdf)
    page(files, pages, "keys/" .. name .. "_key", key, paper, given.pdf)
    if not drawn then
      for _, f in ipairs(set:figures(student.id)) do
        files[#files + 1] = {name = "figures/" .. f.name:gsub("%.svg$", ".gp"),
          text = f.script}
      end
    end
  end
  page(files, pages, "master", set:master(), paper, given.pdf)
  files[#files + 1] = {name = "answers.csv", text = set:answer_form()}
  files[#files + 1] = {name = "bank.csv", text = set:bank()}
  if given.qti then
    files[#files + 1] = {name = "questions.zip", text = set:qti {zip = true,
      figures = drawn}}
  end
  return files, pages
end

--- Files of marks: a row a part, a row a student, a sheet of feedback each.
-- @return list; or nil and a message
function homework_set.marks(set, path, given)
  local text, problem = file.read(path)
  if not text then return nil, problem end
  local marks, why = set:mark(text)
  if not marks then
    local lines = {}
    for i, p in ipairs(why) do lines[i] = ("%s, row %s: %s"):format(path, p.row,
      p.message) end
    return nil, table.concat(lines, "\n")
  end
  local files, pages, names = {}, {}, file_names(set)
  files[1] = {name = "marks.csv", text = marks:csv()}
  files[2] = {name = "gradebook.csv", text = marks:gradebook()}
  files[3] = {name = "items.txt", text = tostring(marks:items()) .. "\n"}
  local rows = {csv.line {"row", "reason"}}
  for _, p in ipairs(marks.problems) do rows[#rows + 1] = csv.line {p.row, p.reason} end
  files[4] = {name = "not_read.csv", text = table.concat(rows)}
  for _, id in ipairs(marks.order) do
    page(files, pages, "feedback/" .. names[id], marks:feedback(id),
      paper_of(set, given), given.pdf)
  end
  return files, pages, marks
end

--- Makes the PDF files of pages below a folder. @return program, or nil and a message
function homework_set.pdf(pages, into)
  for _, p in ipairs(pages) do p.path = into .. "/" .. p.name end
  return pdf.write(pages)
end

return homework_set
