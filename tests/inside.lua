-- SPDX-License-Identifier: MIT
-- The modules zlib and lxp of the interpreter that runs this script do what workbooks ask
-- of them; the single program has its own, another interpreter lua-zlib and lua-expat.
-- Values are of RFC 1951, of the published check value of CRC-32 and of XML 1.0.
--   netsection --lua tests/inside.lua
local lxp, zlib = require "lxp", require "zlib"

local right, wrong = 0, 0
local function same(what, got, want)
  if got == want then right = right + 1 return end
  wrong = wrong + 1
  print(("%s: %s expected, %s found"):format(what, tostring(want), tostring(got)))
end

-- A stored block of RFC 1951, 3.2.4: last, no compression, length and its complement.
local function stored(text)
  return ("<BI2I2"):pack(1, #text, ~#text & 0xFFFF) .. text
end

local function sums()
  local sum = zlib.crc32()
  same("CRC-32 of its check text", sum "123456789", 0xCBF43926)
  sum = zlib.crc32()
  sum "1234"
  local value, count = sum "56789"
  same("CRC-32 piece by piece", value, 0xCBF43926)
  same("bytes summed", count, 9)
end

local function streams()
  local out, done = zlib.inflate(-15)(stored "hello")
  same("a stored block", out, "hello")
  same("its end", done, true)
  -- 3.2.6: "aa" in the codes that are fixed, 'a' = 10010001, end = 0000000.
  out, done = zlib.inflate(-15) "\x4B\x4C\x04\x00"
  same("fixed codes", out, "aa")
  same("their end", done, true)
  local inflate = zlib.inflate(-15)
  out, done = inflate(stored "hello":sub(1, 7))
  same("half a block", out .. tostring(done), "hefalse")
  out, done = inflate(stored "hello":sub(8))
  same("its other half", out .. tostring(done), "llotrue")
  same("a kind of block that is none", (pcall(zlib.inflate(-15), "\7")), false)
  local text = {}
  for i = 1, 30000 do text[i] = ("%d joists "):format(i * i % 977) end
  text = table.concat(text)
  local packed, ended = zlib.deflate(9, -15)(text, "finish")
  same("a packed stream's end", ended, true)
  same("packed to less than a third", #packed < #text / 3, true)
  inflate, out = zlib.inflate(-15), {}
  for at = 1, #packed, 4096 do
    out[#out + 1], ended = inflate(packed:sub(at, at + 4095))
  end
  same("there and back", table.concat(out) == text and ended, true)
end

-- What a parser tells of a text, in one line.
local function told(text, with)
  local list = {}
  local function add(...) list[#list + 1] = table.concat({...}, " ") end
  local on = {
    StartElement = function(_, name, attributes)
      add("<", name, attributes[1] or "", attributes[attributes[1]] or "")
    end,
    EndElement = function(_, name) add(">", name) end,
    CharacterData = function(_, piece) add(piece) end,
    StartDoctypeDecl = function(_, name, _, _, inner) add("!", name, tostring(inner)) end,
  }
  for name, call in pairs(with or {}) do on[name] = call end
  local parser = lxp.new(on, "|", false)
  local ok, why, line = parser:parse(text)
  if ok then ok, why, line = parser:parse() end
  return table.concat(list, ";"), ok and true or false, why, line, parser
end

local function documents()
  same("elements in a space of names",
    told '<a xmlns="urn:b" k="&lt;1"><c>x&amp;y</c></a>',
    "< urn:b|a k <1;< urn:b|c  ;x;&;y;> urn:b|c;> urn:b|a")
  same("a document type", told "<!DOCTYPE t [<!ENTITY e 'x'>]><t/>",
    "! t true;< t  ;> t")
  same("UTF-16", told "\xFE\xFF\0<\0t\0>\xD8\x3D\xDE\x00\0<\0/\0t\0>",
    "< t  ;\u{1F600};> t")
  local _, ok, why, line = told "<a>\n<b></a>"
  same("what does not close", tostring(ok) .. line .. why, "false2mismatched tag")
  _, ok = told "<a>"
  same("what does not end", ok, false)
end

local function callbacks()
  local object = {}
  local function fault() error(object) end
  local ok, thrown = pcall(told, "<a><b/></a>", {EndElement = fault})
  same("an error of a callback is raised", not ok and thrown, object)
  local count = 0
  ok = pcall(told, "<a><b/><c/></a>", {StartElement = function()
    count = count + 1
    error "first"
  end})
  same("nothing is told after it", tostring(ok) .. count, "false1")
  local function stop(parser) parser:stop() end
  local _, whole = told("<a><b/></a>", {StartElement = stop})
  same("stopped", whole, false)
  local parser
  parser = lxp.new({CharacterData = function() parser:parse "<c/>" end}, "|", false)
  same("parsing within a callback", (pcall(parser.parse, parser, "<a>x</a>")), false)
  parser = lxp.new({}, "|", false)
  same("a piece without callbacks", parser:parse "<a>", parser)
  same("and the end of it", parser:parse "</a>" and parser:parse(), parser)
  parser:close()
  same("a parser that is closed", (pcall(parser.parse, parser, "<a/>")), false)
  same("a callback of no such name", (pcall(lxp.new, {Start = print}, "|", false)), false)
end

sums()
streams()
documents()
callbacks()
print(("inside: %d right, %d wrong"):format(right, wrong))
os.exit(wrong == 0)
