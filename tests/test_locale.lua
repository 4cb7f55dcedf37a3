-- SPDX-License-Identifier: MIT
-- A host program that sets a locale with decimal commas gets the same bytes: report, CSV,
-- JSON, workbook, gnuplot scripts, the package, a sweep's CSV, letters and pages. The
-- locale is one that the system has, or is made by localedef for the time of the test.
local drawing = require "tests.drawing"
local lu = require "luaunit"
local point = require "netsection.point"

local T = {}

local LUA = arg[-1]

local SCRIPT = [[
package.path, package.cpath = %q, %q
local wanted = arg[1]
if wanted ~= "C" then
  assert(os.setlocale(wanted))
  assert(("%%.1f"):format(0.5) == "0,5")
end
local ns = require "netsection"
local survey_folder = require "netsection.command.survey_folder"
local function put(name, said) io.write("=== ", name, "\n", said, "\n") end
local drawn = dofile "tests/data/drawn.lua"
local names = {}
for name in pairs(drawn.joists) do names[#names + 1] = name end
table.sort(names)
for i, name in ipairs(names) do
  if i %% tonumber(arg[2]) == 0 then
    local r = drawn.joists[name]():review()
    put(name, ns.report.text(r))
    for _, form in ipairs {"markdown", "html", "csv", "json", "latex"} do
      if ns.report[form] then put(name .. " " .. form, ns.report[form](r)) end
    end
    for _, kind in ipairs {"moment", "shear", "elevation", "curves"} do
      local ok, script = pcall(ns.plot[kind], r, {output = "a.svg"})
      put(name .. " " .. kind, ok and tostring(script) or "none")
    end
    put("described", tostring(r.joist) .. tostring(r))
  end
end
local function floor(path)
  return assert(ns.read_survey(survey_folder.options(survey_folder.files(path), {})))
end
local mill = floor "tests/data/mill":review()
for _, form in ipairs {"xlsx", "ods"} do
  for _, f in ipairs((ns.package.files(mill, {full = true, workbook = form}))) do
    put(f.name, f.text)
  end
end
put("metric", ns.report.text(floor "tests/data/mill":review {units = "metric"}))
put("again", ns.recheck("tests/data/mill/numbers_of_0.1.json"):text())
local joist = ns.joist {size = "2x10", species = "hem-fir", grade = "No.2", span = 150,
  spacing = 16, dead = 12, live = 40, loads = {ns.line {load = "12.5 plf"}}}
local sweep = ns.sweep {joist = joist, over = {live = {30.5, 40}, spacing = {12, 19.2}},
  values = {"ratio", "governing"}}
local path = os.tmpname()
assert(sweep:csv(path))
put("sweep", io.open(path):read "a")
os.remove(path)
put("row", sweep:max "ratio" .. "" ~= "" and "row" or "")
put("span", ns.units.feet_inches((joist:longest_span())))
]]

-- A locale with decimal commas: its name and what goes before a command, or nil.
local function comma_locale(folder)
  for _, name in ipairs {"de_DE.UTF-8", "fr_FR.UTF-8", "it_IT.UTF-8", "es_ES.UTF-8",
    "nl_NL.UTF-8", "de_DE.utf8", "de_DE"} do
    local pipe <close> = assert(io.popen(("'%s' -e 'print(os.setlocale(\"%s\") and "
      .. "(\"%%.1f\"):format(0.5))'"):format(LUA, name)))
    if pipe:read "l" == "0,5" then return name, "" end
  end
  if os.execute(("localedef -i de_DE -f UTF-8 '%s/de_DE.UTF-8' >/dev/null 2>&1")
    :format(folder)) then
    return "de_DE.UTF-8", ("LOCPATH='%s' "):format(folder)
  end
end

local function said(folder, before, name, every)
  local path = folder .. "/run.lua"
  drawing.write_file(path, SCRIPT:format(package.path, package.cpath))
  local pipe <close> = assert(io.popen(("%s'%s' '%s' '%s' %d 2>&1"):format(before, LUA,
    path, name, every)))
  return pipe:read "a"
end

function T.test_decimal_commas_of_the_host_change_no_byte()
  local dir <close> = drawing.folder()
  local name, before = comma_locale(dir.path)
  if not name then lu.skip "no locale with decimal commas here, and none can be made" end
  local every = os.getenv "NETSECTION_DRAWINGS" == "all" and 1 or 5
  local plain = said(dir.path, before, "C", every)
  lu.assertTrue(#plain > 400000, plain:sub(-400))
  local comma = said(dir.path, before, name, every)
  if plain ~= comma then
    local next_line = comma:gmatch "[^\n]*"
    for line in plain:gmatch "[^\n]*" do
      local other = next_line()
      if line ~= other then
        lu.fail(("with commas: %s\nwithout: %s"):format(tostring(other):sub(1, 300),
          line:sub(1, 300)))
      end
    end
  end
end

-- The formatting function by itself, in either locale.
function T.test_point()
  for _, case in ipairs {{"1.50", "%.2f", 1.5}, {"a 0.9 b", "a %g %s", 0.9, "b"},
    {"  1.5|-2.5e+10", "%5.1f|%g", 1.5, -2.5e10}, {"50 %", "%d %%", 50},
    {"1.5, 2", "%s, %d", 1.5, 2}, {"inf", "%g", math.huge}} do
    lu.assertEquals(point.format(table.unpack(case, 2)), case[1])
  end
  lu.assertEquals({point.exact(0.1), point.text(2.5), point.text "2,5", point.text(3)},
    {"0.10000000000000001", "2.5", "2,5", "3"})
end

return T
