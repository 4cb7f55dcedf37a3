-- SPDX-License-Identifier: MIT
-- A host program that sets a locale with decimal commas gets the same bytes: report, CSV,
-- JSON, workbook, gnuplot scripts, the package, a sweep's CSV, letters and pages. The
-- locale is one that the system has, or is made by localedef for the time of the test.
local drawing = require "tests.drawing"
local lu = require "luaunit"
local point = require "netsection.point"
local system = require "tests.system"

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
local core = require "netsection.core"
local function said_of(name, f, ...)
  local ok, why, more = pcall(f, ...)
  put(name, tostring(ok and why or not ok and why) .. tostring(more))
end
local base = {size = "2x10", species = "hem-fir", grade = "No.2", span = 150,
  spacing = 16, dead = 12, live = 40}
for _, change in ipairs {{span = 9.5}, {span = 1/0}, {spacing = 100.25}, {dead = 600.5},
  {live = "1.5 kips"}, {repetitive = 1.05},
  {limits = {live = 0.5, Z = 1, a = 2, b = 1.5}},
  {bearing = {-0.5, 3}}, {plies = 1.5}, {Zeta = 1, alpha = 2, beta = 3.5, Beta = 1},
  {loads = {ns.point {at = 200.5, load = 30.25}}}, {size = "1.25x9.75"},
  {grade = "No.2.5"}, {material = {Fb = -0.5, Zz = 1, aa = 2}}, {member = 1.5},
  {cuts = {ns.hole {at = 30.5, diameter = 9.75}, ns.hole {at = 151.5, diameter = 2.5},
    ns.notch {face = "top", from = 20.5, to = 20.25, depth = 0.5}}}} do
  local t = {}
  for k, v in pairs(base) do t[k] = v end
  for k, v in pairs(change) do t[k] = v end
  said_of("joist", ns.joist, t)
end
for _, t in ipairs {{kind = "bolt", diameter = 9.75}, {kind = "nail", size = "7.5d"},
  {kind = "wood screw", number = 10.5},
  {kind = "lag screw", diameter = 0.5, length = 0.25},
  {kind = "nail", size = "10d", Zz = 1.5, aa = 1}} do
  said_of("fastener", ns.fastener, t)
end
said_of("beam", core.beam, {spans = {100}, EI = 1e6, loads = {{at = 100.5, P = 1}}})
said_of("beam EI", core.beam, {spans = {100}, EI = {{0.5, -1}, {2.5, 1}}})
said_of("beam load", core.beam, {spans = {100}, EI = 1, loads = {{from = 9.5, to = 2.25,
  w1 = 1}}})
said_of("sweep", ns.sweep, {joist = joist, over = {live = {30.5, 1/0}, Zz = {1}}})
said_of("order", ns.sweep, {joist = joist,
  over = {live = {1}, b = {1.5}, alpha = {1}}})
said_of("mode", joist.longest_span, joist, {mode = 1.5})
said_of("plot", ns.plot.moment, joist:review(), {b = 1, B = 2, a = 3, Z = 1.5})
said_of("fix", function()
  return joist:fix(ns.sister {from = 20.5, to = 30.25, fastener = ns.fastener {
    kind = "bolt", diameter = 0.5}, groups = {{at = 20.25, n = 1.5}}})
end)
said_of("homework", ns.homework, {course = "c", seed = 1.5,
  problems = {"bending"}})
said_of("obstruction", ns.floor, {joists = {joist},
  obstructions = {{b = 1, B = 2, a = 1.5}}})
said_of("table", ns.table, {sweep = sweep, value = "ratio", rows = "live", Zz = 1.5})
local packs = {}
for _, p in ipairs(ns.packs "rules") do packs[#packs + 1] = p.name end
put("packs", table.concat(packs, " "))
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
  system.unix "its locales"
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

-- No directive for a number with a point goes through string.format, which follows the
-- host's locale, and no list of names is put in order by its rules.
function T.test_numbers_are_written_by_one_function()
  local count = 0
  for _, path in ipairs(system.below("lua/netsection", "%.lua$")) do
    local text = drawing.read_file(path):gsub("%-%-[^\n]*", "")
    for piece in text:gmatch "(%b())%s*:format%(" do
      local bare = piece:gsub("%%%%", "")
      lu.assertNil(not path:find "point%.lua$"
        and bare:find "%%[-+ #0]*%d*%.?%d*[aAeEfgG][^%w%]%-]" or nil,
        path .. ": " .. piece)
      count = count + 1
    end
    lu.assertNil(not path:find "point%.lua$" and text:find "string%.format" or nil, path)
  end
  lu.assertTrue(count > 900, count)
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
