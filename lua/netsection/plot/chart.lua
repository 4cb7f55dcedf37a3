-- SPDX-License-Identifier: MIT
-- What charts of sweeps share: which axes and which value are drawn, their units, the
-- frame with its numbers, and the words around it.

local chart_words = require "netsection.plot.chart_words"
local frame = require "netsection.plot.frame"
local ordered = require "netsection.point".pairs
local point = require "netsection.point"
local quantity = require "netsection.quantity"
local sheet = require "netsection.plot.sheet"
local spans = require "netsection.spans"
local text = require "netsection.text"
local units = require "netsection.units"
local written = require "netsection.written"
local words = require "netsection.plot.words"
local tostring = require "netsection.point".text

local chart = {left = 0.75, height = 4.2}

local quote, lines, label = words.quote, words.lines, sheet.label

---------------------------------------------------------------------------
-- Units
---------------------------------------------------------------------------

-- What an axis or a value measures; nil where it has no unit.
local SPAN, LENGTH, AREA, FORCE, MOMENT = "span", "length", "area_load", "force", "moment"
local OF_NAME = {
  span = SPAN, spacing = LENGTH, bearing = LENGTH, b = LENGTH, d = LENGTH, dead = AREA,
  live = AREA, overhang_left = SPAN, overhang_right = SPAN, moment = MOMENT,
  shear = FORCE, ["deflection.live"] = LENGTH, ["deflection.total"] = LENGTH,
  tension = FORCE, arm = LENGTH,
}
local OF_CUT = {at = SPAN, from = SPAN, to = SPAN, diameter = LENGTH, depth = LENGTH,
  height = LENGTH, length = LENGTH, below = LENGTH, above = LENGTH, at_depth = LENGTH}

local BASE = {[AREA] = "psf", [FORCE] = "lb", [MOMENT] = "lb-in"}

local function kind_of(name)
  local bare = name:gsub("^uncut%.", ""):gsub("^cut%.", ""):gsub("^fixed%.", "")
  local field = bare:match "^cuts%.%d+%.(.+)$"
  if bare:find "^longest_span" then return SPAN end
  if bare:find "^reaction" or bare:find "^station" then return FORCE end
  return field and OF_CUT[field] or OF_NAME[bare]
end

-- Unit and scale of an axis or a value by its name.
local function unit_of(name, show)
  local kind = kind_of(name)
  if not kind then return {"", 1} end
  if kind == SPAN then return {show.sums.unit, 1 / show.sums.length, span = true} end
  return {show.unit[kind], show.scaled(kind, 1), length = kind == LENGTH,
    base = BASE[kind]}
end

local function with_unit(name, unit)
  return unit == "" and name or name .. ", " .. unit
end

---------------------------------------------------------------------------
-- What is drawn
---------------------------------------------------------------------------

local function is_sweep(s)
  return type(s) == "table" and type(s.axes) == "table" and type(s.names) == "table"
end

-- An axis for drawing: places along it, and texts of its values.
local function read_axis(axis, show, joist)
  local unit = unit_of(axis.name, show)
  local read = {name = axis.name, said = chart_words.axis(axis.name, joist),
    values = axis.values, places = {}, texts = {},
    unit = unit[1], numbers = true}
  for _, v in ipairs(axis.values) do
    read.numbers = read.numbers and type(v) == "number"
  end
  for i, v in ipairs(axis.values) do
    read.places[i] = read.numbers and v * unit[2] or i
    read.texts[i] = type(v) ~= "number" and tostring(v)
      or unit.span and show.place(v)
      or with_unit(text.short(v * unit[2]), unit[1]):gsub(",", "")
  end
  read.title = with_unit(read.said, read.numbers and unit[1] or "")
  return read
end

local function find_axis(sweep, name, field, show, joist)
  for _, axis in ipairs(sweep.axes) do
    if axis.name == name then return read_axis(axis, show, joist) end
  end
  local known = {}
  for i, axis in ipairs(sweep.axes) do known[i] = axis.name end
  return nil, ("%s: one of the sweep's axes expected: %s"):format(field,
    table.concat(known, ", "))
end

