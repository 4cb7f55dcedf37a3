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

-- Width in cells, which are as wide as a digit, on the wide side for any sans-serif.
local function cells_of(code, character)
  if code > 127 then return code < 0x1100 and 1.2 or 2 end
  if character:find("[fijlrtI '|/.,:;!()%[%]-]") then return 0.62 end
  if character:find("[MWmw@%%]") then return 1.55 end
  return character:find("[A-Z]") and 1.15 or 1
end

-- The character at byte `i`, its width, and where the next one starts. A byte that is
-- not UTF-8 becomes a question mark.
local function character_at(text, i)
  if not utf8.len(text, i, i) then return "?", 1, i + 1 end
  local code = utf8.codepoint(text, i)
  local character = utf8.char(code)
  local after = i + #character
  if hidden(code) then return " ", 1, after end
  return character, cells_of(code, character), after
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
  while ends[n] > most - 2 do n = n - 1 end
  return table.concat(shown, "", 1, n) .. "...", ends[n] + 2
end

-- What is missing is an empty text.
local function text_of(v, most)
  return (clean(type(v) == "string" and v or "", most))
end

-- In single quotes gnuplot expands no backslash, backquote or macro. An apostrophe is
-- put in from outside, by its code: gnuplot ends a text early at two doubled quotes in a
-- row or at one in front, and would run what follows.
local function quote(text)
  return "'" .. text:gsub("'", [['."\047".']]) .. "'"
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
local FORMATS = {png = true, pdf = true, svg = true}
local WIDTH = 6.5                        -- in, by default: a letter page's column
local NARROWEST, LARGEST = 6, 40         -- in
local FONT = 8.5                         -- points
local DOTS = 200                         -- dots of a PNG per inch

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
  if not FORMATS[format] then
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
    read[i] = side
  end
  if read[1] < NARROWEST or math.max(read[1], read[2]) > LARGEST then
    return nil, ("size: the width must be %d to %d in, the height at most %d in")
      :format(NARROWEST, LARGEST, LARGEST)
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

local function rounded(x)
  return ("%d"):format(math.floor(x + 0.5))
end

-- A terminal with the size of the page, by gnuplot's name for it.
local function terminal(name, page)
  local function size(dots)
    return rounded(page.width * dots) .. "," .. rounded(page.height * dots)
  end
  local font = ("font 'sans-serif,%s'"):format(units.fixed(FONT, 1))
  local more = {
    pngcairo = ("size %s %s fontscale %s linewidth 2 noenhanced rounded"):format(
      size(DOTS), font, units.fixed(DOTS / 96, 3)),
    png = ("size %s fontscale 1.7 linewidth 2 noenhanced rounded"):format(size(DOTS)),
    svg = ("size %s font 'sans-serif,%s' noenhanced rounded"):format(size(96),
      units.fixed(FONT * 96 / 72, 1)),
    pdfcairo = ("size %sin,%sin %s fontscale 0.75 linewidth 0.8 noenhanced rounded")
      :format(units.fixed(page.width, 3), units.fixed(page.height, 3), font),
    window = ("size %s %s noenhanced"):format(size(96), font),
  }
  return "set terminal " .. name .. " " .. (more[name] or more.window)
end

-- What gnuplot shows of a file terminal whose size nobody has set; a window has none.
local UNSET = {
  {"pngcairo", "size 640, 480"}, {"png", "size 640,480"}, {"svg", "size 600,480"},
  {"pdfcairo", "size 5.00in, 3.00in"}, {"qt", " "}, {"wxt", " "},
}

-- The user's own terminal, which is left alone if it was given a size.
local function users_terminal(page)
  local list = {}
  for i, case in ipairs(UNSET) do
    list[i] = ("if (GPVAL_TERM eq '%s' && strstrt(GPVAL_TERMOPTIONS.' ', '%s') > 0) {\n"
      .. "  %s\n}"):format(case[1], case[2], terminal(case[1], page))
  end
  return lines(list)
end

