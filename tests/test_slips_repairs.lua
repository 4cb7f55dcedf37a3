-- SPDX-License-Identifier: MIT
-- What seeded slips in repairs, floors and members (tests/mutate.lua) showed that no
-- other test noticed: each test fails with the slip that it names.
local lu = require "luaunit"
local ns = require "netsection"
local with = require "tests.support".with

local T = {}

local function joist(t)
  return ns.joist(with({size = "2x10", species = "douglas fir-larch",
    grade = "No.2", spacing = 16, bearing = 3.5, dead = 12, live = 40}, t))
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

-- hanger.lua, what is drawn: cheeks an inch outside the joist on either side, under it
-- and up to half its depth, over the length of the seat.
function T.test_the_drawn_hanger_holds_the_joist()
  for _, support in ipairs {"left", "right"} do
    local fixed = joist {span = 144, cuts = {ns.end_notch {support = support, length = 2,
      depth = 3, face = "bottom"}}}:fix(ns.hanger {support = support, seat = 2}):review()
      .fixed
    lu.assertNil(fixed.refused)
    local p, at = fixed.pieces[1], fixed.x1
    lu.assertEquals({p.y1, p.y2, p.h2}, {-1.5 / 2 - 1, 1.5 / 2 + 1, 9.25 / 2})
    lu.assertTrue(p.h1 < 0)
    lu.assertEquals({p.x1, p.x2}, {at - 1, at + 1})
  end
end

-- strap.lua, `f.from >= a`: a strap that ends over the middle of a bearing does not run
-- past it. On either side of the cut 3 + 3 x 4 in of fasteners, half an inch of steel.
function T.test_a_strap_up_to_the_middle_of_a_bearing()
  local function fixed(from)
    return joist {span = 144, cuts = {ns.notch {face = "bottom", from = from,
      to = from + 4, depth = 1.5}}}:fix(ns.strap {n = 4, pitch = 4, end_distance = 3,
      fastener = ns.fastener {kind = "wood screw", size = "#10", length = 1.5}})
      :review().fixed
  end
  lu.assertNil(fixed(15.5).refused)
  lu.assertEquals(fixed(15.5).x1, 0)
  lu.assertNil(fixed(144 - 19.5).refused)
  lu.assertEquals(fixed(144 - 19.5).x2, 144)
  for _, from in ipairs {15.5 - 1 / 64, 144 - 19.5 + 1 / 64} do
    lu.assertStrContains(fixed(from).refused, "past a bearing")
  end
end

