-- SPDX-License-Identifier: MIT
-- The outline of a cut joist's side: closed lines around what wood is left, inches.
-- Openings inside the depth are no part of it.

local headed = require "netsection.plot.headed"

local outline = {}

--- Whether a cut parts the joist: one in a ply leaves the others behind it.
function outline.parts(cut)
  return cut.kind == "sever" and not cut.ply
end

-- Runs of the sloped ends, left and right.
local function runs(cut)
  local length, one = cut.x2 - cut.x1, cut.kind == "end_notch"
  local run = (cut.taper or 0) * (cut.h2 - cut.h1 - (cut.kerf or 0))
  run = math.min(run, one and length or length / 2)
  return one and not cut.right_end and 0 or run, one and cut.right_end and 0 or run
end

--- Corners of a notch that have wood beside them: {{x, -1 or 1 toward the wood}, ...}.
function outline.corners(cut)
  local left, right = runs(cut)
  local list = {}
  if cut.kind == "notch" or cut.right_end then list[1] = {cut.x1 + left, -1} end
  if cut.kind == "notch" or not cut.right_end then
    list[#list + 1] = {cut.x2 - right, 1}
  end
  return list
end

-- A cut from an edge as a line of heights: how far it reaches at each of its places. A
-- tapered end slopes within the length that was described, at most over half of it; an
-- end notch has one corner.
local function reach(cut)
  local depth = cut.h2 - cut.h1 - (cut.kerf or 0)
  local left, right = runs(cut)
  return {
    {cut.x1, left > 0 and 0 or depth}, {cut.x1 + left, depth},
    {cut.x2 - right, depth}, {cut.x2, right > 0 and 0 or depth},
  }
end

local function at(points, x)
  for i = 2, #points do
    local a, b = points[i - 1], points[i]
    if b[1] > a[1] and x >= a[1] and x <= b[1] then
      return a[2] + (b[2] - a[2]) * (x - a[1]) / (b[1] - a[1])
    end
  end
  return 0
end

-- {top = {...}, bottom = {...}}: the reaches of the cuts from either edge. A saw cut past
-- the corner is drawn apart.
local function edges_of(layout)
  local from = {top = {}, bottom = {}}
  for _, cut in ipairs(layout.cuts) do
    if not cut.ply and (cut.kind == "notch" or cut.kind == "end_notch") then
      local list = from[cut.h2 >= layout.d and "top" or "bottom"]
      list[#list + 1] = reach(cut)
    end
  end
  return from
end

local function places(layout, from)
  local list = {layout.start, layout.finish}
  local function add(x)
    if x > layout.start and x < layout.finish then list[#list + 1] = x end
  end
  for _, points in pairs(from) do
    for _, line in ipairs(points) do
      for _, p in ipairs(line) do add(p[1]) end
    end
  end
  for _, cut in ipairs(layout.cuts) do
    if outline.parts(cut) then add(cut.x1) add(cut.x2) end
  end
  local x1, x2 = headed.removed(layout)
  if x1 then add(x1) add(x2) end
  table.sort(list)
  return list
end

local function severed(layout, x)
  for _, cut in ipairs(layout.cuts) do
    if outline.parts(cut) and x > cut.x1 and x < cut.x2 then return true end
  end
  local x1, x2 = headed.removed(layout)
  return x1 ~= nil and x > x1 and x < x2
end

-- Depth gone at x, which lies in the stretch around `middle`.
local function gone(lines, x, middle)
  local most = 0
  for _, line in ipairs(lines) do
    if middle > line[1][1] and middle < line[#line][1] then
      most = math.max(most, at(line, x))
    end
  end
  return most
end

-- The stretch between two places, or nil where nothing is left.
local function stretch(layout, from, a, b)
  local middle = (a + b) / 2
  if severed(layout, middle) then return nil end
  local s = {a = a, b = b}
  for name, x in pairs {left = a, right = b} do
    s[name .. "_low"] = gone(from.bottom, x, middle)
    s[name .. "_high"] = layout.d - gone(from.top, x, middle)
  end
  if s.left_low + s.right_low < s.left_high + s.right_high then return s end
end

-- Up one side and back along the other, without repeated points.
local function closed(stretches)
  local line = {}
  local function add(x, h)
    local last = line[#line]
    if not last or last[1] ~= x or last[2] ~= h then line[#line + 1] = {x, h} end
  end
  for _, s in ipairs(stretches) do
    add(s.a, s.left_high)
    add(s.b, s.right_high)
  end
  for i = #stretches, 1, -1 do
    add(stretches[i].b, stretches[i].right_low)
    add(stretches[i].a, stretches[i].left_low)
  end
  add(line[1][1], line[1][2])
  return line
end

--- Closed lines {{x, h}, ...} around each length of wood that hangs together.
function outline.of(layout)
  local from, list, run = edges_of(layout), {}, {}
  local xs = places(layout, from)
  local function finish()
    if #run > 0 then list[#list + 1] = closed(run) end
    run = {}
  end
  for i = 2, #xs do
    if xs[i] > xs[i - 1] then
      local s = stretch(layout, from, xs[i - 1], xs[i])
      if s then run[#run + 1] = s else finish() end
    end
  end
  finish()
  return list
end

--- Height of the wood's underside over a bearing at x: an end notch sits on its root.
function outline.underside(layout, x)
  return gone(edges_of(layout).bottom, x, x)
end

function outline.box(x1, x2, h1, h2)
  return {{x1, h1}, {x2, h1}, {x2, h2}, {x1, h2}, {x1, h1}}
end

return outline
