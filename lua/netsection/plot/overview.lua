-- SPDX-License-Identifier: MIT
-- One drawing of a joist for a short report, made at the size at which it stands there:
-- the elevation, under it on the same places the diagram of moment or shear with what is
-- left to carry it, and beside both the section at the cut that decides.

local elevation = require "netsection.plot.elevation"
local forces = require "netsection.plot.forces"
local frame = require "netsection.plot.frame"
local marks = require "netsection.plot.marks"
local picture = require "netsection.plot.picture"
local recipes = require "netsection.plot.recipes"
local repair = require "netsection.plot.repair"
local section = require "netsection.plot.section"
local sheet = require "netsection.plot.sheet"
local units = require "netsection.units"
local view = require "netsection.plot.view"
local words = require "netsection.plot.words"

local overview = {}

-- Inches of paper: the strip of elevation and diagram, and what stands around them.
local LEFT, LONG, CAPTION, MARKS, FRAME, AXIS = 0.72, 4.15, 0.2, 0.36, 0.75, 0.3
local BESIDE, TALL, ROW, FOOT = 5.12, 1.2, 0.15, 0.05

-- The diagram that shows what governs.
local function kind_of(governing, show)
  local mode = governing and governing.mode or ""
  local shear = (mode:find "shear" or mode == "bearing") and mode ~= "connection-shear"
  return forces.kind(shear and "shear" or "moment", show)
end

