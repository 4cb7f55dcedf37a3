-- SPDX-License-Identifier: MIT
-- The smallest repair that passes is the smallest: everything smaller in the search space
-- is tried here, one by one, and fails. By default a part of the grid of 200 cases; the
-- environment variable NETSECTION_SIZES says how many.
local lu = require "luaunit"
local ns = require "netsection"

local T = {}

local CASES = tonumber(os.getenv "NETSECTION_SIZES") or 12
local STRIDE = 7 -- neighbors in the grid are alike

local DFL = {Fb = 900, CF = 1.1, Fv = 180, E = 1.6e6, Ft = 575, Fc = 1350,
  Fc_perp = 625, Emin = 580000, G = 0.5}

-- Kinds of cut, where they stand, span, load and fastener: 5 x 5 x 2 x 2 x 2 = 200.
local CUTS = {
  function(x) return ns.sever {from = x, to = x + 5} end,
  function(x) return ns.sever {at = x} end,
  function(x) return ns.notch {face = "bottom", from = x, to = x + 4, depth = 3} end,
  function(x) return ns.hole {at = x, diameter = 4, below = 1.5} end,
  function(x) return ns.notch {face = "top", from = x, to = x + 6, depth = 4} end}
local PLACES = {0.15, 0.25, 0.35, 0.5, 0.6}
local SPANS, LIVE = {144, 168}, {30, 50}
local FASTENERS = {ns.fastener {kind = "bolt", diameter = "1/2 in"},
  ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "3 in"}}

local function case_of(i)
  local k = (i * STRIDE) % 200
  local cut, place = k % 5 + 1, k // 5 % 5 + 1
  local span, live = SPANS[k // 25 % 2 + 1], LIVE[k // 50 % 2 + 1]
  local x = math.floor(PLACES[place] * span)
  return ns.joist {mark = "S" .. k, size = "2x10", material = DFL, span = span,
    spacing = 16, bearing = 3.5, dead = 12, live = live, cuts = {CUTS[cut](x)}},
    FASTENERS[k // 100 + 1]
end

local function passes(j, t)
  return j:fix(ns.sister(t)):review().fixed.status == "adequate"
end

-- What fails, from the review: the first and last place where a binding check is over 1.
local function failing(j)
  local r, a, b = j:review(), nil, nil
  for _, k in ipairs(r.cut.checks) do
    if k.cut and k.binding and k.ratio > 1 + 1e-9 then
      a, b = r.cuts[1].x1, r.cuts[1].x2
    end
  end
  if r.cut.ratio == nil then a, b = r.cuts[1].x1, r.cuts[1].x2 end
  return a, b
end

-- The groups of a sister that reaches so far beyond what fails: 4 in (d/3 of a 2x10, up)
-- from its ends and from the cut.
local function short(a, b, left, right, n, fastener)
  return {from = a - left, to = b + right, bearing = false, fastener = fastener,
    groups = {{at = a - left + 4, n = n}, {at = a - 4, n = n}, {at = b + 4, n = n},
      {at = b + right - 4, n = n}}}
end

-- Laps in order: 24 in (2d), then half a foot more; a bearing holds one side back.
local function laps(span, a, b)
  local list, last = {}, nil
  for lap = 24, span, 6 do
    local left, right = math.min(lap, a - 1), math.min(lap, span - b - 1)
    local same = last and last[1] == left and last[2] == right
    if math.min(left, right) < 12 or same or lap > 24 and left < lap and right < lap then
      break
    end
    last = {left, right}
    list[#list + 1] = last
  end
  return list
end

-- None of the short sisters up to the found one passes.
local function nothing_shorter(j, fastener, found, what)
  local a, b = failing(j)
  local span = j.model.span[1]
  for _, lap in ipairs(a and laps(span, a, b) or {}) do
    local here = found.groups and math.abs(found.from - (a - lap[1])) < 1e-6
      and math.abs(found.to - (b + lap[2])) < 1e-6
    local most = here and found.groups[1].n - 1 or 20
    for n = 2, most do
      lu.assertFalse(passes(j, short(a, b, lap[1], lap[2], n, fastener)), ("%s: %g + %g "
        .. "with %d"):format(what, lap[1], lap[2], n))
    end
    if here then return true end
  end
  return not found.groups
end

-- A sister on both bearings: no pitch and count with fewer fasteners passes.
local function nothing_fewer(j, fastener, count, what)
  for _, pitch in ipairs {16, 12, 8, 6} do
    for n = 1, 10 do
      local a = j:fix(ns.sister {bearing = true, fastener = fastener, pitch = pitch,
        per_row = n}):review().fixed
      lu.assertFalse(a.status == "adequate" and #a.layout < count,
        ("%s: %d at %g"):format(what, n, pitch))
    end
  end
end

function T.test_the_smallest_sister_is_the_smallest()
  local shorts, full, none = 0, 0, 0
  for i = 1, CASES do
    local j, fastener = case_of(i)
    local what = "case " .. i
    local found, r = ns.size_sister(j, {fastener = fastener})
    if found then
      lu.assertEquals(r.fixed.status, "adequate", what)
      lu.assertTrue(nothing_shorter(j, fastener, found, what), what)
      if found.groups then shorts = shorts + 1 else
        nothing_fewer(j, fastener, #r.fixed.layout, what)
        full = full + 1
      end
    else
      lu.assertTrue(nothing_shorter(j, fastener, {}, what), what)
      nothing_fewer(j, fastener, math.huge, what)
      none = none + 1
    end
  end
  lu.assertTrue(shorts > 0 and full + none > 0)
end

-- Near a bearing too, a short one where a short one passes.
function T.test_a_short_sister_near_a_bearing()
  local j = ns.joist {mark = "N", size = "2x10", material = DFL, span = 144, spacing = 16,
    bearing = 3.5, dead = 12, live = 40, cuts = {ns.sever {from = 20, to = 22}}}
  local found = assert(ns.size_sister(j, {fastener = FASTENERS[1]}))
  lu.assertFalse(found.bearing)
  lu.assertEquals(#found.groups, 4)
end

-- Straps: the thinnest steel, then the fewest fasteners.
function T.test_the_smallest_strap_is_the_smallest()
  local steels = {{gauge = 14}, {gauge = 12}, {gauge = 10}, {thickness = 3 / 16,
    steel = "A36"}, {thickness = 1 / 4, steel = "A36"}, {thickness = 3 / 8,
    steel = "A36"}}
  local seen = 0
  for _, depth in ipairs {1.75, 2.25, 2.5} do
    local j = ns.joist {mark = "T", size = "2x10", material = DFL, span = 162,
      spacing = 16, bearing = 3.5, dead = 12, live = 40, cuts = {ns.notch {
        face = "bottom", from = 70, to = 73, depth = depth}}}
    local found = ns.size_strap(j, {fastener = FASTENERS[2]})
    for _, steel in ipairs(steels) do
      local here = found and found.gauge == steel.gauge
        and found.thickness == steel.thickness
      for n = 2, here and found.n - 1 or 24 do
        local t = {fastener = FASTENERS[2], n = n}
        for name, value in pairs(steel) do t[name] = value end
        lu.assertNotEquals(j:fix(ns.strap(t)):review().fixed.status, "adequate",
          ("%g, %d"):format(depth, n))
      end
      if here then
        seen = seen + 1
        break
      end
    end
  end
  lu.assertTrue(seen > 0)
end

return T
