-- SPDX-License-Identifier: MIT
-- How sure a verdict is: the generator against published words, distributions and
-- intervals against closed forms, samples against what they must fill, two floors
-- against sums worked out independently.
local core = require "netsection.core"
local interval = require "netsection.odds.interval"
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local close, close_abs, raises = support.close, support.close_abs, support.raises
local holds = support.holds

local T = {}

--------------------------------------------------------------------------- the generator

-- Known answers that are published with the generator (Salmon and others 2011; from
-- memory, worked out again independently).
function T.test_philox_words()
  local function words(...)
    return ("%08x %08x %08x %08x"):format(core.philox(...))
  end
  lu.assertEquals(words(0, 0, 0, 0, 0, 0), "6627e8d5 e169c58d bc57ac4c 9b00dbd8")
  local all = 0xffffffff
  lu.assertEquals(words(all, all, all, all, all, all),
    "408f276d 41c83b0e a20bc7c6 6d5451fd")
  lu.assertEquals(words(0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344, 0xa4093822,
    0x299f31d0), "d16cfe09 94fdcceb 5001e420 24126ea1")
end

-- Independent computation in another language.
function T.test_uniforms()
  local expected = {
    {0.43107848647735947, 0.7023729428132689, 0.7051945942375951, 0.5688958311949827},
    {0.9882805995473637, 0.437785935675172, 0.8759564533917662, 0.838828677034105},
    {0.6941791880044225, 0.9328175768729648, 0.123048714934345, 0.2990953102193251}}
  for i, row in ipairs(expected) do
    for v, u in ipairs(row) do
      lu.assertEquals(core.uniform(2026, 0, i - 1, v - 1), u)
    end
  end
  local seed, draw = 0x123456789abcdef0, (1 << 33) + 1
  lu.assertEquals(core.uniform(seed, 5, draw, 0), 0.5672348028799955)
  lu.assertEquals(core.uniform(seed, 5, draw, 1), 0.046403519189709086)
end

-- Quantiles of the normal distribution (tables; AS 241 gives 16 figures).
function T.test_normal_quantile()
  close(core.normal_quantile(0.025), -1.959963984540054, 1e-15)
  close(core.normal_quantile(0.425), -1.8911842627279e-1, 1e-13)
  close(core.normal_quantile(1e-4), -3.71901648545568, 1e-14)
  close(core.normal_quantile(1e-9), -5.997807015008, 1e-12)
  for i = 1, 999 do
    local p = i / 1000
    close_abs(core.normal_quantile(p) + core.normal_quantile(1 - p), 0, 1e-14)
  end
end

-- Beside the C library's, whose last bits differ from system to system.
function T.test_log_and_exp()
  local rng = support.random(5)
  for _ = 1, 20000 do
    local x = rng:unit() * 10 ^ rng:int(-30, 30)
    close_abs(core.log(x), math.log(x), 4e-16 * math.max(1, math.abs(math.log(x))))
    local y = rng:real(-300, 300)
    close(core.exp(y), math.exp(y), 1e-15)
  end
  -- Powers and sines, too: what the system's library says is right to a unit or two.
  for _ = 1, 200 do
    local x, y = rng:real(0.01, 900), rng:real(-3, 3)
    close(core.power(x, y), x ^ y, 5e-16)
    close_abs(core.sin(y * 9), math.sin(y * 9), 4e-16)
    close_abs(core.cos(y * 9), math.cos(y * 9), 4e-16)
  end
  -- Correctly rounded values by 200-bit arithmetic (mpmath): 0.55^1.84, 720^-0.3.
  close(core.power(0.55, 1.84), 0.3328643992510311, 3e-16)
  close(core.power(720, -0.3), 0.13893134849145786, 3e-16)
  lu.assertEquals({core.power(2, 10), core.power(9, 0.5), core.power(0, 3),
    core.power(7, 0)}, {1024, 3, 0, 1})
  lu.assertTrue(core.power(-1, 0.5) ~= core.power(-1, 0.5))
  lu.assertEquals(core.log(1), 0)
  lu.assertEquals(core.exp(0), 1)
end

local function drawn(how, each, replicates, laws, threads, seed)
  local to = {}
  for k = 1, #laws do to[k] = core.numbers(each * replicates) end
  core.draw {how = how, seed = seed or 3, each = each, replicates = replicates, first = 0,
    variable = 0, laws = laws, to = to, threads = threads or 1}
  return to
