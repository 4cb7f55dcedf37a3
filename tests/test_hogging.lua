-- SPDX-License-Identifier: MIT
-- The free bottom edge where M < 0, pattern by pattern of live load.
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local T = {}

local WOOD = {Fb = 900, E = 1.6e6, Fv = 180, Emin = 580000, CF = 1.1}

local function joist(t)
  local d = {mark = "T", size = "2x10", spacing = 16, live = 40, material = WOOD}
  for name, value in pairs(t) do d[name] = value end
  return ns.joist(d)
end

local function hogging(r)
  for _, k in ipairs(r.uncut.checks) do
    if k.mode == "bending" and k.branch == 2 then return k end
  end
end

local function step(k, symbol)
  for _, s in ipairs(k.steps) do if s.symbol == symbol then return s.value end end
end

-- Three-moment equation, pattern by pattern, NDS 3.3.3 (independent computation, equal
-- EI): M in ft-lb, l_u, l_e in in, CL, ratio, and which live load it is.
local ROWS = {
  {{spans = {144, 144}, dead = 5}, 600.0, 144, 265.0, 0.5311, 0.5566, "span 2 only"},
  {{spans = {144, 144}, dead = 10}, 1200.0, 36, 74.2, 0.9564, 0.6183, "everywhere"},
  {{spans = {144, 144}, dead = 16}, 1344.0, 36, 74.2, 0.9564, 0.6924, "everywhere"},
  {{spans = {120, 168}, dead = 10}, 1022.2, 120, 223.3, 0.6163, 0.8173, "span 2 only"},
  {{spans = {144, 144, 144}, dead = 10}, 704.0, 144, 265.0, 0.5311, 0.6531, "only"},
  {{spans = {96, 168, 96}, dead = 10}, 817.9, 96, 184.2, 0.7166, 0.5624, "span 2 only"},
  {{span = 144, overhang_right = 36, dead = 10}, 300.0, 45, 92.7, 0.9347, 0.1581,
    "the right overhang only"},
  {{spans = {144, 144}, overhang_right = 36, dead = 10}, 705.0, 144, 265.0, 0.5311,
    0.6540, "span 1 only"},
}

function T.test_each_pattern_has_its_own_moment_and_free_length()
  for i, row in ipairs(ROWS) do
    local k = hogging(joist(row[1]):review())
    local what = "row " .. i
    support.close(k.demand / 12, row[2], 1e-3, what)
    support.close(step(k, "l_u"), row[3], 1e-3, what)
    support.close(step(k, "l_e"), row[4], 1e-3, what)
    support.close(step(k, "CL"), row[5], 1e-3, what)
    support.close(k.ratio, row[6], 1e-3, what)
    lu.assertStrContains(k.pattern, row[7], what)
  end
end

-- With no brace where M turns: 1200 ft-lb at CL 0.531 (independent computation).
function T.test_inflection_none_takes_the_next_support()
  local k = hogging(joist {spans = {144, 144}, dead = 10, inflection = "none"}:review())
  support.close(k.ratio, 1.11, 5e-3)
  support.close(step(k, "l_u"), 144, 1e-12)
end

-- NDS Table 3.3.3: a cantilever with a load at its end, l_u/d < 7: 1.87 l_u.
function T.test_overhang_with_a_load_at_its_tip()
  local k = hogging(joist {span = 36, overhang_right = 48, dead = 10,
    loads = {ns.point {at = 84, load = 300, case = "live"}}}:review())
  support.close(step(k, "l_e"), 1.87 * 48, 1e-12)
end

-- Blocking cuts the free edge: none is longer than the gap between blocks.
function T.test_blocking_shortens_the_free_edge()
  local open = hogging(joist {spans = {144, 144}, dead = 5}:review())
  local blocked = hogging(joist {spans = {144, 144}, dead = 5,
    blocking = {120, 168}}:review())
  lu.assertTrue(step(blocked, "l_u") <= 24 + 1e-9)
  lu.assertTrue(blocked.ratio < open.ratio * 1.8)
end

-- More live load never lowers the ratio; dead load on two equal spans by 2 % at
-- most (where it shortens the stretch that hogs).
function T.test_more_load_never_lowers_the_ratio()
  for _, spans in ipairs {{144, 144}, {120, 168}, {96, 168, 96}, {144, 100, 144, 120}} do
    for _, dead in ipairs {0, 5, 10, 20} do
      local last = 0
      for live = 10, 100, 6 do
        local r = joist {spans = spans, dead = dead, live = live}:review().uncut.ratio
        lu.assertTrue(r >= last - 1e-9, ("live %g on dead %g: %.6f after %.6f")
          :format(live, dead, r, last))
        last = r
      end
    end
  end
  local most = 0
  for dead = 0, 40, 0.5 do
    local r = joist {spans = {144, 144}, dead = dead}:review().uncut.ratio
    lu.assertTrue(r >= 0.98 * most, ("dead %g: %.4f after %.4f"):format(dead, r, most))
    most = math.max(most, r)
  end
end

-- Statics: 200 lb on the tip lifts the far bearing by 200 x 4 / 6 = 133 lb.
function T.test_a_bearing_that_lifts_under_dead_load_is_a_decision()
  local d = {span = 72, overhang_right = 48, dead = 1, live = 10,
    loads = {ns.point {at = 120, load = 200, case = "dead"}}}
  local r = joist(d):review()
  lu.assertTrue(r.uncut.ratio < 1)
  lu.assertEquals(r.action, "decide")
  lu.assertStrContains(table.concat(r.reasons, "\n"),
    "bearing lifts under dead load: hold it down or treat it as an overhang")
  d.loads = nil
  lu.assertEquals(joist(d):review().action, "leave")
end

return T
