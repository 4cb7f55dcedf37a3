-- SPDX-License-Identifier: MIT
-- Repaired joists as lines of a grid. A deck that shares nothing leaves each joist by
-- itself: reactions by statics, deflection that of the repair's own calculation.
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local T = {}

local close, raises = support.close, support.raises

local WOOD = {Fb = 900, Ft = 575, Fc = 1350, Fv = 180, E = 1.6e6, CF = 1.1,
  Fc_perp = 625, Emin = 580000, G = 0.5, source = "given"}
local L, D, LIVE = 162, 12, 20

-- J4 of seven with its cuts, loads and repair: in the grid, and its review.
local function in_grid(t, fix, uniform)
  local joists = {}
  for i = 1, 7 do joists[i] = {mark = "J" .. i} end
  joists[4] = {mark = "J4", cuts = t.cuts, loads = t.loads}
  local f = ns.floor {name = "A", size = "2x10", spacing = 16, span = L, bearing = 3.5,
    dead = D, live = LIVE, material = WOOD, joists = joists}:fix("J4", fix)
  local g = f:grid {deck = {across = 1e-6, along = 0}, state = "repaired",
    uniform = uniform or true}
  return g:of("J4"), f:review().joists.J4.fixed
end

local function even(psf) return psf * 16 / 144 end -- lb/in

-- Two equal spans under an even load: 3/8, 10/8, 3/8 of w l.
function T.test_a_support_at_midspan()
  local line = in_grid({cuts = {ns.hole {at = 43, diameter = 2}}},
    ns.midspan_support {at = L / 2})
  local wl = even(D + LIVE) * L / 2
  for j, part in ipairs {3 / 8, 10 / 8, 3 / 8} do
    close(line.reactions[j], part * wl, 1e-4)
  end
end

-- A seat 6 in inside the old one: moments about it.
function T.test_a_hanger_at_the_right_end()
  local line = in_grid({cuts = {ns.end_notch {support = "right", face = "bottom",
    length = 5, depth = 2}}}, ns.hanger {support = "right", offset = 6, capacity = 2000})
  local load = even(D + LIVE) * L
  close(line.reactions[2], load * L / 2 / (L - 6), 1e-6)
  close(line.reactions[1], load - load * L / 2 / (L - 6), 1e-6)
end

local NOTCH = {ns.notch {from = 30, to = 35, depth = 1.5, face = "bottom"}}

function T.test_a_strap_sags_as_by_itself()
  local line, fixed = in_grid({cuts = NOTCH}, ns.strap {cut = 1, width = 1.5, gauge = 12,
    fastener = ns.fastener {kind = "wood screw", size = "#10", length = 1.5}}, "live")
  close(line.deflection.value, fixed.deflection.live, 1e-6)
  for j = 1, 2 do close(line.reactions[j], even(LIVE) * L / 2, 1e-6) end
end

-- Loads of its own are on the line as well: 100 lb at 50 in, 10 plf from 20 to 100 in,
-- 5 plf all along.
function T.test_a_sister_under_loads_of_its_own()
  local line, fixed = in_grid({cuts = NOTCH, loads = {ns.point {at = 50, load = 100},
    ns.line {load = "10 plf", from = 20, to = 100}, ns.line {load = "5 plf"}}},
    ns.sister {size = "2x10", fastener = ns.fastener {kind = "bolt",
      diameter = "1/2 in"}}, "live")
  local whole = (even(LIVE) + 5 / 12) * L
  local right = whole / 2 + (100 * 50 + 10 / 12 * 80 * 60) / L
  close(line.reactions[2], right, 1e-6)
  close(line.reactions[1], whole + 100 + 10 / 12 * 80 - right, 1e-6)
  close(line.deflection.value, fixed.deflection.live, 1e-4)
end

-- A repair that does not serve is no line, and that is said.
function T.test_a_repair_that_is_inadequate()
  raises("floor:grid: J4: its repair is inadequate", in_grid, {cuts = {ns.notch {
    from = 60, to = 80, depth = 2, face = "bottom"}}}, ns.midspan_support {at = L / 2})
  lu.assertNotNil(in_grid({}, ns.midspan_support {at = L / 2}))
end

return T