-- A gnuplot built without cairo still has the plain bitmap terminal.
local function file_terminal(page)
  if page.format == "svg" then return terminal("svg", page) end
  if page.format == "pdf" then return terminal("pdfcairo", page) end
  return lines {
    "if (strstrt(GPVAL_TERMINALS, ' pngcairo ') > 0) {",
    "  " .. terminal("pngcairo", page),
    "} else {", "  " .. terminal("png", page), "}",
  }
end

-- What a start-up file of the user's may have set otherwise goes back to a known state.
local function page_part(page)
  return lines {
    "reset", "set encoding utf8", "set decimalsign '.'",
    "set datafile separator whitespace",
    page.output and file_terminal(page) or users_terminal(page),
    page.output and "set output " .. quote(page.output) or "",
    -- the others have no bold by that name
    "title_font = GPVAL_TERM eq 'pngcairo' || GPVAL_TERM eq 'pdfcairo' ? ':Bold' : ''",
  }
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

-- A demand that equals its capacity but for the last bits is not above it.
local function exceeded(points, hogging)
  for _, p in ipairs(points) do
    local slack = 1e-9 * (p.high - p.low)
    if p.high > p.cap + slack or hogging and p.low < p.cap_low - slack then
      return true
    end
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

-- A joist that is cut through carries no moment; its points hold what the whole joist
-- would have to carry, against a capacity of zero.
local function read_diagram(d, kind)
  local cut, uncut = scaled(d.cut, kind), scaled(d.uncut, kind)
  local least, greatest = extremes(cut, "low", "high")
  local hogging = kind.both_signs or -least.low > NONE * greatest.high
  return {
    kind = kind, given = d, cut = cut, uncut = uncut, moved = differ(uncut, cut),
    hogging = hogging, exceeded = exceeded(cut, hogging),
    start = d.start, finish = d.finish,
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

-- " (up to 1580 ft-lb at 6'-9")", or the range where there are both signs. Nothing unless
-- the review says that its points hold the peaks: between points the curve is higher.
local function reading(diagram, low, high)
  if not diagram.given.peaks then return "" end
  local least, greatest = extremes(diagram.cut, low, high)
  local unit = diagram.kind.unit
  if diagram.hogging then
    return (" (%s to %s %s)"):format(shown(least[low]), shown(greatest[high]), unit)
  end
  return (" (up to %s %s at %s)"):format(shown(greatest[high]), unit,
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

---------------------------------------------------------------------------
-- Places of the marks above the frame
---------------------------------------------------------------------------

-- All in inches. A cell is the width of a digit.
local LEFT, RIGHT, MARGIN, TITLES = 0.83, 0.2, 0.15, 0.47
local FRAME, LOWEST = 2.8, 1.2           -- height of the frame: by default, at least
local CELL, ROW, SAMPLE = 0.075, 0.172, 0.4
local BAR, LEADER = 0.06, 0.16

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
  for i, cut in ipairs(given.cuts or {}) do
    local function inside(x)
      return math.max(given.start, math.min(given.finish, x))
    end
    list[i] = {
      x1 = cut.x1, x2 = cut.x2, left = inside(cut.x1), right = inside(cut.x2),
      at = inside(cut.at or (cut.x1 + cut.x2) / 2), order = i,
      severed = cut.kind == "sever", name = text_of(cut.name, 16),
      label = cut.label,
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

local function span_of(diagram)
  return diagram.finish - diagram.start
end

-- Gives each cut the text `mark_of` makes, and its place; true if each has one and stands
-- over its cut.
local function marks(cuts, cell, diagram, mark_of)
  local centres, widths, near = {}, {}, true
  for i, cut in ipairs(cuts) do
    cut.mark = mark_of(i, cut)
    local _, cells = clean(cut.mark, 99)
    centres[i], widths[i] = cut.at, (cells + 1) * cell
  end
  for i, x in ipairs(apart(centres, widths, diagram.start, diagram.finish)) do
    cuts[i].mark_x = x
    near = near and cuts[i].mark ~= "" and math.abs(x - centres[i]) <= 0.35 * widths[i]
  end
  return near
end

-- Names where each can stand over its cut, else letters, which the list explains.
-- True for letters.
local function place_marks(cuts, diagram, page)
  if #cuts == 0 then return false end
  local cell = CELL * span_of(diagram) / (page.width - LEFT - RIGHT)
  local named = marks(cuts, cell, diagram, function(_, cut) return cut.name end)
  if not named then marks(cuts, cell, diagram, letter) end
  return not named
end

-- Cuts that overlap (a hole in a rotted stretch) get bars at different levels.
local function level_bars(cuts, gap)
  local ends = {}
  for _, cut in ipairs(cuts) do
    local level = 1
    while ends[level] and ends[level] + gap > cut.left do level = level + 1 end
    cut.level, ends[level] = level, cut.right
  end
  return #ends
end

---------------------------------------------------------------------------
-- Layout
---------------------------------------------------------------------------

-- Rows of the key from the top; those of nothing drawn are left out.
local KEY = {"full", "moved", "live", "cut", "uncut", "exceeded", "ring"}

local function key_texts(diagram)
  local governing = ring(diagram)
  local damaged = #diagram.cuts > 0
  return {
    full = "full load, all live" .. reading(diagram, "full", "full"),
    moved = diagram.moved and "full load, if the joist were uncut",
    live = "live load placed for the greatest effect" .. reading(diagram, "low", "high"),
    cut = damaged and "capacity, cut" or "capacity",
    uncut = damaged and "capacity, uncut",
    exceeded = diagram.exceeded and "demand above the capacity",
    ring = governing and "governs: " .. governing_words(governing),
  }
end

-- Heights in inches from the foot of the page, upwards: notes, list of cuts, key.
local function stack(diagram)
  local rows, y = {note = 0.13}, 0.13
  if diagram.given.governing and not ring(diagram) then
    y = y + ROW
    rows.elsewhere = y
  end
  y = y + 1.4 * ROW
  for i = #diagram.cuts, 1, -1 do
    rows[i], y = y, y + ROW
  end
  if #diagram.cuts > 0 then
    rows.heading, y = y, y + 1.5 * ROW
  end
  for i = #KEY, 1, -1 do
    if diagram.key[KEY[i]] then
      rows[KEY[i]], y = y, y + ROW
    end
  end
  rows.axis = y + 0.06
  return rows, rows.axis + 0.42
end

-- Where everything stands, in inches; or nil and that the page is too low.
local function lay_out(diagram, page)
  local rows, bottom = stack(diagram)
  local levels = level_bars(diagram.cuts, 0.004 * span_of(diagram))
  local above = #diagram.cuts == 0 and 0.04 or BAR * levels + LEADER + 0.22
  local least = bottom + LOWEST + above + TITLES
  page.height = page.height or bottom + FRAME + above + TITLES
  if page.height < least then
    return nil, ("size: the height must be at least %s in for what is below the frame")
      :format(units.fixed(math.ceil(least * 10) / 10, 1))
  end
  return {
    rows = rows, bottom = bottom, top = page.height - above - TITLES, levels = levels,
    width = page.width, height = page.height,
    lettered = place_marks(diagram.cuts, diagram, page),
  }
end

local function down(page, y)
  return units.fixed(y / page.height, 5)
end

local function on_page(page, x, y)
  return ("screen %s,screen %s"):format(units.fixed(x / page.width, 5), down(page, y))
end

-- Above or below the frame at a place along the joist.
local function along(page, x, y)
  return feet(x) .. ",screen " .. down(page, y)
end

---------------------------------------------------------------------------
-- Facts that the recipe asks for
---------------------------------------------------------------------------

local function switch(name, on)
  return ("%s = %d"):format(name, on and 1 or 0)
end

local function facts_part(diagram, page)
  local list = {
    switch("damaged", #diagram.cuts > 0), switch("moved", diagram.moved),
    switch("hogging", diagram.hogging), switch("exceeded", diagram.exceeded),
    switch("ringed", ring(diagram)),
    "key_left = " .. units.fixed(MARGIN / page.width, 5),
    "key_right = " .. units.fixed((MARGIN + SAMPLE) / page.width, 5),
    "key_half = " .. units.fixed(0.3 * ROW / page.height, 5),
  }
  for _, name in ipairs(KEY) do
    local y = page.rows[name]
    if y then list[#list + 1] = ("%s_row = %s"):format(name, down(page, y)) end
  end
  return lines(list)
end

---------------------------------------------------------------------------
-- Frame
---------------------------------------------------------------------------

local function number(v)
  return units.significant(v, 6)
end

local function label(text, place, more)
  return ("set label %s at %s noenhanced %s"):format(quote(text), place, more or "left")
end

local function arrow(from, to, style)
  return ("set arrow from %s to %s nohead %s"):format(from, to, style)
end

-- 1, 2 or 5 times a power of ten, for about six intervals.
local function tic_step(range)
  local power = 10 ^ math.floor(math.log(range / 8, 10))
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
  local long = span_of(diagram) / 12
  local step = long <= 16 and 1 or long <= 34 and 2 or tic_step(long)
  local y_step = tic_step(high - low)
  local pad = 0.015 * span_of(diagram)
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
  }
end

local function margins(page)
  return lines {
    "set lmargin at screen " .. units.fixed(LEFT / page.width, 5),
    "set rmargin at screen " .. units.fixed(1 - RIGHT / page.width, 5),
    "set bmargin at screen " .. down(page, page.bottom),
    "set tmargin at screen " .. down(page, page.top),
    label("x from the centre of the left bearing, ft",
      on_page(page, (LEFT + page.width - RIGHT) / 2, page.rows.axis), "center"),
  }
end

-- Triangles that touch the frame from below.
local function support_part(diagram, page)
  local list, half = {}, 0.009 * span_of(diagram)
  for i, x in ipairs(diagram.given.supports) do
    local foot = page.bottom - 0.1
    list[i] = ("set object polygon from %s to %s to %s to %s noclip "
      .. "fillcolor rgb '#000000' fillstyle solid 1.0"):format(
      along(page, x, page.bottom), along(page, x - half, foot),
      along(page, x + half, foot), along(page, x, page.bottom))
  end
  return lines(list)
end

local EDGE = "lw 0.8 dashtype (3,4) lc rgb '#303030' front"

-- Dotted lines at the edges of a cut, a bar above the frame, a leader to its mark.
local function cut_marks(cut, page)
  local y = page.top + BAR * cut.level
  local foot = page.top + BAR * page.levels + 0.04
  local function edge(x)
    return arrow(along(page, x, page.bottom), along(page, x, y), EDGE)
  end
  return lines {
    edge(cut.left), edge(cut.right),
    arrow(along(page, cut.left, y), along(page, cut.right, y), "lw 4"),
    arrow(along(page, cut.at, y), along(page, cut.at, foot), "lw 0.7"),
    arrow(along(page, cut.at, foot), along(page, cut.mark_x, foot + LEADER), "lw 0.7"),
    label(cut.mark, along(page, cut.mark_x, foot + LEADER + 0.08), "center"),
  }
end

-- Beside the gap, on the side with more room.
local function severed_label(cut, diagram)
  local low, high = y_range(diagram)
  local right = cut.at * 2 < diagram.start + diagram.finish
  local place = feet(right and cut.right or cut.left)
  return label("severed", place .. "," .. number(0.045 * (high - low)),
    right and "left offset 0.6,0 front boxed" or "right offset -0.6,0 front boxed")
end

local function cuts_part(diagram, page)
  local list = {"set style textbox opaque noborder margins 0.3,0.3"}
  for _, cut in ipairs(diagram.cuts) do
    list[#list + 1] = cut_marks(cut, page)
    if cut.severed then list[#list + 1] = severed_label(cut, diagram) end
  end
  return lines(list)
end

---------------------------------------------------------------------------
-- Words around the frame
---------------------------------------------------------------------------

local NOTE = "Working figures to be checked by the engineer in charge; "
  .. "not a sealed design."

-- A user's text ends its line, so that one which runs from right to left cannot carry
-- ours along.
local function title_part(diagram, page, title)
  local given, most = diagram.given, (page.width - 2 * MARGIN) / CELL
  local mark = text_of(given.mark, 30)
  local first = title and clean(title, 0.88 * most)     -- bold is wider
    or diagram.kind.heading .. (mark ~= "" and ", joist " .. mark or "")
  return lines {
    label(first, on_page(page, MARGIN, page.height - 0.15), "left font title_font"),
    label(text_of(given.title, most), on_page(page, MARGIN, page.height - 0.34)),
  }
end

local function key_part(diagram, page)
  local list = {}
  for _, name in ipairs(KEY) do
    if diagram.key[name] then
      list[#list + 1] = label(diagram.key[name],
        on_page(page, MARGIN + SAMPLE + 0.1, page.rows[name]))
    end
  end
  return lines(list)
end

local function capacity_words(cut, diagram)
  local least = shown(least_over(diagram.cut, cut, "cap"))
  if not diagram.hogging or diagram.kind.both_signs then return least end
  return least .. " / " .. shown(least_over(diagram.cut, cut, "cap_low"))
end

local function place_words(cut)
  local from, to = units.feet_inches(cut.x1), units.feet_inches(cut.x2)
  return from == to and from or from .. " to " .. to
end

-- A row of the list of cuts; without a letter the name moves to the margin.
local function row(page, y, mark, cells)
  local list = {
    label(cells[1], on_page(page, mark and 0.37 or MARGIN, y)),
    label(cells[2], on_page(page, 1.65, y)), label(cells[3], on_page(page, 3.45, y)),
    label(cells[4], on_page(page, page.width - RIGHT, y), "right"),
  }
  if mark then list[#list + 1] = label(mark, on_page(page, MARGIN, y)) end
  return lines(list)
end

local function list_part(diagram, page)
  if #diagram.cuts == 0 then return "" end
  local most = (page.width - RIGHT - 3.45 - 0.95) / CELL
  local list = {row(page, page.rows.heading, page.lettered and "", {
    "Cut", "Where", "What", "Least capacity, " .. diagram.kind.unit,
  })}
  for i, cut in ipairs(diagram.cuts) do
    list[#list + 1] = row(page, page.rows[i], page.lettered and cut.mark, {
      cut.name, place_words(cut), text_of(cut.label, most), capacity_words(cut, diagram),
    })
  end
  return lines(list)
end

local function notes_part(diagram, page)
  local list = {label(NOTE, on_page(page, MARGIN, page.rows.note))}
  if page.rows.elsewhere then
    list[2] = label("Governs, but is not on this diagram: "
      .. governing_words(diagram.given.governing),
      on_page(page, MARGIN, page.rows.elsewhere))
  end
  return lines(list)
end

---------------------------------------------------------------------------
-- Scripts
---------------------------------------------------------------------------

local function frame_part(diagram, page, title)
  return lines {
    axes(diagram), margins(page), support_part(diagram, page), cuts_part(diagram, page),
    title_part(diagram, page, title), key_part(diagram, page), list_part(diagram, page),
    notes_part(diagram, page),
  }
end

-- Script, or nil and what is wrong with the options.
local function script(given, kind, options)
  local diagram = read_diagram(given, kind)
  diagram.cuts = sorted_cuts(given)
  diagram.key = key_texts(diagram)
  local page, problem = lay_out(diagram, options)
  if not page then return nil, problem end
  return fill(recipe(kind.name), {
    PAGE = page_part(options), DATA = data_part(diagram),
    FACTS = facts_part(diagram, page), FRAME = frame_part(diagram, page, options.title),
    CLOSE = options.output and "unset output" or "",
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
  local given, text
  given, problem = diagram_of(subject)
  if given == false then
    local form = "plot.%s: a review or a joist expected, got a %s"
    error(form:format(kind.name, type(subject)), 3)
  end
  if not given then return nil, problem end
  text, problem = script(given, kind, page)
  if not text then error(problem, 3) end
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
