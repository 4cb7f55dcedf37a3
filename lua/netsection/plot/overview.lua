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

-- "lip-tension at hole 1, ratio 1.50".
local function governs_words(review)
  local k = review.cut.governing_check
  if not k then return nil end
  local ratio = k.ratio and k.ratio < 1e6 and "ratio " .. units.fixed(k.ratio, 2)
    or "no capacity"
  return ("%s%s, %s"):format(words.of(k.mode, 24), k.name and " at "
    .. words.of(k.name, 24) or "", ratio)
end

-- Lines under the diagram.
local function key_lines(given, diagram, review)
  local governs = governs_words(review)
  local list = {"heavy: capacity" .. (#given.cuts > 0 and "; long dashes: before any cut"
    or "") .. (diagram.exceeded and "; hatched: demand above it" or ""),
    ("gray: demand%s, live load positioned for maximum effect"):format(given.severed
      and " of the whole joist" or "")}
  if given.severed then
    list[3] = "no capacity as cut: " .. words.of(review.cut.stopped or "out", 40)
  elseif governs then
    list[3] = "governs (ring): " .. governs
  end
  return list
end

-- The place and demand of what governs as a ring with its ratio beside it.
local function ring_of(review, diagram)
  local k = review.cut.governing_check
  if not k or not k.at or not k.ratio or k.ratio >= 1e6 then return nil end
  local y = forces.demand_at(diagram, k.at)
  return {x = k.at, y = y, said = units.fixed(k.ratio, 2)}
end

local function panel(given, diagram, review, at)
  local page = at.page
  local ring = ring_of(review, diagram)
  local facts = words.lines {
    repair.facts_of(diagram, #given.cuts > 0), frame.switch("ringed", ring),
  }
  local data = words.lines {
    repair.data_of(diagram), "$ring << EOD",
    ring and forces.along(ring.x, page.show) .. " "
      .. units.fixed(ring.y, diagram.kind.digits) or "0 0", "EOD",
  }
  local list = {
    frame.axes(diagram, FRAME),
    ("set xrange [%s:%s]"):format(forces.along(at.a, page.show),
      forces.along(at.b, page.show)),
    ("set ylabel '%s, %s' noenhanced offset 0.8,0"):format(diagram.kind.letter,
      diagram.kind.unit),
    "set lmargin at screen " .. units.fixed(LEFT / page.width, 6),
    "set rmargin at screen " .. units.fixed((LEFT + (at.b - at.a) / at.N) / page.width,
      6),
    "set bmargin at screen " .. sheet.up(page, at.bottom),
    "set tmargin at screen " .. sheet.up(page, at.top),
    frame.supports(diagram, page, at.bottom),
    frame.edges(marks.sorted(given), page, at.bottom, at.top),
    "set style textbox opaque noborder margins 0.3,0.1",
  }
  if ring then
    local right = ring.x * 2 < at.a + at.b
    list[#list + 1] = ("set label '%s' at %s,%s %s front boxed"):format(ring.said,
      forces.along(ring.x, page.show), units.fixed(ring.y, diagram.kind.digits), right
        and "left offset 1.2,0"
      or "right offset -1.2,0")
  end
  return recipes.fill(recipes.of "panel", {NAME = diagram.kind.name, DATA = data,
    FACTS = facts, FRAME = words.lines(list)})
end

-- What the section says in words: moduli before and after, and what a check counts.
local function section_lines(p, show)
  local list = {}
  local function S(x) return units.significant(show.scaled("modulus", x), 4) end
  local unit = show.unit.modulus
  local of = p.ply and ("ply %d "):format(p.ply) or ""
  if p.whole then list[1] = of .. ("whole: S %s %s"):format(S(p.whole.S_b), unit) end
  if p.section then
    list[#list + 1] = ("left: S %s bottom, %s top"):format(S(p.section.S_b),
      S(p.section.S_t))
  elseif p.ply or #p.bands + p.lost.top + p.lost.bottom + p.lost.sides > 0 then
    list[#list + 1] = "left: nothing that counts"
  end
  if p.check and p.check.S_min then
    list[#list + 1] = ("counted: least S %s %s"):format(S(p.check.S_min), unit)
    list[#list + 1] = "(least of all openings within)"
  end
  return list
end

-- Script, or nil and what is wrong with the options.
-- @param review a review; its diagram, layout and profile are asked for here
function overview.script(review, page)
  local given, problem = review:diagram()
  if not given then return nil, problem end
  local layout, p = review:layout(), review:profile()
  local kind = kind_of(given.governing, page.show)
  local diagram = forces.read(given, kind)
  local a, b = elevation.ends_of(layout)
  a, b = math.min(a, given.start), math.max(b, given.finish)
  local N = view.scale_for(b - a, page.width - LEFT - (7.15 - LEFT - LONG), 6)
  local low, high = picture.range(layout, N)
  local key = key_lines(given, diagram, review)
  local around = CAPTION + MARKS + (high - low) / N + 0.14 + AXIS + #key * ROW + FOOT
  local needed = math.max(around + FRAME, TALL + 1.3)
  page.height = page.height or needed
  local why = sheet.too_low(page, needed)
  if why then return nil, why end
  local base = page.height - CAPTION - MARKS - high / N
  local v = view.new(N, a, b, {left = LEFT, base = base, show = page.show,
    top = page.height - CAPTION, bottom = base + low / N - 0.02})
  picture.draw(v, layout)
  if #layout.cuts > 0 then elevation.cut_marks(v, layout, high, MARKS) end
  v.labels[#v.labels + 1] = sheet.label(("%s, scale 1:%d; %s over x in %s from the left "
    .. "bearing"):format(words.of(layout.mark, 14), N, kind.heading:lower(),
    page.show.sums.unit),
    sheet.at(page, sheet.margin, page.height - 0.1))
  local frame_top = base + low / N - 0.14
  local at = {a = a, b = b, N = N, page = page, top = frame_top,
    bottom = FOOT + #key * ROW + AXIS}
  local views = {v:script(page, "elevation")}
  local texts = {}
  for i, said in ipairs(key) do
    texts[i] = sheet.label(said, sheet.at(page, sheet.margin,
      FOOT + (#key - i + 0.3) * ROW))
  end
  if p then
    local shown, tall = section.beside(p, page, BESIDE, page.height - 0.1, TALL)
    views[2] = shown
    for i, said in ipairs(section_lines(p, page.show)) do
      texts[#texts + 1] = sheet.label(said, sheet.at(page, BESIDE,
        page.height - tall - (i - 0.5) * ROW))
    end
  end
  return recipes.fill(recipes.of "overview", {
    WHAT = "A joist in one drawing: elevation, diagram, section.",
    PAGE = sheet.setup(page), WORDS = words.lines(texts), VIEWS = words.lines(views),
    PANEL = panel(given, diagram, review, at),
    CLOSE = page.output and "unset output" or "",
  })
end

return overview
