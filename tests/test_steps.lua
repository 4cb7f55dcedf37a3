-- SPDX-License-Identifier: MIT
-- The steps of a calculation are a second statement of what the core computes. Here the
-- text of every formula is read and worked out again from its inputs, as an official with
-- a pocket calculator would, until each branch of each mode has come up often enough.
local compiler = require "netsection.steps"
local formula = require "tests.formula"
local lu = require "luaunit"
local ns = require "netsection"
local random_joist = require "tests.random_joist"
local review = require "netsection.review"
local packs = require "netsection.packs"
local support = require "tests.support"

local T = {}

local words = packs.standard("us-nds-2018-asd").words
local REL = 1e-12
local OFTEN = 20     -- times each branch has to come up
local JOISTS = 3300  -- worked at least

-- Modes with a capacity: their last line is the ratio.
local RATIO_MODES = {"bending", "shear", "bearing", "deflection-live", "deflection-total",
  "net-bending", "net-shear", "notch-shear", "opening-frame", "lip-tension",
  "wood-compression", "chord-alone", "host-bending", "host-shear", "fasteners",
  "connection-shear", "steel", "withdrawal", "column", "soil-bearing", "footing"}
local OTHER_MODES = {"uplift", "stability"}
local RATIO = {}
for _, mode in ipairs(RATIO_MODES) do RATIO[mode] = true end

-------------------------------------------------------------------------------- formulas

function T.test_the_reader_of_formulas()
  local x = {a = 2, b = 3, ["F_b'"] = 7, S = 5}
  for text, value in pairs {["a^b^a"] = 512, ["-a^2"] = -4, ["a - b - 1"] = -2,
    ["12/a/b"] = 2, ["2*-b"] = -6, ["a^-1"] = 0.5, ["(a + b)*S"] = 25,
    ["M"] = false, ["F_b'*S - 0.5"] = 34.5, ["a + "] = false, ["2 b"] = false,
    ["(a"] = false, [""] = false, ["a''"] = false} do
    local ok, got = pcall(formula.value, text, x)
    lu.assertEquals(ok and got, value, text)
  end
end

---------------------------------------------------------------------------- one check

-- The ratio where there is no capacity at all (DEVELOPERS.md).
local FULL_SCALE = 1e12

-- What is wrong with a step, or nil.
local function wrong_value(step)
  local got = formula.value(step.formula, step.inputs)
  if step.symbol == "ratio" and step.value == FULL_SCALE then
    local at_least = got >= FULL_SCALE * (1 - REL)
    return not at_least and ("no capacity, the formula gives %.17g"):format(got)
  end
  local close = math.abs(got - step.value) <= REL * math.abs(step.value)
  return not close and ("%.17g, the formula gives %.17g"):format(step.value, got)
end

-- A name stands for one number all through the sheet.
local function wrong_input(step, stated)
  for name, value in pairs(step.inputs) do
    if stated[name] and stated[name] ~= value then
      return ("input %s is %.17g, above it is %.17g"):format(name, value, stated[name])
    end
  end
end

-- Calls found(step, problem) for every step that does not hold, and for a last line that
-- is not the ratio of the check (a bearing with no seat has none).
local function check_steps(k, found)
  local stated, last = {}, {}
  for _, step in ipairs(k.steps) do
    local problem = step.formula and (wrong_input(step, stated) or wrong_value(step))
    if problem then found(step, problem) end
    stated[step.symbol] = step.value
    last = step
  end
  local closes = last.symbol == "ratio" and last.value == k.ratio
  if RATIO[k.mode] and k.ratio and not closes then
    found(last, "the last line is not the ratio")
  end
end

----------------------------------------------------------------------------- all of them

