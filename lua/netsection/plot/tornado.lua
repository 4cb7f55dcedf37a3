-- SPDX-License-Identifier: MIT
-- What each input by itself does to the ratio: a bar an input, the widest on top, the
-- others at their medians. Bars that change the action are dark, and say to what.

local recipes = require "netsection.plot.recipes"
local wording = require "netsection.odds.wording"
local sheet = require "netsection.plot.sheet"
local text = require "netsection.text"
local units = require "netsection.units"
local words = require "netsection.plot.words"

local tornado = {}

-- Inches of paper.
local ROW, TITLES, HEAD, BELOW, NOTE = 0.2, 0.47, 0.3, 1.25, 0.13
local COLUMN, WORDS = 0.55, 1.75
-- Cells of an input's name; rows of one sheet.
local NAME, MOST = 28, 30

local PERCENT = {5, 50, 95}

local function ends_of(rows)
  local low, high = math.huge, -math.huge
  local function include(x)
    if x then low, high = math.min(low, x), math.max(high, x) end
  end
  include(rows.base.ratio)
  for _, row in ipairs(rows) do
    for _, p in ipairs(PERCENT) do include(row.at[p].ratio) end
  end
  if low > high then return nil end
  local room = math.max((high - low) * 0.06, 0.01)
  return low - room, high + room
end

