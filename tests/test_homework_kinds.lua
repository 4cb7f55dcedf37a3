-- SPDX-License-Identifier: MIT
-- Kinds of problems: scenarios by hand calculation, every key solved again on another
-- path - the review, the beam solver, a section of the core, or a closed form, as the
-- kind names it - and every printed formula worked out by a reader of its own.
local lu = require "luaunit"
local ns = require "netsection"
local formula = require "tests.formula"
local homework = require "tests.homework"
local plain = require "tests.plain_mistakes"
local support = require "tests.support"

local close = support.close
local T = {}

local REL = 0.005      -- hand calculations are rounded

local function values(v, expected, rel)
  for symbol, x in pairs(expected) do close(v.s[symbol], x, rel or REL, symbol) end
end

-- What a mistake comes to, by its name.
local function slip(v, name, symbol)
  for i, mistake in ipairs(v.kind.mistakes) do
    if mistake.name == name and v.slips[i][symbol] then return v.slips[i][symbol] end
  end
  lu.fail("no mistake " .. name)
end

---------------------------------------------------------------------------- scenarios

-- Hand calculation: NDS 3.4.3.2(a) and 4.4.3, simple statics.
function T.test_C1_end_notch()
  local v = homework.version {kind = "end_notch", given = {size = "2x12", span = "16-0",
    spacing = 16, dead = 15, live = 40, depth = "2-1/2 in",
    wood = "Douglas Fir-Larch No.2"}}
  values(v, {w = 73.33, R = 586.7, M = 2346.7, f_v = 52.1, ["V'"] = 952.8, ratio = 0.616,
    limit = 2.81, n_v = 3.81, n_most = 2.81})
  lu.assertEquals(v.s.rule, "within")
  close(slip(v, "the whole depth, no notch factor", "V'"), 2025, REL)
  close(slip(v, "the depth left, no notch factor", "V'"), 1575, REL)
  close(slip(v, "the factor not squared", "V'"), 1225, REL)
  close(slip(v, "the reaction not halved", "R"), 2 * 586.7, REL)
end

-- Hand calculation: NDS 3.7.1 with c = 0.8.
function T.test_post_under_a_beam()
  local v = homework.version {kind = "column", given = {size = "4x4", length = 90,
    load = 2925, wood = "Douglas Fir-Larch No.2"}}
  values(v, {s_l = 25.714, F_cE = 721.0, F_cs = 1552.5, C_P = 0.4081, ["F_c'"] = 633.6,
    ["P'"] = 7762, ratio = 0.377})
  lu.assertEquals(v.s.verdict, "yes")
  close(slip(v, "no buckling", "P'"), 1552.5 * 12.25, REL)
end

-- Hand calculation: two spans 3/8, 10/8, 3/8 w L; four joists inside 80 in.
function T.test_beam_under_joists()
  local v = homework.version {kind = "beam_under_joists", given = {size = "2x10",
    half = 81, spacing = 16, dead = 12, live = 40, n = 5,
    wood = "Douglas Fir-Larch No.2"}}
  values(v, {w = 69.333, R = 585.0, V = 1170, M = 2340, f_b = 656.4, f_v = 63.24,
    ratio = 0.663, P = 2925})
  close(slip(v, "joists as simple spans", "R"), 468, REL)
  close(slip(v, "one piece of beam only", "P"), 1755, REL)
end

-- Hand calculation: two rectangles about their own centroid, mechanics of materials.
function T.test_C2_off_centre_hole()
  for lip, expected in pairs {[1.25] = {1379, 929, 72.14, "bottom"},
    [3.125] = {871, 871, 95.56, "both alike"}, [5] = {929, 1379, 72.14, "top"}} do
    local v = homework.version {kind = "off_centre_hole", given = {size = "2x10",
      diameter = 3, lip = lip, side = "low", moment = 1500}}
    values(v, {f_b = expected[1], f_t = expected[2], I = expected[3], f_0 = 841})
    lu.assertEquals(v.s.edge, expected[4])
    close(slip(v, "the whole section", "f_b"), 841, REL)
  end
  local v = homework.version {kind = "off_centre_hole", given = {size = "2x10",
    diameter = 3, lip = 1.25, side = "low", moment = 1500}}
  -- I of the hole taken off about the old axis: 98.93 - 3.375 - 4.5*1.875^2 = 79.74 in4,
  -- 18000*4.625/79.74 = 1044 psi.
  close(slip(v, "about the old axis", "I"), 79.74, REL)
  close(slip(v, "about the old axis", "f_b"), 1044, REL)
end

