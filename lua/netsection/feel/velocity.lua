-- SPDX-License-Identifier: MIT
-- Velocity of a floor after an impulse of 1 N s: EN 1995-1-1, 7.3.3, formula read; for a
-- floor of rectangular plan on four bearing edges, joists of one span, no live load in
-- its mass.
--   v = 4 (0.4 + 0.6 n40)/(m b l + 200), m/(N s2)
--   n40 = {((40/f)^2 - 1) (b/l)^4 (EI)_l/(EI)_b}^0.25
--   v <= b_v^(f zeta - 1)
-- with m kg/m2, b the width and l the span in m, (EI)_l along and (EI)_b across in
-- N m2/m, zeta the damping, and b_v by the curve over the deflection a under 1 kN.
local core = require "netsection.core"
local lines = require "netsection.grid.lines"
local mesh = require "netsection.grid.mesh"

local velocity = {}

local M, NEWTON, KG = 0.0254, 4.4482216, 0.45359237    -- of an inch, a lb, a lb of mass

-- Beyond this the spans of a floor are not one, of the longest.
local ALIKE = 0.01

-- What the formula asks of a floor; nil where it is no such floor: one span throughout,
-- no overhangs, two joists at least, a deck that bends across.
-- @param list lines of a grid, uncut; @param across EI of the deck, lb-in2 per ft
-- @return {m =, b =, l =, along =, across =} in kg, m, N m2/m
function velocity.floor(list, across, edges)
  local n, mass, EI, least, most = #list, 0, 0, math.huge, 0
  if n < 2 or across <= 0 then return nil end
  for _, line in ipairs(list) do
    local m = line.m
    if #m.span > 1 or m.overhang_left > 0 or m.overhang_right > 0 then return nil end
    least, most = math.min(least, m.span[1]), math.max(most, m.span[1])
    mass = mass + mesh.total(lines.loads(line, {dead = true}, edges))
    EI = EI + line.stretches[1].EI / n
  end
  local b = list[n].y - list[1].y
  if least < most * (1 - ALIKE) or mass <= 0 then return nil end
  local b_m, l_m = b * M, most * M
  return {m = mass * KG / (b_m * l_m), b = b_m, l = l_m,
    along = EI * NEWTON * M ^ 2 / (b_m / (n - 1)),
    across = across * NEWTON * M ^ 2 / (12 * M)}
end

--- v in m/(N s2); nil from 40 Hz on, where no mode is counted.
-- @param t of velocity.floor; @param f Hz
function velocity.of(t, f)
  if f >= 40 then return nil end
  local n40 = core.power(((40 / f) ^ 2 - 1) * (t.b / t.l) ^ 4 * t.along / t.across, 0.25)
  return 4 * (0.4 + 0.6 * n40) / (t.m * t.b * t.l + 200)
end

--- The limit b_v^(f zeta - 1); nil beyond the end of the curve. Stiffer floors than its
-- beginning are held to its first value.
-- @param curve {{a in mm, b_v}, ...} rising; @param a deflection under 1 kN, mm
function velocity.limit(curve, a, f, zeta)
  local b = curve[1][2]
  if a > curve[#curve][1] then return nil end
  for i = 2, #curve do
    local p, q = curve[i - 1], curve[i]
    if a >= p[1] and a <= q[1] then
      b = p[2] + (q[2] - p[2]) * (a - p[1]) / (q[1] - p[1])
    end
  end
  return core.power(b, f * zeta - 1)
end

return velocity
