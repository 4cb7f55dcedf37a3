-- SPDX-License-Identifier: MIT
-- A sketch: lines, areas, arrows, dimensions and texts at places on the sheet. It knows
-- nothing of joists; who draws with it says where everything is, in inches of paper up
-- and right from the sheet's lower left corner.

local recipes = require "netsection.plot.recipes"
local sheet = require "netsection.plot.sheet"
local units = require "netsection.units"
local words = require "netsection.plot.words"

local sketch = {}
sketch.__index = sketch

local STYLES = {"wood", "hatched", "void", "edge", "load", "dim", "axis"}
local TITLES = 0.5          -- in, for the lines at the head
local FOOT = 0.3            -- and for the note at the foot
local EXERCISE = "An exercise; not a design."

--- @param t {title =, caption =, width =, height = of the room for the drawing, note = at
--   the foot, by default that of an exercise}
function sketch.new(t)
  local s = setmetatable({title = t.title or "", caption = t.caption or "",
    width = t.width, height = t.height, note = t.note or EXERCISE, marks = {}}, sketch)
  for _, style in ipairs(STYLES) do s[style .. "_lines"] = {} end
  return s
end

function sketch.is(value)
  return getmetatable(value) == sketch
end

--- An open line or, filled, a closed area: list of {x, y}.
function sketch:path(style, points)
  local list = self[style .. "_lines"]
  list[#list + 1] = points
end

function sketch:line(style, x1, y1, x2, y2)
  self:path(style, {{x1, y1}, {x2, y2}})
end

--- A box: filled by `style`, with its edge drawn.
function sketch:box(style, x1, y1, x2, y2)
  local points = {{x1, y1}, {x2, y1}, {x2, y2}, {x1, y2}, {x1, y1}}
  self:path(style, points)
  if style ~= "edge" then self:path("edge", points) end
end

function sketch:circle(style, x, y, r)
  local points = {}
  for i = 0, 36 do
    local angle = i * math.pi / 18
    points[#points + 1] = {x + r * math.cos(angle), y + r * math.sin(angle)}
  end
  self:path(style, points)
  if style ~= "edge" then self:path("edge", points) end
end

function sketch:text(x, y, text, align)
  self.marks[#self.marks + 1] = {x = x, y = y, text = text, align = align or "center"}
end

function sketch:arrow(x1, y1, x2, y2)
  self.marks[#self.marks + 1] = {x = x1, y = y1, x2 = x2, y2 = y2}
end

--- A dimension along, with its text below the line, or, where it is tall, up and with its
-- text beside it.
function sketch:dimension(x1, y1, x2, y2, text)
  local t = 0.05
  self:line("dim", x1, y1, x2, y2)
  for _, at in ipairs {{x1, y1}, {x2, y2}} do
    self:line("dim", at[1] - t, at[2] - t, at[1] + t, at[2] + t)
  end
  if y1 == y2 then
    self:line("dim", x1, y1 - t, x1, y1 + 2 * t)
    self:line("dim", x2, y1 - t, x2, y1 + 2 * t)
    self:text((x1 + x2) / 2, y1 - 0.12, text)
  else
    self:line("dim", x1 - t, y1, x1 + 2 * t, y1)
    self:line("dim", x1 - t, y2, x1 + 2 * t, y2)
    self:text(x1 - 0.1, (y1 + y2) / 2, text, "right")
  end
end

---------------------------------------------------------------------------- script

local function block(name, lines, lift)
  local out = {"$" .. name .. " << END"}
  for i, points in ipairs(lines) do
    if i > 1 then out[#out + 1] = "" end
    for _, point in ipairs(points) do
      out[#out + 1] = ("%s %s"):format(units.fixed(point[1], 4),
        units.fixed(point[2] + lift, 4))
    end
  end
  if #lines == 0 then out[#out + 1] = "0 0" end
  out[#out + 1] = "END"
  out[#out + 1] = ("has_%s = %d"):format(name, #lines > 0 and 1 or 0)
  return words.lines(out)
end

local function data_part(s)
  local out = {}
  for i, style in ipairs(STYLES) do out[i] = block(style, s[style .. "_lines"], FOOT) end
  return words.lines(out)
end

local function mark_part(page, m)
  local from = sheet.at(page, m.x, m.y + FOOT)
  if m.text then return sheet.label(words.clean(m.text, 80), from, m.align) end
  return ("set arrow from %s to %s head filled size screen %s,20 ls 2"):format(from,
    sheet.at(page, m.x2, m.y2 + FOOT), units.fixed(0.09 / page.width, 5))
end

local function frame_part(s, page)
  local out = {
    ("set xrange [0:%s]"):format(units.fixed(page.width, 4)),
    ("set yrange [0:%s]"):format(units.fixed(page.height, 4)),
    sheet.titles(page, page.title or s.title, s.caption),
    sheet.label(s.note, sheet.at(page, sheet.margin, 0.12)),
  }
  for _, m in ipairs(s.marks) do out[#out + 1] = mark_part(page, m) end
  return words.lines(out)
end

--- Script of a sketch.
function sketch.script(s, page)
  page.width, page.height = s.width, s.height + TITLES + FOOT
  return recipes.fill(recipes.of "sketch", {
    PAGE = sheet.setup(page), DATA = data_part(s), FRAME = frame_part(s, page),
    CLOSE = page.output and "unset output" or "",
  })
end

return sketch
