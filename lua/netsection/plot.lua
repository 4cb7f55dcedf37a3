-- SPDX-License-Identifier: MIT
--- Drawings as gnuplot scripts, each in one string that needs nothing but gnuplot.
--
--   plot.moment(subject, options)   bending moment and the capacity that the cuts leave
--   plot.shear(subject, options)    the same for shear
--   plot.elevation(subject, options)  the joist to scale with its cuts and its repair
--   plot.curves(sweep, options)     a value along an axis, a line per value of another
--   plot.contour(sweep, options)    a value over two axes, as lines of equal value
--   plot.cut_map(subject, options)    where a hole or a notch is still allowed
--
-- Moment and shear of a repaired joist show it as it is and, below, the members of the
-- repaired one.
--
-- `subject` is a review, or a joist, which is reviewed with the defaults. Options:
-- output (a file name in .png, .svg or .pdf; without it the terminal is the user's),
-- size ({width, height}, lengths; by default a letter page's column, for an elevation
-- its long side), title (first line).
-- A drawing prints what the review found; nothing is designed here.
--
-- How a drawing looks is in plots/*.gp. What differs from joist to joist is put in for
-- the names between at signs: numbers, and texts in single quotes, in which gnuplot
-- expands nothing.

local contour = require "netsection.plot.contour"
local curves = require "netsection.plot.curves"
local cut_map = require "netsection.plot.cut_map"
local elevation = require "netsection.plot.elevation"
local forces = require "netsection.plot.forces"
local repair = require "netsection.plot.repair"
local maps = require "netsection.cut_map"
local sheet = require "netsection.plot.sheet"
local single = require "netsection.plot.single"

local plot = {}

local COLUMN, WIDE, LONG = 6.5, 7.5, 10   -- in: a letter page's column, with
                                          -- narrow margins, and its long side

local function has(subject, method)
  return type(subject) == "table" and type(subject[method]) == "function"
end

-- Subject -> what its review gives by `method` | nil, problem | false: no subject.
local function ask(subject, method)
  if has(subject, method) then return subject[method](subject) end
  if not has(subject, "review") then return false end
  local review, problem = subject:review()
  if review == nil then return nil, problem end
  return has(review, method) and review[method](review)
end

-- Raises at the line of the public function's caller.
local function draw(name, width, method, make, subject, options)
  local page, problem = sheet.read(options, width)
  if not page then error(problem, 3) end
  local given, text
  given, problem = ask(subject, method)
  if given == false then
    error(("plot.%s: a review or a joist expected, got a %s"):format(name, type(subject)),
      3)
  end
  if not given then return nil, problem end
  text, problem = make(given, page)
  if not text then error(problem, 3) end
  return text
end

local function of_forces(kind)
  return function(given, page)
    local members = given.fixed and given.fixed.members
    local make = members and members[1] and repair or single
    return make.script(given, kind, page)
  end
end

--- Bending moment with the capacity that steps down at the cuts.
-- @param subject a review or a joist
-- @param options {output =, size =, title =}, see above
-- @return a gnuplot script; or nil and what the review says is wrong
function plot.moment(subject, options)
  local text, problem = draw("moment", COLUMN, "diagram", of_forces(forces.moment),
    subject, options)
  return text, problem
end

--- Shear with the capacity that steps down at the cuts; as plot.moment.
function plot.shear(subject, options)
  local text, problem = draw("shear", COLUMN, "diagram", of_forces(forces.shear),
    subject, options)
  return text, problem
end

--- The joist seen from its right face, to one scale along and up, with bearings, cuts
-- and the wood left at them; where there is a repair also its extent enlarged, with
-- pieces and fasteners in their places. Options as for plot.moment.
function plot.elevation(subject, options)
  local text, problem = draw("elevation", LONG, "layout", elevation.script, subject,
    options)
  return text, problem
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

local MAP = {notch_length = true, places = true, rules = true, standard = true}

--- Where on a joist a hole or a notch is still allowed, by the rules and by calculation.
-- @param subject a joist or a review
-- @param options as plot.moment; and notch_length, places, rules, standard (see
--   cut_map.lua)
-- @return a gnuplot script; or nil and why there is none
function plot.cut_map(subject, options)
  local own, rest = {}, {}
  for name, value in pairs(options or {}) do
    (MAP[name] and own or rest)[name] = value
  end
  local page, problem = sheet.read(rest, WIDE)
  if not page then error(problem, 2) end
  local given, why = map_of(subject, own)
  if given == false then
    error(("plot.cut_map: a joist or a review expected, got a %s"):format(type(subject)),
      2)
  end
  if not given then return nil, why end
  local text
  text, problem = cut_map.script(given, page)
  if not text then error(problem, 2) end
  return text
end

local function chart(name, make)
  return function(sweep, options)
    local script, problem = make.script(sweep, options or {}, COLUMN)
    if not script then error(("plot.%s: %s"):format(name, problem), 2) end
    return script
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
