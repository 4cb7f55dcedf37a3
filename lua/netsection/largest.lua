-- SPDX-License-Identifier: MIT
-- The largest cut that a joist bears at a place: the size below which all smaller ones
-- pass, by the rules, by calculation, or both. Many places are worked at once: a scan
-- over sizes for all of them, then the gap before the first that fails is cut into
-- sixteen parts again and again.
local enums = require "netsection.enums"
local lanes = require "netsection.lanes"
local model = require "netsection.model"
local parts = require "netsection.parts"
local ply = require "netsection.ply"
local review = require "netsection.review"
local units = require "netsection.units"
local error = require "netsection.raise".error

local largest = {}

-- What grows, and the places that a kind is described by.
local KINDS = {hole = {size = "diameter", needs = {"at"}},
  slot = {size = "height", needs = {"from", "to"}},
  notch = {size = "depth", needs = {"from", "to", "face"}},
  end_notch = {size = "depth", needs = {"support", "face", "length"}}}
local FIELDS = {"cut", "at", "from", "to", "length", "below", "above", "face", "support",
  "angle", "by", "modes", "within", "rules", "standard"}
local BY = {rules = true, calculation = true, both = true}
local NO_RULE = 8        -- NS_GATE_NO_RULE
local LEAST, PARTS, CLOSE = 1 / 64, 96, 1e-9

---------------------------------------------------------------------------- what is asked

-- Places as a list of {at =} or {from =, to =}; one, or as many as 'at' has.
local function places_of(t)
  if type(t.at) ~= "table" then return {t.at}, false end
  return t.at, true
end

-- The cut at the first place, with next to nothing taken away.
local function seed(t, kind, at)
  local cut = {kind = t.cut, below = t.below, above = t.above, face = t.face,
    support = t.support, angle = t.angle, length = t.cut == "end_notch" and t.length
    or nil, from = t.from, to = t.to}
  if t.cut == "hole" then cut.at = at end
  if at and t.cut ~= "hole" then
    local x, half = units.length(at), (units.length(t.length or "") or 0) / 2
    if x then cut.from, cut.to = x - half, x + half end
  end
  cut[kind.size] = LEAST
  return cut
end

