-- SPDX-License-Identifier: MIT
-- Repairs. A fix is described like a cut, read with its joist, and worked out by the
-- core: with the joist (a member beside it, a strap under it) or as joists of their own
-- (trimmers, tails, two spans). What does not serve is a result with the reason.
--
-- A kind is a module netsection.fix.<kind> with
--   fields            names it takes
--   read(t, case, found, part) -> f     numbers, every problem in found
--   assess(case, f) -> assessment       or nil and why it does not serve
--   order             its place among the kinds; a module without one is none
--   factored = true   worked out under load and resistance factors, or
--   one_format        why not: a key of the reasons in format.lua
--   roof = true       worked out with roof live load, snow, loads of their own CD
local core = require "netsection.core"
local enums = require "netsection.enums"
local folder = require "netsection.folder"
local format = require "netsection.format"
local label = require "netsection.label"
local lane = require "netsection.lane"
local part = require "netsection.fix.part"
local parts = require "netsection.parts"
local ply = require "netsection.ply"
local point = require "netsection.point"
local problems = require "netsection.problems"
local review = require "netsection.review"
local roof_loads = require "netsection.roof_loads"
local site = require "netsection.fix.site"
local error = require "netsection.raise".error

local fix = {kinds = {}}

local modules, new = {}, {}
-- Constructors by kind.
fix.new = new

-- Puts a kind in its place among the others.
local function known(kind, module)
  modules[kind] = module
  new[kind] = function(t)
    parts.only(kind, t, module.fields, 2)
    return parts.made(kind, t)
  end
  table.insert(fix.kinds, kind)
  table.sort(fix.kinds, function(a, b)
    local x, y = modules[a].order or math.huge, modules[b].order or math.huge
    return x < y or x == y and point.less(a, b)
  end)
  return new[kind]
end

-- The kinds on file are the modules of their folder that have a place in the order.
local HOME = assert(package.searchpath("netsection.fix.sister", package.path))
  :match "^(.*)[/\\]"
for _, file in ipairs(folder.entries(HOME)) do
  local name = file:match "^([%w_]+)%.lua$"
  local module = name and require("netsection.fix." .. name)
  if module and module.order then known(name, module) end
end

local MODULE = {fields = "table", read = "function", assess = "function",
  title = "function", factored = "boolean"}

--- Adds a kind of repair of one's own.
-- @param kind its name: small letters and _
-- @param module {fields = {names}, read = function(t, case, found, part) -> f, assess =
--   function(case, f) -> {checks =, pieces =, notes = ...} or nil and why it does not
--   serve, title = function(f, case), factored = true where it holds under load and
--   resistance factors}; see the kinds in fix/
-- @return its constructor
function fix.add(kind, module)
  if type(kind) ~= "string" or not kind:find "^%l[%l_]*$" then
    error("repair_kind: a name of small letters and _ expected", 2)
  elseif modules[kind] then
    error(("repair_kind: '%s' is a kind already"):format(kind), 2)
  end
  parts.only("repair_kind", module, {"fields", "read", "assess", "title", "factored"}, 2)
  for name, wanted in pairs(MODULE) do
    local needed = name == "fields" or name == "read" or name == "assess"
    if type(module[name]) ~= wanted and (needed or module[name] ~= nil) then
      error(("repair_kind: %s: a %s expected, got %s"):format(name, wanted,
        type(module[name])), 2)
    end
  end
  return known(kind, module)
end

-- A prop that stands under the joist while the repair is fastened.
function fix.prop(t)
  parts.only("prop", t, {"at", "force", "from_right"}, 2)
  return parts.made("prop", {at = t.at, force = t.force, from_right = t.from_right})
end

-- Names that a kind takes.
function fix.fields(kind)
  return modules[kind].fields
end

function fix.is(value)
  return type(value) == "table" and modules[value.kind] ~= nil
end

local function spoken(kind)
  return (kind:gsub("_", " "))
end

-- A kind may work on what it was read into; the joist's own stays as it is.
local function own(repair)
  local f = {}
  for name, value in pairs(repair) do f[name] = value end
  f.notes = {table.unpack(repair.notes or {})}
  return f
end

-- What a kind works with: the joist as it is, and where it stands in its floor.
local case = {}
case.__index = case

local function case_of(joist)
  local row = joist.row or {}
  local c = setmetatable({joist = joist, model = joist.model, row = row,
    left = row.left, right = row.right}, case)
  -- A check of a connection by itself (see csrc/nds/joint.c); record symbols in t.
  function c.joint(t)
    t.standard = c.standard
    return review.joint(t)
  end
  return c
end

--- Where a rule of the standard in force stands, by what it is about.
function case:rule(key)
  return self.standard.words:rule(key)
end

-- The core's numbers for a model.
function case:core(model)
  return review.raw(model, self.rules, self.standard)
end

