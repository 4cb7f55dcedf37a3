-- SPDX-License-Identifier: MIT
-- Sums as they stand in the lines of a calculation: reactions of a span's loads, moments
-- over supports, force of a span on its end. Numbers with four figures, places in ft or m
-- to a ten-thousandth.
local beam = require "netsection.statics.beam"
local found = require "netsection.statics.found"
local text = require "netsection.text"

local sums = {}

local function n(x) return text.short(x) end

local ft = found.ft

local function step(symbol, formula, numbers, value, unit)
  return {symbol = symbol, formula = formula, numbers = numbers, value = value,
    unit = unit}
end

-- Line loads over the same stretch as one, so that a sum has few members.
local function merged(list)
  local out, at = {}, {}
  for _, l in ipairs(list) do
    local key = l.w and ("%.6f %.6f"):format(l.a, l.b)
    local same = key and at[key]
    if same then
      same.w = same.w + l.w
    else
      out[#out + 1] = {w = l.w, P = l.P, a = l.a, b = l.b}
      if key then at[key] = out[#out] end
    end
  end
  return out
end

-- Loads from `origin` on; mirrored: toward the left from it.
local function from(list, origin, mirror)
  local out = {}
  for i, l in ipairs(list) do
    if mirror then
      out[i] = {w = l.w, P = l.P, a = origin - (l.b or l.a), b = l.b and origin - l.a}
    else
      out[i] = {w = l.w, P = l.P, a = l.a - origin, b = l.b and l.b - origin}
    end
  end
  return merged(out)
end

-- Amount of a load and its place as texts.
local function said_of(l)
  local _, c = beam.resultant(l)
  return l.P and n(l.P) or ("%s*%s"):format(n(l.w), ft(l.b - l.a)), ft(c)
end

-- Force on the left end of a simple span of loads from there, as a sum.
local function reaction(list, L)
  local said = {}
  for i, l in ipairs(list) do
    if not l.P and l.a == 0 and math.abs(l.b - L) < 1e-9 then
      said[i] = ("%s*%s/2"):format(n(l.w), ft(L))
    else
      local P, c = said_of(l)
      said[i] = ("%s*(%s - %s)/%s"):format(P, ft(L), c, ft(L))
    end
  end
  return #said > 0 and table.concat(said, " + ") or "0"
end

-- " - 69.33*5^2/2 - 200*(5 - 4)": moment at x of the loads left of it.
local function moment_left(list, x)
  local said = {}
  for i, l in ipairs(list) do
    if l.P then
      said[i] = (" - %s*(%s - %s)"):format(n(l.P), ft(x), ft(l.a))
    elseif l.a == 0 and math.abs(l.b - x) < 1e-9 then
      said[i] = (" - %s*%s^2/2"):format(n(l.w), ft(x))
    else
      local P, c = said_of(l)
      said[i] = (" - %s*(%s - %s)"):format(P, ft(x), c)
    end
  end
  return table.concat(said)
end

local function amounts(list)
  local said = {}
  for i, l in ipairs(list) do said[i] = (said_of(l)) end
  return said
end

-- Loads times their distances, as a sum.
local function arms(list)
  local said = {}
  for i, l in ipairs(list) do
    local P, c = said_of(l)
    said[i] = l.w and l.a == 0 and ("%s*%s^2/2"):format(n(l.w), ft(l.b))
      or ("%s*%s"):format(P, c)
  end
  return #said > 0 and table.concat(said, " + ") or "0"
end

---------------------------------------------------------------------------
-- Moments over supports
---------------------------------------------------------------------------

-- Of an overhang: loads times their distances from the support.
local function overhang_line(s, f, j)
  local x = s.g.at[j]
  local said = arms(from(beam.on(s.g, f.list, j == 1 and 0 or j), x, j == 1))
  return step("M_" .. j, ("-(loads on the overhang times their distance), %s"):format(
    f.words), ("-(%s)"):format(said), f.M[j], s.unit.arm_unit)
end

-- What a span's loads put into the three-moment equation at its right end.
local function three_moment_terms(list, L)
  local said = {}
  for i, l in ipairs(list) do
    if l.P then
      said[i] = ("%s*%s*(%s^2 - %s^2)/%s"):format(n(l.P), ft(l.a), ft(L), ft(l.a), ft(L))
    elseif l.a == 0 and math.abs(l.b - L) < 1e-9 then
      said[i] = ("%s*%s^3/4"):format(n(l.w), ft(L))
    else
      said[i] = ("%s*(%s^2*(2*%s^2 - %s^2) - %s^2*(2*%s^2 - %s^2))/(4*%s)"):format(
        n(l.w), ft(l.b), ft(L), ft(l.b), ft(l.a), ft(L), ft(l.a), ft(L))
    end
  end
  return said
end

local function inner_line(s, f, j)
  local g = s.g
  local a, x, b = g.at[j - 1], g.at[j], g.at[j + 1]
  if not g.even then
    return {symbol = "M_" .. j, value = f.M[j], unit = s.unit.arm_unit,
      says = "over support " .. j .. ", three-moment equation with EI of each stretch; "
        .. f.words}
  end
  local terms = three_moment_terms(from(beam.on(g, f.list, j - 1), a), x - a)
  local more = three_moment_terms(from(beam.on(g, f.list, j), b, true), b - x)
  table.move(more, 1, #more, #terms + 1, terms)
  local formula = "wL^3/4 or its like of both spans"
  local function beside(k, L)
    if f.M[k] ~= 0 then
      terms[#terms + 1] = ("(%s)*%s"):format(n(f.M[k]), ft(L))
      formula = formula .. (" + M_%d*L"):format(k)
    end
  end
  beside(j - 1, x - a)
  beside(j + 1, b - x)
  return step("M_" .. j, ("-(%s)/(2*(L_%d + L_%d)), three moments, %s"):format(formula,
    j - 1, j, f.words), ("-(%s)/(2*(%s + %s))"):format(#terms > 0
    and table.concat(terms, " + ") or "0", ft(x - a), ft(b - x)), f.M[j],
    s.unit.arm_unit)
end

-- Lines for the moments over the ends of span j, and those they rest on.
local function support_lines(s, f, j)
  local out = {}
  local first, last = j, j + 1
  if s.g.spans > 1 then first, last = 1, s.g.spans + 1 end
  for k = first, last do
    local outer = k == 1 or k == s.g.spans + 1
    if math.abs(f.M[k]) > 1e-9 then
      out[#out + 1] = outer and overhang_line(s, f, k) or inner_line(s, f, k)
    end
  end
  return out
end

-- The force of span j on its left end (on its right end: mirror), as formula and sum.
local function end_force(s, f, j, mirror)
  local a, b = s.g.at[j], s.g.at[j + 1]
  local list = from(beam.on(s.g, f.list, j), mirror and b or a, mirror)
  local here, there = j, j + 1
  if mirror then here, there = j + 1, j end
  local formula, said = "sum of P*(L - a)/L", reaction(list, b - a)
  if math.abs(f.M[here]) > 1e-9 or math.abs(f.M[there]) > 1e-9 then
    formula = ("%s + (M_%d - M_%d)/L"):format(formula, there, here)
    local minus = f.M[here] < 0 and (" + %s"):format(n(-f.M[here]))
      or (" - %s"):format(n(f.M[here]))
    said = ("%s + (%s%s)/%s"):format(said, n(f.M[there]), minus, ft(b - a))
  end
  local left, right = beam.ends(s.g, f.list, f.M, j)
  return formula, said, mirror and right or left
end

sums.number, sums.step, sums.merged, sums.from = n, step, merged, from
sums.amounts, sums.moment_left, sums.arms = amounts, moment_left, arms
sums.support_lines, sums.end_force = support_lines, end_force

return sums
