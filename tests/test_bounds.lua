-- SPDX-License-Identifier: MIT
-- Every number of a fastener has a least and a most that the formulas of its standard are
-- read with. At each bound the function answers, with numbers that are numbers; a hair
-- past it, it refuses. A field by itself, the others as in a common joint.
local core = require "netsection.core"
local lu = require "luaunit"
local support = require "tests.support"

local T = {}
local dowel = core.dowel

local HAIR = 1e-12

local function with(t, changes)
  local new = {}
  for name, value in pairs(t) do new[name] = value end
  for name, value in pairs(changes) do new[name] = value end
  return new
end

local function assert_answers(f, t, what)
  local ok, out = pcall(f, t)
  lu.assertTrue(ok, ("%s: %s"):format(what, tostring(out)))
  for name, value in pairs(out) do
    if type(value) == "number" then
      lu.assertTrue(value == value and math.abs(value) < math.huge, what .. ": " .. name)
    end
  end
end

local function assert_refuses(f, t, what)
  local ok, why = pcall(f, t)
  lu.assertFalse(ok, what)
  lu.assertStrContains(tostring(why), "a number is missing or out of range", false, what)
end

-- rows {field, least, most}: with open = true the least itself is refused, with above =
-- true the most itself.
local function hold(name, good, rows)
  local f = dowel[name]
  assert_answers(f, good, name)
  for _, row in ipairs(rows) do
    local field, low, high = row[1], row[2], row[3]
    local function case(value) return with(good, {[field] = value}) end
    local what = ("%s.%s"):format(name, field)
    if row.open then
      assert_refuses(f, case(low), what .. " at its least")
    else
      assert_answers(f, case(low), what .. " at its least")
    end
    assert_refuses(f, case(low - HAIR * math.max(1, math.abs(low))), what .. " below")
    if high then
      if not row.above then assert_answers(f, case(high), what .. " at its most") end
      assert_refuses(f, case(high + HAIR * high), what .. " above")
    end
    support.raises("finite", f, case(0 / 0))
    support.raises("finite", f, case(1 / 0))
  end
end

-- Factors of a connection (NDS Table 11.3.1).
local FACTORS = {{"CD", 0, 2, open = true}, {"CM", 0, 1, open = true},
  {"Ct", 0, 1, open = true}, {"Cg", 0, 1, open = true}, {"C_delta", 0, 1},
  {"Ceg", 0, 1}, {"Ctn", 0, 1, open = true}}

