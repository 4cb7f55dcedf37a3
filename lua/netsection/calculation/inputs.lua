-- SPDX-License-Identifier: MIT
-- The part of a calculation sheet that says what went in: each field as it was entered
-- and as it was understood, the cuts, the loads and what they come to.
local parts = require "netsection.parts"
local point = require "netsection.point"
local roof_loads = require "netsection.roof_loads"
local text = require "netsection.text"
local units = require "netsection.units"
local tostring = require "netsection.point".text

local inputs = {}

---------------------------------------------------------------------------
-- As entered
---------------------------------------------------------------------------

local entered

local MATERIAL = {"Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin", "G", "CF", "CF_t",
  "CF_c", "source", "live", "total"}

-- A list as it was entered.
local function list_text(t)
  local out = {}
  for i, v in ipairs(t) do out[i] = entered(v) end
  return table.concat(out, ", ")
end

-- Fields with their names as they were entered.
local function named_text(t, names)
  local out = {}
  for _, name in ipairs(names) do
    if t[name] ~= nil then out[#out + 1] = name .. " " .. entered(t[name]) end
  end
  return table.concat(out, ", ")
end

-- A number as it was entered.
local function number_text(v)
  return math.type(v) == "integer" and ("%d"):format(v) or point.format("%.10g", v)
end

-- A value as the description holds it.
entered = function(v)
  if v == nil then return "" end
  if math.type(v) then return number_text(v) end
  if type(v) ~= "table" then return tostring(v) end
  return #v > 0 and list_text(v) or named_text(v, MATERIAL)
end

inputs.entered = entered

-- A cut or load in the order in which its fields are named.
function inputs.part(t)
  local names = {}
  for _, name in ipairs(parts.fields[t.kind]) do
    if name ~= "note" then names[#names + 1] = name end
  end
  return named_text(t, names)
end

---------------------------------------------------------------------------
-- Fields
---------------------------------------------------------------------------

-- What a length is in trade notation where numbers are decimal inches.
local function on_tape(show, what, x)
  return show.tape and show[what](x) or nil
end

-- Rows {what, fields of the description, {path, shown, unit, in trade notation}...}.
local function geometry(m)
  local show, rows = m.show, {}
  -- Adds a row: what, the fields it comes from, its number, notation.
  local function row(what, names, path, x, notation)
    rows[#rows + 1] = {what, names, {path, show.figures("length", x), show.unit.length,
      on_tape(show, notation, x)}}
  end
  row("Thickness of a ply", {"size", "b"}, "b", m.b, "size")
  row("Depth", {"size", "d"}, "d", m.d, "size")
  rows[3] = {"Plies", {"plies"}, {"plies", text.short(m.plies), ""}}
  for i, span in ipairs(m.span) do
    row(#m.span > 1 and "Span " .. i or "Span", {"span", "spans"}, "spans." .. i, span,
      "place")
  end
  for _, side in ipairs {"left", "right"} do
    local name = "overhang_" .. side
    if m[name] > 0 then row("Overhang, " .. side, {name}, name, m[name], "place") end
  end
  row("Spacing carried", {"spacing"}, "spacing", m.spacing, "size")
  for i, b in ipairs(m.bearing) do
    row("Bearing " .. i, {"bearing"}, "bearing." .. i, b, "size")
  end
  return rows
end

local WOOD = {"Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin", "G_mean", "CF"}

-- Four figures without an exponent: 1600000, 584500.
local function plain_figures(v)
  local said = units.significant(v, 4)
  return said:find("e", 1, true) and point.format("%.0f", tonumber(said)) or text.short(v)
end

-- @param labels of the standard, by name: "Bending strength f_m,k"
local function wood(m, labels)
  local rows, show = {}, m.show
  for _, name in ipairs(WOOD) do
    local v, stress = m[name], name ~= "CF"
    if v then
      rows[#rows + 1] = {labels and labels[name] or "Reference " .. name, m.class
        and {"class"} or {"species", "grade", "material"},
        {name, plain_figures(stress and show.scaled("stress", v) or v),
        stress and show.unit.stress or ""}}
    end
  end
  return rows
end

-- What is in words: wood, bearings, deck, moisture, lifting.
local function conditions(m, limits)
  local show = m.show
  local degrees, unit = show.temperature(m.temperature):match "(%S+) (%S+)"
  local rows = {
    {"Dead load", {"dead"}, {"dead", show.figures("area_load", m.dead),
      show.unit.area_load}},
    {"Live load", {"live"}, {"live", show.figures("area_load", m.live),
      show.unit.area_load}},
  }
  for _, of in ipairs(roof_loads.of_floor(m)) do
    rows[#rows + 1] = {of[1], {of[2]}, {of[2], show.figures("area_load", of[3]),
      show.unit.area_load}}
  end
  for _, row in ipairs {
    {"Members in the row", {"members"}, {"members", text.short(m.members), ""}},
  } do
    rows[#rows + 1] = row
  end
  local function row(...) rows[#rows + 1] = {...} end
  if m.class then
    row("Service class", {"service_class"}, {"service_class", text.short(m.service), ""})
    row("Class of load duration, 1 permanent to 5", {"duration"},
      {"duration", text.short(m.duration), ""})
  else
    row("Temperature", {"temperature"}, {"temperature", degrees, unit})
    row("Factor on dead deflection", {"creep"}, {"creep", text.short(m.Kcr), ""})
  end
  row("Factor at tension-face notches", {"notch_raiser"},
    {"notch_raiser", text.short(m.notch_raiser), ""})
  for _, name in ipairs {"live", "total"} do
    local n = limits[name]
    rows[#rows + 1] = {("Limit, %s deflection: L over"):format(name), {"limits"},
      n > 0 and {"limit_" .. name, text.short(n), ""} or {nil, "off", ""}}
  end
  if m.repetitive > 0 then
    rows[#rows + 1] = {"Repetitive factor, pinned", {"repetitive"},
      {"repetitive", text.short(m.repetitive), ""}}
  end
  return rows
end

-- What of the description stands behind a row.
local function given_text(description, names)
  local out = {}
  for _, name in ipairs(names) do
    if description[name] ~= nil then
      local bare = name == "species" or name == "grade" or name == "size"
        or name == "class"
      out[#out + 1] = (bare and "" or name .. " ") .. entered(description[name])
    end
  end
  return #out > 0 and table.concat(out, ", ") or "not given: default"
end

-- Adds rows with what was entered and what was understood.
local function add_rows(ctx, rows, list)
  for _, row in ipairs(list) do
    local u = row[3]
    rows[#rows + 1] = {row[1], given_text(ctx.r.joist.description, row[2]),
      u[1] and ctx.cell("inputs." .. u[1], u[2]) or u[2],
      u[4] and u[3] .. " = " .. u[4] or u[3]}
  end
end

-- Fields that are told in words.
local function word_rows(ctx, rows)
  local m, t = ctx.r.joist.model, ctx.r.joist.description
  -- Adds a row in words.
  local function add(what, names, said)
    rows[#rows + 1] = {what, given_text(t, names), false, said}
  end
  add("Wood", {"species", "grade", "edition", "material", "class"}, m.manufactured
    and "of its maker" or m.wood or m.source or "not known")
  add("Bearing on", {"bearing_on"}, m.bearing_on)
  add("Deck on the joists", {"sheathed"}, m.sheathed == 1 and "yes" or "no")
  if not m.class then add("Moisture", {"moisture"}, m.moisture) end
  if m.manufactured then add("Member", {"member"}, m.member) end
  if #m.blocking > 0 then
    local list = {}
    for i, x in ipairs(m.blocking) do list[i] = m.show.place(x) end
    add("Blocking", {"blocking"}, table.concat(list, ", "))
  end
end

local COLUMNS = {{head = "What"}, {head = "As entered"},
  {head = "Understood", align = "right"}, {head = "Unit, or in words"}}

-- Rows of the cuts with their places and sizes.
local function cut_rows(ctx)
  local rows, r, show = {}, ctx.r, ctx.r.show
  for i, c in ipairs(r:layout().cuts) do
    local given, word = r.joist.description.cuts[i], "cuts." .. c.name:gsub(" ", "-")
    rows[i] = {c.name, inputs.part(given), c.label,
      ctx.cell(word .. ".x1", show.place(c.x1)),
      ctx.cell(word .. ".x2", show.place(c.x2)),
      ctx.cell(word .. ".h1", show.number("length", c.h1, 2)),
      ctx.cell(word .. ".h2", show.number("length", c.h2, 2)), given.note}
  end
  return rows
end

-- Heads of the table of cuts, in the units of the calculation.
local function cut_columns(show)
  local heights = "Height, " .. show.unit.length
  return {{head = "Cut"}, {head = "As entered"}, {head = "Understood"},
  {head = "from", align = "right", group = "Along the joist"},
  {head = "to", align = "right", group = "Along the joist"},
  {head = "bottom", align = "right", group = heights},
  {head = "top", align = "right", group = heights}, {head = "Note"}}
end

---------------------------------------------------------------------------
-- Loads
---------------------------------------------------------------------------

-- Rows of the loads as they count.
local function load_rows(ctx)
  local rows, m, show = {}, ctx.r.joist.model, ctx.r.show
  local given = ctx.r.joist.description.loads or {}
  local n = 0
  local function row(of, number, from, to, first, last, unit, case)
    local t = given[of.load]
    rows[#rows + 1] = {of.name, t and inputs.part(t) or "", case, from, to, first, last,
      unit, t and t.note}
    return number
  end
  for _, l in ipairs(m.lines) do
    n = n + 1
    local here = "inputs.loads." .. n
    local entry = ctx.tree.inputs.loads[n]
    row(l.part, n, entry.from and ctx.cell(here .. ".from", show.place(entry.from))
      or "whole",
      entry.to and ctx.cell(here .. ".to", show.place(entry.to)) or "joist",
      ctx.cell(here .. ".plf_from", show.number("line_load", entry.plf_from)),
      ctx.cell(here .. ".plf_to", show.number("line_load", entry.plf_to)),
      show.unit.line_load, roof_loads.case(l))
  end
  for _, p in ipairs(m.points) do
    n = n + 1
    local here = "inputs.loads." .. n
    row(p.part, n, ctx.cell(here .. ".at", show.place(p.at)), "",
      ctx.cell(here .. ".lb", show.number("force", p.P)), "",
      show.unit.force, roof_loads.case(p))
  end
  return rows
end

local LOADS = {{head = "Load"}, {head = "As entered"}, {head = "Case"},
  {head = "from", align = "right"}, {head = "to", align = "right"},
  {head = "first", align = "right"}, {head = "last", align = "right"}, {head = "Unit"},
  {head = "Note"}}

-- Load of the floor on a foot of the joist, as lines to be followed.
local function floor_steps(ctx)
  local i, name, show = ctx.tree.inputs, ctx.name .. ".inputs.", ctx.r.show
  -- A step in the load on the joist.
  local function step(symbol, formula, shown, value, key)
    return {symbol = symbol, formula = formula, numbers = shown,
      value = show.figures("line_load", value), unit = show.unit.line_load,
      data = name .. key}
  end
  -- A line load as printed.
  local function line(w) return show.figures("line_load", w) end
  local D, L = show.figures("area_load", i.dead), show.figures("area_load", i.live)
  local s, run = show.figures("length", i.spacing), show.run
  local out = {
    step("w_D", "D*s/" .. run, ("%s*%s/%s"):format(D, s, run), i.w_D, "w_D"),
    step("w_L", "L*s/" .. run, ("%s*%s/%s"):format(L, s, run), i.w_L, "w_L"),
    step("w", "w_D + w_L", ("%s + %s"):format(line(i.w_D), line(i.w_L)), i.w, "w"),
  }
  for _, of in ipairs(roof_loads.of_floor(ctx.r.joist.model)) do
    local key = "w_" .. of[4]
    out[#out + 1] = step(key, ("%s*s/%s"):format(of[4], run), ("%s*%s/%s"):format(
      show.figures("area_load", of[3]), s, run), i[key], key)
  end
  return out
end

---------------------------------------------------------------------------

--- Rows {what, as entered, understood, unit or words} of a joist.
function inputs.rows(ctx)
  local rows, m = {}, ctx.r.joist.model
  add_rows(ctx, rows, geometry(m))
  if m.Fb then add_rows(ctx, rows, wood(m, ctx.r.labels)) end
  add_rows(ctx, rows, conditions(m, ctx.r.limits or {live = m.limit_live,
    total = m.limit_total}))
  word_rows(ctx, rows)
  return rows
end

--- Adds a table of inputs, where it has rows.
function inputs.table(d, rows, caption)
  if #rows > 0 then
    d:table {caption = caption, columns = COLUMNS, rows = rows, row_heads = 1}
  end
end

--- Notes of a joist and of those alike, each with its mark where there are several.
-- @param reviews the joist's first
function inputs.notes(d, reviews)
  for _, r in ipairs(reviews) do
    local note = r.joist.description.note
    if note then
      local said = {mark = tostring(note)}
      d:paragraph(#reviews > 1 and {"Note to ", {mark = r.mark}, ": ", said}
        or {"Note: ", said})
    end
  end
end

--- Adds the table of cuts.
function inputs.cuts(ctx)
  local cuts = cut_rows(ctx)
  if #cuts > 0 then
    ctx.d:table {caption = "Cuts, along the joist from the center of the left bearing, "
      .. "heights from its bottom edge", columns = cut_columns(ctx.r.show),
      rows = cuts, row_heads = 1}
  end
end

--- The floor's load on a foot of the joist. @param d document, else the context's
function inputs.floor_load(ctx, d)
  d = d or ctx.d
  local unit = ctx.r.show.unit
  d:paragraph(("Floor load on the joist; D and L in %s, s the width carried in %s:")
    :format(unit.area_load, unit.length))
  d:calculation(floor_steps(ctx))
end

--- Adds the table of loads beside those of the floor.
function inputs.loads(ctx)
  local loads = load_rows(ctx)
  if #loads > 0 then
    ctx.d:table {caption = "Loads besides", columns = LOADS, rows = loads, row_heads = 1}
  end
end

--- Adds inputs and loads of a joist by itself.
-- @param ctx {d, r, tree, name, cell(path, shown)}
function inputs.add(ctx)
  ctx.d:heading(3, "Inputs")
  inputs.table(ctx.d, inputs.rows(ctx), "As entered and as understood")
  inputs.notes(ctx.d, {ctx.r})
  inputs.cuts(ctx)
  ctx.d:heading(3, "Loads")
  inputs.floor_load(ctx)
  inputs.loads(ctx)
end

return inputs
