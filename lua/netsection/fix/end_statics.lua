-- SPDX-License-Identifier: MIT
-- Statics of a joist whose end is lost and of the sister that carries it: the sister
-- bears at x = 0, the joist at x = L alone; two groups tie them. Statically determinate,
-- so every force has an influence line of straight pieces, and its envelope under live
-- load that may be absent anywhere is exact.
--
-- Every number may be a column (see lane.lua): the answers are columns then.
--
-- x runs from the lost end's bearing. l: where the joist begins to count; x_i, x_o: inner
-- and outer group; a = x_o - x_i. Load on 0..l is on the sister, beyond it on the joist.
-- For a unit load at s, with [s < l] 1 where it lies on the sister:
--   R = 1 - s/L;  M_i = R x_i - [s < l] (x_i - s)
--   F_o = M_i/a, the sister down on the joist;  F_i = F_o + R - [s < l], it lifts it
-- Lines and envelopes are worked by the core (csrc/repair/end_sister.c).
local core = require "netsection.core"
local lane = require "netsection.lane"
local model = require "netsection.model"
local part = require "netsection.fix.part"

local statics = {}
local methods = {}
local meta = {__index = methods}

--- A force of the two at x: dead, most and least of the live load, live load everywhere,
-- and what of it asks most: V, CD, index of the combination, x. @param sign 1 or -1: of
-- that sign alone; nil: either
-- @param name "R", "far", "M_i", "F_i", "F_o", "V_sister", "M_sister", "V_host",
-- "M_host", "V_far"
function methods:of(name, x, sign)
  return core.end_force(self, name, x or 0, sign or 0)
end

--- The same where it asks most between a and b.
function methods:peak(name, a, b, sign)
  return core.end_force(self, name, {from = a, to = b}, sign or 0)
end

--- Sag by virtual work over both members and the slip of both groups.
-- @param t {EI_host =, EI_sister =, K_i =, K_o = of a group, lb/in, creep =, more = how
--   many times as much cuts let it sag}
-- @return {live =, live_at =, total =, total_at =}
function methods:sag(t)
  return core.end_sag(self, t)
end

--- Where a force may have its peak between a and b: ends, loads, groups, and between.
function methods:places(a, b)
  local list, step = {}, (b - a) / 64
  for i = 0, 64 do list[#list + 1] = a + i * step end
  local function edge(x)
    for _, at in ipairs {x - 1e-6, x + 1e-6} do
      if at >= a and at <= b then list[#list + 1] = at end
    end
  end
  for _, x in ipairs {self.l, self.x_i, self.x_o} do edge(x) end
  for _, load in ipairs(self.lines) do
    edge(load.a)
    edge(load.b)
  end
  for _, load in ipairs(self.points) do edge(load.at) end
  table.sort(list)
  return list
end

---------------------------------------------------------------------------------- loads

local function add(g, a, b, w1, w2, case)
  local lo, hi = lane.max(a, 0), lane.min(b, g.L)
  if hi <= lo or w1 + w2 <= 0 then return end
  local slope = (w2 - w1) / (b - a)
  w1, w2 = w1 + slope * (lo - a), w1 + slope * (hi - a)
  if g.mirrored then lo, hi, w1, w2 = g.L - hi, g.L - lo, w2, w1 end
  g.lines[#g.lines + 1] = {a = lo, b = hi, w1 = w1, w2 = w2,
    live = case == "live"}
end

local function read_loads(g, m)
  for _, case in ipairs {"dead", "live"} do
    local w = m[case] * m.spacing / 144
    add(g, 0, g.L, w, w, case)
  end
  for _, l in ipairs(m.lines) do
    local w1, w2 = part.plf(l, m)
    local a, b = l.whole and 0 or l.from, l.whole and g.L or l.to
    add(g, a, b, w1 / 12, w2 / 12, l.case)
  end
  for _, p in ipairs(m.points) do
    local at = lane.min(lane.max(p.at, 0), g.L)
    g.points[#g.points + 1] = {at = g.mirrored and g.L - at or at, P = p.P,
      live = p.case == "live"}
  end
end

--- @param m a joist's model, of one span; @param t {support =, l =, x_i =, x_o =} from
-- the lost end's bearing; @param combinations of the standard
function statics.of(m, t, combinations)
  local L = model.total(m)
  local right = t.support == "right"
  local far = m.bearing[right and 1 or #m.bearing]
  local g = {L = L, l = t.l, x_i = t.x_i, x_o = t.x_o, d = m.d, face = L - far / 2,
    mirrored = right, lines = {}, points = {}, combinations = combinations}
  read_loads(g, m)
  return setmetatable(g, meta)
end

return statics
