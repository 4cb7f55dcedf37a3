-- SPDX-License-Identifier: MIT
-- EN 1995-1-1. Expected values are hand computations from the clauses beside them, made
-- twice and apart from each other, and four published results: q and the utilization of a
-- floor joist and its deflections (Benoit, Legrand, Tastet, Calcul de structures en bois,
-- example 2.3.1, as quoted by a test of a public library), and k_v 0.593 of a notch (a
-- public teaching sheet). Deflection limits and the German numbers are from memory.
local formula = require "tests.formula"
local lu = require "luaunit"
local ns = require "netsection"
local packs = require "netsection.packs"
local random_joist = require "tests.random_joist"
local support = require "tests.support"

local T = {}
local close = support.close

local MM, N = 25.4, 4.4482216152605    -- of an inch, a lb
local EN, UK, DE = {standard = "en-1995-1-1"}, {standard = "en-1995-1-1-uk"},
  {standard = "en-1995-1-1-de"}

local function described(changes)
  local t = {mark = "E1", class = "C24", service_class = 1, duration = "medium-term",
    b = "45 mm", d = "220 mm", span = "4000 mm", spacing = "400 mm", bearing = "50 mm",
    dead = "0.5 kPa", live = "1.5 kPa"}
  for name, value in pairs(changes or {}) do
    if value == ns.none then t[name] = nil else t[name] = value end
  end
  return t
end

local function joist(changes) return ns.joist(described(changes)) end

---------------------------------------------------------------------------- the joist

function T.test_a_floor_joist()
  local r = joist():review(UK)
  close(r:find("uncut", "bending").ratio, 0.396788, 2e-6)
  close(r:find("uncut", "shear").ratio, 0.195433, 2e-6)
  close(r:find("uncut", "bearing").ratio, 0.281667, 2e-6)
  close(r.uncut.deflection.live * MM, 6.3523, 2e-6)
  close(r.uncut.deflection.total * MM, 8.1627, 4e-6)
  close(r:find("uncut", "deflection-total").ratio, 0.510169, 2e-6)
  lu.assertNil(r:find("uncut", "deflection-live")) -- no limit in that annex
  lu.assertEquals(r.standard, "en-1995-1-1-uk")
  lu.assertEquals(r.show.name, "metric")
  lu.assertEquals(r.action, "leave")
  -- in the units of the standard, step by step
  local value = {}
  for _, step in ipairs(r:find("uncut", "bending").steps) do
    value[step.symbol] = r.show.coherent(step.value, step.unit)
  end
  close(value.M_d, 2.34e6, 1e-6)
  close(value.sigma_md, 6.44628, 1e-6)
  close(value.f_md, 16.2462, 3e-6)
end

function T.test_a_published_floor_joist()
  local t = {b = "75 mm", d = "200 mm", span = "4500 mm", spacing = "500 mm"}
  local r = joist(t):review(EN)
  local M = r:find("uncut", "bending").demand * MM * N / 1e6 -- kN m
  close(M * 8 / 4.5 ^ 2, 1.4625, 1e-6)
  close(r:find("uncut", "bending").ratio, 0.4557, 1e-3)
  t.dead = "0 kPa"
  close(joist(t):review(EN).uncut.deflection.live * MM, 7.501, 1e-3)
  t.live = "2.0 kPa"
  close(joist(t):review(EN).uncut.deflection.live * MM, 10.001, 1e-3)
  t.dead, t.live = "0.57 kPa", "1.5 kPa"
  local d = joist(t):review(EN).uncut.deflection
  close((d.total - d.live) * MM, 3.06, 2e-3)
end

local function notched(depth, length, more)
  local t = {cuts = {ns.end_notch {support = "left", face = "bottom", depth = depth,
    length = length}}}
  for name, value in pairs(more or {}) do t[name] = value end
  return joist(t)
end

