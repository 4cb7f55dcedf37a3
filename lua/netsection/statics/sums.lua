-- SPDX-License-Identifier: MIT
-- Sums as they stand in the lines of a calculation: reactions of a span's loads, moments
-- over supports, force of a span on its end. Numbers with four figures, places in ft or m
-- to a ten-thousandth.
local beam = require "netsection.statics.beam"
local found = require "netsection.statics.found"
local point = require "netsection.point"
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
    local key = l.w and not l.w2 and point.format("%.6f %.6f", l.a, l.b)
    local same = key and at[key]
    if same then
      same.w = same.w + l.w
    else
      out[#out + 1] = {w = l.w, w2 = l.w2, P = l.P, a = l.a, b = l.b}
      if key then at[key] = out[#out] end
    end
  end
  return out
end

-- Loads from `origin` on; mirrored: toward the left from it.
local function from(list, origin, mirror)
  local out = {}
  for i, l in ipairs(list) do
    local o = {w = l.w, w2 = l.w2, P = l.P, a = l.a - origin, b = l.b and l.b - origin}
    if mirror then
      o.a, o.b = origin - (l.b or l.a), l.b and origin - l.a
      if l.w2 then o.w, o.w2 = l.w2, l.w end
    end
    out[i] = o
  end
  return merged(out)
end

-- Sums are lists of {whether it is taken off, its text}: a force may act upward.
local function put(list, l, said) list[#list + 1] = {(l.P or l.w) < 0, said} end

-- "a - b + c"; of a sum that is taken off (`less`) " - a + b - c".
local function joined(list, less)
  local out = {}
  for i, member in ipairs(list) do
    local minus = member[1] ~= (less or false)
    out[i] = (i > 1 or less) and (minus and " - " or " + ") .. member[2]
      or minus and "-" .. member[2] or member[2]
  end
  return #out == 0 and not less and "0" or table.concat(out)
end

-- Amount of a load and its place as texts. A trapezoid acts at its centroid.
local function said_of(l)
  local _, c = beam.resultant(l)
  if l.P then return n(math.abs(l.P)), ft(c) end
  local long = ft(l.b - l.a)
  if not l.w2 then return ("%s*%s"):format(n(math.abs(l.w)), long), ft(c) end
  local w1, w2 = n(l.w), n(l.w2)
  return ("(%s + %s)/2*%s"):format(w1, w2, long), ("(%s%s*(%s + 2*%s)/(3*(%s + %s)))")
    :format(l.a ~= 0 and ft(l.a) .. " + " or "", long, w1, w2, w1, w2)
end

-- Force on the left end of a simple span of loads from there, as a sum.
local function reaction(list, L)
  local said = {}
  for _, l in ipairs(list) do
    if l.w and not l.w2 and l.a == 0 and math.abs(l.b - L) < 1e-9 then
      put(said, l, ("%s*%s/2"):format(n(math.abs(l.w)), ft(L)))
    else
      local P, c = said_of(l)
      put(said, l, ("%s*(%s - %s)/%s"):format(P, ft(L), c, ft(L)))
    end
  end
  return joined(said)
end

-- " - 69.33*5^2/2 - 200*(5 - 4)": moment at x of the loads left of it.
local function moment_left(list, x)
  local said = {}
  for _, l in ipairs(list) do
    if l.P then
      put(said, l, ("%s*(%s - %s)"):format(n(math.abs(l.P)), ft(x), ft(l.a)))
    elseif not l.w2 and l.a == 0 and math.abs(l.b - x) < 1e-9 then
      put(said, l, ("%s*%s^2/2"):format(n(math.abs(l.w)), ft(x)))
    else
      local P, c = said_of(l)
      put(said, l, ("%s*(%s - %s)"):format(P, ft(x), c))
    end
  end
  return joined(said, true)
end

-- The loads added up; `less`: taken off something before it.
local function amounts(list, less)
  local said = {}
  for _, l in ipairs(list) do put(said, l, (said_of(l))) end
  return joined(said, less)
end

-- Loads times their distances, as a sum.
local function arms(list)
  local said = {}
  for _, l in ipairs(list) do
    local P, c = said_of(l)
    put(said, l, l.w and not l.w2 and l.a == 0 and ("%s*%s^2/2"):format(
      n(math.abs(l.w)), ft(l.b)) or ("%s*%s"):format(P, c))
  end
  return joined(said)
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
local function three_moment_terms(said, list, L)
  for _, l in ipairs(list) do
    if l.P then
      put(said, l, ("%s*%s*(%s^2 - %s^2)/%s"):format(n(math.abs(l.P)), ft(l.a), ft(L),
        ft(l.a), ft(L)))
    elseif l.a == 0 and math.abs(l.b - L) < 1e-9 then
      put(said, l, ("%s*%s^3/4"):format(n(math.abs(l.w)), ft(L)))
    else
      put(said, l, ("%s*(%s^2*(2*%s^2 - %s^2) - %s^2*(2*%s^2 - %s^2))/(4*%s)"):format(
        n(math.abs(l.w)), ft(l.b), ft(L), ft(l.b), ft(l.a), ft(L), ft(l.a), ft(L)))
    end
  end
end

local function inner_line(s, f, j)
  local g = s.g
  local a, x, b = g.at[j - 1], g.at[j], g.at[j + 1]
  if not g.even or beam.varies(f.list, a, b) then
    return {symbol = "M_" .. j, value = f.M[j], unit = s.unit.arm_unit,
      says = ("over support %d, three-moment equation%s; %s"):format(j, g.even and ""
        or " with EI of each stretch", f.words)}
  end
  local terms, formula = {}, "wL^3/4 or its like of both spans"
  three_moment_terms(terms, from(beam.on(g, f.list, j - 1), a), x - a)
  three_moment_terms(terms, from(beam.on(g, f.list, j), b, true), b - x)
  local function beside(k, L)
    if f.M[k] ~= 0 then
      terms[#terms + 1] = {false, ("(%s)*%s"):format(n(f.M[k]), ft(L))}
      formula = formula .. (" + M_%d*L"):format(k)
    end
  end
  beside(j - 1, x - a)
  beside(j + 1, b - x)
  return step("M_" .. j, ("-(%s)/(2*(L_%d + L_%d)), three moments, %s"):format(formula,
    j - 1, j, f.words), ("-(%s)/(2*(%s + %s))"):format(joined(terms), ft(x - a),
    ft(b - x)), f.M[j],
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
sums.amounts, sums.moment_left, sums.arms, sums.said_of = amounts, moment_left, arms,
  said_of
sums.support_lines, sums.end_force = support_lines, end_force

return sums
