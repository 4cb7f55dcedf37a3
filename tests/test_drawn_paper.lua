-- SPDX-License-Identifier: MIT
-- Drawings as they lie on paper. gnuplot draws every kind of drawing as PDF and SVG, and
-- poppler reads the PDF back: no two labels touch, none leaves the sheet, type is 7
-- points at least; what is printed as the scale is the scale; the labels of the SVG are
-- those of the PDF, once, at the same places. NETSECTION_DRAWINGS=all takes every kind of
-- every joist.
local drawing = require "tests.drawing"
local lu = require "luaunit"
local ns = require "netsection"
local subjects = require "tests.data.drawn"
local raster = require "tests.raster"
local support = require "tests.support"
local system = require "tests.system"

local T = {}

local POINT = 72           -- to an inch
local LEAST = 7            -- points of type
local SHARED_X, SHARED_Y = 0.6, 1.7     -- points that boxes of letters may share: air

local plot = ns.plot

local function layout(subject, options)
  options.brief, options.size = true, {7.15}
  return plot.elevation(subject, options)
end

local KINDS = {elevation = plot.elevation, section = plot.section, moment = plot.moment,
  shear = plot.shear, sheet = plot.sheet, overview = plot.overview, layout = layout,
  detail = plot.detail}
-- In turn over the joists, so that each kind sees many; all with NETSECTION_DRAWINGS.
local TURNS = {{"elevation", "sheet"}, {"overview", "moment"}, {"section", "layout"},
  {"shear", "elevation"}, {"overview", "section"}}

local function need(...)
  for _, name in ipairs {...} do
    if not system.has(name) then lu.skip(name .. " is not installed") end
  end
end

