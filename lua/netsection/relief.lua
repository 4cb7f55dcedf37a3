-- SPDX-License-Identifier: MIT
-- Dead load that relieves. On an overhang or on one of several spans it may lower what
-- governs elsewhere; it counts, since it is there, but who takes a finish or a wall away
-- later does not know that the joist leaned on it. So each stretch is tried without.
local point = require "netsection.point"
local units = require "netsection.units"

local relief = {}

local TELLS = 1.02 -- ours: less is no matter

-- Each overhang and span by its code in the model: 1 the left overhang, then the spans,
-- then the right overhang.
local function stretches(m)
  local spans, list = #m.span, {}
  if m.overhang_left > 0 then list[1] = {code = 1, name = "the left overhang"} end
  for k = 1, spans do list[#list + 1] = {code = k + 1, name = "span " .. k} end
  if m.overhang_right > 0 then
    list[#list + 1] = {code = spans + 2, name = "the right overhang"}
  end
  return list
end

local function without(m, code)
  local copy = {}
  for name, value in pairs(m) do copy[name] = value end
  copy.dead_off = code
  return copy
end

--- The stretches whose dead load lowers the largest ratio by more than 2 %.
-- @param m model of a joist
-- @param ratio its largest ratio
-- @param ratio_of function of a model: its largest ratio, or nil
-- @return a list of {part = "the right overhang", ratio = what it is without that dead
-- load}, the largest first; empty for one span
function relief.of(m, ratio, ratio_of)
  local list, parts = {}, stretches(m)
  if #parts < 2 or not ratio then return list end
  for _, part in ipairs(parts) do
    local other = ratio_of(without(m, part.code))
    if other and other > TELLS * ratio then
      list[#list + 1] = {part = part.name, ratio = other}
    end
  end
  table.sort(list, function(a, b)
    return a.ratio > b.ratio or a.ratio == b.ratio and point.less(a.part, b.part)
  end)
  return list
end

--- The sentence that a review prints of one of them.
-- @param one {part =, ratio =}; @param ratio with that dead load
function relief.said(one, ratio)
  return ("dead load on %s relieves the rest: %s without it, %s with it; see that it "
    .. "stays"):format(one.part, units.fixed(one.ratio, 3), units.fixed(ratio, 3))
end

return relief
