-- SPDX-License-Identifier: MIT
-- Moment or shear, or shear over moment, of a joist as it is and, below it on the same
-- places, of each member of the repaired joist against its own capacity.

local forces = require "netsection.plot.forces"
local frame = require "netsection.plot.frame"
local marks = require "netsection.plot.marks"
local recipes = require "netsection.plot.recipes"
local sheet = require "netsection.plot.sheet"
local verdict = require "netsection.verdict"
local words = require "netsection.plot.words"

local lines, switch = words.lines, frame.switch

local repair = {}

local FIRST, OTHER, LOWEST = 1.5, 1.3, 0.8     -- in, heights of frames; at least
local BOTH = 0.8                               -- of that where there are two groups
local CAPTION = 0.2                            -- in, of a frame's name
local EXTENT = 0.16                            -- in, of the bar over the repaired frames
local BAR, TICK = 0.09, 0.035                  -- in, its height there, half an end mark

local KEY = {"full", "before", "moved", "live", "cut", "uncut", "exceeded", "ring",
  "ring_repaired", "extent"}

-- Frames from the top: for each kind the joist as it is, then the repaired members.
-- Each {diagram =, kind =, now = true for the joist as it is, lead = true for the first
-- repaired one below it}.
local function panels_of(given, kinds)
  local list = {}
  for _, kind in ipairs(kinds) do
    local first = forces.read(given, kind)
    first.both = #kinds > 1
    list[#list + 1] = {diagram = first, kind = kind, now = true}
    for i, diagram in ipairs(given.fixed and given.fixed.members
      and forces.repaired(given, kind, first) or {}) do
      diagram.both = #kinds > 1
      list[#list + 1] = {diagram = diagram, kind = kind, lead = i == 1}
    end
  end
  return list
end

local function any(panels, field)
  for _, p in ipairs(panels) do
    if p.diagram[field] then return p.diagram[field] end
  end
  return false
end

-- What governs in a state, if it stands on one of its frames.
local function ring_of(panels, now)
  for _, p in ipairs(panels) do
    local governing = (p.now or false) == now and forces.ring(p.diagram)
    if governing then return governing end
  end
end

local function governs_in(state, governing, show, repaired)
  if not governing then return nil end
  return ("governs, %s: %s"):format(state,
    forces.governing_words(governing, show, repaired))
end

local function key_texts(panels, fixed, damaged)
  local show, first = panels[1].kind.show, panels[1].diagram
  local whole = first.given.severed and (fixed
    and "; before the repair that of the whole joist" or " of the whole joist") or ""
  local ticks = fixed and fixed.stations and #fixed.stations > 0
    and "; ticks: rows or groups of fasteners" or ""
  return {
    full = "full load, all live" .. whole,
    before = fixed and "full load, before the repair",
    moved = any(panels, "moved") and "full load, if the joist were uncut",
    live = "live load positioned for maximum effect",
    cut = frame.capacity(fixed and (fixed.trial and "capacity of what would be there"
      or "capacity of what is there") or damaged and "capacity, cut"
      or "capacity", {lost = any(panels, "lost")}),
    uncut = damaged and "capacity, uncut",
    exceeded = any(panels, "exceeded") and "demand above the capacity",
    ring = governs_in("as it is", ring_of(panels, true), show),
    ring_repaired = governs_in(fixed and fixed.trial and "trial, not to be built"
      or "repaired", ring_of(panels, false), show, true),
    extent = fixed and (fixed.trial and "extent of a trial, not to be built"
      or "extent of the repair") .. ticks,
  }
end

---------------------------------------------------------------------------
-- Layout
---------------------------------------------------------------------------

-- Heights of what stands between frame i and the one above it.
local function gap(panel, i)
  if i == 1 then return 0 end
  return frame.foot + 0.06 + CAPTION + (panel.lead and EXTENT + CAPTION or 0)
end

-- Heights of the frames by default, shrunk or stretched to a height that was asked for.
local function heights(panels, around, page)
  local share, default = panels[1].kind ~= panels[#panels].kind and BOTH or 1, 0
  for _, p in ipairs(panels) do default = default + share * (p.now and FIRST or OTHER) end
  page.height = page.height or around + default
  local problem = frame.too_low(page, around + default * LOWEST / OTHER)
  if problem then return nil, problem end
  share = share * (page.height - around) / default
  local list = {}
  for i, p in ipairs(panels) do list[i] = (p.now and FIRST or OTHER) * share end
  return list
end

local function lay_out(panels, cuts, key, governs, page)
  local first = panels[1].diagram
  frame.wrap(cuts, first.both and 2 or 1, page)
  local rows, bottom = frame.stack(cuts, KEY, key)
  local levels = marks.levels(cuts, 0.004 * forces.span(first))
  local head = frame.head(governs)
  local above = frame.above(cuts, levels) + head + CAPTION
  local around = bottom + above
  for i, panel in ipairs(panels) do around = around + gap(panel, i) end
  local list, problem = heights(panels, around, page)
  if not list then return nil, problem end
  local frames, y = {}, page.height - above
  for i, height in ipairs(list) do
    local top = y - gap(panels[i], i)
    frames[i] = {top = top, bottom = top - height, levels = levels}
    y = top - height
  end
  return {
    rows = rows, frames = frames, head = head, governs = governs,
    lettered = marks.place(cuts, first, page.width - frame.left - frame.right),
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

-- Over the first frame of a second kind: what it shows.
local function now_caption(panel, both)
  local d = panel.diagram
  local name = both and ("%s (%s), as it is"):format(panel.kind.heading, panel.kind.sign)
    or "As it is"
  if d.given.severed then name = name .. ", of the whole joist" end
  return name .. forces.reading(d, "low", "high")
end

-- Over a frame of the repaired state, upwards: bar, name of the member, title.
local function extent_of(panel, fixed, page, at)
  if panel.now then return "" end
  local bar, room = panel.lead, (page.width - frame.left - frame.right) / sheet.cell
  local top = at.top + (bar and EXTENT or 0)
  local list = {
    extent_lines(fixed, page, at, bar and at.top + BAR or at.top),
    caption(name_of(panel.diagram), page, top + CAPTION / 2),
  }
  if bar then
    list[3] = extent_bar(fixed, page, at.top + BAR)
    list[4] = caption((fixed.trial and verdict.not_built or "Repaired") .. ": "
      .. words.of(fixed.title, room - (fixed.trial and 24 or 10)), page,
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
    forces.block("cut", diagram.cut, diagram.kind),
    forces.block("other", diagram.uncut or diagram.before or {{
      x = 0, full = 0, low = 0, high = 0, cap = 0, cap_low = 0,
    }}, diagram.kind),
    forces.ring_block(diagram),
  }
end

repair.facts_of, repair.data_of = facts_of, data_of

local function frame_of(panels, i, fixed, cuts, page, at)
  local panel, last = panels[i], i == #panels
  local diagram = panel.diagram
  return lines {
    frame.axes(diagram, at.top - at.bottom),
    "set format x " .. (last and "'%g'" or "''"),
    ("set ylabel '%s, %s' noenhanced"):format(diagram.kind.letter, diagram.kind.unit),
    frame.margins(page, at.bottom, at.top),
    frame.supports(diagram, page, at.bottom),
    i == 1 and frame.cuts(diagram, cuts, page, at)
      or frame.edges(cuts, page, at.bottom, at.top),
    frame.lost(diagram, at.top - at.bottom, frame.inch(diagram, page)),
    frame.ratio(diagram, frame.inch(diagram, page)),
    i > 1 and panel.now and caption(now_caption(panel, true), page, at.top + CAPTION / 2)
      or extent_of(panel, fixed, page, at),
  }
end

local function panel_name(panels, i)
  local number = 0
  if panels[i].now then return panels[i].kind.name .. ", as it is" end
  for k = i, 1, -1 do
    if panels[k].now then break end
    number = number + 1
  end
  return ("%s, member %d of the repaired joist"):format(panels[i].kind.name, number)
end

local function panels_part(panels, fixed, cuts, page, frames)
  local list = {}
  for i, panel in ipairs(panels) do
    list[i] = recipes.fill(recipes.of "panel", {
      NAME = panel_name(panels, i),
      DATA = data_of(panel.diagram), FACTS = facts_of(panel.diagram, #cuts > 0),
      FRAME = frame_of(panels, i, fixed, cuts, page, frames[i]),
    })
  end
  return lines(list)
end

---------------------------------------------------------------------------
-- The whole
---------------------------------------------------------------------------

local function title_of(panels)
  local first = panels[1].diagram
  if panels[1].kind == panels[#panels].kind then
    return frame.heading(first) .. " (" .. first.kind.sign .. ")"
  end
  local mark = words.of(first.given.mark, 30)
  return "Shear and moment" .. (mark ~= "" and ", joist " .. mark or "")
end

local function words_part(panels, cuts, key, page, at)
  local first, rows, list = panels[1].diagram, at.rows, {}
  for _, p in ipairs(panels) do
    if p.now then list[#list + 1] = p.diagram end
  end
  return lines {
    frame.axis_title(page, rows.axis),
    sheet.titles(page, page.title or title_of(panels), first.given.title,
      table.unpack(at.governs)),
    caption(now_caption(panels[1], #list > 1), page, page.height - at.head - 0.1),
    frame.key(page, KEY, key, rows), frame.list(list, cuts, page, rows, at.lettered),
    sheet.label(sheet.note, sheet.at(page, sheet.margin, rows.note)),
  }
end

local function facts_part(panels, key, damaged, page, rows)
  return lines {
    switch("any_moved", any(panels, "moved")), switch("any_damaged", damaged),
    switch("any_exceeded", key.exceeded), switch("any_ringed", key.ring),
    switch("repaired_ringed", key.ring_repaired), switch("any_repaired", key.extent),
    frame.key_facts(page, KEY, rows),
    "key_tick = " .. sheet.up(page, TICK),
  }
end

-- The places that all frames show: members may stand past the ends of the joist.
local function widen(panels)
  local start, finish = panels[1].diagram.start, panels[1].diagram.finish
  for _, panel in ipairs(panels) do
    for _, p in ipairs(panel.diagram.cut) do
      start, finish = math.min(start, p.x), math.max(finish, p.x)
    end
  end
  for _, p in ipairs(panels) do p.diagram.start, p.diagram.finish = start, finish end
end

-- Script, or nil and what is wrong with the options.
-- @param kinds one kind of forces, or the two in the order of their frames
function repair.script(given, kinds, page)
  local fixed, cuts = given.fixed, marks.sorted(given)
  local panels = panels_of(given, kinds)
  widen(panels)
  local key = key_texts(panels, fixed, #cuts > 0)
  local at, problem = lay_out(panels, cuts, key, frame.governs(given, page.show), page)
  if not at then return nil, problem end
  return recipes.fill(recipes.of "repair", {
    PAGE = sheet.setup(page),
    FACTS = facts_part(panels, key, #cuts > 0, page, at.rows),
    WORDS = words_part(panels, cuts, key, page, at),
    PANELS = panels_part(panels, fixed, cuts, page, at.frames),
    CLOSE = page.output and "unset output" or "",
  })
end

return repair
