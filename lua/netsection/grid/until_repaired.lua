-- SPDX-License-Identifier: MIT
-- What the joists beside one that is out carry until it is repaired, by the grid: the
-- worst of three, repetitive factor 1.0 in all of them.
--   by the grid    its own forces by its own check, and what the grid adds to them: those
--                  with the joist cut less those with it sound
--   half to each   the load of the joist that is out spread evenly by the lever rule
--   at the cut     statics of the stubs: one of length c hangs at its tip with w c / 2;
--                  both tips and the load over the gap, w g, go to the joists beside at
--                  the gap, by the lever rule
-- Where the deck is over its strength the grid does not hold and the other two count.
local checks = require "netsection.checks"
local core = require "netsection.core"
local part = require "netsection.fix.part"
local review = require "netsection.review"

local until_repaired = {}

-- The joist by itself at repetitive factor 1.0, under further loads.
local function alone(r, more)
  local loads = {}
  for _, load in ipairs(r.joist.description.loads or {}) do loads[#loads + 1] = load end
  table.move(more or {}, 1, #(more or {}), #loads + 1, loads)
  local joist, problems = r.joist:changed {loads = loads, repetitive = 1}
  if not joist then return nil, problems[1].text end
  local found = review.of(joist, r.options or {})
  if not found.computed then return nil, found.reasons[1] end
  return found
end

-- V, M and capacities along a reviewed joist, worst live load, repetitive factor 1.0.
local function curve_of(r)
  return core.curve(r.joist.model, r.packs.rules, r.packs.standard, "cut", 24)
end

-- The largest of either sign at x of a curve, of "M" or "V".
local function own_at(curve, x, what)
  local most = 0
  for i, p in ipairs(curve) do
    local q = curve[i + 1] or p
    if p.x <= x + 1e-9 and q.x >= x - 1e-9 then
      local t = q.x > p.x and (x - p.x) / (q.x - p.x) or 0
      for _, side in ipairs {"_max", "_min"} do
        local v = p[what .. side] + (q[what .. side] - p[what .. side]) * t
        if math.abs(v) > math.abs(most) then most = v end
      end
    end
  end
  return most
end

-- Moment by the grid alone, all loads, of F_b' S of what is left, repetitive factor 1.0;
-- nil for a joist that is out or has no numbers.
function until_repaired.use(r, g)
  if r.out or not r.computed then return nil end
  local own = alone(r)
  if not own then return nil end
  local most = 0
  for _, p in ipairs(curve_of(own)) do
    local M = g:at(r.mark, p.x).M
    local cap = M < 0 and p.M_cap_neg or p.M_cap
    if cap > 0 then most = math.max(most, math.abs(M) / cap) end
  end
  return most
end

-- What the grid adds at x: forces with the joist cut less those with it sound.
local function added(found, sound, mark, x)
  local line = found.lines[found.index[mark]]
  x = math.max(line.first, math.min(line.last, x))
  local a, b = found:at(mark, x), sound:at(mark, x)
  return a.M - b.M, a.V - b.V
end

-- Of the checks of a joist as it is.
local function is_about(k, what)
  local row = checks.row[k.mode]
  return row.unrepaired and row.by == what
end
local LEFT_OUT = {uplift = true, stability = true, bearing = true, deflection = true}

-- Forces that are next to nothing have no share of them to add to.
local LEAST = 0.05

local function grown(own, more, most)
  if math.abs(own) < LEAST * most then return 1 end
  return math.max(1, (math.abs(own) + math.max(0, own > 0 and more or -more))
    / math.abs(own))
end

-- A check's ratio once its forces have grown as the grid says.
local function with_added(k, curve, most, dM, dV)
  local M = grown(own_at(curve, k.at, "M"), dM, most.M)
  local V = grown(own_at(curve, k.at, "V"), dV, most.V)
  local factor = is_about(k, "shear") and V or is_about(k, "moment") and M
    or math.max(M, V)
  return k.ratio * factor
end

-- Bending along the whole joist: the largest of M + what is added, of its capacity.
local function along(curve, found, sound, mark)
  local worst = {ratio = 0, moment = 0, at = 0}
  for _, p in ipairs(curve) do
    local dM = added(found, sound, mark, p.x)
    local M = math.max(p.M_max, 0) + dM
    local up = math.max(0, -(math.min(p.M_min, 0) + dM))
    local ratio = math.max(M > 0 and p.M_cap > 0 and M / p.M_cap or 0,
      p.M_cap_neg > 0 and up / p.M_cap_neg or 0)
    if M > worst.moment then worst.moment, worst.at = M, p.x end
    worst.ratio = math.max(worst.ratio, ratio)
  end
  return worst
end

local function bearing_ratio(k, mark, found, sound, own)
  local R, S = found:of(mark).reactions, sound:of(mark).reactions
  local more = (R[k.support] or 0) - (S[k.support] or 0)
  return k.ratio * grown(own.cut.reaction_range[k.support].most, more, 0)
end

-- @return {ratio =, moment =, at =, mode =}
local function by_grid(own, found, sound)
  local curve, mark = curve_of(own), own.mark
  local worst = along(curve, found, sound, mark)
  worst.mode = "bending"
  local most = {M = 0, V = 0}
  for _, p in ipairs(curve) do
    most.M = math.max(most.M, math.abs(p.M_max), math.abs(p.M_min))
    most.V = math.max(most.V, math.abs(p.V_max), math.abs(p.V_min))
  end
  for _, k in ipairs(own.cut.checks) do
    local ratio
    if k.binding and k.ratio and k.mode == "bearing" then
      ratio = bearing_ratio(k, mark, found, sound, own)
    elseif k.binding and k.ratio and k.at and not LEFT_OUT[checks.row[k.mode].by] then
      local dM, dV = added(found, sound, mark, k.at)
      ratio = with_added(k, curve, most, dM, dV)
    end
    if ratio and ratio > worst.ratio then worst.ratio, worst.mode = ratio, k.mode end
  end
  return worst
end

-- Loads at the gap of a joist cut through in one span, as its stubs hand them on:
-- {dead =, live =, at =}; nil where its parts do not stand as two stubs.
function until_repaired.stubs(r)
  local m = r.joist.model
  if #m.span > 1 or r.joist.description.out then return nil end
  local gap
  for _, c in ipairs(r.cuts or {}) do
    if c.gate == 6 then
      if gap then return nil end
      gap = c
    end
  end
  local L = part.total(m)
  if not gap or gap.x1 < -1e-9 or gap.x2 > L + 1e-9 then return nil end
  local a, b = math.max(gap.x1, 0), math.min(gap.x2, L)
  local left, right = part.between(m, 0, a), part.between(m, b, L)
  local over = part.between(m, a, b)
  local t = {at = (a + b) / 2}
  for _, case in ipairs {"dead", "live"} do
    t[case] = left[case][2] + right[case][1] + over[case][1] + over[case][2]
  end
  return t
end

-- The stub rule on one joist, for all that are out beside it.
local function by_stubs(r, u, by_mark)
  local loads, lb = {}, 0
  for _, mark in ipairs(u.because) do
    local t = until_repaired.stubs(by_mark[mark])
    if not t then return nil end
    for _, case in ipairs {"dead", "live"} do
      local P = t[case] * u.share[mark]
      lb = lb + P
      if P > 0 then
        loads[#loads + 1] = {kind = "point", at = t.at, load = P, case = case}
      end
    end
  end
  local found = alone(r, loads)
  return found and found.cut.ratio and {ratio = found.cut.ratio,
    moment = math.abs(found.cut.moment), load = lb} or nil
end

local function half_each(r, u)
  local found, why = alone(r, u.taken)
  if not found or not found.cut.ratio then return nil, why end
  return {ratio = found.cut.ratio, moment = math.abs(found.cut.moment)}
end

local NAME = {grid = "own plus what the grid adds", half = "half to each",
  stub = "at the cut"}

local function worst_of(g)
  local list = g.reliable and {"grid", "half", "stub"} or {"half", "stub"}
  for _, name in ipairs(list) do
    if g[name] and (not g.ratio or g[name].ratio > g.ratio) then
      g.ratio, g.by = g[name].ratio, name
    end
  end
end

-- In one line: what it carries, by which rule, and whether it is over.
local function said_of(r, g)
  local parts_of = {}
  for _, name in ipairs {"grid", "half", "stub"} do
    if g[name] then
      parts_of[#parts_of + 1] = ("%s %s (M %s)"):format(NAME[name],
        review.ratio_text(g[name].ratio), r.show.moment(g[name].moment, 0))
    end
  end
  return ("%s carries part of %s: %s%s%s"):format(r.mark, table.concat(g.because, ", "),
    table.concat(parts_of, ", "), g.reliable and "" or "; the grid does not count: "
    .. g.why, g.ratio and g.ratio > review.full and "; over 1: shore" or "")
end

-- The deck's largest moment over a joist that is out and the ones beside it, of its
-- strength; nil where that is not known.
local function deck_use(found, mark)
  local i = found.index[mark]
  local most = 0
  for k = math.max(1, i - 1), math.min(#found.order, i + 1) do
    local d = found:of(found.order[k]).deck
    most = math.max(most, d.M_max, -d.M_min)
  end
  return most, found.deck.FbS and most / found.deck.FbS
end
until_repaired.deck_use = deck_use

-- until_repaired.grid of one joist.
local function of(r, by_mark, found, sound)
  local u = r.until_repaired
  local own, why = alone(r)
  if not own then return {refused = why, because = u.because} end
  local g = {because = u.because, reliable = true, Cr = 1.0}
  for _, mark in ipairs(u.because) do
    local M, use = deck_use(found, mark)
    g.deck = math.max(g.deck or 0, M)
    if use and use > review.full then
      g.reliable = false
      g.why = ("deck at %s of its strength at the gap, sharing not reliable"):format(
        review.ratio_text(use))
    end
  end
  -- A joist that is not permitted or cut through by itself has no ratio to add to.
  if own.cut.ratio then g.grid = by_grid(own, found, sound) end
  g.half = half_each(r, u)
  g.stub = by_stubs(r, u, by_mark)
  worst_of(g)
  g.said = said_of(r, g)
  return g
end

-- Gives the joists beside those that are out their until_repaired.grid. Nothing else of
-- their reviews changes.
-- @param found, sound grids under the loads of the floor, as found and with all sound
function until_repaired.add(reviews, found, sound)
  local by_mark = {}
  for _, r in ipairs(reviews) do by_mark[r.mark] = r end
  for _, r in ipairs(reviews) do
    if r.until_repaired then
      r.until_repaired.grid = of(r, by_mark, found, sound)
    end
  end
end

return until_repaired
