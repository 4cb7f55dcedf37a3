-- SPDX-License-Identifier: MIT
-- Hatched areas of a picture by gnuplot as lines. gnuplot writes them in SVG as a fill by
-- a pattern, of which a browser that prints makes an image for every area: large files
-- that take a minute. Lines are drawn as lines, at any size.
local point = require "netsection.point"
local hatch = {}

local STEP = 8          -- of the pattern, in the units of the picture

-- Numbers of a list of points as {{x, y}, ...}.
local function points_of(said)
  local list = {}
  for x, y in said:gmatch "(-?[%d.]+)%s*,%s*(-?[%d.]+)" do
    list[#list + 1] = {tonumber(x), tonumber(y)}
  end
  return list
end

-- Which way a pattern's lines run: 1 for x - y = const, -1 for x + y = const, and that
-- constant within a step; nil for any other pattern.
local function way_of(d)
  local x1, y1, x2, y2 = d:match
    "^%s*M%s*(-?[%d.]+)%s*,%s*(-?[%d.]+)%s*L%s*(-?[%d.]+)%s*,%s*(-?[%d.]+)"
  if not x1 then return nil end
  local dx, dy = x2 - x1, y2 - y1
  if dx == dy and dx ~= 0 then return 1, (x1 - y1) % STEP end
  if dx == -dy and dx ~= 0 then return -1, (x1 + y1) % STEP end
end

local function at_edge(out, p, q, way, c)
  local a, b = p[1] - way * p[2] - c, q[1] - way * q[2] - c
  if (a < 0) == (b < 0) then return end
  local t = a / (a - b)
  out[#out + 1] = {p[1] + t * (q[1] - p[1]), p[2] + t * (q[2] - p[2])}
end

-- The lines within a closed polygon: where each crosses the edges, by pairs.
local function lines_in(points, way, offset)
  local low, high = math.huge, -math.huge
  for _, p in ipairs(points) do
    local c = p[1] - way * p[2]
    low, high = math.min(low, c), math.max(high, c)
  end
  local out = {}
  local c = math.ceil((low - offset) / STEP) * STEP + offset
  while c < high do
    local cross = {}
    for i, p in ipairs(points) do
      at_edge(cross, p, points[i % #points + 1], way, c)
    end
    table.sort(cross, function(p, q) return p[1] < q[1] end)
    for i = 1, #cross - 1, 2 do
      out[#out + 1] = point.format("M%.2f,%.2fL%.2f,%.2f", cross[i][1], cross[i][2],
        cross[i + 1][1], cross[i + 1][2])
    end
    c = c + STEP
  end
  return table.concat(out)
end

local function attribute(said, name)
  return said:match(name .. "%s*=%s*'([^']*)'") or said:match(name .. '%s*=%s*"([^"]*)"')
end

--- The picture with lines in place of fills by a pattern of parallel lines.
function hatch.lines(svg)
  local patterns, inside = {}, nil
  return (svg:gsub("<(/?%a+)([^<>]*)>", function(name, said)
    if name == "pattern" then
      inside = attribute(said, "id")
    elseif name == "/pattern" then
      inside = nil
    elseif name == "path" and inside then
      local way, offset = way_of(attribute(said, "%f[%a]d") or "")
      local color = said:match "stroke:%s*(rgb%([%d, ]+%))"
      patterns[inside] = way and color and {way = way, offset = offset, color = color}
    elseif name == "polygon" then
      local id = (attribute(said, "fill") or ""):match "^url%(#(.-)%)$"
      local p = id and patterns[id]
      if not p then return nil end
      local d = lines_in(points_of(attribute(said, "points") or ""), p.way, p.offset)
      if d == "" then return "" end
      return ('<path fill="none" stroke="%s" stroke-width="1" d="%s"/>'):format(p.color,
        d)
    end
  end))
end

return hatch
