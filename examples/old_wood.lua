-- SPDX-License-Identifier: MIT
-- Question: a house of about 1912 has full-sawn 2x10 joists of Douglas fir, one of them
-- charred by a small fire. What did the stresses of its time allow, and what do today's
-- values say? Expected: the joist is no stronger for its age. The set of 1911 is about
-- what was allowed then, printed with the word that it is not today's design values; char
-- takes its depth, and a quarter inch of heated wood under it if that is asked for.
local ns = require "netsection"

local char = {from = "5-0", to = "8-0", bottom = "1/2 in", sides = "1/4 in",
  cause = "char"}
local function joist(more)
  local t = {mark = "K3", size = "full-sawn 2x10", span = "14-6", spacing = 16,
    bearing = 3.5, dead = 12, live = 40}
  for name, value in pairs(more) do t[name] = value end
  return ns.joist(t)
end
local function charred(allowance)
  local t = {allowance = allowance}
  for name, value in pairs(char) do t[name] = value end
  return {ns.loss(t)}
end

local WOODS = {
  {"1911, as in its table", {historic = "1911 Douglas fir"}},
  {"1911, for buildings", {historic = {set = "1911 Douglas fir", buildings = true}}},
  {"today, No.1 by species and grade", {species = "Douglas Fir-Larch", grade = "No.1"}},
}
print(("%-34s %6s %6s %18s"):format("largest ratio", "uncut", "char", "char + allowance"))
for _, wood in ipairs(WOODS) do
  local j = joist(wood[2])
  print(("%-34s %6.2f %6.2f %18.2f"):format(wood[1], j:review().uncut.ratio,
    j:with({cuts = charred(nil)}):review().cut.ratio,
    j:with({cuts = charred "1/4 in"}):review().cut.ratio))
end

print()
local r = joist({historic = "1911 Douglas fir", cuts = charred "1/4 in"}):review()
print(ns.report.text(r, {steps = "none"}))
return r
