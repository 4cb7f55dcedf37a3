-- SPDX-License-Identifier: MIT
-- Uncertain inputs: a name and a distribution each, read once into what the core draws
-- from.
local core = require "netsection.core"
local ordered = require "netsection.point".pairs
local point = require "netsection.point"
local units = require "netsection.units"
local tostring = require "netsection.point".text

local inputs = {}

inputs.most = 40
local MOST_VALUES = 64

local LAWS = {"normal", "lognormal", "gumbel", "choice", "fixed"}
local FIELDS = {name = true, normal = true, lognormal = true, gumbel = true,
  choice = true, weights = true, fixed = true, source = true, with = true}

local function finite(x)
  return type(x) == "number" and x == x and math.abs(x) < math.huge
end

-- Two numbers of a law, and the one limit that each law has.
local TAKES = {
  normal = {"{mean, standard deviation}", function(_, b) return b >= 0 end},
  lognormal = {"{median, standard deviation of ln x}", function(a, b)
    return a > 0 and b >= 0
  end},
  gumbel = {"{mean, coefficient of variation}", function(a, b)
    return a > 0 and b >= 0
  end}}

local function read_law(kind, t, number)
  local takes, fits = TAKES[kind][1], TAKES[kind][2]
  if type(t) ~= "table" or #t ~= 2 then
    return nil, ("%s: %s expected"):format(kind, takes)
  end
  local a, why = number(t[1])
  if not a then return nil, ("%s: %s"):format(kind, why) end
  local b, other = number(t[2])
  if not b then return nil, ("%s: %s"):format(kind, other) end
  if not fits(a, b) then
    return nil, point.format("%s: %s expected, got {%g, %g}", kind, takes, a, b)
  end
  return {of = kind, a = a, b = b}
end

-- Weights are the engineer's: there are none by default.
local function read_choice(t)
  local values, weights = t.choice, t.weights
  if type(values) ~= "table" or #values < 1 or #values > MOST_VALUES then
    return nil, ("choice: a list of 1 to %d values expected"):format(MOST_VALUES)
  end
  if type(weights) ~= "table" or #weights ~= #values then
    return nil, "weights: one for each value of choice expected, of sum 1"
  end
  local upto, sum = {}, 0
  for i, w in ipairs(weights) do
    if not finite(w) or w < 0 then
      return nil, ("weights: number %d: 0 or more expected, got %s"):format(i,
        tostring(w))
    end
    sum = sum + w
    upto[i] = sum
  end
  if math.abs(sum - 1) > 1e-9 then
    return nil, point.format("weights: their sum is %.6g, 1 expected", sum)
  end
  return {of = "choice", upto = upto}
end

local function read_one(t, number)
  local kind
  for _, name in ipairs(LAWS) do
    if t[name] ~= nil and kind then
      return nil, ("%s and %s: one of them"):format(kind, name)
    end
    if t[name] ~= nil then kind = name end
  end
  if not kind then
    return nil, "a distribution expected: normal, lognormal, gumbel, choice or fixed"
  end
  if t.weights ~= nil and kind ~= "choice" then
    return nil, "weights: only a choice has them"
  end
  if kind == "choice" then return read_choice(t) end
  if kind == "fixed" then
    local a, why = number(t.fixed)
    if not a then return nil, "fixed: " .. why end
    return {of = "fixed", a = a}
  end
  return read_law(kind, t[kind], number)
end

-- Two inputs that go together: the number of the other, which stands before this one and
-- goes with none, and the correlation of both scores. The laws are normal or lognormal,
-- so that a score is all that the copula needs.
local function read_with(t, law, list)
  local name, r = t[1], t[2]
  if type(t) ~= "table" or #t ~= 2 or type(name) ~= "string" or not finite(r)
    or math.abs(r) >= 1 then
    return nil, "with: {an input before it, correlation between -1 and 1} expected"
  end
  for k, input in ipairs(list) do
    if input.name == name then
      for _, of in ipairs {law.of, input.law.of} do
        if of ~= "normal" and of ~= "lognormal" then
          return nil, ("with: only normal and lognormal inputs go together, not %s")
            :format(of)
        end
      end
      if input.law.with then
        return nil, ("with: '%s' goes with another input itself"):format(name)
      end
      return k, r
    end
  end
  return nil, ("with: no input '%s' before it"):format(name)
