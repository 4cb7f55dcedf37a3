-- SPDX-License-Identifier: MIT
-- Which drawings a package holds, under the names that the calculation sheet gives them.
local calculation = require "netsection.calculation"
local plot = require "netsection.plot"
local render = require "netsection.render"
local review = require "netsection.review"
local short = require "netsection.short"
local verdict = require "netsection.verdict"

local drawings = {}

-- The width of a printed page between its margins, on letter and on A4, in: drawings are
-- made at the size at which they stand there, so that their scales hold on paper.
local WIDTH = 7.15

local HALF = 3.4        -- of one of two columns there

local function entry(name, draw, subject, width)
  return {name, function(output)
    return (assert(draw(subject, {output = output, size = {width or WIDTH}})))
  end}
end

local HIGHEST, LOW = 6, 4.9     -- in, of a drawing that shares its page with text

-- An elevation; where its lists would make it high, without them: they stand as tables
-- on the same sheet.
local function elevation(review_, options)
  local script = assert(plot.elevation(review_, options))
  local high = script:match "set terminal svg size %d+,(%d+)"
  if not high or high / 96 <= HIGHEST then return script end
  options.brief = true
  return (assert(plot.elevation(review_, options)))
end

-- A diagram, lower than by itself where its lists let it be.
local function low(draw)
  return function(review_, options)
    local width = options.size[1]
    options.size = {width, LOW}
    local ok, script = pcall(draw, review_, options)
    if ok and script then return script end
    options.size = {width}
    return draw(review_, options)
  end
end

-- Kind by the last word of a name; heights follow.
local OF_JOIST = {{"elevation", elevation}, {"section", plot.section},
  {"forces", low(plot.sheet)}, {"shear", low(plot.shear)},
  {"moment", low(plot.moment)}}

-- Where each fastener of a repair goes, for the crew.
local function layout_of(s)
  return {s.word .. "-layout", function(output)
    return (assert(plot.elevation(s.review, {output = output, size = {WIDTH},
      brief = true})))
  end}
end

-- Details of the repairs to be built, one sheet of paper each, on the larger paper where
-- the smaller does not hold it. They stand beside the sheet, not in it: `alone`.
local LARGER = {letter = "tabloid", a4 = "a3"}

local function add_detail(list, s, paper)
  for _, size in ipairs {paper, LARGER[paper]} do
    if plot.detail(s.review, {paper = size}) then
      list[#list + 1] = {"detail-" .. s.word, function(output)
        return (assert(plot.detail(s.review, {output = output, paper = size})))
      end, alone = true}
      return
    end
  end
end

--- {{name, function(output) -> script}, ...} in the order of the sheets.
-- @param options {paper = "letter" (default) or "a4", of the details; short = true: what
--   the short report shows; full = true: what the full calculation shows}
function drawings.of(subject, tree, options)
  local list, floor = {}, not review.is(subject)
  if floor then
    list[1] = entry("key-plan", plot.key_plan, subject, HALF)
    list[2] = entry("plan", plot.floor_plan, subject)
    list[2].alone = not options.full and not short.has_plan(subject)
  end
  if floor and options.full then
    list[3] = entry("summary", plot.floor_summary, subject)
  end
  if floor and subject.grid and not subject.grid.refused then
    list[#list + 1] = entry("grid-plan", plot.grid_plan, subject.grid)
    list[#list].alone = true
  end
  for _, s in ipairs(options.short and short.drawn(subject, tree) or {}) do
    list[#list + 1] = entry(s.word .. "-sketch", plot.overview, s.review)
  end
  for _, s in ipairs(calculation.sheets(subject, tree)) do
    if verdict.serves(s.review) then list[#list + 1] = layout_of(s) end
    for _, d in ipairs(options.full and OF_JOIST or {}) do
      if calculation.drawn(s.review, d[1]) then
        list[#list + 1] = entry(s.word .. "-" .. d[1], d[2], s.review)
      end
    end
    if s.review.fixed then add_detail(list, s, options.paper
      or s.review.show.paper_size) end
  end
  return list
end

--- Pictures for a sheet: rendered ones, or nil and what is wrong.
-- @param step told as they are made, see render.lua
function drawings.pictures(list, step)
  local shown = {}
  for _, d in ipairs(list) do
    if not d.alone then shown[#shown + 1] = d end
  end
  return render.svg(shown, step)
end

return drawings
