-- SPDX-License-Identifier: MIT
-- The frame of a diagram of moment or shear and what stands around it: axes, supports,
-- marks of the cuts above, key and list of cuts below. A frame is {bottom, top, levels}
-- on its page, heights in inches of paper.

local forces = require "netsection.plot.forces"
local sheet = require "netsection.plot.sheet"
local units = require "netsection.units"
local words = require "netsection.plot.words"

local label, line, lines = sheet.label, sheet.line, words.lines

local frame = {
  left = 0.83, right = 0.2, titles = 0.47,     -- room beside and above a frame
  sample = 0.4,                                -- of a line, in the key
  bar = 0.06, leader = 0.16,                   -- of the marks of cuts
  foot = 0.1,                                  -- height of a support
}

-- Above or below a frame at a place along the joist.
function frame.along(page, x, y)
  return forces.along(x, page.show) .. ",screen " .. sheet.up(page, y)
end

-- Room above the frame for the marks of cuts.
function frame.above(cuts, levels)
  return #cuts == 0 and 0.04 or frame.bar * levels + frame.leader + 0.22
end

---------------------------------------------------------------------------
-- Axes
---------------------------------------------------------------------------

local function number(v)
  return units.significant(v, 6)
end

-- 1, 2 or 5 times a power of ten, for about six intervals.
function frame.tic_step(range)
  local power = 10 ^ math.floor(math.log(range / 8, 10))
  for _, m in ipairs {1, 2, 5} do
    if m * power >= range / 8 then return m * power end
  end
  return 10 * power
end

function frame.y_range(diagram)
  local high, low = 0, 0
  for _, points in ipairs {diagram.cut, diagram.uncut or diagram.before} do
    for _, p in ipairs(points) do
      local cap = diagram.beyond and 0 or p.cap
      local cap_low = diagram.hogging and not diagram.beyond and p.cap_low or 0
      high = math.max(high, p.high, p.full, cap)
      low = math.min(low, p.low, p.full, cap_low)
    end
  end
  if high == low then high = 1 end
  local room = 0.05 * (high - low)
  return diagram.hogging and low - room or 0, high + room
end

-- Between the numbers along the joist: a foot or two, half a meter or one.
function frame.along_step(span, show)
  local long = span / show.sums.length
  local close, wide = 16, 34
  if not show.tape then close, wide = 8, 16 end
  local one = show.tape and 1 or 0.5
  return long <= close and one or long <= wide and 2 * one or frame.tic_step(long)
end

-- Numbers along a low frame stand further apart.
function frame.axes(diagram, height)
  local low, high = frame.y_range(diagram)
  local show = diagram.kind.show
  local step = frame.along_step(forces.span(diagram), show)
  local y_step = frame.tic_step((high - low) * math.max(1, 1.4 / height))
  local pad = 0.015 * forces.span(diagram)
  return lines {
    ("set xrange [%s:%s]"):format(forces.along(diagram.start - pad, show),
      forces.along(diagram.finish + pad, show)),
    ("set yrange [%s:%s]"):format(number(low), number(high)),
    ("set xtics %s nomirror out scale 0.5 offset 0,-0.3"):format(number(step)),
    ("set ytics %s nomirror out scale 0.5"):format(number(y_step)),
    ("set format y '%%.%df'"):format(math.max(0, -math.floor(math.log(y_step, 10)))),
    "set format x '%g'",
    "set grid ytics lt 1 lw 0.5 lc rgb '#DADADA'",
    "set border 15 lw 0.8",
    "set xzeroaxis lt 1 lw 0.8 lc rgb '#000000'",
  }
end

function frame.margins(page, bottom, top)
  return lines {
    "set lmargin at screen " .. units.fixed(frame.left / page.width, 5),
    "set rmargin at screen " .. units.fixed(1 - frame.right / page.width, 5),
    "set bmargin at screen " .. sheet.up(page, bottom),
    "set tmargin at screen " .. sheet.up(page, top),
  }
end

--- Inches of the joist to an inch of paper along a frame.
function frame.inch(diagram, page)
  return 1.03 * forces.span(diagram) / (page.width - frame.left - frame.right)
end

function frame.axis_title(page, y)
  return label("x from the center of the left bearing, " .. page.show.sums.unit,
    sheet.at(page, (frame.left + page.width - frame.right) / 2, y), "center")
