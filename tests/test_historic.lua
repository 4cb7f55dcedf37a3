-- SPDX-License-Identifier: MIT
-- Old wood: full-sawn sizes, working stresses of 1911 as a named set, char. Values:
-- Manual of the American Railway Engineering Association 1911, p. 153 (read); sizes from
-- a table of rough and dressed lumber (CSA O86 Table A.3, read); the beam after one hour
-- of fire from TR10 of the American Wood Council (read).
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local T = {}
local close = support.close

local function joist(more)
  local t = {mark = "J1", size = "full-sawn 2x10", historic = "1911 Douglas fir",
    span = "14-0", spacing = 16, bearing = 3.5, dead = 12, live = 40}
  for name, value in pairs(more or {}) do t[name] = value end
  return ns.joist(t)
end

-- S = 2 x 10^2/6 = 33.3 in3 full-sawn, 21.4 dressed; M = 52 (16/12) 14^2/8 x 12 lb-in,
-- by hand; 1,200 psi with no factor of today's.
function T.test_a_set_by_hand()
  local r = joist():review()
  local k = r:find("uncut", "bending")
  close(k.capacity, 1200 * 2 * 10 ^ 2 / 6, 1e-9)
  close(k.demand, 52 * 16 / 12 * 14 ^ 2 / 8 * 12, 1e-9)
  close(r:find("uncut", "shear").capacity, 2 / 3 * 110 * 20, 1e-9)
  close(r:find("uncut", "bearing").capacity, 310 * 2 * 3.5, 1e-9)
  close(r:find("uncut", "deflection-live").demand, 5 * (40 * 16 / 144) * 168 ^ 4
    / (384 * 1510000 * 2 * 10 ^ 3 / 12), 1e-9)
  lu.assertEquals(r.uncut.Cr, 1)
end

-- Half more for buildings by the note of the table: of stresses, not of E.
function T.test_buildings()
  local one, more = joist():review(),
    joist({historic = {set = "1911 Douglas fir", buildings = true}}):review()
  for _, mode in ipairs {"bending", "shear", "bearing"} do
    close(more:find("uncut", mode).capacity / one:find("uncut", mode).capacity, 1.5,
      1e-12)
  end
  lu.assertEquals(more:find("uncut", "deflection-live").demand,
    one:find("uncut", "deflection-live").demand)
end

