-- SPDX-License-Identifier: MIT
-- What else than a review is asked under EN 1995-1-1 and CSA O86: the largest cut, span
-- and hole tables, relief by depth of floors, sweeps and surveys, the short report.
-- Values by hand from the clauses named.
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local T = {}

local MM = 25.4
local UK = {standard = "en-1995-1-1-uk", rules = "uk-labc-2018"}
local CA = {standard = "csa-o86-2019", rules = "ca-nbc-9.23.5"}

local function with(t, more)
  local new = {}
  for name, value in pairs(t) do new[name] = value end
  for name, value in pairs(more or {}) do new[name] = value end
  return new
end

local function en(more)
  return ns.joist(with({mark = "E", size = "47x220", class = "C24", span = "4.0 m",
    spacing = "400 mm", bearing = "100 mm", dead = "0.6 kPa", live = "1.5 kPa"}, more))
end

local function csa(more)
  return ns.joist(with({mark = "C", size = "38x235", species = "Spruce-Pine-Fir",
    grade = "No.1/No.2", edition = "csa-o86-2019", span = "4.0 m", spacing = "400 mm",
    bearing = "90 mm", dead = "0.5 kPa", live = "1.9 kPa"}, more))
end

local function close(a, b, tolerance) lu.assertAlmostEquals(a, b, tolerance) end

------------------------------------------------------------------------ the largest cut

-- LABC 3.22: holes within 0.25 L to 0.4 L, to 0.25 d = 55 mm at most 65 mm; O. Reg.
-- 332/12, 9.23.5.1: d/4 = 58.75 mm. The standards have no rule for an opening, so it is
-- what the rules permit, and by calculation alone there is none.
function T.test_the_largest_opening_is_what_the_rules_permit()
  for _, case in ipairs {{en(), UK, "1200 mm", 55}, {csa(), CA, "1500 mm", 58.75}} do
    local joist, packs, at, most = table.unpack(case)
    local ask = with(packs, {cut = "hole", at = at})
    local size, why = joist:largest(ask)
    close(size * MM, most, 1e-4)
    lu.assertEquals(why, "rules")
    lu.assertEquals({joist:largest(with(ask, {by = "calculation"}))}, {nil, "standard"})
    -- it is what a review leaves, and a tenth of a millimeter more is not
    local function action(diameter)
      return joist:with {cuts = {ns.hole {at = at, diameter = diameter}}}
        :review(packs).action
    end
    lu.assertEquals(action(size), "leave")
    lu.assertEquals(action(size + 0.1 / MM), "refer")
    -- the same from the other end
    close(joist:largest(with(ask, {at = joist.model.span[1]
      - ns.length(at)})), size, 1e-6)
  end
  -- at mid-span the guidance allows none
  lu.assertEquals({en():largest(with(UK, {cut = "hole", at = "2000 mm"}))},
    {nil, "rules"})
end

-- EN 1995-1-1 (6.60), (6.62) with k_n 5 and x from the line of the reaction: 70 mm.
function T.test_the_largest_end_notch_by_6_5_2()
  local joist = en {live = "4 kPa"}
  local size, why = joist:largest(with(UK, {cut = "end_notch", support = "left",
    face = "bottom", length = "120 mm", by = "calculation", modes = {"notch-shear"}}))
  lu.assertEquals(why, "notch-shear")
  local h_ef = 220 - size * MM
  local alpha = h_ef / 220
  local k_v = 5 / (math.sqrt(220) * (math.sqrt(alpha * (1 - alpha))
    + 0.8 * 70 / 220 * math.sqrt(1 / alpha - alpha ^ 2)))
  local V = (1.35 * 0.6 + 1.5 * 4) * 0.4 * 4.0 / 2 * 1000
  close(1.5 * V / (0.67 * 47 * h_ef) / (k_v * 4 * 0.8 * 1.1 / 1.3), 1, 1e-6)
end

-- CSA O86 6.5.4: F_r = phi f_f A_g K_N with e = 190 - 90 = 100 mm past the inner face.
function T.test_the_largest_end_notch_by_K_N()
  local joist = csa {span = "5.2 m", live = "4.8 kPa"}
  local size, why = joist:largest(with(CA, {cut = "end_notch", support = "left",
    face = "bottom", length = "190 mm", by = "calculation", modes = {"notch-shear"}}))
  lu.assertEquals(why, "notch-shear")
  local alpha = 1 - size * MM / 235
  local K_N = 1 / math.sqrt(0.006 * 235 * (1.6 * (1 / alpha - 1)
    + (100 / 235) ^ 2 * (1 / alpha ^ 3 - 1)))
  local V = (1.25 * 0.5 + 1.5 * 4.8) * 0.4 * 5.2 / 2 * 1000
  close(V / (0.9 * 0.5 * 1.4 * 38 * 235 * K_N), 1, 1e-6)
end

