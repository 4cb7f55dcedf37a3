-- SPDX-License-Identifier: MIT
-- Reactions of a simple joist under the floor and a post. Statics.
local post = require "netsection.homework.post"

return {
  name = "reactions", order = 20,
  standards = {"us-nds-2018-asd", "us-nds-2018-lrfd"},
  title = "Reactions of a joist",
  vary = {
    span = {120, 132, 144, 156, 168, 180}, place = {36, 42, 48, 54, 60},
    load = {50, 60, 70, 80}, post = {300, 400, 450, 500, 600},
  },
  given = post.given,
  question = "A joist carries its floor and a post that somebody stood on it. Find the "
    .. "reactions; check them by the sum of all loads.",
  suits = function(p) return p.place <= 0.42 * p.span end,
  steps = {
    {"R_w", "w*L/2", "lb", ask = "Reaction of each bearing to the floor load alone",
      marks = 1, clause = "statics"},
    {"R_PB", "P*a/L", "lb", ask = "Reaction at B to the post alone", marks = 2,
      hint = "moments about A"},
    {"R_PA", "P - R_PB", "lb", ask = "Reaction at A to the post alone", marks = 1},
    {"R_A", "R_w + R_PA", "lb", ask = "Reaction at A", marks = 1},
    {"R_B", "R_w + R_PB", "lb", ask = "Reaction at B", marks = 1},
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
    {of = {"R_A", "R_B"}, with = {R_A = "R_PA + w*L", R_B = "R_PB + w*L"},
      name = "the whole floor load at each bearing",
      reveals = "the two reactions would come to more than the load"},
  },
  figure = post.figure,
  source = "the beam solver (force method) under the same loads",
  check = function(p)
    local R = post.beam(p):reactions()
    return {R_A = R[1], R_B = R[2]}
  end,
}
