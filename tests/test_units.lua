-- SPDX-License-Identifier: MIT
--- Lengths and loads in, numbers out.
--
-- Expected values follow from the exact definitions (1 ft = 12 in,
-- 1 in = 25.4 mm, 1 lbf = 4.4482216152605 N) and are written as literals or as
-- that arithmetic, never computed with the module's own factors.

local lu = require "luaunit"
local units = require "netsection.units"

local tests = {}

local NOT_ASCII = {
  prime = "\u{2032}", double_prime = "\u{2033}", quote = "\u{2019}",
  double_quote = "\u{201D}", en_dash = "\u{2013}", hard_hyphen = "\u{2011}",
  hyphen = "\u{2010}", minus = "\u{2212}", hard_blank = "\u{A0}", thin = "\u{2009}",
  narrow = "\u{202F}",
}

-- "{prime}" in a case stands for the character, so that lookalikes stay legible.
local function spell(text)
  return (text:gsub("{([a-z_]+)}", NOT_ASCII))
end

local function holds(text, piece)
  return text:find(piece, 1, true) ~= nil
end

local function assert_piece(message, piece, input)
  lu.assertIsString(message, input)
  lu.assertTrue(holds(message, piece),
    ("%s: %q not in %q"):format(tostring(input), piece, message))
end

local function assert_near(actual, expected, input)
  lu.assertAlmostEquals(actual, expected, 1e-12 * math.max(1, math.abs(expected)), input)
end

-- The generator is our own so that a failing case is the same one everywhere.
local function generator(seed)
  local state = seed
  return function(n)
    state = (state * 6364136223846793005 + 1442695040888963407)
    return (state >> 33) % n
  end
end

---------------------------------------------------------------------------
-- Lengths
---------------------------------------------------------------------------

