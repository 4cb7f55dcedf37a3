-- SPDX-License-Identifier: MIT
-- Lumber on file: sizes, design values, size factors, and that the values are those
-- behind the published span tables and worked examples.

local lu = require "luaunit"
local lumber = require "netsection.lumber"

local here = debug.getinfo(1, "S").source:match("^@(.*[/\\])") or "./"

local T = {}

local function values(species, grade, b, d, edition)
  local r, why = lumber.design_values {species = species, grade = grade, b = b, d = d,
    edition = edition}
  lu.assertNotNil(r, why)
  return r
end

-- the message of a lookup that must find nothing
local function refusal(r, why)
  lu.assertNil(r)
  lu.assertIsString(why)
  return why
end

local function has(text, ...)
  for _, part in ipairs {...} do
    lu.assertStrContains(text, part)
  end
end

local function rows_of(file)
  local rows, head = {}, nil
  for line in io.lines(here .. file) do
    lu.assertNil(line:find('"', 1, true), "a quoted field needs a real CSV reader")
    local cells = {}
    for cell in (line .. ","):gmatch("([^,]*),") do
      cells[#cells + 1] = cell
    end
    if head then
      local row = {}
      for i, name in ipairs(head) do
        row[name] = tonumber(cells[i]) or cells[i]
      end
      rows[#rows + 1] = row
    else
      head = cells
    end
  end
  return rows
end

--------------------------------------------------------------------------------- sizes

-- PS 20; NDS Supplement 2018 Table 1A
function T.test_dressed_size()
  lu.assertEquals(lumber.size("2x10"),
    {nominal = "2x10", b = 1.5, d = 9.25, nominal_b = 2, nominal_d = 10})
  lu.assertEquals(lumber.size("4x16").d, 15.25)
  lu.assertEquals(lumber.size("3x6").b, 2.5)
end

function T.test_size_spelling()
  for _, text in ipairs {"2X10", " 2 x 10 ", "2\u{D7}10", "2 \u{D7} 10", "2\u{A0}x 10"} do
    lu.assertEquals(lumber.size(text), lumber.size("2x10"), text)
  end
end

function T.test_full_sawn_size()
  local wanted = {nominal = "2x8", b = 2, d = 8, nominal_b = 2, nominal_d = 8,
    full_sawn = true}
  for _, text in ipairs {"full-sawn 2x8", "Full Sawn 2 x 8", "FULLSAWN 2\u{D7}8"} do
    lu.assertEquals(lumber.size(text), wanted, text)
  end
  lu.assertEquals(lumber.size("full-sawn 3x9.5").d, 9.5)
end

function T.test_size_not_on_file()
  for _, text in ipairs {"2x9", "2x", "", "10", "2x10x12", '2" x 10"', "full-sawn",
    "full-sawn 0x8", "rough 2x8"} do
    has(refusal(lumber.size(text)), '"' .. text .. '" is not on file', "2x10, 2x12",
      "full-sawn 2x8")
  end
end

function T.test_size_answers_are_copies()
  lumber.size("2x10").d = 1
  lu.assertEquals(lumber.size("2x10").d, 9.25)
  lumber.sizes()[1] = "1x1"
  lu.assertEquals(lumber.sizes()[1], "2x4")
end

function T.test_nominal_width()
  for d, nominal in pairs {[3.5] = 4, [7.25] = 8, [9.25] = 10, [15.25] = 16} do
    lu.assertEquals(lumber.nominal_width(d), nominal)
  end
  lu.assertEquals(lumber.nominal_width(8), 8)
  lu.assertEquals(lumber.nominal_width(9), 9)
end

------------------------------------------------------------------------- design values

-- NDS Supplement 2018 Table 4A
function T.test_table_4A_rows()
  local r = values("Douglas Fir-Larch", "SS", 1.5, 9.25)
  lu.assertEquals({r.Fb, r.Ft, r.Fv, r.Fc_perp, r.Fc, r.E, r.Emin, r.G},
    {1500, 1000, 180, 625, 1700, 1900000, 690000, 0.5})
  lu.assertEquals(r.source, "NDS Supplement 2018 Table 4A")
  lu.assertEquals({r.confidence, r.edition}, {"read", "us-nds-2018"})
  lu.assertEquals(r.notes, {})
  r = values("Hem-Fir", "No.2", 1.5, 9.25)
  lu.assertEquals({r.Fb, r.Ft, r.Fv, r.Fc_perp, r.Fc, r.E, r.Emin, r.G},
    {850, 525, 150, 405, 1300, 1300000, 470000, 0.43})
  r = values("Spruce-Pine-Fir", "No.3", 1.5, 9.25)
  lu.assertEquals({r.Fb, r.Ft, r.Fv, r.Fc_perp, r.Fc, r.E, r.Emin, r.G},
    {500, 250, 135, 425, 650, 1200000, 440000, 0.42})
end

-- NDS Supplement 2018 Table 4B: the size is in the value
function T.test_table_4B_rows()
  local Fb = {[3.5] = 1100, [5.5] = 1000, [7.25] = 925, [9.25] = 800, [11.25] = 750}
  for d, wanted in pairs(Fb) do
    local r = values("Southern Pine", "No.2", 1.5, d)
    lu.assertEquals({r.Fb, r.CF, r.CF_t, r.CF_c}, {wanted, 1, 1, 1})
    lu.assertEquals({r.Fv, r.Fc_perp, r.E, r.G, r.confidence},
      {175, 565, 1400000, 0.55, "read"})
  end
  lu.assertEquals(values("SP", "SS", 1.5, 11.25).Fc, 1650)
end

function T.test_southern_pine_widths_between_and_beyond()
  lu.assertEquals(values("SP", "No.2", 2, 8).Fb, 925)      -- full-sawn 2x8
  lu.assertEquals(values("SP", "No.2", 1.5, 4.5).Fb, 1000) -- 5 and 6 in are one class
  lu.assertEquals(values("SP", "No.2", 1.5, 9).Fb, 800)
  -- 0.9 of the 12-in value, as a factor, and marked
  local r = values("SP", "No.2", 1.5, 13.25)
  lu.assertEquals({r.Fb, r.CF, r.CF_t, r.CF_c}, {750, 0.9, 0.9, 0.9})
  lu.assertEquals({r.confidence, r.CF_confidence}, {"memory", "memory"})
  has(table.concat(r.notes, "\n"), "size factor from memory")
  -- 4 in thick: 1.1 from 8 in wide on, from memory
  lu.assertEquals({values("SP", "No.1", 3.5, 9.25).CF, values("SP", "No.1", 3.5, 5.5).CF},
    {1.1, 1})
  lu.assertEquals(values("SP", "No.1", 3.5, 9.25).CF_confidence, "memory")
end

-- NDS Supplement 2018 Table 4A, size factors
function T.test_size_factors()
  local by_depth = {
    {3.5, 1.5, 1.5, 1.15, 1.5}, {4.5, 1.4, 1.4, 1.1, 1.4}, {5.5, 1.3, 1.3, 1.1, 1.3},
    {7.25, 1.2, 1.2, 1.05, 1.3}, {9.25, 1.1, 1.1, 1.0, 1.2},
    {11.25, 1.0, 1.0, 1.0, 1.1}, {13.25, 0.9, 0.9, 0.9, 1.0},
    {15.25, 0.9, 0.9, 0.9, 1.0},
    -- no dressed depth: the next class up
    {8, 1.2, 1.2, 1.05, 1.3}, {8.1, 1.1, 1.1, 1.0, 1.2}, {9.5, 1.1, 1.1, 1.0, 1.2},
    {12, 1.0, 1.0, 1.0, 1.1}, {12.5, 0.9, 0.9, 0.9, 1.0},
  }
  for _, row in ipairs(by_depth) do
    local thin = values("DFL", "No.2", 1.5, row[1])
    local thick = values("DFL", "No.2", 3.5, row[1])
    lu.assertEquals({thin.CF, thin.CF_t, thin.CF_c}, {row[2], row[3], row[4]})
    lu.assertEquals({thick.CF, thick.CF_t, thick.CF_c}, {row[5], row[3], row[4]})
    lu.assertEquals(values("DFL", "No.2", 2.5, row[1]).CF, row[2])
  end
end

function T.test_nominal_width_given_decides()
  local r = lumber.design_values {species = "DFL", grade = "No.2", b = 1.5, d = 9.4,
    nominal_d = 10}
  lu.assertEquals(r.CF, 1.1)
  r = lumber.design_values {species = "SP", grade = "No.2", b = 1.5, nominal_d = 12}
  lu.assertEquals(r.Fb, 750)
end

function T.test_stud()
  local r = values("DFL", "stud", 1.5, 3.5)
  lu.assertEquals({r.Fb, r.CF, r.CF_t, r.CF_c}, {700, 1.1, 1.1, 1.05})
  lu.assertEquals(values("DFL", "Stud", 1.5, 5.5).CF, 1)
  -- 8 in and wider: No.3 values and factors, a rule from memory
  r = values("DFL", "Stud", 1.5, 7.25)
  lu.assertEquals({r.grade, r.Fb, r.Fc, r.CF, r.confidence},
    {"Stud", 525, 775, 1.2, "memory"})
  has(table.concat(r.notes, "\n"), "Stud this wide takes", "No.3")
end

function T.test_values_from_memory_say_so()
  local r = values("SPF-S", "No.1", 1.5, 9.25)
  lu.assertEquals(r.confidence, "memory")
  has(r.notes[1], "memory", "Table 4A")
end

function T.test_spellings()
  local species = {
    ["Douglas Fir-Larch"] = {"douglas fir-larch", "DOUGLAS FIR LARCH", "DFL", "df-l"},
    ["Hem-Fir"] = {"HF", "hem fir", "Hem-fir"},
    ["Spruce-Pine-Fir"] = {"SPF", "S-P-F", "spruce pine fir"},
    ["Spruce-Pine-Fir (South)"] = {"SPF-S", "spfs", "SPF South", "SPF(S)"},
    ["Southern Pine"] = {"SP", "southern pine"},
  }
  for name, spellings in pairs(species) do
    for _, text in ipairs(spellings) do
      lu.assertEquals(values(text, "SS", 1.5, 9.25).species, name)
    end
  end
  local grades = {
    SS = {"ss", "Select Structural", "sel. str."},
    ["No.2"] = {"No.2", "no 2", "#2", "No. 2", "NO.2", "No2", "number 2"},
    ["No.1&Btr"] = {"No.1 & Btr", "#1&btr", "No.1 and better", "no. 1 & Better"},
    ["Stud"] = {"STUD"},
  }
  for name, spellings in pairs(grades) do
    for _, text in ipairs(spellings) do
      lu.assertEquals(values("DFL", text, 1.5, 5.5).grade, name)
    end
  end
  for _, text in ipairs {"No.2", "#1", "No.1/No.2", "No.1/2", "no 1-2"} do
    lu.assertEquals(values("SPF", text, 1.5, 9.25).grade, "No.1/No.2")
  end
end

function T.test_every_row_is_found()
  local count = 0
  for _, species in ipairs(lumber.species()) do
    for _, grade in ipairs(lumber.grades(species)) do
      for _, size in ipairs(lumber.sizes()) do
        local s = lumber.size(size)
        local r = values(species, grade, s.b, s.d)
        lu.assertEquals({r.species, r.grade}, {species, grade})
        lu.assertTrue(r.Fb > r.Ft and r.E > 1.9 * r.Emin and r.CF >= 0.9)
        count = count + 1
      end
    end
  end
  -- 40 rows of Table 4A, 4 grades of 4B, 20 sizes
  lu.assertEquals(count, (40 + 4) * 20)
end

------------------------------------------------------------------------------ editions

-- the values behind the 2012 IRC span tables
function T.test_edition_2012()
  local r = values("DFL", "No.2", 1.5, 9.25, "us-nds-2012")
  lu.assertEquals({r.Fb, r.Fv, r.E, r.edition}, {875, 180, 1600000, "us-nds-2012"})
  lu.assertEquals(r.confidence, "computed")
  has(r.source, "Table 4A; Fb back-figured from 2012 IRC")
  -- what did not change is the base edition's
  lu.assertEquals(values("HF", "No.2", 1.5, 9.25, "us-nds-2012").Fb, 850)
  lu.assertEquals(values("DFL", "No.2", 1.5, 9.25).Fb, 900)
end

function T.test_edition_2012_southern_pine()
  local function ask(grade, d, partial)
    return lumber.design_values {species = "SP", grade = grade, b = 1.5, d = d,
      edition = "us-nds-2012", partial = partial}
  end
  for d, Fb in pairs {[7.25] = 1200, [9.25] = 1050, [11.25] = 975} do
    local r = ask("No.2", d, true)
    lu.assertEquals({r.Fb, r.E, r.CF, r.Fv}, {Fb, 1600000, 1})
    lu.assertEquals(r.missing, {"Ft", "Fv", "Fc_perp", "Fc", "Emin", "G"})
  end
  has(refusal(ask("No.2", 9.25)), "Southern Pine No.2 2x10", "Fv", "not on file",
    "us-nds-2012", "on file: Fb, E")
  has(refusal(ask("No.2", 3.5, true)), "2x4 is not on file for us-nds-2012",
    "on file: 2x6, 2x8, 2x10, 2x12")
  has(refusal(ask("SS", 9.25, true)), '"SS" is not on file for Southern Pine')
end

------------------------------------------------------------------------------- errors

function T.test_unknown_species()
  local why = refusal(lumber.design_values {species = "douglas fir", grade = "No.2",
    b = 1.5, d = 9.25})
  has(why, '"douglas fir" is not on file', "near: Douglas Fir-Larch, Douglas",
    "on file:", "Southern Pine")
  has(refusal(lumber.design_values {species = "hem fur", grade = "No.2", b = 1.5,
    d = 9.25}), "near: Hem-Fir;")
  why = refusal(lumber.design_values {species = "oak", grade = "No.2", b = 1.5, d = 9})
  lu.assertNil(why:find("near:", 1, true))
  has(refusal(lumber.grades("oak")), '"oak" is not on file')
end

function T.test_unknown_grade()
  local why = refusal(lumber.design_values {species = "HF", grade = "No.4", b = 1.5,
    d = 9.25})
  has(why, '"No.4" is not on file for Hem-Fir', "near: No.1, No.2, No.3;",
    "on file: SS, No.1&Btr, No.1, No.2, No.3, Stud")
  has(refusal(lumber.design_values {species = "SPF-S", grade = "No.1&Btr", b = 1.5,
    d = 9.25}), "Spruce-Pine-Fir (South)", "on file: SS, No.1, No.2, No.3, Stud")
end

function T.test_unknown_edition()
  has(refusal(lumber.design_values {species = "HF", grade = "No.2", b = 1.5, d = 9.25,
    edition = "us-nds-1944"}), '"us-nds-1944" is not on file',
    "us-nds-2018, csa-o86-2019, us-nds-2012")
  has(refusal(lumber.species("x")), '"x" is not on file')
end

function T.test_too_thick_for_the_tables()
  has(refusal(lumber.design_values {species = "DFL", grade = "No.2", b = 5.5, d = 7.5}),
    "5.5 in thick is outside Table 4A")
end

function T.test_misuse_raises_at_the_caller()
  local function wrong(a)
    lumber.design_values(a)
    return "not reached"
  end
  local mine = "test_lumber.lua:%d+: lumber.design_values"
  for text, a in pairs {
    ["grade is missing"] = {species = "DFL", b = 1.5, d = 9.25},
    ["b is missing"] = {species = "DFL", grade = "No.2", d = 9.25},
    ["d or nominal_d is missing"] = {species = "DFL", grade = "No.2", b = 1.5},
    ["d must be a positive number"] = {species = "DFL", grade = "No.2", b = 1.5, d = -9},
    ["b must be a positive number"] = {species = "DFL", grade = "No.2", b = 0 / 0, d = 9},
    ["no field depth"] = {species = "DFL", grade = "No.2", b = 1.5, depth = 9.25},
    ["species must be a string"] = {species = 5, grade = "No.2", b = 1.5, d = 9.25},
  } do
    local ok, err = pcall(wrong, a)
    lu.assertFalse(ok)
    lu.assertStrMatches(err, ".*" .. mine .. ".*")
    has(err, text)
  end
  lu.assertErrorMsgContains('takes text such as "2x10", got number', lumber.size, 210)
end

----------------------------------------------------------- published examples and spans

-- Reference values that published examples start from: their adjusted values follow.
-- The factors CD, CM, Cr are the examples' own.
function T.test_published_adjusted_values()
  local published = {}
  for _, row in ipairs(rows_of("data/nds_examples.csv")) do
    published[row.id .. " " .. row.quantity] = row.published
  end
  local function agree(name, value)
    lu.assertNotNil(published[name], name)
    lu.assertAlmostEquals(value, published[name], 0.51, name)
  end

  -- Missouri S&T CE 5260 problem 4.30: 2x10 No.2 Hem-Fir, CD 1.15, Cr 1.15
  local r = values("Hem-Fir", "No.2", 1.5, 9.25)
  agree("MST-4.30 Fb_adjusted_psi", r.Fb * r.CF * 1.15 * 1.15)
  agree("MST-4.30 Ft_adjusted_psi", r.Ft * r.CF_t * 1.15)
  agree("MST-4.30 Fv_adjusted_psi", r.Fv * 1.15)
  agree("MST-4.30 Fc_adjusted_psi", r.Fc * r.CF_c * 1.15)
  agree("MST-4.30 Fc_perp_adjusted_psi", r.Fc_perp)
  agree("MST-4.30 E_adjusted_psi", r.E)

  -- Purdue CE479 (2006): 2x8 No.1 DF-L, wet, CD 1.15; CM 0.85, 1.0, 0.97
  r = values("DF-L", "No.1", 1.5, 7.25)
  agree("Purdue-CE479 Fb_adjusted_psi", r.Fb * r.CF * 1.15 * 0.85)
  agree("Purdue-CE479 Ft_adjusted_psi", r.Ft * r.CF_t * 1.15)
  agree("Purdue-CE479 Fv_adjusted_psi", r.Fv * 1.15 * 0.97)

  -- AWC E1.7: SP No.1 2x6, CD 1.6; E1.9: SP No.2 2x8, CD 1.6, Cr 1.25 (wall factor)
  r = values("SP", "No.1", 1.5, 5.5)
  agree("AWC-E1.7 Fb_adjusted_psi", r.Fb * r.CF * 1.6)
  r = values("SP", "No.2", 1.5, 7.25)
  agree("AWC-E1.9 Fb_adjusted_psi", r.Fb * r.CF * 1.6 * 1.25)

  -- AWC E1.5a: SPF No.2 2x6 on a plate, bearing 1.5 in long, Cb 1.25
  r = values("SPF", "No.2", 1.5, 5.5)
  agree("AWC-E1.5a P_bearing_lb", r.Fc_perp * 1.5 * 5.5)
  agree("AWC-E1.5a P_bearing_with_Cb_lb", r.Fc_perp * 1.5 * 5.5 * 1.25)

  -- AWC E1.2a: DF-L SS 4x16 starts from Fb 1500, CF 1, Emin 690 000
  r = values("DF-L", "SS", 3.5, 15.25)
  lu.assertEquals({r.Fb, r.CF, r.E, r.Emin}, {1500, 1, 1900000, 690000})
  agree("AWC-E1.2a FbE_psi", 1.2 * r.Emin / (374.55 * 15.25 / 3.5 ^ 2))
end

-- Spans of the IRC tables from the values on file, by the rule that gives all of them:
-- bending with Cr 1.15 and live-load deflection, the lesser to the nearest inch.
function T.test_published_spans()
  local rows = rows_of("data/irc_spans.csv")
  local whole, in_part = 0, 0
  for i, row in ipairs(rows) do
    local size = lumber.size(row.size)
    local r, why = lumber.design_values {species = row.species, grade = row.grade,
      b = size.b, nominal_d = size.nominal_d, edition = row.lumber_edition,
      partial = true}
    lu.assertNotNil(r, why)
    local S = size.b * size.d ^ 2 / 6
    local live = row.live_psf * row.spacing_in / 144
    local total = (row.live_psf + row.dead_psf) * row.spacing_in / 144
    local L = math.huge
    -- a span of the old tables may rest on one value that is on file, the other not
    if r.Fb then
      L = (8 * r.Fb * r.CF * 1.15 * S / total) ^ 0.5
    end
    if r.E then
      local stiff = 384 * r.E * (S * size.d / 2) / (5 * row.limit * live)
      L = math.min(L, stiff ^ (1 / 3))
    end
    lu.assertTrue(math.abs(L - row.published_in) <= 0.5 + 1e-9,
      ("row %d: %s %s %s, published %g, computed %.3f"):format(i, row.species, row.grade,
        row.size, row.published_in, L))
    if r.Fb and r.E then
      whole = whole + 1
    else
      in_part = in_part + 1
    end
  end
  lu.assertEquals({#rows, whole, in_part}, {204, 199, 5})
end

---------------------------------------------------------------------------- data files

local FILES = {"standards.us-nds-2018.lumber", "standards.us-nds-2012.lumber",
  "data.lumber.sizes"}

-- As they stand in the checkout.
local function path_of(name)
  return "lua/netsection/" .. name:gsub("%.", "/") .. ".lua"
end

function T.test_data_files_run_in_an_empty_environment()
  for _, name in ipairs(FILES) do
    local path = path_of(name)
    local env = {}
    local file = assert(loadfile(path, "t", env))()
    lu.assertIsTable(file)
    lu.assertNil(next(env))
  end
end

-- each value has a source that is listed and a confidence that is one of three words
function T.test_data_files_name_their_sources()
  local allowed = {read = true, memory = true, computed = true}
  local function walk(t, sources)
    if t.source then
      lu.assertNotNil(sources[t.source], t.source)
      lu.assertTrue(allowed[t.confidence])
    end
    lu.assertTrue(t.source ~= nil or t.Fb == nil and t.E == nil and t.d == nil
      or t.nominal ~= nil)
    for _, v in pairs(t) do
      if type(v) == "table" then
        walk(v, sources)
      end
    end
  end
  for _, name in ipairs(FILES) do
    local path = path_of(name)
    local file = assert(loadfile(path, "t", {}))()
    walk(file, file.sources)
  end
end

function T.test_require_adds_no_global()
  local before = {}
  for k in pairs(_G) do
    before[k] = true
  end
  package.loaded["netsection.lumber"] = nil
  require("netsection.lumber").design_values {species = "SP", grade = "No.2", b = 1.5,
    d = 9.25, edition = "us-nds-2012", partial = true}
  package.loaded["netsection.lumber"] = lumber
  for k in pairs(_G) do
    lu.assertTrue(before[k], k)
  end
end

return T
