-- SPDX-License-Identifier: MIT
-- The longest span at every point of a sweep at once: a scan from short to long for all
-- of them, then each gap between the last that passes and the first that fails is halved
-- until it is nothing. spans.lua is the same for one joist.
local core = require "netsection.core"
local spans = require "netsection.spans"

local search = {}

local CLOSE = 1e-9

-- Columns that the search writes: a span and, for the mode that ends it, its code.
local function outputs_of(state, modes)
  local outputs = spans.outputs(state, modes)
  outputs[#outputs + 1] = {quantity = "governing", state = state}
  return outputs
end

-- Works all points of a run at the spans given; fills ok (true, false, or nil where it
-- cannot be built) and code.
local function try(run, length, outputs, ok, code)
  local to, n = {}, run.count
  for i = 1, #outputs do to[i] = core.numbers(n) end
  local fault = core.faults(n)
  local columns = table.move(run.columns, 1, #run.columns, 1, {})
  columns[#columns + 1] = {axis = 0, path = "span.1", values = core.numbers(length)}
  core.sweep {models = run.models, sizes = run.sizes, columns = columns,
    outputs = outputs, to = to, fault = fault, first = run.first, count = n,
    threads = run.threads, rules = run.rules, standard = run.standard}
  for i = 1, n do
    ok[i], code[i] = nil, to[#outputs][i]
    if fault[i] == 0 then
      ok[i] = true
      for o = 1, #outputs - 1 do
        ok[i] = ok[i] and spans.passes(outputs[o], to[o][i])
      end
    end
  end
end

-- The first step that fails after one that passes, for each point.
local function scan(run, outputs, low, high, code)
  local length, ok = {}, {}
  local open = run.count
  for span = spans.shortest, spans.longest_tried, spans.step do
    if open == 0 then break end
    for i = 1, run.count do length[i] = span end
    local faults = {}
    try(run, length, outputs, ok, faults)
    for i = 1, run.count do
      if not high[i] and ok[i] then
        low[i] = span
      elseif not high[i] and (low[i] or ok[i] == false) then
        high[i], code[i] = span, faults[i]
        open = open - 1
      end
    end
  end
end

local function halve(run, outputs, low, high, code)
  local length, ok, faults = {}, {}, {}
  repeat
    local widest = 0
    for i = 1, run.count do
      local gap = low[i] and high[i] and high[i] - low[i] or 0
      widest = math.max(widest, gap)
      length[i] = gap > CLOSE and (low[i] + high[i]) / 2 or low[i] or spans.shortest
    end
    if widest <= CLOSE then return end
    try(run, length, outputs, ok, faults)
    for i = 1, run.count do
      if low[i] and high[i] and high[i] - low[i] > CLOSE then
        if ok[i] then low[i] = length[i] else
          high[i], code[i] = length[i], faults[i] or code[i]
        end
      end
    end
  until false
end

-- @param run {models =, sizes =, columns =, first =, count =, threads =, rules =,
--   standard =} as for core.sweep
-- @param state which is asked; @param modes list, or nil for all checks
-- @return list of spans (nil where none passes), list of codes of what ends them
function search.longest(run, state, modes)
  local low, high, code = {}, {}, {}
  local outputs = outputs_of(state, modes)
  scan(run, outputs, low, high, code)
  halve(run, outputs, low, high, code)
  for i = 1, run.count do
    if low[i] and not high[i] then low[i] = spans.longest_tried end
  end
  return low, code
end

return search
