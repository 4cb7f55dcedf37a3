-- SPDX-License-Identifier: MIT
-- JSON against a JSON Schema, by keywords that lua/netsection/data/numbers.schema.json
-- uses (draft 2020-12); any other keyword raises, so that none is passed over.
local json = require "dkjson"

local schema = {}

local KNOWN = {["$schema"] = 1, ["$id"] = 1, ["$defs"] = 1, ["$ref"] = 1, title = 1,
  description = 1, type = 1, properties = 1, required = 1, additionalProperties = 1,
  items = 1, enum = 1, minimum = 1}

local function type_of(v)
  if type(v) == "table" then
    local kind = (getmetatable(v) or {}).__jsontype
    return kind == "array" and "array" or kind == "object" and "object"
      or (next(v) == nil or v[1] ~= nil) and "array" or "object"
  end
  return type(v)
end

local function has_type(v, wanted)
  local kind = type_of(v)
  for _, name in ipairs(type(wanted) == "table" and wanted or {wanted}) do
    if name == kind or name == "integer" and kind == "number" and v % 1 == 0 then
      return true
    end
  end
  return false
end

local look

local function look_into(root, s, v, path, say)
  local props = s.properties or {}
  for _, name in ipairs(s.required or {}) do
    if v[name] == nil then say(path, "has no '" .. name .. "'") end
  end
  local names = {}
  for name in pairs(v) do names[#names + 1] = name end
  table.sort(names)
  for _, name in ipairs(names) do
    local below = path .. "/" .. name
    if props[name] then
      look(root, props[name], v[name], below, say)
    elseif s.additionalProperties == false then
      say(below, "is not described")
    elseif s.additionalProperties then
      look(root, s.additionalProperties, v[name], below, say)
    end
  end
end

function look(root, s, v, path, say)
  for word in pairs(s) do
    if not KNOWN[word] then error("the schema has a keyword unknown here: " .. word) end
  end
  if s["$ref"] then
    local name = s["$ref"]:match "^#/%$defs/(.+)$"
    return look(root, assert(root["$defs"][name], s["$ref"]), v, path, say)
  end
  if s.type and not has_type(v, s.type) then
    say(path, ("is a %s"):format(type_of(v)))
    return
  end
  if s.enum then
    local found
    for _, word in ipairs(s.enum) do found = found or word == v end
    if not found then say(path, "is none of the words it may be: " .. tostring(v)) end
  end
  if s.minimum and type(v) == "number" and v < s.minimum then
    say(path, "is less than " .. s.minimum)
  end
  local kind = type_of(v)
  if kind == "array" and s.items then
    for i, item in ipairs(v) do look(root, s.items, item, path .. "/" .. i - 1, say) end
  elseif kind == "object" and (s.properties or s.additionalProperties ~= nil
    or s.required) then
    look_into(root, s, v, path, say)
  end
end

function schema.read(path)
  local file <close> = assert(io.open(path, "rb"))
  return assert(json.decode(file:read "a"))
end

schema.numbers = "lua/netsection/data/numbers.schema.json"

--- What of a JSON text is not as the schema says: a list of lines.
function schema.faults(s, said)
  local value, _, problem = json.decode(said, 1, json.null)
  if value == nil then return {"no JSON: " .. tostring(problem)} end
  local list = {}
  look(s, s, value, "", function(path, what)
    list[#list + 1] = (path == "" and "/" or path) .. " " .. what
  end)
  return list
end

return schema