-- Lines under the diagram, and the letters of cuts that stand too close for names.
local function key_lines(given, diagram, at, room)
  local list = {frame.capacity("heavy: capacity", diagram) .. (#given.cuts > 0
    and "; long dashes: before any cut" or "") .. (diagram.exceeded
    and "; hatched: demand above it" or ""),
    ("gray: demand%s, live load positioned for maximum effect"):format(given.severed
      and " of the whole joist" or ""),
    frame.governs({severed = given.severed, stopped = given.stopped,
      governing = given.governing}, diagram.kind.show)[1]}
  if at.lettered then
    local names = {}
    for i, cut in ipairs(at.cuts) do names[i] = cut.mark .. " " .. cut.name end
    list[#list + 1] = table.concat(names, ", ")
  end
  local rows = {}
  for _, said in ipairs(list) do
    for _, line in ipairs(words.wrapped(said, room)) do rows[#rows + 1] = line end
  end
  return rows
end

local function panel(given, diagram, at)
  local page = at.page
  local list = {
    frame.axes(diagram, FRAME),
    ("set xrange [%s:%s]"):format(forces.along(at.a, page.show),
      forces.along(at.b, page.show)),
    ("set ylabel '%s, %s' noenhanced offset 0.2,0"):format(diagram.kind.letter,
      diagram.kind.unit),
    "set lmargin at screen " .. units.fixed(LEFT / page.width, 6),
    "set rmargin at screen " .. units.fixed((LEFT + (at.b - at.a) / at.N) / page.width,
      6),
    "set bmargin at screen " .. sheet.up(page, at.bottom),
    "set tmargin at screen " .. sheet.up(page, at.top),
    frame.supports(diagram, page, at.bottom),
    frame.edges(marks.sorted(given), page, at.bottom, at.top),
    frame.lost(diagram, at.top - at.bottom, at.N), frame.ratio(diagram, at.N),
  }
  return recipes.fill(recipes.of "panel", {NAME = diagram.kind.name,
    DATA = repair.data_of(diagram), FACTS = repair.facts_of(diagram, #given.cuts > 0),
    FRAME = words.lines(list)})
end

-- What the section says in words: moduli before and after, and what a check counts.
local function section_lines(p, show)
  local list = {}
  local function S(x) return units.significant(show.scaled("modulus", x), 4) end
  local unit = show.unit.modulus
  local of = p.ply and ("ply %d "):format(p.ply) or ""
  if p.whole then list[1] = of .. ("whole: S %s %s"):format(S(p.whole.S_b), unit) end
  if p.section and not p.split then
    list[#list + 1] = ("remaining: S %s bottom,"):format(S(p.section.S_b))
    list[#list + 1] = ("%s top"):format(S(p.section.S_t))
  elseif not p.section and not p.split and (p.ply
    or #p.bands + p.lost.top + p.lost.bottom + p.lost.sides > 0) then
    list[#list + 1] = "remaining: nothing that counts"
  end
  if p.check and p.check.S_min then
    list[#list + 1] = ("least S, counted: %s %s"):format(S(p.check.S_min), unit)
    list[#list + 1] = p.split and "(of the leaves, by their I)"
      or "(least of all openings within)"
  end
  return list
end

-- The elevation as a view, with the marks of its cuts above.
local function elevation_view(layout, page, at)
  local v = view.new(at.N, at.a, at.b, {left = LEFT, base = at.base, show = page.show,
    top = page.height - CAPTION, bottom = at.base + at.low / at.N - 0.02})
  picture.draw(v, layout)
  if #layout.cuts > 0 then elevation.cut_marks(v, layout, at.high, MARKS) end
  v.labels[#v.labels + 1] = sheet.label(("%s, scale 1:%d; %s over x in %s from the left "
    .. "bearing"):format(words.of(layout.mark, 14), at.N, at.kind.heading:lower(),
    page.show.sums.unit),
    sheet.at(page, sheet.margin, page.height - 0.1))
  return v:script(page, "elevation")
end

-- Words of the drawing: lines of the key, and of the section under it.
local function texts_of(key, said, tall, page)
  local list = {}
  for i, text in ipairs(key) do
    list[i] = sheet.label(text, sheet.at(page, sheet.margin,
      FOOT + (#key - i + 0.3) * ROW))
  end
  for i, text in ipairs(said) do
    list[#list + 1] = sheet.label(text, sheet.at(page, BESIDE,
      page.height - tall - (i - 0.5) * ROW))
  end
  return words.lines(list)
end

-- Scale, heights and the letters of cuts.
local function lay_out(given, layout, page)
  local at = {page = page, kind = kind_of(given.governing, page.show)}
  local a, b = elevation.ends_of(layout)
  at.a, at.b = math.min(a, given.start), math.max(b, given.finish)
  at.N = view.scale_for(at.b - at.a, page.width - LEFT - (7.15 - LEFT - LONG), 6)
  at.low, at.high = picture.range(layout, at.N)
  at.cuts = marks.sorted(layout)
  at.lettered = elevation.letter(at.cuts, at.a, at.b, at.N)
  return at
end

-- Script, or nil and what is wrong with the options.
-- @param review a review; its diagram, layout and profile are asked for here
function overview.script(review, page)
  local given, problem = review:diagram()
  if not given then return nil, problem end
  local layout, p = review:layout(), review:profile()
  local at = lay_out(given, layout, page)
  local diagram = forces.read(given, at.kind)
  local key = key_lines(given, diagram, at, (BESIDE - 0.1 - sheet.margin) / sheet.cell)
  local high = (at.high - at.low) / at.N
  local around = CAPTION + MARKS + high + 0.14 + AXIS + #key * ROW + FOOT
  local said = p and section_lines(p, page.show) or {}
  local needed = math.max(around + FRAME, TALL + 0.74 + #said * ROW)
  page.height = page.height or needed
  local why = sheet.too_low(page, needed)
  if why then return nil, why end
  at.base = page.height - CAPTION - MARKS - at.high / at.N
  at.top = at.base + at.low / at.N - 0.14
  at.bottom = FOOT + #key * ROW + AXIS
  local views, tall = {elevation_view(layout, page, at)}, 0
  if p then
    views[2], tall = section.beside(p, page, BESIDE, page.height - 0.1, TALL)
  end
  return recipes.fill(recipes.of "overview", {
    WHAT = "A joist in one drawing: elevation, diagram, section.",
    PAGE = sheet.setup(page), WORDS = texts_of(key, said, tall, page),
    VIEWS = words.lines(views), PANEL = panel(given, diagram, at),
    CLOSE = page.output and "unset output" or "",
  })
end

return overview
