-- SPDX-License-Identifier: MIT
--- Quantities as they are printed, by kind, in one system of units.
--
-- Everything is computed in base units (in, lb, psi, lb-in, plf, psf); a system, made of
-- the data of locale/<name>.lua, turns a number into text. Which one counts is settled
-- where a joist is read (its field `units`, the floor's, or the standard's) and stands in
-- `model.show`; whoever prints takes it from there: there is no current system.
--
--   local show = quantity.system "metric"
--   show.force(1000)        --> "4.45 kN"
--   show.place(162)         --> "4115 mm"
--   show.unit.stress        --> "N/mm2"
local point = require "netsection.point"
local spelling = require "netsection.locale.spelling"
local units = require "netsection.units"

local quantity = {}

local US = require "netsection.locale.us"
local NAMES = {"us", "metric"}
quantity.names = NAMES
quantity.default = "us"

local fixed, significant = units.fixed, units.significant

-- Kind of a base unit, as checks and records of the core name it.
local KIND_OF = {["in"] = "length", in2 = "area", in3 = "modulus", in4 = "inertia",
  lb = "force", ["lb-in"] = "moment", psi = "stress", plf = "line_load",
  psf = "area_load", ["lb/in"] = "inch_load", ["lb-in2"] = "rigidity",
  pcf = "unit_weight"}

-- Units in which formulas hold without factors: N, mm, N/mm2, N mm.
local COHERENT = {["in"] = "length", in2 = "area", in3 = "modulus", in4 = "inertia",
  lb = "force", ["lb-in"] = "section_moment", psi = "stress", plf = "line_load",
  psf = "area_load", ["lb/in"] = "inch_load", ["lb-in2"] = "rigidity",
  pcf = "unit_weight"}

-- Three figures, from 100 on whole numbers.
local function plain(x)
  local size = math.abs(x)
  if size >= 100 or size == 0 then return fixed(x, 0) end
  return significant(x, 3)
end

-- Decimals without zeros that say nothing.
local function trimmed(x, decimals)
  local said = fixed(x, decimals)
  return said:find(".", 1, true) and (said:gsub("0+$", ""):gsub("%.$", "")) or said
end

--- Four figures, without zeros that say nothing.
function quantity.short(x)
  local said = significant(x, 4)
  if said:find(".", 1, true) and not said:find "e" then
    said = said:gsub("0+$", ""):gsub("%.$", "")
  end
  return said
end

-- A number of a kind in a unit {unit, per, shift}. @param decimals of the US unit, or nil
local function in_unit(unit, x, decimals)
  if not decimals then return plain(x / unit.per) end
  return fixed(x / unit.per, math.max(decimals + (unit.shift or 0), 0))
end

-- The functions of each kind: show.force(x, decimals), and its number alone.
local function add_kinds(show, kinds)
  show.unit = {}
  for name, kind in pairs(kinds) do
    show.unit[name] = kind.unit
    local small = kind.small
    show[name] = function(x, decimals)
      local part = small and x ~= 0 and math.abs(x) < small.from * kind.per
      local unit = part and small or kind
      return (part and fixed(x / unit.per, 0) or in_unit(unit, x, decimals)) .. " "
        .. unit.unit
    end
  end
  -- A load that something is chosen for, up to a whole pound or hundredth of a kN.
  function show.load_up(x)
    local kind = kinds.force
    local step = 10 ^ -(kind.shift or 0)
    return in_unit(kind, math.ceil(x / kind.per / step - 1e-9) * step * kind.per, 0)
      .. " "
      .. kind.unit
  end
  -- The number alone, for columns whose head has the unit.
  function show.number(name, x, decimals) return in_unit(kinds[name], x, decimals) end
  -- Number and unit without a smaller unit, where others beside it share the unit.
  function show.one(name, x, decimals)
    return in_unit(kinds[name], x, decimals) .. " " .. kinds[name].unit
  end
  -- 120 to 340 lb
  function show.range(name, from, to, decimals)
    local kind = kinds[name]
    return ("%s to %s %s"):format(in_unit(kind, from, decimals),
      in_unit(kind, to, decimals), kind.unit)
  end
  -- Four figures of it.
  function show.figures(name, x) return quantity.short(x / kinds[name].per) end
  function show.figures_of(name, x)
    return show.figures(name, x) .. " " .. kinds[name].unit
  end
  -- A number in the unit of its kind, for axes and data.
  function show.scaled(name, x) return x / kinds[name].per end
end

