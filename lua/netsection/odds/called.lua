-- SPDX-License-Identifier: MIT
-- A Lua function as the model of a question: called once for each draw, in order.
local core = require "netsection.core"
local inputs = require "netsection.odds.inputs"
local point = require "netsection.point"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local called = {}
called.__index = called

-- Actions of a model that names none.
local WITHIN, OVER = "ratio to 1", "ratio over 1"

-- @param f function of a table of values by name: a ratio (nil: no capacity) and, if it
--   has one, the name of an action
function called.new(f, list, full)
  return setmetatable({f = f, inputs = list, full = full, words = {}, code_of = {}},
    called)
end

function called:code(word)
  if not self.code_of[word] then
    self.words[#self.words + 1] = word
    self.code_of[word] = #self.words
  end
  return self.code_of[word]
end

local function described(x)
  local names = {}
  for name in pairs(x) do names[#names + 1] = name end
  table.sort(names, point.less)
  for i, name in ipairs(names) do
    names[i] = ("%s = %s"):format(name, tostring(x[name]))
  end
  return table.concat(names, ", ")
end

function called:call(x)
  local ratio, action = self.f(x)
  if ratio ~= nil and (type(ratio) ~= "number" or ratio ~= ratio) then
    error(("odds: model: a ratio or nil expected, got %s, at %s"):format(
      ratio ~= ratio and "NaN" or tostring(ratio), described(x)), 0)
  elseif action ~= nil and type(action) ~= "string" then
    error(("odds: model: the name of an action expected, got a %s, at %s"):format(
      type(action), described(x)), 0)
  end
  if ratio and ratio == math.huge then ratio = nil end
  if not action then action = (ratio or math.huge) > self.full and OVER or WITHIN end
  return ratio, self:code(action)
end

-- Ratio and code of the action at the values of all inputs.
-- @param at list: a value per input, of a choice its number
function called:at(at)
  local x = {}
  for k, input in ipairs(self.inputs) do x[input.name] = inputs.value(input, at[k]) end
  local ratio, code = self:call(x)
  return {ratio = ratio, action = self.words[code]}
end

-- Iterates over the words of actions and their codes.
function called:action_codes()
  local i = 0
  return function()
    i = i + 1
    return self.words[i], self.words[i] and i
  end
end

-- What is printed: the answer at the medians.
function called:nominal()
  local at = {}
  for k, input in ipairs(self.inputs) do at[k] = inputs.at(input, 0.5) end
  return self:at(at)
end

-- Answers at several places.
function called:each(places)
  local answers = {}
  for i, at in ipairs(places) do answers[i] = self:at(at) end
  return answers
end

-- @param columns one of n numbers per input
-- @return {ratio = column, action = column of codes}
function called:work(columns, n)
  local ratios, actions, x = core.numbers(n), core.numbers(n), {}
  local list = self.inputs
  for i = 1, n do
    for k = 1, #list do
      local input, v = list[k], columns[k][i]
      if input.values then v = input.values[math.tointeger(v)] end
      x[input.name] = v
    end
    local ratio, code = self:call(x)
    if ratio then core.set(ratios, i, ratio) end
    core.set(actions, i, code)
  end
  return {ratio = ratios, action = actions}
end

return called
