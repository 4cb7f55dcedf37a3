-- SPDX-License-Identifier: MIT
-- The net section of a cut as sums: two rectangles about their own centroid, and of which
-- opening within the cut the least modulus is. A modulus can rise while an opening grows,
-- so that the least may belong to a smaller one, which the sheet then names: where its
-- edge has come to the centroid, or where taking off more no longer weakens the edge.
-- A cut by itself in whole wood is looked through for that; cuts that count together and
-- losses are written out as the rectangles that are left (statics.left).
local found = require "netsection.statics.found"
local left = require "netsection.statics.left"
local quantity = require "netsection.quantity"
local text = require "netsection.text"

local opening = {}

local agrees, n = found.agrees, text.short

-- Of wood s below and u above an opening, b wide in a depth of d.
local function section(s, u, b, d)
  local A = s + u
  if A <= 0 then return nil end
  local y = (s * s / 2 + u * (d - u / 2)) / A
  local I = (s ^ 3 + u ^ 3) / 12 + s * (y - s / 2) ^ 2 + u * (d - u / 2 - y) ^ 2
  local low, high = s > 0 and 0 or d - u, u > 0 and d or s
  return {s = s, u = u, b = b, d = d, A = b * A, y = y, I = b * I,
    S_b = b * I / (y - low), S_t = b * I / (high - y), low = low, high = high}
end

-- The root of s Q = J: what lies below an opening that may grow downward from u.
local function kern(u, d)
  local Q, J = u * (d - u / 2), (d ^ 3 - (d - u) ^ 3) / 3
  local lo, hi = 0, d - u
  for _ = 1, 80 do
    local s = (lo + hi) / 2
    if s ^ 3 / 6 + Q * s < J then lo = s else hi = s end
  end
  return (lo + hi) / 2
end

