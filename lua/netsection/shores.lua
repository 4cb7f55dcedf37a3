-- SPDX-License-Identifier: MIT
-- Load on temporary shores. A line of shores stands on each side of what is to be
-- repaired and runs under the joists beside it. A joist cut through is two stubs, each on
-- its bearing and its shore, and half the gap's load goes to each:
-- R = w c^2 / (2 x_s), c from the bearing to the middle of the gap. A joist that holds
-- runs on over its bearings and the shores. Statics; the live load during the work is
-- the user's.
local model = require "netsection.model"
local pieces = require "netsection.pieces"
local point = require "netsection.point"
local roof_loads = require "netsection.roof_loads"

local shores = {}

-- A shore is assumed so far beyond the cut, in (ours; give shores = {at = ...}).
local CLEAR = 12
-- Reactions of one piece a..b on places {x, ...} inside it, with `live` psf on the floor.
local function reactions(m, a, b, places, live)
  return pieces.beam(m, a, b, places, pieces.loads(m, a, b, places[1], "dead", live))
    :reactions()
end

local function refused(why)
  return {supports = {}, notes = {}, refused = why}
end

-- Whether a joist that is out is in one piece: what holds at its bearings is not known.
local function may_hang(r)
  if not r.joist.description.out then return false end
  for _, c in ipairs(r.cuts or {}) do
    if c.gate == 6 then return false end
  end
  return true
end

