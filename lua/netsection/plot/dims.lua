-- SPDX-License-Identifier: MIT
-- Dimension lines of a view to scale: a running one from the left bearing, chains of
-- distances along and up, and one length. Offsets are inches of paper.

local marks = require "netsection.plot.marks"
local sheet = require "netsection.plot.sheet"
local words = require "netsection.plot.words"

local dims = {}

local TICK = 0.035         -- half a slash through a line at the end of a distance
local TEXT = 0.105         -- from a line to the middle of its text
local SAME = 1 / 32        -- in, of the joist: distances nearer than this are equal

-- 8-1/2" in a chain, 4'-8" from 2 ft on.
function dims.text(x, show)
  return show.dimension(x)
end

local function slash(view, x, h)
  local t = TICK * view.N
  view:segment("dim", x - t, h - t, x + t, h + t)
end

--- Places in rising order, without those that coincide.
function dims.places(list)
  table.sort(list)
  local kept = {}
  for _, x in ipairs(list) do
    if not kept[1] or x - kept[#kept] > SAME then kept[#kept + 1] = x end
  end
  return kept
end

-- Texts beside a line of places, pushed apart to what their widths (inches of paper) ask.
local function spread(view, centres, widths, low, high)
  for i, w in ipairs(widths) do widths[i] = w * view.N end
  return marks.apart(centres, widths, low, high)
end

--- Paper that the texts of a running dimension take below its line.
function dims.running_depth(xs, show)
  local most = 0
  for _, x in ipairs(xs) do
    most = math.max(most, words.width(show.running(x)))
  end
  return 0.2 + most * sheet.cell
end

--- Distances from x = 0, upright texts below a line at height `h`, with a short leader to
-- each place. `from` is the height at which the witness lines begin.
function dims.running(view, xs, h, from)
  local N, widths, low, high = view.N, {}, view.a - 0.3 * view.N, view.b + 0.3 * view.N
  for i in ipairs(xs) do widths[i] = 0.15 end
  view:segment("dim", math.min(xs[1], 0), h, math.max(xs[#xs], 0), h)
  for i, x in ipairs(spread(view, xs, widths, low, high)) do
    slash(view, xs[i], h)
    view:add("dim", {{xs[i], from}, {xs[i], h - 0.04 * N}, {x, h - 0.13 * N}})
    view:label(xs[i] == 0 and "0" or view.show.running(xs[i]), x, h - 0.16 * N,
      "right rotate by 90")
  end
end

-- {from, to, text} for each distance; equal ones that follow each other are one, but not
-- those to an edge of the piece, `edges.first` and `edges.last`.
local function distances(xs, edges, show)
  local list = {}
  for i = 2, #xs do
    local gap, last = xs[i] - xs[i - 1], list[#list]
    local edge = edges.first and i == 3 or edges.last and i == #xs
    if last and not edge and math.abs(last.gap - gap) <= SAME then
      last.to, last.n = xs[i], last.n + 1
    else
      list[#list + 1] = {from = xs[i - 1], to = xs[i], gap = gap, n = 1}
    end
  end
  for _, d in ipairs(list) do
    local gap = (d.to - d.from) / d.n
    d.text = d.n > 1 and ("%d at %s"):format(d.n, dims.text(gap, show))
      or dims.text(gap, show)
  end
  return list
end

--- Cells of the widest text of a chain.
function dims.cells(xs, edges, show)
  local most = 0
  for _, d in ipairs(distances(xs, edges, show)) do
    most = math.max(most, words.width(d.text))
  end
  return most
end

local function cells(text)
  return (words.width(text) + 1) * sheet.cell
end

--- A chain of distances along the joist, at height `h`; texts below the line.
function dims.chain(view, xs, h, edges)
  if #xs < 2 then return end
  local list, centres, widths = distances(xs, edges, view.show), {}, {}
  view:segment("dim", xs[1], h, xs[#xs], h)
  for _, x in ipairs(xs) do slash(view, x, h) end
  for i, d in ipairs(list) do
    centres[i], widths[i] = (d.from + d.to) / 2, cells(d.text)
  end
  local placed = spread(view, centres, widths, view.a - 0.4 * view.N,
    view.b + 0.4 * view.N)
  for i, x in ipairs(placed) do
    local y = h - TEXT * view.N
    if math.abs(x - centres[i]) > 0.03 * view.N then
      y = y - 0.06 * view.N
      view:segment("dim", centres[i], h, x, y + 0.075 * view.N)
    end
    view:label(list[i].text, x, y)
  end
end

--- A chain of distances up the joist at place `x`; texts to the left of the line, or to
-- its right where `side` is "right". `edges` as of a chain: by default both are edges.
function dims.upright(view, hs, x, side, edges)
  if #hs < 2 then return end
  local out = side == "right" and 1 or -1
  local list = distances(hs, edges or {first = true, last = true}, view.show)
  local centres, widths = {}, {}
  view:segment("dim", x, hs[1], x, hs[#hs])
  for _, h in ipairs(hs) do slash(view, x, h) end
  for i, d in ipairs(list) do centres[i], widths[i] = (d.from + d.to) / 2, 0.14 end
  local placed = spread(view, centres, widths, -1e6, 1e6)
  for i, h in ipairs(placed) do
    view:add("dim", {{x, centres[i]}, {x + out * 0.07 * view.N, h}})
    view:label(list[i].text, x + out * 0.09 * view.N, h,
      out > 0 and "left boxed" or "right boxed")
  end
end

--- One length with end marks and a text over it, for the part that the view shows.
function dims.length(view, x1, x2, h, text)
  local a, b = math.max(x1, view.a), math.min(x2, view.b)
  if b <= a then return end
  view:segment("dim", a, h, b, h)
  for _, x in ipairs {x1, x2} do
    if view:inside(x) then
      slash(view, x, h)
      view:segment("dim", x, h - 0.08 * view.N, x, h + 0.06 * view.N)
    end
  end
  local half = cells(text) / 2 * view.N
  if 2 * half > b - a - 0.2 * view.N then
    view:label(text, b + 0.12 * view.N, h, "left")
    return
  end
  local middle = (a + b) / 2
  middle = math.max(view.a - 0.3 * view.N + half, math.min(middle,
    view.b + 0.3 * view.N - half))
  view:label(text, middle, h + TEXT * view.N)
end

return dims
