-- SPDX-License-Identifier: MIT
-- Question: a bath floor of seven 2x10 at 16 in, span 13-6, D 12 + L 40, on 24oc
-- panels; J4 was sawn through at mid-span for a drain. Who carries what now, what does a
-- person of 225 lb at mid-span press down, and what does a sister bring back? Expected,
-- by an independent grid: uncut J4 takes 36 % of the reactions of the 225 lb and sags
-- 0.062 in; cut through, J3 and J5 take 60 % each, the bearings of J4 lift, 0.168 in; all
-- load of the floor puts 29,570 lb-in on J3 and J5, 1.40 of F_b' S at Cr 1.0, and
-- 1137 lb-in per ft on the deck, of 770: not reliable.
local ns = require "netsection"

local WOOD = {Fb = 900, Ft = 575, Fc = 1350, Fv = 180, E = 1.6e6, CF = 1.1,
  Fc_perp = 625, G = 0.5, source = "values given with the example"}

local function bath(cuts)
  local joists = {}
  for i = 1, 7 do joists[i] = {mark = "J" .. i, cuts = i == 4 and cuts or nil} end
  return ns.floor {name = "Bath floor", size = "2x10", spacing = 16, span = "13-6",
    bearing = 3.5, dead = 12, live = 40, material = WOOD, joists = joists}
end

local sister = ns.sister {size = "2x10", material = WOOD, from = "2-6", to = "11-0",
  fastener = ns.fastener {kind = "bolt", diameter = "1/2 in"}, groups = {
    {at = "3-0", n = 4}, {at = "5-6", n = 4}, {at = "8-0", n = 4}, {at = "10-6", n = 4}}}

-- Three shares, each by its name: they differ.
local function shares(title, g)
  print(title)
  print("  joist   R, lb   R share   M share   w share   w at 6-9, in")
  for _, mark in ipairs(g.order) do
    local r = g:of(mark)
    print(("  %-6s %6.1f   %5.1f %%   %5.1f %%   %5.1f %%   %8.3f"):format(mark,
      r.reaction, 100 * r.share.reactions, 100 * r.share.moment, 100 * r.share.deflection,
      g:at(mark, 81).w))
  end
end

local cut = bath {ns.sever {from = "6-6-1/2", to = "6-11-1/2"}}
local repaired = cut:fix("J4", sister)
local person = {deck = "24oc OSB", points = {{joist = "J4", at = "6-9", load = 225}}}

shares("225 lb on J4 at mid-span, uncut", bath():grid(person))
shares("the same, J4 cut through", cut:grid(person))
person.state = "repaired"
shares("the same, J4 with a sister", repaired:grid(person))
print()
local page = ns.report.text(repaired:review {grid = {deck = "24oc OSB"}, feel = true},
  {steps = "none"})
io.write(page:match "(Second opinion.-\n)\nAssumptions")
