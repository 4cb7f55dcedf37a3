-- SPDX-License-Identifier: MIT
-- Rows for tests/exact.py: random joists with one hole, and corners where digits are lost
-- (a lip of a hair, a span at its bounds), with what the module makes of them, in hex;
-- then as many random beams of one and two spans, of which a stretch is notched, under
-- an even load, a load on a stretch and one at a point.
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

---------------------------------------------------------------------------------- beams

local OF_BEAMS = {"R1", "R2", "R3", "M1", "M2", "M3", "y1", "y2", "y3"}
io.write("beams\n", "L1,L2,EI,from,to,EI_n,w,a,b,q,at,P,x1,x2,x3,",
  table.concat(OF_BEAMS, ","), "\n")

local function beam_row(L1, L2, EI, from, to, EI_n, w, a, b, q, at, P, x)
  local two = L2 > 0
  local beam = ns.beam {spans = two and {L1, L2} or {L1},
    EI = {{from = 0, to = from, EI = EI}, {from = from, to = to, EI = EI_n},
      {from = to, to = L1 + L2, EI = EI}},
    loads = {{from = 0, to = L1 + L2, w1 = w, w2 = w}, {from = a, to = b, w1 = q, w2 = q},
      {at = at, P = P}}}
  local R = beam:reactions()
  local out = {L1, L2, EI, from, to, EI_n, w, a, b, q, at, P, x[1], x[2], x[3],
    R[1], R[2], R[3] or false}
  for _, place in ipairs(x) do out[#out + 1] = beam:at(place).M end
  for _, place in ipairs(x) do out[#out + 1] = beam:at(place).deflection end
  for i = 1, 24 do out[i] = hex(out[i]) end
  io.write(table.concat(out, ","), "\n")
end

-- Two places of a length, in order, a part of it apart at least.
local function stretch(L, part)
  local from = between(0.02, 0.9 - part) * L
  return from, from + between(part, 0.95 - from / L) * L
end

for i = 1, N do
  local L1, L2 = between(60, 240), i % 2 == 0 and between(60, 240) or 0
  if i % 20 == 0 then L2 = L1 / 10 end                       -- a span that lifts
  local L = L1 + L2
  local E, bb, d = between(5e5, 2.5e6), between(0.75, 6), between(4, 20)
  local from, to = stretch(L, 0.03)
  local depth = i % 10 == 0 and 0.98 or between(0.1, 0.6)    -- all but through
  local EI = E * bb * d ^ 3 / 12
  local a, b = stretch(L, 0.05)
  beam_row(L1, L2, EI, from, to, EI * (1 - depth) ^ 3, between(0.5, 8), a, b,
    between(0.5, 20), between(0.1, 0.9) * L, between(50, 2000),
    {between(0.05, 0.3) * L, between(0.35, 0.6) * L, between(0.65, 0.95) * L})
end
