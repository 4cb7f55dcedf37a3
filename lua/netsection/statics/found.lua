-- SPDX-License-Identifier: MIT
-- The loads of a joist in ft, plf and lb (or m, N/m and N), and those of them under
-- which an effect is what the core says it is: live load where it raises the effect, or
-- on whole spans and overhangs. None is found where the core's number rests on more than
-- statics.
local beam = require "netsection.statics.beam"
local core = require "netsection.core"
local packs = require "netsection.packs"
local part = require "netsection.fix.part"
local roof_loads = require "netsection.roof_loads"
local point = require "netsection.point"
local pattern = require "netsection.statics.pattern"
local units = require "netsection.units"

local found = {}

local CLOSE = 1e-6       -- share by which a sum may differ from the core's number

function found.agrees(x, y)
  return math.abs(x - y) <= CLOSE * math.max(math.abs(x), math.abs(y), 1e-9)
end

-- The case of a load among factors: its word, or the symbol of its own duration.
local function case_of(l)
  return l.own and roof_loads.symbol(l) or l.case
end

-- Loads {w, w2, a, b} and {P, a}, each with its case; nil where one is not on the joist.
local function loads_of(m, g, unit)
  local list = {}
  local foot, lb, plf = unit.length, unit.force, unit.line_load
  local function line(w, a, b, case, w2)
    if w < 0 or a < g.first - 1e-9 or b > g.last + 1e-9 then return false end
    if (w > 0 or w2) and b > a then
      list[#list + 1] = {w = w, w2 = w2, a = a, b = math.min(b, g.last), case = case}
    end
    return true
  end
  line(m.dead * m.spacing / 12 * plf, g.first, g.last, "dead")
  line(m.live * m.spacing / 12 * plf, g.first, g.last, "live")
  for _, of in ipairs(roof_loads.of_floor(m)) do
    line(of[3] * m.spacing / 12 * plf, g.first, g.last, of[2] == "snow" and "snow"
      or "roof live")
  end
  for _, l in ipairs(m.lines) do
    local w1, w2 = part.plf(l, m)
    local a, b = l.whole and g.first or l.from / foot, l.whole and g.last or l.to / foot
    local even = math.abs(w1 - w2) <= 1e-9
    local put = line(w1 * plf, a, b, case_of(l), not even and w2 * plf or nil)
    if not put then return nil end
  end
  for _, p in ipairs(m.points) do
    local a = p.at / foot
    if p.P < 0 or a < g.first - 1e-9 or a > g.last + 1e-9 then return nil end
    list[#list + 1] = {P = p.P / lb, a = a, case = case_of(p)}
  end
  return list
end

-- The spans and overhangs as stretches.
local function regions_of(g)
  local list, ends = {}, {g.first}
  for _, x in ipairs(g.at) do ends[#ends + 1] = x end
  ends[#ends + 1] = g.last
  for i = 1, #ends - 1 do
    if ends[i + 1] > ends[i] then list[#list + 1] = {a = ends[i], b = ends[i + 1]} end
  end
  return list
end

--- What sums of a state of a review work with; nil where its loads are of other kinds.
-- @param m the model that its checks are of: the joist's, or of a piece or a ply
-- @param state "uncut" or "cut", @param show the system of units
function found.of(r, m, state, show)
  -- of a joist without a seat the numbers are those of it on all of them
  if m == r.joist.model and r.cut.stopped == "no sound seat" then state = "uncut" end
  local stretches, whole = {}, nil
  for _, s in ipairs(core.stiffness(m, r.packs.rules, r.packs.standard)) do
    local EI, last = state == "uncut" and s.uncut or s.cut, stretches[#stretches]
    whole = whole or s.uncut
    if EI <= 0 and not m.fix then return nil end
    if last and math.abs(last.EI - EI) < 1e-12 * EI then last.to = s.to else
      stretches[#stretches + 1] = {from = s.from, to = s.to, EI = EI}
    end
  end
  local g = beam.of(m, show.sums.length, stretches)
  g.whole = whole
  local list = loads_of(m, g, show.sums)
  if not list then return nil end
  local factors = {L = {D = 0, L = 1}}
  local standard = packs.standard(r.standard)
  for _, c in ipairs(standard and roof_loads.combinations(m, standard) or {}) do
    factors[c.name] = c
    if c.Lr or c.S or c.L1 or c.L2 then
      local of = roof_loads.variable(c)
      factors[of] = {D = 0, L = c.L, Lr = c.Lr, S = c.S, L1 = c.L1, L2 = c.L2}
    end
  end
  return {m = m, g = g, list = list, factors = factors, regions = regions_of(g),
    unit = show.sums}
end

local function has_live(list)
  for _, l in ipairs(list) do
    if l.case ~= "dead" then return true end
  end
  return false
end

-- Whether a combination has a variable load at all.
local function varies(factors)
  return factors.L ~= 0 or factors.Lr ~= nil or factors.S ~= nil
    or factors.L1 ~= nil or factors.L2 ~= nil
end

-- Sets of spans and overhangs with live load, all of them first.
local function subsets(regions)
  local out, n = {}, #regions
  for bits = (1 << n) - 1, 0, -1 do
    local on = {}
    for i = 1, n do
      if bits & 1 << i - 1 ~= 0 then on[#on + 1] = regions[i] end
    end
    out[#out + 1] = on
  end
  return out
end

local MOST_REGIONS = 6

--- The loads under which an effect has a value, whatever its sign.
-- An effect of loads with the forces of rows that follow from them: by what a unit force
-- at each row does.
local function with_rows(s, effect)
  local rows, of = s.rows, {}
  for i, x in ipairs(rows.places) do
    local list = {{P = rows.sign, a = x}}
    of[i] = effect(list, beam.moments(s.g, list))
  end
  return function(list, M, line, factors)
    local own, F = rows.loads(list, not line and factors)
    if own ~= list then M = beam.moments(s.g, own) end
    local sum = effect(own, M, line)
    for i, f in ipairs(F) do sum = sum + f * of[i] end
    return sum
  end
end

-- A state that has `full` adds to the loads what follows from them, as forces of rows.
-- @param effect function(list, moments over the supports, true where the list is a unit
--   load of an influence line)
-- @param x the effect's place or nil, @param factors {D =, L =}
-- @return {list, M = over the supports, value, on = where live load is, or "all", words,
--   before = lines of what was added}; nil where none has
function found.loads(s, effect, x, value, factors)
  local measured = s.rows and with_rows(s, effect) or effect
  local function try(on)
    local list = pattern.loads(s.list, on, factors)
    local M = beam.moments(s.g, list)
    local v = measured(list, M, false, factors)
    if not found.agrees(math.abs(v), math.abs(value)) then return nil end
    local f = {list = list, M = M, value = v, words = found.words(s, on, factors)}
    if s.full then f.list, f.M, f.before = s.full(list, factors, f.words) end
    return f
  end
  local function influence(list, M) return measured(list, M, true) end
  local hit = try "all"
  if hit or not varies(factors) or not has_live(s.list) then return hit end
  for sign = 1, -1, -2 do
    hit = try(pattern.of(s.g, influence, x, sign, s.splits))
    if hit then return hit end
  end
  if #s.regions > MOST_REGIONS then return nil end
  for _, on in ipairs(subsets(s.regions)) do
    hit = try(on)
    if hit then return hit end
  end
end

--- Feet or meters to a ten-thousandth: places enter in squares.
function found.ft(x)
  local said = units.fixed(x, 4):gsub("0+$", ""):gsub("%.$", "")
  return said == "-0" and "0" or said
end

-- Where roof live load or snow is in: "D+0.75L+0.75S", and where the variable ones are.
local function roof_words(s, on, factors)
  local of = roof_loads.variable(factors)
  local all = factors.D == 0 and of or ("%sD+%s"):format(factors.D == 1 and ""
    or point.format("%g", factors.D), of)
  if on == "all" then return all end
  local list = {}
  for i, p in ipairs(on) do
    list[i] = ("%s to %s %s"):format(found.ft(p.a), found.ft(p.b), s.unit.unit)
  end
  return #list == 0 and all .. ", no variable load"
    or ("%s, variable loads on %s"):format(all, table.concat(list, " and "))
end

--- "live load on 0 to 12 ft", "all loads".
function found.words(s, on, factors)
  local ft = found.ft
  if factors.Lr or factors.S then return roof_words(s, on, factors) end
  local plain = factors.D == 1 and factors.L == 1 or factors.L == 0 or factors.D == 0
  local more = plain and "" or point.format(", %gD + %gL", factors.D, factors.L)
  if factors.D == 0 and on == "all" then return "live load" end
  if factors.L == 0 or not has_live(s.list) then
    return "dead load" .. (factors.D ~= 1 and point.format(" times %g", factors.D) or "")
  end
  local joined = {}
  for _, p in ipairs(on == "all" and s.regions or on) do
    local last = joined[#joined]
    if last and math.abs(last.b - p.a) < 1e-9 then last.b = p.b else
      joined[#joined + 1] = {a = p.a, b = p.b}
    end
  end
  if #joined == 0 then return "no live load" .. more end
  if #joined == 1 and joined[1].a <= s.g.first + 1e-9
    and joined[1].b >= s.g.last - 1e-9 then
    return "all loads" .. more
  end
  for i, p in ipairs(joined) do
    joined[i] = ("%s to %s %s"):format(ft(p.a), ft(p.b), s.unit.unit)
  end
  return "live load on " .. table.concat(joined, " and ") .. more
end

return found
