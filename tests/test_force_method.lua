-- SPDX-License-Identifier: MIT
-- Forces and sag of two spans, and forces of the rows of a severed joist's sister, beside
-- the same by the force method in plain Lua (bench_spans.lua, bench_halves.lua: textbook
-- statics that take nothing of the module), to 1e-12. The bench compares 200 of each.
local beams = require "tests.bench_beams"
local lu = require "luaunit"
local ns = require "netsection"

local T = {}

local function real(low, high)
  return low + (high - low) * math.random()
end

-- A joist with a hole, a notch in the top and a slot, anywhere along it.
local function describe()
  local d, span = real(7, 12), real(120, 240)
  local a, b, c = real(6, span - 6), real(0, span - 9), real(0, span - 9)
  return {b = real(1.5, 3), d = d, span = span, spacing = real(12, 24), bearing = 3.5,
    dead = real(5, 20), creep = real(1, 1.5), material = {Fb = 900, Fv = 180,
      E = real(1e6, 2e6), Emin = 580000, Ft = 500, Fc = 1300, Fc_perp = 600},
    cuts = {ns.hole {at = a, diameter = real(1, d / 3)},
      ns.notch {face = "top", from = b, to = b + real(1, 8), depth = real(0.25, d / 6)},
      ns.slot {from = c, to = c + real(2, 8), height = real(1, d / 4)}}}
end

function T.test_two_spans()
  math.randomseed(5)
  lu.assertTrue(beams.compare_spans(describe, 25) < 1e-12)
end

function T.test_rows_of_a_severed_joist()
  math.randomseed(6)
  lu.assertTrue(beams.compare_halves(25) < 1e-12)
end

return T
