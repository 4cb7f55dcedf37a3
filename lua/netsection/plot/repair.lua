-- SPDX-License-Identifier: MIT
-- Moment or shear of a joist as it is and, below it on the same places, of each member
-- of the repaired joist against its own capacity.

local forces = require "netsection.plot.forces"
local frame = require "netsection.plot.frame"
local marks = require "netsection.plot.marks"
local recipes = require "netsection.plot.recipes"
local sheet = require "netsection.plot.sheet"
local words = require "netsection.plot.words"

local lines, switch = words.lines, frame.switch

local repair = {}

local FIRST, OTHER, LOWEST = 1.9, 1.55, 0.8    -- in, heights of frames; at least
local CAPTION = 0.2                            -- in, of a frame's name
local EXTENT = 0.16                            -- in, of the bar over the repaired frames
local BAR, TICK = 0.09, 0.035                  -- in, its height there, half an end mark

local KEY = {"full", "before", "moved", "live", "cut", "uncut", "exceeded", "ring",
  "ring_repaired", "extent"}

local function any(diagrams, field)
  for _, diagram in ipairs(diagrams) do
    if diagram[field] then return true end
  end
  return false
end

-- What governs after the repair, if it stands on one of the frames.
local function repaired_ring(diagrams)
  for i = 2, #diagrams do
    local governing = forces.ring(diagrams[i])
    if governing then return governing end
  end
end

local function governs(state, governing)
  if not governing then return nil end
  return ("governs, %s: %s"):format(state, forces.governing_words(governing))
end

local function key_texts(diagrams, fixed, damaged)
  local ticks = fixed.stations and #fixed.stations > 0
    and "; ticks: rows or groups of fasteners" or ""
  return {
    full = "full load, all live",
    before = "full load, before the repair",
    moved = diagrams[1].moved and "full load, if the joist were uncut",
    live = "live load placed for the greatest effect",
    cut = "capacity of what is there", uncut = damaged and "capacity, uncut",
    exceeded = any(diagrams, "exceeded") and "demand above the capacity",
    ring = governs("as it is", forces.ring(diagrams[1])),
    ring_repaired = governs("repaired", repaired_ring(diagrams)),
    extent = "extent of the repair" .. ticks,
  }
end

-- What governs and stands on none of the frames.
local function elsewhere(diagrams, fixed)
  local texts = {}
  local now = diagrams[1].governing
  if now and not forces.ring(diagrams[1]) then
    texts.now = "As it is: " .. forces.governing_words(now)
  end
  local later = fixed.governing
  if later and not repaired_ring(diagrams) then
    local member = words.of(later.member, 30)
    texts.repaired = "Repaired" .. (member ~= "" and ", " .. member or "") .. ": "
      .. forces.governing_words(later)
  end
  return texts
end

---------------------------------------------------------------------------
-- Layout
---------------------------------------------------------------------------

-- Heights of what stands between frame i and the one above it.
local function gap(i)
  if i == 1 then return 0 end
  return frame.foot + 0.06 + CAPTION + (i == 2 and EXTENT + CAPTION or 0)
end

-- Heights of the frames by default, shrunk or stretched to a height that was asked for.
local function heights(count, around, page)
  local default = FIRST + (count - 1) * OTHER
  page.height = page.height or around + default
  local share = (page.height - around) / default
  local problem = frame.too_low(page, around + default * LOWEST / OTHER)
  local list = {}
  for i = 1, count do list[i] = (i == 1 and FIRST or OTHER) * share end
  return not problem and list or nil, problem
end