function T.test_a_notch_at_the_support()
  local k = notched("55 mm", "125 mm"):review(UK):find("cut", "notch-shear", 1)
  close(k.ratio, 0.581506, 2e-6)
  local value = {}
  for _, step in ipairs(k.steps) do value[step.symbol] = step.value end
  close(value.k_v, 0.448107, 2e-6)
  close(value.x * MM, 100, 1e-9)
  local top = joist {cuts = {ns.end_notch {support = "left", face = "top",
    depth = "55 mm", length = "125 mm"}}}:review(UK)
  close(top:find("cut", "notch-shear", 1).ratio, 0.260577, 2e-6)
  -- k_v as printed
  k = notched("50 mm", "75 mm", {d = "225 mm"}):review(EN):find("cut", "notch-shear", 1)
  for _, step in ipairs(k.steps) do value[step.symbol] = step.value end
  close(value.k_v, 0.593, 1e-3)
end

------------------------------------------------------------------------------- annexes

-- k_cr 2.0/f_v,k, w_inst l/300, w_fin l/200, all from memory.
function T.test_the_annexes()
  local r = joist():review(DE)
  close(r:find("uncut", "shear").ratio, 0.195433 * 0.67 / 0.5, 2e-6)
  close(r:find("uncut", "deflection-live").ratio, 6.3523 / (4000 / 300), 2e-6)
  close(r:find("uncut", "deflection-total").ratio, 8.16271 / (4000 / 200), 2e-6)
  r = joist():review(EN)
  close(r:find("uncut", "shear").ratio, 0.195433, 2e-6)
  close(r:find("uncut", "deflection-live").ratio, 6.3523 / (4000 / 300), 2e-6)
  close(r:find("uncut", "deflection-total").ratio, 0.510169, 2e-6)
  -- limits of the joist's own stand in all of them
  for _, standard in ipairs {EN, UK, DE} do
    r = joist {limits = {live = 400, total = false}}:review(standard)
    close(r:find("uncut", "deflection-live").ratio, 6.3523 / 10, 2e-6)
    lu.assertNil(r:find("uncut", "deflection-total"))
    lu.assertStrContains(table.concat(r.switches, "; "), "limit of w_inst L/400")
  end
end

function T.test_what_is_on_file()
  local found = {}
  for _, pack in ipairs(ns.packs "standards") do found[pack.name] = pack end
  for name, confidence in pairs {["en-1995-1-1"] = "memory",
    ["en-1995-1-1-uk"] = "memory", ["en-1995-1-1-de"] = "memory"} do
    lu.assertNotNil(found[name], name)
    lu.assertNil(found[name].problem)
    lu.assertEquals(found[name].confidence, confidence)
    lu.assertIsString(found[name].title)
  end
end

--------------------------------------------------------------------------------- steps

local REL, JOISTS = 1e-12, 500
local words = packs.standard("en-1995-1-1").words

-- What is wrong with the lines of a check, or nil: each formula gives its value from its
-- inputs, a name is one number throughout, and the last line is the ratio.
local function wrong_lines(k)
  local stated, last = {}, nil
  for _, step in ipairs(k.steps) do
    if step.formula then
      for name, value in pairs(step.inputs) do
        if stated[name] and stated[name] ~= value then return name .. ": two values" end
      end
      local got = formula.value(step.formula, step.inputs)
      if math.abs(got - step.value) > REL * math.abs(step.value) then
        return ("%s: %.17g, its formula gives %.17g"):format(step.symbol, step.value, got)
      end
    end
    stated[step.symbol], last = step.value, step
  end
  if k.ratio and not (last.symbol == "ratio" and last.value == k.ratio) then
    return "the last line is not the ratio"
  end
end

local CLASSES = {"C14", "C16", "C18", "C24", "C30", "C50"}
local DURATIONS = {"permanent", "long", "medium", "short", "instantaneous"}

