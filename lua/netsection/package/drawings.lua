-- SPDX-License-Identifier: MIT
-- Which drawings a package holds, under the names that the calculation sheet gives them.
local calculation = require "netsection.calculation"
local plot = require "netsection.plot"
local render = require "netsection.render"
local review = require "netsection.review"

local drawings = {}

-- Width in the sheet and kind by the last word of a name; heights follow.
local OF_JOIST = {{"elevation", plot.elevation, 8}, {"section", plot.section, 6.5},
  {"forces", plot.sheet, 6.5}}
local OF_FLOOR = {{"plan", plot.floor_plan, 8.5}, {"summary", plot.floor_summary, 8.5}}

local function entry(name, draw, subject, width)
  return {name, function(output)
    return (assert(draw(subject, {output = output, size = {width}})))
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
-- @param paper "letter" (default) or "a4", of the details
function drawings.of(subject, tree, paper)
  local list = {}
  if not review.is(subject) then
    for _, d in ipairs(OF_FLOOR) do
      list[#list + 1] = entry(d[1], d[2], subject, d[3])
    end
  end
  for _, s in ipairs(calculation.sheets(subject, tree)) do
    for _, d in ipairs(OF_JOIST) do
      if calculation.drawn(s.review, d[1]) then
        list[#list + 1] = entry(s.word .. "-" .. d[1], d[2], s.review, d[3])
      end
    end
    if s.review.fixed then add_detail(list, s, paper or "letter") end
  end
  return list
end

--- Pictures for a sheet: rendered ones, or nil and what is wrong.
function drawings.pictures(list)
  local shown = {}
  for _, d in ipairs(list) do
    if not d.alone then shown[#shown + 1] = d end
  end
  return render.svg(shown)
end

return drawings
