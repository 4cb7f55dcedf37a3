-- SPDX-License-Identifier: MIT
-- A detail of a repair on one sheet of paper, for those who build it: elevation, section
-- A-A at the fasteners, B-B at mid-repair, parts and notes. The scales are those of an
-- architect's rule, and the sheet is as large as the paper it is printed on.
local boxes = require "netsection.plot.boxes"
local elevation = require "netsection.plot.detail_elevation"
local recipes = require "netsection.plot.recipes"
local section = require "netsection.plot.detail_section"
local sheet = require "netsection.plot.sheet"
local words = require "netsection.plot.words"

local detail = {}

-- Papers upright, inches; the larger one where the smaller does not hold it.
detail.papers = {letter = {8.5, 11}, tabloid = {11, 17}, a4 = {8.268, 11.693},
  a3 = {11.693, 16.535}}
local MARGIN = 0.5

-- Inches of paper.
local SMALLEST = 25                   -- 1:25, a section
local TITLES, CAPTION, GAP, NOTE = 0.5, 0.22, 0.1, 0.12
local ROW, INDENT, TALLEST, BAR = 0.157, 0.26, 1.5, 0.18

local function scale_text(scale)
  if not scale[2] then return ("scale 1:%d"):format(scale[1]) end
  return ("scale %s (1:%d)"):format(scale[2], scale[1])
end

---------------------------------------------------------------------------
-- Texts
---------------------------------------------------------------------------

