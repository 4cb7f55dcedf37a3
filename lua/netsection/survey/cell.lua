-- SPDX-License-Identifier: MIT
-- What a cell of a field book says, by the kind of its column. Lengths and loads stay
-- text, with the unit of the column's heading put behind bare numbers, so that reports
-- show what was entered; each is read once here, so that a fault gets its cell.
local fastener = require "netsection.fastener"
local units = require "netsection.units"
local words = require "netsection.survey.words"
local tostring = require "netsection.point".text

local cell = {}

local quoted = units.quoted

-- A cell without blanks at its ends, those that a spreadsheet puts there too.
local function trim(text)
  return (text:gsub("\u{A0}", " "):gsub("^%s+", ""):gsub("%s+$", ""))
end

-- Units that a heading may name, as they are put behind a number.
local LENGTH = {["in"] = "in", inch = "in", inches = "in", ["\""] = "in", ft = "ft",
  foot = "ft", feet = "ft", ["'"] = "ft", mm = "mm", cm = "cm", m = "m",
  millimetres = "mm", millimeters = "mm", metres = "m", meters = "m", ["ft-in"] = "ft",
  ["feet-inches"] = "ft"}
local AREA = {psf = "psf", ksf = "ksf", kpa = "kPa", pa = "Pa", ["kn/m2"] = "kN/m2",
  ["lb/ft2"] = "psf"}
local LINE = {plf = "plf", klf = "klf", ["lb/ft"] = "plf", ["kn/m"] = "kN/m"}
local POINT = {lb = "lb", lbs = "lb", lbf = "lb", kip = "kip", kips = "kip", kn = "kN",
  n = "N"}
local PLAIN = {deg = "deg", degrees = "deg", f = "F", degf = "F"}
local STRESS = {psi = 1, ksi = 1000, mpa = units.per.MPa, ["n/mm2"] = units.per.MPa,
  millionpsi = 1e6, ["10^6psi"] = 1e6}

-- Units of several lists in one.
local function joined(...)
  local all = {}
  for _, list in ipairs {...} do
    for name, unit in pairs(list) do all[name] = unit end
  end
  return all
end

-- Units of a kind of column, by how headings write them; nil where it has none.
cell.units = {length = LENGTH, lengths = LENGTH, groups = LENGTH, area = AREA,
  line = LINE, point = POINT, load = joined(AREA, LINE, POINT), number = PLAIN,
  stress = STRESS}

--------------------------------------------------------------------------- decimal comma

-- 2,5 as 2.5 where the file was declared so. A point between digits may then be a
-- thousands sign, which is not guessed.
local function with_point(text, context)
  if context.decimal ~= "," then return text end
  if text:find "%d%.%d" then
    return nil, ("the decimal comma is declared; a point in %s may be thousands or "
      .. "decimals"):format(quoted(text))
  end
  return (text:gsub("(%d),(%d)", "%1.%2"))
end

local MONTHS = "jan feb mar apr may jun jul aug sep oct nov dec"

-- Spreadsheets turn 13-6 and 1/2 into dates.
local function date_like(text)
  local word = text:match "^%d*[%s%-%.]*(%a%a%a)%a*[%s%-%.]*%d*$"
  return word and MONTHS:find(word:lower(), 1, true) ~= nil
    or text:find "^%d+/%d+/%d+$" ~= nil or text:find "^%d%d%d%d%-%d%d?%-%d%d?" ~= nil
    or text:find "^%d%d?%.%d%d?%.%d%d" ~= nil
end

-- A message, with a hint where a spreadsheet has made a date of what was entered.
local function explained(text, message)
  if not date_like(text) then return nil, message end
  return nil, message .. "; this looks like a date that the spreadsheet made of it: "
    .. "format the column as text"
end

---------------------------------------------------------------------------- lengths

-- Whether a text is a number without a unit.
local function is_bare(text)
  return text:find "^[+-]?%d*%.?%d+$" ~= nil
end

-- Feet and inches in a column that is headed with another unit are a slip somewhere.
local function contradicts(text, unit)
  if unit == nil or unit == "ft" then return false end
  return text:find "^%-?%d+%s*%-%s*%d" ~= nil and not text:find "[%a'\"]"
