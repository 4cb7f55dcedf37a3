-- SPDX-License-Identifier: MIT
-- tests/reference/straps.md: what the module says of straps beside what tests measured.
-- Each figure of the page is worked out again by straps.lua beside it and looked up in
-- its text; here it is held against the published ones and against forms that share
-- nothing with the module.
local lu = require "luaunit"
local ns = require "netsection"

local straps = dofile "tests/reference/straps.lua"
local test_straps = {}

local PLATES = {1 / 8, 3 / 16, 1 / 4, 3 / 8}
local nailed, bolted, screwed = straps.measured.nailed, straps.measured.bolted,
  straps.measured.screwed

local function note()
  local file <close> = assert(io.open "tests/reference/straps.md")
  return (file:read "a":gsub("%s+", " "))
end

local function marks(text)
  return select(2, text:gsub("%[c%]", ""))
end

---------------------------------------------------------------------------- the page

-- Every sentence worked out is in the page, and no other figure there is marked.
function test_straps.test_page_is_what_is_worked_out()
  local text, worked = note(), 0
  for _, sentence in ipairs(straps.sentences()) do
    lu.assertStrContains(text, sentence)
    worked = worked + marks(sentence)
  end
  lu.assertTrue(worked > 50)
  lu.assertEquals(marks(text), worked)
end

-- The published figures themselves are in the page as they were printed.
function test_straps.test_page_has_the_measured_figures()
  local text = note()
  for _, printed in ipairs {nailed.I_alone, nailed.I_full, nailed.plain,
    nailed.strapped} do
    lu.assertStrContains(text, ("%.1f"):format(printed))
  end
  for _, part in ipairs {bolted.plated, bolted.defect, bolted.stiffness} do
    lu.assertStrContains(text, ("+%.1f %%"):format((part - 1) * 100))
  end
  lu.assertStrContains(text, ("sag -%.1f %%"):format((1 - bolted.sag) * 100))
  lu.assertStrContains(text, ("strength +%.0f to +%.0f %%, mean %.0f"):format(
    (screwed.least - 1) * 100, (screwed.most - 1) * 100, (screwed.mean - 1) * 100))
end

------------------------------------------------------------------- strap on whole wood

-- Both forms end where mechanics does: the joist alone, and the transformed section.
function test_straps.test_the_two_forms_at_their_ends()
  local p, n = straps.tested()
  local steel = n * p.A_s
  local y = (p.A * p.d / 2 - steel * p.t / 2) / (p.A + steel) -- from the bottom edge
  local full = p.I + p.A * (p.d / 2 - y) ^ 2 + steel * (y + p.t / 2) ^ 2
  lu.assertAlmostEquals(p.I + straps.gain(p, 1), full, 1e-9)
  for _, load in ipairs {"uniform", "thirds"} do
    local function I(K) return straps.springs(p, straps.nails(0), K, load) end
    lu.assertAlmostEquals(I(1e-3), p.I, 1e-3)
    lu.assertAlmostEquals(I(1e10), full, 0.005 * full)
    -- Annex B takes a load like a half sine; between, 2 % of the gain is within it.
    for _, K in ipairs {500, 2000, 8000, 32000} do
      local by_gamma = straps.gain(p, straps.gamma(p, K, 6))
      lu.assertAlmostEquals(I(K) - p.I, by_gamma, 0.02 * by_gamma)
    end
  end
end

-- The test's calculated second moments (ADA013987, second hand), and what gives its gain.
function test_straps.test_nailed_strap()
  local p, n = straps.tested()
  lu.assertAlmostEquals(3 * p.I, nailed.I_alone, 0.05)
  lu.assertTrue(n > 15 and n < 30) -- softwood under steel
  local won = nailed.strapped - nailed.plain
  lu.assertAlmostEquals(won / (nailed.I_full - nailed.I_alone), 0.11, 0.005)
  local by_gamma, by_springs = straps.slip_of_the_test(won / 3, 0)
  lu.assertAlmostEquals(by_gamma, 1100, 0.02 * 1100)
  lu.assertAlmostEquals(by_springs, by_gamma, 0.02 * by_gamma)
  lu.assertAlmostEquals(straps.gamma(p, by_gamma, 6), 0.09, 0.005)
end

-- Published moduli (EN 1995-1-1 Table 7.1, NDS 11.3.6) claim far more than was measured.
function test_straps.test_what_published_moduli_claim()
  local K = straps.moduli()
  lu.assertEquals(K.used, K.en_steel)
  -- NDS 11.3.6: 180 000 and, for steel (memory), 270 000 times D^1.5.
  lu.assertAlmostEquals(K.nds_wood, 180000 * 0.162 ^ 1.5, 0.1)
  lu.assertAlmostEquals(K.nds_steel, 270000 * 0.162 ^ 1.5, 0.1)
  lu.assertAlmostEquals(K.en_steel, 2 * K.en_wood, 1e-6)
  for _, modulus in ipairs {K.en_wood, K.en_steel, K.nds_wood, K.nds_steel} do
    local _, by_gamma, by_springs = straps.claims(modulus)
    lu.assertTrue(by_gamma > 4 * 0.11)
    lu.assertAlmostEquals(by_springs, by_gamma, 0.02)
  end
end

