-- SPDX-License-Identifier: MIT
--- Diagrams as gnuplot scripts, each in one string that needs nothing but gnuplot.
--
--   plot.moment(subject, options)   bending moment and the capacity that the cuts leave
--   plot.shear(subject, options)    the same for shear
--
-- `subject` is a review, or a joist, which is reviewed with the defaults. Options:
-- output (a file name in .png, .svg or .pdf; without it the terminal is the user's),
-- size ({width, height}, lengths; by default a letter page's column), title (first line).
-- A diagram prints what the review found; nothing is designed here.
--
-- How a diagram looks is in plots/*.gp. What differs from joist to joist is put in for
-- the names between at signs: numbers, and texts in single quotes, in which gnuplot
-- expands nothing.

local units = require "netsection.units"

local plot = {}

---------------------------------------------------------------------------
-- Text
---------------------------------------------------------------------------

-- Not shown, or able to turn the text around them: replaced by a blank.
local HIDDEN = {
  {0, 0x1F}, {0x7F, 0x9F}, {0xAD, 0xAD}, {0x61C, 0x61C}, {0x200B, 0x200F},
  {0x2028, 0x202E}, {0x2060, 0x206F}, {0xFE00, 0xFE0F}, {0xFEFF, 0xFEFF},
  {0xFFF0, 0xFFFC}, {0xE0000, 0x10FFFF},
}

local function hidden(code)
  for _, range in ipairs(HIDDEN) do
    if code >= range[1] and code <= range[2] then return true end
  end
  return code % 0x10000 >= 0xFFFE    -- no characters, refused by readers of SVG
end

-- The character at byte `i`, its width in cells, and where the next one starts. A byte
-- that is not UTF-8 becomes a question mark.
local function character_at(text, i)
  if not utf8.len(text, i, i) then return "?", 1, i + 1 end
  local code = utf8.codepoint(text, i)
  local character = utf8.char(code)
  local after = i + #character
  if hidden(code) then return " ", 1, after end
  return character, code < 0x1100 and 1 or 2, after
end

-- One line of at most `most` cells that gnuplot can show, and the cells it takes.
local function clean(text, most)
  local shown, ends, i = {}, {[0] = 0}, 1
  while i <= #text and ends[#shown] <= most do
    local character, cells
    character, cells, i = character_at(text, i)
    ends[#shown + 1] = ends[#shown] + cells
    shown[#shown + 1] = character
  end
  if ends[#shown] <= most then return table.concat(shown), ends[#shown] end
  local n = #shown
  while ends[n] > most - 3 do n = n - 1 end
  return table.concat(shown, "", 1, n) .. "...", ends[n] + 3
end

-- A name that was given as a number is one too; what is missing is an empty text.
local function text_of(v, most)
  if type(v) == "number" then v = units.significant(v, 6) end
  return clean(type(v) == "string" and v or "", most)
end

-- In single quotes gnuplot expands no backslash, backquote or macro.
local function quote(text)
  return "'" .. text:gsub("'", "''") .. "'"
end

local function lines(list)
  return table.concat(list, "\n")
end

---------------------------------------------------------------------------
-- Recipes
---------------------------------------------------------------------------

-- Beside this file when installed, at the root in a checkout.
local PLACES = {"plots/", "../../plots/"}

local function read_recipe(name)
  local path = assert(package.searchpath("netsection.plot", package.path))
  local folder = path:match("^(.*[/\\])") or ""
  for _, place in ipairs(PLACES) do
    local file <close> = io.open(folder .. place .. name .. ".gp", "rb")
    if file then return file:read("a") end
  end
  error(("plots/%s.gp is not installed with netsection"):format(name), 0)
end

local recipes = {}

local function recipe(name)
  recipes[name] = recipes[name] or read_recipe(name):gsub("^# SPDX[^\n]*\n", "")
  return recipes[name]
end

-- In one pass, so that a text which looks like a placeholder stays text.
local function fill(text, parts)
  return (text:gsub("@([A-Z]+)@", function(name)
    return parts[name] or error("no part for @" .. name .. "@", 0)
  end))
end

---------------------------------------------------------------------------
-- Options and page
---------------------------------------------------------------------------

local OPTIONS = {output = true, size = true, title = true}
local SMALLEST, LARGEST = 3, 40          -- in
local WIDTH, FRAME_HEIGHT = 6.5, 2.8     -- in, by default
local FONT = 8.5                         -- points
local DOTS = 200                         -- dots of a PNG per inch

-- Width and height of a character in inches, as gnuplot reckons them for FONT.
local CELL = {
  png = {0.075, 0.1375}, pdf = {0.075, 0.1375}, svg = {0.0825, 0.177},
}

local function known_options(options)
  if type(options) ~= "table" then
    return nil, "options must be a table, got a " .. type(options)
  end
  local unknown = {}
  for key in pairs(options) do
    if not OPTIONS[key] then unknown[#unknown + 1] = clean(tostring(key), 40) end
  end
  table.sort(unknown)
  if unknown[1] then
    return nil, ('unknown option "%s"; options are output, size and title')
      :format(unknown[1])
  end
  return true
end

-- The format that the name asks for, or nil and what is wrong. gnuplot would run what
-- follows a bar as a command.
local function output_format(output)
  if output == nil then return "none" end
  local format = type(output) == "string" and output:lower():match("%.(%a+)$")
  if not CELL[format] then
    return nil, "output must be a file name that ends in .png, .svg or .pdf"
  elseif output:find("%c") or output:find("^[|~]") then
    return nil, "output must be a file name without control characters and not begin "
      .. "with | or ~"
  end
  return format
end

local function read_size(size)
  if size == nil then return {} end
  if type(size) ~= "table" then return nil, "size must be {width, height}" end
  local read = {}
  for i = 1, 2 do
    local side, problem = units.length(size[i])
    if not side then return nil, "size: " .. problem end
    if side < SMALLEST or side > LARGEST then
      return nil, ("size: each side must be %d to %d in"):format(SMALLEST, LARGEST)
    end
    read[i] = side
  end
  return read
end

-- Options as given -> {output, format, title, width, height or nil} | nil, problem.
local function read_options(options)
  options = options or {}
  local ok, problem = known_options(options)
  if not ok then return nil, problem end
  local format, size
  format, problem = output_format(options.output)
  if not format then return nil, problem end
  size, problem = read_size(options.size)
  if not size then return nil, problem end
  if options.title ~= nil and type(options.title) ~= "string" then
    return nil, "title must be text"
  end
  return {
    output = options.output, format = format, title = options.title,
    width = size[1] or WIDTH, height = size[2],
  }
end

local TERMINALS = {
  -- a gnuplot built without cairo still has the plain bitmap terminal
  png = [[
if (strstrt(GPVAL_TERMINALS, ' pngcairo ') > 0) {
  set terminal pngcairo size %d,%d font 'sans-serif,%s' fontscale %s linewidth 2 \
    noenhanced
} else {
  set terminal png size %d,%d noenhanced
}]],
  svg = "set terminal svg size %d,%d font 'sans-serif,%s' noenhanced",
  pdf = "set terminal pdfcairo size %sin,%sin font 'sans-serif,%s' fontscale 0.75 "
    .. "linewidth 0.8 noenhanced",
}

local function terminal(page)
  local wide, high = page.width, page.height
  local form = TERMINALS[page.format]
  if page.format == "png" then
    local x, y = math.floor(wide * DOTS + 0.5), math.floor(high * DOTS + 0.5)
    return form:format(x, y, units.fixed(FONT, 1), units.fixed(DOTS / 96, 3), x, y)
  elseif page.format == "svg" then
    return form:format(math.floor(wide * 96 + 0.5), math.floor(high * 96 + 0.5),
      units.fixed(FONT * 96 / 72, 1))
  end
  return form:format(units.fixed(wide, 3), units.fixed(high, 3), units.fixed(FONT, 1))
end

-- What a start-up file of the user's may have set otherwise goes back to a known state.
local function page_part(page)
  local list = {
    "reset", "set encoding utf8", "set decimalsign '.'",
    "set datafile separator whitespace",
  }
  if page.output then
    list[#list + 1] = terminal(page)
    list[#list + 1] = "set output " .. quote(page.output)
  end
  return lines(list)
end

---------------------------------------------------------------------------
-- Numbers of a diagram
---------------------------------------------------------------------------

local MOMENT = {
  name = "moment", heading = "Bending moment", modes = "bending",
  full = "M", low = "M_min", high = "M_max", cap = "M_cap", cap_low = "M_cap_neg",
  scale = 1 / 12, unit = "ft-lb",
}
local SHEAR = {
  name = "shear", heading = "Shear", modes = "shear", both_signs = true,
  full = "V", low = "V_min", high = "V_max", cap = "V_cap", cap_low = "V_cap",
  scale = 1, unit = "lb",
}

local NONE = 0.005   -- share of the greatest demand that does not count as hogging

-- Three digits at least, and the trade writes no thousandths of a pound.
local function shown(v)
  if math.abs(v) >= 100 or v == 0 then return units.fixed(v, 0) end
  return units.significant(v, 3)
end

local function feet(x)
  return units.fixed(x / 12, 5)
end

-- Records in the units shown: hogging capacity as a negative number.
local function scaled(points, kind)
  local list = {}
  for i, p in ipairs(points) do
    list[i] = {
      x = p.x, full = p[kind.full] * kind.scale, low = p[kind.low] * kind.scale,
      high = p[kind.high] * kind.scale, cap = p[kind.cap] * kind.scale,
      cap_low = -p[kind.cap_low] * kind.scale,
    }
  end
  return list
end

local function extremes(points, low, high)
  local least, greatest = points[1], points[1]
  for _, p in ipairs(points) do
    if p[low] < least[low] then least = p end
    if p[high] > greatest[high] then greatest = p end
  end
  return least, greatest
end

local function between(a, b, x, field)
  if b.x == a.x then return b[field] end
  return a[field] + (b[field] - a[field]) * (x - a.x) / (b.x - a.x)
end

local function worse_share(demand, capacity)
  if demand <= 0 then return 0 end
  return capacity > 0 and demand / capacity or math.huge
end

-- The demand at `x` that uses most of its capacity: either side of a step, either sign.
local function worst_at(points, x)
  local most, y = -1, 0
  for i = 2, #points do
    local a, b = points[i - 1], points[i]
    if a.x <= x and x <= b.x then
      local high, low = between(a, b, x, "high"), between(a, b, x, "low")
      local up = worse_share(high, between(a, b, x, "cap"))
      local down = worse_share(-low, -between(a, b, x, "cap_low"))
      if up > most then most, y = up, high end
      if down > most then most, y = down, low end
    end
  end
  return y
end

-- Capacity of smallest size over a cut. Only what lies between its edges counts: at an
-- edge the list also holds the neighbour's value.
local function least_over(points, cut, field)
  local least
  local function take(v)
    if not least or math.abs(v) < math.abs(least) then least = v end
  end
  for i = 2, #points do
    local a, b = points[i - 1], points[i]
    if a.x < cut.x2 and b.x > cut.x1 and b.x > a.x then
      take(between(a, b, math.max(a.x, cut.x1), field))
      take(between(a, b, math.min(b.x, cut.x2), field))
    end
  end
  for _, p in ipairs(points) do
    if cut.x1 == cut.x2 and p.x == cut.x1 then take(p[field]) end
  end
  return least or 0
end

local function exceeded(points)
  for _, p in ipairs(points) do
    if p.high > p.cap or p.low < p.cap_low then return true end
  end
  return false
end

-- The cuts change the forces only where the joist is not statically determinate.
local function differ(a, b)
  local a_low, a_high = extremes(a, "full", "full")
  local b_low, b_high = extremes(b, "full", "full")
  local size = math.max(a_high.full, -a_low.full)
  return math.max(math.abs(a_high.full - b_high.full), math.abs(a_low.full - b_low.full))
    > NONE * size
end

local function read_diagram(d, kind)
  local cut, uncut = scaled(d.cut, kind), scaled(d.uncut, kind)
  local least, greatest = extremes(cut, "low", "high")
  return {
    kind = kind, given = d, cut = cut, uncut = uncut,
    low = least.low, high = greatest.high, moved = differ(uncut, cut),
    hogging = kind.both_signs or -least.low > NONE * greatest.high,
    exceeded = exceeded(cut), start = d.start, finish = d.finish,
  }
end

---------------------------------------------------------------------------
-- Data, facts and words
---------------------------------------------------------------------------

local function block(name, points)
  local list = {"$" .. name .. " << EOD"}
  for _, p in ipairs(points) do
    list[#list + 1] = table.concat({
      feet(p.x), units.fixed(p.full, 2), units.fixed(p.low, 2), units.fixed(p.high, 2),
      units.fixed(p.cap, 2), units.fixed(p.cap_low, 2),
    }, " ")
  end
  list[#list + 1] = "EOD"
  return lines(list)
end

local function ring(diagram)
  local governing = diagram.given.governing
  local modes = diagram.kind.modes
  if governing and governing.x and tostring(governing.mode):find(modes, 1, true) then
    return governing
  end
end

-- gnuplot wants the block even where nothing is drawn from it.
local function ring_block(diagram)
  local governing = ring(diagram)
  local point = "0 0"
  if governing then
    local y = worst_at(diagram.cut, governing.x)
    point = feet(governing.x) .. " " .. units.fixed(y, 2)
  end
  return lines {"$ring << EOD", point, "EOD"}
end

local function data_part(diagram)
  return lines {
    block("cut", diagram.cut), block("uncut", diagram.uncut), ring_block(diagram),
  }
end

-- "up to 1580 ft-lb at 6'-9"", or the range where there are both signs.
local function reading(diagram, points, low, high)
  local least, greatest = extremes(points, low, high)
  local unit = diagram.kind.unit
  if diagram.hogging then
    return ("%s to %s %s"):format(shown(least[low]), shown(greatest[high]), unit)
  end
  return ("up to %s %s at %s"):format(shown(greatest[high]), unit,
    units.feet_inches(greatest.x))
end

-- Nothing is left to divide by where a joist is cut through.
local function ratio_words(ratio)
  if not ratio or ratio ~= ratio or ratio == math.huge then return "no capacity" end
  return "ratio " .. units.fixed(ratio, 2)
end

local function governing_words(governing)
  local place = governing.x and " at " .. units.feet_inches(governing.x) or ""
  return text_of(governing.mode, 24) .. ", " .. ratio_words(governing.ratio) .. place
end

local function switch(name, on)
  return ("%s = %d"):format(name, on and 1 or 0)
end

local function word(name, text)
  return name .. " = " .. quote(text)
end

local function facts_part(diagram)
  local governing = ring(diagram)
  local full = "full load, all live (%s)"
  return lines {
    switch("moved", diagram.moved), switch("hogging", diagram.hogging),
    switch("exceeded", diagram.exceeded), switch("ringed", governing),
    word("full_text", full:format(reading(diagram, diagram.cut, "full", "full"))),
    word("moved_text", "full load, if it were uncut"),
    word("live_text", ("live load where it hurts most (%s)")
      :format(reading(diagram, diagram.cut, "low", "high"))),
    word("ring_text", governing and "governs: " .. governing_words(governing) or ""),
  }
end

---------------------------------------------------------------------------
-- Places of the marks above the frame
---------------------------------------------------------------------------

local EDGES = 14     -- characters left and right of the frame

-- Moves marks apart until none overlap, each as little as can be (isotonic regression by
-- pooling neighbours). `centres` rise; returns the new centres.
local function apart(centres, widths, low, high)
  local offsets, pools = {[1] = 0}, {}
  for i = 2, #centres do
    offsets[i] = offsets[i - 1] + (widths[i - 1] + widths[i]) / 2
  end
  for i, centre in ipairs(centres) do
    local pool = {sum = centre - offsets[i], n = 1}
    local before = pools[#pools]
    while before and before.sum / before.n > pool.sum / pool.n do
      pool = {sum = pool.sum + before.sum, n = pool.n + before.n}
      pools[#pools] = nil
      before = pools[#pools]
    end
    pools[#pools + 1] = pool
  end
  local last = #centres
  local top = high - offsets[last] - widths[last] / 2
  local placed = {}
  for _, pool in ipairs(pools) do
    for _ = 1, pool.n do
      local base = math.max(low + widths[1] / 2, math.min(pool.sum / pool.n, top))
      placed[#placed + 1] = base + offsets[#placed + 1]
    end
  end
  return placed
end

-- Cuts in the order of their places, with what is shown of them.
local function sorted_cuts(given)
  local list = {}
  for i, cut in ipairs(given or {}) do
    list[i] = {
      x1 = cut.x1, x2 = cut.x2, at = cut.at or (cut.x1 + cut.x2) / 2, order = i,
      severed = cut.kind == "sever", name = text_of(cut.name, 18),
      label = text_of(cut.label, 30),
    }
  end
  table.sort(list, function(a, b)
    if a.at ~= b.at then return a.at < b.at end
    return a.order < b.order
  end)
  return list
end

-- A, B ... Z, A1, B1 ...: cuts are named "hole 2", so numbers would mislead.
local function letter(i)
  local round = (i - 1) // 26
  return string.char(65 + (i - 1) % 26) .. (round > 0 and ("%d"):format(round) or "")
end

local function pitch(diagram, page)
  return (diagram.finish - diagram.start) / (page.columns - EDGES)
end

local function marks(cuts, cell, diagram, mark_of)
  local centres, widths = {}, {}
  for i, cut in ipairs(cuts) do
    cut.mark = mark_of(i, cut)
    local _, cells = clean(cut.mark, 99)
    centres[i], widths[i] = cut.at, (cells + 1) * cell
  end
  if #cuts == 0 then return true end
  local near = true
  for i, x in ipairs(apart(centres, widths, diagram.start, diagram.finish)) do
    cuts[i].mark_x = x
    near = near and math.abs(x - centres[i]) <= 0.35 * widths[i]
  end
  return near
end

-- Names where each can stand over its cut, else letters which the list explains.
local function place_marks(cuts, diagram, page)
  local cell = pitch(diagram, page)
  if not marks(cuts, cell, diagram, function(_, cut) return cut.name end) then
    marks(cuts, cell, diagram, letter)
    return true
  end
  return false
end

-- Cuts that overlap (a hole in a rotted stretch) get bars at different levels.
local function level_bars(cuts, gap)
  local ends = {}
  for _, cut in ipairs(cuts) do
    local level = 1
    while ends[level] and ends[level] + gap > cut.x1 do level = level + 1 end
    cut.level, ends[level] = level, cut.x2
  end
  return #ends
end

---------------------------------------------------------------------------
-- Frame
---------------------------------------------------------------------------

local BAR, LEADER = 0.022, 0.05      -- shares of the frame's height
local ROW = 1.25                     -- characters from line to line

local function number(v)
  return units.significant(v, 6)
end

local function label(text, place, more)
  return ("set label %s at %s noenhanced%s"):format(quote(text), place,
    more and " " .. more or "")
end

local function arrow(x1, y1, x2, y2, style)
  return ("set arrow from %s,graph %s to %s,graph %s nohead %s"):format(
    feet(x1), units.fixed(y1, 4), feet(x2), units.fixed(y2, 4), style)
end

-- 1, 2 or 5 times a power of ten, for six intervals or a few more.
local function tic_step(range)
  local power = 10 ^ math.floor(math.log(range / 6, 10))
  for _, m in ipairs {1, 2, 5} do
    if m * power >= range / 8 then return m * power end
  end
  return 10 * power
end

local function y_range(diagram)
  local high, low = 0, 0
  for _, points in ipairs {diagram.cut, diagram.uncut} do
    for _, p in ipairs(points) do
      high = math.max(high, p.high, p.full, p.cap)
      low = math.min(low, p.low, p.full, diagram.hogging and p.cap_low or 0)
    end
  end
  if high == low then high = 1 end
  local room = 0.05 * (high - low)
  return diagram.hogging and low - room or 0, high + room
end

local function axes(diagram)
  local low, high = y_range(diagram)
  local long = (diagram.finish - diagram.start) / 12
  local step = long <= 16 and 1 or long <= 34 and 2 or tic_step(long)
  local y_step = tic_step(high - low)
  local pad = 0.015 * (diagram.finish - diagram.start)
  return lines {
    ("set xrange [%s:%s]"):format(feet(diagram.start - pad), feet(diagram.finish + pad)),
    ("set yrange [%s:%s]"):format(number(low), number(high)),
    ("set xtics %s nomirror out scale 0.5 offset 0,-0.3"):format(number(step)),
    ("set ytics %s nomirror out scale 0.5"):format(number(y_step)),
    ("set format y '%%.%df'"):format(math.max(0, -math.floor(math.log(y_step, 10)))),
    "set format x '%g'",
    "set grid ytics lt 1 lw 0.5 lc rgb '#DADADA'",
    "set border 15 lw 0.8",
    "set xzeroaxis lt 1 lw 0.8 lc rgb '#000000'",
    "set xlabel 'x from the centre of the left bearing, ft' offset 0,-0.3 noenhanced",
  }
end

-- Triangles that touch the frame from below.
local function support_part(diagram)
  local list, half = {}, 0.009 * (diagram.finish - diagram.start)
  for i, x in ipairs(diagram.given.supports) do
    list[i] = ("set object polygon from %s,graph 0 to %s,graph -0.035 to %s,graph -0.035 "
      .. "to %s,graph 0 noclip fillcolor rgb '#000000' fillstyle solid 1.0")
      :format(feet(x), feet(x - half), feet(x + half), feet(x))
  end
  return lines(list)
end

local EDGE_STYLE = "lw 0.8 dashtype (3,4) lc rgb '#303030' front"

-- Dotted lines at the edges of a cut, a bar above the frame, a leader to its mark.
local function cut_part(cut, levels)
  local y = 1 + BAR * cut.level
  local list = {arrow(cut.x1, 0, cut.x1, y, EDGE_STYLE)}
  if cut.x2 > cut.x1 then
    list[#list + 1] = arrow(cut.x2, 0, cut.x2, y, EDGE_STYLE)
    list[#list + 1] = arrow(cut.x1, y, cut.x2, y, "lw 4")
  end
  local foot = 1 + BAR * levels + 0.015
  list[#list + 1] = arrow(cut.at, y, cut.at, foot, "lw 0.7")
  list[#list + 1] = arrow(cut.at, foot, cut.mark_x, foot + LEADER, "lw 0.7")
  list[#list + 1] = label(cut.mark, ("%s,graph %s")
    :format(feet(cut.mark_x), units.fixed(foot + LEADER, 4)), "center offset 0,0.6")
  return lines(list)
end

local function severed_label(cut, diagram)
  local low, high = y_range(diagram)
  local right = cut.at * 2 < diagram.start + diagram.finish
  return label("severed", ("%s,%s"):format(feet(right and cut.x2 or cut.x1),
    number(0.045 * (high - low))),
    right and "left offset 0.6,0 front boxed" or "right offset -0.6,0 front boxed")
end

local function cuts_part(cuts, levels, diagram)
  local list = {"set style textbox opaque noborder margins 0.3,0.3"}
  for _, cut in ipairs(cuts) do
    list[#list + 1] = cut_part(cut, levels)
    if cut.severed then list[#list + 1] = severed_label(cut, diagram) end
  end
  return lines(list)
end

-- A user's text ends its line, so that one which runs from right to left cannot carry
-- ours along.
local function title_part(diagram, page, top)
  local given = diagram.given
  local mark, cells = text_of(given.mark, 30)
  local first = page.title and clean(page.title, 76)
    or diagram.kind.heading .. (cells > 0 and ", joist " .. mark or "")
  local at = "character 2,graph " .. units.fixed(top, 4)
  return lines {
    label(first, at, "left offset 0,2.1 font ':Bold'"),
    label(text_of(given.title, 90), at, "left offset 0,0.8"),
  }
end

---------------------------------------------------------------------------
-- Below the frame: key, list of cuts, notes
---------------------------------------------------------------------------

local NOTE = "Working figures to be checked by the engineer in charge; "
  .. "not a sealed design."

local function at_row(column, y)
  return ("character %s,character %s"):format(number(column), units.fixed(y, 2))
end

local function capacity_words(cut, diagram)
  local words = shown(least_over(diagram.cut, cut, "cap"))
  if diagram.hogging and not diagram.kind.both_signs then
    words = words .. ", hogging " .. shown(least_over(diagram.cut, cut, "cap_low"))
  end
  return words .. " " .. diagram.kind.unit
end

local function place_words(cut)
  local from, to = units.feet_inches(cut.x1), units.feet_inches(cut.x2)
  return from == to and from or from .. " to " .. to
end

local function row(list, y, cells)
  for i, column in ipairs {2, 5, 25, 48} do
    list[#list + 1] = label(cells[i], at_row(column, y), "left")
  end
  list[#list + 1] = label(cells[5], ("graph 1,character %s"):format(units.fixed(y, 2)),
    "right")
end

-- Upwards from `y`; returns the height reached.
local function cut_list(list, cuts, diagram, lettered, y)
  if #cuts == 0 then return y end
  for i = #cuts, 1, -1 do
    local cut = cuts[i]
    row(list, y, {
      lettered and cut.mark or "", cut.name, place_words(cut), cut.label,
      capacity_words(cut, diagram),
    })
    y = y + ROW
  end
  row(list, y, {"", "Cut", "Where", "What", "Least capacity"})
  return y + 1.8 * ROW
end

local function notes(list, diagram)
  local y = 0.8
  list[#list + 1] = label(NOTE, at_row(2, y), "left")
  local governing = diagram.given.governing
  if governing and not ring(diagram) then
    y = y + ROW
    list[#list + 1] = label("Governs, but is not on this diagram: "
      .. governing_words(governing), at_row(2, y), "left")
  end
  return y + 1.5 * ROW
end

local function key_rows(diagram)
  local entries = 4
  for _, on in ipairs {diagram.moved, diagram.exceeded, ring(diagram)} do
    if on then entries = entries + 1 end
  end
  return entries
end

-- The lines below the frame, and the characters they need.
local function foot_part(cuts, diagram, lettered)
  local list = {}
  local y = cut_list(list, cuts, diagram, lettered, notes(list, diagram))
  y = y + ROW * key_rows(diagram)
  list[#list + 1] = ("set key at %s left top vertical maxcols 1 Left reverse samplen 3 "
    .. "noenhanced spacing %s"):format(at_row(0.5, y), number(ROW))
  return lines(list), y + 3.6
end

---------------------------------------------------------------------------
-- Scripts
---------------------------------------------------------------------------

local function frame_part(diagram, page)
  local cuts = sorted_cuts(diagram.given.cuts)
  local lettered = place_marks(cuts, diagram, page)
  local levels = level_bars(cuts, 0.004 * (diagram.finish - diagram.start))
  local top = #cuts == 0 and 1 or 1.06 + BAR * levels + LEADER
  local foot, below = foot_part(cuts, diagram, lettered)
  local above = 3.4 + (top - 1) * FRAME_HEIGHT / page.line
  page.height = page.height or FRAME_HEIGHT + (above + below) * page.line
  return lines {
    axes(diagram), support_part(diagram), cuts_part(cuts, levels, diagram),
    title_part(diagram, page, top), foot,
    "set lmargin 11", "set rmargin 3",
    "set tmargin " .. number(above), "set bmargin " .. number(below),
  }
end

local function script(given, kind, page)
  local cell = CELL[page.format] or CELL.png
  page.columns, page.line = page.width / cell[1], cell[2]
  local diagram = read_diagram(given, kind)
  local frame = frame_part(diagram, page)
  return fill(recipe(kind.name), {
    PAGE = page_part(page), DATA = data_part(diagram), FACTS = facts_part(diagram),
    FRAME = frame, CLOSE = page.output and "unset output" or "",
  })
end

local function has(subject, method)
  return type(subject) == "table" and type(subject[method]) == "function"
end

-- Subject -> diagram | nil, problem.
local function diagram_of(subject)
  if has(subject, "diagram") then return subject:diagram() end
  if not has(subject, "review") then return false end
  local review, problem = subject:review()
  if review == nil then return nil, problem end
  return has(review, "diagram") and review:diagram()
end

local function draw(kind, subject, options)
  local page, problem = read_options(options)
  if not page then error(problem, 3) end
  local given
  given, problem = diagram_of(subject)
  if given == false then
    local form = "plot.%s: a review or a joist expected, got a %s"
    error(form:format(kind.name, type(subject)), 3)
  end
  if not given then return nil, problem end
  local text = script(given, kind, page)
  return text
end

--- Bending moment with the capacity that steps down at the cuts.
-- @param subject a review or a joist
-- @param options {output =, size =, title =}, see above
-- @return a gnuplot script; or nil and what the review says is wrong
function plot.moment(subject, options)
  local text, problem = draw(MOMENT, subject, options)
  return text, problem
end

--- Shear with the capacity that steps down at the cuts; as plot.moment.
function plot.shear(subject, options)
  local text, problem = draw(SHEAR, subject, options)
  return text, problem
end

return plot
