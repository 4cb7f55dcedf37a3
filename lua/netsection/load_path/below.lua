-- SPDX-License-Identifier: MIT
-- What carries a line of bearings, where the user describes it: a plate of wood, a girder
-- on posts, a stud wall. What was there before the work is checked for all that stands on
-- it now, and what it gets more is named.
local beam_line = require "netsection.member.beam_line"
local member = require "netsection.member"
local members = require "netsection.members"
local ordered = require "netsection.point".pairs
local plate = require "netsection.member.plate"
local point = require "netsection.point"
local units = require "netsection.units"
local wall = require "netsection.member.wall"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local below = {}

--- The line of bearings that a key of the option names: "left", "right", or 2 and on for
-- inner ones; nil for what is no key.
function below.name(key)
  if key == "left" or key == "right" then return key .. " bearings" end
  if math.type(key) == "integer" and key > 1 then return "bearings " .. key end
end

local KINDS = {plate = plate, wall = wall}

local function read_one(key, t, reviews, lines, place, level, standard)
  local what = ("load_path: below.%s"):format(tostring(key))
  local kind = type(t) == "table" and t.kind
  local ok = KINDS[kind] or kind == "beam_line"
  if not ok or not members.is[kind](t) then
    error(what .. ": ns.plate{...}, ns.wall{...} or ns.beam_line{...} expected",
      level + 1)
  end
  local u = {key = key, kind = kind, mark = t.mark}
  if kind ~= "beam_line" then
    u.f = KINDS[kind].read(t, level + 1, standard)
    if u.f.load then
      error(what .. ": load, dead, live: what stands on it follows from the joists",
        level + 1)
    end
    return u
  end
  u.f, u.y0 = beam_line.read(t, level + 1), lines[1].y
  for _, field in ipairs {"at", "from", "to", "loads"} do
    if t[field] ~= nil then
      error(("%s: %s: follows from the bearings"):format(what, field), level + 1)
    end
  end
  u.posts = beam_line.posts(u.f, function(p) return place(p, reviews, lines) end,
    level + 1, standard)
  return u
end

-- A post's place: under a joist by its mark, or a length from the first joist.
local function place_of(p, reviews, lines)
  for i, r in ipairs(reviews) do
    if r.mark == p then return lines[i].y - lines[1].y end
  end
  return units.length(p)
end

--- Reads the option below = {left =, right =, [2] =}. @return by name of the line
function below.read(given, reviews, lines, level, standard)
  local by_name = {}
  if given == nil then return by_name end
  if type(given) ~= "table" then
    error("load_path: below: {left = ns.plate{...}, right =} expected", level + 1)
  end
  for key, t in ordered(given) do
    local name = below.name(key)
    if not name then
      error(("load_path: below.%s: left, right, or the number of an inner bearing "
        .. "expected"):format(tostring(key)), level + 1)
    end
    by_name[name] = read_one(key, t, reviews, lines, place_of, level + 1, standard)
  end
  return by_name
end

-------------------------------------------------------------------------------- loads

-- Points of a line with their places across the floor.
local function points_on(l, path)
  local y = {}
  for i, r in ipairs(path.reviews) do y[r.mark] = path.places[i].y - path.places[1].y end
  local list = {}
  for i, s in ipairs(l.points) do
    list[i] = {y = y[s.mark], D = s.D, L = s.L, mark = s.mark, b = s.b, l_b = s.l_b,
      kind = s.kind, added = s.added}
  end
  table.sort(list, function(p, q) return p.y < q.y end)
  return list
end

local function added(points)
  local sum, most, at = 0, 0, nil
  for _, q in ipairs(points) do
    if q.added then
      sum = sum + q.added
      if q.added > most + 0.5 then most, at = q.added, q.mark end
    end
  end
  return sum, most, at
end

