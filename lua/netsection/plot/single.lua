-- SPDX-License-Identifier: MIT
-- Moment or shear of a joist as it is, in one frame.

local forces = require "netsection.plot.forces"
local frame = require "netsection.plot.frame"
local marks = require "netsection.plot.marks"
local recipes = require "netsection.plot.recipes"
local sheet = require "netsection.plot.sheet"
local words = require "netsection.plot.words"

local lines, switch = words.lines, frame.switch

local single = {}

local HEIGHT, LOWEST = 2.8, 1.2      -- in, of the frame: by default, at least

-- Rows of the key from the top; those of nothing drawn are left out.
local KEY = {"full", "moved", "live", "cut", "uncut", "exceeded", "ring"}

local function key_texts(diagram, damaged)
  local given, mark = diagram.given, forces.mark(diagram)
  local whole = given.severed and " of the whole joist" or ""
  return {
    full = "full load, all live" .. whole .. forces.reading(diagram, "full", "full"),
    moved = diagram.moved and "full load, if the joist were uncut",
    live = "live load positioned for maximum effect" .. whole
      .. forces.reading(diagram, "low", "high"),
    cut = frame.capacity(damaged and "capacity, cut" or "capacity", diagram),
    uncut = damaged and "capacity, uncut",
    exceeded = diagram.exceeded and "demand above the capacity",
    ring = mark and "governs: "
      .. forces.governing_words(diagram.governing, diagram.kind.show),
  }
end

-- Where everything stands, in inches; or nil and that the page is too low.
local function lay_out(diagram, cuts, key, governs, page)
  frame.wrap(cuts, 1, page)
  local rows, bottom = frame.stack(cuts, KEY, key)
  local levels = marks.levels(cuts, 0.004 * forces.span(diagram))
  local above = frame.above(cuts, levels) + frame.head(governs)
  page.height = page.height or bottom + HEIGHT + above
  local problem = frame.too_low(page, bottom + LOWEST + above)
  if problem then return nil, problem end
  return {
    rows = rows, bottom = bottom, top = page.height - above, levels = levels,
    inch = frame.inch(diagram, page), governs = governs,
    lettered = marks.place(cuts, diagram, page.width - frame.left - frame.right),
  }
end

local function facts_part(diagram, cuts, page, at)
  return lines {
    switch("damaged", #cuts > 0), switch("moved", diagram.moved),
    switch("hogging", diagram.hogging), switch("exceeded", diagram.exceeded),
    switch("ringed", forces.ring(diagram)),
    frame.key_facts(page, KEY, at.rows),
  }
end

local function frame_part(diagram, cuts, key, page, at)
  return lines {
    frame.axes(diagram, at.top - at.bottom), frame.margins(page, at.bottom, at.top),
    frame.axis_title(page, at.rows.axis), frame.supports(diagram, page, at.bottom),
    frame.cuts(diagram, cuts, page, at),
    frame.lost(diagram, at.top - at.bottom, at.inch), frame.ratio(diagram, at.inch),
    sheet.titles(page, frame.heading(diagram, page.title), diagram.given.title,
      table.unpack(at.governs)),
    frame.key(page, KEY, key, at.rows),
    frame.list({diagram}, cuts, page, at.rows, at.lettered),
    sheet.label(sheet.note, sheet.at(page, sheet.margin, at.rows.note)),
  }
end

local function data_part(diagram)
  return lines {
    forces.block("cut", diagram.cut, diagram.kind),
    forces.block("uncut", diagram.uncut, diagram.kind),
    forces.ring_block(diagram),
  }
end

-- Script, or nil and what is wrong with the options.
function single.script(given, kind, page)
  local diagram, cuts = forces.read(given, kind), marks.sorted(given)
  local key = key_texts(diagram, #cuts > 0)
  local governs = frame.governs(given, kind.show)
  local at, problem = lay_out(diagram, cuts, key, governs, page)
  if not at then return nil, problem end
  return recipes.fill(recipes.of(kind.name), {UNIT = diagram.kind.unit,
    PAGE = sheet.setup(page), DATA = data_part(diagram),
    FACTS = facts_part(diagram, cuts, page, at),
    FRAME = frame_part(diagram, cuts, key, page, at),
    CLOSE = page.output and "unset output" or "",
  })
end

return single
