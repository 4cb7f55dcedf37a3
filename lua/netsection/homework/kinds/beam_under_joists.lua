-- SPDX-License-Identifier: MIT
-- A beam at mid-span under joists that run on over it, between two posts under joists:
-- what a joist puts on it, its moment and shear, what the inner post takes. Statics; NDS
-- 3.3, 3.4.2.
local members = require "netsection.members"
local wood = require "netsection.homework.wood"

local function values(p) return wood.values(p.wood, p.size) end

return {
  name = "beam_under_joists", order = 180, standards = {"us-nds-2018-asd"},
  title = "Beam under joists",
  vary = {
    size = {"2x8", "2x10", "2x12"}, half = {72, 78, 81, 84, 90, 96}, spacing = {16, 24},
    dead = {10, 12, 15}, live = {30, 40}, n = {4, 5, 6},
    wood = {wood.names[1], wood.names[2], wood.names[3]},
  },
  given = function(p)
    local s, v = wood.size(p.size), values(p)
    return {
      {"", "2 plies " .. p.size .. " " .. p.wood, "", "Beam"},
      {"b", 2 * s.b, "in", "thickness, both plies"}, {"d", s.d, "in", "depth"},
      {"L_j", p.half / 12, "ft", "each of the two spans of a joist"},
      {"s", p.spacing, "in", "spacing of the joists"},
      {"n", p.n, "", "bays of joists from post to post, a joist over each post"},
      {"D", p.dead, "psf", "dead load"}, {"L_L", p.live, "psf", "live load"},
      {"F_b'", v.Fb * v.CF, "psi", "adjusted value in bending"},
      {"F_v'", v.Fv, "psi", "adjusted value in shear"},
    }
  end,
  question = "A beam is set under the middle of a floor; its joists run on over it in "
    .. "two equal spans. The beam is in simple pieces from post to post, and goes on "
    .. "alike on both sides. Take all load on all spans and the beam as rigid under "
    .. "the joists.",
  suits = function(_, s)
    if s.ratio < 0.2 or s.ratio > 1.6 then return nil end
    return s.ratio_v > s.ratio_b and "shear governs" or "bending governs"
  end,
  modes = {"bending governs", "shear governs"},
  steps = {
    {"w", "(D + L_L)*s/12", "plf", ask = "Load per foot of joist", marks = 1,
      clause = "statics"},
    {"R", "10/8*w*L_j", "lb", ask = "What one joist puts on the beam", marks = 2,
      hint = "two equal spans: 3/8, 10/8, 3/8 of w L"},
    {"l", "n*s/12", "ft", says = "from post to post"},
    {"V", "(n - 1)*R/2", "lb", ask = "Shear of one piece beside its post", marks = 2,
      hint = "the joist over the post does not go through the beam"},
    {"m", "floor(n/2)", "", says = "joists to one side, the middle one too"},
    {"M", "V*m*s/12 - R*s/12*m*(m - 1)/2", "ft-lb", ask = "Largest moment of one piece",
      marks = 3},
    {"S", "b*d^2/6", "in3", says = "section modulus"},
    {"f_b", "12*M/S", "psi", ask = "Bending stress", marks = 1, clause = "NDS 3.3.2"},
    {"f_v", "1.5*V/(b*d)", "psi", ask = "Shear stress", marks = 1, clause = "NDS 3.4.2"},
    {"ratio_b", "f_b/F_b'", "", says = "bending"},
    {"ratio_v", "f_v/F_v'", "", says = "shear"},
    {"ratio", "max(ratio_b, ratio_v)", "", ask = "Largest ratio of the beam", marks = 1},
    {"P", "2*V + R", "lb", ask = "What an inner post takes", marks = 2,
      hint = "two pieces of beam and the joist over it"},
  },
  edge = {"ratio"},
  mistakes = {
    {of = {"R", "V", "M", "P"}, with = {R = "w*L_j"}, name = "joists as simple spans",
      reveals = "a joist that runs on presses a fourth harder on its middle support"},
    {of = {"V", "M", "f_v"}, with = {V = "n*R/2"}, name = "joists over posts counted",
      reveals = "what stands over a post goes into the post, not through the beam"},
    {of = "P", formula = "V + R", name = "one piece of beam only",
      reveals = "an inner post takes the ends of two pieces"},
    {of = {"M", "f_b"}, with = {M = "(n - 1)*R*l/8"}, name = "load taken as uniform",
      reveals = "with a joist over each post the points in between do more"},
  },
  figure = function(p, _, draw)
    return draw.plan {L = 2 * p.half / 12, left = p.spacing, right = p.spacing}
  end,
  source = "state of the beam as a member, its loads by the beam solver",
  check = function(p)
    local s, core = wood.size(p.size), require "netsection.core"
    local w = p.spacing / 144 * (p.dead + p.live)
    local R = core.beam {spans = {p.half, p.half}, EI = 1e8, loads = {{from = 0,
      to = 2 * p.half, w1 = w}}}:reactions()[2]
    local loads = {}
    for i = 0, 2 * p.n do loads[i + 1] = {at = i * p.spacing, live = R} end
    local v = values(p)
    local a = members.new.beam_line {b = s.b, d = s.d, plies = 2, material = {Fb = v.Fb,
      CF = v.CF, Fv = v.Fv, E = v.E, Emin = v.Emin}, loads = loads,
      posts = {0, p.n * p.spacing, 2 * p.n * p.spacing}}:review()
    local found = {R = R, P = a.posts[2].D + a.posts[2].L}
    for _, k in ipairs(a.checks) do
      if k.mode == "bending" then found.M = k.demand / 12 end
      if k.mode == "shear" then found.V = k.demand end
    end
    return found
  end,
}
