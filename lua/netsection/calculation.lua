-- SPDX-License-Identifier: MIT
-- The calculation sheet of a joist or of a floor as a document: inputs as they were
-- entered and understood, assumptions, switches, loads, the three states side by side,
-- rules, and every check as symbol = formula = numbers = result with its clause, so that
-- a person can follow it with a pocket calculator. No engineering is done here; each
-- number is one of netsection.numbers, whose name it carries.
local act_now = require "netsection.act_now"
local cautions = require "netsection.cautions"
local checks = require "netsection.calculation.checks"
local core = require "netsection.core"
local document = require "netsection.document"
local feel = require "netsection.feel.words"
local furniture = require "netsection.furniture"
local second = require "netsection.grid.words"
local inputs = require "netsection.calculation.inputs"
local numbers = require "netsection.numbers"
local parts = require "netsection.parts"
local reason = require "netsection.reason"
local repair = require "netsection.calculation.repair"
local review = require "netsection.review"
local shared = require "netsection.calculation.shared"
local shores = require "netsection.shores"
local values = require "netsection.calculation.values"
local verdict = require "netsection.verdict"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local calculation = {}

local OPTIONS = {"steps", "concealed", "visit", "figures", "title", "job", "date"}
calculation.options = OPTIONS
local STEPS = {all = true, governing = true, none = true}

-- Drawings of a joist: last word of the name, description, caption.
local FIGURES = {
  {"elevation", "Joist %s from its right face, to scale, with its cuts%s",
    "Elevation of joist %s"},
  {"forces", "Shear and moment of joist %s beside the capacity that is left%s",
    "Shear and moment of joist %s"},
  {"shear", "Shear of joist %s beside the capacity that is left%s", "Shear of joist %s"},
  {"moment", "Moment of joist %s beside the capacity that is left%s",
    "Moment of joist %s"},
  {"section", "Joist %s cut across at the cut that governs, to scale%s",
    "Section of joist %s"},
}
local DIAGRAMS = {forces = true, shear = true, moment = true}

---------------------------------------------------------------------------
-- One joist
---------------------------------------------------------------------------

local function result(ctx)
  local d, r = ctx.d, ctx.r
  d:paragraph {{mark = r.mark}, ": " .. r.title .. ". Action: ",
    {strong = verdict.text(r)}}
  if r.action ~= "leave" or r.out or r.until_repaired then shores.document(d, {r}) end
  if #r.reasons > 0 then d:list(r.reasons) end
  if r.computed then checks.states(ctx) end
end

-- What the joist assumes; in a floor, besides what all do.
local function assumed(ctx)
  local d, r, common = ctx.d, ctx.r, ctx.common
  local list = common and shared.besides(r.assumptions, common.assumptions)
    or r.assumptions
  if #list > 0 then
    d:heading(3, common and "Assumptions besides" or "Assumptions")
    d:list(list, {ordered = true})
  elseif not common then
    d:heading(3, "Assumptions")
    d:paragraph "None: no numbers were worked out."
  end
  list = common and shared.besides(r.switches, common.switches) or r.switches
  if #list > 0 or not common then
    d:heading(3, "Options not at default")
    if #list > 0 then d:list(list) else d:paragraph "None." end
  end
end

local function own_cautions(ctx)
  for _, said in ipairs(ctx.cautions_of(ctx.r.cautions)) do
    ctx.d:note(said, "caution")
  end
end

