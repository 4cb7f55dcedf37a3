-- SPDX-License-Identifier: MIT
-- Ordered tables, which write themselves as JSON in the order in which they were filled.
local tree = {}

-- An object from pairs {key, value}; what is nil is left out.
local function object(pairs_list)
  local order, o = {}, {}
  for i = 1, #pairs_list do
    local key, value = pairs_list[i][1], pairs_list[i][2]
    if value ~= nil then
      order[#order + 1] = key
      o[key] = value
    end
  end
  return setmetatable(o, {__jsontype = "object", __jsonorder = order})
end

local function put(o, key, value)
  if value == nil then return end
  if o[key] == nil then table.insert(getmetatable(o).__jsonorder, key) end
  o[key] = value
end

local function array(list)
  return setmetatable(list, {__jsontype = "array"})
end

local function each(list, make)
  local out = {}
  for i, v in ipairs(list or {}) do out[i] = make(v, i) end
  return array(out)
end

-- Keys of a table or places of a list in their order.
local function keys_of(t)
  local order = getmetatable(t) and getmetatable(t).__jsonorder
  if order then return order end
  local list = {}
  for i = 1, #t do list[i] = i end
  return list
end

tree.object, tree.put, tree.array, tree.each = object, put, array, each
tree.keys = keys_of

return tree
