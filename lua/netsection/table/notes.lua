-- SPDX-License-Identifier: MIT
-- What a table says about itself: on what its values rest, how they were rounded, what
-- letters and dashes mean, and whom to ask. Whoever reads a printed table sees nothing
-- else, so what is known is always said.
local packs = require "netsection.packs"
local text = require "netsection.text"
local units = require "netsection.units"

local notes = {}

local function add(list, form, ...)
  list[#list + 1] = select("#", ...) > 0 and form:format(...) or form
end

local WAY = {
  down = "rounded down to %s, as for what is allowed",
  up = "rounded up to %s, as for what is required",
  nearest = "rounded to the nearest %s",
}

local UNIT = {["ft-in"] = "feet and inches", ["in"] = "inches"}

local function measure_note(list, measure)
  local unit = UNIT[measure.unit] or measure.unit
  add(list, "Values%s, %s.", unit ~= "" and " in " .. unit or "",
    WAY[measure.way]:format(measure.step_text))
  local twin = measure.metric
  if twin then
    add(list, "Values in %s are the printed ones converted, %s.", twin.unit,
      WAY[measure.way]:format(("%s %s"):format(twin.show(twin.step), twin.unit)))
  end
end

local function letters_note(list, t, used)
  local names, said = {}, {}
  for letter in pairs(used.letters) do names[#names + 1] = letter end
  if #names == 0 then return end
  table.sort(names)
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
        used.dash = used.dash or not (cell.exact or cell.reason or cell.outside)
        used.reason = used.reason or cell.reason ~= nil
      end
    end
  end
  return used
end

---------------------------------------------------------------------------
-- From the joist
---------------------------------------------------------------------------

local function varies(t, ...)
  for _, name in ipairs {...} do
    for _, axis in ipairs {t.rows, t.columns, t.blocks} do
      for _, known in ipairs(axis.names) do
        if known == name then return true end
      end
    end
  end
  return false
end

-- The joist whose description the table rests on: with the values at which the other axes
-- of a sweep stand still, if that makes a joist.
local function joist_of(t)
  local changes, any = {}, false
  for name, value in pairs(t.at or {}) do
    if not name:find "^fix" then changes[name], any = value, true end
  end
  if not any then return t.joist end
  local ok, made = pcall(t.joist.changed, t.joist, changes)
  return ok and made or t.joist
end

-- What stands still in every cell of a sweep.
local function size_note(list, t, m)
  local value = t.given.sweep and t.given.value
  if not value then return end
  if not varies(t, "size", "b", "d") then
    add(list, "Size %s%s.", m.size or ("%s x %s in"):format(text.short(m.b),
      text.short(m.d)), m.plies > 1 and (", %g plies"):format(m.plies) or "")
  end
  if not (value:find "longest_span" or varies(t, "span", "spans", "spans.1", "spans.2"))
    and #m.span == 1 then
    add(list, "Span %s.", text.spans(m))
  end
end

local function load_note(list, t, m)
  local says = varies(t, "dead") and "as the table says"
    or text.short(m.dead) .. " psf"
  local live = varies(t, "live") and "as the table says" or text.short(m.live) .. " psf"
  local more = #m.lines + #m.points > 0 and ", and the joist's own line or point loads"
    or "; no line or point load, no load of walls"
  add(list, "Loads over the whole floor: dead %s (with the joist's own weight), live "
    .. "%s%s.", says, live, more)
end

local function spacing_note(list, t, m)
  if not varies(t, "spacing") then
    add(list, "Joists %s in apart.", text.short(m.spacing))
  end
end

local function span_note(list, m)
  local single = #m.span == 1 and m.overhang_left == 0 and m.overhang_right == 0
  add(list, "%s; lengths along the joist from the centres of bearings.",
    single and "Simple span on two bearings"
    or "Spans " .. text.spans(m))
end

local function limit_text(n, what)
  return n > 0 and ("%s load L/%g"):format(what, n) or what .. " load not checked"
end

local function deflection_note(list, t, m)
  if varies(t, "limits") then return end
  add(list, "Deflection: %s, %s; total = %s.", varies(t, "limits.live")
    and "live load as the table says" or limit_text(m.limit_live, "live"),
    varies(t, "limits.total") and "total load as the table says"
    or limit_text(m.limit_total, "total"), m.Kcr == 1 and "D + L"
    or ("%g D + L"):format(m.Kcr))
end

local function wood_note(list, t, joist)
  local m = joist.model
  if varies(t, "species", "grade", "material") then
    local edition = joist.description.edition or "us-nds-2018"
    add(list, "Design values by the species and grades named, edition %s.", edition)
  else
    add(list, "Design values: %s.", m.source)
  end
  add(list, "Moisture in service %s; temperature %g F%s.", m.moisture == "wet"
    and "over 19 % (wet)" or "19 % or less (dry)", m.temperature,
    m.incised == 1 and "; incised" or "")
end

local function repetitive_note(list, m)
  add(list, m.repetitive ~= 0 and ("Repetitive factor %g."):format(m.repetitive)
    or m.members >= 3 and "One of three or more joists under one deck (repetitive "
    .. "factor by rule)." or "No repetitive factor: fewer than three joists.")
end

local function code_note(list, t, joist)
  local standard = packs.standard(t.standard)
  local rules = packs.rules(t.rules, joist.model.bearing_on)
  add(list, "%s.", standard.data.title)
  add(list, "Rules on cuts and bearings: %s; the place may have adopted others.",
    rules.data.title)
  local said = {}
  for i, c in ipairs(standard.data.combinations) do
    said[i] = ("%s with CD %s"):format(c.name, c.CD % 1 == 0 and units.fixed(c.CD, 1)
      or text.short(c.CD))
  end
  add(list, "Load duration: %s; another duration needs another table.",
    table.concat(said, ", "))
end

--- Assumptions: those of the joist, then the caller's.
function notes.assumptions(t)
  local list = {}
  if t.joist then
    local joist = joist_of(t)
    local m = joist.model
    size_note(list, t, m)
    load_note(list, t, m)
    spacing_note(list, t, m)
    span_note(list, m)
    deflection_note(list, t, m)
    wood_note(list, t, joist)
    repetitive_note(list, m)
    code_note(list, t, joist)
  end
  for _, said in ipairs(t.given.assumptions or {}) do add(list, "%s", said) end
  return list
end

--- Footnotes: rounding, letters, dashes, the caller's, interpolation, whom to ask.
function notes.foot(t)
  local list, used = {}, used_in(t)
  measure_note(list, t.measure)
  letters_note(list, t, used)
  if used.dash then add(list, "%s", "\u{2014}: " .. t.dash .. ".") end
  if used.reason then
    add(list, "n/a: there is no value, for the reason in the note of the table.")
  end
  for _, said in ipairs(t.given.notes or {}) do add(list, "%s", said) end
  add(list, t.given.interpolate
    and "Values between may be interpolated in a straight line."
    or "Nothing is interpolated: between two values the more cautious one holds.")
  add(list, "Beyond this table, or where the joist differs from it, ask a person "
    .. "licensed where the building stands.")
  return list
end

return notes
