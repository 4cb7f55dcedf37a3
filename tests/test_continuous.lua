-- SPDX-License-Identifier: MIT
-- Joists of several spans and overhangs by the theorem of three moments, worked here for
-- even loads on one region at a time (overhang or span). Live load lies on the regions
-- whose share has the wanted sign: a line over a support, of a reaction, or between the
-- fixed points of a span has one sign in each (common practice). Three equal spans stand
-- beside the coefficients that handbooks print.
local lu = require "luaunit"
local ns = require "netsection"

local T = {}

local MATERIAL = {Fb = 900, Fv = 180, E = 1.6e6, Emin = 580000, Fc_perp = 600}

-- A joist of 1 ft of floor a lb/ft of which is a psf, with nothing cut.
local function joist(t)
  for name, value in pairs {b = 1.5, d = 11.25, spacing = 12, bearing = 3.5,
    material = MATERIAL} do
    t[name] = t[name] or value
  end
  return ns.joist(t):review().uncut
end

local function near(got, want, size, what)
  lu.assertAlmostEquals(got, want, 1e-11 * size, what)
end

-- Moments over the supports of spans L, those over both ends given, under w on region r:
-- 0 the left overhang a, 1 to n the spans, n + 1 the right overhang c.
local function moments(L, a, c, w, r)
  local n, X, below, right = #L, {}, {}, {}
  X[0] = r == 0 and -w * a * a / 2 or 0
  X[n] = r == n + 1 and -w * c * c / 2 or 0
  for j = 1, n - 1 do
    local load = (r == j and w * L[j] ^ 3 / 4 or 0) + (r == j + 1 and w * L[j + 1] ^ 3 / 4
      or 0)
    local rhs = -load - (j == 1 and L[1] * X[0] or 0) - (j == n - 1 and L[n] * X[n] or 0)
    local pivot = 2 * (L[j] + L[j + 1]) - (j > 1 and L[j] * below[j - 1] or 0)
    below[j] = L[j + 1] / pivot
    right[j] = (rhs - (j > 1 and L[j] * right[j - 1] or 0)) / pivot
  end
  for j = n - 1, 1, -1 do
    X[j] = right[j] - (j < n - 1 and below[j] * X[j + 1] or 0)
  end
  return X
end

-- Reactions under w on region r.
local function reactions(L, a, c, w, r)
  local n, X, R = #L, moments(L, a, c, w, r), {}
  for j = 0, n do
    local before = j > 0 and (X[j - 1] - X[j]) / L[j] + (r == j and w * L[j] / 2 or 0)
      or r == 0 and w * a or 0
    local after = j < n and (X[j + 1] - X[j]) / L[j + 1]
      + (r == j + 1 and w * L[j + 1] / 2 or 0) or r == n + 1 and w * c or 0
    R[j] = before + after
  end
  return R, X
end

-- The largest moment of a span under w on it, and what stands over its ends.
local function sag_moment(L, w, A, B)
  local V = w * L / 2 + (B - A) / L
  return A + V * V / (2 * w)
end

-- The largest moment of dead and live load by size, with its sign.
local function largest(L, a, c, dead, live)
  local n, most, least = #L, 0, 0
  local X = {}
  for r = 0, n + 1 do X[r] = moments(L, a, c, 1, r) end
  for j = 0, n do
    local M = 0
    for r = 0, n + 1 do M = M + dead * X[r][j] + live * math.min(X[r][j], 0) end
    least = math.min(least, M)
  end
  for k = 1, n do
    local A, B = 0, 0
    for r = 0, n + 1 do
      local lies = r == k or X[r][k - 1] + X[r][k] > 0
      local w = dead + (lies and live or 0)
      A, B = A + w * X[r][k - 1], B + w * X[r][k]
    end
    most = math.max(most, sag_moment(L[k], dead + live, A, B))
  end
  return most > -least and most or least
end

