-- SPDX-License-Identifier: MIT
-- From a description, as an engineer writes it, to the model the core works on: numbers
-- in base units, one entry per field of the core's lists. Everything wrong is collected.
local core = require "netsection.core"
local fields = require "netsection.fields"
local historic = require "netsection.historic"
local lane = require "netsection.lane"
local lumber = require "netsection.lumber"
local own_duration = require "netsection.own_duration"
local ordered = require "netsection.point".pairs
local parts = require "netsection.parts"
local point = require "netsection.point"
local problems = require "netsection.problems"
local quantity = require "netsection.quantity"
local strength_class = require "netsection.strength_class"
local units = require "netsection.units"
local written = require "netsection.written"
local tostring = require "netsection.point".text

local model = {}

-- Fields of a joist's description.
model.fields = fields.joist_names

-- From the first bearing's center to the last one's, in.
function model.total(m)
  local total = 0
  for _, span in ipairs(m.span or {}) do total = total + span end
  return total
end

-- Places of all bearings' centers from the first.
function model.supports(m)
  local list, x = {0}, 0
  for i, span in ipairs(m.span) do
    x = x + span
    list[i + 1] = x
  end
  return list
end

local MANUFACTURED = {["I-joist"] = true, LVL = true, LSL = true, PSL = true,
  glulam = true, truss = true, CLT = true}

local range = {}
for _, f in ipairs(core.fields().joist) do range[f.name] = f end

-- The family of formulas of an edition; what is no name is a problem of its own field.
local function family_of(edition)
  return type(edition) == "string" and lumber.family(edition) or "nds"
end

-- A number of a message: six figures, never with an exponent where it is a whole one.
local function whole(x)
  if lane.is(x) then return lane.mark end
  local text = units.significant(x, 6)
  if not text:find(".", 1, true) or text:find "e" then return text end
  return (text:gsub("0+$", ""):gsub("%.$", ""))
end

-- What a number out of range may have been meant as.
local function likely(value, f)
  if f.unit == "in" and value * 12 >= f.low and value * 12 <= f.high and value >= 1 then
    return ("; if feet are meant write \"%s ft\""):format(whole(value))
  elseif f.unit == "in" and value / 25.4 >= f.low and value / 25.4 <= f.high then
    return ("; if millimeters are meant write \"%s mm\""):format(whole(value))
  elseif f.unit == "psf" and value / 47.88 <= f.high then
    return ("; if pascals are meant write \"%s kPa\""):format(whole(value / 1000))
  end
  return ""
end

-- "1000 mm is outside 51 to 610 mm": in the metric unit it was written in, else in the
-- base unit with what a bare number may have been meant as.
local function outside(value, f, given)
  local unit, per = written.unit(given)
  if not unit then
    return ("%s %s is outside %s to %s %s%s"):format(whole(value), f.unit, whole(f.low),
      whole(f.high), f.unit, likely(value, f))
  end
  -- A value in the unit in which it was entered, four figures.
  local function said(x)
    return point.format("%g", tonumber(units.significant(x / per, 4)))
  end
  return ("%s %s is outside %s to %s %s"):format(said(value), unit, said(f.low),
    said(f.high), unit)
end

-- Adds a problem unless low <= value <= high. @param given the field as it was written
local function in_range(found, part, name, value, f, given)
  if value >= f.low and value <= f.high then return value end
  if lane.is(value) then
    found:add(part, name, lane.mark)
    return nil
  elseif value ~= value or math.abs(value) == math.huge then
    found:add(part, name, ("a finite number expected, got %s"):format(tostring(value)))
    return nil
  end
  found:add(part, name, outside(value, f, given))
end

-- A length field, in; its range is that of row f of the core. nil where it is wrong.
local function length(found, part, name, value, f)
  local inches, problem = units.length(value)
  if not inches then
    found:add(part, name, problem)
  elseif f then
    return in_range(found, part, name, inches, f, value)
  end
  return inches
end

-- A number or a column of them from low to high; nil where it is not.
local function number(found, part, name, value, low, high)
  if not (lane.is(value) or type(value) == "number")
    or not (value >= low and value <= high) then
    found:add(part, name, ("a number from %s to %s expected, got %s"):format(whole(low),
      whole(high), tostring(value)))
    return nil
  end
  return value
end

-- The same for a whole number.
local function count(found, part, name, value, low, high)
  local n = number(found, part, name, value, low, high)
  if n and not lane.is(n) and n ~= math.floor(n) then
    found:add(part, name, ("a whole number expected, got %s"):format(tostring(value)))
    return nil
  end
  return n
end

-- One of a list of words; nil where it is none of them.
local function choice(found, part, name, value, words)
  for _, word in ipairs(words) do
    if value == word then return value end
  end
  found:add(part, name, ("one of %s expected, got %s"):format(table.concat(words, ", "),
    tostring(value)))
end

-- A load field: psf, plf or lb by its kind ("area", "line", "point").
local function load(found, part, name, value, kind)
  local v, problem = units.load(value, kind)
  if not v then
    found:add(part, name, problem)
  elseif v < 0 then
    found:add(part, name, "loads act downward and are not negative")
  else
    return v
  end
end

------------------------------------------------------------------------ section and wood

local PLIES = {n = true, fastener = true, spacing = true, rows = true}

