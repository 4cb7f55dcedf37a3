-- SPDX-License-Identifier: MIT
-- Deflection of a joist that is cut through, with a member beside it, as a sum that a
-- reader can redo: virtual work of a unit load at the place, M m/(E I) stretch by stretch
-- on both stubs and on the new member, and F f/k of each row of fasteners.
local beam = require "netsection.statics.beam"
local found = require "netsection.statics.found"
local repaired = require "netsection.statics.repaired"
local sag = require "netsection.statics.sag"
local text = require "netsection.text"
local tied = require "netsection.statics.tied"

local parted = {}

local n, ft = text.short, found.ft

-- The stubs and the new member: ends, side of the free end, which loads are theirs.
local function bodies_of(s)
  local t = s.t
  return {{"left stub", s.g.first, t.slide, "right", 1},
    {"right stub", t.slide, s.g.last, "left", 1},
    {"new member", t.from, t.to, t.bears_left and "right" or "left", 2}}
end

-- M at p of one of them under its loads.
local function moment_of(s, o, list)
  local t = s.t
  if o[5] == 2 and t.bears_left and t.bears_right then
    local g = {at = {t.from, t.to}, spans = 1, first = t.from, last = t.to, EI = {}}
    return function(p) return beam.moment(g, list, {0, 0}, p) end
  end
  return function(p)
    local far = o[4] == "right" and beam.within(list, p, o[3])
      or beam.within(list, o[2], p)
    return (repaired.turning(far, p))
  end
end

-- Stretches of all three with M and m.
local function stretches_of(s, loads, units)
  local out = {}
  for _, o in ipairs(bodies_of(s)) do
    local own, unit = loads[o[5]], units[o[5]]
    local M, m = moment_of(s, o, own), moment_of(s, o, unit)
    local g = o[5] == 1 and s.g or {EI = {}}
    local all = table.move(unit, 1, #unit, #own + 1, {table.unpack(own)})
    local places = beam.breaks(g, all, o[2], o[3])
    for i = 1, #places - 1 do
      local a, b = places[i], places[i + 1]
      if b - a > 1e-9 then
        -- a point at an end of the stretch is on its own side of it
        local EI = o[5] == 2 and s.t.EI_new or beam.EI_at(s.g, (a + b) / 2)
        local one = sag.stretch(a, b, EI, beam.varies(own, a, b), M, m)
        one.of = o[1]
        out[#out + 1] = one
      end
    end
  end
  return out
end

local function value_of(s, list, f, units, factors)
  local old, new, F = repaired.coupled(s, list, factors)
  local sum = 0
  for _, o in ipairs(stretches_of(s, {old, new}, units)) do
    sum = sum + sag.product(o) / o.EI
  end
  for i, k in ipairs(s.t.k) do sum = sum + F[i] * f[i] / k end
  return sum * s.unit.length ^ 2 * s.unit.force, old, new, F
end

-- The rows' forces under the loads and under the unit load, and what their slip gives.
local function row_lines(s, F, f, x, words, length, unit)
  local out, sum, value = {}, {}, 0
  for i in ipairs(s.t.rows) do
    out[#out + 1] = repaired.row_line(s, i, F[i], words)
    out[#out + 1] = {symbol = "f_" .. i, value = f[i], unit = "",
      says = ("the same under a unit load at %s %s"):format(ft(x), s.unit.unit)}
    sum[i] = ("(%s)*(%s)/%s"):format(n(F[i]), n(f[i]), n(s.t.shown[i]))
    value = value + F[i] * f[i] / s.t.shown[i]
  end
  out[#out + 1] = {symbol = "D_s", formula = "sum of F*f/k over the rows",
    numbers = table.concat(sum, " + "), value = value * length, unit = unit}
  return out
end

--- Lines for the deflection of a check.
-- @param given its number as printed, @param E of the joist, psi
-- @return lines, the last for D; or nil
function parted.lines(s, k, given, E, show)
  local x = k.at / s.unit.length
  local factors = sag.factors(s, k)
  local f = tied.forces(s.t, {{P = 1, a = x}})
  local on_old, on_new = tied.apart(s.t, {{P = 1, a = x}})
  for i, at in ipairs(s.t.rows) do
    on_old[#on_old + 1], on_new[#on_new + 1] = {P = -f[i], a = at}, {P = f[i], a = at}
  end
  local units = {on_old, on_new}
  local hit = found.loads(s.bare, function(list, _, line)
    return (value_of(s, list, f, units, not line and factors))
  end, x, k.demand / s.unit.length, factors)
  if not hit then return nil end
  local _, old, new, F = value_of(s, hit.list, f, units, factors)
  local unit = show.tape and "in" or "mm"
  local out = row_lines(s, F, f, x, hit.words, 1, unit)
  local names, sum = {"D_s"}, {n(out[#out].value)}
  for i, o in ipairs(stretches_of(s, {old, new}, units)) do
    local line = sag.stretch_line(s, o, i, x, E, show)
    line.formula = o.of .. ", " .. line.formula
    if math.abs(line.value) > 1e-12 then
      out[#out + 1] = line
      names[#names + 1] = line.symbol
      sum[#sum + 1] = line.value < 0 and ("(%s)"):format(n(line.value)) or n(line.value)
    end
  end
  out[#out + 1] = {symbol = "D", formula = table.concat(names, " + "),
    numbers = table.concat(sum, " + "), value = given, unit = unit}
  return out
end

return parted
