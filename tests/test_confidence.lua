-- SPDX-License-Identifier: MIT
-- How far each number was confirmed, and where that is said. Which clauses were read and
-- which are from memory is stated in the table of sources in DEVELOPERS.md; the marks
-- "(memory)" in the lines of the calculations are a second statement of it.
local basis = require "netsection.basis"
local lu = require "luaunit"
local ns = require "netsection"
local packs = require "netsection.packs"

local T = {}

local LRFD = "us-nds-2018-lrfd"

local function joist(more)
  local t = {mark = "J1", size = "2x10", species = "Douglas Fir-Larch", grade = "No.2",
    span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40}
  for name, value in pairs(more or {}) do t[name] = value end
  return ns.joist(t)
end
local HOLE = {cuts = {ns.hole {at = "5-2", diameter = 4, below = 1.5}}}

local function memory_in(list)
  local said = {}
  for _, text in ipairs(list) do
    if basis.is_said(text) then said[#said + 1] = text end
  end
  return table.concat(said, "\n")
end

-- A clause that the lines mark as from memory is a fact of that check, and the other way.
function T.test_marks_in_the_lines_are_facts()
  local marks = 0
  for _, name in ipairs(packs.names "standards") do
    local words = packs.standard(name).words
    for mode, branches in pairs(words.lines) do
      for branch, lines in ipairs(mode ~= "constants" and branches or {}) do
        local texts = table.concat(basis.from_memory(words:basis(mode, branch)), "\n")
        for _, line in ipairs(lines) do
          local clause = line.clause and line.clause:match "^(.-) %(memory%)$"
          if clause then
            lu.assertTrue(texts:find(clause:match "^[^,]+", 1, true) ~= nil,
              ("%s, %s %d: %s"):format(name, mode, branch, clause))
            marks = marks + 1
          end
        end
      end
    end
    for _, entry in ipairs(packs.read("standards", name).basis or {}) do
      for _, mode in ipairs(entry.checks or {}) do
        for _, branch in ipairs(entry.branches or {}) do
          lu.assertTrue(branch <= words:branches(mode), ("%s: %s, %s %d"):format(name,
            entry.name, mode, branch))
        end
      end
    end
  end
  lu.assertTrue(marks >= 18)
end

-- NDS 3.9.1 is from memory and governs at the hole; 3.3 with the allowable combinations
-- was read and governs uncut.
function T.test_what_governs_on_memory_is_said_everywhere()
  local r = joist(HOLE):review()
  lu.assertEquals(r.cut.governing, "lip-tension")
  local said = memory_in(r.reasons)
  lu.assertStrContains(said, "lip-tension at hole 1 rests on memory")
  lu.assertStrContains(said, "(NDS 3.9.1)")
  for _, form in ipairs {"markdown", "html", "latex"} do
    lu.assertTrue(ns.report[form](r):find("rests on memory", 1, true) ~= nil, form)
  end
  lu.assertStrContains(ns.report.text(r), "rests on memory")
  local k = r.cut.governing_check
  lu.assertEquals(k.confidence, "memory")
  lu.assertStrContains(ns.report.json(r), '"confidence":"memory"')
  local whole = joist():review()
  lu.assertEquals(memory_in(whole.reasons), "")
  lu.assertNotStrContains(ns.report.json(whole), '"memory"')
end

-- The combinations of ASCE 7 and that F_cp' has no time effect factor are from memory
-- (K_F, phi and lambda read): all strength checks rest on it, deflection does not.
function T.test_combinations_from_memory()
  local r = joist():review {standard = LRFD}
  local k = r:find("uncut", "bending")
  lu.assertEquals(basis.from_memory(k.rests_on),
    {"load combination 1.2D+1.6L (ASCE 7-16 2.3.1 no. 2; NDS Table N3)"})
  local names = {}
  for _, one in ipairs(k.rests_on) do names[one.name] = one.confidence end
  lu.assertEquals({names.K_Fb, names.phi_b, names.phi_v}, {"read", "read", nil})
  lu.assertEquals(#basis.from_memory(r:find("uncut", "bearing").rests_on), 2)
  lu.assertEquals(basis.from_memory(r:find("uncut", "deflection-live").rests_on), {})
  lu.assertStrContains(memory_in(r.reasons), "load combination 1.2D+1.6L")
  local stiff = joist {species = "Redwood", grade = "No.1", span = "11-0",
    limits = {live = 2000}}:review {standard = LRFD}
  lu.assertEquals(stiff.uncut.governing, "deflection-live")
  lu.assertEquals(basis.from_memory(stiff.uncut.governing_check.rests_on),
    {"design values of Redwood No.1"})
end

-- One who owns the standard says so in a pack of his own, number by number.
function T.test_a_copy_of_ones_own()
  local own = {name = "office-lrfd", base = LRFD, title = "Office copy, LRFD",
    combinations = {
      {name = "1.4D", D = 1.4, L = 0, CD = 0.6, confidence = "own copy"},
      {name = "1.2D+1.6L", D = 1.2, L = 1.6, CD = 0.8, confidence = "own copy",
        source = "ASCE 7-16 2.3.1, the office's"}},
    basis = {{name = "chord_tension", confidence = "own copy",
      source = "NDS 2018, the office's"}},
    inner_notch = {confidence = "own copy"}}
  local mine = ns.standard(own)
  local before, r = joist(HOLE):review {standard = LRFD},
    joist(HOLE):review {standard = mine}
  lu.assertEquals(r.cut.ratio, before.cut.ratio)
  lu.assertEquals(memory_in(r.reasons), "")
  lu.assertEquals(r.cut.governing_check.confidence, "read")
  lu.assertStrContains(table.concat(r.assumptions, "\n"), "given by the user")
  -- the other facts stay what they are
  local data = packs.standard(mine).data
  lu.assertEquals(data.inner_notch.value, 1 / 6)
  lu.assertEquals(#data.basis, #packs.read("standards", LRFD).basis)
  -- a value asks for where it was read; a word alone keeps value and clause
  own.factors = {K_Fb = {value = 2.6}}
  lu.assertStrContains(ns.standard.problems(own)[1].text, "factors.K_Fb.confidence")
  own.factors = {K_Fb = {value = 2.6, confidence = "own copy", source = "the office's"}}
  local other = joist():review {standard = ns.standard(own)}
  lu.assertAlmostEquals(other:find("uncut", "bending").capacity
    / joist():review({standard = LRFD}):find("uncut", "bending").capacity, 2.6 / 2.54,
    1e-12)
  own.factors, own.basis = nil, {{name = "chord_tention", confidence = "own copy"}}
  lu.assertStrContains(ns.standard.problems(own)[1].text, "says: missing")
end

-- d/6 at an inner notch is from memory (NDS 4.4.3), d/4 at an end was read.
function T.test_gates()
  local notch = ns.notch {face = "top", from = 24, to = 27, depth = 2}
  lu.assertStrContains(memory_in(joist({cuts = {notch}}):review().reasons),
    "notch 1 rests on memory, to be confirmed in the document before use: d/6")
  local at_end = ns.end_notch {support = "left", face = "bottom", depth = 2.5,
    length = 3.5}
  local r = joist({cuts = {at_end}}):review()
  lu.assertStrContains(table.concat(r.reasons, "\n"), "end notch deeper than d/4")
  lu.assertEquals(memory_in(r.reasons), "")
end

-- A limit of a rule pack may say how it is known where that differs from its pack.
function T.test_limits_of_rules()
  local function limit(of_d, confidence)
    return {kinds = {"hole"}, measure = "size", of_d = of_d, clause = "office 3.2",
      text = "hole diameter", says = "d/8", confidence = confidence}
  end
  local function said(confidence)
    local mine = ns.rules {name = "office", title = "Office rules", confidence = "own",
      covers = {"hole"}, not_covered = "not addressed",
      limits = {limit(1 / 8, confidence)}}
    return table.concat(joist(HOLE):review({rules = mine}).reasons, "\n")
  end
  lu.assertStrContains(said "memory", "(office 3.2; from memory, to be confirmed")
  lu.assertStrContains(said "reading", "(office 3.2; our reading of the text)")
  lu.assertStrContains(said(nil), "(office 3.2)")
end

-- NDS 3.4.3.3 governs the sister of the repaired state.
function T.test_repairs()
  local _, r = ns.size_sister(joist {span = "13-0", cuts = {ns.sever {from = "5-3",
    to = "5-9"}}}, {fastener = ns.fastener {kind = "bolt", diameter = "1/2 in"},
    side = "left"})
  local k = r.fixed.governing_check
  lu.assertEquals(k.mode, "connection-shear")
  lu.assertStrContains(memory_in(r.reasons), "as repaired, connection-shear")
end

-- Under a table: what the letters in it stand for.
function T.test_tables()
  local function table_of(standard)
    return ns.table {title = "Holes", joist = joist(), standard = standard,
      rows = {name = "diameter", values = {2, 3}}, columns = {name = "at",
        values = {48, 81}}, unit = "", round = {to = 0.01, way = "up"},
      cell = function(diameter, at)
        local j = joist {cuts = {ns.hole {at = at, diameter = diameter}}}
        local r = j:review {standard = standard}
        return {value = r.cut.ratio, letter = "w", joist = j}
      end}:text():gsub("%s+", " ")
  end
  lu.assertStrContains(table_of(nil), "Where they govern, these rest on memory")
  lu.assertNotStrContains(table_of(nil), "NDS 3.4.3.2")
  lu.assertStrContains(table_of(LRFD), "load combination 1.2D+1.6L")
end

-- One table over several standards says of each what it is, its durations, what rests on
-- memory. 2x10 Douglas Fir-Larch No.2 at 16 in, 40/10 psf: 15-7 (IRC R502.3.1(2)).
function T.test_a_table_by_several_standards()
  local env = setmetatable({print = function() end}, {__index = _G})
  local t = assert(loadfile("examples/span_standards.lua", "t", env))()
  lu.assertEquals(t:cell(2, 1).text, "15-7")
  local said = t:text():gsub("%s+", " ")
  for _, text in ipairs {"NDS 2018, allowable stress design.", "UK National Annex.",
    "Load duration, us-nds-2018-lrfd: 1.4D with lambda 0.6",
    "Load duration, en-1995-1-1: service class 1", "load combination 1.2D+1.6L",
    "standards us-nds-2018-asd, us-nds-2018-lrfd, en-1995-1-1, en-1995-1-1-uk."} do
    lu.assertStrContains(said, text)
  end
  -- w_fin <= l/250 with k_def 0.6, psi_2 0.3, by hand: 38x235 C24 at 400 mm, E 11,000,
  -- shear term kappa 1.2 on G 690: the span at which they are equal
  local b, h, s, E, G = 38, 235, 16 * 25.4, 11000, 690
  local kPa = 4.4482216152605 / 0.3048 ^ 2 / 1000
  local q = (10 * kPa * 1.6 + 40 * kPa * (1 + 0.3 * 0.6)) * s / 1000
  local function over(l)
    return 5 * q * l ^ 4 / (384 * E * b * h ^ 3 / 12) + 1.2 * q * l ^ 2 / (8 * G * b * h)
      - l / 250
  end
  local low, high = 2000, 8000
  for _ = 1, 60 do
    local middle = (low + high) / 2
    if over(middle) > 0 then high = middle else low = middle end
  end
  lu.assertAlmostEquals(t:cell(2, 4).exact * 25.4, low, 0.5)
end

function T.test_the_order_of_trust()
  lu.assertEquals(basis.weaker("read", "computed"), "computed")
  lu.assertEquals(basis.weaker("memory", "own copy"), "memory")
  lu.assertEquals(basis.weaker(nil, "read"), "read")
  lu.assertNil(basis.weakest {})
end

return T