-- A number, of plies that are not said to be fastened, or {n =, fastener =, spacing =,
-- rows =}: rows of fasteners across the depth at a spacing along the joist.
local function read_plies(t, m, found)
  local p = t.plies
  if type(p) ~= "table" then
    m.plies = count(found, nil, "plies", p or 1, 1, 8)
    return
  end
  for name in ordered(p) do
    if not PLIES[name] then
      found:add(nil, "plies." .. tostring(name), "unknown (takes n, fastener, spacing, "
        .. "rows)")
    end
  end
  m.plies = count(found, nil, "plies.n", p.n, 1, 8)
  local f = {rows = count(found, nil, "plies.rows", p.rows or 2, 1, 8)}
  if type(p.fastener) ~= "table" or not p.fastener.D then
    found:add(nil, "plies.fastener", "a fastener such as ns.fastener{...} expected")
  end
  f.fastener = p.fastener
  if p.spacing == nil then
    found:add(nil, "plies.spacing", "missing: along the joist, such as \"16 in\"")
  else
    f.spacing = length(found, nil, "plies.spacing", p.spacing, {low = 0.5, high = 96,
      unit = "in"})
  end
  if m.plies == 1 then found:add(nil, "plies.n", "2 or more expected: one is not "
    .. "fastened to itself") end
  m.fastened = f
end

-- Thickness and depth, by the trade size, as sawn, or as measured.
local function read_section(t, m, found)
  local size
  if t.size ~= nil then
    local problem = "text such as \"2x10\" expected, got " .. type(t.size)
    if type(t.size) == "string" then size, problem = lumber.size(t.size) end
    if not size then found:add(nil, "size", problem) end
    if t.b ~= nil or t.d ~= nil then
      found:add(nil, "size", "give a size, or b and d, not both")
    end
    m.b, m.d = size and size.b, size and size.d
  else
    for _, name in ipairs {"b", "d"} do
      if t[name] == nil then
        found:add(nil, name, "missing: give size = \"2x10\", or b and d as measured")
      else
        m[name] = length(found, nil, name, t[name], range[name])
      end
    end
  end
  read_plies(t, m, found)
  return size
end

local MATERIAL = {"Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin", "G", "CF", "CF_t",
  "CF_c", "source"}

-- From memory: Emin = 1.03 E (1 - 1.645 COV) / 1.66, COV 0.25 for
-- visually graded lumber. Used only where a material gives no Emin.
local function emin_of(E)
  return 1.03 * E * (1 - 1.645 * 0.25) / 1.66
end
local EMIN = {says = "Emin from E by %s", rule = "emin"}

--- A note of a model in print. One that rests on a rule is a table until it is known
-- which standard is in force. @param standard of packs.standard
function model.said(note, standard)
  if type(note) == "string" then return note end
  return note.says:format(standard.words:rule(note.rule))
end

