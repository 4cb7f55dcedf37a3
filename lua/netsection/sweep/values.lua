-- SPDX-License-Identifier: MIT
-- Names of what a sweep keeps, and how each is had: from the core, lane by lane, or from
-- a review that was worked by itself.
--
--   action, rules                        of the joist
--   ratio, governing, status, moment, moment.at, shear, shear.at, deflection.live,
--   deflection.total, Cr                 of a state
--   reaction.N, reaction.N.least, .dead  at support N
--   cuts.N.moment, .shear (.least)       over cut N
--   <mode>, <mode>.N                     worst check of a mode, at cut or support N, and
--                                        its .demand, .capacity, .at
--   longest_span, longest_span.<mode>    end of the first stretch that passes; the
--   longest_span.governing               mode that ends it. Cuts stay where they are
--   share, tension, arm, station.N (.most, .least), fastener.count, piece.count
--                                        of a repair
--   grid.*, feel.*                       of the joist in its floor (floor_words.lua)
-- A name begins with uncut., cut. or fixed., or speaks of the last state that there is.
local enums = require "netsection.enums"
local core = require "netsection.core"
local floor_words = require "netsection.sweep.floor_words"

local values = {}

local quantities, modes = {}, {}
for _, word in ipairs(core.quantities) do quantities[word] = true end
for _, word in ipairs(core.modes) do modes[word] = true end

local OF_JOIST = {action = true, rules = true}
local OF_FIX = {share = true, tension = true, arm = true, station = true}
local COUNTS = {["fastener.count"] = "fasteners", ["piece.count"] = "pieces"}
local QUANTITY = {demand = true, capacity = true, at = true}

-- "reaction.2.least" -> "reaction.least", 2; a name without a number stays as it is.
local function without_number(name)
  local head, n, tail = name:match "^(.-)%.(%d+)(.*)$"
  if not head then return name, nil end
  return head .. tail, math.tointeger(tonumber(n))
end

-- A check that a name asks for: mode, state, its number among cuts or rows.
local function check_of(name)
  local bare, index = without_number(name)
  local mode, quantity = bare, nil
  if not modes[bare] then mode, quantity = bare:match "^(.*)%.(%a+)$" end
  if not modes[mode] or quantity and not QUANTITY[quantity] then return nil end
  return {quantity = "check" .. (quantity and "." .. quantity or ""), mode = mode,
    index = index}
end

-- A span that is sought, by all checks or one mode.
local function search_of(name)
  local what = name:match "^longest_span%.?(.*)$"
  local known = what == "" or what == "governing" or modes[what]
  if not known then return nil end
  return {search = true, modes = modes[what] and {what} or nil,
    words = what == "governing" and enums.words.governing or nil}
end

-- What a name of a value asks for; nil and a message.
local function output_of(name)
  local bare, index = without_number(name)
  if name:find "^longest_span" then return search_of(name) end
  if COUNTS[name] then return {count = COUNTS[name]} end
  local shared, why = floor_words.read(name)
  if shared ~= nil then return shared and {shared = shared} or nil, why end
  if quantities[bare] and not bare:find "^check" then
    local needs = bare:find "^reaction" or bare:find "^cuts" or bare:find "^station"
    if (needs ~= nil) ~= (index ~= nil) then return nil end
    return {quantity = bare, index = index, words = enums.words[bare]}
  end
  return check_of(name)
end

-- @param last the state that a name without one speaks of
-- @return {name =, state =, quantity =, mode =, index =, words =, count =}; or nil, why
function values.read(name, last)
  if type(name) ~= "string" then
    return nil, ("a name such as \"ratio\" expected, got %s"):format(type(name))
  end
  local state, rest = name:match "^(%l+)%.(.+)$"
  if state ~= "uncut" and state ~= "cut" and state ~= "fixed" then
    state, rest = nil, name
  end
  local o, why = output_of(rest)
  if why then return nil, why end
  if not o or state and OF_JOIST[rest] then
    return nil, ("no value '%s' (takes action, rules, ratio, governing, status, moment, "
      .. "shear, deflection.live, deflection.total, reaction.1, a mode such as bending "
      .. "or net-bending.1.demand; see lua/README.md)"):format(name)
  end
  local of_fix = o.count or OF_FIX[o.quantity] or OF_FIX[(o.quantity or ""):match "^%a+"]
  o.name, o.state = name, state or of_fix and "fixed" or last
  o.whichever = not state and not of_fix -- the last state of each joist
  if OF_JOIST[o.quantity] then o.state = "uncut" end
  if o.search and o.state == "fixed" then
    return nil, ("'%s': no span is sought with a repair"):format(name)
  elseif o.state == "fixed" and last ~= "fixed" then
    return nil, ("'%s': the joist has no repair"):format(name)
  elseif of_fix and o.state ~= "fixed" then
    return nil, ("'%s' is of a repair: fixed.%s"):format(name, rest)
  end
  return o
end

------------------------------------------------------------------ out of a whole review

