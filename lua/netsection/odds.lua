-- SPDX-License-Identifier: MIT
-- How sure a verdict is: what was measured or assumed is uncertain, and ratio and action
-- are worked out again for each of many draws. Counters give the draws, so the same
-- question gives the same bytes on any machine and any number of threads.
local called = require "netsection.odds.called"
local core = require "netsection.core"
local defaults = require "netsection.odds.defaults"
local document = require "netsection.document"
local format = require "netsection.format"
local indices = require "netsection.odds.indices"
local inputs = require "netsection.odds.inputs"
local interval = require "netsection.odds.interval"
local ordered = require "netsection.point".pairs
local page = require "netsection.odds.page"
local parts = require "netsection.parts"
local review = require "netsection.review"
local reviewed = require "netsection.odds.reviewed"
local wording = require "netsection.odds.wording"
local tornado = require "netsection.odds.tornado"
local wood = require "netsection.odds.wood"
local error = require "netsection.raise".error
local plain = require "netsection.document.escape".text
local tostring = require "netsection.point".text

local odds = {}
local methods = {}

local function half_page(o, d, level)
  if d ~= nil and not document.is(d) then
    error("odds: half_page: a document of ns.document.new expected", level + 1)
  end
  return page.add(o, d or document.new())
end

local OF_JOIST = {"defaults", "rough", "wood", "rules", "standard"}
local JOIST_FIELDS = {"inputs", "draws", "seed", "replicates", "method", "threads",
  "indices", table.unpack(OF_JOIST)}
local FIELDS = {"model", table.unpack(JOIST_FIELDS)}
local FLOOR_FIELDS = {"own", table.unpack(JOIST_FIELDS)}
-- A measure this near to its limit is at it, inches.
local AT_LIMIT = 1e-6
local METHODS = {plain = true, lhs = true, sobol = true}

local DRAWS, REPLICATES, INDEX_DRAWS = 65536, 16, 512
local MOST_DRAWS = 1 << 24

local function whole(value, low, high)
  return math.type(value) == "integer" and value >= low and value <= high
end

local function power_of_two(n)
  return n & (n - 1) == 0
end

-- Draws of one replicate; nil and what is wrong.
local function each_of(t, method)
  local draws, replicates = t.draws or DRAWS, t.replicates or REPLICATES
  if not whole(replicates, 1, interval.most) then
    return nil, ("replicates: 1 to %d expected"):format(interval.most)
  elseif method ~= "plain" and replicates < 2 then
    return nil, ("replicates: 2 or more expected: their spread is the interval of '%s'")
      :format(method)
  elseif not whole(draws, replicates, MOST_DRAWS) or draws % replicates ~= 0 then
    return nil, ("draws: a whole number to %d that %d replicates divide expected")
      :format(MOST_DRAWS, replicates)
  end
  local each = draws // replicates
  if method == "sobol" and not (power_of_two(each) and each <= 1 << 16) then
    return nil, ("draws: %d for each of %d replicates: a power of two to 65,536 expected")
      :format(each, replicates)
  end
  return each, replicates
end

local function index_draws(t)
  local n = t.indices
  if n == nil or n == true then return INDEX_DRAWS end
  if n == false then return false end
  if whole(n, 16, 1 << 16) and power_of_two(n) then return n end
  return nil, "indices: false, or a power of two from 16 to 65,536 expected"
end

-- @return what is asked, read; nil and what is wrong
local function read(t)
  local o = {method = t.method or "sobol", seed = t.seed == nil and 1 or t.seed,
    threads = t.threads or core.processors()}
  if not METHODS[o.method] then
    return nil, "method: 'plain', 'lhs' or 'sobol' expected"
  elseif math.type(o.seed) ~= "integer" then
    return nil, "seed: a whole number expected"
  elseif not whole(o.threads, 1, 64) then
    return nil, "threads: 1 to 64 expected"
  end
  local why
  o.each, o.replicates = each_of(t, o.method)
  if not o.each then return nil, o.replicates end
  o.index_draws, why = index_draws(t)
  if o.index_draws == nil then return nil, why end
  return o
end

