-- SPDX-License-Identifier: MIT
-- A view to scale on a sheet: one inch of the joist is 1/N inch of paper along and up.
-- Lines, areas and texts are gathered in inches of the joist; what is measured on paper
-- is multiplied by N first. A view becomes one plot of the recipe view.gp.

local recipes = require "netsection.plot.recipes"
local quantity = require "netsection.quantity"
local sheet = require "netsection.plot.sheet"
local units = require "netsection.units"
local words = require "netsection.plot.words"

local view = {}
local methods = {}
local meta = {__index = methods}

-- Kinds of lines and areas, each drawn in its own way and in this order by view.gp.
-- What is seen through an opening (holefar, slotfar) has the shade of the piece behind
-- it; what stands behind a piece on the near face is a dashed line without a ground.
view.kinds = {"farfill", "wood", "bearing", "sides", "loss", "edge", "slot",
  "slothidden", "slotfar", "hole", "holefar", "split", "far", "nearfill", "hidden",
  "holehidden", "near", "steel", "shank", "mark", "axis", "dim", "dot", "fastener",
  "cross"}

--- @param N joist inches to an inch of paper
-- @param a,b the stretch of the joist that is shown
-- @param place {left =, base =, bottom =, top =}: where x = a and h = 0 stand on the
--   sheet, and the heights between which the view stands, inches of paper; and show, the
--   system of units
-- @param recipe,kinds of another sort of view; by default view.gp and its kinds
function view.new(N, a, b, place, recipe, kinds)
  local gathered = {}
  kinds = kinds or view.kinds
  for _, kind in ipairs(kinds) do gathered[kind] = {} end
  return setmetatable({N = N, a = a, b = b, place = place, gathered = gathered,
    kinds = kinds, recipe = recipe or "view", labels = {},
    show = place.show or quantity.system()}, meta)
end

-- Whole numbers of drawing scales; 8, 12, 16, 24 are 1-1/2, 1, 3/4, 1/2 in to the foot.
local SCALES = {1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 16, 18, 20, 24, 25, 30, 32, 36, 40, 48,
  50, 60, 64, 72, 80, 96, 100, 120, 144, 160, 180, 192, 200, 240}

-- Of plans in metric units (ISO 5455 and those between in use).
local METRIC = {10, 15, 20, 25, 50, 75, 100, 125, 150, 200, 250}

--- The largest scale 1:N, N at least `least`, at which `length` fits into `room`.
-- @param show the system of units of a plan; without it the scale may be any of them
function view.scale_for(length, room, least, show)
  for _, N in ipairs(show and not show.tape and METRIC or SCALES) do
    if N >= least and length / N <= room then return N end
  end
  return math.max(least, math.ceil(length / room))
end

-- Adds a line or a closed area: points {{x, h}, ...}.
function methods:add(kind, points)
  local list = self.gathered[kind]
  list[#list + 1] = points
end

function methods:segment(kind, x1, h1, x2, h2)
  self:add(kind, {{x1, h1}, {x2, h2}})
end

local HIGH = 0.135         -- in, of the ground of a text

function methods:label(text, x, h, more)
  local boxed
  more, boxed = (more or "center"):gsub(" boxed", "")
  if boxed > 0 and text ~= "" then
    local w, off = sheet.ground_of(text, more)
    self.labels[#self.labels + 1] = sheet.ground(units.fixed(x + off * self.N, 4) .. ","
      .. units.fixed(h, 4), units.fixed(w * self.N, 4) .. ","
      .. units.fixed(HIGH * self.N, 4))
  end
  self.labels[#self.labels + 1] = sheet.label(text,
    units.fixed(x, 4) .. "," .. units.fixed(h, 4), more .. " front")
end

view.label = methods.label

function methods:inside(x)
  return x >= self.a and x <= self.b
end

-- An empty block still needs a point; it is not drawn.
local function block(kind, list)
  local rows = {("$%s << EOD"):format(kind)}
  for i, points in ipairs(list) do
    if i > 1 then rows[#rows + 1] = "" end
    for _, p in ipairs(points) do
      local cells = {}
      for k, v in ipairs(p) do cells[k] = units.fixed(v, 4) end
      rows[#rows + 1] = table.concat(cells, " ")
    end
  end
  if #list == 0 then rows[2] = "0 0 0 0" end
  rows[#rows + 1] = "EOD"
  return words.lines(rows)
end

local function frame_part(self, page)
  local place, N = self.place, self.N
  local right = place.left + (self.b - self.a) / N
  return words.lines {
    "set lmargin at screen " .. units.fixed(place.left / page.width, 6),
    "set rmargin at screen " .. units.fixed(right / page.width, 6),
    "set bmargin at screen " .. units.fixed(place.bottom / page.height, 6),
    "set tmargin at screen " .. units.fixed(place.top / page.height, 6),
    ("set xrange [%s:%s]"):format(units.fixed(self.a, 4), units.fixed(self.b, 4)),
    ("set yrange [%s:%s]"):format(units.fixed((place.bottom - place.base) * N, 4),
      units.fixed((place.top - place.base) * N, 4)),
    words.lines(self.labels),
  }
end

-- A length to scale, at the sheet's right margin and height y: pictures are often printed
-- at another size. Returns where it begins on the sheet, in.
function methods:scale_bar(page, y)
  local N = self.N
  local unit = self.show.bar(N)
  local right = self.a + (page.width - sheet.margin - 0.1 - self.place.left) * N
  local h, left = (y - self.place.base) * N, right - 2 * unit
  local function place(x, up)
    return units.fixed(x, 4) .. "," .. units.fixed(up, 4)
  end
  local list = {sheet.line(place(left, h), place(right, h), "lw 1.6")}
  for x = left, right + unit / 2, unit do
    list[#list + 1] = sheet.line(place(x, h - 0.03 * N), place(x, h + 0.03 * N), "lw 0.8")
  end
  self.labels[#self.labels + 1] = words.lines(list)
  local long = 2 * unit
  local said = long >= 24 and self.show.place(long) or self.show.size(long)
  self:label(said, left - 0.06 * N, h, "right")
  return (left - self.a) / N + self.place.left - 0.06 - words.width(said) * sheet.cell
end

-- What is drawn and its scale, at the left margin, and the length to scale.
-- @param ways in which the scale holds, " along and up" by default
function methods:caption(text, page, y, ways)
  local on = " on a sheet " .. self.show.paper(page.width) .. " wide"
  local function said(more)
    return ("%s, scale 1:%d%s%s%s"):format(text, self.N, ways or " along and up", more,
      self.show.drawn_in)
  end
  local left = self:scale_bar(page, y)
  local room = left - sheet.margin - 0.15      -- narrow sheets leave out their width
  local wide = words.width(said(on)) * sheet.cell <= room
  self.labels[#self.labels + 1] = sheet.label(said(wide and on or ""),
    sheet.at(page, sheet.margin, y))
end

function methods:script(page, name)
  local data, facts = {}, {}
  for i, kind in ipairs(self.kinds) do
    local list = self.gathered[kind]
    data[i] = block(kind, list)
    facts[i] = ("has_%s = %d"):format(kind, #list > 0 and 1 or 0)
  end
  return recipes.fill(recipes.of(self.recipe), {
    NAME = name, DATA = words.lines(data), FACTS = words.lines(facts),
    FRAME = frame_part(self, page),
  })
end

return view
