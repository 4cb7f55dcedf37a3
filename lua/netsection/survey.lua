-- SPDX-License-Identifier: MIT
-- From a field book in a spreadsheet to a floor. Everything that is wrong comes at once,
-- each with its file, row and column: what the sheets themselves show, and what the floor
-- made of them then objects to, led back to the cell it came from.
local by_depth = require "netsection.by_depth"
local columns = require "netsection.field_columns"
local along = require "netsection.survey.along"
local fix = require "netsection.fix"
local fixes = require "netsection.survey.fixes"
local floor = require "netsection.floor"
local joists = require "netsection.survey.joists"
local marks = require "netsection.survey.marks"
local obstructions = require "netsection.survey.obstructions"
local packs = require "netsection.packs"
local parts = require "netsection.parts"
local quantity = require "netsection.quantity"
local spelling = require "netsection.locale.spelling"
local settings = require "netsection.survey.settings"
local sheet = require "netsection.survey.sheet"
local error = require "netsection.raise".error

local survey = {}

local FIELDS = {"workbook", "joists", "cuts", "obstructions", "loads", "fixes",
  "settings", "decimal", "separator", "encoding", "units", "rules", "standard",
    "printed", "lang", "by_depth", "name", "most_joists"}

-- Joists that a survey may have unless the caller says otherwise, and rows of one of its
-- files of CSV to a joist: what somebody sends is read in bounded memory and time.
survey.most_joists = 1000
local ROWS_TO_A_JOIST = 20

-- What CSV text alone has.
local OF_TEXT = {"separator", "encoding"}

local function check_source(t, name)
  local source = t[name]
  if source == nil then return end
  local text = type(source) == "table" and source.text or source
  if type(text) ~= "string" then
    error(("read_survey: %s: a path, text, or {text =, name =} expected, got %s")
      :format(name, type(source)), 4)
  end
end

-- A workbook is the whole survey.
local function check_workbook(t)
  for _, list in ipairs {columns.files, {"settings"}, OF_TEXT} do
    for _, name in ipairs(list) do
      if t[name] ~= nil then
        error(("read_survey: %s does not go with a workbook"):format(name), 4)
      end
    end
  end
end

local function check(t)
  parts.only("read_survey", t, FIELDS, 3)
  for _, name in ipairs(columns.files) do check_source(t, name) end
  check_source(t, "settings")
  check_source(t, "workbook")
  if t.workbook ~= nil then check_workbook(t) end
  if t.joists == nil and t.workbook == nil then
    error("read_survey: joists: a path or text expected, got nil", 3)
  elseif t.decimal ~= nil and t.decimal ~= "," and t.decimal ~= "." then
    error('read_survey: decimal is "," or "."', 3)
  elseif t.units ~= nil and not settings.values.units[t.units] then
    error('read_survey: units is "in", "ft", "mm", "cm" or "m"', 3)
  elseif t.most_joists ~= nil and not (math.tointeger(t.most_joists)
    and t.most_joists >= 1 and t.most_joists <= 1e6) then
    error("read_survey: most_joists: a whole number from 1 to 1000000", 3)
  elseif t.printed ~= nil and not settings.values.printed[t.printed] then
    error('read_survey: printed is "us" or "metric"', 3)
  elseif spelling.problem(t.lang) then
    error("read_survey: lang: " .. spelling.problem(t.lang), 3)
  end
end

-- What the caller says stands before what the file of settings says.
local function combined(t, given)
  local out = {}
  for _, name in ipairs {"decimal", "separator", "encoding", "units", "rules", "standard",
    "printed", "lang", "by_depth", "name"} do
    out[name] = t[name]
    if out[name] == nil then out[name] = given[name] end
  end
  out.rows = ROWS_TO_A_JOIST * (t.most_joists or survey.most_joists)
  return out
end

local function check_packs(options, given, file, found)
  local rules, problem = packs.rules(options.rules or packs.usual_rules(options.standard),
    "wood")
  local function add(name, message)
    local told = given[name] == options[name] and file or {file = "options"}
    found:add {file = told.file, sheet = told.sheet, field = name, message = message}
  end
  if not rules then add("rules", problem) end
  local standard, why = packs.standard(options.standard or packs.default.standards)
  if not standard then add("standard", why) end
  local wrong = rules and options.by_depth ~= nil
    and by_depth.problem(rules, options.by_depth)
  if wrong then add("by_depth", wrong) end
