-- SPDX-License-Identifier: MIT
-- Figures of problems with the numbers of one student: the joist to scale, its moment and
-- shear (for the key), and sketches of loads, sections and plans. Each gives a gnuplot
-- script. A sketch shows what is given and nothing that is asked.
local plot = require "netsection.plot"
local sketch = require "netsection.plot.sketch"
local show = require "netsection.homework.show"
local wood = require "netsection.homework.wood"

local figure = {}

local WIDTH, MARGIN = 6.5, 0.6       -- in of paper

---------------------------------------------------------------------------- loads

local function support(s, x, y)
  s:path("edge", {{x, y}, {x - 0.1, y - 0.18}, {x + 0.1, y - 0.18}, {x, y}})
  s:line("edge", x - 0.16, y - 0.18, x + 0.16, y - 0.18)
end

-- A band of arrows down to the beam.
local function spread(s, x1, x2, y, height, text)
  s:path("load", {{x1, y}, {x1, y + height}, {x2, y + height}, {x2, y}})
  local n = math.max(2, math.floor((x2 - x1) / 0.35))
  for i = 0, n do
    local x = x1 + (x2 - x1) * i / n
    s:arrow(x, y + height, x, y + 0.03)
  end
  s:text((x1 + x2) / 2, y + height + 0.1, text)
end

-- Texts of dimensions from the left bearing, one under another.
local function stations(s, list, at, y, unit)
  for i, x in ipairs(list) do
    s:dimension(at(0), y - 0.28 * i, at(x), y - 0.28 * i, show.given(x, unit))
  end
end