end

-- Bins of one draw each, by the law that gives the number of the bin.
local function strata(n)
  local upto = {}
  for k = 1, n do upto[k] = k / n end
  return {of = "choice", upto = upto}
end

-- Latin hypercube and scrambled Sobol: one draw in each of the strata of every variable.
function T.test_every_stratum_has_one_draw()
  local n, laws = 64, {}
  for k = 1, 40 do laws[k] = strata(n) end
  for _, how in ipairs {"lhs", "sobol"} do
    for _, column in ipairs(drawn(how, n, 3, laws)) do
      for r = 0, 2 do
        local seen = {}
        for i = 1, n do seen[column[r * n + i]] = true end
        for k = 1, n do lu.assertTrue(seen[k], how) end
      end
    end
  end
end

-- The first two dimensions of Sobol's sequence are a (0, m, 2) net, scrambled too: each
-- box of area 1/n, however it is cut, holds one of n points (Sobol 1967; Owen 1995).
function T.test_boxes_of_two_dimensions_have_one_draw()
  for wide = 0, 6 do
    local laws = {strata(1 << wide), strata(1 << (6 - wide))}
    local a, b = table.unpack(drawn("sobol", 64, 1, laws))
    local seen = {}
    for i = 1, 64 do
      local box = a[i] * 100 + b[i]
      lu.assertNil(seen[box])
      seen[box] = true
    end
  end
end

-- First points of Sobol's sequence by the table of Joe and Kuo, as printed with it:
-- 0; 0.5; 0.75 0.25; 0.25 0.75; 0.375 0.375 0.625 ... (Gray-code order).
function T.test_sobol_points()
  local first = {{0, 4, 6, 2, 3, 7, 5, 1}, {0, 4, 2, 6, 3, 7, 1, 5},
    {0, 4, 2, 6, 5, 1, 7, 3}}
  for d, expected in ipairs(first) do lu.assertEquals(core.sobol(d - 1, 3), expected) end
  for d = 0, 79 do
    local seen = {}
    for _, x in ipairs(core.sobol(d, 10)) do seen[x] = true end
    for x = 0, 1023 do lu.assertTrue(seen[x]) end
  end
end

-- Mean of exp(x + y) of two uniforms: an even sample is nearer to it than chance.
function T.test_even_samples_are_nearer()
  local laws = {strata(64), strata(64)}
  local exact, apart = 0, {}
  for i = 1, 64 do exact = exact + math.exp((i - 0.5) / 64) / 64 end
  for _, how in ipairs {"plain", "lhs", "sobol"} do
    local sum = 0
    for seed = 1, 40 do
      local a, b = table.unpack(drawn(how, 256, 1, laws, 1, seed))
      local mean = 0
      for i = 1, 256 do
        mean = mean + math.exp((a[i] - 0.5) / 64) * math.exp((b[i] - 0.5) / 64) / 256
      end
      sum = sum + (mean - exact ^ 2) ^ 2
    end
    apart[how] = math.sqrt(sum / 40)
  end
  lu.assertTrue(apart.lhs < apart.plain / 2)
  lu.assertTrue(apart.sobol < apart.lhs / 2)
end

function T.test_same_bytes_on_any_number_of_threads()
  local laws = {}
  for k = 1, 9 do laws[k] = {of = "normal", a = 0, b = 1} end
  for _, how in ipairs {"plain", "lhs", "sobol"} do
    local one, many = drawn(how, 512, 4, laws, 1), drawn(how, 512, 4, laws, 5)
    for k = 1, 9 do
      for i = 1, 2048 do lu.assertTrue(one[k][i] == many[k][i]) end
    end
  end
end

-------------------------------------------------------------------- laws and intervals

