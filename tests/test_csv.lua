-- SPDX-License-Identifier: MIT
-- The reader of CSV text. Expected rows follow from RFC 4180 (sections 2.1 to 2.7) and,
-- where it is silent (lone CR, blank lines, byte-order mark), from what this reader says
-- it takes.
local lu = require "luaunit"
local csv = require "netsection.csv"
local support = require "tests.support"

local test_csv = {}

local function cells(text, options)
  local rows, separator = csv.read(text, options)
  lu.assertNotNil(rows, rows or separator and separator[1] and separator[1].message)
  local out = {}
  for i, row in ipairs(rows) do out[i] = {table.unpack(row)} end
  return out, separator, rows
end

function test_csv.test_line_ends()
  local expected = {{"a", "b"}, {"1", "2"}}
  for _, text in ipairs {"a,b\r\n1,2\r\n", "a,b\n1,2", "a,b\r1,2\r", "a,b\r\n1,2"} do
    lu.assertEquals(cells(text), expected)
  end
end

function test_csv.test_quotes()
  lu.assertEquals(cells 'a,"b ""c"", d"\r\n"two\r\nlines",""\r\n',
    {{"a", 'b "c", d'}, {"two\r\nlines"}})
  lu.assertEquals(cells '6" tape,13\'-6"', {{'6" tape', '13\'-6"'}})
  lu.assertEquals(cells '"a" , "b"\n', {{"a", "b"}})
end

function test_csv.test_separators()
  for sign, text in pairs {[","] = "a,b\n", [";"] = "a;b\n", ["\t"] = "a\tb\n"} do
    local rows, found = cells(text)
    lu.assertEquals(rows, {{"a", "b"}})
    lu.assertEquals(found, sign)
  end
  lu.assertEquals(cells 'mark;"a, b, c";d\nJ1;"2,5";x', {{"mark", "a, b, c", "d"},
    {"J1", "2,5", "x"}})
  lu.assertEquals(cells("a;b,c", {separator = ","}), {{"a;b", "c"}})
end

function test_csv.test_numbers_of_rows_and_lines()
  local _, _, rows = cells('\xEF\xBB\xBFa,b\r\n\r\n# remark\r\n"1\r\n2",x\r\n'
    .. " ,\r\n3,y,,\r\n")
  lu.assertEquals(#rows, 3)
  lu.assertEquals({rows[1].row, rows[1].line}, {1, 1})
  lu.assertEquals({rows[2].row, rows[2].line}, {4, 4})
  lu.assertEquals({rows[3].row, rows[3].line}, {6, 7})
  lu.assertEquals(rows[1][1], "a") -- the byte-order mark is gone
  lu.assertEquals(#rows[3], 2)     -- and so are empty columns at the end
end

local function faults(text, options)
  local rows, found = csv.read(text, options)
  lu.assertNil(rows)
  return found
end

function test_csv.test_faults()
  local found = faults 'a,b\n"x"y,2\n3,"z" w\n4,"open\n5,6\n'
  lu.assertEquals(#found, 3)
  lu.assertEquals({found[1].row, found[1].column}, {2, 1})
  lu.assertStrContains(found[1].message, "text after a closing quote")
  lu.assertEquals({found[2].row, found[2].column}, {3, 2})
  lu.assertEquals({found[3].row, found[3].column}, {4, 2})
  lu.assertStrContains(found[3].message, "a quote is not closed")
  lu.assertStrContains(faults "a,b\n1,2\0"[1].message, "NUL")
  lu.assertStrContains(faults "\xFF\xFEa\0"[1].message, "UTF-16")
end

function test_csv.test_latin1()
  local found = faults "a,b\n1,caf\xE9\n"
  lu.assertEquals({found[1].row, found[1].column}, {2, 2})
  lu.assertStrContains(found[1].message, 'encoding = "latin-1"')
  lu.assertEquals(cells("a,b\n1,caf\xE9\n", {encoding = "latin-1"}),
    {{"a", "b"}, {"1", "caf\u{E9}"}})
  -- The marks of feet and inches that word processors make of ' and ".
  lu.assertEquals(cells("a,13\x92-6\x94\n", {encoding = "latin-1"}),
    {{"a", "13\u{2019}-6\u{201D}"}})
end

function test_csv.test_misuse()
  support.raises("separator is", csv.read, "a", {separator = "|"})
  support.raises("encoding is", csv.read, "a", {encoding = "ebcdic"})
end

function test_csv.test_letters()
  lu.assertEquals({csv.letter(1), csv.letter(26), csv.letter(27), csv.letter(703)},
    {"A", "Z", "AA", "AAA"})
end

function test_csv.test_nothing()
  lu.assertEquals(cells "", {})
  lu.assertEquals(cells "\n\n# only a remark\n", {})
end

-- A text cell never starts a formula; numbers are left alone.
function test_csv.test_line()
  lu.assertEquals(csv.line({"a", nil, "b,c", -2.5}, 5), 'a,,"b,c",-2.5,\r\n')
  for _, sign in ipairs {"=", "+", "-", "@"} do
    lu.assertEquals(csv.line {sign .. "x"}, "'" .. sign .. "x\r\n")
  end
end

-- Reading gives back what was written, for cells with every sign that matters.
function test_csv.test_round_trip()
  local random = support.random(41)
  local signs = {"a", " ", ",", ";", '"', "'", "\u{E9}", "\u{5D0}", "x"}
  for _ = 1, 300 do
    local row = {"mark"}
    for i = 2, random:int(2, 5) do
      local parts = {"b"}
      for k = 2, random:int(2, 6) do parts[k] = random:pick(signs) end
      row[i] = table.concat(parts) .. "."
    end
    lu.assertEquals(cells("h,i,j,k,l\r\n" .. csv.line(row))[2], row)
  end
end

-- Whatever the bytes are, the answer is rows or a list of faults.
function test_csv.test_any_bytes()
  local random = support.random(7)
  local signs = {'"', ",", ";", "\t", "\r", "\n", "a", "\0", "\xFF", "\xE9", "#", " "}
  for _ = 1, 3000 do
    local bytes = {}
    for i = 1, random:int(0, 40) do
      bytes[i] = random:unit() < 0.8 and random:pick(signs)
        or string.char(random:int(0, 255))
    end
    local rows, found = csv.read(table.concat(bytes))
    lu.assertTrue(type(rows) == "table" or rows == nil and #found > 0)
    for _, f in ipairs(rows and {} or found) do
      lu.assertTrue(f.row >= 1 and f.line >= f.row and f.column >= 1)
    end
  end
end

return test_csv
