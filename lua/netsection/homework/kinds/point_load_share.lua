-- SPDX-License-Identifier: MIT
-- A point load shared by three joists through one row across them at mid-span: who takes
-- how much. Closed form: springs at mid-span, 48 E I/L^3 each, and the row over a span of
-- two bays, 48 E I/(2 s)^3 = 6 E I/s^3. Statics.
local floor = require "netsection.floor"
local wood = require "netsection.homework.wood"

local E = 1.6e6

local function three(p)
  local s = wood.size(p.size)
  return floor.new {name = "Q", joists = {{mark = "J1"}, {mark = "J2"}, {mark = "J3"}},
    b = s.b, d = s.d, span = p.span, spacing = p.spacing, bearing = 3.5, dead = 10,
    live = 40, material = {Fb = 900, Fv = 180, E = E}}
end

-- Laid flat: the wide face down.
local function EI_flat(size)
  local s = wood.size(size)
  return E * s.d * s.b ^ 3 / 12
end

return {
  name = "point_load_share", order = 155,
  standards = {"us-nds-2018-asd", "us-nds-2018-lrfd"},
  title = "A point load shared by three joists",
  vary = {
    size = {"2x8", "2x10", "2x12"}, row = {"2x4", "2x6", "2x8"},
    span = {120, 132, 144, 156, 168, 180}, spacing = {16, 19.2, 24},
    P = {225, 300, 350, 400, 450, 500},
  },
  given = function(p)
    local j, r = wood.size(p.size), wood.size(p.row)
    return {
      {"", p.size, "", "Three joists"}, {"b", j.b, "in", "thickness"},
      {"d", j.d, "in", "depth"},
      {"", p.row .. " flat", "", "Row across, one piece under all three, at mid-span"},
      {"b_f", r.d, "in", "its width"}, {"d_f", r.b, "in", "its depth as it bends"},
      {"E", E, "psi", "modulus of elasticity of all"},
      {"L", p.span / 12, "ft", "design span of the joists"},
      {"s", p.spacing, "in", "spacing"},
      {"P", p.P, "lb", "load on the middle joist at mid-span"},
    }
  end,
  question = "A load stands at mid-span of the middle one of three equal joists; a row "
    .. "across in one piece, fixed to all three at mid-span, passes part of it on. Leave "
    .. "out the deck and the torsion of the joists. How much does each joist carry?",
  steps = {
    {"I", "b*d^3/12", "in4", says = "second moment of a joist"},
    {"k", "48*E*I/(12*L)^3", "lb/in", ask = "Stiffness of one joist at mid-span",
      marks = 1, clause = "statics"},
    {"I_f", "b_f*d_f^3/12", "in4", says = "second moment of the row"},
    {"k_f", "6*E*I_f/s^3", "lb/in", marks = 2,
      ask = "Stiffness of the row: force at its middle per inch that the middle joist "
        .. "goes down more than those beside it", hint = "a beam over a span of 2 s"},
    {"r", "k_f/k", "", says = "row to joist"},
    {"q_2", "(1 + r/2)/(1 + 3*r/2)", "", ask = "Share of the middle joist", marks = 2,
      hint = "P = k w_2 + F, F = k_f (w_2 - w_1), F/2 = k w_1"},
    {"R_2", "q_2*P", "lb", ask = "Load that the middle joist carries", marks = 1},
    {"R_1", "(P - R_2)/2", "lb", ask = "Load that each joist beside it carries",
      marks = 1},
    {"M_2", "R_2*L/4", "ft-lb", ask = "Moment of the middle joist", marks = 1},
    {"w_2", "R_2/k", "in", ask = "Its deflection", marks = 1, tolerance = 0.02},
    {"M_f", "R_1*s", "lb-in", ask = "Moment of the row over the middle joist",
      marks = 1},
  },
  mistakes = {
    {of = {"R_2", "M_2", "w_2"}, with = {q_2 = "1/1"}, name = "nothing shared",
      reveals = "the row has to follow the joist down and pushes back"},
    {of = {"R_2", "R_1", "M_2"}, with = {q_2 = "1/3"}, name = "a third to each",
      reveals = "only a row that does not bend at all shares alike"},
    {of = {"k_f", "q_2"}, with = {k_f = "48*E*I_f/s^3"},
      name = "one bay taken as the span of the row",
      reveals = "the row spans both bays, 2 s, with its load in the middle"},
    {of = {"k_f", "q_2"}, with = {k_f = "3*E*I_f/s^3"},
      name = "one arm of the row alone",
      reveals = "there is an arm to each side: twice 3 E I/s^3"},
    {of = "q_2", formula = "1/(1 + r)", name = "the joists beside taken as rigid",
      reveals = "they go down as well under what they take: w_1 is not 0"},
    {of = "R_1", formula = "P - R_2", name = "all that is passed on given to each",
      reveals = "two joists share what the middle one does not carry"},
    {of = "k", formula = "384/5*E*I/(12*L)^3", name = "the form for an even load",
      reveals = "a load at mid-span: w = P L^3/(48 E I)"},
    {of = "M_2", formula = "P*L/4", name = "the moment of the whole load",
      reveals = "the middle joist carries R_2 only"},
  },
  figure = function(p, _, draw)
    return draw.plan {L = p.span / 12, left = p.spacing, right = p.spacing}
  end,
  source = "floor as a grid of three joists, no deck, one row that does not turn",
  check = function(p)
    local g = three(p):grid {deck = {across = 0}, points = {{joist = "J2",
      at = p.span / 2, load = p.P}}, blocking = {{at = p.span / 2, k = math.huge,
      EI = EI_flat(p.row)}}}
    local r = g:of("J2")
    return {R_2 = r.reaction, R_1 = g:of("J1").reaction, M_2 = r.M_max / 12,
      q_2 = r.share.reactions, w_2 = g:at("J2", p.span / 2).w}
  end,
}