-- Inputs, all or those that differ from the head of the sheet.
local function described(ctx, alike)
  if not ctx.common then
    inputs.add(ctx)
    return
  end
  inputs.table(ctx.d, shared.own_rows(ctx, ctx.common),
    "Inputs that differ from the head")
  local all = {ctx.r}
  table.move(alike, 1, #alike, 2, all)
  inputs.notes(ctx.d, all)
  inputs.cuts(ctx)
  if not shared.same_load(ctx, ctx.common) then inputs.floor_load(ctx) end
  inputs.loads(ctx)
end

--- Whether a drawing says something of a joist: whole wood needs no elevation.
-- Shear and moment of a joist with cuts or a repair are two drawings: one would not share
-- a page with text, or be higher than a page.
function calculation.drawn(r, what)
  if DIAGRAMS[what] then
    local many = #r.joist.model.cuts > 0 or r.fixed ~= nil and not r.fixed.refused
      and r.fixed.kind ~= "neighbor"
    return r.computed and (what ~= "forces") == many
  end
  return r.computed and (#r.joist.model.cuts > 0 or r.fixed ~= nil)
end

--- Whether it stands in the sheet: a section is for what is to be justified or repaired.
function calculation.shown(r, what)
  return calculation.drawn(r, what) and (what ~= "section" or r.action ~= "leave")
end

-- @param wanted {name = true} of those that stand here
local function figures(ctx, given, wanted)
  for _, f in ipairs(FIGURES) do
    local name = ("%s-%s"):format(ctx.word, f[1])
    if wanted[f[1]] and calculation.shown(ctx.r, f[1]) and (given == nil or given[name])
    then
      local more = verdict.serves(ctx.r) and " and its repair" or verdict.trial(ctx.r)
        and " and a trial repair that is not to be built" or ""
      ctx.d:figure {name = name .. ".gp", alt = f[2]:format(ctx.r.mark, more),
        caption = f[3]:format(ctx.r.mark), svg = given and type(given[name]) == "string"
          and given[name] or nil}
    end
  end
end

-- Which checks are written out line by line. Where nothing is to be done the one that
-- governs is enough, unless more was asked for.
local function wanted_by(steps, r, a)
  if not steps then steps = r.action == "leave" and "governing" or "all" end
  return function(k)
    return steps == "all" or steps == "governing" and k == a.governing_check
  end
end

local function calculated(ctx, options)
  local d, r, steps = ctx.d, ctx.r, options.steps
  local cut = #r.joist.model.cuts > 0
  d:heading(3, "Checks")
  if cut and #r.cut.checks > 0 then
    checks.table(ctx, "cut", "Checks of the joist as cut, beside the ratio uncut",
      "uncut")
  else
    checks.table(ctx, "uncut", "Checks of the joist")
  end
  if steps == "none" then return end
  d:heading(3, "Calculation")
  if cut then
    if not r.cut.ratio then
      d:paragraph "Cut through: what follows is the demand on the whole joist."
    end
    checks.steps(ctx, "cut", wanted_by(steps, r, r.cut))
    checks.steps(ctx, "uncut", wanted_by("governing", r, r.uncut), " before any cut")
  else
    checks.steps(ctx, "uncut", wanted_by(steps, r, r.uncut))
  end
end

local function sheet_name(marks)
  return (#marks > 1 and "Joists " or "Joist ") .. table.concat(marks, ", ")
end

-- @param alike reviews of the joists that share the sheet
local function add_joist(ctx, options, alike)
  local d, r = ctx.d, ctx.r
  local marks, others = {r.mark}, {}
  for i, other in ipairs(alike) do marks[i + 1], others[i] = other.mark, other.mark end
  d:heading(2, sheet_name(marks), "joist-" .. ctx.word)
  if #alike > 0 then
    d:paragraph {"Identical, number for number: ", {mark = table.concat(others, ", ")}}
  end
  if ctx.common then
    d:paragraph {{link = "Back to the table of all joists", to = "all-joists"}}
  end
  result(ctx)
  described(ctx, alike)
  assumed(ctx)
  own_cautions(ctx)
  -- the high drawings stand at the end, where they leave no half page empty
  local late = {section = true, elevation = r.fixed ~= nil, forces = true, shear = true,
    moment = true}
  figures(ctx, options.figures, {elevation = not r.fixed})
  if not r.computed then return end
  checks.rules(ctx)
  calculated(ctx, options)
  if r.fixed then
    repair.add(ctx, wanted_by(options.steps, r, r.fixed))
  end
  d:heading(3, "Drawings")
  figures(ctx, options.figures, late)
end

---------------------------------------------------------------------------
-- What is common
---------------------------------------------------------------------------

--- Lines about what stayed hidden: those given, or blanks.
function calculation.concealed(d, list)
  d:heading(2, "What was not seen")
  if list and #list > 0 then
    d:list(list)
  else
    d:paragraph("To be filled in by the one who looked; what is not listed as seen was "
      .. "not.")
    d:blanks {"Concealed parts", "Not opened", "Not measured"}
  end
end

local VISIT = {"date", "length", "present", "address", "documents", "photos", "weather",
  "trades", "inspections", "seen", "scope", "exclusions", "use"}
calculation.visit_fields = VISIT

-- What the caller and the survey say of the visit and the job, as it was entered.
local function visited(d, visit, survey)
  local items = {}
  for _, name in ipairs(VISIT) do
    if visit[name] then items[#items + 1] = name .. ": " .. tostring(visit[name]) end
  end
  for _, other in ipairs(survey and survey.settings.others or {}) do
    items[#items + 1] = other.name .. ": " .. other.value
  end
  if #items > 0 then
    d:heading(2, "Visit")
    d:list(items)
  end
end

-- @param more cautions of kinds of damage and repair that are there
local function closing(d, options, more)
  calculation.concealed(d, options.concealed)
  d:heading(2, "Cautions")
  local list = {table.unpack(cautions.always)}
  table.move(more, 1, #more, #list + 1, list)
  d:list(list, {ordered = true})
  d:heading(2, "Made with")
  d:paragraph(("netsection %s. Each number stands in full, under the name it carries, "
    .. "in the files of numbers."):format(core.version))
  d:blanks {"Checked by, date"}
end

---------------------------------------------------------------------------
-- A floor
---------------------------------------------------------------------------

-- Joists that differ in nothing but their marks and notes share a sheet; what a grid says
-- of them stands in a block of its own.
-- @return {{review = of the first one, alike = reviews of the others}, ...}
local function grouped(list, tree, names)
  local first, order = {}, {}
  for _, r in ipairs(list) do
    local o = tree.joists[names[r.mark]]
    local mark, until_repaired = o.mark, o.until_repaired
    local opinion = until_repaired and until_repaired.grid
    o.mark = ""
    if opinion then until_repaired.grid = "" end
    local key = not r.fixed and numbers.json(o) .. numbers.described(r) or r.mark
    o.mark = mark
    if opinion then until_repaired.grid = opinion end
    if first[key] then
      table.insert(first[key].alike, r)
    else
      first[key] = {review = r, alike = {}}
      order[#order + 1] = first[key]
    end
  end
  return order
end

local function summary(d, subject, list, names, tree)
  local rows, sheet_of = {}, {}
  for _, group in ipairs(grouped(list, tree, names)) do
    local id = "joist-" .. names[group.review.mark]
    sheet_of[group.review.mark] = id
    for _, other in ipairs(group.alike) do sheet_of[other.mark] = id end
  end
  d:heading(2, "All joists", "all-joists")
  local until_repaired, so = verdict.column(list)
  for i, r in ipairs(list) do
    local name = "joists." .. names[r.mark]
    local function cell(path, shown)
      return {text = shown, data = name .. "." .. path}
    end
    local ctx = {cell = cell}
    local function ratio(state)
      local a = r[state]
      return a and r.computed and checks.ratio(ctx, state .. ".ratio", a.ratio) or "-"
    end
    local k = r.cut.governing_check
    rows[i] = {{text = r.mark, to = sheet_of[r.mark]},
      {text = verdict.text(r), strong = r.action ~= "leave"},
      ratio "uncut", ratio "cut", r.fixed and r.fixed.refused and "refused"
        or ratio "fixed", r.rules.status, r.cut.stopped
        or k and reason.mode(k) .. (k.name and ", " .. k.name or "") or ""}
    if so then
      table.insert(rows[i], 5, r.until_repaired and r.until_repaired.ratio
        and cell("until_repaired.ratio", so[i]) or so[i])
    end
  end
  local columns = {{head = "Joist"}, {head = "Action"},
    {head = "uncut", align = "right", group = "Largest ratio"},
    {head = "as cut", align = "right", group = "Largest ratio"},
    {head = "repaired", align = "right", group = "Largest ratio"},
    {head = "Limits"}, {head = "Governed as cut by"}}
  if so then
    table.insert(columns, 5, {head = until_repaired, align = "right",
      group = "Largest ratio"})
  end
  d:table {caption = "All joists", row_heads = 1, rows = rows, columns = columns}
  local counts = {}
  for _, action in ipairs {"leave", "justify", "decide", "repair", "refer"} do
    counts[#counts + 1] = ("%s %d"):format(action, subject.actions[action])
  end
  d:paragraph(("%d joists: %s."):format(#list, table.concat(counts, ", ")))
end

local FLOOR_FIGURES = {{"plan", "Plan of the floor, to scale: joists with marks, "
  .. "spacing, bearings, cuts and actions", "Plan"}, {"summary",
  "Ratios of all joists uncut, as cut and repaired beside the line at 1.0", "Summary"}}

local function floor_figures(d, given)
  for _, f in ipairs(FLOOR_FIGURES) do
    if given == nil or given[f[1]] then
      d:figure {name = f[1] .. ".gp", alt = f[2], caption = f[3],
        svg = given and type(given[f[1]]) == "string" and given[f[1]] or nil}
    end
  end
end

local function obstructions(d, floor)
  local rows = {}
  for i, t in ipairs(floor.obstructions or {}) do
    rows[i] = {("(%d)"):format(i), t.what, t.kind or "", t.movable,
      t.trade or "", table.concat(t.marks or {}, ", ")}
  end
  if #rows > 0 then
    d:heading(2, "In the way")
    d:table {caption = "What stands in the way of work", columns = {"", "What", "Kind",
      "To be moved", "Trade", "At joists"}, rows = rows, row_heads = 1}
  end
end

---------------------------------------------------------------------------
-- The whole
---------------------------------------------------------------------------

local function read_options(options, level)
  options = options or {}
  parts.only("calculation", options, OPTIONS, level + 1)
  local read = {}
  for name, value in pairs(options) do read[name] = value end
  if options.steps ~= nil and not STEPS[options.steps] then
    error('calculation: steps is "all", "governing" or "none"', level + 1)
  end
  return read
end

-- What the parts of a joist's sheet work with. @param floor true: one of several
function calculation.context(d, tree, names, r, floor)
  local name = "joists." .. names[r.mark]
  local ends = shared.general
  return {d = d, r = r, tree = tree.joists[names[r.mark]], name = name,
    word = names[r.mark], cautions_of = function(list)
      return shared.besides(list, floor and ends or shared.always)
    end, cell = function(path, shown)
      return {text = shown, data = name .. "." .. path}
    end}
end

local VALUES = "Adjusted values that the calculations refer to by number"

-- Head of a floor, and a sheet for each joist or all that are alike.
local function add_floor(d, subject, list, tree, names, options)
  local contexts = {}
  for i, r in ipairs(list) do
    contexts[i] = calculation.context(d, tree, names, r, true)
  end
  summary(d, subject, list, names, tree)
  floor_figures(d, options.figures)
  obstructions(d, subject.floor)
  local common = shared.of(contexts)
  shared.add(d, common)
  -- the sheets first, on a document of their own: they fill the list of values
  local sheets, book, said = document.new {title = d.title}, values.new(), {}
  for _, group in ipairs(grouped(list, tree, names)) do
    local marks = {group.review.mark}
    for _, other in ipairs(group.alike) do marks[#marks + 1] = other.mark end
    sheets:page_break(sheet_name(marks))
    local ctx = calculation.context(sheets, tree, names, group.review, true)
    ctx.common, ctx.book, ctx.said = common, book, said    -- said at the head
    add_joist(ctx, options, group.alike)
  end
  values.adjusted(d, book, VALUES, 3)
  d:append(sheets)
  d:page_break()
  if subject.grid then second.add(d, subject.grid, list, "grid") end
  if subject.feel then feel.add(d, subject.feel, list) end
  return shared.cautions(contexts)
end

local function head(d, first)
  d:paragraph(("Limits: %s, %s. Standard: %s."):format(first.rules.pack,
    first.rules.title, first.standard))
  d:note(cautions.always[1], "caution")
end

--- Which joists have a sheet of their own: {{review =, word = its name, alike =
-- {marks}}, ...}.
function calculation.sheets(subject, tree)
  local list, names = numbers.reviews(subject, "calculation", 2)
  local sheets = grouped(list, tree, names)
  for _, s in ipairs(sheets) do s.word = names[s.review.mark] end
  return sheets
end

--- The calculation sheet of a joist's or a floor's review.
-- @param options {steps = "all" | "governing" | "none": checks written out line by line
--   (default: all, of joists to be left the governing one of each state), concealed =
--   list of texts, visit = {date =, ...}, figures = {name = text of a picture in SVG, or
--   true for a file beside it}, title =}
-- @param tree its numbers, where they are at hand
function calculation.of(subject, options, tree)
  options = read_options(options, 2)
  local list, names = numbers.reviews(subject, "calculation", 2)
  tree = tree or numbers.of(subject)
  local one = review.is(subject)
  local job, foot = furniture.of(subject, list, options)
  local lang, own = furniture.language(subject, options)
  local d = document.new {title = options.title or "Calculation sheet: "
    .. (one and "joist " .. subject.mark or subject.name), job = job, foot = foot,
    lang = lang, own = own}
  head(d, list[1])
  act_now.add(d, list)
  visited(d, options.visit or {}, not one and subject.floor and subject.floor.survey)
  local more = {}
  if one then
    local sheet, book = document.new {title = d.title}, values.new()
    local ctx = calculation.context(sheet, tree, names, subject)
    ctx.book = book
    add_joist(ctx, options, {})
    values.adjusted(d, book, VALUES, 2)
    d:append(sheet)
  else
    more = add_floor(d, subject, list, tree, names, options)
  end
  closing(d, options, more)
  return d
end

return calculation