-- Axes that are not drawn stand still at one value each.
local function still_axes(sweep, at, drawn, show, joist)
  local still, list = {}, {}
  for name in ordered(at) do
    local known = false
    for _, axis in ipairs(sweep.axes) do known = known or axis.name == name end
    if not known or drawn[name] then
      return nil, ("at: '%s' is no axis that stands still"):format(
        words.clean(tostring(name), 40))
    end
  end
  for _, axis in ipairs(sweep.axes) do
    if not drawn[axis.name] then
      local value = at[axis.name]
      if value == nil and #axis.values > 1 then
        return nil, ("at: a value of axis '%s' is needed"):format(axis.name)
      end
      if value == nil then value = axis.values[1] end
      still[axis.name] = value
      local shown = read_axis({name = axis.name, values = {value}}, show, joist)
      list[#list + 1] = shown.said .. " " .. shown.texts[1]
    end
  end
  return still, table.concat(list, ", ")
end

local function read_value(sweep, value, show, joist)
  for _, name in ipairs(sweep.names) do
    if name == value then
      local unit = unit_of(name, show)
      local said = chart_words.value(name, joist)
      return {name = name, said = said, unit = unit[1], scale = unit[2], base = unit.base,
        length = unit.span or unit.length, span = unit.span and show or nil,
        title = with_unit(said, unit[1])}
    end
  end
  return nil, "value: one of the sweep's expected: " .. table.concat(sweep.names, ", ")
end

-- Options of the chart taken out of those of the sheet.
local function split(options, own)
  local mine, rest = {}, {}
  for key, value in pairs(options) do
    if own[key] then mine[key] = value else rest[key] = value end
  end
  return mine, rest
end

-- The joist of the first point, for words alone; nil where it is none.
local function joist_of(sweep)
  local place = {}
  for _, axis in ipairs(sweep.axes) do place[axis.name] = axis.values[1] end
  return type(sweep.joist) == "function" and (sweep:joist(place)) or nil
end

-- Lines under the title: the joist that the points have in common, axes that stand still.
local function lines_under(sweep, joist, still, page)
  local list, names = {}, {}
  local most = (page.width - 2 * sheet.margin) / sheet.cell
  for _, axis in ipairs(sweep.axes) do names[axis.name] = true end
  for _, said in ipairs {joist and chart_words.joist(joist, names) or "", still} do
    for _, line in ipairs(said ~= "" and words.wrapped(said, most) or {}) do
      list[#list + 1] = line
    end
  end
  return list
end

--- Reads the subject and the options of a chart.
-- @param axes fields of the options that name axes; those ending in "?" may be left out
-- @param more further fields of the options
-- @return {sweep, value, still, under = {lines}, page, options, <field> = axis}; or nil
--   and what is wrong
function chart.read(sweep, options, axes, more, width)
  if not is_sweep(sweep) then
    return nil, "a sweep expected, got a " .. type(sweep)
  elseif type(options) ~= "table" then
    return nil, "options must be a table, got a " .. type(options)
  end
  local own, names = {}, {"value", "at", table.unpack(more)}
  for _, field in ipairs(axes) do names[#names + 1] = field:match "^%w+" end
  for _, name in ipairs(names) do own[name] = true end
  local mine, rest = split(options, own)
  local c, problem = {sweep = sweep, options = mine}
  c.page, problem = sheet.read(rest, width, names)
  if not c.page then return nil, problem end
  local show = quantity.of(sweep)
  c.page.show = show
  local joist = joist_of(sweep)
  c.value, problem = read_value(sweep, mine.value, show, joist)
  if not c.value then return nil, problem end
  local drawn = {}
  for _, field in ipairs(axes) do
    local name, optional = field:match "^(%w+)(%??)$"
    if mine[name] ~= nil or optional == "" then
      c[name], problem = find_axis(sweep, mine[name], name, show, joist)
      if not c[name] then return nil, problem end
      if drawn[mine[name]] then return nil, name .. ": that axis is drawn already" end
      drawn[mine[name]] = true
    end
  end
  if mine.at ~= nil and type(mine.at) ~= "table" then
    return nil, "at: {axis = value} expected"
  end
  local said
  c.still, said = still_axes(sweep, mine.at or {}, drawn, show, joist)
  if not c.still then return nil, said end
  c.under = lines_under(sweep, joist, said, c.page)
  return c
end

--- The value at a point {axis = value}, in the unit drawn; nil where there is none.
function chart.value_at(c, place)
  for name, value in pairs(c.still) do place[name] = value end
  local found = c.sweep:at(place)
  local v = found and not found.reason and found[c.value.name]
  if type(v) == "string" then return nil, c.value.name end
  local name = c.value.name
  if v and name:find "^longest" and spans.again(c.sweep:joist(place), name, c.sweep) then
    c.again = (c.again or 0) + 1
  end
  return v and v * c.value.scale or nil
end

--- What a longest span does not show, of the points that were asked for; nil where all
-- spans up to the value pass and none beyond it does.
function chart.spans_said(c)
  return c.again and ("Ends of the first stretch that passes; %d of the points pass "
    .. "again at longer spans"):format(c.again) or nil
end

---------------------------------------------------------------------------
-- Frame
---------------------------------------------------------------------------

local function number(v)
  return units.significant(v, 6)
end

-- Range of a list of places with a little room; a single place gets room on both sides.
function chart.range(list, share)
  local low, high = math.huge, -math.huge
  for _, v in ipairs(list) do low, high = math.min(low, v), math.max(high, v) end
  local room = high > low and share * (high - low) or math.max(1e-9, 0.5 * math.abs(high))
  return low - room, high + room
end

local function decimals(step)
  return math.max(0, -math.floor(math.log(step, 10) + 1e-9))
end

-- Numbers along an axis, or the texts of what is no number.
local function tics(which, axis, range, most)
  if axis.numbers == false then
    local list = {}
    for i, name in ipairs(axis.texts) do
      list[i] = ("%s %d"):format(quote(words.clean(name, 14)), i)
    end
    return ("set %stics (%s) nomirror out scale 0.5 noenhanced"):format(which,
      table.concat(list, ", "))
  end
  local step = frame.tic_step((range[2] - range[1]) * most)
  return ("set %stics %s nomirror out scale 0.5\nset format %s '%%.%df'"):format(which,
    number(step), which, decimals(step))
end

--- Ranges, numbers and grid. @param x, y {low, high}
function chart.axes(x_axis, x, y_axis, y)
  return lines {
    ("set xrange [%s:%s]"):format(number(x[1]), number(x[2])),
    ("set yrange [%s:%s]"):format(number(y[1]), number(y[2])),
    tics("x", x_axis, x, 1), tics("y", y_axis, y, 1),
    "set grid xtics ytics lt 1 lw 0.5 lc rgb '#DADADA'", "set border 15 lw 0.8",
    "set ylabel " .. quote(words.clean(y_axis.title, 50)) .. " noenhanced",
    "unset key",
  }
end

--- Room of the frame. @param right in of paper beside it; returns margins, and the box
-- {left, right, bottom, top} in inches
function chart.box(c, right, below)
  local page = c.page
  local head = frame.titles + 0.06 + math.max(0, #c.under - 1) * sheet.row
  page.height = page.height or chart.height + below + head - frame.titles - 0.06
  local box = {left = chart.left, right = page.width - right, bottom = below,
    top = page.height - head}
  return box, lines {
    "set lmargin at screen " .. units.fixed(box.left / page.width, 5),
    "set rmargin at screen " .. units.fixed(box.right / page.width, 5),
    "set bmargin at screen " .. sheet.up(page, box.bottom),
    "set tmargin at screen " .. sheet.up(page, box.top),
  }
end

--- Title, axis title and the lines below the frame, from its foot down.
function chart.words(c, box, heading, below)
  local page = c.page
  local list = {
    sheet.titles(page, page.title or heading, table.unpack(c.under)),
    label(words.clean(c.x.title, 60), sheet.at(page, (box.left + box.right) / 2,
      box.bottom - 0.4), "center"),
    label(sheet.note, sheet.at(page, sheet.margin, 0.13)),
  }
  for i, line in ipairs(below) do
    list[#list + 1] = label(words.clean(line, (page.width - 0.3) / sheet.cell),
      sheet.at(page, sheet.margin, 0.13 + sheet.row * (#below - i + 1.2)))
  end
  return lines(list)
end

--- A heading, its first letter a capital.
function chart.sentence(form, ...)
  return (point.format(form, ...):gsub("^%l", string.upper))
end

--- Height that the words below a frame take.
function chart.below(count)
  return 0.13 + sheet.row * (count + 1.2) + 0.5
end

--- What is wrong with a page that is too low for the frame, or nil.
function chart.too_low(box, page)
  return box.top - box.bottom < 1.5 and
    ("size: the height must leave %s for the frame"):format(page.show.length(1.5, 1))
    or nil
end

-- Where a limit stands in the unit drawn. Like every number it is given in base units
-- (inches, in-lb), or as text with its unit, such as "10 mm" or "5 kN m"; or nil.
local function limit_at(given, value)
  if type(given) == "string" and value.length then
    given = units.length(given)
  elseif type(given) == "string" and value.base then
    given = written.amount(given, value.base)
  end
  if type(given) ~= "number" or given ~= given or math.abs(given) == math.huge then
    return nil
  end
  return given * value.scale
end

--- Limits as given, a number or a list of numbers or {at =, text =}; 1 for ratios.
function chart.limits(given, value)
  if given == false then return {} end
  if given == nil then
    if value.unit ~= "" then return {} end
    return {{at = 1, text = "1"}}
  end
  if type(given) ~= "table" then given = {given} end
  local list = {}
  for i, limit in ipairs(given) do
    if type(limit) ~= "table" then limit = {at = limit} end
    local at = limit_at(limit.at, value)
    if not at or limit.text ~= nil and type(limit.text) ~= "string" then
      return nil, "limit: a number or a list of {at =, text =} expected"
    end
    list[i] = {at = at, text = limit.text or value.span
      and value.span.place(at / value.scale) or text.short(at)}
  end
  return list
end

return chart
