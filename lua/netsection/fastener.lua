-- SPDX-License-Identifier: MIT
-- One fastener, by its trade size or by numbers, and the functions on it:
--
--   ns.fastener{kind = "lag screw", diameter = "1/4 in", length = "3 in"}
--   ns.fastener{kind = "nail", size = "16d"}          type = "common", "box", "sinker"
--   ns.fastener{kind = "wood screw", number = 10, length = "2-1/2 in"}
--   ns.fastener{kind = "bolt", diameter = "1/2 in"}
--   ... rated = "200 lb": a maker's lateral value, used instead of the equations;
--   rated_withdrawal = "170 lb/in": the same for withdrawal, per inch of thread
--
-- A fastener has kind, D, D_r (root), F_yb, L (nil where not given), E (tip), rated,
-- rated_withdrawal, notes (where its numbers are from); tostring gives its trade name.
local core = require "netsection.core"
local data = require "netsection.fastener_data"
local group = require "netsection.fastener_group"
local lane = require "netsection.lane"
local lateral = require "netsection.lateral"
local ordered = require "netsection.point".pairs
local point = require "netsection.point"
local quantity = require "netsection.quantity"
local steps = require "netsection.standards.us-nds-2018.fastener_steps"
local units = require "netsection.units"
local tostring = require "netsection.point".text

local fail, sizes = data.fail, data.sizes

local fastener = {}
local meta = {__name = "netsection.fastener"}

local FIELDS = {"kind", "diameter", "number", "size", "type", "length", "root", "tip",
  "Fyb", "hardened", "rated", "rated_withdrawal"}
local KINDS = {"nail", "wood screw", "lag screw", "bolt"}

--------------------------------------------------------------------------------- names

-- Inches as the trade writes them: 2.5 is 2-1/2, 0.3125 is 5/16, 0.131 stays.
local function trade(x)
  local n = x * 32
  if math.abs(n) >= 1e9 then return point.format("%.4g", x) end
  if math.abs(n - math.floor(n + 0.5)) > 1e-9 then return point.format("%.4g", x) end
  n = math.floor(n + 0.5)
  local whole, num, den = n // 32, n % 32, 32
  if num == 0 then return tostring(whole) end
  while num % 2 == 0 do num, den = num // 2, den // 2 end
  local part = ("%d/%d"):format(num, den)
  return whole > 0 and ("%d-%s"):format(whole, part) or part
end

-- A fastener whose diameter was given in mm is called by its size in mm.
local function metric_name(f)
  local show = quantity.system "metric"
  local long = f.L and " x " .. show.section_number(f.L) or ""
  return ("%s%s %s %s%s"):format(show.section_number(f.D), long, show.unit.length, f.kind,
    f.rated and ", rated " .. show.force(f.rated) or "")
end

local function name_of(f)
  if f.metric then return metric_name(f) end
  local head = f.size or trade(f.D)
  local long = f.L and not (f.kind == "nail" and f.size) and " x " .. trade(f.L) or ""
  local unit = (long ~= "" or not f.size) and " in" or ""
  local what = f.kind
  if f.kind == "nail" and f.size then
    what = f.type == "sinker" and "sinker" or f.type .. " nail"
  end
  local rated = f.rated and point.format(", rated %.4g lb", f.rated) or ""
  return ("%s%s%s %s%s"):format(head, long, unit, what, rated)
end

meta.__tostring = name_of

-------------------------------------------------------------------------------- sizes