-- D and L of 10 and 40 lb/ft on three spans of 10 ft: 0.1 D and 0.1167 L over a support,
-- 0.4 and 0.45 at an end, which 0.05 L may lift, 1.1 and 1.2 inside, 0.1 L off it.
function T.test_three_equal_spans()
  local L, D, w = 120, 10 / 12, 40 / 12
  local uncut = joist {spans = {L, L, L}, dead = 10, live = 40}
  local size = w * L
  near(uncut.moment, -(0.1 * D + 7 / 60 * w) * L * L, size * L)
  for j = 1, 4 do
    local inner = j == 2 or j == 3
    local R = uncut.reaction_range[j]
    near(R.dead, (inner and 1.1 or 0.4) * D * L, size, "dead")
    near(R.most - R.dead, (inner and 1.2 or 0.45) * w * L, size, "most")
    near(R.least - R.dead, (inner and -0.1 or -0.05) * w * L, size, "least")
  end
end

-- P in the middle of the middle one: -3 PL/40 over both supports, 7 PL/40 under it; the
-- ends lift by 3 P/40, the inner supports take 23 P/40.
function T.test_point_load_in_the_middle_span()
  local L, P, D = 120, 1000, 10 / 12
  local uncut = joist {spans = {L, L, L}, dead = 10, live = 0,
    loads = {ns.point {at = 1.5 * L, load = "1000 lb", case = "live"}}}
  near(uncut.moment, 0.175 * P * L + 0.025 * D * L * L, P * L)
  near(uncut.reaction_range[1].least, 0.4 * D * L - 0.075 * P, P)
  near(uncut.reaction_range[2].most, 1.1 * D * L + 0.575 * P, P)
end

-- One span and an overhang are statics alone.
function T.test_overhang()
  local L, a, D, w = 144, 30, 10 / 12, 40 / 12
  local uncut = joist {span = L, overhang_right = a, dead = 10, live = 40}
  local R_D = D * (L * L - a * a) / (2 * L)
  local V = R_D + w * L / 2
  near(uncut.moment, V * V / (2 * (D + w)), w * L * L)
  local left, right = uncut.reaction_range[1], uncut.reaction_range[2]
  near(left.most, V, w * L)
  near(left.least, R_D - w * a * a / (2 * L), w * L)
  near(right.most, (D + w) * (L + a) ^ 2 / (2 * L), w * L)
  near(right.least, D * (L + a) ^ 2 / (2 * L), w * L)
end

-- Where an overhang is long, the moment over its support is the largest.
function T.test_long_overhangs()
  local w = 50 / 12
  local uncut = joist {spans = {120, 110}, overhang_left = 70, dead = 10, live = 40}
  near(uncut.moment, -w * 70 * 70 / 2, w * 120 * 120)
end

-- One to six spans with overhangs at both ends, either or none.
function T.test_random_spans()
  math.randomseed(15)
  local sags, hogs = 0, 0
  for case = 1, 60 do
    local n = 1 + case % 6
    local L, size = {}, 0
    for k = 1, n do L[k] = math.random(100, 200) end
    local a = case % 4 < 2 and math.random(5, 50) or 0
    local c = (case // 2 % 4 > 1 or n == 1) and math.random(5, 50) or 0
    local D, w = math.random(5, 20), math.random(20, 60)
    local uncut = joist {spans = L, overhang_left = a > 0 and a or nil,
      overhang_right = c > 0 and c or nil, dead = D, live = w}
    D, w = D / 12, w / 12
    local dead, most, least = {}, {}, {}
    for j = 0, n do dead[j], most[j], least[j] = 0, 0, 0 end
    for r = 0, n + 1 do
      local R = reactions(L, a, c, 1, r)
      for j = 0, n do
        dead[j] = dead[j] + D * R[j]
        most[j] = most[j] + w * math.max(R[j], 0)
        least[j] = least[j] + w * math.min(R[j], 0)
        size = math.max(size, most[j])
      end
    end
    for j = 0, n do
      local R = uncut.reaction_range[j + 1]
      near(R.dead, dead[j], size, "dead " .. case)
      near(R.most, dead[j] + most[j], size, "most " .. case)
      near(R.least, dead[j] + least[j], size, "least " .. case)
    end
    local M = largest(L, a, c, D, w)
    near(uncut.moment, M, w * 200 * 200, "moment " .. case)
    sags, hogs = sags + (M > 0 and 1 or 0), hogs + (M < 0 and 1 or 0)
  end
  lu.assertTrue(sags > 5 and hogs > 5)
end

return T
