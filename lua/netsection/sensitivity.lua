-- SPDX-License-Identifier: MIT
-- What margin a joist has left, and which input turns the verdict. Every number of the
-- description is moved by itself, up and down, in lanes; where the action changes, the
-- place is closed in on. Species and grade are tried as sets: an assumption that turns
-- the verdict is one to look into.
local enums = require "netsection.enums"
local fields = require "netsection.fields"
local fix = require "netsection.fix"
local lanes = require "netsection.lanes"
local lumber = require "netsection.lumber"
local parts = require "netsection.parts"
local ply = require "netsection.ply"
local point = require "netsection.point"
local review = require "netsection.review"
local text = require "netsection.text"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local sensitivity = {}

local OPTIONS = {"species", "grade", "most", "rules", "standard"}
-- Furthest that an input is moved, as a part of itself; steps of the first look.
local MOST, STEPS, CLOSE = 0.5, 50, 1e-9

-- Numbers of a joist that can be moved: name, rows of the core, unit, and whether it may
-- be under a repair.
local PLAIN, OF_CUT = {}, {}
for _, f in ipairs(fields.joist) do
  for _, rows in ipairs(f.values or {f.moved}) do
    PLAIN[#PLAIN + 1] = {f.values and rows[1] or f.name, rows,
      fields.range("joist", rows[1]).unit, rows.repaired}
  end