local function drawn(o)
  local to, laws = {}, {}
  for k, input in ipairs(o.inputs) do
    to[k], laws[k] = core.numbers(o.each * o.replicates), input.law
  end
  core.draw {how = o.method, seed = o.seed, each = o.each, replicates = o.replicates,
    first = 0, variable = 0, laws = laws, to = to, threads = o.threads}
  return to
end

----------------------------------------------------------------------------- the answers

-- A share by the hits in each replicate, which begins after the place 'at'.
local function shared(o, hits_from)
  local hits = {}
  for r = 1, o.replicates do hits[r] = hits_from((r - 1) * o.each) end
  return interval.share(hits, o.each)
end

-- A quantile of one sample and its interval by order: the place of p in n numbers is
-- n p, to within 1.96 sqrt(n p (1 - p)).
local function quantile_of_one(ratios, n, p)
  local half = 1.96 * math.sqrt(p * (1 - p) / n)
  local low, value, high = core.quantiles(ratios, 0, n, {math.max(p - half, 0), p,
    math.min(p + half, 1)})
  return high and {value = value, low = low, high = high}
end

-- Ratios that 5, 50 and 95 % of the draws stay under; none where draws without a ratio
-- reach so far down.
local function quantiles_of(o, ratios)
  local out = {}
  for _, p in ipairs {5, 50, 95} do
    local list = {}
    for r = 1, o.replicates do
      list[r] = core.quantiles(ratios, (r - 1) * o.each, o.each, {p / 100})
    end
    if o.replicates == 1 then
      out[p] = quantile_of_one(ratios, o.each, p / 100)
    elseif #list == o.replicates then
      local value, low, high = interval.mean(list)
      out[p] = {value = value, low = low, high = high}
    end
  end
  return out
end

local function answers(o, worked)
  local out, n = {actions = {}, quantiles = quantiles_of(o, worked.ratio)}, o.each
  out.over = shared(o, function(at)
    return core.over(worked.ratio, at, n, review.full)
  end)
  for word, code in o.model:action_codes() do
    local share = shared(o, function(at)
      return core.count(worked.action, at, n, code)
    end)
    if share.hits > 0 or word == o.nominal.action then out.actions[word] = share end
  end
  local printed = o.model:code(o.nominal.action)
  out.changes = shared(o, function(at)
    return n - core.count(worked.action, at, n, printed)
  end)
  if worked.rules then
    out.outside = shared(o, function(at)
      return n - core.count(worked.rules, at, n, worked.within)
    end)
  end
  return out, printed
end

local function refuse()
  error("an answer of ns.odds does not change: ask again", 2)
end

-- The answer: what was found over what was asked, which stays hidden.
local function answered(o)
  local found, printed = answers(o, o.model:work(drawn(o), o.each * o.replicates))
  for _, name in ipairs {"method", "seed", "each", "replicates", "nominal", "title"} do
    found[name] = o[name]
  end
  found.draws = o.each * o.replicates
  found.inputs = {}
  for k, input in ipairs(o.inputs) do
    found.inputs[k] = {name = input.name, says = inputs.says(input),
      source = input.source, label = input.label or input.name}
  end
  found.groups = {}
  for k, group in ipairs(inputs.groups(o.inputs)) do found.groups[k] = group.name end
  found.first, found.total, found.turns_on = {}, {}, {}
  if o.index_draws then
    local of = indices.of(o, o.index_draws, printed)
    found.first, found.total, found.turns_on = of.first, of.total, of.turns
    found.no_index = of.reason
  end
  for name, value in pairs(o.more or {}) do found[name] = value end
  if o.notes then found.notes = o.notes(o, found) end
  return setmetatable({}, {__index = function(_, name)
    return methods[name] or found[name]
  end, __newindex = refuse, __name = "netsection.odds", asked = o, found = found,
    __pairs = function() return pairs(found) end,
    __tostring = function() return ("odds, %d draws"):format(found.draws) end})
end

local function meta_of(self, level)
  local meta = getmetatable(self)
  if type(meta) ~= "table" or not meta.asked then
    error("an answer of ns.odds expected: use o:method()", level + 1)
  end
  return meta
end

-- Each input's reach on the ratio, the widest first (see odds/tornado.lua).
function methods:tornado()
  return tornado.of(meta_of(self, 2).asked)
end

-- Half a page for a report, headed as what it is not used for: added to a document, or
-- as one of its own. @param d document of ns.document.new, or nil
function methods:half_page(d)
  meta_of(self, 2)
  return half_page(self, d, 2)
