-- SPDX-License-Identifier: MIT
-- The file of a summary of points: JSON that another machine reads back to the bit, and
-- that is held against its own sums before anything is added to it.
local core = require "netsection.core"
local file = require "netsection.file"
local point = require "netsection.point"
local json = require "dkjson"

local saved = {}

local FORMAT = "netsection summary of a sweep, 1"
-- Leading bits of a number by which it is counted: its size to one part in 1024.
saved.bits = 22
-- Largest summary that is read, bytes.
local LARGEST = 64 << 20

-- A number in JSON that reads back to the same bits, which the library's own does not.
local exact = {__tojson = function(self) return core.number_text(self.value) end}

-- The same table for JSON: names in order, numbers to the last bit.
local function with_bits(v)
  if type(v) == "table" then
    local out, names = {}, {}
    for k, of in pairs(v) do
      out[k] = with_bits(of)
      if type(k) == "string" then names[#names + 1] = k end
    end
    table.sort(names, point.less)
    return setmetatable(out, names[1] and {__jsonorder = names} or nil)
  end
  return math.type(v) == "float" and setmetatable({value = v}, exact) or v
end

local function is_count(v) return math.type(v) == "integer" and v >= 0 end
local function is_number(v) return type(v) == "number" and math.abs(v) < math.huge end

local function sound_histogram(h)
  if not (type(h) == "table" and is_number(h.from) and is_number(h.to) and h.from < h.to
    and is_count(h.under) and is_count(h.over) and type(h.counts) == "table"
    and #h.counts > 0) then
    return false
  end
  for _, n in ipairs(h.counts) do
    if not is_count(n) then return false end
  end
  return true
end

local function sound_extreme(e)
  return type(e) == "table" and is_number(e.value) and type(e.row) == "table"
end

-- Numbers by their leading bits add up to how many there are.
local function sound_keys(c)
  local n = 0
  for k, m in pairs(c.keys) do
    local key = math.tointeger(tonumber(k))
    if not (key and key >= 0 and key < 1 << saved.bits and is_count(m)) then
      return false
    end
    n = n + m
  end
  return n == c.count
end

local function sound_column(c)
  if type(c) ~= "table" then return false end
  if c.words ~= nil then
    if type(c.words) ~= "table" then return false end
    for word, n in pairs(c.words) do
      if type(word) ~= "string" or not is_count(n) then return false end
    end
    return true
  end
  return is_count(c.count) and is_number(c.mean) and is_number(c.squares)
    and type(c.keys) == "table" and sound_keys(c)
    and (c.count == 0 or sound_extreme(c.max) and sound_extreme(c.min))
    and (c.histogram == nil or sound_histogram(c.histogram))
end

local function sound(t)
  if not (type(t.sweep) == "string" and is_count(t.of) and type(t.parts) == "table"
    and type(t.columns) == "table") then
    return false
  end
  for _, p in ipairs(t.parts) do
    if type(p) ~= "table" or not (is_count(p[1]) and is_count(p[2])
      and p[1] + p[2] <= t.of) then
      return false
    end
  end
  for _, c in pairs(t.columns) do
    if not sound_column(c) then return false end
  end
  return true
end

--- The file of what a summary holds.
function saved.text(data)
  local t = {format = FORMAT, sweep = data.sweep, of = data.of, parts = data.parts,
    columns = data.columns}
  return json.encode(with_bits(t), {indent = true}) .. "\n"
end

--- What a summary holds, from its file. @return a table, or nil and a message with path
function saved.read(path)
  local text, why = file.read(path, LARGEST)
  if not text then return nil, why end
  local t = json.decode(text, 1, nil, nil, nil)
  if type(t) ~= "table" or t.format ~= FORMAT then
    return nil, path .. ": no summary of a sweep"
  elseif not sound(t) then
    return nil, path .. ": a summary of a sweep that was damaged or changed"
  end
  t.format = nil
  return t
end

return saved