-- Hand calculation: members that bend alike, a prop of 5/8 w L let go.
function T.test_C3_sharing_and_jacking()
  local v = homework.version {kind = "sister_share", given = {old_b = 2, old_d = 8,
    old_E = 1.2e6, new_d = 7.25, new_E = 1.6e6, span = "13-0", dead = 25, live = 65}}
  values(v, {f = 0.573, M = 1901, M_1 = 1090, M_2 = 811, f_1 = 613, f_2 = 741, u_1 = 740,
    u_2 = 535, p_1 = 581, p_2 = 792, D_L = 0.234, P = 203, q = 38.4})
  -- by area: 16 / (16 + 10.875) = 0.595
  close(slip(v, "shared by area", "f"), 0.595, REL)
  close(slip(v, "shared by area", "M_1"), 0.595 * 1901, REL)
end

-- Hand calculation, a bath floor: w 69.33 plf, M(3-4 + 30 in = 5-10) = 1551, V = 63.6;
-- outer group 620.5, inner 557 lb.
function T.test_couple_of_a_severed_joist()
  local v = homework.version {kind = "severed_couple", given = {size = "2x10",
    span = "13-6", spacing = 16, dead = 12, inner = 70, arm = 30}}
  values(v, {F_o = 620.5, F_i = 557, M_o = 1175, T = 12 * 1551 / (0.9 * 9.25)})
  lu.assertEquals(v.s.strap, "no")
  lu.assertEquals(v.s.n_o, 3)
  close(slip(v, "the full depth as arm", "T"), 12 * 1551 / 9.25, REL)
end

-- By hand: k = 48 E I/L^3 = 1787.1 lb/in, k_f = 6 E 1.5469/16^3 = 3625.5, r = 2.0287:
-- (1 + 1.0143)/(1 + 3.0430) = 0.4982 stay.
function T.test_share_of_a_point_load()
  local v = homework.version {kind = "point_load_share", given = {size = "2x10",
    row = "2x6", span = "13-6", spacing = 16, P = 225}}
  values(v, {k = 1787.1, k_f = 3625.5, q_2 = 0.4982, R_2 = 112.1, R_1 = 56.45,
    M_2 = 378.3, w_2 = 0.06273, M_f = 903.2})
  close(slip(v, "one arm of the row alone", "k_f"), 3625.5 / 2, REL)
end

-- Textbook closed forms: P a b / L under a load by itself; 5 w L^4 / (384 E I).
function T.test_closed_forms()
  local v = homework.version {kind = "moment_shear", given = {span = "12-0",
    place = "4-0", load = 40, post = 600}}
  values(v, {M_a = 600 * 4 * 8 / 12 + 40 * 4 * 8 / 2}, 1e-12)
  local c = homework.version {kind = "cut_deflection", given = {size = "2x10",
    span = "13-0", spacing = 16, live = 40, from = 30, length = 12, height = 4}}
  values(c, {D_1 = 5 * 40 * 16 / 144 * 156 ^ 4 / (384 * 1.6e6 * 1.5 * 9.25 ^ 3 / 12)},
    1e-9)
end

-- NDS Supplement Table 4A: Douglas Fir-Larch No.2, 2x8, F_b 900, C_F 1.2, wet: 1080 psi
-- is at most 1150, so C_M is 1.
function T.test_wet_service_footnote()
  local v = homework.version {kind = "adjusted_values", given = {size = "2x8",
    wood = "Douglas Fir-Larch No.2", service = "wet, over 19 %", incised = "no",
    CD = 1.15, row = "four at 16 in under a deck"}}
  lu.assertEquals(v.s.C_M, 1)
  values(v, {["F_b'"] = 900 * 1.15 * 1.2 * 1.15, ["F_v'"] = 180 * 1.15 * 0.97,
    ["E'"] = 1.6e6 * 0.9}, 1e-12)
  close(slip(v, "0.85 for wet service whatever the value", "F_b'"),
    900 * 1.15 * 0.85 * 1.2 * 1.15, 1e-12)
end

---------------------------------------------------------------------------- other paths

-- 200 where it is asked for.
local VERSIONS = tonumber(os.getenv "NETSECTION_VERSIONS") or 20

-- Kinds whose given is rounded: nails to a pound in NDS Table 12N.
local ROUNDED = {fastener_count = 0.006}

-- Stresses next to mid-span are a little more than at it; read off a drawn line.
local function compare(k, v, symbol, x)
  local what = ("%s, %s of %s"):format(k.name, symbol, k.source)
  if type(x) == "number" then
    support.close_abs(x, v.s[symbol], (ROUNDED[k.name] or 1e-6) * math.abs(v.s[symbol])
      + 1e-9, what)
  else
    lu.assertEquals(x, v.s[symbol], what)
  end
end

for _, name in ipairs(ns.homework.kinds()) do
  T["test_solved_again_" .. name] = function()
    local set = homework.of(name, VERSIONS)
    local k = set.problems[1].kind
    lu.assertEquals(type(k.source), "string")
    for _, student in ipairs(set.students) do
      local v, n = student[1], 0
      for symbol, x in pairs(k.check(v.p, v.s)) do
        compare(k, v, symbol, x)
        n = n + 1
      end
      lu.assertTrue(n >= 2, name .. ": at least two answers are solved again")
    end
  end
