-- SPDX-License-Identifier: MIT
-- What goes from the desk to the official, the carpenter and the file: the calculation
-- sheet, all numbers, drawings, parts and order of work, the draft of a letter and the
-- crew's sheet, as named texts. Nothing is written or drawn unless it is asked for.
local calculation = require "netsection.calculation"
local crew = require "netsection.package.crew"
local document = require "netsection.document"
local drawings = require "netsection.package.drawings"
local file_set = require "netsection.file_set"
local letter = require "netsection.package.letter"
local list = require "netsection.package.parts"
local load_path = require "netsection.load_path.report"
local numbers = require "netsection.numbers"
local parts = require "netsection.parts"
local shore_lines = require "netsection.shore_lines"
local workbook = require "netsection.workbook"

local package = {}

local OPTIONS = {"paper", "render", "steps", "concealed", "visit", "workbook",
  "load_path", "shores"}

--- Every number of a joist's or a floor's review: ordered tables, the ones behind the
-- JSON. Names in it are listed in netsection.numbers.
package.data = numbers.of

local function read_options(options, what, level)
  options = options or {}
  parts.only(what, options, OPTIONS, level + 1)
  if options.visit ~= nil then
    parts.only(what .. ": visit", options.visit, calculation.visit_fields, level + 1)
  end
  if options.workbook ~= nil and options.workbook ~= "xlsx"
    and options.workbook ~= "ods" then
    error(what .. ': workbook: "xlsx" or "ods" expected', level + 1)
  end
  if options.concealed ~= nil and type(options.concealed) ~= "table" then
    error(what .. ": concealed: a list of texts expected", level + 1)
  end
  if options.load_path ~= nil and not load_path.is(options.load_path) then
    error(what .. ": load_path: what floor:load_path gave expected", level + 1)
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

-- {name = picture, or true where the script alone is there}
local function figures_of(draws, render)
  local figures = {}
  for _, d in ipairs(draws) do figures[d[1]] = true end
  if not render then return figures end
  local pictures, problem = drawings.pictures(draws)
  for name, svg in pairs(pictures or {}) do figures[name] = svg end
  return figures, problem
end

local function add(files, name, text)
  files[#files + 1] = {name = name, text = text}
end

local function add_document(files, name, d, paper)
  add(files, name .. ".html", document.html(d, {paper = paper}))
  add(files, name .. ".md", document.markdown(d, {paper = paper}))
end

-- The load path as a page and its numbers. @return what went wrong with its picture
local function add_load_path(files, path, options, paper)
  local page, problem = path:html {steps = options.steps, paper = paper,
    render = options.render}
  add(files, "load-path.html", page)
  add(files, "load-path.md", path:markdown {steps = options.steps})
  add(files, "load-path.json", path:json())
  add(files, "load-path.gp", path:plot {output = "load-path.svg"})
  return problem
end

local function files_of(subject, options)
  local tree = numbers.of(subject)
  local paper = options.paper or "letter"
  local draws = drawings.of(subject, tree, paper)
  local figures, problem = figures_of(draws, options.render)
  local sheet = calculation.of(subject, {steps = options.steps, visit = options.visit,
    concealed = options.concealed, figures = figures}, tree)
  local files = {}
  add_document(files, "calculation", sheet, paper)
  add(files, "calculation.txt", document.text(sheet))
  add(files, "numbers.json", numbers.json(tree))
  add(files, "numbers.csv", numbers.csv(tree))
  add_document(files, "letter", letter.document(subject, options), paper)
  add_document(files, "parts", list.document(subject), paper)
  add_document(files, "crew", crew.document(subject, options.shores), paper)
  for _, d in ipairs(draws) do add(files, d[1] .. ".gp", d[2](d[1] .. ".svg")) end
  if options.load_path then
    problem = add_load_path(files, options.load_path, options, paper) or problem
  end
  if options.workbook then
    add(files, "calculation." .. options.workbook,
      workbook.bytes(subject, options.workbook, {paper = paper}))
  end
  return files, problem
end

--- The files of a package.
-- @param subject review of a joist or a floor
-- @param options {paper = "letter" (default) | "a4", render = true: pictures by gnuplot
--   inside the sheet, workbook = "xlsx" | "ods": the calculation as one that recomputes
--   beside it, steps =, concealed = list of what was not seen, visit = {date =,
--   present =, address =, ...}, load_path = of floor:load_path,
--   shores = {of floor:shores, ...}}
-- @return list of {name =, text =}, and what went wrong with the pictures, if anything
function package.files(subject, options)
  options = read_options(options, "package.files", 2)
  local files, problem = files_of(subject, options)
  return files, problem
end

--- Writes a package into a folder, which is made where the one above it is there. It is
-- put in place whole at the end; files of an earlier package that are no part of it go,
-- other files stay.
-- @return names of the files, and what went wrong with the pictures; or nil and what
--   went wrong
function package.write(subject, path, options)
  if type(path) ~= "string" then
    error("package.write: folder (string) expected, got " .. type(path), 2)
  end
  options = read_options(options, "package.write", 2)
  local written = {}
  local files, problem = files_of(subject, options)
  local ok, why = file_set.write(files, path, {replace = true})
  if not ok then return nil, why end
  for i, f in ipairs(files) do written[i] = f.name end
  return written, problem
end

return package
