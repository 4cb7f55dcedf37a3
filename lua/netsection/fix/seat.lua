-- SPDX-License-Identifier: MIT
-- Where a new reaction meets wood that is cut: new wood on the seat of a notched end,
-- and a support under an opening. No member's bottom may lie under its seat, and a
-- chord under
-- an opening is a short beam for what presses on it.
local core = require "netsection.core"
local lane = require "netsection.lane"
local model = require "netsection.model"
local ordered = require "netsection.point".pairs
local part = require "netsection.fix.part"
local site = require "netsection.fix.site"
local tostring = require "netsection.point".text

local seat = {}

--- How high the seat at an end stands over the joist's bottom edge: the depth of an end
-- notch in the bottom there. @param right true for the right end
function seat.height(m, right)
  local high = 0
  for _, c in ipairs(m.cuts) do
    if c.kind == "end_notch" and not c.top_face and (c.right_end or false) == right then
      high = lane.max(high, c.depth + (c.overcut or 0))
    end
  end
  return high
end

--- How new wood meets the seats of a joist.
-- @param t {rise = of its bottom over the joist's, d = its depth, bears = {left =, right
-- =},   hanger = true: it hangs at its ends}
-- @param case with the joist and the standard in force
-- @return {{right =, notch = depth, shim = height}, ...}; or nil and a reason
function seat.fit(case, t)
  local m, ends = case.model, {}
  for _, right in ipairs {false, true} do
    local on = right and t.bears.right or not right and t.bears.left
    if on and not t.hanger then
      local up = seat.height(m, right) - t.rise
      if up > t.d / 4 + 1e-6 then
        return nil, ("at the %s end its bottom would lie %s under the seat, and a notch "
          .. "of that depth is over d/4 (%s): give it a hanger, or a depth and "
          .. "rise that meet the seat"):format(right and "right" or "left",
            m.show.section(up), case:rule "gates")
      end
      ends[#ends + 1] = {right = right, notch = up > 1e-6 and up or nil,
        shim = up < -1e-6 and -up or nil}
    end
  end
  return ends
end

--- What the carpenter reads of the ends.
function seat.notes(ends, name, show)
  local notes = {}
  for _, e in ipairs(ends) do
    local where = e.right and "right" or "left"
    if e.notch then
      notes[#notes + 1] = ("notch the bottom of the %s %s deep at the %s end, over the "
        .. "bearing only, to sit on the seat"):format(name, show.section(e.notch), where)
    elseif e.shim then
      notes[#notes + 1] = ("pack the %s %s at the %s end with hardwood or steel over the "
        .. "whole bearing"):format(name, show.section(e.shim), where)
    end
  end
  return notes
end

-- Shear of the wood at a notched end, the reaction in full:
-- V <= 2/3 F_v' b d_n (d_n/d)^2.
local function notch_check(case, m, e, R, at, member)
  local V, _, index, combination = part.worst(case.standard, R.dead, R.live)
  local F = core.adjust(lane.first(m), case.standard.core, "Fv", index)
  return case.joint {mode = "notch-shear", branch = 1, demand = V, V = V, F = m.Fv,
    F_a = F.value, CD = F.CD, CM = F.CM, Ct = F.Ct, Ci = F.Ci, K = F.K,
    b = m.b * m.plies, d = m.d, d_n = m.d - e.notch, member = member, at = at,
    name = ("notched %s end of the new wood"):format(e.right and "right" or "left"),
    combination = combination}
end

--- Checks of new wood at the ends that get a notch.
-- @param m model of the new wood; @param R {left = {dead, live}, right = ...}: its
-- reactions
function seat.checks(case, m, ends, R, member)
  local list, L = {}, part.total(case.model)
  for _, e in ipairs(ends) do
    if e.notch then
      list[#list + 1] = notch_check(case, m, e, e.right and R.right or R.left,
        e.right and L or 0, member)
    end
  end
  return list
end

--- `hanger = true` or {capacity =}: the new wood hangs at its ends. @return nil, or
-- {capacity = lb or nil}
function seat.read_hanger(t, found, part_)
  if t.hanger == nil or t.hanger == false then return nil end
  if t.hanger == true then return {} end
  if type(t.hanger) ~= "table" then
    found:add(part_, "hanger", "true or {capacity = a load} expected")
    return nil
  end
  for name in ordered(t.hanger) do
    if name ~= "capacity" then
      found:add(part_, "hanger", ("takes capacity, not '%s'"):format(tostring(name)))
    end
  end
  local capacity = t.hanger.capacity
  return {capacity = capacity ~= nil and model.readers.load(found, part_,
    "hanger.capacity", capacity, "point") or nil}
