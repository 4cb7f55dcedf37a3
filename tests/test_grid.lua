-- SPDX-License-Identifier: MIT
-- A floor as a grid. Values by independent computation unless a source stands beside
-- them: another grid program with its own assembly, a force method without elements for
-- the joist that is cut through (largest moment beside it 29,722 lb-in), closed forms,
-- and the Fourier series at the end of this file, which is exact for whole joists.
local lu = require "luaunit"
local ns = require "netsection"
local core = require "netsection.core"
local support = require "tests.support"

local T = {}

local close, raises = support.close, support.raises

local WOOD = {Fb = 900, Ft = 575, Fc = 1350, Fv = 180, E = 1.6e6, CF = 1.1,
  Fc_perp = 625, source = "given"}
-- 24oc panel, and the joist: 2x10, E 1.6e6.
local DECK = {across = 300000, along = 80500, FbS = 770}
local BARE = {across = 300000, along = 0}
local EI = 1.6e6 * 1.5 * 9.25 ^ 3 / 12
local GAP = {ns.sever {from = 78.5, to = 83.5}}

-- Seven joists at 16 in over 13-6. @param cuts {J4 = {...}}; @param own fields of a joist
local function floor(cuts, own, n)
  local joists = {}
  for i = 1, n or 7 do
    local mark = "J" .. i
    joists[i] = {mark = mark, cuts = cuts and cuts[mark]}
    for name, value in pairs(own and own[mark] or {}) do joists[i][name] = value end
  end
  return ns.floor {name = "G1", size = "2x10", spacing = 16, span = 162, bearing = 3.5,
    dead = 12, live = 40, material = WOOD, joists = joists}
end

local function at_middle(more)
  local t = {deck = DECK, points = {{joist = "J4", at = 81, load = 225}}}
  for name, value in pairs(more or {}) do t[name] = value end
  return t
end

local function balance(g)
  local sum = 0
  for _, mark in ipairs(g.order) do sum = sum + g:of(mark).reaction end
  lu.assertTrue(math.abs(sum - g.load) <= 1e-9 * g.load, ("%.3g lb of %g are missing")
    :format(sum - g.load, g.load))
end

-- @param rows {J4 = {R %, M % at 81, w at 81, max M}}, nil: not told
local function holds(g, rows)
  balance(g)
  for mark, row in pairs(rows) do
    local r, M = g:of(mark), 0
    for _, name in ipairs(g.order) do M = M + g:at(name, 81).M end
    local found = {r.share.reactions * 100, g:at(mark, 81).M / M * 100,
      g:at(mark, 81).w, r.M_max}
    for k, wanted in pairs(row) do
      if wanted == 0 then
        lu.assertTrue(math.abs(found[k]) < 1e-6, mark)
      else
        -- 1 % and half of the last digit of percents and of deflections.
        support.close_abs(found[k], wanted, 0.01 * math.abs(wanted)
          + (k < 3 and 0.005 or k == 3 and 5e-6 or 0.5), mark .. " " .. k)
      end
    end
  end
end

local function differences(g, wanted)
  for i, v in ipairs(wanted) do
    support.close_abs(g:bays()[i].differential, v, 0.01 * v + 5e-6, "bay " .. i)
  end
end

function T.test_sound_floor_under_a_point_load()
  local g = floor():grid(at_middle())
  holds(g, {J4 = {36.48, 58.06, .06223, 5287}, J3 = {31.71, 21.29, .03215, 1938},
    J2 = {5.64, 3.18, .00502}, J1 = {-5.59, -3.50, -.00537}})
  differences(g, {.01039, .02713, .03008})
  close(g:of("J4").deck.M_max, 120.7, 0.01)
  lu.assertEquals(g:uplift(), {})    -- the dead load holds J1 down
end

function T.test_shares_bear_their_names()
  local s = floor():grid(at_middle()):of("J4").share
  close(s.reactions, 0.3648, 0.01)
  close(s.moment, 0.5806, 0.01)
  -- By the sum of the deflections above, J5 to J7 as J3 to J1.
  close(s.deflection, .06223 / (.06223 + 2 * (.03215 + .00502 - .00537)), 0.01)
end

function T.test_one_joist_of_half_stiffness()
  local half = {}
  for name, value in pairs(WOOD) do half[name] = value end
  half.E, half.Emin = 0.8e6, 290000
  local own = {J4 = {material = half}}
  local f = floor(nil, own)
  holds(f:grid(at_middle()), {J4 = {17.02, 44.28, .08334, 4031},
    J3 = {41.19, 28.33, .04253, 2579}, J2 = {7.72, 4.14, .00663},
    J1 = {-7.43, -4.62, -.00710}})
  differences(f:grid(at_middle()), {.01373, .03591, .04081})
  local u = f:grid {deck = DECK}
  holds(u, {J4 = {nil, nil, .45060, 12907}, J3 = {nil, nil, .39255, 22815},
    J2 = {nil, nil, .29960, 17313}, J1 = {nil, nil, .17655, 10241}})
  close(u:of("J3").reaction, 1090.4, 0.01)
