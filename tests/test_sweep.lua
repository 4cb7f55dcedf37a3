-- SPDX-License-Identifier: MIT
-- Sweeps: worked scenarios, points beside single reviews bit for bit, threads, shards,
-- rows with reasons, files that are whole or not there.
local lu = require "luaunit"
local ns = require "netsection"
local ordered = require "netsection.point".pairs
local random_joist = require "tests.random_joist"
local support = require "tests.support"
local values = require "netsection.sweep.values"
local system = require "tests.system"

local close_abs, joist, raises = support.close_abs, support.joist, support.raises

local T = {}

local function drilled()
  return joist {cuts = {ns.hole {at = "5-2", diameter = 4, below = 1.5}}}
end

--------------------------------------------------------------------- a worked scenario

-- Spacing and span beside each other, the hole held at 5-2. By hand: uncut bending is
-- w L^2 / 8 over F'b S with Cr 1.15 (NDS 4.3.9), w = 52 psf times the spacing; at the
-- hole M(62 in) on S_b = 14.146 in3 (two rectangles about their own axis) without Cr.
function T.test_spacing_and_span_by_hand()
  local s = ns.sweep {joist = drilled(), values = {"uncut.bending", "cut.net-bending.1"},
    over = {span = ns.steps("12-0", "16-0", "0-6"), spacing = {12, 16, 19.2, 24}}}
  lu.assertEquals(#s, 36)
  local S, S_b = 1.5 * 9.25 ^ 2 / 6, 14.146
  for row in s:rows() do
    local w = 52 * row.spacing / 144 / 1
    local L, Cr = row.span, row.spacing <= 24 and 1.15 or 1
    close_abs(row["uncut.bending"], w * L ^ 2 / 8 / (900 * 1.1 * Cr * S) / 1, 1e-9,
      "uncut")
    close_abs(row["cut.net-bending.1"], w * 62 * (L - 62) / 2 / (990 * S_b), 2e-4, "hole")
  end
  local at16 = {1.05, 1.13, 1.20, 1.28, 1.36, 1.43, 1.51, 1.59, 1.66}
  for i, want in ipairs(at16) do
    local at = s:at {spacing = 16, span = 138 + 6 * i}
    close_abs(at["cut.net-bending.1"], want, 0.0051)
  end
end

-------------------------------------------------------- a point is the review, to the bit

local NAMES = {"ratio", "governing", "status", "action", "rules", "uncut.ratio",
  "uncut.governing", "cut.moment", "cut.moment.at", "cut.shear", "cut.shear.at",
  "deflection.live", "deflection.total", "cut.Cr", "reaction.1", "reaction.2.least",
  "uncut.reaction.1.dead", "bending", "uncut.shear.demand", "net-bending.capacity",
  "net-shear.at", "bearing.2"}

-- Compares every point of a sweep with the review of the joist that it stands for.
-- @return points with values, points with a reason and none
local function compare(t)
  t.progress = false
  local s = ns.sweep(t)
  local worked, refused = 0, 0
  local last = (t.joist.repair or t.over.fix) and "fixed"
    or #t.joist.model.cuts > 0 and "cut" or "uncut"
  for row in s:rows() do
    local place = {}
    for _, axis in ipairs(s.axes) do place[axis.name] = row[axis.name] end
    local j = s:joist(place)
    if not j then
      refused = refused + 1
      lu.assertIsString(row.reason)
      for _, name in ipairs(s.names) do lu.assertNil(row[name], name) end
    else
      worked = worked + 1
      local r = j:review()
      for _, name in ipairs(s.names) do
        local want = values.of(r, assert(values.read(name, last)))
        if want ~= row[name] then
          lu.fail(("%s: %s, in the review %s"):format(name, lu.prettystr(row[name]),
            lu.prettystr(want)))
        end
      end
    end
  end
  return worked, refused
end

-- Some fifty points of a joist; NETSECTION_POINTS: so many in all, at least.
local JOISTS = math.max(40, (tonumber(os.getenv "NETSECTION_POINTS" or "") or 0) // 50)

-- In any order of the axes, on any number of threads.
function T.test_a_point_of_a_random_joist_is_its_review()
  local r, worked, refused = support.random(2401), 0, 0
  for _ = 1, JOISTS do
    local t = random_joist.of(r, {spans = r:int(1, 3)})
    local ok, j = pcall(ns.joist, t)
    if ok then
      local over = {live = {20, 40, r:real(0, 90)}, spacing = {12, 24, 30},
        creep = {1, 1.5}}
      if t.span then over.span = {r:real(60, 220), 100} end
      local cut = t.cuts and t.cuts[1]
      if cut and cut.depth then over["cuts.1.depth"] = {0.5, 2, 30} end
      if cut and cut.at then over["cuts.1.at"] = {r:real(10, 80), cut.at} end
      local order = {}
      for name in ordered(over) do
        table.insert(order, r:int(1, #order + 1), name)
      end
      local a, b = compare {joist = j, over = over, values = NAMES, order = order,
        threads = r:int(1, 2)}
      worked, refused = worked + a, refused + b
    end
  end
  lu.assertTrue(worked > 1000 and refused > 50, "too few of one sort")
end

function T.test_axes_that_make_joists_are_reviews_too()
  local j = joist {material = ns.none, species = "hem-fir", grade = "No.2", cuts = {
    ns.hole {at = "5-2", diameter = 2, below = 3},
    ns.notch {face = "top", from = 20, to = 23, depth = 1}}}
  local worked, refused = compare {joist = j, values = NAMES, over = {
    size = {"2x8", "2x10"}, grade = {"No.1", "Stud", "No.9"}, span = {100, 162, 20},
    ["cuts.2.face"] = {"top", "bottom"}, ["cuts.1.diameter"] = {2, 7},
    overhang_right = {0, 24}}}
  lu.assertTrue(worked > 20 and refused > 20)
end

local BOLT = ns.fastener {kind = "bolt", diameter = "1/2 in"}
local FIXED = {"ratio", "governing", "status", "action", "cut.ratio", "uncut.ratio",
  "deflection.live", "fastener.count", "piece.count"}

local function with(list, more)
  local out = table.move(list, 1, #list, 1, {})
  return table.move(more, 1, #more, #out + 1, out)
end

function T.test_repairs_on_lanes_are_their_reviews()
  local severed = joist {cuts = {ns.sever {from = "6-0", to = "6-5"}}}
  local fixed = severed:fix(ns.sister {from = "2-8", to = "10-0", fastener = BOLT,
    groups = {{at = "3-2", n = 8}, {at = "5-6", n = 8}, {at = "6-11", n = 8},
      {at = "9-6", n = 8}}})
  compare {joist = fixed, values = with(FIXED, {"host-bending", "fasteners",
    "connection-shear.demand", "station.1", "station.4.most", "share"}),
    over = {live = {10, 40}, spacing = {12, 24}, ["fix.to"] = {"10-0", "9-8"},
      ["fix.groups.1.n"] = {4, 8}, creep = {1, 2}}}
  local notched = joist {cuts = {ns.notch {face = "bottom", from = "6-0", to = "6-5",
    depth = 2}}}
  compare {joist = notched:fix(ns.sister {}), values = with(FIXED, {"share"}),
    over = {live = {10, 40}, dead = {10, 20}, ["fix.pitch"] = {6, 12, 100},
      ["fix.lift"] = {"none", "unloaded", ns.prop {force = 100}, ns.prop {force = 9e4}}}}
  compare {joist = notched:fix(ns.side_plates {from = "4-0", to = "8-0",
    thickness = "1/4 in", steel = "A36", fastener = BOLT}), values = FIXED,
    over = {live = {10, 40}, ["fix.depth"] = {7, 9, 12}}}
end

function T.test_other_repairs_are_their_reviews()
  local notched = joist {cuts = {ns.notch {face = "bottom", from = "6-0", to = "6-5",
    depth = 2}}}
  compare {joist = notched:fix(ns.strap {width = 1.5}), over = {live = {20, 40},
    ["fix.n"] = {4, 10}}, values = with(FIXED, {"tension", "arm", "steel.demand"})}
  compare {joist = notched:fix(ns.midspan_support {}), values = FIXED,
    over = {live = {20, 40}, span = {"12-0", "14-0"}}}
  local worked = compare {joist = notched, values = FIXED, over = {spacing = {12, 16},
    fix = {false, ns.sister {}, ns.strap {}, ns.added_joist {}}}}
  lu.assertEquals(worked, 8)
end

----------------------------------------------------------------- threads, shards, pieces

local function over_four()
  local over = {live = {}, dead = {}, span = {}, spacing = {12, 16, 19.2, 24, 97}}
  for i = 1, 12 do
    over.live[i], over.dead[i], over.span[i] = 10 + 4 * i, 8 + i, 90 + 7.3 * i
  end
  return over
end

local NUMBERS = {"ratio", "governing", "uncut.deflection.live"}

local function text_of(t)
  t.joist, t.over, t.values = t.joist or drilled(), t.over or over_four(), NUMBERS
  t.progress = false
  local path = os.tmpname()
  assert(ns.sweep(t):csv(path))
  local file <close> = assert(io.open(path, "rb"))
  os.remove(path)
  return (file:read "a")
end

function T.test_threads_give_the_same_bytes()
  local one = text_of {threads = 1}
  lu.assertEquals(select(2, one:gsub("\r\n", "")), 12 * 12 * 12 * 5 + 1)
  for _, n in ipairs {2, 3, 7} do lu.assertEquals(text_of {threads = n}, one) end
end

function T.test_shards_are_the_whole_in_order()
  local whole, parts = text_of {}, {}
  for i = 1, 4 do
    local part = text_of {shard = {i, 4}}
    parts[i] = i == 1 and part or part:gsub("^.-\r\n", "", 1)
  end
  lu.assertEquals(table.concat(parts), whole)
end

function T.test_a_stream_is_the_columns()
  local path = os.tmpname()
  local s = ns.sweep {joist = drilled(), over = over_four(), values = NUMBERS,
    progress = false}
  local _ = s:column "ratio"
  assert(s:csv(path))
  local file <close> = assert(io.open(path, "rb"))
  os.remove(path)
  lu.assertEquals(file:read "a", text_of {})
end

-- What a stream of points keeps does not grow with their number.
function T.test_a_stream_takes_the_same_room()
  local function most(count)
    local live, dead = {}, {}
    for i = 1, 4000 do live[i] = 10 + i / 100 end
    for i = 1, count do dead[i] = 5 + i / 10 end
    local high = 0
    local s = ns.sweep {joist = drilled(), over = {live = live, dead = dead},
      values = {"ratio"}, threads = 1, progress = function()
        collectgarbage()
        high = math.max(high, collectgarbage "count")
      end}
    collectgarbage()
    collectgarbage()
    local before = collectgarbage "count"
    local path = os.tmpname()
    assert(s:csv(path))
    os.remove(path)
    return high > 0 and high - before -- nobody is asked in a run of a tenth of a second
  end
  local count, little = 10
  repeat
    count = 2 * count
    little = most(count)
  until little
  lu.assertTrue(most(3 * count) < little + 300, "three times the points take more room")
end

function T.test_columns_have_a_limit()
  local many = {}
  for i = 1, 20000 do many[i] = 10 + i / 1000 end
  local s = ns.sweep {joist = drilled(), over = {live = many, dead = many,
    span = {100, 120, 140}}, values = {"ratio"}, progress = false}
  lu.assertEquals(#s, 1200000000)
  raises("1200000000 points and 1 values need 13.4 GB in columns, 1.0 GB at most",
    s.column, s, "ratio")
  raises("raise memory", s.column, s, "ratio")
  local at = s:at {live = 30, dead = 20, span = 120}
  lu.assertEquals(at.ratio, drilled():with {live = 30, dead = 20, span = 120}
    :review().cut.ratio)
  local n = 0
  for row in s:rows() do
    n = n + 1
    lu.assertEquals(row.live, many[1])
    if n == 3 then break end
  end
end

-------------------------------------------------------------------- spans that are sought

-- Bending: L = sqrt(8 F'b S / w) (NDS 3.3.2); live deflection, from 5 w L^4 / 384 E I =
-- L/360: L = (384 E I / 1800 w_L)^(1/3); the less of the two.
function T.test_the_longest_span_of_every_point()
  local s = ns.sweep {joist = joist {limits = {live = 360, total = false}},
    over = {spacing = {12, 16, 24}, live = {30, 40}, size = {"2x6", "2x10"}},
    values = {"longest_span", "longest_span.governing", "longest_span.bending"}}
  local deep = {["2x6"] = 5.5, ["2x10"] = 9.25}
  for row in s:rows() do
    local d = deep[row.size]
    local w_L, w = row.live * row.spacing / 144, (row.live + 12) * row.spacing / 144
    local bending = math.sqrt(8 * 900 * 1.1 * 1.15 * 1.5 * d ^ 2 / 6 / w)
    local sag = (384 * 1.6e6 * 1.5 * d ^ 3 / 12 / 1800 / w_L) ^ (1 / 3)
    close_abs(row["longest_span.bending"], bending, 1e-6)
    close_abs(row.longest_span, math.min(bending, sag), 1e-6)
    lu.assertEquals(row["longest_span.governing"], bending < sag and "bending"
      or "deflection-live")
    close_abs(row.longest_span, joist {limits = {live = 360, total = false},
      size = row.size, spacing = row.spacing, live = row.live}:longest_span(), 2e-9)
  end
  raises("no axis", ns.sweep, {joist = joist(), over = {span = {100}},
    values = {"longest_span"}})
  raises("no span is sought with a repair", ns.sweep, {over = {live = {10}},
    joist = drilled():fix(ns.sister {}), values = {"longest_span"}})
end

------------------------------------------------------------------------------- the rows

function T.test_rows_extremes_and_places()
  local s = ns.sweep {joist = drilled(), over = {span = {"12-0", "14-0"}, spacing = {12,
    16}, live = {"40 psf", 30}}, order = {"spacing", "live"}, values = {"ratio",
    "governing", "rules"}}
  lu.assertEquals({s.axes[1].name, s.axes[2].name, s.axes[3].name}, {"spacing", "live",
    "span"})
  lu.assertEquals(s.names, {"ratio", "governing", "rules"})
  local most, row = s:max "ratio"
  lu.assertEquals({row.spacing, row.live, row.span, row.ratio}, {16, 40, 168, most})
  local least, low = s:min "ratio"
  lu.assertEquals({low.spacing, low.live, low.span, low.ratio}, {12, 30, 144, least})
  lu.assertEquals(#s:where {span = "14-0"}, 4)
  lu.assertEquals(#s:where(function(x) return x.ratio > least end), 7)
  lu.assertEquals(s:column "governing"[1], s:at {span = "12-0", spacing = 12, live = 40}
    .governing)
  lu.assertEquals(#s:column "ratio", 8)
  lu.assertNil(s:column "ratio"[9])
  lu.assertNil(s:column "reason"[1])
  lu.assertEquals(s:at {span = "14-0", spacing = 16, live = 40}.ratio, most)
  raises("does not change", function() s.halo = 1 end)
end

function T.test_a_combination_that_makes_no_sense_is_a_row_with_a_reason()
  local s = ns.sweep {joist = drilled(), values = {"ratio", "action", "uncut.ratio"},
    over = {span = {"4-0", "13-6"}, ["cuts.1.diameter"] = {2, 9}, spacing = {16, 2}}}
  lu.assertStrContains(s:at {span = "4-0", spacing = 16, ["cuts.1.diameter"] = 2}.reason,
    "past the end")
  lu.assertStrContains(s:at {span = "13-6", spacing = 16, ["cuts.1.diameter"] = 9}.reason,
    "cut 1, ")
  lu.assertEquals(s:at {span = "13-6", spacing = 2, ["cuts.1.diameter"] = 2}.reason,
    "spacing: outside 4 to 96 in")
  local row = s:at {span = "13-6", spacing = 16, ["cuts.1.diameter"] = 2}
  lu.assertNil(row.reason)
  lu.assertIsNumber(row.ratio)
  local unknown = ns.sweep {joist = joist {material = ns.none}, values = {"action",
    "ratio"}, over = {species = {"hem-fir", "oak"}, grade = {"No.2"}}}
  lu.assertStrContains(unknown:at {species = "oak"}.reason, "oak")
  lu.assertEquals(unknown:at {species = "hem-fir"}.action, "leave")
  local made = ns.sweep {joist = joist(), over = {member = {"sawn", "I-joist"}},
    values = {"action", "ratio"}}
  lu.assertEquals(made:at {member = "I-joist"}.action, "refer")
  lu.assertStrContains(made:at {member = "I-joist"}.reason, "I-joist")
end

-- A repair that does not serve leaves the numbers of the joist as it is.
function T.test_a_refused_repair_is_a_reason_beside_numbers()
  local severed = joist {cuts = {ns.sever {from = "6-0", to = "6-5"}}}
  local s = ns.sweep {joist = severed:fix(ns.sister {from = "2-8", to = "10-0", fastener =
    BOLT}), over = {["fix.lift"] = {"none", "unloaded"}, live = {20, 40}},
    values = {"ratio", "status", "uncut.ratio", "cut.governing", "cut.ratio"}}
  local row = s:at {["fix.lift"] = "none", live = 40}
  lu.assertStrContains(row.reason, "shore it")
  lu.assertEquals({row.ratio, row.status, row["cut.governing"], row["cut.ratio"]},
    {nil, "not permitted", "sever"})
  lu.assertEquals(row["uncut.ratio"], severed:review().uncut.ratio)
end

function T.test_misuse_is_named()
  local function sweep(t)
    t.joist = t.joist == nil and drilled() or t.joist
    t.over = t.over or {span = {"12-0"}}
    return function() return ns.sweep(t) end
  end
  raises("joist: a joist", sweep {joist = {}})
  raises("unknown field 'halo'", sweep {halo = 1})
  raises("over: a table of axes", sweep {over = {}})
  raises("over.span: a list", sweep {over = {span = 12}})
  raises("over.span: value 2", sweep {over = {span = {"12-0", "13-14"}}})
  raises("no field 'cuts.2.at'", sweep {over = {["cuts.2.at"] = {1}}})
  raises("unknown field 'halo'", sweep {over = {halo = {1}}})
  raises("no repair", sweep {over = {["fix.n"] = {1}}})
  raises("values: no value 'halo'", sweep {values = {"halo"}})
  raises("values: a list of 1 to 32", sweep {values = {}})
  raises("twice", sweep {values = {"ratio", "ratio"}})
  raises("the joist has no repair", sweep {values = {"fixed.ratio"}})
  raises("the joist has no repair", sweep {values = {"tension"}})
  raises("order: no axis 'live'", sweep {order = {"live"}})
  raises("shard: {i, n}", sweep {shard = {5, 4}})
  raises("threads: 1 to 64", sweep {threads = 0})
  raises("rules: 'halo' is unknown", sweep {rules = "halo"})
  local s = ns.sweep {joist = drilled(), over = {span = {"12-0", "13-0"}}}
  raises("no axis 'live'", s.at, s, {live = 1})
  raises("span has no step 13", s.at, s, {span = 13})
  raises("axis span is missing", s.at, s, {})
  raises("a place", s.at, s, 3)
  raises("no value 'halo'", s.column, s, "halo")
  raises("is a word", s.max, s, "action")
  raises("where takes", s.where, s, 3)
  raises("a sweep expected", s.max, "ratio")
  local part = ns.sweep {joist = drilled(), over = {span = {"12-0", "13-0"}},
    shard = {2, 2}}
  raises("in another shard", part.at, part, {span = "12-0"})
end

--------------------------------------------------------------------------------- files

-- The interpreter that a user has, which takes Ctrl-C; a test host may not.
local function interpreter()
  local pipe <close> = assert(io.popen "sh .ci/deps lua 2>/dev/null")
  local found = pipe:read "l"
  return found and found ~= "" and found or arg[-1]
end

local function exists(path)
  local file <close> = io.open(path)
  return file ~= nil
end

function T.test_a_path_that_cannot_be_written()
  local s = ns.sweep {joist = drilled(), over = {span = {"12-0"}}}
  local ok, why = s:csv "no-such-folder/a.csv"
  lu.assertNil(ok)
  lu.assertStrContains(why, "cannot write no-such-folder/a.csv")
end

-- Runs a script in a child, with a shell's words before and after it.
local function child(before, after, script)
  local path, out = os.tmpname(), os.tmpname()
  os.remove(out)
  local file = assert(io.open(path, "w"))
  file:write(([[
local ns = require "netsection"
local out = %q
local live, dead = {}, {}
for i = 1, 3200 do live[i], dead[i] = 10 + i / 100, 5 + i / 200 end
local s = ns.sweep {joist = ns.joist {size = "2x10", species = "hem-fir", grade = "No.2",
  span = 150, spacing = 16, dead = 12, live = 40}, over = {live = live, dead = dead},
  values = {"ratio"}}
]]):format(out) .. script)
  file:close()
  local pipe = assert(io.popen(("%s '%s' '%s' %s 2>&1"):format(before, interpreter(),
    path, after)))
  local said = pipe:read "a"
  pipe:close()
  os.remove(path)
  return said, out
end

-- A limit on the length of files stands for a full disk.
function T.test_a_full_disk_leaves_nothing_behind()
  system.unix "limits and signals of its shell"
  local said, out = child("trap '' XFSZ; ulimit -f 16; ", "",
    "print(s:csv(out))")
  lu.assertStrContains(said, "cannot write " .. out)
  lu.assertFalse(exists(out))
  lu.assertFalse(exists(out .. ".part"))
end

-- Ten million points, interrupted as by Ctrl-C; then some of them, whole.
function T.test_an_interruption_leaves_nothing_behind()
  system.unix "limits and signals of its shell"
  local begun = os.tmpname()
  os.remove(begun)
  local said, out = child("", ("& pid=$!; until [ -e %s ]; do sleep 0.1; done; "
    .. "sleep 0.2; kill -INT $pid; wait $pid"):format(begun), ([[
print(#s)
io.stdout:flush()
assert(io.open("%s", "w")):close()
]]):format(begun) .. [[
print(pcall(s.csv, s, out))
live[100], dead[100] = nil, nil
for i = 101, 3200 do live[i], dead[i] = nil, nil end
local again = ns.sweep {joist = ns.joist {size = "2x10", species = "hem-fir",
  grade = "No.2", span = 150, spacing = 16, dead = 12, live = 40},
  over = {live = live, dead = dead}, values = {"ratio"}}
print(again:csv(out), #again)
]])
  os.remove(begun)
  lu.assertStrContains(said, "10240000")
  lu.assertStrContains(said, "interrupted")
  lu.assertTrue(exists(out) == (said:find "true\t9801" ~= nil), said)
  lu.assertFalse(exists(out .. ".part"))
  os.remove(out)
end

function T.test_progress_is_told_and_can_stop()
  local over = {live = {}, dead = {}}
  for i = 1, 1000 do over.live[i], over.dead[i] = 10 + i / 25, 5 + i / 50 end
  local told, whole = 0, nil
  local s = ns.sweep {joist = drilled(), over = over, values = {"ratio"},
    progress = function(done, all)
      told, whole = done, all
      return false
    end}
  local ok, why = pcall(s.max, s, "ratio")
  if whole then -- a machine that needs less than a tenth of a second is never asked
    lu.assertFalse(ok)
    -- pieces that were done before it was asked count, the one it ended does not
    local done = tonumber(why:match "stopped after (%d+) of 1000000 points")
    lu.assertTrue(done and done <= told and told > 0 and told < 1000000, why)
  end
  local broken = ns.sweep {joist = drilled(), over = over, values = {"ratio"},
    progress = function() error "from the progress" end}
  local fine, text = pcall(broken.max, broken, "ratio")
  if not fine then lu.assertStrContains(tostring(text), "from the progress") end
end

-------------------------------------------------------------- what cannot be an axis

function T.test_no_value_of_an_axis_is_infinite_or_no_number()
  for _, name in ipairs {"span", "b", "overhang_left", "material.Fb", "members"} do
    for _, value in ipairs {0 / 0, 1 / 0, -1 / 0} do
      raises(("over.%s: value 2: a finite number expected"):format(name), ns.sweep,
        {joist = drilled(), over = {[name] = {60, value}}})
    end
  end
  raises("over.limits.live: value 1: a finite number expected, got x, or false", ns.sweep,
    {joist = drilled(), over = {["limits.live"] = {"x"}}})
  raises("Fb: a finite number expected, got inf", ns.joist, {size = "2x10", span = 150,
    material = {Fb = 1 / 0, Fv = 180, E = 1.6e6}, spacing = 16, dead = 12, live = 40})
end

function T.test_a_field_that_no_cut_has_is_no_axis()
  raises("no field 'cuts.1.depth' (a hole takes", ns.sweep, {joist = drilled(),
    over = {["cuts.1.depth"] = {1}}})
  local j = drilled()
  raises("no field 'cuts.1.halo'", j.with, j, {["cuts.1.halo"] = 3})
  lu.assertEquals(j:with({["cuts.1.diameter"] = 3}).model.cuts[1].diameter, 3)
end

-- A joist of a point says no to what the row says no to, in the words of a description.
function T.test_reasons_are_those_of_the_joist()
  for _, case in ipairs {{"limits.live", 10, "limits.live: a number from 50 to 2000"},
    {"plies", 1.5, "plies: a whole number"}, {"members", 2.5, "members: a whole number"},
    {"creep", 3.5, "creep: outside 1 to 3"}} do
    local name, value, says = table.unpack(case)
    local s = ns.sweep {joist = drilled(), over = {[name] = {value}}}
    local reason = s:at({[name] = value}).reason
    lu.assertStrContains(reason, says)
    lu.assertNil(reason:find " $")
    lu.assertNil((s:joist {[name] = value}))
  end
  local s = ns.sweep {joist = drilled(), over = {["limits.live"] = {false, 360}}}
  lu.assertNil(s:at({["limits.live"] = false}).reason)
end

function T.test_a_cut_or_support_that_is_not_there()
  local function of(value) return {joist = drilled(), over = {live = {40}},
    values = {value}} end
  raises("'cuts.2.moment': the joist has 1 cuts", ns.sweep, of "cuts.2.moment")
  raises("'reaction.3': the joist has 2 supports", ns.sweep, of "reaction.3")
  local s = ns.sweep {joist = joist(), values = {"reaction.3"},
    over = {spans = {{"10-0"}, {"10-0", "10-0"}}}}
  local list = {}
  for row in s:rows() do list[#list + 1] = row end
  lu.assertEquals({list[1].spans, list[2].spans}, {"10-0", "10-0, 10-0"})
  lu.assertNil(list[1]["reaction.3"])
  -- Live load on the last span alone: 7/16 w L of it, 3/8 w L of the dead load.
  close_abs(list[2]["reaction.3"], (3 / 8 * 16 + 7 / 16 * 40 * 16 / 12) * 10, 1e-6)
end

-- The pieces of a stream are short; the whole is not.
function T.test_a_stream_tells_its_progress_and_can_stop()
  local live, dead = {}, {}
  for i = 1, 4000 do live[i], dead[i] = 10 + i / 100, 5 + i / 100 end
  local path, told = os.tmpname(), nil
  os.remove(path)
  local s = ns.sweep {joist = drilled(), over = {live = live, dead = dead},
    values = {"ratio"}, progress = function(done, all)
      told = {done, all}
      return false
    end}
  local ok, why = pcall(s.csv, s, path)
  lu.assertFalse(ok)
  lu.assertStrContains(why, "stopped after")
  lu.assertTrue(told[1] > 0 and told[1] < told[2])
  lu.assertEquals(told[2], 16000000)
  lu.assertFalse(exists(path))
  lu.assertFalse(exists(path .. ".part"))
end

function T.test_steps_that_are_too_many()
  raises("steps: at most 1000000 values", ns.steps, 0, 1e9, 0.001)
  lu.assertEquals(#ns.steps("3 m", "4 m", "100 mm"), 11)
end

return T