-- Assessment of a joist's own state in the review of another joist: its checks, with
-- 'member' on each. @param state "cut" or "uncut"
function case:checks_of(joist, member, state)
  local r = review.of(joist, self.options)
  if not r.computed then return nil, r.reasons[1] end
  for _, k in ipairs(r[state or "cut"].checks) do k.member = member end
  return r[state or "cut"], r
end

-- What another joist of the floor, repaired as well, is worked out with.
function case:of_joist(joist)
  local c = case_of(joist)
  c.options, c.rules, c.standard = self.options, self.rules, self.standard
  c.review = review.of(joist, self.options)
  return c, own(joist.repair)
end

-- Kinds with new wood like the joist's where nothing else is said, and the field that
-- says it.
local NEW_WOOD = {sister = "species", end_sister = "species", added_joist = "species",
  header = "size"}

-- Reads a fix for a joist. @return f, problems
function fix.read(joist, t)
  local found = problems.new(joist.model.mark)
  local named = {name = spoken(t.kind)}
  local f = modules[t.kind].read(t, case_of(joist), found, named) or {}
  if joist.model.historic and NEW_WOOD[t.kind] and t.species == nil
    and t.material == nil then
    found:add(named, NEW_WOOD[t.kind], ("new wood has no historic working stresses: give "
      .. "%s species and grade"):format(t.kind == "header" and "the joist" or "its"))
  end
  f.kind, f.given, f.show, f.note = t.kind, t, joist.model.show, t.note
  if t.note ~= nil and type(t.note) ~= "string" then
    found:add(named, "note", "a text expected, got a " .. type(t.note))
  end
  return f, found
end

local function refusal(f, reason)
  return setmetatable({kind = f.kind, title = spoken(f.kind), status = "not permitted",
    refused = reason, checks = {}, reactions = {}, pieces = {}, fasteners = {},
    layout = {}, stations = {}, forces = {}, neighbours = {}, sequence = {},
    cautions = {}, notes = {}}, label.state)
end

local LISTS = {"reactions", "pieces", "fasteners", "layout", "stations", "forces",
  "neighbours", "sequence", "cautions", "notes"}

-- Of many joists: numbers of the words, in columns.
local function settle_many(a, ratio, number)
  local words, modes = enums.words, {}
  for i, k in ipairs(a.checks) do modes[i] = {of = enums.of(words.governing, k.mode)} end
  a.governing = core.by_number(modes, number, "of")
  a.governing_at = core.by_number(a.checks, number, "at")
  if a.status ~= "not permitted" then
    a.status = core.chosen(core.larger(ratio, review.full),
      enums.of(words.status, "overstressed"), enums.of(words.status, "adequate"))
  end
end

-- Ratio and governing check among those that bind, the first of the largest.
local function settle(a)
  local ratio, number = core.worst(a.checks)
  a.failing = a.failing and #a.failing > 0 and a.failing or nil
  if a.failing then a.status = "not permitted" end
  a.ratio = ratio
  if lane.is(ratio) then
    settle_many(a, ratio, number)
  else
    a.governing_check = a.checks[number]
    a.governing = a.governing_check and a.governing_check.mode
    a.status = a.status == "not permitted" and "not permitted"
      or a.ratio > review.full and "overstressed" or "adequate"
  end
  for _, why in ipairs(a.failing or {}) do
    a.cautions = a.cautions or {}
    table.insert(a.cautions, 1, why)
  end
  for _, name in ipairs(LISTS) do a[name] = a[name] or {} end
  return setmetatable(a, label.state)
end
fix.settle = settle

local LIFT = {none = "no lift, the dead load stays in the joist",
  unloaded = "dead load lifted off while it is fastened",
  prop = "a prop while it is fastened"}