-- What is taped off: places along a joist, sizes of members and cuts.
local function add_tape(show)
  -- 7.2 in, a width of paper.
  function show.paper(x) return trimmed(x, 1) .. " in" end
  -- Beside a dimension line: feet from 2 ft on; and along a running one.
  function show.dimension(x)
    return x >= 24 and units.feet_inches(x) or units.inches(x)
  end
  -- 1.23e+05 lb-in per radian
  function show.turning(k) return significant(k, 3) .. " lb-in per radian" end
  show.running, show.drawn_in = units.feet_inches, ""
  -- Half of the length drawn to scale beside a drawing at 1:N.
  function show.bar(N)
    return N >= 60 and 48 or N > 12 and 12 or N > 5 and 6 or N > 2 and 2 or 1
  end
  -- 13'-6 1/2"
  show.place = units.feet_inches
  -- 13-6 1/2, as stock is ordered
  show.dash = units.feet_inches_dash
  -- 6 1/2"
  show.size = units.inches
  -- 3-1/2 in, as it is written in a description
  function show.section(x)
    return (units.inches(x):gsub(" ", "-"):gsub('"', " in"))
  end
  -- 213.5 lb, a load that was given
  function show.force_given(x) return point.format("%.4g lb", x) end
  -- 2.188 in, a distance that is short of another
  function show.exact(x) return point.format("%.4g in", x) end
  -- 1/8 in, 12 in: what is not measured finer
  show.about = show.section
  -- As it is sold: sixteenths, else thousandths.
  function show.thickness(x)
    local n = x * 16
    if math.abs(n - math.floor(n + 0.5)) < 1e-6 then return units.inches(x) end
    return fixed(x, 3) .. '"'
  end
  -- 2.31 in, a limit that is worked out
  function show.limit(x) return trimmed(x, 2) .. " in" end
  -- 6 1/2", up to what a tape shows
  function show.size_up(x) return units.inches(x, {round = "up"}) end
  -- Down to what a tape shows.
  function show.floor(x) return math.floor(x * 16) / 16 end
  -- A drill that is sold: the largest sixty-fourth in a range, else the nearest.
  function show.drill(low, high)
    local n = math.floor(high * 64 + 1e-9)
    if n < low * 64 - 1e-9 then n = math.floor((low + high) / 2 * 64 + 0.5) end
    n = math.max(n, 1)
    local d = 64
    while n % 2 == 0 and d > 1 do n, d = n // 2, d // 2 end
    local whole = n // d
    local said = n % d > 0 and ("%d/%d"):format(n % d, d) or ""
    return (whole > 0 and ("%d%s"):format(whole, said ~= "" and "-" .. said or "")
      or said) .. " in"
  end
  -- 0.162 in, of a fastener
  function show.diameter(x) return significant(x, 3) .. " in" end
  -- 3-1/2, the same without its unit
  function show.section_number(x)
    return (units.inches(x):gsub(" ", "-"):gsub('"', ""))
  end
end

local function add_metric_lengths(show, kind)
  local function said(x, decimals) return trimmed(x / kind.per, decimals) end
  function show.place(x) return said(x, 0) .. " " .. kind.unit end
  -- A tenth of a millimeter, where there is one: an actual 1-1/2 in is 38.1 mm.
  function show.section_number(x) return said(x, 1) end
  function show.section(x) return said(x, 1) .. " " .. kind.unit end
  show.force_given = show.force
  function show.turning(k) return show.rotation(k) end
  -- Half a millimeter where it is one, so that what stands in a row adds up.
  function show.dimension(x)
    local half = math.abs(x / kind.per * 2 - math.floor(x / kind.per * 2 + 0.5)) < 0.02
    return said(x, half and 1 or 0)
  end
  show.running, show.drawn_in = show.dimension, ", dimensions in " .. kind.unit
  -- Drills come in tenths of a millimeter.
  function show.drill(low, high)
    local n = math.floor(high / kind.per * 10 + 1e-9)
    if n < low / kind.per * 10 - 1e-9 then
      n = math.floor((low + high) / 2 / kind.per * 10 + 0.5)
    end
    return trimmed(math.max(n, 1) / 10, 1) .. " " .. kind.unit
  end
  function show.size_up(x)
    return fixed(math.ceil(x / kind.per - 1e-6), 0) .. " " .. kind.unit
  end
  function show.floor(x) return math.floor(x / kind.per) * kind.per end
  show.exact, show.thickness, show.about = show.section, show.section, show.place
  show.paper, show.dash = show.place, show.place
  function show.bar(N)
    local mm = N >= 60 and 1000 or N > 12 and 250 or N > 5 and 100 or N > 2 and 50 or 25
    return mm * kind.per
  end
  show.size, show.limit, show.diameter = show.section, show.section, show.section
end

-- Numbers that come with the unit the core gives them.
local function add_of_unit(show, kinds)
  -- Value and unit as they are read in the trade.
  function show.quantity(x, unit)
    if unit == "in" then return show.length(x, 3) end
    local kind = KIND_OF[unit]
    if kind then return show[kind](x) end
    return unit == "" and fixed(x, 2) or plain(x) .. " " .. unit
  end
  function show.quantity_number(x, unit)
    if unit == "in" then return show.number("length", x, 3) end
    local kind = KIND_OF[unit]
    if kind then return in_unit(kinds[kind], x) end
    return unit == "" and fixed(x, 2) or plain(x)
  end
  -- A number that stands beside its base unit, and that unit: as it is, or metric.
  function show.beside(x, unit)
    local kind = not show.tape and KIND_OF[unit]
    if not kind then return x, unit end
    return x / kinds[kind].per, kinds[kind].unit
  end
  -- An end of a range in a message.
  function show.bound(x, unit)
    local value, other = show.beside(x, unit)
    return point.format("%g", other == unit and x or tonumber(significant(value, 4)))
  end
  function show.unit_of(unit)
    local kind = KIND_OF[unit]
    return kind and kinds[kind].unit or unit
  end