-- A joist that is said to be out may stand on its shores alone: each shore is given the
-- larger of what it carries with the bearings and without them. A shore that lifts
-- without them says that the joist tips.
local function without_bearings(m, list, piece, live, s)
  local places, shores_only = {}, {}
  for _, p in ipairs(list) do
    if p.kind == "shore" then
      places[#places + 1], shores_only[#shores_only + 1] = p.at, p
    end
  end
  if #places < 2 then
    s.notes[#s.notes + 1] = "the joist is said to be out: a single shore does not hold "
      .. "it if a bearing gives"
    return
  end
  local dead = reactions(m, piece[1], piece[2], places)
  local total = live and reactions(m, piece[1], piece[2], places, live)
  for i, p in ipairs(shores_only) do
    if math.min(dead[i], total and total[i] or dead[i]) < 0 then
      s.notes[#s.notes + 1] = "without its bearings the joist tips over its shores: set "
        .. "them further apart"
    end
    p.dead = math.max(p.dead, dead[i])
    p.total = total and math.max(p.total, total[i])
  end
  s.notes[#s.notes + 1] = "the joist is said to be out: each shore is given the larger "
    .. "of its load with the bearings and on the shores alone"
end

-- Live loads that were entered are not on the shores; says so where there are any.
local function live_note(m, s)
  for _, list in ipairs {m.points, m.lines} do
    for _, load in ipairs(list) do
      if load.case == "live" then
        s.notes[#s.notes + 1] = "the live loads entered on it are not on the shores: "
          .. "take them off first"
        return
      end
    end
  end
end

-- Shores of one joist at given places. @param line {at =, live =, assumed =}
-- @return {supports =, notes =, live =} or one with refused
local function of(r, line)
  local m, live = r.joist.model, line.live
  local other = roof_loads.refusal(m, "a shore")
  if other then return refused(other) end
  local s = {supports = {}, notes = {}, live = live, assumed = line.assumed or nil}
  for _, piece in ipairs(pieces.of(r)) do
    local list = pieces.supports(r, line.at, piece[1], piece[2], "shore")
    if #list < 2 then
      return refused(("the piece from %s to %s has fewer than two supports: give "
        .. "shores = {at = {left, right}}"):format(m.show.place(math.max(piece[1],
        0)), m.show.place(piece[2])))
    elseif pieces.too_near(list) then
      return refused "a shore stands at a bearing: give shores = {at = {left, right}}"
    end
    local places = {}
    for i, p in ipairs(list) do places[i] = p.at end
    local dead = reactions(m, piece[1], piece[2], places)
    local total = live and reactions(m, piece[1], piece[2], places, live)
    for i, p in ipairs(list) do
      p.dead, p.total = dead[i], total and total[i]
      s.supports[#s.supports + 1] = p
      if math.min(p.dead, p.total or p.dead) < 0 then
        s.notes[#s.notes + 1] = p.kind == "bearing" and ("bearing %d lifts: the piece "
          .. "tips over its shore; set the shore nearer the cut"):format(p.bearing)
          or ("the piece lifts off the shore at %s: set it elsewhere"):format(
          m.show.place(p.at))
      end
    end
    if may_hang(r) then without_bearings(m, list, piece, live, s) end
  end
  live_note(m, s)
  return s
end

shores.of = of

-- Places of the shores for a joist to be repaired: given, or 12 in beyond its cuts.
local function places_for(r)
  local m = r.joist.model
  local given = m.shores and m.shores.at
  if given then return given, false end
  local x1, x2
  for _, c in ipairs(r.cuts or {}) do
    x1, x2 = math.min(x1 or c.x1, c.x1), math.max(x2 or c.x2, c.x2)
  end
  if not x1 then return nil end
  local at, total = {}, model.total(m)
  for _, x in ipairs {x1 - CLEAR, x2 + CLEAR} do
    if x > CLEAR / 2 and x < total - CLEAR / 2 then at[#at + 1] = x end
  end
  return #at > 0 and at or nil, true
end

local function wanted(r)
  return r.computed and (r.action == "repair" or r.out ~= nil)
end

-- What stands on the line of shores at x: the joists of a run in order, each with its
-- load there. A joist that could not be worked ends the sum, which is then not given.
local function on_line(run, x)
  local t = {at = x, dead = 0, joists = {}}
  for _, one in ipairs(run) do
    if one.shores.refused then return nil end
    for _, p in ipairs(one.shores.supports) do
      if p.kind == "shore" and math.abs(p.at - x) < 1e-6 then
        t.joists[#t.joists + 1] = one.mark
        t.dead = t.dead + p.dead
        t.total = p.total and (t.total or 0) + p.total
      end
    end
  end
  return t
end

-- Heads under a line of shores: two at least, and as many as the capacity of one asks
-- for. The beam on them may ask for more.
local function heads(t, capacity)
  t.capacity = capacity
  t.heads = math.max(2, math.ceil((t.total or t.dead) / capacity - 1e-9))
end

-- Gives reviews in their order their shores: those to be repaired and the ones beside
-- (`beside` on each side, one if not given), and to those to be repaired the sums of
-- their lines. A joist by itself only where the description speaks of shores.
function shores.add(reviews)
  if #reviews == 1 and not reviews[1].joist.model.shores then return end
  local own = {}
  for i, r in ipairs(reviews) do
    if wanted(r) then
      local at, assumed = places_for(r)
      local given = r.joist.model.shores or {}
      own[i] = at and {at = at, live = given.live, assumed = assumed,
        beside = given.beside or 1, capacity = given.capacity}
      r.shores = at and of(r, own[i]) or refused("no place for a shore follows from its "
        .. "cuts: give shores = {at = {left, right}}")
    end
  end
  for i, r in ipairs(reviews) do
    local line = own[i]
    if line then
      local run = {}
      for k = math.max(1, i - line.beside), math.min(#reviews, i + line.beside) do
        local n = reviews[k]
        if n.computed then
          local here = k == i and r.shores or of(n, line)
          run[#run + 1] = {mark = n.mark, shores = here}
          n.shores = n.shores or here
        end
      end
      for _, x in ipairs(line.at) do
        local t = on_line(run, x)
        if t and #t.joists > 0 then
          if line.capacity then heads(t, line.capacity) end
          r.shores.lines = r.shores.lines or {}
          table.insert(r.shores.lines, t)
        end
      end
    end
  end
end

local function with_live(show, total)
  return total and (", dead + construction live %s"):format(show.one("force", total))
    or ""
end

local function line_words(t, show)
  if math.min(t.dead, t.total or t.dead) < 0 then
    return ("line of shores at %s under %s: the joists lift off it; set it elsewhere")
      :format(show.place(t.at), table.concat(t.joists, ", "))
  end
  return ("line of shores at %s under %s: dead %s%s%s"):format(
    show.place(t.at), table.concat(t.joists, ", "), show.one("force", t.dead),
    with_live(show, t.total),
    t.heads and ("; %d heads of %s at least, the shore beam may ask for more"):format(
      t.heads, show.one("force", t.capacity)) or "")
end

-- The shores of a joist in words.
function shores.lines(r)
  local s, list, show = r.shores, {}, r.show
  if s.refused then return {"not computed: " .. s.refused} end
  for _, p in ipairs(s.supports) do
    list[#list + 1] = ("%s at %s: dead %s%s"):format(p.kind, show.place(p.at),
      show.one("force", p.dead), with_live(show, p.total))
  end
  for _, t in ipairs(s.lines or {}) do list[#list + 1] = line_words(t, show) end
  list[#list + 1] = s.live and ("construction live %s as given"):format(
    show.figures_of("area_load", s.live))
    or "construction live not given: dead load alone"
  if s.assumed then
    list[#list + 1] = ("shores assumed %s beyond the cuts (ours); the floor below and "
      .. "the shore itself are not checked"):format(show.about(CLEAR))
  else
    list[#list + 1] = "the floor below and the shore itself are not checked"
  end
  for _, said in ipairs(s.notes) do list[#list + 1] = said end
  return list
end

-- Adds them to a document.
function shores.document(d, reviews)
  local any = false
  for _, r in ipairs(reviews) do any = any or r.shores ~= nil end
  if not any then return end
  d:heading(3, "Temporary shores")
  for _, r in ipairs(reviews) do
    if r.shores then
      d:paragraph {{mark = r.mark}, ": load per shore"}
      d:list(shores.lines(r))
    end
  end
end

-- "116 lb", "dead 60 lb, dead + construction live 190 lb", or that it lifts off.
local function prop_words(p, show)
  if math.min(p.dead, p.total or p.dead) < 0 then return "lifts off" end
  if not p.total then return show.one("force", p.dead) end
  return "dead " .. show.one("force", p.dead) .. with_live(show, p.total)
end

local function row_of(r)
  local s, props, notes = r.shores, {}, {}
  if s.refused then return {r.mark, "not computed: " .. s.refused, ""} end
  for _, p in ipairs(s.supports) do
    if p.kind == "shore" then
      props[#props + 1] = ("%s: %s"):format(r.show.place(p.at),
        prop_words(p, r.show))
    end
  end
  for _, said in ipairs(s.notes) do notes[#notes + 1] = said end
  return {r.mark, table.concat(props, "; "), table.concat(notes, "; ")}
end

--- Adds them to a document as one table for all joists, with the lines of shores under
-- it and what is assumed said once. @param only function(r): whether a joist is listed
function shores.table(d, reviews, only)
  local rows, lines, live, assumed, noted = {}, {}, {}, false, false
  for _, r in ipairs(reviews) do
    local s = r.shores
    if s and (not only or only(r)) then
      rows[#rows + 1] = row_of(r)
      noted = noted or rows[#rows][3] ~= ""
      for _, t in ipairs(s.lines or {}) do lines[#lines + 1] = line_words(t, r.show) end
      if not s.refused then
        assumed = assumed or s.assumed
        live[s.live and r.show.figures_of("area_load", s.live)
          or "not given: dead load alone"] = true
      end
    end
  end
  if #rows == 0 then return end
  local columns = {"Joist", "Shore at, from the center of the left bearing: load"}
  if noted then columns[3] = "Note" end
  for _, row in ipairs(rows) do row[3] = noted and row[3] or nil end
  d:table {caption = "Temporary shores: load on each under each joist", rows = rows,
    columns = columns, row_heads = 1}
  if #lines > 0 then d:list(lines) end
  local said = {}
  for word in pairs(live) do said[#said + 1] = word end
  table.sort(said, point.less)
  d:paragraph(("Construction live load %s. %sThe floor below and the shores themselves "
    .. "are not checked."):format(table.concat(said, "; "), assumed
    and ("Where no places were given, shores are taken %s beyond the cuts (ours). ")
      :format(reviews[1].show.about(CLEAR)) or ""))
end

return shores