local function sorted(t)
  local names = {}
  for name in pairs(t) do names[#names + 1] = name end
  table.sort(names)
  return names
end

---------------------------------------------------------------------------
-- What is drawn
---------------------------------------------------------------------------

local drawn

-- {{name, draw(output) -> script}, ...} of all joists, repairs, floors and charts.
local function drawings()
  if drawn then return drawn end
  drawn = {}
  local all = os.getenv "NETSECTION_DRAWINGS" == "all"
  for i, name in ipairs(sorted(subjects.joists)) do
    local r = assert(subjects.joists[name]()):review()
    local kinds = all and sorted(KINDS) or TURNS[i % #TURNS + 1]
    for _, kind in ipairs(kinds) do
      if kind ~= "detail" then
        drawn[#drawn + 1] = {name .. "-" .. kind, function(output)
          return assert(KINDS[kind](r, {output = output}))
        end}
      end
    end
    if r.fixed and plot.detail(r) then
      drawn[#drawn + 1] = {name .. "-detail", function(output)
        return assert(plot.detail(r, {output = output}))
      end}
    end
  end
  for _, one in ipairs(subjects.others()) do drawn[#drawn + 1] = one end
  return drawn
end

-- Draws all in one run of gnuplot as <folder>/<i>.<form>; it has to be silent.
local function draw_all(dir, form, list)
  local scripts = {}
  for i, one in ipairs(list) do
    scripts[i] = one[2](("%03d.%s"):format(i, form))
  end
  lu.assertEquals(drawing.run(dir, table.concat(scripts, "\n")), "")
end

local WORD = '<word xMin="(%S+)" yMin="(%S+)" xMax="(%S+)" yMax="(%S+)">(.-)</word>'

local function said_by(dir, command)
  return system.said(dir.path, command)
end

-- Words of each page of all.pdf, points:
-- {{x1, y1, x2, y2, text}, ..., width =, height =}.
local function pages_of(dir)
  local pages = {}
  for size, body in said_by(dir, "pdftotext -bbox all.pdf -"):gmatch
    "<page ([^>]*)>(.-)</page>" do
    local page = {width = tonumber(size:match 'width="([%d.]+)"'),
      height = tonumber(size:match 'height="([%d.]+)"')}
    for a, b, c, d, text in body:gmatch(WORD) do
      page[#page + 1] = {tonumber(a), tonumber(b), tonumber(c), tonumber(d), text}
    end
    pages[#pages + 1] = page
  end
  return pages
end

local function touching(page)
  for i, p in ipairs(page) do
    for k = i + 1, #page do
      local q = page[k]
      local x = math.min(p[3], q[3]) - math.max(p[1], q[1])
      local y = math.min(p[4], q[4]) - math.max(p[2], q[2])
      if x > SHARED_X and y > SHARED_Y then
        return ("'%s' and '%s' share %.1f by %.1f points"):format(p[5], q[5], x, y)
      end
    end
  end
end

local function outside(page)
  for _, p in ipairs(page) do
    if p[1] < 0 or p[2] < 0 or p[3] > page.width or p[4] > page.height then
      return "'" .. p[5] .. "' leaves the sheet"
    end
  end
end

---------------------------------------------------------------------------
-- Words of an SVG
---------------------------------------------------------------------------

local ENTITIES = {amp = "&", lt = "<", gt = ">", quot = '"', apos = "'"}

local function plain(text)
  return (text:gsub("<[^>]*>", ""):gsub("&#(%d+);", function(n)
    return utf8.char(tonumber(n))
  end):gsub("&(%a+);", ENTITIES))
end

-- Words with the place of the text that they are in, inches; how many each.
local function words_of_svg(svg)
  local count, places = {}, {}
  for x, y, said in svg:gmatch
    '<g transform="translate%(([-%d.]+),([-%d.]+)%)[^>]*>%s*<text[^>]*>(.-)</text>' do
    for word in plain(said):gmatch "%S+" do
      count[word] = (count[word] or 0) + 1
      places[word] = {tonumber(x) / 96, tonumber(y) / 96}
    end
  end
  return count, places
end

local function words_of_page(page)
  local count, places = {}, {}
  for _, p in ipairs(page) do
    local word = plain(p[5])
    count[word] = (count[word] or 0) + 1
    places[word] = {(p[1] + p[3]) / 2 / POINT, (p[2] + p[4]) / 2 / POINT}
  end
  return count, places
end

---------------------------------------------------------------------------
-- Tests
---------------------------------------------------------------------------

-- Type by poppler, at a zoom of 3 so that its whole numbers are thirds of a point.
local function assert_type(dir)
  local least = math.huge
  for size in said_by(dir, "pdftohtml -xml -i -zoom 3 -stdout all.pdf"):gmatch
    '<fontspec [^>]-size="(%d+)"' do
    least = math.min(least, tonumber(size) / 3)
  end
  lu.assertTrue(least >= LEAST and least < 20, ("least type %.2f points"):format(least))
end

local function assert_same_words(name, svg, page)
  local in_svg, at = words_of_svg(svg)
  local in_pdf, place = words_of_page(page)
  local list = {}
  for word, n in pairs(in_svg) do
    if n ~= in_pdf[word] then
      list[#list + 1] = ("%s %d %s"):format(word, n, in_pdf[word])
    end
  end
  for word, n in pairs(in_pdf) do
    if not in_svg[word] then list[#list + 1] = ("%s 0 %d"):format(word, n) end
  end
  table.sort(list)
  lu.assertEquals(table.concat(list, "; "), "", name .. ": word, times in SVG, in PDF")
  for word, n in pairs(in_svg) do
    -- an upright text stands at its foot, a long one at its beginning: within a text
    if n == 1 then
      local high = math.abs(at[word][2] - place[word][2])
      local wide = math.abs(at[word][1] - place[word][1])
      lu.assertTrue(math.min(high, wide) < 0.12, name .. ": " .. word)
    end
  end
end

function T.test_labels_keep_apart_in_every_kind_of_drawing()
  need("gnuplot", "pdftotext", "pdfunite", "pdftohtml")
  local dir <close> = drawing.folder()
  local list, wrong = drawings(), {}
  draw_all(dir, "pdf", list)
  local names = {}
  for i = 1, #list do names[i] = ("%03d.pdf"):format(i) end
  said_by(dir, ("pdfunite %s all.pdf"):format(table.concat(names, " ")))
  local pages = pages_of(dir)
  lu.assertEquals(#pages, #list)
  for i, page in ipairs(pages) do
    lu.assertTrue(#page > 5, list[i][1])
    local why = touching(page) or outside(page)
    if why then wrong[#wrong + 1] = list[i][1] .. ": " .. why end
  end
  lu.assertEquals(table.concat(wrong, "\n"), "")
  assert_type(dir)
  draw_all(dir, "svg", list)
  for i, page in ipairs(pages) do
    assert_same_words(list[i][1], drawing.read_file(("%s/%03d.svg"):format(dir.path, i)),
      page)
  end
end

-- A joist 13 ft 6 in between the centers of bearings 3-1/2 in long is 165.5 in of wood
-- and 9.25 in deep. Its edge is the longest line along a drawing, or up a section; times
-- the scale that is printed it has to be that long, to 1 %.
local SCALED = {
  {"elevation", plot.elevation, 165.5}, {"layout", layout, 165.5},
  {"overview", plot.overview, 165.5}, {"detail", plot.detail, 165.5, fixed = true},
  {"section", plot.section, 9.25, up = true}, {"plan", plot.floor_plan, 165.5,
    floor = true}, {"key plan", plot.key_plan, 165.5, floor = true},
}
local DOTS = 300

function T.test_printed_scales_are_true()
  need("gnuplot", "pdftoppm", "pdftotext")
  local dir <close> = drawing.folder()
  local scripts = {}
  for i, one in ipairs(SCALED) do
    local subject = one.floor and subjects.plain_floor() or one.fixed
      and subjects.joists.full_far():review() or subjects.joists.uncut():review()
    scripts[i] = assert(one[2](subject, {output = i .. ".pdf"}))
  end
  lu.assertEquals(drawing.run(dir, table.concat(scripts, "\n")), "")
  for i, one in ipairs(SCALED) do
    said_by(dir, ("pdftoppm -gray -r %d -singlefile %d.pdf %d"):format(DOTS, i, i))
    local N = 0                -- of the view with the whole joist: the others are larger
    for said in said_by(dir, ("pdftotext %d.pdf -"):format(i)):gmatch "1:(%d+)" do
      N = math.max(N, tonumber(said))
    end
    local image = raster.pgm(drawing.read_file(("%s/%d.pgm"):format(dir.path, i)))
    local dots = one.up and raster.longest_up(image) or raster.longest(image)
    support.close(dots / DOTS * N, one[3], 0.01, one[1])
  end
end

return T
