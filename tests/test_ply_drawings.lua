-- SPDX-License-Identifier: MIT
-- Drawings of a joist with a cut in one ply: the other plies stand there. Ply 1 is the
-- left one, seen toward the right end. Values by hand.
local document = require "netsection.document"
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local close = support.close
local T = {}

local DFL = {Fb = 900, CF = 1.1, Fv = 180, E = 1.6e6, Ft = 575, Fc = 1350,
  Fc_perp = 625, Emin = 580000, G = 0.5}

local function joist(cuts, plies)
  return ns.joist {mark = "J6", size = "2x10", material = DFL, span = "13-6",
    spacing = 16, bearing = 3.5, dead = 12, live = 40, plies = plies or 2, cuts = cuts}
end

-- The points of a data block of a script.
local function block(script, name)
  return script:match("%$" .. name .. " << EOD\n(.-)\nEOD")
end

-- I of a 2x10 less 1-1/2 to 5-1/2 in: 77.552 in4; whole 98.932.
function T.test_a_section_counts_the_cut_ply()
  local r = joist({ns.hole {at = "6-9", diameter = 4, below = 1.5, ply = 2}}):review()
  local p = r:profile(81)
  lu.assertEquals(p.ply, 2)
  close(p.whole.I, 98.932, 1e-4)
  close(p.section.I, 77.552, 1e-4)
  lu.assertEquals({p.columns[1].y1, p.columns[1].y2, p.columns[2].y1, p.columns[2].y2},
    {-1.5, 0, 0, 1.5})
  lu.assertEquals({#p.columns[1].bands, #p.columns[2].bands}, {0, 1})
  local script = ns.plot.section(r, {at = 81})
  lu.assertStrContains(script, "hole 1, ply 2: gone")
  lu.assertStrContains(script, "Section of ply 2 of 2")
end

-- 1/4 in off both faces of the middle ply and 1 in of its bottom; a hole through all.
function T.test_a_loss_is_drawn_in_its_ply()
  local r = joist({ns.loss {from = "6-0", to = "8-0", bottom = 1, sides = 0.25,
    cause = "char", ply = 2}, ns.hole {at = "7-0", diameter = 2}}, 3):review()
  local p = r:profile(74)
  close(p.section.I, 1 * 8.25 ^ 3 / 12, 1e-9)
  local c = p.columns
  lu.assertEquals({c[1].low, c[1].left, c[2].low, c[2].left, c[2].right, c[3].right},
    {0, 0, 1, 0.25, 0.25, 0})
  p = r:profile(84)
  for k = 1, 3 do lu.assertEquals(#p.columns[k].bands, 1) end
  lu.assertStrContains(r.cuts[1].label, "1/4 in each side")
  lu.assertStrContains(ns.plot.elevation(r), "1/4\" off each side")
end

-- Without a ply nothing is parted into columns.
function T.test_a_cut_through_all_is_as_before()
  local p = joist({ns.hole {at = "6-9", diameter = 4, below = 1.5}}):review():profile(81)
  lu.assertNil(p.ply)
  lu.assertEquals(#p.columns, 1)
  close(p.section.I, 2 * 77.552, 1e-4)
end

function T.test_an_elevation_shows_the_others_whole()
  local cuts = {ns.sever {from = "6-0", to = "6-5", ply = 2}, ns.notch {face = "bottom",
    from = "2-0", to = "2-3", depth = 2, ply = 1}, ns.hole {at = "9-0", diameter = 2,
    ply = 1}}
  local script = ns.plot.elevation(joist(cuts):review())
  local bare = ns.plot.elevation(joist({}):review())
  lu.assertNotNil(block(bare, "wood"))
  lu.assertEquals(block(script, "wood"), block(bare, "wood"))
  lu.assertNotNil(block(script, "slothidden"))
  lu.assertNotNil(block(script, "holehidden"))
  for _, said in ipairs {"ply 2 of 2", "ply 2: none", "ply 1: 7 1/4\" of 9 1/4\"",
    "Ply 1 is the left one"} do
    lu.assertStrContains(script, said)
  end
end

-- In plan the left of a joist that runs to the right is up: ply 1 of two above.
function T.test_a_plan_shows_the_cut_in_its_ply()
  local function height(ply)
    local floor = ns.floor {size = "2x10", material = DFL, span = "13-6", spacing = 16,
      bearing = 3.5, dead = 12, live = 40, joists = {{mark = "J1"}, {mark = "J2",
        plies = 2, cuts = {ns.sever {at = "6-0", ply = ply}}}}}
    local script = ns.plot.floor_plan(floor:review())
    lu.assertEquals(script:find("in one ply", 1, true) ~= nil, ply ~= nil)
    return tonumber((block(script, "sever"):match "^%S+ (%S+)"))
  end
  local all, left, right = height(), height(1), height(2)
  lu.assertTrue(left > all and right < all)
  close(left - all, all - right, 1e-6)
end

function T.test_a_field_sheet_asks_for_the_ply()
  local text = document.html(ns.field_sheet {joists = {"J1"}})
  lu.assertStrContains(text, "face, kerf, ply")
end

return T