-- How often each branch of each mode came up.
local function new_tally()
  local tally = {}
  for _, list in ipairs {RATIO_MODES, OTHER_MODES} do
    for _, mode in ipairs(list) do
      tally[mode] = {}
      for branch = 1, words:branches(mode) do tally[mode][branch] = 0 end
      lu.assertTrue(#tally[mode] > 0, "no steps for " .. mode)
    end
  end
  return tally
end

local function rare_branches(tally)
  local list = {}
  for mode, branches in pairs(tally) do
    for branch, count in ipairs(branches) do
      if count < OFTEN then
        list[#list + 1] = ("%s branch %d: %d times"):format(mode, branch, count)
      end
    end
  end
  table.sort(list)
  return list
end

local function work_check(k, tally, found)
  local counts = tally[k.mode]
  if not (counts and counts[k.branch]) then
    error(("%s has no branch %s"):format(k.mode, k.branch), 0)
  end
  counts[k.branch] = counts[k.branch] + 1
  check_steps(k, function(step, problem) found(k, step, problem) end)
end

local function work_joist(t, repair, tally, found, standard)
  local joist = ns.joist(t)
  local r = (repair and joist:fix(repair) or joist):review {standard = standard}
  -- A repair leaves the first two states as they are without it.
  for _, state in ipairs(repair and {"fixed"} or {"uncut", "cut"}) do
    for _, k in ipairs(r[state].checks) do work_check(k, tally, found) end
  end
end

-- Connections by themselves, as a hanger or screws at a notch have them.
local function work_joint(r, tally, found)
  local mode = r:pick {"withdrawal", "withdrawal", "fasteners", "opening-frame"}
  local demand = r:real(0, 3000)
  local some = r:unit() < 0.9 and 1 or 0 -- none: no capacity at all
  local branch = mode == "opening-frame" and 3 or r:int(1, mode == "withdrawal" and 4
    or 2)
  local F = r:real(300, 2000) -- wood below an opening, pressed from below
  local d = r:real(4, 12) -- an end notch: branches 3 and 4
  local CD = r:pick {0.9, 1, 1.15, 1.6}
  work_check(review.joint {mode = mode, branch = branch, demand = demand, T = demand,
    V = r:real(0, 3000), d = d, d_n = d * r:real(0.4, 1), G = demand,
    R = demand, a = r:real(0.5, 12), b = r:real(1, 4), h = r:real(0.5, 4), F = F,
    CM = 1, Ct = 1, CL = 1, CF = 1.1, Ci = 1, Cr = 1, K = 1,
    F_a = F * CD * 1.1,
    W = r:real(50, 600), p = r:real(0.5, 6), Z = r:real(20, 900) * some,
    CD = CD, C_z = r:real(0.3, 2) * some, n_f = r:int(1, 20),
    member = "host"}, tally, found)
end

-- What stands below: posts, their ends, footings, a beam of steel.
local function work_member(r, tally, found)
  local mode = r:pick {"column", "column", "bearing", "steel", "soil-bearing", "footing"}
  local P, b, d = r:real(0, 30000), r:real(2, 8), r:real(2, 8)
  local F, CD, CF = r:real(500, 2000), r:pick {0.9, 1, 1.25}, r:pick {1, 1.15}
  local l = r:unit() < 0.8 and 40 * math.min(b, d) or 60 * math.min(b, d)
  local t = {mode = mode, demand = P, P = P, R = P, V = P, M = P, d_1 = d, d_2 = b,
    l_e1 = l * r:real(0.2, 1), l_e2 = l * r:real(0.2, 1), E_m = r:real(2e5, 8e5),
    e_1 = r:unit() < 0.4 and r:real(0.1, 2) or 0, F_a2 = r:real(500, 2000), F = F,
    F_cs = F * CD * CF, CD = CD, CM = 1, Ct = 1, CF = CF, Ci = 1, K = 1,
    M_a = r:real(1e3, 1e6), V_a = r:real(100, 2e4), q_s = r:real(1000, 4000), gamma = 150,
    t = r:real(6, 16), B = r:real(8, 40), member = "post",
    branch = mode == "bearing" and 3 or mode == "steel" and r:int(4, 5) or 1}
  if mode == "column" then
    -- loads that the post bears, or nearly: past its buckling there is no sum
    local s = math.max(t.l_e1 / d, t.l_e2 / b)
    t.P = r:real(0, 0.9) * math.min(0.822 * t.E_m / s ^ 2, F) * b * d
    t.K_f = r:unit() < 0.3 and r:pick {0.6, 0.75} or nil    -- of plies
  end
  work_check(review.joint(t), tally, found)
end

-- A joist that hogs: its overhangs carry more than its span.
local function hogging(r)
  local t = random_joist.of(r, {spans = 1, overhangs = false, cuts = 3,
    kinds = {"hole", "slot", "notch", "loss"}})
  t.spans = {r:real(48, 96)}
  t.bearing, t.blocking, t.loads = 3.5, nil, nil
  t.overhang_left, t.overhang_right = r:real(40, 80), r:real(40, 80)
  for _, cut in ipairs(t.cuts or {}) do
    local at = r:real(2, 30)
    cut.from_right, cut.from, cut.to = nil, cut.from and at, cut.to and at + r:real(4, 16)
    cut.at = cut.at and at + 8
  end
  t.cuts = {t.cuts and t.cuts[1]}
  return t
end

-- Notches at the ends and inside: short and long, in either face, sloped.
local function notched(r)
  local t = random_joist.of(r, {spans = 1, overhangs = false, cuts = 2,
    kinds = {"end_notch", "notch"}})
  for _, cut in ipairs(t.cuts or {}) do
    cut.taper = r:unit() < 0.4 and r:real(10, 20) or nil
    if cut.kind == "end_notch" and r:unit() < 0.5 then cut.face = "top" end
  end
  return t
end

local function without_deck(r)
  local t = random_joist.of(r)
  t.sheathed = false
  if r:unit() < 0.5 then t.blocking = nil end
  return t
end

-- A thin joist with a long slot, whose pressed chord buckles: in the span, or beside the
-- bearing of an overhang.
local function slender(r)
  local hogs = r:unit() < 0.5
  local t = random_joist.of(r, {spans = 1, overhangs = false, cuts = 0})
  t.size, t.species, t.grade, t.edition, t.plies = nil, nil, nil, nil, nil
  t.b, t.d, t.spans, t.bearing, t.blocking, t.loads = 0.6, 9.25, {120}, 3.5, nil, nil
  t.material = {Fb = 900, Fv = 180, E = 1.6e6, Fc = 1350, Ft = 575}
  t.overhang_left, t.overhang_right = hogs and 90 or nil, hogs and 90 or nil
  t.live = r:real(20, 80)
  t.cuts = {{kind = "slot", from = hogs and 4 or 45, to = hogs and 34 or 75, height = 4,
    below = r:real(1.5, 3.5)}}
  return t
end

-- One span, cut where a repair can help, and the repair.
local function repaired(r)
  local t = random_joist.of(r, {spans = 1, overhangs = false, cuts = r:int(1, 2),
    kinds = {"hole", "notch", "notch", "sever"}})
  return t, random_joist.fix(r, t)
end

-- A deep notch or hole over a strap.
local function strapped(r)
  local t = random_joist.of(r, {spans = 1, overhangs = false, cuts = 0})
  local total = random_joist.extent(t)
  local d = ns.joist(t).model.d
  t.cuts = {{kind = "notch", face = "bottom", from = total / 2, to = total / 2 + 3,
    depth = d * r:real(0.1, 0.8)}}
  return t, random_joist.fix(r, t, "strap")
end

-- A sister where some loads bend the joist upward.
local function repaired_hogging(r)
  local t = hogging(r)
  return t, random_joist.fix(r, t, "sister")
end

-- Rot in the bottom over a bearing: some or none of its seat is left.
local function rotten(r)
  local t = random_joist.of(r, {spans = 1, overhangs = false, cuts = 0})
  t.bearing = 3
  t.cuts = {{kind = "loss", cause = "rot", from = -1.5, to = r:real(0, 3),
    bottom = r:real(0.1, 1)}}
  return t
end

-- Long low slots beside a thin chord, which the wood beyond may carry without.
local function slotted(r)
  local hogs = r:unit() < 0.5
  local t = random_joist.of(r, {spans = 1, overhangs = false, cuts = 0})
  local total = random_joist.extent(t)
  local x = r:pick {r:real(1, 14), r:real(15, math.max(total - 60, 15))}
  t.overhang_right = hogs and 48 or nil
  if hogs then x = total + r:real(2, 20) end
  if not hogs then x = math.min(x, math.max(total - 34, 1)) end
  local d = ns.joist(t).model.d
  local lip = math.max(1.01, d * r:real(0.126, 0.22))
  t.cuts = {{kind = "slot", from = x, to = x + r:real(6, 26), height = r:real(0.1, 0.6)}}
  t.cuts[1][r:pick {"below", "above"}] = lip
  return t
end

local SOURCES = {rotten, slotted, slotted, random_joist.of, repaired, random_joist.of,
  hogging, repaired, notched,
  without_deck, strapped, slender, repaired, repaired_hogging}

-- The first joist of each sort of trouble, and how many there are.
local function collector()
  local count, first = {}, {}
  local function found(i, k, step, problem)
    local key = ("%s branch %d, %s = %s"):format(k.mode, k.branch, step.symbol,
      step.formula or "given")
    count[key] = (count[key] or 0) + 1
    first[key] = first[key] or ("joist %d: %s"):format(i, problem)
  end
  local function list()
    local lines = {}
    for key, n in pairs(count) do
      lines[#lines + 1] = ("%s: %d times, %s"):format(key, n, first[key])
    end
    table.sort(lines)
    return lines
  end
  return found, list
end

function T.test_formulas_give_the_numbers()
  local r, tally = support.random(20260101), new_tally()
  local found, list = collector()
  for i = 1, 3 * JOISTS do
    local t, repair = SOURCES[i % #SOURCES + 1](r)
    local function found_here(...) found(i, ...) end
    work_joist(t, repair, tally, found_here)
    work_joint(r, tally, found_here)
    work_member(r, tally, found_here)
    if i >= JOISTS and #rare_branches(tally) == 0 then break end
  end
  lu.assertEquals(list(), {})
  lu.assertEquals(rare_branches(tally), {})
end

-- The lines of every other standard on file are read and worked again in the same way, by
-- the branches that joists and their repairs have; those that it refuses have none.
local OTHERS, FEW = 600, 5 -- joists; times each mode comes up at least
local SELDOM = {uplift = true, stability = true, ["wood-compression"] = true,
  ["chord-alone"] = true, ["net-bending"] = true}

function T.test_formulas_of_other_standards()
  for _, name in ipairs(packs.names "standards") do
    local of_family = packs.standard(name).data.family == "nds" -- others: test_ec5
    if name ~= packs.default.standards and of_family then
      local r, tally = support.random(20260102), new_tally()
      local found, list = collector()
      for i = 1, OTHERS do
        local t, repair = SOURCES[i % #SOURCES + 1](r)
        work_joist(t, repair, tally, function(...) found(i, ...) end, name)
      end
      lu.assertEquals(list(), {}, name)
      for _, mode in ipairs {"bending", "shear", "bearing", "deflection-live",
        "deflection-total", "net-bending", "net-shear", "notch-shear", "opening-frame",
        "lip-tension", "wood-compression", "host-bending", "host-shear", "fasteners",
        "connection-shear"} do
        local all = 0
        for branch, count in ipairs(tally[mode]) do
          all = all + count
          lu.assertTrue(count > 0 or branch > 1 or SELDOM[mode], mode)
        end
        lu.assertTrue(all >= FEW, mode)
      end
    end
  end
end

-- A line is SYMBOL{...} = FORMULA [CLAUSE] : what it is; a part ends at the first mark of
-- the next, brackets of a clause stand at the end.
function T.test_the_parts_of_a_line()
  local function line(text)
    local all = compiler.compile {steps = {own = {{text}}}, lines = {},
      constants = {one = 1, two = 2, three = 3}}
    local one = all.own[1][1]
    return {one.symbol, one.formula or "", one.clause or "", one.says or "", one.unit}
  end
  for text, parts in pairs {
    ["one{unit=psi} = two/three [7.1, memory] : it = two [not three] : of three"] =
      {"one", "two/three", "7.1, memory", "it = two [not three] : of three", "psi"},
    ["one = two = three"] = {"one", "two = three", "", "", ""},
    ["one : given"] = {"one", "", "", "given", ""},
    ["one [7] [8]"] = {"one", "", "7] [8", "", ""}, ["one{}"] = {"one", "", "", "", ""},
  } do
    lu.assertEquals(line(text), parts)
  end
  for _, text in ipairs {"", "one{unit=psi", "one []", "{unit=psi} = two", " : given"} do
    lu.assertErrorMsgContains("is no line of a calculation", line, text)
  end
end

return T
