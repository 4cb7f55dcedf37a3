-- SPDX-License-Identifier: MIT
-- What seeded slips in the code (tests/mutate.lua) showed that no other test noticed:
-- each test fails with the slip that it names.
local core = require "netsection.core"
local lu = require "luaunit"
local ns = require "netsection"
local with = require "tests.support".with
local packs = require "netsection.packs"

local T = {}

local function joist(t)
  return ns.joist(with({size = "2x10", species = "douglas fir-larch",
    grade = "No.2", spacing = 16, bearing = 3.5, dead = 12, live = 40}, t))
end

-- midspan_support.lua, `#m.span >= 6`: six spans are the most that a joist has, so that a
-- support in one of them is refused for that reason, and one in five is not.
function T.test_a_support_in_the_sixth_span()
  local function refused(n)
    local spans = {}
    for i = 1, n do spans[i] = 96 end
    return joist {spans = spans}:fix(ns.midspan_support {at = 48}):review().fixed.refused
  end
  lu.assertEquals(refused(6), "a joist has at most six spans here")
  lu.assertNil(refused(5))
end

-- combine.c, own reactions of a member beside the joist: D + S is to its forces what
-- D + L is, so snow puts on bearings, fasteners and both members what live load of the
-- same size does (the factors on strength differ alone).
function T.test_snow_on_a_repair_as_live_load_on_it()
  local hole, gap = ns.hole {at = 72, diameter = 3}, ns.sever {from = 70, to = 76}
  local full = ns.sister {side = "right"}
  local function fixed(spans, cut, fix, live, snow)
    return joist {spans = spans, cuts = {cut}, dead = 10, live = live, snow = snow}
      :fix(fix):review().fixed
  end
  local function forces(f)
    local list = {f.moment, f.shear, f.deflection.live, f.deflection.total}
    for _, rows in ipairs {f.own_reactions, f.stations, f.reaction_range} do
      for _, row in ipairs(rows) do
        table.move({row.most, row.least, row.full}, 1, 3, #list + 1, list)
      end
    end
    return list
  end
  for _, c in ipairs {{{144}, hole, full}, {{144}, gap, full},
    {{144, 120}, hole, ns.sister {side = "right", from = 24, to = 120}}} do
    local snow, live = fixed(c[1], c[2], c[3], 0, 30), fixed(c[1], c[2], c[3], 30, 0)
    local wanted = forces(live)
    for i, found in ipairs(forces(snow)) do
      lu.assertAlmostEquals(found, wanted[i], 1e-9 * (1 + math.abs(wanted[i])), i)
    end
    lu.assertEquals(#forces(snow), #wanted)
  end
  -- of a joist cut through, both members' bearings hold all of the load
  local f, sum = fixed({144}, gap, full, 0, 30), 0
  for e = 1, 2 do sum = sum + f.reactions[e] + f.own_reactions[e].most end
  lu.assertAlmostEquals(sum, 40 * 16 / 144 * 144, 1e-6)
end

-- fix_check.c, `demand > 0`: the first fasteners of a sister over a gap press the joist
-- down alone, so that no wood above them, which nothing splits, costs nothing.
function T.test_wood_that_nothing_presses_on()
  local fixed = joist {span = 144, cuts = {ns.sever {from = 70, to = 76}}}
    :fix(ns.sister {side = "right", from = 24, to = 120}):review().fixed
  lu.assertTrue(fixed.stations[1].most < 0)
  local m, rules = fixed.model, assert(packs.rules("us-irc-2021", "wood")).core
  local standard = assert(packs.standard "us-nds-2018-asd").core
  local function split()
    local _, s = core.review(m, rules, standard)
    for _, k in ipairs(s.fixed.checks) do
      if k.mode == "connection-shear" and k.member == "host" then return k.ratio end
    end
  end
  local whole = split()
  lu.assertTrue(whole > 0 and whole < 1e6)
  m.fix.top[1] = m.fix.low[1]
  lu.assertEquals(split(), whole)
  m.fix.bottom[1] = m.fix.high[1]
  lu.assertTrue(split() > 1e6)
end

-- grid.c, which slopes are left: a stub between the last two stations, held at its far
-- end and by the strip over the other joists at the near one, is a simple beam: q l^2/8
-- in its middle, q l/2 at its bearing (statics). So is one at the other end, and one
-- between.
function T.test_a_stub_of_one_piece_in_a_grid()
  for _, s in ipairs {{1, {0, 10, 60, 100}, 1}, {3, {0, 40, 90, 100}, 4},
    {2, {0, 40, 50, 100}, 3}} do
    local e, x, held = s[1], s[2], s[3]
    local near = held == e and e + 1 or e
    local EI, q = {1e8, 1e8, 1e8}, {0, 0, 0}
    q[e] = 2
    local g = core.grid {x = x, y = {0, 16, 32}, EI = {EI, EI, EI}, along = {0, 0, 0},
      wood = {{1, 4}, {e, e + 1}, {1, 4}}, held = {{1, 4}, {held}, {1, 4}},
      strips = {{station = near, EI = 1e5, width = 12}}}
    local a = g:solve {q = {[2] = q}}
    lu.assertAlmostEquals(a:at(2, (x[e] + x[e + 1]) / 2).M, 2 * 10 ^ 2 / 8, 1e-9)
    lu.assertAlmostEquals(a:reactions(2)[1], 10, 1e-9)
    local sum = 0
    for _, i in ipairs {1, 3} do
      for _, R in ipairs(a:reactions(i)) do sum = sum + R end
    end
    lu.assertAlmostEquals(sum, 10, 1e-9)
  end
end

-- section.c, `outer_t > 0`: wood beside a hole counts from the hole's size on where that
-- is less than 1 in (lua/README.md, Thin lip): one of 3/4 in with as much wood beside it,
-- over another or under it, leaves no notch; with less it does, from the far edge.
function T.test_wood_beside_a_small_hole_over_another()
  local function cut(lip, over)
    return joist {size = "2x8", span = 144, cuts = {
      ns.hole {at = 72, diameter = 2, below = over and 2 or 7.25 - 2 - 2},
      ns.hole {at = 72, diameter = 0.75, below = over and 7.25 - 0.75 - lip or lip}}}
      :review()
  end
  for _, over in ipairs {true, false} do
    for lip, notches in pairs {[0.74] = 1, [0.75] = 0, [0.8] = 0, [1] = 0, [1.1] = 0} do
      local found, r = 0, cut(lip, over)
      for _, k in ipairs(r.cut.checks) do
        found = found + (k.mode == "notch-shear" and 1 or 0)
      end
      lu.assertEquals(found, notches, lip)
      lu.assertAlmostEquals(r:find("cut", "net-shear", 1).ratio,
        cut(lip, not over):find("cut", "net-shear", 1).ratio, 1e-9)
    end
  end
end

-- validate.c, which numbers of a repair are looked at (`lift == NS_PROP`): each that its
-- kind reads, a prop's where there is one; one past what its field allows is named.
function T.test_each_number_of_a_repair_is_looked_at()
  local standard = assert(packs.standard "us-nds-2018-asd").core
  local strap_alone = {A_s = true, below = true, P_s = true, free = true}
  local both = {E = true, stiff = true, Z = true, C_z = true, rated = true, count = true,
    prop_at = true, prop = true}
  local function named(m, f, value)
    local was = m.fix[f.name]
    m.fix[f.name] = type(was) == "table" and {value, table.unpack(was, 2)} or value
    local fault = core.check(m, standard)
    m.fix[f.name] = was
    return fault and fault.fix == 1 and fault.field
  end
  local prop = ns.prop {at = 60, force = 100}
  for strap, fix in pairs {[false] = ns.sister {from = 24, to = 120, lift = prop},
    [true] = ns.strap {rated = "200 lb", lift = prop}} do
    local m = joist {span = 144, cuts = {ns.hole {at = 72, diameter = 3}}}:fix(fix)
      :review().fixed.model
    lu.assertNil(core.check(m, standard))
    for _, f in ipairs(core.fields().fix) do
      local read = both[f.name] or (strap_alone[f.name] or false) == strap
      local hair = 1e-6 * (f.high - f.low)
      for _, value in ipairs {f.low - hair, f.high + hair} do
        if read then lu.assertEquals(named(m, f, value), f.name) end
      end
    end
  end
end

-- midspan_support.lua, `L - l` of a lost end: by symmetry a post that carries a right end
-- gives what the mirrored one gives at the left, also with a hole in the wood that is
-- lost.
function T.test_a_post_under_either_lost_end()
  local function fixed(support, at)
    return joist {span = 162, cuts = {ns.lost_bearing {support = support, to = 12,
      cause = "rot"}, ns.hole {at = support == "left" and 8 or 154, diameter = 3,
      below = 2}}}:fix(ns.midspan_support {at = at, bearing = 3.5}):review().fixed
  end
  local left, right = fixed("left", 30), fixed("right", 132)
  lu.assertNil(left.refused)
  lu.assertNil(right.refused)
  lu.assertAlmostEquals(right.ratio, left.ratio, 1e-9)
  lu.assertEquals(#right.checks, #left.checks)
  lu.assertEquals(right.governing, left.governing)
  for i, k in ipairs(left.checks) do
    local other
    for _, c in ipairs(right.checks) do
      if c.mode == k.mode and c.member == k.member
        and math.abs(c.ratio - k.ratio) < 1e-9 then
        other = c
      end
    end
    lu.assertNotNil(other, ("check %d, %s"):format(i, k.mode))
  end
end

-- deflection.c, which spans a pattern of live load is on: of two equal spans the live
-- deflection is that of one loaded span, 0.00915 w L^4/(E I) at 0.472 L (handbook
-- tables of continuous beams), not 0.0054 of both; of a short and a long span that of
-- the long one by itself.
function T.test_live_deflection_of_one_loaded_span()
  local L, w = 144, 40 * 16 / 144
  local r = joist {spans = {L, L}}:review()
  local EI = 1.6e6 * 1.5 * 9.25 ^ 3 / 12
  local k = r:find("uncut", "deflection-live")
  -- M over the support is w L^2/16; y = w x (L^3 - 2 L x^2 + x^3)/24 less M's part
  local most = 0
  for i = 1, 999 do
    local x = L * i / 1000
    local y = w * x * (L ^ 3 - 2 * L * x ^ 2 + x ^ 3) / 24
      - w * L ^ 2 / 16 * x * (L ^ 2 - x ^ 2) / (6 * L)
    most = math.max(most, y / EI)
  end
  lu.assertAlmostEquals(most / (w * L ^ 4 / EI), 0.00915, 5e-5)
  lu.assertAlmostEquals(k.demand, most, most * 1e-5)
end

-- added_joist.lua, the nails of the deck: of a joist twelve feet long, one every foot, at
-- both ends too, makes thirteen.
function T.test_nails_of_the_deck_at_both_ends()
  local function lines(span)
    local fixed = joist {span = span, cuts = {ns.hole {at = 70, diameter = 3}}}
      :fix(ns.added_joist {side = "right"}):review().fixed
    for _, f in ipairs(fixed.fasteners) do
      if f.where:find "^deck" then return f.count end
    end
  end
  lu.assertEquals({lines(143), lines(144), lines(155)}, {12, 13, 13})
end

-- dowel.c, distances for the whole strength: each must be above 0 and below 1,000 in.
function T.test_each_full_distance_is_looked_at()
  local right = {e = 4, s = 4, e_min = 2, s_min = 2, e_full = 4, s_full = 4}
  lu.assertEquals(core.dowel.C_delta(right).C_e, 1)
  for _, name in ipairs {"e_full", "s_full"} do
    for _, wrong in ipairs {0, -1, 2000, 0 / 0} do
      local t = {}
      for field, value in pairs(right) do t[field] = field == name and wrong or value end
      lu.assertFalse((pcall(core.dowel.C_delta, t)), name)
    end
  end
end

-- ec5/johansen.c, densities: each must be that of a wood, 100 to 1,200 kg/m3.
function T.test_each_density_is_looked_at()
  local of, seen = core.dowel.johansen, nil
  core.dowel.johansen = function(t) -- luacheck: ignore
    seen = seen or t
    return of(t)
  end
  local ok, why = pcall(ns.johansen, {kind = "nail", diameter = "3.1 mm",
    length = "90 mm", head = "7 mm", fu = 600, side = {class = "C24",
    thickness = "45 mm"}, main = {class = "C24"}, number = 6})
  core.dowel.johansen = of -- luacheck: ignore
  lu.assertNotNil(seen, tostring(why) .. tostring(ok))
  lu.assertTrue((pcall(of, seen)))
  for _, name in ipairs {"rho_1", "rho_2"} do
    for _, wrong in ipairs {50, 5000} do
      local t = {}
      for field, value in pairs(seen) do t[field] = field == name and wrong or value end
      lu.assertFalse((pcall(of, t)), ("%s = %g"):format(name, wrong))
    end
  end
end

-- rows.lua, `least * least - 1e-9`: at 2.5 D exactly two bolts do not stand on one
-- another; what they lack is the distance between lines, (5 l + 10 D)/8 for l/D = 3
-- (NDS Table 12.5.1D): 1.5625 in of 1/2 in bolts in 1-1/2 in of wood.
function T.test_bolts_at_two_and_a_half_diameters()
  local function refused(apart)
    local r = joist {span = "13-0", cuts = {ns.sever {from = "6-0", to = "6-5"}}}
      :fix(ns.sister {from = "2-8", to = "10-0", side = "both", fastener = ns.fastener {
        kind = "bolt", diameter = "1/2 in"}, groups = {{at = 38, n = 1},
        {at = 38 + apart, n = 1}, {at = "5-6", n = 4}, {at = "6-11", n = 4},
        {at = "9-6", n = 4}}}):review()
    return r.fixed.refused
  end
  lu.assertStrContains(refused(1.25 - 1e-4), "stand within 1.25 in of each other")
  lu.assertStrContains(refused(1.25), "1.25 in apart; at least 1.562 in is needed")
  lu.assertStrContains(refused(1.5625 - 1e-4), "at least 1.562 in is needed")
  lu.assertNil(refused(1.5625))
end

-- header_parts.lua, `t.x0 < at - 1e-6`: on which side of its header a tail lies. A hole
-- within d of the hanger of the right tail is pressed on as its mirror image in the left
-- tail is; 3 in farther off it would not be.
function T.test_a_hole_beside_the_hanger_of_either_tail()
  local L = 156
  local function fixed(at, hole)
    return joist {span = L, cuts = {ns.sever {from = 67.5, to = 88.5}, ns.hole {at = hole,
      diameter = 2, below = 1.2}}}:fix(ns.header {at = at, hanger = "900 lb",
      tail_hanger = "900 lb"}):review().fixed
  end
  local right, left = fixed({66, 90}, 101), fixed({66, 90}, L - 101)
  local function pressed(a)
    local list = {}
    for _, k in ipairs(a.checks) do
      if k.mode == "opening-frame" then list[#list + 1] = k.ratio end
    end
    return list
  end
  lu.assertEquals(#pressed(left), 1)
  lu.assertEquals(#pressed(right), 1)
  lu.assertAlmostEquals(pressed(right)[1], pressed(left)[1], 1e-9)
  lu.assertAlmostEquals(right.ratio, left.ratio, 1e-9)
end

-- beside.lua, `overhang_left > 0`: the least overhang on either side makes moment run on
-- over a bearing, which the end of a new member cannot hold: a full sister shares by the
-- slip of its fasteners then, and by stiffness where there is none.
function T.test_a_full_sister_beside_the_least_overhang()
  local function by_stiffness(given)
    given.cuts = {ns.hole {at = 72, diameter = 3}}
    given.span = 144
    local bolt = ns.fastener {kind = "bolt", diameter = "1/2 in"}
    local a = joist(given):fix(ns.sister {pitch = 16, per_row = 1, fastener = bolt})
      :review().fixed
    lu.assertNil(a.refused)
    return table.concat(a.notes, "\n"):find "share by stiffness" ~= nil
  end
  lu.assertTrue(by_stiffness {})
  lu.assertFalse(by_stiffness {overhang_left = 0.5})
  lu.assertFalse(by_stiffness {overhang_right = 0.5})
  lu.assertFalse(by_stiffness {overhang_left = 3, overhang_right = 3})
end

-- fasten.lua, `columns * faces`: the columns of a group that is driven from both faces
-- stand evenly about the middle, none on another.
function T.test_a_group_driven_from_both_faces()
  local fasten = require "netsection.fix.fasten"
  for _, n in ipairs {1, 2, 4, 5, 9} do
    for faces = 1, 2 do
      local g = {low = 1, high = 6, up = 1.5, along = 2}
      local list, half = fasten.group(50, n, g, faces)
      local sum, least, most = 0, math.huge, -math.huge
      for _, f in ipairs(list) do
        sum, least, most = sum + f.x, math.min(least, f.x), math.max(most, f.x)
      end
      lu.assertEquals(#list, n * faces)
      lu.assertAlmostEquals(50 - least, most - 50, 1e-9)
      lu.assertAlmostEquals(most - 50, half, 1e-9)
    end
  end
end

-- member/beam.lua, `list[#list + 1] = post.y`: over the middle post of two equal spans,
-- with loads that stand beside it, M is that of two spans under point loads at a from
-- the outer post, P a (L^2 - a^2)/(4 L^2) of each (three moments).
function T.test_a_moment_over_a_post_where_no_joist_stands()
  local beam = require "netsection.member.beam"
  local L, P, loads, M = 96, 400, {}, 0
  for _, y in ipairs {8, 24, 40, 56, 72, 88, 104, 120, 136, 152, 168, 184} do
    local a = y < L and y or 2 * L - y
    loads[#loads + 1] = {y = y, D = P, L = 0}
    M = M + P * a * (L ^ 2 - a ^ 2) / (4 * L ^ 2)
  end
  local p = beam.pieces({{y = 0}, {y = L}, {y = 2 * L}}, loads,
    {EI = 1e8, weight = 0, continuous = true})[1]
  local most = 0
  beam.each_moment(p, function(q) if q.sign < 0 then most = math.max(most, q.D) end end)
  lu.assertAlmostEquals(most, M, 1e-6 * M)
end

-- steel.c, `memset(o, 0`: a wide plate with one small hole yields before it breaks:
-- 36 ksi/1.67 of 3 x 1/4 in under 58 ksi/2.00 of what the hole leaves (AISC 360 D2).
function T.test_a_plate_that_yields_first()
  local s = core.dowel.steel {F_y = 36000, F_u = 58000, w = 3, t = 0.25, D = 0.25,
    D_h = 0.25, rows = 1, n = 30, s = 2, g = 0, e = 1}
  lu.assertEquals(s.governs, "yield")
  lu.assertAlmostEquals(s.T, 36000 * 0.75 / 1.67, 1e-6)
end

-- fastener_group.lua, `r.row_staggered > 0`: rows of staggered nails may stand at 2.5 D
-- (from memory, as the data say); a bolt knows no such distance.
function T.test_rows_of_staggered_fasteners()
  local bolt = ns.fastener {kind = "bolt", diameter = "1/2 in"}
  local nail = ns.fastener {kind = "nail", size = "10d"}
  local function staggered(one)
    return ns.fastener.distances {fastener = one, load = "parallel"}.row_staggered
  end
  lu.assertNil(staggered(bolt))
  lu.assertAlmostEquals(staggered(nail).minimum, 2.5 * 0.148, 1e-9)
end

-- profile.lua, `list[2]`: what two holes above each other leave is three rectangles.
function T.test_a_section_through_two_holes()
  local p = joist {span = 162, cuts = {ns.hole {at = 81, diameter = 1, below = 1.5},
    ns.hole {at = 81, diameter = 1, below = 6.5}}}:review():profile(81)
  local left, A, Ay, Ayy = {{0, 1.5}, {2.5, 6.5}, {7.5, 9.25}}, 0, 0, 0
  for _, r in ipairs(left) do
    A = A + 1.5 * (r[2] - r[1])
    Ay = Ay + 1.5 * (r[2] ^ 2 - r[1] ^ 2) / 2
    Ayy = Ayy + 1.5 * (r[2] ^ 3 - r[1] ^ 3) / 3
  end
  lu.assertAlmostEquals(p.section.A, A, 1e-9)
  lu.assertAlmostEquals(p.section.y_b, Ay / A, 1e-9)
  lu.assertAlmostEquals(p.section.I, Ayy - Ay ^ 2 / A, 1e-9)
end

-- quantity.c, `severed[i] = 1`: a joist that is cut through is governed by that cut, not
-- by a bearing, in a sweep as in a review.
function T.test_what_governs_a_joist_cut_through()
  local j = joist {span = 162, cuts = {ns.sever {from = 80, to = 84}}}
  local s = ns.sweep {joist = j, over = {live = {30, 40}}, values = {"governing"}}
  lu.assertEquals(j:review().cut.governing, "sever")
  for row in s:rows() do lu.assertEquals(row.governing, "sever") end
end

-- hogging.c, `hogs[i] != 0`, where a bottom edge begins to hog: three equal spans, live
-- load on any of them, each by three moments. Under little dead load a far loaded span
-- lifts M over a support above nil, and what hogs beside the next one ends where M turns,
-- not at that support. C_L by NDS 3.3.3, of the free edge as long as M < 0.
function T.test_free_edges_of_three_spans()
  local L, b, d, E_min, F = 144, 1.5, 9.25, 580000, 900 * 1.1 * 1.15
  local function CL(u)
    local l_e = u / d < 7 and 2.06 * u or u / d <= 14.3 and 1.63 * u + 3 * d or 1.84 * u
    local a = 1.2 * E_min * b ^ 2 / (l_e * d) / F
    local half = (1 + a) / 1.9
    return half - math.sqrt(half ^ 2 - a / 0.95)
  end
  -- Length with M < 0 from the end at which M is `near`: to the root of
  -- near + (far - near) x/L + w x (L - x)/2, or the whole span.
  local function free(near, far, w)
    local B = (far - near) / L + w * L / 2
    local under = B * B + 2 * w * near
    local x = under >= 0 and B > 0 and -2 * near / (B + math.sqrt(under)) or L
    return math.min(x, L)
  end
  for _, dead in ipairs {1, 3, 5, 8, 15} do
    local most = 0
    for pattern = 0, 7 do
      local w = {}
      for n = 1, 3 do w[n] = (dead + 40 * (pattern >> n - 1 & 1)) * 16 / 144 end
      local p, q = -(w[1] + w[2]) * L ^ 2 / 4, -(w[2] + w[3]) * L ^ 2 / 4
      local M = {[0] = 0, (4 * p - q) / 15, (4 * q - p) / 15, 0}
      for j = 1, 2 do
        for _, side in ipairs {-1, 1} do
          local u = free(M[j], M[j + side], side < 0 and w[j] or w[j + 1])
          if M[j] < 0 then most = math.max(most, -M[j] / CL(u)) end
        end
      end
    end
    local r = joist {spans = {L, L, L}, dead = dead, material = {Fb = 900, E = 1.6e6,
      Fv = 180, Emin = E_min, CF = 1.1}}:review()
    for _, k in ipairs(r.uncut.checks) do
      if k.mode == "bending" and k.branch == 2 then
        lu.assertAlmostEquals(k.ratio, most / (F * b * d ^ 2 / 6), 1e-6, "dead " .. dead)
      end
    end
  end
end

-- fastener_group.lua, `d.d_w > 0`: of a screw whose head is not known no pull-over is
-- said; of one with a head 1.5 t d_w F_u over 3 (AISI S100 J4.4.2).
function T.test_pull_over_of_a_head_that_is_known()
  local function screw(head)
    return ns.fastener.screw_in_sheet {fastener = ns.fastener {kind = "wood screw",
      number = 10}, head = head, sheet = {steel = "A653 33", thickness = 0.06}}
  end
  lu.assertNil(screw(nil).pull_over)
  lu.assertAlmostEquals(screw(0.36).pull_over, 1.5 * 0.06 * 0.36 * 45000 / 3, 1e-6)
end

-- geometry.c, `depth + overcut`: a saw that went past the corner of a notch by a quarter
-- of an inch has made it that much deeper (README, fields.h), in every check and rule.
function T.test_a_saw_past_the_corner_is_depth()
  local function notched(kind, depth, overcut)
    local t = {depth = depth, overcut = overcut, face = "bottom"}
    if kind == "notch" then t.from, t.to = 40, 43 else
      t.support, t.length = "left", 6
    end
    return joist {span = 144, cuts = {ns[kind](t)}}:review()
  end
  for _, kind in ipairs {"notch", "end_notch"} do
    local sawn, deep = notched(kind, 1.25, 0.25), notched(kind, 1.5)
    local less = notched(kind, 1.25)
    lu.assertEquals(sawn.cut.ratio, deep.cut.ratio)
    lu.assertEquals(sawn.action, deep.action)
    local found = 0
    for i, k in ipairs(deep.cut.checks) do
      lu.assertEquals(sawn.cut.checks[i].ratio, k.ratio, k.mode)
      if k.ratio > less.cut.checks[i].ratio then found = found + 1 end
    end
    lu.assertTrue(found > 0, kind)
  end
end

-- profile.lua, `k == n`: what a loss takes from the sides of a joist is gone from its
-- outer faces, of two plies 1/4 in each, whichever of them is cut: (9-1/4 - 2) in.
function T.test_a_section_of_plies_with_lost_sides()
  for ply = 1, 2 do
    local p = joist {span = 162, plies = 2, cuts = {ns.loss {from = 60, to = 100,
      sides = 0.25, cause = "other", allowance = 0}, ns.hole {at = 81, diameter = 2,
      ply = ply}}}:review():profile(81)
    lu.assertAlmostEquals(p.section.A, (1.5 - 0.25) * (9.25 - 2), 1e-9)
  end
end

-- state.c, `M > |moment|`: two spans without any load have no moment: 0, not the -0 that
-- would be printed as it is.
function T.test_no_load_is_no_moment()
  local r = joist {spans = {120, 120}, dead = 0, live = 0}:review()
  lu.assertEquals(r.uncut.moment, 0)
  lu.assertTrue(1 / r.uncut.moment > 0)
end

-- curve.c, `f[b] = f[b - 1]`: places of a curve in order, from end to end, among them
-- where M is largest inside a piece (w x (L - x) / 2 + P b x / L, V = 0 there).
function T.test_places_of_a_curve_are_in_order()
  local r = joist {span = 162, loads = {ns.point {at = 100, load = "100 lb",
    case = "live"}}}:review()
  local list = core.curve(r.joist.model, r.packs.rules, r.packs.standard, "uncut", 7)
  local w = 52 * 16 / 144
  local top, nearest = 81 + 100 * 62 / 162 / w, 1e9
  lu.assertEquals(list[1].x, 0)
  lu.assertEquals(list[#list].x, 162)
  for i, p in ipairs(list) do
    if i > 1 then lu.assertTrue(p.x >= list[i - 1].x, p.x) end
    nearest = math.min(nearest, math.abs(p.x - top))
  end
  lu.assertAlmostEquals(nearest, 0, 1e-6)
end

return T