local function check(t)
  parts.only("largest", t, FIELDS, 3)
  local kind = KINDS[t.cut]
  if not kind then
    error("largest: cut: hole, slot, notch or end_notch expected", 4)
  elseif t.by ~= nil and not BY[t.by] then
    error("largest: by: rules, calculation or both expected", 4)
  elseif t.within ~= nil and not (type(t.within) == "number" and t.within > 0) then
    error("largest: within: inches above 0 expected", 4)
  elseif t.modes ~= nil and (type(t.modes) ~= "table" or #t.modes == 0) then
    error("largest: modes: a list such as {\"net-bending\"} expected", 4)
  end
  local has = {}
  for name, value in pairs(t) do has[name] = value ~= nil end
  if t.at ~= nil and t.length ~= nil then has.from, has.to = true, true end
  for _, name in ipairs(kind.needs) do
    if not has[name] then error(("largest: %s: missing"):format(name), 4) end
  end
  return kind
end

-------------------------------------------------------------------------------- working

-- Everything that a search needs; nil and a reason where there is nothing to search.
local function task_of(joist, t, kind)
  local list, many = places_of(t)
  local task = {t = t, kind = kind, many = many, at = {}, half = 0}
  for i, at in ipairs(list) do
    local x, why = units.length(at)
    if not x then error(("largest: at: %s"):format(why), 4) end
    task.at[i] = x
  end
  local changes = {cuts = {table.unpack(joist.description.cuts or {})}}
  changes.cuts[#changes.cuts + 1] = seed(t, kind, list[1])
  task.n = #changes.cuts
  local m, found = model.of(joist.altered(joist, changes))
  if #found > 0 then error(found:text(), 4) end
  task.within = t.within or CLOSE
  task.m, task.places = m, math.max(#list, 1)
  task.d = m.d
  if t.length and t.cut ~= "end_notch" then task.half = units.length(t.length) / 2 end
  return task
end

-- Outputs of the core, and what each has to be for the size to pass.
local function tests_of(task)
  local n, t, tests = task.n, task.t, {}
  local function test(output, passes, says)
    tests[#tests + 1] = {output = output, passes = passes, says = says}
  end
  if t.by ~= "calculation" then
    test({quantity = "cuts.within", index = n}, function(v) return v == 1 end, "rules")
  end
  if t.by ~= "rules" and t.modes then
    for _, mode in ipairs(t.modes) do
      test({quantity = "check", mode = mode, state = "cut"}, function(v)
        return v == nil or v <= review.full
      end, mode)
    end
  elseif t.by ~= "rules" then
    -- what the standard has no rule for is left to the rules in force
    test({quantity = "cuts.gate", index = n}, function(v)
      return v == 0 or v == NO_RULE and t.by ~= "calculation"
    end, "standard")
    test({quantity = "status", state = "cut"}, function(v) return v == enums.adequate end,
      "calculation")
  end
  return tests
end

-- Columns of places and sizes for points {place =, size =}.
local function columns_of(task, points)
  local path, columns = ("cuts.%d."):format(task.n), {}
  local function column(name, value)
    local list = {}
    for i, p in ipairs(points) do list[i] = value(p) end
    columns[path .. name] = list
  end
  column(task.kind.size, function(p) return p.size end)
  if #task.at > 0 and task.t.cut == "hole" then
    column("at", function(p) return task.at[p.place] end)
  elseif #task.at > 0 then
    column("from", function(p) return task.at[p.place] - task.half end)
    column("to", function(p) return task.at[p.place] + task.half end)
  end
  return columns
end

-- Which points pass, and what the first test that does not says.
local function try(task, points)
  local tests, outputs = task.tests, {}
  for i, test in ipairs(tests) do outputs[i] = test.output end
  outputs[#outputs + 1] = {quantity = "governing", state = "cut"}
  local to, fault = lanes.work(task.m, task.packs, #points, columns_of(task, points),
    outputs)
  for i, p in ipairs(points) do
    p.ok, p.why = fault[i] == 0, fault[i] ~= 0 and "size" or nil
    for k, test in ipairs(p.ok and tests or {}) do
      if not test.passes(to[k][i]) then
        p.ok = false
        p.why = test.says == "calculation"
          and enums.word(enums.words.governing, to[#tests + 1][i]) or test.says
        break
      end
    end
  end
end

-- Sizes low + (high - low) i / count at each place still open, i from 1.
local function spread(open, count)
  local points = {}
  for _, o in ipairs(open) do
    for i = 1, count do
      points[#points + 1] = {place = o.place, bracket = o,
        size = o.low + (o.high - o.low) * i / count}
    end
  end
  return points
end

-- Takes the last size before the first that fails, and that one, for each place.
local function narrow(open, points)
  for _, o in ipairs(open) do o.seen = false end
  for _, p in ipairs(points) do
    local o = p.bracket
    if not o.seen then
      if p.ok then o.low, o.passed = p.size, true else
        o.high, o.why, o.seen = p.size, p.why, true
      end
    end
  end
end

local function search(task)
  local open, closed = {}, {}
  for place = 1, task.places do
    closed[place] = {place = place, low = 0, high = task.d}
    open[place] = closed[place]
  end
  local points = spread(open, PARTS)
  for _, o in ipairs(open) do
    table.insert(points, o.place, {place = o.place, bracket = o, size = LEAST})
  end
  try(task, points)
  narrow(open, points)
  for _ = 1, 12 do
    local still = {}
    for _, o in ipairs(closed) do
      if o.passed and o.seen and o.high - o.low > task.within then
        still[#still + 1] = o
      end
    end
    if #still == 0 then break end
    local finer = spread(still, 16)
    try(task, finer)
    narrow(still, finer)
  end
  return closed
end

-- The largest size, inches, unrounded, and what the next larger one fails by: "rules",
-- "standard", the governing mode, or "size" where it would not fit; nil and that where
-- not even the smallest passes. Where 'at' is a list, two lists; a place without an
-- answer is false in the first.
-- @param t {cut = "hole", at = place or list, below =, above =} or {cut = "notch",
--   face =, from =, to =} or, with length, at =; {cut = "slot", ...}; {cut =
--   "end_notch", support =, face =, length =}; by = "rules" | "calculation" | "both" (the
--   default), modes = list for the calculation, within = how closely (1e-9 in), rules =,
--   standard =
-- Where the standard has no rule for the cut (an opening by EN 1995-1-1 or CSA O86),
-- "both" is what the rules permit and the net section bears; by calculation alone there
-- is none, but of modes that are named.
function largest.of(joist, t)
  if type(t) ~= "table" then
    error("largest: {cut = \"hole\", at = ...} expected, got " .. type(t), 2)
  end
  local kind = check(t)
  local task = task_of(joist, t, kind)
  task.packs = {}
  task.packs.rules, task.packs.standard = review.packs_of(joist, {rules = t.rules,
    standard = t.standard})
  local lacking = review.lacking(task.m, task.packs.standard) or ply.unsearched(task.m)
  if lacking then return nil, lacking end
  task.tests = tests_of(task)
  local sizes, reasons = {}, {}
  for i, o in ipairs(search(task)) do
    sizes[i], reasons[i] = o.passed and o.low or false, o.why
  end
  if task.many then return sizes, reasons end
  return sizes[1] or nil, reasons[1]
end

return largest