end

-- A length in the unit of its heading, or its own; both must agree.
local function length_text(text, context)
  local alone = units.length(text)
  if alone and contradicts(text, context.unit) then
    return nil, ("the column is headed %s, and %s is feet and inches: write %s with its "
      .. "unit"):format(context.unit, quoted(text), quoted(text))
  end
  if alone then return text end
  local unit = context.unit or context.default
  local with_unit = unit and text .. " " .. unit
  if with_unit and units.length(with_unit) then return with_unit end
  if is_bare(text) then return tonumber(text) + 0.0 end
  local _, problem = units.length(text)
  return explained(text, problem)
end

local read = {}

-- "16 in o.c." is 16 in: what it is between the column says.
local function without_on_centre(text)
  return (text:gsub("%s*[oO]%.?%s?[cC]%.?$", ""):gsub("%s*[cC]/[cC]$", ""))
end

-- Readers by kind of cell: each gives a value, or nil and a message.
function read.length(text, context)
  local plain, problem = with_point(text, context)
  if not plain then return nil, problem end
  return length_text(without_on_centre(plain), context)
end

-- The items of a list in one cell, each read by `take`.
local function each(text, context, take)
  local plain, problem = with_point(text, context)
  if not plain then return nil, problem end
  local list = {}
  for item in (plain .. ";"):gmatch "([^;+\n]*)[;+\n]" do
    if item:find "%S" then
      local value, why = take(trim(item))
      if value == nil then return nil, why end
      list[#list + 1] = value
    end
  end
  return list
end

-- Lengths in one cell: "9-0 + 8-6".
function read.lengths(text, context)
  return each(text, context, function(item) return length_text(item, context) end)
end

-- 4 @ 3-4; 4 @ 5-10, or places alone.
function read.groups(text, context)
  return each(text, context, function(item)
    local n, at = item:match "^(%d+)%s*@%s*(.+)$"
    local place, problem = length_text(at or item, context)
    if place == nil then return nil, problem end
    return n and {n = math.tointeger(tonumber(n)), at = place} or place
  end)
end

------------------------------------------------------------------------------- loads

-- A load of a kind in the unit of its heading, or its own.
local function load_text(text, context, kind)
  local plain, problem = with_point(text, context)
  if not plain then return nil, problem end
  if is_bare(plain) and context.unit then plain = plain .. " " .. context.unit end
  local bare = is_bare(plain) and kind and kind ~= "line" and tonumber(plain) + 0.0
  local value, why = units.load(bare or plain, kind)
  if not value then return nil, why end
  return bare or plain
end

-- A load on an area, psf.
function read.area(text, context) return load_text(text, context, "area") end
-- A point load, lb.
function read.point(text, context) return load_text(text, context, "point") end
-- A line load, plf.
function read.line(text, context) return load_text(text, context, "line") end

-- Which load it is depends on its row; see 'of_kind' below.
function read.load(text)
  return text
end

-- A load whose kind is known by now.
function cell.of_kind(text, context, kind)
  return load_text(text, context, kind)
end

----------------------------------------------------------------------------- numbers

-- A number in a cell, decimal commas too; nil where it is none.
local function number_in(text, context)
  local plain = with_point(text, context)
  if plain and (is_bare(plain) or plain:find "^[+-]?%d*%.?%d+[eE][+-]?%d+$") then
    local n = tonumber(plain)
    if n and n == n and math.abs(n) < 1e300 then return n end
  end
end

-- nil and a message that says what was expected.
local function number_expected(text, what)
  return explained(text, ("%s expected, got %s"):format(what, quoted(text)))
end

-- A number without a unit; a percent sign is dropped.
function read.number(text, context)
  local n = number_in(text:gsub("%s*%%$", ""), context)
  if n then return n + 0.0 end
  return number_expected(text, "a number")
end

-- A whole number, or a word that stands for one.
function read.count(text, context)
  local word = context.column.words and context.column.words[words.key(text)]
  if word then return word end
  local n = number_in(text, context)
  if n and n % 1 == 0 and n >= 0 and n < 1e6 then return math.tointeger(n) end
  return number_expected(text, "a whole number")
end

-- A stress in psi, or in the unit given.
function read.stress(text, context)
  local amount, unit = text:match "^(%S+)%s*(%a*)$"
  local n = amount and number_in(amount, context)
  local factor = unit == "" and (context.unit or 1) or unit and STRESS[words.key(unit)]
  if n and factor then return n * factor end
  return number_expected(text, "a number of psi")
end

-- A divisor of span, such as L/360; "off" is not checked.
function read.limit(text, context)
  local key = words.key(text)
  if key == "off" or key == "none" or key == "no" then return false end
  local n = number_in(text:gsub("^[lL]%s*/%s*", ""), context)
  if n then return n end
  return number_expected(text, "L/360 or the like, or off,")
end

------------------------------------------------------------------------------- words

local YES = {yes = true, y = true, ["true"] = true, ["1"] = true, x = true, on = true}
local NO = {no = true, n = true, ["false"] = true, ["0"] = true, off = true}

-- Yes or no, in the words that people write.
function read.flag(text)
  local key = words.key(text)
  if YES[key] then return true end
  if NO[key] then return false end
  return nil, ("yes or no expected, got %s"):format(quoted(text))
end

-- The words of a column as its heading shows them.
local function shown_words(column)
  local list = {}
  for word in (column.shown or ""):gmatch "[^,;]+" do list[#list + 1] = trim(word) end
  return list
end

-- One of the words of a column.
function read.word(text, context)
  local column = context.column
  local value = column.words[words.key(text)]
  if value ~= nil then return value end
  local near = words.nearest(text, shown_words(column))
  return nil, ("one of %s expected, got %s%s"):format(column.shown, quoted(text),
    near and ("; is %s meant?"):format(near) or "")
end

read.kind = read.word

-- Text, as it stands.
function read.text(text)
  return text
end

--------------------------------------------------------------------------- fasteners

local FASTENERS = {{"wood screw", "wood%s*screw"}, {"lag screw", "lag%s*screw"},
  {"lag screw", "lag%s*bolt"}, {"lag screw", "lag"}, {"bolt", "bolt"}, {"nail", "nail"}}

-- The kind of fastener named in a text, and what is left of the text.
local function kind_in(text)
  for _, f in ipairs(FASTENERS) do
    local first, last = text:find(f[2])
    if first then
      return f[1], trim(text:sub(1, first - 1) .. " " .. text:sub(last + 1))
    end
  end
end

-- A length in inches where no unit is given; nil where it is none.
local function in_inches(text)
  local value = length_text(trim(text), {unit = "in"})
  return value
end

-- Size and length of a fastener as they are written: "1/2 x 4 in".
local function dimensions(kind, rest)
  local t = {kind = kind}
  local size, long = rest:match "^(.-)%s*x%s*(.+)$"
  size = trim(size or rest)
  local number = kind == "wood screw" and size:match "^#?(%d+)$"
  if kind == "nail" and size:find "%d+d" then
    t.size, t.type = size:match "%d+d", size:match "box" or size:match "sinker"
  elseif number then
    t.number = math.tointeger(tonumber(number))
  else
    t.diameter = in_inches(size)
  end
  t.length = long and in_inches(long)
  return t
end

-- "1/2 in bolt", "lag screw 1/4 x 3 in", "#14 x 3 in wood screw", "16d nail".
function read.fastener(text, context)
  local plain = with_point(text, context) or text
  local kind, rest = kind_in(plain:gsub("[A-Z]", string.lower))
  if not kind then
    return nil, ("a fastener such as 1/2 in bolt or lag screw 1/4 x 3 in expected, got "
      .. "%s"):format(quoted(text))
  end
  local ok, made = pcall(fastener.new, dimensions(kind, rest))
  if ok then return made end
  return nil, tostring(made)
end

-- Reads a cell that is not blank.
-- @param context {column =, unit = of the heading, default = unit of bare lengths,
--   decimal = "," or nil}
-- @return value, or nil and what was expected
function cell.read(text, context)
  return read[context.column.kind](trim(text), context)
end

cell.trim = trim

return cell