end

------------------------------------------------------------------- problems of the floor

-- The cell that a field of a description came from: record and column.
local function cell_of(field, names, record, all)
  for _, name in ipairs(names or {field}) do
    if record.cells[name] then return record, name end
  end
  for _, name in ipairs(names or {field}) do
    if all and all[name] and all[name].cells[name] then return all[name], name end
  end
  for _, name in ipairs(names or {field}) do
    if record.sheet.at[name] then return record, name end
  end
  return record, nil
end

local function is_faulty(names, field, record)
  for _, name in ipairs(names or {field}) do
    if record.faulty[name] then return true end
  end
  return false
end

-- A fault already told about a cell is not told again as a missing value.
local function add_at(record, field, names, message, all)
  if field and is_faulty(names, field, record) then return end
  local where, name = cell_of(field, names, record, all)
  if field and not name then message = ("%s: %s"):format(field, message) end
  where.sheet:fault(where, name, message, name and where.cells[name])
end

local PART_COLUMNS = {from = {"from", "at", "length"}, to = {"to", "length", "at"}}

local function joist_problem(list, p)
  local joist = list[p.number]
  if p.cut or p.load then
    local where = p.cut and joist.where.cuts[p.cut] or joist.where.loads[p.load]
    add_at(where, p.field, PART_COLUMNS[p.field], p.message)
  else
    local field = p.field == "joist" and "mark" or p.field
    add_at(joist.record, field, joists.columns_of[field], p.message, joist.all)
  end
end

local OBSTRUCTION_COLUMNS = {bottom = {"bottom", "bottom_end", "height"},
  top = {"top", "top_end", "height"}, height = {"height", "height_end"},
  movable = {"movable", "kind"}}

local function floor_problems(found, problems, list, records)
  for _, p in ipairs(problems) do
    if p.number then
      joist_problem(list, p)
    elseif p.obstruction then
      local name = p.field
      add_at(records[p.obstruction], name, OBSTRUCTION_COLUMNS[name], p.message)
    else
      local s = list[1].record.sheet
      found:add {file = s.name, sheet = s.of_workbook, field = p.field, message = p.text}
    end
  end
end

-------------------------------------------------------------------------------- repairs

local function repaired(made, chosen)
  local clean = true
  for _, item in ipairs(chosen) do
    local joist = made.joists[item.number]
    local _, problems = fix.read(joist, item.fix)
    for _, p in ipairs(problems) do
      clean = false
      add_at(item.record, p.field, nil, p.message)
    end
  end
  if not clean or #chosen == 0 then return made end
  local t = {}
  for name, value in pairs(made.description) do t[name] = value end
  t.joists = {table.unpack(made.joists)}
  for _, item in ipairs(chosen) do
    t.joists[item.number] = made.joists[item.number]:fix(item.fix)
  end
  return floor.new(t)
end

------------------------------------------------------------------------------- the whole