end

function T.test_a_joist_cut_through()
  local g = floor {J4 = GAP}:grid(at_middle())
  holds(g, {J4 = {-26.06, 0, .16839}, J3 = {59.60, 51.83, .07164, 4599},
    J2 = {16.36, 5.91, .01092}, J1 = {-12.94, -7.74, -.01186}})
  differences(g, {.02278, .06071, .09675})
  close(g:of("J4").M_min, -1124, 0.01)
  close(g:of("J4").reaction, -58.6, 0.01)
  close(g:of("J3").reaction, 134.1, 0.01)
  close(g:of("J4").deck.M_max, 421.2, 0.01)
end

function T.test_all_load_of_the_floor()
  local sound = floor():grid {deck = DECK}
  holds(sound, {J4 = {nil, nil, .34135, 19789}, J3 = {nil, nil, .33401, 19348},
    J2 = {nil, nil, .29038, 16758}, J1 = {nil, nil, .18637, 10826}})
  for mark, R in pairs {J4 = 968.7, J3 = 952.3, J2 = 850.6, J1 = 520.8} do
    close(sound:of(mark).reaction, R, 0.01)
  end
  local g = floor {J4 = GAP}:grid {deck = DECK}
  holds(g, {J4 = {nil, nil, .74456, 3639}, J3 = {nil, nil, .48580, 29570},
    J2 = {nil, nil, .31307, 17663}, J1 = {nil, nil, .16142, 9410}})
  for mark, R in pairs {J4 = 427.6, J3 = 1193.7, J2 = 943.3, J1 = 457.2} do
    close(g:of(mark).reaction, R, 0.01)
  end
  close(g:of("J4").deck.M_max, 1137, 0.01)
end

-- Bound above: all loads between the bearings of seven joists, half on the edge ones.
function T.test_load_of_the_floor_is_all_there()
  local g = floor():grid {deck = DECK}
  close(g.load, 6 * 52 * 16 / 12 * 13.5, 1e-12)
  close(floor():grid {deck = DECK, edges = "full"}.load, 7 * 52 * 16 / 12 * 13.5, 1e-12)
  close(floor():grid {deck = DECK, uniform = "dead"}.load, 6 * 12 * 16 / 12 * 13.5, 1e-12)
end

function T.test_bands()
  local b = floor {J4 = GAP}:grid {deck = DECK}:band().J3.M_max
  local lone = 52 * 16 / 144 * 162 ^ 2 / 8
  lu.assertTrue(b[1] / lone < 1.516 * 1.001 and b[2] / lone > 1.602 * 0.999)
  for k, wanted in pairs {[0.5] = 1.602, [0.1] = 1.688, [2] = 1.516} do
    local g = floor {J4 = GAP}:grid {deck = {across = 3e5 * k, along = 80500 * k}}
    close(g:of("J3").M_max / lone, wanted, 0.005)
  end
end

function T.test_rows_of_blocks()
  local g = floor():grid(at_middle {blocking = {{at = 81, k = math.huge}}})
  holds(g, {J4 = {18.05, 18.46, .02302, 1681}, J3 = {16.93, 16.87, .02126, 1536},
    J2 = {13.87, 13.77, .01737}, J1 = {10.18, 10.13, .01277}})
  differences(g, {.00460, .00389, .00176})
  holds(floor():grid(at_middle {blocking = {{at = 81, k = 5e5}}}),
    {J4 = {33.65, 45.80, .05152, 4170}, J3 = {29.06, 23.30, .03229, 2122},
    J2 = {8.96, 7.82, .01030}, J1 = {-4.85, -4.02, -.00544}})
  holds(floor():grid(at_middle {blocking = {{at = 81, k = 1e5}}}),
    {J4 = {35.75, 54.37, .05906, 4951}, J3 = {31.02, 22.03, .03235, 2007},
    J2 = {6.68, 4.69, .00672}, J1 = {-5.57, -3.91, -.00569}})
  local rows = {{at = 54, k = 5e5}, {at = 108, k = 5e5}}
  local cut = floor {J4 = GAP}:grid(at_middle {blocking = rows})
  holds(cut, {J4 = {-28.55, nil, .12352}, J3 = {49.78, nil, .06128, 3856},
    J2 = {23.83, nil, .02122}, J1 = {-9.33, nil, -.00912}})
  differences(cut, {.03034, .04006, .06224})
end

-- No k is published: the row counts as nothing, and as ends that do not turn beside it.
function T.test_rows_without_a_stiffness_are_bounded()
  local g = floor():grid(at_middle {blocking = {{at = 81}}})
  lu.assertEquals(g:of("J4").M_max, floor():grid(at_middle()):of("J4").M_max)
  close(g.rigid:of("J4").share.reactions, 0.1805, 0.01)
  lu.assertStrContains(g.rigid.bound, "upper bound")