end

--- Reactions of a reviewed joist of one span or more at its ends.
function seat.reactions(r)
  local n = #r.cut.reaction_range
  local left_D, left_L = part.reaction(r, 1)
  local right_D, right_L = part.reaction(r, n)
  return {left = {dead = left_D, live = left_L}, right = {dead = right_D, live = right_L}}
end

--- Adds checks, notes and pieces of the ends of new wood to an assessment.
-- @param t {ends = of seat.fit, hanger = of seat.read_hanger, name =, R = {left =, right
-- =}, count = of hangers (2)}
function seat.add(a, case, m, t)
  local checks = seat.checks(case, m, t.ends, t.R, t.name)
  a.seats = t.ends
  for _, note in ipairs(seat.notes(t.ends, t.name,
    m.show)) do a.notes[#a.notes + 1] = note end
  if t.hanger then
    local most = lane.max(t.R.left.dead + t.R.left.live, t.R.right.dead + t.R.right.live)
    a.pieces[#a.pieces + 1] = site.hanger {show = m.show,
      holds = ("the %s, %s"):format(t.name,
      site.plied(m)), load = most, count = t.count or 2}
    a.notes[#a.notes + 1] = site.HANGERS
    if t.hanger.capacity then
      checks[#checks + 1] = case.joint {mode = "fasteners", branch = 2, demand = most,
        G = most, Z = t.hanger.capacity, n_f = 1, member = t.name,
        name = "hangers of the " .. t.name}
    else
      a.notes[#a.notes + 1] = ("hangers of the %s, %s each, not checked: give "
        .. "hanger = {capacity = the maker's value}"):format(t.name, m.show.force(most,
          0))
    end
  end
  table.move(checks, 1, #checks, #a.checks + 1, a.checks)
end

------------------------------------------------------------------------ under an opening

-- Openings whose edge is within d of a bearing x1..x2, with the wood below each.
local function openings_near(case, x1, x2, from, to)
  local m, list = case.model, {}
  for i, c in ipairs(case.review.cuts) do
    local kind = m.cuts[i].kind
    if (kind == "hole" or kind == "slot") and c.x2 > (from or c.x1)
      and c.x1 < (to or c.x2)
      and lane.max(c.x1 - x2, x1 - c.x2, 0) < m.d - 1e-9 then
      list[#list + 1] = {name = c.name, x1 = c.x1, x2 = c.x2, below = c.y1,
        cut = m.cuts[i]}
    end
  end
  return list
end

--- Checks of the chord below each opening near a new support, as a short beam for the
-- support's reaction: bending R a/4 (free; R a/8 fixed is less) and shear R.
-- @param t {x1 =, x2 = of the bearing, dead =, live = its reaction, at =, from =, to = of
--   the wood that bears there, all of it by default}
-- @return list of checks
function seat.under_openings(case, t)
  local list, m = {}, case.model
  for _, o in ipairs(openings_near(case, t.x1, t.x2, t.from, t.to)) do
    local R, _, index, combination = part.worst(case.standard, t.dead, t.live)
    local a = o.cut.diameter or o.cut.to - o.cut.from
    local h, b = lane.max(o.below, 1e-3), m.b * m.plies
    local F = core.adjust(lane.first(m), case.standard.core, "Fb", index)
    local name = ("wood below %s over the support"):format(o.name)
    list[#list + 1] = case.joint {mode = "opening-frame", branch = 3, demand = R, R = R,
      a = a, b = b, h = h, F = m.Fb, F_a = F.value, CD = F.CD, CM = F.CM, Ct = F.Ct,
      CL = 1, CF = F.CF, Ci = F.Ci, Cr = 1, K = F.K, member = "host", at = t.at,
      name = name, combination = combination}
    list[#list + 1] = part.full_shear(case, case.joist, {dead = t.dead, live = t.live,
      d = h, member = "host", at = t.at, name = name})
  end
  return list
end

--- A reason where one of these checks fails, else nil.
function seat.refusal(checks, what)
  for _, k in ipairs(checks) do
    if k.ratio > 1 + 1e-9 then
      return ("%s presses on the %s: as a short beam it is at %s of its %s; move the "
        .. "support past d of the opening"):format(what, k.name, lane.text("%.2f",
        k.ratio), k.mode
        == "shear" and "shear strength" or "bending strength")
    end
  end
end

return seat
