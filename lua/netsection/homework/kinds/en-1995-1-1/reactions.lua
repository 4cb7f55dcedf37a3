-- SPDX-License-Identifier: MIT
-- Reactions of a simple joist under the floor and a post. Statics.
local core = require "netsection.core"
local point = require "netsection.point"

return {
  name = "reactions", order = 20, standards = {"en-1995-1-1"}, units = "metric",
  title = "Reactions of a joist",
  vary = {
    span = {3000, 3300, 3600, 4000, 4400, 4800}, place = {900, 1050, 1200, 1350, 1500},
    load = {0.8, 0.95, 1.1, 1.25}, post = {1.2, 1.6, 2.0, 2.4, 3.0},
  },
  given = function(p)
    return {
      {"L", p.span / 1000, "m", "design span, A to B"},
      {"w", p.load, "kN/m", "floor load, all along"},
      {"P", p.post, "kN", "load of a post"},
      {"a", p.place / 1000, "m", "from A to the post"},
    }
  end,
  question = "A joist carries its floor and a post that somebody stood on it; both are "
    .. "design loads. Find the reactions; check them by the sum of all loads.",
  suits = function(p) return p.place <= 0.42 * p.span end,
  steps = {
    {"R_w", "w*L/2", "kN", ask = "Reaction of each bearing to the floor load alone",
      marks = 1, clause = "statics"},
    {"R_PB", "P*a/L", "kN", ask = "Reaction at B to the post alone", marks = 2,
      hint = "moments about A"},
    {"R_PA", "P - R_PB", "kN", ask = "Reaction at A to the post alone", marks = 1},
    {"R_A", "R_w + R_PA", "kN", ask = "Reaction at A", marks = 1},
    {"R_B", "R_w + R_PB", "kN", ask = "Reaction at B", marks = 1},
    {"M_P", "R_A*a - w*a^2/2", "kN m", ask = "Moment under the post", marks = 2},
  },
  mistakes = {
    {of = "R_w", formula = "w*L", name = "the floor load not halved",
      reveals = "two bearings share the load of a simple span"},
    {of = {"R_PB", "R_PA", "R_A", "R_B"}, with = {R_PB = "P*(L - a)/L"},
      name = "the post's two reactions exchanged",
      reveals = "the nearer bearing gets more of a load"},
    {of = {"R_PB", "R_PA", "R_A", "R_B"}, with = {R_PB = "P/2"},
      name = "the post shared half and half",
      reveals = "that holds at mid-span only; take moments about a bearing"},
    {of = "M_P", formula = "R_A*a", name = "the floor load left of the post forgotten",
      reveals = "everything on the part that was cut off turns it"},
  },
  figure = function(p, _, draw)
    return draw.loads {L = p.span / 1000, w = point.format("%g kN/m", p.load), unit = "m",
      points = {{p.place / 1000, point.format("%g kN", p.post)}}}
  end,
  source = "the beam solver (force method) under the same loads",
  check = function(p)
    local b = core.beam {spans = {p.span / 1000}, EI = 1, loads = {
      {from = 0, to = p.span / 1000, w1 = p.load, w2 = p.load, case = "dead"},
      {at = p.place / 1000, P = p.post, case = "dead"}}}
    local R = b:reactions()
    return {R_A = R[1], R_B = R[2], M_P = b:at(p.place / 1000).M}
  end,
}
