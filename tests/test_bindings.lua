-- SPDX-License-Identifier: MIT
-- The edge between Lua and the core: misuse raises, and the message names the argument
-- or the field; no number that is not finite goes in or comes out; modules put nothing
-- into the global table.
local core = require "netsection.core"
local lu = require "luaunit"
local model = require "netsection.model"
local packs = require "netsection.packs"
local support = require "tests.support"
local system = require "tests.system"

local raises = support.raises
local T = {}

-- Runs a body that calls its argument like `raises`, and fails with all that was not
-- raised as it should be, not with the first alone.
local function each_raises(body)
  local list = {}
  body(function(piece, f, ...)
    local ok, problem = pcall(raises, piece, f, ...)
    if not ok then
      list[#list + 1] = tostring(type(problem) == "table" and problem.msg or problem)
    end
  end)
  lu.assertEquals(list, {})
end

local RULES = assert(packs.rules("us-irc-2021", "wood")).core
local STANDARD = assert(packs.standard "us-nds-2018-asd").core
local MATERIAL = {Fb = 900, Fv = 180, E = 1.6e6, Emin = 580000, Ft = 575, Fc = 1350,
  Fc_perp = 625}

-- A lost end and its sister (see csrc/lua/end_sister.c).
local END = {L = 168, l = 16, x_i = 30, x_o = 78, face = 166, d = 9.25,
  lines = {{a = 0, b = 168, w1 = 1, w2 = 1}, {a = 0, b = 168, w1 = 4, w2 = 4,
    live = true}}, points = {{at = 60, P = 100, live = true}},
  combinations = {{D = 1, L = 0, CD = 0.9}, {D = 1, L = 1, CD = 1}}}

local function joist(changes)
  local t = {size = "2x10", material = MATERIAL, span = 162, spacing = 16, bearing = 3.5,
    dead = 12, live = 40, blocking = {70},
    cuts = {{kind = "hole", at = 80, diameter = 2}},
    loads = {{kind = "line", from = 10, to = 20, load = "9 plf"},
      {kind = "point", at = 30, load = 90}}}
  for name, value in pairs(changes or {}) do t[name] = value end
  local m, problems = model.of(t)
  assert(#problems == 0, problems[1] and problems[1].text)
  return m
end

local function beam(changes)
  local t = {spans = {100, 120}, EI = 1e7, overhang_left = 10, overhang_right = 10,
    hinges = {{at = 40, stiffness = 1e5}},
    loads = {{from = 0, to = 50, w1 = 2, w2 = 3, case = "live"}, {at = 60, P = 90}}}
  for name, value in pairs(changes or {}) do t[name] = value end
  return t
end

-- Changes one entry of a nested table: set(t, "cuts", 1, "depth", value).
local function set(t, ...)
  local path, at = table.pack(...), t
  for i = 1, path.n - 2 do at = at[path[i]] end
  at[path[path.n - 1]] = path[path.n]
  return t
end

-- A member beside the joist, and a strap under its hole, as the core takes them.
local BESIDE = {kind = "beside", member = "sister", lift = "prop", share = "slip",
  from = 20, to = 140, b = 1.5, d = 9.25, t = 0, rise = 0, E = 1.6e6, Fy = 0,
  station = {30, 60, 100, 130}, count = {4, 4, 4, 4}, stiff = 20000, Z = 200, C_z = 1,
  rated = 0, low = {2, 2, 2, 2}, high = {7, 7, 7, 7}, bottom = {0, 0, 0, 0},
  top = {9, 9, 9, 9}, lost = {0, 0, 0, 0}, reached = 0,
  prop_at = 80, prop = 100, other = {Fb = 900}}
local UNDER = {kind = "under", member = "strap", lift = "none", cut = 1, from = 60,
  to = 100, E = 29e6, A_s = 0.2, below = 0.06, P_s = 2000, station = {70}, count = {8},
  stiff = 20000, Z = 200, C_z = 1, rated = 1, free = 4}

local function with_fix(usual, changes)
  local m = joist()
  m.fix = {}
  for _, t in ipairs {usual, changes or {}} do
    for name, value in pairs(t) do m.fix[name] = value end
  end
  return m
end

local function strapped(changes)
  return with_fix(UNDER, changes)
end

------------------------------------------------------------------- what there is at all

-- A sweep of two spans; each call writes to columns of its own.
local function sweep(changes)
  local t = {models = {core.packed(joist())}, sizes = {2}, columns = {{axis = 1,
    path = "span.1", values = core.numbers {100, 120}}}, outputs = {{quantity = "ratio",
    state = "uncut"}}, to = {core.numbers(2)}, fault = core.faults(2), count = 2,
    rules = RULES, standard = STANDARD}
  for name, value in pairs(changes or {}) do t[name] = value end
  return t
end

-- A column that calculates.
local function lanes(list)
  return core.lanes(core.numbers(list), 0, #list, 1)
end

-- What was noted of twice a column, and what it is done again with.
local function noted()
  local column, places, to = lanes {1, 2}, lanes {0, 1}, core.numbers(2)
  core.note({column}, places, {to}, {})
  core.put(to, 0, places, column * 2)
  return {assert(core.noted(true)), {lanes {3, 4}}, places, 0, {to}, 1}
end

-- Functions, and a value of the right type for each argument that has to be there.
local RIGHT = {
  rules = {{{covers = {}, limits = {}}}},
  standard = {{combinations = {{D = 1, L = 1, CD = 1}}, all = 1, end_notch = 0.25,
    inner_notch = 1 / 6, outer_part = 1 / 3, thick = 3.5, tested_hole = 0.45}},
  review = {joist(), RULES, STANDARD},
  record = {(core.review(joist(), RULES, STANDARD)), 1, 1},
  curve = {joist(), RULES, STANDARD},
  reviews = {{core.packed(joist())}, RULES, STANDARD},
  check = {joist(), STANDARD},
  packed = {joist()},
  topology = {core.packed(joist())},
  sweep = {sweep()},
  numbers = {3},
  faults = {3},
  set = {core.numbers(3), 1, 2},
  fill = {core.numbers(3), 0, 3, 1},
  extreme = {core.numbers {3, 1, 2}, 1},
  fault_text = {1},
  csv = {io.tmpfile(), {{texts = {"a"}, stride = 1}}, core.faults(1), {}, 0, 1},
  number_text = {0.1},
  processors = {},
  clock = {},
  is_terminal = {},
  spin = {joist(), RULES, STANDARD, 1},
  fields = {},
  CL = {900, 580000, 100, 1.5, 9.25},
  l_e = {"uniform", 100, 9.25},
  Cb = {3, 4},
  Cfu = {8},
  adjust = {joist(), STANDARD, "Fb"},
  section = {{b = 1.5, d = 9.25}},
  joint = {{mode = "fasteners", demand = 100, G = 100, Z = 50, n_f = 4, CD = 1,
    C_z = 1}},
  beam = {beam()},
  stiffness = {joist(), RULES, STANDARD},
  grid = {{x = {0, 50, 100}, y = {0}, EI = {{1e8, 1e8}}, along = {0}, wood = {{1, 3}},
    held = {{1, 3}}, strips = {}}},
  draw = {{how = "plain", seed = 1, each = 4, replicates = 1, first = 0, variable = 0,
    threads = 1, laws = {{of = "normal", a = 0, b = 1}}, to = {core.numbers(4)}}},
  law_at = {{of = "normal", a = 0, b = 1}, 0.5},
  quantiles = {core.numbers {3, 1, 2}, 0, 3, {0.5}},
  count = {core.numbers {3, 1, 2}, 0, 3},
  over = {core.numbers {3, 1, 2}, 0, 3, 2},
  marked = {core.numbers {3, 1, 2}},
  pair_sums = {core.numbers {3, 1, 2}, core.numbers {1, 1, 2}, 0, 3, 2},
  log = {2},
  exp = {1},
  power = {2, 0.5},
  sin = {1},
  cos = {1},
  normal_quantile = {0.9},
  philox = {0, 0, 0, 0, 0, 0},
  uniform = {1, 0, 0, 0},
  sobol = {0, 3},
  CP = {1000, 900},
  moments = {core.numbers {3, 1, 2}, 3, 2, 0, 0, 0},
  bins = {core.numbers {3, 1, 2}, 3, 0, 4, core.numbers(4)},
  counted = {core.numbers {0, 2}},
  tally = {core.numbers {3, 1, 2}, 3, 0, 0, 2, core.numbers(4)},
  picked = {core.numbers {3, 1, 2}, 3, 0, 0, core.numbers(3), 0},
  group = {core.numbers {3, 1, 2}, 0},
  sort = {core.numbers {3, 1, 2}},
  key_number = {0},
  spread = {core.numbers {3, 1, 2}, 1, 0, 3, core.numbers(3)},
  most = {lanes {1, 2}, 3},
  least = {lanes {1, 2}, 3},
  larger = {lanes {1, 2}, 3},
  chosen = {lanes {1, 0}, 3, 4},
  rounded_up = {1.5},
  rounded_down = {1.5},
  same = {lanes {1, 1}},
  worst = {{{ratio = 0.5, binding = true}}},
  by_number = {{{at = 3}}, lanes {1, 1}, "at"},
  highest = {lanes {1, 2}},
  lanes = {core.numbers {1, 2}, 0, 2, 1},
  numbered = {2},
  parted = {lanes {1, 2}, lanes {1, 0}},
  lane = {lanes {1, 2}, 1},
  first = {lanes {1, 2}},
  note = {{lanes {1, 2}}, lanes {0, 1}, {core.numbers(2)}, {}},
  noted = {false},
  replay = noted(),
  put = {core.numbers(2), 0, lanes {0, 1}, 3},
  size = {lanes {-1, 2}},
  scatter = {core.numbers(2), lanes {0, 1}, 1, 3, 0, 0, 2},
  end_force = {END, "R", 0, 0},
  end_sag = {END, {EI_host = 1e8, EI_sister = 1e8, K_i = 1e5, K_o = 1e5, creep = 1,
    more = 1}},
  turned = {core.numbers {1, 2}, {2}, {1}, core.numbers(2), 0},
  faulty = {core.faults(2), 1},
  kept = {{model = core.packed(joist()), columns = {{path = "live",
    values = lanes {20, 30}}}, count = 2, rules = RULES, standard = STANDARD}},
  joints = {{mode = "fasteners", demand = lanes {90, 100}, Z = 50, n_f = 4}},
  crc32 = {"a"},
  less = {"a", "b"},
  hash = {"a"},
  write_numbers = {io.tmpfile(), core.numbers {3, 1, 2}, 3, 0},
}

function T.test_every_function_is_known_here()
  for name, value in pairs(core) do
    if type(value) == "function" then
      lu.assertNotNil(RIGHT[name], name .. " is not tried in this file")
    end
  end
  for name in pairs(RIGHT) do lu.assertIsFunction(core[name], name) end
  lu.assertIsString(core.version)
end

function T.test_the_right_arguments_are_taken()
  for name, arguments in pairs(RIGHT) do
    local ok, problem = pcall(core[name], table.unpack(arguments))
    lu.assertTrue(ok, ("%s: %s"):format(name, problem))
  end
end

-- Number of the argument that a call complains of, or nil.
local function complaint(name, ...)
  local ok, problem = pcall(core[name], ...)
  return not ok and tonumber(tostring(problem):match "bad argument #(%-?%d+) to") or nil
end

-- An argument of a type that is never right is named; where the last ones are missing,
-- one of those is. The first of l_e has a usual value.
function T.test_every_argument_is_asked_for()
  for name, arguments in pairs(RIGHT) do
    for i = 1, #arguments do
      local what = ("%s, argument %d"):format(name, i)
      local given = {table.unpack(arguments)}
      given[i] = print
      lu.assertEquals(complaint(name, table.unpack(given)), i, what)
      local missing = complaint(name, table.unpack(arguments, 1, i - 1))
      lu.assertTrue(missing ~= nil and missing >= i, what .. " missing")
    end
  end
end

-- A userdata of another kind is no better.
function T.test_kinds_of_userdata_are_told_apart()
  each_raises(function(raising)
    raising("bad argument #2", core.review, joist(), STANDARD, RULES)
    raising("bad argument #3", core.review, joist(), RULES, RULES)
    raising("bad argument #1", core.record, RULES, 1, 1)
    raising("bad argument #2", core.adjust, joist(), RULES, "Fb")
  end)
end

------------------------------------------------------------------ fields, by their names

local FIELDS = core.fields()

function T.test_fields_of_a_model_are_named()
  each_raises(function(raising)
    for _, f in ipairs(FIELDS.joist) do
      raising(f.name, core.review, set(joist(), f.name, {{}}), RULES, STANDARD)
      raising(f.name, core.review, set(joist(), f.name, "12"), RULES, STANDARD)
    end
    for list, fields in pairs {cuts = FIELDS.cut, lines = FIELDS.line,
      points = FIELDS.point} do
      for _, f in ipairs(fields) do
        raising(f.name, core.review, set(joist(), list, 1, f.name, {}), RULES, STANDARD)
      end
      raising(list, core.review, set(joist(), list, "one"), RULES, STANDARD)
      raising(list, core.review, set(joist(), list, 1, "one"), RULES, STANDARD)
    end
  end)
end

function T.test_words_of_a_model_are_named()
  each_raises(function(raising)
    for _, case in ipairs {{"cuts", "kind"}, {"cuts", "place"}, {"cuts", "cause"},
      {"lines", "case"}, {"points", "case"}} do
      local list, field = case[1], case[2]
      for _, wrong in ipairs {"halo", 3, {}} do
        raising(field, core.review, set(joist(), list, 1, field, wrong), RULES, STANDARD)
      end
    end
    raising("kind", core.review, set(joist(), "cuts", 1, "kind", nil), RULES, STANDARD)
  end)
end

-- Fields and words of a repair, each with values that are of no right type.
function T.test_a_repair_is_named()
  each_raises(function(raising)
    local function wrong(piece, field, value)
      for _, usual in ipairs {BESIDE, UNDER} do
        raising(piece, core.review, set(with_fix(usual), "fix", field, value), RULES,
          STANDARD)
      end
    end
    for _, f in ipairs(FIELDS.fix) do
      wrong(f.name, f.name, "12")
      wrong(f.name, f.name, {{}})
    end
    for _, field in ipairs {"kind", "member", "lift", "share"} do
      for _, value in ipairs {"halo", 3, {}} do wrong("fix." .. field, field, value) end
    end
    wrong("fix.kind", "kind", nil)
    wrong("fix.other", "other", "oak")
    wrong("Fb", "other", {Fb = "900"})
    wrong("station", "station", table.pack(("x"):rep(33):byte(1, -1)))
    for _, cut in ipairs {0, -1, 2, 1e300, 0 / 0, 1 / 0, 0.5} do
      raising("fix.cut", core.review, strapped {cut = cut}, RULES, STANDARD)
    end
    raising("model.fix", core.review, set(joist(), "fix", "sister"), RULES, STANDARD)
  end)
end

-- A connection by itself: words, numbers, and modes that it does not know.
function T.test_a_joint_is_named()
  each_raises(function(raising)
    local function joint(name, value)
      local t = {}
      for field, right in pairs(RIGHT.joint[1]) do t[field] = right end
      t[name] = value
      return t
    end
    raising("mode", core.joint, joint("mode", nil))
    raising("joint.mode", core.joint, joint("mode", "halo"))
    raising("joint.demand", core.joint, joint("demand", nil))
    for _, name in ipairs {"demand", "branch", "G", "Z", "n_f", "CD", "C_z", "W", "p"} do
      raising("joint." .. name, core.joint, joint(name, "1"))
      raising("joint." .. name, core.joint, joint(name, 0 / 0))
      raising("joint." .. name, core.joint, joint(name, 1 / 0))
    end
  end)
end

function T.test_more_parts_than_there_is_room_for()
  each_raises(function(raising)
    local many = {}
    for i = 1, 20 do many[i] = {kind = "hole", at = 7 * i, diameter = 1, P = 1} end
    for _, list in ipairs {"cuts", "lines", "points"} do
      raising(list, core.review, set(joist(), list, many), RULES, STANDARD)
    end
    for _, list in ipairs {"span", "bearing", "blocking"} do
      local long = {}
      for i = 1, 20 do long[i] = 100 end
      raising(list, core.review, set(joist(), list, long), RULES, STANDARD)
    end
  end)
end

function T.test_fields_of_rules_are_named()
  each_raises(function(raising)
    local function limit(changes)
      local t = {measure = "depth", kinds = {"notch"}}
      for name, value in pairs(changes) do t[name] = value end
      return {{covers = {"notch"}, limits = {t}}}
    end
    raising("covers", core.rules, {{covers = 3, limits = {}}})
    raising("covers", core.rules, {{covers = {3.5}, limits = {}}})
    raising("halo", core.rules, {{covers = {"halo"}, limits = {}}})
    raising("limits", core.rules, {{covers = {}, limits = "none"}})
    raising("limits", core.rules, {{covers = {}, limits = {"none"}}})
    raising("halo", core.rules, limit {kinds = {"halo"}})
    raising("kinds", core.rules, limit {kinds = "notch"})
    raising("measure", core.rules, limit {measure = "halo"})
    raising("measure", core.rules, {{covers = {}, limits = {{kinds = {}}}}})
    for _, field in ipairs {"of_d", "of_L", "of_size", "plus", "cap"} do
      raising(field, core.rules, limit {[field] = {}})
      raising(field, core.rules, limit {[field] = 0 / 0})
    end
  end)
end

function T.test_fields_of_a_standard_are_named()
  each_raises(function(raising)
    local function standard(name, value)
      local t = {combinations = {{D = 1, L = 1, CD = 1}}, all = 1}
      for field, right in pairs(RIGHT.standard[1]) do t[field] = t[field] or right end
      t[name] = value
      return t
    end
    for _, name in ipairs {"end_notch", "inner_notch", "outer_part", "thick",
      "tested_hole", "combinations", "all"} do
      raising(name, core.standard, standard(name, nil))
      raising(name, core.standard, standard(name, "much"))
    end
    for _, name in ipairs {"D", "L", "CD"} do
      local one = {D = 1, L = 1, CD = 1}
      one[name] = nil
      raising(name, core.standard, standard("combinations", {one}))
      one[name] = 0 / 0
      raising(name, core.standard, standard("combinations", {one}))
    end
    raising("combinations", core.standard, standard("combinations", {}))
    raising("combinations", core.standard, standard("combinations", {1}))
    for _, name in ipairs {"K_b", "K_t", "K_v", "K_c", "K_perp", "K_min"} do
      raising(name, core.standard, standard(name, 1 / 0))
    end
    for _, n in ipairs {0, 2} do raising("all", core.standard, standard("all", n)) end
    local function ec5(name, value)
      local list = {0.6, 0.7, 0.8, 0.9, 1.1}
      local own = {k_mod = {list, list, list}, k_def = {0.6, 0.8, 2}, limit = {300, 250},
        psi_2 = 0.3, gamma_M = 1.3, k_sys = 1.1}
      own[name] = value
      local t = standard("family", "ec5")
      t.ec5 = own
      return t
    end
    core.standard(ec5("f_cr", 2))
    raising("ec5: missing", core.standard, standard("family", "ec5"))
    raising("k_mod: three lists", core.standard, ec5("k_mod", {{0.6}}))
    raising("1[5]", core.standard, ec5("k_mod", {{0.6, 0.7, 0.8, 0.9}, {}, {}}))
    raising("k_def: 3 numbers", core.standard, ec5("k_def", {0.6, 0.8}))
    raising("limit: 2 numbers", core.standard, ec5("limit", {}))
    raising("limit[2]", core.standard, ec5("limit", {300, "x"}))
    for _, name in ipairs {"psi_2", "gamma_M", "k_sys"} do
      raising(name, core.standard, ec5(name, nil))
      raising(name, core.standard, ec5(name, 0 / 0))
    end
  end)
end

-- Wrong values of each field of a beam, and what the message has to name.
local WRONG_BEAMS = {
  {"spans", "spans", {"two", {}, {"two"}, {-3}, {0}}},
  {"EI", "EI", {"stiff", -1, 0, {{from = 0, to = 50, EI = 1e6}}, {{from = 0, EI = 1}}}},
  {"overhang_left", "overhang", {"long", -1}},
  {"overhang_right", "overhang", {{}, -1}},
  {"hinges", "hinges", {"one", {"one"}, {{}}, {{at = 0}}, {{at = 500}},
    {{at = 50, stiffness = -1}}}},
  {"loads", "loads", {"heavy", {"heavy"}, {{w1 = 1}}, {{P = 1}}, {{P = 1, at = 500}},
    {{w1 = 1, from = 0, to = 500}}, {{P = {}, at = 5}}, {{P = 1, at = 5, case = "x"}}}},
}

function T.test_fields_of_a_beam_are_named()
  each_raises(function(raising)
    for _, case in ipairs(WRONG_BEAMS) do
      for _, wrong in ipairs(case[3]) do
        raising(case[2], core.beam, beam {[case[1]] = wrong})
      end
    end
  end)
end

function T.test_methods_of_a_beam()
  each_raises(function(raising)
    local b = core.beam(beam())
    raising("bad argument", b.at, nil)
    raising("bad argument", b.at, STANDARD, 3)
    for _, method in ipairs {"at", "envelope"} do
      raising("number expected", b[method], b)
      raising("not on the beam", b[method], b, 231)
      raising("not on the beam", b[method], b, 0 / 0)
      raising("invalid option 'middle'", b[method], b, 50, "middle")
    end
    raising("no such support", b.reaction_range, b, 4)
    raising("no such support", b.reaction_range, b, 0)
    raising("a mechanism", core.beam, {spans = {100}, EI = 1, hinges = {{at = 50}}})
  end)
end

function T.test_fields_of_a_section_are_named()
  raises("section.b", core.section, {d = 9})
  raises("section.d", core.section, {b = 2})
  for _, name in ipairs {"b", "d", "y1", "y2", "z1", "z2"} do
    raises("section." .. name, core.section, set({b = 1.5, d = 9.25}, name, "x"))
  end
end

-------------------------------------------------------------------------- unknown names

function T.test_names_that_are_not_there()
  each_raises(function(raising)
    local records = core.review(joist(), RULES, STANDARD)
    raising("no such check", core.record, records, 0, 1)
    raising("no such check", core.record, records, 10000, 1)
    raising("no such symbol", core.record, records, 1, 0)
    raising("no such symbol", core.record, records, 1, 10000)
    raising("G", core.adjust, joist(), STANDARD, "G")
    raising("no such combination", core.adjust, joist(), STANDARD, "Fb", 9)
    raising("brick", core.l_e, "brick", 100, 9.25)
    raising("1 to 64", core.curve, joist(), RULES, STANDARD, "cut", 65)
    raising("invalid option 'halo'", core.curve, joist(), RULES, STANDARD, "halo")
    raising("string expected", core.curve, joist(), RULES, STANDARD, true)
    raising("no repair", core.curve, joist(), RULES, STANDARD, "fixed")
    raising("no repair", core.curve, joist(), RULES, STANDARD, "new")
    raising("no member beside it", core.curve, strapped(), RULES, STANDARD, "new")
    raising("a model that is wrong", core.curve, strapped {E = 1}, RULES, STANDARD,
      "fixed")
  end)
end

local function column(path, values)
  return sweep {columns = {{axis = 1, path = path, values = values}}}
end

function T.test_columns_of_a_sweep_are_named()
  local two = core.numbers {1, 2}
  each_raises(function(raising)
    for _, path in ipairs {"halo", "cuts.1.halo", "cuts.2.at", "cuts.0.at", "halo.1.at",
      "span.7", "span.0", "b.2", "cuts.1", "lines.9.w1", "points.2.P", "", "span.1x"} do
      raising(("'%s'"):format(path), core.sweep, column(path, two))
    end
    raising("columns[1].values", core.sweep, column("live", core.numbers {40}))
    raising("netsection.numbers expected", core.sweep, column("live", {40, 50}))
    raising("columns[1].axis", core.sweep, sweep {columns = {{axis = 2, path = "live",
      values = two}}})
    raising("numbers[2]", core.numbers, {40, "many"})
    raising("sizes[1]", core.sweep, sweep {sizes = {0}})
    raising("models", core.sweep, sweep {models = {}})
    raising("models[1]", core.sweep, sweep {models = {joist()}})
    raising("another topology", core.sweep, sweep {models = {core.packed(joist()),
      core.packed(strapped())}})
    raising("past the last point", core.sweep, sweep {count = 3})
    raising("past the last point", core.sweep, sweep {first = 1})
    raising("to[1]", core.sweep, sweep {at = 1})
    raising("fault", core.sweep, sweep {fault = core.faults(1)})
    raising("count", core.sweep, sweep {count = -1})
    raising("rules", core.sweep, sweep {rules = STANDARD})
  end)
end

function T.test_outputs_of_a_sweep_are_named()
  local function output(t) return sweep {outputs = {t}} end
  each_raises(function(raising)
    raising("'halo'", core.sweep, output {quantity = "halo"})
    raising("'halo'", core.sweep, output {quantity = "ratio", state = "halo"})
    raising("'halo'", core.sweep, output {quantity = "check", mode = "halo"})
    raising("quantity: missing", core.sweep, output {})
    for _, t in ipairs {{quantity = "check"}, {quantity = "reaction"},
      {quantity = "share"}, {quantity = "cuts.moment"},
      {quantity = "ratio", state = "fixed"},
      {quantity = "station", state = "fixed", index = 1}} do
      raising("no such number", core.sweep, output(t))
    end
    raising("a column per output", core.sweep, sweep {outputs = {}})
    raising("to[1]", core.sweep, sweep {to = {core.faults(2)}})
  end)
end

function T.test_columns_are_read_within_their_bounds()
  local c, f = core.numbers {5, 6}, core.faults(2)
  lu.assertEquals({#c, c[1], c[2], c[3], c[0], c.halo}, {2, 5, 6})
  core.set(c, 2, nil)
  lu.assertNil(c[2])
  core.set(f, 1, 7)
  core.fill(f, 1, 1, 9)
  lu.assertEquals({f[1], f[2], f[3]}, {7, 9})
  each_raises(function(raising)
    raising("no such place", core.set, c, 3, 1)
    raising("no such place", core.set, f, 0, 1)
    raising("a code", core.set, f, 1, -1)
    raising("no such place", core.fill, c, 3, 0, 1)
    raising("too many", core.fill, c, 1, 2, 1)
    raising("a code", core.fill, f, 0, 1, -1)
    raising("places expected", core.numbers, -1)
    raising("finite", core.number_text, 1 / 0)
  end)
end

-- What csv writes, read back.
local function csv(...)
  local out <close> = io.tmpfile()
  local ok, problem = core.csv(out, ...)
  lu.assertTrue(ok, problem)
  out:seek "set"
  return out:read "a"
end

function T.test_lines_of_a_sweep_ask_for_their_parts()
  local two = core.faults(2)
  local axis = {texts = {"a", "b"}, stride = 1}
  lu.assertEquals(csv({axis, {column = core.numbers {0.1, 2}}, {column =
    core.numbers {1, 0}, words = {"no", "yes"}}}, two, {}, 0, 2),
    "a,0.1,yes,\r\nb,2,no,\r\n")
  core.set(two, 2, 3)
  lu.assertEquals(csv({axis}, two, {[3] = "why"}, 1, 2), "b,\r\na,why\r\n")
  local long = ("x"):rep(40000)
  lu.assertEquals(csv({{texts = {long}, stride = 1}}, core.faults(2), {}, 0, 2),
    long .. ",\r\n" .. long .. ",\r\n")
  each_raises(function(raising)
    raising("too many", csv, {axis}, two, {}, 0, 3)
    raising("too many fields, or none", csv, {}, two, {}, 0, 1)
    raising("a stride", csv, {{texts = {"a"}}}, two, {}, 0, 1)
    raising("texts or a column", csv, {{}}, two, {}, 0, 1)
    raising("too short", csv, {{column = core.numbers(1)}}, two, {}, 0, 2)
    raising("a text at least", csv, {{texts = {}, stride = 1}}, two, {}, 0, 1)
  end)
  local closed = io.tmpfile()
  closed:close()
  lu.assertErrorMsgContains("an open file", core.csv, closed, {axis}, two, {}, 0, 1)
end

------------------------------------------------------------------------- finite numbers

local NOT_FINITE = {0 / 0, 1 / 0, -1 / 0}

-- Adds to a list the name of a number that is not finite; a long list is cut short.
local function find_not_finite(value, what, list)
  if type(value) == "table" then
    for name, item in pairs(value) do
      find_not_finite(item, what .. "." .. tostring(name), list)
    end
  elseif type(value) == "number" then
    local finite = value == value and value ~= 1 / 0 and value ~= -1 / 0
    if not finite and #list < 20 then
      list[#list + 1] = ("%s is %s"):format(what, value)
    end
  end
end

-- Raises, or gives numbers that are all finite.
local function refuses_or_copes(list, what, f, ...)
  local results = table.pack(pcall(f, ...))
  for i = 2, results[1] and results.n or 1 do find_not_finite(results[i], what, list) end
end

function T.test_factors_are_finite()
  local values = {0 / 0, 1 / 0, -1 / 0, 0, -1, 1, 900, 1e308, 5e-324}
  local r, list = support.random(7), {}
  for name, count in pairs {CL = 5, Cb = 2, Cfu = 1} do
    for _ = 1, 300 do
      local given = {}
      for i = 1, count do given[i] = r:pick(values) end
      refuses_or_copes(list, name .. "(" .. table.concat(given, ", ") .. ")", core[name],
        table.unpack(given))
    end
  end
  for _ = 1, 100 do
    local l_u, d = r:pick(values), r:pick(values)
    refuses_or_copes(list, ("l_e(%g, %g)"):format(l_u, d), core.l_e, "uniform", l_u, d)
  end
  lu.assertEquals(list, {})
end

function T.test_sections_are_finite()
  local list = {}
  for _, name in ipairs {"b", "d", "y1", "y2", "z1", "z2"} do
    for _, value in ipairs {0 / 0, 1 / 0, -1 / 0, 0, -1, 1e308, 5e-324} do
      local t = {b = 1.5, d = 9.25, y1 = 2, y2 = 3, z1 = 5, z2 = 6}
      t[name] = value
      refuses_or_copes(list, ("section, %s = %s"):format(name, value), core.section, t)
    end
  end
  lu.assertEquals(list, {})
end

-- No beam is made of a number that is not finite, wherever it stands.
function T.test_beams_refuse_what_is_not_finite()
  each_raises(function(raising)
    for _, x in ipairs(NOT_FINITE) do
      raising("spans", core.beam, beam {spans = {100, x}})
      raising("EI", core.beam, beam {EI = x})
      raising("EI", core.beam, beam {EI = {{from = -10, to = 230, EI = x}}})
      raising("overhang", core.beam, beam {overhang_left = x})
      raising("overhang", core.beam, beam {overhang_right = x})
      raising("hinges", core.beam, beam {hinges = {{at = x}}})
      raising("stiffness", core.beam, beam {hinges = {{at = 40, stiffness = x}}})
      raising("loads.P", core.beam, beam {loads = {{at = 5, P = x}}})
      raising("loads.at", core.beam, beam {loads = {{at = x, P = 5}}})
      raising("loads.from", core.beam, beam {loads = {{from = x, to = 9, w1 = 1}}})
      raising("loads.to", core.beam, beam {loads = {{from = 0, to = x, w1 = 1}}})
      raising("loads.w1", core.beam, beam {loads = {{from = 0, to = 9, w1 = x}}})
      raising("loads.w2", core.beam, beam {loads = {{from = 0, to = 9, w1 = 1, w2 = x}}})
    end
  end)
end

-- A model with such a number is refused, or does not read it.
function T.test_models_refuse_what_is_not_finite()
  for _, x in ipairs(NOT_FINITE) do
    for _, f in ipairs(FIELDS.joist) do
      local value = f.rows > 1 and {x, 100} or x
      local records, why = core.review(set(joist(), f.name, value), RULES, STANDARD)
      lu.assertNil(records, ("%s = %s"):format(f.name, x))
      lu.assertEquals(why.field, f.name)
    end
  end
end

-- What a repair reads is refused when it is no number or out of its range; what it does
-- not read changes nothing.
function T.test_repairs_refuse_what_is_not_finite()
  for name, usual in pairs {beside = BESIDE, under = UNDER} do
    for _, f in ipairs(FIELDS.fix) do
      for _, x in ipairs {0 / 0, 1 / 0, -1 / 0, f.low - 1, f.high * 1.01, 1e308} do
        local given = f.rows == 1 and x or {}
        for i = 1, f.rows > 1 and #(usual[f.name] or {}) or 0 do given[i] = x end
        local m = set(with_fix(usual), "fix", f.name, given)
        local records, why = core.review(m, RULES, STANDARD)
        local what = ("%s, %s = %s"):format(name, f.name, x)
        local read = usual[f.name] ~= nil and not (name == "under"
          and (f.name == "from" or f.name == "to" or f.name == "station"))
        lu.assertEquals(records == nil, read, what)
        if read then lu.assertEquals(why.field, f.name, what) end
      end
    end
  end
end

function T.test_the_new_wood_is_looked_at()
  for _, field in ipairs {"Fb", "Fv", "Fc_perp", "CF", "wet", "temperature"} do
    for _, x in ipairs(NOT_FINITE) do
      local records, why = core.review(with_fix(BESIDE, {other = {[field] = x}}), RULES,
        STANDARD)
      lu.assertNil(records, field)
      lu.assertEquals(why.field, field)
    end
  end
end

-- Numbers of the right range that make no sense together: refused or finite.
function T.test_repairs_cope_with_anything_in_range()
  local r, list = support.random(11), {}
  for i = 1, 600 do
    local m = with_fix(i % 2 == 0 and BESIDE or UNDER)
    for _, word in ipairs {{"lift", "none", "unloaded", "prop"},
      {"share", "slip", "stiffness", "new", "worst"}, {"member", "sister", "plates"}} do
      m.fix[word[1]] = word[r:int(2, #word)]
    end
    for _, name in ipairs {"bears_left", "bears_right", "between"} do
      m.fix[name] = r:unit() < 0.5
    end
    for _, f in ipairs(FIELDS.fix) do
      if f.rows == 1 and r:unit() < 0.15 then
        m.fix[f.name] = r:pick {f.low, f.high, 0, 1e-9, r:real(f.low, f.high)}
      end
    end
    if r:unit() < 0.3 then m.fix.station = {r:real(0, 162), r:real(0, 162), 81, 81} end
    if r:unit() < 0.3 then m.cuts[1] = {kind = "sever", from = 70, to = 75} end
    local what = ("repair %d"):format(i)
    refuses_or_copes(list, what, core.review, m, RULES, STANDARD)
    refuses_or_copes(list, what .. ", curve", core.curve, m, RULES, STANDARD, "fixed", 2)
    refuses_or_copes(list, what .. ", new", core.curve, m, RULES, STANDARD, "new", 2)
  end
  lu.assertEquals(list, {})
end

function T.test_joints_are_finite()
  local r, list = support.random(12), {}
  for _ = 1, 300 do
    local t = {mode = r:pick {"fasteners", "withdrawal", "steel", "connection-shear",
      "bending"}, branch = r:pick {-1, 0, 1, 2, 3, 4}, demand = r:pick {0, 1, 1e9, -5}}
    for name in pairs(FIELDS.symbol) do
      if r:unit() < 0.5 then t[name] = r:pick {0, 1, 9.25, 1e-300, 1e12, -1} end
    end
    refuses_or_copes(list, t.mode, core.joint, t)
  end
  lu.assertEquals(list, {})
end

-- Numbers at the bounds of their ranges, and next to nothing where that is allowed.
function T.test_the_bounds_of_every_field()
  local list = {}
  for _, f in ipairs(FIELDS.joist) do
    for _, x in ipairs {f.low, f.high, math.max(f.low, 5e-324), f.low + 1e-300} do
      local m = set(joist(), f.name, f.rows > 1 and {x, x} or x)
      if f.name == "span" then m.span = {x} end
      local records, s = core.review(m, RULES, STANDARD)
      find_not_finite(s, ("%s = %g"):format(f.name, x), list)
      lu.assertTrue(records ~= nil or s.text ~= nil, f.name)
    end
  end
  lu.assertEquals(list, {})
end

---------------------------------------------------------------------------- the globals

local function modules()
  local names = {"netsection", "netsection.core"}
  for _, path in ipairs(system.within("lua/netsection", "%.lua$")) do
    local name = path:match "/([%w_]+)%.lua$"
    if name and name ~= "init" then names[#names + 1] = "netsection." .. name end
  end
  return names
end

-- A program that loads one module in a fresh state and prints every global it adds.
local PROGRAM = [[
local before = {}
for name in pairs(_G) do before[name] = true end
require %q
for name in pairs(_G) do
  if not before[name] then print("global", name) end
end
print "done"
]]

local function run_fresh(program)
  local path = os.tmpname()
  local file <close> = assert(io.open(path, "w"))
  file:write(program)
  file:close()
  local text = system.script(path)
  os.remove(path)
  return text
end

function T.test_modules_add_no_globals()
  local names = modules()
  lu.assertTrue(#names > 10, "modules were not found")
  for _, name in ipairs(names) do
    lu.assertEquals(run_fresh(PROGRAM:format(name)), "done\n", name)
  end
end

return T
