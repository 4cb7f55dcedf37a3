-- SPDX-License-Identifier: MIT
-- What stands in the way of a repair, on a plan of a floor: where it lies, its number in
-- a bay beside it, and a row of the key for each.

local obstruction = require "netsection.obstruction"
local outline = require "netsection.plot.outline"
local sheet = require "netsection.plot.sheet"
local words = require "netsection.plot.words"

local things = {}

local box = outline.box

local function within(x, low, high)
  return math.max(low, math.min(x, high))
end

local TAG = 0.075           -- in, half the height of a number

-- The middle of the bay nearest to h that has room for a number, between x1 and x2; the
-- nearest place above or below all joists where no bay has.
local function free_height(v, joists, h)
  local best, least = nil, math.huge
  for i = 1, #joists - 1 do
    local a, b = joists[i], joists[i + 1]
    local high, low = a.h - a.half, b.h + b.half
    if high - low >= 2 * TAG * v.N then
      local at = math.max(low + TAG * v.N, math.min(h, high - TAG * v.N))
      if math.abs(at - h) < least then best, least = at, math.abs(at - h) end
    end
  end
  if best then return best end
  local first = joists[1]
  return first.h + first.half + TAG * v.N
end

-- Its number in a bay, beside the thing, so that no joist is written over.
local function tag(v, number, x2, h, joists)
  v:label(("(%d)"):format(number), x2 + 0.05 * v.N, free_height(v, joists, h),
    "left boxed")
end

--- Draws them, each with its number in a bay.
-- @param e extent of the floor; joists {{h = place across, half = of its width}, ...}
function things.draw(v, list, e, joists)
  for _, thing in ipairs(list) do
    local s = thing.shape
    if s and thing.kind ~= "finish" then
      local x1, x2 = within(s.x1, e.a, e.b), within(s.x2, e.a, e.b)
      local h1, h2 = within(-s.y2, e.low, e.high), within(-s.y1, e.low, e.high)
      local thick = 0.03 * v.N
      if x2 - x1 < 2 * thick then
        x1, x2 = (x1 + x2) / 2 - thick, (x1 + x2) / 2 + thick
      end
      if h2 - h1 < 2 * thick then
        h1, h2 = (h1 + h2) / 2 - thick, (h1 + h2) / 2 + thick
      end
      v:add("thing", box(x1, x2, h1, h2))
      tag(v, thing.number, x2, (h1 + h2) / 2, joists)
    end
  end
end

--- Rows of the key: what each number is and what moving it takes.
function things.rows(given)
  local list = {}
  for _, thing in ipairs(given) do
    list[#list + 1] = {{sheet.margin, ("(%d) %s; moving it: %s%s%s"):format(thing.number,
      words.of(thing.what, 60), obstruction.classes[thing.class] or "-",
      thing.trade and ", " .. words.of(thing.trade, 30) or "",
      thing.movable == "no" and "; not to be moved" or "")}}
  end
  return list
end

return things
