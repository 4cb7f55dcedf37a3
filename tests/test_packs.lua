-- Rule packs and standards as data: what is on file by other people's texts, what is
-- wrong with a table, several packs at once, and that a file can do nothing.
local check = require "netsection.packs.check"
local data = require "netsection.data_file"
local lu = require "luaunit"
local ns = require "netsection"
local packs = require "netsection.packs"

local T = {}

local US = {b = 1.5, spacing = 16, bearing = 3.5, dead = 10, live = 40,
  species = "Douglas Fir-Larch", grade = "No.2"}
local METRIC = {b = "45 mm", spacing = "400 mm", bearing = "100 mm", dead = "0.5 kPa",
  live = "1.5 kPa", material = {Fb = 900, Ft = 575, Fv = 180, Fc = 1350, Fc_perp = 625,
  E = 1.6e6, CF = 1}}

local function mm(x) return x .. " mm" end

local function hole(d, L, at, size, below, more, to)
  local u = to or function(x) return x end
  local cuts = {ns.hole {at = u(at), diameter = u(size), below = u(below)}}
  for _, cut in ipairs(more or {}) do cuts[#cuts + 1] = cut end
  return {d = u(d), span = u(L), cuts = cuts}
end

local function notch(d, L, x1, x2, depth, to, face)
  local u = to or function(x) return x end
  return {d = u(d), span = u(L), cuts = {ns.notch {face = face or "top", from = u(x1),
    to = u(x2), depth = u(depth)}}}
end

-- The cuts of tests/data/rule_verdicts.lua.
local CASES = {
  U1 = hole(9.25, 144, 36, 3, 3.125), U3 = hole(9.25, 144, 36, 3.25, 3),
  U5 = hole(9.25, 144, 60, 2, 2),
  U7 = hole(9.25, 144, 28.25, 1.5, 5.75, {ns.notch {face = "top", from = 24, to = 26,
    depth = 1.5}}),
  U9 = notch(9.25, 144, 24, 32, 1.5), U11 = notch(9.25, 144, 70, 72, 1),
  U13 = notch(9.25, 144, 46, 48, 1),
  U15 = {d = 9.25, span = 144, cuts = {ns.end_notch {support = "left", face = "bottom",
    depth = 2.5, length = 4.75}}},
  U17 = hole(11.25, 144, 50, 3.75, 3.75), U19 = hole(5.5, 96, 30, 1.8, 2),
  M1 = hole(220, 4000, 1200, 50, 85, nil, mm),
  M3 = hole(220, 4000, 2000, 50, 85, nil, mm),
  M5 = hole(220, 4000, 1400, 55, 82.5, nil, mm),
  M7 = notch(220, 4000, 600, 700, 32, mm), M9 = notch(220, 4000, 900, 980, 27, mm),
  M11 = notch(220, 4000, 600, 700, 20, mm, "bottom"),
  M13 = {d = mm(220), span = mm(4000), cuts = {ns.end_notch {support = "left",
    face = "top", depth = mm(70), length = mm(220)}}},
  M15 = hole(300, 5000, 1500, 70, 115, nil, mm),
  M17 = hole(220, 4000, 1120, 40, 90, {ns.hole {at = mm(1250), diameter = mm(40),
    below = mm(90)}}, mm),
  M19 = hole(220, 4000, 1200, 40, 90, {ns.notch {face = "top", from = mm(900),
    to = mm(1000), depth = mm(20)}}, mm),
  M21 = hole(184, 3600, 1080, 46, 69, nil, mm),
  M23 = hole(220, 4000, 1025, 50, 85, nil, mm),
}

local function reviewed(id, rules)
  local t = {mark = id}
  for name, value in pairs(id:sub(1, 1) == "U" and US or METRIC) do t[name] = value end
  for name, value in pairs(CASES[id]) do t[name] = value end
  return ns.joist(t):review {rules = rules}
end

-- Verdicts by hand from the texts that the packs cite.
function T.test_verdicts_of_the_packs_on_file()
  local seen = {}
  for _, row in ipairs(dofile "tests/data/rule_verdicts.lua") do
    local id, pack, status, broken = table.unpack(row)
    local r = reviewed(id, pack)
    local n = 0
    for _, breach in ipairs(r.rules.breaches) do n = n + (breach.cut == 1 and 1 or 0) end
    lu.assertEquals(r.cuts[1].rules, status, id .. " by " .. pack)
    if status == "outside" then lu.assertEquals(n, broken, id .. " by " .. pack) end
    seen[pack] = true
  end
  local count = 0
  for _ in pairs(seen) do count = count + 1 end
  lu.assertEquals(count, 9)
end

function T.test_a_limit_is_told_in_the_unit_of_its_pack()
  local r = reviewed("M15", "uk-labc-2018")
  lu.assertStrContains(r.rules.breaches[1].text, "70 mm > 0.25 d, at most 65 mm = 65 mm")
  r = reviewed("M11", "uk-nhbc-2020")
  lu.assertStrContains(r.rules.breaches[1].text, "bottom edge: top edge only")
end

-- Every pack on file is right in itself, and one key misspelled is always caught.
function T.test_misspelled_keys_are_caught()
  for _, kind in ipairs {"rules", "standards"} do
    for _, name in ipairs(packs.names(kind)) do
      local problems = kind == "rules" and ns.rules.problems or ns.standard.problems
      local tried = 0
      local function spoil(t, whole)
        for _, key in ipairs(check.keys(t)) do
          if type(key) == "string" then
            local value = t[key]
            t[key], t[key .. "x"] = nil, value
            local found = problems(whole)
            local named = false
            for _, p in ipairs(found) do
              named = named or p.code == "PACK-FIELD-UNKNOWN"
                and p.path:find(key .. "x", 1, true) ~= nil
            end
            lu.assertTrue(named, ("%s: %s"):format(name, key))
            t[key], t[key .. "x"] = value, nil
            tried = tried + 1
          end
          if type(t[key]) == "table" then spoil(t[key], whole) end
        end
      end
      local function copy(value)
        if type(value) ~= "table" then return value end
        local new = {}
        for k, v in pairs(value) do new[k] = copy(v) end
        return new
      end
      local own = copy(packs.read(kind, name))
      own.name, own.base = "own", nil
      lu.assertEquals(#problems(own), 0, name)
      spoil(own, own)
      lu.assertTrue(tried > 10)
    end
  end
end

local function own(changes)
  local t = {name = "own-office", title = "Office rules", unit = "mm", confidence = "own",
    covers = {"hole"}, not_covered = "holes alone are addressed",
    limits = {{kinds = {"hole"}, measure = "size", of_d = 1 / 4, clause = "office 3.2",
      text = "hole diameter", says = "d/4"}}}
  for name, value in pairs(changes or {}) do
    if name == "limit" then
      for k, v in pairs(value) do t.limits[1][k] = v ~= ns.none and v or nil end
    else
      t[name] = value ~= ns.none and value or nil
    end
  end
  return t
end

local function standard(changes)
  local t = {name = "own-standard", base = "us-nds-2018-asd", title = "Own"}
  for name, value in pairs(changes or {}) do t[name] = value end
  return t
end

local MANY = {}
for i = 1, 65 do MANY[i] = own().limits[1] end
local WIDE = {}
for i = 1, 40 do WIDE[i] = own().limits[1] end

-- Forty slips, each with the code and the place it has to be told by.
local SLIPS = {
  {"rules", own {titel = "x"}, "PACK-FIELD-UNKNOWN", "titel"},
  {"rules", own {title = ns.none}, "PACK-FIELD-MISSING", "title"},
  {"rules", own {name = ns.none}, "PACK-FIELD-MISSING", "name"},
  {"rules", own {confidence = ns.none}, "PACK-FIELD-MISSING", "confidence"},
  {"rules", own {confidence = "sure"}, "PACK-FIELD-TYPE", "confidence"},
  {"rules", own {limits = ns.none}, "PACK-FIELD-MISSING", "limits"},
  {"rules", own {limits = {}}, "PACK-VALUE-RANGE", "limits"},
  {"rules", own {limits = MANY}, "PACK-VALUE-RANGE", "limits"},
  {"rules", own {covers = "hole"}, "PACK-FIELD-TYPE", "covers"},
  {"rules", own {covers = {"hol"}}, "RULE-KIND", "covers[1]"},
  {"rules", own {covers = {}}, "PACK-VALUE-RANGE", "covers"},
  {"rules", own {covers = {"hole", "notch"}}, "RULE-NOT-COVERED", "covers"},
  {"rules", own {covers = {"hole", nil, "slot"}}, "RULE-KIND", "covers[2]"},
  {"rules", own {unit = "inch"}, "PACK-FIELD-TYPE", "unit"},
  {"rules", own {name = "us-irc-2021"}, "PACK-NAME", "name"},
  {"rules", own {name = "../x"}, "PACK-NAME", "name"},
  {"rules", own {name = 7}, "PACK-FIELD-TYPE", "name"},
  {"rules", own {title = "\27[2J"}, "PACK-FIELD-TYPE", "title"},
  {"rules", own {covers_depth = -4}, "PACK-VALUE-RANGE", "covers_depth"},
  {"rules", own {covers_hogging = "yes"}, "PACK-FIELD-TYPE", "covers_hogging"},
  {"rules", own {not_covered = ns.none}, "PACK-FIELD-MISSING", "not_covered"},
  {"rules", own {limit = {of_depth = 1 / 4}}, "PACK-FIELD-UNKNOWN", "limits[1].of_depth"},
  {"rules", own {limit = {of_d = "1/4"}}, "PACK-FIELD-TYPE", "limits[1].of_d"},
  {"rules", own {limit = {of_d = 4}}, "PACK-VALUE-RANGE", "limits[1].of_d"},
  {"rules", own {limit = {of_d = -0.1}}, "PACK-VALUE-RANGE", "limits[1].of_d"},
  {"rules", own {limit = {of_d = 0 / 0}}, "PACK-FIELD-TYPE", "limits[1].of_d"},
  {"rules", own {limit = {plus = 1 / 0}}, "PACK-FIELD-TYPE", "limits[1].plus"},
  {"rules", own {limit = {of_d = ns.none}}, "RULE-NO-LIMIT", "limits[1]"},
  {"rules", own {limit = {at_lest = true}}, "PACK-FIELD-UNKNOWN", "limits[1].at_lest"},
  {"rules", own {limit = {at_least = true}}, "RULE-DIRECTION", "limits[1]"},
  {"rules", own {limit = {measure = "edge below"}}, "RULE-DIRECTION", "limits[1]"},
  {"rules", own {limit = {measure = "diameter"}}, "RULE-MEASURE", "limits[1].measure"},
  {"rules", own {limit = {measure = "depth"}}, "RULE-MEASURE-KIND", "limits[1]"},
  {"rules", own {limit = {kinds = {"slot"}}}, "RULE-NOT-COVERED", "limits[1]"},
  {"rules", own {limit = {kinds = {}}}, "RULE-KIND", "limits[1].kinds"},
  {"rules", own {limit = {face = "top"}}, "RULE-MEASURE-KIND", "limits[1]"},
  {"rules", own {limit = {clause = ns.none}}, "PACK-FIELD-MISSING", "limits[1].clause"},
  {"rules", 7, "PACK-FIELD-TYPE", ""},
  {"standards", standard {base = "us-nds-1900"}, "STANDARD-BASE", "base"},
  {"standards", standard {format = "XYZ"}, "STANDARD-FORMAT", "format"},
  {"standards", standard {tested_hole = 45}, "PACK-VALUE-RANGE", "tested_hole"},
  {"standards", standard {Kb = 2.5}, "PACK-FIELD-UNKNOWN", "Kb"},
  {"standards", standard {combinations = {{name = "D", D = 1, L = 0, CD = 0.9}}},
    "STANDARD-COMBINATION", "combinations[1]"},
  {"standards", standard {combinations = {{name = "D+L", D = 1, L = 1}}},
    "PACK-FIELD-MISSING", "combinations[1].CD"},
  {"standards", standard {combinations = {{name = "D+L", D = 1.2, L = 1.6, CD = 0.8}}},
    "STANDARD-FORMAT-MIX", "combinations[1]"},
}

function T.test_planted_slips_are_named()
  lu.assertTrue(#SLIPS >= 40)
  for i, slip in ipairs(SLIPS) do
    local kind, t, code, path = table.unpack(slip)
    local make = kind == "rules" and ns.rules or ns.standard
    local found, said = make.problems(t), nil
    for _, p in ipairs(found) do
      if p.code == code and p.path == path then said = p.text end
    end
    lu.assertNotNil(said, ("slip %d: %s at %s not told: %s"):format(i, code, path,
      found[1] and found[1].code .. " " .. found[1].text or "nothing"))
    lu.assertErrorMsgContains(said, make, t)
  end
end

-- More limits than a review of eight cuts and seven bearings has room for are refused
-- before a joist is worked.
function T.test_too_many_limits_are_refused()
  lu.assertErrorMsgContains("RULE-TOO-MANY", function()
    reviewed("U1", ns.rules(own {limits = WIDE}))
  end)
  local fits = {}
  for i = 1, 32 do fits[i] = own().limits[1] end
  lu.assertEquals(#reviewed("U1", ns.rules(own {limits = fits})).rules.items, 32)
end

-- Several packs: the strictest decides and is named.
function T.test_several_packs_at_once()
  local mine = ns.rules(own())
  lu.assertStrContains(tostring(mine), "rules 'own-office': Office rules (given, ")
  lu.assertEquals(reviewed("U1", "us-irc-2021").rules.status, "within")
  lu.assertEquals(reviewed("U1", mine).rules.status, "outside")
  local r = reviewed("U1", {"us-irc-2021", mine})
  lu.assertEquals(r.rules.status, "outside")
  lu.assertEquals(r.rules.pack, "us-irc-2021 + own-office")
  lu.assertEquals(#r.rules.breaches, 1)
  lu.assertEquals(r.rules.breaches[1].pack, "own-office")
  lu.assertEquals(r.rules.breaches[1].clause, "office 3.2")
  lu.assertEquals(r.rules.all[1].status, "within")
  lu.assertEquals(r.rules.all[2].status, "outside")
  -- A pack that does not cover notches leaves them to the others.
  lu.assertEquals(reviewed("U13", {"us-irc-2021", mine}).rules.status, "within")
  lu.assertEquals(reviewed("U13", mine).rules.status, "not covered")
  lu.assertErrorMsgContains("1 to 4 packs", reviewed, "U1", {})
  lu.assertErrorMsgContains("unknown; available: ca-nbc-9.23.5", reviewed, "U1", "halo")
end

-- The same numbers by a sweep as by a review under packs of one's own.
function T.test_own_packs_in_sweeps_and_repairs()
  local mine = ns.rules(own())
  local t = {mark = "S", rules = nil}
  for name, value in pairs(US) do t[name] = value end
  for name, value in pairs(CASES.U1) do t[name] = value end
  local joist = ns.joist(t)
  local sweep = ns.sweep {joist = joist, over = {["cuts.1.diameter"] = {1, 2, 3}},
    values = {"ratio", "action"}, rules = {"us-irc-2021", mine}}
  for _, D in ipairs {1, 2, 3} do
    local r = joist:with {cuts = {ns.hole {at = 36, diameter = D, below = 3.125}}}
      :review {rules = {"us-irc-2021", mine}}
    lu.assertEquals(sweep:at {["cuts.1.diameter"] = D}.ratio, r.cut.ratio)
    lu.assertEquals(sweep:at {["cuts.1.diameter"] = D}.action, r.action)
  end
  local fixed = joist:fix(ns.sister {side = "left"}):review {rules = mine}
  lu.assertEquals(fixed.rules.pack, "own-office")
  lu.assertNotNil(fixed.fixed)
end

-- A standard that names a base takes the rest from it.
function T.test_a_standard_on_a_base()
  local mine = ns.standard(standard {inner_notch = 1 / 8})
  local joist = ns.joist {mark = "S", b = 1.5, d = 9.25, span = 144, spacing = 16,
    bearing = 3.5, dead = 10, live = 40, species = "Douglas Fir-Larch", grade = "No.2",
    cuts = {ns.notch {face = "top", from = 24, to = 26, depth = 1.4}}}
  lu.assertNil(joist:review().cuts[1].status)
  local r = joist:review {standard = mine}
  lu.assertEquals(r.cuts[1].status, "not permitted")
  lu.assertEquals(r.standard, "own-standard")
end

function T.test_what_is_on_file_is_listed()
  local names = {}
  for i, pack in ipairs(ns.packs "rules") do
    lu.assertNil(pack.problem)
    lu.assertIsString(pack.title)
    lu.assertIsString(pack.confidence)
    names[i] = pack.name
  end
  lu.assertEquals(names, {"ca-nbc-9.23.5", "ie-tgd-a-1997", "none", "uk-labc-2018",
    "uk-nhbc-2020",
    "us-ibc-2015-2021", "us-ibc-2024", "us-irc-2015", "us-irc-2018", "us-irc-2021",
    "us-irc-2024"})
  lu.assertErrorMsgContains("'rules' or 'standards' expected", ns.packs, "colors")
end

-- A data file is read, never run; what is no data is refused with a line.
function T.test_files_are_data()
  local t = assert(data.parse
    'return {a = 1 / 4, b = {"x" .. "y", -2.5e1, true}, [3] = 1}')
  lu.assertEquals(t, {a = 0.25, b = {"xy", -25, true}, [3] = 1})
  for source, says in pairs {
    ["return {f = function() end}"] = "not a table of data",
    ["return {('x'):rep(1 << 30)}"] = "not a table of data",
    ["return {\n a = 1,\n b = os.exit(),\n}"] = "line 4 at most",
    ["while true do end"] = "not a table of data", ["return 7"] = "not a table of data",
    ["return {1 + 'a'}"] = "join numbers", ["return {a = 1, a = 2}"] = "given twice",
    ["return {} os.exit()"] = "not a table of data",
    ["return " .. ("{"):rep(60) .. ("}"):rep(60)] = "deeper than",
    [("-"):rep(2000000)] = "bytes", [""] = "not a table of data",
    ["\27Lua"] = "not a table of data",
  } do
    local value, problem = data.parse(source)
    lu.assertNil(value)
    lu.assertStrContains(problem, says)
  end
end

-- Brackets in texts of either mark and in remarks hold no table; no remark begins in a
-- text (Lua 5.4 manual, 3.1).
function T.test_how_deep_brackets_go()
  local open, close = ("{"):rep(60), ("}"):rep(60)
  for _, source in ipairs {'return {"' .. open .. '"}', "return {'" .. open .. "'}",
    'return {"\\"' .. open .. '"}', "return { -- it's " .. open .. "\n}"} do
    lu.assertEquals(type(data.parse(source)), "table", source)
  end
  for _, text in ipairs {"'--'", '"--"', [['"']], [["'"]], [["\\"]]} do
    local value, problem = data.parse(("return {%s, %s%s}"):format(text, open, close))
    lu.assertNil(value, text)
    lu.assertStrContains(problem, "deeper than")
  end
end

return T
