-- SPDX-License-Identifier: MIT
-- The longest span, by trying: sixteen spans at a time through the same checks as a
-- review. A scan finds the first span that fails, then the gap before it is cut into
-- sixteen parts again and again.
local core = require "netsection.core"
local review = require "netsection.review"

local spans = {}

local SHORTEST, LONGEST, STEP = 24, 480, 6

local function outputs_of(m, modes)
  local state = #m.cuts > 0 and "cut" or "uncut"
  if not modes then return {"status", state .. ".ratio", "cut.not_permitted"} end
  local outputs = {"status"}
  for _, mode in ipairs(modes) do outputs[#outputs + 1] = state .. ":" .. mode end
  return outputs
end

-- For each span: true passes, false fails, nil cannot be built (a cut past its end).
local function try(m, rules, standard, outputs, list)
  local results = {core.batch(m, rules.core, standard.core, #list, {["span.1"] = list},
    outputs)}
  local pass = {}
  for i = 1, #list do
    if results[1][i] == 0 then
      pass[i] = true
      for o = 2, #outputs do
        local limit = outputs[o] == "cut.not_permitted" and 0 or 1
        pass[i] = pass[i] and results[o][i] <= limit
      end
    end
  end
  return pass
end

local KNOWN = {}
for _, mode in ipairs {"bending", "shear", "bearing", "deflection-live",
  "deflection-total", "net-bending", "net-shear", "notch-shear", "opening-frame",
  "lip-tension", "wood-compression"} do
  KNOWN[mode] = true
end

local function check_modes(modes)
  if modes == nil then return end
  if type(modes) ~= "table" or #modes == 0 then
    error("longest_span: modes is a list such as {\"bending\"}", 4)
  end
  for _, mode in ipairs(modes) do
    if not KNOWN[mode] then
      error(("longest_span: unknown mode '%s'"):format(tostring(mode)), 4)
    end
  end
end

-- Last passing and first failing of a row of spans, skipping those before the cuts fit.
local function bracket(list, pass)
  local last
  for i, span in ipairs(list) do
    if pass[i] then
      last = span
    elseif last or pass[i] == false then
      return last, span
    end
  end
  return last, nil
end

local function row(from, to, count)
  local list = {}
  for i = 1, count do list[i] = from + (to - from) * i / count end
  return list
end

-- Longest span in inches below which all spans pass, unrounded; nil and a reason where
-- not even the shortest passes. 480 in means that the range ends before the joist does.
-- @param options {modes = list of modes (all by default), rules =, standard =}
function spans.longest(joist, options)
  local m = joist.model
  check_modes(options.modes)
  if #m.span > 1 or m.overhang_left > 0 or m.overhang_right > 0 then
    return nil, "a single span without overhangs is needed to ask for the longest"
  end
  local lacking = review.lacking(m)
  if lacking then return nil, lacking end
  local rules, standard = review.packs_of(joist, options)
  local outputs = outputs_of(m, options.modes)
  local list = {}
  for span = SHORTEST, LONGEST, STEP do list[#list + 1] = span end
  local low, high = bracket(list, try(m, rules, standard, outputs, list))
  if not low then return nil, "not even the shortest span passes" end
  if not high then return LONGEST end
  while high - low > 1e-9 do
    local finer = row(low, high, 16)
    local pass = try(m, rules, standard, outputs, finer)
    local next_low, next_high = bracket(finer, pass)
    low, high = next_low or low, next_high or high
  end
  return low
end

return spans
