-- SPDX-License-Identifier: MIT
-- A full-length sister beside an old joist: sharing by E I, and what lifting does to it.
-- Statics; both members bend alike.
local joist = require "netsection.joist"
local fastener = require "netsection.fastener"
local fix = require "netsection.fix"

local function old_joist(p)
  return joist.new {mark = "Q", b = p.old_b, d = p.old_d, span = p.span, spacing = 12,
    bearing = 3.5, dead = p.dead, live = p.live, limits = false,
    material = {Fb = 1500, CF = 1, Fv = 180, E = p.old_E, G = 0.5}}
end

local function sistered(p, lift)
  return old_joist(p):fix(fix.new.sister {b = 1.5, d = p.new_d,
    material = {Fb = 1500, CF = 1, Fv = 180, E = p.new_E, G = 0.5}, lift = lift,
    pitch = 6, fastener = fastener {kind = "lag screw", diameter = "1/4 in",
      length = "3 in"}})
end

local function moment_at(points, x)
  for i = 2, #points do
    local a, b = points[i - 1], points[i]
    if a.x <= x and x <= b.x then
      local t = b.x > a.x and (x - a.x) / (b.x - a.x) or 0
      return a.M + (b.M - a.M) * t
    end
  end
end

-- Moments of both at mid-span, all loads, lb-in.
local function at_middle(p, lift)
  local members = sistered(p, lift):review():diagram().fixed.members
  return moment_at(members[1].points, p.span / 2),
    moment_at(members[2].points, p.span / 2)
end

