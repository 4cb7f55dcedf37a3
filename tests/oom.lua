-- SPDX-License-Identifier: MIT
-- What `make oom` runs again and again, each part with less memory (see host.c): a joist
-- from its description to everything that can be read of it, a beam, a batch, a repair.
local core = require "netsection.core"
local ns = require "netsection"

local function description()
  return {
    mark = "J1", size = "2x10", species = "douglas fir-larch", grade = "No.2",
    span = "3.8 m", overhang_right = "1-6", spacing = 16, bearing = {3.5, "89 mm"},
    dead = "12 psf", live = 40, blocking = {"6-0"},
    cuts = {
      ns.hole {at = "5-2", diameter = 3, below = 2},
      ns.slot {from = "3-0", to = "3-8", height = 3, above = 2.5},
      ns.end_notch {support = "left", face = "bottom", depth = 1.5, length = 3.5},
      ns.loss {from = "8-0", to = "9-0", bottom = 0.25, cause = "char"},
    },
    loads = {ns.point {at = "4-0", load = "300 lb"},
      ns.line {from = "2-0", to = "6-0", load = "40 plf", case = "dead"}},
  }
end

-- Reads every check with its steps and their inputs, so that all of them are made.
local function read_checks(review)
  local lines = 0
  for _, state in ipairs {"uncut", "cut"} do
    for _, check in ipairs(review[state].checks) do
      for _, step in ipairs(check.steps) do
        lines = lines + (step.formula and next(step.inputs) and 1 or 0)
      end
    end
  end
  assert(lines > 0, "no steps")
end

local function solve_beam()
  local beam = core.beam {spans = {100, 120}, EI = 1e7, hinges = {{at = 40}},
    loads = {{from = 0, to = 220, w1 = 3, case = "live"}, {at = 60, P = 90}}}
  assert(beam:at(50).M and beam:envelope(50).M_max and beam:extremes().M_max)
  assert(#beam:reactions() == 3 and beam:reaction_range(2))
end

local function run_sweep(joist)
  local s = ns.sweep {joist = joist, over = {spacing = {12, 16},
    grade = {"No.1", "No.2"}}, values = {"ratio", "governing"}, threads = 2,
    progress = false}
  assert(s:at {spacing = 16, grade = "No.2"}.ratio)
  for row in s:rows() do assert(row.governing) end
end

-- A joist, its sister, and what is read of the two.
local function notched_joist()
  return ns.joist {mark = "J2", size = "2x10", species = "douglas fir-larch",
    grade = "No.2", span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
    cuts = {ns.notch {face = "bottom", from = "6-0", to = "6-4", depth = 2.5}}}
end

local function fix(joist)
  local sister = ns.sister {from = "3-0", to = "10-0", pitch = 40, per_row = 1,
    rated = "900 lb"}
  return joist:fix(sister):review()
end

local function repaired() return fix(notched_joist()) end

local function read_repair(review)
  assert(not review.fixed.refused and #review.fixed.pieces > 0)
  assert(#review.fixed.checks[1].steps > 0)
end

local function floor_joist() return ns.joist(description()) end

local function reviewed() return floor_joist():review() end

-- The host starves each part on its own, since the work grows with the square of its
-- requests. `make` is called with memory to spare; what it gives goes to `run`, which
-- ends in an error of memory or not at all: a pcall must not hide what fails here.
return {
  {name = "description", run = floor_joist},
  {name = "problems", run = function()
    assert(#ns.problems {size = "2x10", span = "1-0"} > 0)
  end},
  {name = "changed joist", make = floor_joist, run = function(joist)
    assert(#joist:with({live = "60 psf"}).description.cuts > 0)
  end},
  {name = "review", make = floor_joist, run = function(joist)
    assert(joist:review().action)
  end},
  {name = "checks", make = reviewed, run = read_checks},
  {name = "diagram", make = reviewed, run = function(review)
    assert(#review:diagram().cut > 0)
  end},
  {name = "beam", run = solve_beam},
  {name = "sweep", make = floor_joist, run = run_sweep},
  {name = "repair", make = notched_joist, run = fix},
  {name = "repaired checks", make = repaired, run = read_repair},
}
