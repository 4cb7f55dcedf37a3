-- SPDX-License-Identifier: MIT
-- The load path as a diagram: joists from above, the first on top, with lb where each
-- stands; beams across them with lb from each joist and on each post; headers with what
-- they put on the trimmers; the sum of every line at its foot. Across the floor to scale,
-- along the joists to a scale of its own.
local sheet = require "netsection.plot.sheet"
local sketch = require "netsection.plot.sketch"
local quantity = require "netsection.quantity"
local words = require "netsection.plot.words"

local load_path = {}

local WIDTH = 7.15                 -- in of paper: what a printed page has
local LEFT, RIGHT = 1.75, 0.9      -- room for marks and for the last figures
local ROW = 0.27                   -- least from joist to joist
local TALLEST = 8                  -- room for joists that are far apart
local FOOT, HEAD = 1.15, 0.35
local MARK = 12                    -- cells of a mark

local function load(path, v) return quantity.of(path).number("force", v, 0) end

-- Extent along the joists, over all of them.
local function extent(path)
  local a, b = 0, 24
  for _, l in ipairs(path.places) do
    a, b = math.min(a, l.left_end), math.max(b, l.right_end)
  end
  return a, b
end

-- Height of a place across the floor, in inches from the first joist to paper.
local function across(path)
  local gap = math.huge
  for i = 2, #path.places do
    gap = math.min(gap, path.places[i].y - path.places[i - 1].y)
  end
  local total = path.places[#path.places].y
  local k = gap < math.huge and ROW / gap or 1
  return k, math.min(total * k, math.max(TALLEST, (#path.places - 1) * ROW))
end

local function joist(s, path, i, at, y)
  local t, l = path.joists[i], path.places[i]
  local mark = words.of(t.mark, MARK)
  local half = 0.02     -- between stubs
  for _, z in ipairs(t.stretches or {{l.left_end, l.right_end}}) do
    s:line(t.out and "axis" or "edge", at(z[1]) + (z[1] > l.left_end and half or 0), y,
      at(z[2]) - (z[2] < l.right_end and half or 0), y)
  end
  s:text(LEFT - 0.65, y, ("%s  %s"):format(mark, t.own and load(path, t.own.D + t.own.L)
    or "-"), "right")
  if t.out then
    s:text((at(l.left_end) + at(l.right_end)) / 2, y + 0.09, "carries nothing")
  end
  for _, q in ipairs(t.stands) do
    if q.at then
      local x = at(q.at)
      local first, last = q.at < 1e-6, q.at > l.L - 1e-6
      s:box("wood", x - 0.035, y - 0.035, x + 0.035, y + 0.035)
      local align = first and "right" or last and "left" or "right"
      local up = (first or last) and 0 or 0.09
      s:text(x + (align == "right" and -0.07 or 0.07), y + up, load(path, q.D + q.L),
        align)
    end
  end
end

local function beam(s, path, b, at, row)
  local x, a = at(b.f.at), b.state
  if not a.posts then return end
  local low, high = math.huge, -math.huge
  for _, p in ipairs(a.spans) do low, high = math.min(low, p.y1), math.max(high, p.y2) end
  local y1, y2 = row(b.y0 + low), row(b.y0 + high)
  s:box("wood", x - 0.02, y2, x + 0.02, y1)
  for _, p in ipairs(a.posts) do
    local y = row(b.y0 + p.y)
    s:box("load", x - 0.07, y - 0.07, x + 0.07, y + 0.07)
    s:text(x + 0.12, y - 0.1, ("%s: %s"):format(words.of(p.mark, MARK), load(path,
      p.D + p.L)), "left")
  end
end

-- The girder under a line of bearings with its posts, beside the ends of the joists.
local function girder(s, u, path, at, row)
  local a, last = u.state, 0
  if not a.posts then return end
  for _, l in ipairs(path.places) do last = math.max(last, l.L) end
  local right = u.key == "right"
  local x = at(u.key == "left" and 0 or right and last or u.line.points[1].at)
  for _, p in ipairs(a.posts) do
    local y = row(u.y0 + p.y)
    s:box("load", x - 0.07, y - 0.07, x + 0.07, y + 0.07)
    s:text(x + (right and -0.12 or 0.12), y - 0.1, ("%s: %s"):format(words.of(p.mark,
      MARK), load(path, p.D + p.L)), right and "right" or "left")
  end
end

local function header(s, path, h, at, row)
  local y = {}
  for _, side in ipairs {"left", "right"} do
    for _, l in ipairs(path.places) do
      if l.mark == h[side].mark then y[side] = row(l.y) end
    end
  end
  if not (y.left and y.right) then return end
  local x = at(h.x)
  s:line("load", x, y.left, x, y.right)
  for side, up in pairs {left = -0.09, right = 0.09} do
    s:text(x + 0.06, y[side] + up, load(path, h[side].D + h[side].L), "left")
  end
end

-- Sums at the foot of every line, and the balance of the whole.
local function feet(s, path, at, y)
  local left, right, unit = 0, 0, quantity.of(path).unit.force
  for _, l in ipairs(path.places) do right = math.max(right, l.L) end
  local said = {}
  for _, l in ipairs(path.lines) do
    local x = l.name == "left bearings" and at(left) or l.name == "right bearings"
      and at(right) or l.beam and at(l.beam.f.at)
    if x then
      s:arrow(x, y, x, y - 0.3)
      s:text(x, y - 0.4, l.name .. (l.beam and ", posts" or ""))
      s:text(x, y - 0.56, load(path, l.D + l.L) .. " " .. unit)
    end
    said[#said + 1] = ("%s %s"):format(l.name, load(path, l.D + l.L))
  end
  s:text(LEFT - 0.65, y - 0.4, "joist, own " .. unit, "right")
  s:text(LEFT - 0.65, y - 0.56, load(path, path.floor.D + path.floor.L) .. " " .. unit,
    "right")
  s:text(sheet.margin, y - 0.85, ("all joists %s %s = "):format(load(path, path.floor.D
    + path.floor.L), unit) .. table.concat(said, " + "), "left")
end

--- Script, or nil and what is wrong with the options: output, title.
function load_path.script(path, options)
  local page, problem = sheet.read(options, WIDTH)
  if not page then return nil, problem end
  local a, b = extent(path)
  local k, tall = across(path)
  local total = path.places[#path.places].y
  if total * k > tall then k = tall / total end
  local s = sketch.new {title = "Load path, " .. words.of(path.name, 60),
    caption = quantity.of(path).unit.force
      .. " at each point, dead and live on all spans; joists from above, the "
      .. "first on top; not to scale along them", width = WIDTH,
    height = tall + FOOT + HEAD, note = sheet.note}
  local room = WIDTH - LEFT - RIGHT
  local function at(x) return LEFT + (x - a) * room / (b - a) end
  local function row(y) return FOOT + tall - y * k end
  for i in ipairs(path.joists) do joist(s, path, i, at, row(path.places[i].y)) end
  for _, h in ipairs(path.headers) do header(s, path, h, at, row) end
  for _, line in ipairs(path.beams) do beam(s, path, line, at, row) end
  for _, u in ipairs(path.below) do girder(s, u, path, at, row) end
  feet(s, path, at, FOOT - 0.15)
  return sketch.script(s, page)
end

return load_path
