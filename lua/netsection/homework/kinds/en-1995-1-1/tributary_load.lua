-- SPDX-License-Identifier: MIT
-- Load path: how much of the floor one joist carries, and its design load. Statics; EN
-- 1990 eq. 6.10.
local core = require "netsection.core"

return {
  name = "tributary_load", order = 10, standards = {"en-1995-1-1"}, units = "metric",
  title = "Tributary load of a joist",
  vary = {
    left = {300, 350, 400, 450, 500}, right = {330, 375, 440, 480, 520},
    span = {3200, 3600, 4000, 4400}, cover = {0.15, 0.25, 0.4}, ceiling = {0.12, 0.2},
    live = {1.5, 2.0},
  },
  given = function(p)
    return {
      {"L", p.span / 1000, "m", "design span"},
      {"s_1", p.left, "mm", "to the next joist on the left"},
      {"s_2", p.right, "mm", "to the next joist on the right"},
      {"G_1", p.cover, "kN/m2", "floor covering and deck"},
      {"G_2", 0.2, "kN/m2", "joists and blocking"},
      {"G_3", p.ceiling, "kN/m2", "ceiling below"},
      {"Q", p.live, "kN/m2", "imposed load of the room"},
    }
  end,
  question = "An old floor with uneven spacing: the joists to both sides of the one in "
    .. "question stand at different distances. Find what it carries, with 1.35 on "
    .. "permanent and 1.5 on imposed load.",
  steps = {
    {"t", "(s_1 + s_2)/2/1000", "m", ask = "Width of floor that the joist carries",
      marks = 2, clause = "statics", hint = "half of each bay belongs to this joist"},
    {"g_k", "(G_1 + G_2 + G_3)*t", "kN/m", ask = "Permanent load per meter of joist",
      marks = 2},
    {"q_k", "Q*t", "kN/m", ask = "Imposed load per meter of joist", marks = 1},
    {"p_d", "1.35*g_k + 1.5*q_k", "kN/m", ask = "Design load per meter of joist",
      marks = 2, clause = "EN 1990 eq. 6.10"},
    {"A_t", "t*L", "m2", ask = "Area of floor that it carries", marks = 1},
    {"R_d", "p_d*L/2", "kN", ask = "Design reaction at each bearing", marks = 1},
    {"M_d", "p_d*L^2/8", "kN m", ask = "Design moment at mid-span", marks = 1},
  },
  mistakes = {
    {of = {"t", "g_k", "q_k", "p_d", "A_t", "R_d", "M_d"},
      with = {t = "(s_1 + s_2)/1000"}, name = "both bays taken whole",
      reveals = "the joists beside it carry the other half of each bay"},
    {of = {"t", "g_k", "q_k", "p_d"}, with = {t = "s_1/1000"},
      name = "spacing of one side only",
      reveals = "the two bays differ; take half of each"},
    {of = {"g_k", "p_d"}, with = {g_k = "G_1*t"},
      name = "only the floor covering taken as permanent load",
      reveals = "joists and ceiling hang on the joist too"},
    {of = {"p_d", "R_d", "M_d"}, with = {p_d = "g_k + q_k"},
      name = "loads without factors",
      reveals = "strength is checked with factored loads: 1.35 and 1.5"},
    {of = "R_d", formula = "p_d*L", name = "the reaction not halved",
      reveals = "two bearings share the load of a simple span"},
  },
  figure = function(p, _, draw)
    return draw.plan {L = p.span / 1000, left = p.left, right = p.right, unit = "m"}
  end,
  source = "the beam solver (force method) under the load per meter",
  check = function(p)
    local t = (p.left + p.right) / 2000
    local w = t * (1.35 * (p.cover + 0.2 + p.ceiling) + 1.5 * p.live)
    local b = core.beam {spans = {p.span / 1000}, EI = 1, loads = {{from = 0,
      to = p.span / 1000, w1 = w, w2 = w, case = "dead"}}}
    local R = b:reactions()
    return {R_d = R[1], M_d = b:extremes().M_max.value,
      p_d = (R[1] + R[2]) / p.span * 1000}
  end,
}