local function lay_out(diagrams, cuts, key, missing, page)
  local more = {}
  for _, name in ipairs {"repaired", "now"} do
    if missing[name] then more[#more + 1] = name end
  end
  if more[1] then more[#more + 1] = "missing" end
  local rows, bottom = frame.stack(cuts, KEY, key, more)
  local levels = marks.levels(cuts, 0.004 * forces.span(diagrams[1]))
  local above = frame.above(cuts, levels) + frame.titles + CAPTION
  local around = bottom + above
  for i = 1, #diagrams do around = around + gap(i) end
  local list, problem = heights(#diagrams, around, page)
  if not list then return nil, problem end
  local frames, y = {}, page.height - above
  for i, height in ipairs(list) do
    local top = y - gap(i)
    frames[i] = {top = top, bottom = top - height, levels = levels}
    y = top - height
  end
  return {
    rows = rows, frames = frames,
    lettered = marks.place(cuts, diagrams[1], page.width - frame.left - frame.right),
  }
end

---------------------------------------------------------------------------
-- Frames
---------------------------------------------------------------------------

local function caption(text, page, y)
  return sheet.label(text, sheet.at(page, frame.left, y))
end

-- Bar over the repaired frames with end marks, and a tick at each station.
local function extent_bar(fixed, page, y)
  local function up(x, height)
    return frame.along(page, x, height)
  end
  local list = {sheet.line(up(fixed.x1, y), up(fixed.x2, y), "lw 2.4")}
  for _, x in ipairs {fixed.x1, fixed.x2} do
    list[#list + 1] = sheet.line(up(x, y - TICK), up(x, y + TICK), "lw 1.6")
  end
  for _, station in ipairs(fixed.stations or {}) do
    local x = type(station) == "table" and station.x or station
    list[#list + 1] = sheet.line(up(x, y - 0.05), up(x, y), "lw 0.8")
  end
  return lines(list)
end

local END = "lw 1.0 dashtype (24,7,5,7) lc rgb '#000000' front"

-- The ends of the repair, down through a frame.
local function extent_lines(fixed, page, at, top)
  local list = {}
  for i, x in ipairs {fixed.x1, fixed.x2} do
    list[i] = sheet.line(frame.along(page, x, at.bottom), frame.along(page, x, top), END)
  end
  return lines(list)
end

-- With its capacity where that would be far above the frame.
local function name_of(diagram)
  local beyond = diagram.beyond and ("; capacity %s %s or more, beyond the frame"):format(
    forces.shown(diagram.beyond), diagram.kind.unit) or ""
  return words.of(diagram.name, 40) .. forces.reading(diagram, "low", "high") .. beyond
end

-- Over a frame of the repaired state, upwards: bar, name of the member, title.
local function extent_of(diagram, i, fixed, page, at)
  if i == 1 then return "" end
  local bar, room = i == 2, (page.width - frame.left - frame.right) / sheet.cell
  local top = at.top + (bar and EXTENT or 0)
  local list = {
    extent_lines(fixed, page, at, bar and at.top + BAR or at.top),
    caption(name_of(diagram), page, top + CAPTION / 2),
  }
  if bar then
    list[3] = extent_bar(fixed, page, at.top + BAR)
    list[4] = caption("Repaired: " .. words.of(fixed.title, room - 10), page,
      top + 1.5 * CAPTION)
  end
  return lines(list)
end

local function facts_of(diagram, damaged)
  return lines {
    switch("damaged", damaged and diagram.uncut), switch("moved", diagram.moved),
    switch("repaired", diagram.before), switch("hogging", diagram.hogging),
    switch("exceeded", diagram.exceeded), switch("ringed", forces.ring(diagram)),
  }
end

local function data_of(diagram)
  return lines {
    forces.block("cut", diagram.cut),
    forces.block("other", diagram.uncut or diagram.before or {{
      x = 0, full = 0, low = 0, high = 0, cap = 0, cap_low = 0,
    }}),
    forces.ring_block(diagram),
  }
end

local function frame_of(diagrams, i, fixed, cuts, page, at)
  local diagram, last = diagrams[i], i == #diagrams
  return lines {
    frame.axes(diagram, at.top - at.bottom),
    "set format x " .. (last and "'%g'" or "''"),
    ("set ylabel '%s, %s' noenhanced"):format(diagram.kind.letter, diagram.kind.unit),
    frame.margins(page, at.bottom, at.top),
    frame.supports(diagram, page, at.bottom),
    i == 1 and frame.cuts(diagram, cuts, page, at)
      or frame.edges(cuts, page, at.bottom, at.top),
    extent_of(diagram, i, fixed, page, at),
  }
end

local function panels_part(diagrams, fixed, cuts, page, frames)
  local list = {}
  for i, diagram in ipairs(diagrams) do
    list[i] = recipes.fill(recipes.of "panel", {
      NAME = i == 1 and "as it is" or ("member %d of the repaired joist"):format(i - 1),
      DATA = data_of(diagram), FACTS = facts_of(diagram, #cuts > 0),
      FRAME = frame_of(diagrams, i, fixed, cuts, page, frames[i]),
    })
  end
  return lines(list)
end

---------------------------------------------------------------------------
-- The whole
---------------------------------------------------------------------------

local function notes_part(missing, page, rows)
  local list = {sheet.label(sheet.note, sheet.at(page, sheet.margin, rows.note))}
  local function add(name, text)
    if rows[name] then
      list[#list + 1] = sheet.label(text, sheet.at(page, sheet.margin, rows[name]))
    end
  end
  add("missing", "Governs, but is not on this diagram:")
  add("now", missing.now)
  add("repaired", missing.repaired)
  return lines(list)
end

local function words_part(diagrams, cuts, key, missing, page, at)
  local first, rows = diagrams[1], at.rows
  local title = page.title or frame.heading(first) .. " (" .. first.kind.sign .. ")"
  return lines {
    frame.axis_title(page, rows.axis), sheet.titles(page, title, first.given.title),
    caption("As it is" .. forces.reading(first, "low", "high"), page,
      page.height - frame.titles - 0.1),
    frame.key(page, KEY, key, rows), frame.list(first, cuts, page, rows, at.lettered),
    notes_part(missing, page, rows),
  }
end

local function facts_part(diagrams, key, damaged, page, rows)
  return lines {
    switch("any_moved", diagrams[1].moved), switch("any_damaged", damaged),
    switch("any_exceeded", key.exceeded), switch("any_ringed", key.ring),
    switch("repaired_ringed", key.ring_repaired),
    frame.key_facts(page, KEY, rows),
    "key_tick = " .. sheet.up(page, TICK),
  }
end

-- The places that all frames show: members may stand past the ends of the joist.
local function widen(diagrams)
  local start, finish = diagrams[1].start, diagrams[1].finish
  for _, diagram in ipairs(diagrams) do
    for _, p in ipairs(diagram.cut) do
      start, finish = math.min(start, p.x), math.max(finish, p.x)
    end
  end
  for _, diagram in ipairs(diagrams) do diagram.start, diagram.finish = start, finish end
end

-- Script, or nil and what is wrong with the options.
function repair.script(given, kind, page)
  local fixed, cuts = given.fixed, marks.sorted(given)
  local first = forces.read(given, kind)
  local diagrams = {first, table.unpack(forces.repaired(given, kind, first))}
  widen(diagrams)
  local key = key_texts(diagrams, fixed, #cuts > 0)
  local missing = elsewhere(diagrams, fixed)
  local at, problem = lay_out(diagrams, cuts, key, missing, page)
  if not at then return nil, problem end
  return recipes.fill(recipes.of "repair", {
    PAGE = sheet.setup(page),
    FACTS = facts_part(diagrams, key, #cuts > 0, page, at.rows),
    WORDS = words_part(diagrams, cuts, key, missing, page, at),
    PANELS = panels_part(diagrams, fixed, cuts, page, at.frames),
    CLOSE = page.output and "unset output" or "",
  })
end

return repair
