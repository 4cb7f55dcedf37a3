-- SPDX-License-Identifier: MIT
-- Lines of a value of a sweep along one of its axes, one line per value of another. Each
-- line has its own dashes and its name at its end, so that no color is needed.

local chart = require "netsection.plot.chart"
local recipes = require "netsection.plot.recipes"
local sheet = require "netsection.plot.sheet"
local units = require "netsection.units"
local words = require "netsection.plot.words"

local curves = {}

local lines = words.lines
local MOST, APART = 10, 0.17          -- lines in a chart; in between names at their ends
local GAP, LEADER = 0.06, 0.2         -- in beside the frame

-- Values of each line: {x, v or nil} per place of the axis.
local function read_lines(c)
  local list = {}
  for k = 1, c.lines and #c.lines.values or 1 do
    local points = {}
    for i, x in ipairs(c.x.values) do
      local place = {[c.x.name] = x}
      if c.lines then place[c.lines.name] = c.lines.values[k] end
      local v, word = chart.value_at(c, place)
      if word then return nil, ("value: '%s' is a word, no number"):format(word) end
      points[i] = {x = c.x.places[i], v = v}
    end
    list[k] = {points = points, text = c.lines and c.lines.texts[k] or ""}
  end
  return list
end

-- Points in the order of x, so that an axis given from high to low is no zigzag; and
-- apart the names of lines that have no value at all.
local function sort_points(list)
  local drawn, missing = {}, {}
  for _, line in ipairs(list) do
    table.sort(line.points, function(a, b) return a.x < b.x end)
    for _, p in ipairs(line.points) do
      if p.v then line.last = p end
    end
    if line.last then drawn[#drawn + 1] = line else missing[#missing + 1] = line.text end
  end
  return drawn, missing
end

-- A data block; a gap where there is no value.
local function block(k, line)
  local out = {("$line%d << EOD"):format(k)}
  for _, p in ipairs(line.points) do
    out[#out + 1] = p.v and units.significant(p.x, 8) .. " " .. units.significant(p.v, 8)
      or ""
  end
  out[#out + 1] = "EOD"
  return lines(out)
end

local function value_range(c, list, limits)
  local all = {}
  for _, line in ipairs(list) do
    for _, p in ipairs(line.points) do all[#all + 1] = p.v end
  end
  if #all == 0 then return nil, ("the sweep has no %s to draw"):format(c.value.name) end
  for _, limit in ipairs(limits) do all[#all + 1] = limit.at end
  local low, high = chart.range(all, 0.05)
  return {math.min(low, math.max(0, low)), high}
end

-- Heights of names on the page that keep apart: pushed up in order, then down again.
local function spread(ends, bottom, top)
  table.sort(ends, function(a, b)
    return a.wanted < b.wanted or a.wanted == b.wanted and a.k < b.k
  end)
  local floor = bottom
  for _, e in ipairs(ends) do
    e.y = math.max(e.wanted, floor)
    floor = e.y + APART
  end
  local ceiling = top
  for i = #ends, 1, -1 do
    ends[i].y = math.min(ends[i].y, ceiling)
    ceiling = ends[i].y - APART
  end
  return ends
end

local function ends_of(list, limits, box, y, x)
  local height, width = box.top - box.bottom, box.right - box.left
  local function up(v) return box.bottom + height * (v - y[1]) / (y[2] - y[1]) end
  local ends = {}
  for k, line in ipairs(list) do
    if line.text ~= "" then
      ends[#ends + 1] = {k = k, text = line.text, wanted = up(line.last.v),
        from = box.left + width * (line.last.x - x[1]) / (x[2] - x[1])}
    end
  end
  for i, limit in ipairs(limits) do
    ends[#ends + 1] = {k = 100 + i, text = "limit " .. limit.text, wanted = up(limit.at),
      from = box.right, limit = true}
  end
  return spread(ends, box.bottom, box.top)
end

local function end_marks(c, ends, box)
  local list, page = {}, c.page
  local to = box.right + GAP + LEADER
  for _, e in ipairs(ends) do
    list[#list + 1] = sheet.line(sheet.at(page, e.from, e.wanted),
      sheet.at(page, to, e.y), "ls 20")
    list[#list + 1] = sheet.label(words.clean(e.text, 16), sheet.at(page, to + 0.05, e.y),
      "left" .. (e.limit and " font title_font" or ""))
  end
  return lines(list)
end

local function limit_lines(limits, x)
  local list = {}
  for i, limit in ipairs(limits) do
    local v = units.significant(limit.at, 8)
    list[i] = sheet.line(("%s,%s"):format(units.significant(x[1], 8), v),
      ("%s,%s"):format(units.significant(x[2], 8), v), "front ls 21")
  end
  return lines(list)
end

local function plot_line(count)
  local list = {}
  for k = 1, count do
    list[k] = ("$line%d using 1:2 with linespoints ls %d"):format(k, k)
  end
  return "plot " .. table.concat(list, ", \\\n     ")
end

local function right_room(list, limits)
  local most = 0
  for _, line in ipairs(list) do most = math.max(most, words.width(line.text)) end
  for _, limit in ipairs(limits) do
    most = math.max(most, 1.15 * words.width("limit " .. limit.text))
  end
  return GAP + LEADER + 0.2 + math.min(most, 18) * sheet.cell
end

local function heading(c)
  return chart.sentence("%s along %s%s", c.value.said, c.x.said,
    c.lines and ", a line per " .. c.lines.said or "")
end

local function below(c, list, missing)
  local said, gaps = {}, false
  for _, line in ipairs(list) do
    for _, p in ipairs(line.points) do gaps = gaps or p.v == nil end
  end
  if c.lines then said[1] = "Names at the ends of lines: " .. c.lines.title end
  if gaps then said[#said + 1] = "Gaps: no value there" end
  if #missing > 0 then
    said[#said + 1] = "No value at all: " .. table.concat(missing, ", ")
  end
  said[#said + 1] = chart.spans_said(c)
  return said
end

--- Script, or nil and what is wrong.
function curves.script(subject, options, width)
  local c, problem = chart.read(subject, options, {"x", "lines?"}, {"limit"}, width)
  if not c then return nil, problem end
  if c.lines and #c.lines.values > MOST then
    return nil, ("lines: at most %d values can be told apart, the axis has %d"):format(
      MOST, #c.lines.values)
  end
  local limits, list, y
  limits, problem = chart.limits(c.options.limit, c.value)
  if not limits then return nil, problem end
  list, problem = read_lines(c)
  if not list then return nil, problem end
  local missing
  list, missing = sort_points(list)
  y, problem = value_range(c, list, limits)
  if not y then return nil, problem end
  local said = below(c, list, missing)
  local x = {chart.range(c.x.places, 0.02)}
  local box, margins = chart.box(c, right_room(list, limits), chart.below(#said))
  problem = chart.too_low(box, c.page)
  if problem then return nil, problem end
  local data = {}
  for k, line in ipairs(list) do data[k] = block(k, line) end
  return recipes.fill(recipes.of "curves", {
    PAGE = sheet.setup(c.page), DATA = lines(data),
    FRAME = lines {chart.axes(c.x, x, c.value, y), margins,
      chart.words(c, box, heading(c), said), limit_lines(limits, x),
      end_marks(c, ends_of(list, limits, box, y, x), box)},
    PLOT = plot_line(#list), CLOSE = c.page.output and "unset output" or "",
  })
end

return curves