-- strap.lua, `p.x <= f.to`: T along a strap from end to end, a load standing at either.
function T.test_tension_along_a_strap_to_both_ends()
  local function fixed(loads)
    return joist {span = 144, loads = loads, cuts = {ns.notch {face = "bottom",
      from = 70, to = 74, depth = 1.5}}}:fix(ns.strap {n = 4, pitch = 4,
      end_distance = 3, fastener = ns.fastener {kind = "wood screw", size = "#10",
      length = 1.5}}):review().fixed
  end
  local x1, x2 = fixed {}.x1, fixed {}.x2
  local T_ = fixed {ns.point {at = x1, load = "50 lb"}, ns.point {at = x2,
    load = "50 lb"}}.along
  lu.assertEquals({T_[1].x, T_[#T_].x}, {x1, x2})
  lu.assertAlmostEquals(T_[1].T, T_[#T_].T, 1e-6 * T_[1].T) -- by symmetry
end

-- settle.lua, `most = 0`: joists whose left bearings are lost stand on the beam or fall;
-- its sag takes nothing off them and bends none of them more.
function T.test_a_sagging_beam_under_joists_that_need_it()
  local function path(cuts)
    local list = {}
    for i = 1, 3 do list[i] = {mark = "J" .. i, cuts = cuts} end
    local beam = ns.beam_line {mark = "B1", at = 24, size = "2x4", plies = 1,
      species = "dfl", grade = "No.2", posts = {"J1", "J3"}, bearing = 3.5}
    return ns.floor {name = "Loft", size = "2x10", species = "dfl", grade = "No.2",
      spacing = 24, span = 162, bearing = 3.5, dead = 12, live = 40, joists = list}
      :load_path {beams = {beam}}.beams[1].state
  end
  local lost = path {ns.lost_bearing {support = "left", to = 6, cause = "rot"}}
  -- w L^2/2 about the right bearing, 138 in from the beam
  for i = 1, 3 do
    local R = 52 * 2 / 12 * 162 ^ 2 / 2 / 138
    lu.assertAlmostEquals(lost.settled.reactions[i], R, 0.01)
  end
  lu.assertEquals(lost.settled.moment, 0)
  lu.assertStrContains(table.concat(lost.notes, "\n"), "nothing is taken off")
  local whole = path()
  lu.assertNotNil(whole.settled.mark)
  lu.assertStrContains(table.concat(whole.notes, "\n"), "the largest moment of a joist")
end

-- neighbors.lua, `problems[1]`: where a joist has no room for the loads of those that are
-- out (eight of lines at most), it says so.
function T.test_no_room_for_what_a_joist_takes_over()
  local gap, lines = {ns.sever {from = 70, to = 76}}, {}
  local function off(side)
    return ns.added_joist {side = side, at = 12, write_off = true}
  end
  local function floor(n)
    for i = 1, n do lines[i] = ns.line {load = "1 plf", case = "live"} end
    return ns.floor {name = "Loft", size = "2x10", spacing = 16, span = 162, dead = 12,
      bearing = 3.5, live = 40, species = "douglas fir-larch", grade = "No.2", joists = {
      {mark = "J1"}, {mark = "J2", cuts = gap}, {mark = "J3", loads = lines},
      {mark = "J4", cuts = gap}, {mark = "J5"}}}
  end
  local why = "joist J3, loads: at most 8 line and area loads"
  -- two lines of load, dead and live, come from each side: six and four are too many
  local r = floor(6):fix("J2", off "left"):fix("J4", off "right"):review()
  for _, mark in ipairs {"J2", "J4"} do
    local a = r.joists[mark].fixed
    lu.assertEquals(a.status, "not permitted")
    lu.assertStrContains(table.concat(a.notes, "\n"), "could not be worked: " .. why)
  end
  local u = floor(8):review().joists.J3.until_repaired
  lu.assertEquals({u.status, u.refused}, {"not assessed", why})
end

-- carried.lua, `+ r.joist.model.overhang_right`: what stands on bearings and beam is all
-- the load of an overhang at either end, mirror images.
function T.test_an_overhang_at_either_end_on_a_beam()
  local function stands(side, at)
    local list = {}
    for i = 1, 3 do list[i] = {mark = "J" .. i} end
    local t = {name = "Loft", size = "2x10", species = "dfl", grade = "No.2",
      spacing = 12, span = 144, bearing = 3.5, dead = 12, live = 40, joists = list}
    t["overhang_" .. side] = 24
    local path = ns.floor(t):load_path {beams = {ns.beam_line {mark = "B1", at = at,
      size = "2x10", plies = 2, species = "dfl", grade = "No.2", posts = {"J1", "J3"},
      bearing = 3.5}}}
    local found, sum = {}, 0
    for i, s in ipairs(path.joists[2].stands) do
      found[i], sum = s.D + s.L, sum + s.D + s.L
    end
    lu.assertAlmostEquals(sum, 52 * (144 + 24) / 12, 1e-6)
    return found
  end
  local left, right = stands("left", 84), stands("right", 60)
  lu.assertEquals({#left, #right}, {3, 3})
  for i = 1, 3 do lu.assertAlmostEquals(right[4 - i], left[i], 1e-6) end
end

-- seat.lua, `capacity ~= nil and`: hangers of new wood against their maker's value. Half
-- of the live load is the sister's, 40 psf x 16 in x 6 ft/2, of one on either face a
-- third; an added joist in the middle of a bay takes 8 in of floor, 52 psf x 8 in x 6 ft.
function T.test_hangers_of_new_wood()
  local live = 40 * 16 / 12 * 6
  for _, c in ipairs {{ns.sister {hanger = {capacity = 900}}, live / 2},
    {ns.sister {side = "both", hanger = {capacity = "900 lb"}}, live / 3},
    {ns.added_joist {side = "right", hanger = {capacity = 900}}, 52 * 8 / 12 * 6}} do
    local fixed = joist {span = 144, cuts = {ns.hole {at = 72, diameter = 3}}}:fix(c[1])
      :review().fixed
    lu.assertNil(fixed.refused)
    local found
    for _, k in ipairs(fixed.checks) do
      if k.name and k.name:find "^hangers" then found = k end
    end
    lu.assertAlmostEquals(found.demand, c[2], 1e-6)
    lu.assertEquals(found.capacity, 900)
    lu.assertAlmostEquals(found.ratio, c[2] / 900, 1e-9)
  end
end

-- header_parts.lua, `n.bearing[1] / 2`: new wood from end to end lies over all of both
-- bearings, and each piece is as long as it is drawn, along the joist or across it.
function T.test_pieces_are_as_long_as_they_are_drawn()
  local hole, gap = ns.hole {at = 72, diameter = 3}, ns.sever {from = 70, to = 76}
  local header = ns.header {at = {66, 80}, trimmer_plies = 2}
  for name, c in pairs {sister = {gap, ns.sister {}, 1}, trimmer = {gap, header, 2},
    header = {gap, header, 2}, strap = {hole, ns.strap {rated = "200 lb"}, 1},
    ["added joist"] = {hole, ns.added_joist {side = "right"}, 1}} do
    local fixed = joist {span = 144, bearing = {3.5, 5.5}, cuts = {c[1]}}:fix(c[2])
      :review().fixed
    lu.assertNil(fixed.refused)
    local n = 0
    for _, p in ipairs(fixed.pieces) do
      if p.name == name then
        n = n + 1
        local drawn = name == "header" and p.y2 - p.y1 or p.x2 - p.x1
        lu.assertAlmostEquals(p.length, drawn, 1e-9, name)
        if name ~= "header" and name ~= "strap" then
          lu.assertEquals({p.x1, p.x2}, {-3.5 / 2, 144 + 5.5 / 2}, name)
        end
      end
    end
    lu.assertEquals(n, c[3], name)
  end
end

return T
