-- SPDX-License-Identifier: MIT
-- Question: the kitchen and bath of an old boarding house were plumbed, wired, and burnt
-- once; fourteen joists show it. Which stay, which need a calculation, which a repair?
-- Expected: every action occurs. Holes off center in a lightly stressed joist calculate
-- (justify); a notch that the code allows does not, under the tub (decide); what is cut
-- through, rotten or notched deeper than the standard allows is repaired; an I-joist that
-- replaced one years ago goes to its maker (refer).
-- Two of the repairs are worked out: the smallest sister that does for the joist that is
-- cut through, a hanger for the one notched too deep over its bearing.
-- Writes the report and diagrams into the folder NETSECTION_OUT, or out.
local ns = require "netsection"
local folder = require "netsection.folder"

local tub = ns.tub {from = "1-0", to = "6-0", width = "30 in", empty = "310 lb",
  water = "400 lb", people = "180 lb"}
local partition = ns.line {load = "62 plf", from = "7-6", to = "12-6", case = "dead"}

local floor = ns.floor {
  name = "Old boarding house, first floor: kitchen and bath",
  species = "hem-fir", grade = "No.2", size = "2x10", span = "12-6", spacing = 16,
  bearing = "3-1/2 in", dead = "14 psf", live = 40,
  joists = {
    {mark = "K1"},
    {mark = "K2", cuts = {ns.hole {at = "4-2", diameter = "3/4 in", note = "cable"}}},
    {mark = "K3", cuts = {ns.hole {at = "2-3", diameter = "3-1/2 in", above = "2-1/2 in",
      note = "old waste pipe, now empty"}}},
    {mark = "K4", cuts = {
      ns.hole {at = "9-10", diameter = "51 mm", note = "supply, cold"},
      ns.hole {at = 118 + 3.25, diameter = "51 mm", note = "supply, hot"}}},
    {mark = "K5", cuts = {ns.slot {from = "5-8", to = "6-4", height = 3,
      below = "2-1/8 in", note = "vent duct"}}},
    {mark = "K6", loads = {tub}, cuts = {ns.notch {face = "top", from = "3-1",
      to = "3-4", depth = "1-1/2 in", note = "tub drain"}}},
    {mark = "K7", loads = {tub}, cuts = {ns.notch {face = "bottom", from = "6-0",
      to = "6-5", depth = "1-3/4 in", overcut = "1/8 in"}}},
    {mark = "K8", loads = {tub}, cuts = {ns.end_notch {support = "left", face = "bottom",
      depth = "2-3/4 in", length = "5 in"}}},
    {mark = "K9", cuts = {ns.sever {from = "0.9 m", to = "3'-5\"",
      note = "closet bend of the toilet"}}},
    {mark = "K10", cuts = {ns.loss {from = "0-6", to = "2-0", from_right = true,
      top = "1 in", sides = "1/4 in", cause = "rot"}}},
    {mark = "K11", size = "full-sawn 2x10", spacing = {16, 19}, cuts = {
      ns.loss {from = "4-0", to = "8-6", bottom = "3/8 in", sides = "1/4 in",
        allowance = "1/4 in", cause = "char", note = "stove fire"}}},
    {mark = "K12", spacing = "480 mm", loads = {partition}, cuts = {
      ns.split {from = "8-0", to = "9-9", at_depth = 4}}},
    {mark = "K13", spans = {"8-0", "4-6"}, loads = {partition}, cuts = {
      ns.notch {face = "top", from = "7-9", to = "8-3", depth = "1 in"},
      ns.hole {at = "3-0", diameter = "2 in"}}},
    {mark = "K14", member = "I-joist", b = "2-1/2 in", d = "9-1/2 in", cuts = {
      ns.hole {at = "3-6", diameter = 4}}},
  },
}

local out = os.getenv "NETSECTION_OUT" or "out"

-- Has gnuplot draw a script; true if it ended well.
local function draw(script)
  return (os.execute(('gnuplot "%s"'):format(script))) == true
end

local function write(name, text)
  local path = out .. "/" .. name
  assert(ns.write(path, text))
  return path
end

assert(folder.make(out))
local bolt = ns.fastener {kind = "bolt", diameter = "1/2 in"}
local sister = assert(ns.size_sister(floor:joist "K9", {fastener = bolt}))
floor = floor:fix("K9", sister):fix("K8", ns.hanger {support = "left",
  capacity = "1200 lb"})
local review = floor:review()
local written = {write("floor.txt", ns.report.text(review))}

local asked <close> = io.popen "gnuplot --version 2>&1"
local rendered = asked:read "a":find "^gnuplot" ~= nil
for _, mark in ipairs {"K3", "K7", "K8", "K9", "K13"} do
  for _, kind in ipairs {"moment", "shear", "elevation"} do
    local name = mark .. "-" .. kind
    local picture = ("%s/%s.png"):format(out, name)
    local script = write(name .. ".gp", ns.plot[kind](review.joists[mark],
      {output = picture}))
    if rendered then assert(draw(script), script) end
    written[#written + 1] = ("%s  draws %s.png"):format(script, name)
  end
end

local counts = {}
for _, action in ipairs {"leave", "justify", "decide", "repair", "refer"} do
  counts[#counts + 1] = ("%s %d"):format(action, review.actions[action])
end
print(("%s\n%d joists: %s\n"):format(review.name, review.summary.count,
  table.concat(counts, ", ")))
print(ns.report.overview(review))
print("\nwritten:")
for _, name in ipairs(written) do print("  " .. name) end
if not rendered then
  io.stderr:write "gnuplot is not on PATH: run the .gp scripts with it for the pictures\n"
end
