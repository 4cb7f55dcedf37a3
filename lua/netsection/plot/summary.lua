-- SPDX-License-Identifier: MIT
-- One sheet for a floor: each joist's largest ratio uncut, as cut and repaired beside the
-- line at 1.0, and in words what comes next and what governs.

local plan = require "netsection.plot.plan"
local reason = require "netsection.reason"
local recipes = require "netsection.plot.recipes"
local sheet = require "netsection.plot.sheet"
local text = require "netsection.text"
local units = require "netsection.units"
local words = require "netsection.plot.words"
local verdict = require "netsection.verdict"

local summary = {}

-- Inches of paper.
local ROW, TITLES, HEAD, BELOW, NOTE = 0.185, 0.47, 0.3, 0.95, 0.13
local NUMBERS, WORDS, LEAST = 1.35, 3.7, 1.6
-- Ratios past this end of the axis are shown at it; the numbers beside them tell.
local LOWEST_END, HIGHEST_END = 1.25, 2.5
-- Cells of a mark; rows of one sheet.
local MARK, MOST = 30, 180

local STATES = {"uncut", "cut", "fixed"}

local function ratio_of(r, name)
  local state = r[name]
  if not state or not r.computed or state.refused then return nil end
  return state.ratio
end

local function end_of(reviews)
  local far = LOWEST_END
  for _, r in ipairs(reviews) do
    for _, name in ipairs(STATES) do far = math.max(far, ratio_of(r, name) or 0) end
  end
  return math.min(far * 1.04, HIGHEST_END)
end

---------------------------------------------------------------------------
-- Data
---------------------------------------------------------------------------

