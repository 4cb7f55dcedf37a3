-- SPDX-License-Identifier: MIT
-- What stands in the cells of a table: asked of the caller's function or of a sweep,
-- checked, rounded, and shown.
local joists = require "netsection.joist"
local letters = require "netsection.table.letters"
local ordered = require "netsection.point".pairs
local spans = require "netsection.spans"
local units = require "netsection.units"
local values = require "netsection.sweep.values"
local less = require "netsection.point".less
local tostring = require "netsection.point".text

local cells = {}

local GIVEN = {value = true, letter = true, reason = true, note = true, joist = true}

local function finite(x)
  return type(x) == "number" and x == x and x ~= math.huge and x ~= -math.huge
end

-- What a function returned -> {value, letter, reason, note} | nil, problem.
local function read(given)
  if given == nil then return {} end
  if given == false then return {outside = true} end
  if type(given) == "number" or type(given) == "string" then given = {value = given} end
  if type(given) ~= "table" then
    return nil, "a number, text, a table, nil or false expected, got " .. type(given)
  end
  for key in ordered(given) do
    if not GIVEN[key] then
      return nil, ("unknown field '%s' (takes value, letter, reason, note, joist)")
        :format(tostring(key))
    end
  end
  local value = given.value
  if value ~= nil and type(value) ~= "string" and not finite(value) then
    return nil, "value: a finite number or text expected"
  end
  if given.joist ~= nil and not joists.is(given.joist) then
    return nil, "joist: the joist of the cell expected, got " .. type(given.joist)
  end
  for _, field in ipairs {"letter", "reason", "note"} do
    if given[field] and type(given[field]) ~= "string" then
      return nil, field .. ": text expected"
    end
  end
  if given.value and given.reason then
    return nil, "a value or a reason why there is none expected, not both"
  end
  return {exact = type(value) == "number" and value or nil,
    words = type(value) == "string" and value or nil, letter = given.letter or nil,
    reason = given.reason or nil, note = given.note or nil, joist = given.joist}
end

-- Rounds and shows a cell.
local function finish(cell, measure)
  if cell.exact then
    cell.value = measure.of(cell.exact)
    cell.text, cell.csv = measure.show(cell.value), measure.show_csv(cell.value)
    if measure.metric then
      cell.metric = measure.metric.of(cell.value)
      cell.metric_text = measure.metric.show(cell.metric)
    end
  elseif cell.words then
    cell.text, cell.csv = cell.words, cell.words
  else
    cell.text = cell.outside and "" or cell.reason and "n/a" or "\u{2014}"
    cell.csv = cell.text
  end
  return cell
end

--- Where a cell is, in words.
function cells.where(t, b, r, c)
  local place = ("row %s, column %s"):format(
    table.concat(t.rows.texts[r], ", "), table.concat(t.columns.texts[c], ", "))
  return t.blocks and ("block %s, %s"):format(
    table.concat(t.blocks.texts[b], ", "), place) or place
end

--- Calls f(b, r, c, cell) for the cells in their order.
function cells.each(t, f)
  for b, block in ipairs(t.cells) do
    for r, row in ipairs(block) do
      for c, cell in ipairs(row) do f(b, r, c, cell) end
    end
  end
end

--- The values a cell's function gets: row, column, block.
function cells.keys(t, b, r, c)
  return t.rows.values[r], t.columns.values[c], t.blocks and t.blocks.values[b]
end

local function one(t, ask, b, r, c)
  local cell, problem = read(ask(cells.keys(t, b, r, c)))
  if cell and cell.letter and not t.letters[cell.letter] then
    problem = ("letter '%s' has no meaning (name it in letters)"):format(cell.letter)
  end
  if problem then
    return nil, ("cell at %s: %s"):format(cells.where(t, b, r, c), problem)
  end
  return finish(cell, t.measure)
end

--- Fills t.cells[block][row][column]; what is wrong, or nil.
function cells.fill(t, ask)
  for b = 1, t.blocks and #t.blocks.values or 1 do
    t.cells[b] = {}
    for r = 1, #t.rows.values do
      t.cells[b][r] = {}
      for c = 1, #t.columns.values do
        local cell, problem = one(t, ask, b, r, c)
        if not cell then return problem end
        t.cells[b][r][c] = cell
      end
    end
  end
end

---------------------------------------------------------------------------
-- Cells of a sweep
---------------------------------------------------------------------------

local function put(point, axis, value)
  if not axis then return end
  if #axis.names == 1 then
    point[axis.names[1]] = value
  else
    for _, name in ipairs(axis.names) do point[name] = value[name] end
  end
end

--- The point of a sweep that a cell stands for.
function cells.point(t, at, row, column, block)
  local point = {}
  for name, value in pairs(at) do point[name] = value end
  put(point, t.rows, row)
  put(point, t.columns, column)
  put(point, t.blocks, block)
  return point
