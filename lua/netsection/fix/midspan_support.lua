-- SPDX-License-Identifier: MIT
-- A beam and posts under the span: the joist runs on over one more support. Cuts are read
-- again under the new sign of the moment, by the rules and by the standard.
local cautions = require "netsection.cautions"
local lane = require "netsection.lane"
local model = require "netsection.model"
local part = require "netsection.fix.part"
local nails = require "netsection.fix.ply_nails"
local review = require "netsection.review"
local seat = require "netsection.fix.seat"
local site = require "netsection.fix.site"

local support = {fields = {"at", "bearing", "capacity", "hold_down", "note"}}

local read = model.readers

function support.read(t, case, found, part_)
  local L = part.total(case.model)
  local f = {at = t.at ~= nil and read.length(found, part_, "at", t.at) or L / 2}
  f.bearing = t.bearing ~= nil and read.between(found, part_, "bearing", t.bearing,
    0.5, 48) or 3.5
  f.capacity = t.capacity ~= nil and read.load(found, part_, "capacity", t.capacity,
    "point")
    or nil
  f.hold_down = t.hold_down ~= nil and read.load(found, part_, "hold_down", t.hold_down,
    "point") or nil
  return f
end

-- Spans and bearings with one more support; the number of that support.
local function split(m, f)
  local spans, bearings, x, new = {}, {m.bearing[1]}, 0, nil
  for i, span in ipairs(m.span) do
    local rest = span
    if f.at > x + 1e-6 and f.at < x + span - 1e-6 then
      spans[#spans + 1], bearings[#bearings + 1] = f.at - x, f.bearing
      new, rest = #bearings, x + span - f.at
    end
    spans[#spans + 1], bearings[#bearings + 1] = rest, m.bearing[i + 1]
    x = x + span
  end
  return spans, bearings, new
end

local function sequence(show)
  return {
  "Look what the new posts will stand on: a slab on soil is not a footing.",
  "Shore beside the new beam; lift in steps of " .. show.about(1 / 8) .. " or less, no "
    .. "more than the dead-load sag.",
  "Set the beam and its posts tight under every joist it serves; pack with hardwood or "
    .. "steel, not with shingles.",
  "Fasten it sideways and against uplift where that is stated; let the shores down.",
  }
end

-- A cut that takes the bottom edge away where the new beam would bear.
local function in_the_way(case, x1, x2)
  for i, c in ipairs(case.review.cuts) do
    local cut = case.model.cuts[i]
    local bottom = (cut.kind == "notch" or cut.kind == "end_notch") and not cut.top_face
      or cut.kind == "loss" and ((cut.bottom or 0) > 0 or cut.extend > 0)
    if bottom and c.x1 < x2 - 1e-9 and c.x2 > x1 + 1e-9 then return c.name end
  end
end

-- What the review of the joist as it runs on says of its cuts that it did not say before:
-- the top in tension, no single span.
local function new_reasons(a, case, r)
  local known = {}
  for _, reason in ipairs(case.review.reasons) do known[reason] = true end
  for _, c in ipairs(r.cuts) do
    if c.status == "not permitted" then
      a.status = "not permitted"
      a.notes[#a.notes + 1] = ("%s: not permitted in the joist as it runs on "
        .. "(%s)"):format(c.name, case:rule "gates")
    end
    for _, reason in ipairs(r.reasons) do
      if not known[reason] and reason:find(c.name .. ": ", 1, true) == 1 then
        a.notes[#a.notes + 1] = "as it runs on, " .. reason
      end
    end
  end
end

-- A lost end carried by a post: the joist bears on the post and its far bearing, and what
-- is left runs on over the post toward the wall. The floor over the lost length is put on
-- that end. @return joist, where it begins on the old one; or nil and a reason
local function lost_end(case, f)
  local m, L = case.model, part.total(case.model)
  local _, cut = part.lost(m)
  local left, l = cut.lost == "left", cut.to
  local p = left and f.at or L - f.at
  if #m.span > 1 or m.overhang_left > 0 or m.overhang_right > 0
    or part.lost(m, left and "right" or "left") then
    return nil, "a post carries a lost end of a joist of one span, its other end sound"
  elseif p - f.bearing / 2 < l - 1e-9 then
    return nil, ("the post at %s would stand under wood that counts as lost: sound wood "
      .. "begins %s from the bearing"):format(f.show.place(p), f.show.place(l))
  elseif p >= L - 24 then
    return nil, ("a span under %s would be left"):format(f.show.about(24))
  end
  local over = p - l
  local R = part.between(m, left and 0 or L - l, left and l or L)
  local D, live = R.dead[1] + R.dead[2], R.live[1] + R.live[2]
  local q, r = part.points(left and -over or L - l, D, live)
  local b = m.bearing
  local j, problems = part.of(case.joist, left and l or 0, left and L or L - l, {
    span = left and L - p or f.at, overhang_left = left and over or 0,
    overhang_right = left and 0 or over, loads = {q, r}, bearing = left
      and {f.bearing, b[#b]} or {b[1], f.bearing},
    repetitive = case.joist.description.repetitive or 1}, left and p or 0)
  if not j then return nil, problems[1].text end
  return j, left and p or 0
end

-- The joist on the new support, and where it begins on the old one; or nil and a reason.
local function supported(case, f, spans, bearings)
  if part.lost(case.model) then return lost_end(case, f) end
  local j, problems = case.joist:changed {spans = spans, bearing = bearings,
    repetitive = case.joist.description.repetitive or 1}
  if not j then return nil, problems[1].text end
  return j, 0
end

function support.title(f)
  return ("support under the span at %s"):format(f.show.place(f.at))
end

-- A bearing that lifts under dead load alone, or under every load, is no bearing: it is
-- held down by what is given for that, or the repair does not stand. What is given is
-- held to every bearing that lifts, by live load alone too.
local function held_down(a, r, f, case)
  local lifts = false
  for i, R in ipairs(r.cut.reaction_range) do
    local up = f.hold_down and R.least < -1e-6
    lifts = lifts or up
    if up then
      a.checks[#a.checks + 1] = case.joint {mode = "fasteners", branch = 2,
        demand = -R.least, G = -R.least, Z = f.hold_down, n_f = 1, member = "host",
        name = ("hold-down at bearing %d"):format(i)}
    elseif R.dead < -1e-6 or R.most < 1e-6 then
      a.status = "not permitted"
      a.notes[#a.notes + 1] = ("bearing %d lifts under %s: hold it down for %s "
        .. "(hold_down = what the anchor carries), or move the support"):format(i,
        R.most < 1e-6 and "every load" or "dead load", f.show.force(-R.least, 0))
    end
  end
  if f.hold_down and not lifts then
    a.notes[#a.notes + 1] = "hold_down is not needed: no bearing lifts under any load"
  end
end

local function forces(a, r, f, n)
  for i, R in ipairs(r.cut.reaction_range) do
    a.forces[#a.forces + 1] = {name = i == n and "load on the new beam" or ("bearing %d")
      :format(i), at = i == n and f.at or nil, value = R.most, unit = "lb"}
    if not lane.working and R.least < 0 then
      a.cautions[#a.cautions + 1] = ("bearing %d lifts under some loads: hold it down "
        .. "for %s"):format(i, f.show.force(-R.least, 0))
    end
  end
end

function support.assess(case, f)
  local m = case.model
  local lost = part.lost(m)
  if part.severed(m) and not lost then
    return nil, "a joist that is cut through does not run over a support: head it off or "
      .. "sister it first"
  elseif #m.span >= 6 then
    return nil, "a joist has at most six spans here"
  end
  local spans, bearings, n = split(m, f)
  if not n then return nil, ("there is no span at %s"):format(f.show.place(f.at)) end
  for _, span in ipairs(spans) do
    if span < 24 and not lost then return nil,
      ("a span under %s would be left"):format(f.show.about(24)) end
  end
  local bad = in_the_way(case, f.at - f.bearing / 2, f.at + f.bearing / 2)
  if bad then
    return nil, ("the new support at %s would stand under %s, where the bottom is cut "
      .. "away"):format(f.show.place(f.at), bad)
  end
  local j, from = supported(case, f, spans, bearings)
  if not j then return nil, from end
  n = not lost and n or m.cuts[lost].lost == "left" and 1 or 2
  local r = review.of(j, case.options)
  if not r.computed then return nil, r.reasons[1] end
  for _, k in ipairs(r.cut.checks) do k.at = k.at and k.at + from end
  local a = {checks = r.cut.checks, reactions = r.cut.reactions, moment = r.cut.moment,
    moment_at = r.cut.moment_at, shear = r.cut.shear, deflection = r.cut.deflection,
    reaction_range = r.cut.reaction_range, forces = {}, notes = {}, pieces = {},
    cautions = {cautions.always[2], cautions.always[9]}, review = r}
  new_reasons(a, case, r)
  forces(a, r, f, n)
  held_down(a, r, f, case)
  local R_n = r.cut.reaction_range[n]
  local pressed = seat.under_openings(case, {x1 = f.at - f.bearing / 2,
    x2 = f.at + f.bearing / 2, dead = R_n.dead, live = R_n.most - R_n.dead, at = f.at})
  local reason = seat.refusal(pressed, "the new support")
  if reason then return nil, reason end
  table.move(pressed, 1, #pressed, #a.checks + 1, a.checks)
  if f.capacity then
    local R = r.cut.reaction_range[n].most
    a.checks[#a.checks + 1] = case.joint {mode = "fasteners", branch = 2, demand = R,
      G = R, Z = f.capacity, n_f = 1, member = "post", at = f.at,
      name = "post and what it stands on"}
  end
  if lost then
    a.moment_at = a.moment_at and a.moment_at + from
    a.notes[#a.notes + 1] = ("the joist bears on the post and its far bearing; the floor "
      .. "over the lost end stands on what runs on toward the wall, %s past the post")
      :format(f.show.place(j.model.overhang_left + j.model.overhang_right))
  end
  a.notes[#a.notes + 1] = lost and "repetitive factor 1.0" or "two spans or more: "
    .. "repetitive factor 1.0; live load positioned for maximum effect"
  nails.hold(a, case, {size = "8d", count = 2, where = "joist to the new beam, a "
    .. "toe-nail on either side: common practice, no strength counted"})
  a.notes[#a.notes + 1] = "the new beam, its posts and what they stand on are not "
    .. "designed here"
  a.pieces[1] = {name = "beam and posts", kind = "post", member = "post", count = 1,
    size = ("under %s, %s from it"):format(site.plied(m),
      f.show.load_up(R_n.most)),
    x1 = f.at - f.bearing / 2, x2 = f.at + f.bearing / 2, h1 = -m.d, h2 = 0,
    y1 = -m.spacing / 2, y2 = m.spacing / 2}
  local on = model.supports(j.model)
  for i, x in ipairs(on) do on[i] = x + from end
  a.diagram = part.diagram({{name = "joist, as repaired", {r, from}}}, j.model, on)
  a.sequence = sequence(f.show)
  a.title, a.x1, a.x2, a.access = support.title(f), f.at, f.at, {"below"}
  return a
end

-- One of the kinds of repairs (see fix.lua): its place among them, and why it is worked
-- out in allowable stress design alone.
support.order, support.one_format = 60, "below"

return support
