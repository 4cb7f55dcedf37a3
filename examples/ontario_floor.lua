-- SPDX-License-Identifier: MIT
-- Question: a plumber went through a floor in Ontario, 38x235 SPF No.1/No.2 at 400 mm
-- over 4.0 m with bridging; what do CSA O86 and 9.23.5 of the code say? Expected by hand:
-- w_f = (1.25 x 0.5 + 1.5 x 1.9) 0.4 = 1.39 kN/m, V_f = 2.78 kN. J1's hole of 58 mm is
-- under d/4 = 58.75. J2's notch of 58 mm in the bottom of the end tears at F_r = 5.41 kN
-- (K_N = 0.962), ratio 0.51: O86 allows it, 9.23.5 no notch in the bottom. J3's hole of
-- 70 mm is past d/4, and 235 - 70 leaves a 38x140, which spans 2.85 m: enough for J4 over
-- 2.7 m, not for J3.
local ns = require "netsection"

local base = ns.joist {mark = "J", species = "SPF", grade = "No.1/No.2",
  edition = "csa-o86-2019", size = "38x235", span = "4000 mm", spacing = "400 mm",
  bearing = "38 mm", dead = "0.5 kPa", live = "1.9 kPa"}
local hole = ns.hole {at = "1200 mm", diameter = "70 mm"}
local joists = {
  base:with {mark = "J1", cuts = {ns.hole {at = "1200 mm", diameter = "58 mm"}}},
  base:with {mark = "J2", cuts = {ns.end_notch {support = "left", face = "bottom",
    depth = "58 mm", length = "138 mm"}}},
  base:with {mark = "J3", cuts = {hole}},
  base:with {mark = "J4", span = "2700 mm", cuts = {hole}},
}
local reviews = {}
for i, joist in ipairs(joists) do
  local r = joist:review {standard = "csa-o86-2019", by_depth = "bridging"}
  reviews[i] = r
  print(("%s: %s; rules %s"):format(r.mark, r.action, r.rules.status))
  for _, reason in ipairs(r.reasons) do print("  " .. reason) end
end
print()
for _, mode in ipairs {"notch-shear", "net-shear"} do
  local k = reviews[2]:find("cut", mode)
  print(("J2 %s, ratio %.3f, %s"):format(mode, k.ratio, k.clause))
  for _, step in ipairs(k.steps) do
    local value = reviews[2].show.coherent(step.value, step.unit) -- N, mm
    print(("  %s%s = %.4g"):format(step.symbol, step.formula and " = " .. step.formula
      or "", value))
  end
end

-- Spans of uncut joists by strength and L/360. The code's own table has shorter ones
-- where the floor would vibrate, for which there is no formula here: 3.96 m for 38x235 at
-- 400 mm with strapping.
print()
print(ns.table {
  title = "Spans by strength and L/360, SPF No.1/No.2, D 0.5 and L 1.9 kPa",
  rows = {name = "size", values = {"38x140", "38x184", "38x235", "38x286"}},
  columns = {name = "spacing", values = {"300 mm", "400 mm", "600 mm"}},
  units = "metric", unit = "ft-in", round = {to = "10 mm", way = "down"},
  standard = "csa-o86-2019", rules = "ca-nbc-9.23.5", joist = base,
  cell = function(size, spacing)
    local joist = base:with {size = size, spacing = spacing, bearing = "90 mm"}
    local span = joist:longest_span {standard = "csa-o86-2019"}
    local uncut = joist:with {span = span}:review {standard = "csa-o86-2019"}.uncut
    return {value = span, letter = ns.table.letter(uncut.governing)}
  end,
}:text())
