-- SPDX-License-Identifier: MIT
-- Text that came from a user, made inert for each form of output: it is shown as it was
-- written and never becomes markup, a formula or a command. All forms start from
-- `escape.text`, which leaves one line of valid UTF-8.
local characters = require "netsection.document.latex_characters"
local units = require "netsection.units"

local escape = {}

-- Not shown: direction controls, which would turn the words around them, zero-width
-- characters (the joiners stay, which scripts need), byte-order marks, tags.
local REMOVED = {
  {0xAD, 0xAD}, {0x61C, 0x61C}, {0x200B, 0x200B}, {0x200E, 0x200F}, {0x202A, 0x202E},
  {0x2060, 0x206F}, {0xFEFF, 0xFEFF}, {0xFFF9, 0xFFFB}, {0xE0000, 0xE0FFF},
}

local function between(code, ranges)
  for _, range in ipairs(ranges) do
    if code >= range[1] and code <= range[2] then return true end
  end
  return false
end

-- What stands for a code point, nil for itself.
local function replacement(code)
  if code < 32 or code >= 0x7F and code <= 0x9F or code == 0x2028 or code == 0x2029 then
    return " "
  elseif between(code, REMOVED) then
    return ""
  elseif code % 0x10000 >= 0xFFFE or code >= 0xFDD0 and code <= 0xFDEF then
    return "?"    -- no characters, refused by readers of HTML and SVG
  end
end

local function each_character(s, say)
  local i = 1
  while i <= #s do
    if utf8.len(s, i, i) then
      local code = utf8.codepoint(s, i)
      local character = utf8.char(code)
      say(code, character)
      i = i + #character
    else
      say(nil, "?")
      i = i + 1
    end
  end
end

local function mapped(s, map)
  local out = {}
  each_character(s, function(code, character)
    out[#out + 1] = code and map(code, character) or character
  end)
  return table.concat(out)
end

local function checked(s, name)
  if type(s) ~= "string" then
    error(("escape.%s: text expected, got %s"):format(name, type(s)), 3)
  end
  return s
end

-- Printable ASCII, which most text is, needs no look at each character.
local function cleaned(s)
  return s:find "[^ -~]" and mapped(s, replacement) or s
end

--- One line of valid UTF-8 without control and direction characters.
function escape.text(s)
  return cleaned(checked(s, "text"))
end

local HTML = {["&"] = "&amp;", ["<"] = "&lt;", [">"] = "&gt;", ['"'] = "&quot;",
  ["'"] = "&#39;"}

--- For text and for values of attributes in double quotes.
function escape.html(s)
  return (cleaned(checked(s, "html")):gsub("[&<>\"']", HTML))
end

-- Every mark that could begin something, in text or in a cell of a table. Digits and
-- dashes begin something at the head of a line alone, colons and dots in an address.
local function escape_markdown(s)
  s = s:gsub("[\\`*_%[%]~|$^@{}]", "\\%0"):gsub("[&<>]", HTML)
  s = s:gsub(":([%w/+-])", "\\:%1"):gsub("([wW])%.", "%1\\.")
  s = s:gsub("^%s+", ""):gsub("%s+$", "")
  s = s:gsub("^[#=]", "\\%0"):gsub("^[+-]$", "\\%0"):gsub("^[+-][ +-]", "\\%0")
  return (s:gsub("^(%d+)([.)])%f[%s%z]", "%1\\%2"))
end

--- For a line of Markdown or a cell of one of its tables.
function escape.markdown(s)
  return escape_markdown(cleaned(checked(s, "markdown")))
end

-- A long word may be broken, so that it does not run over the edge of the page.
local LONG, STRETCH, BREAK = 24, 12, "\\discretionary{}{}{}"

local function latex_word(word)
  local out, n, long = {}, 0, utf8.len(word) > LONG
  each_character(word, function(code, character)
    if long and n > 0 and n % STRETCH == 0 then out[#out + 1] = BREAK end
    out[#out + 1] = characters.of(code, character)
    n = n + 1
  end)
  return table.concat(out)
end

--- For the text of a LaTeX document: ASCII alone, for pdflatex and its first fonts.
-- Characters that those do not have are printed as their code, [U+5D0].
function escape.latex(s)
  return (cleaned(checked(s, "latex")):gsub("[^ ]+", latex_word))
end

-- What a spreadsheet takes for the beginning of a formula, also in its full-width form.
local FORMULA = {["="] = true, ["+"] = true, ["-"] = true, ["@"] = true,
  ["\t"] = true, ["\r"] = true, ["\u{FF1D}"] = true, ["\u{FF0B}"] = true,
  ["\u{FF0D}"] = true, ["\u{FF20}"] = true}

local function begins_formula(s)
  local first = s:match("^ *(" .. utf8.charpattern .. ")")
  return first ~= nil and FORMULA[first] or false
end

-- Shortest decimals that read back as the same number.
local function number_text(x)
  if x ~= x or x == math.huge or x == -math.huge then
    error("escape.csv: a finite number expected", 3)
  end
  if math.type(x) == "integer" then return ("%d"):format(x) end
  for figures = 1, 17 do
    local s = units.significant(x, figures)
    if tonumber(s) == x then return s end
  end
end

--- One field of CSV (RFC 4180). Numbers stay numbers; a text that a spreadsheet would
-- take for a formula gets an apostrophe in front.
function escape.csv(v)
  if type(v) == "number" then return number_text(v) end
  local s = checked(v, "csv")
  s = (begins_formula(s) and "'" or "") .. cleaned(s)
  if s:find "[,;\"]" or s:find "^ " or s:find " $" then
    s = '"' .. s:gsub('"', '""') .. '"'
  end
  return s
end

return escape