-- Joists on wood across its grain, along which a joist is b wide: the one that presses
-- it most, and the one that gets most more than before.
-- @param width across the grain of what it lies on, in; nil: as long as the bearing
-- @return list of checks
local function pressing(m, points, standard, name, from_end, width)
  local list, more, most = {}, nil, 0.5
  for _, q in ipairs(points) do
    local R = q.D + q.L
    if q.b and q.l_b and q.l_b > 0 and R > 0 then
      local k = plate.check(m, {R = R, l_b = q.b, at = q.y,
        b = width and math.min(q.l_b, width) or q.l_b, from_end = from_end,
        name = q.mark .. " on the " .. name}, standard)
      list[#list + 1] = k
      if (q.added or 0) > most + 1e-6 then more, most = k, q.added end
    end
  end
  local worst = member.worst(list)
  return {worst, more ~= worst and more or nil}
end

local function hangers(a, points)
  for _, q in ipairs(points) do
    if q.kind == "hanger" then
      a.not_checked[#a.not_checked + 1] = ("fasteners of the hanger of %s in it, %s")
        :format(q.mark, a.show.force(q.D + q.L))
    end
  end
end

---------------------------------------------------------------------------------- kinds

local work = {}

function work.plate(u, points, standard)
  local f, m = u.f, u.f.wood
  local a = member.assessment("plate", u.mark, f.show)
  a.title = ("plate %s under the joists"):format(m.size or ("%s x %s"):format(
    a.show.size(m.b), a.show.size(m.d)))
  local why = plate.lacking(m)
  if why then return member.unassessed(a, "not assessed", why) end
  a.checks = pressing(m, points, standard, "plate", f.from_end,
    math.max(m.b * m.plies, m.d))
  a.notes[1] = "checked under the joist that presses it most and the one that gets most "
    .. "more than before"
  a.assumptions[1] = ("Design values: %s."):format(m.source)
  return member.settle(a)
end

function work.wall(u, points, standard)
  local a = wall.assess(u.f, points, standard, pressing)
  a.mark = u.mark
  return a
end

function work.beam_line(u, points, standard)
  local loads = {}
  for i, q in ipairs(points) do
    loads[i] = {y = q.y, D = q.D, L = q.L, mark = q.mark}
  end
  local a = beam_line.assess(u.f, {posts = u.posts, loads = loads, others = true},
    standard, 1)
  a.mark = u.mark
  if a.ratio and u.f.wood then
    local list = pressing(u.f.wood, points, standard, "girder", 0)
    table.move(list, 1, #list, #a.checks + 1, a.checks)
    if a.status ~= "not permitted" then a.status = nil end
    member.settle(a)
  end
  return a
end

--- Works what carries each line of bearings. @param path with lines and their points
function below.work(path, by_name)
  path.below = {}
  for _, l in ipairs(path.lines) do
    local u = by_name[l.name]
    if u then
      local points = points_on(l, path)
      u.line, u.points, u.name = l, points, l.name
      u.titled = u.mark and ("%s under the %s"):format(u.mark, l.name)
      u.mark = u.mark or ("%s of the %s"):format(u.kind == "beam_line" and "girder"
        or u.kind, l.name)
      u.f.show = path.show
      u.state = work[u.kind](u, points, path.packs)
      u.added, u.most, u.most_mark = added(points)
      hangers(u.state, points)
      l.below = u
      path.below[#path.below + 1] = u
      by_name[l.name] = nil
    end
  end
  for name, u in pairs(by_name) do
    if not path.unmet or point.less(tostring(u.key), tostring(path.unmet.key)) then
      path.unmet = {key = u.key, name = name}
    end
  end
end

--- What it gets more than before, in words.
function below.said(u, show)
  local all = math.abs(u.added) < 0.5 and "in all as much as before the work"
    or ("%s %s than before the work in all"):format(show.force(math.abs(u.added)),
      u.added > 0 and "more" or "less")
  return all .. (u.most_mark and (", most more at %s: %s"):format(u.most_mark,
    show.force(u.most)) or "")
end

return below