end

function T.test_panel_ends()
  local all = floor():grid(at_middle {panel_ends = {{joist = "J4"}}})
  holds(all, {J4 = {68.92, 79.86, .09514, 7272}, J3 = {24.72, 16.13, .02453, 1469},
    J2 = {-2.82, -2.05, -.00304}, J1 = {-6.36, -4.01, -.00615}})
  lu.assertEquals(all:of("J4").deck.M_max, 0)
  local rows = {{joist = "J4", from = 0, to = 48}, {joist = "J4", from = 96, to = 144}}
  holds(floor():grid(at_middle {panel_ends = rows}),
    {J4 = {49.48, 60.60, .06932, 5518}, J3 = {26.72, 21.60, .03064, 1967},
    J2 = {4.39, 1.67, .00315}, J1 = {-5.85, -3.57, -.00554}})
end

function T.test_load_on_the_edge_and_off_the_middle()
  holds(floor():grid(at_middle {points = {{joist = "J1", at = 81, load = 225}}}),
    {J1 = {82.16, 88.46, .10827, 8058}, J2 = {28.05, nil, .02778}, J3 = {-3.19},
    J4 = {-5.59}})
  local g = floor():grid(at_middle {points = {{joist = "J4", at = 40.5, load = 225}}})
  for mark, row in pairs {J4 = {52.70, 67.71}, J3 = {24.16, 17.20}, J2 = {3.34, 1.20},
    J1 = {-3.85}} do
    local s = g:of(mark).share
    support.close_abs(s.reactions * 100, row[1], 0.01 * math.abs(row[1]) + 0.005, mark)
    if row[2] then
      support.close_abs(s.moment * 100, row[2], 0.01 * row[2] + 0.005, mark)
    end
  end
  close(g:at("J4", 40.5).w, .03774, 0.01)
  close(g:of("J4").deflection.value, .0438, 0.01)
  close(g:of("J4").M_max, 4624, 0.01)
  close(g:of("J3").M_max, 1399, 0.01)
end

-- w = P L^3 / (48 EI), and statics of rigid bodies: equal shares for a load on the middle
-- line, a straight line of shares for one on the edge.
function T.test_no_deck_and_a_deck_that_does_not_bend()
  local none = floor():grid(at_middle {deck = {across = 0, along = 0}})
  close(none:of("J4").share.reactions, 1, 1e-9)
  close(none:at("J4", 81).w, 225 * 162 ^ 3 / (48 * EI), 1e-6)
  lu.assertEquals(none:of("J3").M_max, 0)
  local stiff = {across = 1e12, along = 0}
  local g = floor():grid(at_middle {deck = stiff})
  for _, mark in ipairs(g.order) do close(g:of(mark).share.reactions, 1 / 7, 0.01) end
  local edge = floor():grid(at_middle {deck = stiff, points = {{joist = "J1", at = 81,
    load = 225}}})
  for i, R in ipairs {46.43, 35.71, 25.00, 14.29, 3.57, -7.14, -17.86} do
    support.close_abs(edge:of("J" .. i).share.reactions * 100, R, 0.5, "J" .. i)
  end
end

-- Even load sin(pi x/L) on the middle of three: c = 3 D_y/(2 s^3), q = c L^4/(EI pi^4);
-- it carries (1 + 2 q)/(1 + 6 q), each beside it 2 q/(1 + 6 q).
function T.test_three_joists_under_a_sine_load()
  local n, L = 162, 162
  local t = {x = {}, y = {0, 16, 32}, EI = {}, along = {0, 0, 0}, wood = {}, held = {},
    strips = {}}
  for k = 0, n do t.x[k + 1] = k * L / n end
  local P = {}
  for i = 1, 3 do
    t.EI[i], t.wood[i], t.held[i] = {}, {1, n + 1}, {1, n + 1}
    for e = 1, n do t.EI[i][e] = EI end
  end
  for k = 1, n + 1 do
    local h = (k == 1 or k == n + 1) and 0.5 or 1
    t.strips[k] = {station = k, EI = 25000 * h, width = h}
    P[k] = {2, k, math.sin(math.pi * (k - 1) / n)}
  end
  local answer = core.grid(t):solve {P = P}
  local sum, M = 0, {}
  for i = 1, 3 do
    M[i] = answer:at(i, 81).M
    sum = sum + M[i]
  end
  local q = 3 * 25000 / (2 * 16 ^ 3) / (EI * (math.pi / L) ^ 4)
  close(q, 0.408956, 1e-5)
  close(M[2] / sum, (1 + 2 * q) / (1 + 6 * q), 1e-3)
  close(M[1] / sum, 0.236820, 1e-3)
end

