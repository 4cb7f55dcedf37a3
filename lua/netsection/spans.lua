-- SPDX-License-Identifier: MIT
-- The spans that pass, by trying: sixteen at a time through the same checks as a review.
-- A cut near midspan of a short joist may lie in the outer third of a longer one, so they
-- need not be of one piece. A scan finds the pieces, then the gap at each end is cut into
-- sixteen parts again and again.
local checks = require "netsection.checks"
local enums = require "netsection.enums"
local lanes = require "netsection.lanes"
local ply = require "netsection.ply"
local review = require "netsection.review"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local spans = {shortest = 24, longest_tried = 480, step = 3}

local SHORTEST, LONGEST, STEP = spans.shortest, spans.longest_tried, spans.step

-- What of a state has to pass: all of it, or modes.
function spans.outputs(state, modes)
  if not modes then
    return {{quantity = "ratio", state = state}, {quantity = "status", state = "cut"}}
  end
  local outputs = {}
  for i, mode in ipairs(modes) do
    outputs[i] = {quantity = "check", mode = mode, state = state}
  end
  return outputs
end

-- A ratio, or the code of a status; a check that the joist does not have passes.
function spans.passes(output, value)
  if output.quantity == "status" then return value ~= enums.not_permitted end
  return value == nil and output.quantity == "check" or value ~= nil and value <= 1
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

local KNOWN = checks.having("unrepaired", true)

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

local function row(from, to, count)
  local list = {}
  for i = 1, count do list[i] = from + (to - from) * i / count end
  return list
end

-- What fails at a span: a mode, "rule" (a cut the standard does not permit), or a cut
-- that does not lie on the joist, which is no failure of it.
local function cause(m, packs, outputs, state, span)
  local asked = table.move(outputs, 1, #outputs, 1, {})
  asked[#asked + 1] = {quantity = "governing", state = state}
  local results, fault = lanes.work(m, packs, 1, {["span.1"] = {span}}, asked)
  if fault[1] ~= 0 then return "cut past the end" end
  local worst, name = 1, nil
  for o, output in ipairs(outputs) do
    local value = results[o][1]
    if output.quantity == "check" and value and value > worst then
      worst, name = value, output.mode
    elseif output.quantity == "status" and not spans.passes(output, value) then
      return "rule"
    end
  end
  return name or enums.word(enums.words.governing, results[#asked][1]) or "rule"
end

-- Closes in on the edge between a span that passes and one beside it that does not.
-- @return the last span found to pass, the first found not to
local function edge(m, packs, outputs, good, bad)
  while math.abs(bad - good) > 1e-9 do
    local finer = row(good, bad, 16)
    local pass, last = try(m, packs, outputs, finer), good
    local next_bad = bad
    for i = 1, #finer do
      if pass[i] ~= true then
        next_bad = finer[i]
        break
      end
      last = finer[i]
    end
    good, bad = last, next_bad
  end
  return good, bad
end

local function single_span(m, standard)
  if #m.span > 1 or m.overhang_left > 0 or m.overhang_right > 0 then
    return nil, "a single span without overhangs is needed to ask for the longest"
  end
  local lacking = review.lacking(m, standard) or ply.unsearched(m)
  if lacking then return nil, lacking end
  return true
end

-- The spans from 24 to 480 in at which the joist passes with its cuts where they are.
-- Scanned every 3 in: an interval, or a gap between two, that is shorter may be missed.
-- @param options {modes = list of modes (all by default), rules =, standard =}
-- @return list of {from =, to = (in), starts =, ends = (what fails just outside: a mode,
--   "rule", "cut past the end", or "range")}; or nil and why
function spans.intervals(joist, options)
  local m = joist.model
  check_modes(options.modes)
  local packs = {}
  packs.rules, packs.standard = review.packs_of(joist, options)
  local single, why = single_span(m, packs.standard)
  if not single then return nil, why end
  local state = #m.cuts > 0 and "cut" or "uncut"
  local outputs = spans.outputs(state, options.modes)
  local list, found = {}, {}
  for span = SHORTEST, LONGEST, STEP do list[#list + 1] = span end
  local pass = try(m, packs, outputs, list)
  for i, span in ipairs(list) do
    if pass[i] and not pass[i - 1] then
      local from, outside = span, nil
      if i > 1 then from, outside = edge(m, packs, outputs, span, list[i - 1]) end
      found[#found + 1] = {from = from, starts = outside
        and cause(m, packs, outputs, state, outside) or "range"}
    end
    if pass[i] and not pass[i + 1] then
      local to, outside = span, nil
      if list[i + 1] then to, outside = edge(m, packs, outputs, span, list[i + 1]) end
      local last = found[#found]
      last.to, last.ends = to, outside
        and cause(m, packs, outputs, state, outside) or "range"
    end
  end
  if #found == 0 then
    local show = m.show
    return nil, ("no span from %s to %s %s passes"):format(show.bound(24, "in"),
      show.bound(480, "in"), show.unit_of "in")
  end
  return found
end

--- Where a joist passes again past the end of the first stretch of spans: what a sweep
-- gives is that end, below which every span passes.
-- @param value name of a sweep's value
-- @param packs {rules =, standard =, show = the system of units, else the joist's}
-- @return text, or nil where it does not, or where the value is no longest span
function spans.again(joist, value, packs)
  local mode = value:match "^longest_span%.?(.*)$"
  if not mode or mode == "governing" or not joist or #joist.model.cuts == 0 then
    return nil
  end
  local list = spans.intervals(joist, {rules = packs.rules, standard = packs.standard,
    modes = mode ~= "" and {mode} or nil})
  local said, show = {}, packs.show or joist.model.show
  for i = 2, list and #list or 0 do
    said[#said + 1] = ("from %s to %s"):format(show.place(list[i].from),
      show.place(list[i].to))
  end
  return #said > 0 and "passes again " .. table.concat(said, ", ") or nil
end

-- Longest span in inches, unrounded: the end of the last interval, and all intervals;
-- nil and a reason where none passes. 480 in means that the range ends before the joist.
-- @param options as of spans.intervals, and continuous = true: the end of the first
function spans.longest(joist, options)
  local list, why = spans.intervals(joist, options)
  if not list then return nil, why end
  return list[options.continuous and 1 or #list].to, list
end

return spans
