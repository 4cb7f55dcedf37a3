-- SPDX-License-Identifier: MIT
-- Question: a teacher wants a problem that is not among the kinds, a header over a stair
-- opening that carries the tails of cut joists. How much is there to write? Expected: a
-- table of some twenty-five lines - base values, what is given, the steps as formulas,
-- the mistakes as formulas in a step's place. Sheet, key, versions and marking come with
-- it.
local ns = require "netsection"
local document = require "netsection.document"

local header = ns.homework.kind {
  name = "stair_header", title = "Header of a stair opening",
  vary = {opening = {72, 84, 96, 108}, tails = {60, 72, 84, 96, 108}, live = {30, 40}},
  given = function(p)
    return {
      {"L", p.opening / 12, "ft", "header, between the trimmers"},
      {"t", p.tails / 12, "ft", "tail joists"},
      {"D", 12, "psf", "dead load"}, {"L_L", p.live, "psf", "live load"},
    }
  end,
  question = "The tails stand on the header at one end. Take their load as spread "
    .. "evenly.",
  steps = {
    {"w", "(D + L_L)*t/2", "plf", ask = "Load per foot of header", marks = 2,
      clause = "statics"},
    {"R", "w*L/2", "lb", ask = "Load that each trimmer gets", marks = 1},
    {"M", "w*L^2/8", "ft-lb", ask = "Moment of the header", marks = 1},
  },
  mistakes = {
    {of = {"w", "R", "M"}, with = {w = "(D + L_L)*t"}, name = "the tails' whole load",
      reveals = "the other end of each tail stands on its bearing"},
    {of = "R", formula = "w*L", name = "the reaction not halved",
      reveals = "two trimmers share the header"},
  },
}

local set = ns.homework {course = "Openings", seed = "a", students = {"m1", "m2"},
  problems = {header}}
print(document.text(set:key "m1"))
local v = set:of "m1"[1]
io.write(set:mark({
  {student = "m1", problem = 1, part = "a", answer = ("%.1f"):format(2 * v.s.w)},
  {student = "m1", problem = 1, part = "b", answer = ("%.0f lb"):format(2 * v.s.R)},
}):text())