local function block(name, rows)
  local list = {("$%s << EOD"):format(name)}
  for _, row in ipairs(rows) do list[#list + 1] = row end
  if #rows == 0 then list[2] = "0 0" end
  list[#list + 1] = "EOD"
  return words.lines(list)
end

local function point(x, i)
  return ("%s %d"):format(units.fixed(x, 4), i)
end

-- Points by state, cut-through joists at the end of the axis, and a bar from 0.
local function gather(reviews, far)
  local data = {uncut = {}, cut = {}, fixed = {}, through = {}, bar = {}}
  for i, r in ipairs(reviews) do
    local longest = 0
    for _, name in ipairs(STATES) do
      local ratio = ratio_of(r, name)
      -- a trial that fails is no mark on the near side of the line at 1.0
      if ratio and not (name == "fixed" and verdict.trial(r) and ratio <= 1) then
        table.insert(data[name], point(math.min(ratio, far), i))
        longest = math.max(longest, math.min(ratio, far))
      end
    end
    if r.computed and not r.cut.ratio then
      data.through[#data.through + 1] = point(far, i)
      longest = far
    end
    table.move({point(0, i), point(longest, i), ""}, 1, 3, #data.bar + 1, data.bar)
  end
  return data
end

local function data_part(reviews, far)
  local data, list = gather(reviews, far), {}
  for _, name in ipairs {"uncut", "cut", "fixed", "through", "bar"} do
    list[#list + 1] = block(name, data[name])
    list[#list + 1] = ("has_%s = %d"):format(name, #data[name] > 0 and 1 or 0)
  end
  list[#list + 1] = block("one", {"1 0.5", ("1 %d.5"):format(#reviews)})
  list[#list + 1] = ("rows = %d"):format(#reviews)
  return words.lines(list)
end

---------------------------------------------------------------------------
-- Words
---------------------------------------------------------------------------

local function number(r, name)
  local state = r[name]
  if not state or not r.computed then return "-" end
  if state.refused then return "no" end
  return text.ratio(state.ratio)
end

-- What comes next and why, in a line.
local function next_words(r)
  local worst = r.cut.governing_check
  local what = not r.computed and r.reasons[1] or r.cut.stopped
    or worst and reason.mode(worst) .. (worst.name and " at " .. worst.name
    or "") or ""
  local fixed = r.fixed and "; " .. (r.fixed.refused and "refused: "
    or verdict.trial(r) and verdict.not_built .. ": " or "") .. r.fixed.title or ""
  return ("%s: %s%s"):format(verdict.text(r), what, fixed)
end

local function rows_part(reviews, page, at)
  local out, right = {}, at.chart_right
  local function cell(s, x, y, more)
    out[#out + 1] = sheet.label(s, sheet.at(page, x, y), more)
  end
  local head = at.top + 0.13
  cell("joist", at.chart_left - 0.1, head, "right")
  for k, name in ipairs(STATES) do cell(name, right + 0.5 * k, head, "right") end
  cell("next; what governs as cut; repair", right + NUMBERS + 0.35, head)
  local most = (page.width - right - NUMBERS - 0.5) / sheet.cell
  for i, r in ipairs(reviews) do
    local y = at.top - (i - 0.5) * ROW
    cell(words.of(r.mark, MARK), at.chart_left - 0.1, y, "right")
    for k, name in ipairs(STATES) do
      cell(number(r, name), right + 0.5 * k, y, "right")
    end
    -- where both do not fit: what comes next, whole; that a repair is a trial always
    local said = next_words(r)
    if words.width(said) > most and not (r.fixed and verdict.trial(r)) then
      said = verdict.text(r)
    end
    cell(words.of(said, most), right + NUMBERS + 0.35, y)
  end
  return words.lines(out)
end

local KEY = {{"uncut", 6, "before any cut"}, {"cut", 5, "as cut"},
  {"fixed", 12, "repaired"}, {"through", 2, "cut through: no ratio"}}

local function key_part(page, y)
  local out = {}
  for i, k in ipairs(KEY) do
    local x = sheet.margin + 0.1 + (i - 1) * (page.width - 0.5) / 4
    out[#out + 1] = ("set label '' at %s point pt %d ps 1.5*point lw 1.3 "
      .. "lc rgb '#000000'"):format(sheet.at(page, x, y), k[2])
    out[#out + 1] = sheet.label(k[3], sheet.at(page, x + 0.15, y))
  end
  return words.lines(out)
end

local function frame_part(page, at, far)
  return words.lines {
    "set lmargin at screen " .. units.fixed(at.chart_left / page.width, 5),
    "set rmargin at screen " .. units.fixed(at.chart_right / page.width, 5),
    "set bmargin at screen " .. sheet.up(page, at.bottom),
    "set tmargin at screen " .. sheet.up(page, at.top),
    ("set xrange [0:%s]"):format(units.fixed(far, 4)),
  }
end

local function lay_out(reviews, page)
  local cells = 5
  for _, r in ipairs(reviews) do
    cells = math.max(cells, words.width(words.of(r.mark, MARK)))
  end
  local left = sheet.margin + cells * sheet.cell + 0.1
  local right = math.max(left + LEAST, page.width - NUMBERS - WORDS - 0.2)
  local needed = TITLES + HEAD + #reviews * ROW + BELOW
  page.height = page.height or needed
  local top = page.height - TITLES - HEAD
  return {chart_left = left, chart_right = right, top = top, needed = needed,
    bottom = top - #reviews * ROW}
end

-- Script, or nil and what is wrong with the options.
function summary.script(floor_review, page)
  local reviews = {}
  for i, mark in ipairs(floor_review.order) do
    if i <= MOST then reviews[i] = floor_review.joists[mark] end
  end
  local far, at = end_of(reviews), lay_out(reviews, page)
  local low = sheet.too_low(page, at.needed)
  if low then return nil, low end
  local left_out = #floor_review.order - #reviews
  local second = plan.summary_words(floor_review) .. (left_out > 0
    and ("; the last %d are not shown"):format(left_out) or "")
  local title = page.title or "Summary, " .. words.of(floor_review.name, 70)
  return recipes.fill(recipes.of "summary", {
    PAGE = sheet.setup(page), DATA = data_part(reviews, far),
    FRAME = frame_part(page, at, far),
    KEY = words.lines {
      sheet.titles(page, title, second), rows_part(reviews, page, at),
      sheet.label("largest ratio of demand to capacity; the line is at 1.0",
        sheet.at(page, at.chart_left, at.bottom - 0.38)),
      key_part(page, at.bottom - 0.6),
      sheet.label(sheet.note, sheet.at(page, sheet.margin, NOTE)),
    },
    CLOSE = page.output and "unset output" or "",
  })
end

return summary