local function read_sheets(t, options, found)
  local sheets, order = {}, {}
  for _, kind in ipairs(columns.files) do
    if t[kind] ~= nil then
      sheets[kind] = sheet.read(t[kind], kind, columns[kind], options, found)
      order[#order + 1] = sheets[kind].title
    end
  end
  return sheets, order
end

-- What the sheets hold together: joists, their notes, obstructions, chosen repairs.
local function gather(sheets)
  local got = {chosen = {}, things = {}, records = {}, kept = {}}
  got.list, got.notes = joists.read(sheets.joists, columns.joists)
  for _, joist in ipairs(got.list) do joist.where = {cuts = {}, loads = {}} end
  local all = marks.of(got.list)
  for _, name in ipairs {"cuts", "loads"} do
    if sheets[name] then along.read(sheets[name], name, all) end
  end
  if sheets.obstructions then
    got.things, got.records, got.kept = obstructions.read(sheets.obstructions, all,
      got.notes)
  end
  if sheets.fixes then got.chosen = fixes.read(sheets.fixes, all) end
  return got
end

local function all_notes(said, sheets, notes)
  local out = table.move(said, 1, #said, 1, {})
  for _, kind in ipairs(columns.files) do
    local s = sheets[kind]
    for _, note in ipairs(s and s.notes or {}) do out[#out + 1] = note end
  end
  table.move(notes, 1, #notes, #out + 1, out)
  return out
end

-- A survey whose bare lengths are metric is printed so, unless something else was said.
local METRIC = {mm = true, cm = true, m = true}

local function printed_in(options)
  return options.printed or METRIC[options.units] and "metric" or nil
end

local function floor_of(sheets, got, options, given, found)
  local description = {name = options.name, rules = options.rules,
    standard = options.standard, units = printed_in(options), lang = options.lang,
    by_depth = options.by_depth, joists = {},
      obstructions = got.things,
    survey = {notes = all_notes(got.said, sheets, got.notes), settings = given,
      obstructions = got.kept}}
  for i, joist in ipairs(got.list) do description.joists[i] = joist.t end
  local made, problems = floor.read(description)
  floor_problems(found, problems or {}, got.list, got.records)
  return made
end

-- The parts of a survey by name: as they were given, or sheets of the workbook.
-- @return parts, notes, the workbook's name; nil where it cannot be read
local function parts_of(t, found)
  if t.workbook == nil then return t, {} end
  local made, name = require "netsection.survey.book".read(t.workbook, found)
  if not made then return nil, {}, name end
  if not made.sheets.joists then
    found:add {file = name, message = "no sheet 'joists': one with a row for each joist "
      .. "expected"}
    return nil, made.notes, name
  end
  return made.sheets, made.notes, name
end

local function where_of(settings_source, name)
  local s = type(settings_source) == "table" and settings_source.rows and settings_source
  return {file = s and s.name or name, sheet = s and s.sheet or nil}
end

local function read_parts(t, sources, said, found)
  local given, settings_name = settings.none(), nil
  if sources.settings ~= nil then
    given, settings_name = settings.read(sources.settings, found)
  end
  for _, name in ipairs(t.workbook ~= nil and OF_TEXT or {}) do
    if given[name] then
      said[#said + 1] = ("%s: %s is not needed in a workbook"):format(settings_name, name)
    end
  end
  local options = combined(t, given)
  local sheets, order = read_sheets(sources, options, found)
  local show = quantity.system(printed_in(options)) -- of what notes say
  for _, s in pairs(sheets) do s.show = show end
  table.insert(order, 1, settings_name)
  check_packs(options, given, where_of(sources.settings, settings_name), found)
  local got = gather(sheets)
  got.said = said
  if sheets.joists.sound and #got.list == 0 then
    found:add {file = sheets.joists.name, sheet = sheets.joists.of_workbook,
      message = "no joist: a row with a mark expected"}
  end
  local most = t.most_joists or survey.most_joists
  if #got.list > most then
    found:add {file = sheets.joists.name, sheet = sheets.joists.of_workbook, message =
      ("%d joists: a survey has at most %d; divide it, or raise the limit (most_joists, "
      .. "--most-joists)"):format(#got.list, most)}
    return nil, order
  end
  local made = #got.list > 0 and floor_of(sheets, got, options, given, found)
  if made then made = repaired(made, got.chosen) end
  return made, order
end

--- Reads a survey.
-- @param t {joists =, cuts =, obstructions =, loads =, fixes =, settings = each a path,
--   text or {text =, name =}; or workbook = one .ods or .xlsx with sheets of those names
--   ("survey" for settings), a path or {text =, name =}; decimal = ",", separator =,
--   encoding =, units = of bare lengths, rules =, standard =, name =}
-- @return a floor whose 'survey' is {notes =, settings =, obstructions =}; or nil and all
--   problems, each {file, sheet and cell of a workbook, row, line, column, letter,
--   heading, field, found, message, text}
function survey.read(t)
  check(t)
  local found = sheet.problems()
  local sources, said, name = parts_of(t, found)
  if not sources then return nil, found:sorted {name} end
  local made, order = read_parts(t, sources, said, found)
  if #found > 0 then return nil, found:sorted(order) end
  return made
end

return survey
