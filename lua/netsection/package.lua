-- SPDX-License-Identifier: MIT
-- What the engineer hands to the official, the carpenter and the file: the short report,
-- with the full calculation as an annex, all numbers, drawings, parts and order of work,
-- the draft of a letter and the crew's sheet, as named texts. Nothing is written or drawn
-- unless it is asked for.
local calculation = require "netsection.calculation"
local crew = require "netsection.short.crew"
local document = require "netsection.document"
local drawings = require "netsection.package.drawings"
local file_set = require "netsection.file_set"
local letter = require "netsection.package.letter"
local list = require "netsection.short.parts_list"
local load_path = require "netsection.load_path.report"
local numbers = require "netsection.numbers"
local odds = require "netsection.odds"
local parts = require "netsection.parts"
local photos = require "netsection.photos"
local pdf = require "netsection.pdf"
local quantity = require "netsection.quantity"
local short = require "netsection.short"
local shore_lines = require "netsection.shore_lines"
local workbook = require "netsection.workbook"
local error = require "netsection.raise".error

local package = {}

local OPTIONS = {"paper", "render", "steps", "concealed", "visit", "full", "pdf", "job",
  "date", "progress", "workbook", "load_path", "shores", "odds", "photos"}

--- Every number of a joist's or a floor's review: ordered tables, the ones behind the
-- JSON. Names in it are listed in netsection.numbers.
package.data = numbers.of

local TEXTS = {"job", "date", "photos"}

local function read_options(subject, options, what, level)
  options = options or {}
  parts.only(what, options, OPTIONS, level + 1)
  if options.visit ~= nil then
    parts.only(what .. ": visit", options.visit, calculation.visit_fields, level + 1)
  end
  if options.paper ~= nil and options.paper ~= "letter" and options.paper ~= "a4" then
    error(what .. ': paper: "letter" or "a4" expected', level + 1)
  end
  if options.workbook ~= nil and options.workbook ~= "xlsx"
    and options.workbook ~= "ods" then
    error(what .. ': workbook: "xlsx" or "ods" expected', level + 1)
  end
  if options.concealed ~= nil and type(options.concealed) ~= "table" then
    error(what .. ": concealed: a list of texts expected", level + 1)
  end
  for _, name in ipairs(TEXTS) do
    if options[name] ~= nil and type(options[name]) ~= "string" then
      error(("%s: %s: text expected"):format(what, name), level + 1)
    end
  end
  if options.progress ~= nil and type(options.progress) ~= "function" then
    error(what .. ": progress: a function expected", level + 1)
  end
  if options.steps ~= nil and not (options.full or options.load_path) then
    error(what .. ": steps is of the full calculation: give full = true", level + 1)
  end
  if options.load_path ~= nil and not load_path.is(options.load_path) then
    error(what .. ": load_path: what floor:load_path gave expected", level + 1)
  end
  if options.odds ~= nil and not odds.is_about(options.odds, subject) then
    error(what .. ": odds: an answer of joist:odds or floor:odds about this joist or "
      .. "floor expected", level + 1)
  end
  local shored = options.shores
  if shored ~= nil and type(shored) ~= "table" then
    error(what .. ": shores: a list of what floor:shores gave expected", level + 1)
  end
  for _, s in ipairs(shored or {}) do
    if not shore_lines.is(s) then
      error(what .. ": shores: what floor:shores gave expected", level + 1)
    end
  end
  return options
end

-- Told as something long goes on.
local function progress(options, what)
  return options.progress and function(done, of) options.progress(what, done, of) end
end

-- {name = picture, or true where the script alone is there}
local function figures_of(draws, options)
  local figures = {}
  for _, d in ipairs(draws) do figures[d[1]] = true end
  if not options.render and not options.pdf then return figures end
  local pictures, problem = drawings.pictures(draws, progress(options, "pictures"))
  for name, svg in pairs(pictures or {}) do figures[name] = svg end
  return figures, problem and "no pictures: " .. problem
end