end

---------------------------------------------------------------------------
-- Supports and cuts
---------------------------------------------------------------------------

-- Triangles that touch the frame from below.
function frame.supports(diagram, page, bottom)
  local list, half = {}, 0.009 * forces.span(diagram)
  for i, x in ipairs(diagram.supports) do
    local foot = bottom - frame.foot
    list[i] = ("set object polygon from %s to %s to %s to %s noclip "
      .. "fillcolor rgb '#000000' fillstyle solid 1.0"):format(
      frame.along(page, x, bottom), frame.along(page, x - half, foot),
      frame.along(page, x + half, foot), frame.along(page, x, bottom))
  end
  return lines(list)
end

local EDGE = "lw 0.8 dashtype (3,4) lc rgb '#303030' front"

-- Dotted lines at the edges of a cut, from the foot of its frame up.
local function edges(cut, page, bottom, top)
  local list = {}
  for i, x in ipairs {cut.left, cut.right} do
    list[i] = line(frame.along(page, x, bottom), frame.along(page, x, top), EDGE)
  end
  return lines(list)
end

-- Also a bar above the frame, and a leader to the mark.
local function cut_marks(cut, page, at)
  local y = at.top + frame.bar * cut.level
  local foot = at.top + frame.bar * at.levels + 0.04
  local head = foot + frame.leader
  local function up(x, height)
    return frame.along(page, x, height)
  end
  return lines {
    edges(cut, page, at.bottom, y),
    line(up(cut.left, y), up(cut.right, y), "lw 4"),
    line(up(cut.at, y), up(cut.at, foot), "lw 0.7"),
    line(up(cut.at, foot), up(cut.mark_x, head), "lw 0.7"),
    label(cut.mark, up(cut.mark_x, head + 0.08), "center"),
  }
end

-- A text on white ground in a frame. @param inch of paper, in inches of the joist
local function on_ground(text, diagram, x, y, how, inch)
  local show = diagram.kind.show
  local w, off = sheet.ground_of(text, how)
  return lines {
    sheet.ground(forces.along(x + off * inch, show) .. "," .. y,
      forces.along(w * inch, show) .. ",character 0.95"),
    label(text, forces.along(x, show) .. "," .. y, how .. " front"),
  }
end

-- Beside the gap, on the side with more room.
local function severed_label(cut, diagram, inch)
  local low, high = frame.y_range(diagram)
  local right = cut.at * 2 < diagram.start + diagram.finish
  local x = right and cut.right + 0.06 * inch or cut.left - 0.06 * inch
  return on_ground("severed", diagram, x, number(0.045 * (high - low)),
    right and "left" or "right", inch)
end

