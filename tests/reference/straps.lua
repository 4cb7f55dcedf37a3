-- SPDX-License-Identifier: MIT
-- A strap under a joist, for straps.md: what the module says of it beside two forms that
-- share nothing with it, and what tests measured.
-- From the root of the repository, each figure in its sentence:
--   LUA_PATH='lua/?.lua;lua/?/init.lua;;' LUA_CPATH='lua/?.so;;' \
--     lua5.4 tests/reference/straps.lua
-- The two forms, both for a strap on wood that is whole:
--   gamma    EN 1995-1-1 Annex B: the strap's area counts by gamma, the joist's in full
--   springs  joist and strap as elastic bars, each fastener a spring between them; the
--            unknowns are the strap's forces between fasteners (least energy)
-- And for a strap over a cut the cracked section by halving, from its two balances.
-- Units: in, lb, psi. x from the left bearing, whole inches.
local ns = require "netsection"

local S = {}

-- Nailed strap: the discussion page on ADA013987 (second hand). Plate with bolted ends:
-- Kriegl, Blaquiere, Svecova. Screwed plate: J. Sichuan Univ. 44(5), 2012. Abstracts.
S.measured = {
  nailed = {I_alone = 296.8, I_full = 512.5, plain = 300.4, strapped = 324.4},
  bolted = {plated = 1.468, defect = 1.331, sag = 1 - 0.195, stiffness = 1.5},
  screwed = {least = 1.16, mean = 1.50, most = 1.79, stiffness = 1.30},
}

local E_S, SPAN = 29e6, 168
local nailed = S.measured.nailed

-- Root of a rising function by halving.
function S.solve(f, low, high)
  for _ = 1, 200 do
    local middle = (low + high) / 2
    if f(middle) < 0 then low = middle else high = middle end
  end
  return (low + high) / 2
end

-------------------------------------------------------------------- strap on whole wood

-- A 2x10 with a strap 1-1/2 in wide.
function S.pair(E, t)
  local b, d = 1.5, 9.25
  return {E = E, b = b, d = d, t = t, A = b * d, I = b * d ^ 3 / 12, A_s = 1.5 * t,
    a = (d + t) / 2}
end

-- Second moment won where the part gamma of the strap's area counts.
function S.gain(p, gamma)
  local steel = gamma * E_S / p.E * p.A_s
  return steel * p.A / (steel + p.A) * p.a ^ 2
end

-- EN 1995-1-1 (B.5), fasteners at s.
function S.gamma(p, K, s)
  return 1 / (1 + math.pi ^ 2 * E_S * p.A_s * s / (K * SPAN ^ 2))
end

local function moment(load, x)
  if x <= 0 or x >= SPAN then return 0 end
  if load == "uniform" then return x * (SPAN - x) / 2 end
  return math.min(x, SPAN / 3, SPAN - x)
end

local function unit_moment(x) -- of a unit load at mid-span
  return math.max(0, math.min(x, SPAN - x) / 2)
end

-- Simpson by the inch: exact, as loads change at whole inches.
local function integral(f, from, to)
  local sum = 0
  for x = from, to - 1 do sum = sum + (f(x) + 4 * f(x + 0.5) + f(x + 1)) / 6 end
  return sum
end

-- Forces of the strap between fasteners: one row of slip balance for each interval.
local function strap_forces(p, at, K, load)
  local diagonal, right, force = {}, {}, {}
  local n = #at - 1
  for i = 1, n do
    local s = at[i + 1] - at[i]
    local give = 1 / (E_S * p.A_s) + 1 / (p.E * p.A) + p.a ^ 2 / (p.E * p.I)
    diagonal[i] = s * give + 2 / K
    right[i] = p.a / (p.E * p.I) * integral(function(x) return moment(load, x) end,
      at[i], at[i + 1])
    if i > 1 then
      local w = 1 / (K * diagonal[i - 1])
      diagonal[i] = diagonal[i] - w / K
      right[i] = right[i] + w * right[i - 1]
    end
  end
  for i = n, 1, -1 do
    force[i] = (right[i] + (force[i + 1] or 0) / K) / diagonal[i]
  end
  return force
end

-- Second moment, read from the sag at mid-span, that fasteners at 'at' of K give.
function S.springs(p, at, K, load)
  local force = strap_forces(p, at, K, load)
  local alone = integral(function(x) return moment(load, x) * unit_moment(x) end, 0,
    SPAN)
  local less = 0
  for i, N in ipairs(force) do
    less = less + p.a * N * integral(unit_moment, at[i], at[i + 1])
  end
  return p.I * alone / (alone - less)