--------------------------------------------------------------------------------- tables

-- w_fin = l/250 with bending and shear (kappa 1.2), by statics; M_Rd = f_m,d W.
local function span_by_hand(b, h, E, G, f_m, s)
  local g, q, I, A = 0.6e-3 * s, 1.5e-3 * s, b * h ^ 3 / 12, b * h
  local p = g * 1.6 + q * (1 + 0.3 * 0.6)
  local low, high = 100, 20000
  for _ = 1, 60 do
    local l = (low + high) / 2
    local sag = 5 * p * l ^ 4 / (384 * E * I) + 1.2 * p * l ^ 2 / (8 * G * A)
    if sag <= l / 250 then low = l else high = l end
  end
  local M = f_m * 0.8 * 1.1 / 1.3 * b * h ^ 2 / 6
  return math.min(low, math.sqrt(8 * M / (1.35 * g + 1.5 * q)))
end

function T.test_a_span_table_by_the_uk_annex()
  local sweep = ns.sweep {joist = en {size = "47x195"}, values = {"longest_span"},
    over = {spacing = {"400 mm", "600 mm"}, size = {"47x195", "47x220"},
      class = {"C16", "C24"}}, standard = UK.standard, rules = UK.rules}
  local E = {C16 = {8000, 500, 16}, C24 = {11000, 690, 24}}
  local seen = 0
  for row in sweep:rows() do
    local value = E[row.class]
    local h = tonumber(row.size:match "x(%d+)")
    local s = row.spacing * MM
    seen = seen + 1
    close(row.longest_span * MM, span_by_hand(47, h, value[1], value[2], value[3], s),
      0.01)
  end
  lu.assertEquals(seen, 8)
  local t = ns.table {title = "Spans, C24, UK", sweep = sweep, value = "longest_span",
    at = {class = "C24"}, unit = "ft-in", units = "metric", standard = UK.standard,
    round = {to = "10 mm", way = "down"}, rows = "spacing", columns = "size"}
  local text = t:text()
  local by_hand = span_by_hand(47, 220, 11000, 690, 24, 400)
  lu.assertStrContains(text:match "\n400([^\n]+)", ("%d"):format(by_hand // 10 * 10))
  lu.assertStrContains(text, "standard en-1995-1-1-uk")
  lu.assertStrContains(text, "rest on memory")
  lu.assertStrContains(text, "Deflection: w_inst not checked, w_fin l/250;")
  lu.assertNil(text:find "Moisture" or text:find "repetitive")
  -- the same in US units with a column in millimeters
  local twin = ns.table {title = "Spans", sweep = sweep, value = "longest_span",
    at = {class = "C24"}, unit = "ft-in", units = "us", metric = {to = 10},
    standard = UK.standard, round = {to = "1 in", way = "down"}, rows = "spacing",
    columns = "size"}
  -- 16 ft 5 in is 5004 mm
  local feet = by_hand / MM // 1
  lu.assertNotNil(twin:text():find(("%d%%-%d +%d"):format(feet // 12, feet % 12,
    feet * MM // 10 * 10)))
end

function T.test_a_table_of_holes_by_the_canadian_rules()
  local t = ns.table {title = "Largest hole", units = "metric", unit = "in",
    standard = CA.standard, rules = CA.rules, joist = csa(),
    round = {to = "1 mm", way = "down"},
    rows = {name = "size", values = {"38x184", "38x235", "38x286"}},
    columns = {name = "at", values = {"1000 mm", "2000 mm"}},
    cell = function(size, at)
      return (csa {size = size, span = "3.0 m"}:largest(with(CA, {cut = "hole",
        at = at})))
    end}
  -- d/4 of 184, 235, 286 mm
  for size, most in pairs {["38x184"] = 46, ["38x235"] = 58, ["38x286"] = 71} do
    local row = t:text():match("\n" .. size .. "([^\n]+)")
    local _, n = row:gsub("%f[%d]" .. most .. "%f[%D]", "")
    lu.assertEquals(n, 2, row)
  end
end

------------------------------------------------------------------------ relief by depth

-- 235 - 70 = 165 mm, as a 38x140, which Table A-1 lets span 2.85 m at 406 mm with
-- bridging.
local function bored(more)
  return csa(with({span = "2.80 m", spacing = "406 mm",
    cuts = {ns.hole {at = "900 mm", diameter = "70 mm"}}}, more))
end

function T.test_relief_of_a_floor()
  local function floor(by)
    return ns.floor {name = "F", standard = CA.standard, rules = CA.rules, by_depth = by,
      joists = {bored {mark = "A"}, bored {mark = "B", span = "2.86 m"},
        csa {mark = "C", spacing = "406 mm"}}}
  end
  local function said(r)
    local list = {}
    for i, mark in ipairs(r.order) do
      list[i] = r.joists[mark].rules.status .. ", " .. r.joists[mark].action
    end
    return list
  end
  lu.assertEquals(said(floor():review()), {"outside, refer", "outside, refer",
    "within, leave"})
  local relieved = {"within (by depth), leave", "outside, refer", "within, leave"}
  lu.assertEquals(said(floor "bridging":review()), relieved)
  lu.assertEquals(said(floor():review {by_depth = "bridging"}), relieved)
  local own = bored {mark = "A"}:review(with(CA, {by_depth = "bridging"}))
  lu.assertEquals(ns.report.text(floor "bridging":review()):match "A +leave[^\n]+" ~= nil,
    own.action == "leave")
  support.raises("floor:review: by_depth: one of strapping", floor().review, floor(),
    {by_depth = "glue"})
  support.raises("the rules have no span table", floor "bridging".review,
    floor "bridging", {rules = "us-irc-2021"})
end

function T.test_relief_in_a_sweep()
  local sweep = ns.sweep(with(CA, {joist = bored(), values = {"rules", "action", "ratio"},
    over = {span = {"2.80 m", "2.85 m", "2.851 m"},
      ["cuts.1.diameter"] = {"58 mm", "70 mm"}}, by_depth = "bridging"}))
  local count = 0
  for row in sweep:rows() do
    local r = bored():with {span = row.span,
      ["cuts.1.diameter"] = row["cuts.1.diameter"]}
      :review(with(CA, {by_depth = "bridging"}))
    lu.assertEquals({row.rules, row.action, row.ratio},
      {r.rules.status, r.action, r.cut.ratio})
    count = count + (row.rules == "within (by depth)" and 1 or 0)
  end
  lu.assertEquals(count, 2)
  support.raises("to which by_depth is nothing", ns.sweep, with(CA, {joist = bored(),
    over = {dead = {10}}, values = {"longest_span"}, by_depth = "bridging"}))
  support.raises("the rules have no span table", ns.sweep, {joist = bored(),
    over = {dead = {10}}, standard = CA.standard, rules = "us-irc-2021",
    by_depth = "bridging"})
end

local JOISTS = "mark,size,species,grade,edition,span,spacing,bearing,dead,live\n"
  .. "A,38x235,Spruce-Pine-Fir,No.1/No.2,csa-o86-2019,2800,406,90,0.5 kPa,1.9 kPa\n"
local CUTS = "joist,kind,at,diameter\nA,hole,900,70\n"

function T.test_relief_of_a_survey()
  local settings = "name,value\nunits,mm\nstandard,csa-o86-2019\nrules,ca-nbc-9.23.5\n"
  local function status(more, t)
    local floor = assert(ns.read_survey(with({joists = JOISTS, cuts = CUTS,
      settings = settings .. more}, t)))
    return floor:review().joists.A.rules.status
  end
  lu.assertEquals(status "", "outside")
  lu.assertEquals(status "by depth,bridging\n", "within (by depth)")
  lu.assertEquals(status("", {by_depth = "bridging"}), "within (by depth)")
  local none, problems = ns.read_survey {joists = JOISTS, cuts = CUTS,
    settings = settings .. "by depth,glue\n"}
  lu.assertNil(none)
  lu.assertStrContains(problems[1].text, "one of strapping")
end

------------------------------------------------------------------------ the short report

-- 38x235 at 400 mm over 4.0 m: w_f = (1.25 x 0.5 + 1.5 x 1.9) 0.4 = 1.39 kN/m, M_f = 2.78
-- kN m; M_r = 0.9 x 11.8 x 1.4 x 1.1 S = 16.35 x 349,800 = 5.72 kN m; a notch of 45 x 90
-- mm leaves K_N = 1/sqrt(0.006 x 235 x 1.6 (235/190 - 1)) = 1.368.
function T.test_the_short_report_by_csa()
  local floor = ns.floor {name = "F", standard = CA.standard, rules = CA.rules,
    joists = {csa {mark = "A", cuts = {ns.end_notch {support = "left", face = "bottom",
      depth = "45 mm", length = "90 mm"}}},
      csa {mark = "B", cuts = {ns.hole {at = "2.0 m", diameter = "50 mm"}}},
      csa {mark = "C"}}}
  local text, calculation
  for _, file in ipairs((ns.package.files(floor:review(), {full = true}))) do
    if file.name == "report.txt" then text = file.text:gsub("%s+", " ") end
    if file.name == "calculation.txt" then calculation = file.text:gsub("%s+", " ") end
  end
  lu.assertStrContains(text, "rules only: end notch 1 outside OBC 9.23.5.2")
  lu.assertStrContains(text, "2.78 5.72 kN m")
  lu.assertStrContains(calculation, "centre of its left bearing")
  lu.assertStrContains(calculation, "= 1.368 [6.5.4]")
  lu.assertStrContains(calculation, "M_r = f_r*S = 16.35*349800 = 5720000 N mm [6.5.3]")
end

return T