-- Closed forms: median of a Gumbel maximum is m - s ln ln 2.
function T.test_laws()
  local function at(law, u) return core.law_at(law, u) end
  close(at({of = "normal", a = 9.25, b = 0.5}, 0.5), 9.25)
  close(at({of = "lognormal", a = 3, b = 0.4}, 0.5), 3)
  close(at({of = "lognormal", a = 3, b = 0.4}, 0.95),
    3 * math.exp(0.4 * 1.6448536269514722), 1e-14)
  local s = 36 * 0.23 * math.sqrt(6) / math.pi
  close(at({of = "gumbel", a = 36, b = 0.23}, 0.5),
    36 - 0.5772156649015329 * s - s * math.log(math.log(2)), 1e-14)
  local choice = {of = "choice", upto = {0.15, 0.85, 1}}
  lu.assertEquals(at(choice, 0.1499), 1)
  lu.assertEquals(at(choice, 0.15), 2)
  lu.assertEquals(at(choice, 0.9999999), 3)
end

-- 50 of 1000: Clopper and Pearson's interval, by exact sums of the binomial in decimal
-- arithmetic; 3/N, the rule of three.
function T.test_intervals()
  local low, high = interval.exact(50, 1000)
  close_abs(low, 0.037335, 5e-7)
  close(high, 0.0653904879154936, 1e-12)
  local _, most = interval.exact(0, 1000000)
  close_abs(most, 3.69e-6, 5e-9) -- two-sided, by hand: 1 - 0.025^(1/n)
  local none = interval.share({0, 0}, 500000)
  close(none.high, 3e-6)
  lu.assertEquals({none.value, none.low, none.hits, none.draws}, {0, 0, 0, 1000000})
  local all = interval.share({10, 10}, 10)
  lu.assertEquals({all.value, all.low, all.high}, {1, 1 - 3 / 20, 1})
  -- Mean 3, s = sqrt(2), t(2) = 4.303 (by hand).
  local mean, a, b = interval.mean {2, 2, 5}
  lu.assertEquals(mean, 3)
  close(b - mean, 4.303 * math.sqrt(3) / math.sqrt(3), 1e-12)
  close(mean - a, b - mean, 1e-12)
end

-------------------------------------------------------------------------- exact cases

local function normal(name, mean, sd) return {name = name, normal = {mean, sd}} end

-- Independent computation with closed forms of the normal distribution.
function T.test_exact_shares()
  local function over(inputs, model, exact, what)
    for _, method in ipairs {"plain", "lhs", "sobol"} do
      local o = ns.odds {model = model, inputs = inputs, method = method, draws = 16384,
        indices = false}
      holds(o.over, exact, what .. " " .. method)
    end
  end
  over({normal("R", 2000, 300), normal("S", 1400, 200)},
    function(x) return x.S / x.R end, 0.048046165, "two normals")
  over({{name = "R", lognormal = {3000, 0.3}}, {name = "S", lognormal = {1400, 0.2}}},
    function(x) return x.S / x.R end, 0.017266340, "two lognormals")
  over({normal("z", 0, 1)}, function(x) return x.z - 2 end, 1.349898e-3, "tail")
  local far = ns.odds {model = function(x) return x.z - 3 end, method = "sobol",
    inputs = {normal("z", 0, 1)}, draws = 16384, indices = false}
  holds(far.over, 3.167124e-5, "far tail") -- Phi(-4)
  over({normal("d", 8.80, 1 / 16)}, function(x)
    return 18954 / (990 * 1.5 * x.d ^ 2 / 6) end, 0.217007752, "2x10 uncut")
  over({normal("n", 1.5, 1 / 16), normal("d", 9.25, 1 / 16)},
    function(x) return x.n / (x.d / 6) end, 0.255398899, "notch of d/6")
  over({normal("d", 9.25, 1 / 16), {name = "Fb", choice = {900, 525},
    weights = {0.8, 0.2}}}, function(x)
      return 18954 / (x.Fb * 1.1 * 1.5 * x.d ^ 2 / 6)
    end, 0.2, "grade alone decides")
end

