-- SPDX-License-Identifier: MIT
-- The tree of numbers as JSON and as CSV: each number in full, with its unit.
local dkjson = require "dkjson"
local escape = require "netsection.document.escape"
local grid = require "netsection.grid.tree"
local tree_ = require "netsection.numbers_tree"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local writer = {}

-- The shortest text that reads back as the same number; nothing is not signed.
local function exact(x)
  if x == 0 then return "0" end
  if math.type(x) == "integer" then return ("%d"):format(x) end
  if x ~= x or x == math.huge or x == -math.huge then
    error("numbers: a number that is not finite", 0)
  end
  for figures = 15, 17 do
    local s = (("%." .. figures .. "g"):format(x):gsub(",", "."))
    if tonumber(s) == x then return s end
  end
end

local NUMBER = {__tojson = function(self) return self[1] end}

-- A copy whose numbers write themselves in full, and whose texts are valid UTF-8.
local function writable(v)
  if math.type(v) then return setmetatable({exact(v)}, NUMBER) end
  if type(v) == "string" then return escape.text(v) end
  if type(v) ~= "table" then return v end
  local copy = {}
  for _, key in ipairs(tree_.keys(v)) do copy[key] = writable(v[key]) end
  return setmetatable(copy, getmetatable(v))
end

--- The tree as JSON.
function writer.json(tree)
  return (dkjson.encode(writable(tree), {indent = true})) .. "\n"
end

-- Units by the last word of a name where nothing beside it says them.
local UNIT = {at = "in", x = "in", h = "in", y = "in", D = "in", b = "in", d = "in",
  x1 = "in", x2 = "in", h1 = "in", h2 = "in", y1 = "in", y2 = "in", from = "in",
  to = "in", length = "in", measured = "in", limit = "in", spacing = "in",
  overhang_left = "in", overhang_right = "in", moment_at = "in", shear_at = "in",
  live = "in", total = "in", moment = "lb-in", moment_ft_lb = "ft-lb", shear = "lb",
  most = "lb", least = "lb", full = "lb", demand_ft_lb = "ft-lb",
  capacity_ft_lb = "ft-lb", value_ft_lb = "ft-lb", joist_ft_lb = "ft-lb",
  new_ft_lb = "ft-lb", Fb = "psi", Ft = "psi", Fv = "psi", Fc_perp = "psi", Fc = "psi",
  E = "psi", Emin = "psi", w_D = "plf", w_L = "plf", w = "plf", plf_from = "plf",
  plf_to = "plf", lb = "lb", temperature = "F", M_most = "lb-in", M_least = "lb-in",
  M_full = "lb-in", V_most = "lb", V_least = "lb", V_full = "lb", lip_force = "lb",
  carry = "lb",
  width = "in", deck = "in", dead_lb = "lb", total_lb = "lb",
  construction_live_psf = "psf"}

for key, unit in pairs(grid.units) do UNIT[key] = unit end

local SAME = {demand = true, capacity = true, value = true}

local function unit_of(owner, key, path)
  if SAME[key] and owner.unit then return owner.unit end
  if (key == "dead" or key == "live") and path:find "%.inputs%." then return "psf" end
  if key == "dead" then return "lb" end
  return UNIT[key] or math.type(key) and "in" or ""
end

-- Calls say(path, number, unit) for every number, in order.
local function walk(t, path, say)
  for _, key in ipairs(tree_.keys(t)) do
    local v, name = t[key], path == "" and tostring(key) or path .. "." .. tostring(key)
    if math.type(v) then
      say(name, v, unit_of(t, key, name))
    elseif type(v) == "table" then
      walk(v, name, say)
    end
  end
end

--- The tree as CSV: name, value, unit.
function writer.csv(tree)
  local out = {"name,value,unit"}
  walk(tree, "", function(name, v, unit)
    out[#out + 1] = ("%s,%s,%s"):format(escape.csv(name), exact(v), escape.csv(unit))
  end)
  for _, key in ipairs(tree_.keys(tree.joists)) do
    out[#out + 1] = ("%s,%s,text"):format(escape.csv("joists." .. key .. ".action_text"),
      escape.csv(tree.joists[key].action_text))
  end
  return table.concat(out, "\r\n") .. "\r\n"
end

return writer
