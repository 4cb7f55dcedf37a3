-- SPDX-License-Identifier: MIT
-- A field of a joist or a cut is one row: what is added to the table is read by the
-- model, the sweep, sensitivity, tables and field books, without another line; and each
-- row says what it has to.
local lu = require "luaunit"
local fields = require "netsection.fields"
local support = require "tests.support"

local T = {}

local LISTS = {"netsection.fields.cut", "netsection.fields.joist"}

-- The module, read anew with rows that 'change' makes of the two lists.
local function with(change, try)
  local kept = {}
  for name, value in pairs(package.loaded) do
    if name:find "^netsection" and name ~= "netsection.core" then
      kept[name] = value
    end
  end
  for name in pairs(kept) do package.loaded[name] = nil end
  local cut, joist = require(LISTS[1]), require(LISTS[2])
  change(cut, joist)
  local ok, why = pcall(try, require "netsection")
  for name in pairs(package.loaded) do
    if name:find "^netsection" and name ~= "netsection.core" then
      package.loaded[name] = nil
    end
  end
  for name, value in pairs(kept) do package.loaded[name] = value end
  if not ok then error(why, 0) end
end

local function joist(ns, cut, more)
  local t = {mark = "F1", size = "2x10", species = "Hem-Fir", grade = "No.2",
    span = "12-0", spacing = 16, dead = 12, live = 40, bearing = 3.5, cuts = {cut}}
  for name, value in pairs(more or {}) do t[name] = value end
  return ns.joist(t)
end

-- The core has a row 'stretch', 1 / sin of the angle a hole makes to the grain, which no
-- description names. One row gives it to holes; 2 is what angle = 30 comes to.
local STRETCH = {"stretch", "number", of = "hole", sweep = true, label = "stretch",
  survey = {also = {"longer by"}}}

function T.test_a_new_field_is_one_row()
  local HOLE = {at = "4-0", diameter = 2.5}
  local before = require "netsection"
  support.raises("unknown field 'stretch'", before.hole, {at = 48, diameter = 2,
    stretch = 2})
  local askew = joist(before, before.hole {at = "4-0", diameter = 2.5, angle = 30})
    :review()
  with(function(cut) table.insert(cut, STRETCH) end, function(ns)
    local longer = ns.hole {at = HOLE.at, diameter = HOLE.diameter, stretch = 2}
    local r = joist(ns, longer):review()
    lu.assertAlmostEquals(r.cut.ratio, askew.cut.ratio, 1e-12)
    -- Its range is the core's, 1 to 10.
    support.raises("stretch: a number from 1 to 10 expected, got 11", joist, ns,
      ns.hole {at = 48, diameter = 2, stretch = 11})
    -- On the lanes of a sweep, each point as its review.
    local swept = ns.sweep {joist = joist(ns, longer), over = {["cuts.1.stretch"] = {1, 2,
      4}}, values = {"cut.ratio"}}
    local seen = 0
    for row in swept:rows() do
      local x = row["cuts.1.stretch"]
      local one = joist(ns, ns.hole {at = HOLE.at, diameter = HOLE.diameter, stretch = x})
      lu.assertEquals(row["cut.ratio"], one:review().cut.ratio)
      seen = seen + 1
    end
    lu.assertEquals(seen, 3)
    lu.assertNotNil(require "netsection.sweep.axes".lane_rows("cuts.1.stretch",
      joist(ns, longer)))
    -- In the field book, under its own and its other heading.
    lu.assertStrContains(ns.survey_template "cuts", "stretch")
    local s = ns.read_survey {joists = {text = "mark,size,species,grade,span,spacing,"
      .. "dead,live,bearing\nF1,2x10,Hem-Fir,No.2,12-0,16,12,40,3.5 in\n"},
      cuts = {text = "joist,kind,at,diameter,longer by\nF1,hole,4-0,2.5 in,2\n"}}
    lu.assertEquals(s:review().joists.F1.cut.ratio, r.cut.ratio)
  end)
  support.raises("unknown field 'stretch'", before.hole, {at = 48, diameter = 2,
    stretch = 2})
end

-- A kind of cut gets a field by a word in its row: 'extend' of a loss, which sensitivity
-- then moves. A loss by rot is counted 12 in further each way (our choice).
function T.test_a_field_of_another_kind_is_a_word()
  local before = require "netsection"
  local rot = joist(before, before.loss {from = 20, to = 30, bottom = 2, cause = "rot"})
    :review()
  with(function(cut)
    for _, row in ipairs(cut) do
      if row[1] == "extend" then row.of, row.sweep = "loss lost_bearing", true end
    end
  end, function(ns)
    local j = joist(ns, ns.loss {from = 20, to = 30, bottom = 2, extend = 12})
    lu.assertAlmostEquals(j:review().cut.ratio, rot.cut.ratio, 1e-12)
    support.raises("extend", joist, ns, ns.loss {from = 20, to = 30, bottom = 2,
      extend = 49})
    local moved = {}
    for _, e in ipairs(j:sensitivity {most = 3}.inputs) do moved[e.input] = e.unit end
    lu.assertEquals(moved["cuts.1.extend"], "in")
  end)
end

-- A field of a joist that is no number of the core: read, refused, from its column.
function T.test_a_new_field_of_a_joist_is_one_row()
  with(function(_, joist_rows)
    table.insert(joist_rows, {"access", "word", words = {"attic", "crawl space"},
      label = "reached from", survey = {also = {"reached from"}}})
  end, function(ns)
    lu.assertEquals(joist(ns, nil, {access = "attic"}).model.access, "attic")
    support.raises("access: one of attic, crawl space expected, got roof", joist, ns, nil,
      {access = "roof"})
    local s = ns.read_survey {joists = {text = "mark,size,species,grade,span,spacing,"
      .. "dead,live,bearing,reached from\nF1,2x10,Hem-Fir,"
      .. "No.2,12-0,16,12,40,3.5 in,attic\n"}}
    lu.assertEquals(s.joists[1].description.access, "attic")
  end)
end

local KINDS = {length = true, area = true, number = true, count = true, flag = true,
  word = true, special = true}
local OWN = {of = true, row = true, free = true, low = true, high = true, words = true,
  default = true, into = true, needed = true, place = true, sweep = true, still = true,
  moved = true, values = true, survey = true, label = true, checked_only = true,
  scatter = true, name = true,
  kind = true, [1] = true, [2] = true}

-- What a row lacks or has too much would be passed over in silence.
function T.test_each_row_is_whole()
  for _, list in ipairs {"joist", "cut"} do
    for _, row in ipairs(fields[list]) do
      for name in pairs(row) do lu.assertTrue(OWN[name], row.name .. ": " .. name) end
      lu.assertTrue(KINDS[row.kind], row.name)
      lu.assertEquals(type(row.label), "string", row.name)
      local range = fields.range(list, row.name)
      local plain = row.kind == "length" or row.kind == "number" or row.kind == "count"
        or row.kind == "area"
      lu.assertTrue(not plain or row.free or range ~= nil, row.name .. ": no range")
      lu.assertTrue(row.kind ~= "word" or #row.words > 1, row.name)
    end
  end
end

return T
