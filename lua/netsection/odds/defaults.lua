-- SPDX-License-Identifier: MIT
-- What is uncertain about a joist unless the engineer says otherwise. The spreads of
-- lengths are assumptions of ours: no published figure was found for a tape on an old
-- floor; which of a cut's fields are measured, their rows say (fields/cut.lua). Dead load
-- by the standard in force (scatter.lua of its folder). Species and grade have no
-- default: their weights are the engineer's.
local fields = require "netsection.fields"
local units = require "netsection.units"

local defaults = {}

local TAPE, ROUGH, PLACE, SPACING = 1 / 32, 1 / 16, 1 / 4, 1 / 8

-- A figure with its status in words.
local ASSUMED = "assumed"
local SIZE_ONLY = "assumed: by its size, not measured"

-- Measured fields of each kind of cut, in the order that they are drawn in.
local MEASURED = {}
for kind, rows in pairs(fields.of) do
  local list = {}
  for _, row in ipairs(rows) do
    local kinds = row.scatter and (row.scatter[3] or kind)
    if kinds and (" " .. kinds .. " "):find(" " .. kind .. " ", 1, true) then
      list[#list + 1] = row
    end
  end
  table.sort(list, function(a, b) return a.scatter[2] < b.scatter[2] end)
  MEASURED[kind] = list
end

local function normal(name, mean, sd, source)
  return {name = name, normal = {mean, sd}, source = source or ASSUMED}
end

local function of_cuts(joist, across, list)
  for i, cut in ipairs(joist.description.cuts or {}) do
    for _, row in ipairs(MEASURED[cut.kind] or {}) do
      local field, kind = row.name, row.scatter[1]
      local value = cut[field] ~= nil and units.length(cut[field])
      -- What was not lost is not measured.
      if value and (value > 0 or kind == "place") then
        list[#list + 1] = normal(("cuts.%d.%s"):format(i, field), value,
          kind == "place" and PLACE or kind == "rough" and ROUGH or across)
      end
    end
  end
end

-- @param t {rough = true: cuts across the grain to 1/16 in instead of 1/32}
-- @param scatter of the standard in force
-- @return list of inputs as ns.odds takes them
function defaults.of(joist, t, scatter)
  local m, list, of = joist.model, {}, scatter.dead
  local mean = of.mean * m.dead
  local dead = m.dead > 0 and {name = "dead", normal = {mean, of.cov * mean},
    source = ("%s of what is entered, COV %s: %s"):format(units.fixed(of.mean, 2),
      units.fixed(of.cov, 2), of.source)}
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
