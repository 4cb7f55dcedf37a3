-- SPDX-License-Identifier: MIT
-- What is left of a rectangle without one or two bands, against its pieces summed by the
-- parallel axis theorem; what cannot be said of a section or of a beam is refused.
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local T = {}

-- A, centroid, I and both moduli of the pieces {from, to} of a width b.
local function of_pieces(b, pieces)
  local A, Q = 0, 0
  for _, p in ipairs(pieces) do
    A, Q = A + b * (p[2] - p[1]), Q + b * (p[2] ^ 2 - p[1] ^ 2) / 2
  end
  if A == 0 then return {A = 0, I = 0, S_b = 0, S_t = 0} end
  local y, I = Q / A, 0
  for _, p in ipairs(pieces) do
    local h = p[2] - p[1]
    I = I + b * h ^ 3 / 12 + b * h * ((p[1] + p[2]) / 2 - y) ^ 2
  end
  return {A = A, I = I, S_b = I / (y - pieces[1][1]), S_t = I / (pieces[#pieces][2] - y)}
end

-- Wood beside an opening counts from max(1 in, d/8), or from the opening's size on; wood
-- between two from the lesser of both.
local function left_of(d, bands)
  local function counts(h, size) return h >= math.min(math.max(1, d / 8), size) - 1e-9 end
  local pieces = {}
  local function add(from, to, size)
    if to > from and counts(to - from, size) then pieces[#pieces + 1] = {from, to} end
  end
  local first, last = bands[1], bands[#bands]
  local size = {}
  for i, band in ipairs(bands) do size[i] = band[2] - band[1] end
  add(0, first[1], size[1])
  if bands[2] then add(first[2], last[1], math.min(size[1], size[2])) end
  add(last[2], d, size[#size])
  return pieces
end

function T.test_two_bands_are_the_pieces_between()
  local r = support.random(1712)
  for n = 1, 4000 do
    local b, d = r:pick {1.5, 2.5, 3.5}, r:pick {5.5, 7.25, 9.25, 11.25}
    local v = {r:real(0, d), r:real(0, d), r:real(0, d), r:real(0, d)}
    table.sort(v)
    if r:unit() < 0.2 then v[1] = 0 end
    if r:unit() < 0.2 then v[4] = d end
    local y, z = {v[1], v[2]}, {v[3], v[4]}
    local want = of_pieces(b, left_of(d, {y, z}))
    if r:unit() < 0.5 then y, z = z, y end
    local s = ns.section {b = b, d = d, y1 = y[1], y2 = y[2], z1 = z[1], z2 = z[2]}
    for _, key in ipairs {"A", "I", "S_b", "S_t"} do
      lu.assertAlmostEquals(s[key], want[key], 1e-9 * math.max(1, want[key]),
        ("%d: %s, d %g without %g..%g, %g..%g"):format(n, key, d, y[1], y[2], z[1], z[2]))
    end
  end
end

-- Bands that meet are the one band that they make, whichever is given first.
function T.test_bands_that_meet_are_one()
  local r = support.random(1713)
  for _ = 1, 1000 do
    local d = r:pick {5.5, 7.25, 9.25, 11.25}
    local v = {r:real(0, d), r:real(0, d), r:real(0, d), r:real(0, d)}
    table.sort(v)
    local whole = ns.section {b = 1.5, d = d, y1 = v[1], y2 = v[4]}
    local pairs_of = {{v[1], v[3], v[2], v[4]}, {v[2], v[4], v[1], v[3]},
      {v[1], v[4], v[2], v[3]}, {v[2], v[3], v[1], v[4]}, {v[1], v[2], v[2], v[4]},
      {0, 0, v[1], v[4]}}
    for _, p in ipairs(pairs_of) do
      local s = ns.section {b = 1.5, d = d, y1 = p[1], y2 = p[2], z1 = p[3], z2 = p[4]}
      lu.assertEquals(s, whole)
    end
  end
end

function T.test_bands_the_wrong_way_round_are_refused()
  lu.assertErrorMsgContains("y1 up to y2", ns.section,
    {b = 1.5, d = 9.25, y1 = 5, y2 = 3})
  lu.assertErrorMsgContains("z1 up to z2", ns.section,
    {b = 1.5, d = 9.25, y1 = 2, y2 = 3, z1 = 6, z2 = 5})
end

function T.test_a_live_load_that_lifts_is_refused()
  local function beam(load)
    return pcall(ns.beam, {spans = {144, 144}, EI = 1e8, loads = {load}})
  end
  for _, load in ipairs {{at = 50, P = -100, case = "live"},
      {from = 0, to = 144, w1 = -3, case = "live"},
      {from = 0, to = 144, w1 = 3, w2 = -1, case = "live"}} do
    local ok, why = beam(load)
    lu.assertFalse(ok)
    lu.assertStrContains(why, "live load acts downward")
  end
  local ok, why = beam {from = 100, to = 50, w1 = 3}
  lu.assertFalse(ok)
  lu.assertStrContains(why, "'from' up to 'to'")
  -- As dead load it is what statics says: -P a b / L over a simple span.
  local lifted = ns.beam {spans = {144}, EI = 1e8, loads = {{at = 48, P = -90}}}
  lu.assertAlmostEquals(lifted:at(48).M, -90 * 48 * 96 / 144, 1e-9)
end

-- NDS table 3.3.3, cantilever with a load at its tip: l_e = 1.87 l_u for l_u/d < 7, else
-- 1.44 l_u + 3 d; under uniform load alone 1.33 l_u, 0.90 l_u + 3 d. Blocking keeps the
-- span's own edge short.
function T.test_the_free_edge_of_an_overhang()
  local function l_e(overhang, tip)
    local joist = ns.joist {mark = "A", size = "2x10", species = "Douglas Fir-Larch",
      grade = "No.2", span = "12-0", overhang_right = overhang, spacing = 16, dead = 10,
      live = 40, blocking = {24, 48, 72, 96, 120}, loads = tip and {ns.point {
        at = 144 + overhang, load = "600 lb", case = "live"}} or nil}
    local got
    for _, k in ipairs(joist:review().uncut.checks) do
      if k.mode == "bending" and k.branch == 2 then
        for _, s in ipairs(k.steps) do
          if s.symbol == "l_e" then got = s.value end
        end
      end
    end
    return got
  end
  local d = 9.25
  lu.assertAlmostEquals(l_e(60, false), 1.33 * 60, 1e-6)
  lu.assertAlmostEquals(l_e(84, false), 0.90 * 84 + 3 * d, 1e-6)
  lu.assertAlmostEquals(l_e(60, true), 1.87 * 60, 1e-6)
  lu.assertAlmostEquals(l_e(84, true), 1.44 * 84 + 3 * d, 1e-6)
end

return T
