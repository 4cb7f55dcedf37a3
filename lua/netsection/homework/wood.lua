-- SPDX-License-Identifier: MIT
-- What several kinds of problem share: wood by its trade name, sizes, and a joist of that
-- wood for the independent check and for figures.
local joist = require "netsection.joist"
local lumber = require "netsection.lumber"

local wood = {}

--- Names that fit in a list of base values: species and grade, as in the tables.
wood.names = {"Douglas Fir-Larch No.2", "Hem-Fir No.2", "Spruce-Pine-Fir No.1/No.2",
  "Douglas Fir-Larch No.1", "Hem-Fir No.1"}

local sizes, values = {}, {}

--- {b =, d =, nominal_b =, nominal_d =} of "2x10".
function wood.size(name)
  sizes[name] = sizes[name] or assert(lumber.size(name))
  return sizes[name]
end

local function split(name)
  return name:match "^(.-) (%S+)$"
end

--- Design values and size factors of a wood in a size.
function wood.values(name, size)
  local key = name .. "/" .. size
  if not values[key] then
    local species, grade = split(name)
    local s = wood.size(size)
    values[key] = assert(lumber.design_values {species = species, grade = grade, b = s.b,
      d = s.d, nominal_d = s.nominal_d, partial = true})
  end
  return values[key]
end

--- What is given of a joist under its floor, and rows of the problem's own.
-- @param p base values size, wood, span, spacing, live; and dead, or 10 psf
function wood.given(p, more)
  local s = wood.size(p.size)
  local rows = {
    {"", p.size .. " " .. p.wood, "", "Joist"},
    {"b", s.b, "in", "thickness"}, {"d", s.d, "in", "depth"},
    {"L", p.span / 12, "ft", "design span"}, {"s", p.spacing, "in", "spacing"},
    {"D", p.dead or 10, "psf", "dead load"}, {"L_L", p.live, "psf", "live load"},
  }
  return table.move(more, 1, #more, #rows + 1, rows)
end

--- A joist of the wood for a check by review or for a figure.
-- @param t {size =, wood = name, ...}: fields of a joist, the wood by its name
function wood.joist(t)
  local given = {mark = "Q", bearing = 3.5}
  for name, value in pairs(t) do given[name] = value end
  if t.wood then given.species, given.grade = split(t.wood) end
  given.wood = nil
  return joist.new(given)
end

return wood