local LENGTHS = {
  -- feet and inches without marks, as written on framing plans
  {"13-6", 162}, {"0-6", 6}, {"13-0", 156}, {"1-0", 12}, {"13-06", 162},
  {"13-11", 167}, {"100-0", 1200}, {"13-6-1/2", 162.5}, {"13-6 1/2", 162.5},
  {"13-6  1/2", 162.5}, {"13-0-3/16", 156.1875}, {"0-0 1/16", 0.0625},
  {"13-11-15/16", 167.9375}, {"13-6.5", 162.5}, {'13-6"', 162},
  {'13-6-1/2"', 162.5}, {"13-6 1/2 in", 162.5},
  -- with marks
  {[[13'-6"]], 162}, {[[13'-6 1/2"]], 162.5}, {[[13' 6 1/2"]], 162.5},
  {[[13'6"]], 162}, {[[13'-6-1/2"]], 162.5}, {[[13' - 6"]], 162},
  {[[13' -6"]], 162}, {[[13'- 6"]], 162}, {[[13'-6]], 162}, {[[13' 6]], 162},
  {[[13'-6'']], 162}, {[[13' 1/2"]], 156.5},
  {[[13'-0"]], 156}, {[[0'-0"]], 0}, {[[0'-0 1/2"]], 0.5}, {[[13'-6.25"]], 162.25},
  {"13'", 156}, {"13.5'", 162}, {"13 '", 156},
  -- with words
  {"13 ft", 156}, {"13ft", 156}, {"13 ft.", 156}, {"13 feet", 156}, {"1 foot", 12},
  {"13.5 ft", 162}, {"13 1/2 ft", 162}, {"3-1/2 ft", 42}, {"1/2 ft", 6},
  {"13 ft 6 in", 162}, {"13 ft. 6 in.", 162}, {"13ft6in", 162}, {"13 ft-6 in", 162},
  {"13 FT 6 IN", 162}, {"13 Feet 6 Inches", 162}, {"13 ft 6 1/2 in", 162.5},
  {"13 ft 6", 162}, {[[13 ft 6"]], 162}, {[[13' 6 in]], 162},
  -- inches
  {[[6 1/2"]], 6.5}, {[[6-1/2"]], 6.5}, {"3-1/2 in", 3.5}, {"3 1/2 in", 3.5},
  {"3-1/2in.", 3.5}, {[[1/2"]], 0.5}, {"1/2 in", 0.5}, {[[7.25"]], 7.25},
  {"7.25 in", 7.25}, {"7.25in", 7.25}, {"5 inches", 5}, {"1 inch", 1}, {"1 Inch.", 1},
  {".5 in", 0.5}, {"0.5 IN", 0.5}, {[[162"]], 162}, {"0 in", 0}, {"13''", 13},
  {"1/3 in", 1 / 3}, {"0/8 in", 0}, {"007 in", 7}, {"  13-6  ", 162},
  {"\t13-6\r\n", 162}, {"13\tft", 156},
  -- metric: 25.4 mm is an inch exactly
  {"89 mm", 89 / 25.4}, {"4115mm", 4115 / 25.4}, {"25.4 mm", 1}, {"254 mm", 10},
  {"304.8 mm", 12}, {"2.4 m", 2400 / 25.4}, {"4.115 m", 4115 / 25.4},
  {"0.3048 m", 12}, {"35 cm", 350 / 25.4}, {"2.54 cm", 1}, {"2.4 M", 2400 / 25.4},
  {"89 MM.", 89 / 25.4}, {"89 millimetres", 89 / 25.4}, {"1 millimeter", 1 / 25.4},
  {"2 metres", 2000 / 25.4}, {"1 meter", 1000 / 25.4}, {"3 centimeters", 30 / 25.4},
  -- what word processors and drawings put for quotes, dashes and blanks
  {"13{prime}-6{double_prime}", 162}, {"13{quote}-6{double_quote}", 162},
  {"13{quote} 6 1/2{double_quote}", 162.5}, {"13{prime}6{prime}{prime}", 162},
  {"6{quote}{quote}", 6}, {"13{en_dash}6", 162}, {"13{hard_hyphen}6", 162},
  {"13{hyphen}6", 162}, {"13{minus}6", 162}, {"13'{en_dash}6\"", 162},
  {"3{en_dash}1/2 in", 3.5}, {"89{hard_blank}mm", 89 / 25.4},
  {"89{thin}mm", 89 / 25.4}, {"89{narrow}mm", 89 / 25.4},
  {"{hard_blank}13{prime} 6{hard_blank}1/2{double_prime} ", 162.5},
  -- positions on an overhang
  {"-12 in", -12}, {"-1-0", -12}, {"{minus}1-0", -12}, {"{en_dash}1-0", -12},
  {[[-0'-6"]], -6}, {"- 12 in", -12}, {"-1/2 in", -0.5}, {"-89 mm", -89 / 25.4},
  {[[-1'-6 1/2"]], -18.5},
}

function tests.test_lengths_are_read()
  for _, case in ipairs(LENGTHS) do
    local text, expected = spell(case[1]), case[2]
    local value, message = units.length(text)
    lu.assertNil(message, message)
    assert_near(value, expected, text)
  end
end

function tests.test_whole_metric_inches_are_exact()
  for n = 1, 500 do
    lu.assertEquals(units.length(("%d mm"):format(127 * n)), 5 * n)
  end
end

function tests.test_numbers_are_inches()
  lu.assertEquals(units.length(162), 162)
  lu.assertEquals(units.length(3.5), 3.5)
  lu.assertEquals(units.length(-12), -12)
  lu.assertEquals(units.length(0), 0)
end

function tests.test_a_length_is_a_float_without_negative_zero()
  for _, v in ipairs {"13-6", 162, "-0 in", -0.0, "0-0"} do
    local value = units.length(v)
    lu.assertEquals(math.type(value), "float")
    lu.assertTrue(value ~= 0 or 1 / value > 0)
  end
end

local BAD_LENGTHS = {
  -- a number without a unit, with the forms that it may stand for
  {"13.5", [["13.5": write "13-6" or "13.5 ft" or "13.5 in"]]},
  {"13.6", [[write "13-6" or "13.6 ft" or "13.6 in"]]},
  {"13.10", [[write "13-10" or "13.10 ft"]]},
  {"13.05", [[write "13.05 ft" or "13.05 in"]]},
  {"7.25", [[write "7-3" or "7.25 ft"]]}, {".5", [[write "0-6" or ".5 ft"]]},
  {"-7.5", [[write "-7-6" or "-7.5 ft"]]},
  {"162.5", [[write "162.5 ft" or "162.5 in"]]},
  {"13.125", [[write "13-1 1/2" or "13.125 ft"]]},
  {"162", [[write "162 in" or "162 ft" or "162 mm"]]},
  {"0", [[write "0 in"]]}, {" 13.5 ", [[write "13-6"]]},
  {("9"):rep(60), [[write "999]]},
  -- a fraction without a unit
  {"1/2", [[add in or ft: "1/2 in" or "1/2 ft"]]},
  {"3-1/2", [[add in or ft: "3-1/2 in" or "3-1/2 ft"]]},
  {"3 1/2", [["3 1/2 in" or "3 1/2 ft"]]}, {"-1/2", [["-1/2 in"]]},
  -- fractions
  {"1/0", "1/0 has a zero denominator"}, {"1/0 in", "1/0 has a zero denominator"},
  {"3-1/0", "zero denominator"}, {"13-6-1/0", "zero denominator"},
  {"0/0 in", "zero denominator"}, {[[13-6-9/8"]], "9/8 is not less than one"},
  {[[13-6-8/8"]], "8/8 is not less than one"}, {"13/8 in", "not less than one"},
  {[[13'-9/8"]], "9/8 is not less than one"}, {"1/2 mm", "not with mm"},
  {"3-1/2 cm", "not with cm"}, {"2 1/2 m", "not with m"},
  -- feet and inches
  {"13-14", "less than 12, not 14"}, {"13-12", "less than 12, not 12"},
  {[[13'-12"]], "less than 12"}, {"13 ft 14 in", "less than 12"},
  {"13-12-1/2", "less than 12, not 12.5"}, {"13.5-6", "must be a whole number"},
  {[[13.5' 6"]], "must be a whole number"}, {"13 1/2 ft 6 in", "must be a whole number"},
  {"13-6-8", "sixteenths are not taken"}, {"13-06-08", "sixteenths"},
  {[[13-6-8"]], "sixteenths"}, {"13-6 ft", "feet and inches already"},
  {"13-6 mm", "feet and inches already"}, {"13-6'", "feet and inches already"},
  -- commas and exponents
  {"13,5 ft", [[write "13.5 ft"]]}, {"2,4 m", [[write "2.4 m"]]},
  {"-2,4 M", [[write "-2.4 M"]]}, {"1,200 mm", [[write "1200 mm" or "1.200 mm"]]},
  {"1,234,567 mm", [[write "1234567 mm"]]}, {"13,5", "a comma is not taken"},
  {",", "a comma is not taken"}, {"1e3 in", "exponents"}, {"1E-3 in", "exponents"},
  {"1e+3", "exponents"},
  -- no length at all
  {"", "no number"}, {"   ", "no number"}, {"nan", "no number"}, {"inf", "no number"},
  {"-inf", "no number"}, {"ft", "no number"}, {"'", "no number"}, {"-", "no number"},
  {"13 yd", [[the unit "yd" is not known]]}, {"40 psf", [[the unit "psf"]]},
  {"13 Rods", [[the unit "Rods"]]}, {"5 kg", [[the unit "kg"]]},
  {"13 inx", [[the unit "inx"]]}, {"0x10 in", "not a form of length"},
  {"13 - 6", "not a form of length"}, {"--5 in", "not a form of length"},
  {"+5 in", "not a form of length"}, {"5. in", "not a form of length"},
  {"13' 6 mm", "not a form of length"}, {[[13"6']], "not a form of length"},
  {"5 m 20 cm", "not a form of length"}, {"13-", "not a form of length"},
  {"13-6-", "not a form of length"}, {"1/2/3 in", "not a form of length"},
  {"1.2.3 in", "not a form of length"}, {"6 in 5 in", "not a form of length"},
  {"13-6 13-6", "not a form of length"}, {"1 2 in", "not a form of length"},
  {"13'-6'''", "not a form of length"},
  {"13-6\0", "not a form of length"}, {"\u{FEFF}13-6", "not a form of length"},
  {("1"):rep(65) .. " in", "longer than 64 bytes"},
}

function tests.test_bad_lengths_are_refused_with_a_reason()
  for _, case in ipairs(BAD_LENGTHS) do
    local value, message = units.length(case[1])
    lu.assertNil(value, case[1])
    assert_piece(message, case[2], case[1])
    assert_piece(message, 'length expected, got "', case[1])
    lu.assertTrue(holds(message, "taken are") or holds(message, "write ")
      or holds(message, "add in or ft"), message)
  end
end

function tests.test_every_length_offered_is_taken()
  for _, case in ipairs(BAD_LENGTHS) do
    local _, message = units.length(case[1])
    local offers = message:match(": write (.*);") or message:match("; write (.*)$")
      or message:match("add in or ft: (.*)$")
    for form in (offers or ""):gmatch('"([^"]+)"') do
      if not form:find("...", 1, true) then
        lu.assertIsNumber(units.length(form), form)
      end
    end
  end
end

function tests.test_other_types_are_no_lengths()
  local function f() end
  for shown, v in pairs {
    ["true"] = true, ["false"] = false, ["a table"] = {}, ["a function"] = f,
    ["a thread"] = coroutine.create(f), ["a userdata"] = io.stdout,
  } do
    local value, message = units.length(v)
    lu.assertNil(value)
    assert_piece(message, "length expected, got " .. shown .. ": ", shown)
  end
  assert_piece(select(2, units.length(nil)), "length expected, got nil: ", "nil")
  assert_piece(select(2, units.length()), "length expected, got nil: ", "nothing")
end

function tests.test_numbers_that_are_not_finite_are_refused()
  for shown, v in pairs {inf = math.huge, ["-inf"] = -math.huge, nan = 0 / 0} do
    local value, message = units.length(v)
    lu.assertNil(value)
    assert_piece(message, "got " .. shown .. ": the number is not finite", shown)
    lu.assertNil(units.load(v, "area"))
  end
end

function tests.test_messages_show_what_cannot_be_seen()
  for text, shown in pairs {
    ["a\0b"] = [["a\x00b"]], ["a\nb\tc\r"] = [["a\nb\tc\r"]],
    ["\27[31m"] = [["\x1B[31m"]], ["x\xFFy"] = [["x\xFFy"]],
    ["\xE2\x80"] = [["\xE2\x80"]], ["a\u{202E}b"] = [["a\u{202E}b"]],
    ["\u{FEFF}x"] = [["\u{FEFF}x"]], ["\u{85}"] = [["\u{0085}"]], ["é"] = [["é"]],
    ["\127"] = [["\x7F"]], ["1\x80\x81"] = [["1\x80\x81"]],
  } do
    assert_piece(select(2, units.length(text)), "got " .. shown .. ":", text)
  end
end

function tests.test_messages_shorten_long_input()
  local forty, longer = ("é"):rep(40), ("é"):rep(41)
  assert_piece(select(2, units.length(forty)), '"' .. forty .. '"', forty)
  assert_piece(select(2, units.length(longer)), '"' .. ("é"):rep(37) .. '..."', longer)
  lu.assertTrue(#select(2, units.length(("x"):rep(1e6))) < 400)
end

---------------------------------------------------------------------------
-- Loads
---------------------------------------------------------------------------

local LB = 4.4482216152605     -- N
local FT = 0.3048              -- m

local LOADS = {
  {"40 psf", 40, "area"}, {"40psf", 40, "area"}, {"40 PSF.", 40, "area"},
  {"12.5 psf", 12.5, "area"}, {"40 lb/ft2", 40, "area"}, {"40 lb/ft^2", 40, "area"},
  {"40 lb/ft²", 40, "area"}, {"40 lbs / ft2", 40, "area"}, {"1 ksf", 1000, "area"},
  {"1.9 kPa", 1900 * FT * FT / LB, "area"}, {"1900 Pa", 1900 * FT * FT / LB, "area"},
  {"1.5 kN/m2", 1500 * FT * FT / LB, "area"}, {"1.5 kN/m^2", 1500 * FT * FT / LB, "area"},
  {"1.5 kN/m²", 1500 * FT * FT / LB, "area"}, {"1500 N/m2", 1500 * FT * FT / LB, "area"},
  -- published to seven figures: 1 kPa = 20.88543 psf
  {"1 kPa", 20.885434233150, "area"},
  {"66.7 plf", 66.7, "line"}, {"66.7 lb/ft", 66.7, "line"},
  {"66.7 lbs/ft.", 66.7, "line"}, {"66.7 lbf/ft", 66.7, "line"},
  {"5.5 lb/in", 66, "line"}, {"2.5 klf", 2500, "line"},
  {"2.5 kip/ft", 2500, "line"}, {"1.2 kN/m", 1200 * FT / LB, "line"},
  {"1200 N/m", 1200 * FT / LB, "line"}, {"12 N/mm", 12000 * FT / LB, "line"},
  -- published to seven figures: 1 kN/m = 68.52177 plf
  {"1 kN/m", 68.521765856792, "line"},
  {"450 lb", 450, "point"}, {"450 lbs", 450, "point"}, {"450 lbf", 450, "point"},
  {"450 lb.", 450, "point"}, {"1.2 kip", 1200, "point"}, {"1.2 kips", 1200, "point"},
  {"2 kN", 2000 / LB, "point"}, {"100 N", 100 / LB, "point"},
  {"2 KN", 2000 / LB, "point"},
  -- published to seven figures: 1 kN = 224.8089 lbf
  {"1 kN", 224.80894309971, "point"},
  {"  450{hard_blank}lb ", 450, "point"}, {".5 kip", 500, "point"}, {"0 psf", 0, "area"},
  {"-450 lb", -450, "point"}, {"{minus}5 psf", -5, "area"},
}

function tests.test_loads_are_read()
  for _, case in ipairs(LOADS) do
    local text = spell(case[1])
    local value, kind = units.load(text)
    lu.assertIsNumber(value, kind)
    assert_near(value, case[2], text)
    lu.assertEquals(kind, case[3], text)
    lu.assertEquals({units.load(text, kind)}, {value, kind}, text)
  end
end

function tests.test_numbers_are_loads_of_the_kind_wanted()
  lu.assertEquals({units.load(40, "area")}, {40, "area"})
  lu.assertEquals({units.load(450, "point")}, {450, "point"})
  lu.assertEquals(math.type((units.load(450, "point"))), "float")
end

local BAD_LOADS = {
  {80, "line", [[line load expected, got 80: write "80 plf"]]},
  {80.0, "line", [[80: write "80 plf"]]}, {66.7, "line", [[66.7: write "66.7 plf"]]},
  {40, nil, [[got 40: a plain number needs its kind]]},
  {40, nil, [[write "40 psf" or "40 plf" or "40 lb"]]},
  {"40", nil, [[write "40 psf" or "40 plf" or "40 lb"]]},
  {"40", "area", [[write "40 psf"; text]]}, {"450", "point", [[write "450 lb"]]},
  {"80", "line", [[write "80 plf"]]}, {"-80", "line", [[write "-80 plf"]]},
  {"450 lb", "area", "a point load (lb), wanted is an area load (psf)"},
  {"40 psf", "line", "an area load (psf), wanted is a line load (plf)"},
  {"1 kN/m", "point", "a line load (plf), wanted is a point load (lb)"},
  -- 200 kg under standard gravity, 9.80665 m/s2, weigh 1.96133 kN
  {"200 kg", nil, [[kg is a mass, a load is a force; write "1.96 kN"]]},
  {"200 kg/m2", nil, [[write "1.96 kN/m2"]]}, {"200 KG/m²", nil, [[write "1.96 kN/m2"]]},
  {"-200 kg/m", nil, [[write "-1.96 kN/m"]]}, {"0 kg", nil, [[write "0 kN"]]},
  {("9"):rep(60) .. " kg", nil, "kg is a mass, a load is a force; taken are"},
  {"1,200 lb", nil, [[write "1200 lb" or "1.200 lb"]]},
  {"1,5 kPa", nil, [[write "1.5 kPa"]]}, {"1,2,3 lb", nil, "a comma is not taken"},
  {"1,000,000 lb", nil, [[write "1000000 lb"]]}, {"1e3 lb", nil, "exponents"},
  {"", nil, "no number"}, {"nan", nil, "no number"}, {"psf", nil, "no number"},
  {"40 psi", nil, [[the unit "psi" is not known]]}, {"5 t", nil, [[the unit "t"]]},
  {"40 lb-ft", nil, [[the unit "lb-ft"]]}, {"40 lb/yd", nil, [[the unit "lb/yd"]]},
  {"40 psf live", nil, [[the unit "psf live"]]}, {"1/2 kip", nil, "not a form of load"},
  {"psf 40", nil, "not a form of load"}, {"40 %", nil, "not a form of load"},
  {"--40 psf", nil, "not a form of load"}, {"13-6", nil, "not a form of load"},
  {("1"):rep(65), nil, "longer than 64 bytes"},
  {nil, nil, "load expected, got nil: "}, {nil, "area", "area load expected, got nil: "},
  {true, nil, "got true: "}, {{}, "point", "point load expected, got a table: "},
}

function tests.test_bad_loads_are_refused_with_a_reason()
  for i = 1, #BAD_LOADS do
    local v, wanted, piece = table.unpack(BAD_LOADS[i], 1, 3)
    local value, message = units.load(v, wanted)
    lu.assertNil(value, tostring(v))
    assert_piece(message, piece, v)
    lu.assertTrue(holds(message, "taken are") or holds(message, "write "), message)
  end
end

---------------------------------------------------------------------------
-- Numbers out
---------------------------------------------------------------------------

local DOWN, UP = {round = "down"}, {round = "up"}

local PRINTED = {
  {162, nil, [[13'-6"]], "13-6", [[162"]]},
  {162.5, nil, [[13'-6 1/2"]], "13-6 1/2", [[162 1/2"]]},
  {0, nil, [[0'-0"]], "0-0", [[0"]]}, {-0.0, nil, [[0'-0"]], "0-0", [[0"]]},
  {0.5, nil, [[0'-0 1/2"]], "0-0 1/2", [[1/2"]]},
  {6.5, nil, [[0'-6 1/2"]], "0-6 1/2", [[6 1/2"]]},
  {12, nil, [[1'-0"]], "1-0", [[12"]]}, {11.99, nil, [[1'-0"]], "1-0", [[12"]]},
  {6.0625, nil, [[0'-6 1/16"]], "0-6 1/16", [[6 1/16"]]},
  {6.75, nil, [[0'-6 3/4"]], "0-6 3/4", [[6 3/4"]]},
  {6.03125, nil, [[0'-6 1/16"]], "0-6 1/16", [[6 1/16"]]},
  {-18.5, nil, [[-1'-6 1/2"]], "-1-6 1/2", [[-18 1/2"]]},
  {-0.01, nil, [[0'-0"]], "0-0", [[0"]]},
  {-0.5, nil, [[-0'-0 1/2"]], "-0-0 1/2", [[-1/2"]]},
  {6.3, {denominator = 8}, [[0'-6 1/4"]], "0-6 1/4", [[6 1/4"]]},
  {6.3, {denominator = 4}, [[0'-6 1/4"]], "0-6 1/4", [[6 1/4"]]},
  {6.3, {denominator = 2}, [[0'-6 1/2"]], "0-6 1/2", [[6 1/2"]]},
  {6.3, {denominator = 1}, [[0'-6"]], "0-6", [[6"]]},
  {6.3, {denominator = 16.0}, [[0'-6 5/16"]], "0-6 5/16", [[6 5/16"]]},
  {6.01, UP, [[0'-6 1/16"]], "0-6 1/16", [[6 1/16"]]},
  {6.06, DOWN, [[0'-6"]], "0-6", [[6"]]},
  {6.0000000001, UP, [[0'-6"]], "0-6", [[6"]]},
  {5.9999999999, DOWN, [[0'-6"]], "0-6", [[6"]]},
  {-6.01, UP, [[-0'-6"]], "-0-6", [[-6"]]},
  {-6.01, DOWN, [[-0'-6 1/16"]], "-0-6 1/16", [[-6 1/16"]]},
  {6.6, {denominator = 1, round = "down"}, [[0'-6"]], "0-6", [[6"]]},
  {1e12, nil, [[83333333333'-4"]], "83333333333-4", [[1000000000000"]]},
}

function tests.test_lengths_are_printed()
  for _, case in ipairs(PRINTED) do
    local x, opts = case[1], case[2]
    lu.assertEquals(units.feet_inches(x, opts), case[3])
    lu.assertEquals(units.feet_inches_dash(x, opts), case[4])
    lu.assertEquals(units.inches(x, opts), case[5])
  end
end

function tests.test_printed_lengths_are_read_back()
  local random = generator(13)
  for _ = 1, 10000 do
    local x = (random(2000001) - 1000000) / 1000 + random(1000) * 1e-7
    local sixteenths = math.floor(math.abs(x) * 16 + 0.5) / 16
    if x < 0 then sixteenths = -sixteenths end
    lu.assertEquals(units.length(units.feet_inches(x)), sixteenths)
    lu.assertEquals(units.length(units.feet_inches_dash(x)), sixteenths)
    lu.assertEquals(units.length(units.inches(x)), sixteenths)
  end
end

function tests.test_rounding_brackets_the_length()
  local random = generator(31)
  for _ = 1, 2000 do
    local x = random(1000000) / 997
    local low = units.length(units.feet_inches(x, DOWN))
    local high = units.length(units.feet_inches(x, UP))
    lu.assertTrue(low <= x + 1e-7 and x - 1e-7 <= high and high - low <= 1 / 16)
  end
end

local FIXED = {
  {1.5, 1, "1.5"}, {1.25, 1, "1.2"}, {2, 0, "2"}, {2, 3, "2.000"}, {-2.5, 2, "-2.50"},
  {-0.001, 2, "0.00"}, {-0.0, 0, "0"}, {-0.006, 2, "-0.01"}, {0, 2, "0.00"},
  {1e15, 1, "1000000000000000.0"}, {1 / 3, 5, "0.33333"},
}

local SIGNIFICANT = {
  {0, 3, "0"}, {-0.0, 3, "0"}, {1234.5, 3, "1230"}, {40, 3, "40.0"}, {40, 2, "40"},
  {40, 1, "40"}, {66.66666, 3, "66.7"}, {0.99996, 3, "1.00"}, {0.00123456, 3, "0.00123"},
  {1e-4, 3, "0.000100"}, {9.9999e-5, 3, "0.000100"}, {1e9, 3, "1000000000"},
  {9.87e9, 2, "9900000000"}, {9.99e9, 2, "1.0e10"}, {1.5e-9, 2, "1.5e-9"},
  {-12345.678, 7, "-12345.68"}, {1600000, 2, "1600000"}, {1e300, 1, "1e300"},
  {math.mininteger, 3, "-9.22e18"}, {0.1, 17, "0.10000000000000001"},
}

function tests.test_decimals()
  for _, case in ipairs(FIXED) do
    lu.assertEquals(units.fixed(case[1], case[2]), case[3])
  end
  for _, case in ipairs(SIGNIFICANT) do
    lu.assertEquals(units.significant(case[1], case[2]), case[3])
  end
end

function tests.test_significant_digits_keep_the_value()
  local random = generator(7)
  for _ = 1, 5000 do
    local x = (random(2000000001) - 1000000000) * 10.0 ^ (random(25) - 15)
    lu.assertAlmostEquals(tonumber(units.significant(x, 6)), x, 5.1e-6 * math.abs(x))
    lu.assertEquals(tonumber(units.significant(x, 17)), x)
  end
end

function tests.test_factors_follow_from_the_definitions()
  for name, expected in pairs {
    ft = 12, mm = 1 / 25.4, cm = 1 / 2.54, m = 1000 / 25.4, kPa = 1000 * FT * FT / LB,
    ["kN/m"] = 1000 * FT / LB, kN = 1000 / LB, N = 1 / LB, kip = 1000,
    -- 1 MPa is 1 N/mm2; published to seven figures: 145.0377 psi
    MPa = 25.4 ^ 2 / LB,
  } do
    lu.assertAlmostEquals(units.per[name], expected, 1e-14 * expected, name)
  end
end

---------------------------------------------------------------------------
-- Misuse, robustness, surroundings
---------------------------------------------------------------------------

local MISUSE = {
  {"a length in inches is needed, got nil", function() local _ = units.feet_inches() end},
  {"got nan", function() local _ = units.inches(0 / 0) end},
  {"got inf", function() local _ = units.feet_inches_dash(math.huge) end},
  {"got 2000000000000", function() local _ = units.inches(2e12) end},
  {'got "6"', function() local _ = units.inches("6") end},
  {'got "denom"', function() local _ = units.inches(1, {denom = 8}) end},
  {"denominator must be", function() local _ = units.inches(1, {denominator = 3}) end},
  {"round must be", function() local _ = units.inches(1, {round = "off"}) end},
  {"options must be a table", function() local _ = units.inches(1, 8) end},
  {"finite number is needed, got nan", function() local _ = units.fixed(0 / 0, 1) end},
  {"decimals must be 0 to 20, got -1", function() local _ = units.fixed(1, -1) end},
  {"decimals must be 0 to 20, got 1.5", function() local _ = units.fixed(1, 1.5) end},
  {"finite number is needed", function() local _ = units.significant("1", 1) end},
  {"digits must be 1 to 17, got 0", function() local _ = units.significant(1, 0) end},
  {'kind must be "area"', function() local _ = units.load(1, "areal") end},
  {"got false", function() local _ = units.load(1, false) end},
}

function tests.test_misuse_raises_at_the_callers_line()
  for _, case in ipairs(MISUSE) do
    local ok, message = pcall(case[2])
    lu.assertFalse(ok, case[1])
    assert_piece(message, case[1], case[1])
    local line = debug.getinfo(case[2], "S").linedefined
    assert_piece(message, ("test_units.lua:%d: "):format(line), case[1])
  end
end

-- Either a finite number or nil and a message that is valid UTF-8 and safe to
-- print; anything else, an error included, fails.
local function assert_sound(input)
  local results = {
    {units.length(input)}, {units.load(input)}, {units.load(input, "line")},
  }
  for _, result in ipairs(results) do
    local value, message = result[1], result[2]
    if value then
      lu.assertTrue(value == value and math.abs(value) < math.huge, input)
    else
      lu.assertIsString(message)
      lu.assertTrue(utf8.len(message) and not message:find("%c"), message)
    end
  end
  return results[1][1] ~= nil, results[2][1] ~= nil
end

function tests.test_random_bytes_never_raise()
  local random = generator(2024)
  for _ = 1, 20000 do
    local bytes = {}
    for i = 1, random(24) do bytes[i] = string.char(random(256)) end
    assert_sound(table.concat(bytes))
  end
end

-- Bytes at random are hardly ever near a valid form; these often are.
local PIECES = {
  "0", "1", "6", "13", "12", "1/2", "9/8", "1/0", ".5", ".", "/", "-", "-", " ", " ", "'",
  '"', "''", ",", "e", "ft", "in", "mm", "m", "cm", "inches", "psf", "plf", "lb", "kN",
  "kip", "kg", "/m", "/m2", "/ft", "\u{2032}", "\u{2033}", "\u{2013}", "\u{A0}",
  "\xC2", ("9"):rep(60),
}

function tests.test_random_pieces_never_raise()
  local random, lengths, loads = generator(99), 0, 0
  for _ = 1, 20000 do
    local parts = {}
    for i = 1, 1 + random(6) do parts[i] = PIECES[1 + random(#PIECES)] end
    local is_length, is_load = assert_sound(table.concat(parts))
    if is_length then lengths = lengths + 1 end
    if is_load then loads = loads + 1 end
  end
  -- Without hits on the valid side the run would prove little.
  lu.assertTrue(lengths > 100 and loads > 50)
end

function tests.test_a_locale_with_a_decimal_comma_changes_nothing()
  local before = os.setlocale()
  local found = os.setlocale("de_DE.UTF-8") or os.setlocale("de_DE")
    or os.setlocale("fr_FR.UTF-8")
  lu.skipIf(not found, "no locale with a decimal comma is installed")
  local results = {
    units.fixed(1.5, 2), units.significant(1.5, 3), units.length("7.25 in"),
    (units.load("1.5 psf")), select(2, units.load(66.7, "line")),
  }
  os.setlocale(before)
  lu.assertEquals(results, {
    "1.50", "1.50", 7.25, 1.5,
    'line load expected, got 66.7: write "66.7 plf"; a line load needs its unit',
  })
end

function tests.test_require_adds_no_globals()
  local before, loaded = {}, package.loaded["netsection.units"]
  for name in pairs(_G) do before[name] = true end
  package.loaded["netsection.units"] = nil
  require "netsection.units"
  package.loaded["netsection.units"] = loaded
  for name in pairs(_G) do lu.assertTrue(before[name], name) end
end

return tests
