-- SPDX-License-Identifier: MIT
-- The command 'netsection', for those who do not script: a survey folder in, a package of
-- calculation and drawings out. What happened is in the exit code, so that a script of
-- somebody else's can go on from it.
local core = require "netsection.core"
local help = require "netsection.command.help"
local point = require "netsection.point"
local error = require "netsection.raise".error

-- A module that is read when something of it is asked for first: a verb takes what it
-- needs, and the command has started before.
local function later(read)
  return setmetatable({}, {__index = function(_, name) return read()[name] end})
end
local act_now = later(function() return require "netsection.act_now" end)
local arguments = later(function() return require "netsection.command.arguments" end)
local compare = later(function() return require "netsection.compare" end)
local document = later(function() return require "netsection.document" end)
local field_sheet = later(function() return require "netsection.survey.field_sheet" end)
local homework_set = later(function()
  return require "netsection.command.homework_set"
end)
local output = later(function() return require "netsection.command.output" end)
local overview = later(function() return require "netsection.report_overview" end)
local packs = later(function() return require "netsection.packs" end)
local recheck = later(function() return require "netsection.recheck" end)
local survey = later(function() return require "netsection.survey" end)
local survey_folder = later(function()
  return require "netsection.command.survey_folder"
end)
local template = later(function() return require "netsection.field_book" end)
local text = later(function() return require "netsection.text" end)
local workbook = later(function() return require "netsection.workbook" end)

local command = {}

-- Exit codes: see help.lua.
local DONE, WORK, PROBLEMS, NO_FILE, USAGE, FAULT, NOT_PRINTED = 0, 1, 2, 3, 64, 70, 74

-- Ends a verb early: code and message, raised so that helpers can end it too.
local Stop = {}

-- Ends the command with an exit code and a message.
local function stop(code, message, ...)
  error(setmetatable({code = code, message = point.format(message, ...)}, Stop), 0)
end

-- A value, or the end of the command with what was wrong.
local function must(code, value, message)
  if not value then stop(code, "%s", message) end
  return value
end

--------------------------------------------------------------------------------- review

local NEEDS_WORK = {decide = true, ["repair"] = true, refer = true}

-- The exit code of a floor: whether something is to be done.
local function outcome(floor_review)
  for action, count in pairs(floor_review.actions) do
    if NEEDS_WORK[action] and count > 0 then return WORK end
  end
  return DONE
end

