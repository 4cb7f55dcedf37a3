-- SPDX-License-Identifier: MIT
-- A value of a sweep over two of its axes, as lines of equal value with their number on
-- them; the limit is the heavy line. The lines are straight between points of the sweep.

local chart = require "netsection.plot.chart"
local frame = require "netsection.plot.frame"
local level = require "netsection.plot.level"
local recipes = require "netsection.plot.recipes"
local sheet = require "netsection.plot.sheet"
local units = require "netsection.units"
local words = require "netsection.plot.words"

local contour = {}

local lines = words.lines
local MOST = 24                -- lines of equal value
local CLOSER = 0.6             -- steps between lines, of those between numbers of an axis
local RIGHT = 0.25             -- in, beside the frame

local function sorted_order(axis)
  local order = {}
  for i in ipairs(axis.values) do order[i] = i end
  table.sort(order, function(a, b) return axis.places[a] < axis.places[b] end)
  return order
end

-- grid[i][j] = {x, y, v}, both axes rising; where there is no value; least and greatest.
local function read_grid(c)
  local grid, empty, all = {}, {}, {}
  local across, up = sorted_order(c.x), sorted_order(c.y)
  for i, xi in ipairs(across) do
    grid[i] = {}
    for j, yj in ipairs(up) do
      local v, word = chart.value_at(c, {[c.x.name] = c.x.values[xi],
        [c.y.name] = c.y.values[yj]})
      if word then return nil, ("value: '%s' is a word, no number"):format(word) end
      local point = {x = c.x.places[xi], y = c.y.places[yj], v = v}
      grid[i][j] = point
      if v then all[#all + 1] = v else empty[#empty + 1] = point end
    end
  end
  if #all == 0 then return nil, ("the sweep has no %s to draw"):format(c.value.name) end
  return grid, empty, {math.min(table.unpack(all)), math.max(table.unpack(all))}
end

local function finite(x)
  return type(x) == "number" and x == x and math.abs(x) < math.huge
end

-- Values of the lines: as given, or round numbers over the range, and the limits.
local function levels_of(c, range, limits)
  local list = {}
  if c.options.levels ~= nil then
    if type(c.options.levels) ~= "table" or #c.options.levels == 0 then
      return nil, "levels: a list of numbers expected"
    end
    for i, v in ipairs(c.options.levels) do
      if not finite(v) then return nil, "levels: a list of numbers expected" end
      list[i] = v
    end
  elseif range[2] > range[1] then
    local step = frame.tic_step(CLOSER * (range[2] - range[1]))
    for n = math.ceil(range[1] / step), math.floor(range[2] / step) do
      list[#list + 1] = n * step
    end
  end
  if #list > MOST then return nil, ("levels: at most %d expected"):format(MOST) end
  local seen = {}
  for _, limit in ipairs(limits) do seen[#seen + 1] = {v = limit.at, limit = limit} end
  for _, v in ipairs(list) do
    local twice = false
    for _, have in ipairs(seen) do
      twice = twice or math.abs(have.v - v) <= 1e-9 * math.max(1, math.abs(v))
    end
    if not twice then seen[#seen + 1] = {v = v} end
  end
  table.sort(seen, function(a, b) return a.v < b.v end)
  return seen
end

local function length_of(line, box, x, y)
  local sx = (box.right - box.left) / (x[2] - x[1])
  local sy = (box.top - box.bottom) / (y[2] - y[1])
  local total, along = 0, {0}
  for i = 2, #line do
    local dx, dy = (line[i].x - line[i - 1].x) * sx, (line[i].y - line[i - 1].y) * sy
    total = total + math.sqrt(dx * dx + dy * dy)
    along[i] = total
  end
  return total, along
end

-- The point at that share of a line's length on the page.
local function point_along(line, box, x, y, share)
  local total, along = length_of(line, box, x, y)
  for i = 2, #line do
    if along[i] >= share * total then
      local d = along[i] - along[i - 1]
      local t = d > 0 and (share * total - along[i - 1]) / d or 0
      local a, b = line[i - 1], line[i]
      return {x = a.x + t * (b.x - a.x), y = a.y + t * (b.y - a.y)}
    end
  end
  return line[#line]
end

local SHORTEST = 0.5           -- in, of a line that gets its number
local SHARES = {0.5, 0.35, 0.65, 0.2, 0.8}
local CLEAR_X, CLEAR_Y = 0.45, 0.2

-- Puts a number on a line where no other stands, inside the frame; nil where all places
-- are taken: the lines beside it tell what it is.
local function place_number(line, box, x, y, taken)
  local sx = (box.right - box.left) / (x[2] - x[1])
  local sy = (box.top - box.bottom) / (y[2] - y[1])
  for _, share in ipairs(SHARES) do
    local p = point_along(line, box, x, y, share)
    local free = math.min(p.x - x[1], x[2] - p.x) * sx > CLEAR_X / 2
      and math.min(p.y - y[1], y[2] - p.y) * sy > CLEAR_Y / 2
    for _, q in ipairs(taken) do
      free = free and (math.abs(p.x - q.x) * sx > CLEAR_X
        or math.abs(p.y - q.y) * sy > CLEAR_Y)
    end
    if free then return p end
  end
end

local function coordinates(p)
  return units.significant(p.x, 8), units.significant(p.y, 8)
end

local function number_text(v)
  return units.significant(v, 12):gsub("(%..-)0+$", "%1"):gsub("%.$", "")
end

-- @param sx in of paper to a unit of the axis
local function number_label(one, p, sx)
  local px, py = coordinates(p)
  local text = one.limit and words.clean(one.limit.text, 16) or number_text(one.v)
  return lines {
    sheet.ground(px .. "," .. py, units.significant(sheet.ground_of(text, "center") / sx,
      6) .. ",character 0.95"),
    sheet.label(text, px .. "," .. py, "center front"
      .. (one.limit and " font title_font" or "")),
  }
end

-- Data of the lines, and labels on them.
local function draw(grid, levels, box, x, y)
  local thin, heavy, labels, taken = {}, {}, {}, {}
  for _, one in ipairs(levels) do
    local into = one.limit and heavy or thin
    for _, line in ipairs(level.lines(grid, one.v)) do
      for _, p in ipairs(line) do
        into[#into + 1] = table.concat({coordinates(p)}, " ")
      end
      into[#into + 1] = ""
      if length_of(line, box, x, y) >= SHORTEST then
        local p = place_number(line, box, x, y, taken)
        taken[#taken + 1] = p
        if p then
          labels[#labels + 1] = number_label(one, p,
            (box.right - box.left) / (x[2] - x[1]))
        end
      end
    end
  end
  return thin, heavy, lines(labels)
end

-- gnuplot warns of a block without points, even where it is not drawn.
local function block(name, list)
  if #list == 0 then list = {"0 0"} end
  return "$" .. name .. " << EOD\n" .. lines(list) .. "\nEOD"
end

local function points_block(name, points)
  local list = {}
  for i, p in ipairs(points) do list[i] = table.concat({coordinates(p)}, " ") end
  return block(name, list)
end

local function all_points(grid)
  local list = {}
  for _, column in ipairs(grid) do
    for _, p in ipairs(column) do
      if p.v then list[#list + 1] = p end
    end
  end
  return list
end

local function below(c, limits, heavy, empty, range)
  local said = {}
  if #limits > 0 then
    said[1] = #heavy > 0 and "Heavy line: limit " .. limits[1].text
      or ("The limit %s is met nowhere: values from %s to %s"):format(limits[1].text,
        units.significant(range[1], 3), units.significant(range[2], 3))
  end
  said[#said + 1] = ("Dots: points of the sweep%s; %s is straight between them"):format(
    #empty > 0 and ", crosses: no value there" or "", c.value.said
      .. (c.value.unit ~= "" and (" (%s)"):format(c.value.unit) or ""))
  said[#said + 1] = chart.spans_said(c)
  return said
end

-- The axes are named beside them: a long heading leaves them out.
local function heading_of(c)
  local unit = c.value.unit ~= "" and ", " .. c.value.unit or ""
  local long = chart.sentence("%s over %s and %s%s", c.value.said, c.x.said, c.y.said,
    unit)
  local most = 0.88 * (c.page.width - 2 * sheet.margin) / sheet.cell
  return words.width(long) <= most and long or chart.sentence("%s%s", c.value.said, unit)
end

local function numeric_axes(c)
  for _, field in ipairs {"x", "y"} do
    if not c[field].numbers then return nil, field .. ": an axis of numbers expected" end
    if #c[field].values < 2 then return nil, field .. ": two values at least expected" end
  end
  return true
end

--- Script, or nil and what is wrong.
function contour.script(subject, options, width)
  local c, problem = chart.read(subject, options, {"x", "y"}, {"limit", "levels"}, width)
  if not c then return nil, problem end
  local ok, limits, levels
  ok, problem = numeric_axes(c)
  if not ok then return nil, problem end
  limits, problem = chart.limits(c.options.limit, c.value)
  if not limits then return nil, problem end
  local grid, empty, range = read_grid(c)
  if not grid then return nil, empty end
  levels, problem = levels_of(c, range, limits)
  if not levels then return nil, problem end
  local x, y = {chart.range(c.x.places, 0.02)}, {chart.range(c.y.places, 0.03)}
  local box, margins = chart.box(c, RIGHT, chart.below(c.again and 3 or 2))
  problem = chart.too_low(box, c.page)
  if problem then return nil, problem end
  local thin, heavy, labels = draw(grid, levels, box, x, y)
  local heading = heading_of(c)
  return recipes.fill(recipes.of "contour", {
    PAGE = sheet.setup(c.page),
    DATA = lines {block("thin", thin), block("heavy", heavy),
      points_block("point", all_points(grid)), points_block("empty", empty)},
    FACTS = lines {frame.switch("has_thin", #thin > 0),
      frame.switch("has_heavy", #heavy > 0), frame.switch("has_empty", #empty > 0)},
    FRAME = lines {chart.axes(c.x, x, c.y, y), margins,
      chart.words(c, box, heading, below(c, limits, heavy, empty, range)), labels},
    CLOSE = c.page.output and "unset output" or "",
  })
end

return contour