end

-- The answer in lines for people.
function methods:text()
  meta_of(self, 2)
  return wording.text(self)
end

local function ask_function(t, o)
  local why
  o.inputs, why = inputs.read(t.inputs)
  if not o.inputs then error("odds: " .. why, 3) end
  for _, name in ipairs(OF_JOIST) do
    if t[name] ~= nil then
      error(("odds: %s: asked of a joist only"):format(name), 3)
    end
  end
  o.model = called.new(t.model, o.inputs, review.full)
  o.nominal = o.model:nominal()
  return answered(o)
end

-- Inputs given over those that a joist has by default, by name; new ones at the end.
local function over_defaults(list, given)
  local at = {}
  for i, input in ipairs(list) do at[input.name] = i end
  for _, input in ipairs(given) do
    local i = type(input) == "table" and at[input.name] or #list + 1
    list[i] = input
  end
  return list
end

local function inputs_of(joist, t, standard)
  local list = t.inputs
  if list == nil or t.defaults then
    if list ~= nil and type(list) ~= "table" then return inputs.read(list) end
    list = over_defaults(defaults.of(joist, t, standard.words:scatter()), list or {})
  end
  return inputs.read(list, reviewed.reader(joist))
end

-- Limits of the rules that a cut stands at, and a ratio of 1.
local function limits_met(r, o)
  local out = {}
  for _, item in ipairs(r.rules.items or {}) do
    if item.cut and item.limit and math.abs(item.measured - item.limit) <= AT_LIMIT then
      out[#out + 1] = ("%s: %s is the limit of %s (%s)"):format(item.name,
        (r.show.size(item.measured):gsub('"$', " in")), item.clause, item.text)
    end
  end
  if o.nominal.ratio and math.abs(o.nominal.ratio - 1) <= 1e-6 then
    out[#out + 1] = "the ratio is 1"
  end
  return out
end

local function notes_of(o, found)
  local notes = {}
  local bad = found.actions[reviewed.not_reviewed]
  if bad then
    notes[1] = ("In %d of %d draws there is no such joist (%s): counted as another "
      .. "action and as a ratio over 1."):format(bad.hits, bad.draws, o.model:why_not())
  end
  return notes
end

-- The answer, or nil and why there is none.
local function ask_joist(joist, t)
  local o, why = read(t)
  if not o then return nil, why end
  local options, all = {rules = t.rules, standard = t.standard}, {}
  local ok, rules, standard = pcall(review.packs_of, joist, options)
  if not ok then return nil, (rules:gsub("^.-:%d+: ", "", 1)) end
  why = format.refusal(standard, "how sure a verdict is")
  if why then return nil, why end
  o.inputs, why = inputs_of(joist, t, standard)
  if not o.inputs then return nil, why end
  all.rules, all.standard = rules, standard
  o.model, why = reviewed.new {joist = joist, inputs = o.inputs, packs = all,
    threads = o.threads}
  if not o.model then return nil, why end
  for _, input in ipairs(o.inputs) do input.label = o.model:label(input.name) end
  local r = joist:review(options)
  o.nominal, o.title = o.model:nominal(r), "joist " .. joist.model.mark
  o.more = {mark = joist.model.mark, at_limit = limits_met(r, o)}
  o.notes = notes_of
  if t.wood then
    o.more.scatter = standard.words:scatter()
    o.more.wood, why = wood.of(o, joist, o.more.scatter)
    if not o.more.wood then return nil, "wood: " .. why end
  end
  return answered(o)
end

local floor_meta

--- Whether a value is an answer about the joist or the floor of a review.
function odds.is_about(value, subject)
  local meta = getmetatable(value)
  if type(meta) ~= "table" then return false end
  if meta == floor_meta then
    return subject.order ~= nil and value.name == subject.name
      and table.concat(value.order, "\0") == table.concat(subject.order, "\0")
  end
  return meta.asked ~= nil and subject.order == nil and value.mark == subject.mark
end

--- The same of a joist, whose fields are the names (see odds.new).
-- @param t as for odds.new without 'model'; and defaults = true: inputs given stand over
--   those a joist has by default; rough = true: cuts measured to 1/16 in; wood = true:
--   the wood's own scatter too (see odds/wood.lua); rules =, standard =
function odds.of_joist(joist, t)
  if type(joist) ~= "table" or type(joist.model) ~= "table" then
    error("odds: a joist expected: use joist:odds{...}", 2)
  end
  if t == nil then t = {} end
  parts.only("odds", t, JOIST_FIELDS, 2)
  local o, why = ask_joist(joist, t)
  return o or error("odds: " .. why, 2)
end

-- @param t {model = function(x) return ratio, action end or a joist, inputs = {{name =,
--   normal = {mean, sd}}, ...}, draws = 65536, seed = 1, replicates = 16, method =
--   "sobol" ("lhs", "plain"), threads =, indices = draws of a replicate for first and
--   total (512), or false}
-- @return {over =, changes =, actions = {[name] =}, each {value, low, high, hits,
--   draws}; quantiles = {[5], [50], [95]}, first = {[name] = {value, low, high}},
--   total =, turns_on = {{name, total}}, nominal = {ratio, action}}; groups = names that
--   first and total have: inputs that go together ('with') have one; of a joist also
--   outside =, at_limit = {texts}, notes = {texts}, wood =
function odds.new(t)
  parts.only("odds", t, FIELDS, 2)
  if type(t.model) == "table" and type(t.model.model) == "table"
    and type(t.model.review) == "function" then
    local o, why = ask_joist(t.model, t)
    return o or error("odds: " .. why, 2)
  elseif type(t.model) ~= "function" then
    error("odds: model: a function of a table of values, or a joist, expected, got "
      .. type(t.model), 2)
  end
  local o, why = read(t)
  if not o then error("odds: " .. why, 2) end
  return ask_function(t, o)
end

floor_meta = {__name = "netsection.floor_odds", __index = {}, __tostring =
  function(self) return ("odds of floor '%s'"):format(plain(self.name)) end}

-- As o:half_page of a joist.
function floor_meta.__index:half_page(d)
  if getmetatable(self) ~= floor_meta then
    error("an answer of floor:odds expected: use o:half_page()", 2)
  end
  return half_page(self, d, 2)
end

-- A line a joist: how often its action is the printed one, and what it turns on.
function floor_meta.__index:text()
  if getmetatable(self) ~= floor_meta then
    error("an answer of floor:odds expected: use o:text()", 2)
  end
  return wording.floor(self)
end

--- The same of every joist of a floor. Inputs given stand over those that each joist has
-- by default; those that a joist does not have are not asked of it.
-- @param t as for joist:odds; and own = {[mark] = list of inputs of that joist}
-- @return {name =, order = {marks}, joists = {[mark] = answer}, reasons = {[mark] = why
--   there is none}}, with :text()
function odds.of_floor(floor, t)
  if type(floor) ~= "table" or type(floor.joists) ~= "table" then
    error("odds: a floor expected: use floor:odds{...}", 2)
  end
  if t == nil then t = {} end
  parts.only("odds", t, FLOOR_FIELDS, 2)
  local own, out = t.own or {}, {name = floor.name, order = {}, joists = {},
    reasons = {}}
  if type(own) ~= "table" then error("odds: own: a table by marks expected", 2) end
  for mark in ordered(own) do
    if not floor:joist(mark) then
      error(("odds: own: no joist '%s'"):format(tostring(mark)), 2)
    end
  end
  for i, joist in ipairs(floor.joists) do
    local mark, asked = joist.model.mark, {}
    for name, value in pairs(t) do asked[name] = value end
    asked.own, asked.defaults = nil, true
    asked.inputs = over_defaults(table.move(t.inputs or {}, 1, #(t.inputs or {}), 1, {}),
      own[mark] or {})
    asked.rules, asked.standard = t.rules or floor.rules, t.standard or floor.standard
    if #joist.model.cuts == 0 and not joist.repair then asked.wood = nil end
    out.order[i] = mark
    local o, why = ask_joist(joist, asked)
    out.joists[mark], out.reasons[mark] = o, why
  end
  return setmetatable(out, floor_meta)
end

odds.meta_of = meta_of

-- Whether a value is an answer of ns.odds.
function odds.is(value)
  local meta = getmetatable(value)
  return type(meta) == "table" and meta.asked ~= nil
end

return odds
