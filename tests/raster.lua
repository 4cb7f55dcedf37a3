-- SPDX-License-Identifier: MIT
-- Gray pictures of drawings for tests, by poppler and, of PNG and SVG, by a browser that
-- prints them; what is compared is the ink in squares, not letters dot by dot.
local drawing = require "tests.drawing"

local raster = {}

local DOTS, SQUARE = 100, 10          -- to an inch; dots of a square
local DARK = 160                      -- of 255: below it a dot is ink
local BIG = {13, 14}                  -- in, of the page on which a browser prints

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

local function run(dir, command)
  os.execute(("cd '%s' && %s >/dev/null 2>&1"):format(dir.path, command))
end

local function page(dir, file, n, name)
  run(dir, ("pdftoppm -gray -r %d -f %d -l %d -singlefile %s %s"):format(DOTS, n, n,
    file, name))
  return raster.pgm(drawing.read_file(dir.path .. "/" .. name .. ".pgm"))
end

--- One of gnuplot's own PDF files.
function raster.of_pdf(dir, base)
  return page(dir, base .. ".pdf", 1, base .. "-pdf")
end

--- All of a form printed by a browser, each at its own size in the corner of a page.
-- @param images of the PDF files, which have the sizes
function raster.print(dir, form, images)
  local list = {("<style>@page{size:%din %din;margin:0}body{margin:0}"
    .. "div{height:%din;break-after:page;overflow:hidden}</style>"):format(BIG[1], BIG[2],
    BIG[2] - 1)}
  for i, image in ipairs(images) do
    list[#list + 1] = ("<div><img src='%03d.%s' style='width:%.3fin;height:%.3fin'>"
      .. "</div>"):format(i, form, image.width / DOTS, image.height / DOTS)
  end
  drawing.write_file(dir.path .. "/" .. form .. ".html", table.concat(list, "\n"))
  run(dir, ("chromium --headless --no-sandbox --disable-gpu --no-pdf-header-footer "
    .. "--allow-file-access-from-files --print-to-pdf=%s.pdf %s.html"):format(form, form))
end

function raster.of(dir, form, i)
  return page(dir, form .. ".pdf", i, ("%03d-%s"):format(i, form))
end

-- Ink of each square, 0 to 1.
local function squares(image, columns, rows)
  local list, size = {}, SQUARE * SQUARE * 255
  for r = 1, rows do
    list[r] = {}
    for c = 1, columns do
      local sum = 0
      for y = (r - 1) * SQUARE, r * SQUARE - 1 do
        local from = image.first + y * image.width + (c - 1) * SQUARE
        for _, v in ipairs {image.text:byte(from, from + SQUARE - 1)} do
          sum = sum + 255 - v
        end
      end
      list[r][c] = sum / size
    end
  end
  return list
end

local function most_around(list, r, c)
  local most = 0
  for i = r - 1, r + 1 do
    for k = c - 1, c + 1 do most = math.max(most, list[i] and list[i][k] or 0) end
  end
  return most
end

local LOST = 0.12          -- ink of a square that has to be found in the other picture
local FOUND = 0.03
local MEAN = 0.2           -- of the ink, by which two formats may differ as a whole

--- What two pictures of a drawing do not share, or nil.
function raster.unlike(a, b)
  local columns = math.min(a.width, b.width) // SQUARE
  local rows = math.min(a.height, b.height) // SQUARE
  local p, q = squares(a, columns, rows), squares(b, columns, rows)
  local ink_p, ink_q = 0, 0
  for r = 1, rows do
    for c = 1, columns do
      ink_p, ink_q = ink_p + p[r][c], ink_q + q[r][c]
      if p[r][c] > LOST and most_around(q, r, c) < FOUND
        or q[r][c] > LOST and most_around(p, r, c) < FOUND then
        return ("ink in one alone at %.1f in from the left, %.1f from the top"):format(
          c / 10, r / 10)
      end
    end
  end
  if math.abs(ink_p - ink_q) > MEAN * math.max(ink_p, ink_q) then
    return ("ink %.1f and %.1f"):format(ink_p, ink_q)
  end
end

return raster