end

-- Every wrong answer is what its mistake comes to by its description
-- (plain_mistakes.lua); a mistake that is not told there fails.
function T.test_every_wrong_answer_comes_from_its_mistake()
  local compared = 0
  for _, name in ipairs(ns.homework.kinds()) do
    for _, student in ipairs(homework.of(name, VERSIONS).students) do
      local v, s = student[1], {}
      for symbol, x in pairs(v.s) do s[symbol:gsub("'", "_")] = x end
      for i, mistake in ipairs(v.kind.mistakes) do
        local told = plain[name][mistake.name]
        lu.assertNotNil(told, name .. ": " .. mistake.name)
        for _, symbol in ipairs(mistake.of) do
          local x = told[symbol:gsub("'", "_")](s)
          support.close_abs(v.slips[i][symbol] or v.s[symbol], x, 1e-9 * math.abs(x),
            ("%s, %s: %s"):format(name, mistake.name, symbol))
          compared = compared + 1
        end
      end
    end
  end
  lu.assertTrue(compared > 150 * VERSIONS, compared)
end

-- Steps whose formula is arithmetic alone, which the reader of the tests takes.
local function bare(text)
  return text and not text:find "%a%(" and text:find "^[%w_'%s%.%+%-%*/%^%(%)]+$"
    and not text:find "%w %w"
end

function T.test_printed_formulas_give_the_printed_values()
  local worked = 0
  for _, name in ipairs(ns.homework.kinds()) do
    local set = homework.of(name, 20)
    for _, student in ipairs(set.students) do
      local v = student[1]
      for _, step in ipairs(v.kind.steps) do
        if type(v.s[step.symbol]) == "number" and bare(step.formula) then
          close(formula.value(step.formula, v.s), v.s[step.symbol], 1e-12,
            name .. ", " .. step.symbol)
          worked = worked + 1
        end
      end
    end
  end
  lu.assertTrue(worked > 16 * 20 * 4)
end

---------------------------------------------------------------------------- fairness

-- Everything a kind promises, for many students.
function T.test_versions_are_fair()
  for _, name in ipairs(ns.homework.kinds()) do
    local set = homework.of(name, 200)
    for _, student in ipairs(set.students) do
      local v = student[1]
      for _, symbol in ipairs(v.kind.edge) do
        lu.assertTrue(math.abs(v.s[symbol] - 1) >= 0.02, name .. " at an edge")
      end
      for i, mistake in ipairs(v.kind.mistakes) do
        for symbol, x in pairs(v.slips[i]) do
          lu.assertTrue(math.abs(x / v.s[symbol] - 1) > 0.02,
            ("%s: %s gives the right %s"):format(name, mistake.name, symbol))
        end
      end
    end
  end
end

function T.test_modes_are_balanced_and_nobody_is_alike()
  for _, name in ipairs(ns.homework.kinds()) do
    local set = homework.of(name, 500)
    local row = set:difficulty()[1]
    lu.assertEquals(row.alike, 0, name)
    lu.assertEquals(row.used, 500, name)
    local least, most = math.huge, 0
    for _, m in ipairs(row.modes) do
      least, most = math.min(least, m.count), math.max(most, m.count)
    end
    lu.assertTrue(most - least <= 1, name .. ": modes differ by more than one student")
  end
end

-- A mistake that never comes up in a version would be dead text.
function T.test_every_mistake_comes_up()
  for _, name in ipairs(ns.homework.kinds()) do
    local set, seen = homework.of(name, 100), {}
    for _, student in ipairs(set.students) do
      for i, list in ipairs(student[1].slips) do
        if next(list) then seen[i] = true end
      end
    end
    for i, mistake in ipairs(set.problems[1].kind.mistakes) do
      lu.assertTrue(seen[i], name .. ": " .. mistake.name)
    end
    lu.assertTrue(#set.problems[1].kind.mistakes >= 3, name)
  end
end

-- Every text of a kind keeps to sober words.
function T.test_words()
  for _, name in ipairs(ns.homework.kinds()) do
    local k = homework.version(name).kind
    local said = {k.title, k.question, k.source}
    for _, step in ipairs(k.steps) do
      said[#said + 1] = table.concat({step.ask or "", step.hint or "", step.hand or "",
        step.says or ""}, " ")
    end
    for _, mistake in ipairs(k.mistakes) do
      said[#said + 1] = mistake.name .. " " .. mistake.reveals
    end
    local all = table.concat(said, " "):lower()
    for _, word in ipairs {"certif", "guarant", "safe", "approv"} do
      lu.assertNil(all:find(word), name .. " says " .. word)
    end
  end
end

return T