-- Y = X1 + 2 X2 + 3 X3: 1/14, 4/14, 9/14. Y = X1 X2, means 1, sd .1, .2: .198413 .793651
-- first, .206349 .801587 in all (closed forms).
function T.test_exact_indices()
  for _, method in ipairs {"plain", "lhs", "sobol"} do
    local o = ns.odds {model = function(x) return x.a + 2 * x.b + 3 * x.c end,
      inputs = {normal("a", 0, 1), normal("b", 0, 1), normal("c", 0, 1)}, draws = 1024,
      method = method}
    for name, exact in pairs {a = 1 / 14, b = 4 / 14, c = 9 / 14} do
      holds(o.first[name], exact, method .. " first " .. name)
      holds(o.total[name], exact, method .. " total " .. name)
      lu.assertTrue(o.first[name].high - o.first[name].low < 0.05)
    end
    local p = ns.odds {model = function(x) return x.a * x.b end, draws = 1024,
      inputs = {normal("a", 1, 0.1), normal("b", 1, 0.2)}, method = method}
    holds(p.first.a, 0.198413, method .. " product first a")
    holds(p.first.b, 0.793651, method .. " product first b")
    holds(p.total.a, 0.206349, method .. " product total a")
    holds(p.total.b, 0.801587, method .. " product total b")
  end
end

-- Intervals of 95 % hold the exact number about 19 times in 20: under 17 of 20 over 120
-- seeds comes by chance once in some thousand sets.
function T.test_intervals_cover()
  for _, method in ipairs {"plain", "lhs", "sobol"} do
    local held = 0
    for seed = 1, 120 do
      local o = ns.odds {model = function(x) return x.n / (x.d / 6) end, draws = 2048,
        inputs = {normal("n", 1.5, 1 / 16), normal("d", 9.25, 1 / 16)}, seed = seed,
        method = method, indices = false}
      if o.over.low <= 0.255398899 and 0.255398899 <= o.over.high then held = held + 1 end
    end
    lu.assertTrue(held >= 102, ("%s: %d of 120"):format(method, held))
  end
end

-------------------------------------------------------------------------------- floors

local GRADES = {name = "grade", choice = {1000, 900, 525}, weights = {0.15, 0.70, 0.15}}

local F1_INPUTS = {normal("d", 9.25, 1 / 32), normal("b", 1.5, 1 / 64),
  normal("D", 3, 1 / 32), normal("below", 2.25, 1 / 16), normal("at", 62, 0.25),
  normal("span", 162, 0.25), normal("spacing", 16, 0.125), normal("dead", 12.6, 1.26),
  GRADES}

-- Modulus of the section left by a hole, plain (statics).
local function net(b, d, D, below)
  local top = d - below - D
  local A1, A2 = b * below, b * top
  local y = (A1 * below / 2 + A2 * (below + D + top / 2)) / (A1 + A2)
  local I = b * below ^ 3 / 12 + A1 * (y - below / 2) ^ 2 + b * top ^ 3 / 12
    + A2 * (below + D + top / 2 - y) ^ 2
  return math.min(I / y, I / (d - y))
end

local function by_table(out, ratio)
  if out then return ratio > 1 and "repair" or "justify" end
  return ratio > 1 and "decide" or "leave"
end

local function f1(x)
  local w = (x.dead + 40) * x.spacing / 144
  local top = x.d - x.below - x.D
  local out = x.D > x.d / 3 or x.below < 2 or top < 2
  local F = x.grade * 1.1 * (out and 1 or 1.15)
  local hole = w * x.at * (x.span - x.at) / 2 / net(x.b, x.d, x.D, x.below) / F
  local ratio = math.max(hole, w * x.span ^ 2 / 8 / (x.b * x.d ^ 2 / 6) / F)
  return ratio, by_table(out, ratio)
end

-- A 2x10 with a hole of 3 in. Independent computation: 10,117 of 65,536 with the same
-- counters; quadrature gives .153189 and the table of actions.
function T.test_floor_F1()
  local o = ns.odds {model = f1, inputs = F1_INPUTS, seed = 2026, method = "plain",
    replicates = 1, indices = false}
  lu.assertTrue(math.abs(o.over.hits - 10117) <= 2)
  close_abs(o.nominal.ratio, 0.88754, 5e-6)
  lu.assertEquals(o.nominal.action, "leave")
  lu.assertTrue(o.over.low < 0.153189 and 0.153189 < o.over.high)

  o = ns.odds {model = f1, inputs = F1_INPUTS, seed = 2026}
  holds(o.over, 0.153189, "over")
  holds(o.changes, 0.1549, "changes")
  for name, exact in pairs {leave = 0.84508, decide = 0.14917, justify = 0.00173,
    repair = 0.00402} do
    holds(o.actions[name], exact, name)
  end
  lu.assertTrue(o.over.high - o.over.low < 0.0008)
  holds(o.quantiles[5], 0.78817, "5 %")
  holds(o.quantiles[50], 0.88783, "50 %")
  holds(o.quantiles[95], 1.54246, "95 %")
  close_abs(o.first.grade.value, 0.985, 0.011) -- the other computation's own interval
  close_abs(o.total.grade.value, 0.9815, 0.005)
  close_abs(o.total.dead.value, 0.0102, 0.001)
  close_abs(o.total.below.value, 0.0035, 0.0005)
  lu.assertEquals(o.turns_on[1].name, "grade")
  lu.assertStrContains(o:text(), "because of the grade.")
