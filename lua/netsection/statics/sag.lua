-- SPDX-License-Identifier: MIT
-- A deflection as a sum that a reader can redo: 5 w L^4/(384 E I) where a simple span of
-- one section bears an even load all along, else the integral of M m/(E I) stretch by
-- stretch, m the moment of a unit load at the place on its span as a simple beam (with
-- its overhang). Between loads, changes of section and the place M is a parabola at most
-- and m a straight line, for which Simpson's rule is exact; Boole's where a load varies.
local beam = require "netsection.statics.beam"
local found = require "netsection.statics.found"
local text = require "netsection.text"

local sag = {}

local ft, n = found.ft, text.short

-- What is integrated for the deflection at x: {{a, b, m = function(place)}, ...}.
local function parts_of(g, x)
  local j = beam.region(g, x, "right")
  if j >= 1 and j <= g.spans then
    local a, b = g.at[j], g.at[j + 1]
    return {{a = a, b = b, cut = x, m = function(p)
      return p <= x and (p - a) * (b - x) / (b - a) or (x - a) * (b - p) / (b - a)
    end}}
  end
  local support = j == 0 and g.at[1] or g.at[#g.at]
  local far = j == 0 and g.at[2] or g.at[#g.at - 1]
  local out = math.abs(x - support)
  return {{a = math.min(x, support), b = math.max(x, support), m = function(p)
      return -math.abs(x - p)
    end}, {a = math.min(far, support), b = math.max(far, support), m = function(p)
      return -out * (p - far) / (support - far)
    end}}
end

-- Weights of Simpson's rule and, where a load varies, of Boole's.
local SIMPSON, BOOLE = {1, 4, 1, by = 6}, {7, 32, 12, 32, 7, by = 90}

--- A stretch of constant section: {a, b, EI, values of M, of m, rule}.
-- @param varies true where a load on it does, @param M, m functions of the place
function sag.stretch(a, b, EI, varies, M, m)
  local rule = varies and BOOLE or SIMPSON
  local o = {a = a, b = b, EI = EI, M = {}, m = {}, rule = rule}
  for k = 1, #rule do
    local p = k == #rule and b or a + (b - a) * (k - 1) / (#rule - 1)
    o.M[k], o.m[k] = M(p), m(p)
  end
  return o
end

-- Stretches of a joist on its supports.
local function stretches_of(g, list, M, x)
  local out = {}
  for _, part in ipairs(parts_of(g, x)) do
    local places = beam.breaks(g, list, part.a, part.b)
    if part.cut and part.cut > part.a and part.cut < part.b then
      places[#places + 1] = part.cut
      table.sort(places)
    end
    for i = 1, #places - 1 do
      local a, b = places[i], places[i + 1]
      if b - a > 1e-9 then
        local o = sag.stretch(a, b, beam.EI_at(g, (a + b) / 2), beam.varies(list, a, b),
          function(p) return beam.moment(g, list, M, p) end, part.m)
        out[#out + 1] = o
      end
    end
  end
  return out
end

--- Integral of M m over a stretch.
function sag.product(o)
  local sum = 0
  for k, weight in ipairs(o.rule) do sum = sum + weight * o.M[k] * o.m[k] end
  return (o.b - o.a) / o.rule.by * sum
end

-- Deflection in the unit of length for EI in that unit, lb or N.
local function value_of(list)
  local sum = 0
  for _, o in ipairs(list) do sum = sum + sag.product(o) / o.EI end
  return sum
end

local function even_load(s, list, x)
  local L, w = s.g.at[2], 0
  if s.g.spans > 1 or s.g.first < 0 or s.g.last > L or not s.g.even
    or math.abs(x - L / 2) > 1e-6 * L then return nil end
  for _, l in ipairs(list) do
    if l.P or l.w2 or l.a > 1e-9 or l.b < L - 1e-9 then return nil end
    w = w + l.w
  end
  return w, L
end

local function closed(s, f, x, E, show)
  local w, L = even_load(s, f.list, x)
  if not w then return nil end
  local arm, I = s.unit.arm, f.EI[1].EI / E
  local run = show.coherent(L * s.unit.length, "in")
  return {{symbol = "D", formula = "5*w*L^4/(384*E*I), " .. f.words,
    numbers = ("5*%s/%d*%s^4/(384*%s*%s)"):format(n(w), arm, n(run),
    n((show.coherent(E, "psi"))), n((show.coherent(I, "in4")))), value = f.shown,
    unit = f.unit}}
end

local function product(M, m) return ("%s*%s"):format(n(M), n(m)) end

--- One stretch: h/6*(M*m + 4*M*m + M*m)/(E*I).
function sag.stretch_line(s, o, i, x, E, show)
  local arm = s.unit.arm
  local function part(k)
    local M, m = o.M[k] * arm, o.m[k] * arm
    if M < 0 and m < 0 then M, m = -M, -m end
    if math.abs(M) < 1e-9 or math.abs(m) < 1e-9 then return "0" end
    return m < 0 and product(-M, -m) or product(M, m)
  end
  local said = {}
  for k, weight in ipairs(o.rule) do
    local one = part(k)
    if one:sub(1, 1) == "-" then one = "(" .. one .. ")" end
    said[k] = weight == 1 and one or weight .. "*" .. one
  end
  local I = show.coherent(o.EI / E, "in4")
  local value = sag.product(o) * arm ^ 3 / (show.coherent(E, "psi") * I)
  return {symbol = "D_" .. i, formula = ("integral of M*m/(E*I), %s to %s %s, m of a "
    .. "unit load at %s %s"):format(ft(o.a), ft(o.b), s.unit.unit, ft(x), s.unit.unit),
    numbers = ("%s/%d*(%s)/(%s*%s)"):format(n((o.b - o.a) * arm), o.rule.by,
    table.concat(said, " + "), n((show.coherent(E, "psi"))), n(I)), value = value,
    unit = show.tape and "in" or "mm"}
end

--- The deflection at x as an effect of loads, in the unit of length.
function sag.effect(s, x)
  local stiff = s.unit.length ^ 2 * s.unit.force   -- as EI is in lb-in2
  return function(list, M) return value_of(stretches_of(s.g, list, M, x)) * stiff end
end

--- The factors on the loads of a check of deflection.
function sag.factors(s, k)
  local live_only = k.mode == "deflection-live"
  local of = s.factors[live_only and k.combination or k.combination:match "%+ ?(.+)$"]
    or {L = 1}
  return {D = live_only and 0 or s.m.Kcr, L = of.L or 0, Lr = of.Lr, S = of.S}
end

--- Lines for a deflection under loads that are known.
-- @param f {list, M, value, words}
-- @param given its number as printed, @param E of the joist, psi
-- @param more function(f, x) -> lines for what M rests on
function sag.written(s, x, f, given, E, show, more)
  f.EI, f.shown, f.unit = s.g.EI, given, show.tape and "in" or "mm"
  local short = closed(s, f, x, E, show)
  if short then return short end
  local out, names, sum = more(f, x), {}, {}
  local stretches = stretches_of(s.g, f.list, f.M, x)
  for i, o in ipairs(stretches) do
    local line = sag.stretch_line(s, o, i, x, E, show)
    out[#out + 1] = line
    names[i] = line.symbol
    sum[i] = i > 1 and (line.value < 0 and " - " .. n(-line.value)
      or " + " .. n(line.value)) or n(line.value)
  end
  local whole = f.value < 0 and "-(%s)" or "%s"
  out[#out + 1] = {symbol = "D", formula = whole:format(table.concat(names, " + ")),
    numbers = whole:format(table.concat(sum)), value = given, unit = f.unit}
  return out
end

--- Lines for the deflection of a check.
-- @return lines, the last for D; nil where no load pattern on whole spans gives it
function sag.lines(s, k, given, E, show, more)
  local x = k.at / s.unit.length
  local f = found.loads(s, sag.effect(s, x), x, k.demand / s.unit.length,
    sag.factors(s, k))
  return f and sag.written(s, x, f, given, E, show, more)
end

return sag
