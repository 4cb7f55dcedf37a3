-- SPDX-License-Identifier: MIT
-- Temporary shores on both sides of the work: loads on the lines, beams, posts, lifting.
-- Values by hand and by independent computation: stubs w c^2/(2 x_s), joists on two
-- shores by slope deflection, simple beams of the shore lines.
local json = require "dkjson"
local lu = require "luaunit"
local ns = require "netsection"

local T = {}

local WOOD = {Fb = 900, Ft = 575, Fc = 1350, Fv = 180, E = 1.6e6, CF = 1.1,
  Fc_perp = 625, Emin = 580000, source = "given"}
local BEAM = ns.beam_line {size = "4x6", material = WOOD}

local function near(found, wanted, rel)
  lu.assertAlmostEquals(found, wanted, (rel or 0.002) * math.abs(wanted))
end

local function floor(cuts)
  local list = {}
  for i = 1, 9 do list[i] = {mark = "J" .. i} end
  list[6].cuts = cuts or {ns.sever {from = "6-0", to = "6-5"}}
  return ns.floor {name = "Loft", size = "2x10", spacing = 16, span = "13-6",
    bearing = 3.5, dead = 12, live = 40, material = WOOD, joists = list}
end

local function shores(t, f)
  local all = {mark = "J6", at = {60, 90}, construction_live = "25 psf", beside = 2,
    beam = BEAM}
  for name, value in pairs(t or {}) do all[name] = value end
  return (f or floor()):shores(all)
end