end

-- Worked by hand from the formulas at 5 and 95 %.
function T.test_tornado_of_F1()
  local rows = ns.odds {model = f1, inputs = F1_INPUTS, draws = 1024,
    indices = false}:tornado()
  local expected = {{"grade", 0.79879, 1.52150}, {"dead", 0.85257, 0.92251},
    {"below", 0.90897, 0.86804}, {"b", 0.90301, 0.87259}, {"spacing", 0.87614, 0.89895},
    {"d", 0.89488, 0.88029}, {"span", 0.88389, 0.89119}, {"at", 0.88528, 0.88975},
    {"D", 0.88777, 0.88724}}
  for i, row in ipairs(expected) do
    lu.assertEquals(rows[i].name, row[1])
    close_abs(rows[i].at[5].ratio, row[2], 6e-6, row[1])
    close_abs(rows[i].at[95].ratio, row[3], 6e-6, row[1])
    close_abs(rows[i].at[50].ratio, 0.88754, 6e-6)
  end
  lu.assertTrue(rows[1].flips)
  lu.assertEquals(rows[1].at[95].action, "decide")
  lu.assertFalse(rows[2].flips)
end

local F2_INPUTS = {normal("d", 8, 1 / 16), normal("b", 2, 1 / 16), normal("n", 2, 1 / 16),
  normal("span", 176, 0.5), normal("spacing", 18, 0.25), normal("dead", 18, 1.8),
  {name = "Fv", choice = {135, 150, 180}, weights = {0.4, 0.3, 0.3}}}

local function f2(x)
  local R = (x.dead + 40) * x.spacing / 144 * x.span / 2
  local d_n = x.d - x.n
  local ratio = R / (2 / 3 * x.Fv * x.b * d_n * (d_n / x.d) ^ 2)
  if x.n > x.d / 4 then return ratio, "repair" end
  return ratio, ratio > 1 and "decide" or "leave"
end

-- An end notch at d/4 (NDS 3.4.3.2): a toss of a coin. Independent computation: 24,181 of
-- 65,536 with the same counters; quadrature.
function T.test_floor_F2()
  local o = ns.odds {model = f2, inputs = F2_INPUTS, seed = 2026, method = "plain",
    replicates = 1, indices = false}
  lu.assertTrue(math.abs(o.over.hits - 24181) <= 2)
  close_abs(o.nominal.ratio, 0.94519, 5e-6)
  o = ns.odds {model = f2, inputs = F2_INPUTS, seed = 2026}
  holds(o.over, 0.370612, "over")
  holds(o.actions.repair, 0.50001, "repair")
  holds(o.actions.leave, 0.35857, "leave")
  holds(o.actions.decide, 0.14141, "decide")
  holds(o.changes, 0.6414, "changes")
  for name, total in pairs {Fv = 0.7989, n = 0.0591, dead = 0.0582, b = 0.0593,
    d = 0.0149, spacing = 0.0117} do
    close_abs(o.total[name].value, total, 0.02 * total + 0.004, name)
  end
  -- The ratio hangs on the wood, the action on the notch against d/4.
  lu.assertEquals(o.turns_on[1].name, "n")
end