function T.test_three_and_five_joists()
  local function shares(n, j)
    return floor(nil, nil, n):grid {deck = BARE, points = {{joist = "J" .. j, at = 81,
      load = 225}}}
  end
  holds(shares(3, 2), {J1 = {29.765, 19.289, .0294}, J2 = {40.470, 61.422, .067102}})
  holds(shares(5, 3), {J1 = {-3.430, -2.455, -.003656}, J2 = {33.489, 22.322, .033793},
    J3 = {39.882, 60.265, .065627}})
end

-- A row at mid-span of three joists alone: its middle turns by 2/k more, so that it holds
-- the middle joist back with F = 2 M/s, M (2 s/(3 EI) + 2/k) = 2 (w_2 - w_1)/s.
function T.test_blocks_with_springs_by_hand()
  local P, L, s, k, row = 225, 162, 16, 4e5, 9e7
  local g = floor(nil, nil, 3):grid {deck = {across = 0}, points = {{joist = "J2",
    at = 81, load = P}}, blocking = {{at = 81, k = k, EI = row}}}
  local joist = 48 * EI / L ^ 3
  local c = 4 / (s ^ 2 * (2 * s / (3 * row) + 2 / k))
  local F = P * c / (joist + 1.5 * c)
  close(g:of("J2").reaction, P - F, 1e-6)
  close(g:of("J1").reaction, F / 2, 1e-6)
  close(g:at("J2", 81).w - g:at("J1", 81).w, F / c, 1e-6)
end

-- Published shares of a plywood manual, after tests: joists 40 x 300 mm at 400, span
-- 2400, stiffness ratio E_j I_j s^3/(E_f I_f L^3) = 0.18 with the deck over the whole
-- span: the loaded joist takes 60 % of the reaction, those beside it 20 % each.
function T.test_share_of_a_plywood_manual()
  local joists = {}
  for i = 1, 9 do joists[i] = {mark = "J" .. i} end
  local f = ns.floor {name = "manual", b = "40 mm", d = "300 mm", spacing = "400 mm",
    span = "2400 mm", bearing = 3.5, dead = 12, live = 40, material = WOOD,
    joists = joists}
  local mm = 1 / 25.4
  local I = 40 * 300 ^ 3 / 12 * mm ^ 4
  local deck = WOOD.E * I * 400 ^ 3 / (0.18 * 2400 ^ 3) / (2400 * mm) * 12
  local g = f:grid {deck = {across = deck}, points = {{joist = "J5", at = "1200 mm",
    load = 225}}}
  support.close_abs(g:of("J5").share.reactions * 100, 60, 2)
  support.close_abs(g:of("J4").share.reactions * 100, 20, 5)
end

-- First frequencies of the grid; half of the mass is on the edge joists.
function T.test_frequencies()
  for k, f in ipairs {12.938, 14.201, 16.644} do
    close(floor():grid {deck = DECK}:modes()[k].hertz, f, 0.01)
  end
  local cut = floor {J4 = GAP}:grid {deck = DECK}:modes()
  for k, f in ipairs {10.150, 14.201, 16.186} do close(cut[k].hertz, f, 0.01) end
  -- The second mode leaves the middle joist where it is.
  lu.assertTrue(cut[2].moves.J4 < 1e-3 and cut[2].moves.J2 > 0.5)
end

-- pi/2 sqrt(EI/(m L^4)) of a joist that no deck ties to the next.
function T.test_frequency_of_a_joist_by_itself()
  local g = floor():grid {deck = {across = 0, along = 0}}
  local m = 12 * 16 / 144 / 386.0886
  close(g:modes(1)[1].hertz, math.pi / 2 * math.sqrt(EI / m / 162 ^ 4), 1e-3)
end

------------------------------------------------------------------------------ statics

local function random_floor(random, i)
  local n, joists = random:int(3, 9), {}
  local y = {}
  for k = 1, n do y[k] = 8 + 2 * random:int(0, 8) end
  for k = 1, n do
    joists[k] = {mark = "J" .. k, size = ({"2x8", "2x10", "2x12"})[random:int(1, 3)],
      spacing = {y[k], y[k + 1] or y[k]}, span = 144 + 6 * random:int(0, 6)}
    local what = random:int(1, 5)
    if what == 1 then
      joists[k].cuts = {ns.hole {at = 60, diameter = 2}}
    elseif what == 2 and k % 3 == 2 then
      joists[k].cuts = {ns.sever {from = 70, to = 72 + random:int(0, 8)}}
    end
    if random:int(1, 3) == 1 then
      joists[k].loads = {ns.point {at = 50.3, load = 300}, ns.line {from = 20.7, to = 90,
        load = "30 plf", to_load = "10 plf"}}
    end
  end
  return ns.floor {name = "random " .. i, dead = 10, live = 40, bearing = 3.5,
    material = WOOD, joists = joists}
end