-- A joist without a cut gets nothing: below what all three tests measured.
function test_straps.test_whole_joist_is_refused()
  local r = straps.joist():fix(straps.strap(1 / 8)):review()
  lu.assertEquals(r.fixed.refused, "the joist has no cut to bridge")
  lu.assertEquals(#r.fixed.checks, 0)
end

------------------------------------------------------------------------- strap at a cut

-- With the slip of the nailed test no sag is won; with the default's none below plain.
function test_straps.test_sag_of_a_strapped_cut()
  local _, won = straps.scan(1100)
  lu.assertAlmostEquals(won, 0, 1e-9)
  local least, by_default = straps.scan()
  lu.assertTrue(least >= 1)
  lu.assertTrue(by_default > 0.5) -- what the page warns of
end

-- A softer fastener never bends less.
function test_straps.test_sag_grows_with_slip()
  local before = 0
  for _, slip in ipairs {1e8, 1e6, 33750, 16551, 5000, 1100} do
    local fixed, cut = straps.sag(9, 9.25 / 2, 1 / 8, slip)
    lu.assertTrue(fixed >= before - 1e-8)
    lu.assertTrue(fixed <= cut + 1e-8)
    before = fixed
  end
end

-- Moment over the plain joist's, against the cracked section by halving; and against
-- the tests: the mean over a sawn defect lies within the plates taken, the worst of the
-- screwed ones below them.
function test_straps.test_strength_over_a_sawn_defect()
  for _, t in ipairs(PLATES) do
    local fixed, cut = straps.strength(t)
    lu.assertAlmostEquals(fixed, straps.cracked_over_plain(straps.pair(1.6e6, t)), 1e-6)
    lu.assertAlmostEquals(cut, (3 / 4) ^ 2, 1e-9) -- d_n^2 over d^2
    lu.assertTrue(fixed > screwed.least)
  end
  local thin, quarter = straps.strength(PLATES[1]), straps.strength(1 / 4)
  lu.assertTrue(thin < bolted.defect and bolted.defect < quarter)
  lu.assertAlmostEquals(quarter / bolted.defect, 1 + 1 / 8, 0.02)
  lu.assertAlmostEquals(quarter, screwed.mean, 0.02)
  lu.assertTrue((straps.strength(1 / 4, {n = 8})) < bolted.defect / 2)
end

-- Sag measured: 0.805 of the plain joists'. The fix gives more; by springs a plate held
-- at its ends alone can give it, and in closed form with one constant force.
function test_straps.test_sag_over_a_sawn_defect()
  local fixed, cut = straps.sag(2, 9.25 / 4, 1 / 4)
  lu.assertTrue(fixed > 1 and fixed > bolted.sag and fixed <= cut + 1e-8)
  local p = straps.pair(1.6e6, 1 / 4)
  local L, P, a = 168, 1, 56 -- two loads at the thirds: moment P a between
  local turn = p.a * (P * a * (L - a)) / (p.E * p.I) -- a/EI times the area of M
  local give = L * (1 / (29e6 * p.A_s) + 1 / (p.E * p.A) + p.a ^ 2 / (p.E * p.I))
  local N = turn / give
  local alone = P * a / (24 * p.E * p.I) * (3 * L ^ 2 - 4 * a ^ 2)
  local less = N * p.a * L ^ 2 / (8 * p.E * p.I)
  lu.assertAlmostEquals(straps.anchored(1 / 4, 1e12), 1 - less / alone, 1e-6)
  lu.assertTrue(straps.anchored(1 / 4, 1e12) < bolted.sag)
end

-- The arms that are argued about: statics, worked by hand to these figures.
function test_straps.test_lever_arms()
  local by_hand = {{9.25, 2838}, {8.33, 3153}, {7.71, 3407}, {7.06, 3717}, {6.17, 4257}}
  local fixed, found = straps.arms(), {}
  for _, arm in ipairs(fixed.arms) do
    found[#found + 1] = {arm.arm, arm.T}
  end
  table.sort(found, function(a, b) return a[1] > b[1] end)
  lu.assertEquals(#found, #by_hand)
  for i, row in ipairs(by_hand) do
    lu.assertAlmostEquals(found[i][1], row[1], 0.0051)
    lu.assertAlmostEquals(found[i][2], row[2], 0.51)
  end
  local c, z = straps.cracked(straps.pair(29e6 / 20.7, 1 / 8))
  lu.assertAlmostEquals(c, 4.82, 0.005)
  lu.assertAlmostEquals(fixed.arm, z, 1e-6)
  lu.assertAlmostEquals(straps.lost_stress(), 3358, 0.5)
  for _, k in ipairs(fixed.checks) do
    if k.mode == "wood-compression" then
      lu.assertAlmostEquals(k.demand, 942, 0.5)
      return
    end
  end
  lu.fail "the wood above is not checked"
end

-- Nails through a strap are given by their slip where sag matters; it is heard.
function test_straps.test_slip_is_heard()
  local nail = ns.fastener {kind = "nail", size = "16d"}
  local function turn(slip)
    return straps.joist(2, 9.25 / 4):fix(straps.strap(1 / 8, {fastener = nail,
      slip = slip})):review().fixed.turn_k
  end
  local K = straps.moduli()
  local z = select(2, straps.cracked(straps.pair(1.6e6, 1 / 8)))
  local bare = z ^ 2 / turn(1100) - 2 / (20 * 1100) -- what the strap itself stretches
  lu.assertTrue(bare > 0)
  lu.assertAlmostEquals(z ^ 2 / turn(nil) - bare, 2 / (20 * K.used), 1e-12)
end

return test_straps
