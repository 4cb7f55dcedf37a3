-- SPDX-License-Identifier: MIT
-- Rows for tests/exact.py: random joists with one hole, and corners where digits are lost
-- (a lip of a hair, a span at its bounds), with what the module makes of them, in hex.
--   lua tests/exact.lua N SEED | python3 tests/exact.py
local ns = require "netsection"
local support = require "tests.support"

local N = tonumber(arg[1] or 1000)
local random = support.random(tonumber(arg[2] or 50))

local NAMES = {"moment", "shear", "live", "A", "y_b", "I", "S_b", "S_t"}
io.write("L,b,d,s,D,Lp,x,Dh,below,E,", table.concat(NAMES, ","), "\n")

local function hex(x) return x and ("%a"):format(x) or "" end

local function row(L, b, d, s, D, Lp, x, Dh, below, E)
  local j = ns.joist {mark = "J", b = b, d = d, span = L, spacing = s, dead = D,
    live = Lp, bearing = 3.5, material = {Fb = 900, Ft = 450, Fv = 150, Fc_perp = 400,
      Fc = 1100, E = E, Emin = E / 3, G = 0.5, CF = 1},
    cuts = {ns.hole {at = x, diameter = Dh, below = below}}}
  local r = j:review()
  local n = ns.section {b = b, d = d, y1 = below, y2 = below + Dh}
  local out = {L, b, d, s, D, Lp, x, Dh, below, E, r.uncut.moment, r.uncut.shear,
    r.uncut.deflection.live, n.A, n.y_b, n.I, n.S_b, n.S_t}
  for i = 1, 18 do out[i] = hex(out[i]) end
  io.write(table.concat(out, ","), "\n")
end

local function between(a, b) return random:real(a, b) end

for i = 1, N do
  local d = between(4, 20)
  local Dh = between(0.2, 0.6) * d
  local below = between(0.05, 0.95) * (d - Dh)
  if i % 20 == 0 then below = 1e-3 + 1e-9 * i end          -- a lip of a hair
  -- L over D/9, so that D+L governs over D with its duration factor of 0.9
  local D = between(1, 60)
  local L = i % 25 == 0 and (i % 2 == 0 and 24 or 480) or between(60, 300)
  row(L, between(0.75, 6), d, between(8, 48), D, between(0.2, 3) * D,
    between(0.2, 0.8) * L, Dh, below, between(5e5, 2.5e6))
end
