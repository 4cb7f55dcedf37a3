-- SPDX-License-Identifier: MIT
-- Joists beside one that is out, until it is repaired. The deck over a joist that is out
-- lies as a simple span between the next joists that stand: a load at y goes to the left
-- one by (y_r - y)/(y_r - y_l), to the right one by the rest, at the same x along the
-- span. Who carries it is reviewed by the same core, repetitive factor 1.0.
local part = require "netsection.fix.part"
local review = require "netsection.review"
local shed = require "netsection.fix.neighbours"
local units = require "netsection.units"

local neighbors = {}

-- Sheathing that spans more than this between joists is outside common practice, in.
local DECK = 24

-- Why a joist carries nothing, or nil: cut through, nothing left at a cut, no seat, or
-- said to be out. Mere overstress does not put a joist out: it carries.
function neighbors.out(r)
  if r.out then return type(r.out) == "string" and r.out or "out" end
  local t = r.joist.description
  if t.out then return "said to be out" end
  for i, c in ipairs(r.joist.model.cuts) do
    if c.lost then return ("no sound seat at the %s bearing"):format(c.lost) end
    if c.kind == "sever" then return "cut through" end
    local found = r.cuts and r.cuts[i]
    if found and found.gate == 6 then
      return ("nothing left at %s"):format(found.name)
    end
  end
end

-- From the joist i to the one after it, in: as the one that is out was measured.
local function bay(reviews, out, i)
  local _, right = part.sides(reviews[i].joist)
  local left = part.sides(reviews[i + 1].joist)
  if out[i + 1] and not out[i] then return left end
  return right
end

