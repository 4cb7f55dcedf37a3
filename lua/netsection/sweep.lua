-- SPDX-License-Identifier: MIT
-- Sweeps: every combination of what may vary, worked by the core in lanes and threads,
-- kept in columns of plain numbers. A point is the review of that joist to the bit. A
-- combination that makes no sense is a row with a reason.
local by_depth = require "netsection.by_depth"
local axes = require "netsection.sweep.axes"
local core = require "netsection.core"
local file = require "netsection.file"
local in_floor = require "netsection.sweep.in_floor"
local joists = require "netsection.joist"
local packs = require "netsection.packs"
local parts = require "netsection.parts"
local plan = require "netsection.sweep.plan"
local point = require "netsection.point"
local points = require "netsection.sweep.points"
local ply = require "netsection.ply"
local quantity = require "netsection.quantity"
local review = require "netsection.review"
local rows = require "netsection.sweep.rows"
local sidecar = require "netsection.sweep.sidecar"
local summary = require "netsection.sweep.summary"
local turned = require "netsection.sweep.turned"
local values = require "netsection.sweep.values"
local error = require "netsection.raise".error
local plain = require "netsection.document.escape".text

local sweep = {}
local methods = {}

local FIELDS = {"joist", "over", "points", "values", "order", "rules", "standard",
  "threads", "shard", "progress", "memory", "floor", "grid", "by_depth"}

-- Columns hold a gigabyte unless another limit is given.
local MEMORY = 1 << 30

local function whole(value, low, high)
  return math.type(value) == "integer" and value >= low and value <= high
end

