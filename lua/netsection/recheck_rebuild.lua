-- SPDX-License-Identifier: MIT
-- Joists described anew from the numbers of an earlier run. A file of numbers holds no
-- full description: what it cannot tell (a loss, a tub, a repair, a switch that was
-- set) is a reason to ask for the survey, never something to guess.
local joist = require "netsection.joist"
local lumber = require "netsection.lumber"
local numbers = require "netsection.numbers"
local parts = require "netsection.parts"
local point = require "netsection.point"
local tostring = require "netsection.point".text

local rebuild = {}

local WOOD = {"Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin", "CF", "CF_t", "CF_c"}
local SAME = {"plies", "overhang_left", "overhang_right", "spacing", "dead",
  "live", "members", "temperature", "repetitive"}

local function number(x)
  return type(x) == "number" and x == x and math.abs(x) < math.huge and x or nil
end

--- Names of an object in their order; figures count as numbers.
function rebuild.keys(t)
  local list = {}
  for key in pairs(t) do list[#list + 1] = tostring(key) end
  local function natural(name)
    return (name:gsub("%d+", function(n) return ("0"):rep(20 - #n) .. n end))
  end
  table.sort(list, function(a, b) return point.less(natural(a), natural(b)) end)
  return list
end

local function list_of(t)
  local list = {}
  for i, v in ipairs(type(t) == "table" and t or {}) do list[i] = number(v) end
  return list
end

-- A cut of the kinds that places alone describe, or nil.
local function cut_of(c, m)
  local x1, x2, h1, h2 = number(c.x1), number(c.x2), number(c.h1), number(c.h2)
  if not (x1 and x2 and h1 and h2) then return nil end
  local face = h1 <= 0 and "bottom" or "top"
  if c.kind == "hole" then
    return parts.hole {at = (x1 + x2) / 2, diameter = x2 - x1, below = h1}
  elseif c.kind == "slot" then
    return parts.slot {from = x1, to = x2, height = h2 - h1, below = h1}
  elseif c.kind == "notch" then
    return parts.notch {face = face, from = x1, to = x2, depth = h2 - h1}
  elseif c.kind == "sever" then
    return parts.sever {from = x1, to = x2}
  elseif c.kind == "end_notch" then
    return parts.end_notch {support = x1 < m.middle and "left" or "right", face = face,
      depth = h2 - h1, length = x2 - x1}
  end
end

local function load_of(l)
  local case = (l.case == "live" or l.case == "dead") and l.case or nil
  if number(l.lb) and number(l.at) then
    return parts.point {at = l.at, load = point.exact(l.lb) .. " lb", case = case,
      CD = number(l.CD)}
  elseif number(l.plf_from) and number(l.plf_to) then
    return parts.line {load = point.exact(l.plf_from) .. " plf",
      to_load = l.plf_to ~= l.plf_from and point.exact(l.plf_to) .. " plf" or nil,
      from = number(l.from), to = number(l.to), case = case, CD = number(l.CD)}
  end
end

local function has(list, pattern)
  for _, said in ipairs(type(list) == "table" and list or {}) do
    if type(said) == "string" and said:find(pattern) then return true end
  end
end

-- What a file of numbers does not tell, or nil.
local function missing(j)
  if type(j.inputs) ~= "table" then return "its entries are not in the file" end
  if j.fixed then return "its repair is not in the file in full" end
  if not has(j.assumptions, "%(dry%)") then return "its moisture is not in the file" end
  if type(j.switches) == "table" and #j.switches > 0 then
    return "switches that were set are not in the file in full"
  end
  for _, l in ipairs(type(j.inputs.loads) == "table" and j.inputs.loads or {}) do
    if type(l.kind) == "string" and l.kind:find "tub" then
      return "its tub is not in the file in full"
    end
  end
end

-- Species and grade by the words of the file, whichever way they part; values that were
-- given with the joist otherwise. differs() below holds either to the file's numbers.
local function read_wood(i, t)
  local words = {}
  for w in tostring(i.wood or ""):gmatch "%S+" do words[#words + 1] = w end
  local sized = type(i.size) == "string" and i.size or nil
  t.size, t.b, t.d = sized, not sized and i.b or nil, not sized and i.d or nil
  for k = 1, #words - 1 do
    local species = table.concat(words, " ", 1, k)
    local grade = table.concat(words, " ", k + 1)
    if lumber.design_values {species = species, grade = grade, b = i.b, d = i.d} then
      t.species, t.grade = species, grade
      return
    end
  end
  t.material = {source = type(i.source) == "string" and i.source or nil}
  for _, name in ipairs(WOOD) do t.material[name] = number(i[name]) end
end

local function describe(j)
  local i = j.inputs
  local t = {mark = tostring(j.mark), cuts = {}, loads = {}}
  for _, name in ipairs(SAME) do t[name] = number(i[name]) end
  read_wood(i, t)
  t.spans, t.bearing = list_of(i.spans), list_of(i.bearing)
  t.creep = number(i.creep)
  t.limits = {live = number(i.limit_live), total = number(i.limit_total)}
  if type(i.blocking) == "table" then t.blocking = list_of(i.blocking) end
  local total = 0
  for _, span in ipairs(t.spans) do total = total + span end
  for _, key in ipairs(rebuild.keys(type(j.cuts) == "table" and j.cuts or {})) do
    local c = cut_of(j.cuts[key], {middle = total / 2})
    if not c then return nil, ("its %s is not in the file in full"):format(key) end
    table.insert(t.cuts, c)
  end
  for n, l in ipairs(type(i.loads) == "table" and i.loads or {}) do
    local load = load_of(l)
    if not load then return nil, ("load %d is not in the file in full"):format(n) end
    t.loads[n] = load
  end
  return t
end

-- What the file and the joist described from it tell differently, or nil.
local function differs(old, new)
  for _, name in ipairs {"b", "d", "plies", "spacing", "dead", "live", "w_D", "w_L",
    "overhang_left", "overhang_right", "limit_live", "limit_total", "creep",
    "notch_raiser", "bearing_on", table.unpack(WOOD)} do
    local a, b = old.inputs[name], new.inputs[name]
    if a ~= b and not (number(a) and number(b)
      and math.abs(a - b) <= 1e-9 * math.max(math.abs(a), math.abs(b))) then
      return name
    end
  end
  for _, key in ipairs(rebuild.keys(old.cuts or {})) do
    local c = (new.cuts or {})[key]
    if not c or c.label ~= old.cuts[key].label then return key end
  end
end

--- A review, now, of a joist of an earlier run's numbers.
-- @param j its branch of the tree; @param options {rules =, standard =}
-- @return its branch of the tree of today, or nil and why the survey is needed
function rebuild.joist(j, options)
  local why = missing(j)
  if why then return nil, why end
  local ok, t, problem = pcall(describe, j)
  if not ok or not t then return nil, not ok and tostring(t) or problem end
  local made, found = pcall(joist.new, t)
  if not made then return nil, tostring(found) end
  local reviewed, r = pcall(found.review, found, options)
  if not reviewed then return nil, tostring(r) end
  local tree = numbers.of(r)
  local new = tree.joists[numbers.keys(tree.joists)[1]]
  local name = differs(j, new)
  if name then return nil, ("its %s is not in the file in full"):format(name) end
  return new
end

return rebuild