function frame.cuts(diagram, cuts, page, at)
  local list, inch = {}, frame.inch(diagram, page)
  for _, cut in ipairs(cuts) do
    list[#list + 1] = cut_marks(cut, page, at)
    if cut.severed then list[#list + 1] = severed_label(cut, diagram, inch) end
  end
  return lines(list)
end

-- The edges alone, in a frame below that of the marks.
function frame.edges(cuts, page, bottom, top)
  local list = {}
  for i, cut in ipairs(cuts) do list[i] = edges(cut, page, bottom, top) end
  return lines(list)
end

---------------------------------------------------------------------------
-- What governs, and the repetitive factor
---------------------------------------------------------------------------

local OFF = 0.12           -- in, from a ring to its ratio
local HIGH = 0.15          -- in, of a line of text in a frame

local function ratio_box(diagram, mark, inch)
  local right = mark.x * 2 < diagram.start + diagram.finish
  local w = (words.width(mark.text) + 1) * sheet.cell * inch
  local from = mark.x + (right and OFF or -OFF) * inch
  return right, right and from or from - w, right and from + w or from
end

--- The ratio beside the ring of what governs.
-- @param inch of paper, in inches of the joist
function frame.ratio(diagram, inch)
  local mark = forces.mark(diagram)
  if not mark then return "" end
  local right = ratio_box(diagram, mark, inch)
  return on_ground(mark.text, diagram, mark.x + (right and OFF or -OFF) * inch,
    units.fixed(mark.y, diagram.kind.digits), right and "left" or "right", inch)
end

-- The least capacity and the greatest demand between two places; nil where the capacity
-- changes there.
local function over(points, a, b)
  local cap, demand
  for i = 2, #points do
    local p, q = points[i - 1], points[i]
    if q.x > a and p.x < b and not q.apart then
      for _, point in ipairs {p, q} do
        if cap and math.abs(point.cap - cap) > 1e-3 * math.abs(cap) then return nil end
        cap = point.cap
        demand = math.max(demand or 0, point.high, point.full)
      end
    end
  end
  return cap, demand
end

-- Places that the ratio of what governs takes, from and to; nil where it has none here.
local function ratio_extent(diagram, inch)
  local mark = forces.mark(diagram)
  if not mark then return nil end
  local _, from, to = ratio_box(diagram, mark, inch)
  return math.min(from, mark.x), math.max(to, mark.x)
end

--- Where the line drops because the repetitive factor is lost: its words under the line,
-- at the place with most room; "" where it has none, and the key alone says it.
-- @param height of the frame, in; inch as above
function frame.lost(diagram, height, inch)
  if not diagram.lost then return "" end
  local text = ("Cr %s lost"):format(units.significant(diagram.lost, 3))
  local low, high = frame.y_range(diagram)
  local tall = HIGH * (high - low) / height
  local w = (words.width(text) + 1) * sheet.cell * inch
  local m1, m2 = ratio_extent(diagram, inch)
  local best
  for i = 0, 20 do
    local a = diagram.start + (diagram.finish - diagram.start - w) * i / 20
    local cap, demand = over(diagram.cut, a, a + w)
    local room = cap and cap - demand or 0
    local apart = not m1 or a > m2 or a + w < m1
    if apart and room > 1.3 * tall and (not best or room > best.room + 1e-6) then
      best = {room = room, x = a, y = cap - 0.72 * tall}
    end
  end
  if not best then return "" end
  return on_ground(text, diagram, best.x + w / 2,
    units.fixed(best.y, diagram.kind.digits), "center", inch)
end

--- What the line of capacity stands for, and what it has lost.
function frame.capacity(said, diagram)
  if not diagram.lost then return said end
  return ("%s; the repetitive factor Cr %s is lost by the cuts"):format(said,
    units.significant(diagram.lost, 3))
end

--- "Governs as it is: ..." and, of a repair, the same; lines under the title.
function frame.governs(given, show)
  local list, fixed = {}, given.fixed
  fixed = fixed and fixed.members[1] and fixed or nil
  local function add(head, g, repaired)
    list[#list + 1] = head .. ": " .. forces.governing_words(g, show, repaired)
  end
  if given.severed then
    list[1] = "As it is: no capacity, " .. words.of(given.stopped or "cut through", 40)
  elseif given.governing then
    add(fixed and "Governs, as it is" or "Governs", given.governing)
  end
  if fixed and fixed.governing then
    add(fixed.trial and "Governs, trial, not to be built" or "Governs, repaired",
      fixed.governing, true)
  end
  return list
end

--- Paper that the titles take with those lines.
function frame.head(governs)
  return frame.titles + #governs * sheet.row
end

---------------------------------------------------------------------------
-- Words around the frame
---------------------------------------------------------------------------

function frame.heading(diagram, title)
  local mark = words.of(diagram.given.mark, 30)
  return title or diagram.kind.heading .. (mark ~= "" and ", joist " .. mark or "")
end

-- `texts` by name, at the heights `rows` of the same names.
function frame.key(page, names, texts, rows)
  local list = {}
  for _, name in ipairs(names) do
    if texts[name] then
      list[#list + 1] = label(texts[name],
        sheet.at(page, sheet.margin + frame.sample + 0.1, rows[name]))
    end
  end
  return lines(list)
end

-- Where the recipe draws the samples of the key.
function frame.key_facts(page, names, rows)
  local list = {
    "key_left = " .. units.fixed(sheet.margin / page.width, 5),
    "key_right = " .. units.fixed((sheet.margin + frame.sample) / page.width, 5),
    "key_half = " .. units.fixed(0.3 * sheet.row / page.height, 5),
  }
  for _, name in ipairs(names) do
    local y = rows[name]
    if y then list[#list + 1] = ("%s_row = %s"):format(name, sheet.up(page, y)) end
  end
  return lines(list)
end

function frame.switch(name, on)
  return ("%s = %d"):format(name, on and 1 or 0)
end

local function capacity_words(cut, diagram)
  local least = forces.shown(forces.least_over(diagram.cut, cut, "cap"))
  if not diagram.hogging or diagram.kind.both_signs then return least end
  return least .. " / " .. forces.shown(forces.least_over(diagram.cut, cut, "cap_low"))
end

local function place_words(cut, show)
  local from, to = show.place(cut.x1), show.place(cut.x2)
  return from == to and from or from .. " to " .. to
end

-- In: columns of place and kind, by the number of capacities; a second capacity's column.
local WHERE, WHAT, CAPACITY = {1.65, 1.2}, {3.45, 2.7}, 1.05

-- A row of the list of cuts; without a letter the name moves to the margin. Capacities
-- stand at the right, from the right edge inwards.
local function row(page, y, mark, cells)
  local margin = sheet.margin
  local list = {
    label(cells[1], sheet.at(page, mark and 0.37 or margin, y)),
    label(cells[2], sheet.at(page, WHERE[#cells - 3], y)),
    label(cells[3], sheet.at(page, WHAT[#cells - 3], y)),
  }
  for i = #cells, 4, -1 do
    local right = page.width - frame.right - (#cells - i) * CAPACITY
    list[#list + 1] = label(cells[i], sheet.at(page, right, y), "right")
  end
  if mark then list[#list + 1] = label(mark, sheet.at(page, margin, y)) end
  return lines(list)
end

local function capacity_heading(diagrams)
  if #diagrams == 1 then return {"Least capacity, " .. diagrams[1].kind.unit} end
  local heads = {}
  for i, d in ipairs(diagrams) do
    heads[i] = ("Least %s, %s"):format(d.kind.letter, d.kind.unit)
  end
  return heads
end

--- What each cut is, in lines that fit beside `count` columns of capacities.
function frame.wrap(cuts, count, page)
  local room = page.width - frame.right - WHAT[count] - 0.95 - (count - 1) * CAPACITY
  for _, cut in ipairs(cuts) do
    cut.what = words.wrapped(words.of(cut.label, 120), room / sheet.cell)
  end
end

-- Heights of the rows are rows.heading and rows[1 ...].
-- @param diagrams those whose least capacities over the cuts are listed
function frame.list(diagrams, cuts, page, rows, lettered)
  if #cuts == 0 then return "" end
  local list = {row(page, rows.heading, lettered and "", {
    "Cut", "Where", "What", table.unpack(capacity_heading(diagrams)),
  })}
  for i, cut in ipairs(cuts) do
    local cells = {cut.name, place_words(cut, page.show), cut.what[1]}
    for k, d in ipairs(diagrams) do cells[3 + k] = capacity_words(cut, d) end
    list[#list + 1] = row(page, rows[i], lettered and cut.mark, cells)
    for n = 2, #cut.what do
      list[#list + 1] = label(cut.what[n], sheet.at(page, WHAT[#diagrams],
        rows[i] - (n - 1) * sheet.row))
    end
  end
  return lines(list)
end

---------------------------------------------------------------------------
-- Heights below a frame
---------------------------------------------------------------------------

-- From the foot of the page upwards: note, list of cuts, key. Returns the heights by
-- name, and that of the lowest frame's bottom.
function frame.stack(cuts, names, texts)
  local rows, y = {note = 0.13}, 0.13
  y = y + 1.4 * sheet.row
  for i = #cuts, 1, -1 do
    y = y + #cuts[i].what * sheet.row
    rows[i] = y - sheet.row
  end
  if #cuts > 0 then
    rows.heading, y = y, y + 1.5 * sheet.row
  end
  for i = #names, 1, -1 do
    if texts[names[i]] then
      rows[names[i]], y = y, y + sheet.row
    end
  end
  rows.axis = y + 0.06
  return rows, rows.axis + 0.42
end

-- What is wrong with a height that the page was given, or nil.
function frame.too_low(page, least)
  if page.height >= least then return nil end
  return ("size: the height must be at least %s for what is below the frame")
    :format(page.show.length(math.ceil(least * 10) / 10, 1))
end

return frame
