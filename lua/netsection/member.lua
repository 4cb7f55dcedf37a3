-- SPDX-License-Identifier: MIT
-- Members below the joists: a beam, a post, a footing. Each is described like a repair,
-- read with its load and worked out to a state as the others: checks with their steps,
-- status, ratio, what governs, pieces, notes. What is common to them stands here.
local core = require "netsection.core"
local format = require "netsection.format"
local joist = require "netsection.joist"
local model = require "netsection.model"
local packs = require "netsection.packs"
local parts = require "netsection.parts"
local problems = require "netsection.problems"
local quantity = require "netsection.quantity"
local review = require "netsection.review"
local all_loads = require("netsection.packs.standards").all_loads
local error = require "netsection.raise".error
local plain = require "netsection.document.escape".text
local tostring = require "netsection.point".text

local member = {}

-- Fields that say what wood it is; they are read as those of a joist are.
member.wood_fields = {"size", "b", "d", "plies", "species", "grade", "edition",
  "material", "moisture", "temperature", "incised"}

-- A list of fields made of several.
function member.fields(...)
  local all = {}
  for _, names in ipairs {...} do table.move(names, 1, #names, #all + 1, all) end
  return all
end

-- Any span: the wood of a member is read as that of a joist.
local STAND_IN = {span = 120, spacing = 12, dead = 0, live = 0, bearing = 1.5,
  members = 1}

-- The wood of a description: a joist's model, whose values the core adjusts.
-- @return model; or nil, and every problem in `found`
function member.wood(t, found)
  local d = {mark = t.mark}
  for name, value in pairs(STAND_IN) do d[name] = value end
  for _, name in ipairs(member.wood_fields) do d[name] = t[name] end
  local made, wrong = joist.read(d)
  if made and made.model.family then
    found:add(nil, "edition", "STANDARD-VALUES-MISMATCH: values that no formula of a "
      .. "member takes")
    return nil
  elseif made then
    return made.model
  end
  for _, p in ipairs(wrong) do found:add(nil, p.field, p.message) end
end

-- A load in lb given as one number: live where it is not parted, since CD is 1 then.
-- @return {D =, L =} or nil where none is given
function member.load(t, found)
  local read, given = model.readers.load, false
  local q = {D = 0, L = 0}
  for name, case in pairs {load = "L", dead = "D", live = "L"} do
    if t[name] ~= nil then
      given = true
      q[case] = read(found, nil, name, t[name], "point") or 0
    end
  end
  if t.load ~= nil and (t.dead ~= nil or t.live ~= nil) then
    found:add(nil, "load", "give load, or dead and live, not both")
  end
  return given and q or nil
end

-- A constructor of descriptions: checks the names of fields, keeps the rest, and gives
-- the methods of its kind.
-- @param kind word; @param fields names
-- @param methods {review = function(self, options)}
function member.kind(kind, fields, methods)
  local meta = {__index = methods, __name = "netsection." .. kind,
    __tostring = function(self)
      local mark = self.mark and " " .. plain(tostring(self.mark)) or ""
      return (kind:gsub("_", " ")) .. mark
    end,
    __newindex = function()
      error(("a %s does not change: describe another"):format((kind:gsub("_", " "))), 2)
    end}
  local function new(t)
    parts.only(kind, t, fields, 2)
    local own = {kind = kind}
    for name, value in pairs(t) do own[name] = value end
    return setmetatable(own, meta)
  end
  local function is(value) return getmetatable(value) == meta end
  return new, is
end

-- A list for the problems of one member; its texts name it.
function member.problems(t, what)
  local name = t.mark ~= nil and ("%s %s"):format(what, tostring(t.mark)) or what
  local found = problems.new(name)
  if t.mark ~= nil and (type(t.mark) ~= "string" or t.mark == "") then
    found:add(nil, "mark", "a string expected, got " .. type(t.mark))
  end
  if t.note ~= nil and type(t.note) ~= "string" then
    found:add(nil, "note", "text expected, got " .. type(t.note))
  end
  return found
end

-- Raises at the caller's line where something is wrong with a description.
function member.must(found, level)
  if #found == 0 then return end
  for _, p in ipairs(found) do p.text = p.text:gsub("^joist ", "") end
  error(found:text(), level + 1)
end

-- The standard that options name, and the system of units of what is printed ("us" or
-- "metric"); raises at the caller's line.
function member.standard(what, options, level)
  options = options or {}
  parts.only(what, options, {"standard", "units"}, level + 1)
  local show, wrong = quantity.system(options.units)
  if not show then error(("%s: units: %s"):format(what, wrong), level + 1) end
  local s, why = packs.standard(options.standard or packs.default.standards)
  if not s then error(why, level + 1) end
  local refused = format.refusal(s, what, "below")
  if refused then error(refused, level + 1) end
  return s, show
end

-- Combinations a member is held to: {name =, D =, L =, CD =, index =, all = all loads}.
-- @param temporary true: all loads with the CD of load during the work
function member.combinations(standard, temporary)
  local list, all = {}, all_loads(standard.data)
  local during = standard.data.members.construction.CD
  for i, c in ipairs(standard.data.combinations) do
    local CD = temporary and c.L > 0 and during or c.CD
    list[i] = {name = c.name, D = c.D, L = c.L, CD = CD, index = i,
      all = i == all}
  end
  return list
end

-- Properties that CD applies to.
local TIMED = {Fb = true, Ft = true, Fv = true, Fc = true}

-- An adjusted value of the wood in a combination, with its factors.
function member.adjusted(m, standard, property, c)
  local F = core.adjust(m, standard.core, property, c.index)
  if TIMED[property] and F.CD ~= c.CD then
    F.value, F.CD = F.value / F.CD * c.CD, c.CD
  end
  return F
end

-- The worst of several checks of one thing, by its ratio.
function member.worst(checks)
  local worst
  for _, k in ipairs(checks) do
    if not worst or k.ratio > worst.ratio then worst = k end
  end
  return worst
end

-- A check by the core; it binds.
function member.check(t)
  local k = review.joint(t)
  k.binding = true
  return k
end

-- An assessment to be filled. @param show the units it is printed in
function member.assessment(kind, mark, show)
  return {kind = kind, mark = mark, show = show or quantity.system(), checks = {},
    forces = {}, pieces = {}, notes = {}, assumptions = {}, not_checked = {},
    cautions = {}}
end

-- Ratio and what governs: the first of the largest. A status that was set stays.
function member.settle(a)
  local worst
  for _, k in ipairs(a.checks) do
    if k.ratio and (not worst or k.ratio > worst.ratio) then worst = k end
  end
  a.governing_check, a.ratio = worst, worst and worst.ratio
  a.governing = worst and worst.mode
  a.status = a.status or (not worst and "not assessed")
    or (a.ratio > review.full and "overstressed" or "adequate")
  return a
end

-- One that has no numbers, with the reason.
function member.unassessed(a, status, reason)
  a.status, a.reason = status, reason
  a.checks, a.ratio, a.governing, a.governing_check = {}, nil, nil, nil
  return a
end

return member