end

local function plain_number(x)
  if finite(x) then return x end
  return nil, ("a finite number expected, got %s"):format(tostring(x))
end

-- @param list {{name =, normal = {mean, sd}}, ...}
-- @param read function of a name: how its numbers are read (lengths as text), or nil
-- @return list of {name =, law =, values = of a choice, weights =, source =, with = name
--   of the input it goes with}, or nil and what is wrong
function inputs.read(list, read)
  if type(list) ~= "table" or #list < 1 or #list > inputs.most then
    return nil, ("inputs: a list of 1 to %d expected, e.g. {{name = \"d\", normal = "
      .. "{9.25, 1/32}}}"):format(inputs.most)
  end
  local out, seen = {}, {}
  for i, t in ipairs(list) do
    local name = type(t) == "table" and t.name
    if type(name) ~= "string" or name == "" then
      return nil, ("inputs: number %d: a name expected"):format(i)
    end
    for field in ordered(t) do
      if not FIELDS[field] then
        return nil, ("inputs: %s: unknown field '%s' (takes name, %s, weights, with, "
          .. "source)")
          :format(name, tostring(field), table.concat(LAWS, ", "))
      end
    end
    if seen[name] then return nil, ("inputs: %s: twice"):format(name) end
    local law, why = read_one(t, read and read(name) or plain_number)
    if law and t.with ~= nil then
      local k, r = read_with(t.with, law, out)
      if k then law.with, law.r = k, r else law, why = nil, r end
    end
    if not law then return nil, ("inputs: %s: %s"):format(name, why) end
    seen[name] = true
    out[i] = {name = name, law = law, values = t.choice, weights = t.weights,
      source = t.source, with = law.with and out[law.with].name}
  end
  return out
end

--- Inputs that vary by themselves, each with those that go with it.
-- @return list of {name =, members = {numbers}}; the name of several is all of theirs
function inputs.groups(list)
  local out, of = {}, {}
  for k, input in ipairs(list) do
    if input.law.with then
      local group = of[input.law.with]
      group.name = group.name .. " with " .. input.name
      group.members[#group.members + 1] = k
    else
      of[k] = {name = input.name, members = {k}}
      out[#out + 1] = of[k]
    end
  end
  return out
end

-- The value of an input below which the part u of all lies; of a choice its number.
function inputs.at(input, u)
  return core.law_at(input.law, u)
end

-- What an input is at such a value.
function inputs.value(input, x)
  return input.values and input.values[math.tointeger(x)] or x
end

-- Six figures, without zeros that say nothing.
local function number_text(x)
  local s = units.significant(x, 6)
  if s:find(".", 1, true) and not s:find "e" then
    s = s:gsub("0+$", ""):gsub("%.$", "")
  end
  return s
end
inputs.number_text = number_text

local function says_law(input)
  local law = input.law
  if law.of == "normal" then
    return ("normal, mean %s, sd %s"):format(number_text(law.a), number_text(law.b))
  elseif law.of == "lognormal" then
    return ("lognormal, median %s, sd of the log %s"):format(number_text(law.a),
      number_text(law.b))
  elseif law.of == "gumbel" then
    return ("Gumbel, mean %s, COV %s"):format(number_text(law.a), number_text(law.b))
  elseif law.of == "fixed" then
    return ("held at %s"):format(number_text(law.a))
  end
  local parts = {}
  for i, value in ipairs(input.values) do
    parts[i] = ("%s %s"):format(inputs.name_of(value, i), number_text(input.weights[i]))
  end
  return "one of " .. table.concat(parts, ", ")
end

-- A distribution in words: "normal, mean 9.25, sd 0.03125".
function inputs.says(input)
  if not input.with then return says_law(input) end
  return ("%s, with %s (correlation %s)"):format(says_law(input), input.with,
    number_text(input.law.r))
end

-- A value of a choice in text.
function inputs.name_of(value, i)
  if type(value) == "number" then return number_text(value) end
  if type(value) == "table" then
    return tostring(value.name or value.source or "value " .. i)
  end
  return tostring(value)
end

return inputs
