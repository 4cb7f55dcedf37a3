-- SPDX-License-Identifier: MIT
-- What seeded slips in repairs and in members below (tests/mutate.lua) showed that no
-- other test noticed: each test fails with the slip that it names.
local lu = require "luaunit"
local ns = require "netsection"

local T = {}

local function joist(t)
  local all = {size = "2x10", species = "douglas fir-larch", grade = "No.2", spacing = 16,
    bearing = 3.5, dead = 12, live = 40}
  for name, value in pairs(t) do all[name] = value end
  return ns.joist(all)
end

-- part.lua, `a - half >= x1`: a hole over the edge of what counts as lost, 12 + 12 in,
-- comes along to neither end by half; one wholly in it is gone with it.
function T.test_a_hole_over_the_edge_of_a_lost_end()
  local function refused(support, at, hole)
    return joist {span = 162, cuts = {ns.lost_bearing {support = support, to = 12,
      cause = "rot"}, ns.hole {at = hole, diameter = 2, below = 2}}}
      :fix(ns.midspan_support {at = at, bearing = 3.5}):review().fixed.refused ~= nil
  end
  for _, hole in ipairs {22, 23.5, 24.5, 26} do
    local over = math.abs(hole - 24) < 1
    lu.assertEquals({refused("left", 60, hole), refused("right", 102, 162 - hole)},
      {over, over}, hole)
  end
end

-- strap_joint.lua, `least - 1e-9`: a fastener of a strap 1e-9 in short of 3.5 D from
-- another cut is short by rounding alone, one 1e-6 in is refused (NDS Table 12.5.1C).
function T.test_a_strap_beside_a_cut_by_a_hair()
  local strap_joint = require "netsection.fix.strap_joint"
  local show = joist {span = 144}.model.show
  local at = {name = "hole 1", own_x1 = 0.875, own_x2 = 1.125, own_y1 = 1, own_y2 = 2}
  local case = {model = {d = 9.25}, review = {cuts = {at}, joist = {model = {d = 9.25,
    show = show, cuts = {{kind = "hole"}}}}}}
  local function refused(x)
    local f = {layout = {{x = x}}, fastener = {D = 0.25, L = 3}, show = show}
    return strap_joint.in_the_way(f, case, {required = true,
      end_distance = {minimum = 3.5 * 0.25}})
  end
  lu.assertEquals(0.875 - (0.875 - (0.875 - 1e-9)), 0.875 - 1e-9) -- none of it is lost
  lu.assertNil(refused(0.875 - (0.875 - 1e-9)))
  lu.assertStrContains(refused(1e-6), "at least")
end

-- fasten.lua, `note == said`: what is assumed of the wood is said once, whatever else is.
function T.test_an_assumed_gravity_is_said_once()
  local fasten = require "netsection.fix.fasten"
  local notes = {"another"}
  local G = fasten.gravity({}, {}, notes)
  lu.assertEquals(#notes, 2)
  lu.assertStrContains(notes[2], ("%.2f assumed"):format(G))
  lu.assertEquals(fasten.gravity({}, {}, notes), G)
  lu.assertEquals(#notes, 2)
end

-- beam_line.lua, `or 0`: a limit of deflection that is taken off is none.
function T.test_a_beam_with_one_limit_of_deflection()
  local function modes(limits)
    local a = ns.beam_line {mark = "B1", size = "4x10", species = "douglas fir-larch",
      grade = "No.2", posts = {0, 96}, bearing = 3.5, limits = limits, loads = {
      {at = 48, dead = 300, live = 900}}}:review()
    local set = {}
    for _, k in ipairs(a.checks) do set[k.mode] = true end
    return {set["deflection-live"] or false, set["deflection-total"] or false}
  end
  lu.assertEquals(modes(nil), {true, true})
  lu.assertEquals(modes {live = false}, {false, true})
  lu.assertEquals(modes {total = false}, {true, false})
end

return T