local function keys(t, form)
  local list = {}
  for k in pairs(t) do list[#list + 1] = k end
  table.sort(list, function(a, b)
    return tonumber(tostring(a):match "%d+") < tonumber(tostring(b):match "%d+")
  end)
  for i, k in ipairs(list) do list[i] = point.format(form, k) end
  return table.concat(list, ", ")
end

local function note(f, text, ...)
  f.notes[#f.notes + 1] = point.format(text, ...)
end

-- Pennyweight and type give diameter and length.
local function by_pennyweight(f, t)
  f.type = data.word("fastener.type", t.type, {"common", "box", "sinker"}, "common")
  local set = sizes.nails[f.type]
  local row = set.sizes[t.size]
  if not row then
    fail('fastener.size: "%s" is not on file for %s nails; on file: %s', tostring(t.size),
      f.type, keys(set.sizes, "%s"))
  end
  f.size, f.D = t.size, row[1]
  if f.L and math.abs(f.L - row[2]) > 1e-6 then
    fail("fastener.length: a %s %s nail is %s in long; another length needs a diameter "
      .. "instead of the size", t.size, f.type, trade(row[2]))
  end
  f.L = row[2]
  note(f, "nail sizes: %s (%s)", set.source,
    data.listed(set.read, t.size) and "read" or set.confidence)
end

local function nail(f, t)
  if t.size ~= nil then
    by_pennyweight(f, t)
  else
    f.D = data.length("fastener.diameter (or size)", t.diameter, true)
  end
  f.D_r = f.D
  f.E = data.length("fastener.tip", t.tip) or 2 * f.D
end

local function wood_screw(f, t)
  local number = t.number
  if number == nil and type(t.size) == "string" then
    number = tonumber(t.size:match "^#(%d+)$")
    if not number then
      fail('fastener.size: "#10" and the like expected, got %s', t.size)
    end
  end
  if number ~= nil then
    local row = sizes.screws.sizes[number]
    if not row then
      fail("fastener.number: %s is not on file; on file: %s", tostring(number),
        keys(sizes.screws.sizes, "%d"))
    end
    f.size, f.D, f.D_r = ("#%d"):format(number), row[1], row[2]
    note(f, "screw sizes: %s (%s)", sizes.screws.source,
      data.listed(sizes.screws.read, number) and "read" or sizes.screws.confidence)
  else
    f.D = data.length("fastener.diameter (or number)", t.diameter, true)
    f.D_r = data.length("fastener.root", t.root, not t.rated) or f.D
  end
  f.E = data.length("fastener.tip", t.tip) or 2 * f.D
end

local function lag_row(D)
  for _, row in ipairs(sizes.lags.sizes) do
    if math.abs(row[1] - D) < 1e-6 then return row end
  end
end

local function lag_screw(f, t)
  f.D = data.length("fastener.diameter", t.diameter, true)
  local row = lag_row(f.D)
  if not row and not (t.root and t.tip) and not t.rated then
    local list = {}
    for i, lag in ipairs(sizes.lags.sizes) do list[i] = trade(lag[1]) end
    fail("fastener.diameter: a lag screw of %s in is not on file; on file: %s in; or "
      .. "give root and tip", trade(f.D), table.concat(list, ", "))
  end
  f.D_r = data.length("fastener.root", t.root) or row and row[2] or f.D
  f.E = data.length("fastener.tip", t.tip) or row and row[3] or f.D
  if row then
    note(f, "lag screw sizes: %s (%s)", sizes.lags.source,
      data.listed(sizes.lags.confirmed, row[1]) and "memory, root confirmed by Table 12K"
      or sizes.lags.confidence)
  end
end

local function bolt(f, t)
  f.D = data.length("fastener.diameter", t.diameter, true)
  local low, high = sizes.bolts.least, sizes.bolts.most
  if not (f.D >= low - 1e-9 and f.D <= high) then
    fail("fastener.diameter: a bolt of %s to %s in expected, got %s", trade(low),
      trade(high), trade(f.D))
  end
  f.D_r = data.length("fastener.root", t.root) or f.D
  f.E = 0
end

local READ = {nail = nail, ["wood screw"] = wood_screw, ["lag screw"] = lag_screw,
  bolt = bolt}
-- Fields that only some kinds take.
local ONLY = {number = "wood screw", type = "nail", hardened = "nail"}

local function bending_strength(f, t)
  if t.Fyb ~= nil then return data.number("fastener.Fyb", t.Fyb, 10000, 300000) end
  local kind = f.kind == "wood screw" and "nail" or f.kind
  if t.hardened then kind = "hardened nail" end
  local row, source = data.bending(kind, f.D)
  if not row then
    if t.rated then return nil end
    fail("fastener.Fyb: none is on file for a %s of %s in; give it in psi", f.kind,
      trade(f.D))
  end
  note(f, "Fyb: %s (%s)", source, row.confidence)
  return row.F_yb
end

local function rated_withdrawal(v)
  if v == nil then return nil end
  if type(v) == "number" then
    return data.number("fastener.rated_withdrawal", v, 1e-6, 1e5)
  end
  local x, problem = units.load(v, "line") -- plf
  if not x then fail("fastener.rated_withdrawal: %s", problem) end
  return data.number("fastener.rated_withdrawal", x / 12, 1e-6, 1e5)
end

-- Makes a fastener. Raises at the caller's line on unknown fields and sizes.
fastener.new = data.public(function(t)
  data.only("fastener", t, FIELDS)
  local kind = data.word("fastener.kind", t.kind, KINDS)
  if not kind then
    fail("fastener.kind: missing (one of %s)", table.concat(KINDS, ", "))
  end
  for field, owner in ordered(ONLY) do
    if t[field] ~= nil and kind ~= owner then
      fail("fastener.%s: only a %s has it, not a %s", field, owner, kind)
    end
  end
  if t.size ~= nil and kind ~= "nail" and kind ~= "wood screw" then
    fail("fastener.size: nails and wood screws have it; a %s has a diameter", kind)
  end
  if t.diameter ~= nil and (t.size ~= nil or t.number ~= nil) then
    fail "fastener: a diameter or a trade size, not both"
  end
  local f = {kind = kind, L = data.length("fastener.length", t.length), notes = {}}
  f.rated = t.rated ~= nil and data.force("fastener.rated", t.rated) or nil
  f.rated_withdrawal = rated_withdrawal(t.rated_withdrawal)
  READ[kind](f, t)
  f.metric = type(t.diameter) == "string" and t.diameter:lower():find "mm%s*$" ~= nil
    or nil
  if not (f.D_r <= f.D and f.D <= 4) then
    fail("fastener.root: at most the diameter, %s in, expected", trade(f.D))
  end
  f.F_yb = bending_strength(f, t)
  if f.rated then note(f, "lateral value: the maker's, %s", f.metric
    and quantity.system("metric").force(f.rated) or point.format("%.4g lb", f.rated)) end
  f.diameter, f.length = f.D, f.L
  return setmetatable(f, meta)
end)

-- A fastener that was made here, or a fault.
local function made(what, f)
  if getmetatable(f) ~= meta then
    fail("%s.fastener: ns.fastener{...} expected, got %s", what, tostring(f))
  end
  return f
end

--------------------------------------------------------------------------- on a fastener

-- Tables in the arguments of which a number may be a column.
local MEMBERS = {main = true, side = true}

local function offered(what, f)
  return data.public(function(t)
    data.only(what, t, f.fields)
    made(what, t.fastener)
    return lane.each(f.work, t, MEMBERS)
  end)
end

for name, f in pairs(lateral) do fastener[name] = offered(name, f) end
for name, f in pairs(group) do fastener[name] = offered(name, f) end

-- Specific gravity of a species by its trade name; values and which species stands at
-- which are from memory. Raises where it is not on file.
-- @return G, name as filed, confidence
fastener.G = data.public(data.G)

-- Lead hole of the thread, in: {least, most}; a bolt's hole.
-- @param t {fastener =, G =}
fastener.lead_hole = data.public(function(t)
  data.only("lead_hole", t, {"fastener", "G"})
  local f = made("lead_hole", t.fastener)
  local rows = data.rules.lead_holes[f.kind]
  if not rows then return nil end
  if rows.over then return {f.D + rows.over[1], f.D + rows.over[2]} end
  local G = data.number("lead_hole.G", t.G, 0.2, 1.2)
  for _, row in ipairs(rows) do
    if G <= row[1] then
      if rows.of_root then return {f.D_r * row[3], f.D_r * row[3]} end
      return {f.D * row[2], f.D * row[3]}
    end
  end
end)

-- Allowable shear of the shank's steel, ASD, lb: the result does not take CD.
-- @return {V =, steps =}
fastener.shear = data.public(function(t)
  data.only("shear", t, {"fastener", "Fnv"})
  local f = made("shear", t.fastener)
  local F_nv = data.number("shear.Fnv", t.Fnv, 1000, 200000, sizes.shank.F_nv)
  local V = core.dowel.shank_shear(F_nv, f.D_r)
  return {V = V, steps = steps.shear({F_nv = F_nv, D_r = f.D_r, V = V, pi = math.pi})}
end)

-- The module itself is ns.fastener: it makes a fastener when called.
return setmetatable(fastener, {__call = function(_, t) return fastener.new(t) end})
