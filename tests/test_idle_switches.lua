-- Every field of headers, hangers, supports, added joists and screws at a notch: in each
-- circumstance it moves what is handed back, or it is refused by its name. No field is
-- taken and not read.
local lu = require "luaunit"
local ns = require "netsection"
local fix = require "netsection.fix"
local support = require "tests.support"

local T = {}

local WOOD = {Fb = 900, Ft = 575, Fc = 1350, Fv = 180, Fc_perp = 625, E = 1.6e6,
  Emin = 0.58e6, CF = 1.1, G = 0.5}
local OTHER = {Fb = 800, Ft = 400, Fc = 1200, Fv = 150, Fc_perp = 500, E = 1.2e6,
  Emin = 0.44e6, CF = 1.1, G = 0.42}

-- A 2x10 over 13-6 in a floor of three.
local function joist(...)
  return ns.floor {size = "2x10", material = WOOD, span = "13-6", spacing = 16, dead = 12,
    live = 40, joists = {{mark = "A"}, {mark = "B", cuts = {...}}, {mark = "C"}}}
    :joist "B"
end

local function notch(end_, depth)
  return ns.end_notch {support = end_, face = "bottom", depth = depth}
end

local JOISTS = {
  header = joist(ns.sever {from = "6-0", to = "6-5"}),
  hanger = joist(notch("left", 3)),
  midspan_support = joist(ns.hole {at = "3-0", diameter = 2, below = 3.5}),
  added_joist = joist(ns.hole {at = "5-0", diameter = 3, below = 3}),
  notch_screws = joist(notch("left", 2), notch("right", 1.5)),
}

local LAG = ns.fastener {kind = "lag screw", diameter = "3/8 in", length = "6 in"}

-- What the rows of a kind start from.
local BASE = {
  header = {at = {"5-10", "6-7"}}, hanger = {support = "left"},
  midspan_support = {}, added_joist = {}, notch_screws = {},
}

-- kind, field, value, what else is given; where the field is idle, what is said; where
-- the repair does not serve with it, the reason.
local ROWS = {
  {"header", "at", {"5-8", "6-9"}},
  {"header", "at", "6-8", {at = "5-8"}},
  {"header", "size", "2x8"},
  {"header", "plies", 1},
  {"header", "trimmer_plies", 1},
  {"header", "hanger", "900 lb"},
  {"header", "tail_hanger", "900 lb"},
  {"header", "between", "none"},
  {"header", "note", "seen on the second visit"},
  {"hanger", "support", "right"},
  {"hanger", "capacity", "900 lb"},
  {"hanger", "seat", 2},
  {"hanger", "offset", 4},
  {"hanger", "note", "seen on the second visit"},
  {"midspan_support", "at", "6-0"},
  {"midspan_support", "bearing", 5.5},
  {"midspan_support", "capacity", "3000 lb"},
  {"midspan_support", "hold_down", "500 lb"},              -- nothing lifts: said
  {"midspan_support", "hold_down", "500 lb", {at = "11-6"}}, -- it lifts
  {"midspan_support", "note", "seen on the second visit"},
  {"added_joist", "side", "left"},
  {"added_joist", "side", "both"},
  {"added_joist", "at", 5},
  {"added_joist", "at", 5, {side = "both"}},
  {"added_joist", "size", "2x12"},
  {"added_joist", "b", 2},
  {"added_joist", "b", 2, {size = "2x10"}, "not both"},
  {"added_joist", "d", 8},
  {"added_joist", "d", 8, {size = "2x10"}, "not both"},
  {"added_joist", "plies", 2},
  {"added_joist", "species", "Spruce-Pine-Fir", {grade = "No.2", material = ns.none}},
  {"added_joist", "grade", "No.1", {species = "Spruce-Pine-Fir", material = ns.none}},
  {"added_joist", "material", OTHER},
  {"added_joist", "write_off", true},
  {"added_joist", "hanger", true},
  {"added_joist", "hanger", {capacity = "500 lb"}, {hanger = true}},
  {"added_joist", "note", "seen on the second visit"},
  {"notch_screws", "support", "right"},
  {"notch_screws", "n", 1},
  {"notch_screws", "fastener", LAG, {n = 1, full_thread = true}},
  {"notch_screws", "thread", 1.5},
  {"notch_screws", "thread", 1.5, {fastener = LAG, n = 1}},
  {"notch_screws", "thread", 2, {rated = "300 lb"}, "not read with rated"},
  {"notch_screws", "full_thread", false, {}, nil, "no thread"}, -- none past the crack
  {"notch_screws", "full_thread", true, {fastener = LAG, n = 1}},
  {"notch_screws", "full_thread", true, {rated = "300 lb"}, "not read with rated"},
  {"notch_screws", "full_thread", true, {thread = 2}, "not read with thread"},
  {"notch_screws", "rated", "300 lb"},
  {"notch_screws", "G", 0.6},
  {"notch_screws", "G", 0.6, {rated = "300 lb"}}, -- its lead holes
  {"notch_screws", "note", "seen on the second visit"},
}

