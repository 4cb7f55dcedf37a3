-- SPDX-License-Identifier: MIT
-- Where on a joist which hole or notch is still allowed: the largest round hole in the
-- middle of the depth and the deepest notch in either edge, place by place, what is cut
-- already being there.
local model = require "netsection.model"
local parts = require "netsection.parts"
local units = require "netsection.units"
local error = require "netsection.raise".error

local cut_map = {}

local OPTIONS = {"notch_length", "places", "rules", "standard"}
local WITHIN = 1 / 256 -- in, finer than anybody saws

-- Evenly from end to end of the wood between the outer bearings.
local function places_of(m, n)
  local total, list = model.total(m), {}
  local a, b = -m.overhang_left, total + m.overhang_right
  for i = 0, n do list[i + 1] = a + (b - a) * i / n end
  return list
end

local function sizes(joist, t, places, options)
  t.at, t.rules, t.standard, t.within = places, options.rules, options.standard, WITHIN
  local list, why = joist:largest(t)
  if not list then return nil, why end
  for i, size in ipairs(list) do list[i] = size or 0 end
  return list, why
end

-- @param options {notch_length = along the joist (d/3), places = how many (120), rules =,
--   standard =}
-- @return {x =, hole =, hole_rules =, hole_calculation =, top =, bottom =: lists of
--   inches, 0 where none is allowed; hole_by =, top_by =, bottom_by =: what stops the
--   next larger; notch_length =, d =}; nil and why there is no map
function cut_map.of(joist, options)
  options = options or {}
  parts.only("cut_map", options, OPTIONS, 2)
  local m = joist.model
  local n = options.places or 120
  if math.type(n) ~= "integer" or n < 4 or n > 2000 then
    error("cut_map: places: 4 to 2000 expected", 2)
  end
  local long, wrong = units.length(options.notch_length or m.d / 3)
  if not long then error("cut_map: notch_length: " .. wrong, 2) end
  local x = places_of(m, n)
  local out = {x = x, notch_length = long, d = m.d, joist = joist}
  local why
  out.hole, out.hole_by = sizes(joist, {cut = "hole"}, x, options)
  if not out.hole then return nil, out.hole_by end
  out.hole_rules = sizes(joist, {cut = "hole", by = "rules"}, x, options)
  out.hole_calculation, why = sizes(joist, {cut = "hole", by = "calculation"}, x, options)
  out.calculation_by = why
  for _, face in ipairs {"top", "bottom"} do
    out[face], out[face .. "_by"] = sizes(joist, {cut = "notch", face = face,
      length = long}, x, options)
  end
  return out
end

return cut_map
