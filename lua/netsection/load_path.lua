-- SPDX-License-Identifier: MIT
-- The way of the load into the ground: what each joist of a floor puts on walls, hangers,
-- beams and posts, the beams under it with their posts and footings, the trimmers of a
-- header down to their bearings. All load is there, dead and live apart; sums of each
-- step agree. A new support never enters the review of a joist.
local beam_line = require "netsection.member.beam_line"
local below = require "netsection.load_path.below"
local carried = require "netsection.load_path.carried"
local member = require "netsection.member"
local members = require "netsection.members"
local neighbors = require "netsection.neighbors"
local obstruction = require "netsection.obstruction"
local over = require "netsection.load_path.over"
local parts = require "netsection.parts"
local point = require "netsection.point"
local quantity = require "netsection.quantity"
local report = require "netsection.load_path.report"
local settle = require "netsection.load_path.settle"
local units = require "netsection.units"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local load_path = {}

local OPTIONS = {"beams", "below", "rules", "standard"}

------------------------------------------------------------------------------- the beams

local function index_of(reviews, mark, name, level)
  for i, r in ipairs(reviews) do
    if r.mark == mark then return i end
  end
  error(("beam_line: %s: no joist '%s'"):format(name, tostring(mark)), level + 1)
end

-- Beams read, with the joists they run under and the places across the floor.
local function read_beams(given, reviews, lines, level, standard)
  if type(given) ~= "table" then
    error("load_path: beams: a list of ns.beam_line{...} expected", level + 1)
  end
  local list = {}
  for k, t in ipairs(given) do
    if not members.is.beam_line(t) then
      error(("load_path: beams[%d]: ns.beam_line{...} expected"):format(k), level + 1)
    end
    local f = beam_line.read(t, level + 1)
    if not f.at then
      error(("beam_line%s: at: missing: its place along the joists"):format(t.mark
        and " " .. t.mark or ""), level + 1)
    elseif f.loads then
      error("beam_line: loads: under a floor they follow from its joists", level + 1)
    end
    local b = {f = f, mark = t.mark or "B" .. k,
      first = t.from and index_of(reviews, t.from, "from", level + 1) or 1,
      last = t.to and index_of(reviews, t.to, "to", level + 1) or #reviews}
    if b.first > b.last then
      error("beam_line: to: a joist beyond 'from' expected", level + 1)
    end
    b.y0 = lines[b.first].y
    b.posts = beam_line.posts(f, function(p)
      for i, r in ipairs(reviews) do
        if r.mark == p then return lines[i].y - b.y0 end
      end
      return units.length(p)
    end, level + 1, standard)
    list[k] = b
  end
  return list
end

-- A joist that is cut through and whose every piece a beam holds; others that are out and
-- lie over a beam cannot be traced.
local function held_by(reviews, beams)
  local held, why = {}, {}
  for i, r in ipairs(reviews) do
    if r.computed and neighbors.out(r) and not carried.repair_of(r) then
      for _, b in ipairs(beams) do
        if i >= b.first and i <= b.last then
          held[i], why[i] = carried.held(r, beams, i)
          break
        end
      end
    end
  end
  return held, why
end

local function header_paths(reviews)
  local by_mark = {}
  for _, r in ipairs(reviews) do
    local a = carried.repair_of(r)
    for _, tail in ipairs(a and a.path and a.path.tails or {}) do
      by_mark[tail.mark] = by_mark[tail.mark] or a.path
    end
  end
  return by_mark
end

-- Loads on a beam from the joists over it.
local function loads_on(b, list, lines)
  local out = {}
  for i = b.first, b.last do
    for _, s in ipairs(list[i].stands) do
      if s.beam == b then
        local m = list[i].model
        local total = 0
        for _, span in ipairs(m.span) do total = total + span end
        local to_end = math.min(s.at + m.overhang_left, total + m.overhang_right - s.at)
        out[#out + 1] = {y = lines[i].y - b.y0, D = s.D, L = s.L, mark = list[i].mark,
          wood = m, to_end = to_end, number = i}
      end
    end
  end
  return out
end

local function say(path, ...)
  path.not_checked[#path.not_checked + 1] = point.format(...)
end

local function work_beam(path, b, lines, packs)
  local loads = loads_on(b, path.joists, lines)
  if #loads == 0 then
    local a = member.assessment("beam_line", b.mark, path.show)
    a.title = "beam under no joist"
    b.state = member.unassessed(a, "not assessed", "no joist that stands lies over it")
    return
  end
  b.f.show = path.show
  local a = beam_line.assess(b.f, {posts = b.posts, loads = loads}, path.packs, 1)
  a.mark = b.mark
  b.state, a.beam = a, b
  for _, q in ipairs(loads) do
    local o = over.of(path.joists[q.number], path.reviews[q.number], b, packs)
    path.over[#path.over + 1] = o
    if o.unread then say(path, "%s over %s: %s", o.mark, b.mark, o.refused) end
  end
  settle.add(path, b, loads)
end

------------------------------------------------------------------------------------ sums

local function add(q, p)
  q.D, q.L = q.D + p.D, q.L + p.L
end

local function gather(lines, name)
  local l = lines[name]
  if not l then
    l = {name = name, D = 0, L = 0, added = 0, points = {}}
    lines[name], lines[#lines + 1] = l, l
  end
  return l
end

local function bearing_name(n, last)
  return n == 1 and "left bearings" or n == last and "right bearings"
    or ("bearings %d"):format(n)
end

-- Every place where load leaves the joists: lines of bearings, hangers, posts, beams.
local function ends_of(path)
  for i, t in ipairs(path.joists) do
    local last = #(path.reviews[i].joist.model.span or {}) + 1
    for n, was in ipairs(t.was or {}) do
      local l = gather(path.lines, bearing_name(n, last))
      l.added = l.added - was
    end
    for _, s in ipairs(t.stands) do
      local l
      if s.kind == "bearing" or s.kind == "hanger" then
        l = gather(path.lines, bearing_name(s.bearing or 1, last))
      elseif s.kind == "beam" then
        l = gather(path.lines, "beam " .. s.beam.mark)
        l.beam = s.beam
      elseif s.kind == "post" then
        l = gather(path.lines, "posts of repairs")
      else
        l = gather(path.lines, s.kind)
      end
      s.mark, s.added = t.mark, s.was and s.D + s.L - s.was or nil
      l.points[#l.points + 1] = s
      add(l, s)
      l.added = l.added + (s.added or 0)
    end
  end
end

-- Bearings are taken to hold both ways: where a joist lifts off one, it is said.
local function lifted(path)
  for _, l in ipairs(path.lines) do
    local marks, most = {}, 0
    for _, s in ipairs(l.points) do
      local least = math.min(s.D, s.D + s.L)
      if s.kind ~= "not counted" and least < -0.5 then
        marks[#marks + 1], most = s.mark, math.max(most, -least)
      end
    end
    if #marks > 0 then
      path.notes[#path.notes + 1] = ("lifts off %s: %s, up to %s each: hold it down "
        .. "there"):format(l.name, table.concat(marks, ", "), path.show.force(most, 0))
    end
  end
end

local function totals(path)
  path.floor, path.ends, path.ground = {D = 0, L = 0}, {D = 0, L = 0}, {D = 0, L = 0}
  for _, t in ipairs(path.joists) do
    if t.own and not t.refused then add(path.floor, t.own) end
  end
  for _, l in ipairs(path.lines) do
    add(path.ends, l)
    local on = l.beam or l.below
    if on and on.state.posts then
      for _, s in ipairs(on.state.posts) do add(path.ground, s) end
    else
      add(path.ground, l)
    end
  end
  path.beam_weight = 0
  for _, list in ipairs {path.beams, path.below} do
    for _, b in ipairs(list) do
      for _, p in ipairs(b.state.spans or {}) do
        path.beam_weight = path.beam_weight + p.weight * (p.y2 - p.y1)
      end
    end
  end
end

-------------------------------------------------------------------------- what is not

-- What a line of bearings carries against what it did.
local function change(v, show)
  if math.abs(v) < 0.5 then return "as much as before the work" end
  return ("%s %s than before the work"):format(show.force(math.abs(v), 0), v > 0
    and "more" or "less")
end

-- Below a plate or girder that was described.
local function under(path, l)
  local u = l.below
  say(path, "%s: %s, %s%s", u.mark, path.show.force(l.D + l.L),
    below.said(u, path.show),
    u.kind == "beam_line" and "" or "; what is under it")
end

local function walls(path)
  for _, l in ipairs(path.lines) do
    if l.below then
      under(path, l)
    elseif not l.beam and l.name:find "bearing" then
      say(path, "what carries the %s: %s, %s; plate, girder or wall and what is "
        .. "under them", l.name, path.show.force(l.D + l.L),
        change(l.added, path.show))
    elseif l.name == "posts of repairs" then
      for _, s in ipairs(l.points) do
        say(path, "beam and posts under %s at %s, %s: describe them as "
          .. "ns.beam_line{...}", s.mark, path.show.place(s.at),
          path.show.force(s.D + s.L))
      end
    end
    for _, s in ipairs(l.points) do
      if s.kind == "hanger" and not l.below then
        say(path, "what the hanger of %s hangs from: %s", s.mark,
          path.show.force(s.D + s.L))
      end
    end
  end
end

local function not_traced(path)
  for i, t in ipairs(path.joists) do
    local r = path.reviews[i]
    if t.refused then say(path, "%s is left out: %s", t.mark, t.refused) end
    if t.out then
      say(path, "%s carries nothing (%s): its load goes to the joists beside it until it "
        .. "is repaired", t.mark, t.out)
    end
    if r.fixed and r.fixed.kind ~= "neighbor" and not carried.repair_of(r) then
      say(path, "the repair of %s is inadequate: traced as if it were not there", t.mark)
    end
  end
  if math.abs(path.floor.D + path.floor.L - path.ends.D - path.ends.L) > 0.5 then
    say(path, "the sums differ by %s: spans or overhangs beside a joist that is out "
      .. "are not alike", path.show.force(path.floor.D + path.floor.L - path.ends.D
      - path.ends.L))
  end
end

-- Refusals that stop a beam: a stub that it does not hold.
local function stubs(path, why)
  for i, reason in pairs(why) do
    path.refused = path.refused or {}
    path.refused[#path.refused + 1] = {mark = path.reviews[i].mark, text = reason}
  end
  table.sort(path.refused or {}, function(p, q) return point.less(p.mark, q.mark) end)
  for _, q in ipairs(path.refused or {}) do
    path.notes[#path.notes + 1] = q.text .. ": no beam is of use to it there; its floor "
      .. "goes to the joists beside it"
  end
end

------------------------------------------------------------------------------- the whole

local function all_joists(path, beams, held)
  local with = carried.joists(path.reviews, held)
  local headed = header_paths(path.reviews)
  for i, r in ipairs(path.reviews) do
    -- a beam does not hold a joist that it leaves out
    local own = beams
    if with[i].out then own = {} end
    path.joists[i] = carried.of(r, with[i], own, i, headed[r.mark])
    path.joists[i].shed = with[i].shed
  end
end

local function header_list(path)
  local seen = {}
  for _, r in ipairs(path.reviews) do
    local a = carried.repair_of(r)
    if a and a.path then
      for _, h in ipairs(a.path.headers) do
        local key = point.format("%s/%s/%.6f", h.left.mark, h.right.mark, h.x)
        if not seen[key] then
          path.headers[#path.headers + 1], seen[key] = h, true
        end
      end
    end
  end
end

--- The way of the load of a floor into the ground.
-- @param options {beams = {ns.beam_line{at =, posts =, ...}, ...}, below = {left =, right
--   =, [2] = ns.plate{...}, ns.wall{...} or ns.beam_line{posts =, ...} under the
--   bearings}, rules =, standard =}
-- @return a load path: lines, headers, beams, sums, what was not checked, and its writers
function load_path.of(floor, options)
  options = options or {}
  parts.only("floor:load_path", options, OPTIONS, 2)
  local packs = {rules = options.rules or floor.rules,
    standard = options.standard or floor.standard}
  local standard = member.standard("floor:load_path", {standard = packs.standard}, 2)
  local review = floor:review(packs)
  local lines = obstruction.lines(floor.joists)
  local path = {name = floor.name, review = review, reviews = {}, joists = {}, lines = {},
    headers = {}, over = {}, notes = {}, not_checked = {}, packs = standard,
    standard = standard.data.name, places = lines, show = quantity.of(review)}
  for i, mark in ipairs(review.order) do path.reviews[i] = review.joists[mark] end
  path.beams = read_beams(options.beams or {}, path.reviews, lines, 2, standard)
  local under_bearings = below.read(options.below, path.reviews, lines, 2, standard)
  local held, why = held_by(path.reviews, path.beams)
  stubs(path, why)
  all_joists(path, path.beams, held)
  for _, b in ipairs(path.beams) do work_beam(path, b, lines, packs) end
  header_list(path)
  ends_of(path)
  below.work(path, under_bearings)
  if path.unmet then
    error(("load_path: below.%s: the floor has no %s"):format(tostring(path.unmet.key),
      path.unmet.name), 2)
  end
  lifted(path)
  totals(path)
  walls(path)
  not_traced(path)
  return report.path(path)
end

return load_path