end

-- Nails at 6 in from 'past' before one bearing to 'past' after the other.
function S.nails(past)
  local at = {}
  for x = 3 - past, SPAN + past - 3, 6 do at[#at + 1] = x end
  return at
end

-- The joist of the nailed tests: E such that a strap without slip gives I_full.
function S.tested()
  local gain = (nailed.I_full - nailed.I_alone) / 3
  local n = S.solve(function(n) return S.gain(S.pair(E_S / n, 1 / 8), 1) - gain end, 1,
    100)
  return S.pair(E_S / n, 1 / 8), n
end

-- Slip modulus that gives the gain measured: by gamma, and by springs.
function S.slip_of_the_test(gain, past)
  local p = S.tested()
  local by_gamma = S.solve(function(K) return S.gain(p, S.gamma(p, K, 6)) - gain end, 1,
    1e6)
  local by_springs = S.solve(function(K)
    return S.springs(p, S.nails(past), K, "uniform") - p.I - gain
  end, 1, 1e6)
  return by_gamma, by_springs
end

-- What a slip modulus claims: part of the area, parts of the gain by either form.
function S.claims(K)
  local p = S.tested()
  local gamma, full = S.gamma(p, K, 6), S.gain(p, 1)
  return gamma, S.gain(p, gamma) / full,
    (S.springs(p, S.nails(0), K, "uniform") - p.I) / full
end

------------------------------------------------------------------------- cracked section

-- Depth in compression and arm, by the balance of wood and steel with plane sections.
function S.cracked(p)
  local d_s = p.d + p.t / 2
  local c = S.solve(function(c)
    local strain = 1e-3 -- of the upper edge; it falls out
    local wood = p.E * strain * p.b * c / 2
    return wood - E_S * p.A_s * strain * (d_s - c) / c
  end, 1e-6, d_s)
  return c, d_s - c / 3
end

-- Moment over that of the plain joist, where the wood in compression is held to Fb.
function S.cracked_over_plain(p)
  local c, z = S.cracked(p)
  return p.b * c / 2 * z / (p.b * p.d ^ 2 / 6)
end

------------------------------------------------------------------------------ the module

-- Slip moduli the module has for a 16d common nail in southern pine.
function S.moduli()
  local nail = ns.fastener {kind = "nail", size = "16d"}
  local pine = {species = "Southern Pine"}
  local function K(side, basis)
    return ns.fastener.slip {fastener = nail, main = pine, side = side, basis = basis}.K
  end
  local steel = {steel = "A36"}
  return {en_wood = K(pine, "EN"), en_steel = K(steel, "EN"), nds_wood = K(pine, "NDS"),
    nds_steel = K(steel, "NDS"), used = K(steel),
    lag = ns.fastener.slip {fastener = ns.fastener {kind = "lag screw",
      diameter = "1/4 in", length = "3 in"}, main = pine, side = steel}.K}
end

-- Lateral value of that nail through the strap, load of ten years.
function S.nail_value()
  return ns.fastener.lateral {fastener = ns.fastener {kind = "nail", size = "16d"},
    main = {species = "Southern Pine", thickness = 9.25},
    side = {steel = "A36", thickness = 1 / 8}}.Z
end

-- Joist of ours, two point loads at the thirds (8.5 kN in all), cut from below or whole.
function S.joist(length, depth)
  local cut = length and ns.notch {face = "bottom", from = 84 - length / 2,
    to = 84 + length / 2, depth = depth}
  return ns.joist {mark = "D", size = "2x10", span = "14-0", spacing = 12, bearing = 3.5,
    dead = 0, live = 0, repetitive = 1, material = {Fb = 1000, Fv = 175, Fc = 1500,
    Ft = 650, E = 1.6e6, G = 0.55}, cuts = {cut}, loads = {
    ns.point {at = "4-8", load = "955 lb"}, ns.point {at = "9-4", load = "955 lb"}}}
end

-- The strap of ours: fasteners do not govern unless 'other' says so.
function S.strap(t, other)
  local f = {width = 1.5, thickness = t, steel = "A36", lift = "unloaded", n = 20}
  for name, value in pairs(other or {rated = "1000 lb"}) do f[name] = value end
  return ns.strap(f)
end

local function at_midspan(points)
  local least = math.huge
  for _, p in ipairs(points) do
    if p.x > 83 and p.x < 85 then least = math.min(least, p.M_cap) end
  end
  return least
end

-- Moment at mid-span over that of the plain joist, with the strap and without, d/4 cut.
function S.strength(t, other)
  local d = S.joist(2, 9.25 / 4):fix(S.strap(t, other)):review():diagram()
  local plain = at_midspan(d.uncut)
  return at_midspan(d.fixed.members[1].points) / plain, at_midspan(d.cut) / plain
end

-- Sag over that of the plain joist, fixed and cut.
function S.sag(length, depth, t, slip)
  local r = S.joist(length, depth):fix(S.strap(t, {rated = "1000 lb", slip = slip}))
    :review()
  local plain = r.uncut.deflection.live
  return r.fixed.deflection.live / plain, r.cut.deflection.live / plain, r.fixed
end

-- Over notches from 1/8 to 9 in long and d/6 to d/2 deep, straps of 1/8 and 1/4 in: the
-- least sag over the plain joist's, and the most that the strap takes off the cut one's.
function S.scan(slip)
  local least, most = math.huge, 0
  for _, length in ipairs {0.125, 2, 4, 9} do
    for _, part in ipairs {6, 4, 3, 2} do
      for _, t in ipairs {1 / 8, 1 / 4} do
        local fixed, cut = S.sag(length, 9.25 / part, t, slip)
        least, most = math.min(least, fixed), math.max(most, cut - fixed)
      end
    end
  end
  return least, most
end

-- How much more easily the strap turns than the net wood over a notch of d/4, 2 in long.
function S.softer(slip)
  local _, _, fixed = S.sag(2, 9.25 / 4, 1 / 8, slip)
  local I = 1.5 * (9.25 * 3 / 4) ^ 3 / 12
  return 1.6e6 * I / 2 / fixed.turn_k
end

-- Hole of 1-3/4 in that leaves 3/4 in below, 2187.5 ft-lb at mid-span, n = 20.7.
function S.arms()
  local joist = ns.joist {mark = "A", size = "2x10", span = "14-0", spacing = 12,
    dead = 0, live = 2187.5 * 8 / 14 ^ 2, bearing = 3.5, material = {Fb = 2000, Fv = 180,
    Fc = 1500, E = E_S / 20.7}, cuts = {ns.hole {at = "7-0", diameter = 1.75,
    below = 0.75}}}
  return joist:fix(ns.strap {width = 1.5, thickness = "1/8 in", n = 20,
    lift = "unloaded", steel = "A36", rated = "300 lb"}):review().fixed
end

-- T of the stress lost below the top of that hole, were the joist whole.
function S.lost_stress()
  local M, h = 2187.5 * 12, 2.5
  local function stress(y) return M * (9.25 / 2 - y) / (1.5 * 9.25 ^ 3 / 12) end
  return 1.5 * h * (stress(0) + stress(h)) / 2
end

-- Unbonded plate held at its ends alone, by K each: sag over the plain joist's.
function S.anchored(t, K)
  local p = S.pair(1.6e6, t)
  return p.I / S.springs(p, {0, SPAN}, K, "thirds")
end

-------------------------------------------------------------------- sentences of the note

local say = {}

local function percent(value) return value * 100 end

function say.nailed(add)
  local p, n = S.tested()
  local full = nailed.I_full - nailed.I_alone
  local won = nailed.strapped - nailed.plain
  add("%.1f in4 alone [c]", 3 * p.I)
  add("%.0f %% of the gain [c]", percent(won / full))
  add("n = %.1f [c], E = %.2fe6 psi [c]", n, p.E / 1e6)
  local by_gamma, by_springs = S.slip_of_the_test(won / 3, 0)
  local _, past = S.slip_of_the_test(won / 3, 12)
  add("**%.0f lb/in** by gamma [c] and %.0f by springs [c]", by_gamma, by_springs)
  add("%.0f lb/in by springs [c]", past)
  local error = 0.03 * nailed.plain
  local low = S.slip_of_the_test((won - error) / 3, 0)
  local high = S.slip_of_the_test((won + error) / 3, 0)
  add("%.0f to %.0f lb/in [c]", low, high)
end

function say.claims(add)
  local K = S.moduli()
  local reproduces = S.slip_of_the_test((nailed.strapped - nailed.plain) / 3, 0)
  local rows = {{"reproduces the test", reproduces},
    {"EN Table 7.1, nail not predrilled", K.en_wood},
    {"EN, doubled for steel (the module's value for nails)", K.en_steel},
    {"NDS 11.3.6 wood to wood, outside its range", K.nds_wood},
    {"NDS 11.3.6 wood to steel (memory), outside its range", K.nds_steel}}
  for _, row in ipairs(rows) do
    local gamma, part, springs = S.claims(row[2])
    add("| %s | %.0f [c] | %.2f [c] | %.0f %% [c] | %.0f %% [c] |", row[1], row[2],
      gamma, percent(part), percent(springs))
  end
  add("Published moduli are %.0f to %.0f times that [c]", K.en_wood / reproduces,
    K.nds_steel / reproduces)
  local Z = S.nail_value()
  add("At the nail's own lateral value, %.0f lb [c], the test's slip modulus means "
    .. "%.2f in [c] of slip; that of EN, doubled, %.3f in [c]", Z, Z / reproduces,
    Z / K.en_steel)
end

function say.sag(add)
  local K = S.moduli()
  local _, most = S.scan(1100)
  add("takes %.2f [c] of the plain joist's sag off", most)
  local fixed, cut = S.sag(9, 9.25 / 2, 1 / 8)
  add("from %.2f [c] of the plain joist's to %.2f [c]", cut, fixed)
  add("%.0f lb/in [c] (NDS 11.3.6, memory)", K.lag)
  add("never less than %.2f [c] of the plain joist's", (S.scan()))
  add("%.2f [c] with fasteners that do not slip at all", (S.scan(1e8)))
  add("%.0f times [c] as easily as the net wood; with the default screws %.1f times [c]",
    S.softer(1100), S.softer(nil))
end

function say.bolted(add)
  for _, t in ipairs {1 / 8, 3 / 16, 1 / 4, 3 / 8} do
    local p = S.pair(1.6e6, t)
    add("| %.4g | %.2f [c] | %.2f [c] | %.2f [c] |", t, S.strength(t),
      S.cracked_over_plain(p), (S.strength(t, {n = 8})))
  end
  local _, cut = S.strength(1 / 4)
  add("the notch alone %.2f [c]", cut)
  add("1.33 is a plate of %.2f in [c]", S.solve(function(t)
    return S.cracked_over_plain(S.pair(1.6e6, t)) - S.measured.bolted.defect
  end, 0.01, 1))
  add("%.2f [c] of the plain joist's sag", (S.sag(2, 9.25 / 4, 1 / 4)))
  add("1/0.805 is %.2f [c]", 1 / S.measured.bolted.sag)
  add("held rigidly at its ends alone gives %.2f [c]", S.anchored(1 / 4, 1e12))
  add("0.805 takes %.0f kip/in [c] at each end", S.solve(function(K)
    return S.measured.bolted.sag - S.anchored(1 / 4, K)
  end, 1, 1e9) / 1000)
end

function say.screwed(add)
  local p = S.pair(1.6e6, 1 / 8)
  add("+%.0f %% [c] without slip", percent(S.gain(p, 1) / p.I))
  add("+30 %% is gamma %.2f [c]", S.solve(function(g)
    return S.gain(p, g) / p.I - (S.measured.screwed.stiffness - 1)
  end, 0, 1))
end

function say.arms(add)
  local fixed = S.arms()
  for _, arm in ipairs(fixed.arms) do
    add("| %.2f | %.0f [c] |", arm.arm, arm.T)
  end
  add("| %.2f | %.0f [c] |", 2187.5 * 12 / S.lost_stress(), S.lost_stress())
  local c, z = S.cracked(S.pair(E_S / 20.7, 1 / 8))
  add("c = %.2f in [c], arm %.2f in [c]", c, z)
  add("%.0f psi [c] in the wood", 2 * fixed.T / (1.5 * c))
end

local ORDER = {"nailed", "claims", "sag", "bolted", "screwed", "arms"}

-- Every sentence of the note that holds a figure marked [c].
function S.sentences()
  local all = {}
  local function add(format, ...) all[#all + 1] = format:format(...) end
  for _, part in ipairs(ORDER) do say[part](add) end
  return all
end

if arg and arg[0] and arg[0]:find "reference/straps%.lua$" then
  print(table.concat(S.sentences(), "\n"))
end

return S
