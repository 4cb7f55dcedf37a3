-- SPDX-License-Identifier: MIT
-- Columns of the core by themselves: sums, bins, order statistics and lanes of small
-- columns by hand, and every argument that is out of its range refused by its words.
local core = require "netsection.core"
local lu = require "luaunit"
local support = require "tests.support"

local T = {}
local raises = support.raises
local NAN = 0 / 0

local function column(...) return core.numbers {...} end

local function list(c)
  local t = {}
  for i = 1, #c do t[i] = c[i] end
  return t
end

function T.test_moments()
  -- 1, 2 and 4 off 2: -1, 0, 2, whose squares sum up to 5
  local c = column(1, 2, NAN, 4)
  lu.assertEquals({core.moments(c, 4, 2, 10, 100.0, 1000.0)}, {13, 101.0, 1005.0})
  lu.assertEquals({core.moments(c, 0, 2, 0, 0.0, 0.0)}, {0, 0.0, 0.0})
  for _, n in ipairs {5, -1} do raises("too many", core.moments, c, n, 0, 0, 0, 0) end
  raises("number expected", core.moments, c, 1, "x", 0, 0, 0)
  raises("integer", core.moments, c, 1.5, 0, 0, 0, 0)
end

function T.test_bins()
  local counts = column(0, 0, 0)
  -- of 0 to 3 in three: 0, 0.5 | 1 | 2, 3; -0.1 below, 3.1 above, NaN not at all
  local c = column(0, 0.5, 1, 2, 3, -0.1, 3.1, NAN)
  lu.assertEquals({core.bins(c, 8, 0, 3, counts)}, {1, 1})
  lu.assertEquals(list(counts), {2, 1, 2})
  raises("too many", core.bins, c, 9, 0, 3, counts)
  raises("too many", core.bins, c, -1, 0, 3, counts)
  raises("above low", core.bins, c, 8, 3, 3, counts)
  raises("above low", core.bins, c, 8, NAN, 3, counts)
end

-- The first bit of a key tells the sign: 0 of those below nil.
function T.test_tallies_and_picks()
  local c, two = column(-5, 7, -0.5, 1e300, NAN, 2), column(0, 0)
  core.tally(c, 6, 0, 0, 1, two)
  lu.assertEquals(list(two), {2, 3})
  core.tally(c, 2, 0, 0, 1, two)
  lu.assertEquals(list(two), {3, 4})
  local four = column(0, 0, 0, 0)
  core.tally(c, 6, 1, 1, 2, four) -- the next two bits of those above nil
  lu.assertEquals(four[1] + four[2] + four[3] + four[4], 3)
  for _, bad in ipairs {{-1, 1}, {0, 0}, {0, 25}, {64, 1}} do
    raises("64 bits at most", core.tally, c, 6, 0, bad[1], bad[2], two)
  end
  raises("a count for each", core.tally, c, 6, 0, 0, 2, two)
  raises("too many", core.tally, c, 7, 0, 0, 1, two)
  raises("too many", core.tally, c, -1, 0, 0, 1, two)
  local to = column(0, 0, 0)
  lu.assertEquals(core.picked(c, 6, 1, 1, to, 0), 3)
  lu.assertEquals(list(to), {7, 1e300, 2})
  lu.assertEquals(core.picked(c, 6, 0, 1, to, 1), 3)
  lu.assertEquals(list(to), {7, -5, -0.5})
  raises("more than were counted", core.picked, c, 6, 1, 1, to, 1)
  raises("too many", core.picked, c, 7, 1, 1, to, 0)
  raises("too many", core.picked, c, -1, 1, 1, to, 0)
  for _, bits in ipairs {-1, 65} do
    raises("64 bits at most", core.picked, c, 6, 1, bits, to, 0)
  end
  raises("0 or more", core.picked, c, 6, 1, 1, to, -1)
end

function T.test_groups_and_keys()
  local counts = column(0, 2, 0, 3)
  lu.assertEquals({core.group(counts, 0)}, {1, 2, 0})
  lu.assertEquals({core.group(counts, 1)}, {1, 2, 1})
  lu.assertEquals({core.group(counts, 4)}, {3, 3, 2})
  raises("fewer numbers", core.group, counts, 5)
  raises("0 or more", core.group, counts, -1)
  lu.assertEquals(core.counted(counts), {1, 2, 3, 3})
  local c = column(3, -1, 2, -1)
  core.sort(c)
  lu.assertEquals(list(c), {-1, -1, 2, 3})
  -- IEEE 754: 1.0 is 0x3FF0..., above nil with its sign turned
  lu.assertEquals(core.key_number(0x3FF0000000000000 | math.mininteger), 1.0)
  lu.assertEquals(core.key_number(~(0x3FF0000000000000 | math.mininteger)), -1.0)
end