-- 49.333 plf, cut through at 72 to 77, shores at 60 and 90: the stubs put 190.1 and 218.6
-- lb on them, whole joists 177.0 and 261.5; under J4 to J8 898.0 and 1264.5 lb, on two
-- posts 64 in apart 449.0 and 632.2 lb, M 489.5 and 640.1 ft-lb.
function T.test_both_lines_by_hand()
  local s = shores()
  local wanted = {{190.1, 177.0, 898.0, 449.0, 489.5}, {218.6, 261.5, 1264.5, 632.2,
    640.1}}
  for k, w in ipairs(wanted) do
    local t = s.lines[k]
    for i, q in ipairs(t.loads) do near(q.D + q.L, i == 3 and w[1] or w[2]) end
    near(t.D + t.L, w[3])
    lu.assertEquals(#t.state.posts, 2)
    near(t.state.posts[1].D + t.state.posts[1].most, w[4])
    near(t.state.checks[1].demand / 12, w[5])
    near(t.plf, w[3] / (64 / 12))
  end
end

-- Posts rated for 600 lb: two under the first line, three under the second.
function T.test_posts_by_their_capacity()
  local s = shores {capacity = "600 lb"}
  lu.assertEquals(#s.lines[1].state.posts, 2)
  lu.assertEquals(#s.lines[2].state.posts, 3)
  for _, t in ipairs(s.lines) do
    for _, p in ipairs(t.state.posts) do
      lu.assertTrue(p.D + p.most <= 600)
      lu.assertEquals(p.state.status, "adequate")
    end
  end
  -- at the limit two hold, a pound less asks for a third
  lu.assertEquals(#shores {capacity = 632.3}.lines[2].state.posts, 2)
  lu.assertEquals(#shores {capacity = 632.2}.lines[2].state.posts, 3)
end

-- More posts where the beam would fail or sag more than 1/8 in.
function T.test_posts_by_the_beam()
  local weak = shores {beam = ns.beam_line {size = "2x4", material = WOOD}}
  lu.assertTrue(#weak.lines[2].state.posts > 2)
  lu.assertEquals(weak.lines[2].state.status, "adequate")
  -- given posts stay where they are, and the beam fails
  local given = shores {beam = ns.beam_line {size = "2x4", material = WOOD,
    posts = {"J4", "J8"}}}
  lu.assertEquals(#given.lines[2].state.posts, 2)
  lu.assertEquals(given.lines[2].state.status, "overstressed")
end

-- CD 1.25 on the shore beam; dead load alone where no construction load is given.
function T.test_load_duration_and_live_load()
  local k = shores().lines[1].state.checks[1]
  local CD
  for _, step in ipairs(k.steps) do CD = CD or step.inputs and step.inputs.CD end
  lu.assertEquals(CD, 1.25)
  local s = floor():shores {mark = "J6", at = {60, 90}, beam = BEAM}
  near(s.lines[1].D, 12 / 37 * (190.1 + 2 * 177.0))
  lu.assertEquals(s.lines[1].L, 0)
  lu.assertStrContains(s:text(), "construction live load not given")
end

-- Shores on one side leave a stub that tips or falls: refused with the reason.
function T.test_shores_that_do_not_hold()
  local s = shores {at = {90, 120}}
  lu.assertStrContains(s.refused, "J6")
  lu.assertStrContains(s:text(), "not computed")
  lu.assertEquals(#s.lines, 0)
end

-- Lifted off: the dead load of a line in equal stages; figured without a lift or without
-- a repair: none; by a prop: its force, and the sag that it takes out (statics).
function T.test_lifting_in_stages()
  local function of(f) return shores(nil, f).jacking end
  lu.assertEquals(#of(floor()).stages, 0)
  local groups = {{at = 20, n = 12}, {at = 60, n = 12}, {at = 90, n = 12},
    {at = 140, n = 12}}
  local f = floor():fix("J6", ns.sister {from = 12, to = 150, groups = groups})
  lu.assertEquals(f:review().joists.J6.fixed.status, "adequate")
  local s = shores(nil, f)
  lu.assertEquals(#s.jacking.stages, 4)
  near(s.jacking.stages[4].forces[1], s.lines[1].D)
  near(s.jacking.stages[1].forces[2], s.lines[2].D / 4)
  local hole = {ns.hole {at = 62, diameter = 4, below = 1.5}}
  local function sister(lift)
    return floor(hole):fix("J6", ns.sister {lift = lift})
  end
  lu.assertEquals(#of(sister(nil)).stages, 0)
  local p = of(sister(ns.prop {at = 81, force = 100}))
  near(p.lift, 100 * 162 ^ 3 / (48 * 1.6e6 * 1.5 * 9.25 ^ 3 / 12))
  near(p.stages[2].forces[1], 50)
  local u = of(sister "unloaded")
  -- the whole joist's 5 w L^4/(384 E I), and a little more for the hole
  local whole = 5 * (16 / 12) * 162 ^ 4 / (384 * 1.6e6 * 1.5 * 9.25 ^ 3 / 12)
  lu.assertTrue(u.lift > whole and u.lift < 1.03 * whole)
  near(u.stages[4].lift, u.lift)
end

-- The crew reads every load off the page; numbers stand in the JSON.
function T.test_paper()
  local s = shores {capacity = 600}
  local page = s:text {steps = "none"}
  for _, said in ipairs {"190", "219", "449", "480", "898", "1264", "237 plf",
    "Not checked"} do
    lu.assertStrContains(page, said)
  end
  local tree = json.decode(s:json())
  near(tree.lines[2].posts[2].total_lb, 480.1)
  lu.assertStrContains(s:html(), "Temporary shores")
  local crew
  for _, f in ipairs(ns.package.files(floor():review(), {shores = {s}})) do
    if f.name == "crew.md" then crew = f.text end
  end
  lu.assertStrContains(crew, "Line of shores at 7'-6\"")
  lu.assertErrorMsgContains("shores", function()
    ns.package.files(floor():review(), {shores = {{}}})
  end)
end

function T.test_wrong_entries()
  local function says(what, t)
    lu.assertErrorMsgContains(what, function() shores(t) end)
  end
  says("unknown field", {place = 3})
  says("no joist", {mark = "J10"})
  says("two places", {at = 60})
  says("beyond the first", {at = {90, 60}})
  says("ns.beam_line", {beam = {}})
  says("two joists at least", {beside = 0})
  says("not both", {from = "J4"})
  says("follow from the shores", {beam = ns.beam_line {size = "4x6", material = WOOD,
    at = 60}})
  says("capacity", {capacity = 0})
end

return T