-- Reference values given with the joist, psi; Emin from E where it is not given.
local function read_material(t, m, found, notes)
  if type(t.material) ~= "table" then
    found:add(nil, "material", "a table of reference values expected")
    return
  end
  local known = {}
  for _, name in ipairs(MATERIAL) do known[name] = true end
  for name, value in ordered(t.material) do
    if not known[name] then
      found:add(nil, "material." .. tostring(name), "unknown value (takes "
        .. table.concat(MATERIAL, ", ") .. ")")
    elseif name ~= "source" and range[name] then
      if type(value) ~= "number" then
        found:add(nil, "material." .. name, "a number of psi expected, got "
          .. tostring(value))
      else
        m[name] = in_range(found, nil, "material." .. name, value, range[name])
      end
    end
  end
  for _, name in ipairs {"Fb", "Fv", "E"} do
    if t.material[name] == nil then
      found:add(nil, "material." .. name, "missing")
    end
  end
  m.CF = m.CF or 1
  m.CF_t, m.CF_c = m.CF_t or m.CF, m.CF_c or 1
  if not m.Emin and m.E then
    m.Emin = emin_of(m.E)
    notes[#notes + 1] = EMIN
  end
  m.source = t.material.source or "values given with the joist"
end

-- Reference values by species, grade and size from a table on file.
local function read_lumber(t, m, size, found, notes)
  for _, name in ipairs {"species", "grade", "edition"} do
    if t[name] ~= nil and type(t[name]) ~= "string" then
      found:add(nil, name, "text expected, got " .. type(t[name]))
      return
    end
  end
  local values, problem = lumber.design_values {species = t.species, grade = t.grade,
    b = m.b, d = m.d, nominal_d = size and size.nominal_d, edition = t.edition}
  if not values then
    found:add(nil, "species", problem)
    return
  end
  for _, name in ipairs {"Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin", "CF", "CF_t",
    "CF_c"} do
    m[name] = values[name]
  end
  m.source = ("%s %s, %s"):format(values.species, values.grade, values.source)
  m.wood = values.species .. " " .. values.grade
  m.family = values.family ~= "nds" and values.family or nil
  m.lumber = {species = values.species, grade = values.grade}
  m.confidence = values.confidence
  if values.confidence ~= "read" then
    notes[#notes + 1] = ("design values of %s: confidence '%s'"):format(m.wood,
      values.confidence)
  end
  for _, note in ipairs(values.notes or {}) do notes[#notes + 1] = note end
end

-- What a joist of a strength class does not take, and what says it there.
local NOT_WITH_CLASS = {species = "the class says it", grade = "the class says it",
  edition = "the class says it", material = "the class says it",
  historic = "the class says it",
  moisture = "service_class says it", temperature = "not read with a class",
  incised = "not read with a class", creep = "k_def of the service class says it"}
local DURATION = {"permanent", "long", "medium", "short", "instantaneous"}
local CLASS_VALUES = {"Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin", "G_mean", "CF",
  "CF_t", "CF_c", "rho_k", "rho_mean", "source", "confidence", "family"}

-- "medium-term" and "medium" are one.
local function read_duration(t, m, found, notes)
  if t.duration == nil then
    m.duration = 3
    notes[#notes + 1] = "class of load duration not given: medium-term assumed"
    return
  end
  local said = type(t.duration) == "string" and t.duration:lower():gsub("[%s-]term$", "")
  for i, word in ipairs(DURATION) do
    if said == word then m.duration = i end
  end
  if not m.duration then
    choice(found, nil, "duration", t.duration, DURATION)
  end
end

-- A strength class with its service class and class of load duration.
local function read_class(t, m, found, notes)
  for name, why in ordered(NOT_WITH_CLASS) do
    if t[name] ~= nil then
      found:add(nil, name, ("not taken beside a class: %s"):format(why))
    end
  end
  if type(t.class) ~= "string" then
    found:add(nil, "class", 'text such as "C24" expected, got ' .. type(t.class))
    return
  end
  local values, problem = strength_class.of(t.class, lane.same(m.b or 1),
    lane.same(m.d or 1))
  if not values then
    found:add(nil, "class", problem)
    return
  end
  for _, name in ipairs(CLASS_VALUES) do m[name] = values[name] end
  m.class, m.wood = values.name, values.name
  m.source = ("%s, %s"):format(values.name, values.source)
  if t.service_class == nil then
    m.service = 1
    notes[#notes + 1] = "service class not given: 1 assumed (heated rooms)"
  else
    m.service = count(found, nil, "service_class", t.service_class, 1, 3)
  end
  read_duration(t, m, found, notes)
end

-- What was allowed when the house was built: by itself, with no factor of today's.
local function read_historic(t, m, found, notes)
  for _, name in ipairs {"material", "species", "grade", "edition"} do
    if t[name] ~= nil then
      found:add(nil, "historic", ("give historic or %s, not both"):format(name))
    end
  end
  local values, problem = historic.values(t.historic)
  if not values then
    found:add(nil, "historic", problem)
    return
  end
  for _, name in ipairs {"Fb", "Fv", "Fc_perp", "Fc", "E", "source", "wood",
    "confidence"} do
    m[name] = values[name]
  end
  m.CF, m.CF_t, m.CF_c, m.historic = 1, 1, 1, values.name
  m.Emin = emin_of(m.E)
  notes[#notes + 1] = EMIN
  for _, note in ipairs(values.notes) do notes[#notes + 1] = note end
end

-- Where the design values come from: class, historic, material, or species and grade.
local function read_wood(t, m, size, found, notes)
  for _, name in ipairs(t.class == nil and {"service_class", "duration"} or {}) do
    if t[name] ~= nil then
      found:add(nil, name, "read beside a strength class alone, such as class = \"C24\"")
    end
  end
  if t.class ~= nil then
    read_class(t, m, found, notes)
  elseif t.historic ~= nil then
    read_historic(t, m, found, notes)
  elseif t.material ~= nil then
    read_material(t, m, found, notes)
  elseif t.species ~= nil and t.grade ~= nil then
    if m.b and m.d then read_lumber(t, m, size, found, notes) end
  else
    m.missing = t.species == nil and "species" or "grade"
  end
end

------------------------------------------------------------------------------- geometry

-- One span or several, in, between the centers of bearings.
local function read_spans(t, m, found)
  local spans = t.spans
  if t.span ~= nil and spans ~= nil then
    found:add(nil, "span", "give span or spans, not both")
  elseif t.span == nil and spans == nil then
    found:add(nil, "span", "missing: the length from center to center of bearings, "
      .. "e.g. \"13-6\"")
    return
  end
  spans = spans or {t.span}
  if type(spans) ~= "table" or #spans < 1 or #spans > range.span.rows then
    found:add(nil, "spans", ("a list of 1 to %d lengths expected")
      :format(range.span.rows))
    return
  end
  m.span = {}
  for i, span in ipairs(spans) do
    local name = t.span ~= nil and "span" or ("spans[%d]"):format(i)
    m.span[i] = length(found, nil, name, span, range.span)
  end
end

-- Least bearing that the building code allows on wood, assumed where none is given.
local ASSUMED_BEARING = 1.5

-- Length of each bearing, in: one for all or a list; 3-1/2 in where none is given.
local function read_bearings(t, m, found, notes)
  local supports = m.span and #m.span + 1 or 2
  local given = t.bearing
  if given == nil then
    given = ASSUMED_BEARING
    notes[#notes + 1] = "bearing length not given: 1-1/2 in assumed"
  end
  if type(given) ~= "table" then
    local all = {}
    for i = 1, supports do all[i] = given end
    given = all
  end
  if #given ~= supports then
    found:add(nil, "bearing", ("one length, or one per support (%d), expected")
      :format(supports))
    return
  end
  m.bearing = {}
  for i, b in ipairs(given) do
    m.bearing[i] = length(found, nil, "bearing", b, range.bearing)
    if m.bearing[i] and m.bearing[i] > 0 and m.bearing[i] < 0.5 then
      local unit, per = written.unit(b)
      found:add(nil, "bearing", ("%s %s is under %s %s; 0 says that the end hangs free")
        :format(whole(m.bearing[i] / (per or 1)), unit or "in", whole(0.5 / (per or 1)),
          unit or "in"))
    end
  end
end

-- One spacing, or the distances to both neighbors, of which the mean is carried.
local function read_spacing(t, m, found)
  local given = t.spacing
  if given == nil then
    found:add(nil, "spacing", "missing: center to center, e.g. 16 or \"400 mm\"")
  elseif type(given) == "table" then
    if #given ~= 2 then
      found:add(nil, "spacing", "one length, or the two distances to the neighbors")
      return
    end
    local a = length(found, nil, "spacing", given[1], range.spacing)
    local b = length(found, nil, "spacing", given[2], range.spacing)
    m.spacing = a and b and (a + b) / 2
  else
    m.spacing = length(found, nil, "spacing", given, range.spacing)
  end
end

-- Places of blocking that holds the bottom edge, in from the left bearing.
local function read_blocking(t, m, found)
  m.blocking = {}
  if t.blocking == nil then return end
  if type(t.blocking) ~= "table" or #t.blocking > range.blocking.rows then
    found:add(nil, "blocking", ("a list of up to %d places expected")
      :format(range.blocking.rows))
    return
  end
  for i, x in ipairs(t.blocking) do
    m.blocking[i] = length(found, nil, "blocking", x, range.blocking)
  end
end

-- A field that is true or false; `otherwise` where it is not given.
local function flag(found, t, name, otherwise)
  if t[name] == nil then return otherwise end
  if type(t[name]) ~= "boolean" then
    found:add(nil, name, "true or false expected, got " .. tostring(t[name]))
  end
  return t[name]
end

-- Divisors of span for deflection; false: not checked.
local function read_limits(t, m, found)
  local limits = t.limits or {}
  if type(limits) ~= "table" then
    found:add(nil, "limits", "{live = 360, total = 240} expected")
    return
  end
  for name in ordered(limits) do
    if name ~= "live" and name ~= "total" then
      found:add(nil, "limits." .. tostring(name), "unknown (takes live, total)")
    end
  end
  -- 1: what the standard has, of a joist of a strength class.
  local of_class = t.class ~= nil and 1
  -- Where the code has a limit for live load alone, the other is the user's.
  local total = family_of(t.edition) == "csa" and 0 or 240
  for name, otherwise in pairs {live = 360, total = total} do
    local n = limits[name]
    local free = n == nil and of_class
    if n == nil then n = of_class or otherwise end
    m["limit_" .. name] = n == false and 0
      or (lane.is(n) or free or n == 0 and limits[name] == nil) and n -- or an axis
      or number(found, nil, "limits." .. name, n, 50, 2000)
  end
end

-- How a field of a kind is read: f(found, part, name, value, row of fields.lua, row of
-- the core) -> what the core takes, or nil and a problem in 'found'.
local read_kind = {}

-- Readers by the kind of a field's row: each gives base units, or nil and a problem.
function read_kind.length(found, part, name, value, _, core_row)
  return length(found, part, name, value, core_row)
end

-- A load on an area, psf, in the range of its row.
function read_kind.area(found, part, name, value, _, core_row)
  local v = load(found, part, name, value, "area")
  return v and in_range(found, part, name, v, core_row, value)
end

-- A number without a unit, in the range of its row.
function read_kind.number(found, part, name, value, _, core_row)
  return number(found, part, name, value, core_row.low, core_row.high)
end

-- A whole number in the range of its row.
function read_kind.count(found, part, name, value, _, core_row)
  return count(found, part, name, value, core_row.low, core_row.high)
end

-- 1 for true and 0 for false, as the core has it.
function read_kind.flag(found, part, name, value)
  if type(value) ~= "boolean" then
    found:add(part, name, "true or false expected, got " .. tostring(value))
  end
  return value == true and 1 or 0
end

-- One of the words of the row; what stands for it is put down by put_down.
function read_kind.word(found, part, name, value, row)
  return choice(found, part, name, value, row.words)
end

-- A value of a row of fields.lua, put down in 't' under the names that the core reads.
local function put_down(list, row, t, found, part, value)
  local core_row = fields.range(list, row.name)
  local v = read_kind[row.kind](found, part, row.name, value, row, core_row)
  if v == nil or row.checked_only then return end
  t[row.row or row.name] = v
  local into = row.into
  if into then t[into.row or row.name] = into[v] end
end

-- What each field says by itself; those that hang on others are read above and below.
local function read_plain(t, m, found)
  for _, row in ipairs(fields.joist) do
    local value = t[row.name]
    if value == nil then value = row.default end
    if row.kind == "special" then
      value = nil
    elseif value == nil and row.needed then
      found:add(nil, row.name, ("missing: a floor load such as %d or \"%d psf\"")
        :format(row.needed, row.needed))
    end
    if value ~= nil then put_down("joist", row, m, found, nil, value) end
  end
end

-- What the repetitive factor, moisture, heat and a raiser at notches rest on.
local function read_conditions(t, m, found)
  m.dead_off, m.repetitive = 0, 0
  if t.repetitive ~= nil then
    local other = t.class ~= nil and "1.0 (no k_sys)"
      or family_of(t.edition) == "csa" and "1.0 (no K_H)"
    if t.repetitive ~= 1 and (t.repetitive ~= 1.15 or other) then
      found:add(nil, "repetitive", ("%s expected, or nothing for the rule; got %s")
        :format(other or "1.0 or 1.15", tostring(t.repetitive)))
    else
      m.repetitive = t.repetitive
    end
  elseif m.historic then
    m.repetitive = 1
  end
end

----------------------------------------------------------------------------------- cuts

-- A problem for each of the fields that is missing.
local function required(found, part, t, names)
  for _, name in ipairs(names) do
    if t[name] == nil then found:add(part, name, "missing") end
  end
end

-- What each field of a cut says by itself, and what is missing.
local function read_fields(t, c, part, found)
  for _, row in ipairs(fields.of[t.kind]) do
    local value = t[row.name]
    if value == nil and row.needed[t.kind] then
      found:add(part, row.name, "missing")
    elseif value ~= nil and row.kind ~= "special" then
      put_down("cut", row, c, found, part, value)
    end
  end
end

-- How high an opening is: wood below it, above it, or in the middle of the depth.
local function place_of(found, part, t, c)
  if t.below ~= nil and t.above ~= nil then
    found:add(part, "below", "give below or above, not both")
  end
  c.place = t.below ~= nil and "below" or t.above ~= nil and "above" or "centred"
end

-- Top or bottom edge.
local function face_of(found, part, t, c)
  local face = choice(found, part, "face", t.face, {"top", "bottom"})
  c.top_face = face == "top"
end

-- What else a kind of cut says, after its fields: read_cut[kind](t, c, part, found, m).
local read_cut = {}

-- A round hole; one askew to the grain counts longer along the joist.
function read_cut.hole(t, c, part, found)
  place_of(found, part, t, c)
  if t.angle ~= nil then
    local angle = number(found, part, "angle", t.angle, 6, 90)
    c.stretch = angle and 1 / core.sin(math.rad(angle))
  end
end

-- A rectangular opening.
function read_cut.slot(t, c, part, found)
  place_of(found, part, t, c)
end

-- The reason for which a cut outside the standard is accepted, in words.
local function read_accepted(t, c, part, found)
  local reason = t.accept_outside_standard
  if reason ~= nil and (type(reason) ~= "string" or not reason:find "%S") then
    found:add(part, "accept_outside_standard", "the reason, in words, expected")
  end
  c.accept = reason ~= nil and 1 or 0
end

-- A notch away from the ends.
function read_cut.notch(t, c, part, found)
  if t.face ~= nil then face_of(found, part, t, c) end
  read_accepted(t, c, part, found)
end

-- A notch at a bearing, from the end of the joist; which seat counts.
function read_cut.end_notch(t, c, part, found, m)
  if t.face ~= nil then face_of(found, part, t, c) end
  if t.support ~= nil then
    local support = choice(found, part, "support", t.support, {"left", "right"})
    c.right_end = support == "right"
    if support and (m["overhang_" .. support] or 0) > 0 then
      found:add(part, "support", ("the joist runs on past its %s bearing: describe a "
        .. "notch there with ns.notch"):format(support))
    end
  end
  local bearings = m.bearing or {}
  c.length = c.length or bearings[c.right_end and #bearings or 1]
  read_accepted(t, c, part, found)
  local seat = t.seat ~= nil and choice(found, part, "seat", t.seat, {"notch", "beyond"})
  c.seat = seat == "notch" and 1 or seat == "beyond" and 2 or 0
  if seat and c.top_face then
    found:add(part, "seat", "a notch in the top does not touch the seat")
  end
end

-- A saw kerf is a cut through of no length: at =, or from = to. The core needs a gap
-- between two pieces; so little of one changes no number that is shown.
local KERF = 1e-3

-- Cut clean through: a gap, or a kerf at a place.
function read_cut.sever(t, c, part, found)
  if t.at == nil then
    required(found, part, t, {"from", "to"})
  elseif t.from ~= nil or t.to ~= nil then
    found:add(part, "at", "a kerf's place, or from and to of a gap, not both")
  else
    c.from, c.to, c.at = c.at, c.at, nil
  end
  if c.from and c.from == c.to then
    c.kerf, c.from, c.to = true, c.from - KERF / 2, c.to + KERF / 2
  end
end

-- Rot and insects reach further than the eye: 12 in each way.
local REACH = 12

-- An end with nothing left from its end to 'to', measured from the bearing's center, and
-- counted lost further in: the core's cut through, from the end of the wood.
function read_cut.lost_bearing(t, c, part, found, m)
  c.kind = "sever"
  c.lost = t.support ~= nil and choice(found, part, "support", t.support, {"left",
    "right"}) or "left"
  c.cause = choice(found, part, "cause", t.cause or "rot", {"other", "rot", "insects",
    "char"})
  c.extend = c.extend or (c.cause == "rot" or c.cause == "insects") and REACH or 0
  c.from_right = c.lost == "right"
  local bearings = m.bearing or {}
  local b = bearings[c.from_right and #bearings or 1] or 0
  c.from = -lane.max(m["overhang_" .. c.lost] or 0, b / 2)
  c.seen = c.to
  if c.to and c.to <= b / 2 then
    found:add(part, "to", ("the lost length past the face of the bearing, %s from its "
      .. "center, expected"):format(m.show.exact(b / 2)))
  end
  local L = #(m.span or {}) > 0 and m.span[c.from_right and #m.span or 1]
  if c.to and L and c.to + c.extend >= L then
    found:add(part, "to", "nothing is left of the end span: describe the joist as out")
  end
  c.to = c.to and c.to + c.extend
end

-- A cut in one ply as the core takes it, through so many plies: wood lost from the faces
-- of a ply is lost from those of each, 2 n (s + a) of the width n b.
function model.through(c, plies)
  if not c.ply_sides then return c end
  local out, more = {}, c.allowance or 0
  for name, value in pairs(c) do out[name] = value end
  out.sides = plies * (c.ply_sides + more) - more
  return out
end

-- Which ply the cut is in; nil: all of them.
local function read_ply(t, c, part, found, m)
  if t.ply == nil then return end
  if (m.plies or 1) < 2 then
    found:add(part, "ply", "the joist has one ply: give plies = 2, or leave it out")
    return
  end
  c.ply = count(found, part, "ply", t.ply, 1, m.plies)
  if not c.ply or not m.b or (c.sides or 0) <= 0 then return end
  local gone = c.sides + (c.allowance or 0)
  if 2 * gone >= m.b then
    found:add(part, "sides", ("leaves no wood of ply %d, %s thick"):format(c.ply,
      m.show.exact(m.b)))
  else
    c.ply_sides = c.sides
    c.sides = model.through(c, m.plies).sides
  end
end

-- A bottom loss up to this deep over a bearing can be cleaned off and packed (our
-- choice), in.
local SEAT_TOLERANCE = 0.25

-- Wood lost by depth from top, bottom and sides over a length, with its cause.
function read_cut.loss(t, c, part, found)
  if t.top == nil and t.bottom == nil and t.sides == nil then
    found:add(part, "bottom", "the depth lost from top, bottom or sides expected")
  end
  c.cause = choice(found, part, "cause", t.cause or "other",
    {"other", "rot", "insects", "char"})
  c.seat_tolerance = c.seat_tolerance or SEAT_TOLERANCE
  c.seat = t.seat ~= nil and read_kind.flag(found, part, "seat", t.seat) or 0
  c.packed = c.packed or 0
  if c.seat == 1 and c.cause ~= "char" then
    found:add(part, "seat", "read for cause = \"char\" alone: any other loss over a "
      .. "bearing takes the seat")
  end
  c.extend = c.extend or (c.cause == "rot" or c.cause == "insects") and REACH or 0
end

-- All cuts in the order they were entered, each named by its kind and number.
local function read_cuts(t, m, found)
  m.cuts = {}
  if t.cuts == nil then return end
  if type(t.cuts) ~= "table" then
    found:add(nil, "cuts", "a list of cuts expected")
    return
  end
  if #t.cuts > 8 then
    found:add(nil, "cuts", ("at most 8 cuts to a joist, got %d"):format(#t.cuts))
    return
  end
  for i, cut in ipairs(t.cuts) do
    local kind = type(cut) == "table" and cut.kind
    local part = {cut = i, name = ("cut %d (%s)"):format(i, tostring(kind))}
    if not parts.cut_kinds[kind] then
      found:add({cut = i, name = "cut " .. i}, nil,
        "a cut such as ns.hole{...} expected, got " .. tostring(kind or type(cut)))
    else
      local c = {kind = kind, name = kind:gsub("_", " ") .. " " .. i,
        from_right = cut.from_right == true}
      read_fields(cut, c, part, found)
      if read_cut[kind] then read_cut[kind](cut, c, part, found, m) end
      read_ply(cut, c, part, found, m)
      m.cuts[i] = c
    end
  end
end

---------------------------------------------------------------------------------- loads

-- from and to, turned about where they are measured from the right.
local function stretch_of(t, part, found, m)
  if t.from == nil and t.to == nil then return nil end
  required(found, part, t, {"from", "to"})
  local from = t.from ~= nil and length(found, part, "from", t.from)
  local to = t.to ~= nil and length(found, part, "to", t.to)
  if from and to and t.from_right then
    from, to = model.total(m) - to, model.total(m) - from
  end
  return from, to
end

-- The load case of a load; live where none is said.
local function case_of(t, part, found)
  return choice(found, part, "case", t.case or "live",
    {"dead", "live", "roof live", "snow"})
end

-- The load duration of a single live load, where it is another than that of its case.
local function duration_of(t, part, found)
  if t.CD == nil then return nil end
  if t.case ~= nil and t.case ~= "live" then
    found:add(part, "CD", 'goes with case = "live": dead load is permanent, roof live '
      .. "load and snow have the durations of their combinations")
    return nil
  end
  if lane.is(t.CD) then
    found:add(part, "CD", "one number expected, not one for each point")
    return nil
  end
  local CD = number(found, part, "CD", t.CD, 0.5, 2)
  return CD ~= 1 and CD or nil
end

local read_load = {}

-- A point load, lb at a place.
function read_load.point(t, part, m, found)
  required(found, part, t, {"at", "load"})
  local at = t.at ~= nil and length(found, part, "at", t.at)
  local P = t.load ~= nil and load(found, part, "load", t.load, "point")
  if at and t.from_right then at = model.total(m) - at end
  m.points[#m.points + 1] = {at = at or 0, P = P or 0, part = part,
    case = case_of(t, part, found), CD = duration_of(t, part, found)}
end

-- 'part' is the load as it was entered, for messages; a tub makes two lines.
local function add_line(m, part, t)
  t.part = part
  m.lines[#m.lines + 1] = t
end

-- A line load, plf; from end to end where no stretch is given.
function read_load.line(t, part, m, found)
  required(found, part, t, {"load"})
  local w1 = t.load ~= nil and load(found, part, "load", t.load, "line")
  local w2 = t.to_load ~= nil and load(found, part, "to_load", t.to_load, "line") or w1
  local from, to = stretch_of(t, part, found, m)
  if t.from_right then w1, w2 = w2, w1 end
  add_line(m, part, {w1 = w1 or 0, w2 = w2 or 0, from = from or 0, to = to or 0,
    whole = from == nil, case = case_of(t, part, found),
    CD = duration_of(t, part, found)})
end

-- An area load, psf, on its width or the spacing.
function read_load.area(t, part, m, found)
  required(found, part, t, {"load"})
  local w = t.load ~= nil and load(found, part, "load", t.load, "area")
  local from, to = stretch_of(t, part, found, m)
  local width = t.width ~= nil and length(found, part, "width", t.width) or 0
  add_line(m, part, {w1 = w or 0, w2 = w or 0, from = from or 0, to = to or 0,
    area = true, whole = from == nil, width = width or 0, case = case_of(t, part, found),
    CD = duration_of(t, part, found)})
end

local UNDER = {"larger", "add", "tub"}

-- A tub spreads its weight over its footprint, on the width that this joist carries. The
-- empty tub is dead (fixed service equipment). Live load is the most that the use makes
-- likely and not less than the floor's, so water and people take the floor's place where
-- they are more: under = "larger" adds max(0, q - live). under = "add" adds all of q.
-- under = "tub" is q alone. Less than the floor's it would lower live load that belongs
-- to the whole joist, which no load of a joist does: refused, with what to enter instead.
function read_load.tub(t, part, m, found)
  required(found, part, t, {"from", "to", "width", "empty"})
  local from, to = stretch_of(t, part, found, m)
  local width = t.width ~= nil and length(found, part, "width", t.width)
  local under = choice(found, part, "under", t.under or "larger", UNDER)
  -- A part of the tub's weight, lb; 0 where it is not given.
  local function weight(name)
    return t[name] ~= nil and load(found, part, name, t[name], "point") or 0
  end
  local empty, full = weight "empty", weight "water" + weight "people"
  if not (from and to and width and to > from and width > 0) then
    if from and to and width then
      found:add(part, "to", "'to' must be beyond 'from', and width above 0")
    end
    return
  end
  local area = (to - from) * width / 144
  local q = full / area
  if under == "tub" and m.live and q < m.live - 1e-9 then
    found:add(part, "under", ('"tub" with water and people of %s on its footprint, less '
      .. "than the floor's %s: enter live = 0 and the floor's live load as area loads "
      .. "beside the tub, on the width beside it too where it is narrower than the "
      .. "spacing"):format(m.show.area_load(q, 1), m.show.area_load(m.live, 1)))
    return
  end
  local live = under == "add" and q or math.max(0, q - (m.live or 0))
  m.tubs[#m.tubs + 1] = {q = q, under = under, live = live}
  for i, psf in ipairs {empty / area, live} do
    if psf > 0 then
      add_line(m, part, {w1 = psf, w2 = psf, from = from, to = to, area = true,
        width = width, case = i == 1 and "dead" or "live"})
    end
  end
end

-- Lines and points beside the floor's loads, with their own load durations.
local function read_loads(t, m, found)
  m.lines, m.points, m.tubs = {}, {}, {}
  if t.loads == nil then return end
  if type(t.loads) ~= "table" then
    found:add(nil, "loads", "a list of loads expected")
    return
  end
  for i, item in ipairs(t.loads) do
    local kind = type(item) == "table" and item.kind
    local part = {load = i, name = ("load %d (%s)"):format(i, tostring(kind))}
    if not parts.load_kinds[kind] then
      found:add({load = i, name = "load " .. i}, nil,
        "a load such as ns.point{...} expected, got " .. tostring(kind or type(item)))
    else
      read_load[kind](item, part, m, found)
    end
  end
  m.durations = own_duration.number(m)
  if #m.durations > own_duration.most then
    found:add(nil, "loads", ("CD: at most %d different ones expected, got %s"):format(
      own_duration.most, own_duration.key(m)))
  end
  if #m.lines > 8 then found:add(nil, "loads", "at most 8 line and area loads") end
  if #m.points > 16 then found:add(nil, "loads", "at most 16 point loads") end
end

------------------------------------------------------------------------------- the whole

-- What the engineer judges, beside the computed action and never in its place.
local ACTIONS = {"leave", "justify", "decide", "repair", "refer"}

-- What the engineer decides, by whom and why; kept beside the computed action.
local function read_judgment(t, m, found)
  local j = t.judgment
  if j == nil then return end
  if type(j) ~= "table" then
    found:add(nil, "judgment", "{action =, by =, reason =} expected")
    return
  end
  local known = {action = true, by = true, reason = true}
  for name in ordered(j) do
    if not known[name] then
      found:add(nil, "judgment." .. tostring(name), "unknown (takes action, by, reason)")
    end
  end
  choice(found, nil, "judgment.action", j.action, ACTIONS)
  for _, name in ipairs {"by", "reason"} do
    if type(j[name]) ~= "string" or not j[name]:find "%S" then
      found:add(nil, "judgment." .. name, "words expected")
    end
  end
  m.judgment = {action = j.action, by = j.by, reason = j.reason}
end

-- Shores: the construction live load is the user's, as no code value is taken for it.
local SHORES = {construction_live = true, at = true, beside = true, capacity = true}

-- Temporary shores: construction live load, their places.
local function read_shores(t, m, found)
  local s = t.shores
  if s == nil then return end
  if type(s) ~= "table" then
    found:add(nil, "shores", "{construction_live =, at = {left, right}, beside =, "
      .. "capacity =} expected")
    return
  end
  for name in ordered(s) do
    if not SHORES[name] then
      found:add(nil, "shores." .. tostring(name),
        "unknown (takes construction_live, at, beside, capacity)")
    end
  end
  m.shores = {}
  if s.construction_live ~= nil then
    local w = load(found, nil, "shores.construction_live", s.construction_live, "area")
    m.shores.live = w and in_range(found, nil, "shores.construction_live", w, range.live)
  end
  if s.beside ~= nil then
    local n = model.readers.whole(found, nil, "shores.beside", s.beside, 0, 20)
    m.shores.beside = n and math.tointeger(n)
  end
  if s.capacity ~= nil then
    local P = load(found, nil, "shores.capacity", s.capacity, "point")
    m.shores.capacity = P and in_range(found, nil, "shores.capacity", P,
      {low = 1, high = 1e6, unit = "lb"})
  end
  if s.at ~= nil then
    if type(s.at) ~= "table" or #s.at ~= 2 then
      found:add(nil, "shores.at", "two places of shores, left and right, expected")
      return
    end
    local a = length(found, nil, "shores.at", s.at[1])
    local b = length(found, nil, "shores.at", s.at[2])
    if a and b and a >= b then
      found:add(nil, "shores.at", "the second shore beyond the first expected")
    end
    m.shores.at = a and b and {a, b}
  end
end

-- Sawn lumber, or a manufactured member, which is referred.
local function read_member(t, m, found)
  m.member = t.member or "sawn"
  if m.member ~= "sawn" and not MANUFACTURED[m.member] then
    found:add(nil, "member", "one of sawn, I-joist, LVL, LSL, PSL, glulam, truss, CLT "
      .. "expected, got " .. tostring(m.member))
  end
  m.manufactured = MANUFACTURED[m.member] or false
end

-- The system of units in which all that is said of the joist is printed.
local function read_units(t, m, found)
  local metric = t.class ~= nil or family_of(t.edition) == "csa"
  local show, problem, field = quantity.system(t.units or metric and "metric" or nil,
    t.lang)
  if not show then found:add(nil, field or "units", problem) end
  m.show = show or quantity.system()
  if lane.working then m.show = lane.showing(m.show) end
end

-- @param t description with only known fields
-- @return model, problems (a list, empty where all is well)
function model.of(t)
  local mark = t.mark
  if mark ~= nil and (type(mark) ~= "string" or mark == "") then mark = tostring(mark) end
  local found, notes, m = problems.new(mark or "(no mark)"), {}, {mark = mark or "joist"}
  if t.mark ~= nil and type(t.mark) ~= "string" then
    found:add(nil, "mark", "a string expected, got " .. type(t.mark))
  end
  read_units(t, m, found)
  read_member(t, m, found)
  local size = read_section(t, m, found)
  if not m.manufactured then read_wood(t, m, size, found, notes) end
  read_plain(t, m, found)
  read_spans(t, m, found)
  read_spacing(t, m, found)
  read_bearings(t, m, found, notes)
  read_conditions(t, m, found)
  read_limits(t, m, found)
  read_blocking(t, m, found)
  read_cuts(t, m, found)
  read_loads(t, m, found)
  read_judgment(t, m, found)
  read_shores(t, m, found)
  m.notes = notes
  m.size = size and (size.full_sawn and t.size or size.nominal)
  return m, found
end

-- For the readers of repairs, which take values of the same forms.
model.outside = outside

model.readers = {length = length, number = number, choice = choice, load = load,
  flag = flag, whole = function(found, part, name, value, low, high)
    local n = number(found, part, name, lane.same(value), low, high)
    if n and n % 1 ~= 0 then
      found:add(part, name, ("a whole number expected, got %s"):format(tostring(n)))
      return nil
    end
    return n
  end,
  between = function(found, part, name, value, low, high)
    local x = length(found, part, name, value)
    if x and not (x >= low and x <= high) then
      found:add(part, name, outside(x, {unit = "in", low = low, high = high}, value))
      return nil
    end
    return x
  end}

return model