local function given(row, with)
  local t = {}
  for _, list in ipairs {BASE[row[1]], row[4] or {}} do
    for name, value in pairs(list) do t[name] = value end
  end
  if with then t[row[2]] = row[3] end
  return ns[row[1]](t)
end

local function printed(row, with)
  local made, found = JOISTS[row[1]]:fixed(given(row, with))
  if not made then return nil, found:text() end
  local r = made:review()
  if with and row[6] then
    lu.assertStrContains(r.fixed.refused, row[6])
  elseif with then
    lu.assertNil(r.fixed.refused, row[1] .. ", " .. row[2])
  end
  return ns.report.json(r) .. ns.report.text(r)
end

function T.test_every_field_is_read_or_refused()
  for _, row in ipairs(ROWS) do
    local what = ("%s, %s"):format(row[1], row[2])
    local without = printed(row, false)
    local with, why = printed(row, true)
    if row[5] then
      lu.assertNil(with, what)
      lu.assertStrContains(why, row[5])
      lu.assertStrContains(why, row[4].size and "size" or row[2] .. ": ", what)
    else
      lu.assertNotNil(without, what)
      lu.assertNotNil(with, ("%s: %s"):format(what, why))
      lu.assertTrue(with ~= without, what .. " changes nothing")
    end
  end
end

function T.test_every_field_has_a_row()
  for kind in pairs(BASE) do
    for _, field in ipairs(fix.fields(kind)) do
      local here
      for _, row in ipairs(ROWS) do here = here or row[1] == kind and row[2] == field end
      lu.assertTrue(here, ("%s, %s: no row"):format(kind, field))
    end
  end
end

-- Spans of 60 and 102 in under dead load 10 psf: the end of the short one stands on dead
-- load and lifts as live load of 100 psf is on the long one alone. By three moments,
-- M = -sum(w L^3)/(8 x 162), R = w L/2 + M/L of the short span.
function T.test_an_anchor_is_checked_where_live_load_lifts()
  local j = ns.joist {mark = "A", size = "2x10", material = WOOD, span = "13-6",
    spacing = 16, dead = 10, live = 100}
  local D, L = 10 * 16 / 144, 100 * 16 / 144
  local R = D * 30 - (D * (60 ^ 3 + 102 ^ 3) + L * 102 ^ 3) / (8 * 162) / 60
  lu.assertTrue(R < 0)
  lu.assertTrue(D * 30 - D * (60 ^ 3 + 102 ^ 3) / (8 * 162) / 60 > 0)
  for _, holds in ipairs {-R - 1, -R + 1} do
    local a = j:fix(ns.midspan_support {at = 60, hold_down = holds}):review().fixed
    local anchor
    for _, k in ipairs(a.checks) do
      if k.name == "hold-down at bearing 1" then anchor = k end
    end
    lu.assertAlmostEquals(anchor.demand, -R, 1e-6 * -R)
    lu.assertEquals(anchor.ratio > 1, holds < -R)
    lu.assertEquals(a.status == "overstressed", holds < -R)
  end
end

function T.test_a_note_is_a_text()
  support.raises("note: a text expected, got a number", function()
    JOISTS.hanger:fix(ns.hanger {note = 3})
  end)
end

return T