-- What a description takes off its default, as the list of switches says it.
local function switches(f)
  local list = {}
  if f.lift and f.lift ~= (f.severed and "unloaded" or "none") then
    list[#list + 1] = "repair: lift: " .. LIFT[f.lift]
  end
  if f.share and (f.share ~= "stiffness" or f.runs_on) then
    list[#list + 1] = "repair: share: " .. (f.written_off
      and "the cut counts as cut through" or f.share == "new"
      and "the old joist written off" or "by " .. f.share)
  end
  if f.between == true then
    list[#list + 1] = "repair: gap load: all between the inner groups on the new member"
  elseif f.between == "none" then
    list[#list + 1] = "repair: the floor between the headers is not counted"
  end
  return list
end

-- Repairs that stand the joist on something new where it has no seat.
local NEW_SEAT = {hanger = true, end_sister = true}

-- A post that carries what is left of a lost end, and not a joist that still has one.
local function on_post(joist, f)
  return f.kind == "midspan_support" and part.lost(joist.model) ~= nil
end

-- A member that stands on the rotten seat's place by itself and takes all the load.
local function takes_all(f)
  return f.kind == "sister" and f.share == "new" and f.bears_left and f.bears_right
end

local function stands_on_nothing(joist, r, f)
  local none
  -- a repair takes what one ply lost off all of them, its seat too
  local seat = r.plies and r.plies.seat or r.seat or {}
  for j, left in ipairs(seat) do none = none or left == 0 and j end
  if none and not NEW_SEAT[f.kind] and not takes_all(f) and not on_post(joist, f) then
    return ("no sound seat at the %s bearing: the repair leaves that end on nothing; "
      .. "give it an end sister in a hanger, a hanger, a post near that end or a new "
      .. "seat (packed = true)"):format(none == 1 and "left"
      or none == #seat and "right" or "inner")
  end
end

-- Why a repair is not worked out in the format of a standard, or nil.
local function other_format(f, standard)
  local module, what = modules[f.kind], "a " .. spoken(f.kind)
  local why = (standard.data.refuses or not module.factored)
    and (module.one_format or "only")
  if why == "steel" and f.kind == "side_plates" and not f.steel then why = "panel" end
  if not why and f.hanger then
    what, why = "a hanger", "rated"
  elseif not why and f.lift == "prop" then
    what, why = "a prop while it is fastened", "only"
  elseif not why and f.rated then
    what, why = "a maker's value of a fastener", "rated"
  end
  local wood = f.wood and f.wood.model
  if not why and wood and (wood.family or "nds") ~= standard.data.family then
    return ("%s: STANDARD-VALUES-MISMATCH: values of another family than those of %s")
      :format(what, standard.data.name)
  end
  return why and format.refusal(standard, what, why)
end

-- Why a repair is not worked out under the loads of a joist, or nil. A member beside the
-- joist is worked by the core under every combination; what new wood does at a seat or in
-- a hanger is summed of dead and live load.
local function other_loads(joist, f)
  local module, new_seat = modules[f.kind], f.hanger
  for _, c in ipairs(joist.model.cuts) do
    new_seat = new_seat or c.kind == "end_notch" and (f.bears_left or f.bears_right)
  end
  if module.roof and not new_seat then return nil end
  if module.roof then
    return roof_loads.refusal(joist.model, f.hanger and "a hanger of new wood"
      or "new wood on the seat of a notched end")
  end
  return roof_loads.refusal(joist.model, "a repair (" .. spoken(f.kind) .. ")")
end

-- The fixed state of a repaired joist.
-- @param r review of the joist as it is, with numbers
function fix.assess(joist, r, options, rules, standard)
  local f = own(joist.repair)
  local c = case_of(joist)
  c.review, c.options, c.rules, c.standard = r, options, rules, standard
  local a, reason
  reason = other_format(f, standard) or other_loads(joist, f)
    or stands_on_nothing(joist, r, f)
  if not reason then a, reason = modules[f.kind].assess(c, f) end
  if not a then
    a = refusal(f, reason)
    a.notes[1] = f.note and "note: " .. f.note
    a.title = modules[f.kind].title and modules[f.kind].title(f, c) or a.title
    return a
  end
  a.kind, a.switches = f.kind, switches(f)
  a.title = a.title or spoken(f.kind)
  a.sequence = site.with_damage(a.sequence or {}, c.model.cuts)
  a.notes = a.notes or {}
  if ply.cut(c.model) then
    a.notes[#a.notes + 1] = "the repair is worked out as if every ply were cut where one "
      .. "is: cautious"
  end
  if f.note then a.notes[#a.notes + 1] = "note: " .. f.note end
  return settle(a)
end

-- Whether the core works a repair with its joist, loads varying from lane to lane; where
-- cuts are written off the repaired joist is another than the one as it is.
function fix.works_on_lanes(repair)
  return modules[repair.kind].lanes ~= nil and not repair.written_off
end

-- The core's model of a repaired joist, for such a kind: nothing in it but the joist's
-- own loads depends on loads.
-- @return model, nil, {fasteners =, pieces =}; or nil and why the repair does not serve
function fix.on_lanes(joist, packs)
  local f = own(joist.repair)
  local refused = other_format(f, packs.standard) or other_loads(joist, f)
  if refused then return nil, refused end
  local c = case_of(joist)
  c.options, c.rules, c.standard = {}, packs.rules, packs.standard
  c.review = review.of(joist, {rules = packs.rules.spec,
    standard = packs.standard.spec})
  if c.review.fault then error("joists that are wrong", 0) end -- each says why
  local none = stands_on_nothing(joist, c.review, f)
  if none then return nil, none end
  local m, why = modules[f.kind].lanes(c, f)
  if not m then return nil, why end
  local kind = modules[f.kind]
  return m, nil, {fasteners = #f.layout, pieces = kind.count and kind.count(f)
    or f.side == "both" and 2 or 1}
end

-- The same for a joist without numbers.
function fix.refused(joist, reason)
  return refusal(joist.repair, reason)
end

return fix
