-- SPDX-License-Identifier: MIT
-- The longest span of an uncut joist: by bending, by live-load and by total deflection.
-- NDS 3.3.2, IRC Table R301.7.
local wood = require "netsection.homework.wood"

return {
  name = "allowable_span", order = 50, standards = {"us-nds-2018-asd"},
  title = "Allowable span",
  vary = {
    size = {"2x6", "2x8", "2x10", "2x12"}, spacing = {12, 13.7, 16, 19.2, 24},
    dead = {8, 10, 12, 15, 18, 20}, live = {30, 40, 50, 60}, wood = wood.names,
  },
  given = function(p)
    local s, v = wood.size(p.size), wood.values(p.wood, p.size)
    return {
      {"", p.size .. " " .. p.wood, "", "Joist"},
      {"b", s.b, "in", "thickness"}, {"d", s.d, "in", "depth"},
      {"s", p.spacing, "in", "spacing"},
      {"D", p.dead, "psf", "dead load"}, {"L_L", p.live, "psf", "live load"},
      {"F_b", v.Fb, "psi", "reference value in bending"},
      {"C_F", v.CF, "", "size factor"}, {"C_r", 1.15, "", "repetitive factor"},
      {"E'", v.E, "psi", "modulus"},
    }
  end,
  question = "How far may this joist span? By bending, by live-load deflection of L/360 "
    .. "and by total deflection of L/240. Shear and bearing do not govern here.",
  modes = {"bending decides", "live deflection decides"},
  suits = function(_, s)
    local least = math.min(s.L_b, s.L_v, s.L_t)
    local other = s.mode == "bending" and math.min(s.L_v, s.L_t) or math.min(s.L_b, s.L_t)
    if s.L_t <= math.min(s.L_b, s.L_v) or other / least < 1.02
      or least < 6 or least > 24 then
      return nil
    end
    return s.mode == "bending" and "bending decides" or "live deflection decides"
  end,
  steps = {
    {"w", "(D + L_L)*s/12", "plf", ask = "Load per foot of joist", marks = 1,
      clause = "statics"},
    {"S", "b*d^2/6", "in3", ask = "Section modulus", marks = 1},
    {"I", "b*d^3/12", "in4", ask = "Second moment", marks = 1},
    {"F_b'", "F_b*C_F*C_r", "psi", ask = "Adjusted value in bending", marks = 1,
      clause = "NDS 4.3.1"},
    {"L_b", "sqrt(8*F_b'*S/(12*w))", "ft", ask = "Span by bending", marks = 2,
      clause = "NDS 3.3.2"},
    {"w_L", "L_L*s/12", "plf", says = "live load per foot"},
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
      ask = "Allowable span, rounded down to an inch", marks = 1, tolerance = 0.01},
  },
  mistakes = {
    {of = {"F_b'", "L_b"}, with = {["F_b'"] = "F_b*C_F"},
      name = "the repetitive factor left out",
      reveals = "joists at 24 in or less under a deck: 1.15"},
    {of = {"L_v"}, with = {L_v = "cbrt(384*E'*I/(5*360*w/12))/12"},
      name = "all load with L/360", reveals = "L/360 is for live load alone"},
    {of = {"L_t"}, with = {L_t = "cbrt(384*E'*I/(5*360*w/12))/12"},
      name = "the limit of live load on the total", reveals = "the total has L/240"},
    {of = {"L_b"}, with = {L_b = "sqrt(8*F_b'*S/w)"}, name = "inches and feet mixed",
      reveals = "F_b'*S is in lb-in, w in lb per foot"},
    {of = {"S", "L_b"}, with = {S = "2*ceil(d)^2/6"}, name = "nominal sizes",
      reveals = "sections are of dressed sizes"},
    {of = {"I", "L_v", "L_t"}, with = {I = "2*ceil(d)^3/12"}, name = "nominal sizes",
      reveals = "sections are of dressed sizes"},
    {of = "L_a", formula = "floor(12*max(L_b, max(L_v, L_t)))",
      name = "the largest of the three", reveals = "all three have to be met"},
  },
  figure = function(p, s, draw)
    return draw.sections {{name = p.size, b = s.b, d = s.d}}
  end,
  source = "the review's own search (joist:longest_span) by each mode",
  check = function(p)
    local j = wood.joist {size = p.size, wood = p.wood, span = 144, spacing = p.spacing,
      dead = p.dead, live = p.live}
    local function by(mode) return j:longest_span {modes = {mode}} / 12 end
    return {L_b = by "bending", L_v = by "deflection-live", L_t = by "deflection-total"}
  end,
}
