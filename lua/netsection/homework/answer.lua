-- SPDX-License-Identifier: MIT
-- A number as a student writes it: with or without its symbol and unit, as a fraction,
-- with thousands, powers of ten, in feet and inches. Lengths and loads are read by
-- units.lua; moments, stresses and properties of sections here.
local lpeg = require "lpeg"
local point = require "netsection.point"
local units = require "netsection.units"

local answer = {}

local per = units.per

-- Names of units, without blanks, dots and carets and in small letters, by quantity.
local MOMENT = {["ft-lb"] = 1, ["lb-ft"] = 1, ftlb = 1, lbft = 1, ftlbs = 1, lbsft = 1,
  ["ft-lbs"] = 1,
  ["lbs-ft"] = 1, ["in-lb"] = 1 / 12, ["lb-in"] = 1 / 12, inlb = 1 / 12, lbin = 1 / 12,
  ["kip-ft"] = 1000, ["ft-kip"] = 1000, ["k-ft"] = 1000, ["kip-in"] = 1000 / 12,
  ["in-kip"] = 1000 / 12, ["k-in"] = 1000 / 12, kipft = 1000,
  kft = 1000, ftkip = 1000, kipin = 1000 / 12, ["kn-m"] = per.kN / per.ft * per.m,
  knm = per.kN / per.ft * per.m, nm = per.N / per.ft * per.m,
  nmm = per.N / per.ft * per.mm}
local STRESS = {psi = 1, ksi = 1000, mpa = per.MPa, ["n/mm2"] = per.MPa,
  ["lb/in2"] = 1, psf = 1 / 144}
local AREA = {in2 = 1, sqin = 1, ft2 = 144, sqft = 144, sf = 144, mm2 = per.mm * per.mm,
  cm2 = per.cm ^ 2, m2 = per.m ^ 2}
local MODULUS = {in3 = 1, cuin = 1, ft3 = 1728, mm3 = per.mm ^ 3, cm3 = per.cm ^ 3}
local INERTIA = {in4 = 1, ft4 = 20736, mm4 = per.mm ^ 4, cm4 = per.cm ^ 4}
local FORCE = {k = 1000, kip = 1000, kips = 1000, lb = 1, lbs = 1, ["#"] = 1, lbf = 1,
  kn = per.kN, n = per.kN / 1000}
local NONE = {["%"] = 0.01, percent = 0.01}
local COUNT = {nails = 1, bolts = 1, screws = 1, fasteners = 1, nail = 1, bolt = 1,
  screw = 1, fastener = 1, cuts = 1, cut = 1, pieces = 1}

-- Quantity of the unit that a part asks for, and that unit in the quantity's own.
local ASKED = {
  ft = {"length", 12}, ["in"] = {"length", 1},
  lb = {"point", 1}, plf = {"line", 1}, ["lb/in"] = {"line", 12}, psf = {"area", 1},
  ["ft-lb"] = {MOMENT, 1}, ["lb-in"] = {MOMENT, 1 / 12}, psi = {STRESS, 1},
  in2 = {AREA, 1}, ft2 = {AREA, 144}, in3 = {MODULUS, 1}, in4 = {INERTIA, 1},
  [""] = {NONE, 1}, count = {COUNT, 1},
  mm = {"length", per.mm}, m = {"length", per.m}, kN = {"point", per.kN},
  N = {"point", per.N}, ["kN/m"] = {"line", per["kN/m"]},
  ["kN/m2"] = {"area", per.kPa}, ["kN m"] = {MOMENT, per.kN / per.ft * per.m},
  ["N/mm2"] = {STRESS, per.MPa}, mm2 = {AREA, per.mm * per.mm}, m2 = {AREA, per.m ^ 2},
  mm3 = {MODULUS, per.mm ^ 3}, mm4 = {INERTIA, per.mm ^ 4},
}
local TABLES = {MOMENT, STRESS, AREA, MODULUS, INERTIA, NONE, COUNT}

---------------------------------------------------------------------------- numbers

local C, Cc, Cp, P, R, S = lpeg.C, lpeg.Cc, lpeg.Cp, lpeg.P, lpeg.R, lpeg.S
local digit = R"09"
local three = digit * digit * digit

local function plain(text)
  return tonumber((text:gsub(",", ""))) + 0.0
end

local function scaled(value, power)
  local n = tonumber(power)
  if math.abs(n) > 30 then return math.huge end
  local result = value
  for _ = 1, math.abs(n) do result = n < 0 and result / 10 or result * 10 end
  return result
end

local function quotient(a, b)
  b = tonumber(b)
  if b == 0 then return false end
  return tonumber(a) / b
end

local grouped = digit * digit^-2 * (P"," * three)^1 * (P"." * digit^1)^-1 * -S",."
local decimals = digit^1 * (P"." * digit^0)^-1 + P"." * digit^1
local exponent = S"eE" * S"+-"^-1 * digit^1 * -R("az", "AZ")
local fraction = C(digit^1) * "/" * C(digit^1) / quotient
local mixed = C(digit^1) * (P" "^1 + P"-") * fraction
  / function(whole, part) return part and tonumber(whole) + part end
-- 4.06 x 10^2: the sign of the product in any of its forms.
local times = P" "^0 * (S"xX*" + "\u{D7}" + "\u{B7}" + "\u{22C5}") * P" "^0 * P"10^"
  * P"("^-1 * C(S"+-"^-1 * digit^1) * P")"^-1
