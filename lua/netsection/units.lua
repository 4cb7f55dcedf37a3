-- SPDX-License-Identifier: MIT
--- Lengths and loads as people write them, and numbers as reports print them.
--
-- Base units are inch, pound (force), psf for area loads and plf for line
-- loads. Bad data gives nil and a message fit for the engineer who typed it;
-- misuse by a program (a wrong option, a number that is not finite where one
-- is printed) raises an error at the caller's line.
--
-- Nothing here depends on the locale: a host that has set a decimal comma must
-- get the same text and the same numbers.

local lane = require "netsection.lane"
local ordered = require "netsection.point".pairs
local point = require "netsection.point"
local lpeg = require "lpeg"
local tostring = require "netsection.point".text

local C, Carg, Cc, Cg = lpeg.C, lpeg.Carg, lpeg.Cc, lpeg.Cg
local Cp, Cs, Ct = lpeg.Cp, lpeg.Cs, lpeg.Ct
local P, R, S = lpeg.P, lpeg.R, lpeg.S

local units = {}

-- Exact by definition: 1 in = 25.4 mm, 1 lbf = 4.4482216152605 N (the pound of
-- 0.45359237 kg under standard gravity, 9.80665 m/s2).
local NEWTON_PER_LB = 4.4482216152605
local METRE_PER_FOOT = 0.3048
local GRAVITY = 9.80665

--- Base units in one of the named unit: `v * per.kPa` turns kPa into psf,
-- `x / per.mm` turns inches into mm.
units.per = {
  ft = 12, mm = 5 / 127, cm = 50 / 127, m = 5000 / 127,             -- in
  kPa = 1000 * METRE_PER_FOOT * METRE_PER_FOOT / NEWTON_PER_LB,      -- psf
  ["kN/m"] = 1000 * METRE_PER_FOOT / NEWTON_PER_LB,                  -- plf
  kN = 1000 / NEWTON_PER_LB, N = 1 / NEWTON_PER_LB, kip = 1000,      -- lb
  MPa = 25.4 * 25.4 / NEWTON_PER_LB,                                 -- psi
}

-- Size of a unit in the base unit of what it measures.
local MEASURES = {
  length = {["in"] = 1, ["ft-in"] = 1, ft = 12, mm = units.per.mm, cm = units.per.cm,
    m = units.per.m},
  force = {lb = 1, kip = 1000, kN = units.per.kN, N = units.per.N},
  moment = {["in-lb"] = 1, ["lb-in"] = 1, ["ft-lb"] = 12, ["kN-m"] = units.per.kN
    * units.per.m, ["N-mm"] = units.per.N * units.per.mm},
  stress = {psi = 1, ksi = 1000, MPa = units.per.MPa},
  area = {psf = 1, kPa = units.per.kPa}, line = {plf = 1, ["kN/m"] = units.per["kN/m"]},
}

--- What a number in one unit is multiplied by to be in another; nil where the two measure
-- different things or one is unknown. units.between("in-lb", "ft-lb") is 1/12.
function units.between(from, to)
  for _, list in pairs(MEASURES) do
    if list[from] and list[to] then return list[from] / list[to] end
  end
end

---------------------------------------------------------------------------
-- Messages
---------------------------------------------------------------------------

local SHOWN = 40       -- characters of the input that a message repeats

-- Longer text is no length or load, and the bound keeps every number that the
-- grammar can meet far inside the range of a double.
local LONGEST = 64     -- bytes

-- Characters that a terminal would act on or not show: C1 controls, zero-width
-- and direction marks, separators, byte-order mark.
local HIDDEN = {
  {0x7F, 0x9F}, {0xAD, 0xAD}, {0x200B, 0x200F}, {0x2028, 0x202E},
  {0x2060, 0x206F}, {0xFEFF, 0xFEFF},
}

local NAMED_CONTROLS = {[9] = "\\t", [10] = "\\n", [13] = "\\r"}

-- A control character by its name or code, so that a message shows it.
local function visible(code, character)
  if code < 32 or code == 127 then
    return NAMED_CONTROLS[code] or ("\\x%02X"):format(code)
  end
  for _, range in ipairs(HIDDEN) do
    if code >= range[1] and code <= range[2] then
      return ("\\u{%04X}"):format(code)
    end
  end
  return character
end

