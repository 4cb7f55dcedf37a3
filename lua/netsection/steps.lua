-- SPDX-License-Identifier: MIT
-- The lines of a calculation: per mode and branch, symbol = formula, with unit and
-- clause. They are texts in the folder of a standard; values come from the record that
-- the core's check filled. A formula is a second statement of the same arithmetic, which
-- tests evaluate against it.
--
--   SYMBOL{key=NAME, unit=UNIT, own=yes} = FORMULA [CLAUSE] : what it is
--
-- "own": a formula that holds in the units of its standard alone. A line without a
-- formula states a given; "@name" stands for the shared lines of a name.
local lpeg = require "lpeg"
local core = require "netsection.core"
local label = require "netsection.label"
local error = require "netsection.raise".error

local steps = {}

local symbols = core.fields().symbol
local OF_CHECK = {capacity = true, demand = true, ratio = true}
local FUNCTION = {min = true, max = true, sqrt = true}

--- Whether the core's records hold a number of a name.
function steps.recorded(name) return symbols[name] ~= nil end

-- What stands before the first of a mark in a text and what behind it; the text alone
-- where nothing does.
local function parted(text, mark)
  local from, to = text:find(mark, 1, true)
  if not from or to == #text then return text end
  return text:sub(1, from - 1), text:sub(to + 1)
end

-- A line of text in its parts; nil where it is none.
local function parsed(text)
  local rest, says = parted(text, " : ")
  local before, formula, clause, symbol, options
  if rest:sub(-1) == "]" then before, clause = rest:match "^(.-) %[(.+)%]$" end
  rest, formula = parted(before or rest, " = ")
  if rest:sub(-1) == "}" then symbol, options = rest:match "^([^{]+){(.*)}$" end
  local line = {symbol = symbol or rest, formula = formula, clause = clause, says = says}
  for name, value in (options or ""):gmatch "(%w+)=([^,]+)" do line[name] = value end
  if line.symbol:find "[%[%]{}]" or line.symbol == "" then return nil end
  return line
end

-- A symbol of a formula: letters with _, digits and a closing prime. The same for
-- replacing it, and for listing all.
local NAME = "[%a_][%w_]*'?"
local letter = lpeg.R("az", "AZ") + "_"
local all_names = lpeg.Ct((lpeg.C(letter * (letter + lpeg.R "09") ^ 0 * lpeg.P "'" ^ -1)
  + (1 - letter) ^ 1) ^ 0)

--- The symbols in a text, in their order there.
function steps.symbols(text) return all_names:match(text) end

-- The symbols of a line as a standard of another format writes them: `rename` is {CD =
-- "lambda", K = {["F_b'"] = "K_Fb*phi_b"}}, by the line's symbol where it is a table.
local function renamed(line, words)
  local rename = words.rename
  if not rename then return line end
  local function other(name)
    local new = rename[name]
    if type(new) == "table" then return new[line.symbol] end
    return new
  end
  local out = {}
  for name, value in pairs(line) do out[name] = value end
  out.symbol = other(line.symbol) or line.symbol
  out.formula = line.formula and line.formula:gsub(NAME, other)
  if not out.formula and words.says then out.says = words.says[out.symbol] or out.says end
  return out
end