local function add(files, name, text)
  files[#files + 1] = {name = name, text = text}
end

-- @param pages those of HTML that become PDF
local function add_document(files, pages, name, d, paper)
  local html = document.html(d, {paper = paper})
  add(files, name .. ".html", html)
  add(files, name .. ".md", document.markdown(d, {paper = paper}))
  pages[#pages + 1] = {name = name .. ".pdf", html = html}
end

-- PDF beside each page of HTML. @return the program; or nil and what is wrong
local function add_pdf(files, pages, options)
  local html = {}
  for i, page in ipairs(pages) do html[i] = page.html end
  local texts, program = pdf.texts(html, progress(options, "PDF"))
  if not texts then return nil, "no PDF: " .. program end
  for i, page in ipairs(pages) do add(files, page.name, texts[i]) end
  return program
end

-- The load path as a page and its numbers. @return what went wrong with its picture
local function add_load_path(files, pages, path, options, paper)
  local page, problem = path:html {steps = options.steps, paper = paper,
    job = options.job, date = options.date, render = options.render or options.pdf}
  add(files, "load-path.html", page)
  pages[#pages + 1] = {name = "load-path.pdf", html = page}
  add(files, "load-path.md", path:markdown {steps = options.steps})
  add(files, "load-path.json", path:json())
  add(files, "load-path.gp", path:plot {output = "load-path.svg"})
  return problem
end

-- Photos that the survey names; what could not be placed joins what went wrong.
local function photos_of(subject, options, problem)
  if not options.photos then return nil, problem end
  local reviews = numbers.reviews(subject, "package", 2)
  local found, problems = photos.of(reviews, options.photos)
  if #problems > 0 then
    local said = table.concat(problems, "; ")
    problem = problem and problem .. "; " .. said or said
  end
  return {list = found, problems = problems}, problem
end

local function files_of(subject, options)
  local tree, files, pages = numbers.of(subject), {}, {}
  local show = quantity.of(subject)
  local paper = options.paper or show.paper_size
  local draws = drawings.of(subject, tree, {paper = paper, short = true,
    full = options.full})
  local figures, problem = figures_of(draws, options)
  local pictures
  pictures, problem = photos_of(subject, options, problem)
  local report = short.of(subject, {visit = options.visit, concealed = options.concealed,
    figures = figures, job = options.job, date = options.date, full = options.full,
    odds = options.odds, photos = pictures}, tree)
  add_document(files, pages, "report", report, paper)
  add(files, "report.txt", document.text(report))
  if options.full then
    local sheet = calculation.of(subject, {steps = options.steps, visit = options.visit,
      concealed = options.concealed, figures = figures, job = options.job,
      date = options.date}, tree)
    add_document(files, pages, "calculation", sheet, paper)
    add(files, "calculation.txt", document.text(sheet))
  end
  add(files, "numbers.json", numbers.json(tree))
  add(files, "numbers.csv", numbers.csv(tree))
  add_document(files, pages, "letter", letter.document(subject, options, figures),
    paper)
  add_document(files, pages, "parts", list.document(subject, options), paper)
  add_document(files, pages, "crew", crew.document(subject, options, options.shores,
    figures, tree), paper)
  for _, d in ipairs(draws) do add(files, d[1] .. ".gp", d[2](d[1] .. ".svg")) end
  if options.load_path then
    problem = add_load_path(files, pages, options.load_path, options, paper) or problem
  end
  if options.workbook then
    add(files, "calculation." .. options.workbook,
      workbook.bytes(subject, options.workbook, {paper = paper}))
  end
  local program, why
  if options.pdf then program, why = add_pdf(files, pages, options) end
  if why then problem = problem and problem .. "; " .. why or why end
  return files, problem, program
end

--- The files of a package: the short report (report.html, .md, .txt), all numbers, the
-- drafts of letter, parts and crew's sheet, the scripts of the drawings.
-- @param subject review of a joist or a floor
-- @param options {paper = "letter" | "a4" (by default what goes with the units), full =
-- true: the full calculation as
--   an annex; steps = of that, see report.html; render = true: pictures by gnuplot in the
--   pages; pdf = true: PDF beside each page, with pictures; job = text at the head of
--   each printed page, date = of the run (never read from the clock),
--   concealed = list of what was not seen, visit = {date =, present =, address =, ...},
--   workbook = "xlsx" | "ods": the calculation as one that recomputes beside it,
--   load_path = of floor:load_path, shores = {of floor:shores, ...},
--   odds = of joist:odds or floor:odds: half a page of the short report,
--   photos = folder of the photos that a survey names, placed in the short report,
--   progress = function(what, done, of)}
-- @return list of {name =, text =}; what went wrong with pictures or PDF, or nil; the
--   program that made the PDF
function package.files(subject, options)
  options = read_options(subject, options, "package.files", 2)
  numbers.reviews(subject, "package.files", 2)
  local files, problem, program = files_of(subject, options)
  return files, problem, program
end

--- Writes a package into a folder, which is made where the one above it is there. It is
-- put in place whole at the end; files of an earlier package that are no part of it go,
-- other files stay.
-- @return names of the files, what went wrong with pictures or PDF, the program that made
--   the PDF; or nil and what went wrong
function package.write(subject, path, options)
  if type(path) ~= "string" then
    error("package.write: folder (string) expected, got " .. type(path), 2)
  end
  options = read_options(subject, options, "package.write", 2)
  local written = {}
  local files, problem, program = files_of(subject, options)
  local ok, why = file_set.write(files, path, {replace = true})
  if not ok then return nil, why end
  for i, f in ipairs(files) do written[i] = f.name end
  return written, problem, program
end

return package
