-- SPDX-License-Identifier: MIT
-- tests/reference/straps.md: its figures worked out again, and still in its text. The
-- measured ones are those of published tests, named there.
local lu = require "luaunit"
local ns = require "netsection"

local test_straps = {}

local NOTE = "tests/reference/straps.md"

local function note()
  local file <close> = assert(io.open(NOTE))
  return (file:read "a":gsub("%s+", " "))
end

local function said(text)
  lu.assertStrContains(note(), text)
end

local E_S, A_S, L = 29e6, 1.5 / 8, 168
local WOOD = {A = 13.875, I = 1.5 * 9.25 ^ 3 / 12}

-- Gain in I of one joist where the strap works with a part gamma (parallel axes).
local function gain(gamma, n)
  local steel = gamma * n * A_S
  return steel * WOOD.A / (steel + WOOD.A) * (9.25 / 2 + 1 / 16) ^ 2
end

local function gamma_of(K)
  return 1 / (1 + math.pi ^ 2 * E_S * A_S * 6 / (K * L ^ 2))
end

-- gamma and slip modulus that give a gain, by bisection.
local function slip_for(wanted, n)
  local low, high = 1, 1e6
  for _ = 1, 200 do
    local K = (low + high) / 2
    if gain(gamma_of(K), n) < wanted then low = K else high = K end
  end
  return low, gamma_of(low)
end

function test_straps.test_nailed_strap()
  local n = 22.7
  lu.assertAlmostEquals(3 * WOOD.I, 296.8, 0.05)
  lu.assertAlmostEquals(3 * gain(1, n), 214.7, 0.2)
  lu.assertAlmostEquals((324.4 - 300.4) / (512.5 - 296.8), 0.11, 0.005)
  local K, gamma = slip_for((324.4 - 300.4) / 3, n)
  lu.assertAlmostEquals(gamma, 0.088, 5e-4)
  lu.assertAlmostEquals(K, 1100, 5)
  said "11 % of the gain [c]"
  said "the full gain is 214.7 in4 [c]"
  said "gamma = 0.088 [c]: a slip modulus of 1100 lb/in per nail [c]"
end

function test_straps.test_what_a_slip_modulus_claims()
  local K = ns.fastener.slip {fastener = ns.fastener {kind = "nail", size = "16d"},
    main = {G = 0.55}, side = {steel = "A36"}}.K
  local claimed = gamma_of(K)
  lu.assertAlmostEquals(K, 16551, 1)
  lu.assertAlmostEquals(claimed, 0.59, 0.005)
  lu.assertAlmostEquals(gain(claimed, 22.7) / gain(1, 22.7), 2 / 3, 0.02)
  lu.assertTrue(K > 10 * 1100) -- not to be promised
  said "16551 lb/in for a 16d nail in wood of G 0.55 [c]"
  said "gamma 0.59 [c], two thirds of the gain [c]"
end

-- A strap gives whole wood no stiffness: the fix never bends less than the cut joist.
function test_straps.test_no_stiffness_is_promised()
  local joist = ns.joist {mark = "D", size = "2x10", span = "14-0", spacing = 12,
    bearing = 3.5, dead = 0, live = 40, material = {Fb = 1000, Fv = 175, E = 1.6e6},
    cuts = {ns.notch {face = "bottom", from = "6-11", to = "7-1", depth = 1.5}}}
  local r = joist:fix(ns.strap {slip = 1100, n = 20, rated = "200 lb"}):review()
  lu.assertTrue(r.fixed.deflection.live >= r.uncut.deflection.live)
end

local function capacity(points)
  local least = math.huge
  for _, p in ipairs(points) do
    if p.x > 83 and p.x < 85 then least = math.min(least, p.M_cap) end
  end
  return least
end

function test_straps.test_plate_over_a_sawn_defect()
  local joist = ns.joist {mark = "D", size = "2x10", span = "14-0", spacing = 12,
    bearing = 3.5, dead = 0, live = 40, repetitive = 1, material = {Fb = 1000, Fv = 175,
    Fc = 1500, Ft = 650, E = 1.6e6}, cuts = {ns.notch {face = "bottom", from = "6-11",
    to = "7-1", depth = 9.25 / 4}}}
  local d = joist:fix(ns.strap {thickness = "1/4 in", width = "1-1/2 in", n = 20,
    steel = "A36", rated = "1000 lb", lift = "unloaded"}):review():diagram()
  local plain = capacity(d.uncut)
  lu.assertAlmostEquals(capacity(d.fixed.members[1].points) / plain, 1.50, 0.005)
  lu.assertAlmostEquals(capacity(d.cut) / plain, 0.56, 0.005)
  -- Measured 1.33 and 1.5 with other sizes: within a sixth of either.
  lu.assertTrue(1.50 / 1.331 < 7 / 6)
  said "1.50 of the plain joist's moment [c]"
  said "the notch alone 0.56 [c]"
end

function test_straps.test_lever_arms()
  local joist = ns.joist {mark = "A", size = "2x10", span = "14-0", spacing = 12,
    dead = 0,
    live = 2187.5 * 8 / 196, bearing = 3.5, material = {Fb = 2000, Fv = 180, Fc = 1500,
    E = 29.5e6 / 20.7}, cuts = {ns.hole {at = "7-0", diameter = 1.75, below = 0.75}}}
  local a = joist:fix(ns.strap {width = 1.5, thickness = "1/8 in", n = 20,
    lift = "unloaded", steel = "A653 33", rated = "300 lb"}):review().fixed
  for _, arm in ipairs(a.arms) do
    said(("| %.2f | %.0f [c] |"):format(arm.arm, arm.T))
  end
end

return test_straps
