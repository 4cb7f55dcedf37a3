-- SPDX-License-Identifier: MIT
-- Each input at its 5, 50 and 95 %, the rest at their medians: an input may be worst in
-- the middle or at both ends.
local inputs = require "netsection.odds.inputs"

local tornado = {}

local PERCENT = {5, 50, 95}

local function width(row)
  local low, high = math.huge, -math.huge
  for _, p in ipairs(PERCENT) do
    local ratio = row.at[p].ratio or math.huge
    low, high = math.min(low, ratio), math.max(high, ratio)
  end
  return high > low and high - low or 0, low, high
end

-- @param o {model =, inputs =} @return list of {name =, at = {[5] = {value =, ratio =,
--   action =}, [50] =, [95] =}, low =, high = the least and largest ratio (nil: no
--   ratio there), flips = true where the action changes}, the widest first; base =
--   {ratio =, action =} at the medians
function tornado.of(o)
  local median, rows = {}, {}
  for k, input in ipairs(o.inputs) do median[k] = inputs.at(input, 0.5) end
  local places = {median}
  for k, input in ipairs(o.inputs) do
    for _, p in ipairs(PERCENT) do
      local at = table.move(median, 1, #median, 1, {})
      at[k] = inputs.at(input, p / 100)
      places[#places + 1] = at
    end
  end
  local answers = o.model:each(places)
  rows.base = answers[1]
  for k, input in ipairs(o.inputs) do
    local row = {name = input.name, at = {}, flips = false, order = k}
    for j, p in ipairs(PERCENT) do
      local n = 1 + (k - 1) * #PERCENT + j
      local a = answers[n]
      row.at[p] = {value = inputs.value(input, places[n][k]), ratio = a.ratio,
        action = a.action}
      row.flips = row.flips or a.action ~= rows.base.action
    end
    local low, high
    row.width, low, high = width(row)
    row.low = low < math.huge and low or nil
    row.high = high < math.huge and high or nil
    if input.law.of ~= "fixed" then rows[#rows + 1] = row end
  end
  table.sort(rows, function(a, b)
    if a.width ~= b.width then return a.width > b.width end
    return a.order < b.order
  end)
  for _, row in ipairs(rows) do row.order, row.width = nil, nil end
  return rows
end

return tornado
