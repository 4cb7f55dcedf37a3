-- SPDX-License-Identifier: MIT
-- The sheet a drawing stands on: options, terminal, and texts and lines at places on it.
-- Lengths on the sheet are inches of paper, heights up from its foot.

local point = require "netsection.point"
local quantity = require "netsection.quantity"
local units = require "netsection.units"
local words = require "netsection.plot.words"
local tostring = require "netsection.point".text

local clean, lines, quote = words.clean, words.lines, words.quote

local sheet = {
  margin = 0.15,      -- around the words
  cell = 0.075,       -- width of a digit
  row = 0.172,        -- from line to line
  note = "Working figures to be checked by the engineer in charge; "
    .. "not a sealed design.",
}

local OPTIONS = {"output", "size", "title"}
local FORMATS = {png = true, pdf = true, svg = true}

local NARROWEST, LARGEST = 6, 40         -- in
local FONT = 8.5                         -- points
local DOTS = 200                         -- dots of a PNG per inch

local function known_options(options, names)
  if type(options) ~= "table" then
    return nil, "options must be a table, got a " .. type(options)
  end
  local unknown, known = {}, {}
  for _, name in ipairs(names) do known[name] = true end
  for key in pairs(options) do
    if not known[key] then unknown[#unknown + 1] = clean(tostring(key), 40) end
  end
  table.sort(unknown, point.less)
  if unknown[1] then
    return nil, ('unknown option "%s"; options are %s and %s'):format(unknown[1],
      table.concat(names, ", ", 1, #names - 1), names[#names])
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

local function read_size(size, narrowest)
  if size == nil then return {} end
  if type(size) ~= "table" then return nil, "size must be {width, height}" end
  local read = {}
  for i = 1, size[2] == nil and 1 or 2 do
    local side, problem = units.length(size[i])
    if not side then return nil, "size: " .. problem end
    read[i] = side
  end
  if read[1] < narrowest or math.max(read[1], read[2] or 0) > LARGEST then
    local show = quantity.system()
    return nil, ("size: the width must be %s, the height at most %s"):format(
      show.range("length", narrowest, LARGEST, 0), show.length(LARGEST, 0))
  end
  return read
end

local function read_place(at)
  if at == nil then return true end
  local x, problem = units.length(at)
  if not x then return nil, "at: " .. problem end
  return x
end

local function names_of(more, own)
  local names = {table.unpack(own or OPTIONS)}
  for _, name in ipairs(more or {}) do names[#names + 1] = name end
  return names
end

-- Options as given -> {output, format, title, width, height or nil, at} | nil, problem.
-- @param more names that this drawing takes besides; own in place of those of all
-- @param narrowest width that it can be made in, in
function sheet.read(options, width, more, own, narrowest)
  options = options or {}
  local ok, problem = known_options(options, names_of(more, own))
  if not ok then return nil, problem end
  local format, size, at
  format, problem = output_format(options.output)
  if not format then return nil, problem end
  size, problem = read_size(options.size, narrowest or NARROWEST)
  if not size then return nil, problem end
  at, problem = read_place(options.at)
  if not at then return nil, problem end
  if options.title ~= nil and type(options.title) ~= "string" then
    return nil, "title must be text"
  end
  return {
    output = options.output, format = format, title = options.title,
    width = size[1] or width, height = size[2], at = at ~= true and at or nil,
  }
end

--- What is wrong with a height that was given, or nil.
function sheet.too_low(page, needed)
  if page.height >= needed then return nil end
  return ("size: the height must be at least %s for what is drawn"):format(
    page.show.length(math.ceil(needed * 10) / 10, 1))
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
function sheet.setup(page)
  return lines {
    "reset", "set encoding utf8", "set decimalsign '.'",
    "set datafile separator whitespace",
    page.output and file_terminal(page) or users_terminal(page),
    page.output and "set output " .. quote(page.output) or "",
    -- points of the same size draw larger in SVG
    "point = GPVAL_TERM eq 'svg' ? 0.55 : 1",
    -- the others have no bold by that name
    "title_font = GPVAL_TERM eq 'pngcairo' || GPVAL_TERM eq 'pdfcairo' ? ':Bold' : ''",
  }
end

-- Height on the sheet, by gnuplot's measure.
function sheet.up(page, y)
  return units.fixed(y / page.height, 5)
end

function sheet.at(page, x, y)
  return ("screen %s,screen %s"):format(units.fixed(x / page.width, 5),
    sheet.up(page, y))
end

function sheet.label(text, place, more)
  return ("set label %s at %s noenhanced %s"):format(quote(text), place, more or "left")
end

--- White ground for a text that stands on lines, as an object: with gnuplot's own box a
-- text is written twice in SVG.
-- @param center, size as gnuplot has positions
function sheet.ground(center, size)
  return ("set object rectangle center %s size %s front noclip fillcolor rgb '#FFFFFF' "
    .. "fillstyle solid 1.0 noborder"):format(center, size)
end

--- Width of a text's ground and how far its middle lies to the right of the text's place,
-- in of paper. @param how left, center or right
function sheet.ground_of(text, how)
  local w = (words.width(text) + 0.4) * sheet.cell
  local way = how:find "left" and 1 or how:find "right" and -1 or 0
  return w, way * (w / 2 - 0.2 * sheet.cell)
end

function sheet.line(from, to, style)
  return ("set arrow from %s to %s nohead %s"):format(from, to, style)
end

-- Bold first line and the lines below it. A user's text ends its line, so that one which
-- runs from right to left cannot carry ours along.
function sheet.titles(page, first, ...)
  local most = (page.width - 2 * sheet.margin) / sheet.cell
  local list = {
    sheet.label(clean(first, 0.88 * most),     -- bold is wider
      sheet.at(page, sheet.margin, page.height - 0.15), "left font title_font"),
  }
  for i, said in ipairs {...} do
    list[#list + 1] = sheet.label(words.of(said, most),
      sheet.at(page, sheet.margin, page.height - 0.34 - (i - 1) * sheet.row))
  end
  return lines(list)
end

return sheet
