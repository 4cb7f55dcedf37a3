-- SPDX-License-Identifier: MIT
-- Reviews as text for people: one line per joist, then a table per joist. No engineering
-- is done here.
local act_now = require "netsection.act_now"
local calculation = require "netsection.calculation"
local cautions = require "netsection.cautions"
local document = require "netsection.document"
local feel = require "netsection.feel.words"
local furniture = require "netsection.furniture"
local second = require "netsection.grid.words"
local drawings = require "netsection.package.drawings"
local model = require "netsection.model"
local numbers = require "netsection.numbers"
local parts = require "netsection.parts"
local overview = require "netsection.report_overview"
local rank = require "netsection.rank"
local reason = require "netsection.reason"
local repair = require "netsection.report_repair"
local review = require "netsection.review"
local text = require "netsection.text"
local shores = require "netsection.shores"
local verdict = require "netsection.verdict"
local error = require "netsection.raise".error

local report = {}

local STEPS = {none = true, governing = true, all = true}
local WIDTH = text.width
local pad, wrap, plain, ratio = text.pad, text.wrap, text.plain, text.ratio

-- Pairs of checks, uncut and cut, that speak of the same thing.
local function rows_of(r)
  local rows, at = {}, {}
  for _, state in ipairs {"uncut", "cut"} do
    for _, k in ipairs(r[state].checks) do
      local key = table.concat({k.mode, k.cut or 0, k.support or 0, k.branch == 2
        and k.mode == "bending" and 2 or 1}, "/")
      if not at[key] then
        rows[#rows + 1] = {}
        at[key] = rows[#rows]
      end
      at[key][state] = k
    end
  end
  return rows
end

local function what_of(k)
  local what = reason.mode(k)
  if k.mode == "bending" and k.branch == 2 then what = what .. ", top in tension" end
  if k.name then what = what .. ", " .. k.name end
  if k.support then what = what .. " " .. k.support end
  return k.binding and what or what .. " *"
end

local WIDE = 28        -- a longer name has a line of its own

local function table_of(r)
  local list, show = rows_of(r), r.show
  local function row(sign, name, at, demand, capacity, unit, uncut, cut)
    return ("%s %s %s %s %s %s %s %s"):format(sign, pad(name, WIDE), pad(at, 10),
      pad(demand, 8, true), pad(capacity, 8, true), pad(unit, 5), pad(uncut, 6, true),
      pad(cut, 6, true))
  end
  local out = {row(" ", "check", "at", "demand", "capacity", "", "ratio", "ratio"),
    row(" ", "", "", "as cut", "as cut", "", "uncut", "cut")}
  local noted, clauses = false, {}
  for _, pair in ipairs(list) do
    local k = pair.cut or pair.uncut
    noted = noted or not k.binding
    local name = what_of(k)
    if #name > WIDE then out[#out + 1], name = "  " .. name, "" end
    out[#out + 1] = row(k == (r.cut.governing_check or r.uncut.governing_check) and ">"
      or " ", name, k.mode == "stability" and "-" or show.place(k.at),
      show.quantity_number(k.demand, k.unit), k.mode == "uplift" and "-"
      or show.quantity_number(k.capacity, k.unit), show.unit_of(k.unit),
      ratio(pair.uncut and pair.uncut.ratio),
      ratio(r.cut.ratio and pair.cut and pair.cut.ratio))
    clauses[#clauses + 1] = k
  end
  out[#out + 1] = "  > governs" .. (noted and "; * for information, does not govern"
    or "")
  out[#out + 1] = repair.clauses(clauses)
  return out
end

local function add_steps(out, k, show)
  out[#out + 1] = ("  %s at %s, %s:"):format(what_of(k), show.place(k.at),
    k.combination)
  for _, step in ipairs(k.steps) do
    out[#out + 1] = wrap(text.step(step, show), "    ", "      ")
  end
end

-- Where a cut is; what lies beyond a bearing's center is the joist's end.
local function extent(r, c)
  local total = model.total(r.joist.model)
  local left = c.kind == "end_notch" and c.x1 < 0
  local right = c.kind == "end_notch" and c.x2 > total
  return ("%s to %s"):format(left and "left end" or r.show.place(c.x1),
    right and "right end" or r.show.place(c.x2))
end

local function cut_lines(out, r)
  for i, c in ipairs(r.cuts or {}) do
    local with = c.merged and c.merged ~= i and "with " .. r.cuts[c.merged].name .. ", "
      or c.merged and "with its neighbors, " or ""
    out[#out + 1] = wrap(("%s: %s, %s%s; rules %s%s%s"):format(c.name, c.label, with,
      extent(r, c), c.rules, c.status and "; " .. c.status .. " (" .. r.standard .. ")"
      or "", c.note and "; " .. plain(c.note) or ""), "  ", "    ")
  end
end

local function header(r)
  local said = ("%s   %s, span %s   action: %s"):format(plain(r.mark), r.title,
    text.spans(r.joist.model), plain(verdict.text(r)))
  return verdict.more(r) and #said > WIDTH and wrap(said, "", "  ") or said
end

local function reaction_line(r)
  local list, show = {}, r.show
  for i, R in ipairs(r.cut.reactions) do
    local range = r.cut.reaction_range[i]
    list[i] = ("%s (dead %s, least %s)"):format(show.one("force", R),
      show.number("force", range.dead), show.number("force", range.least))
  end
  local said = r.factored and "reactions of factored loads (dead without factors): "
    or "reactions: "
  return wrap(said .. table.concat(list, "; "), "  ", "    ")
end

local function joist_text(r, which)
  local out = {header(r), ("-"):rep(WIDTH)}
  cut_lines(out, r)
  if r.computed then
    if not r.cut.ratio then
      out[#out + 1] = r.cut.stopped == "no sound seat"
        and "  no sound seat: what follows is worked out as if the end were held"
        or "  cut through: what follows is the demand on the whole joist"
    end
    for _, row in ipairs(table_of(r)) do out[#out + 1] = row end
    out[#out + 1] = reaction_line(r)
    if r.cut.deflection then
      local said = r.labels
      out[#out + 1] = ("  %s %s, %s %s"):format(said and said.live or "deflection live",
        r.show.length(r.cut.deflection.live, 3), said and said.total or "total",
        r.show.length(r.cut.deflection.total, 3))
    end
  end
  if r.shores then text.bullets(out, "  temporary shores", shores.lines(r)) end
  text.bullets(out, "  why", r.reasons)
  text.bullets(out, "  cautions", cautions.own(r.cautions))
  text.bullets(out, "  switches not at default", r.switches)
  if which == "governing" and r.cut.governing_check then
    out[#out + 1] = "  calculation"
    add_steps(out, r.cut.governing_check, r.show)
  elseif which == "all" then
    out[#out + 1] = "  calculation"
    for _, k in ipairs(r.cut.checks) do add_steps(out, k, r.show) end
  end
  if r.fixed then repair.add(out, r, which) end
  return table.concat(out, "\n")
end

-- Assumptions of all joists, each once, with the marks where they are not common to all.
local function shared_assumptions(reviews)
  local marks, order, with_any = {}, {}, 0
  for _, r in ipairs(reviews) do
    with_any = with_any + (#r.assumptions > 0 and 1 or 0)
    for _, said in ipairs(r.assumptions) do
      if not marks[said] then
        marks[said] = {}
        order[#order + 1] = said
      end
      marks[said][#marks[said] + 1] = plain(r.mark)
    end
  end
  local out = {}
  for i, said in ipairs(order) do
    local with = #marks[said] == with_any and "" or " ("
      .. table.concat(marks[said], ", ") .. ")"
    out[i] = said .. with
  end
  return out
end

local function numbered(out, list)
  for i, said in ipairs(list) do
    out[#out + 1] = wrap(said, ("%3d "):format(i), "    ")
  end
end

local function reviews_of(subject)
  if review.is(subject) then return {subject} end
  if type(subject) ~= "table" or type(subject.order) ~= "table"
    or type(subject.joists) ~= "table" then
    error("report.text: a review of a joist or a floor expected, got "
      .. type(subject), 3)
  end
  local list = {}
  for i, mark in ipairs(subject.order) do list[i] = subject.joists[mark] end
  return list
end

-- What must be done today, before all else.
local function act_lines(out, reviews)
  local list = act_now.of(reviews)
  if #list == 0 then return end
  out[#out + 1] = act_now.title
  for _, said in ipairs(list) do out[#out + 1] = wrap(plain(said), "  ", "    ") end
  out[#out + 1] = wrap(act_now.basis(reviews), "  ", "  ")
  out[#out + 1] = ""
end

-- The report of a joist's or a floor's review as text.
-- @param options {steps = "governing" (default) | "all" | "none"}
function report.text(subject, options)
  local reviews = reviews_of(subject)
  if options ~= nil then parts.only("report.text", options, {"steps"}, 2) end
  local which = options and options.steps or "governing"
  if not STEPS[which] then
    error("report.text: steps is \"governing\", \"all\" or \"none\"", 2)
  end
  local out = {}
  if not review.is(subject) then
    out[#out + 1] = plain(subject.name)
    out[#out + 1] = overview.counts(subject)
  end
  local first = reviews[1]
  out[#out + 1] = ("rules %s: %s"):format(first.rules.pack, first.rules.title)
  out[#out + 1] = ("standard %s"):format(first.standard)
  out[#out + 1] = ""
  act_lines(out, reviews)
  for _, line in ipairs(overview.lines(reviews)) do out[#out + 1] = line end
  for _, r in ipairs(reviews) do
    out[#out + 1] = ""
    out[#out + 1] = joist_text(r, which)
  end
  if subject.grid then
    out[#out + 1] = ""
    second.add_text(out, subject.grid, reviews)
  end
  if subject.feel then
    out[#out + 1] = ""
    feel.add_text(out, subject.feel, reviews)
  end
  out[#out + 1] = ""
  out[#out + 1] = "Assumptions"
  numbered(out, shared_assumptions(reviews))
  out[#out + 1] = ""
  out[#out + 1] = "Cautions"
  numbered(out, cautions.always)
  return furniture.spelled(table.concat(out, "\n") .. "\n", subject)
end

-- A joist's review in one line: mark, action, ratios uncut and as cut, the reason.
-- @param with_fixed true keeps the column of the repaired ratio where there is no repair,
-- so that lines of a floor stand under each other
function report.line(r, with_fixed)
  if not review.is(r) then
    error("report.line: a review of a joist expected, got " .. type(r), 2)
  end
  return furniture.spelled(overview.line(r, with_fixed), r)
end

-- All joists of a floor's review as a table of 79 columns with a heading.
-- @return text, its lines parted by line breaks
function report.overview(subject)
  return furniture.spelled(table.concat(overview.lines(reviews_of(subject)), "\n"),
    subject)
end

-- A document's forms of the calculation sheet. @param options those of calculation.of
local function written(form, name, subject, options)
  options = options or {}
  parts.only("report." .. name, options, calculation.options, 3)
  return document[form](calculation.of(subject, options))
end

-- The calculation sheet as Markdown and as LaTeX.
-- @param options {steps = "all" (default) | "governing" | "none", concealed =, visit =,
--   figures = {name = SVG}, title =}
function report.markdown(subject, options)
  numbers.reviews(subject, "report.markdown", 2)
  local said = written("markdown", "markdown", subject, options)
  return said
end

function report.latex(subject, options)
  numbers.reviews(subject, "report.latex", 2)
  local said = written("latex", "latex", subject, options)
  return said
end

local PAGE = {"paper", "render", table.unpack(calculation.options)}

-- The calculation sheet as a page of HTML that needs nothing beside it. @param options
-- as report.markdown, and paper = "letter" (default) | "a4", render = true: gnuplot draws
-- the figures into the page; second result: what went wrong with that
function report.html(subject, options)
  numbers.reviews(subject, "report.html", 2)
  parts.only("report.html", options or {}, PAGE, 2)
  local given, tree, problem = {}, numbers.of(subject), nil
  for name, value in pairs(options or {}) do given[name] = value end
  local paper = given.paper
  given.paper = nil
  if given.render then
    given.figures, problem = drawings.pictures(drawings.of(subject, tree,
      {full = true}))
  end
  given.render = nil
  return document.html(calculation.of(subject, given, tree), {paper = paper}), problem
end

-- Every number of a review, with stable names, in full.
function report.json(subject)
  numbers.reviews(subject, "report.json", 2)
  return numbers.json(numbers.of(subject))
end

function report.csv(subject)
  numbers.reviews(subject, "report.csv", 2)
  return numbers.csv(numbers.of(subject))
end

-- What floor:rank_fixes found: fixes in order of what they disturb, those that fail and
-- those that cannot be fitted with their reasons.
report.fixes = rank.text

return report