-- The wood's own scatter: a hole of 4 in and no hole, stress against strength. Quadrature
-- by independent computation for three coefficients of variation.
function T.test_floor_F3()
  local z95 = 1.6448536269514722
  local function share(cov, S, k)
    local s = math.sqrt(math.log(1 + cov ^ 2))
    return ns.odds {model = function(x)
      return (x.dead + x.live) * k / S / (990 * x.theta / 1.6)
    end, inputs = {normal("dead", 12.6, 1.26), {name = "live", gumbel = {36, 0.23}},
      {name = "theta", lognormal = {2.1 * math.exp(z95 * s), s}}}, indices = false}.over
  end
  local exact = {[0.35] = {0.0398804, 0.0038599}, [0.40] = {0.0392424, 0.0047954},
    [0.45] = {0.0390062, 0.0057983}}
  for cov, p in pairs(exact) do
    holds(share(cov, 14.14633, 344.444444), p[1], "hole " .. cov)
    holds(share(cov, 1.5 * 9.25 ^ 2 / 6, 364.5), p[2], "uncut " .. cov)
  end
end

------------------------------------------------------------------------------- wording

function T.test_wording()
  local o = ns.odds {model = f1, inputs = F1_INPUTS, seed = 2026}
  local said = o:text():gsub("%s+", " ")
  lu.assertStrContains(said, "How sure is the verdict")
  lu.assertStrContains(said, "In 65,536 draws of the uncertainties listed, the action "
    .. "was the printed one in 84.5")
  lu.assertStrContains(said, "This is not the chance that the floor fails and not a "
    .. "reliability index: the distributions are assumptions, code values already hold a "
    .. "margin, the lower tail of strength is not known for this floor, sharing, "
    .. "duration, decay and gross errors (a second hidden cut) are not in it.")
  for _, word in ipairs {"beta", "probability of failure", "safe", "confidence"} do
    lu.assertNotStrContains(said:lower(), word)
  end
  for _, input in ipairs(F1_INPUTS) do lu.assertStrContains(said, input.name .. ":") end
end

-- Nothing met is not nothing.
function T.test_no_hits_are_not_zero()
  local o = ns.odds {model = function(x) return 0.5 + x.z / 1000 end,
    inputs = {normal("z", 0, 1)}}
  lu.assertEquals(o.over.hits, 0)
  close(o.over.high, 3 / 65536)
  lu.assertStrContains(o:text(), "Ratio over 1: no draw (below 0.0046 %)")
end

-- No capacity is a ratio over 1, last in order; where it is met often, no quantile is
-- named, and no variance is.
function T.test_draws_without_a_ratio()
  local o = ns.odds {model = function(x) return x.z < 1 and 0.5 or nil end,
    inputs = {normal("z", 0, 1)}}
  holds(o.over, 0.158655, "over")
  lu.assertNil(o.quantiles[95])
  close(o.quantiles[50].value, 0.5)
  lu.assertEquals(next(o.first), nil)
  lu.assertStrContains(o.no_index, "no ratio")
  lu.assertStrContains(o:text(), "stay under: none")
  local same = ns.odds {model = function() return 0.7 end, inputs = {normal("z", 0, 1)}}
  lu.assertStrContains(same.no_index, "does not vary")
  lu.assertEquals(same.turns_on, {})
end

function T.test_same_question_same_text()
  local function asked(threads)
    return ns.odds {model = f2, inputs = F2_INPUTS, threads = threads,
      draws = 4096}:text()
  end
  lu.assertEquals(asked(1), asked(3))
end

function T.test_misuse_is_named()
  local function wrong(piece, changes)
    local t = {model = f1, inputs = F1_INPUTS, draws = 256}
    for name, value in pairs(changes) do t[name] = value end
    raises(piece, ns.odds, t)
  end
  wrong("model: a function", {model = 3})
  wrong("inputs: a list of 1 to 40", {inputs = {}})
  wrong("inputs: d: normal: {mean, standard deviation} expected",
    {inputs = {{name = "d", normal = {9.25}}}})
  wrong("expected, got {9.25, -1}", {inputs = {{name = "d", normal = {9.25, -1}}}})
  wrong("inputs: d: twice", {inputs = {normal("d", 1, 1), normal("d", 1, 1)}})
  wrong("inputs: d: unknown field 'sd'", {inputs = {{name = "d", sd = 1}}})
  wrong("inputs: d: a distribution expected", {inputs = {{name = "d"}}})
  wrong("normal and gumbel: one of them",
    {inputs = {{name = "d", normal = {1, 1}, gumbel = {1, 1}}}})
  wrong("weights: one for each value", {inputs = {{name = "g", choice = {1, 2}}}})
  wrong("their sum is 0.9, 1 expected",
    {inputs = {{name = "g", choice = {1, 2}, weights = {0.5, 0.4}}}})
  wrong("method: 'plain'", {method = "halton"})
  wrong("replicates: 2 or more", {replicates = 1})
  wrong("a power of two", {draws = 48})
  wrong("threads: 1 to 64", {threads = 0})
  wrong("seed: a whole number", {seed = 1.5})
  wrong("indices: false", {indices = 100})
  wrong("unknown field 'bins'", {bins = 3})
  wrong("a ratio or nil expected, got NaN, at", {model = function() return 0 / 0 end})
  wrong("the name of an action expected", {model = function() return 1, 2 end})
  local o = ns.odds {model = f1, inputs = F1_INPUTS, draws = 256, indices = false}
  raises("does not change", function() o.over = 1 end)
  raises("use o:method()", o.text)
