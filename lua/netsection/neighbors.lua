-- SPDX-License-Identifier: MIT
-- Joists beside one that is out, until it is repaired. The deck over a joist that is out
-- lies as a simple span between the next joists that stand: a load at y goes to the left
-- one by (y_r - y)/(y_r - y_l), to the right one by the rest, at the same x along the
-- span. Who carries it is reviewed by the same core, repetitive factor 1.0.
local fix = require "netsection.fix"
local part = require "netsection.fix.part"
local point = require "netsection.point"
local review = require "netsection.review"
local shed = require "netsection.fix.neighbours"

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
    local parted = not (c.ply and r.plies) -- else the other plies carry
    if c.kind == "sever" and parted then return "cut through" end
    local found = r.cuts and r.cuts[i]
    if found and found.gate == 6 and parted then
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
  local t = to[i] or {width = 0, dead = 0, live = 0, loads = {}, because = {}, span = 0,
    share = {}}
  to[i] = t
  t.because[#t.because + 1], t.share[r.mark] = r.mark, share
  t.width = t.width + m.spacing * share
  t.dead = t.dead + m.dead * m.spacing * share / 12
  t.live = t.live + m.live * m.spacing * share / 12
  t.span, t.edge = math.max(t.span, span), t.edge or edge
  for _, load in ipairs(shed.shed_loads({dead = 0, live = 0, roof_live = m.roof_live,
    snow = m.snow, lines = m.lines, points = m.points, spacing = m.spacing},
    m.spacing * share, share)) do
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

local function cautions_of(t, show)
  local list = {}
  if t.edge then
    list[1] = "no joist stands beyond " .. table.concat(t.because, ", ")
      .. ": all its load is taken to one side; the deck runs out at the edge and is not "
      .. "computed"
  end
  if t.span > DECK then
    list[#list + 1] = ("until %s is repaired the deck spans %s: not checked, more than "
      .. "%s"):format(table.concat(t.because, ", "), show.size(t.span),
      show.about(DECK))
  end
  return list
end

local function plf(w, case)
  return {kind = "line", load = point.exact(w) .. " plf", case = case}
end

--- What comes to each joist from those that are out: {[index] = {width =, dead =, live =,
-- loads =, because = marks, ...}}. @param out {[index] = reason}
neighbors.share = share_out

-- The loads that come to a joist from those that are out.
local function received_loads(t)
  local loads = {}
  for _, case in ipairs {"dead", "live"} do
    if t[case] > 0 then loads[#loads + 1] = plf(t[case], case) end
  end
  return table.move(t.loads, 1, #t.loads, #loads + 1, loads)
end

--- A joist with what it takes over of those that are out; or nil and problems.
function neighbors.loaded(joist, t)
  local d, more = joist.description, received_loads(t)
  local loads = {table.unpack(d.loads or {})}
  table.move(more, 1, #more, #loads + 1, loads)
  return joist:changed {loads = loads, repetitive = d.repetitive or 1}
end

-- What a state hands on of an assessment.
local NUMBERS = {"checks", "ratio", "governing", "governing_check", "status", "Cr",
  "moment", "moment_at", "shear", "shear_at", "reactions", "reaction_range",
  "deflection"}

-- The state of one joist with what it takes over.
local function state(r, t, options)
  local u = {because = t.because, width = r.joist.model.spacing + t.width,
    deck = t.span, edge = t.edge or nil, checks = {}, cautions = cautions_of(t, r.show),
    share = t.share, taken = received_loads(t)}
  local loaded, problems = neighbors.loaded(r.joist, t)
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

-- What the repairs of other joists put on one for good: every entry of their neighbors
-- with its mark, in the order of the floor: {{of = review, entry =}, ...} by mark.
local function burdens(reviews)
  local by_mark = {}
  for _, r in ipairs(reviews) do
    for _, n in ipairs(r.fixed and r.fixed.neighbours or {}) do
      if n.review and n.review.computed and n.joist then
        by_mark[n.mark] = by_mark[n.mark] or {}
        table.insert(by_mark[n.mark], {of = r, entry = n})
      end
    end
  end
  return by_mark
end

local function marks_of(list)
  local marks, seen = {}, {}
  for _, b in ipairs(list) do
    if not seen[b.of.mark] then marks[#marks + 1] = b.of.mark end
    seen[b.of.mark] = true
  end
  return marks
end

-- Of what is put on a joist, what adds up: headers on both sides of it, or of one run,
-- are already together in each other's entries, so one of them stands for all.
local function distinct(list)
  local out, header = {}, false
  for _, b in ipairs(list) do
    if b.of.fixed.kind ~= "header" then
      out[#out + 1] = b
    elseif not header then
      out[#out + 1], header = b, true
    end
  end
  return out
end

-- The state of a joist under more load: repaired where it has a repair of its own.
local function settled(with)
  return with.joist.repair and with.fixed or with.cut
end

-- A joist with all that several repairs put on it: their loads added to its own once, the
-- most plies that one of them gives it, and its own repair.
-- @param r its review; @param list what is put on it
-- @return its review with that; or nil and a reason
local function combined(r, list, options)
  if #list == 1 then return list[1].entry.review end
  local own = r.joist.description.loads or {}
  local loads, plies = {table.unpack(own)}, 0
  for _, b in ipairs(list) do
    local with = b.entry.joist.description.loads
    table.move(with, #own + 1, #with, #loads + 1, loads)
    plies = math.max(plies, b.entry.joist.model.plies)
  end
  local loaded, problems = r.joist:changed {loads = loads,
    plies = plies > r.joist.model.plies and plies or r.joist.description.plies,
    repetitive = r.joist.description.repetitive or 1}
  if loaded and r.joist.repair then
    loaded, problems = loaded:fixed(r.joist.repair.given)
  end
  if not loaded then return nil, problems[1].text end
  local found = loaded.repair and loaded:review(options) or review.of(loaded, options)
  if not found.computed then return nil, found.reasons[1] end
  if settled(found).refused then return nil, settled(found).refused end
  return found
end

-- The state of a joist beside those that are out for good. @param with its review then
local function fixed_state(list, with)
  local a, marks, role = with.cut, marks_of(list), list[1].entry.role
  for _, b in ipairs(list) do
    if b.entry.role ~= role then role = "neighbor" end
  end
  local f = {kind = "neighbor", action = with.action, of = table.concat(marks, ", "),
    title = ("%s beside joist%s %s as repaired"):format(role == "neighbour" and "neighbor"
      or role, #marks > 1 and "s" or "", table.concat(marks, ", "))}
  for _, name in ipairs(NUMBERS) do
    f[name] = a[name]
  end
  for _, name in ipairs(LISTS) do f[name] = {} end
  return f
end

-- Takes the sum into a repair that puts part of it on a joist: its entry, its check, and
-- with them its ratio and status. A repair may fail so that would serve by itself.
local function add_sum(b, with, others)
  local a, n, sum = b.of.fixed, b.entry, settled(with)
  n.review, n.ratio, n.status, n.checks = with, sum.ratio, sum.status, sum.checks
  for i, k in ipairs(a.checks) do
    if k.mode == "neighbour" and k.name == n.mark then
      a.checks[i] = shed.check_of(sum, n.role, n.mark)
    end
  end
  a.notes[#a.notes + 1] = ("joist %s is judged with what the repair of %s puts on it as "
    .. "well"):format(n.mark, table.concat(others, ", "))
  if sum.status == "not permitted" then a.status = "not permitted" end
  local failing = a.failing
  a.failing = nil    -- said already
  fix.settle(a)
  a.failing = failing
end

-- Where the sum cannot be worked, none of the repairs that make it serves.
local function refuse(list, mark, why)
  for _, b in ipairs(list) do
    local a = b.of.fixed
    a.status = "not permitted"
    a.notes[#a.notes + 1] = ("joist %s with what all repairs put on it could not be "
      .. "worked: %s"):format(mark, why)
  end
end

local function all_but(marks, mark)
  local others = {}
  for _, o in ipairs(marks) do
    if o ~= mark then others[#others + 1] = o end
  end
  return others
end

-- A joist with a repair of its own: what was worked without the load of the others gives
-- way to the numbers with it.
local function replace_numbers(r, list, sum)
  for _, name in ipairs(NUMBERS) do
    if sum[name] ~= nil then r.fixed[name] = sum[name] end
  end
  table.insert(r.fixed.notes, ("worked with what the repair of %s puts on this joist")
    :format(table.concat(marks_of(list), ", ")))
end

-- Repairs that leave a joist out (headed off, written off) are judged on the joists
-- beside it as well, with the action that follows; what several put on one is added up.
local function fixed(reviews, options)
  local burden = burdens(reviews)
  for _, r in ipairs(reviews) do
    local list = burden[r.mark]
    local sum = list and distinct(list)
    local with, why
    if list then with, why = combined(r, sum, options) end
    if list and not with then
      refuse(list, r.mark, why)
    elseif list then
      for _, b in ipairs(#sum > 1 and list or {}) do
        add_sum(b, with, all_but(marks_of(list), b.of.mark))
      end
      if not r.fixed then
        r.fixed = fixed_state(list, with)
      elseif r.joist.repair and not r.fixed.refused then
        replace_numbers(r, list, settled(with))
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
  fixed(reviews, options)
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
