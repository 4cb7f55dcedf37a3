-- SPDX-License-Identifier: MIT
-- The core beside other ways to write the same review, each measured by a program of its
-- own on arrays of its own: numpy (tests/bench_numpy.py), and C with all sizes fixed
-- (tests/bench_fixed.c). All get one file of numbers, and all must agree with the core
-- on every random joist in it before a rate is shown.
local core = require "netsection.core"

local ROUNDS = 3
local NONE = -1 -- blocking that is not there
local PLACES = {below = 1, above = 2}
local SHAPE = {"hole", "hole", "notch", "slot"}

-- Fields of a joist and of its cuts, in the order of the file; the programs have the
-- same list.
local JOIST = {"b", "d", "plies", "spacing", "dead", "live", "Fb", "Ft", "Fv", "Fc_perp",
  "Fc", "E", "Emin", "CF", "CF_t", "CF_c", "wet", "temperature", "incised", "repetitive",
  "members", "sheathed", "Kcr", "limit_live", "limit_total", "notch_raiser"}
local CUT = {
  hole = {"at", "diameter", "stretch", "from_right", "place", "off"},
  notch = {"from", "to", "depth", "overcut", "split_length", "taper", "accept",
    "top_face", "from_right"},
  slot = {"from", "to", "height", "from_right", "place", "off"}}

local function number(value)
  if type(value) == "boolean" then return value and 1 or 0 end
  return value or 0
end

