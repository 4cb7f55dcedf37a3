-- SPDX-License-Identifier: MIT
-- The longest span of an uncut joist: by factored loads in bending, by service loads in
-- deflection. NDS 3.3.2, 4.3.1, Appendix N; IRC Table R301.7.
local base = require "netsection.homework.kinds.allowable_span"
local factored = require "netsection.homework.factored"
local wood = require "netsection.homework.wood"

return {
  name = "allowable_span", order = base.order, standards = {"us-nds-2018-lrfd"},
  title = "Longest span, factored loads",
  vary = base.vary, modes = base.modes, suits = base.suits, figure = base.figure,
  given = function(p)
    local s, v = wood.size(p.size), wood.values(p.wood, p.size)
    return {
      {"", p.size .. " " .. p.wood, "", "Joist"},
      {"b", s.b, "in", "thickness"}, {"d", s.d, "in", "depth"},
      {"s", p.spacing, "in", "spacing"},
      {"D", p.dead, "psf", "dead load"}, {"L_L", p.live, "psf", "live load"},
      {"F_b", v.Fb, "psi", "reference value in bending"},
      {"C_F", v.CF, "", "size factor"}, {"C_r", 1.15, "", "repetitive factor"},
      {"E'", v.E, "psi", "modulus"}, factored.rows("b", "bending"),
    }
  end,
  question = "How far may this joist span? By bending under 1.2D + 1.6L in load and "
    .. "resistance factor design, by live-load deflection of L/360 and by total "
    .. "deflection of L/240. Shear and bearing do not govern here.",
  steps = {
    {"w_u", "(1.2*D + 1.6*L_L)*s/12", "plf", ask = "Factored load per foot of joist",
      marks = 1, clause = "statics"},
    {"S", "b*d^2/6", "in3", ask = "Section modulus", marks = 1},
    {"I", "b*d^3/12", "in4", ask = "Second moment", marks = 1},
    {"F_b'", "F_b*C_F*C_r*K_F*phi*lambda", "psi", ask = "Adjusted value in bending",
      marks = 2, clause = "NDS 4.3.1, Appendix N"},
    {"L_b", "sqrt(8*F_b'*S/(12*w_u))", "ft", ask = "Span by bending", marks = 2,
      clause = "NDS 3.3.2"},
    {"w_L", "L_L*s/12", "plf", says = "live load per foot, without factor"},
    {"w", "(D + L_L)*s/12", "plf", says = "all load per foot, without factors"},
    {"L_v", "cbrt(384*E'*I/(5*360*w_L/12))/12", "ft",
      ask = "Span by live-load deflection", marks = 2, clause = "IRC Table R301.7"},
    {"L_t", "cbrt(384*E'*I/(5*240*w/12))/12", "ft", ask = "Span by total deflection",
      marks = 1, clause = "IRC Table R301.7"},
    {"mode", "the lesser of L_b and L_v", "", marks = 1,
      ask = "Which of bending and live deflection gives the shorter span?",
      choice = {"bending", "live deflection"},
      hint = "all three have to be met: the least span decides",
      value = function(s)
        return s.L_b <= s.L_v and "bending" or "live deflection"
      end},
    {"L_a", "floor(12*min(L_b, min(L_v, L_t)))", "in",
      ask = "Longest span, rounded down to an inch", marks = 1, tolerance = 0.01},
  },
  mistakes = {
    {of = {"w_u", "L_b"}, with = {w_u = "(D + L_L)*s/12"}, name = "loads without factors",
      reveals = "in this format the loads are raised, 1.2 and 1.6"},
    {of = {"F_b'", "L_b"}, with = {["F_b'"] = "F_b*C_F*C_r*K_F*phi"},
      name = "the time effect factor left out",
      reveals = "lambda stands in the place of the load duration factor"},
    {of = {"F_b'", "L_b"}, with = {["F_b'"] = "F_b*C_F*C_r"},
      name = "the value of allowable stress design",
      reveals = "factored loads go with K_F, phi and lambda"},
    {of = {"L_v"}, with = {L_v = "cbrt(384*E'*I/(5*360*1.6*w_L/12))/12"},
      name = "factored load in deflection",
      reveals = "deflection is that of loads without factors"},
    {of = {"L_v"}, with = {L_v = "cbrt(384*E'*I/(5*360*w/12))/12"},
      name = "all load with L/360", reveals = "L/360 is for live load alone"},
    {of = {"L_t"}, with = {L_t = "cbrt(384*E'*I/(5*240*w_u/12))/12"},
      name = "factored load in deflection",
      reveals = "deflection is that of loads without factors"},
    {of = "L_a", formula = "floor(12*max(L_b, max(L_v, L_t)))",
      name = "the largest of the three", reveals = "all three have to be met"},
  },
  source = "the review's own search (joist:longest_span) by each mode, LRFD",
  check = function(p)
    local j = wood.joist {size = p.size, wood = p.wood, span = 144, spacing = p.spacing,
      dead = p.dead, live = p.live}
    local function by(mode)
      return j:longest_span {modes = {mode}, standard = factored.standard} / 12
    end
    return {L_b = by "bending", L_v = by "deflection-live", L_t = by "deflection-total"}
  end,
}