-- {text, indent in inches, number} for each line under the drawings.
local function text_rows(given, page)
  local most = (page.width - 2 * MARGIN - INDENT) / sheet.cell
  local list = {{"Parts", 0}}
  local function add(text, number)
    for i, line in ipairs(words.wrapped(words.of(text, 600), most)) do
      list[#list + 1] = {words.of(line, most), INDENT, i == 1 and number or nil}
    end
  end
  for _, text in ipairs(given.parts) do add(text) end
  list[#list + 1] = {"Notes", 0}
  for i, text in ipairs(given.notes) do add(text, ("%d"):format(i)) end
  return list
end

local function texts(s, rows, y)
  local out, page = {}, s.page
  for i, r in ipairs(rows) do
    local h = y - (i - 0.5) * ROW
    if r[3] then out[#out + 1] = s.found:label(page, r[3], MARGIN, h, "left") end
    out[#out + 1] = s.found:label(page, r[1], MARGIN + r[2], h,
      r[2] == 0 and "left font title_font" or "left")
  end
  return words.lines(out)
end

local function titles(s, given, title)
  local page, most = s.page, (s.page.width - 2 * MARGIN) / sheet.cell
  local mark = words.of(given.layout.mark, 30)
  local first = title or "Detail" .. (mark ~= "" and ", joist " .. mark or "") .. ": "
    .. given.title
  local top = page.height - MARGIN
  return words.lines {
    s.found:label(page, words.of(first, 0.86 * most), MARGIN, top - 0.08,
      "left font title_font"),
    s.found:label(page, words.of(given.layout.title .. ", span " .. given.span, most),
      MARGIN, top - 0.28, "left"),
    s.found:label(page, sheet.note, MARGIN, MARGIN + 0.07, "left"),
  }
end

-- A heading over a view and, where there is room for it, a bar to its scale.
local function heading(s, v, text, x, y, bar)
  local said = s.found:label(s.page, text, x, y, "left")
  if bar then v:scale_bar({width = s.page.width - MARGIN + 0.3}, y) end
  return said
end

---------------------------------------------------------------------------
-- Sizes
---------------------------------------------------------------------------

-- Scales at which the elevation fits into the width; the joist not taller than need be.
local function elevation_scale(given, room)
  for _, s in ipairs(given.layout.show.scales) do
    if s[1] >= 4 and (given.b - given.a) / s[1] <= room
      and given.layout.d / s[1] <= TALLEST then
      return s
    end
  end
end

-- Sections at 1:N side by side or, wide ones, one over the other: rows of sections with
-- their width and height; nil where they are too large.
local function sections_at(list, scale, room, height, stacked)
  local rows, used = {}, BAR
  for _, p in ipairs(list) do
    local w, h = section.size(p, scale[1])
    local r = rows[#rows]
    if not r or stacked then
      r = {wide = 0, high = 0}
      rows[#rows + 1] = r
    end
    r[#r + 1], r.wide, r.high = p, r.wide + w, math.max(r.high, h)
  end
  for _, r in ipairs(rows) do
    if r.wide > room then return nil end
    used = used + CAPTION + r.high
  end
  if used <= height then return {scale = scale, rows = rows} end
end

-- The largest sections that leave room for the texts.
local function section_scale(list, room, height)
  for _, s in ipairs(list[1].show.scales) do
    if s[1] > SMALLEST then return nil end
    local at = sections_at(list, s, room, height) or s[1] > 8
      and sections_at(list, s, room, height, true)
    if at then return at end
  end
end

---------------------------------------------------------------------------
-- Views
---------------------------------------------------------------------------

local function draw_elevation(s, given, scale, plan, y)
  local N, page = scale[1], s.page
  local base = y - CAPTION - plan.above
  local half = (given.b - given.a) / N / 2
  local v = s.found:view(N, given.a, given.b, {left = page.width / 2 - half,
    show = page.show, base = base, top = y - CAPTION, bottom = base - plan.below})
  plan.draw(v)
  s.said[#s.said + 1] = heading(s, v, "Elevation from the right face, "
    .. scale_text(scale), MARGIN, y - 0.08, true)
  s.views[#s.views + 1] = v:script(page, "elevation")
  return base - plan.below
end

-- @param last true for the row over the bar to scale
local function draw_row(s, list, scale, y, last)
  local N, page = scale[1], s.page
  local spare = (page.width - 2 * MARGIN - list.wide) / #list
  local x, foot = MARGIN, y - CAPTION - list.high
  for i, p in ipairs(list) do
    local w, h = section.size(p, N)
    local right, up = section.origin(p, N)
    -- the view as wide as its share of the sheet, y = 0 where the joist's middle stands
    local a = -(right + spare / 2 - 0.02) * N
    local v = s.found:view(N, a, a + (w + spare - 0.04) * N, {left = x + 0.02,
      show = page.show,
      base = foot + list.high - h + up, top = y - CAPTION, bottom = foot})
    section.draw(v, p)
    local text = section.heading(p) .. (p.letter == "A" and ", " .. scale_text(scale)
      or "")
    s.said[#s.said + 1] = heading(s, v, text, x + spare / 4, y - 0.08)
    if last and i == #list then
      v:scale_bar({width = page.width - MARGIN + 0.3}, foot - BAR / 2)
    end
    s.views[#s.views + 1] = v:script(page, "section " .. p.letter)
    x = x + w + spare
  end
  return foot
end

local function draw_sections(s, at, y)
  for i, list in ipairs(at.rows) do
    y = draw_row(s, list, at.scale, y, i == #at.rows)
  end
  return y - BAR
end

---------------------------------------------------------------------------
-- The sheet
---------------------------------------------------------------------------

local function sections_of(given)
  local list = {}
  for i, x in ipairs(given.sections) do
    list[i] = section.of(given, x, ("AB"):sub(i, i))
  end
  return list
end

-- A sheet of one paper: state with its parts, or nil and why it does not hold them.
local function compose(given, page)
  local room = page.width - 2 * MARGIN
  local scale = elevation_scale(given, room - 2 * elevation.side)
  if not scale then return nil, "the joist is too long for the paper" end
  local plan, list = elevation.plan(given, scale[1]), sections_of(given)
  local rows = text_rows(given, page)
  local height = page.height - 2 * MARGIN - TITLES - CAPTION - plan.above - plan.below
    - 2 * GAP - #rows * ROW - NOTE - 0.1
  local at = section_scale(list, room, height)
  if not at then return nil, "the sections do not find room beside the notes" end
  local s = {page = page, found = boxes.new(), said = {}, views = {}}
  local y = draw_elevation(s, given, scale, plan, page.height - MARGIN - TITLES)
  y = draw_sections(s, at, y - GAP)
  s.said[#s.said + 1] = titles(s, given, page.title)
  s.said[#s.said + 1] = texts(s, rows, y - GAP)
  local one, other = s.found:touching()
  if one then return nil, ('texts would touch: "%s", "%s"'):format(one, other) end
  local out = s.found:outside(page, MARGIN - 0.3)
  if out then return nil, ('a text would leave the paper: "%s"'):format(out) end
  return s
end

--- Script, or nil and why the detail does not fit the paper.
-- @param given what netsection.detail gives; @param page options as sheet.read gives them
function detail.script(given, page, paper)
  local size = detail.papers[paper]
  page.width, page.height = size[1], size[2]
  local s, why = compose(given, page)
  if not s then return nil, ("no detail on %s paper: %s"):format(paper, why) end
  return recipes.fill(recipes.of "drawing", {
    WHAT = "A repair to be built, to scale, on one sheet.",
    PAGE = sheet.setup(page), VIEWS = words.lines(s.views),
    WORDS = words.lines(s.said), CLOSE = page.output and "unset output" or "",
  })
end

return detail