local function numbers_of(m)
  local list = {m.span[1], m.bearing[1], m.bearing[2]}
  for _, name in ipairs(JOIST) do list[#list + 1] = number(m[name]) end
  for k = 1, 2 do list[#list + 1] = m.blocking[k] or NONE end
  for c, kind in ipairs(SHAPE) do
    local cut = m.cuts[c]
    assert(cut.kind == kind, "a joist of another shape")
    for _, name in ipairs(CUT[kind]) do
      list[#list + 1] = name == "place" and (PLACES[cut.place] or 0)
        or name == "off" and (cut[cut.place] or 0)
        or name == "stretch" and (cut.stretch or 1) or number(cut[name])
    end
  end
  return list
end

-- Least and most of every field, in the same order.
local function ranges()
  local fields, low, high = core.fields(), {}, {}
  local known = {off = {low = 0, high = 24}, place = {low = 0, high = 2},
    from_right = {low = 0, high = 1}, top_face = {low = 0, high = 1}}
  local function add(name)
    local f = assert(known[name], name)
    low[#low + 1], high[#high + 1] = f.low, f.high
  end
  for _, f in ipairs(fields.cut) do known[f.name] = f end
  for _, f in ipairs(fields.joist) do known[f.name] = f end
  for _, name in ipairs {"span", "bearing", "bearing"} do add(name) end
  for _, name in ipairs(JOIST) do add(name) end
  for _, name in ipairs {"blocking", "blocking"} do add(name) end
  for _, kind in ipairs(SHAPE) do
    for _, name in ipairs(CUT[kind]) do add(name) end
  end
  return low, high
end

local function write(path, timed, models)
  local low, high = ranges()
  local file <close> = assert(io.open(path, "wb"))
  local function put(list)
    file:write(string.pack(("<" .. ("d"):rep(#list)), table.unpack(list)))
  end
  put {#models, #low}
  put(low)
  put(high)
  put(numbers_of(timed))
  for _, m in ipairs(models) do put(numbers_of(m)) end
end

-- Runs a program; its rate, what it says of how, and its answers.
local function run(command)
  local pipe <close> = assert(io.popen(command))
  local first = pipe:read "l"
  if not first then error("no answer from " .. command, 0) end
  local rate, how = first:match "^(%S+)%s*(.*)$"
  local answers = {}
  for line in pipe:lines() do
    local list = {}
    if line ~= "-" then -- not refused
      for word in line:gmatch "%S+" do list[#list + 1] = tonumber(word) end
    end
    answers[#answers + 1] = list
  end
  return tonumber(rate), how, answers
end

local function quoted(path)
  return "'" .. path:gsub("'", "'\\''") .. "'"
end

local function is_there(command)
  return os.execute(command .. " >/dev/null 2>&1") == true
end

local function describe(o, count)
  local descriptions, models, expected = {}, {}, {}
  while #models < count do
    local t = o.description(SHAPE)
    local m, found = o.joist_of(t)
    if #found == 0 then
      descriptions[#descriptions + 1], models[#models + 1] = t, m
      expected[#expected + 1] = o.answers(m)
    end
  end
  return descriptions, models, expected
end

local function compare(o, who, descriptions, expected, answers)
  if #answers ~= #expected then
    error(("%s gave %d answers to %d joists"):format(who, #answers, #expected), 0)
  end
  for k, got in ipairs(answers) do o.agree(k, who, descriptions[k], expected[k], got) end
end

local function row(name, rate, o)
  print(("%-46s %12.0f %-11s %9.1f"):format(name, rate, "joists/s", rate / o.plain))
end

-- The first Python that has numpy.
local function python()
  for _, name in ipairs {os.getenv "PYTHON" or "python3", "/usr/bin/python3"} do
    if is_there(name .. " -c 'import numpy'") then return name end
  end
end

local function programs(o)
  local name, list = python(), {{name = "numpy"}, {name = "C of fixed sizes"}}
  if name then
    list[1].command = name .. " tests/bench_numpy.py"
    list[1].detail = "numpy, blocks of %s joists"
  end
  if is_there("test -x " .. quoted(o.fixed)) then
    list[2].command = quoted(o.fixed)
    list[2].detail = "C with all sizes fixed, %s lanes a call"
  end
  return list
end

-- One round: everything once; the best rates so far are kept. Rounds are apart in time,
-- since a machine that others use is not the same from one second to the next.
local function round(o, list, path, descriptions, expected)
  o.alone = math.max(o.alone, o.measure_core())
  o.plain = math.max(o.plain, o.measure_plain())
  for _, p in ipairs(list) do
    if p.command then
      local rate, how, answers = run(("%s %s %g"):format(p.command, path,
        o.seconds / ROUNDS))
      compare(o, p.name, descriptions, expected, answers)
      if rate > (p.rate or 0) then p.rate, p.how = rate, how end
    end
  end
end

local function measure(o, path)
  local descriptions, models, expected = describe(o, o.count)
  local list = programs(o)
  write(path, o.model, models)
  for _ = 1, ROUNDS do round(o, list, path, descriptions, expected) end
  return list
end

local function print_rows(o, list)
  for _, p in ipairs(list) do
    if p.rate then
      row(p.detail:format(p.how), p.rate, o)
    else
      print(("%-46s %12s"):format(p.name, "not here"))
    end
  end
  row("core alone, 16 lanes a call", o.alone, o)
  row("plain Lua", o.plain, o)
end

-- @param o seconds; rates of plain Lua and of the core, plain and alone, and functions
--   that measure them again; model, the joist that was measured; description(kinds), a
--   random one; joist_of(t), its model; answers(m) of the core; agree(...), which ends
--   the run where answers differ; fixed, path of the program in C; count of random joists
return function(o)
  local path <close> = setmetatable({name = os.tmpname()},
    {__close = function(p) os.remove(p.name) end})
  local list = measure(o, path.name)
  print()
  print(("two holes, a notch and a slot; answers agree to 1e-12 on %d random joists")
    :format(o.count))
  print(("%-46s %12s %-11s %9s"):format("", "one core", "", "plain Lua"))
  print_rows(o, list)
  print()
  print "All keep ratio, demand, capacity, place and combination of every check, none the"
  print "numbers behind them, which the core notes where one joist is reviewed by itself."
  for _, p in ipairs(list) do
    if p.rate then
      print(("core alone is %.2f times as fast as %s (%.2f times its time)")
        :format(o.alone / p.rate, p.name, p.rate / o.alone))
    end
  end
end