-- The same of many joists: a column (see fix.lua), none where a joist has no such check.
local function worst_of_many(a, o, field)
  local ratio, value = -math.huge, 0 / 0
  for _, k in ipairs(a.checks) do
    if k.mode == o.mode and (not o.index or o.index == (k.cut or k.support)) then
      local here = k.ratio or 0
      here = core.chosen(core.larger(here, -math.huge), here, 0) -- none counts as 0
      local more = core.larger(here, ratio)
      if k.on then more = more * k.on end
      ratio = core.chosen(more, here, ratio)
      value = core.chosen(more, k[field] or 0 / 0, value)
    end
  end
  return value
end

-- The largest of the checks of a mode that a value asks for.
local function worst_check(a, o)
  local worst
  for _, k in ipairs(a.checks) do
    local on = k.mode == o.mode and (not o.index or o.index == (k.cut or k.support))
    if on and (not worst or (k.ratio or 0) > (worst.ratio or 0)) then worst = k end
  end
  return worst
end

local from = {}

--- Ways of values out of a review; each gives nil where the review has none.
function from.action(r) return r.action end
function from.rules(r) return r.rules.status end
function from.ratio(_, a) return a.ratio end
function from.governing(_, a) return a.governing end
function from.status(_, a) return a.status end
function from.Cr(_, a) return a.Cr end
function from.moment(_, a) return a.moment end
function from.shear(_, a) return a.shear end
function from.share(_, a) return a.share end
function from.tension(_, a) return a.T end
function from.arm(_, a) return a.arm end
from["moment.at"] = function(_, a) return a.moment_at end
from["shear.at"] = function(_, a) return a.shear_at end
from["deflection.live"] = function(_, a) return a.deflection and a.deflection.live end
from["deflection.total"] = function(_, a) return a.deflection and a.deflection.total end

local RANGE = {reaction = "most", ["reaction.least"] = "least",
  ["reaction.dead"] = "dead"}
for word, field in pairs(RANGE) do
  from[word] = function(_, a, n)
    local R = a.reaction_range and a.reaction_range[n]
    return R and R[field] or word == "reaction" and a.reactions[n] or nil
  end
end

local OVER = {["cuts.moment"] = "M_most", ["cuts.moment.least"] = "M_least",
  ["cuts.shear"] = "V_most", ["cuts.shear.least"] = "V_least", ["cuts.within"] = "within",
  ["cuts.gate"] = "gate"}
for word, field in pairs(OVER) do
  from[word] = function(r, _, n) return r.cuts and r.cuts[n] and r.cuts[n][field] end
end

local STATION = {station = "full", ["station.most"] = "most", ["station.least"] = "least"}
for word, field in pairs(STATION) do
  from[word] = function(_, a, n) return a.stations[n] and a.stations[n][field] end
end

local CHECK = {check = "ratio", ["check.demand"] = "demand",
  ["check.capacity"] = "capacity", ["check.at"] = "at"}
for word, field in pairs(CHECK) do
  from[word] = function(r, a, _, o)
    if r.many then return worst_of_many(a, o, field) end
    local k = worst_check(a, o)
    return k and k[field]
  end
end

-- How many pieces or fasteners a repair has.
local function count_of(a, list)
  local n = 0
  for _, item in ipairs(a[list]) do n = n + (item.count or 1) end
  return n
end

-- The value of a review; nil where it has none.
function values.of(r, o)
  local a = r[o.state]
  if not a and o.whichever then a = #(r.cuts or {}) > 0 and r.cut or r.uncut end
  if not OF_JOIST[o.quantity] then
    if not a or a.status == "not assessed" then return nil end
    if a.refused and o.quantity ~= "status" then return nil end
  end
  if o.count then return count_of(a, o.count) end
  if o.search or o.shared then return nil end
  return from[o.quantity](r, a, o.index, o)
end

local IN = {moment = "in-lb", shear = "lb", reaction = "lb", station = "lb",
  tension = "lb", arm = "in", deflection = "in", longest_span = "in"}

--- Unit of a value by its name: "in", "in-lb", "lb", "" for a ratio or a count; nil for
-- a word and for what the name does not tell.
function values.unit(name)
  local bare = name:gsub("^uncut%.", ""):gsub("^cut%.", ""):gsub("^fixed%.", "")
  if bare:find "%.at$" then return "in" end
  local shared = floor_words.unit(bare)
  if shared then return shared end
  local is_word = bare:find "governing$" or bare == "action" or bare == "status"
  if is_word or bare == "rules" then return nil end
  local of_cut = bare:match "^cuts%.%d+%.(%a+)"
  if of_cut then return IN[of_cut] end
  -- A stress, a force, a moment or a deflection, as the check has it: no name tells.
  if bare:find "%.demand$" or bare:find "%.capacity$" then return nil end
  return IN[bare:match "^[%a_]+"] or ""
end

-- The word's code, as the core has it, or the number itself.
function values.code(o, value)
  if not o.words then return value end
  return enums.of(o.words, value)
end

-- And back.
function values.word(o, code)
  if not o.words then return code end
  return enums.word(o.words, code)
end

return values
