-- SPDX-License-Identifier: MIT
-- M, V and R of a joist under loads that are known, as the lines that a reader redoes:
-- reactions from the loads, M at the place as a sum, V less what stands between.
local beam = require "netsection.statics.beam"
local found = require "netsection.statics.found"
local sums = require "netsection.statics.sums"

local forces = {}

local n, ft, step, from = sums.number, found.ft, sums.step, sums.from
local merged, amounts, arms = sums.merged, sums.amounts, sums.arms
local moment_left, support_lines, end_force = sums.moment_left, sums.support_lines,
  sums.end_force

---------------------------------------------------------------------------
-- M, V, R
---------------------------------------------------------------------------

local function where(s, j, x)
  local far = (s.g.spans > 1 or s.g.first < 0 or s.g.last > s.g.at[#s.g.at])
    and " from support " .. j or ""
  return ("%s %s%s"):format(ft(x), s.unit.unit, far)
end

-- Lines for M at x, as a positive number where `size` is true.
local function moment_at(s, f, x)
  local g, arm = s.g, s.unit.arm
  local sign = f.value < 0 and -1 or 1
  local minus = sign < 0 and "-" or ""
  local value = sign * f.value * arm
  local j = beam.region(g, x, "right")
  if j > g.spans and x <= g.at[g.spans + 1] then j = g.spans end
  if j == 0 or j > g.spans then
    local list = j == 0 and beam.within(f.list, g.first, x)
      or beam.within(f.list, x, g.last)
    local k = j == 0 and 1 or j
    local opposite = sign > 0 and "-" or ""
    return {step("M", ("%s%d*(loads beyond times their distance), x = %s, %s"):format(
      opposite, arm, where(s, k, math.abs(x - g.at[k])), f.words),
      ("%s%d*(%s)"):format(opposite, arm, arms(from(list, x, j == 0))), value,
      s.unit.moment_unit)}
  end
  local a = g.at[j]
  local out = support_lines(s, f, j)
  for k = j, j + 1 do
    if math.abs(x - g.at[k]) < 1e-9 and math.abs(f.M[k]) > 1e-9 then
      out[#out + 1] = step("M", ("%s%d*M_%d"):format(minus, arm, k),
        ("%s%d*%s"):format(minus, arm, n(f.M[k])), value, s.unit.moment_unit)
      return out
    end
  end
  local formula, said, R = end_force(s, f, j, false)
  local name = (#out > 0 or g.spans > 1) and ("R_%dr"):format(j) or "R_" .. j
  out[#out + 1] = step(name, ("%s, %s"):format(formula, f.words), said, R,
    s.unit.force_unit)
  local M = math.abs(f.M[j]) > 1e-9
  out[#out + 1] = step("M", ("%s%d*(%s*x - loads left of x%s), x = %s"):format(minus,
    arm, name, M and (" + M_%d"):format(j) or "", where(s, j, x - a)),
    ("%s%d*(%s*%s%s%s)"):format(minus, arm, n(R), ft(x - a),
    moment_left(from(beam.within(f.list, a, x), a), x - a),
    M and (f.M[j] < 0 and " - " .. n(-f.M[j]) or " + " .. n(f.M[j])) or ""), value,
    s.unit.moment_unit)
  return out
end

-- V at x in span j: the end force less what stands between, from the left where it is
-- positive, else from the right.
local function shear_at(s, f, x, side)
  local g = s.g
  local j = beam.region(g, x, side)
  local left, right = beam.beside(g, f.list, j, x, side)
  if j == 0 or j > g.spans then
    local said, k = amounts(merged(j == 0 and left or right)), j == 0 and 1 or j
    return {step("V", ("loads beyond x = %s, %s"):format(where(s, k,
      math.abs(x - g.at[k])), f.words), said, math.abs(f.value), s.unit.force_unit)}
  end
  local mirror = f.value < 0
  local a, b = g.at[j], g.at[j + 1]
  local out = support_lines(s, f, j)
  local formula, said = end_force(s, f, j, mirror)
  local far = mirror and b - x or x - a
  local between = merged(mirror and right or left)
  if far > 1e-9 then
    formula = ("%s - loads between, x = %s"):format(formula, where(s, mirror and j + 1
      or j, far)) .. (mirror and s.g.spans == 1 and " from the right" or "")
  end
  out[#out + 1] = step("V", ("%s, %s"):format(formula, f.words), said
    .. amounts(between, true),
    math.abs(f.value), s.unit.force_unit)
  return out
end

-- What was added to the loads stands before the sum.
local function with_before(f, lines)
  if not f.before then return lines end
  return table.move(lines, 1, #lines, #f.before + 1, {table.unpack(f.before)})
end

-- A point at x itself stands on one side of it or on the other.
local function shear(s, x, value, factors)
  for _, side in ipairs {"right", "left"} do
    local function effect(list, M) return beam.shear(s.g, list, M, x, side) end
    local f = found.loads(s, effect, x, value, factors)
    if f then return with_before(f, shear_at(s, f, x, side)), f end
  end
end

local function moment(s, x, value, factors)
  local function effect(list, M) return beam.moment(s.g, list, M, x) end
  local f = found.loads(s, effect, x, value / s.unit.arm, factors)
  return f and with_before(f, moment_at(s, f, x))
end

-- Lines for the reaction of support j.
local function reaction_at(s, f, j)
  local g, out = s.g, {}
  for k = math.max(1, j - 1), math.min(g.spans, j) do
    for _, line in ipairs(support_lines(s, f, k)) do
      local new = true
      for _, has in ipairs(out) do new = new and has.symbol ~= line.symbol end
      if new then out[#out + 1] = line end
    end
  end
  local names, numbers = {}, {}
  local function part(name, formula, said, value)
    out[#out + 1] = step(name, formula .. ", " .. f.words, said, value,
      s.unit.force_unit)
    names[#names + 1] = name
    numbers[#numbers + 1] = #numbers > 0 and (value < 0 and " - " .. n(-value)
      or " + " .. n(value)) or n(value)
  end
  local function free(name, k)
    local on = beam.on(g, f.list, k)
    local said, sum = amounts(merged(on)), 0
    if #on == 0 or k == 0 and g.first == 0 or k > g.spans and g.last == g.at[k] then
      return
    end
    for _, l in ipairs(on) do sum = sum + (beam.resultant(l)) end
    part(name, "loads on the overhang", said, sum)
  end
  if j > 1 then part(("R_%dl"):format(j), end_force(s, f, j - 1, true)) else
    free(("R_%dl"):format(j), 0)
  end
  if j <= g.spans then part(("R_%dr"):format(j), end_force(s, f, j, false)) else
    free(("R_%dr"):format(j), j)
  end
  if #names == 1 and f.value >= 0 then
    out[#out].symbol = "R"
    return out
  end
  local form = f.value < 0 and "-(%s)" or "%s"
  out[#out + 1] = step("R", form:format(table.concat(names, " + ")),
    form:format(table.concat(numbers)), math.abs(f.value), s.unit.force_unit)
  return out
end

local function reaction_of(s, j, value, factors)
  local f = found.loads(s, function(list, M)
    return beam.reaction(s.g, list, M, j)
  end, nil, value, factors)
  return f and with_before(f, reaction_at(s, f, j))
end

---------------------------------------------------------------------------
-- Near the face of a bearing
---------------------------------------------------------------------------

-- The support next to x and the side of it that x is on.
local function nearest(s, x)
  local best, j = math.huge, 1
  for k, at in ipairs(s.g.at) do
    if math.abs(x - at) < best then best, j = math.abs(x - at), k end
  end
  return j, x < s.g.at[j] and "left" or "right"
end

-- V_0 at the support, and V: less what stands within d of the bearing's face, all of a
-- line load and, of what a point at x from the face brings to V_0, the part 1 - x/d.
local function near_face(s, k, V_0, V, factors)
  local x = k.at / s.unit.length
  local j, side = nearest(s, x)
  local support, d = s.g.at[j], s.m.d / s.unit.length
  local function effect(list, M) return beam.shear(s.g, list, M, support, side) end
  local f = found.loads(s, effect, support, V_0, factors)
  if not f then return nil end
  local first = with_before(f, shear_at(s, f, support, side))
  local long = math.abs(x - support)
  local list = merged(from(beam.within(f.list, math.min(x, support),
    math.max(x, support)), support, side == "left"))
  local face = long - d
  local sum, said = V_0, {n(V_0)}
  for _, l in ipairs(list) do
    if l.w then
      sum = sum - (beam.resultant(l))
      said[#said + 1] = (sums.said_of(l))
    elseif l.a > 1e-12 then
      local part = math.max(0, (l.a - face) / d)
      local at = {{P = l.P, a = side == "right" and support + l.a or support - l.a}}
      local share = math.abs(effect(at, beam.moments(s.g, at)))
      sum = sum - share * (1 - part)
      said[#said + 1] = part > 0 and ("%s*(1 - %s/%s)"):format(n(share),
        ft(l.a - face), ft(d)) or n(share)
    end
  end
  if not found.agrees(sum, V) then return first, nil end
  return first, {step("V", ("V_0 - what stands within %s %s of the support brings")
    :format(ft(long), s.unit.unit), table.concat(said, " - "), sum, s.unit.force_unit)}
end

forces.with_before, forces.moment_at, forces.shear_at = with_before, moment_at, shear_at
forces.reaction_at, forces.moment, forces.shear = reaction_at, moment, shear
forces.reaction_of, forces.near_face, forces.nearest = reaction_of, near_face, nearest

return forces