function T.test_every_grid_is_in_balance()
  local random = support.random(20261129)
  for i = 1, tonumber(os.getenv "NETSECTION_GRIDS") or 25 do
    local f = random_floor(random, i)
    local t = {deck = {across = 5e4 * random:int(1, 20), along = 2e4}}
    if i % 2 == 0 then t.blocking = {{at = 66.6, k = 1e5 * random:int(1, 9)}} end
    if i % 3 == 0 then t.panel_ends = {{joist = "J2", from = 10.1, to = 58.2}} end
    if i % 4 == 0 then
      t.points, t.uniform = {{y = 5.5, at = 77.7, load = 225}}, true
    end
    balance(f:grid(t))
  end
end

function T.test_mirrored_floors_agree()
  local a = floor {J3 = {ns.sever {from = 60, to = 65}}}:grid {deck = DECK}
  local b = floor {J5 = {ns.sever {from = 97, to = 102}}}:grid {deck = DECK}
  for i = 1, 7 do
    local p, q = a:of("J" .. i), b:of("J" .. 8 - i)
    close(p.reactions[1], q.reactions[2], 1e-7)
    close(p.M_max, q.M_max, 1e-6)
    close(a:at("J" .. i, 40).w, b:at("J" .. 8 - i, 122).w, 1e-7)
  end
end

-- A load between two joists goes to both by the lever rule.
function T.test_a_load_between_joists()
  local f = floor()
  local between = f:grid {deck = DECK, points = {{y = 52, at = 81, load = 225}}}
  local one = f:grid {deck = DECK, points = {{joist = "J4", at = 81, load = 168.75},
    {joist = "J5", at = 81, load = 56.25}}}
  for i = 1, 7 do
    close(between:of("J" .. i).reaction, one:of("J" .. i).reaction, 1e-12)
  end
end

-- A wider gap puts more of the load on the joists beside it. (Their largest moment falls
-- by 1 % from 16 to 41 in of gap: the tips of the stubs, where the load comes down, are
-- farther from mid-span.) Less deck puts more on the nearest.
function T.test_worse_is_never_better()
  local R = 0
  for gap = 1, 41, 10 do
    local g = floor {J4 = {ns.sever {from = 81 - gap / 2, to = 81 + gap / 2}}}:grid {
      deck = DECK}
    lu.assertTrue(g:of("J3").reaction > R)
    R = g:of("J3").reaction
  end
  local M = math.huge
  for k = 1, 4 do
    local g = floor {J4 = GAP}:grid {deck = {across = 1e5 * k, along = 80500}}
    lu.assertTrue(g:of("J3").M_max < M)
    M = g:of("J3").M_max
  end
end

---------------------------------------------------------------------------- refusals

function T.test_refusals()
  local f = floor()
  local points = {{joist = "J4", at = 81, load = 225}}
  raises("deck: missing", function() f:grid {points = points} end)
  raises("repetitive: 1.0 in a grid", function()
    f:grid {deck = DECK, repetitive = 1.15}
  end)
  raises("unknown field 'dock'", function() f:grid {dock = DECK} end)
  raises("unknown (available:", function() f:grid {deck = "25oc"} end)
  raises("no joist 'J9'", function()
    f:grid {deck = DECK, points = {{joist = "J9", at = 81, load = 225}}}
  end)
  raises("beyond the edge joists", function()
    f:grid {deck = DECK, points = {{y = 200, at = 81, load = 225}}}
  end)
  raises("not on joist J4", function()
    f:grid {deck = DECK, points = {{joist = "J4", at = 170, load = 225}}}
  end)
  raises("no load: give points", function() f:grid {deck = DECK, uniform = false} end)
  raises("above 0 expected", function()
    f:grid {deck = DECK, points = {{joist = "J4", at = 81, load = 0}}}
  end)
  raises("three joists at least", function()
    f:grid {deck = DECK, blocking = {{at = 81, from = "J1", to = "J2"}}}
  end)
  raises("grid.points: not taken here", function()
    f:review {grid = {deck = DECK, points = points}}
  end)
  raises("grid.repetitive: not taken here", function()
    f:review {grid = {deck = DECK, repetitive = 1.15}}
  end)
end

-- One strip alone would carry it, and ever more the narrower it is.
function T.test_a_point_load_over_a_gap_needs_a_deck_along()
  raises("give the deck's EI along the joists", function()
    floor {J4 = GAP}:grid {deck = BARE, points = {{joist = "J4", at = 81, load = 225}}}
  end)
  balance(floor {J4 = GAP}:grid {deck = BARE})
end

function T.test_what_nothing_holds_is_refused()
  raises("held by nothing", function()
    floor({J2 = GAP}, nil, 3):grid {deck = BARE, panel_ends = {{joist = "J2"}}}
  end)
end

-- In a review it is a result: the block says why, the code check stands.
function T.test_a_review_says_why_there_is_no_grid()
  local r = floor({J2 = GAP}, nil, 2):review {grid = {deck = BARE}, feel = true}
  lu.assertStrContains(r.grid.refused, "held by nothing")
  local said = ns.report.text(r)
  lu.assertStrContains(said, "not computed: part of the floor is held by nothing")
  lu.assertStrContains(ns.report.json(r), "held by nothing")
  lu.assertStrContains(ns.report.html(r), "held by nothing")
  balance(floor(nil, nil, 1):review {grid = {deck = DECK}}.grid)
  balance(floor(nil, nil, 2):review {grid = {deck = DECK}}.grid)