local function and_factors(rows)
  for _, row in ipairs(FACTORS) do rows[#rows + 1] = row end
  return rows
end

local BOLT = {kind = "bolt", D = 0.5, D_r = 0.5, F_yb = 45000, L = 6, t_m = 1.5,
  t_s = 1.5, G_m = 0.5, G_s = 0.5, F_u = 58000}

function T.test_lateral()
  hold("lateral", BOLT, and_factors {{"D", 0.5, 4}, {"D_r", 0, 0.5, open = true},
    {"F_yb", 0, 1e6, open = true}, {"L", 0, 100}, {"E", 0, 10}, {"pen", 0, 100},
    {"thread", -1, 100}, {"t_m", 0, 100}, {"t_s", 0, 100, open = true},
    {"G_m", 0, 1.5, open = true}, {"G_s", 0, 1.5}, {"theta_m", 0, 90},
    {"theta_s", 0, 90}, {"rated", 0, 1e6}})
end

-- A steel side member by its strength; without one and without G_s there is no side.
function T.test_lateral_with_steel()
  local steel = with(BOLT, {G_s = 0, F_u = 58000, t_s = 0.25})
  hold("lateral", steel, {{"F_u", 0, 1e6, open = true}})
  -- a maker's value needs no wood, no steel and no shank, but sound factors
  local rated = {kind = "wood screw", rated = 250}
  assert_answers(dowel.lateral, rated, "rated")
  for _, row in ipairs(FACTORS) do
    assert_refuses(dowel.lateral, with(rated, {[row[1]] = -0.5}), row[1])
  end
end

function T.test_withdrawal()
  hold("withdrawal", {kind = "lag screw", D = 0.375, G = 0.5, L = 4, t_s = 1.5, E = 0.25},
    and_factors {{"D", 0, 4, open = true}, {"G", 0, 1.5, open = true}, {"L", 0, 100},
      {"E", 0, 10}, {"T", 0, 100}, {"t_s", 0, 100}, {"pen", 0, 100}, {"rated", 0, 1e6}})
end

function T.test_groups_and_distances()
  hold("Cg", {D = 0.5, n = 4, s = 4, E_m = 1.6e6, A_m = 14, E_s = 1.6e6, A_s = 14}, {
    {"D", 0, 4, open = true}, {"n", 1, 1000}, {"s", 0, 1000, open = true},
    {"E_m", 0, 1e9, open = true}, {"A_m", 0, 1e6, open = true},
    {"E_s", 0, 1e9, open = true}, {"A_s", 0, 1e6, open = true}, {"slip", 0, 1e9}})
  local rows = {{"D", 0, 4, open = true}, {"l", 0, 100}, {"row_used", 0, 1000}}
  for _, name in ipairs {"end_min", "end_full", "edge", "loaded_edge", "spacing_min",
    "spacing_full", "row", "row_staggered"} do
    rows[#rows + 1] = {name, 0, 100}
  end
  hold("distances", {D = 0.5, l = 1.5, end_min = 3.5, end_full = 7, edge = 1.5,
    loaded_edge = 4, spacing_min = 3, spacing_full = 4, row = 1.5, row_staggered = 1.5},
    rows)
  hold("C_delta", {e = 3, e_min = 1.75, e_full = 3.5, s = 2, s_min = 1.5, s_full = 2}, {
    {"e", 0, 1000}, {"s", 0, 1000}, {"e_min", 0, 1000}, {"s_min", 0, 1000},
    {"e_full", 0, 1000, open = true}, {"s_full", 0, 1000, open = true}})
end

-- NDS 12.5.1.2: a distance under the full one counts in proportion, none under the least;
-- one that is not given is not looked at.
function T.test_geometry_factor_by_hand()
  local full = {e_min = 1.75, e_full = 3.5, s_min = 1.5, s_full = 2}
  for _, case in ipairs {{3.5, 2, 1}, {2.8, 2, 0.8}, {3.5, 1.5, 0.75}, {2.1, 1.5, 0.6},
    {1.75, 2, 0.5}, {1.74, 2, 0}, {3.5, 1.49, 0}, {0, 1.6, 0.8}, {2.8, 0, 0.8},
    {0, 0, 1}} do
    local out = dowel.C_delta(with(full, {e = case[1], s = case[2]}))
    lu.assertAlmostEquals(out.C_delta, case[3], 1e-12)
    lu.assertEquals(out.refused, case[3] == 0 and "too near" or nil)
  end
end

function T.test_wood_that_tears_out()
  local tear = {n = 2, rows = 2, s = 2, g = 1.5, e = 3.5, t = 1.5, d = 7.25, D_h = 0.5625,
    F_v = 180, F_t = 575}
  hold("tear_out", tear, {{"n", 1, 1000}, {"rows", 1, 100}, {"s", 0, 1000, open = true},
    {"g", 0, 1000, open = true}, {"e", 0, 1000, open = true},
    {"t", 0, 100, open = true}, {"d", 0, 1000, open = true}, {"D_h", 0, 10},
    {"F_v", 0, 1e6, open = true}, {"F_t", 0, 1e6, open = true}})
  -- one fastener has no pitch, one row no gauge
  hold("tear_out", with(tear, {n = 1, rows = 1, s = 0, g = 0}), {{"s", 0, 1000},
    {"g", 0, 1000}})
end

function T.test_slip()
  for _, kind in ipairs {"nail", "bolt"} do
    hold("slip", {kind = kind, D = 0.5}, {{"D", 0, 4, open = true}, {"rho_m", 0, 1500},
      {"rho_s", 0, 1500}})
  end
  local european = {kind = "nail", european = true, D = 0.148, G_m = 0.5, G_s = 0.5}
  hold("slip", european, {{"G_m", 0, 1.5, open = true}, {"G_s", 0, 1.5, open = true}})
  hold("slip", with(european, {G_m = 0, G_s = 0, rho_m = 420, rho_s = 420}), {
    {"rho_m", 0, 1500, open = true}, {"rho_s", 0, 1500, open = true}})
  assert_answers(dowel.slip, with(european, {G_s = 0, steel = true}), "steel")
end

function T.test_straps_and_sheet()
  local strap = {F_y = 36000, F_u = 58000, w = 3, t = 0.1875, D = 0.5, D_h = 0.5625,
    rows = 2, n = 3, s = 2, g = 1.5, e = 1}
  hold("steel", strap, {{"F_y", 0, 1e6, open = true}, {"F_u", 0, 1e6, open = true},
    {"w", 0, 100, open = true}, {"t", 0, 10, open = true}, {"D", 0, 0.5625, open = true},
    {"D_h", 0.5, 5}, {"rows", 1, 100}, {"n", 1, 1000}, {"s", 0, 1000, open = true},
    {"g", 0, 100, open = true}, {"e", 0, 1000, open = true}})
  hold("steel", with(strap, {D = 4, D_h = 4.5}), {{"D", 0, 4, open = true}})
  assert_answers(dowel.steel, with(strap, {n = 1, s = 0}), "one in line")
  assert_answers(dowel.steel, with(strap, {rows = 1, g = 0}), "one row")
  assert_refuses(dowel.steel, with(strap, {n = 2, s = 0}), "two in line")
  assert_refuses(dowel.steel, with(strap, {rows = 2, g = 0}), "two rows")
  hold("sheet_screw", {D = 0.19, d_w = 0.375, t_1 = 0.0478, F_u1 = 45000, t_2 = 0.0478,
    F_u2 = 45000}, {{"D", 0, 4, open = true}, {"d_w", 0, 4}, {"t_1", 0, 10, open = true},
    {"F_u1", 0, 1e6, open = true}, {"t_2", 0, 10}, {"F_u2", 0, 1e6, open = true}})
  assert_answers(dowel.sheet_screw, {D = 0.19, t_1 = 0.0478, F_u1 = 45000}, "wood behind")
end

function T.test_shank_shear()
  -- F_nv A / 2.00 (AISC 360 J3.6): 27,000 psi on 1/2 in by hand
  lu.assertAlmostEquals(dowel.shank_shear(27000, 0.5), 27000 * math.pi / 16 / 2, 1e-9)
  for _, case in ipairs {{0, 0.5}, {-1, 0.5}, {1e6 + 1, 0.5}, {27000, 0}, {27000, -1},
    {27000, 4 + 1e-9}, {0 / 0, 0.5}, {27000, 0 / 0}} do
    lu.assertFalse((pcall(dowel.shank_shear, case[1], case[2])))
  end
  lu.assertTrue(dowel.shank_shear(1e6, 4) > 0)
end

-- EN 1995-1-1 chapter 8: softwood of 100 to 1200 kg/m3, steel to 40 mm.
function T.test_a_fastener_in_single_shear()
  local wood = {f_u = 600, t_1 = 45, rho_1 = 350, rho_2 = 350, rho_m1 = 420, rho_m2 = 420}
  local common = {{"rho_1", 100, 420}, {"rho_2", 100, 420}, {"rho_m1", 350},
    {"rho_m2", 350}, {"d", 0, 40, open = true},
    {"f_u", 0, 3000, open = true, above = true}, {"t_1", 0, nil, open = true}}
  local nail = with(wood, {kind = "nail", d = 3.4, l = 90, d_h = 7})
  hold("johansen", nail, {common[1], common[2], common[3], common[4], common[6],
    {"l", 45, nil, open = true}, {"d_h", 0}, {"l_g", 0}, {"D_w", 0}, {"D_i", 0}})
  hold("johansen", with(wood, {kind = "bolt", d = 12, t_2 = 45, D_w = 36, D_i = 13,
    f_c90k = 2.5}), {common[1], common[2], common[3], common[4], common[5], common[6],
    common[7], {"t_2", 0, nil, open = true}})
  hold("johansen", with(wood, {kind = "screw", d = 6, d_1 = 3.8, l = 100, l_g = 60}), {
    {"d_1", 0, 6, open = true}})
  for _, name in ipairs {"rho_1", "rho_2"} do
    local mean = name:gsub("_", "_m")
    assert_answers(dowel.johansen, with(nail, {[name] = 1200, [mean] = 1200}), name)
    local past = with(nail, {[name] = 1200 + 1e-9, [mean] = 1300})
    assert_refuses(dowel.johansen, past, name)
  end
end

return T