-- Openings within the cut of which one has the least of something: the whole one, those
-- with an edge at the centroid, those at the kern, both ways up.
local function candidates(s, u, b, d)
  local list = {}
  local function put(low, high)
    if low >= s - 1e-9 and high >= u - 1e-9 and low + high < d then
      list[#list + 1] = section(low, high, b, d)
    end
  end
  put(s, u)
  if s > 0 then put(s, math.sqrt(2 * s * d) - s) end
  if u > 0 then put(math.sqrt(2 * u * d) - u, u) end
  if u > 0 then put(kern(u, d), u) end
  if s > 0 then put(s, kern(s, d)) end
  return list
end

-- A cut by itself, whole wood beside it: wood below and above, in.
local function bare(r, k)
  local m, c, own = k.origin.model, r.cuts and r.cuts[k.cut], r:layout().cuts[k.cut]
  if not c or not own or c.merged or c.near or own.kind == "loss" or own.kind == "split"
    or own.kind == "sever" then return nil end
  for i, other in ipairs(r.cuts) do
    local loss = r:layout().cuts[i].kind == "loss"
    if loss and other.x1 < c.x2 and other.x2 > c.x1 then return nil end
  end
  return math.max(own.h1, 0), math.max(m.d - own.h2, 0), m.b * m.plies, m.d
end

-- A loss by itself: what is left is a rectangle.
local function charred(r, k, given)
  local m, own = k.origin.model, r:layout().cuts[k.cut]
  if not own or own.kind ~= "loss" or #m.cuts > 1 then return nil end
  local b = m.b * m.plies - 2 * (own.sides or 0)
  local low, high = own.bottom or 0, m.d - (own.top or 0)
  local h = high - low
  if b <= 0 or h <= 0 or not agrees(b * h, given.A or -1) then return nil end
  return {loss = true, s = h, u = 0, b = b, d = h, A = b * h, y = h / 2,
    I = b * h ^ 3 / 12, S_b = b * h ^ 2 / 6, S_t = b * h ^ 2 / 6, low = 0, high = h}
end

local function line(symbol, formula, numbers, value, unit)
  return {symbol = symbol, formula = formula, numbers = numbers, value = value,
    unit = unit}
end

local I_OF_TWO = "b*(s^3/12 + u^3/12 + s*(y - s/2)^2 + u*(d - u/2 - y)^2)"

-- A, y and I of a section. @param names {A =, y =, I =}
local function section_lines(o, names, show)
  local function c(x, unit) return (show.coherent(x, unit or "in")) end
  local b, s, u, d = n(c(o.b)), n(c(o.s)), n(c(o.u)), n(c(o.d))
  local _, inch = show.coherent(1, "in")
  local _, square = show.coherent(1, "in2")
  local _, fourth = show.coherent(1, "in4")
  if o.s == 0 or o.u == 0 then
    local h = o.s > 0 and s or u
    return {line(names.A, "b*h", ("%s*%s"):format(b, h), c(o.A, "in2"), square),
      line(names.y, o.s > 0 and "h/2" or "d - h/2", o.s > 0 and h .. "/2"
        or ("%s - %s/2"):format(d, h), c(o.y), inch),
      line(names.I, "b*h^3/12", ("%s*%s^3/12"):format(b, h), c(o.I, "in4"), fourth)}
  end
  local y = n(c(o.y))
  return {line(names.A, "b*(s + u), s wood below, u above", ("%s*(%s + %s)"):format(b, s,
      u), c(o.A, "in2"), square),
    line(names.y, "(s^2/2 + u*(d - u/2))/(s + u), above the bottom edge",
      ("(%s^2/2 + %s*(%s - %s/2))/(%s + %s)"):format(s, u, d, u, s, u), c(o.y), inch),
    line(names.I, (I_OF_TWO:gsub("y", names.y)),
      ("%s*(%s^3/12 + %s^3/12 + %s*(%s - %s/2)^2 + %s*(%s - %s/2 - %s)^2)"):format(b, s,
      u, s, y, s, u, d, u, y), c(o.I, "in4"), fourth)}
end

-- "the opening 1-1/2 in to 4.11 in above the bottom edge".
local function named(o, whole, show)
  if o.loss then return "of what is left" end
  if o == whole then return "of the whole opening" end
  local place = quantity.short
  local function c(x) return place((show.coherent(x, "in"))) end
  local _, unit = show.coherent(1, "in")
  return ("of the opening %s to %s %s above the bottom edge, within this one"):format(
    c(o.s), c(o.d - o.u), unit)
end

-- The edge at which a section has a modulus: formula and numbers.
local function modulus(o, S, names, show)
  local function c(x, unit) return n((show.coherent(x, unit or "in"))) end
  local bottom = agrees(o.S_b, S)
  if not bottom and not agrees(o.S_t, S) then return nil end
  if bottom and o.low == 0 then
    return ("%s/%s, bottom edge"):format(names.I, names.y), ("%s/%s"):format(
      c(o.I, "in4"), c(o.y))
  elseif bottom then
    return ("%s/(%s - low), bottom edge"):format(names.I, names.y), ("%s/(%s - %s)")
      :format(c(o.I, "in4"), c(o.y), c(o.low))
  end
  return ("%s/(%s - %s), top edge"):format(names.I, o.high < o.d and "high" or "d",
    names.y), ("%s/(%s - %s)"):format(c(o.I, "in4"), c(o.high), c(o.y))
end

-- The least modulus: A, y, I of its opening where that is not the whole one, then S.
local function least(list, S, symbol, show)
  local _, third = show.coherent(1, "in3")
  for i, o in ipairs(list) do
    local names = i == 1 and {A = "A", y = "y_b", I = "I"}
      or {A = "A_m", y = "y_m", I = "I_m"}
    local formula, numbers = modulus(o, S, names, show)
    if formula then
      local out = i == 1 and {} or section_lines(o, names, show)
      out[#out + 1] = line(symbol, formula .. ", " .. named(o, list[1], show), numbers,
        (show.coherent(S, "in3")), third)
      return out
    end
  end
end

-- I and the centroid of the opening in which a chord feels most, by both numbers.
local function chord(list, I, y, show, out)
  for _, o in ipairs(list) do
    local up = agrees(o.d - o.y, y)
    if agrees(o.I, I) and (up or agrees(o.y, y)) then
      local lines = section_lines(o, {A = "A", y = "y_b", I = "I"}, show)
      lines[3].formula = lines[3].formula .. ", " .. named(o, list[1], show)
      out.y = {lines[2]}
      if agrees(o.y, y) then
        lines[2].symbol, lines[3].formula = "y", lines[3].formula:gsub("y_b", "y")
      else
        local _, unit = show.coherent(1, "in")
        out.y[2] = line("y", "d - y_b", ("%s - %s"):format(n((show.coherent(o.d, "in"))),
          n((show.coherent(o.y, "in")))), (show.coherent(y, "in")), unit)
      end
      out.I = {lines[3]}
      return
    end
  end
end

-- The openings to look through, the one that the check is of first: a lip too thin to
-- count is left off where the core left it off.
local function listed(r, k, given)
  local burnt = charred(r, k, given)
  if burnt then return {burnt} end
  local s, u, b, d = bare(r, k)
  if not s or s + u >= d then return nil end
  for _, lips in ipairs {{s, u}, {0, u}, {s, 0}} do
    local whole = section(lips[1], lips[2], b, d)
    if whole and (not given.A or agrees(whole.A, given.A)) then
      local list = candidates(lips[1], lips[2], b, d)
      list[1] = whole
      return list
    end
  end
end

-- By the openings within one cut.
local function by_opening(r, k, given, out, show)
  local list = listed(r, k, given)
  if not list then return end
  if given.A and not given.I and agrees(list[1].A, given.A) then
    out.A = {section_lines(list[1], {A = "A", y = "y_b", I = "I"}, show)[1]}
  end
  if given.y_b and agrees(list[1].A, given.A or -1) and agrees(list[1].I, given.I) then
    local lines = section_lines(list[1], {A = "A", y = "y_b", I = "I"}, show)
    out.A, out.y_b, out.I = {lines[1]}, {lines[2]}, {lines[3]}
  elseif given.y and given.I then
    chord(list, given.I, given.y, show, out)
  end
  for _, symbol in ipairs {"S_b", "S_t", "S_min"} do
    if given[symbol] and (out.I or not given.I) then
      out[symbol] = least(list, given[symbol], symbol, show)
    end
  end
end

local SYMBOLS = {"A", "y_b", "y", "I", "S_b", "S_t", "S_min"}

--- Adds lines for A, y_b, I, S_b, S_t and S_min of a check at a cut.
-- @param steps of the check, @param out {[symbol] = lines}, @param show the units
function opening.add(r, k, steps, out, show)
  local given, some = {}, false
  for _, step in ipairs(steps) do
    if not step.formula and math.type(step.value) then given[step.symbol] = step.value end
  end
  if not k.cut or not (given.A or given.I or given.S_min) then return end
  by_opening(r, k, given, out, show)
  for _, symbol in ipairs(SYMBOLS) do some = some or given[symbol] and not out[symbol] end
  if some then left.add(r, k, given, out, show) end
end

return opening
