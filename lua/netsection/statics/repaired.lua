-- SPDX-License-Identifier: MIT
-- The state with a member beside the joist, for sums: what was on the joist while it
-- was fastened stays on it alone, all later load is on both. By the slip of the fasteners
-- the two are beams by themselves under the rows' forces (statics.tied); by stiffness
-- each has its part of what both carry.
local beam = require "netsection.statics.beam"
local found = require "netsection.statics.found"
local sums = require "netsection.statics.sums"
local tied = require "netsection.statics.tied"

local repaired = {}

local n, ft, step = sums.number, found.ft, sums.step

-- What of a list acts on both members: all where the joist was relieved, live load and
-- what a prop held where it was not.
local function later(fix, s, list, factors)
  if fix.lift == "unloaded" then return list, {} end
  local after, before = {}, {}
  for _, l in ipairs(list) do
    local to = l.case == "dead" and before or after
    to[#to + 1] = l
  end
  if fix.lift == "prop" and factors then
    local P, a = fix.prop / s.unit.force * factors.D, fix.prop_at / s.unit.length
    if P ~= 0 then
      after[#after + 1] = {P = P, a = a}
      before[#before + 1] = {P = -P, a = a}
    end
  end
  return after, before
end

---------------------------------------------------------------------------
-- By slip
---------------------------------------------------------------------------

local function row_line(s, i, F, words)
  local t = s.t
  return {symbol = "F_" .. i, value = F, unit = s.unit.force_unit,
    says = ("row at %s %s, joist to new member, down positive: k times (sag of joist "
      .. "less sag of new member), k %s %s; %s"):format(ft(t.rows[i]), s.unit.unit,
      n(t.shown[i]), t.unit, words)}
end

-- Loads on each member with the rows' forces. @return those on the joist, those on the
-- new member, the forces
local function coupled(t, s, fix, list, factors)
  local after = later(fix, s, list, factors)
  local F = tied.forces(t, after)
  local old, new = tied.apart(t, list)
  for i, x in ipairs(t.rows) do
    old[#old + 1] = {P = -F[i], a = x, row = i}
    new[#new + 1] = {P = F[i], a = x, row = i}
  end
  return old, new, F
end

-- The joist cut through in one span: its stubs are free at the gap.
local function gap_of(r, m)
  for i, c in ipairs(m.cuts) do
    if c.kind == "sever" then
      local own = r.cuts[i]
      return own and {own.x1, own.x2}
    end
  end
end

local function between_of(fix, gap)
  if not fix.between then return gap end
  local a, b = fix.from, fix.to
  for _, x in ipairs(fix.station) do
    if x <= gap[1] then a = math.max(a, x) else b = math.min(b, x) end
  end
  return {a, b}
end

-- Whole wood in the gap, where nothing bends: only that no stretch is without any.
local function bridged(g, whole)
  for _, s in ipairs(g.EI) do
    if s.EI <= 0 then s.EI = whole end
  end
end

-- State by slip; nil where it is none of those that are written out.
local function by_slip(r, m, s, show)
  local fix, u = m.fix, s.unit
  local gap = gap_of(r, m)
  if gap and (s.g.spans > 1 or s.g.first < 0 or s.g.last > s.g.at[2]) then return nil end
  local function at(x) return x / u.length end
  local t = {rows = {}, k = {}, shown = {}, from = at(fix.from), to = at(fix.to),
    EI_new = fix.E * fix.b * fix.d ^ 3 / 12, bears_left = fix.bears_left,
    bears_right = fix.bears_right}
  -- as E I is in lb-in2 and places are in ft or m
  local stiff = u.length ^ 2 * u.force
  for i, x in ipairs(fix.station) do
    local k = fix.stiff * fix.count[i]
    t.rows[i], t.k[i] = at(x), k * u.length / u.force * stiff
    t.shown[i], t.unit = show.coherent(k, "lb/in")
  end
  if gap then
    local on = between_of(fix, gap)
    t.gap, t.slide = {at(gap[1]), at(gap[2])}, at((gap[1] + gap[2]) / 2)
    t.on_new = {at(on[1]), at(on[2])}
    bridged(s.g, s.g.whole)
  end
  s.splits = table.move(t.on_new or {}, 1, 2, #t.rows + 1, {table.unpack(t.rows)})
  if not tied.of(s, t) then return nil end
  s.t, s.fix, s.bare = t, fix, {}
  for name, value in pairs(s) do s.bare[name] = value end   -- loads without the rows
  if not gap then
    s.rows = {places = t.rows, sign = -1, loads = function(list, factors)
      return list, tied.forces(t, (later(fix, s, list, factors)))
    end}
    s.full = function(list, factors, words)
      local old, _, F = coupled(t, s, fix, list, factors)
      local lines = {}
      for i in ipairs(t.rows) do
        lines[i] = words and row_line(s, i, F[i], words)
      end
      return old, beam.moments(s.g, old), lines
    end
  end
  return s
end

---------------------------------------------------------------------------
-- Pieces with a free end
---------------------------------------------------------------------------

-- Loads beyond x up to a free end.
local function beyond(list, x, side, from, to)
  if side == "right" then return beam.within(list, x, to) end
  return beam.within(list, from, x)
end

-- M and V of what lies beyond x.
local function turning(list, x)
  local M, V = 0, 0
  for _, l in ipairs(list) do
    local P, c = beam.resultant(l)
    M, V = M - P * math.abs(c - x), V + P
  end
  return M, V
end

-- Lines of a free body: the rows' forces that enter, then the sum.
local function free_lines(s, symbol, x, side, list, f, F, whose)
  local out, named = {}, {}
  for _, l in ipairs(list) do
    if l.row and not named[l.row] then
      named[l.row] = true
      out[#out + 1] = row_line(s, l.row, F[l.row], f.words)
    end
  end
  local arm = s.unit.arm
  local M, V = turning(list, x)
  local near = sums.from(list, x, side == "left")
  if symbol == "M" then
    local minus = M < 0 and "" or "-"
    out[#out + 1] = step("M", ("%s%d*(loads on %s beyond x times their distance), x = %s "
      .. "%s on the joist, toward its free end on the %s; %s"):format(minus, arm, whose,
      ft(x), s.unit.unit, side, f.words), ("%s%d*(%s)"):format(minus, arm,
      sums.arms(near)), math.abs(M) * arm, s.unit.moment_unit)
  else
    local said = sums.amounts(near)
    out[#out + 1] = step("V", ("loads on %s beyond x, x = %s %s on the joist, toward its "
      .. "free end on the %s; %s"):format(whose, ft(x), s.unit.unit, side, f.words),
      V < 0 and "-(" .. said .. ")" or said, math.abs(V), s.unit.force_unit)
  end
  return out
end

-- The free piece that a check is of: a stub, or the new member where it has one bearing
-- at most. @return its ends, the side of the free end, "old" or "new"
local function free_piece(s, x, new)
  local t = s.t
  if not new then
    local left = x < t.slide
    return left and s.g.first or t.slide, left and t.slide or s.g.last,
      left and "right" or "left", "old"
  end
  return t.from, t.to, t.bears_left and "right" or "left", "new"
end

-- M or V of a free piece at x.
local function of_free(s, symbol, x, value, factors, new)
  local from, to, side, whose = free_piece(s, x, new)
  local tiny = 1e-9
  for _, at in ipairs {x, x + tiny, x - tiny} do
    local function part(list, all)
      local old, other, F = coupled(s.t, s, s.fix, list, all)
      return beyond(whose == "old" and old or other, at, side, from, to), F
    end
    local function effect(list, _, line)
      local M, V = turning((part(list, not line and factors)), x)
      return symbol == "M" and M or V
    end
    local f = found.loads(s.bare, effect, x, value, factors)
    if f then
      local list, F = part(f.list, factors)
      return free_lines(s, symbol, x, side, list, f, F, whose == "old" and "the stub"
        or "the new member")
    end
    if symbol == "M" then return nil end
  end
end

-- The new member on two bearings of its own, as a state of its own.
local function own_span(s)
  local t = s.t
  local g = {at = {t.from, t.to}, spans = 1, first = t.from, last = t.to, EI = {},
    even = true}
  local o = {m = s.m, g = g, list = s.list, factors = s.factors, regions = s.regions,
    unit = s.unit, splits = s.splits}
  o.rows = {places = t.rows, sign = 1, loads = function(list, factors)
    local _, new = tied.apart(t, list)
    return new, tied.forces(t, (later(s.fix, s, list, factors)))
  end}
  o.full = function(list, factors, words)
    local _, new, F = coupled(t, s, s.fix, list, factors)
    local lines = {}
    for i in ipairs(t.rows) do
      lines[i] = words and row_line(s, i, F[i], words)
    end
    return new, {0, 0}, lines
  end
  return o
end

---------------------------------------------------------------------------
-- By stiffness
---------------------------------------------------------------------------

-- Both as one beam, and the joist by itself for what it carried before.
local function by_share(r, m, s, show)
  local fix, u = m.fix, s.unit
  local EI_new = fix.E * fix.b * fix.d ^ 3 / 12
  local g, a, b = {}, fix.from / u.length, fix.to / u.length
  for name, value in pairs(s.g) do g[name] = value end
  g.EI, g.f = {}, nil
  local least, most = math.huge, 0
  for _, part in ipairs(s.g.EI) do
    for _, cut in ipairs {{part.a, math.min(part.b, a)}, {math.max(part.a, a),
      math.min(part.b, b), true}, {math.max(part.a, b), part.b}} do
      if cut[2] > cut[1] + 1e-12 then
        local EI = part.EI + (cut[3] and EI_new or 0)
        if cut[3] and fix.share == "new" then EI = EI_new end
        g.EI[#g.EI + 1] = {a = cut[1], b = cut[2], EI = EI}
        least, most = math.min(least, EI), math.max(most, EI)
      end
    end
  end
  g.even = most <= least * (1 + 1e-12)
  local both = {}
  for name, value in pairs(s) do both[name] = value end
  both.g = g
  s.both, s.fix, s.EI_new = both, fix, EI_new
  local apart = {}
  for name, value in pairs(s) do apart[name] = value end
  s.slip = by_slip(r, m, apart, show)
  return s
end

--- The joist's part of what both carry at x: beside whole wood for the joist, beside what
-- is left there for the new member. @return its number, words and numbers
function repaired.share(s, x, new, show)
  local fix, m = s.fix, s.m
  local place = x * s.unit.length
  if place < fix.from - 1e-9 or place > fix.to + 1e-9 then return nil end
  local EI = s.g.whole
  if new and fix.share == "stiffness" then EI = beam.EI_at(s.g, x) end
  local function c(v, unit) return n((show.coherent(v, unit))) end
  local E = s.g.whole / (m.b * m.plies * m.d ^ 3 / 12)
  local a = ("%s*%s"):format(c(E, "psi"), c(EI / E, "in4"))
  local b = ("%s*%s"):format(c(fix.E, "psi"), c(s.EI_new / fix.E, "in4"))
  if new then
    if fix.share ~= "stiffness" then return 1 end
    return s.EI_new / (EI + s.EI_new), "E_n*I_n/(E*I + E_n*I_n), part of the new member",
      ("%s/(%s + %s)"):format(b, a, b)
  end
  if fix.share == "new" then return 0 end
  return EI / (EI + s.EI_new), "E*I/(E*I + E_n*I_n), the joist's part",
    ("%s/(%s + %s)"):format(a, a, b)
end

--- The parts of an effect by stiffness: {state, share or nil, loads of a list}.
function repaired.parts(s, q, new)
  local fix = s.fix
  local parts = {{s = s.both, q = q, tag = "a", words = "on both, later than the repair",
    take = function(list, factors) return (later(fix, s, list, factors)) end}}
  if fix.lift ~= "unloaded" and (not new or fix.share == "worst") then
    parts[2] = {s = s, tag = "d", words = "on the joist alone, there before the repair",
      take = function(list, factors)
        return select(2, later(fix, s, list, factors))
      end}
  end
  return parts
end

---------------------------------------------------------------------------

--- A state of a model with a member beside it. @param s of found.of without the repair
-- @return s with what its kind of repair needs, or nil
function repaired.of(r, m, s, show)
  local fix = m.fix
  if fix.kind ~= "beside" then return s end
  local severed = gap_of(r, m) ~= nil
  if fix.share == "slip" or severed then return by_slip(r, m, s, show) end
  return by_share(r, m, s, show)
end

repaired.of_free, repaired.own_span, repaired.turning = of_free, own_span, turning
repaired.row_line = row_line

--- Loads on the joist and on the new member with the rows' forces, and those.
function repaired.coupled(s, list, factors)
  return coupled(s.t, s, s.fix, list, factors)
end

--- Force of a row by itself: its equation. @return lines for G
function repaired.row(s, x, value, factors, symbol)
  for i, at in ipairs(s.t.rows) do
    if math.abs(at - x) < 1e-9 then
      local function effect(list, _, line)
        return tied.forces(s.t, (later(s.fix, s, list, not line and factors)))[i]
      end
      local f = found.loads(s.bare, effect, nil, value, factors)
      if f then
        local line = row_line(s, i, f.value, f.words)
        line.symbol, line.value = symbol, math.abs(f.value)
        return {line}
      end
    end
  end
end

return repaired
