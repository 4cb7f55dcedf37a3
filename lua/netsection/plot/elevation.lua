-- SPDX-License-Identifier: MIT
-- Elevation of a joist, to scale: the whole of it with its cuts, and under that, where
-- there is a repair, its extent at a larger scale with the places of the fasteners.

local dims = require "netsection.plot.dims"
local headed = require "netsection.plot.headed"
local marks = require "netsection.plot.marks"
local picture = require "netsection.plot.picture"
local recipes = require "netsection.plot.recipes"
local schedule = require "netsection.plot.schedule"
local sheet = require "netsection.plot.sheet"
local strips = require "netsection.plot.strips"
local verdict = require "netsection.verdict"
local view = require "netsection.plot.view"
local words = require "netsection.plot.words"

local elevation = {}

-- Inches of paper. SIDE: beside a view, for what stands past its ends.
local SIDE, TITLES, CAPTION, GAP = 0.55, 0.47, 0.24, 0.12
local MARKS, EXTENT, CHAIN = 0.42, 0.3, 0.26

local LARGEST, NARROWEST = 6, 7        -- scale 1:6; in, width of a sheet

local function scale_for(length, room)
  return view.scale_for(length, room, LARGEST)
end

---------------------------------------------------------------------------
-- Marks above a view
---------------------------------------------------------------------------

-- A leader from each mark down to what it names: `item.down`, else the joist's top edge.
local function draw_marks(v, items, top, head)
  for _, item in ipairs(items) do
    local foot = item.down or top
    v:add("dim", {{item.at, foot}, {item.at, top + 0.06 * v.N},
      {item.mark_x, head - 0.09 * v.N}})
    if item.down then v:add("dot", {{item.at, foot}}) end
    v:label(item.mark, item.mark_x, head)
  end
end

-- Gives each cut its name, or a letter where names would touch, between a and b; true for
-- letters.
local function letter(cuts, a, b, N)
  local wide = {start = a - 0.3 * N, finish = b + 0.3 * N}
  return marks.place(cuts, wide, (wide.finish - wide.start) / N)
end

-- Names or letters over the cuts; true for letters.
local function cut_marks(v, layout, top, room)
  local cuts = marks.sorted(layout)
  local lettered = letter(cuts, v.a, v.b, v.N)
  draw_marks(v, cuts, top, top + ((room or MARKS) - 0.08) * v.N)
  return cuts, lettered
end