-- The lines of a list, those it shares put in.
local function lines_of(list, words)
  local out = {}
  for _, text in ipairs(list) do
    local name = text:match "^@(.+)$"
    for _, one in ipairs(name and assert(words.lines[name], text .. ": no such lines")
      or {text}) do
      local line = parsed(one)
      if not line then error(("'%s' is no line of a calculation"):format(one), 0) end
      out[#out + 1] = renamed(line, words)
    end
  end
  return out
end

-- Units of what only the check itself holds.
local function unit_of(line, entry)
  if line.unit then return line.unit end
  if entry then return entry.unit end
  return line.symbol:find "^M'" and "lb-in" or line.symbol:find "^[VR]'" and "lb" or ""
end

-- Symbols of a formula, each once, with the name it has in the record.
local function names_in(formula, alias)
  local names = {}
  for _, name in ipairs(steps.symbols(formula)) do
    if not FUNCTION[name] then names[name] = alias[name] or name end
  end
  return names
end

-- Lines with everything looked up that does not differ from check to check.
local function compiled(list, words)
  local alias = {}
  for _, names in ipairs {words.stands_for or {}, list.stands_for or {}} do
    for symbol, name in pairs(names) do alias[symbol] = name end
  end
  local out = lines_of(list, words)
  for _, line in ipairs(out) do
    line.name = line.key or alias[line.symbol] or line.symbol
    local entry = symbols[line.name]
    line.index, line.unit = entry and entry.index, unit_of(line, entry)
    line.names = line.formula and names_in(line.formula, alias)
    line.constant = words.constants and words.constants[line.name]
    if not (line.constant or entry or OF_CHECK[line.name]) then
      error(("'%s' stands for nothing in the record"):format(line.symbol), 0)
    end
    for name, key in pairs(line.names or {}) do
      if not (symbols[key] or OF_CHECK[key] or words.constants
        and words.constants[key]) then
        error(("'%s' in '%s' stands for nothing in the record"):format(name,
          line.formula), 0)
      end
    end
  end
  return out
end

--- The lines of all modes and branches, ready to be filled.
-- @param words {steps = {mode = {list of texts, ...}}, lines =, rename =, says =,
--   stands_for =, constants = {symbol = number}}; raises a text for what is no line
function steps.compile(words)
  local out = {constants = words.constants or {}}
  for mode, branches in pairs(words.steps) do
    out[mode] = {}
    for i, list in ipairs(branches) do
      local ok, lines = pcall(compiled, list, words)
      if not ok then error(("steps.%s[%d]: %s"):format(mode, i, lines), 0) end
      out[mode][i] = lines
    end
  end
  return out
end

local function value_of(raw, index, check, name, constants)
  if constants[name] then return constants[name] end
  if OF_CHECK[name] then return check[name] end
  return core.record(raw, index, symbols[name].index)
end

-- A step's inputs, {symbol = number}, and their units are looked up when they are first
-- asked for.
local function with_inputs(raw, index, check, lines, constants)
  return label.meta("step", label.step, function(step, field)
    if field ~= "inputs" and field ~= "input_units" or not step.formula then
      return nil
    end
    local inputs, units_of = {}, {}
    for _, line in ipairs(lines) do
      if line.symbol == step.symbol then
        for name, key in pairs(line.names) do
          inputs[name] = value_of(raw, index, check, key, constants)
          units_of[name] = OF_CHECK[key] and check.unit
            or symbols[key] and symbols[key].unit
        end
      end
    end
    rawset(step, "inputs", inputs)
    rawset(step, "input_units", units_of)
    return rawget(step, field)
  end)
end

--- The steps of one check.
-- @param all of steps.compile, @param raw the core's review, @param index of the check,
-- @param check its fields
-- @return list of {symbol, formula, value, unit, clause, says, inputs}
function steps.of(all, raw, index, check)
  local lines = all[check.mode] and all[check.mode][check.branch]
  if not lines then return {} end
  local record = core.record
  local out = {table.unpack(lines)} -- of the right size; each is replaced
  local meta = with_inputs(raw, index, check, lines, all.constants)
  for i = 1, #lines do
    local line = lines[i]
    local at = line.index
    out[i] = setmetatable({symbol = line.symbol, formula = line.formula,
      value = line.constant or at and record(raw, index, at) or check[line.name],
      unit = line.unit, clause = line.clause, says = line.symbol == "M" and check.pattern
        and "moment there, " .. check.pattern or line.says,
      own_units = line.own and true or nil}, meta)
  end
  return out
end

return steps
