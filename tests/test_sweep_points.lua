-- SPDX-License-Identifier: MIT
-- Points of a sweep that are listed, beside its axes: each is the review of that joist to
-- the bit, whatever its fields are and wherever its values come from.
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local raises = support.raises

local T = {}

local function joist(changes)
  local t = {mark = "J3", size = "2x10", species = "douglas fir-larch", grade = "No.2",
    span = "13-6", spacing = 16, bearing = 3.5, members = 9, dead = 12, live = 40,
    cuts = {ns.hole {at = "5-2", diameter = 3, below = 2.25}}}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.joist(t)
end

local FIELDS = {"spacing", "span", "live", "cuts.1.at", "cuts.1.diameter", "size",
  "grade"}

-- Ratio and action of a row beside the review of its joist.
local function same(j, row, names)
  local changes = {}
  for _, name in ipairs(names) do changes[name] = row[name] end
  local r = j:with(changes):review()
  lu.assertTrue(row.ratio == r.cut.ratio)
  lu.assertEquals(row.action, r.action)
end

-- Random samples: lanes alone, and with fields that make joists.
function T.test_a_listed_point_is_its_review()
  local rng, j = support.random(3), joist()
  for _, whole in ipairs {false, true} do
    local columns = {}
    for _, name in ipairs(FIELDS) do columns[name] = {} end
    for i = 1, whole and 40 or 200 do
      columns.spacing[i], columns.span[i] = rng:real(10, 24), rng:real(120, 200)
      columns.live[i] = rng:pick {30, 40, 50}
      columns["cuts.1.at"][i] = rng:real(10, 100)
      columns["cuts.1.diameter"][i] = rng:real(0.5, 3.5)
      columns.size[i], columns.grade[i] = rng:pick {"2x8", "2x10", "2x12"},
        rng:pick {"No.1", "No.2"}
    end
    if not whole then columns.size, columns.grade = nil, nil end
    local s = ns.sweep {joist = j, points = columns, values = {"ratio", "action"}}
    lu.assertEquals(#s, whole and 40 or 200)
    for row in s:rows() do
      lu.assertEquals(row.span, columns.span[row.point])
      if not row.reason then
        same(j, row, whole and FIELDS or table.move(FIELDS, 1, 5, 1, {}))
      end
    end
  end
end

-- A cut at a third of each span, on axes and listed points both.
function T.test_functions_of_a_point()
  local j = joist()
  local s = ns.sweep {joist = j, over = {spacing = {12, 16}, size = {"2x10", "2x12"}},
    points = {span = {"12-0", "13-6", 168}, ["cuts.1.at"] = function(p)
      return p.span / 3
    end}, values = {"ratio", "action"}}
  lu.assertEquals(#s, 12)
  local count = 0
  for row in s:rows() do
    lu.assertEquals(row["cuts.1.at"], row.span / 3)
    same(j, row, {"spacing", "size", "span", "cuts.1.at"})
    count = count + 1
  end
  lu.assertEquals(count, 12)
  local at = s:at {spacing = 16, size = "2x10", point = 2}
  lu.assertTrue(at.ratio == j:with {["cuts.1.at"] = 54}:review().cut.ratio)
  lu.assertEquals(s:joist {spacing = 12, size = "2x12", point = 1}.model.cuts[1].at, 48)
  -- Without listed values: a function of the axes.
  local of_axes = ns.sweep {joist = j, over = {span = {144, 162}},
    points = {["cuts.1.at"] = function(p) return ("%d in"):format(p.span // 4) end}}
  lu.assertTrue(of_axes:at {span = 144}.ratio
    == j:with {span = 144, ["cuts.1.at"] = 36}:review().cut.ratio)
end

-- A tub on the floor's live load is read both ways, by functions of a point too: some
-- joists at a ratio under 1 are 'decide'.
function T.test_points_under_a_tub()
  local j = joist {cuts = {}, loads = {ns.tub {from = 60, to = 96, width = 32,
    empty = "300 lb", water = "500 lb", people = "350 lb"}}}
  local s = ns.sweep {joist = j, points = {dead = {6, 8, 10, 12, 14, 16, 18, 20},
    spacing = function(p) return 8 + p.dead / 6 end}, values = {"ratio", "action"}}
  local seen, by_tub = {}, 0
  for row in s:rows() do
    local r = j:with {dead = row.dead, spacing = row.spacing}:review()
    lu.assertEquals(row.action, r.action)
    lu.assertTrue(row.ratio == r.uncut.ratio)
    seen[row.action] = true
    if row.ratio < 1 and row.action == "decide" then by_tub = by_tub + 1 end
  end
  lu.assertTrue(seen.leave and by_tub > 0)
end

-- Repairs: their fields and their number of fasteners go with the point.
function T.test_points_of_a_repair()
  local severed = joist {cuts = {ns.sever {from = 72, to = 77}}}
  local fixed = severed:fix(ns.sister {from = 36, to = 113,
    fastener = ns.fastener {kind = "bolt", diameter = 0.5, length = 4},
    groups = {{at = 40, n = 4}, {at = 70, n = 4}, {at = 79, n = 4}, {at = 109, n = 4}}})
  local s = ns.sweep {joist = fixed, points = {["fix.from"] = {36, 32}, ["fix.to"] = {113,
    117}, spacing = {16, 14}}, values = {"fixed.ratio", "fixed.status"}}
  for i, changes in ipairs {{["fix.from"] = 36, ["fix.to"] = 113, spacing = 16},
    {["fix.from"] = 32, ["fix.to"] = 117, spacing = 14}} do
    local r = fixed:with(changes):review()
    lu.assertTrue(s:at {point = i}["fixed.ratio"] == r.fixed.ratio)
    lu.assertEquals(s:at {point = i}["fixed.status"], r.fixed.status)
  end
  -- One that is reviewed point by point.
  local strapped = joist {cuts = {ns.notch {face = "bottom", from = 72, to = 75,
    depth = 1.5}}}:fix(ns.midspan_support {})
  local m = ns.sweep {joist = strapped, points = {spacing = {16, 19.2}, dead = {12, 15}},
    values = {"fixed.ratio"}}
  for i, changes in ipairs {{spacing = 16, dead = 12}, {spacing = 19.2, dead = 15}} do
    lu.assertTrue(m:at {point = i}["fixed.ratio"]
      == strapped:with(changes):review().fixed.ratio)
  end
end

local function lines_of(path)
  local list = {}
  for line in io.lines(path) do list[#list + 1] = (line:gsub("\r$", "")) end
  return list
end

-- Points of a file, and a file of points: the bits go through; shards join to the whole.
function T.test_files()
  local given, out = os.tmpname(), os.tmpname()
  assert(ns.write(given, "span,cuts.1.at,grade\r\n144,48,No.1\r\n"
    .. "\"13'-6\"\"\",54,No.2\r\n168,56,No.2\r\n"))
  local j = joist()
  local function swept(shard)
    return ns.sweep {joist = j, points = given, over = {spacing = {12, 16}},
      values = {"ratio"}, shard = shard}
  end
  assert(swept():csv(out))
  local whole = lines_of(out)
  lu.assertEquals(whole[1], "cuts.1.at,grade,span,spacing,ratio,reason")
  lu.assertStrContains(whole[2], "48,No.1,144,12,")
  local row = swept():at {point = 2, spacing = 16}
  lu.assertTrue(row.ratio == j:with {span = 162, ["cuts.1.at"] = 54}:review().cut.ratio)
  local joined = {}
  for i = 1, 3 do
    assert(swept({i, 3}):csv(out))
    table.move(lines_of(out), i == 1 and 1 or 2, 3, #joined + 1, joined)
  end
  lu.assertEquals(joined, whole)
  -- Listed numbers and a function's, in a stream of their own.
  local s = ns.sweep {joist = j, points = {span = {144, 150.1, 168},
    ["cuts.1.at"] = function(p) return p.span / 3 end}, values = {"ratio"}}
  assert(s:csv(out))
  local lines = lines_of(out)
  lu.assertEquals(lines[1], "span,cuts.1.at,ratio,reason")
  for i = 1, 3 do
    local span, at, ratio = lines[i + 1]:match "^([^,]*),([^,]*),([^,]*),"
    local want = s:at {point = i}
    lu.assertEquals(tonumber(span), ({144, 150.1, 168})[i])
    lu.assertEquals(tonumber(at), tonumber(span) / 3)
    lu.assertTrue(tonumber(ratio) == want.ratio)
  end
  os.remove(given)
  os.remove(out)
end

function T.test_the_same_on_any_number_of_threads()
  local columns, rng = {span = {}, spacing = {}}, support.random(8)
  for i = 1, 500 do columns.span[i], columns.spacing[i] = rng:real(100, 200), 16 end
  local function worked(threads)
    local s = ns.sweep {joist = joist(), points = columns, values = {"ratio"},
      threads = threads}
    local list = {}
    for i = 1, 500 do list[i] = s:column "ratio"[i] end
    return list
  end
  lu.assertEquals(worked(1), worked(4))
end

function T.test_misuse_is_named()
  local j = joist()
  local function wrong(piece, t)
    t.joist = j
    raises(piece, ns.sweep, t)
  end
  wrong("over: a table of axes expected", {})
  wrong("points: a table of 1 to 32 columns", {points = {}})
  wrong("points: a table of 1 to 32 columns", {points = 3})
  wrong("points.span: a list of values", {points = {span = 162}})
  wrong("points.spacing: 2 values, but 1 of",
    {points = {dead = {12}, spacing = {12, 16}}})
  wrong("points.span: an axis of over", {over = {span = {144}}, points = {span = {144}}})
  wrong("points.span: value 2: ", {points = {span = {144, "13-14"}}})
  wrong("value 1: a finite number", {points = {span = {0 / 0}}})
  wrong("/nowhere/points.csv: ", {points = "/nowhere/points.csv"})
  wrong("this field makes joists of their own",
    {points = {span = {144}, size = function() return "2x8" end}})
  wrong("points.cuts.1.at: a number expected of the function", {over = {span = {144}},
    points = {["cuts.1.at"] = function() return nil end}})
  wrong("unknown field 'halo'", {points = {halo = {1}}})
  local s = ns.sweep {joist = j, points = {span = {144, 162}}}
  raises("point: a number from 1 to 2", s.at, s, {point = 3})
end

return T