end

local function knows(names, name)
  for _, known in ipairs(names) do
    if known == name then return true end
  end
  return false
end

-- Axes that neither the table nor `at` names must have one value; else nil and a problem.
local function fixed_axes(t, sweep, at)
  local point, used = cells.point(t, {}, t.rows.values[1], t.columns.values[1],
    t.blocks and t.blocks.values[1]), {}
  for name, value in pairs(at) do used[name] = value end
  local known = {}
  for _, axis in ipairs(sweep.axes) do
    known[axis.name] = true
    if point[axis.name] == nil and used[axis.name] == nil then
      if #axis.values > 1 then
        return nil, ("at: a value of the sweep's axis '%s' is needed"):format(axis.name)
      end
      used[axis.name] = axis.values[1]
    end
  end
  for _, from in ipairs {point, used} do
    local unknown = {}
    for name in pairs(from) do
      if not known[name] then unknown[#unknown + 1] = tostring(name) end
    end
    table.sort(unknown, less)
    if unknown[1] then return nil, ("the sweep has no axis '%s'"):format(unknown[1]) end
  end
  return used
end

-- Name of the value that says what governs; false for none. By itself only a ratio has
-- one, and a span that is sought: the mode that governs a joist does not a reaction.
local function governing_of(sweep, spec)
  if spec.letter ~= nil then return spec.letter end
  local own = spec.value .. ".governing"
  if knows(sweep.names, own) then return own end
  local state = spec.value:match "^(%l*%.?)ratio$"
  local beside = state and state .. "governing"
  return beside and knows(sweep.names, beside) and beside or false
end

-- What a value of a sweep is divided by to stand in the table's unit; or nil and why the
-- unit cannot be that of the value.
local function conversion(name, unit)
  local own = values.unit(name)
  if own == nil or own == unit then return 1 end
  local to = units.between(own, unit)
  if to then return to end
  return nil, ("unit: '%s' is in %s, which is not '%s'"):format(name, own == "" and
    "no unit (write \"\")" or own, unit)
end

--- A function as `cell` over the points of a sweep; or nil and what is wrong.
function cells.of_sweep(t, spec)
  local sweep, value = spec.sweep, spec.value
  if type(value) ~= "string" or not knows(sweep.names, value) then
    return nil, "value: one of the sweep's expected: " .. table.concat(sweep.names, ", ")
  end
  local scale = spec.scale or 1
  if not finite(scale) then return nil, "scale: a finite number expected" end
  local factor, problem = 1, nil
  if spec.scale == nil then factor, problem = conversion(value, t.measure.given) end
  if not factor then return nil, problem end
  scale = scale * factor
  t.scale = scale
  local at
  at, problem = fixed_axes(t, sweep, spec.at or {})
  if not at then return nil, problem end
  local governing = governing_of(sweep, spec)
  if governing and not knows(sweep.names, governing) then
    return nil, ("letter: the sweep has no value '%s'"):format(tostring(governing))
  end
  t.at = at
  return function(row, column, block)
    local place = cells.point(t, at, row, column, block)
    local found, joist = sweep:at(place), sweep:joist(place)
    if found.reason or found[value] == nil then
      return {joist = joist, reason = found.reason or found.governing == "sever"
        and "cut through" or found.governing == "bearing" and found.ratio == nil
        and "no sound seat" or "no such value"}
    end
    local v = found[value]
    return {value = type(v) == "number" and v * scale or v, joist = joist,
      note = spans.again(joist, value, {rules = t.rules, standard = t.standard,
        show = t.show}),
      letter = governing and letters.of(found[governing]) or nil}
  end
end

-- The value of a joist by itself, by its review or by the search for its longest span.
local function single_value(t, joist)
  local name, packs = t.given.value, {rules = t.rules, standard = t.standard}
  local mode = name:match "^longest_span%.?(.*)$"
  if mode then
    packs.modes = mode ~= "" and {mode} or nil
    packs.continuous = true -- as the lanes of a sweep, and what a table may print
    return (joist:longest_span(packs))
  end
  local review = joist:review(packs)
  local last = review.fixed and "fixed" or #review.cuts > 0 and "cut" or "uncut"
  return values.of(review, assert(values.read(name, last)))
end

--- A function as `cell` that reviews the joist of each point by itself.
function cells.single_of_sweep(t)
  local sweep, scale = t.given.sweep, t.scale
  return function(row, column, block)
    local place = cells.point(t, t.at, row, column, block)
    local shared, value = sweep:of_floor(place, t.given.value)
    local joist = not shared and sweep:joist(place)
    if joist then value = single_value(t, joist) end
    return type(value) == "number" and value * scale or value
  end
end

return cells