-- A number for each piece, with its leader at another place of its length than those of
-- pieces that stand beside it.
local function piece_tags(v, layout, top)
  local list, pieces = {}, layout.fix.pieces
  local low = picture.range(layout, v.N)
  for i, piece in ipairs(pieces) do
    local here = picture.here(piece)
    local a, b = here and math.max(piece.x1, v.a), here and math.min(piece.x2, v.b)
    if here and b > a then
      local at = a + (b - a) * (#pieces > 1 and (i - 0.5) / #pieces or 0.25)
      list[#list + 1] = {at = at, mark = ("(%d)"):format(i), order = i,
        down = math.max(low + 0.03 * v.N, math.min(piece.h2, top))}
    end
  end
  return list
end

-- Also the marks of the cuts that the view shows.
local function tags(v, layout, cuts, top)
  local items, centres, widths = piece_tags(v, layout, top), {}, {}
  for i, cut in ipairs(cuts) do
    if v:inside(cut.at) then
      items[#items + 1] = {at = cut.at, mark = cut.mark, order = 100 + i}
    end
  end
  table.sort(items, function(p, q)
    if p.at ~= q.at then return p.at < q.at end
    return p.order < q.order
  end)
  for i, item in ipairs(items) do
    centres[i] = item.at
    widths[i] = (words.width(item.mark) + 1) * sheet.cell * v.N
  end
  for i, x in ipairs(marks.apart(centres, widths, v.a - 0.3 * v.N, v.b + 0.3 * v.N)) do
    items[i].mark_x = x
  end
  draw_marks(v, items, top, top + (MARKS - 0.08) * v.N)
end

---------------------------------------------------------------------------
-- The whole joist
---------------------------------------------------------------------------

-- Centers of bearings, headers and holes, edges of other cuts.
local function running_places(layout)
  local list = {table.unpack(layout.supports)}
  for _, h in ipairs(headed.headers(layout)) do list[#list + 1] = (h.x1 + h.x2) / 2 end
  for _, cut in ipairs(layout.cuts) do
    if cut.kind == "hole" then
      list[#list + 1] = (cut.x1 + cut.x2) / 2
    elseif cut.kind == "end_notch" then
      list[#list + 1] = cut.right_end and cut.x1 or cut.x2
    else
      list[#list + 1] = cut.x1
      list[#list + 1] = cut.x2
    end
  end
  return dims.places(list)
end

local function ends_of(layout)
  local a, b = layout.start, layout.finish
  for i, x in ipairs(layout.supports) do
    local half = (layout.bearing[i] or 0) / 2
    a, b = math.min(a, x - half), math.max(b, x + half)
  end
  for _, piece in ipairs(layout.fix and layout.fix.pieces or {}) do
    if picture.here(piece) then a, b = math.min(a, piece.x1), math.max(b, piece.x2) end
  end
  return a, b
end

elevation.cut_marks, elevation.ends_of, elevation.letter = cut_marks, ends_of, letter

-- A view before it has its place: heights above and below its h = 0 line, and `draw`.
local function whole(layout, page)
  local a, b = ends_of(layout)
  local N = scale_for(b - a, page.width - 2 * SIDE)
  local low, high = picture.range(layout, N)
  local xs = running_places(layout)
  return {
    N = N, a = a, b = b, name = "the whole joist",
    caption = "Whole joist from its right face",
    above = high / N + (#layout.cuts > 0 and MARKS or 0.08),
    below = 0.16 + dims.running_depth(xs, page.show) - low / N,
    draw = function(v, state)
      picture.draw(v, layout)
      dims.running(v, xs, low - 0.16 * N, low - 0.04 * N)
      if #layout.cuts > 0 then
        state.cuts, state.lettered = cut_marks(v, layout, high)
      end
    end,
  }
end

---------------------------------------------------------------------------
-- The repair, enlarged
---------------------------------------------------------------------------

-- Chains of one strip below the joist, and heights at the ends of pieces.
local function draw_chains(v, layout, strip, low)
  for i, chain in ipairs(strip.chains) do
    local h = low - (0.1 + CHAIN * (i - 1)) * v.N
    dims.chain(v, chain.xs, h, chain)
    for _, x in ipairs(chain.xs) do
      if i == 1 then v:segment("dim", x, low - 0.02 * v.N, x, h - 0.03 * v.N) end
    end
  end
  for _, up in ipairs(strips.uprights(layout, v.a, v.b)) do
    dims.upright(v, up.hs, up.x - 0.1 * v.N)
  end
end

local function matches(v, strip, low, high)
  for _, x in ipairs(strip.matches) do
    v:segment("axis", x, low - 0.05 * v.N, x, high + 0.05 * v.N)
  end
end

local function strip_plan(layout, strip, i, count, N)
  local low, high = picture.range(layout, N)
  local from, to = strips.extent(layout)
  local trial = layout.fix.trial
  local text = ("%s from %s to %s, length %s"):format(trial and "trial" or "repair",
    dims.text(from, layout.show), dims.text(to, layout.show),
    dims.text(to - from, layout.show))
  local head = trial and verdict.not_built or "Repair"
  return {
    N = N, a = strip.a, b = strip.b,
    name = ("repair, part %d of %d"):format(i, count),
    caption = count > 1 and ("%s, part %d of %d"):format(head, i, count) or head,
    above = high / N + MARKS + EXTENT, below = 0.14 + CHAIN * #strip.chains - low / N,
    draw = function(v, state)
      picture.draw(v, layout)
      picture.breaks(v, layout)
      tags(v, layout, state.cuts or {}, high)
      dims.length(v, from, to, high + (MARKS + 0.09) * N, text)
      draw_chains(v, layout, strip, low)
      matches(v, strip, low, high)
      for _, point in ipairs(v.gathered.fastener) do v:add("cross", point) end
    end,
  }
end

local function enlarged(layout, page, list)
  local room = page.width - 2 * SIDE
  local parts = strips.of(layout, room, page.brief and 2 or nil)
  local longest = 0
  for _, strip in ipairs(parts) do longest = math.max(longest, strip.b - strip.a) end
  local N = scale_for(longest, room)
  for i, strip in ipairs(parts) do
    list[#list + 1] = strip_plan(layout, strip, i, #parts, N)
  end
end

---------------------------------------------------------------------------
-- The sheet
---------------------------------------------------------------------------

local function plans_of(layout, page)
  local list = {whole(layout, page)}
  if layout.fix and strips.extent(layout) then enlarged(layout, page, list) end
  return list
end

-- Height that all needs; or nil and that the page is too low.
local function fit(plans, rows, page)
  local needed = (page.brief and 0 or TITLES) + rows
  for _, plan in ipairs(plans) do
    needed = needed + CAPTION + plan.above + plan.below + GAP
  end
  page.height = page.height or needed
  local low = sheet.too_low(page, needed)
  return low == nil, low
end

local function place_views(plans, page)
  local views, state, y = {}, {}, page.height - (page.brief and 0 or TITLES)
  for i, plan in ipairs(plans) do
    local middle = (plan.b - plan.a) / plan.N / 2
    local base = y - CAPTION - plan.above
    local v = view.new(plan.N, plan.a, plan.b, {
      left = page.width / 2 - middle, base = base, top = y - CAPTION,
      bottom = base - plan.below, show = page.show,
    })
    plan.draw(v, state)
    v:caption(plan.caption, page, y - 0.1)
    views[i] = v:script(page, plan.name)
    y = base - plan.below - GAP
  end
  return words.lines(views), state, y
end

-- Script, or nil and what is wrong with the options.
function elevation.script(layout, page)
  if page.width < NARROWEST then
    return nil, ("size: the width must be at least %d in for an elevation"):format(
      NARROWEST)
  end
  local plans = plans_of(layout, page)
  local ok, problem = fit(plans, page.brief and 0 or schedule.height(layout, page), page)
  if not ok then return nil, problem end
  local views, state, y = place_views(plans, page)
  local mark = words.of(layout.mark, 30)
  local title = page.title or "Elevation" .. (mark ~= "" and ", joist " .. mark or "")
  return recipes.fill(recipes.of "drawing", {
    WHAT = "A joist seen from its right face, to scale, with its cuts and its repair.",
    PAGE = sheet.setup(page), VIEWS = views,
    WORDS = page.brief and "" or words.lines {
      sheet.titles(page, title, layout.title .. (layout.fix and layout.fix.trial
        and "; " .. verdict.not_built or "")), schedule.part(layout, state, page, y),
    },
    CLOSE = page.output and "unset output" or "",
  })
end

return elevation
