-- SPDX-License-Identifier: MIT
-- Holds a table of data against the list of fields it may have. Each thing wrong is told
-- with its place: {code =, path =, text =}; nothing is filled in and nothing is let by.
--
-- A schema is {field = what, ...}, and what is one of
--   {"number", low, high}  {"whole", low, high}  {"text"}  {"flag"}  {"word", {words}}
--   {"list", what, least, most}  {"table", schema}  {"map", what}  {"any"}
--   {"either", what, another where it is a table}
-- with needed = true where it must be there.
local distance = require "netsection.distance"
local point = require "netsection.point"
local plain = require "netsection.document.escape".text
local tostring = require "netsection.point".text

local check = {}

local function shown(value)
  if type(value) == "string" then return ("'%s'"):format(value:sub(1, 40)) end
  if type(value) == "number" then return point.format("%.6g", value) end
  return type(value) == "table" and "a table" or tostring(value)
end

--- Of some names the one that a misspelled word was meant for, or nil.
function check.near(word, names)
  local best, least = nil, 3
  for _, name in ipairs(names) do
    -- as many letters at least as one is longer than the other
    local far = math.abs(#word - #name)
    far = far > least and far or distance(word:lower(), name:lower())
    if far < least or far == least and best and name < best then
      best, least = name, far
    end
  end
  return best
end

--- A list of problems with a head for its texts, e.g. "rules 'own'".
function check.list(head)
  local found = {}
  function found.add(code, path, message, ...)
    local text = select("#", ...) > 0 and point.format(message, ...) or message
    found[#found + 1] = {code = code, path = path,
      text = plain(("%s%s: %s"):format(head, path ~= "" and ", " .. path or "", text))}
  end
  return found
end

--- The list of problems of a pack, begun with what is wrong with its name.
-- @param what "rules" or "standard"
-- @return list; whether the pack is a table at all
function check.begin(what, pack)
  if type(pack) ~= "table" then
    local found = check.list(what)
    found.add("PACK-FIELD-TYPE", "", "a table expected, got %s", type(pack))
    return found, false
  end
  local name = type(pack.name) == "string" and pack.name
  local found = check.list(("%s '%s'"):format(what, name or "?"))
  if name and not name:match "^[%w][%w%-%.]*$" then
    found.add("PACK-NAME", "name", "letters, digits, hyphens and points expected, "
      .. "got '%s'", name:sub(1, 40))
  end
  return found, true
end

local tests = {}

local function wrong(found, path, expected, value)
  found.add("PACK-FIELD-TYPE", path, "%s expected, got %s", expected, shown(value))
  return false
end

function tests.number(value, what, path, found)
  if type(value) ~= "number" or value ~= value or value == math.huge
    or value == -math.huge then
    return wrong(found, path, "a number", value)
  end
  if value < (what[2] or -math.huge) or value > (what[3] or math.huge) then
    found.add("PACK-VALUE-RANGE", path, "%s is outside %g to %g", shown(value), what[2],
      what[3] or math.huge)
    return false
  end
  return true
end

function tests.whole(value, what, path, found)
  if math.type(value) ~= "integer" then
    return wrong(found, path, "a whole number", value)
  end
  return tests.number(value, what, path, found)
end

function tests.text(value, _, path, found)
  if type(value) ~= "string" then return wrong(found, path, "a text", value) end
  if value:find "[\0-\8\11-\31\127]" or not utf8.len(value) or #value > 2000 then
    return wrong(found, path, "a text of at most 2000 printable characters", "another")
  end
  return true
end

function tests.flag(value, _, path, found)
  return type(value) == "boolean" or wrong(found, path, "true or false", value)
end

function tests.word(value, what, path, found)
  for _, word in ipairs(what[2]) do
    if value == word then return true end
  end
  local near = type(value) == "string" and check.near(value, what[2])
  found.add(what.code or "PACK-FIELD-TYPE", path, "one of %s expected, got %s%s",
    table.concat(what[2], ", "), shown(value), near and (" (is '%s' meant?)"):format(near)
      or "")
  return false
end

function tests.list(value, what, path, found)
  if type(value) ~= "table" then return wrong(found, path, "a list", value) end
  local least, most = what[3] or 0, what[4] or math.huge
  if #value < least or #value > most then
    found.add("PACK-VALUE-RANGE", path, "%d entries, where %d to %g are expected", #value,
      least, most)
    return false
  end
  for key in pairs(value) do
    if math.type(key) ~= "integer" or key < 1 or key > #value then
      return wrong(found, path, "a list without gaps or names", shown(key))
    end
  end
  local good = true
  for i = 1, #value do
    good = check.value(value[i], what[2], path .. "[" .. i .. "]", found) and good
  end
  return good
end

function tests.map(value, what, path, found)
  if type(value) ~= "table" then return wrong(found, path, "a table", value) end
  local good = true
  if what[2][1] == "any" then return good end
  for _, key in ipairs(check.keys(value)) do
    good = check.value(value[key], what[2], ("%s[%s]"):format(path, shown(key)), found)
      and good
  end
  return good
end

tests["table"] = function(value, what, path, found)
  if type(value) ~= "table" then return wrong(found, path, "a table", value) end
  return check.fields(value, what[2], path, found)
end

function tests.either(value, what, path, found)
  return check.value(value, type(value) == "table" and what[3] or what[2], path, found)
end

function tests.any()
  return true
end

-- Numbers, then texts, then the rest.
local function by_kind(a, b)
  if type(a) == type(b) and (type(a) == "number" or type(a) == "string") then
    return point.less(a, b)
  elseif type(a) ~= type(b) then
    return type(a) < type(b)
  end
  return point.less(tostring(a), tostring(b))
end

--- Keys of a table in one order.
function check.keys(t) return point.keys(t, by_kind) end

-- Names of the fields of a schema; schemas stay as they are.
local names_of = setmetatable({}, {__mode = "k"})

local function names_in(schema)
  names_of[schema] = names_of[schema] or check.keys(schema)
  return names_of[schema]
end

--- One value against what is expected of it. @return true where it is that
function check.value(value, what, path, found)
  return tests[what[1]](value, what, path, found)
end

--- All fields of a table: those that are there, and those that are missing.
function check.fields(t, schema, path, found)
  local good, names = true, names_in(schema)
  local function at(field)
    field = type(field) == "string" and field or tostring(field)
    return path == "" and field or path .. "." .. field
  end
  for _, field in ipairs(check.keys(t)) do
    local what = schema[field]
    if not what then
      local near = type(field) == "string" and check.near(field, names)
      found.add("PACK-FIELD-UNKNOWN", at(field), "unknown field%s", near
        and (" (is '%s' meant?)"):format(near) or "")
      good = false
    elseif not check.value(t[field], what, at(field), found) then
      good = false
    end
  end
  for _, field in ipairs(names) do
    if schema[field].needed and t[field] == nil then
      found.add("PACK-FIELD-MISSING", at(field), "missing")
      good = false
    end
  end
  return good
end

return check