end
for _, f in ipairs(fields.cut) do
  if f.kind == "length" and f.sweep and not f.still then OF_CUT[#OF_CUT + 1] = f.name end
end

local function row_value(m, row)
  local n = row:match "^span%.(%d+)$"
  if n then return m.span[tonumber(n)] end
  local cut, field = row:match "^cuts%.(%d+)%.([%w_]+)$"
  if cut then return m.cuts[tonumber(cut)][field] end
  return m[row]
end

local function inputs_of(m, repaired)
  local list = {}
  local function add(name, rows, unit)
    local value = row_value(m, rows[1])
    if value and value > 0 then
      list[#list + 1] = {input = name, rows = rows, unit = unit, value = value}
    end
  end
  for i = 1, repaired and 0 or #m.span do
    add(#m.span == 1 and "span" or "spans." .. i, {"span." .. i}, "in")
  end
  for _, p in ipairs(PLAIN) do
    local moves_tub = p[1] == "live" and m.tubs[1] -- whose live load rests on the floor's
    if not moves_tub and (not repaired or p[4]) then add(p[1], p[2], p[3]) end
  end
  for i, cut in ipairs(repaired and {} or m.cuts) do
    for _, field in ipairs(OF_CUT) do
      local path = ("cuts.%d.%s"):format(i, field)
      if cut[field] then add(path, {path}, "in") end
    end
  end
  return list
end

-- Action and ratio at points {input =, factor =}, where one input each is moved.
local function try(task, points)
  local columns = {}
  for _, input in ipairs(task.inputs) do
    for _, row in ipairs(input.rows) do
      local base, list = row_value(task.m, row), {}
      for i, p in ipairs(points) do
        list[i] = p.input == input and base * p.factor or base
      end
      columns[row] = list
    end
  end
  local to, fault = lanes.work(task.m, task.packs, #points, columns,
    {{quantity = task.verdict, state = task.state},
      {quantity = "ratio", state = task.state}})
  for i, p in ipairs(points) do
    p.ok = fault[i] == 0
    p.action, p.ratio = enums.word(task.words, to[1][i]), to[2][i]
  end
end

local function scan(task, way)
  local points = {}
  for _, input in ipairs(task.inputs) do
    for i = 1, STEPS do
      points[#points + 1] = {input = input, factor = 1 + way * task.most * i / STEPS}
    end
  end
  try(task, points)
  local found, seen = {}, {}
  for _, p in ipairs(points) do
    local stops = not p.ok or p.action ~= task.action
    if stops and not seen[p.input] then
      seen[p.input] = true
      if p.ok then
        found[#found + 1] = {input = p.input, high = p.factor, point = p,
          low = p.factor - way * task.most / STEPS}
      end
    end
  end
  return found
end

local function close_in(task, found)
  for _ = 1, 10 do
    local points, open = {}, {}
    for _, f in ipairs(found) do
      if math.abs(f.high - f.low) > CLOSE then
        open[#open + 1] = f
        for i = 1, 16 do
          points[#points + 1] = {input = f.input, of = f,
            factor = f.low + (f.high - f.low) * i / 16}
        end
      end
    end
    if #open == 0 then return end
    try(task, points)
    for _, f in ipairs(open) do f.closed = false end
    for _, p in ipairs(points) do
      local f = p.of
      if not f.closed and (not p.ok or p.action ~= task.action) then
        f.high, f.point, f.closed = p.factor, p, true
      elseif not f.closed then
        f.low = p.factor
      end
    end
  end
end

local function entry_of(f)
  local input = f.input
  return {input = input.input, unit = input.unit, value = input.value,
    at = input.value * f.high, change = f.high - 1, becomes = f.point.action,
    ratio = f.point.ratio}
end

-- Nearest first; those as near in the order of the inputs.
local function sorted(list)
  for i, entry in ipairs(list) do entry.order = i end
  table.sort(list, function(a, b)
    local x, y = math.abs(a.change), math.abs(b.change)
    if x ~= y then return x < y end
    return a.order < b.order
  end)
  for _, entry in ipairs(list) do entry.order = nil end
  return list
end

----------------------------------------------------------------------------------- sets

local function set_of(option, name, otherwise, all)
  if option == nil then return otherwise and {otherwise} or all() end
  if option == true then return all() end
  if type(option) ~= "table" or #option == 0 then
    error(("sensitivity: %s: a list of names, or true for all on file, expected")
      :format(name), 4)
  end
  return option
end

-- Grades that any of the species has, in the order they are met.
local function grades_of(species)
  local list, seen = {}, {}
  for _, name in ipairs(species) do
    for _, grade in ipairs(lumber.grades(name) or {}) do
      if not seen[grade] then
        seen[grade] = true
        list[#list + 1] = grade
      end
    end
  end
  return list
end

-- The verdict for each assumption; which of them turns it, the others being held.
local function assumptions(joist, t)
  local d = joist.description
  if t.species == nil and t.grade == nil and not joist.model.missing then return nil end
  if d.material ~= nil then
    error("sensitivity: species and grade are not asked of a joist with a material", 3)
  end
  local species = set_of(t.species, "species", d.species, lumber.species)
  local grade = set_of(t.grade, "grade", d.grade, function()
    return grades_of(species)
  end)
  local out, actions = {flips = {}}, {}
  for _, s in ipairs(species) do
    for _, g in ipairs(grade) do
      local made, why = joist:changed {species = s, grade = g}
      local r = made and made:review {rules = t.rules, standard = t.standard}
      local a = r and (#r.joist.model.cuts > 0 and r.cut or r.uncut)
      out[#out + 1] = {species = s, grade = g, action = r and r.action,
        ratio = a and a.ratio, governing = a and a.governing,
        reason = why and "not on file", confidence = made and made.model.confidence}
      actions[s .. "\0" .. g] = r and r.action
    end
  end
  local function turns(first, second, key)
    for _, x in ipairs(first) do
      local seen
      for _, y in ipairs(second) do
        local action = actions[key(x, y)]
        if action and seen and action ~= seen then return true end
        seen = seen or action
      end
    end
  end
  if turns(species, grade, function(s, g) return s .. "\0" .. g end) then
    out.flips[1] = "grade"
  end
  if turns(grade, species, function(g, s) return s .. "\0" .. g end) then
    table.insert(out.flips, 1, "species")
  end
  return out
end

------------------------------------------------------------------------------- the whole

-- The model that is worked, and the state that is asked about; nil and a reason.
local function subject(joist, packs)
  local m = joist.model
  if ply.cut(m) then return nil, ply.unsearched(m) end
  if not joist.repair then return m, #m.cuts > 0 and "cut" or "uncut" end
  if not fix.works_on_lanes(joist.repair) then
    return nil, "asked of a joist, of a sister or of side plates only, no cut written off"
  end
  local fixed, why = fix.on_lanes(joist, packs)
  if not fixed then return nil, why end
  return fixed, "fixed"
end

local function margins(a)
  local list = {}
  for _, k in ipairs(a.checks) do
    if k.binding and k.ratio then
      list[#list + 1] = {mode = k.mode, name = k.name, member = k.member,
        ratio = k.ratio, margin = 1 - k.ratio, change = -k.ratio}
    end
  end
  sorted(list)
  local out = {}
  for i = #list, 1, -1 do
    out[#out + 1], list[i].change = list[i], nil
  end
  return out
end

local meta = {__tostring = function(s)
  return ("sensitivity: %s, turned by %d inputs"):format(tostring(s.verdict), #s.inputs)
end}

-- @param t {species = list or true, grade = list or true, most = furthest that an input
--   is moved as a part of itself (0.5), rules =, standard =}
-- @return {verdict =, ratio =, governing =, margins = {mode, name, ratio, margin},
--   inputs = {input, value, at, change, becomes, ratio, unit}, the nearest first,
--   assumptions = {{species, grade, action, ratio, governing}, flips = {names}} or nil};
--   nil and a reason for a joist without numbers that no set helps
function sensitivity.of(joist, t)
  if type(joist) ~= "table" or type(joist.model) ~= "table" then
    error("sensitivity: a joist expected, got " .. type(joist)
      .. ": use joist:sensitivity{...}", 2)
  end
  if t == nil then t = {} end
  parts.only("sensitivity", t, OPTIONS, 2)
  local most = t.most or MOST
  if type(most) ~= "number" or not (most > 0 and most <= 10) then
    error("sensitivity: most: a number above 0, to 10, expected", 2)
  end
  local out = setmetatable({assumptions = assumptions(joist, t), inputs = {},
    show = joist.model.show}, meta)
  local options, packs = {rules = t.rules, standard = t.standard}, {}
  packs.rules, packs.standard = review.packs_of(joist, options)
  local lacking = review.lacking(joist.model, packs.standard)
  if lacking then
    if not out.assumptions then return nil, lacking end
    out.verdict = "refer"
    return setmetatable(out, meta)
  end
  local r = joist:review(options)
  local m, state = subject(joist, packs)
  if not m then return nil, state end
  local a = r[state]
  out.verdict = state == "fixed" and a.status or r.action
  out.ratio, out.governing, out.margins = a.ratio, a.governing, margins(a)
  local task = {m = m, state = state, packs = packs, most = math.min(most, 0.99),
    inputs = inputs_of(m, state == "fixed"), action = out.verdict,
    verdict = state == "fixed" and "status" or "action"}
  task.words = enums.words[task.verdict]
  for _, way in ipairs {1, -1} do
    local found = scan(task, way)
    close_in(task, found)
    for _, f in ipairs(found) do out.inputs[#out.inputs + 1] = entry_of(f) end
  end
  sorted(out.inputs)
  return setmetatable(out, meta)
end

-- A span as a place, another number to four figures.
local function said(show, x, unit)
  if unit == "in" and x >= 24 then return show.place(x) end
  local value, its_unit = show.beside(x, unit)
  return text.short(value) .. " " .. its_unit
end

local function assumption(e)
  local unread = e.confidence == "memory" and " (values from memory)" or ""
  return ("  %s %s: %s%s%s"):format(e.species, e.grade, e.action,
    e.ratio and ", " .. text.ratio(e.ratio) or "", unread)
end

-- The answer in lines for people.
function sensitivity.text(s)
  if getmetatable(s) ~= meta then
    error("report.sensitivity: a result of joist:sensitivity expected, got " .. type(s),
      2)
  end
  local show = s.show
  local lines = {("%s%s"):format(s.verdict, s.ratio and (", ratio %s by %s"):format(
    text.ratio(s.ratio), s.governing) or "")}
  for _, e in ipairs(s.inputs) do
    lines[#lines + 1] = point.format("  %s from %s to %s (%+.1f %%): %s", e.input,
      said(show, e.value, e.unit), said(show, e.at, e.unit), 100 * e.change, e.becomes)
  end
  if #s.inputs == 0 and s.ratio then
    lines[#lines + 1] = "  no input by itself turns it in the range looked at"
  end
  local known, unknown = {}, {}
  for _, e in ipairs(s.assumptions or {}) do
    if e.action then
      lines[#lines + 1], known[e.species] = assumption(e), true
    end
  end
  for _, e in ipairs(s.assumptions or {}) do
    if not known[e.species] and not unknown[e.species] then
      lines[#lines + 1] = ("  %s: %s"):format(e.species, e.reason)
      unknown[e.species] = true
    end
  end
  local flips = s.assumptions and s.assumptions.flips
  if flips and next(known) then
    lines[#lines + 1] = #flips > 0 and "  turned by the assumed "
      .. table.concat(flips, " and by the ") or "  the same under every assumption"
  end
  return table.concat(lines, "\n")
end

return sensitivity
