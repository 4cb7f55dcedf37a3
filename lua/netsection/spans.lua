-- SPDX-License-Identifier: MIT
-- The longest span, by trying: sixteen spans at a time through the same checks as a
-- review. A scan finds the first span that fails, then the gap before it is cut into
-- sixteen parts again and again.
local codes = require "netsection.codes"
local lanes = require "netsection.lanes"
local review = require "netsection.review"

local spans = {shortest = 24, longest_tried = 480, step = 6}

local SHORTEST, LONGEST, STEP = spans.shortest, spans.longest_tried, spans.step

-- What of a state has to pass: all of it, or modes.
function spans.outputs(state, modes)
  if not modes then
    return {{take = "ratio", state = state}, {take = "status", state = "cut"}}
  end
  local outputs = {}
  for i, mode in ipairs(modes) do
    outputs[i] = {take = "check", mode = mode, state = state}
  end
  return outputs
end

-- A ratio, or the code of a status; a check that the joist does not have passes.
function spans.passes(output, value)
  if output.take == "status" then return value ~= codes.not_permitted end
  return value == nil and output.take == "check" or value ~= nil and value <= 1
end

-- For each span: true passes, false fails, nil cannot be built (a cut past its end).
local function try(m, packs, outputs, list)
  local results, fault = lanes.work(m, packs, #list, {["span.1"] = list}, outputs)
  local pass = {}
  for i = 1, #list do
    if fault[i] == 0 then
      pass[i] = true
      for o, output in ipairs(outputs) do
        pass[i] = pass[i] and spans.passes(output, results[o][i])
      end
    end
  end
  return pass
end

local KNOWN = {}
for _, mode in ipairs {"bending", "shear", "bearing", "deflection-live",
  "deflection-total", "net-bending", "net-shear", "notch-shear", "opening-frame",
  "lip-tension", "wood-compression", "chord-alone"} do
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
  local packs = {}
  packs.rules, packs.standard = review.packs_of(joist, options)
  local outputs = spans.outputs(#m.cuts > 0 and "cut" or "uncut", options.modes)
  local list = {}
  for span = SHORTEST, LONGEST, STEP do list[#list + 1] = span end
  local low, high = bracket(list, try(m, packs, outputs, list))
  if not low then return nil, "not even the shortest span passes" end
  if not high then return LONGEST end
  while high - low > 1e-9 do
    local finer = row(low, high, 16)
    local pass = try(m, packs, outputs, finer)
    local next_low, next_high = bracket(finer, pass)
    low, high = next_low or low, next_high or high
  end
  return low
end

return spans