local number = mixed + fraction + C(grouped) / plain
  + C(decimals) / plain * times / scaled + C(decimals * exponent^-1) / plain
local sign = S"+-" * P" "^0
local form = (P"-" * P" "^0 * Cc(-1) + sign^-1 * Cc(1)) * number * P" "^0 * Cp()

-- Text -> number, what follows it | nil.
local function leading(text)
  local way, value, after = form:match(text)
  if not way then return nil, "no number is written" end
  if not value then return nil, "a fraction with a zero denominator" end
  if value ~= value or value == math.huge then return nil, "the number is too large" end
  return way * value, text:sub(after)
end

local function spelled(unit)
  return (unit:lower():gsub("lbf%f[%A]", "lb"):gsub("[%s.^*]", "")
    :gsub("\u{B7}", ""):gsub("\u{B2}", "2"):gsub("\u{B3}", "3"):gsub("\u{2074}", "4")
    :gsub("squarefeet", "sqft"):gsub("squareinches", "sqin"):gsub("pounds?", "lb")
    :gsub("cubicinches", "in3"):gsub("inches", "in"):gsub("foot", "ft")
    :gsub("feet", "ft"):gsub("kips", "kip"))
end

---------------------------------------------------------------------------- reading

local DASHES = {"\u{2010}", "\u{2011}", "\u{2013}", "\u{2212}"}

-- As a keyboard has it: dashes, blanks, primes; an apostrophe that a spreadsheet put in
-- front; a symbol and a sign of equality before the number; "per" for a stroke; a full
-- stop at the end.
local function cleaned(text)
  for _, dash in ipairs(DASHES) do text = text:gsub(dash, "-") end
  text = text:gsub("\u{A0}", " "):gsub("\u{202F}", " "):gsub("%s+", " ")
  text = text:gsub("^ *'([=+@-])", "%1"):gsub("^ +", ""):gsub(" +$", "")
  text = text:gsub("^%a[%w_']* *=+ *", ""):gsub("^[=~\u{2248}]+ *", "")
  text = text:gsub("([%a%d])%.$", "%1"):gsub(" [Pp][Ee][Rr] ", "/")
  text = text:gsub("^(%-?)0+(%d)", "%1%2")
  return (text:gsub(" *#$", " lb"):gsub(" *#/", " lb/"))
end

-- A decimal comma where the course writes one: points are then thousands.
local function with_point(text)
  return (text:gsub("(%d)%.(%d%d%d)%f[%D]", "%1%2"):gsub("(%d),(%d)", "%1.%2")
    :gsub("^(%-?),(%d)", "%10.%2"))
end

-- A unit of length or load as the trade writes it.
local function trade(unit)
  return (unit:lower():gsub("pounds?", "lb"):gsub("lbs", "lb"):gsub("foot", "ft")
    :gsub("feet", "ft"):gsub("inch[es]*", "in"):gsub("in%.$", "in"))
end

-- True where the unit belongs to another quantity than the one asked.
local function of_another(text, unit, asked)
  if asked ~= "length" and units.length(text) then return true end
  local value, kind = units.load(text)
  if value and kind ~= asked then return true end
  for _, names in ipairs(TABLES) do
    if names ~= asked and names[unit] then return true end
  end
end

-- A number with a unit by units.lua -> value in its base unit | nil.
local function by_units(text, quantity)
  if quantity == "length" then return (units.length(text)) end
  if type(quantity) == "string" then return (units.load(text, quantity)) end
end

--- Reads an answer.
-- @param text as it was written; @param unit the unit that is asked for
-- @param decimal "," where the course writes decimal commas
-- @return value in that unit; or nil and what is wrong; or nil, what is wrong and true
--   where it is a good number in a unit of another quantity
function answer.number(text, unit, decimal)
  local quantity, factor = ASKED[unit][1], ASKED[unit][2]
  if #text > 80 then return nil, "longer than 60 characters" end
  text = cleaned(text)
  if decimal == "," then text = with_point(text) end
  if #text > 60 then return nil, "longer than 60 characters" end
  local value, rest = leading(text)
  if value and rest == "" then return value end
  local read = by_units(text, quantity)
    or value and rest ~= "" and by_units(point.format("%.17g %s", value, trade(rest)),
      quantity)
  if read then return read / factor end
  local name = value and spelled(rest)
  if value and type(quantity) == "table" and quantity[name] then
    return value * quantity[name] / factor
  elseif value and quantity == "point" and FORCE[name] then
    return value * FORCE[name] / factor
  elseif of_another(text, name or "", quantity) then
    return nil, ("the answer is asked in %s"):format(unit == "" and "no unit"
      or unit == "count" and "a whole number" or unit), true
  end
  return nil, value and "its unit is not known" or rest
end

--- Reads one of several words, in any case, or so much of it that it is no other.
-- @return the word; or nil and what is wrong
function answer.choice(text, list)
  local said, found = text:lower():gsub("^[%s'\"]+", ""):gsub("[%s%.!'\"]+$", ""), nil
  for _, word in ipairs(list) do
    if said == word then return word end
    local rest = said:sub(#word + 1)
    if said:sub(1, #word) == word and rest:find "^[,;:%.(]" then return word end
    if #said > 0 and word:sub(1, #said) == said then
      if found then return nil, "one of " .. table.concat(list, ", ") .. " expected" end
      found = word
    end
  end
  return found, not found and "one of " .. table.concat(list, ", ") .. " expected" or nil
end

--- Whether a unit can be asked for.
function answer.knows(unit)
  return ASKED[unit] ~= nil
end

return answer