end

-- Units for the lines of a calculation, in which a formula with the numbers put in must
-- still hold: base units, or N, mm, N/mm2, N mm.
local function add_coherent(show, kinds)
  if show.tape then
    function show.coherent(x, unit) return x, unit end
    return
  end
  local newton = kinds.force.small
  function show.coherent(x, unit)
    local name = COHERENT[unit]
    if not name then return x, unit end
    local kind = name == "force" and newton or kinds[name]
    return x / kind.per, kind.unit
  end
end

local function temperature(scale)
  return function(F)
    return point.format("%g %s", tonumber(fixed((F - scale.zero) * scale.scale, 1)),
      scale.unit)
  end
end

-- Units that tables name, printed in this system, and as columns beside another.
local function add_tables(show, data)
  local twins = data.twins
  -- What a table's value in a unit is printed in: {unit, times what it is multiplied by},
  -- or nil where it is printed as it is.
  function show.in_table(unit)
    local twin = twins and twins[unit]
    if not twin then return nil end
    local kind, other = data.kinds[twin.kind], US.kinds[twin.kind]
    return {unit = kind.unit, times = other.per / kind.per}
  end
  -- Its column beside the first: {unit, times, step}.
  function show.twin(unit)
    local found = show.in_table(unit)
    if not found then return nil end
    local twin = twins[unit]
    return {unit = twin.head or found.unit, times = found.times, step = twin.step}
  end
end

local made = {}

local function make(name)
  local data = require("netsection.locale." .. name)
  local show = {name = name, title = data.title, paper_size = data.paper,
    tape = data.tape,
    steps = data.steps, run = data.run, sums = data.sums,
    words = data.words or {}, scales = data.scales}
  add_kinds(show, data.kinds)
  if data.tape then add_tape(show) else add_metric_lengths(show, data.kinds.length) end
  add_of_unit(show, data.kinds)
  add_coherent(show, data.kinds)
  add_tables(show, data)
  show.temperature = temperature(data.temperature)
  -- The stock that a piece is cut from: "2x10 x 12 ft".
  -- @param any true: past the longest, the next one up
  function show.stock(length, section, any)
    for _, x in ipairs(data.stock.lengths) do
      if length <= x * data.stock.per + 1e-6 then
        return point.format(data.stock.form, section, x)
      end
    end
    local step = data.stock.step
    return any and point.format(data.stock.form, section,
      math.ceil(length / data.stock.per / step)
      * step) or ("%s, over %s"):format(section, data.stock.longest)
  end
  show.temperature_unit = data.temperature.unit
  return show
end

for _, name in ipairs(NAMES) do made[name] = make(name) end

local in_lang = {}

-- The same system for papers in the spelling of a country: show.lang.
local function spelled(show, lang)
  local key = show.name .. "/" .. lang
  if not in_lang[key] then
    local new = {}
    for name, value in pairs(show) do new[name] = value end
    new.lang = lang
    in_lang[key] = new
  end
  return in_lang[key]
end

--- The functions that print in a system of units.
-- @param name "us" (nil too) or "metric"
-- @param lang "en-US", "en-GB", "en-CA" or nil: the spelling of what is printed
-- @return the system, or nil and what was expected; a third value where it is the
--   language that is wrong
function quantity.system(name, lang)
  local show = made[name == nil and quantity.default or name]
  if show and lang == nil then return show end
  local problem = show and spelling.problem(lang)
  if problem then return nil, problem, "lang" end
  if show then return spelled(show, lang) end
  return nil, ('"%s" expected, got %s'):format(table.concat(NAMES, '" or "'),
    type(name) == "string" and units.quoted(name) or type(name))
end

local function show_of(t)
  return type(t) == "table" and rawget(t, "show") or nil
end

--- The system a review, a floor or its review, a joist or a model is printed in.
function quantity.of(subject)
  local own = show_of(subject)
  if own then return own end
  local floor = type(subject) == "table" and rawget(subject, "floor") or subject
  local found = show_of(floor)
  if found or type(floor) ~= "table" then return found or made[quantity.default] end
  local joist = rawget(floor, "joist")
  if type(joist) ~= "table" then
    joist = type(floor.joists) == "table" and floor.joists[1] or floor
  end
  return show_of(joist) or show_of(rawget(joist, "model")) or made[quantity.default]
end

return quantity