function T.test_axes_and_bytes()
  local to = column(0, 0, 0, 0, 0)
  core.spread(column(7, 8, 9), 2, 1, 5, to)
  lu.assertEquals(list(to), {7, 8, 8, 9, 9})
  for _, bad in ipairs {{0, 1, 5}, {-1, 1, 5}, {1, -1, 5}} do
    raises("1 or more", core.spread, column(7), bad[1], bad[2], bad[3], to)
  end
  for _, n in ipairs {6, -1} do
    raises("too many", core.spread, column(7), 1, 0, n, to)
  end
  -- CRC-32 of "123456789", its check value
  lu.assertEquals(core.crc32 "123456789", 0xCBF43926)
  lu.assertEquals(core.crc32("6789", core.crc32 "12345"), 0xCBF43926)
  local f <close> = assert(io.tmpfile())
  lu.assertEquals(core.write_numbers(f, column(1, -2.5), 2, 0),
    core.crc32(string.pack("<dd", 1, -2.5)))
  f:seek "set"
  lu.assertEquals(f:read "a", string.pack("<dd", 1, -2.5))
  for _, n in ipairs {3, -1} do
    raises("too many", core.write_numbers, f, column(1, 2), n, 0)
  end
  local shut = assert(io.tmpfile())
  shut:close()
  raises("an open file", core.write_numbers, shut, column(1), 1, 0)
  local full = io.open("/dev/full", "wb")
  if not full then return end
  full:setvbuf "no"
  local ok, why = core.write_numbers(full, column(1, 2), 2, 0)
  lu.assertNil(ok)
  lu.assertStrContains(why, "No space")
  full:close()
end

function T.test_lanes()
  local axis = column(10, 20, 30)
  local a = core.lanes(axis, 1, 5, 2) -- of 10 10 20 20 30 30 10 ... from the second
  local function of(c)
    local t = {}
    for i = 1, 5 do t[i] = core.lane(c, i) end
    return t
  end
  lu.assertEquals(of(a), {10, 20, 20, 30, 30})
  lu.assertEquals(of(core.numbered(5)), {0, 1, 2, 3, 4})
  lu.assertEquals(of(-core.numbered(5)), {-0.0, -1, -2, -3, -4})
  lu.assertEquals(of(core.chosen(core.numbered(5), a, 7)), {7, 20, 20, 30, 30})
  lu.assertEquals(core.chosen(1, 2, 3), 2)
  lu.assertEquals(core.chosen(0, 2, 3), 3)
  lu.assertEquals({core.rounded_up(1.2), core.rounded_down(1.8)}, {2, 1})
  lu.assertEquals(of(core.rounded_up(core.numbered(5) / 2)), {0, 1, 1, 2, 2})
  lu.assertEquals(core.same(3), 3)
  lu.assertEquals(core.same(core.numbered(1)), 0)
  lu.assertEquals({core.highest(a), core.highest(4)}, {30, 4})
  local parts = core.parted(a, core.numbered(5), false)
  lu.assertEquals(type(parts) == "number" and parts or core.lane(parts, 1), 10)
  lu.assertEquals({core.worst {{ratio = 0.5, binding = true}, {ratio = 0.9, binding =
    false}, {ratio = 0.7, binding = true}, {binding = true}, {ratio = 2}}}, {0.7, 3})
  local r, n = core.worst {{ratio = core.numbered(5), binding = true},
    {ratio = 2.5, binding = true}}
  lu.assertEquals({of(r), of(n)}, {{2.5, 2.5, 2.5, 3, 4}, {2, 2, 2, 1, 1}})
  lu.assertEquals({core.worst {}}, {0, 0})
  local by = core.by_number({{x = 5}, {x = core.numbered(5)}, {}}, core.numbered(5), "x")
  local shown = of(by)
  lu.assertEquals({shown[2], shown[3]}, {5, 2})
  lu.assertTrue(shown[1] ~= shown[1] and shown[4] ~= shown[4])
end

function T.test_lanes_that_do_not_go_together()
  local a, b = core.numbered(5), core.numbered(4)
  raises("columns of 5 and 4", function() return a + b end)
  raises("columns of 5 and 4", function() return a < b end)
  raises("columns of 5 and 4", core.chosen, 1, a, b)
  raises("as many lanes", core.parted, a, b, true)
  raises("other lanes", core.worst, {{ratio = a, binding = true}, {ratio = b,
    binding = true}})
  raises("other lanes", core.worst, {{ratio = a, binding = b}})
  for _, n in ipairs {0, -1, (1 << 24) + 1} do
    raises("a count of lanes", core.numbered, n)
    raises("a count of lanes", core.lanes, column(1), 0, n, 1)
  end
  raises("a point", core.lanes, column(1), -1, 1, 1)
  raises("1 or more", core.lanes, column(1), 0, 1, 0)
  -- a comparison that differs from lane to lane raises its answers, as a column
  for _, f in ipairs {function() return a < 2 end, function() return a <= 2 end,
    function() return a == a / 2 end} do
    local ok, answers = pcall(f)
    lu.assertFalse(ok)
    lu.assertEquals({core.lane(answers, 1), core.lane(answers, 5)}, {1, 0})
  end
  lu.assertTrue(a < 5 and a <= 4 and a == a + 0)
  lu.assertFalse(a < 0)
end

return T