local function block(name, list)
  local out = {("$%s << EOD"):format(name)}
  table.move(list, 1, #list, 2, out)
  if #list == 0 then out[2] = "0 0" end
  out[#out + 1] = "EOD"
  return words.lines(out)
end

local function point(x, i)
  return ("%s %s"):format(units.fixed(x, 5), units.fixed(i, 1))
end

local function data_part(rows, low, high)
  local data = {bar = {}, flip = {}, low = {}, high = {}, base = {},
    one = {point(1, 0.5), point(1, #rows + 0.5)}}
  for i, row in ipairs(rows) do
    -- No ratio is past the end of the axis.
    local none = not (row.at[5].ratio and row.at[50].ratio and row.at[95].ratio)
    local list = row.flips and data.flip or data.bar
    if row.low then
      table.move({point(row.low, i), point(none and high or row.high, i), ""}, 1, 3,
        #list + 1, list)
    end
    if row.at[5].ratio then data.low[#data.low + 1] = point(row.at[5].ratio, i) end
    if row.at[95].ratio then data.high[#data.high + 1] = point(row.at[95].ratio, i) end
  end
  if rows.base.ratio then
    data.base = {point(rows.base.ratio, 0.5), point(rows.base.ratio, #rows + 0.5)}
  end
  local out = {}
  for _, name in ipairs {"bar", "flip", "low", "high", "base", "one"} do
    out[#out + 1] = block(name, data[name])
    out[#out + 1] = ("has_%s = %d"):format(name, #data[name] > 0 and 1 or 0)
  end
  out[#out + 1] = ("shows_one = %d"):format(low < 1 and 1 < high and 1 or 0)
  out[#out + 1] = ("rows = %d"):format(#rows)
  return words.lines(out)
end

-- "decide at 95 %": what the action becomes.
local function turned(row, base)
  local list = {}
  for _, p in ipairs(PERCENT) do
    if row.at[p].action ~= base.action then
      list[#list + 1] = ("%s at %d %%"):format(row.at[p].action, p)
    end
  end
  return table.concat(list, ", ")
end

local function rows_part(rows, labels, page, at)
  local out = {}
  local function cell(s, x, y, more)
    out[#out + 1] = sheet.label(s, sheet.at(page, x, y), more)
  end
  local head, right = at.top + 0.13, at.right
  cell("input", at.left - 0.1, head, "right")
  for k, p in ipairs(PERCENT) do
    cell(("at %d %%"):format(p), right + COLUMN * k, head, "right")
  end
  local most = (page.width - right - 3 * COLUMN - 0.3) / sheet.cell
  for i, row in ipairs(rows) do
    local y = at.top - (i - 0.5) * ROW
    cell(words.of(labels[row.name], NAME), at.left - 0.1, y, "right")
    for k, p in ipairs(PERCENT) do
      local ratio = row.at[p].ratio
      cell(ratio and units.fixed(ratio, 3) or "none", right + COLUMN * k, y, "right")
    end
    cell(words.of(turned(row, rows.base), most), right + 3 * COLUMN + 0.15, y)
  end
  return words.lines(out)
end

local function frame_part(page, at, low, high)
  return words.lines {
    "set lmargin at screen " .. units.fixed(at.left / page.width, 5),
    "set rmargin at screen " .. units.fixed(at.right / page.width, 5),
    "set bmargin at screen " .. sheet.up(page, at.bottom),
    "set tmargin at screen " .. sheet.up(page, at.top),
    ("set xrange [%s:%s]"):format(units.fixed(low, 5), units.fixed(high, 5)),
  }
end

local function lay_out(rows, labels, page)
  local cells = 5
  for _, row in ipairs(rows) do
    cells = math.max(cells, words.width(words.of(labels[row.name], NAME)))
  end
  local left = sheet.margin + cells * sheet.cell + 0.1
  local needed = TITLES + HEAD + #rows * ROW + BELOW
  page.height = page.height or needed
  local top = page.height - TITLES - HEAD
  return {left = left, right = page.width - 3 * COLUMN - WORDS, top = top,
    needed = needed, bottom = top - #rows * ROW}
end

local KEY = {{"at its 5 %", 6}, {"at its 95 %", 7}}

local function key_part(page, at)
  local out, y = {}, at.bottom - 0.58
  for i, k in ipairs(KEY) do
    local x = sheet.margin + 0.1 + (i - 1) * 1.2
    out[#out + 1] = ("set label '' at %s point pt %d ps 1.3*point lw 1.3 "
      .. "lc rgb '#000000'"):format(sheet.at(page, x, y), k[2])
    out[#out + 1] = sheet.label(k[1], sheet.at(page, x + 0.15, y))
  end
  out[#out + 1] = sheet.label("dark: the action changes; dashed: all at their medians",
    sheet.at(page, sheet.margin + 2.5, y))
  return words.lines(out)
end

-- Script; nil and what is wrong.
-- @param o answer of ns.odds
function tornado.script(o, page)
  local all, rows, labels = o:tornado(), {}, {}
  rows.base = all.base
  for i, row in ipairs(all) do
    if i <= MOST then rows[i] = row end
  end
  for _, input in ipairs(o.inputs) do labels[input.name] = input.label end
  local low, high = ends_of(rows)
  if not low then return nil, "no ratio to show at any place" end
  local at = lay_out(rows, labels, page)
  if page.height < at.needed then
    return nil, ("size: the height must be at least %s in for what is drawn"):format(
      units.fixed(math.ceil(at.needed * 10) / 10, 1))
  elseif at.right - at.left < 1 then
    return nil, "size: wider expected for what is drawn"
  end
  local title = page.title or wording.title .. (o.title and ": " .. text.plain(o.title)
    or "")
  return recipes.fill(recipes.of "tornado", {
    PAGE = sheet.setup(page), DATA = data_part(rows, low, high),
    FRAME = frame_part(page, at, low, high),
    KEY = words.lines {
      sheet.titles(page, title, ("printed: %s, ratio %s; one input moved at a time")
        :format(o.nominal.action, text.ratio(o.nominal.ratio))),
      rows_part(rows, labels, page, at),
      sheet.label("ratio of demand to capacity; the heavy line is at 1.0",
        sheet.at(page, at.left, at.bottom - 0.36)),
      key_part(page, at),
      sheet.label("Not the chance that the floor fails; the distributions are "
        .. "assumptions. Not used for the verdict.",
        sheet.at(page, sheet.margin, NOTE + 0.2)),
      sheet.label(sheet.note, sheet.at(page, sheet.margin, NOTE)),
    },
    CLOSE = page.output and "unset output" or "",
  })
end

return tornado