local function read_values(list, last)
  local out, seen = {}, {}
  if list ~= nil and (type(list) ~= "table" or #list == 0 or #list > 32) then
    return nil, "values: a list of 1 to 32 names expected"
  end
  for i, name in ipairs(list or {"ratio", "governing", "status", "action"}) do
    local o, why = values.read(name, last)
    if not o then return nil, "values: " .. why end
    if seen[name] then return nil, ("values: '%s' twice"):format(name) end
    seen[name], out[i] = true, o
  end
  return out
end

-- Which of n equal parts of the points: {i, n}.
local function part_of(shard, total)
  if shard == nil then return 0, total end
  if type(shard) ~= "table" or not whole(shard[2], 1, 1 << 31)
    or not whole(shard[1], 1, shard[2]) then
    return nil, "shard: {i, n} expected, part i of n"
  end
  local first = total * (shard[1] - 1) // shard[2]
  return first, total * shard[1] // shard[2] - first
end

local function packs_of(t, joist)
  local rules, problem = packs.rules(t.rules or packs.usual_rules(t.standard),
    joist.model.bearing_on)
  if not rules then return nil, problem end
  local standard, why = packs.standard(t.standard or packs.default.standards)
  if not standard then return nil, why end
  local wrong = t.by_depth ~= nil and by_depth.problem(rules, t.by_depth)
  if wrong then return nil, wrong end
  return {rules = rules, standard = packs.for_joist(standard, joist.model)}
end

local function last_state(joist, over)
  if joist.repair or over.fix then return "fixed" end
  return (#joist.model.cuts > 0 or over.cuts) and "cut" or "uncut"
end

-- A span is sought of a single span only, and not along an axis of spans.
local function cannot_seek(outputs, joist, over, by)
  local m = joist.model
  for _, o in ipairs(outputs) do
    if o.search and by ~= nil then
      return ("values: '%s': a span is sought by calculation, to which by_depth is "
        .. "nothing"):format(o.name)
    end
    if o.search and ply.cut(m) then
      return ("values: '%s': %s"):format(o.name, ply.unsearched(m))
    elseif o.search and (over.span or over.spans or #m.span > 1 or m.overhang_left > 0
      or m.overhang_right > 0 or over.overhang_left or over.overhang_right) then
      return ("values: '%s' is asked of a single span without overhangs, which is no "
        .. "axis"):format(o.name)
    end
  end
end

-- The cut or support of a number that no joist of the sweep has.
local function out_of_reach(outputs, joist, over)
  local m = joist.model
  for _, o in ipairs(outputs) do
    local taken = o.quantity or ""
    local most = taken:find "^cuts" and not over.cuts and #m.cuts
      or taken:find "^reaction" and not over.spans and #m.span + 1
    if most and o.index > most then
      return ("values: '%s': the joist has %d %s"):format(o.name, most,
        taken:find "^cuts" and "cuts" or "supports")
    end
  end
end

-- A cut in one ply is put together of several runs of the core.
local function by_review(joist)
  return ply.cut(joist.model)
end

local function read_axes(t, slow, listed, named)
  local over = t.over or {}
  if slow then return axes.read_slow(over, t.order, listed) end
  return axes.read(over, t.order, t.joist, #t.joist.model.span, listed, named)
end

-- Axes and listed points in one table by name, and the points.
local function fields_of(t)
  if t.over ~= nil and type(t.over) ~= "table" or t.over == nil and t.points == nil then
    return nil, "over: a table of axes expected"
  end
  local named = {}
  for name, list in pairs(t.over or {}) do named[name] = list end
  if t.points == nil then return named end
  local listed, why = points.read(t.points, named)
  if not listed then return nil, why end
  for _, list in ipairs(listed.lists) do named[list.name] = list.values end
  for _, of in ipairs(listed.functions) do named[of.name] = {} end
  return named, listed
end

-- The joist by its mark in a floor, where the sweep has one, which works its points.
-- @return fields of the sweep and its floor; or nil and what is wrong
local function placed(t)
  if t.floor == nil then
    if t.grid ~= nil then return nil, "grid: goes with floor = and a mark" end
    return t
  end
  local own, joist = in_floor.of(t)
  if not own then return nil, joist end
  local with = {}
  for name, value in pairs(t) do with[name] = value end
  with.joist, with.rules, with.standard = joist, t.floor.rules, t.floor.standard
  if with.by_depth == nil then with.by_depth = t.floor.by_depth end
  return with, own
end

-- The plan of the points in the order of 'asked', which are worked in that of 'list'.
local function plan_for(t, list, outer, asked, more)
  more.turn = asked and turned.of(asked, list, outer)
  more.axes = more.turn and asked or list
  more.joist, more.kind, more.outer = t.joist, joists, outer
  more.rules, more.standard, more.by_depth = t.rules, t.standard, t.by_depth
  return plan.new(more)
end

-- @return the plan and where it begins and how many points; or nil and what is wrong
local function planned(t)
  local own
  t, own = placed(t)
  if not t then return nil, own end
  if not joists.is(t.joist) then return nil, "joist: a joist of ns.joist expected" end
  local named, listed = fields_of(t)
  if not named then return nil, listed end
  local slow = own ~= nil or t.by_depth ~= nil or by_review(t.joist)
  local list, outer, asked = read_axes(t, slow, listed, named)
  if not list then return nil, outer end
  -- Beyond it a point's number is not told from the next one's in a double.
  local product = 1.0
  for _, axis in ipairs(list) do product = product * #axis.values end
  if product > 2 ^ 53 then
    return nil, point.format("over: the axes make %.3g points, at most 2^53", product)
  end
  local outputs, why = read_values(t.values, last_state(t.joist, named))
  if not outputs then return nil, why end
  local wrong = in_floor.problem(own, outputs)
    or cannot_seek(outputs, t.joist, named, t.by_depth)
    or out_of_reach(outputs, t.joist, named)
  if wrong then return nil, wrong end
  local both, problem = packs_of(t, t.joist)
  if not both then return nil, problem end
  local threads = t.threads or core.processors()
  if not whole(threads, 1, 64) then return nil, "threads: 1 to 64 expected" end
  local p = plan_for(t, list, outer, asked, {values = outputs, packs = both,
    threads = threads, by_review = slow, in_floor = own,
    functions = listed and listed.functions})
  local first, count = part_of(t.shard, p.total)
  if not first then return nil, count end
  return p, first, count
end

-- A sweep from its description; nothing is worked until it is asked for.
-- @param t {joist =, over = {field = {values}}, points = {field = {values} or function of
--   a point} or the path of a CSV file, values = {names}, order = {fields}, rules =,
--   standard =, by_depth = condition of the rules' span table, threads =, shard =
--   {i, n}, progress = function or false, memory = bytes
--   that columns may take, floor = floor and grid = options of floor:grid, where joist is
--   a mark in it: for values grid.* and feel.*}
function sweep.new(t)
  parts.only("sweep", t, FIELDS, 2)
  local p, first, count = planned(t)
  if not p then error("sweep: " .. first, 2) end
  p:try_names(2)
  -- spelled as a review of its joist would be
  local printed = review.printed(p.joist.description, {rules = p.rules,
    standard = p.standard})
  local self = {axes = {}, names = {},
    show = quantity.system(p.joist.model.show.name, printed.lang)}
  for i, axis in ipairs(p.axes) do
    self.axes[i] = {name = axis.name, values = axis.known}
  end
  for i, o in ipairs(p.values) do self.names[i] = o.name end
  local hidden = {plan = p, first = first, count = count, progress = t.progress,
    memory = t.memory or MEMORY}
  return setmetatable(self, {__index = methods, __name = "netsection.sweep",
    __tostring = function()
      return ("sweep of joist %s, %d points"):format(plain(p.joist.model.mark), count)
    end,
    __len = function() return count end, hidden = hidden,
    __newindex = function() error("a sweep does not change: describe another", 2) end})
end

local function hidden_of(self)
  local meta = getmetatable(self)
  return type(meta) == "table" and meta.hidden
    or error("a sweep expected: use s:method()", 3)
end

function methods:column(name)
  local h = hidden_of(self)
  local column = rows.column(h, name, 2)
  return column
end

-- The point at {axis = value, ...}; its values, and reason where it has none.
function methods:at(place)
  local h = hidden_of(self)
  local index = rows.find(h, place, 2)
  return rows.values_at(h, index, 2)
end

-- Iterates over all points: tables with axes, values and reason.
function methods:rows()
  return rows.each(hidden_of(self), 2)
end

-- Largest value of a name and its row; nil where there is none.
function methods:max(name)
  return rows.extreme(hidden_of(self), name, 1, 2)
end

function methods:min(name)
  return rows.extreme(hidden_of(self), name, -1, 2)
end

-- How many points have a number of that name; of a word, {word = how many}.
function methods:count(name)
  return rows.count(hidden_of(self), name, 2)
end

-- Mean, standard deviation, and how many points have a number.
function methods:mean(name)
  return rows.mean(hidden_of(self), name, 2)
end

-- The numbers that the parts p of all points stay under, exact: quantiles("ratio",
-- {0.05, 0.5, 0.95}) -> list.
function methods:quantiles(name, list)
  return rows.quantiles(hidden_of(self), name, list, 2)
end

-- Counts in bins of one width. @param t {from =, to =, bins =}
-- @return list of counts with low, high, under and over = how many lie outside
function methods:histogram(name, t)
  local counts = rows.histogram(hidden_of(self), name, t, 2)
  return counts
end

-- All values in a few numbers, in one pass, to be put together with those of other shards
-- by ns.merge_shards. @param t {histogram = {[name] = {from =, to =, bins =}}}, or nil
-- @return a summary with max, min, mean, count, quantiles (between two bounds),
--   histogram, missing, write(path), points, of
function methods:summary(t)
  local made = summary.of(hidden_of(self), t, 2)
  return made
end

-- Rows for which a function is true, or which lie at {axis = value, ...}.
function methods:where(test)
  return rows.where(hidden_of(self), test, 2)
end

-- Writes all points to a file, whole or not at all, in a room that does not grow; to an
-- open file, such as a pipe, or "-" as they come.
-- @param t {where = function of a row, or {axis = value}: which points; sidecar = true:
--   what they are, as JSON, under the path and ".json"; resume = true: an interrupted
--   run leaves what it has under the path and ".part", and the next one goes on there}
-- @return true, or nil and a message that names the path
function methods:csv(path, t)
  local h = hidden_of(self)
  t = t or {}
  parts.only("sweep: csv", t, {"where", "sidecar", "resume"}, 2)
  for _, name in ipairs {"sidecar", "resume"} do
    if t[name] and (type(path) ~= "string" or path == "-") then
      error(("sweep: csv: %s: of a path only"):format(name), 2)
    end
  end
  local ok, why = rows.csv(h, path, t, 2)
  if not ok or not t.sidecar then return ok, why end
  return file.write(path .. ".json", sidecar.text(h, self))
end

-- Writes all points as NumPy arrays, a column each, in one archive (.npz), whole or not
-- at all; words as codes, which sweep.json in it tells.
-- @return true, or nil and a message that names the path
function methods:npz(path)
  return rows.npz(hidden_of(self), self, path, 2)
end

-- What the points are, as JSON: joist, loads, rules, standard, axes, units, version.
function methods:sidecar()
  return sidecar.text(hidden_of(self), self)
end

-- The joist of the point at {axis = value, ...}, to be reviewed by itself.
function methods:joist(place)
  local h = hidden_of(self)
  local made, why = h.plan:joist_at(rows.find(h, place, 2))
  if not made then return nil, why end
  return made
end

-- Whether a value is one that a joist has in its floor alone (grid.*, feel.*), and that
-- value of the point at {axis = value, ...}, worked by itself: true, value.
function methods:of_floor(place, name)
  local h = hidden_of(self)
  for _, o in ipairs(h.plan.values) do
    if o.name == name and o.shared then
      return true, (h.plan:in_floor_at(rows.find(h, place, 2), o))
    end
  end
  return false
end

sweep.merge = summary.merge

return sweep
