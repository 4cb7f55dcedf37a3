-- SPDX-License-Identifier: MIT
-- Sums, counts and quantiles of a sweep in a room that does not grow, beside the same
-- from a plain list of its rows; files that are filtered, piped and described.
local core = require "netsection.core"
local dkjson = require "dkjson"
local lu = require "luaunit"
local ns = require "netsection"
local stream = require "netsection.sweep.stream"
local support = require "tests.support"
local npz = require "netsection.sweep.npz"
local zip = require "netsection.zip"
local system = require "tests.system"

local close, raises = support.close, support.raises

local T = {}

local joist = ns.joist {mark = "J3", size = "2x10", species = "douglas fir-larch",
  grade = "No.2", span = "13-6", spacing = 16, bearing = 3.5, members = 9, dead = 12,
  live = 40, cuts = {ns.hole {at = "5-2", diameter = 3, below = 2.25, note = "drain"}}}

-- Columns of at most 'memory' bytes: few enough, and every answer is a stream.
local function sweep(memory)
  return ns.sweep {joist = joist, over = {span = ns.steps("10-0", "16-0", "6 in"),
    spacing = ns.steps("12 in", "24 in", "1 in"), ["cuts.1.diameter"] =
      ns.steps("1 in", "8 in", "1/4 in")}, values = {"ratio", "action", "governing"},
    memory = memory}
end

