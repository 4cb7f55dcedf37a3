-- SPDX-License-Identifier: MIT
-- What a script prints of a value says what it is: of every value that the public
-- functions hand out as an object of its own.
local lu = require "luaunit"
local ns = require "netsection"

local T = {}

local function joist(mark, cuts)
  return ns.joist {mark = mark, size = "2x10", species = "Douglas Fir-Larch",
    grade = "No.2", span = "13-6", spacing = 16, dead = 12, live = 40, cuts = cuts}
end

local function floor()
  return ns.floor {name = "F", joists = {joist "J1",
    joist("J2", {ns.hole {diameter = 3, at = 60}}), joist "J3"}}
end

local DECK = {deck = "24oc OSB", uniform = true}

local function values()
  local f, j = floor(), joist "J"
  local r = f:review()
  return {
    ["joist J"] = j, ["floor 'F', 3 joists"] = f,
    ["review of floor 'F', 3 joists"] = r,
    ["review of joist J2: leave"] = r.joists.J2,
    ["check bending: ratio 0.778"] = r.joists.J2.cut.checks[1],
    ["hole"] = ns.hole {diameter = 3, at = 60}, ["point"] = ns.point {at = 3, load = 3},
    ["end notch"] = ns.end_notch {support = "left", length = 4, depth = 1},
    ["sister"] = ns.sister {}, ["midspan support"] = ns.midspan_support {at = 72},
    ["prop"] = ns.prop {at = 3, force = 3}, ["none"] = ns.none,
    ["1/2 in bolt"] = ns.fastener {kind = "bolt", diameter = 0.5},
    ["standard 'own-y': Y (given, "] = ns.standard {name = "own-y", title = "Y",
      base = "us-nds-2018-asd"},
    ["sweep of joist J, 2 points"] = ns.sweep {joist = j, over = {spacing = {12, 16}},
      values = {"uncut.ratio"}},
    ["grid of floor 'F', 3 joists, cut"] = f:grid(DECK),
    ["feel of a floor, 3 joists"] = f:feel {deck = DECK.deck},
    ["document 'D', 0 blocks"] = ns.document.new {title = "D"},
    ["obstruction: pipe"] = ns.obstruction {what = "pipe", joist = "J1", side = "left",
      from = 0, to = 10, bottom = 2, top = 3},
    ["sensitivity: leave, turned by"] = j:sensitivity {},
    ["odds, 256 draws"] = j:odds {draws = 256, indices = false, rough = true},
    ["homework set of 'C', seed '1'"] = ns.homework {course = "C", seed = "1",
      students = {"a"}, problems = {"reactions"}},
  }
end

function T.test_values_say_what_they_are()
  for said, value in pairs(values()) do
    lu.assertEquals(tostring(value):sub(1, #said), said)
  end
end

return T