-- Places that are dimensioned, and the beam's end.
local function marked(t)
  local list = {}
  for _, part in ipairs(t.parts or {}) do
    list[#list + 1], list[#list + 2] = part[1], part[2]
  end
  for _, point in ipairs(t.points or {}) do list[#list + 1] = point[1] end
  list[#list + 1] = t.L
  return list
end

--- A simple beam with its loads, not to scale up. @param t {L = ft, w = text of the load
-- all along or nil, parts = {{from, to, text}}, points = {{at, text}}, unit = "m" or, by
-- default, "ft"}, places in that unit
function figure.loads(t)
  local places = marked(t)
  local y = 0.36 + 0.28 * #places
  local s = sketch.new {caption = "Loads, not to scale up", width = WIDTH, height = y + 1}
  local function at(x) return MARGIN + (WIDTH - 2 * MARGIN) * x / t.L end
  s:box("wood", at(0), y, at(t.L), y + 0.14)
  support(s, at(0), y)
  support(s, at(t.L), y)
  s:text(at(0) - 0.25, y + 0.07, "A")
  s:text(at(t.L) + 0.25, y + 0.07, "B")
  local top = y + 0.14
  if t.w then
    spread(s, at(0), at(t.L), top, 0.3, t.w)
    top = top + 0.45
  end
  for _, part in ipairs(t.parts or {}) do
    spread(s, at(part[1]), at(part[2]), top, 0.3, part[3])
  end
  for _, point in ipairs(t.points or {}) do
    s:arrow(at(point[1]), top + 0.45, at(point[1]), top)
    s:text(at(point[1]) + 0.08, top + 0.4, point[2], "left")
  end
  stations(s, places, at, y - 0.15, t.unit or "ft")
  return s
end

---------------------------------------------------------------------------- diagrams

local HALF = 0.85       -- in of paper that the largest value takes

--- A diagram along a simple beam with the values asked for, for a key. @param t {L = ft,
-- name = what it shows, points = {{x, value}, ...}, marks = {{x, value, text, align}}}
function figure.diagram(t)
  local low, high = 0, 0
  for _, point in ipairs(t.points) do
    low, high = math.min(low, point[2]), math.max(high, point[2])
  end
  local N = math.max(high, -low) / HALF
  local y = 0.25 - low / N
  local s = sketch.new {caption = t.name, width = WIDTH, height = y + high / N + 0.25}
  local function at(x) return MARGIN + (WIDTH - 2 * MARGIN) * x / t.L end
  local path, area = {}, {{at(0), y}}
  for i, point in ipairs(t.points) do
    path[i] = {at(point[1]), y + point[2] / N}
    area[i + 1] = path[i]
  end
  area[#area + 1] = {at(t.L), y}
  s:path("wood", area)
  s:path("edge", path)
  s:line("axis", at(0) - 0.2, y, at(t.L) + 0.2, y)
  for _, m in ipairs(t.marks) do
    s:text(at(m[1]), y + m[2] / N + (m[2] < 0 and -0.1 or 0.1), m[3], m[4])
  end
  return s
end

--- Empty axes along a simple beam, to draw a diagram on. @param t {L = ft, name = what is
-- to be drawn, with its unit}
function figure.axes(t)
  local s = sketch.new {caption = t.name, width = WIDTH, height = 1.9}
  local y, a, b = 0.95, MARGIN, WIDTH - MARGIN
  s:line("axis", a - 0.2, y, b + 0.2, y)
  s:line("axis", a, y - 0.75, a, y + 0.75)
  s:line("axis", b, y - 0.08, b, y + 0.08)
  s:text(a - 0.15, y - 0.14, "A")
  s:text(b + 0.12, y - 0.14, "B")
  s:text(a + 0.08, y + 0.68, t.name, "left")
  return s
end

---------------------------------------------------------------------------- sections

local TALL = 1.5        -- in of paper for the deepest section

local function one_section(s, x, N, part, unit)
  local y, w, h = 0.35, part.b / N, part.d / N
  local base = y + (part.up or 0) / N
  s:box("wood", x, base, x + w, base + h)
  for _, void in ipairs(part.voids or {}) do
    s:box("void", x, base + void[1] / N, x + w, base + void[2] / N)
    s:line("axis", x - 0.1, base + (void[1] + void[2]) / 2 / N, x + w + 0.1,
      base + (void[1] + void[2]) / 2 / N)
  end
  s:dimension(x, 0.22, x + w, 0.22, show.given(part.b, unit))
  s:dimension(x - 0.2, base, x - 0.2, base + h, show.given(part.d, unit))
  for _, mark in ipairs(part.marks or {}) do
    s:line("dim", x + w, base + mark[1] / N, x + w + 0.55, base + mark[1] / N)
    s:line("dim", x + w, base + mark[2] / N, x + w + 0.55, base + mark[2] / N)
    s:line("dim", x + w + 0.45, base + mark[1] / N, x + w + 0.45, base + mark[2] / N)
    s:text(x + w + 0.55, base + (mark[1] + mark[2]) / 2 / N,
      ("%s: %s"):format(mark[3], show.given(mark[4], unit)), "left")
  end
  s:text(x + w / 2, base + h + 0.12, part.name or "")
end

--- Cross sections side by side, to one scale. @param list {{name =, b =, d =, up = height
-- of its bottom, voids = {{y1, y2}}, marks = {{y1, y2, text, length}}}, ..., unit = "mm"
-- or, by default, "in"}
function figure.sections(list)
  local deepest = 0
  for _, part in ipairs(list) do deepest = math.max(deepest, (part.up or 0) + part.d) end
  local N = deepest / TALL
  local s = sketch.new {caption = "Section, to scale", width = WIDTH, height = 2.1}
  for i, part in ipairs(list) do
    one_section(s, WIDTH * i / (#list + 1) - part.b / N / 2, N, part, list.unit or "in")
  end
  return s
end

---------------------------------------------------------------------------- plans

--- Three joists in plan, with what stands between them dimensioned. @param t {L = ft,
-- left =, right = in, tub = {from, to, width in} or nil, unit = "m": then m and mm}
function figure.plan(t)
  local along, across = t.unit or "ft", t.unit and "mm" or "in"
  local s = sketch.new {caption = "Plan, not to scale across", width = WIDTH,
    height = 2.0}
  local y0, y1, y2 = 0.6, 1.1, 1.6
  local a, b = MARGIN + 0.5, WIDTH - MARGIN
  for _, y in ipairs {y0, y1, y2} do s:box("wood", a, y - 0.03, b, y + 0.03) end
  s:box("hatched", a - 0.1, 0.4, a, 1.8)
  s:box("hatched", b, 0.4, b + 0.1, 1.8)
  if t.tub then
    local function at(x) return a + (b - a) * x / t.L end
    s:box("edge", at(t.tub[1]), y0 - 0.12, at(t.tub[2]), y2 + 0.12)
    s:text(at((t.tub[1] + t.tub[2]) / 2), y1 + 0.3, "tub")
  end
  s:text(b - 0.6, y1 + 0.12, "the joist")
  s:dimension(a - 0.25, y0, a - 0.25, y1, show.given(t.right, across))
  s:dimension(a - 0.25, y1, a - 0.25, y2, show.given(t.left, across))
  s:dimension(a, 0.25, b, 0.25, show.given(t.L, along))
  return s
end

---------------------------------------------------------------------------- drawing

--- What a kind draws with, the options of its plot filled in.
-- @param options {output =, title =}
function figure.with(options)
  local draw = {loads = figure.loads, sections = figure.sections, plan = figure.plan,
    diagram = figure.diagram, axes = figure.axes}
  for name, size in pairs {elevation = {7.15}, moment = {6.5}, shear = {6.5}} do
    local own = {output = options.output, title = options.title, size = size}
    draw[name] = function(j)
      local ready = j.review or j.joist      -- a joist, or a review of one
      return (assert(plot[name](ready and j or wood.joist(j), own)))
    end
  end
  return draw, function(drawn)
    return sketch.is(drawn) and plot.sketch(drawn, options) or drawn
  end
end

return figure