-- A random joist as one of a strength class.
local function of_class(r, slots)
  local t = random_joist.of(r, slots and {spans = r:int(1, 2), overhangs = false,
    cuts = 1, kinds = {"slot"}})
  for _, cut in ipairs(slots and t.cuts or {}) do
    local L = t.span or t.spans[1]
    if cut.from and r:unit() < 0.7 then
      cut.to = math.min(cut.from + r:real(2, 20), math.max(cut.to, L))
    end
  end
  for _, name in ipairs {"species", "grade", "edition", "material", "moisture",
    "temperature", "incised", "creep", "repetitive"} do t[name] = nil end
  t.class, t.service_class = r:pick(CLASSES), r:int(1, 3)
  t.duration = r:pick(DURATIONS)
  return t
end

-- Of every branch; those that seldom or never come up are named.
local SELDOM = {["notch-shear 4"] = true, ["wood-compression 4"] = true}
for branch = 1, 4 do SELDOM["chord-alone " .. branch] = true end

function T.test_every_line_holds()
  local r, seen = support.random(1995), {}
  for i = 1, JOISTS do
    local t = of_class(r, i % 3 == 0)
    local got = ns.joist(t):review(i % 2 == 0 and EN or DE)
    for _, state in ipairs {"uncut", "cut"} do
      for _, k in ipairs(got[state].checks) do
        seen[k.mode .. k.branch] = true
        local wrong = wrong_lines(k)
        lu.assertNil(wrong, ("joist %d, %s branch %d: %s"):format(i, k.mode, k.branch,
          tostring(wrong)))
      end
    end
  end
  local missing, chord = {}, 0
  for mode, row in pairs(words.row) do
    for branch = 1, not row.absent and words:branches(mode) or 0 do
      local name = mode .. " " .. branch
      if not seen[mode .. branch] and not SELDOM[name] then
        missing[#missing + 1] = name
      end
      chord = chord + (mode == "chord-alone" and seen[mode .. branch] and 1 or 0)
    end
  end
  table.sort(missing)
  lu.assertEquals(missing, {})
  lu.assertTrue(chord > 0)
end

-------------------------------------------------------------------------------- sweeps

function T.test_a_sweep_is_its_reviews()
  local base = joist {cuts = {ns.hole {at = "1200 mm", diameter = "50 mm"},
    ns.end_notch {support = "right", face = "bottom", depth = "30 mm",
      length = "100 mm"}}}
  local over = {span = {"3.0 m", "4.2 m"}, ["cuts.1.diameter"] = {"30 mm", "80 mm"},
    class = {"C16", "C24"}, service_class = {1, 3}}
  for _, standard in ipairs {"en-1995-1-1", "en-1995-1-1-de"} do
    local sweep = ns.sweep {joist = base, over = over, values = {"ratio", "action",
      "notch-shear.2", "deflection.total"}, standard = standard}
    for _, span in ipairs {118.11023622047244, 165.35433070866142} do
      for _, class in ipairs(over.class) do
        for _, service in ipairs(over.service_class) do
          local point = sweep:at {span = span, ["cuts.1.diameter"] = 80 / MM,
            class = class, service_class = service}
          local r = base:with {span = span, ["cuts.1.diameter"] = "80 mm", class = class,
            service_class = service}:review {standard = standard}
          lu.assertEquals(point.ratio, r.cut.ratio)
          lu.assertEquals(point.action, r.action)
          lu.assertEquals(point["notch-shear.2"],
            r:find("cut", "notch-shear").ratio)
          lu.assertEquals(point["deflection.total"], r.cut.deflection.total)
        end
      end
    end
  end
end

-------------------------------------------------------------------------------- edges

-- A larger cut, a longer span, a longer duration, a wetter place: never better.
function T.test_more_is_never_better()
  local function rising(list, of) support.never_better(list, of, EN) end
  local cuts = {}
  for i = 0, 12 do cuts[i + 1] = ("%d mm"):format(5 + 10 * i) end
  rising(cuts, function(x) return notched(x, "90 mm") end)
  rising(cuts, function(x) return notched("60 mm", x) end)
  rising(cuts, function(x)
    return joist {cuts = {ns.hole {at = "900 mm", diameter = x}}}
  end)
  rising({3000, 3500, 4000, 5000, 6000}, function(x)
    return joist {span = ("%d mm"):format(x)}
  end)
  rising({1, 2, 3}, function(x) return joist {service_class = x} end)
  rising({"instantaneous", "short", "medium", "long", "permanent"}, function(x)
    return joist {duration = x}
  end)
  rising({"C50", "C40", "C30", "C24", "C16", "C14"}, function(x)
    return joist {class = x}
  end)
end

-- Beside a last span whose clear length, 620 - 100 mm, is under 2 h = 600 mm the middle
-- bearing has k_c,90 = 1 (6.1.5(4)), at whichever end that span is: 2.5 x 0.8/1.3 N/mm2
-- over 60 (100 + 2 x 30) mm2.
function T.test_a_bearing_beside_a_short_span()
  for _, spans in ipairs {{"4000 mm", "620 mm"}, {"620 mm", "4000 mm"}} do
    local r = joist {span = ns.none, spans = spans, b = "60 mm", d = "300 mm",
      bearing = "100 mm"}:review(EN)
    for _, k in ipairs(r.uncut.checks) do
      if k.mode == "bearing" and k.support == 2 then
        close(k.capacity * N, 2.5 * 0.8 / 1.3 * 60 * 160, 2e-6)
      end
    end
  end
end

-- Dead load alone lasts: k_mod 0.60 for bending, shear and the bearing too.
function T.test_permanent_load_alone()
  local r = joist {dead = "2 kPa", live = "0 kPa"}:review(EN)
  local q = 1.35 * 2 * 0.4 -- N/mm
  close(r:find("uncut", "bending").ratio, q * 4000 ^ 2 / 8 / (45 * 220 ^ 2 / 6)
    / (0.6 * 1.1 * 24 / 1.3), 1e-9)
  close(r:find("uncut", "bearing").ratio, q * 2000 / (45 * 80)
    / (1.5 * 0.6 * 2.5 / 1.3), 1e-9)
  lu.assertEquals(r:find("uncut", "bearing").combination, "1.35G")
  lu.assertNil(wrong_lines(r:find("uncut", "bearing")))
end

-- k_h = (150/h)^0.2 of a depth under 150 mm, 1.3 at most (3.2(3)).
function T.test_the_depth_factor()
  for h, k_h in pairs {[150] = 1, [149.9] = (150 / 149.9) ^ 0.2, [100] = 1.0845, [60] =
    1.2011} do
    local r = joist {d = ("%g mm"):format(h), span = "1500 mm"}:review(EN)
    local M = 1.17 * 1500 ^ 2 / 8
    close(r:find("uncut", "bending").ratio, M / (45 * h ^ 2 / 6) / (0.8 * 1.1 * k_h * 24
      / 1.3), 5e-5)
  end
end

------------------------------------------------------------------------------- holes

-- No rule for holes: shown, and referred unless the rules in force permit them.
function T.test_holes_have_no_rule()
  local function hole(mm) return joist {cuts = {ns.hole {at = "1200 mm",
    diameter = mm}}} end
  local out = hole "80 mm":review {standard = "en-1995-1-1-uk", rules = "uk-labc-2018"}
  lu.assertEquals({out.rules.status, out.action}, {"outside", "refer"})
  lu.assertTrue(out.cut.ratio < 1)
  lu.assertStrContains(table.concat(out.reasons, "; "),
    "no rule in EN 1995-1-1:2004 for openings")
  lu.assertNotNil(out:find("cut", "net-bending", 1))
  local within = hole "50 mm":review {standard = "en-1995-1-1-uk",
    rules = "uk-labc-2018"}
  lu.assertEquals({within.rules.status, within.action}, {"within", "leave"})
  lu.assertStrContains(table.concat(within.reasons, "; "), "no rule in EN")
  local notch = joist {cuts = {ns.notch {face = "bottom", from = "1200 mm",
    to = "1300 mm", depth = "8 mm"}}}:review(EN)
  lu.assertTrue(notch.cut.ratio < 1)
  lu.assertEquals(notch.action, "refer")
  lu.assertStrContains(table.concat(notch.reasons, "; "), "notches in tension")
end

------------------------------------------------------------------------------- refusals

function T.test_values_of_another_family_are_refused()
  local r = joist():review()
  lu.assertEquals(r.action, "refer")
  lu.assertStrContains(r.reasons[1], "STANDARD-VALUES-MISMATCH")
  local nds = ns.joist {mark = "N", size = "2x10", species = "Hem-Fir", grade = "No.2",
    span = 144, spacing = 16, dead = 10, live = 40}
  r = nds:review(EN)
  lu.assertEquals(r.action, "refer")
  lu.assertStrContains(r.reasons[1], 'give class = "C24"')
  lu.assertNil((joist():longest_span()))
  lu.assertNil((nds:longest_span(EN)))
  lu.assertEquals(ns.sweep {joist = nds, over = {span = {120, 144}}, values = {"action"},
    standard = "en-1995-1-1"}:at {span = 120}.action, "refer")
end

function T.test_bad_fields_are_named()
  for text, changes in pairs {
    ["C99\" is not on file; on file: C14, C16"] = {class = "C99"},
    ["service_class: a number from 1 to 3 expected, got 4"] = {service_class = 4},
    ["duration: one of permanent, long, medium"] = {duration = "week"},
    ["moisture: not taken beside a class: service_class says it"] = {moisture = "wet"},
    ["species: not taken beside a class"] = {species = "Hem-Fir"},
    ["creep: not taken beside a class: k_def"] = {creep = 1.5},
    ["repetitive: 1.0 (no k_sys) expected"] = {repetitive = 1.15},
    ["read beside a strength class alone"] = {class = ns.none, species = "Hem-Fir",
      grade = "No.2"},
  } do
    support.raises(text, ns.joist, described(changes))
  end
end

-- Repairs need connections, whose capacity no published example has confirmed.
function T.test_repairs_are_refused()
  for _, repair in ipairs {ns.sister {side = "left"}, ns.midspan_support {at = "2000 mm"},
    ns.added_joist {}} do
    local r = joist {cuts = {ns.hole {at = "1200 mm", diameter = "120 mm"}}}:fix(repair)
      :review(EN)
    lu.assertStrContains(r.fixed.refused, "connections (8.2, 8.3)")
    lu.assertNotEquals(r.fixed.status, "adequate")
  end
end

---------------------------------------------------------------------------- confidence

function T.test_what_rests_on_memory_is_said()
  local function said(r) return table.concat(r.reasons, "; ") end
  local r = joist {span = "5500 mm"}:review(EN)
  lu.assertEquals(r.uncut.governing, "deflection-total")
  lu.assertStrContains(said(r), "w_fin rests on memory")
  lu.assertStrContains(said(r), "w_fin l/250 (7.2, Table 7.2)")
  -- limits of one's own, and bending, which was read in full
  r = joist {span = "5500 mm", limits = {live = 300, total = 250}}:review(EN)
  lu.assertEquals(r.uncut.governing, "deflection-total")
  lu.assertNotStrContains(said(r), "rests on memory")
  r = joist {limits = {live = false, total = false}}:review(EN)
  lu.assertEquals(r.uncut.governing, "bending")
  lu.assertNotStrContains(said(r), "rests on memory")
  lu.assertEquals(r.uncut.governing_check.confidence, "read")
  r = joist {limits = {live = false, total = false}, sheathed = false}:review(EN)
  lu.assertStrContains(said(r), "l_ef of lateral stability (Table 6.1)")
  local short = {span = "1200 mm", dead = "3 kPa", live = "9 kPa", b = "38 mm",
    bearing = "100 mm", limits = {live = false, total = false}}
  r = joist(short):review(DE)
  lu.assertEquals(r.uncut.governing, "shear")
  lu.assertStrContains(said(r), "k_cr = 2.0/f_v,k (6.1.7(2), DIN EN 1995-1-1/NA)")
  -- an own copy of the annex takes the word away
  local mine = ns.standard {name = "own-de", base = "en-1995-1-1-de", title = "Own copy",
    factors = {k_cr = {confidence = "own copy"}}}
  r = joist(short):review {standard = mine}
  lu.assertEquals(r.uncut.governing, "shear")
  close(r.uncut.ratio, joist(short):review(DE).uncut.ratio, 1e-15)
  lu.assertNotStrContains(said(r), "rests on memory")
end

---------------------------------------------------------------------------- vibration

-- 22 mm of board, E 3000 N/mm2, 50 kg/m2, 4 x 5 m, by hand from 7.5 to 7.7 (formulae read
-- in a public teaching notebook) and the UK annex from memory.
function T.test_vibration_is_shown()
  local t = {width = "5 m", deck = {thickness = "22 mm", E = 3000}, mass = 50}
  local v = joist():vibration {width = t.width, deck = t.deck, mass = 50,
    standard = "en-1995-1-1-uk"}
  close(v.EI_l, 1.09808e6, 1e-5)
  close(v.EI_b, 2662, 1e-6)
  close(v.f_1, 14.5489, 3e-6)
  close(v.n_40, 9.01516, 3e-6)
  close(v.v, 0.0193637, 3e-6)
  close(v.k_dist, 0.349957, 3e-6)
  close(v.a, 1.11545, 5e-6)
  close(v.b_v, 115.382, 5e-6)
  close(v.v_limit, 0.0345064, 5e-6)
  local ratio = {}
  for _, one in ipairs(v.checks) do
    ratio[one.name] = one.ratio
    lu.assertFalse(one.binding)
  end
  close(ratio["deflection under 1 kN"], 0.619695, 5e-6)
  close(ratio.velocity, 0.561161, 5e-6)
  lu.assertFalse(v.binding)
  -- recommended: the joist alone, zeta 0.01, no limit of w/F
  v = joist():vibration(t)
  close(v.a, 4000 ^ 3 * 1000 / (48 * 11000 * 45 * 220 ^ 3 / 12), 1e-9)
  lu.assertNil(v.a_limit)
  lu.assertEquals(v.zeta, 0.01)
  -- slender: under 8 Hz a special investigation is asked for
  v = joist {span = "6500 mm"}:vibration(t)
  lu.assertTrue(v.f_1 < 8)
  lu.assertStrContains(table.concat(v.notes, "; "), "special investigation")
  support.raises("width", function() joist():vibration {} end)
  support.raises("one span", function()
    joist {span = ns.none, spans = {"3 m", "3 m"}}:vibration(t)
  end)
  support.raises("no rule on file", function()
    joist():vibration {width = "5 m", standard = "us-nds-2018-asd"}
  end)
end

---------------------------------------------------------------------------- fasteners

local NAIL = {kind = "nail", diameter = "3.1 mm", length = "90 mm", head = "7 mm",
  fu = 600, side = {class = "C24", thickness = "45 mm"}, main = {class = "C24"},
  number = 6}
local BOLT = {kind = "bolt", diameter = "12 mm", fu = 400, washer = "36 mm",
  hole = "13 mm", side = {class = "C24", thickness = "45 mm", angle = 90},
  main = {class = "C24", thickness = "45 mm", angle = 90}, number = 4}

-- The forms of modes c to f were worked out again from equilibrium of the dowel, apart
-- from these formulas; all else of chapter 8 is from memory.
function T.test_a_nail_and_a_bolt()
  local r = ns.johansen(NAIL)
  close(r.values.M_yRk, 3410.46, 1e-5)
  close(r.values.f_h1k, 20.4396, 1e-5)
  close(r.values.F_axRk, 341.775, 1e-5)
  for mode, F in pairs {a = 2851.33, b = 2851.33, c = 1266.5, d = 1161.46, e = 1161.46,
    f = 841.47} do close(r.modes[mode], F, 1e-5, mode) end
  for mode, F in pairs {c = 1181.06, d = 1076.02, e = 1076.02, f = 756.03} do
    close(r.without_rope[mode], F, 1e-5, mode)
  end
  lu.assertEquals(r.mode, "f")
  close(r.F_vRd, 517.828, 1e-5)
  close(r.F_vRd_all, 3106.97, 1e-5)
  close(r.K_ser, 709.32, 1e-5)
  r = ns.johansen(BOLT)
  close(r.values.f_h1k, 16.5072, 1e-5)
  close(r.values.M_yRk, 76745.4, 1e-5)
  close(r.values.F_axRk, 6638.58, 1e-5)
  for mode, F in pairs {a = 8913.88, b = 8913.88, c = 4615.31, d = 5885.48,
    e = 5885.48, f = 7926.41} do close(r.modes[mode], F, 1e-5, mode) end
  close(r.without_rope.c, 3692.25, 1e-5)
  lu.assertEquals(r.mode, "c")
  close(r.F_vRd_all, 11360.8, 1e-5)
  close(r.K_ser, 4490.84, 1e-5)
  lu.assertEquals(r.confidence, "memory")
end

function T.test_lines_of_a_fastener_hold()
  local function with(t, changes)
    local new = {}
    for name, value in pairs(t) do new[name] = value end
    for name, value in pairs(changes) do new[name] = value end
    return ns.johansen(new)
  end
  local screw = {kind = "screw", diameter = "5 mm", root = "3.2 mm", thread = "40 mm",
    length = "90 mm", fu = 600, side = NAIL.side, main = {density = 320,
    mean_density = 390}}
  for _, r in ipairs {ns.johansen(NAIL), ns.johansen(BOLT), with(NAIL, {predrilled =
    true}), ns.johansen(screw), with(BOLT, {kind = "dowel"}), with(BOLT, {side =
    {class = "C16", thickness = "60 mm", angle = 30}})} do
    for _, step in ipairs(r.steps) do
      if step.formula then
        close(formula.value(step.formula, step.inputs), step.value, 1e-12, step.symbol)
      end
    end
  end
  -- a dowel has no rope effect, a longer load lowers the design value alone
  lu.assertEquals(with(BOLT, {kind = "dowel"}).F_vRk, ns.johansen(BOLT).without_rope.c)
  local long = with(NAIL, {duration = "permanent"})
  close(long.F_vRd / ns.johansen(NAIL).F_vRd, 0.6 / 0.8, 1e-12)
  lu.assertStrContains(with(NAIL, {length = "60 mm"}).refused, "15.0 mm at the point")
  for text, changes in pairs {["kind"] = {kind = "rivet"}, ["class or density"] = {side =
    {thickness = "45 mm"}}, ["does not reach"] = {length = "40 mm"},
    ["no standard of EN"] = {standard = "us-nds-2018-asd"}, ["duration"] = {duration =
    "week"}, ["unknown field"] = {colour = 1}} do
    support.raises(text, function() with(NAIL, changes) end)
  end
end

-------------------------------------------------------------------------------- papers

function T.test_papers_are_metric_and_of_the_standard()
  local r = joist {cuts = {ns.hole {at = "1200 mm", diameter = "60 mm"},
    ns.end_notch {support = "left", face = "bottom", depth = "40 mm",
      length = "120 mm"}}}:review(EN)
  local text = ns.report.text(r, {steps = "all"})
  lu.assertStrContains(ns.report.json(r), "EN 1995-1-1")
  for _, page in ipairs {text, ns.report.markdown(r)} do
    page = page:gsub("psi\\?_2", "")
    lu.assertStrContains(page, "EN 1995-1-1")
    for _, word in ipairs {"NDS", "IRC", "R502", "CD", "psi", "plf", "psf",
      "repetitive"} do
      lu.assertNil(page:find("%f[%w_]" .. word .. "%f[^%w_]"), word)
    end
  end
  lu.assertStrContains(text, "w_inst")
  lu.assertStrContains(text, "k_v = min(1, 5*")
  lu.assertStrContains(text, "N/mm2")
end

return T
