-- SPDX-License-Identifier: MIT
-- What kinds of problems by a standard are held to: every key solved again on the kind's
-- other path, every wrong answer by its description, versions that are fair.
local lu = require "luaunit"
local homework = require "tests.homework"
local support = require "tests.support"

local close = support.close
local again = {}

again.versions = tonumber(os.getenv "NETSECTION_VERSIONS") or 20

function again.of(standard, kind, n)
  return homework.of(kind, n, {standard = standard})
end

--- Every key of some kinds.
function again.solved(standard, names)
  for _, name in ipairs(names) do
    local set = again.of(standard, name, again.versions)
    local k = set.problems[1].kind
    for _, student in ipairs(set.students) do
      local v, n = student[1], 0
      for symbol, x in pairs(k.check(v.p, v.s)) do
        if type(x) == "number" then
          close(v.s[symbol], x, 1e-6, ("%s, %s of %s"):format(name, symbol, k.source))
        else
          lu.assertEquals(v.s[symbol], x, name .. ", " .. symbol)
        end
        n = n + 1
      end
      lu.assertTrue(n >= 3, name)
    end
  end
end

--- Every wrong answer. @param plain {kind = {mistake = {symbol = function}}}
-- @return how many were compared
function again.mistaken(standard, names, plain)
  local compared = 0
  for _, name in ipairs(names) do
    for _, student in ipairs(again.of(standard, name, again.versions).students) do
      local v, s = student[1], {}
      for symbol, x in pairs(v.s) do s[symbol:gsub("'", "_")] = x end
      s.outdoors = v.p.service == 3
      for i, mistake in ipairs(v.kind.mistakes) do
        local told = plain[name][mistake.name]
        lu.assertNotNil(told, name .. ": " .. mistake.name)
        for _, symbol in ipairs(mistake.of) do
          local what = ("%s, %s: %s"):format(name, mistake.name, symbol)
          local f = told[symbol:gsub("'", "_")]
          lu.assertNotNil(f, what .. " is not told")
          close(v.slips[i][symbol] or v.s[symbol], f(s), 1e-9, what)
          compared = compared + 1
        end
      end
    end
  end
  return compared
end

--- What kinds promise: nobody at an edge or alike, modes level, no slip near the right
-- number, each mistake comes up.
function again.fair(standard, names, units)
  for _, name in ipairs(names) do
    local set, seen = again.of(standard, name, 500), {}
    lu.assertEquals(set.warnings, {}, name)
    local row, least, most = set:difficulty()[1], math.huge, 0
    lu.assertEquals({row.alike, row.used}, {0, 500}, name)
    for _, m in ipairs(row.modes) do
      least, most = math.min(least, m.count), math.max(most, m.count)
    end
    lu.assertTrue(most - least <= 1, name)
    for n, student in ipairs(set.students) do
      local v = student[1]
      for _, symbol in ipairs(v.kind.edge) do
        lu.assertTrue(math.abs(v.s[symbol] - 1) >= 0.02, name)
      end
      lu.assertEquals(v.kind.units, units)
      for i, slips in ipairs(n <= 100 and v.slips or {}) do
        for symbol, x in pairs(slips) do
          lu.assertTrue(math.abs(x / v.s[symbol] - 1) > 0.02, name .. ": " .. symbol)
          seen[i] = true
        end
      end
    end
    lu.assertEquals(#seen, #set.problems[1].kind.mistakes, name)
  end
end

return again
