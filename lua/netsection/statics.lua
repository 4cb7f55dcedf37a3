-- SPDX-License-Identifier: MIT
-- Reactions, moments and shears of a joist as sums that a reader can redo: from the loads
-- of the sheet, in ft, plf and lb, or in m, N/m and N. Moments over inner supports are
-- those of the three-moment equation. These are a second statement of what the core
-- found; where the two differ there are no lines and the sheet refers to the numbers.
local beam = require "netsection.statics.beam"
local forces = require "netsection.statics.forces"
local found = require "netsection.statics.found"
local opening = require "netsection.statics.opening"
local parted = require "netsection.statics.parted"
local repaired = require "netsection.statics.repaired"
local sag = require "netsection.statics.sag"
local sums = require "netsection.statics.sums"

local statics = {}

local n, step = sums.number, sums.step
local support_lines, end_force = sums.support_lines, sums.end_force
local with_before, nearest, near_face = forces.with_before, forces.nearest,
  forces.near_face

---------------------------------------------------------------------------
-- A member's part by stiffness
---------------------------------------------------------------------------

-- Lines of an effect that is so much of what both carry and all of what the joist carried
-- before. @param one {effect = function(s) -> function(list, M), lines = function(s, f)},
-- @param q its share {number, formula, numbers}, or nil: all of it
local function by_parts(s, symbol, one, x, value, factors, q, new, unit)
  local parts = repaired.parts(s, q and q[1] or 1, new)
  local function each(list, all, work)
    for _, p in ipairs(parts) do
      local own = p.take(list, all)
      if #own > 0 then
        local M = beam.moments(p.s.g, own)
        work(p, own, M, one.effect(p.s)(own, M))
      end
    end
  end
  local f = found.loads(s, function(list, _, line)
    local sum = 0
    each(list, not line and factors, function(p, _, _, v) sum = sum + (p.q or 1) * v end)
    return sum
  end, x, value, factors)
  if not f then return nil end
  local out, formula, numbers, sum = {}, {}, {}, 0
  each(f.list, factors, function(p, own, M, v)
    local lines = one.lines(p.s, {list = own, M = M, value = v, words = ("%s, %s")
      :format(p.words, f.words)})
    table.move(lines, 1, #lines, #out + 1, out)
    local last = lines[#lines]
    last.symbol = symbol .. "_" .. p.tag
    local times = p.q and p.q ~= 1
    local minus = v * f.value < 0
    formula[#formula + 1] = (minus and "- " or "") .. (times and "q*" or "")
      .. last.symbol
    numbers[#numbers + 1] = (minus and "- " or "") .. (times and n(p.q) .. "*" or "")
      .. n(last.value)
    sum = sum + (minus and -1 or 1) * (p.q or 1) * last.value
  end)
  if q and q[2] then out[#out + 1] = step("q", q[2], q[3], q[1]) end
  local function joined(list) return (table.concat(list, " + "):gsub("%+ %- ", "- ")) end
  out[#out + 1] = step(symbol, joined(formula), joined(numbers), sum, unit)
  return out
end

-- M, V or R by stiffness.
local function shared(s, k, line, factors, new, show)
  local x = k.at / s.unit.length
  local q = {repaired.share(s, x, new, show)}
  if not q[1] then return nil end
  local value, unit = line.exact, s.unit.force_unit
  if line.symbol == "M" then
    return by_parts(s, "M", {effect = function(o)
      return function(list, M) return beam.moment(o.g, list, M, x) end
    end, lines = function(o, f)
      return forces.moment_at(o, f, x)
    end}, x, value / s.unit.arm, factors, q, new, s.unit.moment_unit)
  elseif line.symbol == "R" and k.support then
    return by_parts(s, "R", {effect = function(o)
      return function(list, M) return beam.reaction(o.g, list, M, k.support) end
    end, lines = function(o, f)
      return forces.reaction_at(o, f, k.support)
    end}, nil, value, factors, q, new, unit)
  end
  if line.symbol == "V_0" then
    local j = nearest(s, x)
    x = s.g.at[j]
  end
  for _, side in ipairs {"right", "left"} do
    local lines = by_parts(s, line.symbol, {effect = function(o)
      return function(list, M) return beam.shear(o.g, list, M, x, side) end
    end, lines = function(o, f) return forces.shear_at(o, f, x, side) end}, x, value,
      factors, q, new, unit)
    if lines then return lines end
  end
end

---------------------------------------------------------------------------
-- Lines of a check
---------------------------------------------------------------------------

local SUMMED = {M = true, V = true, V_0 = true, R = true, D = true, G = true}

-- Places at which the number of a check may have been taken: its own, the edges of its
-- cut.
local function places(s, r, k)
  local list, c = {}, k.cut and r.cuts and r.cuts[k.cut]
  for _, x in ipairs {k.at or false, c and c.x1 - k.moved or false,
    c and c.x2 - k.moved or false} do
    if x then
      list[#list + 1] = math.max(s.g.first, math.min(x / s.unit.length, s.g.last))
    end
  end
  return list
end

local function first_of(list, work)
  for _, x in ipairs(list) do
    local lines = work(x)
    if lines then return lines end
  end
end

-- M, V and R of a member that has a free end: a stub, a piece beside the joist.
local function free_lines(s, r, k, line, factors, new)
  local x, value = k.at and k.at / s.unit.length, line.exact
  if line.symbol == "M" then
    return first_of(places(s, r, k), function(at)
      return repaired.of_free(s, "M", at, value / s.unit.arm, factors, new)
    end)
  end
  if line.symbol == "R" and k.support or line.symbol == "V_0" and x then
    x = s.g.at[k.support or nearest(s, x)]
  elseif line.symbol ~= "V" then
    return nil
  end
  return x and repaired.of_free(s, "V", x, value, factors, new)
end

-- Lines for a given of a check, or nil.
local function lines_of(s, r, k, line, steps, show)
  local value, factors = line.exact, s.factors[k.combination]
  if not factors or not value then return nil end
  local new = s.fix and k.member ~= nil and k.member ~= "host"
  if line.symbol == "G" then
    local slip = s.slip or s.t and s
    return slip and k.at and repaired.row(slip, k.at / s.unit.length, value, factors, "G")
  elseif s.both then
    return k.at and shared(s, k, line, factors, new, show)
  elseif s.t and new and s.t.bears_left and s.t.bears_right then
    s = repaired.own_span(s)
  elseif s.t and (new or s.t.gap) then
    return free_lines(s, r, k, line, factors, new)
  elseif new then
    return nil
  end
  if line.symbol == "M" then
    return first_of(places(s, r, k), function(x)
      return forces.moment(s, x, value, factors)
    end)
  elseif line.symbol == "V_0" then
    return k.at and (near_face(s, k, value, 0, factors))
  elseif line.symbol == "V" then
    for _, other in ipairs(steps) do
      if other.symbol == "V_0" then
        return k.at and select(2, near_face(s, k, other.exact, value, factors))
      end
    end
    return first_of(places(s, r, k), function(x)
      return (forces.shear(s, x, value, factors))
    end)
  elseif line.symbol == "R" and k.support and (k.mode == "bearing" or k.mode == "uplift")
  then
    return forces.reaction_of(s, k.support, value, factors)
  end
end

-- What is worked out of a model or a check is kept as long as that is.
local of_model = setmetatable({}, {__mode = "k"})
local of_check = setmetatable({}, {__mode = "k"})

-- The value under a key and a second one, made when it is first asked for.
local function kept(all, key, second, make)
  local of = all[key]
  if not of then
    of = {}
    all[key] = of
  end
  if of[second] == nil then of[second] = make() or false end
  return of[second]
end

local function state_of(r, m, state, show)
  return kept(of_model, m, state .. show.name, function()
    local s = found.of(r, m, state, show)
    return s and m.fix and repaired.of(r, m, s, show) or not m.fix and s
  end)
end

-- What M in a deflection rests on: moments over the supports, the force on an end.
local function under(s)
  return function(f, x)
    local j = math.max(1, math.min(beam.region(s.g, x, "right"), s.g.spans))
    local out = support_lines(s, f, j)
    local formula, said, R = end_force(s, f, j, false)
    out[#out + 1] = step((#out > 0 or s.g.spans > 1) and ("R_%dr"):format(j) or "R_" .. j,
      ("%s, %s"):format(formula, f.words), said, R, s.unit.force_unit)
    return with_before(f, out)
  end
end

-- E of the wood as it bends, by the stiffness before any cut.
local function modulus_of(s)
  local m = s.m
  return s.g.whole and s.g.whole / (m.b * m.plies * m.d ^ 3 / 12)
end

local function sag_of(s, k, given, show)
  local E = k.mode:find "^deflection" and k.at and modulus_of(s)
  if not E then return nil end
  if s.t and s.t.gap then return parted.lines(s, k, given, E, show) end
  if not s.both then return sag.lines(s, k, given, E, show, under(s)) end
  local x = k.at / s.unit.length
  return by_parts(s, "D", {effect = function(o) return sag.effect(o, x) end,
    lines = function(o, f)
      local inch = show.coherent(f.value * s.unit.length, "in")
      return sag.written(o, x, f, inch, E, show, under(o))
    end}, x, k.demand / s.unit.length, sag.factors(s, k), nil, false,
    show.tape and "in" or "mm")
end

-- A check as its model knows it: place and cut of a piece are in the joist's own frame.
local function as_worked(k)
  local o = k.origin
  return setmetatable({at = o.at, moved = (k.at or 0) - (o.at or 0)}, {__index = k})
end

-- From where places of a piece are measured, if not from the joist's left bearing.
local function frame_line(s, k, own)
  if k.across then
    return {symbol = "x_0", value = 0, unit = s.unit.unit,
      says = "left end of the header: places below are along it"}
  elseif math.abs(own.moved) > 1e-9 then
    return {symbol = "x_0", value = own.moved / s.unit.length, unit = s.unit.unit,
      says = "on the joist, left bearing of this piece: places below are from it"}
  end
end

-- Forces that a check takes as they are: {symbol =, exact = in the sheet's units}.
local function givens_of(k, show)
  local list = {}
  for _, given in ipairs(k.steps) do
    if SUMMED[given.symbol] and not given.formula and math.type(given.value) then
      list[#list + 1] = {symbol = given.symbol,
        exact = show.coherent(given.value, given.unit)}
    end
  end
  return list
end

local own_sums

-- A connection takes its force from a beam, and V of a check may be that of another
-- place of its cut: a check in the same state, of the joist or of those beside it, has
-- the same force and its sum.
local function borrowed(r, state, k, show, out)
  local a = r[state]
  local all = table.move(a.checks, 1, #a.checks, 1, {})
  for _, o in ipairs(a.neighbours or {}) do
    table.move(o.checks or {}, 1, #(o.checks or {}), #all + 1, all)
  end
  for _, given in ipairs(givens_of(k, show)) do
    for _, other in ipairs(all) do
      local near = k.cut == nil or other.cut == k.cut
      for _, same in ipairs(near and other ~= k and other.origin and other.steps
        and not out[given.symbol] and givens_of(other, show) or {}) do
        local lines = found.agrees(same.exact, given.exact)
          and own_sums(r, state, other, show)[same.symbol]
        if lines and not out[given.symbol] then
          out[given.symbol] = table.move(lines, 1, #lines, 1, {})
          local last = {}
          for name, value in pairs(lines[#lines]) do last[name] = value end
          last.symbol = given.symbol
          out[given.symbol][#lines] = last
        end
      end
    end
  end
  return out
end

-- The lines of each given of a check, by its symbol; the last one is the given itself.
local function worked(r, state, k, show)
  local out = {}
  if not k.steps or not k.origin then return out end
  local s = state_of(r, k.origin.model, state, show)
  if not s then return out end
  local givens, own = givens_of(k, show), as_worked(k)
  for _, given in ipairs(givens) do
    local lines
    if given.symbol == "D" then
      lines = sag_of(s, own, given.exact, show)
    else
      lines = lines_of(s, r, own, given, givens, show)
    end
    if lines then
      lines[#lines].symbol = given.symbol
      local frame = not next(out) and frame_line(s, k, own)
      out[given.symbol] = frame and {frame, table.unpack(lines)} or lines
    end
  end
  if state ~= "uncut" then opening.add(r, k, k.steps, out, show) end
  return out
end

function own_sums(r, state, k, show)
  return kept(of_check, k, show.name, function() return worked(r, state, k, show) end)
end

--- Sums for the givens of a check of a state: M, V, V_0, R, D and the force G of a row;
-- A, y_b, I and the moduli of a cut.
-- @param show the system of units; nil: that of the review
-- @return {[symbol] = lines {symbol =, formula =, numbers =, value =, unit =}, the last
--   of which is the given's own}; nothing for one that no sum gives
function statics.sums(r, state, k, show)
  if not r.computed then return {} end
  show = show or r.show
  local own = own_sums(r, state, k, show)
  for _, given in ipairs(k.steps and givens_of(k, show) or {}) do
    if not own[given.symbol] then
      local out = {}
      for symbol, lines in pairs(own) do out[symbol] = lines end
      return borrowed(r, state, k, show, out)
    end
  end
  return own
end

return statics
