-- SPDX-License-Identifier: MIT
-- Charts of sweeps: that the lines hold the sweep's own numbers, lines of equal value
-- against closed forms, names that keep apart, hostile texts, messages, and gnuplot.
local drawing = require "tests.drawing"
local level = require "netsection.plot.level"
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local T = {}

local joist = ns.joist {mark = "J3", size = "2x10", material = support.DFL,
  span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
  cuts = {ns.hole {at = "5-2", diameter = 4, below = 1.5}}}
local sweep = ns.sweep {joist = joist, over = {span = ns.steps("12-0", "16-0", "0-6"),
  spacing = {12, 16, 19.2, 24}}, values = {"ratio", "cut.net-bending", "uncut.bending",
  "governing", "moment"}}

-- Numbers of a data block, a row per line; false for a gap.
local function block(script, name)
  local body = script:match("%$" .. name .. " << EOD\n(.-)\nEOD")
  local rows = {}
  for line in (body .. "\n"):gmatch "([^\n]*)\n" do
    local x, y = line:match "^(%S+) (%S+)$"
    rows[#rows + 1] = x and {tonumber(x), tonumber(y)} or false
  end
  return rows
end

-- A hole 4 in wide, 1-1/2 in above the bottom edge at 5-2: net bending without the
-- repetitive factor, whole bending with it, worked out by hand for the spans by 6 in.
function T.test_curves_of_a_drilled_joist()
  local script = ns.plot.curves(sweep, {value = "cut.net-bending", x = "span",
    lines = "spacing"})
  local rows = block(script, "line2")
  for i, ratio in ipairs {1.05, 1.13, 1.20, 1.28, 1.36, 1.43, 1.51, 1.59, 1.66} do
    support.close_abs(rows[i][1], 11.5 + i / 2, 1e-9)
    support.close_abs(rows[i][2], ratio, 0.0055)
  end
  script = ns.plot.curves(sweep, {value = "uncut.bending", x = "span",
    lines = "spacing"})
  local sixteen, twentyfour = block(script, "line2"), block(script, "line4")
  support.close_abs(sixteen[1][2], 0.61, 0.0055)
  support.close_abs(sixteen[9][2], 1.09, 0.0055)
  support.close_abs(twentyfour[1][2], 0.92, 0.0055)
  support.close_abs(twentyfour[9][2], 1.64, 0.0055)
end

function T.test_curves_hold_the_numbers_of_the_sweep()
  local script = ns.plot.curves(sweep, {value = "moment", x = "spacing", lines = "span"})
  for k, span in ipairs(ns.steps("12-0", "16-0", "0-6")) do
    for i, row in ipairs(block(script, "line" .. k)) do
      local at = {12, 16, 19.2, 24}
      support.close(row[1], at[i], 1e-7)
      support.close(row[2], sweep:at({span = span, spacing = at[i]}).moment / 12, 1e-7)
    end
  end
  lu.assertStrContains(script, "set ylabel 'moment, ft-lb'")
  lu.assertStrContains(script, "label 'spacing, in'")
end

-- An axis from high to low draws the same line; a combination that makes no sense is a
-- gap; a line with none but such is named.
function T.test_curves_with_gaps()
  local drilled = joist:with {cuts = {ns.hole {at = "9-0", diameter = 2}}}
  local s = ns.sweep {joist = drilled, over = {span = {168, 144, 120, 96},
    ["cuts.1.at"] = {108, 400}}, values = {"ratio"}}
  local script = ns.plot.curves(s, {value = "ratio", x = "span", lines = "cuts.1.at"})
  local rows = block(script, "line1")
  lu.assertEquals(rows[1], false)
  lu.assertEquals({rows[2][1], rows[3][1], rows[4][1]}, {10, 12, 14})
  lu.assertStrContains(script, "No value at all: 33")
  lu.assertStrContains(script, "Gaps: no value there")
  lu.assertFalse(script:find("$line2", 1, true) ~= nil)
end

-- Names stand at least a line apart, in the order of the ends of their lines.
function T.test_names_at_the_ends_keep_apart()
  local s = ns.sweep {joist = joist, over = {span = {144, 192},
    dead = {10, 10.1, 10.2, 10.3, 10.4, 10.5}}, values = {"ratio"}}
  local script = ns.plot.curves(s, {value = "ratio", x = "span", lines = "dead",
    size = {6, 4}})
  local last = -1
  for _, name in ipairs {"10 psf", "10.1 psf", "10.2 psf", "10.3 psf", "10.4 psf",
    "10.5 psf"} do
    local y = tonumber(script:match("label '" .. name:gsub("%p", "%%%0")
      .. "' at screen [%d.]+,screen ([%d.]+)")) * 4
    lu.assertTrue(y >= last + 0.169, name)
    last = y
  end
end

function T.test_an_axis_of_words()
  local s = ns.sweep {joist = ns.joist {mark = "W", size = "2x10", species = "hem-fir",
    grade = "No.2", span = "12-0", spacing = 16, dead = 10, live = 40},
    over = {grade = {"SS", "No.2", "No.3"}, spacing = {16, 24}}, values = {"ratio"}}
  local script = ns.plot.curves(s, {value = "ratio", x = "grade", at = {spacing = 24}})
  lu.assertStrContains(script, "set xtics ('SS' 1, 'No.2' 2, 'No.3' 3)")
  lu.assertStrContains(script, "'spacing 24 in'")
  local rows = block(script, "line1")
  support.close(rows[3][2], s:at({grade = "No.3", spacing = 24}).ratio, 1e-7)
end

---------------------------------------------------------------------------
-- Lines of equal value
---------------------------------------------------------------------------

local function grid_of(f, n)
  local grid = {}
  for i = 1, n do
    grid[i] = {}
    for j = 1, n do
      local x, y = -1 + 2 * (i - 1) / (n - 1), -1 + 2 * (j - 1) / (n - 1)
      grid[i][j] = {x = x, y = y, v = f(x, y)}
    end
  end
  return grid
end

local function length(line)
  local total = 0
  for i = 2, #line do
    total = total + math.sqrt((line[i].x - line[i - 1].x) ^ 2
      + (line[i].y - line[i - 1].y) ^ 2)
  end
  return total
end

-- A plane's lines are straight, from edge to edge of the grid.
function T.test_lines_of_a_plane()
  local lines = level.lines(grid_of(function(x, y) return x + 2 * y end, 9), 0.3)
  lu.assertEquals(#lines, 1)
  for _, p in ipairs(lines[1]) do support.close_abs(p.x + 2 * p.y, 0.3, 1e-12) end
  -- from x = -1, y = 0.65 to x = 1, y = -0.35
  support.close(length(lines[1]), math.sqrt(4 + 1), 1e-12)
end

-- A cone's lines are circles; between the points of a fine grid as good as round.
function T.test_lines_of_a_cone_are_closed()
  local lines = level.lines(grid_of(function(x, y) return math.sqrt(x * x + y * y) end,
    81), 0.61)
  lu.assertEquals(#lines, 1)
  local first, last = lines[1][1], lines[1][#lines[1]]
  support.close_abs(first.x, last.x, 1e-12)
  support.close_abs(first.y, last.y, 1e-12)
  support.close(length(lines[1]), 2 * math.pi * 0.61, 1e-3)
  for _, p in ipairs(lines[1]) do
    support.close(math.sqrt(p.x * p.x + p.y * p.y), 0.61, 1e-3)
  end
end

-- x y = 0.1 and -0.1: two branches each, in opposite quarters.
function T.test_lines_of_a_saddle()
  for _, value in ipairs {0.1, -0.1} do
    local lines = level.lines(grid_of(function(x, y) return x * y end, 40), value)
    lu.assertEquals(#lines, 2)
    for _, line in ipairs(lines) do
      local side = line[1].x > 0
      for _, p in ipairs(line) do
        lu.assertEquals(p.x > 0, side)
        support.close_abs(p.x * p.y, value, 2e-3)
      end
    end
  end
end

-- All pieces are used once: the lengths of the lines add up to those of the squares.
function T.test_lines_lose_no_piece()
  local random = support.random(3)
  for _ = 1, 50 do
    local grid = grid_of(function() return random:unit() end, 12)
    local points = 0
    for _, line in ipairs(level.lines(grid, 0.5)) do
      lu.assertTrue(#line >= 2)
      points = points + #line - 1
    end
    local pieces = 0
    for i = 1, 11 do
      for j = 1, 11 do
        local over = 0
        local c = {grid[i][j].v >= 0.5, grid[i + 1][j].v >= 0.5,
          grid[i + 1][j + 1].v >= 0.5, grid[i][j + 1].v >= 0.5}
        for e = 1, 4 do over = over + (c[e] ~= c[e % 4 + 1] and 1 or 0) end
        pieces = pieces + over // 2
      end
    end
    lu.assertEquals(points, pieces)
  end
end

function T.test_lines_stop_where_a_value_is_missing()
  local grid = grid_of(function(x, y)
    return not (math.abs(x) < 0.3 and y > 0.5) and y or nil
  end, 11)
  lu.assertEquals(#level.lines(grid, 0.55), 2)
  lu.assertEquals(#level.lines(grid, 0.05), 1)
  lu.assertEquals(level.lines(grid, 3), {})
end

-- The ratio of whole bending is w L^2 / (8 F_b' S): the heavy line is where spacing times
-- span squared is what gives 1.
function T.test_contour_of_bending()
  local s = ns.sweep {joist = joist:with {cuts = {}}, over = {
    span = ns.steps("10-0", "18-0", "0-3"), spacing = ns.steps(12, 24, 0.5)},
    values = {"bending"}}
  local script = ns.plot.contour(s, {value = "bending", x = "span", y = "spacing"})
  local S = 1.5 * 9.25 ^ 2 / 6
  local points = 0
  for _, row in ipairs(block(script, "heavy")) do
    if row then
      points = points + 1
      local w = 52 * row[2] / 144
      support.close(w * (row[1] * 12) ^ 2 / 8 / (900 * 1.1 * 1.15 * S), 1, 1e-3)
    end
  end
  lu.assertTrue(points > 30)
  lu.assertStrContains(script, "Heavy line: limit 1")
end

function T.test_contour_without_its_limit_says_so()
  local s = ns.sweep {joist = joist, over = {span = {60, 72}, spacing = {12, 16}},
    values = {"uncut.bending"}}
  local script = ns.plot.contour(s, {value = "uncut.bending", x = "span", y = "spacing"})
  lu.assertStrContains(script, "The limit 1 is met nowhere: values from 0.1")
end

---------------------------------------------------------------------------
-- gnuplot
---------------------------------------------------------------------------

function T.test_charts_draw_in_every_format()
  drawing.need_gnuplot()
  local dir <close> = drawing.folder()
  for format, signature in pairs {png = "\137PNG", svg = "<?xml", pdf = "%PDF"} do
    for name, script in pairs {
      curves = ns.plot.curves(sweep, {value = "ratio", x = "span", lines = "spacing",
        output = "a." .. format, limit = {{at = 1, text = "ratio"}, 0.5}}),
      contour = ns.plot.contour(sweep, {value = "ratio", x = "span", y = "spacing",
        output = "a." .. format, levels = {0.9, 1.3}, size = {"7 in", "5 in"}}),
    } do
      drawing.assert_draws(dir, name .. format, script, "a." .. format, signature)
    end
  end
end

function T.test_hostile_titles()
  drawing.need_gnuplot()
  local dir <close> = drawing.folder()
  for _, s in ipairs(drawing.HOSTILE) do
    for name, script in pairs {
      curves = ns.plot.curves(sweep, {value = "ratio", x = "span", lines = "spacing",
        output = "a.svg", title = s, limit = {{at = 1, text = s}}}),
      contour = ns.plot.contour(sweep, {value = "ratio", x = "span", y = "spacing",
        output = "a.svg", title = s, limit = {{at = 1, text = s}}}),
    } do
      drawing.assert_draws(dir, name .. s, script, "a.svg", "<?xml")
    end
    lu.assertNil(drawing.read_file(dir.path .. "/ran"), s)
  end
end

function T.test_same_bytes_each_time()
  local options = {value = "ratio", x = "span", y = "spacing"}
  lu.assertEquals(ns.plot.contour(sweep, options), ns.plot.contour(sweep, options))
end

---------------------------------------------------------------------------
-- Messages
---------------------------------------------------------------------------

local CURVES = {
  {"a sweep expected, got a number", 1, {}},
  {"options must be a table", sweep, 1},
  {'unknown option "colour"', sweep, {value = "ratio", x = "span", colour = 1}},
  {"output must be a file name", sweep, {value = "ratio", x = "span", output = "a.txt"}},
  {"value: one of the sweep's expected: ratio, cut.net-bending", sweep, {x = "span"}},
  {"x: one of the sweep's axes expected: ", sweep, {value = "ratio"}},
  {"lines: one of the sweep's axes", sweep, {value = "ratio", x = "span", lines = "x"}},
  {"lines: that axis is drawn already", sweep, {value = "ratio", x = "span",
    lines = "span"}},
  {"at: {axis = value}", sweep, {value = "ratio", x = "span", at = 1}},
  {"at: a value of axis 'spacing' is needed", sweep, {value = "ratio", x = "span"}},
  {"at: 'dead' is no axis that stands still", sweep, {value = "ratio", x = "span",
    at = {dead = 1}}},
  {"at: 'span' is no axis that stands still", sweep, {value = "ratio", x = "span",
    at = {span = 144, spacing = 12}}},
  {"limit: a number or a list", sweep, {value = "ratio", x = "span", lines = "spacing",
    limit = "x"}},
  {"limit: a number or a list", sweep, {value = "ratio", x = "span", lines = "spacing",
    limit = {0 / 0}}},
  {"value: 'governing' is a word", sweep, {value = "governing", x = "span",
    lines = "spacing"}},
  {"size: the height must leave", sweep, {value = "ratio", x = "span",
    lines = "spacing", size = {6, 2}}},
}

local CONTOUR = {
  {"y: one of the sweep's axes", sweep, {value = "ratio", x = "span"}},
  {"levels: a list of numbers", sweep, {value = "ratio", x = "span", y = "spacing",
    levels = {}}},
  {"levels: a list of numbers", sweep, {value = "ratio", x = "span", y = "spacing",
    levels = {"1"}}},
  {"levels: at most 24", sweep, {value = "ratio", x = "span", y = "spacing",
    levels = ns.steps(1, 30, 1)}},
}

function T.test_every_message()
  for name, cases in pairs {curves = CURVES, contour = CONTOUR} do
    for _, case in ipairs(cases) do
      local said = support.raises(case[1], function()
        local script = ns.plot[name](case[2], case[3])
        return script
      end)
      lu.assertStrContains(said, "test_charts.lua")
      lu.assertStrContains(said, "plot." .. name)
    end
  end
end

function T.test_messages_about_axes()
  local s = ns.sweep {joist = joist, over = {grade = {"SS", "No.1"}, span = {120, 144},
    species = {"hem-fir"}}, values = {"ratio"}}
  support.raises("x: an axis of numbers expected", ns.plot.contour, s,
    {value = "ratio", x = "grade", y = "span"})
  support.raises("y: two values at least", ns.plot.contour, ns.sweep {joist = joist,
    over = {span = {120, 144}, spacing = {16}}, values = {"ratio"}},
    {value = "ratio", x = "span", y = "spacing"})
  support.raises("lines: at most 10 values can be told apart, the axis has 11",
    ns.plot.curves, ns.sweep {joist = joist, over = {span = {120, 144},
    spacing = ns.steps(12, 22, 1)}, values = {"ratio"}},
    {value = "ratio", x = "span", lines = "spacing"})
  local past = joist:with {cuts = {ns.hole {at = "12-0", diameter = 2}}}
  for _, name in ipairs {"curves", "contour"} do
    support.raises("the sweep has no ratio to draw", ns.plot[name], ns.sweep {
      joist = past, over = {span = {96, 108}, spacing = {12, 16}}, values = {"ratio"}},
      {value = "ratio", x = "span", [name == "curves" and "lines" or "y"] = "spacing"})
  end
end

function T.test_lines_of_equal_value_have_their_unit()
  lu.assertStrContains(ns.plot.contour(sweep, {value = "moment", x = "span",
    y = "spacing", title = "mine"}), "moment (ft-lb) is straight")
end

return T
