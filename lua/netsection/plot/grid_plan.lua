-- SPDX-License-Identifier: MIT
-- A floor as a grid in plan, to scale: the reactions at both ends of each joist, with
-- those of the sound floor behind them, and lines of equal deflection over the joists.

local frame = require "netsection.plot.frame"
local level = require "netsection.plot.level"
local outline = require "netsection.plot.outline"
local recipes = require "netsection.plot.recipes"
local sheet = require "netsection.plot.sheet"
local text = require "netsection.text"
local view = require "netsection.plot.view"
local words = require "netsection.plot.words"

local grid_plan = {}

-- Inches of paper.
local TITLES, HEAD, SIDE, FOOT, TALL = 0.75, 0.35, 1.75, 0.75, 7
local MARK = 12
local PLACES = 72      -- columns of the net that lines of equal deflection are drawn on
local LINES = 0.8      -- steps between lines, of those between numbers of an axis

-- Deflections on a net: net[i][j] = {x =, y = height on the drawing, v =}.
local function net_of(g, a, b)
  local net, most, least = {}, 0, 0
  for i = 0, PLACES do
    local x = a + (b - a) * i / PLACES
    net[i + 1] = {}
    for j = #g.lines, 1, -1 do
      local line = g.lines[j]
      local v
      if x >= line.first and x <= line.last then v = g:at(line.mark, x).w end
      if v then most, least = math.max(most, v), math.min(least, v) end
      table.insert(net[i + 1], {x = x, y = -line.y, v = v})
    end
  end
  return net, least, most
end

local function draw_levels(v, g, a, b)
  local net, least, most = net_of(g, a, b)
  if most - least <= 0 then return nil end
  local one = 1 / v.show.scaled("length", 1)
  local step = frame.tic_step(LINES * (most - least) / one)
  for n = math.ceil(least / one / step), math.floor(most / one / step) do
    for _, line in ipairs(n ~= 0 and level.lines(net, n * step * one) or {}) do
      local points = {}
      for k, p in ipairs(line) do points[k] = {p.x, p.y} end
      v:add("mark", points)
      local at = line[math.max(1, math.floor(#line * (0.2 + 0.13 * (n % 4))))]
      v:label(text.short(n * step), at.x, at.y, "center boxed")
    end
  end
  return step
end

-- The pieces of a joist beside its gaps.
local function pieces(line)
  local list, from = {}, line.first
  for _, gap in ipairs(line.gaps) do
    if gap[1] > from then list[#list + 1] = {from, gap[1]} end
    from = gap[2]
  end
  if line.last > from then list[#list + 1] = {from, line.last} end
  return list
end

local function reaction(g, mark, n, show)
  local R = g:of(mark).reactions[n]
  local said = R and show.number("force", R, 0) or "-"
  local sound = g.sound and g.sound:of(mark).reactions[n]
  return sound and ("%s (%s)"):format(said, show.number("force", sound, 0)) or said
end

local function draw_joists(v, g, a, b)
  for _, line in ipairs(g.lines) do
    local h, half = -line.y, math.max(line.m.b * line.m.plies / 2, 0.02 * v.N)
    for _, p in ipairs(pieces(line)) do
      v:add("wood", outline.box(p[1], p[2], h - half, h + half))
      v:add("edge", outline.box(p[1], p[2], h - half, h + half))
    end
    for _, x in ipairs(line.bearings) do
      v:segment("near", x, h - 3 * half, x, h + 3 * half)
    end
    local last = #g:of(line.mark).reactions
    v:label(words.of(line.mark, MARK) .. "  " .. reaction(g, line.mark, 1, v.show),
      a - 0.12 * v.N, h, "right")
    if last > 1 then v:label(reaction(g, line.mark, last, v.show), b + 0.12 * v.N, h,
      "left") end
  end
end

local function draw(v, g, a, b)
  draw_joists(v, g, a, b)
  return draw_levels(v, g, a, b)
end

-- Script, or nil and what is wrong with the options.
function grid_plan.script(g, page)
  local a, b = g.stations[1], g.stations[#g.stations]
  local low, high = -g.lines[#g.lines].y, -g.lines[1].y
  local N = math.max(view.scale_for(b - a, page.width - 2 * SIDE, 6),
    view.scale_for(high - low, TALL, 6))
  local tall = (high - low) / N
  local needed = TITLES + HEAD + tall + FOOT + 0.3
  page.height = page.height or needed
  local why = sheet.too_low(page, needed)
  if why then return nil, why end
  local top = page.height - TITLES
  local v = view.new(N, a - (SIDE - 0.1) * N, a + (page.width - SIDE - 0.1) * N,
    {left = 0.1, show = page.show, base = top - HEAD - high / N, top = top,
      bottom = FOOT})
  local step = draw(v, g, a, b)
  local head = "R, " .. page.show.unit.force
  v:label(head, a - 0.12 * N, high + 0.25 * N, "right")
  v:label(head, b + 0.12 * N, high + 0.25 * N, "left")
  v:caption("Joists from above, the first on top", page, page.height - TITLES + 0.05, "")
  local note = ("R at both ends%s; lines of equal deflection, %s%s; cross strokes: "
    .. "bearings"):format(g.sound and " as found (all joists sound)" or "",
    page.show.unit.length, step
    and (", every " .. text.short(step)) or "")
  return recipes.fill(recipes.of "drawing", {
    WHAT = "A floor as a grid in plan, to scale.",
    PAGE = sheet.setup(page), VIEWS = v:script(page, "grid"),
    WORDS = words.lines {
      sheet.titles(page, page.title or "Floor as a grid, " .. words.of(g.floor.name, 60),
        "Second opinion, not used for the verdict; deck " .. words.of(g.deck.name, 50)),
      sheet.label(note, sheet.at(page, sheet.margin, 0.45)),
      sheet.label(sheet.note, sheet.at(page, sheet.margin, 0.2)),
    },
    CLOSE = page.output and "unset output" or "",
  })
end

return grid_plan
