-- SPDX-License-Identifier: MIT
-- A new joist in a bay, in a grid: a line of its own on the same bearings, with its own
-- EI. It and the lines beside it take the floor by half of their bays. A joist that is
-- written off is a gap from end to end: what stands there reaches the others by the deck.
local core = require "netsection.core"
local model = require "netsection.model"
local part = require "netsection.fix.part"

local added = {}

--- Notes on the line of the old joist what is put beside it, for added.into.
function added.put(line, r)
  line.beside = {fix = r.joist.repair, sides = {part.sides(r.joist)}, packs = r.packs}
  line.bearings = model.supports(r.joist.model)
  if r.joist.repair.write_off then
    line.bearings, line.stretches = {}, {}
    line.gaps = {{line.first, line.last}}
  end
end

-- What lies on the floor by area; loads of a width of their own stay on the old joist.
local function of_area(m)
  local list = {}
  for _, l in ipairs(m.lines) do
    if l.area and (l.width or 0) == 0 then list[#list + 1] = l end
  end
  return setmetatable({lines = list, points = {}}, {__index = m})
end

local function line_of(old, side, bay)
  local o = old.beside
  local m, off = o.fix.wood.model, o.fix.at or bay / 2
  local EI = core.stiffness(m, o.packs.rules, o.packs.standard)[1].uncut
  return {mark = ("%s, added %s"):format(old.mark, side), added = true, m = of_area(m),
    y = old.y + (side == "left" and -off or off), review = old.review,
    first = old.first, last = old.last, bearings = model.supports(m), gaps = {},
    stretches = {{from = old.first, to = old.last, EI = EI}}}
end

-- Half of the bays on both sides, as the deck lies on the lines that there are.
local function share_out(list)
  for i, line in ipairs(list) do
    local a, b = list[i - 1], list[i + 1]
    line.trib = (a and (line.y - a.y) / 2 or 0) + (b and (b.y - line.y) / 2 or 0)
  end
end

--- The lines of a floor with the new joists among them.
function added.into(list)
  local out, any = {}, false
  for _, line in ipairs(list) do
    local o = line.beside
    local both = o and o.fix.side == "both"
    if o and (both or o.fix.side == "left") then
      out[#out + 1] = line_of(line, "left", o.sides[1])
    end
    out[#out + 1] = line
    if o and (both or o.fix.side == "right") then
      out[#out + 1] = line_of(line, "right", o.sides[2])
    end
    any = any or o ~= nil
  end
  if any then share_out(out) end
  return out
end

return added
