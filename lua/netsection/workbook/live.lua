-- SPDX-License-Identifier: MIT
-- Which cells of a calculation can be formulas. Every step with a formula is one already;
-- its givens are numbers of the analysis, and what they do when an input changes is found
-- out by reviews of the changed joist: some stay, some go with the area loads in a
-- straight line (statics is linear), the others are numbers and are said to be.
local core = require "netsection.core"
local quantity = require "netsection.quantity"
local point = require "netsection.point"
local roof_loads = require "netsection.roof_loads"

local live = {}

local symbols = core.fields().symbol

-- Inputs that may be changed: the loads, then reference design values by the symbol that
-- they have in the steps.
live.loads = {{key = "dead", symbol = "D", says = "dead load", unit = "psf"},
  {key = "live", symbol = "L", says = "live load", unit = "psf"}}
live.values = {
  {key = "Fb", symbol = "F_b", says = "reference bending stress", unit = "psi"},
  {key = "Fv", symbol = "F_v", says = "reference shear stress", unit = "psi"},
  {key = "Fc_perp", symbol = "F_cp", says = "reference stress across the grain",
    unit = "psi"},
  {key = "Ft", symbol = "F_t", says = "reference tension stress", unit = "psi"},
  {key = "Fc", symbol = "F_c", says = "reference compression stress", unit = "psi"}}

local STATES = {"uncut", "cut", "fixed"}
local TIGHT, LINEAR = 1e-12, 1e-10

local function close(a, b, rel)
  return math.abs(a - b) <= rel * math.max(math.abs(a), math.abs(b))
end

------------------------------------------------------------------------------- rows

-- Symbols that the steps take without a word.
local MEANING = {b = "thickness", d = "depth", CD = "load duration factor",
  CF = "size factor", CL = "beam stability factor", CM = "wet service factor",
  Ci = "incising factor", Cr = "repetitive member factor", Ct = "temperature factor",
  CP = "column stability factor", K = "format conversion factor", F_b = "reference value",
  F_v = "reference value", F_t = "reference value", F_c = "reference value",
  F_cp = "reference value"}

