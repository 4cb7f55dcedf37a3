-- SPDX-License-Identifier: MIT
-- Deflection at mid-span of a joist with a slot: the unit-load integral over the stretch
-- that is less stiff. Mechanics of materials (virtual work).
local core = require "netsection.core"
local parts = require "netsection.parts"
local wood = require "netsection.homework.wood"

local function slotted(p)
  return {size = p.size, wood = wood.names[1], span = p.span, spacing = p.spacing,
    dead = 10, live = 40, cuts = {parts.slot {from = p.from, to = p.from + p.length,
      height = p.height}}}
end

return {
  name = "cut_deflection", order = 110,
  standards = {"us-nds-2018-asd", "us-nds-2018-lrfd"},
  title = "Deflection of a cut joist",
  vary = {
    size = {"2x8", "2x10", "2x12"}, span = {132, 144, 156, 168, 180}, spacing = {12, 16},
    from = {33, 36, 39, 42, 45, 48, 54}, length = {20, 24, 28, 32},
    height = {3.5, 4, 4.5, 5, 5.5, 6}, live = {30, 40},
  },
  given = function(p)
    local s = wood.size(p.size)
    return {
      {"", p.size, "", "Joist"},
      {"b", s.b, "in", "thickness"}, {"d", s.d, "in", "depth"},
      {"E", 1.6e6, "psi", "modulus"},
      {"L", p.span / 12, "ft", "design span"}, {"s", p.spacing, "in", "spacing"},
      {"L_L", p.live, "psf", "live load"},
      {"x_1", p.from, "in", "from the left bearing to the slot"},
      {"x_2", p.from + p.length, "in", "to its other end"},
      {"h", p.height, "in", "its height, centered in the depth"},
    }
  end,
  question = "A slot for a duct makes part of the joist less stiff. Find the live-load "
    .. "deflection at mid-span with it: the whole joist, and what the slot adds, by the "
    .. "unit-load integral of M*m/(E*I) over the slot. Plane sections; no shear.",
  suits = function(p, s)
    return p.from + p.length < p.span / 2 and s.h <= 0.55 * s.d and s.ratio > 0.4
      and s.ratio < 1.3
  end,
  steps = {
    {"w", "L_L*s/144", "lb/in", ask = "Live load per inch of joist", marks = 1,
      clause = "statics"},
    {"I", "b*d^3/12", "in4", ask = "Second moment of the whole section", marks = 1},
    {"I_n", "b*(d^3 - h^3)/12", "in4", ask = "Second moment at the slot", marks = 2},
    {"D_1", "5*w*(12*L)^4/(384*E*I)", "in", ask = "Deflection of the whole joist",
      marks = 1, tolerance = 0.02},
    {"B", "12*L*(x_2^3 - x_1^3)/3 - (x_2^4 - x_1^4)/4", "in4",
      says = "integral of x^2*(L - x) over the slot"},
    {"D_2", "w/4*B*(1/I_n - 1/I)/E", "in", ask = "What the slot adds at mid-span",
      marks = 3, tolerance = 0.02, clause = "unit load"},
    {"D", "D_1 + D_2", "in", ask = "Deflection with the slot", marks = 1,
      tolerance = 0.01},
    {"limit", "12*L/360", "in", ask = "Limit of L/360", marks = 1,
      clause = "IRC Table R301.7"},
    {"ratio", "D/limit", "", ask = "Ratio of deflection to limit", marks = 1,
      tolerance = 0.01},
  },
  edge = {"ratio"},
  mistakes = {
    {of = {"D", "ratio"}, with = {D = "D_1"}, name = "the slot ignored",
      reveals = "the slot makes the joist less stiff: add D_2"},
    {of = {"D"}, with = {D = "D_1*I/I_n"}, name = "the slot's I along the whole joist",
      reveals = "only the slot's length is less stiff"},
    {of = "I_n", formula = "b*(d - h)^3/12", name = "what is left as one rectangle",
      reveals = "the two parts stand apart: take the slot off the whole"},
    {of = "I_n", formula = "2*b*((d - h)/2)^3/12",
      name = "the two parts each about its own axis",
      reveals = "they bend together: the parallel-axis part is missing"},
    {of = "D_2", formula = "w/4*B/I_n/E", name = "the whole stretch counted again",
      reveals = "D_1 has the stretch with I already: take 1/I_n - 1/I"},
    {of = "D_2", formula = "w/2*B*(1/I_n - 1/I)/E", name = "m taken as x",
      reveals = "the unit load at mid-span gives m = x/2"},
  },
  figure = function(p, _, draw) return draw.elevation(slotted(p)) end,
  source = "the beam solver (force method) with stepped E I, at mid-span",
  check = function(p)
    local s = wood.size(p.size)
    local I, I_n = s.b * s.d ^ 3 / 12, s.b * (s.d ^ 3 - p.height ^ 3) / 12
    local w = p.live * p.spacing / 144
    local x_1, x_2 = p.from, p.from + p.length
    local function sag(EI)
      return core.beam {spans = {p.span}, EI = EI, loads = {{from = 0, to = p.span,
        w1 = w, w2 = w, case = "live"}}}:at(p.span / 2).deflection
    end
    local D_1 = sag(1.6e6 * I)
    local D = sag {{from = 0, to = x_1, EI = 1.6e6 * I},
      {from = x_1, to = x_2, EI = 1.6e6 * I_n}, {from = x_2, to = p.span, EI = 1.6e6 * I}}
    return {D_1 = D_1, D_2 = D - D_1, D = D}
  end,
}