-- Bytes that are not UTF-8 are escaped too, since messages end up in JSON.
local function character_at(text, i)
  if not utf8.len(text, i, i) then
    return ("\\x%02X"):format(text:byte(i)), i + 1
  end
  local code = utf8.codepoint(text, i)
  local character = utf8.char(code)
  return visible(code, character), i + #character
end

-- What was entered, in quotes, long texts shortened.
local function quoted(text)
  local shown, i = {}, 1
  while i <= #text and #shown <= SHOWN do
    shown[#shown + 1], i = character_at(text, i)
  end
  if #shown > SHOWN then
    return '"' .. table.concat(shown, "", 1, SHOWN - 3) .. '..."'
  end
  return '"' .. table.concat(shown) .. '"'
end

--- Text as messages show it: in quotes, short, with control and hidden characters as
-- escapes.
function units.quoted(text)
  if type(text) ~= "string" then
    error("units.quoted: a text expected, got " .. type(text), 2)
  end
  return quoted(text)
end

-- "1.#INF" and "-nan" are what some C libraries print.
local function plain(x)
  if x ~= x then return "nan" end
  if x == math.huge then return "inf" end
  if x == -math.huge then return "-inf" end
  return (point.format("%.14g", x):gsub("[^0-9e+-]+", "."))
end

-- Tables and functions are named by type: an address would make the message
-- differ from run to run.
local function shown_value(v)
  local kind = type(v)
  if kind == "string" then return quoted(v) end
  if kind == "number" then return plain(v) end
  if kind == "nil" or kind == "boolean" then return tostring(v) end
  return "a " .. kind
end

-- nil and the message: what was expected, what came, why, and what to enter instead.
local function refusal(wanted, v, problem, remedy)
  local message = ("%s expected, got %s: %s"):format(wanted, shown_value(v), problem)
  if remedy then message = message .. "; " .. remedy end
  return nil, message
end

-- Whether a number is one: no NaN, no infinity.
local function finite(x)
  return x == x and x ~= math.huge and x ~= -math.huge
end

-- Raises at the line that called the public function which called this one.
local function check(condition, ...)
  if not condition then error(point.format(...), 3) end
end

---------------------------------------------------------------------------
-- Spelling
---------------------------------------------------------------------------

-- string.lower follows the locale, and a single-byte one would change bytes
-- of UTF-8 text.
local LOWER = {}
for code = string.byte("A"), string.byte("Z") do
  LOWER[string.char(code)] = string.char(code + 32)
end

-- Word processors, phones and drawings put these for what the keyboard has.
local foot_mark = P"'" + "\u{2019}" + "\u{2032}"
local inch_mark = P'"' + "\u{201D}" + "\u{2033}" + foot_mark * foot_mark
local dash = P"\u{2010}" + "\u{2011}" + "\u{2013}" + "\u{2212}"
local any_blank = S" \t\r\n" + "\u{A0}" + "\u{2009}" + "\u{202F}"

-- A fraction that is one character stands behind its whole number without a blank.
local vulgar = P(false)
for character, text in pairs {["\u{BC}"] = "1/4", ["\u{BD}"] = "1/2", ["\u{BE}"] = "3/4",
  ["\u{2153}"] = "1/3", ["\u{2154}"] = "2/3", ["\u{215B}"] = "1/8",
  ["\u{215C}"] = "3/8", ["\u{215D}"] = "5/8", ["\u{215E}"] = "7/8"} do
  vulgar = vulgar + P(character) * Cc(text)
end
local fraction_sign = (dash + "-") * vulgar / "-%1" + vulgar / " %1"

local respelled = Cs((inch_mark / '"' + foot_mark / "'" + fraction_sign + dash / "-"
                      + any_blank / " " + P"\u{B2}" / "2" + P"\u{2044}" / "/" + 1)^0)
local trimmed = P" "^0 * C((P" "^0 * (1 - P" ")^1)^0)
local lowered = Cs((R"AZ" / LOWER + 1)^0)

-- Typographic quotes, primes and fractions as a keyboard has them.
local function keyboard_text(text)
  return trimmed:match(respelled:match(text))
end

local blank = P" "^0
local digit = R"09"
local word = R"az" + R"\128\255"
local digits = digit^1
local decimal = digits * (P"." * digits)^-1 + P"." * digits
local finish = blank * -1
local signed = C(P"-"^-1) * blank * Cp()

-- Longest name first. The dot is for "13 ft. 6 in.", common on drawings.
local function spelled(...)
  local names = P(false)
  for _, name in ipairs {...} do names = names + name end
  return names * P"."^-1
end

-- Longest first, or "lb" would hide "lbs"; the second key makes it one order.
local function keywords(map)
  local names = {}
  for name in pairs(map) do names[#names + 1] = name end
  table.sort(names, function(a, b)
    if #a ~= #b then return #a > #b end
    return point.less(a, b)
  end)
  local choice = P(false)
  for _, name in ipairs(names) do choice = choice + name end
  return choice / map
end

-- A pattern that is looked for at every place of a text.
local function anywhere(pattern)
  return (1 - pattern)^0 * pattern
end

-- An offer that would itself be refused helps nobody, so each is read before
-- it is put forward.
local function offer(candidates, read)
  local good = {}
  for _, text in ipairs(candidates) do
    if read(text) then good[#good + 1] = '"' .. text .. '"' end
  end
  if #good == 0 then return nil end
  return "write " .. table.concat(good, " or ")
end

-- Three digits after a comma may be thousands or a decimal comma; the reader
-- of the message decides.
local function without_comma(text)
  local grouped = text:find(",%d%d%d%f[%D]")
  local _, count = text:gsub(",", "")
  local candidates = {}
  if grouped then candidates[1] = (text:gsub(",", "")) end
  if count == 1 then candidates[#candidates + 1] = (text:gsub(",", ".")) end
  return candidates
end

local COMMA = "a comma is not taken, neither for decimals (write a point) nor for "
  .. "thousands (leave it out)"

-- What is wrong whatever the quantity. The text as written comes as Carg(1):
-- the match is on lower case and starts after the sign.
local function common_faults(fail)
  return anywhere(P",") * Carg(1) / fail
    + anywhere(digit * "e" * S"+-"^-1 * digit) * Cc(nil, "exponents are not taken")
    + -anywhere(digit) * Cc(nil, "no number is written")
end

---------------------------------------------------------------------------
-- Lengths in
---------------------------------------------------------------------------

local LENGTH_TAKEN = [[taken are "13-6" (13 ft 6 in), "13'-6 1/2"", "3-1/2 in", ]]
  .. [["13.5 ft", "89 mm", "35 cm", "2.4 m" and plain numbers of inches]]

-- As ratios of whole numbers, so that 254 mm is 10 in to the last bit.
local INCH = {name = "in", num = 1, den = 1, fractions = true}
local FOOT = {name = "ft", num = 12, den = 1, fractions = true}
local MILLIMETRE = {name = "mm", num = 5, den = 127}
local CENTIMETRE = {name = "cm", num = 50, den = 127}
local METRE = {name = "m", num = 5000, den = 127}

local inch = (P'"' + spelled("inches", "inch", "in")) * Cc(INCH)
local foot = (P"'" + spelled("foot", "feet", "ft")) * Cc(FOOT)
local metric =
  spelled("millimetres", "millimeters", "millimetre", "millimeter", "mm") * Cc(MILLIMETRE)
  + spelled("centimetres", "centimeters", "centimetre", "centimeter", "cm")
    * Cc(CENTIMETRE)
  + spelled("metres", "meters", "metre", "meter", "m") * Cc(METRE)
local length_unit = inch + foot + metric

-- Values of an amount {whole =, num =, den =} of digit strings. A fraction of
-- one or more is refused since 13/8 is as likely a slip for 1-3/8 as meant.
local function amount_value(amount)
  local whole = tonumber(amount.whole or "0") + 0.0
  if not amount.den then return whole end
  local num, den = tonumber(amount.num) + 0.0, tonumber(amount.den) + 0.0
  local written = amount.num .. "/" .. amount.den
  if den == 0 then
    return nil, ("the fraction %s has a zero denominator"):format(written)
  elseif num >= den then
    return nil, ("the fraction %s is not less than one"):format(written)
  end
  return whole + num / den
end

-- Inches of feet that are followed by inches, which stay below a foot.
local function feet_and_inches(feet, inches)
  if feet.den or feet.whole:find(".", 1, true) then
    return nil, "feet that are followed by inches must be a whole number"
  end
  local rest, problem = amount_value(inches)
  if not rest then return nil, problem end
  if rest >= 12 then
    return nil, ("inches after feet must be less than 12, not %s"):format(plain(rest))
  end
  return 12 * amount_value(feet) + rest
end

-- An amount in one unit, in base units.
local function one_amount(amount, unit)
  local value, problem = amount_value(amount)
  if not value then return nil, problem end
  if amount.den and not unit.fractions then
    return nil, ("fractions go with in or ft, not with %s"):format(unit.name)
  end
  return value * unit.num / unit.den
end

-- nil and the message for a unit that is not known.
local function unknown_unit(start, text)
  return nil, ("the unit %s is not known"):format(quoted(text:sub(start)))
end

-- A fraction without a unit is refused, with what it may have meant.
local function fraction_alone(sign, text, amount)
  local value, problem = amount_value(amount)
  if not value then return nil, problem end
  return nil, "the unit is missing",
    ('add in or ft: "%s%s in" or "%s%s ft"'):format(sign, text, sign, text)
end

-- "13.6" is often typed for 13-6, and "13.5" for either 13-5 or 13.5 ft; the
-- form that is equal in feet is offered where there is one.
local function feet_dash(text)
  local whole, decimals = text:match("^(%d*)%.(%d+)$")
  local value = tonumber(text)
  if not whole or value >= 100 then return nil end
  if value * 192 % 1 == 0 then return units.feet_inches_dash(value * 12) end
  if decimals:find("^[1-9]$") or decimals:find("^1[01]$") then
    return whole .. "-" .. decimals
  end
end

-- A bare number where a unit is needed: refused, with the likely forms.
local function bare_number(sign, text)
  local forms = {feet_dash(text)}
  if text:find(".", 1, true) then
    forms[#forms + 1] = text .. " ft"
    forms[#forms + 1] = text .. " in"
  else
    forms = {text .. " in", text .. " ft", text .. " mm"}
  end
  for i, form in ipairs(forms) do forms[i] = '"' .. sign .. form .. '"' end
  return nil, "write " .. table.concat(forms, " or "), "text needs its unit"
end

local read_length

local function comma_in_length(text)
  return nil, COMMA, offer(without_comma(text), read_length)
end

local whole_part = Cg(digits, "whole")
local fraction = Cg(digits, "num") * "/" * Cg(digits, "den")
local mixed = whole_part * (P"-" + P" "^1) * fraction
local number = Cg(decimal, "whole")
local amount = Ct(mixed + fraction + number)

-- A lone fraction after a dash is left out here: 3-1/2 is three and a half of
-- something, not 3 ft 1/2 in.
local dashed = Ct(number) * "-" * Ct(mixed + number)

-- Carg(2) is the sign, which the offers repeat.
local length_form =
  amount * blank * length_unit * finish / one_amount
  + amount * blank * (foot / 0) * blank * P"-"^-1 * blank * amount
    * (blank * inch / 0)^-1 * finish / feet_and_inches
  + dashed * (blank * inch / 0)^-1 * finish / feet_and_inches
  + Carg(2) * C(decimal) * finish / bare_number
  + Carg(2) * C(amount) * finish / fraction_alone
  + digits * "-" * digits * "-" * digits * (blank * inch / 0)^-1 * finish
    * Cc(nil, "feet-inches-sixteenths are not taken")
  + (dashed * blank * length_unit * finish / 0)
    * Cc(nil, "this is feet and inches already, no unit but in goes after it")
  + common_faults(comma_in_length)
  + (amount / 0) * blank * Cp() * Carg(1) * word * (1 - digit)^0 * -1 / unknown_unit
  + Cc(nil, "this is not a form of length")

-- Keyboard text -> inches | nil, problem, remedy.
function read_length(text)
  local lower = lowered:match(text)
  local sign, start = signed:match(lower)
  local value, problem, remedy = length_form:match(lower, start, text, sign)
  if not value then return nil, problem, remedy end
  -- Adding zero turns the -0.0 of "-0 in" into 0.0.
  return (sign == "-" and -value or value) + 0.0
end

local function read_text(text, read)
  if #text > LONGEST then
    return nil, ("longer than %d bytes"):format(LONGEST)
  end
  return read(keyboard_text(text))
end

--- Reads a length.
-- @param v a finite number of inches, or text: feet and inches ("13-6",
--   "13'-6 1/2\"", "13-6-1/2", "13 ft 6 in"), or one amount with its unit in
--   in, ft, mm, cm or m ("3-1/2 in", "13.5 ft", "89 mm"). A leading minus
--   makes it negative.
-- @return inches, as a float; or nil and a message that quotes `v`, says what
--   is wrong and what is taken. Never raises.
function units.length(v)
  if lane.is(v) then return v end
  local value, problem, remedy
  if type(v) == "string" then
    value, problem, remedy = read_text(v, read_length)
  elseif type(v) ~= "number" then
    problem = "a length is text or a number of inches"
  elseif finite(v) then
    value = v + 0.0
  else
    problem = "the number is not finite"
  end
  if value then return value end
  return refusal("length", v, problem, remedy or LENGTH_TAKEN)
end

---------------------------------------------------------------------------
-- Loads in
---------------------------------------------------------------------------

local KINDS = {
  area = {
    unit = "psf", name = "an area load (psf)",
    taken = 'taken are "40 psf", "1.9 kPa", "1.5 kN/m2" and plain numbers of psf',
  },
  line = {
    unit = "plf", name = "a line load (plf)",
    taken = 'taken are "80 plf", "66.7 lb/ft", "5.5 lb/in", "2.5 klf", "1.2 kN/m" '
      .. 'and "12 N/mm"',
  },
  point = {
    unit = "lb", name = "a point load (lb)",
    taken = 'taken are "450 lb", "1.2 kip", "2 kN", "100 N" and plain numbers of lb',
  },
}

local ANY_TAKEN = 'taken are area loads ("40 psf", "1.9 kPa"), line loads ("80 plf", '
  .. '"1.2 kN/m") and point loads ("450 lb", "1.2 kip", "2 kN")'

-- A wanted kind that is not given is false, which passes through an LPeg
-- extra argument where nil would not.
local function taken_for(wanted)
  return wanted and KINDS[wanted].taken or ANY_TAKEN
end

local per = units.per
local force = keywords {
  lb = 1, lbs = 1, lbf = 1, kip = 1000, kips = 1000, kn = per.kN, n = per.N,
}

local SQUARE_FOOT = METRE_PER_FOOT * METRE_PER_FOOT   -- m2
local divisor = keywords {
  ["ft2"] = {kind = "area", factor = 1}, ["ft^2"] = {kind = "area", factor = 1},
  ["m2"] = {kind = "area", factor = SQUARE_FOOT},
  ["m^2"] = {kind = "area", factor = SQUARE_FOOT},
  ["ft"] = {kind = "line", factor = 1}, ["in"] = {kind = "line", factor = 12},
  ["m"] = {kind = "line", factor = METRE_PER_FOOT},
  ["mm"] = {kind = "line", factor = 1000 * METRE_PER_FOOT},
}

local abbreviation = keywords {
  psf = {kind = "area", factor = 1}, ksf = {kind = "area", factor = 1000},
  pa = {kind = "area", factor = per.kPa / 1000},
  kpa = {kind = "area", factor = per.kPa},
  plf = {kind = "line", factor = 1}, klf = {kind = "line", factor = 1000},
}

local function in_force(value, factor, over)
  if not over then return tonumber(value) * factor, "point" end
  return tonumber(value) * (factor * over.factor), over.kind
end

local function in_abbreviation(value, unit)
  return tonumber(value) * unit.factor, unit.kind
end

local read_load

-- The kilogram on a data sheet is a mass; what it weighs is offered so that
-- nobody has to look up gravity.
local function mass(sign, value, per_what)
  local weight = units.significant(tonumber(value) * GRAVITY / 1000, 3)
  local form = ("%s%s kN%s"):format(sign, weight, per_what)
  return nil, "kg is a mass, a load is a force", offer({form}, read_load)
end

local function load_without_unit(sign, value, wanted)
  local text = sign .. value
  if wanted then
    return nil, ('write "%s %s"'):format(text, KINDS[wanted].unit), "text needs its unit"
  end
  return nil, ('write "%s psf" or "%s plf" or "%s lb"'):format(text, text, text),
    "text needs its unit"
end

local function comma_in_load(text)
  return nil, COMMA, offer(without_comma(text), read_load)
end

local dot = P"."^-1
local over = blank * "/" * blank * divisor * dot
local per_metre = C((P"/m" * (P"2" + "^2")^-1)^-1)

-- Carg(2) is the sign, Carg(3) the kind wanted or false.
local load_form =
  C(decimal) * blank * abbreviation * dot * finish / in_abbreviation
  + C(decimal) * blank * force * dot * over^-1 * finish / in_force
  + Carg(2) * C(decimal) * finish * Carg(3) / load_without_unit
  + Carg(2) * C(decimal) * blank * "kg" * per_metre * finish / mass
  + common_faults(comma_in_load)
  + decimal * blank * Cp() * Carg(1) * word / unknown_unit
  + Cc(nil, "this is not a form of load")

-- Keyboard text -> value, kind | nil, problem, remedy.
function read_load(text, wanted)
  local lower = lowered:match(text)
  local sign, start = signed:match(lower)
  local value, kind, remedy = load_form:match(lower, start, text, sign, wanted or false)
  if not value then return nil, kind, remedy end
  return (sign == "-" and -value or value) + 0.0, kind
end

local function load_text(v, wanted)
  local value, kind, remedy = read_text(v, function(text)
    return read_load(text, wanted)
  end)
  if value and wanted and kind ~= wanted then
    return nil, ("this is %s, wanted is %s"):format(KINDS[kind].name, KINDS[wanted].name)
  end
  return value, kind, remedy
end

-- A bare number is refused for a line load even where the kind is known: it
-- could as well be psf that still wants the spacing.
local function load_number(v, wanted)
  local text = plain(v)
  if not finite(v) then
    return nil, "the number is not finite"
  elseif not wanted then
    return nil, "a plain number needs its kind",
      ('write "%s psf" or "%s plf" or "%s lb"'):format(text, text, text)
  elseif wanted == "line" then
    return nil, ('write "%s plf"'):format(text), "a line load needs its unit"
  end
  return v + 0.0, wanted
end

--- Reads a load.
-- @param v text with a unit ("40 psf", "1.9 kPa", "66.7 plf", "450 lb"), or,
--   where `kind` is "area" or "point", a finite number of psf or lb.
-- @param kind the kind wanted: "area", "line", "point", or nil for any.
-- @return the value and its kind: psf for "area", plf for "line", lb for
--   "point"; or nil and a message that quotes `v`, says what is wrong and what
--   is taken. Raises only if `kind` is none of these.
function units.load(v, kind)
  if lane.is(v) then return v, kind end
  check(kind == nil or KINDS[kind], 'kind must be "area", "line" or "point", got %s',
        shown_value(kind))
  local value, found, remedy
  if type(v) == "string" then
    value, found, remedy = load_text(v, kind)
  elseif type(v) == "number" then
    value, found, remedy = load_number(v, kind)
  else
    found = "a load is text with a unit"
  end
  if value then return value, found end
  return refusal(kind and kind .. " load" or "load", v, found, remedy or taken_for(kind))
end

---------------------------------------------------------------------------
-- Numbers out
---------------------------------------------------------------------------

-- Share of one step. Far below what a tape can show and far above the noise of
-- the arithmetic, so that 6.0000000001 in rounded up stays 6 in.
local SLACK = 1e-6

local LARGEST = 1e12   -- in; beyond it a sixteenth is lost in the double

-- "down" and "up" are along the number line, also for negative positions.
local ROUND = {
  nearest = function(n)
    if n < 0 then return -math.floor(0.5 - n) end
    return math.floor(n + 0.5)
  end,
  down = function(n) return math.floor(n + SLACK) end,
  up = function(n) return math.ceil(n - SLACK) end,
}

local DENOMINATORS = {[1] = true, [2] = true, [4] = true, [8] = true, [16] = true}
local OPTIONS = {denominator = true, round = true}

-- Options -> denominator, rounding function | nil, problem.
local function read_options(opts)
  if type(opts) ~= "table" then
    return nil, "options must be a table, got " .. shown_value(opts)
  end
  for key in ordered(opts) do
    if not OPTIONS[key] then
      return nil, "only denominator and round are options, got " .. shown_value(key)
    end
  end
  local denominator, round = opts.denominator or 16, opts.round or "nearest"
  if not DENOMINATORS[denominator] then
    return nil, "denominator must be 1, 2, 4, 8 or 16, got " .. shown_value(denominator)
  elseif not ROUND[round] then
    return nil, 'round must be "nearest", "down" or "up", got ' .. shown_value(round)
  end
  return math.tointeger(denominator), ROUND[round]
end

-- A fraction in lowest terms.
local function reduced(num, den)
  while num % 2 == 0 do num, den = num // 2, den // 2 end
  return ("%d/%d"):format(num, den)
end

-- Inches -> sign, whole inches, reduced fraction or nil. Raises at the line
-- that called the public function which called this one.
local function on_tape(x, opts)
  if type(x) ~= "number" or not (x >= -LARGEST and x <= LARGEST) then
    error("a length in inches is needed, got " .. shown_value(x), 3)
  end
  local denominator, round = read_options(opts or {})
  if not denominator then error(round, 3) end
  local steps = round(x * denominator)
  local size = math.abs(steps)
  local part = size % denominator
  return steps < 0 and "-" or "", size // denominator,
    part > 0 and reduced(part, denominator) or nil
end

-- Whole inches with a fraction, or alone.
local function with_fraction(whole, part)
  return part and ("%d %s"):format(whole, part) or ("%d"):format(whole)
end

--- Prints inches as feet and inches: 162.5 is `13'-6 1/2"`, zero is `0'-0"`.
-- @param x inches, between -1e12 and 1e12
-- @param opts {denominator = 16 | 8 | 4 | 2 | 1, round = "nearest" | "down" | "up"}
-- @return text, which units.length reads back; raises on other arguments
function units.feet_inches(x, opts)
  local sign, whole, part = on_tape(x, opts)
  return ("%s%d'-%s\""):format(sign, whole // 12, with_fraction(whole % 12, part))
end

--- Prints inches in the short form of the trade: 162 is `13-6`, 162.5 is
-- `13-6 1/2`. Arguments and errors as for units.feet_inches.
function units.feet_inches_dash(x, opts)
  local sign, whole, part = on_tape(x, opts)
  return ("%s%d-%s"):format(sign, whole // 12, with_fraction(whole % 12, part))
end

--- Prints inches with a fraction and without feet: 6.5 is `6 1/2"`, 0.5 is
-- `1/2"`. Arguments and errors as for units.feet_inches.
function units.inches(x, opts)
  local sign, whole, part = on_tape(x, opts)
  local text = whole == 0 and part or with_fraction(whole, part)
  return sign .. text .. '"'
end

-- Whether n is a whole number in a range.
local function is_count(n, low, high)
  return math.type(n) == "integer" and n >= low and n <= high
end

-- Whether x is a number that can be printed.
local function is_finite_number(x)
  return type(x) == "number" and finite(x)
end

--- Prints a number with `n` decimals (0 to 20), with a point in every locale
-- and without a minus in front of zero.
-- @return text; raises unless `x` is finite and `n` is such an integer
function units.fixed(x, n)
  check(is_finite_number(x), "a finite number is needed, got %s", shown_value(x))
  check(is_count(n, 0, 20), "decimals must be 0 to 20, got %s", shown_value(n))
  local text = ("%." .. n .. "f"):format(x):gsub("[^0-9-]+", ".")
  if not text:find("[1-9]") then text = text:gsub("^-", "") end
  return text
end

-- Places the point into the digits of d.ddd * 10^exponent.
local function placed(figures, exponent)
  local short = exponent + 1 - #figures
  if short >= 0 then return figures .. ("0"):rep(short) end
  if exponent < 0 then return "0." .. ("0"):rep(-exponent - 1) .. figures end
  return figures:sub(1, exponent + 1) .. "." .. figures:sub(exponent + 2)
end

--- Prints a number rounded to `n` significant digits (1 to 17): 1234.5 to 3 is
-- "1230", 40 to 3 is "40.0". Plain decimals from 1e-4 to below 1e10, with an
-- exponent outside; zero is "0".
-- @return text; raises unless `x` is finite and `n` is such an integer
function units.significant(x, n)
  check(is_finite_number(x), "a finite number is needed, got %s", shown_value(x))
  check(is_count(n, 1, 17), "digits must be 1 to 17, got %s", shown_value(n))
  if x == 0 then return "0" end
  local sign = x < 0 and "-" or ""
  local text = ("%." .. (n - 1) .. "e"):format(x)
  local figures, exponent = text:match("^(.*)e(.*)$")
  figures, exponent = figures:gsub("[^0-9]", ""), math.tointeger(tonumber(exponent))
  if exponent >= -4 and exponent <= 9 then return sign .. placed(figures, exponent) end
  return sign .. placed(figures, 0) .. "e" .. exponent
end

return units
