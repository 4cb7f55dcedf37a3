-- SPDX-License-Identifier: MIT
-- What a table says about itself: on what its values rest, how they were rounded, what
-- letters and dashes mean, and whom to ask. Whoever reads a printed table sees nothing
-- else, so what is known is always said.
local basis = require "netsection.basis"
local checks = require "netsection.checks"
local classes = require "netsection.table.classes"
local core = require "netsection.core"
local lumber = require "netsection.lumber"
local packs = require "netsection.packs"
local point = require "netsection.point"
local roof_loads = require "netsection.roof_loads"
local text = require "netsection.text"
local units = require "netsection.units"
local tostring = require "netsection.point".text

local notes = {}

-- A note, filled in where there is something to fill in.
local function add(list, form, ...)
  list[#list + 1] = select("#", ...) > 0 and point.format(form, ...) or form
end

local WAY = {
  down = "rounded down to %s, as for what is allowed",
  up = "rounded up to %s, as for what is required",
  nearest = "rounded to the nearest %s",
}

-- Unit and rounding of the values.
local function measure_note(list, measure, show)
  local unit = show.words[measure.unit] or measure.unit
  add(list, "Values%s, %s.", unit ~= "" and " in " .. unit or "",
    point.format(WAY[measure.way], measure.step_text))
  local twin = measure.metric
  if twin then
    add(list, "Values in %s are the printed ones converted, %s.", twin.unit,
      point.format(WAY[measure.way], ("%s %s"):format(twin.show(twin.step), twin.unit)))
  end
end

-- What the letters beside values stand for.
local function letters_note(list, t, used)
  local names, said = {}, {}
  for letter in pairs(used.letters) do names[#names + 1] = letter end
  if #names == 0 then return end
  table.sort(names, point.less)
  for i, letter in ipairs(names) do
    said[i] = letter .. " " .. t.letters[letter]
  end
  add(list, "%s", "Letters name what governs: " .. table.concat(said, ", ") .. ".")
end

-- Letters, dashes and reasons that occur.
local function used_in(t)
  local used = {letters = {}}
  for _, block in ipairs(t.cells) do
    for _, row in ipairs(block) do
      for _, cell in ipairs(row) do
        if cell.letter then used.letters[cell.letter] = true end
        used.dash = used.dash or not (cell.exact or cell.words or cell.reason
          or cell.outside)
        used.reason = used.reason or cell.reason ~= nil
      end
    end
  end
  return used
end

---------------------------------------------------------------------------
-- From the joists of the cells
---------------------------------------------------------------------------

-- The joists on which the table rests: those that the cells handed back or that the
-- sweep made, else the one that was given.
local function joists_of(t)
  local list, seen = {}, {}
  for _, block in ipairs(t.cells) do
    for _, row in ipairs(block) do
      for _, cell in ipairs(row) do
        local j = cell.joist
        if j and not seen[j] then list[#list + 1], seen[j] = j, true end
      end
    end
  end
  if #list == 0 then list[1] = t.joist end
  return list
end

-- Whether an axis of the table has one of these names: cells that hand back no joist may
-- vary by it.
local function named(t, names)
  for _, axis in ipairs {t.rows, t.columns, t.blocks} do
    for _, known in ipairs(axis.names) do
      for _, name in ipairs(names) do
        if known == name then return true end
      end
    end
  end
  return false
end

-- What joists say, as one text; `other` where they differ, or where an axis by one of
-- these names stands over cells that hand back no joist.
local function agreed(t, joists, names, other, say)
  local first = say(joists[1].model, joists[1], t.show)
  for i = 2, #joists do
    if say(joists[i].model, joists[i], t.show) ~= first then return other end
  end
  if joists[1] == t.joist and #joists == 1 and named(t, names) then return other end
  return first
end

-- Different texts in the order they come, at most so many.
local function each_of(joists, say, most)
  local list, seen = {}, {}
  for _, j in ipairs(joists) do
    local said = say(j.model, j)
    if said and not seen[said] then list[#list + 1], seen[said] = said, true end
  end
  if #list > most then
    return ("%s and %d more"):format(table.concat(list, "; ", 1, most), #list - most)
  end
  return table.concat(list, "; ")
end

local VARIES, AS_SAID = "varies from cell to cell", "as the table says, which varies"

-- Size of a joist and its plies.
local function size_text(m, _, show)
  return (m.size or ("%s x %s"):format(show.figures("length", m.b),
    show.figures_of("length", m.d)))
    .. (m.plies > 1 and point.format(", %g plies", m.plies) or "")
end

-- How many plies.
local function plies_text(m)
  return m.plies > 1 and point.format("%g plies", m.plies) or "one ply"
end

-- Spans with overhangs.
local function spans_text(m, _, show)
  local over = m.overhang_left > 0 or m.overhang_right > 0
  return text.spans(m, show) .. (over and (", overhangs %s and %s"):format(
    show.place(m.overhang_left), show.place(m.overhang_right)) or "")
end

-- Whether a joist of the table has a cut.
local function any_cut(joists)
  for _, j in ipairs(joists) do
    if #j.model.cuts > 0 then return true end
  end
end

-- What stands still in every cell of a sweep, or of cells that hand back their joists.
local function size_note(list, t, joists)
  local value = t.given.sweep and t.given.value
  if not value and joists[1] == t.joist then return end
  local size = agreed(t, joists, {"size", "b", "d"}, VARIES, size_text)
  add(list, "Size %s.", size)
  if size == VARIES then
    add(list, "Plies: %s.", agreed(t, joists, {"plies"}, "vary from cell to cell",
      plies_text))
  end
  if not (value and value:find "longest_span") then
    add(list, "Span %s.", agreed(t, joists, {"span", "spans", "spans.1", "spans.2"},
      VARIES, spans_text))
  elseif any_cut(joists) then
    add(list, "Longest span: the end of the first stretch of spans that pass with the "
      .. "cuts where they are; the longer ones that pass again are noted at the value.")
  end
end

-- A field in psf as text.
local function area_load(field)
  return function(m, _, show) return show.figures_of("area_load", m[field]) end
end

-- Line and point loads in one text, so that those of two joists can be told apart.
local function loads_text(m)
  local said = {}
  for _, load in ipairs(m.lines) do
    said[#said + 1] = ("%s %s %s %s %s %s %s"):format(load.w1, load.w2, load.from,
      load.to, roof_loads.case(load), load.area, load.width)
  end
  for _, load in ipairs(m.points) do
    said[#said + 1] = ("%s %s %s"):format(load.P, load.at, roof_loads.case(load))
  end
  return table.concat(said, ";")
end

-- Whether no joist of the cells has a load of the roof or snow on its floor.
local function none_of(joists, field)
  for _, j in ipairs(joists) do
    if (j.model[field] or 0) > 0 then return false end
  end
  return true
end

-- Loads that all cells share, or that they vary.
local function load_note(list, t, joists)
  local own = agreed(t, joists, {"loads"}, VARIES, loads_text)
  local more = own == VARIES and "; line or point loads of the joists vary from cell to "
    .. "cell" or own ~= "" and ", and the joist's own line or point loads"
    or "; no line or point load, no load of walls"
  add(list, "Loads over the whole floor: dead %s (with the joist's own weight), live "
    .. "%s%s.", agreed(t, joists, {"dead"}, AS_SAID, area_load "dead"),
    agreed(t, joists, {"live"}, AS_SAID, area_load "live"), more)
  for _, of in ipairs {{"roof_live", "Roof live load"}, {"snow", "Snow load"}} do
    local said = agreed(t, joists, {of[1]}, AS_SAID, area_load(of[1]))
    local none = none_of(joists, of[1])
    if not none then add(list, "%s, carried by the joist as well: %s.", of[2], said) end
  end
end

-- Spacing that all cells share.
local function spacing_note(list, t, joists)
  local said = agreed(t, joists, {"spacing"}, VARIES, function(m, _, show)
    return show.figures_of("length", m.spacing) .. " apart"
  end)
  add(list, said == VARIES and "The spacing of the joists %s." or "Joists %s.", said)
end

-- Whether spans are single, and what continuous ones would change.
local function span_note(list, t, joists)
  local single = agreed(t, joists, {"spans", "overhang_left", "overhang_right"}, VARIES,
    function(m, _, show)
      return #m.span == 1 and m.overhang_left == 0 and m.overhang_right == 0
        and "Simple span on two bearings" or "Spans " .. text.spans(m, show)
    end)
  add(list, "%s; lengths along the joist from the centers of bearings.",
    single == VARIES and "Spans vary from cell to cell" or single)
end

-- "live load L/360", or that it is not checked.
local function limit_text(n, what)
  return n > 0 and point.format("%s load L/%g", what, n) or what .. " load not checked"
end

-- Limits of deflection; of strength classes those of their standard.
local function deflection_note(list, t, all)
  local classed, joists = classes.of(all)
  if #classed > 0 then add(list, "%s", classes.deflection(t, classed, agreed)) end
  if #joists == 0 then return end
  -- A limit that all cells share, or that the table says it.
  local function limit(what)
    return agreed(t, joists, {"limits." .. what}, what
      .. " load as the table says, which varies", function(m)
        return limit_text(m["limit_" .. what], what)
      end)
  end
  add(list, "Deflection: %s, %s; total = %s.", limit "live", limit "total",
    agreed(t, joists, {"creep"}, "Kcr D + L, Kcr varies from cell to cell", function(m)
      return m.Kcr == 1 and "D + L" or point.format("%g D + L", m.Kcr)
    end))
end

-- Where design values come from.
local function source_text(m)
  local from = m.source or "none (" .. (m.missing or m.member) .. ")"
  return from .. (m.confidence == "memory" and " (values from memory)" or "")
end

-- The wood whose values are from memory, or nil.
local function from_memory(m)
  return m.confidence == "memory" and (m.wood or m.source) or nil
end

local MOST = 6     -- different materials that are named

-- Species, grade and size factor of different sizes have one source.
local function wood_note(list, t, joists)
  if joists[1] == t.joist and named(t, {"species", "grade", "material"}) then
    add(list, "Design values by the species and grades named, edition %s.",
      joists[1].description.edition or lumber.editions()[1])
  else
    add(list, "Design values: %s.", each_of(joists, source_text, MOST))
  end
  local memory = each_of(joists, from_memory, MOST)
  if memory ~= "" then
    add(list, "From memory, not yet read against the printed standard (confidence "
      .. "'memory'): design values of %s.", memory)
  end
  -- a strength class has a service class, which stands with the load duration
  local _, others = classes.of(joists)
  if #others == 0 then return end
  add(list, "%s.", agreed(t, others, {"moisture", "temperature", "incised"},
    "Moisture, temperature or incising varies from cell to cell",
    function(m, _, show)
      return ("Moisture in service %s; temperature %s%s"):format(m.moisture == "wet"
        and "over 19 % (wet)" or "19 % or less (dry)", show.temperature(m.temperature),
          m.incised == 1
        and "; incised" or "")
    end))
end

-- What the standards of the joists call it.
local function repetitive_name(m)
  return m.class and "k_sys" or m.family == "csa" and "K_H" or "repetitive factor"
end

-- Which repetitive factor the cells have.
local function repetitive_note(list, t, joists)
  local name = each_of(joists, repetitive_name, MOST):gsub("; ", ", ")
  add(list, "%s.", agreed(t, joists, {"repetitive", "members"},
    "The repetitive factor varies from cell to cell", function(m)
      return m.repetitive ~= 0 and point.format("Repetitive factor %g", m.repetitive)
        or m.members >= 3 and ("One of three or more joists under one deck (%s by rule)")
        :format(name) or "No repetitive factor: fewer than three joists"
    end))
end

-- A switch that is off its default raises or lowers every value of the table.
local function switches_note(list, t, joists)
  local said = agreed(t, joists, {"notch_raiser", "sheathed"}, VARIES, function(m)
    local on = {}
    if m.notch_raiser ~= 1 then
      on[1] = point.format("stress at tension-face notches times %g", m.notch_raiser)
    end
    if m.sheathed == 0 then on[#on + 1] = "no deck on the joist" end
    return table.concat(on, "; ")
  end)
  if said == VARIES then said = "deck or notch factor vary from cell to cell" end
  if said ~= "" then add(list, "Switches: %s.", said) end
end

-- Cuts as they were described, so that two joists can be told apart.
local function cuts_text(_, joist, show)
  local said = {}
  for i, cut in ipairs(joist.description.cuts or {}) do
    local fields = {}
    for name, value in pairs(cut) do
      if name ~= "kind" and name ~= "note" then
        fields[#fields + 1] = name .. " " .. (type(value) ~= "number" and tostring(value)
          or (show.tape or name == "taper") and text.short(value)
          or show.section(value))
      end
    end
    table.sort(fields, point.less)
    said[i] = ("%s (%s)"):format(cut.kind:gsub("_", " "), table.concat(fields, ", "))
  end
  return table.concat(said, "; ")
end

-- Cuts that all cells share.
local function cuts_note(list, t, joists)
  local said = agreed(t, joists, {"cuts"}, VARIES, cuts_text)
  if said == VARIES then
    add(list, "Cuts vary from cell to cell.")
  elseif said ~= "" then
    add(list, "Cuts: %s.", said)
  end
end

-- The repair that all cells share.
local function repair_note(list, t, joists)
  local said = agreed(t, joists, {"fix"}, VARIES, function(_, joist)
    return joist.repair and (joist.repair.kind:gsub("_", " ")) or ""
  end)
  if said == VARIES then
    add(list, "Repairs vary from cell to cell.")
  elseif said ~= "" then
    add(list, "Repaired: %s.", said)
  end
end

-- How far a pack was confirmed, where it is not read.
local function pack_note(list, what, pack)
  if pack.confidence and pack.confidence ~= "read" then
    add(list, "%s '%s': confidence '%s'.", what, pack.name, pack.confidence)
  end
end

-- The first joist of a strength class, or of none, as the standard's cells have it.
local function joist_under(standard, joists)
  local class = standard.data.family == "ec5"
  for _, j in ipairs(joists) do
    if (j.model.class ~= nil) == class then return j end
  end
  return joists[1]
end

-- @param several true where the table has more standards than one
local function duration_note(list, standard, m, several)
  local said = {}
  for i, c in ipairs(m.class and {} or roof_loads.combinations(m, standard)) do
    local number = c.CD and (c.CD % 1 == 0 and units.fixed(c.CD, 1) or text.short(c.CD))
    said[i] = c.checks == "deflection" and c.name .. " for deflection"
      or ("%s with %s %s"):format(c.name, standard.data.duration, number)
  end
  local durations = m.class and ("service class %d, class %d of load duration (1 "
    .. "permanent, 5 instantaneous)"):format(m.service, m.duration)
    or table.concat(said, ", ")
  add(list, "Load duration%s: %s; another duration needs another table.", several
    and ", " .. standard.data.name or "", durations)
end

-- Standards and rules of the table.
local function code_note(list, t, joists)
  local standards = classes.standards(t)
  local rules = packs.rules(t.rules, joists[1].model.bearing_on)
  for _, standard in ipairs(standards) do add(list, "%s.", standard.data.title) end
  add(list, "Rules on cuts and bearings: %s; the place may have adopted others.",
    rules.data.title)
  for _, pack in ipairs(rules.list or {}) do pack_note(list, "Rules", pack) end
  for _, standard in ipairs(standards) do
    if standard.spec then pack_note(list, "Standard", standard.spec) end
  end
  for _, standard in ipairs(standards) do
    duration_note(list, standard, joist_under(standard, joists).model, #standards > 1)
  end
end

-- Cuts by which a joist has checks of a kind.
local AT = {["notch-shear"] = {notch = true, end_notch = true, sever = true}}
local OPENING = {hole = true, slot = true}

-- Kinds of cuts among the joists; nil where cells handed back none and may have any.
local function kinds_of(t, joists)
  if joists[1] == t.joist and not t.given.sweep then return nil end
  local kinds = {}
  for _, j in ipairs(joists) do
    for _, cut in ipairs(j.model.cuts) do kinds[cut.kind] = true end
  end
  return kinds
end

-- Whether joists with these kinds of cuts can have a check.
local function can_have(row, kinds)
  local needs = AT[row.mode] or row.by == "chords" and OPENING
  if not needs or not kinds then return true end
  for kind in pairs(kinds) do
    if needs[kind] then return true end
  end
  return false
end

-- What the checks behind the letters of a table rest on, where it is from memory; of a
-- table without letters what all of its checks do.
local function memory_note(list, t, joists)
  local said, seen, letters = {}, {}, used_in(t).letters
  -- Adds the facts that rest on memory, each once.
  local function add_facts(facts)
    for _, text_ in ipairs(basis.from_memory(facts)) do
      if not seen[text_] then said[#said + 1], seen[text_] = text_, true end
    end
  end
  local kinds = kinds_of(t, joists)
  for _, standard in ipairs(classes.standards(t)) do
    local m = joist_under(standard, joists).model
    for _, c in ipairs(roof_loads.combinations(m, standard)) do
      add_facts {basis.of_combination(c)}
    end
    for _, row in ipairs(checks.list) do
      if letters[row.letter] and row.unrepaired and can_have(row, kinds) then
        for branch = 1, standard.words:branches(row.mode) do
          add_facts(standard.words:basis(row.mode, branch))
        end
      end
    end
  end
  if #said > 0 then
    add(list, "Where they govern, these rest on memory, to be confirmed in the document "
      .. "before use: %s.", table.concat(said, "; "))
  end
end

--- Assumptions: those of the joists of the cells, then the caller's.
function notes.assumptions(t)
  local list, joists = {}, joists_of(t)
  if joists[1] then
    for _, note in ipairs {size_note, load_note, spacing_note, span_note, deflection_note,
      wood_note, repetitive_note, switches_note, cuts_note, repair_note} do
      note(list, t, joists)
    end
    code_note(list, t, joists)
    memory_note(list, t, joists)
  end
  for _, said in ipairs(t.given.assumptions or {}) do add(list, "%s", said) end
  return list
end

--- Version of the module and editions that the values rest on, in one line.
function notes.version(t)
  local names = {}
  for i, standard in ipairs(classes.standards(t)) do names[i] = standard.data.name end
  return ("netsection %s; rules %s, standard%s %s"):format(core.version,
    packs.rules(t.rules, "wood").data.name, #names > 1 and "s" or "",
    table.concat(names, ", "))
end

--- Footnotes: rounding, letters, dashes, the caller's, interpolation, whom to ask.
function notes.foot(t)
  local list, used = {}, used_in(t)
  measure_note(list, t.measure, t.show)
  letters_note(list, t, used)
  if used.dash then add(list, "%s", "\u{2014}: " .. t.dash .. ".") end
  if used.reason then
    add(list, "n/a: there is no value, for the reason in the note of the table.")
  end
  for _, said in ipairs(t.given.notes or {}) do add(list, "%s", said) end
  add(list, t.given.interpolate
    and "Values between may be interpolated in a straight line."
    or "Nothing is interpolated: between two values the more cautious one holds.")
  add(list, "%s.", notes.version(t))
  add(list, "Beyond this table, or where the joist differs from it, ask a person "
    .. "licensed where the building stands.")
  return list
end

return notes