return {
  name = "sister_share", order = 130,
  standards = {"us-nds-2018-asd", "us-nds-2018-lrfd"},
  title = "Sharing with a sister, and jacking",
  vary = {
    old_b = {1.75, 2.0}, old_d = {7.5, 7.75, 8.0}, old_E = {1.1e6, 1.2e6, 1.3e6},
    new_d = {7.25}, new_E = {1.4e6, 1.6e6, 1.7e6}, span = {132, 144, 156},
    dead = {20, 25}, live = {50, 55, 60, 65},
  },
  given = function(p)
    return {
      {"b_1", p.old_b, "in", "old joist, thickness"}, {"d_1", p.old_d, "in", "its depth"},
      {"E_1", p.old_E, "psi", "its modulus"},
      {"b_2", 1.5, "in", "sister, thickness"}, {"d_2", p.new_d, "in", "its depth"},
      {"E_2", p.new_E, "psi", "its modulus"},
      {"L", p.span / 12, "ft", "design span, both on both bearings"},
      {"w_D", p.dead, "plf", "dead load"}, {"w_L", p.live, "plf", "live load"},
    }
  end,
  question = "An old joist gets a sister of full length; fastened together, both bend "
    .. "alike. Find the shares, and the stresses for three ways to do the work: all load "
    .. "lifted off first (an idealization), nothing lifted, and one prop at mid-span "
    .. "with the force P = 5/8 w_D L, the middle reaction of two equal spans under the "
    .. "dead load.",
  steps = {
    {"I_1", "b_1*d_1^3/12", "in4", ask = "Second moment of the old joist", marks = 1,
      clause = "statics"},
    {"I_2", "b_2*d_2^3/12", "in4", ask = "Second moment of the sister", marks = 1},
    {"f", "E_1*I_1/(E_1*I_1 + E_2*I_2)", "", ask = "Share of the old joist", marks = 2},
    {"M", "(w_D + w_L)*L^2/8", "ft-lb", ask = "Moment at mid-span, all loads", marks = 1},
    {"M_1", "f*M", "ft-lb", ask = "Moment of the old joist, lifted off first", marks = 1},
    {"M_2", "(1 - f)*M", "ft-lb", ask = "Moment of the sister, lifted off first",
      marks = 1},
    {"S_1", "b_1*d_1^2/6", "in3", says = "section modulus, old"},
    {"S_2", "b_2*d_2^2/6", "in3", says = "section modulus, sister"},
    {"f_1", "12*M_1/S_1", "psi", ask = "Stress of the old joist, lifted off first",
      marks = 1},
    {"f_2", "12*M_2/S_2", "psi", ask = "Stress of the sister, lifted off first",
      marks = 1},
    {"M_D", "w_D*L^2/8", "ft-lb", says = "dead load"},
    {"M_L", "w_L*L^2/8", "ft-lb", says = "live load"},
    {"u_1", "12*(M_D + f*M_L)/S_1", "psi", marks = 2,
      ask = "Stress of the old joist, nothing lifted"},
    {"u_2", "12*(1 - f)*M_L/S_2", "psi", ask = "Stress of the sister, nothing lifted",
      marks = 1},
    {"P", "5/8*w_D*L", "lb", ask = "Force of the prop", marks = 1},
    {"M_P", "P*L/4", "ft-lb", says = "what letting the prop go puts on both"},
    {"p_1", "12*(M_D - M_P + f*(M_P + M_L))/S_1", "psi",
      ask = "Stress of the old joist at mid-span, propped while fastened", marks = 2},
    {"p_2", "12*(1 - f)*(M_P + M_L)/S_2", "psi",
      ask = "Stress of the sister at mid-span, propped while fastened", marks = 1},
    {"D_L", "5*(w_L/12)*(12*L)^4/(384*(E_1*I_1 + E_2*I_2))", "in",
      ask = "Live-load deflection of the pair", marks = 1, tolerance = 0.02},
    {"q", "(1 - f)*(w_D + w_L)", "plf", ask = "Load that the fasteners pass to the "
      .. "sister per foot, lifted off first", marks = 1},
  },
  mistakes = {
    {of = {"f", "M_1", "M_2", "f_1", "f_2"}, with = {f = "b_1*d_1/(b_1*d_1 + b_2*d_2)"},
      name = "shared by area", reveals = "members that bend alike share by E I"},
    {of = {"f", "M_1", "M_2"}, with = {f = "I_1/(I_1 + I_2)"}, name = "shared by I alone",
      reveals = "the stiffer wood draws more: E belongs to it"},
    {of = {"f", "M_1", "M_2"}, with = {f = "1/2"}, name = "shared half and half",
      reveals = "only equal members share equally"},
    {of = {"u_1"}, with = {u_1 = "12*f*(M_D + M_L)/S_1"},
      name = "the dead load shared although nothing was lifted",
      reveals = "what the old joist carried before stays in it"},
    {of = {"u_2"}, with = {u_2 = "12*(1 - f)*(M_D + M_L)/S_2"},
      name = "the dead load shared although nothing was lifted",
      reveals = "the sister takes only what comes after it is fastened"},
    {of = {"p_1"}, with = {p_1 = "12*f*M_L/S_1"},
      name = "the prop taken to leave no dead load",
      reveals = "one prop is no idealization: let go, its force bends both"},
    {of = "D_L", formula = "5*(w_L/12)*(12*L)^4/(384*E_1*I_1)",
      name = "the old joist alone",
      reveals = "live load comes on the pair"},
    {of = "D_L", formula = "5*w_L*(12*L)^4/(384*(E_1*I_1 + E_2*I_2))",
      name = "plf with inches", reveals = "w in lb per inch goes with L in inches"},
  },
  figure = function(p, _, draw)
    return draw.sections {{name = "old", b = p.old_b, d = p.old_d},
      {name = "sister", b = 1.5, d = p.new_d}}
  end,
  source = "review of the sistered joist in three states of lifting",
  check = function(p)
    local S_1, S_2 = p.old_b * p.old_d ^ 2 / 6, 1.5 * p.new_d ^ 2 / 6
    local M_1, M_2 = at_middle(p, "unloaded")
    local u_1, u_2 = at_middle(p, "none")
    local p_1, p_2 = at_middle(p, fix.prop {at = p.span / 2,
      force = 5 / 8 * p.dead * p.span / 12})
    local fixed = sistered(p, "unloaded"):review().fixed
    return {M_1 = M_1 / 12, M_2 = M_2 / 12, f_1 = M_1 / S_1, f_2 = M_2 / S_2,
      u_1 = u_1 / S_1, u_2 = u_2 / S_2, p_1 = p_1 / S_1, p_2 = p_2 / S_2,
      f = M_1 / (M_1 + M_2), D_L = fixed.deflection.live}
  end,
}