-- Steps of a check as rows, each given before the formula that takes it.
local function rows_of(check)
  local rows, seen = {}, {}
  local function add(row)
    if seen[row.symbol] then return end
    seen[row.symbol] = row
    rows[#rows + 1] = row
  end
  for _, step in ipairs(check.steps) do
    local names = {}
    for name in pairs(step.inputs or {}) do names[#names + 1] = name end
    table.sort(names, point.less)
    for _, name in ipairs(names) do
      local entry = symbols[name] or {}
      add {symbol = name, value = step.inputs[name], unit = entry.unit
        or step.input_units[name] or "",
        says = MEANING[name], given = true}
    end
    add {symbol = step.symbol, formula = step.formula, value = step.value,
      unit = step.unit or "", clause = step.clause, says = step.says,
      given = step.formula == nil, own = step.own_units}
  end
  return rows, seen
end

-- What tells a check among those of its state, whatever the loads are.
local function keys_of(checks)
  local out, count = {}, {}
  for i, k in ipairs(checks) do
    local key = ("%s/%s/%s/%s/%s/%s"):format(k.mode, k.cut, k.member, k.branch,
      k.combination, k.part or k.name)
    count[key] = (count[key] or 0) + 1
    out[i] = key .. "/" .. count[key]
  end
  return out
end

-- Checks of a review by state: {key =, check =, rows =, by = rows by symbol}.
local function laid_out(r)
  local out = {}
  for _, state in ipairs(STATES) do
    local a, list = r[state], {}
    if a and a.checks then
      local keys = keys_of(a.checks)
      for i, k in ipairs(a.checks) do
        local rows, by = rows_of(k)
        list[i] = {key = keys[i], check = k, rows = rows, by = by}
        list[keys[i]] = list[i]
      end
      out[state] = list
    end
  end
  return out
end

----------------------------------------------------------------------------- trials

local function reviewed(r, changes)
  local options = r.options or {}
  local ok, found = pcall(function()
    return r.joist:with(changes):review {rules = options.rules,
      standard = options.standard}
  end)
  return ok and found.computed and laid_out(found) or nil
end

local function same(a, b)
  for _, state in ipairs(STATES) do
    for _, item in ipairs(a[state] or {}) do
      local other = b[state] and b[state][item.key]
      for _, row in ipairs(item.rows) do
        local twin = other and other.by[row.symbol]
        if not twin or not close(twin.value, row.value, TIGHT) then return false end
      end
    end
  end
  return true
end

-- The design values as numbers of the joist's own, one of them changed.
local function material(m, key, factor)
  local t = {source = m.source}
  for _, name in ipairs {"Fb", "Fv", "Fc_perp", "Ft", "Fc", "E", "Emin", "CF", "CF_t",
    "CF_c", "G"} do
    t[name] = m[name]
  end
  if key then t[key] = t[key] * factor end
  return t
end

local function load_trials(r, base)
  local m = r.joist.model
  if not (type(m.dead) == "number" and type(m.live) == "number")
    or roof_loads.any(m) then return nil end -- loads stay numbers
  local plain = reviewed(r, {dead = m.dead, live = m.live})
  if not plain or not same(base, plain) then return nil end
  local dead, there = m.dead > 0 and m.dead * 1.1 or 1, m.live > 0 and m.live * 1.1 or 1
  return {D = dead, L = there, dead = reviewed(r, {dead = dead}),
    live = reviewed(r, {live = there}),
    both = reviewed(r, {dead = (m.dead + dead) / 2,
      live = m.live + 1.5 * (there - m.live)})}
end

-- How a given goes with the area loads: {a, b, c} of a D + b L + c, or nil.
local function linear(row, key, state, base, trials)
  local function value(name)
    local item = trials[name] and trials[name][state] and trials[name][state][key]
    local twin = item and item.by[row.symbol]
    return twin and twin.value
  end
  local v, d, l, both = row.value, value "dead", value "live", value "both"
  if not (d and l and both) then return nil end
  local a = (d - v) / (trials.D - base.dead)
  local b = (l - v) / (trials.L - base.live)
  local scale = math.max(math.abs(v), math.abs(a * base.dead), math.abs(b * base.live))
  if math.abs(a * base.dead) <= TIGHT * scale then a = 0 end
  if math.abs(b * base.live) <= TIGHT * scale then b = 0 end
  local c = v - a * base.dead - b * base.live
  if math.abs(c) <= TIGHT * scale then c = 0 end
  local told = a * (base.dead + trials.D) / 2
    + b * (base.live + 1.5 * (trials.L - base.live)) + c
  if math.abs(told - both) > LINEAR * scale then return nil end
  return {a = a, b = b, c = c}
end

local function value_trials(r, base, m)
  local plain = not m.manufactured and reviewed(r, {material = material(m)})
  if not plain or not same(base, plain) then return {} end
  local out = {}
  for _, input in ipairs(live.values) do
    if type(m[input.key]) == "number" and m[input.key] > 0 then
      out[#out + 1] = {input = input, value = m[input.key] * 1.1,
        found = reviewed(r, {material = material(m, input.key, 1.1)})}
    end
  end
  return out
end

local BY_SYMBOL = {}
for _, input in ipairs(live.values) do BY_SYMBOL[input.symbol] = input end

-- Whether all givens of a check are in a trial what the sheet makes of them.
local function follows(item, state, trial)
  local twin = trial.found and trial.found[state] and trial.found[state][item.key]
  if not twin then return false end
  for _, row in ipairs(item.rows) do
    local other = twin.by[row.symbol]
    if not other then return false end
    local of_input = row.input == trial.input.key
    if row.given and not close(other.value, of_input and trial.value or row.value, TIGHT)
      then
      return false
    end
  end
  return true
end

local function settle_check(item, state, base, loads, values)
  item.follows = {}
  local in_line = loads ~= nil
  for _, row in ipairs(item.rows) do
    local input = BY_SYMBOL[row.symbol]
    if row.given and input and base.m[input.key] == row.value
      and base.offers[input.key] then
      row.input = input.key
    elseif row.given and loads then
      row.line = linear(row, item.key, state, base, loads)
      in_line = in_line and row.line ~= nil
      if row.line and row.line.a == 0 and row.line.b == 0 then row.line = nil end
    end
  end
  if in_line then item.follows.dead, item.follows.live = true, true end
  for _, trial in ipairs(values) do
    item.follows[trial.input.key] = follows(item, state, trial) or nil
  end
end

------------------------------------------------------------------------------ units

-- Rows in the units in which a formula holds with the numbers put in (N, mm): `times` is
-- what a base unit is multiplied by. A formula that holds in its own units alone gets its
-- symbols back in them: see over_cells of calculation.lua.
local function in_units(states, inputs, show)
  local of_input = {}
  for _, input in ipairs(inputs) do
    local unit = input.unit
    local area = unit == "psf"
    local times = area and show.scaled("area_load", 1) or (show.coherent(1, unit))
    input.unit = area and show.unit.area_load or select(2, show.coherent(1, unit))
    input.value, of_input[input.symbol] = input.value * times, times
  end
  for _, list in pairs(states) do
    for _, item in ipairs(list) do
      for _, row in ipairs(item.rows) do
        row.times = show.coherent(1, row.unit)
        row.value, row.unit = show.coherent(row.value, row.unit)
        if row.line then
          row.line = {a = row.line.a * row.times / of_input.D,
            b = row.line.b * row.times / of_input.L, c = row.line.c * row.times}
        end
      end
    end
  end
end

--- The calculation of a joist's review.
-- @return {states = {cut = {{check =, rows =, follows = {input = true}}...}...}, inputs =
-- list of {key =, symbol =, says =, unit =, value =}}; a row has symbol, formula, value,
--   unit, clause, says, times (what one base unit is; nil: the units are base ones), own,
--   and, where it is a given, 'input' (key) or 'line' {a, b, c}
function live.of(r)
  local m, states = r.joist.model, laid_out(r)
  local base = {m = m, dead = m.dead, live = m.live, offers = {}}
  local loads, values = load_trials(r, states), value_trials(r, states, m)
  local inputs = {}
  local function offer(input)
    base.offers[input.key] = true
    local copy = {value = m[input.key]}
    for name, v in pairs(input) do copy[name] = v end
    inputs[#inputs + 1] = copy
  end
  if loads then
    for _, input in ipairs(live.loads) do offer(input) end
  end
  for _, trial in ipairs(values) do offer(trial.input) end
  for _, state in ipairs(STATES) do
    for _, item in ipairs(states[state] or {}) do
      settle_check(item, state, base, loads, values)
    end
  end
  local show = quantity.of(r)
  if not show.tape then in_units(states, inputs, show) end
  return {states = states, inputs = inputs}
end

return live