end

function T.test_a_joist_without_numbers_needs_its_stiffness()
  local f = floor(nil, {J2 = {member = "I-joist"}})
  raises("J2: no stiffness", function() f:grid(at_middle()) end)
  balance(f:grid(at_middle {EI = {J2 = 2e8}}))
end

------------------------------------------------------------------ beside the code check

-- 1.560 of w L^2/8 under the grid; the stub rule 241.2 lb at the gap, 28,723 lb-in; half
-- to each 28,431; own plus what the grid adds 18,954 + 29,570 - 19,348.
function T.test_until_repaired()
  local r = floor {J4 = GAP}:review {grid = {deck = {across = 3e5, along = 80500}}}
  for _, mark in ipairs {"J3", "J5"} do
    local g = r.joists[mark].until_repaired.grid
    close(g.stub.load, 241.2, 0.002)
    close(g.stub.moment, 28723, 0.002)
    close(g.half.moment, 28431, 0.002)
    close(g.grid.moment, 18954 + 29570 - 19348, 0.005)
    close(g.ratio, (18954 + 29570 - 19348) / (990 * 21.390625), 0.005)
    lu.assertEquals({g.by, g.reliable, g.Cr, g.because}, {"grid", true, 1.0, {"J4"}})
    lu.assertStrContains(g.said, "carries part of J4")
    lu.assertStrContains(g.said, "over 1: shore")
  end
  lu.assertNil(r.joists.J2.until_repaired)
  -- f_b 29,570/21.39 = 1382 psi of F_b' 990, Cr 1.0.
  close(r.grid.use.J3, 1.396, 0.005)
  lu.assertNil(r.grid.use.J4)
end

-- 1137 lb-in per ft of 770: the grid does not hold, the hand rules count.
function T.test_a_deck_over_its_strength_is_not_relied_on()
  local g = floor {J4 = GAP}:review {grid = {deck = DECK}}.joists.J3.until_repaired.grid
  lu.assertEquals({g.by, g.reliable}, {"stub", false})
  lu.assertStrContains(g.said, "not reliable")
  close(g.ratio, 28723 / (990 * 21.390625), 0.002)
end

local STATES = {"uncut", "cut", "fixed"}

