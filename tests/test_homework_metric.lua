-- SPDX-License-Identifier: MIT
-- Kinds of problems in metric units by EN 1995-1-1: scenarios by hand, every key solved
-- again, every wrong answer by its description (plain_metric.lua), answers in its units.
local lu = require "luaunit"
local ns = require "netsection"
local again = require "tests.kinds_again"
local homework = require "tests.homework"
local support = require "tests.support"

local close, raises = support.close, support.raises
local T = {}

local EN = "en-1995-1-1"
local OWN = {"tributary_load", "reactions", "adjusted_values", "joist_strength",
  "end_notch", "off_centre_hole", "final_deflection"}

local of = again.of

-- Hand computations from the clauses of EN 1995-1-1 and strengths of EN 338:2016; k_v
-- 0.593 as printed in a public teaching sheet (h 225, h_ef 175, x 50 mm).
function T.test_metric_scenarios_by_hand()
  local function metric(kind, given, expected)
    local v = of(EN, {kind = kind, given = given}):of("s001")[1]
    for symbol, x in pairs(expected) do
      if type(x) == "number" then close(v.s[symbol], x, 0.001, symbol)
      else lu.assertEquals(v.s[symbol], x) end
    end
  end
  metric("tributary_load", {left = 400, right = 480, span = "4.0 m", cover = "0.25 kN/m2",
    ceiling = 0.12, live = "1.5 kPa"}, {t = 0.44, g_k = 0.2508, q_k = 0.66,
    p_d = 1.32858, R_d = 2.65716, M_d = 2.65716})
  metric("reactions", {span = 3600, place = 1200, load = 1.1, post = 2.4},
    {R_w = 1.98, R_PB = 0.8, R_A = 3.58, R_B = 2.78, M_P = 3.504})
  metric("adjusted_values", {class = "C24", d = 100, service = 3,
    duration = "short-term", row = "joists of a deck that shares the load"},
    {k_mod = 0.7, k_h = 1.08447, f_md = 0.7 * 1.08447 * 1.1 * 24 / 1.3,
      f_vd = 0.7 * 1.1 * 4 / 1.3, f_c90d = 0.7 * 2.5 / 1.3})
  local floor = {class = "C24", b = 45, d = 220, span = "4000 mm", spacing = "400 mm",
    dead = "0.5 kPa", live = "1.5 kPa"}
  local function with(more)
    local t = {}
    for name, value in pairs(floor) do t[name] = value end
    for name, value in pairs(more) do t[name] = value end
    return t
  end
  metric("joist_strength", floor, {p_d = 1.17, M_d = 2.34, V_d = 2.34, W = 363000,
    sigma_md = 6.44628, f_md = 16.2462, u_m = 0.396788, tau_d = 0.52917, strong = "yes"})
  metric("end_notch", with {d = 225, depth = 50, reach = 50}, {k_v = 0.593})
  metric("end_notch", with {depth = 55, reach = 100}, {alpha = 0.75, k_v = 0.448107,
    ratio = 0.581506, carries = "yes"})
  -- w_G, w_Q by 5 w L^4/(384 E I): E I = 11000 x 39.93e6 N mm2
  metric("final_deflection", with {service = 2}, {w_G = 1.51779, w_Q = 4.55337,
    w_inst = 6.07116, w_fin = 8.37819, ratio = 0.523637})
  metric("off_centre_hole", {d = 220, b = 45, diameter = 60, lip = 40, side = "low",
    moment = 1.6}, {A = 7200, y = 125, I = 33180000, sigma_b = 6.0277, sigma_t = 4.5811,
    edge = "bottom"})
end

function T.test_solved_again() again.solved(EN, OWN) end

function T.test_wrong_answers_come_from_their_mistakes()
  local n = again.mistaken(EN, OWN, require "tests.plain_metric")
  lu.assertTrue(n >= 70 * again.versions, n)
end

function T.test_versions_are_fair() again.fair(EN, OWN, "metric") end

function T.test_who_serves_it()
  lu.assertTrue(#ns.homework.kinds(EN) >= 7)
  raises("the kind tub does not serve en-1995-1-1 (it serves us-nds-2018-asd, us-nds-",
    of, EN, "tub")
  raises("the kind final_deflection does not serve us-nds-2018-asd (it serves "
    .. "en-1995-1-1)", homework.of, "final_deflection")
  raises("(reactions): it is in metric units, us asked for", homework.of, "reactions", 1,
    {standard = EN, units = "us"})
  lu.assertEquals(ns.homework.kinds(EN), OWN)
end

-- Answers in the units of the page, or others of the same quantity; slips by a thousand.
function T.test_metric_answers()
  local set = of(EN, "joist_strength", 1)
  local s = set:of("s001")[1].s
  local function verdict(part, said)
    local marks = set:mark {{student = "s001", problem = 1, part = part, answer = said}}
    local entry
    for _, one in ipairs(marks.students.s001.problems[1].parts) do
      if one.part == part then entry = one end
    end
    return entry.verdict, entry.hint
  end
  for _, case in ipairs {
    {"a", "%.5g kN/m", s.p_d}, {"a", "%.5g N/mm", s.p_d}, {"a", "%.6g N/m", 1000 * s.p_d},
    {"b", "%.5g kNm", s.M_d}, {"b", "%.5g kN m", s.M_d}, {"b", "%.8g Nm", 1000 * s.M_d},
    {"b", "%.5g kN\u{B7}m", s.M_d}, {"c", "%.5g kN", s.V_d},
    {"c", "%.7g N", 1000 * s.V_d},
    {"d", "%.8g mm3", s.W}, {"d", "%.8g mm\u{B3}", s.W}, {"d", "%.6g cm3", s.W / 1000},
    {"e", "%.5g N/mm2", s.sigma_md}, {"e", "%.5g MPa", s.sigma_md},
    {"e", "%.5g N/mm\u{B2}", s.sigma_md}, {"e", "%.5g", s.sigma_md}} do
    lu.assertEquals(verdict(case[1], case[2]:format(case[3])), "right", case[2])
  end
  local said, hint = verdict("c", ("%.6g"):format(1000 * s.V_d))
  lu.assertEquals(said, "unit slip")
  lu.assertStrContains(hint, "N and kN")
  lu.assertStrContains(select(2, verdict("c", ("%.5g mm"):format(s.V_d))), "asked in kN")
end

function T.test_a_frozen_set_keeps_its_units()
  local path = os.tmpname()
  local set = of(EN, "end_notch", 3)
  assert(set:save(path))
  local loaded = assert(ns.homework.load(path))
  os.remove(path)
  lu.assertEquals({loaded.standard, loaded.units}, {EN, "metric"})
  lu.assertEquals(loaded:of("s002")[1].s, set:of("s002")[1].s)
end

return T
