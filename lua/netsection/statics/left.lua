-- SPDX-License-Identifier: MIT
-- The net section at cuts that count together, or beside a loss, as the rectangles that
-- are left: A, its centroid and I by them. Which cuts count at a place is the core's
-- finding; here those are looked for whose rectangles have the area and the second moment
-- that it gave. Parts of a split bend each by itself: I is the sum of their own.
local found = require "netsection.statics.found"
local text = require "netsection.text"

local left = {}

local agrees, n = found.agrees, text.short
local MOST = 6        -- cuts besides that are tried together

-- What bands leave of low..high: {{h1, h2}, ...} from below.
local function bands_left(low, high, bands)
  local list = {{low, high}}
  for _, band in ipairs(bands) do
    local out = {}
    for _, p in ipairs(list) do
      if band[1] > p[1] + 1e-12 then out[#out + 1] = {p[1], math.min(p[2], band[1])} end
      if band[2] < p[2] - 1e-12 then out[#out + 1] = {math.max(p[1], band[2]), p[2]} end
    end
    list = out
  end
  return list
end

-- A, y above the bottom edge and I of rectangles b wide.
local function section(list, b, split)
  local A, Q, I = 0, 0, 0
  for _, p in ipairs(list) do
    A, Q = A + p[2] - p[1], Q + (p[2] - p[1]) * (p[1] + p[2]) / 2
  end
  if A <= 0 then return nil end
  local y = Q / A
  for _, p in ipairs(list) do
    local h, c = p[2] - p[1], (p[1] + p[2]) / 2
    I = I + h ^ 3 / 12 + (split and 0 or h * (c - y) ^ 2)
  end
  return {list = list, b = b, A = A * b, y = y, I = I * b, split = split}
end

-- The wood that some of the cuts leave.
local function remaining(m, cuts)
  local low, high, b, bands, split = 0, m.d, m.b * m.plies, {}, false
  for _, c in ipairs(cuts) do
    if c.kind == "loss" then
      low, high = math.max(low, c.bottom or 0), math.min(high, m.d - (c.top or 0))
      b = math.min(b, m.b * m.plies - 2 * (c.sides or 0))
    else
      split = split or c.kind == "split"
      bands[#bands + 1] = {c.h1, c.h2}
    end
  end
  if b <= 0 then return nil end
  return bands_left(low, high, bands), b, split
end

-- Sections that the cut and others leave, all of each or with one piece off: a lip too
-- thin to count.
local function sections_of(r, k)
  local m, all, others, out = k.origin.model, r:layout().cuts, {}, {}
  local own = all[k.cut]
  if not own then return out end
  for i, c in ipairs(all) do
    if i ~= k.cut and #others < MOST then others[#others + 1] = c end
  end
  for bits = 0, (1 << #others) - 1 do
    local cuts = {own}
    for i, c in ipairs(others) do
      if bits & 1 << i - 1 ~= 0 then cuts[#cuts + 1] = c end
    end
    local list, b, split = remaining(m, cuts)
    if list and #list > 0 then
      out[#out + 1] = section(list, b, split)
      for gone = 1, #list > 1 and #list or 0 do
        local rest = {table.unpack(list)}
        table.remove(rest, gone)
        out[#out + 1] = section(rest, b, split)
      end
    end
  end
  return out
end

local function fits(o, given)
  if given.A and not agrees(o.A, given.A) then return false end
  if given.I and not agrees(o.I, given.I) then return false end
  return given.A ~= nil or given.I ~= nil
end

local function line(symbol, formula, numbers, value, unit)
  return {symbol = symbol, formula = formula, numbers = numbers, value = value,
    unit = unit}
end

-- Sums over the rectangles: their heights, heights times middles, and I about y.
local function sums(o, c)
  local h, Q, I = {}, {}, {}
  for i, p in ipairs(o.list) do
    local high, middle = n(c(p[2] - p[1])), n(c((p[1] + p[2]) / 2))
    h[i] = high
    Q[i] = ("%s*%s"):format(high, middle)
    I[i] = ("%s^3/12"):format(high)
    if not o.split then
      I[i] = ("%s + %s*(%s - %s)^2"):format(I[i], high, middle, n(c(o.y)))
    end
  end
  return table.concat(h, " + "), table.concat(Q, " + "), table.concat(I, " + ")
end

-- The same counted from the lowest wood left, where the core gave its centroid so; nil
-- where the centroid is another.
local function placed(o, given)
  local low = o.list[1][1]
  if not given.y_b or agrees(o.y, given.y_b) then return o, "the bottom edge" end
  if not agrees(o.y - low, given.y_b) then return nil end
  local list = {}
  for i, p in ipairs(o.list) do list[i] = {p[1] - low, p[2] - low} end
  return {list = list, b = o.b, A = o.A, y = o.y - low, I = o.I, split = o.split},
    "the lowest wood left"
end

--- Adds the lines that no single opening gave.
-- @param given {[symbol] = number}, @param out {[symbol] = lines}, @param show the units
function left.add(r, k, given, out, show)
  local o
  for _, one in ipairs(sections_of(r, k)) do
    if not o and fits(one, given) then o = one end
  end
  local from
  if o then o, from = placed(o, given) end
  if not o then return end
  local function c(x, unit) return (show.coherent(x, unit or "in")) end
  local function unit(name) return select(2, show.coherent(1, name)) end
  local h, Q, I = sums(o, c)
  local b, count = n(c(o.b)), #o.list == 1 and "one rectangle" or ("%d rectangles")
    :format(#o.list)
  local function put(symbol, lines)
    if given[symbol] and not out[symbol] then out[symbol] = lines end
  end
  put("A", {line("A", "b*(sum of h), " .. count .. " left", ("%s*(%s)"):format(b, h),
    c(o.A, "in2"), unit "in2")})
  local y = line("y_b", "(sum of h times its middle)/(sum of h), above " .. from,
    ("(%s)/(%s)"):format(Q, h), c(o.y), unit "in")
  put("y_b", {y})
  if given.y and not out.y then
    if agrees(o.y, given.y) then
      y.symbol = "y"
      out.y = {y}
    elseif agrees(k.origin.model.d - o.y, given.y) then
      out.y = {y, line("y", "d - y_b", ("%s - %s"):format(n(c(k.origin.model.d)),
        n(c(o.y))), c(given.y), unit "in")}
    end
  end
  put("I", {line("I", o.split and "b*(sum of h^3/12), each part by itself"
    or "b*(sum of h^3/12 + h*(middle - " .. y.symbol .. ")^2)", ("%s*(%s)"):format(b, I),
    c(o.I, "in4"), unit "in4")})
  local low, high = o.list[1][1], o.list[#o.list][2]
  if o.split then
    local deepest = 0
    for _, p in ipairs(o.list) do deepest = math.max(deepest, p[2] - p[1]) end
    for _, symbol in ipairs {"S_b", "S_t", "S_min"} do
      if given[symbol] and agrees(o.I / (deepest / 2), given[symbol]) then
        put(symbol, {line(symbol, "I/(h/2) of the deepest part", ("%s/(%s/2)"):format(
          n(c(o.I, "in4")), n(c(deepest))), c(given[symbol], "in3"), unit "in3")})
      end
    end
  end
  for _, symbol in ipairs {"S_b", "S_t", "S_min"} do
    for _, edge in ipairs {{o.y - low, "bottom"}, {high - o.y, "top"}} do
      if given[symbol] and not out[symbol] and (given.I or symbol == "S_min")
        and agrees(o.I / edge[1], given[symbol]) then
        out[symbol] = {line(symbol, ("I/(distance of the %s edge)"):format(edge[2]),
          edge[2] == "bottom" and ("%s/(%s - %s)"):format(n(c(o.I, "in4")), n(c(o.y)),
          n(c(low))) or ("%s/(%s - %s)"):format(n(c(o.I, "in4")), n(c(high)), n(c(o.y))),
          c(given[symbol], "in3"), unit "in3")}
      end
    end
  end
end

return left