-- Plain lists of the rows that have numbers.
local function listed(s)
  local ratios, actions, none = {}, {}, 0
  for row in s:rows() do
    if row.ratio then ratios[#ratios + 1] = row.ratio else none = none + 1 end
    if row.action then actions[row.action] = (actions[row.action] or 0) + 1 end
  end
  return ratios, actions, none
end

function T.test_streams_beside_plain_lists()
  local ratios, actions, none = listed(sweep())
  lu.assertTrue(none > 0 and #ratios > 1000)
  local sum, square = 0, 0
  for _, x in ipairs(ratios) do sum = sum + x end
  local mean = sum / #ratios
  for _, x in ipairs(ratios) do square = square + (x - mean) ^ 2 end
  table.sort(ratios)
  local answers = {}
  for i, memory in ipairs {1 << 30, 100} do
    local s = sweep(memory)
    local got, deviation, n = s:mean "ratio"
    close(got, mean, 1e-12)
    close(deviation, math.sqrt(square / (#ratios - 1)), 1e-9)
    lu.assertEquals({n, s:count "ratio", s:count "action"}, {#ratios, #ratios, actions})
    local most, row = s:max "ratio"
    lu.assertEquals({most, row.ratio, (s:min "ratio")}, {ratios[#ratios], ratios[#ratios],
      ratios[1]})
    lu.assertTrue(s:joist {span = row.span, spacing = row.spacing,
      ["cuts.1.diameter"] = row["cuts.1.diameter"]}:review().cut.ratio == most)
    local parts = {0, 0.05, 0.25, 0.5, 0.95, 1}
    local q = s:quantiles("ratio", parts)
    for k, p in ipairs(parts) do
      local place = p * (#ratios - 1)
      local low = math.floor(place)
      local x = ratios[low + 1]
      if place > low then x = x + (place - low) * (ratios[low + 2] - x) end
      lu.assertEquals(q[k], x)
    end
    local h = s:histogram("ratio", {from = 0.5, to = 1.25, bins = 6})
    local expected = {low = 0.5, high = 1.25, under = 0, over = 0, 0, 0, 0, 0, 0, 0}
    for _, x in ipairs(ratios) do
      if x < 0.5 then expected.under = expected.under + 1
      elseif x > 1.25 then expected.over = expected.over + 1
      else
        local k = math.min(math.floor((x - 0.5) / 0.75 * 6) + 1, 6)
        expected[k] = expected[k] + 1
      end
    end
    lu.assertEquals(h, expected)
    answers[i] = {got, deviation, q, h}
  end
  lu.assertEquals(answers[1], answers[2]) -- the same bits either way
end

-- Numbers of all signs and sizes in pieces: ranks are exact even where the first bits of
-- most are one, so that they are counted again by more bits.
function T.test_quantiles_are_exact()
  local rng = support.random(4)
  local pieces, all = {}, {}
  local function add(n, make)
    local list = {}
    for i = 1, n do
      list[i] = make(i)
      all[#all + 1] = list[i]
    end
    pieces[#pieces + 1] = core.numbers(list)
  end
  add(1000, function() return rng:real(-1, 1) * 10 ^ rng:int(-300, 300) end)
  add(700, function(i) return i % 3 - 1 end)
  add(1500, function() return 1 + rng:int(0, 40) * 0x1p-52 end)
  local function each(take)
    for i, column in ipairs(pieces) do take(i, #column, column) end
  end
  table.sort(all)
  local parts = {}
  for k = 0, 22 do parts[k + 1] = k / 22 end
  for _, few in ipairs {1 << 21, 50, 1} do
    local got, n = stream.quantiles(each, parts, few)
    lu.assertEquals(n, 3200)
    for k, p in ipairs(parts) do
      local place = p * 3199
      local low = math.floor(place)
      local x, y = all[low + 1], all[math.min(low + 2, 3200)]
      lu.assertEquals(got[k], x + (place - low) * (y - x))
    end
  end
end

function T.test_nothing_to_sum()
  local severed = joist:with {cuts = {ns.sever {from = 72, to = 77}}}
  local s = ns.sweep {joist = severed, over = {spacing = {12, 16}}}
  lu.assertNil(s:max "ratio")
  lu.assertNil(s:mean "ratio")
  lu.assertEquals(s:count "ratio", 0)
  lu.assertEquals(s:quantiles("ratio", {0.5}), {})
end

local function lines_of(path)
  local list = {}
  for line in io.lines(path) do list[#list + 1] = (line:gsub("\r$", "")) end
  return list
end

-- A file of the points that are chosen, by a function or by a place on the axes.
function T.test_filtered_csv()
  local path = os.tmpname()
  for _, memory in ipairs {1 << 30, 100} do
    local s = sweep(memory)
    local chosen = function(row) return row.ratio and row.ratio > 1.3 end
    assert(s:csv(path, {where = chosen}))
    local lines, rows = lines_of(path), s:where(chosen)
    lu.assertEquals(#lines, #rows + 1)
    lu.assertTrue(#rows > 10)
    for i, row in ipairs(rows) do
      lu.assertStrContains(lines[i + 1], "," .. core.number_text(row.ratio) .. ",")
    end
    assert(s:csv(path, {where = {span = "12-0", spacing = 16}}))
    lu.assertEquals(#lines_of(path), 1 + 29)
  end
  os.remove(path)
end

-- Through a pipe come the bytes of the file.
function T.test_csv_through_a_pipe()
  system.unix "a pipe of its shell"
  local path, piped = os.tmpname(), os.tmpname()
  local s = sweep(100)
  assert(s:csv(path))
  local pipe = assert(io.popen("cat >" .. piped, "w"))
  assert(s:csv(pipe))
  pipe:close()
  lu.assertEquals(lines_of(piped), lines_of(path))
  os.remove(path)
  os.remove(piped)
end

function T.test_sidecar()
  local path = os.tmpname()
  local s = ns.sweep {joist = joist, over = {spacing = {12, 16}}, points = {span = {144,
    150}, ["cuts.1.at"] = function(p) return p.span / 3 end}, values = {"ratio",
    "action"}, shard = {2, 2}}
  assert(s:csv(path, {sidecar = true}))
  local file <close> = assert(io.open(path .. ".json"))
  local t = assert(dkjson.decode(file:read "a"))
  lu.assertEquals(t.netsection, ns.version)
  lu.assertEquals({t.points, t.first, t.of}, {2, 2, 4})
  lu.assertEquals({t.joist.mark, t.joist.inputs.dead, t.joist.inputs.Fb}, {"J3", 12, 900})
  lu.assertEquals(t.joist.cuts[1], {name = "hole-1", label = "3 in hole", note = "drain"})
  lu.assertStrContains(t.rules, "International Residential Code")
  lu.assertEquals(t.standard, "us-nds-2018-asd")
  lu.assertEquals(t.axes[1].values, {12, 16})
  lu.assertEquals({t.axes[2].name, t.axes[2].steps}, {"point", 2})
  lu.assertEquals({t.axes[2].fields, t.functions}, {{"span"}, {"cuts.1.at"}})
  lu.assertEquals(t.columns[2].words[1], "leave")
  os.remove(path)
  os.remove(path .. ".json")
end

-- The directory of an archive: how many entries, and where it begins; by the records of
-- 64 bits (APPNOTE 4.3.14, 4.3.15) where those of 32 say so.
local function directory_of(bytes)
  local n, _, at = string.unpack("<I2I4I4", bytes, #bytes - 11)
  if at < 4294967295 then return n, at, false end
  local locator = #bytes - 22 - 20 + 1
  lu.assertEquals(bytes:sub(locator, locator + 3), "PK\6\7")
  local record = string.unpack("<I8", bytes, locator + 8) + 1
  lu.assertEquals(bytes:sub(record, record + 3), "PK\6\6")
  local length, needed = string.unpack("<I8I2", bytes, record + 4)
  lu.assertEquals({record + 12 + length, needed}, {locator, 45})
  local count, size, start = string.unpack("<I8I8I8", bytes, record + 32)
  lu.assertEquals(start + size + 1, record)
  return count, start, true
end

-- An entry's line with its numbers of 64 bits (APPNOTE 4.5.3) in those of 32.
local function narrowed(bytes, at, name, extra, to)
  local id, length, size, packed, place = string.unpack("<I2I2I8I8I8", bytes,
    at + 46 + name)
  lu.assertEquals({id, length, extra}, {1, 24, 28})
  local head = place + 1
  id, length = string.unpack("<I2I2", bytes, head + 30 + name)
  lu.assertEquals({id, length, (string.unpack("<I2", bytes, head + 28))},
    {1, 16, 20})
  local a, b = string.unpack("<I8I8", bytes, head + 34 + name)
  lu.assertEquals({a, b}, {size, packed})
  lu.assertEquals(packed, size)
  local data = bytes:sub(head + 50 + name, head + 49 + name + size)
  lu.assertEquals(zip.crc32(data), (string.unpack("<I4", bytes, at + 16)))
  to[bytes:sub(at + 46, at + 45 + name)] = data
end

-- Entries of an archive by its central directory (APPNOTE 4.3), stored: their CRC-32 by
-- another table, sizes and places must agree.
local function entries_of(bytes)
  local n, at, wide = directory_of(bytes)
  local out = {}
  at = at + 1
  for _ = 1, n do
    lu.assertEquals(bytes:sub(at, at + 3), "PK\1\2")
    local crc, packed, size, name, extra, note = string.unpack("<I4I4I4I2I2I2", bytes,
      at + 16)
    if wide then
      narrowed(bytes, at, name, extra, out)
    else
      local head = string.unpack("<I4", bytes, at + 42) + 1
      lu.assertEquals(bytes:sub(head, head + 3), "PK\3\4")
      lu.assertEquals(bytes:sub(head + 14, head + 25), bytes:sub(at + 16, at + 27))
      lu.assertEquals(packed, size)
      local data = bytes:sub(head + 30 + name, head + 29 + name + size)
      lu.assertEquals(zip.crc32(data), crc)
      out[bytes:sub(at + 46, at + 45 + name)] = data
    end
    at = at + 46 + name + extra + note
  end
  return out
end

-- A .npy array of doubles (NumPy, format 1.0).
local function array_of(data)
  lu.assertEquals(data:sub(1, 8), "\x93NUMPY\1\0")
  local length = string.unpack("<I2", data, 9)
  lu.assertEquals((10 + length) % 64, 0)
  local shape = "^{'descr': '<f8', 'fortran_order': False, 'shape': %((%d+),%), } *\n$"
  local n = tonumber((data:sub(11, 10 + length):match(shape)))
  local list = {}
  for i = 1, n do list[i] = string.unpack("<d", data, 11 + length + 8 * (i - 1)) end
  lu.assertEquals(#data, 10 + length + 8 * n)
  return list
end

local function bytes_of(path)
  local file <close> = assert(io.open(path, "rb"))
  return file:read "a"
end

function T.test_columns_in_an_archive()
  local path = os.tmpname()
  for _, memory in ipairs {1 << 30, 100} do
    local s = ns.sweep {joist = joist, memory = memory, over = {size = {"2x8", "2x10"},
      ["cuts.1.diameter"] = {2, 4, 20}}, points = {span = {144, 150.5},
      ["cuts.1.at"] = function(p) return p.span / 3 end}, values = {"ratio", "action"}}
    assert(s:npz(path))
    local file <close> = assert(io.open(path, "rb"))
    local found, columns = entries_of(file:read "a"), {}
    local t = assert(dkjson.decode(found["sweep.json"]))
    for name, data in pairs(found) do
      local field = name:match "^(.*)%.npy$"
      if field then columns[field] = array_of(data) end
    end
    local i = 0
    for row in s:rows() do
      i = i + 1
      lu.assertEquals(columns.span[i], row.span)
      lu.assertEquals(columns["cuts.1.at"][i], row["cuts.1.at"])
      lu.assertEquals(t.axis_words.size[columns.size[i] + 1 | 0], row.size)
      local code, why = columns.action[i], columns.reason[i]
      lu.assertEquals(code == code and t.columns[2].words[code + 1 | 0] or nil,
        row.action)
      lu.assertEquals(t.reasons[why | 0], row.reason)
      local ratio = columns.ratio[i]
      lu.assertEquals(ratio == ratio and ratio or nil, row.ratio)
    end
    lu.assertEquals(i, 12)
    lu.assertEquals(#columns.ratio, 12)
  end
  os.remove(path)
end

-- An archive past 4 GB, by a limit of a few bytes: the same arrays, by the reader above
-- and by another program's where it is there (Python's zipfile reads ZIP64).
function T.test_columns_in_an_archive_of_64_bits()
  local path, most = os.tmpname(), npz.most
  local s = ns.sweep {joist = joist, over = {size = {"2x8", "2x10"}, live = {30, 40, 50}},
    values = {"ratio", "action"}}
  assert(s:npz(path))
  local plain = entries_of(bytes_of(path))
  npz.most = 100
  local ok, why = s:npz(path)
  npz.most = most
  assert(ok, why)
  lu.assertEquals(entries_of(bytes_of(path)), plain)
  local python = os.getenv "PYTHON" or "python3"
  if os.execute(python .. " -c 'import zipfile' >/dev/null 2>&1") then
    local pipe <close> = assert(io.popen(([[%s -c 'import sys, zipfile
z = zipfile.ZipFile(sys.argv[1])
print(z.testzip(), len(z.namelist()), z.read("ratio.npy")[-8:].hex())' %s]]):format(
      python, path)))
    local last = string.pack("<d", s:column "ratio"[6]):gsub(".", function(c)
      return ("%02x"):format(c:byte())
    end)
    lu.assertEquals(pipe:read "l", "None 6 " .. last)
  end
  os.remove(path)
end

-- Compressed on its way and taken apart by another program: every line arrives, and the
-- largest ratio is that of the sweep.
function T.test_csv_through_gzip_and_awk()
  system.unix "programs of its shell"
  if not os.execute "gzip -V >/dev/null 2>&1 && awk 1 /dev/null >/dev/null 2>&1" then
    lu.skip "no gzip or awk here"
  end
  local packed = os.tmpname()
  local live = {}
  for i = 1, 700 do live[i] = 20 + i / 20 end
  local s = ns.sweep {joist = joist, over = {live = live, dead = {8, 10, 12, 14}},
    values = {"ratio"}, progress = false, memory = 1}
  local pipe = assert(io.popen("gzip >" .. packed, "w"))
  assert(s:csv(pipe))
  lu.assertTrue(pipe:close())
  local back <close> = assert(io.popen("gzip -dc " .. packed .. " | awk -F, 'NR > 1 && "
    .. "$3 + 0 > most + 0 { most = $3 } END { print NR, most }'"))
  local lines, most = back:read("l"):match "^(%d+) (%S+)$"
  lu.assertEquals({tonumber(lines), tonumber(most)}, {2801, s:max "ratio" + 0.0})
  os.remove(packed)
end

-- Ctrl-C sets a hook: the core looks for it between blocks, Lua at its next step. In
-- processor time, for other work on the machine is not ours.
function T.test_an_interruption_is_seen_at_once()
  local live = {}
  for i = 1, 4000 do live[i] = 20 + i / 100 end
  local begun
  local s = ns.sweep {joist = joist, over = {live = live, dead = live},
    values = {"ratio"}, threads = 1, memory = 1, progress = function()
      begun = begun or os.clock()
      debug.sethook(function()
        debug.sethook()
        error "interrupted!"
      end, "", 1)
    end}
  local null <close> = assert(io.open(system.null, "w"))
  local ok, why = pcall(s.csv, s, null)
  debug.sethook()
  lu.assertFalse(ok)
  lu.assertStrContains(tostring(why), "interrupted")
  lu.assertTrue(os.clock() - begun < 0.3)
end

local function shards(t, n)
  local list = {}
  for i = 1, n do
    local path = os.tmpname()
    local shard = ns.sweep {joist = joist, over = t.over, values = t.values,
      shard = {i, n}}
    assert(shard:summary(t.summary):write(path))
    list[i] = path
  end
  return list
end

local SUMMED = {over = {span = ns.steps("10-0", "16-0", "6 in"),
  spacing = ns.steps("12 in", "24 in", "1 in"), ["cuts.1.diameter"] =
  ns.steps("1 in", "8 in", "1/4 in")}, values = {"ratio", "action", "moment"},
  summary = {histogram = {ratio = {from = 0, to = 2, bins = 5}}}}

-- Summaries of shards, read back from files in any order, give what the whole gives:
-- counts and extremes to the bit, sums to 1e-12, quantiles between their bounds.
function T.test_summaries_of_shards()
  local whole = ns.sweep {joist = joist, over = SUMMED.over, values = SUMMED.values}
  local list = shards(SUMMED, 7)
  for _ = 1, 3 do
    table.insert(list, 1, table.remove(list))
    local m = assert(ns.merge_shards(list))
    lu.assertEquals({#m, m.of, #m:missing()}, {#whole, #whole, 0})
    for _, name in ipairs {"ratio", "moment"} do
      for _, which in ipairs {"max", "min"} do
        local value, row = m[which](m, name)
        local want, at = whole[which](whole, name)
        lu.assertEquals(value, want)
        lu.assertEquals(row.span, at.span)
        lu.assertEquals(row["cuts.1.diameter"], at["cuts.1.diameter"])
      end
      local mean, deviation, n = m:mean(name)
      local want, spread, all = whole:mean(name)
      close(mean, want, 1e-12)
      close(deviation, spread, 1e-9)
      lu.assertEquals({n, m:count(name)}, {all, all})
      local parts = {0, 0.01, 0.3, 0.5, 0.977, 1}
      local exact = whole:quantiles(name, parts)
      for i, q in ipairs(m:quantiles(name, parts)) do
        lu.assertTrue(q.low <= exact[i] and exact[i] <= q.high)
        -- In the middle neighbors in rank lie close together.
        lu.assertTrue(q.high - q.low <= exact[i] / 300 or i < 3 or i > 4)
      end
    end
    lu.assertEquals(m:count "action", whole:count "action")
    lu.assertEquals(m:histogram "ratio", whole:histogram("ratio", {from = 0, to = 2,
      bins = 5}))
  end
  for _, path in ipairs(list) do os.remove(path) end
end

local function edited(path, from, to)
  local file = assert(io.open(path))
  local text = file:read "a"
  file:close()
  assert(ns.write(path, (text:gsub(from, to, 1))))
end

-- What is missing is told; what is there twice, is of another sweep or was changed is
-- refused with its name.
function T.test_shards_that_do_not_belong_together()
  local list = shards(SUMMED, 3)
  local m = assert(ns.merge_shards {list[1], list[3]})
  local n = #m + (m:missing()[1][2] - m:missing()[1][1] + 1)
  lu.assertEquals({#m:missing(), n}, {1, m.of})
  local function wrong(text, given)
    local none, why = ns.merge_shards(given)
    lu.assertNil(none)
    lu.assertStrContains(why, text)
  end
  wrong("is in two of them", {list[1], list[2], list[2]})
  local other = ns.sweep {joist = joist:with {dead = 13}, over = SUMMED.over,
    values = SUMMED.values, shard = {2, 3}}
  wrong("part 2: of another sweep", {list[1], other:summary()})
  local without = ns.sweep {joist = joist, over = SUMMED.over, values = SUMMED.values,
    shard = {2, 3}}
  wrong("have other bins", {list[1], without:summary()})
  edited(list[2], '"count":%d+', '"count":7')
  wrong(list[2] .. ": a summary of a sweep that was damaged", {list[1], list[2]})
  assert(ns.write(list[2], '{"format": 3}'))
  wrong(list[2] .. ": no summary of a sweep", {list[2]})
  wrong("/nowhere/s.json", {"/nowhere/s.json"})
  raises("a list of summaries", ns.merge_shards, "s.json")
  raises("a summary of s:summary() expected", ns.merge_shards, {{}})
  raises("'action' is a word", m.quantiles, m, "action", {0.5})
  raises("{from =, to =, bins =} expected", other.summary, other, {histogram = {ratio =
    {}}})
  for _, path in ipairs(list) do os.remove(path) end
end

-- Columns of no room, so that the file is a stream; stopped once asked so often.
local function stopping(after)
  local asked = 0
  return ns.sweep {joist = joist, memory = 100, values = {"ratio", "governing"}, over = {
    span = ns.steps("10-0", "16-0", "1/4 in"), spacing = ns.steps("12 in", "24 in",
    "1/4 in"), live = ns.steps(30, 60, 1)}, progress = function()
    asked = asked + 1
    return asked <= after
  end}
end

-- Stopped again and again, with a tail on the disk that no mark covers, the file ends up
-- the same to the byte; until then an older one under its name stands.
function T.test_a_file_is_gone_on_with()
  local path, want = os.tmpname(), os.tmpname()
  assert(stopping(1e9):csv(want))
  local stops = 0
  while true do
    local ok, done, why = pcall(stopping(1).csv, stopping(1), path, {resume = true})
    if ok then
      assert(done, why)
      break
    end
    stops = stops + 1
    lu.assertEquals(bytes_of(path), "")
    -- A tail is never longer than what is still to be written.
    if #bytes_of(path .. ".part") + 40 < #bytes_of(want) then
      local tail = assert(io.open(path .. ".part", "ab"))
      tail:write(bytes_of(want):sub(1, 40))
      tail:close()
    end
  end
  lu.assertTrue(stops >= 1)
  lu.assertTrue(bytes_of(path) == bytes_of(want))
  lu.assertNil(io.open(path .. ".part"))
  lu.assertNil(io.open(path .. ".part.json"))
  os.remove(path)
  os.remove(want)
end

function T.test_a_part_of_another_sweep_is_not_gone_on_with()
  local path = os.tmpname()
  lu.assertFalse((pcall(stopping(0).csv, stopping(0), path, {resume = true})))
  local ok, why = sweep(100):csv(path, {resume = true})
  lu.assertNil(ok)
  lu.assertStrContains(why, ".part is of another sweep")
  os.remove(path .. ".part.json")
  ok, why = stopping(1e9):csv(path, {resume = true})
  lu.assertNil(ok)
  lu.assertStrContains(why, "is no part of a sweep")
  lu.assertEquals(bytes_of(path), "")
  os.remove(path .. ".part")
  os.remove(path)
  raises("resume: of a path only", sweep().csv, sweep(), io.stdout, {resume = true})
end

-- Four million points, far more than are worked until the function is first asked.
function T.test_a_stream_is_canceled()
  local asked = 0
  local s = ns.sweep {joist = joist, memory = 100, values = {"ratio"}, over = {
    span = ns.steps("10-0", "16-0", "1/16 in"), spacing = ns.steps("12 in", "24 in",
      "1/16 in"), live = ns.steps(10, 60, 0.25)}, progress = function()
    asked = asked + 1
    return false
  end}
  raises("stopped after", s.quantiles, s, "ratio", {0.5})
  lu.assertEquals(asked, 1)
end

function T.test_misuse_is_named()
  local s = sweep()
  raises("'action' is a word", s.mean, s, "action")
  raises("no value 'halo'", s.count, s, "halo")
  raises("a list of 1 to 100 numbers", s.quantiles, s, "ratio", {})
  raises("numbers from 0 to 1", s.quantiles, s, "ratio", {1.5})
  raises("{from =, to =, bins =} expected", s.histogram, s, "ratio", {from = 1, to = 0,
    bins = 3})
  raises("a path expected", s.npz, s, io.stdout)
  raises("unknown field 'halo'", s.csv, s, "x", {halo = 1})
  raises("sidecar: of a path only", s.csv, s, io.stdout, {sidecar = true,
    where = function() return false end})
end

return T
