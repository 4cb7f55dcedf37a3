-- SPDX-License-Identifier: MIT
-- Reaction, moment and shear of a joist on two bearings as sums that a reader can redo:
-- from the loads of the sheet, in ft, plf and lb, or in m, N/m and N. These are a second
-- statement of what the core found; where the two differ, or the joist is no simple span,
-- there are no lines and the sheet refers to the file of numbers.
local part = require "netsection.fix.part"
local text = require "netsection.text"
local units = require "netsection.units"

local statics = {}

local CLOSE = 1e-6       -- share by which a sum may differ from the core's number

-- Loads of a joist: {w, a, b} and {P, a} in ft, plf and lb (show.sums: the system's own),
-- each with its case; nil where they are not of these two kinds or the joist is no simple
-- span.
local function loads_of(m)
  if #m.span ~= 1 or m.overhang_left > 0 or m.overhang_right > 0 then return nil end
  local unit = m.show.sums
  local foot, lb, plf = unit.length, unit.force, unit.line_load
  local L, list = m.span[1] / foot, {}
  local function line(w, a, b, case)
    if w < 0 then return false end
    if w > 0 and b > a then list[#list + 1] = {w = w, a = a, b = b, case = case} end
    return true
  end
  line(m.dead * m.spacing / 12 * plf, 0, L, "dead")
  line(m.live * m.spacing / 12 * plf, 0, L, "live")
  for _, l in ipairs(m.lines) do
    local w1, w2 = part.plf(l, m)
    local a, b = l.whole and 0 or l.from / foot, l.whole and L or l.to / foot
    if math.abs(w1 - w2) > 1e-9 or a < 0 or b > L + 1e-9
      or not line(w1 * plf, a, math.min(b, L), l.case) then return nil end
  end
  for _, p in ipairs(m.points) do
    if p.P < 0 or p.at < 0 or p.at / foot > L then return nil end
    list[#list + 1] = {P = p.P / lb, a = p.at / foot, case = p.case}
  end
  return list, L
end

local function n(x) return text.short(x) end

-- Feet or meters to a ten-thousandth: places enter in squares.
local function ft(x)
  return (units.fixed(x, 4):gsub("0+$", ""):gsub("%.$", ""))
end

-- A part of a line load, from a to b, or a point, and where it stands.
local function size_and_place(l)
  if l.P then return l.P, l.a, n(l.P), ft(l.a) end
  local long, c = l.b - l.a, (l.a + l.b) / 2
  return l.w * long, c, ("%s*%s"):format(n(l.w), ft(long)), ft(c)
end

-- Reaction at the left of a list of loads: P (L - a)/L each; and as a sum.
local function reaction(list, L)
  local R, said = 0, {}
  for i, l in ipairs(list) do
    local P, a, P_said, a_said = size_and_place(l)
    R = R + P * (L - a) / L
    if not l.P and l.a == 0 and math.abs(l.b - L) < 1e-9 then
      said[i] = ("%s*%s/2"):format(n(l.w), ft(L))
    else
      said[i] = ("%s*(%s - %s)/%s"):format(P_said, ft(L), a_said, ft(L))
    end
  end
  return R, table.concat(said, " + ")
end

-- What of the loads stands on a..b.
local function within(list, a, b, case)
  local out = {}
  for _, l in ipairs(list) do
    if not case or l.case == case then
      if l.P then
        if l.a >= a and l.a <= b then out[#out + 1] = l end
      else
        local lo, hi = math.max(l.a, a), math.min(l.b, b)
        if hi > lo then out[#out + 1] = {w = l.w, a = lo, b = hi, case = l.case} end
      end
    end
  end
  return out
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
      out[#out + 1] = {w = l.w, P = l.P, a = l.a, b = l.b, case = l.case}
      if key then at[key] = out[#out] end
    end
  end
  return out
end

local function agrees(x, y)
  return math.abs(x - y) <= CLOSE * math.max(math.abs(x), math.abs(y), 1e-9)
end

local function step(symbol, formula, numbers, value, unit)
  return {symbol = symbol, formula = formula, numbers = numbers, value = value,
    unit = unit}
end

-- A place as it stands in a formula's words: "x = 5.1667 ft".
local function where(m, x) return ("%s %s"):format(ft(x), m.show.sums.unit) end

--- Lines for the moment at x under all loads: R_1, then M; nil where M is not that.
-- @param m a joist's model; @param x in; @param M of the core, in the unit of the lines
function statics.moment(m, x, M)
  local list, L = loads_of(m)
  if not list or not x or x <= 0 or x >= L * m.show.sums.length then
    return nil
  end
  x = x / m.show.sums.length
  list = merged(list)
  local R, R_said = reaction(list, L)
  local sum, said = R * x, {("%s*%s"):format(n(R), ft(x))}
  for _, l in ipairs(within(list, 0, x)) do
    if l.P then
      sum = sum - l.P * (x - l.a)
      said[#said + 1] = (" - %s*(%s - %s)"):format(n(l.P), ft(x), ft(l.a))
    else
      local long, c = l.b - l.a, (l.a + l.b) / 2
      sum = sum - l.w * long * (x - c)
      said[#said + 1] = l.a == 0 and math.abs(l.b - x) < 1e-9
        and (" - %s*%s^2/2"):format(n(l.w), ft(x))
        or (" - %s*%s*(%s - %s)"):format(n(l.w), ft(long), ft(x), ft(c))
    end
  end
  local unit = m.show.sums
  if not agrees(sum * unit.arm, M) then return nil end
  return {step("R_1", "sum of P*(L - a)/L, all loads", R_said, R, unit.force_unit),
    step("M", ("%d*(R_1*x - loads left of x), x = %s"):format(unit.arm, where(m, x)),
      ("%d*(%s)"):format(unit.arm, table.concat(said)), sum * unit.arm,
      unit.moment_unit)}
end

-- V just right of x with the live load right of it: dead load on all, what of both lies
-- right of x by its reaction, less the dead load left of x.
local function right_of(list, L, x)
  local on = merged(within(list, 0, L, "dead"))
  for _, l in ipairs(merged(within(list, x, L, "live"))) do on[#on + 1] = l end
  local V, said = reaction(on, L)
  for _, l in ipairs(within(list, 0, x, "dead")) do
    local P, _, P_said = size_and_place(l)
    if x > 0 then V, said = V - P, said .. " - " .. P_said end
  end
  return V, said
end

local function mirrored(list, L)
  local out = {}
  for i, l in ipairs(list) do
    out[i] = {w = l.w, P = l.P, case = l.case, a = L - (l.b or l.a), b = L - l.a}
  end
  return out
end

--- A line for the shear V at x, the live load where it makes it largest; nil where the
-- core's V is another.
function statics.shear(m, x, V)
  local list, L = loads_of(m)
  if not list or not x then return nil end
  x = math.max(0, math.min(x / m.show.sums.length, L))
  local left, said = right_of(list, L, x)
  local right, other = right_of(mirrored(list, L), L, L - x)
  local from_right = right > left
  if from_right then left, said = right, other end
  if not agrees(left, V) then return nil end
  return {step("V", ("dead on all, live %s of x = %s%s"):format(from_right and "left"
    or "right", where(m, x), from_right and ", measured from the right" or ""), said,
    left, m.show.sums.force_unit)}
end

--- A line for the reaction R, whichever end it is of; nil where the core's is another.
function statics.reaction(m, R)
  local list, L = loads_of(m)
  if not list then return nil end
  for _, side in ipairs {"left", "right"} do
    local on = merged(side == "left" and list or mirrored(list, L))
    local sum, said = reaction(on, L)
    if agrees(sum, R) then
      return {step("R", "sum of P*(L - a)/L, all loads", said, sum,
        m.show.sums.force_unit)}
    end
  end
end

--- Sums for a given line of a check, of the state as cut or uncut: M, V, V_0 or R with
-- what it is of; the line itself stands last where no sum gives it.
-- @param line {symbol =, exact = its number in the unit of the line, data =, ...}
function statics.of(m, k, line)
  local value, sums = line.exact, nil
  if value and line.symbol == "M" then
    sums = statics.moment(m, k.at, value)
  elseif value and line.symbol == "V" then
    sums = statics.shear(m, k.at, value)
  elseif value and line.symbol == "V_0" then
    local at_right = (k.at or 0) * 2 > m.span[1]
    sums = statics.shear(m, at_right and m.span[1] or 0, value)
  elseif value and line.symbol == "R" then
    sums = statics.reaction(m, value)
  end
  if not sums then return {line} end
  local last = sums[#sums]
  last.symbol, last.data = line.symbol, line.data
  return sums
end

return statics
