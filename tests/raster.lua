-- SPDX-License-Identifier: MIT
-- Gray pictures of drawings for tests, as poppler writes them: how long the lines are.
local raster = {}

local DARK = 160                      -- of 255: below it a dot is ink

--- A PGM file's text -> {width =, height =, text = gray values, a byte each}.
function raster.pgm(text)
  local w, h, at = text:match "^P5%s+(%d+)%s+(%d+)%s+255%s()"
  return {width = math.tointeger(w), height = math.tointeger(h), first = at, text = text}
end

local function value(image, x, y)
  return image.text:byte(image.first + y * image.width + x)
end

--- Dots of the longest line of ink from left to right.
function raster.longest(image)
  local most, ink = 0, "[\0-" .. string.char(DARK) .. "]+"
  for y = 0, image.height - 1 do
    local from = image.first + y * image.width
    local row = image.text:sub(from, from + image.width - 1)
    for run in row:gmatch(ink) do most = math.max(most, #run) end
  end
  return most
end

--- The same from top to bottom.
function raster.longest_up(image)
  local most, runs = 0, {}
  for y = 0, image.height - 1 do
    for x = 0, image.width - 1 do
      runs[x] = value(image, x, y) <= DARK and (runs[x] or 0) + 1 or 0
      most = math.max(most, runs[x])
    end
  end
  return most
end

return raster
