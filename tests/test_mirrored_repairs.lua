-- SPDX-License-Identifier: MIT
-- Random repairs of every kind beside their images in a mirror across the joist's middle:
-- by symmetry forces, ratios and counts are alike and every place is as far from the
-- other end; and a piece is a box with its lower end first.
local lu = require "luaunit"
local ns = require "netsection"
local random = require "tests.random_repair"
local support = require "tests.support"

local T = {}

local BUILT = 10 -- of each kind

local with = support.with
local OTHER = {left = "right", right = "left"}

local function turned(list, L, from, to)
  local out = {}
  for i, one in ipairs(list) do
    out[i] = with(one, {[from] = L - one[to], [to] = L - one[from]})
  end
  return out
end

local function mirrored_joist(j)
  local L, out = j.L[1], with(j)
  out.l_b = {j.l_b[2], j.l_b[1]}
  out.points, out.lines = turned(j.points, L, "x", "x"), turned(j.lines, L, "a", "b")
  for _, l in ipairs(out.lines) do l.w1, l.w2 = l.w2, l.w1 end
  out.cuts = turned(j.cuts, L, "from", "to")
  for _, c in ipairs(out.cuts) do c.support = OTHER[c.support] end
  return out
end

-- Places of an end sister are measured from the bearing that is lost; that of a joist
-- between two others lies across.
local function mirrored_fix(f, L)
  local out = with(f)
  out.support = OTHER[f.support]
  if f.kind == "end_sister" then return out end
  if f.from then out.from, out.to = L - f.to, L - f.from end
  if f.groups then
    out.groups = {}
    for i, g in ipairs(f.groups) do
      out.groups[#f.groups + 1 - i] = {at = L - g.at, n = g.n}
    end
  end
  if f.kind == "midspan_support" then out.at = L - f.at end
  if f.kind == "header" then out.at = {L - f.at[2], L - f.at[1]} end
  if type(f.lift) == "table" then
    out.lift = {at = L - f.lift.at, force = f.lift.force}
  end
  return out
end

local function fixed(j, f)
  return ns.joist(random.described(j)):fix(random.fix(f)):review().fixed
end

-- What each list says, sorted: of checks, of pieces, of fasteners.
local function words(list, say)
  local out = {}
  for i, one in ipairs(list or {}) do out[i] = say(one) end
  table.sort(out)
  return table.concat(out, "\n")
end

local function number(x)
  return x and ("%.6g"):format(math.abs(x) < 1e-7 and 0 or x) or "-"
end

local function check_words(k)
  return ("%s of the %s: %s"):format(k.mode, k.member, number(k.ratio))
end

local function fastener_words(f)
  return ("%s %d"):format(f.fastener, f.count)
end

local function piece_words(L, turn)
  return function(p)
    local x1, x2 = p.x1, p.x2
    if turn and x1 then x1, x2 = L - p.x2, L - p.x1 end
    return table.concat({p.name, p.count, number(p.length), number(x1), number(x2),
      number(p.h1), number(p.h2), number(p.y1), number(p.y2)}, " ")
  end
end

-- Columns of fasteners: of an odd number the first column has one more, which is the
-- left one in the mirror as well.
local function columns(list, L, turn)
  local out, seen = {}, {}
  for _, p in ipairs(list or {}) do
    local x = ("%.4f"):format(turn and L - p.x or p.x)
    if not seen[x] then out[#out + 1] = x end
    seen[x] = true
  end
  table.sort(out)
  return table.concat(out, " ") .. ", of " .. #(list or {})
end

local function boxes(a, what)
  for _, p in ipairs(a.pieces or {}) do
    for _, ends in ipairs {{"x1", "x2"}, {"h1", "h2"}, {"y1", "y2"}} do
      local lo, hi = p[ends[1]], p[ends[2]]
      if lo and hi then lu.assertTrue(lo < hi, ("%s, %s: %s"):format(what, p.name,
        ends[1])) end
    end
  end
end

local function compare(j, f, what)
  local L = j.L[1]
  local a, b = fixed(j, f), fixed(mirrored_joist(j), mirrored_fix(f, L))
  lu.assertEquals(b.refused ~= nil, a.refused ~= nil, ("%s: %s, %s"):format(what,
    tostring(a.refused), tostring(b.refused)))
  if a.refused then return 0 end
  boxes(a, what)
  lu.assertEquals(number(b.ratio), number(a.ratio), what)
  lu.assertEquals(words(b.checks, check_words), words(a.checks, check_words), what)
  lu.assertEquals(words(b.pieces, piece_words(L, true)), words(a.pieces,
    piece_words(L)), what)
  lu.assertEquals(words(b.fasteners, fastener_words), words(a.fasteners,
    fastener_words), what)
  lu.assertEquals(columns(b.layout, L, true), columns(a.layout, L), what)
  return 1
end

for kind in pairs(random.kinds) do
  T["test_" .. kind] = function()
    local r, built = support.random(20261130 + #kind), 0
    for case = 1, 60 do
      local j, f = random.of(r, kind)
      built = built + compare(j, f, ("%s %d"):format(kind, case))
      if built == BUILT then return end
    end
    lu.fail(("%s: %d of 60 built"):format(kind, built))
  end
end

return T
