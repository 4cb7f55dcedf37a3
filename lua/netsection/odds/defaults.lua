-- SPDX-License-Identifier: MIT
-- What is uncertain about a joist unless the engineer says otherwise. The spreads of
-- lengths are assumptions of ours: no published figure was found for a tape on an old
-- floor. Dead load: Rosowsky's report on load and resistance, Table 2.1 (read). Species
-- and grade have no default: their weights are the engineer's.
local units = require "netsection.units"

local defaults = {}

local TAPE, ROUGH, PLACE, SPACING = 1 / 32, 1 / 16, 1 / 4, 1 / 8

-- A figure with its status in words.
local ASSUMED = "assumed"
local SIZE_ONLY = "assumed: by its size, not measured"
local DEAD = "1.05 of what is entered, COV 0.10: Rosowsky, Table 2.1"

-- Lengths of a cut: t by a tape across the grain, p a place along the joist.
local OF_CUT = {
  hole = {at = "p", diameter = "t", below = "t", above = "t"},
  slot = {from = "p", to = "p", height = "t", below = "t", above = "t"},
  notch = {from = "p", to = "p", depth = "t"},
  end_notch = {depth = "t", length = "p"},
  sever = {from = "p", to = "p"},
  loss = {from = "p", to = "p", top = "r", bottom = "r", sides = "r"},
  split = {from = "p", to = "p", at_depth = "t"}}
-- In the order that they are drawn in.
local ORDER = {"diameter", "height", "depth", "below", "above", "top", "bottom", "sides",
  "at_depth", "at", "from", "to", "length"}

local function normal(name, mean, sd, source)
  return {name = name, normal = {mean, sd}, source = source or ASSUMED}
end

local function of_cuts(joist, across, list)
  for i, cut in ipairs(joist.description.cuts or {}) do
    local kinds = OF_CUT[cut.kind] or {}
    for _, field in ipairs(ORDER) do
      local kind = kinds[field]
      local value = kind and cut[field] ~= nil and units.length(cut[field])
      -- What was not lost is not measured.
      if value and (value > 0 or kind == "p") then
        list[#list + 1] = normal(("cuts.%d.%s"):format(i, field), value,
          kind == "p" and PLACE or kind == "r" and ROUGH or across)
      end
    end
  end
end

-- @param t {rough = true: cuts across the grain to 1/16 in instead of 1/32}
-- @return list of inputs as ns.odds takes them
function defaults.of(joist, t)
  local m, list = joist.model, {}
  local dead = m.dead > 0 and {name = "dead", normal = {1.05 * m.dead, 0.105 * m.dead},
    source = DEAD}
  if joist.repair then
    -- The repair was worked out for the joist as entered.
    return {normal("spacing", m.spacing, SPACING), dead or nil}
  end
  local by_size = joist.description.size ~= nil
  for _, name in ipairs {"d", "b"} do
    list[#list + 1] = normal(name, m[name], by_size and ROUGH or TAPE,
      by_size and SIZE_ONLY or nil)
  end
  of_cuts(joist, t.rough and ROUGH or TAPE, list)
  local turned
  for _, load in ipairs(joist.description.loads or {}) do
    turned = turned or load.from_right
  end
  for i, span in ipairs(turned and {} or m.span) do
    list[#list + 1] = normal(#m.span == 1 and "span" or "spans." .. i, span, PLACE)
  end
  list[#list + 1] = normal("spacing", m.spacing, SPACING)
  if dead then list[#list + 1] = dead end
  return list
end

return defaults