-- The rows of the table: bending, E, shear in beams, across and along the grain.
function T.test_all_sets()
  local rows = {["Douglas fir"] = {1200, 1510000, 110, 310, 1200},
    ["longleaf pine"] = {1300, 1610000, 120, 260, 1300},
    ["shortleaf pine"] = {1100, 1480000, 130, 170, 1100},
    ["white pine"] = {900, 1130000, 70, 150, 1000},
    spruce = {1000, 1310000, 70, 180, 1100},
    ["Norway pine"] = {800, 1190000, 100, 150, 800},
    ["western hemlock"] = {1100, 1480000, 100, 220, 1200},
    ["white oak"] = {1100, 1150000, 110, 450, 1300}}
  for name, v in pairs(rows) do
    local m = joist({historic = "1911 " .. name}).model
    lu.assertEquals({m.Fb, m.E, m.Fv, m.Fc_perp, m.Fc, m.CF, m.repetitive},
      {v[1], v[2], v[3], v[4], v[5], 1, 1}, name)
  end
  lu.assertEquals(#ns.lumber.historic(), 11)
  for _, name in ipairs {"redwood", "bald cypress", "red cedar"} do
    lu.assertErrorMsgContains("no working stress for shear in beams", joist,
      {historic = "1911 " .. name})
  end
  local m = joist({historic = {set = "1911 redwood", Fv = 60}}).model
  lu.assertEquals({m.Fb, m.Fv, m.E}, {900, 60, 800000})
end

-- Wherever a result stands, it says what the values are not.
function T.test_the_word_stands_everywhere()
  local r = joist({cuts = {ns.hole {at = "4-0", diameter = 2}}}):review()
  local word = "not today's design values"
  lu.assertStrContains(table.concat(r.reasons, "\n"), "1911 Douglas fir: " .. word)
  lu.assertStrContains(table.concat(r.assumptions, "\n"), word)
  for _, form in ipairs {"text", "markdown", "html", "json"} do
    local said = ns.report[form](r):gsub("&#39;", "'"):gsub("%s+", " ")
    lu.assertTrue(said:find(word, 1, true) ~= nil, form)
  end
  lu.assertStrContains(ns.report.json(r), '"historic":"1911 Douglas fir')
  -- no set without its name
  local plain = ns.joist {mark = "J2", size = "full-sawn 2x10", span = "14-0",
    spacing = 16, dead = 12, live = 40}:review()
  lu.assertEquals(plain.action, "refer")
end

function T.test_refusals()
  local function says(text, more)
    lu.assertErrorMsgContains(text, joist, more)
  end
  says("is '1911 Douglas fir' meant?", {historic = "1911 Duglas fir"})
  says("on file: 1911 Douglas fir", {historic = "1850 oak"})
  says("not both", {species = "Hem-Fir", grade = "No.2"})
  says("not both", {material = {Fb = 1000, Fv = 100, E = 1e6}})
  says("unknown field 'building'", {historic = {set = "1911 spruce", building = true}})
  says("the set has its own", {historic = {set = "1911 spruce", Fv = 80}})
  says("a name", {historic = 1911})
  says("a name expected", {historic = {buildings = true}})
  -- allowable stresses are not strengths of another format
  local r = joist():review {standard = "us-nds-2018-lrfd"}
  lu.assertEquals(r.action, "refer")
  lu.assertStrContains(r.reasons[1], "allowable")
end

-- Changes take one for the other; new wood is not old wood.
function T.test_changes_and_repairs()
  local today = joist():with {species = "Hem-Fir", grade = "No.2"}
  lu.assertNil(today.model.historic)
  lu.assertEquals(today:with({historic = "1911 spruce"}).model.Fb, 1000)
  local cut = joist {cuts = {ns.sever {from = "6-6", to = "7-0"}}}
  local bolt = ns.fastener {kind = "bolt", diameter = 0.5}
  lu.assertErrorMsgContains("new wood has no historic working stresses", function()
    cut:fix(ns.sister {from = "2-0", to = "12-0", fastener = bolt})
  end)
  local f = cut:fix(ns.sister {from = "2-0", to = "12-0", fastener = bolt, size = "2x10",
    species = "Douglas Fir-Larch", grade = "No.2"})
  lu.assertEquals(f:review().fixed.refused, nil)
  local floor = ns.floor {name = "F", historic = "1911 spruce", size = "full-sawn 2x8",
    span = "12-0", spacing = 16, dead = 10, live = 40, joists = {{mark = "A"},
      {mark = "B", species = "Hem-Fir", grade = "No.2"}}}
  local review = floor:review()
  lu.assertEquals(review.joists.A.joist.model.historic, "1911 spruce")
  lu.assertNil(review.joists.B.joist.model.historic)
end

-- Rough and dressed sizes of dry and green lumber, mm.
function T.test_named_sizes()
  local sizes = {["dry dressed"] = {38, 89, 140, 184, 235, 286},
    ["green dressed"] = {40, 91, 143, 190, 241, 292},
    ["dry rough"] = {51, 102, 152, 203, 254, 305},
    ["green rough"] = {53, 104, 155, 209, 260, 311}}
  local nominal = {2, 4, 6, 8, 10, 12}
  for set, mm in pairs(sizes) do
    for i = 2, 6 do
      local size = assert(ns.lumber.size(("%s 2x%d"):format(set, nominal[i])))
      close(size.b * 25.4, mm[1], 1e-9)
      close(size.d * 25.4, mm[i], 1e-9)
      lu.assertNil(size.nominal_d)
    end
  end
  close(ns.lumber.size("green rough 4x12").b * 25.4, 104, 1e-9)
  local full = ns.lumber.size "full-sawn 2x10"
  close(full.b * full.d ^ 2 / 6, 33.333, 1e-3)
  lu.assertNil(ns.lumber.size "green rough 3x10")
end

-- A beam 6.75 x 13.5 after an hour of fire on three sides: 1.8 in effective (char 1.5 in
-- and a fifth more), S 205 to 71.9 in3 (published). The module's char with its allowance
-- leaves that section; strengths of a fire rating are not used for a joist that stands.
function T.test_char_with_its_allowance()
  local t = {mark = "B1", b = 6.75, d = 13.5, span = "16-0", spacing = 24, bearing = 5,
    dead = 10, live = 20, members = 1, material = {Fb = 2343, Fv = 265, E = 1.8e6},
    cuts = {ns.loss {from = "6-0", to = "10-0", bottom = 1.5, sides = 1.5, cause = "char",
      allowance = 0.3}}}
  local r = ns.joist(t):review()
  close(6.75 * 13.5 ^ 2 / 6, 205, 1e-3)
  for _, step in ipairs(r:find("cut", "net-bending").steps) do
    if step.symbol == "S_b" then close(step.value, 71.9, 1e-3) end
    if step.symbol == "y_b" then close(step.value, 11.7 / 2, 1e-9) end
  end
  t.cuts = {ns.loss {from = "6-0", to = "10-0", bottom = 1.5, sides = 1.5,
    cause = "char"}}
  local bare = ns.joist(t):review()
  lu.assertTrue(bare.cut.ratio < r.cut.ratio)
  lu.assertStrContains(table.concat(bare.cautions, "\n"), "no allowance for heated wood")
end

return T
