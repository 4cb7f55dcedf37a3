-- SPDX-License-Identifier: MIT
-- Numbers in texts with a decimal point, and texts in the order of their bytes, whatever
-- locale the host program has set: string.format, tostring, `..` and `<` follow it.
local core = require "netsection.core"

local point = {}

local function has_point()
  return ("%.1f"):format(0.5) == "0.5"
end

-- A text that is one number, with its point.
local function pointed(said)
  return (said:gsub("[^%w+-]+", ".", 1))
end

-- One number by one directive; blanks that fill its width stay.
local function one(directive, x)
  local before, said, after = directive:format(x):match "^(%s*)(.-)(%s*)$"
  return before .. pointed(said) .. after
end

--- As string.format, with decimal points.
function point.format(text, ...)
  if has_point() then return text:format(...) end
  local values, n = table.pack(...), 0
  return (text:gsub("%%[-+ #0]*%d*%.?%d*[%a%%]", function(directive)
    if directive == "%%" then return "%" end
    n = n + 1
    if directive:find "[aAeEfgG]$" then return one(directive, values[n]) end
    local value = values[n]
    return directive:format(math.type(value) and directive:find "s$" and point.text(value)
      or value)
  end))
end

--- A number as tostring gives it; what is none as it is.
function point.text(x)
  return math.type(x) == "float" and pointed(tostring(x)) or tostring(x)
end

--- All digits of a number: what is read back is the same.
function point.exact(x)
  return pointed(("%.17g"):format(x))
end

--- Order by bytes, for table.sort: `<` of texts follows the host's locale as well.
function point.less(a, b)
  if type(a) ~= "string" or type(b) ~= "string" then return a < b end
  if os.setlocale(nil, "collate") == "C" then return a < b end -- by bytes there
  return core.less(a, b)
end

--- Keys of a table in order: texts by their bytes, others by less(a, b).
function point.keys(t, less)
  local keys, texts = {}, os.setlocale(nil, "collate") == "C" -- `<` is by bytes there
  for key in pairs(t) do
    keys[#keys + 1] = key
    texts = texts and type(key) == "string"
  end
  if texts then table.sort(keys) else table.sort(keys, less) end
  return keys
end

local function as_texts(a, b) return point.less(tostring(a), tostring(b)) end

--- As pairs, in the order of the keys as texts: what is wrong first is told first.
function point.pairs(t)
  local keys = point.keys(t, as_texts)
  local i = 0
  return function()
    i = i + 1
    local key = keys[i]
    if key ~= nil then return key, t[key] end
  end
end

return point