end

------------------------------------------------------------------ inputs that go together

-- A Gaussian copula: how often both are under their 5th percentile at a correlation of
-- 0.7 (independent computation: the bivariate normal integral), whichever laws they have.
function T.test_inputs_that_go_together()
  local z05 = -1.6448536269514722
  local s = 0.3
  local a05, b05 = 2 * math.exp(s * z05), 10 + 2 * z05
  local function ask(threads)
    return ns.odds {model = function(x)
      return x.a < a05 and x.b < b05 and 2 or 0.5
    end, inputs = {{name = "a", lognormal = {2, s}}, {name = "b", normal = {10, 2},
      with = {"a", 0.7}}}, indices = false, threads = threads}
  end
  local o = ask(1)
  lu.assertTrue(o.over.low <= 0.0195993 and 0.0195993 <= o.over.high)
  close_abs(o.over.value, 0.0195993, 5e-4)
  lu.assertEquals(o.over, ask(2).over)
  lu.assertStrContains(o.inputs[2].says, "with a (correlation 0.7)")
end

-- Sums of normal numbers: x + y at a correlation r has the variance 2 + 2 r.
function T.test_sum_of_two_that_go_together()
  for _, r in ipairs {-0.5, 0.7} do
    local limit = 1.959963984540054 * math.sqrt(2 + 2 * r)
    for _, method in ipairs {"plain", "lhs", "sobol"} do
      local o = ns.odds {model = function(x) return 1 + x.x + x.y - limit end,
        method = method, inputs = {{name = "x", normal = {0, 1}},
        {name = "y", normal = {0, 1}, with = {"x", r}}}, indices = false}
      lu.assertTrue(o.over.low <= 0.025 and 0.025 <= o.over.high or
        math.abs(o.over.value - 0.025) < 1.5e-3)
    end
  end
end

-- They have one index: x + y + z, x and y at 0.7, is theirs to 3.4/4.4 and z's to 1/4.4.
function T.test_index_of_a_group()
  local o = ns.odds {model = function(x) return x.x + x.y + x.z end, draws = 4096,
    inputs = {{name = "x", normal = {0, 1}}, {name = "z", normal = {0, 1}},
      {name = "y", normal = {0, 1}, with = {"x", 0.7}}}}
  lu.assertEquals(o.groups, {"x with y", "z"})
  lu.assertNil(o.first.x)
  close_abs(o.first["x with y"].value, 3.4 / 4.4, 0.01)
  close_abs(o.total["x with y"].value, 3.4 / 4.4, 0.01)
  close_abs(o.first.z.value, 1 / 4.4, 0.01)
  lu.assertStrContains(o:text(), "x with y: ")
end

function T.test_what_cannot_go_together()
  local function refused(why, second, first)
    raises(why, ns.odds, {model = function() return 1 end,
      inputs = {first or {name = "a", normal = {0, 1}}, second}})
  end
  refused("no input 'c' before it", {name = "b", normal = {0, 1}, with = {"c", 0.5}})
  refused("correlation between -1 and 1", {name = "b", normal = {0, 1}, with = {"a", 1}})
  refused("only normal and lognormal", {name = "b", gumbel = {1, 0.1},
    with = {"a", 0.5}})
  refused("only normal and lognormal", {name = "b", normal = {0, 1}, with = {"a", 0.5}},
    {name = "a", choice = {1, 2}, weights = {0.5, 0.5}})
end

return T