-- The floor of a survey folder or workbook; ends with all its problems where it has some.
local function read_folder(path, given, say)
  local files, problem = survey_folder.files(path)
  must(NO_FILE, files, problem)
  if files.workbook and (given.separator or given.encoding) then
    stop(USAGE, "--%s goes with CSV files, not with a workbook",
      given.separator and "separator" or "encoding")
  end
  local floor, found = survey.read(survey_folder.options(files, given))
  if floor then return floor end
  local unreadable = false
  for _, p in ipairs(found) do
    say.err(text.plain(p.text))
    unreadable = unreadable or p.unreadable
  end
  stop(unreadable and NO_FILE or PROBLEMS, "%d problem%s; nothing was written", #found,
    #found == 1 and "" or "s")
end

-- The summary on the terminal.
local function summary(floor_review, say)
  say.out(text.plain(floor_review.name))
  say.out(overview.counts(floor_review))
  local list = {}
  for i, mark in ipairs(floor_review.order) do list[i] = floor_review.joists[mark] end
  for i, said in ipairs(act_now.of(list)) do
    if i == 1 then
      say.out ""
      say.out(act_now.title)
    end
    for _, line in ipairs(overview.wrapped(text.plain(said), "  ", "    ")) do
      say.out(line)
    end
  end
  say.out ""
  for _, line in ipairs(overview.lines(list)) do say.out(line) end
end

-- netsection review: a survey's floor to a summary, report or package.
local function review_verb(given, say)
  for _, name in ipairs(given.into and {} or {"full", "pdf", "render", "odds", "job",
    "date", "photos"}) do
    if given[name] then stop(USAGE, "--%s needs --into FOLDER", name) end
  end
  if given.steps and not given.full then stop(USAGE, "--steps needs --full") end
  local floor = read_folder(given[1], given, say)
  local result = floor:review()
  if given.workbook and not given.into then
    stop(USAGE, "--workbook goes with --into")
  end
  for _, note in ipairs(floor.survey.notes) do say.err("note: " .. text.plain(note)) end
  if given.into then
    if survey_folder.same(given[1], given.into) then
      stop(USAGE, "--into names the survey's own folder")
    end
    local settings = floor.survey.settings
    local written, problem, program = output.package(result, given.into, {
      paper = given.paper or settings.paper, render = given.render, steps = given.steps,
      workbook = given.workbook, full = given.full, pdf = given.pdf, job = given.job,
      date = given.date, photos = given.photos, odds = given.odds and floor:odds() or nil,
      visit = settings.visit, concealed = settings.concealed,
      progress = function(what, done, of)
        say.err(("%s: %d of %d"):format(what, done, of))
      end}, given.replace)
    must(NO_FILE, written, problem)
    if problem then say.err(text.plain(problem)) end
    if program then say.err("PDF by " .. program) end
    say.err(("%d files written"):format(written))
  end
  summary(result, say)
  return outcome(result)
end

------------------------------------------------------------------------------- the others

-- netsection template: a field book to fill in.
local function template_verb(given)
  local form = given[1]:lower():match "%.(%a+)$"
  if form == "xlsx" or form == "ods" then
    must(NO_FILE, output.new_file(given[1], workbook.template(form,
      {units = given.printed, lang = given.lang})))
    return DONE
  end
  local files = {}
  local books = template.of(nil, {units = given.printed, lang = given.lang})
  for _, kind in ipairs {"joists", "cuts", "obstructions", "loads", "fixes", "survey"} do
    files[#files + 1] = {name = kind .. ".csv", text = books[kind]}
  end
  must(NO_FILE, output.files(files, given[1], {unlisted = true}))
  return DONE
end

-- A document to a file, in the form its name ends with, or as text to the screen.
local function put_document(d, given, say)
  if not given.into then
    say.out((document.text(d):gsub("\n$", "")))
    return
  end
  must(USAGE, output.form(given.into))
  must(NO_FILE, output.document(d, given.into, given))
end

-- Marks for a field sheet, as given or counted.
local function marks_of(given)
  if not given.marks then return given.joists end
  local marks = {}
  for mark in given.marks:gmatch "[^,;]+" do
    marks[#marks + 1] = mark:gsub("^%s+", ""):gsub("%s+$", "")
  end
  return #marks > 0 and marks or nil
end

-- netsection sheet: a sheet to fill in by hand.
local function sheet_verb(given, say)
  put_document(field_sheet.new {joists = marks_of(given), name = given.name,
    units = given.printed, lang = given.lang}, given, say)
  return DONE
end

-- A run to compare: a JSON export, a folder that holds one, or a survey folder.
local function run_of(path, given, say)
  local json = survey_folder.export(path)
  if json then return json end
  if survey_folder.files(path) then
    return read_folder(path, given, say):review()
  end
  return path
end

-- netsection compare: what changed between two runs.
local function compare_verb(given, say)
  local c, problem = compare.runs(run_of(given[1], given, say),
    run_of(given[2], given, say), {ratio = given.ratio,
      lang = given.lang})
  must(NO_FILE, c, problem)
  put_document(c:document(), given, say)
  return c.same and DONE or WORK
end

-- Numbers of an earlier version beside a review of today.
local function recheck_verb(given, say)
  local path = survey_folder.export(given[1]) or given[1]
  if not survey_folder.export(given[1]) and survey_folder.files(given[1]) then
    stop(USAGE, "%s holds a survey; numbers of an earlier version expected, as "
      .. "numbers.json or the folder of its package. The survey goes with --survey",
      text.plain(given[1]))
  end
  local floor = given.survey and read_folder(given.survey, given, say)
  local result, problem = recheck.of(path, floor and floor:review() or nil)
  must(NO_FILE, result, problem)
  put_document(result:document(), given, say)
  for _, one in ipairs(result.not_looked) do
    say.err(("%s: not looked at: %s"):format(text.plain(one.mark), one.reason))
  end
  return result.changed + #result.not_looked == 0 and DONE or WORK
end

-- netsection rules: packs and standards on file.
local function rules_verb(_, say)
  for _, kind in ipairs {"rules", "standards"} do
    say.out(kind)
    for _, name in ipairs(packs.names(kind)) do
      local pack = packs.read(kind, name)
      say.out(("  %s  %s"):format(text.pad(name, 20), pack and pack.title or ""))
    end
  end
  return DONE
end

-- A homework set into a folder, or the marks of answers that came back.
local function homework_verb(given, say)
  local set, problem = homework_set.read(given[1])
  must(PROBLEMS, set, problem)
  for _, warning in ipairs(set.warnings) do say.err("note: " .. text.plain(warning)) end
  if not given.into then stop(USAGE, "homework: --into FOLDER expected") end
  local files, pages, marks
  if given.answers then
    files, pages, marks = homework_set.marks(set, given.answers, given)
  else
    files, pages = homework_set.files(set, given)
  end
  must(NO_FILE, files, pages)
  must(NO_FILE, output.files(files, given.into, given))
  if not given.answers then must(NO_FILE, set:save(given.into .. "/set.json")) end
  if given.pdf then
    local program, why = homework_set.pdf(pages, given.into)
    say.err(program and ("PDF by " .. program) or "no PDF: " .. text.plain(why))
  end
  say.err(("%d files written"):format(#files))
  if marks then
    for _, row in ipairs(marks.problems) do
      say.err(("row %d not read: %s"):format(row.row, row.reason))
    end
    return #marks.problems > 0 and WORK or DONE
  end
  return DONE
end

local VERBS = {homework = homework_verb, review = review_verb, template = template_verb,
  sheet = sheet_verb,
  compare = compare_verb, recheck = recheck_verb, rules = rules_verb}

-------------------------------------------------------------------------------- the whole

-- The verb of a command line with what it was given.
local function run(list, say)
  local verb = list[1]
  if verb == nil then
    say.err(help.usage)
    return USAGE
  elseif verb == "--version" or verb == "-V" then
    say.out("netsection " .. core.version)
    return DONE
  elseif verb == "--help" or verb == "-h" or verb == "help" then
    say.out(help.of(list[2]))
    return DONE
  elseif not VERBS[verb] then
    stop(USAGE, "'%s' is none of %s", text.plain(verb), help.verbs)
  end
  local given, problem = arguments.read(verb, {table.unpack(list, 2)})
  must(USAGE, given, problem)
  if given.help then
    say.out(help.of(verb))
    return DONE
  end
  return VERBS[verb](given, say)
end

--- Runs the command.
-- @param list its arguments; @param say {out =, err = functions that take a line}
-- @return the exit code
function command.run(list, say)
  local ok, code = xpcall(run, function(raised)
    if getmetatable(raised) == Stop then return raised end
    return debug.traceback(tostring(raised), 2)
  end, list, say)
  if ok then return code end
  if getmetatable(code) == Stop then
    say.err("netsection: " .. code.message)
    if code.code == USAGE then say.err("netsection --help tells more") end
    return code.code
  end
  say.err("netsection: a fault of the program itself:\n" .. tostring(code))
  return FAULT
end

--- The command with the standard streams: what cannot be printed has an exit code of
-- its own, whatever else came of it.
function command.main(list)
  local problem
  -- Keeps the first problem with standard output.
  local function must_write(ok, why)
    if not ok then problem = problem or why end
  end
  local code = command.run(list, {
    out = function(line) must_write(io.stdout:write(line, "\n")) end,
    err = function(line) io.stderr:write(line, "\n") end,
  })
  must_write(io.stdout:flush())
  if not problem then return code end
  io.stderr:write("netsection: standard output: ", problem, "\n")
  return NOT_PRINTED
end

return command