-- What the code check says of a joist, as one text.
local function verdict_of(r)
  local out = {r.action, r.rules.status, tostring(r.out)}
  for _, state in ipairs(STATES) do
    local a = r[state]
    if a then
      out[#out + 1] = ("%s %s %.17g %s"):format(state, a.status, a.ratio or -1,
        tostring(a.governing))
      for _, k in ipairs(a.checks) do
        out[#out + 1] = ("%s %.17g"):format(k.mode, k.ratio or -1)
      end
    end
  end
  local u = r.until_repaired
  if u then out[#out + 1] = ("until %.17g %s"):format(u.ratio or -1, u.status) end
  return table.concat(out, "\n")
end

-- Nothing of the code check changes, in any output but the block of its own.
function T.test_the_grid_changes_no_verdict()
  local cuts = {J2 = {ns.hole {at = 81, diameter = 3.5}}, J4 = GAP,
    J6 = {ns.notch {from = 70, to = 74, depth = 2, face = "bottom"}}}
  local f = floor(cuts)
  local without = f:review()
  local with = f:review {grid = {deck = "24oc OSB", blocking = {{at = 54}}}}
  for _, mark in ipairs(without.order) do
    lu.assertEquals(verdict_of(with.joists[mark]), verdict_of(without.joists[mark]))
  end
  lu.assertEquals({with.actions, with.summary}, {without.actions, without.summary})
  local plain, said = ns.report.text(without), ns.report.text(with)
  local a = assert(said:find("Second opinion: floor as a grid", 1, true))
  local b = assert(said:find("\nAssumptions\n", a, true))
  lu.assertEquals(said:sub(1, a - 1) .. said:sub(b + 1), plain)
  local block = said:sub(a, b)
  for _, word in ipairs {"leave", "justify", "adequate as", "passes", "permitted"} do
    lu.assertNil(block:find(word, 1, true), word)
  end
  lu.assertStrContains(block, "Not used for the verdict")
  lu.assertStrContains(block, "Cr 1.0")
end

-- The factor for repetitive members never stands on a line with a share of the grid.
function T.test_repetitive_factor_and_sharing_stand_apart()
  local f = floor({J4 = GAP}, {J3 = {repetitive = 1.15}})
  local r = f:review {grid = {deck = {across = 3e5, along = 80500}}}
  close(r.joists.J3.until_repaired.grid.half.ratio, 28431 / (990 * 21.390625), 0.002)
  for line in ns.report.text(r):match("Second opinion.-\nAssumptions"):gmatch "[^\n]+" do
    lu.assertNil(line:find("1.15", 1, true), line)
  end
end

function T.test_on_paper_and_in_numbers()
  local r = floor {J4 = GAP}:review {grid = {deck = "24oc OSB"}}
  local page = ns.report.html(r)
  lu.assertStrContains(page, "Second opinion: floor as a grid")
  local name, shown = page:match
    'data%-name="(grid%.joists%.J3%.M_max_ft_lb)"><bdi>(%d+)<'
  lu.assertEquals({name, shown}, {"grid.joists.J3.M_max_ft_lb", "2464"})
  local json = ns.report.json(r)
  lu.assertStrContains(json,
    '"source":"ASD/LRFD manual that goes with NDS, Table M9.2-1"')
  lu.assertStrContains(ns.report.csv(r), "grid.joists.J3.M_max,2957")
  lu.assertStrContains(ns.report.markdown(r), "Second opinion")
  lu.assertStrContains(ns.report.latex(r), "Second opinion")
end

-- Table M9.2-1 of the manual, two of its rows; turned, the axes change places.
function T.test_decks()
  local g = floor():grid(at_middle {deck = "24oc OSB"})
  lu.assertEquals({g.deck.across, g.deck.along, g.deck.FbS}, {300000, 80500, 770})
  local turned = floor():grid(at_middle {deck = {panel = "48/24 OSB", turned = true}})
  lu.assertEquals({turned.deck.across, turned.deck.along}, {91500, 400000})
  -- I = 12 t^3/12 of a foot of boards.
  local boards = floor():grid(at_middle {deck = {boards = {thickness = 0.75, E = 1.2e6}}})
  close(boards.deck.across, 1.2e6 * 0.75 ^ 3, 1e-12)
  lu.assertEquals(boards.deck.along, 0)
end

-- A repair brings back what the joist beside had before the cut: 19,348 lb-in of 29,570
-- where the new member is as stiff as the old joist. The order of the ranking is the same
-- without it.
function T.test_what_a_repair_takes_off_the_joists_beside()
  local glue = {}
  for name, value in pairs(WOOD) do glue[name] = value end
  glue.G = 0.5
  local f = ns.floor {name = "G1", size = "2x10", spacing = 16, span = 162, bearing = 3.5,
    dead = 12, live = 40, material = glue, joists = {{mark = "J1"}, {mark = "J2"},
    {mark = "J3"}, {mark = "J4", cuts = GAP}, {mark = "J5"}, {mark = "J6"},
    {mark = "J7"}}}
  local fixes = {ns.sister {size = "2x10", material = glue, from = "2-6", to = "11-0",
    fastener = ns.fastener {kind = "bolt", diameter = "1/2 in"},
    groups = {{at = "3-0", n = 4}, {at = "5-6", n = 4}, {at = "8-0", n = 4},
      {at = "10-6", n = 4}}}}
  local with = f:rank_fixes("J4", fixes, {grid = {deck = DECK}})
  local without = f:rank_fixes("J4", fixes)
  lu.assertEquals(#with.ranked, #without.ranked)
  lu.assertEquals(with.ranked[1].ratio, without.ranked[1].ratio)
  local n = with.ranked[1].relief[1]
  lu.assertEquals(n.mark, "J3")
  close(n.before, 29570, 0.01)
  close(n.after, 19348, 0.04)
  lu.assertStrContains(ns.report.fixes(with), "sharing by the grid, not in the order")
  raises("grid.points: not taken here", function()
    f:rank_fixes("J4", fixes, {grid = {deck = DECK, points = {}}})
  end)
end

-- Reactions before and after stand on the plan as by independent computation (lb at one
-- end: 1193.7/2 and 952.3/2 of J3), with the gap and lines of equal deflection.
function T.test_plan_of_reactions()
  local g = floor {J4 = GAP}:review {grid = {deck = "24oc OSB"}}.grid
  local script = ns.plot.grid_plan(g, {output = "grid.svg"})
  lu.assertStrContains(script, "'J3  597 (476)'")
  lu.assertStrContains(script, "'J4  214 (484)'")
  lu.assertStrContains(script, "Second opinion, not used for the verdict")
  lu.assertStrContains(script, "78.5000 ")
  raises("a grid of floor:grid expected", function() ns.plot.grid_plan {} end)
  raises("the height must be at least", function()
    ns.plot.grid_plan(g, {size = {8, 1}})
  end)
end

------------------------------------------------------------------- Fourier series

-- Solves A x = b in place; A is small, symmetric and positive.
local function solve(A, b)
  local n = #b
  for p = 1, n do
    for r = p + 1, n do
      local t = A[r][p] / A[p][p]
      for c = p, n do A[r][c] = A[r][c] - t * A[p][c] end
      b[r] = b[r] - t * b[p]
    end
  end
  for p = n, 1, -1 do
    for c = p + 1, n do b[p] = b[p] - A[p][c] * b[c] end
    b[p] = b[p] / A[p][p]
  end
  return b
end

-- Stiffness of a continuous beam over supports at y to their settlements, by slopes and
-- deflections: each bay 12/6/4/2 EI, slopes then taken out one by one.
local function beam_across(y, D)
  local n = #y
  local K = {}
  for r = 1, 2 * n do
    K[r] = {}
    for c = 1, 2 * n do K[r][c] = 0 end
  end
  for i = 1, n - 1 do
    local s = y[i + 1] - y[i]
    local k = {{12, 6 * s, -12, 6 * s}, {6 * s, 4 * s * s, -6 * s, 2 * s * s},
      {-12, -6 * s, 12, -6 * s}, {6 * s, 2 * s * s, -6 * s, 4 * s * s}}
    local at = {i, n + i, i + 1, n + i + 1}
    for a = 1, 4 do
      for b = 1, 4 do
        K[at[a]][at[b]] = K[at[a]][at[b]] + D / s ^ 3 * k[a][b]
      end
    end
  end
  for p = 2 * n, n + 1, -1 do
    for r = 1, p - 1 do
      local t = K[r][p] / K[p][p]
      for c = 1, p - 1 do K[r][c] = K[r][c] - t * K[p][c] end
    end
  end
  return K
end

-- Deflection at x, reactions and moments at x by sines of m pi x/L: in each, the joists
-- and the deck are springs, EI (m pi/L)^4 and the beam across. What a joist gets from the
-- others is summed; its own load comes by statics.
local function series(y, L, stiff, D, along, j, x0, P, x)
  local n, Kd = #y, beam_across(y, D)
  local total = {}
  for i = 1, n do
    local trib = ((y[i + 1] or y[i]) - (y[i - 1] or y[i])) / 2
    total[i] = stiff[i] + along * trib
  end
  local w, R, M = {}, {}, {}
  for i = 1, n do w[i], R[i], M[i] = 0, 0, 0 end
  for m = 1, 400 do
    local a = m * math.pi / L
    local A, p = {}, {}
    for r = 1, n do
      A[r] = {}
      for c = 1, n do A[r][c] = Kd[r][c] + (r == c and total[r] * a ^ 4 or 0) end
      p[r] = r == j and 2 * P / L * math.sin(a * x0) or 0
    end
    local own = p[j]
    local c = solve(A, p)
    for i = 1, n do
      local from_others = total[i] * a ^ 4 * c[i] - (i == j and own or 0)
      w[i] = w[i] + c[i] * math.sin(a * x)
      R[i] = R[i] + from_others / a * (1 - math.cos(m * math.pi))
      M[i] = M[i] + from_others / a ^ 2 * math.sin(a * x)
    end
  end
  R[j] = R[j] + P
  M[j] = M[j] + P * (x <= x0 and x * (L - x0) or x0 * (L - x)) / L
  for i = 1, n do M[i] = M[i] * stiff[i] / total[i] end
  return w, R, M
end

function T.test_against_a_fourier_series()
  local random = support.random(7)
  for _ = 1, 6 do
    local n, y, joists, stiff = random:int(3, 8), {0}, {}, {}
    local bay = {}
    for k = 1, n do bay[k] = 10 + random:int(0, 14) end
    for k = 2, n do y[k] = y[k - 1] + bay[k - 1] end
    for k = 1, n do
      local d = ({7.25, 9.25, 11.25})[random:int(1, 3)]
      joists[k] = {mark = "J" .. k, b = 1.5, d = d, spacing = {bay[k - 1] or bay[k],
        bay[k]}}
      stiff[k] = 1.6e6 * 1.5 * d ^ 3 / 12
    end
    local f = ns.floor {name = "uneven", span = 150, dead = 10, live = 40,
      material = WOOD, bearing = 3.5, joists = joists}
    local j, x0, x = random:int(1, n), 30 + 10 * random:int(0, 9), 75
    local D, along = 4000 * random:int(1, 12), 1000 * random:int(0, 5)
    local g = f:grid {deck = {across = 12 * D, along = 12 * along},
      points = {{joist = "J" .. j, at = x0, load = 225}}}
    local w, R, M = series(y, 150, stiff, D, along, j, x0, 225, x)
    local most = {0, 0, 0}
    for i = 1, n do
      most = {math.max(most[1], math.abs(w[i])), math.max(most[2], math.abs(R[i])),
        math.max(most[3], math.abs(M[i]))}
    end
    for i = 1, n do
      local p, r = g:at("J" .. i, x), g:of("J" .. i)
      support.close_abs(p.w, w[i], 0.003 * most[1], "w")
      support.close_abs(r.reaction, R[i], 0.003 * most[2], "R")
      support.close_abs(p.M, M[i], 0.005 * most[3], "M")
    end
  end
end

return T
