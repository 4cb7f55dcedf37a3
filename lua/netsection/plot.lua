-- SPDX-License-Identifier: MIT
--- Drawings as gnuplot scripts, each in one string that needs nothing but gnuplot.
--
--   plot.moment(subject, options)   bending moment and the capacity that the cuts leave
--   plot.shear(subject, options)    the same for shear
--   plot.sheet(subject, options)    shear over moment on one sheet
--   plot.elevation(subject, options)  the joist to scale with its cuts and its repair
--   plot.overview(subject, options)  elevation, diagram and section in one drawing
--   plot.curves(sweep, options)     a value along an axis, a line per value of another
--   plot.contour(sweep, options)    a value over two axes, as lines of equal value
--   plot.sketch(drawing, options)   lines and texts that somebody else has placed
--   plot.cut_map(subject, options)    where a hole or a notch is still allowed
--   plot.section(subject, options)  the joist cut across at options.at, to scale
--   plot.detail(subject, options)     a repair to be built, to scale on one sheet
--   plot.floor_plan(subject, options)  a floor in plan, to scale
--   plot.key_plan(subject, options)  the same small, for a first page
--   plot.tornado(answer, options)     what each uncertain input does to a ratio
--   plot.load_path(path, options)   lb at each point from the joists into the ground
--   plot.grid_plan(grid, options)  a floor as a grid: reactions and deflection
--   plot.floor_summary(subject, options)  ratios of a floor's joists, what comes next
--
-- Moment and shear of a repaired joist show it as it is and, below, the members of the
-- repaired one.
--
-- `subject` is a review, or a joist, which is reviewed with the defaults. Options:
-- output (a file name in .png, .svg or .pdf; without it the terminal is the user's),
-- size ({width, height}, lengths; by default a letter page's column, for an elevation
-- its long side; without a height as high as it needs), title (first line).
-- A drawing prints what the review found; nothing is designed here.
--
-- How a drawing looks is in plots/*.gp. What differs from joist to joist is put in for
-- the names between at signs: numbers, and texts in single quotes, in which gnuplot
-- expands nothing.

local contour = require "netsection.plot.contour"
local curves = require "netsection.plot.curves"
local cut_map = require "netsection.plot.cut_map"
local detail = require "netsection.plot.detail"
local details = require "netsection.detail"
local elevation = require "netsection.plot.elevation"
local forces = require "netsection.plot.forces"
local furniture = require "netsection.furniture"
local grid_plan = require "netsection.plot.grid_plan"
local key_plan = require "netsection.plot.key_plan"
local load_path = require "netsection.plot.load_path"
local overview = require "netsection.plot.overview"
local plan = require "netsection.plot.plan"
local repair = require "netsection.plot.repair"
local maps = require "netsection.cut_map"
local quantity = require "netsection.quantity"
local section = require "netsection.plot.section"
local sheet = require "netsection.plot.sheet"
local single = require "netsection.plot.single"
local sketch = require "netsection.plot.sketch"
local spelling = require "netsection.locale.spelling"
local summary = require "netsection.plot.summary"
local tornado = require "netsection.plot.tornado"
local error = require "netsection.raise".error

local plot = {}

-- A script as it is spelled where its subject is printed.
local function spelled(script, subject)
  if not script then return nil end
  local lang, own = furniture.language(subject)
  return spelling.script(script, lang, own)
end

local COLUMN, WIDE, LONG = 6.5, 7.5, 10   -- in: a letter page's column, with
                                          -- narrow margins, and its long side

local function has(subject, method)
  return type(subject) == "table" and type(subject[method]) == "function"
end

-- Subject -> what its review gives by `method` | nil, problem | false: no subject.
local function ask(subject, method, at)
  if has(subject, method) then return subject[method](subject, at) end
  if not has(subject, "review") then return false end
  local review, problem = subject:review()
  if review == nil then return nil, problem end
  if not has(review, method) then return false end
  return review[method](review, at)
end

-- Raises at the line of the public function's caller.
-- @param more names of options that only this drawing takes
local function draw(name, width, method, make, subject, options, more)
  local page, problem = sheet.read(options, width, more)
  if not page then error(problem, 3) end
  local given, text
  given, problem = ask(subject, method, page.at)
  if given == false then
    error(("plot.%s: a review or a joist expected, got a %s"):format(name, type(subject)),
      3)
  end
  if not given then return nil, problem end
  page.show = quantity.of(given)
  text, problem = make(given, page)
  if not text then error(problem, 3) end
  return spelled(text, subject)
end

local function of_forces(name)
  return function(given, page)
    local kind = forces.kind(name, page.show)
    local members = given.fixed and given.fixed.members
    if members and members[1] then return repair.script(given, {kind}, page) end
    return single.script(given, kind, page)
  end
end

--- Bending moment with the capacity that steps down at the cuts.
-- @param subject a review or a joist
-- @param options {output =, size =, title =}, see above
-- @return a gnuplot script; or nil and what the review says is wrong
function plot.moment(subject, options)
  local text, problem = draw("moment", COLUMN, "diagram", of_forces "moment",
    subject, options)
  return text, problem
end

--- Shear with the capacity that steps down at the cuts; as plot.moment.
function plot.shear(subject, options)
  local text, problem = draw("shear", COLUMN, "diagram", of_forces "shear",
    subject, options)
  return text, problem
end

--- Shear over moment on one sheet, with the members of the repaired joist under each; as
-- plot.moment.
function plot.sheet(subject, options)
  local text, problem = draw("sheet", COLUMN, "diagram", function(given, page)
    return repair.script(given, {forces.kind("shear", page.show),
      forces.kind("moment", page.show)}, page)
  end, subject, options)
  return text, problem
end

--- The joist seen from its right face, to one scale along and up, with bearings, cuts
-- and the wood left at them; where there is a repair also its extent enlarged, with
-- pieces and fasteners in their places. Options as for plot.moment, and brief = true:
-- without title and lists, the repair in two parts at most.
function plot.elevation(subject, options)
  local brief = type(options) == "table" and options.brief
  if brief and brief ~= true then error("plot.elevation: brief: true expected", 2) end
  local text, problem = draw("elevation", LONG, "layout", function(given, page)
    page.brief = brief
    return elevation.script(given, page)
  end, subject, options, {"brief"})
  return text, problem
end

--- A joist in one drawing for a report: elevation, under it the diagram of moment or
-- shear on the same places, beside them the section at the cut that decides; true to the
-- scale printed when it stands at its own size. Options as for plot.moment.
function plot.overview(subject, options)
  local page, problem = sheet.read(options, 7.15)
  if not page then error(problem, 2) end
  local given = has(subject, "diagram") and subject
    or has(subject, "review") and subject:review()
  if not given or not has(given, "diagram") then
    error(("plot.overview: a review or a joist expected, got a %s"):format(type(subject)),
      2)
  end
  local text
  page.show = quantity.of(given)
  text, problem = overview.script(given, page)
  return spelled(text, given), problem
end

-- What the map needs of the joist, and words from its review.
local function map_of(subject, options)
  local joist = type(subject) == "table" and has(subject, "diagram") and subject.joist
    or subject
  if not has(joist, "largest") then return false end
  local review = joist:review {rules = options.rules, standard = options.standard}
  local given, why = maps.of(joist, options)
  if not given then return nil, why end
  given.diagram, given.rules_title = review:diagram(), review.rules.title
  return given
end

local MAP_NAMES = {"notch_length", "places", "rules", "standard"}
local MAP = {}
for _, name in ipairs(MAP_NAMES) do MAP[name] = true end

--- Where on a joist a hole or a notch is still allowed, by the rules and by calculation.
-- @param subject a joist or a review
-- @param options as plot.moment; and notch_length, places, rules, standard (see
--   cut_map.lua)
-- @return a gnuplot script; or nil and why there is none
function plot.cut_map(subject, options)
  if options ~= nil and type(options) ~= "table" then
    error("plot.cut_map: options: a table expected, got " .. type(options), 2)
  end
  local own, rest = {}, {}
  for name, value in pairs(options or {}) do
    (MAP[name] and own or rest)[name] = value
  end
  local page, problem = sheet.read(rest, WIDE, MAP_NAMES)
  if not page then error(problem, 2) end
  local given, why = map_of(subject, own)
  if given == false then
    error(("plot.cut_map: a joist or a review expected, got a %s"):format(type(subject)),
      2)
  end
  if not given then return nil, why end
  local text
  page.show = quantity.of(given.diagram)
  text, problem = cut_map.script(given, page)
  if not text then error(problem, 2) end
  return spelled(text, subject)
end

--- A sketch as plot/sketch.lua gathers it, such as a figure of a problem. Options as for
-- plot.moment, without size.
function plot.sketch(drawing, options)
  if not sketch.is(drawing) then
    error("plot.sketch: a sketch expected, got a " .. type(drawing), 2)
  end
  local page, problem = sheet.read(options, drawing.width)
  if not page then error(problem, 2) end
  page.show = quantity.system()
  return sketch.script(drawing, page)
end

--- The joist cut across, to scale: what is left and what is gone, axis and extreme
-- fibers of what is left, pieces and fasteners of a repair. Options as for plot.moment,
-- and at (from the center of the left bearing; by default at the cut that governs).
function plot.section(subject, options)
  local text, problem = draw("section", COLUMN, "profile", section.script, subject,
    options, {"at"})
  return text, problem
end

local LARGER = {letter = "tabloid", a4 = "a3"}

-- The paper that was asked for; or letter (A4 in metric), and the next larger one that
-- holds it.
local function on_paper(given, page, paper)
  local first = page.show.paper_size
  local text, why = detail.script(given, page, paper or first)
  if text or paper then return text, why end
  return detail.script(given, page, LARGER[first])
end

--- A repair as it is to be built, on one sheet of paper: elevation, section A-A at the
-- fasteners, B-B at mid-repair, parts and notes for the carpenter. Printed at its full
-- size its scales hold.
-- @param subject a repaired joist or its review
-- @param options output, title, paper = "letter" | "a4" | "tabloid" | "a3" (by default
--   letter, tabloid where that does not hold it)
-- @return a gnuplot script; or nil and why there is nothing to build, or why the paper
--   does not hold it
function plot.detail(subject, options)
  if options ~= nil and type(options) ~= "table" then
    error("plot.detail: options: a table expected, got " .. type(options), 2)
  end
  local rest, paper = {}, nil
  for name, value in pairs(options or {}) do
    if name == "paper" then paper = value else rest[name] = value end
  end
  if rest.size ~= nil then error("plot.detail: paper takes the place of size", 2) end
  if paper ~= nil and not detail.papers[paper] then
    error('plot.detail: paper: "letter", "a4", "tabloid" or "a3" expected', 2)
  end
  local page, problem = sheet.read(rest, COLUMN, {"paper"}, {"output", "title"})
  if not page then error(problem, 2) end
  local review = has(subject, "layout") and subject
    or has(subject, "review") and subject:review()
  if not review or type(review.joist) ~= "table" then
    error(("plot.detail: a repaired joist or its review expected, got a %s"):format(
      type(subject)), 2)
  end
  local given, why = details.of(review)
  if not given then return nil, why end
  local text
  page.show = quantity.of(review)
  text, why = on_paper(given, page, paper)
  return spelled(text, review), why
end

local function is_floor_review(v)
  return type(v) == "table" and type(v.order) == "table" and type(v.floor) == "table"
end

-- Raises at the line of the public function's caller.
local function draw_floor(name, width, make, subject, options, narrowest)
  local page, problem = sheet.read(options, width, nil, nil, narrowest)
  if not page then error(problem, 3) end
  local given = has(subject, "rank_fixes") and subject:review() or subject
  if not is_floor_review(given) then
    error(("plot.%s: a floor or its review expected, got a %s"):format(name,
      type(subject)), 3)
  end
  local text
  page.show = quantity.of(given)
  text, problem = make(given, page)
  if not text then error(problem, 3) end
  return spelled(text, given)
end

--- A floor in plan, to scale: joists with marks, spacing, bearings, cuts and repairs at
-- their places, what stands in the way, and what comes next for each.
-- @param subject a floor or its review; options as for plot.moment
function plot.floor_plan(subject, options)
  local text = draw_floor("floor_plan", LONG, plan.script, subject, options)
  return text
end

--- A small plan of a floor, 3.4 in wide by default and 3 in at least: joists with marks,
-- spacing, cuts, new pieces, headers and trimmers, and beside each the action in a word.
-- As plot.floor_plan.
function plot.key_plan(subject, options)
  local text = draw_floor("key_plan", 3.4, key_plan.script, subject, options, 3)
  return text
end

--- One sheet for a floor: the ratios of each joist uncut, as cut and repaired beside the
-- line at 1.0, and what comes next. As plot.floor_plan.
function plot.floor_summary(subject, options)
  local text = draw_floor("floor_summary", LONG, summary.script, subject, options)
  return text
end

--- What each uncertain input by itself does to the ratio, the widest on top.
-- @param answer of ns.odds; options as for plot.moment
-- @return a gnuplot script; or nil and why there is nothing to show
function plot.tornado(answer, options)
  local meta = getmetatable(answer)
  if type(meta) ~= "table" or meta.__name ~= "netsection.odds" then
    error("plot.tornado: an answer of ns.odds expected, got a " .. type(answer), 2)
  end
  local page, problem = sheet.read(options, WIDE)
  if not page then error(problem, 2) end
  local text
  page.show = quantity.of(answer)
  text, problem = tornado.script(answer, page)
  return spelled(text, answer), problem
end

--- The way of a floor's load into the ground, lb at each point.
-- @param path what floor:load_path gave; options: output, title
function plot.load_path(path, options)
  if not (type(path) == "table" and has(path, "plot") and path.lines) then
    error(("plot.load_path: a load path expected, got a %s"):format(type(path)), 2)
  end
  local text, problem = load_path.script(path, options)
  if not text then error(problem, 2) end
  return spelled(text, path)
end

--- A floor as a grid in plan: reactions as found and with all joists sound, and lines of
-- equal deflection. @param g what floor:grid gave, or `grid` of a floor's review
-- @param options as for plot.moment
function plot.grid_plan(g, options)
  local page, problem = sheet.read(options, LONG)
  if not page then error(problem, 2) end
  if type(g) ~= "table" or type(g.lines) ~= "table" or not g.answer then
    error(("plot.grid_plan: a grid of floor:grid expected, got %s"):format(type(g)), 2)
  end
  local text
  page.show = quantity.of(g)
  text, problem = grid_plan.script(g, page)
  if not text then error(problem, 2) end
  return spelled(text, g)
end

local function chart(name, make)
  return function(sweep, options)
    local script, problem = make.script(sweep, options or {}, COLUMN)
    if not script then error(("plot.%s: %s"):format(name, problem), 2) end
    return spelled(script, sweep)
  end
end

--- Lines of a value along an axis of a sweep. Options beside output, size and title:
-- value, x (an axis), lines (another, one line per value), at (values of the axes that
-- stand still), limit (a number or {{at =, text =}, ...}; 1 for ratios; false: none).
plot.curves = chart("curves", curves)

--- Lines of equal value over two axes of a sweep, x and y; options as for plot.curves,
-- and levels (a list of numbers). The limit is the heavy line.
plot.contour = chart("contour", contour)

return plot