-- Runs of joists that are out: {first =, last =, y = {place from the left one}, bays}.
local function runs(reviews, out)
  local list, i = {}, 1
  while i <= #reviews do
    if out[i] then
      local run = {first = i}
      while out[i + 1] do i = i + 1 end
      run.last = i
      list[#list + 1] = run
    end
    i = i + 1
  end
  return list
end

-- Places of a run and of what stands beside it, from the joist before it.
local function places(reviews, out, run)
  local y, at = 0, {}
  if run.first > 1 then y = bay(reviews, out, run.first - 1) end
  for i = run.first, run.last do
    at[i] = y
    if i < #reviews then y = y + bay(reviews, out, i) end
  end
  return at, y
end

-- @param to {[index] = {width =, loads =, because =, span =, edge =}}
local function give(to, i, r, share, span, edge)
  local m = r.joist.model
  local t = to[i] or {width = 0, dead = 0, live = 0, loads = {}, because = {}, span = 0}
  to[i] = t
  t.because[#t.because + 1] = r.mark
  t.width = t.width + m.spacing * share
  t.dead = t.dead + m.dead * m.spacing * share / 12
  t.live = t.live + m.live * m.spacing * share / 12
  t.span, t.edge = math.max(t.span, span), t.edge or edge
  for _, load in ipairs(shed.shed_loads({dead = 0, live = 0, lines = m.lines,
    points = m.points, spacing = m.spacing}, m.spacing * share, share)) do
    t.loads[#t.loads + 1] = load
  end
end

local function share_out(reviews, out)
  local to = {}
  for _, run in ipairs(runs(reviews, out)) do
    local at, across = places(reviews, out, run)
    local left = run.first > 1 and run.first - 1 or nil
    local right = run.last < #reviews and run.last + 1 or nil
    local edge = not (left and right)
    for i = run.first, run.last do
      local k = left and right and at[i] / across or right and 1 or 0
      if left and k < 1 then give(to, left, reviews[i], 1 - k, across, edge) end
      if right and k > 0 then give(to, right, reviews[i], k, across, edge) end
    end
  end
  return to
end

local function cautions_of(t)
  local list = {}
  if t.edge then
    list[1] = "no joist stands beyond " .. table.concat(t.because, ", ")
      .. ": all its load is taken to one side; the deck runs out at the edge and is not "
      .. "computed"
  end
  if t.span > DECK then
    list[#list + 1] = ("until %s is repaired the deck spans %s: not checked, more than "
      .. "24 in"):format(table.concat(t.because, ", "), units.inches(t.span))
  end
  return list
end

local function plf(w, case)
  return {kind = "line", load = ("%.17g plf"):format(w), case = case}
end

-- What a state hands on of an assessment.
local NUMBERS = {"checks", "ratio", "governing", "governing_check", "status", "Cr",
  "moment", "moment_at", "shear", "shear_at", "reactions", "reaction_range",
  "deflection"}

-- The state of one joist with what it takes over.
local function state(r, t, options)
  local d = r.joist.description
  local loads = {}
  for _, load in ipairs(d.loads or {}) do loads[#loads + 1] = load end
  for _, case in ipairs {"dead", "live"} do
    if t[case] > 0 then loads[#loads + 1] = plf(t[case], case) end
  end
  table.move(t.loads, 1, #t.loads, #loads + 1, loads)
  local u = {because = t.because, width = r.joist.model.spacing + t.width,
    deck = t.span, edge = t.edge or nil, checks = {}, cautions = cautions_of(t)}
  local loaded, problems = r.joist:changed {loads = loads,
    repetitive = d.repetitive or 1}
  local with = loaded and review.of(loaded, options)
  if not with or not with.computed then
    u.refused = with and with.reasons[1] or problems[1].text
    u.status = "not assessed"
    return u
  end
  local a = with.cut
  for _, name in ipairs(NUMBERS) do
    u[name] = a[name]
  end
  return u
end

local function name_neighbors(r, why, beside)
  if #beside == 0 then
    r.reasons[#r.reasons + 1] = ("%s: no joist beside it stands to take its load: shore")
      :format(why)
    return
  end
  local said, over = {}, false
  for i, n in ipairs(beside) do
    local u = n.until_repaired
    said[i] = ("%s %s"):format(n.mark, u.ratio and review.ratio_text(u.ratio)
      or "not computed")
    over = over or not u.ratio or u.ratio > review.full
  end
  r.reasons[#r.reasons + 1] = ("%s: its load goes to the joists beside it, %s until it "
    .. "is repaired%s"):format(why, table.concat(said, ", "), over and ": shore" or "")
end

local LISTS = {"pieces", "fasteners", "layout", "stations", "forces", "neighbours",
  "sequence", "cautions", "notes"}

-- The state of a joist beside one that is out for good.
local function fixed_state(n, mark)
  local a = n.review.cut
  local role = n.role == "neighbour" and "neighbor" or n.role
  local f = {kind = "neighbor",
    title = ("%s beside joist %s as repaired"):format(role, mark),
    action = n.review.action, of = mark}
  for _, name in ipairs(NUMBERS) do
    f[name] = a[name]
  end
  for _, name in ipairs(LISTS) do f[name] = {} end
  return f
end

-- A repair that leaves a joist out (headed off, written off) is judged on the joists
-- beside it as well, with the action that follows. Of two, the worse is kept and said.
local function fixed(reviews)
  local by_mark = {}
  for _, r in ipairs(reviews) do by_mark[r.mark] = r end
  for _, r in ipairs(reviews) do
    for _, n in ipairs(r.fixed and r.fixed.neighbours or {}) do
      local beside = n.review and n.review.computed and by_mark[n.mark]
      local had = beside and beside.fixed
      if beside and (not had or had.kind == "neighbor") then
        local f = fixed_state(n, r.mark)
        if had and (had.ratio or math.huge) >= (f.ratio or math.huge) then f = had end
        if had then
          f.notes = {"two repairs load this joist: each is judged by itself, the worse "
            .. "is shown; their sum is not computed"}
        end
        beside.fixed = f
      end
    end
  end
end

-- Gives the reviews of a floor, in their order, what holds until those that are out are
-- repaired: until_repaired of the joists beside, out = reason of those that are out.
-- Action, ratio and status stay.
function neighbors.add(reviews, options)
  local out, any = {}, false
  for i, r in ipairs(reviews) do
    out[i] = neighbors.out(r)
    r.out = out[i]
    any = any or out[i] ~= nil
  end
  fixed(reviews)
  if not any then return end
  local beside = {}
  local to = share_out(reviews, out)
  for i, r in ipairs(reviews) do
    if to[i] then
      r.until_repaired = state(r, to[i], options)
      for _, said in ipairs(r.until_repaired.cautions) do
        r.cautions[#r.cautions + 1] = said
      end
      for _, mark in ipairs(to[i].because) do
        beside[mark] = beside[mark] or {}
        table.insert(beside[mark], r)
      end
    end
  end
  for i, r in ipairs(reviews) do
    if out[i] then name_neighbors(r, out[i], beside[r.mark] or {}) end
  end
end

return neighbors
