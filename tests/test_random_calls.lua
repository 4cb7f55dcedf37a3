-- SPDX-License-Identifier: MIT
-- Random values to every public function, and to methods of what some of them give: what
-- they refuse is refused by their own words, not by a fault of Lua inside of the module.
-- Seeded; NETSECTION_CALLS is how many calls are made (`make misuse`: 200,000).
local lu = require "luaunit"
local model = require "netsection.model"
local ns = require "netsection"
local parts = require "netsection.parts"
local support = require "tests.support"
local system = require "tests.system"

local T = {}

local CALLS = tonumber(os.getenv "NETSECTION_CALLS" or "") or 1500
local SEED = tonumber(os.getenv "NETSECTION_SEED" or "") or 14

-- They write files or start programs; what they refuse is tested in test_files.lua.
local LEFT = {["ns.write"] = true, ["ns.package.write"] = true,
  ["ns.merge_shards"] = true, ["ns.workbook.write"] = true}

-- Fields of a joist and its parts, and all that the annotations name.
local function field_names()
  local seen, list = {}, {}
  local function add(name)
    if not seen[name] then list[#list + 1] = name end
    seen[name] = true
  end
  for _, name in ipairs(model.fields) do add(name) end
  for _, fields in pairs(parts.fields) do
    for _, name in ipairs(fields) do add(name) end
  end
  for _, path in ipairs(system.within("lua/types", "%.lua$")) do
    local file <close> = assert(io.open(path))
    for name in file:read("a"):gmatch "%-%-%-@field ([%a_][%w_]*)" do add(name) end
  end
  table.sort(list)
  return list
end

local FIELDS = field_names()

local BASE = {mark = "J", size = "2x10", species = "spf", grade = "No.2",
  span = "12-0", spacing = 16, dead = 10, live = 40, bearing = 3.5}

local PLAIN = {true, false, 0, 1, -1, 2, 3.5, 0 / 0, 1 / 0, -1 / 0, 1e300, -1e-300,
  math.mininteger, math.maxinteger, "", "x", "J", "12-0", "3-1/2 in", "80 plf",
  "left", "bottom",
  "cut", "bending", "ratio", "2x10", "No.2", "bolt", "\0", "\xFF\27[1m", "1e400",
  ("9"):rep(400), "-", "nan", io.stdout, print, function() end,
  function(...) return ... end, function() error "of the caller" end,
  coroutine.create(function() end)}

-- Values of the module's own, made once.
local function own_values()
  local joist = ns.joist(BASE)
  local bolt = ns.fastener {kind = "bolt", diameter = "1/2 in"}
  local floor = ns.floor {joists = {joist, joist:with {mark = "K"}}}
  return {joist, joist:review(), floor, floor:review(), bolt, ns.none,
    ns.hole {at = "5-0", diameter = 2}, ns.sever {from = "6-0", to = "6-3"},
    ns.notch {face = "bottom", from = "4-0", to = "4-3", depth = 1},
    ns.point {at = "6-0", load = "200 lb"}, ns.sister {fastener = bolt},
    ns.strap {}, ns.sweep {joist = joist, over = {live = {30, 40}}, values = {"ratio"},
      progress = false}, BASE}
end

local OWN = own_values()

local function value(random, depth)
  local kind = random:int(1, depth > 2 and 7 or 10)
  if kind <= 4 then return PLAIN[random:int(1, #PLAIN)] end
  if kind == 5 then return random:real(-50, 200) end
  if kind <= 7 then return OWN[random:int(1, #OWN)] end
  local t = {}
  if kind == 8 then
    for i = 1, random:int(0, 4) do t[i] = value(random, depth + 1) end
  elseif kind == 9 then
    for name, v in pairs(BASE) do t[name] = v end
  end
  for _ = 1, random:int(0, kind == 8 and 1 or 4) do
    t[FIELDS[random:int(1, #FIELDS)]] = value(random, depth + 1)
  end
  return t
end

local function functions()
  local list = {}
  local function add(name, f, first)
    if not LEFT[name] then list[#list + 1] = {name = name, f = f, first = first} end
  end
  for name, v in pairs(ns) do
    if type(v) == "function" then add("ns." .. name, v) end
    for inner, f in pairs(type(v) == "table" and v or {}) do
      if type(f) == "function" then add(("ns.%s.%s"):format(name, inner), f) end
    end
    local meta = type(v) == "table" and getmetatable(v)
    if meta and meta.__call then add("ns." .. name, v) end
  end
  for _, method in ipairs {{1, "with", "review", "longest_span", "largest", "fix",
    "sensitivity", "adjusted", "span_intervals"}, {2, "find", "profile"},
    {3, "joist", "fix", "review", "rank_fixes", "grid", "feel"},
    {13, "column", "at", "max", "min", "where", "joist", "quantiles"}} do
    local of = OWN[method[1]]
    for i = 2, #method do
      local f = of[method[i]]
      if type(f) == "function" then add("a value's " .. method[i], f, of) end
    end
  end
  table.sort(list, function(a, b) return a.name < b.name end)
  return list
end

-- Raised by Lua inside of the module, not by the module.
local function is_fault(message)
  if type(message) ~= "string" then return type(message) ~= "table" end
  return message:find "attempt to" ~= nil or message:find "stack overflow" ~= nil
    or message:find "assertion failed" ~= nil or message:find "bad argument" ~= nil
    or message:find "lua/netsection/" ~= nil or message:find "invalid order" ~= nil
end

local function shown(v, depth)
  if type(v) == "string" then return ("%q"):format(v:sub(1, 30)) end
  if type(v) ~= "table" or getmetatable(v) or depth > 3 then return tostring(v) end
  local out = {}
  for k, x in pairs(v) do out[#out + 1] = ("[%s]=%s"):format(k, shown(x, depth + 1)) end
  return "{" .. table.concat(out, ", ") .. "}"
end

function T.test_random_values_to_public_functions()
  local random, list, faults = support.random(SEED), functions(), {}
  lu.assertTrue(#list > 90, #list)
  local refused, done = 0, 0
  for i = 1, CALLS do
    local call = list[(i - 1) % #list + 1]
    local arguments = {value(random, 0), value(random, 0), value(random, 0)}
    if random:int(1, 3) == 1 then arguments[2], arguments[3] = nil, nil end
    if call.first then table.insert(arguments, 1, call.first) end
    local ok, message = pcall(call.f, table.unpack(arguments, 1, 4))
    refused, done = refused + (ok and 0 or 1), done + (ok and 1 or 0)
    if not ok and is_fault(message) then
      faults[#faults + 1] = ("%s, call %d: %s\n  %s"):format(call.name, i,
        tostring(message), shown(arguments, 0):sub(1, 600))
    end
  end
  lu.assertEquals(table.concat(faults, "\n"), "")
  lu.assertTrue(refused > CALLS / 4 and done > CALLS / 20, refused .. " " .. done)
end

return T
